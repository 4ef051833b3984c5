"""The sheet Quotes: what several suppliers offer, side by side, a line for each item of Order.

It is made when the first quote is added. A supplier has two columns, price and lead time; the rest are formulas of
Calc's own, so that prices may be typed there, too. Its places are named ranges, so that rows may be sorted and
columns put in between.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Optional

from com.sun.star.lang import Locale
from com.sun.star.sheet.ValidationType import LIST

from ..common.refusal import Refusal
from ..workbook import reading

NAME = "Quotes"
SUPPLIERS = 5
SPARE = 5  # rows for items that Order gets later
TITLE_STYLE, NOTE_STYLE, HEADER_STYLE = "Loftsheet title", "Loftsheet note", "Loftsheet header"
INPUT_STYLE, TEXT_STYLE, CALCULATED_STYLE = "Loftsheet input", "Loftsheet input text", "Loftsheet calculated"
# The heading is the row above the first item; above it stand the suppliers' names.
NAMES_ROW, HEADER_ROW, FIRST_ROW = 3, 4, 5
ITEM, QUANTITY, UNIT, FIRST_PRICE = range(4)
CHEAPEST = FIRST_PRICE + 2 * SUPPLIERS
QUICKEST, CHOSEN, PRICE, LEAD, TOTAL = range(CHEAPEST + 1, CHEAPEST + 6)
HEADINGS = {
    ITEM: "Item",
    QUANTITY: "Quantity",
    UNIT: "Unit",
    CHEAPEST: "Cheapest",
    QUICKEST: "Quickest",
    CHOSEN: "Chosen",
    PRICE: "Price chosen",
    LEAD: "Lead time chosen\ndays",
    TOTAL: "Total chosen",
}
WIDTHS = {ITEM: 5200, UNIT: 2600, CHEAPEST: 3000, QUICKEST: 3000, CHOSEN: 3200}  # 1/100 mm
MONEY, WHOLE = "#,##0.00", "0"


@dataclass(frozen=True)
class Chosen:
    """What was chosen of a line: whose it is, and what it costs when."""

    item: str
    supplier: str
    price: float
    lead: Optional[float]


@dataclass(frozen=True)
class Target:
    """The new sheet, and the number formats of its document."""

    sheet: Any
    formats: Any

    def put(self, row: int, column: int, words: str, style: str) -> None:
        cell = self.sheet.getCellByPosition(column, row)
        cell.String, cell.CellStyle = words, style

    def style(self, row: int, column: int, style: str, format: str = "") -> None:
        cell = self.sheet.getCellByPosition(column, row)
        cell.CellStyle = style
        if format:
            key = self.formats.queryKey(format, Locale(), False)
            cell.NumberFormat = key if key >= 0 else self.formats.addNew(format, Locale())

    def formula(self, row: int, column: int, formula: str, format: str = "") -> None:
        self.style(row, column, CALCULATED_STYLE, format)
        self.sheet.getCellByPosition(column, row).Formula = formula


def is_there(book: Any) -> bool:
    """Whether there is such a sheet; names alone are left where it was deleted."""
    ranges = book.NamedRanges
    return ranges.hasByName("quotes_item") and ranges.getByName("quotes_item").getReferredCells() is not None


def items(book: Any) -> "dict[str, float]":
    """The items of Order that are to be bought, and how many of each."""
    names, quantities = (reading.cells(book, f"order_{key}").DataArray for key in ("name", "quantity"))
    return {
        str(name).strip(): many
        for (name,), (many,) in zip(names, quantities)
        if name and isinstance(many, float) and many
    }


def suppliers(book: Any) -> "list[str]":
    """Who has quoted, by the place of the columns; "" where nobody has."""
    return [str(_supplier(book, at).String).strip() for at in range(SUPPLIERS)]


def slot_for(book: Any, supplier: str) -> int:
    """The columns of a supplier, or the first that are free."""
    named = suppliers(book) if is_there(book) else [""] * SUPPLIERS
    at = _place(named, supplier)
    if at is not None:
        return at
    if "" not in named:
        raise Refusal(
            f"Quotes has room for {SUPPLIERS} suppliers, and all are taken. Clear the name and the columns of one"
            " there, and add this one again."
        )
    return named.index("")


def add(book: Any, supplier: str, offers: "Mapping[str, Mapping[str, float]]") -> None:
    """Write what a supplier offers into the columns that are theirs; what they had offered there is replaced."""
    slot = slot_for(book, supplier)
    if not is_there(book):
        _make_in_one_go(book)
    lines = _lines(book)
    prices, leads = (reading.cells(book, f"quotes_{key}_{slot + 1}") for key in ("price", "lead"))
    _supplier(book, slot).String = supplier
    for column in (prices, leads):
        column.Columns.IsVisible = True
        column.clearContents(1 | 2 | 4)  # numbers, dates, texts
    for item, values in offers.items():
        for column, key in ((prices, "price"), (leads, "lead")):
            if key in values:
                column.getCellByPosition(0, lines[item]).Value = values[key]


def _place(named: "Sequence[str]", supplier: str) -> Optional[int]:
    """Which of the suppliers it is; as Calc compares names, large and small letters are the same."""
    known = [one.casefold() for one in named]
    return known.index(supplier.casefold()) if supplier.casefold() in known else None


def old_offers(book: Any, supplier: str) -> "dict[str, dict[str, float]]":
    """What would be replaced: price and lead time of each item for which a supplier has one already."""
    at = _place(suppliers(book), supplier) if is_there(book) else None
    if at is None:
        return {}
    columns = {key: reading.cells(book, f"quotes_{key}_{at + 1}").DataArray for key in ("price", "lead")}
    found = {}
    for row, (name,) in enumerate(reading.cells(book, "quotes_item").DataArray):
        offer = {key: held for key, column in columns.items() if (held := column[row][0]) != ""}
        if name and offer:
            found[str(name).strip()] = offer
    return found


def chosen(book: Any) -> "tuple[list[Chosen], list[str]]":
    """What was chosen, line by line, and what of it cannot be taken."""
    named = suppliers(book)
    columns = [reading.cells(book, f"quotes_{key}").DataArray for key in ("item", "chosen")]
    found, doubts = [], []
    for row, ((item,), (supplier,)) in enumerate(zip(*columns)):
        if not item or not supplier:
            continue
        at = _place(named, str(supplier).strip())
        slot = 0 if at is None else at + 1
        price = _number(book, f"quotes_price_{slot}", row) if slot else None
        if price is None:
            why = "has no price for it" if slot else "is none of the suppliers above"
            doubts.append(f"{item}: {supplier} {why}")
        else:
            found.append(Chosen(str(item), str(supplier), price, _number(book, f"quotes_lead_{slot}", row)))
    return found, doubts


def _number(book: Any, name: str, row: int) -> Optional[float]:
    value = reading.cells(book, name).DataArray[row][0]
    return value if isinstance(value, float) else None


def _supplier(book: Any, slot: int) -> Any:
    return reading.cells(book, f"quotes_supplier_{slot + 1}").getCellByPosition(0, 0)


def _lines(book: Any) -> "dict[str, int]":
    """In which line each item stands; items that Order has got since are put into the spare lines."""
    cells = reading.cells(book, "quotes_item")
    held = [str(name).strip() for (name,) in cells.DataArray]
    for item in items(book):
        if item not in held:
            if "" not in held:
                raise Refusal(
                    f"No line of Quotes is left for {item}. Insert a row above the last one of its list."
                )
            row = held.index("")
            cells.getCellByPosition(0, row).String = item
            held[row] = item
    return {item: row for row, item in enumerate(held) if item}


def _make_in_one_go(book: Any) -> None:
    """Make the sheet with nothing worked out or painted in between: that would be done anew for each cell."""
    works_out = book.isAutomaticCalculationEnabled()
    book.enableAutomaticCalculation(False)
    book.addActionLock()
    try:
        _make(book)
    finally:
        book.removeActionLock()
        book.enableAutomaticCalculation(works_out)


def _make(book: Any) -> None:
    """Put the sheet in behind Order, with all formulas and no quotes yet."""
    if book.Sheets.hasByName(NAME):
        raise Refusal(f"There is a sheet {NAME} already that is none of ours. Rename it and try again.")
    order = reading.cells(book, "order_name").Spreadsheet
    book.Sheets.insertNewByName(NAME, order.RangeAddress.Sheet + 1)
    sheet = book.Sheets.getByName(NAME)
    target = Target(sheet, book.NumberFormats)
    bought = items(book)
    last = FIRST_ROW + len(bought) + SPARE - 1
    target.put(0, 0, f"Quotes for {reading.boat(book)}", TITLE_STYLE)
    words = (
        "Prices are in the boat's currency, per unit of Order. Choose a supplier in each line; Take Chosen Quotes"
        " puts what you chose into Order."
    )
    target.put(1, 0, words, NOTE_STYLE)
    _name_places(book, sheet, last)
    for column, heading in _headings():
        target.put(HEADER_ROW, column, heading, HEADER_STYLE)
    for slot in range(SUPPLIERS):
        for column in (FIRST_PRICE + 2 * slot, FIRST_PRICE + 2 * slot + 1):
            sheet.getCellByPosition(column, NAMES_ROW).CellStyle = TEXT_STYLE
            sheet.Columns.getByIndex(column).IsVisible = slot == 0
    for row, item in enumerate([*bought, *[""] * SPARE], FIRST_ROW):
        _line(target, row, item)
    _totals(target, last)
    _choices(sheet, last)
    for column, width in WIDTHS.items():
        sheet.Columns.getByIndex(column).Width = width
    sheet.PageStyle = order.PageStyle


def _headings() -> "Iterator[tuple[int, str]]":
    yield from HEADINGS.items()
    for slot in range(SUPPLIERS):
        yield FIRST_PRICE + 2 * slot, "Price"
        yield FIRST_PRICE + 2 * slot + 1, "Lead time\ndays"


def _name_places(book: Any, sheet: Any, last: int) -> None:
    places = {"item": ITEM, "chosen": CHOSEN}
    for slot in range(SUPPLIERS):
        places[f"price_{slot + 1}"], places[f"lead_{slot + 1}"] = (
            FIRST_PRICE + 2 * slot,
            FIRST_PRICE + 2 * slot + 1,
        )
        _name(book, f"quotes_supplier_{slot + 1}", sheet, FIRST_PRICE + 2 * slot, NAMES_ROW, NAMES_ROW)
    for key, column in places.items():
        _name(book, f"quotes_{key}", sheet, column, FIRST_ROW, last)


def _name(book: Any, name: str, sheet: Any, column: int, first: int, last: int) -> None:
    cells = sheet.getCellRangeByPosition(column, first, column, last)
    at = sheet.getCellByPosition(0, 0).CellAddress
    if book.NamedRanges.hasByName(name):
        book.NamedRanges.removeByName(name)
    book.NamedRanges.addNewByName(name, cells.AbsoluteName, at, 0)


def _line(target: Target, row: int, item: str) -> None:
    """A line of the list: what is typed, and formulas over the suppliers' columns."""
    own = f"A{row + 1}"
    target.put(row, ITEM, item, TEXT_STYLE)
    of_order = f"MATCH({own};order_name;0)"
    target.formula(row, QUANTITY, f'=IF({own}="";"";IFERROR(INDEX(order_quantity;{of_order});0))', WHOLE)
    target.formula(row, UNIT, f'=IF({own}="";"";IFERROR(INDEX(order_unit;{of_order});"not in Order"))')
    for slot in range(SUPPLIERS):
        for column in (FIRST_PRICE + 2 * slot, FIRST_PRICE + 2 * slot + 1):
            target.style(row, column, INPUT_STYLE, WHOLE if (column - FIRST_PRICE) % 2 else MONEY)
    for column, offset in ((CHEAPEST, 0), (QUICKEST, 1)):
        target.formula(row, column, _least(row, offset))
    target.style(row, CHOSEN, TEXT_STYLE)
    target.formula(row, PRICE, _of_chosen(row, 0), MONEY)
    target.formula(row, LEAD, _of_chosen(row, 1), WHOLE)
    price, quantity = (f"{_letter(column)}{row + 1}" for column in (PRICE, QUANTITY))
    target.formula(row, TOTAL, f'=IF({price}="";"";{price}*{quantity})', MONEY)


def _cells(row: int, offset: int) -> "list[tuple[str, str]]":
    """Each supplier's cell in a line and the cell of the supplier's name."""
    return [
        (
            f"{_letter(FIRST_PRICE + 2 * slot + offset)}{row + 1}",
            f"${_letter(FIRST_PRICE + 2 * slot)}${NAMES_ROW + 1}",
        )
        for slot in range(SUPPLIERS)
    ]


def _least(row: int, offset: int) -> str:
    """Formula: who has the least in a line; all of them where several have."""
    cells = _cells(row, offset)
    every = ";".join(cell for cell, _ in cells)
    names = ";".join(f'IF(AND(ISNUMBER({cell});{cell}=MIN({every}));{name};"")' for cell, name in cells)
    return f'=IF(COUNT({every})=0;"";TEXTJOIN(" or ";TRUE();{names}))'


def _of_chosen(row: int, offset: int) -> str:
    """Formula: the price or lead time of the supplier who was chosen in a line; blank where there is none."""
    chosen = f"{_letter(CHOSEN)}{row + 1}"
    tried = "".join(f'IF({chosen}={name};IF(ISNUMBER({cell});{cell};"");' for cell, name in _cells(row, offset))
    return f'=IF({chosen}="";"";{tried}"")' + ")" * SUPPLIERS


def _totals(target: Target, last: int) -> None:
    """Below the list: what each supplier's offer adds up to, and what each cannot supply."""
    first, end, row = FIRST_ROW + 1, last + 1, last + 2
    items, quantities = f"$A${first}:$A${end}", f"$B${first}:$B${end}"
    labels = ("Total of what is priced", "Items without a price", "… which", "Longest lead time, days")
    for at, label in enumerate(labels):
        target.put(row + at, ITEM, label, HEADER_STYLE)
    for slot in range(SUPPLIERS):
        price, lead = (_letter(FIRST_PRICE + 2 * slot + offset) for offset in (0, 1))
        prices, name = f"{price}{first}:{price}{end}", f"{price}${NAMES_ROW + 1}"
        lacks = f'({items}<>"")*ISBLANK({prices})'
        column = FIRST_PRICE + 2 * slot
        target.formula(row, column, f'=IF({name}="";"";SUMPRODUCT({quantities};{prices}))', MONEY)
        target.formula(row + 1, column, f'=IF({name}="";"";SUMPRODUCT({lacks}))', WHOLE)
        target.style(row + 2, column, CALCULATED_STYLE)
        cell = target.sheet.getCellRangeByPosition(column, row + 2, column, row + 2)
        cell.setArrayFormula(f'=IF({name}="";"";TEXTJOIN("; ";TRUE();IF({lacks};{items};"")))')
        target.formula(row + 3, column, f'=IF({name}="";"";MAX({lead}{first}:{lead}{end}))', WHOLE)
    total = _letter(TOTAL)
    target.formula(row, TOTAL, f"=SUM({total}{first}:{total}{end})", MONEY)
    target.formula(row + 1, TOTAL, f'=SUMPRODUCT(({items}<>"")*({total}{first}:{total}{end}=""))', WHOLE)


def _choices(sheet: Any, last: int) -> None:
    """Only a supplier who has quoted can be chosen."""
    cells = sheet.getCellRangeByPosition(CHOSEN, FIRST_ROW, CHOSEN, last)
    names = sheet.getCellRangeByPosition(FIRST_PRICE, NAMES_ROW, CHEAPEST - 1, NAMES_ROW)
    validation = cells.Validation
    validation.Type, validation.ShowErrorMessage = LIST, True
    validation.ErrorTitle, validation.ErrorMessage = NAME, "Pick one of the suppliers above, or clear the cell."
    validation.setFormula1(names.AbsoluteName)
    cells.Validation = validation


def _letter(column: int) -> str:
    return chr(ord("A") + column)
