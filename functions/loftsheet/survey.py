"""Survey: from measured points to lengths and angles of stays.

Axes: `fore` positive towards the bow, `out` positive away from the centreline on the stay's own side, `up`
positive, from any common datum.
"""

from math import hypot, sqrt
from typing import Annotated

from loftsheet.degrees import atan2, cos, sin
from loftsheet.errors import BadInput
from loftsheet.quantities import (
    Aft,
    Along,
    Degrees,
    Fore,
    Kilonewtons,
    Millimetres,
    Out,
    Rake,
    Share,
    Tension,
    Up,
    angle,
)
from loftsheet.registry import calc

FromMast = Annotated[float, angle("angle between mast and shroud", most=89)]


@calc("RIG.MAST.FORE", group="Survey")
def mast_fore(along: Along, rake: Rake, foot_fore: Fore = 0.0, aft: Aft = 0.0) -> Millimetres:
    """Fore position of a point measured along a raked mast, and from there square to it.

    Formula: fore = foot_fore − along · sin(rake) − aft · cos(rake)
    Limits: a straight mast.
    Source: geometry.
    """
    aft_of_foot = along * sin(rake) + aft * cos(rake)  # mm
    fore = foot_fore - aft_of_foot  # mm
    return fore


@calc("RIG.MAST.UP", group="Survey")
def mast_up(along: Along, rake: Rake, foot_up: Up = 0.0, aft: Aft = 0.0) -> Millimetres:
    """Height of a point measured along a raked mast, and from there square to it.

    Formula: up = foot_up + along · cos(rake) − aft · sin(rake)
    Limits: a straight mast.
    Source: geometry.
    """
    above_foot = along * cos(rake) - aft * sin(rake)  # mm
    up = foot_up + above_foot  # mm
    return up


@calc("RIG.STAY.LENGTH", group="Survey")
def stay_length(
    upper_fore: Fore, upper_out: Out, upper_up: Up, lower_fore: Fore, lower_out: Out, lower_up: Up
) -> Millimetres:
    """Straight distance between the two ends of a stay or of one part of it.

    Formula: length = √((lower_fore − upper_fore)² + (lower_out − upper_out)² + (lower_up − upper_up)²)
    Limits: a straight part; a shroud over a spreader is two: mast to tip, tip to chainplate.
    Errors: Err:502 where both ends are the same point.
    Source: geometry.
    """
    fore = lower_fore - upper_fore  # mm
    out = lower_out - upper_out  # mm
    drop = upper_up - lower_up  # mm
    length = sqrt(fore**2 + out**2 + drop**2)  # mm
    if length == 0:
        raise BadInput("the upper and the lower point are the same; give two different points")
    return length


@calc("RIG.STAY.OUT", group="Survey")
def stay_out(
    upper_fore: Fore, upper_out: Out, upper_up: Up, lower_fore: Fore, lower_out: Out, lower_up: Up
) -> Degrees:
    """Angle at which a stay leaves the mast face, in the athwartship plane.

    Formula: out_angle = atan2(lower_out − upper_out, upper_up − lower_up)
    Limits: For the bevel on an upright mast it is exact also when the stay leads fore or aft; 3° of rake move that
    of an ordinary shroud by about a tenth of a degree.
    Errors: Err:502 where the lower end is not below the upper, or lies inboard of it.
    Source: geometry.
    """
    out = lower_out - upper_out  # mm
    drop = upper_up - lower_up  # mm
    if drop <= 0:
        raise BadInput(f"the lower end is {abs(drop):g} mm above the upper; it must be below it")
    if out < 0:
        raise BadInput(f"the lower end is {-out:g} mm inboard of the upper; it must not be")
    out_angle = atan2(out, drop)  # °
    return out_angle


@calc("RIG.STAY.FORE", group="Survey")
def stay_fore(
    upper_fore: Fore,
    upper_out: Out,
    upper_up: Up,
    lower_fore: Fore,
    lower_out: Out,
    lower_up: Up,
    rake: Rake = 0.0,
) -> Degrees:
    """Angle between stay and mast in the fore-and-aft plane, positive when the lower end is forward.

    Formula: fore_angle = atan2(lower_fore − upper_fore, upper_up − lower_up) − rake
    Limits: a straight stay.
    Errors: Err:502 where the lower end is not below the upper.
    Source: geometry.
    """
    fore = lower_fore - upper_fore  # mm
    drop = upper_up - lower_up  # mm
    if drop <= 0:
        raise BadInput(f"the lower end is {abs(drop):g} mm above the upper; it must be below it")
    from_vertical = atan2(fore, drop)  # °
    fore_angle = from_vertical - rake  # °
    return fore_angle


@calc("RIG.STAY.ANGLE", group="Survey")
def stay_angle(
    upper_fore: Fore,
    upper_out: Out,
    upper_up: Up,
    lower_fore: Fore,
    lower_out: Out,
    lower_up: Up,
    rake: Rake = 0.0,
) -> Degrees:
    """True angle between a stay and the axis of the mast.

    Formula: angle = atan2(√(forward² + out²), down), down = fore · sin(rake) + drop · cos(rake), forward = fore ·
    cos(rake) − drop · sin(rake), fore = lower_fore − upper_fore, out = lower_out − upper_out, drop = upper_up −
    lower_up
    Limits: a straight stay.
    Errors: Err:502 where the lower end is not below the upper.
    Source: geometry of vectors.
    """
    fore = lower_fore - upper_fore  # mm
    out = lower_out - upper_out  # mm
    drop = upper_up - lower_up  # mm
    if drop <= 0:
        raise BadInput(f"the lower end is {abs(drop):g} mm above the upper; it must be below it")
    down = fore * sin(rake) + drop * cos(rake)  # mm
    forward = fore * cos(rake) - drop * sin(rake)  # mm
    across = hypot(forward, out)  # mm
    angle_to_mast = atan2(across, down)  # °
    return angle_to_mast


@calc("RIG.STAY.PULL", group="Survey")
def stay_pull(
    upper_fore: Fore,
    upper_out: Out,
    upper_up: Up,
    lower_fore: Fore,
    lower_out: Out,
    lower_up: Up,
    rake: Rake = 0.0,
) -> Share:
    """Fore-and-aft pull of a stay, square to the mast, for each unit of its tension.

    Formula: pull = |fore · cos(rake) − drop · sin(rake)| / RIG.STAY.LENGTH, fore = lower_fore − upper_fore, drop =
    upper_up − lower_up
    Limits: a straight stay. Without the mast's rake it is the horizontal pull, and the mast takes none of it only
    where it is upright: with 1° of rake the balance of forestay and backstay comes out about a tenth wrong.
    Errors: Err:502 where both ends are the same point.
    Source: statics.
    """
    fore = lower_fore - upper_fore  # mm
    drop = upper_up - lower_up  # mm
    forward = fore * cos(rake) - drop * sin(rake)  # mm
    length = stay_length(upper_fore, upper_out, upper_up, lower_fore, lower_out, lower_up)  # mm
    pull = abs(forward) / length  # share
    return pull


@calc("RIG.STAY.PULL.FORE", group="Survey")
def stay_pull_fore(
    upper_fore: Fore,
    upper_out: Out,
    upper_up: Up,
    lower_fore: Fore,
    lower_out: Out,
    lower_up: Up,
    rake: Rake = 0.0,
) -> Share:
    """How much a stay pulls forward, square to the mast, for each unit of its tension; aft is negative.

    Formula: pull = (fore · cos(rake) − drop · sin(rake)) / RIG.STAY.LENGTH, fore = lower_fore − upper_fore, drop =
    upper_up − lower_up
    Limits: a straight stay. Its sign says which way the stay leads.
    Errors: Err:502 where both ends are the same point.
    Source: statics.
    """
    fore = lower_fore - upper_fore  # mm
    drop = upper_up - lower_up  # mm
    forward = fore * cos(rake) - drop * sin(rake)  # mm
    length = stay_length(upper_fore, upper_out, upper_up, lower_fore, lower_out, lower_up)  # mm
    pull = forward / length  # share
    return pull


@calc("RIG.STAY.PULL.OUT", group="Survey")
def stay_pull_out(
    upper_fore: Fore, upper_out: Out, upper_up: Up, lower_fore: Fore, lower_out: Out, lower_up: Up
) -> Share:
    """How much a stay pulls outward, to its own side, for each unit of its tension; inward is negative.

    Formula: pull = (lower_out − upper_out) / RIG.STAY.LENGTH
    Limits: a straight stay, and a mast that does not lean to a side. Of a shroud over a spreader give one part:
    mast to tip, or tip to chainplate.
    Errors: Err:502 where both ends are the same point.
    Source: statics.
    """
    outward = lower_out - upper_out  # mm
    length = stay_length(upper_fore, upper_out, upper_up, lower_fore, lower_out, lower_up)  # mm
    pull = outward / length  # share
    return pull


@calc("RIG.STAY.PULL.DOWN", group="Survey")
def stay_pull_down(
    upper_fore: Fore,
    upper_out: Out,
    upper_up: Up,
    lower_fore: Fore,
    lower_out: Out,
    lower_up: Up,
    rake: Rake = 0.0,
) -> Share:
    """How much a stay pushes down the mast, along its axis, for each unit of its tension; lifting is negative.

    Formula: pull = (fore · sin(rake) + drop · cos(rake)) / RIG.STAY.LENGTH, fore = lower_fore − upper_fore, drop =
    upper_up − lower_up
    Limits: a straight stay.
    Errors: Err:502 where both ends are the same point.
    Source: statics.
    """
    fore = lower_fore - upper_fore  # mm
    drop = upper_up - lower_up  # mm
    down = fore * sin(rake) + drop * cos(rake)  # mm
    length = stay_length(upper_fore, upper_out, upper_up, lower_fore, lower_out, lower_up)  # mm
    pull = down / length  # share
    return pull


@calc("RIG.SPREADER.PUSH", group="Survey")
def spreader_push(tension: Tension, above: FromMast, below: FromMast) -> Kilonewtons:
    """Force with which a shroud over its tip pushes into the spreader.

    Formula: push = tension · (sin(above) − sin(below))
    Limits: one tension above and below the tip; angles from the mast, in the plane of the spreader. It is the
    push square to the mast; along a spreader whose tip is raised it is greater by 1/cos(rise). Negative: the
    shroud would pull the tip outwards.
    Source: statics.
    """
    push = tension * (sin(above) - sin(below))  # kN
    return push


@calc("RIG.SPREADER.RISE", group="Survey")
def spreader_rise(above: FromMast, below: FromMast) -> Degrees:
    """Angle by which a spreader's tip is raised so that it halves the angle of its shroud.

    Formula: rise = (above + below) / 2
    Limits: angles from the mast, in the plane of the spreader.
    Source: geometry.
    """
    rise = (above + below) / 2  # °
    return rise
