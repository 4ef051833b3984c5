"""What is typed into a dialog for a column: read as its cell would be, or refused in words."""

import re
from datetime import date

from loftsheet import measure
from loftsheet.errors import BadInput

from ..common.refusal import Refusal
from .columns import all_columns
from .reading import FIRST_DAY

PLAIN = re.compile(r"[-+]?[\d.,]+")


def number(name: str, text: str, unit: str, of: str = "") -> str:
    """What was typed for a column that takes a number, with its unit or without; refused if it is none."""
    column = all_columns()[name]
    if not text:
        raise Refusal(f"{of}{column.title} is blank. {column.typed()}")
    try:
        held = measure.read_in(f"{text} {unit}" if PLAIN.fullmatch(text) else text, unit)
    except BadInput as wrong:
        raise Refusal(f"{of}{column.title}: {wrong}.") from None
    if column.least is not None and column.most is not None and not column.least <= held <= column.most:
        raise Refusal(f'{of}{column.title}: "{text}" was typed. {column.typed()}')
    return repr(float(held))


def day(name: str, text: str) -> str:
    """The number of a day, as a cell with a date holds it."""
    try:
        return repr(float((date.fromisoformat(text) - FIRST_DAY).days))
    except ValueError:
        raise Refusal(
            f'{all_columns()[name].title}: "{text}" was typed. Type year, month and day, such as 2026-04-11.'
        ) from None
