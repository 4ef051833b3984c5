"""All Bench Pages: one PDF, with a trial splice for each rope and two pages for each stay."""

from typing import Optional

from . import bench_pages, files
from . import book as schedule
from .desk import Desk
from .drawing import PAPERS
from .form import Form

TITLE = "All Bench Pages"


def run(desk: Desk) -> None:
    book = desk.document
    book.calculateAll()
    _, pages = bench_pages.read(book)  # refuses what cannot be drawn before anything is asked
    paper = paper_for(desk, len(pages))
    if paper is None:
        return
    folder = files.folder(desk, TITLE, "Where to put the PDF")
    if folder is None:
        return
    path = folder / f"{schedule.file_name(book, 'bench-pages', schedule.value(book, 'boat_revision'))}.pdf"
    if not desk.may_replace(TITLE, path):
        return
    with files.InWords(f"Writing {path.name}"):
        left_out = bench_pages.write(desk.create("com.sun.star.frame.Desktop"), book, path, paper)
    without = "".join(f"\n{stay}: {why}" for stay, why in left_out.items())
    desk.say(TITLE, f"Written: {path}" + (f"\n\nNo marks on the pages of:{without}" if without else ""))


def paper_for(desk: Desk, number: int) -> Optional[str]:
    """Ask for the paper; None when the user thinks better of it."""
    form = Form(desk, TITLE, width=240)
    form.words(
        f"Draws the trial splice of every rope in use, and for each of {number} stays its marks and how to lash"
        " it. Next, you choose the folder for the PDF."
    )
    paper = form.choice("~Paper", tuple(PAPERS))
    return tuple(PAPERS)[paper.SelectedItems[0]] if form.ask("~Draw…") == "yes" else None
