"""Colours of the saved schedule: WCAG 2.1, 1.4.3 (text, 4.5 to 1) and 1.4.11 (lines and bars, 3 to 1)."""

import zipfile
from xml.etree import ElementTree

import pytest

from tests.office.test_side_view import chart as side_view

pytestmark = pytest.mark.office

STYLE, DRAW, SVG, CHART, FO, TABLE = (
    f"{{urn:oasis:names:tc:opendocument:xmlns:{name}:1.0}}"
    for name in ("style", "drawing", "svg-compatible", "chart", "xsl-fo-compatible", "table")
)
TEXT, LINE = 4.5, 3.0


def light(colour):
    """Relative luminance of #rrggbb."""
    shares = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    red, green, blue = (one / 12.92 if one <= 0.03928 else ((one + 0.055) / 1.055) ** 2.4 for one in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    darker, lighter = sorted((light(one), light(other)))
    return (lighter + 0.05) / (darker + 0.05)


def test_the_measure_of_contrast():
    """Black on white is 21 to 1, and #767676 on white is the lightest grey with 4.5 to 1, as WCAG 2 has them."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") > TEXT > contrast("#777777", "#ffffff")


@pytest.fixture(scope="module")
def charts(demo_file):
    """Of each chart, by its name: its series by kind, each with its colours, and the colour of the wall."""
    with zipfile.ZipFile(demo_file) as packed:
        objects = [name for name in packed.namelist() if name.endswith("/content.xml")]
        found = {name.rpartition("/")[0]: read(ElementTree.fromstring(packed.read(name))) for name in objects}
    return {name: chart for name, chart in found.items() if chart["series"]}


def read(root):
    styles = {style.get(f"{STYLE}name"): drawn(style) for style in root.iter(f"{STYLE}style")}
    wall = next(root.iter(f"{CHART}wall"), None)
    return {
        "wall": styles[wall.get(f"{CHART}style-name")].get("fill") if wall is not None else None,
        "series": [
            {**styles[one.get(f"{CHART}style-name")], "class": one.get(f"{CHART}class")}
            for one in root.iter(f"{CHART}series")
        ],
    }


def drawn(style):
    properties = style.find(f"{STYLE}graphic-properties")
    if properties is None:
        return {}
    return {
        "fill": properties.get(f"{DRAW}fill-color"),
        "line": properties.get(f"{SVG}stroke-color"),
        "lined": properties.get(f"{DRAW}stroke"),
    }


def test_lines_stand_out_from_their_ground(charts):
    from templates import charts as declared

    assert set(charts) == {"Side view of the stub", "The boat", "Names", "Spare", declared.TENSIONS}
    # Names stand over the boat.
    boat, names, tensions = (charts[name] for name in ("The boat", "Names", declared.TENSIONS))
    assert {chart["wall"] for chart in charts.values() if chart is not names} == {"#ffffff"}
    view = [one["line"] for one in charts["Side view of the stub"]["series"]]
    assert view == [f"#{colour:06x}" for colour in declared.COLOURS]
    drawn = [one for chart in charts.values() for one in chart["series"] if one["lined"] != "none"]
    drawn += tensions["series"]  # marks without lines
    assert len(drawn) > 40
    for one in drawn:
        assert contrast(one["line"], "#ffffff") >= LINE
    due = {f"#{look.colour:06x}" for look in declared.STATES.values()}
    assert all(due <= {one["line"] for one in chart["series"]} for chart in (boat, names))


def test_hairlines_and_grid_stand_out_from_each_ground_they_cross(demo):
    from templates import charts as declared
    from templates import styles

    for ground in (styles.WHITE, styles.PALE, styles.SAND, styles.ROSE):
        assert contrast(f"#{styles.HAIRLINE:06x}", f"#{ground:06x}") >= LINE
    chart = demo.Sheets.getByName("Balance").Charts.getByName(declared.TENSIONS).EmbeddedObject
    assert contrast(f"#{chart.Diagram.YMainGrid.LineColor:06x}", "#ffffff") >= LINE


def test_each_line_is_named_where_it_runs(demo):
    """One point of each shows the name of its series, but for the second eye's: there is no legend to look up."""
    assert not side_view(demo).HasLegend
    from templates import charts as declared

    lines = side_view(demo).FirstDiagram.CoordinateSystems[0].ChartTypes[0].DataSeries
    for series in lines[: len(declared.NAMED_AT)]:
        values = next(one.Values for one in series.DataSequences if one.Values.Role == "values-y")
        points = [series.getDataPointByIndex(at) for at in series.AttributedDataPoints]
        named = [at for at, point in zip(series.AttributedDataPoints, points) if point.Label.ShowSeriesName]
        assert len(named) == 1
        assert values.NumericalData[named[0]] == values.NumericalData[named[0]]  # a point of this line, no gap


def test_texts_and_borders_of_cells(demo_file):
    """Of our own styles: text on its background, and lines round it or below it."""
    with zipfile.ZipFile(demo_file) as packed:
        root = ElementTree.fromstring(packed.read("styles.xml"))
    ours = [
        one for one in root.iter(f"{STYLE}style") if (one.get(f"{STYLE}display-name") or "").startswith("Loft")
    ]
    bordered = 0
    for style in ours:
        cell, text = (style.find(f"{STYLE}{kind}-properties") for kind in ("table-cell", "text"))
        ground = plain(cell, "background-color")
        assert contrast(plain(text, "color", "#000000"), ground) >= TEXT
        for side in ("border", "border-top", "border-bottom", "border-left", "border-right"):
            drawn = (cell.get(f"{FO}{side}") if cell is not None else None) or "none"
            if "#" in drawn:
                bordered += 1
                assert contrast(drawn.split()[-1], ground) >= LINE, style.get(f"{STYLE}display-name")
    assert len(ours) > 10
    assert bordered >= 3


def plain(properties, key, otherwise="#ffffff"):
    held = properties.get(f"{FO}{key}") if properties is not None else None
    return held if held and held.startswith("#") else otherwise
