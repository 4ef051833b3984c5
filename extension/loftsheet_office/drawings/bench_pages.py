"""Bench pages: one PDF, in the order of the work.

For every rope a trial splice; for every stay its marks in order from either end, to pin over the bench, and a
page to take on board; for every chainplate of rope a page for its loop. The marks come from the row's values by
the same functions that the sheets use; what is picked on Bench does not matter and is not changed. A row that
holds an error has one page: it says what to fix, and no marks.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

from loftsheet.cautions import PULLING
from loftsheet.errors import BadInput, NoSolution
from loftsheet.eye import sleeve_length
from loftsheet.splice import bench as bench_marks
from loftsheet.splice import bench_tension

from ..workbook.reading import as_text, file_name
from . import fitting_page, loop_pages, rope_marks, stay, trial_pages
from . import page_layout as layout
from .canvas import BLACK, HIDDEN, LIGHT, Pen, Stroke
from .fitting_page import NOTHING, Fitting
from .loop_pages import LoopPage
from .page_layout import TEXT, Drawer, Facts, Room
from .stay import Assumed, Bench, Made, Stay
from .trial_pages import Trial

SLEEVED = Stroke(width=0.6, colour=BLACK, fill=LIGHT)


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
    """The boat with its note, pages for each named stay and loop, trial splices of their ropes."""

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
    name = f"{file_name('bench-pages', bench.boat_name, bench.revision)}.pdf"
    loops = loop_pages.read(book, bench.assumed)
    of_loops = [page.trial for page in loops if page.trial]
    trials = tuple(trial_pages.trials(drawable, bench.assumed, of_loops))
    return BenchPages(bench.boat_name, heading(bench), name, pages, trials, loops)


def pages_of(bench: Bench) -> "tuple[Page, ...]":
    """What stands on the pages of each stay."""
    uppers, lowers = {one.upper for one in bench.stays}, {one.lower for one in bench.stays}
    return tuple(_page(one, bench.assumed, uppers, lowers) for one in bench.stays)


def write(desktop: Any, sheets: BenchPages, path: Path, paper: str = "A4") -> None:
    """Write the PDF."""
    drawers = [*_of_trials(sheets.trials), *_of_stays(sheets.pages), *_of_loops(sheets.loops)]
    layout.write(desktop, "Bench pages", "Page", sheets.boat, sheets.heading, drawers, path, paper)


def heading(bench: Bench) -> str:
    """The boat with its note."""
    note = layout.shortened(as_text(bench.assumed.note))
    ended = note if not note or note[-1] in ".!?…" else f"{note}."
    return f"{bench.boat}. {ended}".strip()


def _of_trials(trials: "tuple[Trial, ...]") -> "Iterator[Drawer]":
    for trial in trials:
        yield trial.rope, partial(_draw_trial, trial)
        if not trial.why_not:
            yield trial.rope, partial(trial_pages.draw_measuring, trial)


def _of_stays(pages: "tuple[Page, ...]") -> "Iterator[Drawer]":
    for page in pages:
        yield page.stay, partial(_draw, page)
        if not page.why_not:
            yield page.stay, partial(fitting_page.draw, page.stay, page.check, page.fitting)


def _of_loops(loops: "tuple[LoopPage, ...]") -> "Iterator[Drawer]":
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
    y = layout.opening(pen, room.width, page.stay, page.make, page.check, page.why_not)
    return y if page.why_not else _rest(pen, y, page.facts, _how(page.marks), page.marks, room)


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
    return rope_marks.below(pen, y, marks, room.width, room.height, draw_rope)


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


def draw_rope(pen: Pen, place: "dict[str, float]", braces: bool) -> None:
    """A stay from end A down to end B: waste, tail, eye, standing part, eye, tail, waste."""
    parts = []
    for end, whole in (("A", "upper end"), ("B", "lower end")):
        tip, taper, tail, standing = (
            place[name.format(end)]
            for name in ("tail tip {}", "taper start {}", "throat {}, tail", "throat {}, standing part")
        )
        rope_marks.stretch(pen, place[f"end {end}"], tip, HIDDEN)
        rope_marks.tapered(pen, tip, taper)
        rope_marks.stretch(pen, taper, tail)
        rope_marks.stretch(pen, tail, standing, SLEEVED, rope_marks.ROPE_HALF + 1)
        parts += [
            (place[f"end {end}"], tip, "waste"),
            (tip, tail, f"tail {end}, buried"),
            (tail, standing, f"eye {end}, {whole}, sleeved"),
        ]
    upper, lower = (place[f"throat {end}, standing part"] for end in "AB")
    rope_marks.stretch(pen, upper, lower)
    for part in (*parts, (upper, lower, "standing part")) if braces else ():
        rope_marks.brace(pen, *part)
