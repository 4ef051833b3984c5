"""Mass: what rope and wire weigh, and what weight saved aloft is worth."""

from math import pi
from typing import Annotated

from loftsheet import measure
from loftsheet.degrees import sin
from loftsheet.quantities import (
    Fill,
    Kilograms,
    KilonewtonMetres,
    Rope,
    StayLength,
    Wire,
    angle,
    length,
    number,
    ratio,
)
from loftsheet.registry import SMALLEST, calc

GROUP = "Mass"
GRAVITY = 9.80665  # m/s²

RopeFactor = Annotated[float, ratio("mass of a metre in grams, for a rope of 1 mm", least=0.1, most=3)]
Density = Annotated[float, number("density of the wire's metal", measure.DENSITY, 1_000, 20_000)]
Saved = Annotated[float, number("mass taken off", measure.MASS, SMALLEST, 5_000)]
Height = Annotated[float, length("height above the boat's centre of gravity")]
Heel = Annotated[float, angle("angle of heel", least=SMALLEST, most=90)]


@calc("RIG.ROPE.MASS", group=GROUP)
def rope_mass(length: StayLength, rope: Rope, k: RopeFactor = 0.58) -> Kilograms:
    """Mass of a rope.

    Formula: mass = k · rope² · length, k · rope² in grams a metre
    Limits: dry 12-strand HMPE, length of rope cut, sleeves not counted; within about 5 %.
    Source: ISO 10325, from a draft adoption: k = 0.575 to 0.603.
    """
    metre = k * rope**2  # g/m
    mass = metre * length * 1e-6  # kg
    return mass


@calc("RIG.WIRE.MASS", group=GROUP)
def wire_mass(length: StayLength, diameter: Wire, density: Density = 8000.0, fill: Fill = 0.76) -> Kilograms:
    """Mass of a wire.

    Formula: mass = density · fill · π · diameter² / 4 · length
    Limits: stainless 1x19; the lay adds a few percent, terminals are not counted.
    Source: geometry; the density from memory.
    """
    area = fill * pi * diameter**2 / 4  # mm²
    mass = density * area * length * 1e-9  # kg
    return mass


@calc("RIG.RM.GAIN", group=GROUP)
def rm_gain(mass: Saved, height: Height, heel: Heel = 30.0) -> KilonewtonMetres:
    """Righting moment gained by mass taken off aloft.

    Formula: gain = mass · 9.80665 · height · sin(heel)
    Limits: a mass small beside the boat's. As the boat rises a little, the exact lever is the height above the
    waterline, near which most sailing boats have their centre of gravity.
    Source: statics; 30° is assumed.
    """
    weight = mass * GRAVITY / 1000  # kN
    gain = weight * height / 1000 * sin(heel)  # kN·m
    return gain
