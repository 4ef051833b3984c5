"""Explain This Cell: what it means and how it comes to what it shows.

For an error it says where it begins and what to change.
"""

from collections.abc import Iterator
from typing import Any, Optional

from loftsheet.errors import BadInput
from loftsheet.formula import Node, parse
from loftsheet.trace import shown_value
from loftsheet.working import explain, origin

from . import clipboard, meanings, place
from .cell import Cell
from .complaints import FOUND, OK, complaints
from .desk import Desk
from .form import Form

MOST_LISTED = 30
CHECK = "_check"


def run(desk: Desk) -> None:
    cell = place.active_cell(desk)
    begins = where_it_begins(Cell(cell, desk.document))
    form = Form(desk, "Explain This Cell", width=320)
    shown = words(cell, place.Plan(desk.document))
    text = form.text(f"~Working of {place.address(cell)}", shown, height=230)
    buttons = {"copy": ("~Copy", lambda: clipboard.copy(desk, text.Text))}
    if begins is not None:
        buttons["go"] = ("~Go to the Error", None)
    if form.tell(**buttons) == "go" and begins is not None:
        place.lead_to(desk, begins.cell)


def words(cell: Any, plan: place.Plan) -> str:
    """All that is said of a cell."""
    view = Cell(cell, plan.book)
    parts = [meaning(cell, plan)]
    if plan.name_at(cell).endswith(CHECK) and view.error is None:
        parts += [what_it_says(view, plan)]
    elif view.error is None:
        parts += [explain(view), made_from(view, plan) if _needs_its_parts(view) else ""]
    else:
        parts += [what_to_change(origin(view), cell, plan), explain(view)]
    return "\n\n".join(part for part in parts if part)


def where_it_begins(view: Cell) -> Optional[Any]:
    """The other cell in which the error of a cell begins, None if there is none."""
    begins = origin(view)
    return None if begins.address == view.address else begins


def meaning(cell: Any, plan: place.Plan) -> str:
    """What the column of the schedule or the named cell means; the cell's place in the table."""
    name = plan.name_at(cell)
    if not name:
        return ""
    known = meanings.all_meanings()[name]
    table = plan.table_at(cell) if known.table else None
    row = f", {table.named(cell.CellAddress.Row) or 'a row without a name'}" if table else ""
    return f"{known.place}{row}. {known.words()}"


def what_it_says(view: Cell, plan: place.Plan) -> str:
    """A check, one complaint a line, each with the cell that it is about."""
    if view.value in (None, "", OK):
        return f"{view.address}: {view.value or 'nothing, for the row has no name'}."
    lines = []
    table = plan.name_at(view.cell)[: -len(CHECK)]
    for complaint in complaints(_found(view, plan, table)):
        about = next((one for one in (complaint.about, f"{table}_{complaint.about}") if one in plan.cells), "")
        lines.append(f"  {complaint.words}")
        if about:
            lines.append(f"    {_about(view, plan.cells[about], about)}")
    return "\n".join([f"{view.address} says:", *(lines or [f"  {view.value}"])])


def _found(view: Cell, plan: place.Plan, table: str) -> str:
    """What stands beside a check: its complaints with their codes; "" in a schedule from before there were any."""
    cells = place.referred(plan.book, f"{table}_{FOUND}")
    if cells is None:
        return ""
    return str(cells.getCellByPosition(0, view.cell.CellAddress.Row - cells.RangeAddress.StartRow).String)


def _about(view: Cell, cells: Any, name: str) -> str:
    """The cell that a complaint is about, with what it holds."""
    area, known = cells.RangeAddress, meanings.all_meanings()[name]
    row = view.cell.CellAddress.Row - area.StartRow if known.table else 0
    cell = cells.getCellByPosition(0, row)
    return f"{place.address(cell)}, {known.title}: {cell.String or 'blank'}"


def what_to_change(begins: Any, cell: Any, plan: place.Plan) -> str:
    """What the place where an error begins is, and what it is made from: one of those is to be changed."""
    here = place.address(cell) == begins.address
    said = "" if here else f"The error begins in {begins.address}. {meaning(begins.cell, plan)}".rstrip()
    if not begins.formula:
        return f"{said}\nChange what was typed {'here' if here else 'there'}.".strip()
    listed = made_from(begins, plan)
    todo = f"To fix it, look at what {begins.address} is made from; what is blank stands first." if listed else ""
    return "\n".join(part for part in (said, todo, listed) if part)


def made_from(view: Any, plan: place.Plan) -> str:
    """What a formula refers to, each with its content and meaning; the blank cells first."""
    listed = dict(_references(view, plan))
    lines = sorted(listed.values(), key=lambda line: not line[0])
    more = [f"  and {len(lines) - MOST_LISTED} more"] if len(lines) > MOST_LISTED else []
    return "\n".join(["Made from:", *(text for _, text in lines[:MOST_LISTED]), *more]) if lines else ""


def _references(view: Any, plan: place.Plan) -> "Iterator[tuple[str, tuple[bool, str]]]":
    """Each reference of a formula: as written, whether it is blank, and a line of words."""
    for node in _parsed(view).inside():
        if node.kind != "reference":
            continue
        found = view.resolve(node.written)
        if isinstance(found, Cell):
            held = found.error.words() if found.error else shown_value(found.value)
            yield node.written, (found.value is None and not found.error, _line(found, node.written, held, plan))
        elif found:
            yield node.written, (False, _line(found[0][0], node.written, "a range of cells", plan))


def _line(cell: Cell, written: str, held: str, plan: place.Plan) -> str:
    name = plan.name_at(cell.cell)
    known = meanings.all_meanings()[name] if name else None
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
