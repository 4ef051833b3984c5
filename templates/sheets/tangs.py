"""Tangs: one row per stub of rod on the mast bolt: what to saw, drill and assemble, and what it holds."""

from loftsheet.cautions import ALOFT

from templates.schedule import (
    DANGER,
    FIX,
    NOTE,
    WAITS,
    WAITS_FOR_BOAT,
    WEIGH,
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
from templates.sheets.library import unproven
from templates.sheets.stays import STAYS_WIRE

# Stubs on the same bolt, or on the same mast too near to it for another: their heights, whole millimetres, for they go through a text.
AT_HEIGHT = 'tangs_mast;"="&[mast];tangs_up;">="&FLOOR([up]-[rod_size]/2;1);tangs_up;"<="&CEILING([up]+[rod_size]/2;1)'

# A stub with another on the other side of the mast, and how many at its height are assembled as it is.
A_PAIR = 'IF([beside]="";FALSE();AND([beside]>1;[number]*[beside]<=2))'
ALIKE = f'IF({A_PAIR};COUNTIFS({AT_HEIGHT};tangs_bolt;"="&[bolt];tangs_sides_used;[sides];tangs_mast_width;[mast_width]);"")'

# Another stub below whose plate stands above the height down to which nothing may stand; the same
# height is the other side of the mast.
CROWDED = 'IF([clear_up]="";0;COUNTIFS(tangs_mast;"="&[mast];tangs_up;"<"&FLOOR([up]-[rod_size]/2;1);tangs_plate_up;">"&FLOOR([clear_up];1)))'

OF_THE_STAY = block(
    "Of the stay",
    number("number", "Number", "", 1, 20, "equal stubs, port and starboard, if not as many as stays", default="[stay.number]", whole=True, format="0", width=15),
    choice("stay", "Stay", "stays_name", "the stay whose eye lies on this stub", required=True, width=30),
    calculated("mast", "Mast", "", "[stay.mast]", "of the stay", choices="masts_name", width=24),
    calculated("up", "Bolt, up", "mm", "[stay.upper_up]", "from Points; blank where the stay has none", format="0"),
    calculated("along", "Bolt, along the mast", "mm", 'IF([up]="";"";IF(ISBLANK([stay.upper.along]);"";[stay.upper.along]))', "from the mast's foot, where to drill; blank where Points has fore and up", format="0", width=20),
    calculated("angle", "Angle out", "°", "[stay.angle]", "of the stay, from the mast face", format="0.0"),
    calculated("turn", "Leads fore", "°", "[stay.angle_fore]", "the stub is turned as much round its bolt; aft is negative", format="0.0"),
    calculated("rope", "Rope", "", "[stay.rope]", "of the stay", choices="rope_name", width=32),
    calculated("rope_size", "Rope", "mm", "[stay.rope_size]", "diameter", format="0.0"),
    calculated("sleeve_wall", "Sleeve", "mm", "[stay.sleeve_wall]", "one wall", format="0.0"),
    calculated("eye", "Eye", "mm", "[stay.upper_eye]", "of the stay's upper end, laid flat", format="0"),
    calculated("load", "Load", "kN", "[stay.load]", "working load of the stay", format="0.0"),
    calculated("wire_break", "Wire's break", "kN", "[stay.wire_break]", "of the wire that hung here, to compare", format="0.0"),
)

SAW = block(
    "Saw and fit",
    choice("rod_own", "Rod, own", "rod_name", "if not the boat's", width=28),
    calculated("rod", "Rod", "", 'IF([rod_own]="";boat_rod;[rod_own])', "rod used", choices="rod_name", width=24),
    calculated("rod_size", "Rod", "mm", "[rod.size]", "diameter", format="0.0"),
    calculated("rod_needed", "Least rod", "mm", "RIG.NEED.ROD([rope_size];[bolt_hole];[bevel];boat_rod_least;[ligament_least])", "for the rope's bend and the rod above the bolt", format="0.0"),
    calculated("bevel", "Bevel", "°", "RIG.TANG.BEVEL([angle];boat_extra)", "from square", format="0.0", width=13),
    number("top_own", "Short side, own", "mm", 3, 300, "short side, if not the shortest", format="0.0"),
    calculated("top", "Short side", "mm", 'IF([top_own]="";CEILING(RIG.TANG.TOP([rope_size];[bevel];[sleeve_wall];boat_clearance);boat_saw_step);[top_own])', "on top", format="0.0", width=13),
    calculated("base", "Long side", "mm", "RIG.TANG.BASE([rod_size];[bevel];[top])", "below; the short side is on top", format="0.0", width=13),
    calculated("face", "Bevelled face", "mm", "RIG.TANG.FACE([rod_size];[bevel])", "height of the bevelled end", format="0.0"),
    number("girth_own", "End plate's girth, own", "mm", 10, 1500, "tape round the plate, if it is not cut as the mark-out sheet shows", format="0"),
    calculated("girth", "End plate's girth", "mm", 'IF([girth_own]="";PI()*[rod_size]+2*[rise];[girth_own])', "round the rod's circle drawn out upwards", format="0"),
    calculated("fit", "Eye", "", "RIG.LOOP.FIT([eye];[rod_size];[rope_size];[sleeve_wall];[girth];boat_throat)", "does it close over the rod and pass over the end plate", width=38),
)

DRILL = block(
    "Drill",
    number("room", "Room above", "mm", 5, 1000, "from the bolt's centre up to what is above: a spreader, another stub; blank if nothing is", format="0.0", width=15),
    calculated("rise", "Plate stands up", "mm", "RIG.TANG.RISE([rope_size];[sleeve_wall];boat_plate_extra)", "above the rod", format="0.0"),
    calculated("aside", "Eye aside", "mm", "([top]-[rope_size]-2*[sleeve_wall])/2", "from the middle of the top to where it touches the end plate", format="0.0"),
    calculated(
        "hole_worst",
        "Hole, lowest",
        "mm",
        "[rod_size]/2*COS(RADIANS([bevel]))-([top]/2+[aside])*SIN(RADIANS([bevel]))",
        "at which the stub is just upright with the eye at the end plate",
        format="0.00",
    ),
    number("hole_own", "Hole, own", "mm", 1, 300, "if not the calculated one", format="0.0"),
    calculated(
        "hole",
        "Hole down",
        "mm",
        'IF([hole_own]="";FLOOR(MIN([hole_worst]-boat_drill_off;IF([room]="";RIG.TANG.HOLE([rod_size];[bevel];[top]);'
        "RIG.TANG.HOLE([rod_size];[bevel];[top];[room];[rope_size];[sleeve_wall];boat_plate;[rise])-boat_drill_off));boat_drill_step);[hole_own])",
        "from the top edge of the bevelled face to the hole's centre, square to the face",
        format="0.0",
        width=13,
    ),
    calculated("exit", "Hole comes out", "mm", "RIG.TANG.EXIT([rod_size];[bevel];[top];[hole])", "below the top of the square end; the plate is drilled there", format="0.0", width=13),
    calculated("bolt_hole", "Drill", "mm", "[bolt_size]+boat_hole_play", "diameter of the hole", format="0.0", width=13),
    calculated("ligament_least", "Least above bolt", "mm", "MAX(boat_ligament;boat_ligament_hole*[bolt_hole])", "of rod; a stub worn to less is retired", format="0.0"),
    calculated("hole_high", "Hole, highest", "mm", "[ligament_least]+[bolt_hole]/2", "at which the least of the rod is left above the bolt", format="0.00"),
    calculated("ligament", "Rod above bolt", "mm", "RIG.TANG.LIGAMENT([hole];[bolt_hole])", "at the mast; it wears", format="0.0"),
    calculated("ligament_end", "Rod below bolt", "mm", "RIG.TANG.LIGAMENT.END([rod_size];[bevel];[top];[hole];[bolt_hole])", "at the outer end", format="0.0"),
    calculated("upright", "Load below bolt", "mm", "RIG.TANG.UPRIGHT([rod_size];[bevel];[top];[hole])", "eye in the middle of the top; positive stays the right way up", format="0.0"),
    calculated("upright_worst", "Load below bolt, worst", "mm", "[hole_worst]-[hole]", "eye at the end plate; the check goes by this one", format="0.0", width=21),
    calculated(
        "room_left",
        "Left under stop",
        "mm",
        'IF([room]="";"";RIG.TANG.GAP([room];[bevel];[top];[hole];[rope_size];[sleeve_wall];boat_plate;[rise]))',
        "with the end plate on",
        format="0.0",
    ),
)

ASSEMBLE = block(
    "Assemble",
    choice("bolt_own", "Bolt, own", "bolt_name", "if not the boat's", width=26),
    calculated("bolt", "Bolt", "", 'IF([bolt_own]="";boat_bolt;[bolt_own])', "bolt used", choices="bolt_name", width=18),
    calculated("bolt_size", "Bolt", "mm", "[bolt.size]", "diameter", format="0.0"),
    number("sides", "Stubs on one bolt", "", 1, 2, "2 for a bolt through the mast with a stub on each side, as is usual", default="2", whole=True, format="0", width=15),
    calculated("grip", "Bolt in stub", "mm", "RIG.TANG.GRIP([rod_size];[bevel];[top];[hole])", "grip", format="0.0"),
    calculated("washer", "Washer", "mm", "[bolt.washer]", "outside diameter", format="0.0"),
    calculated("wedge", "Tapered washer", "mm", "RIG.TANG.WEDGE([washer];[bevel];boat_thin)", "thick edge; the thin edge is Boat's", format="0.0"),
    calculated("outside", "Outside the stub", "mm", "boat_plate/COS(RADIANS([bevel]))+(boat_thin+[wedge])/2+boat_flat", "plate, tapered washer, flat washer", format="0.0"),
)

THROUGH = block(
    "Through the mast",
    number("mast_width_own", "Mast's width, own", "mm", 20, 1000, "outside to outside at the bolt, where it is not as on Masts, as where it tapers", format="0.0"),
    number("mast_fore_own", "Mast's section, own", "mm", 20, 1000, "fore and aft, if not as on Masts", format="0.0"),
    number("wall_own", "Mast's wall, own", "mm", 0.5, 30, "if not as on Masts", format="0.0"),
    calculated("mast_width", "Mast's width", "mm", 'IF([mast_width_own]="";[mast.width];[mast_width_own])', "used", format="0.0"),
    calculated("saddle", "Hollow behind", "mm", "RIG.TANG.SADDLE([rod_size];IF([mast_fore_own]=\"\";[mast.section];[mast_fore_own])/2;[mast_width]/2)", "to fill where the mast curves away", format="0.0"),
    calculated("wall", "Mast's wall", "mm", 'IF([wall_own]="";IF([mast.wall]="";"";[mast.wall]);[wall_own])', "used; blank until it is measured", format="0.0"),
    calculated("proof", "Mast's proof stress", "MPa", 'IF([mast.proof]="";"";[mast.proof])', "of its mast; blank where Masts has none", format="0"),
    calculated("tube", "Tube", "mm", 'IF([wall]="";"";[mast_width]-2*[wall])', "length of the compression tube between the walls", format="0.0", width=13),
    calculated("bolt_length", "Bolt length", "mm", "CEILING(RIG.BOLT.LENGTH([mast_width];boat_pad;[grip];[outside];RIG.BOLT.ENDS([bolt_size];[bolt.pitch];boat_nuts);[sides]);boat_saw_step)", "under the head or with a nut at each end", format="0.0", width=14),
    calculated("shank", "Plain shank", "mm", "CEILING(IF([sides]=1;[mast_width]+boat_pad+[grip];RIG.BOLT.SHANK([mast_width];boat_pad;[grip]));boat_saw_step)", "in the middle of a bolt with two stubs; thread in the grip would cut the rope if the rod were lost", format="0.0"),
    counted(),
    calculated("bolts", "Bolts", "", "[count]/[sides]", "bolts for all of this row; half a bolt each for two rows that share one", format="0.0"),
)

HOLDS = block(
    "Holds",
    calculated("thrust", "Along the rod", "kN", "RIG.TANG.THRUST([load];[angle];[bevel])", "positive is towards the mast", format="0.00"),
    calculated("root", "Bolt held at", "mm", 'boat_pad+IF([wall]="";0;[wall]/2)', "behind the stub: pad and half the mast's wall", format="0.0"),
    calculated("arm", "Lever", "mm", "RIG.TANG.ARM([rod_size];[bevel];[top];[hole];[angle];[root])", "of the pull on the bolt, eye in the middle of the top", format="0.0"),
    calculated("arm_worst", "Lever, worst", "mm", "RIG.TANG.ARM([rod_size];[bevel];[top];[hole];[angle];[root];[top]/2+[aside])", "eye at the end plate; the bolt is judged by this one", format="0.0"),
    calculated("moment", "Moment", "N·m", "RIG.TANG.MOMENT([load];[arm_worst])", "in the bolt at the mast", format="0"),
    calculated("straight", "Stays straight to", "N·m", "RIG.PIN.BENDING([bolt_size];[bolt.yield_stress];1;boat_bolt_straight)", "moment up to which the bolt is straight again afterwards", format="0"),
    calculated("bolt_moment", "Bolt bends at", "N·m", "RIG.PIN.BENDING([bolt_size];[bolt.yield_stress];boat_gamma;boat_bolt_bending)", "design moment of the plain shank", format="0"),
    calculated("bolt_shear", "Bolt in shear", "kN", "RIG.BOLT.SHEAR(RIG.BOLT.AREA([bolt_size];[bolt.pitch]);[bolt.strength];1;boat_bolt_shear;boat_gamma)", "design capacity, one plane, thread counted", format="0.0"),
    calculated("bolt_tension", "Bolt in tension", "kN", "RIG.BOLT.TENSION(RIG.BOLT.AREA([bolt_size];[bolt.pitch]);[bolt.strength];boat_gamma)", "design capacity", format="0.0"),
    calculated("bolt_capacity", "Bolt holds", "kN", "RIG.BOLT.CAPACITY([arm_worst];[angle];[bolt_moment];[bolt_shear];[bolt_tension])", "tension of the stay at which the bolt is used up; compare the wire's break", format="0.0"),
    calculated("bolt_spare", "Bolt", "spare", "[bolt_capacity]/[load]/boat_margin_metal-1", "over the margin for metal", format="0 %", width=13),
    calculated("rests", "No certificate", "", unproven("bolt", "bolt"), "what this stub rests on that has no certificate; Status in Library says what its figures come from", width=28),
    calculated("wall_load", "On the wall", "kN", "RIG.MAST.BEARING([load];[angle];[arm_worst];[mast_width]-2*([root]-boat_pad))", "bolt on the near wall of the mast", format="0.0"),
    calculated("wall_capacity", "Wall holds", "kN", 'IF(OR([wall]="";[proof]="");"";RIG.PIN.BEARING([bolt_size];[wall];[proof];boat_wall_gamma))', "blank until wall and proof stress are known", format="0.0"),
    calculated("wall_spare", "Wall", "spare", 'IF([wall_capacity]="";"";[wall_capacity]/[wall_load]/boat_margin_metal-1)', "over the margin for metal", format="0 %", width=13),
    calculated("pressure", "Rope on rod", "MPa", "RIG.ROPE.PRESSURE([load];[rope_size];[rod_size])", "mean pressure; compare the rod's certificate", format="0.0"),
    calculated("bearing", "Bolt on rod", "MPa", "RIG.ROD.BEARING([load];[angle];[bolt_size];[grip];[arm_worst];[root])", "largest pressure, eye at the end plate; compare the rod's certificate", format="0.0"),
    calculated("mass", "Mass", "kg", "RIG.TANG.MASS([rod_size];[bevel];[top];[rod.density])", "of one stub", format="0.000"),
)

# How far down the rope has come out as far as a bolt like this one stands.
ROPE_PASSES = "RIG.TANG.CLEAR([stands_out]+[rope_size]/2+[sleeve_wall]-[top]/2;[angle])"
ROOM = block(
    "Room on the mast",
    calculated("beside", "Rows at its height", "", f'IF([up]="";"";COUNTIFS({AT_HEIGHT}))', "of this sheet, itself among them: the stubs on its bolt, or too near to it for another", format="0"),
    calculated("stands_out", "Bolt stands out", "mm", "boat_pad+[grip]+[outside]+RIG.BOLT.ENDS([bolt_size];[bolt.pitch];CEILING(boat_nuts/2;1))", "from the mast, with its nuts", format="0.0"),
    calculated("plate_up", "Plate's top, up", "mm", 'IF([up]="";"";[up]+[rod_size]/2+[rise])', "as Points counts up", format="0"),
    calculated("clear_up", "Clear down to", "mm", f'IF([up]="";"";IF(FLOOR([angle];1)=0;0;[up]-MAX([stay.upper_reach];{ROPE_PASSES})))', "nothing like this stub may stand between, or eye or rope lies on it; 0 for a stay that hardly leaves the mast", format="0"),
    calculated("crowded", "Stubs in the way", "", CROWDED, "stubs below that stand higher than the height down to which nothing may stand", format="0"),
    calculated("alike", "Made as it is", "", ALIKE, "of the rows at its height: with its bolt, number of stubs on it and width of the mast; blank where it is no pair", format="0"),
    calculated("stubs", "Stubs of its stay", "", 'IF([stay]="";"";IFERROR(SUMPRODUCT((tangs_stay=[stay])*1);""))', "rows of this sheet for the same stay; there may be one", format="0"),
)

LOST = block(
    "If the rod is lost",
    calculated("drop", "Slack", "mm", "RIG.TANG.DROP([rod_size];[bevel];[top];[hole];[eye];[bolt_size];[rope_size];[sleeve_wall])", "the eye falls on the bolt", format="0.0"),
    calculated("tension_left", "Tension left", "kN", "RIG.TENSION.AFTER([stay.pretension];[drop];[stay.length];[stay.stiffness])", "0 means slack: seen at once", format="0.0"),
    calculated(
        "bare_margin",
        "Eye on the bare bolt",
        "margin",
        "RIG.EYE.CAPACITY([stay.break_load];RIG.BEND.ROPE([bolt_size]/[rope_size];[rope.least]);RIG.EYE.ANGLE([eye];[bolt_size];[rope_size];[sleeve_wall]);boat_uneven)*boat_ageing/[load]",
        "of the eye alone, not of the bolt and not in the blow of the fall, to get home; the mast stands on a slack stay then",
        format="0.00",
    ),
    text("note", "Note", "anything to remember", width=30),
)

TANGS = Table(
    "tangs",
    "Tangs",
    ready=12,
    lines=3,
    typed=("stay", "number", "sides", "room"),
    results=("rod", "bevel", "top", "base", "hole", "exit", "bolt_hole", "bolt", "bolt_length", "tube", "bolt_spare", "wall_spare"),
    in_parts=True,
    columns=(*name_and_check("Stub", "one row for equal stubs, or one for each", 45, 28), *OF_THE_STAY, *SAW, *DRILL, *ASSEMBLE, *THROUGH, *ROOM, *HOLDS, *LOST),
    rules=(
        WAITS_FOR_BOAT,
        Rule("stay.twice", FIX, 'IF([stubs]="";FALSE();[stubs]>1)', "it is on another stub too", "stay"),
        Rule("top.short", FIX, 'IF([top_own]="";FALSE();[top]<RIG.TANG.TOP([rope_size];[bevel];[sleeve_wall];0))', "the eye does not fit on so short a stub", "top_own"),
        Rule("room", FIX, 'AND([room]<>"";ISERROR([hole]);ISNUMBER([hole_worst]))', "no hole keeps the rope below the stop, the stub has to go lower", "room"),
        waits_for("mast", "Masts"),
        waits_for("rod", "Library"),
        waits_for("bolt", "Library"),
        Rule("stay.wire", FIX, f'[stay.made_of]="{STAYS_WIRE}"', "it stays wire, and a stub takes rope only", "stay", "take this row out, or make the stay of rope"),
        Rule("number", FIX, "[number]<>[stay.number]", "the stay has another number on Stays", "number"),
        Rule("stay.row", WAITS, f'AND({stopped("stay")};ISERROR(FIND(" stays.stub";[stay.found])))', "Stays: {stay}", "stay"),
        Rule("off", DANGER, "[thrust]<0", "the pull is off the end of the stub", "thrust"),
        Rule("flip", DANGER, "[upright_worst]<boat_drill_off", "may flip over under load", "hole", "drill the hole {boat_drill_off-[upright_worst]:1} mm higher or more"),
        Rule("bolt.bends", DANGER, "[moment]>[straight]", "the load bends the bolt for good", "bolt", "take a stronger or thicker one"),
        Rule("ligament", DANGER, "[ligament]<[ligament_least]", "only {ligament:1} mm of rod above the bolt", "ligament"),
        Rule("bolt.spare", DANGER, "[bolt_spare]<0", "bolt holds {bolt_capacity:1} kN, short by {-[bolt_spare]:%}", "bolt"),
        Rule("wall.spare", DANGER, 'AND([wall_spare]<>"";[wall_spare]<0)', "mast wall is short by {-[wall_spare]:%}", "wall"),
        Rule("stay.over", WEIGH, '[stay.upper_over]<>"stub"', "on Stays the upper end of this stay does not lie on a stub", "stay"),
        Rule("rod.thin", WEIGH, "[rod_size]<[rod_needed]", "rod of {rod_size:1} mm is below the {rod_needed:1} mm needed", "rod"),
        Rule("hole.high", WEIGH, "[hole]<[hole_high]+boat_drill_off", "drilled {boat_drill_off} mm too high it would have too little rod above the bolt", "hole"),
        Rule("steep", WEIGH, "[bevel]>boat_bevel_free", "bevel above {boat_bevel_free}°", "bevel", "look at it with your rigger"),
        Rule("construction", WEIGH, 'OR([rod.construction]="sheet turned round";[rod.construction]="unknown")', "the fibres of the rod may not run along it", "rod", "ask the maker how it is built"),
        Rule("fit", WEIGH, 'LEFT([fit];LEN("fits"))<>"fits"', "the eye: {fit}", "fit"),
        Rule("beside.many", WEIGH, 'IF([beside]="";FALSE();[number]*[beside]>2)', "more than one stub on a side of the mast at this height", "beside", "give each a bolt of its own"),
        Rule("beside.unlike", WEIGH, 'IF([alike]="";FALSE();[alike]<[beside])', "another stub at this height has another bolt, another number of stubs on it, or another width of the mast", "alike"),
        Rule("sides.one", WEIGH, 'AND([sides]=1;[number]*IF([beside]="";1;[beside])>1)', "another stub stands on the other side at this height: two bolts for one hole", "sides", "set Stubs on one bolt to 2 on both"),
        Rule("sides.two", WEIGH, "AND([beside]=1;[number]=1;[sides]=2)", "half a bolt is left over: no stub is on its other side", "sides"),
        Rule("crowded", WEIGH, "[crowded]>0", "a stub below stands higher than the {FLOOR([clear_up];1)} mm down to which eye and rope need room", "crowded"),
        Rule("off_middle", WEIGH, "ABS([arm]/COS(RADIANS([angle]))-[root]-[grip]/2)>boat_off_middle*[grip]", "the pull is so far off the middle of the bolt in the stub that one end lifts off", "arm"),
        Rule("room.none", WEIGH, 'AND([room_left]<>"";[room_left]<0)', "does not fit under the stop by {-[room_left]:1} mm", "room"),
        Rule("room.order", WEIGH, 'AND([room_left]<>"";[room_left]>=0;[room_left]<[rise])', "fit the eye before the plate", "room_left"),
        Rule("out", WEIGH, "IF(ISNUMBER([stay.upper_out]);ABS([stay.upper_out]-[mast_width]/2)>boat_out_off;FALSE())", "the point on the mast is {stay.upper_out:0} mm out, half the mast's width is {[mast_width]/2:0} mm", "mast_width"),
        Rule("wall.unknown", WEIGH, '[wall]=""', "the mast wall is not measured, so it is not checked", "wall"),
        Rule("proof.unknown", WEIGH, 'AND([wall]<>"";[proof]="")', "the proof stress of the mast is not known, so its wall is not checked", "proof", "ask its maker, and type it on Masts"),
        Rule("bare", WEIGH, "[bare_margin]<1", "on the bare bolt the eye holds less than the load", "bare_margin"),
        Rule("rests", NOTE, '[rests]<>""', "no certificate: {rests}", "rests"),
    ),
)

SHEET = Sheet(
    "Tangs",
    "One row per stub of rod on the mast; fill what has a *. Mark-Out Sheet in the menu Rigging prints the stub you are in at 1:1.",
    (TANGS,),
    cautions=(ALOFT,),
)
