"""The search for the factor at which a rig gives way, where that factor is known: polynomials with known roots."""

from dataclasses import replace
from math import log

import pytest
from loftsheet.balance import buckling
from loftsheet.balance.buckling import FINE, LARGEST, Probe, factor, probe
from loftsheet.balance.equilibrium import State
from loftsheet.balance.model import Rig
from loftsheet.balance.structure import Structure

from tests.functions.test_balance_columns import HEIGHT, column

ROOTS = (0.03, 0.4, 0.99, 1.0, 1.5, 2.6, 7.3, 19.0, 44.0)
GUESSES = (0.02, 0.9, 3.0, 12.0, 49.0)


class Known:
    """A rig whose determinant is a polynomial: it gives way in one way more at each of its roots."""

    def __init__(self, *roots):
        self.roots, self.tried = roots, []

    def __call__(self, structure, state, mast, times):
        self.tried.append(times)
        sizes = [log(abs(times - root) or 1e-300) for root in self.roots]
        return Probe(times, sum(root <= times for root in self.roots), sum(sizes))


def found(monkeypatch, known, guess):
    monkeypatch.setattr(buckling, "probe", known)
    return factor(None, None, 0, guess)


@pytest.mark.parametrize("guess", GUESSES)
@pytest.mark.parametrize("root", ROOTS)
@pytest.mark.parametrize("further", [(), (1.05,), (1.3, 2.0, 2.1), (4.0,), (1.0,)], ids=str)
def test_the_smallest_factor_is_found_whatever_the_guess(monkeypatch, root, guess, further):
    known = Known(root, *(root * one for one in further))
    assert found(monkeypatch, known, guess) == pytest.approx(root, rel=FINE / 2)
    assert 0 < min(known.tried) <= max(known.tried) <= LARGEST
    assert len(set(known.tried)) == len(known.tried)  # nothing is tried twice


@pytest.mark.parametrize("root", ROOTS)
@pytest.mark.parametrize("off", [0.9, 1.0, 1.1])
def test_a_good_guess_takes_few_tries(monkeypatch, root, off):
    known = Known(root, 1.8 * root)
    found(monkeypatch, known, off * root)
    assert len(known.tried) <= 6


@pytest.mark.parametrize("root", ROOTS)
@pytest.mark.parametrize("guess", GUESSES)
def test_a_bad_guess_takes_not_many_more(monkeypatch, root, guess):
    known = Known(root, 1.8 * root)
    found(monkeypatch, known, guess)
    away = abs(log(guess / root))
    assert len(known.tried) <= 7 + 2.5 * away


@pytest.mark.parametrize("guess", GUESSES)
@pytest.mark.parametrize("root", [LARGEST * 1.001, 80.0, 1e6])
def test_what_holds_at_the_largest_factor_is_not_asked_further(monkeypatch, root, guess):
    known = Known(root)
    assert found(monkeypatch, known, guess) == LARGEST
    assert max(known.tried) == LARGEST


def test_a_rig_that_gives_way_at_nearly_no_force_has_nearly_no_factor(monkeypatch):
    assert found(monkeypatch, Known(FINE / 100), 3.0) <= FINE


def two_masts():
    """Two stayed columns, one ten metres behind the other."""
    first = column([HEIGHT]).rig
    masts = tuple(replace(mast, name="second", foot_fore=-10_000) for mast in first.masts)
    points = tuple(
        replace(point, name=f"second {point.name}", mast="second")
        if point.mast
        else replace(point, name=f"second {point.name}", fore=point.fore - 10_000)
        for point in first.points
    )
    stays = tuple(
        replace(stay, name=f"second {stay.name}", points=tuple(f"second {point}" for point in stay.points))
        for stay in first.stays
    )
    return Structure(Rig((*first.masts, *masts), (*first.points, *points), (*first.stays, *stays)))


def test_only_the_forces_of_the_mast_and_of_its_stays_grow():
    structure = two_masts()
    tensions = tuple(2.0 if line.touches(0) else 5.0 for line in structure.lines)
    axial = tuple(-10.0 if beam.mast == 0 else -30.0 for beam in structure.beams)
    state = State(tensions, axial, (0.0,) * structure.size, (True,) * len(tensions))
    as_it_is = probe(structure, state, 0, 1.0)
    assert probe(structure, state, 1, 1.0) == as_it_is
    grown = State(
        tuple(3 * one if line.touches(0) else one for one, line in zip(tensions, structure.lines)),
        tuple(3 * one if beam.mast == 0 else one for one, beam in zip(axial, structure.beams)),
        state.moved,
        state.taut,
    )
    assert probe(structure, state, 0, 3.0).size == pytest.approx(probe(structure, grown, 0, 1.0).size, rel=1e-12)
    assert probe(structure, state, 0, 3.0).size != pytest.approx(as_it_is.size, rel=1e-6)
