"""In an office that shows and reads numbers with a comma, all that is written and read stays the same."""

import pytest

from tests.office import named, outputs

openpyxl = pytest.importorskip("openpyxl")
pytestmark = pytest.mark.office

GERMAN = "de-DE"


@pytest.fixture
def demo_with_comma(office, demo_file):
    """The schedule of the demo boat, opened while the office speaks German."""
    from extension.office import property_values

    provider = office.create("com.sun.star.configuration.ConfigurationProvider")
    settings = provider.createInstanceWithArguments(
        "com.sun.star.configuration.ConfigurationUpdateAccess",
        property_values(nodepath="/org.openoffice.Setup/L10N"),
    )
    before = settings.getByName("ooSetupSystemLocale")
    settings.replaceByName("ooSetupSystemLocale", GERMAN)
    settings.commitChanges()
    book = office.load(demo_file)
    office.recalculate(book)
    yield book
    office.close(book)
    settings.replaceByName("ooSetupSystemLocale", before)
    settings.commitChanges()


def values(path):
    """All that stands in a supplier's file."""
    return {sheet.title: list(sheet.iter_rows(values_only=True)) for sheet in openpyxl.load_workbook(path)}


def test_it_does_show_a_comma(demo_with_comma):
    assert "," in named.cells(demo_with_comma, "stays_load").getCellByPosition(0, 0).String


@pytest.mark.parametrize("units", ["metric", "inches and pounds"])
def test_the_suppliers_file_is_the_same(office, demo_file, demo_with_comma, tmp_path, units):
    outputs.order(demo_with_comma, tmp_path / "comma.xlsx", units=units)
    plain = office.load(demo_file)
    office.recalculate(plain)
    outputs.order(plain, tmp_path / "point.xlsx", units=units)
    office.close(plain)
    assert values(tmp_path / "comma.xlsx") == values(tmp_path / "point.xlsx")


def test_prices_are_read_back_as_they_are(demo_with_comma):
    from extension.loftsheet_office.supplier import quotes

    columns = {key: named.cells(demo_with_comma, f"order_{key}") for key in ("name", "quantity", "price", "lead")}
    rows = [{quotes.ITEM: "M16 A4-70", quotes.PRICE: 21.5, quotes.LEAD: 14}]
    for change in quotes.compare(quotes.offered(rows, quotes.wanted(columns)), columns).fresh:
        change.cell.Value = change.value
    at = named.column(demo_with_comma, "order_name").index("M16 A4-70")
    assert named.column(demo_with_comma, "order_price")[at] == 21.5
    assert columns["price"].getCellByPosition(0, at).String.strip().startswith("21,5")


def test_nothing_is_complained_about(demo_with_comma, tmp_path):
    from extension.loftsheet_office.workbook import faults
    from extension.loftsheet_office.workbook.named_tables import Tables

    with outputs.columns_as_packed(tmp_path):
        assert [fault.line() for fault in faults.find(Tables(demo_with_comma))] == []
