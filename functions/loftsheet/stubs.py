"""Counting stubs out of rod and tracing the wrap-around template: the loops behind RIG.ROD."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor, pi
from typing import Optional

from loftsheet.degrees import cos, tan
from loftsheet.errors import BadInput

# A cut that fits to a millionth of a millimetre fits; binary fractions must not cost a stub.
DUST = 1e-6
Column = Sequence[Optional[float]]


def back_to_back(usable: float, pair: float, single: float) -> float:
    """Number of equal stubs: as many pairs as go in, and one more if a single still fits."""
    pairs = max(0, floor((usable + DUST) / pair))
    rest = usable - pairs * pair
    return float(2 * pairs + (1 if rest + DUST >= single else 0))


def lengths_needed(usable: float, rod: float, bevels: Column, tops: Column, counts: Column, kerf: float) -> float:
    """Lengths of rod for a list of stubs: each, bevel by bevel, goes into the first with room."""
    started: list[Length] = []
    for bevel, axis_length in _stubs(rod, _rows(bevels, tops, counts)):
        grown = (length.with_stub(bevel, axis_length) for length in started)
        fits = ((at, length) for at, length in enumerate(grown) if length.used(rod, kerf) <= usable + DUST)
        new = Length({}).with_stub(bevel, axis_length)
        if new.used(rod, kerf) > usable + DUST:
            raise BadInput(
                f"a stub of {new.used(rod, kerf):.4g} mm does not go into {usable:g} mm; buy longer stock"
            )
        at, length = next(fits, (len(started), new))
        started[at : at + 1] = [length]
    return float(len(started))


@dataclass(frozen=True)
class Length:
    """One length of rod: by bevel the axis lengths of its stubs, cut back to back two by two."""

    stubs: "dict[float, tuple[float, ...]]"

    def with_stub(self, bevel: float, axis_length: float) -> "Length":
        return Length({**self.stubs, bevel: (*self.stubs.get(bevel, ()), axis_length)})

    def used(self, rod: float, kerf: float) -> float:
        """Rod used up, cuts included: after a last stub without a partner no square cut is due."""
        cuts, unpaired = 0.0, 0
        for bevel, axis_lengths in self.stubs.items():
            pairs, single = divmod(len(axis_lengths), 2)
            slanted = rod / 2 * tan(bevel) + kerf / cos(bevel) + kerf
            cuts += sum(axis_lengths) + pairs * (kerf / cos(bevel) + kerf) + single * slanted
            unpaired += single
        return cuts - (kerf if unpaired else 0.0)


def _rows(bevels: Column, tops: Column, counts: Column) -> "list[tuple[float, float, int]]":
    """The rows of the list as bevel, top, number; empty rows and rows of no stubs are skipped."""
    if not len(bevels) == len(tops) == len(counts):
        raise BadInput(f"ranges of {len(bevels)}, {len(tops)} and {len(counts)} cells were given; they must match")
    rows = []
    for at, (bevel, top, number) in enumerate(zip(bevels, tops, counts), 1):
        if number == 0 or (bevel is None and top is None and number is None):
            continue
        if bevel is None or top is None or number is None:
            raise BadInput(f"row {at} of the ranges is half empty; fill bevel, top and count, or none")
        rows.append((bevel, top, int(number)))
    return rows


def _stubs(rod: float, rows: "list[tuple[float, float, int]]") -> "list[tuple[float, float]]":
    """Bevel and axis length of every stub: equal bevels together, the longest first."""
    stubs = [(bevel, top + rod / 2 * tan(bevel)) for bevel, top, number in rows for _ in range(number)]
    longest = {bevel: max(length for other, length in stubs if other == bevel) for bevel, _ in stubs}
    return sorted(stubs, key=lambda stub: (-longest[stub[0]], stub[0], -stub[1]))


def wrap_rows(rod: float, bevel: float, points: float) -> "tuple[tuple[float, float], ...]":
    """Points of the cut, unrolled: distance round the rod and height, from the short side once round."""
    steps = int(points) - 1
    turns = [step / steps for step in range(steps + 1)]
    return tuple((pi * rod * turn, rod / 2 * tan(bevel) * (1 - cos(360 * turn))) for turn in turns)
