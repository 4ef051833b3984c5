"""What is proposed of a stay that is added, and what was typed of it: read, or refused in words."""

from dataclasses import dataclass, field, replace
from typing import Optional

from ..common.refusal import Refusal
from .as_typed import number
from .columns import all_columns
from .new_stay import CENTRELINE, EACH, HOLDS, HOLE, OF_PLATE, STUB, WIRE, NewStay, Point
from .stay_kinds import Kind

NEW, NONE = "a new one:", "none"
PLACE = (("fore_own", "fore"), ("out", "out"), ("up_own", "up"))
TIPS = ("via", "via_2")  # of spreaders, from above
ALONG, AFT = "along", "aft"  # the mast, and square to it
ON_MAST = ((ALONG, "along the mast from its foot"), ("out", "out"))
FROM_MAST = ((ALONG, "along the mast"), ("out", "out"), (AFT, "aft of its middle"))
TENSIONS = ("pretension_own", HOLDS)  # kN, all else mm
ROPE = "rope"
NEAR = 45.0  # mm between two bolts: less than the thinnest rod

Typed = dict[str, str]


@dataclass(frozen=True)
class Stub:
    """A stub that is there: where its stay starts, to which side that leads, and whether two lie on it."""

    name: str
    point: str
    side: str
    is_full: bool
    mast: str = ""
    along: Optional[float] = None  # mm up the mast


@dataclass(frozen=True)
class Offered:
    """What the schedule has to pick from."""

    masts: "dict[str, float]"  # with their widths in mm; 0 where none is known
    points: "tuple[str, ...]"
    stays: "tuple[str, ...]"
    wires: "tuple[str, ...]"
    shares: "tuple[str, ...]"
    plates: "tuple[str, ...]"  # names of the rows of Chainplates
    has_defaults: bool = True
    has_plates: bool = True
    has_wire: bool = True  # whether a row may stay wire
    tips: "tuple[str, ...]" = TIPS
    sections: "dict[str, float]" = field(default_factory=dict)  # of the masts, fore and aft, in mm
    has_aft: bool = True  # whether Points takes how far a point is aft of its mast's middle
    on_mast: "tuple[str, ...]" = ()  # of the points
    stubs: "tuple[Stub, ...]" = ()

    def points_for(self, end: str) -> "tuple[str, ...]":
        """The points, first those that are likely for this end: on a mast for the upper one."""
        likely = [point for point in self.points if (point in self.on_mast) == (end == "upper")]
        return (*likely, *(point for point in self.points if point not in likely))

    def asked(self, end: str, kind: Kind) -> "tuple[tuple[str, str], ...]":
        """What is typed of a new point, by the end of the stay that it is: column of Points, and its words.

        A stub stands abeam of the mast's middle; what is on no stub hangs on its fore or aft face.
        """
        if self.has_aft and (end in TIPS or (end == "upper" and not kind.stub)):
            return FROM_MAST
        return ON_MAST if end == "upper" else PLACE


def ends(kind: Kind, offered: Offered) -> "tuple[str, ...]":
    """The points of a stay of that kind that are asked for."""
    return ("upper", *(offered.tips if kind.spreader else ()), "lower")


def proposed(kind: Kind, mast: str, offered: Offered) -> Typed:
    """What is usual for a stay of that kind; blank where it has to be typed."""
    whose = f"{mast} {kind.name}" if len(offered.masts) > 1 else kind.name
    name = next(name for name in (whose, *(f"{whose} {at}" for at in range(2, 100))) if _is_free(name, offered))
    lower = "chainplate" if kind.pair else "on deck"
    tips = {"via": f"{name} spreader tip", "via_2": f"{name} lower spreader tip"}
    names = {"upper": f"{name} on mast", **tips, "lower": f"{name} {lower}"}
    blank = dict.fromkeys((f"{end}_{key}" for end in names for key, _ in offered.asked(end, kind)), "")
    picks = {end: named if named in offered.points else NEW for end, named in names.items()}
    picks["via_2"] = NONE
    half, face = (widths.get(mast, 0.0) / 2 for widths in (offered.masts, offered.sections))
    return {
        **blank,
        **dict.fromkeys((*TENSIONS, HOLE, "wire", "runs"), ""),
        "made_of": ROPE,
        **picks,
        **{f"{end}_name": named for end, named in names.items()},
        "name": name,
        "side": EACH if kind.pair else CENTRELINE,
        "stub": STUB if kind.stub else "",
        "upper_out": "0" if not kind.stub else f"{half:g}" if half else "",
        f"upper_{AFT}": f"{-face * kind.leads:g}" if face and kind.leads else "",
        "lower_out": "" if kind.pair else "0",
        "share": kind.share if kind.share in offered.shares else "",
    }


def _is_free(name: str, offered: Offered) -> bool:
    return not any(stay == name or stay.startswith(f"{name}, ") for stay in offered.stays)


def made_of(kind: Kind, mast: str, typed: Typed, offered: Offered) -> NewStay:
    """The stay, or a refusal of what was typed."""
    points = {end: _point(end, kind, mast, typed, offered) for end in ends(kind, offered) if typed[end] != NONE}
    of_stay = {key: typed[key] for key in ("wire", "share", "runs") if typed.get(key)}
    if typed.get("made_of") == WIRE:
        of_stay["made_of"] = WIRE
    of_stay.update({key: _number("stays", key, typed[key]) for key in TENSIONS if typed.get(key)})
    if typed.get(HOLE):
        of_stay[HOLE] = _number("chainplates", OF_PLATE[HOLE], typed[HOLE])
    new = NewStay(kind, typed["name"], typed["side"], bool(typed["stub"]), points, of_stay)
    if not new.name:
        raise Refusal("Type a name for the stay.")
    if not kind.runs and "runs" not in of_stay:
        words = all_columns()["stays_runs"].words
        raise Refusal(f"Pick what runs on it: {', '.join(words[:-1])} or {words[-1]}.")
    if new.stub and "made_of" in of_stay:
        raise Refusal("A stay of existing wire lies on no stub. Take the tick off, or make it of rope.")
    for side in new.sides:
        named = new.called(new.name, side)
        if named in offered.stays:
            raise Refusal(f"Stays has a stay of the name {named} already. Type another name.")
        for end in points:
            _look_at(new, end, side, offered)
        if OF_PLATE.keys() & of_stay.keys() and new.point("lower", side) in offered.plates:
            raise Refusal(
                f"Chainplates has a row for {new.point('lower', side)} already. What it holds and its hole stand"
                " there, so leave both blank here."
            )
    return new


def lies_with(new: NewStay, offered: Offered) -> "tuple[NewStay, dict[str, str]]":
    """By side the stub that is there already where the new stay starts; none where it gets a bolt of its own.

    One bolt takes a stub on each side of the mast, and a stub takes two eyes. A new point that is as high as the
    bolt gives way to that of the bolt.
    """
    there = [stub for stub in offered.stubs if new.stub and _is_at(stub, new.points["upper"])]
    if not there:
        return new, {}
    named = " and ".join(stub.name for stub in there)
    of_sides = {stub.side: stub.name for stub in there if not stub.is_full}
    if set(of_sides) != set(new.sides) or len(of_sides) != len(there):
        raise Refusal(
            f"There is no room for it on {new.points['upper'].name}, where {named} are already: one bolt takes one"
            " stub on each side of the mast, and a stub two eyes. Give it a point of its own, or the same sides."
        )
    return replace(new, points={**new.points, "upper": Point(there[0].point)}), of_sides


def _is_at(stub: Stub, upper: Point) -> bool:
    """Whether a stub stands where a stay starts, or so near that there is no place for another."""
    if not upper.is_new:
        return stub.point == upper.name
    along, on_mast = upper.typed.get("along", ""), upper.typed.get("mast", "")
    near = along != "" and stub.along is not None and abs(float(along) - stub.along) < NEAR
    return near and (not on_mast or stub.mast == on_mast)


def _look_at(new: NewStay, end: str, side: str, offered: Offered) -> None:
    """Refuse a new point whose name is there already, and one that is picked but lacks on this side."""
    point, named = new.points[end], new.point(end, side)
    if point.is_new and named in offered.points:
        raise Refusal(f"Points has a point of the name {named} already. Pick it, or type another name.")
    if not point.is_new and named not in offered.points:
        raise Refusal(
            f"{point.name} is picked, but there is no point {named} for the other side. Add that point first, or"
            " add the sides one by one."
        )


def _point(end: str, kind: Kind, mast: str, typed: Typed, offered: Offered) -> Point:
    """A point that was picked, or a new one with all that it needs; a tip that stands abeam is no way aft."""
    if typed[end] != NEW:
        return Point(typed[end])
    name = typed[f"{end}_name"]
    if not name:
        raise Refusal(f"The {end} point is new: type a name for it.")
    told = [key for key, _ in offered.asked(end, kind) if key != AFT or typed[f"{end}_{key}"]]
    cells = {key: _number("points", key, typed[f"{end}_{key}"], f"{name}: ") for key in told}
    return Point(name, {**cells, **({"mast": mast} if ALONG in cells and mast else {})})


def _number(table: str, key: str, text: str, of: str = "") -> str:
    return number(f"{table}_{key}", text, "kN" if key in TENSIONS else "mm", of)
