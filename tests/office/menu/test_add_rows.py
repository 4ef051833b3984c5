"""Add Rows, given in a window: the rows are ready, every name grows, and one undo takes them back."""

import re

import pytest

from tests.office.menu.cells import address, everything, frame_of, named, select, selected
from tests.office.menu.conftest import new_schedule

pytestmark = pytest.mark.office

TITLE = "Add Rows"
TABLES = ["points", "stays", "tangs", "order", "control", "rope", "wire", "rod", "bolt", "sleeve", "ring", "log"]


@pytest.fixture
def shown_demo(shown_demo, demo_window):
    """Opened anew for each test: to take rows back takes longer."""
    yield shown_demo
    demo_window.close()


def cells(book, name):
    return book.NamedRanges.getByName(name).ReferredCells


def heights(book):
    """How many rows each named range has, as written; asking each for its cells takes long."""
    found = {named.Name: re.findall(r"\$([0-9]+)", named.Content) for named in book.NamedRanges}
    return {name: int(rows[-1]) - int(rows[0]) + 1 for name, rows in found.items() if rows}


def add(screen, book, number):
    screen.give("addrows", frame_of(book))
    dialog = screen.dialog(TITLE)
    dialog.type("Rows", str(number))
    dialog.press("Add")


def last(book, name):
    column = cells(book, name)
    return column.getCellByPosition(0, column.RangeAddress.EndRow - column.RangeAddress.StartRow)


def formulas(book, name):
    """The formulas of a column, by row, with the row's own number taken out."""
    column = cells(book, name)
    first = column.RangeAddress.StartRow
    return [line.replace(str(first + at + 1), "#") for at, (line,) in enumerate(column.FormulaArray)]


def test_every_name_of_a_table_grows_and_no_other(screen, shown_demo):
    before = heights(shown_demo)
    for table in TABLES:
        select(shown_demo, named(shown_demo, f"{table}_name", 1))
        add(screen, shown_demo, 3)
        screen.finish()
        after = heights(shown_demo)
        grown = {name for name in after if after[name] != before[name]}
        assert all(after[name] == before[name] + 3 for name in grown), table
        columns = {
            name for name in before if name.startswith(f"{table}_") and before[name] == before[f"{table}_name"]
        }
        assert grown >= columns, table
        assert not any(name.split("_")[0] in TABLES and not name.startswith(f"{table}_") for name in grown), table
        before = after


def test_the_new_rows_are_ready_and_empty(screen, shown_demo):
    select(shown_demo, named(shown_demo, "stays_upper", 2))
    add(screen, shown_demo, 5)
    screen.finish()
    for name in ("stays_load", "stays_cut"):
        assert len(set(formulas(shown_demo, name))) == 1, name
    for name in ("stays_check", "stays_cut", "stays_name", "stays_number", "stays_upper"):
        assert [held for (held,) in cells(shown_demo, name).DataArray[-6:]] == [""] * 6


def test_rig_prints_what_its_first_page_does_not_list(screen, shown_demo):
    rig = shown_demo.Sheets.getByName("Rig")
    assert len(rig.getPrintAreas()) == 1
    for _ in range(2):
        select(shown_demo, named(shown_demo, "stays_upper", 2))
        add(screen, shown_demo, 5)
        screen.finish()
        first, second = rig.getPrintAreas()
        assert second.EndRow == cells(shown_demo, "rig_further_name").RangeAddress.EndRow
        assert first.EndRow < second.StartRow == cells(shown_demo, "rig_more_name").RangeAddress.StartRow - 2


def test_three_hundred_rows_are_ready_like_one(screen, shown_demo):
    from extension.loftsheet_office.workbook.faults import relative

    before = heights(shown_demo)
    select(shown_demo, named(shown_demo, "stays_upper", 2))
    add(screen, shown_demo, 300)
    screen.finish()
    after = heights(shown_demo)
    assert after["stays_name"] == before["stays_name"] + 300
    for name in [name for name in after if name.startswith("stays_") and after[name] == after["stays_name"]]:
        column = cells(shown_demo, name)
        first = column.RangeAddress.StartRow
        told = [relative(formula, first + at) for at, (formula,) in enumerate(column.FormulaArray)]
        assert len(set(told[-301:])) == 1, name
        assert [held for (held,) in column.DataArray[-301:]] == [""] * 301, name


def test_columns_that_are_folded_away_are_filled_too_and_stay_so(screen, shown_demo):
    column = cells(shown_demo, "stays_load")
    block = column.Spreadsheet.getCellRangeByPosition(
        column.RangeAddress.StartColumn, 0, column.RangeAddress.StartColumn + 3, 0
    ).Columns
    block.IsVisible = False
    before = visible(column.Spreadsheet)
    select(shown_demo, named(shown_demo, "stays_upper", 2))
    add(screen, shown_demo, 4)
    screen.finish()
    assert visible(column.Spreadsheet) == before
    assert len(set(formulas(shown_demo, "stays_load"))) == 1
    shown_demo.UndoManager.undo()
    assert visible(column.Spreadsheet) == before


def test_new_rows_are_as_high_as_the_others(screen, shown_demo):
    column = cells(shown_demo, "stays_name")
    first = column.RangeAddress.StartRow
    before = column.Spreadsheet.Rows.getByIndex(first).Height
    select(shown_demo, named(shown_demo, "stays_upper", 2))
    add(screen, shown_demo, 4)
    screen.finish()
    last = cells(shown_demo, "stays_name").RangeAddress.EndRow
    assert {column.Spreadsheet.Rows.getByIndex(at).Height for at in range(first, last + 1)} == {before}


def visible(sheet):
    return [sheet.Columns.getByIndex(at).IsVisible for at in range(260)]


def test_formats_lists_and_conditions_come_along(screen, shown_demo):
    pattern = {name: last(shown_demo, f"stays_{name}") for name in ("number", "upper", "check", "cut")}
    due = {name: (cell.CellStyle, cell.Validation.Type, condition(cell)) for name, cell in pattern.items()}
    select(shown_demo, named(shown_demo, "stays_upper"))
    add(screen, shown_demo, 4)
    screen.finish()
    for name, wanted in due.items():
        column = cells(shown_demo, f"stays_{name}")
        height = column.RangeAddress.EndRow - column.RangeAddress.StartRow
        for at in range(height - 4, height + 1):
            cell = column.getCellByPosition(0, at)
            assert (cell.CellStyle, cell.Validation.Type, condition(cell)) == wanted, (name, at)


def condition(cell):
    conditions = cell.ConditionalFormat
    return [conditions.getByIndex(at).StyleName for at in range(conditions.Count)]


def test_a_stay_in_a_new_row_is_calculated_like_any_other(screen, shown_demo):
    select(shown_demo, named(shown_demo, "stays_name"))
    add(screen, shown_demo, 1)
    screen.finish()
    names = cells(shown_demo, "stays_name")
    new = names.RangeAddress.EndRow - names.RangeAddress.StartRow - 1
    for name in [each for each in shown_demo.NamedRanges.ElementNames if each.startswith("stays_")]:
        column = cells(shown_demo, name)
        if column.RangeAddress.EndRow == names.RangeAddress.EndRow:
            like = column.getCellByPosition(0, 0)
            if not like.Formula.startswith("="):
                column.getCellByPosition(0, new).setDataArray(like.DataArray)
    names.getCellByPosition(0, new).String = "one more shroud"
    shown_demo.calculateAll()
    lengths = cells(shown_demo, "stays_length")
    assert lengths.getCellByPosition(0, new).Value == lengths.getCellByPosition(0, 0).Value > 0


def test_one_undo_leaves_the_document_as_it_was(screen, shown_demo):
    before, grown = everything(shown_demo), heights(shown_demo)
    select(shown_demo, named(shown_demo, "tangs_name"))
    titles = len(shown_demo.UndoManager.getAllUndoActionTitles())
    add(screen, shown_demo, 20)
    screen.finish()
    assert len(shown_demo.UndoManager.getAllUndoActionTitles()) == titles + 1
    assert shown_demo.UndoManager.getCurrentUndoActionTitle() == TITLE
    shown_demo.UndoManager.undo()
    assert everything(shown_demo) == before
    assert heights(shown_demo) == grown


def test_selection_and_clipboard_are_left_alone(screen, shown_demo):
    from extension.loftsheet_office.dialogs.clipboard import Text

    screen.clipboard.setContents(Text("kept"), None)
    cell = select(shown_demo, named(shown_demo, "stays_upper", 3))
    add(screen, shown_demo, 2)
    screen.finish()
    assert selected(shown_demo) == address(cell)
    assert screen.copied() == "kept"


def test_a_last_row_that_was_used_moves_up_and_an_empty_one_follows(screen, shown_demo):
    used = last(shown_demo, "points_name")
    used.String = "one more point"
    last(shown_demo, "points_note").String = "with a note"
    elsewhere = shown_demo.Sheets.getByName("Log").getCellRangeByName("AZ1")
    elsewhere.Formula = f"=$Points.A{used.CellAddress.Row + 1}"
    select(shown_demo, used)
    add(screen, shown_demo, 3)
    screen.finish()
    shown_demo.calculateAll()
    assert [name for (name,) in cells(shown_demo, "points_name").DataArray][-4:] == ["one more point", "", "", ""]
    assert [note for (note,) in cells(shown_demo, "points_note").DataArray][-4:] == ["with a note", "", "", ""]
    assert elsewhere.String == "one more point"
    assert named(shown_demo, "boat_outside").String == "nothing"
    assert len(set(formulas(shown_demo, "points_up"))) == 1


def test_the_users_own_columns_are_filled_too(screen, shown_demo):
    column = cells(shown_demo, "tangs_number")
    sheet, first = column.Spreadsheet, column.RangeAddress.StartRow
    at = column.RangeAddress.StartColumn + 1
    sheet.Columns.insertByIndex(at, 1)
    cursor = sheet.createCursor()
    cursor.gotoEndOfUsedArea(False)
    beside = cursor.RangeAddress.EndColumn + 1
    for row in range(first, column.RangeAddress.EndRow + 1):
        for own in (at, beside):
            sheet.getCellByPosition(own, row).Formula = f"=2*A{row + 1}"
    select(shown_demo, named(shown_demo, "tangs_name"))
    add(screen, shown_demo, 2)
    screen.finish()
    end = cells(shown_demo, "tangs_name").RangeAddress.EndRow
    for row in (end - 2, end - 1, end):
        for own in (at, beside):
            assert sheet.getCellByPosition(own, row).Formula == f"=2*A{row + 1}"


def filtered(book, table, column, number):
    """Put a filter in force that shows only the rows with a number in a column."""
    import uno
    from com.sun.star.sheet.FilterOperator import EQUAL

    names = cells(book, f"{table}_name").RangeAddress
    at = cells(book, f"{table}_{column}").RangeAddress.StartColumn
    area = cells(book, f"{table}_name").Spreadsheet.getCellRangeByPosition(0, names.StartRow - 1, at, names.EndRow)
    book.DatabaseRanges.addNewByName("filter", area.RangeAddress)
    filter_range = book.DatabaseRanges.getByName("filter")
    field = uno.createUnoStruct("com.sun.star.sheet.TableFilterField")
    field.Field, field.IsNumeric, field.NumericValue, field.Operator = at, True, float(number), EQUAL
    descriptor = filter_range.getFilterDescriptor()
    descriptor.ContainsHeader = True
    descriptor.setFilterFields((field,))
    filter_range.refresh()


def test_rows_added_under_a_filter_are_shown_and_ready_and_said(screen, shown_demo):
    filtered(shown_demo, "stays", "number", 2)
    names = cells(shown_demo, "stays_name")
    rows = names.Spreadsheet.Rows
    assert rows.getByIndex(names.RangeAddress.EndRow).IsFiltered
    select(shown_demo, named(shown_demo, "stays_name", 9))
    add(screen, shown_demo, 3)
    assert "A filter hides some rows" in screen.message(TITLE)
    screen.finish()
    end = cells(shown_demo, "stays_name").RangeAddress.EndRow
    assert [rows.getByIndex(row).IsVisible for row in range(end - 3, end + 1)] == [True] * 4
    assert len(set(formulas(shown_demo, "stays_cut"))) == 1


def test_a_read_only_schedule_is_refused_politely(screen, demo_file):
    book = screen.open(demo_file, ReadOnly=True)
    select(book, named(book, "stays_name"))
    screen.give("addrows", frame_of(book))
    assert "open read-only. Save a copy" in screen.message(TITLE)
    screen.finish()


def test_a_protected_sheet_is_refused_in_words(screen, shown_demo):
    shown_demo.Sheets.getByName("Stays").protect("")
    select(shown_demo, named(shown_demo, "stays_name"))
    screen.give("addrows", frame_of(shown_demo))
    assert "This sheet is protected" in screen.message(TITLE)
    screen.finish()


def test_the_number_offered_is_replaced_by_what_is_typed(screen, shown_demo):
    select(shown_demo, named(shown_demo, "stays_name"))
    screen.give("addrows", frame_of(shown_demo))
    dialog = screen.dialog(TITLE)
    assert dialog.text("Rows") == dialog.selected("Rows") == "5"
    dialog.press("Cancel")
    screen.finish()


def test_cancelling_adds_nothing(screen, shown_demo):
    before = heights(shown_demo)
    select(shown_demo, named(shown_demo, "stays_name"))
    screen.give("addrows", frame_of(shown_demo))
    screen.dialog(TITLE).press("Cancel")
    screen.finish()
    assert heights(shown_demo) == before


@pytest.mark.parametrize("typed", ["0", "501", "2.5", "-1", "two", ""])
def test_anything_but_a_whole_number_is_refused_in_words(screen, shown_demo, typed):
    before = heights(shown_demo)
    select(shown_demo, named(shown_demo, "stays_name"))
    add(screen, shown_demo, typed)
    assert "Type a whole number of rows, from 1 to 500" in screen.message(TITLE)
    screen.finish()
    assert heights(shown_demo) == before


def test_outside_the_tables_it_says_where_to_click(screen, shown_demo):
    select(shown_demo, named(shown_demo, "boat_rm30"))
    screen.give("addrows", frame_of(shown_demo))
    assert "Click into a table first" in screen.message(TITLE)
    screen.finish()


def test_without_a_cell_it_says_to_click_on_one(screen, shown_demo):
    sheet = named(shown_demo, "stays_name").Spreadsheet
    shown_demo.CurrentController.setActiveSheet(sheet)
    shape = shown_demo.createInstance("com.sun.star.drawing.RectangleShape")
    sheet.DrawPage.add(shape)
    shown_demo.CurrentController.select(shape)
    screen.give("addrows", frame_of(shown_demo))
    assert "Click on a cell first" in screen.message(TITLE)
    screen.finish()


def test_rows_with_faults_stay_as_they_are(screen, shown_demo):
    named(shown_demo, "stays_number").String = "two"
    named(shown_demo, "stays_upper", 1).String = "nowhere"
    named(shown_demo, "stays_cut", 2).Formula = "=1/0"
    shown_demo.calculateAll()
    before = [said for (said,) in cells(shown_demo, "stays_check").DataArray if said]
    select(shown_demo, named(shown_demo, "stays_cut", 2))
    add(screen, shown_demo, 3)
    screen.finish()
    shown_demo.calculateAll()
    assert [said for (said,) in cells(shown_demo, "stays_check").DataArray if said] == before
    assert len(set(formulas(shown_demo, "stays_cut")[-4:])) == 1
    assert formulas(shown_demo, "stays_cut")[2] == "=1/0"


def test_a_schedule_that_was_never_saved(screen):
    screen.give("new", frame_of(screen.open()))
    screen.finish()
    new = new_schedule(screen.office)
    before = heights(new)["stays_name"]
    select(new, named(new, "stays_name"))
    add(screen, new, 2)
    screen.finish()
    assert heights(new)["stays_name"] == before + 2
    assert named(new, "boat_outside").String == "nothing"
