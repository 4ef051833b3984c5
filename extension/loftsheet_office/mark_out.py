"""Mark-Out Sheet: draws the stub of the row the user is in at 1:1, as a drawing and a PDF."""

from typing import Any

from . import files, markout, paper
from .desk import Desk
from .place import Plan, active_cell
from .refusal import Refusal

TITLE = "Mark-Out Sheet"


def run(desk: Desk) -> None:
    book = desk.document
    book.calculateAll()
    name = stub(desk)
    markout.read(book, name)  # refuses what cannot be drawn before anything is asked
    size = paper.ask(desk, TITLE, f"Draws {name} at 1:1, as a PDF to print and as a drawing.")
    if size is None:
        return
    folder = files.folder(desk, TITLE, "Where to put the drawing and its PDF")
    if folder is None or not desk.may_replace(TITLE, *markout.paths(book, name, folder)):
        return
    with files.InWords("Writing the mark-out sheet"):
        drawing, pdf = markout.draw(desk.create("com.sun.star.frame.Desktop"), book, name, folder, size)
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
