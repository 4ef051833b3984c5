"""What the office loads: registers the functions and the menu with it.

It is parsed by whatever Python the office has, so nothing here needs more than 3.8; what is too old is told so in
a cell, by =RIG.VERSION().
"""

import os
import sys
from importlib.machinery import PathFinder
from typing import Any

import unohelper

FLOOR = (3, 9)
PACKAGES = os.path.join(os.path.dirname(os.path.abspath(__file__)), "pythonpath")


class OwnPackagesFirst:
    """Finds the packages that the extension carries in itself, before others of the same name.

    The office appends their folder to the end of the path, where another version would hide them.
    """

    names = frozenset(entry.partition(".")[0] for entry in os.listdir(PACKAGES))

    @classmethod
    def find_spec(cls, name: str, path: Any = None, target: Any = None) -> Any:
        return PathFinder.find_spec(name, [PACKAGES]) if path is None and name in cls.names else None


def implementation() -> Any:
    """Return the class that holds the functions."""
    if sys.version_info < FLOOR:
        from loftsheet_office.addin.too_old import Rig
    else:
        from loftsheet_office.addin.add_in import Rig
    return Rig


sys.meta_path.insert(0, OwnPackagesFirst)
from loftsheet_office.addin.implementation import IMPLEMENTATION, SERVICES  # noqa: E402
from loftsheet_office.commands import menu  # noqa: E402
from loftsheet_office.common import journal  # noqa: E402

g_ImplementationHelper = unohelper.ImplementationHelper()
g_ImplementationHelper.addImplementation(menu.Menu, menu.IMPLEMENTATION, menu.SERVICES)
try:
    g_ImplementationHelper.addImplementation(implementation(), IMPLEMENTATION, SERVICES)
except Exception as broken:
    # The menu comes along all the same: About and Diagnostics shows what is wrong.
    journal.note("loading the functions", broken)
