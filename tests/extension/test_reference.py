"""The README's table of functions is the one that the declarations give, and its examples work."""

import re
from pathlib import Path

import pytest
from loftsheet import CALCS, command

from extension import reference

README = Path(__file__).resolve().parents[2] / "README.md"
EXAMPLES = re.findall(r"`=(RIG[.A-Z]+)\(([^)`]*)\)`", README.read_text(encoding="utf-8"))


def test_the_table_in_the_readme_is_fresh():
    assert reference.table() in README.read_text(encoding="utf-8")


def test_the_table_holds_every_function():
    assert all(f"| `{calc.usage()}` |" in reference.table() for calc in CALCS.values())


def test_there_are_a_dozen_examples_for_every_day():
    assert len(EXAMPLES) >= 12


@pytest.mark.parametrize(("name", "arguments"), EXAMPLES)
def test_an_example_of_the_readme_gives_a_result(name, arguments):
    words = [word.strip().strip('"').replace("A1", "9.525") for word in arguments.split(";")]
    answer, code = command.call([name, *words])
    assert code == 0, answer
