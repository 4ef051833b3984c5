"""The bench pages, read back from their PDF: against the parts of the rope added up, and the Bench sheet."""

import math
import re
from pathlib import Path
from types import SimpleNamespace

import pytest
from loftsheet.cautions import ALOFT, CAUTIONS, PULLING
from loftsheet.splice import trial_set, trial_takeup

from templates.boats import marrowick
from tests.office import named, outputs
from tests.office import paper as pdf
from tests.office.overlaps import overlapping

pytestmark = pytest.mark.office

SIZES = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
MARGIN, NEAR = 10.0, 0.05  # mm
OLDEST = Path(__file__).parent / "kept" / "marrowick-0.1.0.ods"
CAP = "cap shroud, port"
LOOPS = 2  # chainplates of rope, a page for each at the end
ROPES = 4  # of the demo boat's stays, each with two pages of trial splice
MARK = re.compile(
    r"((?:end|tail tip|taper start|throat|crown|lock stitch end|fid entry) [AB](?:, [a-z ]+?)?) +(\d+) +(\d+)$",
    re.M,
)


def write(office, book, path, paper="A4", only=()):
    return outputs.bench_pages(office, book, path, paper, only)


def marks(page):
    """The marks in order: name, from end A, from end B."""
    return [(name, float(from_a), float(from_b)) for name, from_a, from_b in MARK.findall(page.text)]


def flowing(page):
    return " ".join(page.text.split())


def column(book, name):
    cells = book.NamedRanges.getByName(name).getReferredCells()
    return [row[0] for row in cells.DataArray if row[0] != ""]


def pages_of(folder, stay):
    """The pages that begin with the name of a stay."""
    return [page for page in pdf.pages(folder / "bench.pdf") if page.text.lstrip().startswith(stay)]


def put(book, name, row, value):
    cell = book.NamedRanges.getByName(name).getReferredCells().getCellByPosition(0, row)
    if isinstance(value, str):
        cell.String = value
    else:
        cell.Value = value


@pytest.fixture(scope="module", params=SIZES)
def printed(request, running_office, demo_file, tmp_path_factory):
    """All bench pages of the demo boat on either paper."""
    path = tmp_path_factory.mktemp(request.param) / "bench.pdf"
    book = running_office.load(demo_file)
    try:
        without = write(running_office, book, path, request.param)
        stays, numbers, ropes = (column(book, f"stays_{key}") for key in ("name", "number", "rope"))
    finally:
        running_office.close(book)
    every = pdf.pages(path)
    return SimpleNamespace(
        paper=request.param,
        every=every,
        trials=every[: 2 * ROPES],
        pages=every[2 * ROPES : -LOOPS : 2],  # of the marks
        aboard=every[2 * ROPES + 1 : -LOOPS : 2],
        loops=every[-LOOPS:],
        stays=stays,
        numbers=numbers,
        ropes=ropes,
        without=without,
    )


def test_every_stay_has_its_page_with_the_number_to_make(printed):
    assert len(printed.pages) == len(printed.stays) == 12
    for page, stay, number, rope in zip(printed.pages, printed.stays, printed.numbers, printed.ropes):
        assert page.text.lstrip().startswith(stay)
        assert f"Make {number:.0f} of {rope}" in page.text
    assert printed.without == {}
    assert max(printed.numbers) == 2  # a stay of which two are made is among them


def test_every_page_says_what_it_belongs_to(printed):
    for number, page in enumerate(printed.every, 1):
        words = flowing(page)
        note = "Invented demo boat: invented survey, ropes and prices."
        assert f"Marrowick, revision A of 2026-03-01. {note} Page {number} of 34" in words
        assert all(caution in words for caution in CAUTIONS[:3])
    assert all("not to scale" in page.text for page in printed.pages + printed.aboard)


def test_cautions_stand_where_rope_is_pulled_and_where_somebody_goes_aloft(printed):
    assert all(PULLING in flowing(page) for page in printed.every)
    assert len(printed.aboard) == len(printed.stays)
    assert all(ALOFT in flowing(page) for page in printed.aboard)


def test_a_boat_on_loops_with_a_forestay_of_wire(running_office, second_demo_file, tmp_path):
    """Six loops, a page each; a lashing to a loop is measured to the ring in it; the wire has no page."""
    book = running_office.load(second_demo_file)
    try:
        assert write(running_office, book, tmp_path / "bench.pdf") == {}
    finally:
        running_office.close(book)
    pages = pdf.pages(tmp_path / "bench.pdf")
    loops = [page for page in pages if "chainplate, " in page.text.split(":")[0]]
    assert [page.text for page in loops] == [page.text for page in pages[-6:]]
    assert pages_of(tmp_path, "forestay") == []
    shroud, lower = (flowing(pages_of(tmp_path, f"mizzen {which}, port")[1]) for which in ("shroud", "lower"))
    assert "the centre of the ring in the rope loop, mizzen chainplate, port" in shroud
    assert "the centre of the hole at the lower point, mizzen lower chainplate, port" in lower


LOOP_MARK = re.compile(
    r"((?:end|tail tip|taper start|crossing|lock stitch end|fid entry) [AB]) +(\d+) +(\d+)$", re.M
)


def test_a_loop_has_its_page_with_the_parts_of_its_rope(printed):
    """Seven millimetres, four times round bar and ring: 12 marks, each as far from the other end as is left."""
    for page, side in zip(printed.loops, ("port", "starboard")):
        words = flowing(page)
        assert words.startswith(f"runner chainplate, {side}: rope loop Make 1 of HMPE 12-strand 7 mm")
        assert "bar of 25 mm" in words and "ring 30 mm" in words and "in 4 turns, side by side" in words
        marks = [(name, float(a), float(b)) for name, a, b in LOOP_MARK.findall(page.text)]
        bury, waste = 72 * 7, 50
        due = {"end": 0, "tail tip": waste, "taper start": waste + bury / 3, "crossing": waste + bury}
        due |= {"lock stitch end": waste + bury * 7 / 6, "fid entry": waste + bury + bury * 4 / 3}
        assert len(marks) == 12
        found = {name: (from_a, from_b) for name, from_a, from_b in marks}
        cut = found["end B"][0]
        for name, place in due.items():
            assert found[f"{name} A"] == pytest.approx((place, cut - place), abs=0.51)
            assert found[f"{name} B"] == pytest.approx((cut - place, place), abs=0.51)
        assert f"Cut {cut:.0f} mm" in words


def test_it_can_be_read_at_arms_length_and_in_grey(printed):
    for page in printed.every:
        assert min(page.letter_sizes) >= 11
        assert all(red == green == blue for red, green, blue in page.colours)


def test_nothing_is_cut_off_by_the_printer(printed):
    for page in printed.every:
        assert (page.width, page.height) == pytest.approx(SIZES[printed.paper], abs=0.1)
        edges = [(line.left, line.top, line.right, line.bottom) for line in page.lines] + page.words
        assert min(left for left, _, _, _ in edges) >= MARGIN - NEAR
        assert min(top for _, top, _, _ in edges) >= MARGIN - NEAR
        assert max(right for _, _, right, _ in edges) <= page.width - MARGIN + NEAR
        assert max(bottom for _, _, _, bottom in edges) <= page.height - MARGIN + NEAR


def test_no_words_lie_on_others(printed):
    assert [overlapping(page) for page in printed.every] == [[]] * len(printed.every)


def test_marks_run_from_end_to_end_and_count_from_both(printed):
    for page in printed.pages:
        found = marks(page)
        assert len(found) == 16
        assert (found[0][0], found[-1][0]) == ("end A", "end B")
        assert [from_a for _, from_a, _ in found] == sorted(from_a for _, from_a, _ in found)
        whole = found[-1][1]
        assert f"{whole:.0f} mm" in page.text  # the cut length
        assert all(abs(from_a + from_b - whole) <= 1 for _, from_a, from_b in found)  # each is rounded


def test_marks_are_the_parts_of_the_rope_added_up(printed, office, demo):
    """The first cap shroud by hand: 10 mm rope, bury 72 diameters, a third of it tapered, waste 50 mm."""
    span, upper, lower, worked = (
        column(demo, f"stays_{key}")[0] for key in ("span", "upper_eye", "lower_eye", "worked")
    )
    take_up = dict(zip(column(demo, "rope_name"), column(demo, "rope_take_up")))["HMPE 12-strand 10 mm"]
    bury = 720.0
    throat = 50 + bury + 2 * upper
    far_throat = throat + span / (1 + worked) + 2 * bury * take_up
    by_hand = {
        "tail tip A": 50,
        "taper start A": 50 + bury / 3,
        "throat A, tail": 50 + bury,
        "crown A": 50 + bury + upper,
        "throat A, standing part": throat,
        "lock stitch end A": throat + bury / 6,
        "fid entry A": throat + bury * 4 / 3,
        "fid entry B": far_throat - bury * 4 / 3,
        "throat B, standing part": far_throat,
        "crown B": far_throat + lower,
        "throat B, tail": far_throat + 2 * lower,
        "taper start B": far_throat + 2 * lower + bury * 2 / 3,
        "tail tip B": far_throat + 2 * lower + bury,
        "end B": far_throat + 2 * lower + bury + 50,
    }
    found = {name: from_a for name, from_a, _ in marks(printed.pages[0])}
    assert {name: found[name] for name in by_hand} == pytest.approx(by_hand, abs=0.51)


def test_marks_are_those_of_the_bench_sheet(printed, office, demo):
    """What the sheet shows when each stay is picked there; a circle of the same function, through cells."""
    pick = demo.NamedRanges.getByName("bench_stay").getReferredCells()
    for page, stay in zip(printed.pages, printed.stays):
        pick.String = stay
        office.recalculate(demo)
        shown = demo.NamedRanges.getByName("bench_marks").getReferredCells().DataArray
        in_sheet = [(name, distance) for name, distance in shown if name != ""]
        in_pdf = [(name, from_a) for name, from_a, _ in marks(page)]
        assert [name for name, _ in in_pdf] == [name for name, _ in in_sheet]
        assert [distance for _, distance in in_pdf] == pytest.approx(
            [distance for _, distance in in_sheet], abs=0.51
        )


def test_facts_of_the_first_page(printed, office, demo):
    row = {
        key: column(demo, f"stays_{key}")[0]
        for key in ("cut", "bury", "upper_eye", "lower_eye", "span", "pretension")
    }
    text = " ".join(printed.pages[0].text.split())
    assert f"Cut {row['cut']:.0f} mm" in text
    assert f"Bury {row['bury']:.0f} mm of it tapered {row['bury'] / 3:.0f} mm" in text
    # 200·D² lb, D in inches (from memory): 10 mm rope, in kN and as a weight.
    light = 200 * (10 / 25.4) ** 2 * 0.45359237
    assert f"Measure under {light * 9.80665 / 1000:.2f} kN ({light:.0f} kg" in text
    assert f"Sleeve for eye A {math.floor(2 * row['upper_eye'] * 1.15 + 0.5)} mm" in text
    assert f"Done: throat to throat {row['span']:.0f} mm at {row['pretension']:.1f} kN" in text


def test_a_stay_with_an_error_has_a_page_that_says_so_and_no_marks(office, demo, tmp_path):
    put(demo, "stays_pretension_own", 10, "")
    office.recalculate(demo)
    check = named.words(demo, "stays", "running backstay, port")
    without = write(office, demo, tmp_path / "bench.pdf")
    pages = pdf.pages(tmp_path / "bench.pdf")[2 * ROPES :]
    assert list(without) == ["running backstay, port", "runner chainplate, port"]  # and the loop where it hangs
    assert "Do not make this loop yet. Fix these cells first: Chainplates." in " ".join(pages[-2].text.split())
    pages = pages[:-LOOPS]
    assert len(pages) == 2 * 12 - 1  # none to take on board
    words = " ".join(pages[20].text.split())
    assert "Do not make this stay yet. Fix these cells first: Stays." in words
    assert check != "OK"
    assert check in words
    assert marks(pages[20]) == []
    assert "Make 1" not in words
    assert all(len(marks(page)) == 16 for page in (*pages[:20:2], pages[21]))


def test_a_cut_length_typed_over_its_formula_is_not_printed(office, demo, tmp_path):
    put(demo, "stays_cut", 0, 14000.0)
    office.recalculate(demo)
    without = write(office, demo, tmp_path / "bench.pdf", only=[CAP])
    assert "typed over" in without["cap shroud, port"]
    assert marks(pages_of(tmp_path, "cap shroud, port")[0]) == []


def test_what_the_check_says_is_printed(office, demo, tmp_path):
    put(demo, "stays_runs", 6, "furler")
    office.recalculate(demo)
    write(office, demo, tmp_path / "bench.pdf", only=["forestay"])
    for page in pages_of(tmp_path, "forestay"):
        assert "with these on it a stay has to be wire" in page.text


def test_marks_that_overlap_are_said_to(office, demo, tmp_path):
    put(demo, "stays_upper_eye_own", 9, 1800.0)  # leaves a span between 2 and 8/3 of the bury
    office.recalculate(demo)
    write(office, demo, tmp_path / "bench.pdf", only=["backstay leg"])
    page = pages_of(tmp_path, "backstay leg")[0]
    found = {name: from_a for name, from_a, _ in marks(page)}
    assert found["fid entry A"] > found["fid entry B"]
    assert "they overlap" in " ".join(page.text.split())


def refused(office, book, path, paper="A4"):
    from extension.loftsheet_office.common.refusal import Refusal

    with pytest.raises(Refusal) as said:
        write(office, book, path, paper)
    assert list(path.parent.iterdir()) == []
    return str(said.value)


def test_a_deleted_name_is_reported(office, demo, tmp_path):
    demo.NamedRanges.removeByName("stays_worked")
    assert "stays_worked" in refused(office, demo, tmp_path / "bench.pdf")


def test_an_assumption_that_is_an_error_is_named(office, demo, tmp_path):
    demo.NamedRanges.getByName("boat_growth").getReferredCells().Formula = "=1/0"
    assert "Boat." in refused(office, demo, tmp_path / "bench.pdf")


def test_another_ending_and_an_unknown_paper_are_refused(office, demo, tmp_path):
    assert "bench.ods" in refused(office, demo, tmp_path / "bench.ods")
    assert "A4 or Letter" in refused(office, demo, tmp_path / "bench.pdf", "B5")


def test_a_schedule_without_stays_is_refused(office, demo, tmp_path):
    cells = demo.NamedRanges.getByName("stays_name").getReferredCells()
    cells.clearContents(0b111)  # numbers, dates, texts
    office.recalculate(demo)
    assert "no stay of rope has a name" in refused(office, demo, tmp_path / "bench.pdf")


def test_the_document_is_left_as_it_was(office, demo_file, tmp_path):
    """As it was opened: once all is worked out anew, the office itself calls a sheet with charts changed."""
    demo = office.load(demo_file)
    try:
        assert_left_as_it_was(office, demo, tmp_path)
    finally:
        office.close(demo)


def assert_left_as_it_was(office, demo, tmp_path):
    sheet = demo.Sheets.getByName("Stays")
    demo.CurrentController.setActiveSheet(sheet)
    demo.CurrentController.select(sheet.getCellRangeByName("C7:D8"))
    picked = demo.NamedRanges.getByName("bench_stay").getReferredCells().String
    demo.setModified(False)
    write(office, demo, tmp_path / "bench.pdf")
    assert not demo.isModified()
    assert demo.CurrentController.Selection.AbsoluteName.replace("$", "") == "Stays.C7:D8"
    assert demo.NamedRanges.getByName("bench_stay").getReferredCells().String == picked
    assert list(tmp_path.iterdir()) == [tmp_path / "bench.pdf"]


def stay(book, name, *keys):
    row = named.row_of(book, "stays", name)
    return [named.column(book, f"stays_{key}")[row] for key in keys]


def fact(page, label):
    """What stands beside a label of the page to take on board."""
    return re.search(rf"^ *{re.escape(label)} {{2,}}(\S.*)$", page.text, re.M)[1]


def test_every_stay_has_a_page_to_take_on_board(printed):
    for page, name in zip(printed.aboard, printed.stays):
        assert page.text.lstrip().startswith(f"{name}: hang and lash")
        assert "Never trust a single knot" in flowing(page)
        assert "common practice, no source" in flowing(page)


def test_the_lashing_of_the_cap_shroud(printed, demo):
    """Gap by hand: 60 mm that stay, the stretch at pretension, and the set of 0.012 that was measured."""
    page = printed.aboard[0]
    length, pretension, stiffness, parts = stay(
        demo, "cap shroud, port", "length", "pretension", "stiffness", "parts"
    )
    stretch = length * pretension / stiffness
    assert fact(page, "Gap, bedded in on the bench") == f"{60 + stretch:.0f} mm"
    assert fact(page, "Gap, hung without bedding in") == f"{60 + stretch + 0.012 * length:.0f} mm"
    assert fact(page, "Gap at pretension, all taken up") == "60 mm"
    assert f"gap, bedded in: {60 + stretch:.0f}" in page.text
    assert fact(page, "Parts") == f"{parts:.0f}"
    per_part = 60 + stretch + 0.012 * length + math.pi * 18 / 2  # the hole of a ring of 30 mm
    line = f"HMPE 12-strand 6 mm, {parts * per_part + 1000:.0f} mm for one lashing"
    assert fact(page, "Lashing line") == line
    half_turn = math.exp(-0.15 * math.pi)  # friction on the ring
    last_part = pretension / sum(half_turn**part for part in range(int(parts)))
    haul = last_part / half_turn  # the tail leads back round the ring
    assert fact(page, "Haul the tail with") == (
        f"{haul:.2f} kN ({haul * 1000 / 9.80665:.0f} kg): with a winch or a tackle"
    )


def test_a_stay_that_goes_on_in_others_is_lashed_to_them_and_not_hauled(printed):
    by_stay = dict(zip(printed.stays, printed.aboard))
    upper, leg = by_stay["backstay, upper part"], by_stay["backstay leg"]
    assert "lash this one to their upper rings first" in flowing(upper)
    assert "Do not haul it" in flowing(upper) and "Draw each part snug, no more" in flowing(upper)
    assert "gap at pretension: 60" in upper.text and "Haul the tail with" not in upper.text
    assert "What the stay above still stretches by comes on top" in flowing(leg)
    assert "comes on top" not in flowing(by_stay["forestay"])


def test_a_tackle_in_the_line_is_what_it_is_lashed_to(printed):
    page = dict(zip(printed.stays, printed.aboard))["running backstay, port"]
    assert fact(page, "Other fittings in the line") == "900 mm"
    assert "to the near end of the other fittings, 900 mm long as when they are set up." in flowing(page)


def test_a_light_haul_needs_no_winch(office, demo, tmp_path):
    row = named.row_of(demo, "stays", "backstay leg")
    put(demo, "stays_pretension_own", row, 0.25)
    office.recalculate(demo)
    write(office, demo, tmp_path / "bench.pdf", only=["backstay leg"])
    (haul,) = stay(demo, "backstay leg", "haul")
    assert haul < 0.3
    assert fact(pages_of(tmp_path, "backstay leg")[1], "Haul the tail with") == (
        f"{haul:.2f} kN ({haul * 1000 / 9.80665:.0f} kg)"
    )


def test_what_temperature_does_to_the_tension(printed, demo):
    """5 K by hand: mast 23.6 and rope −12 millionths a kelvin, both pulling the same way."""
    stiffness, pretension = stay(demo, "cap shroud, port", "stiffness", "pretension")
    change = 5 * (23.6 + 12) * 1e-6 * stiffness
    page = printed.aboard[0]
    assert fact(page, "5 °C warmer: the tension is") == f"at most {change:.2f} kN more; 5 °C colder: as much less"
    assert fact(page, "It may be slack") == f"from {pretension / change * 5:.0f} °C colder on"
    assert fact(page, "Pretension") == f"{pretension:.1f} kN at the temperature at which you tune"


def test_what_lies_under_each_eye(printed):
    upper, lower = "Eye A, upper end, lies over", "Eye B, lower end, lies over"
    by_stay = dict(zip(printed.stays, printed.aboard))
    assert fact(by_stay["cap shroud, port"], upper) == "the stub, rod 65.0 mm"
    assert fact(by_stay["cap shroud, port"], lower) == "ring 30 mm, 30.0 mm under the eye"
    assert fact(by_stay["forestay"], upper) == "ring 40 mm, 40.0 mm under the eye"


def test_the_spreader_tip_is_said_where_there_is_one(printed):
    """From the surveyed points: mast point 12900 along a mast raked by 1° and 55 out, and the port tip."""
    rake = math.radians(1)
    bolt = (-12900 * math.sin(rake), 55, 12900 * math.cos(rake))
    distance = math.dist(bolt, (-150, 1202, 6560))
    for page, name in zip(printed.aboard, printed.stays):
        assert ("Spreader tip" in page.text) == name.startswith("cap shroud")
    assert f"Spreader tip about {distance:.0f} mm below the bolt" in flowing(printed.aboard[0])
    assert "chafe sleeve and seizing there" in flowing(printed.aboard[0])
    assert not any("preader" in name for name, _, _ in marks(printed.pages[0]))


def test_a_lashing_that_cannot_be_worked_out_spoils_its_own_page_only(office, demo, tmp_path):
    cells = named.cells(demo, "stays_parts").getCellByPosition(0, 0)
    cells.Formula = "=1/0"
    office.recalculate(demo)
    assert write(office, demo, tmp_path / "bench.pdf", only=[CAP]) == {}
    bench, aboard = pages_of(tmp_path, "cap shroud, port")
    assert len(marks(bench)) == 16
    assert "Do not fit this stay yet. Fix these cells first: Stays." in flowing(aboard)


def trial_lines(page):
    """The five lengths that are due on the page of pulling and measuring."""
    return [float(due) for due in re.findall(r"^ *[1-5]  ?(?:Gauge|Throat).*? {2,}(\d+)$", page.text, re.M)]


def trials(book):
    from extension.loftsheet_office.drawings import bench_pages

    return bench_pages.read(book).trials


def test_every_rope_in_use_has_a_trial_splice_first(printed):
    names = [f"HMPE 12-strand {size} mm" for size in (10, 8, 11, 7)]
    for name, (bench, measuring) in zip(names, zip(printed.trials[::2], printed.trials[1::2])):
        assert bench.text.split()[:2] == ["Trial", "splice"]
        assert name in bench.text
        assert "Trial splice: pull and measure" in measuring.text
        assert name in measuring.text
    assert set(printed.ropes) == set(names)


def test_marks_of_a_trial_are_those_of_a_stay_of_its_length(printed):
    """The first rope by hand: 6 m, 10 mm, bury 720, eyes 215 and 120, waste 50."""
    found = {name: from_a for name, from_a, _ in marks(printed.trials[0])}
    by_hand = {
        "throat A, tail": 770,
        "throat A, standing part": 770 + 2 * 215,
        "fid entry A": 1200 + 960,
        "throat B, standing part": 6000 - 770 - 240,
        "fid entry B": 6000 - 770 - 240 - 960,
        "end B": 6000,
    }
    assert {name: found[name] for name in by_hand} == by_hand
    first, second = (float(re.search(rf"gauge mark {at} +(\d+)", printed.trials[0].text)[1]) for at in (1, 2))
    assert found["fid entry A"] + 50 <= first
    assert second <= found["fid entry B"] - 50
    gauge, throats, *_ = trial_lines(printed.trials[1])
    assert (second - first, found["throat B, standing part"] - found["throat A, standing part"]) == (
        gauge,
        throats,
    )


def test_the_lengths_due_lead_back_to_the_library(printed):
    """Put into the page's own formulas they give take-up and set of the rope again, as RIG functions do."""
    known = {10: (0.097, 0.012), 8: (0.093, 0.0114), 11: (0.102, 0.01), 7: (0.091, 0.013)}
    for size, page in zip(known, printed.trials[1::2]):
        bury = 72 * size
        gauge, throats, spliced, gauge_after, pulled = trial_lines(page)
        assert f"Take-up = (line 2 − line 5 / (1 + set)) / {2 * bury}" in page.text
        lasting_set = trial_set(gauge, gauge_after)
        assert lasting_set == pytest.approx(known[size][1], abs=0.5 / gauge)
        assert pulled == pytest.approx(spliced * (1 + known[size][1]), abs=1)
        take_up = trial_takeup(throats, pulled / (1 + known[size][1]), 2.0 * bury)
        assert take_up == pytest.approx(known[size][0], abs=1 / bury)


def test_how_hard_a_trial_is_pulled(printed, demo):
    ropes, pulls, loads = (named.column(demo, f"stays_{key}") for key in ("rope", "pretension", "load"))
    mine = [at for at, rope in enumerate(ropes) if rope == "HMPE 12-strand 8 mm"]
    pull, load = max(pulls[at] for at in mine), max(loads[at] for at in mine)
    words = flowing(printed.trials[3])
    assert f"Pull 5 times to {pull:.1f} kN ({pull * 1000 / 9.80665:.0f} kg)" in words
    assert f"once to {load:.1f} kN" in words
    assert "common practice, no source; what the rope's maker says wins" in words


@pytest.mark.parametrize(("key", "more", "at"), [("lasting_set", 0.001, 0), ("take_up", 0.01, 1)])
def test_what_a_trial_does_to_the_cut(printed, office, demo, key, more, at):
    """The changes printed are those of the schedule when the Library is changed as much."""
    rows = re.findall(r"^(\S.*?) {2,}(\d+) +([−+]\d+) +([−+]\d+)$", printed.trials[1].text, re.M)
    assert [name for name, *_ in rows] == ["cap shroud, starboard", "cap shroud, port", "backstay, upper part"]
    before = {name: stay(demo, name, "cut")[0] for name, *_ in rows}
    library = named.cell(demo, "rope", key, "HMPE 12-strand 10 mm")
    library.Value += more
    office.recalculate(demo)
    for name, cut, *changes in rows:
        assert float(cut) == pytest.approx(before[name], abs=0.51)
        change = float(changes[at].replace("−", "-"))
        assert change == pytest.approx(stay(demo, name, "cut")[0] - before[name], abs=0.51)
        assert (change < 0) == (key == "lasting_set")


def test_a_piece_too_short_for_a_trial_is_said_with_the_least_that_does(office, demo, tmp_path):
    put(demo, "boat_trial", 0, 3.0)
    office.recalculate(demo)
    write(office, demo, tmp_path / "bench.pdf")
    pages = pages_of(tmp_path, "Trial splice")
    assert len(pages) == ROPES
    said = re.search(r"A piece of 3\.0 m.* is too short .* takes ([\d.]+) m", flowing(pages[0]))
    least = float(said[1])
    put(demo, "boat_trial", 0, least)
    assert trials(demo)[0].why_not == ""
    put(demo, "boat_trial", 0, least - 0.1)
    assert "too short" in trials(demo)[0].why_not


def test_words_too_long_for_a_page_are_refused(office, demo, tmp_path):
    put(demo, "stays_name", 7, "inner forestay " + "on and on " * 120 + "end")
    office.recalculate(demo)
    assert "too long for a page" in refused(office, demo, tmp_path / "bench.pdf")


def test_a_long_note_is_cut_where_it_would_fill_the_page(office, demo, tmp_path):
    put(demo, "boat_note", 0, "written down " * 60)
    write(office, demo, tmp_path / "bench.pdf", only=[CAP])
    words = flowing(pdf.pages(tmp_path / "bench.pdf")[0])
    assert 15 < words.count("written down") < 20
    assert "…" in words


def test_a_schedule_of_an_older_version_has_fewer_lines(office, tmp_path):
    book = office.load(OLDEST)
    office.recalculate(book)
    try:
        write(office, book, tmp_path / "bench.pdf", only=[CAP])
        gap = named.column(book, "stays_gap")[0]
    finally:
        office.close(book)
    aboard = pages_of(tmp_path, "cap shroud, port")[1]
    assert fact(aboard, "Gap, hung without bedding in") == f"{gap:.0f} mm"
    for newer in ("Gap, bedded in", "Haul the tail with", "5 °C warmer", "Spreader tip"):
        assert newer not in aboard.text


LONG_NAMES = {
    "wide": "界" * 20,
    "wide, in words": "界 " * 150,
    "long": "W" * 255,
    "several lines": "Marrowick\n" * 20,
}


@pytest.mark.parametrize("name", LONG_NAMES.values(), ids=LONG_NAMES)
def test_a_name_that_takes_much_room_is_broken_or_cut(office, demo, tmp_path, name):
    demo.NamedRanges.getByName("boat_name").ReferredCells.String = name
    assert write(office, demo, tmp_path / "pages.pdf", only=[CAP]) == {}
    _, drawn = outputs.mark_out_sheet(office, demo, "cap stub, port", tmp_path)
    for path in (tmp_path / "pages.pdf", drawn):
        for page in pdf.pages(path):
            assert name.split()[0][:20] in "".join(page.text.split())


def test_a_rope_that_is_used_for_loops_only_has_its_trial_splice(office, demo, tmp_path):
    """All stays of another rope than the loops: pulled with an eighth of the pull, eyes over the ring."""
    for row in marrowick.STAYS:
        if row.get("rope_own") == marrowick.SEVEN:
            named.cell(demo, "stays", "rope_own", row["name"]).String = "HMPE 12-strand 8 mm"
    office.recalculate(demo)
    pull = named.cell(demo, "chainplates", "pull", "runner chainplate, port").Value
    path = tmp_path / "bench.pdf"
    outputs.bench_pages(office, demo, path)
    trial, measure = (
        " ".join(page.text.split())
        for page in pdf.pages(path)
        if page.text.startswith("Trial splice") and "12-strand 7 mm" in page.text.split("In Library")[0]
    )
    assert "Eyes over the ring of runner chainplate, port." in trial
    # Two tangents at 15° to the middle and the way round between them: 30 mm, a sleeve of 1 mm and half the rope.
    middle = 30 / 2 + 1 + 7 / 2
    eye = middle / math.tan(math.radians(15)) + middle * math.radians(105)
    assert f"Eye A, laid flat {eye:.0f} mm" in trial and "Eye A is pulled over 30.0 mm" in trial
    assert f"times to {pull / 8:.1f} kN" in measure and "a leg of its loops carries" in measure
    # Four times round, each longer by a thousandth of itself, and shorter by it; two tails of 72 · 7 mm.
    inside = named.cell(demo, "chainplates", "inside", "runner chainplate, port").Value
    of_set = 4 * (2 * inside + math.pi * 7) * (1 / 1.014 - 1 / 1.013)
    assert f"{of_set:+.0f}".replace("-", "−") in measure.split("take-up 0.010 larger")[1]
    assert f"{2 * 504 * 0.01:+.0f}" in measure.split("take-up 0.010 larger")[1]
