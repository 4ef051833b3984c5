"""Paper Size: the paper that all sheets of the schedule are printed on, and that is offered first elsewhere."""

from ..common.papers import PAPERS
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..workbook import page_size
from .entries import TITLES

TITLE = TITLES["paper"]


def run(desk: Desk) -> None:
    desk.must_be_writable()
    book = desk.document
    form = Form(desk, TITLE, width=240)
    form.paragraph(
        "The paper that the sheets of this schedule are printed on. It is also the one that is offered first for"
        f" drawings and orders. Now: {page_size.paper_of(book) or 'another size'}. Undo does not take it back;"
        " come here again."
    )
    picked = form.choice("~Paper", tuple(PAPERS), page_size.at_first(book))
    if form.ask("~Set") != "yes":
        return
    paper = tuple(PAPERS)[picked.SelectedItems[0]]
    small = page_size.set_paper(book, paper)
    book.setModified(True)
    if small:
        desk.say(
            TITLE,
            f"All sheets are set to {paper}. Letters under {page_size.LEAST_POINTS:g} points are hard to read;"
            f" they come out smaller on: {', '.join(small)}. Make columns narrower there, or take larger paper.",
        )
