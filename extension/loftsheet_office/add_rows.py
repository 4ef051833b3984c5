"""Add Rows: more ready rows in the table the user is in, above the last one, which stays empty."""

from typing import Any, Optional

from com.sun.star.sheet.CellFlags import DATETIME, STRING, VALUE
from com.sun.star.table import CellAddress

from .desk import Desk
from .form import Form
from .place import Plan, Table, active_cell
from .refusal import Refusal

TITLE = "Add Rows"
NUMBERS = tuple(str(number) for number in range(1, 21))
TYPED = VALUE + DATETIME + STRING


def run(desk: Desk) -> None:
    desk.must_be_writable()
    table = Plan(desk.document).table_at(active_cell(desk))
    if table is None:
        raise Refusal("Click into a table first, such as the one on Stays; the rows are added there.")
    if any(not table.sheet.Rows.getByIndex(row).IsVisible for row in table.rows):
        raise Refusal(
            "Some rows of this table are hidden by a filter or by hand. Show them all first, then add rows."
        )
    number = how_many(desk, table)
    if number is None:
        return
    undo = desk.document.UndoManager
    undo.enterUndoContext(TITLE)
    try:
        add(table, number)
    finally:
        undo.leaveUndoContext()


def how_many(desk: Desk, table: Table) -> Optional[int]:
    """Ask for the number of rows; None when the user thinks better of it."""
    form = Form(desk, TITLE, width=200)
    form.words(f"Ready rows to add to {table.title}:")
    numbers = form.choice("~Rows", NUMBERS)
    return int(NUMBERS[numbers.SelectedItems[0]]) if form.ask("~Add") == "yes" else None


def add(table: Table, number: int) -> None:
    """Insert rows inside the named ranges, so that these grow: the last ready row again, less what was typed."""
    sheet, area = table.sheet, table.area
    last: Any = table.rows[-1]
    sheet.Rows.insertByIndex(last, number)
    pattern = sheet.getCellRangeByPosition(area.StartColumn, last + number, area.EndColumn, last + number)
    for row in range(last, last + number):
        sheet.copyRange(CellAddress(area.Sheet, area.StartColumn, row), pattern.RangeAddress)
    sheet.getCellRangeByPosition(area.StartColumn, last, area.EndColumn, last + number - 1).clearContents(TYPED)
