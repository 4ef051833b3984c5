"""The menu: which entries it has, where they apply, and what a new schedule and About show."""

import pytest
from loftsheet import CALCS, __version__

from extension.loftsheet_office.commands.entries import ANYWHERE, ENTRIES, SCHEDULE_TO_CHANGE, SPREADSHEET
from tests.office.menu.cells import frame_of
from tests.office.menu.conftest import new_schedule

pytestmark = pytest.mark.office

LABELS = {entry.label.replace("~", ""): entry.where for entry in ENTRIES.values()}


def menu_of(book):
    from tests.office.menu.screen import menu

    return menu(book.CurrentController.Frame, "Rigging")


def test_a_schedule_has_every_entry_enabled(shown_demo):
    assert menu_of(shown_demo) == dict.fromkeys(LABELS, True)


def test_in_any_other_spreadsheet_the_schedules_entries_are_disabled(screen):
    book = screen.open()
    enabled = {label: where in (ANYWHERE, SPREADSHEET) for label, where in LABELS.items()}
    assert enabled["Explain This Cell"] and not enabled["Add Rows…"]
    assert menu_of(book) == enabled


def test_a_read_only_schedule_has_what_changes_it_disabled(screen, demo_file):
    book = screen.open(demo_file, ReadOnly=True)
    enabled = {label: where != SCHEDULE_TO_CHANGE for label, where in LABELS.items()}
    assert enabled["Mark-Out Sheet…"] and not enabled["Read Prices Back…"]
    assert menu_of(book) == enabled


def test_the_menu_asks_again_at_each_opening(screen):
    book = screen.open()
    assert not menu_of(book)["Check the Schedule"]
    position = book.Sheets.getByIndex(0).getCellByPosition(0, 0).CellAddress
    book.NamedRanges.addNewByName("stays_name", "$Sheet1.$A$1:$A$9", position, 0)
    assert menu_of(book)["Check the Schedule"]


@pytest.mark.parametrize("command", ENTRIES)
def test_a_command_says_of_itself_where_it_applies(screen, shown_demo, command):
    assert screen.applies(command, frame_of(shown_demo)) is True
    elsewhere = ENTRIES[command].where in (ANYWHERE, SPREADSHEET)
    assert screen.applies(command, frame_of(screen.open())) is elsewhere


def test_a_command_that_does_not_apply_says_so(screen):
    book = screen.open()
    screen.give("check", frame_of(book))
    assert "does not apply" in screen.message("Check the Schedule")
    screen.finish()


@pytest.mark.parametrize("kind", ["drawing.Drawing", "text.Text"])
def test_a_drawing_and_a_text_have_no_such_menu(screen, kind):
    modules = screen.office.create("com.sun.star.frame.ModuleManager")
    if not modules.hasByName(f"com.sun.star.{kind}Document"):
        pytest.skip(f"this office has no {kind}Document")
    factory = modules.getByName(f"com.sun.star.{kind}Document")
    address = next(value.Value for value in factory if value.Name == "ooSetupFactoryEmptyDocumentURL")
    assert menu_of(screen.office._open(address, Hidden=False)) is None


def test_new_rig_schedule_opens_the_workbook_without_a_name(screen):
    book = screen.open()
    screen.give("new", frame_of(book))
    screen.finish()
    new = new_schedule(screen.office)
    assert new.getURL() == ""
    assert not new.isReadonly()
    assert new.NamedRanges.hasByName("stays_name")
    cell = new.NamedRanges.getByName("stays_name").ReferredCells.getCellByPosition(0, 0)
    assert cell.String == ""


def test_the_start_center_has_what_needs_no_spreadsheet(screen):
    frame = screen.office.desktop.findFrame("_blank", 0)
    module = "com.sun.star.frame.StartModule"
    start = screen.office.create(module)
    start.attachFrame(frame)
    frame.setComponent(start.getComponentWindow() if hasattr(start, "getComponentWindow") else None, start)
    assert {command for command in ENTRIES if screen.applies(command, frame)} == {
        command for command, entry in ENTRIES.items() if entry.where == ANYWHERE
    }


def test_file_new_offers_a_rig_schedule(screen):
    import uno

    access = screen.office.create("com.sun.star.configuration.ConfigurationProvider")
    where = uno.createUnoStruct(
        "com.sun.star.beans.NamedValue", "nodepath", "/org.openoffice.Office.Common/Menus/New"
    )
    entries = access.createInstanceWithArguments("com.sun.star.configuration.ConfigurationAccess", (where,))
    entry = entries.getByName("org.loftsheet.Schedule")
    assert (entry.URL, entry.TargetName) == ("org.loftsheet:new", "_self")


def about(screen, book):
    """What About shows, by its Copy button: the words, and the buttons there are."""
    screen.give("about", frame_of(book))
    shown = screen.dialog("About and Diagnostics")
    shown.press("Copy")
    buttons = shown.labels()
    shown.press("Close")
    screen.finish()
    return screen.copied(), buttons


def test_about_says_that_every_function_answers(screen, shown_demo):
    words, _ = about(screen, shown_demo)
    assert f"Loftsheet {__version__}" in words
    assert f"all {len(CALCS)} answer" in words
    assert "pint 0.24.4\n" in words
    assert words.endswith("since the office was started: none."), words
