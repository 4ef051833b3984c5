"""The same measure in any unit gives the same result, in every argument of every function."""

import pytest
import scipy.constants as constants
from loftsheet import CALCS
from loftsheet.examples import EXAMPLES

# For each plain unit another one and its size in the plain unit.
OTHERS = {
    "mm": ("in", constants.inch * 1e3),
    "kN": ("lbf", constants.pound_force / 1e3),
    "kN·m": ("ft lbf", constants.foot * constants.pound_force / 1e3),
    "N·m": ("in lbf", constants.inch * constants.pound_force),
    "°": ("rad", 1 / constants.degree),
    "MPa": ("psi", constants.psi / 1e6),
    "GPa": ("ksi", constants.psi / 1e6),
    "mm²": ("in²", constants.inch**2 * 1e6),
    "kg": ("lb", constants.pound),
    "g/m": ("lb/ft", constants.pound / constants.foot * 1e3),
    "kg/m³": ("lb/ft³", constants.pound / constants.foot**3),
    "share": ("%", 0.01),
    "share/year": ("%/year", 0.01),
    "years": ("months", 1 / 12),
    "K": ("°F", 5 / 9),
}
MEASURES = [
    pytest.param(name, place, id=f"{name}-{argument.name}")
    for name, calc in CALCS.items()
    for place, argument in enumerate(calc.arguments)
    if argument.quantity.form.name == "number" and argument.quantity.dimension.units
]


def unit_of(name, place):
    return CALCS[name].arguments[place].quantity.unit


def with_argument(name, place, text):
    values = list(EXAMPLES[name])
    values[place] = text
    return flat(CALCS[name].call(*values))


def flat(result):
    return [cell for row in result for cell in row] if isinstance(result, tuple) else [result]


def same(one, other):
    assert len(one) == len(other)
    for left, right in zip(one, other):
        assert left == (right if isinstance(right, str) else pytest.approx(right, rel=1e-9, abs=1e-9))


@pytest.mark.parametrize("name, place", MEASURES)
def test_an_argument_with_its_own_unit(name, place):
    value = EXAMPLES[name][place]
    quantity = CALCS[name].arguments[place].quantity
    if quantity.unit in quantity.dimension.units:
        same(with_argument(name, place, f"{value!r} {quantity.unit}"), flat(CALCS[name].call(*EXAMPLES[name])))


@pytest.mark.parametrize("name, place", [one for one in MEASURES if unit_of(*one.values) in (*OTHERS, "°C")])
def test_an_argument_in_another_unit(name, place):
    value = EXAMPLES[name][place]
    unit = unit_of(name, place)
    if unit == "°C":
        text = f"{constants.convert_temperature(value, 'Celsius', 'Fahrenheit'):.12f} °F"
    else:
        other, size = OTHERS[unit]
        text = f"{value / size:.15f} {other}"
    same(with_argument(name, place, text), flat(CALCS[name].call(*EXAMPLES[name])))
