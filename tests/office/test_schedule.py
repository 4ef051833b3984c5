"""Every calculated cell of the schedule beside the same column worked out in plain Python from the input cells."""

import re

import pytest
from loftsheet import command, examples

from extension.package import SCHEDULE
from templates.boats import sandlebee
from tests import inside
from tests.inside import typed_in
from tests.office import named, oracle

pytestmark = pytest.mark.office


def test_every_calculated_column_is_worked_out_a_second_time():
    for table in oracle.DECLARED:
        declared = {column.key for column in table.columns[2:] if column.calculated}
        kind = oracle.CLASSES.get(table.key, oracle.Row)
        missing = {key for key in declared if not hasattr(kind, oracle.RENAMED.get((table.key, key), key))}
        assert missing == set(), table.key


def test_every_single_calculated_cell_is_worked_out_a_second_time():
    kinds = {"boat": oracle.Boat, "bench": oracle.Bench, "view": oracle.View}
    for page, keys in oracle.item_keys().items():
        missing = {key for key in keys if not hasattr(kinds[page], oracle.RENAMED.get((page, key), key))}
        assert missing == set(), page


def test_the_demo_boat(demo):
    compared = oracle.Compared(demo)
    assert (compared.differences, compared.silent_errors) == ([], [])
    assert [named.value(demo, f"boat_{key}") for key in ("wrong", "mend", "outside")] == [0, 0, "nothing"]


def test_a_second_boat_with_two_masts(office, second_demo_file):
    book = office.load(second_demo_file)
    office.recalculate(book)
    compared = oracle.Compared(book)
    assert (compared.differences, compared.silent_errors) == ([], [])
    office.close(book)


def test_a_boat_with_two_masts_typed_into_a_blank_schedule_is_the_second_boat(office, second_demo_file):
    """Nothing of it comes from how the demo is written: what is typed into inputs comes to the same."""
    written, blank = office.load(second_demo_file), office.load(SCHEDULE, AsTemplate=True)
    items = zip(named.column(written, "order_name"), named.column(written, "order_kind"))
    ordered = [{"name": name, "kind": kind} for name, kind in items if name]
    inside.run(office, typed_in.rows, blank, sandlebee.BOAT, {**sandlebee.ROWS, "order": ordered})
    for book in (written, blank):
        office.recalculate(book)
    assert [named.value(blank, f"boat_{key}") for key in ("wrong", "mend", "outside")] == [0, 0, "nothing"]
    apart = [
        f"{table.key}_{column.key}"
        for table in oracle.DECLARED
        for column in table.columns
        if by_name(blank, table.key, column.key) != by_name(written, table.key, column.key)
    ]
    assert apart == []
    assert len(by_name(blank, "stays", "cut")) == len(sandlebee.STAYS)
    for book in (written, blank):
        office.close(book)


def by_name(book, table, key):
    """What the rows of a table that have a name hold in a column; numbers as near as a sum's order allows."""
    held = zip(named.column(book, f"{table}_name"), named.column(book, f"{table}_{key}"))
    return {name: f"{value:.9g}" if isinstance(value, float) else value for name, value in held if name}


def test_the_template_is_blank_and_says_what_to_type_first(office, extension_file):
    book = office.load(SCHEDULE, AsTemplate=True)
    office.recalculate(book)
    compared = oracle.Compared(book)
    assert (compared.differences, compared.silent_errors) == ([], [])
    found = [id for codes in named.column(book, "boat_found") for id in named.ids(codes)]
    assert "rope.blank" in found
    assert "fix Rope: it is blank" in named.column(book, "boat_check")
    assert named.value(book, "boat_wrong_boat") == len([id for id in found if id.endswith(".blank")])
    assert [named.value(book, f"boat_wrong_{table}") for table in ("stays", "tangs", "points")] == [0, 0, 0]
    office.close(book)


def test_recalculating_again_changes_nothing(office, demo):
    before = oracle.Cells(demo).held
    office.recalculate(demo)
    assert oracle.Cells(demo).held == before


def test_every_column_has_one_formula_and_none_is_a_matrix(demo):
    for table in oracle.DECLARED:
        for column in table.columns[1:]:
            if not column.calculated:
                continue
            cells = named.cells(demo, f"{table.key}_{column.key}")
            first = cells.RangeAddress.StartRow + 1
            written = [formula for (formula,) in cells.FormulaArray]
            relative = {in_any_row(formula, row) for row, formula in enumerate(written, first)}
            assert len(relative) == 1, column.key
            assert relative.pop().startswith("="), column.key


def in_any_row(formula, row):
    """A formula with the number of its own row taken out."""
    return re.sub(rf"\b([A-Z]{{1,3}}){row}\b", r"\1", formula)


def test_the_pages_for_one_stay_and_one_stub_follow_the_pick(demo):
    """Whatever is picked: each stay, none, or a name that is not there."""
    spans, stays, stubs = oracle.named_spans(demo), named.cells(demo, "bench_stay"), named.cells(demo, "view_stub")
    names = [name for table in ("stays", "tangs") for name in named.column(demo, f"{table}_name") if name]
    for name in [*names, "", "nobody's stay", "FORESTAY"]:
        stays.String = stubs.String = name
        schedule = oracle.Schedule(demo, spans)
        assert [*oracle.item_differences(schedule), *oracle.mark_differences(schedule)] == [], name
        known = name.lower() in [one.lower() for one in names[: names.index("cap stub, port")]]
        assert (named.cells(demo, "bench_marks").DataArray[0] != ("", "")) == known


# Columns, the function from the terminal that gives the same number, and what is put in: a column of the row,
# an assumption (boat.…) or a figure of the row's item of the Library (rope.…).
FROM_THE_TERMINAL = {
    ("stays", "need_strength"): "RIG.NEED.STRENGTH load margin_required boat.splice boat.ageing",
    ("stays", "upper_throat"): "RIG.EYE.ANGLE upper_eye upper_under rope_size sleeve_wall",
    ("stays", "upper_reach"): "RIG.EYE.REACH upper_eye upper_under rope_size sleeve_wall",
    ("stays", "capacity"): "RIG.CAPACITY break_load splice boat.ageing upper_capacity lower_capacity",
    ("stays", "margin"): "RIG.MARGIN break_load load splice boat.ageing upper_capacity lower_capacity",
    ("stays", "pretension"): "RIG.PRETENSION load boat.lee_heel boat.load_factor",
    ("stays", "stretch_load"): "RIG.STRETCH load length stiffness",
    ("stays", "bury"): "RIG.BURY rope_size boat.bury",
    ("stays", "span"): "RIG.SPAN length upper_reach lower_reach boat.left",
    ("stays", "cut"): "RIG.CUT span upper_eye lower_eye bury worked rope.take_up boat.waste",
    ("tangs", "bevel"): "RIG.TANG.BEVEL angle boat.extra",
    ("tangs", "base"): "RIG.TANG.BASE rod_size bevel top",
    ("tangs", "exit"): "RIG.TANG.EXIT rod_size bevel top hole",
    ("tangs", "ligament_end"): "RIG.TANG.LIGAMENT.END rod_size bevel top hole bolt_hole",
    ("tangs", "upright"): "RIG.TANG.UPRIGHT rod_size bevel top hole",
    ("tangs", "arm"): "RIG.TANG.ARM rod_size bevel top hole angle root",
    ("tangs", "bolt_capacity"): "RIG.BOLT.CAPACITY arm_worst angle bolt_moment bolt_shear bolt_tension",
    ("tangs", "bearing"): "RIG.ROD.BEARING load angle bolt_size grip arm_worst root",
    ("tangs", "drop"): "RIG.TANG.DROP rod_size bevel top hole eye bolt_size rope_size sleeve_wall",
}


def test_cells_show_what_the_terminal_prints(demo):
    book = oracle.Schedule(demo)
    for (table, column), call in FROM_THE_TERMINAL.items():
        function, *words = call.split()
        for row in book.rows(table):
            if row.typed.get(f"{column}_own") is not None or (column == "span" and row.has("fittings")):
                continue
            printed, code = command.call([function, *(repr(put_in(book, row, word)) for word in words)])
            assert code == 0, printed
            assert row.typed[column] == pytest.approx(float(printed), rel=1e-9), (column, row.typed["name"])


def put_in(book, row, word):
    item, _, figure = word.rpartition(".")
    if item == "boat":
        return book.boat.number(figure)
    return book.row(item, row.typed[item]).typed[figure] if item else row.typed[word]


@pytest.mark.parametrize("table", ["points", "stays", "tangs", "log"])
def test_its_first_row_is_in_sight_when_a_sheet_is_opened(demo, table):
    names, view = named.cells(demo, f"{table}_name"), demo.CurrentController
    view.setActiveSheet(names.Spreadsheet)
    seen = [view.getByIndex(pane).FirstVisibleRow for pane in range(view.Count)]
    assert max(seen) == names.RangeAddress.StartRow


def test_the_examples_of_the_functions_are_of_its_cap_shroud(demo):
    book = oracle.Schedule(demo)
    stay, stub = book.row("stays", "cap shroud, port"), book.row("tangs", "cap stub, port")
    upper, tip = (tuple(stay.typed[f"{end}_{axis}"] for axis in ("fore", "out", "up")) for end in ("upper", "via"))
    claimed = {
        examples.ENDS: (*upper, *tip),
        examples.STUB: (stub.rod_size, stub.bevel, stub.top, stub.hole),
        examples.EYE: (stay.upper_eye, stub.rod_size, stay.rope_size),
        examples.CUT: (stay.span, stay.upper_eye, stay.lower_eye, stay.bury, stay.worked),
        examples.M20: (stub.bolt_size, stub.bolt_row.measure("pitch", "mm")),
        (examples.TENSION, examples.OUT_ANGLE, examples.ROPE): (stay.load, stub.angle, stay.rope_size),
    }
    for given, due in claimed.items():
        assert given == pytest.approx(due, rel=0.005)
