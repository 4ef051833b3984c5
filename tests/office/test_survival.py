"""Edits as a user makes them: after each, every cell follows from its inputs, or the row's check says why."""

import math

import pytest

from tests.office import named, oracle
from tests.office.places import LAST_COLUMN, all_rows, column_number, input_at, rows, show_only, whole_column
from tests.office.user import REGION, User, set_option

pytestmark = pytest.mark.office


@pytest.fixture
def demo(demo, shared_by_all):
    """Opened anew for each test: to undo what was sorted under a filter ends the office."""
    yield demo
    shared_by_all.close()


@pytest.fixture
def user(office, demo):
    return User(office, demo)


def assert_sound(book):
    """Nothing differs, and no error is passed over in silence."""
    compared = oracle.Compared(book)
    assert compared.differences == []
    assert compared.silent_errors == []


def assert_explained(book):
    """What differs stands in a row whose check says so, and Boat counts it or names what lies outside."""
    compared = oracle.Compared(book)
    assert compared.unexplained == []
    assert compared.silent_errors == []
    assert named.value(book, "boat_wrong") != 0 or named.value(book, "boat_outside") != "nothing"


def is_as_before(book, before):
    return oracle.Cells(book).held == before


def test_own_columns_between_ours(demo, user):
    """Full of numbers and texts of the user's own, which nothing counts."""
    before = named.column(demo, "order_quantity")
    for table in ("points", "stays", "tangs", "order", "rope", "log"):
        for column in oracle.table(table).columns[1::4]:
            own_column(user, named.cells(demo, f"{table}_{column.key}"))
    assert_sound(demo)
    assert named.value(demo, "boat_wrong") == 0
    assert named.column(demo, "order_quantity") == before


def own_column(user, ours):
    """Insert a column to the left of one of ours and fill it."""
    area = ours.RangeAddress
    user.insert_columns(ours.getCellByPosition(0, 0))
    own = ours.Spreadsheet.getCellRangeByPosition(area.StartColumn, area.StartRow, area.StartColumn, area.EndRow)
    own.DataArray = tuple((one,) for one in [1e6, "mine", *range(own.Rows.Count - 2)])


def test_a_row_copied_and_inserted(demo, user):
    user.insert_rows(rows(demo, "stays", 3))
    assert_sound(demo)
    user.copy(rows(demo, "stays", 2))
    user.paste(rows(demo, "stays", 3).getCellByPosition(0, 0))
    assert_sound(demo)
    fifth = {"share.count": "weigh", "rests": "note"}
    assert [named.ids(found) for found in named.column(demo, "stays_found")[2:4]] == [
        {"name.twice": "fix", "balance.unchecked": "note", **fifth}
    ] * 2
    assert "the share is for 4 such shrouds, here are 5" in named.column(demo, "stays_found")[3]
    user.type(rows(demo, "stays", 3).getCellByPosition(0, 0), "a new shroud")
    user.type(input_at(demo, "stays", "upper_over", 3), "ring")
    assert_sound(demo)
    assert named.found(demo, "stays", "a new shroud") == {"balance.dock": "note", **fifth}
    user.type(named.cell(demo, "share", "of", "each of two lowers"), "5")
    assert_sound(demo)
    assert named.state(demo, "stays", "a new shroud") == "ok"
    # Its lashing goes through the hole of the one beside it.
    assert named.found(demo, "chainplates", "fore lower chainplate, port")["passes"] == "weigh"
    assert named.value(demo, "boat_wrong") == 1


def test_ready_rows_filled_and_more_inserted_above_the_last(demo, user):
    ready = named.column(demo, "stays_name").index("")
    for at, name in enumerate(("one more", "and one more", "and another")):
        user.copy(rows(demo, "stays", 7))
        user.paste(rows(demo, "stays", ready + at).getCellByPosition(0, 0))
        user.type(rows(demo, "stays", ready + at).getCellByPosition(0, 0), name)
    assert_sound(demo)
    assert named.value(demo, "boat_outside") == "nothing"
    user.insert_rows(rows(demo, "stays", ready + 3, ready + 5))
    user.copy(rows(demo, "stays", 7))
    user.paste(all_rows(demo, "stays").getCellRangeByPosition(0, ready + 3, LAST_COLUMN, ready + 5))
    assert_explained(demo)
    assert "name.twice" in named.ids(named.column(demo, "stays_found")[ready + 5])


def test_the_last_ready_row_is_used(demo, user):
    user.copy(rows(demo, "points", 0))
    user.paste(rows(demo, "points", named.cells(demo, "points_name").Rows.Count - 1).getCellByPosition(0, 0))
    assert "Points: the last ready row is used, add rows" in named.value(demo, "boat_outside")


def test_a_row_below_the_last(demo, user):
    user.type(rows(demo, "stays", named.cells(demo, "stays_name").Rows.Count).getCellByPosition(0, 0), "lost stay")
    assert "Stays: something stands below the table" in named.value(demo, "boat_outside")


@pytest.mark.parametrize("table", ["points", "stays", "tangs", "order", "rod", "sundry", "log"])
@pytest.mark.parametrize("where", ["above the first", "below the last"])
def test_rows_inserted_at_an_edge_of_the_table(demo, user, table, where):
    """They lie outside; a row filled there would not be counted."""
    count = named.cells(demo, f"{table}_name").Rows.Count
    user.insert_rows(rows(demo, table, 0 if where == "above the first" else count))
    said = named.value(demo, "boat_outside")
    assert "rows were inserted right below the headers or below the last ready row" in said


@pytest.mark.parametrize("where", ["first", "middle", "last"])
def test_rows_deleted(demo, user, where):
    last = named.cells(demo, "stays_name").Rows.Count - 1
    user.delete_rows(rows(demo, "stays", {"first": 0, "middle": 7, "last": last}[where]))
    assert named.cells(demo, "stays_name").Rows.Count == last
    assert_sound(demo)
    found = named.found(demo, "tangs", "cap stub, port")
    assert ("stay.list" in found) == (where == "first")
    assert named.state(demo, "tangs", "cap stub, port") == ("fix" if where == "first" else "ok")


SORTED = [("stays", "margin", False), ("stays", "wire", True), ("stays", "name", False), ("tangs", "hole", True)]


@pytest.mark.parametrize(("table", "column", "ascending"), SORTED)
def test_sorted_by_another_column(demo, user, table, column, ascending):
    filled = sum(name != "" for name in named.column(demo, f"{table}_name"))
    before = named.column(demo, "order_quantity")
    user.sort(rows(demo, table, 0, filled - 1), column_number(demo, f"{table}_{column}"), ascending)
    held = named.column(demo, f"{table}_{column}")[:filled]
    assert held == sorted(held, reverse=not ascending, key=str.casefold if isinstance(held[0], str) else None)
    assert_sound(demo)
    assert named.column(demo, "order_quantity") == pytest.approx(before)


@pytest.mark.parametrize("table", ["stays", "tangs"])
def test_the_users_own_columns_are_sorted_with_their_rows(demo, user, table):
    """They have no name; they stand behind the note."""
    filled = sum(name != "" for name in named.column(demo, f"{table}_name"))
    first = named.cells(demo, f"{table}_note").RangeAddress.StartColumn + 1
    own = rows(demo, table, 0, filled - 1).getCellRangeByPosition(first, 0, first + 2, filled - 1)
    assert not own.queryContentCells(1 | 2 | 4 | 16).Count
    own.DataArray = tuple(
        (name, float(at), "") for at, name in enumerate(named.column(demo, f"{table}_name")[:filled])
    )
    user.sort(rows(demo, table, 0, filled - 1), column_number(demo, f"{table}_name"), False)
    assert [held for held, _, _ in own.DataArray] == named.column(demo, f"{table}_name")[:filled]
    assert [at for _, at, _ in own.DataArray] != sorted(at for _, at, _ in own.DataArray)
    assert_sound(demo)


@pytest.mark.parametrize("command", ["SortAscending", "SortDescending"])
@pytest.mark.parametrize("table", ["points", "stays", "tangs", "log"])
def test_the_button_that_sorts_takes_the_headers_for_what_they_are(demo, user, table, command):
    names = named.cells(demo, f"{table}_name")
    first = names.getCellByPosition(0, 0).CellAddress
    header = [names.Spreadsheet.getCellByPosition(column, first.Row - 1).String for column in range(LAST_COLUMN)]
    before = sorted(name for name in named.column(demo, f"{table}_name") if name)
    user.select(names.getCellByPosition(0, 1))
    user.give(command)
    after = [name for name in named.column(demo, f"{table}_name") if name]
    assert [
        names.Spreadsheet.getCellByPosition(column, first.Row - 1).String for column in range(LAST_COLUMN)
    ] == header
    assert after == sorted(before, key=str.casefold, reverse=command == "SortDescending")
    assert_sound(demo)


def test_all_rows_sorted_with_the_ready_ones(demo, user):
    user.sort(all_rows(demo, "stays"), column_number(demo, "stays_cut"), ascending=False)
    assert_sound(demo)


def test_a_filter_on_while_rows_are_sorted_and_inserted(demo, user):
    names = named.cells(demo, "stays_name")
    top, last = names.RangeAddress.StartRow, names.RangeAddress.EndRow
    table = names.Spreadsheet.getCellRangeByPosition(0, top - 1, LAST_COLUMN, last)
    user.select(table)
    user.give("DataFilterAutoFilter")
    show_only(table, column_number(demo, "stays_basis") - 1, "righting moment")
    assert not names.Spreadsheet.Rows.getByIndex(top + 7).IsVisible
    assert_sound(demo)
    user.sort(rows(demo, "stays", 0, last - top), column_number(demo, "stays_name"))
    assert_sound(demo)
    user.insert_rows(rows(demo, "stays", 2))
    user.copy(rows(demo, "stays", 1))
    user.paste(rows(demo, "stays", 2).getCellByPosition(0, 0))
    assert_sound(demo)


def test_formulas_filled_down(demo, user):
    for column in ("cut", "check", "upper_under"):
        cells = named.cells(demo, f"stays_{column}")
        user.select(cells)
        user.give("FillDown")
    assert_sound(demo)


def test_sheets_renamed_moved_and_copied(demo):
    for at, name in enumerate(demo.Sheets.ElementNames):
        demo.Sheets.getByName(name).Name = f"Blatt {at}: {name} & more"
    demo.Sheets.moveByName(demo.Sheets.ElementNames[3], 0)
    demo.Sheets.copyByName(demo.Sheets.ElementNames[2], "a copy to play with", 1)
    assert_sound(demo)


def test_a_whole_column_moved(demo, user):
    note = named.cells(demo, "stays_note")
    user.insert_columns(note.getCellByPosition(0, 0))
    free = note.RangeAddress.StartColumn - 1
    user.cut(whole_column(note.Spreadsheet, column_number(demo, "stays_wire") - 1))
    user.paste(whole_column(note.Spreadsheet, free))
    assert named.cells(demo, "stays_wire").RangeAddress.StartColumn == free
    assert_sound(demo)


@pytest.mark.parametrize(("column", "down"), [("wire", 1), ("load_own", 5), ("cut", 1), ("cut", 5), ("name", 5)])
def test_a_cell_cut_and_pasted_into_another_row(demo, user, column, down):
    """The office lets formulas follow the cell: the row would silently be worked out with another row's cell."""
    at = 11
    user.cut(input_at(demo, "stays", column, at))
    user.paste(input_at(demo, "stays", column, at - down))
    assert_explained(demo)
    assert named.column(demo, "stays_state")[at] in ("fix", "waits") or column == "name"


READY_BLOCKS = [
    ("rope", "size", "family_break"),
    ("share", "share", "here"),
    ("log", "date", "tension"),
    ("stays", "number", "length"),
]


@pytest.mark.parametrize(("table", "left", "right"), READY_BLOCKS)
def test_a_block_of_a_ready_row_cut_and_pasted_over_another(demo, user, table, left, right):
    """What counts on cells that are gone becomes an error in a row without a name: its check says so."""
    ready = named.column(demo, f"{table}_name").index("")
    start, end = (input_at(demo, table, key, ready).RangeAddress for key in (left, right))
    sheet = input_at(demo, table, left, ready).Spreadsheet
    user.cut(sheet.getCellRangeByPosition(start.StartColumn, start.StartRow, end.EndColumn, end.EndRow))
    user.paste(sheet.getCellByPosition(start.StartColumn, start.StartRow + 1))
    assert_explained(demo)


def test_a_cell_dragged_out_of_the_table(demo):
    cell = input_at(demo, "stays", "wire", 0)
    away = cell.Spreadsheet.getCellByPosition(LAST_COLUMN + 3, cell.CellAddress.Row)
    cell.Spreadsheet.moveRange(away.CellAddress, cell.RangeAddress)
    assert_explained(demo)
    assert "row.moved" in named.ids(named.column(demo, "stays_found")[0])


def test_cells_inserted_in_one_column_only(demo, user):
    user.select(input_at(demo, "stays", "wire", 4))
    user.give("InsertCell", Flags="V")
    assert_explained(demo)


def test_a_row_pasted_over_another(demo, user):
    user.copy(rows(demo, "tangs", 0))
    user.paste(rows(demo, "tangs", 3).getCellByPosition(0, 0))
    assert_explained(demo)


@pytest.mark.parametrize("typed", ["9000", "nine metres", ""])
def test_a_formula_typed_over(demo, user, typed):
    cell = input_at(demo, "stays", "cut", 2)
    if typed:
        user.type(cell, typed)
    else:
        user.select(cell)
        user.give("ClearContents")
    assert_explained(demo)
    assert "row.formula" in named.ids(named.column(demo, "stays_found")[2])


def test_a_check_typed_over(demo, user):
    user.select(input_at(demo, "stays", "check", 2))
    user.give("ClearContents")
    assert named.value(demo, "boat_wrong") == 1
    assert named.value(demo, "boat_mend") == 1
    assert named.cell(demo, "control", "state", "every row").String == "waits"
    assert "Stays: rows whose Check is gone: 1" in named.value(demo, "boat_outside")


@pytest.mark.parametrize("column", ["found", "state", "found_row", "found_weigh"])
@pytest.mark.parametrize("typed", ["", "ok", '=""', "=1/0"])
def test_what_a_check_goes_by_typed_over(demo, column, typed):
    cell = input_at(demo, "stays", column, 2)
    cell.Formula = typed
    demo.calculateAll()
    assert named.column(demo, "stays_check")[2].startswith("fix this row: ")
    assert named.value(demo, "boat_mend") == 1
    assert named.cell(demo, "control", "state", "every row").String == "waits"


@pytest.mark.parametrize(
    ("column", "typed"),
    [
        *(("state", typed) for typed in ("ok", "note", "weigh", '="ok"', '="note"')),
        *(("found", typed) for typed in ('=""', '="ok"', "=FALSE()", "=1/0")),
    ],
)
def test_nothing_typed_beside_a_check_silences_a_row_in_danger(demo, column, typed):
    at = named.row_of(demo, "tangs", "cap stub, port")
    input_at(demo, "tangs", "bolt_own", at).String = "M12 A4-70"
    assert named.column(demo, "tangs_state")[at] == "danger"
    input_at(demo, "tangs", column, at).Formula = typed
    demo.calculateAll()
    assert named.column(demo, "tangs_check")[at].startswith("fix this row: a formula was typed over")
    assert named.value(demo, "boat_mend") >= 1
    assert named.value(demo, "boat_wrong") >= 1
    assert named.cell(demo, "control", "state", "every row").String == "waits"


def test_a_row_copied_from_another_table(demo, user):
    """Its formulas are those of the other table and would be content with themselves."""
    user.copy(rows(demo, "sundry", 0))
    user.paste(rows(demo, "log", 1).getCellByPosition(0, 0))
    assert "row.elsewhere" in named.ids(named.column(demo, "log_found")[1])
    assert_explained(demo)


def test_what_reads_the_stay_that_balances_it_waits(demo, user):
    before = named.state(demo, "stays", "forestay")
    split = named.row_of(demo, "points", "backstay split")
    user.select(input_at(demo, "points", "up_own", split - 1))
    user.give("InsertCell", Flags="V")
    demo.calculateAll()  # the office leaves what reads shifted cells as it was
    assert_explained(demo)
    assert before == "ok"
    assert "partner.stopped" in named.found(demo, "stays", "forestay")


TORN = {
    "a point's place is cleared": ("points", "inner forestay on mast", "up", ""),
    "a stay's stiffness is typed over": ("stays", "forestay", "stiffness", "9000"),
    "what a stay's stiffness follows from is typed over": ("stays", "forestay", "break_load", "300"),
    "a mast's second moment is typed over": ("masts", "mast", "inertia_out", "1"),
    "a case's tacks are typed over": ("cases", "all sails", "tacks", "1"),
    "a case's warmth is an error": ("cases", "all sails", "warmer_own", "=SQRT(-1)"),
}


@pytest.mark.parametrize("edit", TORN)
def test_nothing_is_balanced_with_a_figure_that_is_not_its_rows(demo, user, edit):
    """It would be in the loads of all stays, with OK beside them."""
    table, row, column, words = TORN[edit]
    user.type(named.cell(demo, table, column, row), words)
    assert_explained(demo)
    titles = {"points": "Points", "stays": "Stays", "masts": "Masts", "cases": "Balance"}
    said = f"not checked: a row of {titles[table]} has to be fixed first"
    assert named.value(demo, "verdict_words") == said
    assert named.found(demo, "stays", "fore lower, port")["balance.unchecked"] == "note"
    user.undo()
    assert named.value(demo, "verdict_words") == "worked out"
    assert_sound(demo)


def test_a_ready_row_cut_together_with_its_check(demo, user):
    """What reads it is an error, and no check of its own can say so; Boat does."""
    ready = named.column(demo, "wire_name").index("")
    user.select(rows(demo, "wire", ready).getCellRangeByPosition(0, 0, 4, 0))
    user.give("InsertCell", Flags="V")
    assert_explained(demo)
    assert "Library, wires: rows whose Check is gone: 1" in named.value(demo, "boat_outside")


def test_a_figure_pasted_into_a_ready_row(demo, user):
    """Totals would count it."""
    ready = named.column(demo, "stays_name").index("")
    user.type(input_at(demo, "stays", "rope_mass", ready), "40")
    assert_explained(demo)
    assert "row.filled" in named.ids(named.column(demo, "stays_found")[ready])


def test_a_name_deleted_with_those_below_moved_up(demo, user):
    """The ready rows would read the names of others, in a table without calculated columns, too."""
    user.select(input_at(demo, "sundry", "name", 0))
    user.give("DeleteCell", Flags="U")
    assert_explained(demo)
    assert "row.filled" in named.ids(named.column(demo, "sundry_found")[-1])


@pytest.mark.parametrize("typed", ["=NA()", '=""'])
def test_a_formula_in_place_of_the_one_that_counts_a_name(demo, typed):
    input_at(demo, "sleeve", "namesakes", 0).Formula = typed
    demo.calculateAll()
    assert "row.formula" in named.ids(named.column(demo, "sleeve_found")[0])


def test_a_named_row_without_formulas(demo, user):
    user.insert_rows(rows(demo, "stays", 5))
    user.type(rows(demo, "stays", 5).getCellByPosition(0, 0), "typed by hand")
    assert "Stays: rows whose Check is gone: 1" in named.value(demo, "boat_outside")
    assert named.value(demo, "boat_mend") == 1


def test_one_of_our_columns_deleted(demo, user):
    user.select(named.cells(demo, "stays_wire"))
    user.give("DeleteColumns")
    named_rows = sum(name != "" for name in named.column(demo, "stays_name"))
    found = named.column(demo, "stays_found")[:named_rows]
    assert all("row.moved" in named.ids(codes) for codes in found), found
    assert named.value(demo, "boat_mend") >= named_rows


def test_undo_takes_back_each_edit(demo, user):
    before = oracle.Cells(demo).held
    edits = (
        lambda: user.insert_columns(input_at(demo, "stays", "wire", 0)),
        lambda: user.delete_rows(rows(demo, "stays", 0, 2)),
        lambda: user.insert_rows(rows(demo, "tangs", 2)),
        lambda: user.sort(rows(demo, "stays", 0, 10), column_number(demo, "stays_cut")),
        lambda: user.type(input_at(demo, "stays", "wire", 0), "1x19 6 mm"),
    )
    for edit in edits:
        edit()
        assert not is_as_before(demo, before)
        user.undo()
        assert is_as_before(demo, before)
    assert_sound(demo)


@pytest.mark.parametrize("ending", ["ods", "xlsx"])
def test_edited_saved_and_opened_again(office, demo, user, tmp_path, ending):
    user.insert_columns(input_at(demo, "stays", "wire", 0))
    user.delete_rows(rows(demo, "stays", 7))
    user.sort(rows(demo, "tangs", 0, 7), column_number(demo, "tangs_hole"))
    user.type(input_at(demo, "stays", "fittings", 1), "1 1/2 in")
    before = oracle.Cells(demo).held
    path = tmp_path / f"saved.{ending}"
    office.store(demo, path)
    again = office.load(path)
    office.recalculate(again)
    assert_sound(again)
    assert named.value(again, "boat_wrong") == named.value(demo, "boat_wrong")
    schedule = oracle.Schedule(again)
    assert [row.typed["cut"] for row in schedule.rows("stays")] == pytest.approx(
        [row.typed["cut"] for row in oracle.Schedule(demo).rows("stays")]
    )
    assert oracle.Cells(demo).held == before
    User(office, again).insert_rows(rows(again, "stays", 4))
    assert_sound(again)
    office.close(again)


@pytest.fixture
def decimal_commas(office):
    """The office as set up for a country that writes decimal commas."""
    before = set_option(office, REGION, "ooSetupSystemLocale", "de-DE")
    yield
    set_option(office, REGION, "ooSetupSystemLocale", before)


def test_where_a_comma_is_the_decimal_sign(office, decimal_commas, demo_file, tmp_path):
    demo = office.load(demo_file)
    user = User(office, demo)
    user.type(input_at(demo, "stays", "fittings", 0), "12,5")
    user.type(input_at(demo, "stays", "fittings", 1), "12,5 mm")
    user.type(input_at(demo, "tangs", "top_own", 2), "3,5 cm")
    assert [input_at(demo, "stays", "fittings", at).Value for at in (0, 1)] == [12.5, 0]
    assert_sound(demo)
    user.type(named.cells(demo, "boat_margin"), "9,5")
    assert_sound(demo)
    check = named.words(demo, "stays", "cap shroud, port")
    margin = math.floor(input_at(demo, "stays", "margin", 0).Value * 100) / 100
    assert f"safety factor {margin:.2f}; must be 9,50".replace(".", ",", 1) in check
    for ending in ("ods", "xlsx"):
        path = tmp_path / f"comma.{ending}"
        office.store(demo, path)
        again = office.load(path)
        office.recalculate(again)
        assert_sound(again)
        assert named.words(again, "stays", "cap shroud, port") == check
        office.close(again)
    office.close(demo)
