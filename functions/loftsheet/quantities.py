"""The vocabulary of the arguments: what each quantity is, its unit and the one place where its limits stand.

A limit is the edge of what the formulas are meant for (rigs up to 40 m high), not of what is wise.
No length may reach 40 m: a date typed by mistake, which Calc keeps as a day number above that, is refused.
"""

from typing import Annotated, Any

from loftsheet import measure
from loftsheet.forms import MATRIX, TEXT
from loftsheet.measure import Dimension
from loftsheet.registry import SMALLEST, Quantity

LONGEST = 40_000.0  # mm, and below the day number of every date since 2009


def number(text: str, dimension: Dimension, least: float, most: float, **more: Any) -> Quantity:
    return Quantity(text, dimension, float(least), float(most), **more)


def length(text: str, least: float = SMALLEST, most: float = LONGEST, **more: Any) -> Quantity:
    return number(text, measure.LENGTH, least, most, **more)


def force(text: str, least: float = SMALLEST, most: float = 5_000.0, **more: Any) -> Quantity:
    return number(text, measure.FORCE, least, most, **more)


def angle(text: str, least: float = 0.0, most: float = 60.0, **more: Any) -> Quantity:
    return number(text, measure.ANGLE, least, most, **more)


def share(text: str, least: float = SMALLEST, most: float = 1.0, **more: Any) -> Quantity:
    return number(text, measure.SHARE, least, most, **more)


def ratio(text: str, least: float = SMALLEST, most: float = 1_000.0, **more: Any) -> Quantity:
    return number(text, measure.RATIO, least, most, **more)


def count(text: str, least: float = 1.0, most: float = 1_000.0, **more: Any) -> Quantity:
    return number(text, measure.COUNT, least, most, whole=True, **more)


def stress(text: str, least: float = SMALLEST, most: float = 3_000.0, **more: Any) -> Quantity:
    return number(text, measure.STRESS, least, most, **more)


# Results: what comes out may have either sign and any finite size.
Millimetres = Annotated[float, Quantity("a length", measure.LENGTH)]
Kilonewtons = Annotated[float, Quantity("a force", measure.FORCE)]
KilonewtonMetres = Annotated[float, Quantity("a moment of the boat", measure.RIGHTING)]
NewtonMetres = Annotated[float, Quantity("a moment in a bolt", measure.MOMENT)]
Degrees = Annotated[float, Quantity("an angle", measure.ANGLE)]
Share = Annotated[float, Quantity("a share, 0 to 1", measure.SHARE)]
Ratio = Annotated[float, Quantity("a plain number", measure.RATIO)]
Count = Annotated[float, Quantity("a whole number", measure.COUNT)]
Megapascals = Annotated[float, Quantity("a stress", measure.STRESS)]
SquareMillimetres = Annotated[float, Quantity("an area", measure.AREA)]
CentimetresToTheFourth = Annotated[float, Quantity("a second moment of area", measure.SECOND_MOMENT)]
Kilograms = Annotated[float, Quantity("a mass", measure.MASS)]
Words = Annotated[str, Quantity("words", form=TEXT)]
Rows = Annotated[Any, Quantity("rows of cells", form=MATRIX)]

# Survey
Fore = Annotated[float, length("position towards the bow, aft is negative", least=-LONGEST)]
Out = Annotated[float, length("distance from the centreline on the stay's own side", least=-LONGEST)]
Up = Annotated[float, length("height above the datum", least=-LONGEST)]
Along = Annotated[float, length("distance measured along the mast from its foot", least=0)]
Aft = Annotated[
    float, length("distance aft of the mast's middle, square to it; forward is negative", least=-LONGEST)
]
Rake = Annotated[float, angle("rake of the mast, aft is positive", least=-15, most=15)]
OutAngle = Annotated[float, angle("angle at which the stay leaves the mast face, athwartships", most=45)]

# Rod tang
Rod = Annotated[float, length("diameter of the rod", most=300)]
Rope = Annotated[float, length("diameter of the rope", most=100)]
Bevel = Annotated[
    float,
    angle(
        "bevel of the bevelled face, from square",
        most=35,
        advice="at a flatter stay the eye is held by friction no more; use another fitting",
    ),
]
ForeAngle = Annotated[
    float,
    angle("angle at which the stay leads forward of the mast's axis, aft is negative", least=-60, most=60),
]
Friction = Annotated[float, ratio("friction of the sleeve on the rod", least=0, most=1)]
Seat = Annotated[float, length("from the bevelled face to the eye's middle, along the top", most=300)]
Top = Annotated[float, length("short side of the stub, on top", most=300)]
Hole = Annotated[float, length("from the top edge of the bevelled face down to the hole's centre", most=300)]
BoltHole = Annotated[float, length("diameter of the bolt hole", most=100)]
Sleeve = Annotated[float, length("wall of the chafe sleeve", least=0, most=20)]
Bolt = Annotated[float, length("diameter of the bolt", most=100)]
Pad = Annotated[float, length("thickness of all that lies between mast and stub", least=0, most=100)]
Plate = Annotated[float, length("thickness of the end plate", least=0, most=50)]
Room = Annotated[float, length("from the bolt's centre up to a spreader or another stop", most=1_000)]
Rise = Annotated[float, length("how far the end plate stands above the rod", least=0, most=200)]

# Rope, eye, splice
Eye = Annotated[float, length("eye laid flat: half the rope between its throat marks", most=5_000)]
Bury = Annotated[float, length("length of tail buried", most=10_000)]
TakeUp = Annotated[float, share("what a loaded bury shortens its host by, as a share of the bury", most=0.3)]
Waste = Annotated[float, length("rope trimmed off each end", least=0, most=1_000)]
BreakLoad = Annotated[float, force("breaking load of the rope")]
Load = Annotated[float, force("load")]
Tension = Annotated[float, force("tension of the stay")]
ThroatAngle = Annotated[
    float,
    angle(
        "throat angle, between the two legs of the eye",
        least=SMALLEST,
        most=150,
        advice="a longer eye has a smaller throat angle",
    ),
]

# Wire, and the stay as a whole
StayLength = Annotated[float, length("length of rope or wire between its ends")]
Wire = Annotated[float, length("diameter of the wire", most=50)]
Fill = Annotated[float, share("metal in the wire's circle")]
