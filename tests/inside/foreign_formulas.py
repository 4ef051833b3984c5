"""Formulas from elsewhere: no check in a cell can tell them, Check the Schedule does and stops an order."""

import importlib


def lines(book):
    """Calculated cells that hold another formula than most of their column, as Check the Schedule names them."""
    faults, named_tables = (
        importlib.import_module(f"loftsheet_office.workbook.{name}") for name in ("faults", "named_tables")
    )
    changed = (fault for table in named_tables.Tables(book).all for fault in faults.changed_formulas(table))
    return [fault.line() for fault in changed if fault.cell.Formula.startswith("=")]
