"""The bench pages, read back from their PDF: against the parts of the rope added up, and the Bench sheet."""

import math
import re
from types import SimpleNamespace

import pytest
from loftsheet.cautions import CAUTIONS

from tests.office import paper as pdf

pytestmark = pytest.mark.office

SIZES = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
MARGIN, NEAR = 10.0, 0.05  # mm
MARK = re.compile(
    r"((?:end|tail tip|taper start|throat|crown|lock stitch end|fid entry) [AB](?:, [a-z ]+?)?) +(\d+) +(\d+)$",
    re.M,
)


def write(office, book, path, paper="A4"):
    from extension.loftsheet_office import bench_pages

    return bench_pages.write(office.desktop, book, path, paper)


def marks(page):
    """The marks in order: name, from end A, from end B."""
    return [(name, float(from_a), float(from_b)) for name, from_a, from_b in MARK.findall(page.text)]


def column(book, name):
    cells = book.NamedRanges.getByName(name).getReferredCells()
    return [row[0] for row in cells.DataArray if row[0] != ""]


def put(book, name, row, value):
    cell = book.NamedRanges.getByName(name).getReferredCells().getCellByPosition(0, row)
    if isinstance(value, str):
        cell.String = value
    else:
        cell.Value = value


@pytest.fixture(scope="module", params=SIZES)
def printed(request, running_office, demo_file, tmp_path_factory):
    """All bench pages of the demo boat on either paper."""
    path = tmp_path_factory.mktemp(request.param) / "bench.pdf"
    book = running_office.load(demo_file)
    try:
        without = write(running_office, book, path, request.param)
        stays, numbers, ropes = (column(book, f"stays_{key}") for key in ("name", "number", "rope"))
    finally:
        running_office.close(book)
    return SimpleNamespace(
        paper=request.param, pages=pdf.pages(path), stays=stays, numbers=numbers, ropes=ropes, without=without
    )


def test_every_stay_has_its_page_with_the_number_to_make(printed):
    assert len(printed.pages) == len(printed.stays) == 12
    for page, stay, number, rope in zip(printed.pages, printed.stays, printed.numbers, printed.ropes):
        assert page.text.lstrip().startswith(stay)
        assert f"Make {number:.0f} of {rope}" in page.text
    assert printed.without == {}
    assert max(printed.numbers) == 2  # a stay of which two are made is among them


def test_every_page_says_what_it_belongs_to(printed):
    for number, page in enumerate(printed.pages, 1):
        words = " ".join(page.text.split())
        assert f"Marrowick, revision A of 2026-03-01. Page {number} of 12" in words
        assert all(caution in words for caution in CAUTIONS[:3])
        assert "not to scale" in words


def test_it_can_be_read_at_arms_length_and_in_grey(printed):
    for page in printed.pages:
        assert min(page.letter_sizes) >= 11
        assert all(red == green == blue for red, green, blue in page.colours)


def test_nothing_is_cut_off_by_the_printer(printed):
    for page in printed.pages:
        assert (page.width, page.height) == pytest.approx(SIZES[printed.paper], abs=0.1)
        edges = [(line.left, line.top, line.right, line.bottom) for line in page.lines] + page.words
        assert min(left for left, _, _, _ in edges) >= MARGIN - NEAR
        assert min(top for _, top, _, _ in edges) >= MARGIN - NEAR
        assert max(right for _, _, right, _ in edges) <= page.width - MARGIN + NEAR
        assert max(bottom for _, _, _, bottom in edges) <= page.height - MARGIN + NEAR


def test_marks_run_from_end_to_end_and_count_from_both(printed):
    for page in printed.pages:
        found = marks(page)
        assert len(found) == 16
        assert (found[0][0], found[-1][0]) == ("end A", "end B")
        assert [from_a for _, from_a, _ in found] == sorted(from_a for _, from_a, _ in found)
        whole = found[-1][1]
        assert f"{whole:.0f} mm" in page.text  # the cut length
        assert all(abs(from_a + from_b - whole) <= 1 for _, from_a, from_b in found)  # each is rounded


def test_marks_are_the_parts_of_the_rope_added_up(printed, office, demo):
    """The first cap shroud by hand: 10 mm rope, bury 72 diameters, a third of it tapered, waste 50 mm."""
    span, upper, lower, worked = (
        column(demo, f"stays_{key}")[0] for key in ("span", "upper_eye", "lower_eye", "worked")
    )
    take_up = dict(zip(column(demo, "rope_name"), column(demo, "rope_take_up")))["HMPE 12-strand 10 mm"]
    bury = 720.0
    throat = 50 + bury + 2 * upper
    far_throat = throat + span / (1 + worked) + 2 * bury * take_up
    by_hand = {
        "tail tip A": 50,
        "taper start A": 50 + bury / 3,
        "throat A, tail": 50 + bury,
        "crown A": 50 + bury + upper,
        "throat A, standing part": throat,
        "lock stitch end A": throat + bury / 6,
        "fid entry A": throat + bury * 4 / 3,
        "fid entry B": far_throat - bury * 4 / 3,
        "throat B, standing part": far_throat,
        "crown B": far_throat + lower,
        "throat B, tail": far_throat + 2 * lower,
        "taper start B": far_throat + 2 * lower + bury * 2 / 3,
        "tail tip B": far_throat + 2 * lower + bury,
        "end B": far_throat + 2 * lower + bury + 50,
    }
    found = {name: from_a for name, from_a, _ in marks(printed.pages[0])}
    assert {name: found[name] for name in by_hand} == pytest.approx(by_hand, abs=0.51)


def test_marks_are_those_of_the_bench_sheet(printed, office, demo):
    """What the sheet shows when each stay is picked there; a circle of the same function, through cells."""
    pick = demo.NamedRanges.getByName("bench_stay").getReferredCells()
    for page, stay in zip(printed.pages, printed.stays):
        pick.String = stay
        office.recalculate(demo)
        shown = demo.NamedRanges.getByName("bench_marks").getReferredCells().DataArray
        in_sheet = [(name, distance) for name, distance in shown if name != ""]
        in_pdf = [(name, from_a) for name, from_a, _ in marks(page)]
        assert [name for name, _ in in_pdf] == [name for name, _ in in_sheet]
        assert [distance for _, distance in in_pdf] == pytest.approx(
            [distance for _, distance in in_sheet], abs=0.51
        )


def test_facts_of_the_first_page(printed, office, demo):
    row = {
        key: column(demo, f"stays_{key}")[0]
        for key in ("cut", "bury", "upper_eye", "lower_eye", "span", "pretension")
    }
    text = " ".join(printed.pages[0].text.split())
    assert f"Cut {row['cut']:.0f} mm" in text
    assert f"Bury {row['bury']:.0f} mm of it tapered {row['bury'] / 3:.0f} mm" in text
    # 200·D² lb, D in inches (from memory): 10 mm rope, in kN and as a weight.
    light = 200 * (10 / 25.4) ** 2 * 0.45359237
    assert f"Measure under {light * 9.80665 / 1000:.2f} kN ({light:.0f} kg" in text
    assert f"Sleeve for eye A {math.floor(2 * row['upper_eye'] * 1.15 + 0.5)} mm" in text
    assert f"Done: throat to throat {row['span']:.0f} mm at {row['pretension']:.1f} kN" in text


def test_a_stay_with_an_error_has_a_page_that_says_so_and_no_marks(office, demo, tmp_path):
    put(demo, "stays_load_own", 10, 0.0)
    office.recalculate(demo)
    check = column(demo, "stays_check")[10]
    without = write(office, demo, tmp_path / "bench.pdf")
    pages = pdf.pages(tmp_path / "bench.pdf")
    assert list(without) == ["running backstay, port"]
    assert len(pages) == 12
    words = " ".join(pages[10].text.split())
    assert "Do not make this stay yet. Mend these cells first: Stays." in words
    assert check != "OK"
    assert check in words
    assert marks(pages[10]) == []
    assert "Make 1" not in words
    assert all(len(marks(page)) == 16 for at, page in enumerate(pages) if at != 10)


def test_a_cut_length_typed_over_its_formula_is_not_printed(office, demo, tmp_path):
    put(demo, "stays_cut", 0, 14000.0)
    office.recalculate(demo)
    without = write(office, demo, tmp_path / "bench.pdf")
    assert "typed over" in without["cap shroud, port"]
    assert marks(pdf.pages(tmp_path / "bench.pdf")[0]) == []


def test_what_the_check_says_is_printed(office, demo, tmp_path):
    put(demo, "stays_runs", 6, "furler")
    office.recalculate(demo)
    write(office, demo, tmp_path / "bench.pdf")
    assert "this stay must stay wire" in pdf.pages(tmp_path / "bench.pdf")[6].text


def test_marks_that_overlap_are_said_to(office, demo, tmp_path):
    put(demo, "stays_upper_eye_own", 9, 1700.0)  # leaves a span between 2 and 8/3 of the bury
    office.recalculate(demo)
    write(office, demo, tmp_path / "bench.pdf")
    page = pdf.pages(tmp_path / "bench.pdf")[9]
    found = {name: from_a for name, from_a, _ in marks(page)}
    assert found["fid entry A"] > found["fid entry B"]
    assert "they overlap" in " ".join(page.text.split())


def refused(office, book, path, paper="A4"):
    from extension.loftsheet_office.refusal import Refusal

    with pytest.raises(Refusal) as said:
        write(office, book, path, paper)
    assert list(path.parent.iterdir()) == []
    return str(said.value)


def test_a_deleted_name_is_reported(office, demo, tmp_path):
    demo.NamedRanges.removeByName("stays_worked")
    assert "stays_worked" in refused(office, demo, tmp_path / "bench.pdf")


def test_an_assumption_that_is_an_error_is_named(office, demo, tmp_path):
    demo.NamedRanges.getByName("boat_growth").getReferredCells().Formula = "=1/0"
    assert "Boat." in refused(office, demo, tmp_path / "bench.pdf")


def test_another_ending_and_an_unknown_paper_are_refused(office, demo, tmp_path):
    assert "bench.ods" in refused(office, demo, tmp_path / "bench.ods")
    assert "A4 or Letter" in refused(office, demo, tmp_path / "bench.pdf", "B5")


def test_a_schedule_without_stays_is_refused(office, demo, tmp_path):
    cells = demo.NamedRanges.getByName("stays_name").getReferredCells()
    cells.clearContents(0b111)  # numbers, dates, texts
    office.recalculate(demo)
    assert "no stay has a name" in refused(office, demo, tmp_path / "bench.pdf")


def test_the_document_is_left_as_it_was(office, demo, tmp_path):
    sheet = demo.Sheets.getByName("Stays")
    demo.CurrentController.setActiveSheet(sheet)
    demo.CurrentController.select(sheet.getCellRangeByName("C7:D8"))
    picked = demo.NamedRanges.getByName("bench_stay").getReferredCells().String
    demo.setModified(False)
    write(office, demo, tmp_path / "bench.pdf")
    assert not demo.isModified()
    assert demo.CurrentController.Selection.AbsoluteName.replace("$", "") == "Stays.C7:D8"
    assert demo.NamedRanges.getByName("bench_stay").getReferredCells().String == picked
    assert list(tmp_path.iterdir()) == [tmp_path / "bench.pdf"]
