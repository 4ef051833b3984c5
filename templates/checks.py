"""How a row is checked: what its rules find, by code; how bad the worst of it is; and what Check shows.

    found   ⟦danger tangs.flip hole⟧danger: may flip over …; ⟦weigh tangs.steep bevel⟧bevel above …
    state   danger
    check   danger: may flip over …; and 1 more

A row in which nothing was found holds ⟦sound⟧, and so does each part of a check in parts, for an empty text
could be anybody's. A code has the severity, the rule's id and the column that it is about. Whatever counts, marks,
refuses or leads to a cell goes by `found` and `state`; `check` is for reading, and nothing reads it. It shows the
first, so that rows keep their height; all of it is in the Check window, in Explain and on the pages for one row.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from loftsheet.measure import digits

from templates.notation import Names, quoted
from templates.schedule import (
    DANGER,
    FIX,
    FOUND,
    INTACT,
    NAMESAKES,
    NOTE,
    PART_DANGER,
    PART_ERROR,
    PART_FIX,
    PART_MORE,
    PART_ROW,
    PART_RULE,
    PART_WEIGH,
    PARTS,
    SOUND,
    STATE,
    WAITS,
    WEIGH,
    Choices,
    Column,
    Item,
    Rule,
    Table,
)

SHOWN = {
    FIX: "fix ",
    WAITS: "waits for ",
    DANGER: "danger: ",
    WEIGH: "",
    NOTE: "",
}  # how a complaint of each kind begins
OK, OK_BUT = "OK", "OK, but "
OPENING, CLOSING = "⟦", "⟧"
CODE = f"{OPENING}[^{CLOSING}]*{CLOSING}"
LINE_ENDS = r"\n\r"
REST = "(?s).*"  # of a text, whatever lines a name that was typed breaks it into
MOST_SHOWN = 40  # letters of what was typed
LIBRARY = "Library"
PLACES = {
    "masts": "Masts",
    "points": "Points",
    "stays": "Stays",
    "tangs": "Stubs",
}  # of lists; the rest is Library's
NOTHING_FOUND = f"{OPENING}sound{CLOSING}"
SOUND_PARTS = f"{NOTHING_FOUND}; |; {NOTHING_FOUND}"  # beside the others; of sound parts alone the last is left
FIRST_DAY, LAST_DAY = 36526, 73050  # of the years 2000 to 2099, as Calc counts days

NAMELESS = Rule("row.nameless", FIX, "", "this row: it has no name but holds something, name it or empty it")
TYPED_OVER = Rule(
    "row.formula",
    FIX,
    "",
    "this row: a formula was typed over or deleted, Put Right in Check the Schedule brings it back",
)
MOVED = Rule("row.moved", FIX, "", "this row: a cell was cut, dragged or deleted, undo that")
FILLED = Rule(
    "row.filled", FIX, "", "this row: it has no name, but a calculated cell holds something or is gone, undo that"
)
ELSEWHERE = Rule(
    "row.elsewhere", FIX, "", "this row: it is outside its table, or was copied from another, undo that"
)
BROKEN = Rule(
    "row.broken", FIX, "", "this row: its formulas are broken, Put Right in Check the Schedule brings them back"
)
TOGETHER = 25  # columns of which only the first error is asked for its reason
ENDS = "¦"  # between the first errors of each lot
# An error that follows from what was found before is not said again.
BEGINS = "begins"
FOLLOWING = rf"; {OPENING}{FIX} [^ ]*\.{BEGINS} [^{OPENING}]*?(?=; {OPENING}|$)"


def formula(column: Column, table: Table, names: Names) -> str:
    """The formula of a calculated column of a table, `[key]` for the cells of its row."""
    if column.key == "check":
        return check()
    if column.key == STATE:
        return state()
    if column.key == FOUND:
        return found(table, names)
    if column.key == NAMESAKES:
        return blank_until_named(f"SUMPRODUCT(IFERROR(({table.key}_name=[name])*1;0))")
    if column.key == INTACT:
        return blank_until_named(_intact(table))
    if column.key in PARTS:
        return _until_named(_or_sound(_joined(_complaints(table, names)[column.key])))
    return blank_until_named(names.formula(column.formula, table, column.key))


def blank_until_named(formula: str) -> str:
    """The formula of a column; one that was cut from another row is an error, for it still reads that row."""
    return f'IF(ROW([name])=ROW();IF([name]="";"";{formula});NA())'


def _until_named(formula: str) -> str:
    return f'IF(IFERROR([name]="";FALSE());"";{formula})'


def found(table: Table, names: Names) -> str:
    """Formula: what is wrong with a row, each complaint with its code; nothing if it is sound."""
    complaints = _complaints(table, names)
    of_row = [one for part in PARTS for one in complaints[part]]
    joined = _of_parts(table) if table.in_parts else _joined(of_row)
    if any(column.calculated for column in table.columns[2:]):
        joined = f'REGEX({joined};{quoted(FOLLOWING)};"")'
    joined = _or_sound(joined)
    inputs = [column for column in table.columns[2:] if not column.calculated]
    nameless = "*".join(f"ISBLANK([{column.key}])" for column in inputs) or "1"
    keys = [*table.counters, *(column.key for column in table.columns[2:] if column.calculated)]
    calculated = ";".join(f"[{key}]" for key in keys)
    # What was cut from a row without a name, or pasted into it, is an error or a figure there that others count.
    filled = f'IFERROR(TEXTJOIN("";TRUE();{calculated})<>"";TRUE())'
    torn = f'IF({filled};{leaf(table, FILLED)};"")'
    empty = f"IF({nameless};{torn};{leaf(table, NAMELESS)})"
    return f'IF(IFERROR([name]="";FALSE());{empty};IFERROR({joined};{leaf(table, BROKEN)}))'


def _of_parts(table: Table) -> str:
    """Formula: what the parts of a check found; one that says neither that nor that all is sound was replaced."""
    typed_over = leaf(table, TYPED_OVER)
    emptied = "+".join(f'([{part}]="")' for part in PARTS)
    row = f"IF(({emptied}=0)*ISFORMULA([{PART_ROW}])*(ROW([{PART_ROW}])=ROW());[{PART_ROW}];{typed_over})"
    joined = _joined([f"[{part}]" if part != PART_ROW else row for part in PARTS])
    return f'REGEX({joined};{quoted(SOUND_PARTS)};"";"g")'


def state() -> str:
    """Formula: how bad the worst is that was found in a row."""
    return f'IFERROR(IF({_in_place(FOUND)};{_worst()};"{FIX}");"{FIX}")'


def _worst() -> str:
    """Formula: the state that follows from what was found; what holds no code was typed over."""
    worst = f'"{FIX}"'
    for severity in (NOTE, WEIGH, DANGER, WAITS, FIX):
        worst = f'IF(ISNUMBER(FIND("{OPENING}{severity} ";[{FOUND}]));"{severity}";{worst})'
    empty = f'IF([{FOUND}]&[name]="";"";{worst})'
    return f'IF([{FOUND}]="{NOTHING_FOUND}";"{SOUND}";{empty})'


def check() -> str:
    """Formula: the word OK, or in plain words what was found; a name is asked for no more."""
    first = f'REGEX(REGEX([{FOUND}];"; {OPENING}{REST}";"");"{CODE}";"")'
    more = f'(LEN([{FOUND}])-LEN(SUBSTITUTE([{FOUND}];"{OPENING}";"")))'
    shown = f'{_ok_but(STATE)}&{first}&IF({more}>1;"; and "&({more}-1)&" more";"")'
    said = f'IF([{STATE}]="{SOUND}";"{OK}";IF([{STATE}]="";"";{shown}))'
    coded = f'([{STATE}]="")+(LEFT([{FOUND}];1)="{OPENING}")'
    untouched = f"{_in_place(FOUND)}*{_in_place(STATE)}*([{STATE}]={_worst()})*({coded})"
    return f"IF(IFERROR({untouched};FALSE());IFERROR({said};{quoted(line(BROKEN))});{quoted(line(TYPED_OVER))})"


def in_full(row: str) -> str:
    """Formula: all that the check of a row says, of which its cell shows the first."""
    everything = f'{_ok_but(f"{row}.{STATE}")}&REGEX([{row}.{FOUND}];"{CODE}";"";"g")'
    return f'IF([{row}.{FOUND}]="{NOTHING_FOUND}";[{row}.check];{everything})'


def _ok_but(state: str) -> str:
    """Formula: how the check of a row begins of which something is only noted."""
    return f'IF([{state}]="{NOTE}";"{OK_BUT}";"")'


def of_item(item: Item, names: Names) -> "dict[str, str]":
    """The formulas of what is wrong with an assumption of Boat, of how bad it is and of its check."""
    complaints = [_input_rule("boat", item.column(), f"boat_{item.key}")]
    for rule in item.rules:
        whole = replace(rule, id=f"{item.key}.{rule.id}", about=item.key)
        words = leaf("boat", whole, item.title if rule.severity == FIX else "")
        complaints.append(f'IFERROR(IF({names.formula(rule.when, None, whole.id)};{words};"");"")')
    return {FOUND: _or_sound(_joined(complaints)), STATE: state(), "check": check()}


def _in_place(key: str) -> str:
    return f"ISFORMULA([{key}])*(ROW([{key}])=ROW())"


def _joined(complaints: Sequence[str]) -> str:
    return f'TEXTJOIN("; ";TRUE();{";".join(complaints)})' if complaints else '""'


def _or_sound(complaints: str) -> str:
    return f'REGEX({complaints};"^$";"{NOTHING_FOUND}")'


def _complaints(table: Table, names: Names) -> "dict[str, list[str]]":
    """The formulas of all complaints of a table, by the part of its check that they belong to."""
    inputs = [column for column in table.columns[2:] if not column.calculated]
    rules = {
        severity: [
            complaint(rule, table, names) for rule in table.rules if rule.severity == severity and not rule.mutual
        ]
        for severity in SHOWN
    }
    mutual = [complaint(rule, table, names) for rule in table.rules if rule.mutual]
    questions = [*rules[WEIGH], *rules[NOTE]]
    half = (len(questions) + 1) // 2
    return {
        PART_FIX: [
            *_name_rules(table, names),
            *(_input_rule(table.key, column, f"[{column.key}]") for column in inputs),
        ],
        PART_RULE: [*rules[FIX], *rules[WAITS]],
        PART_ROW: _row_rules(table),
        PART_ERROR: _errors(table),
        PART_DANGER: [*mutual, *rules[DANGER]],
        PART_WEIGH: questions[:half],
        PART_MORE: questions[half:],
    }


def complaint(rule: Rule, table: Table, names: Names) -> str:
    """Formula: what a rule says, with its code, when its condition holds."""
    where = _where(rule, table, names)
    whose = f"rule {rule.id}"
    coded = code(table.key, replace(rule, about=_led_to(rule, table)))
    words = names.message(coded + line(replace(rule, remedy=""), where), table, whose)
    if rule.remedy:
        remedy = names.message(f": {rule.remedy}", table, whose)
        words += f'&IFERROR({remedy};"")' if "{" in rule.remedy else f"&{remedy}"
    return f'IFERROR(IF({names.formula(rule.when, table, whose)};{words};"");"")'


def code(table: str, rule: Rule) -> str:
    about = f" {rule.about}" if rule.about else ""
    return f"{OPENING}{rule.severity} {table}.{rule.id}{about}{CLOSING}"


def _led_to(rule: Rule, table: Table) -> str:
    """What a rule is about, as its code has it: a column; elsewhere the one that names the row, and a range."""
    if "." not in rule.about:
        return rule.about
    column, name = table.elsewhere(rule.about)
    return f"{column.key}.{name}"


def line(rule: Rule, where: str = "") -> str:
    """The words of a rule: how bad, where, what, and what to do."""
    place = f"{where}: " if where else ""
    return SHOWN[rule.severity] + place + rule.says + (f": {rule.remedy}" if rule.remedy else "")


def leaf(table: "Table | str", rule: Rule, where: str = "") -> str:
    """A text, as a formula has it: what a rule without numbers in its words says, with its code."""
    return quoted(code(table if isinstance(table, str) else table.key, rule) + line(rule, where))


def _where(rule: Rule, table: Table, names: Names) -> str:
    """The title of what a rule is about, where the words do not say so themselves: of what has to be fixed."""
    if not rule.about or "." in rule.about:
        return ""
    if rule.about in names.items:
        return f"Boat, {names.items[rule.about].title}" if rule.severity == FIX else ""
    column = table.column(rule.about)
    if column is None:
        names.formula(f"[{rule.about}]", table, f"rule {rule.id}")  # says that there is none
    assert column
    return (column.title if column.key != "name" else "the name") if rule.severity == FIX else ""


def _input_rule(table: str, column: Column, cell: str) -> str:
    """What is wrong with an input, silent if nothing is."""

    def wrong(id: str, says: str) -> str:
        return leaf(table, Rule(f"{column.key}.{id}", FIX, "", says, column.key), column.title)

    blank = wrong("blank", "it is blank") if column.required else '""'
    held = '""'
    if column.choices:
        held = f'IF({in_list(cell, column.choices)};"";{_not_in_list(table, column, cell)})'
    elif column.is_date or column.least is not None:
        out_of_range = f"{wrong('range', 'got ')}&{_got(cell)}&{quoted(f'; must be {limits(column)}')}"
        held = f'IF(IFERROR({allowed(column, cell)};FALSE());"";{out_of_range})'
    return f"IF(ISERROR({cell});{wrong('error', 'it is an error')};IF(ISBLANK({cell});{blank};{held}))"


def _got(cell: str) -> str:
    """Formula: what was typed, cut where it is long, in one line, without the sign with which a code begins."""
    return f'REGEX(LEFT({cell};{MOST_SHOWN});"[{OPENING}{LINE_ENDS}]+";" ";"g")'


def _not_in_list(table: str, column: Column, cell: str) -> str:
    """Formula: what is said of a name that is not in its list.

    Where other rows have lost the same one, the first of them says so and the others wait for it: one row that was
    deleted or renamed elsewhere is one fault.
    """

    def asks(severity: str, id: str, before: str, after: str, where: str) -> str:
        rule = Rule(f"{column.key}.{id}", severity, "", before, column.key)
        return f"{leaf(table, rule, where)}&{_got(cell)}&{quoted(after)}"

    if not isinstance(column.choices, str):
        return asks(FIX, "list", "got ", "; pick one from the list", column.title)
    place = PLACES.get(column.choices.partition("_")[0], LIBRARY)
    says = asks(
        FIX,
        "list",
        "there is no ",
        f" {'in' if place == LIBRARY else 'on'} {place}; pick another, give it a row there, or Put Right if it"
        " was renamed",
        column.title,
    )
    if table == "boat":
        return says
    same = f"{table}_{column.key}"
    first = f"IFERROR(ROW(INDEX({same};MATCH({cell};{same};0)))<ROW({cell});FALSE())"
    return f"IF({first};{asks(WAITS, 'lost', f'{place}: ', '', '')};{says})"


def in_list(cell: str, choices: Choices) -> str:
    """Formula: whether a cell holds one of the choices."""
    if isinstance(choices, str):
        return f"ISNUMBER(MATCH({cell};{choices};0))"
    return f"OR({';'.join(cell + '=' + quoted(choice) for choice in choices)})"


def allowed(column: Column, cell: str) -> str:
    """Formula: whether a cell holds a number that its column takes, or a text with a unit that is one."""
    if not column.measure:
        return f"IF(ISNUMBER({cell});{_within(column, cell)};FALSE())"
    read = _within(column, f'RIG.READ({cell};"{column.measure}")')
    as_text = f"IF(ISTEXT({cell});IFERROR({read};FALSE());FALSE())"
    return f"IF(ISNUMBER({cell});{_within(column, cell)};{as_text})"


def _within(column: Column, value: str) -> str:
    least, most = (FIRST_DAY, LAST_DAY) if column.is_date else _range(column)
    whole = f";{value}=INT({value})" if column.whole else ""
    return f"AND({value}>={digits(least)};{value}<={digits(most)}{whole})"


def limits(column: Column) -> str:
    """What a column takes, in words."""
    if column.is_date:
        return "a date such as 2026-05-01"
    kind = "a whole number, " if column.whole else ""
    least, most = _range(column)
    return f"{kind}{digits(least)} to {digits(most)} {column.unit}".rstrip()


def _range(column: Column) -> "tuple[float, float]":
    """The least and the most of a column that is a number."""
    assert column.least is not None and column.most is not None, column.key
    return column.least, column.most


def _name_rules(table: Table, names: Names) -> "list[str]":
    signs = "+".join(f'ISNUMBER(FIND("{sign}";[name]))' for sign in f"*?~{OPENING}{CLOSING}")
    error = Rule("name.error", FIX, "ISERROR([name])", "it is an error", "name")
    blanks = "it has a space before or after it, two spaces together, or a line break"
    rules = (
        Rule("name.number", FIX, "ISNUMBER([name])", "it is a number, put a word before it", "name"),
        Rule("name.twice", FIX, f"[{NAMESAKES}]>1", "it is there twice", "name"),
        Rule("name.blanks", FIX, 'TRIM(CLEAN([name]))<>[name]&""', blanks, "name"),
        Rule("name.signs", FIX, signs, f"it holds one of * ? ~ {OPENING} {CLOSING}", "name"),
    )
    rows = table.columns[0].choices
    unknown = Rule("name.list", FIX, f"NOT({in_list('[name]', rows)})", "it is not in its list", "name")
    picked = [unknown] if rows else []
    return [
        f'IF({error.when};{leaf(table, error, "the name")};"")',
        *(complaint(rule, table, names) for rule in (*rules, *picked)),
    ]


def _row_rules(table: Table) -> "list[str]":
    """Rules on the row itself: cells moved away, formulas typed over."""
    parts = [part for part in PARTS if part != PART_ROW] if table.in_parts else []
    keys = [*table.counters, *(column.key for column in table.columns if column.key != "check"), *parts]
    calculated = [column for column in table.columns[2:] if column.calculated]
    unless_name = f'IF(ISERROR([name]);"";{leaf(table, MOVED)})'
    moved = f'IFERROR(IF({_all_in_row(table, keys)};"";{leaf(table, MOVED)});{unless_name})'
    # A row that is copied to another table brings the formulas of its own, which are content with it.
    names = f"{table.key}_name"
    last = f"ROW(INDEX({names};ROWS({names})))"
    inside = f"AND(SHEET([name])=SHEET({names});ROW()>=ROW(INDEX({names};1));ROW()<={last})"
    elsewhere = f'IF(IFERROR({inside};TRUE());"";{leaf(table, ELSEWHERE)})'
    formulas = "*".join(
        f"ISFORMULA([{key}])" for key in (*table.counters, *(one.key for one in calculated), *parts)
    )
    # What counts the name comes to no number where that is an error or was moved, which is said by itself.
    counted = f"IF(ISNUMBER([{NAMESAKES}]);TRUE();IF(ISERROR([name]);TRUE();ROW([name])<>ROW()))"
    return [moved, elsewhere, f'IF({formulas}*{counted};"";{leaf(table, TYPED_OVER)})']


def _all_in_row(table: Table, keys: Sequence[str]) -> str:
    """Formula: whether cells still stand in this row and in their columns."""
    rows = ";".join(f"ROW([{key}])" for key in keys)
    aside = ";".join(f"COLUMN([{key}])-COLUMN({table.key}_{key})" for key in keys)
    return f"DEVSQ(ROW();{rows})+SUMSQ({aside})=0"


def _intact(table: Table) -> str:
    """Formula: 1 if what the balance reads of a row stands there, is worked out where it has to be, no error."""
    read = _with_causes(table.columns[2:], table.balanced)
    formulas = "*".join(f"ISFORMULA([{column.key}])" for column in read if column.calculated)
    cells = [f"[{column.key}]" for column in read]
    in_place = _all_in_row(table, [column.key for column in read])
    return f"IF(ISERROR(SUM({';'.join(cells)}));0;IF(IFERROR({in_place};FALSE());1*{formulas};0))"


def _errors(table: Table) -> "list[str]":
    """What is said of calculated cells that are errors: why the first is, a cause before what follows from it.

    It takes long to find, so it is not looked for where something else is known to be wrong with the row.
    """
    columns = _causes_first([column for column in table.columns[2:] if column.calculated])
    if not columns:
        return []
    parts = [columns[at : at + TOGETHER] for at in range(0, len(columns), TOGETHER)]
    of_each = ";".join(_first_error(table, part) for part in parts)
    first = f'REGEX(TEXTJOIN("{ENDS}";TRUE();{of_each});"{ENDS}{REST}";"")'
    cells = ";".join(f"[{column.key}]" for column in columns)
    said = f'IF(ISERROR(SUM({cells}));{first};"")'
    others = f"[{PART_FIX}]&[{PART_RULE}]"
    return [f'IF({others}="{NOTHING_FOUND * 2}";{said};"")' if table.in_parts else said]


def _first_error(table: Table, columns: "Sequence[Column]") -> str:
    """Formula: the refusal of the first of some columns that is an error."""
    formula = '""'
    for column in reversed(columns):
        cell = f"[{column.key}]"
        rule = Rule(f"{column.key}.{BEGINS}", FIX, "", "", column.key)
        formula = f"IF(ISERROR({cell});{leaf(table, rule, column.title)}&RIG.REFUSAL({cell});{formula})"
    return formula


def _causes_first(columns: Sequence[Column]) -> "list[Column]":
    """The columns from left to right, but each after those of its row that it is calculated from."""
    return _with_causes(columns, [column.key for column in columns])


def _with_causes(columns: Sequence[Column], keys: Sequence[str]) -> "list[Column]":
    """The columns of these keys, each after those of its row that it is calculated from."""
    of, ordered = {column.key: column for column in columns}, dict[str, Column]()

    def put(key: str) -> None:
        if key in of and key not in ordered:
            for cause in re.findall(r"\[(\w+)", of[key].formula):
                put(cause)
            ordered[key] = of[key]

    for key in keys:
        put(key)
    return list(ordered.values())


def bad(table: str) -> str:
    """Formula: rows of a table that are not OK and wait for no other."""
    named = f'(({table}_check<>"")+1-ISBLANK({table}_name)>0)'
    silent = f'({table}_{STATE}<>"{WAITS}")*({table}_{STATE}<>"{NOTE}")'
    not_ok = f'(({table}_check<>"{OK}")+({table}_{STATE}<>"{SOUND}")>0)'
    gone = f'({table}_check="")*(1-ISBLANK({table}_name))'
    return f"SUMPRODUCT(IFERROR(({not_ok}*{silent}*{named}+{gone}+{_finds(FIX, table)}+{_softened(table)}>0)*1;1))"


def to_fix(table: str) -> str:
    """Formula: rows of a table that have to be fixed, or whose check or state was typed over or is not there."""
    named = f"(1-ISBLANK({table}_name))"
    at_odds = f'(({table}_{STATE}="{SOUND}")<>({table}_check="{OK}"))'
    unsaid = f'({table}_{STATE}="")*{named}+({table}_check="")*{named}'
    fix = f'({table}_{STATE}="{FIX}")+{_finds(FIX, table)}'
    return f"SUMPRODUCT(IFERROR(({fix}+{unsaid}+{at_odds}+{_softened(table)}>0)*1;1))"


def _softened(table: str) -> str:
    """Formula: of each row whether its state makes less of a danger that was found."""
    return f'{_finds(DANGER, table)}*ISERROR(FIND({table}_{STATE};"{FIX} {WAITS} {DANGER}"))'


def in_danger(table: str) -> str:
    """Formula: rows of a table that are worked out and too weak or unsafe."""
    return f'SUMPRODUCT(IFERROR(({table}_{STATE}="{DANGER}")*1;0))'


def says(severity: str, table: str) -> str:
    """Formula: rows of a table whose check says something of that severity, whatever else it says."""
    return f"SUMPRODUCT({_finds(severity, table)}*1)"


def _finds(severity: str, table: str) -> str:
    """Formula: of each row of a table whether something of that severity was found, whatever its state says."""
    return f'ISNUMBER(FIND("{OPENING}{severity} ";{table}_{FOUND}))'


def spoken(complaints: Sequence[str], silence: str) -> str:
    """Formula: what the complaints say, or a word for silence; the marks tell which without saying all twice."""
    return f'SUBSTITUTE(SUBSTITUTE("§"&{_joined(complaints)}&"§";"§§";"{silence}");"§";"")'
