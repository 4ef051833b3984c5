"""Bench pages: one PDF, in the order of the work.

For every rope a trial splice; for every stay its marks in order from either end, to pin over the bench, and a
page to take on board; for every chainplate of rope a page for its loop. The marks come from the row's values by
the same functions that the sheets use; what is picked on Bench does not matter and is not changed. A row that
holds an error has one page: it says what to fix, and no marks.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any, Callable

from loftsheet import __version__
from loftsheet.cautions import PULLING
from loftsheet.errors import BadInput, NoSolution
from loftsheet.eye import sleeve_length
from loftsheet.splice import bench as bench_marks
from loftsheet.splice import bench_tension

from ..common.refusal import Refusal
from ..common.safe_files import refuse_kept
from ..workbook.reading import as_text, file_name
from . import fitting_page, loop_pages, stay, trial_pages
from . import page_layout as layout
from .canvas import BLACK, CUT, HIDDEN, LIGHT, MARGIN, THIN, Drawing, Pen, Stroke
from .fitting_page import NOTHING, Fitting
from .loop_pages import LoopPage
from .page_layout import HEAD, LINE, TEXT, Facts, Room
from .stay import Assumed, Bench, Made, Stay
from .trial_pages import Trial

MOST_PITCH, LEAST_PITCH = 9.0, 5.2
ROPE_AT, ROPE_HALF, WORDS_AT, APART = 62.0, 2.5, 74.0, 35.0
NARROW_ROPE_AT, NARROW_APART = 6.0, 20.0
SHADED = Stroke(width=0.25, fill=LIGHT)
SLEEVED = Stroke(width=0.6, colour=BLACK, fill=LIGHT)

Draw = Callable[[Pen, Room], float]


@dataclass(frozen=True)
class Page:
    """What stands on the pages of one stay; without marks it says why."""

    stay: str
    check: str
    make: str = ""
    facts: Facts = ()
    marks: "tuple[tuple[str, float], ...]" = ()
    why_not: str = ""
    fitting: Fitting = NOTHING


@dataclass(frozen=True)
class BenchPages:
    """The boat with its note, pages for each named stay and loop, trial splices of the stays' ropes."""

    boat: str
    heading: str
    file_name: str
    pages: "tuple[Page, ...]"
    trials: "tuple[Trial, ...]"
    loops: "tuple[LoopPage, ...]" = ()

    @property
    def without_marks(self) -> "dict[str, str]":
        """The stays and loops that have no marks, and why."""
        loops = {page.name: page.why_not for page in self.loops if page.why_not}
        return {**{page.stay: page.why_not for page in self.pages if page.why_not}, **loops}


def read(book: Any) -> BenchPages:
    """Read the stays of a recalculated schedule and work out their marks."""
    bench = stay.read(book)
    pages = pages_of(bench)
    drawable = [one for one, page in zip(bench.stays, pages) if not page.why_not]
    trials = tuple(trial_pages.trials(drawable, bench.assumed))
    name = f"{file_name('bench-pages', bench.boat_name, bench.revision)}.pdf"
    loops = loop_pages.read(book, bench.assumed)
    return BenchPages(bench.boat_name, heading(bench), name, pages, trials, loops)


def pages_of(bench: Bench) -> "tuple[Page, ...]":
    """What stands on the pages of each stay."""
    uppers, lowers = {one.upper for one in bench.stays}, {one.lower for one in bench.stays}
    return tuple(_page(one, bench.assumed, uppers, lowers) for one in bench.stays)


def write(desktop: Any, sheets: BenchPages, path: Path, paper: str = "A4") -> None:
    """Write the PDF."""
    if path.suffix.lower() != ".pdf":
        raise Refusal(f"Nothing was written: {path.name} does not end in .pdf; the bench pages are a PDF.")
    refuse_kept(path)
    drawers = [*_of_trials(sheets.trials), *_of_stays(sheets.pages), *_of_loops(sheets.loops)]
    with Drawing(
        desktop, paper, landscape=False, title=f"Bench pages, {sheets.heading}", boat=sheets.boat
    ) as drawing:
        for number, (of, draw) in enumerate(drawers, 1):
            pen = drawing.page().at(MARGIN, MARGIN)
            foot = f"{sheets.heading} Page {number} of {len(drawers)}, {date.today()}. Loftsheet {__version__}."
            room = layout.foot(pen, foot, drawing.width - 2 * MARGIN, drawing.height - 2 * MARGIN)
            if draw(pen, room) > room.height:
                raise Refusal(
                    f"Nothing was written: the name, the Check or a note of {of} is too long for a page."
                )
        drawing.save(path)


def heading(bench: Bench) -> str:
    """The boat with its note."""
    note = layout.shortened(as_text(bench.assumed.note))
    ended = note if not note or note[-1] in ".!?…" else f"{note}."
    return f"{bench.boat}. {ended}".strip()


def _of_trials(trials: "tuple[Trial, ...]") -> "Iterator[tuple[str, Draw]]":
    for trial in trials:
        yield trial.rope, partial(_draw_trial, trial)
        if not trial.why_not:
            yield trial.rope, partial(trial_pages.draw_measuring, trial)


def _of_stays(pages: "tuple[Page, ...]") -> "Iterator[tuple[str, Draw]]":
    for page in pages:
        yield page.stay, partial(_draw, page)
        if not page.why_not:
            yield page.stay, partial(fitting_page.draw, page.stay, page.check, page.fitting)


def _of_loops(loops: "tuple[LoopPage, ...]") -> "Iterator[tuple[str, Draw]]":
    for loop in loops:
        yield loop.name, partial(loop_pages.draw, loop)


def _page(of: Stay, assumed: Assumed, uppers: "set[str]", lowers: "set[str]") -> Page:
    made, take_up = of.made, of.rope.take_up if of.rope else None
    if made is None:
        return Page(of.name, of.check, why_not=of.not_made)
    try:
        marks = bench_marks(
            made.span,
            made.upper_eye,
            made.lower_eye,
            made.bury,
            made.worked,
            take_up,  # type: ignore[arg-type]  # a blank is refused in words
            assumed.waste,
            assumed.taper,
            assumed.growth,
        )
        facts = _facts(made, assumed)
    except (BadInput, NoSolution) as refused:
        return Page(of.name, of.check, why_not=f"The marks cannot be calculated: {refused}.")
    make = f"Make {made.number:.0f} of {made.rope}"
    fitting = fitting_page.fitting(of, assumed.warmer, uppers, lowers)
    return Page(of.name, of.check, make, facts, marks, _apart(made.cut, marks[-1][1]), fitting)


def _apart(cut: float, last: float) -> str:
    """Why not, if the cut length of the row is not where the marks end: one of the two was typed over."""
    if abs(cut - last) < 0.5:
        return ""
    return f"Stays has a cut length of {cut:.0f} mm, but the marks end at {last:.0f} mm: a formula was typed over."


def _facts(made: Made, assumed: Assumed) -> Facts:
    light = bench_tension(made.rope_size)
    sleeves = [sleeve_length(eye, assumed.gather) for eye in (made.upper_eye, made.lower_eye)]
    return (
        ("Cut", f"{made.cut:.0f} mm"),
        ("Measure under", f"{light:.2f} kN ({layout.kilograms(light)} hung on)"),
        ("Upper eye (A), laid flat", f"{made.upper_eye:.0f} mm"),
        ("Lower eye (B), laid flat", f"{made.lower_eye:.0f} mm"),
        ("Sleeve for eye A", f"{sleeves[0]:.0f} mm"),
        ("Sleeve for eye B", f"{sleeves[1]:.0f} mm"),
        ("Bury", f"{made.bury:.0f} mm"),
        ("of it tapered", f"{made.taper:.0f} mm"),
        ("Bed in, several pulls", f"to {made.load:.1f} kN or more"),
        ("Done: throat to throat", f"{made.span:.0f} mm at {made.pretension:.1f} kN"),
    )


def _draw(page: Page, pen: Pen, room: Room) -> float:
    y = layout.heading(pen, room.width, page.stay, "" if page.why_not else page.make, page.check)
    if page.why_not:
        return y + pen.text(
            (0, y), f"Do not make this stay yet. {page.why_not}", size=14, bold=True, width=room.width
        )
    return _rest(pen, y, page.facts, _how(page.marks), page.marks, room)


def _draw_trial(trial: Trial, pen: Pen, room: Room) -> float:
    y = layout.heading(pen, room.width, "Trial splice", trial.rope, None)
    if trial.why_not:
        return y + pen.text((0, y), trial.why_not, size=14, bold=True, width=room.width)
    y += pen.text((0, y), trial.known, size=TEXT, width=room.width) + 2
    return _rest(pen, y, trial.facts, trial_pages.first_steps(), trial.marks, room)


def _rest(pen: Pen, y: float, facts: Facts, how: str, marks: "tuple[tuple[str, float], ...]", room: Room) -> float:
    """Facts, how to mark, and the rope with its marks, as far apart as the page allows."""
    y += layout.two_columns(pen.at(0, y), facts, room.width) + 3
    y += pen.text((0, y), how, size=TEXT, width=room.width) + 1
    y += layout.caution(pen.at(0, y), (PULLING,), room.width) + 3
    pitch = max(LEAST_PITCH, min(MOST_PITCH, (room.height - y - 2 * LINE) / len(marks)))
    pen.text((0, y + 2), "Rope with its marks, not to scale", size=HEAD, bold=True)
    draw_marks(pen.at(0, y + 2 * LINE), marks, pitch, room.width)
    return y + 2 * LINE + pitch * len(marks)


def _how(marks: "tuple[tuple[str, float], ...]") -> str:
    at = dict(marks)
    overlap = at["fid entry A"] > at["fid entry B"]
    when = (
        "set the marks of end A, splice it, then those of end B, for they overlap" if overlap else "set every mark"
    )
    return (
        f"Lay the rope along the tape under the measuring tension and {when}. Sleeve on before the eye is closed;"
        " waste off when the tail is tapered; lock stitch from the throat to its mark. Pulled less hard than the"
        " trial splice, it comes out shorter: the lashing takes that up later."
    )


def draw_marks(
    pen: Pen, marks: "tuple[tuple[str, float], ...]", pitch: float, width: float, narrow: bool = False
) -> None:
    """The rope from end to end with its marks, so far apart, and where each is from either end.

    A narrow one leaves out what the parts of the rope are called.
    """
    end = marks[-1][1]
    place = {name: pitch * (row + 0.5) for row, (name, _) in enumerate(marks)}
    rope, apart, size = (NARROW_ROPE_AT, NARROW_APART, TEXT) if narrow else (ROPE_AT, APART, HEAD)
    words_at = rope + WORDS_AT - ROPE_AT
    from_a, from_b = ("from A", "from B") if narrow else ("mm from end A", "mm from end B")
    for x, words in ((words_at, "mark"), (width - apart, from_a), (width, from_b)):
        pen.text((x, -2.5), words, size=TEXT, align="left" if x == words_at else "right")
    _rope(pen.at(rope - ROPE_AT, 0), place, braces=not narrow)
    for name, distance in marks:
        y = place[name]
        pen.line((rope - 5, y), (words_at - 1.5, y), stroke=CUT)
        pen.text((words_at, y), name, size=size)
        pen.text((width - apart, y), f"{distance:.0f}", size=size, bold=True, align="right")
        pen.text((width, y), f"{end - distance:.0f}", size=size, bold=True, align="right")
        pen.line((words_at, y + pitch / 2), (width, y + pitch / 2), stroke=THIN)


def _rope(pen: Pen, place: "dict[str, float]", braces: bool) -> None:
    """The rope from end A down to end B: waste, tail, eye, standing part, eye, tail, waste."""
    parts = []
    for end, whole in (("A", "upper end"), ("B", "lower end")):
        tip, taper, tail, standing = (
            place[name.format(end)]
            for name in ("tail tip {}", "taper start {}", "throat {}, tail", "throat {}, standing part")
        )
        _box(pen, place[f"end {end}"], tip, HIDDEN, ROPE_HALF)
        thin = ROPE_HALF / 4
        left, right = ROPE_AT - ROPE_HALF, ROPE_AT + ROPE_HALF
        pen.polygon((ROPE_AT - thin, tip), (ROPE_AT + thin, tip), (right, taper), (left, taper), stroke=SHADED)
        _box(pen, taper, tail, SHADED, ROPE_HALF)
        _box(pen, tail, standing, SLEEVED, ROPE_HALF + 1)
        parts += [
            (place[f"end {end}"], tip, "waste"),
            (tip, tail, f"tail {end}, buried"),
            (tail, standing, f"eye {end}, {whole}, sleeved"),
        ]
    upper, lower = (place[f"throat {end}, standing part"] for end in "AB")
    _box(pen, upper, lower, SHADED, ROPE_HALF)
    for part in (*parts, (upper, lower, "standing part")) if braces else ():
        _brace(pen, *part)


def _box(pen: Pen, start: float, end: float, stroke: Stroke, half: float) -> None:
    pen.polygon(
        (ROPE_AT - half, start),
        (ROPE_AT + half, start),
        (ROPE_AT + half, end),
        (ROPE_AT - half, end),
        stroke=stroke,
    )


def _brace(pen: Pen, start: float, end: float, words: str) -> None:
    x = ROPE_AT - 8
    top, low = min(start, end) + 0.7, max(start, end) - 0.7
    pen.line((x + 1.5, top), (x, top), (x, low), (x + 1.5, low), stroke=THIN)
    pen.text((x - 2, (top + low) / 2), words, size=TEXT, align="right")
