"""Remove a Stay: empties its row on Stays, its stub, and the points and chainplates that no other stay uses.

Rows are emptied, not deleted: their formulas stay, and Add a Stay fills them again.
"""

from collections.abc import Iterator
from typing import Any

from com.sun.star.sheet.CellFlags import DATETIME, STRING, VALUE

from ..common.refusal import Refusal
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..dialogs.undo import OneUndo
from ..workbook.named_tables import Table, Tables
from .entries import TITLES
from .rows_here import named_rows

TITLE = TITLES["removestay"]
TYPED = VALUE + DATETIME + STRING
POINTS = ("upper", "via", "via_2", "lower")
INNER, OUTER = "stay", "stay_2"  # of a stub


def run(desk: Desk) -> None:
    desk.must_be_writable()
    named, here = named_rows(desk, "stays")
    tables = {table.key: table for table in Tables(desk.document).all}
    if not named:
        raise Refusal("Stays has no stay yet.")

    def say() -> None:
        goes.StringItemList = tuple(lines(tables, named[stays.SelectedItems[0]]))

    form = Form(desk, TITLE, width=240)
    stays = form.pick("~Stay", named, moved=say, height=80)
    first = here or named[0]
    stays.SelectedItems = (named.index(first),)
    goes = form.pick("What is ~emptied", lines(tables, first), height=60)
    if form.ask("~Remove") != "yes":
        return
    with OneUndo(desk.document, TITLE):
        remove(tables, named[stays.SelectedItems[0]])


def lines(tables: "dict[str, Table]", stay: str) -> "list[str]":
    """In words what goes, and what is left although it names the stay."""
    gone = [f"{table.title}: {name}" for table, _, name in emptied(tables, stay)]
    left = [f"Kept on Stubs: {name}, for the other stay on it" for _, _, name in shared(tables, stay)]
    log = [f"Log: entries of {stay} stay, and Check names them"] if stay in held(tables.get("log"), "stay") else []
    return [*gone, *left, *log]


def remove(tables: "dict[str, Table]", stay: str) -> None:
    empty, halved = list(emptied(tables, stay)), list(shared(tables, stay))
    for table, at, _ in halved:
        inner, outer = (table.columns[key].getCellByPosition(0, at) for key in (INNER, OUTER))
        if inner.String == stay:
            inner.String = outer.String
        outer.String = ""
    for table, at, _ in empty:
        row = table.rows.start + at
        cells = table.sheet.getCellRangeByPosition(table.area.StartColumn, row, table.area.EndColumn, row)
        cells.clearContents(TYPED)


def emptied(tables: "dict[str, Table]", stay: str) -> "Iterator[tuple[Table, int, str]]":
    """The rows that go with a stay."""
    stays = tables["stays"]
    yield from rows(stays, lambda at: held(stays, "name")[at] == stay)
    if "tangs" in tables:
        stubs = tables["tangs"]
        inner, outer = held(stubs, INNER), held(stubs, OUTER)
        yield from rows(stubs, lambda at: inner[at] == stay and not (outer and outer[at]))
    lost = points_of(stays, stay)
    for key in ("points", "chainplates"):
        if key in tables:
            names = held(tables[key], "name")
            yield from rows(tables[key], lambda at, names=names: names[at] in lost)


def shared(tables: "dict[str, Table]", stay: str) -> "Iterator[tuple[Table, int, str]]":
    """The stubs on which another stay lies beside it."""
    stubs = tables.get("tangs")
    inner, outer = held(stubs, INNER), held(stubs, OUTER)
    if stubs and outer:
        yield from rows(stubs, lambda at: bool(outer[at]) and stay in (inner[at], outer[at]))


def points_of(stays: Table, stay: str) -> "set[str]":
    """The points that this stay alone names."""
    names, own, others = held(stays, "name"), set[str](), set[str]()
    for key in POINTS:
        for name, point in zip(names, held(stays, key)):
            (own if name == stay else others).add(point)
    return own - others - {""}


def rows(table: Table, goes: Any) -> "Iterator[tuple[Table, int, str]]":
    for at, name in enumerate(held(table, "name")):
        if name and goes(at):
            yield table, at, name


def held(table: Any, key: str) -> "list[str]":
    """The texts of a column; none where there is no such column."""
    cells = table.columns.get(key) if table else None
    return [str(text) for (text,) in cells.DataArray] if cells is not None else []
