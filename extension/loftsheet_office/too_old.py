"""Stands in for the functions where the office's Python is older than they need."""

import sys

import unohelper
from com.sun.star.lang import XServiceInfo
from com.sun.star.uno import RuntimeException
from org.loftsheet import XRig

IMPLEMENTATION = "org.loftsheet.Rig"
SERVICES = ("com.sun.star.sheet.AddIn", IMPLEMENTATION)
REASON = (
    "Loftsheet needs Python 3.9 or newer, this LibreOffice has {}.{}. "
    "Please install LibreOffice 24.8 or newer.".format(*sys.version_info)
)


class Rig(unohelper.Base, XRig, XServiceInfo):
    """Every function is an error in its cell, but =RIG.VERSION() says why."""

    def __init__(self, context):
        self.context = context

    def __getattr__(self, name):
        if name.startswith("_"):
            raise AttributeError(name)
        return refuse

    def version(self):
        return REASON

    def getImplementationName(self):
        return IMPLEMENTATION

    def supportsService(self, name):
        return name in SERVICES

    def getSupportedServiceNames(self):
        return SERVICES


def refuse(*given):
    raise RuntimeException(REASON, None)
