"""The schedule as read through its named ranges: tables as rows, assumptions and results by name.

What a user inserts, sorts or renames does not matter here; a named range that was deleted is reported by name.
"""

import re
from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any, Optional, Union

from com.sun.star.sheet import FormulaResult
from com.sun.star.table.CellContentType import EMPTY, FORMULA

from .refusal import Refusal

MOST_LETTERS = 60  # of what is typed in a file's name: a name may have 255 bytes, a letter up to four
Value = Union[float, str, None]


class Missing(Refusal):
    """A named range that the schedule needs was deleted."""


class Failed(Refusal):
    """A cell that is needed is an error: where, and what."""


def ranges(book: Any, table: str) -> "dict[str, Any]":
    """The cells of each column of a table, by the column's key."""
    prefix = f"{table}_"
    names = [name for name in book.NamedRanges.ElementNames if name.startswith(prefix)]
    return {name[len(prefix) :]: cells(book, name) for name in names}


def cells(book: Any, name: str) -> Any:
    """The cells of a named range."""
    if book.NamedRanges.hasByName(name):
        found = book.NamedRanges.getByName(name).getReferredCells()
        if found is not None:
            return found
    raise Missing(f"the named range {name} is no longer in this schedule; restore it from an older copy")


def texts(book: Any, name: str) -> "list[str]":
    """What the cells of a named range hold, as it is read."""
    return [words(held) for (held,) in cells(book, name).DataArray]


def value(book: Any, name: str) -> Value:
    """The value of a named cell, None when blank."""
    return content(cells(book, name).getCellByPosition(0, 0))


def content(cell: Any) -> Value:
    """A number, a text or None; an error is raised with its place."""
    if cell.Type == EMPTY:
        return None
    if cell.Type == FORMULA and cell.FormulaResultType2 == FormulaResult.ERROR:
        raise Failed(f"{str(cell.AbsoluteName).replace('$', '')} is an error ({cell.String})")
    held = cell.DataArray[0][0]
    return held if held != "" else None


def rows(
    book: Any, table: str, wanted: "tuple[str, ...]", more: "Optional[dict[str, Any]]" = None
) -> "list[dict[str, Value]]":
    """The named rows of a table, with the columns asked for and more cells beside them; every error is listed."""
    found = list(each_row(book, table, wanted, more))
    failed = [error for _, errors in found for error in errors]
    if failed:
        raise Failed("; ".join(failed))
    return [row for row, _ in found]


def each_row(
    book: Any, table: str, wanted: "tuple[str, ...]", more: "Optional[dict[str, Any]]" = None
) -> "Iterator[tuple[dict[str, Value], list[str]]]":
    """Each named row of a table with the columns asked for, and the errors among them."""
    columns = {key: cells(book, f"{table}_{key}") for key in dict.fromkeys(("name", *wanted))}
    columns.update(more or {})
    names = columns["name"]
    size = names.RangeAddress
    for at in range(size.EndRow - size.StartRow + 1):
        if names.getCellByPosition(0, at).Type == EMPTY:
            continue
        row: dict[str, Value] = {}
        errors = []
        for key, column in columns.items():
            try:
                row[key] = content(column.getCellByPosition(0, at))
            except Failed as error:
                errors.append(str(error))
        yield row, errors


def boat(book: Any) -> str:
    """The boat and the revision of the schedule, in words."""
    name, revision, day = (value(book, f"boat_{key}") for key in ("name", "revision", "date"))
    dated = f" of {day_of(day)}" if isinstance(day, float) else ", no date"
    return f"{words(name) or 'a boat without a name'}, revision {words(revision) or '-'}{dated}"


def day_of(number: float) -> date:
    """The day that a cell with a date holds, which the office counts from the end of 1899."""
    return date(1899, 12, 30) + timedelta(days=int(number))


def words(held: Value) -> str:
    """What a cell holds as it is read: a whole number without its point."""
    return f"{held:g}" if isinstance(held, float) else held or ""


def file_name(book: Any, what: str, *more: Value) -> str:
    """A name for a file: boat, more words, and what it is; without the signs that some system refuses."""
    typed = " ".join(words(part) for part in (value(book, "boat_name"), *more))
    plain = re.sub(r"\W+", "-", typed)[:MOST_LETTERS].strip("-")
    return f"{plain}-{what}" if plain else what
