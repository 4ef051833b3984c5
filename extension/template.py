"""The workbook template, and the schedules of the demo boats, written by a running office once for each state."""

import re
import zipfile
from pathlib import Path
from types import SimpleNamespace
from typing import Any

from extension import inside
from extension.alone import alone
from extension.package import DIST, ROOT, write_zip

TEMPLATES = ROOT / "templates"
MANIFEST = "META-INF/manifest.xml"
PICTURE = re.compile(rb'\s*<manifest:file-entry manifest:full-path="Thumbnails/[^>]*>')
CHANGING = re.compile(
    rb"<(meta:creation-date|dc:date|meta:editing-duration|meta:editing-cycles|meta:generator)>[^<]*</\1>"
)


def sources() -> "dict[str, bytes]":
    """What the template is made from, besides the functions."""
    files = sorted(file for file in TEMPLATES.rglob("*") if file.is_file() and "__pycache__" not in file.parts)
    return {file.relative_to(ROOT).as_posix(): file.read_bytes() for file in files}


def write_template(office: Any, path: Path) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    write(office, path)
    normalise(path)


def write(office: Any, path: Path, boat: Any = None) -> None:
    """Write the workbook, as a template or with a boat's rows, inside the office."""
    rows = boat and SimpleNamespace(BOAT=boat.BOAT, ROWS=boat.ROWS, PRICES=getattr(boat, "PRICES", {}))
    inside.run(office, write_here, path, rows)


def write_here(path: Path, boat: Any) -> None:
    from extension.office import Office
    from templates import writer

    writer.write(Office.here(), path, boat)


def of_boat(office: Any, boat: Any, made_from: str) -> Path:
    """The schedule of a boat, written anew only when what it is made from has changed."""
    name = boat.__name__.rpartition(".")[2]
    path, note = DIST / f"{name}.ods", DIST / f"{name}.made-from"
    with alone(DIST / f"{name}.lock", f"Build: another one writes {path.name}; waiting until it is done …"):
        if not (path.exists() and note.exists() and note.read_text() == made_from):
            print(f"Build: writing {path.name}, the schedule of an invented boat …", flush=True)
            write(office, path, boat)
            note.write_text(made_from)
    return path


def normalise(path: Path) -> None:
    """Take out of a document of the office what differs each time it is written, and its picture of itself."""
    with zipfile.ZipFile(path) as packed:
        files = {name: packed.read(name) for name in packed.namelist() if not name.endswith("/")}
    files["meta.xml"] = CHANGING.sub(b"", files["meta.xml"])
    files.pop("Thumbnails/thumbnail.png", None)
    files[MANIFEST] = PICTURE.sub(b"", files[MANIFEST])
    write_zip(path, files, stored_first="mimetype")
