"""All Bench Pages: one PDF, with a trial splice for each rope and two pages for each stay."""

from typing import Optional

from ..common.papers import PAPERS
from ..common.safe_files import InWords
from ..dialogs import choose_file
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..drawings import bench_pages
from ..workbook.page_size import at_first
from .entries import TITLES

TITLE = TITLES["benchpages"]


def run(desk: Desk) -> None:
    desk.document.calculateAll()
    read = bench_pages.read(desk.document)  # refuses what cannot be drawn before anything is asked
    paper = paper_for(desk, len(read.pages))
    if paper is None:
        return
    folder = choose_file.folder(desk, TITLE, "Where to put the PDF")
    if folder is None:
        return
    path = folder / read.file_name
    if not desk.may_replace(TITLE, path):
        return
    with InWords(f"Writing {path.name}", path):
        bench_pages.write(desk.create("com.sun.star.frame.Desktop"), read, path, paper)
    without = "".join(f"\n{stay}: {why}" for stay, why in read.without_marks.items())
    desk.say(TITLE, f"Written: {path}" + (f"\n\nNo marks on the pages of:{without}" if without else ""))


def paper_for(desk: Desk, number: int) -> Optional[str]:
    """Ask for the paper; None when the user thinks better of it."""
    form = Form(desk, TITLE, width=240)
    form.paragraph(
        f"Draws the trial splice of every rope in use, and for each of {number} stays its marks and how to lash"
        " it. Next, you choose the folder for the PDF."
    )
    paper = form.choice("~Paper", tuple(PAPERS), at_first(desk.document))
    return tuple(PAPERS)[paper.SelectedItems[0]] if form.ask("~Draw…") == "yes" else None
