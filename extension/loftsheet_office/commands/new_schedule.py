"""New Rig Schedule: a new document from the workbook that the extension carries."""

from typing import Any

from com.sun.star.document.MacroExecMode import USE_CONFIG

from ..common.refusal import Refusal
from ..common.values import property_values
from ..dialogs.desk import Desk
from . import yard_library

EXTENSION = "org.loftsheet"
PACKAGES = "/singletons/com.sun.star.deployment.PackageInformationProvider"
SCHEDULE = "templates/Loftsheet/Rig%20Schedule.ots"


def run(desk: Desk) -> None:
    book = open_new(desk, "_default")
    yard_library.start_with(desk, book)
    book.setModified(False)


def open_new(desk: Desk, frame: str) -> Any:
    """Open a new schedule as this release has it, in a window of its own or where nothing else is open."""
    location = desk.context.getValueByName(PACKAGES).getPackageLocation(EXTENSION)
    return open_template(desk, f"{location}/{SCHEDULE}", frame)


def open_template(desk: Desk, address: str, frame: str = "_default") -> Any:
    """Open a template as a new document without a name; the Start Center gives way to it.

    Macros are left to the user's own settings, as File > New does: where a caller forbids them, later releases
    than 7.4 say over the sheet that macros were disabled, though there are none.
    """
    if not desk.create("com.sun.star.ucb.SimpleFileAccess").exists(address):
        raise Refusal("The extension carries no workbook. Please install it again.")
    settings = property_values(AsTemplate=True, MacroExecutionMode=USE_CONFIG)
    return desk.create("com.sun.star.frame.Desktop").loadComponentFromURL(address, frame, 0, settings)
