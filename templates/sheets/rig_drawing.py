"""The boat and its margins as Rig draws them: charts over cells, in mm of the sheet.

The axes of the charts do not move, and what moves is the scale, so that a length is the same along and up. Side view,
bow to the right, and the view from ahead stand on one height. The stays of one state are one line with gaps; every
name is a line of two points, from the stay to where it is written.
"""

from collections.abc import Iterable

from templates.schedule import DANGER, FIX, NOTE, SOUND, WAITS, WEIGH, Column
from templates.sheets import kinds
from templates.sheets.rig_cells import (
    MASTS,
    POINTS,
    SHORTENED,
    STAYS,
    STAYS_LISTED,
    cell,
    gapless,
    held,
    least,
    nth_of,
    number_of,
    of,
)
from templates.sheets.rig_open import complaint

PLOT, TALL, SPARES_TALL = 146, 122, 57  # mm, the drawing and the bars below it
# What is left free round the drawing, in mm: for names, for the key below it.
LEFT, LEFT_OF_A_MAST, BETWEEN, BETWEEN_OF_MASTS, RIGHT, ABOVE, BELOW = 16, 27, 9, 14, 27, 7, 21
LINE = 4.6  # mm from name to name
LETTER = 1.6  # mm, the width of one at most
NEAR = 1.5  # mm, within which two stays are one line
STATES = {SOUND: "ok", NOTE: "ok", WEIGH: "weigh", WAITS: "waits", DANGER: "urgent", FIX: "urgent"}
DRAWN = ("ok", "waits", "weigh", "urgent")

AXES = ("fore", "out", "up")
CORNERS = {1: "upper", 2: "via", 3: "via_2", 4: "lower"}  # of a stay, from its upper point down
TIPS = (2, 3)
FORES = (*(f"drawn_stay_f{at}" for at in CORNERS), "drawn_point_fore", "drawn_mast_f1", "drawn_mast_f2")
UPS = (*(f"drawn_stay_u{at}" for at in CORNERS), "drawn_point_up", "drawn_mast_u1", "drawn_mast_u2")
OUTS = (*(f"drawn_stay_o{at}" for at in CORNERS), "drawn_point_out")

FREE = (f"({PLOT - RIGHT}-[left]-[between])", f"({TALL - ABOVE - BELOW})")
# Where a mast stands at the very stern, the names of its stays stand aft of all.
ASTERN = f"AND(rig_masts>1;{least('MIN', 'drawn_mast_f1')}-[fore_least]<0.2*([fore_most]-[fore_least]))"
SCALE = (
    cell("stays", "COUNTA(stays_name)", "0"),
    cell("stays_gapless", gapless("stays"), "0"),
    cell("stubs", "COUNTA(tangs_name)", "0"),
    cell("stubs_gapless", gapless("tangs"), "0"),
    cell("points", "COUNTA(points_name)", "0"),
    cell("points_gapless", gapless("points"), "0"),
    cell("masts", "COUNTA(masts_name)", "0"),
    cell("masts_gapless", gapless("masts"), "0"),
    cell("fore_least", least("MIN", *FORES)),
    cell("fore_most", least("MAX", *FORES)),
    cell("up_least", least("MIN", *UPS)),
    cell("up_most", least("MAX", *UPS)),
    cell("out_most", f"MAX({least('MAX', *OUTS)};-{least('MIN', *OUTS)})"),
    cell("left", f"IF({ASTERN};{LEFT_OF_A_MAST};{LEFT})", "0"),
    cell("between", f"IF(rig_masts>1;{BETWEEN_OF_MASTS};{BETWEEN})", "0"),
    cell("scale", f"MIN({FREE[0]}/MAX(1000;[fore_most]-[fore_least]+2*[out_most]);{FREE[1]}/MAX(1000;[up_most]-[up_least]))", "0.00000"),
    cell("spare", f"{FREE[0]}-[scale]*([fore_most]-[fore_least]+2*[out_most])"),
    cell("side_at", "[left]+[spare]/3-[fore_least]*[scale]"),
    cell("ahead_at", "[left]+[between]+[spare]*2/3+([fore_most]-[fore_least]+[out_most])*[scale]"),
    cell("up_at", f"{BELOW}-[up_least]*[scale]"),
    cell("pitch", f"MIN(7;{SPARES_TALL - 14}/MAX(1;MIN({STAYS_LISTED};COUNT(drawn_stay_spare))))", "0.00"),
    cell("too_little", "IF(COUNT(drawn_stay_spare)=0;0;MIN(0;MAX(-1;MIN(drawn_stay_spare))))", "0.00"),
    cell("unit", f"{PLOT - 64}/(MIN(2;IF(COUNT(drawn_stay_spare)=0;1;MAX(0.5;MAX(drawn_spare_spare))))-[too_little])", "0.00"),
    cell("enough", "52-[too_little]*[unit]", "0.00"),
    cell("nothing", f"COUNT({';'.join(UPS)})=0", "0"),
    cell("foremost", "MAX(drawn_mast_f1)"),
    cell("bar", "IF([scale]*5000<=26;5;IF([scale]*2000<=26;2;1))", "0"),
)


def corner(number: int) -> "tuple[Column, ...]":
    """A point of the stay, in mm of the boat; where it goes over no such tip, the point before."""
    letters, key = list(zip("fou", AXES)), CORNERS[number]
    if number not in TIPS:
        return tuple(cell(f"{letter}{number}", number_of(f"stays_{key}_{axis}")) for letter, axis in letters)
    over = cell(f"over{number}", f'IF([drawn]=0;0;IF(ISNUMBER(INDEX(stays_{key}_up;[at]));1;0))', "0")
    tip = f'IF([drawn]=0;"";IF([over{number}]=0;[{{0}}{number - 1}];INDEX(stays_{key}_{{1}};[at])))'
    return (over, *(cell(f"{letter}{number}", tip.format(letter, axis)) for letter, axis in letters))


def across(key: str, formula: str) -> Column:
    """A place on the sheet, in mm; nothing where the stay is not drawn."""
    return cell(key, f'IF([drawn]=0;"";{formula})', "0.00")


def at_height(at: str, cell: str, x: str) -> str:
    """Formula: where a line is at a height of the drawing; `cell` says where x1, y1 and so on are held."""

    def between(above: int) -> str:
        x1, x2, y1, y2 = (cell.format(f"{axis}{number}") for axis in (x, "y") for number in (above, above + 1))
        return f"{x2}+({x1}-{x2})*({at}-{y2})/({y1}-{y2})"

    found = between(3)
    for above in (2, 1):
        found = f"IF({cell.format(f'y{above + 1}')}<{at};{between(above)};{found})"
    return found


def outermost(at: str, x: str, side: str, among: str = "1") -> str:
    """Formula: how far out, to that side, a stay is at that height."""
    there = f"{among}*(drawn_stay_y4<={at})*(drawn_stay_y1>={at})"
    return f"{side}*SUMPRODUCT(MAX(IFERROR(IF({there};{side}*({at_height(at, 'drawn_stay_{}', x)});-1000);-1000)))"


def named(key: str, place: str, x: str, end: str) -> "tuple[Column, ...]":
    """Where a stay's name is written in a view: on which side, at what height, from where to where.

    The names of a side stand below each other, each as high as its stay allows and a line below the one before.
    """
    before = f"(drawn_stay_{key}_place=[{key}_place])"
    higher = "(drawn_stay_top>[top])+(drawn_stay_top=[top])*(drawn_stay_nth<[nth])"
    there = f'IF([{key}_place]="";"";{{}})'
    return (
        cell(f"{key}_place", f'IF([written]="";"";{place})', ""),
        cell(f"{key}_rank", there.format(f"1+SUMPRODUCT({before}*({higher}))"), "0"),
        cell(f"{key}_slot", there.format(f'[{key}_place]&" "&[{key}_rank]'), ""),
        cell(
            f"{key}_y",
            there.format(
                f"MAX([y4];MIN([y1];SUMPRODUCT(MIN(IF({before}*(drawn_stay_{key}_rank<=[{key}_rank]);"
                f"drawn_stay_top+{LINE}*drawn_stay_{key}_rank;1000)))-{LINE}*[{key}_rank]))"
            ),
            "0.00",
        ),
        cell(f"{key}_x", there.format(f"IFERROR({at_height(f'[{key}_y]', '[{}]', x)};[{x}4])"), "0.00"),
        cell(f"{key}_end", there.format(end), "0.00"),
    )


# Between two masts there is no room: names of the foremost stand forward, of the others aft.
ON_RIGHT, ON_LEFT = "right", "left"
BY_MAST = f'IF(IFERROR([mast.foot_fore]>=rig_foremost;TRUE());"{ON_RIGHT}";"{ON_LEFT}")'
BY_LEAD = f'IF([x4]-[x1]>0.03*([y1]-[y4]);"{ON_RIGHT}";IF([x1]-[x4]>0.03*([y1]-[y4]);"{ON_LEFT}";"{ON_RIGHT}"))'
SIDE = f"IF(rig_masts>1;{BY_MAST};{BY_LEAD})"
AHEAD = f'IF(MAX(ABS([b1]);ABS([b4]))<2;"";IF([to]<0;"{kinds.STARBOARD}";"{kinds.PORT}"))'
OUTSIDE = outermost("[ahead_y]", "w", "1") + "+2"
WIDE = f"(2+{LETTER}*LEN([written]))"  # of a name: what is over the edge of a chart makes the office squeeze it
OWN_MAST = "(drawn_stay_mast=[mast])"
TWIN = "+".join(f"ABS(drawn_stay_{key}-[{key}])" for key in ("x1", "y1", "x2", "x3", "x4", "y4"))
EARLIER = "(drawn_stay_nth<[nth])*(drawn_stay_short=[short])"

STAY = (
    cell("at", nth_of("stays", "rig_stays", "rig_stays_gapless"), "0"),
    cell("name", held("stays_name"), ""),
    cell("state", f'IF([at]="";"";IFERROR(INDEX(stays_state;[at]);"{FIX}"))', ""),
    cell("mast", held("stays_mast"), "", choices="masts_name"),
    cell("side", held("stays_side"), ""),
    *corner(1),
    *corner(4),
    cell("drawn", 'IF(COUNT([f1];[o1];[u1];[f4];[o4];[u4])=6;1;0)', "0"),
    *corner(2),
    *corner(3),
    cell("to", f'IF([side]="{kinds.STARBOARD}";-1;1)', "0"),
    cell("twice", f'IF([drawn]=0;0;IF([side]="{kinds.BOTH}";1;IF([side]="";IF(ABS([o1])+ABS([o4])>0;1;0);0)))', "0"),
    *(across(f"x{at}", f"rig_side_at+[f{at}]*rig_scale") for at in CORNERS),
    *(across(f"y{at}", f"rig_up_at+[u{at}]*rig_scale") for at in CORNERS),
    *(across(f"b{at}", f"[to]*[o{at}]*rig_scale") for at in CORNERS),
    *(cell(f"root{at}", f'IF([over{at}]=0;"";IFERROR(rig_side_at+([mast.foot_fore]-([u{at}]-[mast.foot_up])*TAN(RADIANS([mast.rake])))*rig_scale;""))', "0.00") for at in TIPS),
    cell("deck", 'IF([drawn]=0;"";IFERROR(IF(ISNUMBER(MATCH(INDEX(stays_lower;[at]);stays_upper;0));"";IF(ISBLANK(INDEX(points_along;MATCH(INDEX(stays_lower;[at]);points_name;0)));[f4]+[nth]/1000000;""));""))', "0.0"),
    cell("missing", 'IF(AND([name]<>"";[drawn]=0);[name];"")', ""),
    cell("short", 'IF([drawn]=0;"";IF([side]="";[name];SUBSTITUTE([name];", "&[side];"")))', ""),
    cell("twins", f'IF([drawn]=0;0;SUMPRODUCT({EARLIER}*IFERROR({TWIN}+ABS(ABS(drawn_stay_b4)-ABS([b4]))<{NEAR};FALSE())))', "0"),
    cell("written", f'IF(OR([drawn]=0;[twins]>0);"";IF(SUMPRODUCT({EARLIER})>0;{SHORTENED.format("[name]")};{SHORTENED.format("[short]")}))', ""),
    across("top", "[y1]-0.12*([y1]-[y4])"),
    *named("side", SIDE, "x", f'IF([side_place]="{ON_RIGHT}";MIN({PLOT}-{WIDE};{outermost("[side_y]", "x", "1", OWN_MAST)}+2);MAX({WIDE};{outermost("[side_y]", "x", "-1", OWN_MAST)}-2))'),
    *named("ahead", AHEAD, "b", f'IF([to]>0;MIN({PLOT}-{WIDE}-rig_ahead_at;{OUTSIDE});MAX({WIDE}-rig_ahead_at;-({OUTSIDE})))'),
    *(across(f"w{at}", f"ABS([b{at}])") for at in CORNERS),
    *(cell(f"tip{at}", f'IF([root{at}]="";"";[nth]+{(at - 2) * (STAYS + 1)})', "0") for at in TIPS),
    cell("mirrored", 'IF([twice]=0;"";SUMPRODUCT((drawn_stay_nth<=[nth])*drawn_stay_twice))', "0"),
    *complaint("stays", "drawn_stay", 8),
    cell("spare", 'IF([at]="";"";IF(ISNUMBER(INDEX(stays_spare;[at]));INDEX(stays_spare;[at])+[nth]/1000000000;""))', "0.000"),
)

STUB = (cell("at", nth_of("tangs", "rig_stubs", "rig_stubs_gapless"), "0"), *complaint("tangs", "drawn_stub", 7))
MAST = (
    cell("at", nth_of("masts", "rig_masts", "rig_masts_gapless"), "0"),
    cell("name", held("masts_name"), "", choices="masts_name"),
    cell("f1", 'IF([name]="";"";IFERROR([name.foot_fore];""))'),
    cell("u1", 'IF([name]="";"";IFERROR([name.foot_up];""))'),
    cell("f2", 'IF([name]="";"";IFERROR(RIG.MAST.FORE([name.head];[name.rake];[name.foot_fore]);""))'),
    cell("u2", 'IF([name]="";"";IFERROR(RIG.MAST.UP([name.head];[name.rake];[name.foot_up]);""))'),
    cell("drawn", "IF(COUNT([f1];[u1];[f2];[u2])=4;1;0)", "0"),
    cell("x", 'IF([drawn]=0;0;rig_side_at+[f2]*rig_scale)', "0.00"),
    cell("y", 'IF([drawn]*(rig_masts>1)=0;"";rig_up_at+[u2]*rig_scale)', "0.00"),
)
POINT = (
    cell("at", nth_of("points", "rig_points", "rig_points_gapless"), "0"),
    cell("fore", number_of("points_fore")),
    cell("out", number_of("points_outward")),
    cell("up", number_of("points_up")),
)


# Each stay is drawn from the side and from ahead; those of both sides of the boat once more, to starboard.
MIRRORED = 8
RUNS = 2 * STAYS + MIRRORED
SEEN = f"IF([nth]>{STAYS};rig_ahead_at+[to]*{{0}};{{1}})"
RUN = (
    cell("of", f'IF([nth]<={STAYS};[nth];IF([nth]<={2 * STAYS};[nth]-{STAYS};IFERROR(MATCH([nth]-{2 * STAYS};drawn_stay_mirrored;0);0)))', "0"),
    cell("to", f"IF([nth]>{2 * STAYS};-1;1)", "0"),
    cell("state", f'IF([of]=0;"";{of("drawn_stay_state")})', ""),
    *(cell(f"x{at}", f'IF([of]=0;0;IF({of("drawn_stay_drawn")}=0;0;{SEEN.format(of(f"drawn_stay_b{at}"), of(f"drawn_stay_x{at}"))}))', "0.00") for at in CORNERS),
    *(cell(f"y{at}", f'IF([of]=0;"";{of(f"drawn_stay_y{at}")})', "0.00") for at in CORNERS),
)
# The points of the chart: of each run its four, and a gap. The office loses a line that begins where the one before it
# ended, so each begins 0.1 mm beside its point.
PER_RUN = len(CORNERS) + 1
LINES = (
    cell("of", f"INT(([nth]-1)/{PER_RUN})+1", "0"),
    cell("part", f"MOD([nth]-1;{PER_RUN})+1", "0"),
    cell("y", f'IF([part]>{len(CORNERS)};"";INDEX(drawn_run_y1:drawn_run_y4;[of];[part]))', "0.00"),
    cell("x", 'IF([y]="";0;INDEX(drawn_run_x1:drawn_run_x4;[of];[part])+IF([part]=1;0.1;0))', "0.00"),
    cell("state", f'IF([y]="";"";{of("drawn_run_state")})', ""),
    *(
        cell(drawn, f'IF(OR({";".join(f"""[state]="{state}" """.strip() for state, line in STATES.items() if line == drawn)});[y];"")', "0.00")
        for drawn in DRAWN
    ),
)
# Spreaders: from the mast to a tip, so many at most, the lower tips of their stays after the upper ones.
SPREADERS = 16
TIP = (
    cell("place", "IFERROR(SMALL(drawn_stay_tip2:drawn_stay_tip3;[nth]);0)", "0"),
    cell("of", f"MOD([place];{STAYS + 1})", "0"),
    *(cell(key, f'IF([place]=0;"";INDEX(drawn_stay_{key}2:drawn_stay_{key}3;[of];INT([place]/{STAYS + 1})+1))', "0.00") for key in ("root", "x", "b", "y")),
    cell("twice", 'IF([place]=0;0;INDEX(drawn_stay_twice;[of]))', "0"),
)
BARS_OF_TIPS = (
    cell("of", f"MOD(INT(([nth]-1)/3);{SPREADERS})+1", "0"),
    cell("part", "MOD([nth]-1;3)+1", "0"),
    cell("y", f'IF([part]=3;"";{of("drawn_tip_y")})', "0.00"),
    cell("x", f'IF([y]="";0;IF([nth]<={3 * SPREADERS};CHOOSE([part];{of("drawn_tip_root")};{of("drawn_tip_x")});rig_ahead_at+IF([part]=2;{of("drawn_tip_b")};-{of("drawn_tip_twice")}*{of("drawn_tip_b")})))', "0.00"),
)
MAST_LINES = (
    cell("of", f"MOD(INT(([nth]-1)/3);{MASTS})+1", "0"),
    cell("part", "MOD([nth]-1;3)+1", "0"),
    cell("y", f'IF({of("drawn_mast_drawn")}=0;"";CHOOSE([part];rig_up_at+{of("drawn_mast_u1")}*rig_scale;rig_up_at+{of("drawn_mast_u2")}*rig_scale;""))', "0.00"),
    cell("x", f'IF([y]="";0;IF([nth]>{3 * MASTS};rig_ahead_at;CHOOSE([part];rig_side_at+{of("drawn_mast_f1")}*rig_scale;rig_side_at+{of("drawn_mast_f2")}*rig_scale;0)))', "0.00"),
)
DOTS = (
    cell("view", f"INT(([nth]-1)/{POINTS})", "0"),
    cell("of", f"MOD([nth]-1;{POINTS})+1", "0"),
    cell("y", f'IF(COUNT({of("drawn_point_fore")};{of("drawn_point_out")};{of("drawn_point_up")})<3;"";rig_up_at+{of("drawn_point_up")}*rig_scale)', "0.00"),
    cell("x", f'IF([y]="";0;CHOOSE([view]+1;rig_side_at+{of("drawn_point_fore")}*rig_scale;rig_ahead_at+{of("drawn_point_out")}*rig_scale;rig_ahead_at-{of("drawn_point_out")}*rig_scale))', "0.00"),
)
DECK = (
    cell("fore", 'IF([nth]>COUNT(drawn_stay_deck);"";SMALL(drawn_stay_deck;[nth]))', "0.0"),
    cell("of", 'IF([fore]="";"";MATCH([fore];drawn_stay_deck;0))', "0"),
    cell("y", f'IF([fore]="";"";{of("drawn_stay_y4")})', "0.00"),
    cell("x", f'IF([fore]="";0;{of("drawn_stay_x4")})', "0.00"),
)
WIDEST = 'SUMPRODUCT(MAX(IF(ISNUMBER(drawn_stay_deck);drawn_stay_w4;0)))'
DECK_AHEAD = (
    cell("wide", WIDEST, "0.00"),
    cell("of", 'IF([wide]=0;"";MATCH([wide];drawn_stay_w4;0))', "0"),
    cell("y", f'IF([of]="";"";{of("drawn_stay_y4")})', "0.00"),
    cell("x", 'IF([of]="";0;rig_ahead_at+IF([nth]=1;-1;1)*[wide])', "0.00"),
)

# So many names at most, by where they stand.
SLOTS = {ON_RIGHT: 12, ON_LEFT: 10, kinds.PORT: 8, kinds.STARBOARD: 5}
PLACES = tuple(place for place, count in SLOTS.items() for _ in range(count))
NAMES = (
    cell("of", 'IFERROR(MATCH("SLOT";drawn_stay_VIEW_slot;0);"")', "0"),
    cell("y", f'IF([of]="";"";{of("drawn_stay_VIEW_y")})', "0.00"),
    cell("x", f'IF([of]="";0;BASE{of("drawn_stay_VIEW_WHERE")})', "0.00"),
    cell("text", f'IF([of]="";"";{of("drawn_stay_written")})', ""),
)


def slots() -> "Iterable[dict[str, str]]":
    for place, count in SLOTS.items():
        view = "side" if place in (ON_RIGHT, ON_LEFT) else "ahead"
        for at in range(1, count + 1):
            for where in ("x", "end"):
                yield {"SLOT": f"{place} {at}", "VIEW": view, "WHERE": where, "BASE": "" if view == "side" else "rig_ahead_at+"}


# Words on the drawing and the lines that they are written to, and the key: so far along and up, in mm.
KEY_AT = ((2, "OK"), (21, "waits"), (44, "to consider"), (73, "danger, or to fix"))
def if_drawn(upward: float) -> str:
    return f'IF(rig_nothing;"";{upward:g})'


WORDS = (
    *({"ALONG": f"{x + 9 * end}", "UPWARD": if_drawn(3), "WORD": f'"{text}"'} for x, text in KEY_AT for end in (0, 1)),
    {"ALONG": "rig_side_at+(rig_fore_least+rig_fore_most)/2*rig_scale", "UPWARD": if_drawn(12), "WORD": '"side view, bow to the right"'},
    {"ALONG": "rig_ahead_at", "UPWARD": if_drawn(12), "WORD": '"from ahead"'},
    {"ALONG": "rig_ahead_at-MAX(9;0.8*rig_out_most*rig_scale)", "UPWARD": if_drawn(16.5), "WORD": f'"{kinds.STARBOARD}"'},
    {"ALONG": "rig_ahead_at+MAX(9;0.8*rig_out_most*rig_scale)", "UPWARD": if_drawn(16.5), "WORD": f'"{kinds.PORT}"'},
    *({"ALONG": f"{PLOT - 4}-{end}*rig_bar*1000*rig_scale", "UPWARD": if_drawn(3), "WORD": 'rig_bar&" m"'} for end in (0, 1)),
    {"ALONG": f"{PLOT / 2}", "UPWARD": f'IF(rig_nothing;{TALL / 2};"")', "WORD": '"the boat is drawn here, from Masts, Points and Stays"'},
)
RULER_AT, WORDS_AT = 12, (8, 9, 10, 11, 14)  # in the rows above
WRITTEN = (cell("y", "UPWARD", "0.00"), cell("x", "ALONG", "0.00"), cell("text", "WORD", ""))

# Bars of what there is to spare: names up to the middle, the bars from where nothing is to spare.
NAME_ENDS, MOST_SHOWN = 50, 2  # mm; a share
SPARE = (
    cell("spare", 'IF([nth]>COUNT(drawn_stay_spare);"";SMALL(drawn_stay_spare;[nth]))', "0.000"),
    cell("y", f'IF([spare]="";"";{SPARES_TALL - 8}-([nth]-0.5)*rig_pitch)', "0.00"),
    cell("left", f"{NAME_ENDS}", "0"),
    cell("name", f'IF([spare]="";"";{SHORTENED.format("INDEX(drawn_stay_name;MATCH([spare];drawn_stay_spare;0))")})', ""),
    cell("end", f'IF([spare]="";0;MAX(rig_enough;rig_enough+MIN({MOST_SHOWN};[spare])*rig_unit))', "0.00"),
    cell("value", 'IF([spare]="";"";IF(AND([spare]<0;ROUND([spare];2)=0);"just short";TEXT([spare];"0 %")))', ""),
)
BARS = (
    cell("of", "INT(([nth]-1)/3)+1", "0"),
    cell("y", f'IF(MOD([nth];3)=0;"";{of("drawn_spare_y")})', "0.00"),
    cell("x", f'IF([y]="";0;rig_enough+IF(MOD([nth];3)=1;0;MAX(-1;MIN({MOST_SHOWN};{of("drawn_spare_spare")}))*rig_unit))', "0.00"),
    cell("enough", f'IF([y]="";"";IF({of("drawn_spare_spare")}<0;"";[y]))', "0.00"),
    cell("short", 'IF([enough]="";[y];"")', "0.00"),
)
# From top to bottom the line of what is required, and above it what the bars are.
ENOUGH = (
    cell("y", f'IF(COUNT(drawn_stay_spare)=0;"";CHOOSE([nth];{SPARES_TALL - 8};MIN(drawn_spare_y)-rig_pitch/2;{SPARES_TALL - 1}))', "0.00"),
    cell("x", f"IF([nth]=3;{PLOT / 2};rig_enough)", "0.00"),
    cell("text", 'IF([nth]=3;"spare of the weakest link, smallest first";"required")', ""),
)
