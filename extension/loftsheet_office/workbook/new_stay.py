"""A stay that is added: what was said of it, and the rows of Points, Stays and Stubs that come of that.

What was typed once counts for both sides; the starboard points say so, for only a second measurement shows a slip.
"""

import re
from dataclasses import dataclass, field

from .stay_kinds import Kind

EACH, ONE_ROW = "port and starboard, a row each", "port and starboard, in one row"
BOTH, PORT, STARBOARD, CENTRELINE = "both", "port", "starboard", "centreline"
SIDES = (EACH, ONE_ROW, PORT, STARBOARD, CENTRELINE)
COPIED = "as to port; measure it, too"
STUB, RING, ONE = "stub", "ring", "one"
RIGHTING_MOMENT, WIRE_REPLACED = "righting moment", "wire replaced"

METAL, WIRE = "metal", "existing wire"
HOLDS, HOLE = "chainplate", "plate_hole"
OF_PLATE = {HOLDS: "holds_own", HOLE: "hole"}  # what is said of a chainplate, and its column there

Rows = dict[str, list[dict[str, str]]]  # by table, by column


@dataclass(frozen=True)
class Point:
    """A point of the stay: one that is there already, or a new one with what was typed of it by column."""

    name: str
    typed: "dict[str, str]" = field(default_factory=dict)

    @property
    def is_new(self) -> bool:
        return bool(self.typed)


@dataclass(frozen=True)
class NewStay:
    """What was said of a stay; without a point its end stays blank."""

    kind: Kind
    name: str
    side: str
    stub: bool
    points: "dict[str, Point]"
    typed: "dict[str, str]"  # of the stay, by column

    @property
    def sides(self) -> "tuple[str, ...]":
        """The side of each of its rows."""
        return (PORT, STARBOARD) if self.side == EACH else (BOTH if self.side == ONE_ROW else self.side,)

    def called(self, name: str, side: str) -> str:
        return f"{name}, {side}" if side in (PORT, STARBOARD) else name

    def point(self, end: str, side: str) -> str:
        """The name of a point on a side. One on the mast is shared, as its out counts on either side."""
        point = self.points[end]
        if end == "upper":
            return point.name
        return self.called(point.name, side) if point.is_new else other_side(point.name, side)


def other_side(name: str, side: str) -> str:
    """The name of a point, on that side; port is in support, too, and no word of its own there."""
    other = {PORT: STARBOARD, STARBOARD: PORT}.get(side, "")
    if not other:
        return name
    return re.sub(rf"\b{other}\b", lambda word: side.title() if word[0][0].isupper() else side, name, flags=re.I)


def rows(new: NewStay, has_defaults: bool, has_plates: bool, shares_a_stub: bool = False) -> Rows:
    """What is filled in, by table; in schedules without defaults what they would be is written, too.

    What is said of a chainplate stands on Chainplates; schedules without that sheet have on Stays what it holds.
    A stay that shares the stub of another gets no row on Stubs.
    """
    found: Rows = {"points": [], "chainplates": [], "stays": [], "tangs": []}
    for side in new.sides:
        found["points"] += [point for point in _points(new, side) if point not in found["points"]]
        stay = _stay(new, side, has_defaults)
        told = {column: stay.pop(key) for key, column in OF_PLATE.items() if key in stay} if has_plates else {}
        if told:
            plate = {"name": stay["lower"], "made_of": METAL, **told}
            found["chainplates"] += [plate] if plate not in found["chainplates"] else []
        found["stays"].append(stay)
        if new.stub and not shares_a_stub:
            found["tangs"].append(_stub(new, side, has_defaults))
    return found


def _points(new: NewStay, side: str) -> "list[dict[str, str]]":
    copied = {"note": COPIED} if new.side == EACH and side == STARBOARD else {}
    return [
        {"name": new.point(end, side), **point.typed, **(copied if end != "upper" else {})}
        for end, point in new.points.items()
        if point.is_new
    ]


def _stay(new: NewStay, side: str, has_defaults: bool) -> "dict[str, str]":
    ends = {end: new.point(end, side) for end in new.points}
    row = {"name": new.called(new.name, side), "kind": new.kind.name, "side": side, **ends, **new.typed}
    if not has_defaults:
        basis = RIGHTING_MOMENT if new.kind.shroud else WIRE_REPLACED if row.get("wire") else ""
        usual = {"runs": new.kind.runs, "basis": basis, "lower_over": RING, "number": "2" if side == BOTH else "1"}
        row = {**usual, "upper_over": STUB if new.stub else RING, **row}
    elif not new.stub and not new.kind.over:
        row["upper_over"] = RING
    return row


def _stub(new: NewStay, side: str, has_defaults: bool) -> "dict[str, str]":
    row = {"name": new.called(f"{new.name} stub", side), "stay": new.called(new.name, side)}
    return row if has_defaults else {**row, "number": "2" if side == BOTH else "1", "sides": "2"}
