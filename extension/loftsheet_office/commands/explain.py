"""Explain This Cell: what it means and how it comes to what it shows.

For an error it says where it begins and what to change.
"""

from collections.abc import Iterator
from typing import Any, Optional

from loftsheet.errors import BadInput
from loftsheet.formula import Node, parse
from loftsheet.trace import shown_value
from loftsheet.working import explain, origin, worked_out

from ..addin.cell import Cell
from ..dialogs import clipboard
from ..dialogs.cursor import active_cell, lead_to
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..workbook.columns import all_columns
from ..workbook.complaints import FOUND, OK, complaints
from ..workbook.named_tables import Tables, address, referred
from .entries import TITLES

TITLE = TITLES["explain"]
MOST_LISTED = 30
CHECK = "_check"


def run(desk: Desk) -> None:
    cell = active_cell(desk)
    begins = where_it_begins(Cell(cell, desk.document))
    form = Form(desk, TITLE, width=320)
    shown = explanation(cell, Tables(desk.document))
    text = form.text(f"~Working of {address(cell)}", shown, height=230)
    buttons: dict[str, Any] = {"copy": ("~Copy", lambda: clipboard.copy(desk, text.Text))}
    if begins is not None:
        buttons["go"] = ("~Go to the Error", None)
    if form.tell(**buttons) == "go" and begins is not None:
        lead_to(desk, begins.cell)


def explanation(cell: Any, tables: Tables) -> str:
    """All that is said of a cell."""
    view = Cell(cell, tables.book)
    parts = [meaning(cell, tables)]
    if tables.name_at(cell).endswith(CHECK) and view.error is None:
        parts += [what_it_says(view, tables)]
    elif view.error is None:
        parts += [explain(view), made_from(view, tables) if _needs_its_parts(view) else ""]
    else:
        parts += [what_to_change(origin(view), cell, tables), explain(view)]
    return "\n\n".join(part for part in parts if part)


def where_it_begins(view: Cell) -> Optional[Any]:
    """The other cell in which the error of a cell begins, None if there is none."""
    begins = origin(view)
    return None if begins.address == view.address else begins


def meaning(cell: Any, tables: Tables) -> str:
    """What the column of the schedule or the named cell means; the cell's place in the table."""
    name = tables.name_at(cell)
    if not name:
        return ""
    known = all_columns()[name]
    table = tables.table_at(cell) if known.table else None
    row = f", {table.named(cell.CellAddress.Row) or 'a row without a name'}" if table else ""
    return f"{known.place}{row}. {known.description()}"


def what_it_says(view: Cell, tables: Tables) -> str:
    """A check, one complaint a line, each with the cell that it is about."""
    if view.value in (None, "", OK):
        return f"{view.address}: {view.value or 'nothing, for the row has no name'}."
    lines = []
    table = tables.name_at(view.cell)[: -len(CHECK)]
    for complaint in complaints(_found(view, tables, table)):
        about, cell = tables.led_to(table, complaint.about, view.cell.CellAddress.Row)
        lines.append(f"  {complaint.words}")
        if about:
            lines.append(f"    {address(cell)}, {all_columns()[about].title}: {cell.String or 'blank'}")
    return "\n".join([f"{view.address} says:", *(lines or [f"  {view.value}"])])


def _found(view: Cell, tables: Tables, table: str) -> str:
    """What stands beside a check: its complaints with their codes; "" in a schedule from before there were any."""
    cells = referred(tables.book, f"{table}_{FOUND}")
    if cells is None:
        return ""
    return str(cells.getCellByPosition(0, view.cell.CellAddress.Row - cells.RangeAddress.StartRow).String)


def what_to_change(begins: Any, cell: Any, tables: Tables) -> str:
    """What the place where an error begins is, and what it is made from: one of those is to be changed."""
    here = address(cell) == begins.address
    said = "" if here else f"The error begins in {begins.address}. {meaning(begins.cell, tables)}".rstrip()
    if not begins.formula:
        return f"{said}\nChange what was typed {'here' if here else 'there'}.".strip()
    listed = made_from(begins, tables)
    todo = f"To fix it, look at what {begins.address} is made from; what is blank stands first." if listed else ""
    return "\n".join(part for part in (said, todo, listed) if part)


def made_from(view: Any, tables: Tables) -> str:
    """What a formula refers to, each with its content and meaning; the blank cells first."""
    listed = dict(_references(view, tables))
    lines = sorted(listed.values(), key=lambda line: not line[0])
    more = [f"  and {len(lines) - MOST_LISTED} more"] if len(lines) > MOST_LISTED else []
    return "\n".join(["Made from:", *(text for _, text in lines[:MOST_LISTED]), *more]) if lines else ""


def _references(view: Any, tables: Tables) -> "Iterator[tuple[str, tuple[bool, str]]]":
    """Each reference of a formula: as written, whether it is blank, and a line of words."""
    for node in worked_out(view).inside():
        if node.kind != "reference":
            continue
        found = view.resolve(node.written)
        if isinstance(found, Cell):
            held = found.error.words() if found.error else shown_value(found.value)
            yield node.written, (found.value is None and not found.error, _line(found, node.written, held, tables))
        elif found:
            yield node.written, (False, _line(found[0][0], node.written, "a range of cells", tables))


def _line(cell: Cell, written: str, held: str, tables: Tables) -> str:
    name = tables.name_at(cell.cell)
    known = all_columns()[name] if name else None
    said = f" ({known.place}: {known.title}{', ' + known.unit if known.unit else ''})" if known else ""
    return f"  {written.replace('$', '')} = {'blank' if held == 'none' else held}{said}"


def _needs_its_parts(view: Cell) -> bool:
    """Whether the working alone does not show where the numbers come from."""
    nodes = list(_parsed(view).inside())
    return any(node.kind == "other" for node in nodes) or not any(node.calc for node in nodes)


def _parsed(view: Any) -> Node:
    try:
        return parse(view.formula)
    except BadInput:
        return Node("other", view.formula)
