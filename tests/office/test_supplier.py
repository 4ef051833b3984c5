"""The supplier's file, read as a supplier does who has neither the boat nor the extension."""

import re
import zipfile
from fractions import Fraction

import pytest

from tests.office import named, oracle
from tests.office.user import User

openpyxl = pytest.importorskip("openpyxl")
pytestmark = pytest.mark.office

HEADER = 5
INCH, POUND_FORCE = 25.4, 0.0044482216152605  # mm, kN; exact, NIST SP 811 appendix B


@pytest.fixture
def export(extension_file):
    from extension.loftsheet_office import supplier

    return supplier.export


@pytest.fixture
def refusal(extension_file):
    from extension.loftsheet_office import supplier

    return supplier.Refused


def lists(path):
    """Every list of the file: its rows, by their headings."""
    workbook = openpyxl.load_workbook(path)
    found = {}
    for sheet in workbook.worksheets[:-1]:
        headings = [cell.value for cell in sheet[HEADER]]
        rows = sheet.iter_rows(min_row=HEADER + 1, values_only=True)
        found[sheet.title] = {row[0]: dict(zip(headings, row)) for row in rows}
    return found


def test_values_only_and_the_order_first(demo, export, tmp_path):
    path = tmp_path / "order.xlsx"
    export(demo, path)
    workbook = openpyxl.load_workbook(path)
    assert workbook.sheetnames == ["Order", "Make-up list", "Tang cutting list", "Assumptions and cautions"]
    cells = [cell for sheet in workbook for row in sheet.iter_rows() for cell in row]
    assert {cell.data_type for cell in cells} <= {"s", "inlineStr", "n"}
    assert [cell for cell in cells if cell.hyperlink] == []
    assert list(workbook.defined_names) == []
    with zipfile.ZipFile(path) as packed:
        parts = packed.namelist()
        words = "".join(packed.read(part).decode() for part in parts if part.endswith((".xml", ".rels")))
    assert [part for part in parts if re.search("external|connection|macro|vba|query|custom", part, re.I)] == []
    assert "TargetMode" not in words
    assert "ORG.LOFTSHEET" not in words.upper().replace(" ", "")


def test_quantities_are_those_that_the_rows_come_to(demo, export, tmp_path):
    path = tmp_path / "order.xlsx"
    export(demo, path)
    due = {row.text("name"): row for row in oracle.Schedule(demo).rows("order") if row.quantity}
    order = lists(path)["Order"]
    assert list(order) == list(due)
    for name, row in due.items():
        assert order[name]["Quantity"] == row.quantity
        assert order[name]["Unit"] == row.unit
        assert order[name]["Longest piece, mm"] == (pytest.approx(row.longest, abs=0.051) if row.longest else None)
    assert all(row["Your price per unit"] is row["Your lead time, days"] is None for row in order.values())
    assert 0 in [row.quantity for row in oracle.Schedule(demo).rows("order")]


def test_the_lists_say_what_to_make(demo, export, tmp_path):
    path = tmp_path / "order.xlsx"
    export(demo, path)
    schedule, found = oracle.Schedule(demo), lists(path)
    assert list(found["Make-up list"]) == [stay.text("name") for stay in schedule.rows("stays")]
    for stay in schedule.rows("stays"):
        row = found["Make-up list"][stay.text("name")]
        assert (row["Number"], row["Rope"], row["Sleeve"]) == (stay.number("number"), stay.rope, stay.sleeve)
        sizes = {"Rope to cut": stay.cut, "Throat to throat": stay.span, "Upper eye, flat": stay.upper_eye}
        for heading, size in sizes.items():
            assert row[f"{heading}, mm"] == pytest.approx(size, abs=0.51)
        assert row["… under a tension of, kN"] == pytest.approx(stay.pretension, abs=0.051)
    assert list(found["Tang cutting list"]) == [stub.text("name") for stub in schedule.rows("tangs")]
    for stub in schedule.rows("tangs"):
        row = found["Tang cutting list"][stub.text("name")]
        sizes = {"Hole below top of sawn face": stub.hole, "Long side, below": stub.base, "Drill": stub.bolt_hole}
        for heading, size in sizes.items():
            assert row[f"{heading}, mm"] == pytest.approx(size, abs=0.051)


def test_inches_and_pounds(demo, export, tmp_path):
    metric, imperial = tmp_path / "metric.xlsx", tmp_path / "imperial.xlsx"
    export(demo, metric)
    export(demo, imperial, units="inches and pounds")
    for title in ("Make-up list", "Tang cutting list"):
        both = zip(lists(metric)[title].values(), lists(imperial)[title].values())
        for plain, shown in both:
            for (heading, value), words in zip(plain.items(), shown.values()):
                if heading.endswith(", mm"):
                    assert abs(in_inches(words) * INCH - value) <= INCH / 64 + 0.51, heading
                elif heading.endswith(", kN"):
                    pounds = float(re.fullmatch(r"(\d+) lbf", words)[1])
                    assert pounds * POUND_FORCE == pytest.approx(value, abs=0.06), heading
                else:
                    assert words == value, heading


def in_inches(words):
    """ "1 3/8 in" as a number; a thirty-second is the finest fraction."""
    parts = re.fullmatch(r"([\d /]+) in", words)[1].split()
    assert all(Fraction(part).denominator in (1, 2, 4, 8, 16, 32) for part in parts)
    return float(sum(Fraction(part) for part in parts))


@pytest.mark.parametrize("first", "=+-@")
def test_a_text_that_starts_like_a_formula_stays_a_text(demo, export, tmp_path, first):
    text = f"{first}1+2"
    for cell in (named.cell(demo, "stays", "name", "backstay leg"), named.cells(demo, "boat_name")):
        cell.String = text
    named.cells(demo, "boat_note").String = text
    for at, name in enumerate(named.column(demo, "order_name")):
        if name:
            named.cells(demo, "order_note").getCellByPosition(0, at).String = text
    path = tmp_path / "order.xlsx"
    export(demo, path)
    workbook = openpyxl.load_workbook(path)
    held = [cell for sheet in workbook for row in sheet.iter_rows() for cell in row if text in str(cell.value)]
    assert len(held) > len(lists(path)["Order"])
    assert {cell.data_type for cell in held} == {"s"}
    assert all(cell.quotePrefix for cell in held if cell.value == text)


def test_one_input_changes_schedule_and_order(office, demo, export, tmp_path):
    before, after = tmp_path / "before.xlsx", tmp_path / "after.xlsx"
    export(demo, before)
    cut = named.cell(demo, "stays", "cut", "forestay").Value
    User(office, demo).type(named.cells(demo, "boat_bury"), "90")
    export(demo, after)
    first, then = lists(before), lists(after)
    # The forestay's rope is 12 mm thick; two buries of 18 diameters more, each with a tenth of take-up.
    longer = 2 * 1.1 * 18 * 12
    assert named.cell(demo, "stays", "cut", "forestay").Value == pytest.approx(cut + longer)
    assert then["Make-up list"]["forestay"]["Rope to cut, mm"] == round(cut + longer)
    rope = "HMPE 12-strand 12 mm"
    assert then["Order"][rope]["Quantity"] > first["Order"][rope]["Quantity"]
    assert oracle.differences(demo) == []


WRONG = {
    "a stay's number is blank": (("stays", "number", "forestay"), "", "forestay: mend Number: it is blank"),
    "a rope is misspelt": (("stays", "rope_own", "forestay"), "HMPE", "forestay: mend Rope, own: it is not in"),
    "a stub's hole is outside": (("tangs", "hole_own", "runner stub, port"), "299", "runner stub, port: mend err"),
    "a rod's length is no number": (("rod", "stock", "FR-4 rod 50 mm"), "long", "FR-4 rod 50 mm: mend Stock len"),
    "an item has another name": (("order", "name", "FR-4 rod 50 mm"), "rod", "rod: mend the item: it is not in"),
    "an item is gone": (("order", "name", "FR-4 rod 50 mm"), "", "an item is missing from Order"),
    "a price is an error": (("order", "price", "FR-4 rod 50 mm"), "=1/0", "mend Price: it is an error"),
}


@pytest.mark.parametrize("wrong", WRONG)
def test_refused_with_what_is_wrong(office, demo, export, refusal, tmp_path, wrong):
    place, typed, words = WRONG[wrong]
    cell = named.cell(demo, *place)
    if typed:
        User(office, demo).type(cell, typed)
    else:
        cell.clearContents(1 | 2 | 4 | 16)
    with pytest.raises(refusal, match="Nothing was written") as refused:
        export(demo, tmp_path / "order.xlsx")
    assert words in str(refused.value)
    assert list(tmp_path.iterdir()) == []


def test_refused_with_the_cells_that_are_errors(office, demo, export, refusal, tmp_path):
    cell = named.cell(demo, "points", "out", "stem head")
    cell.String = "somewhere"
    with pytest.raises(refusal) as refused:
        export(demo, tmp_path / "order.xlsx")
    order = named.cells(demo, "order_quantity").AbsoluteName.split(".")[0].strip("$'")
    assert "stem head: mend Out: a number of -40000 to 40000 mm is due" in str(refused.value)
    assert re.search(rf"{order}\.[A-Z]+\d+ is an error", str(refused.value))


def test_refused_for_an_assumption(demo, export, refusal, tmp_path):
    named.cells(demo, "boat_waste").String = ""
    with pytest.raises(refusal, match="Boat: mend Waste at each end: it is blank"):
        export(demo, tmp_path / "order.xlsx")


def test_nothing_half_written_remains(demo, export, tmp_path, monkeypatch):
    gone = tmp_path / "gone" / "order.xlsx"
    with pytest.raises(OSError):
        export(demo, gone)
    path = tmp_path / "order.xlsx"
    path.write_bytes(b"the one before")

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(openpyxl.Workbook, "save", full)
    with pytest.raises(OSError):
        export(demo, path)
    assert path.read_bytes() == b"the one before"
    assert [file.name for file in tmp_path.iterdir()] == ["order.xlsx"]


def test_never_over_the_schedule_itself(office, demo, refusal, tmp_path):
    """Nor by another way to the same folder."""
    from extension.loftsheet_office import export
    from extension.loftsheet_office.refusal import Refusal

    folder, way = tmp_path / "boat", tmp_path / "way"
    folder.mkdir()
    way.symlink_to(folder)
    office.store(demo, folder / "book.xlsx")
    book = office.load(folder / "book.xlsx")
    for path in (folder / "book.xlsx", way / "book.xlsx"):
        with pytest.raises(Refusal, match="the schedule's own file"):
            export.refuse_own_file(book, path)
    export.refuse_own_file(book, folder / "order.xlsx")
    office.close(book)


def test_assumptions_and_cautions_go_with_it(demo, export, tmp_path):
    from loftsheet.cautions import CAUTIONS

    path = tmp_path / "order.xlsx"
    export(demo, path)
    sheet = openpyxl.load_workbook(path)["Assumptions and cautions"]
    said = [[cell.value for cell in row] for row in sheet.iter_rows()]
    assert set(CAUTIONS) <= {row[0] for row in said}
    assert ["Righting moment at 30°", 20, "kN·m"] in [row[:3] for row in said]
    assert "Marrowick" in str(said[0]) and "EUR" in str(said[1])
