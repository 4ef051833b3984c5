"""Schedules with many stays, and what it costs to open one."""

from collections.abc import Callable
from functools import partial
from pathlib import Path
from types import SimpleNamespace
from typing import Any

from com.sun.star.sheet.FillDirection import TO_BOTTOM

from extension import template
from templates.boats import marrowick
from tests.bench import echo
from tests.bench.clock import Spread, interleaved
from tests.bench.targets import Target, single, target

DEMO = len(marrowick.STAYS)
SIZES = (125, 250, 500)  # stays
WIDTH = 100
FORMULA = 16  # com.sun.star.sheet.CellFlags
ERROR = 4  # com.sun.star.sheet.FormulaResult


def measure(office: Any, folder: Path, within: "Callable[[Any], Any]") -> "list[Target]":
    """Print what opening and recalculating costs, return the targets."""
    print("\nwriting schedules …", flush=True)
    files = {stays: folder / f"{stays} stays.ods" for stays in (DEMO, *SIZES)}
    for stays, path in files.items():
        template.write(office, path, boat(stays))
    return [
        *opening(office, files[DEMO], within),
        *recalculating(office, {stays: files[stays] for stays in SIZES}, within),
    ]


def opening(office: Any, demo: Path, within: "Callable[[Any], Any]") -> "list[Target]":
    """What the formulas of the demo schedule add to opening it."""
    files = {"formulas": demo, "values only": values_only(office, demo)}
    works = {name: partial(open_and_close, office, path) for name, path in files.items()}
    taken = within(lambda: interleaved(works))
    for name, times in taken.items():
        print(f"opening and closing the demo schedule, {name}: {Spread.of(times):.2f} s")
    more = Spread.of(a - b for a, b in zip(*taken.values()))
    return target("opening the demo schedule, s more than with values only", 0.3, [("", more)])


def recalculating(office: Any, files: "dict[int, Path]", within: "Callable[[Any], Any]") -> "list[Target]":
    """Every size in turn, and as many cells of the echo as the largest has formulas."""
    books = {stays: office.load(path) for stays, path in files.items()}
    counts = {stays: cells(book) for stays, book in books.items()}
    most = max(files)
    works: dict[Any, Any] = {stays: partial(office.recalculate, book) for stays, book in books.items()}
    works["echo"] = partial(office.recalculate, echoes(office, counts[most]))
    taken = within(lambda: interleaved(works))
    wrong = cells(books[most], ERROR)
    for stays, count in counts.items():
        spread = Spread.of(taken[stays])
        print(f"{stays} stays, {count} formulas: {spread:.2f} s, {spread.median / count * 1e6:.1f} µs a cell")
    doubled = [(f"{a} to {b}", ratio(taken[b], taken[a])) for a, b in zip(files, list(files)[1:])]
    return [
        *target(f"{most} stays recalculated, s", 1.5, [("", Spread.of(taken[most]))]),
        *target(f"{most} stays, ratio to as many echoes", 4, [("", ratio(taken[most], taken["echo"]))]),
        *target(f"{most} stays, cells that are errors", 0, [("", single(wrong))]),
        *target("twice the stays, ratio", 2.5, doubled),
    ]


def ratio(ones: "list[float]", others: "list[float]") -> Spread:
    return Spread.of(one / other for one, other in zip(ones, others))


def boat(stays: int) -> Any:
    """An invented boat: Marrowick's stays and their stubs over and over, each time under new names.

    Without rows for its chainplates: no hole takes forty shrouds, and they would say so.
    """
    rows = {**marrowick.ROWS, "stays": [], "tangs": [], "chainplates": []}
    while len(rows["stays"]) < stays:
        copy = len(rows["stays"]) // len(marrowick.STAYS)
        again = f", again {copy}" if copy else ""
        more = marrowick.STAYS[: stays - len(rows["stays"])]
        names = {row["name"] for row in more}
        rows["stays"] += [{**row, "name": row["name"] + again} for row in more]
        rows["tangs"] += [
            {**row, "name": row["name"] + again, "stay": row["stay"] + again}
            for row in marrowick.TANGS
            if row["stay"] in names
        ]
    return SimpleNamespace(BOAT=marrowick.BOAT, ROWS=rows, PRICES=marrowick.PRICES)


def echoes(office: Any, count: int) -> Any:
    """A document with about so many cells that only hand back a number."""
    book = office.new()
    sheet = book.Sheets.getByIndex(0)
    rows = round(count / WIDTH)
    sheet.getCellRangeByPosition(0, 0, 0, rows - 1).setDataArray(((40.0,),) * rows)
    formula = "=" + echo.formula("one", "$A1")
    sheet.getCellRangeByPosition(1, 0, WIDTH, 0).setFormulaArray(((formula,) * WIDTH,))
    sheet.getCellRangeByPosition(1, 0, WIDTH, rows - 1).fillAuto(TO_BOTTOM, 1)
    return book


def cells(book: Any, result: int = 7) -> int:
    """How many cells have a formula, or a formula with that kind of result."""
    found = 0
    for sheet in book.Sheets:
        for place in sheet.queryFormulaCells(result).RangeAddresses:
            found += (place.EndColumn - place.StartColumn + 1) * (place.EndRow - place.StartRow + 1)
    return found


def values_only(office: Any, path: Path) -> Path:
    """Write beside a schedule the same workbook with each formula replaced by what it gives."""
    book = office.load(path)
    office.recalculate(book)
    for sheet in book.Sheets:
        sheet.unprotect("")
        for cells in sheet.queryContentCells(FORMULA):
            cells.setDataArray(cells.getDataArray())
    without = path.with_name("values.ods")
    office.store(book, without)
    office.close(book)
    return without


def open_and_close(office: Any, path: Path) -> None:
    office.close(office.load(path))
