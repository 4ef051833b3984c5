"""The README's table of functions is the one that the declarations give, and its examples work."""

import re
from pathlib import Path

import pytest
from loftsheet import CALCS, command

from extension import reference

README = Path(__file__).resolve().parents[2] / "README.md"
EXAMPLES = re.findall(r"`=(RIG[.A-Z]+)\(([^)`]*)\)`", README.read_text(encoding="utf-8"))
EVERY_DAY = re.findall(r"`=(RIG[.A-Z]+)\(([^)`]*)\)` \| ([^|]+) \|", README.read_text(encoding="utf-8"))


def test_the_table_in_the_readme_is_fresh():
    assert reference.table() in README.read_text(encoding="utf-8")


def test_the_table_holds_every_function():
    assert all(f"| `{calc.usage()}` |" in reference.table() for calc in CALCS.values())


def test_there_are_a_dozen_examples_for_every_day():
    assert len(EXAMPLES) >= 12


@pytest.mark.parametrize(("name", "arguments"), EXAMPLES)
def test_an_example_of_the_readme_gives_a_result(name, arguments):
    answer, code = command.call([name, *given(arguments)])
    assert code == 0, answer


def given(arguments):
    return [word.strip().strip('"').replace("A1", "9.525") for word in arguments.split(";")]


def test_every_day_s_examples_give_what_stands_beside_them():
    """To the digits shown."""
    assert len(EVERY_DAY) >= 12
    for name, arguments, due in EVERY_DAY:
        answer, _ = command.call([name, *given(arguments)])
        if re.fullmatch(r"[0-9.]+", due):
            answer = f"{float(answer):.{len(due.partition('.')[2])}f}"
        assert answer == due, name
