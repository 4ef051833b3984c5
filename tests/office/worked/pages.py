"""Bench and Side view: the pages for one stay and for one stub."""

from loftsheet import splice
from loftsheet.errors import CellError

from extension.loftsheet_office.workbook.complaints import in_full
from tests.office.worked.row import Row


def said_of(row):
    """All that the check of a row says; a cell that is an error goes on as it is."""
    check, found = row.typed["check"], row.typed["found"]
    return in_full(check, found or "") if isinstance(check, str) and not isinstance(found, CellError) else check


class Bench(Row):
    """The page for the stay that is picked; blank when it is no stay."""

    @property
    def stay_row(self):
        return self.find("stays", self.text("stay"))

    @property
    def said(self):
        if not self.has("stay"):
            return "pick a stay above"
        known = self.schedule.known("stays", self.given("stay"))
        return f"marks for {self.given('stay')}" if known else "there is no stay of this name: pick again"

    check = property(lambda bench: said_of(bench.stay_row))
    number_to_make = property(lambda bench: bench.stay_row.number("number"))
    rope = property(lambda bench: bench.stay_row.rope)
    cut = property(lambda bench: bench.stay_row.cut)
    tension = property(lambda bench: splice.bench_tension(bench.stay_row.rope_size))
    upper = property(lambda bench: bench.stay_row.upper_eye)
    lower = property(lambda bench: bench.stay_row.lower_eye)
    sleeve_upper = property(lambda bench: bench.stay_row.sleeve_for("upper"))
    sleeve_lower = property(lambda bench: bench.stay_row.sleeve_for("lower"))
    bury = property(lambda bench: bench.stay_row.bury)
    taper = property(lambda bench: bench.stay_row.taper)
    span = property(lambda bench: bench.stay_row.span)
    load = property(lambda bench: bench.stay_row.load)
    pretension = property(lambda bench: bench.stay_row.pretension)

    @property
    def marks(self):
        taper, growth = self.boat.number("taper"), self.boat.number("growth")
        return splice.bench(*self.stay_row.ends, taper, growth)


class View(Row):
    """The side view of the stub that is picked; blank when it is no stub."""

    @property
    def stub_row(self):
        return self.find("tangs", self.text("stub"))

    @property
    def said(self):
        if not self.has("stub"):
            return "pick a stub above"
        known = self.schedule.known("tangs", self.given("stub"))
        return f"of {self.given('stub')}" if known else "there is no stub of this name: pick again"

    check = property(lambda view: said_of(view.stub_row))
    stay = property(lambda view: view.stub_row.text("stay"))
    bevel = property(lambda view: view.stub_row.bevel)
    rod = property(lambda view: view.stub_row.rod_size)
    top = property(lambda view: view.stub_row.top)
    base = property(lambda view: view.stub_row.base)
    face = property(lambda view: view.stub_row.face)
    hole = property(lambda view: view.stub_row.hole)
    exit = property(lambda view: view.stub_row.exit)
    bolt = property(lambda view: view.stub_row.bolt_size)
    grip = property(lambda view: view.stub_row.grip)
    outside = property(lambda view: view.stub_row.outside)
    rise = property(lambda view: view.stub_row.rise)
    rope = property(lambda view: view.stub_row.rope_size + 2 * view.stub_row.sleeve_wall)
    angle = property(lambda view: view.stub_row.angle)
