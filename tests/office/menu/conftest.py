"""One office that shows its dialogs, for all tests of the menu, and in it one window with the demo boat."""

import pytest

from tests.conftest import for_one_test, office_class
from tests.inside import pack


@pytest.fixture(scope="session")
def shown_office(extension_file, tmp_path_factory):
    profile = tmp_path_factory.mktemp("shown_profile")
    beside = [pack(tmp_path_factory.mktemp("shown_inside") / "inside.oxt")]
    with office_class()(profile, extension_file, dialogs=True, beside=beside) as office:
        from tests.office.menu.screen import must_show

        must_show(office)
        yield office


@pytest.fixture(scope="session")
def demo_window(shown_office, demo_file):
    """The demo boat in a window that stays open from test to test."""
    from tests.office.menu.screen import Screen
    from tests.office.opened_once import Shared

    with Shared(shown_office, demo_file, Screen(shown_office).open) as shared:
        yield shared


@pytest.fixture
def one_office(shown_office):
    yield from for_one_test(shown_office)


@pytest.fixture
def screen(one_office, demo_window):
    """The office's windows, for one test; all but the one that is shared are closed after it."""
    from tests.office.menu.screen import Screen

    shown = Screen(one_office)
    yield shown
    if one_office.has_ended():
        return
    shown.put_away()
    for document in list(documents(one_office)):
        if demo_window.book is None or document.RuntimeUID != demo_window.book.RuntimeUID:
            document.setModified(False)
            document.close(True)


@pytest.fixture
def opened_anew(demo_window):
    """The demo boat is opened anew after the test: to undo what was done with a sheet can end the office."""
    yield
    demo_window.close()


def documents(office):
    listed = office.desktop.Components.createEnumeration()
    while listed.hasMoreElements():
        yield listed.nextElement()


def new_schedule(office):
    """A schedule that was made and not saved yet; None where there is none."""
    made = (one for one in documents(office) if not one.URL)
    return next((one for one in made if one.NamedRanges.hasByName("stays_name")), None)


@pytest.fixture
def shown_demo(screen, demo_window):
    """The schedule of the demo boat in a window, for one test to change as it likes."""
    yield demo_window.open()
    if not screen.office.has_ended():
        screen.put_away()
    demo_window.put_back()
