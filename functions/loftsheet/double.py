"""Two eyes on one stub: a fore and an aft lower, or a cap shroud and a runner, side by side on the rod.

The inner eye lies next to the mast, the outer one next to the end plate. Of a pull `out` is along the bolt, `down`
square to it in the stub's own plane and `aside` square to that plane; the stub is turned round its bolt by `turn`,
forward at its foot.
"""

from math import exp, hypot, pi, radians, sqrt
from typing import Annotated, NamedTuple, Optional

from loftsheet.degrees import asin, atan, atan2, cos, sin, tan
from loftsheet.errors import BadInput
from loftsheet.quantities import (
    Bevel,
    Degrees,
    ForeAngle,
    Friction,
    Kilonewtons,
    Millimetres,
    NewtonMetres,
    OutAngle,
    Pad,
    Rise,
    Rod,
    Rope,
    Seat,
    Share,
    Sleeve,
    Tension,
    ThroatAngle,
    Top,
    Words,
    angle,
    length,
)
from loftsheet.registry import calc

GROUP = "Two eyes on one stub"
STEEPEST = 35.0  # °, the most that a bevel may have
# The inner stay may lead past the outer one by a quarter of what they part fore and aft: the clearance takes it.
CROSSING = 0.25

Turn = Annotated[float, angle("turn of the stub round its bolt, forward at its foot", least=-60, most=60)]
Swing = Annotated[float, angle("angle by which the eye is led round the rod", least=-60, most=60)]
Extra = Annotated[float, angle("added to the least bevel, the tolerance of the survey", most=10)]
Clearance = Annotated[float, length("play beside the eyes", least=0, most=50)]
Overhang = Annotated[
    float, length("from where the bolt is held out to the eye's pull, by RIG.TANG.OVERHANG", least=-500, most=500)
]
Upright = Annotated[
    float, length("how far the eye's pull lies below the bolt, by RIG.TANG.UPRIGHT", least=-300, most=300)
]


class Pull(NamedTuple):
    """A stay's pull as the stub feels it, in kN."""

    out: float
    down: float
    aside: float


def pull(tension: float, out_angle: float, fore_angle: float, turn: float) -> Pull:
    """Parts of a pull along the bolt, down in the plane of the turned stub, and aside of it."""
    drop = tension / hypot(1, tan(out_angle), tan(fore_angle))
    fore = drop * tan(fore_angle)
    return Pull(drop * tan(out_angle), drop * cos(turn) + fore * sin(turn), fore * cos(turn) - drop * sin(turn))


def square_bevel(out_angle: float, fore_angle: float, turn: float) -> float:
    """The bevel at which the rod's axis stands square to the stay, on a stub turned round its bolt."""
    return atan(tan(out_angle) * cos(fore_angle) / cos(turn - fore_angle))


@calc("RIG.TANG.LEAN", group=GROUP)
def lean(out_angle: OutAngle, fore_angle: ForeAngle, bevel: Bevel, turn: Turn = 0.0) -> Degrees:
    """How far a stay's pull leans along the rod: positive towards the mast, negative off the end.

    Formula: lean = asin((sin(bevel) · (cos(turn) + tan(fore_angle) · sin(turn)) − cos(bevel) · tan(out_angle))
    / n), n = √(1 + tan(out_angle)² + tan(fore_angle)²)
    Limits: an eye lies still while tan(lean) is no more than the friction of its sleeve on the rod. Of one stay
    whose stub is turned as it leads it is the bevel less atan(tan(out_angle) · cos(fore_angle)).
    Source: statics in space.
    """
    of_one = pull(1.0, out_angle, fore_angle, turn)  # ratio
    along_rod = sin(bevel) * of_one.down - cos(bevel) * of_one.out  # ratio
    leaning = asin(along_rod)  # °
    return leaning


@calc("RIG.TANG.SWING", group=GROUP)
def swing(out_angle: OutAngle, fore_angle: ForeAngle, bevel: Bevel, turn: Turn = 0.0) -> Degrees:
    """How far a stay leads its eye round the rod, away from the stub's top, forward is positive.

    Formula: swing = atan((tan(fore_angle) · cos(turn) − sin(turn)) / ((cos(turn) + tan(fore_angle) · sin(turn)) ·
    cos(bevel) + tan(out_angle) · sin(bevel)))
    Limits: 0 when the stub is turned as its stay leads. An eye goes round without climbing; led round under
    load, one leg pulls harder: RIG.EYE.UNEVEN.
    Source: statics in space.
    """
    of_one = pull(1.0, out_angle, fore_angle, turn)  # ratio
    square_to_rod = of_one.down * cos(bevel) + of_one.out * sin(bevel)  # ratio
    round_rod = atan2(of_one.aside, square_to_rod)  # °
    return round_rod


@calc("RIG.TANG.COVER", group=GROUP)
def cover(rod: Rod, rise: Rise, swing: Swing) -> Millimetres:
    """How far the end plate stands above the rod where an eye's crown lies that is led round it.

    Formula: cover = rise · cos(swing) + √((rod/2)² − (rise · sin(swing))²) − rod/2, or rod/2 / sin(swing) − rod/2
    where the plate's side is met first
    Limits: a plate with the rod's outline drawn out upwards by its rise. Less than the sleeved rope: a slack eye
    can come off.
    Source: geometry of a circle and its tangents.
    """
    above_rod = outline(rod / 2, rise, abs(swing)) - rod / 2  # mm
    return above_rod


@calc("RIG.TANG.OVERHANG", group=GROUP)
def overhang(rod: Rod, bevel: Bevel, top: Top, pad: Pad = 0.0, seat: Optional[Seat] = None) -> Millimetres:
    """How far out along the bolt an eye pulls, from where the bolt is held.

    Formula: overhang = pad + seat · cos(bevel) + rod/2 · sin(bevel); seat is top/2 if left out
    Limits: pad is all between the stub and where the bolt is held. The pull is taken through the rod's axis square
    below the eye's middle, as in RIG.TANG.ARM.
    Errors: Err:502 where the seat lies beyond the top.
    Source: geometry.
    """
    seat_used = top / 2 if seat is None else seat  # mm
    if seat_used > top:
        raise BadInput(f"seat {seat_used:g} mm lies beyond the top of {top:g} mm; it must be at most that")
    stands_out = pad + seat_used * cos(bevel) + rod / 2 * sin(bevel)  # mm
    return stands_out


@calc("RIG.EYE.UNEVEN", group=GROUP)
def eye_uneven(swing: Swing, throat_angle: ThroatAngle, friction: Friction = 0.15) -> Share:
    """Allowance for uneven legs of an eye led round its rod under load and held back by friction, at worst.

    Formula: uneven = 1/(1 + d), d is the smaller of tan(swing)/tan(throat_angle/2) and (k − 1)/(k + 1),
    k = exp(friction · (180° + throat_angle) in radians)
    Limits: swing counts from where the eye was set up, as when the stub turns to its other stay; an eye that stays
    as it was set up pulls evenly. The harder leg pulls (1 + d)/2 of both; when it pulls k times the other the rope
    slips round the rod and goes no further. For RIG.EYE.CAPACITY in place of 0.9 where it is less; higher friction
    is the worse case.
    Source: statics of the throat; capstan equation; friction 0.15 is assumed.
    """
    pulled_aside = abs(tan(swing)) / tan(throat_angle / 2)  # ratio
    until_it_slips = exp(friction * (pi + radians(throat_angle)))  # ratio
    difference = min(pulled_aside, (until_it_slips - 1) / (until_it_slips + 1))  # share
    uneven = 1 / (1 + difference)  # share
    return uneven


@calc("RIG.DOUBLE.APART", group=GROUP)
def double_apart(
    inner_rope: Rope, outer_rope: Rope, inner_sleeve: Sleeve = 1.0, outer_sleeve: Sleeve = 1.0
) -> Millimetres:
    """From the middle of one eye to the middle of the other, along the rod.

    Formula: apart = √((inner_rope + 2 · inner_sleeve) · (outer_rope + 2 · outer_sleeve))
    Limits: round ropes that touch each other. With the outer eye at the end plate its seat is the top less half
    its sleeved rope, the inner one's is less by this.
    Source: geometry of two circles on one line; the sleeves are assumed.
    """
    inner_sleeved = inner_rope + 2 * inner_sleeve  # mm
    outer_sleeved = outer_rope + 2 * outer_sleeve  # mm
    apart = sqrt(inner_sleeved * outer_sleeved)  # mm
    return apart


@calc("RIG.DOUBLE.TOP", group=GROUP)
def double_top(
    inner_rope: Rope,
    outer_rope: Rope,
    bevel: Bevel,
    inner_sleeve: Sleeve = 1.0,
    outer_sleeve: Sleeve = 1.0,
    clearance: Clearance = 3.0,
) -> Millimetres:
    """Short side of a stub for two eyes side by side.

    Formula: top = clearance + the larger of outer + r and inner + q; q = inner_rope/2 + inner_sleeve,
    r = outer_rope/2 + outer_sleeve, inner = q · tan(45° + bevel/2), outer = the larger of inner + RIG.DOUBLE.APART
    and r · tan(45° + bevel/2)
    Limits: as RIG.TANG.TOP, which gives the same for two eyes of one rope.
    Source: geometry of circles in a corner of 90° − bevel; the sleeves and the clearance are assumed.
    """
    corner = tan(45 + bevel / 2)  # ratio
    inner_radius = inner_rope / 2 + inner_sleeve  # mm
    outer_radius = outer_rope / 2 + outer_sleeve  # mm
    inner_seat = inner_radius * corner  # mm
    beside_inner = inner_seat + double_apart(inner_rope, outer_rope, inner_sleeve, outer_sleeve)  # mm
    outer_seat = max(beside_inner, outer_radius * corner)  # mm
    top_length = max(outer_seat + outer_radius, inner_seat + inner_radius) + clearance  # mm
    return top_length


@calc("RIG.DOUBLE.BEVEL", group=GROUP)
def double_bevel(
    inner_out: OutAngle, inner_fore: ForeAngle, outer_out: OutAngle, outer_fore: ForeAngle, extra: Extra = 2.0
) -> Degrees:
    """Bevel that serves two stays: neither is led off the end, whichever of them the stub has turned to.

    Formula: bevel = extra + the larger of atan(tan(inner_out) · cos(inner_fore) / cos(spread)) and
    atan(tan(outer_out) · cos(outer_fore) / cos(spread)), spread = |inner_fore − outer_fore|
    Limits: any turn between the two leads, so also with one stay slack. Up to 25° free, above that questioned.
    Errors: Err:502 for a bevel above 35°, or stays 85° and more apart: they lead too far apart for one stub.
    Source: statics in space; `extra` is assumed.
    """
    spread = abs(inner_fore - outer_fore)  # °
    if spread >= 85:
        raise BadInput(
            f"the stays lead {spread:.4g}° apart fore and aft, allowed on one stub is less than 85°; give each a "
            "stub of its own"
        )
    for_inner = square_bevel(inner_out, inner_fore, outer_fore)  # °
    for_outer = square_bevel(outer_out, outer_fore, inner_fore)  # °
    bevel_angle = max(for_inner, for_outer) + extra  # °
    if bevel_angle > STEEPEST:
        raise BadInput(
            f"the stays lead {spread:.4g}° apart fore and aft and up to {max(inner_out, outer_out):.4g}° out, so "
            f"that a bevel of {bevel_angle:.4g}° is due, allowed is up to 35°; give each a stub of its own"
        )
    return bevel_angle


@calc("RIG.DOUBLE.TURN", group=GROUP, together=[("inner_upright", "outer_upright")])
def double_turn(
    inner_tension: Tension,
    inner_out: OutAngle,
    inner_fore: ForeAngle,
    outer_tension: Tension,
    outer_out: OutAngle,
    outer_fore: ForeAngle,
    inner_upright: Optional[Upright] = None,
    outer_upright: Optional[Upright] = None,
) -> Degrees:
    """Turn of the stub round its bolt at which two stays leave it at rest, forward at its foot is positive.

    Formula: turn = atan(Σ upright · drop · tan(fore) / Σ upright · drop), of each eye its upright, 1 if left out,
    its lead fore, and drop = tension/√(1 + tan(out)² + tan(fore)²)
    Limits: no friction on the bolt, with which the stub may stay turned up to either lead: RIG.DOUBLE.TWIST tells
    how much that takes. The bending moment is then up to 1 % more than at rest. With one stay slack the stub turns
    to the other one's lead.
    Errors: Err:502 where the pulls together lie above the bolt, for the stub would flip over, and for one upright
    without the other.
    Source: statics: no moment about the bolt.
    """
    inner = pull(inner_tension, inner_out, inner_fore, 0.0)  # kN
    outer = pull(outer_tension, outer_out, outer_fore, 0.0)  # kN
    inner_lever = 1.0 if inner_upright is None else inner_upright  # mm
    outer_lever = 1.0 if outer_upright is None else outer_upright  # mm
    upright_moment = inner_lever * inner.down + outer_lever * outer.down  # N·m
    aside_moment = inner_lever * inner.aside + outer_lever * outer.aside  # N·m
    if upright_moment <= 0:
        raise BadInput(
            f"the pulls lie {inner_lever:g} and {outer_lever:g} mm below the bolt, together above it, so that the "
            "stub flips over; drill it higher or make it shorter"
        )
    turned = atan2(aside_moment, upright_moment)  # °
    return turned


@calc("RIG.DOUBLE.MOMENT", group=GROUP)
def double_moment(
    inner_tension: Tension,
    inner_out: OutAngle,
    inner_fore: ForeAngle,
    inner_overhang: Overhang,
    inner_upright: Upright,
    outer_tension: Tension,
    outer_out: OutAngle,
    outer_fore: ForeAngle,
    outer_overhang: Overhang,
    outer_upright: Upright,
    turn: Turn = 0.0,
) -> NewtonMetres:
    """Bending moment of two stays in the bolt where it is held: both pulls at their seats, summed as vectors.

    Formula: moment = √((Σ overhang · down − upright · along)² + (Σ overhang · aside)²), of each eye drop =
    tension/√(1 + tan(out)² + tan(fore)²), along = drop · tan(out), down = drop · (cos(turn) + tan(fore) ·
    sin(turn)), aside = drop · (tan(fore) · cos(turn) − sin(turn))
    Limits: the bolt alone carries it. Worst with both eyes out at the end plate. With the overhangs less those of
    the grip's middle it is the moment about that, for RIG.ROD.BEARING.
    Source: statics in space.
    """
    inner = pull(inner_tension, inner_out, inner_fore, turn)  # kN
    outer = pull(outer_tension, outer_out, outer_fore, turn)  # kN
    of_inner = inner_overhang * inner.down - inner_upright * inner.out  # N·m
    of_outer = outer_overhang * outer.down - outer_upright * outer.out  # N·m
    across = inner_overhang * inner.aside + outer_overhang * outer.aside  # N·m
    bending = hypot(of_inner + of_outer, across)  # N·m
    return bending


@calc("RIG.DOUBLE.TWIST", group=GROUP)
def double_twist(
    inner_tension: Tension,
    inner_out: OutAngle,
    inner_fore: ForeAngle,
    inner_upright: Upright,
    outer_tension: Tension,
    outer_out: OutAngle,
    outer_fore: ForeAngle,
    outer_upright: Upright,
    turn: Turn = 0.0,
) -> NewtonMetres:
    """What two stays turn the stub with, round its bolt: forward at its foot is positive, 0 where it rests.

    Formula: twist = Σ upright · drop · (tan(fore) · cos(turn) − sin(turn)), of each eye drop =
    tension/√(1 + tan(out)² + tan(fore)²)
    Limits: the stub stays as it was put while this is below friction · RIG.DOUBLE.SHEAR · bolt/2, the friction in
    its hole; the clamping of the nut helps and is not counted.
    Source: statics in space.
    """
    inner = pull(inner_tension, inner_out, inner_fore, turn)  # kN
    outer = pull(outer_tension, outer_out, outer_fore, turn)  # kN
    twist = inner_upright * inner.aside + outer_upright * outer.aside  # N·m
    return twist


@calc("RIG.DOUBLE.SHEAR", group=GROUP)
def double_shear(
    inner_tension: Tension,
    inner_out: OutAngle,
    inner_fore: ForeAngle,
    outer_tension: Tension,
    outer_out: OutAngle,
    outer_fore: ForeAngle,
) -> Kilonewtons:
    """Pull of two stays square to the bolt, summed as vectors.

    Formula: shear = √((Σ drop)² + (Σ drop · tan(fore))²), of each stay drop =
    tension/√(1 + tan(out)² + tan(fore)²)
    Limits: bolt square to the mast face.
    Source: statics in space.
    """
    inner = pull(inner_tension, inner_out, inner_fore, 0.0)  # kN
    outer = pull(outer_tension, outer_out, outer_fore, 0.0)  # kN
    shear = hypot(inner.down + outer.down, inner.aside + outer.aside)  # kN
    return shear


@calc("RIG.DOUBLE.PULL", group=GROUP)
def double_pull(
    inner_tension: Tension,
    inner_out: OutAngle,
    inner_fore: ForeAngle,
    outer_tension: Tension,
    outer_out: OutAngle,
    outer_fore: ForeAngle,
) -> Kilonewtons:
    """Pull of two stays along the bolt.

    Formula: pull = Σ tension · tan(out)/√(1 + tan(out)² + tan(fore)²)
    Limits: bolt square to the mast face; the tightening of the nut comes on top.
    Source: statics in space.
    """
    inner = pull(inner_tension, inner_out, inner_fore, 0.0)  # kN
    outer = pull(outer_tension, outer_out, outer_fore, 0.0)  # kN
    along_bolt = inner.out + outer.out  # kN
    return along_bolt


@calc("RIG.DOUBLE.FIT", group=GROUP)
def double_fit(
    inner_out: OutAngle,
    inner_fore: ForeAngle,
    outer_out: OutAngle,
    outer_fore: ForeAngle,
    bevel: Bevel,
    friction: Friction = 0.15,
) -> Words:
    """Whether two stays can share a stub of that bevel, or in words and degrees all that hinders it.

    Formula: at every turn between the two leads neither RIG.TANG.LEAN is below 0, off the end, nor above
    atan(friction), climbing towards the mast; and the inner stay leads past the outer one by no more than a
    quarter of what they part fore and aft: tan(inner_out) − tan(outer_out) ≤ |tan(inner_fore) − tan(outer_fore)|/4
    Limits: friction is that of the sleeve on the rod, 0.15 is assumed.
    Source: statics in space; a rope in a plane cut of a cylinder slips where the tangent of the cut's angle is
    more than the friction; a quarter is assumed.
    """
    inner_least = square_bevel(inner_out, inner_fore, outer_fore)  # °
    outer_least = square_bevel(outer_out, outer_fore, inner_fore)  # °
    inner_lean = bevel - square_bevel(inner_out, inner_fore, inner_fore)  # °
    outer_lean = bevel - square_bevel(outer_out, outer_fore, outer_fore)  # °
    held = atan(friction)  # °
    past = tan(inner_out) - tan(outer_out) - CROSSING * abs(tan(inner_fore) - tan(outer_fore))  # ratio
    verdict = verdict_of_both(
        bevel, (inner_least, outer_least), (inner_lean, outer_lean), held, past, inner_out - outer_out
    )  # text
    return verdict


Both = tuple[float, float]
DUST = 1e-9


def verdict_of_both(bevel: float, least: Both, lean: Both, held: float, past: float, further: float) -> str:
    """Which eye is led off the end, which climbs, and whether the inner stay lies on the outer one, in words."""
    hindrances = [
        f"the {eye} eye is led {needed - bevel:.1f}° off the end when the stub has turned to the other stay: the "
        f"bevel must be {needed:.1f}° or more, or each stay gets a stub of its own"
        for eye, needed in zip(("inner", "outer"), least)
        if needed > bevel + DUST
    ]
    hindrances += [
        f"the {eye} eye is led {leaning:.1f}° towards the mast and friction holds {held:.1f}°, so it climbs "
        f"{where}"
        for eye, leaning, where in zip(("inner", "outer"), lean, ("up to the mast", "on to the inner eye"))
        if leaning > held + DUST
    ]
    if past > DUST:
        hindrances.append(
            f"the inner stay leads {further:.1f}° further out than the outer one and lies on it: change places"
        )
    return "; ".join(hindrances) or "fits"


def outline(radius: float, rise: float, swing: float) -> float:
    """From the rod's centre to the edge of a plate that is the rod's circle drawn out upwards."""
    if rise * sin(swing) <= radius * cos(swing):
        return rise * cos(swing) + sqrt(radius**2 - (rise * sin(swing)) ** 2)
    return radius / sin(swing)
