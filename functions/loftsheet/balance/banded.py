"""Symmetric systems of equations in pure Python: a banded one taken apart once, and small full ones."""

from collections.abc import Sequence
from operator import mul
from typing import Optional


class Banded:
    """A symmetric matrix of which each row is kept from its first entry that is not zero to the diagonal.

    Taken apart as L·D·Lᵀ without exchange of rows, so that the signs of D are those of the eigenvalues
    (Sylvester's law of inertia): as many negative pivots, as many ways in which the structure gives way.
    """

    def __init__(self, firsts: Sequence[int]) -> None:
        self.firsts = tuple(firsts)
        self.rows = [[0.0] * (at - first + 1) for at, first in enumerate(firsts)]
        self.pivots: list[float] = []

    def add(self, places: Sequence[int], block: "Sequence[Sequence[float]]") -> None:
        """Add a symmetric block at these rows and columns; −1 stands for what is held."""
        rows, firsts = self.rows, self.firsts
        for place, line in zip(places, block):
            if place < 0:
                continue
            row, first = rows[place], firsts[place]
            for other, value in zip(places, line):
                if 0 <= other <= place and value:
                    row[other - first] += value

    def take_apart(self, smallest: float) -> int:
        """Replace the rows by L and D and return how many pivots are negative."""
        rows, firsts, pivots = self.rows, self.firsts, self.pivots
        for at, row in enumerate(rows):
            first = firsts[at]
            for column in range(first + 1, at):
                start = firsts[column]
                if start <= first:
                    upper = rows[column][first - start : -1]
                    row[column - first] -= sum(map(mul, row, upper))
                else:
                    row[column - first] -= sum(map(mul, row[start - first :], rows[column][:-1]))
            left = row[:-1]
            scaled = [value / pivot for value, pivot in zip(left, pivots[first:at])]
            pivot = row[-1] - sum(map(mul, left, scaled))
            pivots.append(pivot if abs(pivot) > smallest else smallest)
            rows[at] = [*scaled, 1.0]
        return sum(pivot < 0 for pivot in pivots)

    def forward(self, right: Sequence[float], start: int = 0) -> "list[float]":
        """L⁻¹·right, where right is 0 before `start`."""
        solved = [0.0] * start
        for at in range(start, len(right)):
            solved.append(right[at] - sum(map(mul, self.rows[at], solved[self.firsts[at] :])))
        return solved

    def back(self, halfway: Sequence[float]) -> "list[float]":
        """The solution from what `forward` gave."""
        solved = [value / pivot for value, pivot in zip(halfway, self.pivots)]
        for at in range(len(solved) - 1, -1, -1):
            value, first = solved[at], self.firsts[at]
            if value and first < at:
                row = self.rows[at]
                solved[first:at] = [one - value * part for one, part in zip(solved[first:at], row)]
        return solved

    def solve(self, right: Sequence[float]) -> "list[float]":
        return self.back(self.forward(right))


def solve_full(matrix: "Sequence[Sequence[float]]", right: Sequence[float]) -> "Optional[list[float]]":
    """Solve a small full system by elimination with exchange of rows; None where it has no single solution."""
    rows = [[*row, value] for row, value in zip(matrix, right)]
    size = len(rows)
    scale = max((abs(value) for row in matrix for value in row), default=0.0)
    for at in range(size):
        best = max(range(at, size), key=lambda row: abs(rows[row][at]))
        if abs(rows[best][at]) <= 1e-14 * scale:
            return None
        rows[at], rows[best] = rows[best], rows[at]
        pivot_row = rows[at]
        for below in range(at + 1, size):
            factor = rows[below][at] / pivot_row[at]
            if factor:
                row = rows[below]
                row[at:] = [one - factor * part for one, part in zip(row[at:], pivot_row[at:])]
    solved = [0.0] * size
    for at in range(size - 1, -1, -1):
        row = rows[at]
        solved[at] = (row[size] - sum(map(mul, row[at + 1 : size], solved[at + 1 :]))) / row[at]
    return solved


def pivots_of(matrix: "Sequence[Sequence[float]]") -> "list[float]":
    """Pivots of a small symmetric matrix; their signs are those of its eigenvalues."""
    full = Banded([0] * len(matrix))
    full.rows = [list(row[: at + 1]) for at, row in enumerate(matrix)]
    full.take_apart(1e-15 * max((abs(value) for row in matrix for value in row), default=0.0))
    return full.pivots
