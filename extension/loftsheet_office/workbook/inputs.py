"""What was typed into a schedule, put into another: cell by cell through the named ranges that both have."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any, Callable

from com.sun.star.sheet.CellFlags import DATETIME, FORMULA, STRING, VALUE
from com.sun.star.table.CellContentType import EMPTY
from com.sun.star.table.CellContentType import FORMULA as IS_FORMULA
from com.sun.star.table.CellContentType import VALUE as NUMBER

from .columns import all_columns
from .named_tables import Table, Tables, referred

TYPED = VALUE + DATETIME + STRING + FORMULA
AROUND = ("_below", "_header", "_title", "_nth")  # of a table, and numbers of rows that only count
YOURS = "Yours"
PICKED = ("bench_stay", "view_stub")  # cells of pages in which a row is picked
KEPT_AS_MADE = ("control",)  # tables in which nothing is typed
# Where a boat's single mast stood before masts had rows.
MAST = {
    "boat_mast_width": "width",
    "boat_mast_fore": "section",
    "boat_wall": "wall",
    "boat_mast_yield": "proof",
    "boat_rake": "rake",
    "boat_foot_fore": "foot_fore",
    "boat_foot_up": "foot_up",
}
ONE_MAST = "mast"

AddRows = Callable[[Table, int], None]


@dataclass
class Taken:
    """What was taken over: how many cells, and in words what needs a look."""

    cells: int = 0
    masts: "list[str]" = field(default_factory=list)
    values: "list[str]" = field(default_factory=list)  # formulas of which only the value came along
    lost: "list[str]" = field(default_factory=list)
    own: "list[str]" = field(default_factory=list)
    blank: "list[str]" = field(default_factory=list)


def take_over(old: Any, new: Any, add_rows: AddRows) -> Taken:
    """Put all that was typed in one schedule into another, whose own rows give way."""
    taken = Taken()
    before = Tables(old)
    for table in before.all:
        if table.key not in KEPT_AS_MADE:
            _rows(table, old, new, taken, add_rows)
    for name, column in all_columns().items():
        if not column.table and column.is_input:
            _single(before, new, name, taken)
    for name in PICKED:
        cells, target = referred(old, name), referred(new, name)
        if cells is not None and target is not None:
            _copy(cells.getCellByPosition(0, 0), target.getCellByPosition(0, 0), "", taken)
    _mast(old, new, taken)
    _what_is_unknown(before, taken)
    return taken


def _rows(table: Table, old: Any, new: Any, taken: Taken, add_rows: AddRows) -> None:
    """Put the rows of one table into the new schedule, in place of those that stand there."""
    target = _table(new, table.key)
    if target is None:
        taken.lost.append(f"{table.title}: the new schedule has no such table")
        return
    rows = [at for at in range(len(table.rows)) if _is_used(table, at)]
    if len(rows) >= len(target.rows):
        add_rows(target, len(rows) + 1 - len(target.rows))
        target = _table(new, table.key)
        assert target
    for key, cells in target.columns.items():
        if all_columns()[f"{table.key}_{key}"].is_input:
            cells.clearContents(TYPED)
    for key, cells in table.columns.items():
        column = all_columns()[f"{table.key}_{key}"]
        if column.is_input and key in target.columns:
            for down, at in enumerate(rows):
                place = f"{column.place}, {column.title}"
                _copy(cells.getCellByPosition(0, at), target.columns[key].getCellByPosition(0, down), place, taken)
    _own_columns((old, table), (new, target), rows, taken)
    if rows:
        missing = [key for key in target.columns if key not in table.columns and _is_required(table.key, key)]
        taken.blank += [f"{table.title}: {all_columns()[f'{table.key}_{key}'].title}" for key in missing]


def _is_required(table: str, key: str) -> bool:
    column = all_columns()[f"{table}_{key}"]
    return column.is_input and column.required


def _is_used(table: Table, at: int) -> bool:
    """Whether something is typed in a row."""
    inputs = (cells for key, cells in table.columns.items() if all_columns()[f"{table.key}_{key}"].is_input)
    return any(cells.getCellByPosition(0, at).Type != EMPTY for cells in inputs)


def _table(book: Any, key: str) -> "Table | None":
    return next((table for table in Tables(book).all if table.key == key), None)


def _single(before: Tables, new: Any, name: str, taken: Taken) -> None:
    """An assumption: as it was, blank or not; one that the old schedule lacks stays as the new one has it."""
    target = referred(new, name)
    if name in before.cells and target is not None:
        target.clearContents(TYPED)
        column = all_columns()[name]
        place = f"{column.place}, {column.title}"
        _copy(before.cells[name].getCellByPosition(0, 0), target.getCellByPosition(0, 0), place, taken)


def _copy(cell: Any, target: Any, place: str, taken: Taken) -> None:
    if cell.Type == EMPTY:
        return
    if cell.Type == IS_FORMULA:
        taken.values.append(f"{place}: {cell.Formula}")
        if cell.getError():
            return
    held = cell.DataArray[0][0]
    if isinstance(held, float):
        target.Value = held
    else:
        target.String = held
    taken.cells += 1


def _mast(old: Any, new: Any, taken: Taken) -> None:
    """The mast of a schedule from before masts had rows."""
    held = {key: referred(old, name) for name, key in MAST.items()}
    there = {key: cells for key, cells in held.items() if cells is not None}
    names = referred(new, "masts_name")
    if not there or referred(old, "masts_name") is not None or names is None:
        return
    names.getCellByPosition(0, 0).String = ONE_MAST
    for key, cells in there.items():
        target = referred(new, f"masts_{key}")
        if target is not None:
            place = f"Masts, {all_columns()[f'masts_{key}'].title}"
            _copy(cells.getCellByPosition(0, 0), target.getCellByPosition(0, 0), place, taken)
            taken.masts.append(all_columns()[f"masts_{key}"].title)
    masts = _table(new, "masts")
    missing = [key for key in masts.columns if _is_required("masts", key)] if masts else []
    taken.blank += [f"Masts: {all_columns()[f'masts_{key}'].title}" for key in missing if key not in there]


def _what_is_unknown(before: Tables, taken: Taken) -> None:
    """Names of the old schedule that the new one has no place for, with what stood there."""
    known = {*all_columns(), *MAST, *PICKED, "bench_marks", "boat_check", "boat_found", "boat_state"}
    for named in before.book.NamedRanges:
        name = named.Name
        cells = None if name in known or name.endswith(AROUND) else named.ReferredCells
        if cells is not None:
            filled = cells.queryContentCells(VALUE + DATETIME + STRING)
            if filled.Count:
                taken.lost.append(f"{name}, {filled.RangeAddressesAsString.replace('$', '')}")


def _own_columns(
    before: "tuple[Any, Table]", after: "tuple[Any, Table]", rows: "Sequence[int]", taken: Taken
) -> None:
    """The user's own columns, between ours or to the right of them: into those that are the user's, or beyond."""
    (old, table), (new, target) = before, after
    free = _free_columns(target)
    for at in _unnamed(table):
        cells = [table.sheet.getCellByPosition(at, table.rows.start + row) for row in rows]
        if all(cell.Type == EMPTY for cell in cells):
            continue
        head = table.sheet.getCellByPosition(at, table.rows.start - 1).String
        column = next(free)
        target.sheet.getCellByPosition(column, target.rows.start - 1).String = head
        for down, cell in enumerate(cells):
            place = f"{table.title}, {' '.join(head.split())}"
            put = target.sheet.getCellByPosition(column, target.rows.start + down)
            _copy(cell, put, place, taken)
            if cell.Type in (NUMBER, IS_FORMULA):
                put.NumberFormat = _same_format(old, cell.NumberFormat, new)
        taken.own.append(f"{table.title}: {' '.join(head.split()) or 'a column without a head'}")


def _unnamed(table: Table) -> "Iterator[int]":
    """The columns of a table, and beside it, that are none of ours; right of it up to the first without a head."""
    named = {cells.RangeAddress.StartColumn for cells in table.columns.values()}
    last = max(named)
    for at in range(table.area.StartColumn, table.sheet.Columns.Count):
        if at > last and not table.sheet.getCellByPosition(at, table.rows.start - 1).String:
            return
        if at not in named:
            yield at


def _free_columns(table: Table) -> "Iterator[int]":
    """The columns that are there for the user and empty, then those to the right of the table."""
    head = table.rows.start - 1
    for at in _unnamed(table):
        if table.sheet.getCellByPosition(at, head).String.startswith(YOURS):
            yield at
    at = table.area.EndColumn + 1
    while True:
        if not table.sheet.getCellByPosition(at, head).String:
            yield at
        at += 1


def _same_format(old: Any, key: int, new: Any) -> int:
    """The number format of a cell, in another document."""
    shown, formats = old.NumberFormats.getByKey(key), new.NumberFormats
    there = formats.queryKey(shown.FormatString, shown.Locale, False)
    return int(there if there >= 0 else formats.addNew(shown.FormatString, shown.Locale))
