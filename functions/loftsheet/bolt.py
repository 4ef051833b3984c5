"""Bolt, mast wall and rod under load: what the stay's pull on its lever does to each.

A force in kN on a lever in mm is a moment in N·m.
"""

from math import hypot, pi
from typing import Annotated

from loftsheet import measure
from loftsheet.degrees import cos, sin
from loftsheet.errors import BadInput
from loftsheet.quantities import (
    Bolt,
    Kilonewtons,
    Load,
    Megapascals,
    Millimetres,
    NewtonMetres,
    OutAngle,
    Pad,
    Rod,
    Rope,
    SquareMillimetres,
    Tension,
    count,
    force,
    length,
    number,
    ratio,
    share,
    stress,
)
from loftsheet.registry import SMALLEST, Quantity, calc

GROUP = "Bolt and wall"

Pitch = Annotated[float, length("pitch of the thread", most=10)]
Depth = Annotated[float, share("part of the pitch that the thread takes off the diameter", most=1.5)]
Area = Annotated[float, number("stress area of the thread, or area of the shank", measure.AREA, SMALLEST, 10_000)]
Strength = Annotated[float, stress("tensile strength of the bolt")]
Yield = Annotated[float, stress("yield or proof stress")]
Gamma = Annotated[float, ratio("partial safety factor of the material", least=1, most=3)]
Planes = Annotated[float, count("planes in which the bolt is sheared", most=4)]
ShearFactor = Annotated[float, share("shear strength as a share of the tensile strength")]
ShapeFactor = Annotated[float, ratio("moment as a multiple of the one at first yield", most=1.7)]
Arm = Annotated[float, length("lever of the stay's pull on the bolt at the mast", most=1_000)]
Moment = Annotated[float, number("bending moment", measure.MOMENT, SMALLEST, 1_000_000)]
MomentCapacity = Annotated[float, number("moment that the bolt can carry", measure.MOMENT, SMALLEST, 1_000_000)]
Shear = Annotated[float, force("shear force")]
ShearCapacity = Annotated[float, force("shear that the bolt can carry")]
TensionCapacity = Annotated[float, force("tension that the bolt can carry")]
Thickness = Annotated[float, length("thickness of the wall", most=200)]
MastWidth = Annotated[float, length("width of the mast along the bolt", most=1_000)]
Grip = Annotated[float, length("length of bolt inside the stub", most=300)]
Outside = Annotated[float, length("end plate and washers outside the stub, along the bolt", most=200)]
Ends = Annotated[float, length("nuts and thread standing out, both ends together", most=300)]
Sides = Annotated[float, count("sides of the mast with a stub", most=2)]
Nuts = Annotated[float, count("nuts on the bolt, both ends together", most=6)]
NutHeight = Annotated[float, ratio("height of a nut in bolt diameters", least=0.3, most=3)]
Used = Annotated[float, Quantity("share used, 1 is all", measure.SHARE)]


@calc("RIG.BOLT.AREA", group=GROUP)
def bolt_area(diameter: Bolt, pitch: Pitch, depth: Depth = 0.9382) -> SquareMillimetres:
    """Stress area of a thread.

    Formula: area = π/4 · (diameter − depth · pitch)²
    Limits: depth 0.9382 is for metric threads; an inch thread (UN) takes 0.9743, with pitch 1/13 in for 13 threads
    in an inch.
    Errors: Err:502 for a pitch above a third of the diameter.
    Source: ISO 898-1 (metric); ASME B1.1 (inch).
    """
    if pitch > diameter / 3:
        raise BadInput(f"pitch {pitch:g} mm is above a third of the diameter {diameter:g} mm; check both")
    stressed = diameter - depth * pitch  # mm
    area = pi / 4 * stressed**2  # mm²
    return area


@calc("RIG.BOLT.CORE", group=GROUP)
def bolt_core(diameter: Bolt, pitch: Pitch) -> Millimetres:
    """Core diameter of a thread, for bending where thread stands at the wall.

    Formula: core = diameter − 1.2269 · pitch
    Limits: metric threads; an inch thread's core is a little thicker.
    Errors: Err:502 for a pitch above a third of the diameter.
    Source: ISO 68-1, ISO 724, thread geometry: 17/12 of the height of the basic triangle, √3/2 · pitch.
    """
    if pitch > diameter / 3:
        raise BadInput(f"pitch {pitch:g} mm is above a third of the diameter {diameter:g} mm; check both")
    core = diameter - 1.2269 * pitch  # mm
    return core


@calc("RIG.BOLT.SHEAR", group=GROUP)
def bolt_shear(
    area: Area, strength: Strength, planes: Planes = 1.0, factor: ShearFactor = 0.6, gamma: Gamma = 1.25
) -> Kilonewtons:
    """Shear that a bolt can carry.

    Formula: shear = factor · strength · area · planes / gamma
    Limits: strength is the tensile strength. Factor 0.6 is for a plain shank and for steel grades 4.6, 5.6 and
    8.8; with thread in the plane take 0.5 for stainless bolts and the other grades.
    Source: EN 1993-1-8:2005 table 3.4; 0.5 for stainless thread EN 1993-1-4, from memory.
    """
    shear = factor * strength * area * planes / gamma / 1000  # kN
    return shear


@calc("RIG.BOLT.TENSION", group=GROUP)
def bolt_tension(area: Area, strength: Strength, gamma: Gamma = 1.25) -> Kilonewtons:
    """Tension that a bolt can carry along its axis.

    Formula: tension = 0.9 · strength · area / gamma
    Limits: area is the stress area of the thread, strength the tensile strength; nut at least 0.8 diameters.
    Source: EN 1993-1-8:2005 table 3.4.
    """
    tension = 0.9 * strength * area / gamma / 1000  # kN
    return tension


@calc("RIG.BOLT.PULL", group=GROUP)
def bolt_pull(tension: Tension, out_angle: OutAngle) -> Kilonewtons:
    """Pull of the stay along the bolt.

    Formula: pull = tension · sin(out_angle)
    Limits: bolt square to the mast face; the tightening of the nut comes on top.
    Source: statics.
    """
    pull = tension * sin(out_angle)  # kN
    return pull


@calc("RIG.BOLT.CAPACITY", group=GROUP)
def bolt_capacity(
    arm: Arm,
    out_angle: OutAngle,
    moment_capacity: MomentCapacity,
    shear_capacity: ShearCapacity,
    tension_capacity: TensionCapacity,
) -> Kilonewtons:
    """Tension of the stay at which the bolt is used up.

    Formula: the smaller of 1 / √((arm/moment_capacity + sin(out_angle)/tension_capacity)² +
    (cos(out_angle)/shear_capacity)²) and 1 / (cos(out_angle)/shear_capacity + sin(out_angle)/(1.4 ·
    tension_capacity))
    Limits: the bolt alone carries the bending; the help of a tight stub on a hard pad is not counted. Bending and
    pull are added, which is on the safe side for a round bar. The second rule governs only when the arm is a few
    millimetres.
    Source: EN 1993-1-8:2005 table 3.10 (bending with shear) and table 3.4 (shear with tension); the pull added by
    our own derivation.
    """
    bending = arm / moment_capacity  # 1/kN
    pull = sin(out_angle) / tension_capacity  # 1/kN
    shear = cos(out_angle) / shear_capacity  # 1/kN
    by_bending = 1 / hypot(bending + pull, shear)  # kN
    by_shear = 1 / (shear + pull / 1.4)  # kN
    capacity = min(by_bending, by_shear)  # kN
    return capacity


@calc("RIG.PIN.BENDING", group=GROUP)
def pin_bending(
    diameter: Bolt, yield_stress: Yield, gamma: Gamma = 1.0, factor: ShapeFactor = 1.5
) -> NewtonMetres:
    """Bending moment that a pin or bolt can carry.

    Formula: moment = factor · π · diameter³ / 32 · yield_stress / gamma
    Limits: where thread stands at the wall the diameter is the thread's core. Factor 1.5 leaves the pin bent a
    little; 0.8 is for a pin that is to come out again, at the load in service; 1.7 is fully plastic.
    Source: EN 1993-1-8:2005 table 3.10.
    """
    section = pi * diameter**3 / 32  # mm³
    moment = factor * section * yield_stress / gamma / 1000  # N·m
    return moment


@calc("RIG.PIN.BEARING", group=GROUP)
def pin_bearing(diameter: Bolt, thickness: Thickness, yield_stress: Yield, gamma: Gamma = 1.0) -> Kilonewtons:
    """Load that a wall can carry in the hole of a pin.

    Formula: bearing = 1.5 · diameter · thickness · yield_stress / gamma
    Limits: yield stress of the softer of wall and pin; gamma 1.1 for aluminium. The wall as measured, doublers
    only where they are bonded or welded on.
    Source: EN 1993-1-8:2005 table 3.10; 1.1 EN 1999-1-1, from memory.
    """
    bearing = 1.5 * diameter * thickness * yield_stress / gamma / 1000  # kN
    return bearing


@calc("RIG.PIN.USE", group=GROUP)
def pin_use(moment: Moment, moment_capacity: MomentCapacity, shear: Shear, shear_capacity: ShearCapacity) -> Used:
    """Share of a pin that bending and shear together use up.

    Formula: use = (moment / moment_capacity)² + (shear / shear_capacity)²
    Limits: up to 1 passes. The pull along the pin is not in it; RIG.BOLT.CAPACITY counts that too.
    Source: EN 1993-1-8:2005 table 3.10.
    """
    bent = moment / moment_capacity  # share
    sheared = shear / shear_capacity  # share
    use = bent**2 + sheared**2  # share
    return use


@calc("RIG.TANG.MOMENT", group=GROUP)
def tang_moment(tension: Tension, arm: Arm) -> NewtonMetres:
    """Bending moment of the stay's pull in the bolt at the mast.

    Formula: moment = tension · arm
    Limits: arm from RIG.TANG.ARM; the bolt alone carries it.
    Source: statics.
    """
    moment = tension * arm  # N·m
    return moment


@calc("RIG.MAST.BEARING", group=GROUP)
def mast_bearing(tension: Tension, out_angle: OutAngle, arm: Arm, mast_width: MastWidth) -> Kilonewtons:
    """Load of the bolt on the near wall of the mast, with one side loaded.

    Formula: bearing = tension · (cos(out_angle) + arm / mast_width)
    Limits: a bolt through both walls, the other side slack, which is the worst case. Exact when width and arm
    are measured from the middle of the wall; from its outside the result is a few percent low. A tube
    between the walls stops crushing, not bearing.
    Source: statics, a beam on two walls that overhangs one of them.
    """
    across = tension * cos(out_angle)  # kN
    prying = tension * arm / mast_width  # kN
    bearing = across + prying  # kN
    return bearing


def highest_pressure(mean: float, off: float) -> float:
    """Pressure at the pressed end: mean · (1 + 6 · off), or mean · 4 / (3 · (1 − 2 · off)) above 1/6."""
    if off <= 1 / 6:
        return mean * (1 + 6 * off)
    return 4 * mean / (3 * (1 - 2 * off))


@calc("RIG.ROD.BEARING", group=GROUP)
def rod_bearing(
    tension: Tension, out_angle: OutAngle, bolt: Bolt, grip: Grip, arm: Arm, pad: Pad = 0.0
) -> Megapascals:
    """Highest pressure of the bolt in the hole of the stub.

    Formula: pressure = tension · cos(out_angle) / (bolt · grip) · (1 + 6 · e), or · 4 / (3 · (1 − 2 · e)) where e
    is above 1/6; e = |arm / cos(out_angle) − pad − grip / 2| / grip
    Limits: pressure spread as a straight line along the bolt; stub and bolt stiff; what the nut's clamping does is
    left out. With e above 1/6 one end of the stub lifts off the bolt, which is questioned.
    Errors: Err:502 with e from 1/2 on: the pull is off the end of the stub.
    Source: statics; kern of a rectangle, and a triangle of pressure beyond it.
    """
    crossing = arm / cos(out_angle)  # mm
    off_middle = abs(crossing - pad - grip / 2)  # mm
    if off_middle >= grip / 2:
        raise BadInput(
            f"the pull meets the bolt {off_middle:.4g} mm from the middle of the stub, allowed is less than half "
            f"the grip, {grip / 2:.4g} mm; keep the eye nearer the middle or change top or hole"
        )
    mean = 1000 * tension * cos(out_angle) / (bolt * grip)  # MPa
    pressure = highest_pressure(mean, off_middle / grip)  # MPa
    return pressure


@calc("RIG.ROPE.PRESSURE", group=GROUP)
def rope_pressure(load: Load, rope: Rope, rod: Rod) -> Megapascals:
    """Pressure between the eye and the rod.

    Formula: pressure = load / (rope · rod)
    Limits: load on the whole eye, on its two legs together; a rope that flattens presses less.
    Source: statics of a belt half round a pulley.
    """
    pressure = 1000 * load / (rope * rod)  # MPa
    return pressure


@calc("RIG.BOLT.LENGTH", group=GROUP)
def bolt_length(
    mast_width: MastWidth, pad: Pad, grip: Grip, outside: Outside, ends: Ends, sides: Sides = 2.0
) -> Millimetres:
    """Length of the bolt, end to end.

    Formula: length = mast_width + sides · (pad + grip + outside) + ends
    Limits: outside along the bolt: end plate / cos(bevel), the tapered washer's middle and the flat washers. With
    one side, what lies under the nut on the bare mast is added to ends.
    Source: geometry; a stub on either side is assumed.
    """
    one_side = pad + grip + outside  # mm
    total = mast_width + sides * one_side + ends  # mm
    return total


@calc("RIG.BOLT.SHANK", group=GROUP)
def bolt_shank(mast_width: MastWidth, pad: Pad, grip: Grip) -> Millimetres:
    """Plain shank wanted on a bolt with a stub on either side.

    Formula: shank = mast_width + 2 · (pad + grip)
    Limits: thread in the grip would cut the rope if the rod were lost.
    Source: geometry.
    """
    shank = mast_width + 2 * (pad + grip)  # mm
    return shank


@calc("RIG.BOLT.ENDS", group=GROUP)
def bolt_ends(diameter: Bolt, pitch: Pitch, nuts: Nuts = 2.0, nut: NutHeight = 1.2) -> Millimetres:
    """Length of bolt under the nuts and beyond them, both ends together.

    Formula: ends = nuts · (nut · diameter + 2 · pitch)
    Limits: two turns of thread stand out beyond each nut; 1.2 diameters is a self-locking nut.
    Errors: Err:502 for a pitch above a third of the diameter.
    Source: common practice, no source.
    """
    if pitch > diameter / 3:
        raise BadInput(f"pitch {pitch:g} mm is above a third of the diameter {diameter:g} mm; check both")
    one_end = nut * diameter + 2 * pitch  # mm
    ends = nuts * one_end  # mm
    return ends
