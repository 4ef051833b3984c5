"""The supplier's file, read as a supplier does who has neither the boat nor the extension."""

import math
import re
import zipfile
from fractions import Fraction
from functools import partial
from itertools import takewhile
from pathlib import Path

import pytest
from loftsheet.version import __version__

from templates import choices
from tests import inside
from tests.inside import written
from tests.office import named, oracle
from tests.office import paper as pdf
from tests.office.user import User

openpyxl = pytest.importorskip("openpyxl")
pytestmark = pytest.mark.office

HEADER = 5
NAMES = ("Item", "Stay", "Loop at", "Stub")  # first heading of each table
INCH, POUND_FORCE = 25.4, 0.0044482216152605  # mm, kN; exact, NIST SP 811 appendix B


@pytest.fixture
def export(office):
    return partial(inside.run, office, written.order)


@pytest.fixture
def refusal(extension_file):
    from extension.loftsheet_office.common.refusal import Refusal

    return Refusal


def tables(sheet):
    """Every table of a sheet: its rows by the names in the first column, each by the headings."""
    rows = list(sheet.iter_rows(values_only=True))
    for at, headings in enumerate(rows):
        if headings[0] in NAMES:
            width = headings.index(None) if None in headings else len(headings)
            below = takewhile(lambda row: row[0] is not None, rows[at + 1 :])
            yield {row[0]: dict(zip(headings[:width], row)) for row in below}


def lists(path):
    """Every list of the file: its rows, with the columns of all of its tables."""
    found = {}
    for sheet in openpyxl.load_workbook(path).worksheets[:-1]:
        for table in tables(sheet):
            for name, row in table.items():
                found.setdefault(sheet.title.removesuffix(" 2"), {}).setdefault(name, {}).update(row)
    return found


def words(path, title):
    """What is said below the tables of a list, by what it is said about."""
    rows = openpyxl.load_workbook(path)[title].iter_rows(min_row=HEADER + 1, max_col=2, values_only=True)
    return {row[0]: row[1] for row in rows if row[0] and isinstance(row[1], str)}


def test_values_only_and_the_order_first(demo, export, tmp_path):
    path = tmp_path / "order.xlsx"
    export(demo, path)
    workbook = openpyxl.load_workbook(path)
    assert workbook.sheetnames == [
        "Order",
        "Make-up list",
        "Rope loops",
        "Stub cutting list",
        "Assumptions and cautions",
    ]
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
        assert order[name]["Longest piece, mm"] == (pytest.approx(row.longest, abs=0.5) if row.longest else None)
    assert all(row["Your price per unit"] is row["Your lead time, days"] is None for row in order.values())
    assert 0 in [row.quantity for row in oracle.Schedule(demo).rows("order")]


def test_the_make_up_list_says_what_a_splicer_needs(demo, export, tmp_path):
    path = tmp_path / "order.xlsx"
    export(demo, path)
    schedule, found = oracle.Schedule(demo), lists(path)["Make-up list"]
    assert list(found) == [stay.text("name") for stay in schedule.rows("stays")]
    for stay in schedule.rows("stays"):
        row = found[stay.text("name")]
        assert (row["Number"], row["Rope"]) == (stay.number("number"), stay.rope)
        assert (row["Sleeve, on both eyes"], row["Lashing line"]) == (stay.sleeve, stay.line)
        assert row["Parts of the lashing"] == stay.parts
        sizes = {"Rope to cut": stay.cut, "Throat to throat": stay.span, "Line for one lashing": stay.line_each}
        eyes = {"Upper eye, flat": stay.upper_eye, "Lower eye, flat": stay.lower_eye}
        for heading, size in {**sizes, **eyes, "Bury": stay.bury, "of it tapered": stay.taper}.items():
            assert row[f"{heading}, mm"] == pytest.approx(size, abs=0.51)
        assert row["… under a tension of, kN"] == pytest.approx(stay.pretension, abs=0.051)
        assert row["Rope's diameter, mm"] == pytest.approx(stay.rope_size, abs=0.051)
        for end, over in (("Upper", stay.text("upper_over")), ("Lower", stay.text("lower_over"))):
            assert row[f"{end} eye over"] == over
            assert (row[f"{end} ring"] is not None) == (over == "ring")
    groove = {row.text("name"): row.measure("groove", "mm") for row in schedule.rows("ring")}
    assert found["forestay"]["Upper ring"] == "ring 40 mm"
    assert found["forestay"]["Upper diameter, mm"] == groove["ring 40 mm"]
    stub = schedule.row("tangs", "cap stub, port")
    assert found["cap shroud, port"]["Upper diameter, mm"] == stub.rod_size


def test_the_loops_that_are_chainplates_are_told_to_whom_makes_them(demo, export, tmp_path):
    path = tmp_path / "order.xlsx"
    export(demo, path)
    found = lists(path)["Rope loops"]
    assert list(found) == ["runner chainplate, port", "runner chainplate, starboard"]
    row = found["runner chainplate, port"]
    assert (row["Number"], row["Rope"], row["Turns"], row["Loop round"]) == (1, "HMPE 12-strand 7 mm", 4, "bar")
    # Round a bar of 25 mm and a ring in whose groove it lies, 150 mm apart: two straight legs and two arcs.
    ring = named.cell(demo, "chainplates", "ring", "runner chainplate, port").String
    groove = named.cell(demo, "ring", "groove", ring).Value
    lean = math.asin((groove - 25) / 2 / 150)
    legs = 2 * 150 * math.cos(lean) + groove / 2 * (math.pi + 2 * lean) + 25 / 2 * (math.pi - 2 * lean)
    assert row["Inside, laid flat, mm"] == pytest.approx(legs / 2, abs=0.51)
    assert row["Bury, each tail, mm"] == 72 * 7
    said = words(path, "Rope loops")
    assert "the ends cross a bury behind the tip" in said["Marks, from either end"]
    assert said["Ropes"].startswith("HMPE 12-strand 7 mm: measured and marked under 0.07 kN")  # 0.00138 × 7² kN


def test_a_boat_without_a_loop_has_no_list_of_loops(demo, export, tmp_path):
    for side in ("port", "starboard"):
        named.cell(demo, "chainplates", "made_of", f"runner chainplate, {side}").String = "metal"
    demo.calculateAll()
    export(demo, tmp_path / "order.xlsx")
    assert "Rope loops" not in openpyxl.load_workbook(tmp_path / "order.xlsx").sheetnames


def test_wire_that_stays_is_in_no_list_and_on_no_page(office, demo, export, tmp_path):
    named.cell(demo, "stays", "made_of", "forestay").String = "existing wire"
    demo.calculateAll()
    export(demo, tmp_path / "order.xlsx")
    found = lists(tmp_path / "order.xlsx")
    assert "forestay" not in found["Make-up list"] and "inner forestay" in found["Make-up list"]
    assert "HMPE 12-strand 11 mm" not in found["Order"]  # nothing else is made of it
    bench = inside.run(office, written.bench_pages, office.desktop, demo, tmp_path / "bench.pdf")
    assert bench == {}
    pages = [page.text.lstrip() for page in pdf.pages(tmp_path / "bench.pdf")]
    assert [page for page in pages if page.startswith("forestay")] == []
    assert [page for page in pages if page.startswith("inner forestay")] != []


def test_the_make_up_list_says_how_it_is_measured(demo, export, tmp_path):
    named.cells(demo, "boat_gather").Value = 0.07  # times 100 it is 7.000000000000001
    named.cells(demo, "boat_waste").Value = 40
    demo.calculateAll()
    path = tmp_path / "order.xlsx"
    export(demo, path)
    said = words(path, "Make-up list")
    assert "twice its length laid flat and 7 % more" in said["Sleeve"]
    assert "40 mm at each end" in said["Waste"]
    how = openpyxl.load_workbook(path)["Make-up list"].cell(HEADER - 1, 2).value
    for part in ("at the tension shown, after bedding in", "half the rope between its two throat marks"):
        assert part in how
    assert "job card" not in " ".join(cell for row in said.items() for cell in row)
    ropes = {line.split(":")[0]: line for line in said["Ropes"].split("\n")}
    assert set(ropes) == {row["Rope"] for row in lists(path)["Make-up list"].values()}
    # 0.00138 × 10² kN is 14 kg; the trial of Marrowick's 10 mm rope is invented.
    assert "under 0.14 kN (14 kg hung on)" in ropes["HMPE 12-strand 10 mm"]
    assert "take-up 9.7 %, lasting set 1.2 %, by a trial splice" in ropes["HMPE 12-strand 10 mm"]


def test_the_tang_list_says_what_to_saw_drill_and_assemble(demo, export, tmp_path):
    path = tmp_path / "order.xlsx"
    export(demo, path)
    schedule, found = oracle.Schedule(demo), lists(path)["Stub cutting list"]
    assert list(found) == [stub.text("name") for stub in schedule.rows("tangs")]
    for stub in schedule.rows("tangs"):
        row = found[stub.text("name")]
        sizes = {
            "Hole below top of bevelled face": stub.hole,
            "Comes out below top of square end": stub.exit,
            "Bevelled face, height": stub.rod_size / math.cos(math.radians(stub.bevel)),
            "Long side, below": stub.base,
            "Short side, on top": stub.top,
            "Drill": stub.bolt_hole,
            "Bolt length": stub.bolt_length,
            "Plain shank": stub.shank,
            "Tapered washer, outside diameter": stub.washer,
            "Tapered washer, thick edge": stub.wedge,
            "End plate, drawn out upwards by": stub.rise,
            "Pad, hollow to fill": stub.saddle,
            "Compression tube, length": stub.mast_width - 2 * stub.wall,
        }
        for heading, size in sizes.items():
            assert row[f"{heading}, mm"] == pytest.approx(size, abs=0.051), heading
        # The tape round half a circle above, half a circle below and two straight sides between.
        girth = math.pi * row["Diameter, mm"] + 2 * row["End plate, drawn out upwards by, mm"]
        assert row["End plate, around, mm"] == pytest.approx(girth, abs=0.7)
        # A wedge under a circle: thick edge less thin edge over the diameter is the bevel's slope.
        slope = (row["Tapered washer, thick edge, mm"] - 1.5) / row["Tapered washer, outside diameter, mm"]
        assert math.degrees(math.atan(slope)) == pytest.approx(row["Bevel, °"], abs=0.15)


def test_the_bolts_of_the_tang_list_are_those_of_the_order(demo, export, tmp_path):
    path = tmp_path / "order.xlsx"
    export(demo, path)
    found, said = lists(path), words(path, "Order")["Bolts, nuts, washers"]
    fixings = {line.split(",")[0]: line for line in said.split("\n")}
    stubs = found["Stub cutting list"].values()
    assert {row["Stubs on one bolt"] for row in stubs} == {2}
    bolts = {row["Bolt"] for row in stubs}
    assert len(bolts) == 3
    for bolt in bolts:
        share = [row["Bolts"] for row in stubs if row["Bolt"] == bolt]
        assert set(share) == {0.5}
        assert sum(share) == found["Order"][bolt]["Quantity"]
        mine = [row for row in stubs if row["Bolt"] == bolt]
        assert f": {sum(share):g} bolt" in fixings[bolt]
        size = float(bolt.split()[0].removeprefix("M"))
        nuts = f"; {2 * sum(share):g} self-locking nuts, one at each end, of the bolt's thread and class"
        assert f"{nuts}, {1.2 * size:g} mm high at most" in fixings[bolt]
        assert f"; {2 * sum(share):g} flat washers, 3 mm thick" in fixings[bolt]
        assert f"bore as your catalogue for a bolt of {size:g} mm" in fixings[bolt]
        assert f"; {len(mine)} tapered washers" in fixings[bolt]
        edges = [row["Tapered washer, thick edge, mm"] for row in mine]
        assert all(f"{edges.count(edge)} of {edge:g} mm" in fixings[bolt] for edge in edges)
        sizes = {
            size: sum(row["Bolts"] for row in mine if row["Bolt length, mm"] == size)
            for size in {row["Bolt length, mm"] for row in mine}
        }
        if any(many % 1 for many in sizes.values()):
            assert "lengths: stub list, the larger where two rows share a bolt" in fixings[bolt]
        else:
            assert all(f"{many:g} of {size:g} mm, plain shank" in fixings[bolt] for size, many in sizes.items())
            for size in sizes:
                plain = max(row["Plain shank, mm"] for row in mine if row["Bolt length, mm"] == size)
                assert f"plain shank {plain:g} mm, thread {(size - plain) / 2:g} mm at each end" in fixings[bolt]
    assert set(fixings) == bolts
    assert sum(row["Bolts"] for row in stubs) * 2 == found["Order"]["self-locking nut"]["Quantity"]
    assert "2 on each bolt" in words(path, "Stub cutting list")["Nuts"]
    assert "half a bolt each" in words(path, "Stub cutting list")["Assemble"]


def test_what_is_the_same_for_all_stubs_comes_from_boat(demo, export, tmp_path):
    for key, value in {"plate": 5, "thin": 1.8, "flat": 2.5, "pad": 1.5, "nuts": 4}.items():
        named.cells(demo, f"boat_{key}").Value = value
    demo.calculateAll()
    path = tmp_path / "order.xlsx"
    export(demo, path)
    said = words(path, "Stub cutting list")
    assert said["End plate"].startswith("FR-4 sheet, 5 mm thick:")
    assert said["Tapered washer"].startswith("Thin edge 1.8 mm,")
    assert said["Flat washer"].startswith("2.5 mm thick")
    assert "1.5 mm thick in the middle" in said["Pad"]
    assert said["Nuts"].startswith("4 on each bolt")
    assert ": 1 bolt (" in (fixings := words(path, "Order")["Bolts, nuts, washers"])
    assert "; 4 nuts, two at each end, the second locks the first, of the bolt's thread and class, " in fixings
    assert "; 2 flat washers, 2.5 mm thick" in fixings
    export(demo, path, units="inches and pounds")
    assert words(path, "Stub cutting list")["End plate"].startswith("FR-4 sheet, 0.197 in thick:")  # 5 mm


def test_a_wall_that_is_not_measured_is_said_in_place_of_the_tubes_length(demo, export, tmp_path):
    named.cell(demo, "masts", "wall", "mast").String = ""
    demo.calculateAll()
    path = tmp_path / "order.xlsx"
    export(demo, path)
    stubs = lists(path)["Stub cutting list"].values()
    assert {row["Compression tube, length, mm"] for row in stubs} == {"wall unknown"}


ASKED = {
    "tolerance": ("Stub cutting list", "Other tolerances"),
    "faces": ("Stub cutting list", "Cut faces"),
    "tightened": ("Stub cutting list", "Nuts tightened"),
    "certificates": ("Order", "Certificates"),
    "terms": ("Order", "Your offer"),
}


def test_what_a_supplier_would_ask_is_said_as_boat_has_it(demo, export, tmp_path):
    before, after = tmp_path / "before.xlsx", tmp_path / "after.xlsx"
    export(demo, before)
    for key in ASKED:
        named.cells(demo, f"boat_{key}").String = f"by agreement about {key}."
    export(demo, after)
    for key, (sheet, title) in ASKED.items():
        assert len(words(before, sheet)[title]) > 15
        assert words(after, sheet)[title].startswith(f"By agreement about {key}")
        assert ".." not in words(after, sheet)[title]
    assert "± 0.3 mm" in words(before, "Stub cutting list")["Port and starboard"]
    assert words(before, "Stub cutting list")["Other tolerances"].startswith("ISO 2768-1, class m")


def test_what_boat_leaves_blank_is_not_said(demo, export, tmp_path):
    for key in ASKED:
        named.cells(demo, f"boat_{key}").String = ""
    export(demo, tmp_path / "order.xlsx")
    for sheet, title in ASKED.values():
        assert title not in words(tmp_path / "order.xlsx", sheet)


def test_a_splicer_finds_every_mark_in_the_words_and_columns(demo, export, tmp_path):
    """Worked out as the words say it, and compared with the marks that the bench pages have."""
    from loftsheet.splice import marks_of_end

    path = tmp_path / "order.xlsx"
    export(demo, path)
    said = words(path, "Make-up list")["Marks, from either end"]
    tip = float(re.search(r"tip at (\d+) mm", said)[1])
    growth = float(re.search(r"goes in after ([\d.]+) times the bury", said)[1])
    for row in lists(path)["Make-up list"].values():
        bury, tapered = row["Bury, mm"], row["of it tapered, mm"]
        for eye in (row["Upper eye, flat, mm"], row["Lower eye, flat, mm"]):
            throat = tip + bury
            standing = throat + 2 * eye
            found = [
                0,
                tip,
                tip + tapered,
                throat,
                throat + eye,
                standing,
                standing + bury / 6,
                standing + growth * bury,
            ]
            due = [at for _, at in marks_of_end(eye, bury, 50.0, 1 / 3, 4 / 3)]
            assert found == pytest.approx(due, abs=0.7)


def test_an_older_schedule_without_the_tube_is_exported_without_it(office, export, tmp_path):
    older = office.load(Path(__file__).parent / "kept" / "marrowick-0.1.0.ods")
    office.recalculate(older)
    path = tmp_path / "order.xlsx"
    export(older, path)
    office.close(older)
    assert "Compression tube, length, mm" not in lists(path)["Stub cutting list"]["cap stub, port"]
    assert "Compression tube" not in words(path, "Stub cutting list")
    assert "Pad" in words(path, "Stub cutting list")


def test_numbers_are_shown_to_the_places_that_the_list_promises(demo, export, tmp_path):
    """46 times 0.2 is 9.200000000000001 and 100 times 0.07 is 7.000000000000001 to a computer."""
    named.cell(demo, "order", "quantity", "lock-stitching twine").Formula = "=46*0.2"
    named.cells(demo, "boat_rope_waste").Value = 0.07
    demo.calculateAll()
    path = tmp_path / "order.xlsx"
    export(demo, path)
    book = openpyxl.load_workbook(path)
    cells = [cell.value for sheet in book for row in sheet.iter_rows() for cell in row]
    numbers = [value for value in cells if isinstance(value, (int, float))]
    assert len(numbers) > 300
    assert [value for value in numbers if value != round(value, 2)] == []
    assert lists(path)["Order"]["lock-stitching twine"]["Quantity"] == 9.2
    assumed = [row[:3] for row in book["Assumptions and cautions"].iter_rows(values_only=True)]
    assert ("Extra rope bought", 7, "%") in assumed


def test_every_sheet_says_whose_it_is_and_that_the_demo_is_invented(demo, export, tmp_path):
    path = tmp_path / "order.xlsx"
    export(demo, path)
    for sheet in openpyxl.load_workbook(path):
        assert "Marrowick" in sheet["A1"].value
        assert "Invented demo boat" in sheet["A3"].value


def test_both_ends_of_a_stub_are_sawn_so_no_face_is_called_by_it(demo, export, tmp_path):
    path = tmp_path / "order.xlsx"
    export(demo, path)
    text = " ".join(
        str(cell.value) for sheet in openpyxl.load_workbook(path) for row in sheet.iter_rows() for cell in row
    )
    assert "sawn face" not in text.lower()
    assert "bevelled face" in text


def test_inches_and_pounds(demo, export, tmp_path):
    metric, imperial = tmp_path / "metric.xlsx", tmp_path / "imperial.xlsx"
    export(demo, metric)
    export(demo, imperial, units="inches and pounds")
    for title in ("Make-up list", "Rope loops", "Stub cutting list"):
        both = zip(lists(metric)[title].values(), lists(imperial)[title].values())
        for plain, shown in both:
            for (heading, value), words in zip(plain.items(), shown.values()):
                if heading.endswith(", mm") and "/" not in words and "." in words:
                    assert re.fullmatch(r"\d+\.\d{3} in", words), heading
                    assert abs(float(words.split()[0]) * INCH - value) <= 0.0005 * INCH + 0.051, heading
                elif heading.endswith(", mm"):
                    assert abs(in_inches(words) * INCH - value) <= INCH / 64 + 0.51, heading
                elif heading.endswith(", kN"):
                    pounds = float(re.fullmatch(r"(\d+) lbf", words)[1])
                    assert pounds * POUND_FORCE == pytest.approx(value, abs=0.06), heading
                else:
                    assert words == value, heading


@pytest.mark.parametrize("units", ["metric", "inches and pounds"])
def test_a_hole_drilled_as_listed_holds_the_stub_upright(demo, export, tmp_path, units):
    export(demo, tmp_path / "order.xlsx", units=units)
    listed = lists(tmp_path / "order.xlsx")["Stub cutting list"]
    for name, high, worst in zip(
        *(named.column(demo, f"tangs_{key}") for key in ("name", "hole_high", "hole_worst"))
    ):
        if name:
            (hole,) = [shown for heading, shown in listed[name].items() if heading.startswith("Hole below top")]
            depth = hole if units == "metric" else float(hole.removesuffix(" in")) * INCH
            assert high <= depth <= worst, name


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
    User(office, demo).type(named.cells(demo, "boat_bury"), "110")
    export(demo, after)
    first, then = lists(before), lists(after)
    # The forestay's rope is 11 mm thick; two buries of 38 diameters more, each with its take-up of 0.102.
    longer = 2 * 1.102 * 38 * 11
    assert named.cell(demo, "stays", "cut", "forestay").Value == pytest.approx(cut + longer)
    assert then["Make-up list"]["forestay"]["Rope to cut, mm"] == round(cut + longer)
    rope = "HMPE 12-strand 11 mm"
    assert then["Order"][rope]["Quantity"] > first["Order"][rope]["Quantity"]
    assert oracle.differences(demo) == []


WRONG = {
    "a point's out is blank": (("points", "out", "stem head"), "", "stem head: fix Out: it is blank"),
    "a rope is misspelt": (
        ("stays", "rope_own", "forestay"),
        "HMPE",
        "forestay: fix Rope, override: there is no HMPE in Library",
    ),
    "a stub's hole is outside": (("tangs", "hole_own", "runner stub, port"), "299", "runner stub, port: fix "),
    "a rod's length is no number": (("rod", "stock", "FR-4 rod 52 mm"), "long", "FR-4 rod 52 mm: fix Stock len"),
    "an item has another name": (("order", "name", "FR-4 rod 52 mm"), "rod", "rod: fix the name: Library has no"),
    "an item is gone": (("order", "name", "FR-4 rod 52 mm"), "", "an item is missing from Order"),
    "a price is an error": (("order", "price", "FR-4 rod 52 mm"), "=1/0", "fix Price: it is an error"),
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
    assert "stem head: fix Out: got somewhere; must be -40000 to 40000 mm" in str(refused.value)
    assert re.search(rf"{order}\.[A-Z]+\d+ is an error", str(refused.value))


@pytest.mark.parametrize(
    ("where", "held", "words"),
    [
        (
            ("rope", "break_load", "HMPE 12-strand 10 mm"),
            35.0,
            "cap shroud, port and 1 more: danger: safety factor",
        ),
        (("tangs", "bolt_own", "cap stub, port"), "M16 A4-70", "cap stub, port: danger: the load bends the bolt"),
    ],
)
def test_nothing_is_ordered_that_is_too_weak(demo, export, refusal, tmp_path, where, held, words):
    table, column, row = where
    cell = named.cell(demo, table, column, row)
    cell.DataArray = ((held,),)
    assert named.value(demo, "boat_mend") == 0
    with pytest.raises(refusal, match=r"rows in danger: \d") as refused:
        export(demo, tmp_path / "order.xlsx")
    assert words in str(refused.value)
    assert list(tmp_path.iterdir()) == []


def test_refused_for_an_assumption(demo, export, refusal, tmp_path):
    named.cells(demo, "boat_waste").String = ""
    with pytest.raises(refusal, match="Boat: fix Waste at each end: it is blank"):
        export(demo, tmp_path / "order.xlsx")


def test_nothing_half_written_remains(demo, tmp_path, monkeypatch):
    gone = tmp_path / "gone" / "order.xlsx"
    with pytest.raises(OSError):
        written.order(demo, gone)
    path = tmp_path / "order.xlsx"
    path.write_bytes(b"the one before")

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(openpyxl.Workbook, "save", full)
    with pytest.raises(OSError):
        written.order(demo, path)
    assert path.read_bytes() == b"the one before"
    assert [file.name for file in tmp_path.iterdir()] == ["order.xlsx"]


def test_never_over_the_schedule_itself(office, demo, refusal, tmp_path):
    """Nor by another way to the same folder."""
    from extension.loftsheet_office.commands import export
    from extension.loftsheet_office.common.refusal import Refusal

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


def vouched_for(book, rope):
    """A certificate behind the figures of a rope, as somebody types it who has one."""
    row = named.column(book, "rope_name").index(rope)
    for name, typed in (("rope_status", "certificate"), ("rope_source", "certificate 4711")):
        if book.NamedRanges.hasByName(name):
            named.cells(book, name).getCellByPosition(0, row).String = typed


def test_nothing_that_was_invented_is_said_to_be_certified(office, demo, export, tmp_path):
    path = tmp_path / "order.xlsx"
    export(demo, path, desktop=office.desktop)
    every = [
        str(cell.value) for sheet in openpyxl.load_workbook(path) for row in sheet.iter_rows() for cell in row
    ]
    assert not any("with certificate" in text for text in every)
    first = openpyxl.load_workbook(path).worksheets[0].cell(2, 1).value
    ropes = [name for name, row in lists(path)["Order"].items() if "breaking load" in str(row["What exactly"])]
    assert len(ropes) > 3
    said = first[first.index("No certificate stands behind these figures: ") :]
    assert all(rope in said for rope in ropes)
    assert "invented" in said
    assert "Quote what you can certify" in said


def test_what_has_a_certificate_says_so_and_no_more(office, demo, export, tmp_path):
    path, rope = tmp_path / "order.xlsx", "HMPE 12-strand 10 mm"
    vouched_for(demo, rope)
    office.recalculate(demo)
    export(demo, path)
    order = lists(path)["Order"]
    assert [name for name, row in order.items() if "with certificate" in str(row["What exactly"])] == [rope]
    assert rope not in openpyxl.load_workbook(path).worksheets[0].cell(2, 1).value


@pytest.mark.parametrize(
    ("row", "certified"),
    [
        ({"status": "certificate", "source": "4711"}, True),
        ({"status": "certificate", "source": "Invented: use the certificate"}, False),
        ({"status": "invented", "source": "certificate"}, False),
        ({"status": None, "source": "certificate 4711"}, False),
        ({"source": "Certificate 4711 of 2026-02-01"}, True),
        ({"source": "invented: replace by the maker's certificate"}, False),
        ({"source": "no certificate yet"}, False),
        ({"source": "maker's list of 2025"}, False),
        ({"source": None}, False),
    ],
)
def test_where_a_certificate_is_taken_to_be(extension_file, row, certified):
    from extension.loftsheet_office.supplier import certificates

    assert certificates.is_certified(row) is certified
    assert certificates.DENIALS == choices.DENIALS


def test_title_and_author_are_the_boats(office, demo, export, tmp_path):
    from pypdf import PdfReader

    path = tmp_path / "order.xlsx"
    export(demo, path, desktop=office.desktop)
    found = openpyxl.load_workbook(path).properties
    assert (found.title, found.creator) == ("Order for Marrowick, revision A", "Marrowick")
    assert found.description == f"Written by Loftsheet {__version__}."
    assert found.lastModifiedBy == "Marrowick"
    assert "openpyxl" not in zipfile.ZipFile(path).read("docProps/core.xml").decode()
    printed = PdfReader(path.with_suffix(".pdf")).metadata
    assert (printed.title, printed.author) == (found.title, found.creator)


@pytest.mark.parametrize("first", ["Order", "Make-up list", "Stub cutting list"])
def test_cautions_stand_on_the_first_page(office, demo, export, tmp_path, first):
    from loftsheet.cautions import CAUTIONS
    from pypdf import PdfReader

    path = tmp_path / "order.xlsx"
    export(demo, path, lists=(first,), desktop=office.desktop)
    page = " ".join(PdfReader(path.with_suffix(".pdf")).pages[0].extract_text().split())
    assert f"{first} for Marrowick" in page
    assert all(caution in page for caution in CAUTIONS)


def test_whom_to_ask_when_and_where_to_stand_on_the_first_lines(demo, export, tmp_path):
    given = {"contact": "the skipper, 0000 000", "delivery": "Quay 1"}
    for key, value in given.items():
        named.cells(demo, f"boat_{key}").String = value
    named.cells(demo, "boat_wanted").Value = 46113  # 2026-04-01, counted from 1899-12-30
    demo.calculateAll()
    path = tmp_path / "order.xlsx"
    export(demo, path)
    said = openpyxl.load_workbook(path)["Order"]["A2"].value
    assert "Questions to: the skipper, 0000 000. Wanted by: 2026-04-01. Deliver to: Quay 1." in said


def test_a_long_piece_is_in_whole_millimetres_with_its_thousands(demo, export, tmp_path):
    path = tmp_path / "order.xlsx"
    export(demo, path)
    sheet = openpyxl.load_workbook(path)["Order"]
    at = [cell.value for cell in sheet[HEADER]].index("Longest piece, mm")
    longest = [row[at] for row in sheet.iter_rows(min_row=HEADER + 1) if isinstance(row[at].value, (int, float))]
    assert max(cell.value for cell in longest) > 10_000
    assert all(cell.value == round(cell.value) for cell in longest)
    assert {cell.number_format for cell in longest} == {"#,##0"}


def test_the_supplier_has_room_for_price_total_currency_and_lead_time(demo, export, tmp_path):
    path = tmp_path / "order.xlsx"
    export(demo, path)
    headings = [cell.value for cell in openpyxl.load_workbook(path)["Order"][HEADER]]
    assert headings[5:9] == [
        "Your price per unit",
        "Your total",
        "Your currency, if another",
        "Your lead time, days",
    ]


def test_what_the_schedule_itself_has_is_no_column_of_the_users_own(demo):
    """Heads of folded blocks and the blank columns that wait for the user are not offered."""
    assert written.module("supplier.content").read(demo).own == ()
