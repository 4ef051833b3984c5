"""Splice: bury, taper and marks, what a trial splice teaches, and the rope to cut for a stay.

A stay from end A to end B: waste, tail, eye, standing part, eye, tail, waste. On the bench the unspliced rope
lies at the light measuring tension of RIG.BENCH.TENSION, and every length to cut or mark is measured there.
"""

from typing import Annotated

from loftsheet.errors import BadInput
from loftsheet.quantities import (
    Bury,
    Eye,
    Kilonewtons,
    Millimetres,
    Rope,
    Rows,
    Share,
    TakeUp,
    Waste,
    length,
    ratio,
    share,
)
from loftsheet.registry import calc

GROUP = "Splice"

FidDiameters = Annotated[float, ratio("fid length in rope diameters", least=10, most=40)]
BuryDiameters = Annotated[
    float,
    ratio(
        "tail buried, in rope diameters",
        least=45,
        most=150,
        advice="a shorter bury creeps out of so slippery a fibre",
    ),
]
TaperShare = Annotated[float, share("tapered part of the buried tail, at its tip")]
Growth = Annotated[float, ratio("slack host that swallows a tail, in lengths of that tail", least=1, most=1.5)]
HostBefore = Annotated[float, length("marked length of host under tension, before the bury")]
HostAfter = Annotated[float, length("the same marks under the same tension, with the tail buried")]
Before = Annotated[float, length("marked length of the trial piece before it was loaded")]
After = Annotated[float, length("the same marks at the same tension, after it was loaded")]
Centres = Annotated[float, length("between the centres of the two fittings")]
ReachA = Annotated[float, length("from the fitting's centre to the throat at end A", most=5_000)]
ReachB = Annotated[float, length("from the fitting's centre to the throat at end B", most=5_000)]
Lower = Annotated[float, length("what else lies in the line: lashing gap, toggle, ring", least=0)]
Span = Annotated[float, length("throat to throat of the finished stay at its working tension")]
Stretch = Annotated[
    float, share("lasting set and elastic stretch, from the bench to the working tension", most=0.15)
]

# Stitched where the tail has its full thickness, well clear of the taper: 12 of 72 diameters.
LOCK_STITCH = 1 / 6


@calc("RIG.FID", group=GROUP)
def fid(rope: Rope, diameters: FidDiameters = 21.0) -> Millimetres:
    """Length of a tubular fid, the measure in which splicing instructions count.

    Formula: fid = diameters · rope
    Limits: instructions that count 7 circumferences mean 22 diameters, 4.7 % more; see which rule yours uses.
    Source: common practice, no source; B. Merry, The Splicing Handbook, p. 22 (edition not noted).
    """
    fid_length = diameters * rope  # mm
    return fid_length


@calc("RIG.BURY", group=GROUP)
def bury(rope: Rope, diameters: BuryDiameters = 72.0) -> Millimetres:
    """Length of tail buried in the standing part.

    Formula: bury = diameters · rope
    Limits: 12-strand HMPE, tapered and lock-stitched. Fewer than 72 diameters want a trial splice pulled first,
    and fewer than 45 are not allowed.
    Source: B. Toss, The Complete Rigger's Apprentice (2016), p. 105: 72 diameters for high-modulus
    12-strand; Practical Sailor, advice column on short splices: full strength from 45 diameters with lock
    stitching.
    """
    buried = diameters * rope  # mm
    return buried


@calc("RIG.TAPER", group=GROUP)
def taper(bury: Bury, share: TaperShare = 1 / 3) -> Millimetres:
    """Part of the buried tail that is tapered, measured from its tip.

    Formula: taper = share · bury
    Limits: an untapered tail costs strength, 8 to 20 % in pull tests, from memory.
    Source: definition; a third common practice, no source.
    """
    tapered = share * bury  # mm
    return tapered


@calc("RIG.BURY.MARK", group=GROUP)
def bury_mark(bury: Bury, growth: Growth = 4 / 3) -> Millimetres:
    """Distance along the slack host, from the throat to where the fid goes in.

    Formula: mark = growth · bury
    Limits: slack host, not yet filled: it grows fatter and shorter on to the tail, so that the mark lies beyond
    the tip of the tail in the end.
    Source: B. Toss, The Complete Rigger's Apprentice (2016), p. 104: a third more than the tail, for
    every braid.
    """
    mark = growth * bury  # mm
    return mark


@calc("RIG.TRIAL.TAKEUP", group=GROUP)
def trial_takeup(host_before: HostBefore, host_after: HostAfter, bury: Bury) -> Share:
    """Take-up measured on a trial splice: what the buried tail shortens its host by, for each length buried.

    Formula: take_up = (host_before − host_after) / bury
    Limits: the same two marks, either side of the whole bury, under the same tension before and after.
    Errors: Err:502 where the host did not become shorter, or the marks lie inside the bury.
    Source: definition.
    """
    if host_after >= host_before:
        raise BadInput(
            f"the host measured {host_before:g} mm before and {host_after:g} mm after; a tail makes it shorter,"
            " measure both under the same tension"
        )
    if host_after < bury:
        raise BadInput(
            f"the marks are {host_after:g} mm apart, less than the {bury:g} mm of tail; set them outside the bury"
        )
    measured_take_up = (host_before - host_after) / bury  # share
    return measured_take_up


@calc("RIG.TRIAL.SET", group=GROUP)
def trial_set(before: Before, after: After) -> Share:
    """Lasting stretch measured on a trial piece that was loaded and let down again.

    Formula: lasting_set = after / before − 1
    Limits: both measured at the same light tension.
    Errors: Err:502 where the piece became shorter.
    Source: definition.
    """
    if after < before:
        raise BadInput(
            f"the piece measured {before:g} mm before and {after:g} mm after; loading makes it longer,"
            " measure both at the same light tension"
        )
    lasting_set = after / before - 1  # share
    return lasting_set


@calc("RIG.BENCH.TENSION", group=GROUP)
def bench_tension(rope: Rope) -> Kilonewtons:
    """Light tension under which rope is laid out on the bench and measured.

    Formula: tension = 0.00138 · rope², in kN
    Limits: it takes the slack out and no stretch worth counting.
    Source: Cordage Institute CI 1500, from memory: 200 · diameter² pounds, the diameter in inches.
    """
    light_tension = 0.00138 * rope**2  # kN
    return light_tension


@calc("RIG.SPAN", group=GROUP)
def span(centres: Centres, reach_a: ReachA, reach_b: ReachB, lower: Lower = 0.0) -> Millimetres:
    """Length of the stay from throat to throat.

    Formula: span = centres − reach_a − reach_b − lower
    Limits: a straight stay at its working tension.
    Errors: Err:502 where nothing is left between the throats.
    Source: geometry.
    """
    throat_to_throat = centres - reach_a - reach_b - lower  # mm
    if throat_to_throat <= 0:
        raise BadInput(
            f"{centres:g} mm less {reach_a:g}, {reach_b:g} and {lower:g} mm leaves {throat_to_throat:g} mm; it"
            " must be above 0, shorten the eyes or what else lies in the line"
        )
    return throat_to_throat


@calc("RIG.CUT", group=GROUP)
def cut(
    span: Span,
    eye_a: Eye,
    eye_b: Eye,
    bury: Bury,
    stretch: Stretch,
    take_up: TakeUp = 0.1,
    waste: Waste = 50.0,
) -> Millimetres:
    """Rope to cut for a stay with a buried eye splice at each end.

    Formula: cut = span/(1 + stretch) + 2 · (eye_a + eye_b) + 2 · bury · (1 + take_up) + 2 · waste
    Limits: measured at the light measuring tension. take_up and stretch come from a trial splice of this very
    rope. A span under 8/3 · bury is questioned, for the marks of the two splices overlap. Left to the lashing are
    the few millimetres by which the eyes stretch and the doubled rope in the buries stretches less.
    Errors: Err:502 where the span is under 2 · bury, for the buries would meet.
    Source: the parts of the rope added up; take_up and waste are assumed until a trial splice is measured.
    """
    if span < 2 * bury:
        raise BadInput(
            f"a span of {span:g} mm is shorter than two buries of {bury:g} mm, which would meet; it must be at"
            f" least {2 * bury:g} mm, shorten the eyes or use thinner rope"
        )
    standing = span / (1 + stretch)  # mm
    eyes = 2 * (eye_a + eye_b)  # mm
    buries = 2 * bury * (1 + take_up)  # mm
    length_to_cut = standing + eyes + buries + 2 * waste  # mm
    return length_to_cut


@calc("RIG.BENCH", group=GROUP)
def bench(
    span: Span,
    eye_a: Eye,
    eye_b: Eye,
    bury: Bury,
    stretch: Stretch,
    take_up: TakeUp = 0.1,
    waste: Waste = 50.0,
    taper_share: TaperShare = 1 / 3,
    growth: Growth = 4 / 3,
) -> Rows:
    """Every mark on the rope of a stay, in order: rows of its name and its distance from end A.

    Formula: from either end: 0 the end, waste the tail's tip, + taper_share · bury the taper's start, waste + bury
    the throat, + eye the crown, + 2 · eye the throat again; from there + bury/6 the lock stitch's end and + growth
    · bury where the fid goes in; the other end lies at RIG.CUT
    Limits: as RIG.CUT; unspliced rope at the light measuring tension. The waste is part of the cut length: mark
    first, trim after the taper. Below 8/3 · bury of span the marks of the two splices overlap: mark the second
    splice when the first is done. The lock stitch runs from the throat into the standing part.
    Errors: Err:502 where the span is under 2 · bury, or growth is not more than 1 + take_up: the tail would stick
    out where the fid went in.
    Source: the parts of RIG.CUT one after the other; growth as RIG.BURY.MARK; a third for the taper and a sixth of
    the bury for the lock stitch are common practice, no source; take_up and waste are assumed.
    """
    if growth <= 1 + take_up:
        raise BadInput(
            f"growth {growth:g} is not more than 1 + take-up, {1 + take_up:g}; the tail would stick out where the"
            " fid went in, give a larger growth"
        )
    end_b = cut(span, eye_a, eye_b, bury, stretch, take_up, waste)  # mm
    marks_a = marks_of_end(eye_a, bury, waste, taper_share, growth)  # mm
    marks_b = marks_of_end(eye_b, bury, waste, taper_share, growth)  # mm
    rows = in_order(marks_a, marks_b, end_b)  # mm
    return rows


Marks = tuple[tuple[str, float], ...]


def marks_of_end(eye: float, bury: float, waste: float, taper_share: float, growth: float) -> Marks:
    """Name and distance of each mark of one end, measured from that end."""
    tail_throat = waste + bury
    standing_throat = tail_throat + 2 * eye
    return (
        ("end {}", 0.0),
        ("tail tip {}", waste),
        ("taper start {}", waste + taper_share * bury),
        ("throat {}, tail", tail_throat),
        ("crown {}", tail_throat + eye),
        ("throat {}, standing part", standing_throat),
        ("lock stitch end {}", standing_throat + LOCK_STITCH * bury),
        ("fid entry {}", standing_throat + growth * bury),
    )


def in_order(marks_a: Marks, marks_b: Marks, end_b: float) -> Marks:
    """The marks of both ends measured from end A, the nearest first, for those of a short stay overlap."""
    from_a = [(name.format("A"), distance) for name, distance in marks_a]
    from_b = [(name.format("B"), end_b - distance) for name, distance in reversed(marks_b)]
    return tuple(sorted(from_a + from_b, key=lambda mark: mark[1]))
