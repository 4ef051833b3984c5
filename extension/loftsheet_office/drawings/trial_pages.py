"""Trial splice: two pages for each rope in use, the marks on its piece, and how to pull and measure it.

Both eyes are those of the first stay that the rope is used for; where only loops are made of it they lie over the
first one's ring. The piece is a short stay: its marks come from the same function. All lengths are compared at the
light measuring tension: the set is that of the bare rope between two gauge marks, the take-up what the throats
have come nearer by beyond it, for each length buried.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Any

from loftsheet.cautions import PULLING
from loftsheet.errors import BadInput, NoSolution
from loftsheet.splice import bench, bench_tension, cut

from ..workbook.reading import as_text, day_of
from . import page_layout as layout
from .canvas import OUTLINE, THIN, Pen
from .page_layout import HEAD, LINE, TEXT, Facts, Room
from .stay import Assumed, Made, Pulled, RopeData, Stay

PULLS = 5
SHORTEST_GAUGE, GAUGE_STEP, CLEAR = 300.0, 100.0, 50.0  # mm
MORE_SET, MORE_TAKE_UP = 0.001, 0.01
MOST_STAYS = 8

Marks = tuple[tuple[str, float], ...]


@dataclass(frozen=True)
class Trial:
    """The trial splice of one rope; without marks it says why."""

    rope: str
    known: str
    piece: float = 0.0
    bury: float = 0.0
    take_up: float = 0.0
    lasting_set: float = 0.0
    facts: Facts = ()
    marks: Marks = ()
    gauge: float = 0.0
    throats: float = 0.0
    pretension: float = 0.0
    load: float = 0.0
    changes: "tuple[tuple[str, float, float, float], ...]" = ()
    why_not: str = ""
    of_loops: bool = False


Change = tuple[str, float, float, float]  # whose, its cut, and what is added for more set and for more take-up


@dataclass(frozen=True)
class LoopTrial:
    """A short stay of a loop's rope, pulled as a leg of the loop is, and what becomes of the loop's cut."""

    rope: RopeData
    made: Made
    pulled: Pulled
    change: Change


def trials(stays: "Sequence[Stay]", assumed: Assumed, loops: "Sequence[LoopTrial]" = ()) -> "Iterator[Trial]":
    """A trial for each rope, from the stays that can be made; from the loops where no stay is made of it."""
    by_rope: dict[str, list[tuple[Made, Pulled]]] = {}
    ropes = {}
    for stay in stays:
        if stay.made and stay.pulled and stay.rope:
            by_rope.setdefault(stay.rope.name, []).append((stay.made, stay.pulled))
            ropes[stay.rope.name] = stay.rope
    for name, rows in by_rope.items():
        changes = [_change(made, ropes[name].take_up, assumed.waste) for made, _ in rows]
        yield _trial(ropes[name], rows, changes, assumed)
    of_loops: dict[str, list[LoopTrial]] = {}
    for loop in loops:
        if loop.rope.name not in by_rope:
            of_loops.setdefault(loop.rope.name, []).append(loop)
    for those in of_loops.values():
        rows = [(loop.made, loop.pulled) for loop in those]
        yield _trial(those[0].rope, rows, [loop.change for loop in those], assumed, of_loops=True)


def _trial(
    rope: RopeData,
    rows: "list[tuple[Made, Pulled]]",
    changes: "list[Change]",
    assumed: Assumed,
    of_loops: bool = False,
) -> Trial:
    name, (first, first_pulled) = rope.name, rows[0]
    take_up, lasting_set = rope.take_up, rope.lasting_set
    if not isinstance(take_up, float) or not isinstance(lasting_set, float):
        return Trial(name, "", why_not="Take-up or set of this rope in Library is no number.")
    eyes = "Eyes over the ring of" if of_loops else "Eyes as those of"
    known = f"{_known(rope, take_up, lasting_set)} {eyes} {first.name}."
    piece = (assumed.trial if isinstance(assumed.trial, float) else 0.0) * 1000
    standing = piece - (first.cut - first.span / (1 + first.worked))
    try:
        marks = bench(
            standing * (1 + first.worked),
            first.upper_eye,
            first.lower_eye,
            first.bury,
            first.worked,
            take_up,
            assumed.waste,
            assumed.taper,
            assumed.growth,
        )
    except (BadInput, NoSolution):
        marks = ()
    at = dict(marks)
    gauge = _gauge(at["fid entry B"] - at["fid entry A"]) if marks else 0.0
    if gauge < SHORTEST_GAUGE:
        throats = standing + 2 * first.bury * take_up
        return Trial(name, known, why_not=_too_short(piece, throats, first.bury, assumed))
    middle = (at["fid entry A"] + at["fid entry B"]) / 2
    start = round(middle - gauge / 2)
    gauge_marks = (("gauge mark 1", float(start)), ("gauge mark 2", start + gauge))
    return Trial(
        name,
        known,
        piece,
        first.bury,
        take_up,
        lasting_set,
        _facts(piece, first, first_pulled),
        tuple(sorted((*marks, *gauge_marks), key=lambda mark: mark[1])),
        gauge,
        round(at["throat B, standing part"]) - round(at["throat A, standing part"]),
        max(made.pretension for made, _ in rows),
        max(pulled.load for _, pulled in rows),
        tuple(sorted(changes, key=lambda change: -change[1])),
        of_loops=of_loops,
    )


def _known(rope: RopeData, take_up: float, lasting_set: float) -> str:
    when = f" on {day_of(rope.trial_date)}" if isinstance(rope.trial_date, float) else ""
    return f"In Library now: take-up {take_up:.3f}, set {lasting_set:.4f}, {as_text(rope.trial)}{when}."


def _gauge(room: float) -> float:
    return (room - 2 * CLEAR) // GAUGE_STEP * GAUGE_STEP


def _too_short(piece: float, throats: float, bury: float, assumed: Assumed) -> str:
    growth = assumed.growth if isinstance(assumed.growth, float) else 1.0
    needed = 2 * growth * bury + SHORTEST_GAUGE + 2 * CLEAR
    least = ceil((piece + needed - throats) / 100) / 10
    return (
        f"A piece of {piece / 1000:.1f} m, Boat's trial splice, is too short for two splices of this rope with"
        f" gauge marks between them: it takes {least:.1f} m."
    )


def _facts(piece: float, first: Made, pulled: Pulled) -> Facts:
    light = bench_tension(first.rope_size)
    return (
        ("Cut", f"{piece:.0f} mm"),
        ("Measure under", f"{light:.2f} kN ({layout.kilograms(light)} hung on)"),
        ("Eye A, laid flat", f"{first.upper_eye:.0f} mm"),
        ("Eye B, laid flat", f"{first.lower_eye:.0f} mm"),
        ("Bury", f"{first.bury:.0f} mm"),
        ("of it tapered", f"{first.taper:.0f} mm"),
        ("Eye A is pulled over", f"{pulled.upper_under:.1f} mm"),
        ("Eye B is pulled over", f"{pulled.lower_under:.1f} mm"),
    )


def _change(made: Made, take_up: Any, waste: Any) -> Change:
    """The stay, its cut length, and what the cut changes by when set or take-up is found to be larger."""

    def length(more_set: float = 0.0, more_take_up: float = 0.0) -> float:
        return float(
            cut(
                made.span,
                made.upper_eye,
                made.lower_eye,
                made.bury,
                made.worked + more_set,
                take_up + more_take_up,
                waste,
            )
        )

    now = length()
    return made.name, now, length(more_set=MORE_SET) - now, length(more_take_up=MORE_TAKE_UP) - now


def leg(pull: float, turns: float) -> float:
    """What a leg of a loop carries of the pull, all alike."""
    return pull / (2 * turns)


def first_steps() -> str:
    return (
        "Lay the piece along the tape under the measuring tension and set every mark; sew a thread through the"
        " gauge marks and the throats of the standing part, for they are measured again. Splice both ends exactly"
        " as the stays will be: eyes sleeved, tails tapered, buried and lock-stitched."
    )


def steps(trial: Trial) -> "tuple[str, ...]":
    return (
        "Hang the spliced piece between two fixings that bear the pull, each eye over the thickness that it will"
        " lie on aboard. Put the light tension on and write down line 3.",
        _pulls(trial),
        "Put the light tension on again and write down lines 4 and 5.",
        "Type take-up and set into the rope's row in Library, measured, with the date. Then print these pages"
        " anew: cut and marks follow.",
        "How often and how hard to pull is common practice, no source; what the rope's maker says wins. The harder"
        " the pull, the larger the set: a stay that was bedded in to less sets the rest under sail, and its"
        " lashing is hauled again.",
    )


def _pulls(trial: Trial) -> str:
    often = f"Pull {PULLS} times to {trial.pretension:.1f} kN ({layout.kilograms(trial.pretension)}), the largest"
    if trial.of_loops:
        return f"{often} that a leg of its loops carries, and let down each time."
    return (
        f"{often} pretension of its stays, and let down each time. Then, if fixings and tackle bear it, once to"
        f" {trial.load:.1f} kN ({layout.kilograms(trial.load)}), the largest working load."
    )


def draw_measuring(trial: Trial, pen: Pen, room: Room) -> float:
    """The second page: pulling, lines to write into, formulas, and what they do to the cut."""
    y = layout.heading(pen, room.width, "Trial splice: pull and measure", trial.rope, None)
    y += pen.text((0, y), trial.known, size=TEXT, width=room.width) + 2
    y += layout.caution(pen.at(0, y), (PULLING,), room.width) + 2
    y += layout.steps(pen.at(0, y), steps(trial), room.width) + 2
    y += _lines(pen.at(0, y), trial, room.width) + 2
    y += _formulas(pen.at(0, y), trial, room.width) + 2
    return y + _changes(pen.at(0, y), trial, room.width)


def _lines(pen: Pen, trial: Trial, width: float) -> float:
    spliced = trial.throats - 2 * trial.bury * trial.take_up
    grown = 1 + trial.lasting_set
    rows = (
        ("1  Gauge marks, before", f"{trial.gauge:.0f}", ""),
        ("2  Throat A to throat B, not spliced", f"{trial.throats:.0f}", ""),
        ("3  Throat A to throat B, spliced, not pulled", f"{spliced:.0f}", "measure"),
        ("4  Gauge marks, after the pulls", f"{trial.gauge * grown:.0f}", "measure"),
        ("5  Throat A to throat B, after the pulls", f"{spliced * grown:.0f}", "measure"),
    )
    expected, written, high = width - 52, width - 46, LINE + 0.7
    pen.text((0, high / 2), "All at the light tension, mm", size=HEAD, bold=True)
    pen.text((expected, high / 2), "due", size=TEXT, align="right")
    pen.text((written, high / 2), "measured", size=TEXT)
    for row, (label, value, due) in enumerate(rows, 1):
        y = high * (row + 0.5)
        pen.text((0, y), label, size=TEXT)
        pen.text((expected, y), value, size=TEXT, bold=not due, align="right")
        pen.polygon(
            (written, y - 3), (width, y - 3), (width, y + 3), (written, y + 3), stroke=OUTLINE if due else THIN
        )
    return high * (len(rows) + 1)


def _formulas(pen: Pen, trial: Trial, width: float) -> float:
    lines = (
        "Set = line 4 / line 1 − 1 = ____________",
        f"Take-up = (line 2 − line 5 / (1 + set)) / {2 * trial.bury:.0f} = ____________",
    )
    y = 0.0
    for line in lines:
        y += pen.text((0, y), line, size=HEAD, bold=True, width=width) + 2.5
    words = (
        "Lines 1 and 2 as measured, if they came out otherwise than by the marks. Line 5 clearly above line 3 ×"
        " (1 + set): a tail has crept, look at both splices and cut no stay before you know why."
    )
    return y + pen.text((0, y), words, size=TEXT, width=width)


def _changes(pen: Pen, trial: Trial, width: float) -> float:
    """How far each cut moves; the longest stays first."""
    shown, high = trial.changes[:MOST_STAYS], LINE - 0.6
    columns = (width - 96, width - 50, width)
    titles = ("cut now", f"set {MORE_SET:.3f} larger", f"take-up {MORE_TAKE_UP:.3f} larger")
    pen.text((0, high / 2), "What that does to the cut, mm", size=HEAD, bold=True)
    for x, title in zip(columns, titles):
        pen.text((x, high / 2), title, size=TEXT, align="right")
    for row, (stay, now, by_set, by_take_up) in enumerate(shown, 1):
        y = high * (row + 0.5)
        pen.text((0, y), stay if len(stay) <= 36 else f"{stay[:35]}…", size=TEXT)
        for x, value in zip(columns, (f"{now:.0f}", f"{by_set:+.0f}", f"{by_take_up:+.0f}")):
            pen.text((x, y), value.replace("-", "−"), size=TEXT, align="right")
        pen.line((0, y + high / 2), (width, y + high / 2), stroke=THIN)
    y = high * (len(shown) + 1)
    left_out = len(trial.changes) - len(shown)
    if left_out:
        y += pen.text((0, y + 1), f"and {left_out} shorter ones, which change less", size=TEXT, width=width) + 1
    return y
