"""Add a Stay: its rows on Points, Stays and Stubs, both sides at once, out of one dialog.

What the kind of stay expects is proposed, and points are picked or typed. Check says of the rows what is missing.
"""

from collections.abc import Iterator
from typing import Any, Optional

from ..common.refusal import Refusal
from ..dialogs.cursor import lead_to
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..dialogs.undo import OneUndo
from ..workbook import new_stay, reading, stay_as_typed
from ..workbook.columns import all_columns
from ..workbook.new_stay import HOLDS, HOLE, SIDES, STUB, WIRE, NewStay
from ..workbook.stay_as_typed import AFT, NEW, NONE, ROPE, Offered, Stub, Typed
from ..workbook.stay_kinds import Kind, all_kinds
from . import fill_rows
from .entries import TITLES

TITLE = TITLES["addstay"]
BACK: Typed = {}
OUTER = "stay_2"  # of a stub
ENDS = {"upper": "Upper", "via": "Tip", "via_2": "Lower tip", "lower": "Lower"}
FROM_WHERE = "Fore and up are from the datum of Points, aft of it and below it negative."
FROM_THE_MAST = (
    " Aft of the mast's middle is half its section on its aft face, as much with a minus on its fore face, and at"
    " the tip of a spreader its sweep."
)
LABELS = {
    "upper": "~Upper point, on the mast",
    "via": "~Via, spreader tip",
    "via_2": "Via ~2, tip of a lower spreader",
    "lower": "~Lower point",
}


def run(desk: Desk) -> None:
    desk.must_be_writable()
    offered = offers(desk.document)
    picked = ask_kind(desk, offered)
    typed: Typed = {}
    while picked is not None:
        kind, mast = picked
        answers = ask_stay(desk, kind, offered, typed or stay_as_typed.proposed(kind, mast, offered))
        if answers is None:
            return
        if answers == BACK:
            picked, typed = ask_kind(desk, offered, picked), {}
            continue
        typed = answers
        try:
            made = stay_as_typed.made_of(kind, mast, typed, offered)
            new, shared = stay_as_typed.lies_with(made, offered)
        except Refusal as refusal:
            desk.say(TITLE, str(refusal), warning=True)  # and once more, with what was typed
            continue
        if not shared or desk.agrees(TITLE, words_of_shared(new, shared)):
            return add(desk, new, shared, offered)


def add(desk: Desk, new: NewStay, shared: "dict[str, str]", offered: Offered) -> None:
    """Fill the rows; of a stay that shares the stub of another, by side, that of the stub."""
    with OneUndo(desk.document, TITLE):
        wanted = new_stay.rows(new, offered.has_defaults, offered.has_plates, shares_a_stub=bool(shared))
        first = fill_rows.fill(desk.document, wanted)
        for side, stub in shared.items():
            fill_rows.change(desk.document, "tangs", stub, {OUTER: new.called(new.name, side)})
    lead_to(desk, first["stays"])


def words_of_shared(new: NewStay, shared: "dict[str, str]") -> str:
    point = new.points["upper"].name
    return (
        f"{point} has a bolt already, with {' and '.join(shared.values())}, and one bolt takes one stub on each"
        f" side of the mast. Shall the eye of {new.name} lie on the same stub, outside the eye that is there?\n\n"
        "No leads back, to pick another point or type a new one."
    )


def offers(book: Any) -> Offered:
    """What the schedule has to pick from; earlier releases have no masts."""

    def names(table: str) -> "tuple[str, ...]":
        there = book.NamedRanges.hasByName(f"{table}_name")
        return tuple(name for name in reading.texts(book, f"{table}_name") if name) if there else ()

    masts, sections = {}, {}
    if names("masts"):
        for row in reading.rows(book, "masts", ("width", "section")):
            width, section = (
                one if isinstance(one, float) else 0.0 for one in (row.get("width"), row.get("section"))
            )
            masts[str(row.get("name"))], sections[str(row.get("name"))] = width, section
    has = book.NamedRanges.hasByName
    return Offered(
        masts,
        names("points"),
        names("stays"),
        names("wire"),
        names("share"),
        names("chainplates"),
        has_defaults=has(f"stays_number{reading.USED}"),
        has_plates=has("chainplates_name"),
        has_wire=has("stays_made_of"),
        sections=sections,
        has_aft=has(f"points_{AFT}"),
        tips=tuple(tip for tip in stay_as_typed.TIPS if has(f"stays_{tip}")),
        on_mast=tuple(on_mast(book)) if has("points_on_mast") else (),
        stubs=tuple(stubs(book)) if has(f"tangs_{OUTER}") else (),
    )


def on_mast(book: Any) -> "Iterator[str]":
    for row in reading.rows(book, "points", ("on_mast",)):
        if row.get("on_mast"):
            yield str(row.get("name"))


def stubs(book: Any) -> "Iterator[Stub]":
    stays = {row.get("name"): row for row in reading.rows(book, "stays", ("upper", "side"))}
    points = {row.get("name"): row for row in reading.rows(book, "points", ("along", "on_mast"))}
    for row in reading.rows(book, "tangs", ("stay", OUTER)):
        stay = stays.get(row.get("stay"))
        if stay:
            point, side = (str(stay.get(key) or "") for key in ("upper", "side"))
            place = points.get(point)
            along = place.get("along") if place else None
            yield Stub(
                str(row.get("name")),
                point,
                side,
                is_full=bool(row.get(OUTER)),
                mast=str(place.get("on_mast") or "") if place else "",
                along=along if isinstance(along, float) else None,
            )


def ask_kind(
    desk: Desk, offered: Offered, before: "Optional[tuple[Kind, str]]" = None
) -> "Optional[tuple[Kind, str]]":
    """The kind of the stay and its mast; None when the user thinks better of it."""
    form = Form(desk, TITLE, width=240)
    form.paragraph("Adds a stay with its points, and its stub if it has one; proposes what is usual for its kind.")
    kinds, masts = all_kinds(), tuple(offered.masts)
    kind_before, mast_before = before or (kinds[0], "")
    kind = form.choice("~Kind", [one.name for one in kinds], kinds.index(kind_before))
    at = masts.index(mast_before) if mast_before in masts else 0
    mast = form.choice("~Mast", masts, at) if len(masts) > 1 else None
    if form.ask("~Next") != "yes":
        return None
    only = masts[0] if masts else ""
    return kinds[kind.SelectedItems[0]], masts[mast.SelectedItems[0]] if mast else only


def ask_stay(desk: Desk, kind: Kind, offered: Offered, held: Typed) -> Optional[Typed]:
    """All that is said of the stay; BACK to another kind, None when the user thinks better of it."""
    form = Form(desk, f"{TITLE}: {kind.name}", width=330)
    made: dict[str, Any] = {}
    made["name"], made["side"] = form.beside(("~Name", held["name"]), ("~Side", first(held["side"], SIDES)))
    asked = {key for end in stay_as_typed.ends(kind, offered) for key, _ in offered.asked(end, kind)}
    form.paragraph(FROM_WHERE + (FROM_THE_MAST if AFT in asked else ""))
    made["stub"] = form.tick("On a s~tub of rod on the mast; else over a ring", bool(held["stub"]))
    for end in stay_as_typed.ends(kind, offered):
        points = (NEW, *((NONE,) if end in offered.tips else ()), *offered.points_for(end))
        named, title = f"{end}_name", ENDS[end]
        picked, called = (LABELS[end], first(held[end], points)), (f"{title}, name if new", held[named])
        made[end], made[named] = form.beside(picked, called)
        fields = [(f"{end}_{key}", f"{title}, {words}, mm") for key, words in offered.asked(end, kind)]
        row = form.beside(*((label, held[key]) for key, label in fields))
        made.update({key: control for (key, _), control in zip(fields, row)})
    for pair in of_the_stay(kind, held, offered):
        row = form.beside(*((label, value) for _, label, value in pair))
        made.update({key: control for (key, _, _), control in zip(pair, row)})
    left_by = form.ask("~Add", back=("~Back", None))
    if left_by == "back":
        return BACK
    if left_by != "yes":
        return None
    return {key: read(control) for key, control in made.items()}


def of_the_stay(kind: Kind, held: Typed, offered: Offered) -> "list[list[tuple[str, str, Any]]]":
    """The fields about its load and ends, three by three: key of the column, label and what is in it."""
    wires = first(held["wire"], ("", *offered.wires))
    fields: list[tuple[str, str, Any]] = [("wire", "~Wire, replaced or kept", wires)]
    if kind.shroud:
        fields.append(("share", "S~hare of the load", first(held["share"], ("", *offered.shares))))
    else:
        fields.append(("pretension_own", "~Pretension, kN", held["pretension_own"]))
    fields.append((HOLDS, "~Chainplate holds, kN", held[HOLDS]))
    if offered.has_plates:
        fields.append((HOLE, "Chainplate's h~ole, mm", held[HOLE]))
    if offered.has_wire:
        fields.append(("made_of", "~Made of", first(held["made_of"], (ROPE, WIRE))))
    if not kind.runs:
        runs = ("", *all_columns()["stays_runs"].words)
        fields.append(("runs", "~Runs on it", first(held["runs"], runs)))
    return [fields[at : at + 3] for at in range(0, len(fields), 3)]


def first(one: str, of: "tuple[str, ...]") -> "tuple[str, ...]":
    """The words to pick from, with the one that is picked at first in front."""
    return (one, *(other for other in of if other != one)) if one in of else of


def read(control: Any) -> str:
    """What a field holds: a text, a word that is picked, or whether a box is ticked."""
    if hasattr(control, "StringItemList"):
        return str(control.StringItemList[control.SelectedItems[0]]) if control.SelectedItems else ""
    return str(control.Text).strip() if hasattr(control, "Text") else STUB if control.State else ""
