"""Add a Quote and Take Chosen Quotes, given in a window: side by side, and nothing in Order without a yes."""

import pytest

from tests.office.menu.cells import frame_of, named
from tests.office.menu.test_read_prices import PRICED, answer, cell

pytest.importorskip("openpyxl")
pytestmark = pytest.mark.office

ADD, TAKE = "Add a Quote", "Take Chosen Quotes"
BLANK = "isolating pad"  # without a price in the demo
FIRST, SECOND = "Alderholt Cordage", "Brisk Metal"  # invented, like their prices


@pytest.fixture
def shown_demo(shown_demo, demo_window):
    """Opened anew for each test: to take a sheet back takes longer."""
    yield shown_demo
    demo_window.close()


@pytest.fixture
def path(tmp_path):
    return tmp_path / "answer.xlsx"


def add(screen, book, path, supplier, rows, after=()):
    answer(path, rows)
    screen.give("addquote", frame_of(book))
    screen.choose_file(path)
    dialog, _, _ = screen.shown_message(ADD, "Add")
    dialog.type("Supplier", supplier)
    dialog.press("Add")
    for press in after:
        screen.message(ADD, press)
    screen.finish()


def choose(book, item, supplier):
    names = [name for (name,) in book.NamedRanges.getByName("quotes_item").ReferredCells.DataArray]
    named(book, "quotes_chosen", names.index(item)).String = supplier


def test_two_quotes_stand_side_by_side_and_order_takes_what_was_chosen(screen, shown_demo, path):
    add(screen, shown_demo, path, FIRST, [(3, BLANK, "", 14, 21.5), (1, "carriage", "", None, 9.0)])
    add(screen, shown_demo, path, SECOND, [(3, BLANK, "", 3, 25.0), (1, PRICED, "", 5, 60.0)])
    assert cell(shown_demo, BLANK).String == ""
    choose(shown_demo, BLANK, SECOND)
    old = cell(shown_demo, PRICED).Value
    choose(shown_demo, PRICED, SECOND)
    screen.give("takequotes", frame_of(shown_demo))
    dialog, _, _ = screen.shown_message(TAKE, "Replace")
    dialog.press("Fill Blanks Only")
    screen.finish()
    assert (cell(shown_demo, BLANK).Value, cell(shown_demo, BLANK, "supplier").String) == (25.0, SECOND)
    assert cell(shown_demo, PRICED).Value == old


def test_a_suppliers_second_quote_replaces_the_first_only_with_a_yes(screen, shown_demo, path):
    add(screen, shown_demo, path, FIRST, [(3, BLANK, "", 14, 21.5)])
    prices = shown_demo.NamedRanges.getByName("quotes_price_1").ReferredCells
    for press, due in (("No", 21.5), ("Yes", 19.0)):
        add(screen, shown_demo, path, FIRST, [(3, BLANK, "", 14, 19.0)], [press])
        assert due in [price for (price,) in prices.DataArray]


def test_nothing_chosen_and_no_quotes_are_said(screen, shown_demo, path):
    screen.give("takequotes", frame_of(shown_demo))
    assert "There is no sheet Quotes yet" in screen.message(TAKE)
    screen.finish()
    add(screen, shown_demo, path, FIRST, [(3, BLANK, "", 14, 21.5)])
    screen.give("takequotes", frame_of(shown_demo))
    assert "Nothing is chosen on Quotes" in screen.message(TAKE)
    screen.finish()


def test_a_damaged_file_and_one_that_offers_nothing_are_said(screen, shown_demo, path):
    path.write_text("a list in words")
    screen.give("addquote", frame_of(shown_demo))
    screen.choose_file(path)
    assert "cannot be read as an .xlsx spreadsheet" in screen.message(ADD)
    screen.finish()
    answer(path, [(1, "nothing of ours", "", 3, 1.0)])
    screen.give("addquote", frame_of(shown_demo))
    screen.choose_file(path)
    assert "offers nothing that Order wants" in screen.message(ADD)
    screen.finish()


def test_the_preview_says_what_is_left_out_what_is_lacking_and_what_is_offered():
    from extension.loftsheet_office.commands.add_quote import report
    from extension.loftsheet_office.supplier.quotes import Offers

    offers = Offers({"rope": {"price": 4.5, "lead": 7.0}, "ring": {"lead": 3.0}}, ["carriage: not in Order"])
    lines = report(["rope", "ring", "bolt"], offers)
    assert lines[:2] == ["Left out:", "  carriage: not in Order"]
    assert lines[3:6] == ["No price for 2 of 3 items:", "  ring", "  bolt"]
    assert lines[7:10] == ["Offered:", "  rope: 4.5, 7 days", "  ring: 3 days"]
