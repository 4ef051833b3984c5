"""A schedule that many tests share: to open one takes longer than to take back what a test did."""

import warnings
from contextlib import suppress

from com.sun.star.uno import Exception as UnoException

from tests import inside
from tests.inside import all_cells, put_back


class Shared:
    """One open schedule: what a test did to it is undone; where that does not do, it is opened anew."""

    def __init__(self, office, path, shown=None):
        self.office, self.path, self.book = office, path, None
        self.load = shown or office.load

    def open(self):
        if self.book is None:
            self.book = self.load(self.path)
            self.marks = inside.run(self.office, put_back.undo, self.book)
        return self.book

    def put_back(self):
        if self.book is None:
            return
        try:
            if self._touched() and inside.run(self.office, put_back.undo, self.book) != self.marks:
                self.close()
        except UnoException:  # the test closed it, or left it in a state that cannot be undone
            self.close()
        if self.office.has_ended():
            warnings.warn("an office ended while it undid what a test did; it is started anew", stacklevel=1)
            self.office.start_again()

    def _touched(self):
        return self.book.isModified() or self.book.UndoManager.isUndoPossible()

    def close(self):
        book, self.book = self.book, None
        with suppress(UnoException):  # it may be closed already
            if book is not None:
                book.setModified(False)
                self.office.close(book)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.close()


class PutBack(Shared):
    """A test may change it that puts back what it typed: what its cells hold is compared, and nothing undone."""

    def open(self):
        if self.book is None:
            super().open()
            self.before = self.contents()
        return self.book

    def close_if_changed(self):
        if self.contents() != self.before:
            self.close()

    def contents(self):
        return inside.run(self.office, all_cells.contents, self.book)
