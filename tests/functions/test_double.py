"""Two eyes on one stub: pulls, turns and levers as vectors in space, ropes as circles, the eye as a curve."""

from math import atan, cos, degrees, exp, pi, radians, sin, tan

import numpy as np
import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st
from loftsheet.bolt import mast_bearing, rod_bearing, tang_moment
from loftsheet.double import (
    cover,
    double_apart,
    double_bevel,
    double_fit,
    double_moment,
    double_pull,
    double_shear,
    double_top,
    double_turn,
    double_twist,
    eye_uneven,
    lean,
    overhang,
    swing,
)
from loftsheet.errors import BadInput
from loftsheet.eye import eye_capacity
from loftsheet.tang import arm, rise, top, upright
from scipy.optimize import brentq
from shapely import LineString, Point

from tests.functions.test_tang import FORE, OUT, UP, Stub, stubs

tensions = st.floats(0.5, 60)
outs = st.floats(0, 30)
fores = st.floats(-30, 30)
turns = st.floats(-30, 30)
bevels = st.floats(2, 35)
ropes = st.floats(4, 20)
sleeves = st.floats(0, 3)
stays = st.tuples(tensions, outs, fores)
LOWERS = (12, 16, 12.5, -17)  # inner out and fore, outer out and fore


def direction(out_angle, fore_angle):
    """From the upper end of a stay to its lower one: both angles are measured against the drop."""
    drop = -UP + tan(radians(out_angle)) * OUT + tan(radians(fore_angle)) * FORE
    return drop / np.linalg.norm(drop)


def turned(vector, turn):
    """Turned round the bolt, which lies outwards, so that what hung down points forward."""
    along = (vector @ OUT) * OUT
    return along + cos(radians(turn)) * (vector - along) + sin(radians(turn)) * np.cross(vector, OUT)


def test_a_turn_takes_the_foot_forward():
    assert turned(-UP, 90) == pytest.approx(FORE)
    assert turned(OUT, 40) == pytest.approx(OUT)


class Loaded:
    """A stub turned round its bolt, with eyes at their seats: (tension, out, fore), seat."""

    def __init__(self, stub, turn, *eyes):
        rod, bevel, short_side, hole = stub
        cylinder = Stub(rod, bevel, short_side)
        self.axis = turned(cylinder.axis, turn)
        self.pulls = [tension * direction(out, fore) for (tension, out, fore), _ in eyes]
        self.places = [turned(cylinder.load_point(seat) - cylinder.bolt(hole), turn) for _, seat in eyes]

    def moment(self, held=0.0):
        """About the bolt's middle, so far inside the bevelled face."""
        return sum(np.cross(place + held * OUT, one) for place, one in zip(self.places, self.pulls))


def figures(stub, seat, pad=0.0):
    rod, bevel, short_side, hole = stub
    return overhang(rod, bevel, short_side, pad, seat), upright(rod, bevel, short_side, hole, seat)


# Directions


@given(outs, fores, bevels, turns)
def test_lean_and_swing_are_the_parts_of_the_direction(out_angle, fore_angle, bevel, turn):
    stay, axis = direction(out_angle, fore_angle), turned(Stub(40, bevel, 14).axis, turn)
    assert sin(radians(lean(out_angle, fore_angle, bevel, turn))) == pytest.approx(-stay @ axis, abs=1e-12)
    square = stay - (stay @ axis) * axis
    foot = turned(-UP, turn) - (turned(-UP, turn) @ axis) * axis
    between = np.arctan2(np.cross(foot, square) @ axis, foot @ square)
    assert swing(out_angle, fore_angle, bevel, turn) == pytest.approx(-degrees(between), abs=1e-9)


@given(outs, bevels)
def test_a_stay_that_leads_neither_way_leans_by_bevel_less_angle(out_angle, bevel):
    assert lean(out_angle, 0, bevel) == pytest.approx(bevel - out_angle, abs=1e-9)
    assert swing(out_angle, 0, bevel) == 0


@given(outs, fores, bevels)
def test_a_stub_turned_as_its_stay_leads_has_the_eye_on_top(out_angle, fore_angle, bevel):
    assert swing(out_angle, fore_angle, bevel, fore_angle) == pytest.approx(0, abs=1e-9)
    in_plane = degrees(atan(tan(radians(out_angle)) * cos(radians(fore_angle))))
    assert lean(out_angle, fore_angle, bevel, fore_angle) == pytest.approx(bevel - in_plane, abs=1e-9)
    assert swing(out_angle, fore_angle, bevel, fore_angle - 1) > 0


@given(outs, fores, outs, fores)
def test_on_the_bevel_for_two_neither_is_led_off_the_end_at_any_turn_between(inner, ahead, outer, astern):
    try:
        bevel = double_bevel(inner, ahead, outer, astern, 0)
    except BadInput as refused:
        assert "stub of its own" in str(refused)
        assume(False)
    between = np.linspace(ahead, astern, 41)
    led = [min(lean(inner, ahead, bevel, turn), lean(outer, astern, bevel, turn)) for turn in between]
    assert min(led) == pytest.approx(0, abs=1e-6), "the least bevel is used up at the worst turn"
    if bevel < 33:
        assert double_bevel(inner, ahead, outer, astern) == pytest.approx(bevel + 2)


@given(outs, fores)
def test_two_stays_that_lead_alike_need_no_more_bevel_than_one(out_angle, fore_angle):
    bevel = double_bevel(out_angle, fore_angle, out_angle, fore_angle)
    assert lean(out_angle, fore_angle, bevel, fore_angle) == pytest.approx(2, abs=1e-9)
    assert bevel <= out_angle + 2 + 1e-9


@pytest.mark.parametrize("apart, words", [(64, r"lead 64° apart.*a bevel of 35\.67° is due"), (90, "90° apart")])
def test_stays_that_lead_too_far_apart_are_refused_with_the_angle(apart, words):
    with pytest.raises(BadInput, match=words):
        double_bevel(19, apart / 2, 19, -apart / 2)


# Does an eye climb


@pytest.mark.parametrize("tilt", [1, 5, 12, 25])
def test_a_rope_in_a_plane_cut_of_the_rod_needs_friction_of_the_tangent_of_its_tilt(tilt):
    """Its curve, differentiated: what of its bend lies in the rod's surface has to be held by friction."""
    slope, turn = tan(radians(tilt)), np.linspace(0, pi, 20_001)
    curve = np.stack([np.cos(turn), np.sin(turn), slope * np.sin(turn)])
    step = turn[1] - turn[0]
    along = np.gradient(curve, step, axis=1)
    tangent = along / np.linalg.norm(along, axis=0)
    bend = np.gradient(tangent, step, axis=1)[:, 5:-5]
    outward = np.stack([np.cos(turn), np.sin(turn), 0 * turn])[:, 5:-5]
    pressed = -np.sum(bend * outward, axis=0)
    sideways = np.linalg.norm(bend + pressed * outward, axis=0)
    assert np.max(sideways / pressed) == pytest.approx(slope, rel=1e-4)


def test_usual_pairs_can_share_a_stub():
    # common practice, no source: a fore and an aft lower on one bolt; a cap shroud and a runner.
    assert double_bevel(*LOWERS) == pytest.approx(16.1, abs=0.1)
    assert double_fit(*LOWERS, double_bevel(*LOWERS)) == "fits"
    cap_and_runner = (8, 0, 9, -20)
    assert double_fit(*cap_and_runner, double_bevel(*cap_and_runner)) == "fits"


@given(outs, fores, outs, fores, bevels, st.floats(0.02, 0.5))
def test_the_words_of_the_fit_are_those_of_the_directions(inner, ahead, outer, astern, bevel, friction):
    between = np.linspace(ahead, astern, 41)
    of_inner = [lean(inner, ahead, bevel, turn) for turn in between]
    of_outer = [lean(outer, astern, bevel, turn) for turn in between]
    held = degrees(atan(friction))
    assume(all(abs(edge) > 1e-3 for one in (of_inner, of_outer) for edge in (min(one), max(one) - held)))
    words = double_fit(inner, ahead, outer, astern, bevel, friction)
    off_the_end = [part for part in words.split("; ") if "off the end" in part]
    assert any("inner eye" in part for part in off_the_end) == (min(of_inner) < 0)
    assert any("outer eye" in part for part in off_the_end) == (min(of_outer) < 0)
    assert ("climbs up to the mast" in words) == (max(of_inner) > held)
    assert ("climbs on to the inner eye" in words) == (max(of_outer) > held)


def test_the_words_name_eye_angle_and_what_to_do():
    assert "the outer eye is led 1.0° off the end" in double_fit(10, 0, 13, 0, 12)
    assert "must be 13.0° or more" in double_fit(10, 0, 13, 0, 12)
    climbing = double_fit(5, 0, 13, 0, 15)
    assert (
        climbing
        == "the inner eye is led 10.0° towards the mast and friction holds 8.5°, so it climbs up to the mast"
    )
    assert "6.0° further out" in double_fit(14, 0, 8, 0, 16, 0.3)
    assert double_fit(14, 0, 8, 0, 16, 0.3).endswith("change places")
    assert double_fit(8, 0, 14, 0, 16, 0.3) == "fits"


def test_stays_that_part_fore_and_aft_may_lead_out_a_little_unlike():
    # After 20 mm the legs of 11 mm sleeved rope have parted; the inner one has come 1 mm nearer by then.
    assert double_fit(14, 16, 13, -16, 17) == "fits"
    assert "change places" in double_fit(14, 1, 13, -1, 17)


# Loads on the bolt


@given(stubs(), stays, stays, turns, st.floats(0, 12), st.floats(0.05, 0.6), st.floats(0.6, 1))
def test_moment_and_twist_are_those_of_the_vectors(stub, inner, outer, turn, pad, near, far):
    seats = near * stub[2], far * stub[2]
    loaded = Loaded(stub, turn, (inner, seats[0]), (outer, seats[1]))
    moment = loaded.moment(pad)
    inner_figures, outer_figures = figures(stub, seats[0], pad), figures(stub, seats[1], pad)
    bending = np.linalg.norm(moment - (moment @ OUT) * OUT)
    assert double_moment(*inner, *inner_figures, *outer, *outer_figures, turn) == pytest.approx(bending, abs=1e-7)
    twist = double_twist(*inner, inner_figures[1], *outer, outer_figures[1], turn)
    assert twist == pytest.approx(-moment @ OUT, abs=1e-7)


@given(stays, stays)
def test_shear_and_pull_are_the_parts_of_the_sum(inner, outer):
    total = inner[0] * direction(*inner[1:]) + outer[0] * direction(*outer[1:])
    assert double_pull(*inner, *outer) == pytest.approx(total @ OUT, abs=1e-9)
    assert double_shear(*inner, *outer) == pytest.approx(np.linalg.norm(total - (total @ OUT) * OUT))


def test_two_legs_of_a_bridle():
    # Michigan State University, hitch-use guidance: 2,000 lb on legs 30° from upright pull 1,154.7 lb each.
    leg = "1154.7 lbf"
    assert double_shear(leg, 0, 30, leg, 0, -30) / 4.4482216152605e-3 == pytest.approx(2_000, abs=0.1)
    assert double_pull(leg, 0, 30, leg, 0, -30) == 0


@given(stubs(), stays, stays, st.floats(0.05, 0.6), st.floats(0.6, 1))
def test_at_rest_nothing_turns_the_stub_and_it_would_turn_back(stub, inner, outer, near, far):
    seats = near * stub[2], far * stub[2]
    below = [figures(stub, seat)[1] for seat in seats]
    assume(min(below) > 0.1)
    rest = double_turn(*inner, *outer, *below)

    def twist(turn):
        return Loaded(stub, turn, (inner, seats[0]), (outer, seats[1])).moment() @ OUT

    scale = abs(twist(rest + 30)) + abs(twist(rest - 30))
    assert twist(rest) == pytest.approx(0, abs=1e-9 * scale)
    assert double_twist(*inner, below[0], *outer, below[1], min(rest + 1, 60)) < 0
    assert double_twist(*inner, below[0], *outer, below[1], max(rest - 1, -60)) > 0
    assert min(inner[2], outer[2]) - 1e-9 <= rest <= max(inner[2], outer[2]) + 1e-9
    assert brentq(twist, rest - 20, rest + 20.1) == pytest.approx(rest, abs=1e-6)


usual = st.tuples(st.floats(1, 20), st.floats(-20, 20), st.floats(1, 10))  # out, fore, load


@given(usual, usual, st.sampled_from((6, 8, 10, 12)), st.floats(5, 9))
def test_held_turned_by_friction_the_bolt_is_bent_hardly_more(first, second, rope, rods):
    """A usual stub that fits, drilled as low as it stays upright: at either lead against at rest."""
    (inner_out, inner_fore, inner_load), (outer_out, outer_fore, outer_load) = first, second
    pair = (inner_out, inner_fore, outer_out, outer_fore)
    try:
        bevel = double_bevel(*pair)
    except BadInput:
        assume(False)
    assume(double_fit(*pair, bevel) == "fits")
    rod, tilt = rods * rope, radians(bevel)
    seats = (double_top(rope, rope, bevel) - (rope / 2 + 1) - apart for apart in (rope + 2, 0))
    places = [
        (3.5 + seat * cos(tilt) + rod / 2 * sin(tilt), rod / 2 * cos(tilt) - seat * sin(tilt)) for seat in seats
    ]
    hole = min(places[1][1] - 1, 0.45 * rod / cos(tilt))
    assume(hole > 0.2 * rod)
    inner, outer = ((out, middle - hole) for out, middle in places)
    of_inner, of_outer = (inner_load, inner_out, inner_fore), (outer_load, outer_out, outer_fore)
    rest = double_turn(*of_inner, *of_outer, inner[1], outer[1])
    bent = lambda turn: double_moment(*of_inner, *inner, *of_outer, *outer, turn)  # noqa: E731
    assert max(bent(inner_fore), bent(outer_fore)) <= 1.01 * bent(rest)


def test_without_levers_the_stub_turns_to_the_sum_of_both():
    assert double_turn(5, 12, 16, 5, 12, -16) == pytest.approx(0, abs=1e-12)
    assert double_turn(1e-6, 12, 16, 5, 12, -16) == pytest.approx(-16, abs=1e-3)


def test_pulls_that_lie_above_the_bolt_together_are_refused():
    with pytest.raises(BadInput, match="flips over"):
        double_turn(5, 12, 16, 5, 12, -16, 2, -3)
    assert double_turn(5, 12, 16, 5, 12, -16, 3, -2) > 0
    with pytest.raises(BadInput, match="belong together"):
        double_turn(5, 12, 16, 5, 12, -16, 3)


@given(stubs(), tensions, outs, st.floats(0, 12))
def test_one_eye_alone_gives_what_the_functions_of_one_eye_give(stub, tension, out_angle, pad):
    seat = stub[2] / 2
    place = figures(stub, seat, pad)
    lever = arm(*stub, out_angle, pad, seat)
    assume(lever > 0.1)
    moment = double_moment(tension / 2, out_angle, 0, *place, tension / 2, out_angle, 0, *place)
    assert moment == pytest.approx(tang_moment(tension, lever))


def test_pressure_on_rod_and_wall_of_one_eye_by_the_way_of_two():
    """The sum as one pull square to the bolt, on the lever moment/shear, is what the sheet hands on."""
    stub, pad = (50, 14, 16, 18), 5
    place, lever = figures(stub, 8, pad), arm(*stub, 12, pad, 8)
    half = (4, 12, 0, *place)
    moment, shear = double_moment(*half, *half), double_shear(4, 12, 0, 4, 12, 0)
    assert rod_bearing(shear, 0, 14, 20.6, moment / shear, pad) == pytest.approx(
        rod_bearing(8, 12, 14, 20.6, lever, pad)
    )
    assert mast_bearing(shear, 0, moment / shear, 120) == pytest.approx(mast_bearing(8, 12, lever, 120))


@given(stays, stays, stubs())
def test_both_eyes_farther_out_bend_the_bolt_more_when_the_stub_is_at_rest(inner, outer, stub):
    assume(abs(inner[2] - outer[2]) < 20 and stub[1] > max(inner[1], outer[1]))
    turn = double_turn(*inner, *outer)
    near, far = (
        double_moment(
            *inner, *figures(stub, share * stub[2]), *outer, *figures(stub, (share + 0.4) * stub[2]), turn
        )
        for share in (0.3, 0.4)
    )
    assume(figures(stub, 0.3 * stub[2])[1] > 0)
    assert far > near


@given(stubs(), st.floats(0, 12))
def test_overhang_is_where_the_pull_is_along_the_bolt(stub, pad):
    rod, bevel, short_side, _ = stub
    cylinder = Stub(rod, bevel, short_side)
    place = cylinder.load_point(short_side / 2) + pad * OUT
    assert overhang(rod, bevel, short_side, pad) == pytest.approx(place @ OUT)


def test_a_seat_beyond_the_top_is_refused():
    for refused in (lambda: overhang(40, 14, 16, 0, 16.1), lambda: upright(40, 14, 16, 12, 16.1)):
        with pytest.raises(BadInput, match=r"seat 16.1 mm lies beyond the top of 16 mm"):
            refused()


@given(stubs(), st.floats(0.05, 1))
def test_upright_of_an_eye_at_its_seat(stub, part):
    rod, bevel, short_side, hole = stub
    cylinder = Stub(rod, bevel, short_side)
    below = (cylinder.bolt(hole) - cylinder.load_point(part * short_side)) @ UP
    assert upright(*stub, part * short_side) == pytest.approx(below, abs=1e-9)


# Side by side


@example(4.0, 20.0, 16.0, 0.0, 3.0, 2.0)  # the outer eye is so thick that the mast holds it off
@example(20.0, 4.0, 16.0, 3.0, 0.0, 2.0)  # the inner eye reaches further than the outer
@given(ropes, ropes, bevels, sleeves, sleeves, st.floats(0, 6))
def test_top_by_laying_two_circles_into_the_corner(
    inner_rope, outer_rope, bevel, inner_sleeve, outer_sleeve, play
):
    inner, outer = inner_rope / 2 + inner_sleeve, outer_rope / 2 + outer_sleeve
    stub = Stub(1, bevel, 1)

    def centre(along, radius):
        return along * stub.axis + radius * stub.across

    first = brentq(lambda along: centre(along, inner) @ OUT - inner, 0, 100 * inner, xtol=1e-12)
    at_mast = brentq(lambda along: centre(along, outer) @ OUT - outer, 0, 100 * outer, xtol=1e-12)
    beside = brentq(
        lambda along: np.linalg.norm(centre(along, outer) - centre(first, inner)) - inner - outer,
        first,
        first + 3 * (inner + outer),
        xtol=1e-12,
    )
    second = max(beside, at_mast)
    outermost = max(first + inner, second + outer)
    found = double_top(inner_rope, outer_rope, bevel, inner_sleeve, outer_sleeve, play)
    assert found == pytest.approx(outermost + play)
    assert double_apart(inner_rope, outer_rope, inner_sleeve, outer_sleeve) == pytest.approx(beside - first)


@given(ropes, bevels, sleeves, st.floats(0, 6))
def test_two_equal_ropes_need_what_one_function_says_of_two_eyes(rope, bevel, sleeve, play):
    assert double_top(rope, rope, bevel, sleeve, sleeve, play) == pytest.approx(top(rope, bevel, sleeve, play, 2))
    assert double_apart(rope, rope, sleeve, sleeve) == pytest.approx(rope + 2 * sleeve)


@given(st.floats(20, 80), st.floats(3, 40), st.floats(-59, 59))
def test_cover_is_what_a_ray_from_the_middle_of_the_rod_meets_of_the_plate(rod, above, round_rod):
    circle = Point(0, 0).buffer(rod / 2, quad_segs=4_000)
    plate = circle.union(Point(0, above).buffer(rod / 2, quad_segs=4_000)).convex_hull
    ray = LineString([(0, 0), (1_000 * sin(radians(round_rod)), 1_000 * cos(radians(round_rod)))])
    met = plate.exterior.intersection(ray)
    assert cover(rod, above, round_rod) == pytest.approx(Point(0, 0).distance(met) - rod / 2, abs=1e-3)


def test_a_plate_covers_an_eye_that_is_led_as_far_round_as_lowers_lead_apart():
    assert cover(50, rise(9), 0) == rise(9) == 14
    assert cover(50, rise(9), 25) > 9 + 2
    assert cover(50, rise(9), 45) < 9 + 2


# Uneven legs


@given(st.floats(0.1, 50), st.floats(5, 90), st.floats(0, 0.6))
def test_uneven_legs_hold_the_throat_in_balance(round_rod, throat_angle, friction):
    half = radians(throat_angle / 2)
    legs = np.array([[sin(half), -sin(half)], [cos(half), cos(half)]])
    pulled = np.array([sin(radians(round_rod)), cos(radians(round_rod))])
    harder, softer = np.linalg.solve(legs, pulled)
    # Capstan equation: no more than this before the rope slips round the rod.
    most = exp(friction * (pi + 2 * half))
    held = softer > 0 and harder / softer < most
    times = harder / softer if held else most
    share_of_harder = times / (1 + times)
    uneven = eye_uneven(round_rod, throat_angle, friction)
    assert uneven == pytest.approx(0.5 / share_of_harder)
    # The harder leg breaks when the eye is at its capacity.
    capacity = eye_capacity(80, 1, throat_angle, uneven)
    assert capacity / (2 * cos(half)) * 2 * share_of_harder == pytest.approx(80)


def test_an_eye_that_is_led_straight_pulls_evenly():
    assert eye_uneven(0, 30) == 1
    assert eye_uneven(40, 30, 0) == 1
    assert eye_uneven(-3, 30) == eye_uneven(3, 30) < 1


# Edges


def test_the_steepest_bevel_and_the_widest_lead():
    assert double_bevel(33, 0, 10, 0) == pytest.approx(35)
    with pytest.raises(BadInput, match="stub of its own"):
        double_bevel(33.1, 0, 10, 0)
    assert double_bevel(0, 42.4, 0, -42.4) == 2
    with pytest.raises(BadInput, match="allowed on one stub is less than 85°"):
        double_bevel(0, 42.5, 0, -42.5)


def test_what_just_holds_fits():
    assert double_fit(10, 0, 13, 0, 13, 0.1) == "fits"
    held = degrees(atan(0.1))
    assert double_fit(10, 0, 10, 0, 10 + held, 0.1) == "fits"
    assert "climbs" in double_fit(10, 0, 10, 0, 10.01 + held, 0.1)
    assert "off the end" in double_fit(10, 0, 13, 0, 12.99, 0.1)


def test_the_inner_stay_may_lead_further_by_a_quarter_of_what_the_two_part():
    fore = degrees(atan(0.2))
    at_most = degrees(atan(tan(radians(10)) + 0.1))
    assert double_fit(at_most - 0.001, fore, 10, -fore, 20, 0.3) == "fits"
    assert "change places" in double_fit(at_most + 0.001, fore, 10, -fore, 20, 0.3)


def test_pulls_that_just_balance_above_and_below_are_refused():
    with pytest.raises(BadInput, match="flips over"):
        double_turn(5, 12, 16, 5, 12, -16, 2, -2)


def test_a_seat_at_the_end_is_the_last():
    assert overhang(40, 14, 16, 0, 16) > overhang(40, 14, 16, 0, 8) == overhang(40, 14, 16)
    assert upright(40, 14, 16, 12, 16) < upright(40, 14, 16, 12) == upright(40, 14, 16, 12, 8)
