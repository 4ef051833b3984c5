"""Lashing: circles packed into a circle, and what is between eye and rim."""

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from loftsheet.errors import BadInput
from loftsheet.lashing import lashing_close, lashing_hole, lashing_room
from scipy.optimize import minimize


def widest(number, start):
    """Radius of so many equal circles in a circle of radius 1, from one start, by a general optimiser."""
    one, other = np.array(list(combinations(range(number), 2))).T
    rows, every = np.arange(len(one)), np.arange(number)

    def room(given):
        places = given[:-1].reshape(number, 2)
        gaps = np.hypot(*(places[one] - places[other]).T) - 2 * given[-1]
        return np.concatenate([gaps, 1 - given[-1] - np.hypot(*places.T)])

    def slope(given):
        places = given[:-1].reshape(number, 2)
        across = (places[one] - places[other]) / np.hypot(*(places[one] - places[other]).T)[:, None]
        outward = places / np.hypot(*places.T)[:, None]
        found = np.zeros((len(one) + number, number, 2))
        found[rows, one], found[rows, other], found[len(one) + every, every] = across, -across, -outward
        last = np.concatenate([np.full(len(one), -2.0), np.full(number, -1.0)])
        return np.column_stack([found.reshape(len(last), -1), last])

    found = minimize(
        lambda given: -given[-1],
        start,
        jac=lambda _: np.append(np.zeros(2 * number), -1.0),
        constraints={"type": "ineq", "fun": room, "jac": slope},
        method="SLSQP",
    )
    return found.x[-1] if room(found.x).min() > -1e-7 else 0.0


@pytest.mark.parametrize("passes", range(2, 14))
def test_smallest_hole_by_packing_circles(passes):
    """A general optimiser comes to the published packing, and not to a better one on its way."""
    random = np.random.default_rng(passes)
    starts = (np.append(random.uniform(-0.6, 0.6, 2 * passes), 0.1) for _ in range(60))
    hole = lashing_hole(2 * (passes - 1), 1)
    found = (1 / (widest(passes, start) or 0.001) for start in starts)
    assert next(one for one in found if one < hole * (1 + 2e-6)) == pytest.approx(hole, rel=2e-6)


@pytest.mark.parametrize(
    "passes, ratio",
    enumerate((1, 2, 2.1547, 2.4142, 2.7013, 3, 3, 3.3048, 3.6131, 3.8130, 3.9238, 4.0296, 4.2361), start=1),
)
def test_packings_as_published(passes, ratio):
    # R. L. Graham, B. D. Lubachevsky, K. J. Nurmela, P. R. J. Östergård, Dense packings of congruent circles in a
    # circle, Discrete Mathematics 181 (1998), table of radii, from memory.
    for parts in {2 * passes - 2, 2 * passes - 1} - {0}:
        if parts <= 24:
            assert lashing_hole(parts, 10) == pytest.approx(10 * ratio, abs=5e-4)


@pytest.mark.parametrize("passes", (14, 19, 20, 37))
def test_above_thirteen_passes_there_is_room(passes):
    """Lines laid round one: 6 and 12 close together, or hexagons of 6, 12 and 18; none on another, all inside."""
    ring = lambda number, radius, start: radius * np.exp(2j * np.pi * (np.arange(number) + start) / number)  # noqa: E731
    corner = np.exp(1j * np.pi / 3 * np.arange(6))
    if passes < 20:
        middles = np.concatenate([[0], ring(6, 1, 0.25), ring(12, (np.sqrt(2) + np.sqrt(6)) / 2, 0)])
    else:
        step = np.roll(corner, -2)
        middles = np.concatenate([[0], *(n * corner + k * step for n in (1, 2, 3) for k in range(n))])
    one, other = np.array(list(combinations(middles[:passes], 2))).T
    assert np.abs(one - other).min() > 1 - 1e-9
    assert 2 * np.abs(middles[:passes]).max() + 1 <= lashing_hole(1, 1, passes) + 1e-9
    assert lashing_hole(1, 1, passes) <= 1.5 * lashing_hole(1, 1, 13) * np.sqrt(passes / 13)


def test_lashings_share_a_hole():
    # Two of six parts pass 4 + 4 times, as one of 14 or 15 parts does.
    assert lashing_hole(6, 6, 2) == lashing_hole(14, 6) == pytest.approx(19.83, abs=0.01)
    with pytest.raises(BadInput, match="pass 39 times, allowed in one hole are up to 37"):
        lashing_hole(24, 6, 3)


@given(st.floats(1, 100), st.floats(1, 20))
def test_the_room_is_for_these_parts_and_not_for_more(hole, line):
    parts = lashing_room(hole, line)
    assert parts == int(parts)
    assert parts == 0 or lashing_hole(parts, line) <= hole * (1 + 1e-9)
    assert parts == 24 or lashing_hole(parts + 1, line) > hole


def test_a_line_of_12_in_a_hole_of_18():
    # One pass: the line is as thick as two thirds of the hole. Four parts go through three times: 25.9 mm.
    assert lashing_room(18, 12) == 1
    assert lashing_hole(4, 12) == pytest.approx(25.86, abs=0.01)
    assert lashing_room(18, 6) == 13
    assert lashing_room(11.9, 12) == 0
    assert lashing_room(300, 1) == 24


@given(st.floats(60, 400), st.floats(20, 60), st.floats(4, 14), st.floats(0, 2), st.floats(0, 30))
def test_what_is_left_to_close_by_points(gap, ring, rope, sleeve, edge):
    """Heights along the lashing: the eye's underside and the plate's rim come together."""
    middle_of_ring = gap
    underside = middle_of_ring - ring / 2 - sleeve - rope - sleeve
    assert lashing_close(gap, ring, rope, edge, sleeve) == pytest.approx(underside - edge, abs=1e-9)


def test_closing_by_hand():
    # 64 mm between the middles, a ring of 34 with 8 mm rope in a 1 mm sleeve, a plate's rim 14 mm from its hole.
    assert lashing_close(64, 34, 8, 14) == pytest.approx(23)
    assert lashing_close(64, 34, 8, 40) == pytest.approx(-3)
