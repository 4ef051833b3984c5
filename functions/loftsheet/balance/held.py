"""Whether stays can hold at all what hangs in them: a mast that leans, a point where only they meet."""

from collections.abc import Sequence
from math import cos, pi, sin

from loftsheet.balance.model import HULL
from loftsheet.balance.parts import Line
from loftsheet.balance.structure import Structure
from loftsheet.errors import NoSolution
from loftsheet.vectors import Vector, cross, dot, plus, size

# In steps of 45° from forward over port; the four main ones are asked first.
DIRECTIONS = {
    0: ("forward", "aft"),
    2: ("to port", "to starboard"),
    4: ("aft", "forward"),
    6: ("to starboard", "to port"),
}
DIRECTIONS.update(
    {
        1: ("forward and to port", "aft and to starboard"),
        3: ("aft and to port", "forward and to starboard"),
        5: ("aft and to starboard", "forward and to port"),
        7: ("forward and to starboard", "aft and to port"),
    }
)
ONE_SIDED = 0.1  # of a pull: a twentieth of it is 3° out of line
STEPS = 100
LEAST = 0.01  # mm of stretch for each mm of lean where the stay takes hold


def refuse_unheld(structure: Structure, set_up: Sequence[bool]) -> None:
    """Refuse a mast on its foot that may fall one way without stretching any of the stays that are set."""
    lines = [line for line, one in zip(structure.lines, set_up) if one]
    for number, mast in enumerate(structure.rig.masts):
        if mast.partners is not None:
            continue
        for step, (falls, leads) in DIRECTIONS.items():
            moved = _leaning(structure, number, step * pi / 4)
            if all(_stretch(line, number, moved) < LEAST for line in lines):
                raise NoSolution(
                    f"nothing keeps {mast.called} from falling {falls}: "
                    f"no stay that is set up leads {leads} from it; give one"
                )


def _leaning(structure: Structure, mast: int, turn: float) -> "list[float]":
    """Displacements of a stiff mast that leans by 1 about its foot."""
    moved = [0.0] * structure.size
    nodes = structure.nodes[mast]
    foot, axes, lean = nodes[-1], nodes[-1].axes, (-sin(turn), cos(turn), 0.0)
    for node in (*nodes, *structure.tips_of(mast)):
        away = plus(node.at, foot.at, -1)
        arm = (dot(axes[0], away), dot(axes[1], away), dot(axes[2], away))
        moves = (*cross(lean, arm), *lean)
        for place, value in zip(node.places, moves):
            if place >= 0:
                moved[place] = value
    return moved


def _stretch(line: Line, mast: int, moved: "list[float]") -> float:
    height = max((hold.node.along for hold in line.holds if hold.node and hold.node.mast == mast), default=0.0)
    return sum(value * moved[place] for place, value in line.pull.items()) / height if height else 0.0


def refuse_one_sided(structure: Structure) -> None:
    """Refuse a point where only stays meet that all pull it the same way, so that no tensions balance."""
    for name, node in structure.loose_points():
        leads = []
        for line in structure.lines:
            for upper, lower, part in zip(line.holds, line.holds[1:], line.parts):
                leads += [part] if upper.node is node else []
                leads += [plus((0.0, 0.0, 0.0), part, -1.0)] if lower.node is node else []
        if _least_pull(leads) > ONE_SIDED:
            raise NoSolution(
                f"the stays that meet at {name} do not pull against each other; correct its place, "
                f'or write "{HULL}" for its mast if it is part of the hull'
            )


def _least_pull(leads: "list[Vector]") -> float:
    """The least that unit pulls along these leads can come to, shared as one likes (Frank and Wolfe, 1956)."""
    middle = leads[0]
    for _ in range(STEPS):
        best = min(leads, key=lambda lead: dot(lead, middle))
        towards = plus(best, middle, -1.0)
        wide = dot(towards, towards)
        share = min(1.0, max(0.0, -dot(middle, towards) / wide)) if wide else 0.0
        middle = plus(middle, towards, share)
    return size(middle)
