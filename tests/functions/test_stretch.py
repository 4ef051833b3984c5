"""Stretch, temperature and creep: measured values, spring models and numeric integration."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from loftsheet.errors import BadInput
from loftsheet.stretch import (
    creep,
    rope_ea,
    stretch,
    temp_tighten,
    tension_after,
    tension_change,
    tension_pluck,
    wire_ea,
)
from scipy.constants import R as gas_constant
from scipy.integrate import quad, solve_ivp
from scipy.linalg import eigh

lengths = st.floats(500, 30_000)
loads = st.floats(0.1, 100)
stiffnesses = st.floats(100, 20_000)
strains = st.floats(1e-4, 0.02)
STEADY = 0.0999  # of the length; creep refuses more than a tenth
temps = st.floats(-20, 60)


@given(st.floats(5, 500), lengths)
def test_rope_stretches_as_measured(break_load, length):
    # Pilkerton, Garland, Sessions, Stringham, Oregon State University, slides for the skyline symposium of 2001:
    # 12-strand HMPE stretches 0.8 ft in 100 ft at 30 % of its breaking load.
    assert stretch(0.3 * break_load, length, rope_ea(break_load)) == pytest.approx(0.008 * length)


def test_wire_area_and_stiffness():
    # Geometry: 19 wires of a fifth of the strand's diameter, 0.5969·d²; 8 mm is 38.20 mm².
    wires = 19 * np.pi * (8 / 5) ** 2 / 4
    assert wires == pytest.approx(38.20, abs=5e-3)
    assert wire_ea(8, 100) / 100 == pytest.approx(wires)
    # EN 1993-1-11 table 3.1, from memory: 130 GPa for stainless strand.
    assert wire_ea(8) == pytest.approx(130 * 38.20, rel=1e-4)
    assert wire_ea(8, "130000 MPa") == pytest.approx(wire_ea(8))


def test_modulus_in_the_wrong_unit_is_refused():
    with pytest.raises(BadInput, match="20 to 250 GPa"):
        wire_ea(8, 130_000)


@given(loads, lengths, stiffnesses, st.floats(1.1, 10))
def test_stretch_is_that_of_parts_in_a_row(load, length, ea, more):
    whole = stretch(load, length, ea)
    assert stretch(load, length / 4, ea) + stretch(load, length * 3 / 4, ea) == pytest.approx(whole)
    assert stretch(load, length, ea * more) < whole < stretch(load * more, length, ea)


def test_warming_an_aluminium_mast_and_an_hmpe_stay():
    # Arithmetic on the rates of the Aluminum Association (typical values, 6061-T6) and of Govaert et al., Polymer
    # (1992), along the chain:
    # 12 m, 20 K warmer: stay 2.88 mm shorter, mast 5.664 mm longer, together 8.544 mm.
    assert temp_tighten(12_000, 12_000, 20) == pytest.approx(8.544)
    assert temp_tighten(12_000, 12_000, 20, 0) == pytest.approx(2.88)
    assert temp_tighten(12_000, 12_000, 20, 23.6, 0) == pytest.approx(5.664)


@given(lengths, st.floats(-60, 60), st.floats(5, 30))
def test_mast_and_stay_of_one_metal_keep_their_tension(length, change, rate):
    assert temp_tighten(length, length, change, rate, rate) == pytest.approx(0, abs=1e-9)


@given(lengths, lengths, st.floats(-60, 60))
def test_temperature_change_does_not_depend_on_units(mast, stay, change):
    fahrenheit = f"{change * 9 / 5:.12f} °F"
    inches = (f"{mast / 25.4:.12f} in", f"{stay / 25.4:.12f} in")
    assert temp_tighten(*inches, fahrenheit) == pytest.approx(temp_tighten(mast, stay, change), abs=1e-7)


@given(strains, lengths, stiffnesses)
def test_tension_change_undoes_its_own_stretch(strain, length, ea):
    tension = strain * ea
    stretched = stretch(tension, length, ea)
    assert tension_change(stretched, length, ea) == pytest.approx(tension)
    assert tension_change(-stretched, length, ea) == pytest.approx(-tension)


def test_a_bar_between_two_walls_that_cools():
    # Thermal stress E·α·ΔT, any textbook on strength of materials: steel of 200 GPa and 11.7e-6/K, 50 K colder,
    # has 117 MPa; 100 mm² of it pull 11.7 kN. Set up to 20 kN and warmed as much it keeps 8.3 kN.
    shorter = 1_000 * 11.7e-6 * 50
    assert tension_change(shorter, 1_000, 200 * 100) == pytest.approx(11.7)
    assert tension_after(20, shorter, 1_000, 200 * 100) == pytest.approx(8.3)
    assert temp_tighten(1_000, 1_000, -50, 0, 11.7) == pytest.approx(shorter)


def test_warm_stay_tightens_by_its_own_spring():
    # Arithmetic by hand: 8.544 mm in 12 m is 0.712 per mille; times 2,000 kN.
    assert tension_change(temp_tighten(12_000, 12_000, 20), 12_000, 2_000) == pytest.approx(1.424)


@given(strains, lengths, stiffnesses, st.floats(0, 1))
def test_eased_stay_keeps_the_rest_of_its_stretch(strain, length, ea, eased):
    tension = strain * ea
    left = tension_after(tension, eased * stretch(tension, length, ea), length, ea)
    assert left == pytest.approx(tension * (1 - eased), abs=1e-9 * tension)


def test_stay_eased_beyond_its_stretch_is_slack():
    # 10 kN stretch 10 m of 2,000 kN by 50 mm.
    assert tension_after(10, 49, 10_000, 2_000) == pytest.approx(0.2)
    assert tension_after(10, 50, 10_000, 2_000) == 0
    assert tension_after(10, 500, 10_000, 2_000) == 0


@given(st.floats(300, 15_000), st.floats(20, 500), st.floats(0.5, 50))
def test_note_of_a_string(length, mass, tension):
    # Physics: f = √(T/m)/(2L).
    frequency = np.sqrt(1000 * tension / (mass / 1000)) / (2 * length / 1000)
    if frequency < 1_000:
        assert tension_pluck(length, mass, frequency) == pytest.approx(tension)


def test_note_of_a_string_of_beads():
    """The lowest note of 400 beads on a string, by eigenvalues, is the note of the string they stand for."""
    length, mass, tension, beads = 6.0, 0.058, 8_000.0, 400
    step = length / (beads + 1)
    stiffness = tension / step * (2 * np.eye(beads) - np.eye(beads, k=1) - np.eye(beads, k=-1))
    lowest = eigh(stiffness, mass * step * np.eye(beads), eigvals_only=True, subset_by_index=[0, 0])[0]
    frequency = float(np.sqrt(lowest) / (2 * np.pi))
    assert tension_pluck(6_000, 58, frequency) == pytest.approx(8, rel=1e-4)


def lowest_note(length, tension, masses, stiffness=0.0):
    """By eigenvalues: a string of beads, held at both ends and, where it is stiff, in its direction there too."""
    beads = len(masses)
    step = length / (beads + 1)
    bent = 2 * np.eye(beads) - np.eye(beads, k=1) - np.eye(beads, k=-1)
    # Held in direction: the bead beyond an end mirrors the one before it.
    curved = bent @ bent + np.diag([2.0] + [0.0] * (beads - 2) + [2.0])
    restoring = tension / step * bent + stiffness / step**3 * curved
    lowest = eigh(restoring, np.diag(masses) * step, eigvals_only=True, subset_by_index=[0, 0])[0]
    return float(np.sqrt(lowest) / (2 * np.pi))


@pytest.mark.parametrize("part, low", [(0.1, 0.013), (0.2, 0.089)])
def test_buried_ends_make_the_note_read_low(part, low):
    """Double rope at both ends, as far as each bury reaches into the free length."""
    along = np.linspace(0, 1, 402)[1:-1]
    masses = np.where((along < part) | (along > 1 - part), 2 * 0.058, 0.058)
    measured = tension_pluck(6_000, 58, lowest_note(6.0, 8_000, masses))
    assert 1 - measured / 8 == pytest.approx(low, abs=0.006)


def test_bending_stiffness_makes_the_note_of_wire_read_high():
    # A bar of 8 mm is stiffer than any wire: EI by geometry, 130 GPa; by 4/length · √(EI/tension).
    bending = 130e9 * np.pi * 0.008**4 / 64
    measured = tension_pluck(6_000, 310, lowest_note(6.0, 8_000, np.full(400, 0.31), bending))
    assert measured / 8 - 1 == pytest.approx(4 / 6 * np.sqrt(bending / 8_000), rel=0.1)
    assert measured > 8


def test_creep_at_the_makers_own_figures():
    # Arithmetic: 0.02 % a year of 12 m for 5 years.
    assert creep(12_000, 0.0002, 5) == pytest.approx(12)
    assert creep(12_000, "0.02 %/year", "60 months") == pytest.approx(12)


def test_creep_ten_degrees_warmer():
    # O'Connor & Robbins (2020), abstract, about 145 kJ/mol: 20 → 30 °C is 7.1 times faster. Shape only.
    cold = creep(12_000, 0.0002, 5, temp=20, ref_temp=20)
    assert creep(12_000, 0.0002, 5, temp=30, ref_temp=20) / cold == pytest.approx(7.1, abs=0.05)
    assert creep(12_000, 0.0002, 5, temp="86 °F", ref_temp="68 °F") / cold == pytest.approx(7.1, abs=0.05)


@given(temps, temps, st.floats(50, 200))
def test_creep_rate_integrated_over_the_warming(temp, ref_temp, activation):
    """d(ln rate)/dT = Q/(R·T²), summed numerically from the one temperature to the other."""
    warming = quad(
        lambda kelvin: 1000 * activation / (gas_constant * kelvin**2), ref_temp + 273.15, temp + 273.15
    )[0]
    assume(1e-6 * np.exp(warming) < STEADY)
    warmed = creep(1_000, 1e-6, 1, temp=temp, ref_temp=ref_temp, activation=activation)
    assert np.log(warmed / creep(1_000, 1e-6, 1)) == pytest.approx(warming, rel=1e-6, abs=1e-9)


@given(st.floats(1, 50), st.floats(1, 50), st.floats(1, 8))
def test_creep_rate_integrated_over_the_load(load, ref_load, power):
    """d(rate)/d(load) = power · rate/load, stepped numerically from the one load to the other."""
    stepped = solve_ivp(lambda at, rate: power * rate / at, (ref_load, load), [1.0], rtol=1e-9, atol=1e-12)
    assume(1e-6 * stepped.y[0][-1] < STEADY)
    loaded = creep(1_000, 1e-6, 1, load=load, ref_load=ref_load, power=power)
    assert loaded / creep(1_000, 1e-6, 1) == pytest.approx(stepped.y[0][-1], rel=1e-5)


@given(st.floats(-60, 38), st.floats(1, 30), st.floats(1.01, 2))
def test_creep_grows_with_load_heat_and_time(temp, load, more):
    now = creep(1_000, 1e-5, 1, load, 20, 5, temp, 20)
    assert creep(1_000, 1e-5, more, load, 20, 5, temp, 20) == pytest.approx(now * more)
    assert creep(1_000, 1e-5, 1, load * more, 20, 5, temp, 20) > now
    assert creep(1_000, 1e-5, 1, load, 20, 5, temp + more, 20) > now


def test_creep_that_cannot_be_steady_any_more_is_refused():
    assert creep(12_000, 0.02, 5) == pytest.approx(1200)
    with pytest.raises(BadInput, match=r"creep comes to 0\.105 times the length"):
        creep(12_000, 0.021, 5)


@pytest.mark.parametrize(
    ("half", "missing"),
    [
        ({"load": 5}, "ref_load, power"),
        ({"load": 5, "ref_load": 10}, "power"),
        ({"power": 5}, "load, ref_load"),
        ({"temp": 30}, "ref_temp"),
        ({"activation": 120}, "temp, ref_temp"),
    ],
)
def test_half_a_group_of_creep_is_refused(half, missing):
    with pytest.raises(BadInput, match=f"belong together; missing: {missing}$"):
        creep(12_000, 0.0002, 5, **half)


@pytest.mark.parametrize("temp", [-61, 81])
def test_temperatures_no_rig_sees_are_refused(temp):
    with pytest.raises(BadInput, match="-60 to 80 °C"):
        creep(12_000, 0.0002, 5, temp=temp, ref_temp=20)
