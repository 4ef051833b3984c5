"""Stretch, temperature and creep: what load, heat and time do to the length and tension of a stay."""

from math import exp, pi
from typing import Annotated, Optional

from loftsheet import measure
from loftsheet.errors import BadInput
from loftsheet.quantities import (
    BreakLoad,
    Fill,
    Kilonewtons,
    Load,
    Millimetres,
    StayLength,
    Tension,
    Wire,
    force,
    length,
    number,
    ratio,
)
from loftsheet.registry import SMALLEST, calc

GROUP = "Stretch, temperature, creep"
GAS_CONSTANT = 8.314462618e-3  # kJ/(mol·K)
FREEZING = 273.15  # K, at 0 °C

StiffnessRatio = Annotated[float, ratio("stiffness EA as a multiple of the breaking load", most=200)]
Modulus = Annotated[float, number("modulus of the wire as laid", measure.MODULUS, 20, 250)]
Stiffness = Annotated[float, force("stiffness EA of rope or wire", most=1_000_000)]
MastLength = Annotated[float, length("length of mast beside the stay")]
Change = Annotated[
    float, number("change of temperature, warmer is positive", measure.TEMPERATURE_CHANGE, -140, 140)
]
MastRate = Annotated[float, number("expansion of the mast", measure.EXPANSION, -20, 100)]
StayRate = Annotated[
    float, number("expansion of the stay, a shrinking one is negative", measure.EXPANSION, -50, 100)
]
Tightening = Annotated[
    float, length("how much tighter the stay is set, easing is negative", least=-1_000, most=1_000)
]
Slack = Annotated[float, length("how much the stay is eased", least=0, most=5_000)]
MetreMass = Annotated[float, number("mass of a metre of the stay", measure.LINEAR_MASS, SMALLEST, 20_000)]
Frequency = Annotated[float, number("note of the plucked stay", measure.FREQUENCY, SMALLEST, 1_000)]
Rate = Annotated[float, number("creep in a year at ref_load and ref_temp", measure.RATE, SMALLEST, 0.1)]
Years = Annotated[float, number("time under the load", measure.TIME, SMALLEST, 50)]
HeldLoad = Annotated[float, force("load held for years")]
RefLoad = Annotated[float, force("load at which the rate was measured")]
Power = Annotated[float, ratio("power with which creep grows with the load", least=1, most=20)]
Temp = Annotated[float, number("temperature of the stay", measure.TEMPERATURE, -60, 80)]
RefTemp = Annotated[float, number("temperature at which the rate was measured", measure.TEMPERATURE, -60, 80)]
Activation = Annotated[float, number("activation energy", measure.ENERGY, SMALLEST, 500)]


@calc("RIG.ROPE.EA", group=GROUP)
def rope_ea(break_load: BreakLoad, ratio: StiffnessRatio = 37.5) -> Kilonewtons:
    """Stiffness EA of a rope, from its breaking load.

    Formula: ea = ratio · break_load
    Limits: bedded-in 12-strand HMPE: 37.5 is 0.8 % at 30 % of the breaking load. A new rope, or one at a
    lower load, is softer; the maker's figure wins.
    Source: Pilkerton, Garland, Sessions, Stringham, Oregon State University, slides for the skyline symposium of
    2001, under "low stretch": 0.8 ft in 100 ft at 30 % of break.
    """
    ea = ratio * break_load  # kN
    return ea


@calc("RIG.WIRE.EA", group=GROUP)
def wire_ea(diameter: Wire, modulus: Modulus = 130.0, fill: Fill = 0.76) -> Kilonewtons:
    """Stiffness EA of a wire.

    Formula: ea = modulus · fill · π · diameter² / 4
    Limits: stainless 1x19; 0.76 is 19/25, nineteen wires of a fifth of the diameter.
    Source: geometry; modulus from memory of EN 1993-1-11 table 3.1.
    """
    area = fill * pi * diameter**2 / 4  # mm²
    ea = modulus * area  # kN
    return ea


@calc("RIG.STRETCH", group=GROUP)
def stretch(load: Load, length: StayLength, ea: Stiffness) -> Millimetres:
    """Elastic stretch of a stay.

    Formula: stretch = load · length / ea
    Limits: elastic only; lasting set and creep come on top.
    Source: Hooke's law.
    """
    stretched = load * length / ea  # mm
    return stretched


@calc("RIG.TEMP.TIGHTEN", group=GROUP)
def temp_tighten(
    mast_length: MastLength,
    stay_length: StayLength,
    change: Change,
    mast_rate: MastRate = 23.6,
    stay_rate: StayRate = -12.0,
) -> Millimetres:
    """How much a change of temperature tightens a stay, easing is negative.

    Formula: tighten = change · (mast_rate · mast_length − stay_rate · stay_length) · 1e-6
    Limits: stay nearly along the mast; mast_length is the mast between the stay's ends. Defaults: aluminium
    mast, HMPE, which shortens when it is warmed.
    Source: thermal expansion; 23.6 Aluminum Association typical values (6061-T6); −12 HMPE along the chain,
    Govaert et al., Polymer (1992).
    """
    mast_grows = change * mast_rate * mast_length * 1e-6  # mm
    stay_grows = change * stay_rate * stay_length * 1e-6  # mm
    tighten = mast_grows - stay_grows  # mm
    return tighten


@calc("RIG.TENSION.CHANGE", group=GROUP)
def tension_change(tightening: Tightening, length: StayLength, ea: Stiffness) -> Kilonewtons:
    """Change of tension when a stay is set tighter or eased.

    Formula: change = ea · tightening / length
    Limits: mast and hull taken as stiff, so an upper bound. Eased by more than its tension the stay is slack;
    RIG.TENSION.AFTER counts that.
    Source: Hooke's law.
    """
    change = ea * tightening / length  # kN
    return change


@calc("RIG.TENSION.AFTER", group=GROUP)
def tension_after(tension: Tension, slack: Slack, length: StayLength, ea: Stiffness) -> Kilonewtons:
    """Tension left when a stay is eased; 0 means slack.

    Formula: left = max(0, tension − ea · slack / length)
    Limits: mast and hull taken as stiff; as they spring back a little, more may be left.
    Source: Hooke's law; a rope cannot push.
    """
    taken = ea * slack / length  # kN
    left = max(0.0, tension - taken)  # kN
    return left


@calc("RIG.TENSION.PLUCK", group=GROUP)
def tension_pluck(length: StayLength, mass: MetreMass, frequency: Frequency) -> Kilonewtons:
    """Tension from the note of a plucked free length.

    Formula: tension = 4 · mass · length² · frequency²
    Limits: the lowest note, the length between the points that do not move. What weighs more than `mass` lowers
    the note, and it reads low: sleeves, wet rope, and buried ends, which are double rope: 1 % low where each is a
    tenth of the length, 9 % where each is a fifth. Bending stiffness raises the note, and it reads high: wire of
    stiffness EI by about 4/length · √(EI/tension), worst in a short length; rope hardly at all.
    Source: stretched string, f = √(tension/mass) / (2 · length); buried ends by Rayleigh's quotient, stiffness by
    the first term for clamped ends, both derived here.
    """
    wave_speed = 2 * length * frequency / 1000  # m/s
    tension = mass * wave_speed**2 * 1e-6  # kN
    return tension


MOST_CREEP = 0.1  # of the length; a rope that has crept so far is at its end


def load_effect(load: Optional[float], ref_load: Optional[float], power: Optional[float]) -> float:
    """How many times faster it creeps than at ref_load: (load / ref_load)^power; 1 where they are left out."""
    if load is None or ref_load is None or power is None:
        return 1.0
    return float((load / ref_load) ** power)


def temperature_effect(temp: Optional[float], ref_temp: Optional[float], activation: float) -> float:
    """How many times faster it creeps than at ref_temp, by Arrhenius; 1 where they are left out."""
    if temp is None or ref_temp is None:
        return 1.0
    return exp(activation / GAS_CONSTANT * (1 / (ref_temp + FREEZING) - 1 / (temp + FREEZING)))


@calc(
    "RIG.CREEP",
    group=GROUP,
    together=[("load", "ref_load", "power"), ("temp", "ref_temp", "activation")],
)
def creep(
    length: StayLength,
    rate: Rate,
    years: Years,
    load: Optional[HeldLoad] = None,
    ref_load: Optional[RefLoad] = None,
    power: Optional[Power] = None,
    temp: Optional[Temp] = None,
    ref_temp: Optional[RefTemp] = None,
    activation: Activation = 145.0,
) -> Millimetres:
    """Lasting lengthening of a stay by creep.

    Formula: creep = length · rate · years · (load / ref_load)^power · exp(activation / 8.314e-3 · (1 / ref_temp −
    1 / temp)), temperatures in kelvin
    Limits: steady creep only, the same load and temperature all the time. The rate, at ref_load and ref_temp,
    comes from the rope's maker; the other figures give the shape, and only near the reference.
    Errors: Err:502 above a tenth of the length, or where load, ref_load, power or temp, ref_temp are given by
    half.
    Source: Arrhenius; activation O'Connor & Robbins (2020), abstract; power law common practice, no source.
    """
    loaded = load_effect(load, ref_load, power)  # times
    warmed = temperature_effect(temp, ref_temp, activation)  # times
    lengthening = length * rate * years * loaded * warmed  # mm
    if lengthening > MOST_CREEP * length:
        raise BadInput(
            f"creep comes to {lengthening / length:.3g} times the length, and steady creep holds to a tenth of it"
            " at most; check rate and years, and whether load and temperature are near their reference"
        )
    return lengthening
