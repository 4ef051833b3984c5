"""The forms that an argument or a result has: a class for each, which knows how it is read and shown."""

import math
import re
from typing import TYPE_CHECKING, Any, Union

from loftsheet import measure
from loftsheet.errors import BadInput

if TYPE_CHECKING:
    from loftsheet.registry import Quantity

ROWS = "sequence< sequence<any> >"
TYPED_NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")


class Form:
    """What all forms have in common: a number is read by its quantity, and is no more than that."""

    name = "number"
    wizard = "text"  # how the Function Wizard calls it where it has no unit
    type = "any"  # of an argument, in the office's interface language; any takes what the function itself refuses
    result_type = "any"
    is_number = False
    takes_anything = False  # a cell as it is: an error, or blank
    is_rest = False  # any number of further arguments

    def read(self, quantity: "Quantity", given: Any) -> Any:
        """The plain value of what was given, or a refusal."""
        return given

    def from_word(self, word: str) -> Any:
        """What is typed in a terminal: a number, nothing for "", a range with | between its rows."""
        if word == "":
            return None
        if "|" in word or ";" in word:
            rows = _rows(word)
            if all(cell == "" or isinstance(cell, float) for row in rows for cell in row):
                return rows
        return _cell(word)

    def sample(self, quantity: "Quantity") -> Any:
        """Something that an argument may be, None where there is no telling."""
        return None


class Number(Form):
    """A number, or a text with its unit."""

    is_number = True

    def read(self, quantity: "Quantity", given: Any) -> float:
        return quantity.read_number(given)

    def sample(self, quantity: "Quantity") -> float:
        return min(max(10.0, quantity.least or 10.0), quantity.most or 10.0)


class Text(Form):
    """Words."""

    name = "text"

    def read(self, quantity: "Quantity", given: Any) -> str:
        if not isinstance(given, str):
            raise BadInput(f"{shown(given, '')} was given where a text is due")
        return given

    def from_word(self, word: str) -> Any:
        return word or None

    def sample(self, quantity: "Quantity") -> str:
        return "mm"


class Column(Form):
    """A range of numbers, read in reading order; an empty cell is None."""

    name = wizard = "column"

    def read(self, quantity: "Quantity", given: Any) -> Any:
        rows = given if isinstance(given, (tuple, list)) else [given]
        cells = [cell for row in rows for cell in (row if isinstance(row, (tuple, list)) else [row])]
        return tuple(None if cell is None or cell == "" else quantity.read_number(cell) for cell in cells)


class Table(Form):
    """A range whose columns differ: rows of numbers and texts; an empty cell is ""."""

    name = wizard = "table"

    def read(self, quantity: "Quantity", given: Any) -> "tuple[tuple[Union[float, str], ...], ...]":
        rows = given if isinstance(given, (tuple, list)) else ((given,),)
        return tuple(tuple(map(_of_table, row if isinstance(row, (tuple, list)) else (row,))) for row in rows)

    def from_word(self, word: str) -> Any:
        return _rows(word) if word else None


class Matrix(Form):
    """Rows of cells: only ever a result."""

    name = wizard = "matrix"
    result_type = ROWS


class Cell(Form):
    """The cell itself, whatever it holds: None when blank."""

    name = wizard = "cell"
    type = "com::sun::star::table::XCellRange"
    takes_anything = True


class Rest(Form):
    """Any number of further arguments."""

    name = wizard = "rest"
    type = "sequence<any>"
    is_rest = True


NUMBER, TEXT, COLUMN, TABLE, MATRIX, CELL, REST = Number(), Text(), Column(), Table(), Matrix(), Cell(), Rest()


def shown(given: Any, unit: str) -> str:
    """What was given, as a refusal says it."""
    if isinstance(given, str):
        return f'"{given}"'
    if isinstance(given, (int, float)):
        return f"{given:g} {unit}".strip() if unit not in ("share", "count") else f"{given:g}"
    return "a range of cells" if isinstance(given, (tuple, list)) else repr(given)


def _rows(word: str) -> "tuple[tuple[Union[float, str], ...], ...]":
    return tuple(tuple(_cell(cell.strip()) for cell in row.split(";")) for row in word.split("|"))


def _cell(word: str) -> Union[float, str]:
    ascii_signs = word.replace("−", "-")
    return float(ascii_signs) if TYPED_NUMBER.fullmatch(ascii_signs) else word


def _of_table(cell: Any) -> Union[float, str]:
    if cell is None:
        return ""
    if isinstance(cell, str):
        return cell
    if isinstance(cell, bool) or not isinstance(cell, (int, float)):
        raise BadInput(f"a cell of the range holds {shown(cell, '')} where a number or a text is due")
    value = measure.number(cell, measure.RATIO)
    if not math.isfinite(value):
        raise BadInput(f"a cell of the range holds {value}, which is no finite number")
    return value
