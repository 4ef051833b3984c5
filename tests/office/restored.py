"""Cells that hold something else for a while."""

VALUES_TEXTS_AND_DATES = 1 | 2 | 4 | 16  # com.sun.star.sheet.CellFlags


def put(cell, held):
    if held is None:
        cell.clearContents(VALUES_TEXTS_AND_DATES)
    elif isinstance(held, float):
        cell.Value = held
    elif held.startswith("="):
        cell.Formula = held
    else:
        cell.String = held


class Restored:
    """In a `with` block a cell holds something else, one thing or several in turn."""

    def __init__(self, cell, *held):
        self.cell, self.held = cell, held

    def __enter__(self):
        self.before = self.cell.DataArray[0][0]
        for held in self.held:
            put(self.cell, held)
        return self

    def hold(self, held):
        put(self.cell, held)

    def __exit__(self, *_):
        put(self.cell, None if self.before == "" else self.before)
