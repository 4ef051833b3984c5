"""Add Rows: more ready rows in the table the user is in, above the last one, which stays empty.

The new rows have the formulas, formats, lists and the user's own columns of the last ready row. Where that one has
been used, it moves up and an empty one takes its place. The named ranges grow, for the rows come in inside them.
"""

from collections.abc import Iterator
from itertools import groupby
from typing import Any, Optional

from com.sun.star.sheet.CellFlags import ANNOTATION, DATETIME, STRING, VALUE
from com.sun.star.sheet.FillDirection import TO_BOTTOM
from com.sun.star.table import CellAddress

from ..common.refusal import Refusal
from ..dialogs.cursor import active_cell
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..dialogs.undo import OneUndo
from ..workbook import balance_sheet, rig_sheet
from ..workbook.columns import all_columns
from ..workbook.named_tables import Table, Tables
from .entries import TITLES

TITLE = TITLES["addrows"]
MOST = 500
TYPED = VALUE + DATETIME + STRING
FILTERED = (
    "A filter hides some rows of this table. The new rows are shown all the same; while they are empty, they are "
    "hidden when the filter is applied again."
)


def run(desk: Desk) -> None:
    desk.must_be_writable()
    table = Tables(desk.document).table_at(active_cell(desk))
    if table is None:
        raise Refusal("Click into a table first, such as the one on Stays; the rows are added there.")
    if not all_columns()[f"{table.key}_name"].is_input:
        raise Refusal("The rows of this table follow from those that are typed. Add rows there.")
    if table.sheet.isProtected():
        raise Refusal("This sheet is protected. Take the protection off with Tools, Protect Sheet first.")
    number = how_many(desk, table)
    if number is None:
        return
    filtered = any(table.sheet.Rows.getByIndex(row).IsFiltered for row in table.rows)
    with OneUndo(desk.document, TITLE):
        add(table, number)
        rig_sheet.print_all(desk.document)
        balance_sheet.print_all(desk.document)
    if filtered:
        desk.say(TITLE, FILTERED)


def how_many(desk: Desk, table: Table) -> Optional[int]:
    """Ask for the number of rows; None when the user thinks better of it."""
    form = Form(desk, TITLE, width=200)
    form.paragraph(f"Ready rows to add to {table.title}, above its last one:")
    number = form.short("~Rows", "5")
    if form.ask("~Add") != "yes":
        return None
    typed = number.Text.strip()
    if not (typed.isdecimal() and 1 <= int(typed) <= MOST):
        raise Refusal(f'"{typed}" was typed. Type a whole number of rows, from 1 to {MOST}.')
    return int(typed)


def add(table: Table, number: int) -> None:
    """Insert rows above the last ready row and make them ready.

    One row is made ready and the office fills it down in one go: copied row by row, 300 rows took ten seconds.
    """
    sheet, right = table.sheet, _right_end(table)
    last: Any = table.rows[-1]
    used = sheet.getCellRangeByPosition(0, last, right, last).queryContentCells(TYPED).Count > 0
    sheet.Rows.insertByIndex(last, number)
    _rows(sheet, last, right, number + 1).Rows.IsVisible = True  # hidden rows are not copied
    below = _rows(sheet, last + number, right).RangeAddress
    if used:
        sheet.moveRange(_at(table, last), below)
        sheet.copyRange(_at(table, last + 1), _rows(sheet, last, right).RangeAddress)
        _rows(sheet, last + 1, right).clearContents(TYPED + ANNOTATION)
        _fill_down(sheet, last + 1, right, number)
    else:
        sheet.copyRange(_at(table, last), below)
        _fill_down(sheet, last, right, number)


def _fill_down(sheet: Any, first: Any, right: int, number: int) -> None:
    """Make so many rows like the first; hidden columns are shown meanwhile, or they stay empty."""
    if number == 1:
        return
    hidden = list(_hidden(sheet, right))
    for columns in hidden:
        columns.IsVisible = True
    _rows(sheet, first, right, number).fillAuto(TO_BOTTOM, 1)
    for columns in hidden:
        columns.IsVisible = False


def _hidden(sheet: Any, right: int) -> "Iterator[Any]":
    """The columns that are hidden, those that are side by side together."""
    hidden = [at for at in range(right + 1) if not sheet.Columns.getByIndex(at).IsVisible]
    for _, run in groupby(enumerate(hidden), lambda pair: pair[1] - pair[0]):
        side_by_side = [at for _, at in run]
        yield sheet.getCellRangeByPosition(side_by_side[0], 0, side_by_side[-1], 0).Columns


def _rows(sheet: Any, first: Any, right: int, number: int = 1) -> Any:
    return sheet.getCellRangeByPosition(0, first, right, first + number - 1)


def _at(table: Table, row: int) -> Any:
    return CellAddress(table.area.Sheet, 0, row)


def _right_end(table: Table) -> int:
    """The last column that holds anything: the user's own beside the table are filled, too."""
    cursor = table.sheet.createCursor()
    cursor.gotoEndOfUsedArea(False)
    return max(int(cursor.RangeAddress.EndColumn), int(table.area.EndColumn))
