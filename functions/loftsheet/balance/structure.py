"""A rig as a structure: nodes, beams, and how each stay pulls; nothing here depends on a case.

Displacements of a mast are counted in its own axes: forward and to port square to it, and up along it. Stays
are no part of the matrix that is taken apart: each is a direction `pull` in which it takes hold of the
displacements, so that u·pull is by how much it lengthens. What cannot stand without stays (a mast on its
foot, a point where only stays meet) is held by springs, the props, which `equilibrium` takes away again.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from math import inf
from typing import Optional

from loftsheet.balance.banded import Banded
from loftsheet.balance.beam import Section, elastic, geometric, turned
from loftsheet.balance.model import HULL, Load, Mast, Point, Rig, Stay
from loftsheet.balance.vectors import cross, dot, plus, size, unit
from loftsheet.degrees import cos, sin
from loftsheet.errors import BadInput

PANELS = 6  # a mast is divided so that no beam is longer than this part of it
SAME = 1.0  # mm; what is nearer is one node
PROP = 1.0  # kN/mm
LEFT = 1e-8  # part of a prop that stays, so that what nothing holds moves far and is found
HELD = -1
GLOBAL = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
Entries = list[tuple[int, int, float]]


@dataclass(frozen=True)
class Node:
    """A place with its degrees of freedom, −1 where held; `axes` are its own axes in fore, port, up."""

    at: "tuple[float, float, float]"
    places: "tuple[int, ...]"
    axes: "tuple[tuple[float, float, float], ...]"
    mast: int = -1
    along: float = 0.0


@dataclass(frozen=True)
class Hold:
    """Where a stay takes hold: a node, and by how far it stands off; node None on the hull."""

    at: "tuple[float, float, float]"
    node: Optional[Node]
    arm: "tuple[float, float, float]" = (0.0, 0.0, 0.0)
    give: float = 0.0

    def places(self) -> "tuple[int, ...]":
        return self.node.places if self.node else ()

    def columns(self) -> "list[tuple[float, float, float]]":
        """How the point moves with each degree of freedom of its node."""
        if self.node is None:
            return []
        turns = [cross(axis, self.arm) for axis in self.node.axes] if len(self.node.places) == 6 else []
        return [*self.node.axes, *turns]


@dataclass
class Beam:
    """A straight beam between two nodes."""

    mast: int
    places: "tuple[int, ...]"
    length: float
    section: Section
    rate: float
    axes: "Optional[tuple[tuple[float, ...], ...]]"  # None: those of its mast
    along: "tuple[tuple[int, float], ...]" = ()
    ends: "tuple[Node, ...]" = ()
    entries: Entries = field(default_factory=list)

    def tension(self, moved: "list[float]", warmer: float) -> float:
        stretch = sum(part * moved[place] for place, part in self.along)
        return self.section.axial * (stretch / self.length - self.rate * 1e-6 * warmer)


@dataclass
class Line:
    """A stay as the structure feels it."""

    stay: Stay
    holds: "tuple[Hold, ...]"
    parts: "tuple[tuple[float, float, float], ...]"  # unit vectors from each point to the next below
    lengths: "tuple[float, ...]"
    pull: "dict[int, float]" = field(default_factory=dict)
    entries: Entries = field(default_factory=list)

    @property
    def length(self) -> float:
        return sum(self.lengths)

    @property
    def hangs(self) -> bool:
        """Whether it ends where only stays meet."""
        return any(hold.node and len(hold.node.places) == 3 for hold in self.holds)

    def touches(self, mast: int) -> bool:
        return any(hold.node and hold.node.mast == mast for hold in self.holds)

    @property
    def slackness(self) -> float:
        """mm of its own stretch for each kN."""
        return self.length / self.stay.ea


class Structure:
    """The masts, spreaders and stays of a rig, put together."""

    def __init__(self, rig: Rig) -> None:
        self.rig = rig
        self.size = 0
        self.beams: list[Beam] = []
        self.nodes: list[list[Node]] = []  # of each mast, from the head down
        self.mast_axes = [_axes(mast) for mast in rig.masts]
        self._numbers = {mast.name: number for number, mast in enumerate(rig.masts)}
        self._points = {point.name: point for point in rig.points}
        self._spreaders = {spreader.tip: spreader for spreader in rig.spreaders}
        self._uppers = {stay.points[0] for stay in rig.stays}
        self.loose: dict[tuple[str, int], Node] = {}
        for number in range(len(rig.masts)):
            self._build_mast(number)
        self.lines = [self._line(stay) for stay in rig.stays]
        self._build_firsts()
        self.props = self._props()
        self.heads = sum(mast.partners is None for mast in rig.masts)  # props of masts, two for each
        self.gives = self._gives()

    def _build_mast(self, number: int) -> None:
        mast = self.rig.masts[number]
        heights = _divided(self._heights(number), mast.head / PANELS)
        nodes = []
        for along in reversed(heights):
            held = [along == 0 or along == mast.partners] * 2 + [along == 0, False, False, along == 0]
            at = plus((mast.foot_fore, 0.0, mast.foot_up), self.mast_axes[number][2], along)
            nodes.append(Node(at, self._new_places(held), self.mast_axes[number], number, along))
        self.nodes.append(nodes)
        parts = mast.area, mast.moment_fore, mast.moment_side
        section = Section(*(mast.modulus * part for part in parts), mast.modulus / 2.66 * mast.torsion)
        for upper, lower in zip(nodes, nodes[1:]):
            self._beam(number, lower, upper, section, mast.rate, None)

    def _heights(self, number: int) -> "list[float]":
        """Where on a mast something acts, from the foot up; what is within a millimetre counts as one."""
        mast = self.rig.masts[number]
        wanted = [0.0, mast.head, *([mast.partners] if mast.partners is not None else [])]
        for stay in self.rig.stays:
            for name in stay.points:
                if self._points[name].mast == mast.name and name not in self._spreaders:
                    wanted.append(self._along(self._points[name]))
                elif name in self._spreaders and self._points[name].mast == mast.name:
                    wanted.append(self._spreaders[name].root)
        wanted += [load.along for case in self.rig.cases for load in case.loads if load.mast == mast.name]
        kept: list[float] = [0.0, mast.head] if mast.partners is None else [0.0, mast.head, mast.partners]
        for along in sorted(wanted):
            if not -SAME <= along <= mast.head + SAME:
                where = f"{along:.0f} mm along the mast {mast.name}, outside its {mast.head:.0f} mm"
                raise BadInput(f"something acts {where}; correct the point, or the mast's head")
            if min(abs(along - one) for one in kept) > SAME:
                kept.append(along)
        return sorted(kept)

    def _along(self, point: Point) -> float:
        number = self._numbers[point.mast]
        mast = self.rig.masts[number]
        return dot((point.fore - mast.foot_fore, 0.0, point.up - mast.foot_up), self.mast_axes[number][2])

    def _new_places(self, held: "list[bool]") -> "tuple[int, ...]":
        places = []
        for one in held:
            places.append(HELD if one else self.size)
            self.size += not one
        return tuple(places)

    def _beam(
        self,
        mast: int,
        near: Node,
        far: Node,
        section: Section,
        rate: float,
        axes: "Optional[tuple[tuple[float, ...], ...]]",
    ) -> None:
        length = size(plus(far.at, near.at, -1))
        along = axes[2] if axes else (0.0, 0.0, 1.0)
        stretch = [
            (place, sign * part)
            for node, sign in ((near, -1), (far, 1))
            for place, part in zip(node.places[:3], along)
            if place >= 0
        ]
        places = near.places + far.places
        self.beams.append(Beam(mast, places, length, section, rate, axes, tuple(stretch), (near, far)))

    def node_at(self, mast: int, along: float) -> Node:
        """The node of a mast nearest to a height."""
        return min(self.nodes[mast], key=lambda node: abs(node.along - along))

    def _line(self, stay: Stay) -> Line:
        holds = tuple(self._hold(name, stay.side) for name in stay.points)
        spans = [plus(lower.at, upper.at, -1) for upper, lower in zip(holds, holds[1:])]
        lengths = tuple(map(size, spans))
        if min(lengths) < SAME:
            raise BadInput(f"the stay {stay.name} has a part without length; its points must differ")
        line = Line(stay, holds, tuple(map(unit, spans)), lengths)
        for upper, lower, part in zip(holds, holds[1:], line.parts):
            for hold, sign in ((upper, -1), (lower, 1)):
                for place, column in zip(hold.places(), hold.columns()):
                    if place >= 0:
                        line.pull[place] = line.pull.get(place, 0.0) + sign * dot(part, column)
        return line

    def _hold(self, name: str, side: int) -> Hold:
        point = self._points[name]
        at = (point.fore, side * point.out, point.up)
        if point.mast in self._numbers:
            return self._hold_on_mast(point, at)
        if point.mast != HULL and name in self._uppers:
            return Hold(at, self._loose_node(name, at), give=0.0)
        return Hold(at, None, give=point.give)

    def _hold_on_mast(self, point: Point, at: "tuple[float, float, float]") -> Hold:
        number = self._numbers[point.mast]
        spreader = self._spreaders.get(point.name)
        if spreader is None:
            node = self.node_at(number, self._along(point))
            return Hold(at, node, plus(at, node.at, -1))
        if not spreader.modulus:
            node = self.node_at(number, spreader.root)
            return Hold(at, node, plus(at, node.at, -1))
        key = (point.name, round(at[1]))
        if key not in self.loose:
            root = self.node_at(number, spreader.root)
            axes = self.mast_axes[number]
            tip = Node(at, self._new_places([False] * 6), axes, number, root.along)
            self.loose[key] = tip
            reach = plus(tip.at, root.at, -1)
            if size(reach) < SAME:
                raise BadInput(f"the spreader to {point.name} has no length; correct its tip or its root")
            third = tuple(dot(axis, unit(reach)) for axis in axes)
            first = unit(plus((1.0, 0.0, 0.0), third, -third[0]))  # forward, square to the spreader
            own = (first, cross(third, first), third)
            parts = spreader.area, spreader.moment_fore, spreader.moment_up
            section = Section(
                *(spreader.modulus * part for part in parts), spreader.modulus / 2.66 * spreader.torsion
            )
            self._beam(number, root, tip, section, 0.0, own)
        return Hold(at, self.loose[key])

    def _loose_node(self, name: str, at: "tuple[float, float, float]") -> Node:
        key = (name, round(at[1]))
        if key not in self.loose:
            self.loose[key] = Node(at, self._new_places([False] * 3), GLOBAL)
        return self.loose[key]

    def _build_firsts(self) -> None:
        """The first entry of each row of the matrix, and what axial forces and tensions add to it for each kN."""
        first = list(range(self.size))
        together = [beam.places for beam in self.beams]
        together += [a.places() + b.places() for line in self.lines for a, b in zip(line.holds, line.holds[1:])]
        for places in together:
            least = min((place for place in places if place >= 0), default=0)
            for place in places:
                if place >= 0:
                    first[place] = min(first[place], least)
        self.firsts = tuple(first)
        for beam in self.beams:
            matrix = geometric(beam.length)
            beam.entries = self._entries(beam.places, turned(matrix, beam.axes) if beam.axes else matrix)
        for line in self.lines:
            line.entries = [entry for places, block in _string(line) for entry in self._entries(places, block)]

    def _entries(self, places: "tuple[int, ...]", block: "list[list[float]]") -> Entries:
        """The parts of a block that stand in the lower half of the matrix, by row and place in its row."""
        return [
            (row, column - self.firsts[row], value)
            for row, values in zip(places, block)
            for column, value in zip(places, values)
            if 0 <= column <= row and value
        ]

    @cached_property
    def elastic_rows(self) -> "list[list[float]]":
        """The matrix of the beams and the props, without what axial forces add."""
        matrix = Banded(self.firsts)
        for beam in self.beams:
            block = elastic(beam.section, beam.length)
            matrix.add(beam.places, turned(block, beam.axes) if beam.axes else block)
        for place in self.props:
            matrix.rows[place][-1] += PROP
        return matrix.rows

    def matrix(self, axial: Sequence[float], tensions: Sequence[float]) -> Banded:
        """The stiffness under these axial forces of the beams and tensions of the stays."""
        result = Banded.__new__(Banded)
        result.firsts, result.pivots = self.firsts, []
        rows = result.rows = [row.copy() for row in self.elastic_rows]
        forces = [*axial, *tensions]
        for force, one in zip(forces, [*self.beams, *self.lines]):
            if force:
                for row, place, value in one.entries:
                    rows[row][place] += force * value
        return result

    def _props(self) -> "list[int]":
        """What is propped: the highest stayed place of each mast on its foot, two ways, and then loose points."""
        props = []
        for number, mast in enumerate(self.rig.masts):
            stayed = [
                hold.node.along
                for line in self.lines
                for hold in line.holds
                if hold.node and hold.node.mast == number
            ]
            if not stayed:
                if mast.partners is None:
                    raise BadInput(f"the mast {mast.name} has no stay; give its stays, or its partners")
                continue
            if mast.partners is None:
                props += self.node_at(number, max(stayed)).places[:2]
        for node in self.loose.values():
            if len(node.places) == 3:
                props += node.places
        return props

    def _gives(self) -> "dict[tuple[int, int], float]":
        """What one stay lengthens for each kN in another that ends at the same yielding point of the hull."""
        shared = {}
        for one, line in enumerate(self.lines):
            low = line.holds[-1]
            for other, beside in enumerate(self.lines):
                if low.give and low.node is None and beside.holds[-1].at == low.at:
                    shared[one, other] = low.give * dot(line.parts[-1], beside.parts[-1])
        return shared

    def forces(self, loads: "tuple[Load, ...]", lee: int, warmer: float) -> "list[float]":
        """Forces on the degrees of freedom: what the sails push, and what held-back warmth pushes."""
        result = [0.0] * self.size
        for load in loads:
            node = self.node_at(self._numbers[load.mast], load.along)
            for place, force in zip(node.places, (load.fore, load.side * (lee or 1))):
                if place >= 0:
                    result[place] += force
        for beam in self.beams:
            for place, part in beam.along:
                result[place] += part * beam.section.axial * beam.rate * 1e-6 * warmer
        return result


def _axes(mast: Mast) -> "tuple[tuple[float, float, float], ...]":
    """A mast's own axes in fore, port, up: forward and to port square to it, and up along it."""
    return (cos(mast.rake), 0.0, sin(mast.rake)), (0.0, 1.0, 0.0), (-sin(mast.rake), 0.0, cos(mast.rake))


def _divided(heights: "list[float]", longest: float) -> "list[float]":
    result = heights[:1]
    for lower, upper in zip(heights, heights[1:]):
        parts = max(1, -int(-(upper - lower) // longest)) if longest < inf else 1
        result += [lower + (upper - lower) * part / parts for part in range(1, parts)]
        result.append(upper)
    return result


def _string(line: Line) -> "Iterator[tuple[tuple[int, ...], list[list[float]]]]":
    """What one kN of tension adds to the stiffness: parts that swing, and arms that turn under the pull."""
    for upper, lower, part, length in zip(line.holds, line.holds[1:], line.parts, line.lengths):
        columns = [tuple(-value for value in column) for column in upper.columns()] + lower.columns()
        aside = [plus(column, part, -dot(column, part)) for column in columns]
        yield upper.places() + lower.places(), [[dot(a, b) / length for b in aside] for a in aside]
    pulls = [
        plus(below, above, -1)
        for above, below in zip(((0.0, 0.0, 0.0), *line.parts), (*line.parts, (0.0, 0.0, 0.0)))
    ]
    for hold, pull in zip(line.holds, pulls):
        if hold.node and any(hold.arm):
            arm = [dot(axis, hold.arm) for axis in hold.node.axes]
            force = [dot(axis, pull) for axis in hold.node.axes]
            along = dot(hold.arm, pull)
            block = [
                [(along if i == j else 0.0) - (force[i] * arm[j] + arm[i] * force[j]) / 2 for j in range(3)]
                for i in range(3)
            ]
            yield hold.node.places[3:], block
