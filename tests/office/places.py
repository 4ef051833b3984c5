"""Where on its sheet something of a table stands."""

from tests.office import named

LAST_COLUMN = 260


def rows(book, table, first, last=None):
    """Whole rows of a table, counted from 0, from its name to beyond its last column."""
    names = named.cells(book, f"{table}_name")
    top = names.RangeAddress.StartRow
    return names.Spreadsheet.getCellRangeByPosition(0, top + first, LAST_COLUMN, top + (last or first))


def all_rows(book, table):
    return rows(book, table, 0, named.cells(book, f"{table}_name").Rows.Count - 1)


def input_at(book, table, column, row):
    return named.cells(book, f"{table}_{column}").getCellByPosition(0, row)


def column_number(book, name):
    return named.cells(book, name).RangeAddress.StartColumn + 1


def whole_column(sheet, at):
    return sheet.getCellRangeByPosition(at, 0, at, sheet.Rows.Count - 1)


def show_only(cells, column, text):
    from com.sun.star.sheet import TableFilterField2
    from com.sun.star.sheet.FilterOperator2 import EQUAL

    field = TableFilterField2()
    field.Field, field.Operator, field.StringValue, field.IsNumeric = column, EQUAL, text, False
    described = cells.createFilterDescriptor(True)
    described.ContainsHeader = True
    described.setFilterFields2((field,))
    cells.filter(described)
