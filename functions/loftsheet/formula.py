"""A cell's formula taken apart, as far as its working needs: our own calls and what stands in them.

Calc's A1 syntax with English names, as a cell stores it. A literal, a reference, a name and a call of one of our
functions are understood; anything else is kept as written, with what was understood inside it.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any, Optional

from loftsheet.errors import BadInput
from loftsheet.registry import CALCS, STORED, Calc

CELL = r"\$?[A-Za-z]{1,3}\$?[1-9][0-9]*"
SHEET = r"\$?(?:'(?:[^']|'')+'|\w+)\."
TOKEN = re.compile(
    rf"""
    (?P<space>\s+)
    | (?P<text>"(?:[^"]|"")*")
    | (?P<rows>\{{[^{{}}]*\}})
    | (?P<reference>(?:{SHEET})?{CELL}(?::(?:{SHEET})?{CELL})?(?![\w.(]))
    | (?P<number>(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?(?![\w.]))
    | (?P<name>[^\W\d][\w.]*)
    | (?P<mark>[();])
    | (?P<other>.)
    """,
    re.VERBOSE | re.DOTALL,
)
DEEPEST = 60


@dataclass(frozen=True)
class Node:
    """A part of a formula: "number", "text", "missing", "reference" (or name), "call" (ours) or "other".

    One of Calc's own functions is an "other" that says which.
    """

    kind: str
    written: str
    value: Any = None
    calc: Optional[Calc] = None
    parts: "tuple[Node, ...]" = ()
    function: str = ""

    def inside(self) -> "Iterator[Node]":
        """This part and all its parts, the inner ones first."""
        for part in self.parts:
            yield from part.inside()
        yield self


@lru_cache(maxsize=64)  # one cell is asked several times while it is explained
def parse(formula: str) -> Node:
    """Take a formula apart; refuse one that cannot be."""
    body = formula.strip()
    if body.startswith("{=") and body.endswith("}"):
        body = body[1:-1]
    if not body.startswith("="):
        raise BadInput("this is no formula: it does not start with =")
    reader = _Reader(body[1:])
    node = reader.expression(0)
    if reader.place < len(reader.tokens):
        raise BadInput(f'the formula has a "{reader.tokens[reader.place][1]}" too many')
    return node


def for_people(formula: str) -> str:
    """The formula with our functions under the names that users type."""
    return re.sub(
        rf"{re.escape(STORED)}\w+",
        lambda found: getattr(_ours(found[0]), "name", found[0]),
        formula,
        flags=re.IGNORECASE,
    )


def _ours(name: str) -> Optional[Calc]:
    upper = name.upper()
    return _stored().get(upper) or CALCS.get(upper)


@cache
def _stored() -> "dict[str, Calc]":
    """Our functions by the names under which a file stores them."""
    return {calc.stored_name: calc for calc in CALCS.values()}


class _Reader:
    """Reads tokens from left to right; an expression ends at a semicolon or a closing bracket."""

    def __init__(self, text: str) -> None:
        found = list(TOKEN.finditer(text))
        self.text = text
        self.tokens = [(str(one.lastgroup), one[0]) for one in found]
        self.starts = [*(one.start() for one in found), len(text)]
        self.place = 0

    def expression(self, depth: int) -> Node:
        if depth > DEEPEST:
            raise BadInput(f"the formula is nested deeper than {DEEPEST}")
        start = self.place
        parts: list[Node] = []
        while self.place < len(self.tokens) and self.tokens[self.place][1] not in (")", ";"):
            if self.tokens[self.place][0] == "space":
                self.place += 1
            else:
                parts.append(self.atom(depth))
        written = self.written(start)
        if not parts:
            return Node("missing", written)
        if len(parts) == 1:
            return parts[0]
        if len(parts) == 2 and parts[0].written in ("-", "+") and parts[1].kind == "number":
            return Node("number", written, float(written.replace(" ", "")))
        return Node("other", written, parts=tuple(parts))

    def atom(self, depth: int) -> Node:
        kind, text = self.tokens[self.place]
        if text == "(":
            start = self.place
            inner = self.arguments(depth, most=1)
            if [part.kind for part in inner] == ["number"]:
                return inner[0]
            return Node("other", self.written(start), parts=inner)
        self.place += 1
        if kind == "name" and self.place < len(self.tokens) and self.tokens[self.place][1] == "(":
            start = self.place - 1
            arguments = self.arguments(depth)
            calc = _ours(text)
            if calc:
                return Node("call", self.written(start), calc=calc, parts=arguments)
            return Node("other", self.written(start), parts=arguments, function=text.upper())
        if kind == "number":
            return Node("number", text, float(text))
        if kind == "text":
            return Node("text", text, text[1:-1].replace('""', '"'))
        return Node("reference" if kind in ("reference", "name") else "other", text)

    def arguments(self, depth: int, most: int = 1000) -> "tuple[Node, ...]":
        """Read from an opening bracket to its closing one."""
        arguments: list[Node] = []
        while True:
            self.place += 1
            arguments.append(self.expression(depth + 1))
            if self.place >= len(self.tokens) or len(arguments) > most:
                raise BadInput("a bracket of the formula is not closed")
            if self.tokens[self.place][1] == ")":
                break
        self.place += 1
        none = len(arguments) == 1 and arguments[0].kind == "missing"
        return () if none else tuple(arguments)

    def written(self, start: int) -> str:
        return self.text[self.starts[start] : self.starts[self.place]].strip()
