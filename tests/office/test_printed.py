"""The schedule on paper, read from its PDF: sizes of letters, what repeats, what is kept together or left out."""

import re

import pytest
from loftsheet.cautions import ALOFT, CAUTIONS, PULLING
from pypdf import PdfReader

from templates.sheets import ALL
from tests.office import named, paper

pytestmark = pytest.mark.office

LEAST_POINTS = 7.0
ROUNDED = 0.05  # the office places letters on 1/100 mm
KEYS = {"Stays": "stays", "Stubs": "tangs"}  # tables of long rows, by sheet
LIBRARY = next(sheet for sheet in ALL if sheet.title == "Library")


@pytest.fixture(scope="module")
def printed(running_office, demo_file, tmp_path_factory):
    """The pages of the demo boat's schedule with all blocks unfolded: the words of each, and what is drawn."""
    return printed_pages(running_office, demo_file, tmp_path_factory.mktemp("printed") / "marrowick.pdf", unfold)


def printed_pages(office, file, path, change=lambda book: None):
    book = office.load(file)
    change(book)
    office.recalculate(book)
    office.store(book, path)
    office.close(book)
    words = [" ".join(page.extract_text().split()) for page in PdfReader(path).pages]
    return list(zip(words, paper.pages(path)))


def unfold(book):
    from com.sun.star.table.TableOrientation import COLUMNS

    for sheet in book.Sheets:
        sheet.showLevel(2, COLUMNS)


def of_sheet(printed, title):
    """The words on each page of a sheet, found by its foot."""
    foot = rf"\b{title}\s+page \d+ of \d+"
    return [words for words, _ in printed if re.search(foot, words)]


def test_no_letter_is_smaller_than_can_be_read(printed):
    sizes = {size for _, page in printed for size in page.letter_sizes if size}  # turned letters have none
    assert min(sizes) >= LEAST_POINTS - ROUNDED


def test_every_number_and_date_has_room_in_its_column(printed):
    assert [words for words, _ in printed if "###" in words] == []


def test_every_page_says_boat_revision_sheet_and_number(printed):
    for at, (words, _) in enumerate(printed, 1):
        assert f"page {at} of {len(printed)}" in words
    for sheet in ("Points", "Stays", "Stubs", "Order", "Library", "Log"):
        pages = of_sheet(printed, sheet)
        assert pages and all("Marrowick, revision A of" in words for words in pages), sheet


def test_cautions_stand_on_the_first_page_and_where_the_work_is(printed):
    assert all(caution in printed[0][0] for caution in CAUTIONS)
    for worked_on_aloft in ("Masts", "Points", "Stubs"):
        assert ALOFT in of_sheet(printed, worked_on_aloft)[0]
    for pulled_at in ("Stays", "Bench", "Library"):
        assert PULLING in of_sheet(printed, pulled_at)[0]
    assert all(caution in of_sheet(printed, "Log")[0] for caution in (PULLING, ALOFT))


def test_the_name_of_each_row_stands_on_every_page_of_its_table(printed, demo):
    """Each part of the columns is a page wide, and goes on below with rows that are ready."""
    for sheet in KEYS:
        names = [name for name in named.column(demo, f"{KEYS[sheet]}_name") if name]
        pages = of_sheet(printed, sheet)
        assert {sum(name in words for words in pages) for name in names} == {parts(sheet)}, sheet


def parts(sheet):
    """How many parts the columns of a sheet are printed in."""
    from templates import page

    (table,) = next(one.tables for one in ALL if one.title == sheet)
    return len(page.printed(table))


def test_a_table_of_the_library_is_not_torn(printed, demo):
    pages = of_sheet(printed, "Library")
    for table in LIBRARY.tables:
        items = [name for name in named.column(demo, f"{table.key}_name") if name]
        whole = [words for words in pages if all(item in words for item in [table.title, *items])]
        assert len(whole) == 1, table.title


def test_columns_that_only_the_office_needs_stay_off_the_paper(printed):
    words = " ".join(words for words, _ in printed)
    off_paper = [title for sheet in ALL for table in sheet.tables for title in table.unprinted]
    assert off_paper
    for title in off_paper:
        assert title not in words
    assert "x and z in mm" not in words


def test_a_folded_block_stays_off_the_paper(running_office, demo_file, demo, tmp_path):
    """As it opens: what is typed and results, and a page of notes."""
    folded = printed_pages(running_office, demo_file, tmp_path / "folded.pdf")
    for sheet in KEYS:
        pages = of_sheet(folded, sheet)
        names = [name for name in named.column(demo, f"{KEYS[sheet]}_name") if name]
        assert {sum(name in words for words in pages) for name in names} == {2}, sheet
        assert "Results" in pages[0] and any("Yours 1" in words for words in pages)
