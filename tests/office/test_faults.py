"""One fault at a time in the demo: named by its id on its row, counted on Boat, and nothing short is ordered."""

import pytest

from templates.sheets import ALL
from tests.office import named, oracle
from tests.office.restored import Restored, put

pytestmark = pytest.mark.office


@pytest.fixture
def demo(shared_demo):
    return shared_demo


DAY = 46000.0  # in 2025, as Calc keeps a date that was typed
FIRST_DAY, LAST_DAY = 36526, 73050
FAULTS = {
    "blank": None,
    "zero": 0.0,
    "a date": DAY,
    "negative": -1.0,
    "a fraction": 1.5,
    "a text": "abc",
    "a number as text": "7",
    "an error": "=NA()",
}
TABLES = {table.key: table for sheet in ALL for table in sheet.tables}
ITEMS = [item for sheet in ALL for group in sheet.groups for item in group.items if not item.formula]


OF_AN_INPUT = ("error", "blank", "list", "range")


def is_fault(column, held):
    """Whether an input must not hold that, by its declaration; none of the faults is in a list."""
    if held is None:
        return column.required
    if held == "=NA()":
        return True
    if column.choices:
        return True
    if column.is_date:
        return not (isinstance(held, float) and FIRST_DAY <= held <= LAST_DAY)
    if column.least is None:
        return False
    within = isinstance(held, float) and column.least <= held <= column.most
    return not within or (column.whole and held % 1 != 0)


class Ordered:
    """What stands on Order; what is ordered with a fault must be stopped, or the same as without."""

    def __init__(self, book):
        self.quantities = named.cells(book, "order_quantity")
        self.controls = named.cells(book, "control_check")
        self.wrong = named.cells(book, "boat_wrong")
        self.outside = named.cells(book, "boat_outside")
        self.right = self.quantities.DataArray
        assert self.is_sound

    @property
    def is_sound(self):
        """Whether the export goes ahead and no row says anything."""
        return not self.is_stopped and self.wrong.DataArray[0][0] == 0

    @property
    def is_stopped(self):
        """Whether the export is refused."""
        controls = {held for (held,) in self.controls.DataArray}
        return not controls <= {"OK", ""} or self.outside.DataArray[0][0] != "nothing"

    def is_short(self):
        return not self.is_stopped and self.quantities.DataArray != self.right


def unnoticed(ordered, codes, *due):
    """What is missing of all that should be said about a fault: one of the ids that are due."""
    missing = [] if {*due} & set(named.ids(codes.String)) else [f"found is {codes.String}"]
    if not ordered.wrong.DataArray[0][0]:
        missing.append(f"Boat counts {ordered.wrong.DataArray}")
    if ordered.is_short():
        missing.append("the order is short")
    return "; ".join(missing)


@pytest.mark.parametrize("table", TABLES)
def test_a_fault_in_an_input_of_a_row(demo, table):
    ordered, found = Ordered(demo), []
    for column in TABLES[table].columns[2:]:
        if column.calculated:
            continue
        cell, codes = a_filled_cell(demo, table, column.key)
        with Restored(cell) as faulty:
            for fault in (name for name, held in FAULTS.items() if is_fault(column, held)):
                faulty.hold(FAULTS[fault])
                missing = unnoticed(ordered, codes, *(f"{column.key}.{id}" for id in OF_AN_INPUT))
                if missing:
                    found.append(f"{column.key}, {fault}: {missing}")
    assert found == []
    assert ordered.is_sound


def a_filled_cell(book, table, column):
    """A cell of the column that holds something, or else the first, and what the check of its row found."""
    names, held = named.column(book, f"{table}_name"), named.column(book, f"{table}_{column}")
    row = next((at for at, one in enumerate(held) if one != "" and names[at]), 0)
    return tuple(named.cells(book, f"{table}_{key}").getCellByPosition(0, row) for key in (column, "found"))


def test_a_fault_in_an_assumption(demo):
    ordered, found = Ordered(demo), []
    found_on_boat = named.cells(demo, "boat_found")
    for item in ITEMS:
        cell = named.cells(demo, f"boat_{item.key}")
        codes = found_on_boat.getCellByPosition(0, cell.CellAddress.Row - found_on_boat.RangeAddress.StartRow)
        with Restored(cell) as faulty:
            for fault in (name for name, held in FAULTS.items() if is_fault(item.column(), held)):
                faulty.hold(FAULTS[fault])
                missing = unnoticed(ordered, codes, *(f"{item.key}.{id}" for id in OF_AN_INPUT))
                waits = named.found(demo, "stays", "forestay")
                if missing or waits.get("boat") != "waits":
                    found.append(f"{item.key}, {fault}: {missing}; the forestay says {waits}")
    assert found == []
    assert ordered.is_sound


def test_a_blank_is_not_counted_as_nothing(demo):
    """A number that is not there makes an error of all that follows from it, and every such row says so."""
    spans, found = oracle.named_spans(demo), []
    for table in TABLES.values():
        for column in table.columns[2:]:
            if not column.calculated and column.required and column.least is not None:
                cell, _ = a_filled_cell(demo, table.key, column.key)
                with Restored(cell, None):
                    found += [f"{column.title} blank: {one}" for one in oracle.Compared(demo, spans).unexplained]
    assert found == []


def choices():
    for table in TABLES.values():
        for column in table.columns[2:]:
            if column.choices and not column.calculated:
                yield table.key, column


def test_a_key_that_is_misspelt(demo):
    ordered, found = Ordered(demo), []
    for table, column in choices():
        cell, codes = a_filled_cell(demo, table, column.key)
        right = cell.String
        with Restored(cell) as misspelt:
            for wrong in (f"{right} ", f" {right}", f"{right}x", right[:-1] or "?"):
                misspelt.hold(wrong)
                missing = unnoticed(ordered, codes, f"{column.key}.list")
                if missing:
                    found.append(f"{table}, {column.key}, {wrong!r}: {missing}")
    assert found == []


def test_a_line_break_that_was_typed_is_not_shown(demo):
    """Alt or Ctrl with Enter in a cell: what is said of it stays one line of words, on its row and on Rig."""
    found, next_step = [], demo.Sheets.getByName("Rig").getCellRangeByName("A3")
    for table, column in inputs_that_are_asked():
        cell, codes = a_filled_cell(demo, table, column.key)
        check = named.cells(demo, f"{table}_check").getCellByPosition(
            0, codes.CellAddress.Row - named.cells(demo, f"{table}_check").RangeAddress.StartRow
        )
        with Restored(cell, "⟦port\r\nside"):
            shown = (check.String, next_step.String)
            if column.title not in shown[0] or any(set(said) & set("\n\r⟦") for said in shown):
                found.append(f"{table}, {column.key}: {shown}")
    assert found == []


def inputs_that_are_asked():
    for table in TABLES.values():
        for column in table.columns[2:]:
            if not column.calculated and (column.choices or column.least is not None):
                yield table.key, column


def test_a_key_in_other_capitals_means_the_same(office, demo):
    ordered = Ordered(demo)
    for table, column in choices():
        cell, _ = a_filled_cell(demo, table, column.key)
        put(cell, cell.String.upper() or None)
    assert ordered.is_sound
    assert ordered.quantities.DataArray == ordered.right
    assert oracle.differences(demo) == []


NAMES = {
    "a number": (7.0, "name.number"),
    "an error": ("=NA()", "name.error"),
    "a blank behind it": ("{} ", "name.blanks"),
    "two blanks inside": ("a  {}", "name.blanks"),
    "a line break inside": ("a\n{}", "name.blanks"),
    "a sign with a meaning": ("{}*", "name.signs"),
    "the mark of a code": ("{}⟧", "name.signs"),
    "nothing": (None, "row.nameless"),
}


@pytest.mark.parametrize("table", TABLES)
def test_a_fault_in_a_name(demo, table):
    ordered, found = Ordered(demo), []
    names, codes = (named.cells(demo, f"{table}_{key}") for key in ("name", "found"))
    first = names.getCellByPosition(0, 0)
    for fault, (held, id) in NAMES.items():
        if table == "control" and held is None:
            continue  # a control has no inputs; a missing one is reported on Boat
        with Restored(first, held.format(first.String) if isinstance(held, str) else held):
            missing = unnoticed(ordered, codes.getCellByPosition(0, 0), id)
        if missing:
            found.append(f"{fault}: {missing}")
    assert found == []
    with Restored(names.getCellByPosition(0, 1), first.String):
        for at in (0, 1):
            assert unnoticed(ordered, codes.getCellByPosition(0, at), "name.twice") == ""
    assert ordered.is_sound


def test_a_control_that_is_gone(demo):
    ordered = Ordered(demo)
    for at, name in enumerate(named.column(demo, "control_name")):
        if name:
            with Restored(named.cells(demo, "control_name").getCellByPosition(0, at), None):
                assert f"the control of {name} is missing" in named.value(demo, "boat_outside")
    assert ordered.is_sound


def test_an_item_that_is_gone_from_order(demo):
    """Whatever is needed and not on Order fails its control."""
    ordered = Ordered(demo)
    names, needed = named.cells(demo, "order_name"), named.column(demo, "order_needed")
    for at, amount in enumerate(needed):
        if amount:
            with Restored(names.getCellByPosition(0, at), None):
                assert not ordered.is_short()
                assert not ordered.is_sound
    assert ordered.is_sound
