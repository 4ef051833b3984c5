"""The two charts: margin by stay, and the side view of a stub; lines are named where they run."""

from typing import Any

from com.sun.star.awt import Rectangle
from com.sun.star.chart.ChartAxisLabelPosition import OUTSIDE_START
from com.sun.star.chart.ChartLegendPosition import BOTTOM
from com.sun.star.chart2 import DataPointLabel
from com.sun.star.drawing.FillStyle import SOLID
from com.sun.star.drawing.LineStyle import SOLID as LINED
from com.sun.star.table import CellRangeAddress

from templates import styles
from templates.sheets import side_view

SCATTER, BARS = "com.sun.star.chart.XYDiagram", "com.sun.star.chart.BarDiagram"
# Three times as light or as dark as their ground, as WCAG 2 has it; the line as well over white as over a bar.
ROPE, WEAKEST, REQUIRED, GRID = styles.NAVY, styles.WHITE, 0xC86414, 0x7C8B9A
COLOURS = (0x6B7885, 0x1F3A52, 0x8A5A14, 0x55606B, 0x156E5E, 0xA23B2A, 0x156E5E, 0xA23B2A)
# Of each line of the side view that is named: the point at which its name stands, and on which side of it.
ABOVE, BELOW, RIGHT = 2, 6, 8  # com.sun.star.chart.DataLabelPlacement
NAMED_AT = ((0, RIGHT), (2, BELOW), (1, RIGHT), (1, RIGHT), (side_view.CIRCLE_POINTS // 4, ABOVE), (1, RIGHT))
PLOT = 15000  # 1/100 mm, the side of the square
EDGE = 1200
PLACEHOLDER = 1.0  # until the formulas come: the office makes no series over cells without numbers
TOP = 9500  # below the items of the sheet


def margins(book: Any, stays: Any, filled: int, target: Any) -> None:
    """Bars of the margin by stay, of the rope and of the weakest link, and a line of what is required.

    The line's name stands behind the last of the rows that are filled, or else over the first.
    """
    letters = [column.key for column in stays.table.laid_out]
    ranges = tuple(
        CellRangeAddress(stays.sheet_at, letters.index(key), stays.header, letters.index(key), stays.last)
        for key in ("name", "margin", "margin_weakest", "margin_limit")
    )
    table = book.Sheets.getByIndex(stays.sheet_at)
    for cells in ranges[1:]:
        for row in range(cells.StartRow + 1, cells.EndRow + 1):
            table.getCellByPosition(cells.StartColumn, row).Value = PLACEHOLDER
    target.Charts.addNewByName("Margin by stay", Rectangle(0, 0, 19000, 12000), ranges, True, True)
    chart = target.Charts.getByName("Margin by stay").EmbeddedObject
    chart.setDiagram(chart.createInstance(BARS))
    diagram = chart.Diagram
    diagram.NumberOfLines = 1
    chart.HasMainTitle = True
    chart.Title.String = "Margin by stay: the rope; the weakest link, scaled; the line that is required"
    diagram.HasYAxisTitle = True
    diagram.YAxisTitle.String = "margin"
    diagram.YAxis.Min = 0
    chart.HasLegend = True
    chart.Legend.Alignment = BOTTOM
    _white(diagram)
    diagram.XAxis.TextRotation = 9000
    bars, lines = (kind.DataSeries for kind in chart.FirstDiagram.CoordinateSystems[0].ChartTypes)
    for bar, colour in zip(bars, (ROPE, WEAKEST)):
        bar.Color, bar.BorderColor, bar.BorderStyle, bar.BorderWidth = colour, ROPE, LINED, 35
    (required,) = lines
    required.Color, required.LineWidth = REQUIRED, 80
    _name(required, max(filled - 1, 0), RIGHT if filled else ABOVE)


def place(target: Any) -> None:
    """Put the chart of margins below what stands on the sheet, once the rows have their heights."""
    cursor = target.createCursor()
    cursor.gotoEndOfUsedArea(False)
    row = cursor.RangeAddress.EndRow + 2
    target.Rows.getByIndex(row).IsStartOfNewPage = True  # or the end of a page would tear it
    target.DrawPage.getByIndex(0).Position = target.getCellByPosition(0, row).Position


def view(target: Any, at: int, first_row: int, last_row: int) -> None:
    """The lines of the side view, each its own series over the shared x, on a square with equal scales."""
    data = CellRangeAddress(at, 1, first_row, 1 + len(side_view.LINES), last_row)
    target.Charts.addNewByName(
        "Side view of the stub", Rectangle(0, TOP, PLOT + 2 * EDGE, PLOT + 2 * EDGE), (data,), True, False
    )
    chart = target.Charts.getByName("Side view of the stub").EmbeddedObject
    chart.setDiagram(chart.createInstance(SCATTER))
    chart.HasMainTitle, chart.HasLegend = False, False
    diagram = chart.Diagram
    diagram.SymbolType = -3  # none
    diagram.Lines = True
    for axis, least in ((diagram.XAxis, side_view.LEFT), (diagram.YAxis, side_view.BOTTOM)):
        axis.AutoMin = axis.AutoMax = axis.AutoStepMain = False
        axis.Min, axis.Max, axis.StepMain = least, least + side_view.SIDE, 20
        axis.CharHeight, axis.LabelPosition = 8.0, OUTSIDE_START
    drawn = chart.FirstDiagram.CoordinateSystems[0].ChartTypes[0].DataSeries
    starts = [sum(len(line.points) for line in side_view.LINES[:at]) for at in range(len(drawn))]
    for line, colour in zip(drawn, COLOURS):
        line.Color, line.LineWidth = colour, 60
    for line, start, (at, side) in zip(drawn, starts, NAMED_AT):
        _name(line, start + at, side)
    _white(diagram)
    diagram.HasXAxisGrid = diagram.HasYAxisGrid = False
    diagram.setDiagramPositionExcludingAxes(Rectangle(EDGE, EDGE // 2, PLOT, PLOT))


def _name(series: Any, at: int, side: int) -> None:
    """Write the series' name at one of its points."""
    label = DataPointLabel()
    label.ShowSeriesName = True
    point = series.getDataPointByIndex(at)
    point.Label, point.LabelPlacement, point.CharHeight = label, side, 9.0
    point.LabelFillStyle, point.LabelFillColor = SOLID, styles.WHITE


def _white(diagram: Any) -> None:
    diagram.Wall.FillStyle, diagram.Wall.FillColor = SOLID, styles.WHITE
    diagram.YMainGrid.LineColor = diagram.XAxis.LineColor = diagram.YAxis.LineColor = GRID
