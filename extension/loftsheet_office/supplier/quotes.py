"""What a supplier's answer says: prices and lead times by the item's name, compared with what stands in Order.

The file may have been sorted, added to or cut, and its columns may stand anywhere. What does not match is listed.
"""

import zipfile
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Optional

from ..common.refusal import Refusal
from .lists import ITEM, LEAD, PRICE

TO_FILL = {"price": PRICE, "lead": LEAD}
LARGEST = 1_000_000
MOST_ROWS, MOST_CELLS = 20_000, 500_000  # empty ones included
MEGABYTE = 1_000_000
MOST_UNPACKED = 20 * MEGABYTE  # an answer of 500 items has 0.2 MB


@dataclass(frozen=True)
class Change:
    """One cell of Order to write: which, for what, and the number."""

    cell: Any
    item: str
    heading: str
    value: float

    def line(self) -> str:
        now = str(self.cell.String)
        return f"{self.item}, {self.heading}: {self.value:g}" + (f" in place of {now}" if now else "")


@dataclass
class Answer:
    """What a file says: what is new to Order, what would replace something there, what does not match."""

    fresh: "list[Change]" = field(default_factory=list)
    replacing: "list[Change]" = field(default_factory=list)
    doubts: "list[str]" = field(default_factory=list)


def rows_of(path: Path) -> "list[dict[str, Any]]":
    """The rows below the headings, wherever they stand and in whatever order."""
    refuse_too_large(path)
    for values, written in zip(_sheets(path, data_only=True), _sheets(path, data_only=False)):
        for at, row in enumerate(values):
            headings = [" ".join(str(cell or "").split()) for cell in row]
            if ITEM in headings and (PRICE in headings or LEAD in headings):
                below = zip(values[at + 1 :], written[at + 1 :])
                return [dict(zip(headings, map(_content, *pair))) for pair in below]
    raise Refusal(
        f'No sheet of {path.name} has the headings "{ITEM}" and "{PRICE}". '
        "Ask the supplier to fill in the very file that was exported."
    )


def refuse_too_large(path: Path) -> None:
    """Refuse a file that unpacks to more than any answer holds, before it is unpacked."""
    try:
        with zipfile.ZipFile(path) as packed:
            parts = [part for part in packed.infolist() if part.filename.endswith((".xml", ".rels"))]
    except zipfile.BadZipFile:
        return  # which is said where it is read
    unpacked = sum(part.file_size for part in parts)  # more than that is not read from a part
    if unpacked > MOST_UNPACKED:
        raise Refusal(
            f"{path.name} unpacks to {unpacked / MEGABYTE:,.0f} MB, and an answer has less than "
            f"{MOST_UNPACKED // MEGABYTE} MB. It was not read; ask the supplier for the plain list."
        )


def _sheets(path: Path, data_only: bool) -> "Iterator[list[tuple[Any, ...]]]":
    """The rows of each sheet, read one after the other as they are asked for."""
    from openpyxl import load_workbook

    try:
        workbook = load_workbook(path, read_only=True, data_only=data_only)
        try:
            for sheet in workbook.worksheets:
                sheet.reset_dimensions()  # what a file says of its own size may be wrong
                yield _rows(sheet, path)
        finally:
            workbook.close()
    except (OSError, Refusal):
        raise
    except Exception as error:
        raise Refusal(f"{path.name} cannot be read as an .xlsx spreadsheet: {error}") from error


def _rows(sheet: Any, path: Path) -> "list[tuple[Any, ...]]":
    rows: list[tuple[Any, ...]] = []
    cells = 0
    for row in sheet.iter_rows(values_only=True):
        cells += len(row)
        if len(rows) == MOST_ROWS or cells > MOST_CELLS:
            raise Refusal(
                f"{path.name}, sheet {sheet.title}: it goes on beyond {MOST_ROWS:,} rows or {MOST_CELLS:,} cells, "
                "so something stands far away from the list. Delete that and try again."
            )
        rows.append(row)
    return rows


def _content(value: Any, written: Any) -> Any:
    """The value of a cell; a formula that was saved without its value stays a formula."""
    return written if value is None else value


def compare(rows: "Sequence[dict[str, Any]]", columns: "dict[str, Any]") -> Answer:
    """Match the rows of the file with those of Order by name."""
    answer = Answer()
    at = {str(name).strip(): row for row, (name,) in enumerate(columns["name"].DataArray) if name != ""}
    given = [(str(row.get(ITEM) or "").strip(), row) for row in rows]
    often = Counter(name for name, _ in given if name)
    for name, times in often.items():
        if name not in at:
            answer.doubts.append(f"{name}: not in Order")
        elif times > 1:
            answer.doubts.append(f"{name}: in the file {times} times; type its price yourself")
    for name, row in given:
        if name in at and often[name] == 1:
            for key, heading in TO_FILL.items():
                _take(answer, name, heading, row.get(heading), columns[key].getCellByPosition(0, at[name]))
    wanted = [name for name, row in at.items() if columns["quantity"].getCellByPosition(0, row).Value > 0]
    answer.doubts += [f"{name}: in Order, but not in the file" for name in wanted if name not in often]
    return answer


def _take(answer: Answer, item: str, heading: str, value: Any, cell: Any) -> None:
    """Sort one number of the file into what is new, what replaces something, and what cannot be taken."""
    if value is None or value == "":
        return
    number = _number(value)
    if number is None:
        unsaved = isinstance(value, str) and value.startswith("=")
        why = "a formula without a saved value" if unsaved else "not a number of 0 or more"
        answer.doubts.append(f'{item}, {heading}: "{value}" is {why}')
    elif cell.String == "":
        answer.fresh.append(Change(cell, item, heading, number))
    elif cell.DataArray[0][0] != number:
        answer.replacing.append(Change(cell, item, heading, number))


def _number(value: Any) -> Optional[float]:
    taken = isinstance(value, (int, float)) and not isinstance(value, bool) and 0 <= value < LARGEST
    return float(value) if taken else None
