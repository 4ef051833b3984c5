"""The mark-out sheet, measured on the paths of its own PDF against geometry worked out from the survey."""

import itertools
import math
import re
import subprocess
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from types import SimpleNamespace

import pytest
from loftsheet import __version__
from loftsheet.cautions import ALOFT, CAUTIONS
from shapely import LineString

from tests.office import named, outputs
from tests.office import paper as pdf
from tests.office.overlaps import overlapping

pytestmark = pytest.mark.office

PAPERS = ("A4", "Letter")
SIZES = {"A4": (297.0, 210.0), "Letter": (279.4, 215.9)}
NEAR = 0.05  # mm
MARGIN = 10.0
STUB = "cap stub, port"
OLDEST = Path(__file__).parent / "kept" / "marrowick-0.1.0.ods"


@dataclass
class Stub:
    """The cap stub of the demo boat by plane geometry, nothing read from a calculated cell.

    Seen along the boat: x outboard, z up, the top edge of the bevelled face at the origin.
    """

    rod: float = 65.0
    rope: float = 10.0
    sleeve: float = 1.0
    bolt_hole: float = 20.5
    washer: float = 37.0
    plate_extra: float = 3.0
    drill_off: float = 0.3
    thin: float = 1.5

    @property
    def bevel(self):
        drop = 12900 * math.cos(math.radians(1)) - 6560
        return math.atan2(1202 - 55, drop) + math.radians(2)

    @property
    def thick(self):
        return self.rope + 2 * self.sleeve

    @property
    def top(self):
        beside_mast = self.thick / 2 * (1 + math.tan(math.pi / 4 + self.bevel / 2)) + 3
        return float(math.ceil(beside_mast))

    @property
    def face(self):
        return self.rod / math.cos(self.bevel)

    @property
    def hole(self):
        eye_at_plate = self.top - self.thick / 2
        upright = self.rod / 2 * math.cos(self.bevel) - eye_at_plate * math.sin(self.bevel) - self.drill_off
        return math.floor(min(0.45 * self.face, upright) * 10) / 10

    @property
    def exit(self):
        """From the top of the square end down it, to where the level line through the hole meets it."""
        end_top = self.top * math.sin(self.bevel)
        return (end_top + self.hole) / math.cos(self.bevel)

    @property
    def rise(self):
        return self.thick + self.plate_extra

    def curve(self, distance):
        """Height of the cut above the square end, at that distance round the rod from the short side."""
        turn = distance / (self.rod / 2)
        return self.top + self.rod / 2 * math.tan(self.bevel) * (1 - math.cos(turn))


@pytest.fixture(scope="module", params=PAPERS)
def sheet(request, running_office, demo_file, tmp_path_factory):
    """The mark-out sheet of a stub on either paper."""
    folder = tmp_path_factory.mktemp(request.param)
    book = running_office.load(demo_file)
    try:
        odg, drawn = draw(running_office, book, folder, STUB, request.param)
    finally:
        running_office.close(book)
    return SimpleNamespace(paper=request.param, odg=odg, path=drawn, pages=pdf.pages(drawn), stub=Stub())


def draw(office, book, folder, stub=STUB, paper="A4"):
    return outputs.mark_out_sheet(office, book, stub, folder, paper)


def flowing(path):
    """All that is written, column by column."""
    done = subprocess.run(["pdftotext", str(path), "-"], capture_output=True, check=True, timeout=60)
    return " ".join(done.stdout.decode().split())


def numbers(pages):
    """The rows of the tables: title, value and unit."""
    rows = re.findall(
        r"(\S+(?: \S+)*) {2,}(\S+(?: \S+)*) (mm|°|kN)(?= |$)", "\n".join(page.text for page in pages[1:]), re.M
    )
    return {title: (value, unit) for title, value, unit in rows}


def every(sheet, width, height):
    return [line for page in sheet.pages for line in page.sized(width, height)]


def holes(sheet, outline, width, height):
    """Lines of that size inside an outline on its page."""
    page = next(page for page in sheet.pages if outline in page.lines)
    inside = page.sized(width, height)
    return [
        line
        for line in inside
        if outline.left <= line.left
        and line.right <= outline.right
        and outline.top <= line.top
        and line.bottom <= outline.bottom
    ]


def test_pages_are_of_the_paper_asked_for(sheet):
    for page in sheet.pages:
        assert (page.width, page.height) == pytest.approx(SIZES[sheet.paper], abs=0.1)


def test_the_bar_on_every_page_is_100_mm(sheet):
    for page in sheet.pages:
        assert len(page.sized(100, 0)) == 1


def test_the_template_is_the_unrolled_stub(sheet):
    stub = sheet.stub
    long_side = stub.top + stub.rod * math.tan(stub.bevel)
    (template,) = [line for line in every(sheet, math.pi * stub.rod, long_side) if line.closed]
    cut = [(x - template.left, template.bottom - y) for x, y in template.points if template.bottom - y > 1]
    assert len(cut) > 100
    assert max(abs(height - stub.curve(distance)) for distance, height in cut) < NEAR
    assert template.bottom - min(y for x, y in template.points) == pytest.approx(long_side, abs=NEAR)


def test_the_template_has_a_tab_beyond_once_round(sheet):
    stub = sheet.stub
    (template,) = every(sheet, math.pi * stub.rod, stub.top + stub.rod * math.tan(stub.bevel))
    tabs = [
        line
        for page in sheet.pages
        for line in page.lines
        if abs(line.left - template.right) < NEAR and 8 < line.width < 16
    ]
    assert any(abs(line.height - stub.top) < NEAR and abs(line.bottom - template.bottom) < NEAR for line in tabs)


def test_the_bevelled_face_and_its_hole(sheet):
    stub = sheet.stub
    (face,) = every(sheet, stub.rod, stub.face)
    (hole,) = holes(sheet, face, stub.bolt_hole, stub.bolt_hole)
    assert hole.centre == pytest.approx((face.centre[0], face.top + stub.hole), abs=NEAR)


def test_the_square_end_and_its_hole(sheet):
    stub = sheet.stub
    slanted = stub.bolt_hole / math.cos(stub.bevel)
    ends = [(end, holes(sheet, end, stub.bolt_hole, slanted)) for end in every(sheet, stub.rod, stub.rod)]
    # The rod stands dashed behind the end plate too; the square end is the one with its own centre lines only.
    assert len(ends) == 2
    for end, (hole,) in ends:
        assert hole.centre == pytest.approx((end.centre[0], end.top + stub.exit), abs=NEAR)


def test_the_end_plate_its_bolt_hole_and_keeper(sheet):
    stub = sheet.stub
    (plate,) = every(sheet, stub.rod, stub.rod + stub.rise)
    (hole,) = holes(sheet, plate, stub.bolt_hole, stub.bolt_hole / math.cos(stub.bevel))
    assert hole.centre == pytest.approx((plate.centre[0], plate.top + stub.rise + stub.exit), abs=NEAR)
    (rod,) = holes(sheet, plate, stub.rod, stub.rod)
    keepers = holes(sheet, plate, 5, 5)
    assert any(plate.top + 3 < line.top and line.bottom < rod.top - 3 for line in keepers)


def test_the_tapered_washer(sheet):
    stub = sheet.stub
    thick = stub.thin + stub.washer * math.tan(stub.bevel)
    (plan,) = every(sheet, stub.washer, stub.washer)
    assert len(holes(sheet, plan, stub.bolt_hole, stub.bolt_hole)) == 1
    # On its side the thick edge is up, and it is drawn twice: alone and fitted.
    sides = every(sheet, thick, stub.washer)
    assert len(sides) == 2
    for side in sides:
        along_top = [x for x, y in side.points if abs(y - side.top) < NEAR]
        along_foot = [x for x, y in side.points if abs(y - side.bottom) < NEAR]
        assert max(along_top) - min(along_top) == pytest.approx(thick, abs=NEAR)
        assert max(along_foot) - min(along_foot) == pytest.approx(stub.thin, abs=NEAR)


def test_the_stub_from_the_side(sheet):
    """Its corners, alone and fitted: short side on top, square end square to both sides."""
    stub = sheet.stub
    out = (math.cos(stub.bevel), -math.sin(stub.bevel))
    base = stub.top + stub.rod * math.tan(stub.bevel)
    corners = [
        (0, 0),
        (stub.top * out[0], stub.top * out[1]),
        (base * out[0], stub.face + base * out[1]),
        (0, stub.face),
    ]
    wide, high = max(x for x, _ in corners), stub.face - corners[1][1]
    found = every(sheet, wide, high)
    assert len(found) == 2
    for line in found:
        edge = min(line.points, key=lambda point: (round(point[0], 1), point[1]))
        for x, y in corners:
            assert min(math.dist((edge[0] + x, edge[1] + y), point) for point in line.points) < NEAR


def test_the_end_plate_stands_on_the_square_end_above_the_rod(sheet):
    """Seen along the boat it is a thin rectangle that leans as the square end does."""
    stub = sheet.stub
    long, thin = stub.rod + stub.rise, 4.0
    lean = (math.cos(stub.bevel), math.sin(stub.bevel))
    (plate,) = every(sheet, thin * lean[0] + long * lean[1], thin * lean[1] + long * lean[0])
    sides = {round(math.dist(*pair), 1) for pair in zip(plate.points, plate.points[1:])}
    assert sides - {0.0} == {thin, round(long, 1)}
    leftmost, rightmost = min(plate.points), max(plate.points)
    assert leftmost[1] < rightmost[1]  # its upper end leans towards the mast


def test_the_stay_is_drawn_in_its_direction(sheet):
    stub = sheet.stub
    out = stub.bevel - math.radians(2)
    angles = [
        math.atan2(line.points[1][0] - line.points[0][0], line.points[1][1] - line.points[0][1])
        for page in sheet.pages
        for line in page.lines
        if len(line.points) == 2 and line.height > 60
    ]
    assert any(abs(angle - out) < math.radians(0.02) for angle in angles)


def test_the_words_beside_the_dimensions_are_their_lengths(sheet):
    stub = sheet.stub
    base = stub.top + stub.rod * math.tan(stub.bevel)
    words = "\n".join(page.text for page in sheet.pages)  # the table's numbers stand further from their words
    lengths = {
        "short side": stub.top,
        "long side": base,
        "hole": stub.hole,
        "exit": stub.exit,
        "rise": stub.rise,
        "face": stub.face,
        "thick": stub.thin + stub.washer * math.tan(stub.bevel),
        "thin": stub.thin,
    }
    for label, length in lengths.items():
        assert set(re.findall(rf"\b{label} (\d+\.\d)", words)) == {f"{length:.1f}"}
    assert f"{math.pi * stub.rod:.1f} round the rod" in words
    assert f"bevel {math.degrees(stub.bevel):.1f}° from square" in words
    assert f"stay, {math.degrees(stub.bevel) - 2:.1f}° from the mast face" in words


def test_the_hole_is_drawn_between_its_highest_and_its_lowest(sheet):
    """Minimum rod above the bolt: the larger of 8 mm and 0.75 of the hole; lowest: the stub is just upright."""
    stub = sheet.stub
    highest = max(8.0, 0.75 * stub.bolt_hole) + stub.bolt_hole / 2
    lowest = stub.rod / 2 * math.cos(stub.bevel) - (stub.top - stub.thick / 2) * math.sin(stub.bevel)
    words = flowing(sheet.path)
    (least, most) = map(float, re.search(r"below the top edge, between ([\d.]+) and ([\d.]+)\.", words).groups())
    assert 0 <= least - highest < 0.1
    assert 0 <= lowest - most < 0.1
    (face,) = every(sheet, stub.rod, stub.face)
    (hole,) = holes(sheet, face, stub.bolt_hole, stub.bolt_hole)
    assert least <= hole.centre[1] - face.top <= most
    assert numbers(sheet.pages)["… drill it"] == (f"between {least} and {most}", "mm")


def test_numbers_of_plate_pad_bolt_and_mast_worked_out_by_hand(sheet):
    stub, found = sheet.stub, numbers(sheet.pages)
    grip = stub.top * math.cos(stub.bevel) + stub.exit * math.sin(stub.bevel)
    hollow = 55 * (1 - math.sqrt(1 - (stub.rod / 2 / 80) ** 2))  # an ellipse of 160 × 110 mm
    shank = math.ceil(110 + 2 * (2 + grip))
    washers = 4 / math.cos(stub.bevel) + (stub.thin + stub.thin + stub.washer * math.tan(stub.bevel)) / 2 + 3
    length = math.ceil(110 + 2 * (2 + grip + washers) + 2 * (1.2 * 20 + 2 * 2.5))  # M20 has a pitch of 2.5
    due = {
        "Hole below top of bevelled face": stub.hole,
        "Hole below top of square end": stub.exit,
        "… retire the stub when it is under": 0.75 * stub.bolt_hole,
        "End plate, width": stub.rod,
        "End plate, height": stub.rod + stub.rise,
        "End plate, thickness": 4.0,
        "Keeper line's hole below top of plate": stub.rise / 2,
        "Bolt, whole length": length,
        "… plain shank, in the middle": shank,
        "… thread, at each end": (length - shank) / 2,
        "Hole in the mast": stub.bolt_hole,
        "Compression tube, between the walls": 110.0 - 2 * 4.0,
        "Pad, in the middle": 2.0,
        "Pad, at the fore and aft edges": 2.0 + hollow,
    }
    assert {title: found[title] for title in due} == {
        title: (f"{value:.1f}", "mm") for title, value in due.items()
    }
    assert found["Bolt, along the mast from its foot"] == ("12900", "mm")


def test_numbers_are_those_of_the_schedule(sheet, demo):
    cells = {
        "Rod left above the bolt, at the mast": "ligament",
        "Rod left below the bolt, at the square end": "ligament_end",
        "Pull acts below the bolt (keeps it upright) by": "upright",
        "Tension at which the bolt is used up": "bolt_capacity",
        "Working load of the stay": "load",
        "Breaking load of the wire replaced": "wire_break",
        "Stay leaves the mast face at": "angle",
        "Bolt inside plate and washers": "outside",
        "… retire the stub when it is under": "ligament_least",
        "Compression tube, between the walls": "tube",
    }
    found = numbers(sheet.pages)
    for title, key in cells.items():
        assert float(found[title][0]) == pytest.approx(named.column(demo, f"tangs_{key}")[0], abs=0.051)


def test_both_side_views_say_where_mast_and_outboard_are(sheet):
    words = [word for page in sheet.pages[2:4] for word in page.text.split()]
    assert words.count("outboard") == 2
    assert words.count("mast") == 5  # beside each; in "from the mast face", and in the foot of both pages


def test_no_leader_crosses_another(sheet):
    """The lines to the words at the right of the fitted stub end below one another, short of the words."""
    by_end = {}
    for line in sheet.pages[2].lines:
        if len(line.points) == 2:
            by_end.setdefault(round(max(line.points)[0], 1), []).append(LineString(line.points))
    leaders = max(by_end.values(), key=len)
    assert len(leaders) == 6
    assert not any(one.crosses(other) for one, other in itertools.combinations(leaders, 2))


def test_no_words_lie_on_others(sheet):
    assert [overlapping(page) for page in sheet.pages] == [[]] * len(sheet.pages)


def test_words_that_were_misread_are_gone(sheet):
    words = flowing(sheet.path)
    for misread in ("sawn face", "Sawn face", "base", "Base", "outside this curve", "Load's point"):
        assert misread not in words
    assert "saw on the side of this curve that is away from the square end" in words


def test_stub_and_plate_are_clamped_before_they_are_drilled(sheet):
    words = flowing(sheet.path)
    clamp, level, drill, washer = (
        words.index(step)
        for step in (
            "Glue or tape the plate on the square end",
            "Bring the bevelled face level",
            "Drill wet",
            "Put the tapered",
        )
    )
    assert clamp < level < drill < washer


def test_a_stay_that_leads_straight_down_turns_no_stub(sheet):
    assert "turn the stub" not in flowing(sheet.path)


def lead(along, down_fore, down_up):
    """Fore-and-aft angle from the mast, raked aft by 1°, to a chainplate; forward is positive."""
    mast = (-along * math.sin(math.radians(1)), along * math.cos(math.radians(1)))
    return math.degrees(math.atan2(down_fore - mast[0], mast[1] - down_up)) - 1


@pytest.mark.parametrize(
    ("stub", "angle", "way"),
    [
        ("fore lower stub, port", lead(6320, 452, -40), "forward"),
        ("runner stub, port", lead(9250, -3300, 95), "aft"),
    ],
)
def test_a_stay_that_leads_fore_or_aft_turns_its_stub(office, demo, tmp_path, stub, angle, way):
    path = draw(office, demo, tmp_path, stub)[1]
    per_hundred = round(100 * math.tan(math.radians(abs(angle))))
    turned = (
        f"The stay leads {abs(angle):.1f}° {way}, {per_hundred} mm for each 100 mm down: turn the stub so much"
        f" round the bolt, its underside {way},"
    )
    assert flowing(path).count(turned) == 2  # below the picture, and as the last step
    assert numbers(pdf.pages(path))[f"Stay leads {way} at the mast by"] == (f"{abs(angle):.1f}", "°")
    assert "UP is along the mast" in flowing(path)
    assert (angle > 0) == (way == "forward")


def test_what_stands_above_limits_the_hole(office, demo, tmp_path):
    """The fore lower's stub is under the spreader: a lower hole lifts its plate's corner against it."""
    stub, room = "fore lower stub, port", 39.7
    row = named.row_of(demo, "tangs", stub)
    put(demo, "tangs_room", row, room)
    office.recalculate(demo)
    bevel = math.radians(named.column(demo, "tangs_bevel")[row])
    corner = (15 + 4) * math.sin(bevel) + 13 * math.cos(bevel)  # short side 15, plate 4, rise 13
    assert room - corner < named.column(demo, "tangs_hole_worst")[row] - 0.3
    value, _ = numbers(pdf.pages(draw(office, demo, tmp_path, stub)[1]))["… drill it"]
    least, most = map(float, re.fullmatch(r"between ([\d.]+) and ([\d.]+)", value).groups())
    assert least < most
    assert 0 <= room - corner - most < 0.1


def test_where_no_hole_is_right_it_says_so(office, demo, tmp_path):
    put(demo, "boat_ligament", 0, 20.0)
    office.recalculate(demo)
    words = flowing(draw(office, demo, tmp_path)[1])
    assert "no depth is right: 30.3 is the least" in words  # 20 and half of 20.5
    assert "Check:" in words


def test_a_bolt_with_one_stub_has_no_shank_in_the_middle(office, demo, tmp_path):
    put(demo, "tangs_sides", 0, 1.0)
    office.recalculate(demo)
    found = numbers(pdf.pages(draw(office, demo, tmp_path)[1]))
    assert "… plain shank, in the middle" not in found
    grip = named.column(demo, "tangs_grip")[0]
    assert found["… plain shank, from the bare side on"] == (f"{math.ceil(110 + 2 + grip):.1f}", "mm")


def test_the_boats_own_note_is_on_every_page(office, demo, tmp_path):
    for page in pdf.pages(draw(office, demo, tmp_path)[1]):
        assert "Invented demo boat: invented survey, ropes and prices." in " ".join(page.text.split())
    put(demo, "boat_note", 0, "")
    assert "nvented" not in flowing(draw(office, demo, tmp_path)[1])


def test_a_schedule_of_an_older_version_has_fewer_lines(office, tmp_path):
    book = office.load(OLDEST)
    office.recalculate(book)
    try:
        path = draw(office, book, tmp_path)[1]
        worst = named.column(book, "tangs_hole_worst")[0]
    finally:
        office.close(book)
    found = numbers(pdf.pages(path))
    for newer in ("along the mast", "tube", "retire", "leads"):
        assert not any(newer in title for title in found)
    value = found["… drill it"][0]
    assert value.endswith(" at most")
    assert 0 <= worst - float(value.split()[0]) < 0.1


def test_nothing_is_cut_off_by_the_printer(sheet):
    for page in sheet.pages:
        edges = [(line.left, line.top, line.right, line.bottom) for line in page.lines] + page.words
        assert min(left for left, _, _, _ in edges) >= MARGIN - NEAR
        assert min(top for _, top, _, _ in edges) >= MARGIN - NEAR
        assert max(right for _, _, right, _ in edges) <= page.width - MARGIN + NEAR
        assert max(bottom for _, _, _, bottom in edges) <= page.height - MARGIN + NEAR


def test_it_is_readable_in_grey(sheet):
    for page in sheet.pages:
        assert all(red == green == blue for red, green, blue in page.colours)
        assert min(page.letter_sizes) >= 8 - 0.05  # as the PDF rounds it


def test_every_page_says_what_it_is_for(sheet):
    for number, page in enumerate(sheet.pages, 1):
        words = " ".join(page.text.split())
        for part in (
            STUB,
            "cap shroud, port",
            "Marrowick",
            "revision A of 2026-03-01",
            "Print at 100 %, no scaling",
        ):
            assert part in words
        assert f"page {number} of {len(sheet.pages)}" in words
        assert CAUTIONS[0] in words
        assert ALOFT in words
        assert f"Loftsheet {__version__}, drawn {date.today()}" in words


def test_all_cautions_are_on_it(sheet):
    words = flowing(sheet.path)
    for caution in CAUTIONS:
        assert caution in words


def test_the_drawing_can_be_opened_again(sheet, office):
    drawing = office.load(sheet.odg)
    try:
        assert drawing.supportsService("com.sun.star.drawing.DrawingDocument")
        assert drawing.DrawPages.Count == len(sheet.pages)
    finally:
        office.close(drawing)


def put(book, name, row, value):
    cells = book.NamedRanges.getByName(name).getReferredCells()
    cell = cells.getCellByPosition(0, row)
    if isinstance(value, str):
        cell.String = value
    else:
        cell.Value = value


def refused(office, book, folder, stub=STUB, paper="A4"):
    from extension.loftsheet_office.common.refusal import Refusal

    with pytest.raises(Refusal) as said:
        draw(office, book, folder, stub, paper)
    assert list(folder.iterdir()) == []
    return str(said.value)


def test_an_error_in_a_needed_cell_refuses_and_names_it(office, demo, tmp_path):
    put(demo, "tangs_hole_own", 0, 64.0)  # comes out below the rod
    office.recalculate(demo)
    words = refused(office, demo, tmp_path)
    check = named.words(demo, "tangs", "cap stub, port")
    hole_out = demo.NamedRanges.getByName("tangs_exit").getReferredCells().getCellByPosition(0, 0)
    assert hole_out.AbsoluteName.replace("$", "") in words
    assert check in words
    assert "Fix" in words


def test_an_error_in_another_row_is_no_matter(office, demo, tmp_path):
    put(demo, "tangs_hole_own", 1, 64.0)
    office.recalculate(demo)
    assert draw(office, demo, tmp_path)[1].exists()


def test_what_the_check_says_stands_on_every_page(office, demo, tmp_path):
    put(demo, "tangs_hole_own", 0, 31.5)
    office.recalculate(demo)
    pages = pdf.pages(draw(office, demo, tmp_path)[1])
    check = named.words(demo, "tangs", "cap stub, port")
    assert "may flip over" in check
    assert all(check in " ".join(page.text.split()) for page in pages)


def test_the_mast_is_that_of_the_row(office, demo, tmp_path):
    put(demo, "tangs_mast_width_own", 0, 94.0)
    put(demo, "tangs_wall_own", 0, 6.5)
    office.recalculate(demo)
    words = "\n".join(page.text for page in pdf.pages(draw(office, demo, tmp_path)[1]))
    assert re.search(r"Mast's width at the bolt +94\.0 +mm", words)
    assert re.search(r"Mast's wall +6\.5 +mm", words)


def test_a_wall_that_was_not_measured_is_not_guessed(office, demo, tmp_path):
    put(demo, "masts_wall", 0, "")
    office.recalculate(demo)
    words = "\n".join(page.text for page in pdf.pages(draw(office, demo, tmp_path)[1]))
    assert re.search(r"Mast's wall +- +mm", words)


def test_an_unknown_or_a_double_name_is_refused(office, demo, tmp_path):
    assert "no row of Stubs is called nobody" in refused(office, demo, tmp_path, "nobody")
    put(demo, "tangs_name", 1, STUB)
    office.recalculate(demo)
    assert "2 rows of Stubs" in refused(office, demo, tmp_path)


def test_an_unknown_paper_is_refused(office, demo, tmp_path):
    assert "A4 or Letter" in refused(office, demo, tmp_path, paper="A7")


def test_a_deleted_name_is_reported(office, demo, tmp_path):
    demo.NamedRanges.removeByName("tangs_wedge")
    assert "tangs_wedge" in refused(office, demo, tmp_path)


def test_a_thick_rod_has_its_template_in_pieces(office, demo, tmp_path):
    put(demo, "rod_size", 2, 100.0)
    office.recalculate(demo)
    pages = pdf.pages(draw(office, demo, tmp_path)[1])
    stub = Stub(rod=100.0)
    half = math.pi * stub.rod / 2
    pieces = [line for page in pages for line in page.sized(half, stub.top + stub.rod * math.tan(stub.bevel))]
    assert len(pieces) == 2


@pytest.mark.parametrize("paper", PAPERS)
def test_what_is_drawn_at_half_size_stays_on_its_page(office, demo, tmp_path, paper):
    row = named.row_of(demo, "tangs", "runner stub, port")
    put(demo, "rod_size", 2, 100.0)
    put(demo, "tangs_rod_own", row, "FR-4 rod 65 mm")
    office.recalculate(demo)
    pages = pdf.pages(draw(office, demo, tmp_path, "runner stub, port", paper)[1])
    (fitted,) = [page for page in pages if "half size" in page.text]
    assert "turn the stub so much round the bolt" in " ".join(fitted.text.split())
    hair = 0.2  # mm, by which the box of a last letter may stand out of its line
    for page in pages:
        assert overlapping(page) == []
        assert max(right for _, _, right, _ in page.words) <= page.width - MARGIN + hair
        assert min(left for left, _, _, _ in page.words) >= MARGIN - hair


def test_a_rod_beyond_the_paper_is_refused(office, demo, tmp_path):
    put(demo, "rod_size", 2, 150.0)
    office.recalculate(demo)
    assert "Bevelled face" in refused(office, demo, tmp_path)


def test_a_long_name_and_a_long_check_break_nothing(office, demo, tmp_path):
    name = "cap stub, port: / the one with a very long name, " + "on and on " * 14 + "end"
    put(demo, "tangs_name", 0, name)
    put(demo, "tangs_hole_own", 0, 29.0)
    put(demo, "tangs_room", 0, 20.0)
    office.recalculate(demo)
    pages = pdf.pages(draw(office, demo, tmp_path, name)[1])
    for page in pages:
        assert max(right for _, _, right, _ in page.words) <= page.width - MARGIN + NEAR
        assert max(bottom for _, _, _, bottom in page.words) <= page.height - MARGIN + NEAR


def test_older_sheets_are_replaced_and_nothing_else_is_left(office, demo, tmp_path):
    first = draw(office, demo, tmp_path)
    old = first[1].read_bytes()
    put(demo, "boat_revision", 0, "B")
    again = draw(office, demo, tmp_path)
    assert again == first
    assert again[1].read_bytes() != old
    assert sorted(tmp_path.iterdir()) == sorted(first)


def test_a_missing_folder_is_an_error_of_the_system(office, demo, tmp_path):
    with pytest.raises(FileNotFoundError):
        draw(office, demo, tmp_path / "nowhere")


def test_the_document_is_left_as_it_was(office, demo_file, tmp_path):
    """As it was opened: once all is worked out anew, the office itself calls a sheet with charts changed."""
    demo = office.load(demo_file)
    try:
        assert_left_as_it_was(office, demo, tmp_path)
    finally:
        office.close(demo)


def assert_left_as_it_was(office, demo, tmp_path):
    sheet = demo.Sheets.getByName("Stubs")
    demo.CurrentController.setActiveSheet(sheet)
    demo.CurrentController.select(sheet.getCellRangeByName("C7:D8"))
    demo.setModified(False)
    draw(office, demo, tmp_path)
    assert not demo.isModified()
    assert demo.CurrentController.Selection.AbsoluteName.replace("$", "") == "Stubs.C7:D8"
    assert demo.CurrentController.ActiveSheet.Name == "Stubs"
