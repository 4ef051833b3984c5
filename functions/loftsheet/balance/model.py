"""A rig as the balance takes it: masts, points, stays, spreaders, cases. mm, kN, GPa, degrees, kelvin.

Axes: fore positive towards the bow, port positive to port, up positive. `out` of a point is to the side of the
stay that uses it.
"""

from dataclasses import dataclass
from typing import Optional

PORT, STARBOARD, MIDDLE = 1, -1, 0
SIDE_NAMES = {PORT: "port", STARBOARD: "starboard", MIDDLE: "centreline"}
HULL = "hull"


@dataclass(frozen=True)
class Mast:
    """A straight mast: stepped at its foot, through partners where a height of theirs is given."""

    name: str
    foot_fore: float
    foot_up: float
    rake: float
    head: float
    modulus: float
    area: float
    moment_fore: float  # second moment for bending fore and aft, mm⁴
    moment_side: float
    torsion: float
    partners: Optional[float]
    rate: float  # 1e-6/K
    row: int = 0

    @property
    def called(self) -> str:
        """Its name in a sentence."""
        return "the mast" if self.name.casefold() == "mast" else f"the mast {self.name}"


@dataclass(frozen=True)
class Point:
    """A point of the survey. `mast` is the mast it sits on, `HULL`, or "" where only stays meet."""

    name: str
    mast: str
    fore: float
    out: float
    up: float
    give: float = 0.0  # mm the hull gives for each kN


@dataclass(frozen=True)
class Stay:
    """One stay. Either its wanted tension at rest or the length its lashing takes out is known, or neither."""

    name: str
    row: int
    side: int
    points: "tuple[str, ...]"  # upper, what it runs over, lower
    ea: float
    rate: float  # 1e-6/K
    wanted: Optional[float] = None
    take_out: Optional[float] = None
    runner: bool = False


@dataclass(frozen=True)
class Spreader:
    """A spreader as a beam: from `root`, measured along the mast, to its tip."""

    tip: str
    root: float
    modulus: float
    area: float
    moment_fore: float
    moment_up: float
    torsion: float


@dataclass(frozen=True)
class Load:
    """Forces on a mast in a case: to lee (upright: to port) and forward, each square to the mast."""

    mast: str
    along: float
    side: float
    fore: float = 0.0


@dataclass(frozen=True)
class Case:
    """How the boat lies: the side that is to lee (MIDDLE: upright), heel, warmth, which runners are set."""

    name: str
    row: int
    lee: int = MIDDLE
    heel: float = 0.0
    warmer: float = 0.0
    runners: "tuple[int, ...]" = ()
    loads: "tuple[Load, ...]" = ()


@dataclass(frozen=True)
class Rig:
    """All that a balance depends on."""

    masts: "tuple[Mast, ...]"
    points: "tuple[Point, ...]"
    stays: "tuple[Stay, ...]"
    cases: "tuple[Case, ...]" = ()
    spreaders: "tuple[Spreader, ...]" = ()
