"""The menu as LibreOffice wants it described, derived from its entries."""

import xml.etree.ElementTree as ET
from pathlib import Path

from extension.loftsheet_office.commands.entries import ANYWHERE, ENTRIES, GROUPS, Entry
from extension.xcu import node, root, text, value, written

CALC, START = "com.sun.star.sheet.SpreadsheetDocument", "com.sun.star.frame.StartModule"
PICTURES = Path(__file__).parent / "oxt" / "pictures"
EVERYWHERE = f"{CALC},{START}"


def addons() -> bytes:
    """The menu Rigging with its entries, and the images of those that have one."""
    settings = root("Addons")
    addon = node(settings, "AddonUI")
    menu = node(node(addon, "OfficeMenuBar"), "org.loftsheet.Rigging", new=True)
    text(menu, "Title", "~Rigging")
    value(menu, "Context", EVERYWHERE)
    _fill(node(menu, "Submenu"))
    images = node(addon, "Images")
    for entry in ENTRIES.values():
        if (PICTURES / f"{entry.command}.svg").exists():
            _image(node(images, f"org.loftsheet.{entry.command}", new=True), entry)
    return written(settings)


def _fill(submenu: ET.Element) -> None:
    """The entries in order, a line between their groups."""
    lines = [line for group in GROUPS for line in (None, *group)][1:]
    for number, entry in enumerate(lines, 1):
        line = node(submenu, f"m{number:02}", new=True)
        value(line, "URL", address(entry) if entry else "private:separator")
        if entry:
            text(line, "Title", entry.label)
            value(line, "Target", "_self")
            value(line, "Context", EVERYWHERE if entry.where == ANYWHERE else CALC)


def _image(image: ET.Element, entry: Entry) -> None:
    value(image, "URL", address(entry))
    sizes = node(image, "UserDefinedImages")
    for size in ("ImageSmallURL", "ImageBigURL"):
        value(sizes, size, f"%origin%/pictures/{entry.command}.svg")


def address(entry: Entry) -> str:
    return f"org.loftsheet:{entry.command}"
