"""Strain budget: how little stretch holds a pretension, and what creep, cold and heel leave of it.

A stay between two points that do not move: what it creeps it no longer stretches. Tension falls by EA times the
rate of creep, and the rate falls with the tension.
"""

from math import exp, expm1, log, log1p, sqrt
from typing import Annotated, Any, Optional

from loftsheet import measure
from loftsheet.degrees import asin, sin
from loftsheet.errors import BadInput, NoSolution
from loftsheet.forms import COLUMN
from loftsheet.loads import HeelFactor
from loftsheet.quantities import (
    Degrees,
    Kilonewtons,
    Load,
    Millimetres,
    Share,
    StayLength,
    Tension,
    force,
    length,
    number,
    share,
)
from loftsheet.registry import SMALLEST, Quantity, calc
from loftsheet.stretch import (
    FREEZING,
    GAS_CONSTANT,
    Activation,
    Change,
    MastLength,
    MastRate,
    MetreMass,
    Power,
    Rate,
    RefLoad,
    RefTemp,
    StayRate,
    Stiffness,
    Temp,
    Years,
    load_effect,
    temp_tighten,
    temperature_effect,
    tension_change,
)

GROUP = "Strain budget"
FLAT = 0.1  # sag as a share of the length, up to which a parabola is near enough

TimeInYears = Annotated[float, Quantity("a time", measure.TIME)]
Hertz = Annotated[float, Quantity("a note", measure.FREQUENCY)]
Celsius = Annotated[float, Quantity("a temperature", measure.TEMPERATURE)]
LeftShare = Annotated[float, share("share of the tension that is left then", least=0.01, most=0.99)]
Rests = Annotated[float, force("tension at rest, 0 where it is slack", least=0)]
Temps = Annotated[
    Any,
    number("temperature of the stay, a cell for each month or hour", measure.TEMPERATURE, -60, 80, form=COLUMN),
]
SideLoad = Annotated[
    float, number("load across the stay on each metre of it", measure.LINE_LOAD, SMALLEST, 20_000)
]
LowLoad = Annotated[float, force("the lower of the two loads")]
HighLoad = Annotated[float, force("the higher of the two loads")]
LowLength = Annotated[float, length("between two marks at the lower load")]
HighLength = Annotated[float, length("between the same marks at the higher load")]


@calc("RIG.STRAIN", group=GROUP)
def strain(tension: Tension, ea: Stiffness) -> Share:
    """Strain of a stay under tension: its elastic stretch as a share of its length.

    Formula: strain = tension / ea
    Limits: elastic only. At a pretension it is less than a thousandth, millimetres in a whole shroud, which
    creep, a set that was not pulled out on the bench and cold take away easily.
    Source: Hooke's law.
    """
    stretched = tension / ea  # share
    return stretched


@calc(
    "RIG.RELAX.TIME",
    group=GROUP,
    together=[("ref_load", "power"), ("temp", "ref_temp", "activation")],
)
def relax_time(
    tension: Tension,
    ea: Stiffness,
    rate: Rate,
    left: LeftShare = 0.5,
    ref_load: Optional[RefLoad] = None,
    power: Optional[Power] = None,
    temp: Optional[Temp] = None,
    ref_temp: Optional[RefTemp] = None,
    activation: Activation = 145.0,
) -> TimeInYears:
    """Time until creep has taken a stay's tension down to a share of what it was set up to, half of it by default.

    Formula: time = tension / ea / r · (left^(1 − power) − 1) / (power − 1), at power 1 tension / ea / r ·
    ln(1/left), without ref_load and power tension / ea / r · (1 − left); r = rate · (tension / ref_load)^power ·
    exp(activation / 8.314e-3 · (1 / ref_temp − 1 / temp)) is the creep at first, temperatures in kelvin
    Limits: ends that do not move: as mast and hull give, it takes longer. Steady creep only; what set is still
    in the rope goes sooner and faster. One temperature all the time, by RIG.CREEP.TEMP. Without ref_load and
    power the rate must be that at this very tension.
    Errors: Err:502 where only part of ref_load and power, or of temp and ref_temp, is given.
    Source: relaxation, d(tension)/dt = −ea · creep rate, derived here; shape of the rate and activation as
    RIG.CREEP; half is assumed.
    """
    loaded = load_effect(tension, ref_load, power)  # times
    warmed = temperature_effect(temp, ref_temp, activation)  # times
    rate_at_first = rate * loaded * warmed  # share/year
    stretched = tension / ea  # share
    slows = decay(left, power)  # ratio
    time = stretched / rate_at_first * slows  # years
    return time


@calc(
    "RIG.RELAX.LEFT",
    group=GROUP,
    together=[("ref_load", "power"), ("temp", "ref_temp", "activation")],
)
def relax_left(
    tension: Tension,
    ea: Stiffness,
    rate: Rate,
    years: Years,
    ref_load: Optional[RefLoad] = None,
    power: Optional[Power] = None,
    temp: Optional[Temp] = None,
    ref_temp: Optional[RefTemp] = None,
    activation: Activation = 145.0,
) -> Kilonewtons:
    """Tension that creep has left of what a stay was set up to, after a time; 0 means slack.

    Formula: left = tension · (1 + (power − 1) · x)^(−1 / (power − 1)), at power 1 tension · exp(−x), without
    ref_load and power tension · (1 − x) and not below 0; x = r · years · ea / tension, r = rate · (tension /
    ref_load)^power · exp(activation / 8.314e-3 · (1 / ref_temp − 1 / temp)) is the creep at first, temperatures
    in kelvin
    Limits: as RIG.RELAX.TIME.
    Errors: Err:502 where only part of ref_load and power, or of temp and ref_temp, is given.
    Source: relaxation, d(tension)/dt = −ea · creep rate, derived here; shape of the rate and activation as
    RIG.CREEP.
    """
    loaded = load_effect(tension, ref_load, power)  # times
    warmed = temperature_effect(temp, ref_temp, activation)  # times
    rate_at_first = rate * loaded * warmed  # share/year
    crept = rate_at_first * years / (tension / ea)  # ratio
    left_share = decayed(crept, power)  # share
    left = tension * left_share  # kN
    return left


@calc("RIG.SLACK.HEEL", group=GROUP)
def slack_heel(tension: Rests, load: Load, factor: HeelFactor = 1.5) -> Degrees:
    """Heel at which the lee shroud goes slack, from its tension at rest.

    Formula: heel = asin(tension · factor · 2 · sin(30°) / load)
    Limits: load and factor as in RIG.SHROUD.TOTAL; RIG.PRETENSION turned round. Given cold: the tension that
    RIG.TENSION.EXPECTED leaves. Righting moment as the sine of the heel, so a result above 45° says no more than
    late.
    Errors: Err:523 where the shroud stays taut at any heel.
    Source: statics, windward gains what leeward loses; factor as RIG.SHROUD.TOTAL.
    """
    sine = tension * factor * 2 * sin(30) / load  # ratio
    if sine > 1:
        raise NoSolution(
            f"set up to {tension:g} kN the lee shroud stays taut at any heel; its load of {load:g} kN or the"
            " pretension is to be questioned"
        )
    heel = asin(sine)  # °
    return heel


@calc("RIG.CREEP.TEMP", group=GROUP)
def creep_temp(temps: Temps, activation: Activation = 145.0) -> Celsius:
    """Steady temperature at which a rope creeps as much as in all these temperatures together.

    Formula: temp = 1 / (1 / hottest − 8.314e-3 / activation · ln(mean of exp(activation / 8.314e-3 · (1 /
    hottest − 1 / each)))), each of the temps and hottest the highest of them, all in kelvin
    Limits: equal times, such as twelve months. Warm weeks weigh far more than cool ones, and so do warm hours:
    monthly means leave out the swing between day and night, so give hotter and cooler cells of each month, or
    the mean of its days' highs. Temperatures of the stay, in the sun above the air's.
    Errors: Err:502 for a cell that is blank.
    Source: Arrhenius; activation O'Connor & Robbins 2020 (abstract).
    """
    temp = weighted_temp(temps, activation)  # °C
    return temp


@calc("RIG.TENSION.EXPECTED", group=GROUP)
def tension_expected(
    tension: Tension,
    mast_length: MastLength,
    stay_length: StayLength,
    ea: Stiffness,
    change: Change,
    mast_rate: MastRate = 23.6,
    stay_rate: StayRate = -12.0,
) -> Kilonewtons:
    """Tension to expect at another temperature than that at which a stay was set up; 0 means slack.

    Formula: expected = max(0, tension + RIG.TENSION.CHANGE of RIG.TEMP.TIGHTEN)
    Limits: as both: mast and hull do not give, so the change is an upper bound. Age comes first, by
    RIG.RELAX.LEFT.
    Source: thermal expansion and Hooke's law; rates as RIG.TEMP.TIGHTEN.
    """
    tighter = temp_tighten(mast_length, stay_length, change, mast_rate, stay_rate)  # mm
    gained = tension_change(tighter, stay_length, ea)  # kN
    expected = max(0.0, tension + gained)  # kN
    return expected


@calc("RIG.STAY.SAG", group=GROUP)
def stay_sag(tension: Tension, length: StayLength, side_load: SideLoad) -> Millimetres:
    """Sag of a stay in its middle, under a load spread evenly along it.

    Formula: sag = side_load · length² / (8 · tension)
    Limits: a parabola, for a taut stay. The load is what acts across it: a luff's pull, wind, or its own weight,
    mass of a metre · 9.81 · sine of its lean from upright. Tension is that under the load.
    Errors: Err:502 where the sag comes to more than a tenth of the length.
    Source: statics of a flat cable.
    """
    sag = side_load * length**2 * 1e-6 / (8 * tension)  # mm
    if sag > FLAT * length:
        raise BadInput(
            f"sag comes to {sag / length:.2g} of the length, and the formula holds to a tenth; tension or load is"
            " not that of a taut stay"
        )
    return sag


@calc("RIG.STAY.NOTE", group=GROUP)
def stay_note(tension: Tension, length: StayLength, mass: MetreMass) -> Hertz:
    """Note of a plucked free length under tension: what to tune to.

    Formula: frequency = √(tension / mass) / (2 · length)
    Limits: the lowest note, the length between the points that do not move; RIG.TENSION.PLUCK turned round.
    Buried ends weigh double: they lower it by less than 1 % while each is under a tenth of the length, by 5 % at
    a fifth. Bending stiffness, worst in wire and in short lengths, raises it. Sleeves and wet rope weigh more.
    Source: stretched string, f = √(tension/mass) / (2 · length); buried ends by the numbers of a string in
    pieces.
    """
    wave_speed = sqrt(tension * 1e6 / mass)  # m/s
    frequency = wave_speed / (2 * length / 1000)  # Hz
    return frequency


@calc("RIG.TRIAL.EA", group=GROUP)
def trial_ea(
    load_low: LowLoad, load_high: HighLoad, length_low: LowLength, length_high: HighLength
) -> Kilonewtons:
    """Stiffness EA of a rope, from a trial piece pulled at two loads.

    Formula: ea = (load_high − load_low) · length_low / (length_high − length_low)
    Limits: bedded in: pull it several times above the higher load first. Pull at the few per cent of break at
    which a rig lives, where rope is softer than at 30 %. Marks clear of the buried ends. Read lengths that
    differ by at least twenty times what the tape can be read to.
    Errors: Err:502 where the higher load or its length is not above the lower one.
    Source: Hooke's law.
    """
    if load_high <= load_low:
        raise BadInput(f"the higher load, {load_high:g} kN, must be above the lower, {load_low:g} kN")
    if length_high <= length_low:
        raise BadInput(f"at the higher load {length_high:g} mm were read; it must be above {length_low:g} mm")
    gained = (length_high - length_low) / length_low  # share
    ea = (load_high - load_low) / gained  # kN
    return ea


def decay(left: float, power: Optional[float]) -> float:
    """Years for each year of first stretch over first rate: (left^(1 − power) − 1) / (power − 1)."""
    slowing = (power or 0.0) - 1
    longer = -log(left)
    return expm1(slowing * longer) / slowing if slowing else longer


def decayed(crept: float, power: Optional[float]) -> float:
    """Share left of the tension: (1 + (power − 1) · crept)^(−1 / (power − 1)), 0 where it is slack."""
    slowing = (power or 0.0) - 1
    if slowing * crept <= -1:
        return 0.0
    return exp(-log1p(slowing * crept) / slowing) if slowing else exp(-crept)


def weighted_temp(temps: "tuple[Optional[float], ...]", activation: float) -> float:
    """The temperature whose creep, by Arrhenius, is the mean of theirs."""
    # Counted from the hottest, so that nothing overflows.
    known = [FREEZING + one for one in temps if one is not None]
    if not known or len(known) < len(temps):
        raise BadInput(f"{len(temps) - len(known)} of {len(temps)} temperatures are blank; fill in all of them")
    hottest = max(known)
    steepness = activation / GAS_CONSTANT
    mean = sum(exp(steepness * (1 / hottest - 1 / one)) for one in known) / len(known)
    return 1 / (1 / hottest - log(mean) / steepness) - FREEZING
