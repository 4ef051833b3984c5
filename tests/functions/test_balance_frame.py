"""The balance beside a general solver of space frames, PyNiteFEA, that was told of the rig by the survey alone."""

import random
from dataclasses import replace

import pytest
from loftsheet.balance import tables
from loftsheet.balance.equilibrium import Setting, compliance, rest, settle
from loftsheet.balance.structure import Structure
from loftsheet.errors import NoSolution

from tests.functions import rigs
from tests.functions.frames import Frame

RANDOM_RIGS = 50


def marrowick():
    """The demo boat; its backstay as two, for PyNite cannot begin with ropes that meet in the air."""
    masts, points, stays, cases, loads, spreaders = rigs.marrowick()
    backstay = ("backstay", "both", "masthead", "", "", "quarter chainplate", 3_000.0, -12.0, 2.1)
    kept = tuple(row for row in stays if not row[0].startswith("backstay"))
    return tables.rig(masts, points, (*kept, backstay), cases, loads, spreaders)


def ketch():
    """The ketch on a stiff hull, its spreaders as stiff up and down as fore and aft, which PyNite turns."""
    rig = tables.rig(*rigs.ketch())
    points = tuple(replace(point, give=0.0) for point in rig.points)
    spreaders = tuple(replace(one, moment_up=one.moment_fore) for one in rig.spreaders)
    return replace(rig, points=points, spreaders=spreaders)


def asked(structure, case, take_outs):
    set_up = tuple(not line.stay.runner or line.stay.side in case.runners for line in structure.lines)
    forces = tuple(structure.forces(case.loads, case.lee, case.warmer))
    return Setting(tuple(take_outs), set_up, forces, case.warmer)


def compare_first_order(rig, case, take_outs):
    structure = Structure(rig)
    state = settle(structure, asked(structure, case, take_outs), rounds=0)
    taut = [number for number, one in enumerate(state.taut) if one]
    theirs = Frame(rig, case, taut, take_outs).tensions()
    ours = {number: state.tensions[number] for number in taut}
    assert ours == pytest.approx(theirs, abs=1e-4 * max(ours.values()))


@pytest.mark.parametrize("case", range(5))
@pytest.mark.parametrize("boat", [marrowick, ketch])
def test_an_invented_boat_has_the_same_tensions(boat, case):
    rig = boat()
    take_outs = [
        2 + 1.5 * (stay.wanted or 2) * line.slackness for stay, line in zip(rig.stays, Structure(rig).lines)
    ]
    compare_first_order(rig, rig.cases[case], take_outs)


@pytest.mark.parametrize("seed", range(RANDOM_RIGS))
def test_a_rig_by_chance_has_the_same_tensions(seed):
    rig = tables.rig(*rigs.random_rig(random.Random(seed)))
    compare_first_order(rig, rig.cases[0], [stay.take_out for stay in rig.stays])


def upright_rig(seed):
    """A rig by chance for the second order: stout masts without spreaders, each stay from a mast to the hull."""
    rig = tables.rig(*rigs.random_rig(random.Random(seed), 0))
    masts = tuple(
        replace(mast, moment_fore=2.5 * mast.moment_fore, moment_side=4 * mast.moment_side) for mast in rig.masts
    )
    stays = tuple(stay for stay in rig.stays if stay.name != "triatic")
    return replace(rig, masts=masts, stays=stays, cases=(replace(rig.cases[0], warmer=0.0),))


@pytest.mark.parametrize("seed", range(30))
def test_one_step_of_the_second_order_is_the_same(seed):
    rig = upright_rig(seed)
    take_outs = [stay.take_out for stay in rig.stays]
    structure = Structure(rig)
    first = settle(structure, asked(structure, rig.cases[0], take_outs), rounds=0)
    stiffer = replace(
        rig, stays=tuple(replace(stay, ea=stay.ea + pull) for stay, pull in zip(rig.stays, first.tensions))
    )
    structure = Structure(stiffer)
    every = list(range(len(take_outs)))
    flexible = compliance(structure, first.axial, first.tensions, every)
    second = rest(structure, asked(structure, rig.cases[0], take_outs), flexible, first)
    assert second.taut == first.taut, "another seed: here other stays are taut in the second order"
    taut = [number for number in every if first.taut[number]]
    frame = Frame(rig, rig.cases[0], taut, take_outs, settle=True, parts=20)
    theirs = frame.second_order(first.tensions)
    ours = {number: second.tensions[number] for number in taut}
    changed = max(abs(second.tensions[number] - first.tensions[number]) for number in taut)
    assert ours == pytest.approx(theirs, abs=2e-4 * max(first.tensions) + 2e-3 * changed)


def test_the_second_order_matters_in_these_rigs():
    changes = []
    for seed in range(30):
        rig = upright_rig(seed)
        structure = Structure(rig)
        setting = asked(structure, rig.cases[0], [stay.take_out for stay in rig.stays])
        first = settle(structure, setting, rounds=0)
        try:
            second = settle(structure, setting, first)
        except NoSolution:
            continue
        changes.append(max(abs(a - b) for a, b in zip(first.tensions, second.tensions)) / max(first.tensions))
    assert len(changes) > 20
    assert sum(change > 0.01 for change in changes) > 10
