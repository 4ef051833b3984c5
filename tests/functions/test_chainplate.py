"""Chainplates: belts and loops against published figures, plates against the published shape for a pin."""

from math import pi

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from loftsheet.chainplate import (
    bend_edge,
    grommet_inside,
    grommet_marks,
    plate_capacity,
    plate_end,
    plate_side,
    plate_thickness,
)
from loftsheet.errors import BadInput
from loftsheet.eye import grommet_capacity, grommet_cut
from shapely import Point
from shapely.ops import unary_union

loads = st.floats(1, 200)
plates = st.floats(3, 20)
yields = st.floats(150, 700)


# Loops


def test_inside_of_a_loop_is_half_an_open_belt():
    # Shigley, Mechanical Engineering Design, ch. 17, solution set: D 18, d 6, C 96 in, belt 230.074 in.
    assert 2 * grommet_inside("96 in", "18 in", "6 in") / 25.4 == pytest.approx(230.074, abs=5e-4)
    assert grommet_inside(300, 20, 40) == grommet_inside(300, 40, 20)
    assert grommet_inside(300, 30, 30) == pytest.approx(300 + pi / 2 * 30)


@given(st.floats(100, 1_000), st.floats(5, 90), st.floats(5, 90))
def test_inside_of_a_loop_is_half_the_hull_of_bar_and_pin(apart, bar, pin):
    circles = [Point(0, 0).buffer(bar / 2, quad_segs=500), Point(apart, 0).buffer(pin / 2, quad_segs=500)]
    assert grommet_inside(apart, bar, pin) == pytest.approx(unary_union(circles).convex_hull.length / 2, rel=1e-5)


def test_bar_and_pin_need_room_between_them():
    with pytest.raises(BadInput, match="more than 35 mm"):
        grommet_inside(35, 40, 30)


@given(st.floats(100, 1_000), st.floats(3, 12), st.integers(1, 12), st.floats(0, 0.1))
def test_turns_are_so_many_loops_of_one_rope(inside, rope, turns, stretch):
    once_round = 2 * inside + pi * rope
    bury = turns * once_round / 3
    cut = grommet_cut(inside, rope, bury, 0.1, 50, turns, stretch)
    assert cut == pytest.approx(turns * once_round / (1 + stretch) + 2.2 * bury + 100)
    assert grommet_capacity(40, 0.9, 1, 0.8, turns) == pytest.approx(turns * grommet_capacity(40, 0.9, 1, 0.8))
    assert grommet_cut(inside, rope, bury / turns) == grommet_cut(inside, rope, bury / turns, 0.1, 50, 1, 0)


def test_turns_make_room_for_two_buries():
    # common practice, no source: a short strop is wound of thinner rope, for one turn of it is too short to bury.
    with pytest.raises(BadInput, match=r"once round is 318.8 mm.*thinner rope"):
        grommet_cut(150, 6, 432)
    with pytest.raises(BadInput, match="2 times round"):
        grommet_cut(150, 6, 432, 0.1, 50, 2)
    assert grommet_cut(150, 6, 432, 0.1, 50, 3) > 3 * 318


@given(
    st.floats(300, 1_000),
    st.floats(3, 12),
    st.floats(45, 90),
    st.integers(1, 6),
    st.floats(0, 0.05),
    st.floats(0.01, 0.3),
    st.floats(0.2, 0.8),
)
def test_marks_are_the_parts_of_the_rope(inside, rope, diameters, turns, stretch, take_up, taper):
    bury = diameters * rope
    assume(turns * (2 * inside + pi * rope) > 2 * bury)
    loop = (inside, rope, bury, take_up, 40, turns, stretch)
    marks = dict(grommet_marks(*loop, taper, 1.4))
    whole = grommet_cut(*loop)
    assert marks["end A"] == 0 and marks["end B"] == pytest.approx(whole)
    for name, from_end in (
        ("tail tip", 40),
        ("taper start", 40 + taper * bury),
        ("crossing", 40 + bury),
        ("lock stitch end", 40 + bury * 7 / 6),
        ("fid entry", 40 + 2.4 * bury),
    ):
        assert marks[f"{name} A"] == pytest.approx(from_end)
        assert marks[f"{name} B"] == pytest.approx(whole - from_end)
    # Between the crossings lies the loop, and what the two buries will shorten it by.
    between = marks["crossing B"] - marks["crossing A"]
    assert between == pytest.approx(turns * (2 * inside + pi * rope) / (1 + stretch) + 2 * bury * take_up)
    assert sorted(grommet_marks(*loop), key=lambda mark: mark[1]) == list(grommet_marks(*loop))


def test_a_tail_that_would_stick_out_is_refused():
    with pytest.raises(BadInput, match=r"growth 1\.2 is not more than 1 \+ take-up, 1\.2"):
        grommet_marks(600, 6, 432, 0.2, 50, 1, 0, 0.4, 1.2)


def test_an_edge_bends_a_rope_like_a_pin():
    assert bend_edge(8, 3) == 6
    assert bend_edge(8, 4) == 8
    with pytest.raises(BadInput, match="up to 4 mm"):
        bend_edge(8, 4.1)


# Metal


@given(loads, plates, st.floats(6, 40), yields, st.floats(1, 1.25))
def test_least_end_and_side_give_the_capacity_back(load, thickness, hole, proof, gamma):
    end, side = plate_end(load, thickness, hole, proof, gamma), plate_side(load, thickness, hole, proof, gamma)
    assert plate_capacity(thickness, hole, end, side, proof, gamma) == pytest.approx(load)
    assert plate_capacity(thickness, hole, end + 5, side, proof, gamma) == pytest.approx(load)
    assert plate_capacity(thickness, hole, end, (side + hole / 3) / 2, proof, gamma) == pytest.approx(load / 2)
    # EN 1993-1-8 table 3.9, type A: a − c is a third of the hole.
    assert end - side == pytest.approx(hole / 3)


def test_least_end_and_side_by_hand():
    # EN 1993-1-8 table 3.9, type A, by hand: 100 kN, t 20, d0 41, fy 235: 10.64 + 27.33 and 10.64 + 13.67.
    assert plate_end(100, 20, 41, 235) == pytest.approx(37.97, abs=0.01)
    assert plate_side(100, 20, 41, 235) == pytest.approx(24.31, abs=0.01)


def test_the_standard_shape_by_hand():
    # EN 1993-1-8 table 3.9, type B, by hand: 0.7·√(100,000 · 1.25 / 235) = 0.7 · 23.063.
    assert plate_thickness(100, 235, 1.25) == pytest.approx(16.144, abs=0.001)


@given(loads, yields)
def test_the_standard_shape_just_holds_by_the_rule_of_the_given_thickness(load, proof):
    # EN 1993-1-8 table 3.9, type B: d0 = 2.5·t, 1.6·d0 from the hole's middle to the end, 2.5·d0 wide. Each of its
    # sides is within some percent of what type A asks of the same plate.
    thickness = plate_thickness(load, proof)
    hole = 2.5 * thickness
    held = plate_capacity(thickness, hole, 1.6 * hole - hole / 2, 1.25 * hole - hole / 2, proof)
    assert held == pytest.approx(load, rel=0.03)
    assert held > load


@pytest.mark.parametrize(("end", "side"), [(10, 30), (30, 5)])
def test_a_hole_too_near_the_edge_is_refused(end, side):
    with pytest.raises(BadInput, match="more than 10 mm of plate beyond it and 5 mm beside it"):
        plate_capacity(8, 15, end, side, 220)


def test_edges_of_loops_and_plates():
    assert grommet_inside(35.1, 40, 30) > 0
    with pytest.raises(BadInput, match="growth"):
        grommet_marks(600, 6, 432, 0.2, 50, 1, 0, 0.4, 1.2)
    assert grommet_marks(600, 6, 432, 0.2, 50, 1, 0, 0.4, 1.21)[0] == ("end A", 0)
    with pytest.raises(BadInput, match="10 and 30 were given"):
        plate_capacity(8, 15, 10, 30, 220)
    assert plate_capacity(8, 15, 10.1, 30, 220) == pytest.approx(2 * 8 * 220 * 0.1 / 1000)
