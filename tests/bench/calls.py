"""The functions, each in 5,000 cells, beside an echo of a number."""

from collections.abc import Callable, Iterable
from typing import Any

from loftsheet import CALCS

from tests.bench import clock
from tests.bench.candidates import CELLS, DIFFERENT, ECHO, NATIVE, OTHER, PLAIN, SAME, candidates, scalar
from tests.bench.clock import Spread
from tests.bench.targets import Target, target

YARDSTICK = (ECHO, "echo of one")
LOOKING = {"RIG.CHECK": 15, "RIG.WORKING": 30}
Times = "dict[tuple[str, str], list[float]]"


def measure(office: Any, words: "list[str]", within: "Callable[[Any], Any]") -> "list[Target]":
    """Measure every function whose name holds one of the words, print the tables, return the targets.

    `within` does what it is given, from outside or in the office's own thread.
    """
    books = {(one.kind, one.name): one.document(office) for one in candidates(words)}
    print(f"{len(books)} documents of {CELLS} cells, {clock.REPEATS} repeats, each after an echo …", flush=True)
    works = {key: (lambda book=book: office.recalculate(book)) for key, book in books.items()}
    taken, echoes = within(lambda: clock.against(works[YARDSTICK], works))
    for book in books.values():
        office.close(book)
    ratios = {key: Spread.of(a / b for a, b in zip(taken[key], echoes[key])) for key in taken}
    for kind in (NATIVE, ECHO, PLAIN, SAME, DIFFERENT, OTHER):
        table(kind, taken, ratios)
    every_echo = micro(one for times in echoes.values() for one in times)
    native = micro(one for key, times in taken.items() if key[0] == NATIVE for one in times)
    print("\nnoise of the machine, least–median–most")
    print(f"native formula {native:.2f} µs, echo {every_echo:.1f} µs, echo to echo {ratios[YARDSTICK]:.2f}")
    return targets(ratios)


def table(kind: str, taken: Times, ratios: "dict[tuple[str, str], Spread]") -> None:
    """One kind's functions by their ratio to the echo of a number."""
    ordered = sorted((found.median, key) for key, found in ratios.items() if key[0] == kind)
    if ordered:
        print(f"\n{kind:<32}{'µs a cell':>20}{'ratio to the echo':>24}")
    for _, key in ordered:
        print(f"{key[1]:<32}{f'{micro(taken[key]):.1f}':>20}{f'{ratios[key]:.2f}':>24}")


def micro(times: "Iterable[float]") -> Spread:
    return Spread.of(one / CELLS * 1e6 for one in times)


def targets(ratios: "dict[tuple[str, str], Spread]") -> "list[Target]":
    def of(wanted: str) -> "list[tuple[str, Spread]]":
        return [(name, found) for (kind, name), found in ratios.items() if kind == wanted and scalar(CALCS[name])]

    looking = [
        target(f"{name}, ratio to the echo", limit, [("", ratios[PLAIN, name])])
        for name, limit in LOOKING.items()
        if (PLAIN, name) in ratios
    ]
    return [
        *target("plain numbers, scalar functions, ratio to the echo", 2, of(PLAIN)),
        *target("texts all the same, scalar functions, ratio to the echo", 3, of(SAME)),
        *(one for found in looking for one in found),
    ]
