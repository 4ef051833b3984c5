"""Check the Schedule: lists all that is not OK beside the document; each line leads to its cell."""

from collections import Counter

from ..dialogs import clipboard
from ..dialogs.cursor import lead_to
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..workbook import faults
from ..workbook.complaints import DANGER, FIX, WAITS, WEIGH
from ..workbook.named_tables import Tables, address
from . import put_right
from .entries import TITLES

TITLE = TITLES["check"]
STAYS_OPEN = (
    "This window can stay open while you work in the schedule. What would do is worked out with all else as it is."
)
LEVELS = {FIX: "to fix", DANGER: "in danger", WEIGH: "to consider", WAITS: "waiting"}


def run(desk: Desk) -> None:
    new = put_right.order_new_items(desk)
    desk.document.calculateAll()
    found = faults.find(Tables(desk.document))
    if not found:
        desk.say(TITLE, f"Nothing needs attention: every row says OK, and no formula was changed. {new}".rstrip())
        return
    List(desk, found, new).show()


def alike(found: "list[faults.Fault]") -> "list[list[faults.Fault]]":
    """The faults in their order, those together of which the same is said."""
    groups: dict[object, list[faults.Fault]] = {}
    for at, fault in enumerate(found):
        groups.setdefault((fault.id, fault.says, fault.follows) if fault.id else at, []).append(fault)
    return list(groups.values())


def in_full(group: "list[faults.Fault]") -> str:
    """The line of the first, and where else the same is said."""
    others = [f"{address(fault.cell)} {fault.name}" for fault in group[1:]]
    return "\n".join([group[0].line(), *(["The same: " + "; ".join(others)] if others else [])]) if group else ""


class List:
    """The list of faults in its window."""

    def __init__(self, desk: Desk, found: "list[faults.Fault]", news: str = "") -> None:
        self.desk, self.groups = desk, alike(found)
        self.form = Form(desk, TITLE, width=360)
        self.head = self.form.paragraph(f"{self.counted()} {news}".rstrip())
        self.lines = self.form.pick("~Not OK", self.shown(), action=self.go, moved=self.read, height=90)
        self.whole = self.form.text("The ~whole line", in_full(self.groups[0]), height=40)

    def show(self) -> None:
        self.form.stay(
            go=("~Go to the Cell", self.go),
            again=("~Look Again", self.again),
            put=("~Put Right…", self.put_right),
            copy=("~Copy the List", self.copy),
        )

    def shown(self) -> "tuple[str, ...]":
        return tuple(group[0].line(len(group) - 1) for group in self.groups) or ("Nothing needs attention.",)

    def counted(self) -> str:
        found = [fault for group in self.groups for fault in group]
        first = [fault for fault in found if not fault.follows] or found
        levels = Counter(fault.severity for fault in first)
        said = ", ".join(f"{levels[level]} {words}" for level, words in LEVELS.items() if levels[level])
        rest = len(found) - len(first)
        waiting = "waits for these or follows from them" if rest == 1 else "wait for these or follow from them"
        more = f", and {rest} that {waiting}" if rest else ""
        if not found:
            return f"Nothing needs attention. {STAYS_OPEN}"
        rows = len({(fault.id.partition(".")[0], fault.name) for fault in first if fault.name})
        where = f" in {rows} rows" if 1 < rows < len(first) else ""
        return f"{len(first)} to look at{where}: {said}{more}. {STAYS_OPEN}"

    def picked(self) -> "list[faults.Fault]":
        chosen = self.lines.SelectedItems
        return self.groups[chosen[0]] if chosen and chosen[0] < len(self.groups) else []

    def read(self) -> None:
        self.whole.Text = in_full(self.picked())

    def go(self) -> None:
        cell = next((fault.cell for fault in self.picked()), None)
        if cell:
            self.desk.frame.ComponentWindow.setFocus()  # what is typed next goes into the cell
            lead_to(self.desk, cell)

    def copy(self) -> None:
        clipboard.copy(self.desk, "\n".join(self.shown()))
        self.head.Label = "The list is on the clipboard: paste it into a letter or a message."

    def put_right(self) -> None:
        if put_right.run(self.desk):
            self.again()

    def again(self) -> None:
        """Look for faults anew, in the schedule as it is now."""
        self.desk.document.calculateAll()
        self.groups = alike(faults.find(Tables(self.desk.document)))
        self.lines.StringItemList = self.shown()
        self.lines.SelectedItems = (0,)
        self.head.Label = self.counted()
        self.read()
