"""What each column and each named cell of the workbook means, and each kind of stay, as data for the menu.

Derived from the workbook's declaration, so that what Explain This Cell says of a column is what was declared.
"""

import json
from dataclasses import asdict
from typing import Any

PACKED = "pythonpath/loftsheet_office/workbook/columns.json"
KINDS_PACKED = "pythonpath/loftsheet_office/workbook/kinds.json"


def packed() -> bytes:
    return _as_json(columns())


def kinds_packed() -> bytes:
    from templates.sheets import kinds

    return _as_json([asdict(kind) for kind in kinds.KINDS])


def _as_json(data: Any) -> bytes:
    return json.dumps(data, ensure_ascii=False, indent=0).encode()


def columns() -> "dict[str, Any]":
    """By the named range of each: its table, title, unit, help, kind and limits."""
    from templates.sheets import ALL

    found = {}
    for sheet in ALL:
        for table in sheet.tables:
            for column in table.named:
                found[f"{table.key}_{column.key}"] = _column(column, column.help, table.title, table.key)
        for follower in sheet.followers:
            for column in follower.columns:
                found[f"{follower.key}_{column.key}"] = _column(column, column.help, follower.title, follower.key)
        for group in sheet.groups:
            for item in group.items:
                found[f"boat_{item.key}"] = _column(item, item.why, sheet.title)
        if sheet.page:
            for item in sheet.page.items:
                found[f"{sheet.page.key}_{item.key}"] = _column(item, item.why, sheet.title)
    return found


def _column(one: Any, help: str, place: str, table: str = "") -> "dict[str, Any]":
    return {
        "place": place,
        "table": table,
        "title": one.title,
        "unit": one.unit,
        "help": help,
        "kind": _kind(one),
        "listed_in": one.choices if isinstance(one.choices, str) and not one.formula else "",
        "measure": getattr(one, "measure", ""),
        "least": one.least,
        "most": one.most,
        "required": one.required,
        "words": one.choices if isinstance(one.choices, tuple) else (),
    }


def _kind(one: Any) -> str:
    if one.formula:
        return "calculated"
    if one.choices:
        return "choice"
    if one.format.startswith("YYYY"):
        return "date"
    return "number" if one.least is not None else "text"
