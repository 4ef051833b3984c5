"""Bench: one row per mark on the rope of the stay that is picked; a page to pin over the bench."""

from loftsheet.cautions import PULLING

from templates.schedule import Item, Sheet, find

MARKS = 16  # rows of RIG.BENCH, eight from either end


def picked(column: str) -> str:
    return find("stays", column, "bench_stay")


def of_rope(column: str) -> str:
    return find("rope", column, picked("rope"))


KNOWN = "ISNUMBER(MATCH(bench_stay;stays_name;0))"


def shown(formula: str) -> str:
    """Formula: blank while the pick is not a stay; then its value, or its error."""
    return f'IF({KNOWN};{formula};"")'


FACTS = (
    Item("said", "Page", formula=f'IF(bench_stay="";"pick a stay above";IF({KNOWN};"marks for "&bench_stay;"there is no stay of this name: pick again"))'),
    Item("check", "Check of the stay", formula=shown(picked("check"))),
    Item("number", "Number to make", "", "End A is the upper end. All Bench Pages in the menu prints a page for every stay.", formula=shown(picked("number")), format="0"),
    Item("rope", "Rope", "", formula=shown(picked("rope"))),
    Item("cut", "Cut", "mm", formula=shown(picked("cut")), format="0"),
    Item("tension", "Light tension for measuring", "kN", "on the unspliced rope while it is marked; 0.1 kN is the weight of 10 kg", formula=shown(f"RIG.BENCH.TENSION({picked('rope_size')})"), format="0.00"),
    Item("upper", "Upper eye, laid flat", "mm", formula=shown(picked("upper_eye")), format="0"),
    Item("lower", "Lower eye, laid flat", "mm", formula=shown(picked("lower_eye")), format="0"),
    Item("sleeve_upper", "Sleeve, upper eye", "mm", "slip it on before the eye is closed", formula=shown(f"RIG.SLEEVE.LENGTH({picked('upper_eye')};boat_gather)"), format="0"),
    Item("sleeve_lower", "Sleeve, lower eye", "mm", formula=shown(f"RIG.SLEEVE.LENGTH({picked('lower_eye')};boat_gather)"), format="0"),
    Item("bury", "Bury", "mm", formula=shown(picked("bury")), format="0"),
    Item("taper", "of it tapered", "mm", formula=shown(picked("taper")), format="0"),
    Item("span", "Throat to throat when done, at pretension", "mm", formula=shown(picked("span")), format="0"),
    Item("pretension", "Bed in by pulling several times to", "kN", "until it grows no more; then check throat to throat", formula=shown(picked("pretension")), format="0.0"),
)

MARK_ARGUMENTS = ";".join(
    (
        picked("span"),
        picked("upper_eye"),
        picked("lower_eye"),
        picked("bury"),
        picked("worked"),
        of_rope("take_up"),
        "boat_waste",
        "boat_taper",
        "boat_growth",
    )
)


def mark(row: int, column: int) -> str:
    """Formula: one cell of RIG.BENCH."""
    return shown(f"INDEX(RIG.BENCH({MARK_ARGUMENTS});{row};{column})")


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

SHEET = Sheet(
    "Bench",
    "Pick a stay, print the page, pin it over the bench. Distances are along the rope as it lies, from end A.",
    landscape=False,
    cautions=(PULLING,),
)
