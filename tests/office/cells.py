"""Calls of functions written into cells, and what comes out, beside the same calls in pure Python."""

from dataclasses import dataclass

import pytest
from loftsheet import CALCS
from loftsheet.errors import BadInput, NoSolution, NotInTable, as_cell_error

# com.sun.star.sheet.FormulaResult.STRING; named here so that tests can be collected without an office.
STRING = 2
FIRST_FREE_COLUMN = 30


@dataclass(frozen=True)
class Refused:
    """An error in place of a result, by the office's number."""

    code: int


def write(sheet, name, given, row=0):
    """Write a call into column A, its ranges and cells to the right of it; return the cells of its result."""
    calc = CALCS[name]
    free = iter(range(FIRST_FREE_COLUMN, 1000, 16))
    forms = [argument.quantity.form.name for argument in calc.arguments]
    forms += forms[-1:] * (len(given) - len(forms))
    written = [_argument(sheet, one, form, free, row) for one, form in zip(given, forms)]
    formula = f"={calc.stored_name}({';'.join(written)})"
    rows = pure(name, given)
    if calc.result.form.name == "matrix" and isinstance(rows, tuple):
        cells = sheet.getCellRangeByPosition(0, row, len(rows[0]) - 1, row + len(rows) - 1)
        cells.setArrayFormula(formula)
        return cells
    cell = sheet.getCellByPosition(0, row)
    cell.Formula = formula
    return cell


def in_cell(sheet, name, given):
    """Return what a call comes to in a cell: a number, a text, rows of those, or the error's number."""
    return outcome(write(sheet, name, given))


def outcome(cells):
    if not hasattr(cells, "FormulaResultType2"):
        return cells.DataArray
    if cells.getError():
        return Refused(cells.getError())
    return cells.String if cells.FormulaResultType2 == STRING else cells.Value


def pure(name, given):
    """Return what the same call comes to in Python, an error as the number its cell should show."""
    try:
        result = CALCS[name].call(*given)
    except (BadInput, NoSolution, NotInTable) as refused:
        return Refused(as_cell_error(refused).code)
    if CALCS[name].result.form.name == "matrix":
        return tuple(tuple(row) for row in result)
    return result


def same(found, due):
    """Numbers to twelve digits, all else exactly; a single cell shows the first of rows."""
    if isinstance(due, tuple) and not isinstance(found, tuple):
        return same(found, due[0][0])
    if isinstance(due, tuple):
        return len(found) == len(due) and all(same(*pair) for pair in zip(found, due))
    if isinstance(due, float):
        return isinstance(found, float) and found == pytest.approx(due, rel=1e-12)
    return found == due


def _argument(sheet, given, form, free, row):
    if given is None:
        return ""
    if form == "cell" or isinstance(given, tuple):
        return _cells(sheet, given if isinstance(given, tuple) else ((given,),), next(free), row)
    if isinstance(given, Raw):
        return given
    return '"' + given.replace('"', '""') + '"' if isinstance(given, str) else repr(float(given))


def _cells(sheet, rows, column, row):
    rows = tuple(line if isinstance(line, tuple) else (line,) for line in rows)
    cells = sheet.getCellRangeByPosition(column, row, column + len(rows[0]) - 1, row + len(rows) - 1)
    cells.DataArray = rows
    return cells.AbsoluteName.split(".")[1]


class Raw(str):
    """An argument written into the formula as it stands."""
