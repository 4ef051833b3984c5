"""Facts of the trade as check values, each once. Common practice, no source: all of them."""

import pytest
from loftsheet.eye import eye_length
from loftsheet.stretch import tension_after
from loftsheet.tang import base, bevel, drop, gap, hole, ligament, rod_pieces, thrust, top, upright

# A stub that is made for a rope of 9 mm in a sleeve of 1 mm: rod, bevel, top.
MADE = (60, 14.5, 14)


def test_the_two_sides_of_the_stub():
    # The short side holds the sleeved rope with some play beside it, the long side follows from it.
    play = MADE[2] - top(9, 14.5, 1, 0)
    assert 0 < play < 3
    assert base(*MADE) == pytest.approx(29.5, abs=0.05)


@pytest.mark.parametrize("out_angle", [11, 12, 13])
def test_one_bevel_for_stays_of_nearly_the_same_angle(out_angle):
    # Within 1.5° of what is asked for here, and none of them slides off the end.
    assert bevel(out_angle) == pytest.approx(14.5, abs=1.5)
    assert thrust(20, out_angle, 14.5) > 0
    assert thrust(20, 16, 14.5) < 0


def test_the_height_of_the_bolt():
    # 12 mm of rod stand above a hole of 13 mm, and the loaded stub does not turn over.
    assert ligament(18.5, 13) == 12
    assert hole(*MADE) > 18.5
    assert upright(*MADE, 18.5) > 0


def test_a_stop_close_above_the_bolt():
    # 30 mm of room: the rope goes by with the hole 15 mm down and does not with 18, a little less easily outboard.
    _, lean, short_side = MADE
    assert gap(30, lean, short_side, 15, 9) > 0
    assert gap(30, lean, short_side, 18, 9) < 0
    innermost = top(9, lean, 1, 0)
    assert 0 < gap(30, lean, innermost, 15, 9) - gap(30, lean, short_side, 15, 9) < 2
    assert 15 < hole(*MADE, 30, 9, 1, 0, 0) < 18


@pytest.mark.parametrize("down", [15, 18.5])
@pytest.mark.parametrize("widest", [20, 30])
def test_the_eye_caught_by_the_bolt(down, widest):
    # Some 20 to 30 mm of slack: more than an invented stay of 9 m, EA 3000 kN and 5 kN has in it.
    slack = drop(*MADE, down, eye_length(60, 9, widest), 12, 9)
    assert 15 < slack < 35
    assert tension_after(5, slack, 9_000, 3_000) == 0


def test_the_stubs_in_half_a_metre_of_rod():
    # Some 20 with bevels back to back; 14 if each has a slanted and a square cut to itself.
    assert rod_pieces(500, *MADE) == 20
    each_by_itself = base(*MADE) + 3 / 0.968 + 3  # cos 14.5° from any table
    assert 500 // each_by_itself == 14
