"""Puts a text on the clipboard, when the user presses Copy and never otherwise.

Like all that About needs, it runs on the oldest Python that any office brings.
"""

from typing import Any

import uno
import unohelper
from com.sun.star.datatransfer import DataFlavor, UnsupportedFlavorException, XTransferable

FLAVOR = "text/plain;charset=utf-16"


def copy(desk: Any, text: str) -> None:
    clipboard = desk.create("com.sun.star.datatransfer.clipboard.SystemClipboard")
    clipboard.setContents(Text(text), None)


class Text(unohelper.Base, XTransferable):
    """A text as the clipboard takes it."""

    def __init__(self, text: str) -> None:
        self.text = text

    def getTransferData(self, flavor: Any) -> str:
        if not self.isDataFlavorSupported(flavor):
            raise UnsupportedFlavorException(flavor.MimeType, self)
        return self.text

    def getTransferDataFlavors(self) -> Any:
        return (DataFlavor(FLAVOR, "Unicode text", uno.getTypeByName("string")),)

    def isDataFlavorSupported(self, flavor: Any) -> bool:
        return bool(flavor.MimeType == FLAVOR)
