"""Sail cases: what the sails lay on the mast across the boat, and what of it each shroud holds.

A case says how the side force is spread over the heights where the mast is held, and by what factor it is
raised. Heights count from the waterline: the hull resists leeway below it, so the force comes out a little high.
"""

from typing import Annotated, Any, Optional

from loftsheet.degrees import sin
from loftsheet.errors import BadInput
from loftsheet.forms import COLUMN
from loftsheet.loads import HeelFactor, RightingMoment
from loftsheet.quantities import Kilonewtons, Millimetres, angle, force, length, share
from loftsheet.registry import SMALLEST, calc

GROUP = "Sail cases"
WHOLE_WITHIN = 0.001  # of shares that are typed with two or three decimals
STEEPEST = 30.01  # °, the heel at which the righting moment is given, and what radians round off

Shares = Annotated[Any, share("share of the side force at each height", least=0, form=COLUMN)]
Heights = Annotated[Any, length("each height above the waterline", least=0, form=COLUMN)]
Effort = Annotated[float, length("height above the waterline at which the side force acts as a whole")]
CaseHeel = Annotated[float, angle("heel of the case", least=SMALLEST, most=45)]
SideForce = Annotated[float, force("force across the mast where the shroud meets it")]
HeldOut = Annotated[float, share("outward pull of the shroud per unit of tension", least=SMALLEST)]
OwnForce = Annotated[float, force("side force of the case at the spreaders' height", least=-5_000)]
Over = Annotated[float, force("tension of the shroud over the spreader's tip", least=0)]
OutAbove = Annotated[float, share("its outward pull per unit of tension, from mast to tip", least=-1)]
OutBelow = Annotated[float, share("its outward pull per unit of tension, from tip down", least=-1)]


@calc("RIG.CASE.EFFORT", group=GROUP)
def case_effort(shares: Shares, heights: Heights) -> Millimetres:
    """Height at which the side force of a sail case acts as a whole.

    Formula: effort = Σ share · height
    Limits: two ranges of the same number of cells in the same order; the shares make 1. Heights above the
    waterline.
    Errors: Err:502 where shares and heights differ in number, the shares do not make 1, a height is blank beside
    its share, or all of the force is at the waterline.
    Source: statics.
    """
    effort = spread(shares, heights)  # mm
    if effort <= 0:
        raise BadInput("the whole side force is at the waterline; give the heights where the mast is held")
    return effort


@calc("RIG.CASE.FORCE", group=GROUP)
def case_force(
    rm30: RightingMoment, effort: Effort, factor: HeelFactor = 1.0, heel: CaseHeel = 30.0
) -> Kilonewtons:
    """Side force of the sails on the mast in a sail case.

    Formula: side_force = factor · rm30 · sin(heel) / sin(30°) / effort
    Limits: steady heel; a gust or a wave is more, and the margin is for that. Righting moment as the sine of the
    heel. `factor` stands for heel beyond 30°, as in RIG.SHROUD.TOTAL.
    Errors: Err:502 for a factor above 1 beside a heel above 30°, which would count that heel twice.
    Source: statics, side force times height makes the righting moment; a headsail alone and a reefed main alone
    with factor 1 after the Nordic boat standard as in L. Larsson and R. Eliasson, Principles of Yacht Design,
    from memory.
    """
    if factor > 1 and heel > STEEPEST:
        raise BadInput(
            f"factor {factor:g} already stands for heel beyond 30°, and the heel given is {heel:g}°; give factor 1"
            " or a heel of 30° or less"
        )
    moment = factor * rm30 * sin(heel) / sin(30)  # kN·m
    side_force = 1000 * moment / effort  # kN
    return side_force


@calc("RIG.CASE.SHROUD", group=GROUP)
def case_shroud(side_force: SideForce, pull_out: HeldOut) -> Kilonewtons:
    """Tension of the one shroud that holds a side force at the height where it meets the mast.

    Formula: tension = side_force / pull_out
    Limits: pull_out by RIG.STAY.PULL.OUT, of the part next to the mast. The lee shroud is slack; while it is
    not, the windward one carries its pretension and half of this. The mast's own stiffness is left out. Two
    lowers: RIG.PAIR.TENSION.
    Source: statics.
    """
    tension = side_force / pull_out  # kN
    return tension


@calc("RIG.CASE.LOWERS", group=GROUP)
def case_lowers(side_force: OwnForce, tension: Over, above: OutAbove, below: OutBelow) -> Kilonewtons:
    """Side pull that the lowers owe in a sail case: the sails' and the push of the spreader.

    Formula: side_pull = side_force + tension · (above − below)
    Limits: lowers that meet the mast at the spreaders; one tension above and below the tip, so a spreader that
    halves its shroud's angle; the mast as hinged there. Where two shrouds go over these spreaders the result for
    the one is the side_force for the other. Negative: the shroud pulls the tip out, and the lowers owe nothing.
    Source: statics.
    """
    push = tension * (above - below)  # kN
    side_pull = side_force + push  # kN
    return side_pull


def spread(shares: "tuple[Optional[float], ...]", heights: "tuple[Optional[float], ...]") -> float:
    """The sum of each share times its height."""
    if len(shares) != len(heights):
        raise BadInput(f"there are {len(shares)} shares and {len(heights)} heights; give a height for each share")
    given = sum(one or 0.0 for one in shares)
    if abs(given - 1) > WHOLE_WITHIN:
        raise BadInput(f"the shares make {given:.4g} in all; they must make 1")
    effort = 0.0
    for place, (part, height) in enumerate(zip(shares, heights), start=1):
        if part and height is None:
            raise BadInput(f"height {place} is blank, and {part:g} of the side force is there; type it")
        effort += (part or 0.0) * (height or 0.0)
    return effort
