"""Remove a Stay, given in a window: what goes with it, what stays, one undo."""

import pytest

from tests.office import named
from tests.office.menu.cells import everything, frame_of, select
from tests.office.menu.test_add_stay import SINGLE, add

pytestmark = pytest.mark.office

TITLE = "Remove a Stay"


def open_dialog(screen, book, stay):
    screen.give("removestay", frame_of(book))
    window = screen.dialog(TITLE)
    window.pick("Stay", stay)
    return window


def remove(screen, book, stay):
    window = open_dialog(screen, book, stay)
    said = window.lines("What is emptied")
    window.press("Remove")
    screen.finish()
    return said


def rows(book, table):
    return [name for name in named.column(book, f"{table}_name") if name]


def test_its_row_its_stub_and_what_it_alone_uses_go(screen, shown_demo):
    before = {table: rows(shown_demo, table) for table in ("stays", "tangs", "points", "chainplates")}
    said = remove(screen, shown_demo, "fore lower, port")
    gone = {table: set(names) - set(rows(shown_demo, table)) for table, names in before.items()}
    assert gone == {
        "stays": {"fore lower, port"},
        "tangs": {"fore lower stub, port"},
        "points": {"fore lower chainplate, port"},  # that on the mast is the other side's, too
        "chainplates": {"fore lower chainplate, port"},
    }
    assert set(said) >= {
        "Stays: fore lower, port",
        "Stubs: fore lower stub, port",
        "Points: fore lower chainplate, port",
        "Chainplates: fore lower chainplate, port",
    }


def test_what_was_added_is_taken_out_again_and_the_formulas_stay(screen, shown_demo):
    typed = {table: rows(shown_demo, table) for table in ("stays", "tangs", "points", "chainplates")}
    add(screen, shown_demo, "single lower", {**SINGLE, "Chainplate holds, kN": "45"})
    screen.finish()
    for side in ("port", "starboard"):
        remove(screen, shown_demo, f"single lower, {side}")
    assert {table: rows(shown_demo, table) for table in typed} == typed
    assert named.value(shown_demo, "boat_mend") == 0
    add(screen, shown_demo, "single lower", SINGLE)
    screen.finish()
    assert named.state(shown_demo, "stays", "single lower, port") != "fix"


@pytest.mark.parametrize(
    ("gone", "left"), [("fore lower, port", "aft lower, port"), ("aft lower, port", "fore lower, port")]
)
def test_a_stub_of_two_keeps_the_other(screen, shown_demo, gone, left):
    named.cell(shown_demo, "tangs", "stay_2", "fore lower stub, port").String = "aft lower, port"
    for key in ("stay", "name"):
        named.cell(shown_demo, "tangs", key, "aft lower stub, port").String = ""
    said = remove(screen, shown_demo, gone)
    assert "Kept on Stubs: fore lower stub, port, for the other stay on it" in said
    stub = [named.cell(shown_demo, "tangs", key, "fore lower stub, port").String for key in ("stay", "stay_2")]
    assert stub == [left, ""]


def test_one_undo_brings_it_back_and_cancel_changes_nothing(screen, shown_demo):
    before = everything(shown_demo)
    open_dialog(screen, shown_demo, "forestay").press("Cancel")
    screen.finish()
    assert everything(shown_demo) == before
    remove(screen, shown_demo, "forestay")
    assert everything(shown_demo) != before
    shown_demo.UndoManager.undo()
    assert everything(shown_demo) == before


def test_entries_of_the_log_are_said_to_stay(screen, shown_demo):
    window = open_dialog(screen, shown_demo, "cap shroud, port")
    assert "Log: entries of cap shroud, port stay, and Check names them" in window.lines("What is emptied")
    window.press("Cancel")
    screen.finish()


def test_the_stay_of_the_row_one_is_in_is_offered(screen, shown_demo):
    select(shown_demo, named.cell(shown_demo, "stays", "wire", "forestay"))
    screen.give("removestay", frame_of(shown_demo))
    window = screen.dialog(TITLE)
    assert "Stays: forestay" in window.lines("What is emptied")
    window.press("Cancel")
    screen.finish()
