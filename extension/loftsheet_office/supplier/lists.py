"""The lists of a supplier's file, declared: their tables with every column, and the words that go with them.

A list is one table of the schedule, shown as one table or as two with the row's name first in each. What is the
same for all its rows stands in words below them. Nothing here is calculated.
"""

from dataclasses import dataclass
from typing import Optional

NO_WORD = ("", "")  # of no column
METRIC, IMPERIAL = "metric", "inches and pounds"
ITEM, PRICE, TOTAL, LEAD = "Item", "Your price per unit", "Your total", "Your lead time, days"
CURRENCY = "Your currency, if another"
STATED = "Currency:"  # at the head of the file, for rows that name none of their own


@dataclass(frozen=True)
class Field:
    """One value of the schedule: its key there, its heading, its unit, and to how many places it is shown.

    A share whose unit is % is shown in percent. An optional column is left out where the schedule
    is of a release that had none.
    """

    key: str
    title: str = ""
    unit: str = ""
    digits: Optional[int] = None
    width: float = 8.5
    format: str = ""
    optional: bool = False
    blank: str = ""


@dataclass(frozen=True)
class Part:
    """One table of a list: what it is for, how it is to be read, and its columns."""

    title: str
    text: str
    fields: "tuple[Field, ...]"


@dataclass(frozen=True)
class Fact:
    """Words for all rows of a list, values of Boat in braces; left out where what they need is not there.

    They need a column of the list, or a value of Boat that schedules of an earlier release lack.
    """

    title: str
    text: str
    needs: str = ""


@dataclass(frozen=True)
class Listing:
    """One list: the table of the schedule that it comes from, its parts, and what is the same for all rows.

    Rows are left out that hold in a column, if it is there, the word that is given with it under `without`. Of a
    list with a word under `only` no other rows are shown, and where there are none there is no list.
    """

    table: str
    parts: "tuple[Part, ...]"
    facts: "tuple[Fact, ...]" = ()
    without: "tuple[str, str]" = NO_WORD
    only: "tuple[str, str]" = NO_WORD

    @property
    def fields(self) -> "tuple[Field, ...]":
        """Every column that is read, once."""
        return tuple({field.key: field for part in self.parts for field in part.fields}.values())


NUMBER = Field("number", "Number", digits=0, width=7)
STAY = (Field("name", "Stay", width=25), NUMBER)
STUB = (Field("name", "Stub", width=25), NUMBER)
WASTE = Fact("Waste", "Rope to cut includes {waste} at each end, which comes off when the tail is tapered.")

ORDER = Listing(
    "order",
    (
        Part(
            "To be quoted",
            "Materials only. Fill in your price, total and lead time in days, and your currency where it is not "
            "the one above; splicing, sawing, carriage and taxes go on lines of your own below the list. Return "
            "the spreadsheet. Leave the names of the items as they are: prices are read back by them.",
            (
                Field("name", ITEM, width=21),
                Field("quantity", "Quantity", digits=2, width=8.5),
                Field("unit", "Unit", width=16),
                Field("longest", "Longest piece", "mm", 0, width=8.5),
                Field("exactly", "What exactly", width=58, optional=True),
                Field("", PRICE, width=10),
                Field("", TOTAL, width=9.5),
                Field("", CURRENCY, width=9.5),
                Field("", LEAD, width=9),
                Field("note", "Note", width=13),
            ),
        ),
    ),
    (
        Fact(
            "Quantities",
            "Rope is what stays, lashings and rope loops of chainplates need, {rope_waste} more, and {trial} of "
            "each for a trial splice, which is the buyer's work. The longest piece has to come in one length, the "
            "rest in as few as you stock. Where you sell whole packs only, quote per unit all the same, and say "
            "the pack under Note.",
        ),
        Fact(
            "What will do",
            "Breaking load, EA, working load and strength are the least that will do, a rope's diameter is "
            "nominal. What is not said, such as colour, coating or make, is as your catalogue. An equal will do: "
            "say under Note what it is.",
        ),
        Fact("Certificates", "{certificates}.", "certificates"),
        Fact("Your offer", "{terms}. Send it to whom questions go.", "terms"),
    ),
)

MAKE_UP = Listing(
    "stays",
    (
        Part(
            "Cut and splice",
            "Throat-to-throat lengths are for the finished stay at the tension shown, after bedding in by several "
            "pulls to it. An eye's length, flat, is half the rope between its two throat marks. Rope is cut and "
            "marked under the light tension given below.",
            (
                *STAY,
                Field("rope", "Rope", width=21),
                Field("cut", "Rope to cut", "mm", 0, width=19.5),
                Field("rope_size", "Rope's diameter", "mm", 1, width=8),
                Field("span", "Throat to throat", "mm", 0, width=10),
                Field("pretension", "… under a tension of", "kN", 1, width=9),
                Field("upper_eye", "Upper eye, flat", "mm", 0),
                Field("lower_eye", "Lower eye, flat", "mm", 0),
                Field("bury", "Bury", "mm", 0, width=9),
                Field("taper", "of it tapered", "mm", 0, width=9),
            ),
        ),
        Part(
            "Ends, sleeves, lashing",
            "The diameter is that under the eye: of the stub's rod, at the bottom of the ring's groove, or of "
            "a pin. The lashing goes from the lower eye's ring or pin to the stay's lower point.",
            (
                *STAY,
                Field("sleeve", "Sleeve, on both eyes", width=20),
                Field("line", "Lashing line", width=19.5),
                Field("parts", "Parts of the lashing", digits=0, width=8),
                Field("line_each", "Line for one lashing", "mm", 0),
                Field("upper_over", "Upper eye over", width=8),
                Field("upper_under", "Upper diameter", "mm", 1),
                Field("upper_ring", "Upper ring", width=11.5),
                Field("lower_over", "Lower eye over", width=8),
                Field("lower_under", "Lower diameter", "mm", 1),
                Field("lower_ring", "Lower ring", width=11.5),
            ),
        ),
    ),
    (
        Fact("Sleeve", "For each eye twice its length laid flat and {gather} more, so that it lies gathered."),
        Fact(
            "Bury",
            "{bury} rope diameters, the tip tapered, lock-stitched from the throat over a sixth of the bury.",
        ),
        Fact(
            "Marks, from either end",
            "Tail's tip at {waste}; the taper starts as far behind it as is tapered; throat on the tail a bury "
            "behind the tip; crown an eye further; throat on the standing part another eye further; from there "
            "the lock stitch ends after a sixth of the bury, and the fid goes in after {growth} times the bury. "
            "Where marks of both ends overlap, mark the second end when the first is spliced.",
            "growth",
        ),
        WASTE,
    ),
    without=("made_of", "existing wire"),
)

LOOPS = Listing(
    "chainplates",
    (
        Part(
            "Cut, lay and splice",
            "Endless loops that are chainplates: each goes round the bar, or through the plate's hole, and "
            "through a ring, all turns side by side, and its two ends are buried past each other. Inside is "
            "that of the finished loop, laid flat and taut. Rope is cut and marked under the light tension given "
            "below.",
            (
                Field("name", "Loop at", width=25),
                Field("count", "Number", digits=0, width=7),
                Field("rope", "Rope", width=21),
                Field("cut", "Rope to cut", "mm", 0, width=10),
                Field("rope_size", "Rope's diameter", "mm", 1, width=9),
                Field("turns", "Turns", digits=0, width=7),
                Field("round", "Loop round", width=8),
                Field("around", "… of a thickness of", "mm", 1, width=10),
                Field("ring", "Ring", width=13),
                Field("inside", "Inside, laid flat", "mm", 0),
                Field("bury", "Bury, each tail", "mm", 0),
                Field("pull", "Pull several times to", "kN", 1, width=9),
            ),
        ),
    ),
    (
        Fact(
            "Marks, from either end",
            "Tail's tip at {waste}; the taper starts {taper} of the bury behind it; the ends cross a bury behind "
            "the tip; from there the lock stitch ends after a sixth of the bury, and the fid goes in after "
            "{growth} times the bury. Where marks of both ends overlap, mark the second end when the first is "
            "buried.",
            "growth",
        ),
        Fact(
            "Splice",
            "Bring the two crossing marks together and bury each tail in the other's standing part, away from "
            "the crossing. A loop round a plate's hole, or a bar that stays, is spliced in its place.",
        ),
        WASTE,
    ),
    only=("made_of", "rope loop"),
)

TANGS = Listing(
    "tangs",
    (
        Part(
            "Saw and drill",
            "Both ends are sawn: the outer one square, the one at the mast bevelled by the angle given, from "
            "square. The short side is on top. Drill from the bevelled face, square to it; positions of the hole "
            "are to its centre, down the face they are on. On the mast the top is turned round the bolt towards "
            "its stay, forward by the angle given; negative is aft.",
            (
                *STUB,
                Field("mast", "Mast", width=10, optional=True),
                Field("rod", "Rod", width=18),
                Field("rod_size", "Diameter", "mm", 1),
                Field("bevel", "Bevel", "°", 1),
                Field("top", "Short side, on top", "mm", 1),
                Field("base", "Long side, below", "mm", 1),
                Field("face", "Bevelled face, height", "mm", 1),
                Field("hole", "Hole below top of bevelled face", "mm", 1, width=9.5),
                Field("exit", "Comes out below top of square end", "mm", 1, width=9.5),
                Field("bolt_hole", "Drill", "mm", 1),
                Field("turn", "Turned forward", "°", 0, optional=True),
            ),
        ),
        Part(
            "Assemble",
            "Stubs on one bolt: where it is 2, one bolt goes through the mast with a stub on each side. Two rows"
            " that share a bolt count half a bolt each: make it once, to the larger of their sizes.",
            (
                *STUB,
                Field("bolt", "Bolt", width=18),
                Field("sides", "Stubs on one bolt", digits=0),
                Field("bolts", "Bolts", digits=2),
                Field("bolt_length", "Bolt length", "mm", 1),
                Field("shank", "Plain shank", "mm", 1),
                Field("washer", "Tapered washer, outside diameter", "mm", 1, width=9.5),
                Field("wedge", "Tapered washer, thick edge", "mm", 1, width=9.5),
                Field("rise", "End plate, drawn out upwards by", "mm", 1, width=9.5),
                Field("girth", "End plate, around", "mm", 0),
                Field("saddle", "Pad, hollow to fill", "mm", 1),
                Field("tube", "Compression tube, length", "mm", 1, width=12, optional=True, blank="wall unknown"),
            ),
        ),
    ),
    (
        Fact(
            "Port and starboard",
            "Mirror images of each other. The hole's place is within ± {drill_off}.",
            "drill_off",
        ),
        Fact("Other tolerances", "{tolerance}; the tube no longer than listed.", "tolerance"),
        Fact("Cut faces", "{faces}.", "faces"),
        Fact(
            "End plate",
            "FR-4 sheet, {plate} thick: two half circles of the rod's diameter, the upper one higher by what is "
            "listed, straight sides between them. No more around it than listed, for the eye is passed over it. "
            "Drilled together with the stub, clamped on its square end. Halfway up what is drawn out a hole for "
            "the keeper line, a third of that across and {keeper_hole} at most.",
        ),
        Fact(
            "Tapered washer",
            "Thin edge {thin}, thick edge as listed, fitted uppermost; outside diameter as listed; bore as Drill, "
            "square to its flat face. Its slanted face lies on the end plate. Lock it to the plate, with a pin or "
            "glue: loose, the nut turns it.",
        ),
        Fact("Flat washer", "{flat} thick, between the tapered washer and the nut."),
        Fact("Nuts", "{nuts} on each bolt, of the bolt's size. Nuts and washers of each size: below the order."),
        Fact("Nuts tightened", "{tightened}.", "tightened"),
        Fact(
            "Bolt",
            "Thread at the ends only, the plain shank in the middle as long as listed: thread inside a stub would "
            "cut the rope if the rod failed.",
        ),
        Fact(
            "Pad",
            "Between stub and mast, as large as the bevelled face, bored as Drill, {pad} thick in the middle "
            "and thicker towards its fore and aft edges: at the rod's edge by what is listed, for the round of "
            "the mast. Deliver a flat blank as thick as both together; it is shaped on the mast.",
        ),
        Fact(
            "Compression tube",
            "Over the bolt inside the mast, between its walls; bore as Drill or the next larger that is "
            "stocked, ends square. One for each bolt.",
            "tube",
        ),
    ),
)

LISTS = {"Order": ORDER, "Make-up list": MAKE_UP, "Rope loops": LOOPS, "Stub cutting list": TANGS}

# Values of Boat that the words name.
NAMED = (
    Field("gather", unit="%", digits=0),
    Field("bury", digits=0),
    Field("waste", unit="mm", digits=1),
    Field("plate", unit="mm", digits=1),
    Field("thin", unit="mm", digits=1),
    Field("flat", unit="mm", digits=1),
    Field("pad", unit="mm", digits=1),
    Field("nuts", digits=0),
    Field("drill_off", unit="mm", digits=1, optional=True),
    Field("growth", digits=3, optional=True),
    Field("taper", unit="%", digits=1, optional=True),
    *(Field(key, optional=True) for key in ("tolerance", "faces", "tightened", "certificates", "terms")),
    Field("rope_waste", unit="%", digits=0),
    Field("trial", unit="m", digits=1),
)
ASSUMED = (
    Field("rm30", "Righting moment at 30°", "kN·m", 1),
    Field("margin", "Safety factor required of the rope", digits=2),
    Field("splice", "Breaking load left by a splice", "%", 0),
    Field("ageing", "Breaking load left by ageing", "%", 0),
    Field("throat", "Maximum throat angle", "°", 0),
    Field("bury", "Bury", "rope diameters", 0),
    Field("waste", "Waste at each end", "mm", 1),
    Field("rope_waste", "Extra rope bought", "%", 0),
)
