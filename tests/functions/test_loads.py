"""Loads: rules of the handbooks, statics by vectors and springs, and the capstan equation part by part."""

from math import cos, exp, pi, radians, sin, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from loftsheet.errors import BadInput, NoSolution
from loftsheet.loads import (
    backstay,
    lashing_gap,
    lashing_haul,
    lashing_line,
    lashing_parts,
    lashing_share,
    mast_push,
    pretension,
    rm_incline,
    shroud_side,
    shroud_total,
)
from loftsheet.survey import stay_pull
from scipy.constants import g, kilo, lbf
from scipy.optimize import brentq

righting_moments = st.floats(1, 500)
chainplates = st.floats(500, 4_000)
frictions = st.floats(0, 0.5)
part_counts = st.integers(1, 24)


@given(st.floats(10, 300), st.floats(300, 2_000), st.floats(1.5, 9.5))
def test_inclining_a_boat_of_known_stability(displacement, gm, heel):
    # Statics of the inclining experiment, in any handbook of ship stability: weight·lever = displacement·GM·tan
    # heel; the righting moment is displacement·GM·sin heel.
    lever = 3_000
    weight = displacement * gm * tan(radians(heel)) / lever
    expected = displacement * gm / 1000 * sin(radians(30))
    assert rm_incline(weight, lever, heel) == pytest.approx(expected)


def test_inclining_with_people_on_scales():
    # A mass where a force is due means its weight: 300 kg moved by 1.6 m to 3°, by hand with g = 9.80665.
    assert rm_incline("300 kg", "1.6 m", 3) == pytest.approx(300 * g * 1.6 / 1000 * 0.5 / 0.05240778)
    assert rm_incline("0.3 t", 1600, "3 deg") == pytest.approx(rm_incline("300 kg", 1600, 3))


@pytest.mark.parametrize("heel", [0, 0.9, 10.1, 30])
def test_inclining_heel_out_of_range_is_refused(heel):
    with pytest.raises(BadInput, match="1 to 10 °"):
        rm_incline(3, 1600, heel)


def test_shrouds_and_mast_of_the_handbook():
    # B. Toss, The Complete Rigger's Apprentice (2016), p. 146.
    assert shroud_total("50000 ft lbf", "5.5 ft") * kilo / lbf == pytest.approx(13_636, abs=0.5)
    assert mast_push("50000 ft lbf", "5.5 ft") * kilo / lbf == pytest.approx(25_273, abs=0.5)
    assert mast_push("6925 kg·m", "1.67 m") * kilo / g == pytest.approx(11_528, abs=0.5)


@given(righting_moments, chainplates, st.floats(0, 30))
def test_shrouds_balance_the_righting_moment(rm30, chainplate_out, slope):
    """Moment of the sloping shroud about the mast's foot, by vectors, at the level of the chainplate."""
    total = shroud_total(rm30, chainplate_out, 1, slope)
    chainplate = np.array([chainplate_out, 0, 0])
    force = total * np.array([-sin(radians(slope)), cos(radians(slope)), 0])
    assert np.cross(chainplate, force)[2] / 1000 == pytest.approx(rm30)


@given(st.floats(0.5, 50), st.floats(3, 30), st.floats(0, 10))
def test_shroud_holds_the_joint_across_the_mast(side_force, out_angle, push):
    """Shroud and mast hold the joint between them: two equations, two unknown forces."""
    shroud = [sin(radians(out_angle)), -cos(radians(out_angle))]
    mast = [0, 1]
    tension, compression = np.linalg.solve(np.transpose([shroud, mast]), [side_force + push, 0])
    assert shroud_side(side_force, out_angle, push) == pytest.approx(tension)
    assert compression > 0


@given(st.floats(5, 200), st.floats(2, 44), st.floats(1, 3), st.floats(50, 5_000), chainplates)
def test_lee_shroud_is_just_taut_at_that_heel(load, heel, factor, stiffness, chainplate_out):
    """Two shrouds as springs, the mast leaning until they balance the heeling moment."""
    rm30 = load * chainplate_out / factor
    moment = rm30 * sin(radians(heel)) / sin(radians(30))
    set_up = pretension(load, heel, factor)

    def unbalanced(lean):
        windward, lee = set_up + stiffness * lean, set_up - stiffness * lean
        return (windward - lee) * chainplate_out - moment

    lean = brentq(unbalanced, 0, 10 * load / stiffness, xtol=1e-15)
    assert set_up - stiffness * lean == pytest.approx(0, abs=1e-6 * load)


def test_pretension_by_hand():
    # Up to 20° with heel beyond 30° counted as 1.5: sin 20° = 0.34202 of 100 kN, over 2 · 1.5 · 0.5.
    assert pretension(100) == pytest.approx(22.801, abs=5e-4)


@given(st.floats(5, 200), st.floats(1, 40), st.floats(0.1, 4))
def test_pretension_grows_with_the_heel(load, heel, more):
    assert pretension(load, heel + more) > pretension(load, heel)


def test_backstay_balances_the_forestay():
    # Statics: equal fore-and-aft pulls; 10 kN at 22° forward, 25° aft in the same plane: 8.864 kN.
    assert backstay(10, sin(radians(22)), sin(radians(25))) == pytest.approx(8.864, abs=5e-4)


def test_two_backstay_legs_by_vectors():
    # One leg of a pair stands off to the side; the two together balance the forestay.
    head = np.array([0.0, 0.0, 12_000.0])
    stem, quarter = np.array([4_000.0, 0, 0]), np.array([-4_500.0, 900.0, 0])
    legs = backstay(10, stay_pull(*head, *stem), stay_pull(*head, *quarter))
    forward = 10 * (stem - head) / np.linalg.norm(stem - head)
    aft = legs * (quarter - head) / np.linalg.norm(quarter - head)
    assert forward[0] + aft[0] == pytest.approx(0)


@given(part_counts, frictions)
def test_lashing_share_part_by_part(parts, friction):
    """Each half turn round a ring lets through 1/exp(μπ) of the pull (capstan equation)."""
    pulls = [1.0]
    for _ in range(parts - 1):
        pulls.append(pulls[-1] / exp(friction * pi))
    assert lashing_share(parts, friction) == pytest.approx(max(pulls) / sum(pulls))


@given(st.floats(0.5, 50), part_counts, frictions, st.integers(0, 6))
def test_haul_half_turn_by_half_turn(tension, parts, friction, half_turns):
    """From the hand inwards each half turn lets through 1/exp(μπ); the parts add up to the stay."""
    hand = lashing_haul(tension, parts, friction, half_turns)
    pulls = [hand / exp(friction * pi) ** (half_turns + part) for part in range(parts)]
    assert sum(pulls) == pytest.approx(tension)


def test_haul_by_hand():
    # Four parts, friction 0.15: the last one has 0.44304 of 10 kN, and one half turn more takes 1/0.62423 of that.
    assert lashing_haul(10, 4, 0.15, 0) == pytest.approx(4.4304, abs=5e-5)
    assert lashing_haul(10, 4) == pytest.approx(4.4304 / 0.62423, abs=5e-4)
    # Without friction it is a tackle (statics): six parts, a sixth of the pull.
    assert lashing_haul(6, 6, 0) == pytest.approx(1)


def test_five_turns_by_the_capstan_equation():
    # Capstan equation by hand: e^(0.6 · 2π · 5) = 153,552,935. Two parts have half a turn between them.
    hard = lashing_share(2, 0.6)
    half_turn = hard / (1 - hard)
    assert half_turn**10 == pytest.approx(153_552_935, rel=1e-8)


@pytest.mark.parametrize("friction", [0.0, 5e-324, 1e-300, 1e-17, 1e-12])
@pytest.mark.parametrize("parts", range(1, 25))
def test_no_friction_and_hardly_any_share_evenly(parts, friction):
    assert lashing_share(parts, friction) == pytest.approx(1 / parts, rel=1e-9)


@given(st.integers(1, 23), st.floats(0.01, 0.5))
def test_more_parts_ease_the_hardest_and_friction_burdens_it(parts, friction):
    share = lashing_share(parts, friction)
    assert lashing_share(parts + 1, friction) < share
    assert 1 / parts <= share <= lashing_share(parts, friction * 1.5)
    assert share >= 1 - exp(-friction * pi)


def test_strands_together_against_the_strength_needed():
    # Practical Sailor, advice column on lashings (issue not noted): strands together about 160 % of the strength
    # needed. A band only: four to six parts over polished rings, with 0.8 for the bend round them.
    for parts in (4, 5, 6):
        together = parts * lashing_share(parts, 0.07) / 0.8
        assert 1.3 < together < 2.1


@given(st.floats(5, 60), st.floats(5, 60), st.floats(1, 5), frictions, st.floats(0.5, 1))
def test_fewest_parts_are_enough_and_one_less_is_not(load, line_break, required, friction, bend):
    def margin(parts):
        pulls = [exp(-friction * pi * part) for part in range(parts)]
        return line_break * bend / (load * pulls[0] / sum(pulls))

    try:
        parts = lashing_parts(load, line_break, required, friction, bend)
    except NoSolution:
        assert margin(24) < required * (1 + 1e-9)
        return
    assert parts == int(parts)
    assert margin(int(parts)) >= required * (1 - 1e-9)
    assert parts == 1 or margin(int(parts) - 1) < required * (1 + 1e-9)


def test_a_lashing_that_24_parts_cannot_make_strong_enough():
    # With friction 0.15 the hardest part never carries less than 1 − exp(−0.15·π) = 37.6 % of the load.
    assert lashing_parts(10, 3.77, 1, bend=1) > 6
    with pytest.raises(NoSolution, match=r"3\.75 kN.*carries 3\.758 kN; take a stronger line or smoother rings"):
        lashing_parts(10, 3.75, 1, bend=1)
    # Without friction 25 parts would do, and are too many.
    assert lashing_parts(24, 1.001, 1, 0, 1) == 24
    assert lashing_parts(4, 1, 1, 0, 1) == 4
    assert lashing_parts(1, 1, 1, 0, 1) == 1
    with pytest.raises(NoSolution):
        lashing_parts(25, 1, 1, 0, 1)


def test_lashing_of_four_parts_by_hand():
    # Friction 0.15: 1/r = 0.62423, so four parts pull 1, 0.62423, 0.38966, 0.24324: the first has 1/2.25713.
    assert lashing_share(4) == pytest.approx(0.44304, abs=1e-5)
    # With 0.8 for the bend a line must break at 0.44304 · 10/0.8 = 5.538 kN to hold 10 kN in four parts.
    assert lashing_parts(10, 5.54, 1) == 4
    assert lashing_parts(10, 5.53, 1) == 5
    assert lashing_parts(10, 11.08, 2) == 4


def test_lashing_gap_by_hand():
    # 12 m of rope, 1.5 % set and 0.5 % elastic stretch: 240 mm, and 60 mm that stay.
    assert lashing_gap(12_000, 0.015, 0.005) == pytest.approx(300)
    assert lashing_gap("12 m", "1.5 %", "0.5 %", "40 mm") == pytest.approx(280)


@given(st.floats(50, 1_000), st.floats(10, 60), st.integers(1, 12))
def test_lashing_line_as_a_belt_round_two_rings(gap, ring, turns):
    """An open belt round two equal pulleys: two straight runs and the circle (geometry)."""
    belt = 2 * gap + pi * ring
    assert lashing_line(gap, 2 * turns, ring, 500) == pytest.approx(turns * belt + 500)
    assert lashing_line(gap, 2 * turns, ring) == pytest.approx(turns * belt + 1_000)


@given(righting_moments, chainplates)
def test_loads_do_not_depend_on_units(rm30, chainplate_out):
    in_pounds = (f"{rm30 * 1000 / 1.3558179483314:.9f} ft lbf", f"{chainplate_out / 304.8:.12f} ft")
    assert shroud_total(*in_pounds) == pytest.approx(shroud_total(rm30, chainplate_out), rel=1e-8)
    assert mast_push(*in_pounds) == pytest.approx(mast_push(rm30, chainplate_out), rel=1e-8)
