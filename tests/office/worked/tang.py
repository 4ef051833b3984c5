"""Tangs: each calculated column of a row, worked out."""

import math
from functools import cached_property
from types import MappingProxyType

from loftsheet import bolt, eye, strength, stretch, tang
from loftsheet.errors import BadInput, CellError, NoSolution, NotInTable

from tests.office.worked.row import REFUSALS, Row, Wrong, down_to_step, listed, same_text, up_to_step
from tests.office.worked.stay import Stay


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


class Tang(Row):
    defaults = MappingProxyType({"number": lambda stub: stub.stay_row.number("number"), "sides": lambda stub: 2.0})

    @property
    def stay_row(self):
        return self.find("stays", self.text("stay"))

    count = Stay.count
    mast = property(lambda stub: stub.stay_row.mast)
    mast_row = property(lambda stub: stub.stay_row.mast_row)
    angle = property(lambda stub: stub.stay_row.angle)
    up = property(lambda stub: stub.stay_row.upper_up)
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
        return tang.need_rod(self.rope_size, self.bolt_hole, self.bevel, least, self.ligament_least)

    @property
    def bevel(self):
        return tang.bevel(self.angle, self.boat.number("extra"))

    @property
    def top(self):
        boat = self.boat

        def shortest():
            needed = tang.top(self.rope_size, self.bevel, self.sleeve_wall, boat.number("clearance"))
            return up_to_step(needed, boat.number("saw_step"))

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
        return tang.rise(self.rope_size, self.sleeve_wall, self.boat.number("plate_extra"))

    @property
    def eye_out(self):
        """From the mast's face to the middle of an eye that touches the end plate."""
        return self.top - self.rope_size / 2 - self.sleeve_wall

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
                stop = (room, self.rope_size, self.sleeve_wall, self.boat.number("plate"), self.rise)
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
        return tang.upright(*self.drilled)

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
        return tang.gap(room, *self.drilled[1:], self.rope_size, self.sleeve_wall, plate, self.rise)

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
        pad = boat.number("pad")
        length = bolt.bolt_length(self.mast_width, pad, self.grip, self.outside, ends, self.sides)
        return up_to_step(length, boat.number("saw_step"))

    @property
    def shank(self):
        """Up to the end of the stub, or of both; on the bare side it ends with the mast."""
        plain = self.mast_width + self.sides * (self.boat.number("pad") + self.grip)
        return up_to_step(plain, self.boat.number("saw_step"))

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
    def stubs(self):
        """Stubs for its stay."""
        if not self.has("stay"):
            return ""
        stays = [stay for (stay,) in self.others("stay")]
        if any(isinstance(stay, CellError) for stay in stays):
            return ""
        return float(sum(isinstance(stay, str) and same_text(stay, self.text("stay")) for stay in stays))

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
        if self.angle < 1:
            return 0.0
        leaves_at = self.top / 2 - self.rope_size / 2 - self.sleeve_wall
        passes = (self.stands_out - leaves_at) / math.tan(math.radians(self.angle))
        return self.up - max(self.stay_row.upper_reach, passes)

    @property
    def bolts(self):
        return self.count / self.sides

    @property
    def thrust(self):
        return tang.thrust(self.load, self.angle, self.bevel)

    @property
    def root(self):
        return self.boat.number("pad") + (0 if self.wall == "" else self.wall / 2)

    @property
    def arm(self):
        return tang.arm(*self.drilled, self.angle, self.root)

    @property
    def arm_worst(self):
        seat = self.top - (self.rope_size + 2 * self.sleeve_wall) / 2
        return tang.arm(*self.drilled, self.angle, self.root, seat)

    @property
    def moment(self):
        return bolt.tang_moment(self.load, self.arm_worst)

    @property
    def straight(self):
        """EN 1993-1-8, a pin that can be replaced: a share of the moment at which its edge yields."""
        yields = self.bolt_row.measure("yield_stress", "MPa") * math.pi * self.bolt_size**3 / 32 / 1000
        return self.boat.number("bolt_straight") * yields

    @property
    def bolt_moment(self):
        proof = self.bolt_row.measure("yield_stress", "MPa")
        return bolt.pin_bending(self.bolt_size, proof, self.boat.number("gamma"), self.boat.number("bolt_bending"))

    @property
    def bolt_shear(self):
        boat = self.boat
        area = bolt.bolt_area(self.bolt_size, self.pitch)
        factor = boat.number("bolt_shear")
        return bolt.bolt_shear(area, self.bolt_row.measure("strength", "MPa"), 1.0, factor, boat.number("gamma"))

    @property
    def bolt_tension(self):
        area = bolt.bolt_area(self.bolt_size, self.pitch)
        return bolt.bolt_tension(area, self.bolt_row.measure("strength", "MPa"), self.boat.number("gamma"))

    @property
    def bolt_capacity(self):
        capacities = (self.bolt_moment, self.bolt_shear, self.bolt_tension)
        return bolt.bolt_capacity(self.arm_worst, self.angle, *capacities)

    @property
    def bolt_spare(self):
        return self.bolt_capacity / self.load / self.boat.number("margin_metal") - 1

    @property
    def rests(self):
        return listed([("bolt", self.bolt_row)])

    @property
    def wall_load(self):
        return bolt.mast_bearing(self.load, self.angle, self.arm_worst, self.between_walls)

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
        return bolt.rope_pressure(self.load, self.rope_size, self.rod_size)

    @property
    def bearing(self):
        return bolt.rod_bearing(self.load, self.angle, self.bolt_size, self.grip, self.arm_worst, self.root)

    @property
    def mass(self):
        return tang.mass(*self.sawn, self.rod_row.number("density"))

    @property
    def drop(self):
        return tang.drop(*self.drilled, self.eye, self.bolt_size, self.rope_size, self.sleeve_wall)

    @property
    def tension_left(self):
        stay = self.stay_row
        return stretch.tension_after(stay.pretension, self.drop, stay.length, stay.stiffness)

    @property
    def bare_margin(self):
        stay = self.stay_row
        least = stay.rope_row.number("least")
        bend = strength.bend_rope(self.bolt_size / self.rope_size, least)
        angle = eye.eye_angle(self.eye, self.bolt_size, self.rope_size, self.sleeve_wall)
        holds = eye.eye_capacity(stay.break_load, bend, angle, self.boat.number("uneven"))
        return holds * self.boat.number("ageing") / self.load
