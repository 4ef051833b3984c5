"""Add a Stay, given in a window: the rows on Points, Stays and Stubs, both sides at once, one undo."""

import pytest

from templates.choices import SOLID, TRIED
from tests.office import named
from tests.office.menu.cells import everything, frame_of, selected
from tests.office.menu.keyboard import Keyboard
from tests.office.menu.waiting import wait

pytestmark = pytest.mark.office

TITLE = "Add a Stay"
SINGLE = {
    "Upper, along the mast from its foot, mm": "5900",
    "Lower, fore, mm": "-120",
    "Lower, out, mm": "1400",
    "Lower, up, mm": "-40",
}
LOWER_END = {label: text for label, text in SINGLE.items() if label.startswith("Lower")}


def first_dialog(screen, book, kind):
    """Give the command and pick a kind; the dialog for it."""
    screen.give("addstay", frame_of(book))
    window = screen.dialog(TITLE)
    window.pick("Kind", kind)
    window.press("Next")
    return screen.dialog(f"{TITLE}: {kind}")


def add(screen, book, kind, typed, picked=()):
    window = first_dialog(screen, book, kind)
    for label, line in dict(picked).items():
        window.pick(label, line)
    for label, text in typed.items():
        window.type(label, text)
    window.press("Add")
    return window


def row(book, table, name):
    """What a row holds, by column; what is blank is left out."""
    keys = [one for one in book.NamedRanges.ElementNames if one.startswith(f"{table}_")]
    at = named.row_of(book, table, name)
    cells = {key: named.cells(book, key) for key in keys}
    held = {key: one.getCellByPosition(0, at) for key, one in cells.items() if one.RangeAddress.EndRow > at}
    return {
        key.partition("_")[2]: cell.DataArray[0][0]
        for key, cell in held.items()
        if not cell.Formula.startswith("=")
    }


def typed_in(book, table, name):
    return {key: held for key, held in row(book, table, name).items() if held != ""}


def test_a_pair_of_shrouds_fills_the_rows_of_three_sheets(screen, shown_demo):
    add(screen, shown_demo, "single lower", SINGLE, {"Wire, replaced or kept": "1x19 6 mm"})
    screen.finish()
    assert typed_in(shown_demo, "stays", "single lower, port") == {
        "name": "single lower, port",
        "kind": "single lower",
        "side": "port",
        "upper": "single lower on mast",
        "lower": "single lower chainplate, port",
        "wire": "1x19 6 mm",
        "share": "single lower",
    }
    assert "single lower chainplate, port" not in named.column(shown_demo, "chainplates_name")
    starboard = typed_in(shown_demo, "stays", "single lower, starboard")
    assert (starboard["side"], starboard["lower"]) == ("starboard", "single lower chainplate, starboard")
    stub = {"name": "single lower stub, starboard", "stay": "single lower, starboard"}
    assert typed_in(shown_demo, "tangs", "single lower stub, starboard") == stub
    assert typed_in(shown_demo, "points", "single lower on mast") == {
        "name": "single lower on mast",
        "mast": "mast",
        "along": 5900.0,
        "out": 55.0,
    }
    plate = {"fore_own": -120.0, "out": 1400.0, "up_own": -40.0}
    port, other = (f"single lower chainplate, {side}" for side in ("port", "starboard"))
    assert typed_in(shown_demo, "points", port) == {"name": port, **plate}
    assert typed_in(shown_demo, "points", other) == {"name": other, **plate, "note": "as to port; measure it, too"}
    assert "fix" not in {
        named.state(shown_demo, "stays", f"single lower, {side}") for side in ("port", "starboard")
    }
    assert selected(shown_demo).startswith("Stays.A")


def test_what_a_new_chainplate_holds_stands_on_chainplates(screen, shown_demo):
    plate = {"Chainplate holds, kN": "45", "Chainplate's hole, mm": "22"}
    add(screen, shown_demo, "single lower", {**SINGLE, **plate})
    screen.finish()
    for side in ("port", "starboard"):
        plate = f"single lower chainplate, {side}"
        said = {"name": plate, "made_of": "metal", "holds_own": 45.0, "hole": 22.0}
        assert typed_in(shown_demo, "chainplates", plate) == said
        assert "chainplate" not in typed_in(shown_demo, "stays", f"single lower, {side}")


@pytest.mark.parametrize(
    ("kind", "name", "aft", "picked"),
    [("forestay", "forestay 2", -80.0, {"Runs on it": "nothing"}), ("backstay", "backstay 2", 80.0, {})],
)
def test_a_stay_on_no_stub_hangs_on_the_face_of_the_mast(screen, shown_demo, kind, name, aft, picked):
    """Half the demo's section of 160 mm from its middle, or the rope is made as much too long."""
    typed = {"Upper, along the mast, mm": "12000", "Lower, fore, mm": str(aft * -50), "Lower, up, mm": "100"}
    add(screen, shown_demo, kind, {**typed, "Pretension, kN": "3"}, picked)
    screen.finish()
    upper = typed_in(shown_demo, "stays", name)["upper"]
    assert typed_in(shown_demo, "points", upper)["aft"] == aft
    on_axis = -12000 * 0.017452  # sin 1°, from any table
    assert named.cell(shown_demo, "stays", "upper_fore", name).Value == pytest.approx(on_axis - aft, abs=0.1)


def test_a_tip_is_measured_from_the_mast(screen, shown_demo):
    tip = {
        "Tip, along the mast, mm": "9600",
        "Tip, out, mm": "900",
        "Tip, aft of its middle, mm": "60",
    }
    name = "cap shroud 2"
    add(screen, shown_demo, "cap shroud", {**SINGLE, "Upper, along the mast from its foot, mm": "11000", **tip})
    screen.finish()
    on_mast = {"mast": "mast", "along": 9600.0, "out": 900.0, "aft": 60.0}
    assert typed_in(shown_demo, "points", f"{name} spreader tip, port") == {
        "name": f"{name} spreader tip, port",
        **on_mast,
    }
    assert typed_in(shown_demo, "stays", f"{name}, starboard")["via"] == f"{name} spreader tip, starboard"
    assert named.state(shown_demo, "points", f"{name} spreader tip, starboard") == "ok"


def test_a_forestay_with_a_furler_stays_wire(screen, shown_demo):
    points = {"Upper point, on the mast": "masthead", "Lower point": "inner forestay on deck"}
    picked = {**points, "Wire, replaced or kept": "1x19 6 mm", "Made of": "existing wire", "Runs on it": "furler"}
    add(screen, shown_demo, "forestay", {"Name": "second forestay", "Pretension, kN": "4"}, picked)
    screen.finish()
    assert typed_in(shown_demo, "stays", "second forestay")["made_of"] == "existing wire"
    assert named.state(shown_demo, "stays", "second forestay") != "fix"


def test_one_undo_takes_all_of_it_back(screen, shown_demo):
    before = everything(shown_demo)
    add(screen, shown_demo, "single lower", SINGLE)
    screen.finish()
    assert everything(shown_demo) != before
    shown_demo.UndoManager.undo()
    assert everything(shown_demo) == before


def test_more_rows_are_made_ready_where_too_few_are_left(screen, shown_demo):
    for at in range(3):
        upper = {"Upper, along the mast from its foot, mm": str(5000 + 200 * at)}
        add(screen, shown_demo, "single lower", {**SINGLE, **upper})
        screen.finish()
    names = named.column(shown_demo, "stays_name")
    assert [name for name in names if "single lower" in name] == [
        f"single lower{again}, {side}" for again in ("", " 2", " 3") for side in ("port", "starboard")
    ]
    assert names[-1] == ""
    assert named.value(shown_demo, "boat_outside") == "nothing"


def test_points_that_are_there_are_picked_and_the_other_side_follows(screen, shown_demo):
    picked = {
        "Upper point, on the mast": "aft lower on mast",
        "Lower point": "aft lower chainplate, port",
        "Wire, replaced or kept": "1x19 6 mm",
    }
    add(screen, shown_demo, "single lower", {}, picked)
    assert "aft lower stub, port and aft lower stub, starboard" in screen.message(TITLE, press="Yes")
    screen.finish()
    starboard = typed_in(shown_demo, "stays", "single lower, starboard")
    assert starboard["lower"] == "aft lower chainplate, starboard"
    assert "single lower on mast" not in named.column(shown_demo, "points_name")


SHARED = {"Upper point, on the mast": "aft lower on mast"}


def test_a_bolt_that_is_there_takes_the_eye_on_the_stub_of_the_other_stay(screen, shown_demo):
    before = everything(shown_demo)
    add(screen, shown_demo, "single lower", LOWER_END, SHARED)
    screen.message(TITLE, press="Yes")
    screen.finish()
    for side in ("port", "starboard"):
        assert (
            named.cell(shown_demo, "tangs", "stay_2", f"aft lower stub, {side}").String == f"single lower, {side}"
        )
    assert "single lower, port" not in named.column(shown_demo, "tangs_stay")
    shown_demo.UndoManager.undo()
    assert everything(shown_demo) == before


def test_a_new_point_as_high_as_a_bolt_is_the_bolts_own(screen, shown_demo):
    """Nobody means two bolts in one hole."""
    add(screen, shown_demo, "single lower", {**SINGLE, "Upper, along the mast from its foot, mm": "5810"})
    assert "aft lower on mast has a bolt already" in screen.message(TITLE, press="Yes")
    screen.finish()
    assert named.cell(shown_demo, "stays", "upper", "single lower, port").String == "aft lower on mast"
    assert "single lower on mast" not in named.column(shown_demo, "points_name")


def test_who_wants_no_shared_stub_is_asked_again(screen, shown_demo):
    before = everything(shown_demo)
    add(screen, shown_demo, "single lower", LOWER_END, SHARED)
    screen.message(TITLE, press="No")
    again = screen.dialog(f"{TITLE}: single lower")
    assert again.text("Lower, out, mm") == "1400"
    again.press("Cancel")
    screen.finish()
    assert everything(shown_demo) == before


def test_a_stub_with_two_eyes_takes_no_third(screen, shown_demo):
    for side in ("port", "starboard"):
        named.cell(shown_demo, "tangs", "stay_2", f"aft lower stub, {side}").String = f"fore lower, {side}"
    add(screen, shown_demo, "single lower", LOWER_END, SHARED)
    assert "There is no room for it on aft lower on mast" in screen.message(TITLE)
    screen.dialog(f"{TITLE}: single lower").press("Cancel")
    screen.finish()


def test_points_on_the_mast_are_offered_first_for_the_upper_end_only(screen, shown_demo):
    window = first_dialog(screen, shown_demo, "single lower")
    upper, lower = window.lines("Upper point, on the mast"), window.lines("Lower point")
    assert (upper.index("masthead"), lower.index("masthead")) < (upper.index("stem head"), 99)
    assert lower.index("stem head") < lower.index("masthead")
    window.press("Cancel")
    screen.finish()


def test_back_leads_to_the_kind_again(screen, shown_demo):
    first_dialog(screen, shown_demo, "single lower").press("Back")
    screen.dialog(TITLE).press("Next")
    screen.dialog(f"{TITLE}: single lower").press("Back")
    window = screen.dialog(TITLE)
    window.pick("Kind", "runner")
    window.press("Next")
    screen.dialog(f"{TITLE}: runner").press("Cancel")
    screen.finish()


def test_a_stay_on_the_centreline_has_one_row_and_no_stub(screen, shown_demo):
    picked = {
        "Upper point, on the mast": "masthead",
        "Lower point": "inner forestay on deck",
        "Runs on it": "nothing",
    }
    add(screen, shown_demo, "forestay", {"Name": "second forestay", "Pretension, kN": "4.5 kN"}, picked)
    screen.finish()
    made = typed_in(shown_demo, "stays", "second forestay")
    assert (made["side"], made["runs"], made["pretension_own"]) == ("centreline", "nothing", 4.5)
    assert "second forestay" not in named.column(shown_demo, "tangs_stay")
    assert named.cell(shown_demo, "stays", "upper_over_used", "second forestay").String == "ring"


REFUSED = [
    ({}, "single lower on mast: Along the mast is blank. You type a number from 0 to 40000 mm"),
    ({**SINGLE, "Lower, up, mm": "low"}, 'single lower chainplate: Up, typed: "low" is not a number'),
    ({**SINGLE, "Lower, out, mm": "1,400"}, '"1,400 mm" can be read as 1.4 and as 1400'),
    ({**SINGLE, "Lower, out, mm": "99 m"}, 'Out: "99 m" was typed'),
    ({**SINGLE, "Name": " "}, "Type a name for the stay."),
    ({**SINGLE, "Name": "cap shroud"}, "Stays has a stay of the name cap shroud, port already."),
    ({**SINGLE, "Chainplate holds, kN": "4 mm"}, 'Chainplate holds: "4 mm": the unit "mm" does not fit a force'),
    ({**SINGLE, "Upper, name if new": "masthead"}, "Points has a point of the name masthead already."),
]


@pytest.mark.parametrize(("typed", "words"), REFUSED)
def test_what_cannot_be_is_refused_in_words_and_asked_again(screen, shown_demo, typed, words):
    before = everything(shown_demo)
    add(screen, shown_demo, "single lower", typed)
    assert words in screen.message(TITLE)
    again = screen.dialog(f"{TITLE}: single lower")
    for label, text in typed.items():
        assert again.text(label) == text.strip()
    again.press("Cancel")
    screen.finish()
    assert everything(shown_demo) == before


def test_what_runs_on_a_forestay_has_to_be_picked(screen, shown_demo):
    points = {"Upper point, on the mast": "masthead", "Lower point": "inner forestay on deck"}
    add(screen, shown_demo, "forestay", {"Name": "second forestay"}, points)
    assert screen.message(TITLE) == "Pick what runs on it: nothing, soft hanks, metal hanks or furler."
    again = screen.dialog(f"{TITLE}: forestay")
    again.press("Cancel")
    screen.finish()
    assert "second forestay" not in named.column(shown_demo, "stays_name")


def test_cancel_changes_nothing(screen, shown_demo):
    before = everything(shown_demo)
    first_dialog(screen, shown_demo, "cap shroud").press("Cancel")
    screen.finish()
    assert everything(shown_demo) == before


def test_the_first_stay_and_its_stub_are_ok_after_twenty_cells_at_most(screen):
    """In a new book, everything counted that is typed or picked, in cells and in the dialog.

    What is left to consider are the goods of the Library, which nobody has bought yet.
    """
    screen.give("new", frame_of(screen.open()))
    screen.finish()
    book = wait(lambda: schedule(screen.office), lambda: "no new schedule")
    cells = {
        "boat_name": "Sandpiper",
        "boat_rope": "HMPE 12-strand 7 mm",
        "boat_rod": "FR-4 rod 52 mm",
        "boat_bolt": "M16 A4-80",
        "boat_rm30": "12",
        "boat_chainplate_out": "1400",
        "masts_name": "mast",
        "masts_rake": "1",
        "masts_head": "9000",
        "masts_width": "110",
        "masts_section": "160",
        "masts_wall": "4",
        "masts_proof": "240",
    }
    keyboard = Keyboard(screen, book)
    for name, text in cells.items():
        cell = named.cells(book, name).getCellByPosition(0, 0)
        assert keyboard.type(cell, text) == "", name
        assert cell.String
    picked = {"Wire, replaced or kept": "1x19 5 mm"}
    typed = {**SINGLE, "Chainplate holds, kN": "45"}
    add(screen, book, "single lower", typed, picked)
    screen.finish()
    assert len(cells) + len(["kind"]) + len(picked) + len(typed) <= 20
    for side in ("port", "starboard"):
        assert named.found(book, "stays", f"single lower, {side}") == {
            "trial": "weigh",
            "creep.unknown": "weigh",
            **NOTED,
        }
        assert named.found(book, "tangs", f"single lower stub, {side}") == {
            "construction": "weigh",
            "rests": "note",
        }
    know_the_goods(book, cells)
    screen.office.recalculate(book)
    for side in ("port", "starboard"):
        assert named.found(book, "stays", f"single lower, {side}") == {"balance.unchecked": "note"}
        assert named.state(book, "stays", f"single lower, {side}") == "ok"
        assert named.state(book, "tangs", f"single lower stub, {side}") == "ok"
    book.setModified(False)
    book.close(True)


def know_the_goods(book, cells):
    """Type in Library what the makers of the goods and a trial splice say, as a yard has it from its last boat."""
    rope, rod = cells["boat_rope"], cells["boat_rod"]
    named.cell(book, "rope", "trial", rope).String = TRIED
    named.cell(book, "rope", "trial_date", rope).Formula = "2026-02-01"
    named.cell(book, "rope", "creep", rope).Value = 0.00002
    named.cell(book, "rope", "creep_temp", rope).Value = 20.0
    named.cell(book, "rod", "construction", rod).String = SOLID
    named.certify(book)


NOTED = {"rests": "note", "balance.unchecked": "note"}  # no certificate, no second moments of the mast


def schedule(office):
    from tests.office.menu.conftest import new_schedule

    return new_schedule(office)
