"""What the rows of Rig are made with: rows of other tables by their place, never by their name."""

from templates.schedule import DANGER, FIX, WEIGH, Column, calculated

STAYS_LISTED, STUBS_LISTED = 14, 9  # on the first page
STAYS, STUBS, POINTS, MASTS, ITEMS, WIRES = 32, 24, 48, 4, 40, 16  # at most
LETTERS = 112  # of a line that is not broken
LETTERS_OF_NEXT = 150  # of one over the whole page, large
LETTERS_ACROSS = 215  # of one over the whole page
SHORTENED = 'IF(LEN({0})>27;LEFT({0};26)&"…";{0})'  # of a name, as much as there is room for
SEVERITY = f'IF({{0}}="{FIX}";1;IF({{0}}="{DANGER}";2;IF({{0}}="{WEIGH}";3;9)))'


def cell(key: str, formula: str, format: str = "0.0", **more: str) -> Column:
    return calculated(key, key, "", formula, "", format=format, **more)


def shown(key: str, title: str, unit: str, formula: str, width: int, format: str = "") -> Column:
    return calculated(key, title, unit, formula, "", width=width, format=format)


def clipped(formula: str, letters: int) -> str:
    return f'IF(LEN({formula})>{letters};LEFT({formula};{letters - 1})&"…";{formula})'


def in_two_lines(formula: str, letters: int, after: str) -> "tuple[str, str]":
    """Formulas: a text as a line, broken after such a sign, and what is left of it as another."""
    line = f"(?s)^(.{{1,{letters - 2}}}({after}|$))"
    return (f'REGEX({formula};"{line}.*";"$1")', clipped(f'TRIM(REGEX({formula};"{line}";""))', letters))


def nth_of(table: str, count: str, gapless: str) -> str:
    """Formula: where the nth row with a name stands in its table."""
    rows = f"ROW({table}_name)-ROW(INDEX({table}_name;1))+1"
    return f'IF([nth]>{count};"";IF({gapless};[nth];SUMPRODUCT(SMALL(IF(ISBLANK({table}_name);1000000;{rows});[nth]))))'


def gapless(table: str) -> str:
    """Formula: whether no row without a name stands between those that have one."""
    last = f"SUMPRODUCT(MAX((1-ISBLANK({table}_name))*(ROW({table}_name)-ROW(INDEX({table}_name;1))+1)))"
    return f"{last}=COUNTA({table}_name)"


def held(column: str) -> str:
    """Formula: what the row's cell of that column holds; nothing where it is an error."""
    return f'IF([at]="";"";IFERROR(INDEX({column};[at]);""))'


def number_of(column: str) -> str:
    """Formula: the number in the row's cell of that column; nothing where it is none."""
    return f'IF([at]="";"";IF(ISNUMBER(INDEX({column};[at]));INDEX({column};[at]);""))'


def least(of: str, *ranges: str) -> str:
    return f"IF(COUNT({';'.join(ranges)})=0;0;{of}({';'.join(ranges)}))"


def of(column: str) -> str:
    """Formula: what the row has in that column of which `[of]` is the number."""
    return f"INDEX({column};[of])"
