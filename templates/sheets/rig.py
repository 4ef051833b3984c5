"""Rig: the boat drawn to scale from its survey, what each stay and stub comes to, and what to do next.

Everything is worked out from the other tables by the place of a row, so that sorting, inserting and renaming there
change nothing here. What is drawn stands on the left, what is listed on the right, what both need on hidden columns.
"""

from collections.abc import Iterable
from dataclasses import replace
from textwrap import wrap

from loftsheet.cautions import CAUTIONS

from templates.choices import NOTED, UNPROVEN
from templates.schedule import Board, Column, Listing, Sheet
from templates.sheets import rig_drawing as drawing
from templates.sheets import rig_open
from templates.sheets.rig_cells import (
    ITEMS,
    LETTERS,
    LETTERS_ACROSS,
    MASTS,
    POINTS,
    SHORTENED,
    STAYS,
    STAYS_LISTED,
    STUBS,
    STUBS_LISTED,
    WIRES,
    clipped,
    shown,
)
from templates.sheets.rig_open import OPEN
from templates.sheets.stays import STAYS_WIRE

LISTED_AT, HIDDEN_AT = 1, 13  # columns
FIRST_ROW = 4


def listed(at: str, column: str) -> str:
    """Formula: what the nth row of a table holds; a dash where that is an error."""
    return f'IF([nth]="";"";IFERROR(INDEX({column};INDEX({at};[nth]));"–"))'


def name_of(at: str, column: str) -> str:
    """Formula: the name of the nth row, as much of it as there is room for."""
    return f'IF([nth]="";"";IFERROR({SHORTENED.format(f"INDEX({column};INDEX({at};[nth]))")};"–"))'




def in_words(state: str, rests: str) -> str:
    """Formula: how the nth row stands, and whether what it rests on has no certificate."""
    noted = f'IF(IFERROR({rests};"")="";"{NOTED}";"{UNPROVEN}")'
    return f'IF([nth]="";"";IF({state}="ok";"OK";IF({state}="note";{noted};IF({state}="weigh";"to consider";{state}))))'


WIRE = f'IF([nth]="";FALSE();INDEX(stays_made_of;INDEX(drawn_stay_at;[nth]))="{STAYS_WIRE}")'
ROPE_OR_WIRE = f'IF({WIRE};INDEX(stays_made_of;INDEX(drawn_stay_at;[nth]));{listed("drawn_stay_at", "stays_rope")})'
STAY_LIST = (
    shown("name", "Stay", "", name_of("drawn_stay_at", "stays_name"), 42),
    shown("state", "State", "", in_words("INDEX(drawn_stay_state;[nth])", "INDEX(stays_rests;INDEX(drawn_stay_at;[nth]))"), 20),
    shown("rope", "Rope", "", ROPE_OR_WIRE, 37),
    shown("cut", "Cut", "mm", listed("drawn_stay_at", "stays_cut"), 12, "0"),
    shown("span", "Throat to throat", "mm", listed("drawn_stay_at", "stays_span"), 15, "0"),
    shown("margin", "Safety factor", "", listed("drawn_stay_at", "stays_margin"), 13, "0.00"),
    shown("weakest", "Weakest link", "", listed("drawn_stay_at", "stays_weakest"), 18),
    shown("spare", "Spare", "", listed("drawn_stay_at", "stays_spare"), 11, "0 %"),
    shown("gap", "Gap", "mm", listed("drawn_stay_at", "stays_take_up_left"), 11, "0"),
    shown("pretension", "Pre-tension", "kN", listed("drawn_stay_at", "stays_pretension"), 13, "0.0"),
)
STUB_LIST = (
    shown("name", "Stub", "", name_of("drawn_stub_at", "tangs_name"), 0),
    shown("state", "State", "", in_words("INDEX(tangs_state;INDEX(drawn_stub_at;[nth]))", "INDEX(tangs_rests;INDEX(drawn_stub_at;[nth]))"), 0),
    shown("rod", "Rod", "", listed("drawn_stub_at", "tangs_rod"), 0),
    shown("bevel", "Bevel", "°", listed("drawn_stub_at", "tangs_bevel"), 0, "0.0"),
    shown("top", "Short side", "mm", listed("drawn_stub_at", "tangs_top"), 0, "0.0"),
    shown("base", "Long side", "mm", listed("drawn_stub_at", "tangs_base"), 0, "0.0"),
    shown("bolt", "Bolt", "", listed("drawn_stub_at", "tangs_bolt"), 0),
    shown("spare", "Spare", "", listed("drawn_stub_at", "tangs_bolt_spare"), 0, "0 %"),
    shown("hole", "Hole down", "mm", listed("drawn_stub_at", "tangs_hole"), 0, "0.0"),
    shown("drill", "Drill", "mm", listed("drawn_stub_at", "tangs_bolt_hole"), 0, "0.0"),
)

CAUTION = wrap(" ".join(CAUTIONS), LETTERS_ACROSS)

# Rows of the sheet, from 0.
STAY_HEAD = FIRST_ROW + 1
STUB_HEAD = STAY_HEAD + STAYS_LISTED + 2
OPEN_HEAD = STUB_HEAD + STUBS_LISTED + 1
CAUTION_HEAD = OPEN_HEAD + OPEN + 5
LAST = CAUTION_HEAD + len(CAUTION) - 1
MORE_HEAD = LAST + 3
MORE_STUBS = MORE_HEAD + STAYS - STAYS_LISTED + 3
MORE_LAST = MORE_STUBS + STUBS - STUBS_LISTED


def hidden(key: str, columns: "tuple[Column, ...]", rows: int, each: "Iterable[dict[str, str]]" = ()) -> Listing:
    return Listing(key, columns, rows, 0, FIRST_ROW, hidden=True, each=tuple(each))


BEHIND = (
    hidden("rig", drawing.SCALE, 1),
    hidden("drawn_stay", drawing.STAY, STAYS),
    hidden("drawn_stub", drawing.STUB, STUBS),
    hidden("drawn_mast", drawing.MAST, MASTS),
    hidden("drawn_point", drawing.POINT, POINTS),
    hidden("drawn_run", drawing.RUN, drawing.RUNS),
    hidden("drawn_line", drawing.LINES, drawing.RUNS * drawing.PER_RUN),
    hidden("drawn_tip", drawing.TIP, drawing.SPREADERS),
    hidden("drawn_spreader", drawing.BARS_OF_TIPS, 6 * drawing.SPREADERS),
    hidden("drawn_axis", drawing.MAST_LINES, 6 * MASTS),
    hidden("drawn_dot", drawing.DOTS, 3 * POINTS),
    hidden("drawn_deck", drawing.DECK, STAYS),
    hidden("drawn_across", drawing.DECK_AHEAD, 2),
    hidden("drawn_name", drawing.NAMES, 2 * sum(drawing.SLOTS.values()), drawing.slots()),
    hidden("drawn_word", drawing.WRITTEN, len(drawing.WORDS), drawing.WORDS),
    hidden("drawn_spare", drawing.SPARE, STAYS_LISTED),
    hidden("drawn_bar", drawing.BARS, 3 * STAYS_LISTED),
    hidden("drawn_enough", drawing.ENOUGH, 3),
    hidden("drawn_item", rig_open.ITEM, ITEMS),
    hidden("drawn_wire", rig_open.WIRE, WIRES),
    hidden("led", rig_open.LED, len(tuple(rig_open.led())), rig_open.led()),
    hidden("case_step", rig_open.CASES, len(tuple(rig_open.cases())), rig_open.cases()),
)


def side_by_side(listings: "tuple[Listing, ...]") -> "Iterable[Listing]":
    at = HIDDEN_AT
    for one in listings:
        yield replace(one, left=at)
        at += len(one.laid_out)


def heading(count: str, listed: int, at_most: int, title: str, where: str) -> str:
    """Formula: the title of a list, and how many are not in it."""
    return (
        f'=IF({count}<={listed};"{title}";"{title}: {listed} of "&{count}&", "&IF({count}<={at_most};"the others below";'
        f'"{at_most - listed} more below, the others on {where}"))'
    )


def visible(key: str, columns: "tuple[Column, ...]", rows: int, top: int, start: int, count: str) -> Listing:
    return Listing(key, columns, rows, LISTED_AT, top, start=start, count=count)


SHEET = Sheet(
    "Rig",
    "",
    board=Board(
        listings=(
            visible("rig_stay", STAY_LIST, STAYS_LISTED, STAY_HEAD, 1, "rig_stays"),
            visible("rig_stub", STUB_LIST, STUBS_LISTED, STUB_HEAD, 1, "rig_stubs"),
            visible("rig_more", STAY_LIST, STAYS - STAYS_LISTED, MORE_HEAD, STAYS_LISTED + 1, "rig_stays"),
            visible("rig_further", STUB_LIST, STUBS - STUBS_LISTED, MORE_STUBS, STUBS_LISTED + 1, "rig_stubs"),
            *side_by_side(BEHIND),
        ),
        cells=(
            *((0, 2 + at, f"={line}", "next") for at, line in enumerate(rig_open.NEXT_LINES)),
            (LISTED_AT + 1, STAY_HEAD - 1, heading("rig_stays", STAYS_LISTED, STAYS, "Stays", "Stays"), "block"),
            (LISTED_AT + 1, STUB_HEAD - 1, heading("rig_stubs", STUBS_LISTED, STUBS, "Stubs", "Stubs"), "block"),
            (LISTED_AT + 1, OPEN_HEAD, rig_open.COUNTS, "block"),
            *((LISTED_AT + 1, OPEN_HEAD + at, f'=IF(COUNT(case_step_key)<{at};"";{clipped(rig_open.case(at), LETTERS)})', "note") for at in range(1, OPEN + 1)),
            (LISTED_AT + 1, OPEN_HEAD + OPEN + 1, f"={rig_open.RESTS_LINES[0]}", "note"),
            (LISTED_AT + 1, OPEN_HEAD + OPEN + 2, f"={rig_open.RESTS_LINES[1]}", "note"),
            (LISTED_AT + 1, OPEN_HEAD + OPEN + 3, f"={rig_open.LOOSENED}", "note"),
            (LISTED_AT + 1, OPEN_HEAD + OPEN + 4, f"={rig_open.NOT_DONE}", "note"),
            *((0, CAUTION_HEAD + at, line, "note") for at, line in enumerate(CAUTION)),
            (0, MORE_HEAD - 1, f'=IF(OR(rig_stays>{STAYS_LISTED};rig_stubs>{STUBS_LISTED});boat_name&", revision "&boat_revision;"")', "note"),
            (LISTED_AT + 1, MORE_HEAD - 1, f'=IF(rig_stays>{STAYS_LISTED};"Stays, continued";"")', "block"),
            (LISTED_AT + 1, MORE_STUBS - 1, f'=IF(rig_stubs>{STUBS_LISTED};"Stubs, continued";"")', "block"),
        ),
        pages=((0, LAST), (MORE_HEAD - 1, MORE_LAST)),
    ),
    widths=(drawing.PLOT, 5, *(column.width for column in STAY_LIST)),
)
