"""One undo for all that a command does; what stopped halfway is taken back.

A class, because an exception of the office cannot pass through a context made from a generator.
"""

from typing import Any


class OneUndo:
    """Everything done in the `with` block is one step of Undo, under the command's title."""

    def __init__(self, document: Any, title: str) -> None:
        self.undo, self.title = document.UndoManager, title

    def __enter__(self) -> None:
        self.undo.enterUndoContext(self.title)

    def __exit__(self, kind: Any, error: Any, trace: Any) -> None:
        before = len(self.undo.getAllUndoActionTitles())
        self.undo.leaveUndoContext()
        done = self.undo.getAllUndoActionTitles()
        if error is not None and len(done) > before and done[0] == self.title:
            self.undo.undo()
