"""Cells as the working and the check see them, in a real office."""

import pytest
from loftsheet import CALCS
from loftsheet.working import explain

from tests.functions.sheet import Sheet

pytestmark = pytest.mark.office

BURY = "=ORG.LOFTSHEET.RIG.BURY"


@pytest.fixture
def view(sheet, book):
    """Return the view of a cell of the open sheet."""
    from extension.loftsheet_office.addin.cell import Cell

    return lambda address: Cell(sheet.getCellRangeByName(address), book)


def test_what_a_cell_holds(sheet, view):
    sheet.getCellRangeByName("A1").Value = 9
    sheet.getCellRangeByName("A2").String = "rope"
    sheet.getCellRangeByName("A3").Formula = '="ro" & "pe"'
    sheet.getCellRangeByName("A4").Formula = "=1/0"
    sheet.getCellRangeByName("A5").Formula = '=""'
    assert [view(f"A{row}").value for row in range(1, 7)] == [9.0, "rope", "rope", None, "", None]
    assert [view(f"A{row}").formula for row in (1, 2, 4)] == ["", "", "=1/0"]
    assert (view("A1").error, view("A4").error.code, view("A4").error.name) == (None, 532, "#DIV/0!")
    assert view("A4").address == "Sheet1.A4"


@pytest.mark.parametrize(
    ("formula", "name"),
    [
        ("=1/0", "#DIV/0!"),
        ("=NA()", "#N/A"),
        ('="rope"+1', "#VALUE!"),
        ("=nothing_named_so", "#NAME?"),
        ("=SQRT(-1)", "Err:502"),
        ("=B1+C1", "Err:522"),
    ],
)
def test_an_error_has_the_name_that_the_cell_shows(sheet, view, formula, name):
    sheet.getCellRangeByName("C1").Formula = "=B1"
    sheet.getCellRangeByName("B1").Formula = formula
    assert view("B1").error.name == name == sheet.getCellRangeByName("B1").String


def test_references_and_names_are_followed(sheet, view, book):
    book.Sheets.insertNewByName("It's here", 1)
    origin = sheet.getCellRangeByName("A1").CellAddress
    book.NamedRanges.addNewByName("rope", "$Sheet1.$B$2", origin, 0)
    book.NamedRanges.addNewByName("beside", "$Sheet1.B2", origin, 0)
    found = view("A1").resolve
    assert found("B2").address == found("$B$2").address == found("rope").address == "Sheet1.B2"
    assert found("$'It''s here'.B2").address == "'It''s here'.B2"
    assert [[cell.address for cell in row] for row in found("A1:B2")] == [
        ["Sheet1.A1", "Sheet1.B1"],
        ["Sheet1.A2", "Sheet1.B2"],
    ]
    assert found("A1:A20000") is found("Elsewhere.A1") is found("beside") is found("unknown") is None


def test_the_working_in_a_cell_is_the_one_in_python(sheet):
    sheet.getCellRangeByName("B1").Value = 9
    sheet.getCellRangeByName("A1").Formula = f"{BURY}(B1)"
    sheet.getCellRangeByName("C1").Formula = "=ORG.LOFTSHEET.RIG.WORKING(A1)"
    same = Sheet()
    same.put("B1", 9.0)
    cell = same.put("A1", 648.0, f"{BURY}(B1)")
    assert sheet.getCellRangeByName("C1").String == explain(cell).replace("A1:", "Sheet1.A1:", 1)


def test_the_working_of_an_error_says_where_it_begins(sheet):
    sheet.getCellRangeByName("A1").Formula = f"{BURY}(B1)"
    sheet.getCellRangeByName("A2").Formula = "=A1*2"
    sheet.getCellRangeByName("C1").Formula = "=ORG.LOFTSHEET.RIG.WORKING(A2)"
    words = sheet.getCellRangeByName("C1").String
    assert "begins in Sheet1.A1" in words
    assert "got 0 mm" in words


@pytest.mark.parametrize(
    ("held", "due"),
    [
        ("12", ""),
        ("", "rope: blank; type a number"),
        ("'12", 'rope: "12" is a text; type a number'),
        ("8", "rope: 8 mm is 1 mm below 9 mm"),
    ],
)
def test_check_in_a_cell(sheet, held, due):
    sheet.getCellRangeByName("A1").Formula = held
    sheet.getCellRangeByName("B1").Formula = '=ORG.LOFTSHEET.RIG.CHECK("rope";A1;9;14;"mm")'
    assert sheet.getCellRangeByName("B1").String == due


def test_check_sees_an_error_that_would_stop_other_functions(sheet):
    sheet.getCellRangeByName("A1").Formula = f"{BURY}(0)"
    sheet.getCellRangeByName("B1").Formula = '=ORG.LOFTSHEET.RIG.CHECK("bury";A1)'
    assert "the cell shows Err:502" in sheet.getCellRangeByName("B1").String


@pytest.mark.parametrize("name", ["CHECK", "WORKING"])
def test_a_range_is_refused_where_one_cell_is_due(sheet, name):
    label = '"rope";' if CALCS[f"RIG.{name}"].arguments[0].quantity.form.name == "text" else ""
    sheet.getCellRangeByName("C1").Formula = f"=ORG.LOFTSHEET.RIG.{name}({label}A1:A3)"
    assert sheet.getCellRangeByName("C1").String == "Err:502"
