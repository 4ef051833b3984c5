"""The workbook as declared: habits that every formula keeps, and limits that the functions share."""

import re
from itertools import chain

from loftsheet.formula import parse

from templates.schedule import check_formula, stored
from templates.sheets import ALL, bench, library, side_view

TABLES = {table.key: table for sheet in ALL for table in sheet.tables}
ITEMS = {item.key: item for sheet in ALL for group in sheet.groups for item in group.items}
PAGES = {"bench": bench.FACTS, "view": side_view.ITEMS}


def column_formulas():
    return {
        f"{table.key}_{column.key}": column.formula
        for table in TABLES.values()
        for column in table.columns[2:]
        if column.calculated
    }


def item_formulas():
    """Single calculated cells: of Boat, and of the pages for one stay or stub."""
    boat = {f"boat_{item.key}": item.formula for item in ITEMS.values() if item.formula}
    pages = {f"{page}_{item.key}": item.formula for page, items in PAGES.items() for item in items}
    return {**boat, **pages}


def mark_formulas():
    marks = {f"mark {row}, {column}": bench.mark(row, column) for row in (1, bench.MARKS) for column in (1, 2)}
    lines = chain.from_iterable(point for line in side_view.LINES for point in line.points)
    return {**marks, **{f"point {at}": formula for at, formula in enumerate(lines)}}


def check_formulas():
    return {f"{table.key}_check": check_formula(table) for table in TABLES.values()}


def every_formula():
    return {**column_formulas(), **item_formulas(), **mark_formulas(), **check_formulas()}


def without_texts(formula):
    return re.sub(r'"[^"]*"', '""', formula)


def offenders(formulas, wrong):
    """The names of the formulas that are wrong, each with what is wrong in it."""
    return {name: found for name, formula in formulas.items() if (found := wrong(without_texts(formula)))}


FORBIDDEN = {
    "OFFSET",
    "INDIRECT",
    "VLOOKUP",
    "HLOOKUP",
    "LOOKUP",
    "NOW",  # TODAY is asked by Log, which has to know what is overdue
    "RAND",
    "SUMIF",
    "SUMIFS",
    "COUNTIF",
}
NEWER_THAN_THE_OLDEST_OFFICE = {"XLOOKUP", "XMATCH", "FILTER", "SORT", "SORTBY", "LET", "UNIQUE", "SEQUENCE"}


def functions(formula):
    return set(re.findall(r"[A-Z][A-Z.]*(?=\()", formula))


def test_no_function_that_goes_stale_or_breaks_when_rows_and_columns_move():
    forbidden = FORBIDDEN | NEWER_THAN_THE_OLDEST_OFFICE
    assert offenders(every_formula(), lambda formula: functions(formula) & forbidden) == {}


def test_no_range_and_no_cell_by_its_address():
    """A range across columns would take in a user's own column; an address shows another row after a sort."""
    by_address = r":|\$?\b[A-Z]{1,3}\$?[0-9]+\b"
    assert offenders(every_formula(), lambda formula: re.findall(by_address, formula)) == {}


def declared_names():
    columns = {f"{table.key}_{column.key}" for table in TABLES.values() for column in table.columns}
    around = {f"{table}_{part}" for table in TABLES for part in ("below", "header")}
    boat = {f"boat_{key}" for key in (*ITEMS, "check")}
    pages = {f"{page}_{item.key}" for page, items in PAGES.items() for item in items}
    return columns | around | boat | pages | {"bench_stay", "view_stub"}


def test_every_name_is_declared():
    def unknown(formula):
        return set(re.findall(r"(?<!\[)\b[a-z]+_[a-z_0-9]+\b(?!\])", formula)) - declared_names()

    assert offenders(every_formula(), unknown) == {}


# Tables whose checks read those of others: never in a circle.
READ_CHECKS = {
    "stays": {"points", "wire", "share", "rope", "sleeve", "ring"},
    "tangs": {"stays", "rod", "bolt"},
    "order": {"rope", "rod", "bolt", "sleeve", "ring", "sundry"},
    "log": {"stays"},
}


def test_only_what_reports_on_checks_reads_them():
    """A number that came from a check could go in a circle that the office does not see."""
    readers = offenders(every_formula(), lambda formula: re.findall(r"_check\b|\[check\]", formula))
    reporting = r"boat_(wrong|wrong_\w+|weigh_boat|unproven|first|mend|danger|outside)"
    reports = {name for name in readers if re.fullmatch(reporting, name)}
    assert set(readers) == reports | {"bench_check", "view_check", *(f"{table}_check" for table in READ_CHECKS)}
    among_checks = {name: set(re.findall(r"(\w+)_check\b", check)) for name, check in check_formulas().items()}
    for name, found in among_checks.items():
        assert found <= READ_CHECKS.get(name[: -len("_check")], set()), name
    reported = offenders(
        every_formula(), lambda formula: re.findall(r"boat_mend|boat_danger|bench_check|view_check", formula)
    )
    assert set(reported) == {"control_check"}


CONSTANTS = {"0", "1", "2", "1000"}
DAYS_IN_A_YEAR, MONTHS_IN_A_YEAR = "365.25", "12"
DECIMALS = {"3"}  # of ROUND in the words of a check
CLASSES = {str(held) for both in library.CLASSES.values() for held in both}  # of stainless bolts, a standard's


def constants(formula):
    return set(re.findall(r"(?<![\w.\]])[0-9]+(?:\.[0-9]+)?", formula))


def test_no_constant_is_hidden_in_a_formula():
    """What could be questioned stands on Boat or in the Library; units and halves may stand in a formula."""
    allowed = CONSTANTS | {DAYS_IN_A_YEAR, MONTHS_IN_A_YEAR}
    formulas = {**column_formulas(), **item_formulas()}
    assert offenders(formulas, lambda formula: constants(formula) - allowed) == {}


def test_no_constant_is_hidden_in_a_rule():
    rules = {rule: rule for table in TABLES.values() for rule in (*table.faults, *table.rules)}
    assert offenders(rules, lambda rule: constants(rule) - CONSTANTS - DECIMALS - CLASSES) == {}


def inputs():
    columns = {
        f"{table.key}_{column.key}": column
        for table in TABLES.values()
        for column in table.columns[2:]
        if not column.calculated
    }
    return {**columns, **{f"boat_{item.key}": item.column() for item in ITEMS.values() if not item.formula}}


def test_every_input_says_what_it_is_and_what_it_takes():
    for name, column in inputs().items():
        assert column.title and column.help, name
        assert (column.least is None) == (column.most is None), name
        assert column.least is None or column.least < column.most, name


def arguments_that_are_inputs():
    """Where an input goes straight into an argument of one of our functions: its name and both declarations."""
    for name, formula in column_formulas().items():
        in_full = re.sub(r"\[(\w+)\]", rf"{name.partition('_')[0]}_\1", formula)
        for node in parse(f"={in_full}").inside():
            for part, argument in zip(node.parts if node.calc else (), node.calc.arguments if node.calc else ()):
                looked_up = re.match(r"(?:INDEX\()?(\w+)", part.written)
                if looked_up and looked_up[1] in inputs():
                    yield looked_up[1], inputs()[looked_up[1]], argument.quantity


def test_what_the_sheet_allows_the_functions_take():
    found = list(arguments_that_are_inputs())
    assert len({name for name, _, _ in found}) > 40
    for name, column, quantity in found:
        if column.least is not None:
            assert quantity.least <= column.least, name
            assert column.most <= quantity.most, name
            assert column.whole or not quantity.whole, name


def test_formulas_are_stored_by_their_full_names():
    assert stored("RIG.TANG.BEVEL([angle];boat_extra)") == "ORG.LOFTSHEET.RIG.TANGBEVEL([angle];boat_extra)"
    assert [
        name for name, formula in every_formula().items() if re.search(r"(?<!\.)\bRIG\.", stored(formula))
    ] == []
