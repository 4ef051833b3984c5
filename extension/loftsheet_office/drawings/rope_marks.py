"""The rope with its marks, from end A down to end B, and where each is from either end."""

from typing import Callable

from .canvas import CUT, LIGHT, THIN, Pen, Stroke
from .page_layout import HEAD, LINE, TEXT

MOST_PITCH, LEAST_PITCH = 9.0, 5.2
ROPE_AT, ROPE_HALF, WORDS_AT, APART = 66.0, 2.5, 78.0, 35.0
NARROW_ROPE_AT, NARROW_APART = 6.0, 20.0
SHADED = Stroke(width=0.25, fill=LIGHT)

Marks = tuple[tuple[str, float], ...]
Place = dict[str, float]
DrawRope = Callable[[Pen, Place, bool], None]


def below(pen: Pen, y: float, marks: Marks, width: float, height: float, rope: DrawRope) -> float:
    """The marks below what stands on the page, as far apart as it allows; return where they end."""
    pitch = max(LEAST_PITCH, min(MOST_PITCH, (height - y - 2 * LINE) / len(marks)))
    pen.text((0, y + 2), "Rope with its marks, not to scale", size=HEAD, bold=True)
    draw(pen.at(0, y + 2 * LINE), marks, pitch, width, rope)
    return y + 2 * LINE + pitch * len(marks)


def draw(pen: Pen, marks: Marks, pitch: float, width: float, rope: DrawRope, narrow: bool = False) -> None:
    """The rope with its marks, so far apart, and where each is from either end.

    A narrow one leaves out what the parts of the rope are called.
    """
    end = marks[-1][1]
    place = {name: pitch * (row + 0.5) for row, (name, _) in enumerate(marks)}
    rope_at, apart, size = (NARROW_ROPE_AT, NARROW_APART, TEXT) if narrow else (ROPE_AT, APART, HEAD)
    words_at = rope_at + WORDS_AT - ROPE_AT
    from_a, from_b = ("from A", "from B") if narrow else ("mm from end A", "mm from end B")
    for x, words in ((words_at, "mark"), (width - apart, from_a), (width, from_b)):
        pen.text((x, -2.5), words, size=TEXT, align="left" if x == words_at else "right")
    rope(pen.at(rope_at - ROPE_AT, 0), place, not narrow)
    for name, distance in marks:
        y = place[name]
        pen.line((rope_at - 5, y), (words_at - 1.5, y), stroke=CUT)
        pen.text((words_at, y), name, size=size)
        pen.text((width - apart, y), f"{distance:.0f}", size=size, bold=True, align="right")
        pen.text((width, y), f"{end - distance:.0f}", size=size, bold=True, align="right")
        pen.line((words_at, y + pitch / 2), (width, y + pitch / 2), stroke=THIN)


def tapered(pen: Pen, tip: float, taper: float) -> None:
    """The thinned part of a tail."""
    left, right, thin = ROPE_AT - ROPE_HALF, ROPE_AT + ROPE_HALF, ROPE_HALF / 4
    pen.polygon((ROPE_AT - thin, tip), (ROPE_AT + thin, tip), (right, taper), (left, taper), stroke=SHADED)


def stretch(pen: Pen, start: float, end: float, stroke: Stroke = SHADED, half: float = ROPE_HALF) -> None:
    """A part of the rope, as thick everywhere."""
    left, right = ROPE_AT - half, ROPE_AT + half
    pen.polygon((left, start), (right, start), (right, end), (left, end), stroke=stroke)


def brace(pen: Pen, start: float, end: float, words: str) -> None:
    """What a part of the rope is called."""
    x = ROPE_AT - 8
    top, low = min(start, end) + 0.7, max(start, end) - 0.7
    pen.line((x + 1.5, top), (x, top), (x, low), (x + 1.5, low), stroke=THIN)
    pen.text((x - 2, (top + low) / 2), words, size=TEXT, align="right")
