"""Log a Job Card, given in a window: a card into new rows of Log in one go."""

import pytest

from tests.office import named
from tests.office.menu.cells import everything, frame_of, selected

pytestmark = pytest.mark.office

TITLE = "Log a Job Card"
ONE = {"Date": "2026-05-04", "Made by": "an invented rigger", "Pulled to, kN": "18", "Measured, mm": "13340"}


def card(screen, book, stay):
    """Give the command and pick a stay; the dialog with the boxes of its card."""
    screen.give("logcard", frame_of(book))
    window = screen.dialog(TITLE)
    window.pick("Stay", stay)
    window.press("Next")
    return screen.dialog(f"{TITLE}: {stay}")


def log(screen, book, stay, typed):
    window = card(screen, book, stay)
    for label, text in typed.items():
        window.type(label, text)
    window.press("Write")


def entry(book, name):
    keys = ("date", "stay", "which", "made_by", "pulled_to", "measured", "ligament_left", "take_up_left", "fitted")
    at = named.row_of(book, "log", name)
    return {key: named.column(book, f"log_{key}")[at] for key in keys}


def test_a_card_becomes_a_row_of_log_and_one_undo_takes_it_away(screen, shown_demo):
    before = everything(shown_demo)
    log(screen, shown_demo, "forestay", ONE)
    screen.finish()
    held = entry(shown_demo, "M2")  # M1 is there already
    assert (held["stay"], held["made_by"]) == ("forestay", "an invented rigger")
    assert (held["pulled_to"], held["measured"]) == (18.0, 13340.0)
    assert held["date"] == 46146  # 2026-05-04, counted from 1899-12-30
    assert held["which"] == held["fitted"] == held["ligament_left"] == ""
    assert named.state(shown_demo, "log", "M2") == "ok"
    assert selected(shown_demo).startswith("Log.A")
    shown_demo.UndoManager.undo()
    assert everything(shown_demo) == before


def test_of_a_pair_each_has_a_row(screen, shown_demo):
    pair = {"port: Measured, mm": "3115", "starboard: Measured, mm": "3118 mm", "starboard: Gap left, mm": "61"}
    log(screen, shown_demo, "backstay leg", {"Made by": "an invented rigger", **pair})
    screen.finish()
    port, starboard = (entry(shown_demo, name) for name in ("M2", "M3"))
    assert (port["which"], port["measured"], port["take_up_left"]) == ("port", 3115.0, "")
    assert (starboard["which"], starboard["measured"], starboard["take_up_left"]) == ("starboard", 3118.0, 61.0)


def test_a_rope_loop_is_logged_with_the_stay_that_hangs_in_it(screen, shown_demo):
    loop = "runner chainplate, port: rope loop"
    typed = {"Date": "2026-05-04", "Made by": "an invented rigger", "loop: Pulled to, kN": "12"}
    log(screen, shown_demo, loop, typed)
    screen.finish()
    held = entry(shown_demo, "M2")
    assert (held["stay"], held["which"]) == ("running backstay, port", "loop")
    assert (held["pulled_to"], held["measured"]) == (12.0, "")
    assert named.state(shown_demo, "log", "M2") == "ok"


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({**ONE, "Measured, mm": "long"}, "Measured: "),
        ({**ONE, "Measured, mm": "5"}, 'Measured: "5" was typed. You type a number from 100 to 60000 mm'),
        ({**ONE, "Date": "4.5.26"}, 'Date: "4.5.26" was typed. Type year, month and day'),
        ({**ONE, "Made by": ""}, "Type who made it"),
        ({"Made by": "an invented rigger"}, "Nothing that was made is typed"),
    ],
)
def test_what_cannot_be_read_is_said_and_what_was_typed_stays(screen, shown_demo, typed, said):
    before = everything(shown_demo)
    log(screen, shown_demo, "forestay", typed)
    assert said in screen.message(TITLE)
    again = screen.dialog(f"{TITLE}: forestay")
    again.press("Cancel")
    screen.finish()
    assert everything(shown_demo) == before
