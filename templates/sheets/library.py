"""Library: one row per product size. What is invented says so in its source."""

from loftsheet.cautions import PULLING

from templates.choices import CONSTRUCTIONS, DENIALS, EACH, NO_STATUS, PLAUSIBLE, SPLICED, TRIAL, TRIED
from templates.schedule import (
    CERTIFICATE,
    FIX,
    MEASURED,
    STANDARD,
    STATUSES,
    WAITS,
    WEIGH,
    Column,
    Rule,
    Sheet,
    Table,
    calculated,
    choice,
    name_and_check,
    number,
    text,
)

SOURCE = (
    choice("status", "Status", STATUSES, "what the figures rest on; a breaking load is best taken from a certificate", required=True, width=16),
    text("source", "Source", "where the figures come from, in your own words: certificate's number, page, date", required=True, width=33),
)


# A source that takes back what the status says of a certificate, and the word that does it.
DENIED = f'IFERROR(REGEX(LOWER([source]);"{"|".join(DENIALS)}");"")'
IS_DENIED = f'IF([status]="{CERTIFICATE}";{DENIED}<>"";FALSE())'
SAYS_OTHERWISE = Rule("status.denied", WEIGH, IS_DENIED, f"Status says {CERTIFICATE}, Source says {{{DENIED}}}", "source", "type the certificate's number and date, or pick what the figures rest on")


def proven_by(*statuses: str) -> Column:
    """The calculated column of what a stay or stub has to say of its figures; blank where they are good enough."""
    good = ";".join(f'[status]="{status}"' for status in statuses)
    formula = f'IF({IS_DENIED};{DENIED};IF(OR({good});"";IF([status]="";"{NO_STATUS}";[status])))'
    return calculated("unproven", "To consider", "", formula, "what the checks of stays and stubs say of these figures; blank if they are good enough", width=15)


def unproven(what: str, pick: str) -> str:
    """Formula: the word for a figure that rests on no certificate; blank where nothing is to be said of it."""
    return f'IF([{pick}.unproven]="";"";"{what}")'


PROVEN = (CERTIFICATE, MEASURED)
STANDARDISED = (*PROVEN, STANDARD)


def in_family(column: str) -> str:
    return f'IF([family]=boat_family_used;{column};"")'


AREA = "([size]*[size])"
PER_AREA = f"[break_load]/{AREA}"
MASS_PER_AREA = f"[mass]/{AREA}"
CREEP_ABOARD = "RIG.CREEP(1000;[creep];1;;;;boat_year_temp;[creep_temp])"  # thousandths a year
THICKER = (
    'IF([family_size]="";0;SUMPRODUCT(IFERROR(ISNUMBER(rope_family_size)*(rope_family_size>[family_size])'
    "*(rope_family_break<=[family_break]);0)))"
)
# What stainless bolts of the usual property classes hold: ISO 3506-1.
CLASSES = {"-50": (500, 210), "-70": (700, 450), "-80": (800, 600)}

# Turned from bar, with a certificate of the bar: it may hold more than annealed bar.
CERTIFIED_BAR = f'AND([class]="";[status]="{CERTIFICATE}";[yield_stress]<[strength])'


def above_class(column: str, which: int) -> str:
    """Formula: whether a stainless bolt is said to hold more than the property class in its name."""
    names = (f'ISNUMBER(FIND("{name}";[name]))*([{column}]>{held[which]})' for name, held in CLASSES.items())
    return f'AND(OR(ISNUMBER(FIND("A2";[name]));ISNUMBER(FIND("A4";[name])));{"+".join(names)}>0)'



def on_order(kind: str) -> Rule:
    """Rule: every item that could be needed has its row on Order."""
    row = f'SUMPRODUCT((order_name=[name])*(order_kind="{kind}"))'
    return Rule("order", WEIGH, f"{row}=0", "it is not on Order", "name", f"Check the Schedule adds it, or type its name there, kind {kind}")


TRIAL_RATIO = "INDEX(trial_ratio;MATCH([name];trial_rope;0))"
ROPES = Table(
    "rope",
    "Ropes and lines",
    (
        *name_and_check("Rope", "family and size; other sheets know the rope by this name", 26),
        *SOURCE,
        text("family", "Family", "ropes of one kind share a family", required=True, width=18),
        number("size", "Size", "mm", 1, 60, "diameter", required=True, format="0.0", width=14),
        number("break_load", "Breaking load", "kN", 0.1, 5000, "from the maker's certificate", required=True, format="0.0", width=14),
        choice("spliced", "Measured", SPLICED, "how the breaking load was measured", required=True, width=18),
        number("mass", "Mass", "g/m", 0.1, 10000, "mass of a metre", required=True, format="0.0", width=14),
        number("ratio", "Stiffness", "EA / breaking load", 5, 100, "37.5 is 0.8 % at 30 % of break", required=True, format="0.0", width=17),
        number("least", "Minimum bend", "pin / rope", 1, 10, "smallest pin at full strength, the maker's", required=True, format="0.0", width=16),
        number("take_up", "Take-up", "share of bury", 0.001, 0.3, "what a loaded bury shortens its host by", required=True, format="0.000", width=14),
        number("lasting_set", "Set", "share", 0, 0.1, "lasting stretch of the new rope", required=True, format="0.000", width=14),
        choice("trial", "Take-up and set", TRIAL, "on a trial splice, or assumed", required=True, width=17),
        Column("trial_date", "Measured on", help="date of the trial splice", format="YYYY-MM-DD", width=18),
        number("creep", "Creep", "share a year", 0.000001, 0.1, "the maker's figure for the load held or more; blank if there is none", format="0.00000", width=14),
        number("creep_temp", "Creep at", "°C", -20, 80, "the temperature for which the maker gives it", format="0", width=11),
        calculated("family_size", "Family size", "mm", in_family("[size]"), "size, if of the boat's family", format="0.0", hidden=True),
        calculated("family_break", "Family break", "kN", in_family("[break_load]"), "breaking load, if of the boat's family", format="0.0", hidden=True),
        proven_by(*PROVEN),
        calculated("stiffness", "Stiffness used", "EA / breaking load", f"IF(ISNA(MATCH([name];trial_rope;0));[ratio];IF(ISNUMBER({TRIAL_RATIO});{TRIAL_RATIO};NA()))", "by its trial below, or else as typed", format="0.0", width=15),
        calculated("thicker", "Thicker, no stronger", "", THICKER, "ropes of its family that are thicker and hold no more", format="0", hidden=True),
    ),
    rules=(
        Rule("trial.row", WAITS, f"IF(ISNA(MATCH([name];trial_rope;0));FALSE();NOT(ISNUMBER({TRIAL_RATIO})))", "Library: the trial of this rope", "stiffness"),
        Rule("creep_temp.none", FIX, 'AND([creep]<>"";[creep_temp]="")', "type at what temperature, too", "creep"),
        Rule("trial_date.none", WEIGH, f'AND([trial]="{TRIED}";[trial_date]="")', "take-up and set are measured, but no date is given", "trial_date", "type it under Measured on"),
        Rule("set.large", WEIGH, "[lasting_set]>boat_set_most", "a set of {lasting_set:3} is large, up to {boat_set_most} is usual", "lasting_set", "measure it on a trial splice"),
        Rule("set.small", WEIGH, "[lasting_set]<boat_set_least", "a set of {lasting_set:4} is small: of new HMPE rope it is about 0.01", "lasting_set", "measure it on a trial splice"),
        Rule("take_up.large", WEIGH, "[take_up]>boat_take_up_most", "a take-up of {take_up:3} is large, up to {boat_take_up_most} is usual", "take_up", "is it of one splice, over one bury?"),
        Rule("take_up.small", WEIGH, "[take_up]<boat_take_up_least", "a take-up of {take_up:3} is small, {boat_take_up_least} and more is usual", "take_up", "measure it on a trial splice"),
        Rule("creep.small", WEIGH, f'IF([creep]="";FALSE();{CREEP_ABOARD}<boat_creep_least*1000)', f"at Boat's {{boat_year_temp:0}} °C that is {{{CREEP_ABOARD}*1000:2}} millionths a year; {{boat_creep_least*1000*1000:1}} and more is usual", "creep_temp", "look up at what temperature the maker gives it"),
        Rule("break_load", WEIGH, f"OR({PER_AREA}<boat_rope_weak;{PER_AREA}>boat_rope_strong)", f"{{[break_load]:1}} kN at {{[size]:1}} mm; {{boat_rope_weak*{AREA}:0}} to {{boat_rope_strong*{AREA}:0}} kN is usual", "break_load", "probably a typing error"),
        Rule("mass", WEIGH, f"OR({MASS_PER_AREA}<boat_rope_light;{MASS_PER_AREA}>boat_rope_heavy)", f"{{[mass]:1}} g/m at {{[size]:1}} mm; {{boat_rope_light*{AREA}:0}} to {{boat_rope_heavy*{AREA}:0}} g/m is usual", "mass", "probably a typing error"),
        Rule("thicker", WEIGH, "[thicker]>0", "{[break_load]:1} kN, yet a thicker rope of its family has no more", "break_load", "is it the breaking load of another size?"),
        SAYS_OTHERWISE,
        on_order("rope"),
    ),
)

WIRES = Table(
    "wire",
    "Wires",
    (
        *name_and_check("Wire", "construction and size of the wire that is replaced", 26),
        *SOURCE,
        number("size", "Size", "mm", 1, 40, "diameter", required=True, format="0.0", width=14),
        number("grade", "Grade", "MPa", 800, 2500, "tensile grade of the wires", required=True, format="0", width=14),
        number("k", "Break factor", "", 0.35, 0.7, "K of F = K·d²·grade; about 0.525 for 1x19", required=True, format="0.000", width=14),
        number("modulus", "Modulus", "GPa", 20, 250, "modulus of the strand", required=True, format="0", width=14),
        number("fill", "Fill", "share", 0.3, 1, "metal in the circle; 0.76 for 1x19", required=True, format="0.00", width=14),
        proven_by(*STANDARDISED),
        calculated("break_load", "Breaking load", "kN", "RIG.WIRE.BREAK([size];[grade];[k])", "by its grade and break factor", format="0.0", width=14),
    ),
    rules=(
        SAYS_OTHERWISE,
        Rule("metal", WEIGH, "[break_load]>PI()*([size]/2)^2*[fill]*[grade]/1000", "by its break factor it holds {break_load:1} kN, all of its metal only {PI()*([size]/2)^2*[fill]*[grade]/1000:1} kN", "k", "look at break factor and fill"),
    ),
)

RODS = Table(
    "rod",
    "Rod for stubs",
    (
        *name_and_check("Rod", "grade and size of the round rod", 26),
        *SOURCE,
        number("size", "Size", "mm", 5, 300, "diameter, the smallest measured on the very rod", required=True, format="0.0", width=14),
        number("stock", "Stock length", "mm", 50, 10000, "length as bought", required=True, format="0", width=14),
        number("density", "Density", "kg/m³", 500, 10000, "of the rod", required=True, format="0", width=14),
        number("crushing", "Crushing strength", "MPa", 5, 1000, "across the fibres, the lowest of its certificate, wet if it has that; while it is blank the rod is not checked", format="0", width=14),
        number("shear", "Shear strength", "MPa", 1, 500, "between its layers, from its certificate, wet if it has that; blank is not checked", format="0", width=14),
        choice("construction", "Lay-up", CONSTRUCTIONS, "how the rod is built; fibres must run along it", required=True, width=17),
        proven_by(*PROVEN),
    ),
    rules=(
        Rule("shear.alone", FIX, 'AND([shear]<>"";[crushing]="")', "type it, too: with one of the two the rod is not checked", "crushing"),
        Rule("crushing.large", WEIGH, 'IF([crushing]="";FALSE();[crushing]>boat_crushing_most)', "{[crushing]:0} MPa is high, across the fibres up to {boat_crushing_most:0} MPa is usual", "crushing", "is it that along the fibres?"),
        Rule("shear.large", WEIGH, 'IF(OR([crushing]="";[shear]="");FALSE();[shear]>=[crushing])', "it is sheared at {[shear]:0} MPa and crushed at {[crushing]:0} MPa", "shear", "are the two swapped?"),
        SAYS_OTHERWISE,
        on_order("rod"),
    ),
)

BOLTS = Table(
    "bolt",
    "Bolts",
    (
        *name_and_check("Bolt", "thread, grade", 26),
        *SOURCE,
        number("size", "Size", "mm", 3, 60, "diameter of the plain shank", required=True, format="0.0", width=14),
        number("pitch", "Pitch", "mm", 0.4, 6, "pitch of the thread", required=True, format="0.00", width=14),
        number("strength", "Strength", "MPa", 200, 1500, "tensile strength Rm", required=True, format="0", width=14),
        number("yield_stress", "Proof stress", "MPa", 150, 1300, "Rp0.2", required=True, format="0", width=14),
        number("washer", "Washer", "mm", 5, 150, "outside diameter of the washer", required=True, format="0.0", width=14),
        number("class", "Class", "as stamped", 3, 100, "on its head or end: 70 or 80 of A4-70, A4-80, or 8.8; blank for one turned from bar", format="0.0##", width=12),
        calculated("figures", "Figures", "", 'IF([class]="";RIG.BOLT.FIGURES([strength];[yield_stress]);RIG.BOLT.FIGURES([strength];[yield_stress];[class]))', "plausible, or what speaks against them", width=14),
        proven_by(*STANDARDISED),
    ),
    rules=(
        Rule("yield_stress.high", FIX, "[yield_stress]>[strength]", "got {[yield_stress]:0}; must be below the strength, {[strength]:0} MPa", "yield_stress"),
        Rule("pitch", WEIGH, "[pitch]<boat_pitch_least*[size]", "a pitch of {[pitch]:2} mm is fine for {[size]:0} mm, {boat_pitch_least*[size]:2} mm and more is usual", "pitch", "probably a typing error"),
        Rule("washer.small", FIX, "[washer]<=[size]", "got {[washer]:1}; must be wider than the bolt, {[size]:1} mm", "washer"),
        Rule("class.unknown", FIX, 'IF([class]="";FALSE();ISNA([figures]))', "no such class is known: 50, 70, 80, 100 of stainless bolts, 4.6 to 10.9 of others", "class"),
        Rule("figures", WEIGH, f'AND([figures]<>"{PLAUSIBLE}";NOT({CERTIFIED_BAR}))', "{figures}", "class"),
        Rule("class", WEIGH, f"OR({above_class('strength', 0)};{above_class('yield_stress', 1)})", "strength of {[strength]:0} or proof stress of {[yield_stress]:0} MPa is above the class in its name", "strength", "type what ISO 3506-1 has for the class, or what its certificate says under another name"),
        SAYS_OTHERWISE,
        on_order("bolt"),
    ),
)

SLEEVES = Table(
    "sleeve",
    "Chafe sleeves",
    (
        *name_and_check("Sleeve", "size of the sleeve over the eye", 26),
        *SOURCE,
        text("material", "Material", "what it is woven of, for whoever sells it", width=18),
        number("wall", "Wall", "mm", 0, 20, "thickness of one wall, pressed flat", required=True, format="0.0", width=14),
    ),
    rules=(on_order("sleeve"),),
)

RINGS = Table(
    "ring",
    "Rings and thimbles",
    (
        *name_and_check("Ring", "size of the ring or thimble", 26),
        *SOURCE,
        number("groove", "Groove", "mm", 3, 200, "diameter at the bottom of the groove, where the eye lies", required=True, format="0.0", width=14),
        number("hole", "Hole", "mm", 2, 150, "diameter of the hole, where the lashing runs", required=True, format="0.0", width=14),
        number("load", "Working load", "kN", 0.1, 1000, "the maker's working load", required=True, format="0.0", width=14),
        proven_by(*STANDARDISED),
    ),
    rules=(
        Rule("hole.large", FIX, "[hole]>=[groove]", "got {[hole]:1}; must be smaller than the groove, {[groove]:1} mm", "hole"),
        Rule("load", WEIGH, "[load]>boat_ring_strong*[groove]*[groove]", "{[load]:1} kN on a groove of {[groove]:0} mm; up to {boat_ring_strong*[groove]*[groove]:0} kN is usual", "load", "probably a typing error"),
        SAYS_OTHERWISE,
        on_order("ring"),
    ),
)

SHARES = Table(
    "share",
    "Shares of the shroud load",
    (
        *name_and_check("Shroud", "place of the shroud in the rig", 26),
        *SOURCE,
        number("share", "Share", "of one side", 0.01, 1, "share of all shrouds of one side", required=True, format="0.0 %", width=14),
        number("of", "On the boat", "", 1, 12, "how many such shrouds the boat has, both sides", required=True, whole=True, format="0", width=14),
        calculated("here", "On Stays", "", "IFERROR(SUMPRODUCT((stays_share_used=[name])*1;IF(ISNUMBER(stays_count);stays_count;0));0)", "how many shrouds on Stays have this share", format="0", width=14),
    ),
    rules=(
        Rule("share.small", WEIGH, "[share]<boat_share_least", "a share of {[share]:%} is small, it is of all shrouds of one side; {boat_share_least:%} and more is usual", "share", "probably a typing error"),
    ),
)

SUNDRIES = Table(
    "sundry",
    "Sundries",
    (
        *name_and_check("Item", "what else has to be bought", 26),
        *SOURCE,
        number("per", "Number", "", 0, 1000, "how many for each", required=True, format="0.###", width=14),
        choice("each", "For each", EACH, "what it is counted by", required=True, width=14),
        text("unit", "Unit", "unit in which it is bought", required=True, width=18),
        text("exactly", "What exactly", "size and material, for whoever sells it", width=26),
    ),
    rules=(on_order("sundry"),),
)

TRIALS = Table(
    "trial",
    "Trials of stiffness",
    (
        *name_and_check("Trial", "a number or a word that is not there yet, such as T1", 26),
        text("made_by", "Made by", "who pulled it", width=16),
        choice("rope", "Rope", "rope_name", "that was pulled, bedded in first: several times above the higher pull", required=True, width=23),
        Column("date", "Date", help="of the trial", required=True, format="YYYY-MM-DD", width=18),
        number("low", "Lower pull", "kN", 0.01, 1000, "near the pretension of the stay", required=True, format="0.00", width=14),
        number("high", "Higher pull", "kN", 0.01, 1000, "near the load of the stay", required=True, format="0.00", width=14),
        number("short", "Length at lower pull", "mm", 200, 40000, "between two marks clear of the buried ends", required=True, format="0.0", width=18),
        number("long", "Long at higher pull", "mm", 200, 40000, "between the same marks", required=True, format="0.0", width=14),
        calculated("ratio", "Stiffness", "EA / breaking load", "RIG.TRIAL.EA([low];[high];[short];[long])/[rope.break_load]", "what the rope is taken to have, in place of what is typed at its row", format="0.0", width=14),
    ),
    rules=(
        # The rope waits for its trial, so of the rope only what the trial reads is asked.
        Rule("rope.row", WAITS, "NOT(ISNUMBER([rope.break_load]))", "Library: {rope}", "rope"),
        Rule("rope.twice", FIX, "SUMPRODUCT(IFERROR((trial_rope=[rope])*1;0))>1", "there is another trial of this rope", "rope", "keep one"),
        Rule("far", WEIGH, "OR([ratio]>2*[rope.ratio];2*[ratio]<[rope.ratio])", "by it EA is {ratio:1} times the breaking load, at its row stands {rope.ratio:1}", "long", "read both lengths again"),
    ),
)

LIBRARY = Sheet(
    "Library",
    "One row per product size; fill what has a *. Replace what is invented by the figures of what you buy.",
    (ROPES, WIRES, RODS, BOLTS, SLEEVES, RINGS, SHARES, SUNDRIES, TRIALS),
    cautions=(PULLING,),
)
