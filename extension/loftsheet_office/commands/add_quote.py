"""Add a Quote: puts a supplier's file beside those of others on the sheet Quotes.

What a supplier offered there before is not replaced without a yes of its own.
"""

from typing import Optional

from ..common.refusal import Refusal
from ..common.safe_files import InWords
from ..dialogs import choose_file
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..dialogs.undo import OneUndo
from ..supplier import quote_sheet, quotes
from ..supplier.quotes import Offers
from ..workbook import reading
from .entries import TITLES
from .read_prices import ask_rates

TITLE = TITLES["addquote"]


def run(desk: Desk) -> None:
    desk.must_be_writable()
    book = desk.document
    items = quote_sheet.items(book)
    if not items:
        raise Refusal("Order has nothing to buy yet, so there is nothing to quote.")
    path = choose_file.file_to_read(desk, TITLE)
    if path is None:
        return
    with InWords(f"Reading {path.name}", path):
        rows = quotes.rows_of(path)
    currency = reading.as_text(reading.value(book, "boat_currency"))
    offers = quotes.offered(rows, items, currency)
    if offers.currencies:
        rates = ask_rates(desk, TITLE, path.name, offers.currencies, currency)
        if rates is None:
            return
        offers = quotes.offered(rows, items, currency, rates)
    if not any(offers.values.values()):
        raise Refusal("\n".join([f"{path.name} offers nothing that Order wants.", *offers.doubts]))
    supplier = ask_supplier(desk, path.stem, items, offers)
    if supplier is None:
        return
    quote_sheet.slot_for(book, supplier)  # refuses one too many before anything is written
    old = quote_sheet.old_offers(book, supplier)
    if old and not desk.agrees(TITLE, f"Quotes has {len(old)} offers of {supplier} already. Replace them all?"):
        return
    with OneUndo(book, TITLE):
        quote_sheet.add(book, supplier, offers.values)
    desk.controller.setActiveSheet(book.Sheets.getByName(quote_sheet.NAME))


def ask_supplier(desk: Desk, name: str, items: "list[str]", offers: Offers) -> Optional[str]:
    """Show what the file says and ask whose it is; None when the user thinks better of it."""
    form = Form(desk, TITLE, width=340)
    form.text(f"~What {name} says", "\n".join(report(items, offers)), height=150)
    typed = form.short("~Supplier", name)
    if form.ask("~Add") != "yes":
        return None
    supplier = " ".join(str(typed.Text).split())
    if not supplier:
        raise Refusal("Type the supplier's name, so that it can be told from the others.")
    return supplier


def report(items: "list[str]", offers: Offers) -> "list[str]":
    """What is left out, what is not offered, and what is, line by line."""
    priced = {item: values for item, values in offers.values.items() if "price" in values}
    lacking = [item for item in items if item not in priced]
    lines = []
    for title, found in (
        ("Left out:", offers.doubts),
        (f"No price for {len(lacking)} of {len(items)} items:", lacking),
        ("Offered:", [_line(item, values) for item, values in offers.values.items() if values]),
    ):
        if found:
            lines += [title, *(f"  {line}" for line in found), ""]
    return lines


def _line(item: str, values: "dict[str, float]") -> str:
    parts = ([f"{values['price']:g}"] if "price" in values else []) + (
        [f"{values['lead']:g} days"] if "lead" in values else []
    )
    return f"{item}: {', '.join(parts)}"
