"""The balance beside one with large displacements: a mast of many stiff links with springs between them.

Links turn by any angle and stays have their true length, so that what small displacements leave out is in it: that
a bent mast is shorter and a stay that swings is longer. The rest of its energy's slope is found by scipy.
"""

import numpy as np
import pytest
from loftsheet.balance.equilibrium import Setting, settle
from loftsheet.balance.model import PORT, STARBOARD, Case, Load, Mast, Point, Rig, Stay
from loftsheet.balance.structure import Structure
from scipy.optimize import fsolve

HEIGHT, OUT, EI, EA, LINKS = 8_000.0, 1_100.0, 69 * 1.2e6, 2_000.0, 48
LINK = HEIGHT / LINKS


def of_links(stays, loads):
    """Tensions, and how far the head moves aside; stays as (link, side, take-out), loads as (link, force)."""

    def state(turns):
        return np.append(0, np.cumsum(LINK * np.sin(turns))), np.append(0, np.cumsum(LINK * np.cos(turns)))

    def pulls(turns):
        aside, up = state(turns)
        for link, side, take_out in stays:
            away = np.array([aside[link] - side * OUT, up[link]])
            straight = np.hypot(OUT, link * LINK)
            stretch = max(0.0, np.hypot(*away) - straight + take_out)
            yield link, EA / straight * stretch, away / np.hypot(*away)

    def slope(turns, share):
        outward, upward = np.zeros(LINKS + 1), np.zeros(LINKS + 1)
        for link, tension, away in pulls(turns):
            outward[link] += tension * away[0]
            upward[link] += tension * away[1]
        for link, force in loads:
            outward[link] -= share * force
        above = [np.cumsum(part[::-1])[::-1][1:] for part in (outward, upward)]
        bend = EI / LINK * np.diff(turns)
        moment = LINK * (above[0] * np.cos(turns) - above[1] * np.sin(turns))
        return moment + np.append(0, bend) - np.append(bend, 0)

    turns = np.zeros(LINKS)
    for share in (0.2, 0.4, 0.6, 0.8, 1.0):
        turns = fsolve(slope, turns, (share,), full_output=True, xtol=1e-13)[0]
    assert np.abs(slope(turns, 1.0)).max() < 1e-6, "at rest, to a newton-millimetre"
    return [tension for _, tension, _ in pulls(turns)], state(turns)[0][LINKS]


def of_balance(stays, loads):
    """The same with the mast stout fore and aft, where two soft level stays hold its head."""
    mast = Mast("mast", 0, 0, 0, HEIGHT, 69.0, 1e6, 1e9, EI / 69.0, 1e7, None, 0)
    ends = [
        Point("plate", "", 0, OUT, 0),
        Point("ahead", "hull", 3_000, 0, HEIGHT),
        Point("astern", "hull", -3_000, 0, HEIGHT),
    ]
    links = sorted({link for link, _, _ in stays} | {LINKS})
    points = (*ends, *(Point(f"at {link}", "mast", 0, 0, link * LINK) for link in links))
    held = tuple(Stay(name, 0, 0, (f"at {LINKS}", name), 1.0, 0) for name in ("ahead", "astern"))
    shrouds = tuple(Stay(f"{link} {side}", 0, side, (f"at {link}", "plate"), EA, 0) for link, side, _ in stays)
    case = Case("heeled", 0, PORT, 20.0, loads=tuple(Load("mast", link * LINK, force) for link, force in loads))
    structure = Structure(Rig((mast,), points, (*shrouds, *held), (case,)))
    take_outs = (*(take_out for _, _, take_out in stays), 0.001, 0.001)
    forces = tuple(structure.forces(case.loads, PORT, 0))
    found = settle(structure, Setting(take_outs, (True,) * len(take_outs), forces))
    head = structure.node_at(0, HEIGHT).places[1]
    return found.tensions[: len(stays)], found.moved[head]


def pair(link, take_out):
    return (link, PORT, take_out), (link, STARBOARD, take_out)


HEAD, MIDDLE = LINKS, LINKS // 2


@pytest.mark.parametrize(
    "stays, loads",
    [
        (pair(HEAD, 5.0), [(HEAD, 0.3)]),
        (pair(HEAD, 5.0), [(MIDDLE, 0.1)]),
        (pair(HEAD, 5.0), [(HEAD, 0.3), (MIDDLE, 0.2)]),
        ((*pair(HEAD, 5.0), *pair(MIDDLE, 3.0)), [(HEAD, 0.5), (MIDDLE, 0.5)]),
        ((*pair(HEAD, 5.0), *pair(MIDDLE, 3.0)), [(HEAD, 1.0), (MIDDLE, 2.0)]),
    ],
)
def test_what_small_displacements_leave_out_is_little(stays, loads):
    exact, aside = of_links(stays, loads)
    ours, head = of_balance(stays, loads)
    assert ours == pytest.approx(exact, rel=0.005, abs=0.025)
    assert head == pytest.approx(aside, rel=0.06)
    assert aside > 5, "it moves"
    slack = [tension == 0 for tension in exact]
    assert [tension == 0 for tension in ours] == slack
