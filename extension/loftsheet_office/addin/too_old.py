"""Stands in for the functions where the office's Python is older than they need."""

import sys
from typing import Any

import unohelper
from com.sun.star.lang import XServiceInfo
from com.sun.star.uno import RuntimeException
from org.loftsheet import XRig

from .implementation import IMPLEMENTATION, SERVICES

REASON = (
    "Loftsheet needs Python 3.9 or newer, this LibreOffice has {}.{}. "
    "Please install LibreOffice 24.8 or newer.".format(*sys.version_info)
)


class Rig(unohelper.Base, XRig, XServiceInfo):
    """Every function is an error in its cell, but =RIG.VERSION() says why."""

    def __init__(self, context: Any) -> None:
        self.context = context

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_"):
            raise AttributeError(name)
        return refuse

    def version(self) -> str:
        return REASON

    def getImplementationName(self) -> str:
        return IMPLEMENTATION

    def supportsService(self, name: str) -> bool:
        return name in SERVICES

    def getSupportedServiceNames(self) -> Any:
        return SERVICES


def refuse(*given: Any) -> None:
    raise RuntimeException(REASON, None)
