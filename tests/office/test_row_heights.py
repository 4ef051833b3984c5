"""Rows keep their height whatever their check says; it shows the first complaint and how many more there are."""

from contextlib import ExitStack

import pytest

from extension.loftsheet_office.workbook.complaints import complaints
from templates.sheets import ALL
from tests.office import named
from tests.office.restored import Restored
from tests.office.user import User

pytestmark = pytest.mark.office

KEPT = [table.key for sheet in ALL for table in sheet.tables if table.lines]
CAP = "cap shroud, port"


def heights(book):
    found = {}
    for table in KEPT:
        area = named.cells(book, f"{table}_name")
        rows = area.Spreadsheet.Rows
        span = range(area.RangeAddress.StartRow, area.RangeAddress.EndRow + 1)
        found[table] = [rows.getByIndex(at).Height for at in span]
    return found


def test_rows_are_of_one_height(demo):
    assert {"stays", "tangs", "points"} <= set(KEPT)
    for table, held in heights(demo).items():
        assert len(set(held)) == 1, table


def test_a_row_with_many_faults_is_as_high_as_before_and_after(demo):
    before = heights(demo)
    with ExitStack() as typed:
        for table, key, row, held in (
            ("stays", "margin_own", CAP, 11.0),
            ("stays", "chainplate", CAP, None),
            ("stays", "kind", CAP, "other"),
            ("points", "out", "masthead", None),
            ("masts", "wall", "mast", None),
        ):
            typed.enter_context(Restored(named.cell(demo, table, key, row), held))
        assert len(named.found(demo, "stays", CAP)) > 3
        assert heights(demo) == before
    assert heights(demo) == before


def test_a_row_that_is_typed_in_keeps_its_height(office, demo):
    """The office fits the height of a row that is typed in to its text, where none was set."""
    before = heights(demo)
    user = User(office, demo)
    user.type(named.cell(demo, "stays", "margin_own", CAP), "11")
    user.type(named.cell(demo, "stays", "note", CAP), "a word " * 40)
    assert heights(demo) == before


def test_the_first_complaint_is_shown_and_the_rest_counted(demo):
    with Restored(named.cell(demo, "stays", "margin_own", CAP), 11.0):
        said = [one.words for one in complaints(named.cell(demo, "stays", "found", CAP).String)]
        assert len(said) > 2
        assert named.check(demo, "stays", CAP) == f"{said[0]}; and {len(said) - 1} more"
    assert named.check(demo, "stays", CAP) == "OK, but no certificate: rope, line, ring"
