"""One call of every function that is right: shown with it, and varied by the tests.

Invented numbers that follow from one another: the cap shroud of *Marrowick*, as the schedule of that boat works it
out: 10 mm rope on a stub of 65 mm rod, an M20 bolt through a mast 110 mm wide. A test holds them against it.
"""

from dataclasses import dataclass
from typing import Any, Optional

from loftsheet.errors import REFUSED, CellError
from loftsheet.measure import digits


@dataclass(frozen=True)
class TypedCell:
    """A cell with nothing around it, as its working sees it."""

    address: str
    formula: str
    value: Optional[float]
    error: Optional[CellError] = None

    def resolve(self, name: str) -> None:
        return None


class NamedRange(tuple[tuple[Any, ...], ...]):
    """Rows of cells that would be too long to type into a formula; shown by their name."""

    name: str

    @classmethod
    def of(cls, name: str, *rows: "tuple[Any, ...]") -> "NamedRange":
        made = cls(rows)
        made.name = name
        return made


UPPER, LOWER = (-225.0, 55.0, 12_898.0), (-150.0, 1_202.0, 6_560.0)  # on the mast, at the spreader's tip
ENDS = UPPER + LOWER
OUT_ANGLE, ROPE = 10.3, 10.0
BLANK = (65.0, 12.3, 17.0)  # rod, bevel, top
STUB = (*BLANK, 29.1)  # and hole
EYE = (215.0, 65.0, ROPE)  # eye, rod, rope
CUT = (12_762.0, 215.0, 120.0, 720.0, 0.0126)  # span, upper and lower eye, bury, stretch when worked
M20 = (20.0, 2.5)
TENSION = 9.3
SPLIT = (-227.0, 0.0, 12_998.0, -4_320.0, 0.0, 3_200.0, -5_580.0, 705.0, 190.0)  # upper end, split, leg
INNER, OUTER = (7.0, 8.3, 15.5), (6.0, 9.0, -17.0)  # two lowers: tension, out and fore
BOLTS = (((16.0,), (20.0,), (24.0,)), ((2.0,), (2.5,), (3.0,)), ((700.0,),) * 3, ((450.0,),) * 3)
RODS = ((45.0,), (52.0,), (65.0,))
PLATE = (8.0, 17.0)  # thickness, hole
PULLS = (((0.3,), (0.9,)), ((-0.3,), (-1.0,)), ((8.5,), (4.4,)))  # fore, out and up, of two stays

# The smallest rig that stands: a mast, two shrouds, a forestay and a backstay; heeled, and on a cold night.
SMALL_RIG = (
    NamedRange.of("masts", ("mast", 0.0, 0.0, 0.0, 8_000.0, 69.0, 23.6, 80.0, 110.0, 3.0)),
    NamedRange.of(
        "points",
        ("top", "mast", 0.0, 0.0, 8_000.0),
        ("shroud on mast", "mast", 0.0, 40.0, 7_800.0),
        ("chainplate", "", -400.0, 1_100.0, 0.0),
        ("stem", "", 2_600.0, 0.0, 200.0),
        ("stern", "", -3_000.0, 0.0, 300.0),
    ),
    NamedRange.of(
        "stays",
        ("shrouds", "both", "shroud on mast", "", "", "chainplate", 2_000.0, -12.0, 1.2),
        ("forestay", "", "top", "", "", "stem", 2_000.0, -12.0, 1.5),
        ("backstay", "", "top", "", "", "stern", 2_000.0, -12.0, ""),
    ),
    NamedRange.of("cases", ("heeled", "starboard", 20.0, 0.0, ""), ("cold night", "", "", -15.0, "")),
    NamedRange.of("loads", ("heeled", "mast", 7_800.0, 0.3)),
)

EXAMPLES: "dict[str, tuple[Any, ...]]" = {
    # Survey
    "RIG.MAST.FORE": (6_560.0, 1.0, 0.0, 150.0),
    "RIG.MAST.UP": (6_560.0, 1.0, 0.0, 150.0),
    "RIG.STAY.LENGTH": ENDS,
    "RIG.STAY.OUT": ENDS,
    "RIG.STAY.FORE": (*ENDS, 1.0),
    "RIG.STAY.ANGLE": (*ENDS, 1.0),
    "RIG.STAY.PULL": (*ENDS, 1.0),
    "RIG.STAY.PULL.FORE": (*ENDS, 1.0),
    "RIG.STAY.PULL.OUT": ENDS,
    "RIG.STAY.PULL.DOWN": (*ENDS, 1.0),
    "RIG.SPREADER.PUSH": (TENSION, OUT_ANGLE, 2.4),
    "RIG.SPREADER.RISE": (OUT_ANGLE, 2.4),
    # Rod tang
    "RIG.TANG.BEVEL": (OUT_ANGLE, 2.0),
    "RIG.TANG.THRUST": (TENSION, OUT_ANGLE, 12.3),
    "RIG.TANG.TOP": (ROPE, 12.3, 1.0, 3.0, 1.0),
    "RIG.TANG.BASE": BLANK,
    "RIG.TANG.FACE": (65.0, 12.3),
    "RIG.TANG.HOLE": (*BLANK, 60.0, ROPE, 1.0, 6.0, 15.0),
    "RIG.TANG.UPRIGHT": (*STUB, 10.5),
    "RIG.TANG.LIGAMENT": (29.1, 20.5),
    "RIG.TANG.GRIP": STUB,
    "RIG.TANG.EXIT": STUB,
    "RIG.TANG.LIGAMENT.END": (*STUB, 20.5),
    "RIG.TANG.RISE": (ROPE, 1.0, 3.0),
    "RIG.TANG.GAP": (60.0, 12.3, 17.0, 29.1, ROPE, 1.0, 6.0, 15.0),
    "RIG.TANG.WEDGE": (37.0, 12.3, 1.5),
    "RIG.TANG.SADDLE": (65.0, 80.0, 55.0),
    "RIG.TANG.CLEAR": (30.0, OUT_ANGLE),
    "RIG.TANG.ARM": (*STUB, OUT_ANGLE, 4.0, 8.5),
    "RIG.TANG.DROP": (*STUB, 215.0, 20.0, ROPE, 1.0, 10.5),
    "RIG.TANG.MASS": (*BLANK, 1_850.0),
    "RIG.NEED.ROD": (ROPE, 20.5, 12.3, 3.0, 8.0),
    "RIG.ROD.PIECES": (600.0, *BLANK, 3.0, 80.0),
    "RIG.ROD.LENGTHS": (600.0, 65.0, ((12.3,), (12.2,)), ((17.0,), (17.0,)), ((4.0,), (2.0,)), 3.0, 80.0),
    "RIG.ROD.WRAP": (65.0, 12.3, 25.0),
    # Bolt, mast wall, rod under load
    "RIG.BOLT.AREA": (*M20, 0.9382),
    "RIG.BOLT.CORE": M20,
    "RIG.BOLT.SHEAR": (244.8, 700.0, 1.0, 0.6, 1.25),
    "RIG.BOLT.TENSION": (244.8, 700.0, 1.25),
    "RIG.BOLT.PULL": (TENSION, OUT_ANGLE),
    "RIG.BOLT.CAPACITY": (21.2, OUT_ANGLE, 424.0, 82.3, 123.4),
    "RIG.PIN.BENDING": (20.0, 450.0, 1.25, 1.5),
    "RIG.PIN.BEARING": (20.0, 4.0, 240.0, 1.1),
    "RIG.PIN.USE": (197.0, 424.0, 9.1, 82.3),
    "RIG.TANG.MOMENT": (TENSION, 21.2),
    "RIG.MAST.BEARING": (TENSION, OUT_ANGLE, 21.2, 108.0),
    "RIG.ROD.BEARING": (TENSION, OUT_ANGLE, 20.0, 23.7, 21.2, 4.0),
    "RIG.ROPE.PRESSURE": (TENSION, ROPE, 65.0),
    "RIG.BOLT.LENGTH": (110.0, 2.0, 23.7, 12.6, 57.0, 2.0),
    "RIG.BOLT.SHANK": (110.0, 2.0, 23.7),
    "RIG.BOLT.ENDS": (*M20, 2.0, 1.2),
    # Two eyes on one stub
    "RIG.TANG.LEAN": (*INNER[1:], 12.3, 5.0),
    "RIG.TANG.SWING": (*INNER[1:], 12.3, 5.0),
    "RIG.TANG.COVER": (65.0, 15.0, 20.0),
    "RIG.TANG.OVERHANG": (*BLANK, 5.0, 10.5),
    "RIG.EYE.UNEVEN": (5.0, 26.0, 0.15),
    "RIG.DOUBLE.APART": (ROPE, 9.0, 1.0, 1.5),
    "RIG.DOUBLE.TOP": (ROPE, 9.0, 12.3, 1.0, 1.5, 3.0),
    "RIG.DOUBLE.BEVEL": (*INNER[1:], *OUTER[1:], 2.0),
    "RIG.DOUBLE.TURN": (*INNER, *OUTER, 4.0, 1.5),
    "RIG.DOUBLE.MOMENT": (*INNER, 23.0, 4.0, *OUTER, 34.5, 1.5, 2.0),
    "RIG.DOUBLE.TWIST": (*INNER, 4.0, *OUTER, 1.5, 2.0),
    "RIG.DOUBLE.SHEAR": (*INNER, *OUTER),
    "RIG.DOUBLE.PULL": (*INNER, *OUTER),
    "RIG.DOUBLE.FIT": (*INNER[1:], *OUTER[1:], 12.6, 0.15),
    # Bolt and rod as made
    "RIG.BOLT.STRENGTH": (70.0,),
    "RIG.BOLT.PROOF": (70.0,),
    "RIG.BOLT.FIGURES": (700.0, 450.0, 70.0),
    "RIG.BOLT.PLAIN": (240.0, 16.0),
    "RIG.BOLT.BENDING": (*M20, 450.0, 24.0, 4.0, 5.0, 22.0, 1.25, 1.5),
    "RIG.BOLT.MARGIN": (220.0, 8.95, 1.63, 217.0, 52.7, 79.1),
    "RIG.ROD.SHEAR": (TENSION, OUT_ANGLE, 13.5, 22.0),
    "RIG.ROD.MARGIN": (40.0, 250.0, 15.0, 90.0),
    # Smallest bolt and rod
    "RIG.NEED.STUB": (
        *(*BOLTS, RODS, ROPE, 8.3, 13.0, 28.0, 2.0, 1.5, 1.0, 5.0, 0.5, 8.0, 0.75, 3.0, 0.5, 0.1, 30.0),
        *(1.25, 1.5, 0.8, 0.6, 9.0, 1.5, 9.0, 15.5, -17.0, 1.0, 0.0, 15.0),
    ),
    # Chainplate
    "RIG.GROMMET.INSIDE": (300.0, 40.0, 30.0),
    "RIG.GROMMET.MARKS": (355.0, 6.0, 432.0, 0.1, 50.0, 3.0, 0.01, 0.4, 1.3),
    "RIG.BEND.EDGE": (8.0, 3.0),
    "RIG.PLATE.CAPACITY": (*PLATE, 22.0, 16.0, 220.0, 1.1),
    "RIG.PLATE.END": (40.0, *PLATE, 220.0, 1.1),
    "RIG.PLATE.SIDE": (40.0, *PLATE, 220.0, 1.1),
    "RIG.PLATE.THICKNESS": (40.0, 220.0, 1.1),
    # Eye and loop
    "RIG.EYE.REACH": (*EYE, 1.0),
    "RIG.EYE.ANGLE": (*EYE, 1.0),
    "RIG.EYE.LENGTH": (65.0, ROPE, 30.0, 1.0),
    "RIG.EYE.CAPACITY": (116.0, 1.0, 30.0, 0.9),
    "RIG.LEG.LOAD": (TENSION, 30.0),
    "RIG.LOOP.FIT": (*EYE, 1.0, 200.0, 40.0),
    "RIG.LOOP.PLAY": (*EYE, 1.0),
    "RIG.SLEEVE.LENGTH": (215.0, 0.15),
    "RIG.GROMMET.CUT": (600.0, 6.0, 432.0, 0.1, 50.0, 2.0, 0.01),
    "RIG.GROMMET.CAPACITY": (38.0, 0.9, 1.0, 0.9, 2.0),
    # Splice
    "RIG.FID": (ROPE, 21.0),
    "RIG.BURY": (ROPE, 72.0),
    "RIG.TAPER": (720.0, 0.4),
    "RIG.BURY.MARK": (720.0, 1.3),
    "RIG.TRIAL.TAKEUP": (1_000.0, 928.0, 720.0),
    "RIG.TRIAL.SET": (1_000.0, 1_010.0),
    "RIG.BENCH.TENSION": (ROPE,),
    "RIG.SPAN": (13_055.5, 149.5, 84.4, 60.0),
    "RIG.CUT": (*CUT, 0.1, 50.0),
    "RIG.BENCH": (*CUT, 0.1, 50.0, 0.4, 1.3),
    # Strength
    "RIG.BEND.RATIO": (65.0, ROPE),
    "RIG.BEND.WIRE": (5.0,),
    "RIG.BEND.ROPE": (1.5, 2.0, ((1.0, 0.5), (2.0, 1.0))),
    "RIG.CAPACITY": (116.0, 0.9, 0.8, 201.8, 202.2),
    "RIG.MARGIN": (116.0, TENSION, 0.9, 0.8, 201.8, 202.2),
    "RIG.MARGIN.SPARE": (3.5, 3.0),
    "RIG.WEAKEST": ("rope", 0.2, "bolt", -0.1, "rod", 0.4),
    "RIG.NEED.STRENGTH": (TENSION, 3.0, 0.9, 0.8),
    "RIG.HOLD.LIMIT": (35.0, 0.15, 5.0, 145.0),
    "RIG.NEED.HOLD": (2.6, 0.15),
    "RIG.NEED.STRETCH": (3_802.0, 37.5),
    "RIG.ROPE.SIZE": (((8.0,), (9.0,), (10.0,)), ((75.0,), (94.0,), (116.0,)), 101.4),
    "RIG.WIRE.BREAK": (7.0, 1_570.0, 0.525),
    # Stretch, temperature, creep
    "RIG.ROPE.EA": (116.0, 37.5),
    "RIG.WIRE.EA": (7.0, 130.0, 0.76),
    "RIG.STRETCH": (TENSION, 13_055.0, 4_350.0),
    "RIG.TEMP.TIGHTEN": (12_900.0, 13_055.0, 20.0, 23.6, -12.0),
    "RIG.TENSION.CHANGE": (9.2, 13_055.0, 4_350.0),
    "RIG.TENSION.AFTER": (2.6, 5.0, 13_055.0, 4_350.0),
    "RIG.TENSION.PLUCK": (6_300.0, 58.0, 16.0),
    "RIG.CREEP": (13_055.0, 0.00004, 5.0, 2.6, 3.0, 5.0, 30.0, 20.0, 145.0),
    # Loads
    "RIG.RM.INCLINE": (0.8, 1_500.0, 4.0),
    "RIG.SHROUD.TOTAL": (20.0, 1_480.0, 1.5, 10.0),
    "RIG.SHROUD.SIDE": (1.6, OUT_ANGLE, 0.5),
    "RIG.MAST.PUSH": (20.0, 1_480.0, 2.78),
    "RIG.PRETENSION": (TENSION, 25.0, 1.5),
    "RIG.BACKSTAY": (5.0, 0.32, 0.42),
    "RIG.LASHING.SHARE": (6.0, 0.15),
    "RIG.LASHING.HAUL": (2.6, 6.0, 0.15, 1.0),
    "RIG.LASHING.PARTS": (TENSION, 15.0, 3.0, 0.15, 0.8),
    "RIG.LASHING.GAP": (13_055.0, 0.0126, 0.002, 60.0),
    "RIG.LASHING.LINE": (240.0, 6.0, 30.0, 1_000.0),
    # Lashing
    "RIG.LASHING.HOLE": (6.0, 6.0, 2.0),
    "RIG.LASHING.ROOM": (18.0, 6.0),
    "RIG.LASHING.CLOSE": (80.0, 30.0, 9.0, 14.0, 1.0),
    # Statics of stays
    "RIG.PAIR.TENSION": (3.0, 0.07, 0.21, -0.14, 0.22),
    "RIG.STAY.BALANCE": (5.0, 0.32, -0.4),
    "RIG.SPLIT.ANGLE": (*SPLIT, -5_580.0, -705.0, 190.0),
    "RIG.SPLIT.TENSION": (3.8, *SPLIT, -5_580.0, -705.0, 190.0),
    "RIG.SPLIT.FORE": (-227.0, 12_998.0, -5_580.0, 190.0, 3_200.0),
    "RIG.PULL.SUM": PULLS,
    "RIG.PULL.LEAN.FORE": PULLS,
    "RIG.PULL.LEAN.OUT": PULLS,
    "RIG.ANGLE.BETWEEN": (560.0, 1_400.0, -6_360.0, -750.0, 1_400.0, -6_000.0),
    # Sail cases
    "RIG.CASE.EFFORT": (((0.5, 0.5),), ((13_800.0, 7_100.0),)),
    "RIG.CASE.FORCE": (20.0, 10_450.0, 1.5, 30.0),
    "RIG.CASE.SHROUD": (1.4, 0.178),
    "RIG.CASE.LOWERS": (1.4, 7.9, 0.178, 0.042),
    # Strain budget
    "RIG.STRAIN": (2.6, 4_350.0),
    "RIG.RELAX.TIME": (2.6, 4_350.0, 0.00004, 0.5, 3.0, 5.0, 30.0, 20.0, 145.0),
    "RIG.RELAX.LEFT": (2.6, 4_350.0, 0.00004, 5.0, 3.0, 5.0, 30.0, 20.0, 145.0),
    "RIG.SLACK.HEEL": (2.6, 9.3, 1.5),
    "RIG.CREEP.TEMP": (((6.0, 8.0, 15.0, 22.0, 19.0, 9.0),), 145.0),
    "RIG.TENSION.EXPECTED": (2.6, 12_900.0, 13_055.0, 4_350.0, -10.0, 23.6, -12.0),
    "RIG.STAY.SAG": (9.0, 13_600.0, 60.0),
    "RIG.STAY.NOTE": (2.6, 6_300.0, 58.0),
    "RIG.TRIAL.EA": (2.0, 5.0, 3_000.0, 3_003.1),
    # Mast section
    "RIG.TUBE.AREA": (110.0, 160.0, 4.0),
    "RIG.TUBE.INERTIA": (110.0, 160.0, 4.0),
    # Balance
    "RIG.BALANCE.WORDS": SMALL_RIG,
    "RIG.BALANCE.STAYS": SMALL_RIG,
    "RIG.BALANCE.MASTS": SMALL_RIG,
    "RIG.BALANCE.CASES": SMALL_RIG,
    "RIG.BALANCE.EFFECT": SMALL_RIG,
    "RIG.BALANCE.FELT": SMALL_RIG,
    "RIG.BALANCE.LINES": ("stays", *SMALL_RIG),
    "RIG.BALANCE.TENSION": ("forestay", "heeled", *SMALL_RIG),
    "RIG.BALANCE.POINT": ("top", "heeled", *SMALL_RIG),
    # Mass
    "RIG.ROPE.MASS": (13_055.0, ROPE, 0.58),
    "RIG.WIRE.MASS": (13_055.0, 7.0, 8_000.0, 0.76),
    "RIG.RM.GAIN": (15.0, 7_000.0, 30.0),
    # Words and units
    "RIG.READ": ("3/8 in", "mm"),
    "RIG.SHOW": (9.525, "in", 16.0),
    "RIG.CHECK": ("rope", 7.0, 8.0, 11.0, "mm"),
    "RIG.WORKING": (TypedCell("A1", "=ORG.LOFTSHEET.RIG.BURY(10)", 720.0),),
    "RIG.REFUSAL": (TypedCell("A1", "=ORG.LOFTSHEET.RIG.BURY(10;20)", None, REFUSED),),
    "RIG.VERSION": (),
}


def example(name: str) -> str:
    """The example of a function as it is typed, "" where there is none; {1|2} is a range of two rows."""
    given = EXAMPLES.get(name)
    return "" if given is None else f"{name}({'; '.join(typed(one) for one in given)})"


def typed(value: Any) -> str:
    """A value as it stands in a formula."""
    if isinstance(value, NamedRange):
        return value.name
    if isinstance(value, tuple):
        return f"{{{'|'.join(';'.join(typed(cell) for cell in row) for row in value)}}}"
    if isinstance(value, TypedCell):
        return value.address
    return f'"{value}"' if isinstance(value, str) else digits(value)
