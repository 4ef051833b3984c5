"""Lashing: the room that its parts need, and what it can still close."""

from math import sqrt
from typing import Annotated

from loftsheet.degrees import sin
from loftsheet.errors import BadInput
from loftsheet.loads import MOST_PARTS, Gap, Parts
from loftsheet.quantities import Count, Millimetres, Rope, Sleeve, count, length
from loftsheet.registry import calc

GROUP = "Lashing"
HALF = 180.0  # °

Line = Annotated[float, length("diameter of the lashing line", most=60)]
HoleOfRing = Annotated[float, length("diameter of the hole in ring or chainplate", most=300)]
Groove = Annotated[float, length("diameter on which the eye lies in the ring", most=300)]
Edge = Annotated[
    float,
    length("from the middle of the hole or ring at the other end to its edge on this side", least=0, most=300),
]

Lashings = Annotated[float, count("equal lashings in the one hole", most=100)]

# Smallest round hole, in diameters of a line, for one pass, two, three and so on up to thirteen; for more one that
# has room: up to 19 as two rings round one line, up to 37 as three hexagons round one.
HOLES = (
    1.0,
    2.0,
    1 + 2 / sqrt(3),
    1 + sqrt(2),
    1 + 1 / sin(HALF / 5),
    3.0,
    3.0,
    1 + 1 / sin(HALF / 7),
    1 + 1 / sin(HALF / 8),
    3.8130256,
    1 + 1 / sin(HALF / 9),
    4.0296019,
    2 + sqrt(5),
    *6 * [1 + sqrt(2) + sqrt(6)],
    *18 * [7.0],
)
SQUEEZED = 1e-9  # so that a line of 6 mm goes seven times through 18 mm, however that is divided


@calc("RIG.LASHING.HOLE", group=GROUP)
def lashing_hole(parts: Parts, line: Line, lashings: Lashings = 1.0) -> Millimetres:
    """Smallest round hole, in a ring or a chainplate, through which the parts of its lashings go.

    Formula: hole = line · ratio, ratio by how often the line passes, of each of its lashings half the parts
    rounded down and once more: 1 pass 1, 2 passes 2, 3 2.155, 4 2.414, 5 2.701, 6 and 7 3, 8 3.305, 9 3.613,
    10 3.813, 11 3.924, 12 4.030, 13 4.236, up to 19 4.864, up to 37 7
    Limits: a line that keeps its round; the once more is its made-fast end or its tail. Nothing else in the
    hole. From 14 passes on there is room, but a smaller hole may do.
    Errors: Err:502 above 37 passes.
    Source: densest packing of equal circles in a circle, as in R. L. Graham et al., Dense packings of congruent
    circles in a circle, Discrete Mathematics 181 (1998); above 13 passes geometry of rings of circles.
    """
    passes = lashings * (parts // 2 + 1)  # count
    if passes > len(HOLES):
        raise BadInput(
            f"the line would pass {passes:.0f} times, allowed in one hole are up to {len(HOLES)}; lash to another"
            " hole, too"
        )
    hole = line * HOLES[int(passes) - 1]  # mm
    return hole


@calc("RIG.LASHING.ROOM", group=GROUP)
def lashing_room(hole: HoleOfRing, line: Line) -> Count:
    """Most parts of a lashing for which a round hole has room; 0 where the line does not go through.

    Formula: the most parts for which RIG.LASHING.HOLE(parts; line) ≤ hole
    Limits: as RIG.LASHING.HOLE, and up to 24 parts.
    Source: densest packing of equal circles in a circle, as RIG.LASHING.HOLE.
    """
    passes = most_passes(hole, line)  # count
    parts = min(float(MOST_PARTS), max(0.0, 2 * passes - 1))  # count
    return parts


@calc("RIG.LASHING.CLOSE", group=GROUP)
def lashing_close(gap: Gap, ring: Groove, rope: Rope, edge: Edge = 0.0, sleeve: Sleeve = 1.0) -> Millimetres:
    """How much a lashing can still close: from the eye round its ring to the edge at the other end.

    Formula: close = gap − (ring/2 + rope + 2 · sleeve) − edge
    Limits: gap from the middle of the ring to that of the hole or ring at the other end; the eye lies round the
    ring on the side of the lashing. At a second ring with an eye edge is its ring/2 + rope + 2 · sleeve, at a
    chainplate from the hole's middle to its rim. Negative: they would meet before.
    Source: geometry; a sleeve of 1 mm is assumed.
    """
    below_ring = ring / 2 + rope + 2 * sleeve  # mm
    close = gap - below_ring - edge  # mm
    return close


def most_passes(hole: float, line: float) -> float:
    """How often the line goes through: the most passes whose smallest hole is no larger than this one."""
    return float(sum(one * line <= hole * (1 + SQUEEZED) for one in HOLES))
