"""The working of a cell: how it comes to what it shows, and for an error where it begins."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest
from math import isclose
from typing import Any, Optional, Protocol, Union, runtime_checkable

from loftsheet.branches import CATCHING, taken, worth
from loftsheet.errors import BadInput, CellError, as_cell_error
from loftsheet.formula import Node, for_people, parse
from loftsheet.registry import Argument
from loftsheet.trace import UNKNOWN, run, shown_value, what_stops, working

__all__ = ["CellView", "explain", "origin", "refusal", "worked_out", "working"]

LONGEST_PATH = 100
ITSELF = "RIG.WORKING"
MARKS = str.maketrans("", "", "⟦⟧")  # with them a schedule begins and ends a code


@runtime_checkable
class CellView(Protocol):
    """A cell as its working needs to see it; the office side supplies these."""

    @property
    def address(self) -> str:
        """Where it is, its sheet included."""

    @property
    def formula(self) -> str:
        """As stored, with English names, from its = on; "" where something was typed."""

    @property
    def value(self) -> Union[float, str, None]:
        """What the cell holds, None when it is blank."""

    @property
    def error(self) -> Optional[CellError]: ...

    def resolve(self, name: str) -> "Union[CellView, Sequence[Sequence[CellView]], None]":
        """The cell or rows of cells behind a reference or a name in this cell's formula, None if neither."""


@dataclass(frozen=True)
class Called:
    """A call of ours in a formula: its arguments, how each is written, and what it comes to."""

    node: Node
    given: "tuple[Any, ...]"
    written: "tuple[str, ...]"
    result: Any


def explain(cell: CellView) -> str:
    """Say how a cell comes to what it shows; for an error, where it begins and what is wrong there."""
    if cell.error is None:
        return "\n".join(_cell_lines(cell))
    path, circle = _path(cell)
    origin = path[-1]
    lines = [f"{cell.address} shows {cell.error.words()}."]
    if circle:
        lines.append(f"The cells refer to each other in a circle: {' → '.join(one.address for one in path)}.")
    elif len(path) > LONGEST_PATH + 1:
        lines.append(f"It comes from further than {LONGEST_PATH} cells away; explain {origin.address} next.")
    elif len(path) > 1:
        between = ", ".join(one.address for one in path[-2:0:-1])
        lines.append(f"The error begins in {origin.address}{f' and comes by {between}' if between else ''}.")
    else:
        lines.append("The error begins here.")
    return "\n".join([*lines, *_cell_lines(origin)])


def refusal(cell: CellView) -> str:
    """Why a cell is an error, in one line, in the words of the function that refused; "" where it is none."""
    if cell.error is None:
        return ""
    begins = origin(cell)
    shown = begins.error or cell.error
    said = (_refused(node, begins) for node in worked_out(begins).inside() if node.calc)
    words = next(filter(None, said), f"{begins.address} shows {shown.words()}")
    return " ".join(words.translate(MARKS).split())  # a text that was typed may hold line breaks


def origin(cell: CellView) -> CellView:
    """The cell in which the error of a cell begins; the cell itself where it has none."""
    return cell if cell.error is None else _path(cell)[0][-1]


def _path(cell: CellView) -> "tuple[list[CellView], bool]":
    """The cells from one with an error to the one where it begins, and whether they run in a circle."""
    path = [cell]
    while len(path) <= LONGEST_PATH + 1:
        before = _wrong_precedent(path[-1])
        if before is None:
            return path, False
        path.append(before)
        if before.address in [one.address for one in path[:-1]]:
            return path, True
    return path, False


def _wrong_precedent(cell: CellView) -> Optional[CellView]:
    """A cell with an error that this one uses: with the same error, or else any."""
    other = None
    for one in _precedents(cell):
        if one.error == cell.error:
            return one
        if other is None and one.error is not None:
            other = one
    return other


def _precedents(cell: CellView) -> "Iterator[CellView]":
    for node in worked_out(cell).inside():
        if node.kind == "reference":
            found = cell.resolve(node.written)
            if isinstance(found, Sequence):
                yield from (one for row in found for one in row)
            elif found is not None:
                yield found


def _parsed(cell: CellView) -> Node:
    try:
        return parse(cell.formula)
    except BadInput:
        return Node("other", cell.formula)


def worked_out(cell: CellView) -> Node:
    """The formula of a cell without the branches of conditions that were not taken."""
    return taken(_parsed(cell), lambda node: _of_condition(node, cell))


def _of_condition(node: Node, cell: CellView) -> Any:
    """What a reference or a call in a condition comes to; a blank cell is None, a range its rows."""
    if node.kind == "call":
        return _called(node, cell).result
    found = cell.resolve(node.written) if node.kind == "reference" else None
    if found is None:
        return UNKNOWN
    if isinstance(found, Sequence):
        return tuple(tuple(_content(one, None) for one in row) for row in found)
    return _content(found, None)


def _cell_lines(cell: CellView) -> "list[str]":
    held = cell.error.words() if cell.error else shown_value(cell.value)
    if not cell.formula:
        return [f"{cell.address} is blank." if cell.value is None else f"{cell.address}: {held} was typed in."]
    lines = [f"{cell.address}: {for_people(cell.formula)}", f"shows {held}"]
    tree = worked_out(cell)
    if any(node.calc and node.calc.name == ITSELF for node in tree.inside()):
        return [*lines, f"{ITSELF} gives the working of the cell it names; explain that cell."]
    calls = [
        call for call in (_called(node, cell) for node in _outermost(tree)) if not _passed_by(call, tree, cell)
    ]
    agreeing = [call for call in calls if _agrees(call.result, cell)]
    if not any(node.calc for node in _parsed(cell).inside()):
        return [*lines, "The formula uses none of this extension's functions."]
    if cell.value == "" and not agreeing and tree.kind != "call":
        return [*lines, "A condition in the formula leaves the cell empty."]
    if not calls:
        return [*lines, "By a condition in the formula none of this extension's functions is used here."]
    for call in agreeing or calls:
        for part in call.node.inside():
            if part.calc:
                inner = call if part is call.node else _called(part, cell)
                lines += ["", working(part.calc, inner.given, inner.written)]
    return lines


def _outermost(node: Node) -> "Iterator[Node]":
    """Our calls that stand in no other of ours."""
    if node.calc:
        yield node
    else:
        for part in node.parts:
            yield from _outermost(part)


def _passed_by(call: Called, tree: Node, cell: CellView) -> bool:
    """Whether a refusal cannot have been met: the cell shows a value and its formula catches none."""
    caught = any(node.function in CATCHING for node in tree.inside())
    return isinstance(call.result, CellError) and cell.error is None and not caught


def _agrees(result: Any, cell: CellView) -> bool:
    """Whether a call comes to what the cell shows: so does the branch of a condition that was taken."""
    if isinstance(result, float) and isinstance(cell.value, float) and cell.error is None:
        return isclose(result, cell.value, rel_tol=1e-9)
    return bool(result == (cell.error or cell.value))


def _refused(node: Node, cell: CellView) -> str:
    """What one of our functions says where it refuses, "" where it does not or cannot be computed here."""
    assert node.calc
    given = _given(node, cell)
    outcome = None if what_stops(node.calc, given) else run(node.calc, given)
    return str(outcome.refused) if outcome and outcome.refused else ""


def _given(node: Node, cell: CellView) -> "tuple[Any, ...]":
    assert node.calc
    known = node.calc.arguments[: len(node.parts)]
    return tuple(_value(part, argument, cell) for part, argument in zip_longest(node.parts, known))


def _called(node: Node, cell: CellView) -> Called:
    assert node.calc
    given = _given(node, cell)
    written = tuple(_written(part, cell) for part in node.parts)
    if what_stops(node.calc, given):
        wrong = [value for value in given if isinstance(value, CellError)]
        return Called(node, given, written, wrong[0] if wrong else UNKNOWN)
    outcome = run(node.calc, given)
    return Called(node, given, written, as_cell_error(outcome.refused) if outcome.refused else outcome.result)


def _value(node: Node, argument: Optional[Argument], cell: CellView) -> Any:
    """What an argument is worth, as far as that can be known without the office."""
    if node.kind == "call":
        return _called(node, cell).result
    if node.kind == "other":
        value = worth(node, lambda part: _of_condition(part, cell))
        return 0.0 if value is None else float(value) if isinstance(value, bool) else value
    if node.kind != "reference":
        return node.value
    found = cell.resolve(node.written)
    if found is None:
        return UNKNOWN
    if isinstance(found, Sequence):
        rows = tuple(tuple(_content(one, "") for one in row) for row in found)
        return next((one for row in rows for one in row if isinstance(one, CellError)), rows)
    # A blank cell reaches a function as 0, and as blank only where the cell itself is asked for.
    return _content(found, None if argument and argument.quantity.form.takes_anything else 0.0)


def _content(cell: Any, blank: Any) -> Any:
    if cell.error:
        return cell.error
    return blank if cell.value is None else cell.value


def _written(node: Node, cell: CellView) -> str:
    if node.kind in ("number", "text"):
        return ""
    found = cell.resolve(node.written) if node.kind == "reference" else None
    blank = found is not None and not isinstance(found, Sequence) and found.value is None and not found.error
    return f"{for_people(node.written)}{' (blank)' if blank else ''}"
