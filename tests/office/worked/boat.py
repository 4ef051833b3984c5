"""Log and Boat: ages and dates of a rope, and what the book reports of itself."""

import math
from datetime import date

from loftsheet import mass, strength, stretch
from loftsheet.errors import CellError

from templates.sheets import boat
from templates.sheets.boat import SHEET, TABLES
from tests.office.worked.row import DAY_ZERO, REFUSALS, Row, Wrong, same_day, same_text, stub_of

ANY_WORDS = object()
UNITS = {item.key: item.measure for group in SHEET.groups for item in group.items}
REPORTED = ("stays", "tangs", "chainplates")


class Entry(Row):
    @property
    def stay_row(self):
        return self.find("stays", self.text("stay"))

    @property
    def tension(self):
        if self.has("tension_own"):
            return self.measure("tension_own", "kN")
        if not (self.has("note_hz") and self.has("free_length")):
            return ""
        free, note, stay = self.measure("free_length", "mm"), self.number("note_hz"), self.stay_row
        per_metre = 1000 * mass.wire_mass(1000, stay.wire.size) if stay.is_wire else stay.rope_row.mass
        return stretch.tension_pluck(free, per_metre, note)

    @property
    def ligament_least(self):
        """Of the stub of its stay, even if the stay's own row is gone, else of Boat."""
        try:
            return stub_of(self.schedule, self.text("stay")).ligament_least
        except REFUSALS:
            return self.boat.number("ligament")

    @property
    def pretension(self):
        return self.stay_row.pretension

    @property
    def crept(self):
        """At a rate that does not change the stretch goes evenly, until none is left."""
        stay = self.stay_row
        if stay.is_wire or self.age == "" or self.age <= 0 or stay.rope_row.creep_year == "":
            return self.pretension
        stretched = stay.pretension / stay.stiffness
        return stay.pretension * max(0.0, 1 - stay.rope_row.creep_year * self.age / stretched)

    @property
    def warmer(self):
        """How much more a stiff mast would pull than when it was tuned; None if Boat does not say when."""
        if not self.boat.has("tuned"):
            return None
        change = self.measure("temperature", "°C") - self.boat.number("tuned")
        return self.stay_row.tighten_tension * change / self.boat.number("warmer")

    @property
    def expected(self):
        """By the first case at the dock that is warmer, or colder, than when it was tuned."""
        row = self.schedule.rig.tensions(self.text("stay"))
        if row is None or not (self.has("temperature") and self.boat.has("tuned")):
            return ""
        change = self.measure("temperature", "°C") - self.boat.number("tuned")
        sign = -1 if change < 0 else 1
        upright = [case for case in self.schedule.rows("cases") if case.tacks == 1 and sign * case.warmer > 0]
        if not upright:
            return ""
        at_dock, then = row[2], row[8 + 2 * (int(upright[0].place) - 1)]
        return max(0.0, self.crept + change * (then - at_dock) / upright[0].warmer)

    @property
    def least(self):
        if not self.has("temperature"):
            return self.crept
        down = -self.stay_row.tighten_tension if self.warmer is None else min(0.0, self.warmer)
        return max(0.0, self.crept + down)

    @property
    def most(self):
        if not self.has("temperature"):
            return self.pretension
        up = self.stay_row.tighten_tension if self.warmer is None else max(0.0, self.warmer)
        return self.pretension + up

    @property
    def wanted(self):
        return self.stay_row.span

    @property
    def age(self):
        if not self.has("fitted"):
            return ""
        return (self.number("date") - self.number("fitted")) / 365.25

    @property
    def next(self):
        return same_day(self.number("date"), self.boat.number("inspect_months"))

    @property
    def due(self):
        """Overdue, unless the stay was looked at later."""
        others = [row for row in self.schedule.cells.rows("log") if row["stay"] == self.text("stay")]
        dates = [row["date"] for row in others if isinstance(row["date"], float)]
        today = (date.today() - DAY_ZERO).days
        return "overdue" if self.next < today and max(dates) == self.number("date") else ""

    @property
    def retire(self):
        if not self.has("fitted"):
            return ""
        return same_day(self.number("fitted"), 12 * self.boat.number("retire_years"))


class Boat(Row):
    """The one row of assumptions; what it reports is worked out from the rest."""

    def number(self, key):
        """An assumption; one that has a unit may be typed with another."""
        unit = UNITS.get(key)
        return self.measure(key, unit) if unit else super().number(key)

    def sum(self, key):
        return sum(value for value in (getattr(stay, key) for stay in self.schedule.rows("stays")) if value != "")

    @property
    def family_used(self):
        """As typed, or that of the boat's rope; blank where neither is known."""
        if self.has("family"):
            return self.given("family")
        ropes = self.schedule.rows("rope") if self.has("rope") else ()
        return next((row.given("family") for row in ropes if same_text(row.text("name"), self.text("rope"))), "")

    @property
    def hold_hot(self):
        return strength.hold_limit(self.number("hot"), self.number("hold"))

    @property
    def trials(self):
        """Rows of Order for a rope that a stay is made of."""
        ropes = {held.casefold() for held in self.schedule.cells.column("stays_rope") if isinstance(held, str)}
        ordered = [(row["kind"], row["name"]) for row in self.schedule.cells.rows("order")]
        if any(isinstance(kind, CellError) for kind, _ in ordered):
            raise Wrong("a kind is an error")
        names = [name for kind, name in ordered if isinstance(kind, str) and kind.casefold() == "rope"]
        return float(sum(isinstance(name, str) and name.casefold() in ropes for name in names))

    rope_mass = property(lambda boat: boat.sum("rope_mass"))
    wire_mass = property(lambda boat: boat.sum("wire_mass"))
    rm_gain = property(lambda boat: boat.sum("rm_gain"))

    @property
    def kept_mass(self):
        return sum(stay.wire_mass for stay in self.schedule.rows("stays") if stay.is_wire)

    def said(self, table):
        """How bad it is in the rows that are not OK; a check that was typed over or deleted is to be fixed."""
        for row in self.schedule.cells.rows(table):
            if not {"check", "state"} <= row.keys():
                raise Wrong("a column is gone")
            at_odds = (row["state"] == "ok") != (row["check"] == "OK")
            unsaid = row["name"] is not None and None in (row["state"], row["check"])
            if at_odds or unsaid or isinstance(row["state"], CellError) or isinstance(row["check"], CellError):
                yield "fix"
            elif row["state"] not in (None, "ok", "note"):
                yield row["state"]

    def not_ok(self, table):
        return float(sum(state != "waits" for state in self.said(table)))

    def on_boat(self, severity):
        return float(sum(state == severity for state in self.schedule.cells.column("boat_state")))

    @property
    def first(self):
        said = zip(self.schedule.cells.column("boat_state"), self.schedule.cells.column("boat_check"))
        names = (check[len("fix ") :].partition(": ")[0] for state, check in said if state == "fix")
        return next(names, "nothing")

    @property
    def wrong_boat(self):
        return self.on_boat("fix")

    @property
    def weigh_boat(self):
        return self.on_boat("weigh")

    @property
    def loosened(self):
        """Assumptions on the unsafe side of those of a new schedule."""
        assumed = [item for group in boat.SHEET.groups for item in group.items]
        sides = [(item, rule.when) for item in assumed for rule in item.rules if rule.id == "looser"]
        loose = []
        for item, side in sides:
            try:
                typed = self.number(item.key)
            except REFUSALS:
                continue
            if math.isclose(typed, item.value):
                continue
            if (typed > item.value) == (">" in side):
                loose.append(f"{item.title}: {typed:g} is looser than Loftsheet's {item.value:g}")
        return "; ".join(loose) or "nothing"

    @property
    def unproven(self):
        found = [row["found"] for table in REPORTED for row in self.schedule.cells.rows(table)]
        return float(sum(isinstance(codes, str) and "⟦note " in codes for codes in found))

    @property
    def wrong(self):
        return self.wrong_boat + self.weigh_boat + sum(self.not_ok(table) for table in TABLES)

    @property
    def mend(self):
        counted = [table for table in TABLES if table not in ("control", "log")]
        return self.wrong_boat + sum(state == "fix" for table in counted for state in self.said(table))

    @property
    def danger(self):
        return float(sum(state == "danger" for table in boat.SAFE for state in self.said(table)))

    @property
    def outside(self):
        """Whether anything stands where no total would see it; only "nothing" is compared word for word.

        Whether a cell has a formula is not seen here: that a row lost its Check is taken from the book.
        """
        if "rows whose Check is gone" in str(self.typed.get("outside")):
            return ANY_WORDS
        last_used = any(self.schedule.cells.column(f"{table}_name")[-1] is not None for table in TABLES)
        return ANY_WORDS if last_used or any(self.schedule.below(table) for table in TABLES) else "nothing"


for _table in TABLES:
    setattr(Boat, f"wrong_{_table}", property(lambda boat, table=_table: boat.not_ok(table)))
