"""Bolt and rod as made: classes of the standards, the bolt as a beam, slips of the hand."""

from math import cos, radians, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from loftsheet.bolt import bolt_capacity, bolt_core, bolt_shank, pin_bending, rod_bearing, rope_pressure
from loftsheet.errors import BadInput, NotInTable
from loftsheet.fastening import (
    bolt_bending,
    bolt_figures,
    bolt_margin,
    bolt_plain,
    bolt_proof,
    bolt_strength,
    rod_margin,
    rod_shear,
)
from scipy.integrate import trapezoid

capacities = st.floats(20, 500)
pads, grips, offs, shares = st.floats(0, 12), st.floats(10, 40), st.floats(-1 / 6, 1 / 6), st.floats(0, 1.2)


@pytest.mark.parametrize(
    ("property_class", "strength", "proof"),
    [
        # EN 1993-1-8 table 3.1, nominal fub and fyb.
        (4.6, 400, 240),
        (4.8, 400, 320),
        (5.6, 500, 300),
        (5.8, 500, 400),
        (6.8, 600, 480),
        (8.8, 800, 640),
        (10.9, 1000, 900),
        # ISO 3506-1: the number is a tenth of the strength; the proof stress from memory.
        (50, 500, 210),
        (70, 700, 450),
        (80, 800, 600),
        (100, 1000, 800),
    ],
)
def test_what_a_class_promises(property_class, strength, proof):
    assert (bolt_strength(property_class), bolt_proof(property_class)) == (strength, proof)
    assert bolt_figures(strength, proof, property_class) == "plausible"


@pytest.mark.parametrize("property_class", [4.6, 4.8, 5.6, 5.8, 6.8, 8.8, 10.9])
def test_the_mark_of_a_steel_bolt_says_it_itself(property_class):
    # ISO 898-1: before the point a hundredth of the strength, after it the yield in tenths of that.
    hundreds, tenths = divmod(round(10 * property_class), 10)
    assert bolt_strength(property_class) == 100 * hundreds
    assert bolt_proof(property_class) == pytest.approx(100 * hundreds * tenths / 10)


def test_a_class_that_there_is_not_names_those_there_are():
    with pytest.raises(NotInTable, match=r"class 75 is not known; known are .*70, 80"):
        bolt_proof(75)


def test_annealed_bar_has_a_third_of_a_work_hardened_bolt():
    # EN 10088-3, annealed bar of 1.4401: 200 MPa, from memory.
    assert 200 / bolt_proof(80) == pytest.approx(1 / 3)


@pytest.mark.parametrize(
    ("figures", "words"),
    [
        ((1250, 1400, 70), ("must be below the strength", "far above the 700 MPa of class 70")),
        ((1250, 1100, 70), ("probably a typing error",)),
        ((450, 700, 70), ("exchanged", "promises a strength of 700 MPa, 450")),
        ((700, 210, 70), ("promises a proof stress of 450 MPa, 210",)),
        ((600, 450), ("more than annealed bar has",)),
        ((600, 700), ("must be below the strength", "more than annealed bar")),
    ],
)
def test_a_slip_in_a_bolts_figures_is_seen(figures, words):
    assert all(part in bolt_figures(*figures) for part in words)


@pytest.mark.parametrize("figures", [(700, 450, 70), (860, 640, 70), (800, 600, 80), (820, 660, 8.8), (560, 240)])
def test_sound_figures_are_not_questioned(figures):
    assert bolt_figures(*figures) == "plausible"


@pytest.mark.parametrize(
    ("length", "diameter", "thread"), [(80, 12, 30), (125, 12, 30), (150, 16, 44), (200, 20, 52), (220, 20, 65)]
)
def test_thread_of_a_stocked_bolt(length, diameter, thread):
    # ISO 4014, b (reference): M12 30, 36, M16 38, 44, M20 46, 52, 65, from memory.
    assert bolt_plain(length, diameter) == length - thread


def test_no_catalogue_has_the_shank_of_a_bolt_through_a_mast():
    # A stub on either side of a 120 mm mast: nuts and thread at both ends, no more than 16 mm each.
    wanted = bolt_shank(120, 3, 20)
    assert bolt_plain(wanted + 2 * 16 + 24, 12) < wanted + 16
    assert bolt_plain(20, 12) < 0


# The bolt as a beam


def moments(arm, pad, grip):
    """Moments along the bolt for a pull of 1, pressed upon along the grip in a straight line, by summing up."""
    places = np.linspace(pad, pad + grip, 4_001)
    off = (arm - pad - grip / 2) / grip
    pressure = 1 + 12 * off * ((places - pad) / grip - 0.5)
    pressure /= trapezoid(pressure, places)

    return lambda where: trapezoid(pressure * np.clip(places - where, 0, None), places)


@given(pads, grips, offs, shares, st.floats(8, 24), st.floats(1, 2))
def test_shank_and_thread_hold_their_part_of_the_moment(pad, grip, off, share, size, pitch):
    arm = pad + grip * (0.5 + off)
    plain = share * (pad + grip)
    moment_at = moments(arm, pad, grip)
    shank, core = pin_bending(size, 450), pin_bending(bolt_core(size, pitch), 450)
    at_thread = moment_at(plain)
    exact = min(shank, core / at_thread * arm) if at_thread > 1e-9 else shank
    held = bolt_bending(size, pitch, 450, arm, plain, pad, grip)
    assert held <= exact * (1 + 1e-5)
    if plain == 0 or plain >= pad + grip:
        assert held == pytest.approx(exact)
    elif plain <= pad:
        assert held == pytest.approx(exact, rel=1e-4)


def test_thread_at_the_wall_takes_nearly_half_of_an_m12():
    thread = bolt_bending(12, 1.75, 450, 30, 0, 5, 20)
    plain = bolt_bending(12, 1.75, 450, 30, 25, 5, 20)
    assert plain == pin_bending(12, 450)
    assert thread == pytest.approx(pin_bending(bolt_core(12, 1.75), 450), rel=1e-6)
    assert 1 - thread / plain == pytest.approx(1 - (9.853 / 12) ** 3, abs=1e-3)
    assert thread < bolt_bending(12, 1.75, 450, 30, 3, 5, 20) < plain
    assert bolt_bending(12, 1.75, 450, 30, 0, 5, 20, 1.25, 0.8) == pytest.approx(thread * 0.8 / 1.5 / 1.25)


def test_what_cannot_be_a_bolt_or_a_lever_is_refused():
    with pytest.raises(BadInput, match="third of the diameter"):
        bolt_bending(12, 5, 450, 30, 0, 5, 20)
    with pytest.raises(BadInput, match="ends before the stub"):
        bolt_bending(12, 1.75, 450, 5, 0, 5, 20)


@given(st.floats(0.5, 60), st.floats(1, 80), st.floats(0, 45), capacities, capacities, capacities)
def test_margin_of_the_bolt_is_its_capacity_over_the_pull(tension, arm, out_angle, bending, shear, pull):
    margin = bolt_margin(
        tension * arm,
        tension * cos(radians(out_angle)),
        tension * sin(radians(out_angle)),
        bending,
        shear,
        pull,
    )
    assert margin == pytest.approx(bolt_capacity(arm, out_angle, bending, shear, pull) / tension)


def test_a_bolt_at_the_edge_of_the_published_rules():
    # EN 1993-1-8 table 3.10: a 3-4-5 triangle lies on the quarter circle of bending and shear.
    assert bolt_margin(60, 8, 0, 100, 10, 50) == pytest.approx(1)
    # Table 3.4: Fv/FvR + Ft/(1.4 · FtR) = 0.5 + 0.7/1.4, with next to no bending.
    assert bolt_margin(1e-9, 5, 35, 1e6, 10, 50) == pytest.approx(1)


# The rod


@given(st.floats(1, 60), st.floats(0, 45), st.floats(5, 30), st.floats(10, 40))
def test_shear_on_two_planes_gives_the_pull_back(tension, out_angle, ligament, grip):
    stress = rod_shear(tension, out_angle, ligament, grip)
    assert 2 * stress * ligament * grip / 1000 == pytest.approx(tension * cos(radians(out_angle)))


def test_the_rods_margin_is_its_weaker_way():
    assert rod_margin(60, 240) == 4
    assert rod_margin(60, 240, 20, 60) == 3
    assert rod_margin(60, 240, 20, 100) == 4
    with pytest.raises(BadInput, match="belong together"):
        rod_margin(60, 240, 20)


def test_pressures_that_the_rods_margin_compares():
    bolt, rope = rod_bearing(10, 12, 12, 20.6, 15, 3), rope_pressure(10, 8, 44)
    assert bolt > rope
    # Both grow as the load does, so the load may grow by what the margin says.
    times = rod_margin(bolt, 200)
    assert rod_bearing(10 * times, 12, 12, 20.6, 15, 3) == pytest.approx(200)


def test_where_a_figure_becomes_a_slip():
    assert bolt_figures(945, 450, 70) == "plausible"
    assert "typing error" in bolt_figures(945.1, 450, 70)
    assert "promises a strength" in bolt_figures(699.9, 450, 70)
    assert "promises a proof stress" in bolt_figures(700, 449.9, 70)
    assert bolt_figures(700, 350) == "plausible"
    assert "annealed" in bolt_figures(700, 350.1)
    assert "must be below" in bolt_figures(300, 300)


def test_a_longer_bolt_has_more_thread():
    assert bolt_plain(125, 12) - bolt_plain(125.1, 12) == pytest.approx(6 - 0.1)
    assert bolt_plain(200, 12) - bolt_plain(200.1, 12) == pytest.approx(13 - 0.1)


def test_edges_of_pitch_and_lever():
    assert bolt_bending(12, 4, 450, 30, 0, 5, 20) > 0
    assert bolt_bending(12, 1.75, 450, 5.1, 0, 5, 20) > 0
    # Thread that begins at the stub, at its middle and at its end: the shank is never asked for more than it has.
    at_stub, at_middle, at_end = (bolt_bending(12, 3, 450, 15, plain, 5, 20) for plain in (5, 15, 25))
    core = pin_bending(bolt_core(12, 3), 450)
    assert at_stub == pytest.approx(core / (2 / 3))
    assert at_middle == pytest.approx(min(pin_bending(12, 450), core * 3))
    assert at_end == pin_bending(12, 450)
