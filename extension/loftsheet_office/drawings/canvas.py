"""Drawings of true size in the office's Draw: pages, lines, circles, texts and dimensions, all in mm.

A point is (x, y) from the top left corner of what is drawn on, y downwards. Everything is black or grey on
white; no text is smaller than 7 points.
"""

import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import hypot
from pathlib import Path
from typing import Any, Optional

import uno
from com.sun.star.awt import Point as OfficePoint
from com.sun.star.awt import Size
from com.sun.star.drawing import LineDash
from com.sun.star.uno import Exception as OfficeException

from ..common.papers import PAPERS
from ..common.refusal import Refusal
from ..common.safe_files import put_in_place, refuse_kept
from ..common.values import property_values

Point = tuple[float, float]

MARGIN = 10.0  # what printers leave white
FONT = "Liberation Sans"  # comes with the office on every system
SMALLEST_TEXT = 7.0  # points
BLACK, DARK, LIGHT = 0x000000, 0x404040, 0xE0E0E0
ADJUST = {"left": "LEFT", "centre": "CENTER", "right": "RIGHT"}
BEFORE = {"left": 0.0, "centre": 0.5, "right": 1.0}
ARROW_LENGTH, ARROW_HALF = 2.0, 0.35
BAR = 100.0
FILTERS = {".odg": "draw8", ".pdf": "draw_pdf_Export"}


@dataclass(frozen=True)
class Stroke:
    """How a line looks; a closed line may be filled with a grey."""

    width: float = 0.35
    dash: float = 0.0
    colour: int = BLACK
    fill: Optional[int] = None


OUTLINE = Stroke()
CUT = Stroke(width=0.2)
THIN = Stroke(width=0.13, colour=DARK)
HIDDEN = Stroke(width=0.2, dash=1.5, colour=DARK)
CENTRE = Stroke(width=0.13, dash=4.0, colour=DARK)
SOLID = Stroke(width=0.1, fill=BLACK)


class Drawing:
    """A Draw document that nobody sees, with pages of one size; use it in a `with` block."""

    def __init__(self, desktop: Any, paper: str, landscape: bool, title: str, boat: str) -> None:
        if paper not in PAPERS:
            raise Refusal(f"{paper} is no paper that is known here; it must be {' or '.join(PAPERS)}")
        short, long = PAPERS[paper]
        self.width, self.height = (long, short) if landscape else (short, long)
        self.landscape = landscape
        self.document = desktop.loadComponentFromURL(
            "private:factory/sdraw", "_blank", 0, property_values(Hidden=True)
        )
        if self.document is None:
            raise Refusal(
                "LibreOffice Draw, which draws the sheet, is not installed here; install it and try again"
            )
        self.document.lockControllers()  # to keep up a view that nobody sees takes a third of the time
        properties = self.document.DocumentProperties
        properties.Title, properties.Author = title, boat or "Loftsheet"
        self.pages: list[Any] = []

    def __enter__(self) -> "Drawing":
        return self

    def __exit__(self, *_: object) -> None:
        self.document.close(True)

    def page(self) -> "Pen":
        """Add a page and return the pen at its top left corner."""
        pages = self.document.DrawPages
        page = pages.insertNewByIndex(pages.Count) if self.pages else pages.getByIndex(0)
        self.pages.append(page)
        page.Orientation = _enum("view.PaperOrientation", "LANDSCAPE" if self.landscape else "PORTRAIT")
        page.Width, page.Height = _hundredths(self.width), _hundredths(self.height)
        for border in ("BorderLeft", "BorderRight", "BorderTop", "BorderBottom"):
            setattr(page, border, _hundredths(MARGIN))
        return Pen(self.document, page)

    def save(self, *paths: Path, texts: "Optional[Mapping[Path, str]]" = None) -> None:
        """Write the drawing in the formats of the endings, and more files that are texts.

        All are written beside their places and renamed when all are there.
        """
        texts = texts or {}
        for path in (*paths, *texts):
            refuse_kept(path)
        with tempfile.TemporaryDirectory(dir=paths[0].parent, prefix=".loftsheet-") as folder:
            for path in paths:
                unfinished = uno.systemPathToFileUrl(str(Path(folder).resolve() / path.name))
                try:
                    self.document.storeToURL(unfinished, property_values(FilterName=FILTERS[path.suffix]))
                except OfficeException as failed:
                    raise OSError(f"{path} cannot be written: {failed.Message}") from None
            for path, text in texts.items():
                (Path(folder) / path.name).write_text(text, encoding="utf-8")
            put_in_place([(Path(folder) / path.name, path) for path in (*paths, *texts)])


@dataclass(frozen=True)
class Pen:
    """Draws on a page; its own place is the origin of what it draws, `scale` 0.5 draws at half size."""

    document: Any
    page: Any
    origin: Point = (0.0, 0.0)
    scale: float = 1.0

    def at(self, x: float, y: float) -> "Pen":
        """A pen whose origin lies there."""
        return replace(self, origin=self.place((x, y)))

    def scaled(self, scale: float) -> "Pen":
        return replace(self, scale=self.scale * scale)

    def place(self, point: Point) -> Point:
        """Where a point of the drawing lies on the page."""
        return self.origin[0] + point[0] * self.scale, self.origin[1] + point[1] * self.scale

    def line(self, *points: Point, stroke: Stroke = OUTLINE) -> None:
        """A line through the points."""
        self._shape("PolyLineShape", points, stroke)

    def polygon(self, *points: Point, stroke: Stroke = OUTLINE) -> None:
        """A closed line through the points."""
        self._shape("PolyPolygonShape", points, stroke)

    def ellipse(self, centre: Point, width: float, height: float, stroke: Stroke = OUTLINE) -> None:
        shape = self.document.createInstance("com.sun.star.drawing.EllipseShape")
        self.page.add(shape)
        left, top = self.place((centre[0] - width / 2, centre[1] - height / 2))
        shape.setPosition(_office_point((left, top)))
        shape.setSize(Size(_hundredths(width * self.scale), _hundredths(height * self.scale)))
        _set(shape, _stroke(stroke))

    def circle(self, centre: Point, diameter: float, stroke: Stroke = OUTLINE) -> None:
        self.ellipse(centre, diameter, diameter, stroke)

    def cross(self, centre: Point, half_width: float, half_height: float) -> None:
        """Centre lines."""
        x, y = centre
        self.line((x - half_width, y), (x + half_width, y), stroke=CENTRE)
        self.line((x, y - half_height), (x, y + half_height), stroke=CENTRE)

    def arrow(self, start: Point, tip: Point, stroke: Stroke = THIN) -> None:
        """A line with a head at its tip; the head keeps its size at every scale."""
        self.line(start, tip, stroke=stroke)
        self._head(start, tip)

    def text(
        self,
        point: Point,
        words: str,
        size: float = 8.0,
        bold: bool = False,
        align: str = "left",
        width: float = 0.0,
    ) -> float:
        """One line with its middle at that height, or, with a width, a paragraph below it; return its height."""
        shape = self._lettering(words, size, bold, align, width)
        given, (x, y) = shape.getSize(), self.place(point)
        left = x if width else x - given.Width * BEFORE[align] / 100
        top = y if width else y - given.Height / 200
        shape.setPosition(_office_point((left, top)))
        return float(given.Height / 100)

    def height(self, words: str, size: float, width: float, bold: bool = False) -> float:
        """The height that a paragraph will have."""
        shape = self._lettering(words, size, bold, "left", width)
        height = float(shape.getSize().Height / 100)
        self.page.remove(shape)
        return height

    def _lettering(self, words: str, size: float, bold: bool, align: str, width: float) -> Any:
        if size < SMALLEST_TEXT:
            raise ValueError(f"text of {size:g} points is too small to read")
        shape = self.document.createInstance("com.sun.star.drawing.TextShape")
        self.page.add(shape)
        shape.setSize(Size(_hundredths(width or 1), 1))  # it grows to what the text needs
        shape.String = words
        _set(shape, _letters(size, bold, align, width))
        return shape

    def dimension(self, start: Point, end: Point, offset: float, words: str) -> None:
        """A dimension beside a stretch: to its right for a positive offset, looking from start to end."""
        length = hypot(end[0] - start[0], end[1] - start[1])
        along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
        normal = (-along[1], along[0]) if offset > 0 else (along[1], -along[0])
        away = abs(offset) / self.scale
        first, last = (_moved(point, normal, away) for point in (start, end))
        for point, shown in ((start, first), (end, last)):
            self.line(_moved(point, normal, 0.8 / self.scale), _moved(shown, normal, 1 / self.scale), stroke=THIN)
        room = length * self.scale > 3 * ARROW_LENGTH
        outside = 0 if room else 2 * ARROW_LENGTH / self.scale
        self.line(_moved(first, along, -outside), _moved(last, along, outside), stroke=THIN)
        self._head(last if room else _moved(first, along, -1), first)
        self._head(first if room else _moved(last, along, 1), last)
        align = "left" if normal[0] > 0.5 else "right" if normal[0] < -0.5 else "centre"
        middle = ((first[0] + last[0]) / 2, (first[1] + last[1]) / 2)
        level = 0.62 * len(words) * abs(along[1])  # words stay level on a slanted line
        clear = 1.2 if align != "centre" else 2.3 + level
        self.text(_moved(middle, normal, clear / self.scale), words, align=align)

    def bar(self, words: str) -> None:
        """A bar of 100 mm to check the printer with."""
        self.line((0, 0), (BAR, 0), stroke=OUTLINE)
        for tick in range(0, int(BAR) + 1, 10):
            self.line((tick, -3.0 if tick % 50 == 0 else -1.8), (tick, 0), stroke=CUT)
        for tick in (0, 50, 100):
            self.text((tick, 2.0), f"{tick} mm" if tick else "0", align="centre")
        self.text((BAR + 9, -1.0), words, bold=True)

    def _head(self, start: Point, tip: Point) -> None:
        (x1, y1), (x2, y2) = self.place(start), self.place(tip)
        length = hypot(x2 - x1, y2 - y1)
        back, side = ((x1 - x2) / length, (y1 - y2) / length), ((y2 - y1) / length, (x1 - x2) / length)
        base = _moved((x2, y2), back, ARROW_LENGTH)
        corners = ((x2, y2), _moved(base, side, ARROW_HALF), _moved(base, side, -ARROW_HALF))
        replace(self, origin=(0.0, 0.0), scale=1.0).polygon(*corners, stroke=SOLID)

    def _shape(self, kind: str, points: Sequence[Point], stroke: Stroke) -> None:
        shape = self.document.createInstance(f"com.sun.star.drawing.{kind}")
        self.page.add(shape)
        placed = tuple(_office_point(self.place(point)) for point in points)
        _set(shape, {**_stroke(stroke), "PolyPolygon": (placed,)})


def _moved(point: Point, direction: Point, distance: float) -> Point:
    return point[0] + direction[0] * distance, point[1] + direction[1] * distance


def _stroke(stroke: Stroke) -> "dict[str, Any]":
    looks = {
        "FillStyle": _enum("drawing.FillStyle", "NONE" if stroke.fill is None else "SOLID"),
        "FillColor": stroke.fill or 0,
        "LineColor": stroke.colour,
        "LineJoint": _enum("drawing.LineJoint", "ROUND"),
        "LineStyle": _enum("drawing.LineStyle", "DASH" if stroke.dash else "SOLID"),
        "LineWidth": _hundredths(stroke.width),
    }
    if stroke.dash:
        dash = LineDash()
        dash.Dashes, dash.DashLen, dash.Distance = 1, _hundredths(stroke.dash), _hundredths(stroke.dash * 0.6)
        looks["LineDash"] = dash
    return looks


def _letters(size: float, bold: bool, align: str, width: float) -> "dict[str, Any]":
    return {
        "CharFontName": FONT,
        "CharHeight": size,
        "CharWeight": uno.getConstantByName(f"com.sun.star.awt.FontWeight.{'BOLD' if bold else 'NORMAL'}"),
        "ParaAdjust": _enum("style.ParagraphAdjust", ADJUST[align]),
        "TextAutoGrowHeight": True,
        "TextAutoGrowWidth": not width,
        "TextHorizontalAdjust": _enum("drawing.TextHorizontalAdjust", "BLOCK" if width else "LEFT"),
        "TextLeftDistance": 0,
        "TextLowerDistance": 0,
        "TextRightDistance": 0,
        "TextUpperDistance": 0,
        "TextVerticalAdjust": _enum("drawing.TextVerticalAdjust", "TOP"),
        "TextWordWrap": bool(width),
    }


def _set(shape: Any, values: "dict[str, Any]") -> None:
    """Set properties in one call; the office wants them sorted by name."""
    names = tuple(sorted(values))
    uno.invoke(shape, "setPropertyValues", (names, tuple(_typed(name, values[name]) for name in names)))


def _typed(name: str, value: Any) -> Any:
    return uno.Any("[][]com.sun.star.awt.Point", value) if name == "PolyPolygon" else value


def _enum(kind: str, value: str) -> Any:
    return uno.Enum(f"com.sun.star.{kind}", value)


def _office_point(point: Point) -> Any:
    return OfficePoint(_hundredths(point[0]), _hundredths(point[1]))


def _hundredths(mm: float) -> int:
    return round(mm * 100)
