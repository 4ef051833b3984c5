"""What RIG.CHECK, RIG.READ, RIG.SHOW and RIG.VERSION say."""

import math
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from loftsheet import CALCS, __version__
from loftsheet.errors import BadInput, CellError

CHECK = CALCS["RIG.CHECK"].call
READ = CALCS["RIG.READ"].call
SHOW = CALCS["RIG.SHOW"].call


@pytest.mark.parametrize("value", [9.0, 14.0, 10.5])
def test_a_number_inside_needs_no_words(value):
    assert CHECK("rope", value, 9.0, 14.0, "mm") == ""


@pytest.mark.parametrize(
    "cell, words",
    [
        (6.0, "rope: 6 mm is 3 mm below 9 mm"),
        (16.5, "rope: 16.5 mm is 2.5 mm above 14 mm"),
        (-1.0, "rope: -1 mm is 10 mm below 9 mm"),
        (0.0, "rope: 0 mm is 9 mm below 9 mm"),
        (None, "rope: blank; type a number"),
        ("", "rope: blank; type a number"),
        ("12,5", 'rope: "12,5" is a text; type a number'),
        (
            CellError(502, "Err:502"),
            "rope: the cell shows Err:502 (a number put in is missing or not allowed); "
            "Explain This Cell says where it begins",
        ),
        (math.nan, "rope: nan is not a finite number"),
        (math.inf, "rope: inf is not a finite number"),
    ],
)
def test_what_is_wrong_is_said_in_words(cell, words):
    assert CHECK("rope", cell, 9.0, 14.0, "mm") == words


def test_without_limits_any_finite_number_will_do():
    assert CHECK("heel", -1e300) == ""
    assert CHECK("heel", 3.0, None, 10.0) == ""
    assert CHECK("heel", 12.0, 3.0) == ""
    assert CHECK("heel", 12.0, 3.0, 10.0) == "heel: 12 is 2 above 10"


def test_an_angle_has_its_sign_close_up():
    assert CHECK("bevel", 36.0, 0.0, 35.0, "°") == "bevel: 36° is 1° above 35°"


def test_a_limit_missed_by_a_hair_is_told_from_it():
    words = CHECK("rope", math.nextafter(9.0, 0.0), 9.0)
    given_number, limit = re.fullmatch(r"rope: (\S+) is \S+ below (\S+)", words).groups()
    assert float(given_number) < float(limit) == 9.0


@given(st.floats(allow_nan=True, allow_infinity=True), st.floats(-1e12, 1e12), st.floats(-1e12, 1e12))
def test_silence_means_a_finite_number_inside_and_nothing_else(value, one, other):
    least, most = min(one, other), max(one, other)
    inside = math.isfinite(value) and least <= value <= most
    assert (CHECK("x", value, least, most) == "") == inside


@given(st.one_of(st.none(), st.text(), st.builds(CellError, st.integers(500, 540), st.text(max_size=8))))
def test_what_is_no_number_is_never_passed_over(cell):
    assert CHECK("x", cell).startswith("x: ")


@pytest.mark.parametrize("code", [501, 502, 503, 504, 508, 511, 519, 522, 523, 524, 525, 532, 32767])
def test_every_error_has_words(code):
    words = CHECK("x", CellError(code, f"Err:{code}"))
    assert f"Err:{code} (" in words


@pytest.mark.parametrize("cell", [((1.0, 2.0),), True, object()])
def test_what_is_no_cell_is_refused(cell):
    with pytest.raises(BadInput, match="one cell is due"):
        CHECK("x", cell, 0.0, 3.0)


def test_limits_the_wrong_way_round_are_refused():
    # As when `most` is taken from a blank cell, which counts as 0.
    with pytest.raises(BadInput, match="least 9 is above most 0"):
        CHECK("rope", 10.0, 9.0, 0.0)


@pytest.mark.parametrize("limit", [math.nan, math.inf, "9 mm"])
def test_a_limit_that_is_no_plain_number_is_refused(limit):
    with pytest.raises(BadInput):
        CHECK("rope", 10.0, limit)
    with pytest.raises(BadInput):
        CHECK("rope", 10.0, None, limit)


def test_measures_are_read_and_shown():
    assert READ("3/8 in", "mm") == 9.525
    assert SHOW(9.525, "in", 8.0) == "3/8 in"
    assert SHOW(1600.2, "ft in", 8.0) == "5 ft 3 in"
    assert SHOW(20.0, "kN") == "20 kN"


@pytest.mark.parametrize("text", [9.0, 0.0, None, "", "12", ((9.0,),)])
def test_only_a_text_with_a_unit_is_read(text):
    with pytest.raises(BadInput, match="text"):
        READ(text, "mm")


@pytest.mark.parametrize("denominator", [0.0, -8.0, 2.5, 65.0, math.nan])
def test_a_denominator_is_a_whole_number_up_to_64(denominator):
    with pytest.raises(BadInput, match="denominator"):
        SHOW(9.525, "in", denominator)


@pytest.mark.parametrize("value", [math.nan, math.inf, 1e300, "9 mm", "", True])
def test_only_a_plain_finite_number_is_shown(value):
    with pytest.raises(BadInput, match="value"):
        SHOW(value, "mm")


def test_the_version_is_that_of_the_package():
    project = (Path(__file__).parents[2] / "pyproject.toml").read_text(encoding="utf-8")
    assert CALCS["RIG.VERSION"].call() == __version__
    assert f'\nversion = "{__version__}"\n' in project


@pytest.mark.parametrize("cell", [None, 9.0, "RIG.BURY(9)", CellError(502, "Err:502")])
def test_the_working_is_of_a_cell_and_of_nothing_else(cell):
    with pytest.raises(BadInput, match="where a cell is due"):
        CALCS["RIG.WORKING"].call(cell)
