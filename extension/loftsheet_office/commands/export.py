"""Export for a Supplier: asks what to put in and where to, then writes the .xlsx and the PDF beside it."""

from pathlib import Path
from textwrap import shorten
from typing import Any, Optional

from ..common.papers import PAPERS
from ..common.refusal import Refusal
from ..common.safe_files import InWords, local
from ..dialogs import choose_file
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..supplier import content, order_file, rig_page
from ..supplier.content import Content
from ..supplier.lists import IMPERIAL, METRIC
from ..workbook import faults
from ..workbook.page_size import at_first
from ..workbook.reading import file_name
from . import put_right
from .entries import TITLES

TITLE = TITLES["export"]
UNITS = (METRIC, IMPERIAL)
LONGEST = 200  # letters
WITH_RIG = "With the page of the ~rig, a PDF of its own"
LABELS = {
    "Order": "~Order",
    "Make-up list": "~Make-up list of the stays",
    "Rope loops": "Rope ~loops of chainplates",
    "Stub cutting list": "S~tub cutting list",
}


def run(desk: Desk) -> None:
    book = desk.document
    new = put_right.order_new_items(desk)
    book.calculateAll()
    faults.refuse_changed_formulas(book)
    chosen = choose(desk, content.read(book), new)
    if chosen is None:
        return
    wanted, units, paper, with_rig = chosen
    name = file_name("order", wanted.head.name, wanted.head.revision)
    path = choose_file.place_to_write(desk, TITLE, f"{name}.xlsx")
    if path is None:
        return
    refuse_own_file(book, path)
    pdf, rig = path.with_suffix(".pdf"), rig_page.place(path)
    if not all(desk.may_replace(TITLE, one) for one in ([pdf, rig] if with_rig else [pdf])):
        return
    with InWords(f"Writing {path.name}", path):
        desktop = desk.create("com.sun.star.frame.Desktop")
        order_file.write(wanted, path, units, desktop, paper, book if with_rig else None)
    beside, all_of = (f"{pdf.name} and {rig.name}", "all") if with_rig else (pdf.name, "both")
    written = f"Written: {path}\nand, to print, {beside} beside it."
    desk.say(TITLE, f"{written}\n\nLook through {all_of} before you send them.")


def choose(desk: Desk, everything: Content, new: str) -> "Optional[tuple[Content, str, str, bool]]":
    """Ask what to put in, the units, the paper, and for the page of the rig; None where the user thinks better."""
    form = Form(desk, TITLE, width=260)
    form.paragraph(
        "The file holds values only: no formulas and nothing else of this document. "
        "The supplier fills in prices and lead times; Read Prices Back takes them into Order."
    )
    if new:
        form.paragraph(new)
    if everything.not_ok:
        wrong = f"{everything.not_ok:g}"
        form.paragraph(f"Rows of the schedule that are not OK: {wrong}. Check the Schedule lists them.")
    if everything.copies:
        copies = " and ".join(everything.copies)
        form.paragraph(f"Nothing on {copies} is ordered: a copy of a sheet is not part of the schedule.")
    if everything.head.missing:
        form.paragraph(f"A supplier will ask: Boat does not say {' nor '.join(everything.head.missing)}.")
    for unproven in everything.unproven:
        form.paragraph(f"No certificate, and the file says so: {shorten(unproven.text(), LONGEST)}")
    units = form.choice("~Sizes in", UNITS)
    paper = form.choice("~Paper", tuple(PAPERS), at_first(desk.document))
    form.paragraph("Lists to put in:")
    lists = {title: form.tick(LABELS[title], on=True) for title in everything.lists}
    rig = form.tick(WITH_RIG, on=False) if rig_page.is_there(desk.document) else None
    own = everything.own
    if own:
        form.paragraph("Columns of your own. Tick one only if the supplier may see it:")
    ticks = form.ticks([f"{column.title} ({column.table})" for column in own], on=False)
    if form.ask("~Export…") != "yes":
        return None
    wanted = tuple(title for title, tick in lists.items() if tick.State)
    if not wanted:
        raise Refusal("No list was ticked, so there is nothing to write.")
    seen = tuple(column for column, tick in zip(own, ticks) if tick.State)
    on_paper = tuple(PAPERS)[paper.SelectedItems[0]]
    return everything.only(wanted, seen), UNITS[units.SelectedItems[0]], on_paper, bool(rig and rig.State)


def refuse_own_file(book: Any, path: Path) -> None:
    """Never write over a document that is open, by whatever way its folder is reached."""
    address = book.getURL()
    own = local(address) if address.startswith("file:") else None
    if own and (own == path or (own.exists() and path.exists() and own.samefile(path))):
        raise Refusal("This is the schedule's own file. Give the export another name.")
