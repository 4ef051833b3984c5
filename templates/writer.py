"""The one writer: makes the workbook from its declaration, in a running office.

write(office, Path("schedule.ots"))                    # the template, no boat in it
write(office, Path("schedule.ods"), marrowick)         # with the rows of a demo boat
"""

import textwrap
from collections.abc import Iterable
from pathlib import Path
from typing import Any, Optional

from com.sun.star.beans import PropertyValue
from com.sun.star.sheet.ConditionOperator import FORMULA as WHEN_FORMULA
from com.sun.star.sheet.FillDirection import TO_BOTTOM
from com.sun.star.sheet.ValidationAlertStyle import WARNING
from com.sun.star.sheet.ValidationType import ANY, CUSTOM, LIST
from com.sun.star.table import CellAddress
from loftsheet.balance import answers
from loftsheet.measure import example

from templates import charts, checks, page, styles
from templates.boats import stock
from templates.choices import KINDS, NOTED, UNPROVEN
from templates.notation import filled, in_row, quoted, reading, stored
from templates.schedule import (
    BESIDE,
    DANGER,
    FIX,
    FOUND,
    MADE,
    NOTE,
    SOUND,
    STATE,
    WAITS,
    WEIGH,
    Board,
    Column,
    Figures,
    Follower,
    Grid,
    Item,
    Listing,
    Page,
    Sheet,
    Table,
)
from templates.sheets import ALL, NAMES, balance, order

FIRST_TABLE_ROW = 3
LINE = "line"  # of what a function gives
DAY = 'YEAR(boat_date)&"-"&TEXT(MONTH(boat_date);"00")&"-"&TEXT(DAY(boat_date);"00")'
HEAD = (
    'IF(boat_name="";"a boat without a name, type it on Boat";'
    'boat_name&IF(boat_revision="";"";", revision "&boat_revision)'
    f'&IF(ISNUMBER(boat_date);IF(boat_revision="";", ";" of ")&{DAY};""))'
)
FROZEN_COLUMNS = 2
HINT, MARGIN = 50, "\N{NO-BREAK SPACE}" * 4  # letters in a line of a hint; its box is a little narrower than that
ON_BOAT = {"name": "A", "check": "E", FOUND: "F", STATE: "G"}  # columns of an assumption
USED_ON_BOAT = 7  # column of what an assumption comes to that may be typed with its unit
BELOW = 300
GAP = 3
BOARD = {"next": styles.NEXT, "block": styles.BLOCK, "note": styles.NOTE}
STATE_MARKS = (
    ((FIX, DANGER), styles.URGENT),
    (("to consider", UNPROVEN, NOTED), styles.ATTENTION),
    ((WAITS,), styles.QUIET),
)


def write(office: Any, path: Path, boat: Any = None) -> None:
    """Write the workbook, as a template or with a boat's rows, in the format of the path's ending."""
    book = build(office, boat)
    try:
        office.recalculate(book)
        office.store(book, path)
    finally:
        office.close(book)


def build(office: Any, boat: Any = None) -> Any:
    """Make the workbook in the office and return the open document."""
    book = office.new(Hidden=False)  # a hidden document has no view in which frozen rows could be kept
    book.enableAutomaticCalculation(False)
    book.lockControllers()
    book.IsUndoEnabled = False
    book.addActionLock()  # no painting and no row heights until all is there
    book.RegularExpressions, book.Wildcards, book.MatchWholeCell = False, False, True
    book.IgnoreCase = True  # as in every lookup
    styles.define(book)
    rows = dict(boat.ROWS) if boat else dict(stock.LIBRARY)
    rows["order"] = list(_order_rows(rows, getattr(boat, "PRICES", {})))
    rows["control"] = [{"name": kind} for kind in order.CONTROLS]
    writer = Writer(book, rows, dict(boat.BOAT) if boat else {})
    show_formula_bar(office, book, False)  # it lists all names anew for each name that is made
    for sheet in ALL:
        writer.sheet(sheet)
    writer.charts()
    writer.formulas()
    for on, column in writer.hidden:
        book.Sheets.getByName(on).Columns.getByIndex(column).IsVisible = False
    for sheet in ALL:
        page.set_up(book, sheet, writer.placed, writer.printed.get(sheet.title, ()))
    book.Sheets.removeByName(UNUSED)
    show_formula_bar(office, book, True)
    book.IsUndoEnabled = True
    book.enableAutomaticCalculation(True)
    book.removeActionLock()
    book.unlockControllers()
    office.recalculate(book)
    page.fit_heights(book, writer.placed)
    page.keep_together(book, ALL, writer.placed)
    page.board_areas(book, ALL)
    charts.place_view(book)
    charts.boat(office, book)
    charts.spares(office, book)
    page.freeze(book, ALL, writer.placed, FROZEN_COLUMNS)
    return book


UNUSED = "unused"


def show_formula_bar(office: Any, book: Any, shown: bool) -> None:
    how = PropertyValue(Name="InputLineVisible", Value=shown)
    dispatcher = office.create("com.sun.star.frame.DispatchHelper")
    dispatcher.executeDispatch(book.CurrentController.Frame, ".uno:InputLineVisible", "", 0, (how,))


def _order_rows(rows: "dict[str, Any]", prices: "dict[str, float]") -> Iterable["dict[str, Any]"]:
    """One Order row per Library item, its name as plain text."""
    for kind in KINDS:
        for item in rows.get(kind, ()):
            yield {"name": item["name"], "kind": kind, "price": prices.get(item["name"])}


class Placed:
    """Where a table stands on its sheet."""

    def __init__(self, sheet_at: int, table: Table, title: int, ready: int) -> None:
        self.sheet_at, self.table = sheet_at, table
        # A thin empty row between title and headers, or the office takes the title for the head when it sorts.
        self.title, self.thin, self.header = title, title + 1, title + 2
        self.first, self.last = self.header + 1, self.header + ready
        self.letters = {column.key: letter(at) for at, column in enumerate(table.laid_out)}

    @property
    def rows(self) -> range:
        return range(self.first, self.last + 1)


def letter(at: int) -> str:
    """The letters of the column with that number, from 0."""
    return (letter(at // 26 - 1) if at >= 26 else "") + chr(ord("A") + at % 26)


class Writer:
    """Writes sheet after sheet; formulas last, when every named range is there."""

    def __init__(self, book: Any, rows: "dict[str, Any]", boat: "dict[str, Any]") -> None:
        self.book, self.data, self.boat = book, rows, boat
        self.names = book.NamedRanges  # asked for once: each time takes as long as a name
        self.placed: list[Placed] = []
        self.styles: dict[tuple[str, str], str] = {}
        self.pending: list[tuple[Any, str]] = []
        self.hidden: set[tuple[str, int]] = set()  # once all is there: the office fills no hidden cells
        self.charted: dict[str, tuple[Any, int, int, int]] = {}
        self.printed: dict[str, list[tuple[int, int]]] = {}  # rows of each part that is printed, with followers
        self.followed: dict[str, tuple[Any, int, int, int]] = {}  # sheet, its number, rows of title and header
        book.Sheets.getByIndex(0).Name = UNUSED

    def sheet(self, sheet: Sheet) -> None:
        sheets = self.book.Sheets
        at = sheets.Count - 1
        sheets.insertNewByName(sheet.title, at)
        target = sheets.getByName(sheet.title)
        page.set_widths(target, sheet)
        self.cell(target, 0, 0, sheet.title, styles.TITLE)
        self.formula(target, 0, 1, HEAD, styles.NOTE)
        target.getCellByPosition(0, 1).IsTextWrapped = True  # pages with one repeated column show no more
        self.cell(target, 0 if sheet.lines else 1, 2 if sheet.lines else 0, sheet.purpose, styles.NOTE)
        for below, caution in enumerate(sheet.cautions, 1):
            self.cell(target, 1, below, caution, styles.NOTE)
        row = FIRST_TABLE_ROW
        for table in sheet.tables:
            row = self.table(target, at, table, row)
        for follower in sheet.followers:
            row = self.follower(target, at, sheet, follower, row)
        for figures in sheet.figures:
            row = self.figures(target, figures, row)
        if sheet.lines:
            self.lines(target, sheet)
        if sheet.groups:
            self.groups(target, sheet)
        if sheet.page:
            self.page(target, at, sheet.page)
        if sheet.board:
            self.board(target, sheet, sheet.board)

    def table(self, target: Any, at: int, table: Table, row: int) -> int:
        """Write one table from its title down; return the row where the next one may start."""
        rows = self.data.get(table.key, [])
        placed = Placed(at, table, row, max(len(rows) + table.spare, table.ready))
        self.placed.append(placed)
        self.headings(target, placed)
        for column_at, column in enumerate(table.laid_out):
            self.column(target, placed, column_at, column)
        for offset, values in enumerate(rows):
            self.values(target, placed, placed.first + offset, values)
        end = placed.last + GAP
        below = (
            placed.last + 1,
            placed.last + BELOW if stands_last(table) else end - 1,
        )
        self.name(f"{table.key}_header", target, 0, placed.header, 0, placed.header)
        self.name(f"{table.key}_below", target, 0, below[0], len(table.laid_out) - 1, below[1])
        self.mark_check(target.getCellRangeByPosition(1, placed.first, 1, placed.last), placed.letters)
        return end

    def headings(self, target: Any, placed: Placed) -> None:
        table = placed.table
        blocks = [column.block for column in table.laid_out]
        first = ["" if block in blocks[:at] else block for at, block in enumerate(blocks)]
        self.texts(target, 0, placed.title, [table.title, *first[1:]], styles.BLOCK)
        self.texts(target, 0, placed.header, [column.header for column in table.laid_out], styles.HEADER)

    def column(self, target: Any, placed: Placed, at: int, column: Column) -> None:
        cells = target.getCellRangeByPosition(at, placed.first, at, placed.last)
        if column.free:
            cells.CellStyle = styles.INPUT if column.block else styles.CODE
            return
        self.name(f"{placed.table.key}_{column.key}", target, at, placed.first, at, placed.last)
        if column.key == "name":
            cells.CellStyle = styles.INPUT_TEXT
            if column.choices:
                self.validate(cells, column, f"{placed.letters[column.key]}{placed.first + 1}")
            return
        if not column.calculated:
            cells.CellStyle = self.style(styles.INPUT, column.format)
            self.validate(cells, column, f"{placed.letters[column.key]}{placed.first + 1}")
            return
        if column.formula == MADE:
            cells.CellStyle = styles.CHECK if column.key == "check" else styles.CODE
        else:
            cells.CellStyle = self.style(styles.CALCULATED, column.format)
        if column.hidden:
            self.hidden.add((target.Name, at))
        self.fill(cells, placed, checks.formula(column, placed.table, NAMES))

    def follower(self, target: Any, at: int, sheet: Sheet, follower: Follower, row: int) -> int:
        """Write rows that follow from others; return the row where the next may start."""
        row += follower.room
        places = page.places(sheet, follower)
        header, last = row + 2, row + 2 + follower.rows
        for column in follower.laid_out:  # the office makes no chart over cells without numbers
            if column.format:
                place = places[column.key]
                target.getCellRangeByPosition(place, header + 1, place, last).setDataArray(
                    ((charts.PLACEHOLDER,),) * follower.rows
                )
        self.cell(target, 0, row, follower.title, styles.BLOCK)
        self.name(f"{follower.key}_header", target, 0, header, 0, header)
        if follower.taken:
            first, end = (places[key] for key in follower.taken)
            self.name(f"{follower.key}_taken", target, first, header + 1, end, last)
        letters = {key: letter(place) for key, place in places.items()}
        for column in follower.laid_out:
            place = places[column.key]
            self.name(f"{follower.key}_{column.key}", target, place, header + 1, place, last)
            if not column.hidden:
                self.heading(target, place, header, column)
            cells = target.getCellRangeByPosition(place, header + 1, place, last)
            cells.CellStyle = self.style(styles.CALCULATED, column.format)
            formula = NAMES.formula(column.formula, follower, column.key)
            self.pending.append((cells, in_row(f"={stored(formula)}", letters, header + 2)))
        for below, note in enumerate(follower.notes, 1):
            self.cell(target, 0, last + below, note, styles.NOTE)
        if follower.printed:
            self.print(sheet, follower, row, last)
        self.followed[follower.key] = (target, at, row, header)
        return last + len(follower.notes) + GAP

    def print(self, sheet: Sheet, follower: Follower, title: int, last: int) -> None:
        """Print as many rows as there are of what it follows from; what stands above goes with the part before."""
        parts = self.printed.setdefault(sheet.title, [(0, 0)])
        rows = [where.last - where.header for where in self.placed if where.table.key == follower.of]
        end = last - follower.rows + min([follower.rows, *(follower.each * one for one in rows)])
        end += len(follower.notes)
        if follower.room:
            parts[-1] = (parts[-1][0], title - 1)
        if follower.page:
            parts.append((title, end))
        else:
            parts[-1] = (parts[-1][0], end)

    def heading(self, target: Any, place: int, row: int, column: Column) -> None:
        if column.heading:
            self.formula(target, place, row, NAMES.formula(column.heading, None, column.key), styles.HEADER)
        else:
            self.cell(target, place, row, column.header, styles.HEADER)

    def figures(self, target: Any, figures: Figures, row: int) -> int:
        """What one function gives, cell by cell; return the row where the next may start."""
        key, last, beside = figures.key, row + figures.rows, figures.columns
        self.cell(target, 0, row, figures.title, styles.BLOCK)
        self.name(f"{key}_given", target, beside, row, beside, row)
        self.name(f"{key}_line", target, beside, row + 1, beside, last)
        self.name(f"{key}_all", target, 0, row + 1, beside - 1, last)
        self.formula(target, beside, row, NAMES.formula(figures.formula, None, key), styles.CODE)
        nth = f"ROW()-ROW({key}_given)"
        line = f'IF({key}_given="";"";REGEX({key}_given;"[^{answers.ROW_ENDS}]+";;{nth}))'
        self.down(target, beside, row + 1, last, line)
        for place in range(figures.columns):
            named = figures.named[place] if place < len(figures.named) else ""
            if named:
                self.name(f"{key}_{named}", target, place, row + 1, place, last)
            part = f'REGEX({{}};"[^{answers.CELL_ENDS}]+";;{place + 1})'
            held = part if named in figures.words else f'NUMBERVALUE({part};".")'
            self.down(
                target,
                place,
                row + 1,
                last,
                f'IF({{}}="";"";IF({part}="{answers.NOTHING}";"";{held}))'.replace("{}", f"[{LINE}]"),
                {LINE: letter(beside)},
            )
        return last + GAP

    def down(
        self, target: Any, place: int, first: int, last: int, formula: str, letters: "dict[str, str] | None" = None
    ) -> None:
        """A formula in a column off the paper."""
        cells = target.getCellRangeByPosition(place, first, place, last)
        cells.CellStyle = styles.CODE
        self.pending.append((cells, in_row(f"={stored(formula)}", letters or {}, first + 1)))

    def fill(self, cells: Any, placed: Placed, formula: str) -> None:
        """One formula per column; relative to its row."""
        first = in_row(f"={stored(formula)}", placed.letters, placed.first + 1)
        self.pending.append((cells, first))

    def values(self, target: Any, placed: Placed, row: int, values: "dict[str, Any]") -> None:
        for at, column in enumerate(placed.table.laid_out):
            if values.get(column.key) not in (None, ""):
                put(target.getCellByPosition(at, row), values[column.key], column.format)

    def validate(self, cells: Any, column: Column, first_cell: str) -> None:
        """Lists, numbers and help for an input column."""
        validation = cells.Validation
        validation.InputTitle = column.title[:30]
        validation.InputMessage = in_lines(f"{column.help}{' (' + column.unit + ')' if column.unit else ''}")
        validation.ShowInputMessage = True
        if column.choices:
            validation.Type = LIST
            validation.setFormula1(list_formula(column.choices))
            validation.ErrorMessage = "Not in the list. Pick one from it, or add it where the list comes from."
        elif column.is_date or column.least is not None:
            validation.Type = CUSTOM
            # The formula is read as standing in the first cell; without a place it would look elsewhere.
            validation.setSourcePosition(cells.getCellByPosition(0, 0).CellAddress)
            validation.setFormula1(stored(checks.allowed(column, first_cell)))
            such = example(column.measure, column.most or 0.0, column.least or 0.0) if column.measure else ""
            text = f', or a text with a unit such as "{such}"' if such else ""
            # A formula never passes; the office asks whether it is meant, and Check judges what it comes to.
            validation.ErrorAlertStyle = WARNING
            validation.ErrorMessage = f"Type {checks.limits(column)}{text}. If it is a formula, press OK."
        validation.ShowErrorMessage = validation.Type != ANY
        cells.Validation = validation

    def mark_check(self, cells: Any, letters: "dict[str, str]") -> None:
        """Mark by its state what is not OK; a check that says otherwise than the state was typed over."""
        row = cells.RangeAddress.StartRow + 1
        check, state = (f"${letters[key]}{row}" for key in ("check", STATE))
        at_odds = f'({state}="{SOUND}")<>({check}="{checks.OK}")'
        urgent = f'IFERROR(OR({state}="{FIX}";{state}="{DANGER}";{at_odds});TRUE())'
        marks = (
            (urgent, styles.URGENT),
            (f'OR({state}="{WEIGH}";{state}="{NOTE}")', styles.ATTENTION),
            (f'{state}="{WAITS}"', styles.QUIET),
        )
        self.mark(cells, marks)

    @staticmethod
    def mark(cells: Any, marks: "Iterable[tuple[str, str]]") -> None:
        """Conditions, read as standing in the first cell, and the style of each."""
        conditions = cells.ConditionalFormat
        for condition, style in marks:
            conditions.addNew(
                page.properties(
                    Operator=WHEN_FORMULA,
                    Formula1=condition,
                    StyleName=style,
                    SourcePosition=cells.getCellByPosition(0, 0).CellAddress,
                )
            )
        cells.ConditionalFormat = conditions

    def lines(self, target: Any, sheet: Sheet) -> None:
        for row, (heading, line) in enumerate(sheet.lines, FIRST_TABLE_ROW):
            self.cell(target, 0, row, heading or line, styles.BLOCK if heading else styles.READ)

    def groups(self, target: Any, sheet: Sheet) -> None:
        row = FIRST_TABLE_ROW
        for group in sheet.groups:
            self.texts(target, 0, row, [group.title, "Value", "Unit", "Why", "Check"], styles.HEADER)
            for item in group.items:
                row += 1
                self.item(target, row, item, "boat")
                self.check_item(target, row, item)
                self.used_item(target, row, item)
            row += 2
        self.name("boat_title", target, 0, FIRST_TABLE_ROW, 0, row - 2)
        for key in ("check", *BESIDE):
            column = target.getCellRangeByName(f"{ON_BOAT[key]}1").CellAddress.Column
            self.name(f"boat_{key}", target, column, FIRST_TABLE_ROW, column, row - 2)
            if key in BESIDE:
                self.hidden.add((target.Name, column))
        self.hidden.add((target.Name, USED_ON_BOAT))

    def used_item(self, target: Any, row: int, item: Item) -> None:
        """The plain number of an assumption that may be typed with its unit."""
        name = f"boat_{item.key}"
        if name not in NAMES.used:
            return
        cell = target.getCellByPosition(USED_ON_BOAT, row)
        cell.CellStyle = self.style(styles.CALCULATED, item.format)
        self.later(cell, reading(item.column(), name))
        self.name(NAMES.used[name], target, USED_ON_BOAT, row, USED_ON_BOAT, row)

    def check_item(self, target: Any, row: int, item: Item) -> None:
        """What is wrong with an assumption, at the end of its row."""
        if item.formula:
            return
        for key, formula in checks.of_item(item, NAMES).items():
            cell = target.getCellRangeByName(f"{ON_BOAT[key]}{row + 1}")
            cell.CellStyle = styles.CHECK if key == "check" else styles.CODE
            self.later(cell, in_row(formula, ON_BOAT, row + 1))
        self.mark_check(target.getCellRangeByName(f"{ON_BOAT['check']}{row + 1}"), ON_BOAT)

    def item(self, target: Any, row: int, item: Item, prefix: str, page: Optional[Page] = None) -> None:
        self.cell(target, 0, row, item.title, styles.LABEL)
        cell = target.getCellByPosition(1, row)
        if item.formula:
            cell.CellStyle = self.style(styles.CALCULATED, item.format)
            formula = NAMES.formula(item.formula, page, item.key)
            self.later(cell, blank_until_picked(formula, page) if page and not item.always else formula)
        else:
            base = styles.INPUT_TEXT if item.text or item.choices else styles.INPUT
            cell.CellStyle = base if base == styles.INPUT_TEXT else self.style(base, item.format)
            put(cell, self.boat.get(item.key, item.value), item.format)
            self.validate(cell, item.column(), f"B{row + 1}")
        self.texts(target, 2, row, [item.unit, item.why], styles.LABEL)
        self.name(f"{prefix}_{item.key}", target, 1, row, 1, row)

    def page(self, target: Any, at: int, page: Page) -> None:
        """A pick cell, what follows from it, and the rows below."""
        self.item(target, FIRST_TABLE_ROW, page.pick, page.key)
        names = self.data.get(str(page.pick.choices).partition("_")[0])
        if names:
            target.getCellByPosition(1, FIRST_TABLE_ROW).String = names[0]["name"]
        for row, item in enumerate(page.items, FIRST_TABLE_ROW + 1):
            self.item(target, row, item, page.key, page)
        if page.grid:
            self.grid(target, at, page, page.grid, FIRST_TABLE_ROW + len(page.items) + 2)

    def board(self, target: Any, sheet: Sheet, board: Board) -> None:
        """Listings, and lines that run on to the right edge: their cells share a ground, whatever the theme."""
        for listing in board.listings:
            self.listing(target, listing)
        for column, row, written, style in board.cells:
            target.getCellRangeByPosition(column, row, len(sheet.widths) - 1, row).CellStyle = BOARD[style]
            if written.startswith("="):
                self.formula(target, column, row, NAMES.formula(written[1:], None, "board"), BOARD[style])
            else:
                self.cell(target, column, row, written, BOARD[style])

    def listing(self, target: Any, listing: Listing) -> None:
        """Rows that are worked out from other tables; the number of a row is typed, or counted."""
        letters = {column.key: letter(listing.left + at) for at, column in enumerate(listing.laid_out)}
        first, last = listing.top + 1, listing.top + listing.rows
        for at, column in enumerate(listing.laid_out, listing.left):
            cells = target.getCellRangeByPosition(at, first, at, last)
            self.name(f"{listing.key}_{column.key}", target, at, first, at, last)
            if listing.hidden:
                base = styles.CODE
                self.hidden.add((target.Name, at))
            else:
                base = styles.NUMBER
                if column.title:
                    base = styles.LISTED_NUMBER if column.format else styles.LISTED
                self.mark(cells, self.row_marks(cells, column, f"${letters['nth']}{first + 1}"))
            cells.CellStyle = self.style(base, column.format)
            if column.title:
                self.head_of_listing(target, at, listing, column, base)
            if not column.formula:
                cells.setDataArray(tuple((float(listing.start + row),) for row in range(listing.rows)))
            self.rows(cells, listing, column, letters)

    def head_of_listing(self, target: Any, at: int, listing: Listing, column: Column, base: str) -> None:
        """The head of a column; one that goes on from a list above is seen only where there are rows for it."""
        if listing.hidden or listing.start == 1:
            self.cell(target, at, listing.top, column.header, base if listing.hidden else styles.HEADER)
            return
        written = "&CHAR(10)&".join(map(quoted, column.header.split("\n")))
        empty = f"{listing.count}<{listing.start}"
        self.formula(target, at, listing.top, f'IF({empty};"";{written})', styles.HEADER)
        self.mark(target.getCellByPosition(at, listing.top), [(empty, styles.LISTED)])

    def rows(self, cells: Any, listing: Listing, column: Column, letters: "dict[str, str]") -> None:
        """The formulas of a column: one that is filled down, or one for each row."""
        top = listing.top + 1
        each = [(cells.getCellByPosition(0, row), put) for row, put in enumerate(listing.each)]
        for row, (where, put) in enumerate(each or [(cells, {})], top + 1):
            formula = NAMES.formula(filled(column.formula, put), listing, column.key)
            if formula:
                self.pending.append((where, in_row(f"={stored(formula)}", letters, row)))

    @staticmethod
    def row_marks(cells: Any, column: Column, number: str) -> "list[tuple[str, str]]":
        """A line below a row that lists something; the word for its state is marked as a check is."""
        address = cells.RangeAddress
        word = f"{letter(address.StartColumn)}{address.StartRow + 1}"
        states = STATE_MARKS if column.key == "state" else ()
        urgent = [(f"OR({';'.join(f'{word}={quoted(one)}' for one in words)})", style) for words, style in states]
        return [*urgent, *([(f'{number}<>""', styles.LINE)] if column.title else [])]

    def grid(self, target: Any, at: int, page: Page, grid: Grid, row: int) -> None:
        first = max(row, grid.top)
        self.texts(target, 0, first, list(grid.headings), styles.HEADER)
        for line, words in enumerate(grid.beside):
            self.cell(target, len(grid.headings) + 1, first + line, words, styles.LABEL)
        for row, cells in enumerate(grid.rows, first + 1):
            for column_at, written in enumerate(cells):
                if not written.startswith("="):
                    if written:
                        self.cell(target, column_at, row, written, styles.LABEL)
                    continue
                cell = target.getCellByPosition(column_at, row)
                cell.CellStyle = self.style(styles.CALCULATED, grid.format if column_at else "")
                if grid.charted:
                    cell.Value = charts.PLACEHOLDER
                self.later(cell, blank_until_picked(NAMES.formula(written[1:], page, "grid"), page))
        last = first + len(grid.rows)
        if grid.name:
            self.name(grid.name, target, 0, first + 1, len(grid.headings) - 1, last)
        if grid.charted:
            self.charted[page.key] = (target, at, first, last)

    def texts(self, target: Any, column: int, row: int, texts: "list[str]", style: str) -> None:
        """Texts side by side, written at once."""
        cells = target.getCellRangeByPosition(column, row, column + len(texts) - 1, row)
        cells.setDataArray((tuple(texts),))
        cells.CellStyle = style

    def cell(self, target: Any, column: int, row: int, text: str, style: str) -> None:
        cell = target.getCellByPosition(column, row)
        cell.String, cell.CellStyle = text, style

    def formula(self, target: Any, column: int, row: int, formula: str, style: str) -> None:
        cell = target.getCellByPosition(column, row)
        cell.CellStyle = style
        self.later(cell, formula)

    def style(self, base: str, format: str) -> str:
        """The name of one of our styles with a number format, made when first asked for."""
        if (base, format) not in self.styles:
            self.styles[base, format] = styles.with_format(self.book, base, format)
        return self.styles[base, format]

    def later(self, cell: Any, formula: str) -> None:
        self.pending.append((cell, f"={stored(formula)}"))

    def name(self, name: str, target: Any, left: int, top: int, right: int, bottom: int) -> None:
        cells = f"${letter(left)}${top + 1}:${letter(right)}${bottom + 1}"
        if (left, top) == (right, bottom):
            cells = cells.split(":")[0]
        content = f"${sheet_name(target.Name)}.{cells}"
        self.names.addNewByName(name, content, CellAddress(), 0)

    def charts(self) -> None:
        """Before the formulas, for a chart needs numbers to begin with."""
        charts.view(*self.charted["view"])
        stays = next(where for where in self.placed if where.table.key == "stays")
        by_case, shown = self.followed["bycase"], self.followed["tensions"]
        charts.tensions(by_case, min(stays.last - stays.header, balance.STAYS), shown)

    def formulas(self) -> None:
        """Each goes into the first of its cells and is filled down, which is much quicker than one by one.

        The longest last: an office that fills down a check before there is what it refers to crashes now and then.
        """
        for cells, formula in sorted(self.pending, key=lambda one: len(one[1])):
            cells.getCellByPosition(0, 0).Formula = formula
            cells.fillAuto(TO_BOTTOM, 1)


def stands_last(table: Table) -> bool:
    """Whether nothing of ours stands below a table."""
    sheet = next(sheet for sheet in ALL if table in sheet.tables)
    return table is sheet.tables[-1] and not sheet.followers


def in_lines(hint: str) -> str:
    """A hint as the office shows it beside a cell, where it breaks no line by itself."""
    return "\n".join(f"{line}{MARGIN}" for line in textwrap.wrap(hint, HINT))


def list_formula(choices: "str | tuple[str, ...]") -> str:
    return choices if isinstance(choices, str) else ";".join(quoted(choice) for choice in choices)


def blank_until_picked(formula: str, page: Page) -> str:
    """Formula: blank while there is no row of the name that is picked; then its value, or its error."""
    return f'IF({page.known()};{formula};"")'


def sheet_name(name: str) -> str:
    return f"'{name}'" if " " in name else name


def put(cell: Any, value: Any, format: str = "") -> None:
    """Put an input into a cell: a number, a text that stays text, or a date."""
    if value is None or value == "":
        return
    if isinstance(value, (int, float)):
        cell.Value = float(value)
    elif format.startswith("YYYY"):
        cell.Formula = value
    else:
        cell.String = value
