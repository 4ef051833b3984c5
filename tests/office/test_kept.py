"""Schedules saved under earlier versions: they open, come to the same numbers, and every command works in them.

A number that is to change has its reason in the notes of the release, and its name in CHANGED here.
"""

import re
import zipfile
from datetime import date
from itertools import takewhile
from pathlib import Path
from xml.etree import ElementTree

import pytest
from loftsheet.errors import CellError

from tests.office import named, oracle, outputs

openpyxl = pytest.importorskip("openpyxl")
pytestmark = pytest.mark.office

KEPT = sorted((Path(__file__).parent / "kept").glob("*.ods"))
NEAR = 1e-9
FIRST_DAY = date(1899, 12, 30)  # from which Calc counts
# By file: named ranges whose cells are meant to come to something else since.
CHANGED = {}
# Which schedules from before them lack.
OF_BALANCE = ("cases_", "verdict_", "stance_", "tensions_", "beside_", "bycase_", "asked_")
READ = ("masts", "points", "stays", "wires", "cases", "forces", "loads", "tips")
NEWER_TABLES = ("masts_", "chainplates_", "trial_", *OF_BALANCE, *(f"in{what}_" for what in READ))
SPACE = {
    "table": "urn:oasis:names:tc:opendocument:xmlns:table:1.0",
    "office": "urn:oasis:names:tc:opendocument:xmlns:office:1.0",
    "text": "urn:oasis:names:tc:opendocument:xmlns:text:1.0",
    "calcext": "urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0",
}
TABLE, OFFICE, CALCEXT = (f"{{{SPACE[name]}}}" for name in ("table", "office", "calcext"))
ROW, CELLS = f"{TABLE}table-row", (f"{TABLE}table-cell", f"{TABLE}covered-table-cell")


@pytest.fixture(params=KEPT, ids=lambda path: path.stem)
def path(request):
    return request.param


@pytest.fixture
def kept(office, path):
    book = office.load(path)
    office.recalculate(book)
    yield book
    office.close(book)


def stored(path):
    """What every formula cell held when the file was saved, by sheet, row and column, as it stands in the file."""
    with zipfile.ZipFile(path) as packed:
        root = ElementTree.fromstring(packed.read("content.xml"))
    for at, sheet in enumerate(root.iterfind(".//office:spreadsheet/table:table", SPACE)):
        down = 0
        for row in sheet.iter(ROW):
            across = 0
            for cell in (one for one in row if one.tag in CELLS):
                if cell.get(f"{TABLE}formula"):
                    yield (at, down, across), cell.get(f"{TABLE}formula"), held(cell)
                across += int(cell.get(f"{TABLE}number-columns-repeated", 1))
            down += int(row.get(f"{TABLE}number-rows-repeated", 1))


def held(cell):
    if cell.get(f"{CALCEXT}value-type") == "error":
        return "an error"
    if cell.get(f"{OFFICE}value"):
        return float(cell.get(f"{OFFICE}value"))
    if cell.get(f"{OFFICE}boolean-value"):
        return float(cell.get(f"{OFFICE}boolean-value") == "true")
    if cell.get(f"{OFFICE}date-value"):
        return float((date.fromisoformat(cell.get(f"{OFFICE}date-value")[:10]) - FIRST_DAY).days)
    return "\n".join("".join(part.itertext()) for part in cell.iterfind("text:p", SPACE))


def now(book):
    """What each cell comes to, by sheet, row and column."""
    return {
        (at, down, across): "an error" if isinstance(held, CellError) else "" if held is None else held
        for at, rows in enumerate(oracle.Cells(book).held)
        for down, row in enumerate(rows)
        for across, held in enumerate(row)
    }


def as_before(before, after):
    if isinstance(before, float):
        return isinstance(after, float) and after == pytest.approx(before, rel=NEAR, abs=NEAR)
    return " ".join(before.split()) == " ".join(str(after).split())


def test_it_comes_to_the_numbers_that_it_was_saved_with(kept, path):
    cells = list(stored(path))
    ours = [place for place, formula, _ in cells if "ORG.LOFTSHEET.RIG." in formula]
    assert len(ours) > 500
    assert sum(isinstance(before, float) for _, _, before in cells) > 500
    found = now(kept)
    changed = [oracle.named_spans(kept)[name] for name in CHANGED.get(path.stem, ())]
    wrong = [
        (place, formula, before, found[place])
        for place, formula, before in cells
        if not as_before(before, found[place]) and not any(inside(place, span) for span in changed)
    ]
    assert wrong == []


def inside(place, span):
    sheet, row, column = place
    return sheet == span.sheet and span.top <= row <= span.bottom and span.left <= column <= span.right


def test_the_comparison_sees_a_number_that_changes(kept, path):
    bury = named.cells(kept, "boat_bury")
    bury.Value = bury.Value * (1 + 1e-6)
    kept.calculateAll()
    found = now(kept)
    assert sum(not as_before(before, found[place]) for place, _, before in stored(path)) > 20


def test_nothing_in_it_is_to_be_mended(kept):
    assert named.value(kept, "boat_wrong") == 0
    assert named.value(kept, "boat_outside") == "nothing"


def test_the_export_finds_all_it_needs(office, kept, tmp_path):
    outputs.order(kept, tmp_path / "order.xlsx", desktop=office.desktop)
    order = openpyxl.load_workbook(tmp_path / "order.xlsx")["Order"]
    rows = takewhile(lambda row: row[0] is not None, order.iter_rows(min_row=6, values_only=True))
    written = {row[0]: row[1] for row in rows}
    due = dict(zip(named.column(kept, "order_name"), named.column(kept, "order_quantity")))
    assert written == {name: quantity for name, quantity in due.items() if name and quantity}


def test_a_column_that_was_deleted_is_not_taken_for_one_that_an_earlier_release_lacks(office, demo_file, tmp_path):
    from extension.loftsheet_office.common.refusal import Refusal
    from extension.loftsheet_office.supplier.lists import LISTS

    optional = [(one.table, field.key) for one in LISTS.values() for field in one.fields if field.optional]
    assert optional
    for table, key in optional:
        book = office.load(demo_file)
        cells = named.cells(book, f"{table}_{key}")
        cells.Spreadsheet.Columns.removeByIndex(cells.RangeAddress.StartColumn, 1)
        book.calculateAll()
        with pytest.raises(Refusal, match=r"its formulas are broken|a cell was cut, dragged or deleted"):
            outputs.order(book, tmp_path / "order.xlsx")
        office.close(book)


def test_prices_can_be_read_back(kept, tmp_path):
    from extension.loftsheet_office.supplier import quotes

    outputs.order(kept, tmp_path / "order.xlsx", lists=("Order",))
    workbook = openpyxl.load_workbook(tmp_path / "order.xlsx")
    sheet = workbook["Order"]
    price = next(cell.column for cell in sheet[5] if cell.value == quotes.PRICE)
    sheet.cell(6, price).value = 4321.5
    workbook.save(tmp_path / "order.xlsx")
    columns = {key: named.cells(kept, f"order_{key}") for key in ("name", "quantity", *quotes.TO_FILL)}
    rows, currency = quotes.rows_of(tmp_path / "order.xlsx"), named.value(kept, "boat_currency")
    answer = quotes.compare(quotes.offered(rows, quotes.wanted(columns), currency), columns)
    assert [change.value for change in (*answer.fresh, *answer.replacing)] == [4321.5]
    assert answer.doubts == []


def test_bench_pages_and_mark_out_sheet_are_drawn(office, kept, tmp_path):
    assert outputs.bench_pages(office, kept, tmp_path / "bench.pdf") == {}
    stub = next(name for name in named.column(kept, "tangs_name") if name)
    drawn = outputs.mark_out_sheet(office, kept, stub, tmp_path)
    assert all(file.stat().st_size > 5_000 for file in (tmp_path / "bench.pdf", *drawn))


def test_check_the_schedule_has_nothing_to_say_but_of_what_it_lacks(office, kept, path, tmp_path):
    from extension.loftsheet_office.workbook import faults
    from extension.loftsheet_office.workbook.named_tables import Tables

    with outputs.columns_as_packed(tmp_path):
        tables = Tables(kept)
        found = [fault.line() for fault in faults.find(tables)]
    assert [line for line in found if not re.search(r"named range.* (is|are) gone.*another version", line)] == []
    lacks = NEWER_TABLES if path.stem.endswith("-0.1.0") else ()
    assert sum("all named ranges of this table" in line for line in found) == len(lacks)
    lacking = [name for name in tables.gone if not name.startswith(("boat_", "view_", "bench_", *NEWER_TABLES))]
    assert all(not name.endswith(("_name", "_check")) for name in lacking)
