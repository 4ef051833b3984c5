"""What functions and schedules cost in cells: python3 build.py bench [window] [NAME … | schedule | balance]

NAME is part of a function's name. The thread in which Python began in an office calls it at about a quarter of the
cost: it keeps Python's state, elsewhere each call makes one. Python begins in the office's own thread here, as
when a schedule is opened in a window. With "window" all is measured there, without it from outside, for which the
targets are set.

Ratios within one run mean something, times only on the machine that they were taken on. A missed target fails
nothing; it is for whoever reads it to mend it or to say why it cannot be had.
"""

import os
import shutil
import sys
import tempfile
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

import uno  # noqa: F401 - from here on com.sun.star can be imported

from extension import inside
from extension.commands import build_extension
from extension.office import Office
from tests.bench import balances, calls, echo, schedules
from tests.bench.clock import seconds
from tests.bench.targets import Target, single, target
from tests.office_thread import in_own_thread

SCHEDULE, BALANCE = "schedule", "balance"
WINDOW = "window"
LONGEST_RUN = 7200  # seconds


def main(words: "list[str]") -> None:
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        oxt = Path(shutil.copy(build_extension(), folder))  # a build that runs meanwhile does not change this one
        targets = target("size of the .oxt, MB", 1.5, [("", single(oxt.stat().st_size / 1e6))])
        beside = [echo.pack(folder / "echo.oxt"), inside.pack(folder / "inside.oxt")]
        with Office(folder / "profile", oxt, limit=LONGEST_RUN, beside=beside) as office:
            own_thread = partial(in_own_thread, office)
            targets += own_thread(lambda: first_calls(office))
            within = own_thread if WINDOW in words else direct
            wanted = [word for word in words if word != WINDOW]
            if wanted not in ([SCHEDULE], [BALANCE]):
                targets += calls.measure(office, wanted, within)
            if wanted in ([], [BALANCE]):
                targets += balances.measure(office, folder, within)
            if wanted in ([], [SCHEDULE]):
                targets += schedules.measure(office, folder, within)
    print("\nTargets (least–median–most; the median counts)")
    for one in targets:
        print(*one.lines(), sep="\n")
    print(f"\nload of the machine at the end: {os.getloadavg()[0]:.1f} on {os.cpu_count()} processors")


def direct(work: Callable[[], Any]) -> Any:
    return work()


def first_calls(office: Any) -> "list[Target]":
    """The very first call in an office, the first text with a unit, and what the first one loads."""
    book = office.new()
    cell = book.Sheets.getByIndex(0).getCellRangeByName("A1")
    loaded = []
    for given in ("9", '"9 mm"'):
        took = seconds(lambda given=given: value(cell, f"ORG.LOFTSHEET.RIG.BURY({given})"))
        print(f"the first call in a new office with {given}: {took:.2f} s")
        loaded.append(value(cell, echo.formula("loaded", '"pint"')))
    office.close(book)
    assert loaded[1] == 1.0, "a text with a unit needs pint, and it was not seen"
    return target("pint loaded by the first call, 1 if so", 0, [("", single(loaded[0]))])


def value(cell: Any, formula: str) -> float:
    cell.Formula = f"={formula}"
    assert cell.getError() == 0, formula
    return float(cell.Value)


main(sys.argv[1:])
