"""Makes a machine ready: LibreOffice, and a virtual environment whose Python can talk to it.

Runs before anything is installed, so it needs the standard library only.
"""

import hashlib
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Optional

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
PYTHON = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
NOTE = VENV / "set-up"
DEBIAN = (
    "libreoffice-calc",
    "libreoffice-draw",
    "python3-uno",
    "python3-venv",
    "fonts-dejavu-core",
    "fonts-liberation",
    "poppler-utils",
)
DEBIAN_VENV = ("python3-venv",)
FLOOR = (3, 9)  # of Python
OFFICE_FLOOR = (7, 4)
OTHER_SYSTEMS = f"""\
This machine has no apt, so please install by hand, then run this again:
  - LibreOffice {OFFICE_FLOOR[0]}.{OFFICE_FLOOR[1]} or newer with Calc and Draw, its `soffice` on the PATH;
  - a Python {FLOOR[0]}.{FLOOR[1]} or newer that can `import uno` (a package named python3-uno or similar),
    with `venv` and `pip`, found as python3 on the PATH or at /usr/bin/python3."""
MINUTES = 60  # seconds


def say(text: str) -> None:
    print(text, flush=True)


def prepare(script: Path, needs_office: bool = True, office_may_lack: bool = False) -> None:
    """Make the machine ready and go on under the right interpreter; returns when this is that interpreter."""
    try:
        _packages(DEBIAN if needs_office else DEBIAN_VENV)
        if needs_office and not (_is_new_enough(_soffice()) and _interpreter_with_uno()):
            _office_lacks(office_may_lack)
        _environment(_interpreter_with_uno() or sys.executable)
    except (subprocess.CalledProcessError, subprocess.TimeoutExpired) as failed:
        sys.exit(f"Set-up stopped, for the reason above, at: {' '.join(failed.cmd)}")
    if Path(sys.prefix).resolve() != VENV.resolve():
        os.execv(str(PYTHON), [str(PYTHON), str(script), *sys.argv[1:]])


def _office_lacks(may_lack: bool) -> None:
    if not shutil.which("apt-get"):
        say(OTHER_SYSTEMS)
    if not may_lack:
        least = ".".join(map(str, OFFICE_FLOOR))
        sys.exit(f"LibreOffice {least} or newer with its Python bridge (uno) is needed and could not be had.")


def _packages(wanted: "tuple[str, ...]") -> None:
    """Install what Debian and Ubuntu have under these names, if this user may."""
    missing = [package for package in wanted if not _has_package(package)] if shutil.which("apt-get") else []
    if not missing:
        return
    become_root = [] if os.geteuid() == 0 else ["sudo", "-n"]
    if become_root and not _runs_well(*become_root, "true"):
        say(f"Set-up: some packages are missing; please run: sudo apt-get install {' '.join(missing)}")
        return
    say(f"Set-up: installing {', '.join(missing)} with apt-get (some minutes) …")
    apt = [*become_root, "env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "-qq", "-o", "Acquire::Retries=3"]
    for step in (["update"], ["install", "--yes", "--no-install-recommends", *missing]):
        subprocess.run([*apt, *step], check=True, stdout=subprocess.DEVNULL, timeout=30 * MINUTES)


def _has_package(package: str) -> bool:
    command = ["dpkg-query", "--show", "--showformat=${db:Status-Status}", package]
    return subprocess.run(command, capture_output=True, check=False).stdout == b"installed"


def _soffice() -> "Optional[str]":
    return shutil.which("soffice") or shutil.which("libreoffice")


def _is_new_enough(soffice: "Optional[str]") -> bool:
    """Whether there is an office, and it does not say that it is too old."""
    if not soffice:
        return False
    said = subprocess.run([soffice, "--version"], capture_output=True, text=True, check=False, timeout=MINUTES)
    version = re.search(r"LibreOffice (\d+)\.(\d+)", said.stdout)
    return not version or tuple(map(int, version.groups())) >= OFFICE_FLOOR


def _interpreter_with_uno() -> "Optional[str]":
    """Return a Python that can talk to the office; the first on the PATH often cannot."""
    candidates = [str(PYTHON), sys.executable, shutil.which("python3"), "/usr/bin/python3"]
    return next((one for one in candidates if one and _runs(one, "import uno")), None)


def _runs(python: str, code: str) -> bool:
    return _runs_well(python, "-c", f"import sys; assert sys.version_info >= {FLOOR}; {code}")


def _runs_well(*command: str) -> bool:
    try:
        return not subprocess.run(command, capture_output=True, check=False, timeout=MINUTES).returncode
    except (OSError, subprocess.TimeoutExpired):
        return False


def _environment(base: str) -> None:
    """Make the virtual environment, and install the pinned packages when the pins have changed."""
    if not _runs(str(PYTHON), "import pip") or (
        _runs(base, "import uno") and not _runs(str(PYTHON), "import uno")
    ):
        if not _runs(base, "import venv, ensurepip"):
            sys.exit(
                f"{base} cannot make a virtual environment: it must be {FLOOR[0]}.{FLOOR[1]} or newer, "
                "with venv and ensurepip (on Debian and Ubuntu the package python3-venv)."
            )
        say(f"Set-up: making a virtual environment in {VENV.name} from {base} …")
        command = [base, "-m", "venv", "--clear", "--system-site-packages", str(VENV)]
        subprocess.run(command, check=True, timeout=10 * MINUTES)
    pins = hashlib.sha256((ROOT / "pyproject.toml").read_bytes()).hexdigest()
    if NOTE.exists() and NOTE.read_text() == pins:
        return
    say("Set-up: installing the pinned Python packages …")
    # Dependency groups are known to pip from 25.1 on; Debian's is older.
    _pip("install", "--upgrade", "pip>=25.1")
    _pip("install", "--group", "vendored", "--group", "test")
    NOTE.write_text(pins)


def _pip(*words: str) -> None:
    command = [str(PYTHON), "-m", "pip", "--quiet", "--disable-pip-version-check", *words]
    subprocess.run(command, cwd=ROOT, check=True, timeout=30 * MINUTES)
