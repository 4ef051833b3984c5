"""Bolt and rod as made: what a class or a certificate promises, where thread stands, what the rod bears."""

from math import hypot
from typing import Annotated, Optional

from loftsheet import measure
from loftsheet.bolt import pin_bending
from loftsheet.degrees import cos
from loftsheet.errors import BadInput, NotInTable
from loftsheet.quantities import (
    Bolt,
    Megapascals,
    Millimetres,
    NewtonMetres,
    OutAngle,
    Pad,
    Ratio,
    Tension,
    Words,
    force,
    length,
    number,
    ratio,
    stress,
)
from loftsheet.registry import SMALLEST, calc

GROUP = "Bolt and rod as made"

PropertyClass = Annotated[
    float, ratio("property class stamped on the bolt, such as 70 of A4-70 or 8.8", least=3, most=100)
]
Strength = Annotated[float, stress("tensile strength")]
Yield = Annotated[float, stress("proof stress, or yield")]
BoltLength = Annotated[float, length("length of the bolt under its head", most=1_000)]
Pitch = Annotated[float, length("pitch of the thread", most=10)]
Arm = Annotated[float, length("lever of the pull square to the bolt", most=1_000)]
Plain = Annotated[
    float, length("plain shank beyond where the bolt is held, 0 where thread stands there", least=0, most=1_000)
]
Grip = Annotated[float, length("length of bolt inside the stub", most=300)]
Gamma = Annotated[float, ratio("partial safety factor of the material", least=1, most=3)]
ShapeFactor = Annotated[float, ratio("moment as a multiple of the one at first yield", most=1.7)]
Moment = Annotated[float, number("bending moment in the bolt", measure.MOMENT, SMALLEST, 1_000_000)]
MomentCapacity = Annotated[float, number("moment that the bolt can carry", measure.MOMENT, SMALLEST, 1_000_000)]
Shear = Annotated[float, force("pull square to the bolt")]
ShearCapacity = Annotated[float, force("shear that the bolt can carry")]
Along = Annotated[float, force("pull along the bolt", least=0)]
TensionCapacity = Annotated[float, force("tension that the bolt can carry")]
Ligament = Annotated[float, length("rod above the bolt, at its thinnest", most=300)]
Pressure = Annotated[float, stress("highest pressure on the rod, of bolt or rope")]
Crushing = Annotated[float, stress("crushing strength of the rod, from its certificate")]
ShearStress = Annotated[float, stress("shear stress in the rod, by RIG.ROD.SHEAR")]
ShearStrength = Annotated[float, stress("shear strength of the rod, from its certificate")]

# Class: tensile strength, proof stress (yield) in MPa.
CLASSES = {
    4.6: (400.0, 240.0),
    4.8: (400.0, 320.0),
    5.6: (500.0, 300.0),
    5.8: (500.0, 400.0),
    6.8: (600.0, 480.0),
    8.8: (800.0, 640.0),
    10.9: (1000.0, 900.0),
    50.0: (500.0, 210.0),
    70.0: (700.0, 450.0),
    80.0: (800.0, 600.0),
    100.0: (1000.0, 800.0),
}
# A bolt is as a rule somewhat better than its class; by more than a third it is another class, or a slip.
FAR_ABOVE = 1.35
ANNEALED = 350.0  # MPa of proof stress, above which a bar is not annealed any more


@calc("RIG.BOLT.STRENGTH", group=GROUP)
def bolt_strength(property_class: PropertyClass) -> Megapascals:
    """Tensile strength that a bolt's property class promises.

    Formula: 500, 700, 800, 1000 for 50, 70, 80, 100 of stainless bolts; 400 for 4.6 and 4.8, 500 for 5.6 and 5.8,
    600 for 6.8, 800 for 8.8, 1000 for 10.9
    Limits: a bolt made and stamped to that class, not one turned from bar: that has what its certificate says.
    Errors: #N/A for a class that is not among these.
    Source: ISO 3506-1 (stainless); EN 1993-1-8:2005 table 3.1 (steel).
    """
    promised = of_class(property_class)[0]  # MPa
    return promised


@calc("RIG.BOLT.PROOF", group=GROUP)
def bolt_proof(property_class: PropertyClass) -> Megapascals:
    """Proof stress (yield) that a bolt's property class promises.

    Formula: 210, 450, 600, 800 for 50, 70, 80, 100 of stainless bolts; 240, 320, 300, 400, 480, 640, 900 for 4.6,
    4.8, 5.6, 5.8, 6.8, 8.8, 10.9
    Limits: as RIG.BOLT.STRENGTH. Bar of the same steel, annealed, has about 200: a third of class 80.
    Errors: #N/A for a class that is not among these.
    Source: ISO 3506-1 (stainless, from memory); EN 1993-1-8:2005 table 3.1 (steel); bar EN 10088-3, from memory.
    """
    promised = of_class(property_class)[1]  # MPa
    return promised


@calc("RIG.BOLT.FIGURES", group=GROUP)
def bolt_figures(strength: Strength, yield_stress: Yield, property_class: Optional[PropertyClass] = None) -> Words:
    """Whether the figures typed for a bolt can be right, or in words what speaks against it.

    Formula: "plausible" when yield_stress < strength, and with a class when both are at least what it promises and
    strength no more than 1.35 times that; without a class, turned from bar, when yield_stress is up to 350 MPa
    Limits: a class is for a bolt that bears its mark. More than 350 MPa in a bar needs its certificate: annealed
    stainless bar has about 200.
    Errors: #N/A for a class that RIG.BOLT.PROOF does not know.
    Source: ISO 3506-1; EN 1993-1-8:2005 table 3.1; 1.35 and 350 MPa are assumed.
    """
    promised = None if property_class is None else of_class(property_class)  # MPa
    verdict = judged(strength, yield_stress, property_class, promised)  # text
    return verdict


@calc("RIG.BOLT.PLAIN", group=GROUP)
def bolt_plain(length: BoltLength, diameter: Bolt) -> Millimetres:
    """Plain shank of a hexagon bolt as the trade stocks it, under the head.

    Formula: plain = length − thread; thread = 2 · diameter + 6, + 12 from a length above 125 mm, + 25 above 200 mm
    Limits: bolts threaded in part; 0 and less is threaded up to the head. Less than what is wanted: the bolt is to
    be made, or a longer one's thread to be cut on.
    Source: ISO 4014, thread length (reference), from memory.
    """
    thread = 2 * diameter + (6 if length <= 125 else 12 if length <= 200 else 25)  # mm
    plain = length - thread  # mm
    return plain


@calc("RIG.BOLT.BENDING", group=GROUP)
def bolt_bending(
    diameter: Bolt,
    pitch: Pitch,
    yield_stress: Yield,
    arm: Arm,
    plain: Plain,
    pad: Pad,
    grip: Grip,
    gamma: Gamma = 1.0,
    factor: ShapeFactor = 1.5,
) -> NewtonMetres:
    """Bending moment where the bolt is held that it can carry with shank and thread as they are.

    Formula: the smaller of RIG.PIN.BENDING of the shank and that of the core divided by left; left is the part of
    the moment that there still is where the thread begins: 1 − plain/arm up to the stub, from there down to 0 at
    its outer end, (1 − pad/arm) · (1 − (plain − pad)/grip)
    Limits: `pad` is all from where the bolt is held to the stub, plain counts from the same place. Within the stub
    it is an upper bound. Thread in the stub would cut the rope if the rod were lost. Metric threads.
    Errors: Err:502 for a pitch above a third of the diameter, or a lever that ends before the stub.
    Source: EN 1993-1-8:2005 table 3.10; ISO 68-1 for the core, diameter − 1.2269 · pitch; statics of a cantilever.
    """
    if pitch > diameter / 3:
        raise BadInput(f"pitch {pitch:g} mm is above a third of the diameter {diameter:g} mm; check both")
    if arm <= pad:
        raise BadInput(f"the lever of {arm:g} mm ends before the stub, {pad:g} mm out; it must be more")
    left = moment_left(plain, arm, pad, grip)  # share
    of_shank = pin_bending(diameter, yield_stress, gamma, factor)  # N·m
    of_core = pin_bending(diameter - 1.2269 * pitch, yield_stress, gamma, factor)  # N·m
    moment = min(of_shank, of_core / left) if left else of_shank  # N·m
    return moment


@calc("RIG.BOLT.MARGIN", group=GROUP)
def bolt_margin(
    moment: Moment,
    shear: Shear,
    pull: Along,
    moment_capacity: MomentCapacity,
    shear_capacity: ShearCapacity,
    tension_capacity: TensionCapacity,
) -> Ratio:
    """How many times the pulls on a bolt may grow, all together, until it is used up.

    Formula: the smaller of 1/√((moment/moment_capacity + pull/tension_capacity)² + (shear/shear_capacity)²) and
    1/(shear/shear_capacity + pull/(1.4 · tension_capacity))
    Limits: as RIG.BOLT.CAPACITY, which for one stay is this times its tension.
    Source: EN 1993-1-8:2005 table 3.10 and table 3.4; the pull added to the bending by our own derivation.
    """
    bent = moment / moment_capacity  # share
    pulled = pull / tension_capacity  # share
    sheared = shear / shear_capacity  # share
    by_bending = 1 / hypot(bent + pulled, sheared)  # ratio
    by_shear = 1 / (sheared + pulled / 1.4)  # ratio
    times = min(by_bending, by_shear)  # ratio
    return times


@calc("RIG.ROD.SHEAR", group=GROUP)
def rod_shear(tension: Tension, out_angle: OutAngle, ligament: Ligament, grip: Grip) -> Megapascals:
    """Shear stress in the rod on either side of its bolt, which would tear out upwards.

    Formula: stress = tension · cos(out_angle) / (2 · ligament · grip)
    Limits: two planes from the hole's sides to the top, as high as the rod above the bolt; what of the rope
    presses on the rod between them helps and is not counted.
    Source: statics; tear-out of a pin as for plates.
    """
    shear_stress = 1000 * tension * cos(out_angle) / (2 * ligament * grip)  # MPa
    return shear_stress


@calc("RIG.ROD.MARGIN", group=GROUP, together=[("shear", "shear_strength")])
def rod_margin(
    pressure: Pressure,
    crushing: Crushing,
    shear: Optional[ShearStress] = None,
    shear_strength: Optional[ShearStrength] = None,
) -> Ratio:
    """How many times the load may grow until the rod is crushed or sheared.

    Formula: the smaller of crushing/pressure and shear_strength/shear
    Limits: the lowest strengths of the certificate, across the fibres and between their layers, wet where the
    certificate has that. The pressure is the larger of RIG.ROD.BEARING and RIG.ROPE.PRESSURE. Glass-epoxy breaks
    without warning: the margin required is that of the rope and not that of metal.
    Errors: Err:502 for a shear stress without its strength.
    Source: definition.
    """
    crushed = crushing / pressure  # ratio
    sheared = crushed if shear is None or shear_strength is None else shear_strength / shear  # ratio
    times = min(crushed, sheared)  # ratio
    return times


def of_class(property_class: float) -> "tuple[float, float]":
    """Tensile strength and proof stress of the class in the table of the standards."""
    if property_class not in CLASSES:
        known = ", ".join(f"{one:g}" for one in CLASSES)
        raise NotInTable(
            f"class {property_class:g} is not known; known are {known}: type what is stamped on the bolt"
        )
    return CLASSES[property_class]


def judged(
    strength: float,
    yield_stress: float,
    property_class: Optional[float],
    promised: "Optional[tuple[float, float]]",
) -> str:
    """All that speaks against the figures, or "plausible"."""
    objections = []
    if yield_stress >= strength:
        objections.append(
            f"the proof stress of {yield_stress:g} MPa must be below the strength of {strength:g} MPa: "
            "exchanged, or mistyped"
        )
    if promised is None:
        if yield_stress > ANNEALED:
            objections.append(
                f"{yield_stress:g} MPa is more than annealed bar has, about 200 MPa: only with the bar's "
                "certificate"
            )
        return "; ".join(objections) or "plausible"
    for what, given, due in zip(("strength", "proof stress"), (strength, yield_stress), promised):
        if given < due:
            objections.append(f"class {property_class:g} promises a {what} of {due:g} MPa, {given:g} was given")
    if strength > FAR_ABOVE * promised[0]:
        objections.append(
            f"a strength of {strength:g} MPa is far above the {promised[0]:g} MPa of class {property_class:g}: "
            "probably a typing error"
        )
    return "; ".join(objections) or "plausible"


def moment_left(plain: float, arm: float, pad: float, grip: float) -> float:
    """The moment where the thread begins, as a share of that where the bolt is held."""
    # Up to the stub it falls as a straight line. Inside, where the stub presses on the bolt one way, its curve
    # sags below the straight line to nothing at the outer end.
    if plain <= pad:
        return 1 - plain / arm
    return max(0.0, (1 - pad / arm) * (1 - (plain - pad) / grip))
