"""Job Cards: one PDF with a page for each stay and its stub, to work by and to note what came out."""

from ..dialogs.desk import Desk
from ..drawings import job_cards
from ..workbook import faults
from . import draw_pages
from .entries import TITLES

TITLE = TITLES["jobcards"]


def run(desk: Desk) -> None:
    desk.document.calculateAll()
    faults.refuse_changed_formulas(desk.document)
    read = job_cards.read(desk.document)  # refuses what cannot be drawn before anything is asked
    loops = f" and {len(read.loops)} rope loops" if read.loops else ""
    asked = (
        f"Draws a card for each of {len(read.cards)} stays{loops}: what is to come out, its marks, its stub, and"
        " boxes for who made it, how hard it was pulled and what it measured. They stand in the order of Log's"
        " columns, to be typed there."
    )
    left_out = draw_pages.left_out("Not to be made yet", read.not_ready)
    draw_pages.run(
        desk,
        TITLE,
        asked,
        read.file_name,
        lambda desktop, paper, path: job_cards.write(desktop, read, path, paper),
        left_out,
    )
