"""What a supplier's answer says: prices and lead times by the item's name, compared with what stands in Order.

The file may have been sorted, added to or cut, and its columns may stand anywhere. What does not match is listed.
"""

import re
import zipfile
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Optional, Union

from ..common.refusal import Refusal
from .lists import CURRENCY, ITEM, LEAD, PRICE, STATED, TOTAL

TO_FILL = {"price": PRICE, "lead": LEAD}
QUANTITY = "Quantity"
HEADINGS = {one.casefold(): one for one in (ITEM, QUANTITY, PRICE, TOTAL, CURRENCY, LEAD)}
OFFERED = (PRICE, TOTAL, LEAD)  # a row with none of these is words of the list itself, or of the supplier
LARGEST = 1_000_000
SHOWN_TO = 0.01  # of a quantity, in the file
ROUNDED, ROUNDED_BY = 0.005, 0.05  # share and amount by which a total may be off price times quantity
MOST_ROWS, MOST_CELLS = 20_000, 500_000  # empty ones included
MEGABYTE = 1_000_000
MOST_UNPACKED = 20 * MEGABYTE  # an answer of 500 items has 0.2 MB


@dataclass(frozen=True)
class Change:
    """One cell of Order to write: which, for what, and the number."""

    cell: Any
    item: str
    heading: str
    value: "Union[float, str]"

    def line(self) -> str:
        now, new = str(self.cell.String), self.value
        shown = f"{new:g}" if isinstance(new, float) else new
        return f"{self.item}, {self.heading}: {shown}" + (f" in place of {now}" if now else "")

    def write(self) -> None:
        if isinstance(self.value, str):
            self.cell.String = self.value
        else:
            self.cell.Value = self.value


@dataclass
class Answer:
    """What a file says: what is new to Order, what would replace something there, what does not match."""

    fresh: "list[Change]" = field(default_factory=list)
    replacing: "list[Change]" = field(default_factory=list)
    doubts: "list[str]" = field(default_factory=list)
    remarks: "list[str]" = field(default_factory=list)


def rows_of(path: Path) -> "list[dict[str, Any]]":
    """The rows below the headings, wherever they stand and in whatever order.

    The currency that stands above the headings is that of each row which names none.
    """
    refuse_too_large(path)
    for values, written in zip(_sheets(path, data_only=True), _sheets(path, data_only=False)):
        for at, row in enumerate(values):
            headings = [_heading(cell) for cell in row]
            if ITEM in headings and (PRICE in headings or LEAD in headings):
                below = zip(values[at + 1 :], written[at + 1 :])
                found = [dict(zip(headings, map(_content, *pair))) for pair in below]
                stated = _currency(values[:at])
                return [{**row, CURRENCY: row.get(CURRENCY) or stated} for row in found]
    raise Refusal(
        f'No sheet of {path.name} has the headings "{ITEM}" and "{PRICE}". '
        "Ask the supplier to fill in the very file that was exported."
    )


def _folded(words: Any) -> str:
    """Words as they are compared: spaces, and large or small letters, make no difference."""
    return " ".join(str("" if words is None else words).split()).casefold()


def _heading(cell: Any) -> str:
    """One of our headings however it was retyped, or a supplier's own."""
    return HEADINGS.get(_folded(cell), str(cell or "").strip())


def _currency(above: "Sequence[tuple[Any, ...]]") -> str:
    """The currency that the head of a file states, as it was written or as the supplier changed it."""
    words = "\n".join(str(cell) for row in above for cell in row if cell)
    stated = re.search(rf"{re.escape(STATED)} *([^.\n]+)", words)
    return stated[1].strip().strip("-") if stated else ""


def refuse_too_large(path: Path) -> None:
    """Refuse a file that unpacks to more than any answer holds, before it is unpacked."""
    try:
        with zipfile.ZipFile(path) as packed:
            parts = packed.infolist()  # all of them: a list of strings may go by any name
    except zipfile.BadZipFile:
        return  # which is said where it is read
    unpacked = sum(part.file_size for part in parts)  # more than that is not read from a part
    if unpacked > MOST_UNPACKED:
        raise Refusal(
            f"{path.name} unpacks to {unpacked / MEGABYTE:,.0f} MB, and an answer has less than "
            f"{MOST_UNPACKED // MEGABYTE} MB. It was not read; ask the supplier for the plain list."
        )


def _sheets(path: Path, data_only: bool) -> "Iterator[list[tuple[Any, ...]]]":
    """The rows of each sheet, read one after the other as they are asked for."""
    from openpyxl import load_workbook

    try:
        workbook = load_workbook(path, read_only=True, data_only=data_only)
        try:
            for sheet in workbook.worksheets:
                sheet.reset_dimensions()  # what a file says of its own size may be wrong
                yield _rows(sheet, path)
        finally:
            workbook.close()
    except (OSError, Refusal):
        raise
    except Exception as error:
        raise Refusal(
            f"{path.name} cannot be read as an .xlsx spreadsheet: it is damaged, protected by a password or of "
            f"another kind. Ask the supplier for it once more. ({error})"
        ) from error


def _rows(sheet: Any, path: Path) -> "list[tuple[Any, ...]]":
    rows: list[tuple[Any, ...]] = []
    cells = 0
    for row in sheet.iter_rows(values_only=True):
        cells += len(row)
        if len(rows) == MOST_ROWS or cells > MOST_CELLS:
            raise Refusal(
                f"{path.name}, sheet {sheet.title}: it goes on beyond {MOST_ROWS:,} rows or {MOST_CELLS:,} cells, "
                "so something stands far away from the list. Delete that and try again."
            )
        rows.append(row)
    return rows


def _content(value: Any, written: Any) -> Any:
    """The value of a cell; a formula that was saved without its value stays a formula."""
    return written if value is None else value


@dataclass
class Offers:
    """What a file offers for our items, in the schedule's currency, and what of it cannot be taken."""

    values: "dict[str, dict[str, float]]" = field(default_factory=dict)  # by item, price and lead
    doubts: "list[str]" = field(default_factory=list)
    remarks: "list[str]" = field(default_factory=list)  # of what is taken all the same
    currencies: "list[str]" = field(default_factory=list)  # those that a rate is needed for
    named: "set[str]" = field(default_factory=set)


def offered(
    rows: "Sequence[dict[str, Any]]",
    items: "Mapping[str, float]",
    currency: str = "",
    rates: "Optional[Mapping[str, float]]" = None,
) -> Offers:
    """Match the rows of a file with our items by name; of each is known how many Order wants.

    A price in another currency than the schedule's is taken at its rate, how much of the schedule's one of it is;
    without a rate it is left out.
    """
    offers = Offers()
    ours = {_folded(name): name for name in items}
    given = [(ours.get(_folded(row.get(ITEM)), str(row.get(ITEM) or "").strip()), row) for row in rows]
    given = [(name, row) for name, row in given if name in items or any(row.get(one) for one in OFFERED)]
    often = Counter(name for name, _ in given if name)
    for name, times in often.items():
        if name not in items:
            offers.doubts.append(f"{name}: not in Order")
        elif times > 1:
            offers.doubts.append(f"{name}: in the file {times} times; type its price yourself")
    for name, row in given:
        if name in items and often[name] == 1:
            found = {
                "price": _price(offers, name, row, currency, rates or {}),
                "lead": _read(offers, name, LEAD, row),
            }
            offers.values[name] = {key: value for key, value in found.items() if value is not None}
            theirs = _number(row.get(QUANTITY))
            if offers.values[name] and theirs is not None and abs(theirs - items[name]) > SHOWN_TO:
                offers.remarks.append(f"{name}: quoted for {theirs:g}, and Order wants {items[name]:g}")
    offers.named = set(often)
    return offers


def _price(
    offers: Offers, item: str, row: "dict[str, Any]", currency: str, rates: "Mapping[str, float]"
) -> Optional[float]:
    """The price of a row in the schedule's currency, None where it must not be taken; says why."""
    price, of_all, quantity = _read(offers, item, PRICE, row), _number(row.get(TOTAL)), _number(row.get(QUANTITY))
    if row.get(PRICE) in (None, "") and of_all is not None:
        offers.doubts.append(f"{item}: a total of {of_all:g}, but no price per unit; ask for it")
    if price is None:
        return None
    if of_all is not None and quantity is not None:
        off = abs(price * quantity - of_all)
        if off > max(ROUNDED * of_all, ROUNDED_BY):
            offers.doubts.append(
                f"{item}: {quantity:g} at {price:g} are {price * quantity:g}, and their total is {of_all:g}; ask"
                " which it is"
            )
            return None
    theirs = " ".join(str(row.get(CURRENCY) or "").split())
    if not theirs or _folded(theirs).strip(".") == _folded(currency).strip("."):
        return price
    rate = next((rate for name, rate in rates.items() if _folded(name) == _folded(theirs)), None)
    if rate is not None:
        return round(price * rate, 2)
    if _folded(theirs) not in map(_folded, offers.currencies):
        offers.currencies.append(theirs)
    ours = currency or "a currency that Boat names"
    offers.doubts.append(f"{item}, {PRICE}: {price:g} {theirs} is not in {ours}")
    return None


def _read(offers: Offers, item: str, heading: str, row: "dict[str, Any]") -> Optional[float]:
    """One number of a row, None where there is none; says what cannot be taken."""
    value = row.get(heading)
    if value is None or value == "":
        return None
    number = _number(value)
    if number is None:
        unsaved = isinstance(value, str) and value.startswith("=")
        why = "a formula without a saved value" if unsaved else "not a number of 0 or more"
        offers.doubts.append(f'{item}, {heading}: "{value}" is {why}')
    return number


def wanted(columns: "Mapping[str, Any]") -> "dict[str, float]":
    """How many of each item Order wants."""
    cells = columns["quantity"]
    return {name: float(cells.getCellByPosition(0, row).Value) for name, row in places(columns).items()}


def places(columns: "Mapping[str, Any]") -> "dict[str, int]":
    """In which row of Order each item stands."""
    return {str(name).strip(): row for row, (name,) in enumerate(columns["name"].DataArray) if name != ""}


def compare(offers: Offers, columns: "Mapping[str, Any]") -> Answer:
    """What a file would change in Order, and what of it does not match."""
    at = places(columns)
    answer = Answer(doubts=list(offers.doubts), remarks=offers.remarks)
    for item, values in offers.values.items():
        for key, value in values.items():
            put(answer, columns[key].getCellByPosition(0, at[item]), item, TO_FILL[key], value)
    lacking = [name for name, many in wanted(columns).items() if many > 0 and name not in offers.named]
    answer.doubts += [f"{name}: in Order, but not in the file" for name in lacking]
    return answer


def put(answer: Answer, cell: Any, item: str, heading: str, value: "Union[float, str]") -> None:
    """Sort what is to stand in a cell into what is new and what replaces something."""
    if cell.String == "":
        answer.fresh.append(Change(cell, item, heading, value))
    elif cell.DataArray[0][0] != value:
        answer.replacing.append(Change(cell, item, heading, value))


def _number(value: Any) -> Optional[float]:
    taken = isinstance(value, (int, float)) and not isinstance(value, bool) and 0 <= value < LARGEST
    return float(value) if taken else None
