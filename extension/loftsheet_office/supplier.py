"""What a supplier gets: values only, in a new .xlsx, from the recalculated schedule.

Order first; then the make-up list of the stays, the tang cutting list, and assumptions with cautions. No
formula, no link, nothing else of the workbook; a column of the user's own only where it was asked for. It is
refused while a cell it needs is an error or a control fails. `supplier_lists` says what stands in the lists,
`supplier_file` how they are written.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory
from textwrap import shorten
from typing import Any

from . import book as schedule
from .complaints import FOUND, OK, URGENT, complaints
from .desk import property_values
from .files import put_in_place, refuse_kept
from .place import Plan, Table
from .supplier_file import Refused, workbook
from .supplier_lists import ASSUMED, IMPERIAL, ITEM, LEAD, LISTS, METRIC, NAMED, PRICE, Field, Listing

__all__ = (
    "IMPERIAL",
    "ITEM",
    "LEAD",
    "LISTS",
    "METRIC",
    "PRICE",
    "Own",
    "Refused",
    "collect",
    "export",
    "own_columns",
)


@dataclass(frozen=True)
class Own:
    """A column that the user put into one of the tables, or beside it: its heading and its cells."""

    table: str
    title: str
    cells: Any


LIBRARY = ("rope", "wire", "rod", "bolt", "sleeve", "ring", "share", "sundry")
CAUSES_FIRST = (*LIBRARY, "masts", "points", "stays", "tangs", "order")
NEWER = ("masts",)  # tables that schedules from before them lack
MOST_LISTED, LONGEST = 8, 80
OWN_WIDTH = 16


def export(
    book: Any,
    path: Path,
    units: str = METRIC,
    lists: Sequence[str] = tuple(LISTS),
    own: Sequence[Own] = (),
    desktop: Any = None,
) -> None:
    """Write the supplier's file from a recalculated schedule, with the office's desktop as a PDF too.

    Both are written beside their places and renamed when they are there.
    """
    for ending in (path.suffix, ".pdf") if desktop else (path.suffix,):
        refuse_kept(path.with_suffix(ending))
    file = workbook(collect(book, lists, own), units)
    with TemporaryDirectory(dir=path.parent, prefix=".loftsheet-") as folder:
        unfinished = Path(folder) / path.name
        file.save(unfinished)
        files = [unfinished]
        if desktop:
            files.append(_as_pdf(desktop, unfinished))
        put_in_place([(written, path.with_suffix(written.suffix)) for written in files])


def own_columns(plan: Plan) -> "list[Own]":
    """The columns of the user's own in the tables that a supplier may get, and those to the right of them."""
    wanted = [table for one in LISTS.values() for table in plan.tables if table.key == one.table]
    return [column for table in wanted for column in _own(table)]


def _own(table: Table) -> "list[Own]":
    taken = {cells.RangeAddress.StartColumn for cells in table.columns.values()}
    area, found = table.area, []
    for at in range(area.StartColumn, table.sheet.Columns.Count):
        if at in taken:
            continue
        title = " ".join(table.sheet.getCellByPosition(at, area.StartRow - 1).String.split())
        if at > area.EndColumn and not title:
            break
        cells = table.sheet.getCellRangeByPosition(at, area.StartRow, at, area.EndRow)
        found.append(Own(table.key, title or f"column {table.sheet.Columns.getByIndex(at).Name}", cells))
    return found


def collect(book: Any, wanted: Sequence[str] = tuple(LISTS), own: Sequence[Own] = ()) -> "dict[str, Any]":
    """Read all that the export needs, or refuse with the list of what is wrong."""
    rows_to_fix = _rows_to_fix(book)
    try:
        controls = schedule.rows(book, "control", ("check",))
        lists = {title: _list_of(book, LISTS[title], own) for title in LISTS if title in wanted}
        head = {
            key: schedule.value(book, f"boat_{key}") for key in ("name", "revision", "date", "currency", "note")
        }
        boat = {field.key: schedule.value(book, f"boat_{field.key}") for field in (*NAMED, *ASSUMED)}
        outside = schedule.value(book, "boat_outside")
    except schedule.Failed as failed:
        raise Refused(f"Nothing was written. {rows_to_fix}Cells that are errors: {failed}") from None
    wrong = [f"{row['name']}: {row['check']}" for row in controls if row["check"] != OK]
    if outside != "nothing":
        wrong.append(str(outside))
    if wrong:
        raise Refused(f"Nothing was written, for the order would be wrong. {rows_to_fix}{'; '.join(wrong)}")
    return {"lists": lists, "head": head, "boat": boat}


def _rows_to_fix(book: Any) -> str:
    """What is said first of rows that the order cannot count on or is not to; of many rows the first."""
    said = [f"{name or 'a row'}: {shorten(words, LONGEST)}" for name, words in _urgent(book)]
    more = [f"and {len(said) - MOST_LISTED} more"] if len(said) > MOST_LISTED else []
    return f"{'; '.join([*said[:MOST_LISTED], *more])}. " if said else ""


def _urgent(book: Any) -> "Iterator[tuple[str, str]]":
    """Each row with which nothing is ordered, and the first that says so; a check that was deleted is as bad."""
    for table in ("boat", *CAUSES_FIRST):
        if table in NEWER and not book.NamedRanges.hasByName(f"{table}_name"):
            continue
        checks = schedule.texts(book, f"{table}_check")
        names = ["Boat"] * len(checks) if table == "boat" else schedule.texts(book, f"{table}_name")
        coded = book.NamedRanges.hasByName(f"{table}_{FOUND}")
        found = schedule.texts(book, f"{table}_{FOUND}") if coded else [""] * len(checks)
        for name, check, codes in zip(names, checks, found):
            worst = next((one.words for one in complaints(codes) if one.severity in URGENT), "")
            if worst:
                yield name, worst
            elif table != "boat" and name and not check:
                yield name, "this row has no check"
            elif table != "boat" and not coded and check not in ("", OK):
                yield name, check  # a schedule from before there were codes


def _list_of(book: Any, listing: Listing, own: Sequence[Own]) -> "tuple[Listing, list[dict[str, Any]]]":
    """A list, the user's own columns with it, and its rows; what has the quantity zero is left out."""
    more = {f"own {at}": column for at, column in enumerate(own) if column.table == listing.table}
    cells = {key: column.cells for key, column in more.items()}
    parts = [replace(part, fields=tuple(_there(book, listing.table, part.fields))) for part in listing.parts]
    keys = tuple(field.key for part in parts for field in part.fields if field.key)
    rows = schedule.rows(book, listing.table, keys, cells)
    added = (
        Field(key, column.title, format=_format(book, column), width=OWN_WIDTH) for key, column in more.items()
    )
    parts[0] = replace(parts[0], fields=(*parts[0].fields, *added))
    return replace(listing, parts=tuple(parts)), [row for row in rows if row.get("quantity", 1) != 0]


def _there(book: Any, table: str, fields: "Sequence[Field]") -> "list[Field]":
    """The columns without those that this schedule is too old to have."""
    return [one for one in fields if not one.newer or book.NamedRanges.hasByName(f"{table}_{one.key}")]


def _format(book: Any, column: Own) -> str:
    """The number format of a column of the user's own, so that a date stays one."""
    key = column.cells.getCellByPosition(0, 0).NumberFormat
    return str(book.NumberFormats.getByKey(key).FormatString)


def _as_pdf(desktop: Any, workbook: Path) -> Path:
    """The very file that the supplier gets, as the office prints it."""
    path = workbook.with_suffix(".pdf")
    document = desktop.loadComponentFromURL(workbook.as_uri(), "_blank", 0, property_values(Hidden=True))
    if document is None:
        raise Refused("Nothing was written: the office cannot open the supplier's file to make a PDF of it.")
    try:
        document.storeToURL(path.as_uri(), property_values(FilterName="calc_pdf_Export"))
    finally:
        document.close(True)
    return path
