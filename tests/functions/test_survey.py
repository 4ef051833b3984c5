"""Survey: angles and lengths of stays by vectors in space, and statics."""

from math import cos, radians, sin, sqrt, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from loftsheet.errors import BadInput
from loftsheet.loads import backstay
from loftsheet.survey import (
    mast_fore,
    mast_up,
    spreader_push,
    spreader_rise,
    stay_angle,
    stay_fore,
    stay_length,
    stay_out,
    stay_pull,
)

# A point is fore, out, up; the lower end is below the upper and not inboard of it.
places = st.integers(-5_000, 5_000)
rakes = st.floats(-15, 15)
drops = st.integers(500, 20_000)
spreads = st.integers(0, 3_000)
FORE, OUT, UP = np.eye(3)


@st.composite
def stays(draw):
    upper = np.array([draw(places), draw(st.integers(0, 500)), draw(places)], float)
    return upper, upper + np.array([draw(places), draw(spreads), -draw(drops)])


def ends(stay):
    return [float(number) for point in stay for number in point]


def between(one, other):
    """Angle between two directions; by both its sine and its cosine, so that it is exact near 0."""
    return np.degrees(np.arctan2(np.linalg.norm(np.cross(one, other)), one @ other))


def down_the_mast(rake):
    """Direction from masthead to foot: a mast raked aft comes forward on its way down."""
    return np.array([sin(radians(rake)), 0, -cos(radians(rake))])


def without(vector, axis):
    return vector - (vector @ axis) * axis


@given(st.floats(0, 20_000), rakes, places, places, st.floats(-2_000, 2_000))
def test_a_point_aft_of_the_mast_is_square_to_it(along, rake, foot_fore, foot_up, aft):
    axis = -down_the_mast(rake)
    point = np.array([mast_fore(along, rake, foot_fore, aft), 0, mast_up(along, rake, foot_up, aft)])
    way = point - np.array([foot_fore, 0, foot_up])
    assert way @ axis == pytest.approx(along, abs=1e-7)
    across = way - (way @ axis) * axis
    assert np.linalg.norm(across) == pytest.approx(abs(aft), abs=1e-7)
    assert across[0] * aft <= 1e-7, "aft is away from the bow, on a mast upright and on one that leans"


@given(st.floats(0, 20_000), rakes, places, places)
def test_a_point_of_the_mast_lies_on_its_axis(along, rake, foot_fore, foot_up):
    foot = np.array([foot_fore, 0, foot_up])
    point = np.array([mast_fore(along, rake, foot_fore), 0, mast_up(along, rake, foot_up)])
    assert point == pytest.approx(foot - along * down_the_mast(rake), abs=1e-8)


def test_rake_aft_brings_the_masthead_aft_and_down():
    # A plumb line from the masthead hangs 12 m · 0.0349 = 0.419 m abaft the foot; sin 2° from any table.
    assert mast_fore(12_000, 2) == pytest.approx(-419, abs=0.5)
    assert 0 < 12_000 - mast_up(12_000, 2) < 10
    assert mast_fore(12_000, -2) > 0
    assert (mast_fore(0, 2, 150), mast_up(0, 2, 900)) == (150, 900)


@given(stays())
def test_length_is_the_norm(stay):
    upper, lower = stay
    assert stay_length(*ends(stay)) == pytest.approx(np.linalg.norm(lower - upper), rel=1e-12)


def test_a_shroud_over_a_spreader_is_longer_than_the_straight_line():
    masthead, tip, chainplate = (0, 50, 12_000), (-100, 950, 6_500), (-150, 1_300, 1_000)
    over_tip = stay_length(*masthead, *tip) + stay_length(*tip, *chainplate)
    assert over_tip > stay_length(*masthead, *chainplate)


@given(stays())
def test_out_angle_is_that_of_the_athwartship_shadow(stay):
    upper, lower = stay
    assert stay_out(*ends(stay)) == pytest.approx(between(without(lower - upper, FORE), -UP), abs=1e-9)


@given(stays())
def test_a_rod_that_rises_by_the_out_angle_is_square_to_a_stay_that_leads_anywhere(stay):
    upper, lower = stay
    rise = radians(stay_out(*ends(stay)))
    rod = cos(rise) * OUT + sin(rise) * UP
    assert rod @ (lower - upper) == pytest.approx(0, abs=1e-9 * np.linalg.norm(lower - upper))


@pytest.mark.parametrize("lead", [-10, 10])
def test_three_degrees_of_rake_move_the_bevel_by_about_a_tenth(lead):
    """The bolt is square to the mast, so the exact bevel is measured from a raked mast's own axis."""
    stay = np.array([tan(radians(lead)), tan(radians(12)), -1]) * 8_000
    exact = np.degrees(np.arctan((stay @ OUT) / (stay @ down_the_mast(3))))
    assert stay_out(*ends((8_000 * UP, 8_000 * UP + stay))) == pytest.approx(exact, abs=0.15)


@given(stays(), rakes)
def test_fore_angle_is_that_of_the_shadow_on_the_centreline(stay, rake):
    upper, lower = stay
    shadow, mast = without(lower - upper, OUT), down_the_mast(rake)
    towards_the_bow = without(FORE, mast)
    lead = np.sign(shadow @ towards_the_bow) * between(shadow, mast)
    assert stay_fore(*ends(stay), rake) == pytest.approx(lead, abs=1e-8)


@given(stays(), rakes)
def test_true_angle_is_between_stay_and_mast(stay, rake):
    upper, lower = stay
    assert stay_angle(*ends(stay), rake) == pytest.approx(between(lower - upper, down_the_mast(rake)), abs=1e-8)


@given(stays())
def test_true_angle_is_never_less_than_either_shadow(stay):
    true_angle = stay_angle(*ends(stay))
    assert true_angle >= stay_out(*ends(stay)) - 1e-9
    assert true_angle >= abs(stay_fore(*ends(stay))) - 1e-9


@given(drops, spreads)
def test_in_one_plane_the_angles_are_the_same(drop, out):
    assert stay_angle(0, 0, drop, 0, out, 0) == pytest.approx(stay_out(0, 0, drop, 0, out, 0), abs=1e-9)
    assert stay_angle(0, 0, drop, out, 0, 0) == pytest.approx(stay_fore(0, 0, drop, out, 0, 0), abs=1e-9)


@given(drops, spreads, st.integers(1, 500))
def test_farther_out_is_a_wider_angle(drop, out, more):
    assert stay_out(0, 0, drop, 0, out + more, 0) > stay_out(0, 0, drop, 0, out, 0)


@given(stays(), places)
def test_the_datum_does_not_matter(stay, shift):
    moved = [point + shift for point in stay]
    for function in (stay_length, stay_out, stay_fore, stay_angle, stay_pull):
        assert function(*ends(moved)) == pytest.approx(function(*ends(stay)), rel=1e-9, abs=1e-9)


@given(stays(), st.floats(1, 100))
def test_pull_is_the_fore_and_aft_part_of_the_tension(stay, tension):
    upper, lower = stay
    force = tension * (lower - upper) / np.linalg.norm(lower - upper)
    assert tension * stay_pull(*ends(stay)) == pytest.approx(abs(force @ FORE), abs=1e-9)


def test_masthead_stays_pull_alike():
    # Statics, forestay 10 kN at 22° and backstay at 25° in the same plane: 8.864 kN.
    masthead = (0, 0, 10_000)
    forestay_pull = stay_pull(*masthead, 10_000 * tan(radians(22)), 0, 0)
    backstay_pull = stay_pull(*masthead, -10_000 * tan(radians(25)), 0, 0)
    assert backstay(10, forestay_pull, backstay_pull) == pytest.approx(8.864, abs=5e-4)


def push_of(tension, above, below):
    """Force of both parts of a shroud on the tip: along out and up."""
    above, below = radians(above), radians(below)
    return tension * (np.array([-sin(above), cos(above)]) + np.array([sin(below), -cos(below)]))


@given(st.floats(0.5, 200), st.floats(0, 45), st.floats(0, 45))
def test_push_is_the_inward_part_of_both_tensions(tension, above, below):
    inward, _ = push_of(tension, above, below)
    assert spreader_push(tension, above, below) == pytest.approx(-inward, abs=1e-9)


@given(st.floats(0.5, 200), st.floats(1, 45), st.floats(0, 44))
def test_a_spreader_that_halves_the_angle_is_pushed_along_only(tension, above, part):
    below = above * part / 45
    rise = radians(spreader_rise(above, below))
    force = push_of(tension, above, below)
    assert force @ np.array([-sin(rise), cos(rise)]) == pytest.approx(0, abs=1e-9 * tension)
    along = -force @ np.array([cos(rise), sin(rise)])
    assert along * cos(rise) == pytest.approx(spreader_push(tension, above, below), abs=1e-9 * tension)


def test_a_straight_shroud_does_not_push():
    assert spreader_push(20, 9, 9) == 0
    assert spreader_push(20, 4, 9) < 0


def test_units_of_points():
    metric = stay_length(0, 0, 3_048, 0, 304.8, 0)
    assert stay_length(0, 0, "10 ft", 0, "12 in", 0) == pytest.approx(metric, rel=1e-12)
    assert metric == pytest.approx(304.8 * sqrt(101))


@pytest.mark.parametrize("function", [stay_out, stay_fore, stay_angle])
@pytest.mark.parametrize("lower_up, words", [(1_000, " 0 mm above"), (1_250, " 250 mm above")])
def test_a_lower_end_that_is_not_below_is_refused(function, lower_up, words):
    with pytest.raises(BadInput, match=words):
        function(0, 0, 1_000, 0, 100, lower_up)
    assert function(0, 0, 1_000, 0, 0, 999.5) == 0


def test_a_lower_end_inboard_of_the_upper_is_refused():
    with pytest.raises(BadInput, match=" 50 mm inboard"):
        stay_out(0, 100, 1_000, 0, 50, 0)
    assert stay_out(0, 100, 1_000, 300, 100, 0) == 0


@pytest.mark.parametrize("function", [stay_length, stay_pull])
def test_two_ends_in_one_place_are_refused(function):
    with pytest.raises(BadInput, match="the same"):
        function(1, 2, 3, 1, 2, 3)
