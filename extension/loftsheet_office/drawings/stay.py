"""A stay as its bench pages take it: what is made at the bench, and what is hung and lashed aboard."""

from dataclasses import dataclass, fields
from typing import Any, Optional

from ..common.refusal import Refusal
from ..workbook import reading, records
from ..workbook.complaints import FOUND, in_full
from ..workbook.reading import Row, Value
from ..workbook.records import Record

STAYS_WIRE = "existing wire"  # of such a row nothing is made
LOOP = "rope loop"  # a chainplate of it


@dataclass(frozen=True)
class Made:
    """What a row of Stays says of the rope at the bench; lengths in mm, tensions in kN."""

    name: str
    check: str
    rope: str
    number: float
    rope_size: float
    cut: float
    span: float
    load: float
    pretension: float
    upper_eye: float
    lower_eye: float
    bury: float
    taper: float
    worked: float
    found: str = ""


@dataclass(frozen=True)
class Hung:
    """What a row of Stays says of its ends and its lashing; lengths in mm, tensions in kN."""

    name: str
    note: str
    fittings: Value
    line: str
    upper: str
    lower: str
    upper_over: str
    lower_over: str
    upper_ring: str
    lower_ring: str
    load: float
    pretension: float
    parts: float
    line_each: float
    gap: float
    take_up_left: float
    upper_under: float
    lower_under: float
    haul: Optional[float] = None
    tighten_tension: Optional[float] = None
    gap_bedded: Optional[float] = None
    via_length: Optional[float] = None
    beside: str = ""
    eye_lies: str = ""
    via_2_length: Optional[float] = None
    made_of: Value = None
    plate_made_of: Value = None


@dataclass(frozen=True)
class Pulled:
    """What a row of Stays says of how hard its trial splice is pulled, in kN, and over what, in mm."""

    load: float
    upper_under: float
    lower_under: float


@dataclass(frozen=True)
class RopeData:
    """What a row of the Library's ropes says of splices, as it is held there: the functions read it."""

    name: Any
    take_up: Any
    lasting_set: Any
    trial: Any
    trial_date: Any


@dataclass(frozen=True)
class Assumed:
    """What Boat assumes of splices, as it is held there: a number, or a text that the functions read."""

    waste: Any
    taper: Any
    growth: Any
    gather: Any
    trial: Any
    warmer: Any
    note: Any


@dataclass(frozen=True)
class Stay:
    """A row of Stays: its points, and what is made and what is hung, or why that cannot be said."""

    name: str
    check: str
    upper: str
    lower: str
    made: Optional[Made]
    hung: Optional[Hung]
    pulled: Optional[Pulled]
    rope: Optional[RopeData]
    not_made: str = ""
    not_hung: str = ""


@dataclass(frozen=True)
class Bench:
    """All that bench pages are drawn from."""

    boat: str
    boat_name: str
    revision: str
    assumed: Assumed
    stays: "tuple[Stay, ...]"


def read(book: Any) -> Bench:
    """Read the stays of a recalculated schedule."""
    try:
        about = {key: reading.as_text(reading.value(book, f"boat_{key}")) for key in ("name", "revision")}
        assumed = Assumed(**{one.name: reading.value(book, f"boat_{one.name}") for one in fields(Assumed)})
        of_rope = tuple(one.name for one in fields(RopeData))
        ropes = {str(row.get("name")): row for row in reading.rows(book, "rope", of_rope)}
        rows = [row for row in records.rows(book, "stays", Made, Hung, Pulled) if row.get("made_of") != STAYS_WIRE]
        stays = tuple(_stay(row, ropes.get(str(row.get("rope")))) for row in rows)
        bench = Bench(reading.boat(book), about["name"], about["revision"], assumed, stays)
    except (reading.Missing, reading.Failed) as wrong:
        raise Refusal(f"Nothing was written. Fix this first: {wrong}.") from None
    if not stays:
        raise Refusal("Nothing was written: no stay of rope has a name yet.")
    return bench


def _stay(row: Row, rope: Optional[Row]) -> Stay:
    about = {key: reading.as_text(row.get(key)) for key in ("name", "upper", "lower")}
    check = in_full(reading.as_text(row.get("check")), reading.as_text(row.get(FOUND)))
    made, not_made = _record(Made, row, list(rope.errors.values()) if rope else [])
    hung, not_hung = _record(Hung, row, [])
    pulled, _ = _record(Pulled, row, [])
    data = RopeData(**rope.values) if rope and not rope.errors else None
    why = {"not_made": not_made, "not_hung": not_hung}
    return Stay(**about, **why, check=check, made=made, hung=hung, pulled=pulled, rope=data)


def _record(kind: "type[Record]", row: Row, more: "list[str]") -> "tuple[Optional[Record], str]":
    """A record of a row, or why there is none."""
    errors = [*records.errors(row, kind), *more]
    if errors:
        return None, f"Fix these cells first: {'; '.join(errors)}."
    try:
        return records.record(kind, row.values), ""
    except records.NotNumbers as wrong:
        return None, f"Not a number: {wrong}."
