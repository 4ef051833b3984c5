"""Log a Job Card: what was made, pulled and measured, from the card of a stay into Log in one go.

Each of equal stays, or loops, gets a new row of its own; nothing that stands in Log already is touched.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any, Optional

from ..common.refusal import Refusal
from ..dialogs.cursor import lead_to
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..dialogs.undo import OneUndo
from ..drawings.job_cards import sides_of, sides_of_loop
from ..drawings.stay import LOOP, STAYS_WIRE
from ..workbook import as_typed, reading
from ..workbook.columns import all_columns
from ..workbook.named_tables import Table
from . import fill_rows
from .entries import TITLES

TITLE = TITLES["logcard"]
ALL_ALIKE = ("date", "made_by", "fitted")  # asked once for a card
OF_EACH = ("pulled_to", "measured", "ligament_left", "take_up_left")
OF_A_LOOP = ("pulled_to",)
DAYS = ("date", "fitted")
MADE = "M{}"  # the name of an entry

Typed = dict[str, str]  # by column; of several, by side and column


@dataclass(frozen=True)
class Card:
    """Of a stay, or of a rope loop with the stay that hangs in it, and how equal ones are told apart."""

    title: str
    stay: str
    sides: "tuple[str, ...]"
    of_each: "tuple[str, ...]" = OF_EACH

    def fields(self) -> "dict[str, list[tuple[str, str]]]":
        """For each line of the dialog the fields in it: column, or side and column, and label."""
        lines = {"": [(key, label(key)) for key in ALL_ALIKE]}
        for side in self.sides:
            before = f"{side}: " if side else ""
            lines[side or self.stay] = [(f"{side} {key}".strip(), f"{before}{label(key)}") for key in self.of_each]
        return lines


def label(key: str) -> str:
    column = all_columns()[f"log_{key}"]
    return f"{column.title}, {column.unit}" if column.unit else column.title


def run(desk: Desk) -> None:
    desk.must_be_writable()
    log = fill_rows.table_of(desk.document, "log")
    if log.sheet.isProtected():
        raise Refusal("The sheet Log is protected. Take the protection off with Tools, Protect Sheet first.")
    card = ask_which(desk)
    if card is None:
        return
    rows, typed = None, {"date": date.today().isoformat()}
    while rows is None:
        answers = ask_card(desk, card, typed)
        if answers is None:
            return
        typed = answers
        try:
            rows = rows_of(card, typed, names_in(log))
        except Refusal as refusal:
            desk.say(TITLE, str(refusal), warning=True)  # and once more, with what was typed
    with OneUndo(desk.document, TITLE):
        first = fill_rows.fill(desk.document, {"log": rows})
    lead_to(desk, first["log"])


def ask_which(desk: Desk) -> Optional[Card]:
    """Of which stay or loop the card is; None when the user thinks better of it."""
    cards = [*stays(desk.document), *loops(desk.document)]
    if not cards:
        raise Refusal("No stay of rope has a name yet, so there is no card.")
    form = Form(desk, TITLE, width=240)
    form.paragraph("Writes what stands in the boxes of a job card into new rows of Log.")
    picked = form.choice("~Stay", [card.title for card in cards])
    if form.ask("~Next") != "yes":
        return None
    card: Card = cards[picked.SelectedItems[0]]
    return card


def stays(book: Any) -> "Iterator[Card]":
    made_of = reading.columns_if_there(book, "stays", ("made_of",))
    for row in reading.rows(book, "stays", ("number",), made_of):
        if row.get("made_of") != STAYS_WIRE:
            name = str(row.get("name"))
            yield Card(name, name, sides_of(_many(row.get("number"))))


def loops(book: Any) -> "Iterator[Card]":
    """Those in which a stay hangs; none in a schedule from before there were chainplates."""
    if not book.NamedRanges.hasByName("chainplates_name"):
        return
    for row in reading.rows(book, "chainplates", ("made_of", "stay", "count")):
        if row.get("made_of") == LOOP and row.get("stay"):
            sides = sides_of_loop(_many(row.get("count")))
            yield Card(f"{row.get('name')}: {LOOP}", str(row.get("stay")), sides, OF_A_LOOP)


def _many(value: reading.Value) -> float:
    return value if isinstance(value, float) else 1.0


def ask_card(desk: Desk, card: Card, held: "Mapping[str, str]") -> Optional[Typed]:
    """What stands on the card; None when the user thinks better of it."""
    form = Form(desk, f"{TITLE}: {card.title}", width=390)
    made = {}
    for fields in card.fields().values():
        controls = form.beside(*((words, held.get(key, "")) for key, words in fields))
        made.update({key: control for (key, _), control in zip(fields, controls)})
    if form.ask("~Write") != "yes":
        return None
    return {key: str(control.Text).strip() for key, control in made.items()}


def names_in(log: Table) -> "set[str]":
    return {str(name) for (name,) in log.columns["name"].DataArray}


def rows_of(card: Card, typed: Typed, taken: "set[str]") -> "list[dict[str, str]]":
    """A row of Log for each side of which something was typed, or a refusal of what was typed."""
    shared = {key: _read(key, typed[key]) for key in ALL_ALIKE if typed[key]}
    if "date" not in shared:
        raise Refusal("Date is blank. Type the day of the work, such as 2026-04-11.")
    if "made_by" not in shared and "fitted" not in shared:
        raise Refusal("Type who made it, or the day when it was fitted: Log asks for one of them.")
    free = (name for name in map(MADE.format, range(1, len(taken) + 1 + len(card.sides))) if name not in taken)
    rows = []
    for side in card.sides:
        of = f"{side}: " if side else ""
        texts = {key: typed[f"{side} {key}".strip()] for key in card.of_each}
        measured = {key: _read(key, text, of) for key, text in texts.items() if text}
        if measured:
            rows.append({"name": next(free), "stay": card.stay, "which": side, **shared, **measured})
    if not rows:
        raise Refusal("Nothing that was made is typed: how hard it was pulled, what it measured, what is left.")
    return rows


def _read(key: str, text: str, of: str = "") -> str:
    name = f"log_{key}"
    if key in DAYS:
        return as_typed.day(name, text)
    return as_typed.number(name, text, all_columns()[name].unit, of) if key in OF_EACH else text
