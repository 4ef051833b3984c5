"""What is remembered between calls stays small, whatever texts and units come along."""

import functools
import sys

from loftsheet import CALCS, measure
from loftsheet.examples import EXAMPLES

CACHED = type(functools.lru_cache(len))
MOST = 5_000
BATCH = 6_000


def sizes():
    """How much each function of ours remembers that remembers its answers."""
    modules = [module for name, module in sys.modules.items() if name.startswith("loftsheet")]
    found = [held for module in modules for held in vars(module).values() if isinstance(held, CACHED)]
    return {one.__qualname__: one.cache_info().currsize for one in found}


def texts_in_every_unit(start):
    for number in range(start, start + BATCH):
        for dimension in (measure.LENGTH, measure.TEMPERATURE):
            unit = list(dimension.units)[number % len(dimension.units)]
            measure.number(f"{number} {unit}", dimension)
        measure.read_in(f"{number} mm", "in")
        measure.show(float(number), "in", 32.0)


def every_function():
    for name, given in EXAMPLES.items():
        CALCS[name].call(*given)


def test_caches_do_not_grow_with_what_is_typed():
    every_function()
    texts_in_every_unit(0)
    before = sizes()
    texts_in_every_unit(BATCH)
    every_function()
    after = sizes()
    assert {"read", "_conversion", "_registry"} <= set(after)
    assert after == before
    assert all(size <= MOST for size in after.values())
