"""Takes back what a test did to a schedule, by undo; whether that did, its marks say."""

from tests.inside.all_cells import used


def undo(book):
    """Undo all that can be undone, work all out anew, and return the marks of what is there then."""
    steps = book.UndoManager
    book.lockControllers()
    book.enableAutomaticCalculation(False)
    try:
        while steps.isUndoPossible():
            steps.undo()
    finally:
        book.enableAutomaticCalculation(True)
        book.unlockControllers()
    steps.clear()
    book.calculateAll()
    at_the_top(book.CurrentController, book.Sheets.getByIndex(0))
    book.setModified(False)
    return marks(book)


def at_the_top(view, sheet):
    view.setActiveSheet(sheet)
    view.select(sheet.getCellByPosition(0, 0))


def marks(book):
    """A number that is another when anything that a test may change is, in one run of an office."""
    pages = book.StyleFamilies.getByName("PageStyles")
    return hash(
        (
            book.URL,
            book.isAutomaticCalculationEnabled(),
            tuple(map(_sheet, book.Sheets)),
            tuple((named.Name, named.Content) for named in book.NamedRanges),
            tuple(_page(pages.getByName(name)) for name in pages.ElementNames),
            tuple(book.DatabaseRanges.ElementNames),
        )
    )


def _sheet(sheet):
    cells = used(sheet)
    return (
        sheet.Name,
        sheet.IsVisible,
        cells.FormulaArray,
        cells.DataArray,
        (cells.Size.Width, cells.Size.Height),
        cells.queryVisibleCells().RangeAddressesAsString,
        sheet.DrawPage.Count,
        tuple((one.StartColumn, one.StartRow, one.EndColumn, one.EndRow) for one in sheet.getPrintAreas()),
    )


def _page(style):
    return (style.DisplayName, style.PageScale, style.Width, style.Height, style.IsLandscape)
