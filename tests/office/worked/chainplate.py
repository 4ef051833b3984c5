"""Chainplates: each calculated column of a row, worked out."""

from loftsheet import bolt, chainplate, eye, lashing, splice, statics, strength
from loftsheet.errors import CellError

from tests.office.worked.row import REFUSALS, Row, Wrong, listed, same_text

SIZES = ("thickness", "hole", "end", "side", "yield_stress")
UNITS = {"yield_stress": "MPa"}


class Chainplate(Row):
    @property
    def is_loop(self):
        return self.says("made_of", "rope loop")

    @property
    def is_metal(self):
        return self.says("made_of", "metal")

    def size(self, key):
        return self.measure(key, UNITS.get(key, "mm"))

    @property
    def there(self):
        """The stays whose lower point this is."""
        name = self.text("name")
        rows = self.schedule.rows("stays")
        lowers = [(row, row.typed.get("lower")) for row in rows]
        return [row for row, lower in lowers if isinstance(lower, str) and same_text(lower, name)]

    @property
    def stay(self):
        return self.there[0].text("name") if self.there else ""

    hangs = property(lambda plate: float(len(plate.there)))

    def largest(self, values):
        return max([value for value in values if value != ""], default=0.0)

    stays_at_one = property(lambda plate: sum((stay.at_one_plate for stay in plate.there), 0.0))

    @property
    def count(self):
        return self.largest([stay.plates for stay in self.there])

    @property
    def passes(self):
        """Of a stay whose lashing is an error nothing is said here, but on the stay."""
        return sum((passes_of(stay) for stay in self.there), 0.0) if self.there else ""

    @property
    def line_size(self):
        return self.largest([stay.line_size for stay in self.there if not stay.is_wire]) if self.there else ""

    @property
    def passes_hole(self):
        return lashing.lashing_hole(1, self.line_size, self.passes) if self.passes else ""

    @property
    def wire_break(self):
        return self.largest([stay.wire_break for stay in self.there])

    @property
    def blind(self):
        return float(sum(not stay.has("upper") for stay in self.there))

    def pulls(self, axis):
        """Of all that hangs there; one of them without a direction leaves blanks."""
        held = [row.typed.get(f"plate_{axis}") for row in self.there]
        if any(isinstance(one, CellError) for one in held):
            raise Wrong("a pull on the plate is an error")
        if len(held) == 1 and held[0] is None:
            return ""
        return sum(one or 0.0 for one in held)

    pull_fore = property(lambda plate: plate.pulls("fore"))
    pull_out = property(lambda plate: plate.pulls("out"))
    pull_up = property(lambda plate: plate.pulls("up"))

    @property
    def together(self):
        if self.blind:
            raise Wrong("nobody knows which way a stay pulls")
        return self.pull_fore, self.pull_out, self.pull_up

    @property
    def pull(self):
        return statics.pull_sum(*self.together)

    @property
    def lean_fore(self):
        return statics.pull_lean_fore(*self.together) if self.there else ""

    @property
    def lean_out(self):
        return statics.pull_lean_out(*self.together) if self.there else ""

    @property
    def plate_sizes(self):
        gamma = self.boat.number("plate_gamma")
        return (*(self.size(key) for key in SIZES), gamma)

    @property
    def by_size(self):
        if not (self.is_metal and all(self.has(key) for key in SIZES)):
            return ""
        return chainplate.plate_capacity(*self.plate_sizes)

    @property
    def by_pin(self):
        keys = ("pin", "thickness", "yield_stress")
        if not (self.is_metal and all(self.has(key) for key in keys)):
            return ""
        return bolt.pin_bearing(*(self.size(key) for key in keys), self.boat.number("plate_gamma"))

    @property
    def metal_holds(self):
        own = self.measure("holds_own", "kN") if self.has("holds_own") else ""
        known = [held for held in (own, self.by_size, self.by_pin) if held != ""]
        return min(known) if known else ""

    def needed(self, side_or_end):
        if self.by_size == "" or not self.there:
            return ""
        thickness, hole, _, _, yield_stress, gamma = self.plate_sizes
        load = self.pull * self.boat.number("margin_metal")
        return side_or_end(load, thickness, hole, yield_stress, gamma)

    end_needed = property(lambda plate: plate.needed(chainplate.plate_end))
    side_needed = property(lambda plate: plate.needed(chainplate.plate_side))

    @property
    def rope(self):
        return self.own_or("rope_own", lambda: self.boat.text("rope")) if self.is_loop else ""

    @property
    def ring(self):
        return self.own_or("ring_own", lambda: self.boat.text("ring")) if self.is_loop else ""

    rope_row = property(lambda plate: plate.find("rope", plate.rope))
    ring_row = property(lambda plate: plate.find("ring", plate.ring))
    groove = property(lambda plate: plate.ring_row.measure("groove", "mm"))
    through_a_hole = property(lambda plate: plate.says("round", "hole"))

    rope_size = property(lambda plate: plate.rope_row.size if plate.is_loop else "")

    @property
    def around(self):
        if not self.is_loop:
            return ""
        return self.size("thickness" if self.through_a_hole else "bar")

    @property
    def bends(self):
        if not self.is_loop:
            return ""
        if self.through_a_hole:
            return chainplate.bend_edge(self.size("thickness"), self.size("rounding"))
        return self.size("bar")

    @property
    def bend(self):
        if not self.is_loop:
            return ""
        rope = self.rope_row
        over = (self.bends, self.groove)
        return min(strength.bend_rope(strength.bend_ratio(size, rope.size), rope.number("least")) for size in over)

    @property
    def splice(self):
        if not self.is_loop:
            return ""
        return 1.0 if self.rope_row.says("spliced", "with splices") else self.boat.number("splice")

    @property
    def loop_holds(self):
        if not self.is_loop:
            return ""
        turns = self.number("turns")
        uneven = self.boat.number("turns_uneven" if turns > 1 else "uneven")
        new = eye.grommet_capacity(self.rope_row.break_load, self.splice, self.bend, uneven, turns)
        return new * self.boat.number("ageing")

    @property
    def hole_needed(self):
        if not (self.is_loop and self.through_a_hole):
            return ""
        return lashing.lashing_hole(2 * self.number("turns") - 1, self.rope_row.size)

    def spare_over(self, holds, margin):
        return "" if holds == "" or not self.there else holds / self.pull / self.boat.number(margin) - 1

    spare_metal = property(lambda plate: plate.spare_over(plate.metal_holds, "margin_metal"))
    spare_rope = property(lambda plate: plate.spare_over(plate.loop_holds, "margin"))

    @property
    def spare(self):
        return min([one for one in (self.spare_metal, self.spare_rope) if one != ""], default="")

    @property
    def lashing_hole(self):
        if self.is_loop:
            return self.ring_row.measure("hole", "mm")
        return self.size("hole") if self.has("hole") else ""

    @property
    def edge(self):
        if self.is_loop:
            return self.groove / 2 + self.rope_row.size
        if not self.has("hole"):
            return 0.0
        return self.size("hole") / 2 + self.size("end") if self.has("end") else self.size("hole")

    @property
    def room(self):
        if not self.there or self.lashing_hole == "" or self.there[0].line == "":
            return ""
        return lashing.lashing_room(self.lashing_hole, self.there[0].line_row.size)

    @property
    def rests(self):
        return listed([("rope", self.rope_row), ("ring", self.ring_row)]) if self.is_loop else ""

    @property
    def inside(self):
        if not self.is_loop:
            return ""
        return chainplate.grommet_inside(self.size("apart"), self.around, self.groove)

    @property
    def bury(self):
        return splice.bury(self.rope_row.size, self.boat.number("bury")) if self.is_loop else ""

    @property
    def cut(self):
        if not self.is_loop:
            return ""
        rope = self.rope_row
        take_up, waste, stretch = rope.number("take_up"), self.boat.number("waste"), rope.number("lasting_set")
        return eye.grommet_cut(self.inside, rope.size, self.bury, take_up, waste, self.number("turns"), stretch)

    @property
    def rope_total(self):
        return self.count * self.cut / 1000 if self.is_loop else ""


def passes_of(stay):
    """Of a stay that cannot be worked out what its cell shows: its own row says that it is wrong."""
    try:
        return 0.0 if stay.is_wire else stay.passes
    except REFUSALS:
        shown = stay.typed.get("passes")
        return shown if isinstance(shown, float) else 0.0
