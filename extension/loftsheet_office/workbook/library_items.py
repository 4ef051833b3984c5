"""The Library of a schedule as data: read, compared with another, and put into a schedule.

{"rope": {"HMPE 12-strand 10 mm": {"status": "certificate", "size": 10.0, …}, …}, "wire": …}
"""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Callable, Union

from com.sun.star.sheet.CellFlags import DATETIME, FORMULA, STRING, VALUE
from com.sun.star.table.CellContentType import EMPTY

from ..common.refusal import Refusal
from .columns import all_columns
from .named_tables import Table, Tables

Held = Union[float, str]
Library = dict[str, dict[str, dict[str, Held]]]
TABLES = ("rope", "wire", "rod", "bolt", "sleeve", "ring", "share", "sundry", "trial")
TYPED = VALUE + DATETIME + STRING + FORMULA


def read(book: Any) -> Library:
    """What is typed in the Library of a schedule; what is calculated there follows."""
    return {table.key: dict(_items(table)) for table in _tables(book)}


def _tables(book: Any) -> "list[Table]":
    return [table for table in Tables(book).all if table.key in TABLES]


def _items(table: Table) -> "Iterator[tuple[str, dict[str, Held]]]":
    for at, (name,) in enumerate(table.columns["name"].DataArray):
        if name:
            cells = {key: table.columns[key].getCellByPosition(0, at) for key in _inputs(table)}
            held = {key: cell.DataArray[0][0] for key, cell in cells.items() if cell.Type != EMPTY}
            yield str(name), {key: value for key, value in held.items() if value != ""}


def _inputs(table: Table) -> "list[str]":
    keys = (key for key in table.columns if key != "name")
    return [key for key in keys if all_columns()[f"{table.key}_{key}"].is_input]


def differences(before: Library, after: Library) -> "list[str]":
    """What another Library would change, line by line; what it lacks stays and is not listed."""
    lines = []
    for table, items in after.items():
        there = before.get(table, {})
        title = all_columns()[f"{table}_name"].title
        for name, held in items.items():
            if name not in there:
                lines.append(f"{title}: {name} is new")
            else:
                lines += [f"{title}: {name}, {change}" for change in _changes(table, there[name], held)]
    return lines


def _changes(table: str, before: "dict[str, Held]", after: "dict[str, Held]") -> "Iterator[str]":
    for key in dict.fromkeys((*before, *after)):
        column = all_columns().get(f"{table}_{key}")
        if column and before.get(key) != after.get(key):
            yield f"{column.title}: {_shown(before.get(key))} becomes {_shown(after.get(key))}"


def _shown(held: "Held | None") -> str:
    return "blank" if held is None else f"{held:g}" if isinstance(held, float) else held


def put(book: Any, library: Library, add_rows: "Callable[[Table, int], None]") -> None:
    """Put the items of a Library into that of a schedule: over those of the same name, or below all others.

    What follows from them is worked out once, when all are there.
    """
    works_out = book.isAutomaticCalculationEnabled()
    book.enableAutomaticCalculation(False)
    try:
        _put(book, library, add_rows)
    finally:
        book.enableAutomaticCalculation(works_out)


def _put(book: Any, library: Library, add_rows: "Callable[[Table, int], None]") -> None:
    for table in _tables(book):
        items = library.get(table.key, {})
        names = [str(name) for (name,) in table.columns["name"].DataArray]
        new = [name for name in items if name not in names]
        room = len(names) - 1 - max((at for at, name in enumerate(names) if name), default=-1) - 1
        if len(new) > room:
            add_rows(table, len(new) - room)
            table = next(one for one in _tables(book) if one.key == table.key)
            names = [str(name) for (name,) in table.columns["name"].DataArray]
        below = max((at for at, name in enumerate(names) if name), default=-1) + 1
        for name, held in items.items():
            at = names.index(name) if name in names else below
            below += name not in names
            _write(table, at, {"name": name, **held})


def clear(book: Any) -> None:
    """Empty the Library of a schedule."""
    for table in _tables(book):
        for key in ("name", *_inputs(table)):
            table.columns[key].clearContents(TYPED)


def _write(table: Table, at: int, held: "dict[str, Held]") -> None:
    for key in ("name", *_inputs(table)):
        cell, value = table.columns[key].getCellByPosition(0, at), held.get(key)
        if value is None:
            cell.clearContents(TYPED)
        elif isinstance(value, float):
            cell.Value = value
        else:
            cell.String = value


def save(library: Library, path: Path) -> None:
    """Write a Library beside its place, then rename."""
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(f"new {path.name}")
    beside.write_text(json.dumps(library, ensure_ascii=False, indent=1), encoding="utf-8")
    beside.replace(path)


def load(path: Path) -> Library:
    """Read a Library that was saved, or refuse what is none."""
    try:
        held = json.loads(path.read_text(encoding="utf-8"))
        items = [one for table in TABLES for one in held.get(table, {}).values()]
        sound = all(isinstance(value, (float, int, str)) for item in items for value in item.values())
    except (ValueError, AttributeError):
        sound = False
    if not sound:
        raise Refusal(f"{path} is no Library any more. Save the Library of the yard anew, or delete that file.")
    return {
        table: {
            name: {key: float(value) if isinstance(value, (int, float)) else value for key, value in item.items()}
            for name, item in held.get(table, {}).items()
        }
        for table in TABLES
    }
