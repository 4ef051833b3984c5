"""Take Over into a New Schedule, given in a window: of a schedule of an earlier release, and of this one."""

from pathlib import Path

import pytest

from tests.office import named
from tests.office.menu.cells import everything, frame_of
from tests.office.menu.conftest import documents

pytestmark = pytest.mark.office

TITLE = "Take Over into a New Schedule"
KEPT = Path(__file__).parents[1] / "kept" / "marrowick-0.1.0.ods"


def taken_over(screen, old):
    """Give the command; the new schedule, and what is said of it."""
    before = list(documents(screen.office))
    screen.give("takeover", frame_of(old))
    screen.dialog(TITLE).press("Take Over")
    words = screen.message(TITLE)
    screen.finish()
    return next(book for book in documents(screen.office) if book not in before), words


def typed(book, table, key):
    return [
        held
        for held, name in zip(named.column(book, f"{table}_{key}"), named.column(book, f"{table}_name"))
        if name
    ]


def test_a_schedule_of_the_first_release_comes_over_whole(screen):
    old = screen.open(KEPT)
    before = everything(old)
    new, words = taken_over(screen, old)
    for table in (
        "points",
        "stays",
        "tangs",
        "order",
        "rope",
        "wire",
        "rod",
        "bolt",
        "sleeve",
        "ring",
        "share",
        "log",
    ):
        assert typed(new, table, "name") == typed(old, table, "name"), table
    for table, key in (("stays", "lower"), ("points", "along"), ("rope", "break_load"), ("order", "price")):
        assert typed(new, table, key) == typed(old, table, key)
    for key in ("name", "rm30", "rope", "margin"):
        assert named.value(new, f"boat_{key}") == named.value(old, f"boat_{key}")
    for old_name, key in (("mast_width", "width"), ("mast_fore", "section"), ("wall", "wall"), ("rake", "rake")):
        assert named.column(new, f"masts_{key}")[0] == named.value(old, f"boat_{old_name}")
    assert "Masts has a row now" in words
    assert "Masts: Head" in words
    assert "Ropes and lines: Status" in words
    assert everything(old) == before
    assert "rows are to be fixed there" in words
    # With what the first release did not ask for, only what it took otherwise is left; lengths are the same.
    named.cells(new, "masts_head").getCellByPosition(0, 0).Value = 13_100
    named.certify(new)
    for name, of in zip(named.column(new, "share_name"), named.cells(new, "share_of").DataArray):
        if name and of == ("",):
            named.cell(new, "share", "of", name).Value = 2
    new.calculateAll()
    found = [one for table in ("stays", "tangs", "rod", "order") for one in named.column(new, f"{table}_found")]
    to_fix = {id for codes in found for id, severity in named.ids(str(codes)).items() if severity == "fix"}
    assert to_fix == {"pretension.none", "construction.list"}
    for name in typed(old, "stays", "name"):
        cuts = [named.cell(book, "stays", "length", name).Value for book in (old, new)]
        assert cuts[0] == pytest.approx(cuts[1]), name


def test_a_schedule_of_this_release_is_the_same_afterwards(screen, shown_demo):
    """With a column of the user's own, one between ours and a formula in an input."""
    sheet = shown_demo.Sheets.getByName("Stays")
    names = named.cells(shown_demo, "stays_name").RangeAddress
    sheet.Columns.insertByIndex(6, 1)
    sheet.getCellByPosition(6, names.StartRow - 1).String = "Colour"
    sheet.getCellByPosition(6, names.StartRow).String = "red"
    named.cells(shown_demo, "stays_chainplate").getCellByPosition(0, 0).Formula = "=40+5"
    shown_demo.calculateAll()
    new, words = taken_over(screen, shown_demo)
    for table in ("masts", "points", "stays", "tangs", "order", "rope", "log"):
        for name in typed(shown_demo, table, "name"):
            assert named.check(new, table, name) == named.check(shown_demo, table, name)
    for key in ("cut", "margin", "chainplate"):
        assert typed(new, "stays", key) == pytest.approx(typed(shown_demo, "stays", key))
    assert "Formulas of your own, of which the value was copied:" in words
    assert "=40+5" in words
    assert "Stays: Colour" in words
    assert "has no place for it" not in words
    rows = new.Sheets.getByName("Stays")
    heads = [rows.getCellByPosition(at, names.StartRow - 1).String for at in range(60)]
    assert rows.getCellByPosition(heads.index("Colour"), names.StartRow).String == "red"


def test_nothing_is_opened_where_the_user_thinks_better_of_it(screen, shown_demo):
    before = len(list(documents(screen.office)))
    screen.give("takeover", frame_of(shown_demo))
    screen.dialog(TITLE).press("Cancel")
    screen.finish()
    assert len(list(documents(screen.office))) == before
