"""End plate and cutting template for a shop that cuts from a file, measured on the .svg itself."""

import math
import re
from types import SimpleNamespace
from xml.etree import ElementTree

import pytest
from shapely import LineString, Point, Polygon

from tests.office import outputs
from tests.office.test_mark_out import STUB, Stub

pytestmark = pytest.mark.office

SVG = "{http://www.w3.org/2000/svg}"
NEAR = 0.01  # mm
PLATE = 4.0


@pytest.fixture(scope="module")
def cut(running_office, demo_file, tmp_path_factory):
    """Both files of a stub of the demo boat."""
    folder = tmp_path_factory.mktemp("cut")
    book = running_office.load(demo_file)
    try:
        running_office.recalculate(book)
        outputs.mark_out_sheet(running_office, book, STUB, folder, to_cut=True)
    finally:
        running_office.close(book)
    (plate,), (template,) = folder.glob("*-end-plate.svg"), folder.glob("*-cutting-template.svg")
    return SimpleNamespace(folder=folder, plate=ElementTree.parse(plate), template=ElementTree.parse(template))


def group(drawing, name):
    return drawing.find(f".//{SVG}g[@id='{name}']")


def numbers_of(text):
    return [float(one) for one in re.findall(r"-?\d+(?:\.\d+)?", text)]


def outline(drawing):
    """The corners of the outline, half circles in small steps; only what such an outline is made of is known."""
    points = []
    for letter, given in re.findall(r"([MLVAZ])([^MLVAZ]*)", group(drawing, "cut").find(f"{SVG}path").get("d")):
        values = numbers_of(given)
        if letter in "ML":
            points.append(tuple(values))
        elif letter == "V":
            points.append((points[-1][0], values[0]))
        elif letter == "A":
            radius, _, _, large, sweep, x, y = values
            assert (large, sweep) == (0, 1)
            start, end = points[-1], (x, y)
            assert math.dist(start, end) == pytest.approx(2 * radius, abs=NEAR)  # half a circle
            middle = ((start[0] + x) / 2, (start[1] + y) / 2)
            first = math.atan2(start[1] - middle[1], start[0] - middle[0])
            turns = [first + math.pi * step / 720 for step in range(721)]  # y is downwards: clockwise
            points += [(middle[0] + radius * math.cos(a), middle[1] + radius * math.sin(a)) for a in turns]
    return points


@pytest.mark.parametrize("which", ["plate", "template"])
def test_a_unit_of_the_drawing_is_a_millimetre_on_the_sheet(cut, which):
    """SVG 1.1 (W3C, second edition), 7.10: width and height with a unit over the viewBox give the scale."""
    root = getattr(cut, which).getroot()
    sizes = [re.fullmatch(r"([\d.]+)mm", root.get(side))[1] for side in ("width", "height")]
    assert [float(size) for size in sizes] == numbers_of(root.get("viewBox"))[2:]


@pytest.mark.parametrize("which", ["plate", "template"])
def test_all_lies_on_the_sheet_and_words_clear_of_what_is_cut(cut, which):
    drawing = getattr(cut, which)
    left, top, wide, tall = numbers_of(drawing.getroot().get("viewBox"))
    points = outline(drawing)
    assert left < min(x for x, _ in points)
    assert max(x for x, _ in points) < left + wide
    assert top < min(y for _, y in points)
    lines = [float(one.get("y")) for one in group(drawing, "words")]
    assert max(y for _, y in points) + 4 < min(lines)
    assert max(lines) < top + tall


def test_the_end_plate_is_the_rods_circle_drawn_out_upwards(cut):
    """Against the hull of two circles."""
    stub = Stub()
    radius = stub.rod / 2
    circles = [Point(radius, radius + down).buffer(radius, quad_segs=720) for down in (0, stub.rise)]
    due, found = circles[0].union(circles[1]).convex_hull, Polygon(outline(cut.plate))
    assert found.symmetric_difference(due).area < 0.1  # mm²
    left, top, right, bottom = found.bounds
    assert (right - left, bottom - top) == pytest.approx((stub.rod, stub.rod + stub.rise), abs=NEAR)


def test_the_bolts_hole_is_marked_where_it_comes_out_of_the_plate_and_not_cut(cut):
    """On the outer face: a level bolt through a plate that leans by the bevel comes out lower than it goes in."""
    stub = Stub()
    assert group(cut.plate, "cut").find(f"{SVG}ellipse") is None
    hole = {
        key: float(group(cut.plate, "mark").find(f"{SVG}ellipse").get(key)) for key in ("cx", "cy", "rx", "ry")
    }
    assert hole["cx"] == pytest.approx(stub.rod / 2, abs=NEAR)
    assert hole["cy"] == pytest.approx(stub.rise + stub.exit + PLATE * math.tan(stub.bevel), abs=NEAR)
    assert (2 * hole["rx"], 2 * hole["ry"]) == pytest.approx(
        (stub.bolt_hole, stub.bolt_hole / math.cos(stub.bevel)), abs=NEAR
    )


def test_the_keepers_hole_is_cut_clear_of_rod_and_edge(cut):
    stub = Stub()
    keeper = group(cut.plate, "cut").find(f"{SVG}circle")
    x, y, radius = (float(keeper.get(key)) for key in ("cx", "cy", "r"))
    assert x == pytest.approx(stub.rod / 2, abs=NEAR)
    assert y - radius > 3
    assert y + radius < stub.rise - 3


def test_the_template_goes_once_round_the_rod_and_follows_the_sawn_end(cut):
    """Against an oblique cut of a cylinder, point by point, and its length against numpy's own integral."""
    numpy = pytest.importorskip("numpy")
    stub = Stub()
    points = outline(cut.template)
    foot, once = max(y for _, y in points), math.pi * stub.rod
    curve = [(x, foot - y) for x, y in points if x <= once + NEAR and foot - y > 1]
    assert len(curve) > 300
    assert max(abs(height - stub.curve(distance)) for distance, height in curve) < NEAR
    assert (curve[0][0], curve[-1][0]) == pytest.approx((0, once), abs=NEAR)
    turn = numpy.linspace(0, 2 * math.pi, 20001)
    radius = stub.rod / 2
    slope = numpy.hypot(radius, radius * math.tan(stub.bevel) * numpy.sin(turn))
    length = float(numpy.sum((slope[1:] + slope[:-1]) / 2 * numpy.diff(turn)))
    assert LineString(curve).length == pytest.approx(length, abs=0.05)


def test_the_template_has_a_tab_and_its_long_side_is_marked(cut):
    stub = Stub()
    points, once = outline(cut.template), math.pi * stub.rod
    assert 8 < max(x for x, _ in points) - once < 16
    marks = [
        {key: float(line.get(key)) for key in ("x1", "y1", "x2", "y2")} for line in group(cut.template, "mark")
    ]
    (middle,) = [line for line in marks if abs(line["x1"] - once / 2) < NEAR]
    base = stub.top + stub.rod * math.tan(stub.bevel)
    assert abs(middle["y1"] - middle["y2"]) == pytest.approx(base, abs=NEAR)


def test_marks_are_dashed_and_what_is_cut_is_not(cut):
    for drawing in (cut.plate, cut.template):
        assert group(drawing, "mark").get("stroke-dasharray")
        assert not group(drawing, "cut").get("stroke-dasharray")


def test_the_words_say_what_number_and_how_thick(cut):
    words = " ".join(line.text for line in group(cut.plate, "words"))
    assert STUB in words
    assert "Marrowick" in words
    assert f"Thickness {PLATE:.1f} mm" in words
    assert re.search(r"Number: \d+\.", words)


def test_without_being_asked_for_none_is_written(office, demo, tmp_path):
    outputs.mark_out_sheet(office, demo, STUB, tmp_path)
    assert sorted(path.suffix for path in tmp_path.iterdir()) == [".odg", ".pdf"]


def test_names_that_would_break_the_file_stay_words(office, demo, tmp_path):
    demo.NamedRanges.getByName("boat_name").ReferredCells.String = 'A<&"B">'
    office.recalculate(demo)
    outputs.mark_out_sheet(office, demo, STUB, tmp_path, to_cut=True)
    (plate,) = tmp_path.glob("*-end-plate.svg")
    assert 'A<&"B">' in " ".join(line.text for line in group(ElementTree.parse(plate), "words"))
