"""Add Rows, given in a window: the rows are ready, every name grows, and one undo takes them back."""

import pytest

from tests.office.menu.cells import frame_of, named, select

pytestmark = pytest.mark.office


def rows_of(book, name):
    size = book.NamedRanges.getByName(name).ReferredCells.RangeAddress
    return size.EndRow - size.StartRow + 1


def test_a_row_is_added_ready_and_taken_back_by_one_undo(screen, shown_demo):
    select(shown_demo, named(shown_demo, "stays_upper", 2))
    before, total = rows_of(shown_demo, "stays_name"), named(shown_demo, "boat_rope_mass").Value
    screen.give("addrows", frame_of(shown_demo))
    dialog = screen.dialog("Add Rows")
    dialog.press("Add")
    screen.finish()
    for name in ("stays_name", "stays_check", "stays_cut"):
        assert rows_of(shown_demo, name) == before + 1
    cuts = shown_demo.NamedRanges.getByName("stays_cut").ReferredCells
    new = before - 1
    assert cuts.getCellByPosition(0, new).Formula.replace(str(cuts.RangeAddress.StartRow + 1 + new), "#") == (
        cuts.getCellByPosition(0, 0).Formula.replace(str(cuts.RangeAddress.StartRow + 1), "#")
    )
    assert cuts.getCellByPosition(0, new).String == ""
    shown_demo.calculateAll()
    assert named(shown_demo, "boat_rope_mass").Value == total
    assert named(shown_demo, "boat_outside").String == "nothing"
    shown_demo.UndoManager.undo()
    assert rows_of(shown_demo, "stays_name") == before


def test_outside_the_tables_it_says_where_to_click(screen, shown_demo):
    select(shown_demo, named(shown_demo, "boat_rm30"))
    screen.give("addrows", frame_of(shown_demo))
    assert "Click into a table first" in screen.message("Add Rows")
    screen.finish()
