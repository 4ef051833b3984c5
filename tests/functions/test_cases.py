"""Sail cases: moments about the mast's foot, and a hinged mast solved joint by joint."""

from math import radians, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from loftsheet.cases import case_effort, case_force, case_lowers, case_shroud
from loftsheet.errors import BadInput
from loftsheet.loads import shroud_side, shroud_total
from loftsheet.survey import spreader_rise
from scipy.optimize import brentq

moments = st.floats(1, 500)
heights = st.floats(2_000, 30_000)


@given(moments, st.lists(st.tuples(st.floats(0.1, 1), heights), min_size=1, max_size=4), st.floats(5, 30))
def test_side_forces_at_their_heights_make_the_righting_moment(rm30, spread, heel):
    weights = np.array([weight for weight, _ in spread])
    shares, levels = weights / weights.sum(), np.array([height for _, height in spread])
    effort = case_effort(tuple((one,) for one in shares.tolist()), tuple((one,) for one in levels.tolist()))
    at_each = case_force(rm30, effort, 1, heel) * shares
    assert at_each @ levels / 1000 == pytest.approx(rm30 * sin(radians(heel)) / sin(radians(30)))


def test_side_force_by_hand():
    # Righting moment 20 kN·m at 30°: a headsail alone, 12.5 m up, 1.6 kN; a reefed main, 6.4 m up, 3.125 kN.
    assert case_force(20, 12_500) == pytest.approx(1.6)
    assert case_force(20, 6_400) == pytest.approx(3.125)
    # All sails, half at each: 9.45 m, and half as much again for heel beyond 30°.
    assert case_effort(((0.5, 0.5),), ((12_500.0, 6_400.0),)) == pytest.approx(9_450)
    assert case_force(20, 9_450, 1.5) == pytest.approx(30 / 9.45)
    # At 20° of heel the sine: 0.34202/0.5.
    assert case_force(20, 12_500, 1, 20) == pytest.approx(1.6 * 0.68404, abs=1e-5)


def test_heel_beyond_30_is_not_counted_twice():
    with pytest.raises(BadInput, match=r"factor 1\.5 already stands for heel beyond 30°.*is 35°"):
        case_force(20, 12_500, 1.5, 35)
    with pytest.raises(BadInput, match="heel beyond 30"):
        case_force(20, 12_500, 1.5, 30.5)
    assert case_force(20, 12_500, 1, 35) == pytest.approx(1.6 * sin(radians(35)) / 0.5)
    assert case_force(20, 12_500, 1.5, "0.5235987755982988 rad") == pytest.approx(2.4)


def from_upright(across, down):
    return np.degrees(np.arctan2(across, down))


@st.composite
def rigs(draw):
    """An upright mast in its plane: cap shroud over a spreader that halves its angle, one lower from its root.

    Chainplate, tip, root and head of the mast, each out and up; the chainplate is at the level of the foot.
    """
    out, root = draw(st.floats(800, 3_000)), draw(st.floats(3_000, 8_000))
    tip_out = out * draw(st.floats(0.5, 0.9))
    head = root + tip_out * draw(st.floats(3, 8))

    def off_halving(tip):
        above, below = from_upright(tip_out, head - tip), from_upright(out - tip_out, tip)
        return spreader_rise(float(above), float(below)) - np.degrees(np.arctan2(tip - root, tip_out))

    tip = brentq(off_halving, root, root + 0.3 * (head - root), xtol=1e-12)
    return [np.array(point) for point in ((out, 0), (tip_out, tip), (0, root), (0, head))]


def unit(vector):
    return vector / np.linalg.norm(vector)


@given(rigs(), st.floats(0, 20), st.floats(0.1, 20))
def test_shrouds_of_a_hinged_mast_joint_by_joint(rig, at_head, at_root):
    """Balance of head, root and tip: cap, lower, spreader and two lengths of mast, by numpy."""
    chainplate, tip, root, head = rig
    above, below, lower = unit(tip - head), unit(chainplate - tip), unit(chainplate - root)
    up, nothing = np.array([0, 1]), np.zeros(2)
    joints = np.block(
        [
            [above, nothing, nothing],  # cap shroud, above at the head, both ways at the tip
            [nothing, lower, nothing],
            [nothing, unit(root - tip), unit(tip - root)],  # spreader pushes root and tip apart
            [up, -up, nothing],
            [nothing, up, nothing],
        ]
    )
    joints[0, 4:] = below - above
    given_forces = [at_head, 0, at_root, 0, 0, 0]
    found, misses, *_ = np.linalg.lstsq(joints.T, given_forces, rcond=None)
    assert misses == pytest.approx([0], abs=1e-18) or len(misses) == 0
    cap = case_shroud(at_head, above[0]) if at_head else 0.0
    owed = case_lowers(at_root, cap, above[0], below[0])
    assert cap == pytest.approx(found[0], abs=1e-9)
    assert owed == pytest.approx(found[1] * lower[0], abs=1e-9)
    # The whole rig about its foot: what the sails do is what the chainplate holds.
    down = -(cap * below[1] + owed / lower[0] * lower[1])
    assert down * chainplate[0] == pytest.approx(at_head * head[1] + at_root * root[1])


@given(rigs(), moments)
def test_statics_and_the_published_rule_agree(rig, rm30):
    """All sails: what the shrouds of a side pull down is the righting moment over the chainplate, as published."""
    chainplate, tip, root, head = rig
    above, below, lower = unit(tip - head), unit(chainplate - tip), unit(chainplate - root)
    force = case_force(rm30, case_effort(((0.5, 0.5),), ((head[1], root[1]),)), 1.5)
    cap = case_shroud(force / 2, above[0])
    owed = case_lowers(force / 2, cap, above[0], below[0])
    down = -(cap * below[1] + owed / lower[0] * lower[1])
    assert down == pytest.approx(shroud_total(rm30, chainplate[0], 1.5))


@given(st.floats(0.1, 50), st.floats(1, 40))
def test_a_shroud_straight_abeam_as_by_its_angle(side_force, out_angle):
    assert case_shroud(side_force, sin(radians(out_angle))) == pytest.approx(shroud_side(side_force, out_angle))
    assert case_lowers(0, 10, sin(radians(out_angle)), 0) == pytest.approx(10 * sin(radians(out_angle)))
    assert case_lowers(-1, 0, 0.2, 0.1) == -1


def test_two_shrouds_over_one_spreader():
    # Cap and intermediate one after the other, as the sum of both pushes.
    once = case_lowers(1.2, 8, 0.18, 0.05)
    assert case_lowers(once, 5, 0.2, 0.08) == pytest.approx(1.2 + 8 * 0.13 + 5 * 0.12)


@pytest.mark.parametrize(
    "shares, heights_given, words",
    [
        (((0.5, 0.4),), ((12_000.0, 6_000.0),), r"shares make 0\.9 in all; they must make 1"),
        (((0.5, 0.5),), ((12_000.0,),), "2 shares and 1 heights"),
        (((0.5, 0.5),), ((12_000.0, ""),), r"height 2 is blank, and 0\.5 of the side force is there"),
        (((1.0,),), ((0.0,),), "at the waterline"),
        ((("", ""),), ((12_000.0, 6_000.0),), "shares make 0 in all"),
    ],
)
def test_cases_that_do_not_add_up_are_refused(shares, heights_given, words):
    with pytest.raises(BadInput, match=words):
        case_effort(shares, heights_given)


def test_a_height_without_a_share_may_be_blank():
    assert case_effort(((1.0, ""),), ((12_500.0, ""),)) == 12_500
    assert case_effort(1.0, "12.5 m") == pytest.approx(12_500)
    assert case_effort(((1.0, ""),), ((5_000.0, 3_000.0),)) == 5_000
    assert case_effort(1.0, 0.5) == 0.5
    assert case_effort(((0.333, 0.333, 0.333),), ((9_000.0, 6_000.0, 3_000.0),)) == pytest.approx(5_994)
