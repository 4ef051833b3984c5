"""The side view: what the chart draws for the picked stub, measured on its points, its axes and its square."""

import math

import pytest

from tests.office import named

pytestmark = pytest.mark.office

STUBS = ("cap stub, port", "aft lower stub, starboard", "runner stub, port")
TOLERANCE = 1e-9


def chart(book):
    return book.Sheets.getByName("Side view").Charts.getByName("Side view of the stub").EmbeddedObject


def lines(book):
    """The points that the chart draws, by line."""
    drawn = {}
    for series in chart(book).FirstDiagram.CoordinateSystems[0].ChartTypes[0].DataSeries:
        parts = {part.Values.Role: part for part in series.DataSequences}
        across, up = (parts[role].Values.NumericalData for role in ("values-x", "values-y"))
        (name,) = parts["values-y"].Label.TextualData
        drawn[name] = [(x, z) for x, z in zip(across, up) if not math.isnan(z)]
    return drawn


def sides(points):
    return [math.dist(*side) for side in zip(points, points[1:])]


@pytest.fixture(params=STUBS)
def stub(request, office, demo):
    """Says what a column of Stubs holds for a stub that was picked."""
    named.cells(demo, "view_stub").String = request.param
    office.recalculate(demo)
    return lambda column: named.cell(demo, "tangs", column, request.param).Value


def test_the_stub_is_as_tangs_says(demo, stub):
    """Once round from the top edge of the face: on top, the square end, below, the bevelled face."""
    corners = lines(demo)["stub"]
    due = [stub("top"), stub("rod_size"), stub("base"), stub("face")]
    assert sides(corners) == pytest.approx(due, rel=TOLERANCE)
    (top_x, top_z), (end_x, end_z) = corners[:2]
    assert math.degrees(math.atan2(end_z - top_z, end_x - top_x)) == pytest.approx(stub("bevel"), rel=TOLERANCE)
    assert corners[0][0] == corners[3][0] == pytest.approx(named.value(demo, "boat_pad"))
    assert math.dist(corners[0], corners[2]) == pytest.approx(math.hypot(stub("top"), stub("rod_size")))


def test_the_bolt_goes_through_the_holes(demo, stub):
    """Its middle is where Stubs has the hole at the mast, and where it comes out of the square end."""
    corners, bolt = lines(demo)["stub"], lines(demo)["bolt"]
    middle = sum(z for _, z in bolt[:4]) / 4
    assert (corners[0][1] - middle, bolt[0][1] - bolt[2][1]) == pytest.approx((stub("hole"), stub("bolt_size")))
    (end_x, end_z), (low_x, low_z) = corners[1:3]
    at = (end_z - middle) / (end_z - low_z)
    out = math.dist((end_x, end_z), (end_x + at * (low_x - end_x), middle))
    assert out == pytest.approx(stub("exit"), rel=TOLERANCE)


def test_the_eye_lies_on_top_and_the_stay_leads_away_from_it(demo, stub):
    (left, right, *_), eye, stay = (lines(demo)[name] for name in ("stub", "eye", "stay"))
    middle = [sum(axis) / (len(eye) - 1) for axis in zip(*eye[1:])]
    sleeved = stub("rope_size") + 2 * stub("sleeve_wall")
    assert {round(math.dist(point, middle), 9) for point in eye} == {round(sleeved / 2, 9)}
    along, up = ((right[at] - left[at]) / math.dist(left, right) for at in (0, 1))
    above = (middle[1] - left[1]) * along - (middle[0] - left[0]) * up
    assert above == pytest.approx(sleeved / 2), "it touches the rod"
    (start_x, start_z), (end_x, end_z) = stay
    assert math.degrees(math.atan2(end_x - start_x, start_z - end_z)) == pytest.approx(stub("angle"))


def test_the_end_plate_stands_above_the_rope(demo, stub):
    corners, plate = lines(demo)["stub"], lines(demo)["end plate"]
    thick, high, below, _ = sides(plate)
    assert (thick, below) == pytest.approx((named.value(demo, "boat_plate"),) * 2)
    assert high == pytest.approx(stub("rise") + stub("rod_size"))
    assert math.dist(plate[0], corners[1]) == pytest.approx(stub("rise"))


def test_a_length_is_the_same_across_and_up(demo):
    """Both axes have as many 1/100 mm of paper to a millimetre; nothing drawn lies outside them."""
    diagram = chart(demo).Diagram
    plot = diagram.calculateDiagramPositionExcludingAxes()
    spans = [axis.Max - axis.Min for axis in (diagram.XAxis, diagram.YAxis)]
    assert plot.Width / spans[0] == pytest.approx(plot.Height / spans[1], rel=2e-4)
    assert not (diagram.XAxis.AutoMin or diagram.XAxis.AutoMax or diagram.YAxis.AutoMin or diagram.YAxis.AutoMax)
    points = [point for line in lines(demo).values() for point in line]
    assert all(diagram.XAxis.Min <= x <= diagram.XAxis.Max for x, _ in points)
    assert all(diagram.YAxis.Min <= z <= diagram.YAxis.Max for _, z in points)


def test_it_follows_the_pick_and_is_blank_without_one(office, demo):
    pick, seen = named.cells(demo, "view_stub"), []
    for name in (*STUBS, "no such stub", ""):
        pick.String = name
        office.recalculate(demo)
        seen.append(lines(demo))
    assert len({str(one["stub"]) for one in seen[:3]}) == 3
    assert not any(points for one in seen[3:] for points in one.values())


def test_a_change_on_tangs_is_drawn(office, demo):
    name = named.value(demo, "view_stub")
    before = lines(demo)["stub"]
    named.cell(demo, "tangs", "top_own", name).Value = 30
    office.recalculate(demo)
    assert sides(lines(demo)["stub"])[0] == pytest.approx(30)
    assert lines(demo)["stub"] != before
