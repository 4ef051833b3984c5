"""The demo: the schedule of an invented boat, made, recalculated, and written out for its owner and a supplier."""

from pathlib import Path
from typing import Any

from templates import writer
from templates.boats import marrowick


def run(office: Any, out: Path) -> None:
    """Write the schedule and the order of the demo boat to `out` and print a summary."""
    from extension import order_file

    path = out / "marrowick.ods"
    print("Demo: writing the schedule …", flush=True)
    writer.write(office, path, marrowick)
    print("Demo: opening it again and recalculating every cell …", flush=True)
    book = office.load(path)
    try:
        office.recalculate(book)
        office.store(book, path)
        print("Demo: schedule as PDF …", flush=True)
        office.store(book, path.with_suffix(".pdf"))
    finally:
        office.close(book)
