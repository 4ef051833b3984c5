"""Boats of other kinds than the demo boats: a check that shouts at a sound boat is as wrong as a silent one."""

import pytest

from tests.office import named
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
