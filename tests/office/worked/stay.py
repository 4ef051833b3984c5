"""Stays: each calculated column of a row, worked out."""

import math
from functools import cached_property
from types import MappingProxyType

from loftsheet import double, eye, lashing, loads, mass, splice, statics, strength, stretch, survey
from loftsheet.errors import CellError, NotInTable

from templates.sheets.stays import OF_ROPE, STAYS
from tests.office.worked.balance import most
from tests.office.worked.library import only_mast
from tests.office.worked.row import Kept, Row, Wrong, listed, said_as, same_text, stub_of, up_to_step

AXES = ("fore", "out", "up")
TIPS = ("via", "via_2")


def corner(which, axis):
    """One coordinate of a point of the stay; blank where no points are picked."""

    def coordinate(stay):
        if not stay.has("upper") or (which in TIPS and not stay.has(which)):
            return ""
        return stay.point(which)[AXES.index(axis)]

    return property(coordinate)


def tip(which, axis):
    """One coordinate of a spreader's tip; blank where the stay goes over none."""
    return property(lambda stay: stay.point(which)[AXES.index(axis)] if stay.has(which) else "")


SHROUDS = ("cap shroud", "intermediate", "lower fore", "lower aft", "single lower")
OVER_A_RING = ("forestay", "inner forestay", "backstay", "backstay leg")
NOTHING_RUNS = (*SHROUDS, "backstay", "backstay leg", "runner")


def lies_over(stay):
    """A stub of its own, or a ring where no stub is usual; nothing of wire that stays."""
    if stay.is_wire:
        return ""
    of_stubs = (stay.schedule.cells.column(f"tangs_{key}") for key in ("stay", "stay_2"))
    if any(said_as(named, stay.given("name")) for column in of_stubs for named in column):
        return "stub"
    if stay.kind not in OVER_A_RING:
        raise Wrong("what the upper end lies over is not said")
    return "ring"


def runs(stay):
    if stay.kind not in NOTHING_RUNS:
        raise Wrong("what runs on it is not said")
    return "nothing"


def basis(stay):
    if stay.has("load_own"):
        return "typed"
    if stay.kind in SHROUDS:
        return "righting moment"
    if not stay.has("wire"):
        raise Wrong("where its load comes from is not said")
    return "wire replaced"


SHARES = {
    "cap shroud": "cap shroud, one spreader",
    "lower fore": "each of two lowers",
    "lower aft": "each of two lowers",
    "single lower": "single lower",
}


def share(stay):
    """The usual one of its kind, where the load is from the righting moment; of a cap shroud with one spreader."""
    if not stay.is_from_the_righting_moment:
        return ""
    several = stay.kind == "cap shroud" and (not stay.has("via") or stay.has("via_2"))
    if several or stay.kind not in SHARES:
        raise Wrong("which share it has is not said")
    return stay.find("share", SHARES[stay.kind]).text("name")


class Stay(Row):
    defaults = MappingProxyType(
        {
            "number": lambda stay: 2.0 if stay.says("side", "both") else 1.0,
            "upper_over": lies_over,
            "lower_over": lambda stay: "" if stay.is_wire else "ring",
            "runs": runs,
            "basis": basis,
            "share": share,
        }
    )

    @property
    def is_from_the_righting_moment(self):
        try:
            return self.says("basis", "righting moment")
        except Wrong:
            return False

    @property
    def kind(self):
        return self.text("kind").casefold() if self.has("kind") else ""

    upper_fore, upper_out, upper_up = (corner("upper", axis) for axis in AXES)
    lower_fore, lower_out, lower_up = (corner("lower", axis) for axis in AXES)
    next_fore, next_out, next_up = (corner("next", axis) for axis in AXES)

    via_fore, via_out, via_up = (tip("via", axis) for axis in AXES)
    via_2_fore, via_2_out, via_2_up = (tip("via_2", axis) for axis in AXES)
    above_fore, above_out, above_up = (corner("above", axis) for axis in AXES)

    @property
    def is_wire(self):
        return self.says("made_of", "existing wire")

    def point(self, which):
        """Upper, via, via_2 or lower; or the next below the upper, or the last above the lower."""
        way = [key for key in ("upper", *TIPS, "lower") if key not in TIPS or self.has(key)]
        key = {"next": way[1], "above": way[-2]}.get(which, which)
        return self.find("points", self.text(key)).place

    @property
    def mast(self):
        """Of its upper point, of the stay that ends there, or the only one."""
        named = self.find("points", self.text("upper")).on_mast if self.has("upper") else ""
        return named or self.mast_above or only_mast(self.schedule)

    @property
    def mast_above(self):
        """Where it begins in the air: the mast of the stay that ends there."""
        upper = self.typed.get("upper")
        stays = self.schedule.rows("stays")
        above = next((stay for stay in stays if said_as(stay.typed.get("lower"), upper)), None)
        try:
            return self.find("points", above.text("upper")).on_mast if above else ""
        except (Wrong, NotInTable):
            return ""

    @property
    def mast_row(self):
        return self.find("masts", self.mast)

    @property
    def rake(self):
        return self.mast_row.measure("rake", "°")

    @property
    def count(self):
        number = self.number("number")
        if number < 1 or number % 1:
            raise Wrong("number is no whole number from 1")
        return number

    @cached_property
    def length(self):
        return self.own_or("length_own", self.length_by_points, "mm")

    @property
    def length_points(self):
        return self.length_by_points() if self.has("upper") else ""

    def length_by_points(self):
        way = [self.point(which) for which in ("upper", *TIPS, "lower") if which not in TIPS or self.has(which)]
        return sum(survey.stay_length(*start, *end) for start, end in zip(way, way[1:]))

    @cached_property
    def angle(self):
        return self.own_or("angle_own", lambda: survey.stay_out(*self.point("upper"), *self.point("next")), "°")

    @property
    def angle_fore(self):
        if not self.has("upper"):
            return ""
        return survey.stay_fore(*self.point("upper"), *self.point("next"), self.rake)

    @property
    def angle_mast(self):
        if not self.has("upper"):
            return ""
        return survey.stay_angle(*self.point("upper"), *self.point("next"), self.rake)

    @property
    def angle_load(self):
        """The angle at which the load pulls along the mast; the angle out where no points are picked."""
        return self.angle_mast if self.has("upper") else self.angle

    @property
    def via_length(self):
        return survey.stay_length(*self.point("upper"), *self.point("via")) if self.via_fore != "" else ""

    def off_the_mast(self, which):
        """How far forward of the mast's middle a tip is at its height."""
        if not self.has(which):
            return ""
        (fore, _, up), mast = self.point(which), self.mast_row
        behind = (up - mast.measure("foot_up", "mm")) * math.tan(math.radians(self.rake))
        return fore - (mast.measure("foot_fore", "mm") - behind)

    via_off = property(lambda stay: stay.off_the_mast("via"))
    via_2_off = property(lambda stay: stay.off_the_mast("via_2"))

    def straight_past(self, which, above, below):
        """How far out the straight line from the point above to the one below is at the height of a tip."""
        if not self.has(which):
            return ""
        (_, out, up), (_, out_below, up_below) = self.point(above), self.point(below)
        share = (up - self.point(which)[2]) / (up - up_below)
        return out + (out_below - out) * share

    via_line = property(lambda stay: stay.straight_past("via", "upper", "via_2" if stay.has("via_2") else "lower"))
    via_2_line = property(lambda stay: stay.straight_past("via_2", "via", "lower"))

    @property
    def via_2_length(self):
        if not (self.has("via") and self.has("via_2")):
            return ""
        return self.via_length + survey.stay_length(*self.point("via"), *self.point("via_2"))

    def along_mast(self, tension):
        return self.count * tension * math.cos(math.radians(self.angle_mast)) if self.has("upper") else ""

    @property
    def pull(self):
        return self.along_mast(self.load)

    @property
    def pull_held(self):
        return self.along_mast(self.pretension)

    @property
    def wire(self):
        return self.find("wire", self.text("wire"))

    @property
    def wire_break(self):
        return self.wire.break_load if self.has("wire") else ""

    def way(self, start, end):
        return (*self.point(start), *self.point(end))

    @property
    def pull_fore(self):
        if not self.has("upper"):
            return ""
        return survey.stay_pull_fore(*self.way("upper", "next"), self.rake)

    @property
    def pull_out(self):
        return survey.stay_pull_out(*self.way("upper", "next")) if self.has("upper") else ""

    @property
    def lead(self):
        if self.pull_fore == "" or abs(self.pull_fore) < math.sin(math.radians(1)):
            return 0.0
        return math.copysign(1.0, self.pull_fore)

    @property
    def place(self):
        if not (self.has("kind") and self.has("side")):
            return ""
        return f"{self.text('kind')}, {self.text('side')}, {self.mast}"

    @cached_property
    def against(self):
        """The stay that balances it; None where there is none."""
        if self.place == "":
            return None
        side = self.text("side")
        otherwise = "port" if said_as(side, "both") else "both"
        looked_for = {
            "lower fore": [f"lower aft, {side}", f"lower aft, {otherwise}"],
            "lower aft": [f"lower fore, {side}", f"lower fore, {otherwise}"],
            "forestay": ["backstay, centreline"],
            "inner forestay": ["runner, port", "runner, both"],
            "backstay": ["forestay, centreline"],
            "runner": ["inner forestay, centreline"],
        }
        for wanted in looked_for.get(self.text("kind").lower(), []):
            for row in self.schedule.rows("stays"):
                if said_as(row.typed.get("place"), f"{wanted}, {self.mast}"):
                    return row
        return None

    @property
    def partner(self):
        return self.against.given("name") if self.against else ""

    @property
    def at_one_height(self):
        other = self.against
        if other is None or self.pull_fore == "" or other.pull_fore == "":
            return False
        apart = abs(self.point("upper")[2] - other.point("upper")[2])
        foot = self.mast_row.measure("foot_up", "mm")
        return apart <= self.boat.number("pair_apart") * (self.point("upper")[2] - foot)

    @property
    def balance(self):
        if not self.at_one_height:
            return ""
        return statics.stay_balance(self.against.pretension, self.against.pull_fore, self.pull_fore)

    @cached_property
    def load_pair(self):
        lowers = any(self.says("kind", name) for name in ("lower fore", "lower aft"))
        by_moment = self.says("basis", "righting moment")
        if not (lowers and by_moment and self.at_one_height and self.against.says("basis", "righting moment")):
            return ""
        other = self.against
        owed = self.load_alone * self.pull_out + other.load_alone * other.pull_out
        return statics.pair_tension(owed, self.pull_fore, self.pull_out, other.pull_fore, other.pull_out)

    @cached_property
    def load(self):
        known = (self.load_alone, self.load_pair, self.load_case, self.pretension)
        return max(held for held in known if held != "")

    @property
    def load_case(self):
        """The largest of all cases of Balance; blank without a waterline, for then no sail is in any of them."""
        tensions = self.schedule.rig.tensions(self.given("name")) if self.boat.has("waterline") else None
        return most(tensions)[0] if tensions else ""

    @property
    def load_from(self):
        if self.load == self.load_alone:
            return "by itself"
        if self.load == self.load_pair:
            return "in its pair"
        if self.load == self.load_case:
            return most(self.schedule.rig.tensions(self.given("name")))[1]
        return "pretension"

    @property
    def leg(self):
        """The first of the stays that go on from its lower point."""
        return self.goes_on_as.given("name") if self.goes_on else ""

    @property
    def goes_on_as(self):
        return next(
            row for row in self.schedule.rows("stays") if said_as(row.typed.get("upper"), self.text("lower"))
        )

    @property
    def split_angle(self):
        if not self.goes_on or self.has("via"):
            return ""
        return statics.split_angle(*self.way("upper", "lower"), *self.goes_on_as.point("lower"))

    @property
    def plate_row(self):
        """Its row on Chainplates; None where there is none."""
        lower = self.typed.get("lower")
        known = lower is not None and self.schedule.known("chainplates", self.given("lower"))
        return self.find("chainplates", lower) if known else None

    @property
    def plate(self):
        return self.text("lower") if self.plate_row else ""

    @property
    def plate_made_of(self):
        return (self.plate_row.typed.get("made_of") or "") if self.plate_row else ""

    @property
    def hole_there(self):
        if self.plate_row:
            return self.plate_row.lashing_hole
        return self.measure("chainplate_hole", "mm") if self.has("chainplate_hole") else ""

    @property
    def edge_there(self):
        if self.plate_row:
            return self.plate_row.edge
        return self.measure("chainplate_hole", "mm") if self.has("chainplate_hole") else 0.0

    @property
    def hangs(self):
        if not self.has("lower"):
            return 1.0
        lowers = self.schedule.cells.column("stays_lower")
        return float(sum(said_as(lower, self.text("lower")) for lower in lowers))

    def on_plate(self, pull, sign):
        if (self.hangs < 2 and self.plate == "") or not self.has("upper"):
            return ""
        return sign * self.at_one_plate * self.load * pull(*self.way("above", "lower"))

    @property
    def at_one_plate(self):
        one_place = self.typed.get("side") in ("port", "starboard", "centreline") or self.lower_out == 0
        return self.count if one_place else float(math.ceil(self.count / 2))

    @property
    def plates(self):
        return float(math.ceil(self.count / self.at_one_plate))

    line_size = property(lambda stay: stay.line_row.size)

    @property
    def passes(self):
        return self.at_one_plate * (self.parts // 2 + 1)

    @property
    def passes_hole(self):
        """For the lashings of all stays that share a chainplate without a row, whole millimetres."""
        if self.plate_row or not self.has("lower") or not self.has("chainplate_hole"):
            return ""
        if self.hangs * self.at_one_plate < 2:
            return ""
        here = [row for row in self.schedule.rows("stays") if said_as(row.typed.get("lower"), self.text("lower"))]
        roped = [row for row in here if not row.is_wire]
        thickest = max(row.line_size for row in roped)
        return float(math.ceil(lashing.lashing_hole(1, thickest, sum(row.passes for row in roped))))

    plate_fore = property(lambda stay: stay.on_plate(survey.stay_pull_fore, -1))
    plate_out = property(lambda stay: stay.on_plate(survey.stay_pull_out, -1))
    plate_up = property(lambda stay: stay.on_plate(survey.stay_pull_down, 1))

    @property
    def plate_load(self):
        """What all stays of its lower point pull together."""
        if self.plate_row:
            return self.plate_row.pull
        if self.hangs < 2:
            return self.at_one_plate * self.load
        here = [said_as(lower, self.text("lower")) for lower in self.schedule.cells.column("stays_lower")]
        axes = [self.schedule.cells.column(f"stays_plate_{axis}") for axis in AXES]
        sums = [sum(one for one, counts in zip(axis, here) if counts and isinstance(one, float)) for axis in axes]
        if any(isinstance(one, CellError) for axis in axes for one, counts in zip(axis, here) if counts):
            raise Wrong("a pull on the plate is an error")
        return math.hypot(*sums)

    @cached_property
    def load_alone(self):
        boat = self.boat
        if self.says("basis", "righting moment"):
            side = loads.shroud_total(
                boat.number("rm30"), boat.number("chainplate_out"), boat.number("load_factor"), self.angle_load
            )
            return side * self.find("share", self.text("share")).number("share")
        if self.says("basis", "wire replaced"):
            return self.wire.break_load / boat.number("wire_margin")
        if self.says("basis", "typed"):
            return self.measure("load_own", "kN")
        raise Wrong("no basis for the load")

    @cached_property
    def pretension(self):
        boat = self.boat

        def from_heel():
            if not self.says("basis", "righting moment"):
                raise Wrong("only a righting moment gives a pretension")
            load = self.load_alone if self.load_pair == "" else self.load_pair
            return loads.pretension(load, boat.number("lee_heel"), boat.number("load_factor"))

        return self.own_or("pretension_own", from_heel, "kN")

    @property
    def margin_required(self):
        if self.has("margin_own"):
            return self.number("margin_own")
        return self.boat.number("margin_wire" if self.is_wire else "margin")

    @property
    def margin_weakest(self):
        return self.margin_required * (1 + self.spare)

    @property
    def goes_on(self):
        """Whether other stays go on from its lower point."""
        if not self.has("lower"):
            return False
        lower, uppers = self.given("lower"), [stay.typed.get("upper") for stay in self.schedule.rows("stays")]
        if not isinstance(lower, str):
            return lower in uppers
        return any(isinstance(upper, str) and same_text(upper, lower) for upper in uppers)

    def below(self, pull):
        """Of the stays that go on from its lower point together; blank where one of the sheet is an error."""
        if not self.goes_on:
            return ""
        uppers, pulls = (self.schedule.cells.column(f"stays_{key}") for key in ("upper", pull))
        if any(isinstance(held, CellError) for held in (*uppers, *pulls)):
            return ""
        lower = self.text("lower")
        on = [isinstance(upper, str) and same_text(upper, lower) for upper in uppers]
        return sum(one for one, counts in zip(pulls, on) if counts and one is not None)

    @property
    def pull_below(self):
        return self.below("pull")

    @property
    def pull_held_below(self):
        return self.below("pull_held")

    @property
    def share_or_none(self):
        try:
            return self.text("share")
        except Wrong:
            return ""

    @property
    def as_long(self):
        """Others of its place in the rig that are as long, to whole millimetres; 1 if the first of them is."""
        if not (self.has("upper") and self.share_or_none):
            return ""
        off = self.boat.number("length_off") / 2
        least, most = math.floor(self.length * (1 - off)), math.ceil(self.length * (1 + off))
        columns = (self.schedule.cells.column(f"stays_{key}") for key in ("name", "upper", "share_used", "length"))
        at_point = [row for row in zip(*columns) if said_as(row[1], self.text("upper"))]
        twins = [row for row in at_point if said_as(row[2], self.text("share"))]
        as_long = [row for row in twins if isinstance(row[3], float) and least <= row[3] <= most]
        first = at_point[0]
        another = not isinstance(first[0], CellError) and not said_as(first[0], self.given("name"))
        if another and first in as_long:
            return 1.0
        return float(len(as_long) - 1) if len(twins) > 1 else ""

    @property
    def haul(self):
        if self.goes_on:
            return ""
        friction, turns = self.boat.number("friction"), self.boat.number("haul_turns")
        return loads.lashing_haul(self.pretension, self.parts, friction, turns)

    @property
    def rests(self):
        if self.is_wire:
            return listed([("wire", self.wire)])
        rings = dict.fromkeys(ring for ring in (self.upper_ring, self.lower_ring) if ring)
        figures = [("rope", self.rope_row)]
        figures += [("line", self.line_row)] if self.line_row is not self.rope_row else []
        figures += [("ring", self.find("ring", ring)) for ring in rings]
        figures += [("wire", self.wire)] if self.says("basis", "wire replaced") else []
        return listed(figures)

    @property
    def closes(self):
        """The gap without eye and ring above and, below, another stay's or what is round the hole."""
        ring, rope, sleeve = self.lower_under, self.rope_size, self.sleeve_wall
        edge = ring / 2 + rope + 2 * sleeve if self.goes_on else self.edge_there
        return lashing.lashing_close(self.take_up_left, ring, rope, edge, sleeve)

    @property
    def hole_needed(self):
        return lashing.lashing_hole(self.parts, self.line_row.size)

    @property
    def hole_least(self):
        ring = self.find("ring", self.lower_ring).measure("hole", "mm") if self.lower_ring else ""
        holes = [held if held != "" else self.hole_needed for held in (ring, self.hole_there)]
        return min(holes)

    @property
    def tighten_tension(self):
        return stretch.tension_change(self.tighten, self.length, self.stiffness)

    @property
    def colder_tension(self):
        return max(0.0, self.pretension - self.tighten_tension)

    @property
    def margin_limit(self):
        return self.margin_required

    @property
    def need_strength(self):
        boat = self.boat
        return strength.need_strength(self.load, self.margin_required, self.splice, boat.number("ageing"))

    @property
    def need_hold(self):
        return strength.need_hold(self.pretension, self.boat.hold_hot)

    @property
    def need_stretch(self):
        if not self.has("wire"):
            return ""
        return strength.need_stretch(self.wire.stiffness, self.rope_row.stiffness)

    @property
    def needs(self):
        each = {"strength": self.need_strength, "held load": self.need_hold, "stretch": self.need_stretch}
        return {name: needed for name, needed in each.items() if needed != ""}

    @property
    def need(self):
        return max(self.needs.values())

    @property
    def governs(self):
        return max(self.needs, key=self.needs.__getitem__)

    @property
    def smallest(self):
        ropes = self.schedule.rows("rope")
        sizes = [(rope.family_size,) for rope in ropes]
        breaks = [(rope.family_break,) for rope in ropes]
        if self.need > max((held for (held,) in breaks if held != ""), default=0):
            return "none"
        return strength.rope_size(sizes, breaks, self.need)

    @property
    def rope(self):
        return self.own_or("rope_own", lambda: self.boat.text("rope"))

    @cached_property
    def rope_row(self):
        return self.find("rope", self.rope)

    @property
    def rope_size(self):
        return self.rope_row.size

    @property
    def break_load(self):
        return self.rope_row.break_load

    @property
    def sleeve(self):
        return self.own_or("sleeve_own", lambda: self.boat.text("sleeve"))

    @property
    def sleeve_wall(self):
        return self.find("sleeve", self.sleeve).measure("wall", "mm")

    def ring(self, end):
        if not self.says(f"{end}_over", "ring"):
            return ""
        return self.own_or(f"{end}_ring_own", lambda: self.boat.text("ring"))

    def under(self, end):
        """Diameter under the eye: typed, else the stub's rod or the ring's groove."""
        if self.has(f"{end}_over_own"):
            return self.measure(f"{end}_over_own", "mm")
        if self.says(f"{end}_over", "stub"):
            return self.stub.rod_size
        if self.says(f"{end}_over", "ring"):
            return self.find("ring", self.ring(end)).measure("groove", "mm")
        raise Wrong("nothing under the eye")

    @property
    def stub(self):
        """The stub that names this stay."""
        return stub_of(self.schedule, self.text("name"))

    def eye(self, end):
        boat = self.boat

        def shortest():
            needed = eye.eye_length(self.under(end), self.rope_size, boat.number("throat"), self.sleeve_wall)
            return up_to_step(needed, boat.number("eye_step"))

        return self.own_or(f"{end}_eye_own", shortest, "mm")

    def throat(self, end):
        return eye.eye_angle(self.eye(end), self.under(end), self.rope_size, self.sleeve_wall)

    def reach(self, end):
        return eye.eye_reach(self.eye(end), self.under(end), self.rope_size, self.sleeve_wall)

    def eye_holds(self, end):
        ratio = strength.bend_ratio(self.under(end), self.rope_size)
        bend = strength.bend_rope(ratio, self.rope_row.number("least"))
        return eye.eye_capacity(self.break_load, bend, self.throat(end), self.uneven(end))

    def uneven(self, end):
        """Worse for one of two eyes on a stub, which is led round the rod when the stub turns to the other."""
        usual = self.boat.number("uneven")
        if end == "lower" or not (self.on_stub and self.stub.two):
            return usual
        friction = self.boat.number("sleeve_friction")
        return min(usual, double.eye_uneven(self.stub.swing, self.throat(end), friction))

    @property
    def beside(self):
        """The other stay on its stub."""
        if not self.on_stub or not self.stub.two:
            return ""
        outer = self.stub.says("stay_2", self.text("name"))
        return self.stub.text("stay") if outer else self.stub.text("stay_2")

    @property
    def eye_lies(self):
        if self.beside == "":
            return ""
        inner = self.stub.says("stay", self.text("name"))
        return "inside, next to the mast" if inner else "outside, next to the end plate"

    upper_ring = property(lambda stay: stay.ring("upper"))
    upper_under = property(lambda stay: stay.under("upper"))
    upper_eye = property(lambda stay: stay.eye("upper"))
    upper_throat = property(lambda stay: stay.throat("upper"))
    upper_capacity = property(lambda stay: stay.eye_holds("upper"))
    upper_reach = property(lambda stay: stay.reach("upper"))
    lower_ring = property(lambda stay: stay.ring("lower"))
    lower_under = property(lambda stay: stay.under("lower"))
    lower_eye = property(lambda stay: stay.eye("lower"))
    lower_throat = property(lambda stay: stay.throat("lower"))
    lower_capacity = property(lambda stay: stay.eye_holds("lower"))
    lower_reach = property(lambda stay: stay.reach("lower"))

    @property
    def splice(self):
        return 1.0 if self.rope_row.says("spliced", "with splices") else self.boat.number("splice")

    @property
    def capacity(self):
        return strength.capacity(
            self.break_load, self.splice, self.boat.number("ageing"), self.upper_capacity, self.lower_capacity
        )

    @property
    def margin(self):
        return (self.wire.break_load if self.is_wire else self.capacity) / self.load

    @property
    def spare_wire(self):
        return self.margin / self.margin_required - 1 if self.is_wire else ""

    @property
    def spare_splice(self):
        aged = self.break_load * self.splice * self.boat.number("ageing")
        return aged / self.load / self.margin_required - 1

    @property
    def spare_eye(self):
        weaker = min(self.upper_capacity, self.lower_capacity) * self.boat.number("ageing")
        return weaker / self.load / self.margin_required - 1

    @property
    def on_stub(self):
        return self.says("upper_over", "stub")

    @property
    def spare_bolt(self):
        return self.stub.bolt_spare if self.on_stub else ""

    @property
    def spare_wall(self):
        return self.stub.wall_spare if self.on_stub else ""

    @property
    def spare_rod(self):
        return self.stub.rod_spare if self.on_stub else ""

    @property
    def spare_lashing(self):
        hardest = loads.lashing_share(self.parts, self.boat.number("friction")) * self.load
        line = self.line_break * self.boat.number("ageing") * self.boat.number("line_bend")
        return line / hardest / self.margin_required - 1

    @property
    def spare_chainplate(self):
        if self.plate_row:
            return self.plate_row.spare
        if not self.has("chainplate"):
            return ""
        return self.measure("chainplate", "kN") / self.plate_load / self.boat.number("margin_metal") - 1

    @property
    def spares(self):
        each = {
            "splice": self.spare_splice,
            "eye": self.spare_eye,
            "wire": self.spare_wire,
            "bolt": self.spare_bolt,
            "mast wall": self.spare_wall,
            "rod": self.spare_rod,
            "lashing": self.spare_lashing,
            "chainplate": self.spare_chainplate,
        }
        return {name: spare for name, spare in each.items() if spare != ""}

    @property
    def spare(self):
        return min(self.spares.values())

    @property
    def weakest(self):
        return min(self.spares, key=self.spares.__getitem__)

    @property
    def stiffness(self):
        if self.is_wire:
            return self.wire.stiffness
        return stretch.rope_ea(self.break_load, self.rope_row.stiffness)

    @property
    def stretch_load(self):
        return stretch.stretch(self.load, self.length, self.stiffness)

    @property
    def stretch_wire(self):
        return stretch.stretch(self.load, self.length, self.wire.stiffness) if self.has("wire") else ""

    @property
    def tighten(self):
        boat = self.boat
        rate = boat.number("wire_rate" if self.is_wire else "stay_rate")
        return stretch.temp_tighten(self.length, self.length, boat.number("warmer"), self.mast_row.rate, rate)

    @property
    def held_by(self):
        return self.length * self.pretension / self.stiffness

    @property
    def take_up_years(self):
        """Half of the first stretch, at the rate that the rope creeps at aboard."""
        rope = self.rope_row if not self.is_wire else None
        if rope is None or rope.creep_year == "":
            return ""
        return self.pretension / self.stiffness / 2 / rope.creep_year

    def slack_at(self, tension):
        """Heel at which windward has gained what leeward had: the sine of 30° heel carries load over factor."""
        if not self.says("basis", "righting moment"):
            return ""
        load = self.load_alone if self.load_pair == "" else self.load_pair
        sine = tension * self.boat.number("load_factor") / load
        return math.degrees(math.asin(sine)) if sine <= 1 else ""

    slack_heel = property(lambda stay: stay.slack_at(stay.pretension))
    slack_heel_cold = property(lambda stay: stay.slack_at(stay.colder_tension))

    @property
    def creep(self):
        rope, boat = self.rope_row, self.boat
        if not rope.has("creep"):
            return ""
        held, years = rope.measure("creep_temp", "°C"), boat.number("retire_years")
        rate = rope.number("creep")
        return stretch.creep(self.length, rate, years, None, None, None, boat.number("year_temp"), held)

    @property
    def lasting_set(self):
        return self.rope_row.number("lasting_set")

    @property
    def elastic(self):
        return self.pretension / self.stiffness

    @property
    def worked(self):
        return self.lasting_set + self.elastic

    @property
    def gap(self):
        return loads.lashing_gap(self.length, self.lasting_set, self.elastic, self.boat.number("left"))

    @property
    def gap_bedded(self):
        """Only the elastic stretch is still to come."""
        return self.boat.number("left") + self.length * self.elastic

    @property
    def take_up_left(self):
        """All stretch of the new rope is worked in: what the gap was made with is left."""
        return self.gap - self.length * (self.lasting_set + self.elastic)

    @property
    def span(self):
        fittings = self.measure("fittings", "mm") if self.has("fittings") else 0.0
        return splice.span(self.length, self.upper_reach, self.lower_reach, self.take_up_left + fittings)

    @property
    def free_length(self):
        """What swings when it is plucked: without the eyes of a rope, and below the lowest spreader."""
        tips = [self.via_length, self.via_2_length]
        above = max((length for length in tips if length != ""), default=0.0 if self.is_wire else self.upper_reach)
        return (self.length if self.is_wire else self.span + self.upper_reach) - above

    @property
    def note_hz(self):
        """A wave runs to and fro along it in one swing."""
        metre = 1000 * mass.wire_mass(1000, self.wire.size) if self.is_wire else self.rope_row.mass
        return math.sqrt(self.pretension * 1e6 / metre) * 1000 / 2 / self.free_length

    @property
    def sag(self):
        return self.number("luff") * self.length**2 / 8e6 / self.pretension if self.has("luff") else ""

    @property
    def bury(self):
        return splice.bury(self.rope_size, self.boat.number("bury"))

    @property
    def taper(self):
        return splice.taper(self.bury, self.boat.number("taper"))

    @property
    def fid_entry(self):
        return splice.bury_mark(self.bury, self.boat.number("growth"))

    @property
    def ends(self):
        """What RIG.CUT and RIG.BENCH take alike."""
        take_up, waste = self.rope_row.number("take_up"), self.boat.number("waste")
        return self.span, self.upper_eye, self.lower_eye, self.bury, self.worked, take_up, waste

    @cached_property
    def cut(self):
        return splice.cut(*self.ends)

    @property
    def rope_total(self):
        return self.count * self.cut / 1000

    def sleeve_for(self, end):
        return eye.sleeve_length(self.eye(end), self.boat.number("gather"))

    @property
    def sleeve_total(self):
        return self.count * (self.sleeve_for("upper") + self.sleeve_for("lower")) / 1000

    @property
    def line(self):
        return self.own_or("line_own", lambda: self.boat.text("line"))

    @property
    def line_row(self):
        return self.find("rope", self.line)

    @property
    def line_break(self):
        return self.line_row.break_load

    @cached_property
    def parts(self):
        boat = self.boat
        least = boat.number("parts_least")
        aged = self.line_break * boat.number("ageing")
        needed = loads.lashing_parts(
            self.load, aged, self.margin_required, boat.number("friction"), boat.number("line_bend")
        )
        return max(least, needed)

    @property
    def line_each(self):
        on_ring = self.says("lower_over", "ring")
        ring = self.find("ring", self.lower_ring).measure("hole", "mm") if on_ring else self.lower_under
        return loads.lashing_line(self.gap, self.parts, ring, self.boat.number("tail"))

    @property
    def line_total(self):
        return self.count * self.line_each / 1000

    @property
    def rope_mass(self):
        return self.rope_total * self.rope_row.mass / 1000

    @property
    def wire_mass(self):
        return self.count * mass.wire_mass(self.length, self.wire.size) if self.has("wire") else ""

    @property
    def rm_gain(self):
        if not (self.has("wire") and self.has("upper") and self.boat.has("cg_up")):
            return ""
        height = (self.upper_up + self.lower_up) / 2 - self.boat.number("cg_up")
        saved = self.wire_mass - self.rope_mass
        return math.copysign(mass.rm_gain(abs(saved), height), saved) if saved else 0.0


def blank_of_wire(key, held):
    """A column that a stay of wire leaves blank."""
    found = getattr(held, "worked_out", None) or held.func
    return Kept(key, lambda stay: "" if stay.is_wire else found(stay))


for _key in sorted(OF_ROPE):
    if STAYS.column(_key).calculated:
        setattr(Stay, _key, blank_of_wire(_key, vars(Stay)[_key]))
