"""Order and its controls: what is needed and bought, added up row by row."""

from functools import cached_property

from loftsheet import tang

from tests.office.worked.boat import ANY_WORDS
from tests.office.worked.row import Row, Wrong, same_text, up_to_step

KINDS = ("rope", "rod", "bolt", "sleeve", "ring", "sundry")
EVERY_ROW = "every row"


class Order(Row):
    @property
    def kind(self):
        return self.text("kind").casefold()

    @property
    def item(self):
        if self.kind not in KINDS:
            raise Wrong(f"{self.kind} is no kind")
        return self.find(self.kind, self.text("name"))

    @property
    def in_library(self):
        """Which row of its table of the Library has its name, from 1; 0 if none has."""
        if self.kind not in KINDS:
            return ""
        held = self.schedule.cells.column(f"{self.kind}_name")
        names = [one.casefold() if isinstance(one, str) else one for one in held]
        name = self.text("name").casefold()
        return float(names.index(name) + 1 if name in names else 0)

    @property
    def each(self):
        return self.item.text("each") if self.kind == "sundry" else ""

    def total(self, table, key, amount):
        """The amounts of the rows whose key is this item; every row must be sound."""
        pairs = [(getattr(row, key), amount(row)) for row in self.schedule.rows(table)]
        return sum(amount for name, amount in pairs if same_text(name, self.text("name")))

    @cached_property
    def needed(self):
        if self.kind == "rope":
            stays = self.total("stays", "rope", lambda stay: stay.rope_total or 0)
            lines = self.total("stays", "line", lambda stay: stay.line_total or 0)
            return stays + lines + self.total("chainplates", "rope", lambda loop: loop.rope_total)
        if self.kind == "sleeve":
            return self.total("stays", "sleeve", lambda stay: stay.sleeve_total or 0)
        if self.kind == "ring":
            ends = ("upper_ring", "lower_ring")
            loops = self.total("chainplates", "ring", lambda loop: loop.count)
            return loops + sum(self.total("stays", end, lambda stay: stay.count) for end in ends)
        if self.kind == "rod":
            return self.total("tangs", "rod", lambda stub: stub.count)
        if self.kind == "bolt":
            return self.total("tangs", "bolt", lambda stub: stub.bolts)
        return self.item.number("per") * self.schedule.counted(self.each)

    @property
    def quantity(self):
        needed, boat = self.needed, self.boat
        if needed == 0:
            return 0.0
        if self.kind == "rope":
            return up_to_step(needed * (1 + boat.number("rope_waste")) + boat.measure("trial", "m"), 1)
        if self.kind == "sleeve":
            eyes_of_trials = self.boat.trials * boat.measure("trial_sleeve", "m")
            return up_to_step(needed * (1 + boat.number("rope_waste")) + eyes_of_trials, 1)
        if self.kind == "rod":
            return self.lengths
        return up_to_step(needed, 1)

    @property
    def lengths(self):
        """Lengths of rod, by the list of the stubs that are cut from it; an error in any stub passes on."""
        stubs = [(stub.rod, (stub.bevel, stub.top, stub.count)) for stub in self.schedule.rows("tangs")]
        cut_from_it = [sizes for rod, sizes in stubs if same_text(rod, self.text("name"))]
        columns = [[(size,) for size in column] for column in zip(*cut_from_it)]
        stock, size = self.item.measure("stock", "mm"), self.item.measure("size", "mm")
        return tang.rod_lengths(stock, size, *columns, self.boat.number("kerf"), self.boat.number("clamp"))

    @property
    def unit(self):
        if self.kind in ("rope", "sleeve"):
            return "m"
        if self.kind == "rod":
            return f"length of {self.item.measure('stock', 'mm'):g} mm"
        return self.item.text("unit") if self.kind == "sundry" else "piece"

    def longest_of(self, table, key, length):
        rows = [row for row in self.schedule.rows(table) if same_text(getattr(row, key), self.text("name"))]
        return max([getattr(row, length) for row in rows], default=0.0)

    @property
    def longest(self):
        if self.kind == "rope":
            places = (("stays", "rope", "cut"), ("stays", "line", "line_each"), ("chainplates", "rope", "cut"))
            return max(self.longest_of(*place) for place in places)
        return self.longest_of("tangs", "bolt", "bolt_length") if self.kind == "bolt" else ""

    @property
    def exactly(self):
        """Words from the Library; how a number is written in them is the office's language."""
        return self.item.typed.get("exactly") or "" if self.kind == "sundry" else ANY_WORDS

    @property
    def total_price(self):
        return self.number("price") * self.quantity if self.has("price") else ""


class Control(Row):
    @property
    def kind(self):
        if self.text("name") not in (*KINDS, EVERY_ROW):
            raise Wrong("no such kind")
        return self.text("name")

    @property
    def bought(self):
        """The rows of Order with something to buy; an error in any of them passes on."""
        rows = [(row.kind, row.quantity, row) for row in self.schedule.rows("order")]
        return [row for kind, quantity, row in rows if quantity and self.kind in (kind, EVERY_ROW)]

    @property
    def price(self):
        rows = [(row.kind, row.total_price) for row in self.schedule.rows("order")]
        return sum(price for kind, price in rows if price != "" and self.kind in (kind, EVERY_ROW))

    @property
    def unpriced(self):
        return float(sum(not row.has("price") for row in self.bought))

    @property
    def lead(self):
        return max([row.number("lead") for row in self.bought if row.has("lead")], default=0.0)

    @property
    def ordered(self):
        if self.kind == EVERY_ROW:
            return ""
        if self.kind == "sundry":
            return float(sum(row.kind == "sundry" for row in self.schedule.rows("order")))
        # An error in any row of Order passes on to every control.
        needed = [(row.kind, row.needed) for row in self.schedule.rows("order")]
        return sum(amount for kind, amount in needed if kind == self.kind)

    @property
    def rows(self):
        stays = [stay for stay in self.schedule.rows("stays") if not stay.is_wire]
        stubs = self.schedule.rows("tangs")
        loops = [plate for plate in self.schedule.rows("chainplates") if plate.is_loop]
        ends = ("upper", "lower")
        totals = {
            "rope": lambda: sum(stay.rope_total + stay.line_total for stay in stays)
            + sum(loop.rope_total for loop in loops),
            "sleeve": lambda: sum(stay.sleeve_total for stay in stays),
            "ring": lambda: sum(stay.count * sum(stay.ring(end) != "" for end in ends) for stay in stays)
            + sum(loop.count for loop in loops),
            "rod": lambda: sum(stub.count for stub in stubs),
            "bolt": lambda: sum(stub.bolts for stub in stubs),
            "sundry": lambda: float(len(self.schedule.rows("sundry"))),
            EVERY_ROW: lambda: "",
        }
        return totals[self.kind]()
