"""The job cards, read back from their PDF: against the schedule's own cells, and Log's columns."""

import re
from types import SimpleNamespace

import pytest
from loftsheet.cautions import CAUTIONS, PULLING

from templates.sheets.log import LOG
from tests.office import named, outputs
from tests.office import paper as pdf
from tests.office.overlaps import overlapping

pytestmark = pytest.mark.office

SIZES = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}  # ISO 216 and ANSI/ASME Y14.1, in mm
MARGIN, NEAR = 10.0, 0.05  # mm
BOXES = (
    "Entry", "Date", "Stay", "Which", "Made by", "Pulled to, kN", "Measured, mm",
    "Rod above bolt, mm", "Gap left, mm", "Fitted",
)  # fmt: skip


@pytest.fixture(scope="module", params=SIZES)
def printed(request, running_office, demo_file, tmp_path_factory):
    """All job cards of the demo boat on either paper."""
    path = tmp_path_factory.mktemp(request.param) / "cards.pdf"
    book = running_office.load(demo_file)
    try:
        running_office.recalculate(book)
        not_ready = outputs.job_cards(running_office, book, path, request.param)
        columns = {key: named.column(book, f"stays_{key}") for key in ("name", "number", "span", "cut", "load")}
        stays = [dict(zip(columns, row)) for row in zip(*columns.values()) if row[0]]
        stubs = dict(zip(named.column(book, "tangs_stay"), named.column(book, "tangs_name")))
    finally:
        running_office.close(book)
    every = pdf.pages(path)
    return SimpleNamespace(
        paper=request.param,
        every=every,
        pages=every[: len(stays)],
        loops=every[len(stays) :],
        stays=stays,
        stubs=stubs,
        not_ready=not_ready,
    )


def flowing(page):
    return " ".join(page.text.split())


def boxes(page):
    """The closed frames in the lowest rows of the page, row by row."""
    frames = [line for line in page.lines if line.closed and abs(line.height - 10.0) < NEAR and line.width > 10]
    rows = {}
    for line in frames:
        rows.setdefault(round(line.top, 1), []).append(line)
    return [sorted(row, key=lambda line: line.left) for _, row in sorted(rows.items())]


def test_every_stay_has_one_card(printed):
    assert len(printed.pages) == len(printed.stays) == 12
    assert printed.not_ready == {}
    for number, (page, stay) in enumerate(zip(printed.pages, printed.stays), 1):
        assert page.text.lstrip().startswith(stay["name"])
        assert f"Card {number} of 14" in flowing(page)


def test_every_loop_has_one_card(printed):
    """Seven millimetres four times round; Log has it with its stay, and no length to measure."""
    assert len(printed.loops) == 2
    for page, side in zip(printed.loops, ("port", "starboard")):
        words = flowing(page)
        assert words.startswith(f"runner chainplate, {side}: rope loop Make 1 of HMPE 12-strand 7 mm")
        assert "crossing A" in words and "crossing B" in words and "Turns 4" in words
        (row,) = boxes(page)
        assert len(row) == len(BOXES)
        made = words.split("As made")[1]
        assert "leave blank" in made and "loop" in made
        assert all(word in made for word in f"running backstay, {side}".split())


def test_each_that_is_made_has_a_row_of_boxes(printed):
    for page, stay in zip(printed.pages, printed.stays):
        rows = boxes(page)
        assert len(rows) == stay["number"]
        assert {len(row) for row in rows} == {len(BOXES)}
        both = "port" in flowing(page).split("As made")[1] and "starboard" in flowing(page).split("As made")[1]
        assert both or stay["number"] != 2
    assert {stay["number"] for stay in printed.stays} == {1, 2}


def test_boxes_stand_in_the_order_of_logs_columns(printed):
    """The same titles from left to right as the inputs of Log, without a gap, so that they are typed in one go."""
    inputs = [column for column in LOG.columns if not column.calculated]
    titles = [f"{column.title}, {column.unit}" if column.unit else column.title for column in inputs]
    assert tuple(titles[: len(BOXES)]) == BOXES
    for page in printed.pages:
        words = " ".join(page.text.split("As made")[1].split())
        assert all(word in words for title in BOXES for word in title.split())


def test_it_says_what_is_to_come_out(printed):
    for page, stay in zip(printed.pages, printed.stays):
        words = flowing(page)
        assert f"{stay['cut']:.0f} mm" in words
        assert f"wanted {stay['span']:.0f}" in words.replace("wanted\n", "wanted ")
        assert f"{stay['load']:.1f} or more" in words
        assert "Gap to lash, new" in words


def test_a_stay_on_a_stub_has_the_stub_drawn_with_its_numbers(printed):
    with_stub = 0
    for page, stay in zip(printed.pages, printed.stays):
        name = printed.stubs.get(stay["name"])
        with_stub += bool(name)
        assert bool(name) == ("Bevel, from square" in page.text)
        if name:
            assert name in page.text
            assert re.search(r"Short side, on top\s+\d+\.\d mm", page.text)
    assert 0 < with_stub < len(printed.pages)


def test_nothing_overlaps_or_is_cut_off_or_too_small(printed):
    for page in printed.every:
        assert (page.width, page.height) == pytest.approx(SIZES[printed.paper], abs=0.1)
        assert overlapping(page) == []
        assert min(page.letter_sizes) >= 7
        edges = [(line.left, line.top, line.right, line.bottom) for line in page.lines] + page.words
        assert min(left for left, _, _, _ in edges) >= MARGIN - NEAR
        assert max(right for _, _, right, _ in edges) <= page.width - MARGIN + NEAR
        assert max(bottom for _, _, _, bottom in edges) <= page.height - MARGIN + NEAR


def test_cautions_stand_on_every_card(printed):
    for page in printed.every:
        words = flowing(page)
        assert PULLING in words
        assert all(caution in words for caution in CAUTIONS[:3])


def test_a_stay_with_an_error_has_a_card_that_says_so_and_a_stub_with_one_is_said(office, demo, tmp_path):
    stay = named.column(demo, "stays_name")[0]
    stubbed = next(name for name in named.column(demo, "tangs_stay") if name and name != stay)
    named.cell(demo, "stays", "share", stay).String = "none such"
    stub = named.column(demo, "tangs_name")[named.column(demo, "tangs_stay").index(stubbed)]
    named.cell(demo, "tangs", "sides", stub).String = "both"
    office.recalculate(demo)
    not_ready = outputs.job_cards(office, demo, tmp_path / "cards.pdf")
    assert stay in not_ready
    pages = {
        page.text.lstrip().split("\n")[0].strip(): flowing(page) for page in pdf.pages(tmp_path / "cards.pdf")
    }
    assert "Do not make this stay yet" in pages[stay]
    assert "Its stub: Nothing was drawn" in pages[stubbed]
