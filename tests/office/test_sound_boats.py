"""Boats of other kinds than the demo boats: a check that shouts at a sound boat is as wrong as a silent one."""

from contextlib import ExitStack

import pytest

from tests.office import named
from tests.office.restored import Restored
from tests.office.sound_boats import BOATS

pytestmark = pytest.mark.office
ASKED = ("masts", "points", "stays", "tangs", "chainplates", "rope", "wire", "rod", "bolt")


@pytest.mark.parametrize("boat", BOATS, ids=lambda boat: boat.BOAT["name"])
def test_nothing_is_questioned_on_a_sound_boat(office, tmp_path, boat):
    from extension import template

    path = tmp_path / f"{boat.BOAT['name']}.ods"
    template.write(office, path, boat)
    book = office.load(path)
    try:
        office.recalculate(book)
        said = {
            f"{table}, {row}: {found}"
            for table in ASKED
            for row, found in zip(named.column(book, f"{table}_name"), named.column(book, f"{table}_found"))
            if row and set(named.ids(str(found)).values()) - {"note"}
        }
        assert said == set()
        assert named.value(book, "boat_wrong_boat") == named.value(book, "boat_weigh_boat") == 0
    finally:
        office.close(book)


HEIGHTS = ("points_up_own", "masts_foot_up", "boat_waterline", "boat_cg_up")
COMPARED = (
    "stays_check",
    "tangs_check",
    "masts_check",
    "cases_check",
    "stays_cut",
    "stays_spare",
    "tangs_bolt_spare",
)


def test_the_datum_may_be_the_masthead(demo):
    """Heights that are all below the datum: nothing is asked, and nothing comes out differently."""
    before = {name: named.column(demo, name) for name in COMPARED}
    with ExitStack() as moved:
        for name in HEIGHTS:
            cells = named.cells(demo, name)
            for at, height in enumerate(named.column(demo, name)):
                if height != "" or (name, at) == ("masts_foot_up", 0):
                    moved.enter_context(Restored(cells.getCellByPosition(0, at), (height or 0.0) - 13_000.0))
        for name, held in before.items():
            assert named.column(demo, name) == [
                pytest.approx(one, rel=1e-6, abs=1e-6) if isinstance(one, float) else one for one in held
            ]
