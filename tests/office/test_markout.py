"""The mark-out sheet, measured on the paths of its own PDF against geometry worked out from the survey."""

import math
import re
from dataclasses import dataclass
from datetime import date
from types import SimpleNamespace

import pytest
from loftsheet import __version__
from loftsheet.cautions import CAUTIONS

from tests.office import paper as pdf

pytestmark = pytest.mark.office

PAPERS = ("A4", "Letter")
SIZES = {"A4": (297.0, 210.0), "Letter": (279.4, 215.9)}
NEAR = 0.05  # mm
MARGIN = 10.0
STUB = "cap stub, port"


@dataclass
class Stub:
    """The cap stub of the demo boat by plane geometry, nothing read from a calculated cell.

    Seen along the boat: x outboard, z up, the top edge of the sawn face at the origin.
    """

    rod: float = 60.0
    rope: float = 10.0
    sleeve: float = 1.0
    bolt_hole: float = 20.5
    washer: float = 37.0
    plate_extra: float = 3.0
    drill_off: float = 0.5
    thin: float = 1.5

    @property
    def bevel(self):
        drop = 12900 * math.cos(math.radians(1)) - 6560
        return math.atan2(1022 - 55, drop) + math.radians(2)

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
        return math.floor(min(0.45 * self.face, upright) * 2) / 2

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
    from extension.loftsheet_office import markout

    return markout.draw(office.desktop, book, stub, folder, paper)


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


def test_the_sawn_face_and_its_hole(sheet):
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
        "top": stub.top,
        "base": base,
        "thick": stub.thin + stub.washer * math.tan(stub.bevel),
        "thin": stub.thin,
    }
    for label, length in lengths.items():
        assert set(re.findall(rf"\b{label} (\d+\.\d)", words)) == {f"{length:.1f}"}
    assert f"{math.pi * stub.rod:.1f} round the rod" in words
    assert f"bevel {math.degrees(stub.bevel):.1f}° from square" in words
    assert f"stay, {math.degrees(stub.bevel) - 2:.1f}° from the mast face" in words


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
        assert min(page.letter_sizes) >= 7


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
        assert f"Loftsheet {__version__}, drawn {date.today()}" in words


def test_all_cautions_are_on_it(sheet):
    words = " ".join(" ".join(page.text.split()) for page in sheet.pages)
    letters = "".join(words.split())
    for caution in CAUTIONS[3:]:  # these fit on a line each; columns side by side break the longer ones
        assert "".join(caution.split()) in letters
    assert "Take-up and set come from a trial" in words


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
    from extension.loftsheet_office.refusal import Refusal

    with pytest.raises(Refusal) as said:
        draw(office, book, folder, stub, paper)
    assert list(folder.iterdir()) == []
    return str(said.value)


def test_an_error_in_a_needed_cell_refuses_and_names_it(office, demo, tmp_path):
    put(demo, "tangs_hole_own", 0, 59.0)  # comes out below the rod
    office.recalculate(demo)
    words = refused(office, demo, tmp_path)
    check = demo.NamedRanges.getByName("tangs_check").getReferredCells().getCellByPosition(0, 0).String
    hole_out = demo.NamedRanges.getByName("tangs_exit").getReferredCells().getCellByPosition(0, 0)
    assert hole_out.AbsoluteName.replace("$", "") in words
    assert check in words
    assert "Mend" in words


def test_an_error_in_another_row_is_no_matter(office, demo, tmp_path):
    put(demo, "tangs_hole_own", 1, 59.0)
    office.recalculate(demo)
    assert draw(office, demo, tmp_path)[1].exists()


def test_what_the_check_says_stands_on_every_page(office, demo, tmp_path):
    put(demo, "tangs_hole_own", 0, 29.0)
    office.recalculate(demo)
    pages = pdf.pages(draw(office, demo, tmp_path)[1])
    check = demo.NamedRanges.getByName("tangs_check").getReferredCells().getCellByPosition(0, 0).String
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
    put(demo, "boat_wall", 0, "")
    office.recalculate(demo)
    words = "\n".join(page.text for page in pdf.pages(draw(office, demo, tmp_path)[1]))
    assert re.search(r"Mast's wall +- +mm", words)


def test_an_unknown_or_a_double_name_is_refused(office, demo, tmp_path):
    assert "no row of Tangs is called nobody" in refused(office, demo, tmp_path, "nobody")
    put(demo, "tangs_name", 1, STUB)
    office.recalculate(demo)
    assert "2 rows of Tangs" in refused(office, demo, tmp_path)


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


def test_a_rod_beyond_the_paper_is_refused(office, demo, tmp_path):
    put(demo, "rod_size", 2, 150.0)
    office.recalculate(demo)
    assert "Sawn face" in refused(office, demo, tmp_path)


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


def test_the_document_is_left_as_it_was(office, demo, tmp_path):
    sheet = demo.Sheets.getByName("Tangs")
    demo.CurrentController.setActiveSheet(sheet)
    demo.CurrentController.select(sheet.getCellRangeByName("C7:D8"))
    demo.setModified(False)
    draw(office, demo, tmp_path)
    assert not demo.isModified()
    assert demo.CurrentController.Selection.AbsoluteName.replace("$", "") == "Tangs.C7:D8"
    assert demo.CurrentController.ActiveSheet.Name == "Tangs"
