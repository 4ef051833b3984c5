"""Nuts and washers of each bolt, counted from the rows of Stubs, so that nobody has to ask of which size."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Callable

from loftsheet.bolt import bolt_ends

from ..workbook.reading import Row, Value

COLUMNS = ("bolt", "bolts", "count", "sides", "bolt_size", "bolt_length", "shank", "bolt_hole", "washer", "wedge")
NUT_KINDS = {2: "self-locking nuts, one at each end", 4: "nuts, two at each end, the second locks the first"}
FLAT_FOR_EACH = 2  # one at each end
BOTH_SIDES = 2.0  # a stub at each end, so that the thread is as long at both

# A length in mm as the supplier reads it.
Shown = Callable[[float], str]


@dataclass(frozen=True)
class Fixings:
    """What belongs to the bolts of one size: how many bolts and stubs, lengths in mm with how many of each."""

    bolt: str
    size: float
    pitch: Value
    alike: bool  # the thread is as long at both ends
    bolts: int
    stubs: int
    lengths: "tuple[tuple[float, float, float], ...]"
    hole: float
    washer: float
    thick: "tuple[tuple[float, int], ...]"  # edges of the tapered washers, with how many of each

    def text(self, boat: "Mapping[str, Value]", shown: Shown) -> str:
        """One line for whoever picks them from the shelf."""
        pitch = f", thread pitch {self.pitch:g} mm" if isinstance(self.pitch, float) else ""
        bolts = f"{self.bolt}{pitch}: {_number(self.bolts, 'bolt')} ({self._lengths(shown)})"
        parts = [bolts, *self._nuts(boat, shown)]
        flat, thin = boat.get("flat"), boat.get("thin")
        if isinstance(flat, float) and flat > 0:
            many = _number(FLAT_FOR_EACH * self.bolts, "flat washer")
            fits = f"bore as your catalogue for a bolt of {shown(self.size)}"
            parts.append(f"{many}, {shown(flat)} thick, outside {shown(self.washer)}, {fits}")
        edge = f", thin edge {shown(thin)}" if isinstance(thin, float) else ""
        many = _number(self.stubs, "tapered washer")
        thick = ", ".join(f"{number} of {shown(edge)}" for edge, number in self.thick)
        parts.append(f"{many}, outside {shown(self.washer)}, bore {shown(self.hole)}{edge}, thick edge: {thick}")
        return "; ".join(parts)

    def _nuts(self, boat: "Mapping[str, Value]", shown: Shown) -> "Iterator[str]":
        each = boat.get("nuts")
        if isinstance(each, float):
            kind = NUT_KINDS.get(round(each), "nuts")
            yield f"{each * self.bolts:g} {kind}{self._of_the_nut(shown)}"

    def _of_the_nut(self, shown: Shown) -> str:
        """What a nut has to be: the bolt is long enough for no higher one."""
        if not isinstance(self.pitch, float):
            return ""
        turns_beyond = 2 * self.pitch  # mm
        height = bolt_ends(self.size, self.pitch, 1.0) - turns_beyond
        return f", of the bolt's thread and class, {shown(height)} high at most"

    def _lengths(self, shown: Shown) -> str:
        if any(number != round(number) for *_, number in self.lengths):
            return "lengths: stub list, the larger where two rows share a bolt"
        return ", ".join(
            f"{number:g} of {shown(length)}, plain shank {shown(shank)}{self._thread(length - shank, shown)}"
            for length, shank, number in self.lengths
        )

    def _thread(self, both: float, shown: Shown) -> str:
        return f", thread {shown(both / 2)} at each end" if self.alike else ""


def counted(tangs: "Sequence[Row]", pitches: "Mapping[str, Value]") -> "tuple[Fixings, ...]":
    """The fixings of each size of bolt; rows with an error are left out, for they stop the order elsewhere."""
    by_bolt: dict[str, list[Row]] = {}
    for row in tangs:
        if all(row.get(key) not in (None, "") for key in COLUMNS):
            by_bolt.setdefault(str(row["bolt"]), []).append(row)
    return tuple(_of(bolt, rows, pitches.get(bolt)) for bolt, rows in by_bolt.items())


def _of(bolt: str, rows: "Sequence[Row]", pitch: Value) -> Fixings:
    lengths: dict[float, tuple[float, float]] = {}
    thick: dict[float, int] = {}
    for row in rows:
        length = _float(row, "bolt_length")
        shank, number = lengths.get(length, (0.0, 0.0))
        # Of two rows that share a bolt it is made to the larger.
        edge = round(_float(row, "wedge"), 1)
        thick[edge] = thick.get(edge, 0) + round(_float(row, "count"))
        lengths[length] = (max(shank, _float(row, "shank")), number + _float(row, "bolts"))
    return Fixings(
        bolt,
        max(_float(row, "bolt_size") for row in rows),
        pitch,
        all(row["sides"] == BOTH_SIDES for row in rows),
        ceil(sum(_float(row, "bolts") for row in rows)),
        round(sum(_float(row, "count") for row in rows)),
        tuple((length, *made) for length, made in sorted(lengths.items())),
        max(_float(row, "bolt_hole") for row in rows),
        max(_float(row, "washer") for row in rows),
        tuple(sorted(thick.items())),
    )


def _float(row: Row, key: str) -> float:
    value = row[key]
    return value if isinstance(value, float) else 0.0


def _number(many: int, what: str) -> str:
    return f"{many} {what}{'' if many == 1 else 's'}"
