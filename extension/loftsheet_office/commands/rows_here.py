"""The rows of a table, and the one that the user is in: what a command offers first."""

from ..common.refusal import Refusal
from ..dialogs.cursor import active_cell
from ..dialogs.desk import Desk
from ..workbook.named_tables import Tables


def named_rows(desk: Desk, key: str) -> "tuple[list[str], str]":
    """The names of all rows of a table, and of the one that the user is in, "" if in none."""
    tables = Tables(desk.document)
    table = next((table for table in tables.all if table.key == key), None)
    if table is None:
        raise Refusal(f"The named range {key}_name is no longer in this schedule; restore it from an older copy.")
    names = [name for name in map(table.named, table.rows) if name]
    try:
        cell = active_cell(desk)
    except Refusal:
        return names, ""
    inside = tables.table_at(cell) is table and cell.CellAddress.Row in table.rows
    return names, table.named(cell.CellAddress.Row) if inside else ""
