"""Rows that come out of a dialog, put into the ready rows of their tables."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from ..workbook import reading
from ..workbook.columns import all_columns
from ..workbook.named_tables import Table, Tables
from ..workbook.new_stay import Rows
from . import add_rows


def fill(book: Any, rows: Rows) -> "dict[str, Any]":
    """Put the rows into their tables and work out once what follows; return the first name of each table."""
    with worked_out_once(book):
        return _fill(book, rows)


@contextmanager
def worked_out_once(book: Any) -> "Iterator[None]":
    """Nothing is calculated while cells are filled; what follows from them is, once, afterwards."""
    works_out = book.isAutomaticCalculationEnabled()
    book.enableAutomaticCalculation(False)
    try:
        yield
    finally:
        book.enableAutomaticCalculation(works_out)


def _fill(book: Any, rows: Rows) -> "dict[str, Any]":
    """Put the rows into their tables, which get more ready rows if they are full."""
    first: dict[str, Any] = {}
    for key, wanted in rows.items():
        if not wanted:
            continue
        table = table_of(book, key)
        lacking = len(wanted) - len(free_rows(table))
        if lacking > 0:
            add_rows.add(table, lacking)
            table = table_of(book, key)
        for at, row in zip(free_rows(table), wanted):
            put(table, at, row)
            first.setdefault(key, table.columns["name"].getCellByPosition(0, at))
    return first


def change(book: Any, key: str, name: str, row: "dict[str, str]") -> None:
    """Put what is given into the row of that name."""
    table = table_of(book, key)
    held = [text for (text,) in table.columns["name"].DataArray]
    put(table, held.index(name), row)


def table_of(book: Any, key: str) -> Table:
    found = next((table for table in Tables(book).all if table.key == key), None)
    if found is None:
        raise reading.Missing(
            f"the named range {key}_name is no longer in this schedule; restore it from an older copy"
        )
    return found


def free_rows(table: Table) -> "list[int]":
    """The ready rows, counted from the table's first, in which nothing was typed; the last one stays empty."""
    inputs = [cells for key, cells in table.columns.items() if all_columns()[f"{table.key}_{key}"].is_input]
    held = [any(row) for row in zip(*([cell != "" for (cell,) in cells.DataArray] for cells in inputs))]
    return [at for at, filled in enumerate(held[:-1]) if not filled]


def put(table: Table, at: int, row: "dict[str, str]") -> None:
    for key, held in row.items():
        if held == "" or key not in table.columns:
            continue  # a schedule of an earlier release has no such column
        cell = table.columns[key].getCellByPosition(0, at)
        if all_columns()[f"{table.key}_{key}"].kind in ("number", "date"):
            cell.Value = float(held)
        else:
            cell.String = held
