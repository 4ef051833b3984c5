"""What is written from a schedule: inside the office, where it is quick, or from here."""

import contextlib
from pathlib import Path

from tests import inside
from tests.inside import written


def order(book, path, *given, **named):
    """The supplier's file of a schedule that is open in the office of this test run."""
    inside.run(inside.at_work[0], written.order, book, path, *given, **named)


def bench_pages(office, book, path, paper="A4", only=()):
    """All bench pages or those of some stays; return the stays that have no marks, and why."""
    return inside.run(office, written.bench_pages, office.desktop, book, path, paper, tuple(only))


def job_cards(office, book, path, paper="A4"):
    """The job cards; return the stays that are not to be made yet, and why."""
    return inside.run(office, written.job_cards, office.desktop, book, path, paper)


def mark_out_sheet(office, book, name, folder, paper="A4", to_cut=False):
    """The mark-out sheet of a stub; return its drawing and its PDF."""
    drawn = inside.run(office, written.mark_out_sheet, office.desktop, book, name, folder, paper, to_cut)
    return [Path(one) for one in drawn]


@contextlib.contextmanager
def columns_as_packed(folder):
    """What is packed with the extension about its columns, put where the source looks for it."""
    from extension import column_data
    from extension.loftsheet_office.workbook import columns

    before, columns.FILE = columns.FILE, folder / "columns.json"
    columns.FILE.write_bytes(column_data.packed())
    columns.all_columns.cache_clear()
    try:
        yield
    finally:
        columns.FILE = before
        columns.all_columns.cache_clear()
