"""New Rig Schedule: a new document from the workbook that the extension carries."""

from typing import Any

from com.sun.star.document.MacroExecMode import USE_CONFIG

from ..common.refusal import Refusal
from ..common.values import property_values
from ..dialogs.desk import Desk

EXTENSION = "org.loftsheet"
PACKAGES = "/singletons/com.sun.star.deployment.PackageInformationProvider"
SCHEDULE = "templates/Loftsheet/Rig%20Schedule.ots"


def run(desk: Desk) -> None:
    open_template(desk, f"{desk.context.getValueByName(PACKAGES).getPackageLocation(EXTENSION)}/{SCHEDULE}")


def open_template(desk: Desk, address: str) -> Any:
    """Open a template as a new document without a name; the Start Center gives way to it.

    Macros are left to the user's own settings, as File > New does: where a caller forbids them, later releases
    than 7.4 say over the sheet that macros were disabled, though there are none.
    """
    if not desk.create("com.sun.star.ucb.SimpleFileAccess").exists(address):
        raise Refusal("The extension carries no workbook. Please install it again.")
    settings = property_values(AsTemplate=True, MacroExecutionMode=USE_CONFIG)
    return desk.create("com.sun.star.frame.Desktop").loadComponentFromURL(address, "_default", 0, settings)
