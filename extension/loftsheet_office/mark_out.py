"""Mark-Out Sheet: draws a stub at 1:1, as a drawing and a PDF; the stub of the user's row is offered first."""

from typing import Optional

from . import files, markout
from .desk import Desk
from .drawing import PAPERS
from .form import Form
from .place import Plan, active_cell
from .refusal import Refusal

TITLE = "Mark-Out Sheet"


def run(desk: Desk) -> None:
    book = desk.document
    book.calculateAll()
    chosen = what(desk)
    if chosen is None:
        return
    name, paper = chosen
    markout.read(book, name)  # refuses what cannot be drawn before a folder is asked for
    folder = files.folder(desk, TITLE, "Where to put the drawing and its PDF")
    if folder is None or not desk.may_replace(TITLE, *markout.paths(book, name, folder)):
        return
    with files.InWords("Writing the mark-out sheet"):
        drawing, pdf = markout.draw(desk.create("com.sun.star.frame.Desktop"), book, name, folder, paper)
    desk.say(
        TITLE,
        f"Written: {pdf}\nand {drawing.name} beside it.\n\n"
        "Print the PDF at 100 % and measure its 100 mm bar before you saw.",
    )


def what(desk: Desk) -> "Optional[tuple[str, str]]":
    """Ask for the stub and the paper; None when the user thinks better of it."""
    names, here = stubs(desk)
    if not names:
        raise Refusal("No stub on Tangs has a name yet. Fill in its row first.")
    form = Form(desk, TITLE, width=240)
    form.words("Draws a stub at 1:1, as a PDF to print and as a drawing. Next, you choose the folder for them.")
    stub = form.choice("~Stub", names, names.index(here) if here in names else 0)
    paper = form.choice("~Paper", tuple(PAPERS))
    if form.ask("~Draw…") != "yes":
        return None
    return names[stub.SelectedItems[0]], tuple(PAPERS)[paper.SelectedItems[0]]


def stubs(desk: Desk) -> "tuple[list[str], str]":
    """The names of all stubs, and of the one whose row the user is in, "" if in none."""
    plan = Plan(desk.document)
    table = next((table for table in plan.tables if table.key == "tangs"), None)
    if table is None:
        raise Refusal("The named range tangs_name is no longer in this schedule; restore it from an older copy.")
    names = [name for name in map(table.named, table.rows) if name]
    try:
        cell = active_cell(desk)
    except Refusal:
        return names, ""
    inside = plan.table_at(cell) is table and cell.CellAddress.Row in table.rows
    return names, table.named(cell.CellAddress.Row) if inside else ""
