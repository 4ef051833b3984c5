"""Other Pythons on this machine, for what has to run on older and newer ones."""

import shutil
import subprocess
from pathlib import Path
from typing import Optional


def find(version: str) -> Optional[str]:
    """A Python of that version, on the PATH or where pyenv puts it; None if there is none."""
    by_pyenv = sorted(Path.home().glob(f".pyenv/versions/{version}.*/bin/python"))
    candidates = [shutil.which(f"python{version}"), *map(str, by_pyenv)]
    return next((one for one in candidates if one and _is(one, version)), None)


def _is(python: str, version: str) -> bool:
    code = "import sys; print('%d.%d' % sys.version_info[:2])"
    done = subprocess.run([python, "-c", code], capture_output=True, text=True, check=False, timeout=60)
    return done.stdout.strip() == version
