"""Boat: one assumption per row, each with its unit and why that value; and what the rest of the book reports."""

from typing import Any, Optional

from templates import choices
from templates.checks import REST, SHOWN, bad, in_danger, says, spoken, to_fix
from templates.choices import NOTHING
from templates.schedule import FIX, NOTE, WEIGH, Group, Item, Rule, Sheet
from templates.sheets import balance
from templates.sheets.order import CONTROLS
from templates.sheets.stays import RM, STAYS_WIRE

LOOSER = "looser"
# On what a value to start from rests, where nothing else is named.
ASSUMED, PRACTICE = "assumed", "common practice, no source"


def assumed(
    key: str, title: str, unit: str, value: Optional[float], least: float, most: float, why: str, **more: Any
) -> Item:
    """An assumption with its value to start from; without one it is for the user to measure, where it is needed.

    Its value rests on the source; it says so when it is made looser than ours, if `loose` tells on which side that is.
    """
    loose, source = more.pop("loose", ""), more.pop("source", ASSUMED)
    if value is not None:
        why = f"{why}; {source}"
    if loose and value is not None:
        more["rules"] = (*more.get("rules", ()), looser(key, value, loose))
    return Item(key, title, unit, why, value, least=least, most=most, required=value is not None, **more)


def result(key: str, title: str, unit: str, formula: str, why: str, format: str = "General") -> Item:
    return Item(key, title, unit, why, formula=formula, format=format)


def looser(key: str, value: float, side: str) -> Rule:
    """Rule: an assumption that is on the unsafe side of ours; above or below it."""
    sign = ">" if side == "above" else "<"
    # The same in another unit differs by what is lost on the way.
    return Rule(LOOSER, WEIGH, f"ROUND(boat_{key}-{value!r};9){sign}0", f"looser than Loftsheet's {value:g}")


def outside(table: str, title: str) -> "list[str]":
    """Rules: what stands where no total of the table would see it."""
    first, rows = f"ROW(INDEX({table}_name;1))", f"ROWS({table}_name)"
    return [
        f'IF(ISBLANK(INDEX({table}_name;{rows}));"";"{title}: the last ready row is used, add rows")',
        f'IF(COUNTA({table}_below)>0;"{title}: something stands below the table";"")',
        f'IF(AND({first}=ROW({table}_header)+1;ROW(INDEX({table}_below;1;1))={first}+{rows});"";'
        f'"{title}: rows were inserted right below the headers or below the last ready row, delete them")',
        f'IF(SUMPRODUCT(1-ISFORMULA({table}_check))=0;"";"{title}: rows whose Check is gone: "&'
        f'SUMPRODUCT(1-ISFORMULA({table}_check))&"; in Check the Schedule, Put Right gives it back")',
    ]


TABLES = {
    "masts": "Masts",
    "points": "Points",
    "stays": "Stays",
    "tangs": "Stubs",
    "chainplates": "Chainplates",
    "cases": "Balance, cases",
    "order": "Order",
    "control": "Order, controls",
    "rope": "Library, ropes",
    "wire": "Library, wires",
    "rod": "Library, rod",
    "bolt": "Library, bolts",
    "sleeve": "Library, sleeves",
    "ring": "Library, rings",
    "share": "Library, shares",
    "sundry": "Library, sundries",
    "trial": "Library, trials",
    "log": "Log",
}
# What is ordered follows from these.
COUNTED = tuple(table for table in TABLES if table not in ("control", "log"))
SAFE = ("masts", "stays", "tangs", "chainplates", "cases")  # tables whose rows may be in danger

def lost_controls() -> "list[str]":
    """Rules: each control of Order has to be there, or nobody would know that the order is short."""
    return [
        f'IF(ISNA(MATCH("{name}";control_name;0));"Order, controls: the control of {name} is missing";"")'
        for name in CONTROLS
    ]


# The row of the first assumption to fix; where there is none it is not asked for.
FIRST_ROW = f'SUMPRODUCT(MIN(IF(IFERROR(boat_state="{FIX}";TRUE());ROW(boat_state);1000*ROW(boat_state))))'
FIRST_TO_FIX = (
    f'IF(boat_wrong_boat=0;"{NOTHING}";'
    f'IFERROR(REGEX(INDEX(boat_check;{FIRST_ROW}-ROW(INDEX(boat_check;1))+1);"^{SHOWN[FIX]}|: {REST}";"";"g");"a check is an error"))'
)

THE_BOAT = Group(
    "The boat",
    (
        Item("name", "Boat", why="stands on every sheet and in every export", text=True, rules=(Rule("none", WEIGH, 'boat_name=""', "it has no name", remedy="type it"),)),
        Item("revision", "Revision", why="count it up whenever a copy leaves your hands", text=True),
        Item("date", "Date", why="date of this revision", format="YYYY-MM-DD"),
        Item("currency", "Currency", why="of the prices on Order", text=True),
        Item("contact", "Buyer's contact", why="name, telephone, mail: whom the supplier asks", text=True),
        Item("wanted", "Wanted by", why="the day when the goods are needed, printed on the order", format="YYYY-MM-DD"),
        Item("delivery", "Delivery", why="where to and how, printed on the order", text=True),
        Item("note", "Note", why="your own words, printed on the order", text=True),
    ),
)

DEFAULTS = Group(
    "Defaults; a row may have its own",
    (
        Item("family", "Rope family", why="in which the smallest rope is looked for: a word of the column Family in Library; blank is that of the rope below", text=True),
        result("family_used", "Rope family, used", "", 'IF(boat_family="";IFERROR(INDEX(rope_family;MATCH(boat_rope;rope_name;0));"");boat_family)', "as typed, or of the rope below"),
        Item("rope", "Rope", why="used where a stay names no rope of its own; start with any of the family, Stays then names the smallest that would do", choices="rope_name", required=True),
        Item("line", "Lashing line", why="used for the lashing of every stay; this one to start from", value="HMPE 12-strand 6 mm", choices="rope_name", required=True),
        Item("rod", "Rod", why="used where a stub names no rod of its own; start with the thinnest, the check of the stub names what would do", choices="rod_name", required=True),
        Item("bolt", "Bolt", why="used where a stub names no bolt of its own; start with the thinnest, the check of the stub names what would do", choices="bolt_name", required=True),
        Item("sleeve", "Chafe sleeve", why="over every eye; this one to start from", value="tubular sleeve 1 mm", choices="sleeve_name", required=True),
        Item("ring", "Ring", why="used where an eye lies over a ring and none is named; this one to start from", value="ring 30 mm", choices="ring_name", required=True),
    ),
)

QUESTIONS = Group(
    "What is questioned",
    (
        assumed("length_off", "Measured length and points", "share apart", 0.01, 0.001, 0.5, "a larger difference is probably an error of the tape or of the survey", format="0.000", loose="above"),
        assumed("chainplate_off", "Chainplate and lower point", "share apart", 0.1, 0.01, 1, "the lever above and the point's out measure the same", format="0.00"),
        assumed("angle_least", "Shroud's angle under", "°", 10, 0, 15, "a smaller one may be a forgotten spreader", format="0.0", loose="below", source=PRACTICE),
        assumed("angle_over", "… of one over a spreader", "°", 8, 0, 15, "10 to 12 is usual; a smaller one may be a slip in Out of the tip", format="0.0", loose="below", source=PRACTICE),
        assumed("fore_most", "Shroud leads fore or aft by more than", "°", 20, 0, 60, "at the mast; a larger angle is probably an error in the survey", format="0.0", loose="above"),
        assumed("load_least", "Load under", "of the wire's break", 0.16, 0, 0.5, "so small a load is probably a typing error", format="0.00", loose="below"),
        assumed("share_least", "Share of the shroud load under", "of one side", 0.1, 0, 0.5, "so small a share is probably a typing error", format="0.00", loose="below"),
        assumed("fittings_most", "Other fittings above", "share of the stay", 0.1, 0, 1, "a long fitting is probably a typing error", format="0.00"),
        assumed("eye_most", "Override of an eye above", "times the shortest", 3, 1, 20, "a longer one is probably a typing error", format="0.0"),
        assumed("off_middle", "Pull off the middle of the stub by more than", "share of bolt in stub", 1 / 6, 0.01, 0.5, "beyond a sixth one end of the stub lifts off its bolt", format="0.000", loose="above"),
        assumed("set_most", "Set of a rope above", "share", 0.03, 0.001, 0.1, "a new rope of HMPE stretches permanently by about 1 %", format="0.000"),
        assumed("set_least", "Set of a rope under", "share", 0.002, 0, 0.1, "even rope that was stretched hot keeps some; a smaller one is probably a typing error", format="0.000"),
        assumed("take_up_least", "Take-up of a bury under", "share", 0.03, 0, 0.3, "a smaller one is probably a typing error", format="0.000"),
        assumed("creep_least", "Creep of a rope under", "share a year", 0.000002, 0, 0.01, "at the rope's temperature over the year; a smaller one is probably that of another temperature", format="0.000000"),
        assumed("crushing_most", "Rod's crushing strength above", "MPa", 600, 50, 2000, "across the fibres; a larger one is probably that along them", format="0"),
        assumed("pitch_least", "Pitch of a bolt under", "of its size", 0.06, 0.01, 0.2, "coarse threads have 0.12 to 0.15, fine ones 0.07 and more", format="0.00"),
        assumed("yield_most", "Chainplate's yield stress above", "MPa", 600, 100, 2000, "a larger one is probably its tensile strength", format="0", loose="above"),
        assumed("section_most", "Mast's section above", "times its width", 3, 1, 10, "a larger one is probably a typing error", format="0.0"),
        assumed("wall_most", "Mast's wall above", "of its width", 0.1, 0.01, 0.5, "a larger one is probably a typing error", format="0.00", loose="above"),
        assumed("proof_most", "Mast's proof stress above", "MPa", 350, 100, 2000, "a larger one is probably a tensile strength", format="0", loose="above"),
        assumed("take_up_most", "Take-up of a bury above", "share", 0.15, 0.01, 0.3, "a larger one is more often that of both splices over the bury of one", format="0.000"),
        assumed("too_strong", "Chainplate above", "times the load", 10, 1, 1000, "a larger one is probably in the wrong unit", format="0"),
        assumed("rope_weak", "Rope weaker than", "kN/mm² of size squared", 0.1, 0.01, 1, "breaking load over size times size; polyester has about 0.2", format="0.00"),
        assumed("rope_strong", "Rope stronger than", "kN/mm² of size squared", 2, 0.1, 5, "breaking load over size times size; HMPE has about 1 to 1.8", format="0.00"),
        assumed("rope_light", "Rope lighter than", "g/m by mm² of size squared", 0.35, 0.05, 5, "mass over size times size; HMPE has about 0.5 to 0.75", format="0.00"),
        assumed("rope_heavy", "Rope heavier than", "g/m by mm² of size squared", 1.2, 0.1, 5, "mass over size times size; polyester has about 0.9", format="0.00"),
        assumed("ring_strong", "Ring stronger than", "kN/mm² of groove squared", 0.15, 0.01, 1, "working load over groove times groove; a larger one is probably a typing error", format="0.00"),
        assumed("load_most", "Load above", "of the wire's break", 0.4, 0.2, 2, "wires are given a safety factor of 2.5 and more; another wire hung here, or the load is probably a typing error", format="0.00", loose="above"),
        assumed("set_up_most", "Set up to more than", "of the wire's break", 0.25, 0.05, 0.5, "shrouds of wire are set up to 15 to 20 %, with tension gauges up to 25 %; with no wire named half the load is the limit", format="0.00", loose="above"),
        assumed("set_up_usual", "Set up usually to", "of the wire's break", 0.15, 0.05, 0.5, "what is said to be usual where a pretension has to be typed", format="0.00", source=PRACTICE),
        assumed("out_off", "Mast's width and a stub's point", "mm apart", 25, 1, 500, "the point's out is half the mast's width or a little more", format="0"),
        assumed("pair_apart", "Stays count as one height within", "of the height", 0.1, 0.01, 0.3, "nearer ones are balanced against each other; between others the mast bends", format="0.00"),
        assumed("split_most", "Backstay's split out of line", "°", 2, 0.5, 20, "about 100 mm of a split that was measured wrong", format="0.0", loose="above"),
        assumed("pull_least", "Stays that hold each other, under", "of the other's pull", 0.6, 0.1, 1, "fore and aft, each at its load; one is less by a third at most where their wires were picked alike", format="0.00", loose="below"),
        assumed("along_least", "Point along the mast under", "mm", 100, 0, 1000, "from its foot; a smaller one is probably in metres", format="0"),
        assumed("metres_most", "Place with a fraction under", "mm", 12, 0, 100, "tapes are read in whole millimetres; a smaller one with a fraction is probably in metres", format="0"),
        assumed("root_below", "Spreader's root under its tip", "mm", 100, 0, 1000, "spreaders are lifted a little, and their sockets reach down; a stub nearer than that is asked for its room", format="0"),
        assumed("height_off", "Cap shroud and a stay on the centreline", "of the height", 0.05, 0.01, 0.3, "further apart nothing holds the mast fore and aft where the cap shroud does athwartships", format="0.00", loose="above"),
        assumed("ahead", "Plate of cap shroud or single lower forward of the mast", "share of its out", 0.1, 0, 1, "it stands beside the mast or aft of it", format="0.00", loose="above"),
        assumed("tip_ahead", "Spreader tip forward of the mast", "share of its out", 0.02, 0, 1, "spreaders stand square to the mast or lead aft; one typed abeam of the foot stands before a mast that leans aft", format="0.00", loose="above"),
        assumed("plates_apart", "Chainplates of one side, apart in height up to", "mm", 400, 50, 2000, "one that is further from all others of its side has lost a minus, or has one too many", format="0", loose="above"),
        assumed("air", "Lower point above the deck by more than", "of the stay's height", 0.2, 0.01, 1, "chainplates stand lower; a split backstay goes on", format="0.00", loose="above"),
        assumed("tension_off", "Tension off by", "share", 0.25, 0.05, 1, "in Log, and between a stay and those that hang from its lower point", format="0 %"),
    ),
)

# Half of the lower points, or more, under water; and a shroud of the righting moment that its wire would not have stood.
WATER_HIGH = 'IF(OR(boat_waterline="";COUNT(stays_lower_up)=0);FALSE();2*SUMPRODUCT(IFERROR(ISNUMBER(stays_lower_up)*(stays_lower_up<boat_waterline);0))>COUNT(stays_lower_up))'
RM_LARGE = f'SUMPRODUCT(IFERROR(ISNUMBER(stays_wire_break)*ISNUMBER(stays_load_alone)*(stays_basis_used="{RM}")*(stays_load_alone>stays_wire_break);0))>0'

LOADS = Group(
    "Loads",
    (
        assumed("rm30", "Righting moment at 30°", "kN·m", None, 0.1, 5000, "from an inclining test (by the function RIG.RM.INCLINE), the designer or the builder; without it pick wire replaced under Load from on Stays", format="0.0", rules=(Rule("large", FIX, RM_LARGE, "a shroud would have to carry more than its wire broke at: probably a typing error, or another unit"),)),
        assumed("waterline", "Waterline, up", "mm", None, -40000, 40000, "height of the water, with all aboard, above the datum from which Points counts: minus where the water is below it, as it is below a mast's foot on deck; blank: no sail case is worked out on Balance", format="0", rules=(Rule("high", FIX, WATER_HIGH, "the water stands above most lower points: is a minus missing?"),)),
        assumed("chainplate_out", "Mast's centre to chainplate", "mm", None, 100, 10000, "athwartships, at the cap shrouds: their lever", format="0"),
        assumed("load_factor", "Heel beyond 30°", "", 1.5, 1, 3, "righting moment goes on growing beyond 30°; this is no safety factor", format="0.00", loose="below"),
        assumed("wire_margin", "Safety factor of the wire replaced", "", 3, 1.5, 4, "load taken from a wire is its breaking load divided by this; a larger one makes the load smaller, so it is not the safe side", format="0.00", loose="above"),
        assumed("lee_heel", "Lee shroud taut up to", "°", 20, 1, 30, "pretension is such that the lee shroud is just taut up to this heel", format="0"),
        assumed("margin", "Safety factor, rope", "", 3, 2, 12, "on the load above, splice and ageing taken off; fibre rope in handbooks is given 5 to 12 on breaking load", format="0.00", loose="below"),
        assumed("margin_wire", "Safety factor, wire that stays", "", 2.5, 1.5, 6, "on its breaking load when new, as for all standing rigging", format="0.00", loose="below", source=PRACTICE),
        assumed("margin_metal", "Safety factor, metal", "", 1.5, 1, 5, "on a design capacity that holds the partial factor already", format="0.00", loose="below"),
        assumed("plate_gamma", "Partial factor, chainplate", "", 1.1, 1, 2, "stainless steel, and the same for aluminium", format="0.00", loose="below", source="EN 1993-1-4, from memory"),
        assumed("gamma", "Partial factor, metal", "", 1.25, 1, 2, "bolts in shear and tension", format="0.00", loose="below", source="EN 1993-1-8:2005 table 2.1"),
    ),
)

ROPE = Group(
    "Rope and splice",
    (
        assumed("splice", "Splice", "share", 0.9, 0.3, 1, "breaking load left by a good splice; 1 is used where the rope was measured with splices", format="0.00", loose="above"),
        assumed("ageing", "Ageing", "share", 0.8, 0.3, 1, "sun, salt and chafe over the years before it is retired", format="0.00", loose="above"),
        assumed("hold", "Held load, maximum", "share of break", 0.15, 0.01, 0.5, "creep speeds up above about 15 % at 20 °C", format="0.00", loose="above", source=PRACTICE),
        assumed("hot", "Rope in the heat", "°C", 30, -20, 80, "the temperature of the rope in the hottest weeks, for what may be held then", format="0", rules=(Rule("cool", WEIGH, "boat_hot<=boat_year_temp", "the hottest weeks are hotter than the year, see below"),)),
        assumed("year_temp", "Rope over the year", "°C", 20, -20, 80, "for what creeps over the years: its mean weighted by creep (RIG.CREEP.TEMP), above that of the air, for warm days count most", format="0"),
        assumed("bury", "Bury", "rope diameters", 72, 45, 150, "high-modulus 12-strand", format="0", loose="below", source="B. Toss, The Complete Rigger's Apprentice (2016), p. 105"),
        assumed("taper", "Taper", "share of bury", 1 / 3, 0.1, 0.6, "the tail's end is thinned out over this part", format="0.000", source=PRACTICE),
        assumed("growth", "Fid goes in at", "of the bury", 4 / 3, 1, 1.5, "the filled host shortens on to the tail", format="0.000", source="B. Toss, The Complete Rigger's Apprentice (2016), p. 104"),
        assumed("waste", "Waste at each end", "mm", 50, 0, 500, "cut off when the tail is tapered", format="0"),
        assumed("throat", "Throat angle, maximum", "°", 30, 5, 60, "a wider throat pulls the splice apart", format="0", loose="above", source=PRACTICE),
        assumed("uneven", "Legs share unevenly", "share", 0.9, 0.5, 1, "one leg of an eye always carries more", format="0.00", loose="above"),
        assumed("turns_uneven", "Turns share unevenly", "share", 0.75, 0.3, 1, "of a loop of several turns: they never bear alike", format="0.00", loose="above"),
        assumed("eye_step", "Eyes rounded up to", "mm", 5, 0.1, 50, "what you can mark on rope", format="0.0"),
        assumed("gather", "Sleeve gathers by", "share", 0.15, 0, 1, "a sleeve is cut longer than the eye, as it bunches up", format="0.00"),
        assumed("stay_rate", "Rope grows by", "1e-6/K", -12, -30, 30, "HMPE shortens as it warms", format="0.0", rules=(Rule("sign", WEIGH, "boat_stay_rate>0", "HMPE shortens as it warms", remedy="a minus is missing"),)),
        assumed("wire_rate", "Wire that stays grows by", "1e-6/K", 16, 5, 20, "stainless 1.4401", format="0.0", source="EN 10088-1, from memory"),
    ),
)

LASHING = Group(
    "Lashing",
    (
        assumed("friction", "Friction", "", 0.15, 0, 0.5, "rope on a ring; 0.07 suits polished rings", format="0.00", loose="below"),
        assumed("parts_least", "Lashing parts, minimum", "", 4, 1, 24, "fewer parts can hardly be hauled tight", whole=True, format="0"),
        assumed("line_bend", "Line over the ring", "share", 0.8, 0.3, 1, "breaking load left in the lashing line where it bends", format="0.00", loose="above"),
        assumed("haul_turns", "Half turns of friction when hauling", "", 1, 0, 6, "from the last part to the hand: one where the tail leads back round ring or hole", whole=True, format="0"),
        assumed("left", "Gap to leave", "mm", 60, 10, 1000, "centre of the ring to the chainplate's hole when all stretch is taken up; ring and edge take some of it", format="0"),
        assumed("tail", "Tail of the lashing", "mm", 1000, 100, 5000, "to haul on and to finish with", format="0"),
    ),
)

STUBS = Group(
    "Stubs and bolts",
    (
        assumed("extra", "Added to the stay's angle", "°", 2, 0, 10, "tolerance of the survey, so that no eye is led off the end", format="0.0", loose="below"),
        assumed("rod_least", "Minimum rod", "rope diameters", 3, 1, 20, "the rope maker's figure wins", format="0.0", loose="below", source=PRACTICE),
        assumed("clearance", "Play beside the eye", "mm", 3, 0, 50, "loaded rope flattens and widens", format="0.0", loose="below"),
        assumed("saw_step", "Stub and bolt rounded up to", "mm", 1, 0.1, 10, "what you can saw to", format="0.0"),
        assumed("drill_step", "Hole rounded down to", "mm", 0.1, 0.1, 10, "what you can mark; see below for what you can drill to", format="0.0"),
        assumed("drill_off", "Drilling tolerance", "mm", 0.5, 0, 5, "so much too low a stub has to stay upright all the same, so much too high it has to keep its rod above the bolt", format="0.0"),
        assumed("hole_play", "Hole wider than bolt by", "mm", 0.5, 0, 5, "a bolt that is tight in glass-epoxy cannot be taken out", format="0.0"),
        assumed("ligament", "Minimum rod above the bolt", "mm", 8, 1, 100, "it wears", format="0.0", loose="below", source=PRACTICE),
        assumed("ligament_hole", "… and at least this share of the hole", "of the hole", 0.75, 0.1, 3, "the larger of both holds", format="0.00", loose="below", source=PRACTICE),
        assumed("head_least", "Bolt below the masthead", "of the hole", 1.2, 1, 5, "from the hole's middle to the end of the mast", format="0.0", loose="below", source="EN 1993-1-8:2005 table 3.3, end distance"),
        assumed("pad", "Pad behind the stub", "mm", 2, 0, 100, "at its thinnest; it also fills the hollow that Stubs gives", format="0.0"),
        assumed("plate", "End plate", "mm", 4, 0.5, 50, "thickness", format="0.0"),
        assumed("plate_extra", "Plate stands above the rope", "mm", 3, 0, 50, "so that a slack eye cannot fall off", format="0.0", loose="below"),
        assumed("thin", "Tapered washer, thin edge", "mm", 1.5, 0.5, 20, "keyed, or the nut's torque turns it", format="0.0"),
        assumed("flat", "Flat washer", "mm", 3, 0, 20, "under the nut", format="0.0"),
        assumed("nuts", "Nuts on a bolt, both ends", "", 2, 1, 6, "a self-locking nut at each end; 4 where a second nut locks each", format="0", whole=True),
        assumed("bolt_bending", "Bolt bending factor", "", 1.5, 0.8, 1.5, "plastic section of a round; for what the bolt holds", format="0.00", loose="above", source="EN 1993-1-8:2005 table 3.10"),
        assumed("bolt_straight", "Bolt stays straight", "", 0.8, 0.3, 1, "of its yield moment, under the load itself, as of a pin that is to be taken out", format="0.00", loose="above", source="EN 1993-1-8:2005 table 3.10"),
        assumed("bolt_shear", "Bolt in shear", "share of strength", 0.6, 0.3, 0.6, "a plain shank where it is sheared; 0.5 for stainless thread there", format="0.00", loose="above", source="EN 1993-1-8:2005 table 3.4"),
        assumed("bar_proof", "Bar, proof stress", "MPa", 200, 150, 1000, "of a bolt turned from stainless bar without a certificate: annealed", format="0", loose="above", source="EN 10088-3, from memory"),
        assumed("bar_strength", "Bar, strength", "MPa", 500, 300, 1500, "of a bolt turned from stainless bar", format="0", loose="above", source="EN 10088-3, from memory"),
        assumed("sleeve_friction", "Sleeve on the rod, friction", "", 0.15, 0.05, 0.5, "of two eyes on one stub: holds an eye that leans along the rod, and makes the legs of one led round it uneven", format="0.00", loose="above"),
        assumed("bevel_free", "Bevel unquestioned up to", "°", 25, 5, 35, "above it the eye rests on friction more and more", format="0", loose="above"),
        assumed("kerf", "Saw cut", "mm", 3, 0, 20, "width", format="0.0"),
        assumed("clamp", "Stock left in the clamp", "mm", 80, 0, 1000, "of each length of rod; never sawn by hand", format="0"),
    ),
)

MAST = Group(
    "Mast",
    (
        assumed("wall_gamma", "Partial factor, wall", "", 1.1, 1, 2, "aluminium", format="0.00", loose="below", source="EN 1999-1-1, from memory"),
        assumed("mast_rate", "Mast grows by", "1e-6/K", 23.6, 2, 30, "aluminium; Masts may have its own", format="0.0"),
        assumed("mast_modulus", "Mast's modulus", "GPa", 69, 5, 220, "aluminium; Masts may have its own", format="0"),
        assumed("buckling", "Against buckling, at least", "times the case", 1.25, 1.1, 5, "all loads of a case on Balance, its factor and the pretension counted; better ask the mast's maker", format="0.00", loose="below"),
        Item("balance", "Balance worked out for", why="with the old wires as well it takes twice the time; nothing, if typing on Points or Stays has to wait for it", value=balance.ROPE, choices=balance.WORKED_OUT_FOR, required=True),
        assumed("warmer", "Warmer or colder by", "K", 20, 1, 60, "than when the rig is tuned; tune at a temperature in the middle and write it in Log", format="0", rules=(Rule("small", WEIGH, "boat_warmer<5", "a night is colder than the day by more"),)),
        assumed("tuned", "Tuned at", "°C", None, -20, 50, "in the shade, when the rig was set up; Log compares with it", format="0"),
        assumed("cg_up", "Boat's centre of gravity, up", "mm", None, -40000, 40000, "in the survey's datum; for what mass aloft does", format="0"),
    ),
)

BUYING = Group(
    "Buying",
    (
        assumed("rope_waste", "Extra rope bought", "share", 0.05, 0, 1, "what is left on the reel's end is never the right length", format="0 %"),
        assumed("trial", "Trial splice", "m", 6, 0, 50, "rope for one trial splice of each size: two eyes with their buries; as much of the lashing line is spare", format="0.0"),
        assumed("trial_sleeve", "Sleeve for a trial splice", "m", 1, 0, 10, "over both of its eyes", format="0.0"),
        Item("tolerance", "General tolerance", why="of what is sawn, turned, bored and cut to length; this one to start from", value="ISO 2768-1, class m", text=True),
        Item("faces", "Cut faces", why="of rod and plate, for cut glass-epoxy takes up water; common practice, no source", value="edges broken by 0.5 mm, sawn and drilled faces sealed with epoxy resin", text=True),
        Item("tightened", "Nuts tightened", why="no calculation counts on preload; common practice, no source", value="until all parts touch and nothing moves by hand, no further: no torque is asked for", text=True),
        Item("certificates", "Certificates asked for", why="printed on the order", value="of the batch delivered, sent with the goods: for bolts EN 10204 type 3.1, for rope, rod and rings the maker's own", text=True),
        Item("terms", "Terms asked for", why="printed on the order", value="prices without taxes, carriage on a line of its own, and until when the offer holds", text=True),
        assumed("inspect_months", "Inspected every", "months", 6, 1, 24, "by eye, and at once after anything unusual", whole=True, format="0", loose="above"),
        assumed("retire_years", "Retired after", "years", 5, 1, 15, "or earlier by what is seen; the maker, the insurer and local rules decide", whole=True, format="0", loose="above"),
    ),
)



def loosened() -> str:
    """Formula: the assumptions that are looser than ours, each with both figures."""
    said = [
        f'IFERROR(IF({rule.when};"{item.title}: "&boat_{item.key}&" is looser than Loftsheet\'s {item.value:g}";"");"")'
        for group in (QUESTIONS, LOADS, ROPE, LASHING, STUBS, MAST, BUYING)
        for item in group.items
        for rule in item.rules
        if rule.id == LOOSER
    ]
    return spoken(said, NOTHING)


RESULTS = Group(
    "What the schedule reports",
    (
        result("wrong", "Rows that are not OK, all sheets", "", "+".join(["boat_wrong_boat", "boat_weigh_boat", *(bad(table) for table in TABLES)]), "0 is the aim; the sheets are listed below", "0"),
        result("mend", "Rows to fix before anything is ordered", "", "+".join(["boat_wrong_boat", *(to_fix(table) for table in COUNTED)]), "their Check begins with the word fix", "0"),
        result("danger", "Rows in danger, before anything is ordered", "", "+".join(in_danger(table) for table in SAFE), "too weak or unsafe; their Check has the word danger", "0"),
        result("wrong_boat", "Boat: assumptions to fix", "", f'SUMPRODUCT(IFERROR((boat_state="{FIX}")*1;1))', "each says it in the last column", "0"),
        result("weigh_boat", "Boat: assumptions to consider", "", f'SUMPRODUCT(IFERROR((boat_state="{WEIGH}")*1;0))', "looser than Loftsheet's, or odd; each says it in the last column", "0"),
        result("loosened", "Loosened", "", loosened(), "what was made looser than a new schedule has it, each with both figures"),
        result("unproven", "Stays, stubs and chainplates on figures without a certificate", "", "+".join(says(NOTE, table) for table in ("stays", "tangs", "chainplates")), "they may be OK all the same; Status in Library says what a figure rests on", "0"),
        result("first", "Boat: the first to fix", "", FIRST_TO_FIX, "of the lines of this sheet"),
        *(
            result(f"wrong_{table}", f"{title}: rows not OK", "", bad(table), "each row says it after its name", "0")
            for table, title in TABLES.items()
        ),
        result(
            "outside",
            "Found outside the tables",
            "",
            spoken(
                [*(rule for table, title in TABLES.items() for rule in outside(table, title)), *lost_controls()],
                NOTHING,
            ),
            "rows that no total would see",
        ),
        result("hold_hot", "Held load, maximum in the heat", "share of break", "RIG.HOLD.LIMIT(boat_hot;boat_hold)", "from the share at 20 °C and the rope's heat, both below", "0.000"),
        result("trials", "Trial splices", "", f'SUMPRODUCT((order_kind="{choices.ROPE}")*ISNUMBER(MATCH(order_name;stays_rope;0)))', "ropes that stays are made of; Order has sleeve and twine for them too", "0"),
        result("rope_mass", "Mass of the new rope", "kg", "SUM(stays_rope_mass)", "stays only, without lashings", "0.0"),
        result("wire_mass", "Mass of the old wire", "kg", "SUM(stays_wire_mass)", "stays for which a wire is named", "0.0"),
        result("kept_mass", "Mass of the wire that stays", "kg", f'SUMPRODUCT((stays_made_of="{STAYS_WIRE}")*1;stays_wire_mass)', "it is in the old wire, too; add it to the new rope to compare", "0.0"),
        result(
            "rm_gain",
            "Righting moment gained at 30°",
            "kN·m",
            'SUM(stays_rm_gain)',
            "mass of ropes and wires at half the height of each stay; stubs, bolts and fittings are left out",
            "0.00",
        ),
    ),
)

SHEET = Sheet(
    "Boat",
    "Every assumption of the schedule, to be questioned by you: change a value here and all sheets follow.",
    groups=(THE_BOAT, DEFAULTS, LOADS, MAST, RESULTS, ROPE, LASHING, STUBS, BUYING, QUESTIONS),
    landscape=False,
    widths=(58, 36, 26, 84, 38),
)
