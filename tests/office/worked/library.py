"""Library and Points: what their rows come to."""

from types import MappingProxyType

from loftsheet import fastening, section, strength, stretch, survey
from loftsheet.errors import CellError

from tests.office.worked.row import REFUSALS, Row, Wrong, said_as, same_text


class Rope(Row):
    unproven = property(lambda rope: rope.unproven_by("certificate", "measured"))

    @property
    def in_family(self):
        return (
            self.has("family")
            and self.boat.family_used != ""
            and same_text(self.text("family"), self.boat.family_used)
        )

    @property
    def size(self):
        return self.measure("size", "mm")

    @property
    def break_load(self):
        return self.measure("break_load", "kN")

    @property
    def mass(self):
        return self.measure("mass", "g/m")

    @property
    def stiffness(self):
        """By its trial, or else as typed; over its breaking load."""
        name, trials = self.text("name"), self.schedule.rows("trial")
        own = next((trial for trial in trials if said_as(trial.typed.get("rope"), name)), None)
        return own.ratio if own else self.number("ratio")

    @property
    def creep_year(self):
        if not self.has("creep"):
            return ""
        rate, given_at = self.number("creep"), self.measure("creep_temp", "°C")
        return stretch.creep(1000, rate, 1, temp=self.boat.number("year_temp"), ref_temp=given_at) / 1000

    @property
    def family_size(self):
        return self.size if self.in_family else ""

    @property
    def family_break(self):
        return self.break_load if self.in_family else ""

    @property
    def thicker(self):
        if self.family_size == "":
            return 0.0
        return float(sum(self._is_passed_by(rope) for rope in self.schedule.rows("rope")))

    def _is_passed_by(self, rope):
        """Whether a rope of the family is thicker and holds no more; one that has to be fixed is not asked."""
        try:
            return rope.in_family and rope.size > self.size and rope.break_load <= self.break_load
        except REFUSALS:
            return False


class Trial(Row):
    @property
    def ratio(self):
        """EA over breaking load: what it held more, by what it grew of its length."""
        low, high = (self.measure(key, "kN") for key in ("low", "high"))
        short, long = (self.measure(key, "mm") for key in ("short", "long"))
        if high <= low or long <= short:
            raise Wrong("the higher pull has to be higher and longer")
        return (high - low) / ((long - short) / short) / self.find("rope", self.text("rope")).break_load


class StandardGood(Row):
    """An item for which a standard is good enough."""

    @property
    def unproven(self):
        return self.unproven_by("certificate", "measured", "standard")


class Wire(StandardGood):
    @property
    def size(self):
        return self.measure("size", "mm")

    @property
    def break_load(self):
        return strength.wire_break(self.size, self.measure("grade", "MPa"), self.number("k"))

    @property
    def stiffness(self):
        return stretch.wire_ea(self.size, self.measure("modulus", "GPa"), self.number("fill"))


class Rod(Row):
    unproven = property(lambda rod: rod.unproven_by("certificate", "measured"))


class Bolt(StandardGood):
    @property
    def figures(self):
        given = self.measure("strength", "MPa"), self.measure("yield_stress", "MPa")
        return fastening.bolt_figures(*given, *([self.number("class")] if self.has("class") else []))


class Share(Row):
    @property
    def here(self):
        """How many shrouds have this share; none are counted while one of the shares is an error."""
        rows = list(self.schedule.cells.rows("stays"))
        if any(isinstance(row.get("share_used"), CellError) for row in rows):
            return 0.0
        here = [row for row in rows if isinstance(row.get("share_used"), str)]
        counts = [row.get("count") for row in here if same_text(row["share_used"], self.text("name"))]
        return sum((count for count in counts if isinstance(count, float)), 0.0)


class Mast(Row):
    defaults = MappingProxyType({"foot_fore": lambda mast: 0.0, "foot_up": lambda mast: 0.0})
    foot_fore_used = property(lambda mast: mast.measure("foot_fore", "mm"))
    foot_up_used = property(lambda mast: mast.measure("foot_up", "mm"))
    rate = property(lambda mast: mast.own_or("rate_own", lambda: mast.boat.number("mast_rate")))
    modulus = property(
        lambda mast: mast.own_or("modulus_own", lambda: mast.boat.measure("mast_modulus", "GPa"), "GPa")
    )
    width = property(lambda mast: mast.measure("width", "mm"))
    fore_and_aft = property(lambda mast: mast.measure("section", "mm"))

    def of_tube(self, own, worked_out, *sizes):
        """As typed, or of an elliptical tube; blank until the wall is measured."""
        if self.has(own):
            return self.number(own)
        return worked_out(*sizes, self.measure("wall", "mm")) if self.has("wall") else ""

    @property
    def area(self):
        return self.of_tube("area_own", section.tube_area, self.width, self.fore_and_aft)

    @property
    def inertia_fore(self):
        return self.of_tube("inertia_fore_own", section.tube_inertia, self.fore_and_aft, self.width)

    @property
    def inertia_out(self):
        return self.of_tube("inertia_out_own", section.tube_inertia, self.width, self.fore_and_aft)


def only_mast(schedule):
    """The name of the one mast; blank where there are none or several."""
    names = [name for name in schedule.cells.column("masts_name") if name is not None]
    return str(names[0]) if len(names) == 1 else ""


class Point(Row):
    @property
    def on_mast(self):
        if self.has("mast"):
            return self.text("mast")
        return only_mast(self.schedule) if self.along_mast else ""

    @property
    def mast_row(self):
        return self.find("masts", self.on_mast)

    @property
    def along_mast(self):
        return self.has("along")

    @property
    def aft(self):
        return self.measure("aft", "mm") if self.has("aft") else 0.0

    @property
    def fore(self):
        if not self.along_mast:
            return self.measure("fore_own", "mm")
        return survey.mast_fore(
            self.measure("along", "mm"),
            self.mast_row.measure("rake", "°"),
            self.mast_row.measure("foot_fore", "mm"),
            self.aft,
        )

    @property
    def up(self):
        if not self.along_mast:
            return self.measure("up_own", "mm")
        along, foot = self.measure("along", "mm"), self.mast_row.measure("foot_up", "mm")
        return survey.mast_up(along, self.mast_row.measure("rake", "°"), foot, self.aft)

    @property
    def outward(self):
        return self.measure("out", "mm")

    @property
    def place(self):
        return self.fore, self.outward, self.up
