"""What is on the pages of a PDF: lines and words with their places, all in mm from the top left corner."""

import subprocess
from dataclasses import dataclass, field
from functools import cached_property
from io import BytesIO
from xml.etree import ElementTree

from pypdf import PageObject, PdfReader

POINT = 25.4 / 72  # mm
STEPS = 8


@dataclass
class Line:
    """One painted path, curves followed in small steps."""

    points: list
    closed: bool

    @property
    def left(self):
        return min(x for x, _ in self.points)

    @property
    def right(self):
        return max(x for x, _ in self.points)

    @property
    def top(self):
        return min(y for _, y in self.points)

    @property
    def bottom(self):
        return max(y for _, y in self.points)

    @property
    def width(self):
        return self.right - self.left

    @property
    def height(self):
        return self.bottom - self.top

    @property
    def centre(self):
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2


@dataclass
class Drawn:
    """What the operators of a page paint."""

    lines: list = field(default_factory=list)
    colours: set = field(default_factory=set)
    letter_sizes: set = field(default_factory=set)  # points


@dataclass
class Page:
    pdf: PageObject
    width: float
    height: float
    text: str
    words: list  # (left, top, right, bottom)

    @cached_property
    def drawn(self):
        """Followed only when somebody asks: it takes longer than all the rest."""
        drawn = Drawn()
        reader = _Reader(drawn, float(self.pdf.mediabox.height))
        self.pdf.extract_text(visitor_operand_before=reader.operator, visitor_text=reader.letters)
        drawn.lines = [one for one in drawn.lines if one.width < self.width - 1 or one.height < self.height - 1]
        return drawn

    @property
    def lines(self):
        return self.drawn.lines

    @property
    def colours(self):
        return self.drawn.colours

    @property
    def letter_sizes(self):
        return self.drawn.letter_sizes

    def sized(self, width, height, near=0.05):
        """The lines of that size."""
        return [line for line in self.lines if abs(line.width - width) < near and abs(line.height - height) < near]


def pages(path):
    """Every page of a PDF, the white ground of the page left out."""
    texts = _poppler("-layout", str(path), "-").split("\f")
    boxes = ElementTree.fromstring(_poppler("-bbox", str(path), "-"))
    kept = zip(
        PdfReader(BytesIO(path.read_bytes())).pages, texts, boxes.iter("{http://www.w3.org/1999/xhtml}page")
    )
    return [Page(pdf, *_size(pdf), text, [_box(word) for word in box]) for pdf, text, box in kept]


def _size(pdf):
    return float(pdf.mediabox.width) * POINT, float(pdf.mediabox.height) * POINT


def _box(word):
    return [float(word.get(side)) * POINT for side in ("xMin", "yMin", "xMax", "yMax")]


def _poppler(*words):
    done = subprocess.run(["pdftotext", *words], capture_output=True, check=True, timeout=60)
    return done.stdout.decode()


class _Reader:
    """Follows the drawing operators of one page."""

    def __init__(self, page, height):
        self.page, self.height = page, height
        self.runs = []

    def operator(self, operator, given, matrix, _):
        name = operator.decode() if isinstance(operator, bytes) else operator
        numbers = [float(one) for one in given] if name in ("m", "l", "c", "rg", "RG") else []
        if name in ("rg", "RG"):
            self.page.colours.add(tuple(numbers))
        elif name == "m":
            self.runs.append(Line([self.place(numbers, matrix)], False))
        elif name == "l":
            self.runs[-1].points.append(self.place(numbers, matrix))
        elif name == "c":
            self.curve(numbers, matrix)
        elif name == "h":
            self.runs[-1].closed = True
        elif name in ("S", "f", "f*", "B", "B*", "b", "b*", "s"):
            self.page.lines += self.runs
            self.runs = []
        elif name == "n":
            self.runs = []

    def letters(self, text, _, matrix, __, size):
        if text.strip():
            self.page.letter_sizes.add(round(size * abs(matrix[3]), 2))

    def place(self, point, matrix):
        a, b, c, d, e, f = matrix
        x, y = point
        return (a * x + c * y + e) * POINT, (self.height - (b * x + d * y + f)) * POINT

    def curve(self, numbers, matrix):
        corners = [self.runs[-1].points[-1], *(self.place(numbers[at : at + 2], matrix) for at in (0, 2, 4))]
        for step in range(1, STEPS + 1):
            t = step / STEPS
            share = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3)
            self.runs[-1].points.append(tuple(sum(s * c[axis] for s, c in zip(share, corners)) for axis in (0, 1)))
