"""Log: one row per inspection."""

from loftsheet.cautions import ALOFT, PULLING

from templates.schedule import (
    FIX,
    NOTE,
    WEIGH,
    Column,
    Rule,
    Sheet,
    Table,
    block,
    calculated,
    choice,
    name_and_check,
    number,
    text,
    waits_for,
)
from templates.sheets.stays import STAYS_WIRE, metre_mass

LEAST_LEFT = "IFERROR([stay.stub.ligament_least];boat_ligament)"
LOOKED_AT_LATER = "SUMPRODUCT(IFERROR((log_stay=[stay])*(log_date>[date]);0))>0"

MASS = metre_mass("stay.")
CHANGE = "[stay.tighten_tension]"
BY_BALANCE = 'INDEX(IF([temperature]<boat_tuned;bycase_cold;bycase_warm);MATCH([stay];bycase_name;0))'  # kN for each K
CREEPS = f'IF(OR([age]="";[stay.made_of]="{STAYS_WIRE}");FALSE();IF([stay.rope.creep]="";FALSE();[age]>0))'


def should_be(which: str, sign: str, from_: str) -> str:
    """Formula: the least or the most that the stay may have at the entry's temperature, from what it has at Boat's."""
    warmer = "([temperature]-boat_tuned)/boat_warmer"
    known = f"{which}({from_};{from_}+{CHANGE}*{warmer})"
    allowed = f'IF([temperature]="";{from_};IF(boat_tuned="";{from_}{sign}{CHANGE};{known}))'
    return f"MAX(0;{allowed})"


AS_MADE = block(
    "As made",
    Column("date", "Date", help="of the work or the inspection", required=True, format="YYYY-MM-DD", width=19),
    choice("stay", "Stay", "stays_name", "the stay made or looked at", required=True, width=26),
    text("which", "Which", "port or starboard, or which of several", width=17),
    text("made_by", "Made by", "who spliced it; blank at an inspection", width=24),
    number("pulled_to", "Pulled to", "kN", 0, 500, "hardest pull when it was bedded in", format="0.0", width=15),
    number("measured", "Measured", "mm", 100, 60000, "throat to throat of the finished stay, under its pretension", format="#,##0", width=18),
    number("ligament_left", "Rod above bolt", "mm", 0, 200, "what is there, or is left after wear", format="0.0", width=15),
    number("take_up_left", "Gap left", "mm", 0, 5000, "gap that the lashing can still close", format="0", width=14),
    Column("fitted", "Fitted", help="date when this rope went up", format="YYYY-MM-DD", width=19),
    calculated("wanted", "Wanted", "mm", "[stay.span]", "throat to throat, on Stays", format="#,##0", width=18),
)

INSPECTED = block(
    "Inspected",
    number("tension_own", "Tension, gauge", "kN", 0, 500, "if measured with a gauge", format="0.0"),
    number("note_hz", "Note when plucked", "Hz", 0.5, 200, "vibrations a second of the free length", format="0.0", width=15),
    number("free_length", "Free length", "mm", 100, 40000, "that swung", format="0", width=12),
    calculated(
        "tension",
        "Tension",
        "kN",
        'IF([tension_own]<>"";[tension_own];IF(OR([note_hz]="";[free_length]="");"";'
        f"RIG.TENSION.PLUCK([free_length];{MASS};[note_hz])))",
        "by gauge, or by the note of the plucked stay",
        format="0.00",
    ),
    calculated("pretension", "Set up to", "kN", "[stay.pretension]", "pretension on Stays", format="0.00", width=14),
    calculated("crept", "Left at its age", "kN", f"IF({CREEPS};RIG.RELAX.LEFT([pretension];[stay.stiffness];[stay.rope.creep];[age];;;boat_year_temp;[stay.rope.creep_temp]);[pretension])", "of the pretension, if nothing was taken up since it went up; all of it where the rope's creep is not known", format="0.00", width=14),
    number("temperature", "Temperature", "°C", -40, 60, "in the shade, when the tension was measured: it goes with it", format="0", width=21),
    calculated("expected", "Expected", "kN", f'IF(OR([temperature]="";boat_tuned="");"";IFERROR(MAX(0;[crept]+([temperature]-boat_tuned)*{BY_BALANCE});""))', "at its age and the temperature typed, as masts and stays give by the upright cases of Balance; blank without them", format="0.00", width=16),
    calculated("least", "Should be, minimum", "kN", should_be("MIN", "-", "[crept]"), "at its age and the temperature typed: mast and hull give, so it lies between the pretension and that of a stiff rig", format="0.00", width=16),
    calculated("most", "Should be, maximum", "kN", should_be("MAX", "+", "[pretension]"), "the same of a stay that was taken up since; while Boat does not say at what it was tuned, all of Boat's change is allowed for", format="0.00", width=17),
    calculated("ligament_least", "Minimum above bolt", "mm", LEAST_LEFT, "of rod; a stub worn to less is retired", format="0.0", width=16),
    text("seen", "Seen", "chafe, glazing, loose strands, cracks, corrosion, movement", width=22),
    calculated("age", "Age", "years", 'IF([fitted]="";"";([date]-[fitted])/365.25)', "of the rope at the inspection", format="0.0", width=11),
    calculated("next", "Next by", "", "EDATE([date];boat_inspect_months)", "date of the next inspection", format="YYYY-MM-DD", width=19),
    calculated("due", "Due", "", f'IF(AND([next]<TODAY();NOT({LOOKED_AT_LATER}));"overdue";"")', "if the day of the next inspection has gone by without one", width=15),
    calculated("retire", "Retire by", "", 'IF([fitted]="";"";EDATE([fitted];12*boat_retire_years))', "at the latest; earlier by what is seen", format="YYYY-MM-DD", width=19),
)

LOG = Table(
    "log",
    "Log",
    (
        *name_and_check("Entry", "a number or a word that is not there yet, such as A1"),
        *AS_MADE,
        *INSPECTED,
    ),
    rules=(
        waits_for("stay", "Stays"),
        Rule("fitted", FIX, 'AND([fitted]="";[made_by]="")', "type the day when this rope went up, or who made it", "fitted"),
        Rule("pulled", WEIGH, 'AND([pulled_to]<>"";ROUND([pulled_to];1)<ROUND([stay.load];1))', "bedded in at {pulled_to:1} kN, minimum is its load, {stay.load:1} kN", "pulled_to", "pull it harder, or it sets the rest under sail and loses its pretension"),
        Rule("fitted.later", WEIGH, 'AND([fitted]<>"";[made_by]="";[fitted]>[date])', "it was looked at before it went up", "fitted", "look at both dates"),
        Rule("long", WEIGH, 'IF([measured]="";FALSE();[measured]-[wanted]>[stay.closes])', "it came out {[measured]-[wanted]:0} mm too long, and the lashing can close {stay.closes:0} mm", "measured", "splice one end anew"),
        Rule("off", WEIGH, 'IF([measured]="";FALSE();ABS([measured]-[wanted])>boat_length_off*[wanted])', "measured {measured:0} mm, wanted {wanted:0} mm", "measured", "measure again, throat to throat under pretension"),
        Rule("retire", WEIGH, "[date]>=[retire]", '{[age]:1} years old, to be retired after {boat_retire_years}', "fitted", "replace this rope"),
        Rule("worn", WEIGH, 'AND([ligament_left]<>"";[ligament_left]<[ligament_least])', "{[ligament_left]:1} mm of rod left above the bolt, minimum {ligament_least:1} mm", "ligament_left", "make a new stub"),
        Rule("gap", WEIGH, 'AND([take_up_left]<>"";[take_up_left]<boat_left/2)', "{[take_up_left]:0} mm of the gap left to take up, {boat_left/2:0} mm and more is usual", "take_up_left", "splice one end anew before it is used up"),
        Rule("tension.low", WEIGH, 'AND([tension]<>"";[tension]<[least]-boat_tension_off*[pretension])', "tension is low: {tension:2} kN, should be {least:2} kN or more", "tension_own", "take up the lashing, and look for what gave"),
        Rule("expected", NOTE, 'AND([temperature]<>"";boat_tuned<>"";[expected]="")', "expected tension not worked out: see under The balance", "expected"),
        Rule("tension.high", WEIGH, 'AND([tension]<>"";[tension]>[most]+boat_tension_off*[pretension])', "tension is high: {tension:2} kN, should be {most:2} kN or less", "tension_own", "ease the lashing"),
    ),
    spare=12,
)

SHEET = Sheet(
    "Log",
    "One row for each stay that is made, typed from its job card from left to right; and one per inspection and after every knock, grounding or hard blow. Fill what has a *.",
    (LOG,),
    cautions=(PULLING, ALOFT),
)
