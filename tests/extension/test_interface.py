"""What is derived from the declarations for the office: the interface and the texts of the Function Wizard."""

import dataclasses
import re
import shutil
import subprocess
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from loftsheet import CALCS
from loftsheet.examples import example
from loftsheet.registry import UNOIDL_KEYWORDS, describe

from extension import interface, xcu
from extension.loftsheet_office.addin.signature import WITH_DOCUMENT

METHOD = re.compile(r"^    (?P<result>any|sequence< sequence<any> >) (?P<name>\w+)\((?P<arguments>.*)\);$", re.M)
NAME = f"{{{xcu.OOR}}}name"
SDK = "/usr/lib/libreoffice/sdk/bin/unoidl-write"


@pytest.fixture(scope="module")
def methods():
    """The methods of the interface, as name to what stands before each argument's name and that name."""
    text = interface.idl(CALCS)
    return {found["name"]: _arguments(found["arguments"]) for found in METHOD.finditer(text)}


def _arguments(text):
    return [tuple(one.removeprefix("[in] ").split(" ")) for one in text.split(", ") if one]


def test_every_function_is_a_method_with_its_arguments(methods):
    assert list(methods) == [calc.uno_name for calc in CALCS.values()]
    for calc in CALCS.values():
        hidden = ["document"] if calc.name in WITH_DOCUMENT else []
        names = [name for _, name in methods[calc.uno_name]]
        assert names == hidden + [argument.uno_name for argument in calc.arguments], calc.name


def test_a_number_is_taken_as_it_comes_so_that_the_function_can_refuse_it(methods):
    """A `double` would turn a text or a range into some number before the function sees it."""
    forms = {"cell": "com::sun::star::table::XCellRange", "rest": "sequence<any>"}
    for calc in CALCS.values():
        types = {name: kind for kind, name in methods[calc.uno_name]}
        for argument in calc.arguments:
            assert types[argument.uno_name] == forms.get(argument.quantity.form.name, "any"), calc.name


def test_no_name_is_a_word_of_the_interface_language(methods):
    names = {*methods, *(name for arguments in methods.values() for _, name in arguments)}
    assert not names & UNOIDL_KEYWORDS
    assert all(re.fullmatch(r"[a-z][A-Za-z0-9]*", name) for name in names)


def test_rows_come_back_as_rows():
    kinds = {found["name"]: found["result"] for found in METHOD.finditer(interface.idl(CALCS))}
    rows = {calc.uno_name for calc in CALCS.values() if calc.result.form.name == "matrix"}
    assert rows
    assert {name for name, kind in kinds.items() if kind != "any"} == rows


@pytest.mark.office
def test_the_interface_compiles(tmp_path):
    compiler = shutil.which("unoidl-write") or shutil.which(SDK)
    if not compiler:
        pytest.skip("unoidl-write (the office's SDK) is not installed")
    from extension.office import program

    source = tmp_path / "rig.idl"
    source.write_text(interface.idl(CALCS))
    types = Path(program()).resolve().parent / "types"
    command = [compiler, types.with_suffix(".rdb"), types / "offapi.rdb", source, tmp_path / "rig.rdb"]
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=120)
    assert done.returncode == 0, done.stderr


@pytest.mark.office
def test_the_office_reads_the_interface_as_it_was_meant(office, methods):
    manager = office.context.getByName("/singletons/com.sun.star.reflection.theTypeDescriptionManager")
    known = {member.MemberName: member for member in manager.getByHierarchicalName("org.loftsheet.XRig").Members}
    assert list(known) == list(methods)
    for name, arguments in methods.items():
        ordered = sorted(known[name].Parameters, key=lambda parameter: parameter.Position)
        assert [parameter.Name for parameter in ordered] == [argument for _, argument in arguments]


@pytest.fixture(scope="module")
def texts():
    """The nodes of the texts, by function."""
    root = ET.fromstring(interface.calc_add_ins(CALCS))
    functions = root.find("node[@oor:name='AddInInfo']/node/node", {"oor": xcu.OOR})
    assert functions.get(NAME) == "AddInFunctions"
    return {node.get(NAME): node for node in functions}


def _value(node, name):
    return next(prop for prop in node if prop.get(NAME) == name).findtext("value")


def test_texts_are_matched_to_the_interface_by_name(methods, texts):
    assert list(texts) == list(methods)
    for name, arguments in methods.items():
        parameters = next(node for node in texts[name] if node.get(NAME) == "Parameters")
        shown = [argument for _, argument in arguments if argument != "document"]
        assert [parameter.get(NAME) for parameter in parameters] == shown


def test_every_text_is_there(texts):
    for calc in CALCS.values():
        node = texts[calc.uno_name]
        assert _value(node, "DisplayName") == _value(node, "CompatibilityName") == calc.name
        assert _value(node, "Description").startswith(f"{calc.summary} Gives {calc.result.text}")
        gives, shown = _value(node, "Description").split(". Example: ")
        assert calc.result.unit in (*interface.WITHOUT_UNIT, *gives.split())
        assert shown == example(calc.name)
        assert _value(node, "Category") == "Add-In"
        parameters = next(child for child in node if child.get(NAME) == "Parameters")
        for argument, parameter in zip(calc.arguments, parameters):
            assert _value(parameter, "Description") == describe(argument)


def test_a_text_with_signs_of_xml_survives():
    awkward = "a < b & \"c\" > 'd'"
    calc = next(iter(CALCS.values()))
    changed = dataclasses.replace(calc, summary=awkward)
    assert awkward in _value(_only_function(interface.calc_add_ins({calc.name: changed})), "Description")


def _only_function(xcu):
    return ET.fromstring(xcu).find("node/node/node/node")


def test_other_functions_get_an_interface_of_their_own():
    few = {"RIG.BURY": CALCS["RIG.BURY"]}
    text = interface.idl(few, "org.other.Name")
    assert re.search(r"module org \{ module other \{\s+interface XName \{\s+any bury\(.*\);\s+\};\s+\}; \};", text)
    nodes = ET.fromstring(interface.calc_add_ins(few, "org.other.Name")).iter("node")
    assert [node.get(NAME) for node in nodes][:4] == ["AddInInfo", "org.other.Name", "AddInFunctions", "bury"]
