"""A random walk of edits: a wrong number with OK beside it fails, and the seed does the same walk again."""

import pytest

from tests import inside
from tests.conftest import office_class
from tests.office.dice import Dice, seed_of
from tests.office.walk import Walk

pytestmark = pytest.mark.office

# From a schedule that was taken apart little is left to go wrong, so each walk begins with a fresh one.
STEPS_OF_A_WALK = 10
AT_MOST = 1500  # seconds for the walks of one office


def walked(office, demo_file, folder, first_seed, walks):
    """Walk so many times, each with a seed of its own; the edits before what is wrong are in the message."""
    for seed in range(first_seed, first_seed + walks):
        walk, said = Walk(office, demo_file, folder, Dice(seed)), []
        for _ in range(STEPS_OF_A_WALK):
            said.append(walk.step())
            wrong = walk.wrong()
            assert wrong == [], "\n".join([f"--seed {seed} after:", *said, "wrong:", *wrong])
        walk.close()


def test_a_short_walk(office, demo_file, tmp_path, request):
    walked(office, demo_file, tmp_path, seed_of(request.config), 1)


@pytest.mark.long
@pytest.mark.parametrize("part", range(5))
def test_two_thousand_steps(extension_file, demo_file, tmp_path, request, part):
    beside = inside.pack(tmp_path / "inside.oxt")
    with office_class()(tmp_path / "profile", extension_file, beside=[beside]) as office, office.at_most(AT_MOST):
        walked(office, demo_file, tmp_path, seed_of(request.config) + 40 * part, 40)
