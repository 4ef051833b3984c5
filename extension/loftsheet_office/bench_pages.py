"""Bench pages: one PDF, in the order of the work.

For every rope a trial splice; for every stay its marks in order from either end, to pin over the bench, and a
page to take on board. The marks come from the row's values by the same function that the sheet Bench uses; what is
picked there does not matter and is not changed. A stay whose row holds an error has one page: it says what to
mend, and no marks.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any, Callable

from loftsheet import __version__
from loftsheet.errors import BadInput, NoSolution
from loftsheet.eye import sleeve_length
from loftsheet.splice import bench, bench_tension

from . import bench_layout as layout
from . import book as schedule
from . import fitting_page, newer, trial_pages
from .bench_layout import HEAD, LINE, TEXT, Facts, Room
from .drawing import BLACK, CUT, HIDDEN, LIGHT, MARGIN, THIN, Drawing, Pen, Stroke
from .files import refuse_kept
from .fitting_page import NOTHING, Fitting
from .refusal import Refusal
from .trial_pages import Trial

WORDS = ("check", "rope")
NUMBERS = (
    "number",
    "rope_size",
    "cut",
    "span",
    "pretension",
    "upper_eye",
    "lower_eye",
    "bury",
    "taper",
    "worked",
)
OF_ROPE = ("take_up", "lasting_set", "trial", "trial_date")
BOAT = ("waste", "taper", "growth", "gather", "trial", "warmer", "note")
MOST_PITCH, LEAST_PITCH = 9.0, 5.2
ROPE_AT, ROPE_HALF, WORDS_AT = 62.0, 2.5, 74.0
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


def write(desktop: Any, book: Any, path: Path, paper: str = "A4") -> "dict[str, str]":
    """Write the PDF; return the stays that have no marks, and why."""
    if path.suffix.lower() != ".pdf":
        raise Refusal(f"Nothing was written: {path.name} does not end in .pdf; the bench pages are a PDF.")
    refuse_kept(path)
    heading, pages, trials = read_all(book)
    drawers = [*_of_trials(trials), *_of_stays(pages)]
    with Drawing(desktop, paper, landscape=False, title=f"Bench pages, {heading}") as drawing:
        for number, (of, draw) in enumerate(drawers, 1):
            pen = drawing.page().at(MARGIN, MARGIN)
            foot = f"{heading} Page {number} of {len(drawers)}, {date.today()}. Loftsheet {__version__}."
            room = layout.foot(pen, foot, drawing.width - 2 * MARGIN, drawing.height - 2 * MARGIN)
            if draw(pen, room) > room.height:
                raise Refusal(
                    f"Nothing was written: the name, the Check or a note of {of} is too long for a page."
                )
        drawing.save(path)
    return {page.stay: page.why_not for page in pages if page.why_not}


def read(book: Any) -> "tuple[str, list[Page]]":
    """The boat in words, and a page for each named stay."""
    heading, pages, _ = read_all(book)
    return heading, pages


def read_all(book: Any) -> "tuple[str, list[Page], list[Trial]]":
    """The boat in words with its note, a page for each named stay, and a trial splice for each rope they take."""
    try:
        boat = {key: schedule.value(book, f"boat_{key}") for key in BOAT}
        ropes = {str(row["name"]): (row, failed) for row, failed in schedule.each_row(book, "rope", OF_ROPE)}
        stays = list(schedule.each_row(book, "stays", (*WORDS, *NUMBERS)))
        fittings = list(
            schedule.each_row(
                book,
                "stays",
                (*fitting_page.WORDS, *fitting_page.NUMBERS, *trial_pages.NUMBERS),
                newer.columns(book, "stays", fitting_page.NEWER),
            )
        )
        upper, lower = ({row.get(end) for row, _ in fittings} for end in ("upper", "lower"))
        pages = [
            _page(row, failed, boat, ropes, fitting_page.read(*fitting, boat["warmer"], upper, lower))
            for (row, failed), fitting in zip(stays, fittings)
        ]
        sound = [
            {**row, **more}
            for (row, _), (more, _), page in zip(stays, fittings, pages)
            if not page.why_not and all(isinstance(more.get(key), float) for key in trial_pages.NUMBERS)
        ]
        trials = trial_pages.read({name: row for name, (row, _) in ropes.items()}, sound, boat)
        heading = _heading(book, boat)
    except (schedule.Missing, schedule.Failed) as wrong:
        raise Refusal(f"Nothing was written. Mend this first: {wrong}.") from None
    if not pages:
        raise Refusal("Nothing was written: no stay has a name yet.")
    return heading, pages, trials


def _heading(book: Any, boat: "dict[str, Any]") -> str:
    note = layout.shortened(schedule.words(boat["note"]))
    ended = note if not note or note[-1] in ".!?…" else f"{note}."
    return f"{schedule.boat(book)}. {ended}".strip()


def _of_trials(trials: "list[Trial]") -> "Iterator[tuple[str, Draw]]":
    for trial in trials:
        yield trial.rope, lambda pen, room, trial=trial: _draw_trial(pen, trial, room)
        if not trial.why_not:
            yield trial.rope, lambda pen, room, trial=trial: trial_pages.draw_measuring(pen, trial, room)


def _of_stays(pages: "list[Page]") -> "Iterator[tuple[str, Draw]]":
    for page in pages:
        yield page.stay, lambda pen, room, page=page: _draw(pen, page, room)
        if not page.why_not:
            yield (
                page.stay,
                lambda pen, room, page=page: fitting_page.draw(pen, page.stay, page.check, page.fitting, room),
            )


def _page(
    row: "dict[str, Any]", failed: "list[str]", boat: "dict[str, Any]", ropes: "dict[str, Any]", fitting: Fitting
) -> Page:
    stay, check = schedule.words(row.get("name")), schedule.words(row.get("check"))
    rope, rope_failed = ropes.get(str(row.get("rope")), ({}, []))
    wrong = "; ".join([*failed, *rope_failed])
    if wrong:
        return Page(stay, check, why_not=f"Mend these cells first: {wrong}.")
    blank = [key.replace("_", " ") for key in NUMBERS if not isinstance(row[key], float)]
    if blank:
        return Page(stay, check, why_not=f"Not a number: {', '.join(blank)}.")
    try:
        marks = bench(
            row["span"],
            row["upper_eye"],
            row["lower_eye"],
            row["bury"],
            row["worked"],
            rope.get("take_up"),
            boat["waste"],
            boat["taper"],
            boat["growth"],
        )
        facts = _facts(row, boat)
        make = f"Make {row['number']:.0f} of {row['rope']}"
    except (BadInput, NoSolution) as refused:
        return Page(stay, check, why_not=f"The marks cannot be calculated: {refused}.")
    return Page(stay, check, make, facts, marks, _apart(row["cut"], marks[-1][1]), fitting)


def _apart(cut: float, last: float) -> str:
    """Why not, if the cut length of the row is not where the marks end: one of the two was typed over."""
    if abs(cut - last) < 0.5:
        return ""
    return f"Stays has a cut length of {cut:.0f} mm, but the marks end at {last:.0f} mm: a formula was typed over."


def _facts(row: "dict[str, Any]", boat: "dict[str, Any]") -> Facts:
    light = bench_tension(row["rope_size"])
    sleeves = [sleeve_length(row[eye], boat["gather"]) for eye in ("upper_eye", "lower_eye")]
    return (
        ("Cut", f"{row['cut']:.0f} mm"),
        ("Measure under", f"{light:.2f} kN ({layout.kilograms(light)} hung on)"),
        ("Upper eye (A), laid flat", f"{row['upper_eye']:.0f} mm"),
        ("Lower eye (B), laid flat", f"{row['lower_eye']:.0f} mm"),
        ("Sleeve for eye A", f"{sleeves[0]:.0f} mm"),
        ("Sleeve for eye B", f"{sleeves[1]:.0f} mm"),
        ("Bury", f"{row['bury']:.0f} mm"),
        ("of it tapered", f"{row['taper']:.0f} mm"),
        ("Bed in, several pulls", f"to {row['pretension']:.1f} kN"),
        ("Done: throat to throat", f"{row['span']:.0f} mm at {row['pretension']:.1f} kN"),
    )


def _draw(pen: Pen, page: Page, room: Room) -> float:
    y = layout.heading(pen, room.width, page.stay, "" if page.why_not else page.make, page.check)
    if page.why_not:
        return y + pen.text(
            (0, y), f"Do not make this stay yet. {page.why_not}", size=14, bold=True, width=room.width
        )
    return _rest(pen, y, page.facts, _how(page.marks), page.marks, room)


def _draw_trial(pen: Pen, trial: Trial, room: Room) -> float:
    y = layout.heading(pen, room.width, "Trial splice", trial.rope, None)
    if trial.why_not:
        return y + pen.text((0, y), trial.why_not, size=14, bold=True, width=room.width)
    y += pen.text((0, y), trial.known, size=TEXT, width=room.width) + 2
    return _rest(pen, y, trial.facts, trial_pages.first_steps(), trial.marks, room)


def _rest(pen: Pen, y: float, facts: Facts, how: str, marks: "tuple[tuple[str, float], ...]", room: Room) -> float:
    """Facts, how to mark, and the rope with its marks, as far apart as the page allows."""
    y += layout.two_columns(pen.at(0, y), facts, room.width) + 3
    y += pen.text((0, y), how, size=TEXT, width=room.width) + 3
    pitch = max(LEAST_PITCH, min(MOST_PITCH, (room.height - y - 2 * LINE) / len(marks)))
    pen.text((0, y + 2), "Rope with its marks, not to scale", size=HEAD, bold=True)
    _marks(pen.at(0, y + 2 * LINE), marks, pitch, room.width)
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


def _marks(pen: Pen, marks: "tuple[tuple[str, float], ...]", pitch: float, width: float) -> None:
    end = marks[-1][1]
    place = {name: pitch * (row + 0.5) for row, (name, _) in enumerate(marks)}
    for x, words in ((WORDS_AT, "mark"), (width - 35, "mm from end A"), (width, "mm from end B")):
        pen.text((x, -2.5), words, size=TEXT, align="left" if x == WORDS_AT else "right")
    _rope(pen, place)
    for name, distance in marks:
        y = place[name]
        pen.line((ROPE_AT - 5, y), (WORDS_AT - 1.5, y), stroke=CUT)
        pen.text((WORDS_AT, y), name, size=HEAD)
        pen.text((width - 35, y), f"{distance:.0f}", size=HEAD, bold=True, align="right")
        pen.text((width, y), f"{end - distance:.0f}", size=HEAD, bold=True, align="right")
        pen.line((WORDS_AT, y + pitch / 2), (width, y + pitch / 2), stroke=THIN)


def _rope(pen: Pen, place: "dict[str, float]") -> None:
    """The rope from end A down to end B: waste, tail, eye, standing part, eye, tail, waste."""
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
        _brace(pen, place[f"end {end}"], tip, "waste")
        _brace(pen, tip, tail, f"tail {end}, buried")
        _brace(pen, tail, standing, f"eye {end}, {whole}, sleeved")
    throats = [place[f"throat {end}, standing part"] for end in "AB"]
    _box(pen, *throats, SHADED, ROPE_HALF)
    _brace(pen, *throats, "standing part")


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
