"""A function called from the terminal: words in, a plain number or the reason out."""

import difflib
import sys
from collections.abc import Sequence
from itertools import chain, repeat
from typing import Any

from loftsheet import CALCS
from loftsheet.errors import BadInput, NoSolution, NotInTable
from loftsheet.forms import NUMBER
from loftsheet.registry import Calc
from loftsheet.trace import working

WORKING = "--working"
DONE, REFUSED = 0, 2
HOW_TO = f"write the function's name and its arguments, such as: RIG.BURY 8, or {WORKING} RIG.BURY '3/8 in'"


def main(argv: Sequence[str]) -> int:
    """Print what a call gives, or on the error stream why it gives nothing."""
    text, code = call(list(argv))
    stream = sys.stderr if code else sys.stdout
    encoding = stream.encoding or "utf-8"
    print(text.encode(encoding, "replace").decode(encoding), file=stream)
    return code


def call(arguments: "list[str]") -> "tuple[str, int]":
    """Return what is to be printed and the exit code; a word that starts with a minus sign is a value."""
    with_working = WORKING in arguments
    if with_working:
        arguments = list(arguments)
        arguments.remove(WORKING)
    if not arguments:
        return HOW_TO, REFUSED
    calc = CALCS.get(arguments[0].upper())
    if calc is None:
        return _unknown(arguments[0]), REFUSED
    given = _values(calc, arguments[1:])
    try:
        result, code = _printed(calc.call(*given)), DONE
    except (BadInput, NoSolution, NotInTable) as refused:
        result, code = " ".join(f"{calc.usage()} refused: {refused}".split()), REFUSED
    return (working(calc, given) if with_working else result), code


def _unknown(name: str) -> str:
    close = difflib.get_close_matches(name.upper(), CALCS, n=5, cutoff=0.5)
    known = f"close to it: {', '.join(close)}" if close else HOW_TO
    return " ".join(f'there is no function "{name}"; {known}'.split())


def _values(calc: Calc, arguments: Sequence[str]) -> "list[Any]":
    forms = (argument.quantity.form for argument in calc.arguments)
    return [form.from_word(word) for word, form in zip(arguments, chain(forms, repeat(NUMBER)))]


def _printed(result: Any) -> str:
    if isinstance(result, (tuple, list)):
        return "\n".join("\t".join(_printed(cell) for cell in row) for row in result)
    if isinstance(result, float):
        return repr(result + 0.0).removesuffix(".0")
    return str(result)
