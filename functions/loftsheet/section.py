"""Section of a mast: area and second moments of an elliptical tube, for whoever has no list of its maker."""

from math import pi
from typing import Annotated

from loftsheet.errors import BadInput
from loftsheet.quantities import CentimetresToTheFourth, SquareMillimetres, length
from loftsheet.registry import calc

GROUP = "Mast section"

Width = Annotated[float, length("outside size of the tube athwartships", most=1_000)]
ForeAndAft = Annotated[float, length("outside size of the tube fore and aft", most=1_500)]
Bent = Annotated[float, length("outside size of the tube in the direction in which it bends", most=1_500)]
Across = Annotated[float, length("outside size of the tube square to that direction", most=1_500)]
Wall = Annotated[float, length("thickness of the wall", most=50)]


@calc("RIG.TUBE.AREA", group=GROUP)
def tube_area(width: Width, fore_and_aft: ForeAndAft, wall: Wall) -> SquareMillimetres:
    """Area of metal in an elliptical or round tube.

    Formula: area = π/4 · (width · fore_and_aft − (width − 2 · wall) · (fore_and_aft − 2 · wall))
    Limits: one ellipse inside another, with `wall` between them at the four ends of the axes. A tube whose wall
    is as thick all round has up to 3 % more while no side is more than twice the other. Luff groove, doublers
    and holes are not in it; the mast maker's figure wins.
    Errors: Err:502 where two walls are thicker than the tube.
    Source: geometry of the ellipse.
    """
    if 2 * wall > min(width, fore_and_aft):
        raise BadInput(hollow_words(wall, width, fore_and_aft))
    outer = pi / 4 * width * fore_and_aft  # mm²
    hollow = pi / 4 * (width - 2 * wall) * (fore_and_aft - 2 * wall)  # mm²
    area = outer - hollow  # mm²
    return area


@calc("RIG.TUBE.INERTIA", group=GROUP)
def tube_inertia(bent: Bent, across: Across, wall: Wall) -> CentimetresToTheFourth:
    """Second moment of area of an elliptical or round tube, which mast makers list as its moment of inertia.

    Formula: inertia = π/64 · (across · bent³ − (across − 2 · wall) · (bent − 2 · wall)³) / 10⁴
    Limits: one ellipse inside another, as RIG.TUBE.AREA; a wall as thick all round gives up to 4 % more while no
    side is more than twice the other. For bending athwartships `bent` is the mast's width, for bending fore and
    aft its fore-and-aft size. Luff groove and holes are not in it; the mast maker's figure wins.
    Errors: Err:502 where two walls are thicker than the tube.
    Source: geometry of the ellipse.
    """
    if 2 * wall > min(bent, across):
        raise BadInput(hollow_words(wall, bent, across))
    outer = pi / 64 * across * bent**3 / 1e4  # cm⁴
    hollow = pi / 64 * (across - 2 * wall) * (bent - 2 * wall) ** 3 / 1e4  # cm⁴
    inertia = outer - hollow  # cm⁴
    return inertia


def hollow_words(wall: float, one: float, other: float) -> str:
    return (
        f"two walls of {wall:g} mm are thicker than a tube of {one:g} by {other:g} mm; the wall must be"
        f" {min(one, other) / 2:g} mm or less"
    )
