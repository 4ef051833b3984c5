"""Cells of a schedule in a window: found by the name of their column, selected, and all of them as they are."""


def frame_of(book):
    return book.CurrentController.Frame


def named(book, name, row=0):
    """A cell of a named column, by its row in the table."""
    return book.NamedRanges.getByName(name).ReferredCells.getCellByPosition(0, row)


def row_of(book, table, name):
    """The row in the table that has this name."""
    names = book.NamedRanges.getByName(f"{table}_name").ReferredCells.DataArray
    return [held for (held,) in names].index(name)


def select(book, cell):
    book.CurrentController.select(cell)
    return cell


def selected(book):
    return str(book.CurrentController.Selection.AbsoluteName).replace("$", "")


def address(cell):
    return str(cell.AbsoluteName).replace("$", "")


def everything(book):
    """Every formula or content of the document, by sheet."""
    found = {}
    for name in book.Sheets.ElementNames:
        sheet = book.Sheets.getByName(name)
        cursor = sheet.createCursor()
        cursor.gotoEndOfUsedArea(False)
        end = cursor.RangeAddress
        found[name] = sheet.getCellRangeByPosition(0, 0, end.EndColumn, end.EndRow).FormulaArray
    return found
