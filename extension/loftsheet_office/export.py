"""Export for a Supplier: asks what to put in and where to, then writes the .xlsx and the PDF beside it."""

from pathlib import Path
from typing import Any, Optional

from . import book as schedule
from . import files, supplier
from .desk import Desk
from .form import Form
from .place import Plan
from .refusal import Refusal

TITLE = "Export for a Supplier"
UNITS = (supplier.METRIC, supplier.IMPERIAL)
LABELS = {
    "Order": "~Order",
    "Make-up list": "~Make-up list of the stays",
    "Tang cutting list": "~Tang cutting list",
}


def run(desk: Desk) -> None:
    book = desk.document
    book.calculateAll()
    supplier.collect(book, ("Order",))
    chosen = what(desk, Plan(book))
    if chosen is None:
        return
    supplier.collect(book, chosen["lists"], chosen["own"])
    name = schedule.file_name(book, "order", schedule.value(book, "boat_revision"))
    path = files.place_to_write(desk, TITLE, f"{name}.xlsx")
    if path is None:
        return
    refuse_own_file(book, path)
    pdf = path.with_suffix(".pdf")
    if not desk.may_replace(TITLE, pdf):
        return
    with files.InWords(f"Writing {path.name}"):
        supplier.export(book, path, desktop=desk.create("com.sun.star.frame.Desktop"), **chosen)
    desk.say(
        TITLE, f"Written: {path}\nand, to print, {pdf.name} beside it.\n\nLook through both before you send them."
    )


def what(desk: Desk, plan: Plan) -> "Optional[dict[str, Any]]":
    """Ask what to put in; None when the user thinks better of it."""
    form = Form(desk, TITLE, width=260)
    form.words(
        "The file holds values only: no formulas and nothing else of this document. "
        "The supplier fills in prices and lead times; Read Prices Back takes them into Order."
    )
    wrong = schedule.value(plan.book, "boat_wrong")
    if wrong:
        form.words(f"Rows of the schedule that are not OK: {wrong:g}. Check the Schedule lists them.")
    units = form.choice("~Sizes in", UNITS)
    form.words("Lists to put in:")
    lists = {title: form.tick(LABELS[title], on=True) for title in supplier.LISTS}
    own = supplier.own_columns(plan)
    if own:
        form.words("Columns of your own. Tick one only if the supplier may see it:")
    ticks = form.ticks([f"{column.title} ({column.table})" for column in own], on=False)
    if form.ask("~Export…") != "yes":
        return None
    wanted = tuple(title for title, tick in lists.items() if tick.State)
    if not wanted:
        raise Refusal("No list was ticked, so there is nothing to write.")
    seen = tuple(column for column, tick in zip(own, ticks) if tick.State)
    return {"units": UNITS[units.SelectedItems[0]], "lists": wanted, "own": seen}


def refuse_own_file(book: Any, path: Path) -> None:
    """Never write over a document that is open, by whatever way its folder is reached."""
    address = book.getURL()
    own = files.local(address) if address.startswith("file:") else None
    if own and (own == path or (own.exists() and path.exists() and own.samefile(path))):
        raise Refusal("This is the schedule's own file. Give the export another name.")
