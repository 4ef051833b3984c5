"""Rod tang: the stub as a cylinder in space cut by two planes, and the mitres of pipe fitters."""

from math import cos, pi, radians, sin, sqrt, tan

import numpy as np
import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st
from loftsheet.bolt import bolt_length
from loftsheet.errors import BadInput, NoSolution
from loftsheet.examples import BLANK, STUB
from loftsheet.eye import eye_length
from loftsheet.tang import (
    arm,
    base,
    bevel,
    clear,
    drop,
    exit_hole,
    face,
    gap,
    grip,
    hole,
    ligament,
    ligament_end,
    mass,
    need_rod,
    rise,
    saddle,
    thrust,
    top,
    upright,
    wedge,
)
from scipy.integrate import quad
from scipy.optimize import brentq
from shapely import LineString, Point, Polygon, affinity
from shapely.ops import unary_union

OUT, UP, FORE = np.eye(3)
rods = st.floats(15, 120)
bevels = st.floats(0, 35)
tops = st.floats(8, 60)
ropes = st.floats(4, 24)
sleeves = st.floats(0, 4)
out_angles = st.floats(0, 33)


def meet(point, direction, through, normal):
    """Where a line goes through a plane."""
    return point + direction * ((through - point) @ normal) / (direction @ normal)


class Stub:
    """A cylinder whose axis rises by the bevel, cut by the mast (out = 0) and square to its own axis.

    Everything is found by cutting lines with planes; the origin is where the axis meets the mast.
    """

    def __init__(self, rod, bevel, top):
        self.rod, self.bevel, self.top = rod, bevel, top
        self.axis = np.array([cos(radians(bevel)), sin(radians(bevel)), 0])
        self.across = np.cross(FORE, self.axis)
        self.top_edge = self.at_mast(self.side(0))
        self.bottom_edge = self.at_mast(self.side(180))
        self.top_end = self.top_edge + top * self.axis

    def side(self, turn):
        """A point of the line along the rod's surface, turned so many degrees from its top."""
        return self.rod / 2 * (cos(radians(turn)) * self.across + sin(radians(turn)) * FORE)

    def at_mast(self, point):
        return meet(point, self.axis, np.zeros(3), OUT)

    def at_end(self, point, direction):
        return meet(point, direction, self.top_end, self.axis)

    def length(self, turn):
        side = self.side(turn)
        return (self.at_end(side, self.axis) - self.at_mast(side)) @ self.axis

    def bolt(self, hole):
        """The bolt's centre at the mast."""
        return self.top_edge - hole * UP

    def load_point(self, seat):
        """On the axis, under an eye whose middle lies that far along the top."""
        return meet(np.zeros(3), self.axis, self.top_edge + seat * self.axis, self.axis)


@st.composite
def stubs(draw):
    """Rod, bevel, top and a hole that is inside the rod at both ends."""
    rod, bevel, top = draw(rods), draw(bevels), draw(tops)
    deepest = rod * cos(radians(bevel)) - top * sin(radians(bevel))
    assume(deepest > 2)
    return rod, bevel, top, draw(st.floats(0.02, 0.98)) * deepest


# Sizes


@pytest.mark.parametrize("short_side", [5, 14, 300])
def test_mitre_of_a_pipe(short_side):
    # Mitred three-piece bend, method of US Navy NAVEDTRA 14251 (pipe layout; page not noted), by hand: outside
    # diameter 168 mm at 15°, half cut-back 22.51 mm, long less short side 45.02 mm.
    assert base(168, 15, short_side) - short_side == pytest.approx(45.02, abs=0.005)
    length_on_axis = mass(168, 15, short_side) / mass(168, 0, 1)
    assert length_on_axis - short_side == pytest.approx(22.51, abs=0.005)


@given(rods, bevels, tops)
def test_base_and_face_of_the_cut_cylinder(rod, bevel, top):
    stub = Stub(rod, bevel, top)
    assert base(rod, bevel, top) == pytest.approx(stub.length(180))
    assert stub.length(0) == pytest.approx(top)
    assert face(rod, bevel) == pytest.approx(np.linalg.norm(stub.top_edge - stub.bottom_edge))


@given(rods, bevels, tops)
def test_mass_by_integrating_the_volume(rod, bevel, top):
    stub = Stub(rod, bevel, top)

    def slice_of(across):
        """Area of the stub in a plane along its axis, `across` above it."""
        turn = np.degrees(np.arccos(2 * across / rod))
        return 2 * sqrt(max(0, (rod / 2) ** 2 - across**2)) * stub.length(turn)

    volume, _ = quad(slice_of, -rod / 2, rod / 2)
    assert mass(rod, bevel, top, 1_850) == pytest.approx(1_850 * volume / 1000**3, rel=1e-6)


def test_a_round_bar_weighs_what_a_round_bar_weighs():
    # NIST SP 811, App. B: 1 lb/ft³ is 16.01846 kg/m³.
    assert mass(100, 0, 100, 1_000) == pytest.approx(pi / 4)
    assert mass(100, 0, 100, "62.42796 lb/ft3") == pytest.approx(pi / 4, rel=1e-6)
    assert mass(*BLANK) == mass(*BLANK, 1_850)


@given(ropes, bevels, sleeves, st.floats(0, 10), st.integers(1, 4))
def test_top_by_finding_the_circle_that_touches_mast_and_rod(rope, bevel, sleeve, clearance, eyes):
    radius = rope / 2 + sleeve
    stub = Stub(1, bevel, 1)

    def centre(along):
        return along * stub.axis + radius * stub.across

    touching = brentq(lambda along: centre(along) @ OUT - radius, 0, 100 * radius, xtol=1e-12)
    outer_side = touching + radius + (eyes - 1) * 2 * radius
    assert top(rope, bevel, sleeve, clearance, float(eyes)) == pytest.approx(outer_side + clearance)


@given(ropes, bevels, sleeves)
def test_the_eye_in_the_corner_touches_and_does_not_cut(rope, bevel, sleeve):
    radius = rope / 2 + sleeve
    along = top(rope, bevel, sleeve, 0) - radius
    axis, across = Stub(1, bevel, 1).axis[:2], Stub(1, bevel, 1).across[:2]
    centre = Point(along * axis + radius * across)
    assert centre.distance(LineString([(0, 0), (0, 1_000)])) == pytest.approx(radius)
    assert centre.distance(LineString([(0, 0), 1_000 * axis])) == pytest.approx(radius)


@given(rods, ropes)
def test_no_bevel_is_a_square_stub(rod, rope):
    assert base(rod, 0, 14) == 14
    assert face(rod, 0) == rod
    assert top(rope, 0, 1, 0) == pytest.approx(rope + 2)
    assert grip(rod, 0, 14, rod / 3) == 14
    assert exit_hole(rod, 0, 14, rod / 3) == pytest.approx(rod / 3)
    assert wedge(30, 0, 1.5) == 1.5


@given(rods, st.floats(0, 34), tops, ropes)
def test_a_steeper_bevel_makes_it_longer(rod, bevel, short_side, rope):
    assert base(rod, bevel + 1, short_side) > base(rod, bevel, short_side)
    assert face(rod, bevel + 1) > face(rod, bevel)
    assert mass(rod, bevel + 1, short_side) > mass(rod, bevel, short_side)
    assert top(rope, bevel + 1) > top(rope, bevel)


# The stay on the rod


@given(st.floats(0.1, 200), st.floats(0, 45), bevels)
def test_thrust_is_the_part_of_the_pull_along_the_rod(tension, out_angle, bevel):
    pull = tension * (sin(radians(out_angle)) * OUT - cos(radians(out_angle)) * UP)
    assert thrust(tension, out_angle, bevel) == pytest.approx(-pull @ Stub(40, bevel, 16).axis, abs=1e-9)


@pytest.mark.parametrize("out_angle, extra", [(33.5, 2), (45, 0), (30, 5.5)])
def test_too_flat_a_stay_for_a_stub(out_angle, extra):
    with pytest.raises(BadInput, match="another fitting"):
        bevel(out_angle, extra)


def test_the_largest_bevel_there_is():
    assert bevel(33) == 35
    with pytest.raises(BadInput, match=r"got 36 °.*friction"):
        face(40, 36)


@given(stubs(), out_angles, st.floats(0, 12), st.floats(0.05, 1))
def test_arm_is_the_moment_of_the_pull_about_the_bolt(stub, out_angle, pad, part):
    """The pull goes through the rod's axis; the bolt's centre at the mast lies `pad` inside the bevelled face."""
    rod, bevel, short_side, down = stub
    cylinder = Stub(rod, bevel, short_side)
    pull = sin(radians(out_angle)) * OUT - cos(radians(out_angle)) * UP
    at_mast = cylinder.bolt(down) - pad * OUT
    moment = np.cross(cylinder.load_point(part * short_side) - at_mast, pull)
    expected = pytest.approx(-moment @ FORE, abs=1e-9)
    assert arm(rod, bevel, short_side, down, out_angle, pad, part * short_side) == expected


@given(stubs(), out_angles)
def test_arm_takes_the_middle_of_the_top_and_no_pad_if_not_told(stub, out_angle):
    assert arm(*stub, out_angle) == arm(*stub, out_angle, 0.0, stub[2] / 2)


@given(stubs(), out_angles, st.floats(0, 12))
def test_an_eye_farther_out_has_the_longer_lever(stub, out_angle, pad):
    short_side = stub[2]
    assert arm(*stub, out_angle, pad, short_side) > arm(*stub, out_angle, pad, short_side / 2)
    assert arm(*stub, out_angle, pad + 1) > arm(*stub, out_angle, pad)


@given(stubs(), out_angles, sleeves)
def test_a_flat_eye_would_have_no_longer_lever_while_the_bevel_is_enough(stub, out_angle, sleeve):
    """An eye that lies in the plane of its stay pulls through the crown on top, not through the axis below."""
    rod, bevel, short_side, down = stub
    assume(bevel >= out_angle)
    cylinder = Stub(rod, bevel, short_side)
    pull = sin(radians(out_angle)) * OUT - cos(radians(out_angle)) * UP
    crown = cylinder.top_edge + short_side / 2 * cylinder.axis
    assert arm(*stub, out_angle) >= -np.cross(crown - cylinder.bolt(down), pull) @ FORE - 1e-9


def test_a_seat_beyond_the_top_is_refused():
    with pytest.raises(BadInput, match=r"seat 17.1 mm lies beyond the top of 17 mm"):
        arm(*STUB, 12, 0, 17.1)
    assert arm(*STUB, 12, 0, 17.0) > 0


@given(stubs())
def test_upright_is_how_far_the_load_hangs_below_the_bolt(stub):
    rod, bevel, short_side, down = stub
    cylinder = Stub(rod, bevel, short_side)
    below = (cylinder.bolt(down) - cylinder.load_point(short_side / 2)) @ UP
    assert upright(*stub) == pytest.approx(below, abs=1e-9)


@given(stubs(), st.floats(1, 180))
def test_an_upright_stub_lifts_its_load_when_it_turns_on_the_bolt(stub, turn):
    rod, bevel, short_side, down = stub
    assume(abs(upright(*stub)) > 0.01)
    cylinder = Stub(rod, bevel, short_side)
    across_bolt = cylinder.load_point(short_side / 2) - cylinder.bolt(down)
    turned = cos(radians(turn)) * (across_bolt @ UP) + sin(radians(turn)) * (across_bolt @ FORE)
    assert (turned > across_bolt @ UP) == (upright(*stub) > 0)


# The hole


@given(stubs())
def test_bolt_through_the_stub(stub):
    rod, bevel, short_side, down = stub
    cylinder = Stub(rod, bevel, short_side)
    comes_out = cylinder.at_end(cylinder.bolt(down), OUT)
    assert grip(*stub) == pytest.approx((comes_out - cylinder.bolt(down)) @ OUT)
    assert exit_hole(*stub) == pytest.approx(np.linalg.norm(comes_out - cylinder.top_end))
    assert exit_hole(*stub) == pytest.approx((cylinder.top_end - comes_out) @ cylinder.across)


@given(stubs(), st.floats(4, 30))
def test_rod_below_the_bolt_at_the_outer_end(stub, bolt_hole):
    rod, bevel, short_side, down = stub
    cylinder = Stub(rod, bevel, short_side)
    hole_below = cylinder.at_end(cylinder.bolt(down) - bolt_hole / 2 * UP, OUT)
    rod_below = cylinder.at_end(cylinder.side(180), cylinder.axis)
    left = (hole_below - rod_below) @ cylinder.across
    assume(abs(left) > 1e-6)
    if left > 0:
        assert ligament_end(*stub, bolt_hole) == pytest.approx(left, abs=1e-9)
    else:
        with pytest.raises(BadInput, match="no rod below it"):
            ligament_end(*stub, bolt_hole)


def test_a_bolt_hole_that_just_breaks_out_is_refused():
    with pytest.raises(BadInput, match="no rod below it"):
        ligament_end(50, 0, 16, 40, 20)
    assert ligament_end(50, 0, 16, 39, 20) == 1


@given(stubs(), st.floats(4, 30))
def test_rod_above_the_bolt_is_the_thinnest_place_of_the_sawn_face(stub, bolt_hole):
    """The bevelled face is an ellipse; a hole that leaves the stub upright is nearest to its top."""
    rod, bevel, _, down = stub
    assume(down > bolt_hole / 2 and upright(*stub) > 0)
    outline = affinity.scale(Point(0, 0).buffer(1, quad_segs=500), rod / 2, face(rod, bevel) / 2).exterior
    centre = Point(0, face(rod, bevel) / 2 - down)
    assert ligament(down, bolt_hole) == pytest.approx(outline.distance(centre) - bolt_hole / 2, abs=1e-3)


@given(stubs(), st.floats(4, 30))
def test_above_the_bolt_the_outer_end_is_never_the_weaker(stub, bolt_hole):
    rod, bevel, short_side, down = stub
    assume(down > bolt_hole / 2)
    cylinder = Stub(rod, bevel, short_side)
    hole_above = cylinder.at_end(cylinder.bolt(down) + bolt_hole / 2 * UP, OUT)
    assert (cylinder.top_end - hole_above) @ cylinder.across >= ligament(down, bolt_hole) - 1e-9


@pytest.mark.parametrize("down", [8.5, 8, 0.1])
def test_no_rod_above_the_bolt_is_refused(down):
    with pytest.raises(BadInput, match=r"more than 8\.5 mm down"):
        ligament(down, 17)


USING_THE_HOLE = [upright, grip, exit_hole, lambda *stub: arm(*stub, 12)]


@pytest.mark.parametrize("function", USING_THE_HOLE)
def test_a_hole_at_the_bottom_of_a_square_stub_is_refused(function):
    with pytest.raises(BadInput, match="less than 50 mm down"):
        function(50, 0, 16, 50)


@pytest.mark.parametrize("function", USING_THE_HOLE)
@given(rods, bevels, tops)
@example(20, 35, 60)
def test_a_hole_that_comes_out_below_the_square_end_is_refused(function, rod, bevel, short_side):
    cylinder = Stub(rod, bevel, short_side)
    lowest = cylinder.at_end(cylinder.side(180), cylinder.axis)
    deepest = (cylinder.top_edge - lowest) @ UP
    with pytest.raises(BadInput, match="square end"):
        function(rod, bevel, short_side, max(deepest, 0) + 0.01)
    if deepest > 0.1:
        function(rod, bevel, short_side, deepest - 0.01)


def test_a_hole_that_comes_out_too_low_is_told_from_a_stub_that_is_too_long():
    # rod · cos 35° is 16.383 mm, and half a millimetre is left of it with 27.69 mm on top, nothing with 29.
    with pytest.raises(BadInput, match=r"hole 5 mm comes out below .* less than 0\.5\d* mm down"):
        upright(20, 35, 27.69, 5)
    with pytest.raises(BadInput, match="no hole comes out inside"):
        upright(20, 35, 29, 5)


@given(rods, bevels, tops, st.one_of(st.none(), st.tuples(st.floats(10, 120), ropes, sleeves, st.floats(0, 10))))
def test_hole_is_the_lowest_that_meets_every_condition(rod, bevel, short_side, stop):
    def meets(down):
        fits = stop is None or gap(stop[0], bevel, short_side, down, *stop[1:], 12) >= -1e-9
        return down <= 0.45 * face(rod, bevel) + 1e-9 and fits and upright(rod, bevel, short_side, down) >= -1e-9

    try:
        down = hole(rod, bevel, short_side, *(() if stop is None else (*stop, 12)))
    except NoSolution as refused:
        assert "no hole is left" in str(refused)
        stub_too_long = rod * cos(radians(bevel)) <= short_side * sin(radians(bevel)) + 1e-9
        assert stub_too_long or not meets(1e-6)
    else:
        assert meets(down)
        assert not meets(down + 1e-6)


@given(rods, st.floats(1, 35), tops)
def test_hole_and_upright_undo_each_other(rod, bevel, short_side):
    assume(rod / 2 * cos(radians(bevel)) > short_side / 2 * sin(radians(bevel)) + 0.1)
    down = hole(rod, bevel, short_side)
    assume(down < 0.45 * face(rod, bevel))
    assert upright(rod, bevel, short_side, down) == pytest.approx(0, abs=1e-9)


@given(st.floats(20, 45), bevels, ropes, sleeves, st.floats(0, 10))
def test_hole_and_gap_undo_each_other(room, bevel, rope, sleeve, plate):
    short_side, above_rod = top(rope, bevel, sleeve), rise(rope, sleeve)
    try:
        down = hole(120, bevel, short_side, room, rope, sleeve, plate, above_rod)
    except NoSolution:
        assume(False)
    left = gap(room, bevel, short_side, down, rope, sleeve, plate, above_rod)
    assert left == pytest.approx(0, abs=1e-9) or down == hole(120, bevel, short_side)
    assert left > -1e-9


@pytest.mark.parametrize(
    "stop", [(30,), (30, 8), (30, 8, 1), (30, 8, 1, 0), (None, 8, 1, 0, 0), (30, 8, None, 0, 0)]
)
def test_half_a_stop_is_refused(stop):
    with pytest.raises(BadInput, match="belong together"):
        hole(*BLANK, *stop)


def test_no_hole_is_left_under_a_low_spreader():
    with pytest.raises(NoSolution, match=r"no hole is left.* -\d.* under the stop"):
        hole(*BLANK, 10, 10, 1, 0, 0)
    with pytest.raises(NoSolution, match=r" 0 mm under the stop"):
        hole(50, 0, 15, 12, 10, 1, 0, 0)
    assert hole(50, 0, 15, 12.5, 10, 1, 0, 0) == 0.5


@given(ropes, st.floats(4, 30), bevels, st.floats(2, 5), st.floats(4, 15))
def test_a_rod_of_the_needed_size_has_room_for_rope_and_bolt(rope, bolt_hole, bevel, least, above_bolt):
    rod = need_rod(rope, bolt_hole, bevel, least, above_bolt)
    assert rod >= least * rope
    a_little_above_the_middle = 0.45 * face(rod, bevel)
    assert ligament(a_little_above_the_middle, bolt_hole) >= above_bolt - 1e-9
    if rod > least * rope:
        assert ligament(a_little_above_the_middle, bolt_hole) == pytest.approx(above_bolt)


@given(ropes, st.floats(4, 30), st.floats(2, 5), st.floats(4, 15))
def test_without_bevel_the_hole_leaves_the_ligament_that_was_asked_for(rope, bolt_hole, least, above_bolt):
    rod = need_rod(rope, bolt_hole, 0, least, above_bolt)
    assert ligament(hole(rod, 0, 16), bolt_hole) >= above_bolt - 1e-9


@given(ropes, st.floats(4, 30), bevels)
def test_a_thicker_rope_or_bolt_needs_no_thinner_rod(rope, bolt_hole, bevel):
    rod = need_rod(rope, bolt_hole, bevel)
    assert need_rod(rope + 1, bolt_hole, bevel) >= rod
    assert need_rod(rope, bolt_hole + 1, bevel) >= rod
    assert need_rod(rope, bolt_hole, bevel) == need_rod(rope, bolt_hole, bevel, 3, 8)


# Under a spreader


def outline_of(bevel, short_side, rope, sleeve, plate, above_rod):
    """Eye and end plate seen from the side, the top edge of the bevelled face at the origin."""
    radius = rope / 2 + sleeve
    eye = Point(short_side - radius, radius).buffer(radius, quad_segs=1_000)
    corner = LineString([(short_side, -1), (short_side, above_rod), (short_side + plate, above_rod)])
    return affinity.rotate(unary_union([eye, corner]), bevel, origin=(0, 0))


@given(st.floats(20, 120), bevels, ropes, sleeves, st.floats(0, 10), st.floats(0, 40), st.floats(1, 40))
@example(30, 12.3, 10, 1, 0, 0, 15)
def test_gap_is_what_the_outline_leaves_below_the_stop(room, bevel, rope, sleeve, plate, above_rod, down):
    short_side = top(rope, bevel, sleeve)
    highest = outline_of(bevel, short_side, rope, sleeve, plate, above_rod).bounds[3]
    left = gap(room, bevel, short_side, down, rope, sleeve, plate, above_rod)
    assert left == pytest.approx(room - (down + highest), abs=1e-4)


@given(ropes, sleeves, st.floats(0, 20))
def test_the_end_plate_stands_above_the_drawn_eye(rope, sleeve, extra):
    """A rope in its sleeve that lies on the rod, drawn as a disc on a line."""
    lying = Point(0, rope / 2 + sleeve).buffer(rope / 2, quad_segs=200).buffer(sleeve, quad_segs=200)
    assert rise(rope, sleeve, extra) == pytest.approx(lying.bounds[3] + extra, rel=1e-3)


def test_the_end_plate_stands_higher_than_the_eye():
    assert rise(10, 1, 0) == 12
    assert rise(10) == rise(10, 1, 3) == 15
    bare = gap(60, *STUB[1:], 10)
    assert gap(60, *STUB[1:], 10, 1, 6, rise(10)) < bare


@given(st.floats(20, 100), bevels, tops, ropes, st.floats(1, 40))
def test_more_room_and_a_higher_hole_leave_more(room, bevel, short_side, rope, down):
    left = gap(room, bevel, short_side, down, rope)
    assert gap(room + 1, bevel, short_side, down, rope) == pytest.approx(left + 1)
    assert gap(room, bevel, short_side, down + 1, rope) == pytest.approx(left - 1)
    assert gap(room, bevel, short_side, down, rope + 1) < left


# Washer, mast, what stands out


@given(rods, bevels, tops, st.floats(10, 60), st.floats(0.5, 5))
def test_tapered_washer_fills_between_the_square_end_and_a_plane_square_to_the_bolt(
    rod, bevel, short_side, washer, thin
):
    cylinder = Stub(rod, bevel, short_side)
    above, below = (cylinder.at_end(side * washer / 2 * UP, OUT) @ OUT for side in (1, -1))
    nut = below + thin
    assert nut - above == pytest.approx(wedge(washer, bevel, thin))


def test_a_bolt_is_longer_by_the_grip():
    short, long = (bolt_length(110, 3, grip(50, 12.3, short_side, 22), 12, 36) for short_side in (16, 26))
    assert long - short == pytest.approx(2 * 10 / cos(radians(12.3)))


@given(rods, st.floats(40, 200), st.floats(20, 200))
def test_hollow_behind_the_stub_is_that_of_the_ellipse(rod, half_fore, half_out):
    assume(rod / 2 < 0.98 * half_fore)
    mast = affinity.scale(Point(0, 0).buffer(1, quad_segs=5_000), half_fore, half_out)
    edge = mast.intersection(LineString([(rod / 2, 0), (rod / 2, 2 * half_out)]))
    assert saddle(rod, half_fore, half_out) == pytest.approx(half_out - edge.bounds[3], abs=1e-3)


def test_a_rod_as_wide_as_the_mast():
    assert saddle(100, 50, 30) == 30
    with pytest.raises(BadInput, match="wider than the mast of 100 mm"):
        saddle(100.1, 50, 30)


@given(rods, st.floats(61, 400))
def test_a_flatter_mast_has_a_shallower_hollow(rod, half_fore):
    assert saddle(rod, half_fore + 10, 60) < saddle(rod, half_fore, 60)


@given(st.floats(1, 500), st.floats(0.5, 45))
def test_below_the_clear_height_the_stay_is_outside(projection, out_angle):
    down = clear(projection, out_angle)
    stay = LineString([(0, 0), (2 * projection, -2 * projection / tan(radians(out_angle)))])
    assert stay.distance(Point(projection, -down)) == pytest.approx(0, abs=1e-6 * down)
    assert clear(projection + 1, out_angle) > down
    assert clear(projection, out_angle - 0.2) > down


# The rod lost


def throat_below(centre_height, eye, diameter, rope, sleeve):
    """Height of the throat: the reach by root finding on the second closed form of an open belt."""
    radius = diameter / 2 + sleeve + rope / 2

    def surplus(reach):
        half = np.arccos(radius / reach)
        return radius * (pi - half + tan(half)) - eye

    return centre_height - brentq(surplus, radius * (1 + 1e-12), 2 * eye, xtol=1e-10)


@given(stubs(), st.floats(6, 30), ropes, sleeves, st.floats(1.05, 4))
def test_drop_is_the_fall_of_the_throat(stub, bolt, rope, sleeve, fullness):
    rod, bevel, short_side, down = stub
    eye = fullness * pi * (max(rod, bolt) / 2 + sleeve + rope / 2)
    cylinder = Stub(rod, bevel, short_side)
    on_rod = throat_below(cylinder.load_point(short_side / 2) @ UP, eye, rod, rope, sleeve)
    on_bolt = throat_below(cylinder.bolt(down) @ UP, eye, bolt, rope, sleeve)
    assert drop(*stub, eye, bolt, rope, sleeve) == pytest.approx(on_rod - on_bolt, abs=1e-6)


@given(stubs(), st.floats(6, 14))
def test_a_thicker_bolt_catches_the_eye_higher(stub, bolt):
    eye = eye_length(max(stub[0], bolt + 1), 9)
    assert drop(*stub, eye, bolt + 1, 9) < drop(*stub, eye, bolt, 9)


def test_inches_give_what_millimetres_give():
    inches = ("1 1/2 in", "12.3 deg", "5/8 in")
    millimetres = (38.1, 12.3, 15.875)
    assert base(*inches) == pytest.approx(base(*millimetres))
    assert grip(*inches, "1/2 in") == pytest.approx(grip(*millimetres, 12.7))
    assert hole(*inches, "2 in", "3/8 in", "1 mm", "1/4 in", "0.5 in") == pytest.approx(
        hole(*millimetres, 50.8, 9.525, 1, 6.35, 12.7)
    )


def test_the_side_view_is_a_trapezium():
    rod, lean, short_side = BLANK
    corners = [(0, 0), (base(rod, lean, short_side), 0), (short_side, rod), (0, rod)]
    axis_length = Polygon(corners).area / rod
    assert mass(rod, lean, short_side, 1_000) == pytest.approx(pi * (rod / 2) ** 2 * axis_length * 1e-6)
