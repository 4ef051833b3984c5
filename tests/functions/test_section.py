"""Section of a mast: polygons of many corners, a wall as thick all round, and tables of round tube."""

from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from loftsheet.errors import BadInput
from loftsheet.section import tube_area, tube_inertia

walls = st.floats(1, 12)
widths = st.floats(50, 300)
slimness = st.floats(0.5, 2)
ROUND = np.linspace(0, 2 * pi, 20_001)


def polygon(bent, across):
    """Area and second moment of an ellipse as a polygon (Green's theorem, as surveyors count a field)."""
    x, y = across / 2 * np.cos(ROUND), bent / 2 * np.sin(ROUND)
    twice = x[:-1] * y[1:] - x[1:] * y[:-1]
    middle = y[:-1] ** 2 + y[:-1] * y[1:] + y[1:] ** 2
    return twice.sum() / 2, (twice * middle).sum() / 12


@given(widths, slimness, walls)
def test_one_ellipse_inside_another_as_polygons(width, slim, wall):
    bent, across = width, width * slim
    outer, hollow = polygon(bent, across), polygon(bent - 2 * wall, across - 2 * wall)
    assert tube_area(bent, across, wall) == pytest.approx(outer[0] - hollow[0], rel=1e-5)
    assert tube_inertia(bent, across, wall) == pytest.approx((outer[1] - hollow[1]) / 1e4, rel=1e-5)


def as_thick_all_round(bent, across, wall):
    """Area and second moment of a wall of one thickness, summed over strips parallel to the outside."""
    turn = (ROUND[:-1] + ROUND[1:]) / 2
    a, b = across / 2, bent / 2
    y, along = b * np.sin(turn), np.hypot(a * np.sin(turn), b * np.cos(turn))
    inward, bend = a * np.sin(turn) / along, a * b / along**3
    strip = along * np.diff(ROUND)
    depths, weights = np.polynomial.legendre.leggauss(8)
    area = inertia = 0.0
    for depth, weight in zip((depths + 1) / 2 * wall, weights / 2 * wall):
        piece = (1 - bend * depth) * strip * weight
        area, inertia = area + piece.sum(), inertia + ((y - depth * inward) ** 2 * piece).sum()
    return area, inertia / 1e4


@given(widths, slimness, st.floats(0.01, 0.05))
def test_a_wall_as_thick_all_round_has_a_few_per_cent_more(width, slim, thin):
    bent, across = width, width * slim
    wall = thin * min(bent, across)
    area, inertia = as_thick_all_round(bent, across, wall)
    assert -1e-6 <= area / tube_area(bent, across, wall) - 1 < 0.03
    assert -1e-6 <= inertia / tube_inertia(bent, across, wall) - 1 < 0.04


@pytest.mark.parametrize("size, wall, area, inertia", [(48.3, 3.2, 4.53, 11.6), (60.3, 3.2, 5.74, 23.5)])
def test_round_tube_as_in_tables(size, wall, area, inertia):
    # EN 10210-2, hot finished round hollow sections, from memory: cm² and cm⁴.
    assert tube_area(size, size, wall) / 100 == pytest.approx(area, abs=0.005)
    assert tube_inertia(size, size, wall) == pytest.approx(inertia, abs=0.05)


def test_a_mast_is_stiffer_fore_and_aft():
    assert tube_inertia(160, 110, 4) > 1.5 * tube_inertia(110, 160, 4)


def test_a_full_bar_and_a_wall_that_is_too_thick():
    assert tube_area(20, 20, 10) == pytest.approx(pi * 100)
    assert tube_inertia("20 mm", "2 cm", 10) == pytest.approx(pi * 20**4 / 64 / 1e4)
    for function in (tube_area, tube_inertia):
        with pytest.raises(BadInput, match=r"two walls of 10\.5 mm.*must be 10 mm or less"):
            function(20, 30, 10.5)
