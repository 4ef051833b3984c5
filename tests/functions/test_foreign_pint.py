"""A pint that something else loaded first: refused in words unless it was tried, and plain numbers go on."""

import sys
import types

import pytest
from loftsheet import CALCS, measure
from loftsheet.errors import BadInput
from loftsheet.trace import working

CACHES = (measure.read, measure._registry, measure._conversion)


def clear():
    for cached in CACHES:
        cached.cache_clear()


@pytest.fixture
def foreign(monkeypatch):
    """Put a module in the place of pint, as if it had been loaded before."""

    def load(**contents):
        module = types.ModuleType("pint")
        vars(module).update(contents)
        monkeypatch.setitem(sys.modules, "pint", module)
        clear()

    yield load
    clear()


def fails(**_):
    raise RuntimeError("no definitions")


FOREIGN = {
    "older": ({"__version__": "0.9", "__file__": "elsewhere/pint"}, "0.9 was found, from elsewhere/pint"),
    "somewhat older": ({"__version__": "0.23.1"}, "0.23.1 was found"),
    "newer": ({"__version__": "1.0"}, "1.0 was found"),
    "without a version": ({}, "is broken"),
    "that cannot start": ({"__version__": "0.24.4", "UnitRegistry": fails}, "no definitions"),
    "without units": ({"__version__": "0.24.4"}, "the one found fails"),
}


@pytest.mark.parametrize("kind", FOREIGN)
def test_a_foreign_one_is_refused_with_what_is_needed_what_was_found_and_what_to_do(foreign, kind):
    contents, found = FOREIGN[kind]
    foreign(**contents)
    with pytest.raises(BadInput) as refused:
        measure.read("10 mm", measure.LENGTH)
    said = str(refused.value)
    assert "need pint 0.24 or 0.25" in said
    assert found in said
    assert "type plain numbers" in said


@pytest.mark.parametrize("kind", FOREIGN)
def test_plain_numbers_go_on(foreign, kind):
    foreign(**FOREIGN[kind][0])
    assert CALCS["RIG.BURY"].call(10.0) == 720.0


def test_the_working_says_it(foreign):
    foreign(**FOREIGN["older"][0])
    assert "0.9 was found" in working(CALCS["RIG.BURY"], ["10 mm"])


def test_nothing_of_it_is_remembered(foreign, monkeypatch):
    foreign(**FOREIGN["older"][0])
    with pytest.raises(BadInput):
        measure.read("10 mm", measure.LENGTH)
    monkeypatch.undo()
    assert measure.read("10 mm", measure.LENGTH) == 10.0


@pytest.mark.parametrize(("version", "used"), [("0.25.3", True), ("0.26", False), ("0.240", False)])
def test_one_that_was_tried_is_used(monkeypatch, version, used):
    monkeypatch.setattr("pint.__version__", version)
    clear()
    if used:
        assert measure.read("1 in", measure.LENGTH) == 25.4
    else:
        with pytest.raises(BadInput, match=version):
            measure.read("1 in", measure.LENGTH)


def test_a_missing_one_is_not_called_foreign(monkeypatch):
    """The terminal sets the machine up when it is missing."""
    monkeypatch.setitem(sys.modules, "pint", None)
    clear()
    with pytest.raises(ModuleNotFoundError):
        measure.read("10 mm", measure.LENGTH)
