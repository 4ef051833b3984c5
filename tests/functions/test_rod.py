"""Stubs out of rod: layouts drawn and measured, packing against brute force, the template against points."""

from math import ceil, cos, pi, radians, tan

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from loftsheet.errors import BadInput
from loftsheet.examples import BLANK
from loftsheet.tang import base, mass, rod_lengths, rod_pieces, rod_wrap
from scipy.optimize import brentq
from shapely import Polygon, affinity

rods = st.floats(20, 80)
bevels = st.floats(0, 35)
tops = st.floats(8, 60)
kerfs = st.floats(0.5, 6)


def column(*values):
    return tuple((value,) for value in values)


# Equal stubs out of one length


def side_view(rod, bevel, short_side):
    """The stub from the side, its square end at the left and its long side below."""
    return Polygon([(0, 0), (base(rod, bevel, short_side), 0), (short_side, rod), (0, rod)])


def end_of(pieces, rod, bevel, short_side, kerf):
    """Where the saw has come to after so many stubs: each is pushed up to a kerf from the one before."""
    single = side_view(rod, bevel, short_side)
    turned = affinity.rotate(single, 180, origin=(0, 0))

    def too_far(shift):
        return affinity.translate(turned, shift, rod).distance(single) - kerf

    least = single.bounds[2]
    shift = brentq(too_far, least, 4 * least + 10 * kerf, xtol=1e-12)
    pair = affinity.translate(turned, shift, rod).bounds[2] + kerf
    pairs, alone = divmod(pieces, 2)
    return pairs * pair + alone * (single.bounds[2] + kerf / cos(radians(bevel)))


@given(st.floats(100, 3_000), rods, bevels, tops, kerfs, st.floats(0, 90))
def test_pieces_are_as_many_as_the_drawn_layout_holds(stock, rod, bevel, short_side, kerf, hold):
    pieces = int(rod_pieces(stock, rod, bevel, short_side, kerf, hold))
    assert end_of(pieces, rod, bevel, short_side, kerf) <= stock - hold + 1e-5
    assert end_of(pieces + 1, rod, bevel, short_side, kerf) > stock - hold - 1e-5


@given(st.floats(100, 3_000), rods, bevels, tops, kerfs)
def test_longer_rod_and_shorter_stubs_never_give_fewer(stock, rod, bevel, short_side, kerf):
    pieces = rod_pieces(stock, rod, bevel, short_side, kerf)
    assert rod_pieces(stock + 10, rod, bevel, short_side, kerf) >= pieces
    assert rod_pieces(stock, rod, bevel, short_side + 1, kerf) <= pieces
    assert rod_pieces(stock, rod, bevel, short_side, kerf + 0.5) <= pieces
    assert rod_pieces(stock, rod, bevel, short_side, kerf, 20) <= pieces
    assert pieces * mass(rod, bevel, short_side) <= mass(rod, 0, 300) * stock / 300 * (1 + 1e-9)


@pytest.mark.parametrize("bevel", [0, 12.3, 35])
@pytest.mark.parametrize("pairs", [1, 7, 50])
def test_stock_that_holds_a_whole_number_loses_no_stub_to_binary_fractions(bevel, pairs):
    pair = 2 * 14.1 + 40 * tan(radians(bevel)) + 2.7 + 2.7 / cos(radians(bevel))
    assert rod_pieces(pairs * pair, 40, bevel, 14.1, 2.7) == 2 * pairs
    assert rod_pieces(pairs * pair - 0.001, 40, bevel, 14.1, 2.7) == 2 * pairs - 1


@pytest.mark.parametrize("bevel", [0, 12.3, 35])
def test_stock_that_just_holds_one_stub_and_its_slanted_cut(bevel):
    stock = 14.1 + 40 * tan(radians(bevel)) + 5 / cos(radians(bevel))
    assert rod_pieces(stock - 2e-7, 40, bevel, 14.1, 5) == 1
    assert rod_pieces(stock - 0.001, 40, bevel, 14.1, 5) == 0
    assert rod_lengths(stock - 2e-7, 40, bevel, 14.1, 1.0, 5, 0) == 1
    with pytest.raises(BadInput, match="buy longer stock"):
        rod_lengths(stock - 0.001, 40, bevel, 14.1, 1.0, 5, 0)


def test_no_stub_is_an_answer():
    assert rod_pieces(20, *BLANK) == 0
    assert rod_pieces(50, *BLANK, 3, 60) == 0


def test_square_stubs_are_so_many_slices():
    assert rod_pieces(1_000, 40, 0, 17, 3) == 1_000 // 20


# A mixed list


def used_by(stubs, rod, kerf):
    """Rod used up by these stubs: two of one bevel share a slanted cut, a last one alone needs no square cut."""
    used, alone = 0.0, False
    for lean in {bevel for bevel, _ in stubs}:
        tops_of_bevel = [short_side for bevel, short_side in stubs if bevel == lean]
        slanted = kerf / cos(radians(lean))
        for first in range(0, len(tops_of_bevel), 2):
            pair = tops_of_bevel[first : first + 2]
            if len(pair) == 2:
                used += base(rod, lean, pair[0]) + slanted + pair[1] + kerf
            else:
                used += base(rod, lean, pair[0]) + slanted + kerf
                alone = True
    return used - kerf if alone else used


def fewest(stubs, rod, kerf, usable):
    """The best of all ways to put the stubs into lengths, subset by subset."""
    subsets = range(1 << len(stubs))
    chosen = [[stub for at, stub in enumerate(stubs) if subset >> at & 1] for subset in subsets]
    fits = [used_by(some, rod, kerf) <= usable + 1e-6 for some in chosen]
    best = [0] + [len(stubs)] * (len(subsets) - 1)
    for subset in subsets[1:]:
        first = subset & -subset
        one_length = subset
        while one_length:
            if one_length & first and fits[one_length]:
                best[subset] = min(best[subset], best[subset ^ one_length] + 1)
            one_length = (one_length - 1) & subset
    return best[-1]


def lengths_of(stubs, stock, rod, kerf, hold):
    leans, short_sides = zip(*stubs)
    return rod_lengths(stock, rod, column(*leans), column(*short_sides), column(*[1] * len(stubs)), kerf, hold)


mixed = st.lists(st.tuples(st.sampled_from([0, 8, 12.3, 30]), st.sampled_from([10, 14, 20, 35, 80])), min_size=1)


@given(mixed.filter(lambda stubs: len(stubs) <= 8), st.floats(100, 400), st.sampled_from([20, 40, 60]), kerfs)
def test_a_mixed_list_against_every_assignment(stubs, usable, rod, kerf):
    assume(max(used_by([stub], rod, kerf) for stub in stubs) <= usable)
    best = fewest(stubs, rod, kerf, usable)
    assert best <= lengths_of(stubs, usable + 80, rod, kerf, 80) <= best + 1


@given(st.integers(1, 8), bevels, tops, st.floats(120, 400), rods, kerfs)
def test_equal_stubs_take_the_fewest_lengths(number, bevel, short_side, usable, rod, kerf):
    stubs = [(bevel, short_side)] * number
    assume(used_by(stubs[:1], rod, kerf) <= usable)
    assert lengths_of(stubs, usable + 80, rod, kerf, 80) == fewest(stubs, rod, kerf, usable)


@given(st.integers(1, 200), st.floats(120, 2_000), rods, bevels, tops, kerfs, st.floats(0, 20))
def test_lengths_of_equal_stubs_are_what_pieces_make_of_it(number, stock, rod, bevel, short_side, kerf, hold):
    pieces = rod_pieces(stock, rod, bevel, short_side, kerf, hold)
    assume(pieces)
    lengths = rod_lengths(stock, rod, bevel, short_side, float(number), kerf, hold)
    assert lengths == ceil(number / pieces)


rows = st.lists(st.tuples(bevels, tops, st.integers(0, 40)), min_size=1, max_size=6)


@given(rows, st.floats(200, 2_000), rods, kerfs)
def test_never_fewer_lengths_than_the_volume_allows(rows, usable, rod, kerf):
    leans, short_sides, numbers = (column(*cells) for cells in zip(*rows))
    lengths = rod_lengths(usable + 80, rod, leans, short_sides, numbers, kerf)
    bought = lengths * usable / 300 * mass(rod, 0, 300)
    assert bought * (1 + 1e-9) >= sum(number * mass(rod, lean, top) for lean, top, number in rows)
    assert lengths <= sum(number for *_, number in rows)


@given(rows, st.floats(200, 2_000), rods, st.randoms())
def test_the_order_of_the_rows_does_not_matter(rows, stock, rod, random):
    def lengths():
        return rod_lengths(stock, rod, *(column(*cells) for cells in zip(*rows)), 3.0, 0.0)

    first = lengths()
    random.shuffle(rows)
    assert lengths() == first


def test_two_equal_rows_are_one_of_twice_as_many():
    one_row = rod_lengths(500, 50, column(12.3), column(14), column(40), 3, 0)
    assert rod_lengths(500, 50, column(12.3, 12.3), column(14, 14), column(20, 20), 3, 0) == one_row == 2


def test_the_longest_stubs_go_in_first():
    # By hand: 60 + 40, 60 + 40 and 50 + 50 fill three lengths; taken as they stand, 40 + 40, 60, 60 and 50 + 50
    # are four. Square stubs, two cuts of 2 mm in each length.
    assert rod_lengths(104, 50, column(0, 0, 0), column(40, 60, 50), column(2, 2, 2), 2, 0) == 3


def test_the_bevel_with_the_longest_stub_goes_in_first():
    # By hand: a stub of 80 mm leaves some 60 of 150 mm, room for one of 30; a pair of 30 first leaves no room for
    # it.
    assert rod_lengths(150, 20, column(20, 10), column(30, 80), column(2, 2), 2, 0) == 2
    # The longest of a bevel decides, not its shortest: three of 60 mm, with 30 mm beside two of them, 20 beside
    # one.
    assert rod_lengths(120, 20, column(20, 10, 10), column(30, 60, 20), column(2, 3, 1), 2, 0) == 3


def test_equal_bevels_are_cut_back_to_back_though_tops_differ():
    # By hand: 2 · 50·tan 12.3° more if each of the four had a slanted cut of its own.
    two_pairs = 2 * (14 + 24) + 2 * 50 * tan(radians(12.3)) + 2 * (3 + 3 / cos(radians(12.3)))
    leans, short_sides, numbers = column(12.3, 12.3), column(14, 24), column(2, 2)
    assert rod_lengths(two_pairs, 50, leans, short_sides, numbers, 3, 0) == 1
    assert rod_lengths(two_pairs - 0.1, 50, leans, short_sides, numbers, 3, 0) == 2


def test_rows_without_stubs_are_skipped():
    leans, short_sides, numbers = column(12.3, "", 20, ""), column(14, "", 18, None), column(20, "", 0, 0)
    assert rod_lengths(500, 50, leans, short_sides, numbers, 3, 0) == 1
    assert rod_lengths(500, 50, column(""), column(""), column("")) == 0


@pytest.mark.parametrize("row", [("", 14, 2), (12.3, "", 2), (12.3, 14, "")])
def test_half_a_row_is_refused(row):
    leans, short_sides, numbers = (column(full, cell) for full, cell in zip((12.3, 14, 2), row))
    with pytest.raises(BadInput, match="row 2 of the ranges is half empty"):
        rod_lengths(500, 50, leans, short_sides, numbers)


def test_ranges_of_different_height_are_refused():
    with pytest.raises(BadInput, match="2, 1 and 1 cells"):
        rod_lengths(500, 50, column(12.3, 12.3), column(14), column(2))


@pytest.mark.parametrize("stock, hold", [(105, 80), (60, 80)])
def test_a_stub_longer_than_the_rod_is_refused(stock, hold):
    with pytest.raises(BadInput, match="buy longer stock"):
        rod_lengths(stock, *(50, column(12.3), column(14), column(1)), 3, hold)


@pytest.mark.parametrize("numbers", [(1.5,), (-1,), ("two",)])
def test_parts_of_a_stub_are_refused(numbers):
    with pytest.raises(BadInput, match="counts"):
        rod_lengths(500, 50, column(12.3), column(14), column(*numbers))


def test_measures_in_words_within_a_range():
    plain = rod_lengths(508, 38.1, column(12.3), column(15.875), column(30))
    assert rod_lengths("20 in", "1 1/2 in", column("12.3 °"), column("5/8 in"), column(30)) == plain > 1


# The template


def height_at(turn, rod, bevel):
    """How far the cut is along the rod, `turn` radians round from the short side: a line meets a plane."""
    lean = radians(bevel)
    axis = np.array([cos(lean), np.sin(lean), 0])
    across, fore = np.array([-np.sin(lean), cos(lean), 0]), np.array([0, 0, 1])
    side = rod / 2 * (np.cos(turn) * across + np.sin(turn) * fore)
    return side[0] / axis[0]


@given(rods, bevels, st.integers(5, 361))
def test_wrapped_round_the_rod_the_template_lies_in_the_plane_of_the_cut(rod, bevel, points):
    template = rod_wrap(rod, bevel, float(points))
    assert len(template) == points
    short_side = height_at(0, rod, bevel)
    for distance, height in template:
        turn = distance / (rod / 2)
        assert height == pytest.approx(height_at(turn, rod, bevel) - short_side, abs=1e-9)
    assert np.ptp([distance for distance, _ in template]) == pytest.approx(pi * rod)
    assert np.diff([distance for distance, _ in template]) == pytest.approx(pi * rod / (points - 1))


@given(rods, bevels)
def test_template_and_base_agree(rod, bevel):
    heights = [height for _, height in rod_wrap(rod, bevel)]
    assert len(heights) == 25
    assert (heights[0], heights[-1]) == pytest.approx((0, 0), abs=1e-9)
    assert max(heights) == heights[12] == pytest.approx(base(rod, bevel, 14) - 14)
    assert heights == pytest.approx(heights[::-1], abs=1e-9)


def test_no_bevel_is_a_straight_line():
    assert {height for _, height in rod_wrap(50, 0)} == {0}


@pytest.mark.parametrize("points", [4, 362, 24.5])
def test_numbers_of_points_that_make_no_template(points):
    with pytest.raises(BadInput, match="points"):
        rod_wrap(50, 12.3, points)
