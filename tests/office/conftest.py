"""The schedule of the demo boat: made once for each state of the sources, opened anew for each test."""

import shutil
from pathlib import Path

import pytest


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


@pytest.fixture
def demo(office, demo_file):
    """The schedule of the demo boat, for one test to change as it likes."""
    book = office.load(demo_file)
    office.recalculate(book)
    yield book
    office.close(book)
