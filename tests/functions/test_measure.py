"""Texts with units: the units of NIST SP 811, what must not be misread, and what a text may not do."""

import math
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pint
import pytest
import scipy.constants as constants
from hypothesis import example, given, settings
from hypothesis import strategies as st
from loftsheet import measure
from loftsheet.errors import BadInput
from loftsheet.measure import number, read, read_in, show

FUNCTIONS = Path(measure.__file__).parent.parent


# NIST SP 811 Appendix B: those printed there in bold are exact.
EXACT = [
    ("1 in", measure.LENGTH, "25.4"),
    ("1 ft", measure.LENGTH, "304.8"),
    ("1 lb", measure.MASS, "0.45359237"),
    ("1 t", measure.MASS, "1000"),
    ("1 lbf", measure.FORCE, "0.0044482216152605"),
    ("1 kgf", measure.FORCE, "0.00980665"),
    ("1 ft·lbf", measure.MOMENT, "1.3558179483314004"),
    ("1 in²", measure.AREA, "645.16"),
    ("1 g/cm³", measure.DENSITY, "1000"),
]


@pytest.mark.parametrize("text, dimension, plain", EXACT)
def test_exact_units(text, dimension, plain):
    assert read(text, dimension) == float(Fraction(plain))


# The same units by scipy.constants (CODATA and NIST), turned into the plain unit here.
INDEPENDENT = [
    ("1 in", measure.LENGTH, constants.inch * 1e3),
    ("1 ft", measure.LENGTH, constants.foot * 1e3),
    ("1 lb", measure.MASS, constants.pound),
    ("1 lbf", measure.FORCE, constants.pound_force / 1e3),
    ("1 kgf", measure.FORCE, constants.kilogram_force / 1e3),
    ("1 tf", measure.FORCE, constants.kilogram_force),
    ("1 psi", measure.STRESS, constants.psi / 1e6),
    ("1 ksi", measure.STRESS, constants.psi / 1e3),
    ("1 ksi", measure.MODULUS, constants.psi / 1e6),
    ("1 ft lbf", measure.RIGHTING, constants.foot * constants.pound_force / 1e3),
    ("1 in·lbf", measure.MOMENT, constants.inch * constants.pound_force),
    ("1 kgf·m", measure.RIGHTING, constants.kilogram_force / 1e3),
    ("1 rad", measure.ANGLE, 1 / constants.degree),
    ("68 °F", measure.TEMPERATURE, constants.convert_temperature(68, "Fahrenheit", "Celsius")),
    ("-40 °F", measure.TEMPERATURE, -40.0),
    ("36 °F", measure.TEMPERATURE_CHANGE, 20.0),
    ("20 °C", measure.TEMPERATURE_CHANGE, 20.0),
    ("1 lb/ft", measure.LINEAR_MASS, constants.pound / constants.foot * 1e3),
    ("1 lb/ft³", measure.DENSITY, constants.pound / constants.foot**3),
    ("6 months", measure.TIME, 0.5),
    ("90 %", measure.SHARE, 0.9),
    ("2 %/year", measure.RATE, 0.02),
]


@pytest.mark.parametrize("text, dimension, plain", INDEPENDENT)
def test_units_by_another_library(text, dimension, plain):
    assert read(text, dimension) == pytest.approx(plain, rel=1e-12)


@pytest.mark.parametrize("mass, force", [("450 kg", "450 kgf"), ("4500 lb", "4500 lbf"), ("2 t", "2 tf")])
def test_a_mass_where_a_force_is_due_means_its_weight(mass, force):
    assert read(mass, measure.FORCE) == read(force, measure.FORCE)


READ = [
    ("3/8 in", 9.525),
    ("1 1/4 in", 31.75),
    ("1-1/4 in", 31.75),
    ("1 ¼ in", 31.75),
    ("1¼ in", 31.75),
    ("½ in", 12.7),
    ('1 1/2"', 38.1),
    ("1 1/2 in", 38.1),
    ("5 ft 3 in", 1600.2),
    ("6 ft 3 in", 1905.0),
    ("5' 3\"", 1600.2),
    ("5′ 3 1/2″", 1612.9),
    ("5 ft 0.5 in", 1536.7),
    ("-5 ft 3 in", -1600.2),
    ("12,5 mm", 12.5),
    ("12.5 mm", 12.5),
    ("12.5mm", 12.5),
    ("0,500 mm", 0.5),
    ("0.500 mm", 0.5),
    ("1,50 mm", 1.5),
    ("1500 mm", 1500.0),
    ("1,5000 mm", 1.5),
    ("1.125 in", 28.575),
    ("−3 mm", -3.0),
    ("+3 mm", 3.0),
    ("- 3 mm", -3.0),
    (".5 in", 12.7),
    ("\u00a012\u00a0mm ", 12.0),
    ("1.2 m", 1200.0),
    ("0 mm", 0.0),
    ("-0 mm", 0.0),
]


@pytest.mark.parametrize("text, plain", READ)
def test_lengths_in_words(text, plain):
    assert read(text, measure.LENGTH) == plain


REFUSED = [
    ("", "empty"),
    ("   ", "empty"),
    ("12", "without a unit"),
    ("1/2", "without a unit"),
    ("mm", "not a number"),
    ("abc", "not a number"),
    ("1,500 mm", "1.5 and as 1500"),
    ("12,500 mm", "12.5 and as 12500"),
    ("1.500 mm", "1.5 and as 1500"),
    ("1,234,567 mm", "not a number"),
    ("1 500 mm", "500 mm"),
    ("12 mm; 3", "mm; 3"),
    ("12 mm 3", "mm 3"),
    ("12 mm + 3 mm", "mm + 3 mm"),
    ("1.5.2 mm", "not a number"),
    ("1e3 mm", "e3 mm"),
    ("12 kg", "does not fit a length"),
    ("12 MM", "does not fit a length"),
    ("12 millimeter * 3", "does not fit"),
    ("3/0 in", "3/0"),
    ("1 5/4 in", "5/4"),
    ("1/2/3 in", "not a number"),
    ("5 ft 12 in", "below 12"),
    ("5 ft 3", "after whole feet come inches"),
    ("5 ft 30 mm", "after whole feet come inches"),
    ("5 ft -3 in", "does not fit"),
    ("nan mm", "not a number"),
    ("inf mm", "not a number"),
    ("--3 mm", "not a number"),
    ("１２ mm", "not a number"),
    ("12\nmm; 3", "not a number"),
    ("9" * 61 + " mm", "characters"),
    ("__import__('os') mm", "not a number"),
]


@pytest.mark.parametrize("text, reason", REFUSED)
def test_what_is_no_measure_or_could_be_two_is_refused(text, reason):
    with pytest.raises(BadInput) as refused:
        read(text, measure.LENGTH)
    assert reason in str(refused.value)


# What pint makes of these texts by itself; that is why it never sees them.
TRAPS = [
    ("12,5 mm", "125 mm", 12.5),
    ("1 1/2 in", "0.5 in", 38.1),
    ("6 ft 3 in", "18 ft * in", 1905.0),
    ("12 mm; 3", "36 mm", None),
]


@pytest.mark.parametrize("text, by_pint, right", TRAPS)
def test_what_pint_misreads_is_read_rightly_or_refused(text, by_pint, right):
    registry = pint.UnitRegistry()
    assert registry.parse_expression(text) == registry.parse_expression(by_pint)
    if right is None:
        with pytest.raises(BadInput):
            read(text, measure.LENGTH)
    else:
        assert read(text, measure.LENGTH) == right


@pytest.mark.parametrize("text", ["2 ton", "2 tons"])
def test_a_ton_can_be_three_things_and_is_refused(text):
    with pytest.raises(BadInput, match="2240 lb"):
        read(text, measure.FORCE)


def test_a_kind_without_units_takes_no_text():
    with pytest.raises(BadInput, match="plain number"):
        read("3 mm", measure.RATIO)


@pytest.mark.parametrize("given_value", [True, False, None, object(), b"12 mm", 1j, ((12.0,),), [12.0], 10**400])
def test_what_is_neither_number_nor_text_is_refused(given_value):
    with pytest.raises(BadInput):
        number(given_value, measure.LENGTH)


def test_a_plain_number_stays_what_it_is():
    assert number(12.5, measure.LENGTH) == 12.5
    assert number(12, measure.LENGTH) == 12.0
    assert type(number(12, measure.LENGTH)) is float


@given(st.text(max_size=80))
@example("1" * 60)
@example("9" * 50 + "/" + "9" * 8 + "'")
@example("1/" + "0" * 50 + "1 in")
def test_any_text_gives_a_finite_number_or_is_refused(text):
    for dimension in (measure.LENGTH, measure.FORCE, measure.TEMPERATURE, measure.RATIO):
        try:
            assert math.isfinite(read(text, dimension))
        except BadInput as refused:
            assert str(refused)


MEASURES = st.text(alphabet="0123456789.,/ -−+'\"½¼⅜minftNkglb°F%;·", max_size=24)


@given(MEASURES)
def test_text_that_looks_like_a_measure_gives_a_finite_number_or_is_refused(text):
    for dimension in (measure.LENGTH, measure.FORCE, measure.MOMENT, measure.SHARE, measure.TEMPERATURE):
        try:
            assert math.isfinite(read(text, dimension))
        except BadInput as refused:
            assert str(refused)


@given(st.integers(0, 39), st.integers(0, 15), st.integers(1, 64))
def test_fractions_of_an_inch_are_exact(whole, over, under):
    if over >= under:
        over, under = 0, 1
    text = f"{whole} {over}/{under} in"
    assert read(text, measure.LENGTH) == float((whole + Fraction(over, under)) * Fraction(254, 10))


@pytest.mark.parametrize("dimension", measure.NAMED, ids=lambda dimension: dimension.name)
def test_the_plain_unit_itself_changes_nothing(dimension):
    if dimension.plain in dimension.units:
        assert read(f"12.5 {dimension.plain}", dimension) == 12.5


ALL_UNITS = [(dimension, unit) for dimension in measure.NAMED for unit in dimension.units]


@pytest.mark.parametrize("dimension, unit", ALL_UNITS, ids=lambda one: getattr(one, "name", one))
def test_every_unit_is_read_and_grows_with_the_number(dimension, unit):
    one, three = read(f"1 {unit}", dimension), read(f"3 {unit}", dimension)
    if unit in ("°F", "°C") and dimension is measure.TEMPERATURE:
        assert three - one == pytest.approx(2 if unit == "°C" else 10 / 9)
    else:
        assert three == pytest.approx(3 * one, rel=1e-12)
    assert three > one


SHOWN_UNITS = sorted({unit for dimension in measure.NAMED for unit in dimension.units})


@pytest.mark.parametrize("unit", SHOWN_UNITS)
@settings(max_examples=30)
@given(value=st.floats(-1e8, 1e8).filter(lambda value: value == 0 or abs(value) > 1e-8))
def test_what_is_shown_reads_back_as_the_same_measure(unit, value):
    dimension = measure.named(unit)
    shown = show(value, unit)
    scale = max(abs(value), 500.0 if unit == "°F" else 0.0)
    assert read(shown, dimension) == pytest.approx(value, rel=1e-5, abs=1e-5 * scale)


@given(st.floats(-1e6, 1e6), st.integers(1, 64), st.sampled_from(["in", '"', "ft", "ft in"]))
def test_what_is_shown_with_a_fraction_reads_back_within_half_a_step(value, denominator, unit):
    shown = show(value, unit, denominator)
    assert read(shown, measure.LENGTH) == pytest.approx(value, abs=25.4 / denominator / 2 * (1 + 1e-9))


SHOWN = [
    ((9.525, "in", 8), "3/8 in"),
    ((9.525, "in", 16), "3/8 in"),
    ((9.525, "in"), "0.375 in"),
    ((31.75, "in", 16), "1 1/4 in"),
    ((25.4, "in", 16), "1 in"),
    ((9.5, '"', 16), '3/8"'),
    ((0.1, "in", 16), "0 in"),
    ((-0.1, "in", 16), "0 in"),
    ((-9.525, "in", 16), "-3/8 in"),
    ((1600.2, "ft in", 8), "5 ft 3 in"),
    ((1612.9, "ft in", 8), "5 ft 3 1/2 in"),
    ((1828.0, "ft in", 8), "6 ft 0 in"),
    ((1828.79, "ft in"), "6 ft 0 in"),
    ((-1600.2, "ft in"), "-5 ft 3 in"),
    ((100.0, "ft in", 16), "0 ft 3 15/16 in"),
    ((1612.9, "ft", 8), "5 ft 3 1/2 in"),
    ((1612.9, "feet", 2), "5 ft 3 1/2 in"),
    ((1612.9, "'", 16), "5 ft 3 1/2 in"),
    ((-1612.9, "ft", 8), "-5 ft 3 1/2 in"),
    ((1612.9, "ft"), "5.29167 ft"),
    ((1601.0, "ft in"), "5 ft 3.031 in"),
    ((0.0, "ft in"), "0 ft 0 in"),
    ((1234567.0, "mm"), "1234567 mm"),
    ((0.00001, "mm"), "0.00001 mm"),
    ((0.0, "mm"), "0 mm"),
    ((-0.0, "mm"), "0 mm"),
    ((1.0, "lbf"), "224.809 lbf"),
    ((20.0, "°F"), "68 °F"),
    ((0.9, "%"), "90 %"),
    ((12.0, "°"), "12°"),
    # A bolt's moment is plain N·m, a boat's kN·m: the unit says which.
    ((75.6, "N·m"), "75.6 N·m"),
    ((75.6, "Nm"), "75.6 Nm"),
    ((75.6, "kN·m"), "75.6 kN·m"),
    ((67.79089741657, "ft lbf"), "50000 ft lbf"),
    ((1.129848290276167, "in lbf"), "10 in lbf"),
    ((130.0, "GPa"), "130 GPa"),
    ((414.0, "MPa"), "414 MPa"),
    ((413.68543759, "ksi"), "60 ksi"),
]


@pytest.mark.parametrize("arguments, text", SHOWN)
def test_numbers_shown_in_a_unit(arguments, text):
    assert show(*arguments) == text


def test_a_number_may_be_a_text_with_its_unit():
    assert number("12 mm", measure.LENGTH) == 12
    assert number("1/2 in", measure.LENGTH) == 12.7


def test_the_longest_text_that_is_read():
    # 60 letters, and four times as many with the blanks around them.
    assert read(f"{'9':0>57} mm", measure.LENGTH) == 9
    assert read(f"{'9 mm':>240}", measure.LENGTH) == 9
    for longer in (f"{'9':0>58} mm", f"{'9 mm':>241}"):
        with pytest.raises(BadInput, match=f"a text of {len(longer)} characters"):
            read(longer, measure.LENGTH)


@pytest.mark.parametrize(
    "text, dimension, words",
    [
        ("nine", measure.LENGTH, 'write it like "12.5 mm"'),
        ("nine", measure.SHARE, 'write it like "12.5 %"'),
        ("nine", measure.TEMPERATURE, 'write it like "12.5 °C"'),
        ("9", measure.LENGTH, "add one of: mm, cm, m, in, ft"),
        ("9 kg", measure.LENGTH, 'the unit "kg" does not fit a length; allowed are: mm, cm, m, in, ft'),
        ("9", measure.RATIO, "type a plain number, without a unit"),
    ],
)
def test_the_refusal_of_a_text_says_what_would_do(text, dimension, words):
    with pytest.raises(BadInput) as refused:
        read(text, dimension)
    assert words in str(refused.value)


def test_digits_before_the_point_are_all_shown():
    assert measure.digits(1_000_000.7) == "1000001"
    assert measure.digits(999_999.7) == "1000000"
    assert measure.digits(123_456.7) == "123457"


@pytest.mark.parametrize("unit", ["mm", "lbf", "°", "%", "°C", "m"])
def test_fractions_are_for_inches_and_feet(unit):
    with pytest.raises(BadInput, match="denominator"):
        show(12.0, unit, 16)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_not_finite_is_not_shown(value):
    for unit in ("mm", "ft in", "in"):
        with pytest.raises(BadInput, match="finite"):
            show(value, unit)


@pytest.mark.parametrize("unit", ["", "furlong", "MM", "mm ", "millimeter"])
def test_a_unit_that_is_not_known_is_refused_with_those_that_are(unit):
    with pytest.raises(BadInput, match="mm, cm, m, in, ft"):
        show(12.0, unit)
    with pytest.raises(BadInput, match="mm, cm, m, in, ft"):
        read_in("12 mm", unit)


READ_IN = [
    ("1 1/4 in", "in", 1.25),
    ("3/8 in", "mm", 9.525),
    ("450 kg", "kg", 450.0),
    ("2 t", "kgf", 2000.0),
    ("68 °F", "°F", 68.0),
    ("68 °F", "°C", 20.0),
    ("100 N·m", "kN·m", 0.1),
    ("0.1 kN·m", "N·m", 100.0),
    ("60 ksi", "MPa", 413.6854375901017),
    ("90 %", "%", 90.0),
]


@pytest.mark.parametrize("text, unit, value", READ_IN)
def test_a_measure_read_in_another_unit(text, unit, value):
    assert read_in(text, unit) == pytest.approx(value, rel=1e-15)


def test_a_unit_of_another_kind_is_refused():
    with pytest.raises(BadInput, match="does not fit a length"):
        read_in("450 kg", "mm")


def test_pint_is_loaded_by_the_first_text_with_a_unit_and_not_before():
    code = (
        "import sys; import loftsheet; from loftsheet import CALCS\n"
        "CALCS['RIG.BURY'].call(9.0); assert 'pint' not in sys.modules\n"
        "CALCS['RIG.BURY'].call('9 mm'); assert 'pint' in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True, cwd=FUNCTIONS)
