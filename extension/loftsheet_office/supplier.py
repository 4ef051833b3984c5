"""What a supplier gets: values only, in a new .xlsx, from the recalculated schedule.

Order first; then the make-up list of the stays, the tang cutting list, and assumptions with cautions. No
formula, no link, nothing else of the workbook; a column of the user's own only where it was asked for. It is
refused while a cell it needs is an error or a control fails. A text that starts like a formula stays a text.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from textwrap import shorten
from typing import Any, Optional

from loftsheet import __version__, measure
from loftsheet.cautions import CAUTIONS

from . import book as schedule
from .desk import property_values
from .files import refuse_kept
from .place import Plan, Table
from .refusal import Refusal

FONT = "Liberation Sans"
METRIC, IMPERIAL = "metric", "inches and pounds"
ITEM, PRICE, LEAD = "Item", "Your price per unit", "Your lead time, days"


@dataclass(frozen=True)
class Field:
    """One column of an exported list: where it comes from, its heading, and its unit in the schedule.

    One that is newer than schedules still in use is left out where the schedule never had it.
    """

    key: str
    title: str
    unit: str = ""
    digits: int = 0
    width: int = 10
    format: str = ""
    newer: bool = False


@dataclass(frozen=True)
class Own:
    """A column that the user put into one of the tables, or beside it: its heading and its cells."""

    table: str
    title: str
    cells: Any


class Refused(Refusal):
    """The export would be wrong or short; the message lists why."""


ORDER = (
    Field("name", ITEM, width=32),
    Field("quantity", "Quantity"),
    Field("unit", "Unit", width=20),
    Field("longest", "Longest piece", "mm", 1),
    Field("exactly", "What exactly", width=40, newer=True),
    Field("", PRICE, width=16),
    Field("", LEAD, width=16),
    Field("note", "Note", width=36),
)
MAKE_UP = (
    Field("name", "Stay", width=30),
    Field("number", "Number"),
    Field("rope", "Rope", width=26),
    Field("span", "Throat to throat", "mm"),
    Field("pretension", "… under a tension of", "kN", 1),
    Field("upper_eye", "Upper eye, flat", "mm"),
    Field("lower_eye", "Lower eye, flat", "mm"),
    Field("bury", "Bury", "mm"),
    Field("taper", "of it tapered", "mm"),
    Field("sleeve", "Sleeve", width=24),
    Field("cut", "Rope to cut", "mm"),
)
TANGS = (
    Field("name", "Stub", width=30),
    Field("number", "Number"),
    Field("rod", "Rod", width=22),
    Field("rod_size", "Diameter", "mm", 1),
    Field("bevel", "Bevel", "°", 1),
    Field("top", "Short side, on top", "mm", 1),
    Field("base", "Long side, below", "mm", 1),
    Field("face", "Sawn face", "mm", 1),
    Field("hole", "Hole below top of sawn face", "mm", 1),
    Field("exit", "Comes out below top of square end", "mm", 1),
    Field("bolt_hole", "Drill", "mm", 1),
    Field("bolt", "Bolt", width=18),
    Field("bolt_length", "Bolt length", "mm", 1),
    Field("shank", "Plain shank", "mm", 1),
    Field("wedge", "Tapered washer, thick edge", "mm", 1),
)
ASSUMED = (
    ("rm30", "Righting moment at 30°", "kN·m"),
    ("margin", "Required margin of the rope", ""),
    ("splice", "Break load left by a splice", ""),
    ("ageing", "Break load left by ageing", ""),
    ("throat", "Throat angle, most", "°"),
    ("bury", "Bury", "rope diameters"),
    ("waste", "Waste at each end", "mm"),
    ("rope_waste", "Rope bought above need", ""),
)


CHECK, MEND = "_check", "mend "
FOLLOWS = f"{MEND}Boat first"  # which Boat says itself
LIBRARY = ("rope", "wire", "rod", "bolt", "sleeve", "ring", "share", "sundry")
CAUSES_FIRST = (*LIBRARY, "points", "stays", "tangs", "order")
MOST_LISTED, LONGEST = 8, 80
# What an .xlsx file cannot hold: more letters in a cell, and control characters.
LONGEST_TEXT, NO_LETTER = 32_767, "\ufffd"

LISTS = {"Order": ("order", ORDER), "Make-up list": ("stays", MAKE_UP), "Tang cutting list": ("tangs", TANGS)}


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
    workbook = _workbook(collect(book, lists, own), units)
    with TemporaryDirectory(dir=path.parent, prefix=".loftsheet-") as folder:
        unfinished = Path(folder) / path.name
        workbook.save(unfinished)
        files = [unfinished]
        if desktop:
            files.append(_as_pdf(desktop, unfinished))
        for file in files:
            file.replace(path.with_suffix(file.suffix))


def own_columns(plan: Plan) -> "list[Own]":
    """The columns of the user's own in the tables that a supplier may get, and those to the right of them."""
    wanted = [table for _, (key, _) in LISTS.items() for table in plan.tables if table.key == key]
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
    rows_to_mend = _rows_to_mend(book)
    try:
        controls = schedule.rows(book, "control", ("check",))
        lists = {title: _list_of(book, *LISTS[title], own) for title in LISTS if title in wanted}
        head = {
            key: schedule.value(book, f"boat_{key}") for key in ("name", "revision", "date", "currency", "note")
        }
        assumed = [(title, schedule.value(book, f"boat_{key}"), unit) for key, title, unit in ASSUMED]
        outside = schedule.value(book, "boat_outside")
    except schedule.Failed as failed:
        raise Refused(f"Nothing was written. {rows_to_mend}Cells that are errors: {failed}") from None
    wrong = [f"{row['name']}: {row['check']}" for row in controls if row["check"] != "OK"]
    if outside != "nothing":
        wrong.append(str(outside))
    if wrong:
        raise Refused(f"Nothing was written, for the order would be wrong. {rows_to_mend}{'; '.join(wrong)}")
    return {"lists": lists, "head": head, "assumed": assumed}


def _rows_to_mend(book: Any) -> str:
    """What the checks say first of rows that the order cannot count on; of many rows the first."""
    rows = [("Boat", check) for (check,) in schedule.cells(book, f"boat{CHECK}").DataArray]
    rows += [row for table in CAUSES_FIRST for row in _checks(book, table)]
    to_mend = [row for row in rows if row[1].startswith(MEND) and not row[1].startswith(FOLLOWS)]
    said = [f"{name or 'a row'}: {shorten(check.split('; ')[0], LONGEST)}" for name, check in to_mend]
    more = [f"and {len(said) - MOST_LISTED} more"] if len(said) > MOST_LISTED else []
    return f"{'; '.join([*said[:MOST_LISTED], *more])}. " if said else ""


def _checks(book: Any, table: str) -> "list[tuple[str, str]]":
    """The name and the check of each row; one that was deleted is as bad as one that speaks."""
    names, checks = (schedule.cells(book, f"{table}{part}").DataArray for part in ("_name", CHECK))
    rows = [(schedule.words(name), check) for (name,), (check,) in zip(names, checks)]
    return [(name, check or f"{MEND}this row: it has no check") for name, check in rows if name or check]


def _list_of(book: Any, table: str, fields: "tuple[Field, ...]", own: Sequence[Own]) -> "tuple[Any, Any]":
    """The fields of a list and its rows; what has the quantity zero is left out."""
    more = {f"own {at}": column for at, column in enumerate(own) if column.table == table}
    cells = {key: column.cells for key, column in more.items()}
    fields = tuple(one for one in fields if not one.newer or book.NamedRanges.hasByName(f"{table}_{one.key}"))
    rows = schedule.rows(book, table, _keys(fields), cells)
    added = [Field(key, column.title, format=_format(book, column), width=16) for key, column in more.items()]
    return (*fields, *added), [row for row in rows if row.get("quantity", 1) != 0]


def _format(book: Any, column: Own) -> str:
    """The number format of a column of the user's own, so that a date stays one."""
    key = column.cells.getCellByPosition(0, 0).NumberFormat
    return str(book.NumberFormats.getByKey(key).FormatString)


def _as_pdf(desktop: Any, workbook: Path) -> Path:
    """The very file that the supplier gets, as the office prints it."""
    path = workbook.with_suffix(".pdf")
    document = desktop.loadComponentFromURL(workbook.as_uri(), "_blank", 0, property_values(Hidden=True))
    try:
        document.storeToURL(path.as_uri(), property_values(FilterName="calc_pdf_Export"))
    finally:
        document.close(True)
    return path


def _keys(fields: "tuple[Field, ...]") -> "tuple[str, ...]":
    return tuple(field.key for field in fields if field.key)


def _workbook(content: "dict[str, Any]", units: str) -> Any:
    from openpyxl import Workbook

    workbook = Workbook()
    workbook.remove(workbook.active)
    for title, (fields, rows) in content["lists"].items():
        sheet = workbook.create_sheet(title)
        _heading(sheet, title, content["head"], units)
        _list(sheet, fields, rows, units)
        _page(sheet, content["head"])
    _assumptions(workbook.create_sheet("Assumptions and cautions"), content, units)
    return workbook


HEADER_ROW = 5


def _heading(sheet: Any, title: str, head: "dict[str, Any]", units: str) -> None:
    from openpyxl.styles import Font

    _put(sheet, 1, 1, f"{title} for {head['name'] or 'a boat without a name'}").font = Font(
        name=FONT, bold=True, size=14
    )
    revision = schedule.words(head["revision"]) or "-"
    _put(sheet, 2, 1, f"Revision {revision}, {_date(head['date'])}. Currency: {head['currency'] or '-'}.")
    _put(sheet, 3, 1, f"{units.capitalize()} units. Written by Loftsheet {__version__}. {head['note'] or ''}")


def _list(sheet: Any, fields: "tuple[Field, ...]", rows: "list[dict[str, Any]]", units: str) -> None:
    from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
    from openpyxl.utils import get_column_letter

    line = Side(style="thin", color="FF5B7083")
    for at, field in enumerate(fields, 1):
        cell = _put(sheet, HEADER_ROW, at, _title(field, units))
        cell.font, cell.fill = (
            Font(name=FONT, bold=True, color="FFFFFFFF"),
            PatternFill("solid", fgColor="FF22384F"),
        )
        cell.alignment = Alignment(wrap_text=True, horizontal="center", vertical="center")
        sheet.column_dimensions[get_column_letter(at)].width = field.width
        for down, row in enumerate(rows, HEADER_ROW + 1):
            cell = _put(sheet, down, at, _shown(row.get(field.key), field, units))
            cell.border = Border(line, line, line, line)
            cell.alignment = Alignment(wrap_text=True, vertical="top", indent=int(isinstance(cell.value, str)))
            if isinstance(cell.value, float) and field.unit:
                cell.number_format = "0." + "0" * field.digits if field.digits else "0"
            elif isinstance(cell.value, float) and field.format:
                cell.number_format = field.format
    sheet.row_dimensions[HEADER_ROW].height = 52
    sheet.freeze_panes = sheet.cell(HEADER_ROW + 1, 2)


def _title(field: Field, units: str) -> str:
    unit = {"mm": "in", "kN": "lbf"}.get(field.unit, field.unit) if units == IMPERIAL else field.unit
    return f"{field.title}, {unit}" if unit else field.title


def _shown(value: Any, field: Field, units: str) -> Any:
    """A value as the supplier reads it: rounded to what the list promises, or in inches and pounds."""
    if not isinstance(value, float):
        return value
    if units == IMPERIAL and field.unit == "mm":
        return measure.show(value, "in", 32)
    if units == IMPERIAL and field.unit == "kN":
        return f"{round(float(measure.show(value, 'lbf').split()[0]))} lbf"
    return round(value, field.digits) if field.unit else value


def _page(sheet: Any, head: "dict[str, Any]") -> None:
    sheet.page_setup.orientation, sheet.page_setup.paperSize = "landscape", sheet.PAPERSIZE_A4
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.print_title_rows = f"{HEADER_ROW}:{HEADER_ROW}"
    name = _letters(str(head["name"] or "")).replace("&", "&&")
    sheet.oddFooter.left.text, sheet.oddFooter.right.text = f"{name}, &A", "page &P of &N"


def _assumptions(sheet: Any, content: "dict[str, Any]", units: str) -> None:
    from openpyxl.styles import Alignment, Font

    _heading(sheet, "Assumptions and cautions", content["head"], units)
    row = HEADER_ROW
    for title, value, unit in content["assumed"]:
        _put(sheet, row, 1, title)
        _put(sheet, row, 2, value)
        _put(sheet, row, 3, unit)
        row += 1
    for line in CAUTIONS:
        row += 1
        cell = _put(sheet, row, 1, line)
        sheet.merge_cells(start_row=row, start_column=1, end_row=row, end_column=4)
        cell.alignment = Alignment(wrap_text=True, vertical="top")
        sheet.row_dimensions[row].height = 30
    _put(sheet, HEADER_ROW - 1, 1, "Assumed").font = Font(name=FONT, bold=True)
    for letter, width in zip("ABCD", (34, 12, 16, 40)):
        sheet.column_dimensions[letter].width = width
    _page(sheet, content["head"])


def _put(sheet: Any, row: int, column: int, value: Any) -> Any:
    """Put a value into a cell; a text stays a text whatever it starts with, and nothing of it is cut off."""
    from openpyxl.styles import Font

    if isinstance(value, str) and len(value) > LONGEST_TEXT:
        raise Refused(
            f'Nothing was written: the text "{value[:LONGEST]}…" has {len(value)} letters, '
            f"and a cell of the file holds {LONGEST_TEXT}. Shorten it."
        )
    cell = sheet.cell(row, column)
    cell.value = _letters(value) if isinstance(value, str) else value
    cell.font = Font(name=FONT, size=10)
    if isinstance(value, str):
        cell.data_type = "s"
        cell.quotePrefix = value[:1] in tuple("=+-@\t\r")
    return cell


def _letters(text: str) -> str:
    """A text with a visible sign in place of each control character."""
    from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE

    return str(ILLEGAL_CHARACTERS_RE.sub(NO_LETTER, text))


def _date(value: Optional[Any]) -> str:
    """A day number of the office as a date."""
    from datetime import date, timedelta

    return (date(1899, 12, 30) + timedelta(days=int(value))).isoformat() if isinstance(value, float) else "no date"
