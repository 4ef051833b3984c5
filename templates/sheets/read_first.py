"""Read first: what the book is, what it is not, and how to start."""

from loftsheet import __version__
from loftsheet.cautions import CAUTIONS

from templates.schedule import Sheet

START = (
    "Library: put in the rope, rod and bolts that you can buy, from their certificates. Give each new item a row on Order, too.",
    "Boat: pick rope, line, rod, bolt, sleeve and ring, type the rope's family and the righting moment, measure the mast. "
    "Until then the checks name what to mend on Boat first. Then go down the sheet and question every value.",
    "Points: survey mast points, spreader tips and chainplates from one datum. Out is counted away from the centreline, "
    "on either side without a minus.",
    "Stays: one row per stay that becomes rope; one that stays wire has no row. Pick its points and the wire it replaces, "
    "and where its load comes from. A shroud over a spreader needs the tip under Via.",
    "Tangs: one row per stub, each for one stay by name.",
    "Check stands after every name: it says OK, or what is wrong. What begins with mend has to be put right; the rest is for "
    "you to weigh. Boat counts the rows that are not OK.",
    "Bench: pick a stay and print the page over your bench. Order: one row per item to buy.",
    "Log: one row per inspection, as long as the rig stands.",
)

UNCHECKED = (
    "The strength of rod and end plate, and how the rod is built: compare the pressures given with its certificate.",
    "What holds a ring or a pin on the mast, and a pin itself; of a ring only the maker's working load.",
    "Spreaders, the rope over a spreader's tip, and the mast as a column.",
    "The mast's wall and a chainplate while they are blank; the check says so.",
    "The figures of the Library: a wrong certificate makes a wrong rig.",
)

TYPING = (
    "White framed cells are yours; grey ones are calculated. A row counts when its name is filled.",
    'A number is in the unit of its column. A text with a unit is read too, but not on Boat: "3/8 in", "1 1/4 in", "5 ft 3 in", '
    '"12,5 mm", "450 kgf". Without a unit, 1 1/4 becomes 1.25 mm and 3/8 becomes a date. On Boat, type =4.5*25.4 for 4.5 in.',
    "An own value stands in a column of its own and wins over the boat's default. Never type over a formula.",
    "Insert columns of your own wherever you like. For more rows, take Add Rows in the menu Rigging; the last ready row "
    "stays empty.",
    "Sort, filter, rename and hide as you like; names, not positions, tie the sheets together.",
)

SHEET = Sheet(
    "Read first",
    "Standing rigging of spliced HMPE rope on stubs of glass-epoxy rod: survey, size, fit, make, buy, look after.",
    lines=(
        ("What this is not", ""),
        *(("", line) for line in CAUTIONS),
        ("What is not checked", ""),
        *(("", line) for line in UNCHECKED),
        ("How to start", ""),
        *(("", line) for line in START),
        ("How to type", ""),
        *(("", line) for line in TYPING),
        ("Version", ""),
        ("", f"Loftsheet {__version__}. The calculations need the Loftsheet extension; an office without it shows #NAME? until it is there. Hand on the PDF or the supplier's file, not this book."),
    ),
    landscape=False,
)
