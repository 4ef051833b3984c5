"""Where a command was given: the office, the window and the document in it.

Like all that About needs, it runs on the oldest Python that any office brings.
"""

from pathlib import Path
from typing import Any, Callable

from com.sun.star.awt.MessageBoxButtons import BUTTONS_OK, BUTTONS_YES_NO, DEFAULT_BUTTON_NO
from com.sun.star.awt.MessageBoxResults import YES
from com.sun.star.awt.MessageBoxType import INFOBOX, QUERYBOX, WARNINGBOX

from ..common import journal
from ..common.refusal import Refusal
from .form import Form

SPREADSHEET = "com.sun.star.sheet.SpreadsheetDocument"
# One of these is enough to call a document a rig schedule, so that a lost name can still be reported.
SIGNS = ("boat_name", "stays_name", "tangs_name", "order_name")
LONG = 700  # letters, more than a message box holds well


class Desk:
    """The office as a command sees it."""

    def __init__(self, context: Any, frame: Any) -> None:
        self.context = context
        self.frame = frame

    def create(self, name: str) -> Any:
        """Create a service of the office by its name."""
        return self.context.ServiceManager.createInstanceWithContext(name, self.context)

    @property
    def controller(self) -> Any:
        return self.frame.Controller if self.frame else None

    @property
    def document(self) -> Any:
        """The document in the window, None where there is none (as in the Start Center)."""
        return getattr(self.controller, "Model", None)

    @property
    def window(self) -> Any:
        return self.frame.ContainerWindow if self.frame else None

    def is_spreadsheet(self) -> bool:
        document = self.document
        return bool(document and document.supportsService(SPREADSHEET))

    def is_schedule(self) -> bool:
        return self.is_spreadsheet() and any(self.document.NamedRanges.hasByName(name) for name in SIGNS)

    def is_schedule_to_change(self) -> bool:
        return self.is_schedule() and not self.document.isReadonly()

    def must_be_writable(self) -> None:
        """Refuse a document that cannot be changed."""
        if self.document.isReadonly():
            raise Refusal("This document is open read-only. Save a copy under another name and work in that.")

    def attempt(self, title: str, act: Callable[[], Any]) -> None:
        """Do something; whatever stops it is said in words."""
        try:
            act()
        except Refusal as refusal:
            words = str(refusal)
            self.say(title, words[:1].upper() + words[1:], warning=True)
        except Exception as error:
            journal.note(f"doing {title}", error)
            what = str(error).strip() or type(error).__name__
            self.say(
                title, f"{title} stopped: {what}.\n\nAbout and Diagnostics has the details to copy.", warning=True
            )

    def say(self, title: str, words: str, warning: bool = False) -> None:
        """Show a message and wait until it was read; a long one can be scrolled."""
        if len(words) > LONG:
            form = Form(self, title, width=320)
            form.text("", words, height=180)
            form.tell()
            return
        self._box(WARNINGBOX if warning else INFOBOX, BUTTONS_OK, title, words)

    def agrees(self, title: str, words: str) -> bool:
        """Ask a question; True for a yes."""
        return bool(self._box(QUERYBOX, BUTTONS_YES_NO + DEFAULT_BUTTON_NO, title, words) == YES)

    def may_replace(self, title: str, *paths: Path) -> bool:
        """Ask before files are replaced; True also when none of them is there."""
        there = [path.name for path in paths if path.exists()]
        are = "is" if len(there) == 1 else "are"
        return not there or self.agrees(title, f"{' and '.join(there)} {are} there already. Replace?")

    def _box(self, kind: Any, buttons: int, title: str, words: str) -> Any:
        box = self.create("com.sun.star.awt.Toolkit").createMessageBox(self.window, kind, buttons, title, words)
        try:
            return box.execute()
        finally:
            box.dispose()
