"""Library and Points: what their rows come to."""

from loftsheet import strength, stretch, survey
from loftsheet.errors import CellError

from tests.office.worked.row import Row, same_text


class Rope(Row):
    unproven = property(lambda rope: rope.unproven_by("certificate", "measured"))

    @property
    def in_family(self):
        return (
            self.has("family")
            and self.boat.has("family")
            and same_text(self.text("family"), self.boat.text("family"))
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
    def family_size(self):
        return self.size if self.in_family else ""

    @property
    def family_break(self):
        return self.break_load if self.in_family else ""


class MakersGood(Row):
    """An item for which a maker's figure or a standard is good enough."""

    @property
    def unproven(self):
        return self.unproven_by("certificate", "measured", "maker's figure", "standard")


class Wire(MakersGood):
    @property
    def size(self):
        return self.measure("size", "mm")

    @property
    def break_load(self):
        return strength.wire_break(self.size, self.measure("grade", "MPa"), self.number("k"))

    @property
    def stiffness(self):
        return stretch.wire_ea(self.size, self.number("modulus"), self.number("fill"))


class Share(Row):
    @property
    def here(self):
        """How many shrouds have this share; none are counted while one of the numbers or shares is no good."""
        rows, total = list(self.schedule.cells.rows("stays")), 0.0
        if any(isinstance(row.get(key), CellError) for row in rows for key in ("share", "number")):
            return total
        for row in rows:
            number, share = row.get("number") or 0.0, row.get("share")
            if isinstance(number, str):
                return 0.0
            if isinstance(share, str) and same_text(share, self.text("name")):
                total += number
        return total


class Point(Row):
    @property
    def along_mast(self):
        return self.has("along")

    @property
    def fore(self):
        if not self.along_mast:
            return self.measure("fore_own", "mm")
        return survey.mast_fore(
            self.measure("along", "mm"), self.boat.number("rake"), self.boat.number("foot_fore")
        )

    @property
    def up(self):
        if not self.along_mast:
            return self.measure("up_own", "mm")
        along, foot = self.measure("along", "mm"), self.boat.number("foot_up")
        return survey.mast_up(along, self.boat.number("rake"), foot)

    @property
    def outward(self):
        return self.measure("out", "mm")

    @property
    def place(self):
        return self.fore, self.outward, self.up
