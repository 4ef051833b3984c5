"""Chainplates: one row per lower point: what hangs there, and whether plate or rope loop holds it."""

from templates.checks import NOTHING_FOUND
from templates.choices import ASSUMED, WITH_SPLICES
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
    name_and_check,
    number,
    stopped,
    text,
    waits_for,
)
from templates.sheets import remedies
from templates.sheets.library import unproven

METAL, LOOP = MADE_OF = ("metal", "rope loop")
BAR, HOLE = ROUND = ("bar", "hole")
IS_METAL, IS_LOOP = f'[made_of]="{METAL}"', f'[made_of]="{LOOP}"'
ROUND_A_HOLE = f'AND({IS_LOOP};[round]="{HOLE}")'
SIZES = ("thickness", "hole", "end", "side", "yield_stress")
ONLY_METAL, ONLY_LOOP = ("end", "side", "yield_stress", "pin"), ("rope_own", "turns", "round", "bar", "rounding", "apart", "ring_own")


def all_typed(*keys: str) -> str:
    return f"AND({typed_each(keys)})"


def any_typed(*keys: str) -> str:
    return f"OR({typed_each(keys)})"


def typed_each(keys: "tuple[str, ...]") -> str:
    return ";".join(f'[{key}]<>""' for key in keys)


def of_loop(formula: str) -> str:
    return f'IF({IS_LOOP};{formula};"")'


def hanging(column: str) -> str:
    """Formula: a column of Stays, added up over what hangs here; one stay is looked up, which is quicker."""
    one, several = f"[stay.{column}]", f"SUMPRODUCT(IF(stays_lower=[name];stays_{column};0))"
    return f"IF([hangs]=0;0;IF([hangs]=1;{one};{several}))"


def largest(column: str) -> str:
    """Formula: the largest of that column of Stays, of what hangs here; 0 where none has one."""
    return f"IF([hangs]=0;0;IF([hangs]=1;N([stay.{column}]);SUMPRODUCT(MAX(IF((stays_lower=[name])*ISNUMBER(stays_{column});stays_{column};0)))))"


# Wire that stays has no lashing.
PASSES = 'IF([hangs]=0;"";IF([hangs]=1;IF(ISNUMBER([stay.passes]);[stay.passes];0);SUMPRODUCT(IF((stays_lower=[name])*ISNUMBER(stays_passes);stays_passes;0))))'
PULLS = "[pull_fore];[pull_out];[pull_up]"
HANGS_THERE = block(
    "What hangs there",
    calculated("stay", "Stay", "", 'IF(ISNA(MATCH([name];stays_lower;0));"";INDEX(stays_name;MATCH([name];stays_lower;0)))', "the first whose lower point this is", choices="stays_name", width=28),
    calculated("hangs", "Rows there", "", 'COUNTIFS(stays_lower;"="&[name])', "rows of Stays whose lower point this is", format="0", width=14),
    calculated("stays_at_one", "Stays there", "", hanging("at_one_plate"), "stays on one such plate or loop", format="0", width=14),
    calculated("count", "Number", "", largest("plates"), "of plates or loops: one to port and one to starboard where Side of the stays is both", format="0", width=14),
    calculated("wire_break", "Wire's break", "kN", largest("wire_break"), "of the strongest wire that hung here, or does", format="0.0"),
    calculated("blind", "Without a direction", "", 'IF([hangs]=0;0;IF([hangs]=1;IF([stay.upper]="";1;0);[hangs]-COUNTIFS(stays_lower;"="&[name];stays_upper;"<>")))', "rows there without an upper point: nobody knows which way they pull", format="0"),
    calculated("pull_fore", "Pulls forward", "kN", hanging("plate_fore"), "of all that hangs there, each at its Load; aft is negative", format="0.00"),
    calculated("pull_out", "Pulls outward", "kN", hanging("plate_out"), "inward, to the mast, is negative", format="0.00"),
    calculated("pull_up", "Pulls up", "kN", hanging("plate_up"), "the same upwards", format="0.00"),
    calculated("pull", "Pull", "kN", f"IF([blind]>0;NA();RIG.PULL.SUM({PULLS}))", "of all together, as forces in space; each at its largest load, so it is on the safe side", format="0.0"),
    calculated("lean_fore", "Leans forward", "°", f'IF([hangs]=0;"";RIG.PULL.LEAN.FORE({PULLS}))', "of the pull, from upright, seen from the side; a plate stands in line with it", format="0.0"),
    calculated("lean_out", "Leans outward", "°", f'IF([hangs]=0;"";RIG.PULL.LEAN.OUT({PULLS}))', "the same in the bow view; to the mast is negative", format="0.0"),
)

PLATE = block(
    "Plate, bar and fastening",
    choice("made_of", "Made of", MADE_OF, "a metal plate, or a loop of rope round a bar or through a plate", required=True, width=18),
    number("holds_own", "Holds, surveyor", "kN", 0.1, 5000, "design capacity of plate or bar with its fastening; blank is not checked", format="0.0"),
    number("thickness", "Thickness", "mm", 1, 100, "of the plate; with hole, end, side and yield it is worked out what it holds", format="0.0"),
    number("hole", "Hole", "mm", 3, 150, "diameter, for pin, lashing or loop", format="0.0"),
    number("end", "Plate beyond hole", "mm", 1, 500, "from the hole's edge, the way the stay pulls", format="0.0"),
    number("side", "Plate beside hole", "mm", 1, 500, "from the hole's edge, on its narrower side", format="0.0"),
    number("yield_stress", "Yield stress", "MPa", 80, 1200, "or proof stress, from the metal's certificate", format="0"),
    number("pin", "Pin", "mm", 3, 100, "diameter, if a pin or shackle bears in the hole", format="0.0"),
    calculated("by_size", "By its size", "kN", f'IF(AND({IS_METAL};{all_typed(*SIZES)});RIG.PLATE.CAPACITY([thickness];[hole];[end];[side];[yield_stress];boat_plate_gamma);"")', "what the plate round its hole can carry", format="0.0"),
    calculated("by_pin", "By its pin", "kN", f'IF(AND({IS_METAL};{all_typed("pin", "thickness", "yield_stress")});RIG.PIN.BEARING([pin];[thickness];[yield_stress];boat_plate_gamma);"")', "what the pin can bear in the hole", format="0.0"),
    calculated("metal_holds", "Metal holds", "kN", 'IF([holds_own]<>"";MIN([holds_own];[by_size];[by_pin]);IF(AND([by_size]="";[by_pin]="");"";MIN([by_size];[by_pin])))', "the least that is known of it; blank is not checked", format="0.0"),
    calculated("end_needed", "Beyond hole, needed", "mm", 'IF(OR([by_size]="";[hangs]=0);"";RIG.PLATE.END([pull]*boat_margin_metal;[thickness];[hole];[yield_stress];boat_plate_gamma))', "plate beyond the hole that holds the pull with the safety factor for metal", format="0.0"),
    calculated("side_needed", "Beside hole, needed", "mm", 'IF(OR([by_size]="";[hangs]=0);"";RIG.PLATE.SIDE([pull]*boat_margin_metal;[thickness];[hole];[yield_stress];boat_plate_gamma))', "the same beside it", format="0.0"),
)

ROPE = block(
    "Rope loop",
    choice("rope_own", "Rope, override", "rope_name", "of the loop, if not the boat's", width=30),
    number("turns", "Turns", "", 1, 12, "times round, each with two legs", whole=True, format="0"),
    choice("round", "Loop round", ROUND, "a bar, or through the hole of a plate", width=18),
    number("bar", "Bar", "mm", 3, 300, "diameter of the bar, smooth", format="0.0"),
    number("rounding", "Rounding", "mm", 0.5, 50, "radius to which both edges of the hole are rounded", format="0.0"),
    number("apart", "Loop, bar to ring", "mm", 20, 5000, "from the middle of the bar, or the hole's upper rim, to the middle of the ring: the point on Points is there", format="0"),
    choice("ring_own", "Ring, override", "ring_name", "in the loop's upper end, if not the boat's", width=24),
    calculated("rope", "Rope", "", of_loop('IF([rope_own]="";boat_rope;[rope_own])'), "used", choices="rope_name", width=30),
    calculated("rope_size", "Rope", "mm", of_loop("[rope.size]"), "diameter", format="0.0"),
    calculated("ring", "Ring", "", of_loop('IF([ring_own]="";boat_ring;[ring_own])'), "used: the stay is lashed to it", choices="ring_name", width=24),
    calculated("around", "Loop round", "mm", of_loop(f'IF([round]="{HOLE}";[thickness];[bar])'), "what lies between its legs: the bar, or the plate", format="0.0"),
    calculated("bends", "Bends over", "mm", of_loop(f'IF([round]="{HOLE}";RIG.BEND.EDGE([thickness];[rounding]);[bar])'), "diameter of the bar, or of the rounded edge", format="0.0"),
    calculated("bend", "Bend", "share", of_loop("MIN(RIG.BEND.ROPE([bends]/[rope_size];[rope.least]);RIG.BEND.ROPE([ring.groove]/[rope_size];[rope.least]))"), "of breaking load left where it bends most, at bar, edge or ring", format="0.00"),
    calculated("splice", "Splice", "share", of_loop(f'IF([rope.spliced]="{WITH_SPLICES}";1;boat_splice)'), "1 where the rope was measured with splices", format="0.00"),
    calculated("loop_holds", "Loop holds", "kN", of_loop("RIG.GROMMET.CAPACITY([rope.break_load];[splice];[bend];IF([turns]>1;boat_turns_uneven;boat_uneven);[turns])*boat_ageing"), "all its legs, aged", format="0.0"),
    calculated("hole_needed", "Hole for the turns", "mm", f'IF({ROUND_A_HOLE};RIG.LASHING.HOLE(2*[turns]-1;[rope_size]);"")', "least diameter through which they go", format="0.0"),
)

HOLDS = block(
    "Holds",
    calculated("spare_metal", "Metal", "spare", 'IF(OR([metal_holds]="";[hangs]=0);"";[metal_holds]/[pull]/boat_margin_metal-1)', "over the safety factor for metal", format="0 %"),
    calculated("spare_rope", "Loop", "spare", 'IF(OR([loop_holds]="";[hangs]=0);"";[loop_holds]/[pull]/boat_margin-1)', "over the safety factor for rope", format="0 %"),
    calculated("spare", "Smallest", "spare", 'IF(AND([spare_metal]="";[spare_rope]="");"";MIN([spare_metal];[spare_rope]))', "a link of every stay that hangs there", format="0 %"),
    calculated("lashing_hole", "Hole for lashing", "mm", f'IF({IS_LOOP};[ring.hole];IF([hole]="";"";[hole]))', "of the ring in the loop, or of the plate", format="0.0"),
    calculated("edge", "Lashing's edge", "mm", f'IF({IS_LOOP};[ring.groove]/2+[rope_size];IF([hole]="";0;IF([end]="";[hole];[hole]/2+[end])))', "from the middle of that hole to the edge that the stay's ring would meet", format="0.0"),
    calculated("passes", "Lashings pass", "times", PASSES, "through that hole, of all stays there: half the parts of each and once more", format="0"),
    calculated("line_size", "Thickest lashing line", "mm", f'IF([hangs]=0;"";{largest("line_size")})', "of the stays there", format="0.0"),
    calculated("passes_hole", "Hole for lashings", "mm", 'IF(N([passes])=0;"";RIG.LASHING.HOLE(1;[line_size];[passes]))', "least diameter through which they all go, as if all were of the thickest line there", format="0.0"),
    calculated("room", "Room for", "parts", 'IF(OR([hangs]=0;[lashing_hole]="");"";IF([stay.line]="";"";RIG.LASHING.ROOM([lashing_hole];[stay.line.size])))', "of the lashing of the stay, if nothing else is in the hole", format="0"),
    calculated("rests", "No certificate", "", of_loop(f'TEXTJOIN(", ";TRUE();{unproven("rope", "rope")};{unproven("ring", "ring")})'), "what the loop rests on that has no certificate", width=24),
)

MAKE = block(
    "Make and buy",
    calculated("inside", "Inside", "mm", of_loop("RIG.GROMMET.INSIDE([apart];[around];[ring.groove])"), "of the loop laid flat, taut", format="0"),
    calculated("bury", "Bury", "mm", of_loop("RIG.BURY([rope_size];boat_bury)"), "of each tail", format="0"),
    calculated("cut", "Cut", "mm", of_loop("RIG.GROMMET.CUT([inside];[rope_size];[bury];[rope.take_up];boat_waste;[turns];[rope.lasting_set])"), "rope to cut for one loop", format="0"),
    calculated("rope_total", "Rope, all", "m", of_loop("[count]*[cut]/1000"), "for all loops of this row", format="0.00"),
    text("note", "Note", "who says what it holds, when it was looked at", width=50),
)

PER_TURN = "(2*[inside]+PI()*[rope_size])"
MORE_TURNS = "CEILING([turns]/(1+[spare_rope]);1)"
CHAINPLATES = Table(
    "chainplates",
    "Chainplates",
    (
        *name_and_check("Lower point", "picked from Points: where stays end below", 43, 42, "points_name"),
        *PLATE,
        *ROPE,
        *HANGS_THERE,
        *HOLDS,
        *MAKE,
    ),
    rules=(
        WAITS_FOR_BOAT,
        Rule("mast", FIX, '[points.on_mast]<>""', "it is on a mast: pick a point where stays end below", "name"),
        Rule("blind", FIX, "[blind]>0", "of {blind} of the stays there no upper point is picked, so nobody knows which way they pull", "name", "pick it on Stays"),
        Rule("end.small", FIX, f"IF(AND({IS_METAL};{all_typed('hole', 'end')});[end]<=2/3*[hole];FALSE())", "a hole of {hole:1} mm needs more than {2/3*[hole]:1} mm of plate beyond it, here are {end:1} mm", "end"),
        Rule("side.small", FIX, f"IF(AND({IS_METAL};{all_typed('hole', 'side')});[side]<=[hole]/3;FALSE())", "a hole of {hole:1} mm needs more than {[hole]/3:1} mm of plate beside it, here are {side:1} mm", "side"),
        Rule("pin.thick", FIX, f"IF(AND({IS_METAL};{all_typed('hole', 'pin')});[pin]>[hole];FALSE())", "it does not go through a hole of {hole:1} mm", "pin"),
        *(Rule(f"{key}.none", FIX, f'AND({IS_LOOP};[{key}]="")', "it is blank", key) for key in ("turns", "round", "apart")),
        Rule("bar.none", FIX, f'AND({IS_LOOP};[round]="{BAR}";[bar]="")', "it is blank", "bar"),
        *(Rule(f"{key}.none", FIX, f'AND({ROUND_A_HOLE};[{key}]="")', "it is blank, and the loop goes through the plate's hole", key) for key in ("thickness", "hole", "rounding")),
        Rule("rounding.large", FIX, f"IF({ROUND_A_HOLE};[rounding]>[thickness]/2;FALSE())", "a plate of {thickness:1} mm can be rounded by {[thickness]/2:1} mm on both edges", "rounding"),
        Rule("hole.small", FIX, f"IF({ROUND_A_HOLE};[hole_needed]>[hole];FALSE())", "{turns} turns of this rope need a hole of {hole_needed:0} mm, here it is {hole:0} mm", "hole", "take fewer turns, thinner rope or a bar"),
        Rule("apart.short", FIX, f"IF({IS_LOOP};[apart]<=([around]+[ring.groove])/2;FALSE())", "bar and ring would touch: it has to be more than {([around]+[ring.groove])/2:0} mm", "apart"),
        Rule("turns.few", FIX, f"IF({IS_LOOP};[turns]*{PER_TURN}<2*[bury];FALSE())", f"once round are {{{PER_TURN}:0}} mm, and both tails need {{2*[bury]:0}} mm", "turns", f"take {{CEILING(2*[bury]/{PER_TURN};1)}} turns or more, or thinner rope"),
        waits_for("rope", "Library"),
        waits_for("ring", "Library"),
        Rule("name.row", WAITS, stopped("points"), "Points: {name}", "name"),
        Rule("stays", WAITS, "ISERROR([pull])+ISERROR([wire_break])>0", "Stays: what hangs there", "pull"),
        # A stay waits for its chainplate, so of its state only the part about the row itself may be read here.
        Rule("stays.row", WAITS, f'IF([hangs]=0;FALSE();SUMPRODUCT((stays_lower=[name])*(stays_found_row<>"")*(stays_found_row<>"{NOTHING_FOUND}"))>0)', "Stays: what hangs there", "hangs"),
        Rule("spare.metal", DANGER, 'IF([spare_metal]="";FALSE();[spare_metal]<0)', "metal holds {metal_holds:1} kN, short by {-[spare_metal]:%}", "holds_own", 'it has to hold {ROUNDUP([pull]*boat_margin_metal;1):1} kN{IF([by_size]="";"";", which takes "&FIXED(ROUNDUP([end_needed];1);1)&" mm of plate beyond the hole and "&FIXED(ROUNDUP([side_needed];1);1)&" mm beside it")}'),
        Rule("spare.rope", DANGER, 'IF([spare_rope]="";FALSE();[spare_rope]<0)', "the loop holds {loop_holds:1} kN, short by {-[spare_rope]:%}", "turns", f"take {{{MORE_TURNS}}} turns or thicker rope"),
        Rule("ring.load", DANGER, f"IF({IS_LOOP};[pull]>[ring.load];FALSE())", "the pull of {pull:1} kN is above the ring's working load of {ring.load:1} kN", "ring_own", f'{{{remedies.ring("[pull]", groove="[ring.groove]")}}}'),
        Rule("passes", WEIGH, 'IF(OR([passes_hole]="";[lashing_hole]="";[stays_at_one]<2);FALSE();[passes_hole]>[lashing_hole])', "the lashings of {stays_at_one:0} stays pass {passes:0} times and need a hole of {ROUNDUP([passes_hole];0):0} mm, here it is {lashing_hole:0} mm", "hole", "give each stay a hole of its own, or take thinner line"),
        Rule("hangs.none", WEIGH, "[hangs]=0", "no stay ends here", "name", "pick the point on Stays, or take this row out"),
        Rule("unknown", WEIGH, f'AND({IS_METAL};[metal_holds]="")', "nobody has said what it holds, so it is not checked", "holds_own", "ask a surveyor, or type thickness, hole, plate round it and yield stress"),
        Rule("bar.unknown", WEIGH, f'AND({IS_LOOP};[holds_own]="")', "nobody has said what its bar or plate holds with its fastening, so only the rope is checked", "holds_own", "ask a surveyor"),
        Rule("sizes", WEIGH, f'AND({IS_METAL};[by_size]="";{any_typed("thickness", "end", "side", "yield_stress")})', "not all of thickness, hole, plate round it and yield stress are there, so its size is not checked", "thickness"),
        Rule("wire.metal", WEIGH, 'IF([metal_holds]="";FALSE();[metal_holds]*boat_gamma<[wire_break])', "plate of {metal_holds:0} kN where wire of {wire_break:0} kN hung: fittings used to outlast their wire", "holds_own", "ask who gave the figure, or whether the wire was thicker than it need be"),
        Rule("wire.rope", WEIGH, 'IF([loop_holds]="";FALSE();[loop_holds]<[wire_break])', "loop of {loop_holds:0} kN where wire of {wire_break:0} kN hung", "turns", "take one turn more"),
        Rule("strong", WEIGH, 'IF(OR([metal_holds]="";[hangs]=0);FALSE();[metal_holds]>boat_too_strong*[pull])', "it is very strong for the pull of {pull:1} kN", "holds_own", "is it in kN?"),
        Rule("yield.large", WEIGH, 'IF([yield_stress]="";FALSE();[yield_stress]>boat_yield_most)', "{[yield_stress]:0} MPa is high, stainless plate has up to {boat_yield_most:0} MPa", "yield_stress", "is it the tensile strength?"),
        Rule("overlap", WEIGH, f"IF({IS_LOOP};[turns]*{PER_TURN}<2*boat_growth*[bury];FALSE())", "the marks of the two tails overlap", "turns", "take one turn more, or mark the second tail when the first is done"),
        Rule("trial", WEIGH, f'[rope.trial]="{ASSUMED}"', "take-up and set of the rope are assumed", "rope.trial", "pull a trial splice, as All Bench Pages says"),
        Rule("thin", WEIGH, f"IF({IS_LOOP};[bends]<[rope.least]*[rope_size];FALSE())", "it bends over {bends:0} mm, the rope's minimum bend is {[rope.least]*[rope_size]:0} mm, which costs strength", "bar", "take a thicker bar or round the edges more"),
        Rule("fastening", NOTE, 'AND([holds_own]="";[by_size]<>"")', "nobody has said what its fastening to the hull holds", "holds_own"),
        Rule("unused", NOTE, f"OR(AND({IS_METAL};{any_typed(*ONLY_LOOP)});AND({IS_LOOP};{any_typed(*ONLY_METAL)}))", f'what is typed of a {{IF({IS_LOOP};"{METAL} plate";"{LOOP}")}} does not count', "made_of"),
        Rule("rests", NOTE, '[rests]<>""', "no certificate: {rests}", "rests"),
    ),
    typed=("made_of", "holds_own", "hole", "turns", "round", "bar", "apart"),
    results=("stay", "pull", "metal_holds", "loop_holds", "spare", "cut"),
    lines=2,
    spare=2,
    ready=8,
    in_parts=True,
)

SHEET = Sheet(
    "Chainplates",
    "One row per point where stays end below: pick it, say whether metal or a rope loop holds there. Blank is not checked.",
    (CHAINPLATES,),
)
