"""Side view: the stub of the picked Stubs row, drawn live as an XY chart with equal scales.

Each line of the drawing is a run of points; x is outboard from the mast's face, z is up from the bolt's centre.
The drawing shows a square of fixed size, so that a length is the same in both directions.
"""

from dataclasses import dataclass

from templates.checks import in_full
from templates.schedule import Grid, Item, Page, Sheet

LEFT, BOTTOM, WIDE, TALL = -30, -100, 120, 160  # mm, what is drawn
CIRCLE_POINTS = 25
CHART_ROWS = 76  # the chart stands above this row


def measure(key: str, title: str, unit: str, formula: str) -> Item:
    return Item(key, title, unit, formula=formula, format="0.0")


ITEMS = (
    Item(
        "said",
        "Side view",
        always=True,
        formula='IF(view_stub="";"pick a stub above";IF(ISNUMBER(MATCH(view_stub;tangs_name;0));"of "&view_stub;"there is no stub of this name: pick again"))',
    ),
    Item("check", "Check of the stub", formula=in_full("stub")),
    Item("stay", "Stay", formula="[stub.stay]"),
    measure("bevel", "Bevel", "°", "[stub.bevel]"),
    measure("rod", "Rod", "mm", "[stub.rod_size]"),
    measure("top", "Short side, on top", "mm", "[stub.top]"),
    measure("base", "Long side, below", "mm", "[stub.base]"),
    measure("face", "Bevelled face", "mm", "[stub.face]"),
    measure("hole", "Hole below the top edge", "mm", "[stub.hole]"),
    measure("exit", "Hole below top of square end", "mm", "[stub.exit]"),
    measure("bolt", "Bolt", "mm", "[stub.bolt_size]"),
    measure("grip", "Bolt in the stub", "mm", "[stub.grip]"),
    measure("outside", "Outside the stub", "mm", "[stub.outside]"),
    measure("rise", "Plate stands up", "mm", "[stub.rise]"),
    measure("rope", "Sleeved rope", "mm", "[stub.rope_size]+2*[stub.sleeve_wall]"),
    measure("angle", "Angle of the stay", "°", "[stub.angle]"),
)


@dataclass(frozen=True)
class Line:
    """One line of the drawing: its name and the formulas of x and z of each point."""

    name: str
    points: "tuple[tuple[str, str], ...]"


def along(start: "tuple[str, str]", out: str, up: str) -> "tuple[str, str]":
    """From a point so far along the rod's axis, and so far square to it."""
    x, z = start
    return (
        f"{x}+({out})*COS(RADIANS(view_bevel))-({up})*SIN(RADIANS(view_bevel))",
        f"{z}+({out})*SIN(RADIANS(view_bevel))+({up})*COS(RADIANS(view_bevel))",
    )


TOP_EDGE = ("boat_pad", "view_hole")
LOW_EDGE = ("boat_pad", "(view_hole-view_face)")
TOP_END, LOW_END = along(TOP_EDGE, "view_top", "0"), along(LOW_EDGE, "view_base", "0")


def of_two(two: str, one: str) -> str:
    """Formula: of one of two eyes, or of the single one."""
    return f'IF([stub.stay_2]="";{one};{two})'


MIDDLE = of_two("[stub.seat_in]", "view_top/2")
EYE = along(TOP_EDGE, MIDDLE, "view_rope/2")
SEAT = along(TOP_EDGE, MIDDLE, "-view_rod/2")
# On a stub with one eye the outer one is drawn over it, so that nothing more is seen.
OUTER_MIDDLE = of_two("[stub.seat_out]", "view_top/2")
OUTER_THICK = of_two("([stub.rope_size_2]+2*[stub.sleeve_wall_2])", "view_rope")
OUTER_ANGLE = of_two("[stub.angle_2]", "view_angle")
OUTER_EYE = along(TOP_EDGE, OUTER_MIDDLE, f"{OUTER_THICK}/2")
OUTER_SEAT = along(TOP_EDGE, OUTER_MIDDLE, "-view_rod/2")
BOLT_END = "boat_pad+view_grip+view_outside+view_bolt"


def closed(*points: "tuple[str, str]") -> "tuple[tuple[str, str], ...]":
    return (*points, points[0])


def circle(middle: "tuple[str, str]", radius: str) -> "tuple[tuple[str, str], ...]":
    turns = [f"2*PI()*{at}/{CIRCLE_POINTS - 1}" for at in range(CIRCLE_POINTS)]
    return tuple((f"{middle[0]}+{radius}*COS({turn})", f"{middle[1]}+{radius}*SIN({turn})") for turn in turns)


def led(start: "tuple[str, str]", angle: str) -> "tuple[tuple[str, str], ...]":
    """A stay from its seat down, as far as the drawing goes."""
    return start, (f"{start[0]}+90*SIN(RADIANS({angle}))", f"{start[1]}-90*COS(RADIANS({angle}))")


LINES = (
    Line("mast", (("0", str(BOTTOM)), ("0", str(BOTTOM + TALL)))),
    Line("stub", closed(TOP_EDGE, TOP_END, LOW_END, LOW_EDGE)),
    Line("end plate", closed(along(TOP_END, "0", "view_rise"), along(TOP_END, "boat_plate", "view_rise"), along(LOW_END, "boat_plate", "0"), LOW_END)),
    Line("bolt", closed((str(LEFT), "view_bolt/2"), (BOLT_END, "view_bolt/2"), (BOLT_END, "-view_bolt/2"), (str(LEFT), "-view_bolt/2"))),
    Line("eye", circle(EYE, "view_rope/2")),
    Line("stay", led(SEAT, "view_angle")),
    Line("outer eye", circle(OUTER_EYE, f"{OUTER_THICK}/2")),
    Line("outer stay", led(OUTER_SEAT, OUTER_ANGLE)),
)


def drawn() -> "tuple[tuple[str, ...], ...]":
    """Rows of the chart's numbers: the line's name, x, and z in the column of the line."""
    blank = ("",) * len(LINES)
    return tuple(
        (line.name, f"={x}", *blank[:at], f"={z}", *blank[at + 1 :])
        for at, line in enumerate(LINES)
        for x, z in line.points
    )


NUMBERS = Grid(
    headings=("Line; x and z in mm", "x", *(line.name for line in LINES)),
    rows=drawn(),
    format="0.0",
    top=CHART_ROWS,
    charted=True,
)

PAGE = Page("view", Item("stub", "Stub", why="pick one", choices="tangs_name", text=True), ITEMS, NUMBERS)

SHEET = Sheet(
    "Side view",
    "Pick a row of Stubs; outboard is right, all in mm. Not to cut by: the mark-out sheet is 1:1.",
    page=PAGE,
    landscape=False,
    widths=(58, 42, 17, *[15] * (len(LINES) - 1)),
    printed_rows=CHART_ROWS,
)
