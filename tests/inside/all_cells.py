"""All cells of a schedule: a hundred thousand of them, which are asked where they are."""


def contents(book):
    """A number that is another when any cell comes to anything else, in one run of an office."""
    sheets = (book.Sheets.getByName(name) for name in book.Sheets.ElementNames)
    return hash(tuple((sheet.Name, used(sheet).DataArray) for sheet in sheets))


FORMULA_ERRORS = 4  # com.sun.star.sheet.FormulaResult.ERROR


def held(book):
    """The rows of each sheet, and the numbers of its errors by row and column."""
    return [(used(sheet).DataArray, errors(sheet)) for sheet in book.Sheets]


def errors(sheet):
    return [
        (row, column, sheet.getCellByPosition(column, row).getError())
        for area in used(sheet).queryFormulaCells(FORMULA_ERRORS).RangeAddresses
        for row in range(area.StartRow, area.EndRow + 1)
        for column in range(area.StartColumn, area.EndColumn + 1)
    ]


def used(sheet):
    cursor = sheet.createCursor()
    cursor.gotoEndOfUsedArea(False)
    return sheet.getCellRangeByPosition(0, 0, cursor.RangeAddress.EndColumn, cursor.RangeAddress.EndRow)
