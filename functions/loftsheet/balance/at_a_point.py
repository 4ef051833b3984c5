"""Forces at one node of a rig at rest, and their sum, which is nothing."""

from typing import Union

from loftsheet.balance.beam import elastic, geometric, turned
from loftsheet.balance.parts import NOWHERE, Beam, Hold, Line, Node
from loftsheet.balance.solve import Balance, Outcome
from loftsheet.errors import NotInTable
from loftsheet.vectors import Vector, dot, plus
from loftsheet.vectors import total as summed


def forces_at(solved: Balance, outcome: Outcome, point: str) -> "tuple[tuple[Union[float, str], ...], ...]":
    """A row for each force on the node at a point of the survey, or at the foot of the mast of that name."""
    found = list(_forces(solved, outcome, _node(solved, point)))
    total = _sum(found)
    return tuple((name, *force) for name, force in [*found, ("sum", total)])


def _sum(forces: "list[tuple[str, Vector]]") -> Vector:
    total = NOWHERE
    for _, force in forces:
        total = summed(total, force)
    return total


def _node(solved: Balance, point: str) -> Node:
    structure = solved.structure
    for mast, nodes in zip(structure.rig.masts, structure.nodes):
        if mast.name == point:
            return nodes[-1]
    for line in structure.lines:
        for name, hold in zip(line.stay.points, line.holds):
            if name == point and hold.node:
                return hold.node
    raise NotInTable(f"{point} is no point of a mast at which a stay takes hold, and no mast")


def _forces(solved: Balance, outcome: Outcome, node: Node) -> "list[tuple[str, Vector]]":
    structure, state = solved.structure, outcome.state
    assert state is not None
    moved, warmer = list(state.moved), outcome.setting.warmer
    result = []
    for line, tension in zip(structure.lines, state.tensions):
        if tension and any(hold.node is node for hold in line.holds):
            result.append((line.stay.name, _of_stay(line, tension, node, moved)))
    for beam, axial in zip(structure.beams, state.axial):
        for end in (0, 1):
            if beam.ends[end] is node:
                result.append((_title(beam, end), _of_beam(beam, axial, end, moved, warmer)))
    for load in outcome.case.loads if outcome.case else ():
        if structure.rig.masts[node.mast].name == load.mast and structure.node_at(node.mast, load.along) is node:
            side = load.side * (outcome.case.lee or 1) if outcome.case else 0.0
            result.append(("sails", _global(node, (load.fore, side, 0.0))))
    held = [place < 0 for place in node.places[:3]]
    if any(held):
        total = _sum(result)
        own = [-dot(axis, total) if one else 0.0 for axis, one in zip(node.axes, held)]
        result.append(("what holds the mast there", _global(node, (own[0], own[1], own[2]))))
    return result


def _title(beam: Beam, end: int) -> str:
    if beam.axes is not None:
        return "spreader"
    return "mast above" if end == 0 else "mast below"


def _global(node: Node, force: Vector) -> Vector:
    first, second, third = node.axes
    return plus(plus(plus(NOWHERE, first, force[0]), second, force[1]), third, force[2])


def _of_stay(line: Line, tension: float, node: Node, moved: "list[float]") -> Vector:
    """Pull of a stay on a node, its parts turned by what their ends have moved."""
    total = NOWHERE
    ends = list(zip(line.holds, line.holds[1:], line.parts, line.lengths))
    for upper, lower, part, length in ends:
        swing = plus(_move(lower, moved), _move(upper, moved), -1)
        aside = plus(swing, part, -dot(swing, part))
        leads = plus(part, aside, 1 / length)
        for hold, sign in ((upper, 1.0), (lower, -1.0)):
            if hold.node is node:
                total = plus(total, leads, sign * tension)
    return total


def _move(hold: Hold, moved: "list[float]") -> Vector:
    total = NOWHERE
    for place, column in zip(hold.places(), hold.columns()):
        if place >= 0:
            total = plus(total, column, moved[place])
    return total


def _of_beam(beam: Beam, axial: float, end: int, moved: "list[float]", warmer: float) -> Vector:
    """Force of a beam on the node at one of its ends."""
    first = elastic(beam.section, beam.length)
    second = geometric(beam.length)
    matrix = [[a + axial * b for a, b in zip(one, other)] for one, other in zip(first, second)]
    matrix = turned(matrix, beam.axes) if beam.axes else matrix
    ends = [moved[place] if place >= 0 else 0.0 for place in beam.places]
    forces = [sum(a * b for a, b in zip(row, ends)) for row in matrix[6 * end : 6 * end + 3]]
    push = beam.section.axial * beam.rate * 1e-6 * warmer * (1 if end else -1)
    third = beam.axes[2] if beam.axes else (0.0, 0.0, 1.0)
    own = [push * part - force for part, force in zip(third, forces)]
    return _global(beam.ends[end], (own[0], own[1], own[2]))
