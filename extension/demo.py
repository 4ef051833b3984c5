"""The demo: the schedule of an invented boat, made, recalculated, and written out for its owner and a supplier."""

from pathlib import Path
from typing import Any

from extension.loftsheet_office.supplier import content, order_file
from extension.loftsheet_office.workbook import reading
from extension.template import of_boat
from templates.boats import marrowick, sandlebee

BOATS = {"marrowick": marrowick, "sandlebee": sandlebee}


def run(office: Any, out: Path, made_from: str, name: str) -> None:
    """Write the schedule and the order of the demo boat of that name to `out` and print a summary."""
    path, order = out / f"{name}.ods", out / f"{name}-order.xlsx"
    fresh = of_boat(office, BOATS[name], made_from)
    say("opening the schedule and recalculating every cell …")
    book = office.load(fresh, Hidden=False)
    try:
        office.recalculate(book)
        office.store(book, path)
        say("the schedule as PDF …")
        office.store(book, path.with_suffix(".pdf"))
        say("the order for a supplier, from the recalculated schedule …")
        order_file.write(content.read(book).only(), order, desktop=office.desktop)
        print(summary(book))
    finally:
        office.close(book)
    for file in (path, path.with_suffix(".pdf"), order, order.with_suffix(".pdf")):
        print(f"  {file}")


def summary(book: Any) -> str:
    """Per stay its rope, cut length, margin and check."""
    lines = [f"\n{'stay':<30}{'off':>4}  {'rope':<22}{'cut mm':>8}{'margin':>8}  check"]
    for row in reading.error_free_rows(book, "stays", ("number", "rope", "cut", "margin", "check")):
        stay = f"{row['name']:<30}{row['number']:>4.0f}"
        sizes = f"{_shown(row['cut'], 0):>8}{_shown(row['margin'], 2):>8}"
        lines.append(f"{stay}  {row['rope'] or '-':<22}{sizes}  {row['check']}")
    lines.append(f"rows that are not OK, all sheets: {reading.value(book, 'boat_wrong'):.0f}\n")
    return "\n".join(lines)


def _shown(number: Any, digits: int) -> str:
    return "-" if number is None else f"{number:.{digits}f}"


def say(words: str) -> None:
    print(f"Demo: {words}", flush=True)
