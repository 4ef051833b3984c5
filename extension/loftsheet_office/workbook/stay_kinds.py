"""Kinds of stay and what each expects, as the workbook declared them when the extension was built."""

import json
from dataclasses import dataclass, fields
from functools import cache
from pathlib import Path

FILE = Path(__file__).with_name("kinds.json")


@dataclass(frozen=True)
class Kind:
    """One kind of stay: what is usual for it; blank where that is a question."""

    name: str
    leads: int  # forward is positive, aft negative
    shroud: bool
    share: str
    over: str
    runs: str
    stub: bool
    pair: bool
    spreader: bool


@cache
def all_kinds() -> "tuple[Kind, ...]":
    keys = [one.name for one in fields(Kind)]
    declared = json.loads(FILE.read_text(encoding="utf-8"))
    return tuple(Kind(**{key: kind[key] for key in keys}) for kind in declared)
