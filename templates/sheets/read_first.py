"""Read first: what the book is, what it is not, and how to start."""

from loftsheet import __version__
from templates.schedule import Sheet

CAUTIONS = (
    "Rigging holds up a mast over people. This book is a calculation aid and no design approval.",
    "Rope and rod data come from the maker's own certificate. Take-up and set come from a trial splice of yours, "
    "and a trial splice is pulled before it is trusted.",
    "The work is checked by a qualified rigger or surveyor. Local rules and the insurer decide.",
    "A bolt that carries a stub bends: what it holds is often far below the wire it replaces. Tangs shows both.",
    "Going aloft: two independent lines, and never on a rig that is being changed.",
    "Glass-epoxy dust harms lungs and skin: mask, extraction, gloves, wet cutting.",
    "Sawing and drilling short round stock: clamp it in a V, never hold it by hand.",
    "Replacing metal rigging may remove the path of lightning to the water. Ask before you do.",
)

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
        ("", f"Loftsheet {__version__}. The calculations need the Loftsheet extension; without it the last values stay."),
    ),
    landscape=False,
)
