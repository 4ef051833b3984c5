"""Masts as columns and beam-columns, beside published tables and equations.

S. P. Timoshenko and J. M. Gere, Theory of Elastic Stability, 2nd ed. (1961): chapter 1 (beam-columns), chapter 2
(Euler's column and its end conditions, columns on elastic supports). Pages from memory.
"""

from dataclasses import replace
from math import cos, pi, sin, sqrt, tan

import pytest
from loftsheet.balance.buckling import factor, probe
from loftsheet.balance.equilibrium import Setting, State, compliance, rest, settle
from loftsheet.balance.model import PORT, STARBOARD, Load, Mast, Point, Rig, Stay
from loftsheet.balance.structure import Structure
from scipy.optimize import brentq

HEIGHT, MODULUS, MOMENT = 10_000.0, 70.0, 3e6
EI = MODULUS * MOMENT
STOUT = 1e7  # kN of EA


def column(supports, partners=None, ea=STOUT, loads=()):
    """An upright mast with, at each height, four level stays: forward, aft, port, starboard."""
    mast = Mast("mast", 0, 0, 0, HEIGHT, MODULUS, 1e5, 2 * MOMENT, MOMENT, 4 * MOMENT, partners, 0)
    points, stays = [], []
    for along in supports:
        points += [
            Point(f"at {along}", "mast", 0, 0, along),
            Point(f"fore {along}", "", 2_000, 0, along),
            Point(f"aft {along}", "", -2_000, 0, along),
            Point(f"out {along}", "", 0, 2_000, along),
        ]
        own = ea if along != HEIGHT else STOUT
        for way, side in (("fore", 0), ("aft", 0), ("out", PORT), ("out", STARBOARD)):
            stays.append(Stay(f"{way} {along} {side}", 0, side, (f"at {along}", f"{way} {along}"), own, 0))
    return Structure(Rig((mast,), tuple(points), tuple(stays)))


def pressed(structure, push=1.0):
    """The column under a push from end to end; stays taut and without tension, as mere supports."""
    axial = tuple(-push for _ in structure.beams)
    lines = len(structure.lines)
    return State((0.0,) * lines, axial, (0.0,) * structure.size, (True,) * lines)


def critical(structure):
    return 10 * factor(structure, pressed(structure, 10 * EI / HEIGHT**2), 0)


def overhang(base):
    """Pinned at the foot, held at `base`, free above; in EI/HEIGHT².

    With k² = P/EI, A = k·base and B = k·(HEIGHT − base): above, a slope θ at the partners asks for the moment
    EI·k·θ·tan B; below, that moment turns the end by θ = M/(EI·k)·(1/A − 1/tan A) (Timoshenko & Gere, ch. 1). So
    tan B·(1/A − 1/tan A) = 1.
    """
    a, b = base / HEIGHT, 1 - base / HEIGHT
    found = brentq(
        lambda k: sin(k * b) * (sin(k * a) / (k * a) - cos(k * a)) - cos(k * b) * sin(k * a), 0.1, pi / 2 / b
    )
    return found**2


@pytest.mark.parametrize(
    "supports, partners, expected",
    [
        pytest.param([HEIGHT], None, pi**2, id="pinned and pinned, Euler"),
        pytest.param([HEIGHT / 2, HEIGHT], None, 4 * pi**2, id="held in the middle too"),
        pytest.param([HEIGHT / 3, 2 * HEIGHT / 3, HEIGHT], None, 9 * pi**2, id="held at thirds"),
        pytest.param([HEIGHT], 25.0, 20.19, id="fixed and pinned"),
        pytest.param([], 25.0, pi**2 / 4, id="fixed and free"),
    ],
)
def test_a_column_buckles_as_in_the_book(supports, partners, expected):
    # Fixed: partners a four-hundredth of the length above the foot, which is nearly that.
    # Two beams between supports are 0.75 % too stiff, three 0.2 %.
    assert critical(column(supports, partners)) == pytest.approx(expected, rel=0.009)


@pytest.mark.parametrize("base", [1_000.0, 2_000.0, 4_000.0])
def test_a_mast_through_partners_without_stays_is_a_column_with_an_overhang(base):
    assert critical(column([], base)) == pytest.approx(overhang(base), rel=0.003)


@pytest.mark.parametrize("share", [0.1, 0.4, 0.8])
def test_a_column_on_an_elastic_support_in_the_middle(share):
    # Timoshenko & Gere, ch. 2: from 16·π²·EI/L³ on the support is as good as stiff. Below it, with half the
    # length h and k² = P/EI, the symmetric form gives support = 2·P/(h − tan(k·h)/k).
    support = share * 16 * pi**2 * EI / HEIGHT**3
    half = HEIGHT / 2

    def off(push):
        k = sqrt(push / EI)
        return support * (half - tan(k * half) / k) - 2 * push

    euler = pi**2 * EI / HEIGHT**2
    expected = brentq(off, euler * 1.0001, 4 * euler * 0.9999)
    # Two stays pull against each other, each 2 m long.
    structure = column([half, HEIGHT], ea=support * 2_000 / 2)
    assert critical(structure) * EI / HEIGHT**2 == pytest.approx(expected, rel=0.006)


def test_a_support_stiffer_than_that_is_as_good_as_stiff():
    structure = column([HEIGHT / 2, HEIGHT], ea=1.1 * 16 * pi**2 * EI / HEIGHT**3 * 2_000 / 2)
    assert critical(structure) == pytest.approx(4 * pi**2, rel=0.003)


def test_negative_eigenvalues_are_counted():
    structure = column([HEIGHT])
    state = pressed(structure, EI / HEIGHT**2)
    # Sideways at π², 4·π², 9·π²; fore and aft, twice as stiff, at 2·π², 8·π².
    for push, ways in ((9, 0), (11, 1), (21, 2), (45, 3), (82, 4), (92, 5)):
        assert probe(structure, state, 0, push).ways == ways


def beam_column(push):
    """Displacement there of a column under a push and a side force of 1 kN in the middle."""
    structure = column([HEIGHT])
    load = Load("mast", HEIGHT / 2, 1.0)
    forces = tuple(structure.forces((load,), PORT, 0))
    setting = Setting((0.0,) * 4, (True,) * 4, forces)
    state = pressed(structure, push)
    flexible = compliance(structure, state.axial, state.tensions, [0, 1, 2, 3])
    # Each stay held tight from the start, so that none goes slack.
    moved = rest(structure, replace(setting, take_outs=(1.0,) * 4), flexible, state).moved
    node = structure.node_at(0, HEIGHT / 2)
    return moved[node.places[1]]


# u = (π/2)·√(P/P_E); the factor on the deflection of the beam is 3·(tan u − u)/u³ (Timoshenko & Gere, §1.3).
@pytest.mark.parametrize("share", [0.001, 0.1, 0.3, 0.5, 0.8])
def test_a_side_force_on_a_pressed_column(share):
    u = pi / 2 * sqrt(share)
    grown = 3 * (tan(u) - u) / u**3
    push = share * pi**2 * EI / HEIGHT**2
    expected = HEIGHT**3 / (48 * EI) * grown
    assert beam_column(push) == pytest.approx(expected, rel=0.003)


def test_that_factor_is_the_one_of_the_table():
    # u = 0, 0.5 and 1 give 1.000, 1.111 and 1.672 (from memory of the table of χ(u) in the appendix).
    for u, listed in ((0.5, 1.111), (1.0, 1.672)):
        assert 3 * (tan(u) - u) / u**3 == pytest.approx(listed, abs=0.001)


def test_a_stayed_mast_is_pressed_by_its_own_stays_and_bends_as_that_beam_column():
    """Four stays from the head press the mast; a side force in the middle bends it the more for that."""
    mast = Mast("mast", 0, 0, 0, HEIGHT, MODULUS, 1e5, 2 * MOMENT, MOMENT, 4 * MOMENT, None, 0)
    points = (
        Point("head", "mast", 0, 0, HEIGHT),
        Point("fore", "", 4_000, 0, 0),
        Point("aft", "", -4_000, 0, 0),
        Point("out", "", 0, 4_000, 0),
    )
    sides = (("fore", 0), ("aft", 0), ("out", PORT), ("out", STARBOARD))
    stays = tuple(Stay(f"{way} {side}", 0, side, ("head", way), 8_000.0, 0) for way, side in sides)
    structure = Structure(Rig((mast,), points, stays))
    load = Load("mast", HEIGHT / 2, 0.3)
    setting = Setting((4.0,) * 4, (True,) * 4, tuple(structure.forces((load,), PORT, 0)))
    state = settle(structure, setting)
    push = -state.axial[0]
    share = push / (pi**2 * EI / HEIGHT**2)
    assert 0.3 < share < 0.9
    head, middle = structure.node_at(0, HEIGHT), structure.node_at(0, HEIGHT / 2)
    bow = state.moved[middle.places[1]] - state.moved[head.places[1]] / 2
    u = pi / 2 * sqrt(share)
    assert bow == pytest.approx(0.3 * HEIGHT**3 / (48 * EI) * 3 * (tan(u) - u) / u**3, rel=0.005)
