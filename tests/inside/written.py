"""What is written from a schedule, as the menu's commands do it: read once, written once.

It runs in a test's own Python and inside the office.
"""

import importlib
import importlib.util
from dataclasses import replace

# Inside the office it is the extension's own.
ROOM = "loftsheet_office." if importlib.util.find_spec("loftsheet_office") else "extension.loftsheet_office."
LISTS = ("Order", "Make-up list", "Rope loops", "Stub cutting list")


def order(book, path, units="metric", lists=LISTS, own=(), desktop=None, paper="A4"):
    """The supplier's file, with the office's desktop its PDF too; columns of the user's own by their titles."""
    content, order_file = module("supplier.content"), module("supplier.order_file")
    everything = content.read(book)
    seen = [column for column in everything.own if column.title in own]
    order_file.write(everything.only(lists, seen), path, units, desktop, paper)


def bench_pages(desktop, book, path, paper="A4", only=()):
    """All bench pages or those of some stays; return the stays that have no marks, and why."""
    pages = module("drawings.bench_pages")
    sheets = pages.read(book)
    if only:
        wanted = tuple(page for page in sheets.pages if page.stay in only)
        sheets = replace(sheets, pages=wanted, trials=(), loops=())
    pages.write(desktop, sheets, path, paper)
    return sheets.without_marks


def mark_out_sheet(desktop, book, name, folder, paper="A4", to_cut=False):
    """The mark-out sheet of a stub; return its drawing and its PDF."""
    stub = module("drawings.stub").read(book, name)
    return module("drawings.mark_out_sheet").draw(desktop, stub, folder, paper, to_cut)


def job_cards(desktop, book, path, paper="A4"):
    """The job cards; return the stays that are not to be made yet, and why."""
    cards = module("drawings.job_cards")
    read = cards.read(book)
    cards.write(desktop, read, path, paper)
    return read.not_ready


def module(name):
    return importlib.import_module(ROOM + name)
