"""What is measured in cells: each candidate is a document with one formula in 5,000 rows."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, Callable, Union

from com.sun.star.sheet.FillDirection import TO_BOTTOM
from loftsheet import CALCS
from loftsheet.examples import EXAMPLES
from loftsheet.registry import Calc

from templates.writer import letter
from tests.bench import echo

CELLS = 5_000
RESULT = 60  # column
FACE = CALCS["RIG.TANG.FACE"].stored_name
BURY = f"{CALCS['RIG.BURY'].stored_name}(A1)"
NATIVE, ECHO, PLAIN, SAME, DIFFERENT, OTHER = (
    "native formula",
    "echo",
    "plain numbers",
    "texts, all the same",
    "texts, all different",
    "others",
)


@dataclass
class Candidate:
    """A formula for the first row, with what stands in the columns before it: values by row, or a formula."""

    kind: str
    name: str
    formula: str = ""
    columns: "list[Union[Callable[[int], Any], str]]" = field(default_factory=list)
    blocks: "dict[int, tuple[tuple[Any, ...], ...]]" = field(default_factory=dict)

    def column(self, values: "Union[Callable[[int], Any], str]") -> str:
        """Take the next column; return its first cell."""
        self.columns.append(values)
        return f"{letter(len(self.columns) - 1)}1"

    def block(self, rows: "tuple[tuple[Any, ...], ...]") -> str:
        """Take columns for a range that all rows use; return its address."""
        left, width = len(self.columns), len(rows[0])
        self.blocks[left] = rows
        self.columns += [lambda row: ""] * width
        return f"${letter(left)}$1:${letter(left + width - 1)}${len(rows)}"

    def document(self, office: Any) -> Any:
        """Open a document with it, calculated once; every cell must come to something."""
        book = office.new()
        sheet = book.Sheets.getByIndex(0)
        for at, values in enumerate(self.columns):
            cells = sheet.getCellRangeByPosition(at, 0, at, CELLS - 1)
            if callable(values):
                cells.setDataArray(tuple((values(row),) for row in range(1, CELLS + 1)))
            else:
                fill(cells, values)
        for left, rows in self.blocks.items():
            sheet.getCellRangeByPosition(left, 0, left + len(rows[0]) - 1, len(rows) - 1).setDataArray(rows)
        results = sheet.getCellRangeByPosition(RESULT, 0, RESULT, CELLS - 1)
        fill(results, self.formula)
        office.recalculate(book)
        if self.kind != OTHER and results.queryFormulaCells(ERROR).Count:
            raise ValueError(f"{self.name}, {self.kind}: a cell is an error, so its cost would be another one")
        return book


def fill(cells: Any, formula: str) -> None:
    """Fill a column from its first row down, which takes the office a hundredth of reading every formula."""
    cells.getCellByPosition(0, 0).Formula = f"={formula}"
    cells.fillAuto(TO_BOTTOM, 1)


ERROR = 4  # com.sun.star.sheet.FormulaResult


def candidates(wanted: "list[str]") -> "Iterator[Candidate]":
    """The native formula, what a call costs by itself, and every function whose name holds one of the words."""
    yield written(NATIVE, "the formula of RIG.TANG.FACE", "A1/COS(RADIANS(B1))", 40.0, 14.0)
    for name, count in (("one", 1), ("six", 6), ("twelve", 12)):
        yield echoing(name, count)
    for calc in CALCS.values():
        if not wanted or any(word.upper() in calc.name for word in wanted):
            yield called(calc, PLAIN, lambda value, unit: lambda row: value)
            if any(takes_unit(calc, at) for at in range(len(EXAMPLES[calc.name]))):
                yield called(calc, SAME, lambda value, unit: lambda row: f"{value!r} {unit}")
                yield called(calc, DIFFERENT, different)
    if not wanted:
        yield written(OTHER, "refused: RIG.TANG.FACE", f"{FACE}(A1;-1)", 40.0)
        check = CALCS["RIG.CHECK"].stored_name
        yield written(OTHER, "with words: RIG.CHECK", f'{check}("rod";A1;50;60;"mm")', 40.0)


def different(value: float, unit: str) -> "Callable[[int], str]":
    """Texts a millionth apart from row to row."""
    return lambda row: f"{value * (1 - row / 1e6) if value else row / 1e6:.9f} {unit}"


def written(kind: str, name: str, formula: str, *values: Any) -> Candidate:
    candidate = Candidate(kind, name, formula)
    for value in values:
        candidate.column(lambda row, value=value: value)
    return candidate


def echoing(name: str, count: int) -> Candidate:
    candidate = Candidate(ECHO, f"echo of {name}")
    candidate.formula = echo.formula(name, *(candidate.column(lambda row: 40.0) for _ in range(count)))
    return candidate


def called(calc: Calc, kind: str, number: Callable[..., Any]) -> Candidate:
    """A call of a function with the arguments of its example, each from a cell."""
    candidate = Candidate(kind, calc.name)
    arguments = []
    for at, value in enumerate(EXAMPLES[calc.name]):
        if isinstance(value, tuple):
            arguments.append(candidate.block(value))
        elif calc.name == "RIG.WORKING":
            candidate.column(lambda row: 9.0)
            arguments.append(candidate.column(BURY))
        else:
            take = number(value, unit(calc, at)) if takes_unit(calc, at) else lambda row, value=value: value
            arguments.append(candidate.column(take))
    candidate.formula = f"{calc.stored_name}({';'.join(arguments)})"
    return candidate


def takes_unit(calc: Calc, at: int) -> bool:
    """Whether that argument is a number that may be a text with its unit; of further ones none is."""
    if at >= len(calc.arguments) or calc.arguments[at].quantity.form.name != "number":
        return False
    return unit(calc, at) in calc.arguments[at].quantity.dimension.units


def unit(calc: Calc, at: int) -> str:
    return calc.arguments[at].quantity.unit


def scalar(calc: Calc) -> bool:
    """Whether a function takes single values only and gives one."""
    return calc.result.form.name != "matrix" and all(
        one.quantity.form.name in ("number", "text") for one in calc.arguments
    )
