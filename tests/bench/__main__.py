"""What functions cost in cells: python3 build.py bench

Ratios within one run mean something, times only on the machine that they were taken on. Nothing here passes or
fails.
"""

import statistics
import tempfile
import time
from pathlib import Path

from extension.commands import build_extension
from extension.office import Office
from templates import writer
from templates.boats import marrowick

CELLS = 2_000
ROUNDS = 5
NATIVE = "native: sum of two cells"
FORMULAS = {
    NATIVE: "=A{row}+B{row}",
    "numbers": "=ORG.LOFTSHEET.RIG.TANGFACE(A{row};B{row})",
    "numbers, iterated inside": "=ORG.LOFTSHEET.RIG.EYEREACH(120;A{row};9)",
    "a text with its unit": "=ORG.LOFTSHEET.RIG.TANGFACE(C{row};B{row})",
    "a range of ten": "=ORG.LOFTSHEET.RIG.ROPESIZE(D$1:D$10;D$1:D$10;A{row}/10)",
    "a cell looked at": '=ORG.LOFTSHEET.RIG.CHECK("rod";A{row};1;99;"mm")',
    "refused": "=ORG.LOFTSHEET.RIG.TANGFACE(A{row};-1)",
}


def main() -> None:
    oxt = build_extension()
    with tempfile.TemporaryDirectory() as profile, Office(Path(profile), oxt) as office:
        costs = {name: cell_cost(office, formula) for name, formula in FORMULAS.items()}
        print(f"{'one cell':<28}{'µs':>8}{'ratio':>8}")
        for name, cost in costs.items():
            print(f"{name:<28}{cost * 1e6:>8.1f}{cost / costs[NATIVE]:>8.1f}")
        path = Path(profile) / "marrowick.ods"
        writer.write(office, path, marrowick)
        book = office.load(path)
        print(f"\nthe demo boat's schedule, every cell: {median(lambda: office.recalculate(book)):.2f} s")
        office.close(book)


def cell_cost(office: Office, formula: str) -> float:
    """Seconds for one cell, without what a recalculation costs anyway."""
    book = office.new()
    sheet = book.Sheets.getByIndex(0)
    sheet.getCellRangeByName(f"A1:C{CELLS}").DataArray = [
        (40.0 + row % 10, float(row % 20), f"{40 + row % 10} mm") for row in range(CELLS)
    ]
    sheet.getCellRangeByName("D1:D10").DataArray = [(float(row),) for row in range(1, 11)]
    without = median(lambda: office.recalculate(book))
    rows = [(formula.format(row=row),) for row in range(1, CELLS + 1)]
    sheet.getCellRangeByName(f"F1:F{CELLS}").FormulaArray = rows
    cost = (median(lambda: office.recalculate(book)) - without) / CELLS
    office.close(book)
    return cost


def median(work) -> float:
    work()
    times = []
    for _ in range(ROUNDS):
        began = time.perf_counter()
        work()
        times.append(time.perf_counter() - began)
    return statistics.median(times)


main()
