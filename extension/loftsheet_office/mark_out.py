"""Mark-Out Sheet: draws the stub of the row the user is in at 1:1, as a drawing and a PDF."""

from typing import Any, Optional

from . import files, markout
from .desk import Desk
from .form import Form
from .place import Plan, active_cell
from .refusal import Refusal

TITLE = "Mark-Out Sheet"
PAPERS = ("A4", "Letter")


def run(desk: Desk) -> None:
    name = stub(desk)
    paper = paper_for(desk, name)
    if paper is None:
        return
    folder = files.folder(desk, TITLE, "Where to put the drawing and its PDF")
    if folder is None:
        return
    desk.document.calculateAll()
    with files.InWords("Writing the mark-out sheet"):
        drawing, pdf = markout.draw(desk.create("com.sun.star.frame.Desktop"), desk.document, name, folder, paper)
    desk.say(
        TITLE,
        f"Written: {pdf}\nand {drawing.name} beside it.\n\n"
        "Print the PDF at 100 % and measure its 100 mm bar before you saw.",
    )


def stub(desk: Desk) -> str:
    """The name of the stub in the row the user is in."""
    cell = active_cell(desk)
    table = Plan(desk.document).table_at(cell)
    row: Any = cell.CellAddress.Row
    if table is None or table.key != "tangs" or row not in table.rows or not table.named(row):
        raise Refusal("Click on the row of a stub on Tangs first; the sheet is drawn for that one.")
    return table.named(row)


def paper_for(desk: Desk, name: str) -> "Optional[str]":
    """Ask which paper it is for; None when the user thinks better of it."""
    form = Form(desk, TITLE, width=220)
    form.words(f"Draws {name} at 1:1.")
    paper = form.choice("~Paper", PAPERS)
    return PAPERS[paper.SelectedItems[0]] if form.ask("~Draw…") == "yes" else None
