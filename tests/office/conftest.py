"""The schedule of the demo boat: made once for each state of the sources, opened anew for each test."""

import shutil
from pathlib import Path

import pytest

from tests import inside
from tests.inside import all_cells


@pytest.fixture(scope="session")
def demo_file(running_office, tmp_path_factory):
    from templates.boats import marrowick

    return written(running_office, tmp_path_factory, marrowick)


@pytest.fixture(scope="session")
def second_demo_file(running_office, tmp_path_factory):
    from templates.boats import sandlebee

    return written(running_office, tmp_path_factory, sandlebee)


def written(office, tmp_path_factory, boat):
    from extension import commands, template

    path = tmp_path_factory.mktemp("demo") / f"{boat.BOAT['name']}.ods"
    return Path(shutil.copy(template.of_boat(office, boat, commands.sources()), path))


class Shared:
    """One open schedule for many tests; opened anew when a test left its mark on it."""

    def __init__(self, office, path):
        self.office, self.path, self.book = office, path, None

    def open(self):
        if self.book is None:
            self.book = self.office.load(self.path)
            self.office.recalculate(self.book)
            self.book.setModified(False)
        return self.book

    def close_if_modified(self):
        """A test that only reads or writes a copy leaves it as it was."""
        if self.book.isModified():
            self.close()

    def close(self):
        if self.book is not None:
            self.office.close(self.book)
        self.book = None

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.close()


class PutBack(Shared):
    """A test may change it that puts back what it typed: what its cells hold is compared."""

    def open(self):
        if self.book is None:
            super().open()
            self.before = self.contents()
        return self.book

    def close_if_changed(self):
        if self.contents() != self.before:
            self.close()

    def contents(self):
        return inside.run(self.office, all_cells.contents, self.book)


@pytest.fixture(scope="session")
def unmodified_demo(running_office, demo_file):
    with Shared(running_office, demo_file) as shared:
        yield shared


@pytest.fixture
def demo(office, unmodified_demo):
    """The schedule of the demo boat, for one test to change as it likes."""
    yield unmodified_demo.open()
    unmodified_demo.close_if_modified()


@pytest.fixture(scope="module")
def one_demo(running_office, demo_file):
    with PutBack(running_office, demo_file) as shared:
        yield shared


@pytest.fixture
def shared_demo(office, one_demo):
    """The schedule of the demo boat, for a test that puts back what it types: quicker than one of its own."""
    yield one_demo.open()
    one_demo.close_if_changed()
