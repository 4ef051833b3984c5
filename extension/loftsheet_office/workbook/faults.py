"""All that is not OK in a schedule, each with the cell that it leads to.

What the rows' own checks say; cells that differ from their column's formula or were typed over; texts
where a number is due; what stands where no total sees it; named ranges that are gone.
"""

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Optional

from com.sun.star.sheet import CellFlags, FormulaResult
from com.sun.star.table.CellContentType import FORMULA, TEXT
from loftsheet import measure
from loftsheet.errors import BadInput

from ..common.refusal import Refusal
from .columns import Column, all_columns, titles_of_tables
from .complaints import DANGER, FIX, FOUND, NOTE, OK, SEVERITIES, WAITS, WEIGH, Complaint, complaints
from .named_tables import Table, Tables, address, copied_sheets, referred

# Tables whose rows are typed from a tape, a certificate or a surveyor, and the points that a stay picks.
CAUSES = ("boat", "masts", "points", "rope", "wire", "rod", "bolt", "sleeve", "ring", "share")
POINTS = ("upper", "via", "via_2", "lower")
MANY = 5  # changed formulas of a row, from which on they are said in one line
SOMETHING = CellFlags.VALUE | CellFlags.DATETIME | CellFlags.STRING | CellFlags.FORMULA
RESTORE = "If it was deleted, undo that; a schedule of another version of Loftsheet may lack it."
BEGINS = ".begins"  # the end of a rule's id: the first error of a row in which nothing else is wrong
# A text in quotes, or a reference with its column and its row; what follows must not make it part of a name.
REFERENCE = re.compile(r'"(?:[^"]|"")*"|(?<![\w$])(\$?[A-Z]{1,3})(\$?)([1-9][0-9]*)(?![\w(.])')


@dataclass(frozen=True)
class Fault:
    """What is wrong, and the cell that it is about; some are about no cell that is still there."""

    says: str
    cell: Optional[Any] = None
    severity: str = FIX
    id: str = ""  # of the rule that found it, if one did
    follows: bool = False  # from something else that is wrong, most often
    cause: bool = False  # of what is wrong elsewhere, most often: a figure of survey, boat or goods that is odd
    name: str = ""  # of the row, where the rest is what its check says

    def line(self, more: int = 0) -> str:
        """Where, whose and what; of rows of which the same is said so many more."""
        others = f" and {more} more" if more else ""
        says = f"{self.name}{others}: {self.says}" if self.name else self.says
        return f"{address(self.cell)}: {says}" if self.cell else says


def find(tables: Tables) -> "list[Fault]":
    """Everything that is not OK: first what has to be fixed, then likely causes, last errors that follow."""
    found = [Fault(words) for words in _gone(tables)]
    for sheet, original in copied_sheets(tables.book):
        says = (
            f"the sheet {sheet.Name} is a copy of {original}: it calculates, but nothing on it is checked or "
            "ordered; delete it, or move it to a document of its own"
        )
        found.append(Fault(says, sheet.getCellByPosition(0, 0)))
    checks = referred(tables.book, "boat_check")
    if checks is None:
        found.append(Fault(f"The named range boat_check is gone. {RESTORE}"))
    else:
        found += _checks(tables, "boat", checks, referred(tables.book, f"boat_{FOUND}"))
    for name, cells in tables.cells.items():
        if not all_columns()[name].table:
            found += _in_cell(all_columns()[name], cells.getCellByPosition(0, 0))
    for table in tables.all:
        if "check" in table.columns:
            found += _checks(tables, table.key, table.columns["check"], table.columns.get(FOUND))
        if all_columns()[f"{table.key}_name"].is_input:
            found += _outside(tables, table)
        found += [*changed_formulas(table), *_wrong_kind(table)]
    return sorted(found, key=lambda fault: (fault.follows, _rank(fault)))


def _rank(fault: Fault) -> float:
    """By severity; what is odd comes before the danger that may be no more than what follows from it."""
    return SEVERITIES.index(DANGER) - 0.5 if fault.cause else SEVERITIES.index(fault.severity)


def _gone(tables: Tables) -> "Iterator[str]":
    """The named ranges that are gone; a table of which there is none is one line."""
    columns = all_columns()
    here = {"", *(columns[name].table for name in tables.cells)}
    lost = [columns[name].table for name in tables.gone if columns[name].table not in here]
    for table in dict.fromkeys(lost):
        yield f"{titles_of_tables()[table]}: all named ranges of this table are gone. {RESTORE}"
    for name in tables.gone:
        column = columns[name]
        if column.table in here:
            yield f"{column.place}, {column.title}: the named range {name} is gone. {RESTORE}"


def _in_cell(column: Column, cell: Any) -> "Iterator[Fault]":
    """What is wrong with a single named cell, such as one of Boat."""
    if column.is_input:
        yield from _not_a_number(column, cell)
    elif cell.Type != FORMULA:
        yield Fault(f"{column.title}: something was typed over the formula", cell)
    if cell.getError():
        yield Fault(
            f"{column.title} is an error ({cell.String}); Explain This Cell says where it begins",
            cell,
            follows=not column.is_input,
        )


def _checks(tables: Tables, table: str, checks: Any, found: Any) -> "Iterator[Fault]":
    """What the checks in a column say, one complaint each with the name at the left of its row."""
    codes = [code for (code,) in found.DataArray] if found is not None else []
    for at, (said,) in enumerate(checks.DataArray):
        cell = checks.getCellByPosition(0, at)
        if cell.Type != FORMULA:
            continue  # a heading, or a check that was typed over, which is said of every calculated column
        name = checks.Spreadsheet.getCellByPosition(0, cell.CellAddress.Row).String or "a row without a name"
        if cell.FormulaResultType2 == FormulaResult.ERROR:
            yield Fault(f"{name}: the check itself is an error ({cell.String})", cell)
        elif said not in ("", OK):
            coded = complaints(str(codes[at])) if at < len(codes) else ()
            # A schedule from before there were codes, or one whose codes were typed over, has but the words.
            for one in tuple(coded) or (Complaint(FIX, "", "", said),):
                if one.severity != NOTE:
                    yield _fault(tables, table, one, name, cell)


def _fault(tables: Tables, table: str, complaint: Complaint, name: str, check: Any) -> Fault:
    """A complaint with the cell that it is about, or that of the check."""
    about, cell = tables.led_to(table, complaint.about, check.CellAddress.Row)
    named_already = table == "boat" and about and all_columns()[about].title == name
    follows = complaint.severity == WAITS or complaint.id.endswith(BEGINS)
    surveyed = table == "stays" and complaint.about.partition(".")[0] in POINTS
    cause = complaint.severity == WEIGH and (table in CAUSES or surveyed)
    at = check if cell is None else cell
    name = "" if named_already else name
    return Fault(complaint.words, at, complaint.severity, complaint.id, follows, cause, name)


def _outside(tables: Tables, table: Table) -> "Iterator[Fault]":
    """Rows that no total sees: the last ready row, what stands below the table or between it and its header."""
    last = table.columns["name"].getCellByPosition(0, len(table.rows) - 1)
    if last.String:
        yield Fault(f"{last.String}: this is the last ready row, which no total may end on; use Add Rows", last)
    below = _first_filled(referred(tables.book, f"{table.key}_below"))
    if below:
        yield Fault(f"this stands below {table.title} and is not counted; use Add Rows and move it up", below)
    for row in _rows_above(tables, table):
        cells = table.sheet.getCellRangeByPosition(table.area.StartColumn, row, table.area.EndColumn, row)
        above = _first_filled(cells)
        if above:
            yield Fault(
                f"this stands above the first row of {table.title} and is not counted; move it down", above
            )


def _first_filled(cells: Any) -> Optional[Any]:
    filled = cells.queryContentCells(SOMETHING) if cells is not None else None
    return filled.getByIndex(0).getCellByPosition(0, 0) if filled is not None and filled.Count else None


def _rows_above(tables: Tables, table: Table) -> range:
    """The rows between a table's header and its first row: there are some when a row was inserted there."""
    header = referred(tables.book, f"{table.key}_header")
    return range(header.RangeAddress.StartRow + 1, table.rows.start) if header is not None else range(0)


@dataclass(frozen=True)
class Changed:
    """A calculated cell that is not what most of its column is."""

    cell: Any
    name: str  # of its row
    title: str  # of its column
    formula: str
    usual: str
    sound: Any  # a cell of its column that holds the usual formula, or None


def changed_cells(table: Table) -> "Iterator[Changed]":
    for key, cells in table.columns.items():
        column = all_columns()[f"{table.key}_{key}"]
        if column.is_input:
            continue
        formulas = [relative(formula, row) for row, (formula,) in zip(table.rows, cells.FormulaArray)]
        usual = _most_common([formula for formula in formulas if formula.startswith("=")])
        sound = cells.getCellByPosition(0, formulas.index(usual)) if usual else None
        for at, formula in enumerate(formulas):
            if formula != usual:
                name = table.named(table.rows.start + at) or "a ready row"
                yield Changed(cells.getCellByPosition(0, at), name, column.title, formula, usual, sound)


def changed_formulas(table: Table) -> "Iterator[Fault]":
    """Calculated cells that are not what most of their column is; where a row has many, the first for all."""
    rows: dict[int, list[Changed]] = {}
    for one in changed_cells(table):
        rows.setdefault(one.cell.CellAddress.Row, []).append(one)
    for changed in rows.values():
        first, more = changed[0], len(changed) - 1
        if more < MANY:
            for one in changed:
                yield Fault(f"{one.name}, {one.title}: {_changed(one.formula, one.usual)}", one.cell)
        else:
            says = f"{first.name}, {first.title} and {more} more: {_changed(first.formula, first.usual)}"
            yield Fault(says, first.cell)


def refuse_changed_formulas(book: Any) -> None:
    """Let nothing leave the schedule that another formula may have made wrong: no row's check can tell it."""
    changed = [one for table in Tables(book).all for one in changed_cells(table) if one.formula.startswith("=")]
    if changed:
        first = changed[0]
        more = f", and {len(changed) - 1} more" if changed[1:] else ""
        raise Refusal(
            "Nothing was written. A formula of the schedule was changed, and what follows from it may be wrong: "
            f"{address(first.cell)}, {first.name}, {first.title}{more}.\n\nIn Check the Schedule, Put Right takes "
            "it from another row. Where a value is to be your own, type it under the override of that name."
        )


def _changed(formula: str, usual: str) -> str:
    if not usual:
        return "the column has no formula any more; take it from an older copy"
    if not formula:
        return "the formula was deleted; Put Right takes it from another row"
    if not formula.startswith("="):
        return "something was typed over the formula; Put Right takes it from another row"
    return "the formula differs from the rest of its column; Put Right takes it from another row, if unmeant"


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
        column = all_columns()[f"{table.key}_{key}"]
        if column.kind == "number":
            for at, (held,) in enumerate(cells.DataArray):
                if held != "":
                    yield from _not_a_number(column, cells.getCellByPosition(0, at))


def _not_a_number(column: Column, cell: Any) -> "Iterator[Fault]":
    if column.kind != "number":
        return
    if cell.Type == TEXT and not _can_be_read(cell.String, column.measure):
        yield Fault(f'{column.title}: "{cell.String}" is a text. {column.typed()}', cell)


def _can_be_read(text: str, unit: str) -> bool:
    try:
        return bool(unit) and measure.read_in(text, unit) is not None
    except BadInput:
        return False
