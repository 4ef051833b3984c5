"""Stays: one row per stay, from the survey to the margin and to what is cut."""

from dataclasses import replace

from loftsheet.cautions import PULLING

from templates.checks import NOTHING_FOUND
from templates.choices import ASSUMED, FURLER, METAL_HANKS, RUNS, WITH_SPLICES, WORKED_OUT
from templates.choices import OVER as OVER_WHAT
from templates.schedule import (
    DANGER,
    FIX,
    NOTE,
    WAITS,
    WAITS_FOR_BOAT,
    WEIGH,
    Column,
    Rule,
    Sheet,
    Table,
    block,
    calculated,
    choice,
    counted,
    name_and_check,
    number,
    text,
    waits_for,
)
from templates.sheets import kinds, masts, remedies
from templates.sheets.library import unproven

RM, WIRE, TYPED = BASES = ("righting moment", "wire replaced", "typed")
ROPE, STAYS_WIRE = MADE_OF = ("rope", "existing wire")
IS_WIRE = f'[made_of]="{STAYS_WIRE}"'
STUB, RING, PIN = OVER_WHAT
NONE = "none"
OVER = {"upper": (STUB, RING, PIN), "lower": (RING, PIN)}
BY_SIDE = f'IF([side]="{kinds.BOTH}";2;1)'
# A stub that names the stay is what it lies on; without one a shroud's is a question.
LIES_OVER = {
    "upper": f'IF(ISNUMBER(MATCH([name];tangs_stay;0));"{STUB}";IF(ISNUMBER(MATCH([name];tangs_stay_2;0));"{STUB}";{kinds.by_kind("over")}))',
    "lower": f'"{RING}"',
}
# What is usual for the kind; a cap shroud over another number of spreaders has a share of its own.
ONE_SPREADER = f'OR([kind]<>"{kinds.CAP_SHROUD.name}";AND([via]<>"";[via_2]=""))'
USUAL_SHARE = f'IF({ONE_SPREADER};IFERROR(INDEX(share_name;MATCH({kinds.by_kind("share")};share_name;0));NA());NA())'
SHARE = f'IF(IFERROR([basis]="{RM}";FALSE());{USUAL_SHARE};"")'
SHROUDS = tuple(kind for kind in kinds.KINDS if kind.shroud)
BASIS = f'IF([load_own]<>"";"{TYPED}";IF({kinds.is_one_of(SHROUDS)};"{RM}";IF([wire]="";NA();"{WIRE}")))'
ENDS = (("upper", "Upper"), ("lower", "Lower"))
FROM_LIBRARY = ("wire", "share", "rope", "sleeve", "upper_ring", "lower_ring", "line")
GOES_ON = 'IF([lower]="";FALSE();ISNUMBER(MATCH([lower];stays_upper;0)))'  # in other stays


def corner(key: str, title: str) -> "list[Column]":
    """Three calculated columns: the coordinates of one point of the stay."""
    return [
        calculated(
            f"{key}_{axis}", f"{title}, {axis}", "mm", f'IF([upper]="";"";[{key}.{"outward" if axis == "out" else axis}])', "from Points", format="0", width=18
        )
        for axis in ("fore", "out", "up")
    ]


def part(function: str, start: str, end: str) -> str:
    cells = ";".join(f"[{corner}_{axis}]" for corner in (start, end) for axis in ("fore", "out", "up"))
    return f"RIG.STAY.{function}({cells})"


def by_points() -> str:
    """Formula: the length from point to point, over the spreaders if there are any."""
    return f'IF([via]="";0;IF([via_2]="";[via_length];[via_2_length]))+{part("LENGTH", "above", "lower")}'


def but_for_wire(column: Column) -> Column:
    """A column that a stay of wire leaves blank."""
    if column.key not in OF_ROPE:
        return column
    formula, default = (f'IF({IS_WIRE};"";{one})' if one else "" for one in (column.formula, column.default))
    return replace(column, formula=formula, default=default)


def not_of_wire(rule: Rule) -> Rule:
    """A rule that asks nothing of a stay of wire."""
    return replace(rule, when=f"IF({IS_WIRE};FALSE();{rule.when})") if rule.id in ASKED_OF_ROPE else rule


def shortest_eye(end: str) -> str:
    return f"RIG.EYE.LENGTH([{end}_under];[rope_size];boat_throat;[sleeve_wall])"


def uneven(end: str) -> str:
    """Formula: how unevenly the legs of an eye pull; one of two on a stub is led round the rod besides."""
    led_round = f"RIG.EYE.UNEVEN([stub.swing];[{end}_throat];boat_sleeve_friction)"
    two_eyes = f'IF([{end}_over]="{STUB}";[stub.stay_2]<>"";FALSE())'
    return f"IF({two_eyes};MIN(boat_uneven;{led_round});boat_uneven)" if end == "upper" else "boat_uneven"


def end(key: str, title: str) -> "tuple[Column, ...]":
    """The columns of one end of the stay: what the eye lies over, the eye, its throat, capacity and reach."""
    over, own = f"[{key}_over]", f"[{key}_over_own]"
    return (
        choice(f"{key}_over", f"{title} end over", OVER[key], f"what the eye lies over: {', '.join(OVER[key])}", default=LIES_OVER[key], width=18),
        choice(f"{key}_ring_own", f"{title} ring, override", "ring_name", "if not the boat's ring", width=24),
        number(f"{key}_over_own", f"{title} diameter, override", "mm", 3, 300, "diameter under the eye; needed for a pin", format="0.0"),
        calculated(f"{key}_ring", f"{title} ring", "", f'IF({over}="{RING}";IF([{key}_ring_own]="";boat_ring;[{key}_ring_own]);"")', "ring or thimble used", choices="ring_name", width=24),
        calculated(
            f"{key}_under",
            f"{title} diameter",
            "mm",
            f'IF({own}<>"";{own};IF({over}="{STUB}";[stub.rod_size];IF({over}="{RING}";[{key}_ring.groove];NA())))',
            "diameter under the eye, used",
            format="0.0",
        ),
        number(f"{key}_eye_own", f"{title} eye, override", "mm", 10, 5000, "eye laid flat, if not the shortest", format="0"),
        calculated(
            f"{key}_eye",
            f"{title} eye",
            "mm",
            f'IF([{key}_eye_own]="";CEILING({shortest_eye(key)};boat_eye_step);[{key}_eye_own])',
            "eye laid flat: half the rope between the throat marks",
            format="0",
        ),
        calculated(f"{key}_throat", f"{title} throat", "°", f"RIG.EYE.ANGLE([{key}_eye];[{key}_under];[rope_size];[sleeve_wall])", "between the legs of the eye", format="0.0"),
        calculated(
            f"{key}_capacity",
            f"{title} eye holds",
            "kN",
            f"RIG.EYE.CAPACITY([break_load];RIG.BEND.ROPE([{key}_under]/[rope_size];[rope.least]);[{key}_throat];{uneven(key)})",
            "two legs over the diameter; the wire rule stands in below the maker's minimum bend",
            format="0.0",
        ),
        calculated(f"{key}_reach", f"{title} reach", "mm", f"RIG.EYE.REACH([{key}_eye];[{key}_under];[rope_size];[sleeve_wall])", "middle of stub, ring or pin to the throat", format="0.0"),
    )


SURVEY = block(
    "Survey",
    choice("kind", "Kind", kinds.NAMES, "what it is in the rig: from this follows where it leads and what balances it", width=18),
    choice("made_of", "Made of", MADE_OF, "blank is rope; existing wire: a furler, or a stay that is not replaced, which counts in loads, balance and mass", width=18),
    choice("side", "Side", kinds.SIDES, "both: one to port and one to starboard in this row", width=17),
    number("number", "Number", "", 1, 20, "equal stays of this kind, port and starboard, where it is not as Side says", default=BY_SIDE, whole=True, format="0"),
    choice("upper", "Upper point", "points_name", "where it starts on the mast", width=24),
    choice("via", "Via", "points_name", "spreader tip, if it goes over one; of two the upper", width=20),
    choice("via_2", "Via, lower", "points_name", "tip of the lower spreader, if it goes over two", width=20),
    choice("lower", "Lower point", "points_name", "chainplate, or the point where a backstay splits", width=24),
    number("length_own", "Length, measured", "mm", 100, 40000, "if measured on the boat; wins over the points", format="0"),
    number("angle_own", "Angle, measured", "°", 0, 45, "from the mast face, athwartships; wins over the points", format="0.0"),
    calculated(
        "length",
        "Length",
        "mm",
        'IF([length_own]="";IF([length_points]="";NA();[length_points]);[length_own])',
        "from fitting to fitting, over the spreaders if there are any",
        format="0",
    ),
    calculated("angle", "Angle out", "°", f'IF([angle_own]="";{part("OUT", "upper", "next")};[angle_own])', "from the mast face, athwartships, at the upper end", format="0.0"),
    calculated("angle_fore", "Angle fore", "°", f'IF([upper]="";"";{part("FORE", "upper", "next")[:-1]};[rake]))', "fore and aft, forward is positive", format="0.0"),
    calculated("angle_mast", "Angle to mast", "°", f'IF([upper]="";"";{part("ANGLE", "upper", "next")[:-1]};[rake]))', "true angle to the mast's axis", format="0.0"),
)

# Of a point in the air, as where a backstay splits: the mast of the stay that ends there.
MAST_ABOVE = "INDEX(points_on_mast;MATCH(INDEX(stays_upper;MATCH([upper];stays_lower;0));points_name;0))"
# Stays that pull against each other balance at one height only; elsewhere the mast between them bends.
HEIGHT = "([upper_up]-[mast.foot_up])"  # of a stay on its mast, wherever the datum is
AT_ONE_HEIGHT = f'IF(OR([partner]="";[pull_fore]="");FALSE();IF([partner.pull_fore]="";FALSE();ABS([upper_up]-[partner.upper_up])<=boat_pair_apart*{HEIGHT}))'
PAIRED = f'IF(AND({kinds.is_one_of(kinds.PAIR)};[basis]="{RM}");IF({AT_ONE_HEIGHT};[partner.basis]="{RM}";FALSE());FALSE())'
IN_PAIR = "RIG.PAIR.TENSION([load_alone]*[pull_out]+[partner.load_alone]*[partner.pull_out];[pull_fore];[pull_out];[partner.pull_fore];[partner.pull_out])"

ASKED = block(
    "Load",
    choice("wire", "Wire", "wire_name", "replaced, or that stays; blank if there was none", width=15),
    calculated("wire_break", "Wire's break", "kN", 'IF([wire]="";"";[wire.break_load])', "of the wire replaced, or that stays", format="0.0"),
    choice("runs", "Runs on it", RUNS, "metal hanks and a furler forbid rope; nothing on shrouds and backstays", default=kinds.by_kind("runs"), width=22),
    choice("basis", "Load from", BASES, "righting moment with a share, the wire replaced, or typed; the righting moment for shrouds", default=BASIS),
    choice("share", "Share", "share_name", "for the righting moment: which shroud; blank is the usual one of its kind", default=SHARE, width=30),
    number("load_own", "Load, typed", "kN", 0.1, 5000, "if Load from says typed", format="0.0"),
    calculated("angle_load", "Angle of the pull", "°", 'IF([angle_mast]="";[angle];[angle_mast])', "to the mast's axis, or the angle out where no points are picked", format="0.0"),
)

TENSION = block(
    "Tension",
    calculated(
        "load_alone",
        "Load alone",
        "kN",
        f'IF([basis]="{RM}";RIG.SHROUD.TOTAL(boat_rm30;boat_chainplate_out;boat_load_factor;[angle_load])*[share.share];'
        f'IF([basis]="{WIRE}";[wire_break]/boat_wire_margin;IF(AND([basis]="{TYPED}";[load_own]<>"");[load_own];NA())))',
        "of one stay: the published share, the wire replaced or as typed",
        format="0.0",
    ),
    calculated("load_pair", "Load in its pair", "kN", f'IF({PAIRED};{IN_PAIR};"")', "of two lowers of one side and height: the pull that both owe, shared as their leads balance", format="0.0", width=18),
    calculated("load_case", "Load in a case", "kN", 'IF(ISERROR(verdict_words);verdict_words;IF(boat_waterline="";"";IFERROR([tensions.most];"")))', "largest of all cases on Balance; blank where there is no balance, or Boat has no waterline; an error where the balance cannot be asked for", format="0.0", width=18),
    calculated("load", "Load", "kN", "MAX([load_alone];[load_pair];[load_case];[pretension])", "working load of one stay: the largest that is known of it", format="0.0"),
    calculated("load_from", "Load governed by", "", 'IF([load]=[load_alone];"by itself";IF([load]=[load_pair];"in its pair";IF([load]=[load_case];[tensions.most_in];"pretension")))', "which of them the load is: the published share or what was typed, by itself or in its pair, a case of Balance, or the pretension", width=20),
    number("pretension_own", "Pretension, typed", "kN", 0.01, 500, "if not from the heel of Boat; has to be typed where the load is not from the righting moment", format="0.0", width=19),
    calculated("balance", "Balanced at", "kN", f'IF({AT_ONE_HEIGHT};RIG.STAY.BALANCE([partner.pretension];[partner.pull_fore];[pull_fore]);"")', "pretension here that balances that of the stay it pulls against, fore and aft at one height; blank where none is found", format="0.00", width=18),
    calculated("pretension", "Pretension", "kN", f'IF([pretension_own]="";IF([basis]="{RM}";RIG.PRETENSION(IF([load_pair]="";[load_alone];[load_pair]);boat_lee_heel;boat_load_factor);NA());[pretension_own])', "held for weeks", format="0.0", width=19),
)

LOAD = (*ASKED, *TENSION)

WIRE_EA = "RIG.WIRE.EA([wire.size];[wire.modulus];[wire.fill])"
# The links of a stay: the column of the spare and its word. RIG.WEAKEST needs one to begin with.
FIRST_LINK = f'IF({IS_WIRE};"wire";"splice");IF({IS_WIRE};[spare_wire];[spare_splice])'
MORE_LINKS = {"eye": "eye", "bolt": "bolt", "wall": "mast wall", "rod": "rod", "lashing": "lashing", "chainplate": "chainplate"}
WEAKEST = ";".join((FIRST_LINK, *(f'IF([spare_{link}]="";"";"{word}");[spare_{link}]' for link, word in MORE_LINKS.items())))
SPARES = ";".join(f"[spare_{link}]" for link in ("splice", "wire", *MORE_LINKS))

SIZE = block(
    "Size",
    number("margin_own", "Safety factor, override", "", 2, 20, "if not the boat's", format="0.00"),
    calculated("margin_required", "Required", "safety factor", f'IF([margin_own]<>"";[margin_own];IF({IS_WIRE};boat_margin_wire;boat_margin))', "of the rope, or of the wire that stays", format="0.00"),
    calculated("need_strength", "For strength", "kN", "RIG.NEED.STRENGTH([load];[margin_required];[splice];boat_ageing)", "breaking load needed for the safety factor", format="0.0"),
    calculated("need_hold", "For held load", "kN", "RIG.NEED.HOLD([pretension];boat_hold_hot)", "breaking load needed against creep", format="0.0"),
    calculated(
        "need_stretch",
        "For stretch",
        "kN",
        'IF([wire]="";"";RIG.NEED.STRETCH(RIG.WIRE.EA([wire.size];[wire.modulus];[wire.fill]);[rope.stiffness]))',
        "breaking load of the rope that stretches no more than the wire",
        format="0.0",
    ),
    calculated("need", "Needed", "kN", "MAX([need_strength];[need_hold];[need_stretch])", "the largest of the three", format="0.0"),
    calculated(
        "governs",
        "Governed by",
        "",
        'IF([need]=[need_strength];"strength";IF([need]=[need_hold];"held load";"stretch"))',
        "which of the three it is",
        width=20,
    ),
    calculated("smallest", "Smallest rope", "mm", f'IF([need]>MAX(rope_family_break);"{NONE}";RIG.ROPE.SIZE(rope_family_size;rope_family_break;[need]))', "of the boat's family", format="0.0"),
    choice("rope_own", "Rope, override", "rope_name", "if not the boat's", width=34),
    calculated("rope", "Rope", "", 'IF([rope_own]="";boat_rope;[rope_own])', "rope used", choices="rope_name", width=22),
    calculated("rope_size", "Rope", "mm", "[rope.size]", "diameter of the rope used", format="0.0"),
    calculated("break_load", "Breaking load", "kN", "[rope.break_load]", "of the rope used", format="0.0"),
)

SLEEVE = block(
    "Fit, upper end",
    choice("sleeve_own", "Sleeve, override", "sleeve_name", "if not the boat's", width=26),
    calculated("sleeve", "Sleeve", "", 'IF([sleeve_own]="";boat_sleeve;[sleeve_own])', "chafe sleeve used, at both eyes", choices="sleeve_name", width=26),
    calculated("sleeve_wall", "Sleeve", "mm", "[sleeve.wall]", "one wall of it", format="0.0"),
    *end("upper", "Upper"),
)
FIT = (*SLEEVE, *block("Fit, lower end", *end("lower", "Lower")))

# Where Chainplates has no row for the lower point.
PLATE_SUM = f"RIG.PULL.SUM({';'.join(f'SUMPRODUCT(IF(stays_lower=[lower];stays_plate_{axis};0))' for axis in ('fore', 'out', 'up'))})"
SUM_PASSES = 'SUMPRODUCT(IF(stays_lower=[lower];IF(ISTEXT(stays_passes);0;stays_passes);0))'
MOST_LINE = "SUMPRODUCT(MAX(IF((stays_lower=[lower])*ISNUMBER(stays_line_size);stays_line_size;0)))"
# Of a row of two the one is to port and the other to starboard, unless all are said to be on one side, or the point is on the centreline.
AT_ONE_PLATE = f'IF(OR([side]="{kinds.PORT}";[side]="{kinds.STARBOARD}";[side]="{kinds.CENTRELINE}";[lower_out]=0);[count];CEILING([count]/2;1))'
STRENGTH = block(
    "Strength",
    calculated("splice", "Splice", "share", f'IF([rope.spliced]="{WITH_SPLICES}";1;boat_splice)', "1 where the rope was measured with splices", format="0.00"),
    calculated("capacity", "Capacity", "kN", "RIG.CAPACITY([break_load];[splice];boat_ageing;[upper_capacity];[lower_capacity])", "rope with its splices and eyes, aged", format="0.0"),
    calculated("margin", "Safety factor", "", f"IF({IS_WIRE};[wire_break];[capacity])/[load]", "capacity over load; of wire that stays its breaking load", format="0.00", width=13),
    calculated("margin_weakest", "Weakest link, scaled", "on the rope's scale", "[margin_required]*(1+[spare])", "where the weakest link stands on the scale of the rope; a link of metal has a safety factor of its own, see its spare", format="0.00", width=19),
    calculated("margin_limit", "Required", "safety factor", "[margin_required]", "as on the left, to compare", format="0.00"),
    calculated("spare_splice", "Splice", "spare, rope", "RIG.MARGIN([break_load];[load];[splice];boat_ageing)/[margin_required]-1", "spare of the splices over what is required", format="0 %"),
    calculated("spare_eye", "Eyes", "spare, rope", "MIN([upper_capacity];[lower_capacity])*boat_ageing/[load]/[margin_required]-1", "spare of the weaker eye", format="0 %"),
    calculated("spare_wire", "Wire", "spare, wire", f'IF({IS_WIRE};[wire_break]/[load]/[margin_required]-1;"")', "of wire that stays, over its safety factor", format="0 %"),
    calculated("spare_bolt", "Bolt", "spare, metal", f'IF([upper_over]="{STUB}";[stub.bolt_spare];"")', "spare of the bolt under the stub", format="0 %"),
    calculated("spare_wall", "Mast wall", "spare, metal", f'IF([upper_over]="{STUB}";[stub.wall_spare];"")', "of the stub, over its pull on the wall, which is more than the stay's; blank until the wall is measured", format="0 %"),
    calculated("spare_rod", "Rod", "spare, rope", f'IF([upper_over]="{STUB}";[stub.rod_spare];"")', "of the stub; blank until Library has the rod's crushing strength", format="0 %"),
    calculated(
        "spare_lashing",
        "Lashing",
        "spare, rope",
        '[line_break]*boat_ageing*boat_line_bend/(RIG.LASHING.SHARE([parts];boat_friction)*[load])/[margin_required]-1',
        "spare of the hardest-worked part",
        format="0 %",
    ),
    number("chainplate", "Chainplate holds", "kN", 0.1, 5000, "where Chainplates has no row for its lower point, or of the joint where a backstay splits: design capacity with its fastening, from a surveyor; blank is not checked", format="0.0", width=18),
    calculated("plate_load", "On the chainplate", "kN", f'IF([plate]<>"";[plate.pull];IF([hangs]<2;[at_one_plate]*[load];{PLATE_SUM}))', "what all stays of its lower point pull together, as forces in space", format="0.0", width=18),
    calculated("spare_chainplate", "Chainplate", "spare, metal", 'IF([plate]<>"";[plate.spare];IF([chainplate]="";"";[chainplate]/[plate_load]/boat_margin_metal-1))', "spare over the safety factor for metal, or for rope in a loop, of all that hangs on it", format="0 %", width=18),
    calculated(
        "weakest",
        "Weakest link",
        "",
        f"RIG.WEAKEST({WEAKEST})",
        "the link with the smallest spare",
        width=15,
    ),
    calculated(
        "rests",
        "No certificate",
        "",
        f'IF({IS_WIRE};{unproven("wire", "wire")};TEXTJOIN(", ";TRUE();{unproven("rope", "rope")};IF([line]=[rope];"";{unproven("line", "line")});'
        f'IF([upper_ring]="";"";{unproven("ring", "upper_ring")});'
        f'IF(OR([lower_ring]="";[lower_ring]=[upper_ring]);"";{unproven("ring", "lower_ring")});'
        f'IF([basis]="{WIRE}";{unproven("wire", "wire")};"")))',
        "what this stay rests on that has no certificate; Status in Library says what its figures come from",
        width=24,
    ),
    calculated("spare", "Smallest", "spare", f"MIN({SPARES})", "spare of the weakest link", format="0 %", width=15),
)


def metre_mass(stay: str = "") -> str:
    """Formula: mass of a metre of the rope, or of wire that stays; with "stay." of the stay that a row names."""
    return f'IF([{stay}made_of]="{STAYS_WIRE}";1000*RIG.WIRE.MASS(1000;[{stay}wire.size]);[{stay}rope.mass])'


def slack_heel(tension: str) -> str:
    """Formula: the heel at which the lee shroud goes slack, from its tension at rest."""
    load = 'IF([load_pair]="";[load_alone];[load_pair])'
    return f'IF([basis]="{RM}";IF({tension}*boat_load_factor>{load};"";RIG.SLACK.HEEL({tension};{load};boat_load_factor));"")'


# From the upper point along the stay to where the plucked part begins: the lowest spreader, or the upper throat of a rope.
TO_LOWEST_TIP = f'IF([via]="";IF({IS_WIRE};0;[upper_reach]);IF([via_2]="";[via_length];[via_2_length]))'
MAKE = block(
    "Make",
    calculated("stiffness", "Stiffness EA", "kN", f"IF({IS_WIRE};{WIRE_EA};RIG.ROPE.EA([break_load];[rope.stiffness]))", "of the rope, or of the wire that stays", format="0"),
    calculated("stretch_load", "Stretch at load", "mm", "RIG.STRETCH([load];[length];[stiffness])", "elastic, at the working load", format="0.0"),
    calculated("stretch_wire", "Wire's stretch", "mm", 'IF([wire]="";"";RIG.STRETCH([load];[length];RIG.WIRE.EA([wire.size];[wire.modulus];[wire.fill])))', "of the wire replaced at the same load", format="0.0"),
    number("luff", "Luff pulls", "N/m", 0.1, 20000, "across it on each metre, of the sail set on it; blank where none is", format="0"),
    calculated("sag", "Sag under its luff", "mm", 'IF([luff]="";"";RIG.STAY.SAG([pretension];[length];[luff]))', "in its middle at its pretension; less where what balances it is set up harder", format="0"),
    calculated("tighten", "Warmer: tightens", "mm", "RIG.TEMP.TIGHTEN([length];[length];boat_warmer;[mast.rate];" + f"IF({IS_WIRE};boat_wire_rate;boat_stay_rate))", "mast grows, rope shortens, or wire grows less, by Boat's change", format="0.0"),
    calculated("tighten_tension", "Warmer: tension", "kN more", "RIG.TENSION.CHANGE([tighten];[length];[stiffness])", "at most, for a rigid mast", format="0.0"),
    calculated("colder_tension", "Colder: remaining", "kN", "MAX(0;[pretension]-[tighten_tension])", "of the pretension when it is as much colder than when it was tuned; 0 is slack", format="0.0"),
    calculated(
        "creep",
        "Creep in total",
        "mm",
        "IF([rope.creep]=\"\";\"\";RIG.CREEP([length];[rope.creep];boat_retire_years;;;;boat_year_temp;[rope.creep_temp]))",
        "until it is retired, in the warmth of Boat's year; blank if the rope's maker gives no figure",
        format="0.0",
    ),
    calculated("held_by", "Held by a stretch of", "mm", "RIG.STRETCH([pretension];[length];[stiffness])", "all that its pretension is: creep, cold and a set that was not pulled out on the bench take it away", format="0.0"),
    calculated("take_up_years", "Take up again after", "years", 'IF([rope.creep]="";"";RIG.RELAX.TIME([pretension];[stiffness];[rope.creep];;;;boat_year_temp;[rope.creep_temp]))', "creep has taken half of the pretension then, at the soonest, for a rigid mast; blank if the rope's maker gives no figure", format="0.0"),
    calculated("slack_heel", "Lee shroud slack at", "°", slack_heel("[pretension]"), "of heel, by its pretension; blank where it stays taut, or is no shroud of the righting moment", format="0", width=18),
    calculated("slack_heel_cold", "Lee shroud slack, cold", "°", slack_heel("[colder_tension]"), "the same when it is colder by Boat's change; 0 is slack upright", format="0", width=18),
    number("fittings", "Other fittings", "mm", 0, 5000, "toggles, shackles and tackle in the line; without any a ring's centre stands on its point", format="0"),
    calculated("worked", "Stretch, worked in", "share", "[rope.lasting_set]+[pretension]/[stiffness]", "set and elastic stretch from bench to pretension", format="0.0000", width=20),
    calculated("gap", "Gap, not bedded in", "mm", "RIG.LASHING.GAP([length];[rope.lasting_set];[pretension]/[stiffness];boat_left)", "centre of the ring to the chainplate's hole, if the rope is hung as it was spliced", format="0"),
    calculated("gap_bedded", "Gap, bedded in", "mm", "[gap]-[length]*[rope.lasting_set]", "the same if the rope was pulled on the bench as hard as the trial splice was", format="0"),
    calculated("take_up_left", "Gap, set up", "mm", "[gap]-[length]*[worked]", "at pretension: what the lashing can still close; ring and chainplate's edge take some of it", format="0", width=13),
    calculated("span", "Throat to throat", "mm", "RIG.SPAN([length];[upper_reach];[lower_reach];[take_up_left]+IF([fittings]=\"\";0;[fittings]))", "when worked in, at pretension", format="0", width=13),
    calculated("free_length", "Free length", "mm", f"IF({IS_WIRE};[length];[span]+[upper_reach])-{TO_LOWEST_TIP}", "from the lower throat to the upper, or to the lowest spreader that it goes over", format="0", width=13),
    calculated("note_hz", "Note when plucked", "Hz", f"RIG.STAY.NOTE([pretension];[free_length];{metre_mass()})", "at its pretension, of the free length: what to tune to; a heavy ring or sleeve lowers it", format="0.0", width=14),
    calculated("bury", "Bury", "mm", "RIG.BURY([rope_size];boat_bury)", "tail buried at each end", format="0"),
    calculated("taper", "Taper", "mm", "RIG.TAPER([bury];boat_taper)", "part of the tail that is tapered", format="0"),
    calculated("fid_entry", "Fid goes in", "mm", "RIG.BURY.MARK([bury];boat_growth)", "from the throat along the slack host", format="0"),
    calculated("cut", "Cut", "mm", "RIG.CUT([span];[upper_eye];[lower_eye];[bury];[worked];[rope.take_up];boat_waste)", "rope to cut for one stay", format="0", width=13),
)

LASHING = block(
    "Lashing",
    number("chainplate_hole", "Chainplate's hole", "mm", 3, 100, "in which the lashing runs, where Chainplates has no row for the lower point; blank is not checked", format="0.0", width=21),
    choice("line_own", "Line, override", "rope_name", "lashing line, if not the boat's", width=28),
    calculated("line", "Lashing line", "", 'IF([line_own]="";boat_line;[line_own])', "used", choices="rope_name", width=28),
    calculated("line_break", "Line's break", "kN", "[line.break_load]", "of the lashing line", format="0.0"),
    calculated("parts", "Lashing parts", "", "MAX(boat_parts_least;RIG.LASHING.PARTS([load];[line_break]*boat_ageing;[margin_required];boat_friction;boat_line_bend))", "fewest parts for the safety factor, and not under the boat's minimum", format="0"),
    calculated("haul", "Haul with", "kN", f'IF({GOES_ON};"";RIG.LASHING.HAUL([pretension];[parts];boat_friction;boat_haul_turns))', "pull of the hand on the tail that gives the pretension: that of the last part and the friction of Boat's half turns; blank where other stays go on from its lower point: haul theirs", format="0.00"),
    calculated("line_size", "Lashing line", "mm", "[line.size]", "diameter", format="0.0"),
    calculated("passes", "Lashings pass", "times", "[at_one_plate]*(INT([parts]/2)+1)", "through one hole of the chainplate: half the parts of each of the row's stays there, and once more", format="0"),
    calculated("passes_hole", "Hole for lashings", "mm", f'IF(OR([plate]<>"";[lower]="";[chainplate_hole]="";[hangs]*[at_one_plate]<2);"";CEILING(IF([hangs]<2;RIG.LASHING.HOLE(1;[line_size];[passes]);RIG.LASHING.HOLE(1;{MOST_LINE};{SUM_PASSES}));1))', "for those of all stays there, where Chainplates has no row for the lower point; whole millimetres", format="0"),
    calculated("hole_there", "Hole there", "mm", 'IF([plate]<>"";[plate.lashing_hole];IF([chainplate_hole]="";"";[chainplate_hole]))', "at the lower point, of plate or ring: from Chainplates, or as typed", format="0.0"),
    calculated("edge_there", "Edge there", "mm", 'IF([plate]<>"";[plate.edge];IF([chainplate_hole]="";0;[chainplate_hole]))', "from the middle of that hole to where the stay's own ring would meet it", format="0.0"),
    calculated("hole_needed", "Lashing's hole", "mm", "RIG.LASHING.HOLE([parts];[line_size])", "least diameter of ring's and chainplate's hole: half of the parts go through it, and one more", format="0"),
    calculated("hole_least", "Smallest hole", "mm", f'MIN(IF([lower_over]="{RING}";[lower_ring.hole];[hole_needed]);IF([hole_there]="";[hole_needed];[hole_there]))', "of lower ring and chainplate, as far as they are known", format="0"),
    calculated(
        "line_each",
        "Lashing line",
        "mm",
        f'RIG.LASHING.LINE([gap];[parts];IF([lower_over]="{RING}";[lower_ring.hole];[lower_under]);boat_tail)',
        "for one lashing",
        format="0",
    ),
    calculated("line_total", "Line, all", "m", "[count]*[line_each]/1000", "for all of this row", format="0.00"),
    calculated("closes", "Lashing closes", "mm", f'RIG.LASHING.CLOSE([take_up_left];[lower_under];[rope_size];IF({GOES_ON};[lower_under]/2+[rope_size]+2*[sleeve_wall];[edge_there]);[sleeve_wall])', "of the gap at pretension what is left between the eye round its ring and the edge of the chainplate, by Chainplates, or as far from the hole's middle as the hole is wide; less where that is not known", format="0"),
)

BUY = block(
    "Buy and mass",
    counted(),
    calculated("rope_total", "Rope, all", "m", "[count]*[cut]/1000", "for all of this row", format="0.00"),
    calculated("sleeve_total", "Sleeve, all", "m", "[count]*(RIG.SLEEVE.LENGTH([upper_eye];boat_gather)+RIG.SLEEVE.LENGTH([lower_eye];boat_gather))/1000", "for both eyes of all of this row", format="0.00"),
    calculated("rope_mass", "Mass, rope", "kg", "[rope_total]*[rope.mass]/1000", "of all of this row", format="0.00"),
    calculated("wire_mass", "Mass, wire", "kg", 'IF([wire]="";"";[count]*RIG.WIRE.MASS([length];[wire.size]))', "of the wire replaced, or that stays, all of this row", format="0.00"),
    calculated(
        "rm_gain",
        "Righting moment",
        "kN·m",
        'IF(OR([wire]="";[upper]="";boat_cg_up="");"";IF([wire_mass]=[rope_mass];0;SIGN([wire_mass]-[rope_mass])*RIG.RM.GAIN(ABS([wire_mass]-[rope_mass]);([upper_up]+[lower_up])/2-boat_cg_up)))',
        "gained at 30° by the mass taken off; negative is lost",
        format="0.000",
        width=20,
    ),
    text("note", "Note", "anything to remember", width=30),
)

# What the stub takes from the stay; where that is sound and the bolt's spare is an error, the stub is at fault.
OWN_FIGURES = "[angle]+[length]+[load]+[pretension]+[rope_size]+[stiffness]+[sleeve_wall]"
# Stays that hang from this one's lower point, as the legs of a backstay do, and what they pull together.
BELOW = f'IF({GOES_ON};IFERROR(SUMPRODUCT((stays_upper=[lower])*1;stays_{{}});"");"")'
# Stays of one place in the rig, port and starboard: how many there are, and how many of them are as long as this one.
# Counting takes the more the more stays there are, so the first stay from the point is asked before.
SHORTEST, LONGEST = "FLOOR([length]*(1-boat_length_off/2);1)", "CEILING([length]*(1+boat_length_off/2);1)"
SAME_PLACE = 'stays_upper;"="&[upper];stays_share_used;"="&[share]'
TWINS = f"COUNTIFS({SAME_PLACE})"
TWINS_AS_LONG = f'COUNTIFS({SAME_PLACE};stays_length;">="&{SHORTEST};stays_length;"<="&{LONGEST})'
FIRST = "INDEX(stays_{};MATCH([upper];stays_upper;0))"
FIRST_IS_TWIN = (
    f"IFERROR(AND({FIRST.format('name')}<>[name];{FIRST.format('share_used')}=[share];"
    f"{FIRST.format('length')}>={SHORTEST};{FIRST.format('length')}<={LONGEST});FALSE())"
)
AS_LONG = f'IF(OR([upper]="";IFERROR([share_used]="";TRUE()));"";IF({FIRST_IS_TWIN};1;IF({TWINS}>1;{TWINS_AS_LONG}-1;"")))'
# Where other stays go on, their lashings take up this one's slip, too.
CAN_CLOSE = 'IF([haul]="";boat_left;MAX(0;[closes]))'
# The stub's row says so of itself; its state hangs on ours, and may not be read here. A cell that was moved away holds another.
STUB_TORN = 'OR(NOT(ISFORMULA([stub.found_row]));NOT(ISTEXT([stub.found_row]));ISNUMBER(FIND(" tangs.row.";[stub.found_row])))'

# What is wrong with the plate itself; what is wrong with other stays there it says of them.
PLATE_AT_FAULT = f'IF([plate]="";FALSE();IF(OR([plate.state]="";[plate.state]="{FIX}");TRUE();ISERROR(SUM([plate.metal_holds];[plate.loop_holds];[plate.lashing_hole];[plate.edge]))))'


def point(which: str) -> str:
    return ";".join(f"[{which}_{axis}]" for axis in ("fore", "out", "up"))


PARTNER = (
    f'IF([place]="";"";IFERROR(INDEX(stays_name;MATCH({kinds.against(0)};stays_place;0));'
    f'IFERROR(INDEX(stays_name;MATCH({kinds.against(1)};stays_place;0));"")))'
)
# Two that balance each other read one another: of the other's check only what does not look back at this row.
PARTNER_STOPPED = (
    'IF(IFERROR(AND([balance]="";[load_pair]="");TRUE());FALSE();'
    f'([partner.found_row]&[partner.found_fix]&[partner.found_rule]&[partner.found_error])<>"{NOTHING_FOUND * 4}")'
)
OF_HEIGHT = 'stays_upper_up;">="&INT([upper_up]-{0}*{1});stays_upper_up;"<="&INT([upper_up]+{0}*{1})+1'
OTHER_SIDE = kinds.other_side("[side]")
# Where no stay of the kind is there that balances it, a shroud from about its height that leads aft holds against it, too.
HELD_FROM = f"INT([upper_up]-boat_pair_apart*{HEIGHT})"
HELD_BY_SHROUDS = f'COUNTIFS(stays_lead;-1;stays_mast;"="&[mast];{OF_HEIGHT.format("boat_pair_apart", HEIGHT)})>0'
# Counted only where nothing else is found: from every row it would take the longer the more rows there are.
NOT_HELD = f'IF(ISNUMBER({HELD_FROM});NOT(IF([lead]=1;{HELD_BY_SHROUDS};FALSE()));FALSE())'
# A cap shroud ends where a stay on the centreline does, if the mast has any.
IN_THE_MIDDLE = f'stays_mast;"="&[mast];stays_side;"{kinds.CENTRELINE}"'
# How many stays of its side end about as high at the deck, itself among them.
PLATES_WITHIN = (
    'COUNTIFS(stays_mast;"="&[mast];stays_side;"="&[side];stays_lower_up;">="&INT([lower_up]-(boat_plates_apart{0}));'
    'stays_lower_up;"<="&INT([lower_up]+boat_plates_apart{0})+1)'
)
# Fewer stays than three hold no mast: they are a rig that is being typed in.
IS_A_RIG = "COUNTA(stays_name)>2"
AT_THAT_HEIGHT = f'COUNTIFS({IN_THE_MIDDLE};{OF_HEIGHT.format("boat_height_off", HEIGHT)})>0'
NO_STAY_THERE = (
    f"IF(COUNTIFS({IN_THE_MIDDLE})=0;FALSE();IF({AT_THAT_HEIGHT};FALSE();SUMPRODUCT(ISERROR(stays_upper_up)*1)=0))"
)
FORESTAY_UP = f'IFERROR(INDEX(stays_upper_up;MATCH({kinds.place("forestay, centreline")};stays_place;0));"")'
# Names of points that have the word of the other side in them; port is in support, too.
NAMED_OTHERWISE = 'ISNUMBER(FIND(" "&{};" "&LOWER([upper]&" "&[via]&" "&[via_2]&" "&[lower])))'
DECK_UP = '([mast.foot_up]+IF([mast.partners]="";0;[mast.partners]))'
IN_THE_AIR = f'[lower_up]-{DECK_UP}>boat_air*([upper_up]-{DECK_UP})'

TIPS = (("via", "Via"), ("via_2", "Via, lower"))
def on_line(tip: str, above: str, below_out: str, below_up: str) -> str:
    """Formula: how far out a stay would be at the height of a tip, without it."""
    return f"([{above}_out]+({below_out}-[{above}_out])*([{above}_up]-[{tip}_up])/([{above}_up]-{below_up}))"


ON_LINE = {
    "via": on_line("via", "upper", 'IF([via_2]="";[lower_out];[via_2_out])', 'IF([via_2]="";[lower_up];[via_2_up])'),
    "via_2": on_line("via_2", "via", "[lower_out]", "[lower_up]"),
}
PLACES = block(
    "Points and pulls",
    calculated("mast", "Mast", "", f'IF([upper]="";{masts.ONLY};IF([upper.on_mast]<>"";[upper.on_mast];IFERROR(IF({MAST_ABOVE}="";{masts.ONLY};{MAST_ABOVE});{masts.ONLY})))', "of its upper point, of the stay that ends there, or the only one", choices="masts_name", width=24),
    calculated("rake", "Rake", "°", "[mast.rake]", "of that mast", format="0.0"),
    *corner("upper", "Upper"),
    *(
        calculated(f"{tip}_{axis}", f"{title}, {axis}", "mm", f'IF([{tip}]="";"";[{tip}.{"outward" if axis == "out" else axis}])', "from Points", format="0", width=18)
        for tip, title in TIPS
        for axis in ("fore", "out", "up")
    ),
    *corner("lower", "Lower"),
    *(
        calculated(f"next_{axis}", f"Next, {axis}", "mm", f'IF([via]="";[lower_{axis}];[via_{axis}])', "the stay's next point below the upper", format="0", width=18)
        for axis in ("fore", "out", "up")
    ),
    *(
        calculated(f"above_{axis}", f"Last above, {axis}", "mm", f'IF([via_2]<>"";[via_2_{axis}];IF([via]<>"";[via_{axis}];[upper_{axis}]))', "the stay's last point above the lower one", format="0", width=18)
        for axis in ("fore", "out", "up")
    ),
    calculated("length_points", "By points", "mm", f'IF([upper]="";"";{by_points()})', "from point to point, over the spreaders if there are any", format="0"),
    calculated("pull_fore", "Pulls forward", "share", f'IF([upper]="";"";{part("PULL.FORE", "upper", "next")[:-1]};[rake]))', "of its tension, square to the mast; aft is negative", format="0.000", width=18),
    calculated("pull_out", "Pulls out", "share", f'IF([upper]="";"";{part("PULL.OUT", "upper", "next")})', "of its tension, square to the mast", format="0.000"),
    calculated("via_length", "To spreader tip", "mm", f'IF([via]="";"";{part("LENGTH", "upper", "via")})', "from the upper point along the stay; blank without a spreader", format="0"),
    *(
        calculated(f"{tip}_off", f"{title}, off the mast", "mm", f'IF([{tip}]="";"";[{tip}_fore]-[mast.foot_fore]+([{tip}_up]-[mast.foot_up])*TAN(RADIANS([rake])))', "how far forward of the mast's middle the tip is at its height; aft is negative", format="0", width=20)
        for tip, title in TIPS
    ),
    *(
        calculated(f"{tip}_line", f"{title}, straight past", "mm", f'IF([{tip}]="";"";{ON_LINE[tip]})', "how far out the stay would be there without this spreader", format="0", width=20)
        for tip, title in TIPS
    ),
    calculated("via_2_length", "To lower spreader tip", "mm", f'IF(OR([via]="";[via_2]="");"";[via_length]+{part("LENGTH", "via", "via_2")})', "the same to the lower of two", format="0", width=18),
    calculated("place", "Place", "", 'IF(OR([kind]="";[side]="");"";[kind]&", "&[side]&", "&[mast])', "kind, side and mast, by which others look for it", width=32),
    calculated("lead", "Leads", "", 'IF([pull_fore]="";0;IF(ABS([pull_fore])<SIN(RADIANS(1));0;SIGN([pull_fore])))', "at the mast: 1 forward, -1 aft, 0 within a degree of abeam", format="0", width=14),
    calculated("partner", "Pulls against", "", PARTNER, "the stay that balances it; blank where there is none", choices="stays_name", width=28),
    calculated("plate", "Chainplate", "", 'IF([lower]="";"";IF(ISNA(MATCH([lower];chainplates_name;0));"";[lower]))', "its row on Chainplates; blank where there is none", choices="chainplates_name", width=28),
    calculated("plate_made_of", "Chainplate made of", "", 'IF([plate]="";"";[plate.made_of]&"")', "from Chainplates", width=20),
    calculated("hangs", "Stays there", "", 'IF([plate]<>"";[plate.hangs];IF([lower]="";1;COUNTIFS(stays_lower;"="&[lower])))', "rows whose lower point this is", format="0", width=14),
    calculated("at_one_plate", "On one plate", "", AT_ONE_PLATE, "of the row's stays: all where they are on one side or the centreline, else half", format="0", width=14),
    calculated("plates", "Plates", "", "CEILING([count]/[at_one_plate];1)", "that the row's stays hang on", format="0", width=14),
    calculated("leg", "Goes on as", "", f'IF({GOES_ON};INDEX(stays_name;MATCH([lower];stays_upper;0));"")', "the first of the stays that go on from its lower point", choices="stays_name", width=28),
    calculated("split_angle", "Split out of line", "°", f'IF(OR([leg]="";[via]<>"");"";RIG.SPLIT.ANGLE({point("upper")};{point("lower")};{point("leg.lower")}))', "between its line and what its legs pull together when both are equally tight", format="0.0", width=18),
    *(
        calculated(f"plate_{axis}", f"On the plate, {axis}", "kN", f'IF(OR(AND([hangs]<2;[plate]="");[upper]="");"";{sign}[at_one_plate]*[load]*{part(f"PULL.{name}", "above", "lower")})', "part of the load at its lower point, of all stays of the row there", format="0.00", width=20)
        for axis, name, sign in (("fore", "FORE", "-"), ("out", "OUT", "-"), ("up", "DOWN", ""))
    ),
    *(
        calculated(key, title, "kN", f'IF([angle_mast]="";"";[count]*[{of}]*COS(RADIANS([angle_mast])))', "along the mast, of all stays of this row: stays that hang one below the other have to agree", format="0.0", width=18)
        for key, title, of in (("pull", "Pull", "load"), ("pull_held", "Pull, held", "pretension"))
    ),
    calculated("pull_below", "Pull, below", "kN", BELOW.format("pull"), "along the mast, of the stays that go on from the lower point", format="0.0", width=18),
    calculated("pull_held_below", "Pull, held, below", "kN", BELOW.format("pull_held"), "the same of their pretension", format="0.0", width=18),
    calculated("beside", "Beside it on its stub", "", f'IF([upper_over]="{STUB}";IF([stub.stay_2]="";"";IF([stub.stay_2]=[name];[stub.stay];[stub.stay_2]));"")', "the other stay whose eye lies there; blank where it lies alone", width=28),
    calculated("eye_lies", "Its eye lies", "", 'IF([beside]="";"";IF([stub.stay]=[name];"inside, next to the mast";"outside, next to the end plate"))', "of two on one stub", width=28),
    calculated("as_long", "As long", "", AS_LONG, "other stays of the same share and upper point that are as long: one will do", format="0", width=14),
)

# A stay whose own figures are there is not at fault where those of the stay it pulls against are errors.
OTHER_TO_BLAME = "AND(ISNUMBER([load_alone]);ISNUMBER([pull_fore]);ISERROR([partner.load_alone])+ISERROR([partner.pull_fore])+ISERROR([partner.pretension])>0)"

# What would make up for a link that is too weak: which end's eye, and what an eye would have to lie over.
ROPE_NEEDED = "RIG.NEED.STRENGTH([load];[margin_required];[splice];boat_ageing)"
EYE_NEEDS = "[load]*[margin_required]/boat_ageing"


def wider(end: str) -> str:
    """Formula: what the eye of an end would have to lie over; where its throat is too wide a longer eye, or a stronger rope."""
    whole = f"RIG.EYE.CAPACITY([break_load];1;[{end}_throat];boat_uneven)"
    size = "[rope.least]*[rope_size]"
    over = f'IF([{end}_over]="{RING}";{remedies.ring("[load]", groove=size)};"a diameter of "&FIXED({remedies.up(size, 0)};0;TRUE())&" mm or more would do")'
    longer = f'IF(ROUND([{end}_throat];1)>boat_throat;"a length of "&FIXED(CEILING({shortest_eye(end)};boat_eye_step);0;TRUE())&" mm would do";'
    rope = remedies.rope(f"[break_load]*{EYE_NEEDS}/{whole}")
    return f'"for its {end} eye "&IF({whole}>={EYE_NEEDS};{over};{longer}{rope}))'


WIDER = f'IF([upper_capacity]<[lower_capacity];{wider("upper")};{wider("lower")})'
STRONGER = f"IF([spare_splice]<0;{remedies.rope(ROPE_NEEDED)};{WIDER})"
PLATE_NEEDS = 'IF([plate]="";boat_margin_metal*[plate_load];IF([plate.spare]=[plate.spare_rope];boat_margin;boat_margin_metal)*[plate.pull])'
OF_METAL = f"""IF([weakest]="{MORE_LINKS['chainplate']}";{PLATE_NEEDS};boat_margin_metal*[load])"""
JUDGED_AS_ROPE = ";".join(f'[weakest]="{link}"' for link in ("splice", "wire", "eye", "rod", "lashing"))
LINK_NEEDS = f"IF(OR({JUDGED_AS_ROPE});[margin_required]*[load];{OF_METAL})"
# The wall carries more than the stay pulls, and its row on Stubs says how much: no second figure here.
LINK_HOLDS = (
    f"""IF([weakest]="{MORE_LINKS['wall']}";"";", holds "&FIXED({LINK_NEEDS}*(1+[spare]);1;TRUE())&" kN and must hold "&FIXED({LINK_NEEDS};1;TRUE())&" kN")"""
)
LINK_REMEDY = remedies.of_link(
    "[weakest]",
    ("splice", remedies.rope(ROPE_NEEDED)),
    ("wire", remedies.wire("[margin_required]*[load]")),
    ("eye", WIDER),
    ("bolt", '"see its row on Stubs"'),
    ("mast wall", '"see its row on Stubs"'),
    ("rod", '"see its row on Stubs"'),
    ("lashing", f'"as line "&{remedies.rope("[line_break]/(1+[spare])")}'),
    ("chainplate", 'IF([plate]="";"ask a surveyor for a stronger one";"see its row on Chainplates")'),
)

# A shroud that leaves the mast at less is a slip, or forgets its spreader; over a spreader less is usual.
ANGLE_LEAST = 'IF([via]="";boat_angle_least;boat_angle_over)'
LEAD_FORWARD = tuple(kind for kind in kinds.KINDS if kind.leads == kinds.FORWARD)
LEAD_AFT = tuple(kind for kind in kinds.KINDS if kind.leads == kinds.AFT)
FORE_AND_AFT = (kinds.FORESTAY, kinds.INNER_FORESTAY, kinds.BACKSTAY, kinds.RUNNER)

# What a stay of wire leaves blank, and what is not asked of it.
OF_ROPE = {
    *("need_strength", "need_hold", "need_stretch", "need", "governs", "smallest", "rope", "rope_size", "break_load"),
    *(column.key for column in FIT),
    *("splice", "capacity", "spare_splice", "spare_eye", "spare_bolt", "spare_wall", "spare_rod", "spare_lashing"),
    *("stretch_wire", "creep", "take_up_years", "worked", "gap", "gap_bedded", "take_up_left", "span", "bury", "taper", "fid_entry", "cut"),
    *(column.key for column in LASHING),
    *("rope_total", "sleeve_total", "rope_mass", "rm_gain"),
}
TYPED_OF_ROPE = ("rope_own", "sleeve_own", "upper_over", "lower_over", "upper_ring_own", "lower_ring_own", "line_own", "fittings")
ASKED_OF_ROPE = {
    *("runs", "stub.none", "stub", "stub.row", "stub.middle", "stub.own", "wire.unnamed", "creep.unknown", "margin_own.less"),
    *(f"{end}_over_own.{over}" for end, _ in ENDS for over in (PIN, RING)),
}

STAYS = Table(
    "stays",
    "Stays",
    ready=9,
    lines=3,
    typed=("kind", "side", "upper", "via", "lower", "wire", "pretension_own"),
    results=("rope", "cut", "span", "take_up_left", "pretension", "margin", "weakest", "spare"),
    unprinted=(PLACES[0].block,),
    in_parts=True,
    balanced=("kind", "made_of", "side", "upper", "via", "via_2", "lower", "mast", "rake", "stiffness", "pretension", "balance", "pull_out", "upper_fore", "upper_up", "via_fore", "via_up", "via_2_fore", "via_2_up", "wire"),
    named_by={"stub": ("tangs_stay", "tangs_stay_2")},
    columns=(*name_and_check("Stay", "one row for equal stays, or one for each", 43, 27), *map(but_for_wire, (*SURVEY, *LOAD, *SIZE, *FIT, *STRENGTH, *MAKE, *LASHING, *BUY, *PLACES))),
    rules=tuple(map(not_of_wire, (
        WAITS_FOR_BOAT,
        Rule("points", FIX, 'AND([length_own]="";[upper]="")', "pick it and the lower point, or type length and angle as measured", "upper"),
        Rule("points.lower", FIX, 'AND([length_own]="";[upper]<>"";[lower]="")', "pick it, or type length and angle as measured", "lower"),
        Rule("upper_over.none", FIX, 'AND([upper_over]="";ISNA([upper_over_used]))', "give it a row on Stubs, or pick what else it lies over", "upper_over"),
        Rule("runs.none", FIX, 'AND([runs]="";ISNA([runs_used]))', "pick what runs on it, or its kind", "runs"),
        Rule("basis.none", FIX, 'AND([basis]="";ISNA([basis_used]))', "pick it, or the kind of the stay, or the wire replaced", "basis"),
        Rule("mast.missing", FIX, "COUNTA(masts_name)=0", "no mast yet: give it a row on Masts"),
        Rule("mast.none", FIX, f'IF(COUNTA(masts_name)<=1;FALSE();IF([upper]="";TRUE();AND([upper.on_mast]="";IFERROR({MAST_ABOVE}="";TRUE()))))', "pick one whose row on Points names its mast: which of the masts this stay holds is not known", "upper"),
        Rule("share.none", FIX, f'AND([basis]="{RM}";[share]="";ISNA([share_used]))', "pick one: the load is from the righting moment, and none is usual for this kind", "share"),
        Rule("boat.rm30", FIX, f'AND([basis]="{RM}";boat_rm30="")', "type it", "boat_rm30"),
        Rule("boat.chainplate_out", FIX, f'AND([basis]="{RM}";boat_chainplate_out="")', "type it", "boat_chainplate_out"),
        Rule("wire.none", FIX, f'AND([basis]="{WIRE}";[wire]="")', "pick it, or take the load from something else under Load from", "wire"),
        Rule("load.none", FIX, f'AND([basis]="{TYPED}";[load_own]="")', "it is blank: Load from says typed", "load_own"),
        Rule("pretension.none", FIX, f'AND([basis]<>"{RM}";[pretension_own]="")', "type it: only a load from the righting moment gives one by itself", "pretension_own", '{IF(ISNUMBER([balance]);FIXED([balance];1;TRUE())&" kN balances "&[partner];"measure what the wire has"&IF([wire]="";"";"; "&FIXED(boat_set_up_usual*[wire_break];1;TRUE())&" kN is usual")&IF([partner]="";"";"; what "&[partner]&" needs follows from it"))}'),
        Rule("lead.forward", FIX, f'IF([pull_fore]="";FALSE();AND({kinds.is_one_of(LEAD_FORWARD)};[pull_fore]<=0))', "a {kind} leads forward, this one leads aft: from fore {upper_fore:0} mm on the mast to fore {next_fore:0} mm", "kind", "look at Fore of both points"),
        Rule("lead.aft", FIX, f'IF([pull_fore]="";FALSE();AND({kinds.is_one_of(LEAD_AFT)};[pull_fore]>=0))', "a {kind} leads aft, this one leads forward: from fore {upper_fore:0} mm on the mast to fore {next_fore:0} mm", "kind", "look at Fore of both points"),
        Rule("stub.none", FIX, f'AND([upper_over]="{STUB}";IF(ISNA(MATCH([name];tangs_stay;0));ISNA(MATCH([name];tangs_stay_2;0));FALSE()))', "no row of Stubs names this stay: give it one, or pick another fitting", "upper_over"),
        Rule("stub", WAITS, f'AND([upper_over]="{STUB}";ISERROR([spare_bolt]);ISNUMBER({OWN_FIGURES}))', "Stubs: the stub of this stay", "upper_over"),
        Rule("stub.row", WAITS, f'IF([upper_over]="{STUB}";IFERROR({STUB_TORN};FALSE());FALSE())', "Stubs: the stub of this stay", "upper_over"),
        Rule("runs", FIX, f'OR([runs]="{FURLER}";[runs]="{METAL_HANKS}")', "with these on it a stay has to be wire: pick existing wire under Made of", "runs"),
        Rule("wire.stays", FIX, f'AND({IS_WIRE};[wire]="";[basis]<>"{WIRE}")', "pick the wire that stays", "wire"),
        Rule("stub.middle", FIX, f'IF([upper_over]="{STUB}";IF(ISNUMBER([upper_out]);[upper_out]<=0;FALSE());FALSE())', "its out is {upper_out:0} mm, but a stub sits on the side of the mast: type half the mast's width on Points", "upper"),
        Rule("stub.own", FIX, f'AND([upper_over]="{STUB}";[upper_over_own]<>"")', "its row on Stubs gives it: empty this cell", "upper_over_own"),
        Rule("via.order", FIX, 'AND([via]<>"";OR([upper_up]<=[via_up];[via_up]<=[lower_up]))', "it is {via_up:0} mm up, but must be between the lower point at {lower_up:0} mm and the upper at {upper_up:0} mm", "via"),
        Rule("via_2.alone", FIX, 'AND([via_2]<>"";[via]="")', "the upper tip is missing: pick it under Via, or move this one there", "via_2"),
        Rule("via_2.order", FIX, 'IF(OR([via]="";[via_2]="");FALSE();OR([via_up]<=[via_2_up];[via_2_up]<=[lower_up]))', "it is not between the tip above and the lower point", "via_2", "are the two tips swapped?"),
        *(Rule(f"{tip}.side", FIX, f'IF([{tip}]="";FALSE();[{tip}_out]<=0)', f"it is {{{tip}_out:0}} mm out: a tip stands to the stay's own side of the mast", tip) for tip, _ in TIPS),
        *(Rule(f"{tip}.behind", FIX, f'IF([{tip}]="";FALSE();AND([{tip}_out]>0;ABS([{tip}_off])>[{tip}_out]))', f'it stands {{ABS([{tip}_off]):0}} mm {{IF([{tip}_off]<0;"behind";"before")}} the mast and only {{{tip}_out:0}} mm to its side', tip, "look at Fore and Out of the tip") for tip, _ in TIPS),
        *(Rule(f"{end}_over_own.pin", FIX, f'AND([{end}_over]="{PIN}";[{end}_over_own]="")', "type the pin's diameter", f"{end}_over_own") for end, _ in ENDS),
        *(Rule(f"{end}_over_own.ring", FIX, f'AND([{end}_over]="{RING}";[{end}_over_own]<>"")', "the ring gives it: empty this cell", f"{end}_over_own") for end, _ in ENDS),
        *(waits_for(point, "Points") for point in ("upper", "via", "via_2", "lower")),
        Rule("partner.row", WAITS, f"IF([partner]=\"\";FALSE();IF(ISERROR([load_pair])+ISERROR([balance])=0;FALSE();{OTHER_TO_BLAME}))", "Stays: {partner}", "partner"),
        waits_for("mast", "Masts"),
        Rule("plate.row", WAITS, PLATE_AT_FAULT, "Chainplates: {plate}", "plate"),
        Rule("plate.others", WAITS, "AND(ISERROR([plate_load]);ISNUMBER([load]))", "Stays: what else hangs on {lower}", "plate_load"),
        Rule("plate.twice", FIX, 'AND([plate]<>"";OR([chainplate]<>"";[chainplate_hole]<>""))', "Chainplates has a row for {lower}, type it there and empty it here", "chainplate"),
        *(waits_for(pick, "Library") for pick in FROM_LIBRARY),
        Rule("partner.stopped", WAITS, PARTNER_STOPPED, "Stays: {partner}", "partner", mutual=True),
        Rule("growth", FIX, "boat_growth<=1+[rope.take_up]", "got {boat_growth:3}; must be above {1+[rope.take_up]:3}, 1 and the rope's take-up", "boat_growth"),
        Rule("margin", DANGER, "[margin]<[margin_required]", "safety factor {ROUNDDOWN([margin];2):2}; must be {margin_required:2}", "rope_own", f'{{IF({IS_WIRE};{remedies.wire("[margin_required]*[load]")};{STRONGER})}}'),
        Rule("margin_own.less", WEIGH, 'IF([margin_own]="";FALSE();[margin_required]<boat_margin)', "its own safety factor of {margin_required:2} is looser than Boat's {boat_margin:2}", "margin_own"),
        Rule("spare", DANGER, "[spare]<0", f"{{weakest}} is short by {{-[spare]:%}}{{{LINK_HOLDS}}}", "rope_own", f"{{{LINK_REMEDY}}}"),
        *(Rule(f"{end}_ring.load", DANGER, f"[load]>[{end}_ring.load]", f"{end} ring: the load is {{load:1}} kN, its working load {{{end}_ring.load:1}} kN", f"{end}_ring_own", f"{{{remedies.ring('[load]', groove=f'[{end}_under]')}}}") for end, _ in ENDS),
        Rule("need", WEIGH, f'AND([need]>[break_load];[margin]>=[margin_required];[smallest]<>"{NONE}")', "rope of {break_load:1} kN; {need:1} kN is needed for {governs}", "rope_own", f"{{{remedies.rope('[need]')}}}"),
        *(Rule(f"{end}_throat", WEIGH, f"ROUND([{end}_throat];1)>boat_throat", f"{end} throat is {{{end}_throat:1}}°, maximum {{boat_throat}}°", f"{end}_eye_own", f"an eye of {{CEILING({shortest_eye(end)};boat_eye_step):0}} mm would do") for end, _ in ENDS),
        Rule("slack", WEIGH, "[tighten_tension]>=[pretension]", "slack when it is {boat_warmer} K colder than when it was tuned: it is set up to {pretension:1} kN and loses {tighten_tension:1} kN", "pretension_own", "set it up to more than {tighten_tension:1} kN, or question the load"),
        Rule("slack.heel", WEIGH, 'IF([slack_heel]="";FALSE();[slack_heel]<(1-boat_tension_off)*boat_lee_heel)', "to leeward it is slack from {slack_heel:0}° of heel on, Boat wants it taut up to {boat_lee_heel}°", "pretension_own", "set it up to {ROUNDUP(RIG.PRETENSION(IF([load_pair]=\"\";[load_alone];[load_pair]);boat_lee_heel;boat_load_factor);1):1} kN"),
        Rule("relax", WEIGH, 'IF([take_up_years]="";FALSE();[take_up_years]<1)', "creep takes half of its pretension within a year", "rope_own", "take a rope that creeps less, or take it up at every look"),
        Rule("pretension.over", DANGER, 'IF([wire]="";FALSE();[pretension]>2*boat_set_up_most*[wire_break])', 'set up to {[pretension]/[wire_break]:%} of the wire\'s breaking load; must be {2*boat_set_up_most:%} or less', "pretension_own", "{ROUNDDOWN(boat_set_up_most*[wire_break];1):1} kN is the most that goes unquestioned"),
        Rule("pretension.hard", WEIGH, '[pretension]>MAX([load]/2;IF([wire]="";0;boat_set_up_most*[wire_break]))', 'set up to {[pretension]/[load]:%} of its load{IF([wire]="";"";", "&TEXT([pretension]/[wire_break];"0 %")&" of the wire\'s breaking load")}', "pretension_own", '{ROUNDDOWN(MAX([load]/2;IF([wire]="";0;boat_set_up_most*[wire_break]));1):1} kN is the most that goes unquestioned'),
        Rule("balance.slack", WEIGH, '[tensions.slack]<>""', "slack: {tensions.slack}", "pretension_own", "see Balance, and set it up harder"),
        Rule("balance.dock", NOTE, '[bycase.untuned]<>""', "{bycase.untuned}", "pretension_own", "see Balance, and what pulls against it"),
        Rule("hold", WEIGH, "[pretension]+[tighten_tension]>boat_hold_hot*[break_load]", "{boat_warmer} K warmer it is held at {[pretension]+[tighten_tension]:1} kN, for creep the maximum is {boat_hold_hot*[break_load]:1} kN", "pretension_own", f"set it up to less, or {{{remedies.rope('[pretension]/(boat_hold_hot-[tighten_tension]/[break_load])')}}}"),
        Rule("below.load", WEIGH, 'IF([pull_below]="";FALSE();[pull_below]<[pull])', "it is loaded with {pull:1} kN along the mast, the stays from its lower point down with {pull_below:1} kN", "load_own", "give them the same"),
        Rule("below.pretension", WEIGH, 'IF([pull_held_below]="";FALSE();ABS([pull_held_below]-[pull_held])>boat_tension_off*[pull_held])', "its pretension is {pull_held:1} kN along the mast, that of the stays from its lower point down {pull_held_below:1} kN", "pretension_own", "set {leg} up to {[leg.pretension]*[pull_held]/[pull_held_below]:1} kN"),
        Rule("kind.none", WEIGH, 'OR([kind]="";[side]="")', "pick kind and side, or its balance is not checked", "kind", "pick both"),
        Rule("balance.none", WEIGH, f'IF({kinds.is_one_of(FORE_AND_AFT)};IF([partner]="";{NOT_HELD};FALSE());FALSE())', "no stay here balances this {kind}", "kind", "give it a row; wire that stays has one, too"),
        Rule("pair.none", WEIGH, f'AND({kinds.is_one_of(kinds.PAIR)};[side]<>"";[partner]="";{IS_A_RIG})', "there is no other lower of this side to balance it", "kind", "give it a row, or call this one a single lower"),
        Rule("balance", WEIGH, f'IF([balance]="";FALSE();AND({kinds.is_one_of(LEAD_AFT)};ABS([pretension]-[balance])>boat_tension_off*[balance]))', "{partner} at {partner.pretension:1} kN needs {balance:1} kN here, it is set up to {pretension:1} kN, so the mast bends", "pretension_own", '{IF(IF(ISNUMBER([tighten_tension]);AND([balance]>0;[balance]<=[tighten_tension]);FALSE());"the cold takes "&FIXED([tighten_tension];1;TRUE())&" kN of it, so set "&[partner]&" up to more than "&FIXED([partner.pretension]*[tighten_tension]/[balance];1;TRUE())&" kN and this one to match";"set this one up to "&FIXED([balance];1;TRUE())&" kN, or the other to match")}'),
        Rule("pulls", WEIGH, f'IF([balance]="";FALSE();AND({kinds.is_one_of((kinds.FORESTAY, kinds.BACKSTAY, kinds.RUNNER))};ABS([load_alone]*[pull_fore])<boat_pull_least*ABS([partner.load_alone]*[partner.pull_fore])))', "its load of {load_alone:1} kN pulls {ABS([load_alone]*[pull_fore]):1} kN fore and aft, that of {partner} {ABS([partner.load_alone]*[partner.pull_fore]):1} kN, and the two hold each other", "wire", "look at the wire of both, or at the load typed"),
        Rule("apart", WEIGH, f'AND({kinds.is_one_of((kinds.INNER_FORESTAY, kinds.RUNNER))};IF(OR([partner]="";[pull_fore]="";[balance]<>"");FALSE();[partner.pull_fore]<>""))', "it meets the mast at {upper_up:0} mm, {partner} at {partner.upper_up:0} mm, so the mast bends between them", "upper", "look at both points"),
        Rule("inner.high", WEIGH, f'IF({kinds.is_one_of((kinds.INNER_FORESTAY,))};IF({FORESTAY_UP}="";FALSE();[upper_up]>={FORESTAY_UP});FALSE())', "it starts as high as the forestay", "upper", "look at the upper points of both"),
        Rule("height", WEIGH, f'IF(AND({kinds.is_one_of((kinds.CAP_SHROUD,))};[upper]<>"");{NO_STAY_THERE};FALSE())', "no stay on the centreline meets the mast near it, at {upper_up:0} mm", "upper", "look at its upper point"),
        Rule("split", WEIGH, 'IF([split_angle]="";FALSE();[split_angle]>boat_split_most)', "its legs pull {split_angle:1}° out of its line", "lower", "by the other points the split stands at fore {RIG.SPLIT.FORE([upper_fore];[upper_up];[leg.lower_fore];[leg.lower_up];[lower_up]):0} mm; measure again"),
        Rule("twin.none", WEIGH, f'IF(OR([side]="{kinds.PORT}";[side]="{kinds.STARBOARD}");ISNA(MATCH([kind]&", "&{OTHER_SIDE}&", "&[mast];stays_place;0));FALSE())', f"there is no {{kind}} to {{{OTHER_SIDE}}}", "side", "give it a row, or pick both here"),
        Rule("lower.none", WEIGH, f'IF(OR([via]="";[side]="");FALSE();AND({IS_A_RIG};{kinds.none_of(kinds.HOLD_THE_SPREADER)}))', "nothing holds the mast at the spreader: there is no lower on this side", "kind", "give it a row; wire that stays has one, too"),
        Rule("cap.none", WEIGH, f'IF(AND({kinds.is_one_of(kinds.LOWERS)};[side]<>"";{IS_A_RIG});{kinds.none_of((kinds.CAP_SHROUD,))};FALSE())', "nothing holds the mast above it: there is no cap shroud on this side", "kind", "give it a row; wire that stays has one, too"),
        Rule("air", WEIGH, f'IF(OR([lower]="";[upper]="";[kind]="{kinds.OTHER.name}");FALSE();IF(OR({GOES_ON};[lower.on_mast]<>"");FALSE();{IN_THE_AIR}))', "its lower point is {lower_up:0} mm up, and no stay goes on from there", "lower", "give the stays below it their rows, or look at the point"),
        Rule("centre", WEIGH, f'IF(OR([side]="";[side]="{kinds.CENTRELINE}";[lower]="");FALSE();[lower_out]=0)', "its lower point is on the centreline, its side is {side}", "lower.out", "type its out on Points"),
        Rule("other.side", WEIGH, f'IF(OR([side]="{kinds.PORT}";[side]="{kinds.STARBOARD}");{NAMED_OTHERWISE.format(OTHER_SIDE)};FALSE())', f"a point of it is called {{{OTHER_SIDE}}}, its side is {{side}}", "lower", "pick those of its own side"),
        Rule("lower.height", WEIGH, f'IF(AND({kinds.is_one_of((kinds.CAP_SHROUD, *kinds.LOWERS))};[side]<>"";[lower]<>"");IF({PLATES_WITHIN.format("")}>1;FALSE();{PLATES_WITHIN.format("+1000")}>1);FALSE())', "its lower point is {lower_up:0} mm up, no other of its side is within {boat_plates_apart:0} mm of that", "lower.up_own", "is a minus missing on Points, or one too many?"),
        Rule("cap.before", WEIGH, f'IF(AND({kinds.is_one_of((kinds.CAP_SHROUD, kinds.SINGLE_LOWER))};[lower]<>"";[upper]<>"");[lower_fore]-[mast.foot_fore]>boat_ahead*[lower_out];FALSE())', "its lower point is {[lower_fore]-[mast.foot_fore]:0} mm forward of the mast; that of a cap shroud or single lower is beside it or aft", "lower.fore_own", "is a minus missing on Points?"),
        *(Rule(f"{tip}.before", WEIGH, f'IF([{tip}]="";FALSE();AND([{tip}_off]>boat_tip_ahead*[{tip}_out];[{tip}_off]<=[{tip}_out];[{tip}.aft]=""))', f"it stands {{{tip}_off:0}} mm forward of the mast, and spreaders stand square to it or lead aft", f"{tip}.fore_own", "is a minus missing, or the mast's lean not counted? Points takes a tip from the mast, too: Along, and Aft of the mast") for tip, _ in TIPS),
        *(Rule(f"{tip}.ahead", WEIGH, f'IF([{tip}]="";FALSE();AND([{tip}_off]>boat_tip_ahead*[{tip}_out];[{tip}.aft]<>""))', f"it stands {{{tip}_off:0}} mm forward of the mast, and spreaders stand square to it or lead aft", f"{tip}.aft", "is a minus too many? On Points aft is positive there") for tip, _ in TIPS),
        Rule("plate.unlike", WEIGH, 'IF(OR([plate]<>"";[chainplate]="";[plate_load]=[load]);FALSE();SUMPRODUCT((stays_lower=[lower])*(stays_chainplate<>"")*(stays_chainplate<>[chainplate]))>0)', "stays on this chainplate give it different strengths", "chainplate"),
        *(Rule(f"{tip}.inside", WEIGH, f'IF([{tip}]="";FALSE();[{tip}_out]<=[{tip}_line])', f"the stay does not bear on it: by the points it is {{[{tip}_line]-[{tip}_out]:0}} mm inside the straight line past it", f"{tip}.out", "look at Out of the points") for tip, _ in TIPS),
        Rule("typed", WEIGH, f'AND([basis]="{TYPED}";[note]="")', "nothing says where the load of {load_own} kN comes from", "note", "say it under Note"),
        Rule("span", WEIGH, "AND([span]>0;[span]<2*boat_growth*[bury])", "{span:0} mm from throat to throat, the marks of two splices take {2*boat_growth*[bury]:0} mm", "rope_own", "rope of {ROUNDDOWN([rope_size]*[span]/(2*boat_growth*[bury]);1):1} mm or less would do"),
        Rule("out", WEIGH, "OR([upper_out]<0;[lower_out]<0)", "a point is {MIN([upper_out];[lower_out]):0} mm out, but out counts on the stay's own side", "upper", "type it without the minus on Points"),
        Rule("angle.own", WEIGH, f'IF(OR([angle_own]="";[upper]="");FALSE();ABS([angle]-{part("OUT", "upper", "next")})>boat_extra)', f"measured angle {{angle:1}}°, by its points {{{part('OUT', 'upper', 'next')}:1}}°, maximum {{boat_extra}}° apart", "angle_own", "measure again"),
        Rule("length.own", WEIGH, f'IF([length_points]="";FALSE();ABS([length]-[length_points])>MIN(boat_length_off*[length];{CAN_CLOSE}/2))', f"measured length and points differ by {{ABS([length]-[length_points]):0}} mm, the lashing can close {{{CAN_CLOSE}:0}} mm", "length_own", "measure again"),
        Rule("chainplate.out", WEIGH, f'AND([basis]="{RM}";ABS([lower_out]-boat_chainplate_out)>boat_chainplate_off*boat_chainplate_out)', "its lower point is {lower_out:0} mm out, Boat has the chainplates at {boat_chainplate_out:0} mm", "lower", "measure again"),
        Rule("angle", WEIGH, f'AND([basis]="{RM}";[angle]<{ANGLE_LEAST})', f"{{angle:1}}° at the mast is small for a shroud, {{{ANGLE_LEAST}}}° and more is usual", "via", 'look at {IF([via]="";"its points, and whether it goes over a spreader";"Out of the tip and of its upper point")}'),
        Rule("fore", WEIGH, f'AND([basis]="{RM}";ABS([angle_fore])>boat_fore_most)', "leads fore or aft by {ABS([angle_fore]):0}° at the mast, up to {boat_fore_most}° is usual for a shroud", "lower", "look at its points"),
        Rule("measured", WEIGH, 'AND([upper]="";[length_own]<>"";[note]="")', "length and angle rest on the tape alone, no points stand beside them", "note", "measure both twice and say so under Note"),
        Rule("alone", WEIGH, 'IF([as_long]="";FALSE();[as_long]=0)', "no other stay from its upper point is {length:0} mm long, within {boat_length_off/2:%}", "lower", "measure both sides again"),
        Rule("share.count", WEIGH, f'IF([basis]="{RM}";[share.here]<>[share.of];FALSE())', "the share is for {share.of} such shrouds, here are {share.here}", "share", "pick another share, or give the missing shrouds their rows"),
        Rule("smallest", WEIGH, f'[smallest]="{NONE}"', "{need:1} kN is needed, the strongest rope of Boat's family breaks at {MAX(rope_family_break):1} kN", "rope_own", "give a stronger one a row in Library, or share the load"),
        Rule("fittings", WEIGH, 'IF([fittings]="";FALSE();[fittings]>boat_fittings_most*[length])', "the other fittings take {[fittings]:0} of {length:0} mm", "fittings", "probably a typing error"),
        *(Rule(f"{end}_eye", WEIGH, f'IF([{end}_eye_own]="";FALSE();[{end}_eye]>boat_eye_most*{shortest_eye(end)})', f"{end} eye of {{{end}_eye:0}} mm is more than {{boat_eye_most}} times the shortest, {{{shortest_eye(end)}:0}} mm", f"{end}_eye_own", "probably a typing error") for end, _ in ENDS),
        Rule("creep", WEIGH, 'AND([creep]<>"";[haul]<>"";[creep]>[closes])', "it creeps {creep:0} mm until it is retired, the lashing can close {MAX(0;[closes]):0} mm", "rope_own", "that is used up after {boat_retire_years*MAX(0;[closes])/[creep]:1} years: retire it then, or leave a larger gap"),
        Rule("creep.unknown", WEIGH, '[creep]=""', "the creep of its rope is not known, so it is not checked", "rope.creep", "ask its maker and type it in Library"),
        Rule("chainplate.wire", WEIGH, 'IF(OR([chainplate]="";[wire]="");FALSE();[chainplate]*boat_gamma<[wire_break])', "the chainplate holds {[chainplate]:1} kN, the wire that hung here broke at {wire_break:1} kN, and chainplates used to outlast their wire", "chainplate", "ask who gave the figure"),
        Rule("hole", WEIGH, "[hole_needed]>[hole_least]", "{parts} parts of the lashing need a hole of {hole_needed:0} mm, here it is {hole_least:0} mm", "line_own", f'{{IF([lower_over]="{RING}";IF([lower_ring.hole]<[hole_needed];{remedies.ring("[load]", hole="[hole_needed]")};"take a thinner line");"take a thinner line, or have the hole made wider if its plate allows it")}}'),
        Rule("passes", WEIGH, "N([passes_hole])>N([chainplate_hole])", "it is too small for all lashings there, see Hole for lashings", "chainplate_hole"),
        Rule("chainplate.unknown", WEIGH, 'AND([plate]="";[chainplate]="")', "what the chainplate holds is not known, so it is not checked; it must hold {[plate_load]*boat_margin_metal:1} kN", "chainplate", "give its lower point a row on Chainplates"),
        Rule("chainplate.strong", WEIGH, 'AND([plate]="";(N([spare_chainplate])+1)*boat_margin_metal>boat_too_strong)', "the chainplate holds {([spare_chainplate]+1)*boat_margin_metal:0} times the load", "chainplate", "is it in kN?"),
        Rule("wire.unnamed", WEIGH, f'AND([wire]="";[basis]<>"{WIRE}")', "no wire is named, so load and stretch are compared with nothing", "wire", "pick the one that hung here"),
        Rule("load.large", WEIGH, 'AND([wire]<>"";[load]>boat_load_most*[wire_break])', "the load of {load:1} kN is {[load]/[wire_break]:%} of what the wire that hung here broke at, up to {boat_load_most:%} is usual", "wire", "is it the right wire?"),
        Rule("load.small", WEIGH, 'AND([wire]<>"";[load]<boat_load_least*[wire_break])', "the load of {load:1} kN is {[load]/[wire_break]:%} of what the wire that hung here broke at, {boat_load_least:%} and more is usual", "wire", "question where it comes from"),
        *(Rule(f"{end}_under", WEIGH, f"[{end}_under]<boat_rod_least*[rope_size]", f"{end} diameter of {{{end}_under:1}} mm is thin for rope of {{rope_size:1}} mm, minimum {{boat_rod_least*[rope_size]:1}} mm", f"{end}_over", f'{{IF([{end}_over]="{RING}";{remedies.ring("[load]", groove="boat_rod_least*[rope_size]")};"take a thicker one")}}') for end, _ in ENDS),
        Rule("trial", WEIGH, f'[rope.trial]="{ASSUMED}"', "take-up and set of its rope are assumed", "rope.trial", "pull a trial splice, as All Bench Pages says, and type them in Library"),
        Rule("balance.unchecked", NOTE, f'IF(ISERROR(verdict_words);FALSE();verdict_words<>"{WORKED_OUT}")', "Balance {verdict_words}", "pretension_own"),
        Rule("unused", NOTE, f"IF({IS_WIRE};OR({';'.join(f'[{key}]<>' + chr(34) * 2 for key in TYPED_OF_ROPE)});FALSE())", "what is typed of rope, eyes and lashing does not count while it stays wire", "made_of"),
        Rule("relax.years", NOTE, 'IF([take_up_years]="";FALSE();AND([take_up_years]>=1;[take_up_years]<boat_retire_years))', "set it up again after {take_up_years:1} years: half of its pretension has crept away by then", "take_up_years"),
        Rule("rests", NOTE, '[rests]<>""', "no certificate: {rests}", "rests"),
        Rule("wire.itself", NOTE, f'IF({IS_WIRE};AND([basis]="{WIRE}";[load]=[load_alone]);FALSE())', "its load is a share of its own breaking load, so its safety factor proves nothing", "basis"),
    ))),
)

SHEET = Sheet(
    "Stays",
    "One row per stay. Fill what is white and framed; Check asks for what is missing. Further right a + above the columns unfolds what a block holds.",
    (STAYS,),
    cautions=(PULLING,),
)
