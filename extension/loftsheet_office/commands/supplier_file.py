"""A supplier's file as the commands take it: picked, read, and its prices in the schedule's currency."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Optional

from ..common.refusal import Refusal
from ..common.safe_files import InWords
from ..dialogs import choose_file
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..supplier import quotes
from ..supplier.quotes import Offers
from ..workbook import reading

MOST_RATE = 1_000_000.0


def pick(desk: Desk, title: str, items: "Mapping[str, float]") -> "Optional[tuple[Path, Offers]]":
    """The file and what it offers of what Order wants; None when the user thinks better of it."""
    path = choose_file.file_to_read(desk, title)
    if path is None:
        return None
    with InWords(f"Reading {path.name}", path):
        rows = quotes.rows_of(path)
    currency = reading.as_text(reading.value(desk.document, "boat_currency"))
    offers = quotes.offered(rows, items, currency)
    if offers.currencies:
        rates = ask_rates(desk, title, path.name, offers.currencies, currency)
        if rates is None:
            return None
        offers = quotes.offered(rows, items, currency, rates)
    return path, offers


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
