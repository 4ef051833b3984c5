"""What is asked of a schedule inside the office of this test run."""

from typing import Any

from extension.inside import pack, run
from tests.inside import named_ranges

__all__ = ["at_work", "named_ranges", "names", "pack", "run"]
at_work: "list[Any]" = []  # the office of this test run, once it has been started


def names(book: Any) -> "dict[str, str]":
    """Where each named range of a schedule that is open in the office of this test run leads."""
    found: dict[str, str] = run(at_work[0], named_ranges.contents, book)
    return found
