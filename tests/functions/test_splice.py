"""Splice: rules of the handbooks, and the bench marks spliced together again by hand."""

from fractions import Fraction
from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from loftsheet.errors import BadInput
from loftsheet.splice import (
    bench,
    bench_tension,
    bury,
    bury_mark,
    cut,
    fid,
    span,
    taper,
    trial_set,
    trial_takeup,
)
from scipy import constants

STAY = {
    "span": st.floats(3000, 20_000),
    "eye_a": st.floats(60, 400),
    "eye_b": st.floats(60, 400),
    "bury": st.floats(250, 1400),
    "stretch": st.floats(0.001, 0.1),
    "take_up": st.floats(0.01, 0.3),
    "waste": st.floats(0, 200),
}
stays = st.fixed_dictionaries(STAY).filter(lambda stay: stay["span"] >= 2 * stay["bury"])


@pytest.mark.parametrize("rope, tail", [(6, 432), (8, 576), (10, 720), (12, 864)])
def test_bury_of_high_modulus_rope(rope, tail):
    # B. Toss, The Complete Rigger's Apprentice (2016), p. 105
    assert bury(rope) == tail


def test_where_the_tail_goes_in():
    # B. Toss, The Complete Rigger's Apprentice (2016), p. 104: a third more than the tail, for every
    # braid
    assert bury_mark(432) == pytest.approx(576)


def test_a_fid_and_three_and_a_half():
    # common practice, no source; B. Merry, The Splicing Handbook, p. 22 (edition not noted)
    assert fid(6) == 126
    assert 3.5 * fid(6) == 441


@given(st.floats(3, 40))
def test_seven_circumferences_are_more_than_a_fid(rope):
    # common practice, no source: both rules are in use, 4.7 % apart
    circumferences = fid(rope, 7 * pi)
    assert circumferences == pytest.approx(7 * pi * rope)
    assert circumferences / fid(rope) == pytest.approx(1.047, abs=0.0005)


def test_the_shortest_bury_with_full_strength():
    # Practical Sailor, advice column on short splices (issue not noted): 45 diameters with lock stitching
    assert bury(10, 45) == 450
    # B. Toss, The Complete Rigger's Apprentice (2016), p. 105: 24 diameters are for ordinary braid
    for diameters in (24, 44.9, 0):
        with pytest.raises(BadInput, match="45"):
            bury(10, diameters)


@given(st.floats(200, 1500), st.floats(0.05, 1))
def test_taper_is_its_part_of_the_bury(tail, part):
    assert taper(tail) * 3 == pytest.approx(tail)
    assert taper(tail, part) / tail == pytest.approx(part)


@pytest.mark.parametrize("rope", [5, 8, 12, 25.4])
def test_light_measuring_tension(rope):
    # Cordage Institute CI 1500, from memory: 200·D² lb, D in inches
    pounds = 200 * (rope * 1e-3 / constants.inch) ** 2
    assert bench_tension(rope) == pytest.approx(pounds * constants.pound_force / 1000, rel=1e-3)


@pytest.mark.parametrize("rope, measured", [(8, 40), (10, 60), (12, 90)])
def test_the_light_tension_is_far_below_what_is_held_for_long(rope, measured):
    # invented breaking loads in the usual band of 12-strand HMPE; common practice, no source
    assert bench_tension(rope) < 0.01 * measured


@given(st.floats(500, 5000), st.floats(0.01, 0.3), st.floats(0.01, 0.1))
def test_a_trial_splice_gives_back_what_was_put_in(tail, take_up, lasting):
    host = 1.5 * tail
    assert trial_takeup(host, host - take_up * tail, tail) == pytest.approx(take_up)
    assert trial_set(tail, tail * (1 + lasting)) == pytest.approx(lasting)


def test_a_trial_that_cannot_be():
    for after in (1000, 1001):
        with pytest.raises(BadInput, match="makes it shorter"):
            trial_takeup(1000, after, 500)
    with pytest.raises(BadInput, match="outside the bury"):
        trial_takeup(600, 490, 500)
    assert trial_takeup(600, 500, 500) == pytest.approx(0.2)
    with pytest.raises(BadInput, match="makes it longer"):
        trial_set(1000, 999)
    assert trial_set(1000, 1000) == 0


@given(st.integers(5000, 20_000), st.integers(50, 300), st.integers(50, 300), st.integers(0, 300))
def test_all_that_lies_between_the_centres(centres, reach_a, reach_b, lower):
    assert reach_a + span(centres, reach_a, reach_b, lower) + reach_b + lower == centres


def test_span_between_two_throats_in_space():
    """The throats as points on the line between two fittings; toggle and lashing lie below the lower one."""
    upper, lower = np.array([-225.0, 55.0, 12_900.0]), np.array([-205.0, 1_480.0, -48.0])
    along = (lower - upper) / np.linalg.norm(lower - upper)
    throats = upper + 122 * along, lower - (60 + 98) * along
    expected = np.linalg.norm(throats[1] - throats[0])
    assert span(float(np.linalg.norm(lower - upper)), 122, 98, 60) == pytest.approx(expected)


def test_a_stay_with_nothing_between_its_throats():
    for lower in (100, 101):
        with pytest.raises(BadInput, match="above 0"):
            span(300, 100, 100, lower)
    assert span(300, 100, 100, 99.5) == 0.5


def test_a_cut_length_added_up_by_hand():
    # invented stay: 9180 mm at 2 % is 9000 on the bench, eyes 2·(140 + 160), buries 2·792, waste 100
    assert cut(9180, 140, 160, 720, 0.02) == pytest.approx(9000 + 600 + 1584 + 100)


@given(stays)
def test_the_marks_end_where_the_rope_does(stay):
    rows = bench(**stay)
    assert rows[0] == ("end A", 0.0)
    assert rows[-1] == ("end B", cut(**stay))


@given(stays)
def test_the_marks_spliced_together_give_the_stay(stay):
    at = dict(bench(**stay))
    tail, standing = {}, {}
    for end in "AB":
        tail[end], standing[end] = at[f"throat {end}, tail"], at[f"throat {end}, standing part"]
        assert abs(tail[end] - at[f"tail tip {end}"]) == pytest.approx(stay["bury"])
        assert abs(at[f"tail tip {end}"] - at[f"end {end}"]) == pytest.approx(stay["waste"], abs=1e-9)
        eye = stay[f"eye_{end.lower()}"]
        assert abs(standing[end] - tail[end]) == pytest.approx(2 * eye)
        assert abs(at[f"crown {end}"] - tail[end]) == pytest.approx(eye)
        assert abs(at[f"fid entry {end}"] - standing[end]) == pytest.approx(stay["bury"] * 4 / 3)
        # a sixth of the bury is common practice, no source
        assert abs(at[f"lock stitch end {end}"] - standing[end]) == pytest.approx(stay["bury"] / 6)
        assert abs(at[f"taper start {end}"] - at[f"tail tip {end}"]) == pytest.approx(taper(stay["bury"]))
    between = standing["B"] - standing["A"]
    shortened = between - 2 * stay["take_up"] * stay["bury"]
    assert shortened * (1 + stay["stretch"]) == pytest.approx(stay["span"])


@given(stays)
def test_the_rope_seen_from_end_b_is_the_stay_turned_round(stay):
    turned = {**stay, "eye_a": stay["eye_b"], "eye_b": stay["eye_a"]}
    whole = cut(**stay)
    swap = str.maketrans("AB", "BA")
    mirrored = {name.translate(swap): whole - distance for name, distance in bench(**turned)}
    assert dict(bench(**stay)) == pytest.approx(mirrored, abs=1e-6)


@given(stays)
def test_the_marks_stand_in_order_and_are_plain(stay):
    rows = bench(**stay)
    distances = [distance for _, distance in rows]
    assert distances == sorted(distances)
    assert len({name for name, _ in rows}) == len(rows) == 16
    assert all(type(name) is str and type(distance) is float for name, distance in rows)


def test_the_marks_of_a_long_stay_in_the_order_of_the_work():
    names = [name for name, _ in bench(9180, 140, 160, 720, 0.02)]
    one_end = ["end", "tail tip", "taper start", "throat", "crown", "throat", "lock stitch end", "fid entry"]
    assert [name.split(" A")[0] for name in names[:8]] == one_end
    assert [name.split(" B")[0] for name in names[8:]] == one_end[::-1]


def test_buries_that_meet_are_refused():
    assert cut(1440, 140, 140, 720, 0.02) > 1440
    for function in (cut, bench):
        with pytest.raises(BadInput, match="would meet; it must be at least 1440 mm"):
            function(1439.9, 140, 140, 720, 0.02)


def test_the_tail_must_not_stick_out_where_the_fid_went_in():
    with pytest.raises(BadInput, match=r"1 \+ take-up, 1\.2; the tail would stick out"):
        bench(9000, 140, 140, 720, 0.02, 0.2, 50, 1 / 3, 1.2)
    assert bench(9000, 140, 140, 720, 0.02, 0.2, 50, 1 / 3, 1.21)


@given(stays, st.floats(1.001, 1.2))
def test_what_makes_the_rope_longer_and_what_shorter(stay, more):
    whole = cut(**stay)
    assert cut(**{**stay, "span": stay["span"] * more}) > whole
    assert cut(**{**stay, "take_up": min(0.3, stay["take_up"] * more)}) >= whole
    assert cut(**{**stay, "stretch": stay["stretch"] * more}) < whole


@given(stays)
def test_a_blank_where_a_trial_figure_is_due_is_no_figure(stay):
    for name in ("stretch", "take_up"):
        with pytest.raises(BadInput, match=name):
            cut(**{**stay, name: 0})


@given(st.integers(1, 60), st.integers(1, 16))
def test_inches_give_what_millimetres_give(inches, sixteenths):
    eye = inches + Fraction(sixteenths, 17)
    words = f"{inches} {sixteenths}/17 in"
    assert cut("30 ft", words, words, "2 ft", "2 %") == pytest.approx(
        cut(9144, float(eye) * 25.4, float(eye) * 25.4, 609.6, 0.02)
    )
