"""What the check of a row found: each complaint with its severity, its rule's id and the column it is about.

A schedule keeps it beside the check: ⟦danger tangs.flip hole⟧danger: may flip over …; ⟦weigh tangs.steep bevel⟧…
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

FIX, WAITS, DANGER, WEIGH, NOTE = SEVERITIES = ("fix", "waits", "danger", "weigh", "note")  # the worst first
URGENT = (FIX, DANGER)  # nothing is ordered from such a row
OK, OK_BUT = "OK", "OK, but "
FOUND, STATE = "found", "state"
CODE = r"⟦(?P<severity>\w+) (?P<id>[\w.]+)(?: (?P<about>[\w.]+))?⟧"
COMPLAINT = re.compile(CODE + r"(?P<words>.*?)(?=; ⟦|$)", re.DOTALL)


@dataclass(frozen=True)
class Complaint:
    """One thing that a check says."""

    severity: str
    id: str
    about: str
    words: str


def complaints(found: str) -> "Iterator[Complaint]":
    """Take apart what stands in a cell of the column `found`."""
    for one in COMPLAINT.finditer(found):
        yield Complaint(one["severity"], one["id"], one["about"] or "", one["words"])


def in_full(check: str, found: str) -> str:
    """All that a check says, of which its cell shows the first."""
    said = list(complaints(found))
    words = "; ".join(one.words for one in said)
    return f"{OK_BUT if all(one.severity == NOTE for one in said) else ''}{words}" if said else check
