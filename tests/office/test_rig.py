"""Rig: what is drawn, against the survey of the demo boats worked out here; in cells, chart and on paper."""

import math
import re

import pytest
from loftsheet.cautions import CAUTIONS

from extension.loftsheet_office.workbook.complaints import complaints
from templates.boats import marrowick, sandlebee
from templates.sheets import ALL, rig
from templates.sheets import rig_drawing as drawing
from templates.sheets.rig_cells import LETTERS_OF_NEXT
from tests.office import named, paper
from tests.office.overlaps import overlapping
from tests.office.restored import VALUES_TEXTS_AND_DATES

pytestmark = pytest.mark.office
OLE = "com.sun.star.drawing.OLE2Shape"

BOATS = {"Marrowick": marrowick, "Sandlebee": sandlebee}
NEAR = 0.15  # mm on paper; a line begins 0.1 beside its point
SIDES = {"port": 1, "starboard": -1, "both": 1, "centreline": 1}


def place(boat, name):
    """Where a point of the survey is: fore, out, up."""
    point = next(one for one in boat.POINTS if one["name"] == name)
    if "along" not in point:
        return point["fore_own"], point["out"], point["up_own"]
    mast = next(one for one in boat.MASTS if one["name"] == (point["mast"] or boat.MASTS[0]["name"]))
    along, rake = point["along"], math.radians(mast["rake"])
    return mast["foot_fore"] - along * math.sin(rake), point["out"], mast["foot_up"] + along * math.cos(rake)


def corners(boat, stay):
    return [place(boat, stay[key]) for key in ("upper", "via", "via_2", "lower") if stay.get(key)]


def chart(book, name="The boat"):
    return book.Sheets.getByName("Rig").Charts.getByName(name).EmbeddedObject


def row(book, stay, *keys):
    """What the cells behind the drawing hold for a stay."""
    at = named.column(book, "drawn_stay_name").index(stay)
    return [named.column(book, f"drawn_stay_{key}")[at] for key in keys]


def lines(book):
    """The runs of points that the chart draws, by the column of its numbers."""
    drawn = {}
    for series in chart(book).FirstDiagram.CoordinateSystems[0].ChartTypes[0].DataSeries:
        parts = {part.Values.Role: part.Values for part in series.DataSequences}
        up = parts["values-y"]
        points = list(zip(parts["values-x"].NumericalData, up.NumericalData))
        drawn[up.SourceRangeRepresentation] = list(runs(points))
    return drawn


def runs(points):
    run = []
    for x, y in [*points, (0, math.nan)]:
        if not math.isnan(y):
            run.append((x, y))
        elif run:
            yield run
            run = []


def state_lines(book):
    """The lines of the stays, by how they are drawn."""
    every = lines(book)
    cells = {state: named.cells(book, f"drawn_line_{state}").AbsoluteName for state in drawing.DRAWN}
    return {state: every[name] for state, name in cells.items()}


@pytest.fixture(scope="module", params=BOATS)
def drawn(request, running_office, demo_file, second_demo_file):
    book = running_office.load({"Marrowick": demo_file, "Sandlebee": second_demo_file}[request.param])
    running_office.recalculate(book)
    yield BOATS[request.param], book
    running_office.close(book)


def test_every_stay_stands_where_its_points_are_to_one_scale_in_both_views(drawn):
    boat, book = drawn
    scale = named.value(book, "rig_scale")
    foot = boat.MASTS[0]
    side, ahead, base = (named.value(book, f"rig_{key}_at") for key in ("side", "ahead", "up"))
    for stay in boat.STAYS:
        points = corners(boat, stay)
        *above, lower = points
        tips = [above[min(at, len(above) - 1)] for at in range(3)]
        for number, (fore, out, up) in enumerate((*tips, lower), 1):
            x, y, across = row(book, stay["name"], f"x{number}", f"y{number}", f"b{number}")
            assert x == pytest.approx(side + fore * scale)
            assert y == pytest.approx(base + up * scale)
            assert across == pytest.approx(SIDES[stay["side"]] * out * scale)
    assert 0 < side < ahead < drawing.PLOT
    assert foot["head"] * scale < drawing.TALL


def test_what_the_chart_draws_is_what_the_cells_hold(drawn):
    """A line for each stay from the side, one from ahead, and a second from ahead for a row of both sides."""
    boat, book = drawn
    ahead = named.value(book, "rig_ahead_at")
    seen = [run for every in state_lines(book).values() for run in every]
    both = sum(stay["side"] == "both" for stay in boat.STAYS)
    assert len(seen) == 2 * len(boat.STAYS) + both
    for stay in boat.STAYS:
        xs = row(book, stay["name"], "x1", "x2", "x3", "x4")
        ys = row(book, stay["name"], "y1", "y2", "y3", "y4")
        across = [ahead + one for one in row(book, stay["name"], "b1", "b2", "b3", "b4")]
        for due in (list(zip(xs, ys)), list(zip(across, ys))):
            assert any(run[-1] == pytest.approx(due[-1]) and same(run, due) for run in seen), stay["name"]


def same(run, due):
    return all(math.dist(one, other) < NEAR for one, other in zip(run, due))


def test_a_millimetre_of_the_axes_is_a_millimetre_of_the_sheet(drawn):
    """Along and up alike, and the axes do not move with what is drawn."""
    diagram = chart(drawn[1]).Diagram
    for axis, most in ((diagram.XAxis, drawing.PLOT), (diagram.YAxis, drawing.TALL)):
        assert (axis.Min, axis.Max, axis.AutoMin, axis.AutoMax) == (0, most, False, False)
    place = diagram.calculateDiagramPositionExcludingAxes()
    assert (place.Width, place.Height) == pytest.approx((100 * drawing.PLOT, 100 * drawing.TALL), abs=20)


@pytest.fixture(scope="module")
def on_paper(running_office, drawn, tmp_path_factory):
    boat, book = drawn
    path = tmp_path_factory.mktemp("rig") / "book.pdf"
    running_office.store(book, path)
    found = [page for page in paper.pages(path) if page.text.lstrip().startswith("Rig\n")]
    style = book.StyleFamilies.getByName("PageStyles").getByName(book.Sheets.getByName("Rig").PageStyle)
    return boat, book, found, style.PageScale / 100


def test_a_boat_of_this_size_is_one_page(on_paper):
    assert len(on_paper[2]) == 1


def test_on_paper_a_length_is_the_same_along_and_up(on_paper):
    """Measured on the page: what every stay covers along and up, in side view, is its survey's to one scale."""
    boat, book, (page,), shrunk = on_paper
    scale = named.value(book, "rig_scale") * shrunk
    straight = [stay for stay in boat.STAYS if not stay.get("via")]
    assert len(straight) > 3
    for stay in straight:
        (upper_fore, _, upper_up), (lower_fore, _, lower_up) = corners(boat, stay)
        due = abs(upper_fore - lower_fore) * scale, abs(upper_up - lower_up) * scale
        assert page.sized(*due, near=0.5), stay["name"]


def test_no_word_stands_on_another(on_paper):
    _, _, (page,), _ = on_paper
    assert len(page.words) > 200
    assert overlapping(page) == []


def test_every_stay_is_named_in_the_drawing_and_listed_beside_it(on_paper):
    boat, _, (page,), _ = on_paper
    words = " ".join(page.text.split())
    for stay in boat.STAYS:
        assert stay["name"] in words
        assert stay["name"].replace(f", {stay['side']}", "") in words
    for mast in boat.MASTS if len(boat.MASTS) > 1 else ():
        assert mast["name"] in words


def test_a_forestay_that_leads_aft_is_seen(office, demo):
    before = row(demo, "forestay", "x1", "x4")
    assert before[0] < before[1]
    named.cell(demo, "points", "fore_own", "stem head").Value = -4310
    office.recalculate(demo)
    x1, x4, y1, y4 = row(demo, "forestay", "x1", "x4", "y1", "y4")
    assert x4 < x1
    assert row(demo, "forestay", "side_place") == ["left"]
    assert any(same((run[0], run[-1]), ((x1, y1), (x4, y4))) for run in state_lines(demo)["urgent"])
    assert named.value(demo, "rig_stay_state") == "unproven"
    assert named.column(demo, "rig_stay_state")[6] == "fix"


def test_a_twin_that_stands_elsewhere_has_a_name_of_its_own(office, demo):
    assert row(demo, "fore lower, starboard", "written") == [""]
    named.cell(demo, "points", "fore_own", "fore lower chainplate, starboard").Value = -450
    office.recalculate(demo)
    assert row(demo, "fore lower, starboard", "written") == ["fore lower, starboard"]
    assert row(demo, "fore lower, port", "written") == ["fore lower"]


def test_each_state_has_its_line(office, demo):
    """A stay is on one line only, and that is the line of its state."""
    named.cell(demo, "stays", "pretension_own", "running backstay, port").Value = 0.5
    named.cell(demo, "stays", "margin_own", "cap shroud, port").Value = 19
    named.cell(demo, "points", "out", "stem head").String = ""
    office.recalculate(demo)
    held = {key: named.column(demo, f"drawn_line_{key}") for key in ("y", "part", "state", *drawing.DRAWN)}
    seen = set()
    for at, (y, part) in enumerate(zip(held["y"], held["part"])):
        on = [state for state in drawing.DRAWN if held[state][at] != ""]
        due = [drawing.STATES[held["state"][at]]] if y != "" and part <= 4 else []
        assert on == due
        seen.update(on)
    assert {"ok", "weigh", "urgent"} <= seen
    by_state = looks(demo)
    assert len({dash for _, dash in by_state.values()}) == 4
    assert by_state["ok"][0] == by_state["waits"][0] < by_state["weigh"][0] < by_state["urgent"][0]


def looks(book):
    """Weight and dashes of the lines of stays, by their state."""
    drawn = {}
    for series in chart(book).FirstDiagram.CoordinateSystems[0].ChartTypes[0].DataSeries:
        values = next(part.Values for part in series.DataSequences if part.Values.Role == "values-y")
        for state in drawing.DRAWN:
            if values.SourceRangeRepresentation == named.cells(book, f"drawn_line_{state}").AbsoluteName:
                drawn[state] = series.LineWidth, series.LineDashName if series.LineStyle.value == "DASH" else ""
    return drawn


def test_half_a_survey_is_drawn_as_far_as_it_goes(office, demo):
    """Text for a number, stays without points, no masts: nothing breaks, and what is missing is said."""
    named.cell(demo, "points", "up_own", "stem head").String = "sixty"
    named.cell(demo, "stays", "lower", "inner forestay").String = ""
    named.cell(demo, "stays", "upper", "backstay leg").String = "nowhere"
    office.recalculate(demo)
    assert broken(demo) == []
    missing = ["forestay", "inner forestay", "backstay leg"]
    assert [name for name in named.column(demo, "drawn_stay_missing") if name] == missing
    assert any(f"Not drawn, for points are missing: {'; '.join(missing)}" in line for line in words(demo))
    for table in ("masts", "stays", "tangs"):
        named.cells(demo, f"{table}_name").clearContents(1 | 2 | 4)
    office.recalculate(demo)
    assert broken(demo) == []
    assert "".join(named.column(demo, "rig_stay_name") + named.column(demo, "rig_stub_name")) == ""
    assert len([y for y in named.column(demo, "drawn_dot_y") if y != ""]) == 3 * (len(marrowick.POINTS) - 6 - 1)


def broken(book):
    """Cells of Rig that are errors."""
    sheet = book.Sheets.getByName("Rig")
    cursor = sheet.createCursor()
    cursor.gotoEndOfUsedArea(False)
    used = sheet.getCellRangeByPosition(0, 0, cursor.RangeAddress.EndColumn, cursor.RangeAddress.EndRow)
    errors = used.queryFormulaCells(4)  # com.sun.star.sheet.FormulaResult.ERROR
    return [cells.AbsoluteName for cells in errors]


def words(book):
    """All that is to be read on Rig."""
    seen = book.Sheets.getByName("Rig").getCellRangeByPosition(0, 0, len(rig.SHEET.widths) - 1, rig.MORE_LAST)
    return [held for line in seen.DataArray for held in line if isinstance(held, str)]


def test_rows_are_found_wherever_they_stand(office, demo):
    """Rows inserted among the stays, one sorted to another place, one renamed."""
    names = [name for name in named.column(demo, "stays_name") if name]
    cell = named.cell(demo, "stays", "name", "forestay")
    cell.Spreadsheet.Rows.insertByIndex(cell.CellAddress.Row, 2)
    cell = named.cell(demo, "stays", "name", "inner forestay")
    cell.String = "staysail stay"
    office.recalculate(demo)
    due = ["staysail stay" if name == "inner forestay" else name for name in names]
    assert [name for name in named.column(demo, "rig_stay_name") if name] == due
    for name, cut in zip(named.column(demo, "rig_stay_name"), named.column(demo, "rig_stay_cut")):
        assert cut == (named.cell(demo, "stays", "cut", name).Value if name else "")


def heads(book, key):
    """The row above a list, as it is seen: what is written, and on which ground."""
    sheet, first = book.Sheets.getByName("Rig"), named.cells(book, f"{key}_name").RangeAddress
    cells = [
        sheet.getCellByPosition(at, first.StartRow - 1) for at in range(first.StartColumn, len(rig.SHEET.widths))
    ]
    return [(cell.String, cell.ConditionalFormat.Count) for cell in cells]


def test_a_list_that_goes_on_has_heads_only_where_there_are_rows_for_it(office, demo):
    listed = [text.replace("\n", " ") for text, _ in heads(demo, "rig_stay")]
    assert {text for text, _ in heads(demo, "rig_more")} == {""}
    assert all(conditions for _, conditions in heads(demo, "rig_more")), "an empty head is no dark bar"
    cells = named.cells(demo, "stays_name")
    sheet, at = cells.Spreadsheet, cells.RangeAddress.EndRow
    sheet.Rows.insertByIndex(at, 12)
    sheet.getCellRangeByPosition(0, at, 0, at + 11).setDataArray(tuple((f"further {one}",) for one in range(12)))
    office.recalculate(demo)
    assert [text.replace("\n", " ") for text, _ in heads(demo, "rig_more")] == listed
    assert {text for text, _ in heads(demo, "rig_further")} == {""}


def test_more_stays_than_are_listed_are_said(office, demo):
    cells, count = named.cells(demo, "stays_name"), len(marrowick.STAYS) + 30
    sheet, at = cells.Spreadsheet, cells.RangeAddress.EndRow
    sheet.Rows.insertByIndex(at, 30)
    added = sheet.getCellRangeByPosition(0, at, 0, at + 29)
    added.setDataArray(tuple((f"further stay {number}",) for number in range(30)))
    office.recalculate(demo)
    assert named.value(demo, "rig_stays") == count
    listed = named.column(demo, "rig_stay_name") + named.column(demo, "rig_more_name")
    assert "" not in listed and len(listed) == rig.STAYS
    first, further = rig.STAYS_LISTED, rig.STAYS - rig.STAYS_LISTED
    assert f"Stays: {first} of {count}, {further} more below, the others on Stays" in words(demo)


def test_alternative_text_says_what_each_chart_shows(demo):
    page = demo.Sheets.getByName("Rig").DrawPage
    shapes = [page.getByIndex(at) for at in range(page.Count)]
    assert len(shapes) == 3
    for shape in shapes:
        assert len(shape.Title) > 20 and len(shape.Description) > 60


def test_each_chart_of_the_other_sheets_has_its_text_too(demo):
    for name in ("Side view", "Balance"):
        page = demo.Sheets.getByName(name).DrawPage
        charts = [one for one in map(page.getByIndex, range(page.Count)) if one.supportsService(OLE)]
        assert len(charts) == 1, name
        assert len(charts[0].Title) > 20 and len(charts[0].Description) > 60


def test_the_next_step_leads_to_a_cell(office, demo):
    """The first fault comes before what is to be weighed, and the cell that is named is the one to change."""
    sheet = demo.Sheets.getByName("Rig")
    assert sheet.getCellRangeByName("A3").String.startswith(
        "Next: nothing is open. Tape the old stays: 12 of 12 lengths rest"
    )
    assert "Open: nothing" in words(demo)
    named.cell(demo, "stays", "pretension_own", "running backstay, port").Value = 0.5
    office.recalculate(demo)
    assert sheet.getCellRangeByName("A3").String.startswith("Next, to consider: Stays ")
    runs = named.cell(demo, "stays", "runs", "backstay leg")
    runs.String = "a cable car"
    office.recalculate(demo)
    said = sheet.getCellRangeByName("A3").String
    assert said.startswith(
        f"Next: Stays {place_of(runs)} under Overrides, backstay leg: fix Runs on it: got a cable car"
    )
    moment = named.cells(demo, "boat_rm30")
    moment.String = ""
    office.recalculate(demo)
    asked = [line for line in words(demo) if "Righting moment at 30°: type it" in line]
    assert asked[0].startswith(f"Next: Boat {place_of(moment)}, ")
    named.cells(demo, "boat_name").String = ""
    office.recalculate(demo)
    place = place_of(named.cells(demo, "boat_name"))
    assert sheet.getCellRangeByName("A3").String == f"Next: Boat {place}: type the boat's name"


@pytest.mark.parametrize(
    ("table", "key", "row", "sheet", "words"),
    [
        ("masts", "wall", "mast", "Masts", "the mast wall is not measured"),
        ("rope", "creep", "HMPE 12-strand 11 mm", "Library", "the creep of its rope is not known"),
    ],
)
def test_a_step_that_is_to_be_done_on_another_sheet_leads_there(office, demo, table, key, row, sheet, words):
    cell = named.cell(demo, table, key, row)
    cell.clearContents(VALUES_TEXTS_AND_DATES)
    office.recalculate(demo)
    said = demo.Sheets.getByName("Rig").getCellRangeByName("A3").String
    assert said.startswith(f"Next, to consider: {sheet} {place_of(cell)}, ")
    assert words in said


def test_a_fault_comes_before_what_follows_from_it_on_other_sheets(office, demo):
    size = named.cell(demo, "rope", "size", "HMPE 12-strand 11 mm")
    size.String = "thick"
    office.recalculate(demo)
    assert any(found.endswith(".begins") for found in named.found(demo, "stays", "cap shroud, port"))
    said = demo.Sheets.getByName("Rig").getCellRangeByName("A3").String
    assert said.startswith(f"Next: Library {place_of(size)}, HMPE 12-strand 11 mm: fix Size: got thick")


def test_a_long_step_goes_on_in_a_second_line(office, demo):
    named.cell(demo, "stays", "margin_own", "forestay").Value = 15
    office.recalculate(demo)
    sheet = demo.Sheets.getByName("Rig")
    first, second = (sheet.getCellRangeByName(place).String for place in ("A3", "A4"))
    assert 100 < len(first) <= LETTERS_OF_NEXT and first.endswith(" ") and second
    told = next(complaints(named.cell(demo, "stays", "found", "forestay").String)).words
    assert (first + second).endswith(f", forestay: {told}")


def place_of(cell):
    return cell.AbsoluteName.rpartition(".")[2].replace("$", "")


def test_every_cell_that_a_check_is_about_is_led_to_where_it_stands(office, demo):
    """After a column was inserted, too; a cell that is worked out is no cell to change."""
    stays = demo.Sheets.getByName("Stays")
    stays.Columns.insertByIndex(6, 1)
    office.recalculate(demo)
    columns = dict(zip(named.column(demo, "led_key"), named.column(demo, "led_column")))
    rows = dict(zip(named.column(demo, "led_key"), named.column(demo, "led_row")))
    for table in (table for sheet in ALL for table in sheet.tables if table.rules):
        for about in {rule.about for rule in table.rules} - {"", "name"}:
            alone, elsewhere = about.startswith("boat_"), "." in about
            column = None if alone or elsewhere else table.column(about)
            if column and column.calculated:
                assert f"{table.key}.{about}" not in columns
                continue
            there = table.elsewhere(about)[1] if elsewhere else f"{table.key}_{about}"
            key = about if alone else there if elsewhere else f"{table.key}.{about}"
            start = named.cells(demo, about if alone else there).RangeAddress
            assert columns[key] == start.StartColumn + 1, key
            assert rows[key] == (start.StartRow + 1 if alone else 0), key


def test_what_was_loosened_and_what_rests_on_no_certificate_is_said(office, demo):
    said = " ".join(words(demo))
    assert "Loosened: nothing" in said
    assert re.search(r"Unproven, no certificate for \d\d?: HMPE 12-strand 6 mm \(invented\), ", said)
    named.cells(demo, "boat_margin").Value = 2.5
    office.recalculate(demo)
    assert any(
        line.startswith("Loosened: ") and "2.5 is looser than Loftsheet's 3" in line for line in words(demo)
    )
    named.certify(demo)
    office.recalculate(demo)
    assert "Figures: all in use rest on certificate, measurement or standard" in words(demo)


def test_rig_is_the_first_page_of_the_whole_book_and_carries_the_cautions(on_paper):
    _, book, (page,), _ = on_paper
    assert book.Sheets.ElementNames[0] == "Rig"
    words = " ".join(page.text.split())
    assert "page 1 of" in words
    assert all(caution in words for caution in CAUTIONS)


def test_a_row_on_figures_without_a_certificate_says_so(office, demo):
    for table in ("stay", "stub"):
        states = [state for state in named.column(demo, f"rig_{table}_state") if state]
        assert states and set(states) == {"unproven"}
    named.certify(demo)
    office.recalculate(demo)
    for table in ("stay", "stub"):
        assert set(named.column(demo, f"rig_{table}_state")) == {"OK", ""}
