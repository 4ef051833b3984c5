"""Taking times side by side: every one in turn in each repeat, so that what slows the machine slows all."""

import time
from collections.abc import Iterable
from dataclasses import dataclass
from statistics import median
from typing import Any, Callable

REPEATS = 7


@dataclass(frozen=True)
class Spread:
    """Least, median and largest of what was measured."""

    least: float
    median: float
    most: float

    @classmethod
    def of(cls, values: Iterable[float]) -> "Spread":
        found = sorted(values)
        return cls(found[0], median(found), found[-1])

    def __format__(self, digits: str) -> str:
        """Write all three in the format of one."""
        return "–".join(format(value, digits) for value in (self.least, self.median, self.most))


def seconds(work: Callable[[], Any]) -> float:
    began = time.perf_counter()
    work()
    return time.perf_counter() - began


def interleaved(works: "dict[Any, Callable[[], Any]]", repeats: int = REPEATS) -> "dict[Any, list[float]]":
    """Seconds of every work, once in each repeat; one repeat before them is a warm-up."""
    taken: dict[Any, list[float]] = {key: [] for key in works}
    for repeat in range(repeats + 1):
        for key, work in works.items():
            took = seconds(work)
            if repeat:
                taken[key].append(took)
    return taken


def against(
    yardstick: Callable[[], Any], works: "dict[tuple[str, str], Callable[[], Any]]"
) -> "tuple[dict[Any, list[float]], dict[Any, list[float]]]":
    """Seconds of every work by kind and name, and those of the yardstick taken before all of one name."""
    in_turn: dict[Any, Callable[[], Any]] = {}
    for kind, name in works:
        in_turn.setdefault(name, yardstick)
        in_turn[kind, name] = works[kind, name]
    taken = interleaved(in_turn)
    return {key: taken[key] for key in works}, {key: taken[key[1]] for key in works}
