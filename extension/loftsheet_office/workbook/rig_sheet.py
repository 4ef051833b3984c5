"""The sheet Rig: what of it is printed."""

from typing import Any

from com.sun.star.table import CellRangeAddress

LISTED = (("stays_name", "rig_stay_name"), ("tangs_name", "rig_stub_name"))
CONTINUED = ("rig_more_name", "rig_further_name")
HEADING = 2  # rows above the first of them


def print_all(book: Any) -> None:
    """Print its second page, too, where more rows are ready than the first lists; 0.1.0 had no such sheet."""
    ranges = book.NamedRanges
    names = [*(name for pair in LISTED for name in pair), *CONTINUED]
    cells = {name: ranges.getByName(name).ReferredCells for name in names if ranges.hasByName(name)}
    if len(cells) < len(names) or None in cells.values():
        return
    if not any(cells[ready].Rows.Count - 1 > cells[listed].Rows.Count for ready, listed in LISTED):
        return
    start, end = (cells[name].RangeAddress for name in CONTINUED)
    sheet = cells[CONTINUED[0]].Spreadsheet
    first, *further = sheet.getPrintAreas()
    if not further and first.EndRow < start.StartRow:
        left, right = first.StartColumn, first.EndColumn
        second = CellRangeAddress(first.Sheet, left, start.StartRow - HEADING, right, end.EndRow)
        sheet.setPrintAreas((first, second))
