"""What each column and each named cell of the schedule means, as it was declared when the extension was built."""

import json
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Optional

from loftsheet.measure import example

FILE = Path(__file__).with_name("columns.json")


@dataclass(frozen=True)
class Column:
    """One column of a table, or one named cell."""

    place: str
    table: str
    title: str
    unit: str
    help: str
    kind: str
    listed_in: str  # the named range from which it is picked
    measure: str
    least: Optional[float]
    most: Optional[float]
    required: bool
    words: "list[str]"  # to pick from, where they are no names of another table

    @property
    def is_input(self) -> bool:
        return self.kind != "calculated"

    def description(self) -> str:
        """Title and unit, what it is, and what may be typed."""
        named = f"{self.title}, {self.unit}" if self.unit else self.title
        said = f"{named}: {self.help}." if self.help else f"{named}."
        return f"{said} {self.typed()}".rstrip()

    def typed(self) -> str:
        """What is expected from the user, in words."""
        if not self.is_input:
            return "It is calculated; never type over it."
        if self.kind == "choice":
            return "You pick it from its list."
        if self.kind == "date":
            return "You type a date."
        if self.kind == "text":
            return "You type it, in your own words."
        limits = "" if self.least is None else f" from {self.least:g} to {self.most:g}"
        unit = f" {self.unit}" if self.unit else ""
        such = example(self.measure, self.most or 0.0) if self.measure == "mm" else ""
        with_unit = f', or a text with its unit, such as "{such}"' if such else ""
        return f"You type a number{limits}{unit}{with_unit}."


@cache
def all_columns() -> "dict[str, Column]":
    """Every column and named cell, by the named range it belongs to."""
    return {name: Column(**column) for name, column in json.loads(FILE.read_text(encoding="utf-8")).items()}


def titles_of_tables() -> "dict[str, str]":
    """The title of each table, by its key, in the order of the sheets."""
    found: dict[str, str] = {}
    for column in all_columns().values():
        if column.table:
            found.setdefault(column.table, column.place)
    return found
