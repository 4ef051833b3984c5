"""The table of numbers on a mark-out sheet: what is measured, drilled and bought, in words of the workshop."""

from collections.abc import Iterator
from typing import Any, Optional

from .canvas import THIN, Pen
from .stub import Eye, Stub
from .stub_parts import hole_range, keeper_down, nut_words

Row = tuple[str, str, str]  # title, value, unit
Rows = tuple[Row, ...]

WIDTH = 83.0
ROW_HEIGHT = 4.4
SIZE = 8.5


def groups(stub: Stub) -> "dict[str, Rows]":
    """Rows by the title that stands above them; a column that an older schedule has not is left out."""
    return {
        "Numbers: stub": tuple(_stub(stub)),
        "Numbers: plate, bolt, washers": (*_plate(stub), *_bolt(stub)),
        "Numbers: mast, rope, load": (*_mast(stub), *_rope(stub)),
    }


def draw(rows: Rows, pen: Pen) -> None:
    for row, (title, value, unit) in enumerate(rows):
        y = ROW_HEIGHT * (row + 0.5)
        pen.text((0, y), title, size=SIZE)
        pen.text((WIDTH - 11, y), value, size=SIZE, align="right")
        pen.text((WIDTH - 9, y), unit, size=SIZE)
        pen.line((0, y + ROW_HEIGHT / 2), (WIDTH, y + ROW_HEIGHT / 2), stroke=THIN)


def _row(title: str, value: "Optional[float]", unit: str = "mm", digits: int = 1) -> Row:
    return title, "-" if value is None else f"{value:.{digits}f}", unit


def _if_there(stub: Stub, key: str, title: str, **more: Any) -> Rows:
    """The row of a newer column, if the schedule has it."""
    return () if key in stub.lacks else (_row(title, getattr(stub, key), **more),)


def _stub(stub: Stub) -> "Iterator[Row]":
    yield _row("Number to make", stub.number, "", 0)
    yield _row("Rod, diameter", stub.rod_size)
    yield _row("Bevel, from square", stub.bevel, "°")
    if not stub.stay_2:
        yield _row("… steeper than the stay, for tolerance, by", stub.bevel - stub.eyes[0].angle, "°")
    yield _row("Short side, on top", stub.top)
    yield _row("Long side, below", stub.base)
    yield _row("Bevelled face, its height", stub.face)
    yield _row("Hole below top of bevelled face", stub.hole)
    yield "… drill it", hole_range(stub), "mm"
    yield _row("Hole below top of square end", stub.exit)
    yield _row("Drill, for stub and plate", stub.bolt_hole)
    yield _row("Rod left above the bolt, at the mast", stub.ligament)
    yield from _if_there(stub, "ligament_least", "… retire the stub when it is under")
    yield _row("Rod left below the bolt, at the square end", stub.ligament_end)
    yield _row("Pull acts below the bolt (keeps it upright) by", stub.upright)
    for eye in stub.eyes if stub.stay_2 else ():
        yield _row(f"Middle of the {eye.called} eye, from the bevelled face", eye.seat)
    if stub.stay_2 and stub.turned is not None:
        way = "forward" if stub.turned > 0 else "aft"
        yield _row(f"Turned round the bolt, underside {way}", abs(stub.turned), "°")


def _plate(stub: Stub) -> "Iterator[Row]":
    yield _row("End plate, width", stub.rod_size)
    yield _row("End plate, height", stub.rod_size + stub.rise)
    yield _row("End plate, thickness", stub.plate)
    yield _row("End plate stands above the rod", stub.rise)
    yield _row("Keeper line's hole below top of plate", keeper_down(stub))


def _mast(stub: Stub) -> "Iterator[Row]":
    yield from _if_there(stub, "along", "Bolt, along the mast from its foot", digits=0)
    yield _row("Hole in the mast", stub.bolt_hole)
    yield _row("Mast's width at the bolt", stub.mast_width)
    yield _row("Mast's wall", stub.wall)
    yield from _if_there(stub, "tube", "Compression tube, between the walls")
    yield _row("Pad, in the middle", stub.pad)
    yield _row("Pad, at the fore and aft edges", stub.pad + stub.saddle)


def _bolt(stub: Stub) -> "Iterator[Row]":
    yield _row("Bolt, diameter", stub.bolt_size)
    yield _row("Bolt, whole length", stub.bolt_length)
    yield from _shank(stub)
    yield _row("Bolt inside the stub", stub.grip)
    yield _row("Bolt inside plate and washers", stub.outside)
    yield _row("Tapered washer, diameter", stub.washer)
    yield _row("Tapered washer, thick edge", stub.wedge)
    yield _row("Tapered washer, thin edge", stub.thin)
    yield _row("Flat washer", stub.flat)
    yield "Nut", nut_words(stub), ""


def _shank(stub: Stub) -> "Iterator[Row]":
    """A bolt with one stub has its head or its other nut on the bare side, so its shank is not in the middle."""
    if stub.sides == 2:
        yield _row("… plain shank, in the middle", stub.shank)
        yield _row("… thread, at each end", (stub.bolt_length - stub.shank) / 2)
    else:
        yield _row("… plain shank, from the bare side on", stub.shank)


def _rope(stub: Stub) -> "Iterator[Row]":
    for eye in stub.eyes:
        yield from _eye(stub, eye, f"{eye.called.capitalize()} eye: " if eye.called else "")
    if stub.stay_2:
        yield _row("Pull of both on the bolt", stub.on_bolt, "kN")
        yield _row("… at which the bolt is used up", stub.bolt_capacity, "kN")


def _eye(stub: Stub, eye: Eye, whose: str) -> "Iterator[Row]":
    stay = "stay" if whose else "Stay"
    yield _row(f"{whose}rope" if whose else "Rope", eye.rope_size)
    yield _row(f"{whose}sleeve, one wall" if whose else "Sleeve, one wall", eye.sleeve_wall)
    yield _row(f"{whose}laid flat" if whose else "Eye, laid flat", eye.flat, digits=0)
    yield _row(f"{whose}{stay} leaves the mast face at", eye.angle, "°")
    if "turn" not in stub.lacks:
        way = "" if eye.turn is None or round(eye.turn, 1) == 0 else " forward" if eye.turn > 0 else " aft"
        turn = None if eye.turn is None else abs(eye.turn)
        yield _row(f"{whose}{stay} leads{way or ' fore or aft'} at the mast by", turn, "°")
    yield _row(f"{whose}working load" if whose else "Working load of the stay", eye.load, "kN")
    if not stub.stay_2:
        yield _row("Tension at which the bolt is used up", stub.bolt_capacity, "kN")
    yield _row(
        f"{whose}breaking load of the wire" if whose else "Breaking load of the wire replaced",
        eye.wire_break,
        "kN",
    )
