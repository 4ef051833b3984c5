"""Puts a text on the clipboard, when the user presses Copy and never otherwise.

Like all that About needs, it runs on the oldest Python that any office brings.
"""

import uno
import unohelper
from com.sun.star.datatransfer import DataFlavor, UnsupportedFlavorException, XTransferable

FLAVOR = "text/plain;charset=utf-16"


def copy(desk, text):
    clipboard = desk.create("com.sun.star.datatransfer.clipboard.SystemClipboard")
    clipboard.setContents(Text(text), None)


class Text(unohelper.Base, XTransferable):
    """A text as the clipboard takes it."""

    def __init__(self, text):
        self.text = text

    def getTransferData(self, flavor):
        if not self.isDataFlavorSupported(flavor):
            raise UnsupportedFlavorException(flavor.MimeType, self)
        return self.text

    def getTransferDataFlavors(self):
        return (DataFlavor(FLAVOR, "Unicode text", uno.getTypeByName("string")),)

    def isDataFlavorSupported(self, flavor):
        return flavor.MimeType == FLAVOR
