"""Rod tang: the bevelled stub of round rod on the mast bolt, and the eye that drops over it.

The mast face is vertical, the bolt square to it, and the rod's axis rises outboard by the bevel. Its length
on the axis is top + rod/2 · tan(bevel).
"""

from math import pi, sqrt
from typing import Annotated, Any, Optional

from loftsheet import measure
from loftsheet.degrees import cos, sin, tan
from loftsheet.errors import BadInput, NoSolution
from loftsheet.eye import eye_reach
from loftsheet.forms import COLUMN
from loftsheet.quantities import (
    Bevel,
    Bolt,
    BoltHole,
    Count,
    Degrees,
    Eye,
    Hole,
    Kilograms,
    Kilonewtons,
    Millimetres,
    OutAngle,
    Pad,
    Plate,
    Rise,
    Rod,
    Room,
    Rope,
    Rows,
    Seat,
    Sleeve,
    Tension,
    Top,
    angle,
    count,
    length,
    number,
    ratio,
)
from loftsheet.registry import calc
from loftsheet.stubs import back_to_back, lengths_needed, wrap_rows

GROUP = "Rod tang"

ExtraAngle = Annotated[float, angle("added to the stay's angle, the tolerance of the survey", most=10)]
Clearance = Annotated[float, length("play beside the eye", least=0, most=50)]
Eyes = Annotated[float, count("eyes side by side on the stub", most=4)]
EndExtra = Annotated[float, length("plate above the sleeved rope", least=0, most=50)]
Washer = Annotated[float, length("diameter of the washer", most=200)]
ThinEdge = Annotated[float, length("thickness of the washer's thin edge", most=20)]
HalfFore = Annotated[float, length("half the mast's section, fore and aft", most=500)]
HalfOut = Annotated[float, length("half the mast's section, athwartships", most=500)]
Projection = Annotated[float, length("how far a thing stands out from the mast face", most=2_000)]
ClearAngle = Annotated[float, angle("angle at which the stay leaves the mast face", least=0.1, most=45)]
Density = Annotated[float, number("density of the rod", measure.DENSITY, 500, 10_000)]
LeastRatio = Annotated[float, ratio("least rod diameter in rope diameters", least=1, most=20)]
LeastLigament = Annotated[float, length("rod that must stand above the bolt", most=100)]
Stock = Annotated[float, length("length of the rod as bought", most=10_000)]
Kerf = Annotated[float, length("width of the saw's cut", least=0, most=20)]
Hold = Annotated[float, length("length that must stay in the clamp", least=0, most=1_000)]
Points = Annotated[float, count("points of the template, both ends included", least=5, most=361)]
Bevels = Annotated[Any, angle("bevel of each row's stubs", most=35, form=COLUMN)]
Tops = Annotated[Any, length("short side of each row's stubs", most=300, form=COLUMN)]
Counts = Annotated[Any, count("number of stubs of each row", least=0, form=COLUMN)]


@calc("RIG.TANG.BEVEL", group=GROUP)
def bevel(out_angle: OutAngle, extra: ExtraAngle = 2.0) -> Degrees:
    """Bevel to saw, so that the rod's axis stands square to the stay or a little beyond.

    Formula: bevel = out_angle + extra
    Limits: up to 25° free, above that questioned. `extra` is the tolerance of the survey, so that the eye is never
    led off the end; it is friction that holds the eye, not these degrees.
    Errors: Err:502 where the bevel comes to more than 35°.
    Source: geometry; 2° for `extra` and the limits of 25° and 35° are assumed.
    """
    bevel_angle = out_angle + extra  # °
    if bevel_angle > 35:
        raise BadInput(
            f"a bevel of {bevel_angle:g}° is due, allowed is up to 35°; at so flat a stay use another fitting"
        )
    return bevel_angle


@calc("RIG.TANG.THRUST", group=GROUP)
def thrust(tension: Tension, out_angle: OutAngle, bevel: Bevel) -> Kilonewtons:
    """Part of the stay's tension along the rod, positive towards the mast, negative off the end.

    Formula: thrust = tension · sin(bevel − out_angle)
    Limits: the stay lies in the plane of the bevel.
    Source: statics.
    """
    thrust_force = tension * sin(bevel - out_angle)  # kN
    return thrust_force


@calc("RIG.TANG.TOP", group=GROUP)
def top(
    rope: Rope, bevel: Bevel, sleeve: Sleeve = 1.0, clearance: Clearance = 3.0, eyes: Eyes = 1.0
) -> Millimetres:
    """Short side of the stub, on top, where the eye lies in the corner between mast and rod.

    Formula: top = t/2 · (1 + tan(45° + bevel/2)) + (eyes − 1) · t + clearance, t = rope + 2 · sleeve
    Limits: round rope that keeps its diameter; under load it flattens and needs the clearance.
    Source: geometry of a circle in a corner of 90° − bevel; sleeve and clearance are assumed.
    """
    sleeved = rope + 2 * sleeve  # mm
    first_eye = sleeved / 2 * (1 + tan(45 + bevel / 2))  # mm
    further_eyes = (eyes - 1) * sleeved  # mm
    top_length = first_eye + further_eyes + clearance  # mm
    return top_length


@calc("RIG.TANG.BASE", group=GROUP)
def base(rod: Rod, bevel: Bevel, top: Top) -> Millimetres:
    """Long side of the stub, below.

    Formula: base = top + rod · tan(bevel)
    Limits: plane cuts, one square, one bevelled.
    Source: geometry of a mitre.
    """
    longer_by = rod * tan(bevel)  # mm
    base_length = top + longer_by  # mm
    return base_length


@calc("RIG.TANG.FACE", group=GROUP)
def face(rod: Rod, bevel: Bevel) -> Millimetres:
    """Height of the bevelled face of the stub.

    Formula: face = rod / cos(bevel)
    Limits: plane cut.
    Source: geometry of a mitre.
    """
    face_height = rod / cos(bevel)  # mm
    return face_height


@calc("RIG.TANG.HOLE", group=GROUP, together=[("room", "rope", "sleeve", "plate", "rise")])
def hole(
    rod: Rod,
    bevel: Bevel,
    top: Top,
    room: Optional[Room] = None,
    rope: Optional[Rope] = None,
    sleeve: Optional[Sleeve] = None,
    plate: Optional[Plate] = None,
    rise: Optional[Rise] = None,
) -> Millimetres:
    """Where to drill: from the top edge of the bevelled face down to the hole's centre.

    Formula: the smallest of 0.45 · RIG.TANG.FACE (a little above the middle), rod/2 · cos(bevel) − top/2 ·
    sin(bevel) (so that the stub stays upright under load) and, with room given, the largest hole with RIG.TANG.GAP
    ≥ 0
    Limits: room, rope, sleeve, plate and rise are given together or not at all. It is the lowest hole allowed:
    where staying upright governs, RIG.TANG.UPRIGHT is then 0 and any hole higher up is better for it.
    Errors: Err:523 where no hole is left; Err:502 where room or what belongs to it is given by half.
    Source: geometry; 0.45 common practice, no source.
    """
    above_middle = 0.45 * face(rod, bevel)  # mm
    stays_upright = rod / 2 * cos(bevel) - top / 2 * sin(bevel)  # mm
    under_stop = (
        above_middle if room is None else gap_without_hole(room, bevel, top, rope, sleeve, plate, rise)
    )  # mm
    hole_depth = min(above_middle, stays_upright, under_stop)  # mm
    if hole_depth <= 0:
        raise NoSolution(
            f"no hole is left: {above_middle:.4g} mm a little above the middle, {stays_upright:.4g} mm to stay "
            f"upright, {under_stop:.4g} mm under the stop; use a thicker rod, a shorter stub or more room"
        )
    return hole_depth


def gap_without_hole(room: Any, bevel: Any, top: Any, rope: Any, sleeve: Any, plate: Any, rise: Any) -> float:
    """What is left under the stop with a hole at the very edge, which is also the deepest hole that fits."""
    sleeved = rope + 2 * sleeve
    over_eye = (top - sleeved / 2) * sin(bevel) + sleeved / 2 * (1 + cos(bevel))
    over_plate = (top + plate) * sin(bevel) + rise * cos(bevel)
    return float(room - max(over_eye, over_plate))


@calc("RIG.TANG.UPRIGHT", group=GROUP)
def upright(rod: Rod, bevel: Bevel, top: Top, hole: Hole, seat: Optional[Seat] = None) -> Millimetres:
    """How far the load's point on the rod's axis lies below the bolt; positive stays the right way up.

    Formula: upright = rod/2 · cos(bevel) − seat · sin(bevel) − hole
    Limits: seat is top/2 if left out; top − (rope + 2 · sleeve)/2 is the eye at the end plate, the worst case.
    Negative: the stub flips over under load.
    Errors: Err:502 where the hole comes out below the square end, or the seat lies beyond the top.
    Source: statics of a body hung on a pin.
    """
    seat_used = top / 2 if seat is None else seat  # mm
    if seat_used > top:
        raise BadInput(beyond_the_top(seat_used, top))
    deepest = deepest_hole(rod, bevel, top)  # mm
    if hole >= deepest:
        raise BadInput(comes_out_below(hole, deepest))
    below_top_edge = rod / 2 * cos(bevel) - seat_used * sin(bevel)  # mm
    below_bolt = below_top_edge - hole  # mm
    return below_bolt


def beyond_the_top(seat: float, top: float) -> str:
    return f"seat {seat:g} mm lies beyond the top of {top:g} mm; it must be at most that"


def deepest_hole(rod: float, bevel: float, top: float) -> float:
    """The hole that would come out at the very bottom: rod · cos(bevel) − top · sin(bevel)."""
    return rod * cos(bevel) - top * sin(bevel)


def comes_out_below(hole: float, deepest: float) -> str:
    if deepest <= 0:
        return "no hole comes out inside the square end of so long a stub; use a shorter one or a thicker rod"
    return (
        f"hole {hole:g} mm comes out below the square end; it must be less than {deepest:.4g} mm down, or the "
        "stub shorter or the rod thicker"
    )


@calc("RIG.TANG.LIGAMENT", group=GROUP)
def ligament(hole: Hole, bolt_hole: BoltHole) -> Millimetres:
    """Rod that stands above the bolt at the mast.

    Formula: ligament = hole − bolt_hole/2
    Limits: under the larger of 0.75 · bolt_hole and 8 mm it is questioned.
    Errors: Err:502 where nothing is left above the bolt hole.
    Source: geometry; the least is common practice, no source.
    """
    above_bolt = hole - bolt_hole / 2  # mm
    if above_bolt <= 0:
        raise BadInput(
            f"hole {hole:g} mm leaves no rod above a bolt hole of {bolt_hole:g} mm; it must be more than "
            f"{bolt_hole / 2:g} mm down"
        )
    return above_bolt


@calc("RIG.TANG.GRIP", group=GROUP)
def grip(rod: Rod, bevel: Bevel, top: Top, hole: Hole) -> Millimetres:
    """Length of bolt inside the stub.

    Formula: grip = top · cos(bevel) + RIG.TANG.EXIT · sin(bevel)
    Limits: a straight hole, square to the mast.
    Errors: Err:502 where the hole comes out below the square end.
    Source: geometry of a line and a cylinder cut by two planes.
    """
    exit_depth = exit_hole(rod, bevel, top, hole)  # mm
    grip_length = top * cos(bevel) + exit_depth * sin(bevel)  # mm
    return grip_length


@calc("RIG.TANG.EXIT", group=GROUP)
def exit_hole(rod: Rod, bevel: Bevel, top: Top, hole: Hole) -> Millimetres:
    """Where the hole comes out, from the top of the square end; the end plate is drilled there too.

    Formula: exit = hole / cos(bevel) + top · tan(bevel)
    Limits: a straight hole, square to the mast.
    Errors: Err:502 where the hole comes out below the square end.
    Source: geometry of a line and a cylinder cut by two planes.
    """
    deepest = deepest_hole(rod, bevel, top)  # mm
    if hole >= deepest:
        raise BadInput(comes_out_below(hole, deepest))
    exit_depth = hole / cos(bevel) + top * tan(bevel)  # mm
    return exit_depth


@calc("RIG.TANG.LIGAMENT.END", group=GROUP)
def ligament_end(rod: Rod, bevel: Bevel, top: Top, hole: Hole, bolt_hole: BoltHole) -> Millimetres:
    """Rod that stands below the bolt at the outer end.

    Formula: ligament = rod − RIG.TANG.EXIT − bolt_hole/2 / cos(bevel)
    Limits: a straight hole, square to the mast.
    Errors: Err:502 where nothing is left below the bolt hole, or the hole comes out below the square end.
    Source: geometry.
    """
    exit_depth = exit_hole(rod, bevel, top, hole)  # mm
    half_hole = bolt_hole / 2 / cos(bevel)  # mm
    below_bolt = rod - exit_depth - half_hole  # mm
    if below_bolt <= 0:
        raise BadInput(
            f"the bolt hole of {bolt_hole:g} mm leaves no rod below it at the outer end ({below_bolt:.4g} mm); "
            "drill it higher, or use a shorter stub or a thicker rod"
        )
    return below_bolt


@calc("RIG.TANG.RISE", group=GROUP)
def rise(rope: Rope, sleeve: Sleeve = 1.0, extra: EndExtra = 3.0) -> Millimetres:
    """How far the end plate stands above the rod, so that a slack eye cannot fall off.

    Formula: rise = rope + 2 · sleeve + extra
    Limits: one layer of sleeved rope.
    Source: geometry; sleeve and `extra` are assumed.
    """
    sleeved = rope + 2 * sleeve  # mm
    plate_rise = sleeved + extra  # mm
    return plate_rise


@calc("RIG.TANG.GAP", group=GROUP)
def gap(
    room: Room,
    bevel: Bevel,
    top: Top,
    hole: Hole,
    rope: Rope,
    sleeve: Sleeve = 1.0,
    plate: Plate = 0.0,
    rise: Rise = 0.0,
) -> Millimetres:
    """What is left between the stub with its eye and a spreader or another stop above it.

    Formula: gap = room − the larger of hole + (top − t/2) · sin(bevel) + t/2 · (1 + cos(bevel)), the eye's top,
    and hole + (top + plate) · sin(bevel) + rise · cos(bevel), the plate's corner; t = rope + 2 · sleeve
    Limits: a level stop, the eye at the outer end where there is least room, and a top no shorter than
    RIG.TANG.TOP. Negative: it does not fit. With a plate, a positive gap smaller than the sleeved rope is
    questioned: the eye must then be put on before the plate.
    Source: geometry; the sleeve is assumed.
    """
    sleeved = rope + 2 * sleeve  # mm
    eye_top = hole + (top - sleeved / 2) * sin(bevel) + sleeved / 2 * (1 + cos(bevel))  # mm
    plate_corner = hole + (top + plate) * sin(bevel) + rise * cos(bevel)  # mm
    gap_left = room - max(eye_top, plate_corner)  # mm
    return gap_left


@calc("RIG.TANG.WEDGE", group=GROUP)
def wedge(washer: Washer, bevel: Bevel, thin: ThinEdge = 1.5) -> Millimetres:
    """Thick edge of the tapered washer between end plate and nut.

    Formula: thick = thin + washer · tan(bevel)
    Limits: the washer is keyed, or the torque of the nut turns it.
    Source: geometry; the thin edge is assumed.
    """
    thick_edge = thin + washer * tan(bevel)  # mm
    return thick_edge


@calc("RIG.TANG.SADDLE", group=GROUP)
def saddle(rod: Rod, half_fore: HalfFore, half_out: HalfOut) -> Millimetres:
    """Depth of the hollow to fill behind the stub on a curved mast.

    Formula: saddle = half_out · (1 − √(1 − (rod/2 / half_fore)²))
    Limits: an elliptical section, at the rod's edge.
    Errors: Err:502 where the rod is wider than the mast.
    Source: geometry of the ellipse.
    """
    if rod / 2 > half_fore:
        raise BadInput(f"rod {rod:g} mm is wider than the mast of {2 * half_fore:g} mm; use a thinner rod")
    hollow = half_out * (1 - sqrt(1 - (rod / 2 / half_fore) ** 2))  # mm
    return hollow


@calc("RIG.TANG.CLEAR", group=GROUP)
def clear(projection: Projection, out_angle: ClearAngle) -> Millimetres:
    """How far below its fitting a stay clears what stands out from the mast.

    Formula: clear = projection / tan(out_angle)
    Limits: a straight stay that starts at the mast face.
    Source: geometry.
    """
    clear_below = projection / tan(out_angle)  # mm
    return clear_below


@calc("RIG.TANG.ARM", group=GROUP)
def arm(
    rod: Rod,
    bevel: Bevel,
    top: Top,
    hole: Hole,
    out_angle: OutAngle,
    pad: Pad = 0.0,
    seat: Optional[Seat] = None,
) -> Millimetres:
    """Lever of the stay's pull on the bolt, about the bolt's centre at the mast face.

    Formula: arm = pad · cos(out_angle) + seat · cos(bevel − out_angle) + rod/2 · sin(bevel − out_angle) + hole ·
    sin(out_angle); seat is top/2 if left out
    Limits: the worst case is seat = top − (rope + 2 · sleeve)/2, the eye at the end plate. The pull is taken
    through the rod's axis square below the eye's middle, which gives the longer lever as long as the bevel is no
    less than out_angle.
    Errors: Err:502 where the seat lies beyond the top, or the hole comes out below the square end.
    Source: statics; no pad and the middle of the top are assumed.
    """
    seat_used = top / 2 if seat is None else seat  # mm
    if seat_used > top:
        raise BadInput(beyond_the_top(seat_used, top))
    deepest = deepest_hole(rod, bevel, top)  # mm
    if hole >= deepest:
        raise BadInput(comes_out_below(hole, deepest))
    lean = bevel - out_angle  # °
    lever = pad * cos(out_angle) + seat_used * cos(lean) + rod / 2 * sin(lean) + hole * sin(out_angle)  # mm
    return lever


@calc("RIG.TANG.DROP", group=GROUP)
def drop(
    rod: Rod,
    bevel: Bevel,
    top: Top,
    hole: Hole,
    eye: Eye,
    bolt: Bolt,
    rope: Rope,
    sleeve: Sleeve = 1.0,
    seat: Optional[Seat] = None,
) -> Millimetres:
    """Slack of the stay if the rod is lost and the eye falls on the bolt.

    Formula: drop = RIG.EYE.REACH over the bolt − (RIG.TANG.UPRIGHT + RIG.EYE.REACH over the rod)
    Limits: the stay taken as hanging straight down, its eye at `seat`, top/2 if left out. The eye keeps its
    length; the bolt's thread does not cut it.
    Errors: Err:523 where the eye cannot close round the rod or the bolt; Err:502 where the hole comes out below
    the square end, or the seat lies beyond the top.
    Source: geometry; the sleeve is assumed.
    """
    over_rod = eye_reach(eye, rod, rope, sleeve)  # mm
    over_bolt = eye_reach(eye, bolt, rope, sleeve)  # mm
    below_bolt = upright(rod, bevel, top, hole, seat)  # mm
    slack = over_bolt - (below_bolt + over_rod)  # mm
    return slack


@calc("RIG.TANG.MASS", group=GROUP)
def mass(rod: Rod, bevel: Bevel, top: Top, density: Density = 1850.0) -> Kilograms:
    """Mass of the stub.

    Formula: mass = density · π · (rod/2)² · (top + rod/2 · tan(bevel))
    Limits: the hole is not taken off.
    Source: volume of an obliquely cut cylinder; 1850 kg/m³ for FR-4 from memory.
    """
    axis_length = top + rod / 2 * tan(bevel)  # mm
    volume = pi * (rod / 2) ** 2 * axis_length  # mm³
    stub_mass = density * volume * 1e-9  # kg
    return stub_mass


@calc("RIG.NEED.ROD", group=GROUP)
def need_rod(
    rope: Rope,
    bolt_hole: BoltHole,
    bevel: Bevel,
    least: LeastRatio = 3.0,
    ligament: LeastLigament = 8.0,
) -> Millimetres:
    """Smallest diameter of rod for the rope's bend and for the rod above the bolt.

    Formula: the larger of least · rope and (bolt_hole/2 + ligament) · cos(bevel) / 0.45
    Limits: the hole at 0.45 of the bevelled face. To stay upright under load, or under a spreader, the hole must
    often be higher and the rod a little thicker: RIG.TANG.HOLE and RIG.TANG.LIGAMENT of the chosen rod decide.
    Strength is not looked at.
    Source: geometry; the least ratio is the rope maker's, 3 and a ligament of 8 mm are common practice, no source.
    """
    for_rope = least * rope  # mm
    for_ligament = (bolt_hole / 2 + ligament) * cos(bevel) / 0.45  # mm
    rod_needed = max(for_rope, for_ligament)  # mm
    return rod_needed


@calc("RIG.ROD.PIECES", group=GROUP)
def rod_pieces(stock: Stock, rod: Rod, bevel: Bevel, top: Top, kerf: Kerf = 3.0, hold: Hold = 0.0) -> Count:
    """Number of equal stubs out of one length of rod, bevels cut back to back.

    Formula: 2 · ⌊(stock − hold) / pair⌋, pair = 2 · axis_length + kerf + kerf/cos(bevel), axis_length = top +
    rod/2 · tan(bevel); one more single if RIG.TANG.BASE + kerf/cos(bevel) still fits into what is left
    Limits: the rod starts with a square end; `hold` stays in the clamp. 0 stubs is an answer.
    Source: geometry; the kerf is assumed.
    """
    usable = stock - hold  # mm
    axis_length = top + rod / 2 * tan(bevel)  # mm
    single = base(rod, bevel, top) + kerf / cos(bevel)  # mm
    pair = 2 * axis_length + kerf + kerf / cos(bevel)  # mm
    pieces = back_to_back(usable, pair, single)  # count
    return pieces


@calc("RIG.ROD.LENGTHS", group=GROUP)
def rod_lengths(
    stock: Stock, rod: Rod, bevels: Bevels, tops: Tops, counts: Counts, kerf: Kerf = 3.0, hold: Hold = 80.0
) -> Count:
    """Lengths of rod to buy for a list of different stubs of one diameter.

    Formula: bevel by bevel, the longest first, each stub is put into the first length that still has room, back to
    back with one of its bevel where there is one, as in RIG.ROD.PIECES
    Limits: rows empty in all three ranges and rows of no stubs are skipped. Only equal bevels share a cut. For
    equal stubs there is no better answer; for a mixed list a cleverer arrangement may save a length. It is never
    fewer than the volume of the stubs asks for.
    Errors: Err:502 where the ranges are of different height, a row is half empty, or a stub is longer than the
    rod.
    Source: first-fit decreasing, a standard method of packing; kerf and hold are assumed.
    """
    lengths = lengths_needed(stock - hold, rod, bevels, tops, counts, kerf)  # count
    return lengths


@calc("RIG.ROD.WRAP", group=GROUP)
def rod_wrap(rod: Rod, bevel: Bevel, points: Points = 25.0) -> Rows:
    """Cutting template to wrap around the rod: rows of the distance round it and the height of the cut there.

    Formula: distance = rod/2 · φ, height = rod/2 · tan(bevel) · (1 − cos φ), φ from the short side once round, in
    radians for the distance
    Limits: a template without thickness; paper adds about 0.3 mm to the way round.
    Source: geometry of an obliquely cut cylinder; 25 points are assumed.
    """
    rows = wrap_rows(rod, bevel, points)  # mm
    return rows
