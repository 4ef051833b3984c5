"""The words in which the workbook is declared: columns, rules, tables, items, pages and sheets.

Formulas and messages are in the notation of `templates.notation`, with `RIG.…` for our functions and semicolons
between arguments. Every calculated cell is blank until the row's name is filled; a table's named ranges are
`<table>_<column>`, Boat's are `boat_<item>`, those of a page for one row `<page>_<item>`.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import chain, groupby
from typing import Any, Optional, Union

Choices = Union[str, "tuple[str, ...]"]
READABLE = ("mm", "m", "kN", "kN·m", "g/m", "kg", "MPa", "GPa", "°", "°C")

# How bad it is: the row cannot be counted on; it waits for another row; it is too weak or unsafe; it is to be
# weighed; it is OK all the same.
FIX, WAITS, DANGER, WEIGH, NOTE = SEVERITIES = ("fix", "waits", "danger", "weigh", "note")
SOUND = "ok"


USED, AS_TYPED = "_used", "typed"


@dataclass(frozen=True)
class Column:
    """One column of a table: an input if it has no formula.

    An input with a `default`, a formula, may stay blank: the column `<key>_used` after it shows what holds then,
    and whatever reads the input reads that. What is picked from a list names its words or the named range that
    holds them; a calculated column that holds a name of another table names that range, too, so that `[pick.key]`
    can be looked up.
    """

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
    hidden: bool = False
    free: bool = False  # it has no name, and nothing reads it
    default: str = ""
    heading: str = ""  # a formula, where what the column is about is named by a cell

    @property
    def calculated(self) -> bool:
        return bool(self.formula)

    @property
    def is_date(self) -> bool:
        return self.format.startswith("YYYY")

    @property
    def used(self) -> "Column":
        """What is used of an input that has a default."""
        formula = f"IF(ISBLANK([{self.key}]);{self.default};[{self.key}.{AS_TYPED}])"
        return Column(
            self.key + USED,
            f"{self.title}, used",
            self.unit,
            "as typed, or the usual",
            formula,
            self.format,
            self.choices if isinstance(self.choices, str) else (),
            width=max(self.width, 14),  # room for the word that is added
            block=self.block,
        )

    @property
    def header(self) -> str:
        title = f"{self.title} *" if self.required else self.title
        return f"{title}\n{self.unit}" if self.unit else title


@dataclass(frozen=True)
class Rule:
    """What a row's check says when a condition holds; an error in the condition is left to the row's own errors.

    The id is stable within its table: code, tests and the menu go by `<table>.<id>`. What it is about is the key
    of a column, as `rod.crushing` of one elsewhere, or a name of Boat, where the user is led; what it says and the
    remedy are messages. One on a row whose own check looks at this one is `mutual`: it stands apart from what that
    row reads of this one.
    """

    id: str
    severity: str
    when: str
    says: str
    about: str = ""
    remedy: str = ""
    mutual: bool = False


CERTIFICATE, MAKERS, STANDARD, MEASURED = "certificate", "maker's figure", "standard", "measured"
STATUSES = (CERTIFICATE, MAKERS, STANDARD, MEASURED, "published", "from memory", "assumed", "invented")

# For tables whose rows are worked out with assumptions: a blank one would count as 0.
WAITS_FOR_BOAT = Rule("boat", WAITS, "boat_wrong_boat>0", "Boat: {boat_first}")


def waits_for(pick: str, where: str) -> Rule:
    """Rule: the row that this row takes figures from has to be fixed first."""
    return Rule(f"{pick}.row", WAITS, stopped(pick), f"{where}: {{{pick}}}", pick)


def stopped(pick: str) -> str:
    """Formula: whether a row has to be fixed, or waits itself, or has lost what would say so."""
    return f'OR([{pick}.state]="";ISNUMBER(FIND([{pick}.state];"{FIX} {WAITS}")))'


def to_fix_on_boat(item: str) -> str:
    """Formula: whether that assumption has to be fixed."""
    return f'INDEX(boat_{STATE};ROW(boat_{item})-ROW(INDEX(boat_{STATE};1))+1)="{FIX}"'


MADE = "made by templates.checks"
FOUND, STATE = BESIDE = ("found", "state")
NAMESAKES = "namesakes"
INTACT = "intact"
# What the office takes in one cell is limited, so a long check is found out in parts, which `found` puts together.
# The first of them is about the row itself, so that cells which were shifted aside are seen by whoever reads it.
PARTS = ("found_row", "found_fix", "found_rule", "found_error", "found_danger", "found_weigh", "found_more")
PART_ROW, PART_FIX, PART_RULE, PART_ERROR, PART_DANGER, PART_WEIGH, PART_MORE = PARTS
ROW_ITSELF = "This row"

# Blocks that stand first and are not folded, where a table says what belongs to them; then that of other inputs.
TYPED, RESULTS, YOURS = "Typed", "Results", "Yours"
OWN_VALUES = "Overrides"
OF_THE_USER = 3  # empty columns
NOTE_KEY = "note"
FOLD_WIDTH, FOLD_TITLES = 28, 3


@dataclass(frozen=True)
class Table:
    """A table of a sheet: its first column is the name, its second the check; the rules beyond the usual ones.

    First stand the columns whose keys are `typed`, what is typed always, then those that are `results`, what is
    cut or bought from. The note and empty columns of the user's own come next, then the other inputs, and then
    block by block what is calculated, as it is declared; these are folded.

    Rows are so many `lines` of text high, whatever comes to stand in them; 0 is as high as their text. So many
    rows are spare below those that are filled, and so many ready in all at least. A block that is `unprinted`
    stays off the paper. A check of many rules is `in_parts`. Rows are `named_by` columns of other tables: with
    {"stub": ("tangs_stay", "tangs_stay_2")}, [stub.rod] is that of the stub that names this row in the first of
    these columns, or else in the next. Whether those columns that are `balanced` are all in place is a column of
    its own, for the balance may not ask the check, which asks the balance.
    """

    key: str
    title: str
    columns: "tuple[Column, ...]"
    rules: "tuple[Rule, ...]" = ()
    spare: int = 4
    ready: int = 0
    lines: int = 0
    typed: "tuple[str, ...]" = ()
    results: "tuple[str, ...]" = ()
    unprinted: "tuple[str, ...]" = ()
    in_parts: bool = False
    named_by: "Mapping[str, tuple[str, ...]]" = field(default_factory=dict)
    balanced: "tuple[str, ...]" = ()

    def __post_init__(self) -> None:
        pairs = ((column, column.used) if column.default else (column,) for column in self.columns)
        object.__setattr__(self, "columns", tuple(chain.from_iterable(pairs)))

    @cached_property
    def laid_out(self) -> "tuple[Column, ...]":
        """All columns as they stand: after the check what it found, by code, how bad it is, and more, hidden."""
        beside: tuple[Column, ...] = (
            Column(FOUND, "Found", help="what Check says, each with its code", formula=MADE, hidden=True),
            Column(STATE, "State", help="the worst of what Check says, as a code", formula=MADE, hidden=True),
            Column(NAMESAKES, "Of this name", help="rows of this table", formula=MADE, hidden=True),
        )
        if self.balanced:
            beside = (*beside, Column(INTACT, "In place", help="1 if so", formula=MADE, hidden=True))
        first = self._first() if self.typed else ()
        here = {column.key for column in first}
        others = [column for column in self.columns[2:] if column.key not in here]
        if self.typed:
            own = block(OWN_VALUES, *(column for column in others if not column.calculated))
            others = [*own, *(column for column in others if column.calculated)]
        return (*self.columns[:2], *beside, *first, *self._marked((*others, *self._parts)))

    @property
    def named(self) -> "tuple[Column, ...]":
        """The columns that have a name of their own."""
        return tuple(column for column in self.laid_out if not column.free)

    def _first(self) -> "tuple[Column, ...]":
        """The blocks that stand first."""
        keyed = {column.key: column for column in self.columns}
        note = (keyed[NOTE_KEY],) if NOTE_KEY in keyed else ()
        empty = (
            Column(f"yours_{at}", f"Yours {at}", help="anything; give it a head of your own", width=22, free=True)
            for at in range(1, OF_THE_USER + 1)
        )
        return (
            *block(TYPED, *(keyed[key] for key in self.typed)),
            *block(RESULTS, *(keyed[key] for key in self.results)),
            *block(YOURS, *note, *empty),
        )

    def _marked(self, columns: "tuple[Column, ...]") -> "Iterator[Column]":
        """The columns, each block that is folded with a column before it whose head says what it holds."""
        for title, group in groupby(columns, lambda column: column.block):
            members = list(group)
            if title and self.typed:
                held = in_short([column.title for column in members])
                yield Column(f"fold_{title}", title, held, width=FOLD_WIDTH, free=True)
            yield from members

    @property
    def _parts(self) -> "tuple[Column, ...]":
        help = "a part of what Check says, each with its code"
        named = (
            zip(
                PARTS,
                ("Row", "To fix", "To fix together", "Errors", "In danger", "To consider", "To consider, too"),
            )
            if self.in_parts
            else ()
        )
        return block(ROW_ITSELF, *(Column(key, title, help=help, formula=MADE, width=30) for key, title in named))

    @property
    def counters(self) -> "tuple[str, ...]":
        """The hidden columns beside the check that no check is made of."""
        return (NAMESAKES, INTACT) if self.balanced else (NAMESAKES,)

    @property
    def off_paper(self) -> "tuple[str, ...]":
        return (*self.unprinted, ROW_ITSELF)

    def column(self, key: str) -> Optional[Column]:
        return next((column for column in self.laid_out if column.key == key), None)

    def elsewhere(self, about: str) -> "tuple[Column, str]":
        """Of `rod.crushing` the column that names a row elsewhere, and the named range that is led to there."""
        pick, _, key = about.partition(".")
        column = self.column(pick)
        if column is None or column.default or not isinstance(column.choices, str):
            raise ValueError(f"{self.key}: {pick} names no row, so nothing can lead to {about}")
        return column, f"{column.choices.partition('_')[0]}_{key}"

    def blocks(self) -> "list[tuple[str, range]]":
        """The blocks in order, each with the numbers of its columns."""
        numbered = [(column.block, at) for at, column in enumerate(self.laid_out) if column.block]
        groups = groupby(numbered, lambda pair: pair[0])
        spans = ((title, [at for _, at in pairs]) for title, pairs in groups)
        return [(title, range(at[0], at[-1] + 1)) for title, at in spans]

    def is_folded(self, title: str) -> bool:
        """Whether a block is folded: there is a column before it that says what it holds."""
        return self.column(f"fold_{title}") is not None


def in_short(titles: "list[str]") -> str:
    """The first few titles in words, without what follows a comma in them."""
    words = list(dict.fromkeys(title.partition(",")[0] for title in titles))
    more = [one[:1].lower() + one[1:] for one in words[1:FOLD_TITLES]]
    return ", ".join([*words[:1], *more, *(["…"] if len(words) > FOLD_TITLES else [])])


@dataclass(frozen=True)
class Follower:
    """Rows that nobody types: as many as there may be, each filled by its number, which is `[row]`, from 1.

    A function takes the columns from the first to the second key of `taken` as one range, `<key>_taken`.
    """

    key: str
    title: str
    rows: int
    columns: "tuple[Column, ...]"
    printed: bool = True
    taken: "tuple[str, str] | tuple[()]" = ()
    room: int = 0  # rows that stay free above it, for a chart
    notes: "tuple[str, ...]" = ()  # lines below it
    page: bool = False  # begins on a page of its own
    of: str = ""  # the table whose rows it has, so many are printed
    each: int = 1  # rows of it for each of these

    @property
    def laid_out(self) -> "tuple[Column, ...]":
        number = Column(
            "row", "Row", help="number of the row", formula=f"ROW()-ROW({self.key}_header)", hidden=True
        )
        return (number, *self.columns)

    def column(self, key: str) -> Optional[Column]:
        return next((column for column in self.laid_out if column.key == key), None)


@dataclass(frozen=True)
class Figures:
    """All that one function gives in a text, taken apart: named `<key>_all`, its first columns `<key>_<column>`.

    The text is one cell, `<key>_given`, and each row of it one, `<key>_line`: a file keeps texts, and a row that
    comes in above has no matrix to tear. Columns in `words` hold texts, all others numbers.
    """

    key: str
    title: str
    formula: str
    rows: int
    columns: int
    named: "tuple[str, ...]" = ()
    words: "tuple[str, ...]" = ()


@dataclass(frozen=True)
class Item:
    """One assumption or result of the Boat sheet, known by the named range `boat_<key>`, or of another page."""

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
    rules: "tuple[Rule, ...]" = ()
    always: bool = False  # on a page for one row: shown also while no row is picked

    @property
    def measure(self) -> str:
        """The unit that a text with a unit is read in, where it is a number to be typed."""
        return self.unit if self.unit in READABLE and self.least is not None else ""

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
            measure=self.measure,
        )


@dataclass(frozen=True)
class Group:
    """Items of the Boat sheet under one heading."""

    title: str
    items: "tuple[Item, ...]"


@dataclass(frozen=True)
class Grid:
    """Rows below the items of a page; what begins with = is a formula, the rest are labels.

    They start at a row of the sheet that is not above `top`; the lines beside them are for reading.
    """

    headings: "tuple[str, ...]"
    rows: "tuple[tuple[str, ...], ...]"
    format: str
    name: str = ""
    beside: "tuple[str, ...]" = ()
    top: int = 0
    charted: bool = False


@dataclass(frozen=True)
class Page:
    """A sheet for one row of a table that is picked, with what follows from it."""

    key: str
    pick: Item
    items: "tuple[Item, ...]"
    grid: Optional[Grid] = None

    def column(self, key: str) -> Optional[Column]:
        return next((item.column() for item in (self.pick, *self.items) if item.key == key), None)

    @property
    def picked(self) -> str:
        """The name of the cell that is picked in."""
        return f"{self.key}_{self.pick.key}"

    def known(self) -> str:
        """Formula: whether a row of the name that is picked is there."""
        return f"ISNUMBER(MATCH({self.picked};{self.pick.choices};0))"


@dataclass(frozen=True)
class Listing:
    """Rows that are worked out from other tables, each known by its number, `[nth]`, and not by a name.

    Its named ranges are `<key>_<column>`; `[key]` is the cell of the row, as in a table. It stands with its upper
    left corner in that column and row of the sheet. What only other cells need is `hidden`. Rows that differ are
    told apart by what is put in the place of words in their formulas: one mapping `each`.
    """

    key: str
    columns: "tuple[Column, ...]"
    rows: int
    left: int
    top: int
    hidden: bool = False
    each: "tuple[Mapping[str, str], ...]" = ()
    start: int = 1  # the number of its first row
    count: str = ""  # of how many: the numbers end there, and what follows from them is blank

    @property
    def laid_out(self) -> "tuple[Column, ...]":
        number = f"ROW()-ROW(INDEX({self.key}_nth;1))+{self.start}"
        counted = f'IF({number}<={self.count};{number};"")' if self.count else ""
        return (Column("nth", "", formula=counted, format="0"), *self.columns)

    def column(self, key: str) -> Optional[Column]:
        return next((column for column in self.laid_out if column.key == key), None)


@dataclass(frozen=True)
class Board:
    """A page of results: listings, and cells with a formula or words, by their column and row."""

    listings: "tuple[Listing, ...]"
    cells: "tuple[tuple[int, int, str, str], ...]"
    pages: "tuple[tuple[int, int], ...]" = ()  # first and last row of each page


@dataclass(frozen=True)
class Sheet:
    """One sheet: its tables from top to bottom, or groups of items, or a page for one row, or lines to read.

    Below its tables stand followers, and below those, off the paper, what functions give for all rows at once.

    At most two cautions stand at its head, on every page of it. Widths of columns are in mm, those of tables
    follow from the columns; only so many rows are printed.
    """

    title: str
    purpose: str
    tables: "tuple[Table, ...]" = ()
    followers: "tuple[Follower, ...]" = ()
    figures: "tuple[Figures, ...]" = ()
    groups: "tuple[Group, ...]" = ()
    page: Optional[Page] = None
    board: Optional[Board] = None
    lines: "tuple[tuple[str, str], ...]" = ()
    landscape: bool = True
    cautions: "tuple[str, ...]" = ()
    widths: "tuple[int, ...]" = ()
    printed_rows: int = 0


def name_and_check(
    title: str, help: str, check_width: int = 46, width: int = 38, choices: Choices = ()
) -> "tuple[Column, Column]":
    """The first two columns of every table; a row may be named after one of another table."""
    return (
        Column("name", title, help=help, choices=choices, width=width),
        Column("check", "Check", help="OK, or what is wrong with this row", formula=MADE, width=check_width),
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
