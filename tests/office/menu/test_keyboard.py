"""Typed at the keyboard into a cell of the schedule: what is let in, and what is refused in words."""

import pytest

from tests.office import named
from tests.office.menu.keyboard import Keyboard

pytestmark = pytest.mark.office


@pytest.fixture
def keyboard(screen, shown_demo):
    return Keyboard(screen, shown_demo)


LET_IN = [
    ("stays", "number", "3", 3.0),
    ("stays", "fittings", "12.5", 12.5),
    ("stays", "fittings", "3/8 in", "3/8 in"),
    ("stays", "fittings", "1 1/4 in", "1 ¼ in"),  # the office corrects it while it is typed
    ("stays", "load_own", "450 kgf", "450 kgf"),
    ("stays", "upper_over", "pin", "pin"),
    ("stays", "wire", "1x19 8 mm", "1x19 8 mm"),
    ("log", "date", "2026-06-01", 46174.0),
    ("rope", "size", "3/8 in", "3/8 in"),
]
REFUSED = [
    ("stays", "number", "1.5", "Type a whole number, 1 to 20."),
    ("stays", "number", "two", "Type a whole number, 1 to 20."),
    ("stays", "fittings", "3/8", "Type 0 to 5000 mm"),
    ("stays", "fittings", "12 kN", "Type 0 to 5000 mm"),
    ("stays", "fittings", "-1", "Type 0 to 5000 mm"),
    ("stays", "upper_over", "pins", "Pick one from it"),
    ("stays", "wire", "1x19 9 mm", "Pick one from it"),
    ("tangs", "hole_own", "0", "Type 1 to 300 mm"),
    ("log", "date", "last week", "Type a date such as"),
    ("rope", "size", "10 kg", "Type 1 to 60 mm"),
]


def first(book, table, column):
    return named.cells(book, f"{table}_{column}").getCellByPosition(0, 0)


def test_what_is_allowed_is_let_in(keyboard, shown_demo):
    for table, column, text, held in LET_IN:
        cell = first(shown_demo, table, column)
        assert keyboard.type(cell, text) == "", (column, text)
        assert cell.DataArray[0][0] == held, (column, text)
        found = named.ids(first(shown_demo, table, "found").String)
        assert not any(id.startswith(f"{column}.") for id in found), (column, text)


def test_nonsense_is_refused_in_words(keyboard, shown_demo):
    for table, column, text, words in REFUSED:
        cell = first(shown_demo, table, column)
        before = cell.DataArray
        assert words in keyboard.type(cell, text), (column, text)
        assert cell.DataArray == before, (column, text)


@pytest.mark.parametrize(
    ("table", "column", "text", "comes_to"),
    [
        ("stays", "load_own", '=RIG.READ("450 kgf";"kN")', 4.413),
        ("points", "out", "=1400/2+2", 702),
        ("rope", "size", '=RIG.READ("3/8 in";"mm")', 9.525),
    ],
)
def test_a_formula_goes_in_where_a_number_does(keyboard, shown_demo, table, column, text, comes_to):
    cell = first(shown_demo, table, column)
    before = cell.DataArray
    assert "If it is a formula, press OK" in keyboard.type(cell, text)
    assert cell.DataArray == before
    keyboard.type(cell, text, answer="OK")
    assert cell.Formula.startswith("=") and cell.Value == pytest.approx(comes_to, abs=1e-3)
    found = named.ids(first(shown_demo, table, "found").String)
    assert not any(id.startswith(f"{column}.") for id in found)


def test_a_wrong_number_that_is_insisted_on_is_fixed_by_check(keyboard, shown_demo):
    cell = first(shown_demo, "stays", "fittings")
    keyboard.type(cell, "-1", answer="OK")
    assert cell.Value == -1
    found = named.ids(first(shown_demo, "stays", "found").String)
    assert [severity for id, severity in found.items() if id.startswith("fittings")] == ["fix"]


def test_an_assumption_is_let_in_or_refused(keyboard, shown_demo):
    cell = named.cells(shown_demo, "boat_margin")
    assert keyboard.type(cell, "3.5") == ""
    assert "Type 2 to 12" in keyboard.type(cell, "1.5")
    assert cell.Value == 3.5
