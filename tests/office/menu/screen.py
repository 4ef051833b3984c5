"""A user at a screen that is not there: gives commands, reads dialogs and answers them.

A command is given in the office's own thread, as the menu does, so that its dialog waits for an answer while the
test goes on. Windows are found and used by what a screen reader is told of them.
"""

import time
from contextlib import suppress

import pytest
import uno
import unohelper
from com.sun.star.accessibility.AccessibleRole import (
    CHECK_BOX,
    COMBO_BOX,
    LABEL,
    LIST,
    MENU,
    MENU_BAR,
    PUSH_BUTTON,
    SCROLL_PANE,
    STATIC,
    TEXT,
)
from com.sun.star.accessibility.AccessibleStateType import CHECKED, ENABLED, SHOWING
from com.sun.star.frame import XStatusListener
from com.sun.star.uno import Exception as UnoException

from extension.office import property_values, url
from tests.office.menu.waiting import wait
from tests.office_thread import aside, give, in_own_thread

FIELDS = (TEXT, SCROLL_PANE, COMBO_BOX, LIST)
FEW = 400
ANSWER = 0.5  # seconds


def must_show(office):
    """Leave tests out that read and use windows, where these tell nothing: 7.4 and 25.2 do tell, 26.8 does not."""
    empty = office._open("private:factory/scalc", Hidden=False)
    window = empty.CurrentController.Frame.ContainerWindow
    told = in_own_thread(office, lambda: hasattr(window, "getAccessibleContext"))
    empty.close(True)
    if not told:
        pytest.skip("this release tells no screen reader through UNO what its windows show; look by hand")


class Screen:
    """The windows of an office, and commands given in them."""

    def __init__(self, office):
        self.office = office
        self.doing = []

    def open(self, path=None, **more):
        """Open a file, or an empty spreadsheet, in a window."""
        address = url(path) if path else "private:factory/scalc"
        return self.office._open(address, Hidden=False, **more)

    def give(self, command, frame):
        """Give a command of the menu, without waiting for its end."""
        parsed = self.address(command)
        self.doing.append(give(self.office, lambda: frame.queryDispatch(parsed, "_self", 0).dispatch(parsed, ())))

    def finish(self):
        """Wait until every command given has ended; raise what stopped one."""
        wait(
            lambda: all(done.ended for done in self.doing), lambda: f"a command goes on; windows: {self.titles()}"
        )
        failed = [done.failed for done in self.doing if done.failed]
        self.doing.clear()
        if failed:
            raise failed[0]

    def applies(self, command, frame):
        """Whether a command says of itself that it applies in that window."""
        parsed = self.address(command)
        heard = Heard()
        frame.queryDispatch(parsed, "_self", 0).addStatusListener(heard, parsed)
        return heard.enabled

    def address(self, command):
        parsed = uno.createUnoStruct("com.sun.star.util.URL")
        parsed.Complete = f"org.loftsheet:{command}"
        return self.office.create("com.sun.star.util.URLTransformer").parseStrict(parsed)[1]

    def dialog(self, title):
        """Wait for a window of that title and return it."""
        return wait(lambda: self._window(title), lambda: f"no window {title}; there are {self.titles()}")

    def message(self, title, press="OK"):
        """Read a message and answer it."""
        box, words, label = self.shown_message(title, press)
        box.press(label)
        wait(lambda: box.is_gone(), lambda: f"{title} does not go away")
        return words

    def shown_message(self, title, press="OK"):
        """Wait for a message; its window, its words and the button that answers it."""
        labels = ("OK", "Close") if press == "OK" else (press,)
        return wait(lambda: self._message(title, labels), lambda: f"no message {title}; there are {self.titles()}")

    def _message(self, title, labels):
        """The window of that title that has one of the buttons: a dialog before it may still be going away."""
        for window in self._windows():
            for label in window.labels() if window.title == title else ():
                if label in labels:
                    return window, window.words(), label
        return None

    def gone(self, title):
        """Wait until no window of that title is there."""
        wait(lambda: title not in self.titles(), lambda: f"{title} is still there")
        return True

    def put_away(self):
        """Answer every dialog that is still there, so that a test that failed does not stop the next."""
        for _ in range(25):
            boxes = [each for each in self._windows() if each.title and "LibreOffice" not in each.title]
            if not boxes and all(done.ended for done in self.doing):
                return
            for window in boxes:
                for label in ("Cancel", "Close", "No", "OK"):
                    with suppress(AssertionError, UnoException):
                        window.press(label)
                        break
            time.sleep(0.1)

    def press_aside(self, window, label):
        """Press a button that opens another dialog; the press does not come back before that is answered."""
        self.doing.append(aside(lambda: window.press(label)))

    def choose_file(self, path):
        """Type a path into the office's dialog for files and confirm it; None cancels."""
        window = self._picker()
        if path is None:
            window.getChild("cancel").executeAction("CLICK", ())
            return
        field = window.getChild("file_name")
        field.executeAction("CLEAR", ())
        field.executeAction("TYPE", property_values(TEXT=str(path)))
        # The click does not come back while the office asks whether a file may be replaced.
        self.doing.append(aside(lambda: window.getChild("open").executeAction("CLICK", ())))

    def offered_file(self):
        """The name that the office's dialog for files offers."""
        state = self._picker().getChild("file_name").getState()
        return next(value.Value for value in state if value.Name == "Text")

    def _picker(self):
        tester = self.office.create("org.libreoffice.uitest.UITest")

        def picker():
            window = tester.getTopFocusWindow()
            return window if window and "file_name" in window.getChildren() else None

        return wait(picker, lambda: f"no dialog for files; there are {self.titles()}")

    def overwrite(self):
        """Say yes to the office's own question whether a file may be replaced."""
        tester = self.office.create("org.libreoffice.uitest.UITest")

        def question():
            window = tester.getTopFocusWindow()
            return window if window and "yes" in window.getChildren() else None

        wait(question, lambda: f"no question; there are {self.titles()}").getChild("yes").executeAction(
            "CLICK", ()
        )

    @property
    def clipboard(self):
        return self.office.create("com.sun.star.datatransfer.clipboard.SystemClipboard")

    def copied(self):
        """The text on the clipboard, None when there is none."""
        content = self.clipboard.getContents()
        flavors = content.getTransferDataFlavors() if content else ()
        found = [flavor for flavor in flavors if flavor.MimeType.startswith("text/plain;charset=utf-16")]
        return content.getTransferData(found[0]) if found else None

    def titles(self):
        return [window.title for window in self._windows()]

    def _window(self, title):
        return next((window for window in self._windows() if window.title == title), None)

    def _windows(self):
        """The windows that show; none while the office does not come to answer.

        They are looked for in the office's own thread: from another one, a window that goes away meanwhile takes
        the office down.
        """
        found = []

        def look():
            toolkit = self.office.create("com.sun.star.awt.Toolkit")
            for at in range(toolkit.getTopWindowCount()):
                with suppress(UnoException, AttributeError):  # a window without a name
                    window = Window(toolkit.getTopWindow(at))
                    if not window.is_gone():
                        found.append(window)

        return found if give(self.office, look).wait(ANSWER) else []


class Window:
    """A window as a screen reader sees it."""

    def __init__(self, peer):
        self.peer, self.context = peer, peer.getAccessibleContext()
        self.title = self.context.getAccessibleName()

    def parts(self):
        return list(below(self.context))

    def is_gone(self):
        try:
            return not has(self.context, SHOWING)
        except UnoException:
            return True

    def words(self):
        """What is written in it, without the labels of its buttons; a long message is a field to scroll."""
        kinds = (STATIC, LABEL, SCROLL_PANE)
        return "\n".join(part.getAccessibleName() for part in self.parts() if part.getAccessibleRole() in kinds)

    def labels(self):
        """The names of its buttons, fields and boxes."""
        kinds = (*FIELDS, CHECK_BOX, PUSH_BUTTON)
        return [part.getAccessibleName() for part in self.parts() if part.getAccessibleRole() in kinds]

    def press(self, label):
        self._part(label, (PUSH_BUTTON,)).doAccessibleAction(0)

    def tick(self, label, on=True):
        box = self._part(label, (CHECK_BOX,))
        if has(box, CHECKED) != on:
            box.doAccessibleAction(0)

    def ticked(self, label):
        return has(self._part(label, (CHECK_BOX,)), CHECKED)

    def text(self, label):
        return text_part(self._part(label, FIELDS)).getText()

    def selected(self, label):
        """What typing would replace."""
        return text_part(self._part(label, FIELDS)).getSelectedText()

    def type(self, label, text):
        text_part(self._part(label, FIELDS)).setText(text)

    def lines(self, label):
        """The lines of a list."""
        items = self._list(label)
        return [
            items.getAccessibleChild(at).getAccessibleContext().getAccessibleName() for at in range(count(items))
        ]

    def picked(self, label):
        """The line of a list that is picked."""
        return self._list(label).getSelectedAccessibleChild(0).getAccessibleContext().getAccessibleName()

    def pick(self, label, line):
        """Pick the line of a list that starts so."""
        at = next(at for at, found in enumerate(self.lines(label)) if found.startswith(line))
        self._list(label).selectAccessibleChild(at)

    def _list(self, label):
        found = self._part(label, FIELDS)
        return next(part for part in (found, *below(found)) if part.getAccessibleRole() == LIST)

    def _part(self, label, roles):
        found = [
            part
            for part in self.parts()
            if part.getAccessibleRole() in roles and part.getAccessibleName().replace("~", "") == label
        ]
        assert found, f"no {label} among {self.labels()}"
        return found[0]


class Heard(unohelper.Base, XStatusListener):
    """Hears once whether a command applies."""

    enabled = None

    def statusChanged(self, event):
        self.enabled = event.IsEnabled

    def disposing(self, event):
        pass


def below(context):
    """All that is inside, from the outside in."""
    for at in range(min(count(context), FEW)):
        child = context.getAccessibleChild(at)
        if hasattr(child, "getAccessibleContext"):
            yield child.getAccessibleContext()
            yield from below(child.getAccessibleContext())


def count(context):
    return context.getAccessibleChildCount()


def text_part(context):
    """The part of a field that holds its text."""
    return next(part for part in (context, *below(context)) if hasattr(part, "setText"))


def has(context, state):
    """Whether it is in a state; from LibreOffice 7.5 on states are the bits of one number."""
    states = context.getAccessibleStateSet()
    return bool(states & state) if isinstance(states, int) else states.contains(state)


def menu(frame, title):
    """The entries of a menu in the menu bar of a window, with whether each is enabled; None if it is not there."""
    window = frame.ContainerWindow.getAccessibleContext()
    bar = next(part for part in below(window) if part.getAccessibleRole() == MENU_BAR)
    for at in range(count(bar)):
        found = bar.getAccessibleChild(at).getAccessibleContext()
        if found.getAccessibleName() == title and found.getAccessibleRole() == MENU:
            found.doAccessibleAction(0)
            entries = [found.getAccessibleChild(each).getAccessibleContext() for each in range(count(found))]
            return {
                entry.getAccessibleName(): has(entry, ENABLED) for entry in entries if entry.getAccessibleName()
            }
    return None
