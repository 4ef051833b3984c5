"""Options, and one office for the whole run with a fresh build of the extension installed."""

import os

import pytest

from tests import inside
from tests.runs import pytest_terminal_summary  # noqa: F401

PER_TEST = 300  # seconds


def pytest_addoption(parser):
    parser.addoption("--long", action="store_true", help="run the tests that take minutes, too")
    parser.addoption("--seed", type=int, help="the seed that a random test named when it failed")


def pytest_collection_modifyitems(config, items):
    if not config.getoption("--long"):
        for item in items:
            if item.get_closest_marker("long"):
                item.add_marker(pytest.mark.skip(reason="takes minutes; give --long"))


def office_class():
    """Return the class that runs an office; without one its tests are skipped, on a build server they fail."""
    try:
        from extension.office import Office, OfficeMissing, program
    except ImportError as missing:
        return unavailable(f"this Python cannot talk to LibreOffice: {missing}")
    try:
        program()
    except OfficeMissing as missing:
        return unavailable(str(missing))
    return Office


def unavailable(reason):
    if os.environ.get("CI") == "true":
        pytest.fail(f"CI is set and there is no office: {reason}", pytrace=False)
    pytest.skip(f"no office: {reason}")


@pytest.fixture(scope="session")
def extension_file():
    """The extension, built from the present sources."""
    office_class()
    from extension.commands import build_extension

    return build_extension()


@pytest.fixture(scope="session")
def running_office(extension_file, tmp_path_factory):
    beside = [inside.pack(tmp_path_factory.mktemp("inside") / "inside.oxt")]
    with office_class()(tmp_path_factory.mktemp("profile"), extension_file, beside=beside) as office:
        inside.at_work[:] = [office]
        yield office


@pytest.fixture
def office(running_office):
    """The office, for one test; one that hangs is killed."""
    yield from for_one_test(running_office)


def for_one_test(office):
    """An office that ended fails the test in which it did; the next one has it started anew."""
    if office.has_ended():
        office.start_again()
    with office.at_most(PER_TEST):
        yield office
    if office.has_ended():
        pytest.fail(f"the office ended; its last words: {office.last_words()}", pytrace=False)


@pytest.fixture(scope="session")
def office_without_extension(tmp_path_factory):
    with office_class()(tmp_path_factory.mktemp("bare_profile")) as office:
        yield office


@pytest.fixture
def book(office):
    """A new document."""
    new = office.new()
    yield new
    office.close(new)


@pytest.fixture
def sheet(book):
    """An empty sheet of a new document."""
    return book.Sheets.getByIndex(0)
