"""One office that shows its dialogs, for all tests of the menu."""

import pytest

from tests.conftest import PER_TEST, office_class


@pytest.fixture(scope="session")
def shown_office(extension_file, tmp_path_factory):
    profile = tmp_path_factory.mktemp("shown_profile")
    with office_class()(profile, extension_file, dialogs=True) as office:
        if not tells_what_windows_show(office):
            pytest.skip("this release tells no screen reader through UNO what its windows show; look by hand")
        yield office


def tells_what_windows_show(office):
    """Whether tests can read and use windows; 7.4 and 25.2 let them, 26.8 does not."""
    from tests.deed import in_own_thread

    empty = office._open("private:factory/scalc", Hidden=False)
    window = empty.CurrentController.Frame.ContainerWindow
    found = in_own_thread(office, lambda: hasattr(window, "getAccessibleContext"))
    empty.close(True)
    return found


@pytest.fixture
def screen(shown_office):
    """The office's windows, for one test; all are closed after it."""
    from tests.office.menu.screen import Screen

    with shown_office.at_most(PER_TEST):
        shown = Screen(shown_office)
        yield shown
        shown.put_away()
        for document in list(documents(shown_office)):
            document.setModified(False)
            document.close(True)


def documents(office):
    listed = office.desktop.Components.createEnumeration()
    while listed.hasMoreElements():
        yield listed.nextElement()


@pytest.fixture
def shown_demo(screen, demo_file):
    """The schedule of the demo boat in a window."""
    book = screen.open(demo_file)
    book.calculateAll()
    return book
