"""Kinds of stay, by the trade's names: where each leads at the mast, and which kinds hold the mast against it."""

from dataclasses import dataclass

FORWARD, AFT, ABEAM = 1, -1, 0
PORT, STARBOARD, BOTH, CENTRELINE = SIDES = ("port", "starboard", "both", "centreline")


@dataclass(frozen=True)
class Kind:
    """One kind of stay.

    What it balances is named as it is looked for under Place: kind and side; `{side}` is the stay's own. A kind
    that `leads` one way is refused where it leads the other.
    """

    name: str
    leads: int = ABEAM
    against: "tuple[str, ...]" = ()


LOWER_FORE = Kind("lower fore", FORWARD, ("lower aft, {side}",))
LOWER_AFT = Kind("lower aft", AFT, ("lower fore, {side}",))
SINGLE_LOWER = Kind("single lower")
FORESTAY = Kind("forestay", FORWARD, ("backstay, centreline",))
INNER_FORESTAY = Kind("inner forestay", FORWARD, ("runner, port", "runner, both"))
BACKSTAY = Kind("backstay", AFT, ("forestay, centreline",))
RUNNER = Kind("runner", AFT, ("inner forestay, centreline",))
CAP_SHROUD, INTERMEDIATE = Kind("cap shroud"), Kind("intermediate")
BACKSTAY_LEG, OTHER = Kind("backstay leg"), Kind("other")
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
PAIR = (LOWER_FORE, LOWER_AFT)  # which share the side pull of one height between them
HOLD_THE_SPREADER = (LOWER_FORE, LOWER_AFT, SINGLE_LOWER, INTERMEDIATE)


def is_one_of(kinds: "tuple[Kind, ...]") -> str:
    """Formula: whether the stay is of one of these kinds."""
    each = ";".join(f'[kind]="{kind.name}"' for kind in kinds)
    return f"OR({each})" if len(kinds) > 1 else each


def place(written: str) -> str:
    """Formula: a kind and side as they stand under Place, on the mast of this stay."""
    before, side, _ = written.partition("{side}")
    return f'"{before}"&[side]&", "&[mast]' if side else f'"{before}, "&[mast]'


def against(nth: int) -> str:
    """Formula: the place of what a stay balances, the first or the second that is looked for; or none."""
    found = f'"{NOWHERE}"'
    for kind in reversed(KINDS):
        if len(kind.against) > nth:
            found = f'IF([kind]="{kind.name}";{place(kind.against[nth])};{found})'
    return found
