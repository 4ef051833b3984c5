"""Packs the extension: the same sources give the same bytes."""

import shutil
import subprocess
import sys
import zipfile
from collections.abc import Iterator
from pathlib import Path
from string import Template
from typing import Optional
from xml.sax.saxutils import escape, quoteattr

import loftsheet

from extension import column_data, interface, licences, menu_bar
from extension.alone import alone
from extension.setup_machine import OFFICE_FLOOR, pins

ROOT = Path(__file__).resolve().parent.parent
DIST = ROOT / "dist"
OXT = DIST / f"loftsheet-{loftsheet.__version__}.oxt"
SCHEDULE = DIST / "Rig Schedule.ots"
# The folder's name is the category under which the office lists the template.
SCHEDULE_PACKED = f"templates/Loftsheet/{SCHEDULE.name}"
STATIC = ROOT / "extension/oxt"
PACKAGES = {
    "functions/loftsheet": "pythonpath/loftsheet",
    "extension/loftsheet_office": "pythonpath/loftsheet_office",
}
FLOOR = ".".join(map(str, OFFICE_FLOOR))
UPDATES = "loftsheet.update.xml"
NOTES = f"loftsheet-{loftsheet.__version__}-notes.txt"
UPDATE = """\
  <update-information>
    <src xlink:href={}/>
  </update-information>
"""
NOT_NEEDED = {"testsuite", "RECORD", "WHEEL", "top_level.txt", "entry_points.txt"}
OLDEST_DATE = (1980, 1, 1, 0, 0, 0)


def pack(path: Path = OXT, schedule: Optional[Path] = None, address: str = "") -> Path:
    """Write the extension, with the workbook template if there is one already, and where it looks for updates."""
    files = dict(contents(address))
    if schedule:
        files[SCHEDULE_PACKED] = schedule.read_bytes()
    write_zip(path, files)
    return path


def contents(address: str = "") -> "Iterator[tuple[str, bytes]]":
    """Yield the name and the bytes of each file of the extension."""
    yield "rig.idl", interface.idl(loftsheet.CALCS).encode()
    yield "CalcAddIns.xcu", interface.calc_add_ins(loftsheet.CALCS)
    yield "Addons.xcu", menu_bar.addons()
    yield "licences-en.txt", licence().encode()
    yield "component.py", (ROOT / "extension/component.py").read_bytes()
    yield column_data.PACKED, column_data.packed()
    yield column_data.KINDS_PACKED, column_data.kinds_packed()
    yield from _static(address)
    for folder, packed in PACKAGES.items():
        for file in sorted((ROOT / folder).rglob("*.py")):
            yield f"{packed}/{file.relative_to(ROOT / folder).as_posix()}", file.read_bytes()
    for wheel in wheels():
        yield from _unpacked(wheel)


def licence() -> str:
    return licences.text((ROOT / "LICENSE").read_text(encoding="utf-8"), wheels())


def static(name: str) -> str:
    """A text that is packed as it stands."""
    return (STATIC / name).read_text(encoding="utf-8")


def wheels() -> "list[Path]":
    """Return the wheels of the packages that the extension carries, fetched once for each set of pins."""
    folder = DIST / "wheels" / pins()[:12]
    if not folder.exists():
        with alone(DIST / "wheels.lock", "Build: another one fetches packages; waiting until it is done …"):
            if not folder.exists():
                _fetch(folder)
    return sorted(folder.glob("*.whl"))


def _fetch(folder: Path) -> None:
    unfinished = folder.with_suffix(".part")
    shutil.rmtree(unfinished, ignore_errors=True)
    command = [sys.executable, "-m", "pip", "download", "--quiet", "--no-deps", "--only-binary=:all:"]
    subprocess.run([*command, "--group", "vendored", "--dest", str(unfinished)], cwd=ROOT, check=True, timeout=600)
    unfinished.rename(folder)


def write_zip(path: Path, files: "dict[str, bytes]", stored_first: str = "") -> None:
    """Write files sorted and undated; one that must come first and uncompressed can be named."""
    path.parent.mkdir(parents=True, exist_ok=True)
    unfinished = path.with_name(path.name + ".part")
    with zipfile.ZipFile(unfinished, "w") as packed:
        for name in sorted(files, key=lambda name: (name != stored_first, name)):
            entry = zipfile.ZipInfo(name, OLDEST_DATE)
            entry.external_attr = 0o644 << 16
            entry.compress_type = zipfile.ZIP_STORED if name == stored_first else zipfile.ZIP_DEFLATED
            packed.writestr(
                entry, files[name], compresslevel=9
            )  # an entry of its own takes no level from the file
    unfinished.replace(path)


def _static(address: str) -> "Iterator[tuple[str, bytes]]":
    for file in sorted(file for file in STATIC.rglob("*") if file.is_file()):
        content = file.read_bytes()
        if file.name == "description.xml":
            content = Template(content.decode()).substitute(_description(address)).encode()
        yield file.relative_to(STATIC).as_posix(), content


def _description(address: str) -> "dict[str, str]":
    """What differs in the description from release to release."""
    update = UPDATE.format(quoteattr(f"{address}/{UPDATES}")) if address else ""
    notes = f"{address}/{NOTES}" if address else "release-notes-en.txt"
    always = {"version": loftsheet.__version__, "floor": FLOOR}
    return {**always, "notes": escape(notes, {'"': "&quot;"}), "update": update}


def _unpacked(wheel: Path) -> "Iterator[tuple[str, bytes]]":
    """Yield a package and its licences, without its tests."""
    with zipfile.ZipFile(wheel) as packed:
        for name in packed.namelist():
            if not name.endswith("/") and not NOT_NEEDED.intersection(name.split("/")):
                yield f"pythonpath/{name}", packed.read(name)
