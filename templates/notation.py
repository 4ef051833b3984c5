"""The notation in which formulas and messages are declared, and what it stands for.

    [key]           the cell of that column in the same row
    [pick.key]      of the row that [pick] names, in the table whose names it is picked from; a chain may be longer
    [table.key]     of the row of that table that has the same name as this one; or of the row that names this
                    one, where the table declares it: named_by={"stub": ("tangs_stay",)}
    stays_cut       a column from top to bottom; boat_margin: one assumption; both are named ranges
    {margin:2}      in a message: a number with two decimals; {spare:%} in percent, never 0 %; {wire} as it stands

An input that is a number is read by itself: a text with a unit becomes the plain number, and a blank one is an
error, for Calc would go on with 0; for Boat's numbers with a unit that is done once, in a hidden cell beside each.
One that has a default is read as it is used. Beside `=""` and `<>""` and in ISBLANK stands what was typed;
[key.typed] is what was typed, read without the default.

What comes out has `[key]` left only for the cells of the row; the writer puts their places in.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from itertools import chain
from typing import Optional

from loftsheet import CALCS

from templates.schedule import (
    AS_TYPED,
    BESIDE,
    MADE,
    USED,
    Choices,
    Column,
    Follower,
    Listing,
    Page,
    Rule,
    Sheet,
    Table,
)

TOKEN = re.compile(
    r'(?P<text>"(?:[^"]|"")*")|\[(?P<cell>[^\]]*)\]|(?P<name>(?<![\w.])[a-z][a-z0-9]*(?:_[a-z0-9]+)+(?![\w(]))|(?P<space>\s+)'
)
TYPED = re.compile(r'\s*(?:=|<>)\s*""')  # what follows a cell that is only asked whether it is blank
PLACE = re.compile(r"\{([^{}:]+)(?::([^{}]+))?\}")
KEYS = re.compile(r"\w+(?:\.\w+)*")


class WrongName(ValueError):
    """A formula or a message names something that the workbook does not have."""


class Names:
    """All that a formula may name: the tables, Boat's assumptions, and the cells of pages for one row."""

    def __init__(self, sheets: "Iterable[Sheet]") -> None:
        sheets = tuple(sheets)
        self.tables = {table.key: table for sheet in sheets for table in sheet.tables}
        self.followers = {one.key: one for sheet in sheets for one in sheet.followers}
        self.figures = {one.key: one for sheet in sheets for one in sheet.figures}
        self.items = {
            f"boat_{item.key}": item for sheet in sheets for group in sheet.groups for item in group.items
        }
        self.pages = {sheet.page.key: sheet.page for sheet in sheets if sheet.page}
        columns = [f"{table.key}_{column.key}" for table in self.tables.values() for column in table.named]
        self.listings = [one for sheet in sheets if sheet.board for one in sheet.board.listings]
        columns += [f"{listing.key}_{column.key}" for listing in self.listings for column in listing.laid_out]
        around = (f"{table}_{part}" for table in self.tables for part in ("header", "below"))
        on_boat = (f"boat_{part}" for part in ("title", "check", *BESIDE))
        on_pages = (f"{page.key}_{item.key}" for page in self.pages.values() for item in (page.pick, *page.items))
        grids = (page.grid.name for page in self.pages.values() if page.grid and page.grid.name)
        followed = (
            f"{one.key}_{part}"
            for one in self.followers.values()
            for part in ("header", "taken", *(column.key for column in one.laid_out))
        )
        given = (f"{one.key}_{part}" for one in self.figures.values() for part in ("all", *one.named))
        self.used = {name: name + USED for name, item in self.items.items() if item.measure}
        self.known = {*self.items, *self.used.values(), *columns, *around, *on_boat, *on_pages, *grids}
        self.known |= {*followed, *given}

    def check(self) -> None:
        """Refuse a book in which a formula or a message names what is not there."""
        for table in self.tables.values():
            for column in table.columns:
                if column.formula and column.formula != MADE:
                    self.formula(column.formula, table, column.key)
            for pick in chain.from_iterable(table.named_by.values()):
                self._table_of(pick, table.key)
            for rule in table.rules:
                self.rule(rule, table)
        for follower in self.followers.values():
            for column in follower.columns:
                self.formula(column.formula, follower, column.key)
                self.formula(column.heading, None, column.key)
        for figures in self.figures.values():
            self.formula(figures.formula, None, figures.key)
        for name, item in self.items.items():
            self.formula(item.formula, None, name)
            for rule in item.rules:
                self.rule(rule, None)
        for listing in self.listings:
            for column in listing.columns:
                for put in listing.each or ({},):
                    self.formula(filled(column.formula, put), listing, column.key)
        for page in self.pages.values():
            cells = page.grid.rows if page.grid else ()
            formulas = (one[1:] for row in cells for one in row if one.startswith("="))
            for formula in (*(item.formula for item in page.items), *formulas):
                self.formula(formula, page)

    def rule(self, rule: Rule, where: Optional[Table]) -> None:
        """Refuse a rule that names what is not there."""
        whose = f"rule {rule.id}"
        self.formula(rule.when, where, whose)
        self.message(f"{rule.says}{rule.remedy}", where, whose)
        if where and rule.about and rule.about not in self.items:
            self.formula(f"[{rule.about}]", where, whose)

    def formula(self, written: str, where: "Table | Follower | Listing | Page | None", of: str = "") -> str:
        """A formula in Calc's own words, but for `[key]` as a cell of the row; `of` says whose it is."""
        try:
            return self._formula(written, where)
        except WrongName as wrong:
            raise WrongName(f"{where.key if where else 'boat'}, {of}: {wrong}") from None

    def message(self, written: str, where: Optional[Table], of: str = "") -> str:
        """A formula that says a message, with the numbers put in that stand in {}."""
        try:
            return self._message(written, where)
        except WrongName as wrong:
            raise WrongName(f"{where.key if where else 'boat'}, {of}: {wrong}") from None

    def _formula(self, written: str, where: "Table | Follower | Listing | Page | None") -> str:
        done, at = [], 0
        for found in TOKEN.finditer(written):
            done.append(written[at : found.start()])
            at = found.end()
            if found["cell"] is not None:
                read = not self._typed(written, at, done)
                done.append(self._cell(found["cell"].split("."), where, read))
            elif found["name"]:
                if found["name"] not in self.known:
                    raise WrongName(f"there is no name {found['name']}")
                used = self.used.get(found["name"], found["name"])
                done.append(found["name"] if self._typed(written, at, done) else used)
            else:
                done.append(found["text"] or "")
        return "".join([*done, written[at:]])

    @staticmethod
    def _typed(written: str, at: int, done: "list[str]") -> bool:
        """Whether a cell is only asked if it is blank, which what was typed says."""
        return bool(TYPED.match(written, at)) or "".join(done).endswith("ISBLANK(")

    def _cell(self, keys: "list[str]", where: "Table | Follower | Listing | Page | None", read: bool) -> str:
        """One cell: of this row, or at the end of a chain of rows that name each other."""
        written = f"[{'.'.join(keys)}]"
        if where is None:
            raise WrongName(f"{written} needs a row, and here is none")
        typed = not read or keys[-1] == AS_TYPED
        first, *further = keys[:-1] if keys[-1] == AS_TYPED else keys
        column = in_use(where, first, typed and not further)
        cell = f"{where.key}_{first}" if isinstance(where, Page) else f"[{column.key if column else first}]"
        names: tuple[Choices, ...] = (column.choices,) if column else ()
        if column is None and further and isinstance(where, Table):
            cell, names = "[name]", where.named_by.get(first, (f"{first}_name",))
        elif column is None:
            raise WrongName(f"there is no {written}")
        for at, key in enumerate(further, 1):
            table = self._table_of(names[0], ".".join(keys[:at]))
            column = in_use(table, key, typed and at == len(further))
            if column:
                cell = f"INDEX({table.key}_{column.key};{matched(cell, names)})"
                names = (column.choices,)
            elif isinstance(table, Table) and key in table.named_by and at < len(further):
                names = table.named_by[key]  # of the row of that name
            else:
                raise WrongName(f"{written}: {table.key} has no {key}")
        assert column
        whole = reading(column, cell) if read else cell
        return looked_up_once(cell, whole) if whole != cell and further and not isinstance(where, Page) else whole

    def _table_of(self, names: object, written: str) -> "Table | Follower":
        """The table that one of these named ranges belongs to."""
        key, _, column = names.partition("_") if isinstance(names, str) else ("", "", "")
        table = self.tables.get(key) or self.followers.get(key)
        if table is None or not table.column(column):
            raise WrongName(f"[{written}] names no row, so nothing can be looked up with it")
        return table

    def _message(self, written: str, where: Optional[Table]) -> str:
        parts, at = [], 0
        for found in PLACE.finditer(written):
            parts += [quoted(written[at : found.start()]), shown(self._value(found[1], where), found[2] or "")]
            at = found.end()
        parts.append(quoted(written[at:]))
        return "&".join(part for part in parts if part != '""') or '""'

    def _value(self, written: str, where: Optional[Table]) -> str:
        """What stands in {}: the key of a column or a chain of them, or a formula."""
        first = written.split(".")[0]
        is_cell = KEYS.fullmatch(written) and where and (where.column(first) or "." in written)
        return self._formula(f"[{written}]" if is_cell else written, where)


def in_use(where: "Table | Follower | Listing | Page", key: str, typed: bool) -> Optional[Column]:
    """The column of that key; of one with a default that of what is used, unless what was typed is asked for."""
    column = where.column(key)
    return where.column(key + USED) if column and column.default and not typed else column


def matched(cell: str, names: "Sequence[object]") -> str:
    """Formula: the row that holds the name of a cell, in the first of these columns or else in the next."""
    *others, last = (f"MATCH({cell};{one};0)" for one in names)
    return "".join(f"IFERROR({one};" for one in others) + last + ")" * len(others)


def filled(formula: str, put: "Mapping[str, str]") -> str:
    """A formula of a listing with what differs from row to row put in."""
    for word, what in put.items():
        formula = formula.replace(word, what)
    return formula


def reading(column: Column, cell: str) -> str:
    """Formula: what a cell holds as a plain number, if it is an input that takes one; a blank is an error."""
    if column.calculated or column.least is None or column.is_date:
        return cell
    there = f"IF(ISBLANK({cell});NA();{cell})"
    return f'IF(ISTEXT({cell});RIG.READ({cell};"{column.measure}");{there})' if column.measure else there


def looked_up_once(cell: str, otherwise: str) -> str:
    """Formula: the number in a cell of another row, looked up once; where it holds none, what it is otherwise.

    The average of a single cell is its number, and an error where it has none. Not on a page: in a call that
    stands in INDEX, what is an error otherwise, too, would become another one.
    """
    return f"IFERROR(AVERAGE({cell});{otherwise})"


def shown(value: str, form: str) -> str:
    """Formula: a number in words, with the decimal sign of the user's language; or what it holds as it stands."""
    if form == "%":
        percent = f'TEXT({value};"0 %")'
        return f'IF({percent}="0 %";"less than 1 %";{percent})'
    if form.isdigit():
        return f"FIXED({value};{form};TRUE())"
    if form:
        raise WrongName(f"a number is shown with decimals (:2) or in percent (:%), not as :{form}")
    return f"({value})" if re.search(r"[-+*/&]", value) and not KEYS.fullmatch(value) else value


def quoted(text: str) -> str:
    """A text as a formula has it."""
    return '"' + text.replace('"', '""') + '"'


def stored(formula: str) -> str:
    """A formula with our functions by the names that files store."""
    return re.sub(r"RIG(?:\.[A-Z]+)+(?=\()", lambda found: stored_name(found.group()), formula)


def stored_name(name: str) -> str:
    return CALCS[name].stored_name


def in_row(formula: str, letters: "dict[str, str]", row: int) -> str:
    """Put the cells of one row in the place of `[key]`; texts are left as they are."""

    def placed(found: "re.Match[str]") -> str:
        return found[0] if found["text"] else f"{letters[found['key']]}{row}"

    return re.sub(r'(?P<text>"(?:[^"]|"")*")|\[(?P<key>\w+)\]', placed, formula)
