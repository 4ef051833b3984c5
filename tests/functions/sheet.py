"""A sheet of cells in memory, as the working of a cell sees it."""

from __future__ import annotations

import re
from dataclasses import dataclass

from loftsheet.errors import CellError


@dataclass
class Cell:
    """A cell with what it holds; the office computes nothing here, so a formula comes with its result."""

    address: str
    formula: str = ""
    value: float | str | None = None
    error: CellError | None = None
    sheet: Sheet | None = None

    def resolve(self, name: str) -> Cell | list[list[Cell]] | None:
        return self.sheet.resolve(name) if self.sheet else None


class Sheet:
    """Cells by address, and names for them."""

    def __init__(self, **names: str) -> None:
        self.names = names
        self.cells: dict[str, Cell] = {}

    def put(self, address: str, value=None, formula: str = "", error: CellError | None = None) -> Cell:
        self.cells[address] = Cell(address, formula, value, error, self)
        return self.cells[address]

    def resolve(self, name: str) -> Cell | list[list[Cell]] | None:
        plain = self.names.get(name, name).replace("$", "")
        found = re.fullmatch(r"([A-Z]+)(\d+):([A-Z])(\d+)", plain)
        if found:
            columns = range(ord(found[1]), ord(found[3]) + 1)
            rows = range(int(found[2]), int(found[4]) + 1)
            return [[self.at(f"{chr(column)}{row}") for column in columns] for row in rows]
        return self.at(plain) if plain in self.cells or re.fullmatch(r"[A-Z]+\d+", plain) else None

    def at(self, address: str) -> Cell:
        return self.cells.get(address) or Cell(address, sheet=self)
