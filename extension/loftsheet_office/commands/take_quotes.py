"""Take Chosen Quotes: puts price, lead time and supplier of what was chosen on Quotes into Order.

What is typed in Order already is not replaced without a yes of its own.
"""

from ..common.refusal import Refusal
from ..dialogs.desk import Desk
from ..dialogs.undo import OneUndo
from ..supplier import quote_sheet, quotes
from ..supplier.quotes import Answer
from ..workbook import reading
from .entries import TITLES
from .read_prices import which

TITLE = TITLES["takequotes"]
HEADINGS = {"price": "Price", "lead": "Lead time, days", "supplier": "Supplier"}


def run(desk: Desk) -> None:
    desk.must_be_writable()
    book = desk.document
    if not quote_sheet.is_there(book):
        raise Refusal("There is no sheet Quotes yet. Add a Quote makes it from a supplier's file.")
    book.calculateAll()
    found, doubts = quote_sheet.chosen(book)
    if not found:
        raise Refusal("\n".join(["Nothing is chosen on Quotes. Pick a supplier in the column Chosen.", *doubts]))
    columns = {key: reading.cells(book, f"order_{key}") for key in ("name", *HEADINGS)}
    if columns["price"].Spreadsheet.isProtected():
        raise Refusal("The sheet Order is protected. Take the protection off with Tools, Protect Sheet first.")
    at = quotes.places(columns)
    answer = Answer(doubts=doubts)
    for one in found:
        if one.item not in at:
            answer.doubts.append(f"{one.item}: not in Order")
            continue
        for key, value in (("price", one.price), ("lead", one.lead), ("supplier", one.supplier)):
            if value is not None:
                cell = columns[key].getCellByPosition(0, at[one.item])
                quotes.put(answer, cell, one.item, HEADINGS[key], value)
    if not answer.fresh and not answer.replacing:
        raise Refusal("\n".join(["Order has all that is chosen on Quotes already.", *answer.doubts]))
    changes = which(desk, TITLE, "~What was chosen on Quotes", answer)
    if changes:
        with OneUndo(book, TITLE):
            for change in changes:
                change.write()
