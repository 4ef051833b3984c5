"""The working of one call: formula, what was put in, every step, result, limits, source.

The steps are the lines of the function that computed the number and the values are those of that very call, so
that the working cannot drift from the calculation.
"""

import ast
import functools
import inspect
import io
import sys
import textwrap
import tokenize
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest
from types import FrameType
from typing import Any, Optional

from loftsheet.errors import BadInput, CellError, NoSolution, NotInTable
from loftsheet.measure import digits, with_unit
from loftsheet.registry import Argument, Calc, Quantity

NO_UNIT = ("", "-", "ratio", "share", "count", "text", "rows", "number")
OURS, DEGREES = "loftsheet.", "loftsheet.degrees"
UNKNOWN = object()  # the value of an expression that only the office can compute


@dataclass(frozen=True)
class Step:
    name: str
    expression: str
    unit: str
    helpers: "tuple[str, ...]" = ()


@dataclass(frozen=True)
class Outcome:
    """What a call came to: its result or why there is none, and the named steps it got through."""

    result: Any
    refused: Optional[Exception]
    named: "dict[str, Any]"


def working(calc: Calc, given: Sequence[Any], written: Sequence[str] = ()) -> str:
    """The working of one call; `written` is how each argument that is no literal stands in a formula."""
    obstacle = what_stops(calc, given)
    outcome = None if obstacle else run(calc, given)
    return "\n".join(
        [
            calc.usage(),
            f"Formula: {calc.formula}",
            *_argument_lines(calc, given, written),
            *(_step_lines(calc, outcome) if outcome else []),
            _last_line(calc, outcome) if outcome else f"Not computed here: {obstacle}",
            f"Limits: {calc.limits}",
            f"Source: {calc.source}",
        ]
    )


def what_stops(calc: Calc, given: Sequence[Any]) -> str:
    """Why a call cannot be computed with what is known of its arguments, "" if it can."""
    if any(value is UNKNOWN for value in given):
        return "an argument is an expression that is not taken apart"
    takes_errors = [argument.quantity.form.takes_anything for argument in calc.arguments]
    if any(isinstance(value, CellError) and not takes for value, takes in zip_longest(given, takes_errors)):
        return "an argument is an error"
    return ""


def run(calc: Calc, given: Sequence[Any]) -> Outcome:
    """Call the function and keep the names and values of its own steps."""
    named: dict[str, Any] = {}
    code = calc.function.__code__

    def watch(frame: FrameType, event: str, _: Any) -> None:
        if event == "return" and frame.f_code is code:
            named.clear()
            named.update(frame.f_locals)

    before = sys.getprofile()
    sys.setprofile(watch)
    try:
        return Outcome(calc.call(*given), None, named)
    except (BadInput, NoSolution, NotInTable) as refused:
        return Outcome(None, refused, named)
    finally:
        sys.setprofile(before)


@functools.cache
def steps(function: Callable[..., Any]) -> "tuple[Step, ...]":
    """The named steps of a calculation function from its source: expression, unit, what a helper in it does."""
    source = textwrap.dedent(inspect.getsource(function))
    units = {
        token.end[0]: token.string.lstrip("# ")
        for token in tokenize.generate_tokens(io.StringIO(source).readline)
        if token.type == tokenize.COMMENT
    }
    return tuple(
        Step(
            ast.unparse(line.targets[0]),
            _expression(line.value, function),
            units.get(line.end_lineno or 0, ""),
            tuple(_helpers(line.value, function)),
        )
        for line in ast.parse(source).body[0].body  # type: ignore[attr-defined]
        if isinstance(line, ast.Assign)
    )


def _helpers(value: ast.expr, function: Callable[..., Any]) -> "Iterator[str]":
    """What each helper in an expression does, by the first sentence of its own docstring."""
    names = dict.fromkeys(ast.unparse(part.func) for part in ast.walk(value) if isinstance(part, ast.Call))
    for name in names:
        called = _called(name, function)
        module = getattr(called, "__module__", None) or ""
        if not hasattr(called, "calc") and module.startswith(OURS) and module != DEGREES:
            yield f"{name}: {' '.join((inspect.getdoc(called) or '').split())}"


def _called(name: str, function: Callable[..., Any]) -> Any:
    """What a name, with dots or without, means in the module of a function."""
    first, *others = name.split(".")
    return functools.reduce(lambda of, one: getattr(of, one, None), others, function.__globals__.get(first))


def _expression(value: ast.expr, function: Callable[..., Any]) -> str:
    """An expression as people of a spreadsheet write it: our functions by their names, ^ for a power."""
    for part in ast.walk(value):
        if isinstance(part, ast.Call) and isinstance(part.func, ast.Name):
            called = getattr(function.__globals__.get(part.func.id), "calc", None)
            part.func.id = called.name if called else part.func.id
    return ast.unparse(value).replace(" ** ", "^")


def _argument_lines(calc: Calc, given: Sequence[Any], written: Sequence[str]) -> "Iterator[str]":
    fixed = calc.arguments[:-1] if calc.rest else calc.arguments
    for argument, value, text in zip_longest(fixed, given[: len(fixed)], written[: len(fixed)]):
        yield f"  {argument.name} = {_argument(argument, value, text)}"
    if calc.rest:
        further = zip_longest(given[len(fixed) :], written[len(fixed) :])
        shown = "; ".join(_chain(text, shown_value(value)) for value, text in further)
        yield f"  {calc.arguments[-1].name} = {shown or 'none'}"


def _argument(argument: Argument, value: Any, text: Optional[str]) -> str:
    quantity = argument.quantity
    if value is UNKNOWN:
        return f"{text}, as written ({quantity.text})"
    if isinstance(value, CellError):
        return f"{text} = {value.words()} ({quantity.text})"
    if value is None and not quantity.form.takes_anything:
        default = "left out" if argument.default is None else "left out, so the default"
        shown = "" if argument.default is None else f"{shown_value(argument.default, quantity.unit)} "
        return f"{shown}({quantity.text}; {default})".strip()
    chain = _chain(text, shown_value(value, quantity.unit if not isinstance(value, str) else ""))
    if isinstance(value, str) and quantity.form.is_number:
        chain += _as_read(quantity, value)
    return f"{chain} ({quantity.text})"


def _chain(text: Optional[str], shown: str) -> str:
    return f"{text} = {shown}" if text else shown


def _as_read(quantity: Quantity, value: str) -> str:
    try:
        return f" = {shown_value(quantity.read(value), quantity.unit)}"
    except BadInput:
        return ""


def _step_lines(calc: Calc, outcome: Outcome) -> "Iterator[str]":
    for step in steps(calc.function):
        if step.name in outcome.named:
            yield f"{step.name} = {step.expression} = {shown_value(outcome.named[step.name], step.unit)}"
            yield from (f"  {helper}" for helper in step.helpers)


def _last_line(calc: Calc, outcome: Outcome) -> str:
    if outcome.refused:
        return f"Refused: {outcome.refused}"
    return f"Result: {shown_value(outcome.result, calc.result.unit)}"


def shown_value(value: Any, unit: str = "") -> str:
    if value is None:
        return "none"
    if isinstance(value, str):
        return f'"{value}"'
    if isinstance(value, CellError):
        return value.words()
    if isinstance(value, (tuple, list)):
        return _rows(value, unit)
    number = digits(value) if isinstance(value, float) else str(value)
    return with_unit(number, "" if unit in NO_UNIT else unit)


def _rows(rows: Sequence[Any], unit: str) -> str:
    cells = [cell for row in rows for cell in (row if isinstance(row, (tuple, list)) else [row])]
    if len(cells) > len(rows) > 1:
        return f"{len(rows)} rows of {len(rows[0])}"
    return "; ".join("blank" if cell in (None, "") else shown_value(cell, unit) for cell in cells) or "nothing"
