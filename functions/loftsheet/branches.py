"""Which branches of a formula Calc took, and what its parts come to, as far as the office is not needed for it.

Where a condition cannot be worked out, all its branches are kept.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from math import ceil, cos, floor, isclose, radians
from operator import is_
from typing import Any

from loftsheet.errors import CellError
from loftsheet.formula import Node
from loftsheet.trace import UNKNOWN

NOT_TAKEN = Node("missing", "")
SAME = 2.0**-48  # two numbers so near are equal to Calc
CATCHING = frozenset(("IFERROR", "IFNA", "ISERROR", "ISERR", "ISNA", "ISNUMBER", "ISTEXT", "ERROR.TYPE"))
COMPARISONS = ("=", "<>", "<", ">", "<=", ">=")
ORDER = (COMPARISONS, ("&",), ("+", "-"), ("*", "/"))  # of operators, the last of them bind most
PATTERN = re.compile(r"[*?~\\[({^$|+]")

Valued = Callable[[Node], Any]  # what a reference or a call of ours comes to


def taken(node: Node, valued: Valued) -> Node:
    """The formula without the branches that were not taken."""
    parts = tuple(taken(part, valued) for part in _kept(node, valued))
    return node if all(map(is_, parts, node.parts)) else replace(node, parts=parts)


def _kept(node: Node, valued: Valued) -> "tuple[Node, ...]":
    """The parts of a formula's part, each of a branch that was not taken replaced."""
    parts = node.parts
    if node.function == "IF" and len(parts) > 1:
        condition = worth(parts[0], valued)
        if condition is not UNKNOWN:
            chosen = 0 if isinstance(condition, CellError) else 1 if condition else 2
            return tuple(part if at in (0, chosen) else NOT_TAKEN for at, part in enumerate(parts))
    elif node.function == "IFERROR" and len(parts) > 1:
        first = worth(parts[0], valued)
        if first is not UNKNOWN and not isinstance(first, CellError):
            return (parts[0], NOT_TAKEN)
    return parts


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
    return _operated(_marks_joined(node.parts), valued)


def _plain(value: Any) -> Any:
    return UNKNOWN if isinstance(value, (tuple, list)) else value


def _marks_joined(parts: "Sequence[Node]") -> "list[Node]":
    """Operands and operators in turn: a mark of two signs, such as <=, is one operator."""
    joined: list[Node] = []
    for part in parts:
        if joined and _is_mark(part) and _is_mark(joined[-1]) and joined[-1].written + part.written in COMPARISONS:
            joined[-1] = replace(part, written=joined[-1].written + part.written)
        else:
            joined.append(part)
    return joined


def _is_mark(part: Node) -> bool:
    return part.kind == "other" and not part.parts and not part.function


def _operated(parts: "Sequence[Node]", valued: Valued) -> Any:
    """What operands come to with the operators between them; powers and signs are left to the office."""
    if len(parts) == 1:
        return UNKNOWN if _is_mark(parts[0]) else worth(parts[0], valued)
    for level in ORDER:
        at = next((at for at in range(len(parts) - 2, 0, -1) if parts[at].written in level), 0)
        if at and _is_mark(parts[at]):
            left, right = _operated(parts[:at], valued), _operated(parts[at + 1 :], valued)
            wrong = next((side for side in (left, right) if side is UNKNOWN or isinstance(side, CellError)), None)
            return _of_two(left, parts[at].written, right) if wrong is None else wrong
    return UNKNOWN


def _of_two(left: Any, mark: str, right: Any) -> Any:
    if mark in COMPARISONS:
        return _holds(left, mark, right)
    if mark == "&":
        return (
            UNKNOWN
            if isinstance(left, (bool, float)) or isinstance(right, (bool, float))
            else (left or "") + (right or "")
        )
    if isinstance(left, str) or isinstance(right, str):
        return UNKNOWN  # what a text counts for, the document's settings say
    one, other = float(left or 0.0), float(right or 0.0)
    if mark in "+-":
        other = other if mark == "+" else -other
        return 0.0 if isclose(one, -other, rel_tol=SAME) else one + other
    if mark == "*":
        return one * other
    return one / other if other else CellError(532, "#DIV/0!")


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
    if function == "AVERAGE" and len(values) == 1:
        return CellError(532, "#DIV/0!") if values[0] is None or isinstance(values[0], str) else values[0]
    if function == "IFERROR" and len(values) == 2:
        return values[1] if isinstance(values[0], CellError) else values[0]
    wrong = [value for value in values if isinstance(value, CellError)]
    if function in NUMBERS and all(
        isinstance(value, float) for value in values if not isinstance(value, CellError)
    ):
        takes, counted = NUMBERS[function]
        known = not wrong and len(values) in takes
        return counted(*values) if known else wrong[0] if wrong else UNKNOWN
    if function not in ("AND", "OR", "NOT") or not values:
        return UNKNOWN
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


def _to_step(whole: "Callable[[float], int]") -> "Callable[[float, float], Any]":
    """A positive number up or down to whole steps; one that is so already, but for its last digits, stays."""

    def stepped(number: float, step: float) -> Any:
        if number < 0 or step <= 0:
            return UNKNOWN
        steps = number / step
        return step * (round(steps) if isclose(steps, round(steps), rel_tol=SAME) else whole(steps))

    return stepped


ANY = range(1, 1000)
# How many numbers each takes, and what it makes of them.
NUMBERS: "dict[str, tuple[Sequence[int], Callable[..., Any]]]" = {
    "MAX": (ANY, lambda *values: max(values)),
    "MIN": (ANY, lambda *values: min(values)),
    "ABS": ((1,), abs),
    "RADIANS": ((1,), radians),
    "COS": ((1,), cos),
    "CEILING": ((2,), _to_step(ceil)),
    "FLOOR": ((2,), _to_step(floor)),
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
