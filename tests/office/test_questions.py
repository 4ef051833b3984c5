"""What a row's check asks: one edit of the demo at a time, and the words that it has to bring out."""

import datetime
import math
import re
from contextlib import ExitStack

import pytest

from tests.office import named
from tests.office.restored import Restored

pytestmark = pytest.mark.office

CAP, LOWER, FORESTAY = "cap shroud, port", "fore lower, port", "forestay"
BACKSTAY, RUNNER = "backstay, upper part", "running backstay, port"
CAP_STUB, LOWER_STUB = "cap stub, port", "fore lower stub, port"
TEN, TWELVE, LINE = "HMPE 12-strand 10 mm", "HMPE 12-strand 12 mm", "HMPE 12-strand 6 mm"
ROD, BOLT, RING, SHROUD = "FR-4 rod 60 mm", "M20 A4-70", "ring 30 mm", "cap shroud, one spreader"

# The row that has to ask and its words, and what is typed: (table, row, column, held), or (assumption, held).
QUESTIONS = {
    "a tape that slipped": ("stays", CAP, "own length and points differ by", [("stays", CAP, "length_own", 13600.0)]),
    "an own length with its unit": ("stays", CAP, "differ by", [("stays", CAP, "length_own", "13.6 m")]),
    "chainplates elsewhere": ("stays", CAP, "not as far out as Boat says", [("chainplate_out", 1200.0)]),
    "a forgotten spreader": ("stays", CAP, "whether it goes over a spreader", [("stays", CAP, "via", None)]),
    "a tape read in the wrong place": ("stays", CAP, "leads fore or aft by 30°", [("points", "spreader tip, port", "fore_own", -3810.0)]),
    "a rope that would stretch without end": ("rope", TEN, "the set is large", [("rope", TEN, "lasting_set", 0.1)]),
    "no rope is strong enough": ("stays", CAP, "no rope of Boat's family", [("stays", CAP, "margin_own", 20.0), ("rm30", 200.0)]),
    "a family without ropes": ("stays", CAP, "no rope of Boat's family", [("family", "none such")]),
    "long fittings": ("stays", CAP, "fittings are long", [("stays", CAP, "fittings", "1.8 m")]),
    "a long eye": ("stays", CAP, "lower eye is more than 3 times", [("stays", CAP, "lower_eye_own", 1200.0)]),
    "more creep than take-up": ("stays", CAP, "creep until it is retired", [("rope", TEN, "creep", 0.001), ("rope", TEN, "creep_temp", 20.0)]),
    "a chainplate nobody knows": ("stays", CAP, "the chainplate is not known", [("stays", CAP, "chainplate", None)]),
    "a small load": ("stays", CAP, "the load is small", [("rm30", 0.5)]),
    "a ring that is too weak": ("stays", CAP, "lower ring: the load is above", [("ring", RING, "load", 1.0)]),
    "a margin that is missed": ("stays", CAP, "is below 20.00", [("stays", CAP, "margin_own", 20.0)]),
    "a lashing nobody pulled": ("stays", CAP, "pull a trial splice", [("rope", TEN, "trial", "assumed")]),
    "a weak chainplate": ("stays", CAP, "chainplate is short by", [("stays", CAP, "chainplate", 2.0)]),
    "a pin without a size": ("stays", CAP, "mend Lower diameter, own: type it", [("stays", CAP, "lower_over", "pin")]),
    "a point to be mended": ("stays", CAP, "mend Via: its row on Points", [("points", "spreader tip, port", "out", None)]),
    "a rope to be mended": ("stays", CAP, "mend Rope: its row on Library", [("rope", TEN, "mass", None)]),
    "a line to be mended": ("stays", CAP, "mend Lashing line: its row on Library", [("rope", LINE, "ratio", None)]),
    "a wire to be mended": ("stays", FORESTAY, "mend Wire replaced: its row", [("wire", "1x19 8 mm", "modulus", None)]),
    "a share to be mended": ("stays", CAP, "mend Share: its row on Library", [("share", SHROUD, "source", None)]),
    "a ring to be mended": ("stays", CAP, "mend Lower ring: its row on Library", [("ring", RING, "load", None)]),
    "a sleeve to be mended": ("stays", CAP, "mend Sleeve: its row on Library", [("sleeve", "tubular sleeve 1 mm", "source", None)]),
    "a furler": ("stays", FORESTAY, "mend Runs on it: this stay must stay wire", [("stays", FORESTAY, "runs", "furler")]),
    "a stub that the eye above reaches": ("tangs", LOWER_STUB, "a stub below stands higher than the", [("points", "aft lower on mast", "along", 6250.0)]),
    "a bolt on which the rope above would lie": ("tangs", LOWER_STUB, "a stub below stands higher than the", [("points", "aft lower on mast", "along", 6120.0)]),
    "a rig tuned in the sun": ("stays", CAP, "slack when it is 25 K colder", [("warmer", 25.0)]),
    "a forestay without a pretension": ("stays", FORESTAY, "mend Pretension, own: type it", [("stays", FORESTAY, "pretension_own", None)]),
    "a stay held hard on a warm day": ("stays", CAP, "held tighter than creep allows", [("stays", CAP, "pretension_own", 9.0)]),
    "a stub in the middle of the mast": ("stays", RUNNER, "mend Upper point: a stub sits on the side", [("points", "runner on mast", "out", 0.0)]),
    "a ring with a diameter of its own": ("stays", CAP, "mend Lower diameter, own: the ring gives it", [("stays", CAP, "lower_over_own", 100.0)]),
    "a rig wound up hard": ("stays", CAP, "of its load, 30 % of the wire's break", [("stays", CAP, "pretension_own", 12.0)]),
    "a rig wound up hard where no wire is known": ("stays", CAP, "set up to 54 % of its load", [("stays", CAP, "pretension_own", 5.0), ("stays", CAP, "wire", None)]),
    "two bolts for one hole": ("tangs", CAP_STUB, "two bolts for one hole", [("tangs", f"cap stub, {side}", "sides", 1.0) for side in ("port", "starboard")]),
    "a thick line in a small ring": ("stays", CAP, "4 parts of the lashing need a hole of 26 mm, here it is 18 mm", [("stays", CAP, "line_own", TWELVE)]),
    "a lashing through a small hole": ("stays", CAP, "need a hole of 13 mm, here it is 12 mm", [("stays", CAP, "chainplate_hole", 12.0)]),
    "a chainplate weaker than its wire": ("stays", LOWER, "weaker than the wire that hung here", [("stays", LOWER, "chainplate", 14.0)]),
    "a wire picked two sizes too small": ("stays", CAP, "is it the right wire?", [("stays", CAP, "wire", "1x19 5 mm")]),
    "a nought lost in a point": ("tangs", LOWER_STUB, "the point on the mast is 5 mm out, half the mast's width is 55 mm", [("points", "fore lower on mast", "out", 5.0)]),
    "a stainless bolt said to be of alloy steel": ("bolt", BOLT, "above the class in its name", [("bolt", BOLT, "strength", 1400.0), ("bolt", BOLT, "yield_stress", 1250.0)]),
    "a proof stress alone too high": ("bolt", BOLT, "above the class in its name", [("bolt", BOLT, "yield_stress", 640.0)]),
    "a rope's mass that is a tenth": ("rope", TEN, "mass and size hardly belong", [("rope", TEN, "mass", 5.8)]),
    "the break load of the next size": ("rope", LINE, "a thicker rope of its family holds no more", [("rope", LINE, "break_load", 51.0)]),
    "a ring's load tenfold": ("ring", RING, "working load and size hardly belong", [("ring", RING, "load", 400.0)]),
    "a ring without metal": ("ring", RING, "mend Hole: it is not smaller than the groove", [("ring", RING, "hole", 30.0)]),
    "a rope of no status": ("rope", TEN, "mend Status: it is blank", [("rope", TEN, "status", None)]),
    "an item to be mended": ("order", TEN, "mend the item: its row on Library", [("rope", TEN, "mass", None)]),
    "an entry of a stay to be mended": ("log", "A1", "mend Stay: its row on Stays", [("stays", CAP, "basis", None)]),
    "a stay that went slack": ("log", "A1", "tension is low: 0.60 kN", [("log", "A1", "tension_own", 0.6)]),
    "a stay wound up since": ("log", "A1", "tension is high: 6.00 kN", [("log", "A1", "tension_own", 6.0)]),
    "nothing but a tape": ("stays", RUNNER, "are compared with no points: measure both twice", [("stays", RUNNER, key, held) for key, held in (("note", None), ("upper", None), ("lower", None), ("length_own", 9700.0), ("angle_own", 3.0))]),
    "one side measured wrong": ("stays", CAP, "no other stay from its upper point is as long", [("points", "cap chainplate, port", "fore_own", -2050.0)]),
    "the other side measured wrong": ("stays", CAP, "no other stay from its upper point is as long", [("points", "cap chainplate, starboard", "fore_own", -2050.0)]),
    "a pair of lowers left out": ("stays", LOWER, "is for 4 such shrouds, here are 2", [("stays", f"aft lower, {side}", "share", None) for side in ("port", "starboard")]),
    "a chainplate in kilograms": ("stays", CAP, "is it in kN?", [("stays", CAP, "chainplate", 1000.0)]),
    "no wire to compare with": ("stays", CAP, "no wire replaced is named", [("stays", CAP, "wire", None)]),
    "a set with a nought too many": ("rope", TEN, "the set is small", [("rope", TEN, "lasting_set", 0.0012)]),
    "a take-up of two splices": ("rope", TEN, "the take-up is large", [("rope", TEN, "take_up", 0.2)]),
    "two stubs a side on one bolt": ("tangs", LOWER_STUB, "more than one stub on a side", [("stays", f"aft lower, {side}", "upper", "fore lower on mast") for side in ("port", "starboard")]),
    "another bolt on the other side": ("tangs", CAP_STUB, "at this height has another bolt", [("tangs", CAP_STUB, "bolt_own", "M16 A4-70")]),
    "a mast that is wider on one side": ("tangs", CAP_STUB, "another width of the mast", [("tangs", CAP_STUB, "mast_width_own", 130.0)]),
    "a stub without its other side": ("tangs", CAP_STUB, "half a bolt is left over", [("tangs", "cap stub, starboard", key, None) for key in ("name", "number", "stay", "rod_own", "bolt_own", "sides")]),
    "legs weaker than the backstay": ("stays", BACKSTAY, "from its lower point down are loaded less", [("stays", BACKSTAY, "basis", "typed"), ("stays", BACKSTAY, "load_own", 25.0), ("stays", BACKSTAY, "note", "invented"), ("stays", BACKSTAY, "rope_own", TWELVE)]),
    "legs set up to another tension": ("stays", BACKSTAY, "its pretension and that of the stays from its lower point", [("stays", "backstay leg", "pretension_own", 3.0)]),
    "a load from nowhere": ("stays", RUNNER, "say under Note where it comes from", [("stays", RUNNER, "note", None)]),
    "a bolt that takes a bend": ("tangs", CAP_STUB, "the load bends the bolt for good", [("tangs", CAP_STUB, "bolt_own", "M16 A4-70")]),
    "a pull off the middle of the stub": ("tangs", CAP_STUB, "one end lifts off", [("off_middle", 0.01)]),
    "a drill that wanders": ("tangs", CAP_STUB, "drilled 0.8 mm too high", [("drill_off", 0.8)]),
    "a creep nobody knows": ("stays", CAP, "the creep of the rope is not known", [("rope", TEN, "creep", None)]),
    "a hole that lets it flip": ("tangs", CAP_STUB, "may flip over under load: drill the hole", [("tangs", CAP_STUB, "hole_own", 28.5)]),
    "little rod above the bolt": ("tangs", CAP_STUB, "mm of rod above the bolt", [("tangs", CAP_STUB, "hole_own", 18.0)]),
    "a rod turned from sheet": ("tangs", CAP_STUB, "fibres of the rod", [("rod", ROD, "construction", "sheet turned round")]),
    "a plate too large for the eye": ("tangs", CAP_STUB, "the eye: will not pass over", [("tangs", CAP_STUB, "girth_own", "600 mm")]),
    "no place below a spreader": ("tangs", LOWER_STUB, "mend Room above: no hole", [("tangs", LOWER_STUB, "room", 12.0)]),
    "a low spreader": ("tangs", LOWER_STUB, "does not fit under the stop", [("tangs", LOWER_STUB, "room", 35.0), ("tangs", LOWER_STUB, "hole_own", 22.0)]),
    "a rod to be mended": ("tangs", CAP_STUB, "mend Rod: its row on Library", [("rod", ROD, "density", None)]),
    "a bolt to be mended": ("tangs", CAP_STUB, "mend Bolt: its row on Library", [("bolt", BOLT, "strength", None)]),
    "a stay to be mended": ("tangs", CAP_STUB, "mend Stay: its row on Stays", [("stays", CAP, "basis", None)]),
    "a weak bolt": ("tangs", CAP_STUB, "bolt holds", [("tangs", CAP_STUB, "bolt_own", "M12 A4-70")]),
    "a steep bevel": ("tangs", CAP_STUB, "bevel above 25°", [("stays", CAP, "angle_own", 26.0)]),
    "a wall nobody measured": ("tangs", CAP_STUB, "the mast wall is not measured", [("wall", None)]),
    "a rope too strong to be true": ("rope", TEN, "hardly belong together", [("rope", TEN, "break_load", 1020.0)]),
    "a rope too weak to be true": ("rope", TEN, "hardly belong together", [("rope", TEN, "break_load", 5.0)]),
    "a share too small to be true": ("share", SHROUD, "the share is small", [("share", SHROUD, "share", 0.045)]),
    "an item that Order lacks": ("rod", ROD, "it is not on Order", [("order", ROD, "name", None)]),
    "creep at no temperature": ("rope", TEN, "mend Creep: type at what temperature", [("rope", TEN, "creep_temp", None)]),
    "a stub worn thin": ("log", "A1", "worn below 15.4 mm", [("log", "A1", "ligament_left", 15.0)]),
    "a bolt's proof above its strength": ("bolt", BOLT, "mend Proof stress", [("bolt", BOLT, "yield_stress", 720.0)]),
}  # fmt: skip


@pytest.mark.parametrize("question", QUESTIONS)
def test_it_is_asked_on_the_row_and_nowhere_without_the_edit(demo, question):
    table, row, words, edits = QUESTIONS[question]
    check = named.cell(demo, table, "check", row)
    assert named.without_status(check.String) == "OK"
    with ExitStack() as typed:
        for cell, held in [(found(demo, *where), held) for *where, held in edits]:
            typed.enter_context(Restored(cell, held))
        assert words in check.String
        assert named.value(demo, "boat_wrong") > 0
    assert named.without_status(check.String) == "OK"
    assert named.value(demo, "boat_wrong") == 0


# What a sound boat may have, and no check may question: edits as above.
SOUND = {
    "a shroud set up to 15 % of its wire's break": [("stays", CAP, "pretension_own", 6.06), ("log", "A1", "tension_own", 6.0)],
    "a set that was measured": [("rope", TEN, "lasting_set", 0.003)],
    "a rope of 5 mm that holds 45 kN": [("rope", "HMPE 12-strand 5 mm", "break_load", 45.0), ("rope", LINE, "break_load", 55.0), ("rope", "HMPE 12-strand 7 mm", "break_load", 70.0), ("rope", "HMPE 12-strand 8 mm", "break_load", 80.0)],
    "aft lowers that lead well aft": [("points", f"aft lower chainplate, {side}", "fore_own", -1680.0) for side in ("port", "starboard")],
    "a cold day": [("tuned", 20.0), ("log", "A1", "temperature", 8.0), ("log", "A1", "tension_own", 1.1)],
    "a hot day": [("tuned", 15.0), ("log", "A1", "temperature", 30.0), ("log", "A1", "tension_own", 4.4)],
    "a hot day on a mast that gives": [("tuned", 15.0), ("log", "A1", "temperature", 30.0), ("log", "A1", "tension_own", 2.6)],
    "a cold day, and nobody knows when it was tuned": [("log", "A1", "temperature", 2.0), ("log", "A1", "tension_own", 0.8)],
    "a length on which tape and points nearly agree": [("stays", CAP, "length_own", "={}+8")],
}  # fmt: skip


@pytest.mark.parametrize("choice", SOUND)
def test_what_a_sound_boat_may_have_is_not_questioned(demo, choice):
    with ExitStack() as typed:
        for *where, held in SOUND[choice]:
            if isinstance(held, str):
                held = named.cell(demo, "stays", "length_points", CAP).Value + 8
            typed.enter_context(Restored(found(demo, *where), held))
        demo.calculateAll()
        said = {
            check
            for table in ("stays", "tangs", "rope", "log")
            for check in named.column(demo, f"{table}_check")
            if check and named.without_status(check) != "OK"
        }
        assert said == set()


ASSUMPTIONS = {
    "stay_rate": (12.0, "a minus is missing"),
    "rake": (-1.0, "aft is positive"),
    "mast_fore": (90.0, "are width and section swapped?"),
    "bury": (45.0, "looser than Loftsheet's 72"),
    "throat": (60.0, "looser than Loftsheet's 30"),
    "friction": (0.0, "looser than Loftsheet's 0.15"),
    "hold": (0.5, "looser than Loftsheet's 0.15"),
    "margin": (2.0, "looser than Loftsheet's 3"),
    "margin_metal": (1.0, "looser than Loftsheet's 1.5"),
}


@pytest.mark.parametrize("key", ASSUMPTIONS)
def test_an_assumption_that_is_odd_or_looser_is_said_on_boat(demo, key):
    held, words = ASSUMPTIONS[key]
    cell = named.cells(demo, f"boat_{key}")
    check = cell.Spreadsheet.getCellByPosition(
        named.cells(demo, "boat_check").RangeAddress.StartColumn, cell.CellAddress.Row
    )
    before = named.value(demo, "boat_weigh_boat")
    assert check.String == "OK"
    with Restored(cell, held):
        assert words in check.String
        assert named.value(demo, "boat_weigh_boat") == before + 1
        assert named.value(demo, "boat_wrong_boat") == 0
    assert check.String == "OK"


def test_what_rests_on_no_certificate_is_said_on_each_stay_and_counted(demo):
    """Every rope of the demo is invented; with certificates nothing is left to say."""
    stays = [check for check in named.column(demo, "stays_check") if check]
    assert {check.partition(": ")[0] for check in stays} == {"OK, but no certificate"}
    assert named.check(demo, "stays", CAP).endswith(": rope, line, ring")
    assert "wire" not in named.check(demo, "stays", CAP)
    assert "wire" in named.check(demo, "stays", FORESTAY)
    assert named.value(demo, "boat_unproven") == len(stays)
    with ExitStack() as typed:
        for table in ("rope", "ring", "wire"):
            for name in (name for name in named.column(demo, f"{table}_name") if name):
                typed.enter_context(Restored(named.cell(demo, table, "status", name), "certificate"))
        assert set(named.column(demo, "stays_check")) == {"OK", ""}
        assert named.value(demo, "boat_unproven") == 0
        with Restored(named.cell(demo, "rope", "status", TEN), "maker's figure"):
            assert named.check(demo, "stays", CAP) == "OK, but no certificate: rope"
        with Restored(named.cell(demo, "ring", "status", RING), "maker's figure"):
            assert named.check(demo, "stays", CAP) == "OK"
        with Restored(named.cell(demo, "bolt", "status", BOLT), "assumed"):
            assert named.check(demo, "tangs", CAP_STUB) == "OK, but no certificate: bolt"


def test_nothing_is_short_by_nought_percent(demo):
    spare = named.cell(demo, "stays", "spare_chainplate", CAP)
    chainplate = named.cell(demo, "stays", "chainplate", CAP)
    with Restored(chainplate, chainplate.Value / (1 + spare.Value) * 0.999):
        assert "chainplate is short by less than 1 %" in named.check(demo, "stays", CAP)
    margin, own = (named.cell(demo, "stays", key, CAP) for key in ("margin", "margin_own"))
    with Restored(own, math.ceil(margin.Value * 100) / 100):
        assert re.search(r"margin (\S+) is below (?!\1)", named.check(demo, "stays", CAP))


def test_an_own_length_that_the_lashing_could_not_close_is_questioned(demo):
    """A stay made 20 mm too long: of what is below eye and ring, 15 + 10 + 2 mm, 13 mm would be left."""
    points = named.cell(demo, "stays", "length_points", CAP).Value
    assert named.cell(demo, "stays", "closes", CAP).Value == pytest.approx(33)
    with Restored(named.cell(demo, "stays", "length_own", CAP), points + 20):
        assert "differ by 20 mm, the lashing can close 33 mm" in named.check(demo, "stays", CAP)


@pytest.mark.parametrize("column", ["bolt_own", "rod_own", "root", "check"])
def test_what_reads_a_row_whose_cells_were_shifted_is_not_ok(demo, column):
    """Cells inserted into one row of Tangs: the stay would read another column's number."""
    from com.sun.star.sheet.CellInsertMode import RIGHT

    cell = named.cell(demo, "tangs", column, CAP_STUB)
    cell.Spreadsheet.insertCells(cell.RangeAddress, RIGHT)
    demo.calculateAll()
    assert "mend Tangs: the stub of this stay" in named.check(demo, "stays", CAP)
    assert named.value(demo, "boat_mend") > 0


def found(book, table, row=None, column=None):
    return named.cell(book, table, column, row) if row else named.cells(book, f"boat_{table}")


def test_stay_and_stub_do_not_point_at_each_other(demo):
    """The row where it begins says what is wrong; the other one leads there."""
    with Restored(named.cell(demo, "tangs", "room", LOWER_STUB), 12.0):
        assert "mend Tangs: the stub of this stay has to be mended first" in named.check(demo, "stays", LOWER)
        assert "Stays" not in named.check(demo, "tangs", LOWER_STUB)
    with Restored(named.cell(demo, "stays", "basis", LOWER), None):
        assert "Tangs" not in named.check(demo, "stays", LOWER)
        assert "mend Stay: its row on Stays has to be mended first" in named.check(demo, "tangs", LOWER_STUB)


def test_stays_of_two_lengths_from_one_point_are_each_compared_with_their_other_side(demo):
    with ExitStack() as typed:
        for side in ("port", "starboard"):
            typed.enter_context(
                Restored(named.cell(demo, "stays", "upper", f"aft lower, {side}"), "fore lower on mast")
            )
            typed.enter_context(
                Restored(named.cell(demo, "points", "fore_own", f"aft lower chainplate, {side}"), -1600.0)
            )
        lengths = [named.cell(demo, "stays", "length", f"{which} lower, port").Value for which in ("fore", "aft")]
        assert abs(lengths[1] / lengths[0] - 1) > 2 * named.value(demo, "boat_length_off")
        for lower in (f"{which} lower, {side}" for which in ("fore", "aft") for side in ("port", "starboard")):
            assert "no other stay" not in named.check(demo, "stays", lower)
        with Restored(named.cell(demo, "points", "fore_own", "aft lower chainplate, starboard"), -1900.0):
            assert "no other stay" in named.check(demo, "stays", "aft lower, port")
            assert "no other stay" not in named.check(demo, "stays", LOWER)


def test_an_error_is_named_once_by_the_column_where_it_begins(demo):
    with Restored(named.cell(demo, "stays", "length_own", CAP), "=NA()"):
        said = named.check(demo, "stays", CAP)
    assert named.without_status(said).split("; ") == [
        "mend Length, own: it is an error",
        "mend errors from here on: Length",
    ]


def test_errors_are_said_to_begin_where_the_cause_is(demo):
    """No lashing gives so large a margin; what is worked out from its parts stands further left on the sheet."""
    with Restored(named.cell(demo, "stays", "margin_own", CAP), 12.0):
        assert "mend errors from here on: Lashing parts" in named.check(demo, "stays", CAP)


def test_a_rope_of_another_family_serves_where_the_boats_has_none_strong_enough(demo):
    """Nothing is an error then: the row goes on being worked out."""
    with Restored(named.cells(demo, "boat_family"), "none such"):
        assert named.cell(demo, "stays", "smallest", CAP).String == "none"
        assert named.cell(demo, "stays", "margin", CAP).Value > 1
        assert "mend" not in named.check(demo, "stays", CAP)


def test_a_rope_heavier_than_the_wire_takes_righting_moment_away(demo):
    gain = named.cell(demo, "stays", "rm_gain", CAP)
    before = gain.Value
    with Restored(named.cell(demo, "rope", "mass", TEN), 900.0):
        assert gain.Value < 0 < before


def test_a_stub_drilled_as_much_too_low_as_drilling_may_be_off_is_still_upright(demo):
    """With the eye at the end plate, the worst place for it."""
    off = named.value(demo, "boat_drill_off")
    lowest = [held for held in named.column(demo, "tangs_upright_worst") if held != ""]
    assert min(lowest) >= off > 0


def test_order_says_exactly_what_and_what_it_costs(demo):
    """Break load of rope with certificate, longest piece, sizes of rings; prices added up, and how many are missing."""
    exactly = dict(zip(named.column(demo, "order_name"), named.column(demo, "order_exactly")))
    assert exactly[TEN] == "break load 102 kN (invented, certificate asked for), EA 3825 kN, 58 g/m"
    assert exactly["ring 40 mm"] == "groove 40 mm, hole 24 mm, load 70 kN (invented)"
    assert exactly[ROD] == "filament wound, diameter 60 mm"
    longest = dict(zip(named.column(demo, "order_name"), named.column(demo, "order_longest")))
    assert longest[TEN] == max(
        cut for cut, rope in zip(named.column(demo, "stays_cut"), named.column(demo, "stays_rope")) if rope == TEN
    )
    totals = [held for held in named.column(demo, "order_total") if isinstance(held, float)]
    assert named.cell(demo, "control", "price", "every row").Value == pytest.approx(sum(totals)) != 0
    bought = [held for held in named.column(demo, "order_quantity") if isinstance(held, float) and held]
    priced = [total for total in totals if total]
    assert named.cell(demo, "control", "unpriced", "every row").Value == len(bought) - len(priced)
    with Restored(named.cell(demo, "order", "lead", TEN), 21.0):
        assert named.cell(demo, "control", "lead", "rope").Value == 21


def test_a_stay_that_was_measured_on_the_boat_needs_no_points(demo):
    edits = {
        "upper": None,
        "via": None,
        "lower": None,
        "length_own": 13000.0,
        "angle_own": 11.0,
        "note": "measured twice",
    }
    with ExitStack() as typed:
        for column, held in edits.items():
            typed.enter_context(Restored(named.cell(demo, "stays", column, CAP), held))
        said = [named.check(demo, table, row) for table, row in (("stays", CAP), ("tangs", CAP_STUB))]
        assert [named.without_status(check) for check in said] == ["OK", "OK"]
        assert named.cell(demo, "tangs", "clear_up", CAP_STUB).String == ""


def test_a_stay_straight_down_the_mast_has_no_mended_stub(demo):
    with Restored(named.cell(demo, "stays", "angle_own", CAP), 0.0):
        assert "mend" not in named.check(demo, "tangs", CAP_STUB)
        assert named.cell(demo, "tangs", "clear_up", CAP_STUB).Value == 0


def test_a_stub_without_a_stay_is_not_said_to_share_one(demo):
    with Restored(named.cell(demo, "tangs", "stay", CAP_STUB), None):
        assert "mend Stay: it is blank" in named.check(demo, "tangs", CAP_STUB)
        assert "on another stub too" not in named.check(demo, "tangs", CAP_STUB)


def test_a_look_that_is_overdue(demo):
    entry = named.cell(demo, "log", "date", "A1")
    today = (datetime.date.today() - datetime.date(1899, 12, 30)).days
    for date, due in ((today - 30, ""), (today - 400, "overdue")):
        with Restored(entry, float(date)):
            assert named.cell(demo, "log", "due", "A1").String == due


def test_a_lashing_ages_like_the_rest(demo):
    spare = named.cell(demo, "stays", "spare_lashing", FORESTAY)
    with Restored(named.cells(demo, "boat_friction"), 0.0), Restored(named.cells(demo, "boat_parts_least"), 24.0):
        before = spare.Value  # with so many parts in any case
        with Restored(named.cells(demo, "boat_ageing"), 0.4):
            assert (1 + spare.Value) / (1 + before) == pytest.approx(0.5)
