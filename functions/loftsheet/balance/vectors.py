"""Vectors of three numbers."""

from math import sqrt

Vector = tuple[float, float, float]


def plus(one: "tuple[float, ...]", other: "tuple[float, ...]", times: float = 1.0) -> "tuple[float, float, float]":
    return one[0] + times * other[0], one[1] + times * other[1], one[2] + times * other[2]


def dot(one: "tuple[float, ...]", other: "tuple[float, ...]") -> float:
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]


def cross(one: "tuple[float, ...]", other: "tuple[float, ...]") -> "tuple[float, float, float]":
    return (
        one[1] * other[2] - one[2] * other[1],
        one[2] * other[0] - one[0] * other[2],
        one[0] * other[1] - one[1] * other[0],
    )


def size(one: "tuple[float, ...]") -> float:
    return sqrt(dot(one, one))


def unit(one: "tuple[float, ...]") -> "tuple[float, float, float]":
    length = size(one)
    return one[0] / length, one[1] / length, one[2] / length
