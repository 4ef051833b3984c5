"""The parts of a mark-out sheet: what is laid on the rod, and the stub from the side, alone and fitted.

All is drawn at 1:1, y downwards. A stub is the row of Stubs with what Boat says about pad, plate and washer. Seen
along the boat the mast is on the left; the top edge of the bevelled face is the origin, and the rod's axis rises
outboard by the bevel.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from math import ceil, floor, inf, pi

from loftsheet.degrees import cos, sin, tan
from loftsheet.tang import rod_wrap

from ..common.end_plate import keeper_diameter
from .canvas import CENTRE, CUT, HIDDEN, LIGHT, THIN, Pen, Point, Stroke
from .stub import Eye, Stub

TITLE_ROOM = 7.0
CAPTION_ROOM = 11.0
WASHER_CAPTION = 8.0
BESIDE = 18.0  # room for a dimension
TAB = 15.5
WRAP_POINTS = 181.0
SHADED = Stroke(width=0.2, fill=LIGHT)
NUT_HEIGHT, NUT_WIDTH = 1.2, 1.5  # in bolt diameters
STAY_SHOWN = 45.0
LABELS = 34.0
LEFT_OF_MAST = 24.0
EYE_TICK = 33.0  # on the template, longer than what the short side is called
EYE_LINES = 9.0  # from one dimension to the next
LEAST_TURN = 1.0  # degrees
WALL_UNKNOWN = 3.0  # drawn until it is measured


@dataclass(frozen=True)
class Part:
    """One drawing of the sheet: its title, the room it takes, and how it is drawn below its title."""

    title: str
    width: float
    height: float
    draw: Callable[[Pen], None]


def mm(value: float) -> str:
    return f"{value:.1f}"


def templates(stub: Stub, room: float) -> "Iterator[Part]":
    """The wrap-around cutting template, in as many pieces as the paper asks for."""
    rows = rod_wrap(stub.rod_size, stub.bevel, WRAP_POINTS)
    pieces = ceil(rows[-1][0] / (room - TAB - 4))
    ends = [round(piece * (len(rows) - 1) / pieces) for piece in range(pieces + 1)]
    for piece, (first, last) in enumerate(zip(ends, ends[1:]), 1):
        here = rows[first : last + 1]
        which = f", piece {piece} of {pieces}" if pieces > 1 else ""
        yield Part(
            f"Cutting template, wraps round the rod{which}",
            room,
            TITLE_ROOM + 5 + stub.base + 12,
            partial(_template, stub, here, pieces > 1),
        )


def _template(stub: Stub, rows: "tuple[Point, ...]", joined: bool, pen: Pen) -> None:
    start, end = rows[0][0], rows[-1][0]
    pen = pen.at(2 - start, 5 + stub.base)
    curve = [(distance, -stub.top - height) for distance, height in rows]
    pen.polygon((start, 0), *curve, (end, 0), stroke=CUT)
    pen.line((end, 0), (end + TAB, 0), (end + TAB, -stub.top), (end, -stub.top), stroke=HIDDEN)
    goes = "next piece lies on it" if joined else "goes under, up to the line"
    pen.text((end + 0.6, -stub.top + 0.6), goes, size=8, width=TAB - 1, align="centre")
    pen.text(
        (start + 1.5, -stub.base - 3), "Mast end: saw on the side of this curve that is away from the square end."
    )
    pen.text((start + 1.5, 3), "Square end, outer side: this edge on the end of the rod, which is sawn square.")
    once = pi * stub.rod_size
    sides = (
        (0.0, f"short side {mm(stub.top)}, UP"),
        (0.5, f"long side {mm(stub.base)}, below"),
        (0.25, ""),
        (0.75, ""),
    )
    for share, words in (*sides, (1.0, sides[0][1])):
        at = share * once
        if start - 0.01 <= at <= end + 0.01:
            height = stub.top + stub.rod_size / 2 * tan(stub.bevel) * (1 - cos(360 * share))
            pen.line((at, 0), (at, -height), stroke=CENTRE)
            if not words:
                continue
            right = at > end - 1
            pen.text((at + (-1.5 if right else 1.5), -3), words, align="right" if right else "left")
    for at in (0.0, once):
        if start - 0.01 <= at <= end + 0.01:
            _eyes_on_template(pen, stub, at, -1 if at > end - 1 else 1)
    measured = f"{mm(end - start)} of {mm(once)} round the rod" if joined else f"{mm(once)} round the rod"
    pen.dimension((end, 0), (start, 0), -7, measured)


def _eyes_on_template(pen: Pen, stub: Stub, at: float, way: int) -> None:
    """Where the middles of two eyes lie on top, from the line of the short side on."""
    for eye in stub.eyes if stub.stay_2 else ():
        y = eye.seat - stub.top
        pen.line((at, y), (at + way * EYE_TICK, y), stroke=CENTRE)
        pen.text((at + way * (EYE_TICK + 1), y), f"{eye.called} eye", align="right" if way < 0 else "left")


def bevelled_face(stub: Stub) -> Part:
    def draw(pen: Pen) -> None:
        radius = stub.rod_size / 2
        pen = pen.at(BESIDE + radius, 5)
        _up(pen)
        pen.ellipse((0, stub.face / 2), stub.rod_size, stub.face, stroke=CUT)
        pen.cross((0, stub.face / 2), radius, stub.face / 2)
        _hole(pen, stub.hole, stub.bolt_hole, stub.bolt_hole)
        pen.dimension((0, 0), (0, stub.hole), radius + 5, f"hole {mm(stub.hole)}")
        caption = (
            f"{mm(stub.rod_size)} wide, {mm(stub.face)} high. Hole Ø {mm(stub.bolt_hole)}, its centre"
            f" {mm(stub.hole)} below the top edge, {hole_range(stub)}. Cut out and glue on."
        )
        _caption(pen, stub, stub.face, caption)

    return _round_part("Bevelled face, seen from the mast", stub, stub.face, draw)


def square_end(stub: Stub) -> Part:
    def draw(pen: Pen) -> None:
        radius = stub.rod_size / 2
        pen = pen.at(BESIDE + radius, 5)
        _up(pen)
        pen.circle((0, radius), stub.rod_size, stroke=CUT)
        pen.cross((0, radius), radius, radius)
        _hole(pen, stub.exit, stub.bolt_hole, stub.bolt_hole / cos(stub.bevel))
        pen.dimension((0, 0), (0, stub.exit), radius + 5, f"exit {mm(stub.exit)}")
        _caption(
            pen, stub, stub.rod_size, f"The hole must come out {mm(stub.exit)} below the top; it is slanted here."
        )

    return _round_part("Square end, seen from outboard", stub, stub.rod_size, draw)


def end_plate(stub: Stub) -> Part:
    height = stub.rod_size + stub.rise

    def draw(pen: Pen) -> None:
        radius = stub.rod_size / 2
        pen = pen.at(BESIDE + radius, 5)
        _up(pen)
        rod = pen.at(0, stub.rise)
        pen.polygon(
            *_arc((0, radius), radius, -180, 0), *_arc((0, stub.rise + radius), radius, 0, 180), stroke=CUT
        )
        rod.circle((0, radius), stub.rod_size, stroke=HIDDEN)
        rod.cross((0, radius), radius, radius)
        _hole(rod, stub.exit, stub.bolt_hole, stub.bolt_hole / cos(stub.bevel))
        keeper = keeper_hole(stub)
        _hole(pen, keeper_down(stub), keeper, keeper)
        pen.dimension((0, 0), (0, stub.rise), radius + 5, f"rise {mm(stub.rise)}")
        pen.dimension((0, 0), (0, keeper_down(stub)), -4, mm(keeper_down(stub)))
        rod.dimension((0, 0), (0, stub.exit), radius + 5, f"exit {mm(stub.exit)}")
        caption = (
            f"{mm(stub.plate)} thick. Dashed: the rod behind it. Exit is on the rod's side of the plate."
            f" Small hole Ø {mm(keeper)} for the keeper line,"
            f" {mm(keeper_down(stub))} below the top. Clamp it on the stub, then drill both in one go."
        )
        _caption(pen, stub, height, caption)

    return _round_part("End plate, seen from outboard", stub, height, draw)


def tapered_washer(stub: Stub) -> Part:
    width = stub.washer + stub.wedge + 19

    def draw(pen: Pen) -> None:
        radius = stub.washer / 2
        pen = pen.at(2, 5)
        plan, side = pen.at(radius, 0), pen.at(stub.washer + 10 + stub.wedge, 0)
        _up(plan)
        plan.circle((0, radius), stub.washer, stroke=CUT)
        plan.cross((0, radius), radius, radius)
        plan.circle((0, radius), stub.bolt_hole, stroke=CUT)
        side.polygon((-stub.wedge, 0), (0, 0), (0, stub.washer), (-stub.thin, stub.washer), stroke=CUT)
        side.line((-(stub.wedge + stub.thin) / 2 - 3, radius), (3, radius), stroke=CENTRE)
        side.dimension((-stub.wedge, 0), (0, 0), -3, f"thick {mm(stub.wedge)}")
        side.dimension((-stub.thin, stub.washer), (0, stub.washer), 3, f"thin {mm(stub.thin)}")
        sizes = f"Ø {mm(stub.washer)}, hole Ø {mm(stub.bolt_hole)}."
        caption = f"{sizes} Slanted face on the plate, locked to it."
        pen.text((0, stub.washer + 8), caption, width=width - 4)

    return Part("Tapered washer, thick edge UP", width, TITLE_ROOM + 5 + stub.washer + 7 + WASHER_CAPTION, draw)


def from_the_side(stub: Stub, with_eyes: bool = True) -> Part:
    """The stub alone, with its dimensions, and where two eyes lie on it."""
    width = BESIDE * 2 + (stub.base + stub.rod_size * tan(stub.bevel)) * cos(stub.bevel) + BESIDE
    rises = stub.top * sin(stub.bevel)
    two = stub.eyes if stub.stay_2 and with_eyes else ()
    clear = max((eye.thick for eye in two), default=0.0)  # of the eyes, which lie on top
    above = 10 + clear + EYE_LINES * len(two)

    def draw(pen: Pen) -> None:
        pen = pen.at(2 * BESIDE, rises + above)
        shape = _Shape(stub)
        pen.polygon(shape.top_edge, shape.top_end, shape.low_end, shape.low_edge)
        half = stub.bolt_hole / 2
        for offset in (-half, 0, half):
            start = (0.0, stub.hole + offset)
            end = (stub.grip + offset * tan(stub.bevel), stub.hole + offset)
            pen.line(start, end, stroke=CENTRE if offset == 0 else HIDDEN)
        square = shape.along((0, 0), 0, -stub.rod_size)
        pen.line((0, 0), square, stroke=THIN)
        pen.line(*_arc((0, 0), 0.85 * stub.rod_size, 90 - stub.bevel, 90), stroke=THIN)
        beside = _arc((0, 0), 0.85 * stub.rod_size, 90 - stub.bevel, 90)[0]
        pen.text((beside[0] + 1.5, beside[1]), f"{mm(stub.bevel)}°")
        pen.dimension(shape.top_edge, shape.top_end, -6 - clear, f"short side {mm(stub.top)}")
        for at, eye in enumerate(two):
            pen.circle(shape.along(shape.top_edge, eye.seat, eye.thick / 2), eye.thick, stroke=HIDDEN)
            place = shape.along(shape.top_edge, eye.seat, 0)
            pen.dimension(
                shape.top_edge, place, -6 - clear - EYE_LINES * (at + 1), f"{eye.called} eye {mm(eye.seat)}"
            )
        pen.dimension(shape.low_edge, shape.low_end, 6, f"long side {mm(stub.base)}")
        pen.dimension((0, 0), (0, stub.hole), 5, f"hole {mm(stub.hole)}")
        pen.dimension((0, 0), (0, stub.face), BESIDE + 3, f"face {mm(stub.face)}")
        pen.dimension(shape.top_end, shape.along(shape.top_end, 0, -stub.exit), -5, f"exit {mm(stub.exit)}")
        pen.text((-8, stub.face + 6), "mast", bold=True, align="right")
        pen.text((shape.low_end[0] + 5, stub.face + 6), "outboard", bold=True)

    height = TITLE_ROOM + above + rises + stub.face + 11
    return Part(f"Stub from the side, bevel {mm(stub.bevel)}° from square", width, height, draw)


def fitted(stub: Stub, room: float) -> Part:
    """The stub on its bolt with plate, washers and eye, and the stay's direction; at half size if it must."""
    nut_end = stub.grip + stub.outside + NUT_HEIGHT * stub.bolt_size
    above = (stub.top + stub.plate) * sin(stub.bevel) + stub.rise * cos(stub.bevel) + 4
    bottom = stub.face + STAY_SHOWN
    words = turning(stub)
    below = 2 * CAPTION_ROOM if words else 6.0
    scale = 1.0 if TITLE_ROOM + above + bottom + below <= room else 0.5
    left = stub.pad + (stub.wall or WALL_UNKNOWN) + LEFT_OF_MAST / scale
    width = (left + nut_end) * scale + LABELS

    def draw(pen: Pen) -> None:
        at = pen.scaled(scale).at(left, above)
        _mast(at, stub, -above, bottom)
        _assembly(at, stub)
        _stay(at, stub, bottom)
        _labels(at.at(nut_end + 6, 0), stub, nut_end + 6)
        _pad_words(at, stub, left, LEFT_OF_MAST)
        if words:
            said = f"{words} Drawn before that; UP is along the mast."
            pen.text((0, (above + bottom) * scale + 3), said, size=10, bold=True, width=width)

    height = TITLE_ROOM + (above + bottom) * scale + below
    half = "" if scale == 1 else ", half size"
    return Part(f"Fitted, seen along the boat{half}", width, height, draw)


class _Shape:
    """Corners of the stub seen along the boat."""

    def __init__(self, stub: Stub) -> None:
        self.out = (cos(stub.bevel), -sin(stub.bevel))
        self.up = (-sin(stub.bevel), -cos(stub.bevel))
        self.top_edge, self.low_edge = (0.0, 0.0), (0.0, stub.face)
        self.top_end = self.along(self.top_edge, stub.top, 0)
        self.low_end = self.along(self.low_edge, stub.base, 0)

    def along(self, start: Point, out: float, up: float) -> Point:
        """From a point so far along the rod's axis, and so far square to it, upwards."""
        return start[0] + out * self.out[0] + up * self.up[0], start[1] + out * self.out[1] + up * self.up[1]


def _mast(pen: Pen, stub: Stub, top: float, bottom: float) -> None:
    wall = stub.wall or WALL_UNKNOWN
    face = -stub.pad
    pen.polygon((face - wall, top), (face, top), (face, bottom), (face - wall, bottom), stroke=SHADED)
    pen.text((face - wall - 2 / pen.scale, top + 3), "mast", bold=True, align="right")
    if stub.pad:
        pen.polygon((face, -1), (0, -1), (0, stub.face + 1), (face, stub.face + 1), stroke=CUT)


def _assembly(pen: Pen, stub: Stub) -> None:
    shape = _Shape(stub)
    pen.polygon(shape.top_edge, shape.top_end, shape.low_end, shape.low_edge)
    plate = [shape.along(shape.top_end, out, stub.rise) for out in (0, stub.plate)]
    pen.polygon(*plate, shape.along(shape.low_end, stub.plate, 0), shape.low_end)
    for eye in stub.eyes:
        _eye(pen, stub, eye, shape)
    flat = stub.grip + stub.outside
    nut = flat + NUT_HEIGHT * stub.bolt_size
    edge, half = stub.washer / 2, NUT_WIDTH * stub.bolt_size / 2
    inner = flat - stub.flat
    pen.polygon(
        (inner - stub.wedge, stub.hole - edge),
        (inner, stub.hole - edge),
        (inner, stub.hole + edge),
        (inner - stub.thin, stub.hole + edge),
    )
    if stub.flat:
        pen.polygon(
            (inner, stub.hole - edge),
            (flat, stub.hole - edge),
            (flat, stub.hole + edge),
            (inner, stub.hole + edge),
        )
    pen.polygon(
        (flat, stub.hole - half), (nut, stub.hole - half), (nut, stub.hole + half), (flat, stub.hole + half)
    )
    inside = -stub.pad - (stub.wall or WALL_UNKNOWN) - 18
    radius = stub.bolt_size / 2
    for offset in (-radius, radius):
        pen.line((inside, stub.hole + offset), (-stub.pad, stub.hole + offset))
        pen.line((-stub.pad, stub.hole + offset), (nut, stub.hole + offset), stroke=HIDDEN)
    pen.line((inside - 3, stub.hole), (nut + 6, stub.hole), stroke=CENTRE)


def _eye(pen: Pen, stub: Stub, eye: Eye, shape: _Shape) -> None:
    """The sleeved eye edge-on: round on top of the rod, its legs in the stay's direction."""
    middle, legs = _legs(stub, eye, shape)
    pen.polygon(*_arc(middle, eye.thick / 2, 180 - eye.angle, 360 - eye.angle), *legs, stroke=SHADED)


def _legs(stub: Stub, eye: Eye, shape: _Shape) -> "tuple[Point, list[Point]]":
    """The middle of the rope on top of the rod, and where the eye's drawing ends, the outboard side first."""
    thick = eye.thick
    middle = shape.along(shape.top_edge, eye.seat, thick / 2)
    across, down = (cos(eye.angle), -sin(eye.angle)), (sin(eye.angle), cos(eye.angle))
    length = stub.face + thick / 2 + STAY_SHOWN * 0.3
    return middle, [
        (
            middle[0] + side * thick / 2 * across[0] + length * down[0],
            middle[1] + side * thick / 2 * across[1] + length * down[1],
        )
        for side in (1, -1)
    ]


def _stay(pen: Pen, stub: Stub, bottom: float) -> None:
    """Each stay's direction, from below its eye's middle down, and its angle from the mast face."""
    shape = _Shape(stub)
    right = 0.0
    for eye in stub.eyes:
        start = shape.along(shape.top_edge, eye.seat, -stub.rod_size / 2)
        length = (bottom - start[1]) / cos(eye.angle)
        tip = (start[0] + length * sin(eye.angle), bottom)
        pen.arrow(start, tip)
        pen.line(start, (start[0], bottom), stroke=CENTRE)
        radius = bottom - start[1] - 6
        pen.line(*_arc(start, radius, 90 - eye.angle, 90), stroke=THIN)
        right = max(right, tip[0])
    lines = [f"{eye.called} stay, {mm(eye.angle)}° from the mast face".strip() for eye in stub.eyes]
    for at, words in enumerate(lines):
        pen.text((right + 3, bottom - 6 - 5 * at / pen.scale), words)
    pen.text((right + 3, bottom - 20 - 5 * (len(lines) - 1) / pen.scale), "outboard", bold=True)


def _labels(pen: Pen, stub: Stub, away: float) -> None:
    """Words at the right, each with a line to what it names, in the order of their heights."""
    shape = _Shape(stub)
    flat = stub.grip + stub.outside
    inner = flat - stub.flat
    edge, corner = stub.hole - stub.washer / 2, stub.hole - NUT_WIDTH * stub.bolt_size / 2
    outermost = stub.eyes[-1]
    leg = _legs(stub, outermost, shape)[1][0]
    beside_eye = (leg[0] - 4 * sin(outermost.angle), leg[1] - 4 * cos(outermost.angle))
    crown = shape.along(shape.top_edge, stub.eyes[0].seat, 0.8 * stub.eyes[0].thick)
    washer = ((flat, edge + 1), "flat washer") if stub.flat else None
    # One more label puts that of the nut lower down.
    on_nut = stub.hole + NUT_WIDTH * stub.bolt_size / 2 - 4 if stub.stay_2 else corner + 4
    rows = [
        (shape.along(shape.top_end, stub.plate, stub.rise - 1), f"end plate {mm(stub.plate)}"),
        *([(crown, "inner eye")] if stub.stay_2 else []),
        ((inner - stub.wedge / 2, edge), "tapered washer"),
        *([washer] if washer else []),
        ((flat + NUT_HEIGHT * stub.bolt_size, on_nut), nut_words(stub)),
        (shape.along(shape.low_end, -2.5, 4), f"rod {mm(stub.rod_size)}"),
        (beside_eye, f"{outermost.called} eye in its sleeve".strip()),
    ]
    first, step = -(stub.top * sin(stub.bevel) + stub.rise), (stub.face + stub.rise) / (len(rows) - 1)
    for row, (point, words) in enumerate(rows):
        place = (0.0, first + row * step)
        pen.text(place, words)
        pen.line((place[0] - 1, place[1]), (point[0] - away, point[1]), stroke=THIN)


def _pad_words(pen: Pen, stub: Stub, left: float, room: float) -> None:
    """What lies behind the stub, at the left of the mast, with a line to it."""
    middle = stub.hole + stub.bolt_size / 2 + 12 / pen.scale
    pen.text((-left, middle - 9 / pen.scale), pad_words(stub), width=room - 5)
    pen.line((-left + (room - 5) / pen.scale, middle), (-stub.pad / 2, middle), stroke=THIN)


def pad_words(stub: Stub) -> str:
    edges = f"{mm(stub.pad + stub.saddle)} at the fore and aft edges"
    return f"pad {mm(stub.pad)} in the middle, {edges}" if stub.pad else f"fill {edges}"


def turning(stub: Stub) -> str:
    """What to do where the stay leads forward or aft at the mast."""
    if stub.stay_2 and stub.turned is not None:
        return (
            f"Both stays leave the stub at rest when it is turned {abs(stub.turned):.1f}° round the bolt, its"
            f" underside {'forward' if stub.turned > 0 else 'aft'}: turn it before the nut is tightened."
        )
    if stub.turn is None or abs(stub.turn) < LEAST_TURN:
        return ""
    way = "forward" if stub.turn > 0 else "aft"
    return (
        f"The stay leads {abs(stub.turn):.1f}° {way}, {100 * tan(abs(stub.turn)):.0f} mm for each 100 mm down:"
        f" turn the stub so much round the bolt, its underside {way}, before the nut is tightened."
    )


def nut_words(stub: Stub) -> str:
    return "self-locking nut" if stub.nuts <= 2 else "nut and lock nut"


def hole_range(stub: Stub) -> str:
    """Between which depths the hole may lie, each rounded to the safe side; in words, for a caption or a table."""
    lowest = lowest_hole(stub)
    most = f"{floor(round(10 * lowest, 6)) / 10:.1f}"
    if stub.hole_high is None:
        return f"{most} at most"
    least = f"{ceil(round(10 * stub.hole_high, 6)) / 10:.1f}"
    if stub.hole_high > lowest:
        return f"no depth is right: {least} is the least, {most} the most"
    return f"between {least} and {most}"


def lowest_hole(stub: Stub) -> float:
    """Where the stub is just upright, or just fits below what is above it."""
    under_stop = inf if stub.room_left is None else stub.hole + stub.room_left
    return float(min(stub.hole_worst, under_stop))


def keeper_down(stub: Stub) -> float:
    """From the top of the end plate to the centre of the small hole in it."""
    return float(stub.rise / 2)


def keeper_hole(stub: Stub) -> float:
    """Diameter of the small hole in the end plate; a low plate has a smaller one."""
    return keeper_diameter(stub.rise)


def _round_part(title: str, stub: Stub, height: float, draw: Callable[[Pen], None]) -> Part:
    return Part(title, BESIDE + stub.rod_size + 2, TITLE_ROOM + 5 + height + CAPTION_ROOM, draw)


def _caption(pen: Pen, stub: Stub, below: float, words: str) -> None:
    pen.text((-stub.rod_size / 2 - BESIDE + 2, below + 2), words, width=BESIDE + stub.rod_size - 2)


def _up(pen: Pen) -> None:
    pen.arrow((0, -0.5), (0, -4.5))
    pen.text((-2, -2.5), "UP", bold=True, align="right")


def _hole(pen: Pen, below: float, width: float, height: float) -> None:
    pen.ellipse((0, below), width, height, stroke=CUT)
    pen.cross((0, below), width / 2 + 2, height / 2 + 2)


def _arc(centre: Point, radius: float, start: float, end: float) -> "list[Point]":
    """Points of an arc, a degree apart; 0° is to the right, 90° down."""
    steps = max(1, ceil(abs(end - start)))
    turns = [start + (end - start) * step / steps for step in range(steps + 1)]
    return [(centre[0] + radius * cos(turn), centre[1] + radius * sin(turn)) for turn in turns]
