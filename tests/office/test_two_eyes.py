"""Two stays on one stub: what each slip with them brings out, on a boat that has such stubs."""

import itertools
import re
from contextlib import ExitStack
from math import cos, radians
from types import SimpleNamespace
from xml.etree import ElementTree

import pytest
from shapely import LineString

from tests.office import named, oracle, outputs
from tests.office import paper as pdf
from tests.office.overlaps import overlapping
from tests.office.restored import Restored

pytestmark = pytest.mark.office

BESIDE_NUMBERS = 150.0  # mm, where the fitted stub stands on its page
SVG = "{http://www.w3.org/2000/svg}"
STUB, OTHER = "main lower stub, port", "main lower stub, starboard"
INNER, OUTER = "main fore lower, port", "main aft lower, port"
CAP_STUB, RUNNER, MIZZEN = "main cap stub, port", "runner, port", "mizzen lower, port"

# The row that has to speak, the id of its rule, words with the figure, and what is typed.
SLIPS = {
    "the same stay twice": ("tangs", STUB, "stay_2.same", "", [("tangs", STUB, "stay_2", INNER)]),
    "a stay of the other side": (
        "tangs", STUB, "stay_2.side", "to starboard, the first to port",
        [("tangs", STUB, "stay_2", "main aft lower, starboard")],
    ),
    "a stay on two stubs": ("tangs", OTHER, "stay.twice", "", [("tangs", OTHER, "stay_2", OUTER)]),
    "a stay of the other mast": ("tangs", STUB, "stay_2.mast", "", [("tangs", STUB, "stay_2", MIZZEN)]),
    "a stay from another height": (
        "tangs", STUB, "stay_2.up", "4498 mm from that of the first",
        [("tangs", STUB, "stay_2", "main cap, port")],
    ),
    "a stay without points": (
        "tangs", STUB, "stay_2.points", "pick points for both",
        [("stays", OUTER, *typed) for typed in (("upper", None), ("length_own", 4700.0), ("angle_own", 13.0))],
    ),
    "another number of outer stays": ("tangs", STUB, "number_2", "", [("stays", OUTER, "number", 2.0)]),
    "an outer stay to be fixed": ("tangs", STUB, "stay_2.row", "", [("stays", OUTER, "share", "none such")]),
    "an outer stay of wire": ("tangs", STUB, "stay_2.wire", "", [("stays", OUTER, "made_of", "existing wire")]),
    "an outer stay over a ring": ("tangs", STUB, "stay_2.over", "", [("stays", OUTER, "upper_over", "ring")]),
    "nobody names the outer stay": ("stays", OUTER, "stub.none", "", [("tangs", STUB, "stay_2", None)]),
    "stays far apart": (
        "tangs", STUB, "stay_2.apart", "° apart fore and aft",
        [("points", "main aft lower chainplate, port", "fore_own", -8200.0)],
    ),
    "an outer eye that climbs": (
        "tangs", STUB, "both", "the outer eye is led",
        [("points", "main aft lower chainplate, port", "out", 380.0)],
    ),
    "the stays changed over": (
        "tangs", CAP_STUB, "both", "change places",
        [("tangs", CAP_STUB, "stay", "main cap, port"), ("tangs", CAP_STUB, "stay_2", RUNNER)],
    ),
    "a low end plate": ("tangs", STUB, "cover", "mm above it there", [("plate_extra", 0.0)]),
    "an outer eye that does not pass the plate": (
        "tangs", STUB, "fit_2", "the outer eye:", [("tangs", STUB, "girth_own", "900 mm")],
    ),
    "a short stub": ("tangs", STUB, "top.short", "", [("tangs", STUB, "top_own", 15.0)]),
}  # fmt: skip


@pytest.fixture(scope="module")
def yawl(running_office, second_demo_file):
    book = running_office.load(second_demo_file)
    running_office.recalculate(book)
    yield book
    running_office.close(book)


def cell(book, *where):
    table, row, column = where if len(where) == 3 else (*where, None, None)
    return named.cell(book, table, column, row) if column else named.cells(book, f"boat_{table}")


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_with_two_eyes_is_said(yawl, slip):
    table, row, id, words, edits = SLIPS[slip]
    assert set(named.found(yawl, table, row).values()) <= {"note"}
    with ExitStack() as typed:
        for *where, held in edits:
            typed.enter_context(Restored(cell(yawl, *where), held))
        yawl.calculateAll()
        assert id in named.found(yawl, table, row)
        assert words in named.words(yawl, table, row)
    yawl.calculateAll()
    assert set(named.found(yawl, table, row).values()) <= {"note"}


def test_every_row_of_that_boat_is_sound(yawl):
    for table in ("masts", "points", "stays", "tangs"):
        assert set(named.column(yawl, f"{table}_state")) <= {"ok", "note", ""}, table


def test_the_eye_of_a_stay_that_turns_with_its_stub_pulls_unevenly(yawl):
    """Led round the rod by what the two part, one leg carries more: less than the nine tenths of a lone eye."""
    lone, led = ("mizzen shroud, port", OUTER)
    shares = []
    for stay in (lone, led):
        holds, breaks, throat = (
            named.cell(yawl, "stays", key, stay).Value for key in ("upper_capacity", "break_load", "upper_throat")
        )
        shares.append(holds / (2 * breaks * cos(radians(throat / 2))))
    assert shares[0] == pytest.approx(0.9)
    assert 0.5 < shares[1] < shares[0]


@pytest.fixture(scope="module", params=("A4", "Letter"))
def drawn(request, running_office, yawl, tmp_path_factory):
    """The mark-out sheet of a stub with two eyes, as PDF, and what a shop cuts from."""
    folder = tmp_path_factory.mktemp(request.param)
    _, path = outputs.mark_out_sheet(running_office, yawl, STUB, folder, request.param, to_cut=True)
    return SimpleNamespace(pages=pdf.pages(path), template=next(folder.glob("*-cutting-template.svg")))


def test_both_eyes_stand_on_the_mark_out_sheet(drawn):
    """Ropes of 8 mm in sleeves of 1 mm on a short side of 25 mm: their middles 10 and 20 mm from the mast."""
    words = " ".join(" ".join(page.text.split()) for page in drawn.pages)
    for due in (
        "inner eye 10.0",
        "outer eye 20.0",
        "Middle of the inner eye",
        f"{INNER} (inner eye)",
        "Turned round",
    ):
        assert due in words
    assert "Both stays leave the stub at rest when it is turned" in words
    assert [overlapping(page) for page in drawn.pages] == [[]] * len(drawn.pages)


def test_leaders_to_what_is_named_do_not_cross(drawn):
    (page,) = [page for page in drawn.pages if "Fitted, seen along the boat" in page.text]
    by_end = {}
    for line in page.lines:
        if len(line.points) == 2 and max(line.points)[0] > BESIDE_NUMBERS:
            by_end.setdefault(round(max(line.points)[0], 1), []).append(LineString(line.points))
    leaders = max(by_end.values(), key=len)
    assert len(leaders) == 7
    assert not any(one.crosses(other) for one, other in itertools.combinations(leaders, 2))


def test_both_eyes_are_marked_on_what_a_shop_cuts(drawn):
    """From the curve, where it is nearest to the square end, at the left edge."""
    drawing = ElementTree.parse(drawn.template)
    marks = drawing.findall(f".//{SVG}g[@id='mark']/{SVG}line")
    ways = [{key: float(line.get(key)) for key in ("x1", "y1", "x2", "y2")} for line in marks]
    across = sorted(way["y1"] for way in ways if way["y1"] == way["y2"])
    height = max(way["y1"] for way in ways if way["x1"] == way["x2"])  # of the whole template, the long side
    assert [height - 25 + seat for seat in (10, 20)] == pytest.approx(across, abs=0.01)


def test_job_card_and_bench_page_say_which_eye_lies_inside(running_office, yawl, tmp_path):
    outputs.job_cards(running_office, yawl, tmp_path / "cards.pdf")
    outputs.bench_pages(running_office, yawl, tmp_path / "pages.pdf")
    cards = {page.text.split("\n")[0]: " ".join(page.text.split()) for page in pdf.pages(tmp_path / "cards.pdf")}
    (inner,), (outer,) = ([text for head, text in cards.items() if stay in head] for stay in (INNER, OUTER))
    assert "Its eye inner, 10.0 mm" in inner and "Its eye outer, 20.0 mm" in outer
    pages = [" ".join(page.text.split()) for page in pdf.pages(tmp_path / "pages.pdf")]
    (hung,) = [text for text in pages if text.startswith(f"{OUTER}: hang and lash")]
    assert f"outside, next to the end plate, after that of {INNER}" in hung


VARIED = {
    "nobody says what they lie over": [("stays", stay, "upper_over", None) for stay in (INNER, OUTER, RUNNER)],
    "ropes of unlike size": [
        ("stays", stay, "rope_own", f"HMPE 12-strand {size} mm") for stay, size in ((OUTER, 10), (INNER, 7))
    ],
    "sleeves of unlike thickness": [("stays", INNER, "sleeve_own", "tubular sleeve 1.5 mm")],
    "a long stub": [("tangs", STUB, "top_own", "30 mm")],
    "a low spreader": [("tangs", STUB, "room", 60.0)],
    "a wall nobody measured": [("masts", "main", "wall", None)],
    "a hole that lets it flip": [("tangs", STUB, "hole_own", 33.0)],
    "a thin bolt": [("tangs", STUB, "bolt_own", "M12 A4-70")],
    "thread at the wall": [("tangs", STUB, "shank_made", 92.0), ("tangs", CAP_STUB, "shank_made", 120.0)],
    "a rod of unknown strength": [("rod", "FR-4 rod 75 mm", key, None) for key in ("crushing", "shear")],
    "stays that lead too far apart": [("points", "main aft lower chainplate, port", "fore_own", -8200.0)],
    "a stub of its own": [("tangs", STUB, "stay_2", None)],
    "an own angle": [("stays", OUTER, "angle_own", 9.0)],
}  # fmt: skip


@pytest.mark.parametrize("variation", VARIED)
def test_every_cell_is_worked_out_a_second_time_whatever_the_two_are(yawl, variation):
    with ExitStack() as typed:
        for *where, held in VARIED[variation]:
            typed.enter_context(Restored(cell(yawl, *where), held))
        yawl.calculateAll()
        compared = oracle.Compared(yawl)
        assert [one for one in compared.differences if one.startswith(("tangs ", "stays "))] == []
        assert compared.silent_errors == []
    yawl.calculateAll()


@pytest.mark.parametrize(("stub", "rod"), [(STUB, "FR-4 rod 52 mm"), (CAP_STUB, "FR-4 rod 45 mm")])
def test_what_would_do_does_when_it_is_picked(yawl, stub, rod):
    """A bolt of 12 mm on a thin rod: the pair that is named puts the row right."""
    bolt_own, rod_own, would_do = (
        named.cell(yawl, "tangs", key, stub) for key in ("bolt_own", "rod_own", "would_do")
    )
    with Restored(bolt_own, "M12 A4-70"), Restored(rod_own, rod):
        yawl.calculateAll()
        assert named.state(yawl, "tangs", stub) != "ok"
        bolt, found, thicker = would_do.String.partition(" on ")
        assert found
        with Restored(bolt_own, bolt), Restored(rod_own, thicker):
            yawl.calculateAll()
            assert named.state(yawl, "tangs", stub) == "ok"
            assert would_do.String == ""
    yawl.calculateAll()


def test_where_none_in_the_library_would_do_it_says_what_would(yawl):
    """A runner loaded five times as hard: the bolt that is named, in the Library, is found."""
    load, would_do = (
        named.cell(yawl, "stays", "load_own", "runner, port"),
        named.cell(yawl, "tangs", "would_do", CAP_STUB),
    )
    with Restored(load, 18.0):
        yawl.calculateAll()
        made = r"(?:the bolt of (\d+) mm|M(\d+) of 600 MPa proof stress)"
        told = re.fullmatch(rf"none in Library; at least {made} on a rod of (\d+) mm", would_do.String)
        assert told, would_do.String
        assert would_do.String in named.cell(yawl, "tangs", "found", CAP_STUB).String
        known, size, rod = told.groups()
        pitches = {24: 3.0, 27: 3.0, 30: 3.5, 33: 3.5, 36: 4.0}
        bolt = (
            {}
            if known
            else {"size": float(size), "pitch": pitches[int(size)], "yield_stress": 600.0, "strength": 800.0}
        )
        with ExitStack() as typed:
            figures = [("bolt", key, "M20 A4-70", held) for key, held in bolt.items()]
            for table, key, row, held in (*figures, ("rod", "size", "FR-4 rod 75 mm", float(rod))):
                typed.enter_context(Restored(named.cell(yawl, table, key, row), held))
            yawl.calculateAll()
            assert would_do.String.endswith(" A4-70 on FR-4 rod 75 mm")
    yawl.calculateAll()
