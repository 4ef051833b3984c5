"""Job Cards: one PDF with a page for each stay and its stub, to work by and to note what came out."""

from typing import Optional

from ..common.papers import PAPERS
from ..common.safe_files import InWords
from ..dialogs import choose_file
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..drawings import job_cards
from ..workbook.page_size import at_first
from .entries import TITLES

TITLE = TITLES["jobcards"]


def run(desk: Desk) -> None:
    desk.document.calculateAll()
    read = job_cards.read(desk.document)  # refuses what cannot be drawn before anything is asked
    paper = paper_for(desk, len(read.cards))
    if paper is None:
        return
    folder = choose_file.folder(desk, TITLE, "Where to put the PDF")
    if folder is None:
        return
    path = folder / read.file_name
    if not desk.may_replace(TITLE, path):
        return
    with InWords(f"Writing {path.name}", path):
        job_cards.write(desk.create("com.sun.star.frame.Desktop"), read, path, paper)
    without = "".join(f"\n{stay}: {why}" for stay, why in read.not_ready.items())
    desk.say(TITLE, f"Written: {path}" + (f"\n\nNot to be made yet:{without}" if without else ""))


def paper_for(desk: Desk, number: int) -> Optional[str]:
    """Ask for the paper; None when the user thinks better of it."""
    form = Form(desk, TITLE, width=240)
    form.paragraph(
        f"Draws a card for each of {number} stays: what is to come out, its marks, its stub, and boxes for who"
        " made it, how hard it was pulled and what it measured. They stand in the order of Log's columns, to be"
        " typed there."
        " Next, you choose the folder for the PDF."
    )
    paper = form.choice("~Paper", tuple(PAPERS), at_first(desk.document))
    return tuple(PAPERS)[paper.SelectedItems[0]] if form.ask("~Draw…") == "yes" else None
