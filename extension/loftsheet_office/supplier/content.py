"""All of a schedule that may go to a supplier, read once.

Values only; a column of the user's own only where it was asked for. Reading is refused while a control fails, what
is chosen while a cell of it is an error.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from ..common.refusal import Refusal
from ..workbook import reading
from ..workbook.complaints import FOUND, OK, URGENT, complaints
from ..workbook.named_tables import copied_sheets
from ..workbook.reading import Row, Value
from . import certificates, fixings, rope_facts
from .certificates import Unproven
from .fixings import Fixings
from .lists import ASSUMED, LISTS, NAMED, NO_WORD, Field, Listing

NOTHING_OUTSIDE = "nothing"  # as Boat says it
LIBRARY = ("rope", "wire", "rod", "bolt", "sleeve", "ring", "share", "sundry")
CAUSES_FIRST = (*LIBRARY, "masts", "points", "chainplates", "stays", "tangs", "order")
FOLDED = ("stays", "tangs", "chainplates")  # tables with columns of the schedule itself that hold nothing
NEWER = ("masts", "chainplates")  # tables that schedules from before them lack
MOST_LISTED = 8
OWN_WIDTH = 16


@dataclass(frozen=True)
class Head:
    """What stands at the top of every list: whose it is, and of when."""

    name: str
    revision: str
    date: Value
    currency: str
    note: str
    contact: str = ""
    wanted: Value = None
    delivery: str = ""

    @property
    def boat(self) -> str:
        return self.name or "a boat without a name"

    @property
    def missing(self) -> "list[str]":
        """What a supplier would ask for first, and Boat does not say."""
        due = {
            "in which currency": self.currency,
            "whom to ask": self.contact,
            "wanted by": self.wanted,
            "delivery": self.delivery,
        }
        return [what for what, value in due.items() if value in (None, "")]


@dataclass(frozen=True)
class Filled:
    """A list and the rows of the schedule that it shows."""

    listing: Listing
    rows: "tuple[Row, ...]"


@dataclass(frozen=True)
class OwnColumn:
    """A column that the user put into one of the tables, or beside it: its heading and its key in a row."""

    table: str
    title: str
    format: str
    key: str


@dataclass(frozen=True)
class Content:
    """What goes into the file, or may go into it."""

    head: Head
    boat: "dict[str, Value]"
    lists: "dict[str, Filled]"
    own: "tuple[OwnColumn, ...]"
    fixings: "tuple[Fixings, ...]"
    ropes: "Mapping[str, Row]"
    unproven: "tuple[Unproven, ...]"
    not_ok: float
    copies: "tuple[str, ...]"  # sheets that are copies of ours, of which nothing is ordered

    def only(self, lists: Sequence[str] = tuple(LISTS), own: Sequence[OwnColumn] = ()) -> "Content":
        """What was chosen, or a refusal that lists the cells of it that are errors."""
        chosen = {title: _with_own(filled, own) for title, filled in self.lists.items() if title in lists}
        keys = {title: {field.key for field in filled.listing.fields} for title, filled in chosen.items()}
        errors = [
            error
            for title, filled in chosen.items()
            for row in filled.rows
            for key, error in row.errors.items()
            if key in keys[title]
        ]
        if errors:
            raise Refusal(f"Nothing was written. Cells that are errors: {'; '.join(errors)}")
        return replace(self, lists=chosen, own=tuple(own))


def read(book: Any) -> Content:
    """Read all that may go into the file from a recalculated schedule, or refuse with what is wrong."""
    to_fix = _rows_to_fix(book)
    try:
        ordered = reading.error_free_rows(book, "order", ("kind", "quantity"))
        _refuse_what_controls_say(book, to_fix)
        own = tuple(_own_columns(book))
        unproven = certificates.unproven(book, ordered)
        return Content(
            _head(book),
            {field.key: _of_boat(book, field) for field in (*NAMED, *ASSUMED)},
            dict(_lists(book, own, unproven)),
            tuple(column for column, _ in own),
            _fixings(book),
            {str(row.get("name")): row for row in reading.rows(book, "rope", rope_facts.OF_A_ROPE)},
            unproven,
            _number(reading.value(book, "boat_wrong")),
            tuple(sheet.Name for sheet, _ in copied_sheets(book)),
        )
    except reading.Failed as failed:
        raise Refusal(f"Nothing was written.{to_fix or ' '}Cells that are errors: {failed}") from None


def _refuse_what_controls_say(book: Any, to_fix: str) -> None:
    controls = reading.error_free_rows(book, "control", ("check",))
    wrong = [f"{row['name']}: {row['check']}" for row in controls if row["check"] != OK]
    outside = reading.value(book, "boat_outside")
    if outside != NOTHING_OUTSIDE:
        wrong.append(str(outside))
    if wrong:
        raise Refusal(f"Nothing was written, for the order would be wrong.{to_fix or ' '}{'; '.join(wrong)}")


def _head(book: Any) -> Head:
    values = {key: reading.value(book, f"boat_{key}") for key in ("name", "revision", "date", "currency", "note")}
    texts = {key: reading.as_text(value) for key, value in values.items() if key != "date"}
    later = {key: _if_there(book, f"boat_{key}") for key in ("contact", "wanted", "delivery")}
    asked = {key: reading.as_text(value) for key, value in later.items() if key != "wanted"}
    return Head(**texts, **asked, date=values["date"], wanted=later["wanted"])


def _if_there(book: Any, name: str) -> Value:
    """The value of a named cell that schedules of earlier releases lack."""
    return reading.value(book, name) if book.NamedRanges.hasByName(name) else None


def _of_boat(book: Any, field: Field) -> Value:
    name = f"boat_{field.key}"
    return _if_there(book, name) if field.optional else reading.value(book, name)


def _fixings(book: Any) -> "tuple[Fixings, ...]":
    pitches = {str(row.get("name")): row.get("pitch") for row in reading.rows(book, "bolt", ("pitch",))}
    return fixings.counted(list(reading.rows(book, "tangs", fixings.COLUMNS)), pitches)


def _number(value: Value) -> float:
    return value if isinstance(value, float) else 0.0


def _rows_to_fix(book: Any) -> str:
    """What is said first of rows that the order cannot count on or is not to; of many rows the first."""
    rows: dict[str, list[str]] = {}
    for name, words in _urgent(book):
        rows.setdefault(words, []).append(name or "a row")
    found = [
        f"{names[0]}{f' and {len(names) - 1} more' if names[1:] else ''}: {words}" for words, names in rows.items()
    ]
    more = [f"and {len(found) - MOST_LISTED} more"] if len(found) > MOST_LISTED else []
    return "\n".join(["", "", *found[:MOST_LISTED], *more, "", ""]) if found else ""


def _urgent(book: Any) -> "Iterator[tuple[str, str]]":
    """Each row with which nothing is ordered, and the first that says so; a check that was deleted is as bad."""
    for table in ("boat", *CAUSES_FIRST):
        if table in NEWER and not book.NamedRanges.hasByName(f"{table}_name"):
            continue
        checks = reading.texts(book, f"{table}_check")
        names = ["Boat"] * len(checks) if table == "boat" else reading.texts(book, f"{table}_name")
        coded = book.NamedRanges.hasByName(f"{table}_{FOUND}")
        found = reading.texts(book, f"{table}_{FOUND}") if coded else [""] * len(checks)
        for name, check, codes in zip(names, checks, found):
            worst = next((one.words for one in complaints(codes) if one.severity in URGENT), "")
            if worst:
                yield name, worst
            elif table != "boat" and name and not check:
                yield name, "this row has no check"
            elif table != "boat" and not coded and check not in ("", OK):
                yield name, check  # a schedule from before there were codes


def _lists(
    book: Any, own: "Sequence[tuple[OwnColumn, Any]]", unproven: "Sequence[Unproven]"
) -> "Iterator[tuple[str, Filled]]":
    for title, listing in LISTS.items():
        if _is_there(book, listing):
            filled = _filled(book, listing, own, unproven)
            if filled.rows or listing.only == NO_WORD:
                yield title, filled


def _is_there(book: Any, listing: Listing) -> bool:
    """Whether the schedule has the list's table: not one from before there was such a table."""
    return listing.table not in NEWER or bool(book.NamedRanges.hasByName(f"{listing.table}_name"))


def _filled(
    book: Any, listing: Listing, own: "Sequence[tuple[OwnColumn, Any]]", unproven: "Sequence[Unproven]"
) -> Filled:
    """A list with its rows, the user's own columns beside them; what has the quantity zero is left out."""
    parts = tuple(replace(part, fields=tuple(_had(book, listing.table, part.fields))) for part in listing.parts)
    keys = tuple(field.key for part in parts for field in part.fields if field.key)
    beside = {column.key: cells for column, cells in own if column.table == listing.table}
    (left_out, word), (kept, only) = listing.without, listing.only
    told_by = tuple(key for key in (left_out, kept) if key)
    beside.update(reading.columns_if_there(book, listing.table, told_by))
    rows = tuple(
        row
        for row in reading.rows(book, listing.table, keys, beside)
        if row.get("quantity") != 0
        and not (word and row.get(left_out) == word)
        and not (only and row.get(kept) != only)
    )
    doubtful = {item for one in unproven for item in one.items}
    for row in rows:
        if row.get("name") in doubtful and "exactly" in row.values:
            row.values["exactly"] = certificates.without_claim(row["exactly"])
    return Filled(replace(listing, parts=parts), rows)


def _had(book: Any, table: str, fields: "Sequence[Field]") -> "list[Field]":
    """The columns without those that a schedule of an earlier release has not."""
    return [one for one in fields if not one.optional or book.NamedRanges.hasByName(f"{table}_{one.key}")]


def _with_own(filled: Filled, own: "Sequence[OwnColumn]") -> Filled:
    """A list with those of the user's own columns that are of its table."""
    listing = filled.listing
    first, *others = listing.parts
    added = tuple(
        Field(column.key, column.title, format=column.format, width=OWN_WIDTH)
        for column in own
        if column.table == listing.table
    )
    parts = (replace(first, fields=(*first.fields, *added)), *others)
    return replace(filled, listing=replace(listing, parts=parts))


def _own_columns(book: Any) -> "Iterator[tuple[OwnColumn, Any]]":
    """The columns of the user's own in the tables that a supplier may get, and those to the right of them.

    One that holds nothing may be there for the supplier to fill in; not where the schedule itself has such
    columns, the heads of folded blocks and those that wait for the user.
    """
    for listing in (one for one in LISTS.values() if _is_there(book, one)):
        names = reading.cells(book, f"{listing.table}_name")
        sheet, area = names.Spreadsheet, names.RangeAddress
        named = {cells.RangeAddress.StartColumn for cells in reading.columns(book, listing.table)}
        for at in range(min(named), sheet.Columns.Count):
            if at in named:
                continue
            title = " ".join(sheet.getCellByPosition(at, area.StartRow - 1).String.split())
            if at > max(named) and not title:
                break
            cells = sheet.getCellRangeByPosition(at, area.StartRow, at, area.EndRow)
            if listing.table in FOLDED and all(held == "" for (held,) in cells.DataArray):
                continue
            title = title or f"column {sheet.Columns.getByIndex(at).Name}"
            yield OwnColumn(listing.table, title, _format(book, cells), f"own column {at}"), cells


def _format(book: Any, cells: Any) -> str:
    """The number format of a column of the user's own, so that a date stays one."""
    key = cells.getCellByPosition(0, 0).NumberFormat
    return str(book.NumberFormats.getByKey(key).FormatString)
