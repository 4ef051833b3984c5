"""Cells of a document by the names of its named ranges."""

from extension.loftsheet_office.workbook.complaints import complaints, in_full


def cells(book, name):
    return book.NamedRanges.getByName(name).ReferredCells


def column(book, name):
    """What the cells of a name hold, from top to bottom; an error is None."""
    return [held for (held,) in cells(book, name).DataArray]


def value(book, name):
    return column(book, name)[0]


def cell(book, table, column, row_name):
    """The cell of a table's column in the row of that name."""
    return cells(book, f"{table}_{column}").getCellByPosition(0, row_of(book, table, row_name))


def row_of(book, table, row_name):
    """Where in its table a row stands, from 0."""
    return column(book, f"{table}_name").index(row_name)


def check(book, table, row_name):
    return cell(book, table, "check", row_name).String


def words(book, table, row_name):
    """All that the check of a row says, of which its cell shows the first."""
    return in_full(check(book, table, row_name), cell(book, table, "found", row_name).String)


def found(book, table, row_name):
    """What the check of a row found, by the rule's id in its table: its severity."""
    return ids(cell(book, table, "found", row_name).String)


def ids(codes):
    """The complaints in a cell of the column of codes: their severities by their ids, without the table's name."""
    return {one.id.partition(".")[2]: one.severity for one in complaints(codes)}


def state(book, table, row_name):
    """How bad the worst is that a row's check found; it is ok without a certificate, as an invented boat is."""
    held = cell(book, table, "state", row_name).String
    return "ok" if held == "note" else held


def certify(book):
    """Give every figure of the Library a certificate: nothing is left to say of an invented boat then."""
    for table in ("rope", "wire", "rod", "bolt", "sleeve", "ring", "share", "sundry"):
        statuses = cells(book, f"{table}_status")
        names = column(book, f"{table}_name")
        statuses.DataArray = tuple(("certificate" if name else "",) for name in names)
        cells(book, f"{table}_source").DataArray = tuple(("certificate 4711" if name else "",) for name in names)
