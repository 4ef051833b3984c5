"""The paper that the sheets of a schedule are printed on: which it is, and setting another.

What was one page wide, or one page, on the one is so on the other; so the scale of a sheet follows the paper.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from ..common.papers import PAPERS

NEAR = 100  # 1/100 mm, by which a page may be off its paper and still be of it
# 1/100 mm left free left and right: A4's 10 mm would make Letter's text too small.
SIDES = {"A4": 1000, "Letter": 635}
LEAST_POINTS = 7.0
LEAST_SCALE = 10  # percent, the least that the office takes
# Percent of a page's height between which a part is one page: what is empty at its end is not printed.
FULL, ABOUT = 80, 112
ALIKE = 3  # percent by which a scale may be off ours; one that is further off is the user's own and stays

Size = tuple[int, int]


@dataclass(frozen=True)
class Printed:
    """A sheet's page style and the sizes of what is printed of it, in 1/100 mm."""

    sheet: Any
    style: Any
    areas: "tuple[Size, ...]"

    def room(self, paper: str) -> Size:
        """What a page of that paper holds at 100 %."""
        style, (wide, tall) = self.style, self.size(paper)
        foot = style.FooterHeight if style.FooterIsOn else 0
        head = style.HeaderHeight if style.HeaderIsOn else 0
        return wide - 2 * SIDES[paper], tall - style.TopMargin - style.BottomMargin - foot - head

    def size(self, paper: str) -> Size:
        short, long = (round(100 * side) for side in PAPERS[paper])
        return (long, short) if self.style.IsLandscape else (short, long)

    def scale(self, paper: str) -> int:
        """The largest in percent at which each part is a page wide, and what is one page on A4 stays one."""
        found, on_a4 = self._wide(paper), self._wide("A4")
        (_, now), (_, then) = self.room(paper), self.room("A4")
        if any(FULL * then < tall * on_a4 <= ABOUT * then for _, tall in self.areas):
            found = min(found, int(on_a4 * now / then))
        return max(found, LEAST_SCALE)

    def _wide(self, paper: str) -> int:
        return min(100, *(int(100 * self.room(paper)[0] / wide) for wide, _ in self.areas))


def paper_of(book: Any) -> str:
    """The paper of the first sheet, "" if it is another than those that are known here."""
    style = _style(book, book.Sheets.getByIndex(0))
    size = sorted((style.Width, style.Height))
    for name, sides in PAPERS.items():
        if all(abs(held - 100 * side) < NEAR for held, side in zip(size, sides)):
            return name
    return ""


def at_first(book: Any) -> int:
    """Which paper to offer first: that of the schedule itself."""
    paper = paper_of(book)
    return list(PAPERS).index(paper) if paper else 0


def set_paper(book: Any, paper: str) -> "list[str]":
    """Set the paper of every sheet; return the sheets whose letters get smaller on it than can be read well."""
    small = []
    letters = book.StyleFamilies.getByName("CellStyles").getByName("Default").CharHeight
    before = paper_of(book)
    for one in list(_printed(book)):
        style = one.style
        ours = bool(before) and abs(style.PageScale - one.scale(before)) <= ALIKE
        style.LeftMargin = style.RightMargin = SIDES[paper]
        style.Width, style.Height = one.size(paper)
        if ours:
            style.PageScale = one.scale(paper)
        if style.PageScale and letters * style.PageScale < 100 * LEAST_POINTS:
            small.append(one.sheet.Name)
    return small


def _printed(book: Any) -> "Iterator[Printed]":
    """Each sheet with its page style; of those that share one the first."""
    seen = set()
    for sheet in book.Sheets:
        if sheet.PageStyle not in seen:
            seen.add(sheet.PageStyle)
            yield Printed(sheet, _style(book, sheet), tuple(_areas(sheet)))


def _style(book: Any, sheet: Any) -> Any:
    return book.StyleFamilies.getByName("PageStyles").getByName(sheet.PageStyle)


def _areas(sheet: Any) -> "Iterator[Size]":
    """The sizes of the parts that are printed by themselves, the columns that are repeated on each included."""
    titles = sheet.getTitleColumns()
    repeated = range(titles.StartColumn, titles.EndColumn + 1) if sheet.getPrintTitleColumns() else ()
    for area in sheet.getPrintAreas() or (_used(sheet),):
        cells = sheet.getCellRangeByPosition(area.StartColumn, area.StartRow, area.EndColumn, area.EndRow)
        beside = [at for at in repeated if not area.StartColumn <= at <= area.EndColumn]
        more = sum(sheet.Columns.getByIndex(at).Width for at in beside)
        yield cells.Size.Width + more, cells.Size.Height


def _used(sheet: Any) -> Any:
    cursor = sheet.createCursor()
    cursor.gotoEndOfUsedArea(False)
    end = cursor.RangeAddress
    return sheet.getCellRangeByPosition(0, 0, end.EndColumn, end.EndRow).RangeAddress
