"""What a balance costs: worked out anew in Python, by number of stays, and asked for by the cells of a sheet."""

from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path
from typing import Any

from loftsheet import CALCS
from loftsheet.balance import tables
from loftsheet.balance.solve import balance

from extension import template
from templates.boats import marrowick, sandlebee
from templates.sheets.balance import OFF, ROPE, WORKED_OUT_FOR
from tests.bench.clock import Spread, interleaved
from tests.bench.targets import Target, target
from tests.functions import rigs

PAIRS = (0, 4, 8, 16)  # of further stays
Within = Callable[[Callable[[], Any]], Any]


def measure(office: Any, folder: Path, within: Within) -> "list[Target]":
    return [*in_python(), *within(lambda: in_cells(office)), *in_schedules(office, folder, within)]


def in_schedules(office: Any, folder: Path, within: Within) -> "Iterator[Target]":
    """What one figure that is typed costs in the schedules of both boats, with and without their balance."""
    print("\nA figure typed in a schedule")
    for boat, most in ((marrowick, 0.5), (sandlebee, 2.0)):
        path = folder / f"{boat.BOAT['name']}.ods"
        template.write(office, path, boat)
        book = office.load(path)
        office.recalculate(book)
        taken = within(lambda book=book: typed(book))
        for (where, asked), times in taken.items():
            print(f"  {boat.BOAT['name']}, {where}, balance of {asked}: {Spread.of(times):.3f} s")
        office.close(book)
        more = Spread.of(a - b for a, b in zip(taken["Points", ROPE], taken["Points", OFF]))
        yield from target(f"balance of {boat.BOAT['name']}, s", most, [("", more)])


def typed(book: Any) -> "dict[tuple[str, str], list[float]]":
    """Seconds for each figure, by where it is typed and for what there is a balance."""
    cells = {name: book.NamedRanges.getByName(name).ReferredCells for name in ("points_out", "order_price")}
    places = {"Points": cells["points_out"], "Order": cells["order_price"]}
    asked = book.NamedRanges.getByName("boat_balance").ReferredCells
    wrong = book.NamedRanges.getByName("boat_wrong").ReferredCells
    taken: dict[tuple[str, str], list[float]] = {}
    for which in WORKED_OUT_FOR:
        asked.String = which
        works = {where: partial(step, column.getCellByPosition(0, 1), wrong) for where, column in places.items()}
        taken |= {(where, which): times for where, times in interleaved(works).items()}
    return taken


def step(cell: Any, wrong: Any) -> None:
    """Type a figure and look at how many rows are not OK, for which every check is worked out."""
    cell.Value += 0.125
    wrong.DataArray  # noqa: B018


def in_python() -> "Iterator[Target]":
    boats = {"Marrowick": rigs.marrowick(), "ketch": rigs.ketch()}
    boats |= {f"Marrowick and {2 * pairs} stays": rigs.with_more_stays(pairs) for pairs in PAIRS[1:]}
    boats = {f"{name}, {len(rig[2])} rows of stays": rig for name, rig in boats.items()}
    taken = interleaved({name: lambda ranges=ranges: anew(ranges) for name, ranges in boats.items()})
    spreads = {name: Spread.of(times) for name, times in taken.items()}
    print("\nA balance worked out anew, in Python by itself")
    for name, spread in spreads.items():
        print(f"  {name:<42}{spread:.3f} s")
    (one, first), (two, second), *_ = spreads.items()
    yield from target("balance of one mast, s", 0.5, [(one, first)])
    yield from target("balance of two masts, s", 2.0, [(two, second)])


def anew(ranges: Any) -> None:
    balance.cache_clear()
    balance(tables.rig(*ranges))


def in_cells(office: Any) -> "list[Target]":
    """A sheet that shows all of a balance, cell by cell: after a change of it, and after one elsewhere."""
    ranges = rigs.marrowick()
    book = office.new()
    sheet = book.Sheets.getByIndex(0)
    arguments, left = [], 0
    for rows in ranges:
        width = max(map(len, rows))
        cells = sheet.getCellRangeByPosition(left, 0, left + width - 1, len(rows) - 1)
        cells.setDataArray(tuple((*row, *[""] * (width - len(row))) for row in rows))
        arguments.append(cells.AbsoluteName.split(".")[-1])
        left += width
    head = sheet.getCellRangeByName("E1")  # length of the mast
    shown = 0
    for name in ("STAYS", "MASTS", "CASES"):
        call = f"{CALCS[f'RIG.BALANCE.{name}'].stored_name}({';'.join(arguments)})"
        given = CALCS[f"RIG.BALANCE.{name}"].call(*ranges)
        for row in range(len(given)):
            for column in range(len(given[0])):
                cell = sheet.getCellByPosition(column, 60 + shown // 200 * 50 + row)
                cell.Formula = f"=INDEX({call};{row + 1};{column + 1})"
                assert cell.getError() == 0, cell.Formula
        shown += 200
    elsewhere = sheet.getCellByPosition(0, 300)
    results = sheet.getCellRangeByPosition(0, 60, 40, 299)
    value = [13_000.0]

    def depends() -> None:
        value[0] += 1
        head.Value = value[0]
        results.DataArray  # noqa: B018 - what nobody looks at is not worked out

    def apart() -> None:
        elsewhere.Value = value[0]
        results.DataArray  # noqa: B018

    taken = {
        name: Spread.of(times) for name, times in interleaved({"balance": depends, "elsewhere": apart}).items()
    }
    office.close(book)
    print(
        f"\nA sheet that shows the balance of Marrowick in cells: {taken['balance']:.3f} s after a change of it,"
    )
    print(f"  {taken['elsewhere']:.4f} s after a change elsewhere")
    return target("a change of the rig, all cells of its balance, s", 1.0, [("", taken["balance"])])
