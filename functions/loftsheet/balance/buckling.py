"""Buckling: by how much forces may grow until the rig gives way."""

from dataclasses import dataclass
from math import exp, log

from loftsheet.balance.banded import pivots_of
from loftsheet.balance.equilibrium import State, compliance
from loftsheet.balance.structure import Structure

LARGEST = 50.0  # a factor above that is as good as any
WIDER = 1.15  # a guess is first tried so much wider
FINE = 0.002  # how near to each other a factor that holds and one that does not are found


@dataclass(frozen=True)
class Probe:
    """A factor, in how many ways the rig gives way at it, and the size of its determinant, as a logarithm."""

    times: float
    ways: int
    size: float


def factor(structure: Structure, state: State, mast: int, guess: float = 3.0) -> float:
    """Factor on the axial forces of one mast and its spreaders, and on the tensions of the stays that touch it.

    The stiffness is the elastic one of masts and taut stays and what the forces add; the result is the smallest
    factor at which it has no inverse. Everything else stands as it is in this state. A rig that does not give way
    at one factor does so at none below, for its stiffness at those is a mean of two that do not.
    """
    tried = probe(structure, state, mast, min(WIDER * guess, LARGEST))
    if tried.ways:
        holds, gives = probe(structure, state, mast, tried.times / WIDER**2), tried
        while holds.ways and holds.times > FINE:
            holds, gives = probe(structure, state, mast, holds.times / 2), holds
    else:
        holds, gives = tried, tried
        while not gives.ways:
            if gives.times >= LARGEST:
                return LARGEST
            holds, gives = gives, probe(structure, state, mast, min(1.5 * gives.times, LARGEST))
    beyond, side = FINE / 4, 0
    while gives.times - holds.times > FINE * gives.times:
        new = probe(structure, state, mast, _between(holds, gives, beyond * (side or 1)))
        beyond = 3 * beyond if side == (-1 if new.ways else 1) else FINE / 4
        holds, gives, side = (holds, new, -1) if new.ways else (new, gives, 1)
    return (holds.times + gives.times) / 2


def _between(holds: Probe, gives: Probe, beyond: float) -> float:
    """Where to look next: just beyond where the determinant seems to be 0, to close in from the other side.

    Where there is more than one way to give way the determinant says nothing, so halfway.
    """
    wide = gives.times - holds.times
    if gives.ways > 1 or holds.ways:
        return holds.times + wide / 2
    largest = max(holds.size, gives.size)
    low, high = exp(holds.size - largest), exp(gives.size - largest)
    edge = FINE * gives.times / 4
    found = holds.times + wide * low / (low + high) + beyond * gives.times
    return min(max(found, holds.times + edge), gives.times - edge)


def probe(structure: Structure, state: State, mast: int, times: float) -> Probe:
    """The rig with the forces of one mast multiplied.

    In how many ways it gives way is how many eigenvalues of its stiffness are negative. By the inertia of the
    bordered matrix they are those of the propped masts, and the positive ones of the compliance of taut stays and
    props, less the taut stays.
    """
    axial = [force * (times if beam.mast == mast else 1) for force, beam in zip(state.axial, structure.beams)]
    tensions = [
        force * (times if line.touches(mast) else 1) for force, line in zip(state.tensions, structure.lines)
    ]
    members = [number for number, one in enumerate(state.taut) if one]
    flexible = compliance(structure, axial, tensions, members)
    pivots = pivots_of(flexible.table)
    ways = flexible.negative + sum(pivot > 0 for pivot in pivots) - len(members)
    return Probe(times, ways, sum(log(abs(pivot)) for pivot in (*flexible.matrix.pivots, *pivots) if pivot))
