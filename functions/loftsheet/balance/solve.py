"""The whole balance of a rig: tuned, at rest, in each case, and what a millimetre of a lashing does."""

from dataclasses import dataclass, replace
from functools import lru_cache
from math import asin, degrees, radians, sin
from typing import Optional

from loftsheet.balance.banded import solve_full
from loftsheet.balance.buckling import factor
from loftsheet.balance.equilibrium import Compliance, Setting, State, compliance, rest, settle
from loftsheet.balance.held import refuse_one_sided, refuse_unheld
from loftsheet.balance.model import HULL, Case, Mast, Rig
from loftsheet.balance.structure import Structure
from loftsheet.balance.tuning import alone, tune
from loftsheet.errors import NoSolution

ROUNDS, CLOSE = 20, 1e-4
LEAN = 0.05  # of a mast's length: a head that moves further is no small displacement
MANY = 10.0  # times the case's forces: as good as never
NOTHING = 0.005  # of a case's forces: a mast that carries no more is held by none of its stays
KEPT = 8  # balances remembered


@dataclass(frozen=True)
class Shape:
    """How a mast stands: forces and movements; to port and forward positive. mm and kN."""

    compression: float
    head_fore: float
    head_port: float
    bow_fore: float
    bow_port: float


@dataclass(frozen=True)
class Outcome:
    """A case, or the rig at rest: what it came to, or why it came to nothing."""

    case: Optional[Case]
    setting: Setting
    state: Optional[State]
    factors: "tuple[float, ...]"  # against buckling, of each mast
    shapes: "tuple[Shape, ...]"
    slack_share: Optional[float] = None  # share of the case's forces at which the first lee stay goes slack
    slack_first: Optional[int] = None
    why: str = ""

    @property
    def slack_heel(self) -> Optional[float]:
        """Heel at which that is, side forces taken to grow with the sine of the heel."""
        if self.slack_share is None or self.case is None:
            return None
        sine = self.slack_share * sin(radians(self.case.heel))
        return degrees(asin(sine)) if sine <= 1 else None


@dataclass(frozen=True)
class Balance:
    """All that was found of a rig. The first outcome is the rig at rest as it is tuned."""

    structure: Structure
    take_outs: "tuple[float, ...]"
    outcomes: "tuple[Outcome, ...]"
    effect: "tuple[tuple[Optional[float], ...], ...]"  # kN in a stay (row) for 1 mm of the lashing of one (column)

    def at_rest(self, number: int) -> Optional[float]:
        """Tension of a stay at the dock; of a runner that when it is set up by itself."""
        dock = self.outcomes[0]
        assert dock.state is not None
        if not dock.setting.set_up[number]:
            return None
        stay = self.structure.lines[number].stay
        tension = dock.state.tensions[number]
        return alone(self.structure, number, tension) if stay.runner else tension


@lru_cache(maxsize=KEPT)
def balance(rig: Rig) -> Balance:
    """Work a rig out, once."""
    structure = Structure(rig)
    refuse_unheld(structure, [True] * len(structure.lines))
    refuse_one_sided(structure)
    calm, state = tune(structure)
    dock = _outcome(structure, None, calm, state)
    if dock.state is None:
        raise NoSolution(f"at the dock {dock.why}")
    _refuse_adrift(structure, dock.state)
    cases = tuple(_case(structure, case, dock) for case in rig.cases)
    return Balance(structure, calm.take_outs, (dock, *cases), _effect(structure, state))


def _refuse_adrift(structure: Structure, state: State) -> None:
    """Refuse a point in the air that has to move far until the stays that meet there balance."""
    for name, node in structure.loose_points():
        shortest = min(line.length for line in structure.lines if any(hold.node is node for hold in line.holds))
        away = max(abs(state.moved[place]) for place in node.places)
        if away > LEAN * shortest:
            raise NoSolution(
                f"the stays that meet at {name} do not balance there: it moves by {away:.0f} mm; "
                f'correct its place, or write "{HULL}" for its mast if it is part of the hull'
            )


def _case(structure: Structure, case: Case, dock: Outcome) -> Outcome:
    set_up = tuple(not line.stay.runner or line.stay.side in case.runners for line in structure.lines)
    forces = tuple(structure.forces(case.loads, case.lee, case.warmer))
    setting = Setting(dock.setting.take_outs, set_up, forces, case.warmer)
    assert dock.state is not None
    try:
        refuse_unheld(structure, set_up)
        state = settle(structure, setting, dock.state)
    except NoSolution as refused:
        return _failed(structure, case, setting, str(refused))
    found = _outcome(structure, case, setting, state, dock)
    if found.state is None or not case.lee:
        return found
    share, first = _first_slack(structure, case, setting, dock.state)
    return Outcome(case, setting, state, found.factors, found.shapes, share, first, found.why)


def _outcome(
    structure: Structure, case: Optional[Case], setting: Setting, state: State, beside: Optional[Outcome] = None
) -> Outcome:
    shapes = tuple(_shape(structure, state, number) for number in range(len(structure.rig.masts)))
    for mast, shape in zip(structure.rig.masts, shapes):
        if max(abs(shape.head_fore), abs(shape.head_port)) > LEAN * mast.head:
            why = f"the head of {mast.called} moves by more than {LEAN:.0%} of its length; support it better"
            return _failed(structure, case, setting, why)
    factors = tuple(
        factor(structure, state, number, _guess(beside, number, shape.compression))
        if _is_held(structure, state, number)
        else 0.0
        for number, shape in enumerate(shapes)
    )
    for mast, one in zip(structure.rig.masts, factors):
        if one <= 1:
            return Outcome(case, setting, None, factors, (), why=_buckles(mast, one))
    return Outcome(case, setting, state, factors, shapes)


def _is_held(structure: Structure, state: State, number: int) -> bool:
    """Whether a mast stands by itself, through partners, or has a stay that is taut."""
    nodes = {id(node) for node in structure.nodes[number]}
    return structure.rig.masts[number].partners is not None or any(
        taut and any(id(hold.node) in nodes for hold in line.holds)
        for taut, line in zip(state.taut, structure.lines)
    )


def _guess(beside: Optional[Outcome], number: int, compression: float) -> float:
    """A factor to begin with: the one at the dock, by what the mast is pushed now."""
    if beside is None or compression <= 0:
        return 3.0
    return beside.factors[number] * beside.shapes[number].compression / compression


def _failed(structure: Structure, case: Optional[Case], setting: Setting, why: str) -> Outcome:
    """A case without rest: where a mast buckles under the forces of the first order, that is why."""
    try:
        first = settle(structure, setting, rounds=0)
    except NoSolution:
        return Outcome(case, setting, None, (), (), why=why)
    factors = tuple(factor(structure, first, number) for number in range(len(structure.rig.masts)))
    weak = min(range(len(factors)), key=factors.__getitem__)
    if factors[weak] < 1:
        why = _buckles(structure.rig.masts[weak], factors[weak])
    return Outcome(case, setting, None, factors, (), why=why)


def _buckles(mast: Mast, share: float) -> str:
    if share < NOTHING and mast.partners is None:
        return f"nothing holds {mast.called}: its stays go slack"
    return f"{mast.called} buckles: it carries {share:.2f} of these forces"


def _shape(structure: Structure, state: State, number: int) -> Shape:
    nodes = structure.nodes[number]
    lowest = max(at for at, beam in enumerate(structure.beams) if beam.mast == number and beam.axes is None)
    moves = [[state.moved[place] if place >= 0 else 0.0 for place in node.places[:2]] for node in nodes]
    head = moves[0]
    bows = [
        max((move[way] - head[way] * node.along / nodes[0].along for move, node in zip(moves, nodes)), key=abs)
        for way in (0, 1)
    ]
    return Shape(-state.axial[lowest], head[0], head[1], bows[0], bows[1])


def _first_slack(
    structure: Structure, case: Case, setting: Setting, dock: State
) -> "tuple[Optional[float], Optional[int]]":
    """The share of the case's side forces at which the first stay to lee goes slack, and which it is.

    Up to there the same stays are taut, so that with the stiffness held fast every tension is a straight line of
    the share; stiffness and share are found in turns.
    """
    lines = structure.lines
    members = [number for number, one in enumerate(setting.set_up) if one]
    lee = [at for at, one in enumerate(members) if lines[one].stay.side == case.lee and not lines[one].stay.runner]
    warm = structure.forces((), case.lee, case.warmer)
    push = [force - still for force, still in zip(setting.forces, warm)]
    present, share = dock, -1.0
    most = 1 / sin(radians(case.heel)) if case.heel else MANY
    for _ in range(ROUNDS):
        flexible = compliance(structure, present.axial, present.tensions, members)
        still, grows = _straight_lines(replace(setting, forces=tuple(warm)), flexible, push, present, lee)
        falling = [(still[at] / -grows[at], at) for at in lee if grows[at] < 0]
        if not falling:
            return None, None
        (found, first), before = min(falling), share
        share = min(max(found, 0.0), most)
        if abs(share - before) < CLOSE * (1 + share):
            break
        forces = tuple(one + share * other for one, other in zip(warm, push))
        try:
            present = rest(structure, replace(setting, forces=forces), flexible, present)
        except NoSolution:  # the mast gives way before
            return None, None
    return (share, members[first]) if share < most else (None, None)


def _straight_lines(
    calm: Setting, flexible: Compliance, push: "list[float]", present: State, lee: "list[int]"
) -> "tuple[list[float], list[float]]":
    """Tensions without side forces and what they grow by with all of them, taut and lee stays kept."""
    count = len(flexible.members)
    kept = [
        at for at in range(len(flexible.table)) if at >= count or at in lee or present.taut[flexible.members[at]]
    ]
    table = [[flexible.table[a][b] for b in kept] for a in kept]
    rights = [a + b for a, b in zip(flexible.own(calm), flexible.of(calm.forces)[0])], flexible.of(push)[0]
    results = []
    for right in rights:
        solved = solve_full(table, [right[at] for at in kept])
        if solved is None:
            raise NoSolution("the masts have no single balance; support them better")
        results.append([dict(zip(kept, solved)).get(at, 0.0) for at in range(len(right))])
    return results[0], results[1]


def _effect(structure: Structure, state: State) -> "tuple[tuple[Optional[float], ...], ...]":
    """kN in each stay for 1 mm of each lashing at rest: the inverse of the compliance, stiffness held fast.

    Runners are cast off; for those of one side only they are set.
    """
    count = len(structure.lines)
    result: list[list[Optional[float]]] = [[None] * count for _ in range(count)]
    sides = {line.stay.side for line in structure.lines if line.stay.runner}
    for side in (None, *sorted(sides)):
        members = [
            number
            for number, line in enumerate(structure.lines)
            if state.taut[number] and (not line.stay.runner or line.stay.side == side)
        ]
        flexible = compliance(structure, state.axial, state.tensions, members)
        size = len(flexible.table)
        for at, member in enumerate(members):
            if structure.lines[member].stay.runner != (side is not None):
                continue
            column = solve_full(flexible.table, [float(one == at) for one in range(size)])
            assert column is not None
            for other, value in zip(members, column):
                result[other][member] = value
    return tuple(map(tuple, result))
