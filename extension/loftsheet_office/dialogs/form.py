"""Dialogs out of the office's own controls, one below the other, with a row of buttons at the foot.

    form = Form(desk, "Add Rows")
    form.paragraph("The new rows go above the last ready row of Stays.")
    count = form.short("~Rows", "5")
    if form.ask("~Add") == "yes":
        rows = int(count.Text)

What is given back for a field is its model: `Text`, `State`, `SelectedItems`. Measures are the toolkit's
own units, a quarter of a letter's width. Like all that About needs, it runs on the oldest Python of any office.
"""

import functools
from collections.abc import Sequence
from typing import Any, Callable, Optional

import unohelper
from com.sun.star.awt import Selection, XActionListener, XCallback, XItemListener, XTopWindowListener
from com.sun.star.awt.PosSize import POS
from com.sun.star.awt.PushButtonType import CANCEL, OK, STANDARD
from com.sun.star.lang import XEventListener

LINE, GAP, MARGIN = 10, 4, 6
BUTTON_WIDTH, BUTTON_HEIGHT = 62, 14
LETTER = 3.9

Button = Any  # its label and what it does; one that does nothing leaves the dialog


class Form:
    """A dialog that is being put together, and then asked."""

    def __init__(self, desk: Any, title: str, width: int = 220) -> None:
        self.desk, self.title, self.width, self.below = desk, title, width, MARGIN
        self.model = desk.create("com.sun.star.awt.UnoControlDialogModel")
        self.model.Title, self.model.Width = title, width
        self.dialog = desk.create("com.sun.star.awt.UnoControlDialog")
        self.actions = {}  # type: dict[str, Optional[Callable[[], Any]]]
        self.moves = {}  # type: dict[str, Optional[Callable[[], Any]]]
        self.to_replace = []  # type: list[Any]
        self.left_by = None  # type: Optional[str]
        self.count = 0

    def paragraph(self, text: str) -> Any:
        """A paragraph to read."""
        letters = (self.width - 2 * MARGIN) / LETTER
        lines = sum(1 + int(len(line) / letters) for line in text.split("\n"))
        return self._add("FixedText", lines * LINE, Label=text, MultiLine=True)

    def text(self, label: str, text: str, height: int = 120) -> Any:
        """A text to read and to copy from."""
        self._label(label)
        more: Any = {"MultiLine": True, "ReadOnly": True, "VScroll": True}
        return self._add("Edit", height, Text=text, HelpText=label.replace("~", ""), **more)

    def short(self, label: str, text: str) -> Any:
        """A word or a number to type; what stands there is selected, so that typing replaces it."""
        self._label(label)
        typed = self._add("Edit", 14, width=60, Text=text)
        self.to_replace.append(typed)
        return typed

    def tick(self, label: str, on: bool) -> Any:
        """A box to tick; `State` is 1 when it is."""
        return self._add("CheckBox", LINE, Label=label, State=int(on))

    def ticks(self, labels: "Sequence[str]", on: bool) -> "list[Any]":
        """Boxes to tick in two columns."""
        top, half = self.below, (self.width - 2 * MARGIN) // 2
        boxes = []
        for at, label in enumerate(labels):
            self.below = top + at // 2 * (LINE + GAP)
            left = MARGIN + at % 2 * half
            boxes.append(self._add("CheckBox", LINE, half - GAP, left, Label=label, State=int(on)))
        return boxes

    def choice(self, label: str, choices: "Sequence[str]", chosen: int = 0) -> Any:
        """One out of a few words."""
        self._label(label)
        more: Any = {"Dropdown": True, "StringItemList": tuple(choices), "SelectedItems": (chosen,)}
        return self._add("ListBox", 14, width=120, **more)

    def beside(self, *fields: "tuple[str, Any]") -> "list[Any]":
        """Fields next to each other, each with its label: a text to type, or words to pick from."""
        top, wide = self.below, (self.width - 2 * MARGIN + GAP) // len(fields) - GAP
        made = []
        for at, (label, held) in enumerate(fields):
            left, self.below = MARGIN + at * (wide + GAP), top
            self._add("FixedText", LINE - 1, wide, left, Label=label)
            self.below -= GAP - 1
            if isinstance(held, str):
                made.append(self._add("Edit", 14, wide, left, Text=held))
            else:
                more: Any = {"Dropdown": True, "StringItemList": tuple(held), "SelectedItems": (0,)}
                made.append(self._add("ListBox", 14, wide, left, **more))
        return made

    def pick(
        self,
        label: str,
        lines: "Sequence[str]",
        action: Optional[Callable[[], Any]] = None,
        moved: Optional[Callable[[], Any]] = None,
        height: int = 120,
    ) -> Any:
        """One out of many lines; with what a double click does, and what going to another line does."""
        self._label(label)
        more: Any = {"StringItemList": tuple(lines), "SelectedItems": (0,) if lines else ()}
        listed = self._add("ListBox", height, **more)
        self.actions[listed.Name], self.moves[listed.Name] = action, moved
        return listed

    def ask(self, yes: str, no: str = "Cancel", **others: Button) -> str:
        """Show the dialog; the name of the button that left it: "yes", one of the others, or "no"."""
        self.buttons(yes, no, **others)
        return self._left()

    def tell(self, close: str = "Close", **others: Button) -> str:
        """Show a dialog that is only read; the name of the button that left it: "no" or one of the others."""
        self.buttons(None, close, **others)
        return self._left()

    def stay(self, close: str = "Close", **others: Button) -> None:
        """Show the dialog beside the document and come back at once; it goes when the document does.

        It has something to pick from, where the keyboard starts.
        """
        self.buttons(None, None, **others, close=(close, self.end))
        heard = Heard(self, self.end)
        self.dialog.addTopWindowListener(heard)
        self.desk.controller.addEventListener(Gone(self))
        self._place(1, 0.9)  # rows are mostly above, and the sheets' names below
        self.dialog.setVisible(True)
        self.dialog.getControl(next(iter(self.moves))).setFocus()

    def end(self) -> None:
        """Take a dialog that stays away; not from under the very button that was pressed."""
        self.dialog.setVisible(False)
        self.desk.create("com.sun.star.awt.AsyncCallback").addCallback(Heard(self, self.dialog.dispose), None)

    def buttons(self, yes: Optional[str], no: Optional[str], **others: Button) -> None:
        """Put the row of buttons at the foot, and make the dialog ready to be shown.

        Each of the others is a label and what it does; one that does nothing leaves the dialog. Enter presses
        the yes; where there is none, the no; else the first.
        """
        row: Any = [
            (label, STANDARD, action or functools.partial(self._leave, name))
            for name, (label, action) in others.items()
        ]
        row += [(yes, OK, None)] if yes else []
        row += [(no, CANCEL, None)] if no else []
        by_enter = yes or no or row[0][0]
        self.below += GAP
        top, left = self.below, self.width - MARGIN - len(row) * (BUTTON_WIDTH + GAP) + GAP
        for label, kind, action in row:
            self.below = top
            more: Any = {"Label": label, "PushButtonType": kind, "DefaultButton": label == by_enter}
            button = self._add("Button", BUTTON_HEIGHT, BUTTON_WIDTH, left, **more)
            left += BUTTON_WIDTH + GAP
            self.actions[button.Name] = action
        self.model.Height = self.below + MARGIN - GAP
        self.dialog.setModel(self.model)
        self.dialog.createPeer(self.desk.create("com.sun.star.awt.Toolkit"), self.desk.window)
        for typed in self.to_replace:
            self.dialog.getControl(typed.Name).setSelection(Selection(0, len(typed.Text)))
        for name, action in self.actions.items():
            if action:
                self.dialog.getControl(name).addActionListener(Heard(self, action))
        for name, action in self.moves.items():
            if action:
                self.dialog.getControl(name).addItemListener(Heard(self, action))

    def _left(self) -> str:
        self.left_by = None
        self._place(0.5, 0.5)
        try:
            return "yes" if self.dialog.execute() == 1 else self.left_by or "no"
        finally:
            self.dialog.dispose()

    def _place(self, x: float, y: float) -> None:
        """Put the dialog so far across and down in its window, as shares of the room that is left.

        By itself it would stand at the upper left, over the menu and the first columns.
        """
        if self.desk.window:
            room, size = self.desk.window.PosSize, self.dialog.PosSize
            right, down = max(room.Width - size.Width, 0), max(room.Height - size.Height, 0)
            self.dialog.setPosSize(int(x * right), int(y * down), 0, 0, POS)

    def _leave(self, name: str) -> None:
        self.left_by = name
        self.dialog.endExecute()

    def _label(self, label: str) -> None:
        if label:
            self._add("FixedText", LINE - 1, Label=label)
            self.below -= GAP - 1

    def _add(
        self, kind: str, height: int, width: Optional[int] = None, left: int = MARGIN, **properties: Any
    ) -> Any:
        """Add a control below those that are there."""
        model = self.model.createInstance(f"com.sun.star.awt.UnoControl{kind}Model")
        self.count += 1
        model.Name = f"{kind}{self.count}"
        model.PositionX, model.PositionY = left, self.below
        model.Width, model.Height = width or self.width - 2 * MARGIN, height
        for name, value in properties.items():
            setattr(model, name, value)
        model.TabIndex = self.count
        self.model.insertByName(model.Name, model)
        self.below += height + GAP
        return model


class Heard(unohelper.Base, XActionListener, XItemListener, XTopWindowListener, XCallback):
    """Does something when a button is pressed, a line is chosen or the window is closed."""

    def __init__(self, form: Form, action: Callable[[], Any]) -> None:
        self.form, self.action = form, action

    def act(self, event: Any) -> None:
        self.form.desk.attempt(self.form.title, self.action)

    actionPerformed = itemStateChanged = windowClosing = notify = act

    def ignore(self, event: Any) -> None:
        pass

    windowOpened = windowClosed = windowMinimized = windowNormalized = ignore
    windowActivated = windowDeactivated = disposing = ignore


class Gone(unohelper.Base, XEventListener):
    """Takes a dialog away with the document that it is about."""

    def __init__(self, form: Form) -> None:
        self.form = form

    def disposing(self, event: Any) -> None:
        self.form.dialog.dispose()
