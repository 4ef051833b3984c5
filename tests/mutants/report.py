"""Tries mutants module by module and says which survive."""

import random
from collections.abc import Sequence
from pathlib import Path
from typing import Optional

from tests.mutants.changes import Mutant, mutants
from tests.mutants.judge import ROOT, survivors

SOURCES = ROOT / "functions" / "loftsheet"
# Nothing is worked out in these.
LEFT_OUT = ("__init__", "cautions", "version")
MODULES = sorted(
    ".".join(path.relative_to(SOURCES).with_suffix("").parts)
    for path in SOURCES.rglob("*.py")
    if path.stem not in LEFT_OUT
)
DUE = 0.95


def equivalents() -> "dict[str, str]":
    """Mutants that do the same as the original, each with its reason."""
    reason, found = "", {}
    for line in Path(__file__).with_name("equivalent.txt").read_text(encoding="utf-8").splitlines()[1:]:
        if line.startswith("# "):
            reason = line[2:]
        elif line:
            found[line] = reason
    return found


EQUIVALENT = equivalents()


def run(modules: "Sequence[str]", sample: Optional[int] = None, seed: int = 0) -> int:
    """Print what survives and the share that was noticed; 0 if that is enough."""
    chosen = choose(modules, sample, seed)
    tried, left = 0, 0
    for module in modules:
        some = [mutant for mutant in chosen if mutant.module == module]
        survived = survivors(module, some) if some else []
        tried, left = tried + len(some), left + len(survived)
        print(f"{module}: {len(some) - len(survived)} of {len(some)} noticed", flush=True)
        for mutant in survived:
            print(f"  {mutant.line}: {mutant.key}", flush=True)
    share = 1 - left / tried if tried else 1.0
    print(f"{tried - left} of {tried} noticed, {share:.1%}; {DUE:.0%} are due")
    return int(share < DUE)


def choose(modules: "Sequence[str]", sample: Optional[int], seed: int, equivalent: bool = False) -> "list[Mutant]":
    """Every mutant, those that are equivalent only if they are asked for, or so many by lot."""
    every = [
        mutant
        for module in modules
        for mutant in mutants(module, Path(SOURCES / f"{module.replace('.', '/')}.py").read_text(encoding="utf-8"))
        if equivalent or mutant.key not in EQUIVALENT
    ]
    return every if sample is None else random.Random(seed).sample(every, min(sample, len(every)))
