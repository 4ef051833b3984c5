"""What cells ask of a balance: rows for each stay, mast and case, one tension, the forces at one point."""

from collections.abc import Sequence
from functools import lru_cache
from typing import Any, Union

from loftsheet.balance import tables
from loftsheet.balance.at_a_point import forces_at
from loftsheet.balance.solve import Balance, Outcome, balance
from loftsheet.errors import BadInput, NoSolution, NotInTable

Cell = Union[float, str]
Rows = tuple[tuple[Cell, ...], ...]
REMEMBERED = 8
OFF = 0.02  # of a wanted tension: what is further from it is said
DOCK = "at the dock"
FELT, MOST_SAID = 0.1, 3  # share of what a stay itself gains from which others are named, and how many
CELL_ENDS, ROW_ENDS, NOTHING = "¦", "¶", "–"  # of rows in one text
STAY_COLUMNS, MAST_COLUMNS, CASE_COLUMNS = 8, 6, 7


@lru_cache(maxsize=REMEMBERED)
def _tried(*ranges: Any) -> "Union[Balance, BadInput, NoSolution]":
    """The balance of these ranges, or its refusal: a sheet asks for it from many cells."""
    try:
        return balance(tables.rig(*ranges))
    except (BadInput, NoSolution) as refused:
        return refused


def found(*ranges: Any) -> Balance:
    """The balance of masts, points, stays, cases, loads and spreaders."""
    tried = _tried(*ranges)
    if isinstance(tried, Balance):
        return tried
    raise type(tried)(str(tried))


def words(*ranges: Any) -> str:
    """Why there is no balance, and what of the wanted tensions could not be had; "" where all is well."""
    tried = _tried(*ranges)
    if not isinstance(tried, Balance):
        return f"{'no balance' if isinstance(tried, NoSolution) else 'not checked'}: {tried}"
    lines = []
    for number, line in enumerate(tried.structure.lines):
        wanted, had = line.stay.wanted, tried.at_rest(number)
        if wanted and had is not None and abs(had - wanted) > OFF * wanted:
            lines.append(f"{line.stay.name}: {wanted:.2f} kN wanted, {had:.2f} kN can be had with straight masts")
        if not wanted and had == 0:
            lines.append(f"{line.stay.name}: slack at the dock; give the tension wanted of it")
    lines += [f"{one.case.name}: {one.why}" for one in tried.outcomes if one.case and one.why]
    return "; ".join(dict.fromkeys(lines))


def stay_rows(*ranges: Any) -> Rows:
    """A row for each row of stays, worked out with all masts and stays at once."""
    solved = found(*ranges)
    width = STAY_COLUMNS + 2 * (len(solved.outcomes) - 1)
    result: list[tuple[Cell, ...]] = [("",) * width] * len(ranges[2])
    for row, numbers in _by_row(solved).items():
        result[row] = tuple(_stay_row(solved, numbers))
    return tuple(result)


def _stay_row(solved: Balance, numbers: "list[int]") -> "list[Cell]":
    lines = solved.structure.lines
    first = lines[numbers[0]]
    length = sum(lines[one].length for one in numbers if lines[one].stay.side == first.stay.side)
    rest = [tension for one in numbers if (tension := solved.at_rest(one)) is not None]
    by_case = [_tensions(outcome, numbers) for outcome in solved.outcomes[1:]]
    places = [(tension, DOCK) for tension in rest]
    places += [(tension, _name(one)) for one, several in zip(solved.outcomes[1:], by_case) for tension in several]
    most, least = max(places, key=_first, default=("", "")), min(places, key=_first, default=("", ""))
    own = solved.effect[numbers[0]][numbers[0]]
    head: list[Cell] = [length, solved.take_outs[numbers[0]], max(rest, default=""), "" if own is None else own]
    pairs = [extreme(several, default="") for several in by_case for extreme in (max, min)]
    return [*head, *most, *least, *pairs]


def _first(place: "tuple[Any, str]") -> float:
    return float(place[0])


def _tensions(outcome: Outcome, numbers: Sequence[int]) -> "list[float]":
    """Tensions of those of these stays that are set."""
    if outcome.state is None:
        return []
    return [outcome.state.tensions[one] for one in numbers if outcome.setting.set_up[one]]


def _name(outcome: Outcome) -> str:
    return outcome.case.name if outcome.case else DOCK


def _by_row(solved: Balance) -> "dict[int, list[int]]":
    by_row: dict[int, list[int]] = {}
    for number, line in enumerate(solved.structure.lines):
        by_row.setdefault(line.stay.row, []).append(number)
    return by_row


def mast_rows(*ranges: Any) -> Rows:
    """A row for each row of masts, worked out with all masts and stays at once."""
    solved = found(*ranges)
    result: list[tuple[Cell, ...]] = [("",) * MAST_COLUMNS * len(solved.outcomes)] * len(ranges[0])
    for number, mast in enumerate(solved.structure.rig.masts):
        result[mast.row] = tuple(cell for outcome in solved.outcomes for cell in _mast_cells(outcome, number))
    return tuple(result)


def _mast_cells(outcome: Outcome, number: int) -> "tuple[Cell, ...]":
    strength: Cell = outcome.factors[number] if outcome.factors else ""
    if not outcome.shapes:
        return ("", strength, "", "", "", "")
    shape, lee = outcome.shapes[number], (outcome.case.lee if outcome.case else 0) or 1
    moves = shape.head_fore, shape.head_port * lee, shape.bow_fore, shape.bow_port * lee
    return (shape.compression, strength, *moves)


def case_rows(*ranges: Any) -> Rows:
    """A row for each row of cases, worked out with all masts and stays at once."""
    solved = found(*ranges)
    result: list[tuple[Cell, ...]] = [("",) * CASE_COLUMNS] * len(ranges[3])
    for outcome in solved.outcomes:
        if outcome.case:
            result[outcome.case.row] = _case_row(solved, outcome)
    return tuple(result)


def _case_row(solved: Balance, outcome: Outcome) -> "tuple[Cell, ...]":
    names = [line.stay.name for line in solved.structure.lines]
    factor: Cell = min(outcome.factors) if outcome.factors else ""
    if outcome.state is None:
        return (outcome.why, "", "", "", factor, "", "")
    heel, first = outcome.slack_heel, outcome.slack_first
    slack = sum(one and not taut for one, taut in zip(outcome.setting.set_up, outcome.state.taut))
    tension, largest = max(zip(outcome.state.tensions, names))
    return (
        outcome.why,
        "" if heel is None else heel,
        "" if heel is None or first is None else names[first],
        float(slack),
        factor,
        tension,
        largest,
    )


def effect_rows(*ranges: Any) -> Rows:
    """A row and a column for each row of stays: the inverse of the compliance."""
    solved = found(*ranges)
    rows = len(ranges[2])
    first = {row: numbers[0] for row, numbers in _by_row(solved).items()}
    effects = [
        [
            solved.effect[first[row]][first[column]] if row in first and column in first else None
            for column in range(rows)
        ]
        for row in range(rows)
    ]
    return tuple(tuple("" if one is None else one for one in line) for line in effects)


def felt_rows(*ranges: Any) -> Rows:
    """A text for each row of stays: who else feels its lashing."""
    effects = effect_rows(*ranges)
    names = [row[0] if row else "" for row in ranges[2]]
    return tuple((_felt(at, [line[at] for line in effects], names),) for at in range(len(names)))


def _felt(own: int, column: "list[Cell]", names: "list[Any]") -> str:
    gained = column[own]
    if not isinstance(gained, float):
        return ""
    others = [(one, name) for at, (one, name) in enumerate(zip(column, names)) if at != own and name != ""]
    felt = [(one, name) for one, name in others if isinstance(one, float) and abs(one) >= FELT * gained]
    largest = sorted(felt, key=lambda one: -abs(one[0]))[:MOST_SAID]
    return "; ".join(f"{name} {one:+.2f}".replace("-", "−") for one, name in largest)


ROWS = {"stays": stay_rows, "masts": mast_rows, "cases": case_rows, "felt": felt_rows}


def lines(of: str, *ranges: Any) -> str:
    """Rows as one text, which cells take apart; what parts them is taken out of names."""
    if of not in ROWS:
        raise BadInput(f'"{of}" was given; it is one of {", ".join(ROWS)}')
    return ROW_ENDS.join(CELL_ENDS.join(map(_as_text, row)) for row in ROWS[of](*ranges))


def _as_text(cell: Cell) -> str:
    if isinstance(cell, float):
        return f"{cell:.12g}"
    return cell.replace(CELL_ENDS, "|").replace(ROW_ENDS, " ") or NOTHING


def outcome_of(solved: Balance, case: str) -> Outcome:
    """The outcome of a case by its name, "" for the dock; a case that buckled is refused with its words."""
    for outcome in solved.outcomes:
        if case in ("", DOCK) if outcome.case is None else outcome.case.name == case:
            if outcome.state is None:
                raise NoSolution(f"{case}: {outcome.why}")
            return outcome
    raise NotInTable(f"there is no case {case}")


def stretch(stay: str, case: str, *ranges: Any) -> "tuple[float, float, float, float, float]":
    """EA, length, take-out, what warmth and what moving masts and hull add to it; of two the tighter stay."""
    solved = found(*ranges)
    outcome = outcome_of(solved, case)
    assert outcome.state is not None
    numbers = [number for number, line in enumerate(solved.structure.lines) if line.stay.name == stay]
    if not numbers:
        raise NotInTable(f"there is no stay {stay}")
    ready = [number for number in numbers if outcome.setting.set_up[number]]
    if not ready:
        raise NoSolution(f"{stay} is not set up {case or DOCK}")
    tensions = outcome.state.tensions
    number = max(ready, key=lambda one: tensions[one])
    line = solved.structure.lines[number]
    warmth = -line.stay.rate * 1e-6 * outcome.setting.warmer * line.length
    return line.stay.ea, line.length, solved.take_outs[number], warmth, _moved(solved, outcome, number)


def _moved(solved: Balance, outcome: Outcome, number: int) -> float:
    """By how much the ends of a stay move apart, less what the hull gives."""
    assert outcome.state is not None
    apart = sum(value * outcome.state.moved[place] for place, value in solved.structure.lines[number].pull.items())
    tensions = outcome.state.tensions
    given = sum(give * tensions[other] for (one, other), give in solved.structure.gives.items() if one == number)
    return apart - given


def point_rows(point: str, case: str, *ranges: Any) -> Rows:
    """The forces on the node at a point, in fore, port, up, and their sum."""
    solved = found(*ranges)
    try:
        return forces_at(solved, outcome_of(solved, case), point)
    except NotInTable as missing:  # rows cannot come to #N/A in a cell
        raise BadInput(str(missing)) from None
