"""Eye and loop: the spliced eye over the rod, what it carries, and endless loops.

`eye` is the eye laid flat, half the rope between its two throat marks. On the rod the rope's centreline runs
at r = rod/2 + sleeve + rope/2 round the rod and in two straight legs to the throat.
"""

from math import atan, ceil, hypot, pi, radians
from typing import Annotated, Optional

from loftsheet.degrees import asin, cos, tan
from loftsheet.errors import BadInput, NoSolution
from loftsheet.quantities import (
    BreakLoad,
    Bury,
    Degrees,
    Eye,
    Kilonewtons,
    Load,
    Millimetres,
    Rod,
    Rope,
    Sleeve,
    TakeUp,
    ThroatAngle,
    Waste,
    Words,
    angle,
    count,
    length,
    share,
)
from loftsheet.registry import SMALLEST, calc

GROUP = "Eye and loop"

WidestThroat = Annotated[float, angle("widest throat angle that is accepted", least=1, most=150)]
LegAngle = Annotated[float, angle("angle between the two legs", least=SMALLEST, most=150)]
Uneven = Annotated[float, share("allowance for two legs that do not pull alike")]
Bend = Annotated[float, share("share of the breaking load left in the bend over the rod")]
LoopBend = Annotated[float, share("share of the breaking load left in the sharpest bend")]
Splice = Annotated[float, share("share of the breaking load left in the splice")]
Girth = Annotated[float, length("tape-measure girth of the end plate", most=1_500)]
Gather = Annotated[float, share("sleeve added so that it lies loosely gathered", least=0)]
Inside = Annotated[float, length("inside length of the loop laid flat", most=10_000)]
Turns = Annotated[float, count("turns of the loop, each with two legs", most=12)]
LoopStretch = Annotated[float, share("set and elastic stretch up to the working tension", least=0, most=0.3)]


@calc("RIG.EYE.REACH", group=GROUP)
def eye_reach(eye: Eye, rod: Rod, rope: Rope, sleeve: Sleeve = 1.0) -> Millimetres:
    """Distance from the rod's centre to the throat of an eye pulled taut over the rod.

    Formula: reach = √(r² + leg²), leg the straight part with leg + r · (π − atan(leg/r)) = eye, r = rod/2 + sleeve
    + rope/2
    Limits: a round rod square to the eye, rope and sleeve that keep their size.
    Errors: Err:523 where the eye is shorter than π · r and cannot close round the rod.
    Source: geometry of two tangents to a circle, solved by Newton's steps; the sleeve is assumed.
    """
    radius = rod / 2 + sleeve + rope / 2  # mm
    closing = pi * radius  # mm
    if eye < closing:
        raise NoSolution(
            f"an eye of {eye:g} mm cannot close round the rod; it needs {_up(closing)} mm or more, make it longer"
        )
    leg = radius * leg_in_radii(eye / radius)  # mm
    reach = hypot(radius, leg)  # mm
    return reach


@calc("RIG.EYE.ANGLE", group=GROUP)
def eye_angle(eye: Eye, rod: Rod, rope: Rope, sleeve: Sleeve = 1.0) -> Degrees:
    """Throat angle: between the two legs of an eye pulled taut over the rod.

    Formula: throat_angle = 2 · asin(r / RIG.EYE.REACH), r = rod/2 + sleeve + rope/2
    Limits: as RIG.EYE.REACH; an eye that barely closes has 180°.
    Errors: Err:523 where the eye cannot close round the rod.
    Source: geometry of two tangents to a circle; the sleeve is assumed.
    """
    radius = rod / 2 + sleeve + rope / 2  # mm
    reach = eye_reach(eye, rod, rope, sleeve)  # mm
    throat_angle = 2 * asin(radius / reach)  # °
    return throat_angle


@calc("RIG.EYE.LENGTH", group=GROUP)
def eye_length(rod: Rod, rope: Rope, max_angle: WidestThroat = 30.0, sleeve: Sleeve = 1.0) -> Millimetres:
    """Shortest eye, laid flat, whose throat angle over the rod is no wider than allowed.

    Formula: eye = r / tan(max_angle/2) + r · (π/2 + max_angle/2 in radians), r = rod/2 + sleeve + rope/2
    Limits: as RIG.EYE.REACH. Whether it passes over the end plate is for RIG.LOOP.FIT.
    Source: geometry of two tangents to a circle; 30° common practice, no source; the sleeve is assumed.
    """
    radius = rod / 2 + sleeve + rope / 2  # mm
    leg = radius / tan(max_angle / 2)  # mm
    half_wrap = radius * (pi / 2 + radians(max_angle / 2))  # mm
    eye_needed = leg + half_wrap  # mm
    return eye_needed


@calc("RIG.EYE.CAPACITY", group=GROUP)
def eye_capacity(
    break_load: BreakLoad, bend: Bend, throat_angle: ThroatAngle, uneven: Uneven = 0.9
) -> Kilonewtons:
    """Pull of the stay at which a leg of the eye breaks in the bend over the rod.

    Formula: capacity = 2 · break_load · bend · uneven · cos(throat_angle/2)
    Limits: two legs; the splice below the throat and ageing are not in it, RIG.CAPACITY has them.
    Source: statics; 0.9 for uneven legs is assumed.
    """
    leg_strength = break_load * bend * uneven  # kN
    capacity_of_eye = 2 * leg_strength * cos(throat_angle / 2)  # kN
    return capacity_of_eye


@calc("RIG.LEG.LOAD", group=GROUP)
def leg_load(load: Load, angle: LegAngle) -> Kilonewtons:
    """Load in each of two equal legs that share a pull: an eye, a split backstay, a bridle.

    Formula: leg = load / (2 · cos(angle/2))
    Limits: the pull halves the angle between the legs; parallel legs carry load/2 each.
    Source: statics.
    """
    load_of_leg = load / (2 * cos(angle / 2))  # kN
    return load_of_leg


@calc("RIG.LOOP.FIT", group=GROUP)
def loop_fit(
    eye: Eye,
    rod: Rod,
    rope: Rope,
    sleeve: Sleeve = 1.0,
    girth: Optional[Girth] = None,
    max_angle: WidestThroat = 30.0,
) -> Words:
    """Whether the eye fits its rod, or in words all that hinders it.

    Formula: it fits when eye ≥ π · r, r = rod/2 + sleeve + rope/2; when eye ≥ RIG.EYE.LENGTH; and when 2 · eye ≥
    girth + 2π · (sleeve + rope/2)
    Limits: an end plate without a hollow in its outline, passed square through the eye. Without its girth the
    words are "fits; end plate not checked".
    Source: geometry: a band at a distance round any outline without a hollow is longer by 2π times the distance;
    30° common practice, no source; the sleeve is assumed.
    """
    closing = pi * (rod / 2 + sleeve + rope / 2)  # mm
    narrow_enough = eye_length(rod, rope, max_angle, sleeve)  # mm
    clearance_round = 2 * pi * (sleeve + rope / 2)  # mm
    over_plate = None if girth is None else (girth + clearance_round) / 2  # mm
    verdict = fit_in_words(eye, closing, max_angle, narrow_enough, over_plate)  # text
    return verdict


@calc("RIG.LOOP.PLAY", group=GROUP)
def loop_play(eye: Eye, rod: Rod, rope: Rope, sleeve: Sleeve = 1.0) -> Millimetres:
    """Spare length of the eye's rope beyond once round the rod.

    Formula: play = 2 · eye − 2π · r, r = rod/2 + sleeve + rope/2
    Limits: negative is what is missing for the eye to close round the rod.
    Source: geometry; the sleeve is assumed.
    """
    radius = rod / 2 + sleeve + rope / 2  # mm
    play = 2 * eye - 2 * pi * radius  # mm
    return play


@calc("RIG.SLEEVE.LENGTH", group=GROUP)
def sleeve_length(eye: Eye, gather: Gather = 0.15) -> Millimetres:
    """Chafe sleeve to cut for one eye.

    Formula: sleeve = 2 · eye · (1 + gather)
    Limits: it covers the rope from throat mark to throat mark; a gather of 0 lies flat.
    Source: definition of the gather; common practice, no source, and 0.15 is assumed.
    """
    sleeve_to_cut = 2 * eye * (1 + gather)  # mm
    return sleeve_to_cut


@calc("RIG.GROMMET.CUT", group=GROUP)
def grommet_cut(
    inside: Inside,
    rope: Rope,
    bury: Bury,
    take_up: TakeUp = 0.1,
    waste: Waste = 50.0,
    turns: Turns = 1.0,
    stretch: LoopStretch = 0.0,
) -> Millimetres:
    """Rope to cut for an endless loop of one or more turns, its two ends buried past each other.

    Formula: cut = turns · (2 · inside + π · rope)/(1 + stretch) + 2 · bury · (1 + take_up) + 2 · waste
    Limits: turns side by side, not one on the other. Lengths at the light measuring tension; stretch is set and
    elastic stretch up to the working tension, without it they are not in it. All round under 8/3 · bury is
    questioned.
    Errors: Err:502 where all turns together are less than 2 · bury, for the buries would run into each other.
    Source: geometry of a loop laid flat: its middle line is half a rope outside its inside; take_up and waste are
    assumed.
    """
    all_round = turns * (2 * inside + pi * rope)  # mm
    if all_round < 2 * bury:
        raise BadInput(
            f"{'once' if turns == 1 else f'{turns:g} times'} round is {all_round:.1f} mm and two buries are"
            f" {2 * bury:g} mm, so they would run into each other; use a strop wound of thinner rope"
        )
    length_to_cut = all_round / (1 + stretch) + 2 * bury * (1 + take_up) + 2 * waste  # mm
    return length_to_cut


@calc("RIG.GROMMET.CAPACITY", group=GROUP)
def grommet_capacity(
    break_load: BreakLoad,
    splice: Splice = 0.9,
    bend: LoopBend = 1.0,
    uneven: Uneven = 0.9,
    turns: Turns = 1.0,
) -> Kilonewtons:
    """Pull at which an endless loop of one or more turns breaks.

    Formula: capacity = 2 · turns · break_load · the smaller of splice and bend · uneven
    Limits: parallel legs, two for each turn; ageing is not in it. Splice and bend do not add up, only the worse
    one counts. Several turns share less evenly than two legs of one: take a smaller `uneven`.
    Source: GL Noble Denton 0027/ND rev. 11 (2016) §7.6–7.7, the greater of the two reductions; 0.9 for the splice
    the lower end of the band that RIG.CAPACITY names, 0.9 for uneven legs and no loss in the bend are assumed.
    """
    worse = min(splice, bend)  # share
    capacity_of_loop = 2 * turns * break_load * worse * uneven  # kN
    return capacity_of_loop


def leg_in_radii(eye_in_radii: float) -> float:
    """The straight leg in radii, with leg − atan(leg) = eye in radii − π, by Newton's steps from above."""
    surplus = eye_in_radii - pi
    leg = surplus + pi / 2
    for _ in range(64):
        excess = leg - atan(leg) - surplus
        if excess <= 1e-15 * leg:
            break
        leg -= excess * (1 + 1 / leg**2)
    return leg


def fit_in_words(
    eye: float, closing: float, max_angle: float, narrow_enough: float, over_plate: Optional[float]
) -> str:
    """ "fits", or every hindrance with the eye that would do."""
    if eye < closing:
        return f"cannot close round the rod: the eye needs {_up(max(narrow_enough, over_plate or 0.0))} mm or more"
    hindrances = []
    if eye < narrow_enough:
        hindrances.append(
            f"throat wider than {max_angle:g}°: the eye needs {_up(narrow_enough)} mm or more, has {eye:g} mm"
        )
    if over_plate is not None and eye < over_plate:
        hindrances.append(
            f"will not pass over the end plate: the eye needs {_up(over_plate)} mm or more, has {eye:g} mm"
        )
    return "; ".join(hindrances) or ("fits; end plate not checked" if over_plate is None else "fits")


def _up(needed: float) -> str:
    """Tenths, rounded up: a size that is typed as it was read must do."""
    return f"{ceil(needed * 10) / 10:g}"
