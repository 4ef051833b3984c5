"""The sheet Balance: what of it is printed."""

from typing import Any

# What follows from the rows of a table, and how many rows for each of these.
FOLLOWING = (
    ("stays_name", "tensions_name", 1),
    ("stays_name", "beside_name", 1),
    ("masts_name", "stance_name", 4),
)


def print_all(book: Any) -> None:
    """Print a row for each that is ready on Stays and Masts; 0.1.0 had no such sheet."""
    for table, following, each in FOLLOWING:
        ready, shown = _cells(book, table), _cells(book, following)
        if ready is not None and shown is not None:
            rows = min(shown.Rows.Count, each * ready.Rows.Count)
            _print(shown, shown.RangeAddress.StartRow + rows - 1)


def _cells(book: Any, name: str) -> Any:
    ranges = book.NamedRanges
    return ranges.getByName(name).ReferredCells if ranges.hasByName(name) else None


def _print(shown: Any, last: int) -> None:
    sheet, first = shown.Spreadsheet, shown.RangeAddress.StartRow
    areas = sheet.getPrintAreas()
    for area in areas:
        if area.StartRow <= first <= area.EndRow:
            area.EndRow = max(area.EndRow, last)
    sheet.setPrintAreas(areas)
