"""Each caution stands in one place of the sources, and all of them in the README."""

from pathlib import Path

import pytest
from loftsheet.cautions import CAUTIONS

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize("caution", CAUTIONS, ids=lambda caution: caution.split()[0])
def test_a_caution_is_written_once_and_read_by_all(caution):
    sources = [
        path
        for folder in ("functions", "extension", "templates")
        for path in (ROOT / folder).rglob("*.py")
        if path.name != "cautions.py"
    ]
    assert len(sources) > 40
    assert [path for path in sources if caution[:40] in path.read_text(encoding="utf-8")] == []
    assert caution.rstrip(".") in " ".join((ROOT / "README.md").read_text(encoding="utf-8").split())
