"""The balance of a rig: springs by hand, equilibrium, reciprocity, slack sets, tuning, refusals.

Where nothing else is named the source is statics, worked out beside the check.
"""

import itertools
import math
import random
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from loftsheet import CALCS
from loftsheet.balance import answers, tables
from loftsheet.balance.beam import torsion_of_tube
from loftsheet.balance.equilibrium import Setting, settle
from loftsheet.balance.model import PORT, STARBOARD
from loftsheet.balance.solve import balance
from loftsheet.balance.structure import Structure
from loftsheet.errors import BadInput, NoSolution, NotInTable
from scipy.special import ellipe

from tests.functions import rigs
from tests.functions.test_limits import limits_of

STAYS, MASTS, CASES, EFFECT, FELT, LINES = (
    CALCS[f"RIG.BALANCE.{name}"].call for name in ("STAYS", "MASTS", "CASES", "EFFECT", "FELT", "LINES")
)
TENSION, POINT, WORDS = (CALCS[f"RIG.BALANCE.{name}"].call for name in ("TENSION", "POINT", "WORDS"))


def test_torsion_of_a_thin_tube_is_as_bredt_has_it():
    """J = 4·A²·t/s: of a round tube its polar second moment; of an ellipse the girth is an integral."""
    # Young, Roark's Formulas for Stress and Strain, 7th ed. 2002, table 10.1, from memory.
    assert torsion_of_tube(104, 104, 4) == pytest.approx(2 * math.pi * 50**3 * 4)
    a, b = (110 - 3) / 2, (160 - 3) / 2
    girth = 4 * b * ellipe(1 - (a / b) ** 2)
    assert torsion_of_tube(110, 160, 3) == pytest.approx(4 * (math.pi * a * b) ** 2 * 3 / girth, rel=1e-5)


def stout(height=10_000.0, rake=0.0, rate=0.0):
    """A mast that neither bends nor shortens, as a row."""
    return ("mast", 0.0, 0.0, rake, height, 200.0, rate, "", "", "", "", 1e6, 1e6, 1e6)


def pole(ea=2_000.0, wanted=1.0, out=2_000.0, cases=(), loads=(), rate=0.0, mast_rate=0.0):
    """A stout mast of 10 m with a shroud on each side and a stay at either end, all from its head."""
    points = (
        ("head", "mast", 0.0, 0.0, 10_000.0),
        ("plate", "", 0.0, out, 0.0),
        ("bow", "", 4_000.0, 0.0, 0.0),
        ("stern", "", -4_000.0, 0.0, 0.0),
    )
    stays = (
        ("shroud", "both", "head", "", "", "plate", ea, rate, wanted),
        ("forestay", "", "head", "", "", "bow", ea, rate, wanted),
        ("backstay", "", "head", "", "", "stern", ea, rate, wanted),
    )
    return (stout(rate=mast_rate),), points, stays, cases, loads, ()


HEELED = (("heeled", "starboard", 30.0),)


def side(force):
    return (("heeled", "mast", 10_000.0, force),)


SINE = 2_000 / math.hypot(2_000, 10_000)


@pytest.mark.parametrize("share", [0.2, 0.9, 1.5, 4.0])
def test_two_opposed_shrouds_share_a_side_force_until_one_is_slack(share):
    # Two springs pull with T each; H goes half into each until the lee one is at nothing, at H = 2·T·sin α.
    force = share * 2 * SINE
    rig = pole(cases=HEELED, loads=side(force))
    shroud = STAYS(*rig)[0]
    larger, smaller = (1 + share, 1 - share) if share < 1 else (2 * share, 0)
    # A stay that swings holds a little by itself, which is of the second order.
    assert shroud[8:10] == pytest.approx((larger, smaller), rel=4e-3, abs=2e-3)
    assert shroud[4] == pytest.approx(larger, rel=4e-3)
    heel = CASES(*rig)[0][1]
    if share > 0.5:
        assert heel == pytest.approx(math.degrees(math.asin(math.sin(math.radians(30)) / share)), rel=5e-3)
    else:
        assert heel == ""  # it would have to heel more than 90°


def test_a_millimetre_of_lashing_on_two_opposed_springs():
    # Two springs k in line: taking 1 mm out of one stretches both by half of it.
    length = math.hypot(2_000, 10_000)
    own = STAYS(*pole())[0][3]
    assert own == pytest.approx(2_000 / length / 2, rel=2e-3)
    effect = EFFECT(*pole())
    assert effect[0][0] == pytest.approx(own)
    # The fore-and-aft stays feel nothing of a shroud on an upright stout mast but its push.
    assert effect[1][0] == pytest.approx(0, abs=1e-3)
    assert effect[2][1] == pytest.approx(2_000 / math.hypot(4_000, 10_000) / 2, rel=2e-3)


def test_what_a_lashing_takes_out_is_the_stretch_of_its_stay():
    length = math.hypot(2_000, 10_000)
    row = STAYS(*pole(wanted=1.5))[0]
    assert row[0] == pytest.approx(length)
    assert row[1] == pytest.approx(1.5 * length / 2_000, rel=1e-4)
    assert row[2] == pytest.approx(1.5, rel=1e-6)


@pytest.mark.parametrize("warmer", [-20.0, 15.0])
def test_warmth_tightens_rope_and_lengthens_the_mast(warmer):
    # Rope shortens by 12, an alloy mast lengthens by 23.6 of 1e-6/K: e = T·L/EA + ΔT·(12·L + 23.6·h·cos α).
    length = math.hypot(2_000, 10_000)
    rig = pole(wanted=4.0, cases=(("other weather", "", "", warmer),), rate=-12.0, mast_rate=23.6)
    tension = STAYS(*rig)[0][8]
    tightened = warmer * 1e-6 * (12 * length + 23.6 * 10_000 * 10_000 / length)
    assert tension == pytest.approx(4.0 + 2_000 / length * tightened, rel=2e-3)


def test_a_hull_that_gives_is_a_spring_in_line():
    masts, points, stays, *rest = pole()
    soft = tuple((*point, 0.5) if point[0] == "plate" else point for point in points)
    length = math.hypot(2_000, 10_000)
    softer = EFFECT(masts, soft, stays, *rest)[0][0]
    assert softer == pytest.approx(1 / (length / 2_000 + 0.5) / 2, rel=2e-3)
    row = STAYS(masts, soft, stays, *rest)[0]
    assert row[1] == pytest.approx(1.0 * (length / 2_000 + 0.5), rel=1e-4)


def test_stays_on_one_plate_feel_that_it_gives():
    masts, points, stays, *rest = pole()
    soft = tuple((*point, 0.5) if point[0] == "bow" else point for point in points)
    two = (*stays, ("second forestay", "", "head", "", "", "bow", 2_000.0, 0.0, 0.5))
    alone, both = (EFFECT(masts, plates, two, *rest)[3][1] for plates in (points, soft))
    assert both < alone < 0, "what pulls the bow up slackens its neighbour"


SOLVED = {"marrowick": rigs.marrowick(), "ketch": rigs.ketch(), "small": rigs.SMALL}


@pytest.mark.parametrize("boat", SOLVED)
def test_forces_at_every_point_make_nothing(boat):
    ranges = SOLVED[boat]
    solved = answers.found(*ranges)
    masts = {row[0] for row in ranges[0]}
    uppers = {row[2] for row in ranges[2]}
    checked = 0
    for case in ("", *(row[0] for row in ranges[3])):
        for point in [row[0] for row in ranges[1] if row[1] in masts or row[0] in uppers] + sorted(masts):
            *forces, (_, *total) = POINT(point, case, *ranges)
            checked += 1
            largest = max(abs(part) for _, *force in forces for part in force)
            assert total == pytest.approx([0, 0, 0], abs=1e-4 * largest + 1e-9), (point, case)
    assert checked > len(solved.outcomes)


@pytest.mark.parametrize("boat", SOLVED)
def test_the_whole_rig_is_in_balance(boat):
    """Loads, the pull at every plate and the push at every foot: forces, and moments about the datum."""
    ranges = SOLVED[boat]
    solved = answers.found(*ranges)
    for outcome in solved.outcomes:
        if outcome.case is None:
            continue
        force, moment = np.zeros(3), np.zeros(3)
        pulls = 0.0
        for line, tension in zip(solved.structure.lines, outcome.state.tensions):
            pulls += tension
            if line.holds[-1].node is None and tension:
                pull = tension * np.array(_leads(line, outcome.state.moved))
                force += pull
                moment += np.cross(line.holds[-1].at, pull)
        for mast in solved.structure.rig.masts:
            number = solved.structure.rig.masts.index(mast)
            for node in solved.structure.nodes[number]:
                places = [place for place in node.places[:3] if place >= 0]
                moved = sum(
                    np.array(axis) * outcome.state.moved[place]
                    for axis, place in zip(node.axes, node.places)
                    if place >= 0
                )
                for load in outcome.case.loads:
                    if load.mast == mast.name and solved.structure.node_at(number, load.along) is node:
                        lee = outcome.case.lee or 1
                        push = load.fore * np.array(node.axes[0]) + load.side * lee * np.array(node.axes[1])
                        force += push
                        moment += np.cross(np.array(node.at) + moved, push)
                if len(places) < 3:
                    push = _held(ranges, outcome, mast, node)
                    force += push
                    moment += np.cross(np.array(node.at) + moved, push)
        assert force == pytest.approx(np.zeros(3), abs=1e-3 * pulls), outcome.case.name
        # The step from plates to displaced heads is of the second order, as are what the moments are off by.
        assert moment == pytest.approx(np.zeros(3), abs=3e-3 * 10_000 * pulls), outcome.case.name


def _leads(line, moved):
    """Direction of a stay's lowest part when its upper end has moved, of the first order."""
    upper = line.holds[-2]
    swing = sum(
        -np.array(column) * moved[place] for place, column in zip(upper.places(), upper.columns()) if place >= 0
    )
    part = np.array(line.parts[-1])
    return part + (swing - part * (part @ swing)) / line.lengths[-1]


def _held(ranges, outcome, mast, node):
    """What foot or partners push: read off the rows of the foot, the partners' from the forces around them."""
    from loftsheet.balance.at_a_point import _forces

    found = _forces(answers.found(*ranges), outcome, node)
    return np.array(next(force for name, force in found if name == "what holds the mast there"))


def first_order(rig, case=None):
    structure = Structure(rig)
    case = case or rig.cases[0]
    take_outs = tuple(stay.take_out for stay in rig.stays)
    forces = tuple(structure.forces(case.loads, case.lee, case.warmer))
    return structure, Setting(take_outs, (True,) * len(take_outs), forces, case.warmer)


@pytest.mark.parametrize("seed", range(20))
def test_reciprocity_without_the_second_order(seed):
    """Maxwell: 1 mm of lashing a does to stay b what 1 mm of lashing b does to stay a."""
    rig = tables.rig(*rigs.random_rig(random.Random(seed)))
    structure, setting = first_order(rig)
    tight = replace(setting, take_outs=tuple(one + 60 for one in setting.take_outs))
    base = settle(structure, tight, rounds=0)
    every = len(rig.stays)
    table = np.zeros((every, every))
    for number in range(every):
        more = [one + (at == number) for at, one in enumerate(tight.take_outs)]
        after = settle(structure, replace(tight, take_outs=tuple(more)), rounds=0)
        assert after.taut == base.taut
        table[:, number] = np.array(after.tensions) - np.array(base.tensions)
    assert table == pytest.approx(table.T, abs=1e-7 * np.abs(table).max())
    assert (table.diagonal() >= -1e-9).all()


@pytest.mark.parametrize("boat", SOLVED)
def test_what_a_millimetre_does_is_what_comes_of_it(boat):
    solved = answers.found(*SOLVED[boat])
    structure, dock = solved.structure, solved.outcomes[0]
    runner = [line.stay.runner for line in structure.lines]
    setting = replace(dock.setting, set_up=tuple(not one for one in runner))
    base = settle(structure, setting, dock.state)
    for number in range(0, len(runner), 3):
        if runner[number] or not base.taut[number]:
            continue
        more = [one + 0.1 * (at == number) for at, one in enumerate(setting.take_outs)]
        after = settle(structure, replace(setting, take_outs=tuple(more)), base)
        for other, (new, old) in enumerate(zip(after.tensions, base.tensions)):
            if not runner[other] and base.taut[other]:
                # The effect holds fast the forces that add to the stiffness, and is of the dock, runners half set.
                largest = solved.effect[number][number]
                assert (new - old) / 0.1 == pytest.approx(solved.effect[other][number], abs=0.1 * largest)


@pytest.mark.parametrize("seed", range(40))
def test_the_set_of_slack_stays_is_the_only_one_of_all(seed):
    """Each set of taut stays tried by dense algebra: one alone pulls where taut and is too long where slack."""
    dice = random.Random(1_000 + seed)
    rig = tables.rig(*rigs.random_rig(dice, 1))
    rig = replace(rig, stays=tuple(stay for stay in rig.stays))
    while len(rig.stays) > 8:
        rig = tables.rig(*rigs.random_rig(dice, 1))
    structure, setting = first_order(rig)
    forces = tuple(3 * force for force in setting.forces)
    state = settle(structure, replace(setting, forces=forces), rounds=0)
    stiffness = np.zeros((structure.size, structure.size))
    for at, (first, row) in enumerate(zip(structure.firsts, structure.elastic_rows)):
        stiffness[at, first : at + 1] = stiffness[first : at + 1, at] = row
    for place in structure.props:
        stiffness[place, place] -= 1.0 - 1e-8
    pulls = np.zeros((len(rig.stays), structure.size))
    for number, line in enumerate(structure.lines):
        for place, value in line.pull.items():
            pulls[number, place] = value
    springs = np.array([1 / line.slackness for line in structure.lines])
    short = np.array(
        [
            e - line.stay.rate * 1e-6 * setting.warmer * line.length
            for e, line in zip(setting.take_outs, structure.lines)
        ]
    )
    found = []
    for taut in itertools.product((False, True), repeat=len(rig.stays)):
        at = np.array(taut)
        held = stiffness + (pulls[at].T * springs[at]) @ pulls[at]
        moved = np.linalg.solve(held, np.array(forces) - pulls[at].T @ (springs[at] * short[at]))
        reach = short + pulls @ moved
        if np.abs(moved).max() < 1e5 and (reach[at] > 0).all() and (reach[~at] <= 0).all():
            found.append((taut, springs * reach * at))
    assert len(found) == 1
    assert found[0][0] == state.taut
    assert state.tensions == pytest.approx(found[0][1], rel=1e-5, abs=1e-5)
    assert found[0][0].count(False) >= 0


def test_slack_sets_differ_among_those_rigs():
    counts = set()
    for seed in range(40):
        dice = random.Random(1_000 + seed)
        rig = tables.rig(*rigs.random_rig(dice, 1))
        while len(rig.stays) > 8:
            rig = tables.rig(*rigs.random_rig(dice, 1))
        structure, setting = first_order(rig)
        state = settle(structure, replace(setting, forces=tuple(3 * one for one in setting.forces)), rounds=0)
        counts.add(state.taut.count(False))
    assert {0, 1, 2, 3} <= counts


def close(ours, others, rel=1e-6):
    assert len(ours) == len(others)
    for row, other in zip(ours, others):
        for cell, beside in zip(row, other):
            if isinstance(cell, float) and isinstance(beside, float):
                assert cell == pytest.approx(beside, rel=rel, abs=3e-6)
            else:
                assert (cell == "") == (beside == "")


def test_another_datum_changes_nothing():
    masts, points, stays, *rest = rigs.ketch()
    moved = [(row[0], row[1] + 1_234.0, row[2] - 567.0, *row[3:]) for row in masts]
    shifted = [(*row[:2], row[2] + 1_234.0, row[3], row[4] - 567.0, *row[5:]) for row in points]
    close(STAYS(masts, points, stays, *rest), STAYS(tuple(moved), tuple(shifted), stays, *rest))
    close(MASTS(masts, points, stays, *rest), MASTS(tuple(moved), tuple(shifted), stays, *rest), 1e-4)


def test_a_mirror_changes_nothing():
    other = {"port": "starboard", "starboard": "port"}
    masts, points, stays, cases, *rest = rigs.marrowick()
    stays_ = tuple((row[0], other.get(row[1], row[1]), *row[2:]) for row in stays)
    cases_ = tuple((row[0], other[row[1]], *row[2:]) for row in cases)
    ours, others = STAYS(masts, points, stays, cases, *rest), STAYS(masts, points, stays_, cases_, *rest)
    # The survey is not quite the same on both sides, and of the two legs the first columns tell of the port one.
    close([row[4:] for row in ours], [row[4:] for row in others])
    close([row[:4] for row in ours if row[0] > 3_400], [row[:4] for row in others if row[0] > 3_400])
    ours, others = MASTS(masts, points, stays, cases, *rest), MASTS(masts, points, stays_, cases_, *rest)
    # At the dock there is no lee; the first six columns have port for it.
    close([row[6:] for row in ours], [row[6:] for row in others], 1e-4)


def test_measures_in_words_are_taken():
    masts, points, stays, *rest = rigs.SMALL
    told = tuple((*row[:4], f"{row[4] / 25.4!r} in", *row[5:]) for row in masts)
    pulls = tuple((*row[:8], f"{row[8] * 1_000:g} N") if row[8] else row for row in stays)
    close(STAYS(masts, points, stays, *rest), STAYS(told, points, pulls, *rest))


def test_an_order_of_rows_changes_nothing():
    masts, points, stays, cases, loads, spreaders = rigs.ketch()
    rows = STAYS(masts, points, stays, cases, loads, spreaders)
    back = STAYS(masts[::-1], points[::-1], stays[::-1], cases, loads[::-1], spreaders[::-1])
    close(rows, back[::-1], 1e-5)


def test_blank_rows_stay_blank_and_nothing_moves():
    masts, points, stays, cases, *rest = rigs.SMALL
    blank = ("",) * 9
    rows = STAYS(masts, points, (blank, stays[0], blank, *stays[1:], blank), cases, *rest)
    full = STAYS(masts, points, stays, cases, *rest)
    assert [row for row in rows if any(cell != "" for cell in row)] == list(full)
    assert set(rows[0]) == set(rows[2]) == set(rows[5]) == {""}


def test_a_stay_over_a_tip_pulls_alike_in_both_parts_and_seized_it_does_not():
    masts, points, stays, cases, loads, spreaders = rigs.marrowick()
    running = answers.found(masts, points, stays, cases, loads, spreaders)
    assert all(len(line.parts) == 2 for line in running.structure.lines if "cap" in line.stay.name)
    seized = tuple((*row, *[""] * (11 - len(row)), "seized") if "cap" in row[0] else row for row in stays)
    solved = answers.found(masts, points, seized, cases, loads, spreaders)
    parts = [number for number, line in enumerate(solved.structure.lines) if line.stay.name == "cap shroud, port"]
    upper, lower = (solved.outcomes[1].state.tensions[number] for number in parts)
    free = STAYS(masts, points, stays, cases, loads, spreaders)[0][8]
    assert upper != pytest.approx(lower, rel=5e-4)
    assert free == pytest.approx((upper + lower) / 2, rel=0.02)
    assert len(STAYS(masts, points, seized, cases, loads, spreaders)) == len(stays)


def test_legs_and_upper_part_of_a_split_backstay_balance():
    solved = answers.found(*rigs.marrowick())
    names = {line.stay.name: number for number, line in enumerate(solved.structure.lines)}
    for outcome in solved.outcomes:
        upper = outcome.state.tensions[names["backstay, upper part"]]
        legs = [
            tension
            for line, tension in zip(solved.structure.lines, outcome.state.tensions)
            if line.stay.name == "backstay leg"
        ]
        # Two legs 12° either side of the line of the upper part.
        assert sum(legs) * math.cos(math.radians(12.2)) == pytest.approx(upper, rel=0.01)


def test_wanted_tensions_that_balance_are_had_and_the_mast_stays_straight():
    row = STAYS(*rigs.SMALL)
    assert [one[2] for one in row[:2]] == pytest.approx([1.2, 1.5], rel=2e-3)
    # Forestay and backstay from the same point: equal pulls square to an upright mast.
    forward = 1.5 * 2_600 / math.dist((0, 8_000), (2_600, 200))
    shroud = 2 * 1.2 * 400 / math.dist((0, 40, 7_800), (-400, 1_100, 0)) * 7_800 / 8_000
    assert row[2][2] == pytest.approx(
        (forward - shroud) / (3_000 / math.dist((0, 8_000), (-3_000, 300))), rel=5e-3
    )
    head, bow = MASTS(*rigs.SMALL)[0][2], MASTS(*rigs.SMALL)[0][4]
    assert abs(head) < 0.5
    assert abs(bow) < 3
    assert WORDS(*rigs.SMALL) == ""


def test_wanted_tensions_that_cannot_balance_are_told():
    masts, points, stays, *rest = rigs.SMALL
    wrong = (*stays[:2], (*stays[2][:8], 3.0))
    words = WORDS(masts, points, wrong, *rest)
    assert "backstay: 3.00 kN wanted, " in words
    assert "forestay: 1.50 kN wanted, " in words
    had = STAYS(masts, points, wrong, *rest)
    assert had[1][2] > 1.5
    assert had[2][2] < 3.0
    assert had[2][2] / had[1][2] == pytest.approx(0.98 / 1.5, rel=0.1), "as their leads have it"


def test_typed_take_outs_give_the_tensions_that_they_were_worked_out_for():
    masts, points, stays, *rest = rigs.SMALL
    rows = STAYS(*rigs.SMALL)
    typed = tuple((*row[:8], "", found[1]) for row, found in zip(stays, rows))
    close(STAYS(masts, points, typed, *rest), rows, 1e-5)


def test_each_runner_is_set_up_by_itself():
    masts, points, stays, _, *rest = rigs.marrowick()
    ranges = masts, points, stays, (("one runner", "port", "", "", "windward"),), (), rest[-1]
    rows = {row[0]: found for row, found in zip(stays, STAYS(*ranges))}
    wanted = next(row[8] for row in stays if row[0] == "running backstay, starboard")
    assert rows["running backstay, starboard"][8] == pytest.approx(wanted, rel=1e-4)
    assert rows["running backstay, port"][8] == ""
    # Both half set while tuned, or one of them whole: the inner forestay hardly knows it.
    inner = rows["inner forestay"]
    assert inner[8] == pytest.approx(inner[2], rel=0.06)


def test_in_the_cold_rope_loses_more_than_wire():
    masts, points, stays, *rest = rigs.marrowick()
    wire = rigs.marrowick_stays(lambda row: 3_800.0 * 1.4, rigs.WIRE_RATE)
    forestay = next(at for at, row in enumerate(stays) if row[0] == "forestay")
    rope_cold, wire_cold = (
        found[12] - found[8] for found in (STAYS(masts, points, these, *rest)[forestay] for these in (stays, wire))
    )
    # Wire shortens with the mast in the cold, rope lengthens.
    assert rope_cold < 2 * wire_cold < 0


def test_the_fore_lower_carries_about_twice_what_the_aft_one_does():
    # The pair by its geometry alone, T₁·f₁ + T₂·f₂ = 0 square to the mast: here 2.0.
    rows = {row[0]: found for row, found in zip(rigs.marrowick()[2], STAYS(*rigs.marrowick()))}
    assert rows["fore lower, port"][8] / rows["aft lower, port"][8] == pytest.approx(2.0, rel=0.15)


def test_windward_shrouds_carry_the_moment():
    """Heeling moment over chainplate's distance is what windward stays lift (the lee ones are slack)."""
    ranges = rigs.marrowick()
    rows = {row[0]: found for row, found in zip(ranges[2], STAYS(*ranges))}
    solved = answers.found(*ranges)
    lifted = 0.0
    for line, tension in zip(solved.structure.lines, solved.outcomes[1].state.tensions):
        low = line.holds[-1]
        if low.node is None:
            lifted += (
                -tension * line.parts[-1][2] * low.at[1] / 1_000 + tension * line.parts[-1][1] * low.at[2] / 1_000
            )
    pushed = sum(force * along for _, _, along, force in rigs.MARROWICK_LOADS[:2]) / 1_000
    assert pushed == pytest.approx(30.0, rel=1e-6)
    assert lifted == pytest.approx(pushed * math.cos(math.radians(0)), rel=0.04)
    assert rows["cap shroud, port"][8] > 5


def test_tension_is_worked_out_from_its_strain():
    found = answers.found(*rigs.SMALL)
    for outcome, case in zip(found.outcomes, ("", "heeled", "cold night")):
        at = next(number for number, line in enumerate(found.structure.lines) if line.stay.name == "forestay")
        assert TENSION("forestay", case, *rigs.SMALL) == pytest.approx(outcome.state.tensions[at], abs=1e-6)
    with pytest.raises(NotInTable):
        TENSION("no such stay", "", *rigs.SMALL)
    with pytest.raises(NotInTable):
        TENSION("forestay", "no such case", *rigs.SMALL)
    with pytest.raises(NoSolution, match="not set up"):
        TENSION("running backstay, starboard", "all sails", *rigs.marrowick())
    with pytest.raises(BadInput, match="stem is no point of a mast"):
        POINT("stem", "", *rigs.SMALL)
    with pytest.raises(BadInput, match="there is no case calm"):
        POINT("top", "calm", *rigs.SMALL)


# Refusals.


def without(ranges, name):
    masts, points, stays, *rest = ranges
    return (masts, points, tuple(row for row in stays if row[0] != name), *rest)


@pytest.mark.parametrize(
    "lost, words",
    [
        ("backstay", "mast from falling forward: no stay that is set up leads aft"),
        ("forestay", "mast from falling aft: no stay that is set up leads forward"),
        ("shroud", "from falling to port: no stay that is set up leads to starboard"),
    ],
)
def test_a_mast_that_nothing_holds_one_way_is_refused(lost, words):
    with pytest.raises(NoSolution, match=words):
        STAYS(*without(pole(), lost))
    assert WORDS(*without(pole(), lost)).startswith("no balance: nothing keeps the mast from")


def test_a_mast_through_partners_stands_without_a_backstay():
    masts, *rest = without(pole(), "backstay")
    through = ((*masts[0][:10], 1_500.0, *masts[0][11:]),)
    assert STAYS(through, *rest)[0][2] > 0


def test_a_stay_without_length_is_refused():
    masts, points, stays, *rest = pole()
    bad = tuple(
        (name, mast, 0.0, 0.0, 10_000.0) if name == "bow" else (name, mast, *more) for name, mast, *more in points
    )
    with pytest.raises(BadInput, match="forestay has a part without length"):
        STAYS(masts, bad, stays, *rest)


def test_a_mast_that_buckles_says_so_and_by_how_much():
    masts, points, stays, cases, _, spreaders = rigs.SMALL
    heavy = (("heeled", "mast", 7_800.0, 1.5),)
    words = WORDS(masts, points, stays, cases, heavy, spreaders)
    assert "heeled: the mast buckles: it carries 0." in words
    case = CASES(masts, points, stays, cases, heavy, spreaders)[0]
    assert "buckles" in case[0]
    assert 0 < case[4] < 1
    assert case[1:4] == ("", "", "")
    row = STAYS(masts, points, stays, cases, heavy, spreaders)[0]
    assert row[8:10] == ("", "")
    assert row[10] > 0, "the other case is still there"
    with pytest.raises(NoSolution, match="buckles"):
        TENSION("shrouds", "heeled", masts, points, stays, cases, heavy, spreaders)


def test_a_mast_that_buckles_at_the_dock_has_no_balance():
    masts, points, stays, *rest = rigs.SMALL
    hard = tuple((*row[:8], 8.0 * row[8]) if row[8] else row for row in stays)
    with pytest.raises(NoSolution, match=r"buckle|bend"):
        STAYS(masts, points, hard, *rest)


def changed(ranges, place, row, column, cell):
    rows = list(ranges[place])
    new = [*rows[row], *[""] * (column + 1 - len(rows[row]))]
    new[column] = cell
    rows[row] = tuple(new)
    return (*ranges[:place], tuple(rows), *ranges[place + 1 :])


@pytest.mark.parametrize(
    "place, row, column, cell, words",
    [
        (0, 0, 9, "", "mast mast: wall is blank; type it, or area and both inertias"),
        (0, 0, 9, 45.0, "mast mast: two walls of 45 mm"),
        (0, 0, 10, 9_000.0, "partners at 9000 mm, above its head"),
        (0, 0, 4, "", "mast mast: head is blank"),
        (0, 0, 4, 7_000.0, "7800 mm along the mast, outside its 7000 mm"),
        (1, 0, 1, "mizzen", "point top: there is no mast mizzen"),
        (1, 0, 2, "", "point top: fore is blank"),
        (1, 3, 0, "chainplate", "two rows for the point chainplate"),
        (2, 0, 1, "left", '"left" was given as its side'),
        (2, 0, 1, "", "nothing was given as its side"),
        (2, 0, 1, "centreline", "on the centreline, but one of its points is not"),
        (2, 0, 5, "stemm", "stay shrouds: there is no point stemm"),
        (2, 0, 3, "stem", "goes over stem, which is on no mast"),
        (2, 0, 6, 0.0, "stay shrouds: EA"),
        (2, 0, 9, 5.0, "shrouds has a take-out and forestay has none"),
        (2, 0, 10, "yes", '"yes" stands where "runner" or nothing is due'),
        (2, 1, 0, 5.0, "5 was given where a name is due"),
        (3, 0, 1, "lee", '"lee" was given as the side to lee'),
        (3, 0, 4, "all", '"all" was given as the runners set'),
        (3, 1, 4, "windward", '"windward" was given as the runners set'),
        (3, 0, 2, 120.0, "case heeled: heel"),
        (4, 0, 0, "reefed", "load: there is no case reefed"),
        (4, 0, 1, "mizzen", "load: there is no mast mizzen"),
        (4, 0, 2, 9_000.0, "9000 mm along the mast, outside"),
        (2, 0, 12, 1.0, "13 columns were given for each stay"),
    ],
)
def test_what_does_not_fit_is_refused_in_words(place, row, column, cell, words):
    ranges = changed(rigs.SMALL, place, row, column, cell)
    with pytest.raises(BadInput) as refused:
        STAYS(*ranges)
    assert words in str(refused.value)
    assert WORDS(*ranges) == f"not checked: {refused.value}"


def test_a_row_without_a_name_that_holds_something_is_refused():
    ranges = changed(rigs.SMALL, 2, 1, 0, "")
    with pytest.raises(BadInput, match="row 2 of the range with a row for each stay has no name"):
        STAYS(*ranges)


def test_no_wanted_tension_at_all_is_refused():
    masts, points, stays, *rest = rigs.SMALL
    with pytest.raises(BadInput, match="no stay has a wanted tension"):
        STAYS(masts, points, tuple((*row[:8], "") for row in stays), *rest)


@pytest.mark.parametrize("boat", SOLVED)
def test_a_balance_is_worked_out_once_for_all_cells(boat, monkeypatch):
    ranges = SOLVED[boat]
    answers.found(*ranges)
    monkeypatch.setattr(answers, "balance", None)
    for ask in (STAYS, MASTS, CASES, EFFECT):
        ask(*ranges)
    bad = changed(rigs.SMALL, 0, 0, 9, "")
    assert WORDS(*bad) == WORDS(*bad)


def test_port_and_starboard_of_a_row_for_both_are_two_stays():
    lines = answers.found(*rigs.SMALL).structure.lines
    assert [line.stay.side for line in lines if line.stay.name == "shrouds"] == [PORT, STARBOARD]
    assert balance(tables.rig(*rigs.SMALL)) is balance(tables.rig(*rigs.SMALL))


# What each column may hold, in the notation of limits.txt; * may not be blank. Files hold ranges in this order.
COLUMNS = {
    "MASTS": "name* text; foot fore* ±40000 mm; foot up* ±40000 mm; rake* ±15 °; head* (0, 40000] mm; "
    "modulus* [1, 500] GPa; rate* ±50 1e-6/K; width (0, 1000] mm; fore and aft (0, 1500] mm; wall (0, 50] mm; "
    "partners (0, 40000] mm; area [1, 1000000] mm²; inertia fore and aft [0.01, 1000000] cm⁴; "
    "inertia athwartships [0.01, 1000000] cm⁴",
    "POINTS": "name* text; mast text; fore* ±40000 mm; out* ±40000 mm; up* ±40000 mm; give [0, 1000]",
    "STAYS": "name* text; side text; upper* text; via text; second via text; lower* text; EA* [1, 1000000] kN; "
    "rate* ±50 1e-6/K; wanted (0, 5000] kN; take-out ±40000 mm; runner text; seized text",
    "CASES": "name* text; lee text; heel [0, 90] °; warmer ±100 K; runners text",
    "LOADS": "case* text; mast* text; along* [0, 40000] mm; side ±5000 kN; fore ±5000 kN",
    "SPREADERS": "tip* text; root* [0, 40000] mm; modulus [1, 500] GPa; width (0, 500] mm; height (0, 500] mm; "
    "wall (0, 50] mm",
}


@pytest.mark.parametrize("name", COLUMNS)
def test_columns_and_their_limits_are_what_is_written_out(name):
    told = [
        f"{one.title}{'' if one.blank else '*'} {limits_of(one.quantity) if one.quantity else 'text'}"
        for one in getattr(tables, name).columns
    ]
    assert "; ".join(told) == COLUMNS[name]


def test_the_readme_shows_the_small_rig_as_it_is():
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    for row, found in zip(rigs.SMALL[2], STAYS(*rigs.SMALL)):
        cells = [cell if isinstance(cell, str) else f"{cell:.2f}" for cell in (row[0], *found)]
        assert f"| {' | '.join(cells)} |" in readme
    for rows in rigs.SMALL[:3]:
        for row in rows:
            cells = [f"{cell:g}" if isinstance(cell, float) else cell for cell in row]
            assert f"| {' | '.join(cells)} |".replace("|  |", "| |").replace("|  |", "| |") in readme
    (heeled, _), mast = CASES(*rigs.SMALL), MASTS(*rigs.SMALL)[0]
    assert f"goes slack at {heeled[1]:.1f}° of heel; the mast carries {mast[7]:.1f} times" in " ".join(
        readme.split()
    )


def test_a_point_in_the_air_whose_stays_do_not_balance_is_refused():
    masts, points, stays, *rest = rigs.SMALL
    # A forestay to a bowsprit's end that a bobstay holds down: the spar between is part of the hull.
    spar = tuple(("stem", "", 3_600.0, 0.0, 500.0) if row[0] == "stem" else row for row in points)
    plates = (*spar, ("waterline", "", 2_000.0, 0.0, -500.0))
    bobstay = (*stays, ("bobstay", "", "stem", "", "", "waterline", 3_000.0, -12.0, 2.0))
    with pytest.raises(NoSolution, match="the stays that meet at stem do not pull against each other"):
        STAYS(masts, plates, bobstay, *rest)
    hull = tuple((name, "hull" if name == "stem" else mast, *more) for name, mast, *more in plates)
    rows = STAYS(masts, hull, bobstay, *rest)
    assert rows[1][2] == pytest.approx(1.5, rel=0.05)
    assert rows[3][2] == pytest.approx(2.0, rel=1e-3)


def test_a_jumper_from_mast_to_mast_over_a_tip_stiffens_it():
    masts, points, stays, cases, _, _ = rigs.SMALL
    points = (
        *points,
        ("jumper above", "mast", 55.0, 0.0, 7_700.0),
        ("jumper tip", "mast", 600.0, 0.0, 5_000.0),
        ("jumper below", "mast", 55.0, 0.0, 2_300.0),
    )
    jumper = ("jumper", "", "jumper above", "jumper tip", "", "jumper below", 2_000.0, -12.0, 0.5)
    loads = (("heeled", "mast", 5_000.0, 0.0, 0.3),)
    without_it, with_it = (
        answers.found(masts, points, these, cases, loads, ()).outcomes[1] for these in (stays, (*stays, jumper))
    )
    assert abs(with_it.shapes[0].bow_fore) < 0.8 * abs(without_it.shapes[0].bow_fore)
    assert with_it.state.tensions[-1] > 0.5, "pushed forward in the middle, the mast draws the jumper tight"


CELLS = [
    "",
    0.0,
    1.0,
    -1.0,
    7.0,
    500.0,
    -3_000.0,
    25_000.0,
    1e9,
    "port",
    "mast",
    "top",
    "hull",
    "runner",
    "abc",
    "3 in",
]


@pytest.mark.parametrize("seed", range(60))
def test_ranges_with_something_wrong_are_refused_or_come_to_something_finite(seed):
    dice = random.Random(seed)
    ranges = [[list(row) for row in rows] for rows in (rigs.SMALL if seed % 4 else rigs.marrowick())]
    for _ in range(dice.choice([1, 1, 2, 3])):
        row = dice.choice(dice.choice([rows for rows in ranges if rows]))
        at = dice.randrange(len(row))
        near = isinstance(row[at], float) and dice.random() < 0.5
        row[at] = row[at] * dice.uniform(-1, 3) if near else dice.choice(CELLS)
    try:
        found = [ask(*ranges) for ask in (STAYS, MASTS, CASES, EFFECT)]
    except (BadInput, NoSolution) as refused:
        assert WORDS(*ranges) == f"{'no balance' if isinstance(refused, NoSolution) else 'not checked'}: {refused}"
        return
    for rows in found:
        assert all(isinstance(cell, str) or math.isfinite(cell) for row in rows for cell in row)
        assert len({len(row) for row in rows}) == 1


ALL_ROWS = {"stays": STAYS, "masts": MASTS, "cases": CASES, "felt": FELT}


@pytest.mark.parametrize("of", ALL_ROWS)
def test_rows_in_one_text_come_apart_to_the_same(of):
    ranges = changed(rigs.SMALL, 2, 0, 0, "¦forestay¶")
    rows = [line.split("¦") for line in LINES(of, *ranges).split("¶")]
    due = ALL_ROWS[of](*ranges)
    assert [len(row) for row in rows] == [len(row) for row in due]
    for cell, held in zip([cell for row in rows for cell in row], [held for row in due for held in row]):
        if isinstance(held, float):
            assert float(cell) == pytest.approx(held, rel=1e-11)
        else:
            assert cell == (held.replace("¦", "|").replace("¶", " ") or "–")


def test_those_who_feel_a_lashing_are_named_with_what_the_effect_says():
    ranges = rigs.marrowick()
    names, effects = [row[0] for row in ranges[2]], EFFECT(*ranges)
    for own, (words,) in enumerate(FELT(*ranges)):
        column = {name: row[own] for name, row in zip(names, effects) if row[own] != ""}
        gained = column.pop(names[own], None)
        if gained is None:
            assert words == ""
            continue
        due = sorted((one for one in column.items() if abs(one[1]) >= gained / 10), key=lambda one: -abs(one[1]))
        assert words.replace("−", "-") == "; ".join(f"{name} {kn:+.2f}" for name, kn in due[:3])


def test_rows_of_something_else_are_refused():
    with pytest.raises(BadInput, match="one of stays, masts, cases, felt"):
        LINES("points", *rigs.SMALL)


def test_a_mast_whose_stays_all_go_slack_is_held_by_nothing():
    """Ropes that shorten as they warm, colder by so much that each is longer than its place: a pole on a pin."""
    masts, points, stays, _, _, spreaders = pole(rate=-12.0, mast_rate=23.6)
    cold = (("cold", "", 0.0, -60.0, ""),)
    words = WORDS(masts, points, stays, cold, (), spreaders)
    assert "cold: nothing holds the mast: its stays go slack" in words
    assert CASES(masts, points, stays, cold, (), spreaders)[0][4] < 0.005
    through = ((*masts[0][:10], 1_500.0, *masts[0][11:]),)
    assert "nothing holds" not in WORDS(through, points, stays, cold, (), spreaders)
