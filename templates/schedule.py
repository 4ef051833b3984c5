"""The words in which the workbook is declared: columns, tables, items and sheets.

A formula is written with `[key]` for the cell of that column in the same row, named ranges as they are, and
`RIG.…` for our functions, semicolons between arguments. Every calculated cell is blank until the row's name
is filled; a table's named ranges are `<table>_<column>`.

A check begins with "mend" where the row cannot be counted on: nothing is ordered until it is mended. Its other
words are for the user to weigh.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, Optional, Union

from loftsheet import CALCS
from loftsheet.measure import digits, named

Choices = Union[str, "tuple[str, ...]"]
MEND = "mend "
DANGER = "danger: "
READABLE = ("mm", "kN", "kN·m", "g/m", "kg", "MPa", "°", "°C")


@dataclass(frozen=True)
class Column:
    """One column of a table: an input if it has no formula."""

    key: str
    title: str
    unit: str = ""
    help: str = ""
    formula: str = ""
    format: str = ""
    choices: Choices = ()
    least: Optional[float] = None
    most: Optional[float] = None
    required: bool = False
    whole: bool = False
    measure: str = ""
    width: int = 17
    block: str = ""

    @property
    def calculated(self) -> bool:
        return bool(self.formula)

    @property
    def is_date(self) -> bool:
        return self.format.startswith("YYYY")

    @property
    def header(self) -> str:
        title = f"{self.title} *" if self.required else self.title
        return f"{title}\n{self.unit}" if self.unit else title


@dataclass(frozen=True)
class Table:
    """A table of a sheet: its first column is the name, its second the check; what that says beyond the usual.

    A fault has to be mended (`fault`), a rule is for the user to weigh (`words`). So many rows are spare below
    those that are filled, and so many ready in all at least. A block that is `unprinted` stays off the paper.
    """

    key: str
    title: str
    columns: "tuple[Column, ...]"
    faults: "tuple[str, ...]" = ()
    rules: "tuple[str, ...]" = ()
    spare: int = 4
    ready: int = 0
    note: str = ""
    unprinted: "tuple[str, ...]" = ()

    def column(self, key: str) -> Column:
        return next(column for column in self.columns if column.key == key)

    def blocks(self) -> "list[tuple[str, list[Column]]]":
        """The columns after name and check, by block in order."""
        blocks: dict[str, list[Column]] = {}
        for column in self.columns[2:]:
            blocks.setdefault(column.block, []).append(column)
        return list(blocks.items())


@dataclass(frozen=True)
class Item:
    """One assumption or result of the Boat sheet, known by the named range `boat_<key>`."""

    key: str
    title: str
    unit: str = ""
    why: str = ""
    value: "Union[str, float, None]" = None
    formula: str = ""
    format: str = "General"
    choices: Choices = ()
    least: Optional[float] = None
    most: Optional[float] = None
    text: bool = False
    required: bool = False
    whole: bool = False
    rules: "tuple[str, ...]" = ()

    def column(self) -> Column:
        """The item as a column of one cell."""
        return Column(
            self.key,
            self.title,
            self.unit,
            self.why,
            format=self.format,
            choices=self.choices,
            least=self.least,
            most=self.most,
            required=self.required,
            whole=self.whole,
        )


@dataclass(frozen=True)
class Group:
    """Items of the Boat sheet under one heading."""

    title: str
    items: "tuple[Item, ...]"


@dataclass(frozen=True)
class Sheet:
    """One sheet: its tables from top to bottom, or groups of items, or lines to read.

    At most two cautions stand at its head, on every page of it.
    """

    title: str
    purpose: str
    tables: "tuple[Table, ...]" = ()
    groups: "tuple[Group, ...]" = ()
    lines: "tuple[tuple[str, str], ...]" = ()
    landscape: bool = True
    cautions: "tuple[str, ...]" = ()


def find(table: str, column: str, key: str) -> str:
    """Formula: the cell of another table's column in the row with that name."""
    return f"INDEX({table}_{column};MATCH({key};{table}_name;0))"


def plain(cell: str, unit: str) -> str:
    """Formula: a cell that holds a number or a text with a unit, as a number in that unit; a blank is no 0."""
    return f'IF(ISTEXT({cell});RIG.READ({cell};"{unit}");{there(cell)})'


def there(cell: str) -> str:
    """Formula: what a cell holds; an error if it is blank, for Calc would go on with 0."""
    return f"IF(ISBLANK({cell});NA();{cell})"


def own_or(own: str, default: str, unit: str = "") -> str:
    """Formula: the row's own value where one is typed, else the default."""
    return f'IF({own}="";{default};{plain(own, unit) if unit else own})'


def words(condition: str, text: str) -> str:
    """Rule: these words when the condition holds; an error in the condition is left to the rule on errors."""
    return f'IFERROR(IF({condition};{text};"");"")'


def fault(condition: str, text: str) -> str:
    """Rule: the row has to be mended when the condition holds; an error in it is left to the rule on errors."""
    return words(condition, f'"{MEND}{text}"')


def danger(condition: str, text: str) -> str:
    """Rule: the row is worked out, and what it says is too weak or unsafe; nothing is ordered from it."""
    return words(condition, f'"{DANGER}"&{text}')


def in_danger(check: str) -> str:
    """Formula: whether a check speaks of danger."""
    return f'ISNUMBER(FIND("{DANGER}";{check}))'


def not_ok(check: str) -> str:
    """Formula: whether a check says more than OK, or than OK on figures without a certificate."""
    return f'LEFT({check};LEN("OK"))<>"OK"'


def to_be_mended(check: str) -> str:
    """Formula: whether a row's check says that it cannot be counted on."""
    return f'LEFT({check};LEN("{MEND}"))="{MEND}"'


def sound(table: str, key: str, what: str, where: str) -> str:
    """Rule: the row that this row takes figures from has to be mended first; one whose check is gone, too."""
    check = f'{find(table, "check", key)}&"{MEND}"'
    return fault(to_be_mended(check), f"{what}: its row on {where} has to be mended first")


def short_by(spare: str) -> str:
    """Formula: by how much a spare is short, in words; never by nothing."""
    in_percent = f'TEXT(-{spare};"0 %")'
    return f'IF({in_percent}="0 %";"less than 1 %";{in_percent})'


NO_CERTIFICATE = "no certificate: "
CERTIFICATE, MAKERS, STANDARD, MEASURED = "certificate", "maker's figure", "standard", "measured"
STATUSES = (CERTIFICATE, MAKERS, STANDARD, MEASURED, "published", "from memory", "assumed", "invented")


def unproven(what: str, table: str, key: str) -> str:
    """Formula: the word for a figure that rests on no certificate; blank where nothing is to be said of it."""
    return f'IF({find(table, "unproven", key)}="";"";"{what}")'


def listed(*parts: str) -> str:
    """Formula: those of the texts that are not blank, with commas between them."""
    return f'TEXTJOIN(", ";TRUE();{";".join(parts)})'


def without_certificate(cell: str) -> str:
    """Rule: the cell names what rests on no certificate; it says so beside an OK, too."""
    return words(f'{cell}<>""', f'"{NO_CERTIFICATE}"&{cell}')


# For tables whose rows are worked out with assumptions: a blank one would count as 0.
BOAT_FIRST = f'"{MEND}Boat first: "&boat_first'
BOAT_SOUND = words("boat_wrong_boat>0", BOAT_FIRST)


def places(value: str, digits: int) -> str:
    """Formula: a number in words with so many decimals, whatever the decimal sign of the user's language."""
    return f"FIXED({value};{digits};TRUE())"


def stored(formula: str) -> str:
    """A formula with our functions by the names that files store."""
    return re.sub(r"RIG(?:\.[A-Z]+)+(?=\()", lambda found: stored_name(found.group()), formula)


def stored_name(name: str) -> str:
    return f"ORG.LOFTSHEET.RIG.{CALCS[name].uno_name.upper()}"


def in_row(formula: str, letters: "dict[str, str]", row: int) -> str:
    """Put the cells of one row in the place of `[key]`."""
    return re.sub(r"\[(\w+)\]", lambda found: f"{letters[found.group(1)]}{row}", formula)


ROW = "row"
ROW_ITSELF = "this row: "
TYPED_OVER = f"{ROW_ITSELF}a formula was typed over or deleted, copy a sound row and insert it"
MOVED = f"{ROW_ITSELF}a cell was cut, dragged or deleted, undo that"
ROW_SAYS = (
    f"IF(ISFORMULA([{ROW}])*(ROW([{ROW}])=ROW());"
    f'IFERROR([{ROW}];IF(ISERROR([name]);"";"{MEND}{MOVED}"));"{MEND}{TYPED_OVER}")'
)
BROKEN = "this row: its formulas are broken, copy a sound row and insert it"
FIRST_DAY, LAST_DAY = 36526, 73050  # of the years 2000 to 2099, as Calc counts days


def check_formula(table: Table) -> str:
    """The check of a row: the word OK, or in plain words what is wrong."""
    inputs = [column for column in table.columns[2:] if not column.calculated]
    rules = [
        *_name_rules(table),
        *(input_rule(column, f"[{column.key}]") for column in inputs),
        *table.faults,
        *([ROW_SAYS] if table.columns[-1].key == ROW else _sound_rules(table)),
        *table.rules,
    ]
    nameless = "*".join(f"ISBLANK([{column.key}])" for column in inputs) or "1"
    calculated = ";".join(f"[{column.key}]" for column in table.columns[2:] if column.calculated)
    torn = f'IF(ISERROR(SUM({calculated}));"{MEND}{MOVED}";"")' if calculated else '""'
    empty = f'IF({nameless};{torn};"{MEND}this row: it has no name but holds something, name it or empty it")'
    return f'IF(IFERROR([name]="";FALSE());{empty};IFERROR({said(rules, "OK")};"{MEND}{BROKEN}"))'


def with_look_at_row(table: Table) -> Table:
    """The table with what its rows say of themselves in a last column of its own.

    The office takes no formula of more than 8192 parts; the check of a table with many columns would have more.
    """
    of_itself = f'TEXTJOIN("; ";TRUE();{";".join(_sound_rules(table))})'
    column = calculated(ROW, "Row", "", of_itself, "what Check says of the row's own cells and formulas", width=30)
    title = "Row itself"
    columns = (*table.columns, *block(title, column))
    return replace(table, columns=columns, unprinted=(*table.unprinted, title))


def said(rules: Sequence[str], silence: str) -> str:
    """Formula: what the rules say, or a word for silence; the marks tell which without saying all twice."""
    joined = f'TEXTJOIN("; ";TRUE();{";".join(rules)})'
    marked = f'SUBSTITUTE("§"&{joined}&"§";"§§";"{silence}")'
    if any(NO_CERTIFICATE in rule for rule in rules):
        marked = f'SUBSTITUTE({marked};"§{NO_CERTIFICATE}";"{silence}, but {NO_CERTIFICATE}")'
    return f'SUBSTITUTE({marked};"§";"")'


def input_rule(column: Column, cell: str) -> str:
    """Rule: what is wrong with an input, silent if nothing is."""
    wrong, blank = _mend(column, "it is an error"), _mend(column, "it is blank") if column.required else '""'
    return f"IF(ISERROR({cell});{wrong};IF(ISBLANK({cell});{blank};{_held(column, cell)}))"


def _mend(column: Column, what: str) -> str:
    return f'"{MEND}{column.title}: {what}"'


def _held(column: Column, cell: str) -> str:
    """Rule on an input that holds something."""
    if column.choices:
        return f'IF({in_list(cell, column.choices)};"";{_mend(column, "it is not in its list")})'
    if column.is_date or column.least is not None:
        return f'IF(IFERROR({allowed(column, cell)};FALSE());"";{_mend(column, f"{limits(column)} is due")})'
    return '""'


def in_list(cell: str, choices: Choices) -> str:
    """Formula: whether a cell holds one of the choices."""
    if isinstance(choices, str):
        return f"ISNUMBER(MATCH({cell};{choices};0))"
    return f"OR({';'.join(cell + '=' + quoted(choice) for choice in choices)})"


def quoted(text: str) -> str:
    return f'"{text}"'


def allowed(column: Column, cell: str) -> str:
    """Formula: whether a cell holds a number that its column takes, or a text with a unit that is one."""
    if not column.measure:
        return f"IF(ISNUMBER({cell});{_within(column, cell)};FALSE())"
    read = _within(column, f'RIG.READ({cell};"{column.measure}")')
    as_text = f"IF(ISTEXT({cell});IFERROR({read};FALSE());FALSE())"
    return f"IF(ISNUMBER({cell});{_within(column, cell)};{as_text})"


def _within(column: Column, value: str) -> str:
    least, most = (FIRST_DAY, LAST_DAY) if column.is_date else (column.least, column.most)
    whole = f";{value}=INT({value})" if column.whole else ""
    return f"AND({value}>={digits(least)};{value}<={digits(most)}{whole})"


def limits(column: Column) -> str:
    """What a column takes, in words."""
    if column.is_date:
        return "a date such as 2026-05-01"
    kind = "a whole number" if column.whole else "a number"
    return f"{kind} of {digits(column.least)} to {digits(column.most)} {column.unit}".rstrip()


def example(unit: str) -> str:
    """A text with a unit of that kind, another where one is common."""
    return {"mm": "3/8 in", "kN": "450 kgf"}.get(unit) or named(unit).example()


def _name_rules(table: Table) -> "list[str]":
    found = "+".join(f'ISNUMBER(FIND("{sign}";[name]))' for sign in "*?~")
    return [
        f'IF(ISERROR([name]);"{MEND}the name: it is an error";"")',
        fault("ISNUMBER([name])", "the name: it is a number, put a word before it"),
        fault(f"SUMPRODUCT(({table.key}_name=[name])*1)>1", "the name: it is there twice"),
        fault('TRIM([name])<>[name]&""', "the name: it has blanks around or inside it"),
        fault(found, "the name: it holds * ? or ~"),
    ]


def _sound_rules(table: Table) -> "list[str]":
    """Rules on the row itself: cells moved away, formulas typed over, calculated cells that are errors."""
    keys = [column.key for column in table.columns if column.key != "check"]
    calculated = [column for column in table.columns[2:] if column.calculated]
    rows = ";".join(f"ROW([{key}])" for key in keys)
    aside = ";".join(f"COLUMN([{key}])-COLUMN({table.key}_{key})" for key in keys)
    moved = f'IF(DEVSQ(ROW();{rows})+SUMSQ({aside})=0;"";"{MEND}{MOVED}")'
    if not calculated:
        return [moved]
    formulas = "*".join(f"ISFORMULA([{column.key}])" for column in calculated)
    cells = ";".join(f"[{column.key}]" for column in calculated)
    named = ";".join(f'IF(ISERROR([{column.key}]);"{column.title}";"")' for column in _causes_first(calculated))
    first = f'REGEX(TEXTJOIN("|";TRUE();{named});"[|].*";"")'
    return [
        moved,
        f'IF({formulas};"";"{MEND}{TYPED_OVER}")',
        f'IF(ISERROR(SUM({cells}));"{MEND}errors from here on: "&{first};"")',
    ]


def _causes_first(columns: Sequence[Column]) -> "list[Column]":
    """The columns from left to right, but each after those of its row that it is calculated from."""
    of, ordered = {column.key: column for column in columns}, dict[str, Column]()

    def put(key: str) -> None:
        if key in of and key not in ordered:
            for cause in re.findall(r"\[(\w+)\]", of[key].formula):
                put(cause)
            ordered[key] = of[key]

    for key in of:
        put(key)
    return list(ordered.values())


def blank_until_named(column: Column) -> str:
    """The formula of a column; one that was cut from another row is an error, for it still reads that row."""
    return f'IF(ROW([name])=ROW();IF([name]="";"";{column.formula});NA())'


def name_and_check(title: str, help: str, check_width: int = 46) -> "tuple[Column, Column]":
    """The first two columns of every table."""
    return (
        Column("name", title, help=help, width=38),
        Column("check", "Check", help="OK, or what is wrong with this row", formula="check", width=check_width),
    )


def number(key: str, title: str, unit: str, least: float, most: float, help: str, **more: Any) -> Column:
    """An input that is a number, or a text with a unit where `unit` is one that RIG.READ knows."""
    measure = more.pop("measure", unit if unit in READABLE else "")
    return Column(key, title, unit, help, least=least, most=most, measure=measure, **more)


def choice(key: str, title: str, choices: Choices, help: str, **more: Any) -> Column:
    """An input out of a list: words, or the named range that holds them."""
    return Column(key, title, help=help, choices=choices, **{"width": 24, **more})


def text(key: str, title: str, help: str, **more: Any) -> Column:
    """An input that is free text."""
    return Column(key, title, help=help, **{"width": 40, "format": "@", **more})


def calculated(key: str, title: str, unit: str, formula: str, help: str, **more: Any) -> Column:
    """A calculated column."""
    return Column(key, title, unit, help, formula, **more)


def counted() -> Column:
    """The calculated column that totals use in place of the number that was typed: an error if it can be none."""
    sound = "IF(ISNUMBER([number]);AND([number]>=1;[number]=INT([number]));FALSE())"
    formula = f"IF({sound};[number];NA())"
    return calculated("count", "Counted", "", formula, "number, as totals count it", format="0")


def block(title: str, *columns: Column) -> "tuple[Column, ...]":
    """Columns under one heading, which are folded and printed together."""
    return tuple(replace(column, block=title) for column in columns)
