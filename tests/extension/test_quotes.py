"""What a supplier's answer is taken for: totals that do not add up and other currencies are left out and said."""

from dataclasses import dataclass, field

import pytest

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


def taken(answer):
    return {(change.item, change.heading): change.value for change in answer.fresh}


def about(answer, item):
    return [doubt for doubt in answer.doubts if doubt.startswith(item) and "not in the file" not in doubt]


@pytest.mark.parametrize("total", [None, 50, 50.04, 49.96])
def test_a_total_that_is_price_times_quantity_or_rounded_is_fine(order, total):
    answer = quotes.compare([row(price=12.5, total=total)], order, "EUR")
    assert taken(answer) == {("rope 8 mm", PRICE): 12.5}
    assert about(answer, "rope") == []


@pytest.mark.parametrize("total", [12.5, 45, 60])
def test_a_total_that_is_not_leaves_the_price_out_and_keeps_the_lead_time(order, total):
    answer = quotes.compare([row(price=12.5, total=total, lead=7)], order, "EUR")
    assert taken(answer) == {("rope 8 mm", LEAD): 7}
    (doubt,) = about(answer, "rope")
    assert "4 at 12.5 are 50" in doubt
    assert f"their total is {total:g}" in doubt


def test_a_total_without_a_price_is_asked_about(order):
    answer = quotes.compare([row(total=50)], order, "EUR")
    assert taken(answer) == {}
    assert "no price per unit" in about(answer, "rope")[0]


@pytest.mark.parametrize("currency", ["", None, "EUR", "eur", " EUR "])
def test_the_schedules_own_currency_needs_no_rate(order, currency):
    answer = quotes.compare([row(price=12.5, currency=currency)], order, "EUR")
    assert taken(answer) == {("rope 8 mm", PRICE): 12.5}
    assert answer.currencies == []


def test_another_currency_is_left_out_until_its_rate_is_given(order):
    rows = [row(price=10, currency="GBP", lead=3), row("ring 30 mm", 2, price=5)]
    answer = quotes.compare(rows, order, "EUR")
    assert answer.currencies == ["GBP"]
    assert taken(answer) == {("rope 8 mm", LEAD): 3, ("ring 30 mm", PRICE): 5}
    assert "10 GBP is not in EUR" in about(answer, "rope")[0]
    answer = quotes.compare(rows, order, "EUR", {"GBP": 1.15})
    assert taken(answer)["rope 8 mm", PRICE] == 11.5
    assert answer.currencies == []


def test_each_other_currency_is_asked_for_once(order):
    rows = [row(price=10, currency="GBP"), row("ring 30 mm", 2, price=5, currency="GBP")]
    assert quotes.compare(rows, order, "EUR").currencies == ["GBP"]


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
    assert quotes.compare(quotes.rows_of(tmp_path / "answer.xlsx"), order, currency).currencies == asked


def test_a_total_is_compared_in_the_suppliers_own_currency(order):
    answer = quotes.compare([row(price=10, total=40, currency="GBP")], order, "EUR", {"GBP": 1.15})
    assert taken(answer) == {("rope 8 mm", PRICE): 11.5}


def test_words_below_the_list_are_no_item_but_what_is_offered_besides_is_said(order):
    below = [{ITEM: "Bolts, nuts, washers", "Quantity": "M16: 4 bolts"}, row("carriage", 1, price=25)]
    answer = quotes.compare([row(price=12.5), *below], order, "EUR")
    assert about(answer, "Bolts") == []
    assert about(answer, "carriage") == ["carriage: not in Order"]
