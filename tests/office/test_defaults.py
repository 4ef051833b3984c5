"""Inputs that may stay blank: what is used then is what nearly everyone types, and it can be seen."""

from contextlib import ExitStack

import pytest

from tests.office import named
from tests.office.restored import Restored

pytestmark = pytest.mark.office

RESULTS = (
    "stays_cut",
    "stays_load",
    "stays_pretension",
    "stays_spare",
    "tangs_bolts",
    "tangs_hole",
    "order_quantity",
)
DEFAULTED = {
    "stays": ("number", "upper_over", "lower_over", "runs", "basis", "share"),
    "tangs": ("number", "sides"),
}


SHARES = {
    "cap shroud": "cap shroud, one spreader",
    "lower fore": "each of two lowers",
    "lower aft": "each of two lowers",
}


def usual(row):
    """What a row holds where its kind makes no question of it. Common practice, no source."""
    shroud = row["kind"] in ("cap shroud", "lower fore", "lower aft")
    return {
        "number": 2 if row["side"] == "both" else 1,
        "upper_over": "stub" if row["stub"] else "ring",
        "lower_over": "ring",
        "runs": "nothing" if "forestay" not in row["kind"] else None,
        "basis": "righting moment" if shroud else "wire replaced",
        "share": {"cap shroud": "cap shroud, one spreader"}.get(row["kind"], "each of two lowers")
        if shroud
        else None,
    }


def stays(book):
    keys = ("name", "kind", "side", *DEFAULTED["stays"])
    columns = [named.column(book, f"stays_{key}") for key in keys]
    on_stubs = named.column(book, "tangs_stay")
    for held in zip(*columns):
        if held[0]:
            row = dict(zip(keys, held))
            yield {**row, "stub": row["name"] in on_stubs}


def test_blanks_come_to_what_was_typed(demo):
    """Every cell of the demo boat that holds the usual is emptied at once: no result changes."""
    before = {name: named.column(demo, name) for name in RESULTS}
    emptied = dict.fromkeys(DEFAULTED["stays"], 0)
    with ExitStack() as typed:
        for row in list(stays(demo)):
            for key, held in usual(row).items():
                if row[key] == held:
                    typed.enter_context(Restored(named.cell(demo, "stays", key, row["name"]), None))
                    emptied[key] += 1
        for stub in [name for name in named.column(demo, "tangs_name") if name]:
            for key in DEFAULTED["tangs"]:
                typed.enter_context(Restored(named.cell(demo, "tangs", key, stub), None))
        assert min(emptied.values()) > 3
        assert {name: named.column(demo, name) for name in RESULTS} == before
        assert named.value(demo, "boat_wrong") == 0
        assert named.cell(demo, "stays", "lower_over_used", "forestay").String == "ring"


def test_a_typed_one_wins(demo):
    with Restored(named.cell(demo, "stays", "number", "backstay leg"), 1.0):
        assert named.cell(demo, "stays", "count", "backstay leg").Value == 1
    with Restored(named.cell(demo, "stays", "number", "backstay leg"), None):
        assert named.cell(demo, "stays", "count", "backstay leg").Value == 2


def test_the_family_is_that_of_the_rope(demo):
    before = named.column(demo, "stays_smallest")
    with Restored(named.cells(demo, "boat_family"), None):
        assert named.value(demo, "boat_family_used") == "HMPE 12-strand"
        assert named.column(demo, "stays_smallest") == before


def test_the_foot_of_a_mast_is_the_datum(demo):
    with ExitStack() as typed:
        for key in ("foot_fore", "foot_up"):
            typed.enter_context(Restored(named.cell(demo, "masts", key, "mast"), None))
        assert named.value(demo, "boat_wrong") == 0
