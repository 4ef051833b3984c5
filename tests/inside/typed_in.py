"""A boat typed into a schedule inside the office, row after row, into the cells that a user types into."""

import importlib


def rows(book, boat, tables):
    """Assumptions by their keys, and the rows of each table; one whose name is there already is typed over."""
    book.enableAutomaticCalculation(False)
    for key, held in boat.items():
        type_(book.NamedRanges.getByName(f"boat_{key}").ReferredCells.getCellByPosition(0, 0), held)
    for key, wanted in tables.items():
        cells = ready(book, key, wanted)
        names = [name for (name,) in cells["name"].DataArray]
        for row in wanted:
            at = names.index(row["name"]) if row["name"] in names else names.index("")
            names[at] = row["name"]
            for column, held in row.items():
                type_(cells[column].getCellByPosition(0, at), held)
    book.enableAutomaticCalculation(True)


def ready(book, key, wanted):
    """The columns of a table, which gets rows by Add Rows where it has not enough; the last one stays free."""
    fill, add = (
        importlib.import_module(f"loftsheet_office.commands.{name}") for name in ("fill_rows", "add_rows")
    )
    table = fill.table_of(book, key)
    names = [name for (name,) in table.columns["name"].DataArray]
    lacking = len([row for row in wanted if row["name"] not in names]) + 1 - names.count("")
    if lacking > 0:
        add.add(table, lacking)
        table = fill.table_of(book, key)
    return table.columns


def type_(cell, held):
    """As the keyboard does: a formula is refused, for none is an input."""
    if cell.Formula.startswith("="):
        raise AssertionError(f"a formula stands in {cell.AbsoluteName}, which is no input")
    if isinstance(held, (int, float)):
        cell.Value = float(held)
    elif held[:4].isdigit() and held[4:5] == "-":
        cell.Formula = held  # a date
    else:
        cell.String = held
