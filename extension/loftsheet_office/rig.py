"""The functions as a service of the office: arguments in, results and errors out."""

from typing import Any, Callable

import unohelper
from com.sun.star.lang import IllegalArgumentException, XServiceInfo
from com.sun.star.sheet import NoConvergenceException
from loftsheet import CALCS
from loftsheet.errors import BadInput, NoSolution, NotInTable
from loftsheet.registry import Calc
from org.loftsheet import XRig

from .signature import IMPLEMENTATION

SERVICES = ("com.sun.star.sheet.AddIn", IMPLEMENTATION)


class Rig(unohelper.Base, XRig, XServiceInfo):
    """The add-in; a method for each declared function is added below."""

    def __init__(self, context: Any) -> None:
        self.context = context

    def getImplementationName(self) -> str:
        return IMPLEMENTATION

    def supportsService(self, name: str) -> bool:
        return name in SERVICES

    def getSupportedServiceNames(self) -> "tuple[str, ...]":
        return SERVICES


def method(calc: Calc) -> Callable[..., Any]:
    """Return the method with which Calc calls a function."""
    rest = calc.rest

    def call(rig: Rig, *given: Any) -> Any:
        if rest:
            given = (*given[:-1], *(given[-1] or ()))
        try:
            return result(calc.call(*given))
        except BadInput as refused:
            raise IllegalArgumentException(str(refused), rig, 0) from None
        except NoSolution as refused:
            raise NoConvergenceException(str(refused), rig) from None
        except NotInTable:
            return None  # #N/A

    return call


def result(value: Any) -> Any:
    """Return what Calc takes without harm: a float, a text or rows of those."""
    if isinstance(value, (tuple, list)):
        return tuple(tuple(result(cell) for cell in row) for row in value)
    if isinstance(value, int):
        return float(value)
    return value


for _calc in CALCS.values():
    setattr(Rig, _calc.uno_name, method(_calc))
