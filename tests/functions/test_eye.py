"""Eye and loop, against geometry by other routes and statics of the handbooks."""

from math import acos, asin, inf, isclose, nextafter, pi, radians, sin, sqrt, tan

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from loftsheet.errors import BadInput, NoSolution
from loftsheet.eye import (
    eye_angle,
    eye_capacity,
    eye_length,
    eye_reach,
    grommet_capacity,
    grommet_cut,
    leg_load,
    loop_fit,
    loop_play,
    sleeve_length,
)
from scipy.optimize import brentq
from shapely import LineString, Point, box
from shapely.ops import unary_union

EYES = [(142, 42, 7, 1), (80, 16, 6, 0), (5000, 30, 8, 1.5), (81, 42, 7, 1), (80.2, 42, 7, 1), (900, 250, 60, 5)]
rods = st.floats(5, 200)
ropes = st.floats(3, 40)
sleeves = st.floats(0, 5)
angles = st.floats(1, 150)


def middle_line(rod: float, rope: float, sleeve: float) -> float:
    return rod / 2 + sleeve + rope / 2


def open_belt(large: float, small: float, centres: float) -> "tuple[float, float, float]":
    """Length and both wraps of an open belt, by diameters."""
    lean = asin((large - small) / (2 * centres))
    wrap, small_wrap = pi + 2 * lean, pi - 2 * lean
    straight = sqrt(4 * centres**2 - (large - small) ** 2)
    return straight + (large * wrap + small * small_wrap) / 2, wrap, small_wrap


def test_open_belt_of_the_textbook():
    # Shigley, Mechanical Engineering Design, ch. 17 (flexible elements), solutions (edition not noted): 18, 6, 96
    # in.
    belt, wrap, small_wrap = open_belt(18, 6, 96)
    assert belt == pytest.approx(230.074, abs=0.0005)
    assert (wrap, small_wrap) == pytest.approx((3.266674, 3.016511), abs=5e-7)


@pytest.mark.parametrize("eye, rod, rope, sleeve", EYES)
def test_reach_is_an_open_belt_round_the_rod_and_a_point(eye, rod, rope, sleeve):
    reach = eye_reach(eye, rod, rope, sleeve)
    belt, wrap, _ = open_belt(2 * middle_line(rod, rope, sleeve), 0, reach)
    assert belt == pytest.approx(2 * eye, rel=1e-12)
    assert radians(eye_angle(eye, rod, rope, sleeve)) == pytest.approx(wrap - pi, rel=1e-9)


@pytest.mark.parametrize("eye, rod, rope, sleeve", EYES)
def test_reach_by_root_finding_on_a_second_closed_form(eye, rod, rope, sleeve):
    # 2·R1·(π − a + tan a) with a = acos(R1/C), the second pulley a point: geometry.
    radius = middle_line(rod, rope, sleeve)

    def surplus(centres: float) -> float:
        a = acos(radius / centres)
        return 2 * radius * (pi - a + tan(a)) - 2 * eye

    reach = brentq(surplus, radius, eye, xtol=1e-12)
    assert eye_reach(eye, rod, rope, sleeve) == pytest.approx(reach, rel=1e-9)


@pytest.mark.parametrize("eye, rod, rope, sleeve", EYES)
def test_reach_by_the_hull_of_a_disc_and_a_point(eye, rod, rope, sleeve):
    disc = Point(0, 0).buffer(middle_line(rod, rope, sleeve), quad_segs=4000)
    throat = Point(0, eye_reach(eye, rod, rope, sleeve))
    assert unary_union([disc, throat]).convex_hull.length == pytest.approx(2 * eye, rel=1e-6)


@given(rods, ropes, sleeves, st.floats(1.0001, 200), st.floats(1.001, 5))
def test_a_longer_eye_reaches_farther_and_has_a_narrower_throat(rod, rope, sleeve, fullness, longer):
    eye = fullness * pi * middle_line(rod, rope, sleeve)
    assume(eye * longer < 5000)
    assert eye_reach(eye * longer, rod, rope, sleeve) > eye_reach(eye, rod, rope, sleeve)
    assert eye_angle(eye * longer, rod, rope, sleeve) < eye_angle(eye, rod, rope, sleeve)


@given(rods, ropes, sleeves)
def test_an_eye_that_just_closes_has_its_throat_on_the_rod(rod, rope, sleeve):
    radius = middle_line(rod, rope, sleeve)
    closing = nextafter(pi * radius, inf)
    assert eye_reach(closing, rod, rope, sleeve) == pytest.approx(radius, rel=1e-6)
    assert eye_angle(closing, rod, rope, sleeve) == pytest.approx(180, abs=0.01)
    with pytest.raises(NoSolution, match="cannot close"):
        eye_reach(closing * 0.999, rod, rope, sleeve)
    with pytest.raises(NoSolution, match="cannot close"):
        eye_angle(closing * 0.999, rod, rope, sleeve)


def test_an_eye_that_closes_to_the_last_digit():
    # r is 10 mm: half the rope round it is 31.4… mm, and the eye has no legs.
    closing = pi * 10
    assert eye_reach(closing, 10, 10, 0) == pytest.approx(10)
    assert loop_fit(closing, 10, 10, 0).startswith("throat wider")
    assert loop_fit(nextafter(closing, 0), 10, 10, 0).startswith("cannot close")
    with pytest.raises(NoSolution, match=r"needs 31\.5 mm or more"):
        eye_reach(nextafter(closing, 0), 10, 10, 0)


@given(st.floats(0.1, 20), st.floats(0.1, 10))
def test_a_very_long_eye_is_two_legs_and_half_a_turn(rod, rope):
    radius = middle_line(rod, rope, 0)
    reach = eye_reach(5000, rod, rope, 0)
    assert 5000 - pi / 2 * radius - reach == pytest.approx(0, abs=radius**2 / 5000)


@given(rods, ropes, sleeves, angles)
def test_length_and_angle_undo_each_other(rod, rope, sleeve, widest):
    eye = eye_length(rod, rope, widest, sleeve)
    assume(eye <= 5000)
    assert eye_angle(eye, rod, rope, sleeve) == pytest.approx(widest, rel=1e-6)


@given(rods, ropes, sleeves, angles)
def test_the_eye_scales_with_everything_in_it(rod, rope, sleeve, widest):
    assert eye_length(rod / 2, rope / 2, widest, sleeve / 2) == pytest.approx(
        eye_length(rod, rope, widest, sleeve) / 2
    )


def test_inches_give_what_millimetres_give():
    assert eye_reach("6 in", "1 1/2 in", "3/8 in", "1 mm") == pytest.approx(eye_reach(152.4, 38.1, 9.525, 1))
    assert eye_length("1.5 in", "3/8 in") == pytest.approx(eye_length(38.1, 9.525))


@pytest.mark.parametrize("rope", [3, 4, 5, 6, 7, 8])
def test_an_eye_of_five_fittings_is_not_wide(rope):
    # US Navy, Naval Ships' Technical Manual, ch. 613 (1999), ¶613-2.5.1, as quoted elsewhere: five times the
    # fitting preferred, 16 mm → 80 mm.
    assert eye_angle(80, 16, rope, 0) < 30


@pytest.mark.parametrize("rope", [6, 8, 10, 12])
def test_the_least_eye_of_the_standard_closes_round_its_least_post(rope):
    # ISO 2307:2010, Fibre ropes, eyes on the posts of a test: post of 2 rope diameters or more, eye, closed, of 6
    # or more.
    assert loop_play(6 * rope, 2 * rope, rope, 0) > 0


@pytest.mark.parametrize("from_vertical, leg", [(30, 1154.7), (60, 2000)])
def test_two_leg_bridle(from_vertical, leg):
    # Michigan State University, guidance on sling hitches (page not noted): 2,000 lb on two legs.
    pounds = leg_load("2000 lbf", 2 * from_vertical) / 4.4482216152605e-3
    assert pounds == pytest.approx(leg, abs=0.05)


@pytest.mark.parametrize("from_horizontal, factor", [(60, 1.154), (45, 1.414), (30, 2.0)])
def test_load_factor_by_the_angle_from_horizontal(from_horizontal, factor):
    # Michigan State University, guidance on sling hitches (page not noted); its factors are cut off after three
    # decimals.
    assert leg_load(10, 180 - 2 * from_horizontal) == pytest.approx(factor * 5, abs=0.005)


@given(st.floats(0.1, 500), angles)
def test_two_legs_as_vectors_carry_the_load(load, between):
    leg = leg_load(load, between)
    pulls = [
        leg * np.array([sin(side), sqrt(1 - sin(side) ** 2)]) for side in np.radians([-between / 2, between / 2])
    ]
    assert np.sum(pulls, axis=0) == pytest.approx([0, load], abs=1e-9 * load)


@given(st.floats(1, 500), st.floats(0.1, 1), angles, st.floats(0.5, 1))
def test_at_its_capacity_a_leg_of_the_eye_has_what_the_bend_leaves(break_load, bend, between, uneven):
    capacity = eye_capacity(break_load, bend, between, uneven)
    assert leg_load(capacity, between) == pytest.approx(break_load * bend * uneven)


@given(st.floats(1, 500), st.floats(1, 149))
def test_a_wider_throat_carries_less_and_never_more_than_two_ropes(break_load, between):
    assert eye_capacity(break_load, 1, between + 1) < eye_capacity(break_load, 1, between)
    assert eye_capacity(break_load, 1, between, 1) < 2 * break_load


@pytest.mark.parametrize("throat", [0, 151, 180])
def test_throat_angles_that_no_eye_should_have(throat):
    with pytest.raises(BadInput, match="throat_angle"):
        eye_capacity(50, 1, throat)


@given(st.floats(20, 150), st.floats(20, 150), st.floats(3, 20), st.floats(0, 3))
def test_the_eye_passes_over_a_plate_if_a_band_round_it_does(high, wide, rope, sleeve):
    band = box(0, 0, wide, high).buffer(sleeve + rope / 2, quad_segs=2000).exterior.length
    girth = 2 * (high + wide)
    assert loop_fit(band / 2 + 0.01, 5, rope, sleeve, girth, 150) == "fits"
    assert "end plate" in loop_fit(band / 2 - 0.01, 5, rope, sleeve, girth, 150)


def test_fit_says_all_that_hinders():
    needed = eye_length(42, 7)
    assert loop_fit(needed, 42, 7) == "fits; end plate not checked"
    assert loop_fit(needed, 42, 7, girth=100) == "fits"
    assert "throat wider than 30°" in loop_fit(needed - 0.1, 42, 7)
    both = loop_fit(100, 42, 7, 1, 300)
    assert "throat wider" in both and "end plate" in both
    assert loop_fit(70, 42, 7).startswith("cannot close")
    # r is 25.5 mm with the sleeve, so that 80.11 mm close and 79.9 do not.
    assert loop_fit(79.9, 42, 7).startswith("cannot close")
    assert loop_fit(80.2, 42, 7).startswith("throat wider")
    assert loop_fit(needed, 42, 7, max_angle=25).startswith("throat wider than 25°")


def test_the_eye_that_would_do_is_named_in_tenths_rounded_up():
    # By hand: 31/tan 15° + 31 · (π/2 + 0.2618) = 172.504; over a girth of 400 mm (400 + 12π)/2 = 218.85.
    assert "needs 172.6 mm or more" in loop_fit(170, 50, 10)
    assert loop_fit(90, 50, 10) == "cannot close round the rod: the eye needs 172.6 mm or more"
    assert loop_fit(90, 50, 10, girth=400) == "cannot close round the rod: the eye needs 218.9 mm or more"
    assert loop_fit(90, 50, 10, girth=50) == "cannot close round the rod: the eye needs 172.6 mm or more"


def test_an_eye_that_just_passes_over_its_plate():
    just = (100 + 2 * pi * 5) / 2
    assert loop_fit(just, 5, 10, 0, 100, 150) == "fits"
    assert "end plate" in loop_fit(nextafter(just, 0), 5, 10, 0, 100, 150)


@given(rods, ropes, sleeves, st.floats(5, 60))
def test_the_size_that_the_words_name_does_fit(rod, rope, sleeve, widest):
    words = loop_fit(eye_length(rod, rope, widest, sleeve) * 0.9, rod, rope, sleeve, None, widest)
    named = float(words.split("needs ")[1].split(" mm")[0])
    assert loop_fit(named, rod, rope, sleeve, None, widest).startswith("fits")


@pytest.mark.parametrize("girth", [0, -5, "300", (1.0, 2.0)])
def test_a_girth_that_is_none(girth):
    with pytest.raises(BadInput, match="girth"):
        loop_fit(142, 42, 7, 1, girth)


@given(rods, ropes, sleeves)
def test_play_is_nothing_for_an_eye_that_just_closes(rod, rope, sleeve):
    closing = pi * middle_line(rod, rope, sleeve)
    assert loop_play(closing, rod, rope, sleeve) == pytest.approx(0, abs=1e-9)
    assert loop_play(closing + 10, rod, rope, sleeve) == pytest.approx(20)
    assert loop_play(closing * 0.9, rod, rope, sleeve) < 0


@given(rods, ropes, sleeves, st.floats(1.1, 5))
def test_play_is_what_the_drawn_ring_leaves(rod, rope, sleeve, fullness):
    """Once round by the outline of a disc as thick as rod and sleeve, grown by half the rope."""
    once_round = (
        Point(0, 0).buffer(rod / 2 + sleeve, quad_segs=2000).buffer(rope / 2, quad_segs=2000).exterior.length
    )
    eye = fullness * once_round / 2
    assert loop_play(eye, rod, rope, sleeve) == pytest.approx(2 * eye - once_round, rel=1e-5, abs=1e-3)


def test_sleeve_covers_both_legs_and_some_gather():
    # common practice, no source
    assert sleeve_length(150, 0) == 300
    assert sleeve_length(150) == pytest.approx(345)
    assert sleeve_length(150, "20 %") == pytest.approx(360)


@given(st.floats(800, 5000), st.floats(3, 12))
def test_once_round_a_grommet_is_the_outline_of_its_flat_inside_grown_by_half_a_rope(inside, rope):
    outline = LineString([(0, 0), (inside, 0)]).buffer(rope / 2, quad_segs=2000).exterior.length
    bury = outline / 3
    whole = grommet_cut(inside, rope, bury, 0.1, 0)
    assert whole - 2.2 * bury == pytest.approx(outline, rel=1e-6)


def test_the_buries_of_a_grommet_do_not_run_into_each_other():
    room = (2 * 400 + pi * 8) / 2
    assert grommet_cut(400, 8, room) > 4 * room
    with pytest.raises(BadInput, match=r"once round is 825\.1 mm and two buries are 825\.333 mm"):
        grommet_cut(400, 8, room + 0.1)


def test_a_grommet_added_up_by_hand():
    # 2 · 600 + 6π = 1218.85 round, 2 · 432 · 1.1 = 950.4 in the buries, 2 · 50 to trim.
    assert grommet_cut(600, 6, 432) == pytest.approx(2269.25, abs=0.005)


@given(st.floats(1, 500), st.floats(0.3, 1), st.floats(0.3, 1))
def test_a_grommet_has_the_greater_of_two_reductions(break_load, splice, bend):
    # GL Noble Denton 0027/ND rev. 11 (2016) §7.6–7.7: the greater of termination and bending factor, never both.
    factor = max(1 / splice, 1 / bend)
    assert grommet_capacity(break_load, splice, bend, 1) == pytest.approx(2 * break_load / factor)
    assert isclose(grommet_capacity(break_load, splice, bend), 1.8 * break_load / factor)
