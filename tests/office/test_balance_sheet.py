"""Balance: its cells hold what the functions give for its ranges, and what a general solver of frames finds."""

import pytest
from loftsheet import CALCS
from loftsheet.balance import tables
from loftsheet.balance.structure import Structure

from templates.sheets.balance import CASES, OTHER_TACK, STAY_FIGURES, TACKS
from tests.functions.test_balance_frame import compare_first_order
from tests.office import named

pytestmark = pytest.mark.office

RANGES = ("inmasts", "inpoints", "instays", "incases", "inloads", "intips")


@pytest.fixture(scope="module", params=["marrowick", "sandlebee"])
def book(request, running_office, demo_file, second_demo_file):
    opened = running_office.load({"marrowick": demo_file, "sandlebee": second_demo_file}[request.param])
    running_office.recalculate(opened)
    yield opened
    running_office.close(opened)


def taken(book):
    """What the functions take, as it stands in cells."""
    return tuple(named.cells(book, f"{key}_taken").DataArray for key in RANGES)


def test_every_figure_in_cells_is_what_the_functions_give(book):
    for key, name in (("ofstays", "STAYS"), ("ofmasts", "MASTS"), ("ofcases", "CASES"), ("offelt", "FELT")):
        due = CALCS[f"RIG.BALANCE.{name}"].call(*taken(book))
        held = named.cells(book, f"{key}_all").DataArray
        assert len(due) == len(held)
        for one, other in zip(due, held):
            assert list(other[: len(one)]) == pytest.approx(list(one), rel=1e-10), key
    assert named.cells(book, "verdict_words").String == "worked out"
    assert named.cells(book, "boat_wrong").Value == 0


def test_what_is_shown_is_the_larger_and_the_smaller_of_both_tacks(book):
    rows = CALCS["RIG.BALANCE.STAYS"].call(*taken(book))
    names = [row[0] for row in taken(book)[3] if row[0]]
    cases = list(dict.fromkeys(name.replace(OTHER_TACK, "") for name in names))
    assert 4 < len(cases) <= CASES
    for nth, case in enumerate(cases, 1):
        places = [at for at, name in enumerate(names) if name.replace(OTHER_TACK, "") == case]
        assert len(places) <= TACKS
        for which, extreme in (("most", max), ("least", min)):
            shown = named.column(book, f"bycase_{which}_{nth}")
            for row, held in zip(rows, shown):
                figures = [row[len(STAY_FIGURES) + 2 * at + (which == "least")] for at in places]
                figures = [one for one in figures if one != ""]
                assert (held == "") == (not figures), (case, row)
                assert held == "" or held == pytest.approx(extreme(figures), rel=1e-10), (case, row)


@pytest.mark.parametrize("nth", range(7))
def test_a_solver_of_frames_finds_the_same_tensions(book, nth):
    """First order, the lashings as on the sheet; the split backstay as two, for PyNite has no joint in the air."""
    masts, points, stays, cases, loads, tips = taken(book)
    outs = {row[0]: out for row, out in zip(stays, named.column(book, "ofstays_take_out"))}
    leg = next(row for row in stays if row[0] == "backstay leg")
    top = next(row[2] for row in stays if row[0] == "backstay, upper part")
    whole = ("backstay leg", "both", top, "", "", *leg[5:])
    kept = tuple(row for row in stays if row[0] and not row[0].startswith("backstay"))
    names = [row[0] for row in cases if row[0] and not row[0].endswith(OTHER_TACK)]
    rig = tables.rig(masts, points, (*kept, whole), cases, loads, tips)
    case = next(one for one in rig.cases if one.name == names[nth])
    take_outs = [6.0 if line.stay.name == whole[0] else outs[line.stay.name] for line in Structure(rig).lines]
    compare_first_order(rig, case, take_outs)


def test_tensions_at_the_dock_are_those_wanted(book):
    """As near as no check asks; a runner is tuned by itself, what balances another stay has what does."""
    near = named.value(book, "boat_tension_off")
    wanted = named.column(book, "instays_wanted")
    dock = named.column(book, "ofstays_dock")
    had = [(one, other) for one, other in zip(wanted, dock) if isinstance(one, float)]
    assert len(had) > 10
    for one, other in had:
        assert other == pytest.approx(one, rel=near)
