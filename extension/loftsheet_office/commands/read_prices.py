"""Read Prices Back: takes prices and lead times from a file that a supplier filled in, by the item's name.

What is typed in Order already is not replaced without a yes of its own.
"""

from collections.abc import Iterator, Sequence
from typing import Any, Optional

from ..common.refusal import Refusal
from ..common.safe_files import InWords
from ..dialogs import choose_file
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..dialogs.undo import OneUndo
from ..supplier import quotes
from ..supplier.quotes import Answer, Change
from ..workbook import reading
from .entries import TITLES

TITLE = TITLES["readprices"]
MOST_RATE = 1_000_000.0


def run(desk: Desk) -> None:
    desk.must_be_writable()
    columns = {key: reading.cells(desk.document, f"order_{key}") for key in ("name", "quantity", *quotes.TO_FILL)}
    if columns["price"].Spreadsheet.isProtected():
        raise Refusal("The sheet Order is protected. Take the protection off with Tools, Protect Sheet first.")
    path = choose_file.file_to_read(desk, TITLE)
    if path is None:
        return
    with InWords(f"Reading {path.name}", path):
        rows = quotes.rows_of(path)
    currency = reading.as_text(reading.value(desk.document, "boat_currency"))
    answer = quotes.compare(rows, columns, currency)
    if answer.currencies:
        rates = ask_rates(desk, TITLE, path.name, answer.currencies, currency)
        if rates is None:
            return
        answer = quotes.compare(rows, columns, currency, rates)
    if not answer.fresh and not answer.replacing:
        raise Refusal("\n".join([f"{path.name} has nothing that Order does not have already.", *answer.doubts]))
    changes = which(desk, TITLE, f"~What {path.name} says", answer)
    if changes:
        with OneUndo(desk.document, TITLE):
            for change in changes:
                change.write()


def ask_rates(
    desk: Desk, title: str, name: str, currencies: "Sequence[str]", currency: str
) -> "Optional[dict[str, float]]":
    """Ask what each other currency is worth; one left blank has none. None when the user thinks better of it."""
    form = Form(desk, title, width=280)
    ours = currency or "the currency of your prices"
    form.paragraph(
        f"{name} has prices in another currency than {ours}. Type how much of {ours} one of it is, on the day you"
        " would pay. Left blank, these prices are left out; nothing is converted by guess."
    )
    typed = {theirs: form.short(f"1 {theirs} in {ours}", "") for theirs in currencies}
    if form.ask("~Go On") != "yes":
        return None
    return {theirs: _rate(theirs, field.Text) for theirs, field in typed.items() if field.Text.strip()}


def _rate(currency: str, typed: str) -> float:
    try:
        rate = float(typed.strip().replace(",", "."))
    except ValueError:
        rate = 0.0
    if not 0 < rate < MOST_RATE:
        raise Refusal(f'"{typed}" for 1 {currency} is no rate. Type a number above 0, such as 0.92.')
    return rate


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
        ("Replaces what stands there:", [change.line() for change in answer.replacing]),
        ("New:", [change.line() for change in answer.fresh]),
    )
    for title, lines in parts:
        if lines:
            yield from (title, *(f"  {line}" for line in lines), "")
