"""The reference table of the functions, derived from their declarations, in the README."""

from itertools import groupby
from pathlib import Path

from loftsheet import CALCS
from loftsheet.examples import EXAMPLES, example
from loftsheet.registry import Calc
from loftsheet.trace import shown_value

BEGIN, END = "<!-- functions -->\n", "<!-- end of functions -->"


def table() -> str:
    """Every function by group: how it is typed, the unit of its result, what it gives, and an example."""
    parts = []
    for group, functions in groupby(CALCS.values(), key=lambda calc: calc.group):
        rows = "".join(
            f"| `{calc.usage()}` | {_unit(calc)} | {calc.summary} | {_example(calc)} |\n" for calc in functions
        )
        parts.append(f"\n### {group}\n\n| function | gives | meaning | example |\n|---|---|---|---|\n{rows}")
    return "".join(parts) + "\n"


def refresh(readme: Path) -> bool:
    """Put the table into the README; say whether that changed anything."""
    return put(readme, BEGIN, END, table())


def put(readme: Path, begin: str, end: str, content: str) -> bool:
    """Put something between two marks of a file; say whether that changed anything."""
    text = readme.read_text(encoding="utf-8")
    start, stop = text.index(begin) + len(begin), text.index(end)
    fresh = text[:start] + content + text[stop:]
    if fresh != text:
        unfinished = readme.with_name(f".{readme.name}-unfinished")
        unfinished.write_text(fresh, encoding="utf-8")
        unfinished.replace(readme)
    return fresh != text


def _example(calc: Calc) -> str:
    """The invented example and what comes out; of a text of many lines the first."""
    first, *further = shown_value(calc.call(*EXAMPLES[calc.name]), calc.result.unit).splitlines()
    typed = example(calc.name).replace("|", "\\|")
    return f"`{typed}` → {first}{' …' + first[:1] if further else ''}"


def _unit(calc: Calc) -> str:
    return calc.result.unit or ("number" if calc.result.dimension else calc.result.form.name)
