"""The functions as a service of the office: arguments in, results and errors out."""

from collections.abc import Callable
from itertools import zip_longest
from typing import Any

import unohelper
from com.sun.star.lang import IllegalArgumentException, XServiceInfo
from com.sun.star.sheet import NoConvergenceException
from loftsheet import CALCS
from loftsheet.errors import BadInput, NoSolution, NotInTable
from loftsheet.registry import Calc
from org.loftsheet import XRig

from ..common import journal
from .cell import Cell, content, only_cell
from .implementation import IMPLEMENTATION, SERVICES
from .signature import takes_document


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
    plain = not calc.rest and not any(argument.quantity.form.takes_anything for argument in calc.arguments)

    def call(rig: Rig, *given: Any) -> Any:
        try:
            return result(calc.call(*(given if plain else arguments(calc, given))))
        except BadInput as refused:
            raise IllegalArgumentException(str(refused), None, 0) from None
        except NoSolution as refused:
            raise NoConvergenceException(str(refused), None) from None
        except NotInTable:
            return None  # #N/A
        except Exception as unforeseen:
            journal.note(f"computing {calc.name}", unforeseen)
            raise

    return call


def arguments(calc: Calc, given: "tuple[Any, ...]") -> "tuple[Any, ...]":
    """Return arguments as the function takes them: further ones in a row, what a cell holds for the cell."""
    document = None
    if takes_document(calc):
        document, given = given[0], given[1:]
    if calc.rest:
        given = (*given[:-1], *(given[-1] or ()))
    cells = [argument.quantity.form.takes_anything for argument in calc.arguments]
    return tuple(_cell(one, document) if is_cell else one for one, is_cell in zip_longest(given, cells))


def _cell(cells: Any, document: Any) -> Any:
    """Return the view of a cell for a function that looks into the document, else what the cell holds."""
    if cells is None:
        return None
    if document is not None:
        return Cell(only_cell(cells), document)
    held = content(only_cell(cells))
    return "" if held is None else held


def result(value: Any) -> Any:
    """Return what Calc takes without harm: a float, a text or rows of those."""
    if isinstance(value, (tuple, list)):
        return tuple(tuple(result(cell) for cell in row) for row in value)
    if isinstance(value, int):
        return float(value)
    return value


for _calc in CALCS.values():
    setattr(Rig, _calc.uno_name, method(_calc))
