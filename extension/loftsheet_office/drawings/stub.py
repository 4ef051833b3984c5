"""A stub as it is drawn: its row of Stubs, and what Boat says about pad, plate, washers and nuts."""

from dataclasses import dataclass
from typing import Any, Optional, Union

from loftsheet import measure

from ..common.refusal import Refusal
from ..workbook import reading, records
from ..workbook.complaints import FOUND, in_full
from ..workbook.reading import Row


@dataclass(frozen=True)
class TangsRow:
    """What a row of Stubs says of a stub; lengths in mm, angles in degrees, loads in kN."""

    name: str
    check: str
    stay: str
    rope: str
    rod: str
    bolt: str
    number: float
    angle: float
    rope_size: float
    sleeve_wall: float
    eye: float
    rod_size: float
    bevel: float
    top: float
    base: float
    face: float
    hole: float
    hole_worst: float
    room_left: Optional[float]
    exit: float
    bolt_hole: float
    ligament: float
    ligament_end: float
    upright: float
    rise: float
    bolt_size: float
    bolt_length: float
    shank: float
    sides: float
    grip: float
    outside: float
    washer: float
    wedge: float
    mast_width: float
    wall: Optional[float]
    saddle: float
    load: float
    bolt_capacity: float
    wire_break: Optional[float]
    along: Optional[float] = None
    turn: Optional[float] = None
    tube: Optional[float] = None
    hole_high: Optional[float] = None
    ligament_least: Optional[float] = None
    mast: str = ""
    found: str = ""
    stay_2: str = ""
    angle_2: Optional[float] = None
    turn_2: Optional[float] = None
    rope_size_2: Optional[float] = None
    sleeve_wall_2: Optional[float] = None
    eye_2: Optional[float] = None
    load_2: Optional[float] = None
    wire_break_2: Optional[float] = None
    seat_in: Optional[float] = None
    seat_out: Optional[float] = None
    turned: Optional[float] = None
    on_bolt: Optional[float] = None


@dataclass(frozen=True)
class Eye:
    """An eye on a stub: whose it is, where its middle lies on top, and where its stay leads."""

    called: str
    stay: str
    seat: float
    rope_size: float
    sleeve_wall: float
    flat: float
    angle: float
    load: float
    turn: Optional[float]
    wire_break: Optional[float]

    @property
    def thick(self) -> float:
        """The rope in its sleeve."""
        return self.rope_size + 2 * self.sleeve_wall


@dataclass(frozen=True)
class Stub(TangsRow):
    """A row of Stubs, what lies on its bolt (from Boat, in mm), whose it is, and what its schedule lacks."""

    pad: float = 0.0
    plate: float = 0.0
    thin: float = 0.0
    flat: float = 0.0
    nuts: float = 0.0
    boat: str = ""
    boat_name: str = ""
    note: str = ""
    lacks: "frozenset[str]" = frozenset()

    @property
    def eyes(self) -> "tuple[Eye, ...]":
        """The one in the middle of the top; or the inner and the outer one."""
        of_first = (self.rope_size, self.sleeve_wall, self.eye, self.angle, self.load, self.turn, self.wire_break)
        figures = (self.seat_out, self.rope_size_2, self.sleeve_wall_2, self.eye_2, self.angle_2, self.load_2)
        of_outer = [value for value in figures if value is not None]
        if self.seat_in is None or len(of_outer) < len(figures):
            return (Eye("", self.stay, self.top / 2, *of_first),)
        seat, rope_size, sleeve_wall, flat, angle, load = of_outer
        of_second = (rope_size, sleeve_wall, flat, angle, load, self.turn_2, self.wire_break_2)
        return Eye("inner", self.stay, self.seat_in, *of_first), Eye("outer", self.stay_2, seat, *of_second)


HARDWARE = ("pad", "plate", "thin", "flat", "nuts")


def read(book: Any, name: str) -> Stub:
    """The stub of that name, or a refusal that lists the cells to fix."""
    found = [made for row, made in _stubs(book) if row.get("name") == name]
    if len(found) != 1:
        many = f"{len(found)} rows of Stubs are" if found else "no row of Stubs is"
        raise Refusal(f"Nothing was drawn: {many} called {name}. Every stub needs a name of its own.")
    if isinstance(found[0], Refusal):
        raise found[0]
    return found[0]


def of_stays(book: Any) -> "dict[str, Union[Stub, Refusal]]":
    """The stub of each stay whose eye lies on one, by the stay's name; of a stub that cannot be drawn, why not."""
    stubs = _stubs(book)
    return {str(row[key]): made for key in ("stay_2", "stay") for row, made in stubs if row.get(key)}


def _stubs(book: Any) -> "list[tuple[Row, Union[Stub, Refusal]]]":
    """Each row of Stubs and its stub, or why it cannot be drawn."""
    try:
        hardware = {key: _hardware(key, reading.value(book, f"boat_{key}")) for key in HARDWARE}
        about = {
            "boat": reading.boat(book),
            "boat_name": reading.as_text(reading.value(book, "boat_name")),
            "note": reading.as_text(reading.value(book, "boat_note")),
        }
        rows = records.rows(book, "tangs", TangsRow)
    except reading.Missing as missing:
        raise Refusal(f"Nothing was drawn: {missing}.") from None
    except reading.Failed as failed:
        raise Refusal(f"Nothing was drawn. Fix these cells first: {failed}.") from None
    return [(row, _stub(row, {**hardware, **about})) for row in rows]


def _stub(row: Row, about: "dict[str, Any]") -> "Union[Stub, Refusal]":
    """The stub of a row, or why it cannot be drawn."""
    if row.errors:
        check = in_full(reading.as_text(row.get("check")), reading.as_text(row.get(FOUND)))
        failed = f"{'; '.join(row.errors.values())}. The row's Check: {check}"
        return Refusal(f"Nothing was drawn. Fix these cells first: {failed}.")
    lacks = frozenset(key for key in records.later_columns(TangsRow) if key not in row.values)
    try:
        values = vars(records.record(TangsRow, row.values))
    except records.NotNumbers as wrong:
        return Refusal(f"Nothing was drawn: the row holds no number where one is due: {wrong}.")
    check = in_full(values["check"], values["found"])
    return Stub(**{**values, **about, "check": check, "lacks": lacks})


def _hardware(key: str, value: reading.Value) -> float:
    if value is None:
        return 0.0  # as the functions take a blank thickness
    if isinstance(value, str):
        return float(measure.read_in(value, "" if key == "nuts" else "mm"))
    return value
