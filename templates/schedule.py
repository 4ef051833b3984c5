"""The words in which the workbook is declared: columns, tables, items and sheets.

A formula is written with `[key]` for the cell of that column in the same row, named ranges as they are, and
`RIG.…` for our functions, semicolons between arguments. Every calculated cell is blank until the row's name
is filled; a table's named ranges are `<table>_<column>`.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, Optional, Union

from loftsheet import CALCS

Choices = Union[str, "tuple[str, ...]"]
READABLE = ("mm", "kN", "kN·m", "g/m", "kg", "MPa", "°", "°C")


@dataclass(frozen=True)
class Column:
    """One column of a table: an input if it has no formula."""

    key: str
    title: str
    unit: str = ""
    help: str = ""
    formula: str = ""
    format: str = ""
    choices: Choices = ()
    least: Optional[float] = None
    most: Optional[float] = None
    required: bool = False
    measure: str = ""
    width: int = 17
    block: str = ""

    @property
    def calculated(self) -> bool:
        return bool(self.formula)

    @property
    def header(self) -> str:
        return f"{self.title}\n{self.unit}" if self.unit else self.title


@dataclass(frozen=True)
class Table:
    """A table of a sheet: its first column is the name, its second the check."""

    key: str
    title: str
    columns: "tuple[Column, ...]"
    rules: "tuple[str, ...]" = ()
    spare: int = 4
    note: str = ""

    def column(self, key: str) -> Column:
        return next(column for column in self.columns if column.key == key)

    def blocks(self) -> "list[tuple[str, list[Column]]]":
        """The columns after name and check, by block in order."""
        blocks: dict[str, list[Column]] = {}
        for column in self.columns[2:]:
            blocks.setdefault(column.block, []).append(column)
        return list(blocks.items())


@dataclass(frozen=True)
class Item:
    """One assumption or result of the Boat sheet, known by the named range `boat_<key>`."""

    key: str
    title: str
    unit: str = ""
    why: str = ""
    value: "Union[str, float, None]" = None
    formula: str = ""
    format: str = "General"
    choices: Choices = ()
    least: Optional[float] = None
    most: Optional[float] = None
    text: bool = False


@dataclass(frozen=True)
class Group:
    """Items of the Boat sheet under one heading."""

    title: str
    items: "tuple[Item, ...]"


@dataclass(frozen=True)
class Sheet:
    """One sheet: its tables from top to bottom, or groups of items, or lines to read."""

    title: str
    purpose: str
    tables: "tuple[Table, ...]" = ()
    groups: "tuple[Group, ...]" = ()
    lines: "tuple[tuple[str, str], ...]" = ()
    landscape: bool = True


def find(table: str, column: str, key: str) -> str:
    """Formula: the cell of another table's column in the row with that name."""
    return f"INDEX({table}_{column};MATCH({key};{table}_name;0))"


def plain(cell: str, unit: str) -> str:
    """Formula: a cell that holds a number or a text with a unit, as a number in that unit."""
    return f'IF(ISTEXT({cell});RIG.READ({cell};"{unit}");{cell})'


def own_or(own: str, default: str, unit: str = "") -> str:
    """Formula: the row's own value where one is typed, else the default."""
    return f'IF({own}="";{default};{plain(own, unit) if unit else own})'


def words(condition: str, text: str) -> str:
    """Rule: these words when the condition holds; an error in the condition is left to the rule on errors."""
    return f'IFERROR(IF({condition};{text};"");"")'


def stored(formula: str) -> str:
    """A formula with our functions by the names that files store."""
    return re.sub(r"RIG(?:\.[A-Z]+)+(?=\()", lambda found: stored_name(found.group()), formula)


def stored_name(name: str) -> str:
    return f"ORG.LOFTSHEET.RIG.{CALCS[name].uno_name.upper()}"


def in_row(formula: str, letters: "dict[str, str]", row: int) -> str:
    """Put the cells of one row in the place of `[key]`."""
    return re.sub(r"\[(\w+)\]", lambda found: f"{letters[found.group(1)]}{row}", formula)


def check_formula(table: Table) -> str:
    """The check of a row: the word OK, or in plain words what is wrong."""
    calculated = [column for column in table.columns[2:] if column.calculated]
    inputs = [column for column in table.columns[2:] if not column.calculated]
    rules = [*_input_rules(inputs), *table.rules, *_name_rules(table), *_error_rule(calculated)]
    unnamed = "+".join(f'([{column.key}]<>"")' for column in inputs)
    empty = f'IF({unnamed or "0"};"a row without a name holds something: name it or empty it";"")'
    said = f'TEXTJOIN("; ";TRUE();{";".join(rules)})'
    return f'IF([name]="";{empty};IF({said}="";"OK";{said}))'


def _name_rules(table: Table) -> "list[str]":
    return [
        f'IF(SUMPRODUCT(({table.key}_name=[name])*1)>1;"the name is there twice";"")',
        'IF(TRIM([name])<>[name];"the name has blanks around or inside it";"")',
        'IF(ISNUMBER([name]);"the name is a number: put a word before it";"")',
        'IF(SUMPRODUCT(ISNUMBER(FIND(MID("*?~";{1;2;3};1);[name]))*1)>0;"the name holds * ? or ~";"")',
    ]


def _input_rules(inputs: Sequence[Column]) -> "list[str]":
    rules = []
    for column in inputs:
        cell, label = f"[{column.key}]", column.title
        if column.required:
            rules.append(f'IF(ISBLANK({cell});"{label} is blank";"")')
        if isinstance(column.choices, str) and column.choices:
            rules.append(
                f'IF({cell}="";"";IF(ISNUMBER(MATCH({cell};{column.choices};0));"";"{label} is not in its list"))'
            )
        elif column.choices:
            known = ";".join(f'{cell}="{choice}"' for choice in column.choices)
            rules.append(f'IF({cell}="";"";IF(OR({known});"";"{label} is not in its list"))')
        elif column.least is not None:
            value = plain(cell, column.measure) if column.measure else cell
            rules.append(_range_rule(cell, value, column))
    return rules


def _range_rule(cell: str, value: str, column: Column) -> str:
    allowed = f"{column.least:g} to {column.most:g}{' ' + column.unit if column.unit else ''}"
    say = f'"{column.title} is not a number of {allowed}"'
    typed = f'IF(ISNUMBER({value});IF(AND({value}>={column.least:g};{value}<={column.most:g});"";{say});{say})'
    return f'IF(ISBLANK({cell});"";IFERROR({typed};{say}))'


def _error_rule(calculated: Sequence[Column]) -> "list[str]":
    """Name every calculated cell of the row that is an error; a number that cannot be had is never passed over."""
    if not calculated:
        return []
    cells = ";".join(f"[{column.key}]" for column in calculated)
    named = ";".join(f'IF(ISERROR([{column.key}]);"{column.title}";"")' for column in calculated)
    return [f'IF(ISERROR(SUM({cells}));"error in: "&TEXTJOIN(", ";TRUE();{named});"")']


def blank_until_named(column: Column) -> str:
    return f'IF([name]="";"";{column.formula})'


def name_and_check(title: str, help: str, check_width: int = 46) -> "tuple[Column, Column]":
    """The first two columns of every table."""
    return (
        Column("name", title, help=help, width=38),
        Column("check", "Check", help="OK, or what is wrong with this row", formula="check", width=check_width),
    )


def number(key: str, title: str, unit: str, least: float, most: float, help: str, **more: Any) -> Column:
    """An input that is a number, or a text with a unit where `unit` is one that RIG.READ knows."""
    measure = more.pop("measure", unit if unit in READABLE else "")
    return Column(key, title, unit, help, least=least, most=most, measure=measure, **more)


def choice(key: str, title: str, choices: Choices, help: str, **more: Any) -> Column:
    """An input out of a list: words, or the named range that holds them."""
    return Column(key, title, help=help, choices=choices, **{"width": 24, **more})


def text(key: str, title: str, help: str, **more: Any) -> Column:
    """An input that is free text."""
    return Column(key, title, help=help, **{"width": 40, "format": "@", **more})


def calculated(key: str, title: str, unit: str, formula: str, help: str, **more: Any) -> Column:
    """A calculated column."""
    return Column(key, title, unit, help, formula, **more)


def block(title: str, *columns: Column) -> "tuple[Column, ...]":
    """Columns under one heading, which are folded and printed together."""
    return tuple(replace(column, block=title) for column in columns)
