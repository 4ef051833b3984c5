"""Check the Schedule, given in a window: what it finds, and where each line leads."""

import re

import pytest

from extension.column_data import columns
from extension.loftsheet_office.workbook.complaints import complaints
from tests.inside import written
from tests.office.menu.cells import address, everything, frame_of, named, select, selected
from tests.office.menu.conftest import new_schedule
from tests.office.menu.waiting import wait
from tests.office.named import cell as cell_in_row
from tests.office.named import certify

pytestmark = pytest.mark.office

TITLE = "Check the Schedule"
LIST = "Not OK"


@pytest.fixture
def shown_demo(shown_demo):
    """The demo boat with a certificate for each figure: nothing is to be said of it."""
    certify(shown_demo)
    shown_demo.calculateAll()
    return shown_demo


@pytest.fixture
def checked(screen, shown_demo):
    """Open the list; return it with its lines."""

    def check():
        screen.give("check", frame_of(shown_demo))
        window = screen.dialog(TITLE)
        screen.finish()
        return window

    return check


@pytest.fixture
def faulty(shown_demo):
    """The demo boat with too much asked of its rope, so that many rows complain."""
    named(shown_demo, "boat_margin").Value = 11
    return shown_demo


def lines(window):
    return window.lines(LIST)


def test_every_complaint_of_every_row_is_a_line(checked, faulty):
    found = lines(checked())
    names = [name for name in faulty.NamedRanges.ElementNames if name.endswith("_found")]
    columns = [faulty.NamedRanges.getByName(name).ReferredCells.DataArray for name in names]
    due = [one.words for column in columns for (codes,) in column for one in complaints(codes)]
    assert len(due) > 20
    assert [words for words in due if not any(line.endswith(f": {words}") for line in found)] == []
    assert sum(int((re.search(r" and (\d+) more: ", line) or (0, 0))[1]) + 1 for line in found) == len(due)


def test_what_is_wrong_stands_before_the_errors_that_follow_from_it(checked, shown_demo):
    named(shown_demo, "points_out").String = ""
    window = checked()
    found = lines(window)
    assert window.words().startswith("1 to look at: 1 to fix, and ")
    assert found[0].endswith("fix Out: it is blank")
    assert found[0].startswith(f"{address(named(shown_demo, 'points_out'))}: ")
    signs = ("is an error", "waits for ")
    assert [line for line in found[1:] if not any(sign in line for sign in signs)] == []
    assert len(found) > 5


@pytest.mark.parametrize(
    "name", ["masts_rake", "tangs_stay", "points_out", "log_date", "boat_ring", "rope_source"]
)
def test_a_blank_that_a_check_names_is_where_its_line_leads(checked, shown_demo, name):
    cell = named(shown_demo, name)
    title = columns()[name]["title"]
    cell.String = ""
    window = checked()
    line = next(line for line in lines(window) if line.endswith(f"fix {title}: it is blank"))
    window.pick(LIST, line)
    window.press("Go to the Cell")
    wait(lambda: selected(shown_demo) == address(cell), lambda: selected(shown_demo))


def test_an_error_is_said_in_the_words_of_the_function_and_leads_to_the_cell_that_refused(checked, shown_demo):
    """No lashing gives so large a margin."""
    named(shown_demo, "stays_margin_own").Value = 12.0
    shown_demo.calculateAll()
    parts = named(shown_demo, "stays_parts")
    assert parts.getError()
    window = checked()
    line = next(line for line in lines(window) if line.startswith(f"{address(parts)}: "))
    assert "fix Lashing parts: a part may carry 2.347 kN, yet with 24 parts" in line


@pytest.mark.parametrize(
    ("name", "content", "words"),
    [
        ("stays_cut", "=1+1", "the formula differs from the rest of its column"),
        ("stays_cut", "12000", "something was typed over the formula"),
        ("stays_cut", "", "the formula was deleted"),
        ("stays_number", "'2 off", 'Number: "2 off" is a text'),
        ("boat_kerf", "'3", "is a text"),
        ("boat_rope_mass", "12", "something was typed over the formula"),
        ("stays_below", "one more", "stands below Stays and is not counted"),
    ],
)
def test_what_no_rows_check_can_see_is_a_line_that_leads_to_its_cell(checked, shown_demo, name, content, words):
    cell = named(shown_demo, name)
    cell.Formula = content
    window = checked()
    line = next(line for line in lines(window) if words in line and line.startswith(address(cell)))
    window.pick(LIST, line)
    window.press("Go to the Cell")
    wait(lambda: selected(shown_demo) == address(cell), lambda: selected(shown_demo))


def test_the_last_ready_row_is_not_to_be_used(checked, shown_demo):
    names = shown_demo.NamedRanges.getByName("stays_name").ReferredCells
    last = names.getCellByPosition(0, names.RangeAddress.EndRow - names.RangeAddress.StartRow)
    last.String = "one more"
    assert any(line.startswith(address(last)) and "last ready row" in line for line in lines(checked()))


def test_a_row_inserted_right_below_the_header_is_seen(checked, shown_demo):
    names = shown_demo.NamedRanges.getByName("tangs_name").ReferredCells
    first = names.RangeAddress.StartRow
    names.Spreadsheet.Rows.insertByIndex(first, 1)
    cell = names.Spreadsheet.getCellByPosition(0, first)
    cell.String = "one more"
    assert any(line.startswith(address(cell)) and "above the first row" in line for line in lines(checked()))


def test_a_name_that_was_deleted_is_a_line(checked, shown_demo):
    shown_demo.NamedRanges.removeByName("stays_cut")
    assert any("the named range stays_cut is gone" in line for line in lines(checked()))


def test_a_user_may_insert_columns_and_rows_and_sort_without_a_complaint(checked, faulty):
    before = [line.split(": ", 1)[1] for line in lines(checked())]
    sheet = faulty.Sheets.getByName("Stays")
    sheet.Columns.insertByIndex(5, 2)
    sheet.getCellByPosition(5, 8).Formula = "=A9"
    faulty.Sheets.getByName("Points").Columns.insertByIndex(3, 1)
    after = [line.split(": ", 1)[1] for line in lines(checked())]
    assert after == before


def test_looking_again_shows_what_is_left(checked, shown_demo):
    cell = named(shown_demo, "stays_cut")
    formula = cell.Formula
    cell.Formula = "=1"
    window = checked()
    assert any("differs from the rest" in line for line in lines(window))
    cell.Formula = formula
    window.press("Look Again")
    wait(lambda: not any("differs from the rest" in line for line in lines(window)), lambda: lines(window))


def test_a_folded_block_is_unfolded_where_a_line_leads(checked, shown_demo):
    cell = named(shown_demo, "stays_bury")
    cell.Formula = "=1"
    cell.Spreadsheet.hideDetail(cell.RangeAddress)
    assert not cell.Columns.IsVisible
    window = checked()
    window.pick(LIST, address(cell))
    window.press("Go to the Cell")
    wait(lambda: cell.Columns.IsVisible, lambda: "the column is still hidden")
    wait(lambda: selected(shown_demo) == address(cell), lambda: selected(shown_demo))


def test_the_list_can_be_copied_and_closed(screen, checked, faulty):
    window = checked()
    window.press("Copy the List")
    wait(lambda: (screen.copied() or "").split("\n") == lines(window), screen.copied)
    wait(lambda: window.words().startswith("The list is on the clipboard"), window.words)
    window.press("Close")
    assert screen.gone(TITLE)


def test_the_list_goes_when_the_document_does(screen, checked, faulty):
    checked()
    faulty.setModified(False)
    faulty.close(True)
    assert screen.gone(TITLE)


def test_it_changes_nothing(screen, checked, faulty):
    cell = select(faulty, named(faulty, "tangs_hole"))
    before, undo = everything(faulty), faulty.UndoManager.getAllUndoActionTitles()
    checked().press("Close")
    assert everything(faulty) == before
    assert selected(faulty) == address(cell)
    assert faulty.UndoManager.getAllUndoActionTitles() == undo


def test_nothing_to_mend_is_said(screen, shown_demo):
    screen.give("check", frame_of(shown_demo))
    assert "Nothing needs attention" in screen.message(TITLE)
    screen.finish()


def test_a_new_schedule_asks_for_what_is_blank_on_boat(screen):
    screen.give("new", frame_of(screen.open()))
    screen.finish()
    new = new_schedule(screen.office)
    screen.give("check", frame_of(new))
    found = lines(screen.dialog(TITLE))
    assert any(line.startswith("Boat.") and "Rope: it is blank" in line for line in found)
    assert not any("formula" in line or "gone" in line for line in found)


def test_a_read_only_schedule_is_checked_like_any_other(screen, demo_file, tmp_path):
    book = screen.open(demo_file)
    named(book, "stays_share").String = "none such"
    screen.office.store(book, tmp_path / "faulty.ods")
    screen.give("check", frame_of(screen.open(tmp_path / "faulty.ods", ReadOnly=True)))
    assert any("Share: there is no none such" in line for line in lines(screen.dialog(TITLE)))
    screen.finish()


PUT = "Put Right"


def put_right(screen, window, line, name=""):
    """Give the command of the list that puts right; pick a line of it, and what a row is called now."""
    screen.press_aside(window, "Put Right…")
    asked = screen.dialog(PUT)
    asked.pick("What", next(one for one in asked.lines("What") if line in one))
    if name:
        wait(lambda: name in asked.lines("Its name now"), lambda: asked.lines("Its name now"))
        asked.pick("Its name now", name)
    asked.press("Put Right")
    screen.gone(PUT)


@pytest.mark.parametrize(
    ("name", "users"),
    [
        ("points_name", ["stays_upper", "stays_via", "stays_lower"]),
        ("stays_name", ["tangs_stay", "log_stay", "bench_stay"]),
        ("rope_name", ["boat_rope", "boat_line", "stays_rope_own", "stays_line_own", "order_name"]),
    ],
)
def test_a_row_that_was_renamed_takes_its_users_along(screen, checked, shown_demo, name, users):
    def held():
        return {user: texts_of(shown_demo, user) for user in users}

    old = next(
        one for one in texts_of(shown_demo, name) if sum(column.count(one) for column in held().values()) > 1
    )
    cell = cell_of(shown_demo, name, old)
    before = held()
    cell.String = "another name"
    window = checked()
    put_right(screen, window, f"{old} is gone from", "another name")
    wait(lambda: not any(old in column for column in held().values()), held)
    due = {user: ["another name" if one == old else one for one in column] for user, column in before.items()}
    assert held() == due
    wait(lambda: lines(window) == ["Nothing needs attention."], lambda: lines(window))
    shown_demo.UndoManager.undo()
    assert held() == before
    screen.finish()


def wait_until_looked_again(window):
    """Formulas are back, and the window has looked for faults anew."""
    wait(lambda: not any("formula" in line for line in lines(window)), lambda: lines(window))


def texts_of(book, name):
    return [held for (held,) in book.NamedRanges.getByName(name).ReferredCells.DataArray]


def cell_of(book, name, text):
    return book.NamedRanges.getByName(name).ReferredCells.getCellByPosition(0, texts_of(book, name).index(text))


@pytest.mark.parametrize(
    ("table", "key", "row", "typed", "where"),
    [
        ("rope", "break_load", "HMPE 12-strand 10 mm", 11.0, "Library."),
        ("points", "out", "cap chainplate, port", 148.0, "Stays."),
    ],
)
def test_a_slip_stands_before_the_dangers_that_follow_from_it(checked, shown_demo, table, key, row, typed, where):
    cell_in_row(shown_demo, table, key, row).Value = typed
    found = [line for line in lines(checked()) if ": fix " not in line]
    assert any(": danger: " in line for line in found)
    assert found[0].startswith(where) and ": danger: " not in found[0], found[:3]


def test_a_new_item_of_the_library_is_put_on_order(screen, checked, shown_demo):
    names = shown_demo.NamedRanges.getByName("rope_name").ReferredCells
    names.getCellByPosition(0, texts_of(shown_demo, "rope_name").index("")).String = "a rope more"
    rows = len(texts_of(shown_demo, "order_name"))
    window = checked()
    assert "New on Order: a rope more." in window.words()
    at = texts_of(shown_demo, "order_name").index("a rope more")
    assert texts_of(shown_demo, "order_kind")[at] == "rope"
    assert texts_of(shown_demo, "order_name")[-1] == ""
    assert len(texts_of(shown_demo, "order_name")) in (rows, rows + 1)
    assert not any("not on Order" in line for line in lines(window))
    manager = shown_demo.getUndoManager()
    manager.undo()
    assert "a rope more" not in texts_of(shown_demo, "order_name")


def test_an_item_that_may_only_be_renamed_is_left_to_put_right(screen, checked, shown_demo):
    names = shown_demo.NamedRanges.getByName("rope_name").ReferredCells
    names.getCellByPosition(
        0, texts_of(shown_demo, "rope_name").index("HMPE 12-strand 8 mm")
    ).String = "a rope by another name"
    window = checked()
    assert "New on Order" not in window.words()
    assert "a rope by another name" not in texts_of(shown_demo, "order_name")
    put_right(screen, window, "Order lacks items of the Library: a rope by another name")
    wait(
        lambda: "a rope by another name" in texts_of(shown_demo, "order_name"),
        lambda: texts_of(shown_demo, "order_name"),
    )
    wait(lambda: not any("not on Order" in line for line in lines(window)), lambda: lines(window))
    screen.finish()


def test_where_nothing_can_be_put_right_it_says_so(screen, checked, faulty):
    window = checked()
    screen.press_aside(window, "Put Right…")
    assert "Nothing can be put right from here" in screen.message(PUT)
    screen.finish()


def test_a_sheet_that_was_duplicated_is_named(checked, shown_demo, opened_anew):
    shown_demo.Sheets.copyByName("Stays", "Stays of last year", 6)
    copy = shown_demo.Sheets.getByName("Stays of last year")
    row = named(shown_demo, "stays_name").CellAddress.Row
    copy.getCellByPosition(0, row).String = "a stay renamed in the copy"
    shown_demo.calculateAll()
    found = lines(checked())
    assert len(found) == 1
    assert "the sheet Stays of last year is a copy of Stays" in found[0]


def test_what_is_said_of_many_rows_is_one_line_that_names_them_all(checked, shown_demo):
    for row, trial in enumerate(texts_of(shown_demo, "rope_trial")):
        if trial:
            shown_demo.NamedRanges.getByName("rope_trial").ReferredCells.getCellByPosition(
                0, row
            ).String = "assumed"
    window = checked()
    found = [line for line in lines(window) if "take-up and set of its rope are assumed" in line]
    assert len(found) == 1
    assert "cap shroud, port and " in found[0]
    assert re.match(r"\d+ to look at: \d+ to consider\.", window.words())


def test_the_whole_line_names_all_rows_of_which_it_is_said(shown_demo):
    check, faults = written.module("commands.check"), written.module("workbook.faults")
    names = shown_demo.NamedRanges.getByName("stays_name").ReferredCells
    rows = [names.getCellByPosition(0, at) for at in range(3)]
    found = [faults.Fault("a trial is missing", row, "weigh", "stays.trial", name=row.String) for row in rows]
    found.append(faults.Fault("a trial is missing", rows[0], "weigh", "tangs.trial", name="another"))
    groups = check.alike(found)
    assert [len(group) for group in groups] == [3, 1]
    where = [f"{address(row)} {row.String}" for row in rows[1:]]
    assert check.in_full(groups[0]).split("\n")[1] == f"The same: {'; '.join(where)}"


@pytest.mark.parametrize("content", ["", "12000", "=1+1"])
def test_a_formula_that_is_gone_or_changed_is_put_back_from_the_rest_of_its_column(
    screen, checked, shown_demo, content
):
    before = everything(shown_demo)
    cut = named(shown_demo, "stays_cut")
    cut.Formula = content
    window = checked()
    put_right(screen, window, f"Stays, row {cut.CellAddress.Row + 1}: formula deleted or changed: Cut")
    wait_until_looked_again(window)
    screen.finish()
    assert everything(shown_demo) == before


def test_a_row_of_which_all_was_deleted_gets_its_formulas_back(screen, checked, shown_demo):
    """What was typed there is gone, and the row may be used again."""
    names = shown_demo.NamedRanges.getByName("stays_name").ReferredCells
    row = names.RangeAddress.StartRow + 1
    names.Spreadsheet.Rows.getByIndex(row).clearContents(1 + 2 + 4 + 16)  # as the Delete key does
    window = checked()
    put_right(screen, window, f"Stays, row {row + 1}: formula deleted or changed")
    wait_until_looked_again(window)
    screen.finish()
    names.getCellByPosition(0, 1).String = "new"
    state = shown_demo.NamedRanges.getByName("stays_state").ReferredCells.getCellByPosition(0, 1)
    wait(lambda: state.String == "fix", lambda: state.String)
    check = shown_demo.NamedRanges.getByName("stays_check").ReferredCells.getCellByPosition(0, 1)
    assert "pick it and the lower point" in check.String


def test_a_row_that_lost_its_formulas_is_one_line(checked, shown_demo):
    names = shown_demo.NamedRanges.getByName("stays_name").ReferredCells
    row = names.RangeAddress.StartRow + 1
    names.Spreadsheet.Rows.getByIndex(row).clearContents(1 + 2 + 4 + 16)
    found = [line for line in lines(checked()) if "the formula was deleted" in line]
    assert len(found) == 1
    assert found[0].startswith(f"Stays.B{row + 1}: a ready row, Check and ")


def test_no_name_is_picked_before_the_user_does(screen, checked, shown_demo):
    """One click too many would hang one stay's stub on another."""
    named(shown_demo, "stays_name").String = "another name"
    before = texts_of(shown_demo, "tangs_stay")
    window = checked()
    screen.press_aside(window, "Put Right…")
    screen.dialog(PUT).press("Put Right")
    assert "No name was picked for cap shroud, port" in screen.message(TITLE)
    screen.finish()
    assert texts_of(shown_demo, "tangs_stay") == before
