"""Makes a machine ready: LibreOffice, and a virtual environment whose Python can talk to it.

Runs before anything is installed, so it needs the standard library only. A set-up may be cut off at any moment,
and two may be asked for at once: one works at a time, and an environment counts only once its note is there, which
is written last.
"""

import hashlib
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path
from typing import NoReturn, Optional

from extension.alone import alone

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
PYTHON = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
NOTE = VENV / "set-up"
LOCK = ROOT / f"{VENV.name}.lock"
STARTED_ANEW = "LOFTSHEET_STARTED_ANEW"
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
PIP_QUIETLY = ("--quiet", "--disable-pip-version-check")


def say(text: str) -> None:
    """On the error stream, so that what a command prints is its result alone."""
    print(text, file=sys.stderr, flush=True)


def prepare(script: Path, needs_office: bool = True, office_may_lack: bool = False, reason: str = "") -> None:
    """Make the machine ready and go on under the right interpreter; returns when this is that interpreter."""
    if os.environ.pop(STARTED_ANEW, ""):
        if not _is_own(sys.prefix):
            sys.exit(f"Set-up: {PYTHON} does not run as it should; delete {VENV} and run this again.")
        return
    try:
        with alone(LOCK, "Set-up: another one is at work in this folder; waiting until it is done …") as lock:
            # What is started meanwhile holds the lock too, and goes on doing so should this process be killed.
            os.set_inheritable(lock.fileno(), True)
            if reason and not _is_whole(pins()):
                say(f"Set-up: {reason}")
            _packages(DEBIAN if needs_office else DEBIAN_VENV)
            if needs_office and not (_is_new_enough(_soffice()) and _interpreter_with_uno()):
                _office_lacks(office_may_lack)
            made = _environment(_interpreter_with_uno() or _own_base())
    except (subprocess.CalledProcessError, subprocess.TimeoutExpired) as failed:
        sys.exit(f"Set-up stopped, for the reason above, at: {' '.join(failed.cmd)}")
    if made or not _is_own(sys.prefix):
        _start_anew(script)


def _start_anew(script: Path) -> NoReturn:
    """Go on under the environment's own interpreter."""
    command = [str(PYTHON), str(script), *sys.argv[1:]]
    environment = {**os.environ, STARTED_ANEW: "yes"}
    if os.name == "nt":  # there exec comes back at once, without the exit code
        sys.exit(subprocess.run(command, env=environment, check=False).returncode)
    os.execve(command[0], command, environment)


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
    quietly = [*become_root, "env", "DEBIAN_FRONTEND=noninteractive"]
    apt = [*quietly, "apt-get", "-qq", "-o", "Acquire::Retries=3", "-o", "DPkg::Lock::Timeout=600"]
    # An installation that was cut off has to be ended before the next.
    ending = [*quietly, "dpkg", "--configure", "-a"]
    for step in (ending, [*apt, "update"], [*apt, "install", "--yes", "--no-install-recommends", *missing]):
        subprocess.run(step, check=True, stdout=subprocess.DEVNULL, timeout=30 * MINUTES)


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
    """Return a Python outside the environment that can talk to the office; the first on the PATH often cannot."""
    candidates = [_own_base(), shutil.which("python3"), "/usr/bin/python3"]
    outside = f"assert os.path.realpath(sys.prefix) != {os.path.realpath(VENV)!r}; import uno"
    return next((one for one in candidates if one and _runs(one, outside)), None)


def _own_base() -> str:
    """Return the Python that this one's environment was made from, or this one."""
    return str(getattr(sys, "_base_executable", sys.executable))


def _runs(python: str, code: str) -> bool:
    return _runs_well(python, "-c", f"import os, sys; assert sys.version_info >= {FLOOR}; {code}")


def _runs_well(*command: str) -> bool:
    try:
        return not subprocess.run(command, capture_output=True, check=False, timeout=MINUTES).returncode
    except (OSError, subprocess.TimeoutExpired):
        return False


def _is_own(prefix: str) -> bool:
    return os.path.realpath(prefix) == os.path.realpath(VENV)


def _runs_in_environment(code: str) -> bool:
    """Whether the environment's interpreter is its own, and not one beside it that goes by its name."""
    return _runs(str(PYTHON), f"assert os.path.realpath(sys.prefix) == {os.path.realpath(VENV)!r}; {code}")


def _is_whole(pinned: "Optional[str]" = None) -> bool:
    """Whether the environment was once finished, with these packages if they are given, and still runs."""
    if not NOTE.exists() or (pinned and NOTE.read_text(encoding="utf-8") != pinned):
        return False
    return _runs_in_environment("import pip")


def _environment(base: str) -> bool:
    """Make the virtual environment if it is not whole, install what is pinned; say whether anything was done."""
    kept = _is_whole() and (not _runs(base, "import uno") or _runs_in_environment("import uno"))
    if kept and _is_whole(pins()):
        return False
    NOTE.unlink(missing_ok=True)
    if not kept:
        _make(base)
    say("Set-up: installing the pinned Python packages (a minute or more, by the network) …")
    # Dependency groups are known to pip from 25.1 on; Debian's is older.
    _step(str(PYTHON), "-m", "pip", *PIP_QUIETLY, "install", "--upgrade", "pip>=25.1")
    _step(str(PYTHON), "-m", "pip", *PIP_QUIETLY, "install", "--group", "vendored", "--group", "test")
    unfinished = NOTE.with_suffix(".part")
    unfinished.write_text(pins(), encoding="utf-8")
    unfinished.replace(NOTE)
    return True


def _make(base: str) -> None:
    if not _runs(base, "import venv, ensurepip"):
        sys.exit(
            f"{base} cannot make a virtual environment: it must be {FLOOR[0]}.{FLOOR[1]} or newer, "
            "with venv and ensurepip (on Debian and Ubuntu the package python3-venv)."
        )
    say(f"Set-up: making a virtual environment in {VENV.name} from {base} …")
    _step(base, "-m", "venv", "--clear", "--system-site-packages", str(VENV))
    if not _runs_in_environment("import pip"):
        sys.exit(f"Set-up: {VENV} was made and cannot be used; delete it and run this again.")


def _step(*command: str) -> None:
    """Run what changes the environment; where the system can, it holds the lock for as long as it runs."""
    subprocess.run(command, cwd=ROOT, check=True, close_fds=False, timeout=30 * MINUTES)


def pins() -> str:
    """A digest of the packages that are pinned."""
    declared = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    groups = re.search(r"^\[dependency-groups\]$.*?(?=^\[|\Z)", declared, re.M | re.S)
    return hashlib.sha256(groups[0].encode()).hexdigest() if groups else ""
