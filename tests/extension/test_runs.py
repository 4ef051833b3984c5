"""A run prints its line for the README only when it was whole and green, and writes nothing."""

import os
import platform
import subprocess
import sys
from datetime import date

import pytest

from extension.setup_machine import ROOT
from tests import runs

TESTS = "import pytest\n\ndef test_one(): pass\n\ndef test_two(): pytest.skip('no need')\n"


@pytest.fixture
def project(tmp_path):
    """A project whose tests are two, one of them skipped."""
    (tmp_path / "pyproject.toml").write_text('[tool.pytest.ini_options]\ntestpaths = ["checks"]\n')
    (tmp_path / "checks").mkdir()
    (tmp_path / "checks/conftest.py").write_text("from tests.runs import pytest_terminal_summary\n")
    (tmp_path / "checks/test_it.py").write_text(TESTS)
    return tmp_path


def printed(project, *words):
    """The lines of the run that belong into a table, and its last one."""
    environment = {**os.environ, "PYTHONPATH": f"{ROOT}:{ROOT / 'functions'}"}
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", *words]
    done = subprocess.run(
        command, cwd=project, env=environment, capture_output=True, text=True, check=False, timeout=120
    )
    lines = done.stdout.splitlines()
    return [line for line in lines if line.startswith("| ")], lines[-1]


@pytest.mark.parametrize("words", [(), ("-n", "2")])
def test_a_whole_green_run_prints_its_line_and_ends_as_pytest_does(project, words):
    (line,), last = printed(project, *words)
    system, office, python, pint, tests, day = line.strip("| ").split(" | ")
    assert (office, python) == (runs.CALCULATIONS, platform.python_version())
    assert (pint, tests, day) == (runs.pint_version(), "1 passed, 1 skipped", date.today().isoformat())
    assert system
    assert last.startswith("1 passed, 1 skipped in ")


@pytest.mark.parametrize(
    "words", [("-k", "one"), ("checks",), ("checks/test_it.py",), ("-m", "office"), ("--co",)]
)
def test_a_part_of_it_does_not(project, words):
    assert printed(project, *words)[0] == []


def test_a_run_with_a_failure_does_not(project):
    (project / "checks/test_it.py").write_text(f"{TESTS}\ndef test_three(): assert False\n")
    assert printed(project)[0] == []


def test_the_line_has_the_columns_of_the_table_in_the_readme():
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    assert text.count(f"{runs.HEAD}\n") == 1
    assert runs.line({}).count(" | ") == runs.HEAD.count(" | ")
