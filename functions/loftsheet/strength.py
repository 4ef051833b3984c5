"""Strength: what bend, splice and age leave of a rope, the margin, and the rope that a stay needs."""

from math import exp, sqrt
from typing import Annotated, Any, Optional

from loftsheet import measure
from loftsheet.errors import BadInput, NotInTable
from loftsheet.forms import COLUMN, REST, TEXT
from loftsheet.quantities import (
    BreakLoad,
    Kilonewtons,
    Load,
    Millimetres,
    Ratio,
    Rod,
    Rope,
    Share,
    Wire,
    Words,
    force,
    length,
    ratio,
    share,
    stress,
)
from loftsheet.registry import Quantity, calc
from loftsheet.stretch import FREEZING, GAS_CONSTANT, Activation, Power, Stiffness, StiffnessRatio, Temp

GROUP = "Strength"
WARM = 20 + FREEZING  # K, where the limit for held load is given

Column = tuple[Optional[float], ...]
Table = list[tuple[float, float]]

BendRatio = Annotated[
    float,
    ratio("rod over rope diameter", least=1, advice="a rod thinner than its rope is not for standing rigging"),
]
LeastRatio = Annotated[float, ratio("least rod over rope diameter for full strength", least=1, most=20)]
BendTable = Annotated[Column, ratio("the maker's table, ratio and efficiency side by side", form=COLUMN)]
Splice = Annotated[float, share("share of the breaking load left in the splice, 1 if it was measured spliced")]
Ageing = Annotated[float, share("share of the strength left after use and weather")]
EyeCapacity = Annotated[float, force("capacity of an eye, by RIG.EYE.CAPACITY", most=10_000)]
Margin = Annotated[float, ratio("margin: capacity over load", most=1_000_000)]
Required = Annotated[
    float, ratio("margin required", least=2, most=20, advice="rigging holds up a mast over people")
]
SPARE = share("spare of a link, by RIG.MARGIN.SPARE", least=-1, most=1_000_000)
Spare = Annotated[float, SPARE]
RequiredOfLink = Annotated[float, ratio("margin required of this link", least=1, most=20)]
SpareResult = Annotated[float, Quantity("spare above the required margin, negative if short", measure.SHARE)]
NAME = Quantity("name of a link", form=TEXT)
Name = Annotated[str, NAME]
Links = Annotated[Any, Quantity("further names and spares, in turn", form=REST)]
Held = Annotated[float, force("load held for weeks and longer")]
HoldLimit = Annotated[float, share("share of the breaking load that may be held for long at 20 °C", most=0.5)]
HoldShare = Annotated[float, share("share of the breaking load that may be held for long", most=0.5)]
Sizes = Annotated[Column, length("rope size in each row", most=100, form=COLUMN)]
BreakLoads = Annotated[Column, force("breaking load in each row", form=COLUMN)]
Needed = Annotated[float, force("breaking load needed")]
Grade = Annotated[float, stress("strength grade of the wires", least=500)]
StrandFactor = Annotated[float, ratio("strand factor, breaking load over grade and diameter squared", most=0.785)]


@calc("RIG.BEND.RATIO", group=GROUP)
def bend_ratio(rod: Rod, rope: Rope) -> Ratio:
    """Bend of the rope over the rod, in rope diameters.

    Formula: ratio = rod / rope
    Limits: bare diameters, the sleeve is not counted.
    Source: definition.
    """
    diameters = rod / rope  # ratio
    return diameters


@calc("RIG.BEND.WIRE", group=GROUP)
def bend_wire(ratio: BendRatio) -> Share:
    """Share of a wire rope's strength left when it bends over a pin.

    Formula: left = 1 − 0.5/√ratio
    Limits: wire rope, ratio 1 or more. No data of HMPE.
    Source: GL Noble Denton 0027/ND rev. 11 (2016) §7.8, table 7-1, after IMCA M 179.
    """
    left = 1 - 0.5 / sqrt(ratio)  # share
    return left


@calc("RIG.BEND.ROPE", group=GROUP)
def bend_rope(ratio: BendRatio, least: LeastRatio = 2.0, table: Optional[BendTable] = None) -> Share:
    """Share of the rope's strength left in the bend over the rod.

    Formula: 1 from `least` upwards; below it a straight line between the rows of the maker's table; without a
    table 1 − 0.5/√ratio
    Limits: `table` is one range of two columns, ratio and efficiency, read row by row; rows wholly empty are
    skipped, their order does not matter. Between its last row and `least` the last row counts, which is too little
    rather than too much. Without a table the rule for wire stands in; it is no data of HMPE.
    Errors: #N/A below the table's first row, where nothing is known; Err:502 for a table that is empty or half
    empty, has a ratio twice, says less than 1 at `least` or above, or falls while the ratio grows.
    Source: the rope's maker; full strength from 2 diameters as eyes are tested on posts of 2 or more, ISO
    2307:2010, and GL Noble Denton 0027/ND rev. 11 (2016) §7.8.5.
    """
    rows = None if table is None else read_bend_table(table, least)  # ratio and share
    left = left_in_bend(ratio, least, rows)  # share
    return left


@calc("RIG.CAPACITY", group=GROUP)
def capacity(
    break_load: BreakLoad,
    splice: Splice = 0.9,
    ageing: Ageing = 0.8,
    eye_a: Optional[EyeCapacity] = None,
    eye_b: Optional[EyeCapacity] = None,
) -> Kilonewtons:
    """Load that the spliced and aged rope of a stay carries at most.

    Formula: capacity = the smallest of break_load · splice, eye_a and eye_b, times ageing
    Limits: the rope alone; bolt, rod, lashing and mast are links of their own. An eye left out is not looked at.
    splice is 1 where the breaking load was measured with splices.
    Source: GL Noble Denton 0027/ND rev. 11 (2016) §7.6–7.7: the worst place counts and not their product; 0.9 is
    the lower end of what McCarthy and Starzinger (2010, title not noted) found, and Hartter, Pilkerton, Garland
    (Synthetic Rope Properties and End Connector Concepts for Use in Timber Harvesting Applications); 0.8 assumed.
    """
    new = smallest_given(break_load * splice, eye_a, eye_b)  # kN
    aged = new * ageing  # kN
    return aged


@calc("RIG.MARGIN", group=GROUP)
def margin(
    break_load: BreakLoad,
    load: Load,
    splice: Splice = 0.9,
    ageing: Ageing = 0.8,
    eye_a: Optional[EyeCapacity] = None,
    eye_b: Optional[EyeCapacity] = None,
) -> Ratio:
    """How many times the load goes into what the rope of the stay carries.

    Formula: margin = RIG.CAPACITY / load
    Limits: as RIG.CAPACITY.
    Source: definition; splice and ageing as RIG.CAPACITY.
    """
    carried = capacity(break_load, splice, ageing, eye_a, eye_b)  # kN
    times = carried / load  # ratio
    return times


@calc("RIG.MARGIN.SPARE", group=GROUP)
def margin_spare(margin: Margin, required: RequiredOfLink) -> SpareResult:
    """Spare of a link: by how much its margin exceeds what is required.

    Formula: spare = margin/required − 1
    Limits: 0 is just enough, negative is too little. Below 2 is for metal whose capacity holds a partial factor.
    Source: definition.
    """
    spare = margin / required - 1  # share
    return spare


@calc("RIG.WEAKEST", group=GROUP)
def weakest(name: Name, spare: Spare, links: Links = ()) -> Words:
    """Name of the link with the smallest spare.

    Formula: the name beside the smallest of all spares; of equal ones the first
    Limits: names and spares in turn, each given by itself and never as a range. The first pair is always there; of
    the others a blank one is skipped. A sheet hands over an empty cell as 0, so that an empty spare beside a name
    counts as 0, just enough.
    Errors: Err:502 for half a pair, or where every link is blank.
    Source: a chain is as strong as its weakest link.
    """
    weakest_name = smallest_spare((name, spare, *links))  # text
    return weakest_name


@calc("RIG.NEED.STRENGTH", group=GROUP)
def need_strength(load: Load, required: Required, splice: Splice = 0.9, ageing: Ageing = 0.8) -> Kilonewtons:
    """Breaking load of the rope that has the required margin.

    Formula: needed = load · required / (splice · ageing)
    Limits: the rope between its eyes; the eyes and other links are not looked at. A margin under 2 is not allowed.
    Source: definition, RIG.MARGIN turned round; splice and ageing as RIG.CAPACITY.
    """
    break_load_needed = load * required / (splice * ageing)  # kN
    return break_load_needed


@calc("RIG.HOLD.LIMIT", group=GROUP)
def hold_limit(
    temp: Temp = 20.0, limit: HoldLimit = 0.15, power: Power = 5.0, activation: Activation = 145.0
) -> Share:
    """Share of the breaking load that may be held for long at a temperature, so that it creeps no faster.

    Formula: held = limit · exp(−activation/(8.314e-3 · power) · (1/293.15 − 1/kelvin)), kelvin = temp + 273.15,
    and never more than limit
    Limits: the shape of the curve only, the maker's figure wins. Colder than 20 °C gives no bonus.
    Source: creep rate as load^power · exp(−activation/(8.314e-3 · kelvin)); activation O'Connor & Robbins (2020),
    abstract; 15 % at 20 °C common practice, no source; power 5 is assumed.
    """
    kelvin = temp + FREEZING  # K
    inverse_gap = 1 / WARM - 1 / kelvin  # 1/K
    factor = exp(-activation / (GAS_CONSTANT * power) * inverse_gap)  # share
    held_share = limit * min(1.0, factor)  # share
    return held_share


@calc("RIG.NEED.HOLD", group=GROUP)
def need_hold(held: Held, limit: HoldShare = 0.15) -> Kilonewtons:
    """Breaking load of the rope that holds a load for years and does not creep away.

    Formula: needed = held / limit
    Limits: limit by RIG.HOLD.LIMIT where it gets hot.
    Source: definition of the limit; 15 % common practice, no source: creep speeds up at much above that share of
    the breaking load.
    """
    break_load_needed = held / limit  # kN
    return break_load_needed


@calc("RIG.NEED.STRETCH", group=GROUP)
def need_stretch(wire_ea: Stiffness, ratio: StiffnessRatio = 37.5) -> Kilonewtons:
    """Breaking load of the rope that stretches no more than the wire it replaces.

    Formula: needed = wire_ea / ratio
    Limits: the same length and load change for both; bedded-in rope, the splices' stretch is not counted.
    Source: RIG.ROPE.EA turned round, with its source.
    """
    break_load_needed = wire_ea / ratio  # kN
    return break_load_needed


@calc("RIG.ROPE.SIZE", group=GROUP)
def rope_size(sizes: Sizes, break_loads: BreakLoads, needed: Needed) -> Millimetres:
    """Smallest size of rope in a table that has the breaking load needed.

    Formula: the smallest of sizes with a breaking load of needed or more
    Limits: rows wholly empty are skipped, their order does not matter.
    Errors: #N/A where no size has it; Err:502 where the ranges are of different height, a row is half empty, a
    size stands twice, or the table is empty.
    Source: the rope's maker.
    """
    smallest_size = first_strong_enough(read_table(sizes, break_loads), needed)  # mm
    return smallest_size


@calc("RIG.WIRE.BREAK", group=GROUP)
def wire_break(diameter: Wire, grade: Grade = 1570.0, k: StrandFactor = 0.525) -> Kilonewtons:
    """Breaking load of the wire that is replaced.

    Formula: break_load = k · diameter² · grade/1000
    Limits: new wire; grade in MPa; k = 0.525 is for 1x19.
    Source: K. Feyrer, Wire Ropes, table 1.9 (formula); 1570 and 0.525 for stainless 1x19 strand from memory.
    """
    break_load = k * diameter**2 * grade / 1000  # kN
    return break_load


def smallest_given(first: float, *others: Optional[float]) -> float:
    """The smallest of those that are given."""
    return min([first, *(other for other in others if other is not None)])


def read_table(keys: Column, values: Column) -> Table:
    """The rows of two columns that are filled, the smallest key first."""
    if len(keys) != len(values):
        raise BadInput(f"the columns have {len(keys)} and {len(values)} cells; give two of the same height")
    rows = []
    for row, (key, value) in enumerate(zip(keys, values), start=1):
        if (key is None) != (value is None):
            raise BadInput(f"row {row} of the table is half empty; fill it or clear it")
        if key is not None and value is not None:
            rows.append((key, value))
    if not rows:
        raise BadInput("the table is empty; fill it or leave it out where that is allowed")
    rows.sort()
    for (key, _), (following, _) in zip(rows, rows[1:]):
        if key == following:
            raise BadInput(f"{key:g} stands twice in the table; keep one of the rows")
    return rows


def first_strong_enough(rows: Table, needed: float) -> float:
    """The first size, from the smallest up, with that breaking load or more."""
    for size, break_load in rows:
        if break_load >= needed:
            return size
    strongest = max(break_load for _, break_load in rows)
    raise NotInTable(
        f"no size in the table has {needed:g} kN, the strongest has {strongest:g} kN; use a stronger rope"
    )


def read_bend_table(cells: Column, least: float) -> Table:
    """The maker's rows of ratio and efficiency, by ratio."""
    rows = read_table(cells[0::2], cells[1::2])
    for diameters, left in rows:
        if diameters < 1 or left > 1:
            raise BadInput(
                f"the table has ratio {diameters:g} and efficiency {left:g}; allowed are ratios from 1 and"
                " efficiencies up to 1, in this order"
            )
        if diameters >= least and left < 1:
            raise BadInput(
                f"the table has efficiency {left:g} at ratio {diameters:g}, yet least {least:g} says full strength"
                " there; give the least ratio that belongs to the table"
            )
    for (_, left), (diameters, following) in zip(rows, rows[1:]):
        if following < left:
            raise BadInput(
                f"the table's efficiency falls from {left:g} to {following:g} at ratio {diameters:g}; it must grow"
            )
    return rows


def left_in_bend(ratio: float, least: float, rows: Optional[Table]) -> float:
    """All from `least` up, below it on straight lines between the rows, without rows by RIG.BEND.WIRE."""
    if ratio >= least:
        return 1.0
    if rows is None:
        return bend_wire(ratio)
    if ratio < rows[0][0]:
        raise NotInTable(
            f"ratio {ratio:g} is below the table's lowest, {rows[0][0]:g}; use a thicker rod or the maker's word"
        )
    for (below, left), (above, following) in zip(rows, rows[1:]):
        if ratio <= above:
            return left + (following - left) * (ratio - below) / (above - below)
    return rows[-1][1]


def smallest_spare(cells: "tuple[Any, ...]") -> str:
    """The name beside the smallest spare, the first of equal ones."""
    pairs = zip(cells[0::2], [*cells[1::2], None])
    links = [link for link in (_link(name, spare) for name, spare in pairs) if link]
    if not links:
        raise BadInput("every link is blank; give at least one name and its spare")
    return min(links, key=lambda link: link[0])[1]


def _link(name: Any, spare: Any) -> "Optional[tuple[float, str]]":
    """Spare and name of one link, None for a blank pair: a sheet hands over an empty cell as 0."""
    nameless = _empty(name) or name == 0
    if nameless and (_empty(spare) or spare == 0):
        return None
    if nameless:
        raise BadInput(f"the spare {spare} has no name beside it; give both or neither")
    if _empty(spare):
        raise BadInput(f'the link "{name}" has no spare beside it; give both or neither')
    return SPARE.read(spare), NAME.read(name)


def _empty(cell: Any) -> bool:
    return cell is None or (isinstance(cell, str) and not cell.strip())
