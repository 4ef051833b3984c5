"""Balance: what each stay carries at the dock and in each case; cases are typed, all else follows.

What the functions take stands in ranges of its own below the results, a row for each mast, point, stay, case and
load; so the balance is worked out once when one of these changes, and not for anything else that is typed.
"""

from dataclasses import replace

from loftsheet.cautions import MODEL

from templates.choices import WORKED_OUT
from templates.schedule import (
    DANGER,
    FIX,
    INTACT,
    NOTE,
    WEIGH,
    Column,
    Figures,
    Follower,
    Rule,
    Sheet,
    Table,
    calculated,
    choice,
    name_and_check,
    number,
    text,
)
from templates.sheets import kinds
from templates.sheets.stays import STAYS_WIRE

STAYS, POINTS, MASTS, CASES, HEIGHTS = 40, 60, 3, 8, 3  # as many as the balance takes
TACKS = 2
CHART_ROWS = 27
FORMATS = {"mm": "0.0", "kN": "0.00", "°": "0.00", "times": "0.00", "K": "0", "GPa": "0", "1e-6/K": "0.0", "mm²": "0", "cm⁴": "0", "kN·m": "0.0"}
OTHER_TACK = ", other tack"
OFF, ROPE, BOTH = WORKED_OUT_FOR = ("nothing", "rope", "rope and wire")
WARMER, COLDER = WARMTHS = ("warmer", "colder")
RUNNERS = ("windward", "leeward", "both", "none")
DOCK = "at the dock"

# ---- cases, which are typed ----------------------------------------------------------------------------------------

AT = "(ROW([name])-ROW(cases_header))"  # of the case among the cases
TACK = f"({TACKS}*{AT}-1)", f"({TACKS}*{AT})"  # of its rows in what is given for cases


def both_tacks(of: str, what: str) -> str:
    """Formula: the smaller or larger of a figure of both tacks, blank where there is none."""
    cells = ";".join(f"INDEX({of};{tack})" for tack in TACK)
    return f'IF(COUNT({cells})=0;"";{what}({cells}))'


def of_that(of: str, figure: str, key: str) -> str:
    """Formula: what stands beside the figure that was taken of both tacks."""
    one, other = TACK
    first = f"ROUND(1000*INDEX({figure};{one});0)=ROUND(1000*[{key}];0)"  # of two that are the same but for noise
    return f'IF([{key}]="";"";IF(IFERROR({first};FALSE());INDEX({of};{one});INDEX({of};{other})))'


def torn(table: str) -> str:
    """Formula: whether a row has lost a cell or a formula that the balance reads, so that its figures may be another row's."""
    return f"SUMPRODUCT((1-ISBLANK({table}_name))*IFERROR({table}_{INTACT}<>1;1))>0"


FITS = 'AND(boat_waterline<>"";ABS([head]+[spreaders]-1)*1000<=1;ISNUMBER(RIG.CASE.FORCE(1;1000;[factor];[heel])))'
# A mast that carries next to nothing of a case is one whose stays are all slack; upright that is a question of tuning.
ALL_SLACK = 'IF(OR([buckling]="";[heel]<>"");FALSE();ROUND([buckling];2)=0)'
CASE_TABLE = Table(
    "cases",
    "Cases: side force of the sails on the masts",
    (
        *name_and_check("Case", "such as all sails"),
        calculated("tacks", "Tacks", "", f'IF([heel]="";1;IF(IFERROR({FITS};FALSE());{TACKS};0))', "in which it is worked out: two heeled, one upright, 0 while something is missing", hidden=True),
        calculated("place", "Place", "", f'IF(OR([tacks]=0;{torn("cases")});"";1+SUMPRODUCT((ROW(cases_name)<ROW([name]))*IF(ISNUMBER(cases_tacks);cases_tacks;0)))', "of its first tack in what the balance gives", hidden=True),
        number("heel", "Heel", "°", 1, 45, "steady; blank is upright", format="0", width=13),
        number("head", "At the head", "share", 0, 1, "of the side force, where the highest shrouds hold the mast", format="0.00", width=13),
        number("spreaders", "At the spreaders", "share", 0, 1, "of the side force; two pairs of spreaders share it; a mast without any has it where its lowest shrouds hold it", format="0.00", width=15),
        number("factor", "Factor", "", 1, 3, "for heel beyond 30°, so never above 1 beside more heel; this is no safety factor", format="0.00", width=13),
        choice("warmth", "Warmth", WARMTHS, "warmer or colder than when it was tuned, by Boat's change; blank is the same", width=15),
        number("warmer_own", "Warmer, override", "K", -60, 60, "if not Boat's change; colder is negative", format="0", width=26),
        choice("runners", "Runners set", RUNNERS, "which runners are set up in this case; blank is none", width=17),
        calculated("warmer", "Warmer", "K", f'IF([warmer_own]<>"";[warmer_own];IF([warmth]="{WARMER}";boat_warmer;IF([warmth]="{COLDER}";-boat_warmer;0)))', "than when it was tuned", format="0", width=17),
        calculated("slack_share", "Slack, alone", "°", both_tacks("ofcases_heel", "MIN"), "heel of the case at which the first stay to lee goes slack, its factor counted", format="0.0", width=17, hidden=True),
        calculated("slack_heel", "First goes slack at", "° of heel", 'IF([slack_share]="";"";IF([factor]*SIN(RADIANS([slack_share]))>=1;"";DEGREES(ASIN([factor]*SIN(RADIANS([slack_share]))))))', "the first stay to lee, with the righting moment of that heel and no factor", format="0", width=17),
        calculated("slack_first", "It is", "", of_that("ofcases_first", "ofcases_heel", "slack_share"), "the first stay to lee that goes slack", width=17),
        calculated("slack_count", "Slack stays", "", both_tacks("ofcases_slack", "MAX"), "in this case, lee ones among them", format="0", width=17),
        calculated("buckling", "Against buckling", "times", both_tacks("ofcases_factor", "MIN"), "times all forces of this case, pretensions too, at which the weakest mast buckles", format="0.00", width=17),
        calculated("largest", "Largest tension", "kN", both_tacks("ofcases_most", "MAX"), "of all stays in this case", format="0.0", width=17),
        calculated("words", "No balance", "", f'IFERROR(INDEX(ofcases_words;{TACK[0]})&"";"")', "why this case has no balance", width=17, hidden=True),
        text("source", "Source", "where shares, heel and factor come from", width=30),
    ),
    rules=(
        Rule("waterline", NOTE, 'AND([heel]<>"";boat_waterline="")', "not worked out: type Waterline, up, on Boat", "boat_waterline"),
        Rule("balance", NOTE, 'AND([tacks]>0;[largest]="";[words]="")', "not worked out: see under The balance", "largest"),
        *(Rule(f"{key}.none", FIX, f'AND([heel]<>"";[{key}]="")', "type it, heeled there is a side force", key) for key in ("head", "spreaders", "factor")),
        Rule("shares", FIX, 'IF([heel]="";FALSE();ABS([head]+[spreaders]-1)*1000>1)', "the shares make {[head]+[spreaders]:2}, they have to make 1", "head"),
        Rule("factor.twice", FIX, 'IF([heel]="";FALSE();AND([factor]>1;ISERROR(RIG.CASE.FORCE(1;1000;[factor];[heel]))))', "a factor stands for heel beyond 30° already: type 1, or a heel of 30° or less", "factor"),
        Rule("shares.upright", FIX, 'AND([heel]="";OR([head]<>"";[spreaders]<>"";[factor]<>""))', "type the heel, or empty shares and factor: upright nothing pushes", "heel"),
        Rule("warmth.both", FIX, 'AND([warmth]<>"";[warmer_own]<>"")', "pick or type how much warmer it is, not both", "warmth"),
        Rule("words", DANGER, f'AND([words]<>"";NOT({ALL_SLACK}))', "{words}"),
        Rule("words.slack", WEIGH, f'AND([words]<>"";{ALL_SLACK})', "{words}", remedy="set them up to more on Stays, which says how much"),
        Rule("source", WEIGH, 'AND([heel]<>"";[source]="")', "say where shares, heel and factor come from", "source"),
        Rule("slack", WEIGH, 'IF(OR([slack_heel]="";[warmer]<>0);FALSE();[slack_heel]<boat_lee_heel/2)', "{slack_first} goes slack to leeward at {slack_heel:0}°, from {boat_lee_heel/2:0}° on is usual", "heel", "set it up harder, or look at what pulls against it, fore and aft"),
    ),
    spare=2,
    ready=CASES,
    balanced=("tacks", "heel", "head", "spreaders", "factor", "warmer", "runners"),
)


def case(key: str, number: int) -> str:
    return f"INDEX(cases_{key};{number})"


# ---- what the functions give, by number ----------------------------------------------------------------------------

STAY_FIGURES = ("length", "take_out", "dock", "each", "most", "most_in", "least", "least_in")
COLUMNS_GIVEN = {"ofstays": len(STAY_FIGURES) + 2 * TACKS * CASES, "ofmasts": 6 * (1 + TACKS * CASES)}


def whole(given: str) -> str:
    """Formula: whether no column was inserted in what a function gives, so that figures may be taken by number."""
    return f"COLUMNS({given}_all)={COLUMNS_GIVEN[given]}"


# ---- what the functions take ---------------------------------------------------------------------------------------


def names_below(table: str, most: int) -> str:
    """Formula: whether a table holds more rows than the balance takes."""
    return f"IF(ROWS({table}_name)>{most};SUMPRODUCT((ROW({table}_name)-ROW({table}_header)>{most})*(1-ISBLANK({table}_name)))>0;FALSE())"


def too_many() -> str:
    found = '""'
    for table, most, title in (("cases", CASES, "Balance, cases"), ("points", POINTS, "Points"), ("masts", MASTS, "Masts"), ("stays", STAYS, "Stays")):
        found = f'IF({names_below(table, most)};"the balance takes {most} rows of {title} and there are more";{found})'
    return found


def too_many_or_torn() -> str:
    """Formula: why nothing is balanced; an error where cells are errors because the extension is missing."""
    stopped = too_many()
    for table, title in (("stays", "Stays"), ("points", "Points"), ("masts", "Masts"), ("cases", "Balance")):
        stopped = f'IF({torn(table)};IF(ISTEXT(RIG.VERSION());"a row of {title} has to be fixed first";NA());{stopped})'
    return stopped


ASKED = Follower(
    "asked",
    "Whether it is worked out",
    1,
    (
        calculated("name", "Whether", "", '"balance"', "of masts and stays"),
        calculated(
            "stopped",
            "Not, because",
            "",
            f'IF(boat_balance="{OFF}";"switched off on Boat, Balance worked out for";IF(COUNTA(stays_name)=0;"there is no stay yet";IF(COUNTA(masts_name)=0;"there is no mast yet";{too_many_or_torn()})))',
            "why there is no balance; blank if it is worked out",
        ),
        calculated("wire_stopped", "Wire not, because", "", f'IF([stopped]<>"";[stopped];IF(boat_balance<>"{BOTH}";"for rope only";""))', "the same of the old wires"),
    ),
    printed=False,
)


def named(table: str) -> str:
    """Formula: the name in this row of a table; blank where none is wanted."""
    name = f"INDEX({table}_name;[row])"
    return f'IF(asked_stopped<>"";"";IF([row]>ROWS({table}_name);"";IFERROR(IF(ISBLANK({name});"";{name});"")))'


def taken(key: str, title: str, unit: str, formula: str, help: str = "as the balance takes it", format: str = "") -> Column:
    """A column of a range that a function takes: blank in a row that is not there, and where there is an error."""
    return calculated(key, title, unit, f'IF([name]="";"";IFERROR({formula};""))', help, format=format or FORMATS.get(unit, ""), width=13)


def where_lowest(what: str) -> str:
    """Formula: the least or largest height of the spreaders of this mast."""
    heights = "IF((instays_mast=[name])*ISNUMBER(instays_tip);instays_tip;{})"
    other = "IF((instays_mast=[name])*ISNUMBER(instays_second_tip);instays_second_tip;{})"
    far = "[head]" if what == "MIN" else "0"
    return f"SUMPRODUCT({what}({heights.format(far)};{other.format(far)}))"


IN_MASTS = Follower(
    "inmasts",
    "Masts, as the balance takes them",
    MASTS,
    (
        calculated("name", "Mast", "", named("masts"), "from Masts", choices="masts_name"),
        *(
            taken(key, title, unit, f"[name.{key}]")
            for key, title, unit in (
                ("foot_fore", "Foot, fore", "mm"),
                ("foot_up", "Foot, up", "mm"),
                ("rake", "Rake", "°"),
                ("head", "Head", "mm"),
                ("modulus", "Modulus", "GPa"),
                ("rate", "Grows by", "1e-6/K"),
                ("width", "Width", "mm"),
                ("section", "Section", "mm"),
                ("wall", "Wall", "mm"),
                ("partners", "Partners", "mm"),
                ("area", "Area", "mm²"),
                ("inertia_fore", "Moment of inertia, fore and aft", "cm⁴"),
                ("inertia_out", "Moment of inertia, athwartships", "cm⁴"),
            )
        ),
        taken("rm30", "Righting moment", "kN·m", 'IF([name.rm30_own]<>"";[name.rm30_own];IF(COUNTA(masts_name)=1;boat_rm30;""))', "that the sails of this mast take at 30°"),
        taken("held", "Held at", "mm", "SUMPRODUCT(MAX(IF((instays_mast=[name])*ISNUMBER(instays_held);instays_held;0)))", "along the mast: its highest shrouds"),
        taken("lowest", "Held lowest at", "mm", "SUMPRODUCT(MIN(IF((instays_mast=[name])*ISNUMBER(instays_held);instays_held;[head])))", "along the mast: its lowest shrouds"),
        taken("spreader_low", "Lower spreaders", "mm", where_lowest("MIN"), "along the mast; its head where there are none"),
        taken("spreader_high", "Upper spreaders", "mm", where_lowest("MAX"), "along the mast; 0 where there are none"),
        taken("low", "Lower push", "mm", "IF([spreader_high]=0;[lowest];[spreader_low])", "along the mast: the lower spreaders, or else its lowest shrouds"),
        taken("high", "Upper push", "mm", "IF([spreader_high]-[low]>boat_pair_apart*[head];[spreader_high];[low])", "along the mast: the upper of two pairs of spreaders"),
        taken("least", "Against buckling", "times", 'IF(COUNT([factor_0];{0})=0;"";MIN([factor_0];{0}))'.format(";".join(f"[factor_{one}]" for one in range(1, CASES + 1))), "smallest of all cases"),
        taken("least_in", "It is in", "", "IF([least]=\"\";\"\";IF([factor_0]=[least];\"{}\";{}))".format(DOCK, "".join(f"IF([factor_{one}]=[least];{case('name', one)};" for one in range(1, CASES + 1)) + '""' + ")" * CASES), "the case in which it is smallest"),
        taken("factor_0", DOCK.capitalize(), "times", f"IF({whole('ofmasts')};INDEX(ofmasts_all;[row];2);NA())", "against buckling"),
        *(taken(f"factor_{one}", f"Case {one}", "times", f'IF(AND({whole("ofmasts")};ISNUMBER({case("place", one)}));IF({case("tacks", one)}=1;{{0}};MIN({{0}};{{1}}));"")'.format(*(f"INDEX(ofmasts_all;[row];6*({case('place', one)}+{tack})+2)" for tack in (0, 1))), "against buckling, the smaller of both tacks") for one in range(1, CASES + 1)),
    ),
    printed=False,
    taken=("name", "inertia_out"),
)


USED = "+".join(f"ISNUMBER(MATCH([point];instays_{key};0))" for key in ("upper", "via", "second_via", "lower"))
OF_STAY = 'INDEX(instays_mast;MATCH([name];instays_{};0))'
IN_POINTS = Follower(
    "inpoints",
    "Points that stays use, as the balance takes them",
    POINTS,
    (
        calculated("name", "Point", "", f'IF([point]="";"";IF({USED}>0;[point];""))', "from Points, where a stay uses it", choices="points_name"),
        taken("mast", "Mast", "", f'IF([name.on_mast]<>"";[name.on_mast];IFERROR({OF_STAY.format("via")};IFERROR({OF_STAY.format("second_via")};"")))', "that it is on; a spreader's tip is on the mast of its stay"),
        taken("fore", "Fore", "mm", "[name.fore]"),
        taken("out", "Out", "mm", "[name.outward]"),
        taken("up", "Up", "mm", "[name.up]"),
        calculated("point", "Of this row", "", named("points"), "on Points"),
    ),
    printed=False,
    taken=("name", "up"),
)


def along(end: str) -> str:
    """Formula: how far along its mast a point of the stay is, square to it."""
    return f"([name.{end}_up]-[name.mast.foot_up])*COS(RADIANS([name.rake]))-([name.{end}_fore]-[name.mast.foot_fore])*SIN(RADIANS([name.rake]))"


LEAD_AFT = tuple(kind for kind in kinds.KINDS if kind.leads == kinds.AFT)


def kind_is(*names: kinds.Kind) -> str:
    each = ";".join(f'[name.kind]="{kind.name}"' for kind in names)
    return f"OR({each})" if len(names) > 1 else each


WANTED = f'IF({kind_is(kinds.BACKSTAY_LEG)};"";IF([name.balance]="";[name.pretension];IF({kind_is(*LEAD_AFT)};[name.balance];[name.pretension])))'


def stay_columns(ea: str, rate: str) -> "tuple[Column, ...]":
    """The columns of a range of stays, with this stiffness and rate."""
    return (
        *(taken(key, title, "", f'[name.{of}]&""') for key, title, of in (("side", "Side", "side"), ("upper", "Upper point", "upper"), ("via", "Via", "via"))),
        taken("second_via", "Second via", "", '[name.via_2]&""'),
        taken("lower", "Lower point", "", '[name.lower]&""'),
        taken("ea", "EA", "kN", ea),
        taken("rate", "Grows by", "1e-6/K", rate),
        taken("wanted", "Wanted", "kN", WANTED, "at the dock; of what balances another stay the tension that does"),
        taken("take_out", "Take-out", "", '""'),
        taken("runner", "Runner", "", f'IF({kind_is(kinds.RUNNER)};"runner";"")'),
    )


IN_STAYS = Follower(
    "instays",
    "Stays, as the balance takes them",
    STAYS,
    (
        calculated("name", "Stay", "", named("stays"), "from Stays", choices="stays_name"),
        *stay_columns("[name.stiffness]", f'IF([name.made_of]="{STAYS_WIRE}";boat_wire_rate;boat_stay_rate)'),
        taken("mast", "Mast", "", "[name.mast]"),
        taken("held", "Holds at", "mm", f'IF(OR([name.upper.on_mast]="";ABS([name.pull_out])<SIN(RADIANS(2));{kind_is(kinds.RUNNER)});"";{along("upper")})', "along the mast, if it holds the mast sideways"),
        taken("tip", "Spreader", "mm", f'IF([via]="";"";{along("via")})', "along the mast, square to the tip"),
        taken("second_tip", "Second spreader", "mm", f'IF([second_via]="";"";{along("via_2")})', "along the mast, square to the tip"),
    ),
    printed=False,
    taken=("name", "runner"),
)
IN_WIRES = Follower(
    "inwires",
    "The same with the old wires",
    STAYS,
    (
        calculated("name", "Stay", "", 'IF(asked_wire_stopped<>"";"";INDEX(instays_name;[row]))', "from Stays", choices="stays_name"),
        *stay_columns("RIG.WIRE.EA([name.wire.size];[name.wire.modulus];[name.wire.fill])", "boat_wire_rate"),
    ),
    printed=False,
    taken=("name", "runner"),
)

OF_CASE = f"INDEX(cases_{{}};INT(([row]+1)/{TACKS}))"
HEELED = f"{OF_CASE.format('tacks')}={TACKS}"
FIRST_TACK = f"MOD([row];{TACKS})=1"
SET = OF_CASE.format("runners")
IN_CASES = Follower(
    "incases",
    "Cases on both tacks, as the balance takes them",
    TACKS * CASES,
    (
        calculated("name", "Case", "", f'IF(asked_stopped<>"";"";IF({FIRST_TACK};IF(N({OF_CASE.format("tacks")})>0;{OF_CASE.format("name")};"");IF({HEELED};{OF_CASE.format("name")}&"{OTHER_TACK}";"")))', "and the tack"),
        taken("lee", "Lee", "", f'IF({HEELED};IF({FIRST_TACK};"starboard";"port");"")'),
        taken("heel", "Heel", "°", f'IF({HEELED};{OF_CASE.format("heel")};"")'),
        taken("warmer", "Warmer", "K", OF_CASE.format("warmer")),
        taken("runners", "Runners", "", f'IF({SET}="";"none";IF(AND(NOT({HEELED});OR({SET}="windward";{SET}="leeward"));"both";{SET}))'),
    ),
    printed=False,
    taken=("name", "runners"),
)

# Forces by case and mast, and then each at its heights, on both tacks.
FORCE_MAST = f"INDEX(inmasts_{{}};MOD([row]-1;{MASTS})+1)"
FORCE_CASE = f"INDEX(cases_{{}};INT(([row]-1)/{MASTS})+1)"
HEIGHT = f"({FORCE_MAST.format('foot_up')}+{FORCE_MAST.format('{}')}*COS(RADIANS({FORCE_MAST.format('rake')}))-boat_waterline)"
SHARED_BY_HEIGHT = f"({HEIGHT.format('low')}+{HEIGHT.format('high')})/2"
IN_FORCES = Follower(
    "inforces",
    "Side force of each case and mast",
    CASES * MASTS,
    (
        calculated("name", "Case", "", f'IF(OR({FORCE_MAST.format("name")}="";N({FORCE_CASE.format("tacks")})<{TACKS});"";{FORCE_CASE.format("name")})', "and the mast"),
        taken("mast", "Mast", "", FORCE_MAST.format("name")),
        taken("effort", "Acts at", "mm", f"{FORCE_CASE.format('head')}*{HEIGHT.format('held')}+{FORCE_CASE.format('spreaders')}*{SHARED_BY_HEIGHT}", "above the waterline"),
        taken("force", "Side force", "kN", f"RIG.CASE.FORCE({FORCE_MAST.format('rm30')};[effort];{FORCE_CASE.format('factor')};{FORCE_CASE.format('heel')})", "of the sails on this mast"),
    ),
    printed=False,
)

LOAD_CASE = f"(INT(([row]-1)/{MASTS * HEIGHTS})+1)"
LOAD_MAST = f"(MOD(INT(([row]-1)/{HEIGHTS});{MASTS})+1)"
LOAD_FORCE = f"INDEX(inforces_{{}};INT(({LOAD_CASE}-1)/{TACKS})*{MASTS}+{LOAD_MAST})"
LOAD_HEIGHT = f"MOD([row]-1;{HEIGHTS})"
LOAD_SHARE = f"INDEX(cases_{{}};INT(({LOAD_CASE}-1)/{TACKS})+1)"
AT_SPREADERS = LOAD_SHARE.format("spreaders")
IN_LOADS = Follower(
    "inloads",
    "Loads, as the balance takes them",
    TACKS * CASES * MASTS * HEIGHTS,
    (
        calculated("name", "Case", "", f'IF(OR(INDEX(incases_name;{LOAD_CASE})="";NOT(ISNUMBER({LOAD_FORCE.format("force")})));"";INDEX(incases_name;{LOAD_CASE}))', "and the tack"),
        taken("mast", "Mast", "", LOAD_FORCE.format("mast")),
        taken("along", "Along the mast", "mm", f"INDEX(IF({LOAD_HEIGHT}=0;inmasts_held;IF({LOAD_HEIGHT}=1;inmasts_low;inmasts_high));{LOAD_MAST})"),
        taken("side", "Push to lee", "kN", f"{LOAD_FORCE.format('force')}*IF({LOAD_HEIGHT}=0;{LOAD_SHARE.format('head')};{AT_SPREADERS}/2)"),
    ),
    printed=False,
    taken=("name", "side"),
)
IN_TIPS = Follower(
    "intips",
    "Spreaders, as the balance takes them",
    POINTS,
    (
        calculated("name", "Tip", "", 'IF(INDEX(inpoints_name;[row])="";"";IF(ISNUMBER(MATCH(INDEX(inpoints_name;[row]);instays_via;0))+ISNUMBER(MATCH(INDEX(inpoints_name;[row]);instays_second_via;0))>0;INDEX(inpoints_name;[row]);""))', "point that a stay goes over"),
        taken("root", "Root", "mm", "IFERROR(INDEX(instays_tip;MATCH([name];instays_via;0));INDEX(instays_second_tip;MATCH([name];instays_second_via;0)))", "along the mast"),
    ),
    printed=False,
    taken=("name", "root"),
)

# ---- what the functions give ---------------------------------------------------------------------------------------

TAKEN = "inmasts_taken;inpoints_taken;{}_taken;incases_taken;inloads_taken;intips_taken"
ROPES = TAKEN.format("instays")


def torn_apart(stays: Follower) -> str:
    """Formula: whether a column was inserted into what a function takes, so that it would take one for another."""
    apart = []
    for follower in (IN_MASTS, IN_POINTS, stays, IN_CASES, IN_LOADS, IN_TIPS):
        keys = [column.key for column in follower.columns]
        first, last = map(keys.index, follower.taken)
        apart.append(f"COLUMNS({follower.key}_taken)<>{last - first + 1}")
    return f"OR({';'.join(apart)})"


def given(key: str, title: str, rows: int, columns: int, named: "tuple[str, ...]" = (), words: "tuple[str, ...]" = (), of: str = "", stays: Follower = IN_STAYS, stopped: str = "asked_stopped") -> Figures:
    function = f'IF({torn_apart(stays)};NA();RIG.BALANCE.LINES("{of or title}";{TAKEN.format(stays.key)}))'
    return Figures(key, f"What the balance gives: {title}", f'IF({stopped}<>"";"";{function})', rows, columns, named, words)


OF_STAYS = (STAYS, COLUMNS_GIVEN["ofstays"], STAY_FIGURES, ("most_in", "least_in"))
FIGURES = (
    given("ofstays", "stays", *OF_STAYS),
    given("ofmasts", "masts", MASTS, COLUMNS_GIVEN["ofmasts"]),
    given("ofcases", "cases", TACKS * CASES, 7, ("words", "heel", "first", "slack", "factor", "most", "most_of"), ("words", "first", "most_of")),
    given("offelt", "who feels a lashing", STAYS, 1, ("words",), ("words",), of="felt"),
    given("ofwires", "the old wires", *OF_STAYS, of="stays", stays=IN_WIRES, stopped="asked_wire_stopped"),
)


def heading(one: int, without: str = " ") -> str:
    """Formula: a case's name, and what stands where there is none."""
    return f'IF({case("name", one)}="";"{without}";{case("name", one)})'


def of_case(one: int, which: str) -> str:
    """Formula: of this row, the larger or smaller tension of a case on both tacks; blank where it is not set up."""
    first, what = {"most": (1, "MAX"), "least": (2, "MIN")}[which]
    place = case("place", one)
    cells = [f"INDEX(ofstays_all;[row];{len(STAY_FIGURES)}+2*({place}-1+{tack})+{first})" for tack in range(TACKS)]
    both = ";".join(cells)
    either = f'IF({case("tacks", one)}=1;IF(ISNUMBER({cells[0]});{cells[0]};"");IF(COUNT({both})=0;"";{what}({both})))'
    return f'IF(ISNUMBER({place});{either};"")'


ALL_CASES = range(1, CASES + 1)


def each_kelvin(sign: str) -> str:
    """Formula: what a kelvin gives a stay at the dock, by the first upright case that is warmer, or colder."""
    formula = '""'
    for one in reversed(ALL_CASES):
        warmer = f"N({case('warmer', one)})"
        formula = f"IF(AND(N({case('tacks', one)})=1;{sign}{warmer}>0);([most_{one}]-[dock])/{warmer};{formula})"
    return formula


NEVER_SLACK = f'([name.pull_out]="")+(ABS(N([name.pull_out]))<SIN(RADIANS(2)))+{kind_is(kinds.RUNNER, kinds.BACKSTAY, kinds.BACKSTAY_LEG)}>0'
SLACK = 'AND(ISNUMBER([least_{0}]);OR([most_{0}]=0;AND([least_{0}]=0;OR([stays];{1}<{2}))))'
FAR_OFF = f'AND(ISNUMBER([dock]);NOT({kind_is(kinds.RUNNER)});ABS(N([dock])-[name.pretension])>boat_tension_off*[name.pretension])'
UNTUNED = f'IF({FAR_OFF};FIXED([name.pretension];1;TRUE())&" kN cannot be tuned: with straight masts it has "&FIXED([dock];1;TRUE())&" kN";"")'
BY_CASE = Follower(
    "bycase",
    "Tension of each stay in each case",
    STAYS,
    (
        calculated("name", "Stay", "", f'IF({whole("ofstays")};INDEX(instays_name;[row]);"")', "from Stays", choices="stays_name"),
        replace(taken("dock", "At the dock", "kN", "INDEX(ofstays_dock;[row])", "with the masts straight"), heading=f'"{DOCK}"'),
        *(replace(taken(f"most_{one}", f"Case {one}, most", "kN", of_case(one, "most"), "on either side and tack"), heading=heading(one, f"no case {one}")) for one in ALL_CASES),
        *(taken(f"least_{one}", f"Case {one}, least", "kN", of_case(one, "least"), "on either side and tack") for one in ALL_CASES),
        taken("untuned", "Cannot be tuned", "", UNTUNED, "where its pretension is not had with the masts straight; a runner is tuned by itself"),
        taken("warm", "A K warmer gives", "kN", each_kelvin(""), "at the dock, by the first upright case that is warmer", format="0.000"),
        taken("cold", "A K colder takes", "kN", each_kelvin("-"), "the same of the first that is colder", format="0.000"),
        taken("stays", "Has to stay taut", "", NEVER_SLACK, "no shroud, so it has to stay taut in each case"),
        taken(
            "slack",
            "Slack",
            "",
            f'TEXTJOIN(", ";TRUE();IF([dock]=0;"{DOCK}";"");'
            + ";".join(f'IF(ISNUMBER({case("place", one)});IF({SLACK.format(one, case("tacks", one), TACKS)};{case("name", one)};"");"")' for one in ALL_CASES)
            + ")",
            "cases in which it is slack and should not be: a lee shroud may be",
        ),
    ),
    printed=False,
)

ASSUMED = (
    "Masts are straight and do not pump; loads are steady, movements small; ropes have no weight.",
    "The hull is stiff; spreaders are stiff and square to the mast, and the stay slides over them.",
    "Of the sails only the side force counts: pulls of halyards, sheets and a luff fore and aft are left out.",
    "Of a mast only its stiffness counts: yielding and dents of the wall are not checked here.",
)

VERDICT = Follower(
    "verdict",
    "The balance",
    1,
    (
        calculated("name", "Balance", "", '"of masts and stays"', "of the whole boat", width=38),
        calculated(
            "words",
            "Result",
            "",
            f'IF(asked_stopped<>"";"not checked: "&asked_stopped;IF({torn_apart(IN_STAYS)};"not checked: a column was inserted beside the cases, delete it";IF(COUNT(ofstays_length)>0;"{WORKED_OUT}";RIG.BALANCE.WORDS({ROPES}))))',
            "worked out, or why not",
            width=46,
        ),
    ),
    notes=ASSUMED,
)


def in_case(one: int) -> str:
    """Formula: the tensions of a case in words: most, and least where it differs."""
    most, least = (f"INDEX(bycase_{which}_{one};[row])" for which in ("most", "least"))
    shown = 'IF({0}=0;"slack";FIXED({0};1;TRUE()))'
    both = f'{shown.format(most)}&IF(FIXED({most};1)=FIXED({least};1);"";" / "&{shown.format(least)})'
    return f'IF({most}="";"";{both})'


TENSIONS = Follower(
    "tensions",
    "Tensions in kN: at the dock, and in each case the larger and the smaller of both sides",
    STAYS,
    (
        calculated("name", "Stay", "", "INDEX(instays_name;[row])", "from Stays", choices="stays_name", width=38),
        taken("slack", "Slack where it should not be", "", "INDEX(bycase_slack;[row])", "a lee shroud may be slack when heeled"),
        taken("wanted", "Wanted", "kN", "[name.pretension]", "pretension on Stays"),
        taken("dock", "At the dock", "kN", "INDEX(ofstays_dock;[row])", "what can be had with the masts straight: tune to this"),
        taken("take_out", "Lashing takes out", "mm", "INDEX(ofstays_take_out;[row])", "from a rope that just reaches to its tension at the dock"),
        taken("each", "Per mm of lashing", "kN", "INDEX(ofstays_each;[row])", "for each millimetre that its own lashing takes out"),
        taken("most", "Largest", "kN", "INDEX(ofstays_most;[row])", "of all cases, sides and tacks"),
        taken("most_in", "It is in", "", f'SUBSTITUTE(INDEX(ofstays_most_in;[row]);"{OTHER_TACK}";"")', "the case of the largest"),
        *(Column(f"case_{one}", f"Case {one}", "", "larger and smaller of both sides", formula=in_case(one), heading=heading(one), width=17) for one in ALL_CASES),
    ),
    room=CHART_ROWS,
    page=True,
    of="stays",
)

QUANTITIES = ("compression at the foot, kN", "factor against buckling", "head moves forward / to lee, mm", "sag forward / to lee, mm")
STANCE_MAST, QUANTITY = f"(INT(([row]-1)/{len(QUANTITIES)})+1)", f"MOD([row]-1;{len(QUANTITIES)})"


def at_mast(outcome: str, figure: int) -> str:
    return f"INDEX(ofmasts_all;{STANCE_MAST};6*({outcome})+{figure})"


def stance(first: str, other: str = "") -> str:
    """Formula: one quantity of a mast at the dock or in a case, of both tacks the worse."""
    numbers = [f"{{}}({at_mast(first, one)};{at_mast(other or first, one)})" for one in (1, 2)]
    compression = f'IF({numbers[0].format("MAX")}=0;"";FIXED({numbers[0].format("MAX")};1;TRUE()))'
    factor = f'FIXED({numbers[1].format("MIN")};2;TRUE())'
    head, bow = (f'FIXED({at_mast(first, one)};0;TRUE())&" / "&FIXED({at_mast(first, one + 1)};0;TRUE())' for one in (3, 5))
    return f"CHOOSE({QUANTITY}+1;{compression};{factor};{head};{bow})"


STANCE = Follower(
    "stance",
    "Masts: compression, buckling, and how they stand",
    MASTS * len(QUANTITIES),
    (
        calculated("name", "Mast", "", f'IF({whole("ofmasts")};INDEX(inmasts_name;{STANCE_MAST});"")', "from Masts", width=38),
        taken("what", "What", "", "CHOOSE({}+1;{})".format(QUANTITY, ";".join(f'"{one}"' for one in QUANTITIES)), "which figure"),
        taken("asked", "At least", "", f'IF({QUANTITY}=1;boat_buckling;"")', "asked of it on Boat"),
        taken("dock", DOCK.capitalize(), "", stance("0"), "with the masts straight but for their own compression"),
        *(
            Column(
                f"case_{one}",
                f"Case {one}",
                "",
                "of both tacks the worse; movements with starboard to lee",
                formula=f'IF(OR([name]="";NOT(ISNUMBER({case("place", one)})));"";IFERROR({stance(case("place", one), case("place", one) + "+" + case("tacks", one) + "-1")};""))',
                heading=heading(one),
                width=17,
            )
            for one in ALL_CASES
        ),
    ),
    page=True,
    of="masts",
    each=len(QUANTITIES),
)

WIRE = 'IF(asked_wire_stopped<>"";"";{})'
BESIDE = Follower(
    "beside",
    "Rope beside the old wires, and who feels a lashing",
    STAYS,
    (
        calculated("name", "Stay", "", "INDEX(instays_name;[row])", "from Stays", choices="stays_name", width=38),
        taken("felt", "A mm of its lashing gives others", "", "INDEX(offelt_words;[row])", "kN in those that feel it most"),
        taken("rope_ea", "Rope's EA", "kN", "INDEX(instays_ea;[row])", "stiffness of the new rope", "0"),
        taken("wire_ea", "Wire's EA", "kN", WIRE.format("INDEX(inwires_ea;[row])"), "of the wire replaced", "0"),
        taken("rope_each", "Rope: a mm gives", "kN", "INDEX(ofstays_each;[row])", "in the stay itself"),
        taken("wire_each", "Wire: a mm gives", "kN", WIRE.format("INDEX(ofwires_each;[row])"), "in the stay itself"),
        taken("rope_most", "Rope: largest", "kN", "INDEX(ofstays_most;[row])", "of all cases"),
        taken("wire_most", "Wire: largest", "kN", WIRE.format("INDEX(ofwires_most;[row])"), "of all cases, with all wires as they were"),
        taken("rope_least", "Rope: smallest", "kN", "INDEX(ofstays_least;[row])", "of all cases and sides"),
        taken("wire_least", "Wire: smallest", "kN", WIRE.format("INDEX(ofwires_least;[row])"), "of all cases and sides, with all wires as they were"),
        taken("wire_most_in", "Wire: largest in", "", WIRE.format(f'SUBSTITUTE(INDEX(ofwires_most_in;[row]);"{OTHER_TACK}";"")'), "the case of it"),
    ),
    page=True,
    of="stays",
)

SHEET = Sheet(
    "Balance",
    "What each stay carries at the dock and in each case, worked out allowing for stretch of stays and bend of masts.",
    (CASE_TABLE,),
    followers=(VERDICT, STANCE, TENSIONS, BESIDE, BY_CASE, ASKED, IN_MASTS, IN_POINTS, IN_STAYS, IN_WIRES, IN_CASES, IN_FORCES, IN_LOADS, IN_TIPS),
    figures=FIGURES,
    cautions=(MODEL,),
)
