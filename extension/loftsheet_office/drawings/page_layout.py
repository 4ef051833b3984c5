"""What bench pages and job cards share: heading, Check, facts, steps and foot, in letters for arm's length."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any, Callable, Optional

from loftsheet import __version__
from loftsheet.cautions import CAUTIONS

from ..common.refusal import Refusal
from ..common.safe_files import refuse_kept
from ..workbook.reading import within
from .canvas import MARGIN, OUTLINE, THIN, Drawing, Pen

TEXT, HEAD = 11.0, 12.0  # points
LINE = 6.5
VALUE_AT = 46.0
MOST_NOTE = 240  # letters
NEWTONS_PER_KILOGRAM = 9.80665
ROUNDING = 0.01  # mm, for a picture that was made to fit exactly

Facts = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Room:
    """Where a page may be written: its width, and the height that its foot leaves."""

    width: float
    height: float


Draw = Callable[[Pen, Room], float]
Drawer = tuple[str, Draw]  # of what a page is, and what draws it and tells how high it is


def write(
    desktop: Any, kind: str, each: str, boat: str, heading: str, pages: "Sequence[Drawer]", path: Path, paper: str
) -> None:
    """Write a PDF of that kind, each page with its number at the foot."""
    if path.suffix.lower() != ".pdf":
        raise Refusal(f"Nothing was written: {path.name} does not end in .pdf; {kind.lower()} are a PDF.")
    refuse_kept(path)
    with Drawing(desktop, paper, landscape=False, title=f"{kind}, {heading}", boat=boat) as drawing:
        for number, (of, draw) in enumerate(pages, 1):
            pen = drawing.page().at(MARGIN, MARGIN)
            words = f"{heading} {each} {number} of {len(pages)}, {date.today()}. Loftsheet {__version__}."
            room = foot(pen, words, drawing.width - 2 * MARGIN, drawing.height - 2 * MARGIN)
            if draw(pen, room) > room.height + ROUNDING:
                raise Refusal(
                    f"Nothing was written: the name, the Check or a note of {of} is too long for a page."
                )
        drawing.save(path)


def kilograms(kilonewtons: float) -> str:
    return f"{kilonewtons * 1000 / NEWTONS_PER_KILOGRAM:.0f} kg"


def heading(pen: Pen, width: float, title: str, below: str, check: Optional[str]) -> float:
    """Title, what to make, and the Check where there is one; return the height it takes."""
    y = 0.5 + pen.text((0, 0.5), title, size=20, bold=True, width=width) + 1
    if below:
        y += pen.text((0, y), below, size=16, bold=True, width=width) + 1
    if check is not None:
        y += _check(pen.at(0, y), check, width)
    return y + 3


def opening(
    pen: Pen, width: float, title: str, make: str, check: str, why_not: str = "", what: str = "stay"
) -> float:
    """Heading of what is made, or in its place why it is not to be made yet."""
    y = heading(pen, width, title, "" if why_not else make, check)
    words = f"Do not make this {what} yet. {why_not}"
    return y + pen.text((0, y), words, size=14, bold=True, width=width) if why_not else y


def _check(pen: Pen, check: str, width: float) -> float:
    """What the Check says, in a frame unless it is OK."""
    if check == "OK":
        return pen.text((0, 0), "Check: OK", size=TEXT, width=width)
    tall = pen.text((2, 1.5), f"Check: {check}", size=HEAD, bold=True, width=width - 4)
    pen.polygon((0.2, 0.2), (width - 0.2, 0.2), (width - 0.2, tall + 3), (0.2, tall + 3), stroke=OUTLINE)
    return tall + 3


def two_columns(pen: Pen, facts: Facts, width: float) -> float:
    for at, (label, value) in enumerate(facts):
        x, y = (width / 2 if at % 2 else 0.0), LINE * (at // 2 + 0.5)
        pen.text((x, y), label, size=TEXT)
        pen.text((x + VALUE_AT, y), value, size=TEXT, bold=True)
    return LINE * ((len(facts) + 1) // 2)


def one_column(pen: Pen, facts: Facts, value_at: float, width: float) -> float:
    """Facts below one another; a long value goes on below itself."""
    y = 0.0
    for label, value in facts:
        tall = max(
            pen.text((0, y), label, size=TEXT, width=value_at - 2),
            pen.text((value_at, y), value, size=TEXT, bold=True, width=width - value_at),
        )
        y += tall + 1.5
    return y


def steps(pen: Pen, lines: "tuple[str, ...]", width: float) -> float:
    """Numbered paragraphs."""
    y = 0.0
    for number, line in enumerate(lines, 1):
        pen.text((0, y), f"{number}.", size=TEXT, width=8)
        y += pen.text((8, y), line, size=TEXT, width=width - 8) + 1.2
    return y


def caution(pen: Pen, lines: "tuple[str, ...]", width: float) -> float:
    """Cautions beside the work that they are about, in bold."""
    return pen.text((0, 0), " ".join(lines), size=TEXT, bold=True, width=width)


def foot(pen: Pen, words: str, width: float, height: float) -> Room:
    """Cautions in short, boat, revision and page at the foot; return the room above."""
    lines = (" ".join(CAUTIONS[:3]), words)
    tall = sum(pen.height(line, TEXT, width) for line in lines) + 2
    y = height - tall
    pen.line((0, y), (width, y), stroke=THIN)
    y += 1
    for line in lines:
        y += pen.text((0, y), line, size=TEXT, width=width)
    return Room(width, height - tall - 2)


def shortened(note: str) -> str:
    """The boat's own note on one line, cut where it would fill the page."""
    return within(note, MOST_NOTE)
