"""Bench page of a rope loop that is a chainplate: its marks from either end, and how it is made and laid."""

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from typing import Any, Optional

from loftsheet.cautions import PULLING
from loftsheet.chainplate import grommet_marks
from loftsheet.errors import BadInput, NoSolution
from loftsheet.eye import eye_length, grommet_cut
from loftsheet.splice import bench_tension, cut, taper

from ..workbook import reading, records
from ..workbook.reading import Row
from . import page_layout as layout
from . import rope_marks
from .canvas import HIDDEN, Pen
from .page_layout import HEAD, Facts, Room
from .rope_marks import Marks
from .stay import LOOP, Assumed, Made, Pulled, RopeData
from .trial_pages import MORE_SET, MORE_TAKE_UP, Change, LoopTrial, leg

TABLE = "chainplates"
SHORT_STAY = 3  # buries from throat to throat, so that they do not meet


@dataclass(frozen=True)
class Loop:
    """What a row of Chainplates says of its loop; lengths in mm, forces in kN."""

    name: str
    check: str
    note: str
    made_of: str
    stay: str
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
    loop: Optional[Loop] = None
    trial: Optional[LoopTrial] = None


def read(book: Any, assumed: Assumed) -> "tuple[LoopPage, ...]":
    """The pages of all loops; none in a schedule from before there were chainplates."""
    if not book.NamedRanges.hasByName(f"{TABLE}_name"):
        return ()
    of_rope = tuple(one.name for one in fields(RopeData))
    ropes = {str(row.get("name")): row for row in reading.rows(book, "rope", of_rope)}
    grooves = {str(row.get("name")): row.get("groove") for row in reading.rows(book, "ring", ("groove",))}
    rows = [row for row in records.rows(book, TABLE, Loop) if row.get("made_of") == LOOP]
    pages = (_page(row, ropes.get(str(row.get("rope"))), assumed) for row in rows)
    return tuple(_with_trial(page, ropes, grooves, assumed) for page in pages)


def _with_trial(
    page: LoopPage, ropes: "dict[str, Row]", grooves: "dict[str, reading.Value]", assumed: Assumed
) -> LoopPage:
    """The page with the trial splice of its rope: eyes over the loop's ring."""
    loop = page.loop
    groove = grooves.get(loop.ring) if loop else None
    if loop is None or not isinstance(groove, float):
        return page
    rope = RopeData(**ropes[loop.rope].values)
    of_leg = leg(loop.pull, loop.turns)
    try:
        eye = eye_length(groove, loop.rope_size)
        whole, worked, change = _by_numbers(loop, rope, eye, assumed)
        of_it_tapered = taper(loop.bury, assumed.taper)
    except (BadInput, NoSolution):
        return page
    made = Made(
        name=loop.name,
        check=loop.check,
        rope=loop.rope,
        number=loop.count,
        rope_size=loop.rope_size,
        cut=whole,
        span=SHORT_STAY * loop.bury,
        pretension=of_leg,
        load=of_leg,
        upper_eye=eye,
        lower_eye=eye,
        bury=loop.bury,
        taper=of_it_tapered,
        worked=worked,
    )
    return replace(page, trial=LoopTrial(rope, made, Pulled(of_leg, groove, groove), change))


def _by_numbers(loop: Loop, rope: RopeData, eye: float, assumed: Assumed) -> "tuple[float, float, Change]":
    """Cut of the short stay, its stretch, and how the loop's cut changes; nothing without its numbers."""
    if not (isinstance(rope.take_up, float) and isinstance(rope.lasting_set, float)):
        return loop.cut, 0.0, (loop.name, loop.cut, 0.0, 0.0)
    whole = cut(SHORT_STAY * loop.bury, eye, eye, loop.bury, rope.lasting_set, rope.take_up, assumed.waste)
    return float(whole), rope.lasting_set, _change(loop, rope, assumed)


def _change(loop: Loop, rope: RopeData, assumed: Assumed) -> Change:
    """What the loop's cut changes by when set or take-up is found to be larger."""

    def length(more_set: float = 0.0, more_take_up: float = 0.0) -> float:
        take_up, lasting_set = rope.take_up + more_take_up, rope.lasting_set + more_set
        return float(
            grommet_cut(loop.inside, loop.rope_size, loop.bury, take_up, assumed.waste, loop.turns, lasting_set)
        )

    now = length()
    return loop.name, now, length(more_set=MORE_SET) - now, length(more_take_up=MORE_TAKE_UP) - now


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
    return LoopPage(name, check, make, _facts(loop), _steps(loop, marks), marks, loop=loop)


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
        ("Loop round", _goes_round(loop)),
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
    y = opening(page, pen, room.width)
    if page.why_not:
        return y
    y += layout.two_columns(pen.at(0, y), page.facts, room.width) + 3
    y += pen.text((0, y), "Steps: common practice, no source", size=HEAD, bold=True, width=room.width) + 1.5
    y += layout.steps(pen.at(0, y), page.steps, room.width) + 1
    y += layout.caution(pen.at(0, y), (PULLING,), room.width) + 3
    return rope_marks.below(pen, y, page.marks, room.width, room.height, draw_rope)


def opening(page: LoopPage, pen: Pen, width: float) -> float:
    return layout.opening(pen, width, f"{page.name}: rope loop", page.make, page.check, page.why_not, "loop")


def draw_rope(pen: Pen, place: "dict[str, float]", braces: bool) -> None:
    """A loop laid straight: waste, tail, standing part, tail, waste."""
    parts: Sequence[tuple[float, float, str]] = ()
    for end in "AB":
        tip, taper, crossing = (place[f"{mark} {end}"] for mark in ("tail tip", "taper start", "crossing"))
        rope_marks.stretch(pen, place[f"end {end}"], tip, HIDDEN)
        rope_marks.tapered(pen, tip, taper)
        rope_marks.stretch(pen, taper, crossing)
        parts = (*parts, (place[f"end {end}"], tip, "waste"), (tip, crossing, f"tail {end}, buried"))
    crossings = place["crossing A"], place["crossing B"]
    rope_marks.stretch(pen, *crossings)
    for part in (*parts, (*crossings, "standing part, all turns")) if braces else ():
        rope_marks.brace(pen, *part)
