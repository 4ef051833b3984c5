"""Every limit and default of every argument is written out in limits.txt: none can change unseen.

(0, 100] is above 0 and up to 100, [0, 20] has 0 in it, ± is both signs; then the unit, "whole" where a broken
number is refused, and = the default.
"""

from pathlib import Path

import pytest
from loftsheet import CALCS
from loftsheet.registry import SMALLEST, Quantity

LIMITS = Path(__file__).with_name("limits.txt").read_text(encoding="utf-8")
PINNED = dict(line.split(": ", 1) for line in LIMITS.splitlines())


def limits_of(quantity: Quantity) -> str:
    if quantity.dimension is None:
        return quantity.form.name
    least, most = quantity.least, quantity.most
    bottom = "(0" if least == SMALLEST else f"[{least:.15g}"
    span = f"±{most:.15g}" if least == -most else f"{bottom}, {most:.15g}]"
    return " ".join([span, quantity.unit, "whole" if quantity.whole else ""]).strip().replace("  ", " ")


def written(calc) -> str:
    """The limits of a function's arguments as they stand above."""
    parts = []
    for argument in calc.arguments:
        default = "" if argument.default in (None, ()) else f" = {argument.default}"
        column = " column" if argument.quantity.form.name == "column" else ""
        parts.append(f"{argument.name} {limits_of(argument.quantity)}{column}{default}")
    return "; ".join(parts) or "none"


@pytest.mark.parametrize("name", PINNED)
def test_limits_and_defaults_are_what_is_written_out(name):
    assert written(CALCS[name]) == PINNED[name]


def test_every_function_has_its_limits_written_out():
    missing = [f"{name}: {written(calc)}" for name, calc in CALCS.items() if name not in PINNED]
    assert not missing, "write into limits.txt:\n" + "\n".join(missing)
    assert set(PINNED) == set(CALCS)
