"""One stay and its stub worked out from what was typed, by vectors and arithmetic, with none of our functions.

The invented demo boat's cap shroud to port: survey, load, pretension, size, stub, bolt, lashing.
"""

import math

import numpy as np
import pytest

from templates.boats import marrowick, sandlebee
from tests.office import named
from tests.office.restored import Restored

pytestmark = pytest.mark.office

BOAT, MAST = marrowick.BOAT, marrowick.MASTS[0]
STAY, STUB, ROPE, BOLT, ROD = (
    "cap shroud, port",
    "cap stub, port",
    "HMPE 12-strand 10 mm",
    "M20 A4-70",
    "FR-4 rod 65 mm",
)
SPLICE, AGEING, MARGIN, BEYOND = 0.9, 0.8, 3, 1.5  # as Boat of a new schedule has them
SURVEYED = {row["name"]: row for row in marrowick.POINTS}


@pytest.fixture(scope="module")
def demo_cells(demo_file, running_office):
    """What the schedule of the demo boat holds, by table and column."""
    book = running_office.load(demo_file)
    running_office.recalculate(book)
    yield lambda table, column, row: named.cell(book, table, column, row).Value
    running_office.close(book)


@pytest.fixture(scope="module")
def given(demo_cells):
    rows = {"stays": STAY, "tangs": STUB, "rope": ROPE, "bolt": BOLT, "rod": ROD}
    return lambda table, column: demo_cells(table, column, rows[table])


def point(name):
    """Fore, out, up: as typed, or along a mast that leans aft."""
    row = SURVEYED[name]
    if "along" not in row:
        return np.array([row["fore_own"], row["out"], row["up_own"]])
    lean = math.radians(MAST["rake"])
    return np.array([-row["along"] * math.sin(lean), row["out"], row["along"] * math.cos(lean)])


UPPER, TIP, LOWER = (point(name) for name in ("cap shroud on mast", "spreader tip, port", "cap chainplate, port"))
DOWN = TIP - UPPER
ANGLE_OUT = math.atan2(DOWN[1], -DOWN[2])


def test_the_survey(given):
    lean = math.radians(MAST["rake"])
    axis = np.array([math.sin(lean), 0, -math.cos(lean)])  # of the mast, downwards
    to_mast = math.degrees(math.acos(DOWN @ axis / np.linalg.norm(DOWN)))
    assert given("stays", "length") == pytest.approx(np.linalg.norm(DOWN) + np.linalg.norm(LOWER - TIP))
    assert given("stays", "angle") == pytest.approx(math.degrees(ANGLE_OUT))
    assert given("stays", "angle_load") == pytest.approx(to_mast)


def test_load_pretension_and_size(given):
    side = BOAT["rm30"] * BEYOND / (BOAT["chainplate_out"] / 1000)  # downwards at the chainplates, kN
    load = 0.45 * side / math.cos(math.radians(given("stays", "angle_load")))
    assert given("stays", "load") == pytest.approx(load)
    windward_gains = load / BEYOND * math.sin(math.radians(BOAT["lee_heel"])) / math.sin(math.radians(30))
    assert given("stays", "pretension") == pytest.approx(windward_gains / 2)
    assert given("stays", "need_strength") == pytest.approx(load * MARGIN / SPLICE / AGEING)
    # Arrhenius from 20 °C to 30 °C with 145 kJ/mol, load to the power of 5.
    faster = math.exp(145_000 / 8.314462618 * (1 / 293.15 - 1 / 303.15))
    assert given("stays", "need_hold") == pytest.approx(windward_gains / 2 / (0.15 / faster ** (1 / 5)))


def test_what_warmth_does(given):
    """A mast that grows by 23.6 and a rope that shortens by 12 millionths a kelvin."""
    strain = BOAT["warmer"] * (23.6 + 12) * 1e-6
    stiffness = given("rope", "ratio") * given("rope", "break_load")
    assert given("stays", "tighten_tension") == pytest.approx(strain * stiffness)
    assert given("stays", "colder_tension") == pytest.approx(given("stays", "pretension") - strain * stiffness)


def test_the_lashing(given):
    """The hand, and each part, pulls more than the next by half a turn on the ring, friction 0.15."""
    parts = round(given("stays", "parts"))
    hold = sum(math.exp(-0.15 * math.pi) ** part for part in range(1, parts + 1))
    assert given("stays", "haul") == pytest.approx(given("stays", "pretension") / hold)


class SawnStub:
    """A stub on the mast: x outwards, y up, from the top edge of its bevelled face, which stands upright."""

    def __init__(self, given):
        self.rod, self.top = given("rod", "size"), given("tangs", "top")
        self.tilt = ANGLE_OUT + math.radians(2)  # square to the stay, and two degrees more
        self.outwards = np.array([math.cos(self.tilt), math.sin(self.tilt)])
        self.inwards = np.array([math.sin(self.tilt), -math.cos(self.tilt)])  # from the top into the rod

    def on_axis(self, along):
        """The rod's axis under a place on top, so far from the bevelled face."""
        return along * self.outwards + self.rod / 2 * self.inwards

    def end_plate(self, sleeved):
        """How far out the eye's middle may be: it touches the end plate."""
        return self.top - sleeved / 2


def test_the_stub(given):
    stub = SawnStub(given)
    foot = np.array([0, -stub.rod / math.cos(stub.tilt)])  # the lower edge of the bevelled face
    base = (stub.top * stub.outwards + stub.rod * stub.inwards - foot) @ stub.outwards
    assert given("tangs", "bevel") == pytest.approx(math.degrees(stub.tilt))
    assert given("tangs", "face") == pytest.approx(-foot[1])
    assert given("tangs", "base") == pytest.approx(base)
    depths = [
        0.45 * -foot[1],
        -stub.on_axis(stub.top / 2)[1],
        -stub.on_axis(stub.end_plate(12))[1] - BOAT["drill_off"],
    ]
    assert given("tangs", "hole") == pytest.approx(math.floor(min(depths) * 10) / 10)  # rope of 10, sleeve of 1 mm


def test_the_bolt(given):
    """The pull's lever about the bolt, in the middle of the mast's wall, and the round that bends."""
    stub = SawnStub(given)
    held = np.array([-(2 + MAST["wall"] / 2), -given("tangs", "hole")])  # a pad of 2 mm
    way = stub.on_axis(stub.end_plate(12)) - held
    pull = np.array([math.sin(ANGLE_OUT), -math.cos(ANGLE_OUT)])
    arm = abs(way[0] * pull[1] - way[1] * pull[0])
    assert given("tangs", "arm_worst") == pytest.approx(arm)
    assert given("tangs", "moment") == pytest.approx(given("stays", "load") * arm)
    section = math.pi * 20**3 / 32  # mm³
    assert given("tangs", "straight") == pytest.approx(0.8 * section * given("bolt", "yield_stress") / 1000)
    assert given("tangs", "bolt_moment") == pytest.approx(
        1.5 * section * given("bolt", "yield_stress") / 1.25 / 1000
    )


def lead(upper, lower):
    """Unit vector of a stay, downwards: its parts along the mast, forward and outward, square to it."""
    lean = math.radians(MAST["rake"])
    down, forward = np.array([math.sin(lean), 0, -math.cos(lean)]), np.array([math.cos(lean), 0, math.sin(lean)])
    way = (point(lower) - point(upper)) / np.linalg.norm(point(lower) - point(upper))
    return way @ down, way @ forward, way[1]


def test_a_pair_of_lowers_holds_what_both_owe_and_bends_the_mast_neither_way(demo_cells):
    lowers = {end: lead(f"{end} lower on mast", f"{end} lower chainplate, port") for end in ("fore", "aft")}
    share = next(row["share"] for row in marrowick.ROWS["share"] if row["name"] == marrowick.LOWER)
    side = BOAT["rm30"] * BEYOND / (BOAT["chainplate_out"] / 1000)
    alone = {end: side / along * share for end, (along, _, _) in lowers.items()}
    owed = sum(alone[end] * out for end, (_, _, out) in lowers.items())
    across = np.array([[lowers[end][part] for end in ("fore", "aft")] for part in (2, 1)])
    fore, aft = np.linalg.solve(across, [owed, 0])
    assert fore > 1.3 * alone["fore"] and aft < 0.7 * alone["aft"]
    for end, tension in (("fore", fore), ("aft", aft)):
        assert demo_cells("stays", "load_pair", f"{end} lower, port") == pytest.approx(tension)
        assert demo_cells("stays", "load", f"{end} lower, port") == pytest.approx(max(tension, alone[end]))


def test_the_backstay_balances_the_forestay_square_to_the_mast(demo_cells):
    forestay, backstay = lead("masthead", "stem head")[1], lead("masthead", "backstay split")[1]
    needed = demo_cells("stays", "pretension", "forestay") * forestay / -backstay
    assert demo_cells("stays", "balance", "backstay, upper part") == pytest.approx(needed)


@pytest.fixture(scope="module")
def yawl(second_demo_file, running_office):
    book = running_office.load(second_demo_file)
    running_office.recalculate(book)
    yield book
    running_office.close(book)


def test_the_mizzen_stands_and_leans_by_itself(yawl):
    """Its foot, rake and section, not the main's; its stubs are no neighbours of the main's at their height."""
    main, mizzen = sandlebee.MASTS
    points = {row["name"]: row for row in sandlebee.POINTS}
    shroud, plate = points["mizzen shroud on mast"], points["mizzen chainplate, port"]
    lean = math.radians(mizzen["rake"])
    axis = np.array([-math.sin(lean), 0, math.cos(lean)])  # upwards
    upper = np.array([mizzen["foot_fore"], shroud["out"], mizzen["foot_up"]]) + shroud["along"] * axis
    way = np.array([plate["fore_own"], plate["out"], plate["up_own"]]) - upper
    stay, stub = "mizzen shroud, port", "mizzen stub, port"
    to_mast = math.degrees(math.acos(way @ -axis / np.linalg.norm(way)))
    assert named.cell(yawl, "stays", "length", stay).Value == pytest.approx(np.linalg.norm(way))
    assert named.cell(yawl, "stays", "angle_mast", stay).Value == pytest.approx(to_mast)
    tube = named.cell(yawl, "tangs", "tube", stub).Value
    assert tube == pytest.approx(mizzen["width"] - 2 * mizzen["wall"])
    size, load = (named.cell(yawl, "tangs", key, stub).Value for key in ("bolt_size", "wall_load"))
    bears = 1.5 * size * mizzen["wall"] * mizzen["proof"] / 1.1 / 1000  # EN 1993-1-8 table 3.10, kN
    assert named.cell(yawl, "tangs", "wall_spare", stub).Value == pytest.approx(bears / load / 1.5 - 1)
    assert named.cell(yawl, "tangs", "mast_width", "main lower stub, port").Value == main["width"]
    heights = [named.cell(yawl, "tangs", "up", name).Value for name in (stub, "main lower stub, port")]
    assert abs(heights[0] - heights[1]) < 25, "near enough to be taken for neighbours on one mast"
    assert named.cell(yawl, "tangs", "beside", stub).Value == 2
    assert named.value(yawl, "boat_mend") == 0


def test_a_stub_takes_the_mast_of_its_stay(yawl):
    """The stay moves to the main: so do its stub's width and wall."""
    upper = named.cell(yawl, "stays", "upper", "mizzen shroud, port")
    with Restored(upper, "main lower on mast"):
        yawl.calculateAll()
        assert named.cell(yawl, "tangs", "mast_width", "mizzen stub, port").Value == sandlebee.MASTS[0]["width"]
        assert named.cell(yawl, "stays", "mast", "mizzen shroud, port").String == "main"
