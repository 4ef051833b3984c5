"""A run writes itself into the README only when it was whole, green, and on no build server."""

import os
import platform
import subprocess
import sys

import pytest

from extension.setup_machine import ROOT
from tests import runs

MARKS = f"# Some project\n\n{runs.BEGIN}{runs.END}\n\nmore\n"
TESTS = "import pytest\n\ndef test_one(): pass\n\ndef test_two(): pytest.skip('no need')\n"


@pytest.fixture
def project(tmp_path):
    """A project whose tests are two, one of them skipped."""
    (tmp_path / "README.md").write_text(MARKS)
    (tmp_path / "pyproject.toml").write_text('[tool.pytest.ini_options]\ntestpaths = ["checks"]\n')
    (tmp_path / "checks").mkdir()
    (tmp_path / "checks/conftest.py").write_text("from tests.runs import pytest_sessionfinish\n")
    (tmp_path / "checks/test_it.py").write_text(TESTS)
    return tmp_path


def pytest_in(project, *words, **more):
    environment = {**os.environ, "PYTHONPATH": f"{ROOT}:{ROOT / 'functions'}", "CI": "", **more}
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", *words]
    subprocess.run(command, cwd=project, env=environment, capture_output=True, check=False, timeout=120)
    return (project / "README.md").read_text()


def test_a_whole_green_run_is_noted_once(project):
    pytest_in(project)
    text = pytest_in(project)
    lines = [line for line in text.splitlines() if line.startswith("| ")]
    assert lines[0].startswith("| system | office | Python |")
    assert len(lines) == 2
    system, office, python, _, tests, _ = runs.cells(lines[1])
    assert (office, python) == (runs.CALCULATIONS, platform.python_version())
    assert tests.startswith("1 passed, 1 skipped")
    assert system
    assert text.startswith("# Some project\n") and text.endswith("\nmore\n")


@pytest.mark.parametrize(
    "words", [("-k", "one"), ("checks",), ("checks/test_it.py",), ("-m", "office"), ("--co",)]
)
def test_a_part_of_it_is_not(project, words):
    assert pytest_in(project, *words) == MARKS


def test_a_run_with_a_failure_is_not(project):
    (project / "checks/test_it.py").write_text(f"{TESTS}\ndef test_three(): assert False\n")
    assert pytest_in(project) == MARKS


def test_a_run_on_a_build_server_is_not(project):
    assert pytest_in(project, CI="true") == MARKS


def test_a_line_gives_way_only_to_one_of_the_same_system_office_and_python(tmp_path):
    readme = tmp_path / "README.md"
    readme.write_text(MARKS)
    for key, tests in ((("b", "1", "3"), "old"), (("a", "1", "3"), "kept"), (("b", "1", "3"), "new")):
        runs.note(readme, key, ("0.24", tests, "today"))
    rows = [line for line in readme.read_text().splitlines() if line.startswith("| ")][1:]
    assert rows == ["| a | 1 | 3 | 0.24 | kept | today |", "| b | 1 | 3 | 0.24 | new | today |"]


def test_the_readme_has_the_marks():
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    assert text.count(runs.BEGIN) == text.count(runs.END) == 1
