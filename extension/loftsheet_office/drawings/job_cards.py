"""Job cards: a page for each stay with its stub, and for each loop: what is to come out, boxes for what was made.

The boxes stand in the order of the columns of Log, a row for port and one for starboard, so that a card is typed
there from left to right.
"""

from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any, Callable, Optional, Union

from loftsheet.cautions import PULLING

from ..common.refusal import Refusal
from ..workbook.columns import Column, all_columns
from ..workbook.reading import file_name
from . import bench_pages, loop_pages, rope_marks, stay, stub
from . import page_layout as layout
from .bench_pages import Page
from .canvas import OUTLINE, THIN, Pen
from .loop_pages import LoopPage
from .page_layout import Facts, Room
from .rope_marks import Marks
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


@dataclass(frozen=True)
class Card:
    """What stands on one page: a stay as on its bench page, its stub or why it is not drawn, and the boxes."""

    page: Page
    made: Optional[Made]
    hung: Optional[Hung]
    stub: "Union[Stub, Refusal, None]"

    @property
    def boxes(self) -> "Boxes":
        return Boxes(self.page.stay, sides_of(self.made.number if self.made else 1), _wanted(self))


@dataclass(frozen=True)
class Boxes:
    """Whose boxes they are, a row for each that is made, and what should come out in some of Log's columns."""

    stay: str
    which: "tuple[str, ...]"
    wanted: "dict[str, str]"


@dataclass(frozen=True)
class JobCards:
    """The boat with its note, and a card for each named stay of rope and each loop."""

    boat: str
    heading: str
    file_name: str
    cards: "tuple[Card, ...]"
    loops: "tuple[LoopPage, ...]" = ()

    @property
    def not_ready(self) -> "dict[str, str]":
        """The stays and loops that have no card to work by, and why."""
        loops = {page.name: page.why_not for page in self.loops if page.why_not}
        return {**{card.page.stay: card.page.why_not for card in self.cards if card.page.why_not}, **loops}


def sides_of(number: float) -> "tuple[str, ...]":
    """How the equal stays of a row are told apart."""
    many = round(number)
    return SIDES.get(many) or tuple(f"{one} of {many}" for one in range(1, many + 1))


def sides_of_loop(count: float) -> "tuple[str, ...]":
    """The same of the loops of a row, which Log has with the stay that hangs there."""
    return tuple(f"loop, {side}".rstrip(", ") for side in sides_of(count))


def read(book: Any) -> JobCards:
    """Read stays and stubs of a recalculated schedule."""
    bench = stay.read(book)
    pages = bench_pages.pages_of(bench)
    stubs = stub.of_stays(book)
    cards = tuple(_card(one, page, stubs.get(one.name)) for one, page in zip(bench.stays, pages))
    name = f"{file_name('job-cards', bench.boat_name, bench.revision)}.pdf"
    loops = loop_pages.read(book, bench.assumed)
    return JobCards(bench.boat_name, bench_pages.heading(bench), name, cards, loops)


def _card(one: Stay, page: Page, its_stub: "Union[Stub, Refusal, None]") -> Card:
    return Card(page, one.made, one.hung, its_stub)


def write(desktop: Any, cards: JobCards, path: Path, paper: str = "A4") -> None:
    """Write the PDF."""
    drawers = [(card.page.stay, partial(_draw, card)) for card in cards.cards]
    drawers += [(page.name, partial(_draw_loop, page)) for page in cards.loops]
    layout.write(desktop, "Job cards", "Card", cards.boat, cards.heading, drawers, path, paper)


def _draw(card: Card, pen: Pen, room: Room) -> float:
    page = card.page
    y = layout.opening(pen, room.width, page.stay, page.make, page.check, page.why_not)
    if page.why_not:
        return y
    y += _facts(pen.at(0, y), (*page.facts, *_gap(card.hung)), room.width) + 2
    y += layout.caution(pen.at(0, y), (PULLING,), room.width) + 3
    marks = Marked(card.page.marks, bench_pages.draw_rope, card.boxes)
    beside = partial(_stub, card.stub, page.stay) if card.stub else None
    return _marks_and_boxes(pen, y, marks, room, beside)


def _draw_loop(page: LoopPage, pen: Pen, room: Room) -> float:
    """The card of a rope loop: Log has it with the stay that hangs there."""
    of = page.loop
    if of is None:
        return loop_pages.draw(page, pen, room)
    y = loop_pages.opening(page, pen, room.width)
    y += _facts(pen.at(0, y), page.facts, room.width) + 2
    y += layout.caution(pen.at(0, y), (PULLING,), room.width) + 3
    boxes = Boxes(
        of.stay, sides_of_loop(of.count), {"pulled_to": f"{of.pull:.1f} or more", "measured": "leave blank"}
    )
    return _marks_and_boxes(pen, y, Marked(page.marks, loop_pages.draw_rope, boxes), room)


@dataclass(frozen=True)
class Marked:
    """A rope with its marks, and the boxes below it."""

    marks: Marks
    rope: rope_marks.DrawRope
    boxes: Boxes


def _marks_and_boxes(
    pen: Pen, y: float, of: Marked, room: Room, beside: "Optional[Callable[[Pen, Room], float]]" = None
) -> float:
    """The marks, what stands beside them, and the boxes at the foot."""
    start = y + 2 * layout.LINE
    free = room.height - _boxes_height(of.boxes) - GAP
    pitch = max(LEAST_PITCH, min(MOST_PITCH, (free - start) / len(of.marks)))
    pen.text((0, y + 2), "Rope with its marks, mm, not to scale", size=layout.HEAD, bold=True)
    rope_marks.draw(pen.at(0, start), of.marks, pitch, MARKS_WIDTH, of.rope, narrow=True)
    low = start + pitch * len(of.marks)
    if beside:
        low = max(low, y + beside(pen.at(STUB_AT, y), Room(room.width - STUB_AT, free - y)))
    return low + GAP + _boxes(of.boxes, pen.at(0, low + GAP), room.width)


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


def _boxes_height(boxes: Boxes) -> float:
    return HEAD_OF_BOX + layout.LINE * 2 + BOX * len(boxes.which) + 2


def _columns() -> "list[tuple[str, Column]]":
    """The columns of Log that have a box, in its order."""
    named = ((name.partition("_")[2], column) for name, column in all_columns().items() if column.table == "log")
    return [(key, column) for key, column in named if key in BOXES]


def _boxes(boxes: Boxes, pen: Pen, width: float) -> float:
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
        for at, which in enumerate(boxes.which):
            start = top + heads + BOX * at
            corners = ((x, start), (x + wide, start), (x + wide, start + BOX), (x, start + BOX))
            pen.polygon(*corners, stroke=OUTLINE)
            words = {"stay": boxes.stay, "which": which}.get(key, "")
            if words:
                pen.text((x + 0.8, start + 0.8), words, size=SMALL, width=wide - 1)
        if key in boxes.wanted:
            pen.text((x + 0.8, top + HEAD_OF_BOX + 2.2), boxes.wanted[key], size=7, width=wide - 1)
        pen.line((x, top), (x, top + heads), stroke=THIN)
        x += wide
    pen.line((x, top), (x, top + heads), stroke=THIN)
    pen.line((0, top), (x, top), stroke=THIN)
    return top + heads + BOX * len(boxes.which) + 2


def _wanted(card: Card) -> "dict[str, str]":
    """What should come out, above its box."""
    made, of, wanted = card.made, card.stub, dict[str, str]()
    if made:
        wanted |= {"pulled_to": f"{made.load:.1f} or more", "measured": f"wanted {made.span:.0f}"}
    if isinstance(of, Stub):
        wanted["ligament_left"] = f"wanted {mm(of.ligament)}"
    if card.hung:
        wanted["take_up_left"] = f"wanted {card.hung.take_up_left:.0f}"
    return wanted
