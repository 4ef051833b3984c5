"""Balance: the ranges that the functions take put together from the typed rows, and what the cases come to.

Another way to the same ranges as on the sheet: each row is a Python object here, and no cell of the sheet is read.
"""

import math
from functools import cached_property
from itertools import product

from loftsheet import cases
from loftsheet.balance import answers
from loftsheet.errors import CellError

from templates.sheets.balance import CASES, DOCK, MASTS, OTHER_TACK, POINTS, STAYS
from tests.office.worked.row import REFUSALS, Row, Wrong

LEADS_AFT = ("lower aft", "backstay", "backstay leg", "runner")
LIMITS = {"cases": CASES, "points": POINTS, "masts": MASTS, "stays": STAYS}
SHROUD_OUT = math.sin(math.radians(2))


def or_blank(work):
    """What it comes to; blank where it refuses, as in the ranges on the sheet."""
    try:
        held = work()
    except REFUSALS:
        return ""
    return "" if held is None else held


class Rig:
    """Masts, points, stays, cases and loads of a schedule as the functions take them."""

    def __init__(self, schedule):
        self.schedule, self.boat = schedule, schedule.boat
        self.stopped = self._stopped()
        of = (lambda table: []) if self.stopped else schedule.rows
        self.masts, self.stays, self.cases = of("masts"), of("stays"), of("cases")
        self.points = [row for row in of("points") if self._used(row.text("name"))] if self.stays else []

    def _stopped(self):
        """Whether it is switched off, there is nothing to balance, or there is too much."""
        if self.boat.says("balance", "nothing") or self._not_checked_for_a_fault():
            return True
        cells = self.schedule.cells
        held = {table: [name is not None for name in cells.column(f"{table}_name")] for table in LIMITS}
        empty = not any(held["stays"]) or not any(held["masts"])
        return empty or any(any(names[LIMITS[table] :]) for table, names in held.items())

    def _not_checked_for_a_fault(self):
        """Taken from the book: that a formula is gone is not seen here, but that a fault is counted."""
        cells = self.schedule.cells
        if "verdict_words" not in cells.spans:
            return False
        faulty = cells.one("boat_wrong") != 0 or cells.one("boat_outside") != "nothing"
        return faulty and str(cells.one("verdict_words")).startswith("not checked: ")

    def _used(self, name):
        keys = ("upper", "via", "via_2", "lower")
        return any(
            same(or_blank(lambda stay=stay, key=key: stay.text(key)), name) for stay in self.stays for key in keys
        )

    @cached_property
    def ranges(self):
        wanted = ([*map(self.mast, self.masts)], [*map(self.point, self.points)], [*map(self.stay, self.stays)])
        tips = [(row.text("name"), self.root(row)) for row in self.points if self.over(row)]
        named = [(name, *rest) for name, *rest in self.both_tacks()]
        return tuple(tuple(map(tuple, rows)) for rows in (*wanted, named, self.loads(), tips))

    def mast(self, row):
        keys = ("foot_fore", "foot_up", "rake", "head")
        first = [or_blank(lambda key=key: row.measure(key, "°" if key == "rake" else "mm")) for key in keys]
        sizes = [
            or_blank(lambda key=key: row.measure(key, "mm")) for key in ("width", "section", "wall", "partners")
        ]
        of_section = [
            or_blank(lambda key=key: getattr(row, key)) for key in ("area", "inertia_fore", "inertia_out")
        ]
        return [
            row.text("name"),
            *first,
            or_blank(lambda: row.modulus),
            or_blank(lambda: row.rate),
            *sizes,
            *of_section,
        ]

    def point(self, row):
        over = self.over(row)
        mast = or_blank(lambda: row.on_mast) or (or_blank(lambda: over[0][0].mast) if over else "")
        place = [or_blank(lambda axis=axis: row.place[axis]) for axis in range(3)]
        return [row.text("name"), mast, *place]

    def over(self, row):
        """The stays that go over this point, each with which of its tips it is; upper or only ones first."""
        name = row.text("name")
        both = product(("via", "via_2"), self.stays)
        return [
            (stay, key) for key, stay in both if same(or_blank(lambda stay=stay, key=key: stay.text(key)), name)
        ]

    def stay(self, row):
        keys = ("side", "upper", "via", "via_2", "lower")
        picked = [or_blank(lambda key=key: row.text(key)) for key in keys]
        runner = "runner" if row.says("kind", "runner") else ""
        figures = [
            or_blank(lambda: row.stiffness),
            self.boat.number("wire_rate" if row.says("made_of", "existing wire") else "stay_rate"),
            or_blank(lambda: self.wanted(row)),
        ]
        return [row.text("name"), *picked, *figures, "", runner]

    def wanted(self, row):
        if row.says("kind", "backstay leg"):
            return ""
        follows = row.balance != "" and any(row.says("kind", kind) for kind in LEADS_AFT)
        return row.balance if follows else row.pretension

    def both_tacks(self):
        for case in self.cases:
            for tack, lee in zip(range(case.tacks), ("starboard", "port") if case.tacks == 2 else ("",)):
                name = case.text("name") + (OTHER_TACK if tack else "")
                runners = case.text("runners") if case.has("runners") else "none"
                if not lee and runners in ("windward", "leeward"):
                    runners = "both"
                yield name, lee, case.heel if lee else "", case.warmer, runners

    def loads(self):
        """Side forces of each case, on both tacks, at the head and at the spreaders or the lowest shrouds."""
        for case, mast in product([case for case in self.cases if case.tacks == 2], self.masts):
            pushes = or_blank(lambda case=case, mast=mast: self.pushes(case, mast))
            for end in ("", OTHER_TACK):
                for along, force in pushes or ():
                    yield case.text("name") + end, mast.text("name"), along, force

    def pushes(self, case, mast):
        head, low, high = self.held(mast)
        shares = case.number("head"), case.number("spreaders")
        foot, rake = mast.measure("foot_up", "mm"), math.radians(mast.measure("rake", "°"))
        waterline = self.boat.number("waterline")
        heights = [foot + along * math.cos(rake) - waterline for along in (head, low, high)]
        if mast.has("rm30_own"):
            moment = mast.measure("rm30_own", "kN·m")
        elif len(self.masts) == 1:
            moment = self.boat.number("rm30")
        else:
            raise Wrong("each of several masts needs a righting moment of its own")
        effort = shares[0] * heights[0] + shares[1] * (heights[1] + heights[2]) / 2
        force = cases.case_force(moment, effort, case.number("factor"), case.heel)
        return [(head, force * shares[0]), (low, force * shares[1] / 2), (high, force * shares[1] / 2)]

    def held(self, mast):
        """How far along a mast its highest shrouds hold it, and where the sails push lower down."""
        on_it = [stay for stay in self.stays if same(or_blank(lambda stay=stay: stay.mast), mast.text("name"))]
        held = [at for at in (or_blank(lambda stay=stay: self.holds_at(stay)) for stay in on_it) if at != ""]
        both = product(on_it, ("via", "via_2"))
        tips = [at for at in (or_blank(lambda one=one: self.tip(*one)) for one in both) if at != ""]
        length = mast.measure("head", "mm")
        low, high = (min(tips), max(tips)) if tips else (min(held, default=length), 0)
        apart = high - low > self.boat.number("pair_apart") * length
        return max(held, default=0.0), low, high if apart else low

    def holds_at(self, stay):
        upper = self.schedule.row("points", stay.text("upper"))
        if not upper.on_mast or abs(stay.pull_out) < SHROUD_OUT or stay.says("kind", "runner"):
            return ""
        return along(stay, stay.point("upper"))

    def tip(self, stay, which):
        return along(stay, stay.point(which)) if stay.has(which) else ""

    def root(self, row):
        return or_blank(lambda: self.tip(*self.over(row)[0]))

    @cached_property
    def solved(self):
        """What the functions give for stays, masts and cases, None where there is no balance."""
        if self.stopped:
            return None
        try:
            return tuple(ask(*self.ranges) for ask in (answers.stay_rows, answers.mast_rows, answers.case_rows))
        except REFUSALS:
            return None

    def tensions(self, name):
        """The row of a stay in what is given; None where there is none."""
        names = [stay.typed["name"] for stay in self.stays]
        if self.solved is None or name not in names:
            return None
        return self.solved[0][names.index(name)]

    def of_case(self, case):
        """The rows of a case, one for each tack."""
        if self.solved is None:
            return []
        names = [name for name, *_ in self.ranges[3]]
        wanted = (case.typed["name"], f"{case.typed['name']}{OTHER_TACK}")
        return [row for name, row in zip(names, self.solved[2]) if name in wanted]


def same(one, other):
    return isinstance(one, str) and one.casefold() == other.casefold()


def along(stay, place):
    mast = stay.mast_row
    rake = math.radians(mast.measure("rake", "°"))
    fore, up = mast.measure("foot_fore", "mm"), mast.measure("foot_up", "mm")
    return (place[2] - up) * math.cos(rake) - (place[0] - fore) * math.sin(rake)


class Case(Row):
    heel = property(lambda case: case.measure("heel", "°"))

    @property
    def tacks(self):
        if not self.has("heel"):
            return 1
        try:
            shares = self.number("head") + self.number("spreaders")
            cases.case_force(1, 1000, self.number("factor"), self.heel)
            return 2 if self.boat.has("waterline") and abs(shares - 1) * 1000 <= 1 else 0
        except REFUSALS:
            return 0

    @property
    def place(self):
        if self.tacks == 0:
            return ""
        rows = self.schedule.rows("cases")
        return 1.0 + sum(case.tacks for case in rows[: rows.index(self)])

    @property
    def warmer(self):
        if self.has("warmer_own"):
            return self.number("warmer_own")
        sign = 1 if self.says("warmth", "warmer") else -1 if self.says("warmth", "colder") else 0
        return sign * self.boat.number("warmer") if sign else 0.0

    @property
    def both(self):
        return self.schedule.rig.of_case(self)

    def of_both(self, column, take):
        found = [row[column] for row in self.both if not isinstance(row[column], (str, CellError))]
        return take(found) if found else ""

    slack_share = property(lambda case: case.of_both(1, min))
    slack_count = property(lambda case: case.of_both(3, max))
    buckling = property(lambda case: case.of_both(4, min))
    largest = property(lambda case: case.of_both(5, max))

    @property
    def slack_heel(self):
        """With the righting moment of that heel; the factor stands for more heel than there is then."""
        if self.slack_share == "":
            return ""
        sine = self.number("factor") * math.sin(math.radians(self.slack_share))
        return math.degrees(math.asin(sine)) if sine < 1 else ""

    @property
    def slack_first(self):
        if self.slack_share == "":
            return ""
        return next(
            (
                row[2]
                for row in self.both
                if row[1] != "" and round(1000 * row[1]) == round(1000 * self.slack_share)
            ),
            "",
        )

    @property
    def words(self):
        return self.both[0][0] if self.both else ""


def most(row):
    """The largest tension of a stay, and in which case."""
    return row[4], row[5].replace(OTHER_TACK, "") if row[5] != DOCK else DOCK
