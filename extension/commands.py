"""The commands of build.py, run when the machine is ready."""

import hashlib
import os
import re
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

from extension import inside, package, publish, reference, template
from extension.alone import alone
from extension.setup_machine import ROOT

OUT = ROOT / "out"


def build(arguments: "list[str]") -> None:
    if reference.refresh(ROOT / "README.md"):
        say("Build: the table of functions in the README is new")
    oxt = build_extension()
    say(f"{oxt.relative_to(ROOT)}: {oxt.stat().st_size / 1024:.0f} KiB")
    checksum, site = publish.checksum(oxt), publish.for_a_site()
    say(f"{checksum.relative_to(ROOT)}, and for an extension site {site.relative_to(ROOT)}/")


def build_extension() -> Path:
    """Return the extension, packed anew only when something it is made from has changed."""
    with alone(package.DIST / "build.lock", "Build: another one is at work in dist/; waiting until it is done …"):
        return _build_extension()


def _build_extension() -> Path:
    note = package.DIST / "built"
    digest = sources()
    if package.OXT.exists() and note.exists() and note.read_text() == digest:
        say("Build: nothing has changed since the last one")
        return package.OXT
    say("Build: packing the extension …")
    with tempfile.TemporaryDirectory() as scratch:
        without = package.pack(Path(scratch) / package.OXT.name)
        say("Build: writing the workbook template in an office that has this very extension …")
        with _office(Path(scratch) / "profile", without) as office:
            template.write_template(office, package.SCHEDULE)
    package.pack(schedule=package.SCHEDULE)
    note.write_text(digest)
    return package.OXT


def demo(arguments: "list[str]") -> int:
    import uno  # noqa: F401 - from here on com.sun.star can be imported

    from extension import demo as boat

    name = " ".join(arguments).lower() or "marrowick"
    if name not in boat.BOATS:
        say(f"Demo: there is no boat {name!r}; there are {' and '.join(boat.BOATS)}")
        return 2
    began = time.monotonic()
    oxt = build_extension()
    OUT.mkdir(exist_ok=True)
    say("Demo: starting an office on a scratch profile, with the extension installed …")
    with tempfile.TemporaryDirectory() as scratch, _office(Path(scratch) / "profile", oxt) as office:
        boat.run(office, OUT, sources(), name)
    say(f"Demo: done in {time.monotonic() - began:.0f} s")
    return 0


def release(arguments: "list[str]") -> int:
    if len(arguments) != 1 or not re.match(r"https?://[^\s/]+", arguments[0]):
        say(
            "Release: give the address of the folder where its files will be, such as https://example.org/loftsheet"
        )
        return 2
    demo([])
    folder = publish.release(arguments[0].rstrip("/"))
    kept = publish.keep(OUT / "marrowick.ods")
    for file in (*sorted(folder.iterdir()), kept):
        say(f"  {file.relative_to(ROOT)}")
    return 0


def test(arguments: "list[str]") -> int:
    """All tests side by side, each process with offices of its own; some tests in one process."""
    whole = not set(arguments) - {"--long"}
    processes = min(4, (os.cpu_count() or 1) + 1)  # one more than cores: each waits for its office now and then
    how = ["-n", str(processes), "--dist", "worksteal"] if whole else []
    say(f"Tests: pytest{f' in {processes} processes' if whole else ''} …")
    return subprocess.run([sys.executable, "-m", "pytest", *how, *arguments], cwd=ROOT, check=False).returncode


def install(arguments: "list[str]") -> int:
    from extension.office import program

    oxt = build_extension()
    unopkg = str(Path(program()).resolve().with_name("unopkg"))
    # For root unopkg installs for all users of the machine or not at all.
    for_all = ["--shared"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
    say(f"Install: into {'LibreOffice, for all users' if for_all else 'your own LibreOffice'}; close it first …")
    # unopkg shows the licence and waits for yes; where nobody can answer, the extension is installed as asked.
    asks = [] if sys.stdin.isatty() else ["--suppress-license"]
    command = [unopkg, "add", "--force", *for_all, *asks, *arguments, str(oxt)]
    failed = subprocess.run(command, check=False, timeout=600).returncode
    say("Install: failed, as said above" if failed else "Install: done; it is there when LibreOffice starts next")
    return failed


def bench(arguments: "list[str]") -> int:
    where = {**os.environ, "PYTHONPATH": str(ROOT / "functions")}
    command = [sys.executable, "-m", "tests.bench", *arguments]
    return subprocess.run(command, cwd=ROOT, env=where, check=False).returncode


def say(text: str) -> None:
    print(text, flush=True)


def _office(profile: Path, extension: Path) -> Any:
    """An office; imported late, because the tests must run without one too."""
    from extension.office import Office

    return Office(profile, extension, beside=[inside.pack(profile.with_name("inside.oxt"))])


def sources() -> str:
    """A digest of all that goes into the extension and its template."""
    digest = hashlib.sha256()
    files = {**dict(package.contents()), **template.sources()}
    for name, content in sorted(files.items()):
        digest.update(f"{name} {len(content)} ".encode() + content)
    return digest.hexdigest()
