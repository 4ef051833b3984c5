"""About and Diagnostics: versions, whether the functions answer, the last errors nobody foresaw.

It also works where the rest cannot: on an older Python, or beside a foreign pint. So it imports nothing of the
functions before it is asked to, and runs on the oldest Python that any office brings.
"""

import os
import platform
import sys
import traceback
from typing import Any, Callable

import uno
from com.sun.star.container import NoSuchElementException
from com.sun.star.lang import IllegalArgumentException

from ..common import journal
from ..dialogs import clipboard
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from .entries import TITLES

TITLE = TITLES["about"]
EXTENSION = "org.loftsheet"
PACKAGES = "/singletons/com.sun.star.deployment.PackageInformationProvider"
FLOOR = (3, 9)
OWN = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
INTENT = (
    "Calculation functions and a rigging schedule for hand-spliced HMPE standing rigging. "
    "A calculation aid, and no design approval."
)


def run(desk: Desk) -> None:
    form = Form(desk, TITLE, width=300)
    form.paragraph(INTENT)
    shown = form.text("~Diagnostics, to copy into a report of what went wrong", report(desk), height=190)
    others: Any = {"copy": ("~Copy", lambda: clipboard.copy(desk, shown.Text))}
    if desk.is_spreadsheet():
        others["again"] = ("~Recalculate", lambda: recalculate(desk, shown))
    form.tell(**others)


def recalculate(desk: Desk, shown: Any) -> None:
    """Calculate every cell of the document anew, whether it seems due or not."""
    desk.document.calculateAll()
    shown.Text = "Every cell of this document was calculated anew.\n\n" + report(desk)


def report(desk: Desk) -> str:
    """All that About shows, as lines of text."""
    parts = (extension_version, office_version, python_version, pint_version, openpyxl_version, functions, errors)
    return "\n".join(guarded(part, desk) for part in parts)


def guarded(part: Callable[[Desk], str], desk: Desk) -> str:
    """A line of the report, or why it cannot be had."""
    try:
        return part(desk)
    except Exception as error:
        what = part.__name__.replace("_", " ")
        return f"{what}: not to be had. {traceback.format_exception_only(type(error), error)[-1].strip()}"


def extension_version(desk: Desk) -> str:
    listed = desk.context.getValueByName(PACKAGES).getExtensionList()
    return "Loftsheet {}".format(dict(listed).get(EXTENSION, "(not installed as an extension)"))


def office_version(desk: Desk) -> str:
    provider = desk.create("com.sun.star.configuration.ConfigurationProvider")
    where = uno.createUnoStruct("com.sun.star.beans.NamedValue", "nodepath", "/org.openoffice.Setup/Product")
    product = provider.createInstanceWithArguments("com.sun.star.configuration.ConfigurationAccess", (where,))
    version = product.getByName("ooSetupVersionAboutBox") or product.getByName("ooSetupVersion")
    return "{} {} on {}".format(product.getByName("ooName"), version, platform.platform())


def python_version(desk: Desk) -> str:
    words = f"Python {platform.python_version()}"
    if sys.version_info < FLOOR:
        words += ": too old. The functions need 3.9 or newer; please install LibreOffice 24.8 or newer."
    return words


def pint_version(desk: Desk) -> str:
    from loftsheet.measure import units_library

    try:
        units_library()
    except ValueError as refused:
        return f"pint: {refused}"
    return own_or_foreign("pint")


def openpyxl_version(desk: Desk) -> str:
    return own_or_foreign("openpyxl")


def own_or_foreign(name: str) -> str:
    """The version of a package, and where it comes from when it is not the extension's own."""
    package = __import__(name)
    place = package.__file__ or ""
    foreign = "" if place.startswith(OWN) else f", not the extension's own: {place}"
    return f"{name} {package.__version__}{foreign}"


def functions(desk: Desk) -> str:
    """Whether every function answers in a cell what it answers by itself."""
    from loftsheet import CALCS

    access = desk.create("com.sun.star.sheet.FunctionAccess")
    wrong = [words for words in (asked(access, calc) for calc in CALCS.values()) if words]
    if wrong:
        return "Functions: {} of {} do not answer as they should. {}".format(
            len(wrong), len(CALCS), "; ".join(wrong)
        )
    return f"Functions: all {len(CALCS)} answer."


def asked(access: Any, calc: Any) -> str:
    """Ask a function the same by way of Calc and directly; words when the answers differ."""
    from ..addin.add_in import result

    given = [argument.quantity.form.sample(argument.quantity) for argument in calc.arguments if argument.required]
    if any(one is None for one in given):
        given = []
    try:
        due = result(calc.call(*given))
    except (ValueError, ArithmeticError, LookupError):
        due = None
    try:
        found = access.callFunction(calc.stored_name, tuple(given))
    except NoSuchElementException:
        return f"{calc.name} is not known to Calc"
    except IllegalArgumentException:
        found = None
    first = due[0][0] if isinstance(due, tuple) and not isinstance(found, tuple) else due
    return "" if found in (due, first) else f"{calc.name} gives {found!r} in place of {due!r}"


def errors(desk: Desk) -> str:
    if not journal.LAST:
        return "Unforeseen errors since the office was started: none."
    return "Unforeseen errors since the office was started, the last first:\n\n" + "\n\n".join(
        reversed(journal.LAST)
    )
