"""Loftsheet from the command line.

    python3 build.py demo             a schedule of an invented boat in out/: .ods, .pdf and the order as .xlsx
    python3 build.py demo sandlebee   the same of one with two masts
    python3 build.py test             all tests; further words go to pytest
    python3 build.py build            the extension (.oxt) and the workbook template (.ots) in dist/
    python3 build.py install          puts the extension into your own LibreOffice
    python3 build.py call NAME …      one function, such as: call RIG.TANG.FACE 40 "12 deg"
    python3 build.py release ADDRESS  the extension, checksum, notes and update information for a folder on the web
    python3 build.py bench            what functions and schedules cost in cells; with NAME … some functions only

Each sets up by itself what it needs: on Debian and Ubuntu through apt, elsewhere it says what to install.
"""

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent
sys.path[:0] = [str(ROOT), str(ROOT / "functions")]

from extension import setup_machine  # noqa: E402


def main(arguments: "list[str]") -> int:
    command, *rest = arguments or ["help"]
    if command == "call":
        return call(rest)
    helps = command != "test" and {"--help", "-h"} & {command, *rest}
    if helps or command not in ("demo", "test", "build", "install", "release", "bench"):
        print(__doc__)
        return 0 if helps or command == "help" else 2
    setup_machine.prepare(Path(__file__), office_may_lack=command == "test")
    from extension import commands

    return int(getattr(commands, command)(rest) or 0)


def call(arguments: "list[str]") -> int:
    """Plain numbers need nothing but Python; pint, which reads units, may have to be set up first."""
    for_units = (
        "a text with a unit is read by a package that this Python lacks (pint). An environment with it is now set "
        "up in .venv, once: about a minute, 400 MB, over the network. Plain numbers need none: call RIG.BURY 8"
    )
    from loftsheet import command

    try:
        return int(command.main(arguments))
    except ModuleNotFoundError:
        setup_machine.prepare(Path(__file__), needs_office=False, reason=for_units)
        return int(command.main(arguments))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
