"""Mark-out sheet: a stub's template, faces, plate and washer at 1:1, as a Draw document and its PDF.

It is drawn from the recalculated schedule. A cell it needs that is an error stops it; what the row's Check says
does not, for a stub may be tried in wood, but it stands on every page in a frame.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

from loftsheet import __version__
from loftsheet.cautions import ALOFT, CAUTIONS

from ..common.refusal import Refusal
from ..workbook.reading import file_name
from . import cutting_files, mark_out_numbers
from .canvas import MARGIN, OUTLINE, THIN, Drawing, Pen
from .page_layout import shortened
from .stub import Stub
from .stub_parts import (
    TITLE_ROOM,
    Part,
    bevelled_face,
    end_plate,
    fitted,
    from_the_side,
    hole_range,
    mm,
    square_end,
    tapered_washer,
    templates,
    turning,
)

GAP = 4.0
FOOTER = 15.0
COLUMN = 120.0  # mm, width of a block of text
READING = 9.5  # points


def steps(stub: Stub) -> "tuple[str, ...]":
    """How to use the sheet, in the order of the work."""
    words = turning(stub)
    outside = cutting_files.outer_exit(stub)
    return (
        "Print at 100 %, no scaling, and measure the bar on every page you cut from. Not 100 mm: print again.",
        "Saw the end of the rod square. Cut the template out along its outline and wrap it round the rod, print"
        " outside, straight edge on the square end, the dashed tab under the other end. Paper leaves a gap of"
        " about 0.3 mm there.",
        "Draw the curve on the rod, and the lines of the short and the long side along it.",
        "Clamp the rod in a V. Saw wet, on the side of the curve that is away from the square end, and file down"
        " to the curve: all of it lies in one plane. Keep the wedge that is cut off when the rest of the rod is"
        " sawn square: its angle is the bevel.",
        "Cut out the picture of the bevelled face and glue it on the bevelled end, UP at the short side. Cut the"
        " end plate by its picture.",
        "Glue or tape the plate on the square end: below and at the sides flush with the rod, above it standing"
        " out at the short side. Then clamp both in a V, so that they are drilled together.",
        "Bring the bevelled face level under the drill: tilt the vice by the bevel, or stand stub and plate on the"
        " wedge, its thick side under the short side.",
        f"Punch the hole's centre through the picture, {mm(stub.hole)} below the top of the bevelled face"
        f" ({hole_range(stub)}). Drill wet, square to that face, through stub and plate. It must come out"
        f" {mm(stub.exit)} below the top of the square end, which is {mm(outside)} on the outside of the plate."
        " Try all this in wood first.",
        "Round all edges that rope can touch.",
        "Put the tapered washer on the plate, thick edge up, and lock the two together: a pin of 3 mm or a dab of"
        " epoxy into plate and washer (common practice, no source). Loose, it is turned by the nut.",
        "Put stub, plate, washers, nut and eye together on the bolt on the ground, barrier paste wherever steel"
        f" meets aluminium{'; the inner eye first' if stub.stay_2 else ''}; have it checked before it goes aloft.",
        f"Keeper line: through the small hole and round the crown of {'each' if stub.stay_2 else 'the'} eye, tied"
        " loosely, so that a slack eye cannot climb over the plate (common practice, no source).",
        *([words] if words else []),
    )


@dataclass(frozen=True)
class Frame:
    """What stands around the drawings on every page."""

    title: str
    line: str
    check: str


def draw(desktop: Any, stub: Stub, folder: Path, paper: str = "A4", to_cut: bool = False) -> "tuple[Path, Path]":
    """Draw the mark-out sheet of a stub into the folder; return the drawing and its PDF.

    With what a shop cuts from beside it, if asked for.
    """
    frame = _frame_of(stub)
    with Drawing(desktop, paper, landscape=True, title=frame.title, boat=stub.boat_name) as drawing:
        pen = drawing.page()
        width = drawing.width - 2 * MARGIN
        top = _heading_height(pen, frame, width)
        height = drawing.height - 2 * MARGIN - top - FOOTER
        pages = list(_pages([*_parts(stub, width, height), *_words(pen, stub)], width, height))
        for number, placed in enumerate(pages, 1):
            pen = pen if number == 1 else drawing.page()
            _frame(pen, frame, width, drawing.height, f"page {number} of {len(pages)}")
            for part, x, y in placed:
                _draw_part(pen.at(MARGIN + x, MARGIN + top + y), part)
        odg, pdf = paths(stub, folder)
        drawing.save(odg, pdf, texts=cutting(stub, folder) if to_cut else None)
    return odg, pdf


def paths(stub: Stub, folder: Path) -> "tuple[Path, Path]":
    """Where the drawing and its PDF go."""
    odg = folder / f"{file_name('mark-out', stub.boat_name, stub.name)}.odg"
    return odg, odg.with_suffix(".pdf")


def cutting(stub: Stub, folder: Path) -> "dict[Path, str]":
    """What a shop cuts from, by where it goes."""
    drawn = {"end-plate": cutting_files.end_plate(stub), "cutting-template": cutting_files.wrap_template(stub)}
    return {folder / f"{file_name(what, stub.boat_name, stub.name)}.svg": text for what, text in drawn.items()}


def _frame_of(stub: Stub) -> Frame:
    sound = stub.check.startswith("OK")
    check = "" if sound else f"Check: {stub.check or 'blank'}. Read this before you saw."
    note = f" Check: {stub.check}." if sound and stub.check != "OK" else ""
    whose = " and ".join(f"{eye.stay} ({eye.called} eye)" if eye.called else eye.stay for eye in stub.eyes)
    ropes = f"{stub.rope}, outer eye {mm(stub.eyes[-1].rope_size)} mm" if stub.stay_2 else stub.rope
    on_mast = f"; mast: {stub.mast}" if stub.mast else ""
    line = (
        f"For {whose}{on_mast}; {stub.number:g} to make. Rope: {ropes}. Rod: {stub.rod}."
        f" Bolt: {stub.bolt}. {stub.boat}. All sizes in mm.{note} {shortened(stub.note)}"
    ).rstrip()
    return Frame(f"Mark-out sheet 1:1, {stub.name}", line, check)


def _parts(stub: Stub, width: float, height: float) -> "Iterator[Part]":
    yield from templates(stub, width)
    yield bevelled_face(stub)
    yield square_end(stub)
    yield end_plate(stub)
    for title, rows in mark_out_numbers.groups(stub).items():
        yield Part(
            title,
            mark_out_numbers.WIDTH,
            TITLE_ROOM + mark_out_numbers.ROW_HEIGHT * len(rows),
            partial(mark_out_numbers.draw, rows),
        )
    yield tapered_washer(stub)
    yield fitted(stub, height)
    yield from_the_side(stub)


def _words(pen: Pen, stub: Stub) -> "Iterator[Part]":
    """How to use the sheet, and the cautions."""
    for title, lines in (("How to use it", steps(stub)), ("Cautions", CAUTIONS)):
        numbered = title != "Cautions"
        words = [f"{at}. {line}" if numbered else line for at, line in enumerate(lines, 1)]
        heights = [pen.height(line, READING, COLUMN) + 1 for line in words]
        yield Part(title, COLUMN, TITLE_ROOM + sum(heights), partial(_paragraphs, words))


def _paragraphs(lines: "list[str]", pen: Pen) -> None:
    y = 0.0
    for line in lines:
        y += pen.text((0, y), line, size=READING, width=COLUMN) + 1


def _pages(parts: "list[Part]", width: float, height: float) -> "Iterator[list[tuple[Part, float, float]]]":
    """Parts page by page: beside the last one if there is room, else in a new row, else below the last one."""
    placed: list[tuple[Part, float, float]] = []
    row = 0.0
    for part in parts:
        if part.width > width or part.height > height:
            raise Refusal(
                f"Nothing was drawn: “{part.title}” takes {part.width:.0f} × {part.height:.0f} mm and the page has"
                f" {width:.0f} × {height:.0f} mm. Mark so large a stub by its numbers on Stubs."
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


def _heading_height(pen: Pen, frame: Frame, width: float) -> float:
    height = pen.height(frame.title, 14, width - 30, bold=True) + pen.height(frame.line, 9, width) + 3.5
    return height + (pen.height(frame.check, 10, width - 4, bold=True) + 4 if frame.check else 0)


def _frame(pen: Pen, frame: Frame, width: float, paper_height: float, page: str) -> None:
    """Heading and foot of a page."""
    head = pen.at(MARGIN, MARGIN)
    y = 0.5 + head.text((0, 0.5), frame.title, size=14, bold=True, width=width - 30)
    head.text((width, 3), page, size=9, align="right")
    y += head.text((0, y), frame.line, size=9, width=width)
    if frame.check:
        tall = head.text((2, y + 2), frame.check, size=10, bold=True, width=width - 4)
        head.polygon(
            (0.2, y + 1), (width - 0.2, y + 1), (width - 0.2, y + 3 + tall), (0.2, y + 3 + tall), stroke=OUTLINE
        )
    foot = pen.at(MARGIN, paper_height - MARGIN - FOOTER)
    foot.line((0, 1), (width, 1), stroke=THIN)
    foot.at(4, 8).bar("Measure this bar: 100 mm. Print at 100 %, no scaling.")
    foot.text((width, 7), f"Loftsheet {__version__}, drawn {date.today()}", align="right")
    for y, caution in ((10, CAUTIONS[0]), (13, ALOFT)):
        foot.text((113, y), caution, size=8)
