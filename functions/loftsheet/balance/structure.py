"""A rig as a structure: nodes, beams, and how each stay pulls; nothing here depends on a case.

Displacements of a mast are counted in its own axes: forward and to port square to it, and up along it. Stays
are no part of the matrix that is taken apart: each is a direction `pull` in which it takes hold of the
displacements, so that u·pull is by how much it lengthens. What cannot stand without stays (a mast on its
foot, a point where only stays meet) is held by springs, the props, which `equilibrium` takes away again.
"""

from collections.abc import Sequence
from functools import cached_property
from math import ceil
from typing import Optional, Union

from loftsheet.balance.banded import Banded
from loftsheet.balance.beam import POISSON, Section, elastic, geometric, turned
from loftsheet.balance.model import HULL, Load, Mast, Point, Rig, Spreader, Stay
from loftsheet.balance.parts import NOWHERE, Axes, Beam, Entries, Hold, Line, Node, string
from loftsheet.degrees import cos, sin
from loftsheet.errors import BadInput
from loftsheet.vectors import Vector, cross, dot, plus, size
from loftsheet.vectors import line as direction

PANELS = 6  # a mast is divided so that no beam is longer than this part of it
SAME = 1.0  # mm; what is nearer is one node
PROP = 1.0  # kN/mm
LEFT = 1e-8  # part of a prop that stays, so that what nothing holds moves far and is found
HELD = -1
GLOBAL = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


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
        self._tips: dict[tuple[str, int], Node] = {}
        self._loose: dict[tuple[str, int], Node] = {}
        for number in range(len(rig.masts)):
            self._build_mast(number)
        self.lines = [self._line(stay) for stay in rig.stays]
        self._build_firsts()
        self.props = self._props()
        self.heads = sum(mast.partners is None for mast in rig.masts)  # props of masts, two for each
        self.gives = self._gives()

    def _build_mast(self, number: int) -> None:
        """Nodes of a mast and its spreaders' tips, numbered so that what is joined lies near each other.

        The first mast from its foot up, the next from its head down, for heads are joined by stays.
        """
        mast = self.rig.masts[number]
        heights = _divided(self._heights(number), mast.head / PANELS)
        nodes = []
        for along in heights if number % 2 == 0 else reversed(heights):
            held = [along == 0 or along == mast.partners] * 2 + [along == 0, False, False, along == 0]
            at = plus((mast.foot_fore, 0.0, mast.foot_up), self.mast_axes[number][2], along)
            nodes.append(Node(at, self._new_places(held), self.mast_axes[number], number, along))
            self._build_tips(nodes[-1], heights)
        nodes.sort(key=lambda node: -node.along)
        self.nodes.append(nodes)
        section = _section(mast, mast.moment_fore, mast.moment_side)
        for upper, lower in zip(nodes, nodes[1:]):
            self._beam(number, lower, upper, section, mast.rate, None)

    def _build_tips(self, root: Node, heights: "list[float]") -> None:
        """Tips of the spreaders that are beams from this node."""
        for spreader in self.rig.spreaders:
            point = self._points[spreader.tip]
            of_this = self._numbers.get(point.mast) == root.mast and spreader.modulus
            if of_this and min(heights, key=lambda along: abs(along - spreader.root)) == root.along:
                for side in sorted({stay.side for stay in self.rig.stays if spreader.tip in stay.points}):
                    self._tips[spreader.tip, side] = self._tip(root, spreader, side * point.out)

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
                where = f"{along:.0f} mm along {mast.called}, outside its {mast.head:.0f} mm"
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
        axes: Optional[Axes],
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

    def loose_points(self) -> "list[tuple[str, Node]]":
        """Points where only stays meet, by name."""
        return [(name, node) for (name, _), node in self._loose.items()]

    def tips_of(self, mast: int) -> "list[Node]":
        return [tip for tip in self._tips.values() if tip.mast == mast]

    def node_at(self, mast: int, along: float) -> Node:
        """The node of a mast nearest to a height."""
        return min(self.nodes[mast], key=lambda node: abs(node.along - along))

    def _line(self, stay: Stay) -> Line:
        holds = tuple(self._hold(name, stay.side) for name in stay.points)
        lengths = tuple(size(plus(lower.at, upper.at, -1)) for upper, lower in zip(holds, holds[1:]))
        if min(lengths) < SAME:
            raise BadInput(f"the stay {stay.name} has a part without length; its points must differ")
        parts = tuple(direction(upper.at, lower.at) for upper, lower in zip(holds, holds[1:]))
        line = Line(stay, holds, parts, lengths)
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
            return self._hold_on_mast(point, side, at)
        if point.mast != HULL and name in self._uppers:
            return Hold(at, self._loose_node(name, at), give=0.0)
        return Hold(at, None, give=point.give)

    def _hold_on_mast(self, point: Point, side: int, at: Vector) -> Hold:
        number = self._numbers[point.mast]
        spreader = self._spreaders.get(point.name)
        if spreader is None:
            node = self.node_at(number, self._along(point))
            return Hold(at, node, plus(at, node.at, -1))
        if spreader.modulus:
            return Hold(at, self._tips[point.name, side])
        root = self.node_at(number, spreader.root)
        return Hold(at, root, plus(at, root.at, -1))

    def _tip(self, root: Node, spreader: Spreader, out: float) -> Node:
        """The tip of a spreader, at the end of a beam from its root."""
        point, axes = self._points[spreader.tip], root.axes
        at = (point.fore, out, point.up)
        tip = Node(at, self._new_places([False] * 6), axes, root.mast, root.along)
        if size(plus(at, root.at, -1)) < SAME:
            raise BadInput(f"the spreader to {spreader.tip} has no length; correct its tip or its root")
        reach = direction(root.at, at)
        third = (dot(axes[0], reach), dot(axes[1], reach), dot(axes[2], reach))
        forward = direction(NOWHERE, plus((1.0, 0.0, 0.0), third, -third[0]))  # square to the spreader
        section = _section(spreader, spreader.moment_fore, spreader.moment_up)
        self._beam(root.mast, root, tip, section, 0.0, (forward, cross(third, forward), third))
        return tip

    def _loose_node(self, name: str, at: Vector) -> Node:
        key = (name, (at[1] > 0) - (at[1] < 0))
        if key not in self._loose:
            self._loose[key] = Node(at, self._new_places([False] * 3), GLOBAL)
        return self._loose[key]

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
            line.entries = [entry for places, block in string(line) for entry in self._entries(places, block)]

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
        entries = [one.entries for one in self.beams] + [one.entries for one in self.lines]
        for force, several in zip((*axial, *tensions), entries):
            if force:
                for row, place, value in several:
                    rows[row][place] += force * value
        return result

    def _props(self) -> "list[int]":
        """What is propped: the highest stayed place of each mast on its foot, two ways, and then loose points."""
        props: list[int] = []
        for number, mast in enumerate(self.rig.masts):
            stayed = [
                hold.node.along
                for line in self.lines
                for hold in line.holds
                if hold.node and hold.node.mast == number
            ]
            if not stayed:
                if mast.partners is None:
                    raise BadInput(f"{mast.called} has no stay; give its stays, or its partners")
                continue
            if mast.partners is None:
                props += self.node_at(number, max(stayed)).places[:2]
        return props + [place for node in self._loose.values() for place in node.places]

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


def _axes(mast: Mast) -> Axes:
    """A mast's own axes in fore, port, up: forward and to port square to it, and up along it."""
    return (cos(mast.rake), 0.0, sin(mast.rake)), (0.0, 1.0, 0.0), (-sin(mast.rake), 0.0, cos(mast.rake))


def _section(one: Union[Mast, Spreader], first: float, second: float) -> Section:
    shear = one.modulus / (2 + 2 * POISSON)
    return Section(one.modulus * one.area, one.modulus * first, one.modulus * second, shear * one.torsion)


def _divided(heights: "list[float]", longest: float) -> "list[float]":
    result = heights[:1]
    for lower, upper in zip(heights, heights[1:]):
        parts = ceil((upper - lower) / longest)
        result += [lower + (upper - lower) * part / parts for part in range(1, parts)]
        result.append(upper)
    return result
