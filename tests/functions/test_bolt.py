"""Bolt, mast wall and rod: rules of the standards worked by hand, and the same numbers by another route."""

from math import cos, pi, radians, sin, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from loftsheet.bolt import (
    bolt_area,
    bolt_capacity,
    bolt_core,
    bolt_ends,
    bolt_length,
    bolt_pull,
    bolt_shank,
    bolt_shear,
    bolt_tension,
    mast_bearing,
    pin_bearing,
    pin_bending,
    pin_use,
    rod_bearing,
    rope_pressure,
    tang_moment,
)
from loftsheet.errors import BadInput
from scipy.integrate import quad
from scipy.optimize import brentq

tensions = st.floats(0.5, 100)
out_angles = st.floats(0, 45)
arms = st.floats(5, 80)
capacities = st.floats(20, 500)


# ISO 898-1, table of nominal stress areas of coarse threads, to three digits (page not noted).
@pytest.mark.parametrize(
    ("diameter", "pitch", "area"),
    [(10, 1.5, 58.0), (12, 1.75, 84.3), (14, 2, 115), (16, 2, 157), (20, 2.5, 245)],
)
def test_stress_area_of_metric_threads(diameter, pitch, area):
    assert bolt_area(diameter, pitch) == pytest.approx(area, abs=0.5 if area > 100 else 0.05)


def test_stress_area_of_an_inch_thread():
    # ASME B1.1, table of tensile stress areas (page not noted): 1/2-13 UNC has 0.1419 in²; its formula takes
    # 0.9743/13 in off the diameter.
    assert bolt_area("1/2 in", "1/13 in", 0.9743) / 25.4**2 == pytest.approx(0.1419, abs=5e-5)
    # The metric formula would call the same bolt 1.3 % stronger than it is.
    assert bolt_area("1/2 in", "1/13 in") / 25.4**2 > 0.1419 * 1.01


def test_core_of_a_metric_thread():
    # ISO 68-1 and ISO 724, basic profile and dimensions of metric threads: d3 of M12 x 1.75 is 9.853 mm; 17/24 of
    # the triangle's height is cut off on each side.
    assert bolt_core(12, 1.75) == pytest.approx(9.853, abs=5e-4)
    height = 1.75 / 2 / tan(radians(30))
    assert bolt_core(12, 1.75) == pytest.approx(12 - 2 * 17 / 24 * height, abs=1e-4)


@pytest.mark.parametrize("function", [bolt_area, bolt_core, bolt_ends])
def test_diameter_and_pitch_exchanged_are_refused(function):
    for pitch in (3.1, 5):
        with pytest.raises(BadInput, match="third of the diameter 9 mm"):
            function(9, pitch)
    assert function(9, 3) and function(9, 2.9)


def test_bolt_in_shear_and_in_tension():
    # EN 1993-1-8:2005 table 3.4 by hand: M20 8.8 and 4.6, thread in the shear plane, 0.6·800·245/1.25 and so on.
    assert bolt_shear(245, 800) == pytest.approx(94.08)
    assert bolt_shear(245, 400) == pytest.approx(47.04)
    assert bolt_tension(245, 400) == pytest.approx(70.56)
    # Each plane of a bolt in double shear carries as much.
    assert bolt_shear(245, 800, 2) == pytest.approx(2 * 94.08)


def test_pin_of_16_mm():
    # EN 1993-1-8:2005 table 3.10 by hand, S235 (fy 235, fu 360 MPa): 1.5·402.1 mm³·235/1.15 and so on.
    assert bolt_shear(pi * 16**2 / 4, 360) == pytest.approx(34.74, abs=0.01)
    assert pin_bending(16, 235, 1.15) == pytest.approx(123.3, abs=0.05)
    assert pin_bending(16, 235, 1, 0.8) == pytest.approx(75.6, abs=0.05)
    # The same with a partial factor of 1.
    assert pin_bending(16, 235) == pytest.approx(123.3 * 1.15, abs=0.1)


def test_pin_moment_is_the_stress_summed_over_the_section():
    # First yield: the stress grows from the middle; factor 1 is its moment, by numeric integration.
    def moment_of_strip(y):
        return 2 * np.sqrt(8**2 - y**2) * (450 * y / 8) * y

    first_yield = quad(moment_of_strip, -8, 8)[0] / 1000
    assert pin_bending(16, 450, 1, 1) == pytest.approx(first_yield, rel=1e-6)


def test_factors_beyond_full_plasticity_are_refused():
    # A round bar, fully plastic, carries 16/(3π) = 1.698 times its moment at first yield (theory of plasticity).
    assert pin_bending(16, 450, 1, 16 / (3 * pi)) == pytest.approx(450 * 16**3 / 6 / 1000)
    with pytest.raises(BadInput, match="factor"):
        pin_bending(16, 450, 1, 1.75)


def test_bearing_of_a_pin_in_a_wall():
    # EN 1993-1-8:2005 table 3.10 by hand, 1.5·t·d·fy/γ: a 12 mm bolt in 4 mm of 6082-T6 (250 MPa, EN 755-2).
    assert pin_bearing(12, 4, 250, 1.1) == pytest.approx(16.364, abs=5e-4)
    assert pin_bearing(12, 4, 250) == pytest.approx(18)


def test_pin_use_at_its_limits():
    # EN 1993-1-8:2005 table 3.10: a quarter of a circle; a 3-4-5 triangle lies on it.
    assert pin_use(60, 100, 8, 10) == pytest.approx(1)
    assert pin_use(100, 100, 1e-9, 10) == pytest.approx(1)
    assert pin_use(1e-9, 100, 10, 10) == pytest.approx(1)


@given(arms, out_angles, capacities, capacities, capacities)
def test_capacity_uses_up_the_pin(arm, out_angle, moment_capacity, shear_capacity, tension_capacity):
    """Root finding on the rule of EN 1993-1-8:2005 table 3.10, the pull added to the bending."""

    def left(tension):
        pull = tension * sin(radians(out_angle)) / tension_capacity
        shear = tension * cos(radians(out_angle))
        return 1 - pin_use(tension * arm + pull * moment_capacity, moment_capacity, shear, shear_capacity)

    by_bending = brentq(left, 1e-6, 2_000, xtol=1e-12, rtol=1e-12)
    capacity = bolt_capacity(arm, out_angle, moment_capacity, shear_capacity, tension_capacity)
    assert capacity <= by_bending * (1 + 1e-9)
    # EN 1993-1-8:2005 table 3.4, shear with tension: Fv/FvR + Ft/(1.4·FtR) ≤ 1; one of the two rules is used up.
    shear_and_tension = (
        capacity * cos(radians(out_angle)) / shear_capacity
        + capacity * sin(radians(out_angle)) / tension_capacity / 1.4
    )
    assert shear_and_tension <= 1 + 1e-9
    assert capacity == pytest.approx(by_bending) or shear_and_tension == pytest.approx(1)


def test_capacity_without_a_lever_is_ruled_by_shear():
    # EN 1993-1-8:2005 table 3.4 by hand, 45°: 0.70711·F/20 + 0.70711·F/(1.4·30) = 1 → F = 19.160.
    assert bolt_capacity(1e-9, 45, 1e6, 20, 30) == pytest.approx(19.160, abs=5e-4)


def test_capacity_of_a_usual_bolt_is_ruled_by_bending():
    # M12 A4-70 (700/450 MPa, ISO 3506-1; the 450 from memory), stay at 12°, 35 mm of lever.
    moment_capacity, shear_capacity, tension_capacity = 76.3, 28.3, 42.5
    capacity = bolt_capacity(35, 12, moment_capacity, shear_capacity, tension_capacity)
    assert tang_moment(capacity, 35) == pytest.approx(moment_capacity, rel=0.02)
    # Far below the wire it may replace: 6 mm 1x19 breaks near 30 kN (0.525·d²·1570, from memory).
    assert capacity < 30 / 10


@given(st.floats(0.1, 1_000), st.floats(0.1, 45))
def test_bending_and_pull_stay_inside_plastic_theory(arm, out_angle):
    """A fully plastic round bar under moment and pull: the section near its middle carries the pull."""
    radius, flow = 6.0, 450.0

    def width(y):
        return 2 * np.sqrt(max(radius**2 - y**2, 0))

    def lost(tension):
        pull = 1000 * tension * sin(radians(out_angle))
        half = brentq(lambda h: 2 * flow * quad(width, 0, h)[0] - pull, 0, radius)
        moment = 2 * flow * quad(lambda y: width(y) * y, half, radius)[0]
        return moment - 1000 * tension * arm

    pull_capacity = flow * pi * radius**2 / 1000
    most = 0.999999 * pull_capacity / sin(radians(out_angle))
    plastic = brentq(lost, 1e-9, most)
    moment_capacity = pin_bending(2 * radius, flow, 1, 16 / (3 * pi))
    assert bolt_capacity(arm, out_angle, moment_capacity, 5_000, pull_capacity) <= plastic * (1 + 1e-6)


@given(arms, st.floats(0, 44), capacities, capacities, capacities, st.floats(1.05, 3))
def test_capacity_falls_with_the_lever_and_rises_with_the_bolt(arm, out_angle, moment, shear, pull, more):
    capacity = bolt_capacity(arm, out_angle, moment, shear, pull)
    # Where shear governs, which a few millimetres of lever do not change, it stays the same.
    assert bolt_capacity(arm * more, out_angle, moment, shear, pull) <= capacity
    assert bolt_capacity(arm + 200, out_angle, moment, shear, pull) < capacity
    assert bolt_capacity(arm, out_angle, moment * more, shear * more, pull * more) > capacity


def test_pull_of_the_stay_is_its_part_along_the_bolt():
    along_stay = np.array([sin(radians(12)), -cos(radians(12))])
    assert bolt_pull(20, 12) == pytest.approx(20 * along_stay @ np.array([1, 0]))
    assert bolt_pull(20, 0) == 0


def test_moment_in_other_units():
    # NIST SP 811: 1 ft·lbf is 1.3558179483314 N·m.
    assert tang_moment("1000 lbf", "1 ft") == pytest.approx(1355.8179483314)


@given(tensions, out_angles, arms, st.floats(60, 300))
def test_near_wall_holds_the_overhanging_bolt(tension, out_angle, arm, mast_width):
    """A beam on two walls, by its two equations of equilibrium."""
    across = tension * cos(radians(out_angle))
    forces = [1, 1]
    moments_about_near_wall = [0, mast_width]
    near, far = np.linalg.solve([forces, moments_about_near_wall], [across, -tension * arm])
    assert mast_bearing(tension, out_angle, arm, mast_width) == pytest.approx(near)
    assert far < 0


def pull_on_stub(tension, out_angle, arm):
    """Force of the stay and its moment about the bolt at the mast, from vectors."""
    direction = np.array([sin(radians(out_angle)), -cos(radians(out_angle)), 0])
    square_to_it = np.array([cos(radians(out_angle)), sin(radians(out_angle)), 0])
    force = 1000 * tension * direction
    return force, np.cross(arm * square_to_it, force)[2]


@given(tensions, out_angles, st.floats(6, 20), st.floats(12, 60), st.floats(0, 10), st.floats(-1, 1))
def test_rod_bearing_by_equilibrium(tension, out_angle, bolt, grip, pad, off):
    """A pressure that is a straight line along the bolt and balances the stay, summed numerically."""
    arm = (pad + grip / 2 + 0.999 * off * grip / 6) * cos(radians(out_angle))
    force, moment = pull_on_stub(tension, out_angle, arm)

    def summed(weight):
        return bolt * quad(weight, pad, pad + grip)[0]

    balance = [
        [summed(lambda s: 1), summed(lambda s: s)],
        [summed(lambda s: s), summed(lambda s: s**2)],
    ]
    constant, slope = np.linalg.solve(balance, [-force[1], -moment])
    ends = [constant + slope * pad, constant + slope * (pad + grip)]
    assert rod_bearing(tension, out_angle, bolt, grip, arm, pad) == pytest.approx(max(ends), rel=1e-6)
    assert min(ends) >= -1e-9 * max(ends)


@given(tensions, st.floats(6, 20), st.floats(12, 60), st.floats(1 / 6, 0.49))
def test_rod_bearing_beyond_the_kern_by_equilibrium(tension, bolt, grip, off):
    """A triangle of pressure that ends inside the stub: its sum is the pull, its middle lies under the pull."""
    peak = rod_bearing(tension, 0, bolt, grip, grip / 2 + off * grip)
    long = 3 * (grip / 2 - off * grip)  # of the triangle, from the pressed end
    assert long <= grip * (1 + 1e-9)

    def at(s):
        return bolt * peak * (1 - s / long)

    carried = quad(at, 0, long)[0]
    assert carried / 1000 == pytest.approx(tension)
    assert quad(lambda s: s * at(s), 0, long)[0] / carried == pytest.approx(grip / 2 - off * grip)


@pytest.mark.parametrize("crossing", [-0.01, 20.01])
def test_a_pull_off_the_end_of_the_stub_is_refused(crossing):
    with pytest.raises(BadInput, match=r"10\.01 mm from the middle of the stub.*the grip, 10 mm"):
        rod_bearing(10, 12, 12, 20, (5 + crossing) * cos(radians(12)), 5)


def test_a_pull_at_the_very_end_of_the_stub_is_refused():
    with pytest.raises(BadInput, match="middle of the stub"):
        rod_bearing(10, 0, 12, 20, 20)
    assert rod_bearing(10, 0, 12, 20, 19.9) > 0


def test_rod_bearing_doubles_at_the_edge_of_the_kern():
    # Kern of a rectangle: at a sixth the far edge is just unloaded and the near one bears twice the mean.
    assert rod_bearing(12, 0, 12, 20, 10) == pytest.approx(50)
    assert rod_bearing(12, 0, 12, 20, 10 + 20 / 6 - 1e-9) == pytest.approx(100)
    # Within the kern the pressure is a straight line still: 1 + 6 · 0.15.
    assert rod_bearing(12, 0, 12, 20, 10 + 0.15 * 20) == pytest.approx(95)


@given(st.floats(1, 200), st.floats(4, 20), st.floats(15, 80))
def test_rope_pressure_carries_the_eye(load, rope, rod):
    """The pressure's part along the load, summed over the half of the rod that the eye lies on."""
    pressure = rope_pressure(load, rope, rod)
    carried = quad(lambda angle: pressure * rope * rod / 2 * np.cos(angle), -pi / 2, pi / 2)[0]
    assert carried / 1000 == pytest.approx(load)


def test_bolt_end_to_end():
    # Laid out by hand: 100 mast, each side 2 pad, 24 grip, 9 outside; two nuts of 14.4 and two turns of 1.75.
    ends = bolt_ends(12, 1.75)
    assert ends == pytest.approx(14.4 + 3.5 + 14.4 + 3.5)
    both = sum([ends / 2, 9, 24, 2, 100, 2, 24, 9, ends / 2])
    assert bolt_length(100, 2, 24, 9, ends) == pytest.approx(both)
    assert bolt_length(100, 2, 24, 9, ends, 1) == pytest.approx(both - 35)
    assert bolt_shank(100, 2, 24) == pytest.approx(both - ends - 2 * 9)


@given(tensions, st.floats(0, 40), st.floats(6, 20), st.floats(12, 60))
def test_rod_bearing_does_not_depend_on_units(tension, out_angle, bolt, grip):
    arm = grip / 2 * cos(radians(out_angle))
    metric = rod_bearing(tension, out_angle, bolt, grip, arm)
    inches = rod_bearing(
        f"{tension * 1000 / 4.4482216152605:.12f} lbf",
        f"{out_angle:.12f} deg",
        f"{bolt / 25.4:.12f} in",
        f"{grip / 25.4:.12f} in",
        f"{arm / 25.4:.12f} in",
    )
    assert inches == pytest.approx(metric, rel=1e-8)
