"""The supplier's .xlsx as such: sheets, tables and words, set so that they fill a page and can be read on it.

A list of two tables has both on one sheet while they fit on one page; a longer one has a sheet for each, so that
the headings of a table are repeated on its pages. Row heights are written, for the office finds none by itself in
a file that is not its own. A text that starts like a formula stays a text.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil
from typing import Any, Optional

from loftsheet import __version__, measure
from loftsheet.cautions import CAUTIONS

from ..common.end_plate import KEEPER_HOLE
from ..common.refusal import Refusal
from ..workbook import reading
from ..workbook.reading import Row, Value
from . import rope_facts
from .content import Content, Filled, Head
from .lists import ASSUMED, IMPERIAL, METRIC, NAMED, STATED, Field, Part

FONT, TEXT, TITLE = "Liberation Sans", 9, 14  # points
DARK, EDGE = "FF22384F", "FF5B7083"
FIRST_HEADER = 5
NO_CERTIFICATE = "No certificate stands behind these figures:"
# What an .xlsx file cannot hold: more letters in a cell, control characters, higher rows (points).
LONGEST_TEXT, NO_LETTER, LONGEST_SHOWN = 32_767, "\ufffd", 80
TALLEST = 400.0
UNITS = {METRIC: "Metric units", IMPERIAL: "Inches and pounds"}
A_LENGTH = Field("", unit="mm", digits=1)
NEWTONS_PER_KILOGRAM = 9.80665
POUNDS = {"mm": "in", "kN": "lbf", "kN·m": "ft·lbf"}


@dataclass(frozen=True)
class Paper:
    """A page across: its number in an .xlsx, and what is printed at full size on it.

    The width is in digits of the plain font, the height in points.
    """

    number: str
    width: float
    height: float


PAGES = {"A4": Paper("9", 141.0, 515.0), "Letter": Paper("1", 132.0, 532.0)}
LEAST_SCALE = 0.79  # 9 points stay above 7
LINE, PADDING = 10.6, 2.4  # points
MARGIN, FOOT = 0.4, 0.7  # inches
# How wide letters are, in digits of the plain font, and what else takes room in a cell; rather too much.
NARROW, WIDE = frozenset("fijlrtI.,:;'|!()[]/ -"), frozenset("mwMW%@—…")
BOLD, INDENT, BORDERS = 1.08, 2.0, 0.6


def workbook(content: Content, units: str, paper: str = "A4") -> Any:
    """The file as openpyxl holds it, not yet saved."""
    from openpyxl import Workbook
    from openpyxl.styles import Font

    page = PAGES[paper]
    book = Workbook()
    book.remove(book.active)
    book._named_styles["Normal"].font = Font(name=FONT, size=10)
    _properties(book, content.head)
    for title, filled in content.lists.items():
        sheet = _list(book, title, filled, content, units, page)
        parts = filled.listing.parts
        if len(parts) > 1 and not _fits_on_a_page(sheet, page):
            book.remove(sheet)
            for number, part in enumerate(parts, 1):
                name = title if number == 1 else f"{title} {number}"
                alone = replace(filled, listing=replace(filled.listing, parts=(part,)))
                _list(book, name, alone, content, units, page)
    _assumptions(book.create_sheet("Assumptions and cautions"), content, units, page)
    return book


def _properties(book: Any, head: Head) -> None:
    """Title and author are the boat's: the library that writes the file would put its own name there."""
    boat = _printable(head.boat)
    properties = book.properties
    properties.title = f"Order for {boat}, revision {_printable(head.revision) or '-'}"
    properties.creator = properties.lastModifiedBy = boat
    properties.description = f"Written by Loftsheet {__version__}."


def _list(book: Any, name: str, filled: Filled, content: Content, units: str, page: Paper) -> Any:
    """A sheet with the tables of a list one below the other, and below them what is the same for all rows."""
    sheet = book.create_sheet(name)
    parts, rows = filled.listing.parts, filled.rows
    widths = _widths(parts, page)
    _set_widths(sheet, widths)
    first = not book.worksheets[:-1]
    _heading(sheet, name, content.head, widths, units, _first_lines(content) if first else ())
    at = FIRST_HEADER - 1
    for part in parts:
        _titled(sheet, at, part.title, _filled_in(part.text, content.boat, units), widths)
        _table(sheet, at + 1, part, rows, widths, units)
        at += len(rows) + 3
        sheet.row_dimensions[at - 1].height = LINE
    facts = list(_facts(filled, content.boat, units))
    if filled.listing.table == "order" and content.fixings:
        facts.append(("Bolts, nuts, washers", _fixings(content, units)))
    if filled.listing.table in ("stays", "chainplates"):
        facts.append(("Ropes", _ropes(filled, content, units)))
    for title, text in facts:
        _titled(sheet, at, title, text, widths)
        at += 1
    _page(sheet, content.head, len(parts), page)
    return sheet


def _heading(
    sheet: Any,
    title: str,
    head: Head,
    widths: "Sequence[float]",
    units: str,
    more: "Sequence[str]" = (),
) -> None:
    from openpyxl.styles import Font

    _put(sheet, 1, 1, f"{title} for {head.boat}").font = Font(name=FONT, bold=True, size=TITLE)
    sheet.row_dimensions[1].height = 1.5 * TITLE
    revised = f"Revision {head.revision or '-'}, {_date(head.date)}. {STATED} {head.currency or '-'}."
    _across(sheet, 2, 1, "\n".join([f"{revised} {_asked(head)}".rstrip(), *more]), widths)
    written = f"{UNITS[units]}. Written by Loftsheet {__version__}. {head.note}".rstrip()
    _across(sheet, 3, 1, written, widths)


def _asked(head: Head) -> str:
    """Whom to ask, when it is wanted and where it goes."""
    wanted = _date(head.wanted) if isinstance(head.wanted, float) else reading.as_text(head.wanted)
    given = {"Questions to": head.contact, "Wanted by": wanted, "Deliver to": head.delivery}
    return " ".join(f"{title}: {' '.join(value.split()).rstrip('.')}." for title, value in given.items() if value)


def _first_lines(content: Content) -> "list[str]":
    """What stands on the first page, before any list."""
    figures = "; ".join(one.text() for one in content.unproven)
    unproven = [f"{NO_CERTIFICATE} {figures}. Quote what you can certify and send its certificate."]
    return [*(unproven if figures else []), f"Cautions: {' '.join(CAUTIONS)}"]


def _table(
    sheet: Any,
    header: int,
    part: Part,
    rows: "Sequence[Row]",
    widths: "Sequence[float]",
    units: str,
) -> None:
    titles = [heading(field, units) for field in part.fields]
    for at, title in enumerate(titles, 1):
        _as_heading(_put(sheet, header, at, title))
    sheet.row_dimensions[header].height = _height(zip(titles, (width - BORDERS for width in widths)), BOLD)
    for down, row in enumerate(rows, header + 1):
        values = [shown(row.get(field.key), field, units) for field in part.fields]
        for at, (value, field) in enumerate(zip(values, part.fields), 1):
            _as_value(_put(sheet, down, at, value), field)
        texts = (
            (reading.as_text(value), width - (BORDERS if field.unit else INDENT))
            for value, field, width in zip(values, part.fields, widths)
        )
        sheet.row_dimensions[down].height = _height(texts)


def _as_heading(cell: Any) -> None:
    from openpyxl.styles import Alignment, Font, PatternFill

    cell.font = Font(name=FONT, size=TEXT, bold=True, color="FFFFFFFF")
    cell.fill = PatternFill("solid", fgColor=DARK)
    cell.alignment = Alignment(wrap_text=True, horizontal="center", vertical="center")


def _as_value(cell: Any, field: Field) -> None:
    from openpyxl.styles import Alignment, Border, Side

    line = Side(style="thin", color=EDGE)
    cell.border = Border(line, line, line, line)
    left = isinstance(cell.value, str) and not field.unit
    cell.alignment = Alignment(
        wrap_text=True, vertical="top", horizontal="left" if left else "center", indent=int(left)
    )
    if isinstance(cell.value, float):
        cell.number_format = field.format or _places(field)


def heading(field: Field, units: str) -> str:
    """The heading of a column with its unit."""
    unit = unit_of(field, units)
    return f"{field.title}, {unit}" if unit else field.title


def unit_of(field: Field, units: str) -> str:
    return POUNDS.get(field.unit, field.unit) if units == IMPERIAL else field.unit


def _places(field: Field) -> str:
    if not field.unit or field.digits is None:
        return "General"
    return "#,##0." + "0" * field.digits if field.digits else "#,##0"


def shown(value: Any, field: Field, units: str) -> Any:
    """A value as the supplier reads it: rounded to what the list promises, or in inches and pounds."""
    if value is None:
        return field.blank or None
    if not isinstance(value, float):
        return value
    unit = unit_of(field, units)
    if unit != field.unit:
        return _imperial(value, field, unit)
    share = 100 if field.unit == "%" else 1
    return value if field.digits is None else round(share * value, field.digits)


def _imperial(value: float, field: Field, unit: str) -> str:
    """What is promised to a tenth of a millimetre in thousandths of an inch, other lengths to a thirty-second."""
    if unit == "in" and not field.digits:
        return measure.show(value, unit, 32)
    number = float(measure.show(value, unit).split()[0])
    return f"{number:.3f} {unit}" if unit == "in" else f"{round(number)} {unit}"


def _facts(filled: Filled, boat: "dict[str, Value]", units: str) -> "Iterator[tuple[str, str]]":
    """The texts below a list, with the values of Boat in them."""
    keys = {
        *(field.key for field in filled.listing.fields),
        *(key for key, value in boat.items() if value is not None),
    }
    for fact in filled.listing.facts:
        if not fact.needs or fact.needs in keys:
            text = _filled_in(fact.text, boat, units)
            yield fact.title, text[:1].upper() + text[1:]


def _filled_in(text: str, boat: "dict[str, Value]", units: str) -> str:
    """A text of a list with the values of Boat that it names."""
    named = {field.key: _with_unit(boat[field.key], field, units) for field in NAMED}
    return text.format(**named, keeper_hole=_with_unit(KEEPER_HOLE, A_LENGTH, units))


def _fixings(content: Content, units: str) -> str:
    """A line for each size of bolt: what belongs to it."""

    def length(mm: float) -> str:
        return _with_unit(mm, A_LENGTH, units)

    return "\n".join(one.text(content.boat, length) for one in content.fixings)


def _ropes(filled: Filled, content: Content, units: str) -> str:
    """A line for each rope: under what it is measured, and by which trial its lengths are."""

    def force(kilonewtons: float) -> str:
        held = shown(kilonewtons, Field("", unit="kN", digits=2), units)
        weight = f" ({kilonewtons * 1000 / NEWTONS_PER_KILOGRAM:.0f} kg hung on)" if units == METRIC else ""
        return (f"{held:g} kN" if isinstance(held, float) else str(held)) + weight

    return "\n".join(rope_facts.lines(filled.rows, content.ropes, force))


def _with_unit(value: Value, field: Field, units: str) -> str:
    held = shown(value, field, units)
    if not isinstance(held, float):
        return str(held if held is not None else "not given").rstrip(". ")
    return f"{held:g} {field.unit}".strip()


def _titled(sheet: Any, row: int, title: str, text: str, widths: "Sequence[float]") -> None:
    """A title and, beside it over the whole width, its text."""
    from openpyxl.styles import Alignment, Font

    cell = _put(sheet, row, 1, title)
    cell.font = Font(name=FONT, size=TEXT, bold=True)
    cell.alignment = Alignment(wrap_text=True, vertical="top")
    _across(sheet, row, 2, text, widths)


def _across(sheet: Any, row: int, first: int, text: str, widths: "Sequence[float]") -> None:
    """A text over all columns from the first one on."""
    from openpyxl.styles import Alignment

    _put(sheet, row, first, text).alignment = Alignment(wrap_text=True, vertical="top")
    sheet.merge_cells(start_row=row, start_column=first, end_row=row, end_column=len(widths))
    sheet.row_dimensions[row].height = _height([(text, sum(widths[first - 1 :]))])


def _height(texts: "Iterable[tuple[str, float]]", stretch: float = 1.0) -> float:
    """The height of a row that holds texts in columns of those widths."""
    lines = max(_lines(text, width / stretch) for text, width in texts)
    return min(TALLEST, LINE * lines + PADDING)


def _lines(text: str, width: float) -> int:
    """How many lines a text takes, broken between words and, where a word is too long, inside it."""
    lines = 0
    for paragraph in text.split("\n"):
        filled = width
        for word in paragraph.split(" "):
            length = sum(map(_digits, word))
            if filled + length > width:
                lines += max(1, ceil(length / width))
                filled = length % width if length > width else length
            else:
                filled += length
            filled += _digits(" ")
    return lines


def _digits(letter: str) -> float:
    if letter in NARROW:
        return 0.5
    if letter in WIDE or letter > "\u2e7f":
        return 1.45
    return 1.2 if letter.isupper() else 0.92


def _widths(parts: "tuple[Part, ...]", page: Paper) -> "list[float]":
    """The width of each column: tables below each other share it; they are wide enough to fill a page."""
    count = max(len(part.fields) for part in parts)
    widest = [max(part.fields[at].width for part in parts if at < len(part.fields)) for at in range(count)]
    return [width * max(1.0, page.width / sum(widest)) for width in widest]


def _set_widths(sheet: Any, widths: "Sequence[float]") -> None:
    from openpyxl.utils import get_column_letter

    for at, width in enumerate(widths, 1):
        sheet.column_dimensions[get_column_letter(at)].width = width


def _fits_on_a_page(sheet: Any, page: Paper) -> bool:
    """Whether all of a sheet has room on one page without getting too small."""
    height = sum(dimension.height for dimension in sheet.row_dimensions.values())
    return height <= page.height / LEAST_SCALE and _width(sheet) <= page.width / LEAST_SCALE


def _width(sheet: Any) -> float:
    return sum(float(dimension.width) for dimension in sheet.column_dimensions.values())


def _pages_wide(sheet: Any, page: Paper) -> int:
    """Over how many pages a table goes: each has the names again, and may leave room that no column fits into."""
    names, *others = (float(dimension.width) for dimension in sheet.column_dimensions.values())
    least = LEAST_SCALE * _width(sheet)
    return 1 + max(0, ceil((least - page.width - 1) / (page.width - names - max(others))))


def _page(sheet: Any, head: Head, tables: int, page: Paper) -> None:
    """One page wide; a table that is much too wide goes over two or more, with its names on each."""
    setup = sheet.page_setup
    setup.orientation, setup.paperSize = "landscape", page.number
    setup.fitToWidth = _pages_wide(sheet, page)
    setup.fitToHeight = int(tables > 1 or _fits_on_a_page(sheet, page))
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.print_options.horizontalCentered = True
    margins = sheet.page_margins
    margins.left = margins.right = margins.top = MARGIN
    margins.bottom, margins.footer = FOOT, MARGIN
    if tables == 1:
        sheet.print_title_rows, sheet.print_title_cols = f"{FIRST_HEADER}:{FIRST_HEADER}", "A:A"
        sheet.freeze_panes = sheet.cell(FIRST_HEADER + 1, 2)
    name = _printable(head.name).replace("&", "&&")
    sheet.oddFooter.left.text, sheet.oddFooter.right.text = f"{name}, &A", "page &P of &N"


def _assumptions(sheet: Any, content: Content, units: str, page: Paper) -> None:
    from openpyxl.styles import Alignment, Font

    widths = (34.0, 12.0, 16.0, page.width - 62)
    _heading(sheet, "Assumptions and cautions", content.head, widths, units)
    _set_widths(sheet, widths)
    row = FIRST_HEADER
    for field in ASSUMED:
        value = shown(content.boat[field.key], field, units)
        _put(sheet, row, 1, field.title)
        cell = _put(sheet, row, 2, value)
        cell.number_format, cell.alignment = _places(field), Alignment(horizontal="right")
        _put(sheet, row, 3, unit_of(field, units) if isinstance(value, float) else "")
        row += 1
    for line in CAUTIONS:
        row += 1
        _across(sheet, row, 1, line, widths)
    _put(sheet, FIRST_HEADER - 1, 1, "Assumed").font = Font(name=FONT, size=TEXT, bold=True)
    _page(sheet, content.head, 0, page)


def _put(sheet: Any, row: int, column: int, value: Any) -> Any:
    """Put a value into a cell; a text stays a text whatever it starts with, and nothing of it is cut off."""
    from openpyxl.styles import Font

    if isinstance(value, str) and len(value) > LONGEST_TEXT:
        raise Refusal(
            f'Nothing was written: the text "{value[:LONGEST_SHOWN]}…" has {len(value)} letters, '
            f"and a cell of the file holds {LONGEST_TEXT}. Shorten it."
        )
    cell = sheet.cell(row, column)
    cell.value = _printable(value) if isinstance(value, str) else value
    cell.font = Font(name=FONT, size=TEXT)
    if isinstance(value, str):
        cell.data_type = "s"
        cell.quotePrefix = value[:1] in tuple("=+-@\t\r")
    return cell


def _printable(text: str) -> str:
    """A text with a visible sign in place of each control character."""
    from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE

    return str(ILLEGAL_CHARACTERS_RE.sub(NO_LETTER, text))


def _date(value: Optional[Any]) -> str:
    """A day number of the office as a date."""
    return reading.day_of(value).isoformat() if isinstance(value, float) else "no date"
