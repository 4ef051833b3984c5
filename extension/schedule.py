"""The workbook template, written by a running office and made the same each time."""

import re
import zipfile
from pathlib import Path
from typing import Any

from extension.package import ROOT, write_zip

TEMPLATES = ROOT / "templates"
CHANGING = re.compile(
    rb"<(meta:creation-date|dc:date|meta:editing-duration|meta:editing-cycles|meta:generator)>[^<]*</\1>"
)


def sources() -> "dict[str, bytes]":
    """What the template is made from, besides the functions."""
    files = sorted(file for file in TEMPLATES.rglob("*") if file.is_file() and "__pycache__" not in file.parts)
    return {file.relative_to(ROOT).as_posix(): file.read_bytes() for file in files}


def write(office: Any, path: Path) -> None:
    from templates import writer

    path.parent.mkdir(parents=True, exist_ok=True)
    writer.write(office, path)
    normalise(path)


def normalise(path: Path) -> None:
    """Take out of a document of the office what differs each time it is written."""
    with zipfile.ZipFile(path) as packed:
        files = {name: packed.read(name) for name in packed.namelist() if not name.endswith("/")}
    files["meta.xml"] = CHANGING.sub(b"", files["meta.xml"])
    write_zip(path, files, stored_first="mimetype")
