"""Statics of stays that need no stiffness: what balances what, and what hangs on one point.

Pulls of a stay are shares of its tension, by RIG.STAY.PULL.FORE and RIG.STAY.PULL.OUT: square to the mast, forward
and outward positive.
"""

from typing import Annotated, Any, Optional

from loftsheet import vectors
from loftsheet.degrees import atan2
from loftsheet.errors import BadInput, NoSolution
from loftsheet.forms import COLUMN
from loftsheet.quantities import Degrees, Fore, Kilonewtons, Millimetres, Out, Tension, Up, force, length, share
from loftsheet.registry import SMALLEST, calc

GROUP = "Statics of stays"
PARALLEL = 0.1  # °, closer than any survey tells two stays apart
ROUNDING = 1e-9  # so that an upper part in line with one leg leaves the other nothing, and not less

SidePull = Annotated[float, force("pull to the side that the two hold together")]
PullFore = Annotated[float, share("forward pull of the stay per unit of tension, aft is negative", least=-1)]
PullOut = Annotated[float, share("outward pull of the stay per unit of tension", least=SMALLEST)]
OtherFore = Annotated[
    float, share("forward pull of the other stay per unit of tension, aft is negative", least=-1)
]
OtherOut = Annotated[float, share("outward pull of the other stay per unit of tension", least=SMALLEST)]
SplitFore = Annotated[float, length("position of the split towards the bow, aft is negative", least=-40_000)]
SplitOut = Annotated[float, length("distance of the split from the centreline", least=-40_000)]
SplitUp = Annotated[float, length("height of the split above the datum", least=-40_000)]
LegFore = Annotated[float, length("position of the leg's lower end towards the bow", least=-40_000)]
LegOut = Annotated[float, length("distance of the leg's lower end from the centreline", least=-40_000)]
LegUp = Annotated[float, length("height of the leg's lower end above the datum", least=-40_000)]
OtherLegFore = Annotated[float, length("the same of the other leg, where it is not the mirror", least=-40_000)]
OtherLegOut = Annotated[
    float, length("its distance from the centreline, on the other side negative", least=-40_000)
]
OtherLegUp = Annotated[float, length("its height above the datum", least=-40_000)]
PullsFore = Annotated[Any, force("forward pull of each stay on the point", least=-5_000, form=COLUMN)]
PullsOut = Annotated[Any, force("outward pull of each stay on the point", least=-5_000, form=COLUMN)]
PullsUp = Annotated[Any, force("upward pull of each stay on the point", least=-5_000, form=COLUMN)]
Ahead = Annotated[float, length("how far forward the one goes, aft is negative", least=-40_000)]
Aside = Annotated[float, length("how far outward the one goes, inward is negative", least=-40_000)]
Above = Annotated[float, length("how far up the one goes, down is negative", least=-40_000)]
OtherAhead = Annotated[float, length("how far forward the other goes", least=-40_000)]
OtherAside = Annotated[float, length("how far outward the other goes", least=-40_000)]
OtherAbove = Annotated[float, length("how far up the other goes", least=-40_000)]


@calc("RIG.PAIR.TENSION", group=GROUP)
def pair_tension(
    side_pull: SidePull, pull_fore: PullFore, pull_out: PullOut, other_fore: OtherFore, other_out: OtherOut
) -> Kilonewtons:
    """Tension of one of two lowers of a side, as their leads divide the side pull that they hold together.

    Formula: tension = side_pull · |other_fore| / (|other_fore| · pull_out + |pull_fore| · other_out); with the
    tension of the other one it makes the side pull outward and nothing fore and aft
    Limits: both at nearly one height of the mast, pulls square to it. A mast that other stays hold fore and aft
    at that height may share otherwise.
    Errors: Err:523 where both lead forward or both aft, for then no two tensions balance fore and aft, and where
    both lead straight abeam, for then their stiffness divides the pull.
    Source: statics.
    """
    if pull_fore * other_fore > 0:
        raise NoSolution(same_way_words(pull_fore, other_fore))
    if pull_fore == other_fore == 0:
        raise NoSolution("both lead straight abeam, so their stiffness divides the pull; make them one stay here")
    own_part = abs(other_fore) * pull_out  # share
    other_part = abs(pull_fore) * other_out  # share
    tension = side_pull * abs(other_fore) / (own_part + other_part)  # kN
    return tension


@calc("RIG.STAY.BALANCE", group=GROUP)
def stay_balance(tension: Tension, pull_fore: PullFore, other_fore: OtherFore) -> Kilonewtons:
    """Tension of the stay that balances another one fore and aft, as a backstay a forestay.

    Formula: balancing = tension · |pull_fore| / |other_fore|
    Limits: pulls square to the mast, by RIG.STAY.PULL.FORE with its rake; both meet the mast at nearly one
    height and nothing else helps. Forestay and backstay, inner forestay and the runner that is set. For two
    backstays side by side it is what they hold together.
    Errors: Err:523 where both lead forward or both aft, or the other one leads neither way.
    Source: statics: no pull is left square to the mast.
    """
    if pull_fore * other_fore > 0:
        raise NoSolution(same_way_words(pull_fore, other_fore))
    if other_fore == 0:
        raise NoSolution("the other stay leads neither forward nor aft of the mast, so it cannot balance this one")
    forward = tension * abs(pull_fore)  # kN
    balancing = forward / abs(other_fore)  # kN
    return balancing


@calc("RIG.SPLIT.ANGLE", group=GROUP, together=[("other_fore", "other_out", "other_up")])
def split_angle(
    upper_fore: Fore,
    upper_out: Out,
    upper_up: Up,
    split_fore: SplitFore,
    split_out: SplitOut,
    split_up: SplitUp,
    leg_fore: LegFore,
    leg_out: LegOut,
    leg_up: LegUp,
    other_fore: Optional[OtherLegFore] = None,
    other_out: Optional[OtherLegOut] = None,
    other_up: Optional[OtherLegUp] = None,
) -> Degrees:
    """Angle by which a split stay and its two legs miss their balance, the legs at equal tension.

    Formula: angle between upper part and the sum of both legs, each a line of length 1 from its upper end down
    Limits: 0 is balance. A split that hangs on nothing else moves until it is there, so what misses it by more
    than a degree or two was measured or typed wrong. Without another leg the two are each other's mirror.
    Errors: Err:502 where two of the points are the same, or some of another leg is missing. Err:523 where the
    legs lead straight away from each other.
    Source: statics: three forces on one point.
    """
    upper_line = vectors.line((upper_fore, upper_out, upper_up), (split_fore, split_out, split_up))  # share
    leg_line = vectors.line((split_fore, split_out, split_up), (leg_fore, leg_out, leg_up))  # share
    other_end = other_leg((leg_fore, leg_out, leg_up), other_fore, other_out, other_up)  # mm
    other_line = vectors.line((split_fore, split_out, split_up), other_end)  # share
    legs = vectors.total(leg_line, other_line)  # share
    if not any(legs):
        raise NoSolution("the legs lead straight away from each other, so they hold nothing; check the points")
    angle = vectors.between(upper_line, legs)  # °
    return angle


@calc("RIG.SPLIT.TENSION", group=GROUP, together=[("other_fore", "other_out", "other_up")])
def split_tension(
    tension: Tension,
    upper_fore: Fore,
    upper_out: Out,
    upper_up: Up,
    split_fore: SplitFore,
    split_out: SplitOut,
    split_up: SplitUp,
    leg_fore: LegFore,
    leg_out: LegOut,
    leg_up: LegUp,
    other_fore: Optional[OtherLegFore] = None,
    other_out: Optional[OtherLegOut] = None,
    other_up: Optional[OtherLegUp] = None,
) -> Kilonewtons:
    """Tension of one leg of a split stay that balances its upper part together with the other leg.

    Formula: leg = tension · (own − apart · other) / (1 − apart²), own the cosine between the lines of upper part
    and leg, other the same of the other leg, apart the cosine between the two legs
    Limits: exact where upper part and legs lie in one plane, as RIG.SPLIT.ANGLE tells of legs that are alike;
    else the balance in the plane of the legs. Without another leg the two are each other's mirror.
    Errors: Err:502 where two of the points are the same, or some of another leg is missing. Err:523 where this
    leg would have to push, or both legs lead one way.
    Source: statics: three forces on one point.
    """
    upper_line = vectors.line((upper_fore, upper_out, upper_up), (split_fore, split_out, split_up))  # share
    leg_line = vectors.line((split_fore, split_out, split_up), (leg_fore, leg_out, leg_up))  # share
    other_end = other_leg((leg_fore, leg_out, leg_up), other_fore, other_out, other_up)  # mm
    other_line = vectors.line((split_fore, split_out, split_up), other_end)  # share
    apart = vectors.between(leg_line, other_line)  # °
    if apart < PARALLEL:
        raise NoSolution(f"the legs are {apart:.2g}° apart, so nothing says how they share; make them one stay")
    if apart > 180 - PARALLEL:
        raise NoSolution("the legs lead straight away from each other, so they hold nothing; check the points")
    cosine = vectors.dot(leg_line, other_line)  # ratio
    along = vectors.dot(upper_line, leg_line) - cosine * vectors.dot(upper_line, other_line)  # ratio
    if along < -ROUNDING:
        raise NoSolution(
            "this leg would have to push: the upper part does not lead between the two; check the points"
        )
    leg = tension * max(0.0, along) / (1 - cosine**2)  # kN
    return leg


@calc("RIG.SPLIT.FORE", group=GROUP)
def split_fore(upper_fore: Fore, upper_up: Up, leg_fore: LegFore, leg_up: LegUp, split_up: SplitUp) -> Millimetres:
    """Fore position at which a stay split on the centreline balances its two legs, which are alike.

    Formula: fore = upper_fore + (leg_fore − upper_fore) · (upper_up − split_up) / (upper_up − leg_up)
    Limits: legs mirrored port and starboard.
    Errors: Err:502 where the split is not between chainplates and upper end in height.
    Source: geometry: at equal tension two like legs pull towards the point midway between their lower ends.
    """
    if not leg_up < split_up < upper_up:
        raise BadInput(f"the split is at {split_up:g} mm; it must be between {leg_up:g} and {upper_up:g} mm")
    way_down = (upper_up - split_up) / (upper_up - leg_up)  # share
    fore = upper_fore + (leg_fore - upper_fore) * way_down  # mm
    return fore


@calc("RIG.PULL.SUM", group=GROUP)
def pull_sum(pulls_fore: PullsFore, pulls_out: PullsOut, pulls_up: PullsUp) -> Kilonewtons:
    """What a point has to hold on which several stays pull: the sum of their pulls, by direction and size.

    Formula: held = √((Σ pulls_fore)² + (Σ pulls_out)² + (Σ pulls_up)²)
    Limits: three ranges of one height, a row for each stay, or three numbers. The pulls are those of one case,
    at one time. Port and starboard do not share a chainplate, so each side is summed by itself.
    Errors: Err:502 where the ranges differ in height, or a row is blank in part.
    Source: statics.
    """
    total = vectors.of_columns(pulls_fore, pulls_out, pulls_up)  # kN
    held = vectors.size(total)  # kN
    return held


@calc("RIG.PULL.LEAN.FORE", group=GROUP)
def pull_lean_fore(pulls_fore: PullsFore, pulls_out: PullsOut, pulls_up: PullsUp) -> Degrees:
    """Angle by which the sum of all pulls on a point leans forward from upright, aft is negative.

    Formula: lean = atan2(Σ pulls_fore, Σ pulls_up)
    Limits: as RIG.PULL.SUM; seen from the side. A chainplate stands in line with what pulls on it.
    Errors: Err:502 as RIG.PULL.SUM. Err:523 where the pulls come to nothing.
    Source: statics.
    """
    total = vectors.of_columns(pulls_fore, pulls_out, pulls_up)  # kN
    if not any(total):
        raise NoSolution("the pulls come to nothing, so they have no direction")
    lean = atan2(total[0], total[2])  # °
    return lean


@calc("RIG.PULL.LEAN.OUT", group=GROUP)
def pull_lean_out(pulls_fore: PullsFore, pulls_out: PullsOut, pulls_up: PullsUp) -> Degrees:
    """Angle by which the sum of all pulls on a point leans outward from upright; inward, to the mast, is negative.

    Formula: lean = atan2(Σ pulls_out, Σ pulls_up)
    Limits: as RIG.PULL.SUM; seen from the bow. A chainplate stands in line with what pulls on it.
    Errors: Err:502 as RIG.PULL.SUM. Err:523 where the pulls come to nothing.
    Source: statics.
    """
    total = vectors.of_columns(pulls_fore, pulls_out, pulls_up)  # kN
    if not any(total):
        raise NoSolution("the pulls come to nothing, so they have no direction")
    lean = atan2(total[1], total[2])  # °
    return lean


@calc("RIG.ANGLE.BETWEEN", group=GROUP)
def angle_between(
    fore: Ahead,
    outward: Aside,
    up: Above,
    other_fore: OtherAhead,
    other_out: OtherAside,
    other_up: OtherAbove,
) -> Degrees:
    """Angle between two directions in space.

    Formula: angle = atan2(|one × other|, one · other), one = (fore, outward, up), other = (other_fore,
    other_out, other_up)
    Limits: 0 to 180°; only the directions count, the lengths do not. Of a stay give lower end less upper end.
    Errors: Err:502 where one of the two has no length.
    Source: geometry of vectors.
    """
    if not (any((fore, outward, up)) and any((other_fore, other_out, other_up))):
        raise BadInput("one of the two has no length, so it has no direction; give two different points for it")
    angle = vectors.between((fore, outward, up), (other_fore, other_out, other_up))  # °
    return angle


def same_way_words(pull_fore: float, other_fore: float) -> str:
    way = "forward" if pull_fore > 0 else "aft"
    return (
        f"both lead {way} (pulls {abs(pull_fore):.3g} and {abs(other_fore):.3g}), so no tensions of theirs balance"
        " fore and aft; check the points of both"
    )


def other_leg(
    leg: vectors.Vector, fore: Optional[float], out: Optional[float], up: Optional[float]
) -> vectors.Vector:
    """Lower end of the other leg, where none is given this one's mirrored to the other side."""
    if fore is None or out is None or up is None:
        return (leg[0], -leg[1], leg[2])
    return (fore, out, up)
