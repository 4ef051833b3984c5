"""Tuning: how much each lashing takes out so that the stays have their wanted tensions at rest.

Unknown are the tensions themselves. They have to leave each mast's head where the survey found it with nothing
holding it there; among those that do, the ones nearest to what is wanted are taken (least squares of what each
is off by, as a share), and where that leaves a choice, those that keep the masts straightest. What a lashing takes
out is then counted from a rope that just reaches, with the masts straight: L/EA·T and what the masts yield.
"""

from dataclasses import replace
from operator import mul
from typing import Optional

from loftsheet.balance.banded import solve_full
from loftsheet.balance.equilibrium import Compliance, Setting, State, compliance, settle
from loftsheet.balance.model import MIDDLE
from loftsheet.balance.structure import Structure
from loftsheet.errors import BadInput, NoSolution

STRAIGHT = 0.01  # share of tension that is given up for a millimetre less of bend
ROUNDS, CLOSE = 40, 1e-7  # mm


def tune(structure: Structure) -> "tuple[Setting, State]":
    """What each lashing takes out, and the rig at rest with that.

    Of runners those of each side pull half; where take-outs are typed they are cast off.
    """
    lines = structure.lines
    typed = [line.stay.name for line in lines if line.stay.take_out is not None]
    missing = [line.stay.name for line in lines if line.stay.take_out is None]
    calm = tuple([0.0] * structure.size)
    if typed and missing:
        raise BadInput(f"{typed[0]} has a take-out and {missing[0]} has none; give that of every stay, or of none")
    if typed:
        take_outs = tuple(line.stay.take_out or 0.0 for line in lines)
        set_up = tuple(not line.stay.runner for line in lines)
        setting = Setting(take_outs, set_up, calm)
        return setting, settle(structure, setting)
    if not any(line.stay.wanted for line in lines):
        raise BadInput("no stay has a wanted tension; give that of one stay at least")
    take_outs, state = _nearest(structure)
    for side in {line.stay.side for line in lines if line.stay.runner}:
        take_outs = _runners(structure, take_outs, state, side)
    return Setting(take_outs, tuple([True] * len(lines)), calm), state


def targets(structure: Structure) -> "list[Optional[float]]":
    """Wanted tensions; of a runner only half where there is one on the other side, for only one of them is set."""
    return [
        line.stay.wanted and line.stay.wanted / _sharing(structure, number)
        for number, line in enumerate(structure.lines)
    ]


def alone(structure: Structure, number: int, tension: float) -> float:
    """Tension of a runner that is set up by itself, from that which it has in tuning."""
    return structure.lines[number].stay.wanted or tension * _sharing(structure, number)


def _sharing(structure: Structure, number: int) -> int:
    """Two for a runner that has one on the other side, of which only one is ever set; else one."""
    stay = structure.lines[number].stay
    others = {line.stay.side for line in structure.lines if line.stay.runner} - {MIDDLE}
    return 2 if stay.runner and stay.side and -stay.side in others else 1


def _nearest(structure: Structure) -> "tuple[tuple[float, ...], State]":
    wanted = targets(structure)
    members = list(range(len(wanted)))
    axial, tensions = [0.0] * len(structure.beams), [one or 0.5 for one in wanted]
    slack: set[int] = set()
    before: list[float] = []
    for _ in range(ROUNDS):
        flexible = compliance(structure, axial, tensions, members)
        forces = _best(structure, flexible, wanted, slack)
        pushing = {one for one in members if forces[one] < 0}
        if pushing:
            slack |= pushing
            continue
        half = [-sum(map(mul, forces, column)) for column in zip(*flexible.halfway)]
        moved = flexible.matrix.back(half)
        axial = [beam.tension(moved, 0.0) for beam in structure.beams]
        tensions = [max(0.0, force) for force in forces[: len(members)]]
        take_outs = [sum(map(mul, row, forces)) for row in flexible.table[: len(members)]]
        if before and max(abs(a - b) for a, b in zip(take_outs, before)) < CLOSE * (1 + max(map(abs, take_outs))):
            state = State(tuple(tensions), tuple(axial), tuple(moved), tuple(force > 0 for force in tensions))
            setting = Setting(tuple(take_outs), tuple([True] * len(members)), tuple([0.0] * structure.size))
            return tuple(take_outs), settle(structure, setting, state)
        before = take_outs
    raise NoSolution(
        "the wanted tensions cannot be tuned: the masts would go on bending; want less, or support them more"
    )


def _best(
    structure: Structure, flexible: Compliance, wanted: "list[Optional[float]]", slack: "set[int]"
) -> "list[float]":
    """Forces of stays and props nearest to what is wanted, in balance: conditional least squares (Lagrange)."""
    table = flexible.table
    stays, heads = len(wanted), 2 * structure.heads
    free = [one for one in range(stays) if one not in slack] + list(range(stays + heads, len(table)))
    bends = _bends(structure, flexible)
    size = len(free)
    square = [[STRAIGHT**2 * sum(map(mul, bends[a], bends[b])) for b in free] for a in free]
    right = [0.0] * size
    for at, one in enumerate(free):
        target = wanted[one] if one < stays else None
        if target:
            square[at][at] += 1 / target**2
            right[at] = 1 / target
    conditions = [[table[prop][one] for one in free] for prop in range(stays, len(table))]
    full = [row + [line[at] for line in conditions] for at, row in enumerate(square)]
    full += [line + [0.0] * len(conditions) for line in conditions]
    solved = solve_full(full, right + [0.0] * len(conditions))
    if solved is None:
        raise NoSolution(
            "the wanted tensions cannot be tuned: nothing says how tight some stays are; give their tensions"
        )
    forces = [0.0] * len(table)
    for one, force in zip(free, solved):
        forces[one] = force
    return forces


def _bends(structure: Structure, flexible: Compliance) -> "list[list[float]]":
    """How far each member's pull moves the masts sideways, and points where only stays meet."""
    sideways = [
        place for nodes in structure.nodes for node in nodes for place in node.places[:2] if place >= 0
    ] + structure.props[2 * structure.heads :]
    moved = map(flexible.matrix.back, flexible.halfway)
    return [[one[place] for place in sideways] for one in moved]


def _runners(structure: Structure, take_outs: "tuple[float, ...]", state: State, side: int) -> "tuple[float, ...]":
    """What the runners of one side take out, set up by themselves to what is wanted of them."""
    lines = structure.lines
    known = tuple(
        (number, alone(structure, number, state.tensions[number]))
        for number, line in enumerate(lines)
        if line.stay.runner and line.stay.side == side
    )
    set_up = tuple(not line.stay.runner or line.stay.side == side for line in lines)
    setting = Setting(take_outs, set_up, tuple([0.0] * structure.size), known=known)
    found = dict(settle(structure, setting, replace(state, taut=tuple([True] * len(lines)))).known_take_outs)
    return tuple(found.get(number, one) for number, one in enumerate(take_outs))
