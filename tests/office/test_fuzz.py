"""Random calls and random cells: a finite number, a text where one is due, rows of those, or a declared error.

The same call in pure Python says which of them is due.
"""

import math

import pytest
from loftsheet import CALCS

from tests.office.cells import Refused, outcome, pure, same
from tests.office.dice import NO_NUMBERS, throw

pytestmark = pytest.mark.office

CALLS = [pytest.param(2_000, id="some"), pytest.param(25_000, id="many", marks=pytest.mark.long)]
ROWS = [pytest.param(500, id="some"), pytest.param(10_000, id="many", marks=pytest.mark.long)]
ROWS_AT_ONCE = 500
WIDTH = 3  # cells that each argument has in a row
FORMULA_ERRORS = 4  # com.sun.star.sheet.FormulaResult.ERROR
# It needs a cell that holds a formula, and has tests of its own.
ORDINARY = [calc for calc in CALCS.values() if calc.name not in ("RIG.REFUSAL", "RIG.WORKING")]
# The office hands a cell of a document to no function that it calls without one.
WITHOUT_CELLS = [calc for calc in ORDINARY if calc.name != "RIG.CHECK"]


@pytest.fixture
def dice(request):
    return throw(request.config)


def fits(value, form):
    """Whether a cell may hold it as the result of a function that declares that form."""
    if form == "matrix" and isinstance(value, tuple):
        return bool(value) and all(fits(cell, "matrix") for row in value for cell in row)
    if isinstance(value, str):
        return form in ("text", "matrix")
    return type(value) is float and math.isfinite(value) and form in ("number", "matrix")


class Access:
    """The office's own way to call a function without a cell."""

    def __init__(self, office):
        import uno
        from com.sun.star.lang import IllegalArgumentException

        self.uno, self.refusal = uno, IllegalArgumentException
        self.access = office.create("com.sun.star.sheet.FunctionAccess")

    def call(self, calc, given):
        """What it gives; None is #N/A, and which of the other errors it is the office does not say."""
        while given and given[-1] is None:
            given = given[:-1]  # left out, as in a cell; this way of calling refuses it in place of a range
        words = tuple(self.uno.Any("[][]any", one) if isinstance(one, tuple) else one for one in given)
        try:
            return self.uno.invoke(self.access, "callFunction", (calc.stored_name, words))
        except self.refusal:
            return "refused"


@pytest.mark.parametrize("count", CALLS)
def test_random_calls(office, dice, count):
    access = Access(office)
    answered = 0
    for at in range(count):
        calc = dice.choice(WITHOUT_CELLS)
        given = dice.call(calc)
        found = access.call(calc, given)
        assert call_is_right(calc, given, found), f"call {at}: {calc.name}{given} gives {found!r}"
        answered += found not in ("refused", None)
    assert count / 5 < answered < count


def call_is_right(calc, given, found):
    due = pure(calc.name, given)
    if isinstance(due, Refused):
        return found is None if due.code == 32767 else found == "refused"
    return same(found, due) and (fits(found, calc.result.form.name))


@pytest.mark.parametrize("count", CALLS)
def test_random_calls_with_what_is_no_number(office, dice, count):
    """Calc itself may refuse these before the function is asked; what comes out has to be fit for a cell."""
    access = Access(office)
    for at in range(count // 10):
        calc = dice.choice([calc for calc in WITHOUT_CELLS if calc.arguments])
        given = list(dice.call(calc)) or [1.0]
        given[dice.randrange(len(given))] = dice.choice(NO_NUMBERS)
        found = access.call(calc, [one for one in given if one is not None])
        assert found in ("refused", None) or fits(found, calc.result.form.name), (
            f"call {at}: {calc.name}{given}: {found!r}"
        )


@pytest.mark.parametrize("count", ROWS)
def test_random_cells_under_our_formulas(office, dice, count):
    answered = 0
    for first in range(0, count, ROWS_AT_ONCE):
        book = office.new()
        rows = [Row(dice, at) for at in range(ROWS_AT_ONCE)]
        wrong = [row.told() for row in filled(book, rows) if not row.is_right()]
        office.close(book)
        assert wrong == [], f"rows from {first}"
        answered += sum(not isinstance(row.found, Refused) for row in rows)
    assert count / 10 < answered < count


class Row:
    """A formula in column A of a row, and what stands in the cells to the right that it refers to."""

    def __init__(self, dice, at):
        self.at, self.calc = at, dice.choice(ORDINARY)
        pairs = dice._pairs(self.calc)
        self.forms = [argument.quantity.form.name for argument, _ in pairs]
        self.typed = [[dice.cell(argument.quantity, example) for _ in range(WIDTH)] for argument, example in pairs]
        self.ranges = [form == "column" or (form == "number" and dice.random() < 0.01) for form in self.forms]
        names = [self._name(place, WIDTH if ranged else 1) for place, ranged in enumerate(self.ranges)]
        self.formula = f"={self.calc.stored_name}({';'.join(names)})"

    def _name(self, place, width):
        first, last = 1 + place * WIDTH, place * WIDTH + width
        return f"{letters(first)}{self.at + 1}" + (f":{letters(last)}{self.at + 1}" if width > 1 else "")

    def take(self, held, errors, found):
        """Note what the cells hold after the calculation: the errors by column, and the result."""
        self.found, self.given, self.errors = found, [], set()
        for place, (form, ranged) in enumerate(zip(self.forms, self.ranges)):
            columns = range(1 + place * WIDTH, 1 + place * WIDTH + (WIDTH if ranged else 1))
            cells = [held[column] for column in columns]
            if form == "cell":
                cells = [errors.get(column, cell) for column, cell in zip(columns, cells)]
            else:
                self.errors |= {504 if ranged else errors[column].code for column in columns if column in errors}
                blank = [self.typed[place][at] == "" for at in range(len(cells))]
                cells = [0.0 if empty and not ranged else cell for empty, cell in zip(blank, cells)]
            self.given.append((tuple(cells),) if ranged else cells[0])

    def is_right(self):
        if self.errors:
            return isinstance(self.found, Refused) and self.found.code in self.errors
        return same(self.found, pure(self.calc.name, self.given)) and (
            isinstance(self.found, Refused) or fits(self.found, self.calc.result.form.name)
        )

    def told(self):
        due = self.errors or pure(self.calc.name, self.given)
        return f"{self.formula} with {str(self.typed)[:600]}: {self.found!r} in place of {due!r}"


def filled(book, rows):
    """Write the rows into a sheet, and note what comes out."""
    from extension.loftsheet_office.addin.cell import content

    sheet = book.Sheets.getByIndex(0)
    width = 1 + WIDTH * max(len(row.typed) for row in rows)
    texts = [[row.formula, *(cell for cells in row.typed for cell in cells)] for row in rows]
    area = sheet.getCellRangeByPosition(0, 0, width - 1, len(rows) - 1)
    area.setFormulaArray(tuple((*text, *[""] * (width - len(text))) for text in texts))
    book.calculateAll()
    held, errors = area.DataArray, {}
    for part in area.queryFormulaCells(FORMULA_ERRORS).RangeAddresses:
        for at in range(part.StartRow, part.EndRow + 1):
            for column in range(part.StartColumn, part.EndColumn + 1):
                errors.setdefault(at, {})[column] = content(sheet.getCellByPosition(column, at))
    for row in rows:
        row.take(held[row.at], errors.get(row.at, {}), outcome(sheet.getCellByPosition(0, row.at)))
    return rows


def letters(column):
    """The name of a column, counted from 0."""
    return (letters(column // 26 - 1) if column >= 26 else "") + chr(65 + column % 26)
