"""The tests of functions/ notice small changes in it; the changes themselves are tested here on a few lines."""

import os
import subprocess
import sys

import pytest

from tests.mutants import report
from tests.mutants.changes import mutants
from tests.mutants.judge import ROOT, files
from tests.office.dice import throw

SAMPLE = 300
LINES = """
LIMIT = 2.5
def f(a, b=3, c=True):
    assert a > 0
    if not a < b <= LIMIT and a is not None:
        raise ValueError("text")
    return -min(a, b) ** 2 if a else b // 4
def k(a):
    def within():
        return a
    return within()
class G:
    def h(self) -> "Tuple[1]":
        return self.x in (1, 2)
"""


def changed(source):
    """The function and the change of every mutant, with the statement in which it is."""
    return {(mutant.function, mutant.key.split(": ", 1)[1]) for mutant in mutants("some", source)}


def test_what_is_changed():
    found = changed(LINES)
    for due in [
        ("", "2.5 → 3.5"),
        ("", "2.5 → 2.25"),
        ("", "3 → 4"),
        ("", "True → False"),
        ("f", "a < b <= LIMIT → a <= b <= LIMIT"),
        ("f", "a < b <= LIMIT → a < b < LIMIT"),
        ("f", "not a < b <= LIMIT and a is not None → not a < b <= LIMIT or a is not None"),
        ("f", "a is not None → a is None"),
        ("f", "min → max"),
        ("f", "min(a, b) ** 2 → min(a, b) * 2"),
        ("f", "b // 4 → b * 4"),
        ("f", "-min(a, b) ** 2 → +min(a, b) ** 2"),
        ("k", "return a → return None"),
        ("G.h", "1 → 2"),
        ("G.h", "return self.x in (1, 2) → return None"),
    ]:
        assert any(place == due[0] and change.startswith(due[1]) for place, change in found), due


def test_texts_annotations_and_assertions_are_left():
    found = " ".join(change for _, change in changed(LINES))
    for left in ("'TEXT'", "Tuple", "a >= 0", "a > 1"):
        assert left not in found


def test_a_mutant_is_compiled_and_the_next_one_starts_from_the_source():
    values = []
    for mutant in mutants("some", "X = 1 + 2\n"):
        space = {}
        exec(mutant.code(), space)
        values.append(space["X"])
    assert values == [-1, 4, 2, 4, 2]


@pytest.mark.parametrize("module", report.MODULES)
def test_each_module_has_tests_of_its_own(module):
    assert all(os.path.exists(file) for file in files(module))


@pytest.mark.skipif(sys.version_info < (3, 11), reason="older Pythons write the same lines with other brackets")
def test_what_is_called_equivalent_is_still_there():
    every = {mutant.key for mutant in report.choose(report.MODULES, None, 0, equivalent=True)}
    assert set(report.EQUIVALENT) <= every, set(report.EQUIVALENT) - every
    assert all(report.EQUIVALENT.values()), "each with its reason"


@pytest.mark.long
@pytest.mark.skipif(not hasattr(os, "fork"), reason="mutants are tried in forked processes")
def test_nineteen_of_twenty_mutants_are_noticed(request):
    seed = str(throw(request.config).randrange(10**6))
    command = [sys.executable, "-m", "tests.mutants", "--sample", str(SAMPLE), "--seed", seed]
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join([str(ROOT / "functions"), str(ROOT)])}
    done = subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, text=True)
    assert done.returncode == 0, f"{' '.join(command)}\n{done.stdout}\n{done.stderr}"
