"""Add a Quote: puts a supplier's file beside those of others on the sheet Quotes.

What a supplier offered there before is not replaced without a yes of its own.
"""

from collections.abc import Collection, Iterator, Mapping
from typing import Optional

from ..common.refusal import Refusal
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..dialogs.undo import OneUndo
from ..supplier import quote_sheet
from ..supplier.quotes import Offers
from . import supplier_file
from .entries import TITLES

TITLE = TITLES["addquote"]
MOST_SHOWN = 8

Given = Mapping[str, Mapping[str, float]]  # price and lead time by item


def run(desk: Desk) -> None:
    desk.must_be_writable()
    book = desk.document
    items = quote_sheet.items(book)
    if not items:
        raise Refusal("Order has nothing to buy yet, so there is nothing to quote.")
    picked = supplier_file.pick(desk, TITLE, items)
    if picked is None:
        return
    path, offers = picked
    if not any(offers.values.values()):
        raise Refusal("\n".join([f"{path.name} offers nothing that Order wants.", *offers.doubts]))
    supplier = ask_supplier(desk, path.stem, items, offers)
    if supplier is None:
        return
    quote_sheet.slot_for(book, supplier)  # refuses one too many before anything is written
    old = quote_sheet.old_offers(book, supplier)
    if old and not may_replace(desk, supplier, old, offers.values):
        return
    with OneUndo(book, TITLE):
        quote_sheet.add(book, supplier, offers.values)
    desk.controller.setActiveSheet(book.Sheets.getByName(quote_sheet.NAME))


def ask_supplier(desk: Desk, name: str, items: "Collection[str]", offers: Offers) -> Optional[str]:
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


def may_replace(desk: Desk, supplier: str, old: Given, new: Given) -> bool:
    """Ask, with what would change, before the offers of a supplier of that name are replaced."""
    changed = list(changes(old, new))
    if not changed:
        raise Refusal(f"Quotes has these very offers of {supplier} already. Nothing was changed.")
    more = [f"and {len(changed) - MOST_SHOWN} more"] if len(changed) > MOST_SHOWN else []
    asked = f"Quotes has {len(old)} offers of {supplier} already. Replace them all? This would change:"
    shown = [f"  {line}" for line in changed[:MOST_SHOWN]]
    another = "If it is another supplier of that name, say No and add the file under a name of its own."
    return desk.agrees(TITLE, "\n".join([asked, *shown, *more, another]))


def changes(old: Given, new: Given) -> "Iterator[str]":
    """Each item for which two answers of a supplier differ, with both."""
    for item in dict.fromkeys((*old, *new)):
        then, now = (dict(given.get(item, {})) for given in (old, new))
        if then != now:
            yield f"{item}: {_offer(then)}, now {_offer(now)}"


def report(items: "Collection[str]", offers: Offers) -> "list[str]":
    """What is left out, what is not offered, and what is, line by line."""
    priced = {item: values for item, values in offers.values.items() if "price" in values}
    lacking = [item for item in items if item not in priced]
    lines = []
    for title, found in (
        ("Left out:", offers.doubts),
        ("To be looked at:", offers.remarks),
        (f"No price for {len(lacking)} of {len(items)} items:", lacking),
        ("Offered:", [_line(item, values) for item, values in offers.values.items() if values]),
    ):
        if found:
            lines += [title, *(f"  {line}" for line in found), ""]
    return lines


def _line(item: str, values: "Mapping[str, float]") -> str:
    return f"{item}: {_offer(values)}"


def _offer(values: "Mapping[str, float]") -> str:
    price = [f"{values['price']:g}"] if "price" in values else []
    lead = [f"{values['lead']:g} days"] if "lead" in values else []
    return ", ".join(price + lead) or "nothing"
