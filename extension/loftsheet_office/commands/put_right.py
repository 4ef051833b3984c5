"""What Check the Schedule can put right itself: users of a changed name, formulas, items that Order lacks.

A name is text in the rows that use it, so a row that was renamed leaves them behind. Only the user knows what it
became; names that nothing uses yet are offered first.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from com.sun.star.sheet.CellFlags import DATETIME, STRING, VALUE
from com.sun.star.table.CellContentType import EMPTY, FORMULA

from ..common.refusal import Refusal
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..dialogs.undo import OneUndo
from ..workbook import faults
from ..workbook.columns import all_columns, titles_of_tables
from ..workbook.named_tables import Table, Tables, referred
from . import add_rows, fill_rows

TITLE = "Put Right"
ON_ORDER = ("rope", "rod", "bolt", "sleeve", "ring", "sundry")
PICKED = {"stays_name": ("bench_stay",), "tangs_name": ("view_stub",)}  # cells of pages in which a row is picked
TYPED = VALUE + DATETIME + STRING


@dataclass(frozen=True)
class Lost:
    """A name that rows use and that is not in its list any more."""

    name: str
    place: str
    users: "tuple[Any, ...]"
    candidates: "tuple[str, ...]"

    def line(self) -> str:
        count = len(self.users)
        use = f"{count} cells still use" if count > 1 else "1 cell still uses"
        return f"{self.name} is gone from {self.place}; {use} it"


@dataclass(frozen=True)
class Torn:
    """Calculated cells of one table that lost their formulas, or hold others than the rest of their columns."""

    place: str
    cells: "tuple[faults.Changed, ...]"

    def line(self) -> str:
        rows = sorted({one.cell.CellAddress.Row + 1 for one in self.cells})
        where = f"row{'s' if rows[1:] else ''} {', '.join(map(str, rows))}"
        first, more = self.cells[0].title, len(self.cells) - 1
        others = f" and {more} more" if more else ""
        return f"{self.place}, {where}: formula deleted or changed: {first}{others}"


@dataclass(frozen=True)
class Unordered:
    """Items of the Library that have no row on Order: their names and kinds."""

    items: "tuple[tuple[str, str], ...]"

    def line(self) -> str:
        return f"Order lacks items of the Library: {', '.join(name for name, _ in self.items)}"


def run(desk: Desk) -> bool:
    """Ask what is to be put right, and do it; whether something was done."""
    desk.must_be_writable()
    tables = Tables(desk.document)
    missing = Unordered(tuple(unordered(tables)))
    repairs: list[Any] = [*torn_tables(tables), *lost_names(tables), *([missing] if missing.items else [])]
    if not repairs:
        desk.say(
            TITLE,
            "Nothing can be put right from here: no name in use is missing, each formula is that of its column, "
            "and Order has all of the Library. "
            "Each line of the list says what to do.",
        )
        return False
    form = Form(desk, TITLE, width=320)
    form.paragraph(
        "If a row was renamed, pick what it is called now: whatever uses it follows. A formula is taken from "
        "another row of its column. Undo takes it back in one step."
    )

    def offer() -> None:
        names.StringItemList, names.SelectedItems = candidates(repairs, lines), ()

    lines = form.pick("~What", [one.line() for one in repairs], moved=offer, height=60)
    names = form.pick("~Its name now", candidates(repairs, lines), height=70)
    names.SelectedItems = ()  # a click too many would hang one thing on another
    if form.ask("~Put Right") != "yes":
        return False
    chosen = repairs[lines.SelectedItems[0]]
    with OneUndo(desk.document, TITLE):
        if isinstance(chosen, Unordered):
            add_to_order(desk.document, chosen)
        elif isinstance(chosen, Torn):
            with fill_rows.worked_out_once(desk.document):
                mend(chosen)
        else:
            rename(chosen, picked_name(chosen, names.SelectedItems))
    return True


def candidates(repairs: "list[Any]", lines: Any) -> "tuple[str, ...]":
    chosen = repairs[lines.SelectedItems[0]] if lines.SelectedItems else None
    return chosen.candidates if isinstance(chosen, Lost) else ()


def picked_name(lost: Lost, chosen: "tuple[int, ...]") -> str:
    if not chosen:
        raise Refusal(f"No name was picked for {lost.name}, so nothing was changed.")
    return lost.candidates[chosen[0]]


def rename(lost: Lost, new: str) -> None:
    for cell in lost.users:
        cell.String = new


def torn_tables(tables: Tables) -> "Iterator[Torn]":
    """The tables with calculated cells that are not as in the rest of their columns."""
    for table in tables.all:
        cells = tuple(one for one in faults.changed_cells(table) if one.sound is not None)
        if cells:
            yield Torn(table.title, cells)


def mend(torn: Torn) -> None:
    """Take the formulas from other rows; what they refer to moves along."""
    for one in torn.cells:
        one.cell.setTokens(one.sound.getTokens())


def lost_names(tables: Tables) -> "Iterator[Lost]":
    """The names that are used and not there, list by list."""
    for names in dict.fromkeys(column.listed_in for column in all_columns().values() if column.listed_in):
        if names not in tables.cells:
            continue
        there = {name.casefold(): name for name in texts(tables.cells[names])}
        users: dict[str, list[Any]] = {}
        for cell in users_of(tables, names):
            users.setdefault(cell.String, []).append(cell)
        used = {name.casefold() for name in users}
        free = tuple(sorted((name for key, name in there.items()), key=lambda name: name.casefold() in used))
        place = titles_of_tables()[names.partition("_")[0]]
        for name, cells in users.items():
            if name.casefold() not in there:
                yield Lost(name, place, tuple(cells), free)


def users_of(tables: Tables, names: str) -> "Iterator[Any]":
    """The cells that hold a name of this list, or did."""
    for name, column in all_columns().items():
        if column.listed_in == names and name in tables.cells:
            yield from _typed(tables.cells[name])
    for name in PICKED.get(names, ()):
        cells = referred(tables.book, name)
        yield from _typed(cells) if cells is not None else ()
    kind = names.partition("_")[0]
    if kind in ON_ORDER and {"order_name", "order_kind"} <= set(tables.cells):
        for cell, (held,) in zip(_all(tables.cells["order_name"]), tables.cells["order_kind"].DataArray):
            if held == kind and cell.String:
                yield cell


def _typed(cells: Any) -> "Iterator[Any]":
    return (cell for cell in _all(cells) if cell.Type not in (EMPTY, FORMULA) and cell.String)


def _all(cells: Any) -> "Iterator[Any]":
    span = cells.RangeAddress
    return (cells.getCellByPosition(0, row) for row in range(span.EndRow - span.StartRow + 1))


def texts(cells: Any) -> "list[str]":
    return [held for (held,) in cells.DataArray if isinstance(held, str) and held]


def unordered(tables: Tables) -> "Iterator[tuple[str, str]]":
    """The items of the Library that have no row on Order; what was renamed there may be one of those."""
    if not {"order_name", "order_kind"} <= set(tables.cells):
        return
    pairs = zip(tables.cells["order_name"].DataArray, tables.cells["order_kind"].DataArray)
    there = {(str(name).casefold(), kind) for (name,), (kind,) in pairs}
    for kind in ON_ORDER:
        for name in texts(tables.cells[f"{kind}_name"]) if f"{kind}_name" in tables.cells else ():
            if (name.casefold(), kind) not in there:
                yield name, kind


def add_to_order(book: Any, missing: Unordered) -> None:
    """Give the items rows of their own, below those that are filled; the last ready row stays empty."""
    order = _order(book)
    free = list(_free_rows(order))
    if len(free) < len(missing.items):
        add_rows.add(order, len(missing.items) - len(free))
        order = _order(book)
        free = list(_free_rows(order))
    for row, (name, kind) in zip(free, missing.items):
        order.columns["name"].getCellByPosition(0, row).String = name
        order.columns["kind"].getCellByPosition(0, row).String = kind


def order_new_items(desk: Desk) -> str:
    """Give Order the items that are new in Library, and say so. What is gone from there may only be renamed."""
    tables = Tables(desk.document)
    missing = Unordered(tuple(unordered(tables)))
    if not missing.items or desk.document.isReadonly() or _order(desk.document).sheet.isProtected():
        return ""
    libraries = (tables.cells[name] for name in map("{}_name".format, ON_ORDER) if name in tables.cells)
    in_library = {name.casefold() for cells in libraries for name in texts(cells)}
    if any(name.casefold() not in in_library for name in texts(tables.cells["order_name"])):
        return ""
    with OneUndo(desk.document, "New on Order"):
        add_to_order(desk.document, missing)
    return f"New on Order: {', '.join(name for name, _ in missing.items)}."


def _order(book: Any) -> Table:
    return next(table for table in Tables(book).all if table.key == "order")


def _free_rows(table: Table) -> "Iterator[int]":
    """The ready rows in which nothing was typed, but for the last."""
    for at, row in enumerate(table.rows[:-1]):
        cells = table.sheet.getCellRangeByPosition(table.area.StartColumn, row, table.area.EndColumn, row)
        if not cells.queryContentCells(TYPED).Count:
            yield at
