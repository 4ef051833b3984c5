"""Settings of the office as it reads them: nodes with properties, in its registry's XML."""

import xml.etree.ElementTree as ET

OOR = "http://openoffice.org/2001/registry"
XML = "http://www.w3.org/XML/1998/namespace"


def root(name: str) -> ET.Element:
    """The outermost element of a file of settings."""
    ET.register_namespace("oor", OOR)
    return ET.Element(oor("component-data"), {oor("name"): name, oor("package"): "org.openoffice.Office"})


def written(root: ET.Element) -> bytes:
    ET.indent(root)
    return bytes(ET.tostring(root, encoding="utf-8", xml_declaration=True))


def node(parent: ET.Element, name: str, new: bool = False) -> ET.Element:
    """A node below another; a new one replaces what the office has of that name."""
    operation = {oor("op"): "replace"} if new else {}
    return ET.SubElement(parent, "node", {oor("name"): name, **operation})


def value(parent: ET.Element, name: str, held: str) -> ET.Element:
    """A property and what it holds."""
    found = ET.SubElement(ET.SubElement(parent, "prop", {oor("name"): name}), "value")
    found.text = held
    return found


def text(parent: ET.Element, name: str, words: str) -> None:
    """A property that is a text for people."""
    value(parent, name, words).set(f"{{{XML}}}lang", "en")


def oor(name: str) -> str:
    return f"{{{OOR}}}{name}"
