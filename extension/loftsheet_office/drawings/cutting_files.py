"""A stub's end plate and its cutting template as .svg at 1:1, for a shop that cuts from a file.

A unit of the drawing is a millimetre, which width and height say. What is cut is a solid line, what is only marked
is dashed, words stand apart below. No allowance for the width of the cut.
"""

from collections.abc import Iterator, Sequence
from html import escape
from math import pi

from loftsheet.degrees import cos, tan
from loftsheet.tang import rod_wrap

from .stub import Stub
from .stub_parts import EYE_TICK, TAB, keeper_down, keeper_hole, mm

EDGE = 5.0  # mm, left free around what is drawn
WORDS, LINE_HEIGHT = 3.5, 5.0  # mm
LETTER = 0.55  # of the words' size, how wide a letter is at most on average
CROSS = 3.0  # mm, by which centre lines stand out of a hole
WRAP_POINTS = 361.0
HAIRLINE = 0.1

Point = tuple[float, float]


def end_plate(stub: Stub) -> str:
    """The plate seen from outboard, its top upwards: outline and keeper hole to cut, the bolt's hole to mark."""
    radius, keeper = stub.rod_size / 2, keeper_hole(stub)
    width, height = stub.rod_size, stub.rod_size + stub.rise
    outline = (
        f"M 0 {_n(radius)} A {_n(radius)} {_n(radius)} 0 0 1 {_n(width)} {_n(radius)}"
        f" V {_n(height - radius)} A {_n(radius)} {_n(radius)} 0 0 1 0 {_n(height - radius)} Z"
    )
    cut = [
        f'<path id="outline" d="{outline}"/>',
        f'<circle id="keeper-hole" cx="{_n(radius)}" cy="{_n(keeper_down(stub))}" r="{_n(keeper / 2)}"/>',
    ]
    across, down = stub.bolt_hole / 2, stub.bolt_hole / 2 / cos(stub.bevel)
    at = stub.rise + outer_exit(stub)
    marks = [
        f'<ellipse id="bolt-hole" cx="{_n(radius)}" cy="{_n(at)}" rx="{_n(across)}" ry="{_n(down)}"/>',
        _line((radius - across - CROSS, at), (radius + across + CROSS, at)),
        _line((radius, at - down - CROSS), (radius, at + down + CROSS)),
    ]
    words = [
        f"End plate of {stub.name}, {stub.boat}.",
        f"Number: {stub.number:g}. Thickness {mm(stub.plate)} mm.",
        "FR-4 (glass-epoxy) sheet, unless agreed otherwise.",
        f"Outline {mm(width)} wide, {mm(height)} high; keeper hole {mm(keeper)}.",
        "Cut solid lines. Mark dashed lines, never cut them:",
        "the bolt's hole is drilled through plate and stub together.",
        "Seen from outboard, top as drawn.",
    ]
    return _file(f"End plate, {stub.name}", width, height, cut, marks, words)


def wrap_template(stub: Stub) -> str:
    """The template that wraps round the rod, in one piece, with the sides of the stub to mark."""
    rows = rod_wrap(stub.rod_size, stub.bevel, WRAP_POINTS)
    once = pi * stub.rod_size
    curve = [(distance, stub.base - stub.top - height) for distance, height in rows]
    end = stub.base - stub.top
    tab = [(once, end), (once + TAB, end), (once + TAB, stub.base), (once, stub.base)]
    outline = [(0.0, stub.base), *curve, *tab[1:]]
    marks = [_line(tab[0], tab[3])]
    for share in (0.25, 0.5, 0.75):
        height = stub.top + stub.rod_size / 2 * tan(stub.bevel) * (1 - cos(360 * share))
        marks.append(_line((once * share, stub.base), (once * share, stub.base - height)))
    eyes = stub.eyes if stub.stay_2 else ()
    for eye in eyes:
        height = stub.base - stub.top + eye.seat
        marks.append(_line((0.0, height), (EYE_TICK, height)))
    words = [
        f"Cutting template of {stub.name}, {stub.boat}.",
        f"Wraps once round a rod of {mm(stub.rod_size)} mm: {mm(once)} mm from the left edge",
        "to the last dashed line; the rest goes under.",
        "Straight edge on the square end of the rod, sawn end along the curve.",
        f"Short side {mm(stub.top)} at the left edge, up; long side {mm(stub.base)} at the middle line, below.",
        *(f"Mark at the left edge: {eye.called} eye, its middle {mm(eye.seat)} from the curve." for eye in eyes),
        "Of paper or film, not of plate. Cut solid lines, mark dashed lines.",
    ]
    path = " L ".join(f"{_n(x)} {_n(y)}" for x, y in outline)
    cut = [f'<path id="outline" d="M {path} Z"/>']
    return _file(f"Cutting template, {stub.name}", once + TAB, stub.base, cut, marks, words)


def outer_exit(stub: Stub) -> float:
    """From the top of the rod down to the middle of the bolt's hole on the outer face of the end plate."""
    return stub.exit + stub.plate * tan(stub.bevel)


def _file(
    title: str, width: float, height: float, cut: "Sequence[str]", marks: "Sequence[str]", words: "Sequence[str]"
) -> str:
    widest = max(width, *(LETTER * WORDS * len(line) for line in words))
    wide, tall = widest + 2 * EDGE, height + 3 * EDGE + LINE_HEIGHT * len(words)
    stroke = f'fill="none" stroke="black" stroke-width="{HAIRLINE}"'
    return "\n".join(
        [
            '<?xml version="1.0" encoding="UTF-8"?>',
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(wide)}mm" height="{_n(tall)}mm"'
            f' viewBox="{_n(-EDGE)} {_n(-EDGE)} {_n(wide)} {_n(tall)}">',
            f"<title>{_text(title)}</title>",
            "<desc>1:1, one unit is one millimetre. Group cut: to cut. Group mark: to mark only. "
            "Group words: neither.</desc>",
            f'<g id="cut" {stroke}>',
            *cut,
            "</g>",
            f'<g id="mark" {stroke} stroke-dasharray="2 1">',
            *marks,
            "</g>",
            f'<g id="words" font-family="sans-serif" font-size="{WORDS}" fill="black" stroke="none">',
            *_below(words, height + 2 * EDGE),
            "</g>",
            "</svg>",
            "",
        ]
    )


def _below(words: "Sequence[str]", start: float) -> "Iterator[str]":
    for at, line in enumerate(words):
        yield f'<text x="0" y="{_n(start + LINE_HEIGHT * at)}">{_text(line)}</text>'


def _line(start: Point, end: Point) -> str:
    return f'<line x1="{_n(start[0])}" y1="{_n(start[1])}" x2="{_n(end[0])}" y2="{_n(end[1])}"/>'


def _text(words: str) -> str:
    """Words as XML holds them: it has no place for control characters."""
    return escape("".join(letter if letter.isprintable() else " " for letter in words))


def _n(value: float) -> str:
    """A number of millimetres to a thousandth, without needless zeros."""
    return f"{value:.3f}".rstrip("0").rstrip(".")
