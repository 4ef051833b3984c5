"""Conditions and sums as Explain works them out, beside what Calc makes of them."""

import pytest
from loftsheet.errors import CellError
from loftsheet.trace import UNKNOWN

from tests.functions.test_branches import HELD, KNOWN

pytestmark = pytest.mark.office


@pytest.fixture
def held(book, sheet):
    """The cells of the conditions, by their names."""
    origin = sheet.getCellRangeByName("A1").CellAddress
    for at, (name, value) in enumerate(HELD.items(), 1):
        column = [row[0] for row in value] if isinstance(value, tuple) else [value]
        for down, one in enumerate(column):
            put(sheet.getCellByPosition(at, down), one)
        cells = sheet.getCellRangeByPosition(at, 0, at, len(column) - 1)
        book.NamedRanges.addNewByName(name, cells.AbsoluteName, origin, 0)
    return sheet


def put(cell, value):
    if isinstance(value, CellError):
        cell.Formula = "=1/0"
    elif value == "":
        cell.Formula = '=""'
    elif isinstance(value, str):
        cell.String = value
    elif value is not None:
        cell.Value = value


def test_calc_gives_the_same(held, office, book):
    formulas = [formula for formula, due in KNOWN.items() if due is not UNKNOWN]
    for down, formula in enumerate(formulas):
        held.getCellByPosition(0, down).Formula = f"={formula}"
    office.recalculate(book)
    assert len(formulas) > 40
    for down, formula in enumerate(formulas):
        cell, due = held.getCellByPosition(0, down), KNOWN[formula]
        shown = cell.String if isinstance(due, str) else bool(cell.Value) if isinstance(due, bool) else cell.Value
        assert (CellError(cell.getError(), cell.String) if cell.getError() else shown) == due, formula
