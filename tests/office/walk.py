"""A random walk of a user's edits through an open schedule, and what has to hold after each.

walk = Walk(office, path, folder, dice)
said = walk.step()     # one edit, in words
walk.wrong()           # what is wrong after it, in words; nothing if it is all right
"""

import uno  # noqa: F401 — without it there is no com.sun
from com.sun.star.uno import Exception as UnoException

from tests import inside
from tests.inside import foreign_formulas
from tests.office import named, oracle
from tests.office.dice import FORMULAS, TYPED, WILD_TEXTS
from tests.office.places import LAST_COLUMN, all_rows, column_number, input_at, rows, show_only
from tests.office.user import User

TABLES = {table.key: table for table in oracle.DECLARED}
WORDS = (*WILD_TEXTS, *TYPED, *FORMULAS, "3/8 in", "1.5 m", "0", "1", "2", "40", "750", "nobody's")
FORMATS = ("ods", "fods", "xlsx")
ALL_BUT_NOTES = "SVDF"  # texts, numbers, dates and formulas: what Paste Special brings along


class Walk:
    """One open schedule in the hands of a user who means no harm and is not careful either."""

    def __init__(self, office, path, folder, dice):
        self.office, self.path, self.folder, self.dice = office, path, folder, dice
        self._opened(path)

    def _opened(self, path):
        self.book = self.office.load(path)
        self.office.recalculate(self.book)
        self.user = User(self.office, self.book)
        self._compared()
        self.before, self.undo_from = None, 0  # what the cells held before the last edit, to be taken back

    def close(self):
        self.office.close(self.book)

    def step(self):
        """Make one edit, and say which; nothing, where an edit before took away what it is for."""
        edit = self.dice.choices(list(EDITS), list(EDITS.values()))[0]
        titles = len(self._undone())
        try:
            said = edit(self)
        except UnoException as gone:
            said = f"nothing: {gone.Message}"
        self.before, self.undo_from = (None, 0) if edit in (Walk.undo, Walk.filter) else (self.held, titles)
        return f"{edit.__name__}: {said}"

    def wrong(self):
        """What is wrong, and still is when everything is worked out anew, as each command of ours does first.

        After cells were shifted, or cut over others, the office leaves some that read them as they were. Where a
        formula was put in place of another, Check the Schedule says so, and the walk goes on with a fresh one.
        """
        if not self._wrong():
            return []
        self.office.recalculate(self.book)
        wrong = self._wrong()
        if wrong and inside.run(self.office, foreign_formulas.lines, self.book):
            self.close()
            self._opened(self.path)
            return []
        return wrong

    def _wrong(self):
        compared = self._compared()
        said = [*compared.unexplained, *(f"an error beside OK: {row}" for row in compared.silent_errors)]
        counted = [one for one in compared.differences if not one.is_left_blank]
        if counted and not (self._boat("wrong") != 0 or self._boat("outside") != "nothing"):
            said.append(f"Boat counts nothing, but {counted[0]}")
        return said

    def _compared(self):
        compared = oracle.Compared(self.book, office=self.office)
        self.held = compared.schedule.cells.held
        return compared

    def _boat(self, key):
        return named.value(self.book, f"boat_{key}") if self.book.NamedRanges.hasByName(f"boat_{key}") else None

    # Where

    def _table(self):
        return self.dice.choice(list(TABLES))

    def _row(self, table):
        """A row of a table, most often one that is filled."""
        names = named.column(self.book, f"{table}_name")
        filled = [at for at, name in enumerate(names) if name != ""]
        return (
            self.dice.choice(filled) if filled and self.dice.random() < 0.85 else self.dice.randrange(len(names))
        )

    def _column(self, table, calculated=False):
        kinds = [one for one in TABLES[table].laid_out if one.calculated == calculated and one.key != "name"]
        return self.dice.choice(kinds or TABLES[table].laid_out[1:])

    def _cell(self, calculated=False):
        table = self._table()
        return input_at(self.book, table, self._column(table, calculated).key, self._row(table))

    def _block(self):
        """Some cells of a table, up to three rows high and six columns wide."""
        table = self._table()
        first = input_at(self.book, table, self.dice.choice(TABLES[table].laid_out).key, self._row(table))
        at, wide, high = first.CellAddress, self.dice.randrange(6), self.dice.choice((0, 0, 0, 1, 2))
        return first.Spreadsheet.getCellRangeByPosition(at.Column, at.Row, at.Column + wide, at.Row + high)

    def _end(self, table):
        return named.cells(self.book, f"{table}_name").Rows.Count - 1

    # Edits

    def type(self):
        """What stands in the same column elsewhere, a number near it, or anything."""
        table = self._table()
        column = self._column(table)
        cell = input_at(self.book, table, column.key, self._row(table))
        others = [one for one in named.column(self.book, f"{table}_{column.key}") if one not in ("", None)]
        held = self.dice.choice(others) if others and self.dice.random() < 0.8 else self.dice.choice(WORDS)
        if isinstance(held, float) and self.dice.random() < 0.7:
            held = held * self.dice.uniform(0.8, 1.25)
        words = f"{held:.6g}" if isinstance(held, float) else held
        self.user.type(cell, words)
        return f"{words[:40]!r} in {cell.AbsoluteName}"

    def type_over_a_formula(self):
        cell = self._cell(calculated=True)
        words = self.dice.choice(("1", "9000", "ok", "OK", "note", "=1/0", "=NA()", '=""'))
        self.user.type(cell, words)
        return f"{words!r} in {cell.AbsoluteName}"

    def clear(self):
        return self._given("ClearContents", self._block())

    def copy_block(self):
        return self._carried(self.user.copy, self._block(), self._block())

    def cut_block(self):
        return self._carried(self.user.cut, self._block(), self._block())

    def cut_within_a_row(self):
        """To another cell of the same row, or the one below."""
        cells = self._block()
        at = cells.RangeAddress
        to = cells.Spreadsheet.getCellByPosition(
            max(at.StartColumn + self.dice.choice((-2, -1, 0, 1, 2)), 0), at.StartRow + self.dice.choice((0, 1))
        )
        return self._carried(self.user.cut, cells, to)

    def transpose(self):
        cells, to = self._block(), self._block().getCellByPosition(0, 0)
        self.user.copy(cells)
        self.user.select(to)
        self.user.give(
            "InsertContents",
            Flags=ALL_BUT_NOTES,
            FormulaCommand=0,
            SkipEmptyCells=False,
            Transpose=True,
            AsLink=False,
            MoveMode=4,
        )
        return f"{cells.AbsoluteName} to {to.AbsoluteName}"

    def copy_row(self):
        table = self._table()
        return self._carried(
            self.user.copy, rows(self.book, table, self._row(table)), rows(self.book, table, self._row(table))
        )

    def copy_row_to_another_table(self):
        one, other = self._table(), self._table()
        return self._carried(
            self.user.copy, rows(self.book, one, self._row(one)), rows(self.book, other, self._row(other))
        )

    def cut_row(self):
        table = self._table()
        return self._carried(
            self.user.cut, rows(self.book, table, self._row(table)), rows(self.book, table, self._row(table))
        )

    def _carried(self, take, cells, to):
        said = f"{cells.AbsoluteName} to {to.AbsoluteName}"
        take(cells)
        self.user.paste(to.getCellByPosition(0, 0))
        return said

    def _given(self, command, cells, **arguments):
        said = f"{arguments.get('Flags', '')} {cells.AbsoluteName}"
        self.user.select(cells)
        self.user.give(command, **arguments)
        return said

    def insert_cells(self):
        return self._given("InsertCell", self._block(), Flags=self.dice.choice("V>"))

    def delete_cells(self):
        return self._given("DeleteCell", self._block(), Flags=self.dice.choice("UL"))

    def insert_rows(self):
        return self._given("InsertRowsBefore", self._block())

    def delete_rows(self):
        return self._given("DeleteRows", self._block())

    def insert_columns(self):
        return self._given("InsertColumnsBefore", self._block())

    def delete_columns(self):
        return self._given("DeleteColumns", self._block().getCellByPosition(0, 0))

    def fill_down(self):
        table = self._table()
        column, at = self._column(table, calculated=self.dice.random() < 0.5), self._row(table)
        first = input_at(self.book, table, column.key, at).CellAddress
        last = min(at + self.dice.randrange(1, 4), self._end(table)) - at + first.Row
        cells = named.cells(self.book, f"{table}_{column.key}").Spreadsheet.getCellRangeByPosition(
            first.Column, first.Row, first.Column, last
        )
        return self._given("FillDown", cells)

    def sort(self):
        table = self._table()
        column = self._column(table, calculated=self.dice.random() < 0.5)
        ascending = self.dice.random() < 0.5
        self.user.sort(all_rows(self.book, table), column_number(self.book, f"{table}_{column.key}"), ascending)
        return f"{table} by {column.key}"

    def filter(self):
        """Show the rows that hold the same as one of them; taken back, it may bring the office down."""
        table = self._table()
        names = named.cells(self.book, f"{table}_name").RangeAddress
        column, at = self._column(table), self._row(table)
        sheet = named.cells(self.book, f"{table}_name").Spreadsheet
        cells = sheet.getCellRangeByPosition(0, names.StartRow - 1, LAST_COLUMN, names.EndRow)
        show_only(
            cells,
            column_number(self.book, f"{table}_{column.key}") - 1,
            input_at(self.book, table, column.key, at).String,
        )
        return f"{table} by {column.key}"

    def rename_row(self):
        table = self._table()
        cell = input_at(self.book, table, "name", self._row(table))
        words = self.dice.choice(("a new name", f"{cell.String} 2", cell.String.upper(), "cap shroud, port", "7"))
        self.user.type(cell, words)
        return f"{cell.AbsoluteName} is {words!r}"

    def rename_sheet(self):
        sheet = self.book.Sheets.getByIndex(self.dice.randrange(self.book.Sheets.Count))
        before, sheet.Name = sheet.Name, f"{sheet.Name[:20]} & {self.dice.randrange(1000)}"
        return f"{before} is {sheet.Name}"

    def save_and_open(self):
        path = self.folder / f"saved.{self.dice.choice(FORMATS)}"
        self.office.store(self.book, path)
        self.close()
        self._opened(path)
        return path.suffix

    def undo(self):
        """Take back the last edit: all is as it was."""
        titles = self._undone()
        if self.before is None or len(titles) <= self.undo_from:
            return "nothing to take back"
        for _ in titles[self.undo_from :]:
            self.user.undo()
        self._compared()
        left = [change for change in changes(self.before, self.held) if not self._is_worked_out(*change[:3])]
        assert left == [], f"{titles[0]} taken back leaves {left[:5]}"
        return titles[0]

    def _is_worked_out(self, sheet, row, column):
        """What the office left as it was before an edit may be right after it; what was typed is compared."""
        return self.book.Sheets.getByIndex(sheet).getCellByPosition(column, row).Formula.startswith("=")

    def _undone(self):
        return self.book.UndoManager.getAllUndoActionTitles()


def changes(before, after):
    """The cells that differ, as (sheet, row, column, before, after)."""
    assert [*map(len, before)] == [*map(len, after)]
    return [
        (sheet, row, column, one, other)
        for sheet, (old, new) in enumerate(zip(before, after))
        for row, (held, holds) in enumerate(zip(old, new))
        for column, (one, other) in enumerate(zip(held, holds))
        if one != other
    ]


# How often each is done: what is typed daily more often than what takes a schedule apart.
EDITS = {
    Walk.type: 30,
    Walk.type_over_a_formula: 3,
    Walk.clear: 4,
    Walk.copy_block: 4,
    Walk.cut_block: 4,
    Walk.cut_within_a_row: 4,
    Walk.transpose: 3,
    Walk.copy_row: 6,
    Walk.copy_row_to_another_table: 3,
    Walk.cut_row: 4,
    Walk.insert_cells: 4,
    Walk.delete_cells: 4,
    Walk.insert_rows: 5,
    Walk.delete_rows: 4,
    Walk.insert_columns: 3,
    Walk.delete_columns: 1,
    Walk.fill_down: 4,
    Walk.sort: 6,
    Walk.filter: 3,
    Walk.rename_row: 5,
    Walk.rename_sheet: 2,
    Walk.save_and_open: 2,
    Walk.undo: 14,
}
