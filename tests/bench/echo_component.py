"""What the office loads of the bench's own extension: the least that a function in Python can do."""

import sys

import unohelper
from com.sun.star.lang import XServiceInfo
from org.loftbench import XEcho

IMPLEMENTATION = "org.loftbench.Echo"
SERVICES = ("com.sun.star.sheet.AddIn", IMPLEMENTATION)


class Echo(unohelper.Base, XEcho, XServiceInfo):
    """Functions that hand back their argument, and one that tells what this office's Python has loaded."""

    def __init__(self, context):
        self.context = context

    def getImplementationName(self):
        return IMPLEMENTATION

    def supportsService(self, name):
        return name in SERVICES

    def getSupportedServiceNames(self):
        return SERVICES

    def one(self, value):
        return value

    def six(self, value, *others):
        return value

    def twelve(self, value, *others):
        return value

    def loaded(self, module):
        return float(module in sys.modules)


g_ImplementationHelper = unohelper.ImplementationHelper()
g_ImplementationHelper.addImplementation(Echo, IMPLEMENTATION, SERVICES)
