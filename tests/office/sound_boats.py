"""Sound boats of other kinds than the demo boats, all invented: no check may question what is usual on them."""

from copy import deepcopy
from types import SimpleNamespace

from templates.boats import marrowick
from templates.boats.marrowick import CAP, SIDES, on_mast, plate, shroud, stay, stub, typed
from templates.boats.stock import LIBRARY

STOCK = {
    **deepcopy(LIBRARY),
    "rod": deepcopy(marrowick.RODS),
    "rope": [
        {**row, **marrowick.CREEP, "trial": "measured", "trial_date": "2026-02-01"} for row in LIBRARY["rope"]
    ],
}
MAST = {"foot_fore": 0, "foot_up": 0, "rake": 1, "proof": 240, "note": "invented"}
BOLTED = {"rod": "FR-4 rod 52 mm", "bolt": "M16 A4-80", "lee_heel": 25}


def boat(name, assumed, **rows):
    return SimpleNamespace(BOAT={**marrowick.BOAT, "name": name, **BOLTED, **assumed}, ROWS={**STOCK, **rows})


def both(made):
    return [made(side) for side in SIDES]


def cap(side, wire, name="cap", tip="tip", **more):
    return shroud(
        f"{name}, {side}",
        "cap on mast",
        f"cap plate, {side}",
        wire,
        CAP,
        kind="cap shroud",
        side=side,
        via=f"{tip}, {side}",
        **more,
    )


def lower(side, wire):
    return shroud(
        f"lower, {side}",
        "lower on mast",
        f"lower plate, {side}",
        wire,
        "single lower",
        kind="single lower",
        side=side,
    )


def stubs(side):
    return [stub(f"cap stub, {side}", f"cap, {side}"), stub(f"lower stub, {side}", f"lower, {side}", room=200)]


SLOOP = boat(
    "six stays",
    {"rope": "HMPE 12-strand 6 mm", "line": "HMPE 12-strand 5 mm", "rm30": 3.6, "chainplate_out": 950, "warmer": 10},
    masts=[{"name": "mast", **MAST, "head": 8000, "width": 75, "section": 110, "wall": 2.5}],
    points=[
        on_mast("masthead", 7900, 0),
        on_mast("cap on mast", 7850, 38),
        on_mast("lower on mast", 3900, 38),
        *both(lambda side: typed(f"tip, {side}", -100, 780, 4000)),
        *both(lambda side: typed(f"cap plate, {side}", -120, 950, 0)),
        *both(lambda side: typed(f"lower plate, {side}", -300, 950, 0)),
        typed("stem", 2400, 0, 50),
        typed("stern", -3000, 0, 100),
    ],
    stays=[
        *both(lambda side: cap(side, "1x19 4 mm")),
        *both(lambda side: lower(side, "1x19 4 mm")),
        stay("forestay", "masthead", "stem", "1x19 4 mm", kind="forestay", side="centreline", pretension_own=1.3, runs="soft hanks"),
        stay("backstay", "masthead", "stern", "1x19 4 mm", kind="backstay", side="centreline", pretension_own=1.1),
    ],
    tangs=[row for side in SIDES for row in stubs(side)],
    chainplates=[
        *both(lambda side: plate(f"cap plate, {side}", 25)),
        *both(lambda side: plate(f"lower plate, {side}", 25)),
        plate("stem", 25),
        plate("stern", 25),
    ],
)

SWEPT = boat(
    "swept spreaders and no backstay",
    {"rope": "HMPE 12-strand 7 mm", "line": "HMPE 12-strand 5 mm", "rm30": 7, "chainplate_out": 1150, "warmer": 10},
    masts=[{"name": "mast", **MAST, "head": 9800, "width": 90, "section": 130, "wall": 3}],
    points=[
        on_mast("hounds", 8300, 0),
        on_mast("cap on mast", 8250, 45),
        on_mast("lower on mast", 4100, 45),
        *both(lambda side: typed(f"tip, {side}", -460, 760, 4250)),
        *both(lambda side: typed(f"cap plate, {side}", -640, 1150, 0)),
        *both(lambda side: typed(f"lower plate, {side}", -600, 1140, 0)),
        typed("stem", 2900, 0, 50),
    ],
    stays=[
        *both(lambda side: cap(side, "1x19 5 mm")),
        *both(lambda side: lower(side, "1x19 5 mm")),
        stay("forestay", "hounds", "stem", "1x19 5 mm", kind="forestay", side="centreline", pretension_own=1.6, runs="soft hanks"),
    ],
    tangs=[row for side in SIDES for row in stubs(side)],
    chainplates=[
        *both(lambda side: plate(f"cap plate, {side}", 30)),
        *both(lambda side: plate(f"lower plate, {side}", 30)),
        plate("stem", 30),
    ],
)

ONE_ROW = boat(
    "one row for both cap shrouds, a furler, a split backstay",
    {"rope": "HMPE 12-strand 8 mm", "rm30": 12, "chainplate_out": 1300, "warmer": 12},
    masts=[{"name": "mast", **MAST, "head": 11500, "width": 105, "section": 150, "wall": 4}],
    points=[
        on_mast("masthead", 11400, 0),
        on_mast("cap on mast", 11300, 52),
        on_mast("lower on mast", 5500, 52),
        typed("tip", -120, 1110, 5700),
        typed("cap plate", -180, 1300, 0),
        *both(lambda side: typed(f"lower plate, {side}", -420, 1290, 0)),
        typed("stem", 3700, 0, 100),
        typed("split", -3770, 0, 2500),
        typed("quarter", -4700, 600, 150),
    ],
    stays=[
        shroud("caps", "cap on mast", "cap plate", "1x19 6 mm", CAP, kind="cap shroud", side="both", via="tip", number=2),
        *both(lambda side: lower(side, "1x19 6 mm")),
        stay("forestay", "masthead", "stem", "1x19 7 mm", kind="forestay", side="centreline", pretension_own=3, made_of="existing wire", runs="furler", upper_over="", lower_over=""),
        stay("backstay", "masthead", "split", "1x19 6 mm", kind="backstay", side="centreline", pretension_own=2.7, chainplate=35),
        stay("legs", "split", "quarter", "1x19 5 mm", kind="backstay leg", side="both", number=2, pretension_own=1.4),
    ],
    tangs=[
        stub("cap stubs", "caps", number=2),
        *both(lambda side: stub(f"lower stub, {side}", f"lower, {side}", room=200)),
    ],
    chainplates=[
        plate("cap plate", 40),
        *both(lambda side: plate(f"lower plate, {side}", 45)),
        plate("stem", 45),
        plate("quarter", 35),
    ],
)

FRACTIONAL = boat(
    "forestay lower than the backstay",
    {"rope": "HMPE 12-strand 8 mm", "rm30": 10, "chainplate_out": 1250, "warmer": 12},
    masts=[{"name": "mast", **MAST, "head": 11500, "width": 100, "section": 145, "wall": 4}],
    points=[
        on_mast("masthead", 11400, 0),
        on_mast("hounds", 9700, 0),
        on_mast("cap on mast", 9650, 50),
        on_mast("lower on mast", 4700, 50),
        on_mast("aft lower on mast", 4300, 50),
        *both(lambda side: typed(f"tip, {side}", -160, 950, 4900)),
        *both(lambda side: typed(f"cap plate, {side}", -200, 1250, 0)),
        *both(lambda side: typed(f"fore plate, {side}", 450, 1230, 0)),
        *both(lambda side: typed(f"aft plate, {side}", -700, 1230, 0)),
        typed("stem", 3300, 0, 80),
        typed("stern", -4600, 0, 150),
    ],
    stays=[
        *both(lambda side: cap(side, "1x19 6 mm")),
        *(
            shroud(f"{end} lower, {side}", point, f"{end} plate, {side}", wire, marrowick.LOWER, kind=f"lower {end}", side=side, pretension_own=pretension)
            for end, point, wire, pretension in (("fore", "lower on mast", "1x19 6 mm", 2.8), ("aft", "aft lower on mast", "1x19 5 mm", 1.9))
            for side in SIDES
        ),
        stay("forestay", "hounds", "stem", "1x19 6 mm", kind="forestay", side="centreline", pretension_own=2.2, runs="soft hanks"),
        stay("backstay", "masthead", "stern", "1x19 5 mm", kind="backstay", side="centreline", pretension_own=1.9),
    ],
    tangs=[
        *both(lambda side: stub(f"cap stub, {side}", f"cap, {side}")),
        *both(lambda side: stub(f"fore stub, {side}", f"fore lower, {side}", room=200)),
        *both(lambda side: stub(f"aft stub, {side}", f"aft lower, {side}", room=300)),
    ],
    chainplates=[
        *both(lambda side: plate(f"cap plate, {side}", 40)),
        *both(lambda side: plate(f"fore plate, {side}", 35)),
        *both(lambda side: plate(f"aft plate, {side}", 35)),
        plate("stem", 40),
        plate("stern", 30),
    ],
)

BOATS = (SLOOP, SWEPT, ONE_ROW, FRACTIONAL)
