"""What the bench is to come to; a target missed is said and fails nothing."""

from collections.abc import Iterable
from dataclasses import dataclass

from tests.bench.clock import Spread


@dataclass(frozen=True)
class Target:
    """A limit, and what was measured, by name; each median is held against it."""

    words: str
    limit: float
    measured: "tuple[tuple[str, Spread], ...]"

    def lines(self) -> "Iterable[str]":
        """Say whether it is met: the worst, and every one that is beyond the limit."""
        ordered = sorted(self.measured, key=lambda one: -one[1].median)
        beyond = [one for one in ordered if one[1].median > self.limit]
        name, worst = ordered[0]
        counted = f", {len(beyond)} of {len(ordered)} beyond" if beyond and name else ""
        yield f"{'missed' if beyond else 'met':<8}{self.words} ≤ {self.limit:g}: {worst:.3g} {name}{counted}"
        for name, found in beyond[1:]:
            yield f"{'':<12}{name}: {found:.3g}"


def target(words: str, limit: float, measured: "Iterable[tuple[str, Spread]]") -> "list[Target]":
    """A target, if anything was measured for it."""
    found = tuple(measured)
    return [Target(words, limit, found)] if found else []


def single(value: float) -> Spread:
    """A figure that has no spread."""
    return Spread(value, value, value)
