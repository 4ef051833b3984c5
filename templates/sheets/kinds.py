"""Kinds of stay, by the trade's names: where each leads at the mast, and which kinds hold the mast against it."""

from dataclasses import dataclass

from templates.choices import NOTHING_RUNS, ON_RING

FORWARD, AFT, ABEAM = 1, -1, 0
PORT, STARBOARD, BOTH, CENTRELINE = SIDES = ("port", "starboard", "both", "centreline")


@dataclass(frozen=True)
class Kind:
    """One kind of stay.

    What it balances is named as it is looked for under Place: kind and side; `{side}` is the stay's own, `{other}`
    that of a boat which has one row for both sides here and two there. A kind that `leads` one way is refused
    where it leads the other.
    """

    name: str
    leads: int = ABEAM
    against: "tuple[str, ...]" = ()
    shroud: bool = False  # loaded by the righting moment, with a share of the Library that is most often this one
    share: str = ""
    over: str = ""  # what its upper end lies over, where that is no question
    runs: str = ""  # what runs on it, likewise
    stub: bool = False  # usual on the mast
    pair: bool = False  # one to port and one to starboard
    spreader: bool = False  # most often over one


LOWER_FORE = Kind("lower fore", FORWARD, ("lower aft, {side}", "lower aft, {other}"), True, "each of two lowers", runs=NOTHING_RUNS, stub=True, pair=True)
LOWER_AFT = Kind("lower aft", AFT, ("lower fore, {side}", "lower fore, {other}"), True, "each of two lowers", runs=NOTHING_RUNS, stub=True, pair=True)
SINGLE_LOWER = Kind("single lower", shroud=True, share="single lower", runs=NOTHING_RUNS, stub=True, pair=True)
FORESTAY = Kind("forestay", FORWARD, ("backstay, centreline",), over=ON_RING)
INNER_FORESTAY = Kind("inner forestay", FORWARD, ("runner, port", "runner, both"), over=ON_RING)
BACKSTAY = Kind("backstay", AFT, ("forestay, centreline",), over=ON_RING, runs=NOTHING_RUNS)
RUNNER = Kind("runner", AFT, ("inner forestay, centreline",), runs=NOTHING_RUNS, stub=True, pair=True)
CAP_SHROUD = Kind("cap shroud", shroud=True, share="cap shroud, one spreader", runs=NOTHING_RUNS, stub=True, pair=True, spreader=True)
INTERMEDIATE = Kind("intermediate", shroud=True, runs=NOTHING_RUNS, stub=True, pair=True, spreader=True)
BACKSTAY_LEG, OTHER = Kind("backstay leg", over=ON_RING, runs=NOTHING_RUNS, pair=True), Kind("other")
KINDS = (
    CAP_SHROUD,
    INTERMEDIATE,
    LOWER_FORE,
    LOWER_AFT,
    SINGLE_LOWER,
    FORESTAY,
    INNER_FORESTAY,
    BACKSTAY,
    BACKSTAY_LEG,
    RUNNER,
    OTHER,
)
NAMES = tuple(kind.name for kind in KINDS)
NOWHERE = "-"  # no stay is of this place
OTHERWISE = f'IF([side]="{BOTH}";"{PORT}";"{BOTH}")'  # how a side is called where rows are one for both, or one for each
PAIR = (LOWER_FORE, LOWER_AFT)  # which share the side pull of one height between them
HOLD_THE_SPREADER = (LOWER_FORE, LOWER_AFT, SINGLE_LOWER, INTERMEDIATE)
LOWERS = (LOWER_FORE, LOWER_AFT, SINGLE_LOWER)


def is_one_of(kinds: "tuple[Kind, ...]") -> str:
    """Formula: whether the stay is of one of these kinds."""
    each = ";".join(f'[kind]="{kind.name}"' for kind in kinds)
    return f"OR({each})" if len(kinds) > 1 else each


def by_kind(attribute: str, other: str = "NA()") -> str:
    """Formula: what a kind says of itself, or the other formula where it says nothing."""
    values = dict.fromkeys(getattr(kind, attribute) for kind in KINDS if getattr(kind, attribute))
    formula = other
    for value in values:
        of = tuple(kind for kind in KINDS if getattr(kind, attribute) == value)
        formula = f'IF({is_one_of(of)};"{value}";{formula})'
    return formula


def other_side(side: str) -> str:
    """Formula: the other of the two sides."""
    return f'IF({side}="{PORT}";"{STARBOARD}";"{PORT}")'


def place(written: str) -> str:
    """Formula: a kind and side as they stand under Place, on the mast of this stay."""
    for mark, side in (("{side}", "[side]"), ("{other}", OTHERWISE)):
        if mark in written:
            return f'"{written.replace(mark, "")}"&{side}&", "&[mast]'
    return f'"{written}, "&[mast]'


def none_of(kinds: "tuple[Kind, ...]") -> str:
    """Formula: whether no stay of these kinds is to the side of this one, in a row for it or for both sides."""
    places = (place(f"{kind.name}, {side}") for kind in kinds for side in ("{side}", "{other}"))
    return "AND(" + ";".join(f"ISNA(MATCH({one};stays_place;0))" for one in places) + ")"


def against(nth: int) -> str:
    """Formula: the place of what a stay balances, the first or the second that is looked for; or none."""
    found = f'"{NOWHERE}"'
    for kind in reversed(KINDS):
        if len(kind.against) > nth:
            found = f'IF([kind]="{kind.name}";{place(kind.against[nth])};{found})'
    return found
