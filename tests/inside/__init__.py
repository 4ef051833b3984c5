"""What is asked of a schedule inside the office of this test run."""

from typing import Any

from extension.inside import pack, run
from tests.inside import all_cells, named_ranges

__all__ = ["at_work", "cells", "named_ranges", "names", "pack", "run"]
at_work: "list[Any]" = []  # the office of this test run, once it has been started


def names(book: Any, office: Any = None) -> "dict[str, str]":
    """Where each named range of an open schedule leads."""
    found: dict[str, str] = run(office or at_work[0], named_ranges.contents, book)
    return found


def cells(book: Any, office: Any = None) -> "list[Any]":
    """What the cells of an open schedule hold, sheet by sheet: their rows, and which are errors."""
    found: list[Any] = run(office or at_work[0], all_cells.held, book)
    return found
