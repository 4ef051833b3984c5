"""The functions as LibreOffice wants them described, derived from their declarations.

`idl` is the interface in the office's own language, read by it as plain text. `calc_add_ins` holds the names
and texts that the Function Wizard shows.
"""

import xml.etree.ElementTree as ET
from collections.abc import Mapping

from loftsheet.examples import example
from loftsheet.registry import Calc, Quantity, describe

from extension import xcu
from extension.loftsheet_office.addin.implementation import IMPLEMENTATION
from extension.loftsheet_office.addin.signature import takes_document

WITHOUT_UNIT = ("", "share", "count")
DOCUMENT = "[in] com::sun::star::beans::XPropertySet document"


def idl(calcs: Mapping[str, Calc], implementation: str = IMPLEMENTATION) -> str:
    """The interface, X before the implementation's name, with one method for each function."""
    *modules, name = implementation.split(".")
    methods = "\n".join(_method(calc) for calc in calcs.values())
    opening = " ".join(f"module {module} {{" for module in modules)
    return f"{opening}\n\ninterface X{name} {{\n{methods}\n}};\n\n{' '.join(['};'] * len(modules))}\n"


def calc_add_ins(calcs: Mapping[str, Calc], implementation: str = IMPLEMENTATION) -> bytes:
    """Display names, descriptions and the texts of the arguments."""
    root = xcu.root("CalcAddIns")
    functions = xcu.node(xcu.node(xcu.node(root, "AddInInfo"), implementation, new=True), "AddInFunctions")
    for calc in calcs.values():
        _describe_function(xcu.node(functions, calc.uno_name, new=True), calc)
    return xcu.written(root)


def _method(calc: Calc) -> str:
    arguments = [f"[in] {argument.quantity.form.type} {argument.uno_name}" for argument in calc.arguments]
    if takes_document(calc):
        arguments.insert(0, DOCUMENT)
    return f"    {calc.result.form.result_type} {calc.uno_name}({', '.join(arguments)});"


def _describe_function(node: ET.Element, calc: Calc) -> None:
    xcu.text(node, "DisplayName", calc.name)
    xcu.text(node, "CompatibilityName", calc.name)
    xcu.text(node, "Description", f"{calc.summary} Gives {_result(calc.result)}. Example: {example(calc.name)}")
    # Calc knows only categories of its own.
    xcu.value(node, "Category", "Add-In")
    parameters = xcu.node(node, "Parameters")
    for argument in calc.arguments:
        parameter = xcu.node(parameters, argument.uno_name, new=True)
        xcu.text(parameter, "DisplayName", argument.name)
        xcu.text(parameter, "Description", describe(argument))


def _result(result: Quantity) -> str:
    return f"{result.text} in {result.unit}" if result.unit not in WITHOUT_UNIT else result.text
