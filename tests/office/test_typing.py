"""What may be typed into an input: what its validity lets in, and that a text with a unit goes through."""

import pytest
from loftsheet import measure

from templates.schedule import READABLE
from templates.sheets import ALL
from tests.office import named, oracle
from tests.office.test_faults import is_fault, put

pytestmark = pytest.mark.office

CUSTOM = "CUSTOM"
TABLES = {table.key: table for sheet in ALL for table in sheet.tables}
# A unit of the same kind that is not the column's own.
OTHER_UNITS = {
    "mm": "in",
    "kN": "kgf",
    "kN·m": "ft·lb",
    "g/m": "lb/ft",
    "kg": "lb",
    "MPa": "ksi",
    "GPa": "MPa",
    "m": "ft",
    "°": "rad",
    "°C": "°F",
}


def inputs(book):
    """Every input that takes numbers: its column, its first cell, and the cells that share its validity."""
    for table in TABLES.values():
        for column in table.columns[2:]:
            if not column.calculated and (column.least is not None or column.is_date):
                yield f"{table.key}_{column.key}", column, named.cells(book, f"{table.key}_{column.key}")
    for sheet in ALL:
        for group in sheet.groups:
            for item in group.items:
                column = item.column()
                if not item.formula and (column.least is not None or column.is_date):
                    yield f"boat_{item.key}", column, named.cells(book, f"boat_{item.key}")


def typed(column):
    """Numbers at, inside and just outside the limits of a column, and texts."""
    if column.is_date:
        return [46000.0, 36525.0, 73051.0, "soon", "2026-05-01"]
    step = 1.0 if column.whole else (column.most - column.least) / 1000
    least, most = float(column.least), float(column.most)
    fraction = [least + 0.5] if column.whole else []
    return [least, most, least + step, least - step, most + step, *fraction, "soon", "7", "7 furlongs"]


def test_validity_lets_in_what_the_declaration_says_and_nothing_else(demo):
    scratch = demo.Sheets.getByName("Read first").getCellRangeByName("J50")
    demo.Sheets.getByName("Read first").unprotect("")
    for name, column, cells in inputs(demo):
        first = cells.getCellByPosition(0, 0)
        validation = first.Validation
        place = validation.getSourcePosition()
        assert validation.Type.value == CUSTOM and validation.ShowErrorMessage, name
        assert (place.Sheet, place.Column, place.Row) == address(first), name
        sheet = "$" + first.AbsoluteName.split(".")[0].strip("$")
        bare = first.AbsoluteName.split(".")[1].replace("$", "")
        scratch.Formula = "=" + validation.getFormula1().replace(bare, f"{sheet}.{bare}")
        for held in typed(column):
            put(first, held)
            assert scratch.getError() == 0, (name, held)
            assert bool(scratch.Value) == (not is_fault(column, held)), (name, held, scratch.Formula)
        put(first, None)


def address(cell):
    at = cell.CellAddress
    return at.Sheet, at.Column, at.Row


def test_help_and_words_of_refusal(demo):
    for name, column, cells in inputs(demo):
        validation = cells.getCellByPosition(0, 0).Validation
        lines = validation.InputMessage.split("\n")
        said = " ".join(line.rstrip("\N{NO-BREAK SPACE}") for line in lines)
        assert validation.ShowInputMessage and said.startswith(column.help), name
        assert max(map(len, lines)) <= 54, f"{name}: the office breaks no line of a hint"
        assert validation.ErrorMessage.startswith("Type "), name
        assert len(validation.ErrorMessage) < 250, name


def test_every_measure_has_a_unit_that_is_not_its_own():
    assert set(OTHER_UNITS) == set(READABLE)


@pytest.mark.parametrize("decimal", [".", ","])
def test_a_text_with_a_unit_goes_through_to_the_result(demo, decimal):
    """Each number of every column that takes measures is typed in another unit; nothing may change."""
    before = numbers(demo)
    changed = 0
    for table in TABLES.values():
        names = named.column(demo, f"{table.key}_name")
        for column in table.columns[2:]:
            if not column.measure or column.calculated:
                continue
            cells = named.cells(demo, f"{table.key}_{column.key}")
            for at, held in enumerate(named.column(demo, f"{table.key}_{column.key}")):
                if names[at] and isinstance(held, float) and held != 0:
                    cells.getCellByPosition(0, at).String = in_words(held, column.measure, decimal)
                    changed += 1
    for item in (item for sheet in ALL for group in sheet.groups for item in group.items if item.measure):
        cell = named.cells(demo, f"boat_{item.key}")
        if cell.Value != 0:
            cell.String = in_words(cell.Value, item.measure, decimal)
            changed += 1
    assert changed > 130
    compared = oracle.Compared(demo)
    assert (compared.differences, compared.silent_errors) == ([], [])
    assert named.value(demo, "boat_wrong") == 0
    assert numbers(demo) == pytest.approx(before, rel=1e-9)


def in_words(number, unit, decimal):
    """A number as a text in another unit, with so many digits that nothing is lost."""
    other = OTHER_UNITS[unit]
    zero, one = (measure.read_in(f"{count} {other}", unit) for count in (0, 1))
    return f"{(number - zero) / (one - zero):.14f} {other}".replace(".", decimal)


def numbers(book):
    """Every calculated number, by where it stands."""
    schedule = oracle.Schedule(book)
    return {
        (table, row.typed["name"], column.key): row.typed[column.key]
        for table in ("points", "stays", "tangs", "order")
        for row in schedule.rows(table)
        for column in TABLES[table].columns[2:]
        if column.calculated and isinstance(row.typed[column.key], float)
    }


def test_fractions_of_an_inch_in_a_size(demo):
    """3/8 in is 9.525 mm, exactly (NIST SP 811, appendix B); 72 of it are buried."""
    rope = named.cell(demo, "stays", "rope", "fore lower, port").String
    named.cell(demo, "rope", "size", rope).String = "3/8 in"
    assert named.cell(demo, "stays", "rope_size", "fore lower, port").Value == 9.525
    assert named.cell(demo, "stays", "bury", "fore lower, port").Value == pytest.approx(72 * 9.525)
    assert named.check(demo, "rope", rope) == "OK"
    assert oracle.differences(demo) == []
