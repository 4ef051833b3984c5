"""Take Over into a New Schedule: what was typed in this schedule, copied into a new one of this release.

The schedule itself stays as it is. What the new one has no place for is listed, so that nothing is lost unseen.
"""

from typing import Any

from loftsheet import __version__

from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..workbook import inputs, reading
from ..workbook.inputs import Taken
from ..workbook.reading import Value
from . import add_rows, new_schedule
from .entries import TITLES

TITLE = TITLES["takeover"]


def run(desk: Desk) -> None:
    form = Form(desk, TITLE, width=260)
    form.paragraph(
        f"A new schedule of Loftsheet {__version__} is opened, and all that was typed here is copied into it: "
        "assumptions, survey, stays, stubs, Order, Library, Log and columns of your own."
    )
    form.paragraph("This schedule stays as it is. What the new one has no place for is listed.")
    if form.ask("~Take Over") != "yes":
        return
    new = new_schedule.open_new(desk, "_blank")
    taken = fill(desk.document, new)
    Desk(desk.context, new.CurrentController.Frame).say(TITLE, report(taken, reading.value(new, "boat_mend")))


def fill(old: Any, new: Any) -> Taken:
    """Copy into a new schedule, which is worked out once when all is there."""
    new.enableAutomaticCalculation(False)
    try:
        return inputs.take_over(old, new, add_rows.add)
    finally:
        new.enableAutomaticCalculation(True)
        new.calculateAll()


def report(taken: Taken, to_fix: Value) -> str:
    """What came along, and what is left to do."""
    parts = [f"{taken.cells} cells were copied. Save the new schedule under a name of its own."]
    if to_fix:
        parts.append(f"{reading.as_text(to_fix)} rows are to be fixed there; Check the Schedule lists them.")
    if taken.masts:
        parts.append(f"Masts has a row now, with what stood on Boat: {', '.join(taken.masts)}.")
    for title, lines in (
        ("Not asked for before; fill it in:", taken.blank),
        ("Formulas of your own, of which the value was copied:", taken.values),
        ("Columns of your own that came along, as values:", taken.own),
        ("Not taken over, for the new schedule has no place for it:", taken.lost),
    ):
        if lines:
            parts.append("\n".join([title, *(f"  {line}" for line in lines)]))
    return "\n\n".join(parts)
