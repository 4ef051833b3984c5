"""What is open on Rig: the first faults in the order of the work, what rests on no certificate, and the next step."""

from collections.abc import Iterable

from templates.checks import BEGINS, CODE, LINE_ENDS, REST
from templates.choices import NO_STATUS, NOTHING, WORKED_OUT
from templates.schedule import CERTIFICATE, MEASURED, STANDARD, STATUSES, Column, Table
from templates.sheets import balance, boat, chainplates, library, log, masts, order, points, stays, tangs
from templates.sheets.rig_cells import (
    LETTERS,
    LETTERS_OF_NEXT,
    SEVERITY,
    STAYS,
    STUBS,
    cell,
    clipped,
    in_two_lines,
)

OPEN = 5  # lines
STEP, WORTH = 100000, 10000000  # what a table and a severity count in the number by which what is open is sorted


def complaint(table: str, key: str, order: int) -> "tuple[Column, ...]":
    """The first that a row's check says, by its code, and the row's place among what is open unless it was said before.

    A row that only follows from a fault elsewhere comes after all others, so that the cause is named first.
    """
    place = f'IF(ISNUMBER(FIND(".{BEGINS} ";[says]));{FOLLOWS};{order})'
    return (
        cell("says", f'IF([at]="";"";IFERROR(REGEX(INDEX({table}_found;[at]);"^⟦([^⟧]*)⟧{REST}";"$1");""))', ""),
        cell("severity", f'IF([at]="";9;{SEVERITY.format(f"INDEX({table}_state;[at])")})', "0"),
        cell("open", f'IF([severity]=9;"";IF(SUMPRODUCT(({key}_nth<[nth])*({key}_says=[says]))>0;"";[severity]*{WORTH}+{place}*{STEP}+[at]))', "0"),
        cell("also", f'IF([open]="";0;SUMPRODUCT(({key}_says=[says])*1)-1)', "0"),
    )


FOLLOWS = 60  # the place of what follows from a fault elsewhere
# What is open: by table in the order of the work, the worst first; a number that sorts them, and the words.
STARTS = (
    ("Boat", "0", 'boat_name=""', "boat_name", "type the boat's name"),
    ("Masts", "2", "rig_masts=0", "INDEX(masts_name;1)", "type the mast's name, then the row"),
    ("Points", "4", "rig_points=0", "INDEX(points_name;1)", "type the survey's first point, then all others; or take Add a Stay in the menu Rigging, which asks for all that a stay needs"),
    ("Stays", "6", "rig_stays=0", "INDEX(stays_name;1)", "type the first stay's name, then its row; or take Add a Stay in the menu Rigging"),
)
TABLES = (
    ("boat", "Boat", 1, 3),
    ("masts", "Masts", 3, 1),
    ("points", "Points", 5, 2),
    ("tangs", "Stubs", 7, OPEN),  # before the stay, which says only that it is its stub
    ("stays", "Stays", 8, OPEN),
    *((table, title.partition(",")[0], 10 + at, 1) for at, (table, title) in enumerate(boat.TABLES.items()) if table not in ("masts", "points", "stays", "tangs")),
)
BY_STATE = SEVERITY.format("TABLE_state")
KEYED = f"SUMPRODUCT(SMALL({BY_STATE}*{WORTH}+ORDER+ROW(TABLE_state)-ROW(INDEX(TABLE_state;1))+1;COUNT))"
ABOUT = f'REGEX(INDEX(TABLE_found;[at]);"^⟦[^ ]* [^ ]* ?([^ ⟧]*)⟧{REST}";"$1")'
FIRST_WORDS = f'REGEX(INDEX(TABLE_found;[at]);"^{CODE}([^⟦]*?)(; ⟦{REST})?$";"$1")'
# Of each cell that a row's check may lead to: whose it is, its column, its row if it stands alone, and its fold.
SHEETS = (masts.SHEET, points.SHEET, stays.SHEET, tangs.SHEET, chainplates.SHEET, balance.SHEET, order.SHEET, library.LIBRARY, log.SHEET)
TABLES_LED = tuple(table for sheet in SHEETS for table in sheet.tables)
OWNERS = {table.key: (sheet.title, table) for sheet in SHEETS for table in sheet.tables}
LED = (
    cell("key", '"KEY"', ""),
    cell("column", "COLUMN(NAME)", "0"),
    cell("row", "ROWS_OF", "0"),
    cell("fold", '"FOLD"', ""),
    cell("sheet", '"SHEET"', ""),
)


def led() -> "Iterable[dict[str, str]]":
    for table in TABLES_LED:
        folds = folds_of(table)
        for column in table.columns[2:]:
            if not column.calculated:
                name = f"{table.key}_{column.key}"
                yield {"KEY": f"{table.key}.{column.key}", "NAME": name, "ROWS_OF": "0", "FOLD": folds.get(column.key, ""), "SHEET": ""}
    abouts = {rule.about for table in TABLES_LED for rule in table.rules}
    for about in sorted(one for one in abouts if one.startswith("boat_")):
        yield {"KEY": about, "NAME": "boat_name", "ROWS_OF": f"ROW({about})", "FOLD": "", "SHEET": "Boat"}
    for name in sorted({name for table in TABLES_LED for _, name in picks(table)}):
        owner, _, key = name.partition("_")
        sheet, there = OWNERS[owner]
        yield {"KEY": name, "NAME": name, "ROWS_OF": "0", "FOLD": folds_of(there).get(key, ""), "SHEET": sheet}


def picks(table: Table) -> "Iterable[tuple[Column, str]]":
    """Where the rules of a table lead on other sheets: the column that names the row there, and the named range."""
    for about in dict.fromkeys(rule.about for rule in table.rules if "." in rule.about):
        yield table.elsewhere(about)


def row_led(table: Table) -> str:
    """Formula: the row of the cell to which a complaint leads: of the row itself, or of the one that it names elsewhere."""
    row = f"ROW(INDEX({table.key}_check;[at]))"
    for column in {column.key: column for column, _ in picks(table)}.values():
        names, picked = column.choices, f"INDEX({table.key}_{column.key};[at])"
        there = f"ROW(INDEX({names};MATCH({picked};{names};0)))"
        row = f'IF(LEFT([about];{len(column.key) + 1})="{column.key}.";{there};{row})'
    return row


def folds_of(table: Table) -> "dict[str, str]":
    """The inputs of a table that stand in a folded block, each with the head under which they are unfolded."""
    blocks = [(title, columns) for title, columns in table.blocks() if table.is_folded(title)]
    return {table.laid_out[at].key: f"under {title}" for title, columns in blocks for at in columns}


LISTINGS = {"stays": ("drawn_stay", "rig_stays", STAYS), "tangs": ("drawn_stub", "rig_stubs", STUBS)}

ALONE = {"ABOUT": '""', "TABLE": "", "AT_ROW": "0", "NAME": '": "'}  # of a cell that is not a row's


def cases() -> "Iterable[dict[str, str]]":
    for title, at_step, when, where, words in STARTS:
        key = f'IF({when};{WORTH + int(at_step) * STEP};"")'
        yield {"KEY": key, "PLACE": f"ADDRESS(ROW({where});COLUMN({where});4)", **ALONE, "WORDS": f'"{words}"', "TITLE": title}
    yield {
        "KEY": f'IF(IFERROR(boat_outside="{NOTHING}";FALSE());"";{WORTH + 90 * STEP})',
        "PLACE": "ADDRESS(ROW(boat_outside);COLUMN(boat_outside);4)",
        **ALONE,
        "WORDS": "boat_outside",
        "TITLE": "Boat",
    }
    for table, title, place, count in TABLES:
        for at in range(1, count + 1):
            keyed = KEYED.replace("TABLE", table).replace("ORDER", str(place * STEP)).replace("COUNT", str(at))
            name = f'IF(INDEX({table}_name;[at])="";"";", "&INDEX({table}_name;[at]))'
            if table == "boat":
                name = f'IF([key]<{2 * WORTH};"";", "&INDEX(boat_title;[at]))&": "'
            elif table in LISTINGS:
                listing, rows, most = LISTINGS[table]
                keyed = f'IF({rows}<={most};IFERROR(SMALL({listing}_open;{at});{9 * WORTH});{keyed})'
                also = f"IFERROR(INDEX({listing}_also;MATCH([at];{listing}_at;0));0)"
                name += f'&IF({also}>0;" and "&{also}&" more: ";": ")'
            else:
                name += '&": "'
            yield {
                "KEY": f'IFERROR(IF({keyed}<{9 * WORTH};{keyed};"");"")',
                "PLACE": f"ADDRESS(ROW(INDEX({table}_check;[at]));COLUMN({'boat_name' if table == 'boat' else f'{table}_check'});4)",
                "ABOUT": ABOUT.replace("TABLE", table),
                "WORDS": FIRST_WORDS.replace("TABLE", table),
                "TABLE": table,
                "AT_ROW": "0" if table == "boat" else row_led(OWNERS[table][1]),
                "TITLE": title,
                "NAME": name,
            }


LED_ROW, LED_COLUMN, LED_SHEET = "INDEX(led_row;[led])", "INDEX(led_column;[led])", "INDEX(led_sheet;[led])"
CASES = (
    cell("key", "KEY", "0"),
    cell("at", 'IF([key]="";"";MOD([key];100000))', "0"),
    cell("about", 'IF([key]="";"";IFERROR(ABOUT;""))', ""),
    cell("led", 'IF([about]="";0;IFERROR(MATCH("TABLE."&[about];led_key;0);IFERROR(MATCH(REGEX([about];"^.*\\.";"");led_key;0);0)))', "0"),
    cell("row", f'IF([led]=0;"";IF({LED_ROW}>0;{LED_ROW};IFERROR(AT_ROW;"")))', "0"),
    cell("place", f'IF([key]="";"";IF([row]="";"TITLE "&PLACE;IF({LED_SHEET}="";"TITLE";{LED_SHEET})&" "&ADDRESS([row];{LED_COLUMN};4)&IF(INDEX(led_fold;[led])="";"";" "&INDEX(led_fold;[led]))))', ""),
    cell("said", f'IF([key]="";"";REGEX([place]&NAME&WORDS;"[{LINE_ENDS}]+";" ";"g"))', ""),
)


def case(nth: int) -> str:
    """Formula: the words of the nth of what is open."""
    return f"INDEX(case_step_said;MATCH(SMALL(case_step_key;{nth});case_step_key;0))"


# A slip in the survey that leaves a boat of the same sense is seen only by a second measurement.
BY_POINTS = 'SUMPRODUCT(ISNUMBER(stays_length_points)*(stays_length_own=""))'
TAPE = f'IF({BY_POINTS}=0;"";" Tape the old stays: "&{BY_POINTS}&" of "&rig_stays&" lengths rest on points alone.")'
NEXT = (
    'IF(COUNT(case_step_key)=0;"Next: nothing is open."&'
    f'{TAPE}&" Hold the drawing beside the boat, then draw All Bench Pages and Export for a Supplier in the menu Rigging.";'
    f'IF(MIN(case_step_key)<{3 * WORTH};"Next: ";"Next, to consider: ")&{case(1)})'
)
NEXT_LINES = in_two_lines(NEXT, LETTERS_OF_NEXT, " ")
COUNTS = (
    '=IF(COUNT(case_step_key)=0;"Open: nothing";'
    '"Open, rows: "&boat_mend&" to fix, "&boat_danger&" in danger, "&boat_wrong&" not OK in all. In full: Check the Schedule, in the menu Rigging")'
)

# What rests on no certificate: items of Order that are needed, and wires that stays are compared with.
BY_MAKER, OTHERS = ("rope", "bolt", "ring"), ("rod", "sleeve", "sundry")
STATUS = "".join(f'IF([kind]="{kind}";INDEX({kind}_unproven;MATCH([name];{kind}_name;0));' for kind in BY_MAKER) + "".join(
    f'IF([kind]="{kind}";INDEX({kind}_status;MATCH([name];{kind}_name;0));' for kind in OTHERS
) + '""' + ")" * len(BY_MAKER + OTHERS)
IS_UNPROVEN = ";".join(
    f'[status]="{word}"' for word in (*STATUSES, NO_STATUS) if word not in (CERTIFICATE, STANDARD, MEASURED)
)
ITEM = (
    cell("name", 'IF([nth]>ROWS(order_name);"";IFERROR(IF(N(INDEX(order_needed;[nth]))>0;INDEX(order_name;[nth]);"");""))', ""),
    cell("kind", 'IF([name]="";"";INDEX(order_kind;[nth]))', ""),
    cell("status", f'IF([name]="";"";IFERROR({STATUS};""))', ""),
    cell("said", f'IF(OR({IS_UNPROVEN});[name]&" ("&[status]&")";"")', ""),
)
WIRE = (
    cell("name", 'IF([nth]>ROWS(wire_name);"";IFERROR(IF(INDEX(wire_name;[nth])="";"";IF(SUMPRODUCT((stays_wire=INDEX(wire_name;[nth]))*(stays_name<>""))>0;INDEX(wire_name;[nth]);""));""))', ""),
    cell("said", 'IF([name]="";"";IFERROR(IF(INDEX(wire_unproven;[nth])="";"";[name]&" ("&INDEX(wire_unproven;[nth])&")");""))', ""),
)
RESTS = (
    'IF(TEXTJOIN("";TRUE();drawn_item_said;drawn_wire_said)="";"Figures: all in use rest on certificate, measurement or standard";'
    '"Unproven, no certificate for "&SUMPRODUCT((drawn_item_said<>"")+0)+SUMPRODUCT((drawn_wire_said<>"")+0)&": "&TEXTJOIN(", ";TRUE();drawn_item_said;drawn_wire_said))'
)
RESTS_LINES = in_two_lines(RESTS, LETTERS, ",")

LOOSENED = clipped('"Loosened: "&boat_loosened', LETTERS)
NOT_DRAWN = 'IF(SUMPRODUCT((drawn_stay_missing<>"")*1)=0;"";"Not drawn, for points are missing: "&TEXTJOIN("; ";TRUE();drawn_stay_missing))'
NOT_BALANCED = f'IF(COUNTA(stays_name)=0;"";IF(verdict_words="{WORKED_OUT}";"";"Balance "&verdict_words))'
NO_SAIL_CASE = 'IF(OR(COUNTA(stays_name)=0;boat_waterline<>"");"";"no sail case is worked out: type Waterline, up, on Boat")'
MEASURED_ONCE = f'IF({BY_POINTS}=0;"";{BY_POINTS}&" of "&rig_stays&" lengths rest on points alone: tape the old stays, too")'
NOT_DONE = clipped(f'TEXTJOIN("; ";TRUE();{NOT_DRAWN};{NOT_BALANCED};{NO_SAIL_CASE};{MEASURED_ONCE})', LETTERS)
