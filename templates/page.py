"""Columns, pages and print ranges of each sheet."""

from collections.abc import Sequence
from itertools import zip_longest
from typing import Any

from com.sun.star.beans import PropertyValue
from com.sun.star.table import CellRangeAddress
from com.sun.star.table.TableOrientation import COLUMNS

from templates.schedule import RESULTS, YOURS, Follower, Sheet, Table

THIN = 100  # hundredths of a mm
LINE, SPACE = 385, 60  # 1/100 mm, of a row: a line of text, and above and below
MARGIN = 1000  # 1/100 mm
LONG, SHORT = 29700, 21000
LEAST_POINTS = 7.0
FONT_POINTS = 9.0
WIDEST = int((LONG - 2 * MARGIN) / 100 * FONT_POINTS / LEAST_POINTS)  # mm, of what is printed on one page
ITEM_WIDTHS = (62, 40, 26, 90)  # mm
FOOTER = 1200


def properties(**values: Any) -> "tuple[PropertyValue, ...]":
    return tuple(PropertyValue(Name=name, Value=value) for name, value in values.items())


def set_up(book: Any, sheet: Sheet, placed: "list[Any]", rows: "Sequence[tuple[int, int]]" = ()) -> None:
    """Column widths, folding, page style, repeated rows and columns of one sheet."""
    target = book.Sheets.getByName(sheet.title)
    at = target.RangeAddress.Sheet
    tables = [where for where in placed if where.table in sheet.tables]
    if sheet.printed_rows:
        target.setPrintAreas((CellRangeAddress(at, 0, 0, len(sheet.widths) - 1, sheet.printed_rows - 1),))
    if len(tables) == 1 and tables[0].table.blocks():
        _fold(target, at, tables[0].table)
        parts = printed(tables[0].table)
        target.setPrintAreas(tuple(CellRangeAddress(at, left, 0, right, tables[0].last) for left, right in parts))
    if rows:
        right = len(widths(sheet)) - 1
        target.setPrintAreas(tuple(CellRangeAddress(at, 0, top, right, bottom) for top, bottom in rows))
    style = _style(book, sheet)
    target.PageStyle = style.Name
    if tables:
        target.setPrintTitleRows(True)
        target.setTitleRows(
            CellRangeAddress(at, 0, 0, 0, tables[0].header if len(tables) == 1 and not sheet.followers else 1)
        )
        target.setPrintTitleColumns(True)
        target.setTitleColumns(CellRangeAddress(at, 0, 0, 0, 0))


def board_areas(book: Any, sheets: "tuple[Sheet, ...]") -> None:
    """Print of a page of results the first part, on one page, and each further one that has something to list."""
    for sheet in sheets:
        if not sheet.board:
            continue
        target = book.Sheets.getByName(sheet.title)
        at, right = target.RangeAddress.Sheet, len(sheet.widths) - 1
        parts = [target.getCellRangeByPosition(0, top, right, bottom) for top, bottom in sheet.board.pages]
        used = [part.RangeAddress for part in parts if part is parts[0] or _says(part)]
        target.setPrintAreas(tuple(CellRangeAddress(at, 0, one.StartRow, right, one.EndRow) for one in used))
        style = book.StyleFamilies.getByName("PageStyles").getByName(target.PageStyle)
        room = SHORT - 2 * MARGIN - FOOTER
        style.PageScale = min(style.PageScale, int(100 * room / parts[0].Size.Height))
        if style.PageScale * FONT_POINTS / 100 < LEAST_POINTS:
            raise ValueError(f"{sheet.title}: one page would be printed under {LEAST_POINTS} pt; list less")


def _says(part: Any) -> bool:
    """Whether anything is listed: the rows are numbered in the second column."""
    numbers = part.getCellRangeByPosition(1, 0, 1, part.Rows.Count - 1).DataArray
    return any(isinstance(number, float) for (number,) in numbers)


def set_widths(target: Any, sheet: Sheet) -> None:
    for column, width in enumerate(widths(sheet)):
        target.Columns.getByIndex(column).Width = width * 100


def fit_heights(book: Any, placed: "list[Any]") -> None:
    """Make every row as high as its text, now that the values are there, or as high as its table says.

    Those between title and headers are thin.
    """
    for name in book.Sheets.ElementNames:
        target = book.Sheets.getByName(name)
        cursor = target.createCursor()
        cursor.gotoEndOfUsedArea(False)
        target.Rows.OptimalHeight = False
        used = target.getCellRangeByPosition(0, 0, 0, cursor.RangeAddress.EndRow)
        used.Rows.OptimalHeight = True
    for where in placed:
        target = book.Sheets.getByIndex(where.sheet_at)
        target.Rows.getByIndex(where.thin).Height = THIN
        if where.table.lines:
            rows = target.getCellRangeByPosition(0, where.first, 0, where.last).Rows
            rows.Height = where.table.lines * LINE + SPACE


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
        if sheet.followers:
            view.freezeAtPosition(1, 0)
        elif len(tables) == 1:
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
    result = [max(column.width for column in side_by_side if column) for side_by_side in columns]
    for follower in sheet.followers:
        for column in follower.laid_out if follower.printed else ():
            place = places(sheet, follower)[column.key]
            result += [0] * (place + 1 - len(result))
            result[place] = max(result[place], column.width)
    return result


def places(sheet: Sheet, follower: Follower) -> "dict[str, int]":
    """Where the columns of a follower stand: those that are printed only in columns that are shown."""
    if not follower.printed:
        return {column.key: at for at, column in enumerate((*follower.columns, follower.laid_out[0]))}
    hidden = {at for table in sheet.tables for at, column in enumerate(table.laid_out) if column.hidden}
    shown = [at for at in range(len(follower.columns) + len(hidden)) if at not in hidden]
    return {"row": min(hidden), **{column.key: at for column, at in zip(follower.columns, shown)}}


def _fold(target: Any, at: int, table: Table) -> None:
    """Fold the blocks, each to the column before it that says what it holds."""
    for title, columns in table.blocks():
        if table.is_folded(title):
            span = CellRangeAddress(at, columns[0], 0, columns[-1], 0)
            target.group(span, COLUMNS)
            target.hideDetail(span)


def printed(table: Table) -> "list[tuple[int, int]]":
    """The first and the last column of each part that is printed by itself, the name before it.

    The first holds name, check, what is typed and results, and what is the user's own if that fits; then each
    block, in pieces if it is wider than that. Of a block that is folded the office prints nothing.
    """
    blocks = [(title, columns) for title, columns in table.blocks() if title not in table.off_paper]
    end = max((at for at, (title, _) in enumerate(blocks) if title == RESULTS), default=0) + 1
    if end < len(blocks) and blocks[end][0] == YOURS and part_width(table, 0, blocks[end][1][-1]) <= WIDEST:
        end += 1
    head, others = blocks[:end], blocks[end:]
    parts = [(0, head[-1][1][-1])]
    most = part_width(table, *parts[0])
    for _, columns in others:
        left = columns[0]
        for right in columns:
            if part_width(table, left, right) > most:
                parts.append((left, right - 1))
                left = right
        parts.append((left, columns[-1]))
    return parts


def part_width(table: Table, left: int, right: int) -> int:
    """Width in mm of columns that are printed together, the name before them."""
    columns = table.laid_out[left : right + 1]
    return sum(column.width for column in columns if not column.hidden) + (table.columns[0].width if left else 0)


def scale(sheet: Sheet) -> int:
    """The largest scale in percent at which every part is one page wide; no text gets under 7 pt."""
    room = ((LONG if sheet.landscape else SHORT) - 2 * MARGIN) / 100
    widest = max(_part_widths(sheet))
    percent = min(100, int(100 * room / widest))
    if percent * FONT_POINTS / 100 < LEAST_POINTS:
        raise ValueError(
            f"{sheet.title}: columns of {widest} mm would be printed under {LEAST_POINTS} pt; narrow them"
        )
    return percent


def _part_widths(sheet: Sheet) -> "list[int]":
    """Width of each part that is printed by itself, or of the whole sheet."""
    if len(sheet.tables) == 1 and sheet.tables[0].blocks():
        return [part_width(sheet.tables[0], left, right) for left, right in printed(sheet.tables[0])]
    hidden = {at for table in sheet.tables for at, column in enumerate(table.laid_out) if column.hidden}
    return [sum(width for at, width in enumerate(widths(sheet)) if at not in hidden)]


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
