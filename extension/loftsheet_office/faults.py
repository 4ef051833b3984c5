"""All that is not OK in a schedule, each with the cell that it leads to.

What the rows' own checks say; cells that differ from their column's formula or were typed over; texts
where a number is due; what stands where no total sees it; named ranges that are gone.
"""

import re
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any, Optional

from com.sun.star.sheet import CellFlags, FormulaResult
from com.sun.star.table.CellContentType import FORMULA, TEXT
from loftsheet import measure
from loftsheet.errors import BadInput

from .book import URGENT
from .meanings import Meaning, all_meanings
from .place import Plan, Table, address, referred

SOMETHING = CellFlags.VALUE | CellFlags.DATETIME | CellFlags.STRING | CellFlags.FORMULA
CHECKS = ("boat_check",)  # besides those of the tables
RESTORE = "If it was deleted, undo that; a schedule of another version of Loftsheet may lack it."
TITLED = re.compile(r"mend (?:errors from here on: )?(?P<title>[^:]+)")
# What a check says because of something else, of which another check or row says more.
FOLLOWING = re.compile(
    "mend errors from here on: |mend Boat first: |.* has to be mended first$|rows to mend before|rows in danger"
)
# A text in quotes, or a reference with its column and its row; what follows must not make it part of a name.
REFERENCE = re.compile(r'"(?:[^"]|"")*"|(?<![\w$])(\$?[A-Z]{1,3})(\$?)([1-9][0-9]*)(?![\w(.])')


@dataclass(frozen=True)
class Fault:
    """What is wrong, and the cell that it is about; some are about no cell that is still there."""

    words: str
    cell: Optional[Any] = None
    follows: bool = False  # from something else that is wrong, most often
    asks: bool = False  # of what can be right

    def line(self) -> str:
        return f"{address(self.cell)}: {self.words}" if self.cell else self.words


def find(plan: Plan) -> "list[Fault]":
    """Everything that is not OK, sheet by sheet: first what has to be mended, last errors that follow."""
    found = [Fault(_gone(name)) for name in plan.gone]
    for name in CHECKS:
        checks = referred(plan.book, name)
        gone = [Fault(f"The named range {name} is gone. {RESTORE}")]
        found += _checks(checks, _titled_on_boat(plan)) if checks is not None else gone
    for name, cells in plan.cells.items():
        if not all_meanings()[name].table:
            found += _in_cell(all_meanings()[name], cells.getCellByPosition(0, 0))
    for table in plan.tables:
        found += [*_checks(table.columns["check"], _titled(table))] if "check" in table.columns else []
        found += [*_outside(plan, table), *changed_formulas(table), *_wrong_kind(table)]
    return sorted(found, key=lambda fault: (fault.follows, fault.asks))


def _gone(name: str) -> str:
    meaning = all_meanings()[name]
    return f"{meaning.place}, {meaning.title}: the named range {name} is gone. {RESTORE}"


def _in_cell(meaning: Meaning, cell: Any) -> "Iterator[Fault]":
    """What is wrong with a single named cell, such as one of Boat."""
    if meaning.is_input:
        yield from _not_a_number(meaning, cell)
    elif cell.Type != FORMULA:
        yield Fault(f"{meaning.title}: something was typed over the formula", cell)
    if cell.getError():
        yield Fault(
            f"{meaning.title} is an error ({cell.String}); Explain This Cell says where it begins",
            cell,
            follows=not meaning.is_input,
        )


def _checks(checks: Any, titled: "Callable[[int, str], Optional[Any]]") -> "Iterator[Fault]":
    """What the checks in a column say, one complaint each with the name at the left of its row."""
    for at, (said,) in enumerate(checks.DataArray):
        cell = checks.getCellByPosition(0, at)
        if cell.Type != FORMULA:
            continue  # a heading, or a check that was typed over, which is said of every calculated column
        name = checks.Spreadsheet.getCellByPosition(0, cell.CellAddress.Row).String or "a row without a name"
        if cell.FormulaResultType2 == FormulaResult.ERROR:
            yield Fault(f"{name}: the check itself is an error ({cell.String})", cell)
        elif said not in ("", "OK"):
            for part in said.split("; "):
                title = _title_in(part)
                words = part if title == name else f"{name}: {part}"  # on Boat a row's name is its title
                about = titled(cell.CellAddress.Row, title) or cell
                yield Fault(words, about, bool(FOLLOWING.match(part)), not part.startswith(URGENT))


def _title_in(complaint: str) -> str:
    """The title of the column that a complaint names, if it names one."""
    found = TITLED.match(complaint)
    return found["title"] if found else ""


def _titled(table: Table) -> "Callable[[int, str], Optional[Any]]":
    """Finds the cell of a row whose column has a title."""
    columns: dict[str, Any] = {}
    for key, cells in table.columns.items():
        columns.setdefault(all_meanings()[f"{table.key}_{key}"].title, cells)

    def cell(row: int, title: str) -> Optional[Any]:
        return columns[title].getCellByPosition(0, row - table.rows.start) if title in columns else None

    return cell


def _titled_on_boat(plan: Plan) -> "Callable[[int, str], Optional[Any]]":
    """Finds the value of Boat in a row, if its title is the one that is meant."""
    named = {}
    for name, cells in plan.cells.items():
        if name.startswith("boat_"):
            cell = cells.getCellByPosition(0, 0)
            named[cell.CellAddress.Row, all_meanings()[name].title] = cell
    return lambda row, title: named.get((row, title))


def _outside(plan: Plan, table: Table) -> "Iterator[Fault]":
    """Rows that no total sees: the last ready row, what stands below the table or between it and its header."""
    last = table.columns["name"].getCellByPosition(0, len(table.rows) - 1)
    if last.String:
        yield Fault(f"{last.String}: this is the last ready row, which no total may end on; use Add Rows", last)
    below = _first_filled(referred(plan.book, f"{table.key}_below"))
    if below:
        yield Fault(f"this stands below {table.title} and is not counted; use Add Rows and move it up", below)
    for row in _rows_above(plan, table):
        cells = table.sheet.getCellRangeByPosition(table.area.StartColumn, row, table.area.EndColumn, row)
        above = _first_filled(cells)
        if above:
            yield Fault(
                f"this stands above the first row of {table.title} and is not counted; move it down", above
            )


def _first_filled(cells: Any) -> Optional[Any]:
    filled = cells.queryContentCells(SOMETHING) if cells is not None else None
    return filled.getByIndex(0).getCellByPosition(0, 0) if filled is not None and filled.Count else None


def _rows_above(plan: Plan, table: Table) -> range:
    """The rows between a table's header and its first row: there are some when a row was inserted there."""
    header = referred(plan.book, f"{table.key}_header")
    return range(header.RangeAddress.StartRow + 1, table.rows.start) if header is not None else range(0)


def changed_formulas(table: Table) -> "Iterator[Fault]":
    """Calculated cells that are not what most of their column is."""
    for key, cells in table.columns.items():
        meaning = all_meanings()[f"{table.key}_{key}"]
        if meaning.is_input:
            continue
        formulas = [relative(formula, row) for row, (formula,) in zip(table.rows, cells.FormulaArray)]
        usual = _most_common([formula for formula in formulas if formula.startswith("=")])
        for at, formula in enumerate(formulas):
            if formula != usual:
                name = table.named(table.rows.start + at) or "a ready row"
                yield Fault(f"{name}, {meaning.title}: {_changed(formula, usual)}", cells.getCellByPosition(0, at))


def _changed(formula: str, usual: str) -> str:
    if not usual:
        return "the column has no formula any more; take it from an older copy"
    if not formula:
        return "the formula was deleted; copy it from another row"
    if not formula.startswith("="):
        return "something was typed over the formula; copy the formula from another row"
    return "the formula differs from the rest of its column; copy it from another row if that was not meant"


def _most_common(formulas: "list[str]") -> str:
    """The formula that most rows have; of two equally common ones the lower, for the ready rows are the lowest."""
    return Counter(reversed(formulas)).most_common(1)[0][0] if formulas else ""


def relative(formula: str, row: int) -> str:
    """A formula with the rows of its references counted from its own row, so that equal ones are equal texts."""

    def counted(found: "re.Match[str]") -> str:
        column, fixed, number = found.groups()
        if column is None or fixed:
            return found.group()
        return f"{column}[{int(number) - 1 - row}]"

    return REFERENCE.sub(counted, formula) if formula.startswith("=") else formula


def _wrong_kind(table: Table) -> "Iterator[Fault]":
    """Texts where a number is due."""
    for key, cells in table.columns.items():
        meaning = all_meanings()[f"{table.key}_{key}"]
        if meaning.kind == "number":
            for at, (held,) in enumerate(cells.DataArray):
                if held != "":
                    yield from _not_a_number(meaning, cells.getCellByPosition(0, at))


def _not_a_number(meaning: Meaning, cell: Any) -> "Iterator[Fault]":
    if meaning.kind != "number":
        return
    if cell.Type == TEXT and not _can_be_read(cell.String, meaning.measure):
        yield Fault(f'{meaning.title}: "{cell.String}" is a text. {meaning.typed()}', cell)


def _can_be_read(text: str, unit: str) -> bool:
    try:
        return bool(unit) and measure.read_in(text, unit) is not None
    except BadInput:
        return False
