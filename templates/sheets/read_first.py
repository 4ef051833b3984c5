"""Read first: what the book is, what it is not, and how to start."""

from loftsheet import __version__
from loftsheet.cautions import CAUTIONS

from templates.schedule import Sheet

START = (
    "Boat: go down the sheet and question every value. Type the righting moment and measure the mast's wall.",
    "Library: put in the rope, rod and bolts that you can buy, from their certificates.",
    "Points: survey mast points, spreader tips and chainplates from one datum.",
    "Stays: one row per stay. Pick its points and the wire it replaces, and where its load comes from.",
    "Tangs: one row per stub, each for one stay by name.",
    "Check stands after every name: it says OK, or what is wrong. Boat counts the rows that are not OK.",
    "Bench: pick a stay and print the page over your bench. Order: one row per item to buy.",
    "Log: one row per inspection, as long as the rig stands.",
)

TYPING = (
    "White framed cells are yours; grey ones are calculated. A row counts when its name is filled.",
    'A number is in the unit of its column. A text with a unit is read too: "3/8 in", "1 1/4 in", "5 ft 3 in", '
    '"12,5 mm", "450 kgf". Without a unit, 1 1/4 becomes 1.25 mm and 3/8 becomes a date.',
    "An own value stands in a column of its own and wins over the boat's default. Never type over a formula.",
    "Insert columns of your own wherever you like; insert rows above the last ready row, which stays empty. "
    "Copy a row and insert it to have its formulas.",
    "Sort, filter, rename and hide as you like; names, not positions, tie the sheets together.",
)

SHEET = Sheet(
    "Read first",
    "Standing rigging of spliced HMPE rope on stubs of glass-epoxy rod: survey, size, fit, make, buy, look after.",
    lines=(
        ("What this is not", ""),
        *(("", line) for line in CAUTIONS),
        ("How to start", ""),
        *(("", line) for line in START),
        ("How to type", ""),
        *(("", line) for line in TYPING),
        ("Version", ""),
        ("", f"Loftsheet {__version__}. The calculations need the Loftsheet extension; an office without it shows #NAME? until it is there. Hand on the PDF or the supplier's file, not this book."),
    ),
    landscape=False,
)
