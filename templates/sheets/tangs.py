"""Stubs: one row per stub of rod on the mast bolt: what to saw, drill and assemble, and what it holds."""

from typing import Any

from loftsheet.cautions import ALOFT

from templates.choices import BOLT_MADE, FITS, FROM_SHEET, ON_STUB, TURNED, UNKNOWN
from templates.schedule import (
    DANGER,
    FIX,
    NOTE,
    WAITS,
    WAITS_FOR_BOAT,
    WEIGH,
    Column,
    Rule,
    Sheet,
    Table,
    block,
    calculated,
    choice,
    counted,
    name_and_check,
    number,
    stopped,
    text,
    waits_for,
)
from templates.sheets import kinds, remedies
from templates.sheets.library import unproven
from templates.sheets.stays import STAYS_WIRE

DO_THIS = "{would_do} would do, on Boat for all stubs or as an override"

# Stubs on the same bolt, or on the same mast too near to it for another: their heights, whole millimetres, for they go through a text.
AT_HEIGHT = 'tangs_mast;"="&[mast];tangs_up;">="&INT([up]-[rod_size]/2);tangs_up;"<="&-INT(-[up]-[rod_size]/2)'

# Of those the ones that are about as far forward, too: on its bolt, or their rods would stand in each other.
AT_BOLT = f'{AT_HEIGHT};tangs_fore;">="&INT([fore]-[rod_size]/2);tangs_fore;"<="&-INT(-[fore]-[rod_size]/2)'

# A stub with another on the other side of the mast, and how many at its height are assembled as it is.
A_PAIR = 'IF([beside]="";FALSE();AND([beside]>1;[number]*[beside]<=2))'
ALIKE = f'IF({A_PAIR};COUNTIFS({AT_HEIGHT};tangs_bolt;"="&[bolt];tangs_sides_used;[sides];tangs_mast_width;[mast_width]);"")'

# Another stub below whose plate stands above the height down to which nothing may stand; the same
# height is the other side of the mast.
CROWDED = 'IF([clear_up]="";0;COUNTIFS(tangs_mast;"="&[mast];tangs_up;"<"&INT([up]-[rod_size]/2);tangs_plate_up;">"&INT([clear_up])))'

# Tips of spreaders of its mast that are higher than its bolt, and lower than what its eye takes to pass its plate.
PASSES_BELOW = "INT([plate_up]+[rope_most]+2*[sleeve_most]+boat_root_below)"
TIPS_NEAR = "+".join(f'COUNTIFS(stays_mast;"="&[mast];stays_{tip}_up;">"&INT([up]);stays_{tip}_up;"<"&{PASSES_BELOW})' for tip in ("via", "via_2"))

MASTHEAD = "RIG.MAST.UP([mast.head];[mast.rake];[mast.foot_up])"
OF_THE_STAY = block(
    "Of the stay",
    number("number", "Number", "", 1, 20, "equal stubs, port and starboard, if not as many as stays", default="[stay.number]", whole=True, format="0", width=15),
    choice("stay", "Stay", "stays_name", "the stay whose eye lies on this stub", required=True, width=24),
    calculated("mast", "Mast", "", "[stay.mast]", "of the stay", choices="masts_name", width=24),
    calculated("up", "Bolt, up", "mm", "[stay.upper_up]", "from Points; blank where the stay has none", format="0"),
    calculated("along", "Bolt, along the mast", "mm", 'IF([up]="";"";IF(ISBLANK([stay.upper.along]);"";[stay.upper.along]))', "from the mast's foot, where to drill; blank where Points has fore and up", format="0", width=20),
    calculated("fore", "Bolt, fore", "mm", "[stay.upper_fore]", "from Points; blank where the stay has none", format="0"),
    calculated("below_head", "Bolt below masthead", "mm", f'IF(OR([up]="";N([mast.head])=0);"";({MASTHEAD}-[up])/COS(RADIANS([mast.rake])))', "along the mast", format="0", width=17),
    calculated("angle", "Angle out", "°", "[stay.angle]", "of the stay, from the mast face", format="0.0"),
    calculated("turn", "Leads fore", "°", "[stay.angle_fore]", "the stub is turned as much round its bolt; aft is negative", format="0.0"),
    calculated("rope", "Rope", "", "[stay.rope]", "of the stay", choices="rope_name", width=32),
    calculated("rope_size", "Rope", "mm", "[stay.rope_size]", "diameter", format="0.0"),
    calculated("sleeve_wall", "Sleeve", "mm", "[stay.sleeve_wall]", "one wall", format="0.0"),
    calculated("eye", "Eye", "mm", "[stay.upper_eye]", "of the stay's upper end, laid flat", format="0"),
    calculated("load", "Load", "kN", "[stay.load]", "working load of the stay", format="0.0"),
    calculated("wire_break", "Wire's break", "kN", "[stay.wire_break]", "of the wire that hung here, to compare", format="0.0"),
)


def of_outer(key: str, title: str, unit: str, of: str, help: str, **more: Any) -> Column:
    """A calculated column of the outer stay; blank on a stub that has only one."""
    return calculated(f"{key}_2", title, unit, f'IF([stay_2]="";"";[stay_2.{of}])', help, **more)


OF_THE_OUTER = block(
    "Of the outer stay",
    choice("stay_2", "Outer stay", "stays_name", "a second stay whose eye lies on this stub: its eye next to the end plate, that of the first next to the mast; blank for one", width=24),
    of_outer("angle", "Angle out", "°", "angle", "from the mast face", format="0.0"),
    of_outer("turn", "Leads fore", "°", "angle_fore", "aft is negative", format="0.0"),
    of_outer("rope_size", "Rope", "mm", "rope_size", "diameter", format="0.0"),
    of_outer("sleeve_wall", "Sleeve", "mm", "sleeve_wall", "one wall", format="0.0"),
    of_outer("eye", "Eye", "mm", "upper_eye", "of the stay's upper end, laid flat", format="0"),
    of_outer("load", "Load", "kN", "load", "working load of the stay", format="0.0"),
    of_outer("wire_break", "Wire's break", "kN", "wire_break", "of the wire that hung here, to compare", format="0.0"),
    calculated("fit_2", "Eye", "", 'IF([stay_2]="";"";RIG.LOOP.FIT([eye_2];[rod_size];[rope_size_2];[sleeve_wall_2];[girth];boat_throat))', "does it close over the rod and pass over the end plate", width=38),
    calculated("both", "Both on one stub", "", 'IF([stay_2]="";"";RIG.DOUBLE.FIT([angle];[turn];[angle_2];[turn_2];[bevel];boat_sleeve_friction))', "neither is led off the end or climbs, whichever of them the stub has turned to", width=38),
)

# Pull, out and fore of both stays, as most functions of two eyes take them.
BOTH = "[load];[angle];[turn];[load_2];[angle_2];[turn_2]"
HELD_AT_MIDDLE = "-[root]-[grip]/2"  # a moment about the middle of the stub, not about where the bolt is held
IN_MIDDLE = "[play]/2*{}(RADIANS([bevel]))"  # eyes in the middle of their play, not as far out as they may lie


def both_bend(overhang: str = "", upright: str = "") -> str:
    """Formula: moment of both stays in the bolt, what they stand out and lie below it changed by so much."""
    inner, outer = (f"[overhang_{eye}]{overhang};[upright_{eye}]{upright}" for eye in ("in", "out"))
    return f"RIG.DOUBLE.MOMENT([load];[angle];[turn];{inner};[load_2];[angle_2];[turn_2];{outer};[turned])"


def if_two(formula: str, single: str = '""') -> str:
    """Formula: of two eyes, or what it is for a single one."""
    return f'IF([stay_2]="";{single};{formula})'


def of_seat(function: str, seat: str) -> str:
    """Formula: of an eye as far out as it may lie."""
    more = ";[root]" if function == "OVERHANG" else ";[hole]"
    return if_two(f"RIG.TANG.{function}([rod_size];[bevel];[top]{more};[seat_{seat}])")


def shortest_top(clearance: str) -> str:
    """Formula: the short side on which the eyes lie with that much play."""
    two = f"RIG.DOUBLE.TOP([rope_size];[rope_size_2];[bevel];[sleeve_wall];[sleeve_wall_2];{clearance})"
    return if_two(two, f"RIG.TANG.TOP([rope_size];[bevel];[sleeve_wall];{clearance})")


TWIST_AT = "ABS(RIG.DOUBLE.TWIST([load];[angle];[turn];[upright_in];[load_2];[angle_2];[turn_2];[upright_out];{}))"
TWO_EYES = block(
    "Two eyes",
    calculated("rope_most", "Thicker rope", "mm", if_two("MAX([rope_size];[rope_size_2])", "[rope_size]"), "of the eyes on the stub", format="0.0"),
    calculated("sleeve_most", "Thicker sleeve", "mm", if_two("MAX([sleeve_wall];[sleeve_wall_2])", "[sleeve_wall]"), "of the eyes on the stub", format="0.0"),
    calculated("seat_out", "Outer eye at", "mm", if_two("[top]-[rope_size_2]/2-[sleeve_wall_2]"), "its middle from the bevelled face, on top, touching the end plate", format="0.0"),
    calculated("seat_in", "Inner eye at", "mm", if_two("[seat_out]-RIG.DOUBLE.APART([rope_size];[rope_size_2];[sleeve_wall];[sleeve_wall_2])"), "its middle, touching the outer eye", format="0.0"),
    calculated("overhang_in", "Inner pull stands out", "mm", of_seat("OVERHANG", "in"), "along the bolt, from where it is held", format="0.0"),
    calculated("overhang_out", "Outer pull stands out", "mm", of_seat("OVERHANG", "out"), "along the bolt, from where it is held", format="0.0"),
    calculated("upright_in", "Inner pull below bolt", "mm", of_seat("UPRIGHT", "in"), "positive stays the right way up", format="0.0"),
    calculated("upright_out", "Outer pull below bolt", "mm", of_seat("UPRIGHT", "out"), "positive stays the right way up", format="0.0"),
    calculated("play", "Play", "mm", if_two(f"[top]-{shortest_top('0')}"), "beside both eyes together", format="0.0"),
    calculated("turned", "Stub turned", "°", if_two(f"IF([upright_out]>0;RIG.DOUBLE.TURN({BOTH};[upright_in];[upright_out]);RIG.DOUBLE.TURN({BOTH}))", "[turn]"), "round its bolt, its underside forward: as its stay leads, or where two leave it at rest under their loads", format="0.0"),
    calculated("twist", "Turned by the two", "N·m", if_two(f"MAX({TWIST_AT.format('[turn]')};{TWIST_AT.format('[turn_2]')})"), "round its bolt, when it has turned to one of its stays: back to where both leave it at rest", format="0.0"),
    calculated("twist_friction", "Friction to stay there", "", if_two("[twist]*2/([bolt_size]*[across])"), "in its hole; with more it stays turned, which Both on one stub allows for, and the moment in the bolt is up to 1 % more", format="0.00", width=19),
    calculated("swing", "Eyes led round", "°", if_two("MAX(ABS(RIG.TANG.SWING([angle];[turn];[bevel];[turn_2]));ABS(RIG.TANG.SWING([angle_2];[turn_2];[bevel];[turn])))"), "round the rod, when the stub has turned to the other stay", format="0.0"),
    calculated("cover", "Plate over the eyes", "mm", if_two("RIG.TANG.COVER([rod_size];[rise];[swing])"), "how far it stands above the rod where an eye then lies", format="0.0"),
    calculated("across", "Pull across the bolt", "kN", if_two(f"RIG.DOUBLE.SHEAR({BOTH})"), "of both stays, as forces in space", format="0.00"),
    calculated("along_bolt", "Pull along the bolt", "kN", if_two(f"RIG.DOUBLE.PULL({BOTH})"), "of both stays", format="0.00"),
    calculated("moment_middle", "Moment, middle of stub", "N·m", if_two(both_bend(HELD_AT_MIDDLE)), "of both stays, about the middle of the bolt in the stub", format="0", width=19),
)

SAW = block(
    "Saw and fit",
    choice("rod_own", "Rod, override", "rod_name", "if not the boat's", width=28),
    calculated("rod", "Rod", "", 'IF([rod_own]="";boat_rod;[rod_own])', "rod used", choices="rod_name", width=22),
    calculated("rod_size", "Rod", "mm", "[rod.size]", "diameter", format="0.0"),
    calculated("rod_needed", "Minimum rod", "mm", "RIG.NEED.ROD([rope_most];[bolt_hole];[bevel];boat_rod_least;[ligament_least])", "for the rope's bend and the rod above the bolt", format="0.0"),
    calculated("bevel", "Bevel", "°", if_two("RIG.DOUBLE.BEVEL([angle];[turn];[angle_2];[turn_2];boat_extra)", "RIG.TANG.BEVEL([angle];boat_extra)"), "from square", format="0.0", width=13),
    number("top_own", "Short side, override", "mm", 3, 300, "short side, if not the shortest", format="0.0"),
    calculated("top", "Short side", "mm", f'IF([top_own]="";CEILING({shortest_top("boat_clearance")};boat_saw_step);[top_own])', "on top", format="0.0", width=13),
    calculated("base", "Long side", "mm", "RIG.TANG.BASE([rod_size];[bevel];[top])", "below; the short side is on top", format="0.0", width=13),
    calculated("face", "Bevelled face", "mm", "RIG.TANG.FACE([rod_size];[bevel])", "height of the bevelled end", format="0.0"),
    number("girth_own", "End plate, around, override", "mm", 10, 1500, "tape round the plate, if it is not cut as the mark-out sheet shows", format="0"),
    calculated("girth", "End plate, around", "mm", 'IF([girth_own]="";PI()*[rod_size]+2*[rise];[girth_own])', "round the rod's circle drawn out upwards", format="0"),
    calculated("fit", "Eye", "", "RIG.LOOP.FIT([eye];[rod_size];[rope_size];[sleeve_wall];[girth];boat_throat)", "does it close over the rod and pass over the end plate", width=38),
)

DRILL = block(
    "Drill",
    number("room", "Room above", "mm", 5, 1000, "from the bolt's centre up to what is above: a spreader, another stub; blank if nothing is", format="0.0", width=14),
    calculated("rise", "Plate stands up", "mm", "RIG.TANG.RISE([rope_most];[sleeve_most];boat_plate_extra)", "above the rod", format="0.0"),
    calculated("aside", "Eye aside", "mm", if_two("([top]-[rope_size_2]-2*[sleeve_wall_2])/2", "([top]-[rope_size]-2*[sleeve_wall])/2"), "from the middle of the top to where it touches the end plate; of two the outer", format="0.0"),
    calculated(
        "hole_worst",
        "Hole, lowest",
        "mm",
        "[rod_size]/2*COS(RADIANS([bevel]))-([top]/2+[aside])*SIN(RADIANS([bevel]))",
        "at which the stub is just upright with the eye at the end plate",
        format="0.00",
    ),
    number("hole_own", "Hole, override", "mm", 1, 300, "if not the calculated one", format="0.0"),
    calculated(
        "hole",
        "Hole down",
        "mm",
        'IF([hole_own]="";FLOOR(MIN([hole_worst]-boat_drill_off;IF([room]="";RIG.TANG.HOLE([rod_size];[bevel];[top]);'
        "RIG.TANG.HOLE([rod_size];[bevel];[top];[room];[rope_most];[sleeve_most];boat_plate;[rise])-boat_drill_off));boat_drill_step);[hole_own])",
        "from the top edge of the bevelled face to the hole's centre, square to the face",
        format="0.0",
        width=13,
    ),
    calculated("exit", "Hole comes out", "mm", "RIG.TANG.EXIT([rod_size];[bevel];[top];[hole])", "below the top of the square end; the plate is drilled there", format="0.0", width=13),
    calculated("bolt_hole", "Drill", "mm", "[bolt_size]+boat_hole_play", "diameter of the hole", format="0.0", width=13),
    calculated("ligament_least", "Minimum above bolt", "mm", "MAX(boat_ligament;boat_ligament_hole*[bolt_hole])", "of rod; a stub worn to less is retired", format="0.0"),
    calculated("hole_high", "Hole, highest", "mm", "[ligament_least]+[bolt_hole]/2", "at which the least of the rod is left above the bolt", format="0.00"),
    calculated("ligament", "Rod above bolt", "mm", "RIG.TANG.LIGAMENT([hole];[bolt_hole])", "at the mast; it wears", format="0.0"),
    calculated("ligament_end", "Rod below bolt", "mm", "RIG.TANG.LIGAMENT.END([rod_size];[bevel];[top];[hole];[bolt_hole])", "at the outer end", format="0.0"),
    calculated("upright", "Load below bolt", "mm", if_two("[upright_out]", "RIG.TANG.UPRIGHT([rod_size];[bevel];[top];[hole])"), "eye in the middle of the top, of two the outer at the end plate; positive stays the right way up", format="0.0"),
    calculated("upright_worst", "Load below bolt, worst", "mm", "[hole_worst]-[hole]", "eye at the end plate; the check uses this one", format="0.0", width=21),
    calculated(
        "room_left",
        "Left under stop",
        "mm",
        'IF([room]="";"";RIG.TANG.GAP([room];[bevel];[top];[hole];[rope_most];[sleeve_most];boat_plate;[rise]))',
        "with the end plate on",
        format="0.0",
    ),
)

ASSEMBLE = block(
    "Assemble",
    choice("bolt_own", "Bolt, override", "bolt_name", "if not the boat's", width=26),
    calculated("bolt", "Bolt", "", 'IF([bolt_own]="";boat_bolt;[bolt_own])', "bolt used", choices="bolt_name", width=18),
    calculated("bolt_size", "Bolt", "mm", "[bolt.size]", "diameter", format="0.0"),
    choice("bolt_made", "Bolt made", BOLT_MADE, "stamped with its class, or turned from bar; blank: not made yet, to be as in Library", width=24),
    number("bar_proof", "Bar's proof stress", "MPa", 150, 1300, "from the certificate of the bar, if the bolt was turned from it; blank is taken as annealed", format="0"),
    calculated("bolt_proof", "Bolt's proof stress", "MPa", f'IF([bolt_made]="{TURNED}";IF([bar_proof]="";boat_bar_proof;[bar_proof]);[bolt.yield_stress])', "used", format="0"),
    calculated("bolt_strength", "Bolt's strength", "MPa", f'IF([bolt_made]="{TURNED}";MAX(boat_bar_strength;[bolt_proof]);[bolt.strength])', "used", format="0"),
    number("sides", "Stubs on one bolt", "", 1, 2, "2 for a bolt through the mast with a stub on each side, as is usual", default="2", whole=True, format="0", width=15),
    calculated("grip", "Bolt in stub", "mm", "RIG.TANG.GRIP([rod_size];[bevel];[top];[hole])", "grip", format="0.0"),
    calculated("washer", "Washer", "mm", "[bolt.washer]", "outside diameter", format="0.0"),
    calculated("wedge", "Tapered washer", "mm", "RIG.TANG.WEDGE([washer];[bevel];boat_thin)", "thick edge; the thin edge is Boat's", format="0.0"),
    calculated("outside", "Outside the stub", "mm", "boat_plate/COS(RADIANS([bevel]))+(boat_thin+[wedge])/2+boat_flat", "plate, tapered washer, flat washer", format="0.0"),
)

THROUGH = block(
    "Through the mast",
    number("mast_width_own", "Mast's width, override", "mm", 20, 1000, "outside to outside at the bolt, where it is not as on Masts, as where it tapers", format="0.0"),
    number("mast_fore_own", "Mast's section, override", "mm", 20, 1000, "fore and aft, if not as on Masts", format="0.0"),
    number("wall_own", "Mast's wall, override", "mm", 0.5, 30, "if not as on Masts", format="0.0"),
    calculated("mast_width", "Mast's width", "mm", 'IF([mast_width_own]="";[mast.width];[mast_width_own])', "used", format="0.0"),
    calculated("saddle", "Hollow behind", "mm", "RIG.TANG.SADDLE([rod_size];IF([mast_fore_own]=\"\";[mast.section];[mast_fore_own])/2;[mast_width]/2)", "to fill where the mast curves away", format="0.0"),
    calculated("wall", "Mast's wall", "mm", 'IF([wall_own]="";IF([mast.wall]="";"";[mast.wall]);[wall_own])', "used; blank until it is measured", format="0.0"),
    calculated("proof", "Mast's proof stress", "MPa", 'IF([mast.proof]="";"";[mast.proof])', "of its mast; blank where Masts has none", format="0"),
    calculated("tube", "Tube", "mm", 'IF([wall]="";"";[mast_width]-2*[wall])', "length of the compression tube between the walls", format="0.0", width=13),
    calculated("bolt_length", "Bolt length", "mm", "CEILING(RIG.BOLT.LENGTH([mast_width];boat_pad;[grip];[outside];RIG.BOLT.ENDS([bolt_size];[bolt.pitch];boat_nuts)+(2-[sides])*boat_flat;[sides]);boat_saw_step)", "under the head or with a nut at each end", format="0.0", width=14),
    calculated("shank", "Plain shank", "mm", "CEILING(IF([sides]=1;[mast_width]+boat_pad+[grip];RIG.BOLT.SHANK([mast_width];boat_pad;[grip]));boat_saw_step)", "in the middle of a bolt with two stubs; thread in the grip would cut the rope if the rod were lost", format="0.0"),
    number("shank_made", "Plain shank, as made", "mm", 0, 1500, "from thread to thread, measured on the bolt; of a bolt with one stub from the bare side of the mast on; blank: as beside", format="0.0"),
    calculated("plain", "Plain beyond the wall", "mm", 'IF([shank_made]="";"";MAX(0;([shank_made]-[mast_width])/[sides]+IF([wall]="";0;[wall]/2)))', "from where the bolt is held to where its thread begins; 0: thread stands there", format="0.0"),
    calculated("stock", "Bolt from stock", "", 'IF(RIG.BOLT.PLAIN([bolt_length];[bolt_size])<[shank]+[outside];"no, have it made";"yes, with more thread cut on")', "whether a hexagon bolt of that length is stocked with so much plain shank", width=24),
    counted(),
    calculated("bolts", "Bolts", "", "[count]/[sides]", "bolts for all of this row; half a bolt each for two rows that share one", format="0.0"),
)

def bends(share: str) -> str:
    """Formula: the moment at which the bolt bends, with thread where it was made; without a word of that, none."""
    as_made = f"RIG.BOLT.BENDING([bolt_size];[bolt.pitch];[bolt_proof];[arm_worst]/COS(RADIANS([bolt_angle]));[plain];[root];[grip];{share})"
    return f'IF([plain]="";RIG.PIN.BENDING([bolt_size];[bolt_proof];{share});{as_made})'


# How low the hole may be under what is above the stub; where nothing is, more than any rod would let it.
LOWEST = 'IF([room]="";MAX([rod_size];rod_size);RIG.TANG.GAP([room];[bevel];[top];1;[rope_most];[sleeve_most];boat_plate;[rise])+1)'
NEED = (
    "RIG.NEED.STUB(bolt_size;bolt_pitch;bolt_strength;bolt_yield_stress;rod_size;[rope_size];[angle];[bevel];[top];[load];boat_margin_metal;"
    f"[sleeve_wall];[root];boat_hole_play;boat_ligament;boat_ligament_hole;boat_rod_least;boat_drill_off;boat_drill_step;{LOWEST};"
    "boat_gamma;boat_bolt_bending;boat_bolt_straight;boat_bolt_shear"
)
# What the wall bears grows with the bolt; where no bolt of the Library is thick enough, a doubler is the answer.
FOR_WALL = 'IF(ISNUMBER([wall_spare]);IF([wall_spare]<0;IFERROR(IF([bolt_size]/(1+[wall_spare])<=MAX(bolt_size);[bolt_size]/(1+[wall_spare]);0);0);0);0)'
NEEDED = if_two(
    f"{NEED};[rope_size_2];[load_2];[angle_2];[turn];[turn_2];[sleeve_wall_2];1;[for_wall])", f"{NEED};;;;;;;1;[for_wall])"
)
SERVES = (
    "IF(ISNUMBER([bolt_spare]);AND([bolt_spare]>=0;[moment]<=[straight];[upright_worst]>=boat_drill_off;[ligament]>=[ligament_least];"
    "[hole]>=[hole_high]+boat_drill_off;[rod_size]>=[rod_needed];[for_wall]=0);FALSE())"
)
PAIR = (
    f'IF(INDEX({NEEDED};1;1)=0;"none in Library; "&INDEX({NEEDED};1;2);'
    f'INDEX(bolt_name;INDEX({NEEDED};1;1))&" on "&INDEX(rod_name;INDEX({NEEDED};1;2)))'
)
WOULD_DO = f'IF({SERVES};"";IF(ISERROR([load]+[top]+[rise]);"";{PAIR}))'

HOLDS = block(
    "Holds",
    calculated("thrust", "Along the rod", "kN", if_two("MIN([load]*SIN(RADIANS(RIG.TANG.LEAN([angle];[turn];[bevel];[turned])));[load_2]*SIN(RADIANS(RIG.TANG.LEAN([angle_2];[turn_2];[bevel];[turned]))))", "RIG.TANG.THRUST([load];[angle];[bevel])"), "positive is towards the mast; of two eyes the smaller", format="0.00"),
    calculated("root", "Bolt held at", "mm", 'boat_pad+IF([wall]="";0;[wall]/2)', "behind the stub: pad and half the mast's wall", format="0.0"),
    calculated("arm", "Lever", "mm", if_two("[arm_worst]", "RIG.TANG.ARM([rod_size];[bevel];[top];[hole];[angle];[root])"), "of the pull on the bolt, eye in the middle of the top", format="0.0"),
    calculated("off", "Pull off the middle", "mm", if_two(both_bend(f"{HELD_AT_MIDDLE}-{IN_MIDDLE.format('COS')}", f"+{IN_MIDDLE.format('SIN')}") + "/[across]", "ABS([arm]/COS(RADIANS([angle]))-[root]-[grip]/2)"), "of the bolt in the stub, the eyes in the middle of their play", format="0.0"),
    calculated("on_bolt", "On the bolt", "kN", if_two("SQRT([across]^2+[along_bolt]^2)", "[load]"), "the load of its stay, or of two the sum as forces in space", format="0.0"),
    calculated("bolt_angle", "… at an angle of", "°", if_two("DEGREES(ATAN2([across];[along_bolt]))", "[angle]"), "from the mast face", format="0.0"),
    calculated("arm_worst", "Lever, worst", "mm", if_two(both_bend() + "/[on_bolt]", "RIG.TANG.ARM([rod_size];[bevel];[top];[hole];[angle];[root];[top]/2+[aside])"), "eye at the end plate, of two both as far out as they may lie; the bolt is checked with this one", format="0.0"),
    calculated("moment", "Moment", "N·m", "RIG.TANG.MOMENT([on_bolt];[arm_worst])", "in the bolt at the mast", format="0"),
    calculated("straight", "Stays straight to", "N·m", bends("1;boat_bolt_straight"), "moment up to which the bolt is straight again afterwards", format="0"),
    calculated("bolt_moment", "Bolt bends at", "N·m", bends("boat_gamma;boat_bolt_bending"), "design moment of the plain shank, or of shank and thread as they were made", format="0"),
    calculated("bolt_shear", "Bolt in shear", "kN", "RIG.BOLT.SHEAR(RIG.BOLT.AREA([bolt_size];[bolt.pitch]);[bolt_strength];1;boat_bolt_shear;boat_gamma)", "design capacity, one plane, thread counted", format="0.0"),
    calculated("bolt_tension", "Bolt in tension", "kN", "RIG.BOLT.TENSION(RIG.BOLT.AREA([bolt_size];[bolt.pitch]);[bolt_strength];boat_gamma)", "design capacity", format="0.0"),
    calculated("bolt_capacity", "Bolt holds", "kN", "RIG.BOLT.CAPACITY([arm_worst];[bolt_angle];[bolt_moment];[bolt_shear];[bolt_tension])", "tension of the stay, or of two the sum, at which the bolt is used up; compare the wire's break", format="0.0"),
    calculated("bolt_spare", "Bolt", "spare", "[bolt_capacity]/[on_bolt]/boat_margin_metal-1", "over the safety factor for metal", format="0 %", width=13),
    calculated("would_do", "Would do", "", WOULD_DO, "smallest bolt and rod of the Library that do together, or what it would have to be; blank while those above do", width=34),
)

WALL_AND_ROD = block(
    "Wall and rod",
    calculated("wall_load", "On the wall", "kN", "RIG.MAST.BEARING([on_bolt];[bolt_angle];[arm_worst];[mast_width]-2*([root]-boat_pad))", "bolt on the near wall of the mast: more than the stay pulls, for the stub stands out", format="0.0"),
    calculated("wall_capacity", "Wall holds", "kN", 'IF(OR([wall]="";[proof]="");"";RIG.PIN.BEARING([bolt_size];[wall];[proof];boat_wall_gamma))', "blank until wall and proof stress are known", format="0.0"),
    calculated("wall_spare", "Wall", "spare", 'IF([wall_capacity]="";"";[wall_capacity]/[wall_load]/boat_margin_metal-1)', "over the safety factor for metal", format="0 %", width=13),
    calculated("for_wall", "Bolt for the wall", "mm", FOR_WALL, "the thinnest that the wall can bear, where it is short and the Library has one; else 0", format="0.0", hidden=True),
    calculated("pressure", "Rope on rod", "MPa", if_two("MAX(RIG.ROPE.PRESSURE([load];[rope_size];[rod_size]);RIG.ROPE.PRESSURE([load_2];[rope_size_2];[rod_size]))", "RIG.ROPE.PRESSURE([load];[rope_size];[rod_size])"), "mean pressure, of two eyes the higher", format="0.0"),
    calculated("bearing", "Bolt on rod", "MPa", "RIG.ROD.BEARING([on_bolt];[bolt_angle];[bolt_size];[grip];" + if_two("[moment_middle]/[on_bolt]+([root]+[grip]/2)*COS(RADIANS([bolt_angle]))", "[arm_worst]") + ";[root])", "largest pressure, eye at the end plate", format="0.0"),
    calculated("rod_shear", "Rod in shear", "MPa", "RIG.ROD.SHEAR([on_bolt];[bolt_angle];[ligament];[grip])", "on either side of the bolt, which would tear out upwards", format="0.0"),
    calculated("rod_margin", "Rod", "safety factor", 'IF([rod.crushing]="";"";IF([rod.shear]="";RIG.ROD.MARGIN(MAX([bearing];[pressure]);[rod.crushing]);RIG.ROD.MARGIN(MAX([bearing];[pressure]);[rod.crushing];[rod_shear];[rod.shear])))', "of its crushing and shear strength; blank until Library has them", format="0.00"),
    calculated("rod_spare", "Rod", "spare", 'IF([rod_margin]="";"";[rod_margin]/boat_margin-1)', "over the safety factor for rope: glass-epoxy breaks without warning", format="0 %"),
    calculated("rests", "No certificate", "", f'TEXTJOIN(", ";TRUE();{unproven("bolt", "bolt")};IF([rod_margin]="";"";{unproven("rod", "rod")}))', "what this stub rests on that has no certificate; Status in Library says what its figures come from", width=28),
    calculated("mass", "Mass", "kg", "RIG.TANG.MASS([rod_size];[bevel];[top];[rod.density])", "of one stub", format="0.000"),
)

HARDLY_LEAVES = "INT(MIN([angle];[angle_2]))=0"
# How far down the rope has come out as far as a bolt like this one stands.
ROPE_PASSES = "RIG.TANG.CLEAR([stands_out]+[rope_size]/2+[sleeve_wall]-[top]/2;[angle])"
# Of two ropes the one that leaves the mast at the smaller angle, taken from the inner eye.
BOTH_PASS = "RIG.TANG.CLEAR([stands_out]+[rope_most]/2+[sleeve_most]-[seat_in];MIN([angle];[angle_2]))"
LIES_BELOW = f"MAX([stay.upper_reach];{if_two(f'MAX([stay_2.upper_reach];{BOTH_PASS})', ROPE_PASSES)})"


def times(pick: str) -> str:
    """Formula: on how many stubs a stay lies; on nearly all sheets no stub has two, and that is asked quickly."""
    as_outer = f"IF(ISNA(MATCH([{pick}];tangs_stay_2;0));0;SUMPRODUCT((tangs_stay_2=[{pick}])*1))"
    counted = f"SUMPRODUCT((tangs_stay=[{pick}])*1)+{as_outer}"
    return f'IF([stay_2]="";0;{counted})' if pick == "stay_2" else counted


ROOM = block(
    "Room on the mast",
    calculated("beside", "Rows at its height", "", f'IF([up]="";"";COUNTIFS({AT_HEIGHT}))', "of this sheet, itself among them: the stubs on its bolt, or too near to it for another", format="0"),
    calculated("on_one_bolt", "Rows on its bolt", "", f'IF([up]="";"";COUNTIFS({AT_BOLT}))', "of the rows at its height those that are as far forward", format="0"),
    calculated("stands_out", "Bolt stands out", "mm", "boat_pad+[grip]+[outside]+RIG.BOLT.ENDS([bolt_size];[bolt.pitch];CEILING(boat_nuts/2;1))", "from the mast, with its nuts", format="0.0"),
    calculated("plate_up", "Plate's top, up", "mm", 'IF([up]="";"";[up]+[rod_size]/2+[rise])', "as Points counts up", format="0"),
    calculated("clear_up", "Clear down to", "mm", f'IF([up]="";"";IF({HARDLY_LEAVES};[mast.foot_up];[up]-{LIES_BELOW}))', "nothing like this stub may stand between, or eye or rope lies on it; the foot for a stay that hardly leaves the mast", format="0"),
    calculated("crowded", "Stubs in the way", "", CROWDED, "stubs below that stand higher than the height down to which nothing may stand", format="0"),
    calculated("tips_near", "Tips close above", "", f'IF([up]="";"";{TIPS_NEAR})', "stays that go over a spreader whose root may be in the way of the eye", format="0"),
    calculated("alike", "Rows made like it", "", ALIKE, "of the rows at its height: with its bolt, number of stubs on it and width of the mast; blank where it is no pair", format="0"),
    calculated("stubs", "Stubs of its stay", "", f'IF([stay]="";"";IFERROR(MAX({times("stay")};{times("stay_2")});""))', "on how many stubs its stay lies, or one of its two; there may be one", format="0"),
)


def on_the_bare_bolt(stay: str, eye: str) -> str:
    """Formula: how many times its load an eye holds round the bolt."""
    bend = f"RIG.BEND.ROPE([bolt_size]/[rope_size{eye}];[{stay}.rope.least])"
    throat = f"RIG.EYE.ANGLE([eye{eye}];[bolt_size];[rope_size{eye}];[sleeve_wall{eye}])"
    return f"RIG.EYE.CAPACITY([{stay}.break_load];{bend};{throat};boat_uneven)*boat_ageing/[load{eye}]"


LOST = block(
    "If the rod is lost",
    calculated("drop", "Slack", "mm", "RIG.TANG.DROP([rod_size];[bevel];[top];[hole];[eye];[bolt_size];[rope_size];[sleeve_wall];" + if_two("[seat_in]", "[top]/2") + ")", "the eye falls on the bolt", format="0.0"),
    calculated("tension_left", "Tension left", "kN", "RIG.TENSION.AFTER([stay.pretension];[drop];[stay.length];[stay.stiffness])", "0 means slack: seen at once", format="0.0"),
    calculated("bare_margin", "Eye on the bare bolt", "safety factor", on_the_bare_bolt("stay", ""), "of the eye alone, not of the bolt and not in the blow of the fall, to get home; the mast stands on a slack stay then", format="0.00"),
    calculated("drop_2", "Outer: slack", "mm", if_two("RIG.TANG.DROP([rod_size];[bevel];[top];[hole];[eye_2];[bolt_size];[rope_size_2];[sleeve_wall_2];[seat_out])"), "the outer eye falls on the bolt, too", format="0.0"),
    calculated("tension_left_2", "Outer: tension left", "kN", if_two("RIG.TENSION.AFTER([stay_2.pretension];[drop_2];[stay_2.length];[stay_2.stiffness])"), "0 means slack", format="0.0"),
    calculated("bare_margin_2", "Outer eye on the bare bolt", "safety factor", if_two(on_the_bare_bolt("stay_2", "_2")), "as that of the first", format="0.00"),
    text("note", "Note", "anything to remember", width=30),
)

# What would do instead, besides another bolt and rod: a hole further down, a thicker rod, more room.
LOW_ENOUGH = remedies.up("[hole_high]+boat_drill_off", 1)
CAN_BE_LOWER = f"{LOW_ENOUGH}<=[hole_worst]-boat_drill_off"
DRILL_LOWER = f'"drill it "&FIXED({LOW_ENOUGH};1;TRUE())&" mm down"'
DRILLED_HIGH = "drilled {boat_drill_off} mm too high, {[ligament]-boat_drill_off:1} mm of rod would be left above the bolt, must be {ligament_least:1} mm"
THICKER_ROD = remedies.take(
    remedies.first_of("rod", "ISNUMBER(rod_size)*(rod_size>=[rod_needed])"), f'FIXED({remedies.up("[rod_needed]", 0)};0;TRUE())&" mm or more"'
)
ROOM_NEEDED = "[room]-RIG.TANG.GAP([room];[bevel];[top];[hole_worst]-boat_drill_off;[rope_most];[sleeve_most];boat_plate;[rise])"

# How far one stub has to stand below another, for what hangs from the upper one.
FURTHER_DOWN = f'IF({HARDLY_LEAVES};"";", "&FIXED({remedies.up("[up]-[clear_up]+[rod_size]/2+[rise]", -1)};0;TRUE())&" mm further down")'
# A wall that would hold: with a doubler, or with a thicker bolt where there is one. What the wall must be of, where that is not known.
WALL_NEEDED = remedies.up("[wall]/(1+[wall_spare])", 1)
THICKER_WALL = (
    f'"a doubler inside the mast that bears with it, "&FIXED({WALL_NEEDED}-[wall];1;TRUE())&" mm thick, would do; type "&FIXED({WALL_NEEDED};1;TRUE())&" mm here, and order it"'
    '&IF([for_wall]=0;"";"; or take "&[would_do])'
)
PROOF_NEEDED = remedies.up("boat_margin_metal*[wall_load]/RIG.PIN.BEARING([bolt_size];[wall];1;boat_wall_gamma)", 0)
WALL_UNMEASURED = remedies.up("boat_margin_metal*[wall_load]/RIG.PIN.BEARING([bolt_size];1;[proof];boat_wall_gamma)", 1)
NO_ALLOY = f'IF(AND([wall]<>"";[proof]="");{PROOF_NEEDED}>boat_proof_most;FALSE())'

TANGS = Table(
    "tangs",
    "Stubs",
    ready=8,
    lines=3,
    typed=("stay", "stay_2", "number", "sides", "room"),
    results=("rod", "bevel", "top", "base", "hole", "exit", "bolt_hole", "bolt", "bolt_length", "tube", "bolt_spare", "wall_spare"),
    in_parts=True,
    columns=(*name_and_check("Stub", "one row for equal stubs, or one for each", 39, 28), *OF_THE_STAY, *OF_THE_OUTER, *TWO_EYES, *SAW, *DRILL, *ASSEMBLE, *THROUGH, *ROOM, *HOLDS, *WALL_AND_ROD, *LOST),
    rules=(
        WAITS_FOR_BOAT,
        Rule("stay.twice", FIX, 'IF([stubs]="";FALSE();[stubs]>1)', "it, or the outer one, is on {stubs} stubs: leave it one row, with Number for how many are made", "stay"),
        Rule("beside.bolt", FIX, 'IF([on_one_bolt]="";FALSE();[number]*[on_one_bolt]>2)', "{[number]*[on_one_bolt]:0} stubs would be on one bolt, one on each side of the mast is the maximum", "stay", f"give the lower stay of the two an upper point of its own{{{FURTHER_DOWN}}}; or lay both eyes on one stub, by its Outer stay, and empty the other row"),
        Rule("head", FIX, 'IF([below_head]="";FALSE();[below_head]<boat_head_least*[bolt_hole])', f"the middle of its bolt is {{[below_head]:0}} mm below the masthead, must be {{{remedies.up('boat_head_least*[bolt_hole]', 0)}:0}} mm or more", "stay.upper", "move the upper point of its stay down the mast"),
        Rule("stay_2.same", FIX, 'IF([stay_2]="";FALSE();[stay_2]=[stay])', "it is the same as the inner stay", "stay_2"),
        Rule("stay_2.mast", FIX, 'IF([stay_2]="";FALSE();[stay_2.mast]<>[mast])', "it is on another mast than the first", "stay_2"),
        Rule("stay_2.side", FIX, 'IF([stay_2]="";FALSE();AND([stay.side]<>"";[stay_2.side]<>"";[stay.side]<>[stay_2.side]))', "it is to {stay_2.side}, the first to {stay.side}", "stay_2"),
        Rule("stay_2.points", FIX, 'IF([stay_2]="";FALSE();OR([turn]="";[turn_2]=""))', "how far the two lead fore and aft is not known: on Stays pick points for both", "stay_2"),
        Rule("stay_2.apart", FIX, 'IF([stay_2]="";FALSE();IF(ISNUMBER([angle]+[turn]+[angle_2]+[turn_2]+[rod_size]+[rise]);ISERROR([bevel]+[cover]);FALSE()))', "the two lead {ABS([turn]-[turn_2]):1}° apart fore and aft and up to {MAX([angle];[angle_2]):1}° out, too far for one stub", "stay_2", "give each a stub of its own"),
        Rule("top.short", FIX, f'IF([top_own]="";FALSE();[top]<{shortest_top("0")})', f"got {{top:1}}; must be {{{shortest_top('0')}:1}} mm or more for what lies on it", "top_own"),
        Rule("bar_proof.marked", FIX, f'AND([bar_proof]<>"";[bolt_made]<>"{TURNED}")', "say under Bolt made that it is turned from bar, or empty this", "bar_proof"),
        Rule("room", FIX, 'AND([room]<>"";ISERROR([hole]);ISNUMBER([hole_worst]))', f"got {{[room]:0}}; no hole keeps the rope below the stop, must be {{{remedies.up(ROOM_NEEDED, 0)}:0}} mm", "room", "set the stub lower"),
        waits_for("mast", "Masts"),
        waits_for("rod", "Library"),
        waits_for("bolt", "Library"),
        Rule("stay.wire", FIX, f'[stay.made_of]="{STAYS_WIRE}"', "it stays wire, and a stub takes rope only", "stay", "take this row out, or make the stay of rope"),
        Rule("stay_2.wire", FIX, f'IF([stay_2]="";FALSE();[stay_2.made_of]="{STAYS_WIRE}")', "it stays wire, and a stub takes rope only", "stay_2"),
        Rule("number", FIX, "[number]<>[stay.number]", "got {number:0}; must be {stay.number:0}, the stay's number on Stays", "number"),
        Rule("number_2", FIX, 'IF([stay_2]="";FALSE();[number]<>[stay_2.number])', "the outer stay has another number on Stays", "number"),
        Rule("stay.row", WAITS, f'AND({stopped("stay")};ISERROR(FIND(" stays.stub";[stay.found])))', "Stays: {stay}", "stay"),
        Rule("stay_2.row", WAITS, f'IF([stay_2]="";FALSE();AND({stopped("stay_2")};ISERROR(FIND(" stays.stub";[stay_2.found]))))', "Stays: {stay_2}", "stay_2"),
        Rule("off", DANGER, "[thrust]<0", "{-[thrust]:2} kN pull the eye off the end of the stub", "stay", "the bevel of {bevel:1}° must be more than the angle of {angle:1}°: raise Bevel beyond the stay on Boat"),
        Rule("flip", DANGER, "[upright_worst]<boat_drill_off", "may flip over under load: the load is {upright_worst:1} mm below the bolt, must be {boat_drill_off} mm", "hole_own", "drill the hole {ROUNDUP(boat_drill_off-[upright_worst];1):1} mm higher or more"),
        Rule("both", DANGER, f'IF([stay_2]="";FALSE();[both]<>"{FITS}")', "the two eyes: {both}", "stay_2", "type a longer Short side, or give each stay a stub of its own"),
        Rule("bolt.bends", DANGER, "[moment]>[straight]", "the load bends the bolt permanently: {moment:0} N·m, it stays straight up to {straight:0} N·m", "boat_bolt", DO_THIS),
        Rule("ligament", DANGER, f"AND([ligament]<[ligament_least];{CAN_BE_LOWER})", "only {ligament:1} mm of rod above the bolt, must be {ligament_least:1} mm", "hole_own", f"{{{DRILL_LOWER}}}"),
        Rule("ligament.rod", DANGER, f"AND([ligament]<[ligament_least];NOT({CAN_BE_LOWER}))", "only {ligament:1} mm of rod above the bolt, must be {ligament_least:1} mm", "boat_rod", DO_THIS),
        Rule("bolt.spare", DANGER, "[bolt_spare]<0", "the bolt holds {bolt_capacity:1} kN, must hold {boat_margin_metal*[on_bolt]:1} kN: short by {-[bolt_spare]:%}", "boat_bolt", DO_THIS),
        Rule("rod.spare", DANGER, 'AND([rod_spare]<>"";[rod_spare]<0)', "the rod is short by {-[rod_spare]:%}: pressed with {MAX([bearing];[pressure]):1} MPa, sheared with {rod_shear:1} MPa", "rod_own", "take a thicker one, a thicker bolt, or a rod whose certificate says {ROUNDUP(boat_margin*MAX([bearing];[pressure]);0):0} MPa across the fibres and {ROUNDUP(boat_margin*[rod_shear];0):0} MPa in shear"),
        Rule("wall.spare", DANGER, 'AND([wall_spare]<>"";[wall_spare]<0)', "the mast wall holds {wall_capacity:1} kN, must hold {boat_margin_metal*[wall_load]:1} kN: short by {-[wall_spare]:%}", "wall_own", f"{{{THICKER_WALL}}}"),
        Rule("wall.no_alloy", DANGER, NO_ALLOY, f"the mast wall of {{[wall]:1}} mm would do only with a proof stress of {{{PROOF_NEEDED}:0}} MPa, and alloys of masts have up to {{boat_proof_most:0}} MPa", "wall_own", "fit a doubler inside the mast that bears with it, and type both together here"),
        Rule("shank.short", WEIGH, '[shank_made]<[shank]-1', "thread begins in the stub: {shank_made:0} mm of plain shank were made, {shank:0} mm are wanted; if the rod is lost it cuts the rope", "shank_made"),
        Rule("shank.long", WEIGH, '[shank_made]>[shank]+[sides]*[outside]', "the plain shank of {shank_made:0} mm ends outside the washers, so that the nuts do not reach them", "shank_made"),
        Rule("bar_proof.none", WEIGH, f'AND([bolt_made]="{TURNED}";[bar_proof]="")', "the bolt is turned from bar without a certificate, so it is taken as annealed, {boat_bar_proof:0} MPa", "bar_proof"),
        Rule("stay_2.up", WEIGH, 'IF([stay_2]="";FALSE();IF(ISNUMBER([stay_2.upper_up]);ABS([stay_2.upper_up]-[up])>[bolt_size]/2;FALSE()))', "its upper point is {ABS([stay_2.upper_up]-[up]):0} mm from that of the first; one bolt has one height", "stay_2", "pick the same point on Stays"),
        Rule("cover", WEIGH, 'IF([stay_2]="";FALSE();[cover]<[rope_most]+2*[sleeve_most])', "led round the rod a slack eye can come over the end plate, which stands {cover:1} mm above it there", "girth_own"),
        Rule("stay.over", WEIGH, f'[stay.upper_over]<>"{ON_STUB}"', "on Stays the upper end of this stay lies on something else: {stay.upper_over}", "stay", "pick stub there, or take this row out"),
        Rule("stay_2.over", WEIGH, f'IF([stay_2]="";FALSE();[stay_2.upper_over]<>"{ON_STUB}")', "on Stays the upper end of the outer stay does not lie on a stub", "stay_2"),
        Rule("rod.thin", WEIGH, "[rod_size]<[rod_needed]", "rod of {rod_size:1} mm; minimum {rod_needed:1} mm", "boat_rod", f"{{{THICKER_ROD}}}"),
        Rule("hole.high", WEIGH, f"AND([hole]<[hole_high]+boat_drill_off;{CAN_BE_LOWER})", DRILLED_HIGH, "hole_own", f"{{{DRILL_LOWER}}}"),
        Rule("hole.high.rod", WEIGH, f"AND([hole]<[hole_high]+boat_drill_off;NOT({CAN_BE_LOWER}))", DRILLED_HIGH, "boat_rod", DO_THIS),
        Rule("steep", WEIGH, "[bevel]>boat_bevel_free", "bevel of {bevel:1}°, up to {boat_bevel_free}° goes unquestioned", "stay", "look at it with your rigger"),
        Rule("construction", WEIGH, f'[rod.construction]="{UNKNOWN}"', "how the rod is built is not known, so its fibres may not run along it", "rod.construction", "ask its maker, and pick it in Library"),
        Rule("construction.sheet", WEIGH, f'[rod.construction]="{FROM_SHEET}"', "the rod is turned from sheet, which splits between its layers", "rod_own", "take one that is rolled or moulded as a rod"),
        Rule("fit", WEIGH, f'LEFT([fit];LEN("{FITS}"))<>"{FITS}"', "the eye: {fit}", "girth_own"),
        Rule("fit_2", WEIGH, f'IF([stay_2]="";FALSE();LEFT([fit_2];LEN("{FITS}"))<>"{FITS}")', "the outer eye: {fit_2}", "stay_2"),
        Rule("beside.many", WEIGH, 'IF([beside]="";FALSE();AND([number]*[beside]>2;[number]*[on_one_bolt]<=2))', "{[number]*[beside]:0} stubs at this height, and one on each side of the mast is usual", "stay", "look whether there is room for a bolt each"),
        Rule("beside.unlike", WEIGH, 'IF([alike]="";FALSE();[alike]<[beside])', "another stub at this height has another bolt, another number of stubs on it, or another width of the mast", "bolt_own", "make both rows alike"),
        Rule("sides.one", WEIGH, 'AND([sides]=1;[number]*IF([beside]="";1;[beside])>1)', "another stub stands on the other side at this height: two bolts for one hole", "sides", "set Stubs on one bolt to 2 on both"),
        Rule("sides.two", WEIGH, "AND([beside]=1;[number]=1;[sides]=2)", "one end of its bolt has no stub", "sides", "set Stubs on one bolt to 1, or give the other side a row"),
        Rule("crowded", WEIGH, "[crowded]>0", "eye and rope need room down to {INT([clear_up]):0} mm up, and a stub below stands higher", "stay", "move one of them up or down the mast"),
        Rule("off_middle", WEIGH, "[off]>boat_off_middle*[grip]", "the pull is {off:1} mm off the middle of the bolt in the stub, maximum {boat_off_middle*[grip]:1} mm, so one end lifts off", "hole_own", "take a thinner rod, or move the hole"),
        Rule("head.above", WEIGH, 'IF([below_head]="";FALSE();AND([below_head]>=boat_head_least*[bolt_hole];[below_head]<[exit]))', "the square end stands {[exit]-[below_head]:0} mm above the masthead, with no mast behind it", "stay.upper", "move the upper point of its stay down the mast"),
        Rule("room.spreader", WEIGH, 'AND([room]="";N([tips_near])>0)', "a spreader's tip is close above it, its root may be in the way of the eye", "room", "type what there is from the bolt up to it"),
        Rule("room.none", WEIGH, 'AND([room_left]<>"";[room_left]<0)', "{[room]:0} mm under the stop, {[room]-[room_left]:0} mm is needed", "room", "set the stub {ROUNDUP(-[room_left];1):1} mm lower"),
        Rule("room.order", WEIGH, 'AND([room_left]<>"";[room_left]>=0;[room_left]<[rise])', "the eye does not pass over the plate under the stop: {room_left:1} mm left, {rise:1} mm needed", "room", "fit the eye before the plate"),
        Rule("out", WEIGH, "IF(ISNUMBER([stay.upper_out]);ABS([stay.upper_out]-[mast_width]/2)>boat_out_off;FALSE())", "the point on the mast is {stay.upper_out:0} mm out, half the mast's width is {[mast_width]/2:0} mm", "mast_width_own", "measure both again"),
        Rule("wall_own.large", WEIGH, 'IF(OR([wall_own]="";[mast.wall]="");FALSE();[wall]>2*[mast.wall])', "a wall of {[wall]:1} mm is more than twice that on Masts, {[mast.wall]:1} mm", "wall_own", "measure it through a hole"),
        Rule("other.side", WEIGH, f'IF(OR([stay.side]="{kinds.PORT}";[stay.side]="{kinds.STARBOARD}");ISNUMBER(FIND(" "&{kinds.other_side("[stay.side]")};" "&LOWER([name])));FALSE())', f'by its name it is to {{{kinds.other_side("[stay.side]")}}}, its stay is to {{stay.side}}', "stay", "pick the stay of its side"),
        Rule("wall.unknown", WEIGH, '[wall]=""', "the mast wall is not measured, so it is not checked", "mast.wall", f'{{IF([proof]="";"";"it must be about "&FIXED({WALL_UNMEASURED};1;TRUE())&" mm; ")}}measure it through a hole and type it on Masts'),
        Rule("proof.unknown", WEIGH, f'IF(AND([wall]<>"";[proof]="");{PROOF_NEEDED}<=boat_proof_most;FALSE())', f"the proof stress of the mast is not known, so its wall is not checked: it must be {{{PROOF_NEEDED}:0}} MPa or more", "mast.proof", "ask its maker, and type it on Masts"),
        Rule("rod.unknown", WEIGH, '[rod_margin]=""', "the crushing strength of the rod is not known, so it is not checked", "rod.crushing", "ask its maker, and type it in Library"),
        Rule("bare", WEIGH, "MIN([bare_margin];[bare_margin_2])<1", "on the bare bolt an eye holds {MIN([bare_margin];[bare_margin_2]):2} times its load", "bolt_own", "take a thicker bolt, or a rope that may lie over a thinner one"),
        Rule("rests", NOTE, '[rests]<>""', "no certificate: {rests}", "rests"),
    ),
)

SHEET = Sheet(
    "Stubs",
    "One row per stub of rod on the mast; fill what has a *. Mark-Out Sheet in the menu Rigging prints the stub you are in at 1:1.",
    (TANGS,),
    cautions=(ALOFT,),
)
