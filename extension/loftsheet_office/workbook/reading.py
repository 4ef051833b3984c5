"""The schedule as read through its named ranges: tables as rows, assumptions and results by name.

What a user inserts, sorts or renames does not matter here; a named range that was deleted is reported by name.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any, Optional, Union
from unicodedata import east_asian_width

from com.sun.star.sheet import FormulaResult
from com.sun.star.table.CellContentType import EMPTY, FORMULA

from ..common.refusal import Refusal

MOST_OF_NAME = 60  # letters, of a name in a heading
MOST_LETTERS = 60  # of what is typed in a file's name: a name may have 255 bytes, a letter up to four
USED = "_used"
FIRST_DAY = date(1899, 12, 30)  # from which the office counts
Value = Union[float, str, None]


class Missing(Refusal):
    """A named range that the schedule needs was deleted."""


class Failed(Refusal):
    """A cell that is needed is an error: where, and what."""


def columns_if_there(book: Any, table: str, keys: "tuple[str, ...]") -> "dict[str, Any]":
    """The cells of those columns that the schedule has; schedules of earlier releases lack some.

    One that it has but whose cells were deleted is reported.
    """
    names = {key: f"{table}_{key}" for key in keys}
    return {key: cells(book, name) for key, name in names.items() if book.NamedRanges.hasByName(name)}


def columns(book: Any, table: str) -> "list[Any]":
    """The cells of every column that a table has a name for."""
    rows = cells(book, f"{table}_name").RangeAddress
    names = [name for name in book.NamedRanges.ElementNames if name.startswith(f"{table}_")]
    found = [book.NamedRanges.getByName(name).ReferredCells for name in names]
    return [one for one in found if one is not None and one.RangeAddress.StartRow == rows.StartRow]


def cells(book: Any, name: str) -> Any:
    """The cells of a named range."""
    if book.NamedRanges.hasByName(name):
        found = book.NamedRanges.getByName(name).getReferredCells()
        if found is not None:
            return found
    raise Missing(f"the named range {name} is no longer in this schedule; restore it from an older copy")


def used(book: Any, name: str) -> str:
    """The name of what is used of an input that may stay blank, where there is such a column; else its own."""
    return f"{name}{USED}" if book.NamedRanges.hasByName(f"{name}{USED}") else name


def texts(book: Any, name: str) -> "list[str]":
    """What the cells of a named range hold, as it is read."""
    return [as_text(held) for (held,) in cells(book, name).DataArray]


def value(book: Any, name: str) -> Value:
    """The value of a named cell, None when blank."""
    return value_of(cells(book, name).getCellByPosition(0, 0))


def value_of(cell: Any) -> Value:
    """A number, a text or None; an error is raised with its place."""
    if cell.Type == EMPTY:
        return None
    if cell.Type == FORMULA and cell.FormulaResultType2 == FormulaResult.ERROR:
        raise Failed(f"{str(cell.AbsoluteName).replace('$', '')} is an error ({cell.String})")
    held = cell.DataArray[0][0]
    return held if held != "" else None


@dataclass(frozen=True)
class Row:
    """A named row of a table: what its cells hold, by the column; of those that are errors where and which."""

    values: "dict[str, Value]"
    errors: "dict[str, str]"

    def __getitem__(self, key: str) -> Value:
        return self.values[key]

    def get(self, key: str) -> Value:
        return self.values.get(key)


def rows(
    book: Any, table: str, wanted: "tuple[str, ...]", more: "Optional[dict[str, Any]]" = None
) -> "Iterator[Row]":
    """The named rows of a table with the columns asked for, and more cells beside them."""
    columns = {key: cells(book, used(book, f"{table}_{key}")) for key in dict.fromkeys(("name", *wanted))}
    columns.update(more or {})
    names = columns["name"]
    size = names.RangeAddress
    for at in range(size.EndRow - size.StartRow + 1):
        if names.getCellByPosition(0, at).Type == EMPTY:
            continue
        row = Row({}, {})
        for key, column in columns.items():
            try:
                row.values[key] = value_of(column.getCellByPosition(0, at))
            except Failed as error:
                row.errors[key] = str(error)
        yield row


def error_free_rows(book: Any, table: str, wanted: "tuple[str, ...]") -> "list[Row]":
    """The named rows of a table, or a refusal that lists every cell in them that is an error."""
    found = list(rows(book, table, wanted))
    errors = [error for row in found for error in row.errors.values()]
    if errors:
        raise Failed("; ".join(errors))
    return found


def boat(book: Any) -> str:
    """The boat and the revision of the schedule, in words."""
    name, revision, day = (value(book, f"boat_{key}") for key in ("name", "revision", "date"))
    dated = f" of {day_of(day)}" if isinstance(day, float) else ", no date"
    called = within(as_text(name), MOST_OF_NAME) or "a boat without a name"
    return f"{called}, revision {within(as_text(revision), MOST_OF_NAME) or '-'}{dated}"


def within(text: str, most: int) -> str:
    """A text on one line, cut where it would be wider than so many letters; some letters are twice as wide."""
    line, width = " ".join(text.split()), 0
    for at, letter in enumerate(line):
        width += 2 if east_asian_width(letter) in "WF" else 1
        if width > most:
            return f"{line[:at]}…"
    return line


def day_of(number: float) -> date:
    """The day that a cell with a date holds, which the office counts from the end of 1899."""
    return FIRST_DAY + timedelta(days=int(number))


def as_text(held: Value) -> str:
    """What a cell holds as it is read: a whole number without its point."""
    return f"{held:g}" if isinstance(held, float) else held or ""


def file_name(what: str, *named: str) -> str:
    """A name for a file: boat, more names, and what it is; without the signs that some system refuses."""
    plain = re.sub(r"\W+", "-", " ".join(named))[:MOST_LETTERS].strip("-")
    return f"{plain}-{what}" if plain else what
