"""Masts: one row per mast: where it stands, how it leans, and its section."""

from loftsheet.cautions import ALOFT

from templates.choices import NO_BALANCE
from templates.schedule import (
    DANGER,
    FIX,
    WAITS,
    WEIGH,
    Rule,
    Sheet,
    Table,
    block,
    calculated,
    name_and_check,
    number,
    text,
    to_fix_on_boat,
)

# The one mast of a boat that has no other; nothing on a boat of several.
ONLY = 'IF(COUNTA(masts_name)=1;TEXTJOIN("";TRUE();masts_name);"")'

MEASURED = block(
    "Measured",
    number("foot_fore", "Foot, fore", "mm", -40000, 40000, "the middle of the section there, from the datum of Points towards the bow; blank if it is the datum; aft is negative", default="0", format="0"),
    number("foot_up", "Foot, up", "mm", -40000, 40000, "above the datum of Points, if the foot is not the datum", default="0", format="0"),
    number("rake", "Rake", "°", -15, 15, "how far the mast leans from upright; aft is positive. From a plumb line that hangs 236 mm off in 9 m: =DEGREES(ATAN(236/9000))", required=True, format="0.0"),
    number("head", "Head", "mm", 500, 60000, "from the foot to the masthead, along the mast", required=True, format="0"),
    number("partners", "Partners", "mm", 50, 10000, "along the mast to the deck that holds it; blank for a mast stepped on deck", format="0"),
    number("width", "Width athwartships", "mm", 20, 1000, "outside to outside", required=True, format="0.0", width=26),
    number("section", "Section fore and aft", "mm", 20, 1000, "outside to outside", required=True, format="0.0"),
    number("wall", "Wall", "mm", 0.5, 30, "measure it, no table knows your mast; while it is blank the wall is not checked", format="0.0"),
    number("proof", "Proof stress", "MPa", 100, 600, "of the mast's alloy, from its maker; least by EN 755-2, from memory: 6060-T6 150, 6063-T6 170, 6061-T6 240, 6082-T6 250 MPa; while it is blank Stubs say what it must be", format="0"),
)
STIFFNESS = block(
    "Metal and stiffness",
    number("rate_own", "Grows by, override", "1e-6/K", 2, 30, "if not Boat's", format="0.0"),
    number("modulus_own", "Modulus, override", "GPa", 5, 220, "if not Boat's", format="0.0"),
    calculated("rate", "Grows by", "1e-6/K", 'IF([rate_own]="";boat_mast_rate;[rate_own])', "with warmth, used", format="0.0"),
    calculated("modulus", "Modulus", "GPa", 'IF([modulus_own]="";boat_mast_modulus;[modulus_own])', "used", format="0.0"),
    number("area_own", "Area, override", "mm²", 50, 50000, "of the metal, from the mast maker's list", format="0"),
    number("inertia_fore_own", "Moment of inertia, fore and aft, override", "cm⁴", 1, 100000, "from the mast maker's list", format="0", width=19),
    number("inertia_out_own", "Moment of inertia, athwartships, override", "cm⁴", 1, 100000, "from the mast maker's list", format="0", width=22),
    calculated("area", "Area", "mm²", 'IF([area_own]<>"";[area_own];IF([wall]="";"";RIG.TUBE.AREA([width];[section];[wall])))', "used: as typed, or of an elliptical tube; blank until the wall is measured", format="0"),
    calculated("inertia_fore", "Moment of inertia, fore and aft", "cm⁴", 'IF([inertia_fore_own]<>"";[inertia_fore_own];IF([wall]="";"";RIG.TUBE.INERTIA([section];[width];[wall])))', "used: as typed, or of an elliptical tube", format="0", width=19),
    calculated("inertia_out", "Moment of inertia, athwartships", "cm⁴", 'IF([inertia_out_own]<>"";[inertia_out_own];IF([wall]="";"";RIG.TUBE.INERTIA([width];[section];[wall])))', "used: as typed, or of an elliptical tube", format="0", width=22),
    number("rm30_own", "Righting moment, override", "kN·m", 0.1, 5000, "at 30°, as far as the sails of this mast take it; Boat's where there is only one mast, and with several each needs its own for the cases of Balance", format="0.0", width=19),
    text("note", "Note", "maker, section, where it was measured", width=30),
)

# All its stays are slack, and upright: a question of tuning. In a case of some heel it is a mast that falls.
SLACK_UPRIGHT = (
    'IF([inmasts.least]="";FALSE();IF(ROUND([inmasts.least];2)>0;FALSE();'
    'IFERROR(INDEX(cases_heel;MATCH([inmasts.least_in];cases_name;0))="";FALSE())))'
)

MASTS = Table(
    "masts",
    "Masts",
    (*name_and_check("Mast", "such as mast, or main and mizzen"), *MEASURED, *STIFFNESS),
    rules=(
        *(
            Rule(f"{key}.boat", WAITS, f'AND([{key}_own]="";{to_fix_on_boat(f"mast_{key}")})', f"Boat: {title}", f"boat_mast_{key}")
            for key, title in (("rate", "Mast grows by"), ("modulus", "Mast's modulus"))
        ),
        Rule("wall.thick", FIX, 'IF([wall]="";FALSE();2*[wall]>=MIN([width];[section]))', "got {[wall]:1}; must be less than {MIN([width];[section])/2:1} mm, half the mast", "wall"),
        Rule("partners.high", FIX, 'IF([partners]="";FALSE();[partners]>=[head])', "got {[partners]:0}; must be below the masthead, which is at {[head]:0} mm", "partners"),
        Rule("foot.twice", FIX, "SUMPRODUCT((masts_foot_fore_used=[foot_fore])*(1-ISBLANK(masts_name)))>1", "another mast stands at {[foot_fore]:0} mm too", "foot_fore"),
        Rule("rake.forward", WEIGH, "[rake]<0", "the mast leans {-[rake]:1}° forward", "rake", "aft is positive"),
        Rule("swapped", WEIGH, "[section]<[width]", "the mast is {[width]:0} mm wide and only {[section]:0} mm fore and aft", "section", "are width and section swapped?"),
        Rule("section.large", WEIGH, "[section]>boat_section_most*[width]", "{[section]:0} mm fore and aft is much for a mast of {[width]:0} mm", "section", "probably a typing error"),
        Rule("wall.large", WEIGH, 'IF([wall]="";FALSE();AND([wall]>boat_wall_most*MIN([width];[section]);2*[wall]<MIN([width];[section])))', "a wall of {[wall]:1} mm is much, up to {boat_wall_most*MIN([width];[section]):1} mm is usual", "wall", "measure it through a hole"),
        Rule("proof.large", WEIGH, 'IF([proof]="";FALSE();[proof]>boat_proof_most)', "{[proof]:0} MPa is high, alloys of masts have up to {boat_proof_most:0} MPa", "proof", "is it the tensile strength?"),
        Rule("metal", WEIGH, '([rate_own]="")<>([modulus_own]="")', "modulus of {modulus:0} GPa with growth of {rate:1}: another metal has another of both", "modulus_own", "type both, or neither"),
        Rule("balance.refused", WEIGH, f'LEFT(verdict_words;LEN("{NO_BALANCE}"))="{NO_BALANCE}"', "{verdict_words}", "name", "see Balance"),
        Rule("slack", WEIGH, SLACK_UPRIGHT, "nothing holds the mast in {inmasts.least_in}: its stays go slack", "name", "set them up to more on Stays, which says how much"),
        Rule("buckles", DANGER, f'IF([inmasts.least]="";FALSE();AND([inmasts.least]<=1;NOT({SLACK_UPRIGHT})))', "the mast buckles in {inmasts.least_in}: it can bear only {inmasts.least:%} of that load", "wall", "support it more, set the stays up less, or type its maker's moments of inertia under Overrides"),
        Rule("buckling", WEIGH, 'IF([inmasts.least]="";FALSE();AND([inmasts.least]>1;[inmasts.least]<boat_buckling))', "factor against buckling {inmasts.least:2} in {inmasts.least_in}, Boat asks for {boat_buckling:2}", "wall", "set its stays up with less, support it more, or ask its maker"),
        Rule("inertia.swapped", WEIGH, 'IF([inertia_fore]="";FALSE();([inertia_fore]-[inertia_out])*([section]-[width])<0)', "moments of inertia of {inertia_fore:0} fore and aft and {inertia_out:0} cm⁴ athwartships do not go with {[section]:0} mm fore and aft and {[width]:0} mm athwartships", "inertia_fore_own", "are the two swapped?"),
    ),
    in_parts=True,
    spare=2,
    balanced=("foot_fore_used", "foot_up_used", "rake", "head", "modulus", "rate", "width", "section", "wall", "partners", "area", "inertia_fore", "inertia_out", "rm30_own"),
    ready=3,
    lines=2,
    typed=tuple(column.key for column in MEASURED),
)

SHEET = Sheet(
    "Masts",
    "One row per mast. Columns with * must be filled; width and section are those where most stubs sit.",
    (MASTS,),
    cautions=(ALOFT,),
)
