"""Rows of the schedule as records: a dataclass whose fields are columns, read and checked in one go.

A field that is a `float` has to be a number, a `str` is the cell as text, an `Optional[float]` may be blank, and a
`Value` is what the cell holds. Fields
with a default are columns that schedules of earlier releases lack; there they keep it.
"""

from collections.abc import Mapping
from dataclasses import MISSING, Field, fields
from typing import Any, TypeVar

from . import reading
from .reading import Row, Value

Record = TypeVar("Record")


class NotNumbers(ValueError):
    """Columns that hold something else where a number is due."""


def rows(book: Any, table: str, *kinds: type) -> "list[Row]":
    """The named rows of a table, with all the columns that records of these kinds are made of."""
    wanted = tuple(key for kind in kinds for key in _columns(kind))
    later = tuple(key for kind in kinds for key in later_columns(kind))
    return list(reading.rows(book, table, wanted, reading.columns_if_there(book, table, later)))


def later_columns(kind: type) -> "tuple[str, ...]":
    """The columns that schedules of earlier releases lack."""
    return tuple(one.name for one in fields(kind) if one.default is not MISSING)


def _columns(kind: type) -> "tuple[str, ...]":
    return tuple(one.name for one in fields(kind) if one.default is MISSING)


def errors(row: Row, kind: type) -> "list[str]":
    """The cells of a row that are errors, of those that a record is made of."""
    keys = {one.name for one in fields(kind)}
    return [error for key, error in row.errors.items() if key in keys]


def record(kind: "type[Record]", values: "Mapping[str, Value]") -> Record:
    """A record of a row without errors; refused with the columns that hold no number where one is due."""
    columns: tuple[Field[Any], ...] = fields(kind)  # type: ignore[arg-type]
    read = {one.name: _read(one, values[one.name]) for one in columns if one.name in values}
    wrong = [key.replace("_", " ") for key, value in read.items() if value is NotNumbers]
    if wrong:
        raise NotNumbers(", ".join(wrong))
    return kind(**read)


def _read(one: "Field[Any]", value: Value) -> Any:
    if one.type == Value:
        return value
    if one.type is str:
        return reading.as_text(value)
    if isinstance(value, float) or (value is None and one.type is not float):
        return value
    return NotNumbers
