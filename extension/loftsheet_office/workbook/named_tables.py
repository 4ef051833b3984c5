"""Where things stand in the schedule: its tables by their named ranges, and the cell the user is in."""

from dataclasses import dataclass
from functools import cached_property
from typing import Any, Optional

from com.sun.star.table import CellRangeAddress

from .columns import all_columns, titles_of_tables

TITLE_ROWS = 2  # a table's title and its header stand above its first row


@dataclass(frozen=True)
class Table:
    """A table of the schedule: the cells of its columns, by the column's key, and the rows they share."""

    key: str
    title: str
    columns: "dict[str, Any]"

    @property
    def sheet(self) -> Any:
        return self.columns["name"].Spreadsheet

    @cached_property
    def area(self) -> Any:
        """From the first to the last of its columns, the user's own between them included."""
        spans = [cells.RangeAddress for cells in self.columns.values()]
        name = self.columns["name"].RangeAddress
        left, right = min(span.StartColumn for span in spans), max(span.EndColumn for span in spans)
        return CellRangeAddress(name.Sheet, left, name.StartRow, right, name.EndRow)

    @property
    def rows(self) -> range:
        return range(self.area.StartRow, self.area.EndRow + 1)

    def named(self, row: int) -> str:
        """What stands in the name column of a row of the sheet."""
        return str(self.columns["name"].getCellByPosition(0, row - self.rows.start).String)


class Tables:
    """The named ranges of a schedule, looked up once for a command."""

    def __init__(self, book: Any) -> None:
        self.book = book
        found = {name: referred(book, name) for name in all_columns()}
        self.cells = {name: cells for name, cells in found.items() if cells is not None}
        self.spans = {name: cells.RangeAddress for name, cells in self.cells.items()}
        self.gone = [name for name, cells in found.items() if cells is None]

    @cached_property
    def all(self) -> "list[Table]":
        """The tables whose name column is still there, in the order of the sheets."""
        found = []
        for key, title in titles_of_tables().items():
            columns = {
                name[len(key) + 1 :]: cells
                for name, cells in self.cells.items()
                if all_columns()[name].table == key
            }
            if "name" in columns:
                found.append(Table(key, title, columns))
        return found

    def table_at(self, cell: Any) -> Optional[Table]:
        """The table that a cell is in: of the tables of its sheet the last that starts above it."""
        at = cell.CellAddress
        here = [table for table in self.all if table.area.Sheet == at.Sheet]
        above = [table for table in here if table.rows.start - TITLE_ROWS <= at.Row]
        return max(above, key=lambda table: table.rows.start, default=None)

    def led_to(self, table: str, about: str, row: int) -> "tuple[str, Any]":
        """Name and cell of what a complaint in a row of a sheet is about; "" and None if they are gone.

        `lower.points_out` is the cell of the row of Points that the column `lower` of this row names.
        """
        pick, _, last = about.rpartition(".")
        name = next((one for one in (last, f"{table}_{last}") if one in self.cells), "")
        if not name:
            return "", None
        known, at = all_columns()[name], row - self.spans[name].StartRow
        if pick:
            names = self.cells.get(f"{known.table}_name")
            picked = self.led_to(table, pick, row)
            rows = [held for (held,) in names.DataArray] if names is not None else []
            wanted = picked[1].String if picked[1] is not None else ""
            if wanted not in rows:
                return picked
            at = rows.index(wanted)
        single = not known.table and self.spans[name].StartRow == self.spans[name].EndRow
        return name, self.cells[name].getCellByPosition(0, 0 if single else at)

    def name_at(self, cell: Any) -> str:
        """The named range of the column or the single cell that a cell belongs to, "" if there is none."""
        at = cell.CellAddress
        return next((name for name, span in self.spans.items() if inside(at, span)), "")


def copied_sheets(book: Any) -> "list[tuple[Any, str]]":
    """Sheets that are a copy of one of ours, each with that one's name: they calculate, and nobody reads them.

    Title and heading of ours stand at the top of a copy, too; the names of the schedule lead to the original.
    """
    places = (named.ReferredCells for named in book.NamedRanges)
    ours = {cells.RangeAddress.Sheet for cells in places if cells is not None}
    sheets = [book.Sheets.getByIndex(at) for at in range(book.Sheets.Count)]
    tops = {_top(sheets[at]): sheets[at].Name for at in sorted(ours)}
    others = (sheet for at, sheet in enumerate(sheets) if at not in ours)
    return [(sheet, tops[_top(sheet)]) for sheet in others if _top(sheet) in tops]


def _top(sheet: Any) -> "tuple[str, str]":
    title, heading = (sheet.getCellByPosition(0, row) for row in (0, 1))
    return title.Formula, heading.Formula


def referred(book: Any, name: str) -> Any:
    """The cells of a named range, None when it or they are gone."""
    if not book.NamedRanges.hasByName(name):
        return None
    return book.NamedRanges.getByName(name).ReferredCells


def inside(at: Any, span: Any) -> bool:
    return bool(
        at.Sheet == span.Sheet
        and span.StartRow <= at.Row <= span.EndRow
        and span.StartColumn <= at.Column <= span.EndColumn
    )


def address(cell: Any) -> str:
    """Where a cell is, in words: Stays.B7."""
    return str(cell.AbsoluteName).replace("$", "")
