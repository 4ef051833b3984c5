"""Smallest bolt and smallest rod that do, found together: a thicker bolt asks for a thicker rod, a thicker rod
lengthens the bolt's lever."""

from typing import Annotated, Optional

from loftsheet.errors import NoSolution
from loftsheet.forms import COLUMN
from loftsheet.quantities import (
    Bevel,
    ForeAngle,
    Hole,
    OutAngle,
    Rope,
    Rows,
    Sleeve,
    Tension,
    Top,
    count,
    length,
    ratio,
    share,
    stress,
)
from loftsheet.registry import calc
from loftsheet.smallest import Column, Outer, Stub, first_pair

GROUP = "Smallest bolt and rod"

Sizes = Annotated[Column, length("bolt diameter in each row", most=100, form=COLUMN)]
Pitches = Annotated[Column, length("pitch of the thread in each row", most=10, form=COLUMN)]
Strengths = Annotated[Column, stress("tensile strength of the bolt in each row", form=COLUMN)]
Yields = Annotated[Column, stress("proof stress of the bolt in each row", form=COLUMN)]
Rods = Annotated[Column, length("rod diameter in each row", most=300, form=COLUMN)]
Required = Annotated[float, ratio("margin required of the bolt", least=1, most=20)]
Root = Annotated[
    float, length("from the stub back to where the bolt is held: pad and half the wall", least=0, most=200)
]
HolePlay = Annotated[float, length("how much wider the hole is than the bolt", least=0, most=10)]
Ligament = Annotated[float, length("least rod above the bolt", most=100)]
LigamentShare = Annotated[float, share("least rod above the bolt, in diameters of its hole", least=0, most=3)]
LeastRatio = Annotated[float, ratio("least rod diameter in rope diameters", least=1, most=20)]
DrillOff = Annotated[float, length("by how much the hole may be drilled too low or too high", least=0, most=10)]
DrillStep = Annotated[float, length("step to which the hole is rounded up the rod", least=0.01, most=10)]
Gamma = Annotated[float, ratio("partial safety factor of the material", least=1, most=3)]
Bending = Annotated[float, ratio("moment at which the bolt bends, in those at first yield", least=0.3, most=1.7)]
Straight = Annotated[
    float, ratio("moment up to which it stays straight, in those at first yield", least=0.3, most=1)
]
ShearFactor = Annotated[float, share("shear strength as a share of the tensile strength")]

Told = Annotated[float, count("1 tells what would do where no pair does, in place of an error", least=0, most=1)]
Thinnest = Annotated[
    float, length("bolts thinner than this are passed over, as the wall needs", least=0, most=100)
]

TOGETHER = [("outer_rope", "outer_load", "outer_out", "inner_fore", "outer_fore", "outer_sleeve")]


@calc("RIG.NEED.STUB", group=GROUP, together=TOGETHER)
def need_stub(
    sizes: Sizes,
    pitches: Pitches,
    strengths: Strengths,
    yields: Yields,
    rods: Rods,
    rope: Rope,
    out_angle: OutAngle,
    bevel: Bevel,
    top: Top,
    load: Tension,
    required: Required,
    sleeve: Sleeve = 1.0,
    root: Root = 0.0,
    hole_play: HolePlay = 0.5,
    ligament: Ligament = 8.0,
    ligament_share: LigamentShare = 0.75,
    least: LeastRatio = 3.0,
    drill_off: DrillOff = 0.5,
    drill_step: DrillStep = 0.1,
    hole_most: Optional[Hole] = None,
    gamma: Gamma = 1.25,
    bending: Bending = 1.5,
    straight: Straight = 0.8,
    shear_factor: ShearFactor = 0.6,
    outer_rope: Optional[Rope] = None,
    outer_load: Optional[Tension] = None,
    outer_out: Optional[OutAngle] = None,
    inner_fore: Optional[ForeAngle] = None,
    outer_fore: Optional[ForeAngle] = None,
    outer_sleeve: Sleeve = 1.0,
    told: Told = 0.0,
    thinnest: Thinnest = 0.0,
) -> Rows:
    """Smallest bolt and smallest rod that do together: their rows in the two tables, side by side.

    Formula: bolts from the thinnest and weakest, rods from the thinnest; the first pair with rod ≥ least · rope;
    rod above the hole ≥ ligament and ≥ ligament_share · hole, drilled as low as the stub stays upright, or as
    hole_most allows; rod left below it; moment ≤ straight · that at first yield; and RIG.BOLT.MARGIN ≥ required
    Limits: the eye at the end plate, plain shank where the bolt is held. A second, outer eye is given by
    outer_rope, outer_load, outer_out and both leads; rope, out_angle and load are then the inner one's. Wall and
    strength of the rod are not looked at. Ranges of one height for the bolts; rows wholly empty are skipped. INDEX
    takes one of the two rows out. With told 1, and where no pair does, 0 and in words what would. Bolts under
    thinnest are passed over.
    Errors: Err:523 where no pair does and told is 0, the words say which would; Err:502 for a half-empty row,
    ranges of unlike height, or half a second eye.
    Source: RIG.TANG.HOLE, RIG.TANG.ARM, RIG.DOUBLE.MOMENT, RIG.PIN.BENDING and RIG.BOLT.MARGIN, pair by pair, and
    their sources; what is left out is assumed.
    """
    outer = outer_eye(outer_rope, outer_load, outer_out, inner_fore, outer_fore, outer_sleeve)  # text
    stub = Stub(
        rope,
        sleeve,
        out_angle,
        bevel,
        top,
        load,
        required,
        root,
        hole_play,
        ligament,
        ligament_share,
        least,
        drill_off,
        drill_step,
        hole_most,
        gamma,
        bending,
        straight,
        shear_factor,
        outer,
    )  # text
    pair = first_pair(sizes, pitches, strengths, yields, rods, stub, thinnest)  # rows
    if pair.hindrance and not told:
        raise NoSolution(pair.hindrance)
    rows = ((0.0, pair.least),) if pair.hindrance else ((pair.bolt_row, pair.rod_row),)  # rows
    return rows


def outer_eye(
    rope: Optional[float],
    load: Optional[float],
    out_angle: Optional[float],
    inner_fore: Optional[float],
    outer_fore: Optional[float],
    sleeve: float,
) -> Optional[Outer]:
    """The second eye, where there is one: all its figures are given, or none."""
    if rope is None or load is None or out_angle is None or inner_fore is None or outer_fore is None:
        return None
    return Outer(rope, load, out_angle, inner_fore, outer_fore, sleeve)
