"""Words and units: measures in words, whether a cell is what it should be, the working of a result."""

import math
from typing import Annotated, Any, Optional

from loftsheet import measure
from loftsheet.errors import BadInput, CellError
from loftsheet.forms import CELL, TEXT
from loftsheet.measure import digits, with_unit
from loftsheet.quantities import Ratio, Words, count, ratio
from loftsheet.registry import Quantity, calc
from loftsheet.version import __version__
from loftsheet.working import CellView, explain
from loftsheet.working import refusal as refusal_words

GROUP = "Words and units"
VAST = 1e12

MeasureText = Annotated[str, Quantity("a measure in words, such as 1 1/4 in", form=TEXT)]
UnitText = Annotated[str, Quantity("a unit, such as mm or lbf", form=TEXT)]
PlainValue = Annotated[float, ratio("number in the plain unit of its kind", least=-VAST, most=VAST)]
Denominator = Annotated[float, count("lower number of the fraction, such as 16", most=64)]
Label = Annotated[str, Quantity("what the cell holds, in words", form=TEXT)]
Content = Annotated[Any, Quantity("cell to check", form=CELL)]
Least = Annotated[float, ratio("least value allowed", least=-VAST, most=VAST)]
Most = Annotated[float, ratio("largest value allowed", least=-VAST, most=VAST)]
ShownUnit = Annotated[str, Quantity("unit to show", form=TEXT)]
Explained = Annotated[Any, Quantity("cell to explain", form=CELL)]


@calc("RIG.READ", group=GROUP)
def read(text: MeasureText, unit: UnitText) -> Ratio:
    """Read a measure in words as a plain number of a unit.

    Formula: value = the text's number · the text's unit / unit
    Limits: a number, then its unit: 12.5 mm, 12,5 mm, 3/8 in, 5 ft 3 1/2 in, 4500 lb. A mass where a force is
    asked for means its weight.
    Errors: Err:502 for what can mean two things, such as 1,500 mm or a ton, for a unit that is not known, and for
    one of another kind than asked for.
    Source: NIST SP 811 Appendix B, for the units.
    """
    value = measure.read_in(text, unit)  # number
    return value


@calc("RIG.SHOW", group=GROUP)
def show(value: PlainValue, unit: UnitText, denominator: Optional[Denominator] = None) -> Words:
    """Show a plain number in a unit, for inches and feet with a fraction too.

    Formula: words = value in its plain unit / unit, and the unit
    Limits: the unit says what the value is, so mm is due for in, ft and "ft in", kg for lb, kN for lbf, kN·m for
    ft·lbf, N·m for in·lbf, MPa for ksi, °C for °F. Rounded to six digits, or to the nearest fraction. Feet with a
    fraction are feet and inches, "ft" without one is decimal feet; RIG.READ reads each of them back.
    Errors: Err:502 for a unit that is not known, and for a denominator with another unit than inches or feet.
    Source: NIST SP 811 Appendix B, for the units.
    """
    words = measure.show(value, unit, denominator)  # text
    return words


@calc("RIG.CHECK", group=GROUP)
def check(
    label: Label,
    cell: Content,
    least: Optional[Least] = None,
    most: Optional[Most] = None,
    unit: ShownUnit = "",
) -> Words:
    """Say what is wrong with a cell; an empty text only for a number from least to most.

    Formula: words = "" when least ≤ cell ≤ most, else what is wrong and by how much
    Limits: least and most are plain numbers in the cell's own unit, left out where there is no such limit.
    Errors: Err:502 where least is above most, or a range is given.
    Source: none needed.
    """
    if least is not None and most is not None and least > most:
        raise BadInput(f"least {least:g} is above most {most:g}; give the smaller one first")
    words = verdict(label, cell, least, most, unit)  # text
    return words


@calc("RIG.WORKING", group=GROUP)
def working(cell: Explained) -> Words:
    """The working of a cell that holds one of these functions: formula, numbers put in, steps, limits, source.

    Formula: words = the steps of the function in the cell, with the numbers of this very calculation
    Limits: literals, references, names and these functions are followed; other expressions stay as written.
    Errors: Err:502 for what is no cell.
    Source: none needed.
    """
    if not isinstance(cell, CellView):
        raise BadInput(f'"{cell}" was given where a cell is due; give one reference, such as B4')
    words = explain(cell)  # text
    return words


@calc("RIG.REFUSAL", group=GROUP)
def refusal(cell: Explained) -> Words:
    """Why a cell is an error: what the function says that refused, in the cell or in one that it is made from.

    Formula: words = "" for a cell that is no error, else, in one line, the refusal with which its error began
    Limits: literals, references, names, these functions and what conditions and lookups are made of are followed;
    where that does not lead to a refusal, the words are the cell in which the error begins and what it shows.
    Errors: Err:502 for what is no cell.
    Source: none needed.
    """
    if not isinstance(cell, CellView):
        raise BadInput(f'"{cell}" was given where a cell is due; give one reference, such as B4')
    words = refusal_words(cell)  # text
    return words


@calc("RIG.VERSION", group=GROUP)
def version() -> Words:
    """The version of this extension.

    Formula: words = the version
    Limits: none.
    Source: definition.
    """
    words = __version__  # text
    return words


def verdict(label: str, held: Any, least: Optional[float], most: Optional[float], unit: str) -> str:
    """What is wrong with what a cell holds, in words; "" for a number within the limits."""
    if held is None or held == "":
        return f"{label}: blank; type a number"
    if isinstance(held, CellError):
        return f"{label}: the cell shows {held.words()}; Explain This Cell says where it begins"
    if isinstance(held, str):
        return f'{label}: "{held}" is a text; type a number'
    if isinstance(held, bool) or not isinstance(held, (int, float)):
        raise BadInput(f"{type(held).__name__} was given where one cell is due")
    if not math.isfinite(held):
        return f"{label}: {held} is not a finite number"
    if least is not None and held < least:
        return f"{label}: {_apart(held, 'below', least, unit)}"
    if most is not None and held > most:
        return f"{label}: {_apart(held, 'above', most, unit)}"
    return ""


def _apart(held: float, side: str, limit: float, unit: str) -> str:
    """ "6 mm is 3 mm below 9 mm", with as many digits as it takes to tell the two apart."""
    shown = (digits(held), digits(limit))
    if shown[0] == shown[1]:
        shown = (repr(held), repr(limit))
    given, allowed, by = (with_unit(number, unit) for number in (*shown, digits(abs(held - limit))))
    return f"{given} is {by} {side} {allowed}"
