"""Read Prices Back: takes prices and lead times from a file that a supplier filled in, by the item's name."""

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Optional

from . import book as schedule
from . import files
from .desk import Desk
from .refusal import Refusal
from .supplier import ITEM, LEAD, PRICE

TITLE = "Read Prices Back"
TO_FILL = {"price": PRICE, "lead": LEAD}


@dataclass
class Reading:
    """What a file says of Order: by row and column what to write, and in words what does not match."""

    values: dict[tuple[int, str], float] = field(default_factory=dict)
    lines: list[str] = field(default_factory=list)
    doubts: list[str] = field(default_factory=list)


def run(desk: Desk) -> None:
    desk.must_be_writable()
    path = files.file_to_read(desk, TITLE)
    if path is None:
        return
    columns = {key: schedule.cells(desk.document, f"order_{key}") for key in ("name", *TO_FILL)}
    reading = compare(rows_of(path), columns)
    if not reading.values:
        raise Refusal("\n".join(["Nothing to take over from this file.", *reading.doubts]))
    if not desk.agrees(TITLE, question(reading)):
        return
    undo = desk.document.UndoManager
    undo.enterUndoContext(TITLE)
    try:
        for (row, key), value in reading.values.items():
            columns[key].getCellByPosition(0, row).Value = value
    finally:
        undo.leaveUndoContext()


def rows_of(path: Path) -> "list[dict[str, Any]]":
    """The rows below the headings, wherever in the file they stand and in whatever order."""
    from openpyxl import load_workbook

    try:
        workbook = load_workbook(path, read_only=True, data_only=True)
    except Exception as error:
        raise Refusal(f"{path.name} cannot be read as an .xlsx spreadsheet: {error}") from error
    for sheet in workbook:
        rows = [list(row) for row in sheet.iter_rows(values_only=True)]
        for at, row in enumerate(rows):
            if ITEM in row and (PRICE in row or LEAD in row):
                return [dict(zip(row, values)) for values in rows[at + 1 :] if any(values)]
    raise Refusal(
        f'No sheet of {path.name} has the headings "{ITEM}" and "{PRICE}"; send the supplier a new export.'
    )


def compare(rows: "list[dict[str, Any]]", columns: "dict[str, Any]") -> Reading:
    """Match the rows of the file with those of Order by name."""
    reading = Reading()
    at = {str(name): row for row, (name,) in enumerate(columns["name"].DataArray) if name != ""}
    seen: set[str] = set()
    for given in rows:
        name = str(given.get(ITEM) or "").strip()
        if name not in at:
            reading.doubts += [f"{name}: not on Order, left out"] if name else []
        elif name in seen:
            reading.doubts.append(f"{name}: twice in the file, only the first is taken")
        else:
            seen.add(name)
            for key, heading in TO_FILL.items():
                _take(reading, name, heading, given.get(heading), (at[name], key), columns[key])
    return reading


def _take(reading: Reading, name: str, heading: str, value: Any, place: "tuple[int, str]", column: Any) -> None:
    number = _number(value)
    old = column.getCellByPosition(0, place[0])
    if value in (None, ""):
        return
    if number is None:
        reading.doubts.append(f'{name}, {heading}: "{value}" is not a number of 0 or more, left out')
    elif old.String == "" or old.Value != number:
        reading.values[place] = number
        reading.lines.append(f"{name}, {heading}: {number:g}" + (f" (now {old.String})" if old.String else ""))


def _number(value: Any) -> Optional[float]:
    sound = isinstance(value, (int, float)) and not isinstance(value, bool) and 0 <= value < 1_000_000
    return float(value) if sound else None


def question(reading: Reading) -> str:
    """What is asked before anything is written: a long list is cut, and says so."""
    shown = [*reading.doubts, *reading.lines]
    more = [f"… and {len(shown) - 20} more"] if len(shown) > 20 else []
    overwritten = sum("(now " in line for line in reading.lines)
    asked = f"Write {len(reading.values)} numbers into Order, {overwritten} of them over others?"
    return "\n".join([asked, "", *shown[:20], *more])
