"""Library of the Yard, given in a window: saved once, new schedules start with it, and it can be taken."""

import pytest

from tests.office import named
from tests.office.menu.cells import everything, frame_of
from tests.office.menu.conftest import documents
from tests.office.menu.waiting import wait

pytestmark = pytest.mark.office

TITLE = "Library of the Yard"
ROPE = "HMPE 12-strand 10 mm"


@pytest.fixture
def place(screen):
    """The file in which the Library of the yard is kept; there is none before and after the test."""
    from extension.loftsheet_office.common.safe_files import local

    settings = screen.office.create("com.sun.star.util.PathSubstitution").substituteVariables("$(user)", True)
    path = local(settings) / "loftsheet" / "library.json"
    path.unlink(missing_ok=True)
    yield path
    path.unlink(missing_ok=True)


def give(screen, book, button):
    screen.give("library", frame_of(book))
    window = screen.dialog(TITLE)
    labels = window.labels()
    window.press(button)
    return labels


def second_window(screen):
    """The window that lists what differs; the first, of the same title, may still be on its way out."""

    def listing():
        window = screen.dialog(TITLE)
        return window if "Copy" in [label.replace("~", "") for label in window.labels()] else None

    return wait(listing, lambda: f"no list of what differs; windows: {screen.titles()}")


def listed(screen, asked):
    """What differs, by the Copy button of its window."""
    before = screen.copied()
    asked.press("Copy")

    def fresh():
        held = screen.copied()
        return held if held != before else ""

    return wait(fresh, lambda: "nothing was copied")


def save(screen, book):
    labels = give(screen, book, "Save as the Yard's…")
    assert "items are saved" in screen.message(TITLE)
    screen.finish()
    return labels


def new_schedule(screen):
    before = list(documents(screen.office))
    screen.give("new", frame_of(before[0]))
    screen.finish()
    return next(book for book in documents(screen.office) if book not in before)


def test_a_new_schedule_starts_with_it(screen, shown_demo, place):
    named.cell(shown_demo, "rope", "break_load", ROPE).Value = 123.0
    named.cell(shown_demo, "rope", "name", ROPE).String = "rope of this yard"
    assert "Take the Yard's…" not in save(screen, shown_demo)
    new = new_schedule(screen)
    names = [name for name in named.column(new, "rope_name") if name]
    assert names == [name for name in named.column(shown_demo, "rope_name") if name]
    assert named.cell(new, "rope", "break_load", "rope of this yard").Value == 123.0
    ordered = [name for name in named.column(new, "order_name") if name]
    assert "rope of this yard" in ordered
    assert ROPE not in ordered
    assert not [held for held in named.column(new, "rope_found") if "fix" in str(held)]


def test_saving_again_lists_what_changes(screen, shown_demo, place):
    save(screen, shown_demo)
    named.cell(shown_demo, "rope", "break_load", ROPE).Value = 120.0
    give(screen, shown_demo, "Save as the Yard's…")
    asked = second_window(screen)
    assert f"Rope: {ROPE}, Breaking load: 116 becomes 120" in listed(screen, asked)
    before = place.read_bytes()
    asked.press("Cancel")
    screen.finish()
    assert place.read_bytes() == before


def test_it_is_taken_into_a_schedule_with_one_undo_and_order_follows(screen, shown_demo, place):
    cell = named.cell(shown_demo, "rope", "name", ROPE)
    cell.String = "rope of this yard"
    save(screen, shown_demo)
    cell.String = ROPE
    before = everything(shown_demo)
    give(screen, shown_demo, "Take the Yard's…")
    asked = second_window(screen)
    assert listed(screen, asked) == "Rope: rope of this yard is new"
    asked.press("Take")
    screen.finish()
    assert {ROPE, "rope of this yard"} <= set(named.column(shown_demo, "rope_name"))
    assert "rope of this yard" in named.column(shown_demo, "order_name")
    shown_demo.UndoManager.undo()
    assert everything(shown_demo) == before


def test_it_is_taken_from_another_schedule(screen, shown_demo, place, tmp_path):
    named.cell(shown_demo, "bolt", "size", "M20 A4-70").Value = 20.5
    screen.office.store(shown_demo, tmp_path / "other.ods")
    named.cell(shown_demo, "bolt", "size", "M20 A4-70").Value = 20.0
    give(screen, shown_demo, "From a Schedule…")
    screen.choose_file(tmp_path / "other.ods")
    asked = second_window(screen)
    assert "Bolt: M20 A4-70, Size: 20 becomes 20.5" in listed(screen, asked)
    asked.press("Take")
    screen.finish()
    assert named.cell(shown_demo, "bolt", "size", "M20 A4-70").Value == 20.5


def test_a_file_that_is_no_library_is_refused(screen, shown_demo, place):
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text("[1]", encoding="utf-8")
    give(screen, shown_demo, "Take the Yard's…")
    assert "is no Library any more" in screen.message(TITLE)
    screen.finish()
