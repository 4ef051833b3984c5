"""The schedule worked out again from its input cells by the pure functions, without a look at its formulas.

    schedule = Schedule(book)                  # the input cells of an open document, through its named ranges
    schedule.row("stays", "forestay").cut      # one number, worked out in plain Python
    Compared(book).differences                 # every calculated cell that says something else

Each calculated column is written a second time here, as a property of the row's class, under the column's key.
What cannot be worked out raises; then the cell has to be an error, too. A blank where something is needed, a
text in place of a number, a key that is not there: all raise, nothing counts as 0 by itself.
"""

import math
import re
from functools import cached_property
from typing import NamedTuple

from loftsheet.errors import CellError

from extension.loftsheet_office.workbook.complaints import complaints
from templates.schedule import Table
from templates.sheets import ALL, bench, side_view
from templates.sheets.boat import TABLES
from tests import inside
from tests.office.worked.balance import Case, Rig
from tests.office.worked.boat import ANY_WORDS, Boat, Entry
from tests.office.worked.chainplate import Chainplate
from tests.office.worked.library import Bolt, Mast, Point, Rod, Rope, Share, StandardGood, Trial, Wire
from tests.office.worked.order import EVERY_ROW, Control, Order
from tests.office.worked.pages import Bench, View
from tests.office.worked.row import REFUSALS, Row, Wrong
from tests.office.worked.stay import Stay
from tests.office.worked.tang import Tang

RELATIVE = 1e-9
NEAR_NOTHING = 1e-10  # a spare is a ratio less one: it keeps the rounding of the ratio


class Span(NamedTuple):
    """Where the cells of a named range stand."""

    sheet: int
    left: int
    top: int
    right: int
    bottom: int


CELL = r"\$?([A-Z]+)\$?([0-9]+)"
CONTENT = re.compile(rf"\$?('(?:[^']|'')+'|[^.']+)\.{CELL}(?::{CELL})?")


def named_spans(book, office=None):
    """Where every name leads; the names that lead nowhere are left out."""
    sheets = {name: at for at, name in enumerate(book.Sheets.ElementNames)}
    found = {name: CONTENT.fullmatch(content) for name, content in inside.names(book, office).items()}
    return {name: span(sheets, match) for name, match in found.items() if match}


def span(sheets, match):
    sheet, left, top, right, bottom = match.groups()
    called = sheet[1:-1].replace("''", "'") if sheet.startswith("'") else sheet
    places = (number_of(left), int(top) - 1, number_of(right or left), int(bottom or top) - 1)
    return Span(sheets[called], *places)


def number_of(letters):
    """The number of a column, from 0."""
    return sum((ord(letter) - 64) * 26**at for at, letter in enumerate(reversed(letters))) - 1


class Cells:
    """All cells of a document as they are now, by the names of its named ranges."""

    def __init__(self, book, spans=None, office=None):
        self.held = [self._content(*sheet) for sheet in inside.cells(book, office)]
        self.book, self.office = book, office
        if spans:
            self.spans = spans

    @cached_property
    def spans(self):
        return named_spans(self.book, self.office)

    @staticmethod
    def _content(rows, errors):
        """Rows of a sheet; an error is a CellError, a blank cell or an empty text is None."""
        content = [[None if held == "" else held for held in row] for row in rows]
        for row, column, code in errors:
            content[row][column] = CellError(code, f"error {code}")
        return content

    def column(self, name):
        """What the cells of a named range hold, from top to bottom."""
        span = self.spans[name]
        return [self.at(span.sheet, span.left, row) for row in range(span.top, span.bottom + 1)]

    def block(self, name):
        """What the cells of a named range hold, row by row, as far down as anything stands on the sheet."""
        span = self.spans[name]
        last = min(span.bottom, len(self.held[span.sheet]) - 1)
        columns = range(span.left, span.right + 1)
        return [[self.at(span.sheet, column, row) for column in columns] for row in range(span.top, last + 1)]

    def at(self, sheet, column, row):
        rows = self.held[sheet]
        return rows[row][column] if row < len(rows) and column < len(rows[row]) else None

    def rows(self, table):
        """The rows of a table, each by the keys of its columns."""
        prefix = f"{table}_"
        names = [
            name
            for name in self.spans
            if name.startswith(prefix) and name not in (f"{prefix}below", f"{prefix}header")
        ]
        columns = {name[len(prefix) :]: self.column(name) for name in names}
        return [dict(zip(columns, held)) for held in zip(*columns.values())]

    def one(self, name):
        return self.column(name)[0]


CLASSES = {
    "rope": Rope,
    "wire": Wire,
    "rod": Rod,
    "bolt": Bolt,
    "ring": StandardGood,
    "share": Share,
    "trial": Trial,
    "masts": Mast,
    "points": Point,
    "stays": Stay,
    "tangs": Tang,
    "chainplates": Chainplate,
    "order": Order,
    "control": Control,
    "cases": Case,
    "log": Entry,
}
# Where a column's key is also the name of an input of the class or of Python, it is worked out under another.
RENAMED = {("order", "total"): "total_price", ("bench", "number"): "number_to_make"}
DECLARED: "tuple[Table, ...]" = tuple(table for sheet in ALL for table in sheet.tables)


def table(key):
    """The declaration of a table."""
    return next(one for one in DECLARED if one.key == key)


class Schedule:
    """The input cells of a document, and all that follows from them."""

    def __init__(self, book, spans=None, office=None):
        self.cells = Cells(book, spans, office)
        self.boat = Boat(self, self._items("boat"))
        self._rows = {}
        self._by_name = {}

    @cached_property
    def rig(self):
        """Its masts and stays, in balance."""
        return Rig(self)

    def _items(self, prefix):
        names = [name for name in self.cells.spans if name.startswith(f"{prefix}_")]
        return {name[len(prefix) + 1 :]: self.cells.one(name) for name in names}

    def rows(self, table):
        """The rows that count: those with a name."""
        if table not in self._rows:
            kind = CLASSES.get(table, Row)
            held = [typed for typed in self.cells.rows(table) if typed.get("name") is not None]
            self._rows[table] = [kind(self, typed) for typed in held]
        return self._rows[table]

    def row(self, table, name):
        """The first row of that name."""
        if table not in self._by_name:
            known = self._by_name[table] = {}
            for row in self.rows(table):
                if not isinstance(row.typed["name"], CellError):
                    known.setdefault(key(row.typed["name"]), row)
        if key(name) not in self._by_name[table]:
            raise Wrong(f"{name} is not in {table}")
        return self._by_name[table][key(name)]

    def known(self, table, name):
        try:
            return self.row(table, name) is not None
        except Wrong:
            return False

    def counted(self, each):
        """How many of what a sundry is counted by."""
        each = each.casefold()
        stays, stubs = self.rows("stays"), self.rows("tangs")
        if each == "stub":
            return sum(stub.count for stub in stubs)
        if each in ("stay", "splice"):
            made = sum(stay.count for stay in stays if not stay.is_wire)
            loops = sum(plate.count for plate in self.rows("chainplates") if plate.is_loop)
            return made if each == "stay" else 2 * (made + loops + self.boat.trials)
        if each == "bolt":
            return sum(stub.bolts for stub in stubs)
        if each == "nut":
            return self.boat.number("nuts") * sum(stub.bolts for stub in stubs)
        if each == "boat":
            return 1
        raise Wrong(f"nothing is counted by {each}")

    def below(self, table):
        """Whether anything stands below a table."""
        return any(held is not None for row in self.cells.block(f"{table}_below") for held in row)


def key(name):
    return name.casefold() if isinstance(name, str) else name


def worked_out(row, where, column):
    """What a column of a row comes to, or None for an error."""
    try:
        return getattr(row, RENAMED.get((where, column), column))
    except REFUSALS:
        return None


def agree(found, due):
    """Whether a cell holds what is due; None is an error, an empty text a blank cell."""
    if due is None:
        return isinstance(found, CellError)
    if due is ANY_WORDS:
        return isinstance(found, str) and found != "nothing"
    if isinstance(due, (int, float)) and isinstance(found, float):
        return math.isclose(found, due, rel_tol=RELATIVE, abs_tol=NEAR_NOTHING)
    return (found or "") == due if not isinstance(found, CellError) else False


# What a row says whose results are left blank because nothing is balanced.
NOT_WORKED_OUT = {"stays.balance.unchecked", "cases.waterline", "cases.balance", "log.expected"}


class Difference(str):
    """A cell that does not hold what follows from the inputs, and the check of its row."""

    check = None
    is_total = False
    is_left_blank = False  # and its check says so
    table = ""


def difference(where, column, found, due, typed):
    shown = "an error" if due is None else repr(due)
    said = Difference(f"{where}, {column}: shows {found!r}, {shown} is due; check: {typed.get('check')}")
    said.table, said.check = where.partition(" ")[0].rstrip(","), typed.get("check")
    said.is_left_blank = found in (None, "") and any(
        one.id in NOT_WORKED_OUT for one in complaints(str(typed.get("found")))
    )
    said.is_total = said.table in ("order", "control", "boat")
    return said


class Compared:
    """An open document beside what follows from its input cells."""

    def __init__(self, book, spans=None, office=None):
        self.schedule = Schedule(book, spans, office)

    @cached_property
    def differences(self):
        """Every calculated cell that does not hold what follows from the input cells."""
        schedule = self.schedule
        return [*table_differences(schedule), *item_differences(schedule), *mark_differences(schedule)]

    @property
    def unexplained(self):
        """The differences in rows whose check does not speak; nor does the last control, for what is added up."""
        stopped = speaks(control_of_every_row(self.schedule.cells))
        return [
            one
            for one in self.differences
            if not (self._spoken_for(one.table, one.check) or (stopped and one.is_total) or one.is_left_blank)
        ]

    @property
    def silent_errors(self):
        """The rows that hold an error though their check says OK."""
        return [
            f"{table.key} {typed['name']}: {', '.join(errors)}"
            for table in DECLARED
            for typed in self.schedule.cells.rows(table.key)
            for errors in [[key for key, held in typed.items() if isinstance(held, CellError)]]
            if errors and not self._spoken_for(table.key, typed.get("check"))
        ]

    def _spoken_for(self, table, check):
        """Whether a row's check speaks, or Boat says of its table that checks are gone and the row has none."""
        outside, gone = self.schedule.boat.typed.get("outside"), f"{TABLES.get(table)}: rows whose Check is gone"
        return speaks(check) or (check is None and (isinstance(outside, CellError) or gone in str(outside)))


def differences(book):
    return Compared(book).differences


def speaks(check):
    return isinstance(check, CellError) or (isinstance(check, str) and not check.startswith("OK"))


def control_of_every_row(cells):
    return next((row.get("check") for row in cells.rows("control") if row["name"] == EVERY_ROW), None)


def table_differences(schedule):
    found = []
    for table in DECLARED:
        columns = [column.key for column in table.columns[2:] if column.calculated]
        for row in schedule.rows(table.key):
            for column in columns:
                due = worked_out(row, table.key, column)
                if not agree(row.typed.get(column), due):
                    where = f"{table.key} {row.typed['name']}"
                    found.append(difference(where, column, row.typed.get(column), due, row.typed))
        found += unnamed_differences(schedule, table.key, columns)
    return found


def unnamed_differences(schedule, table, columns):
    """Calculated cells of ready rows that are not blank."""
    ready = [typed for typed in schedule.cells.rows(table) if typed.get("name") is None]
    return [
        difference(f"{table}, a ready row", column, typed[column], "", typed)
        for typed in ready
        for column in columns
        if typed.get(column) is not None
    ]


def item_keys():
    """Of each sheet with single calculated cells: their keys, by the prefix of their names."""
    boat = [item.key for sheet in ALL for group in sheet.groups for item in group.items if item.formula]
    return {
        "boat": boat,
        "bench": [item.key for item in bench.FACTS],
        "view": [item.key for item in side_view.ITEMS],
    }


def pages(schedule):
    return {
        "boat": schedule.boat,
        "bench": Bench(schedule, schedule._items("bench")),
        "view": View(schedule, schedule._items("view")),
    }


def item_differences(schedule):
    found = []
    for prefix, page in pages(schedule).items():
        blank = prefix != "boat" and not picked(page)
        for column in item_keys()[prefix]:
            due = "" if blank and column != "said" else worked_out(page, prefix, column)
            if not agree(page.typed.get(column), due):
                found.append(difference(prefix, column, page.typed.get(column), due, page.typed))
    return found


def picked(page):
    try:
        return (page.stay_row if isinstance(page, Bench) else page.stub_row) is not None
    except REFUSALS:
        return False


def mark_differences(schedule):
    """The marks on the rope: names and distances, one below the other, blank below the last."""
    page = pages(schedule)["bench"]
    marks = worked_out(page, "bench", "marks") if picked(page) else ()
    found = []
    for at, held in enumerate(schedule.cells.block("bench_marks")):
        due = (None, None) if marks is None else marks[at] if at < len(marks) else ("", "")
        for one, mark in zip(held, due):
            if not agree(one, mark):
                found.append(difference("bench", f"mark {at + 1}", one, mark, page.typed))
    return found
