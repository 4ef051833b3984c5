"""Smallest bolt and rod together: every pair of the tables tried by the functions of the single parts."""

import re
from itertools import product
from math import floor, hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from loftsheet import smallest
from loftsheet.bolt import (
    bolt_area,
    bolt_capacity,
    bolt_shear,
    bolt_tension,
    pin_bending,
    rod_bearing,
    tang_moment,
)
from loftsheet.degrees import cos, sin
from loftsheet.double import (
    double_apart,
    double_moment,
    double_pull,
    double_shear,
    double_top,
    double_turn,
    overhang,
)
from loftsheet.errors import BadInput, NoSolution
from loftsheet.fastening import bolt_margin
from loftsheet.stub_need import need_stub
from loftsheet.tang import arm, face, grip, ligament, ligament_end, top, upright

# Diameter, pitch, strength, proof stress.
BOLTS = [
    (16, 2, 700, 450),
    (12, 1.75, 800, 600),
    (12, 1.75, 700, 450),
    (14, 2, 700, 450),
    (20, 2.5, 800, 600),
    (16, 2, 800, 600),
]
RODS = [60, 40, 50, 45, 70]


def column(values):
    return tuple((value,) for value in values)


def tables(bolts, rods):
    return (*map(column, zip(*bolts)), column(rods))


def drilled(rod, bevel, short_side, seat, most=None):
    """As a schedule does: the lowest hole with the eye at the end plate, half a millimetre to spare, in tenths."""
    at_the_very_edge = upright(rod, bevel, short_side, 1e-9, seat) - 0.5
    lowest = min(at_the_very_edge, 0.45 * face(rod, bevel), *([] if most is None else [most - 0.5]))
    return floor(lowest * 10 + 1e-6) / 10


def capacities(bolt):
    size, pitch, strength, proof = bolt
    area = bolt_area(size, pitch)
    return pin_bending(size, proof, 1.25), bolt_shear(area, strength), bolt_tension(area, strength)


def leaves_enough(bolt, rod, rope, bevel, short_side, down):
    ligament_end(rod, bevel, short_side, down + 0.5, bolt[0] + 0.5)
    above = ligament(down, bolt[0] + 0.5)
    return rod >= 3 * rope and above >= max(8, 0.75 * (bolt[0] + 0.5)) + 0.5


def serves_one(bolt, rod, rope, out_angle, bevel, short_side, load, required, root, most=None):
    seat = short_side - rope / 2 - 1
    try:
        down = drilled(rod, bevel, short_side, seat, most)
        enough = leaves_enough(bolt, rod, rope, bevel, short_side, down)
        lever = arm(rod, bevel, short_side, down, out_angle, root, seat)
        rod_bearing(load, out_angle, bolt[0], grip(rod, bevel, short_side, down), lever, root)
    except (BadInput, NoSolution):
        return False
    straight = tang_moment(load, lever) <= pin_bending(bolt[0], bolt[3], 1, 0.8)
    return enough and straight and bolt_capacity(lever, out_angle, *capacities(bolt)) >= load * required


def serves_two(bolt, rod, inner_rope, outer_rope, inner, outer, bevel, short_side, required, root):
    seats = [short_side - outer_rope / 2 - 1]
    seats.insert(0, seats[0] - double_apart(inner_rope, outer_rope))
    try:
        down = drilled(rod, bevel, short_side, seats[1])
        enough = leaves_enough(bolt, rod, max(inner_rope, outer_rope), bevel, short_side, down)
        places = [
            (overhang(rod, bevel, short_side, root, seat), upright(rod, bevel, short_side, down, seat))
            for seat in seats
        ]
        moment = double_moment(*inner, *places[0], *outer, *places[1], double_turn(*inner, *outer))
        shear = double_shear(*inner, *outer)
        middle = root + grip(rod, bevel, short_side, down) / 2
        about = [(out - middle, above) for out, above in places]
        off_middle = double_moment(*inner, *about[0], *outer, *about[1], double_turn(*inner, *outer)) / shear
        rod_bearing(shear, 0, bolt[0], 2 * (middle - root), middle + off_middle, root)
    except (BadInput, NoSolution):
        return False
    straight = moment <= pin_bending(bolt[0], bolt[3], 1, 0.8)
    margin = bolt_margin(moment, shear, double_pull(*inner, *outer), *capacities(bolt))
    return enough and straight and margin >= required


def first(bolts, rods, serves):
    """The rows of the first pair: bolts by diameter, then proof stress, rods by diameter."""
    by_size = sorted(range(len(bolts)), key=lambda at: (bolts[at][0], bolts[at][3]))
    by_thickness = sorted(range(len(rods)), key=lambda at: rods[at])
    for at, beside in product(by_size, by_thickness):
        if serves(bolts[at], rods[beside]):
            return at + 1, beside + 1
    return None


ropes = st.sampled_from([6, 8, 10, 12])
loads = st.floats(0.5, 30)
some_bolts = st.lists(st.sampled_from(BOLTS), min_size=1, max_size=6, unique=True)
some_rods = st.lists(st.sampled_from(RODS), min_size=1, max_size=5, unique=True)


@settings(max_examples=80)
@given(some_bolts, some_rods, ropes, st.floats(2, 22), loads, st.floats(1, 3), st.floats(0, 8))
def test_one_eye_against_every_pair(bolts, rods, rope, out_angle, load, required, root):
    bevel = out_angle + 2
    stub = (rope, out_angle, bevel, top(rope, bevel), load, required)
    due = first(bolts, rods, lambda bolt, rod: serves_one(bolt, rod, *stub, root))
    if due is None:
        with pytest.raises(NoSolution):
            need_stub(*tables(bolts, rods), *stub, 1, root)
    else:
        assert need_stub(*tables(bolts, rods), *stub, 1, root) == (due,)


@settings(max_examples=80)
@given(some_bolts, some_rods, ropes, ropes, loads, loads, st.floats(5, 15), st.floats(0, 20), st.floats(-20, 0))
def test_two_eyes_against_every_pair(bolts, rods, inner_rope, outer_rope, load, second, out_angle, ahead, astern):
    bevel, inner, outer = 18, (load, out_angle, ahead), (second, out_angle + 1, astern)
    short_side = double_top(inner_rope, outer_rope, bevel)
    due = first(
        bolts,
        rods,
        lambda bolt, rod: serves_two(bolt, rod, inner_rope, outer_rope, inner, outer, bevel, short_side, 1.5, 5),
    )
    given_values = (*tables(bolts, rods), inner_rope, out_angle, bevel, short_side, load, 1.5, 1, 5)
    defaults = (0.5, 8, 0.75, 3, 0.5, 0.1, None, 1.25, 1.5, 0.8, 0.6)
    second_eye = (outer_rope, second, out_angle + 1, ahead, astern, 1)
    if due is None:
        with pytest.raises(NoSolution):
            need_stub(*given_values, *defaults, *second_eye)
    else:
        assert need_stub(*given_values, *defaults, *second_eye) == (due,)


@settings(max_examples=40)
@given(st.floats(15, 35), loads)
def test_a_stop_above_keeps_the_hole_high(most, load):
    stub = (10, 11, 13, 16, load, 1.5)
    due = first(BOLTS, RODS, lambda bolt, rod: serves_one(bolt, rod, *stub, 3, most))
    rest = (1, 3, 0.5, 8, 0.75, 3, 0.5, 0.1, most)
    if due is None:
        with pytest.raises(NoSolution):
            need_stub(*tables(BOLTS, RODS), *stub, *rest)
    else:
        assert need_stub(*tables(BOLTS, RODS), *stub, *rest) == (due,)


def test_each_hinders_the_other():
    """The bolt that the load asks for on a thin rod has no room in it; on the rod it needs the lever is longer."""
    stub = (10, 11, 13, 16, 7.5, 1.5)
    bolt, rod = (row - 1 for row in map(int, need_stub(*tables(BOLTS, RODS), *stub)[0]))
    assert RODS[rod] > min(RODS)
    assert not serves_one(BOLTS[bolt], min(RODS), *stub, 0)
    assert arm(60, 13, 16, 20, 12) > arm(40, 13, 16, 14, 12)


def test_none_says_which_rod_would_do():
    stub = (10, 11, 13, 16, 7.5, 1.5)
    with pytest.raises(NoSolution) as none:
        need_stub(*tables(BOLTS, [28]), *stub)
    size, row, rod = map(
        float, re.findall(r"bolt of (\S+) mm in row (\d+) would on a rod of (\d+) mm", str(none.value))[0]
    )
    assert BOLTS[int(row) - 1][0] == size
    assert need_stub(*tables(BOLTS, [28, rod]), *stub) == ((row, 2),)
    assert need_stub(*tables(BOLTS, [28, rod]), *stub, told=1) == ((row, 2),)
    told = f"at least the bolt of {size:g} mm on a rod of {rod:g} mm"
    assert need_stub(*tables(BOLTS, [28]), *stub, told=1) == ((0, told),)
    with pytest.raises(NoSolution):
        need_stub(*tables(BOLTS, [28, rod - 1]), *stub)


def test_none_says_which_bolt_would_do():
    stub = (10, 11, 13, 16, 40, 1.5)
    with pytest.raises(NoSolution, match=r"at least M\d+ of 600 MPa proof stress, on a rod of \d+ mm") as none:
        need_stub(*tables(BOLTS, RODS), *stub)
    size, proof, rod = map(float, re.findall(r"M(\d+) of (\d+) MPa.* of (\d+) mm", str(none.value))[0])
    told = f"at least M{size:g} of {proof:g} MPa proof stress on a rod of {rod:g} mm"
    assert need_stub(*tables(BOLTS, RODS), *stub, told=1) == ((0, told),)
    assert need_stub(*tables([*BOLTS, (size, size / 8, 800, proof)], [*RODS, rod]), *stub) == ((7, 6),)


def test_beyond_all_bolts_the_words_say_what_else_helps():
    with pytest.raises(NoSolution, match=r"up to M48 .* on any rod; less load"):
        need_stub(*tables(BOLTS, RODS), 10, 11, 13, 16, 2_000, 1.5)
    told = need_stub(*tables(BOLTS, RODS), 10, 11, 13, 16, 2_000, 1.5, told=1)
    assert told == ((0, "not even M48: less load, a shorter stub or another fitting"),)
    with pytest.raises(NoSolution, match="more room above"):
        need_stub(*tables(BOLTS, RODS), 10, 11, 13, 16, 8, 1.5, 1, 0, 0.5, 8, 0.75, 3, 0.5, 0.1, 8)


def test_empty_rows_are_skipped_and_half_rows_refused():
    stub = (10, 11, 13, 16, 2, 1.5)
    whole = need_stub(*tables(BOLTS, RODS), *stub)
    assert need_stub(*tables([("",) * 4, *BOLTS], ["", *RODS]), *stub) == ((whole[0][0] + 1, whole[0][1] + 1),)
    with pytest.raises(BadInput, match="row 2 of the bolts is half empty"):
        need_stub(*tables([BOLTS[0], (12, "", 700, 450)], RODS), *stub)
    with pytest.raises(BadInput, match="cells; give four of the same height"):
        need_stub(*tables(BOLTS, RODS)[:3], column([450]), column(RODS), *stub)
    with pytest.raises(BadInput, match="empty; fill it"):
        need_stub(*tables(BOLTS, [""]), *stub)
    with pytest.raises(BadInput, match="row 1 of the bolts: pitch 5 mm"):
        need_stub(*tables([(12, 5, 700, 450)], RODS), *stub)


def test_half_a_second_eye_is_refused():
    eye = (10, 11, 17, 28, 2, 1.5, 1, 5, 0.5, 8, 0.75, 3, 0.5, 0.1, None, 1.25, 1.5, 0.8, 0.6)
    with pytest.raises(BadInput, match="belong together; missing: inner_fore, outer_fore"):
        need_stub(*tables(BOLTS, RODS), *eye, 8, 2, 13)


@pytest.mark.parametrize("thinnest", [0, 11.9, 12, 12.1, 16, 19.9])
def test_bolts_that_are_too_thin_for_the_wall_are_passed_over(thinnest):
    """As if they were not in the table: their rows are left blank there."""
    eye = (10, 11, 13, 16, 2, 1.5)
    found = need_stub(*tables(BOLTS, RODS), *eye, thinnest=thinnest)
    thick = [bolt for bolt in BOLTS if bolt[0] >= thinnest]
    ((at, rod),) = need_stub(*tables(thick, RODS), *eye)
    assert found == ((1 + BOLTS.index(thick[int(at) - 1]), rod),)


def test_where_no_bolt_is_thick_enough_it_says_which_would_be():
    with pytest.raises(NoSolution, match=r"it needs at least M30 of \d+ MPa"):
        need_stub(*tables(BOLTS, RODS), 10, 11, 13, 16, 2, 1.5, thinnest=29)


def test_a_rod_and_a_margin_that_just_do():
    stub = (20, 12, 14, 30, 1, 1.5)
    assert need_stub(*tables([(12, 1.75, 700, 450)], [60]), *stub) == ((1, 1),)
    with pytest.raises(NoSolution, match=r"on a rod of 60 mm, the thickest has 59\.9 mm"):
        need_stub(*tables([(12, 1.75, 700, 450)], [59.9]), *stub)


@pytest.mark.parametrize(
    ("condition", "value"),
    [
        ("sleeve", 3),
        ("root", 25),
        ("hole_play", 8),
        ("ligament", 20),
        ("ligament_share", 2.5),
        ("least", 6),
        ("drill_off", 6),
        ("hole_most", 14),
        ("gamma", 2.5),
        ("bending", 0.5),
        ("straight", 0.3),
    ],
)
def test_each_condition_decides(condition, value):
    """Asked for more of it than is usual, another pair is the first."""
    stub = (*tables(BOLTS, RODS), 10, 11, 13, 16, 6, 1.5)
    usual = need_stub(*stub)
    try:
        assert need_stub(*stub, **{condition: value}) != usual
    except NoSolution as none:
        assert "rod" in str(none)


# One bolt and one rod, as closely as numbers go

USUAL = {
    "sleeve": 1,
    "hole_play": 0.5,
    "ligament": 8,
    "ligament_share": 0.75,
    "least": 3,
    "drill_off": 0.5,
    "drill_step": 0.1,
    "hole_most": None,
    "gamma": 1.25,
    "bending": 1.5,
    "straight": 0.8,
    "shear_factor": 0.6,
    "outer": None,
}
NEXT_TO_NOTHING = 1e-6  # kN


def does(bolt, rod, rope, out_angle, bevel, short_side, load, required, root, **more):
    size, pitch, strength, proof = bolt
    given_values = {"rope": rope, "out_angle": out_angle, "bevel": bevel, "top": short_side, "load": load}
    stub = smallest.Stub(**{**USUAL, **given_values, "required": required, "root": root, **more})
    return smallest.does(stub, smallest.Bolt(size, proof, strength, pitch, 1), rod)


def does_two(bolt, rod, inner_rope, outer_rope, inner, outer, bevel, short_side, required, root):
    second = smallest.Outer(outer_rope, outer[0], outer[1], inner[2], outer[2], 1)
    return does(bolt, rod, inner_rope, inner[1], bevel, short_side, inner[0], required, root, outer=second)


def largest(serves):
    """The largest load that is served, next to nothing where none is."""
    low, high = NEXT_TO_NOTHING, 1_000.0
    while high - low > 1e-9 * high:
        middle = (low + high) / 2
        low, high = (middle, high) if serves(middle) else (low, middle)
    return low


@pytest.mark.parametrize("bolt", BOLTS[:4])
@pytest.mark.parametrize(("rope", "out_angle", "root"), [(6, 3, 0), (10, 11, 5), (12, 20, 8)])
@pytest.mark.parametrize("longer", [0, 20])
def test_the_largest_load_of_one_eye_is_that_of_the_single_parts(bolt, rope, out_angle, root, longer):
    bevel = out_angle + 2
    stub = (rope, out_angle, bevel, top(rope, bevel) + longer)
    for rod in (45, 60, 75):
        due = largest(lambda load, rod=rod: serves_one(bolt, rod, *stub, load, 1.5, root))
        assert largest(lambda load, rod=rod: does(bolt, rod, *stub, load, 1.5, root)) == pytest.approx(due)


@pytest.mark.parametrize("bolt", BOLTS[:4])
@pytest.mark.parametrize(("inner_rope", "outer_rope"), [(6, 6), (8, 12), (12, 6)])
@pytest.mark.parametrize(("ahead", "astern", "share"), [(5, -5, 1), (20, -12, 0.3), (0, -25, 2)])
def test_the_largest_load_of_two_eyes_is_that_of_the_single_parts(
    bolt, inner_rope, outer_rope, ahead, astern, share
):
    bevel = 18
    short_side = double_top(inner_rope, outer_rope, bevel)

    def of_both(serves, rod):
        return largest(
            lambda load: serves(
                bolt,
                rod,
                inner_rope,
                outer_rope,
                (load, 12, ahead),
                (share * load, 13, astern),
                bevel,
                short_side,
                1.5,
                5,
            )
        )

    for rod in (50, 60, 75):
        assert of_both(does_two, rod) == pytest.approx(of_both(serves_two, rod))


@pytest.mark.parametrize("bolt", [(12, 1.75, 700, 450), (20, 2.5, 800, 600), (33, 3.5, 700, 450)])
@pytest.mark.parametrize(("rope", "out_angle"), [(6, 3), (12, 20)])
@pytest.mark.parametrize(("longer", "most"), [(0, None), (25, None), (60, None), (0, 21.7)])
def test_a_rod_has_room_where_the_single_parts_have(bolt, rope, out_angle, longer, most):
    """Rods in steps of a twentieth of a millimetre, next to nothing pulls."""
    bevel = out_angle + 2
    stub = (rope, out_angle, bevel, top(rope, bevel) + longer, NEXT_TO_NOTHING, 1, 3)
    rods = [rod / 20 for rod in range(20 * 15, 20 * 140)]
    due = [serves_one(bolt, rod, *stub, most) for rod in rods]
    assert [does(bolt, rod, *stub, hole_most=most) for rod in rods] == due


# A hole at any place, not only where it is drilled


def parts(bolt, rope, out_angle, bevel, short_side, root, **more):
    size, pitch, strength, proof = bolt
    given_values = {"rope": rope, "out_angle": out_angle, "bevel": bevel, "top": short_side, "root": root}
    loads = {"load": NEXT_TO_NOTHING, "required": 1}
    stub = smallest.Stub(**{**USUAL, **given_values, **loads, **more})
    return stub, smallest.Bolt(size, proof, strength, pitch, 1)


@pytest.mark.parametrize("bolt", [(12, 1.75, 700, 450), (33, 3.5, 700, 450)])
@pytest.mark.parametrize(("bevel", "short_side"), [(2, 8), (14, 14), (30, 25)])
def test_a_rod_leaves_enough_where_the_single_parts_do(bolt, bevel, short_side):
    """Holes in steps of a twentieth of a millimetre, some too near to the upper and some to the lower end."""
    stub, given_bolt = parts(bolt, 8, 2, bevel, short_side, 3)
    for rod in (23.9, 24, 40, 60, 75):
        holes = [hole / 20 for hole in range(1, 20 * 80)]
        due = [is_left(bolt, rod, bevel, short_side, hole) for hole in holes]
        assert [smallest._leaves_rod(stub, given_bolt, rod, hole) for hole in holes] == due


def is_left(bolt, rod, bevel, short_side, hole):
    try:
        return leaves_enough(bolt, rod, 8, bevel, short_side, hole)
    except BadInput:
        return False


@pytest.mark.parametrize("bolt", [(12, 1.75, 700, 450), (20, 2.5, 800, 600)])
@pytest.mark.parametrize(("out_angle", "bevel"), [(0.5, 2), (12, 14), (35, 25), (45, 5), (0.5, 20), (3, 30)])
@pytest.mark.parametrize(("short_side", "root"), [(14, 0), (40, 6)])
def test_the_pull_meets_the_stub_where_the_single_parts_say_so(bolt, out_angle, bevel, short_side, root):
    stub, given_bolt = parts(bolt, 8, out_angle, bevel, short_side, root)
    rod, seat = 60, short_side - 5
    for hole in (hole / 5 for hole in range(5 * 5, 5 * 40)):
        try:
            lever = arm(rod, bevel, short_side, hole, out_angle, root, seat)
            rod_bearing(NEXT_TO_NOTHING, out_angle, bolt[0], grip(rod, bevel, short_side, hole), lever, root)
            meets = True
        except (BadInput, NoSolution):
            meets = False
        if hole + (bolt[0] + 1) / 2 < rod - short_side:  # further down it comes out below the square end
            assert smallest._holds(stub, given_bolt, rod, hole) == meets


@pytest.mark.parametrize("bolt", BOLTS[:3])
@pytest.mark.parametrize("out_angle", [27, 35, 45])
def test_a_bolt_that_hardly_bends_holds_what_shear_and_pull_leave(bolt, out_angle):
    """The hole where the pull's line all but meets the bolt at the wall: along and across decide."""
    bevel, short_side, rod = 5, 16, 60
    low, high = 1.0, 25.0
    for _ in range(60):
        hole = (low + high) / 2
        lever = arm(rod, bevel, short_side, hole, out_angle, 0, short_side - 5)
        low, high = (low, hole) if lever > 0.02 else (hole, high)
    capacity = bolt_capacity(lever, out_angle, *capacities(bolt))
    size, _, strength, _ = bolt
    area = bolt_area(size, bolt[1])
    by_square = 1 / hypot(
        sin(out_angle) / bolt_tension(area, strength), cos(out_angle) / bolt_shear(area, strength)
    )
    assert capacity < 0.95 * by_square  # so the sum of both decides, not their squares

    def holds(load):
        stub, given_bolt = parts(bolt, 8, out_angle, bevel, short_side, 0, load=load)
        return smallest._holds(stub, given_bolt, rod, hole)

    assert largest(holds) == pytest.approx(capacity)


@pytest.mark.parametrize("rod", [35, 50, 60])
@pytest.mark.parametrize("drill_off", [0.5, 0.2])
def test_a_stop_above_leaves_room_where_the_single_parts_do(rod, drill_off):
    """The stop in steps of a twentieth of a millimetre, some of them just at a whole tenth."""
    bolt, bevel = (12, 1.75, 700, 450), 5
    stub = (8, 3, bevel, top(8, bevel), NEXT_TO_NOTHING, 1, 3)
    for most in (most / 20 for most in range(20 * 10, 20 * 40)):
        hole = floor((most - drill_off) * 10 + 1e-6) / 10
        lowest = upright(rod, bevel, stub[3], 1e-9, stub[3] - 5) - drill_off
        hole = min(hole, floor(min(lowest, 0.45 * face(rod, bevel)) * 10 + 1e-6) / 10)
        due = ligament(hole, 12.5) >= 0.75 * 12.5 + drill_off - 1e-9 if hole > 6.25 else False
        assert does(bolt, rod, *stub, hole_most=most, drill_off=drill_off) == due


def test_two_eyes_have_sleeves_of_their_own():
    stub = smallest.Stub(
        **{**USUAL, "sleeve": 1.5, "outer": smallest.Outer(10, 3, 12, 5, -5, 2.5)},
        **{"rope": 8, "out_angle": 12, "bevel": 18, "top": 40, "load": 3, "required": 1.5, "root": 3},
    )
    (inner_seat, _), (outer_seat, _) = smallest._pulls(stub)
    assert outer_seat == 40 - (10 + 2 * 2.5) / 2
    assert outer_seat - inner_seat == pytest.approx(double_apart(8, 10, 1.5, 2.5))


@pytest.mark.parametrize(("inner_rope", "outer_rope"), [(20, 6), (6, 20)])
def test_the_thicker_rope_asks_for_the_rod(inner_rope, outer_rope):
    short_side = double_top(inner_rope, outer_rope, 5)
    eyes = (inner_rope, outer_rope, (0.001, 2, 5), (0.001, 2, -5), 5, short_side, 1, 5)
    assert [does_two((6, 1, 800, 600), rod, *eyes) for rod in (59.9, 60)] == [False, True]


def test_a_pitch_of_a_third_is_the_coarsest():
    stub = (10, 11, 13, 16, 2, 1.5)
    assert need_stub(*tables([(12, 4, 700, 450)], RODS), *stub)[0][0] == 1
    with pytest.raises(BadInput, match=r"row 1 of the bolts: pitch 4\.01 mm is above a third of 12 mm"):
        need_stub(*tables([(12, 4.01, 700, 450)], RODS), *stub)


def test_no_rod_thicker_than_the_thickest_is_named():
    def least_rod(least):
        stub, bolt = parts((12, 1.75, 700, 450), 20, 5, 7, 30, 3, least=least)
        return smallest._least_rod(stub, bolt)

    assert [least_rod(least) for least in (14.9, 15, 15.01)] == [298, 300, 0]


def test_the_thickest_rod_is_named_wherever_it_stands_in_the_table():
    stub = (10, 11, 13, 16, 7.5, 1.5)
    with pytest.raises(NoSolution, match=r"the thickest has 29 mm"):
        need_stub(*tables(BOLTS, [28, 29, 27]), *stub)


def test_coarse_threads_are_those_of_the_standard():
    # ISO 261:1998, pitches of the coarse series, from memory; M6 to M48 but for those nobody sells.
    pitches = {6: 1, 8: 1.25, 10: 1.5, 12: 1.75, 14: 2, 16: 2, 18: 2.5, 20: 2.5, 22: 2.5, 24: 3, 27: 3, 30: 3.5}
    assert dict(smallest.COARSE) == {**pitches, 33: 3.5, 36: 4, 42: 4.5, 48: 5}
    assert [size for size, _ in smallest.COARSE] == sorted(size for size, _ in smallest.COARSE)


def test_what_a_working_shows_of_it():
    outer = smallest.Outer(8, 4, 13, 12, -12, 1)
    assert str(outer) == "an eye of 8 mm rope"
    given_values = {"rope": 8, "out_angle": 11, "bevel": 13, "top": 16.5, "load": 4, "required": 1.5, "root": 3}
    assert str(smallest.Stub(**USUAL, **given_values)) == "a stub for one eye, 16.5 mm on top"
    assert str(smallest.Stub(**{**USUAL, "outer": outer}, **given_values)).startswith("a stub for two eyes")
    assert str(smallest.Pair(2, 3)) == "row 2 of the bolts, row 3 of the rods"
    assert str(smallest.Pair(0, 0, "none does")) == "none does"
