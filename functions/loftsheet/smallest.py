"""The search behind RIG.NEED.STUB: bolts and rods of two tables tried with each other, the smallest first."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from math import floor, hypot, pi
from typing import NamedTuple, Optional

from loftsheet.degrees import atan2, cos, sin, tan
from loftsheet.double import Pull, pull
from loftsheet.errors import BadInput

Column = tuple[Optional[float], ...]
DUST = 1e-9
THICKEST_ROD = 300
# ISO 261, coarse: what to name when no bolt of the table does.
COARSE = (
    (6.0, 1.0), (8.0, 1.25), (10.0, 1.5), (12.0, 1.75), (14.0, 2.0), (16.0, 2.0), (18.0, 2.5), (20.0, 2.5),
    (22.0, 2.5), (24.0, 3.0), (27.0, 3.0), (30.0, 3.5), (33.0, 3.5), (36.0, 4.0), (42.0, 4.5), (48.0, 5.0),
)  # fmt: skip


@dataclass(frozen=True)
class Outer:
    """The second eye, next to the end plate, and the leads of both."""

    rope: float
    load: float
    out_angle: float
    inner_fore: float
    outer_fore: float
    sleeve: float

    def __str__(self) -> str:
        return f"an eye of {self.rope:g} mm rope"


@dataclass(frozen=True)
class Stub:
    """All that a pair has to serve; the arguments of RIG.NEED.STUB by their names."""

    rope: float
    sleeve: float
    out_angle: float
    bevel: float
    top: float
    load: float
    required: float
    root: float
    hole_play: float
    ligament: float
    ligament_share: float
    least: float
    drill_off: float
    drill_step: float
    hole_most: Optional[float]
    gamma: float
    bending: float
    straight: float
    shear_factor: float
    outer: Optional[Outer]

    def __str__(self) -> str:
        return f"a stub for {'one eye' if self.outer is None else 'two eyes'}, {self.top:g} mm on top"


class Bolt(NamedTuple):
    """One row of the table of bolts."""

    size: float
    proof: float
    strength: float
    pitch: float
    row: int


@dataclass(frozen=True)
class Pair:
    """The rows of the first pair that does, or in words why none does."""

    bolt_row: float
    rod_row: float
    hindrance: str = ""
    least: str = ""

    def __str__(self) -> str:
        return self.hindrance or f"row {self.bolt_row:g} of the bolts, row {self.rod_row:g} of the rods"


@lru_cache(maxsize=512)
def first_pair(
    sizes: Column,
    pitches: Column,
    strengths: Column,
    yields: Column,
    rods: Column,
    stub: Stub,
    thinnest: float = 0.0,
) -> Pair:
    """The first pair that does; each of its two rows asks for it, and so does every recalculation."""
    bolts = _bolts(sizes, pitches, strengths, yields)
    stock = sorted((size, row) for row, size in enumerate(rods, 1) if size is not None)
    if not bolts or not stock:
        raise BadInput("the table of bolts or of rods is empty; fill it")
    thick = [bolt for bolt in bolts if bolt.size >= thinnest]
    for bolt in thick:
        for rod, row in stock:
            if does(stub, bolt, rod):
                return Pair(float(bolt.row), float(row))
    return _none(stub, bolts, stock[-1][0], thinnest)


def _bolts(sizes: Column, pitches: Column, strengths: Column, yields: Column) -> "list[Bolt]":
    """The rows of the table, the thinnest first and of one size the weakest."""
    if not len(sizes) == len(pitches) == len(strengths) == len(yields):
        raise BadInput(
            f"the bolts' ranges have {len(sizes)}, {len(pitches)}, {len(strengths)} and {len(yields)} cells; "
            "give four of the same height"
        )
    bolts = []
    for row, (size, pitch, strength, proof) in enumerate(zip(sizes, pitches, strengths, yields), 1):
        if size is None and pitch is None and strength is None and proof is None:
            continue
        if size is None or pitch is None or strength is None or proof is None:
            raise BadInput(f"row {row} of the bolts is half empty; fill it or clear it")
        bolts.append(Bolt(size, proof, strength, pitch, row))
    return sorted(bolts)


def does(stub: Stub, bolt: Bolt, rod: float) -> bool:
    """Whether this bolt and this rod serve the stub together."""
    hole = _hole(stub, rod)
    return hole is not None and _leaves_rod(stub, bolt, rod, hole) and _holds(stub, bolt, rod, hole)


def _sleeved(stub: Stub) -> "tuple[float, float]":
    """Sleeved rope of the inner and of the outer eye; of one eye twice the same."""
    inner = stub.rope + 2 * stub.sleeve
    return inner, stub.outer.rope + 2 * stub.outer.sleeve if stub.outer else inner


def _hole(stub: Stub, rod: float) -> Optional[float]:
    """The hole as it is drilled: as low as the stub stays upright with its outer eye at the end plate."""
    end_plate = stub.top - _sleeved(stub)[1] / 2
    upright = rod / 2 * cos(stub.bevel) - end_plate * sin(stub.bevel) - stub.drill_off
    above_middle = 0.45 * rod / cos(stub.bevel)
    under_stop = above_middle if stub.hole_most is None else stub.hole_most - stub.drill_off
    lowest = floor(min(upright, above_middle, under_stop) / stub.drill_step + DUST) * stub.drill_step
    return lowest if lowest > 0 else None


def _leaves_rod(stub: Stub, bolt: Bolt, rod: float, hole: float) -> bool:
    """Whether the rod is thick enough for the rope, and above and below the bolt."""
    thickest_rope = max(stub.rope, stub.outer.rope) if stub.outer else stub.rope
    bolt_hole = bolt.size + stub.hole_play
    above = max(stub.ligament, stub.ligament_share * bolt_hole) + stub.drill_off
    below = rod - (hole + stub.drill_off + bolt_hole / 2) / cos(stub.bevel) - stub.top * tan(stub.bevel)
    return rod + DUST >= stub.least * thickest_rope and hole - bolt_hole / 2 + DUST >= above and below > 0


def _holds(stub: Stub, bolt: Bolt, rod: float, hole: float) -> bool:
    """Whether the bolt stays straight under the load and has its margin, and the pull meets the stub."""
    if bolt.pitch > bolt.size / 3:
        raise BadInput(
            f"row {bolt.row} of the bolts: pitch {bolt.pitch:g} mm is above a third of {bolt.size:g} mm"
        )
    in_plane, aside, shear, along = _on_the_bolt(stub, rod, hole)
    moment = hypot(in_plane, aside)
    first_yield = pi * bolt.size**3 / 32 * bolt.proof / 1000
    area = pi / 4 * (bolt.size - 0.9382 * bolt.pitch) ** 2
    bent = moment * stub.gamma / (stub.bending * first_yield)
    sheared = shear * stub.gamma / (stub.shear_factor * bolt.strength * area / 1000)
    pulled = along * stub.gamma / (0.9 * bolt.strength * area / 1000)
    used = max(hypot(bent + pulled, sheared), sheared + pulled / 1.4)
    grip = stub.top * cos(stub.bevel) + (hole / cos(stub.bevel) + stub.top * tan(stub.bevel)) * sin(stub.bevel)
    off_middle = hypot(in_plane / shear - stub.root - grip / 2, aside / shear)
    return moment <= stub.straight * first_yield and used * stub.required <= 1 + DUST and off_middle < grip / 2


def _on_the_bolt(stub: Stub, rod: float, hole: float) -> "tuple[float, float, float, float]":
    """Bending moments where the bolt is held, in the pulls' plane and aside; the pulls across and along it."""
    pulls = list(_pulls(stub))
    turn = atan2(sum(one.aside for _, one in pulls), sum(one.down for _, one in pulls))
    in_plane = aside = down = along = 0.0
    for seat, one in pulls:
        overhang = stub.root + seat * cos(stub.bevel) + rod / 2 * sin(stub.bevel)
        upright = rod / 2 * cos(stub.bevel) - seat * sin(stub.bevel) - hole
        square = one.down * cos(turn) + one.aside * sin(turn)
        in_plane += overhang * square - upright * one.out
        aside += overhang * (one.aside * cos(turn) - one.down * sin(turn))
        down += square
        along += one.out
    return in_plane, aside, down, along


def _pulls(stub: Stub) -> "Iterator[tuple[float, Pull]]":
    """Each eye's seat and its pull, the stub not turned."""
    inner_sleeved, outer_sleeved = _sleeved(stub)
    end_plate = stub.top - outer_sleeved / 2
    if stub.outer is None:
        yield end_plate, pull(stub.load, stub.out_angle, 0.0, 0.0)
        return
    yield (
        end_plate - (inner_sleeved * outer_sleeved) ** 0.5,
        pull(stub.load, stub.out_angle, stub.outer.inner_fore, 0.0),
    )
    yield end_plate, pull(stub.outer.load, stub.outer.out_angle, stub.outer.outer_fore, 0.0)


def _none(stub: Stub, bolts: "list[Bolt]", thickest: float, thinnest: float) -> Pair:
    """Why no pair does, and which would: first a rod that is not in the table, then a bolt that is not."""
    for bolt in bolts:
        rod = _least_rod(stub, bolt) if bolt.size >= thinnest else 0
        if rod:
            hindrance = (
                f"no bolt and rod of the tables do together; the bolt of {bolt.size:g} mm in row {bolt.row} would "
                f"on a rod of {rod:g} mm, the thickest has {thickest:g} mm"
            )
            return Pair(0.0, 0.0, hindrance, f"at least the bolt of {bolt.size:g} mm on a rod of {rod:g} mm")
    proof, strength = max((bolt.proof, bolt.strength) for bolt in bolts)
    for size, pitch in COARSE:
        bolt = Bolt(size, proof, strength, pitch, 0)
        rod = _least_rod(stub, bolt) if size >= thinnest else 0
        if rod:
            least = f"at least M{size:g} of {proof:g} MPa proof stress"
            hindrance = f"no bolt of the table does; it needs {least}, on a rod of {rod:g} mm"
            return Pair(0.0, 0.0, hindrance, f"{least} on a rod of {rod:g} mm")
    hindrance = (
        f"no bolt of the table does, nor does one up to M{COARSE[-1][0]:g} of {proof:g} MPa proof stress on any "
        f"rod; {'more room above, ' if stub.hole_most else ''}less load, a shorter stub or another fitting is due"
    )
    return Pair(0.0, 0.0, hindrance, f"not even M{COARSE[-1][0]:g}: less load, a shorter stub or another fitting")


def _least_rod(stub: Stub, bolt: Bolt) -> int:
    """The thinnest rod, in whole millimetres, that has room for rope and bolt, if the bolt does on it; else 0.

    A thicker rod has more room and a longer lever: the thinnest is found by halving, no thicker one is tried.
    """
    low, high = 1, THICKEST_ROD
    while low < high:
        middle = (low + high) // 2
        if _has_room(stub, bolt, middle):
            high = middle
        else:
            low = middle + 1
    return low if does(stub, bolt, float(low)) else 0


def _has_room(stub: Stub, bolt: Bolt, rod: float) -> bool:
    hole = _hole(stub, rod)
    return hole is not None and _leaves_rod(stub, bolt, rod, hole)
