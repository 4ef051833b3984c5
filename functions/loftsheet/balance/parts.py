"""Parts of a rig as a structure: nodes, beams, and stays with where they take hold."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Optional

from loftsheet.balance.beam import Section
from loftsheet.balance.model import Stay
from loftsheet.vectors import Vector, cross, dot, plus

Entries = list[tuple[int, int, float]]  # row, place in that row, value
Axes = tuple[Vector, Vector, Vector]
NOWHERE = (0.0, 0.0, 0.0)


@dataclass(frozen=True)
class Node:
    """A place with its degrees of freedom, −1 where held; `axes` are its own axes in fore, port, up."""

    at: Vector
    places: "tuple[int, ...]"
    axes: Axes
    mast: int = -1
    along: float = 0.0


@dataclass(frozen=True)
class Hold:
    """Where a stay takes hold: a node, and by how far it stands off; node None on the hull."""

    at: Vector
    node: Optional[Node]
    arm: Vector = NOWHERE
    give: float = 0.0

    def places(self) -> "tuple[int, ...]":
        return self.node.places if self.node else ()

    def columns(self) -> "list[Vector]":
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
    axes: Optional[Axes]  # None: those of its mast
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
    parts: "tuple[Vector, ...]"  # unit vectors from each point to the next below
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


def string(line: Line) -> "Iterator[tuple[tuple[int, ...], list[list[float]]]]":
    """What one kN of tension adds to the stiffness: parts that swing, and arms that turn under the pull."""
    for upper, lower, part, length in zip(line.holds, line.holds[1:], line.parts, line.lengths):
        columns = [plus(NOWHERE, column, -1) for column in upper.columns()] + lower.columns()
        aside = [plus(column, part, -dot(column, part)) for column in columns]
        yield upper.places() + lower.places(), [[dot(a, b) / length for b in aside] for a in aside]
    pulls = [plus(below, above, -1.0) for above, below in zip((NOWHERE, *line.parts), (*line.parts, NOWHERE))]
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
