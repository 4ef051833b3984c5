"""Texts that look like formulas or hold what a file cannot: they stay whole texts in .xlsx, .pdf and .csv.

Which beginnings a spreadsheet may take for a formula: the OWASP page on CSV injection; from memory.
"""

import csv
import subprocess

import pytest

from extension.office import property_values, url
from tests.office import named, outputs

openpyxl = pytest.importorskip("openpyxl")
pytestmark = pytest.mark.office

TEXTS = ("=1+1", '=HYPERLINK("http://example.invalid")', "+cmd", "-2", "@x", "\t=1+1", "\r=1+1", "'=1+1", "{=1+1}")
FORMULA = 16  # com.sun.star.sheet.CellFlags
CSV = "Text - txt - csv (StarCalc)"


def put(book, cells, count):
    """Put the texts into the first cells of a column, in turn."""
    area, sheet = cells.RangeAddress, cells.Spreadsheet
    part = sheet.getCellRangeByPosition(
        area.StartColumn, area.StartRow, area.StartColumn, area.StartRow + count - 1
    )
    for at in range(count):
        part.getCellByPosition(0, at).String = TEXTS[at % len(TEXTS)]
    return part


def put_everywhere(book):
    """Put the texts into every field that nothing is looked up by; return how many rows of Order have them."""
    for name, text in zip(("name", "revision", "currency", "note"), TEXTS):
        named.cells(book, f"boat_{name}").String = text
    named.cell(book, "stays", "name", "backstay leg").String = TEXTS[0]
    rows = sum(name != "" for name in named.column(book, "order_name"))
    for column in ("note", "supplier"):
        put(book, named.cells(book, f"order_{column}"), rows)
    book.calculateAll()
    return rows


def own_columns(book):
    """A column of the user's own in each table that is exported, with a heading of that kind, too."""
    for text, table in zip(TEXTS, ("order", "stays", "tangs")):
        names = named.column(book, f"{table}_name")
        area = named.cells(book, f"{table}_name").RangeAddress
        sheet = named.cells(book, f"{table}_name").Spreadsheet
        sheet.Columns.insertByIndex(area.StartColumn + 1, 1)
        cells = sheet.getCellRangeByPosition(
            area.StartColumn + 1, area.StartRow, area.StartColumn + 1, area.EndRow
        )
        put(book, cells, sum(name != "" for name in names))
        heading = sheet.getCellByPosition(area.StartColumn + 1, area.StartRow - 1)
        heading.String = text
    return TEXTS[:3]


def flat(text):
    return " ".join(str(text).replace("_x000D_", " ").split())


def as_csv(document, path, sheet):
    """One sheet, counted from 1, with texts in quotes."""
    options = f"44,34,76,1,,0,true,true,false,false,false,{sheet}"
    document.storeToURL(url(path), property_values(FilterName=CSV, FilterOptions=options))
    found = [path, *path.parent.glob(f"{path.stem}-*.csv")]
    with next(file for file in found if file.exists()).open(encoding="utf-8", newline="") as lines:
        return [flat(cell) for row in csv.reader(lines) for cell in row]


def test_they_stay_texts_in_what_a_supplier_gets(office, demo, tmp_path):
    own = own_columns(demo)
    put_everywhere(demo)
    path = tmp_path / "order.xlsx"
    outputs.order(demo, path, own=own, desktop=office.desktop)

    cells = [cell for sheet in openpyxl.load_workbook(path) for row in sheet.iter_rows() for cell in row]
    printed = subprocess.run(
        ["pdftotext", "-layout", path.with_suffix(".pdf"), "-"], capture_output=True, check=True
    )
    opened = office.load(path)
    written = as_csv(opened, tmp_path / "order.csv", 1)
    formulas = [sheet.queryContentCells(FORMULA).Count for sheet in opened.Sheets]
    office.close(opened)

    assert set(formulas) == {0}
    assert {cell.data_type for cell in cells} <= {"s", "inlineStr", "n"}
    for text in TEXTS:
        held = [cell for cell in cells if flat(cell.value) == flat(text)]
        assert len(held) >= 3, text  # note and own column of Order, own column of stays
        assert {cell.data_type for cell in held} <= {"s", "inlineStr"}
        assert all(cell.quotePrefix for cell in held if cell.value[0] in "=+-@\t\r")
        assert written.count(flat(text)) >= 2, text
        assert flat(text)[:8] in flat(printed.stdout.decode()), text


def test_they_stay_texts_in_the_sheet_order_as_csv(demo, tmp_path):
    rows = put_everywhere(demo)
    sheet = 1 + demo.Sheets.ElementNames.index(named.cells(demo, "order_note").Spreadsheet.Name)
    written = as_csv(demo, tmp_path / "sheet.csv", sheet)
    assert sum(written.count(flat(text)) for text in {*map(flat, TEXTS)}) == 2 * rows


def test_control_characters_are_shown_and_not_lost(office, demo, tmp_path):
    for name in ("boat_name", "boat_note"):
        named.cells(demo, name).String = "a\x01b\x0bc"
    outputs.order(demo, tmp_path / "order.xlsx", desktop=office.desktop)
    sheet = openpyxl.load_workbook(tmp_path / "order.xlsx")["Order"]
    assert "a\ufffdb\ufffdc" in sheet["A1"].value
    assert "a\ufffdb\ufffdc" in sheet["A3"].value
    assert "a\ufffdb\ufffdc" in sheet.oddFooter.left.text


@pytest.mark.parametrize(("length", "refused"), [(32_767, False), (32_768, True)])
def test_a_text_that_is_too_long_is_refused_and_not_cut(demo, tmp_path, length, refused):
    """The most letters in a cell of the spreadsheet program that the format comes from: from memory."""
    from extension.loftsheet_office.common.refusal import Refusal

    named.cells(demo, "boat_note").String = "n" * length
    path = tmp_path / "order.xlsx"
    if refused:
        with pytest.raises(Refusal, match="letters, and a cell of the file holds 32767"):
            outputs.order(demo, path)
        assert not path.exists()
    else:
        named.cells(demo, "boat_note").String = "n" * (length - 60)
        outputs.order(demo, path)
        assert openpyxl.load_workbook(path)["Order"]["A3"].value.endswith("n" * (length - 60))
