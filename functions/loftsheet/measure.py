"""A number, or a text with its own unit, becomes a plain number in the unit the functions use.

The text is read here, strictly and from a list of allowed units; pint only converts between two of them,
and is loaded when the first text with a unit arrives. pint must not read users' text: it takes "12,5 mm"
for 125 mm and "1 1/2 in" for half an inch.
"""

import math
import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from functools import cache, lru_cache
from typing import Any, Optional

from loftsheet.errors import BadInput


@dataclass(frozen=True)
class Dimension:
    """A kind of quantity: its plain unit and, by users' spelling, pint's name of every unit allowed."""

    name: str
    plain: str
    units: Mapping[str, str] = field(default_factory=dict, hash=False, compare=False)

    def spellings(self) -> list[str]:
        """Every unit allowed, by the first of its spellings."""
        first: dict[str, str] = {}
        for spelling, pint_name in self.units.items():
            first.setdefault(pint_name, spelling)
        return list(first.values())

    def allowed(self) -> str:
        return ", ".join(self.spellings())

    def example(self) -> str:
        unit = self.plain if self.plain in self.units else next(iter(self.units))
        return f"12.5 {unit}"


LONG = 10_000  # mm, from which on a measure is one of the boat, not of a fitting
LENGTHS = {
    **dict.fromkeys(("mm",), "millimeter"),
    **dict.fromkeys(("cm",), "centimeter"),
    **dict.fromkeys(("m",), "meter"),
    **dict.fromkeys(("in", "inch", "inches", '"'), "inch"),
    **dict.fromkeys(("ft", "foot", "feet", "'"), "foot"),
}
MASSES = {
    "kg": "kilogram",
    "g": "gram",
    "t": "metric_ton",
    **dict.fromkeys(("lb", "lbs"), "pound"),
}
# Trade habit: a mass where a force is due means its weight.
WEIGHTS = {unit: f"{name} * standard_gravity" for unit, name in MASSES.items()}
FORCES = {
    "N": "newton",
    "daN": "decanewton",
    "kN": "kilonewton",
    "kgf": "kilogram_force",
    "tf": "metric_ton * standard_gravity",
    "lbf": "pound_force",
}
MOMENTS = {
    **{f"kN{dot}m": "kilonewton * meter" for dot in ("·", " ", "")},
    **{f"N{dot}m": "newton * meter" for dot in ("·", " ", "")},
    **{f"kg{f}{dot}m": "kilogram_force * meter" for f in ("f", "") for dot in ("·", " ")},
    **{f"t{f}{dot}m": "metric_ton * standard_gravity * meter" for f in ("f", "") for dot in ("·", " ")},
    **{f"ft{dot}lb{f}": "foot * pound_force" for f in ("f", "") for dot in ("·", " ", "-")},
    **{f"lb{f}{dot}ft": "foot * pound_force" for f in ("f", "") for dot in ("·", " ", "-")},
}
# Nobody gives a boat's moment in inches: the unit by itself says that a bolt is meant.
BOLT_MOMENTS = {
    **MOMENTS,
    **{f"in{dot}lb{f}": "inch * pound_force" for f in ("f", "") for dot in ("·", " ", "-")},
    **{f"lb{f}{dot}in": "inch * pound_force" for f in ("f", "") for dot in ("·", " ", "-")},
}
ANGLES = {
    **dict.fromkeys(("°", "deg", "degree", "degrees"), "degree"),
    "rad": "radian",
}
STRESSES = {
    "MPa": "megapascal",
    "GPa": "gigapascal",
    "N/mm²": "newton / millimeter ** 2",
    "N/mm2": "newton / millimeter ** 2",
    "psi": "pound_force / inch ** 2",
    "ksi": "1000 * pound_force / inch ** 2",
}
AREAS = {
    **dict.fromkeys(("mm²", "mm2"), "millimeter ** 2"),
    **dict.fromkeys(("cm²", "cm2"), "centimeter ** 2"),
    **dict.fromkeys(("in²", "in2", "sq in"), "inch ** 2"),
}

LENGTH = Dimension("length", "mm", LENGTHS)
FORCE = Dimension("force", "kN", {**FORCES, **WEIGHTS})
RIGHTING = Dimension("moment of the boat", "kN·m", MOMENTS)
MOMENT = Dimension("moment in a bolt", "N·m", BOLT_MOMENTS)
ANGLE = Dimension("angle", "°", ANGLES)
TEMPERATURE = Dimension("temperature", "°C", {"°C": "degree_Celsius", "°F": "degree_Fahrenheit"})
TEMPERATURE_CHANGE = Dimension(
    "temperature change",
    "K",
    {"K": "kelvin", "°C": "delta_degree_Celsius", "°F": "delta_degree_Fahrenheit"},
)
MASS = Dimension("mass", "kg", MASSES)
STRESS = Dimension("stress", "MPa", STRESSES)
MODULUS = Dimension("modulus", "GPa", STRESSES)
AREA = Dimension("area", "mm²", AREAS)
SECOND_MOMENT = Dimension(
    "second moment of area",
    "cm⁴",
    {
        **dict.fromkeys(("cm⁴", "cm4"), "centimeter ** 4"),
        **dict.fromkeys(("mm⁴", "mm4"), "millimeter ** 4"),
        **dict.fromkeys(("in⁴", "in4"), "inch ** 4"),
    },
)
TIME = Dimension(
    "time",
    "years",
    {**dict.fromkeys(("year", "years"), "year"), **dict.fromkeys(("month", "months"), "year / 12")},
)
SHARE = Dimension("share", "share", {"%": "percent"})
RATE = Dimension("rate", "share/year", {"%/year": "percent"})
LINEAR_MASS = Dimension(
    "mass of a length",
    "g/m",
    {"g/m": "gram / meter", "kg/m": "kilogram / meter", "lb/ft": "pound / foot"},
)
LINE_LOAD = Dimension(
    "load on a length",
    "N/m",
    {
        "N/m": "newton / meter",
        "kN/m": "kilonewton / meter",
        "kgf/m": "kilogram_force / meter",
        "lbf/ft": "pound_force / foot",
    },
)
DENSITY = Dimension(
    "density",
    "kg/m³",
    {
        **dict.fromkeys(("kg/m³", "kg/m3"), "kilogram / meter ** 3"),
        **dict.fromkeys(("g/cm³", "g/cm3"), "gram / centimeter ** 3"),
        **dict.fromkeys(("lb/ft³", "lb/ft3"), "pound / foot ** 3"),
    },
)
FREQUENCY = Dimension("frequency", "Hz", {"Hz": "hertz"})
EXPANSION = Dimension(
    "expansion", "1e-6/K", {"1e-6/K": "micrometer / meter / kelvin", "1e-6/°C": "micrometer / meter / kelvin"}
)
ENERGY = Dimension("activation energy", "kJ/mol", {"kJ/mol": "kilojoule / mole"})
RATIO = Dimension("ratio", "")
COUNT = Dimension("count", "count")

# Where a unit fits several kinds, RIG.READ and RIG.SHOW mean the one whose plain unit it is (N·m: a bolt's
# moment), else the first one here (lb: a mass, ft·lbf: the boat's moment).
NAMED = (
    LENGTH,
    MASS,
    FORCE,
    RIGHTING,
    MOMENT,
    ANGLE,
    TEMPERATURE,
    TEMPERATURE_CHANGE,
    STRESS,
    MODULUS,
    AREA,
    SECOND_MOMENT,
    TIME,
    SHARE,
    RATE,
    LINEAR_MASS,
    LINE_LOAD,
    DENSITY,
    FREQUENCY,
    EXPANSION,
    ENERGY,
)
CLOSE_UP = ("", "°", '"', "'")
FEET_INCHES = "ft in"
FRACTIONAL = ("in", "inch", "inches", '"', "ft", "foot", "feet", "'", FEET_INCHES)
# pint's names where the plain unit is not one that a text may carry.
PINT_PLAIN = {"share": "dimensionless", "share/year": "dimensionless"}
WITH_OFFSET = ("degree_Celsius", "degree_Fahrenheit")

DECIMAL = r"[0-9]+(?:[.,][0-9]+)?|\.[0-9]+"
FRACTION = r"(?:(?P<whole>[0-9]+)[ -])?(?P<over>[0-9]+)/(?P<under>[0-9]+)"
MEASURE = re.compile(rf"(?P<sign>[+-]?) ?(?:{FRACTION}|(?P<decimal>{DECIMAL}))(?P<unit>(?![0-9.,/]).*)?")
FEET_AND_INCHES = re.compile(r"(?P<sign>[+-]?) ?(?P<feet>[0-9]+) ?(?:ft|feet|foot|') ?(?P<inches>[0-9].*)")
# A point with three digits is thousands to half of Europe; nobody ends a decimal fraction in a needless 0.
THOUSANDS = re.compile(r"[1-9][0-9]{0,2}(,[0-9]{3}|\.[0-9]{2}0)")
LONGEST = 60
PINT, PINT_TRIED = "pint 0.24 or 0.25", (["0", "24"], ["0", "25"])
TYPOGRAPHIC = str.maketrans("−–′’″”º\u00a0\u202f", "--''\"\"°  ")


def number(given: Any, dimension: Dimension) -> float:
    """Return what a cell or a caller gave as a plain number in the dimension's plain unit."""
    if isinstance(given, str):
        return read(given, dimension)
    if isinstance(given, bool):
        raise BadInput(f"{given} is true or false, a number is due")
    if isinstance(given, (int, float)):
        try:
            return float(given)
        except OverflowError:
            raise BadInput("a number with more than 308 digits is no measure") from None
    if isinstance(given, (tuple, list)):
        raise BadInput("a range of cells was given where one cell or number is due")
    raise BadInput(f"{type(given).__name__} was given where a number is due")


@lru_cache(maxsize=4096)
def read(text: str, dimension: Dimension) -> float:
    """Read a text with its own unit, such as "1 1/4 in", as a plain number of that dimension."""
    return float(_exact(text, dimension))


@lru_cache(maxsize=4096)
def read_in(text: str, unit: str) -> float:
    """Read a text with its own unit as a number of another unit of the same kind."""
    dimension = named(unit)
    scale, offset = _conversion(dimension.units[unit], dimension)
    return float((_exact(text, dimension) - offset) / scale)


def show(value: float, unit: str, denominator: Optional[float] = None) -> str:
    """Write a plain number in `unit`, with a fraction of that denominator if one is given, in feet of an inch."""
    if not math.isfinite(value):
        raise BadInput(f"{value} was given where a finite number is due")
    if denominator and unit not in FRACTIONAL:
        raise BadInput(f'fractions are for in, ft and "{FEET_INCHES}"; leave the denominator out for {unit}')
    step = int(denominator) if denominator else None
    # No rule has sixteenths of a foot: with a fraction feet always have inches. Decimal feet stay what they were.
    if unit == FEET_INCHES or (step and LENGTHS.get(unit) == "foot"):
        return _show_feet_and_inches(Fraction(value), step)
    dimension = named(unit)
    scale, offset = _conversion(dimension.units[unit], dimension)
    above_zero = Fraction(value) - offset if offset else Fraction(value)
    return with_unit(_show_number(above_zero / scale, step), unit)


def digits(value: float) -> str:
    """Write a number for people: six significant digits, all those before the point, no exponent."""
    if not math.isfinite(value):
        return str(value)
    if abs(value) >= 1e6:
        return f"{value:.0f}"
    return f"{Decimal(f'{value + 0.0:.6g}'):f}"


def with_unit(number: str, unit: str) -> str:
    """Put a unit behind a number, with a space only where one is usual."""
    return f"{number}{'' if unit in CLOSE_UP else ' '}{unit}"


@cache
def named(unit: str) -> Dimension:
    """Return the dimension to which a unit written by itself belongs."""
    holding = [dimension for dimension in NAMED if unit in dimension.units]
    for dimension in holding:
        if dimension.units[unit] == dimension.units.get(dimension.plain):
            return dimension
    if holding:
        return holding[0]
    every = ", ".join(dict.fromkeys(unit for dimension in NAMED for unit in dimension.spellings()))
    raise BadInput(f'the unit "{unit[:LONGEST]}" is not known; allowed are: {every}')


def example(unit: str, most: float = 0.0, least: float = 0.0) -> str:
    """A text with a unit of that kind, another where one is common; of a measure that may be long a long one."""
    short = "3/8 in" if least < 9.525 else "5 in"
    common = {"mm": "32 ft" if most >= LONG else short, "kN": "450 kgf"}
    return common.get(unit) or named(unit).example()


def _exact(text: str, dimension: Dimension) -> Fraction:
    tidy = _tidy(text)
    if not tidy:
        raise BadInput("an empty text was given where a number is due")
    if len(tidy) > LONGEST or len(text) > 4 * LONGEST:
        raise BadInput(f"a text of {len(text)} characters was given where a number is due")
    if not dimension.units:
        raise BadInput(f'"{text}" is a text; type a plain number, without a unit')
    both = FEET_AND_INCHES.fullmatch(tidy)
    if both and "in" in dimension.units:
        return _feet_and_inches(text, both)
    found = MEASURE.fullmatch(tidy)
    if not found:
        raise BadInput(f'"{text}" is not a number with a unit; write it like "{dimension.example()}"')
    value = _value(text, found)
    scale, offset = _conversion(_pint_name(text, (found["unit"] or "").strip(), dimension), dimension)
    return value * scale + offset


def _tidy(text: str) -> str:
    """Fold the typographic variants of signs, spaces and fractions; nothing else is changed."""
    spelled = text.translate(TYPOGRAPHIC)
    if not spelled.isascii():
        spelled = "".join(map(_spelled, spelled))
    return re.sub(r" +", " ", spelled).strip()


def _spelled(sign: str) -> str:
    """A fraction in one sign, such as ½, as two numbers; any other sign as it is."""
    if not unicodedata.decomposition(sign).startswith("<fraction>"):
        return sign
    return " " + unicodedata.normalize("NFKC", sign).replace("\u2044", "/")


def _value(text: str, found: "re.Match[str]") -> Fraction:
    sign = -1 if found["sign"] == "-" else 1
    if found["decimal"]:
        decimal = found["decimal"].replace(",", ".")
        if THOUSANDS.fullmatch(found["decimal"]):
            thousands = decimal.replace(".", "")
            raise BadInput(
                f'"{text}" can be read as {float(decimal):g} and as {thousands}; write {decimal}0 or {thousands}'
            )
        return sign * Fraction(decimal)
    whole, over, under = int(found["whole"] or 0), int(found["over"]), int(found["under"])
    if under == 0 or (found["whole"] and over >= under):
        raise BadInput(f'"{text}" has the fraction {over}/{under}; the lower number must be the larger one')
    return sign * (whole + Fraction(over, under))


def _feet_and_inches(text: str, both: "re.Match[str]") -> Fraction:
    found = MEASURE.fullmatch(both["inches"])
    if not found or LENGTHS.get((found["unit"] or "").strip()) != "inch":
        raise BadInput(f'"{text}": after whole feet come inches, like "5 ft 3 1/2 in"')
    inches = _value(text, found)
    if inches >= 12:
        raise BadInput(f'"{text}" has {float(inches):g} inches after the feet; they must be below 12')
    sign = -1 if both["sign"] == "-" else 1
    scale, _ = _conversion("inch", LENGTH)
    return sign * (12 * int(both["feet"]) + inches) * scale


def _pint_name(text: str, unit: str, dimension: Dimension) -> str:
    if unit in dimension.units:
        return dimension.units[unit]
    if not unit:
        raise BadInput(
            f'"{text}" is a text without a unit; type the number itself, or add one of: {dimension.allowed()}'
        )
    if unit in ("ton", "tons"):
        raise BadInput(f'"{text}": a ton can be 1000 kg, 2000 lb or 2240 lb; write t, kg or lb')
    raise BadInput(
        f'"{text}": the unit "{unit}" does not fit a {dimension.name}; allowed are: {dimension.allowed()}'
    )


def units_library() -> Any:
    """Return pint; refuse one that was loaded by something else before and was never tried with these units."""
    advice = "type plain numbers without units, or remove what brought it, and start again"
    try:
        import pint

        version = str(pint.__version__)
    except ModuleNotFoundError:
        raise
    except Exception as broken:
        raise BadInput(f"units in texts need {PINT}; what was found is broken ({broken}); {advice}") from None
    if version.split(".")[:2] not in PINT_TRIED:
        place = getattr(pint, "__file__", None) or "an unknown place"
        raise BadInput(f"units in texts need {PINT}; {version} was found, from {place}; {advice}")
    return pint


@cache
def _registry() -> Any:
    try:
        return units_library().UnitRegistry(non_int_type=Fraction)
    except (BadInput, ModuleNotFoundError):
        raise
    except Exception as broken:
        raise BadInput(f"units in texts need {PINT}; the one found fails ({broken}); type plain numbers") from None


@cache
def _conversion(pint_name: str, dimension: Dimension) -> "tuple[Fraction, Fraction]":
    """Return scale and offset from a unit to the dimension's plain unit: exact, and pint's."""
    plain = PINT_PLAIN.get(dimension.plain) or dimension.units[dimension.plain]
    if pint_name in WITH_OFFSET:
        zero, one = (_registry().Quantity(Fraction(n), pint_name).to(plain).magnitude for n in (0, 1))
        return one - zero, zero
    return Fraction((1 * _registry().parse_expression(pint_name)).to(plain).magnitude), Fraction(0)


def _show_number(value: Fraction, denominator: Optional[int]) -> str:
    if not denominator:
        return digits(float(value))
    steps = round(value * denominator)
    whole, rest = divmod(abs(steps), denominator)
    parts = [str(part) for part in (whole, Fraction(rest, denominator)) if part]
    return ("-" if steps < 0 else "") + (" ".join(parts) or "0")


def _show_feet_and_inches(value: Fraction, denominator: Optional[int]) -> str:
    inch, _ = _conversion("inch", LENGTH)
    step = denominator or 1000
    rounded = Fraction(round(abs(value) / inch * step), step)
    feet, inches = divmod(rounded, 12)
    sign = "-" if value < 0 and rounded else ""
    return f"{sign}{feet} ft {_show_number(inches, denominator)} in"
