"""One office that shows its dialogs, for all tests of the menu."""

import pytest

from tests.conftest import PER_TEST, office_class


@pytest.fixture(scope="session")
def shown_office(extension_file, tmp_path_factory):
    profile = tmp_path_factory.mktemp("shown_profile")
    with office_class()(profile, extension_file, dialogs=True) as office:
        from tests.office.menu.screen import must_show

        must_show(office)
        yield office


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
