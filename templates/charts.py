"""The charts: the boat, what its stays have to spare, and the side view of a stub; lines are named at the line"""

from dataclasses import dataclass
from typing import Any, Optional

from com.sun.star.awt import Point, Rectangle, Size
from com.sun.star.chart.ChartAxisLabelPosition import OUTSIDE_START
from com.sun.star.chart.ChartLegendPosition import BOTTOM
from com.sun.star.chart2 import DataPointLabel, Symbol
from com.sun.star.chart2.SymbolStyle import STANDARD
from com.sun.star.drawing import LineDash
from com.sun.star.drawing.FillStyle import NONE as UNFILLED
from com.sun.star.drawing.FillStyle import SOLID
from com.sun.star.drawing.LineStyle import DASH as DASHED
from com.sun.star.drawing.LineStyle import NONE as UNLINED
from com.sun.star.drawing.LineStyle import SOLID as LINED
from com.sun.star.table import CellRangeAddress

from templates import styles
from templates.sheets import balance, rig, side_view
from templates.sheets import rig_drawing as drawing
from templates.sheets.rig_cells import MASTS, STAYS_LISTED

LINES = "com.sun.star.chart.LineDiagram"
SCATTER = "com.sun.star.chart.XYDiagram"
ABOVE, LEFT, BELOW, RIGHT = 2, 4, 6, 8  # com.sun.star.chart.DataLabelPlacement
LEAVE_GAP = 0  # com.sun.star.chart.MissingValueTreatment
CIRCLE = 8  # of the office's own symbols
# Three times as dark as their ground, as WCAG 2 has it.
GREY, DARK, OCHRE, RED = 0x7C8B9A, 0x55606B, 0x8A5A14, 0xA23B2A
COLOURS = (0x6B7885, 0x1F3A52, OCHRE, DARK, 0x156E5E, RED, 0x156E5E, RED)


@dataclass(frozen=True)
class Look:
    """How a line is drawn: its colour, its weight in 1/100 mm, and how it is broken."""

    colour: int
    width: int
    dash: str = ""


DASHES = {
    "dotted": LineDash(Dots=1, DotLen=40, Distance=90),
    "long dashes": LineDash(Dashes=1, DashLen=500, Distance=160),
    "short dashes": LineDash(Dashes=1, DashLen=200, Distance=110),
}
# A stay by its state: told apart by weight and dashes, in a print without colours as well.
STATES = {
    "ok": Look(styles.NAVY, 50),
    "waits": Look(0x6B7885, 50, "dotted"),
    "weigh": Look(OCHRE, 80, "long dashes"),
    "urgent": Look(RED, 125, "short dashes"),
}
MAST, SPREADER, DECK, LEADER, RULER = (
    Look(GREY, 110),
    Look(GREY, 90),
    Look(DARK, 70),
    Look(GREY, 10),
    Look(DARK, 60),
)
ENOUGH, SHORT, REQUIRED = Look(styles.NAVY, 260), Look(RED, 260), Look(DARK, 40)
UNSEEN = Look(DARK, 0)
NAMED_TO = tuple(LEFT if place in ("left", "starboard") else RIGHT for place in drawing.PLACES)
BOAT = "The boat, drawn to scale from Points, Masts and Stays"
BOAT_IN_WORDS = (
    "Side view with the bow to the right, and beside it at the same scale the view from ahead, port to the right. "
    "Masts, spreaders, the line of the chainplates, and every stay with its name. A stay that is OK is a thin "
    "line, one to consider a heavier one in long dashes, one in danger or to fix the heaviest in short dashes, "
    "one that waits is dotted. The list beside it says the same in words."
)
NAMES = "The names of what is drawn, and what its lines mean"
NAMES_IN_WORDS = (
    "Over the drawing of the boat: the name of each stay beside it, the masts, the key to the lines, and a scale."
)
SPARE = "What the weakest link of each stay has to spare"
SPARE_IN_WORDS = (
    "A bar for each stay, the least first, from a line that is just what is required. The list of stays says the "
    "same in numbers."
)
# Of each line of the side view that is named: the point at which its name stands, and on which side of it.
NAMED_AT = ((0, RIGHT), (2, BELOW), (1, RIGHT), (1, RIGHT), (side_view.CIRCLE_POINTS // 4, ABOVE), (1, RIGHT))
# Of mast, stub, end plate, bolt, eye, stay and the outer eye and stay: weight in 1/100 mm, and how it is broken.
WEIGHTS = (
    (140, ""),
    (100, ""),
    (60, "short dashes"),
    (60, "long dashes"),
    (50, ""),
    (80, ""),
    (50, "dotted"),
    (60, "dotted"),
)
PLOT = (11250, 15000)  # 1/100 mm
EDGE = 1200
PLACEHOLDER = 1.0  # until the formulas come: the office makes no series over cells without numbers
VIEW = "Side view of the stub"
VIEW_IN_WORDS = (
    "The stub from the side, outboard on the right, to scale: the mast on the left, the bevelled stub on it, the "
    "bolt through both, the end plate, the eye on top of the stub, and the stay that leads down from it. The "
    "numbers stand above and below the drawing."
)
TENSIONS_IN_WORDS = (
    "For each stay marks of its tension at the dock and in each case, the larger of port and starboard, in kN; "
    "each case has a mark of its own shape and colour. The table below has the same numbers."
)
TENSIONS, TENSIONS_SIZE = "Tensions by case", (26000, 11800)
BELOW_TENSIONS = 5300  # names of the stays, and legend
WHOLE = 1  # the office's own number format 0
TOP = 9500  # until the rows have their heights
FIRST_ITEM = 3  # the row of what is picked


def boat(office: Any, book: Any) -> None:
    """The boat on Rig, from the side and from ahead: a line for each state of stays, and names beside them.

    Names stand on a chart of their own over the other: the office keeps a chart's numbers as a table, which is as
    long as the longest line and as wide as there are lines.
    """
    pen = _drawn_in_mm(office, book, ("The boat", 0, drawing.TALL), BOAT, BOAT_IN_WORDS)
    deck = [pen.line(listing, "y", DECK) for listing in ("drawn_deck", "drawn_across")]
    parts = [pen.line("drawn_axis", "y", MAST), pen.line("drawn_spreader", "y", SPREADER)]
    stays = [pen.line("drawn_line", state, STATES[state]) for state in drawing.DRAWN]
    pen.draw([*deck, *parts, *stays, pen.dots("drawn_dot")])
    pen = _drawn_in_mm(office, book, ("Names", 0, drawing.TALL), NAMES, NAMES_IN_WORDS)
    pen.see_through()
    names = [pen.name("drawn_name", 2 * at, side, LEADER) for at, side in enumerate(NAMED_TO)]
    key = [pen.name("drawn_word", 2 * at, RIGHT, STATES[state]) for at, state in enumerate(drawing.DRAWN)]
    ruler = pen.name("drawn_word", drawing.RULER_AT, LEFT, RULER)
    words = [pen.word("drawn_word", at, BELOW) for at in drawing.WORDS_AT]
    masts = [pen.word("drawn_mast", at, ABOVE, "x", "name") for at in range(MASTS)]
    pen.draw([*names, *key, ruler, *words, *masts])


def spares(office: Any, book: Any) -> None:
    """Bars of what each stay has to spare, the least first, each with its name and its figure."""
    below = ("Spare", 100 * drawing.TALL + 300, drawing.SPARES_TALL)
    pen = _drawn_in_mm(office, book, below, SPARE, SPARE_IN_WORDS)
    bars = [pen.line("drawn_bar", column, look) for column, look in (("enough", ENOUGH), ("short", SHORT))]
    rows = range(STAYS_LISTED)
    names = [pen.word("drawn_spare", at, LEFT, "left", "name") for at in rows]
    values = [pen.word("drawn_spare", at, RIGHT, "end", "value") for at in rows]
    pen.draw(
        [*bars, pen.name("drawn_enough", 0, BELOW, REQUIRED), pen.word("drawn_enough", 2, BELOW), *names, *values]
    )


def _drawn_in_mm(office: Any, book: Any, place: "tuple[str, int, int]", title: str, words: str) -> "Pen":
    """A chart on Rig, so far down in 1/100 mm and so many mm high, whose axes are mm and do not move."""
    target = book.Sheets.getByName("Rig")
    name, down, tall = place
    begin = book.NamedRanges.getByName("drawn_word_nth").ReferredCells.RangeAddress  # any numbers
    corner = target.getCellByPosition(0, rig.FIRST_ROW).Position
    size = Rectangle(corner.X, corner.Y + down, 100 * drawing.PLOT, 100 * tall)
    target.Charts.addNewByName(name, size, (begin,), False, False)
    chart = target.Charts.getByName(name).EmbeddedObject
    chart.setDiagram(chart.createInstance(SCATTER))
    chart.HasMainTitle, chart.HasLegend = False, False
    chart.Area.LineStyle = UNLINED
    diagram = chart.Diagram
    for axis, most in ((diagram.XAxis, drawing.PLOT), (diagram.YAxis, tall)):
        axis.AutoMin = axis.AutoMax = axis.AutoStepMain = False
        axis.Min, axis.Max, axis.StepMain = 0, most, 10
    diagram.MissingValueTreatment = LEAVE_GAP
    diagram.HasXAxis = diagram.HasYAxis = False
    diagram.HasXAxisGrid = diagram.HasYAxisGrid = False
    diagram.Wall.FillStyle, diagram.Wall.FillColor, diagram.Wall.LineStyle = SOLID, styles.WHITE, UNLINED
    diagram.setDiagramPositionExcludingAxes(Rectangle(0, 0, 100 * drawing.PLOT, 100 * tall))
    shape = describe(target, name, title, words)
    shape.MoveProtect = shape.SizeProtect = True  # or names and stays would part
    return Pen(office, book, chart)


class Pen:
    """Makes the lines of a chart from the cells of listings, by the names of their columns."""

    def __init__(self, office: Any, book: Any, chart: Any) -> None:
        self.office, self.book = office, book
        self.type = chart.FirstDiagram.CoordinateSystems[0].ChartTypes[0]
        self.chart, self.provider = chart, chart.getDataProvider()
        dashed(chart)

    def see_through(self) -> None:
        self.chart.Area.FillStyle = self.chart.Diagram.Wall.FillStyle = UNFILLED

    def draw(self, lines: "list[Any]") -> None:
        self.type.setDataSeries(tuple(lines))

    def line(self, listing: str, column: str, look: Look) -> Any:
        """All points of a listing; a point without a number is a gap."""
        return self._series(self._cells(f"{listing}_x"), self._cells(f"{listing}_{column}"), None, look)

    def name(self, listing: str, first: int, side: int, look: Look) -> Any:
        """A line of two points, with its name at the second."""
        return self._named(listing, ("x", "text"), (first, first + 1), side, look)

    def word(self, listing: str, at: int, side: int, x: str = "x", text: str = "text") -> Any:
        """A name at one point."""
        return self._named(listing, (x, text), (at, at), side, UNSEEN)

    def dots(self, listing: str) -> Any:
        series = self.line(listing, "y", UNSEEN)
        symbol = Symbol()
        symbol.Style, symbol.StandardSymbol, symbol.Size = STANDARD, CIRCLE, Size(110, 110)
        symbol.BorderColor = symbol.FillColor = DARK
        series.Symbol = symbol
        return series

    def _named(self, listing: str, keys: "tuple[str, str]", rows: "tuple[int, int]", side: int, look: Look) -> Any:
        x, text = keys
        label = self._cells(f"{listing}_{text}", (rows[0], rows[0]))
        series = self._series(self._cells(f"{listing}_{x}", rows), self._cells(f"{listing}_y", rows), label, look)
        _name(series, rows[1] - rows[0], side)
        return series

    def _series(self, across: Any, up: Any, label: Any, look: Look) -> Any:
        series = self.office.create("com.sun.star.chart2.DataSeries")
        series.setData((self._part(across, "values-x"), self._part(up, "values-y", label)))
        series.Color, series.LineWidth = look.colour, look.width
        series.LineStyle = (DASHED if look.dash else LINED) if look.width else UNLINED
        if look.dash:
            series.LineDashName = look.dash
        series.Symbol = Symbol()  # none
        return series

    def _part(self, cells: Any, role: str, label: Any = None) -> Any:
        part = self.office.create("com.sun.star.chart2.data.LabeledDataSequence")
        cells.Role = role
        part.setValues(cells)
        if label is not None:
            label.Role = "label"
            part.setLabel(label)
        return part

    def _cells(self, name: str, rows: "Optional[tuple[int, int]]" = None) -> Any:
        cells = self.book.NamedRanges.getByName(name).ReferredCells
        if rows:
            cells = cells.getCellRangeByPosition(0, rows[0], 0, rows[1])
        return self.provider.createDataSequenceByRangeRepresentation(cells.AbsoluteName)


def dashed(chart: Any) -> None:
    """Let lines of the chart be broken in the ways that have a name."""
    dashes = chart.createInstance("com.sun.star.drawing.DashTable")
    for name, dash in DASHES.items():
        dashes.insertByName(name, dash)


def describe(target: Any, name: str, title: str, words: str) -> Any:
    """Say what a chart shows to who cannot see it."""
    page = target.DrawPage
    (shape,) = (one for one in map(page.getByIndex, range(page.Count)) if one.PersistName == name)
    shape.Title, shape.Description = title, words
    return shape


def tensions(by_case: "tuple[Any, int, int, int]", rows: int, shown: "tuple[Any, int, int, int]") -> None:
    """Marks of the tension of each stay at the dock and in each case, above the table of tensions."""
    target, at, _, header = by_case
    place = target.getCellByPosition(0, shown[2] - balance.CHART_ROWS).Position
    data = CellRangeAddress(at, 0, header, 1 + balance.CASES, header + rows)
    target.Charts.addNewByName(TENSIONS, Rectangle(place.X, place.Y, *TENSIONS_SIZE), (data,), True, True)
    chart = target.Charts.getByName(TENSIONS).EmbeddedObject
    chart.setDiagram(chart.createInstance(LINES))
    diagram = chart.Diagram
    chart.HasMainTitle = True
    chart.Title.String = "Tension by stay: at the dock, and in each case the larger of both sides"
    diagram.HasYAxisTitle = True
    diagram.YAxisTitle.String = "kN"
    diagram.YAxis.Min = 0
    diagram.YAxis.LinkNumberFormatToSource = False
    diagram.YAxis.NumberFormat = WHOLE
    diagram.YMainGrid.LineColor = GREY
    describe(target, TENSIONS, "Tension of each stay, by case", TENSIONS_IN_WORDS)
    chart.HasLegend = True
    chart.Legend.Alignment = BOTTOM
    _white(diagram)
    diagram.XAxis.TextRotation, diagram.XAxis.CharHeight = 9000, 8.0
    wide, tall = TENSIONS_SIZE
    diagram.setDiagramPositionExcludingAxes(Rectangle(EDGE, EDGE, wide - 2 * EDGE, tall - BELOW_TENSIONS - EDGE))
    for number, line in enumerate(chart.FirstDiagram.CoordinateSystems[0].ChartTypes[0].DataSeries):
        line.LineStyle = UNLINED
        line.Color = COLOURS[number % len(COLOURS)]
        symbol = Symbol()
        symbol.Style, symbol.StandardSymbol = STANDARD, number
        symbol.Size = Size(260, 260)
        symbol.FillColor = symbol.BorderColor = line.Color
        line.Symbol = symbol


def view(target: Any, at: int, first_row: int, last_row: int) -> None:
    """The lines of the side view, each its own series over the shared x, with equal scales."""
    data = CellRangeAddress(at, 1, first_row, 1 + len(side_view.LINES), last_row)
    target.Charts.addNewByName(VIEW, Rectangle(0, TOP, *(side + 2 * EDGE for side in PLOT)), (data,), True, False)
    chart = target.Charts.getByName(VIEW).EmbeddedObject
    chart.setDiagram(chart.createInstance(SCATTER))
    dashed(chart)
    describe(target, VIEW, VIEW, VIEW_IN_WORDS)
    chart.HasMainTitle, chart.HasLegend = False, False
    diagram = chart.Diagram
    diagram.SymbolType = -3  # none
    diagram.Lines = True
    spans = ((diagram.XAxis, side_view.LEFT, side_view.WIDE), (diagram.YAxis, side_view.BOTTOM, side_view.TALL))
    for axis, least, span in spans:
        axis.AutoMin = axis.AutoMax = axis.AutoStepMain = False
        axis.Min, axis.Max, axis.StepMain = least, least + span, 20
        axis.CharHeight, axis.LabelPosition = 9.0, OUTSIDE_START
        axis.LinkNumberFormatToSource, axis.NumberFormat = False, WHOLE
    drawn = chart.FirstDiagram.CoordinateSystems[0].ChartTypes[0].DataSeries
    starts = [sum(len(line.points) for line in side_view.LINES[:at]) for at in range(len(drawn))]
    for line, colour, (width, dash) in zip(drawn, COLOURS, WEIGHTS):
        line.Color, line.LineWidth = colour, width
        if dash:
            line.LineStyle, line.LineDashName = DASHED, dash
    for line, start, (at, side) in zip(drawn, starts, NAMED_AT):
        _name(line, start + at, side)
    _white(diagram)
    diagram.HasXAxisGrid = diagram.HasYAxisGrid = False
    diagram.setDiagramPositionExcludingAxes(Rectangle(EDGE, EDGE // 2, *PLOT))


def place_view(book: Any) -> None:
    """Put the side view below its items, when the rows have their heights, and print as far as it goes."""
    target = book.Sheets.getByName("Side view")
    begin = target.getCellByPosition(0, FIRST_ITEM + len(side_view.ITEMS) + 2).Position.Y
    target.DrawPage.getByIndex(0).Position = Point(0, begin)
    end, row = begin + PLOT[1] + 2 * EDGE, 0
    while end > target.getCellByPosition(0, row + 1).Position.Y:
        row += 1
    (area,) = target.getPrintAreas()
    area.EndRow = row
    target.setPrintAreas((area,))


def _name(series: Any, at: int, side: int) -> None:
    """Write the series' name at one of its points."""
    label = DataPointLabel()
    label.ShowSeriesName = True
    point = series.getDataPointByIndex(at)
    point.Label, point.LabelPlacement, point.CharHeight = label, side, 9.0
    point.LabelFillStyle, point.LabelFillColor = SOLID, styles.WHITE


def _white(diagram: Any) -> None:
    diagram.Wall.FillStyle, diagram.Wall.FillColor = SOLID, styles.WHITE
    diagram.XAxis.LineColor = diagram.YAxis.LineColor = GREY
