"""Columns that the schedule gained after its first release: an older schedule has no such name."""

from typing import Any

from . import book as schedule


def columns(book: Any, table: str, keys: "tuple[str, ...]") -> "dict[str, Any]":
    """The cells of those columns that the schedule has; one whose cells were deleted is reported."""
    names = {key: f"{table}_{key}" for key in keys}
    return {key: schedule.cells(book, name) for key, name in names.items() if book.NamedRanges.hasByName(name)}
