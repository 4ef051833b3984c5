"""All Bench Pages: one PDF, with a trial splice for each rope, two pages for each stay and one for each loop."""

from ..dialogs.desk import Desk
from ..drawings import bench_pages
from ..workbook import faults
from . import draw_pages
from .entries import TITLES

TITLE = TITLES["benchpages"]


def run(desk: Desk) -> None:
    desk.document.calculateAll()
    faults.refuse_changed_formulas(desk.document)
    read = bench_pages.read(desk.document)  # refuses what cannot be drawn before anything is asked
    loops = f", and for each of {len(read.loops)} rope loops its marks" if read.loops else ""
    asked = (
        f"Draws the trial splice of every rope in use, and for each of {len(read.pages)} stays its marks and how"
        f" to lash it{loops}."
    )
    left_out = draw_pages.left_out("No marks on the pages of", read.without_marks)
    draw_pages.run(
        desk,
        TITLE,
        asked,
        read.file_name,
        lambda desktop, paper, path: bench_pages.write(desktop, read, path, paper),
        left_out,
    )
