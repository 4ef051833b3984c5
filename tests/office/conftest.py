"""The schedule of the demo boat: made once for each state of the sources, opened once for many tests."""

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


@pytest.fixture(scope="session")
def shared_by_all(running_office, demo_file):
    from tests.office.opened_once import Shared

    with Shared(running_office, demo_file) as shared:
        yield shared


@pytest.fixture
def demo(office, shared_by_all):
    """The schedule of the demo boat, for one test to change as it likes."""
    yield shared_by_all.open()
    shared_by_all.put_back()


@pytest.fixture(scope="module")
def one_demo(running_office, demo_file):
    from tests.office.opened_once import PutBack

    with PutBack(running_office, demo_file) as shared:
        yield shared


@pytest.fixture
def shared_demo(office, one_demo):
    """The schedule of the demo boat, for a test that puts back what it types: quicker than one of its own."""
    yield one_demo.open()
    one_demo.close_if_changed()
