"""The sheet Quotes: what several suppliers offer, side by side, and what is chosen of it."""

import pytest

from tests.office import named

pytestmark = pytest.mark.office

FIRST, SECOND, THIRD = "Alderholt Cordage", "Brisk Metal", "Corran Chandlery"  # invented, like their prices


@pytest.fixture
def demo(demo, shared_by_all):
    """Opened anew for each test: what writes a sheet at once is not undone."""
    yield demo
    shared_by_all.close()


@pytest.fixture
def items(demo):
    """Items of Order that are to be bought, with their quantities."""
    pairs = zip(named.column(demo, "order_name"), named.column(demo, "order_quantity"))
    return {name: many for name, many in pairs if name and isinstance(many, float) and many > 0}


def add(office, book, supplier, offers):
    from extension.loftsheet_office.supplier import quote_sheet

    quote_sheet.add(book, supplier, offers)
    office.recalculate(book)


def chosen(office, book):
    from extension.loftsheet_office.supplier import quote_sheet

    found, doubts = quote_sheet.chosen(book)
    return [[one.item, one.supplier, one.price, one.lead] for one in found], doubts


def line(book, item):
    return named.column(book, "quotes_item").index(item)


def shown(book, item, heading):
    """What a calculated cell of an item's line shows, by the heading of its column."""
    names = named.cells(book, "quotes_item")
    sheet, top = names.Spreadsheet, names.RangeAddress.StartRow
    headings = [sheet.getCellByPosition(at, top - 1).String for at in range(30)]
    return sheet.getCellByPosition(headings.index(heading), top + line(book, item)).String


def below(book, label, supplier):
    """What stands below a supplier's prices beside a label."""
    sheet = named.cells(book, "quotes_item").Spreadsheet
    end = named.cells(book, "quotes_item").RangeAddress.EndRow
    row = next(row for row in range(end, end + 9) if sheet.getCellByPosition(0, row).String == label)
    at = next(at for at in range(1, 6) if named.value(book, f"quotes_supplier_{at}") == supplier)
    return sheet.getCellByPosition(named.cells(book, f"quotes_price_{at}").RangeAddress.StartColumn, row)


def choose(book, item, supplier):
    named.cells(book, "quotes_chosen").getCellByPosition(0, line(book, item)).String = supplier


def test_each_line_says_who_is_cheapest_and_who_is_quickest(office, demo, items):
    one, two, three, *_ = items
    add(office, demo, FIRST, {one: {"price": 10.0, "lead": 20.0}, two: {"price": 5.0, "lead": 3.0}})
    add(office, demo, SECOND, {one: {"price": 12.0, "lead": 4.0}, two: {"price": 5.0}})
    assert (shown(demo, one, "Cheapest"), shown(demo, one, "Quickest")) == (FIRST, SECOND)
    assert shown(demo, two, "Cheapest") == f"{FIRST} or {SECOND}"
    assert shown(demo, two, "Quickest") == FIRST
    assert shown(demo, three, "Cheapest") == shown(demo, three, "Quickest") == ""


def test_a_total_is_of_what_is_priced_and_what_cannot_be_supplied_is_named(office, demo, items):
    one, two, *rest = items
    add(office, demo, FIRST, {one: {"price": 10.0}, two: {"price": 2.5, "lead": 9.0}})
    due = 10.0 * items[one] + 2.5 * items[two]
    assert below(demo, "Total of what is priced", FIRST).Value == pytest.approx(due)
    assert below(demo, "Items without a price", FIRST).Value == len(rest)
    assert below(demo, "… which", FIRST).String.split("; ") == rest
    assert below(demo, "Longest lead time, days", FIRST).Value == 9


def test_what_is_chosen_is_read_line_by_line(office, demo, items):
    one, two, three, *_ = items
    add(office, demo, FIRST, {one: {"price": 10.0, "lead": 20.0}, two: {"price": 5.0}})
    add(office, demo, SECOND, {one: {"price": 12.0, "lead": 4.0}})
    choose(demo, one, SECOND)
    choose(demo, two, FIRST)
    choose(demo, three, FIRST)
    office.recalculate(demo)
    found, doubts = chosen(office, demo)
    assert found == [[one, SECOND, 12.0, 4.0], [two, FIRST, 5.0, None]]
    assert doubts == [f"{three}: {FIRST} has no price for it"]
    assert shown(demo, one, "Price chosen") == "12.00"
    assert shown(demo, one, "Total chosen").replace(",", "") == f"{12 * items[one]:.2f}"


def test_a_second_answer_of_a_supplier_replaces_the_first_and_no_other(office, demo, items):
    one, two, *_ = items
    add(office, demo, FIRST, {one: {"price": 10.0}, two: {"price": 5.0}})
    add(office, demo, SECOND, {one: {"price": 9.0}})
    add(office, demo, FIRST, {one: {"price": 8.0}})
    prices = {at: named.column(demo, f"quotes_price_{at}") for at in (1, 2)}
    assert (prices[1][line(demo, one)], prices[1][line(demo, two)], prices[2][line(demo, one)]) == (8.0, "", 9.0)


def test_sorted_lines_and_columns_in_between_change_nothing(office, demo, items):
    one, two, *_ = items
    add(office, demo, FIRST, {one: {"price": 10.0}})
    sheet = named.cells(demo, "quotes_item").Spreadsheet
    sheet.Columns.insertByIndex(3, 1)
    first = named.cells(demo, "quotes_item").RangeAddress.StartRow
    sheet.Rows.insertByIndex(first + 1, 1)
    add(office, demo, SECOND, {one: {"price": 9.0}, two: {"price": 1.0}})
    assert shown(demo, one, "Cheapest") == SECOND
    choose(demo, two, SECOND)
    assert chosen(office, demo)[0] == [[two, SECOND, 1.0, None]]


def test_an_item_that_order_gets_later_gets_a_line(office, demo, items):
    one, *_ = items
    add(office, demo, FIRST, {one: {"price": 10.0}})
    cells = named.cells(demo, "order_quantity")
    row = next(
        row
        for row, (name, many) in enumerate(
            zip(named.column(demo, "order_name"), named.column(demo, "order_quantity"))
        )
        if name and many == 0
    )
    cells.getCellByPosition(0, row).Value = 3
    later = named.column(demo, "order_name")[row]
    add(office, demo, SECOND, {later: {"price": 4.0}})
    assert shown(demo, later, "Cheapest") == SECOND


def test_one_supplier_too_many_is_refused(office, demo, items):
    from extension.loftsheet_office.common.refusal import Refusal

    one, *_ = items
    for number in range(5):
        add(office, demo, f"{THIRD} {number}", {one: {"price": 10.0 + number}})
    with pytest.raises(Refusal, match="room for 5 suppliers"):
        add(office, demo, "one more", {one: {"price": 1.0}})
    assert shown(demo, one, "Cheapest") == f"{THIRD} 0"


def test_a_sheet_of_that_name_that_is_the_users_own_is_left_alone(office, demo, items):
    from extension.loftsheet_office.common.refusal import Refusal

    demo.Sheets.insertNewByName("Quotes", 0)
    with pytest.raises(Refusal, match="none of ours"):
        add(office, demo, FIRST, {next(iter(items)): {"price": 1.0}})


def test_no_cell_of_it_is_an_error_and_nothing_else_of_the_schedule_changes(office, demo, items):
    before = {key: named.column(demo, key) for key in ("order_total", "stays_check", "control_check")}
    add(office, demo, FIRST, {item: {"price": 1.5, "lead": 2.0} for item in items})
    sheet = named.cells(demo, "quotes_item").Spreadsheet
    assert sheet.queryFormulaCells(4).Count == 0  # errors
    assert {key: named.column(demo, key) for key in before} == before
