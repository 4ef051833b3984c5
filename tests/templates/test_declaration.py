"""The workbook as declared: habits that every formula keeps, and limits that the functions share."""

import re
from pathlib import Path

from loftsheet.formula import parse

from templates import checks, choices
from templates.notation import stored
from templates.schedule import DANGER, FIX, SEVERITIES, WEIGH
from templates.sheets import NAMES, library

TABLES = NAMES.tables
ITEMS = {item.key: item for item in NAMES.items.values()}
PAGES = NAMES.pages


def column_formulas():
    return {
        f"{table.key}_{column.key}": NAMES.formula(column.formula, table)
        for table in TABLES.values()
        for column in table.columns[2:]
        if column.calculated
    }


def item_formulas():
    """Single calculated cells: of Boat, and of the pages for one stay or stub."""
    boat = {f"boat_{item.key}": NAMES.formula(item.formula, None) for item in ITEMS.values() if item.formula}
    pages = {
        f"{page.key}_{item.key}": NAMES.formula(item.formula, page)
        for page in PAGES.values()
        for item in page.items
    }
    return {**boat, **pages}


def grid_formulas():
    return {
        f"{page.key}, row {row}, cell {at}": NAMES.formula(cell[1:], page)
        for page in PAGES.values()
        for row, cells in enumerate(page.grid.rows)
        for at, cell in enumerate(cells)
        if cell.startswith("=")
    }


def check_formulas():
    """What is found, how bad it is and what is shown, of each table, in all its parts."""
    return {
        f"{table.key}_{column.key}": checks.formula(column, table, NAMES)
        for table in TABLES.values()
        for column in table.named
        if column.key not in {one.key for one in table.columns[2:]} and column.key != "name"
    }


def every_formula():
    return {**column_formulas(), **item_formulas(), **grid_formulas(), **check_formulas()}


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


# Tables whose checks read the states of others: never in a circle.
READ_STATES = {
    "masts": {"boat"},  # of its assumptions, which hang on no row
    "points": {"masts"},
    "stays": {"masts", "points", "wire", "share", "rope", "sleeve", "ring", "chainplates"},
    "tangs": {"stays", "masts", "rod", "bolt"},
    "chainplates": {"points", "rope", "ring"},
    "order": {"rope", "rod", "bolt", "sleeve", "ring", "sundry"},
    "log": {"stays"},
}


IN_FULL = ("bench_check", "view_check")  # where all that a check says is shown


def test_no_formula_reads_the_words_of_a_check():
    """They are for reading, shown on two pages and compared with OK by Boat; all else goes by the state."""
    readers = offenders(every_formula(), lambda formula: re.findall(r"_check\b|\[check\]", formula))
    assert set(readers) <= {"boat_first", *IN_FULL, *counting()}


def counting():
    """Results of Boat that count checks, or say what lies outside the tables."""
    return [f"boat_{key}" for key in ITEMS if re.fullmatch(r"wrong|wrong_\w+|mend|outside", key)]


def test_only_what_reports_on_states_reads_them():
    """A number that came from a check could go in a circle that the office does not see."""
    numbers = {**column_formulas(), **item_formulas(), **grid_formulas()}
    readers = offenders(numbers, lambda formula: re.findall(r"_state\b|_found\w*\b", formula))
    assert set(readers) <= {*counting(), "boat_first", "boat_danger", "boat_weigh_boat", "boat_unproven", *IN_FULL}
    among_checks = {
        name: set(re.findall(r"(\w+)_(?:state|found)\b", found)) for name, found in check_formulas().items()
    }
    for name, read in among_checks.items():
        table = name.partition("_")[0]
        assert read <= READ_STATES.get(table, set()), name
    reported = offenders(every_formula(), lambda formula: re.findall(r"boat_mend|boat_danger", formula))
    assert set(reported) == {"control_found"}


def test_a_check_takes_half_of_what_the_office_takes_at_most():
    """Twice the rules would still go into a cell."""
    longest = {name: tokens(formula) for name, formula in check_formulas().items()}
    assert max(longest.values()) > 2000, "the count finds nothing"
    assert {name: count for name, count in longest.items() if count > MOST_TOKENS / 2} == {}


MOST_TOKENS = 8192


def tokens(formula):
    """Texts, cells, names, numbers, and every sign by itself: what the office keeps of a formula, or some more."""
    return len(re.findall(r'"(?:[^"]|"")*"|\[\w+\]|[\w.]+|[^\s\w]', formula))


def rules():
    return [(table.key, rule) for table in TABLES.values() for rule in table.rules]


def test_a_rules_id_is_its_own():
    for table in TABLES.values():
        ids = [rule.id for rule in table.rules]
        assert len(ids) == len(set(ids)), table.key
        assert all(re.fullmatch(r"[a-z0-9_]+(\.[a-z0-9_]+)*", id) for id in ids), table.key


def test_what_a_rule_finds_can_be_taken_apart_again():
    from extension.loftsheet_office.workbook import complaints

    assert complaints.SEVERITIES == SEVERITIES
    for table, rule in rules():
        found = f"{checks.code(table, rule)}{checks.line(rule, 'Where')}"
        both = list(complaints.complaints(f"{found}; {found}"))
        due = complaints.Complaint(rule.severity, f"{table}.{rule.id}", rule.about, checks.line(rule, "Where"))
        assert both == [due, due]


def test_what_has_to_be_changed_leads_to_a_cell_that_can_be():
    """A rule that asks for a change names an input; a note, or what waits, need not."""
    calculated = {
        (key, column.key) for key, table in TABLES.items() for column in table.columns if column.calculated
    }
    for key, rule in rules():
        if rule.severity in (FIX, DANGER, WEIGH):
            assert (key, rule.about) not in calculated, (key, rule.id, rule.about)


CONSTANTS = {"0", "1", "2", "1000"}
DAYS_IN_A_YEAR, MONTHS_IN_A_YEAR = "365.25", "12"
DECIMALS = {"3"}  # of ROUND in the words of a check
SAME_IN_ANOTHER_UNIT = "9"  # decimals
CLASSES = {str(held) for both in library.CLASSES.values() for held in both}  # of stainless bolts, a standard's


def constants(formula):
    return set(re.findall(r"(?<![\w.\]])[0-9]+(?:\.[0-9]+)?", formula))


def test_no_constant_is_hidden_in_a_formula():
    """What could be questioned stands on Boat or in the Library; units and halves may stand in a formula."""
    allowed = CONSTANTS | {DAYS_IN_A_YEAR, MONTHS_IN_A_YEAR, SAME_IN_ANOTHER_UNIT}
    formulas = {**column_formulas(), **item_formulas()}
    ours = {
        said
        for item in ITEMS.values()
        if item.rules and item.value is not None
        for said in (repr(item.value), f"{item.value:g}")
    }
    assert constants(formulas.pop("boat_loosened")) - allowed <= ours | {"30"}, "30 is of a title"
    assert offenders(formulas, lambda formula: constants(formula) - allowed) == {}


def test_no_constant_is_hidden_in_a_rule():
    conditions = {f"{table}.{rule.id}": NAMES.formula(rule.when, TABLES[table]) for table, rule in rules()}
    assert offenders(conditions, lambda rule: constants(rule) - CONSTANTS - DECIMALS - CLASSES) == {}


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
                looked_up = re.match(r"(?:IF\(IS(?:TEXT|BLANK)\()?(?:INDEX\()?(\w+)", part.written)
                if looked_up and looked_up[1] in inputs():
                    yield looked_up[1], inputs()[looked_up[1]], argument.quantity


SOURCES = ("assumed", "common practice, no source", "from memory")


def test_every_figure_to_start_from_has_its_source_beside_it_or_is_said_to_be_assumed():
    figures = [item for item in ITEMS.values() if isinstance(item.value, (int, float))]
    assert len(figures) > 60
    for item in figures:
        source = item.why.rpartition("; ")[2]
        assert source.endswith(SOURCES) or re.search(r"(EN \d|ISO \d|\((19|20)\d\d\))", source), item.why
        assert "common practice" not in item.why.replace("common practice, no source", ""), item.why


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


def test_no_formula_compares_with_a_word_of_its_own():
    """Words that cells hold stand in templates.choices and its like, once each."""
    found = [
        f"{path.name}: {compared}"
        for path in (Path(checks.__file__).parent / "sheets").glob("*.py")
        for compared in re.findall(r'[\])](?:=|<>)"[A-Za-z][^"{]*"', path.read_text(encoding="utf-8"))
    ]
    assert found == []


def test_the_export_knows_what_boat_says_where_nothing_is_outside():
    content = (Path(checks.__file__).parents[1] / "extension/loftsheet_office/supplier/content.py").read_text()
    assert f'NOTHING_OUTSIDE = "{choices.NOTHING}"' in content
