"""The cell styles of the workbook: text and background are set together, and nothing is told by colour alone."""

from typing import Any

from com.sun.star.lang import Locale
from com.sun.star.table import BorderLine2
from com.sun.star.table.CellHoriJustify import CENTER, LEFT, RIGHT
from com.sun.star.table.CellVertJustify2 import CENTER as MIDDLE
from com.sun.star.table.CellVertJustify2 import TOP

TITLE, NOTE, READ = "Loftsheet title", "Loftsheet note", "Loftsheet reading"
BLOCK, HEADER, LABEL = "Loftsheet block", "Loftsheet header", "Loftsheet label"
INPUT, INPUT_TEXT, CALCULATED = "Loftsheet input", "Loftsheet input text", "Loftsheet calculated"
CHECK, ATTENTION, URGENT = "Loftsheet check", "Loftsheet attention", "Loftsheet urgent"
QUIET, CODE = "Loftsheet quiet", "Loftsheet code"
NEXT, LINE, NUMBER = "Loftsheet next", "Loftsheet line", "Loftsheet number"
LISTED, LISTED_NUMBER = "Loftsheet listed", "Loftsheet listed number"

FONT = "Liberation Sans"
BLACK, WHITE, PALE, NAVY, SAND, ROSE = 0x000000, 0xFFFFFF, 0xECEEF1, 0x22384F, 0xFFE3A0, 0xFFC4BC
FRAME, HAIRLINE, GREY = 0x5B7083, 0x667584, 0x55606B
BOLD = 150.0


def define(book: Any) -> None:
    """Add our styles to the document."""
    default = book.StyleFamilies.getByName("CellStyles").getByName("Default")
    default.CharFontName, default.CharHeight = FONT, 9.0
    _add(book, TITLE, CharHeight=15.0, CharWeight=BOLD)
    _add(book, NOTE, CharHeight=9.0)
    _add(book, READ, CharHeight=10.0, IsTextWrapped=True, VertJustify=TOP)
    _add(book, LABEL, **_cell())
    _add(book, BLOCK, CharColor=NAVY, CellBackColor=WHITE, CharWeight=BOLD, CharHeight=10.0)
    _add(
        book,
        HEADER,
        CharColor=WHITE,
        CellBackColor=NAVY,
        CharWeight=BOLD,
        IsTextWrapped=True,
        HoriJustify=CENTER,
        VertJustify=MIDDLE,
    )
    for name in (INPUT, INPUT_TEXT):
        _add(book, name, CharColor=BLACK, CellBackColor=WHITE, **_cell(), **_frame())
    book.StyleFamilies.getByName("CellStyles").getByName(INPUT_TEXT).HoriJustify = LEFT
    for name in (CALCULATED, CHECK):
        _add(book, name, CharColor=BLACK, CellBackColor=PALE, BottomBorder2=_line(HAIRLINE, 2), **_cell())
    _add(book, QUIET, **{**_cell(), "CharColor": GREY, "CellBackColor": PALE})
    _add(book, NEXT, CharColor=NAVY, CellBackColor=WHITE, CharWeight=BOLD, CharHeight=11.0)
    _add(book, LISTED, CharColor=BLACK, CellBackColor=WHITE, ParaLeftMargin=90, ParaRightMargin=90)
    _add(book, LISTED_NUMBER, parent=LISTED, HoriJustify=RIGHT)
    _add(book, LINE, BottomBorder2=_line(HAIRLINE, 2))
    _add(book, NUMBER, CharColor=GREY, CellBackColor=WHITE, ParaRightMargin=90)
    _add(book, CODE, CharColor=GREY, CellBackColor=PALE, VertJustify=TOP)
    for name, background in ((ATTENTION, SAND), (URGENT, ROSE)):
        _add(book, name, CharColor=BLACK, CellBackColor=background, CharWeight=BOLD, **_cell())


def with_format(book: Any, base: str, format: str) -> str:
    """The name of the style that adds a number format to one of ours; made when first asked for."""
    if not format or format == "General":
        return base
    family = book.StyleFamilies.getByName("CellStyles")
    name = f"{base} {format}"
    if not family.hasByName(name):
        _add(book, name, parent=base, NumberFormat=_number_format(book, format))
    return name


def _number_format(book: Any, format: str) -> int:
    """A number format of no country: what is typed is read, and shown, with the decimal sign of the user's own."""
    anywhere = Locale()
    formats = book.NumberFormats
    key = formats.queryKey(format, anywhere, False)
    return int(key if key >= 0 else formats.addNew(format, anywhere))


def _cell() -> "dict[str, Any]":
    return {"VertJustify": TOP, "IsTextWrapped": True, "ParaLeftMargin": 90, "ParaRightMargin": 90}


def _frame() -> "dict[str, Any]":
    return dict.fromkeys(("TopBorder2", "BottomBorder2", "LeftBorder2", "RightBorder2"), _line(FRAME, 9))


def _line(colour: int, width: int) -> BorderLine2:
    line = BorderLine2()
    line.Color, line.OuterLineWidth, line.LineWidth = colour, width, width
    return line


def _add(book: Any, name: str, parent: str = "Default", **properties: Any) -> None:
    style = book.createInstance("com.sun.star.style.CellStyle")
    book.StyleFamilies.getByName("CellStyles").insertByName(name, style)
    style.ParentStyle = parent
    for key, value in properties.items():
        setattr(style, key, value)
