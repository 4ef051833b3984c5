"""Bench page of a rope loop that is a chainplate: its marks from either end, and how it is made and laid."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Optional

from loftsheet.cautions import PULLING
from loftsheet.chainplate import grommet_marks
from loftsheet.errors import BadInput, NoSolution
from loftsheet.splice import bench_tension

from ..workbook import reading, records
from ..workbook.reading import Row
from . import page_layout as layout
from .canvas import CUT, HIDDEN, LIGHT, THIN, Pen, Stroke
from .page_layout import HEAD, LINE, TEXT, Facts, Room
from .stay import LOOP, Assumed

TABLE = "chainplates"
MOST_PITCH, LEAST_PITCH = 9.0, 5.2
ROPE_AT, ROPE_HALF, WORDS_AT, APART = 66.0, 2.5, 78.0, 35.0
SHADED = Stroke(width=0.25, fill=LIGHT)

Marks = tuple[tuple[str, float], ...]


@dataclass(frozen=True)
class Loop:
    """What a row of Chainplates says of its loop; lengths in mm, forces in kN."""

    name: str
    check: str
    note: str
    made_of: str
    rope: str
    ring: str
    round: str
    count: float
    turns: float
    rope_size: float
    around: float
    inside: float
    apart: float
    bury: float
    cut: float
    pull: float


@dataclass(frozen=True)
class LoopPage:
    """What stands on the page of one loop; without marks it says why."""

    name: str
    check: str
    make: str = ""
    facts: Facts = ()
    steps: "tuple[str, ...]" = ()
    marks: Marks = ()
    why_not: str = ""


def read(book: Any, assumed: Assumed) -> "tuple[LoopPage, ...]":
    """The pages of all loops; none in a schedule from before there were chainplates."""
    if not book.NamedRanges.hasByName(f"{TABLE}_name"):
        return ()
    ropes = {str(row.get("name")): row for row in reading.rows(book, "rope", ("take_up", "lasting_set"))}
    rows = [row for row in records.rows(book, TABLE, Loop) if row.get("made_of") == LOOP]
    return tuple(_page(row, ropes.get(str(row.get("rope"))), assumed) for row in rows)


def _page(row: Row, rope: "Optional[Row]", assumed: Assumed) -> LoopPage:
    name, check = (reading.as_text(row.get(key)) for key in ("name", "check"))
    errors = [*records.errors(row, Loop), *(rope.errors.values() if rope else ())]
    if errors or rope is None:
        return LoopPage(name, check, why_not=f"Fix these cells first: {'; '.join(errors) or 'its rope'}.")
    try:
        loop = records.record(Loop, row.values)
        marks = marks_of(loop, rope["take_up"], rope["lasting_set"], assumed)
    except records.NotNumbers as wrong:
        return LoopPage(name, check, why_not=f"Not a number: {wrong}.")
    except (BadInput, NoSolution) as refused:
        return LoopPage(name, check, why_not=f"The marks cannot be calculated: {refused}.")
    if abs(loop.cut - marks[-1][1]) >= 0.5:
        apart = f"Chainplates has a cut length of {loop.cut:.0f} mm, but the marks end at {marks[-1][1]:.0f} mm"
        return LoopPage(name, check, why_not=f"{apart}: a formula was typed over.")
    make = f"Make {loop.count:.0f} of {loop.rope}"
    return LoopPage(name, check, make, _facts(loop), _steps(loop, marks), marks)


def marks_of(loop: Loop, take_up: Any, lasting_set: Any, assumed: Assumed) -> Marks:
    marks: Marks = grommet_marks(
        loop.inside,
        loop.rope_size,
        loop.bury,
        take_up,
        assumed.waste,
        loop.turns,
        lasting_set,
        assumed.taper,
        assumed.growth,
    )
    return marks


def _facts(loop: Loop) -> Facts:
    light = bench_tension(loop.rope_size)
    return (
        ("Cut", f"{loop.cut:.0f} mm"),
        ("Measure under", f"{light:.2f} kN ({layout.kilograms(light)} hung on)"),
        ("Turns", f"{loop.turns:.0f}"),
        ("Bury", f"{loop.bury:.0f} mm at each end"),
        ("Goes round", _goes_round(loop)),
        ("… and", loop.ring),
        ("Inside, laid flat", f"{loop.inside:.0f} mm"),
        ("Bar to ring, middles", f"{loop.apart:.0f} mm"),
        ("Pull when laid", f"to {loop.pull:.1f} kN, several times"),
    )


def _goes_round(loop: Loop) -> str:
    return f"plate of {loop.around:.0f} mm" if loop.round == "hole" else f"bar of {loop.around:.0f} mm"


def _steps(loop: Loop, marks: Marks) -> "tuple[str, ...]":
    at = dict(marks)
    overlap = at["fid entry A"] > at["fid entry B"]
    when = "those of tail A now, those of tail B when A is buried, for they overlap" if overlap else "every mark"
    round_ = "the plate's hole" if loop.round == "hole" else "the bar"
    turns = f"{loop.turns:.0f} turns" if loop.turns > 1 else "one turn"
    note = (f"Note: {loop.note}",) if loop.note else ()
    return (
        f"Lay the rope along the tape under the measuring tension and set {when}.",
        f"Pass it round {round_} and ring in {turns}, side by side, none across another, before its ends are"
        f" joined; in a sleeve where {round_} may chafe. If the bar comes out, the loop may be made first.",
        "Bring the two crossing marks together. A fid goes in at each fid entry, comes out at the crossing"
        " and draws the other tail in. Cut off the waste, thin the tail from its taper mark to the tip, milk the"
        " standing part smooth over it.",
        "Lock stitch from the crossing to its marks, both ways. Turn the loop until the splice lies clear of bar"
        " and ring.",
        f"Pull it several times to {loop.pull:.1f} kN, then see that all turns bear alike: a slack one is worked"
        " round by hand.",
        *note,
    )


def draw(page: LoopPage, pen: Pen, room: Room) -> float:
    """Draw the page; return the height that it takes."""
    y = layout.heading(pen, room.width, f"{page.name}: rope loop", "" if page.why_not else page.make, page.check)
    if page.why_not:
        words = f"Do not make this loop yet. {page.why_not}"
        return y + pen.text((0, y), words, size=14, bold=True, width=room.width)
    y += layout.two_columns(pen.at(0, y), page.facts, room.width) + 3
    y += pen.text((0, y), "Steps: common practice, no source", size=HEAD, bold=True, width=room.width) + 1.5
    y += layout.steps(pen.at(0, y), page.steps, room.width) + 1
    y += layout.caution(pen.at(0, y), (PULLING,), room.width) + 3
    pitch = max(LEAST_PITCH, min(MOST_PITCH, (room.height - y - 2 * LINE) / len(page.marks)))
    pen.text((0, y + 2), "Rope with its marks, not to scale", size=HEAD, bold=True)
    _draw_marks(pen.at(0, y + 2 * LINE), page.marks, pitch, room.width)
    return y + 2 * LINE + pitch * len(page.marks)


def _draw_marks(pen: Pen, marks: Marks, pitch: float, width: float) -> None:
    """The rope from end to end with its marks, and where each is from either end."""
    end = marks[-1][1]
    place = {name: pitch * (row + 0.5) for row, (name, _) in enumerate(marks)}
    for x, words in ((WORDS_AT, "mark"), (width - APART, "mm from end A"), (width, "mm from end B")):
        pen.text((x, -2.5), words, size=TEXT, align="left" if x == WORDS_AT else "right")
    _rope(pen, place)
    for name, distance in marks:
        y = place[name]
        pen.line((ROPE_AT - 5, y), (WORDS_AT - 1.5, y), stroke=CUT)
        pen.text((WORDS_AT, y), name, size=HEAD)
        pen.text((width - APART, y), f"{distance:.0f}", size=HEAD, bold=True, align="right")
        pen.text((width, y), f"{end - distance:.0f}", size=HEAD, bold=True, align="right")
        pen.line((WORDS_AT, y + pitch / 2), (width, y + pitch / 2), stroke=THIN)


def _rope(pen: Pen, place: "dict[str, float]") -> None:
    """Waste, tail, standing part, tail, waste."""
    left, right, thin = ROPE_AT - ROPE_HALF, ROPE_AT + ROPE_HALF, ROPE_HALF / 4
    parts: Sequence[tuple[float, float, str]] = ()
    for end in "AB":
        tip, taper, crossing = (place[f"{mark} {end}"] for mark in ("tail tip", "taper start", "crossing"))
        _box(pen, place[f"end {end}"], tip, HIDDEN)
        pen.polygon((ROPE_AT - thin, tip), (ROPE_AT + thin, tip), (right, taper), (left, taper), stroke=SHADED)
        _box(pen, taper, crossing, SHADED)
        parts = (*parts, (place[f"end {end}"], tip, "waste"), (tip, crossing, f"tail {end}, buried"))
    crossings = place["crossing A"], place["crossing B"]
    _box(pen, *crossings, SHADED)
    for start, finish, words in (*parts, (*crossings, "standing part, all turns")):
        _brace(pen, start, finish, words)


def _box(pen: Pen, start: float, end: float, stroke: Stroke) -> None:
    left, right = ROPE_AT - ROPE_HALF, ROPE_AT + ROPE_HALF
    pen.polygon((left, start), (right, start), (right, end), (left, end), stroke=stroke)


def _brace(pen: Pen, start: float, end: float, words: str) -> None:
    x = ROPE_AT - 8
    top, low = min(start, end) + 0.7, max(start, end) - 0.7
    pen.line((x + 1.5, top), (x, top), (x, low), (x + 1.5, low), stroke=THIN)
    pen.text((x - 2, (top + low) / 2), words, size=TEXT, align="right")
