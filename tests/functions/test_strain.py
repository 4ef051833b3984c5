"""Strain budget: differential equations, springs, catenaries and strings solved by scipy and numpy."""

from math import cosh, exp, log, pi, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from loftsheet.errors import BadInput, NoSolution
from loftsheet.loads import pretension
from loftsheet.strain import (
    creep_temp,
    relax_left,
    relax_time,
    slack_heel,
    stay_note,
    stay_sag,
    strain,
    tension_expected,
    trial_ea,
)
from loftsheet.stretch import creep, rope_ea, stretch, tension_pluck
from scipy.constants import R, g, zero_Celsius
from scipy.integrate import solve_ivp
from scipy.linalg import eigh_tridiagonal
from scipy.optimize import brentq

tensions = st.floats(0.2, 20)
stiffnesses = st.floats(500, 20_000)
rates = st.floats(1e-6, 1e-2)
powers = st.one_of(st.floats(1, 8), st.just(1.0), st.floats(1, 1 + 1e-9))
temperatures = st.floats(-10, 40)


def test_a_pretension_is_less_than_a_thousandth():
    # 2.6 kN in rope of 3,825 kN: 0.068 %, 9 mm in 13.1 m.
    assert strain(2.6, 3_825) == pytest.approx(0.00068, abs=1e-5)
    assert strain(2.6, 3_825) * 13_100 == pytest.approx(stretch(2.6, 13_100, 3_825))
    assert stretch(2.6, 13_100, 3_825) == pytest.approx(8.9, abs=0.05)


# Relaxation


@given(tensions, stiffnesses, rates, st.floats(0.1, 10), powers, st.floats(1, 30))
def test_relaxation_as_a_differential_equation(tension, ea, rate, years, power, ref_load):
    first = rate * (tension / ref_load) ** power * ea / tension

    def slope(_, held):
        return -first * np.maximum(held, 0) ** power

    held = solve_ivp(slope, (0, years), [1.0], rtol=1e-9, atol=1e-12, method="LSODA").y[0, -1]
    left = relax_left(tension, ea, rate, years, ref_load, power)
    assert left / tension == pytest.approx(held, rel=1e-5, abs=1e-7)


@given(tensions, stiffnesses, rates, st.floats(0.02, 0.98), powers, temperatures, temperatures)
def test_time_and_what_is_left_go_together(tension, ea, rate, left, power, temp, ref_temp):
    further = {"ref_load": 5.0, "power": power, "temp": temp, "ref_temp": ref_temp}
    time = relax_time(tension, ea, rate, left, **further)
    if 1e-6 < time < 50:
        assert relax_left(tension, ea, rate, time, **further) == pytest.approx(left * tension, rel=1e-6)


@given(tensions, stiffnesses, rates, st.floats(0.02, 0.98))
def test_at_a_steady_rate_the_tension_falls_in_a_straight_line(tension, ea, rate, left):
    time = relax_time(tension, ea, rate, left)
    assert time * rate * ea == pytest.approx((1 - left) * tension)
    if time < 25:
        assert relax_left(tension, ea, rate, time) == pytest.approx(left * tension)
        assert relax_left(tension, ea, rate, 2 * time) == pytest.approx(max(0, 2 * left - 1) * tension, abs=1e-9)


def test_half_is_gone_by_hand():
    # Strain 0.0007, creep 0.0001 a year at this tension: 3.5 years at that rate. With power 5 the rate falls with
    # the tension: (2⁴ − 1)/4 = 3.75 times 7 years.
    assert relax_time(2.8, 4_000, 1e-4) == pytest.approx(3.5)
    assert relax_time(2.8, 4_000, 1e-4, 0.5, 2.8, 5) == pytest.approx(26.25)
    assert relax_time(2.8, 4_000, 1e-4, 0.5, 2.8, 1) == pytest.approx(7 * log(2))
    assert relax_left(2.8, 4_000, 1e-4, 7, 2.8, 1) == pytest.approx(2.8 / exp(1))
    # All of it is gone in the year in which the rope creeps by its whole stretch.
    assert relax_left(2, 4_000, 5e-4, 1) == 0


def test_ten_degrees_warmer_it_is_gone_seven_times_as_soon():
    # O'Connor & Robbins (2020), abstract: about 145 kJ/mol, so 20 to 30 °C makes 7.1.
    cool, warm = (relax_time(2.8, 4_000, 1e-4, 0.5, None, None, temp, 20) for temp in (20, 30))
    assert cool / warm == pytest.approx(7.1, abs=0.05)


def test_a_little_is_taken_as_creep_takes_it():
    # While hardly anything is gone, what is lost is EA times the creep of a stay at its load.
    lost = 2.8 - relax_left(2.8, 4_000, 1e-6, 1, 5, 5)
    assert lost == pytest.approx(4_000 * creep(1_000, 1e-6, 1, 2.8, 5, 5) / 1_000, rel=1e-3)


def test_half_a_group_is_refused():
    for function, given_values in ((relax_time, (2.8, 4_000, 1e-4)), (relax_left, (2.8, 4_000, 1e-4, 1))):
        with pytest.raises(BadInput, match="belong together; missing: power"):
            function(*given_values, ref_load=5)
        with pytest.raises(BadInput, match="belong together; missing: ref_temp"):
            function(*given_values, temp=5)


# Heel


@given(st.floats(5, 200), st.floats(1, 44), st.floats(1, 3))
def test_heel_at_which_the_lee_shroud_goes_slack_by_springs(load, heel, factor):
    """Two like springs that lean until they balance the heel: at that heel the lee one is at nothing."""
    at_rest = pretension(load, heel, factor)
    assert slack_heel(at_rest, load, factor) == pytest.approx(heel)
    moment = load / factor * sin(heel * pi / 180) / 0.5
    assert at_rest - moment / 2 == pytest.approx(0, abs=1e-9)


def test_slack_heel_cold_and_never():
    # 2.2 of 9.3 kN with factor 1.5: sin heel 0.3548; 0.9 kN less when cold 0.2097.
    assert slack_heel(2.2, 9.3) == pytest.approx(20.78, abs=0.01)
    assert slack_heel(1.3, 9.3) == pytest.approx(12.10, abs=0.01)
    assert slack_heel(0, 9.3) == 0
    with pytest.raises(NoSolution, match="stays taut at any heel"):
        slack_heel(6.3, 9.3)


# Temperature


@given(st.lists(temperatures, min_size=1, max_size=14), st.floats(20, 250))
def test_mean_temperature_creeps_as_much_as_all_of_them(temps, activation):
    cells = tuple((one,) for one in temps)
    mean = creep_temp(cells, activation)
    each = [creep(1_000, 1e-6, 1, temp=one, ref_temp=20, activation=activation) for one in temps]
    assert creep(1_000, 1e-6, 1, temp=mean, ref_temp=20, activation=activation) == pytest.approx(np.mean(each))
    assert np.mean(temps) - 1e-9 <= mean <= max(temps) + 1e-9


def test_a_year_is_as_its_summer():
    """Twelve monthly means, by scipy's own root of the Arrhenius sum; in K, the gas constant from scipy."""
    months = (6, 7, 9, 12, 15, 19, 22, 22, 19, 15, 10, 7)
    rate = np.mean([exp(-145_000 / R / (one + zero_Celsius)) for one in months])
    expected = brentq(lambda temp: exp(-145_000 / R / (temp + zero_Celsius)) - rate, -20, 60, xtol=1e-12)
    assert creep_temp((months,)) == pytest.approx(expected, abs=1e-6)
    assert expected - np.mean(months) > 2.5


def test_a_month_that_is_blank_is_refused():
    with pytest.raises(BadInput, match="1 of 3 temperatures are blank"):
        creep_temp(((10.0,), ("",), (20.0,)))
    with pytest.raises(BadInput, match="0 of 0"):
        creep_temp(())
    assert creep_temp(((18.0, "64.4 °F"),)) == pytest.approx(18)


@given(st.floats(0.0002, 0.003), st.floats(1_000, 15_000), st.floats(0.6, 1.1), stiffnesses, st.floats(-30, 30))
def test_expected_tension_by_lengths(strained, stay, beside, ea, change):
    """The stay's own length without load and the distance that it has to span, before and after."""
    mast, free = beside * stay, stay / (1 + strained)
    span, now = stay + mast * 23.6e-6 * change, free * (1 - 12e-6 * change)
    found = tension_expected(strained * ea, mast, stay, ea, change)
    assert found == pytest.approx(max(0.0, ea * (span / now - 1)), abs=1e-5 * ea)


def test_expected_tension_by_hand():
    # 12 m, 20 K warmer: 2.88 and 5.664 mm make 8.544 mm; of 3,000 kN that is 2.136 kN.
    assert tension_expected(2.5, 12_000, 12_000, 3_000, 20) == pytest.approx(4.636)
    assert tension_expected(2.5, 12_000, 12_000, 3_000, -20) == pytest.approx(0.364)
    assert tension_expected(2, 12_000, 12_000, 3_000, -20) == 0


# Sag and note


@given(st.floats(2, 20), st.floats(2_000, 20_000), st.floats(1, 100))
def test_sag_as_a_catenary(tension, length, load):
    """A hanging rope of that weight, its pull that in the middle; compared while it is flat."""
    pull = tension * 1000 / load  # m, the catenary's own measure
    half = length / 2000
    exact = pull * (cosh(half / pull) - 1) * 1000
    if exact < 0.05 * length:
        assert stay_sag(tension, length, load) == pytest.approx(exact, rel=0.005)


def test_sag_by_hand_and_too_much_of_it():
    # 13.6 m, 60 N/m, 9 kN: 60 · 13.6² / (8 · 9000) = 0.154 m.
    assert stay_sag(9, "13.6 m", 60) == pytest.approx(154.1, abs=0.1)
    assert stay_sag(9, 13_600, f"{60 / g} kgf/m") == pytest.approx(stay_sag(9, 13_600, 60))
    with pytest.raises(BadInput, match=r"sag comes to 0\.2 of the length, and the formula holds to a tenth"):
        stay_sag(0.5, 13_600, 60)
    assert stay_sag(1, 13_600, 57) / 13_600 == pytest.approx(0.0969)


def lowest_note(tension, length, mass, buried=0.0, pieces=1_500):
    """Lowest note of a string in pieces, of double mass where tails are buried at both ends."""
    step = length / 1000 / pieces
    places = np.arange(1, pieces) * step * 1000
    masses = mass / 1000 * step * np.where((places < buried) | (places > length - buried), 2, 1)
    stiffness = tension * 1000 / step
    inner = 1 / np.sqrt(masses)
    values = eigh_tridiagonal(
        2 * stiffness * inner**2, -stiffness * inner[1:] * inner[:-1], select="i", select_range=(0, 0)
    )[0]
    return np.sqrt(values[0]) / (2 * pi)


@given(tensions, st.floats(1_000, 20_000), st.floats(10, 500))
def test_note_turns_back_into_tension(tension, length, mass):
    note = stay_note(tension, length, mass)
    if note <= 1_000:
        assert tension_pluck(length, mass, note) == pytest.approx(tension)


@pytest.mark.parametrize("buried, most", [(0, 1e-5), (0.1, 0.01), (0.2, 0.05)])
def test_note_of_a_string_in_pieces_and_what_buried_ends_do(buried, most):
    plain = stay_note(2.2, 9_000, 58)
    found = lowest_note(2.2, 9_000, 58, buried * 9_000)
    assert 1 - most <= found / plain <= 1 + 1e-5
    assert buried == 0 or found / plain < 1 - most / 2


# Trial


@given(st.floats(0.5, 5), st.floats(1.2, 10), st.floats(500, 5_000), stiffnesses)
def test_stiffness_from_two_loads(low, times, length, ea):
    high = low * times
    assert trial_ea(low, high, length, length + stretch(high - low, length, ea)) == pytest.approx(ea, rel=1e-6)


def test_stiffness_as_published_between_nothing_and_30_per_cent():
    # Pilkerton, Garland, Sessions, Stringham, Oregon State University, slides for the skyline symposium of 2001:
    # 0.8 ft in 100 ft at 30 % of break, so 37.5 times it.
    assert trial_ea(1e-6, 30, 1_000, 1_008) == pytest.approx(rope_ea(100), rel=1e-6)


def test_trials_read_the_wrong_way_round_are_refused():
    with pytest.raises(BadInput, match="5 kN, must be above the lower, 5 kN"):
        trial_ea(5, 5, 1_000, 1_003)
    with pytest.raises(BadInput, match="1000 mm were read; it must be above 1000 mm"):
        trial_ea(2, 5, 1_000, 1_000)
