"""Trigonometry in degrees, the unit of every angle here."""

import math


def sin(angle: float) -> float:
    return math.sin(math.radians(angle))


def cos(angle: float) -> float:
    return math.cos(math.radians(angle))


def tan(angle: float) -> float:
    return math.tan(math.radians(angle))


def asin(ratio: float) -> float:
    return math.degrees(math.asin(ratio))


def atan(ratio: float) -> float:
    return math.degrees(math.atan(ratio))


def atan2(opposite: float, adjacent: float) -> float:
    return math.degrees(math.atan2(opposite, adjacent))
