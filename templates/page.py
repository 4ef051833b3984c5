"""Columns, pages and print ranges of each sheet."""

from itertools import zip_longest
from typing import Any

from com.sun.star.beans import PropertyValue
from com.sun.star.table import CellRangeAddress
from com.sun.star.table.TableOrientation import COLUMNS

from templates.schedule import BESIDE, Sheet

FIRST_BLOCK = 2 + len(BESIDE)  # the column after name, check and what is hidden beside it
THIN = 100  # hundredths of a mm
MARGIN = 1000  # 1/100 mm
LONG, SHORT = 29700, 21000
LEAST_POINTS = 7.0
FONT_POINTS = 9.0
ITEM_WIDTHS = (62, 40, 26, 90)  # mm
FOOTER = 1200


def properties(**values: Any) -> "tuple[PropertyValue, ...]":
    return tuple(PropertyValue(Name=name, Value=value) for name, value in values.items())


def set_up(book: Any, sheet: Sheet, placed: "list[Any]") -> None:
    """Column widths, folding, page style, repeated rows and columns of one sheet."""
    target = book.Sheets.getByName(sheet.title)
    at = target.RangeAddress.Sheet
    tables = [where for where in placed if where.table in sheet.tables]
    if sheet.printed_rows:
        target.setPrintAreas((CellRangeAddress(at, 0, 0, len(sheet.widths) - 1, sheet.printed_rows - 1),))
    if len(tables) == 1 and tables[0].table.columns[2].block:
        _blocks(target, at, sheet, tables[0])
    style = _style(book, sheet)
    target.PageStyle = style.Name
    if tables:
        target.setPrintTitleRows(True)
        target.setTitleRows(CellRangeAddress(at, 0, 0, 0, tables[0].header if len(tables) == 1 else 1))
        target.setPrintTitleColumns(True)
        target.setTitleColumns(CellRangeAddress(at, 0, 0, 0, 0))


def set_widths(target: Any, sheet: Sheet) -> None:
    for column, width in enumerate(widths(sheet)):
        target.Columns.getByIndex(column).Width = width * 100


def fit_heights(book: Any, placed: "list[Any]") -> None:
    """Make every row as high as its text, now that the values are there; those between title and headers thin."""
    for name in book.Sheets.ElementNames:
        target = book.Sheets.getByName(name)
        cursor = target.createCursor()
        cursor.gotoEndOfUsedArea(False)
        target.Rows.OptimalHeight = False
        used = target.getCellRangeByPosition(0, 0, 0, cursor.RangeAddress.EndRow)
        used.Rows.OptimalHeight = True
    for where in placed:
        book.Sheets.getByIndex(where.sheet_at).Rows.getByIndex(where.thin).Height = THIN


def keep_together(book: Any, sheets: "tuple[Sheet, ...]", placed: "list[Any]") -> None:
    """Begin a page before a table that would be torn, where tables stand above each other."""
    for sheet in sheets:
        target = book.Sheets.getByName(sheet.title)
        room = (SHORT - 2 * MARGIN - FOOTER) * 100 / scale(sheet)
        repeated = top = target.getCellRangeByName("A1:A2").Size.Height
        for where in [where for where in placed if where.table in sheet.tables][1:]:
            title = where.title
            start, end = (target.getCellByPosition(0, row).Position.Y for row in (title, where.last + 1))
            if end - top > room:
                target.Rows.getByIndex(title).IsStartOfNewPage = True
                top = start - repeated


def freeze(book: Any, sheets: "tuple[Sheet, ...]", placed: "list[Any]", columns: int) -> None:
    """Keep name, check and headers in view; open on the first sheet. Only the sheet to read is protected."""
    view = book.CurrentController
    for sheet in sheets:
        target = book.Sheets.getByName(sheet.title)
        view.setActiveSheet(target)
        view.ShowGrid = False
        tables = [where for where in placed if where.table in sheet.tables]
        if len(tables) == 1:
            view.freezeAtPosition(columns, tables[0].first)
            # The office leaves the rows below scrolled by one under high headers.
            for pane in range(view.Count):
                if view.getByIndex(pane).FirstVisibleRow > tables[0].first:
                    view.getByIndex(pane).FirstVisibleRow = tables[0].first
        if sheet.lines:
            target.protect("")
    view.setActiveSheet(book.Sheets.getByIndex(0))


def widths(sheet: Sheet) -> "list[int]":
    """Column widths in mm; tables above each other share the widest."""
    if not sheet.tables:
        return list(sheet.widths or ITEM_WIDTHS)
    columns = zip_longest(*(table.laid_out for table in sheet.tables))
    return [max(column.width for column in side_by_side if column) for side_by_side in columns]


def _blocks(target: Any, at: int, sheet: Sheet, where: Any) -> None:
    """Fold the columns by block; print each block on a page of its own, or beside the one before if both fit."""
    areas: list[CellRangeAddress] = []
    widest, used = max(_block_widths(sheet)), 0
    left = FIRST_BLOCK
    for (title, columns), width in zip(where.table.blocks(), _block_widths(sheet)):
        right = left + len(columns) - 1
        if right > left:
            target.group(CellRangeAddress(at, left + 1, 0, right, 0), COLUMNS)
        more = width - where.table.columns[0].width
        if title in where.table.off_paper:
            used = widest
        elif areas and used + more <= widest:
            areas[-1].EndColumn, used = right, used + more
        else:
            areas.append(CellRangeAddress(at, left if areas else 0, 0, right, where.last))
            used = width
        left = right + 1
    target.setPrintAreas(tuple(areas))


def scale(sheet: Sheet) -> int:
    """The largest scale in percent at which every block is one page wide; no text gets under 7 pt."""
    room = ((LONG if sheet.landscape else SHORT) - 2 * MARGIN) / 100
    widest = max(_block_widths(sheet))
    percent = min(100, int(100 * room / widest))
    if percent * FONT_POINTS / 100 < LEAST_POINTS:
        raise ValueError(
            f"{sheet.title}: a block of {widest} mm would be printed under {LEAST_POINTS} pt; split it"
        )
    return percent


def _block_widths(sheet: Sheet) -> "list[int]":
    """Width of each part that is printed by itself: a block with the name before it, or the whole sheet."""
    if len(sheet.tables) != 1 or not sheet.tables[0].columns[2].block:
        hidden = {at for table in sheet.tables for at, column in enumerate(table.laid_out) if column.hidden}
        return [sum(width for at, width in enumerate(widths(sheet)) if at not in hidden)]
    name, check = (column.width for column in sheet.tables[0].columns[:2])
    return [
        name + (check if number == 0 else 0) + sum(column.width for column in columns)
        for number, (title, columns) in enumerate(sheet.tables[0].blocks())
        if title not in sheet.tables[0].off_paper
    ]


def _style(book: Any, sheet: Sheet) -> Any:
    """A page style of its own for the sheet."""
    family = book.StyleFamilies.getByName("PageStyles")
    style = book.createInstance("com.sun.star.style.PageStyle")
    family.insertByName(f"Loftsheet {sheet.title}", style)
    style.IsLandscape = sheet.landscape
    style.Width, style.Height = (LONG, SHORT) if sheet.landscape else (SHORT, LONG)
    for side in ("Left", "Right", "Top", "Bottom"):
        setattr(style, f"{side}Margin", MARGIN)
    style.PageScale = scale(sheet)
    style.FirstPageNumber = 0  # goes on from the sheet before
    style.HeaderIsOn = False
    style.FooterIsOn = True
    _footer(book, style)
    return style


def _footer(book: Any, style: Any) -> None:
    from loftsheet import __version__

    content = style.RightPageFooterContent
    for part, pieces in (
        (content.LeftText, [("SheetName", {})]),
        (content.CenterText, ["page ", ("PageNumber", {}), " of ", ("PageCount", {})]),
        (content.RightText, [f"Loftsheet {__version__}, printed ", ("DateTime", {"IsDate": True})]),
    ):
        part.String = ""
        for piece in pieces:
            _append(book, part, piece)
    style.RightPageFooterContent = content


def _append(book: Any, text: Any, piece: Any) -> None:
    cursor = text.createTextCursor()
    cursor.gotoEnd(False)
    if isinstance(piece, str):
        text.insertString(cursor, piece, False)
        return
    service, settings = piece
    field = book.createInstance(f"com.sun.star.text.TextField.{service}")
    for name, value in settings.items():
        setattr(field, name, value)
    text.insertTextContent(cursor, field, False)
