"""The supplier's file on paper, read from its PDF: nothing too small, too large, cut off or on top of another."""

import itertools
from dataclasses import replace
from functools import lru_cache

import pytest
from pypdf import PdfReader

from tests.office import named, paper

openpyxl = pytest.importorskip("openpyxl")
pytestmark = pytest.mark.office

LEAST_POINTS, MOST_POINTS = 7.0, 16.0
CLEAR = 0.3  # mm
ROUNDED = 0.05  # the office places letters on 1/100 mm
PAPERS = {"A4": (297.0, 210.0), "Letter": (279.4, 215.9)}  # across; ISO 216 and ANSI/ASME Y14.1, in mm
UNITS = ["metric", "inches and pounds"]
LISTS = ["Order", "Make-up list", "Rope loops", "Stub cutting list", "Assumptions and cautions"]
# Fifteen stays to make do not go on one page; what does not is a sheet of its own.
BOATS = {"Marrowick": LISTS, "Sandlebee": [*LISTS[:2], "Make-up list 2", *LISTS[2:]]}


@pytest.fixture
def written(office, tmp_path):
    """Write a supplier's file from what was read, changed by a function; return its path and its pages."""
    from extension.loftsheet_office.supplier import content, order_file

    def write(book, change=lambda read: read, own=()):
        everything = content.read(book)
        seen = [column for column in everything.own if column.title in own]
        path = tmp_path / "order.xlsx"
        order_file.write(change(everything.only(own=seen)), path, "metric", office.desktop, "A4")
        return path, paper.pages(path.with_suffix(".pdf"))

    return write


@pytest.fixture(scope="module")
def printed(running_office, demo_file, second_demo_file, tmp_path_factory):
    """The supplier's file of a boat as it is and its pages, each written once."""
    from extension.loftsheet_office.supplier import content, order_file

    files = {"Marrowick": demo_file, "Sandlebee": second_demo_file}

    @lru_cache
    def read(boat):
        book = running_office.load(files[boat])
        running_office.recalculate(book)
        everything = content.read(book)
        running_office.close(book)
        return everything.only()

    @lru_cache
    def write(boat, units, paper_size):
        path = tmp_path_factory.mktemp("printed") / "order.xlsx"
        order_file.write(read(boat), path, units, running_office.desktop, paper_size)
        return path, paper.pages(path.with_suffix(".pdf"))

    return write


def sizes(pages):
    return {size for page in pages for size in page.letter_sizes if size}


def readable(pages):
    found = sizes(pages)
    return min(found) >= LEAST_POINTS - ROUNDED and max(found) <= MOST_POINTS


def on_top_of_each_other(page):
    """Words that share more than a third of their height with another word at the same place."""
    for one, other in itertools.combinations(page.words, 2):
        beside = min(one[2], other[2]) - max(one[0], other[0])
        above = min(one[3], other[3]) - max(one[1], other[1])
        if beside > 0.2 and above > (one[3] - one[1]) / 3:
            yield one, other


def pages_of(pages, title):
    """The pages of one sheet, by what stands at their foot."""
    return [page for page in pages if f", {title} page" in " ".join(page.text.split())]


@pytest.mark.parametrize("paper_size", PAPERS)
@pytest.mark.parametrize("boat", BOATS)
def test_each_list_is_one_page_filled_and_readable(office, printed, boat, paper_size):
    path, pages = printed(boat, "metric", paper_size)
    assert openpyxl.load_workbook(path).sheetnames == BOATS[boat]
    # An order goes on to a second page rather than get too small: what belongs to the bolts is below its items.
    counts = [len(pages_of(pages, title)) for title in BOATS[boat]]
    assert counts[0] in (1, 2)
    assert set(counts[1:]) == {1}
    assert sum(counts) == len(pages)
    for page in pages:
        assert (page.width, page.height) == pytest.approx(PAPERS[paper_size], abs=0.2)
    for title in LISTS[:3]:
        page = pages_of(pages, title)[0]
        left = min(line.left for line in page.lines)
        right = max(line.right for line in page.lines)
        assert right - left > 0.8 * page.width


@pytest.mark.parametrize("paper_size", PAPERS)
@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("boat", BOATS)
def test_letters_can_be_read_and_none_lie_on_others_or_off_the_page(office, printed, boat, units, paper_size):
    _, pages = printed(boat, units, paper_size)
    assert readable(pages)
    for page in pages:
        assert list(on_top_of_each_other(page)) == []
        assert min(left for left, *_ in page.words) > 5
        assert max(right for _, _, right, _ in page.words) < page.width - 5


@pytest.mark.parametrize("units", UNITS)
def test_no_word_of_the_file_is_missing_on_paper(office, printed, units):
    path, pages = printed("Marrowick", units, "A4")
    for sheet in openpyxl.load_workbook(path):
        printed = "".join("".join(page.text.split()) for page in pages_of(pages, sheet.title))
        cells = [cell for row in sheet.iter_rows() for cell in row if isinstance(cell.value, str)]
        assert len(cells) > 15
        lost = [word for cell in cells for word in cell.value.split() if word not in printed]
        assert lost == [], sheet.title


@pytest.mark.parametrize("units", UNITS)
def test_numbers_stand_clear_of_the_lines_beside_them(office, printed, units):
    _, pages = printed("Marrowick", units, "A4")
    for page in (pages_of(pages, title)[0] for title in LISTS[:3]):
        edges = [line for line in page.lines if line.width < 0.5 and line.height > 2]
        assert len(edges) > 8
        for (left, top, right, bottom), edge in itertools.product(page.words, edges):
            beside = edge.top < (top + bottom) / 2 < edge.bottom
            assert not (beside and left - CLEAR < edge.left < right + CLEAR), (left, top)


def longer(title, times):
    def change(read):
        filled = read.lists[title]
        return replace(read, lists={**read.lists, title: replace(filled, rows=filled.rows * times)})

    return change


@pytest.mark.parametrize(("title", "first"), [("Make-up list", "Stay"), ("Stub cutting list", "Stub")])
def test_tables_of_a_long_list_have_sheets_of_their_own_and_headings_on_every_page(demo, written, title, first):
    path, pages = written(demo, change=longer(title, 6))
    sheets = [name for name in openpyxl.load_workbook(path).sheetnames if name.startswith(title)]
    assert sheets == [title, f"{title} 2"]
    assert readable(pages)
    texts = [" ".join(page.extract_text().split()) for page in PdfReader(path.with_suffix(".pdf")).pages]
    for name in sheets:
        own = [text for text in texts if f"Marrowick, {name} page" in text]
        assert len(own) > 1, name
        assert all(f"{first} Number" in text for text in own)


def test_many_columns_of_the_users_own_do_not_make_it_unreadable(demo, written):
    note = named.cells(demo, "order_note")
    sheet, area = note.Spreadsheet, note.RangeAddress
    titles = [f"mine {number}" for number in range(12)]
    for at, title in enumerate(titles, area.EndColumn + 1):
        sheet.Columns.insertByIndex(at, 1)
        sheet.getCellByPosition(at, area.StartRow - 1).String = title
    _, pages = written(demo, own=titles)
    assert readable(pages)
    order = [page for page in pages if "Marrowick, Order" in page.text]
    assert len(order) > 1
    items = [name for name in named.column(demo, "order_name") if name]
    assert all(any(name in page.text for name in items) for page in order if "mine" in page.text)
    assert all(any(f"mine {number}" in page.text for page in order) for number in range(12))


def test_long_words_make_rows_higher(demo, written):
    text = "a long note on this item that goes on for more than one line of the table " * 3

    def change(read):
        filled = read.lists["Order"]
        rows = tuple(replace(row, values={**row.values, "note": text}) for row in filled.rows)
        return replace(read, lists={**read.lists, "Order": replace(filled, rows=rows)})

    _, pages = written(demo, change=change)
    assert readable(pages)
    order = [page for page in pages if "Marrowick, Order" in page.text]
    assert len(order) > 1
    for page in order:
        assert list(on_top_of_each_other(page)) == []
