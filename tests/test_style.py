"""Style and types, as the pinned tools see them."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]


@pytest.mark.parametrize(
    "command", [("ruff", "check", "."), ("ruff", "format", "--check", "."), ("mypy",)], ids=" ".join
)
def test_the_tree_is_clean(command):
    done = subprocess.run([sys.executable, "-m", *command], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
