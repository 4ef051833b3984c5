"""Bench: one row per mark on the rope of the stay that is picked; a page to pin over the bench."""

from loftsheet.cautions import PULLING

from templates.checks import in_full
from templates.schedule import Grid, Item, Page, Sheet
from templates.sheets.stays import STAYS_WIRE

MARKS = 16  # rows of RIG.BENCH, eight from either end


def of_rope(formula: str) -> str:
    """Formula: blank for a stay that stays wire."""
    return f'IF([stay.made_of]="{STAYS_WIRE}";"";{formula})'


FACTS = (
    Item("said", "Page", always=True, formula=f'IF(bench_stay="";"pick a stay above";IF(ISNUMBER(MATCH(bench_stay;stays_name;0));IF([stay.made_of]="{STAYS_WIRE}";bench_stay&" stays wire: nothing to splice";"marks for "&bench_stay);"there is no stay of this name: pick again"))'),
    Item("check", "Check of the stay", formula=in_full("stay")),
    Item("number", "Number to make", "", "End A is the upper end. All Bench Pages in the menu prints a page for every stay.", formula="[stay.number]", format="0"),
    Item("rope", "Rope", "", formula="[stay.rope]"),
    Item("cut", "Cut", "mm", formula="[stay.cut]", format="0"),
    Item("tension", "Light tension for measuring", "kN", "on the unspliced rope while it is marked; 0.1 kN is the weight of 10 kg", formula=of_rope("RIG.BENCH.TENSION([stay.rope_size])"), format="0.00"),
    Item("upper", "Upper eye, laid flat", "mm", formula="[stay.upper_eye]", format="0"),
    Item("lower", "Lower eye, laid flat", "mm", formula="[stay.lower_eye]", format="0"),
    Item("sleeve_upper", "Sleeve, upper eye", "mm", "slip it on before the eye is closed", formula=of_rope("RIG.SLEEVE.LENGTH([stay.upper_eye];boat_gather)"), format="0"),
    Item("sleeve_lower", "Sleeve, lower eye", "mm", formula=of_rope("RIG.SLEEVE.LENGTH([stay.lower_eye];boat_gather)"), format="0"),
    Item("bury", "Bury", "mm", formula="[stay.bury]", format="0"),
    Item("taper", "of it tapered", "mm", formula="[stay.taper]", format="0"),
    Item("span", "Throat to throat when done, at pretension", "mm", formula="[stay.span]", format="0"),
    Item("load", "Bed in by pulling several times to", "kN", "its working load, or more, until it grows no more: pulled to less, it goes on stretching under sail", formula="[stay.load]", format="0.0"),
    Item("pretension", "Then hold it at", "kN", "its pretension, and check throat to throat", formula="[stay.pretension]", format="0.0"),
)

MARKED = (
    "RIG.BENCH([stay.span];[stay.upper_eye];[stay.lower_eye];[stay.bury];[stay.worked];[stay.rope.take_up];"
    "boat_waste;boat_taper;boat_growth)"
)


def mark(row: int, column: int) -> str:
    """Formula: one cell of RIG.BENCH."""
    return of_rope(f"INDEX({MARKED};{row};{column})")


# Short lines, or the rows of the marks would be pushed apart.
MEANINGS = (
    "What the marks mean, from either end:",
    "tail tip: the waste is cut off here, after the taper",
    "taper start: from here to the tip the tail is thinned out",
    "throats: these two meet when the eye is closed",
    "crown: the middle of the eye, on stub, ring or pin",
    "fid entry: the fid goes in here and out at the throat,",
    "and draws the tail back inside",
    "lock stitch end: stitch through both, throat to here",
    "",
    "First a trial splice of this rope: mark, splice, pull,",
    "measure take-up and set, type them into Library.",
)

MARKS_TABLE = Grid(
    headings=("Mark", "From end A\nmm"),
    rows=tuple(tuple(f"={mark(row, column)}" for column in (1, 2)) for row in range(1, MARKS + 1)),
    format="0",
    name="bench_marks",
    beside=MEANINGS,
)

PAGE = Page("bench", Item("stay", "Stay", why="pick one", choices="stays_name", text=True), FACTS, MARKS_TABLE)

SHEET = Sheet(
    "Bench",
    "Pick a stay, print the page, pin it over the bench. Distances are along the rope as it lies, from end A.",
    page=PAGE,
    cautions=(PULLING,),
    landscape=False,
)
