"""A row of the schedule as typed: its input cells, read strictly."""

import math
import re
from calendar import monthrange
from datetime import date, timedelta
from types import MappingProxyType

from loftsheet import measure
from loftsheet.errors import BadInput, CellError, NoSolution, NotInTable

DAY_ZERO = date(1899, 12, 30)


class Wrong(ValueError):
    """An input cell holds nothing that a result could be made of."""


REFUSALS = (Wrong, BadInput, NoSolution, NotInTable, ZeroDivisionError)


class Kept:
    """A property of a row that is worked out once, even if it refuses."""

    def __init__(self, name, worked_out):
        self.name, self.worked_out = name, worked_out

    def __get__(self, row, kind=None):
        if row is None:
            return self
        if self.name not in row.kept:
            try:
                row.kept[self.name] = self.worked_out(row), None
            except REFUSALS as refused:
                row.kept[self.name] = None, refused
        result, refused = row.kept[self.name]
        if refused:
            raise refused
        return result


class Row:
    """One row: its inputs as typed, and a property for each calculated column.

    An input that may stay blank has a function for what is used then, and a property `<key>_used`.
    """

    defaults = MappingProxyType({})

    def __init_subclass__(cls):
        for key in cls.defaults:
            if not hasattr(cls, f"{key}_used"):
                setattr(cls, f"{key}_used", property(lambda row, key=key: row.given(key)))
        for name, held in list(vars(cls).items()):
            if isinstance(held, property):
                setattr(cls, name, Kept(name, held.fget))

    def __init__(self, schedule, typed):
        self.schedule, self.typed, self.kept = schedule, typed, {}

    @property
    def boat(self):
        return self.schedule.boat

    def has(self, key):
        return self.typed.get(key) is not None

    def given(self, key):
        held = self.typed.get(key)
        if held is None and key in self.defaults:
            return self.defaults[key](self)
        if held is None:
            raise Wrong(f"{key} is blank")
        if isinstance(held, CellError):
            raise Wrong(f"{key} is an error")
        return held

    def number(self, key):
        held = self.given(key)
        if isinstance(held, str):
            raise Wrong(f"{key} is a text")
        return held

    def measure(self, key, unit):
        held = self.given(key)
        return measure.read_in(held, unit) if isinstance(held, str) else held

    def text(self, key):
        held = self.given(key)
        if not isinstance(held, str):
            raise Wrong(f"{key} is no text")
        return held

    def unproven_by(self, *statuses):
        """What a figure rests on where it is none of these; blank if it is one."""
        if not self.has("status"):
            return "of no status"
        if self.says("status", "certificate") and self.has("source"):
            denied = re.search("invented|from memory|assumed", self.text("source").lower())
            if denied:
                return denied.group()
        return "" if any(self.says("status", status) for status in statuses) else self.given("status")

    def says(self, key, word):
        """Whether a cell holds that word, or comes to it; a blank does not."""
        return (self.has(key) or key in self.defaults) and same_text(self.text(key), word)

    def own_or(self, key, default, unit=None):
        if not self.has(key):
            return default() if callable(default) else default
        return self.measure(key, unit) if unit else self.given(key)

    def find(self, table, name):
        return self.schedule.row(table, name)


def stub_of(schedule, stay):
    """The stub that names a stay, be it as the outer one."""
    for column in ("stay", "stay_2"):
        for stub in schedule.rows("tangs"):
            if said_as(stub.typed.get(column), stay):
                return stub
    raise Wrong(f"no stub names {stay}")


def listed(figures):
    """In words: the names of those whose figures rest on no certificate; (name, item) in turn."""
    return ", ".join(name for name, item in figures if item.unproven)


def same_text(one, other):
    return one.casefold() == other.casefold()


def said_as(held, text):
    """Whether a cell holds that text, in whatever capitals."""
    return isinstance(held, str) and isinstance(text, str) and same_text(held, text)


def up_to_step(value, step):
    return math.ceil(round(value / step, 9)) * step


def down_to_step(value, step):
    return math.floor(round(value / step, 9)) * step


def same_day(start, months):
    """The day of the month that many months later, or the last of a shorter month."""
    day = DAY_ZERO + timedelta(days=int(start))
    year, month = divmod(day.year * 12 + day.month - 1 + int(months), 12)
    last = monthrange(year, month + 1)[1]
    return float((date(year, month + 1, min(day.day, last)) - DAY_ZERO).days)
