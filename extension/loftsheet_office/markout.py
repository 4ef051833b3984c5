"""Mark-out sheet: a stub's template, faces, plate and washer at 1:1, as a Draw document and its PDF.

It is drawn from the recalculated schedule. A cell it needs that is an error stops it; what the row's Check says
does not, for a stub may be tried in wood, but it stands on every page in a frame.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from types import SimpleNamespace
from typing import Any, Optional

from loftsheet import __version__, measure
from loftsheet.cautions import CAUTIONS

from . import book as schedule
from .drawing import MARGIN, OUTLINE, THIN, Drawing, Pen
from .refusal import Refusal
from .stub_parts import (
    TITLE_ROOM,
    Part,
    Stub,
    end_plate,
    fitted,
    from_the_side,
    sawn_face,
    square_end,
    tapered_washer,
    templates,
)

GAP = 4.0
FOOTER = 15.0
COLUMN = 120.0  # mm, width of a block of text
ROW_HEIGHT = 4.4
FROM_BOAT = ("pad", "plate", "thin", "flat")
MAY_BE_BLANK = ("wall", "wire_break")
WORDS = ("name", "check", "stay", "rope", "rod", "bolt")
NUMBERS = (
    ("number", "Number to make", "", 0),
    ("angle", "Stay leaves the mast face at", "°", 1),
    ("rope_size", "Rope", "mm", 1),
    ("sleeve_wall", "Sleeve, one wall", "mm", 1),
    ("eye", "Eye, laid flat", "mm", 0),
    ("rod_size", "Rod", "mm", 1),
    ("bevel", "Bevel, from square", "°", 1),
    ("top", "Top, the short side", "mm", 1),
    ("base", "Base, the long side", "mm", 1),
    ("face", "Height of the sawn face", "mm", 1),
    ("hole", "Hole below the top of the sawn face", "mm", 1),
    ("exit", "Hole comes out below the top of the square end", "mm", 1),
    ("bolt_hole", "Drill", "mm", 1),
    ("ligament", "Rod left above the bolt, at the mast", "mm", 1),
    ("ligament_end", "Rod left below the bolt, at the square end", "mm", 1),
    ("upright", "Load's point below the bolt", "mm", 1),
    ("rise", "End plate stands above the rod", "mm", 1),
    ("bolt_size", "Bolt", "mm", 1),
    ("bolt_length", "Bolt, whole length", "mm", 1),
    ("shank", "Bolt, plain shank", "mm", 1),
    ("grip", "Bolt inside the stub", "mm", 1),
    ("outside", "Bolt inside plate and washers", "mm", 1),
    ("washer", "Tapered washer, diameter", "mm", 1),
    ("wedge", "Tapered washer, thick edge", "mm", 1),
    ("mast_width", "Mast's width at the bolt", "mm", 1),
    ("wall", "Mast's wall", "mm", 1),
    ("saddle", "Hollow to fill behind the stub's edges", "mm", 1),
    ("load", "Working load of the stay", "kN", 1),
    ("bolt_capacity", "Tension at which the bolt is used up", "kN", 1),
    ("wire_break", "Break load of the wire replaced", "kN", 1),
)
STEPS = (
    "Print at 100 %, no scaling, and measure the bar on every page you cut from. Not 100 mm: print again.",
    "Saw the end of the rod square. Cut the template out along its outline and wrap it round the rod, print"
    " outside, straight edge on the square end, the dashed tab under the other end. Paper leaves a gap of about"
    " 0.3 mm there.",
    "Draw the curve on the rod, and the lines of the short and the long side along it.",
    "Clamp the rod in a V. Saw wet, outside the curve: the whole curve lies in the plane of the cut.",
    "Lay the sawn face on the bevelled end, UP at the short side. Punch the hole's centre and drill from there,"
    " square to the bevelled face. It must come out where the square end shows it; try that in wood first.",
    "Clamp the end plate on the square end and drill it together with the stub. Round all edges rope can touch.",
    "The thick edge of the tapered washer goes up. Key it.",
    "Put stub, plate, washers and eye together on the bolt on the ground; have it checked before it goes aloft.",
)


@dataclass(frozen=True)
class Sheet:
    """What stands around the drawings on every page."""

    title: str
    line: str
    check: str


def draw(desktop: Any, book: Any, name: str, folder: Path, paper: str = "A4") -> "tuple[Path, Path]":
    """Draw the mark-out sheet of the Tangs row with that name into the folder; return the drawing and its PDF."""
    stub, sheet = read(book, name)
    with Drawing(desktop, paper, landscape=True, title=sheet.title) as drawing:
        pen = drawing.page()
        width = drawing.width - 2 * MARGIN
        top = _heading_height(pen, sheet, width)
        height = drawing.height - 2 * MARGIN - top - FOOTER
        pages = list(_pages([*_parts(stub, width, height), *_words(pen)], width, height))
        for number, placed in enumerate(pages, 1):
            pen = pen if number == 1 else drawing.page()
            _frame(pen, sheet, width, drawing.height, f"page {number} of {len(pages)}")
            for part, x, y in placed:
                _draw_part(pen.at(MARGIN + x, MARGIN + top + y), part)
        odg, pdf = paths(book, name, Path(folder))
        drawing.save(odg, pdf)
    return odg, pdf


def paths(book: Any, name: str, folder: Path) -> "tuple[Path, Path]":
    """Where the drawing and its PDF go."""
    odg = folder / f"{schedule.file_name(book, 'mark-out', name)}.odg"
    return odg, odg.with_suffix(".pdf")


def read(book: Any, name: str) -> "tuple[Stub, Sheet]":
    """The stub and what is said about it, or a refusal that lists the cells to mend."""
    keys = tuple(dict.fromkeys((*WORDS, *(key for key, *_ in NUMBERS))))
    try:
        found = [pair for pair in schedule.each_row(book, "tangs", keys) if pair[0].get("name") == name]
        if len(found) != 1:
            many = f"{len(found)} rows of Tangs are" if found else "no row of Tangs is"
            raise Refusal(f"Nothing was drawn: {many} called {name}. Every stub needs a name of its own.")
        row, failed = found[0]
        if failed:
            raise schedule.Failed(f"{'; '.join(failed)}. The row's Check: {row.get('check')}")
        boat = {key: schedule.value(book, f"boat_{key}") for key in FROM_BOAT}
        heading = schedule.boat(book)
    except schedule.Missing as missing:
        raise Refusal(f"Nothing was drawn: {missing}.") from None
    except schedule.Failed as failed:
        raise Refusal(f"Nothing was drawn. Mend these cells first: {failed}.") from None
    values = {
        key: schedule.words(held) if key in WORDS else _number(key, held) for key, held in {**row, **boat}.items()
    }
    stub = SimpleNamespace(**values, boat=heading)
    check = "" if stub.check == "OK" else f"Check: {stub.check or 'blank'}. Read this before you saw."
    line = (
        f"For {stub.stay}; {stub.number:g} to make. Rope: {stub.rope}. Rod: {stub.rod}. Bolt: {stub.bolt}."
        f" {heading}. All sizes in mm."
    )
    return stub, Sheet(f"Mark-out sheet 1:1, {name}", line, check)


def _number(key: str, held: Any) -> "Optional[float]":
    if held is None and key in MAY_BE_BLANK:
        return None
    if held is None and key in FROM_BOAT:
        return 0.0  # as the functions take a blank thickness
    if isinstance(held, str) and key in FROM_BOAT:
        return float(measure.read_in(held, "mm"))
    if not isinstance(held, float):
        raise Refusal(f"Nothing was drawn: {key} of the row holds {held!r} where a number is due.")
    return held


def _parts(stub: Stub, width: float, height: float) -> "Iterator[Part]":
    yield from templates(stub, width)
    yield sawn_face(stub)
    yield square_end(stub)
    yield end_plate(stub)
    yield Part("Numbers", COLUMN, TITLE_ROOM + ROW_HEIGHT * len(NUMBERS), lambda pen: _numbers(pen, stub))
    yield from_the_side(stub)
    yield tapered_washer(stub)
    yield fitted(stub, height)


def _words(pen: Pen) -> "Iterator[Part]":
    """How to use the sheet, and the cautions."""
    for title, lines in (("How to use it", STEPS), ("Cautions", CAUTIONS)):
        numbered = title != "Cautions"
        words = [f"{at}. {line}" if numbered else line for at, line in enumerate(lines, 1)]
        heights = [pen.height(line, 8.5, COLUMN) + 1 for line in words]
        yield Part(title, COLUMN, TITLE_ROOM + sum(heights), lambda pen, words=words: _paragraphs(pen, words))


def _numbers(pen: Pen, stub: Stub) -> None:
    for row, (key, title, unit, digits) in enumerate(NUMBERS):
        held = getattr(stub, key)
        y = ROW_HEIGHT * (row + 0.5)
        pen.text((0, y), title, size=8.5)
        pen.text((COLUMN - 14, y), "-" if held is None else f"{held:.{digits}f}", size=8.5, align="right")
        pen.text((COLUMN - 12, y), unit, size=8.5)
        pen.line((0, y + ROW_HEIGHT / 2), (COLUMN, y + ROW_HEIGHT / 2), stroke=THIN)


def _paragraphs(pen: Pen, lines: "list[str]") -> None:
    y = 0.0
    for line in lines:
        y += pen.text((0, y), line, size=8.5, width=COLUMN) + 1


def _pages(parts: "list[Part]", width: float, height: float) -> "Iterator[list[tuple[Part, float, float]]]":
    """Parts page by page: beside the last one if there is room, else in a new row, else below the last one."""
    placed: list[tuple[Part, float, float]] = []
    row = 0.0
    for part in parts:
        if part.width > width or part.height > height:
            raise Refusal(
                f"Nothing was drawn: “{part.title}” takes {part.width:.0f} × {part.height:.0f} mm and the page has"
                f" {width:.0f} × {height:.0f} mm. Mark so large a stub by its numbers on Tangs."
            )
        right = max((left + one.width + GAP for one, left, top in placed if top >= row), default=0.0)
        bottom = max((top + one.height + GAP for one, _, top in placed), default=0.0)
        below = placed[-1][2] + placed[-1][0].height + GAP if placed else 0.0
        if right + part.width <= width and row + part.height <= height:
            place = (right, row)
        elif bottom + part.height <= height:
            place, row = (0.0, bottom), bottom
        elif part.width <= placed[-1][0].width and below + part.height <= height:
            place = (placed[-1][1], below)
        else:
            yield placed
            placed, place, row = [], (0.0, 0.0), 0.0
        placed.append((part, *place))
    yield placed


def _draw_part(pen: Pen, part: Part) -> None:
    pen.text((0, 2), part.title, size=10, bold=True)
    part.draw(pen.at(0, TITLE_ROOM))


def _heading_height(pen: Pen, sheet: Sheet, width: float) -> float:
    height = pen.height(sheet.title, 14, width - 30, bold=True) + pen.height(sheet.line, 9, width) + 3.5
    return height + (pen.height(sheet.check, 10, width - 4, bold=True) + 4 if sheet.check else 0)


def _frame(pen: Pen, sheet: Sheet, width: float, paper_height: float, page: str) -> None:
    """Heading and foot of a page."""
    head = pen.at(MARGIN, MARGIN)
    y = 0.5 + head.text((0, 0.5), sheet.title, size=14, bold=True, width=width - 30)
    head.text((width, 3), page, size=9, align="right")
    y += head.text((0, y), sheet.line, size=9, width=width)
    if sheet.check:
        tall = head.text((2, y + 2), sheet.check, size=10, bold=True, width=width - 4)
        head.polygon(
            (0.2, y + 1), (width - 0.2, y + 1), (width - 0.2, y + 3 + tall), (0.2, y + 3 + tall), stroke=OUTLINE
        )
    foot = pen.at(MARGIN, paper_height - MARGIN - FOOTER)
    foot.line((0, 1), (width, 1), stroke=THIN)
    foot.at(4, 8).bar("Measure this bar: 100 mm. Print at 100 %, no scaling.")
    foot.text((width, 7), f"Loftsheet {__version__}, drawn {date.today()}", align="right")
    foot.text((113, 12), CAUTIONS[0], size=8)
