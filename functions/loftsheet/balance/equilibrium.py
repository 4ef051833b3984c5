"""At rest: tensions, axial forces and displacements that balance each other, second order.

With K the stiffness of the propped masts under the axial forces and tensions there are, f the forces on them and
b the pull of a stay, the displacements are u = K⁻¹·(f − Σ b·T). A taut stay carries T = EA/L·(e + b·u), so

    L/EA·T_a + Σ b_a·K⁻¹·b_c·T_c = e_a + b_a·K⁻¹·f          for each taut stay a,

and a slack one has T = 0 and e + b·u ≤ 0. A prop is taken away by a stay of the flexibility −1/PROP beside it. K
depends on the forces it leads to, so all this is repeated until they no longer change.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from operator import mul
from typing import Optional

from loftsheet.balance.banded import Banded, solve_full
from loftsheet.balance.structure import LEFT, PROP, Structure
from loftsheet.errors import NoSolution

ROUNDS = 60
CLOSE = 1e-6  # of the largest force: what may still change from one round to the next
LEAST_STRING = 0.01  # kN: a point where only stays meet hangs in them when they are slack, too
PROP_AWAY = -1 / (PROP * (1 - LEFT))
DUST = 1e-11  # mm for each mm: a slack stay that reaches so little too far is slack
TINY = 1e-13  # kN/mm: below this a pivot counts as none


@dataclass(frozen=True)
class Setting:
    """What a state is asked for: what each lashing takes out, which stays are set, what pushes."""

    take_outs: "tuple[float, ...]"
    set_up: "tuple[bool, ...]"
    forces: "tuple[float, ...]"
    warmer: float = 0.0
    known: "tuple[tuple[int, float], ...]" = ()  # stays of which the tension is given in place of the take-out


@dataclass(frozen=True)
class State:
    """A rig at rest."""

    tensions: "tuple[float, ...]"
    axial: "tuple[float, ...]"
    moved: "tuple[float, ...]"
    taut: "tuple[bool, ...]"
    known_take_outs: "tuple[tuple[int, float], ...]" = ()


@dataclass
class Compliance:
    """How stays lengthen by each other's tension, on masts under given forces."""

    structure: Structure
    matrix: Banded
    negative: int
    members: "list[int]"  # lines that are set, by number; the props after them
    halfway: "list[list[float]]"
    scaled: "list[list[float]]"
    table: "list[list[float]]"  # b_a·K⁻¹·b_c, with L/EA (for a prop what takes it away) on the diagonal

    def of(self, right: Sequence[float]) -> "tuple[list[float], list[float]]":
        """How far forces on the masts move each member's ends apart, and the forces half solved."""
        half = self.matrix.forward(right)
        return [sum(map(mul, scaled, half)) for scaled in self.scaled], half

    def own(self, setting: Setting) -> "list[float]":
        """By how much each member is shorter than from point to point on straight masts: lashing and cold."""
        result = [0.0] * len(self.table)
        for at, member in enumerate(self.members):
            line = self.structure.lines[member]
            result[at] = setting.take_outs[member] - line.stay.rate * 1e-6 * setting.warmer * line.length
        return result


def compliance(
    structure: Structure, axial: Sequence[float], tensions: Sequence[float], members: "list[int]"
) -> Compliance:
    matrix = structure.matrix(axial, tensions)
    negative = matrix.take_apart(TINY)
    halfway = []
    for pull in [structure.lines[member].pull for member in members] + [{place: 1.0} for place in structure.props]:
        right = [0.0] * structure.size
        for place, value in pull.items():
            right[place] = value
        halfway.append(matrix.forward(right, min(pull, default=0)))
    inverse = [1 / pivot for pivot in matrix.pivots]
    scaled = [list(map(mul, half, inverse)) for half in halfway]
    table = [[0.0] * len(halfway) for _ in halfway]
    for one, half in enumerate(halfway):
        for other in range(one + 1):
            table[one][other] = table[other][one] = sum(map(mul, half, scaled[other]))
    for one, member in enumerate(members):
        table[one][one] += structure.lines[member].slackness
        for other, beside in enumerate(members):
            table[one][other] += structure.gives.get((member, beside), 0.0)
    for one in range(len(members), len(halfway)):
        table[one][one] += PROP_AWAY
    return Compliance(structure, matrix, negative, members, halfway, scaled, table)


def settle(structure: Structure, setting: Setting, start: Optional[State] = None, rounds: int = ROUNDS) -> State:
    """Find the rig at rest; `rounds` = 0 leaves out what is of the second order."""
    members = [number for number, one in enumerate(setting.set_up) if one]
    state, last = start, 0.0
    strings: list[float] = []
    for _ in range(max(1, rounds)):
        axial, strings = _geometry(structure, setting, state, strings)
        if rounds == 0:
            axial, strings = [0.0] * len(axial), [0.0] * len(strings)
        new = rest(structure, setting, compliance(structure, axial, strings, members), state)
        before, state = state, new
        if before is not None:
            forces, others = (*new.tensions, *new.axial), (*before.tensions, *before.axial)
            change = max(abs(a - b) for a, b in zip(forces, others))
            largest = max(map(abs, forces))
            if change <= CLOSE * (1 + largest):
                return new
            last = change
    if rounds == 0:
        return new
    raise NoSolution(f"the masts and stays do not come to rest: forces still change by {last:.3g} kN")


def _geometry(
    structure: Structure, setting: Setting, state: Optional[State], before: "list[float]"
) -> "tuple[list[float], list[float]]":
    """Axial forces and tensions under which the stiffness is taken; at first a guess.

    Stays that meet in the air share their pull by where that point swings to: taken as they come they swing to and
    fro from round to round, so half of the round before is kept.
    """
    if state is None:
        axial = [0.0] * len(structure.beams)
        tensions = [line.stay.wanted or line.stay.ea * 0.0005 for line in structure.lines]
    else:
        axial, tensions = list(state.axial), list(state.tensions)
    strings = [tension if one else 0.0 for tension, one in zip(tensions, setting.set_up)]
    for number, line in enumerate(structure.lines):
        if line.hangs:
            strings[number] = max(strings[number], LEAST_STRING)
            if before:
                strings[number] = (strings[number] + before[number]) / 2
    return axial, strings


def rest(structure: Structure, setting: Setting, flexible: Compliance, before: Optional[State]) -> State:
    """Tensions and displacements with the stiffness held fast."""
    members, count = flexible.members, len(flexible.members)
    apart, half = flexible.of(setting.forces)
    own = flexible.own(setting)
    known = {members.index(member): tension for member, tension in setting.known}
    right = [
        a + b - sum(row[at] * force for at, force in known.items())
        for a, b, row in zip(own, apart, flexible.table)
    ]
    guess = [one for one in range(count) if one not in known and (before is None or before.taut[members[one]])]
    always = list(range(count, len(flexible.table)))
    pulls = tensions_of(flexible.table, right, [one for one in range(count) if one not in known], always, guess)
    for at, force in known.items():
        pulls[at] = force
    for member_half, pull in zip(flexible.halfway, pulls):
        if pull:
            half = [value - pull * part for value, part in zip(half, member_half)]
    moved = flexible.matrix.back(half)
    axial = tuple(beam.tension(moved, setting.warmer) for beam in structure.beams)
    tensions = [0.0] * len(structure.lines)
    for member, pull in zip(members, pulls):
        tensions[member] = pull
    found = []
    for one in known:
        needed = sum(map(mul, flexible.table[one], pulls)) - apart[one]
        found.append((members[one], needed + setting.take_outs[members[one]] - own[one]))
    return State(tuple(tensions), axial, tuple(moved), tuple(pull > 0 for pull in tensions), tuple(found))


def tensions_of(
    table: "list[list[float]]", right: "list[float]", free: "list[int]", always: "list[int]", guess: "list[int]"
) -> "list[float]":
    """Forces that are 0 or pull: all stays that would push are let go, all that would pull taken in.

    Where that turns in a circle only the last of them is exchanged, which always ends (Murty; Portugal, Júdice
    and Vicente, A comparison of block pivoting …, Math. Comp. 63 (1994), from memory).
    """
    taut, fewest, patience = set(guess), len(free) + 1, 10
    for _ in range(50 + 20 * len(free)):
        members = [one for one in free if one in taut] + always
        solved = solve_full([[table[a][b] for b in members] for a in members], [right[a] for a in members])
        pulls = [0.0] * len(table)
        if solved is not None:
            for member, pull in zip(members, solved):
                pulls[member] = pull
            wrong = [one for one in free if one in taut and pulls[one] < 0]
            reach = {one: right[one] - sum(map(mul, table[one], pulls)) for one in free if one not in taut}
            wrong += [one for one, stretch in reach.items() if stretch > DUST * (1 + abs(right[one]))]
        else:
            wrong = [one for one in free if one not in taut]
        if not wrong:
            return pulls
        if len(wrong) < fewest:
            fewest, patience = len(wrong), 10
        else:
            patience -= 1
        taut ^= set(wrong) if patience > 0 else {max(wrong)}
    raise NoSolution("no set of taut stays balances the masts")
