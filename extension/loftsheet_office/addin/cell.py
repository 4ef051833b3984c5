"""Cells of a document as the functions see them that look at a cell itself.

The text of a formula cell is never asked for: inside a calculation the office answers "...".
"""

import re
from collections.abc import Sequence
from functools import cached_property
from typing import Any, Optional, Union

from com.sun.star.sheet import FormulaResult
from com.sun.star.table.CellContentType import EMPTY, FORMULA
from loftsheet.errors import BadInput, CellError

NAMES = {
    503: "#NUM!",
    519: "#VALUE!",
    521: "#NULL!",
    524: "#REF!",
    525: "#NAME?",
    532: "#DIV/0!",
    32767: "#N/A",
}
ABSOLUTE = re.compile(r"\$?(?P<sheet>'(?:[^']|'')+'|[^'.]+)\.\$[A-Z]+\$[0-9]+(:\$[A-Z]+\$[0-9]+)?")
REFERENCE = re.compile(
    r"(?:\$?(?P<sheet>'(?:[^']|'')+'|\w+)\.)?(?P<cells>\$?[A-Z]+\$?[0-9]+(:\$?[A-Z]+\$?[0-9]+)?)", re.I
)
SURELY_ONE = re.compile(r"\$?[A-Z]{1,2}\$?[0-9]+", re.I)  # three letters may be a name on a sheet of 1024 columns
MOST_CELLS = 10_000


class Cell:
    """A cell of a document as it is when first asked: what it holds, its formula, and what that refers to.

    Each question to the office costs as much as a whole function, so none is asked twice.
    """

    def __init__(self, cell: Any, document: Any) -> None:
        self.cell = cell
        self.document = document
        self.resolved: dict[str, Union[Cell, Sequence[Sequence[Cell]], None]] = {}

    @cached_property
    def address(self) -> str:
        return str(self.cell.AbsoluteName).replace("$", "")

    @cached_property
    def sheet(self) -> Any:
        return self.cell.Spreadsheet

    @cached_property
    def formula(self) -> str:
        return str(self.cell.Formula) if self.cell.Type == FORMULA else ""

    @cached_property
    def held(self) -> Union[float, str, None, CellError]:
        return content(self.cell)

    @property
    def value(self) -> Union[float, str, None]:
        return None if isinstance(self.held, CellError) else self.held

    @property
    def error(self) -> Optional[CellError]:
        return self.held if isinstance(self.held, CellError) else None

    def resolve(self, name: str) -> "Union[Cell, Sequence[Sequence[Cell]], None]":
        """Return the cell or the rows of cells behind a reference or a name, None if there are none."""
        if name not in self.resolved:
            self.resolved[name] = self._resolve(name)
        return self.resolved[name]

    def _resolve(self, name: str) -> "Union[Cell, Sequence[Sequence[Cell]], None]":
        found = REFERENCE.fullmatch(name)
        cells = (self._reference(found) if found else None) or self._named(name)
        if cells is None:
            return None
        if found and SURELY_ONE.fullmatch(found["cells"]):
            return Cell(cells.getCellByPosition(0, 0), self.document)
        size = cells.RangeAddress
        rows = size.EndRow - size.StartRow + 1
        columns = size.EndColumn - size.StartColumn + 1
        if rows * columns > MOST_CELLS:
            return None
        if rows == columns == 1:
            return Cell(cells.getCellByPosition(0, 0), self.document)
        return [
            [Cell(cells.getCellByPosition(column, row), self.document) for column in range(columns)]
            for row in range(rows)
        ]

    def _reference(self, found: "re.Match[str]") -> Any:
        sheet = self.sheet
        if found["sheet"]:
            called = found["sheet"].strip("'").replace("''", "'")
            if not self.document.Sheets.hasByName(called):
                return None
            sheet = self.document.Sheets.getByName(called)
        return sheet.getCellRangeByName(found["cells"])

    def _named(self, name: str) -> Any:
        """Return the cells of a name; one that means other cells from each place is not followed."""
        for names in (self.sheet.NamedRanges, self.document.NamedRanges):
            if names.hasByName(name):
                named = names.getByName(name)
                return named.ReferredCells if ABSOLUTE.fullmatch(named.Content) else None
        return None


def content(cell: Any) -> Union[float, str, None, CellError]:
    """Return what a cell holds: a number, a text, None when blank, or its error."""
    held = cell.DataArray[0][0]
    if isinstance(held, float):
        return held
    kind = cell.Type
    if kind == EMPTY:
        return None
    if kind == FORMULA and cell.FormulaResultType2 == FormulaResult.ERROR:
        code = cell.getError()
        return CellError(code, NAMES.get(code, f"Err:{code}"))
    return held if isinstance(held, str) else None


def only_cell(cells: Any) -> Any:
    """Return the one cell of a range, or refuse the range."""
    size = cells.RangeAddress
    if (size.StartRow, size.StartColumn) != (size.EndRow, size.EndColumn):
        raise BadInput("a range of cells was given where one cell is due")
    return cells.getCellByPosition(0, 0)
