"""Read Prices Back: takes prices and lead times from a file that a supplier filled in, by the item's name.

The file may have been sorted, added to or cut, and its columns may stand anywhere. What does not match is listed;
what is typed in Order already is not replaced without a yes of its own.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Optional

from . import book as schedule
from . import files
from .desk import Desk
from .form import Form
from .refusal import Refusal
from .supplier import ITEM, LEAD, PRICE
from .undo import OneUndo

TITLE = "Read Prices Back"
TO_FILL = {"price": PRICE, "lead": LEAD}
LARGEST = 1_000_000
MOST_CELLS = 1_000_000  # empty ones included; a single cell in the last row and column makes 17 thousand million


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
class Reading:
    """What a file says: what is new to Order, what would replace something there, what does not match."""

    fresh: "list[Change]" = field(default_factory=list)
    replacing: "list[Change]" = field(default_factory=list)
    doubts: "list[str]" = field(default_factory=list)


def run(desk: Desk) -> None:
    desk.must_be_writable()
    columns = {key: schedule.cells(desk.document, f"order_{key}") for key in ("name", "quantity", *TO_FILL)}
    if columns["price"].Spreadsheet.isProtected():
        raise Refusal("The sheet Order is protected. Take the protection off with Tools, Protect Sheet first.")
    path = files.file_to_read(desk, TITLE)
    if path is None:
        return
    with files.InWords(f"Reading {path.name}"):
        rows = rows_of(path)
    reading = compare(rows, columns)
    if not reading.fresh and not reading.replacing:
        raise Refusal("\n".join([f"{path.name} has nothing that Order does not have already.", *reading.doubts]))
    changes = which(desk, path.name, reading)
    if changes:
        with OneUndo(desk.document, TITLE):
            for change in changes:
                change.cell.Value = change.value


def which(desk: Desk, name: str, reading: Reading) -> "list[Change]":
    """Ask what to write: all, or only what replaces nothing; nothing when the user thinks better of it."""
    form = Form(desk, TITLE, width=340)
    form.text(f"~What {name} says", "\n".join(report(reading)), height=170)
    if not reading.replacing:
        return reading.fresh if form.ask("~Write") == "yes" else []
    form.words(f"{len(reading.replacing)} of these numbers replace what stands in Order now. Replace it?")
    blanks = {"blanks": ("Fill ~Blanks Only", None)} if reading.fresh else {}
    answer = form.ask("~Replace", **blanks)
    if answer == "blanks":
        return reading.fresh
    return [*reading.fresh, *reading.replacing] if answer == "yes" else []


def report(reading: Reading) -> "Iterator[str]":
    """What does not match, what is replaced and what is new, line by line."""
    parts = (
        ("Left out:", reading.doubts),
        ("Replaces what stands there:", [change.line() for change in reading.replacing]),
        ("New:", [change.line() for change in reading.fresh]),
    )
    for title, lines in parts:
        if lines:
            yield from (title, *(f"  {line}" for line in lines), "")


def rows_of(path: Path) -> "list[dict[str, Any]]":
    """The rows below the headings, wherever they stand and in whatever order."""
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


def _sheets(path: Path, data_only: bool) -> "list[list[tuple[Any, ...]]]":
    from openpyxl import load_workbook

    try:
        workbook = load_workbook(path, data_only=data_only)
    except OSError:
        raise
    except Exception as error:
        raise Refusal(f"{path.name} cannot be read as an .xlsx spreadsheet: {error}") from error
    for sheet in workbook.worksheets:
        if sheet.max_row * sheet.max_column > MOST_CELLS:
            raise Refusal(
                f"{path.name}, sheet {sheet.title}: something stands far away from the list, as far as row "
                f"{sheet.max_row} or column {sheet.max_column}. Delete that and try again."
            )
    return [list(sheet.iter_rows(values_only=True)) for sheet in workbook.worksheets]


def _content(value: Any, written: Any) -> Any:
    """The value of a cell; a formula that was saved without its value stays a formula."""
    return written if value is None else value


def compare(rows: "Sequence[dict[str, Any]]", columns: "dict[str, Any]") -> Reading:
    """Match the rows of the file with those of Order by name."""
    reading = Reading()
    at = {str(name).strip(): row for row, (name,) in enumerate(columns["name"].DataArray) if name != ""}
    given = [(str(row.get(ITEM) or "").strip(), row) for row in rows]
    often = Counter(name for name, _ in given if name)
    for name, times in often.items():
        if name not in at:
            reading.doubts.append(f"{name}: not in Order")
        elif times > 1:
            reading.doubts.append(f"{name}: in the file {times} times; type its price yourself")
    for name, row in given:
        if name in at and often[name] == 1:
            for key, heading in TO_FILL.items():
                _take(reading, name, heading, row.get(heading), columns[key].getCellByPosition(0, at[name]))
    wanted = [name for name, row in at.items() if columns["quantity"].getCellByPosition(0, row).Value > 0]
    reading.doubts += [f"{name}: in Order, but not in the file" for name in wanted if name not in often]
    return reading


def _take(reading: Reading, item: str, heading: str, value: Any, cell: Any) -> None:
    """Sort one number of the file into what is new, what replaces something, and what cannot be taken."""
    if value is None or value == "":
        return
    number = _number(value)
    if number is None:
        unsaved = isinstance(value, str) and value.startswith("=")
        why = "a formula without a saved value" if unsaved else "not a number of 0 or more"
        reading.doubts.append(f'{item}, {heading}: "{value}" is {why}')
    elif cell.String == "":
        reading.fresh.append(Change(cell, item, heading, number))
    elif cell.DataArray[0][0] != number:
        reading.replacing.append(Change(cell, item, heading, number))


def _number(value: Any) -> Optional[float]:
    sound = isinstance(value, (int, float)) and not isinstance(value, bool) and 0 <= value < LARGEST
    return float(value) if sound else None
