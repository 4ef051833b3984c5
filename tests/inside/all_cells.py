"""All cells of a schedule: a hundred thousand of them, which are asked where they are."""


def contents(book):
    """A number that is another when any cell comes to anything else, in one run of an office."""
    sheets = (book.Sheets.getByName(name) for name in book.Sheets.ElementNames)
    return hash(tuple((sheet.Name, used(sheet).DataArray) for sheet in sheets))


def used(sheet):
    cursor = sheet.createCursor()
    cursor.gotoEndOfUsedArea(False)
    return sheet.getCellRangeByPosition(0, 0, cursor.RangeAddress.EndColumn, cursor.RangeAddress.EndRow)
