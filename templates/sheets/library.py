"""Library: one row per product size. What is invented says so in its source."""

from templates.schedule import (
    Column,
    Sheet,
    Table,
    calculated,
    choice,
    fault,
    name_and_check,
    number,
    plain,
    text,
    words,
)

SOURCE = text("source", "Source", "where the figures come from; what is invented says so", required=True, width=32)


def in_family(column: str) -> str:
    return f'IF([family]=boat_family;{column};"")'


PER_AREA = f"{plain('[break_load]', 'kN')}/({plain('[size]', 'mm')}*{plain('[size]', 'mm')})"


def on_order(kind: str) -> str:
    """Rule: every item that could be needed has its row on Order."""
    row = f'SUMPRODUCT((order_name=[name])*(order_kind="{kind}"))'
    return words(f"{row}=0", f'"it is not on Order: type its name there, of the kind {kind}"')


ROPES = Table(
    "rope",
    "Ropes and lines",
    (
        *name_and_check("Rope", "family and size; other sheets know the rope by this name", 28),
        SOURCE,
        text("family", "Family", "ropes of one kind share a family", required=True, width=22),
        number("size", "Size", "mm", 1, 60, "diameter", required=True, format="0.0", width=14),
        number("break_load", "Break load", "kN", 0.1, 5000, "from the maker's certificate", required=True, format="0.0"),
        choice("spliced", "Measured", ("with splices", "without splices"), "how the break load was measured", required=True, width=20),
        number("mass", "Mass", "g/m", 0.1, 10000, "mass of a metre", required=True, format="0.0", width=14),
        number("ratio", "Stiffness", "EA / break load", 5, 100, "37.5 is 0.8 % at 30 % of break", required=True, format="0.0", width=17),
        number("least", "Least bend", "pin / rope", 1, 10, "least pin at full strength, the maker's", required=True, format="0.0", width=14),
        number("take_up", "Take-up", "share of bury", 0.001, 0.3, "what a loaded bury shortens its host by", required=True, format="0.000", width=14),
        number("lasting_set", "Set", "share", 0, 0.1, "lasting stretch of the new rope", required=True, format="0.000", width=14),
        choice("trial", "Take-up and set", ("measured", "assumed"), "on a trial splice, or assumed", required=True, width=18),
        Column("trial_date", "Measured on", help="date of the trial splice", format="YYYY-MM-DD", width=20),
        number("creep", "Creep", "share a year", 0.000001, 0.1, "the maker's figure for the load held or more; blank if there is none", format="0.00000", width=14),
        number("creep_temp", "Creep at", "°C", -20, 80, "the temperature for which the maker gives it", format="0", width=14),
        calculated("family_size", "Family size", "mm", in_family(plain("[size]", "mm")), "size, if of the boat's family", format="0.0", width=14),
        calculated("family_break", "Family break", "kN", in_family(plain("[break_load]", "kN")), "break load, if of the boat's family", format="0.0", width=14),
    ),
    faults=(fault('AND([creep]<>"";[creep_temp]="")', "Creep: type at what temperature, too"),),
    rules=(
        words('AND([trial]="measured";[trial_date]="")', '"measured, but no date"'),
        words("[lasting_set]>boat_set_most", '"the set is large: measure it on a trial splice"'),
        words("[lasting_set]<boat_set_least", '"the set is small: of a new rope of HMPE it is about 1 %"'),
        words("[take_up]>boat_take_up_most", '"the take-up is large: is it of one splice, over one bury?"'),
        words(f"OR({PER_AREA}<boat_rope_weak;{PER_AREA}>boat_rope_strong)", '"break load and size hardly belong together"'),
        on_order("rope"),
    ),
)

WIRES = Table(
    "wire",
    "Wires",
    (
        *name_and_check("Wire", "construction and size of the wire that is replaced", 28),
        SOURCE,
        number("size", "Size", "mm", 1, 40, "diameter", required=True, format="0.0"),
        number("grade", "Grade", "MPa", 800, 2500, "tensile grade of the wires", required=True, format="0"),
        number("k", "Break factor", "", 0.35, 0.7, "K of F = K·d²·grade; about 0.525 for 1x19", required=True, format="0.000"),
        number("modulus", "Modulus", "GPa", 20, 250, "modulus of the strand", required=True, format="0"),
        number("fill", "Fill", "share", 0.3, 1, "metal in the circle; 0.76 for 1x19", required=True, format="0.00"),
    ),
)

RODS = Table(
    "rod",
    "Rod for stubs",
    (
        *name_and_check("Rod", "grade and size of the round rod", 28),
        SOURCE,
        number("size", "Size", "mm", 5, 300, "diameter, the smallest measured on the very rod", required=True, format="0.0"),
        number("stock", "Stock length", "mm", 50, 10000, "length as bought", required=True, format="0"),
        number("density", "Density", "kg/m³", 500, 10000, "of the rod", required=True, format="0"),
        choice("construction", "Construction", ("laminated tube", "filament wound", "sheet turned round", "unknown"), "how the rod is built; fibres must run along it", required=True),
    ),
    rules=(on_order("rod"),),
)

BOLTS = Table(
    "bolt",
    "Bolts",
    (
        *name_and_check("Bolt", "thread, grade", 28),
        SOURCE,
        number("size", "Size", "mm", 3, 60, "diameter of the plain shank", required=True, format="0.0"),
        number("pitch", "Pitch", "mm", 0.4, 6, "pitch of the thread", required=True, format="0.00"),
        number("strength", "Strength", "MPa", 200, 1500, "tensile strength Rm", required=True, format="0"),
        number("yield_stress", "Proof stress", "MPa", 150, 1300, "Rp0.2", required=True, format="0"),
        number("washer", "Washer", "mm", 5, 150, "outside diameter of the washer", required=True, format="0.0"),
    ),
    faults=(
        fault(f"{plain('[yield_stress]', 'MPa')}>{plain('[strength]', 'MPa')}", "Proof stress: it is above the strength"),
        fault(f"{plain('[washer]', 'mm')}<={plain('[size]', 'mm')}", "Washer: it is not wider than the bolt"),
    ),
    rules=(on_order("bolt"),),
)

SLEEVES = Table(
    "sleeve",
    "Chafe sleeves",
    (
        *name_and_check("Sleeve", "size of the sleeve over the eye", 28),
        SOURCE,
        number("wall", "Wall", "mm", 0, 20, "thickness of one wall, pressed flat", required=True, format="0.0"),
    ),
    rules=(on_order("sleeve"),),
)

RINGS = Table(
    "ring",
    "Rings and thimbles",
    (
        *name_and_check("Ring", "size of the ring or thimble", 28),
        SOURCE,
        number("groove", "Groove", "mm", 3, 200, "diameter at the bottom of the groove, where the eye lies", required=True, format="0.0"),
        number("hole", "Hole", "mm", 2, 150, "diameter of the hole, where the lashing runs", required=True, format="0.0"),
        number("load", "Working load", "kN", 0.1, 1000, "the maker's working load", required=True, format="0.0"),
    ),
    rules=(on_order("ring"),),
)

SHARES = Table(
    "share",
    "Shares of the shroud load",
    (
        *name_and_check("Shroud", "place of the shroud in the rig", 28),
        SOURCE,
        number("share", "Share", "of one side", 0.01, 1, "share of all shrouds of one side", required=True, format="0.0 %"),
        number("of", "On the boat", "", 1, 12, "how many such shrouds the boat has, both sides", required=True, whole=True, format="0"),
        calculated("here", "On Stays", "", "IFERROR(SUMPRODUCT((stays_share=[name])*stays_number);0)", "how many shrouds on Stays have this share", format="0"),
    ),
    rules=(words("[share]<boat_share_least", '"the share is small: it is of all shrouds of one side"'),),
)

SUNDRIES = Table(
    "sundry",
    "Sundries",
    (
        *name_and_check("Item", "what else has to be bought", 28),
        SOURCE,
        number("per", "Number", "", 0, 1000, "how many for each", required=True, format="0.###"),
        choice("each", "For each", ("stub", "stay", "splice", "bolt", "nut", "boat"), "what it is counted by", required=True, width=17),
        text("unit", "Unit", "unit in which it is bought", required=True, width=20),
        text("exactly", "What exactly", "size and material, for whoever sells it", width=24),
    ),
    rules=(on_order("sundry"),),
)

LIBRARY = Sheet(
    "Library",
    "One row per product size; fill what has a *. Replace what is invented by the figures of what you buy.",
    (ROPES, WIRES, RODS, BOLTS, SLEEVES, RINGS, SHARES, SUNDRIES),
)
