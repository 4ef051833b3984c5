"""The balance in cells. Each range holds a row for each thing; columns as listed with it, in that order.

All functions take the same ranges and the balance is worked out once for all cells that ask for it.
"""

from typing import Annotated, Any, Optional

from loftsheet.balance import answers, tables
from loftsheet.forms import TABLE, TEXT
from loftsheet.quantities import Kilonewtons, Rows, Words
from loftsheet.registry import Quantity, calc

GROUP = "Balance"


def _range(table: tables.Table) -> Quantity:
    return Quantity(table.described(), form=TABLE)


Masts = Annotated[Any, _range(tables.MASTS)]
Points = Annotated[Any, _range(tables.POINTS)]
Stays = Annotated[Any, _range(tables.STAYS)]
Cases = Annotated[Any, _range(tables.CASES)]
Loads = Annotated[Any, _range(tables.LOADS)]
Spreaders = Annotated[Any, _range(tables.SPREADERS)]
WhichRows = Annotated[str, Quantity("which rows: stays, masts, cases or felt", form=TEXT)]
StayName = Annotated[str, Quantity("name of a stay", form=TEXT)]
CaseName = Annotated[str, Quantity('name of a case; "" at the dock', form=TEXT)]
PointName = Annotated[
    str, Quantity("name of a point on a mast or where stays meet; a mast's name for its foot", form=TEXT)
]


@calc("RIG.BALANCE.WORDS", group=GROUP)
def balance_words(
    masts: Masts,
    points: Points,
    stays: Stays,
    cases: Optional[Cases] = None,
    loads: Optional[Loads] = None,
    spreaders: Optional[Spreaders] = None,
) -> Words:
    """Say why a rig has no balance, or which wanted tensions cannot be had; an empty text where all is well.

    Formula: words = "not checked: " and what is missing, "no balance: " and what does not hold, or what differs
    by more than 2 %
    Limits: those of RIG.BALANCE.STAYS.
    Source: statics.
    """
    words = answers.words(masts, points, stays, cases, loads, spreaders)  # text
    return words


@calc("RIG.BALANCE.STAYS", group=GROUP)
def balance_stays(
    masts: Masts,
    points: Points,
    stays: Stays,
    cases: Optional[Cases] = None,
    loads: Optional[Loads] = None,
    spreaders: Optional[Spreaders] = None,
) -> Rows:
    """Tensions of all stays at the dock and in each case: a row for each row of stays.

    Formula: tension = max(0, EA / length · (take-out − rate · warmer · length + what the ends move apart)), EA
    from `stays`, with every node in balance. Columns: length mm; take-out mm; tension at the dock kN; kN per mm of
    its own lashing; largest tension kN; the case of it; smallest; the case of it; then two for each row of cases,
    the larger and the smaller of the two sides. 0 is slack, blank is not set up.
    Limits: straight masts, small displacements, no pumping, steady loads; a hull that gives only where `points`
    says so; ropes without weight. Wanted tensions are tuned with straight masts, half of each runner counting
    where only one is set; a take-out counts from a rope that just reaches. Sizes in mm, EA and forces in kN,
    moduli in GPa, expansion in 1e-6/K.
    Errors: Err:523 where nothing holds a mast one way, a mast buckles at the dock, or wanted tensions cannot be
    tuned; RIG.BALANCE.WORDS says which and why.
    Source: J. S. Przemieniecki, Theory of Matrix Structural Analysis (1968), beams and their geometric stiffness.
    """
    rows = answers.stay_rows(masts, points, stays, cases, loads, spreaders)  # rows
    return rows


@calc("RIG.BALANCE.MASTS", group=GROUP)
def balance_masts(
    masts: Masts,
    points: Points,
    stays: Stays,
    cases: Optional[Cases] = None,
    loads: Optional[Loads] = None,
    spreaders: Optional[Spreaders] = None,
) -> Rows:
    """Compression, buckling factor and movement of each mast at the dock and in each case: a row for each mast.

    Formula: six columns at the dock, then six for each row of cases: compression at the foot kN; factor against
    buckling; head forward mm; head to lee mm; bow forward mm; bow to lee mm, the bow from the straight line
    between foot and head; upright, port counts as lee. The factor is that on the axial forces of the mast and
    its spreaders and on the tensions of its stays, at which they take away all stiffness in one direction, with
    the stays taut that are taut; it is not looked for above 50.
    Limits: those of RIG.BALANCE.STAYS; a factor of 1 or less has no movements. Yielding and dents of the wall
    are not checked.
    Errors: as RIG.BALANCE.STAYS.
    Source: S. P. Timoshenko and J. M. Gere, Theory of Elastic Stability, 2nd ed. (1961); Przemieniecki, as before.
    """
    rows = answers.mast_rows(masts, points, stays, cases, loads, spreaders)  # rows
    return rows


@calc("RIG.BALANCE.CASES", group=GROUP)
def balance_cases(
    masts: Masts,
    points: Points,
    stays: Stays,
    cases: Cases,
    loads: Optional[Loads] = None,
    spreaders: Optional[Spreaders] = None,
) -> Rows:
    """What each case comes to: a row for each row of cases.

    Formula: columns: words where the case has no balance; heel at which the first stay to lee goes slack,
    its sine = share of the forces · sin(heel of the case), blank where none does; that stay; number of slack
    stays; smallest factor against buckling; largest tension kN; that stay.
    Limits: those of RIG.BALANCE.STAYS; forces are taken to grow with the sine of the heel.
    Errors: as RIG.BALANCE.STAYS; a case in which a mast buckles is no error, its words say so.
    Source: statics.
    """
    rows = answers.case_rows(masts, points, stays, cases, loads, spreaders)  # rows
    return rows


@calc("RIG.BALANCE.EFFECT", group=GROUP)
def balance_effect(
    masts: Masts,
    points: Points,
    stays: Stays,
    cases: Optional[Cases] = None,
    loads: Optional[Loads] = None,
    spreaders: Optional[Spreaders] = None,
) -> Rows:
    """What a millimetre of each lashing does to every stay at the dock, in kN: a row and a column for each stay.

    Formula: effect = (compliance of masts and taut stays)⁻¹; the row's stay gains so many kN for each mm that the
    column's lashing takes out; of a row for both sides the port ones
    Limits: small changes, while the same stays stay taut. Runners are cast off, for their own columns those of
    one side are set.
    Errors: as RIG.BALANCE.STAYS.
    Source: Maxwell's reciprocity; statics.
    """
    rows = answers.effect_rows(masts, points, stays, cases, loads, spreaders)  # rows
    return rows


@calc("RIG.BALANCE.FELT", group=GROUP)
def balance_felt(
    masts: Masts,
    points: Points,
    stays: Stays,
    cases: Optional[Cases] = None,
    loads: Optional[Loads] = None,
    spreaders: Optional[Spreaders] = None,
) -> Rows:
    """Say which other stays feel a millimetre of each lashing most: a row of one text for each row of stays.

    Formula: the column of RIG.BALANCE.EFFECT of that stay, the three largest of other stays in kN, as far as they
    come to a tenth of what the stay itself gains
    Limits: those of RIG.BALANCE.EFFECT.
    Errors: as RIG.BALANCE.STAYS.
    Source: Maxwell's reciprocity; statics.
    """
    rows = answers.felt_rows(masts, points, stays, cases, loads, spreaders)  # rows
    return rows


@calc("RIG.BALANCE.LINES", group=GROUP)
def balance_lines(
    rows: WhichRows,
    masts: Masts,
    points: Points,
    stays: Stays,
    cases: Optional[Cases] = None,
    loads: Optional[Loads] = None,
    spreaders: Optional[Spreaders] = None,
) -> Words:
    """Give all rows of RIG.BALANCE.STAYS, MASTS, CASES or FELT as one text, to be kept in one cell.

    Formula: cells of a row parted by ¦, rows by ¶; numbers with 12 digits and a decimal point, a blank cell is –
    Limits: those of RIG.BALANCE.STAYS.
    Errors: as RIG.BALANCE.STAYS; Err:502 for other rows.
    Source: none needed.
    """
    words = answers.lines(rows, masts, points, stays, cases, loads, spreaders)  # text
    return words


@calc("RIG.BALANCE.TENSION", group=GROUP)
def balance_tension(
    stay: StayName,
    case: CaseName,
    masts: Masts,
    points: Points,
    stays: Stays,
    cases: Optional[Cases] = None,
    loads: Optional[Loads] = None,
    spreaders: Optional[Spreaders] = None,
) -> Kilonewtons:
    """Tension of one stay in one case, with its strain.

    Formula: tension = EA / length · strain · length, EA from `stays`, strain = max(0, take_out + warmth + moved)
    / length, take_out is what the lashing takes out, warmth what it tightens by, moved what its ends move apart
    Limits: those of RIG.BALANCE.STAYS. Of a stay on both sides the tighter one. At the dock both runners
    pull half.
    Errors: as RIG.BALANCE.STAYS; Err:523 too where the case has no balance or the stay is not set up in it; #N/A
    where there is no such stay or case.
    Source: Hooke's law.
    """
    parts = answers.stretch(stay, case, masts, points, stays, cases, loads, spreaders)  # rows
    ea = parts[0]  # kN
    length = parts[1]  # mm
    take_out = parts[2]  # mm
    warmth = parts[3]  # mm
    moved = parts[4]  # mm
    strain = max(0.0, take_out + warmth + moved) / length  # share
    stiffness = ea / length  # kN/mm
    tension = stiffness * strain * length  # kN
    return tension


@calc("RIG.BALANCE.POINT", group=GROUP)
def balance_point(
    point: PointName,
    case: CaseName,
    masts: Masts,
    points: Points,
    stays: Stays,
    cases: Optional[Cases] = None,
    loads: Optional[Loads] = None,
    spreaders: Optional[Spreaders] = None,
) -> Rows:
    """The forces on the node at one point in one case, and their sum, which is nothing.

    Formula: a row for each force: what it comes from; kN forward; kN to port; kN up; the last row is the sum
    Limits: those of RIG.BALANCE.STAYS. A node takes all points within a millimetre of its height.
    Errors: as RIG.BALANCE.STAYS; Err:523 too where the case has no balance; Err:502 where there is no such case
    or no stay takes hold at the point.
    Source: statics.
    """
    rows = answers.point_rows(point, case, masts, points, stays, cases, loads, spreaders)  # rows
    return rows
