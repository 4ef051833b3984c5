"""The cell the user is in, and the way to another."""

from typing import Any

from com.sun.star.table import CellRangeAddress

from ..common.refusal import Refusal
from ..common.values import property_values
from .desk import Desk


def active_cell(desk: Desk) -> Any:
    """The first cell of what is selected."""
    chosen = desk.controller.Selection
    if chosen is not None and hasattr(chosen, "RangeAddresses"):
        chosen = chosen.getByIndex(0) if chosen.Count else None
    if chosen is None or not hasattr(chosen, "RangeAddress"):
        raise Refusal("No cell is selected. Click on a cell first.")
    return chosen.getCellByPosition(0, 0)


def lead_to(desk: Desk, cell: Any) -> None:
    """Go to a cell and show it; a folded block that hides it is unfolded."""
    at, sheet = cell.CellAddress, cell.Spreadsheet
    left, right = _hidden_around(sheet.Columns, at.Column)
    top, bottom = _hidden_around(sheet.Rows, at.Row)
    if not (cell.Columns.getByIndex(0).IsVisible and cell.Rows.getByIndex(0).IsVisible):
        sheet.showDetail(CellRangeAddress(at.Sheet, left, top, right, bottom))
    # The cursor goes there; a cell that is selected would be marked, and Enter would not move on from it.
    to = property_values(ToPoint=cell.AbsoluteName)
    desk.create("com.sun.star.frame.DispatchHelper").executeDispatch(desk.frame, ".uno:GoToCell", "", 0, to)


def _hidden_around(lines: Any, at: int) -> "tuple[int, int]":
    """The first and the last of the hidden columns or rows around one; twice itself where it is shown."""
    first = last = at
    if not lines.getByIndex(at).IsVisible:
        while first > 0 and not lines.getByIndex(first - 1).IsVisible:
            first -= 1
        while last + 1 < lines.Count and not lines.getByIndex(last + 1).IsVisible:
            last += 1
    return first, last
