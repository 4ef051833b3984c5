"""The licence that is shown at installation: Loftsheet's own, then those of the packages that it carries."""

import zipfile
from collections.abc import Iterable
from email.parser import HeaderParser
from pathlib import Path

# Names by which packages call their licence, and how it is called in full.
NAMES = {"BSD": "BSD 3-Clause", "BSD-3-Clause": "BSD 3-Clause", "PSF-2.0": "Python Software Foundation 2.0"}
CARRIED = """
This extension carries the packages below, each under its own licence, whose text is inside the extension in the
folder named beside it. Their modules are unchanged.

"""


def text(own: str, wheels: "Iterable[Path]") -> str:
    """Our own licence, and a line for each package that is carried."""
    return own.rstrip() + "\n" + CARRIED + "".join(f"{line(wheel)}\n" for wheel in wheels)


def line(wheel: Path) -> str:
    """A package's name, version, licence, and where the licence's text is."""
    with zipfile.ZipFile(wheel) as packed:
        names = packed.namelist()
        metadata = next(name for name in names if name.endswith(".dist-info/METADATA"))
        headers = HeaderParser().parsestr(packed.read(metadata).decode())
    licence = headers["License-Expression"] or headers["License"]
    own = f"{headers['Name']} {headers['Version']}: {NAMES.get(licence, licence)}"
    return f"- {own}; pythonpath/{metadata.split('/')[0]}"
