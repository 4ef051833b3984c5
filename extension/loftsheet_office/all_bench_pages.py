"""All Bench Pages: one PDF with a page for each stay, beside nothing of the user's."""

from . import bench_pages, files, paper
from . import book as schedule
from .desk import Desk

TITLE = "All Bench Pages"


def run(desk: Desk) -> None:
    book = desk.document
    book.calculateAll()
    _, pages = bench_pages.read(book)  # refuses what cannot be drawn before anything is asked
    size = paper.ask(desk, TITLE, f"Draws the marks on the rope of every stay, {len(pages)} in all, as one PDF.")
    if size is None:
        return
    folder = files.folder(desk, TITLE, "Where to put the PDF")
    if folder is None:
        return
    path = folder / f"{schedule.file_name(book, 'bench-pages', schedule.value(book, 'boat_revision'))}.pdf"
    if not desk.may_replace(TITLE, path):
        return
    with files.InWords(f"Writing {path.name}"):
        left_out = bench_pages.write(desk.create("com.sun.star.frame.Desktop"), book, path, size)
    without = "".join(f"\n{stay}: {why}" for stay, why in left_out.items())
    desk.say(TITLE, f"Written: {path}" + (f"\n\nNo marks on the pages of:{without}" if without else ""))
