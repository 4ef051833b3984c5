"""Which branches of a formula Calc took: conditions are worked out as far as that can be done without the office.

Where a condition cannot be worked out, all its branches are kept.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from math import isclose
from typing import Any

from loftsheet.errors import CellError
from loftsheet.formula import Node
from loftsheet.trace import UNKNOWN

NOT_TAKEN = Node("missing", "")
SAME = 2.0**-48  # two numbers so near are equal to Calc
CATCHING = frozenset(("IFERROR", "IFNA", "ISERROR", "ISERR", "ISNA", "ISNUMBER", "ISTEXT", "ERROR.TYPE"))
COMPARISONS = ("=", "<>", "<", ">", "<=", ">=")
PATTERN = re.compile(r"[*?~\\[({^$|+]")

Valued = Callable[[Node], Any]  # what a reference or a call of ours comes to


def taken(node: Node, valued: Valued) -> Node:
    """The formula without the branches that were not taken."""
    parts = tuple(taken(part, valued) for part in node.parts)
    if node.function == "IF" and len(parts) > 1:
        condition = worth(node.parts[0], valued)
        if condition is not UNKNOWN:
            chosen = 0 if isinstance(condition, CellError) else 1 if condition else 2
            parts = tuple(part if at in (0, chosen) else NOT_TAKEN for at, part in enumerate(parts))
    elif node.function == "IFERROR" and len(parts) > 1:
        first = worth(node.parts[0], valued)
        if first is not UNKNOWN and not isinstance(first, CellError):
            parts = (parts[0], NOT_TAKEN)
    return replace(node, parts=parts)


def worth(node: Node, valued: Valued) -> Any:
    """What a part of a formula comes to; a blank cell is None; UNKNOWN where only the office can tell."""
    if node.kind in ("number", "text"):
        return node.value
    if node.kind in ("reference", "call"):
        return _plain(valued(node))
    if node.kind == "missing" or node.calc:
        return UNKNOWN
    if node.function:
        return _of_calc(node, valued)
    if len(node.parts) == 1:  # in brackets
        return worth(node.parts[0], valued)
    return _compared(node, valued)


def _plain(value: Any) -> Any:
    return UNKNOWN if isinstance(value, (tuple, list)) else value


def _compared(node: Node, valued: Valued) -> Any:
    """A comparison of two plain values; all other operators are left to the office."""
    marks = [part.written if part.kind == "other" and not part.parts else "" for part in node.parts]
    mark = "".join(marks)
    if mark not in COMPARISONS or marks[0] or marks[-1] or len(node.parts) - len(mark) != 2:
        return UNKNOWN
    left, right = worth(node.parts[0], valued), worth(node.parts[-1], valued)
    for side in (left, right):
        if side is UNKNOWN or isinstance(side, CellError):
            return side
    return _holds(left, mark, right)


def _holds(left: Any, mark: str, right: Any) -> Any:
    left = ("" if isinstance(right, str) else 0.0) if left is None else left
    right = ("" if isinstance(left, str) else 0.0) if right is None else right
    if isinstance(left, str) != isinstance(right, str):
        return mark == "<>" if mark in ("=", "<>") else UNKNOWN
    if isinstance(left, str):
        only_case = (
            left != right and left.casefold() == right.casefold()
        )  # what that is, the document's settings say
        return UNKNOWN if only_case or mark not in ("=", "<>") else (left == right) == (mark == "=")
    same = isclose(left, right, rel_tol=SAME)
    return {
        "=": same,
        "<>": not same,
        "<": not same and left < right,
        ">": not same and left > right,
        "<=": same or left < right,
        ">=": same or left > right,
    }[mark]


def _of_calc(node: Node, valued: Valued) -> Any:
    """What one of Calc's own functions comes to, of those that conditions are made of."""
    if node.function == "IF" and len(node.parts) == 3:
        condition = worth(node.parts[0], valued)
        known = condition is not UNKNOWN and not isinstance(condition, CellError)
        return worth(node.parts[1 if condition else 2], valued) if known else condition
    if node.function == "INDEX" and len(node.parts) == 2:
        return _at(valued(node.parts[0]), worth(node.parts[1], valued))
    if node.function == "MATCH" and len(node.parts) == 3 and node.parts[2].value == 0:
        return _match(worth(node.parts[0], valued), valued(node.parts[1]))
    values = [worth(part, valued) for part in node.parts]
    if any(value is UNKNOWN for value in values):
        return UNKNOWN
    return _simple(node.function, values)


def _simple(function: str, values: Sequence[Any]) -> Any:
    if function in ("TRUE", "FALSE") and not values:
        return function == "TRUE"
    if function == "NA" and not values:
        return CellError(32767, "#N/A")
    if len(values) == 1 and function in TESTS:
        return TESTS[function](values[0])
    if function == "IFERROR" and len(values) == 2:
        return values[1] if isinstance(values[0], CellError) else values[0]
    if function not in ("AND", "OR", "NOT") or not values:
        return UNKNOWN
    wrong = [value for value in values if isinstance(value, CellError)]
    if wrong:
        return wrong[0]
    if any(value is None or isinstance(value, str) for value in values):
        return UNKNOWN
    if function == "NOT":
        return not values[0]
    return all(values) if function == "AND" else any(values)


TESTS: "dict[str, Callable[[Any], bool]]" = {
    "ISBLANK": lambda value: value is None,
    "ISERROR": lambda value: isinstance(value, CellError),
    "ISNA": lambda value: isinstance(value, CellError) and value.code == 32767,
    "ISNUMBER": lambda value: isinstance(value, float),
    "ISTEXT": lambda value: isinstance(value, str),
}


def _match(sought: Any, rows: Any) -> Any:
    """The place in a column of what is equal to a text or a number; patterns are left to the office."""
    if not isinstance(sought, (str, float)) or not isinstance(rows, (tuple, list)):
        return sought if isinstance(sought, CellError) else UNKNOWN
    if isinstance(sought, str) and (not sought or PATTERN.search(sought)):
        return UNKNOWN
    for at, row in enumerate(rows, 1):
        same = _holds(row[0], "=", sought) if len(row) == 1 and type(row[0]) is type(sought) else False
        if same is not False:
            return float(at) if same is True else UNKNOWN
    return CellError(32767, "#N/A")


def _at(rows: Any, place: Any) -> Any:
    if isinstance(place, CellError):
        return place
    fits = isinstance(rows, (tuple, list)) and isinstance(place, float) and 1 <= place <= len(rows)
    return rows[int(place) - 1][0] if fits and len(rows[0]) == 1 else UNKNOWN
