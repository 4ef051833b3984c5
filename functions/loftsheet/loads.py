"""Loads: from the boat's righting moment to shrouds, stays and the lashings that set them up."""

from math import exp, expm1, inf, pi
from typing import Annotated

from loftsheet import measure
from loftsheet.degrees import cos, sin, tan
from loftsheet.errors import NoSolution
from loftsheet.quantities import (
    Count,
    KilonewtonMetres,
    Kilonewtons,
    Load,
    Millimetres,
    Share,
    StayLength,
    Tension,
    angle,
    count,
    force,
    length,
    number,
    ratio,
    share,
)
from loftsheet.registry import SMALLEST, calc

GROUP = "Loads"
MOST_PARTS = 24

Weight = Annotated[float, force("weight moved across the deck")]
Lever = Annotated[float, length("distance by which it was moved", most=20_000)]
TestHeel = Annotated[float, angle("heel that it made", least=1, most=10)]
RightingMoment = Annotated[float, number("righting moment at 30°", measure.RIGHTING, SMALLEST, 20_000)]
ChainplateOut = Annotated[float, length("from the mast's centre to the chainplate", most=10_000)]
HeelFactor = Annotated[float, ratio("allowance for heel beyond 30°", least=1, most=5)]
PushFactor = Annotated[
    float, ratio("mast's push as a multiple of righting moment over chainplate_out", least=1, most=10)
]
ShroudAngle = Annotated[float, angle("angle of the shroud from upright at the chainplate", most=45)]
SideForce = Annotated[float, force("force across the mast at the shroud's upper end")]
SideAngle = Annotated[float, angle("angle at which the shroud leaves the mast", least=0.1, most=60)]
SpreaderPush = Annotated[float, force("push of a spreader there", least=0)]
TautHeel = Annotated[float, angle("heel up to which the lee shroud stays taut", least=SMALLEST, most=45)]
Forestay = Annotated[float, force("tension of the forestay")]
ForestayPull = Annotated[float, share("fore-and-aft pull of the forestay per unit of tension")]
BackstayPull = Annotated[float, share("fore-and-aft pull of the backstay per unit of tension")]
Parts = Annotated[float, count("parts of the lashing", most=MOST_PARTS)]
Friction = Annotated[float, ratio("friction of the line on the ring", least=0, most=1)]
LineBreak = Annotated[float, force("breaking load of the lashing line")]
Required = Annotated[float, ratio("margin required", least=1, most=20)]
Bend = Annotated[float, share("share of the breaking load left round the ring")]
LastingSet = Annotated[float, share("lasting stretch of the new rope", least=0, most=0.3)]
ElasticStretch = Annotated[float, share("elastic stretch up to the working tension", most=0.1)]
Left = Annotated[float, length("distance that stays between the rings", least=0, most=2_000)]
Gap = Annotated[float, length("from the centre of one ring to the other's", most=5_000)]
Ring = Annotated[float, length("diameter on which the line lies in the ring", most=300)]
HalfTurns = Annotated[float, ratio("half turns round rings between the last part and the hand", least=0, most=10)]
Tail = Annotated[float, length("tail for hauling and knots", least=0, most=20_000)]


@calc("RIG.RM.INCLINE", group=GROUP)
def rm_incline(weight: Weight, lever: Lever, heel: TestHeel) -> KilonewtonMetres:
    """Righting moment at 30° of heel, from an inclining test.

    Formula: rm30 = weight · lever · sin(30°) / tan(heel)
    Limits: under 3° is questioned, as the angle cannot be read well enough. The metacentric height is taken as the
    same up to 30°, which a beamy, light boat does not quite keep to. Weight that was on the boat before is moved
    across the deck, not put aboard.
    Source: the inclining experiment, in any handbook of ship stability: weight · lever = displacement ·
    metacentric height · tan(heel).
    """
    heeling = weight * lever / 1000  # kN·m
    displacement_gm = heeling / tan(heel)  # kN·m
    rm30 = displacement_gm * sin(30)  # kN·m
    return rm30


@calc("RIG.SHROUD.TOTAL", group=GROUP)
def shroud_total(
    rm30: RightingMoment, chainplate_out: ChainplateOut, factor: HeelFactor = 1.5, angle: ShroudAngle = 0.0
) -> Kilonewtons:
    """Tension of all shrouds of one side together.

    Formula: total = rm30 · factor / chainplate_out / cos(angle)
    Limits: 1.5 stands for heel beyond 30°, it is no safety factor. At angle 0 the slope of the shrouds is left
    out, as in the handbook's rule: 10° would add 1.5 %.
    Source: B. Toss, The Complete Rigger's Apprentice (2016), p. 146.
    """
    upright_pull = 1000 * rm30 * factor / chainplate_out  # kN
    total = upright_pull / cos(angle)  # kN
    return total


@calc("RIG.SHROUD.SIDE", group=GROUP)
def shroud_side(side_force: SideForce, out_angle: SideAngle, spreader_push: SpreaderPush = 0.0) -> Kilonewtons:
    """Tension of a shroud that holds a force across the mast.

    Formula: tension = (side_force + spreader_push) / sin(out_angle)
    Limits: a cross-check. All that acts across the mast at the shroud's upper end, in the athwartship plane;
    the mast's own bending stiffness is left out.
    Source: statics.
    """
    across = side_force + spreader_push  # kN
    tension = across / sin(out_angle)  # kN
    return tension


@calc("RIG.MAST.PUSH", group=GROUP)
def mast_push(rm30: RightingMoment, chainplate_out: ChainplateOut, factor: PushFactor = 2.78) -> Kilonewtons:
    """Push of the mast on its step.

    Formula: push = factor · rm30 / chainplate_out
    Limits: a rule of thumb for the whole of a usual rig, heel beyond 30° in it.
    Source: B. Toss, The Complete Rigger's Apprentice (2016), p. 146.
    """
    push = 1000 * factor * rm30 / chainplate_out  # kN
    return push


@calc("RIG.PRETENSION", group=GROUP)
def pretension(load: Load, heel: TautHeel = 20.0, factor: HeelFactor = 1.5) -> Kilonewtons:
    """Tension to set a shroud up to, so that the lee one just stays taut up to that heel.

    Formula: pretension = load · sin(heel) / (2 · factor · sin(30°))
    Limits: load and factor as in RIG.SHROUD.TOTAL; righting moment as the sine of the heel; both sides equally
    stiff.
    Source: statics: windward gains what leeward loses; factor as RIG.SHROUD.TOTAL; 20° is assumed.
    """
    at_heel = load / factor * sin(heel) / sin(30)  # kN
    set_up = at_heel / 2  # kN
    return set_up


@calc("RIG.BACKSTAY", group=GROUP)
def backstay(forestay: Forestay, forestay_pull: ForestayPull, backstay_pull: BackstayPull) -> Kilonewtons:
    """Tension of the backstay that holds the forestay.

    Formula: backstay = forestay · forestay_pull / backstay_pull
    Limits: pulls by RIG.STAY.PULL, both with the mast's rake; both meet the mast at one height and no other stay
    helps. Runners likewise, one at a time. That the two lead opposite ways is for RIG.STAY.BALANCE to see.
    Source: statics: equal fore-and-aft pulls.
    """
    forward = forestay * forestay_pull  # kN
    tension = forward / backstay_pull  # kN
    return tension


def hardest_share(parts: float, friction: float) -> float:
    """Share of the load on the part next to the hand: (1 − 1/r) / (1 − r^−parts), r = exp(friction · π)."""
    half_turn = friction * pi
    if half_turn == 0:
        return 1 / parts
    # expm1 keeps every digit when there is hardly any friction.
    return expm1(-half_turn) / expm1(-half_turn * parts)


def fewest_parts(most_share: float, friction: float) -> float:
    """The fewest parts with which no part takes more than that share; inf when 24 are not enough."""
    enough = (n for n in range(1, MOST_PARTS + 1) if hardest_share(n, friction) <= most_share)
    return float(next(enough, inf))


@calc("RIG.LASHING.SHARE", group=GROUP)
def lashing_share(parts: Parts, friction: Friction = 0.15) -> Share:
    """Share of the load on the hardest-worked part of a lashing.

    Formula: share = (1 − 1/r) / (1 − r^−parts), r = exp(friction · π); 1/parts at no friction
    Limits: one line, hauled from one end, half a turn round a ring between two parts, before working evens the
    parts out. 0.07 suits polished rings.
    Source: capstan equation; friction 0.15 is assumed.
    """
    hardest = hardest_share(parts, friction)  # share
    return hardest


@calc("RIG.LASHING.HAUL", group=GROUP)
def lashing_haul(
    tension: Tension, parts: Parts, friction: Friction = 0.15, half_turns: HalfTurns = 1.0
) -> Kilonewtons:
    """Pull of the hand on the tail of a lashing that sets a stay up to its tension.

    Formula: haul = tension · RIG.LASHING.SHARE(parts; friction) · exp(friction · π · half_turns)
    Limits: the tail goes round that many more half turns after the last part: 1 where it passes a ring once more
    and comes back towards the hand, 0 where it is pulled in line with the part. As RIG.LASHING.SHARE, before
    working evens the parts out; a tackle or a winch on the tail pulls this much.
    Source: capstan equation; friction 0.15 and one half turn are assumed.
    """
    last_part = tension * lashing_share(parts, friction)  # kN
    rubbing = exp(friction * pi * half_turns)  # times
    haul = last_part * rubbing  # kN
    return haul


@calc("RIG.LASHING.PARTS", group=GROUP)
def lashing_parts(
    load: Load, line_break: LineBreak, required: Required, friction: Friction = 0.15, bend: Bend = 0.8
) -> Count:
    """Fewest parts of a lashing that give the margin.

    Formula: the fewest parts for which load · RIG.LASHING.SHARE(parts; friction) ≤ line_break · bend / required
    Limits: With friction more parts help less and less. One part holds, but takes up nothing.
    Errors: Err:523 where 24 parts are not enough.
    Source: capstan equation; friction 0.15 and 0.8 for the bend round the ring are assumed.
    """
    each_part = line_break * bend / required  # kN
    most_share = each_part / load  # share
    parts = fewest_parts(most_share, friction)  # count
    if parts > MOST_PARTS:
        raise NoSolution(
            f"a part may carry {each_part:.4g} kN, yet with {MOST_PARTS} parts the hardest-worked one carries "
            f"{load * hardest_share(MOST_PARTS, friction):.4g} kN; take a stronger line or smoother rings"
        )
    return parts


@calc("RIG.LASHING.GAP", group=GROUP)
def lashing_gap(
    length: StayLength, lasting_set: LastingSet, stretch: ElasticStretch, left: Left = 60.0
) -> Millimetres:
    """Gap to leave for the lashing, so that there is room to take up.

    Formula: gap = length · (lasting_set + stretch) + left
    Limits: set and stretch as shares of the length, from the bench to the working tension; creep over the years is
    not in it.
    Source: definition of what is taken up; the 60 mm left are assumed.
    """
    taken_up = length * (lasting_set + stretch)  # mm
    gap = taken_up + left  # mm
    return gap


@calc("RIG.LASHING.LINE", group=GROUP)
def lashing_line(gap: Gap, parts: Parts, ring: Ring, tail: Tail = 1000.0) -> Millimetres:
    """Length of line for a lashing.

    Formula: line = parts · (gap + π · ring / 2) + tail
    Limits: gap from the centre of one ring to the other's, before it is taken up; both rings alike, the parts side
    by side.
    Source: geometry, half a turn for each part; the tail is assumed.
    """
    one_part = gap + pi * ring / 2  # mm
    line = parts * one_part + tail  # mm
    return line
