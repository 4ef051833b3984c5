"""Random texts as measures of every kind: a finite number, or refused with a word; none takes long or stops it."""

import math

import pytest
from loftsheet import measure
from loftsheet.errors import BadInput

from tests.office.dice import WILD_TEXTS, throw

KINDS = [kind for kind in vars(measure).values() if isinstance(kind, measure.Dimension)]
TEXTS = [pytest.param(5_000, id="some"), pytest.param(200_000, id="many", marks=pytest.mark.long)]
# Long runs of what the patterns repeat, with something at the end that fits none of them.
STUBBORN = [
    "1" * 59 + "!",
    "1 " * 29 + "!",
    "1," * 29,
    "1/" * 29,
    "- " * 29,
    "9" * 60,
    "½" * 59,
    " " * 100_000 + "x",
]


@pytest.fixture
def dice(request):
    return throw(request.config)


def read(text, kind):
    """What a text gives, None when it is refused."""
    try:
        found = measure.number(text, kind)
    except BadInput as refused:
        assert 10 < len(str(refused)) < 1_000, text[:100]
        return None
    assert type(found) is float and math.isfinite(found), text[:100]
    return found


@pytest.mark.parametrize("count", TEXTS)
def test_random_texts(dice, count):
    taken = 0
    for _ in range(count):
        kind = dice.choice(KINDS)
        number, unit = dice.text()[:6], dice.choice([*kind.units, "", "mm"])
        text = dice.choice(
            [dice.text(), f"{dice.uniform(-9, 9):.3g} {unit}", f"{number}{unit}", dice.choice(WILD_TEXTS)]
        )
        taken += read(text, kind) is not None
    assert count / 20 < taken < count / 2


@pytest.mark.parametrize("text", STUBBORN, ids=lambda text: f"{text[:4]} {len(text)} long")
def test_stubborn_texts(text):
    assert [kind.name for kind in KINDS if read(text, kind) is not None] == []
