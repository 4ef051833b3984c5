"""The end plate's hole for the keeper line: on every drawing, and in what a supplier is told."""

KEEPER_HOLE = 5.0  # mm across at most; a low plate has a smaller one
SHARE_OF_RISE = 1 / 3


def keeper_diameter(rise: float) -> float:
    """Its diameter in a plate that stands so far above the rod."""
    return min(KEEPER_HOLE, SHARE_OF_RISE * rise)
