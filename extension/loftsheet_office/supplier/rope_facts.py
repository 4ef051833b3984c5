"""How each rope of stays and loops is measured, and what its lengths rest on: for whoever cuts it elsewhere."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Callable

from loftsheet.splice import bench_tension

from ..workbook.reading import Row, Value

COLUMNS = ("rope", "rope_size")
OF_A_ROPE = ("take_up", "lasting_set", "trial")
ASSUMED = "assumed"  # the Library's word for a rope of which no trial splice was measured


def lines(made: "Sequence[Row]", library: "Mapping[str, Row]", force: "Callable[[float], str]") -> "Iterator[str]":
    """A line for each rope that a stay or loop is made of, in their order."""
    sizes = {str(row["rope"]): row["rope_size"] for row in made if isinstance(row.get("rope_size"), float)}
    for rope, size in sizes.items():
        assert isinstance(size, float)
        yield f"{rope}: measured and marked under {force(bench_tension(size))}{_trial(library.get(rope))}"


def _trial(rope: "Row | None") -> str:
    if rope is None:
        return ""
    take_up, lasting_set = rope.get("take_up"), rope.get("lasting_set")
    if not isinstance(take_up, float) or not isinstance(lasting_set, float):
        return ""
    where = "assumed; splice one for trial first" if rope.get("trial") == ASSUMED else "by a trial splice"
    return f"; take-up {_percent(take_up)}, lasting set {_percent(lasting_set)}, {where}"


def _percent(share: Value) -> str:
    return f"{100 * share:.2g} %" if isinstance(share, float) else "not given"
