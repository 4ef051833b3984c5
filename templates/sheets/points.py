"""Points: one row per surveyed point."""

from loftsheet.cautions import ALOFT

from templates.schedule import (
    FIX,
    WEIGH,
    Rule,
    Sheet,
    Table,
    calculated,
    choice,
    name_and_check,
    number,
    text,
    waits_for,
)
from templates.sheets import masts

POINTS = Table(
    "points",
    "Points",
    (
        *name_and_check("Point", "mast point, spreader tip or chainplate"),
        choice("mast", "Mast", "masts_name", "the mast that it is on; may stay blank on a boat with one", width=24),
        number("along", "Along the mast", "mm", 0, 40000, "from the mast's foot, for points on the mast and for spreader tips; leave Fore and Up blank then", format="General"),
        number("aft", "Aft of the mast", "mm", -5000, 5000, "of a point along the mast, square to it, from the middle of its section: of a fitting on its aft face half the section, on its fore face that with a minus, of a spreader tip that is swept its sweep; blank is abeam", format="General"),
        number("fore_own", "Fore, typed", "mm", -40000, 40000, "from the datum towards the bow; aft is negative", format="General"),
        number("out", "Out", "mm", -40000, 40000, "from the centreline on the stay's own side; where a stub sits half the mast's width, on the centreline 0", required=True, format="General"),
        number("up_own", "Up, typed", "mm", -40000, 40000, "above the datum", format="General"),
        calculated("on_mast", "Mast, used", "", f'IF([mast]<>"";[mast];IF([along]="";"";{masts.ONLY}))', "as picked, or the only one", choices="masts_name", width=24),
        calculated(
            "fore",
            "Fore, used",
            "mm",
            'IF([along]="";[fore_own];RIG.MAST.FORE([along];[on_mast.rake];[on_mast.foot_fore];IF([aft]="";0;[aft])))',
            "as typed, or along the raked mast",
            format="0.0",
        ),
        calculated("outward", "Out, used", "mm", "[out]", "as typed", format="0.0"),
        calculated(
            "up",
            "Up, used",
            "mm",
            'IF([along]="";[up_own];RIG.MAST.UP([along];[on_mast.rake];[on_mast.foot_up];IF([aft]="";0;[aft])))',
            "as typed, or along the raked mast",
            format="0.0",
        ),
        text("note", "Note", "where the point was measured", width=60),
    ),
    rules=(
        Rule("place.none", FIX, 'AND([along]="";[fore_own]="";[up_own]="")', "type it, or Fore and Up of a point off the mast", "along"),
        Rule("fore.none", FIX, 'AND([along]="";[fore_own]="";[up_own]<>"")', "type it, Up is there", "fore_own"),
        Rule("up.none", FIX, 'AND([along]="";[fore_own]<>"";[up_own]="")', "type it, Fore is there", "up_own"),
        Rule("place.both", FIX, 'AND([along]<>"";OR([fore_own]<>"";[up_own]<>""))', "got {along:0} mm, and Fore or Up as well: empty this one or those", "along"),
        Rule("along.aft", FIX, 'AND([along]="";[aft]<>"")', "type it, Aft of the mast is there", "along"),
        Rule("mast.missing", FIX, 'AND([along]<>"";[mast]="";COUNTA(masts_name)=0)', "there is none yet, give it a row on Masts", "mast"),
        Rule("mast.none", FIX, 'AND([along]<>"";[mast]="";COUNTA(masts_name)>1)', "pick the mast that the point is on", "mast"),
        Rule("along.small", FIX, 'IF([along]="";FALSE();AND([along]>0;[along]<boat_along_least))', "got {along:1}; must be {boat_along_least:0} mm or more", "along", "type the unit, too, if it is in metres: {along:1} m"),
        Rule("along.zero", FIX, 'IF([along]="";FALSE();[along]<=0)', "got {along:0}; must be {boat_along_least:0} mm or more", "along", "measure it from the foot of the mast"),
        Rule("along.high", FIX, 'IF([along]="";FALSE();[along]>[on_mast.head])', "got {along:0}; must be {on_mast.head:0} mm or less, where {on_mast} ends", "along"),
        waits_for("on_mast", "Masts"),
        *(Rule(f"{key}.metres", WEIGH, f'IF([{key}]="";FALSE();AND(ABS([{key}])<boat_metres_most;[{key}]<>INT([{key}])))', f"got {{{key}:2}} mm", key, f"if it is in metres, type {{{key}:2}} m") for key in ("fore_own", "out", "up_own")),
    ),
    spare=6,
    ready=24,
    balanced=("mast", "along", "aft", "on_mast", "fore", "outward", "up", "fore_own", "out", "up_own"),
    lines=2,
)

SHEET = Sheet(
    "Points",
    "The survey: one row per point, from one datum. Along the mast counts from its foot, in the middle of its section; fore towards the bow, out from the centreline. Fill what has a *.",
    (POINTS,),
    cautions=(ALOFT,),
)
