"""A row of the Library that is gone: whoever names it says so, and all else only waits or follows."""

from contextlib import ExitStack

import pytest

from tests.office import named
from tests.office.restored import Restored

pytestmark = pytest.mark.office

USED = ("stays", "tangs", "chainplates")
# Which cells name an item of each table of the Library; what Boat names is for all rows without an override.
NAMED_IN = {
    "rope": (("stays", "rope_own"), ("stays", "line_own"), ("chainplates", "rope_own"), ("boat", "rope")),
    "wire": (("stays", "wire"),),
    "rod": (("tangs", "rod_own"), ("boat", "rod")),
    "bolt": (("tangs", "bolt_own"), ("boat", "bolt")),
    "ring": (
        ("stays", "upper_ring_own"),
        ("stays", "lower_ring_own"),
        ("chainplates", "ring_own"),
        ("boat", "ring"),
    ),
    "sleeve": (("stays", "sleeve_own"), ("boat", "sleeve")),
}


def fixes(book):
    """What is to be fixed on rows that are in use, by rule; Boat has its own."""
    found = {
        (table, id)
        for table in USED
        for codes in named.column(book, f"{table}_found")
        for id, severity in named.ids(codes or "").items()
        if severity == "fix"
    }
    on_boat = (named.ids(codes or "") for codes in named.column(book, "boat_found"))
    boat = {("boat", id) for ids in on_boat for id, severity in ids.items() if severity == "fix"}
    return found | boat


@pytest.mark.parametrize("kind", NAMED_IN)
def test_a_lost_item_is_one_fault_where_it_is_named(demo, kind):
    assert not fixes(demo)
    tried = 0
    for item in filter(None, named.column(demo, f"{kind}_name")):
        places = {
            (table, key)
            for table, key in NAMED_IN[kind]
            if item
            in ([named.value(demo, f"boat_{key}")] if table == "boat" else named.column(demo, f"{table}_{key}"))
        }
        if not places:
            continue
        tried += 1
        with ExitStack() as typed:
            typed.enter_context(Restored(named.cell(demo, kind, "name", item), f"{item}, another"))
            said = fixes(demo)
            assert len(said) <= len(places), (item, said, places)
            assert said, item
    assert tried
