"""Words that are picked from a list, or said by a cell, and that formulas compare with: each stands here once."""

# What an eye lies over, and what runs on a stay
OVER = ON_STUB, ON_RING, ON_PIN = ("stub", "ring", "pin")
RUNS = NOTHING_RUNS, SOFT_HANKS, METAL_HANKS, FURLER = ("nothing", "soft hanks", "metal hanks", "furler")
# How a rope's breaking load was measured, and whether its take-up and set were
SPLICED = WITH_SPLICES, WITHOUT_SPLICES = ("with splices", "without splices")
TRIAL = TRIED, ASSUMED = ("measured", "assumed")
# How a rod is built
CONSTRUCTIONS = SOLID, LAMINATED, WOUND, FROM_SHEET, UNKNOWN = (
    "solid rod, rolled or moulded",
    "laminated tube",
    "filament wound",
    "sheet turned round",
    "unknown",
)
# What is ordered: a table of the Library each; and what a sundry is counted by
KINDS = ROPE, ROD, BOLT, SLEEVE, RING, SUNDRY = ("rope", "rod", "bolt", "sleeve", "ring", "sundry")
EACH = PER_STUB, PER_STAY, PER_SPLICE, PER_BOLT, PER_NUT, PER_BOAT = (
    "stub",
    "stay",
    "splice",
    "bolt",
    "nut",
    "boat",
)
# How a bolt is made
BOLT_MADE = STAMPED, TURNED = ("stamped with its class", "turned from bar")
# What functions say where nothing hinders an eye, or speaks against the figures of a bolt
FITS, PLAUSIBLE = "fits", "plausible"
# How the result of the balance of masts and stays begins
WORKED_OUT, NO_BALANCE = "worked out", "no balance"
# Words of a source in Library that take back the status "certificate"
DENIALS = ("invented", "from memory", "assumed")
# What Rig says of a row that is OK and has something to be said of it
UNPROVEN, NOTED = "unproven", "noted"
# What Library says where Status is blank, and Boat where nothing is wrong
NO_STATUS = "of no status"
NOTHING = "nothing"
