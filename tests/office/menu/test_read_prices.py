"""Read Prices Back, given in a window: by name, whatever was sorted, added or cut, and nothing without a yes."""

from itertools import takewhile

import pytest

from tests.office.menu.cells import address, everything, frame_of, named, select, selected
from tests.office.menu.conftest import new_schedule

openpyxl = pytest.importorskip("openpyxl")
pytestmark = pytest.mark.office

TITLE = "Read Prices Back"
ITEM, PRICE, LEAD = "Item", "Your price per unit", "Your lead time, days"
BLANK, PRICED = "M16 A4-70", "FR-4 rod 65 mm"  # the price of the second is invented like the boat


@pytest.fixture
def path(tmp_path):
    return tmp_path / "answer.xlsx"


def answer(path, rows, headings=("Quantity", ITEM, "Stock", LEAD, PRICE)):
    """A supplier's file with the columns in another order and something of theirs among and above them."""
    workbook = openpyxl.Workbook()
    workbook.active.append(["Our offer"])
    workbook.active.append([])
    workbook.active.append(list(headings))
    for row in rows:
        workbook.active.append(list(row))
    workbook.save(path)


def cell(book, item, column="price"):
    names = book.NamedRanges.getByName("order_name").ReferredCells.DataArray
    return named(book, f"order_{column}", [name for (name,) in names].index(item))


def read(screen, book, path, press):
    """Go through the dialogs; return the labels of the last one."""
    screen.give("readprices", frame_of(book))
    screen.choose_file(path)
    dialog, _, _ = screen.shown_message(TITLE, press)  # the office's dialog for files has the same title
    labels = dialog.labels()
    dialog.press(press)
    screen.finish()
    return labels


def refused(screen, book, path):
    screen.give("readprices", frame_of(book))
    screen.choose_file(path)
    said = screen.message(TITLE)
    screen.finish()
    return said


def test_new_prices_come_in_by_name_and_one_undo_takes_them_away(screen, shown_demo, path):
    before = everything(shown_demo)
    answer(path, [(1, "nothing of ours", "yes", 3, 1.0), (4, BLANK, "yes", 14, 21.5)])
    titles = len(shown_demo.UndoManager.getAllUndoActionTitles())
    assert "Replace" not in read(screen, shown_demo, path, "Write")
    assert (cell(shown_demo, BLANK).Value, cell(shown_demo, BLANK, "lead").Value) == (21.5, 14)
    assert len(shown_demo.UndoManager.getAllUndoActionTitles()) == titles + 1
    shown_demo.UndoManager.undo()
    assert everything(shown_demo) == before


def test_the_file_that_was_exported_comes_back_sorted_filled_in_and_added_to(screen, shown_demo, tmp_path):
    exported = tmp_path / "order.xlsx"
    screen.give("export", frame_of(shown_demo))
    screen.dialog("Export for a Supplier").press("Export…")
    screen.choose_file(exported)
    screen.message("Export for a Supplier")
    screen.finish()

    workbook = openpyxl.load_workbook(exported)
    sheet = workbook["Order"]
    at = {str(one.value): one.column for one in sheet[5]}
    below = takewhile(lambda row: row[0].value is not None, sheet.iter_rows(min_row=6))
    rows = [[one.value for one in row] for row in below]
    prices = {}
    for number, row in enumerate(rows, 1):
        row[at[PRICE] - 1], row[at[LEAD] - 1] = number + 0.25, number
        prices[row[at[ITEM] - 1]] = number
    for place, row in enumerate(reversed(rows), 6):
        for column, value in enumerate(row, 1):
            sheet.cell(place, column).value = value
    sheet.insert_cols(2)
    sheet.insert_rows(8)
    sheet.cell(8, 1).value = "carriage"
    workbook.save(exported)

    assert prices
    read(screen, shown_demo, exported, "Replace")
    for item, number in prices.items():
        assert cell(shown_demo, item).Value == number + 0.25
        assert cell(shown_demo, item, "lead").Value == number


def test_what_stands_there_is_replaced_only_with_a_yes(screen, shown_demo, path):
    old = cell(shown_demo, PRICED).Value
    assert old
    answer(path, [(4, PRICED, "", None, old + 1), (4, BLANK, "", None, 2.5)])
    read(screen, shown_demo, path, "Cancel")
    assert (cell(shown_demo, PRICED).Value, cell(shown_demo, BLANK).String) == (old, "")
    read(screen, shown_demo, path, "Fill Blanks Only")
    assert (cell(shown_demo, PRICED).Value, cell(shown_demo, BLANK).Value) == (old, 2.5)
    read(screen, shown_demo, path, "Replace")
    assert cell(shown_demo, PRICED).Value == old + 1


def test_what_does_not_match_is_listed_and_left_out(screen, shown_demo, path):
    before = everything(shown_demo)
    for rows, words in (
        ([(1, "nothing of ours", "", 3, 1.0)], "nothing of ours: not in Order"),
        ([(1, BLANK, "", None, "ask us")], '"ask us" is not a number'),
        ([(1, BLANK, "", None, "21,50")], '"21,50" is not a number'),
        ([(1, BLANK, "", None, -1)], '"-1" is not a number of 0 or more'),
        ([(1, BLANK, "", None, True)], '"True" is not a number'),
        ([(1, BLANK, "", None, "=2*3")], "is a formula without a saved value"),
        ([(1, BLANK, "", None, 1), (1, BLANK, "", None, 2)], f"{BLANK}: in the file 2 times"),
        ([(1, f"{BLANK} more", "", None, 1)], f"{BLANK} more: not in Order"),
        ([], f"{PRICED}: in Order, but not in the file"),
    ):
        answer(path, rows)
        assert words in refused(screen, shown_demo, path)
    assert everything(shown_demo) == before


def test_what_is_in_order_already_is_not_asked_about(screen, shown_demo, path):
    answer(path, [(1, PRICED, "", None, cell(shown_demo, PRICED).Value)])
    assert "nothing that Order does not have already" in refused(screen, shown_demo, path)


def test_a_file_without_the_headings_or_of_another_kind_is_refused(screen, shown_demo, path):
    answer(path, [], headings=("Article", "Price"))
    assert 'No sheet of answer.xlsx has the headings "Item"' in refused(screen, shown_demo, path)
    path.write_text("a list in words")
    assert "cannot be read as an .xlsx spreadsheet" in refused(screen, shown_demo, path)


def test_selection_and_clipboard_are_left_alone(screen, shown_demo, path):
    from extension.loftsheet_office.dialogs.clipboard import Text

    screen.clipboard.setContents(Text("kept"), None)
    chosen = select(shown_demo, named(shown_demo, "stays_upper", 3))
    answer(path, [(4, BLANK, "", 3, 2.5)])
    read(screen, shown_demo, path, "Write")
    assert selected(shown_demo) == address(chosen)
    assert screen.copied() == "kept"


def test_a_read_only_schedule_is_refused_before_a_file_is_asked_for(screen, demo_file):
    book = screen.open(demo_file, ReadOnly=True)
    screen.give("readprices", frame_of(book))
    assert "open read-only. Save a copy" in screen.message(TITLE)
    screen.finish()


def test_a_protected_order_is_refused_before_a_file_is_asked_for(screen, shown_demo):
    shown_demo.Sheets.getByName("Order").protect("")
    screen.give("readprices", frame_of(shown_demo))
    assert "The sheet Order is protected" in screen.message(TITLE)
    screen.finish()


def test_a_column_that_is_gone_is_refused_by_its_name(screen, shown_demo):
    shown_demo.NamedRanges.removeByName("order_lead")
    screen.give("readprices", frame_of(shown_demo))
    assert screen.message(TITLE).startswith("The named range order_lead is no longer in this schedule")
    screen.finish()


def test_a_schedule_with_faults_takes_its_prices(screen, shown_demo, path):
    named(shown_demo, "stays_number").String = "two"
    named(shown_demo, "boat_rm30").String = ""
    shown_demo.calculateAll()
    answer(path, [(4, BLANK, "", 3, 2.5)])
    read(screen, shown_demo, path, "Write")
    assert cell(shown_demo, BLANK).Value == 2.5


def test_a_schedule_that_was_never_saved(screen, path):
    screen.give("new", frame_of(screen.open()))
    screen.finish()
    new = new_schedule(screen.office)
    answer(path, [(4, BLANK, "", 3, 2.5)])
    read(screen, new, path, "Write")
    assert cell(new, BLANK).Value == 2.5


def test_cancelling_the_choice_of_a_file_does_nothing(screen, shown_demo):
    undo = shown_demo.UndoManager.getAllUndoActionTitles()
    screen.give("readprices", frame_of(shown_demo))
    screen.choose_file(None)
    screen.finish()
    assert shown_demo.UndoManager.getAllUndoActionTitles() == undo


def test_another_currency_is_asked_for_and_left_out_without_a_rate(screen, shown_demo, path):
    headings = ("Quantity", ITEM, "Stock", LEAD, PRICE, "Your currency, if another")
    for typed, price in (("", ""), ("1,2", "12.00")):
        answer(path, [(4, BLANK, "", 3, 10.0, "GBP")], headings)
        screen.give("readprices", frame_of(shown_demo))
        screen.choose_file(path)
        dialog, _, _ = screen.shown_message(TITLE, "Go On")
        dialog.type("1 GBP in EUR", typed)
        dialog.press("Go On")
        dialog, _, _ = screen.shown_message(TITLE, "Write")
        dialog.press("Write")
        screen.finish()
        assert (cell(shown_demo, BLANK).String, cell(shown_demo, BLANK, "lead").Value) == (price, 3)


def test_what_is_no_rate_is_refused(screen, shown_demo, path):
    headings = ("Quantity", ITEM, "Stock", LEAD, PRICE, "Your currency, if another")
    answer(path, [(4, BLANK, "", 3, 10.0, "GBP")], headings)
    screen.give("readprices", frame_of(shown_demo))
    screen.choose_file(path)
    dialog, _, _ = screen.shown_message(TITLE, "Go On")
    dialog.type("1 GBP in EUR", "about one")
    dialog.press("Go On")
    assert "is no rate" in screen.message(TITLE)
    screen.finish()
    assert cell(shown_demo, BLANK).String == ""
