"""Library of the Yard: one Library for all boats, kept on this computer; new schedules start with it.

What would change is listed before anything does.
"""

from pathlib import Path
from typing import Any, Optional

from ..common.refusal import Refusal
from ..common.safe_files import InWords, local
from ..common.values import property_values
from ..dialogs import choose_file, clipboard
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..dialogs.undo import OneUndo
from ..workbook import library_items
from ..workbook.library_items import Library
from ..workbook.named_tables import Tables
from . import add_rows, put_right
from .entries import TITLES

TITLE = TITLES["library"]
FILE = "loftsheet/library.json"


def run(desk: Desk) -> None:
    place = of_the_yard(desk)
    form = Form(desk, TITLE, width=300)
    form.paragraph(
        "Save this schedule's Library as that of the yard, and every new schedule starts with it. Or take the "
        "Library of the yard, or of another schedule, into this one. What differs is listed first."
    )
    if not place.exists():
        form.paragraph("No Library of the yard has been saved on this computer yet.")
    taking: Any = {"book": ("From a ~Schedule…", None)}
    if place.exists():
        taking["yard"] = ("Take the ~Yard's…", None)
    chosen = form.ask("~Save as the Yard's…", **taking)
    if chosen == "yes":
        save(desk, place)
    elif chosen == "yard":
        take(desk, library_items.load(place), "the Library of the yard")
    elif chosen == "book":
        path = choose_file.file_to_read(desk, TITLE, choose_file.SCHEDULES)
        if path is not None:
            with InWords(f"Reading {path.name}", path):
                take(desk, of_file(desk, path), path.name)


def of_the_yard(desk: Desk) -> Path:
    """Where the Library of the yard is kept: with the office's own settings of this user."""
    settings = desk.create("com.sun.star.util.PathSubstitution").substituteVariables("$(user)", True)
    return local(settings) / FILE


def save(desk: Desk, place: Path) -> None:
    ours = library_items.read(desk.document)
    if place.exists():
        before = library_items.load(place)
        gone = [f"{name} goes" for table in before for name in before[table] if name not in ours.get(table, {})]
        lines = [*library_items.differences(before, ours), *gone]
        if not lines:
            raise Refusal("The Library of the yard is the same already.")
        if not agreed(desk, "What changes in the Library of the ~yard", lines, "~Save"):
            return
    with InWords("Saving the Library of the yard", place):
        library_items.save(ours, place)
    desk.say(TITLE, f"{sum(map(len, ours.values()))} items are saved. New Rig Schedule starts with them.")


def take(desk: Desk, theirs: Library, whose: str) -> None:
    desk.must_be_writable()
    lines = library_items.differences(library_items.read(desk.document), theirs)
    if not lines:
        raise Refusal(f"{whose[:1].upper()}{whose[1:]} has nothing that differs from this one.")
    if agreed(desk, f"What {whose} ~changes here; what it lacks stays", lines, "~Take"):
        with OneUndo(desk.document, TITLE):
            library_items.put(desk.document, theirs, add_rows.add)
            put_on_order(desk.document)


def agreed(desk: Desk, label: str, lines: "list[str]", yes: str) -> bool:
    form = Form(desk, TITLE, width=340)
    text = form.text(label, "\n".join(lines), height=170)
    return form.ask(yes, copy=("~Copy", lambda: clipboard.copy(desk, text.Text))) == "yes"


def put_on_order(book: Any) -> None:
    """Each item of the Library has its row on Order."""
    missing = tuple(put_right.unordered(Tables(book)))
    if missing:
        put_right.add_to_order(book, put_right.Unordered(missing))


def of_file(desk: Desk, path: Path) -> Library:
    """The Library of a schedule that is saved somewhere; it is opened unseen and read only."""
    settings = property_values(Hidden=True, ReadOnly=True)
    desktop = desk.create("com.sun.star.frame.Desktop")
    book = desktop.loadComponentFromURL(path.as_uri(), "_blank", 0, settings)
    if book is None:
        raise Refusal(f"The office cannot open {path.name}.")
    try:
        if not book.supportsService("com.sun.star.sheet.SpreadsheetDocument"):
            raise Refusal(f"{path.name} is no spreadsheet.")
        found = library_items.read(book)
    finally:
        book.close(True)
    if not any(found.values()):
        raise Refusal(f"{path.name} has no Library: it is no rig schedule.")
    return found


def start_with(desk: Desk, book: Any) -> None:
    """Give a new schedule the Library of the yard, if there is one."""
    theirs: Optional[Library] = None
    place = of_the_yard(desk)
    if place.exists():
        theirs = library_items.load(place)
    if not theirs or not any(theirs.values()):
        return
    book.enableAutomaticCalculation(False)  # what follows from it is worked out once, when all is there
    try:
        library_items.clear(book)
        for key in ("order_name", "order_kind"):
            book.NamedRanges.getByName(key).ReferredCells.clearContents(library_items.TYPED)
        library_items.put(book, theirs, add_rows.add)
        put_on_order(book)
    finally:
        book.enableAutomaticCalculation(True)
