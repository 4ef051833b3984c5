"""Read Prices Back, given in a window: by name, whatever the order of rows, and nothing without a yes."""

import pytest

from tests.office.menu.cells import frame_of, named

openpyxl = pytest.importorskip("openpyxl")
pytestmark = pytest.mark.office
TITLE = "Read Prices Back"


@pytest.fixture
def answer(tmp_path):
    """A supplier's file that was sorted, added to and cut."""
    workbook = openpyxl.Workbook()
    sheet = workbook.active
    sheet.append(["Our offer"])
    sheet.append(["Quantity", "Item", "Stock", "Your lead time, days", "Your price per unit"])
    sheet.append([1, "nothing of ours", "yes", 3, 1.0])
    sheet.append([4, "M16 A4-70", "yes", 14, 21.5])
    sheet.append([4, "FR-4 rod 60 mm", "no", None, "ask us"])
    path = tmp_path / "answer.xlsx"
    workbook.save(path)
    return path


def price(book, item, column="order_price"):
    names = book.NamedRanges.getByName("order_name").ReferredCells.DataArray
    return named(book, column, [name for (name,) in names].index(item))


def read(screen, book, path, yes):
    screen.give("readprices", frame_of(book))
    screen.choose_file(path)
    said = screen.message(TITLE, "Yes" if yes else "No")
    screen.finish()
    return said


def test_prices_come_back_by_name_and_one_undo_takes_them_away(screen, shown_demo, answer):
    rod = price(shown_demo, "FR-4 rod 60 mm").Value
    said = read(screen, shown_demo, answer, yes=True)
    assert "nothing of ours: not on Order" in said
    assert '"ask us" is not a number' in said
    assert price(shown_demo, "M16 A4-70").Value == 21.5
    assert price(shown_demo, "M16 A4-70", "order_lead").Value == 14
    assert price(shown_demo, "FR-4 rod 60 mm").Value == rod
    shown_demo.UndoManager.undo()
    assert price(shown_demo, "M16 A4-70").String == ""


def test_nothing_is_written_without_a_yes(screen, shown_demo, answer):
    read(screen, shown_demo, answer, yes=False)
    assert price(shown_demo, "M16 A4-70").String == ""
