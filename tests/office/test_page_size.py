"""The schedule on either paper: every sheet is of it, and what was a page wide stays a page wide."""

import re
from collections import Counter

import pytest
from pypdf import PdfReader

from templates.sheets import ALL
from tests import inside
from tests.office import paper as printed

pytestmark = pytest.mark.office

SIZES = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}  # ISO 216 and ANSI/ASME Y14.1, in mm
FOOT = re.compile(rf"({'|'.join(sheet.title for sheet in ALL)}) ?page \d+ of \d+")
SMALLEST = 6.6  # points; what is 7 on A4


@pytest.fixture
def demo(demo, shared_by_all):
    """Opened anew for each test: a page's size is not undone."""
    yield demo
    shared_by_all.close()


def set_paper(office, book, paper):
    from extension.loftsheet_office.workbook import page_size

    return inside.run(office, page_size.set_paper, book, paper)


def paper_of(office, book):
    from extension.loftsheet_office.workbook import page_size

    return inside.run(office, page_size.paper_of, book)


def pages_by_sheet(path):
    """How many pages each sheet has, as their feet say it."""
    reader = PdfReader(path)
    feet = [FOOT.search(" ".join(page.extract_text().split())) for page in reader.pages]
    return Counter(foot[1] for foot in feet)


@pytest.fixture(scope="module")
def on_paper(running_office, demo_file, tmp_path_factory):
    """The PDF of the demo schedule by paper: as it is made, and set to the other."""
    folder = tmp_path_factory.mktemp("paper")
    paths = {paper: folder / f"{paper}.pdf" for paper in SIZES}
    book = running_office.load(demo_file)
    try:
        running_office.recalculate(book)
        running_office.store(book, paths["A4"])
        set_paper(running_office, book, "Letter")
        assert paper_of(running_office, book) == "Letter"
        running_office.store(book, paths["Letter"])
    finally:
        running_office.close(book)
    return paths


@pytest.mark.parametrize("paper", SIZES)
def test_every_page_is_of_the_paper(on_paper, paper):
    for page in PdfReader(on_paper[paper]).pages:
        size = sorted((float(page.mediabox.width), float(page.mediabox.height)))
        assert [side * 25.4 / 72 for side in size] == pytest.approx(SIZES[paper], abs=0.2)


def test_what_is_one_page_on_a4_is_one_on_letter_and_where_rows_go_on_a_row_may_change_the_page(on_paper):
    """Letter is lower than A4 when it stands and higher when it lies: a page of rows may be more, or one less."""
    on_a4, on_letter = (pages_by_sheet(on_paper[paper]) for paper in SIZES)
    assert set(on_a4) == set(on_letter)
    for name, count in on_a4.items():
        assert abs(on_letter[name] - count) <= (count > 1), name
    assert on_a4["Side view"] == on_letter["Side view"] == 1


def test_nothing_is_off_the_page_or_too_small_on_letter(on_paper):
    for page in printed.pages(on_paper["Letter"]):
        assert min(left for left, *_ in page.words) > 5
        assert max(right for _, _, right, _ in page.words) < page.width - 5
        assert min(size for size in page.letter_sizes if size) > SMALLEST


def test_set_back_to_a4_each_sheet_is_scaled_as_it_was(office, demo):
    styles = [demo.StyleFamilies.getByName("PageStyles").getByName(sheet.PageStyle) for sheet in demo.Sheets]
    before = [(style.Width, style.Height, style.PageScale) for style in styles]
    assert paper_of(office, demo) == "A4"
    set_paper(office, demo, "Letter")
    set_paper(office, demo, "A4")
    after = [(style.Width, style.Height, style.PageScale) for style in styles]
    for (wide, tall, scale), now in zip(before, after):
        assert now[:2] == pytest.approx((wide, tall), abs=5)
        assert abs(now[2] - scale) <= 3


def test_sheets_whose_letters_get_too_small_are_said(office, demo):
    style = demo.StyleFamilies.getByName("PageStyles").getByName(demo.Sheets.getByName("Stays").PageStyle)
    style.PageScale = 60
    assert "Stays" in set_paper(office, demo, "Letter")


def test_another_size_is_none_of_ours(office, demo):
    style = demo.StyleFamilies.getByName("PageStyles").getByName(demo.Sheets.getByIndex(0).PageStyle)
    style.Width, style.Height = 20000, 20000
    assert paper_of(office, demo) == ""
