"""Ranges of cells as a rig: what each column of each range holds, and the reading of it.

A row counts when its first cell is filled. A range may have fewer columns than listed here, never more.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Optional

from loftsheet import measure
from loftsheet.balance.beam import torsion_of_tube
from loftsheet.balance.model import (
    HULL,
    MIDDLE,
    PORT,
    STARBOARD,
    Case,
    Load,
    Mast,
    Point,
    Rig,
    Spreader,
    Stay,
)
from loftsheet.errors import BadInput
from loftsheet.quantities import LONGEST, Fore, Out, Rake, Up, angle, force, length, number
from loftsheet.registry import Quantity
from loftsheet.section import tube_area, tube_inertia

Row = dict[str, Any]
SIDES = {"port": PORT, "starboard": STARBOARD, "centreline": MIDDLE}


@dataclass(frozen=True)
class Column:
    """A column of a range: its title, what it may hold (None: a text), and whether it may be blank."""

    title: str
    quantity: Optional[Quantity] = None
    blank: bool = True


@dataclass(frozen=True)
class Table:
    """A range: what a row of it is, and its columns in order."""

    row: str
    columns: "tuple[Column, ...]"

    def described(self) -> str:
        return f"a row for each {self.row}: {'; '.join(column.title for column in self.columns)}"

    def read(self, rows: "Sequence[Sequence[Any]]") -> "list[tuple[int, Row]]":
        """The filled rows, by column; each with its place in the range."""
        return [(at, self._row(at, cells)) for at, cells in enumerate(rows) if self._counts(at, cells)]

    def _counts(self, at: int, cells: Sequence[Any]) -> bool:
        if len(cells) > len(self.columns):
            titles = "; ".join(column.title for column in self.columns)
            raise BadInput(f"{len(cells)} columns were given for each {self.row}; they are {titles}")
        if cells and cells[0] not in ("", None, 0.0):
            return True
        if any(cell not in ("", None, 0.0) for cell in cells):
            raise BadInput(
                f"row {at + 1} of the range with a row for each {self.row} has no {self.columns[0].title}"
            )
        return False

    def _row(self, at: int, cells: Sequence[Any]) -> Row:
        name = str(cells[0])
        filled = [*cells, *[""] * (len(self.columns) - len(cells))]
        return {column.title: self._cell(column, cell, name) for column, cell in zip(self.columns, filled)}

    def _cell(self, column: Column, cell: Any, name: str) -> Any:
        where = f"{self.row} {name}: {column.title}"
        if cell is None or cell == "":
            if column.blank:
                return None
            raise BadInput(f"{where} is blank")
        try:
            return column.quantity.read(cell) if column.quantity else _text(cell)
        except BadInput as refused:
            raise BadInput(f"{where}: {refused}") from None


def _text(cell: Any) -> str:
    if not isinstance(cell, str):
        raise BadInput(f"{cell:g} was given where a name is due")
    return cell


def _of(annotated: Any) -> Quantity:
    found: Quantity = annotated.__metadata__[0]
    return found


def column(title: str, quantity: "Optional[Quantity]" = None) -> Column:
    """A column that may not be blank."""
    return Column(title, quantity, blank=False)


FREE = length("a length of either sign", least=-LONGEST)
ALONG = length("distance along the mast from its foot", least=0)
RATE = number("thermal expansion", measure.EXPANSION, -50, 50)
MODULUS = number("modulus", measure.MODULUS, 1, 500)
INERTIA = number("second moment of area", measure.SECOND_MOMENT, 0.01, 1e6)
CM4 = 1e4  # mm⁴

MASTS = Table(
    "mast",
    (
        column("name"),
        column("foot fore", _of(Fore)),
        column("foot up", _of(Up)),
        column("rake", _of(Rake)),
        column("head", length("length from foot to head")),
        column("modulus", MODULUS),
        column("rate", RATE),
        Column("width", length("outside, athwartships", most=1_000)),
        Column("fore and aft", length("outside, fore and aft", most=1_500)),
        Column("wall", length("wall", most=50)),
        Column("partners", length("along the mast, from its foot to the partners")),
        Column("area", number("metal in the section", measure.AREA, 1, 1e6)),
        Column("inertia fore and aft", INERTIA),
        Column("inertia athwartships", INERTIA),
    ),
)
POINTS = Table(
    "point",
    (
        column("name"),
        Column("mast"),
        column("fore", _of(Fore)),
        column("out", _of(Out)),
        column("up", _of(Up)),
        Column("give", number("mm for each kN", measure.RATIO, 0, 1_000)),
    ),
)
STAYS = Table(
    "stay",
    (
        column("name"),
        Column("side"),
        column("upper"),
        Column("via"),
        Column("second via"),
        column("lower"),
        column("EA", force("EA", least=1, most=1e6)),
        column("rate", RATE),
        Column("wanted", force("wanted tension")),
        Column("take-out", FREE),
        Column("runner"),
        Column("seized"),
    ),
)
CASES = Table(
    "case",
    (
        column("name"),
        Column("lee"),
        Column("heel", angle("heel", most=90)),
        Column("warmer", number("warmer than at the dock", measure.TEMPERATURE_CHANGE, -100, 100)),
        Column("runners"),
    ),
)
LOADS = Table(
    "load",
    (
        column("case"),
        column("mast"),
        column("along", ALONG),
        Column("side", force("push to lee", least=-5_000)),
        Column("fore", force("push forward", least=-5_000)),
    ),
)
SPREADERS = Table(
    "spreader",
    (
        column("tip"),
        column("root", ALONG),
        Column("modulus", MODULUS),
        Column("width", length("outside, fore and aft", most=500)),
        Column("height", length("outside, up and down", most=500)),
        Column("wall", length("wall", most=50)),
    ),
)


def rig(
    masts: Sequence[Any], points: Sequence[Any], stays: Sequence[Any], cases: Any, loads: Any, spreaders: Any
) -> Rig:
    """The rig that these ranges hold; what does not fit together is refused."""
    mast_rows = _unique(MASTS.read(masts), "name", "mast")
    point_rows = _unique(POINTS.read(points), "name", "point")
    stay_rows = _unique(STAYS.read(stays), "name", "stay")
    case_rows = _unique(CASES.read(cases or ()), "name", "case")
    if not mast_rows or not stay_rows:
        raise BadInput(f"there is no {'stay' if mast_rows else 'mast'}; fill one row at least")
    found = {name: _point(row, mast_rows) for name, (_, row) in point_rows.items()}
    made = [_stays(at, row, found) for at, row in stay_rows.values()]
    pushes = [(row, _load(row, mast_rows, case_rows)) for _, row in LOADS.read(loads or ())]
    return Rig(
        tuple(_mast(at, row) for at, row in mast_rows.values()),
        tuple(found.values()),
        tuple(stay for several in made for stay in several),
        tuple(
            _case(at, row, tuple(load for pushed, load in pushes if pushed["case"] == name))
            for name, (at, row) in case_rows.items()
        ),
        tuple(
            _spreader(row, found)
            for _, row in _unique(SPREADERS.read(spreaders or ()), "tip", "spreader").values()
        ),
    )


def _unique(rows: "list[tuple[int, Row]]", key: str, what: str) -> "dict[str, tuple[int, Row]]":
    named: dict[str, tuple[int, Row]] = {}
    for at, row in rows:
        if row[key] in named:
            raise BadInput(f"there are two rows for the {what} {row[key]}; rename or delete one")
        named[row[key]] = (at, row)
    return named


def _mast(at: int, row: Row) -> Mast:
    name = row["name"]
    sizes = [row[title] for title in ("width", "fore and aft", "wall")]
    own = [row[title] for title in ("area", "inertia fore and aft", "inertia athwartships")]
    if None not in sizes:
        tube = _tube(f"mast {name}", *sizes)
        area, athwart, fore = (mine or its for mine, its in zip((own[0], own[2], own[1]), tube))
        torsion = tube[3]
    elif None in own:
        blank = [title for title, size in zip(("width", "fore and aft", "wall"), sizes) if size is None]
        raise BadInput(
            f"mast {name}: {' and '.join(blank)} {'is' if len(blank) == 1 else 'are'} blank; "
            "type it, or area and both inertias from its maker's list"
        )
    else:
        area, fore, athwart = own
        torsion = fore + athwart
    if row["partners"] is not None and row["partners"] >= row["head"]:
        raise BadInput(f"mast {name}: partners at {row['partners']:g} mm, above its head at {row['head']:g} mm")
    return Mast(
        name,
        row["foot fore"],
        row["foot up"],
        row["rake"],
        row["head"],
        row["modulus"],
        area,
        fore * CM4,
        athwart * CM4,
        torsion * CM4,
        row["partners"],
        row["rate"],
        at,
    )


def _tube(where: str, across: float, along: float, wall: float) -> "tuple[float, float, float, float]":
    """Area, second moments for bending along `across` and along `along`, torsion; mm² and cm⁴."""
    try:
        moments = tube_inertia(across, along, wall), tube_inertia(along, across, wall)
        return tube_area(across, along, wall), *moments, torsion_of_tube(across, along, wall) / CM4
    except BadInput as refused:
        raise BadInput(f"{where}: {refused}") from None


def _point(row: Row, masts: Mapping[str, Any]) -> Point:
    mast = row["mast"] or ""
    if mast and mast != HULL and mast not in masts:
        raise BadInput(f'point {row["name"]}: there is no mast {mast}; write a mast\'s name, "{HULL}" or nothing')
    return Point(row["name"], mast, row["fore"], row["out"], row["up"], row["give"] or 0.0)


def _stays(at: int, row: Row, points: Mapping[str, Point]) -> "list[Stay]":
    """A row as stays: one for each side, and one for each part of a stay that is seized to its tips."""
    name = row["name"]
    over = [row[key] for key in ("upper", "via", "second via", "lower") if row[key] is not None]
    for point in over:
        if point not in points:
            raise BadInput(f"stay {name}: there is no point {point}")
    for point in over[1:-1]:
        if points[point].mast in ("", HULL):
            raise BadInput(f"stay {name}: it goes over {point}, which is on no mast; give the point's mast")
    runner, seized = (_flag(row, key, name) for key in ("runner", "seized"))
    chains = list(zip(over, over[1:])) if seized else [tuple(over)]
    if seized and len(chains) > 1 and row["take-out"] is not None:
        raise BadInput(f"stay {name}: a seized stay has a take-out for each part; leave it blank")
    return [
        Stay(name, at, side, chain, row["EA"], row["rate"], row["wanted"], row["take-out"], runner)
        for side in _sides(row, [points[point] for point in over])
        for chain in chains
    ]


def _flag(row: Row, key: str, name: str) -> bool:
    if row[key] not in (None, key):
        raise BadInput(f'stay {name}: "{row[key]}" stands where "{key}" or nothing is due')
    return bool(row[key])


def _sides(row: Row, over: "list[Point]") -> "tuple[int, ...]":
    side = row["side"]
    if side is None and not any(point.out for point in over):
        return (MIDDLE,)
    if side == "both":
        return (PORT, STARBOARD)
    if side not in SIDES:
        given = f'"{side}"' if side else "nothing"
        raise BadInput(
            f"stay {row['name']}: {given} was given as its side; write port, starboard, both or centreline"
        )
    if side == "centreline" and any(point.out for point in over):
        raise BadInput(f"stay {row['name']}: on the centreline, but one of its points is not; give its side")
    return (SIDES[side],)


def _case(at: int, row: Row, loads: "tuple[Load, ...]") -> Case:
    name, lee = row["name"], row["lee"]
    if lee not in (None, "port", "starboard"):
        raise BadInput(f'case {name}: "{lee}" was given as the side to lee; write port, starboard or nothing')
    side = SIDES[lee] if lee else MIDDLE
    runners = row["runners"] or "none"
    known = {"none": (), "both": (PORT, STARBOARD), "port": (PORT,), "starboard": (STARBOARD,)}
    if side:
        known.update(windward=(-side,), leeward=(side,))
    if runners not in known:
        raise BadInput(f'case {name}: "{runners}" was given as the runners set; write {", ".join(known)}')
    # A runner on the centreline is set whenever one is.
    which = (*known[runners], MIDDLE) if known[runners] else ()
    return Case(name, at, side, row["heel"] or 0.0, row["warmer"] or 0.0, which, loads)


def _load(row: Row, masts: Mapping[str, Any], cases: Mapping[str, Any]) -> Load:
    for key, known in (("case", cases), ("mast", masts)):
        if row[key] not in known:
            raise BadInput(f"load: there is no {key} {row[key]}")
    return Load(row["mast"], row["along"], row["side"] or 0.0, row["fore"] or 0.0)


def _spreader(row: Row, points: Mapping[str, Point]) -> Spreader:
    """A spreader as a beam where its section is given, else stiff."""
    tip = row["tip"]
    if tip not in points or points[tip].mast in ("", HULL):
        raise BadInput(f"spreader: {tip} is no point on a mast; give the point and its mast")
    sizes = [row[key] for key in ("modulus", "width", "height", "wall")]
    if all(size is None for size in sizes):
        return Spreader(tip, row["root"], 0.0, 0.0, 0.0, 0.0, 0.0)
    if None in sizes:
        raise BadInput(f"spreader {tip}: give modulus, width, height and wall, or none of them for a stiff one")
    modulus, width, height, wall = sizes
    area, fore, up, torsion = _tube(f"spreader {tip}", width, height, wall)
    return Spreader(tip, row["root"], modulus, area, fore * CM4, up * CM4, torsion * CM4)
