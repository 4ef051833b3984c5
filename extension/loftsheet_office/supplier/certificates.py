"""Which figures of what is ordered rest on no certificate, so that the supplier's file never says they do."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from ..workbook import reading
from ..workbook.reading import Row, Value

# What of an item somebody has to vouch for.
FIGURES = {
    "rope": "breaking load",
    "rod": "crushing strength",
    "bolt": "strength and proof stress",
    "ring": "working load",
}
# What may be left blank, and then nobody has to vouch for it.
MAY_BE_BLANK = {"rod": "crushing"}
CERTIFIED = "certificate"
# Words of the Library's source that take back its status.
DENIALS = ("invented", "from memory", "assumed")
# Words of the Library's source that take back what it says of a certificate: 0.1.0 has no status beside it.
DOUBTS = ("invented", "memory", "assumed", "no source", "replace", "no certificate", "without")
# What Order says of every rope in a schedule of 0.1.0.
CLAIM, NO_CLAIM = "with certificate", "without certificate"


@dataclass(frozen=True)
class Unproven:
    """Figures of items that no certificate stands behind, and where they come from instead."""

    figures: str
    items: "tuple[str, ...]"
    source: str

    def text(self) -> str:
        return f"{self.figures} of {', '.join(self.items)}: {self.source}"


def unproven(book: Any, ordered: "Sequence[Row]") -> "tuple[Unproven, ...]":
    """What of the rows of Order that are to be bought rests on no certificate; items of one source together."""
    wanted = {(row["kind"], row["name"]) for row in ordered if row["quantity"]}
    found: dict[tuple[str, str], list[str]] = {}
    for kind, figures in FIGURES.items():
        figure = MAY_BE_BLANK.get(kind)
        later = ("status", figure) if figure else ("status",)
        for row in reading.rows(book, kind, ("source",), reading.columns_if_there(book, kind, later)):
            if figure and row.get(figure) is None:
                continue
            if (kind, row.get("name")) in wanted and not is_certified(row.values):
                found.setdefault((figures, _source(row)), []).append(str(row["name"]))
    return tuple(Unproven(figures, tuple(items), source) for (figures, source), items in found.items())


def is_certified(row: "Mapping[str, Value]") -> bool:
    """Whether a row of the Library says that its figures are those of a certificate."""
    source = str(row.get("source") or "").lower()
    if "status" in row:
        return row["status"] == CERTIFIED and not any(denial in source for denial in DENIALS)
    return CERTIFIED in source and not any(doubt in source for doubt in DOUBTS)


def _source(row: Row) -> str:
    status, source = (reading.as_text(row.get(key)) for key in ("status", "source"))
    if source.startswith(status):
        status = ""
    return ", ".join(part for part in (status, source) if part) or "no source is given"


def without_claim(exactly: Value) -> Value:
    """What exactly is to be bought, in words that claim no certificate."""
    return exactly.replace(CLAIM, NO_CLAIM) if isinstance(exactly, str) else exactly
