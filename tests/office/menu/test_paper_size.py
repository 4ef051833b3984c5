"""Paper Size, given in a window."""

import pytest

from tests.office.menu.cells import frame_of, select

pytestmark = pytest.mark.office

TITLE = "Paper Size"


def offered(screen, book, command, title):
    """The paper that a command offers first."""
    screen.give(command, frame_of(book))
    dialog = screen.dialog(title)
    paper = dialog.picked("Paper")
    dialog.press("Cancel")
    screen.finish()
    return paper


def test_the_paper_is_set_and_offered_everywhere(screen, shown_demo):
    screen.give("paper", frame_of(shown_demo))
    dialog = screen.dialog(TITLE)
    assert dialog.picked("Paper") == "A4"
    dialog.pick("Paper", "Letter")
    dialog.press("Set")
    assert "hard to read" in screen.message(TITLE)
    screen.finish()
    styles = shown_demo.StyleFamilies.getByName("PageStyles")
    for sheet in shown_demo.Sheets:
        style = styles.getByName(sheet.PageStyle)
        assert sorted((style.Width, style.Height)) == pytest.approx([21590, 27940], abs=5)
    for command, title in (("markout", "Mark-Out Sheet"), ("benchpages", "All Bench Pages"), ("paper", TITLE)):
        assert offered(screen, shown_demo, command, title) == "Letter"
    assert shown_demo.isModified()


def test_cancelling_changes_nothing(screen, shown_demo):
    select(shown_demo, shown_demo.Sheets.getByIndex(0).getCellByPosition(0, 0))
    style = shown_demo.StyleFamilies.getByName("PageStyles").getByName(shown_demo.Sheets.getByIndex(0).PageStyle)
    before = (style.Width, style.Height, style.PageScale)
    assert offered(screen, shown_demo, "paper", TITLE) == "A4"
    assert (style.Width, style.Height, style.PageScale) == before
