"""Log: one row per inspection."""

from templates.schedule import (
    Column,
    Sheet,
    Table,
    calculated,
    choice,
    find,
    name_and_check,
    number,
    places,
    plain,
    text,
    words,
)

LEAST_LEFT = "IFERROR(INDEX(tangs_ligament_least;MATCH([stay];tangs_stay;0));boat_ligament)"
LOOKED_AT_LATER = "SUMPRODUCT(IFERROR((log_stay=[stay])*(log_date>[date]);0))>0"

LOG = Table(
    "log",
    "Log",
    (
        *name_and_check("Entry", "a number or a word that is not there yet, such as A1", 30),
        Column("date", "Date", help="of the inspection", required=True, format="YYYY-MM-DD", width=19),
        choice("stay", "Stay", "stays_name", "the stay looked at", required=True),
        Column("fitted", "Fitted", help="date when this rope went up", required=True, format="YYYY-MM-DD", width=19),
        number("tension_own", "Tension, gauge", "kN", 0, 500, "if measured with a gauge", format="0.0"),
        number("note_hz", "Note when plucked", "Hz", 0.5, 200, "swings in a second of the free length", format="0.0", width=14),
        number("free_length", "Free length", "mm", 100, 40000, "that swung", format="0", width=14),
        calculated(
            "tension",
            "Tension",
            "kN",
            f'IF([tension_own]<>"";{plain("[tension_own]", "kN")};IF(OR([note_hz]="";[free_length]="");"";'
            f"RIG.TENSION.PLUCK([free_length];{find('rope', 'mass', find('stays', 'rope', '[stay]'))};[note_hz])))",
            "by gauge, or by the note of the plucked stay",
            format="0.00",
        ),
        calculated("pretension", "Should be", "kN", find("stays", "pretension", "[stay]"), "pretension on Stays", format="0.00", width=14),
        number("temperature", "Temperature", "°C", -40, 60, "in the shade, when the tension was measured: it goes with it", format="0", width=20),
        number("take_up_left", "Gap left", "mm", 0, 5000, "gap that the lashing can still close", format="0"),
        number("ligament_left", "Rod above bolt", "mm", 0, 200, "what is left after wear", format="0.0"),
        text("seen", "Seen", "chafe, glazing, loose strands, cracks, corrosion, movement", width=30),
        calculated("age", "Age", "years", "([date]-[fitted])/365.25", "of the rope at the inspection", format="0.0", width=11),
        calculated("next", "Next by", "", "EDATE([date];boat_inspect_months)", "date of the next inspection", format="YYYY-MM-DD", width=19),
        calculated("due", "Due", "", f'IF(AND([next]<TODAY();NOT({LOOKED_AT_LATER}));"overdue";"")', "if the day of the next inspection has gone by without one", width=15),
        calculated("retire", "Retire by", "", "EDATE([fitted];12*boat_retire_years)", "at the latest; earlier by what is seen", format="YYYY-MM-DD", width=19),
    ),
    rules=(
        words("[date]>=[retire]", '"time to retire this rope"'),
        words(f'AND([ligament_left]<>"";[ligament_left]<{LEAST_LEFT})', f'"rod above the bolt is worn below "&{places(LEAST_LEFT, 1)}&" mm"'),
        words('AND([take_up_left]<>"";[take_up_left]<boat_left/2)', '"little of the gap is left to take up"'),
        words('AND([tension]<>"";ABS([tension]-[pretension])>boat_tension_off*[pretension])', '"tension is off by more than "&TEXT(boat_tension_off;"0 %")'),
    ),
    spare=12,
)

SHEET = Sheet(
    "Log",
    "One row per inspection, and after every knock, grounding or hard blow: what was measured and seen. Fill what has a *.",
    (LOG,),
)
