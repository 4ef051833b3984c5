"""Check the Schedule: lists all that is not OK beside the document; each line leads to its cell."""

from typing import Optional

from ..dialogs import clipboard
from ..dialogs.cursor import lead_to
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..workbook import faults
from ..workbook.named_tables import Tables
from . import put_right
from .entries import TITLES

TITLE = TITLES["check"]


def run(desk: Desk) -> None:
    desk.document.calculateAll()
    found = faults.find(Tables(desk.document))
    if not found:
        desk.say(TITLE, "Nothing is left to fix: every row says OK, and no formula was changed.")
        return
    List(desk, found).show()


class List:
    """The list of faults in its window."""

    def __init__(self, desk: Desk, found: "list[faults.Fault]") -> None:
        self.desk, self.found = desk, found
        self.form = Form(desk, TITLE, width=360)
        self.head = self.form.paragraph(self.counted())
        self.lines = self.form.pick("~Not OK", self.shown(), action=self.go, moved=self.read, height=90)
        self.whole = self.form.text("The ~whole line", found[0].line(), height=24)

    def show(self) -> None:
        self.form.stay(
            go=("~Go to the Cell", self.go),
            again=("~Look Again", self.again),
            put=("~Put Right…", self.put_right),
            copy=("~Copy the List", lambda: clipboard.copy(self.desk, "\n".join(self.shown()))),
        )

    def shown(self) -> "tuple[str, ...]":
        return tuple(fault.line() for fault in self.found) or ("Nothing is left to fix.",)

    def counted(self) -> str:
        first = [fault for fault in self.found if not fault.follows] or self.found
        rest = len(self.found) - len(first)
        more = f", and {rest} that wait for these or follow from them" if rest else ""
        return f"{len(first)} to look at{more}. This window can stay open while you work in the schedule."

    def picked(self) -> "Optional[faults.Fault]":
        chosen = self.lines.SelectedItems
        return self.found[chosen[0]] if chosen and chosen[0] < len(self.found) else None

    def read(self) -> None:
        fault = self.picked()
        self.whole.Text = fault.line() if fault else ""

    def go(self) -> None:
        fault = self.picked()
        if fault and fault.cell:
            self.desk.frame.ComponentWindow.setFocus()  # what is typed next goes into the cell
            lead_to(self.desk, fault.cell)

    def put_right(self) -> None:
        if put_right.run(self.desk):
            self.again()

    def again(self) -> None:
        """Look for faults anew, in the schedule as it is now."""
        self.desk.document.calculateAll()
        self.found = faults.find(Tables(self.desk.document))
        self.lines.StringItemList = self.shown()
        self.lines.SelectedItems = (0,)
        self.head.Label = self.counted()
        self.read()
