"""What a supplier's answer is taken for: totals that do not add up and other currencies are left out and said."""

from dataclasses import dataclass, field

import pytest

from extension.loftsheet_office.common.refusal import Refusal
from extension.loftsheet_office.supplier import quotes
from extension.loftsheet_office.supplier.lists import CURRENCY, ITEM, LEAD, PRICE, TOTAL


@dataclass
class Cell:
    Value: float = 0.0
    String: str = ""

    @property
    def DataArray(self):
        return ((self.Value if self.String else "",),)


@dataclass
class Column:
    cells: list = field(default_factory=list)

    @property
    def DataArray(self):
        return tuple((cell.String,) for cell in self.cells)

    def getCellByPosition(self, _, row):
        return self.cells[row]


@pytest.fixture
def order():
    names = ("rope 8 mm", "ring 30 mm")
    return {
        "name": Column([Cell(String=name) for name in names]),
        "quantity": Column([Cell(4.0, "4"), Cell(2.0, "2")]),
        "price": Column([Cell(), Cell()]),
        "lead": Column([Cell(), Cell()]),
    }


def row(item="rope 8 mm", quantity=4, **more):
    headings = {"price": PRICE, "total": TOTAL, "lead": LEAD, "currency": CURRENCY}
    return {ITEM: item, "Quantity": quantity, **{headings[key]: value for key, value in more.items()}}


def offered(rows, order, *more):
    return quotes.offered(rows, quotes.wanted(order), *more)


def compare(rows, order, *more):
    return quotes.compare(offered(rows, order, *more), order)


def taken(answer):
    return {(change.item, change.heading): change.value for change in answer.fresh}


def about(answer, item):
    return [doubt for doubt in answer.doubts if doubt.startswith(item) and "not in the file" not in doubt]


@pytest.mark.parametrize("total", [None, 50, 50.04, 49.96])
def test_a_total_that_is_price_times_quantity_or_rounded_is_fine(order, total):
    answer = compare([row(price=12.5, total=total)], order, "EUR")
    assert taken(answer) == {("rope 8 mm", PRICE): 12.5}
    assert about(answer, "rope") == []


@pytest.mark.parametrize("total", [12.5, 45, 60])
def test_a_total_that_is_not_leaves_the_price_out_and_keeps_the_lead_time(order, total):
    answer = compare([row(price=12.5, total=total, lead=7)], order, "EUR")
    assert taken(answer) == {("rope 8 mm", LEAD): 7}
    (doubt,) = about(answer, "rope")
    assert "4 at 12.5 are 50" in doubt
    assert f"their total is {total:g}" in doubt


def test_a_total_without_a_price_is_asked_about(order):
    answer = compare([row(total=50)], order, "EUR")
    assert taken(answer) == {}
    assert "no price per unit" in about(answer, "rope")[0]


@pytest.mark.parametrize("currency", ["", None, "EUR", "eur", " EUR "])
def test_the_schedules_own_currency_needs_no_rate(order, currency):
    answer = compare([row(price=12.5, currency=currency)], order, "EUR")
    assert taken(answer) == {("rope 8 mm", PRICE): 12.5}
    assert offered([row(price=12.5, currency=currency)], order, "EUR").currencies == []


def test_another_currency_is_left_out_until_its_rate_is_given(order):
    rows = [row(price=10, currency="GBP", lead=3), row("ring 30 mm", 2, price=5)]
    answer = compare(rows, order, "EUR")
    assert offered(rows, order, "EUR").currencies == ["GBP"]
    assert taken(answer) == {("rope 8 mm", LEAD): 3, ("ring 30 mm", PRICE): 5}
    assert "10 GBP is not in EUR" in about(answer, "rope")[0]
    answer = compare(rows, order, "EUR", {"GBP": 1.15})
    assert taken(answer)["rope 8 mm", PRICE] == 11.5
    assert offered(rows, order, "EUR", {"GBP": 1.15}).currencies == []


def test_each_other_currency_is_asked_for_once(order):
    rows = [row(price=10, currency="GBP"), row("ring 30 mm", 2, price=5, currency="GBP")]
    assert offered(rows, order, "EUR").currencies == ["GBP"]


@pytest.mark.parametrize(
    ("head", "currency", "asked"),
    [
        ("Revision A. Currency: USD. Questions to: nobody.", "EUR", ["USD"]),
        ("Revision A. Currency: EUR. Questions to: nobody.", "EUR", []),
        ("Revision A. Currency: kr.. Questions to: nobody.", "kr.", []),
        ("Revision A. Currency: -. Questions to: nobody.", "", []),
        ("Revision A.", "EUR", []),
    ],
)
def test_the_currency_at_the_head_of_the_file_is_that_of_all_its_prices(order, tmp_path, head, currency, asked):
    openpyxl = pytest.importorskip("openpyxl")
    book = openpyxl.Workbook()
    for line in ([head], [ITEM, "Quantity", PRICE, CURRENCY], ["rope 8 mm", 4, 10, None]):
        book.active.append(line)
    book.save(tmp_path / "answer.xlsx")
    assert offered(quotes.rows_of(tmp_path / "answer.xlsx"), order, currency).currencies == asked


def test_a_total_is_compared_in_the_suppliers_own_currency(order):
    answer = compare([row(price=10, total=40, currency="GBP")], order, "EUR", {"GBP": 1.15})
    assert taken(answer) == {("rope 8 mm", PRICE): 11.5}


def test_words_below_the_list_are_no_item_but_what_is_offered_besides_is_said(order):
    below = [{ITEM: "Bolts, nuts, washers", "Quantity": "M16: 4 bolts"}, row("carriage", 1, price=25)]
    answer = compare([row(price=12.5), *below], order, "EUR")
    assert about(answer, "Bolts") == []
    assert about(answer, "carriage") == ["carriage: not in Order"]


@pytest.mark.parametrize("name", ["Rope 8 mm", "  rope  8 mm "])
def test_an_item_that_was_retyped_is_still_that_item(order, name):
    assert taken(compare([row(name, price=12.5)], order, "EUR")) == {("rope 8 mm", PRICE): 12.5}


def test_headings_that_were_retyped_are_still_those(order, tmp_path):
    book = pytest.importorskip("openpyxl").Workbook()
    book.active.append(["item", "QUANTITY", "Your  Price per unit "])
    book.active.append(["rope 8 mm", 4, 12.5])
    book.save(tmp_path / "answer.xlsx")
    rows = quotes.rows_of(tmp_path / "answer.xlsx")
    assert taken(compare(rows, order, "EUR")) == {("rope 8 mm", PRICE): 12.5}


def test_another_quantity_is_said_and_the_price_per_unit_is_taken(order):
    answer = compare([row(quantity=100, price=12.5)], order, "EUR")
    assert answer.remarks == ["rope 8 mm: quoted for 100, and Order wants 4"]
    assert taken(answer) == {("rope 8 mm", PRICE): 12.5}


def test_one_rate_serves_a_currency_however_it_is_written(order):
    rows = [row(price=10, currency="GBP"), row("ring 30 mm", 2, price=20, currency="gbp")]
    assert offered(rows, order, "EUR").currencies == ["GBP"]
    assert taken(compare(rows, order, "EUR", {"GBP": 1.15})) == {
        ("rope 8 mm", PRICE): 11.5,
        ("ring 30 mm", PRICE): 23.0,
    }


@pytest.mark.parametrize("content", [b"", b"a list in words", b"\xd0\xcf\x11\xe0" + bytes(600)])
def test_what_is_damaged_locked_or_of_another_kind_is_refused_in_plain_words(tmp_path, content):
    (tmp_path / "answer.xlsx").write_bytes(content)
    with pytest.raises(Refusal, match="damaged, protected by a password or of another kind"):
        quotes.rows_of(tmp_path / "answer.xlsx")
