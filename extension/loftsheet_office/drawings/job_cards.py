"""Job cards: a page for each stay and its stub, with what is to come out and boxes for what was made.

The boxes stand in the order of the columns of Log, a row for port and one for starboard, so that a card is typed
there from left to right.
"""

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any, Optional, Union

from loftsheet import __version__
from loftsheet.cautions import PULLING

from ..common.refusal import Refusal
from ..common.safe_files import refuse_kept
from ..workbook.columns import Column, all_columns
from ..workbook.reading import file_name
from . import bench_pages, stay, stub
from . import page_layout as layout
from .bench_pages import Page
from .canvas import MARGIN, OUTLINE, THIN, Drawing, Pen
from .page_layout import Facts, Room
from .stay import Hung, Made, Stay
from .stub import Stub
from .stub_parts import from_the_side, hole_range, mm

# Inputs of Log that a card has a box for, and how wide it is in mm; what stands in the first ones is printed.
BOXES = {
    "name": 15.0,
    "date": 22.0,
    "stay": 31.0,
    "which": 18.0,
    "made_by": 25.0,
    "pulled_to": 17.0,
    "measured": 20.0,
    "ligament_left": 15.0,
    "take_up_left": 14.0,
    "fitted": 13.0,
}
SIDES = {1: ("",), 2: ("port", "starboard")}
BOX, HEAD_OF_BOX, SMALL = 10.0, 9.0, 8.0  # mm, mm, points
MARKS_WIDTH, STUB_AT, STUB_SCALE = 95.0, 103.0, 0.6
ROW, NUMBERS, VALUES_AT = 4.9, 9.5, 36.0  # mm, points, mm
LABEL, ABOVE = 10.0, 8.0  # mm, for words beside and above the picture, which stay as large at any scale
LEAST_PITCH, MOST_PITCH = 4.4, 8.0
GAP = 3.0
ROUNDING = 0.01  # mm, for a picture that was made to fit exactly


@dataclass(frozen=True)
class Card:
    """What stands on one page: a stay as on its bench page, its stub or why it is not drawn, and the boxes."""

    page: Page
    made: Optional[Made]
    hung: Optional[Hung]
    stub: "Union[Stub, Refusal, None]"

    @property
    def sides(self) -> "tuple[str, ...]":
        return sides_of(self.made.number if self.made else 1)


@dataclass(frozen=True)
class JobCards:
    """The boat with its note, and a card for each named stay."""

    boat: str
    heading: str
    file_name: str
    cards: "tuple[Card, ...]"

    @property
    def not_ready(self) -> "dict[str, str]":
        """The stays that have no card to work by, and why."""
        return {card.page.stay: card.page.why_not for card in self.cards if card.page.why_not}


def sides_of(number: float) -> "tuple[str, ...]":
    """How the equal stays of a row are told apart."""
    many = round(number)
    return SIDES.get(many) or tuple(f"{one} of {many}" for one in range(1, many + 1))


def read(book: Any) -> JobCards:
    """Read stays and stubs of a recalculated schedule."""
    bench = stay.read(book)
    pages = bench_pages.pages_of(bench)
    stubs = stub.of_stays(book)
    cards = tuple(_card(one, page, stubs.get(one.name)) for one, page in zip(bench.stays, pages))
    name = f"{file_name('job-cards', bench.boat_name, bench.revision)}.pdf"
    return JobCards(bench.boat_name, bench_pages.heading(bench), name, cards)


def _card(one: Stay, page: Page, its_stub: "Union[Stub, Refusal, None]") -> Card:
    return Card(page, one.made, one.hung, its_stub)


def write(desktop: Any, cards: JobCards, path: Path, paper: str = "A4") -> None:
    """Write the PDF."""
    if path.suffix.lower() != ".pdf":
        raise Refusal(f"Nothing was written: {path.name} does not end in .pdf; job cards are a PDF.")
    refuse_kept(path)
    with Drawing(desktop, paper, landscape=False, title=f"Job cards, {cards.heading}", boat=cards.boat) as drawing:
        for number, card in enumerate(cards.cards, 1):
            pen = drawing.page().at(MARGIN, MARGIN)
            foot = f"{cards.heading} Card {number} of {len(cards.cards)}, {date.today()}. Loftsheet {__version__}."
            room = layout.foot(pen, foot, drawing.width - 2 * MARGIN, drawing.height - 2 * MARGIN)
            if _draw(card, pen, room) > room.height + ROUNDING:
                who = card.page.stay
                raise Refusal(
                    f"Nothing was written: the name, the Check or a note of {who} is too long for a card."
                )
        drawing.save(path)


def _draw(card: Card, pen: Pen, room: Room) -> float:
    page = card.page
    y = layout.heading(pen, room.width, page.stay, "" if page.why_not else page.make, page.check)
    if page.why_not:
        return y + pen.text(
            (0, y), f"Do not make this stay yet. {page.why_not}", size=14, bold=True, width=room.width
        )
    y += _facts(pen.at(0, y), (*page.facts, *_gap(card.hung)), room.width) + 2
    y += layout.caution(pen.at(0, y), (PULLING,), room.width) + 3
    start = y + 2 * layout.LINE
    free = room.height - _boxes_height(card) - GAP
    pitch = max(LEAST_PITCH, min(MOST_PITCH, (free - start) / len(page.marks)))
    pen.text((0, y + 2), "Rope with its marks, mm, not to scale", size=layout.HEAD, bold=True)
    bench_pages.draw_marks(pen.at(0, start), page.marks, pitch, MARKS_WIDTH, narrow=True)
    low = start + pitch * len(page.marks)
    if card.stub:
        low = max(low, y + _stub(card.stub, page.stay, pen.at(STUB_AT, y), Room(room.width - STUB_AT, free - y)))
    return low + GAP + _boxes(card, pen.at(0, low + GAP), room.width)


def _facts(pen: Pen, facts: Facts, width: float) -> float:
    """Facts in two columns, closer than on a bench page."""
    for at, (label, value) in enumerate(facts):
        x, y = (width / 2 if at % 2 else 0.0), ROW * (at // 2 + 0.5)
        pen.text((x, y), label, size=NUMBERS)
        pen.text((x + layout.VALUE_AT, y), value, size=NUMBERS, bold=True)
    return ROW * ((len(facts) + 1) // 2)


def _gap(hung: Optional[Hung]) -> Facts:
    """What the lashing has to close, and what it still can when the rope has bedded in."""
    if hung is None:
        return ()
    bedded = () if hung.gap_bedded is None else (("Gap when bedded in", f"{hung.gap_bedded:.0f} mm"),)
    return (
        ("Gap to lash, new", f"{hung.gap:.0f} mm"),
        *bedded,
        ("… of it can be closed", f"{hung.take_up_left:.0f} mm"),
    )


def _stub(of: "Union[Stub, Refusal]", stay: str, pen: Pen, room: Room) -> float:
    """The stub from the side, as large as there is room, and the numbers to saw and drill by."""
    width = room.width
    if isinstance(of, Refusal):
        return pen.text((0, 1), f"Its stub: {of}", size=layout.TEXT, bold=True, width=width) + 3
    y = pen.text((0, 0), f"{of.name}: saw by its mark-out sheet", size=layout.TEXT, bold=True, width=width)
    rows = (
        *_numbers(of),
        *(
            ("Its eye", f"{eye.called}, {mm(eye.seat)} mm from the mast")
            for eye in of.eyes
            if eye.called and eye.stay == stay
        ),
    )
    part = from_the_side(of, with_eyes=False)
    scale = min(
        STUB_SCALE, (width - LABEL) / part.width, (room.height - y - ABOVE - ROW * len(rows)) / part.height
    )
    part.draw(pen.at(LABEL, y + ABOVE).scaled(scale))
    y += ABOVE + part.height * scale
    for label, value in rows:
        pen.text((0, y + ROW / 2), label, size=NUMBERS)
        pen.text((VALUES_AT, y + ROW / 2), value, size=NUMBERS, bold=True)
        y += ROW
    return y


def _numbers(of: Stub) -> Facts:
    return (
        ("Number", f"{of.number:.0f}"),
        ("Rod", of.rod),
        ("Bevel, from square", f"{mm(of.bevel)}°"),
        ("Short side, on top", f"{mm(of.top)} mm"),
        ("Long side, below", f"{mm(of.base)} mm"),
        ("Drill", f"{mm(of.bolt_hole)} mm"),
        ("Hole, from the top", f"{hole_range(of)} mm"),
        ("… comes out at", f"{mm(of.exit)} mm"),
        ("Bolt", f"{of.bolt}, {of.bolt_length:.0f} mm"),
    )


def _boxes_height(card: Card) -> float:
    return HEAD_OF_BOX + layout.LINE * 2 + BOX * len(card.sides) + 2


def _columns() -> "list[tuple[str, Column]]":
    """The columns of Log that have a box, in its order."""
    named = ((name.partition("_")[2], column) for name, column in all_columns().items() if column.table == "log")
    return [(key, column) for key, column in named if key in BOXES]


def _boxes(card: Card, pen: Pen, width: float) -> float:
    """A row of boxes for each that is made, to fill in and to type into Log from left to right."""
    pen.text(
        (0, 2),
        "As made: Log a Job Card in the menu takes it, or type it into Log from left to right",
        size=layout.HEAD,
        bold=True,
    )
    columns = _columns()
    stretch = width / sum(BOXES[key] for key, _ in columns)
    top = layout.LINE
    heads = HEAD_OF_BOX + layout.LINE
    x = 0.0
    for key, column in columns:
        wide = BOXES[key] * stretch
        unit = f", {column.unit}" if column.unit else ""
        pen.text((x + 0.8, top + 0.5), f"{column.title}{unit}", size=SMALL, bold=True, width=wide - 1)
        for at, side in enumerate(card.sides):
            start = top + heads + BOX * at
            corners = ((x, start), (x + wide, start), (x + wide, start + BOX), (x, start + BOX))
            pen.polygon(*corners, stroke=OUTLINE)
            words = _printed(key, card, side)
            if words:
                pen.text((x + 0.8, start + 0.8), words, size=SMALL, width=wide - 1)
        wanted = _wanted(key, card)
        if wanted:
            pen.text((x + 0.8, top + HEAD_OF_BOX + 2.2), wanted, size=7, width=wide - 1)
        pen.line((x, top), (x, top + heads), stroke=THIN)
        x += wide
    pen.line((x, top), (x, top + heads), stroke=THIN)
    pen.line((0, top), (x, top), stroke=THIN)
    return top + heads + BOX * len(card.sides) + 2


def _printed(key: str, card: Card, side: str) -> str:
    return {"stay": card.page.stay, "which": side}.get(key, "")


def _wanted(key: str, card: Card) -> str:
    """What should come out, above the box."""
    made, of = card.made, card.stub
    if made and key == "pulled_to":
        return f"{made.load:.1f} or more"
    if made and key == "measured":
        return f"wanted {made.span:.0f}"
    if isinstance(of, Stub) and key == "ligament_left":
        return f"wanted {mm(of.ligament)}"
    if card.hung and key == "take_up_left":
        return f"wanted {card.hung.take_up_left:.0f}"
    return ""
