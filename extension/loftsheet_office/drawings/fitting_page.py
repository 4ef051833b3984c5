"""The page of a stay to take on board: what each eye lies on, the lashing, and the tension to haul it to."""

from dataclasses import dataclass

from loftsheet.cautions import ALOFT, PULLING

from ..workbook.reading import Value, as_text
from . import page_layout as layout
from .canvas import CUT, LIGHT, OUTLINE, Pen, Stroke
from .page_layout import HEAD, TEXT, Facts, Room
from .stay import LOOP, Hung, Stay

BY_HAND = 0.3  # kN, what one hand pulls, as Read first says; common practice, no source
DEGREES = 5.0
SPREADERS = {0: (), 1: ("Spreader tip",), 2: ("Upper spreader tip", "Lower spreader tip")}
VALUE_AT = 76.0
ROPE = Stroke(width=0.3, fill=LIGHT)


@dataclass(frozen=True)
class Fitting:
    """What stands on the page; when a number is missing it says why."""

    facts: Facts = ()
    steps: "tuple[str, ...]" = ()
    parts: int = 0
    gap: str = ""
    lower: str = ""
    why_not: str = ""


NOTHING = Fitting()


def fitting(of: Stay, warmer: Value, uppers: "set[str]", lowers: "set[str]") -> Fitting:
    """The page of a stay; columns that a schedule of an earlier release has not are left out.

    It goes on in others if its lower point is among the upper ones, and hangs from another the other way round.
    """
    hung = of.hung
    if hung is None:
        return Fitting(why_not=of.not_hung)
    goes_on, hangs = hung.lower in uppers - {""}, hung.upper in lowers - {""}
    return Fitting(
        facts=(
            ("Eye A, upper end, lies over", _under(hung.upper_over, hung.upper_under, hung.upper_ring)),
            *((("… of two on that stub it lies", hung.eye_lies),) if hung.eye_lies else ()),
            ("Eye B, lower end, lies over", _under(hung.lower_over, hung.lower_under, hung.lower_ring)),
            ("Lashing line", f"{hung.line}, {hung.line_each:.0f} mm for one lashing"),
            ("Parts", f"{hung.parts:.0f}"),
            *_fittings(hung),
            ("All in the line has to bear", f"{hung.load:.1f} kN, the working load"),
            *_gaps(hung),
            *(() if goes_on else _haul(hung)),
            ("Pretension", f"{hung.pretension:.1f} kN at the temperature at which you tune"),
            *_temperature(hung, warmer),
            *((("Note", hung.note),) if hung.note else ()),
        ),
        steps=_steps(hung, goes_on, hangs),
        parts=int(hung.parts),
        gap=_gap_drawn(hung, goes_on),
        lower=f"other fittings, {_fitted(hung)}" if _fitted(hung) else _lower(hung),
    )


def _gap_drawn(hung: Hung, goes_on: bool) -> str:
    if goes_on:
        return f"gap at pretension: {hung.take_up_left:.0f} mm"
    return f"gap, bedded in: {hung.gap_bedded:.0f} mm" if isinstance(hung.gap_bedded, float) else "gap"


def _lower(hung: Hung) -> str:
    return hung.lower or "chainplate"


def _fittings(hung: Hung) -> "Facts":
    """What stands in the line besides, as typed: a number is in mm."""
    return (("Other fittings in the line", _fitted(hung)),) if _fitted(hung) else ()


def _fitted(hung: Hung) -> str:
    held = hung.fittings
    return f"{held:.0f} mm" if isinstance(held, float) else as_text(held)


def _under(over: str, under: float, ring: str) -> str:
    size = f"{under:.1f} mm"
    return {"stub": f"the stub, rod {size}", "ring": f"{ring}, {size} under the eye"}.get(over, f"{over}, {size}")


def _gaps(hung: Hung) -> "Facts":
    bedded = hung.gap_bedded
    hung_new = ("Gap, hung without bedding in", f"{hung.gap:.0f} mm")
    before = (("Gap, bedded in on the bench", f"{bedded:.0f} mm"),) if isinstance(bedded, float) else ()
    return (*before, hung_new, ("Gap at pretension, all taken up", f"{hung.take_up_left:.0f} mm"))


def _haul(hung: Hung) -> "Facts":
    haul = hung.haul
    if not isinstance(haul, float):
        return ()
    how = ": with a winch or a tackle" if haul > BY_HAND else ""
    return (("Haul the tail with", f"{haul:.2f} kN ({layout.kilograms(haul)}){how}"),)


def _temperature(hung: Hung, warmer: Value) -> "Facts":
    change = hung.tighten_tension
    if not isinstance(change, float) or not isinstance(warmer, float) or not change:
        return ()
    change *= DEGREES / warmer
    warm, cold = ("more", "less") if change >= 0 else ("less", "more")
    at_most = f"at most {abs(change):.2f} kN {warm}; {DEGREES:g} °C colder: as much {cold}"
    slack = f"from {DEGREES * hung.pretension / abs(change):.0f} °C {'colder' if change > 0 else 'warmer'} on"
    return (f"{DEGREES:g} °C warmer: the tension is", at_most), ("It may be slack", slack)


def _measured(hung: Hung, goes_on: bool, hangs: bool) -> "tuple[str, ...]":
    """How far the ring is from what it is lashed to."""
    lower, ring = _lower(hung), hung.lower_over
    where = "ring in the rope loop" if hung.plate_made_of == LOOP else "hole at the lower point"
    if goes_on:
        return (
            f"Other stays go on from {lower}: lash this one to their upper {ring}s first, with the gap at"
            " pretension between the centres, while all hang slack. Do not haul it; haul their lashings, evenly.",
        )
    to = (
        f"the near end of the other fittings, {_fitted(hung)} long as when they are set up"
        if _fitted(hung)
        else f"the centre of the {where}, {lower}"
    )
    slack = " What the stay above still stretches by comes on top." if hangs else ""
    return (
        f"Take the slack out by hand and measure the gap, from the {ring}'s centre to {to}.{slack} Far from what"
        " stands above: stop and find out why.",
    )


def _steps(hung: Hung, goes_on: bool, hangs: bool) -> "tuple[str, ...]":
    on_stub = hung.upper_over == "stub"
    over_plate = "over the end plate on to the stub, its crown on top"
    if hung.beside:
        order = "before" if hung.eye_lies.startswith("inside") else "after"
        over_plate += f", {hung.eye_lies}, {order} that of {hung.beside}"
    hang = over_plate if on_stub else f"on to its {hung.upper_over}"
    pull = "the last one with the pull above" if _haul(hung) else "then the last one"
    last = "Draw each part snug, no more" if goes_on else f"Haul each part in turn, {pull}"
    from_where = "the bolt" if on_stub else f"the upper point, {hung.upper}"
    below = " at the lashings that follow" if goes_on else ""
    tips = [via for via in (hung.via_length, hung.via_2_length) if isinstance(via, float)]
    spreader = tuple(
        f"{name} about {via:.0f} mm below {from_where}, along the rope: chafe sleeve and seizing there. The sleeve"
        " goes on before the second eye is closed."
        for name, via in zip(SPREADERS[len(tips)], tips)
    )
    return (
        f"Bring eye A, in its sleeve, {hang}. Let the rope hang without a turn in it.",
        *spreader,
        *_measured(hung, goes_on, hangs),
        "Fix one end of the line to the ring with a knot that does not slip, as a bowline; an eye spliced into it"
        " takes more line than is listed.",
        f"Pass the line through both for {hung.parts:.0f} parts, the turns side by side, none over another."
        f" {last}.",
        "Hold what is hauled. Carry the tail round all parts together in tight frapping turns and end with half"
        " hitches through between the parts. Never trust a single knot.",
        f"Write gap, tension and temperature into Log. Look again, and take up again{below}, after the first days"
        " under load.",
    )


def draw(stay: str, check: str, fitting: Fitting, pen: Pen, room: Room) -> float:
    """Draw the page; return the height that it takes."""
    y = layout.heading(pen, room.width, f"{stay}: hang and lash", "", check)
    if fitting.why_not:
        return y + pen.text(
            (0, y), f"Do not fit this stay yet. {fitting.why_not}", size=14, bold=True, width=room.width
        )
    y += layout.one_column(pen.at(0, y), fitting.facts, VALUE_AT, room.width) + 2
    y += _lashing(pen.at(0, y), fitting) + 2
    y += layout.caution(pen.at(0, y), (ALOFT, PULLING), room.width) + 2
    y += pen.text((0, y), "Steps: common practice, no source", size=HEAD, bold=True, width=room.width) + 1.5
    return y + layout.steps(pen.at(0, y), fitting.steps, room.width)


def _lashing(pen: Pen, fitting: Fitting) -> float:
    """Ring and chainplate with the line between them, from the side; not to scale."""
    pen.text((0, 3), "Lashing, not to scale", size=HEAD, bold=True)
    ring, plate, middle = 62.0, 132.0, 22.0
    half = 9.0
    pen.polygon(
        (20, middle - 2.5), (ring - 8, middle - 2.5), (ring - 8, middle + 2.5), (20, middle + 2.5), stroke=ROPE
    )
    pen.circle((ring, middle), 18, stroke=ROPE)
    pen.circle((ring, middle), 12)
    pen.text((18, middle), "rope", size=TEXT, align="right")
    pen.text((ring, middle + half + 4), "eye B", size=TEXT, align="centre")
    outline = (
        (plate - half, middle - 6),
        (plate + half, middle - 6),
        (plate + half, middle + 6),
        (plate - half, middle + 6),
    )
    pen.polygon(*outline, stroke=OUTLINE)
    pen.circle((plate, middle), 8)
    pen.text((plate, middle + half + 4), fitting.lower, size=TEXT, align="centre")
    for part in range(fitting.parts):
        rise = 3.0 * ((part + 0.5) / fitting.parts * 2 - 1)
        pen.line((ring + 2, middle + rise), (plate - 1, middle + rise), stroke=CUT)
    pen.text(((ring + plate) / 2, middle + 6.5), f"{fitting.parts} parts", size=TEXT, align="centre")
    pen.line((ring, middle), (ring, middle - 13), stroke=CUT)
    pen.line((plate, middle), (plate, middle - 13), stroke=CUT)
    pen.arrow(((ring + plate) / 2, middle - 12), (ring, middle - 12))
    pen.arrow(((ring + plate) / 2, middle - 12), (plate, middle - 12))
    pen.text(((ring + plate) / 2, middle - 15), fitting.gap, size=TEXT, align="centre")
    return middle + half + 8
