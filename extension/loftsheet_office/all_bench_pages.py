"""All Bench Pages: one PDF with a page for each stay, beside nothing of the user's."""

from . import bench_pages, export, files
from .desk import Desk

TITLE = "All Bench Pages"


def run(desk: Desk) -> None:
    folder = files.folder(desk, TITLE, "Where to put the PDF")
    if folder is None:
        return
    book = desk.document
    book.calculateAll()
    path = folder / export.file_name(book).replace("-order.xlsx", "-bench-pages.pdf")
    if path.exists() and not desk.agrees(TITLE, f"{path.name} is there already. Replace it?"):
        return
    with files.InWords(f"Writing {path.name}"):
        left_out = bench_pages.write(desk.create("com.sun.star.frame.Desktop"), book, path)
    without = "".join(f"\n{stay}: {why}" for stay, why in left_out.items())
    desk.say(TITLE, f"Written: {path}" + (f"\n\nNo marks on the pages of:{without}" if without else ""))
