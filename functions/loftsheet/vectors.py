"""Directions in space, as (fore, out, up)."""

from collections.abc import Sequence
from math import hypot
from typing import Optional

from loftsheet.degrees import atan2
from loftsheet.errors import BadInput

Vector = tuple[float, float, float]
Column = Sequence[Optional[float]]


def line(start: Vector, end: Vector) -> Vector:
    """The line from one point to another, of length 1."""
    apart = (end[0] - start[0], end[1] - start[1], end[2] - start[2])
    length = size(apart)
    if length == 0:
        raise BadInput("two points of the stay are the same; give different points")
    return (apart[0] / length, apart[1] / length, apart[2] / length)


def size(one: Vector) -> float:
    """Length of a vector."""
    return hypot(*one)


def dot(one: Vector, other: Vector) -> float:
    """Scalar product of two vectors."""
    return sum(a * b for a, b in zip(one, other))


def cross(one: Vector, other: Vector) -> Vector:
    """Vector product of two vectors."""
    (a, b, c), (d, e, f) = one, other
    return (b * f - c * e, c * d - a * f, a * e - b * d)


def total(one: Vector, other: Vector) -> Vector:
    """Sum of two vectors."""
    return (one[0] + other[0], one[1] + other[1], one[2] + other[2])


def plus(one: Vector, other: Vector, times: float) -> Vector:
    """One and so many times the other."""
    return (one[0] + times * other[0], one[1] + times * other[1], one[2] + times * other[2])


def between(one: Vector, other: Vector) -> float:
    """Angle by both its sine and its cosine, so that it is exact near 0 and near 180°."""
    return atan2(size(cross(one, other)), dot(one, other))


def of_columns(fore: Column, out: Column, up: Column) -> Vector:
    """Sum of vectors that stand in three columns, one in each row; rows that are blank in all three are none."""
    if not len(fore) == len(out) == len(up):
        raise BadInput(
            f"the three ranges have {len(fore)}, {len(out)} and {len(up)} cells; they must be of one height"
        )
    summed = [0.0, 0.0, 0.0]
    for row, parts in enumerate(zip(fore, out, up), start=1):
        if all(part is None for part in parts):
            continue
        for axis, part in enumerate(parts):
            if part is None:
                raise BadInput(f"row {row} of the ranges has a blank cell beside a number; fill in all three")
            summed[axis] += part
    return (summed[0], summed[1], summed[2])
