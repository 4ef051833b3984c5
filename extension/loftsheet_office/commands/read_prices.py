"""Read Prices Back: takes prices and lead times from a file that a supplier filled in, by the item's name.

What is typed in Order already is not replaced without a yes of its own.
"""

from collections.abc import Iterator
from typing import Any

from ..common.refusal import Refusal
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..dialogs.undo import OneUndo
from ..supplier import quotes
from ..supplier.quotes import Answer, Change
from ..workbook import reading
from . import supplier_file
from .entries import TITLES

TITLE = TITLES["readprices"]


def run(desk: Desk) -> None:
    desk.must_be_writable()
    columns = {key: reading.cells(desk.document, f"order_{key}") for key in ("name", "quantity", *quotes.TO_FILL)}
    if columns["price"].Spreadsheet.isProtected():
        raise Refusal("The sheet Order is protected. Take the protection off with Tools, Protect Sheet first.")
    picked = supplier_file.pick(desk, TITLE, quotes.wanted(columns))
    if picked is None:
        return
    path, offers = picked
    answer = quotes.compare(offers, columns)
    if not answer.fresh and not answer.replacing:
        raise Refusal("\n".join([f"{path.name} has nothing that Order does not have already.", *answer.doubts]))
    changes = which(desk, TITLE, f"~What {path.name} says", answer)
    if changes:
        with OneUndo(desk.document, TITLE):
            for change in changes:
                change.write()


def which(desk: Desk, title: str, label: str, answer: Answer) -> "list[Change]":
    """Ask what to write: all, or only what replaces nothing; nothing when the user thinks better of it."""
    form = Form(desk, title, width=340)
    form.text(label, "\n".join(report(answer)), height=170)
    if not answer.replacing:
        return answer.fresh if form.ask("~Write") == "yes" else []
    form.paragraph(f"{len(answer.replacing)} of these numbers replace what stands in Order now. Replace it?")
    blanks: dict[str, Any] = {"blanks": ("Fill ~Blanks Only", None)} if answer.fresh else {}
    pressed = form.ask("~Replace", **blanks)
    if pressed == "blanks":
        return answer.fresh
    return [*answer.fresh, *answer.replacing] if pressed == "yes" else []


def report(answer: Answer) -> "Iterator[str]":
    """What does not match, what is replaced and what is new, line by line."""
    parts = (
        ("Left out:", answer.doubts),
        ("To be looked at:", answer.remarks),
        ("Replaces what stands there:", [change.line() for change in answer.replacing]),
        ("New:", [change.line() for change in answer.fresh]),
    )
    for title, lines in parts:
        if lines:
            yield from (title, *(f"  {line}" for line in lines), "")
