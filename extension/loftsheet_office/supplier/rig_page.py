"""The page of the rig, on which a boat is understood: as a PDF of its own, to go with an order."""

from pathlib import Path
from typing import Any

import uno

from ..common.values import property_values
from ..workbook import reading

FIRST = "rig_stay_name"


def is_there(book: Any) -> bool:
    """Whether the schedule has it; those of earlier releases have none."""
    return bool(book.NamedRanges.hasByName(FIRST)) and book.NamedRanges.getByName(FIRST).ReferredCells is not None


def place(order: Path) -> Path:
    """Where it goes, beside an order."""
    return order.with_name(f"{order.stem}-rig.pdf")


def write(book: Any, path: Path) -> None:
    """What the sheet prints, as the schedule prints it."""
    sheet = reading.cells(book, FIRST).Spreadsheet
    printed = book.createInstance("com.sun.star.sheet.SheetCellRanges")
    printed.addRangeAddresses(sheet.getPrintAreas(), False)
    chosen = uno.Any("[]com.sun.star.beans.PropertyValue", property_values(Selection=printed))
    book.storeToURL(path.as_uri(), property_values(FilterName="calc_pdf_Export", FilterData=chosen))
