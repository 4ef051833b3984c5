"""Statics of stays: forces as vectors in space, solved by numpy, and published cases of two legs."""

from math import cos, radians, sin

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from loftsheet.errors import BadInput, NoSolution
from loftsheet.loads import backstay, shroud_total
from loftsheet.statics import (
    angle_between,
    pair_tension,
    pull_lean_fore,
    pull_lean_out,
    pull_sum,
    split_angle,
    split_fore,
    split_tension,
    stay_balance,
)
from loftsheet.survey import mast_fore, mast_up, stay_pull, stay_pull_down, stay_pull_fore, stay_pull_out
from scipy.constants import kilo, lbf

from templates.boats import marrowick

rakes = st.floats(-10, 10)
tensions = st.floats(0.1, 100)
places = st.floats(-5_000, 5_000)
FORE, OUT, UP = np.eye(3)


def unit(vector):
    return vector / np.linalg.norm(vector)


def between(one, other):
    """Angle between two directions; by both its sine and its cosine, so that it is exact near 0."""
    return np.degrees(np.arctan2(np.linalg.norm(np.cross(one, other)), one @ other))


def axis(rake):
    """Direction up a mast that is raked aft."""
    return np.array([-sin(radians(rake)), 0, cos(radians(rake))])


def square_to(mast, vector):
    return vector - (vector @ mast) * mast


def pulls(stay, rake):
    ends = [float(number) for point in stay for number in point]
    return stay_pull_fore(*ends, rake), stay_pull_out(*ends)


# Two lowers of one side


@st.composite
def lowers(draw):
    """A mast with rake, a fore and an aft lower of one side from nearly one height."""
    rake = draw(rakes)
    mast = axis(rake)
    across = np.cross(OUT, mast)
    stays = []
    for way in (1, -1):
        upper = draw(st.floats(5_800, 6_400)) * mast + np.array([0, 55, 0])
        foot = draw(st.floats(150, 1_500)) * way * across + draw(st.floats(700, 2_000)) * OUT
        stays.append((upper, upper * 0.01 + foot))
    fore = [square_to(mast, unit(lower - upper)) @ across for upper, lower in stays]
    assume(fore[0] > 0.01 > -0.01 > fore[1])
    return rake, stays


@given(lowers(), tensions)
def test_two_lowers_hold_the_side_pull_and_nothing_else(rig, side_pull):
    rake, stays = rig
    fore, aft = (pulls(stay, rake) for stay in stays)
    both = pair_tension(side_pull, *fore, *aft), pair_tension(side_pull, *aft, *fore)
    held = sum(tension * unit(lower - upper) for tension, (upper, lower) in zip(both, stays))
    left = square_to(axis(rake), held) - side_pull * OUT
    assert left == pytest.approx(np.zeros(3), abs=1e-9 * side_pull)
    assert min(both) > 0


@given(tensions, st.floats(0.01, 0.4), st.floats(0.05, 0.6), st.floats(-0.4, -0.01), st.floats(0.05, 0.6))
def test_two_lowers_as_two_equations(side_pull, fore, out, other_fore, other_out):
    one, other = np.linalg.solve([[out, other_out], [fore, other_fore]], [side_pull, 0])
    assert pair_tension(side_pull, fore, out, other_fore, other_out) == pytest.approx(one)
    assert pair_tension(side_pull, other_fore, other_out, fore, out) == pytest.approx(other)


def test_two_lowers_by_hand():
    # As much forward as the other leads aft: halves. Twice as much aft: the fore one carries twice the aft one's.
    assert pair_tension(2, 0.1, 0.2, -0.1, 0.2) == pytest.approx(5)
    assert pair_tension(3, 0.1, 0.2, -0.2, 0.2) == pytest.approx(10)
    assert pair_tension(3, -0.2, 0.2, 0.1, 0.2) == pytest.approx(5)
    # One straight abeam holds all of it, the other one nothing.
    assert pair_tension(2, 0, 0.2, -0.1, 0.2) == pytest.approx(10)
    assert pair_tension(2, -0.1, 0.2, 0, 0.2) == 0


@pytest.mark.parametrize("fore, aft, way", [(0.1, 0.01, "forward"), (-0.1, -0.2, "aft")])
def test_lowers_that_lead_one_way_are_refused(fore, aft, way):
    with pytest.raises(NoSolution, match=f"both lead {way}.*check the points of both"):
        pair_tension(2, fore, 0.2, aft, 0.2)
    with pytest.raises(NoSolution, match=f"both lead {way}"):
        stay_balance(2, fore, aft)


def test_what_stiffness_alone_could_say_is_refused():
    with pytest.raises(NoSolution, match="straight abeam"):
        pair_tension(2, 0, 0.2, 0, 0.2)
    with pytest.raises(NoSolution, match="neither forward nor aft"):
        stay_balance(2, 0.1, 0)


# The invented boat


def points(rake):
    """The demo boat's points, with its mast at a rake."""
    found = {}
    for row in marrowick.POINTS:
        if "along" in row:
            fore, up = mast_fore(row["along"], rake), mast_up(row["along"], rake)
            found[row["name"]] = np.array([fore, row["out"], up])
        else:
            found[row["name"]] = np.array([row["fore_own"], row["out"], row["up_own"]], float)
    return found


def stay(name, rake=1.0):
    row = next(row for row in marrowick.STAYS if row["name"] == name)
    return tuple(points(rake)[row[end]] for end in ("upper", "lower"))


def test_on_the_demo_boat_the_fore_lower_carries_twice_the_aft_one():
    rows = [stay(f"{which} lower, port") for which in ("fore", "aft")]
    fore, aft = (pulls(row, 1.0) for row in rows)
    boat = marrowick.BOAT
    by_halves = [
        0.325 * shroud_total(boat["rm30"], boat["chainplate_out"], 1.5, between(lower - upper, -axis(1.0)))
        for upper, lower in rows
    ]
    owed = by_halves[0] * fore[1] + by_halves[1] * aft[1]
    shared = pair_tension(owed, *fore, *aft), pair_tension(owed, *aft, *fore)
    assert shared[0] / shared[1] == pytest.approx(2, abs=0.05)
    assert shared[0] / by_halves[0] == pytest.approx(1.36, abs=0.02)
    assert shared[1] / by_halves[1] == pytest.approx(0.67, abs=0.02)


@pytest.mark.parametrize("rake, wrong", [(0, 0), (1, 0.10), (2, 0.20), (3, 0.32)])
def test_what_the_horizontal_rule_gets_wrong_on_the_demo_boat(rake, wrong):
    ends = [[*upper, *lower] for upper, lower in (stay("forestay", rake), stay("backstay, upper part", rake))]
    horizontal = backstay(10, *(stay_pull(*six) for six in ends))
    right = stay_balance(10, *(stay_pull_fore(*six, rake) for six in ends))
    assert horizontal / right - 1 == pytest.approx(wrong, abs=0.005)
    assert backstay(10, *(stay_pull(*six, rake) for six in ends)) == pytest.approx(right)


def test_the_demo_boats_backstay_hangs_in_balance():
    (masthead, split), (_, quarter) = stay("backstay, upper part"), stay("backstay leg")
    assert split_angle(*masthead, *split, *quarter) < 0.1
    a_metre_aft = split - 1_000 * FORE
    assert split_angle(*masthead, *a_metre_aft, *quarter) > 5
    due = split_fore(masthead[0], masthead[2], quarter[0], quarter[2], split[2])
    assert due == pytest.approx(split[0], abs=3)


# Fore and aft


@given(tensions, rakes, st.floats(500, 5_000), st.floats(-5_000, -500), st.floats(0, 2_000))
def test_what_balances_a_stay_leaves_no_pull_square_to_the_mast(tension, rake, stem, stern, off_side):
    head = 12_000 * axis(rake)
    across = np.cross(OUT, axis(rake))
    ahead, aft = head - 11_500 * axis(rake) + stem * across, head - 10_500 * axis(rake) + stern * across
    ahead[1], aft[1] = 0, off_side
    forward, backward = pulls((head, ahead), rake)[0], pulls((head, aft), rake)[0]
    other = stay_balance(tension, forward, backward)
    held = tension * unit(ahead - head) + other * unit(aft - head)
    assert square_to(axis(rake), held) @ across == pytest.approx(0, abs=1e-9 * tension)


# A split stay and its legs


@st.composite
def splits(draw):
    split = np.array([draw(places), draw(st.floats(-50, 50)), draw(st.floats(2_000, 5_000))])
    legs = [split + np.array([draw(places), side * draw(st.floats(200, 3_000)), -1_900]) for side in (1, -1)]
    return split, legs


@given(splits(), tensions, tensions)
def test_a_split_that_balances_at_two_tensions(rig, one, other):
    """The upper part is put where the two legs' pulls lead; the tensions then come back."""
    split, legs = rig
    lines = [unit(leg - split) for leg in legs]
    both = one * lines[0] + other * lines[1]
    upper = split - 8_000 * unit(both)
    assume(np.linalg.norm(both) > 0.1 * max(one, other))
    found = split_tension(np.linalg.norm(both), *upper, *split, *legs[0], *legs[1])
    assert found == pytest.approx(one, rel=1e-6, abs=1e-6 * other)


@given(splits(), st.floats(-4_000, 4_000), st.floats(-300, 300))
def test_angle_of_a_split_by_vectors(rig, fore, out):
    split, legs = rig
    upper = split + np.array([fore, out, 9_000])
    sum_of_legs = sum(unit(leg - split) for leg in legs)
    expected = between(split - upper, sum_of_legs)
    assert split_angle(*upper, *split, *legs[0], *legs[1]) == pytest.approx(expected, abs=1e-9)


@given(st.floats(-6_000, -3_000), st.floats(300, 2_000), st.floats(1_000, 9_000), tensions)
def test_where_a_split_belongs_it_is_in_balance(quarter, out, height, tension):
    upper, leg = np.array([-230.0, 0, 13_000]), np.array([quarter, out, 150.0])
    split = np.array([split_fore(upper[0], upper[2], leg[0], leg[2], height), 0, height])
    assert split_angle(*upper, *split, *leg) == pytest.approx(0, abs=1e-6)
    pull = split_tension(tension, *upper, *split, *leg)
    left = tension * unit(upper - split) + sum(pull * unit(leg * [1, side, 1] - split) for side in (1, -1))
    assert left == pytest.approx(np.zeros(3), abs=1e-9 * tension)


@pytest.mark.parametrize("from_upright, each", [(30, 1_154.7), (60, 2_000)])
def test_two_legs_as_published(from_upright, each):
    # Michigan State University, hitch-use guidance: 2,000 lb on two legs, 30° and 60° from the vertical.
    leg = 1_000 * np.array([0, sin(radians(from_upright)), -cos(radians(from_upright))])
    in_pounds = split_tension("2000 lb", 0, 0, 5_000, 0, 0, 0, *leg) * kilo / lbf
    assert in_pounds == pytest.approx(each, abs=0.1)


@pytest.mark.parametrize(
    "apart, taken", [(0.095, False), (0.105, True), (0.9, True), (179.895, True), (179.905, False), (180.0, False)]
)
def test_legs_that_lead_the_same_way_or_against_each_other_are_refused(apart, taken):
    # A tenth of a degree is what still says how two legs share.
    out, down = 2_000 * sin(radians(apart / 2)), 2_000 * cos(radians(apart / 2))
    points = (0, 0, 9_000, 0, 0, 4_000, 0, out, 4_000 - down)
    if taken:
        assert split_tension(5, *points) == pytest.approx(2.5 / cos(radians(apart / 2)))
    else:
        with pytest.raises(NoSolution, match=r"apart|straight away"):
            split_tension(5, *points)


def test_a_leg_square_to_an_upper_part_that_the_other_continues_carries_nothing():
    assert split_tension(5, 0, 0, 2_000, 0, 0, 1_000, 1_000, 0, 1_000, 0, 0, 0) == 0


def test_splits_that_cannot_be_are_refused():
    upper, split = (0, 0, 12_000), (0, 0, 3_000)
    with pytest.raises(NoSolution, match=r"0° apart.*make them one stay"):
        split_tension(5, *upper, *split, -500, 0, 200)
    with pytest.raises(NoSolution, match="would have to push"):
        split_tension(5, *upper, *split, 0, 2_000, 200, 0, 1_000, 200)
    with pytest.raises(NoSolution, match="straight away from each other"):
        split_tension(5, *upper, *split, 0, 1_000, 2_999.9)
    assert split_tension(5, *upper, *split, 0, 1_000, 2_990) == pytest.approx(250, rel=1e-3)
    assert split_tension(5, *upper, *split, -500, 10, 200) == pytest.approx(2.5, rel=0.05)
    with pytest.raises(NoSolution, match="straight away from each other"):
        split_angle(*upper, *split, 0, 500, 3_000)
    with pytest.raises(BadInput, match="two points of the stay are the same"):
        split_angle(*split, *split, 0, 500, 200)
    with pytest.raises(BadInput, match="must be between 200 and 12000 mm"):
        split_fore(0, 12_000, -5_000, 200, 200)
    with pytest.raises(BadInput, match="must be between 200 and 12000 mm"):
        split_fore(0, 12_000, -5_000, 200, 12_000)
    with pytest.raises(BadInput, match="belong together"):
        split_angle(*upper, *split, 0, 500, 200, 0)


def test_an_upper_part_in_line_with_one_leg_leaves_the_other_nothing():
    upper, split, leg, other = (-200, 0, 13_000), (-4_320, 0, 3_200), (-5_580, 705, 190), (-5_556, 0, 212.4)
    in_line = [split[axis] + 0.3 * (split[axis] - upper[axis]) for axis in range(3)]
    assert split_tension(5, *upper, *split, *leg, *in_line) == pytest.approx(0, abs=1e-9)
    assert split_tension(5, *upper, *split, *in_line, *leg) == pytest.approx(5)
    assert split_tension(5, *upper, *split, *leg, *other) >= 0


# What hangs on one point


@given(st.lists(st.tuples(*[st.floats(-50, 50)] * 3), min_size=1, max_size=5))
def test_pulls_on_a_point_are_summed_by_direction(rows):
    held = np.sum(rows, axis=0)
    assume(np.linalg.norm(held) > 1e-6)
    columns = [tuple((part,) for part in column) for column in zip(*rows)]
    assert pull_sum(*columns) == pytest.approx(np.linalg.norm(held))
    assert pull_lean_fore(*columns) == pytest.approx(np.degrees(np.arctan2(held @ FORE, held @ UP)))
    assert pull_lean_out(*columns) == pytest.approx(np.degrees(np.arctan2(held @ OUT, held @ UP)))
    assert pull_sum(*(float(part) for part in held)) == pytest.approx(np.linalg.norm(held))


@given(st.floats(-3, 3), st.floats(-3, 3), st.floats(0.5, 9), tensions, rakes)
def test_pulls_of_a_stay_make_up_its_tension(fore, out, drop, tension, rake):
    upper = np.array([-200.0, 55.0, 9_000.0])
    lower = upper + 1_000 * np.array([fore, out, -drop])
    ends = [*upper, *lower]
    parts = stay_pull_fore(*ends, rake), stay_pull_out(*ends), stay_pull_down(*ends, rake)
    across = np.cross(OUT, axis(rake))
    assert tension * (parts[0] * across + parts[1] * OUT - parts[2] * axis(rake)) == pytest.approx(
        tension * unit(lower - upper)
    )
    assert stay_pull(*ends, rake) == abs(parts[0])


def test_two_like_pulls_at_an_angle():
    # Two of 10 kN at 60° to each other make 10·√3, midway between them.
    apart = [cos(radians(30)), sin(radians(30))]
    columns = ((0.0,), (0.0,)), ((-10 * apart[1],), (10 * apart[1],)), ((10 * apart[0],), (10 * apart[0],))
    assert pull_sum(*columns) == pytest.approx(10 * 3**0.5)
    assert pull_lean_out(*columns) == pytest.approx(0, abs=1e-12)


def test_rows_of_pulls_that_are_blank_or_half_filled():
    assert pull_sum(((3.0,), ("",)), ((4.0,), ("",)), ((0.0,), (None,))) == 5
    with pytest.raises(BadInput, match="row 2 of the ranges has a blank cell"):
        pull_sum(((3.0,), (1.0,)), ((4.0,), ("",)), ((0.0,), (1.0,)))
    with pytest.raises(BadInput, match="2, 1 and 1 cells; they must be of one height"):
        pull_sum(((3.0,), (1.0,)), 4.0, 0.0)
    assert pull_sum(0.0, 0.0, 0.0) == 0
    for lean in (pull_lean_fore, pull_lean_out):
        with pytest.raises(NoSolution, match="no direction"):
            lean(0.0, 0.0, 0.0)


# Directions


@given(st.tuples(*[places] * 3), st.tuples(*[places] * 3), st.floats(0.1, 3))
def test_angle_between_two_directions(one, other, longer):
    assume(np.linalg.norm(one) > 1 and np.linalg.norm(other) > 1)
    expected = between(np.array(one), np.array(other))
    assert angle_between(*one, *other) == pytest.approx(expected, abs=1e-9)
    assert angle_between(*other, *(longer * part for part in one)) == pytest.approx(expected, abs=1e-6)


def test_a_direction_without_length_is_refused():
    with pytest.raises(BadInput, match="no direction"):
        angle_between(0, 0, 0, 1, 0, 0)
    assert angle_between(1, 0, 0, -1, 0, 0) == 180
