"""What is on the pages of a PDF: lines and words with their places, all in mm from the top left corner."""

import subprocess
from dataclasses import dataclass, field
from xml.etree import ElementTree

from pypdf import PdfReader

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
class Page:
    width: float
    height: float
    lines: list = field(default_factory=list)
    colours: set = field(default_factory=set)
    letter_sizes: set = field(default_factory=set)  # points
    words: list = field(default_factory=list)  # (left, top, right, bottom)
    text: str = ""

    def sized(self, width, height, near=0.05):
        """The lines of that size."""
        return [line for line in self.lines if abs(line.width - width) < near and abs(line.height - height) < near]


def pages(path):
    """Every page of a PDF, the white ground of the page left out."""
    found = [_lines(page) for page in PdfReader(path).pages]
    texts = _poppler("-layout", str(path), "-").split("\f")
    boxes = ElementTree.fromstring(_poppler("-bbox", str(path), "-"))
    for page, text, box in zip(found, texts, boxes.iter("{http://www.w3.org/1999/xhtml}page")):
        page.text = text
        page.words = [[float(word.get(side)) * POINT for side in ("xMin", "yMin", "xMax", "yMax")] for word in box]
    return found


def _poppler(*words):
    done = subprocess.run(["pdftotext", *words], capture_output=True, check=True, timeout=60)
    return done.stdout.decode()


def _lines(pdf):
    height = float(pdf.mediabox.height)
    page = Page(float(pdf.mediabox.width) * POINT, height * POINT)
    reader = _Reader(page, height)
    pdf.extract_text(visitor_operand_before=reader.operator, visitor_text=reader.letters)
    page.lines = [line for line in page.lines if line.width < page.width - 1 or line.height < page.height - 1]
    return page


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
