"""Chainplates: a loop of rope round a bar or through a plate, and the hole of a metal one."""

from math import pi, sqrt
from typing import Annotated

from loftsheet.degrees import asin
from loftsheet.errors import BadInput
from loftsheet.eye import Inside, LoopStretch, Turns, grommet_cut
from loftsheet.quantities import (
    Bury,
    Kilonewtons,
    Load,
    Millimetres,
    Rope,
    Rows,
    TakeUp,
    Waste,
    length,
    ratio,
    stress,
)
from loftsheet.registry import calc
from loftsheet.splice import LOCK_STITCH, Growth, Marks, TaperShare, in_order

GROUP = "Chainplate"

Apart = Annotated[float, length("from the middle of the bar to the middle of the ring or pin", most=10_000)]
Bar = Annotated[float, length("diameter of the bar that the loop goes round", most=500)]
Pin = Annotated[float, length("diameter of the ring or pin in its other end", most=500)]
Thickness = Annotated[float, length("thickness of the plate", most=100)]
Rounding = Annotated[float, length("radius to which the edge of the hole is rounded", most=50)]
Hole = Annotated[float, length("diameter of the hole", most=200)]
End = Annotated[float, length("plate beyond the hole, from its edge, the way the stay pulls", most=500)]
Side = Annotated[float, length("plate beside the hole, from its edge, on either side", most=500)]
Yield = Annotated[float, stress("yield or proof stress of the plate")]
Gamma = Annotated[float, ratio("partial safety factor of the material", least=1, most=3)]


@calc("RIG.GROMMET.INSIDE", group=GROUP)
def grommet_inside(apart: Apart, bar: Bar, pin: Pin) -> Millimetres:
    """Inside length, laid flat, of a loop that holds a ring or pin so far from a bar.

    Formula: inside = √(apart² − half²) + π/4 · (bar + pin) + half · asin(half / apart) in radians,
    half = (bar − pin)/2
    Limits: a taut loop, lengths under the working tension. apart is more than half of bar and pin together.
    Errors: Err:502 where it is not.
    Source: geometry of an open belt round two pulleys.
    """
    if apart <= (bar + pin) / 2:
        raise BadInput(
            f"{apart:g} mm from middle to middle leaves no room between bar and pin; it must be more than "
            f"{(bar + pin) / 2:g} mm"
        )
    half_difference = (bar - pin) / 2  # mm
    straight = sqrt(apart**2 - half_difference**2)  # mm
    slant = asin(half_difference / apart)  # °
    inside = straight + pi / 4 * (bar + pin) + half_difference * slant * pi / 180  # mm
    return inside


@calc("RIG.GROMMET.MARKS", group=GROUP)
def grommet_marks(
    inside: Inside,
    rope: Rope,
    bury: Bury,
    take_up: TakeUp = 0.1,
    waste: Waste = 50.0,
    turns: Turns = 1.0,
    stretch: LoopStretch = 0.0,
    taper_share: TaperShare = 1 / 3,
    growth: Growth = 4 / 3,
) -> Rows:
    """Every mark on the rope of an endless loop, in order: rows of its name and its distance from end A.

    Formula: from either end: 0 the end, waste the tail's tip, + taper_share · bury the taper's start, waste + bury
    where the ends cross, + bury/6 the lock stitch's end, + growth · bury where the fid goes in; the other end
    lies at RIG.GROMMET.CUT
    Limits: as RIG.GROMMET.CUT; unspliced rope at the light measuring tension. Lay the turns, bring the two
    crossing marks together, bury each tail into the other's standing part, away from the crossing. All round under
    8/3 · bury the marks of the two overlap: mark the second when the first is done.
    Errors: as RIG.GROMMET.CUT, Err:502; also where growth is no more than 1 + take_up, for a tail would stick out.
    Source: the parts of RIG.GROMMET.CUT one after the other; a sixth of the bury for the lock stitch is common
    practice, no source; take_up, waste, taper and growth as RIG.BENCH.
    """
    if growth <= 1 + take_up:
        raise BadInput(
            f"growth {growth:g} is not more than 1 + take-up, {1 + take_up:g}; the tail would stick out where the"
            " fid went in, give a larger growth"
        )
    end_b = grommet_cut(inside, rope, bury, take_up, waste, turns, stretch)  # mm
    marks = marks_of_tail(bury, waste, taper_share, growth)  # mm
    rows = in_order(marks, marks, end_b)  # mm
    return rows


@calc("RIG.BEND.EDGE", group=GROUP)
def bend_edge(thickness: Thickness, rounding: Rounding) -> Millimetres:
    """Diameter over which a rope bends at the edge of a hole in a plate, as of a pin.

    Formula: bend = 2 · rounding
    Limits: both edges rounded smooth, by no more than half the thickness each. For RIG.BEND.RATIO in place of the
    rod; a sharp edge cuts the rope.
    Errors: Err:502 for a rounding of more than half the thickness.
    Source: geometry.
    """
    if rounding > thickness / 2:
        raise BadInput(
            f"a plate of {thickness:g} mm cannot be rounded to a radius of {rounding:g} mm on both edges; it must "
            f"be up to {thickness / 2:g} mm"
        )
    bend = 2 * rounding  # mm
    return bend


@calc("RIG.PLATE.CAPACITY", group=GROUP)
def plate_capacity(
    thickness: Thickness, hole: Hole, end: End, side: Side, yield_stress: Yield, gamma: Gamma = 1.0
) -> Kilonewtons:
    """Pull that a plate can carry round the hole of a pin, beyond it and beside it.

    Formula: capacity = 2 · thickness · yield_stress / gamma / 1000 · the smaller of end − 2/3 · hole and
    side − hole/3
    Limits: a sound flat plate pulled in its plane; tear-out beyond the hole and the section beside it, the pin's
    bearing is RIG.PIN.BEARING. gamma 1.1 for stainless and aluminium, from memory. Fastening and hull are not in
    it.
    Errors: Err:502 where nothing is left beyond the hole or beside it.
    Source: EN 1993-1-8:2005 table 3.9, type A.
    """
    beyond = end - 2 / 3 * hole  # mm
    beside = side - hole / 3  # mm
    if min(beyond, beside) <= 0:
        raise BadInput(
            f"a hole of {hole:g} mm needs more than {2 / 3 * hole:.4g} mm of plate beyond it and "
            f"{hole / 3:.4g} mm beside it; {end:g} and {side:g} were given"
        )
    capacity = 2 * thickness * yield_stress / gamma * min(beyond, beside) / 1000  # kN
    return capacity


@calc("RIG.PLATE.END", group=GROUP)
def plate_end(
    load: Load, thickness: Thickness, hole: Hole, yield_stress: Yield, gamma: Gamma = 1.0
) -> Millimetres:
    """Least plate beyond the hole of a pin, from its edge, the way the stay pulls.

    Formula: end = 1000 · load · gamma/(2 · thickness · yield_stress) + 2/3 · hole
    Limits: as RIG.PLATE.CAPACITY; load is the one to be held, with its margin.
    Source: EN 1993-1-8:2005 table 3.9, type A.
    """
    strip = 1000 * load * gamma / (2 * thickness * yield_stress)  # mm
    end = strip + 2 / 3 * hole  # mm
    return end


@calc("RIG.PLATE.SIDE", group=GROUP)
def plate_side(
    load: Load, thickness: Thickness, hole: Hole, yield_stress: Yield, gamma: Gamma = 1.0
) -> Millimetres:
    """Least plate beside the hole of a pin, from its edge, on either side.

    Formula: side = 1000 · load · gamma/(2 · thickness · yield_stress) + hole/3
    Limits: as RIG.PLATE.CAPACITY; load is the one to be held, with its margin.
    Source: EN 1993-1-8:2005 table 3.9, type A.
    """
    strip = 1000 * load * gamma / (2 * thickness * yield_stress)  # mm
    side = strip + hole / 3  # mm
    return side


@calc("RIG.PLATE.THICKNESS", group=GROUP)
def plate_thickness(load: Load, yield_stress: Yield, gamma: Gamma = 1.0) -> Millimetres:
    """Least thickness of a plate of the standard shape for its pin.

    Formula: thickness = 0.7 · √(1000 · load · gamma / yield_stress)
    Limits: a hole of up to 2.5 · thickness, 1.6 · hole from its middle to the end and 1.25 · hole to either side.
    Load is the one to be held, with its margin.
    Source: EN 1993-1-8:2005 table 3.9, type B.
    """
    thickness = 0.7 * sqrt(1000 * load * gamma / yield_stress)  # mm
    return thickness


def marks_of_tail(bury: float, waste: float, taper_share: float, growth: float) -> Marks:
    """The marks of one end, measured from it."""
    crossing = waste + bury
    return (
        ("end {}", 0.0),
        ("tail tip {}", waste),
        ("taper start {}", waste + taper_share * bury),
        ("crossing {}", crossing),
        ("lock stitch end {}", crossing + LOCK_STITCH * bury),
        ("fid entry {}", crossing + growth * bury),
    )
