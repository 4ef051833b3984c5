"""Mark-Out Sheet: draws a stub at 1:1, as a drawing and a PDF; the stub of the user's row is offered first.

If asked for, with end plate and cutting template beside it as files that a shop cuts from.
"""

from typing import Optional

from ..common.papers import PAPERS
from ..common.refusal import Refusal
from ..common.safe_files import InWords
from ..dialogs import choose_file
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..drawings import mark_out_sheet, stub
from ..workbook import faults
from ..workbook.page_size import at_first
from .entries import TITLES
from .rows_here import named_rows

TITLE = TITLES["markout"]


def run(desk: Desk) -> None:
    desk.document.calculateAll()
    faults.refuse_changed_formulas(desk.document)
    chosen = choose(desk)
    if chosen is None:
        return
    name, paper, to_cut = chosen
    drawn = stub.read(desk.document, name)  # refuses what cannot be drawn before a folder is asked for
    folder = choose_file.folder(desk, TITLE, "Where to put the drawing and its PDF")
    if folder is None:
        return
    places = (*mark_out_sheet.paths(drawn, folder), *(mark_out_sheet.cutting(drawn, folder) if to_cut else ()))
    if not desk.may_replace(TITLE, *places):
        return
    with InWords("Writing the mark-out sheet", places[0]):
        _, pdf = mark_out_sheet.draw(desk.create("com.sun.star.frame.Desktop"), drawn, folder, paper, to_cut)
    beside = " and ".join(place.name for place in places if place != pdf)
    desk.say(
        TITLE,
        f"Written: {pdf}\nBeside it: {beside}.\n\n"
        "Print the PDF at 100 % and measure its 100 mm bar before you saw.",
    )


def choose(desk: Desk) -> "Optional[tuple[str, str, bool]]":
    """Ask for the stub, the paper, and whether a shop cuts from it; None when the user thinks better of it."""
    names, here = named_rows(desk, "tangs")
    if not names:
        raise Refusal("No row of Stubs has a name yet. Fill in its row first.")
    form = Form(desk, TITLE, width=240)
    form.paragraph("Draws a stub at 1:1, as a PDF to print and as a drawing. Next, you choose the folder.")
    picked = form.choice("~Stub", names, names.index(here) if here in names else 0)
    paper = form.choice("~Paper", tuple(PAPERS), at_first(desk.document))
    to_cut = form.tick("~End plate and cutting template as .svg too, for a shop that cuts from a file", on=False)
    if form.ask("~Draw…") != "yes":
        return None
    return names[picked.SelectedItems[0]], tuple(PAPERS)[paper.SelectedItems[0]], bool(to_cut.State)
