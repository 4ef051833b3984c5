"""Export for a Supplier, given in a window: what is asked, what is written, what is refused."""

import re
import shutil
import zipfile
from itertools import takewhile
from pathlib import Path

import pytest

from tests.office import paper
from tests.office.menu.cells import everything, frame_of, named, row_of
from tests.office.menu.conftest import new_schedule

openpyxl = pytest.importorskip("openpyxl")
pytestmark = pytest.mark.office

TITLE = "Export for a Supplier"
LISTS = {
    "Order": "Order",
    "Make-up list of the stays": "Make-up list",
    "Rope loops of chainplates": "Rope loops",
    "Stub cutting list": "Stub cutting list",
}
HEADER = 5


def export(screen, book, path, ticks=None, answers=()):
    """Go through the dialogs of the export; return what it says at the end."""
    screen.give("export", frame_of(book))
    dialog = screen.dialog(TITLE)
    for label, on in (ticks or {}).items():
        dialog.tick(label, on)
    dialog.press("Export…")
    screen.choose_file(path)
    for answer in answers:
        screen.message(TITLE, answer)
    said = screen.message(TITLE)
    screen.finish()
    return said


def refused(screen, book):
    """What the export says when it does not even ask; a long message is one to scroll and close."""
    screen.give("export", frame_of(book))
    box = screen.dialog(TITLE)
    said = "\n".join([box.words(), *box.labels()])
    box.press("Close" if "Close" in box.labels() else "OK")
    screen.finish()
    return said


def rows(path, title):
    """The rows of an exported list's first table, by heading."""
    sheet = openpyxl.load_workbook(path)[title]
    headings = [cell.value for cell in sheet[HEADER]]
    below = sheet.iter_rows(min_row=HEADER + 1, values_only=True)
    return [dict(zip(headings, values)) for values in takewhile(lambda row: row[0] is not None, below)]


def test_the_page_of_the_rig_goes_with_it_if_asked_for(screen, shown_demo, tmp_path):
    path = tmp_path / "order.xlsx"
    said = export(screen, shown_demo, path, {"With the page of the rig, a PDF of its own": True})
    assert "order.pdf and order-rig.pdf beside it" in said
    assert sorted(file.name for file in tmp_path.iterdir()) == ["order-rig.pdf", "order.pdf", "order.xlsx"]
    (page,) = paper.pages(tmp_path / "order-rig.pdf")
    assert "backstay, upper part" in page.text and "Next: " in page.text


def test_everything_is_written_beside_each_other_and_nothing_is_changed(screen, shown_demo, tmp_path):
    before = everything(shown_demo)
    path = tmp_path / "order.xlsx"
    said = export(screen, shown_demo, path)
    assert str(path) in said
    assert sorted(file.name for file in tmp_path.iterdir()) == ["order.pdf", "order.xlsx"]
    assert path.with_suffix(".pdf").read_bytes().startswith(b"%PDF")
    assert openpyxl.load_workbook(path).sheetnames == [*LISTS.values(), "Assumptions and cautions"]
    assert everything(shown_demo) == before
    assert not shown_demo.UndoManager.isUndoPossible()


def test_the_file_holds_values_only(screen, shown_demo, tmp_path):
    path = tmp_path / "order.xlsx"
    export(screen, shown_demo, path)
    with zipfile.ZipFile(path) as packed:
        sheets = [packed.read(name).decode() for name in packed.namelist() if "worksheets/" in name]
        names = packed.namelist()
    assert not any(re.search("<f[ >]|externalLink|hyperlink", text) for text in sheets)
    assert not any("externalLinks" in name or "connections" in name for name in names)


def test_the_order_is_that_of_the_sheet(screen, shown_demo, tmp_path):
    path = tmp_path / "order.xlsx"
    export(screen, shown_demo, path)
    keys = ("name", "quantity", "unit")
    table = [shown_demo.NamedRanges.getByName(f"order_{key}").ReferredCells.DataArray for key in keys]
    due = [[held for (held,) in line] for line in zip(*table)]
    due = [line for line in due if line[0] and line[1]]
    written = [[row["Item"], row["Quantity"], row["Unit"]] for row in rows(path, "Order")]
    assert due
    assert written == due
    assert all(row["Your price per unit"] is None for row in rows(path, "Order"))


def test_only_the_lists_ticked_are_written(screen, shown_demo, tmp_path):
    path = tmp_path / "order.xlsx"
    export(screen, shown_demo, path, {label: False for label in LISTS if label != "Order"})
    assert openpyxl.load_workbook(path).sheetnames == ["Order", "Assumptions and cautions"]


def test_inches_are_thousandths_for_a_stub_and_thirty_seconds_for_a_rope(screen, shown_demo, tmp_path):
    path = tmp_path / "order.xlsx"
    screen.give("export", frame_of(shown_demo))
    dialog = screen.dialog(TITLE)
    dialog.pick("Sizes in", "inches and pounds")
    dialog.press("Export…")
    screen.choose_file(path)
    screen.message(TITLE)
    screen.finish()
    inch = 25.4  # mm, NIST SP 811
    bases = [row["Long side, below, in"] for row in rows(path, "Stub cutting list")]
    assert bases and all(re.fullmatch(r"\d+\.\d{3} in", base) for base in bases)
    assert float(bases[0].split()[0]) * inch == pytest.approx(
        named(shown_demo, "tangs_base").Value, abs=0.05 + inch / 2000
    )
    cut = next(row["Rope to cut, in"] for row in rows(path, "Make-up list"))
    inches, top, bottom = re.fullmatch(r"(\d+)(?: (\d+)/(2|4|8|16|32))? in", cut).groups("1")
    fraction = int(top) / int(bottom) if "/" in cut else 0
    assert (int(inches) + fraction) * inch == pytest.approx(
        named(shown_demo, "stays_cut").Value, abs=0.5 + inch / 64
    )


def own_column(book, table, after, title, contents):
    """Insert a column of the user's own and fill it."""
    area = book.NamedRanges.getByName(f"{table}_{after}").ReferredCells
    sheet, at = area.Spreadsheet, area.RangeAddress.StartColumn + 1
    sheet.Columns.insertByIndex(at, 1)
    sheet.getCellByPosition(at, area.RangeAddress.StartRow - 1).String = title
    for row, content in enumerate(contents, area.RangeAddress.StartRow):
        sheet.getCellByPosition(at, row).Formula = content


def test_columns_of_the_users_own_are_left_out_until_ticked(screen, shown_demo, tmp_path):
    own_column(shown_demo, "order", "quantity", "Profit", ["=7777*7"] * 30)
    own_column(shown_demo, "stays", "number", "Colour", ["red"] * 12)
    path = tmp_path / "order.xlsx"
    screen.give("export", frame_of(shown_demo))
    dialog = screen.dialog(TITLE)
    assert not dialog.ticked("Profit (order)")
    dialog.tick("Colour (stays)")
    dialog.press("Export…")
    screen.choose_file(path)
    screen.message(TITLE)
    screen.finish()
    assert "Profit" not in rows(path, "Order")[0]
    assert "54439" not in str([list(row.values()) for row in rows(path, "Order")])
    assert rows(path, "Make-up list")[0]["Colour"] == "red"


def test_a_text_that_starts_like_a_formula_stays_a_text(screen, shown_demo, tmp_path):
    row = next(at for at, (held,) in enumerate(quantities(shown_demo)) if isinstance(held, float) and held > 0)
    named(shown_demo, "order_note", row).String = '=HYPERLINK("x")'
    named(shown_demo, "boat_name").String = "+Marrowick & Co"
    path = tmp_path / "order.xlsx"
    export(screen, shown_demo, path)
    sheet = openpyxl.load_workbook(path)["Order"]
    notes = [
        cell for line in sheet.iter_rows(min_row=HEADER + 1) for cell in line if cell.value == '=HYPERLINK("x")'
    ]
    assert [(cell.data_type, cell.quotePrefix) for cell in notes] == [("s", True)]


def quantities(book):
    return book.NamedRanges.getByName("order_quantity").ReferredCells.DataArray


def test_an_error_refuses_the_export_and_is_named(screen, shown_demo, tmp_path):
    named(shown_demo, "boat_rm30").String = ""
    said = refused(screen, shown_demo)
    assert "Nothing was written" in said
    assert "Order." in said
    assert list(tmp_path.iterdir()) == []


def test_an_item_missing_from_order_refuses_the_export(screen, shown_demo):
    rope = named(shown_demo, "boat_rope").String
    named(shown_demo, "order_name", row_of(shown_demo, "order", rope)).String = "something else"
    said = refused(screen, shown_demo)
    assert "Nothing was written" in said
    assert "something else: fix the name: Library has no " in said


@pytest.mark.parametrize("content", ["=4.0", '=""'])
def test_a_formula_over_a_formula_refuses_the_export(screen, shown_demo, content):
    """The check of its row cannot tell: it may still say OK."""
    named(shown_demo, "stays_balance").Formula = content
    said = refused(screen, shown_demo)
    assert "A formula of the schedule was changed" in said
    assert "cap shroud, port, Balanced at" in said


def test_something_below_a_table_refuses_the_export(screen, shown_demo):
    named(shown_demo, "stays_below").String = "one more stay"
    assert "something stands below the table" in refused(screen, shown_demo)


def test_a_name_that_was_deleted_is_said(screen, shown_demo):
    shown_demo.NamedRanges.removeByName("order_quantity")
    assert "order_quantity" in refused(screen, shown_demo)


def test_a_file_that_is_there_is_asked_about(screen, shown_demo, tmp_path):
    path = tmp_path / "order.xlsx"
    path.with_suffix(".pdf").write_text("kept")
    screen.give("export", frame_of(shown_demo))
    screen.dialog(TITLE).press("Export…")
    screen.choose_file(path)
    assert "order.pdf is there already" in screen.message(TITLE, "No")
    screen.finish()
    assert path.with_suffix(".pdf").read_text() == "kept"
    assert not path.exists()


def test_the_schedules_own_file_is_never_written_over(screen, demo_file, tmp_path):
    path = tmp_path / "book.xlsx"
    book = screen.open(demo_file)
    screen.office.store(book, path)
    book.close(True)
    book = screen.open(path)
    before = path.read_bytes()
    screen.give("export", frame_of(book))
    screen.dialog(TITLE).press("Export…")
    screen.choose_file(path)
    screen.overwrite()
    assert "own file" in screen.message(TITLE)
    screen.finish()
    assert path.read_bytes() == before


def test_a_folder_that_cannot_be_written_is_said(screen, shown_demo):
    """Root may write anywhere but into the kernel's own folder."""
    folder = Path("/proc")
    if not folder.is_dir():
        pytest.skip("this system has no folder that nobody can write to")
    said = export(screen, shown_demo, folder / "order.xlsx")
    assert "Writing order.xlsx did not work" in said


def test_cancelling_writes_nothing(screen, shown_demo, tmp_path):
    for cancel in ("options", "file"):
        screen.give("export", frame_of(shown_demo))
        screen.dialog(TITLE).press("Cancel" if cancel == "options" else "Export…")
        if cancel == "file":
            screen.choose_file(None)
        screen.finish()


def test_nothing_ticked_is_said(screen, shown_demo):
    screen.give("export", frame_of(shown_demo))
    dialog = screen.dialog(TITLE)
    for label in LISTS:
        dialog.tick(label, False)
    dialog.press("Export…")
    assert "No list was ticked" in screen.message(TITLE)
    screen.finish()


def test_a_read_only_schedule_is_exported_like_any_other(screen, demo_file, tmp_path):
    book = screen.open(demo_file, ReadOnly=True)
    export(screen, book, tmp_path / "order.xlsx")
    assert rows(tmp_path / "order.xlsx", "Order")


def test_rows_that_are_not_ok_are_counted_before_anything_is_written(screen, shown_demo, tmp_path):
    rope = named(shown_demo, "boat_rope").String
    named(shown_demo, "rope_trial", row_of(shown_demo, "rope", rope)).String = "assumed"
    shown_demo.calculateAll()
    wrong = named(shown_demo, "boat_wrong").Value
    assert wrong > 0
    screen.give("export", frame_of(shown_demo))
    dialog = screen.dialog(TITLE)
    assert f"not OK: {wrong:g}." in dialog.words()
    dialog.press("Cancel")
    screen.finish()


def test_what_rests_on_no_certificate_is_said_before_anything_is_written(screen, shown_demo):
    screen.give("export", frame_of(shown_demo))
    dialog = screen.dialog(TITLE)
    assert "No certificate, and the file says so: breaking load of HMPE 12-strand" in dialog.words()
    dialog.press("Cancel")
    screen.finish()


@pytest.mark.parametrize("name", ["a%zz", "line\nbreak", "what? *star*"])
def test_a_schedule_whose_name_is_odd_is_exported_like_any_other(screen, demo_file, tmp_path, name):
    path = tmp_path / f"{name}.ods"
    path.write_bytes(demo_file.read_bytes())
    book = screen.open(path)
    export(screen, book, tmp_path / "order.xlsx")
    assert rows(tmp_path / "order.xlsx", "Order")


def test_a_schedule_whose_folder_is_gone_is_exported_elsewhere(screen, demo_file, tmp_path):
    folder = tmp_path / "gone"
    folder.mkdir()
    (folder / "boat.ods").write_bytes(demo_file.read_bytes())
    book = screen.open(folder / "boat.ods")
    shutil.rmtree(folder)
    export(screen, book, tmp_path / "order.xlsx")
    assert rows(tmp_path / "order.xlsx", "Order")


def test_a_schedule_that_was_never_saved_is_told_what_to_fill_in(screen):
    screen.give("new", frame_of(screen.open()))
    screen.finish()
    new = new_schedule(screen.office)
    said = refused(screen, new)
    assert "Nothing was written" in said
    assert "Rope: it is blank" in said


def test_protected_sheets_are_exported_like_any_other(screen, shown_demo, tmp_path):
    for sheet in shown_demo.Sheets:
        sheet.protect("")
    export(screen, shown_demo, tmp_path / "order.xlsx")
    assert rows(tmp_path / "order.xlsx", "Order")


@pytest.mark.parametrize("name", ["A/B: *where*? <x>", "long " * 40, "ÿ" * 250, "..", ""])
def test_the_name_that_is_offered_can_be_a_files_name(screen, shown_demo, tmp_path, name):
    named(shown_demo, "boat_name").String = name
    screen.give("export", frame_of(shown_demo))
    screen.dialog(TITLE).press("Export…")
    offered = screen.offered_file()
    screen.choose_file(None)
    screen.finish()
    assert offered.endswith("order.xlsx")
    (tmp_path / offered).write_text("a file can be called so")
    assert not set('/:*?<>|"\\') & set(offered)


def test_a_sheet_that_was_duplicated_is_said_to_go_unordered(screen, shown_demo):
    shown_demo.Sheets.copyByName("Stubs", "Stubs, other bolts", 6)
    screen.give("export", frame_of(shown_demo))
    dialog = screen.dialog(TITLE)
    assert "Nothing on Stubs, other bolts is ordered" in dialog.words()
    dialog.press("Cancel")
    screen.finish()


def test_what_is_new_in_library_goes_on_order_and_the_dialog_says_so(screen, shown_demo):
    names, kinds = (shown_demo.NamedRanges.getByName(f"order_{key}").ReferredCells for key in ("name", "kind"))
    at = [name for (name,) in names.DataArray].index("HMPE 12-strand 9 mm")  # nothing is made of it
    for cells in (names, kinds):
        cells.getCellByPosition(0, at).String = ""
    screen.give("export", frame_of(shown_demo))
    dialog = screen.dialog(TITLE)
    assert "New on Order: HMPE 12-strand 9 mm." in dialog.words()
    dialog.press("Cancel")
    screen.finish()
    assert ("HMPE 12-strand 9 mm",) in names.DataArray
