"""Stiffness of a straight beam, and of a section of a mast; kN and mm, moduli in GPa = kN/mm².

A beam lies along the third of its axes. Its twelve degrees of freedom are displacements and turns, each about
the three axes, of its one end and then of its other. A turn θ moves what stands off by r by θ × r, so that
the slopes are du₁/ds = θ₂ and du₂/ds = −θ₁.
"""

from dataclasses import dataclass
from math import pi, sqrt

Matrix = list[list[float]]
BEND_1 = (0, 4, 6, 10)  # displacement along the first axis, turn about the second
BEND_2 = (1, 3, 7, 9)  # displacement along the second, turn about the first, with the other sign
POISSON = 0.33  # of light alloys; torsion matters little to a mast whose foot cannot turn


@dataclass(frozen=True)
class Section:
    """What a beam resists with: E·A in kN, E·I about its two axes and G·J in kN·mm²."""

    axial: float
    bend_1: float  # against bending along the first axis
    bend_2: float
    torsion: float


def torsion_of_tube(width: float, depth: float, wall: float) -> float:
    """Torsion constant in mm⁴ of a thin elliptical tube, after Bredt.

    J = 4·Am²·t/s, where Am and s are area and girth of the wall's middle line, the girth after Ramanujan.
    """
    a, b = (width - wall) / 2, (depth - wall) / 2
    girth = pi * (3 * (a + b) - sqrt((3 * a + b) * (a + 3 * b)))
    return 4 * (pi * a * b) ** 2 * wall / girth


def elastic(section: Section, length: float) -> Matrix:
    """Stiffness of a slender beam (Przemieniecki, Theory of Matrix Structural Analysis)."""
    matrix = [[0.0] * 12 for _ in range(12)]
    for places, stiffness, sign in ((BEND_1, section.bend_1, 1), (BEND_2, section.bend_2, -1)):
        part = stiffness / length**3
        _bend(matrix, places, sign, length, (12 * part, 6 * part, 4 * part, 2 * part))
    for place, stiffness in ((2, section.axial), (5, section.torsion)):
        matrix[place][place] = matrix[place + 6][place + 6] = stiffness / length
        matrix[place][place + 6] = matrix[place + 6][place] = -stiffness / length
    return matrix


def geometric(length: float) -> Matrix:
    """What one kN of tension adds to the stiffness of a beam (Przemieniecki; Timoshenko & Gere, §2.9)."""
    matrix = [[0.0] * 12 for _ in range(12)]
    part = 1 / (30 * length)
    for places, sign in ((BEND_1, 1), (BEND_2, -1)):
        _bend(matrix, places, sign, length, (36 * part, 3 * part, 4 * part, -part))
    return matrix


def _bend(matrix: Matrix, places: "tuple[int, ...]", sign: int, length: float, parts: "tuple[float, ...]") -> None:
    """Put one plane of bending in: force and moment by displacement, moment by turn here and there."""
    force, mixed, near, far = parts
    mixed, near, far = sign * mixed * length, near * length**2, far * length**2
    block = (
        (force, mixed, -force, mixed),
        (mixed, near, -mixed, far),
        (-force, -mixed, force, -mixed),
        (mixed, far, -mixed, near),
    )
    for place, line in zip(places, block):
        for other, value in zip(places, line):
            matrix[place][other] += value


def turned(matrix: Matrix, axes: "tuple[tuple[float, ...], ...]") -> Matrix:
    """The same stiffness in the axes in which the rows of `axes` are the beam's own."""
    blocks = [
        [[[matrix[3 * i + a][3 * j + b] for b in range(3)] for a in range(3)] for j in range(4)] for i in range(4)
    ]
    result = [[0.0] * 12 for _ in range(12)]
    for i in range(4):
        for j in range(4):
            for a in range(3):
                for b in range(3):
                    result[3 * i + a][3 * j + b] = sum(
                        axes[k][a] * blocks[i][j][k][m] * axes[m][b] for k in range(3) for m in range(3)
                    )
    return result
