"""The two charts: margin by stay, and the side view of a stub."""

from typing import Any

from com.sun.star.awt import Rectangle
from com.sun.star.chart.ChartAxisLabelPosition import OUTSIDE_START
from com.sun.star.chart.ChartLegendPosition import BOTTOM
from com.sun.star.drawing.FillStyle import SOLID
from com.sun.star.table import CellRangeAddress

from templates import styles
from templates.sheets import side_view

SCATTER, BARS = "com.sun.star.chart.XYDiagram", "com.sun.star.chart.BarDiagram"
COLOURS = (0x6B7885, 0x1F3A52, 0x8A5A14, 0x55606B, 0x156E5E, 0xA23B2A)
PLOT = 15000  # 1/100 mm, the side of the square
EDGE = 1200
LEGEND = 1800
PLACEHOLDER = 1.0  # until the formulas come: the office makes no series over cells without numbers
TOP = 9500  # below the items of the sheet


def margins(book: Any, stays: Any, target: Any) -> None:
    """Bars of the margin by stay, of the rope and of the weakest link, and a line of what is required."""
    letters = [column.key for column in stays.table.columns]
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
    diagram.getDataRowProperties(0).FillColor = styles.NAVY
    diagram.getDataRowProperties(1).FillColor = styles.HAIRLINE
    required = chart.FirstDiagram.CoordinateSystems[0].ChartTypes[1].DataSeries[0]
    required.Color, required.LineWidth = 0xA23B2A, 80


def place(target: Any) -> None:
    """Put the chart of margins below what stands on the sheet, once the rows have their heights."""
    cursor = target.createCursor()
    cursor.gotoEndOfUsedArea(False)
    below = target.getCellByPosition(0, cursor.RangeAddress.EndRow + 2).Position
    target.DrawPage.getByIndex(0).Position = below


def view(target: Any, at: int, first_row: int, last_row: int) -> None:
    """The lines of the side view, each its own series over the shared x, on a square with equal scales."""
    data = CellRangeAddress(at, 1, first_row, 1 + len(side_view.LINES), last_row)
    target.Charts.addNewByName(
        "Side view of the stub", Rectangle(0, TOP, PLOT + 2 * EDGE + LEGEND, PLOT + 2 * EDGE), (data,), True, False
    )
    chart = target.Charts.getByName("Side view of the stub").EmbeddedObject
    chart.setDiagram(chart.createInstance(SCATTER))
    chart.HasMainTitle, chart.HasLegend = False, True
    diagram = chart.Diagram
    diagram.SymbolType = -3  # none
    diagram.Lines = True
    for axis, least in ((diagram.XAxis, side_view.LEFT), (diagram.YAxis, side_view.BOTTOM)):
        axis.AutoMin = axis.AutoMax = axis.AutoStepMain = False
        axis.Min, axis.Max, axis.StepMain = least, least + side_view.SIDE, 20
        axis.CharHeight, axis.LabelPosition = 8.0, OUTSIDE_START
    for row in range(len(side_view.LINES)):
        line = diagram.getDataRowProperties(row)
        line.LineColor, line.LineWidth = COLOURS[row], 60
    _white(diagram)
    diagram.setDiagramPositionExcludingAxes(Rectangle(EDGE, EDGE // 2, PLOT, PLOT))


def _white(diagram: Any) -> None:
    diagram.Wall.FillStyle, diagram.Wall.FillColor = SOLID, styles.WHITE
