"""Stubs: each calculated column of a row, worked out."""

import math
from functools import cached_property
from types import MappingProxyType

from loftsheet import bolt, double, eye, fastening, strength, stretch, stub_need, tang
from loftsheet.errors import BadInput, CellError, NoSolution, NotInTable

from tests.office.worked.row import REFUSALS, Row, Wrong, down_to_step, listed, up_to_step
from tests.office.worked.stay import Stay, said_as


def height(stub):
    """Of its bolt; blank where there is none."""
    try:
        return stub.up
    except (Wrong, BadInput, NoSolution, NotInTable):
        return ""


def mast_of(stub):
    """The mast that it is on; None where that cannot be told."""
    try:
        return stub.mast
    except REFUSALS:
        return None


def lead_of(out, fore):
    """Both angles of a stay; one without points leads nobody knows where."""
    if fore == "":
        raise Wrong("its lead is not known")
    return out, fore


def of_outer(key):
    """What the outer stay has under that key; blank on a stub that has only one."""
    return property(lambda stub: getattr(stub.outer, key) if stub.two else "")


def of_two(work_out):
    """A figure of two eyes; blank where there is one."""
    return property(lambda stub: work_out(stub) if stub.two else "")


class Tang(Row):
    defaults = MappingProxyType({"number": lambda stub: stub.stay_row.number("number"), "sides": lambda stub: 2.0})

    @property
    def stay_row(self):
        return self.find("stays", self.text("stay"))

    @property
    def two(self):
        return self.has("stay_2")

    @property
    def outer(self):
        return self.find("stays", self.text("stay_2"))

    angle_2, turn_2 = of_outer("angle"), of_outer("angle_fore")
    rope_size_2, sleeve_wall_2 = of_outer("rope_size"), of_outer("sleeve_wall")
    eye_2, load_2, wire_break_2 = of_outer("upper_eye"), of_outer("load"), of_outer("wire_break")

    @of_two
    def fit_2(self):
        throat = self.boat.number("throat")
        return eye.loop_fit(self.eye_2, self.rod_size, self.rope_size_2, self.sleeve_wall_2, self.girth, throat)

    @property
    def leads(self):
        return lead_of(self.angle, self.turn), lead_of(self.angle_2, self.turn_2)

    @of_two
    def both(self):
        inner, outer = self.leads
        return double.double_fit(*inner, *outer, self.bevel, self.boat.number("sleeve_friction"))

    @property
    def ropes(self):
        """Size and sleeve of each rope on it."""
        first = [(self.rope_size, self.sleeve_wall)]
        return [*first, (self.rope_size_2, self.sleeve_wall_2)] if self.two else first

    rope_most = property(lambda stub: max(size for size, _ in stub.ropes))
    sleeve_most = property(lambda stub: max(wall for _, wall in stub.ropes))
    seat_out = of_two(lambda stub: stub.eye_out)

    @of_two
    def seat_in(self):
        (inner, inner_sleeve), (outer, outer_sleeve) = self.ropes
        return self.seat_out - double.double_apart(inner, outer, inner_sleeve, outer_sleeve)

    overhang_in = of_two(lambda stub: double.overhang(*stub.sawn, stub.root, stub.seat_in))
    overhang_out = of_two(lambda stub: double.overhang(*stub.sawn, stub.root, stub.seat_out))
    upright_in = of_two(lambda stub: tang.upright(*stub.drilled, stub.seat_in))
    upright_out = of_two(lambda stub: tang.upright(*stub.drilled, stub.seat_out))
    play = of_two(lambda stub: stub.top - stub.shortest_top(0.0))

    @property
    def pulls(self):
        inner, outer = self.leads
        return (self.load, *inner), (self.load_2, *outer)

    @property
    def turned(self):
        if not self.two:
            return self.turn
        inner, outer = self.pulls
        levers = (self.upright_in, self.upright_out) if self.upright_out > 0 else ()
        return double.double_turn(*inner, *outer, *levers)

    @of_two
    def twist(self):
        inner, outer = ((*pull, upright) for pull, upright in zip(self.pulls, (self.upright_in, self.upright_out)))
        return max(abs(double.double_twist(*inner, *outer, turn)) for _, turn in self.leads)

    twist_friction = of_two(lambda stub: stub.twist / (stub.bolt_size / 2 * stub.across))

    @of_two
    def swing(self):
        inner, outer = self.leads
        led = (double.swing(*inner, self.bevel, self.turn_2), double.swing(*outer, self.bevel, self.turn))
        return max(map(abs, led))

    cover = of_two(lambda stub: double.cover(stub.rod_size, stub.rise, stub.swing))

    @of_two
    def across(self):
        inner, outer = self.pulls
        return double.double_shear(*inner, *outer)

    @of_two
    def along_bolt(self):
        inner, outer = self.pulls
        return double.double_pull(*inner, *outer)

    def both_bend(self, out=0.0, below=0.0):
        """Their moment about a place so far out along the bolt, the eyes so much further below it."""
        inner, outer = self.pulls
        places = (
            (self.overhang_in - out, self.upright_in + below),
            (self.overhang_out - out, self.upright_out + below),
        )
        return double.double_moment(*inner, *places[0], *outer, *places[1], self.turned)

    moment_middle = of_two(lambda stub: stub.both_bend(stub.root + stub.grip / 2))

    @property
    def off(self):
        middle = self.root + self.grip / 2
        if not self.two:
            return abs(self.arm / math.cos(math.radians(self.angle)) - middle)
        tilt = math.radians(self.bevel)
        inward, down = self.play / 2 * math.cos(tilt), self.play / 2 * math.sin(tilt)
        return self.both_bend(middle + inward, down) / self.across

    on_bolt = property(lambda stub: math.hypot(stub.across, stub.along_bolt) if stub.two else stub.load)

    @property
    def bolt_angle(self):
        return math.degrees(math.atan2(self.along_bolt, self.across)) if self.two else self.angle

    count = Stay.count
    mast = property(lambda stub: stub.stay_row.mast)
    mast_row = property(lambda stub: stub.stay_row.mast_row)
    angle = property(lambda stub: stub.stay_row.angle)
    up = property(lambda stub: stub.stay_row.upper_up)
    fore = property(lambda stub: stub.stay_row.upper_fore)
    rope = property(lambda stub: stub.stay_row.rope)
    rope_size = property(lambda stub: stub.stay_row.rope_size)
    sleeve_wall = property(lambda stub: stub.stay_row.sleeve_wall)
    eye = property(lambda stub: stub.stay_row.upper_eye)
    load = property(lambda stub: stub.stay_row.load)
    wire_break = property(lambda stub: stub.stay_row.wire_break)
    turn = property(lambda stub: stub.stay_row.angle_fore)

    @property
    def along(self):
        if self.up == "":
            return ""
        point = self.find("points", self.stay_row.text("upper"))
        return point.measure("along", "mm") if point.has("along") else ""

    @property
    def rod(self):
        return self.own_or("rod_own", lambda: self.boat.text("rod"))

    @property
    def rod_row(self):
        return self.find("rod", self.rod)

    @property
    def rod_size(self):
        return self.rod_row.measure("size", "mm")

    @property
    def rod_needed(self):
        least = self.boat.number("rod_least")
        return tang.need_rod(self.rope_most, self.bolt_hole, self.bevel, least, self.ligament_least)

    @property
    def bevel(self):
        extra = self.boat.number("extra")
        if not self.two:
            return tang.bevel(self.angle, extra)
        inner, outer = self.leads
        return double.double_bevel(*inner, *outer, extra)

    def shortest_top(self, clearance):
        if not self.two:
            return tang.top(self.rope_size, self.bevel, self.sleeve_wall, clearance)
        (inner, inner_sleeve), (outer, outer_sleeve) = self.ropes
        return double.double_top(inner, outer, self.bevel, inner_sleeve, outer_sleeve, clearance)

    @property
    def top(self):
        boat = self.boat

        def shortest():
            return up_to_step(self.shortest_top(boat.number("clearance")), boat.number("saw_step"))

        return self.own_or("top_own", shortest, "mm")

    @property
    def sawn(self):
        """What most functions of the stub begin with."""
        return self.rod_size, self.bevel, self.top

    @property
    def base(self):
        return tang.base(*self.sawn)

    @property
    def face(self):
        return tang.face(self.rod_size, self.bevel)

    @property
    def rise(self):
        return tang.rise(self.rope_most, self.sleeve_most, self.boat.number("plate_extra"))

    @property
    def eye_out(self):
        """From the mast's face to the middle of an eye that touches the end plate."""
        size, wall = self.ropes[-1]
        return self.top - size / 2 - wall

    @property
    def aside(self):
        return self.eye_out - self.top / 2

    @property
    def hole_worst(self):
        """Depth of the rod's axis below the top edge, as far out as the eye may lie."""
        tilt = math.radians(self.bevel)
        return self.rod_size / 2 * math.cos(tilt) - self.eye_out * math.sin(tilt)

    @cached_property
    def hole(self):
        def deepest():
            off = self.boat.number("drill_off")
            lowest = min(self.hole_worst - off, tang.hole(*self.sawn))
            if self.has("room"):
                room = self.measure("room", "mm")
                stop = (room, self.rope_most, self.sleeve_most, self.boat.number("plate"), self.rise)
                lowest = min(lowest, tang.hole(*self.sawn, *stop) - off)
            return down_to_step(lowest, self.boat.number("drill_step"))

        return self.own_or("hole_own", deepest, "mm")

    @property
    def drilled(self):
        return (*self.sawn, self.hole)

    @property
    def exit(self):
        return tang.exit_hole(*self.drilled)

    @property
    def bolt_hole(self):
        return self.bolt_size + self.boat.number("hole_play")

    @property
    def ligament_least(self):
        return max(self.boat.number("ligament"), self.boat.number("ligament_hole") * self.bolt_hole)

    @property
    def hole_high(self):
        return self.bolt_hole / 2 + self.ligament_least

    @property
    def ligament(self):
        return tang.ligament(self.hole, self.bolt_hole)

    @property
    def ligament_end(self):
        return tang.ligament_end(*self.drilled, self.bolt_hole)

    @property
    def upright(self):
        return self.upright_out if self.two else tang.upright(*self.drilled)

    @property
    def upright_worst(self):
        return self.hole_worst - self.hole

    @property
    def girth(self):
        """A half circle above, a half circle below and two straight sides between."""
        return self.own_or("girth_own", lambda: math.pi * self.rod_size + 2 * self.rise, "mm")

    @property
    def fit(self):
        throat = self.boat.number("throat")
        return eye.loop_fit(self.eye, self.rod_size, self.rope_size, self.sleeve_wall, self.girth, throat)

    @property
    def room_left(self):
        if not self.has("room"):
            return ""
        room, plate = self.measure("room", "mm"), self.boat.number("plate")
        return tang.gap(room, *self.drilled[1:], self.rope_most, self.sleeve_most, plate, self.rise)

    @property
    def bolt(self):
        return self.own_or("bolt_own", lambda: self.boat.text("bolt"))

    @property
    def bolt_row(self):
        return self.find("bolt", self.bolt)

    @property
    def bolt_size(self):
        return self.bolt_row.measure("size", "mm")

    @property
    def pitch(self):
        return self.bolt_row.measure("pitch", "mm")

    @property
    def washer(self):
        return self.bolt_row.measure("washer", "mm")

    @property
    def grip(self):
        return tang.grip(*self.drilled)

    @property
    def wedge(self):
        return tang.wedge(self.washer, self.bevel, self.boat.number("thin"))

    @property
    def outside(self):
        boat = self.boat
        plate = boat.number("plate") / math.cos(math.radians(self.bevel))
        return plate + (boat.number("thin") + self.wedge) / 2 + boat.number("flat")

    @property
    def mast_width(self):
        return self.own_or("mast_width_own", lambda: self.mast_row.measure("width", "mm"), "mm")

    @property
    def saddle(self):
        section = self.own_or("mast_fore_own", lambda: self.mast_row.measure("section", "mm"), "mm")
        return tang.saddle(self.rod_size, section / 2, self.mast_width / 2)

    @property
    def sides(self):
        sides = self.number("sides")
        if sides not in (1, 2):
            raise Wrong("a bolt has one side or two")
        return sides

    @property
    def bolt_length(self):
        boat = self.boat
        ends = bolt.bolt_ends(self.bolt_size, self.pitch, boat.number("nuts"))
        if self.sides == 1:  # the nut on the bare mast has a washer, too
            ends += boat.number("flat")
        pad = boat.number("pad")
        length = bolt.bolt_length(self.mast_width, pad, self.grip, self.outside, ends, self.sides)
        return up_to_step(length, boat.number("saw_step"))

    @property
    def shank(self):
        """Up to the end of the stub, or of both; on the bare side it ends with the mast."""
        plain = self.mast_width + self.sides * (self.boat.number("pad") + self.grip)
        return up_to_step(plain, self.boat.number("saw_step"))

    @property
    def plain(self):
        """Shank beyond the face of the mast, on each side that has a stub, and half the wall."""
        if not self.has("shank_made"):
            return ""
        beyond = (self.measure("shank_made", "mm") - self.mast_width) / self.sides
        return max(0.0, beyond + (0 if self.wall == "" else self.wall / 2))

    @property
    def stock(self):
        """Whether the plain shank of ISO 4014 reaches from the head through both stubs."""
        long_enough = fastening.bolt_plain(self.bolt_length, self.bolt_size) >= self.shank + self.outside
        return "yes, with more thread cut on" if long_enough else "no, have it made"

    @property
    def tube(self):
        return "" if self.wall == "" else self.mast_width - 2 * self.wall

    @property
    def beside(self):
        """Rows of its mast whose bolt is less than half a rod away, rounded outwards to whole millimetres."""
        if self.up == "":
            return ""
        low, high = math.floor(self.up - self.rod_size / 2), math.ceil(self.up + self.rod_size / 2)
        return float(sum(low <= up <= high for up in map(height, self.on_its_mast) if up != ""))

    @property
    def below_head(self):
        """Along the mast, from the heights of both: what a plumb line would give over the cosine of the rake."""
        mast = self.mast_row
        if self.up == "" or not mast.has("head"):
            return ""
        rake = math.radians(mast.measure("rake", "°"))
        return mast.measure("head", "mm") - (self.up - mast.measure("foot_up", "mm")) / math.cos(rake)

    @property
    def on_one_bolt(self):
        """Rows of its mast whose bolt is less than half a rod away up and fore, rounded outwards."""
        if self.up == "":
            return ""
        near = [
            all(
                math.floor(own - self.rod_size / 2) <= other <= math.ceil(own + self.rod_size / 2)
                for own, other in zip((self.up, self.fore), place)
            )
            for mast, *place in self.others("mast", "up", "fore")
            if mast == self.mast and all(isinstance(one, float) for one in place)
        ]
        return float(sum(near))

    @property
    def on_its_mast(self):
        return [stub for stub in self.schedule.rows("tangs") if mast_of(stub) == self.mast]

    def others(self, *keys):
        """What all rows of the sheet hold in these columns, its own among them; a row with a blank is left out."""
        columns = (self.schedule.cells.column(f"tangs_{key}") for key in keys)
        return [row for row in zip(*columns) if not any(held is None for held in row)]

    @property
    def alike(self):
        """Of those at its height that are a pair: how many are assembled as it is."""
        if self.beside == "" or not (self.beside > 1 and self.number("number") * self.beside <= 2):
            return ""
        low, high = math.floor(self.up - self.rod_size / 2), math.ceil(self.up + self.rod_size / 2)
        made = (self.mast, self.bolt.casefold(), self.number("sides"), self.mast_width)
        return float(
            sum(
                isinstance(up, float) and low <= up <= high and (mast, str(bolt).casefold(), sides, width) == made
                for mast, up, bolt, sides, width in self.others("mast", "up", "bolt", "sides_used", "mast_width")
            )
        )

    @property
    def crowded(self):
        """Stubs below it whose plate stands above the height down to which nothing may stand."""
        if self.clear_up == "":
            return 0.0
        low, clear = math.floor(self.up - self.rod_size / 2), math.floor(self.clear_up)
        heights = [
            held
            for mast, *held in self.others("mast", "up", "plate_up")
            if mast == self.mast and all(isinstance(one, float) for one in held)
        ]
        return float(sum(up < low and top > clear for up, top in heights))

    @property
    def tips_near(self):
        """Tips of its mast higher than its bolt, and so low that a root may be in the way of the eye."""
        if self.up == "":
            return ""
        low, top = math.floor(self.up), self.plate_up + self.rope_most + 2 * self.sleeve_most
        high = math.floor(top + self.boat.number("root_below"))
        column = self.schedule.cells.column
        masts = column("stays_mast")
        tips = [tip for key in ("via", "via_2") for tip in zip(masts, column(f"stays_{key}_up"))]
        return float(sum(mast == self.mast and isinstance(up, float) and low < up < high for mast, up in tips))

    @property
    def stubs(self):
        """Stubs for its stay, or for one of its two."""
        if not self.has("stay"):
            return ""
        inner, outer = ([stay for (stay,) in self.others(key)] for key in ("stay", "stay_2"))
        if any(isinstance(stay, CellError) for stay in inner):
            return ""
        times = []
        for own in [self.text(key) for key in ("stay", "stay_2") if self.has(key)]:
            as_outer = sum(said_as(stay, own) for stay in outer)
            if as_outer and any(isinstance(stay, CellError) for stay in outer):
                return ""
            times.append(sum(said_as(stay, own) for stay in inner) + as_outer)
        return float(max(times))

    @property
    def stands_out(self):
        """Of an odd number of nuts the greater part may be at this end."""
        nuts = bolt.bolt_ends(self.bolt_size, self.pitch, math.ceil(self.boat.number("nuts") / 2))
        return self.boat.number("pad") + self.grip + self.outside + nuts

    @property
    def plate_up(self):
        return "" if self.up == "" else self.up + self.rod_size / 2 + self.rise

    @property
    def clear_up(self):
        """The end of the eye, or where the rope's near side has passed the bolt's end, whichever is lower."""
        if self.up == "":
            return ""
        angle = min(self.angle, self.angle_2) if self.two else self.angle
        if angle < 1:
            return self.mast_row.measure("foot_up", "mm")
        leaves_at = (self.seat_in if self.two else self.top / 2) - self.rope_most / 2 - self.sleeve_most
        passes = (self.stands_out - leaves_at) / math.tan(math.radians(angle))
        reaches = [self.stay_row.upper_reach, *([self.outer.upper_reach] if self.two else [])]
        return self.up - max(*reaches, passes)

    @property
    def bolts(self):
        return self.count / self.sides

    @property
    def thrust(self):
        if not self.two:
            return tang.thrust(self.load, self.angle, self.bevel)
        leaning = [
            (load, double.lean(*lead, self.bevel, self.turned))
            for load, lead in zip((self.load, self.load_2), self.leads)
        ]
        return min(load * math.sin(math.radians(lean)) for load, lean in leaning)

    @property
    def root(self):
        return self.boat.number("pad") + (0 if self.wall == "" else self.wall / 2)

    @property
    def arm(self):
        return self.arm_worst if self.two else tang.arm(*self.drilled, self.angle, self.root)

    @property
    def arm_worst(self):
        if self.two:
            return self.both_bend() / self.on_bolt
        seat = self.top - (self.rope_size + 2 * self.sleeve_wall) / 2
        return tang.arm(*self.drilled, self.angle, self.root, seat)

    @property
    def moment(self):
        return bolt.tang_moment(self.on_bolt, self.arm_worst)

    @property
    def of_bar(self):
        return self.says("bolt_made", "turned from bar")

    @property
    def bolt_proof(self):
        if self.of_bar:
            return self.own_or("bar_proof", lambda: self.boat.number("bar_proof"), "MPa")
        return self.bolt_row.measure("yield_stress", "MPa")

    @property
    def bolt_strength(self):
        if self.of_bar:
            return max(self.boat.number("bar_strength"), self.bolt_proof)
        return self.bolt_row.measure("strength", "MPa")

    def as_made(self, gamma, factor):
        """The moment of shank and thread as they are; of the shank alone where nobody measured them."""
        if self.plain == "":
            return bolt.pin_bending(self.bolt_size, self.bolt_proof, gamma, factor)
        arm = self.arm_worst / math.cos(math.radians(self.bolt_angle))
        thread = (self.bolt_size, self.pitch, self.bolt_proof)
        return fastening.bolt_bending(*thread, arm, self.plain, self.root, self.grip, gamma, factor)

    @property
    def straight(self):
        """EN 1993-1-8, a pin that can be replaced: a share of the moment at which its edge yields."""
        share = self.boat.number("bolt_straight")
        if self.plain != "":
            return self.as_made(1.0, share)
        return share * self.bolt_proof * math.pi * self.bolt_size**3 / 32 / 1000

    @property
    def bolt_moment(self):
        return self.as_made(self.boat.number("gamma"), self.boat.number("bolt_bending"))

    @property
    def bolt_shear(self):
        boat = self.boat
        area = bolt.bolt_area(self.bolt_size, self.pitch)
        factor = boat.number("bolt_shear")
        return bolt.bolt_shear(area, self.bolt_strength, 1.0, factor, boat.number("gamma"))

    @property
    def bolt_tension(self):
        area = bolt.bolt_area(self.bolt_size, self.pitch)
        return bolt.bolt_tension(area, self.bolt_strength, self.boat.number("gamma"))

    @property
    def bolt_capacity(self):
        capacities = (self.bolt_moment, self.bolt_shear, self.bolt_tension)
        return bolt.bolt_capacity(self.arm_worst, self.bolt_angle, *capacities)

    @property
    def bolt_spare(self):
        return self.bolt_capacity / self.on_bolt / self.boat.number("margin_metal") - 1

    @property
    def rests(self):
        return listed([("bolt", self.bolt_row), *([("rod", self.rod_row)] if self.rod_margin != "" else [])])

    @property
    def wall_load(self):
        return bolt.mast_bearing(self.on_bolt, self.bolt_angle, self.arm_worst, self.between_walls)

    @property
    def between_walls(self):
        """From the middle of one wall to the other's, where they are known."""
        return self.mast_width - (0 if self.wall == "" else self.wall)

    @property
    def wall(self):
        return self.own_or("wall_own", lambda: self.of_mast("wall", "mm"), "mm")

    @property
    def proof(self):
        return self.of_mast("proof", "MPa")

    def of_mast(self, key, unit):
        """Of its mast; blank where nobody knows it."""
        return self.mast_row.measure(key, unit) if self.mast_row.has(key) else ""

    @property
    def wall_capacity(self):
        if "" in (self.wall, self.proof):
            return ""
        return bolt.pin_bearing(self.bolt_size, self.wall, self.proof, self.boat.number("wall_gamma"))

    @property
    def wall_spare(self):
        if self.wall_capacity == "":
            return ""
        return self.wall_capacity / self.wall_load / self.boat.number("margin_metal") - 1

    @property
    def pressure(self):
        eyes = [(self.load, self.rope_size), *([(self.load_2, self.rope_size_2)] if self.two else [])]
        return max(bolt.rope_pressure(load, size, self.rod_size) for load, size in eyes)

    @property
    def bearing(self):
        arm = self.arm_worst
        if self.two:
            meets = self.moment_middle / self.across + self.root + self.grip / 2
            arm = meets * math.cos(math.radians(self.bolt_angle))
        return bolt.rod_bearing(self.on_bolt, self.bolt_angle, self.bolt_size, self.grip, arm, self.root)

    @property
    def rod_shear(self):
        return fastening.rod_shear(self.on_bolt, self.bolt_angle, self.ligament, self.grip)

    @property
    def rod_margin(self):
        if not self.rod_row.has("crushing"):
            return ""
        pressed = max(self.bearing, self.pressure), self.rod_row.measure("crushing", "MPa")
        torn = (self.rod_shear, self.rod_row.measure("shear", "MPa")) if self.rod_row.has("shear") else ()
        return fastening.rod_margin(*pressed, *torn)

    @property
    def rod_spare(self):
        return "" if self.rod_margin == "" else self.rod_margin / self.boat.number("margin") - 1

    @property
    def serves(self):
        """Whether bolt and rod do, as far as RIG.NEED.STUB looks at them."""
        try:
            return (
                self.bolt_spare >= 0
                and self.moment <= self.straight
                and self.upright_worst >= self.boat.number("drill_off")
                and self.ligament >= self.ligament_least
                and self.hole >= self.hole_high + self.boat.number("drill_off")
                and self.rod_size >= self.rod_needed
                and not self.for_wall
            )
        except REFUSALS:
            return False

    @property
    def would_do(self):
        if self.serves:
            return ""
        try:
            due = (self.load, self.top, self.rise)
        except REFUSALS:
            return ""
        assert due
        bolt_row, rod_row = self.needed[0]
        if not bolt_row:
            return f"none in Library; {rod_row}"
        bolt_row, rod_row = int(bolt_row), int(rod_row)
        names = (self.schedule.cells.column(f"{table}_name") for table in ("bolt", "rod"))
        bolt_name, rod_name = (held[row - 1] for held, row in zip(names, (bolt_row, rod_row)))
        return f"{bolt_name} on {rod_name}"

    @property
    def needed(self):
        boat = self.boat
        keys = ("size", "pitch", "strength", "yield_stress")
        bolts = [self.column_of("bolt", key) for key in keys]
        of_boat = ("hole_play", "ligament", "ligament_hole", "rod_least", "drill_off", "drill_step")
        low = self.measure("room", "mm") if self.has("room") else None
        if low is not None:
            eyes = (self.rope_most, self.sleeve_most, boat.number("plate"), self.rise)
            low = tang.gap(low, self.bevel, self.top, 1.0, *eyes) + 1
        outer = (self.rope_size_2, self.load_2, self.angle_2, self.turn, self.turn_2, self.sleeve_wall_2)
        return stub_need.need_stub(
            *bolts,
            self.column_of("rod", "size"),
            self.rope_size,
            self.angle,
            self.bevel,
            self.top,
            self.load,
            boat.number("margin_metal"),
            self.sleeve_wall,
            self.root,
            *(boat.number(key) for key in of_boat),
            self.thickest if low is None else low,
            *(boat.number(key) for key in ("gamma", "bolt_bending", "bolt_straight", "bolt_shear")),
            *(outer if self.two else ()),
            told=1,
            thinnest=self.for_wall,
        )

    @property
    def for_wall(self):
        try:
            short = self.wall_spare
        except REFUSALS:
            return 0.0
        if not isinstance(short, float) or short >= 0:
            return 0.0
        thinnest = self.bolt_size / (1 + short)
        sizes = (held for held in self.schedule.cells.column("bolt_size") if isinstance(held, float))
        return thinnest if thinnest <= max(sizes, default=0.0) else 0.0

    @property
    def thickest(self):
        """Of the rods whose size is a number, this one among them: no hole is as low."""
        sizes = self.schedule.cells.column("rod_size")
        return max(self.rod_size, *(held for held in sizes if isinstance(held, float)))

    def column_of(self, table, key):
        if f"{table}_{key}" not in self.schedule.cells.spans:
            raise Wrong(f"the name {table}_{key} leads nowhere")
        return tuple((held,) for held in self.schedule.cells.column(f"{table}_{key}"))

    @property
    def mass(self):
        return tang.mass(*self.sawn, self.rod_row.number("density"))

    @property
    def drop(self):
        seat = self.seat_in if self.two else None
        return tang.drop(*self.drilled, self.eye, self.bolt_size, self.rope_size, self.sleeve_wall, seat)

    @of_two
    def drop_2(self):
        rope = (self.rope_size_2, self.sleeve_wall_2)
        return tang.drop(*self.drilled, self.eye_2, self.bolt_size, *rope, self.seat_out)

    @of_two
    def tension_left_2(self):
        stay = self.outer
        return stretch.tension_after(stay.pretension, self.drop_2, stay.length, stay.stiffness)

    @property
    def tension_left(self):
        stay = self.stay_row
        return stretch.tension_after(stay.pretension, self.drop, stay.length, stay.stiffness)

    def on_the_bare_bolt(self, stay):
        """How many times its load the eye of a stay holds round the bolt."""
        size, wall = stay.rope_size, stay.sleeve_wall
        bend = strength.bend_rope(self.bolt_size / size, stay.rope_row.number("least"))
        angle = eye.eye_angle(stay.upper_eye, self.bolt_size, size, wall)
        holds = eye.eye_capacity(stay.break_load, bend, angle, self.boat.number("uneven"))
        return holds * self.boat.number("ageing") / stay.load

    bare_margin = property(lambda stub: stub.on_the_bare_bolt(stub.stay_row))
    bare_margin_2 = of_two(lambda stub: stub.on_the_bare_bolt(stub.outer))
