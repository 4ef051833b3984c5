"""Bench pages: one PDF with a page for every stay, its marks in order from either end, to pin over the bench.

The marks come from the row's values by the same function that the sheet Bench uses; what is picked there does not
matter and is not changed. A stay whose row holds an error has its page too: it says what to mend, and no marks.
"""

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from loftsheet import __version__
from loftsheet.cautions import CAUTIONS
from loftsheet.errors import BadInput, NoSolution
from loftsheet.eye import sleeve_length
from loftsheet.splice import bench, bench_tension

from . import book as schedule
from .drawing import BLACK, CUT, HIDDEN, LIGHT, MARGIN, OUTLINE, THIN, Drawing, Pen, Stroke
from .files import refuse_kept
from .refusal import Refusal

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
BOAT = ("waste", "taper", "growth", "gather")
TEXT, HEAD = 11.0, 12.0  # points, to be read at arm's length
LINE = 6.5
MOST_PITCH, LEAST_PITCH = 9.0, 5.2
ROPE_AT, ROPE_HALF, WORDS_AT = 62.0, 2.5, 74.0
SHADED = Stroke(width=0.25, fill=LIGHT)
SLEEVED = Stroke(width=0.6, colour=BLACK, fill=LIGHT)
NEWTONS_PER_KILOGRAM = 9.80665


@dataclass(frozen=True)
class Page:
    """What stands on the page of one stay; without marks it says why."""

    stay: str
    check: str
    make: str = ""
    facts: "tuple[tuple[str, str], ...]" = ()
    marks: "tuple[tuple[str, float], ...]" = ()
    why_not: str = ""


def write(desktop: Any, book: Any, path: Path, paper: str = "A4") -> "dict[str, str]":
    """Write the PDF; return the stays that have no marks, and why."""
    if path.suffix.lower() != ".pdf":
        raise Refusal(f"Nothing was written: {path.name} does not end in .pdf; the bench pages are a PDF.")
    refuse_kept(path)
    heading, pages = read(book)
    with Drawing(desktop, paper, landscape=False, title=f"Bench pages, {heading}") as drawing:
        for number, page in enumerate(pages, 1):
            pen = drawing.page().at(MARGIN, MARGIN)
            foot = f"{heading}. Page {number} of {len(pages)}, {date.today()}. Loftsheet {__version__}."
            _draw(pen, page, foot, drawing.width - 2 * MARGIN, drawing.height - 2 * MARGIN)
        drawing.save(path)
    return {page.stay: page.why_not for page in pages if page.why_not}


def read(book: Any) -> "tuple[str, list[Page]]":
    """The boat in words, and a page for each named stay."""
    try:
        boat = {key: schedule.value(book, f"boat_{key}") for key in BOAT}
        take_ups = {
            str(row["name"]): (row, failed) for row, failed in schedule.each_row(book, "rope", ("take_up",))
        }
        pages = [
            _page(row, failed, boat, take_ups) for row, failed in schedule.each_row(book, "stays", WORDS + NUMBERS)
        ]
        heading = schedule.boat(book)
    except (schedule.Missing, schedule.Failed) as wrong:
        raise Refusal(f"Nothing was written. Mend this first: {wrong}.") from None
    if not pages:
        raise Refusal("Nothing was written: no stay has a name yet.")
    return heading, pages


def _page(row: "dict[str, Any]", failed: "list[str]", boat: "dict[str, Any]", take_ups: "dict[str, Any]") -> Page:
    stay, check = schedule.words(row.get("name")), schedule.words(row.get("check"))
    rope, rope_failed = take_ups.get(str(row.get("rope")), ({}, []))
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
    return Page(stay, check, make, facts, marks, _apart(row["cut"], marks[-1][1]))


def _apart(cut: float, last: float) -> str:
    """Why not, if the cut length of the row is not where the marks end: one of the two was typed over."""
    if abs(cut - last) < 0.5:
        return ""
    return f"Stays has a cut length of {cut:.0f} mm, but the marks end at {last:.0f} mm: a formula was typed over."


def _facts(row: "dict[str, Any]", boat: "dict[str, Any]") -> "tuple[tuple[str, str], ...]":
    light = bench_tension(row["rope_size"])
    sleeves = [sleeve_length(row[eye], boat["gather"]) for eye in ("upper_eye", "lower_eye")]
    return (
        ("Cut", f"{row['cut']:.0f} mm"),
        ("Measure under", f"{light:.2f} kN ({light * 1000 / NEWTONS_PER_KILOGRAM:.0f} kg hung on)"),
        ("Upper eye (A), laid flat", f"{row['upper_eye']:.0f} mm"),
        ("Lower eye (B), laid flat", f"{row['lower_eye']:.0f} mm"),
        ("Sleeve for eye A", f"{sleeves[0]:.0f} mm"),
        ("Sleeve for eye B", f"{sleeves[1]:.0f} mm"),
        ("Bury", f"{row['bury']:.0f} mm"),
        ("of it tapered", f"{row['taper']:.0f} mm"),
        ("Bed in, several pulls", f"to {row['pretension']:.1f} kN"),
        ("Done: throat to throat", f"{row['span']:.0f} mm at {row['pretension']:.1f} kN"),
    )


def _draw(pen: Pen, page: Page, foot: str, width: float, height: float) -> None:
    y = 0.5 + pen.text((0, 0.5), page.stay, size=20, bold=True, width=width) + 1
    if page.make and not page.why_not:
        y += pen.text((0, y), page.make, size=16, bold=True, width=width) + 1
    y += _check(pen.at(0, y), page, width) + 3
    bottom = height - _foot(pen, foot, width, height)
    if page.why_not:
        pen.text((0, y), f"Do not make this stay yet. {page.why_not}", size=14, bold=True, width=width)
        return
    y += _two_columns(pen.at(0, y), page.facts, width) + 3
    y += pen.text((0, y), _how(page.marks), size=TEXT, width=width) + 3
    pitch = min(MOST_PITCH, (bottom - y - 2 * LINE) / len(page.marks))
    if pitch < LEAST_PITCH:
        raise Refusal(f"Nothing was written: the name or the Check of {page.stay} is too long for a page.")
    pen.text((0, y + 2), "Rope with its marks, not to scale", size=HEAD, bold=True)
    _marks(pen.at(0, y + 2 * LINE), page.marks, pitch, width)


def _how(marks: "tuple[tuple[str, float], ...]") -> str:
    at = dict(marks)
    overlap = at["fid entry A"] > at["fid entry B"]
    when = (
        "set the marks of end A, splice it, then those of end B, for they overlap" if overlap else "set every mark"
    )
    return (
        f"Lay the rope along the tape under the measuring tension and {when}. Sleeve on before the eye is closed;"
        " waste off when the tail is tapered; lock stitch from the throat to its mark."
    )


def _check(pen: Pen, page: Page, width: float) -> float:
    """What the Check says, in a frame unless it is OK; return the height it takes."""
    if page.check == "OK":
        return pen.text((0, 0), "Check: OK", size=TEXT, width=width)
    tall = pen.text((2, 1.5), f"Check: {page.check}", size=HEAD, bold=True, width=width - 4)
    pen.polygon((0.2, 0.2), (width - 0.2, 0.2), (width - 0.2, tall + 3), (0.2, tall + 3), stroke=OUTLINE)
    return tall + 3


def _two_columns(pen: Pen, facts: "tuple[tuple[str, str], ...]", width: float) -> float:
    for at, (label, value) in enumerate(facts):
        x, y = (width / 2 if at % 2 else 0.0), LINE * (at // 2 + 0.5)
        pen.text((x, y), label, size=TEXT)
        pen.text((x + 46, y), value, size=TEXT, bold=True)
    return LINE * ((len(facts) + 1) // 2)


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


def _foot(pen: Pen, words: str, width: float, height: float) -> float:
    """Cautions in short, boat, revision and page at the foot; return the height they take."""
    lines = (" ".join(CAUTIONS[:3]), words)
    tall = sum(pen.height(line, TEXT, width) for line in lines) + 2
    y = height - tall
    pen.line((0, y), (width, y), stroke=THIN)
    y += 1
    for line in lines:
        y += pen.text((0, y), line, size=TEXT, width=width)
    return tall + 2
