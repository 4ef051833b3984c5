"""Marrowick: an invented 10.4 m bermudan cutter, single mast, one pair of spreaders. No such boat exists."""

from typing import Any

from templates.boats.stock import LIBRARY

BOAT: "dict[str, Any]" = {
    "name": "Marrowick",
    "revision": "A",
    "date": "2026-03-01",
    "currency": "EUR",
    "contact": "the skipper of Marrowick (invented), telephone 0000 000 000",
    "wanted": "2026-04-10",
    "delivery": "carriage paid to the harbour office, Invented Quay 1",
    "note": "Invented demo boat: invented survey, ropes and prices.",
    "family": "HMPE 12-strand",
    "rope": "HMPE 12-strand 10 mm",
    "line": "HMPE 12-strand 6 mm",
    "rod": "FR-4 rod 52 mm",
    "bolt": "M16 A4-80",
    "sleeve": "tubular sleeve 1 mm",
    "ring": "ring 30 mm",
    "rm30": 20,
    "waterline": -600,
    "balance": "rope and wire",
    "chainplate_out": 1480,
    "lee_heel": 25,
    "drill_off": 0.3,
    "warmer": 15,
    "tuned": 15,
    "cg_up": -300,
}


MASTS = [
    {
        "name": "mast",
        "foot_fore": 0,
        "foot_up": 0,
        "rake": 1,
        "head": 13100,
        "width": 110,
        "section": 160,
        "wall": 4,
        "proof": 240,
        "inertia_fore_own": 480,
        "inertia_out_own": 320,
        "note": "invented, second moments too: fuller than an ellipse, and with its sail track",
    }
]


def on_mast(name: str, along: float, out: float, mast: str = "") -> "dict[str, Any]":
    return {"name": name, "mast": mast, "along": along, "out": out, "note": "invented"}


def typed(name: str, fore: float, out: float, up: float) -> "dict[str, Any]":
    return {"name": name, "fore_own": fore, "out": out, "up_own": up, "note": "invented"}


POINTS = [
    on_mast("masthead", 13000, 0),
    on_mast("cap shroud on mast", 12900, 55),
    on_mast("inner forestay on mast", 9300, 0),
    on_mast("runner on mast", 9250, 55),
    on_mast("fore lower on mast", 6320, 55),
    on_mast("aft lower on mast", 5780, 55),
    typed("spreader tip, port", -150, 1202, 6560),
    typed("spreader tip, starboard", -148, 1198, 6562),
    typed("cap chainplate, port", -205, 1480, -48),
    typed("cap chainplate, starboard", -203, 1478, -50),
    typed("fore lower chainplate, port", 452, 1382, -40),
    typed("fore lower chainplate, starboard", 450, 1380, -42),
    typed("aft lower chainplate, port", -850, 1409, -52),
    typed("aft lower chainplate, starboard", -853, 1411, -50),
    typed("stem head", 4310, 0, 160),
    typed("inner forestay on deck", 2720, 0, 60),
    typed("backstay split", -4320, 0, 3200),
    typed("quarter chainplate", -5580, 705, 190),
    typed("runner chainplate, port", -3300, 1382, 95),
    typed("runner chainplate, starboard", -3302, 1380, 96),
]


def stay(name: str, upper: str, lower: str, wire: str, **more: Any) -> "dict[str, Any]":
    row = {
        "name": name,
        "number": 1,
        "upper": upper,
        "lower": lower,
        "wire": wire,
        "runs": "nothing",
        "basis": "wire replaced",
        "upper_over": "ring",
        "lower_over": "ring",
    }
    return {**row, **more}


def shroud(name: str, upper: str, lower: str, wire: str, share: str, **more: Any) -> "dict[str, Any]":
    from_moment = {"basis": "righting moment", "share": share, "upper_over": "stub"}
    return stay(name, upper, lower, wire, **{**from_moment, **more})


CAP, LOWER = "cap shroud, one spreader", "each of two lowers"
SEVEN, EIGHT, ELEVEN = (f"HMPE 12-strand {size} mm" for size in (7, 8, 11))
SIDES = ("port", "starboard")

STAYS = [
    *(
        shroud(
            f"cap shroud, {side}",
            "cap shroud on mast",
            f"cap chainplate, {side}",
            "1x19 7 mm",
            CAP,
            via=f"spreader tip, {side}",
            kind="cap shroud",
            side=side,
        )
        for side in SIDES
    ),
    *(
        shroud(
            f"fore lower, {side}",
            "fore lower on mast",
            f"fore lower chainplate, {side}",
            "1x19 6 mm",
            LOWER,
            kind="lower fore",
            side=side,
            pretension_own=3.8,
            rope_own=EIGHT,
        )
        for side in SIDES
    ),
    *(
        shroud(
            f"aft lower, {side}",
            "aft lower on mast",
            f"aft lower chainplate, {side}",
            "1x19 6 mm",
            LOWER,
            kind="lower aft",
            side=side,
            pretension_own=1.9,
            rope_own=EIGHT,
        )
        for side in SIDES
    ),
    stay(
        "forestay",
        "masthead",
        "stem head",
        "1x19 8 mm",
        kind="forestay",
        side="centreline",
        rope_own=ELEVEN,
        runs="soft hanks",
        pretension_own=5.0,
        upper_ring_own="ring 40 mm",
        lower_ring_own="ring 40 mm",
    ),
    stay(
        "inner forestay",
        "inner forestay on mast",
        "inner forestay on deck",
        "1x19 5 mm",
        kind="inner forestay",
        side="centreline",
        rope_own=SEVEN,
        pretension_own=2.4,
        runs="soft hanks",
    ),
    stay("backstay, upper part", "masthead", "backstay split", "1x19 7 mm", kind="backstay", side="centreline", pretension_own=3.9, chainplate=45, note="lashed to the upper rings of both legs, half of the parts to each"),
    stay("backstay leg", "backstay split", "quarter chainplate", "1x19 6 mm", kind="backstay leg", side="both", rope_own=EIGHT, number=2, pretension_own=2.0),
    *(
        shroud(
            f"running backstay, {side}",
            "runner on mast",
            f"runner chainplate, {side}",
            "1x19 5 mm",
            "",
            basis="typed",
            kind="runner",
            side=side,
            load_own=5.8,
            pretension_own=2.0,
            rope_own=SEVEN,
            fittings=900,
            note="invented; holds the inner forestay's pull alone: only the windward one is set up; lashed to a tackle of 900 mm, which is not in this book",
        )
        for side in SIDES
    ),
]


def stub(name: str, stay: str, **more: Any) -> "dict[str, Any]":
    return {"name": name, "number": 1, "stay": stay, "sides": 2, **more}


TANGS = [
    *(
        stub(f"cap stub, {side}", f"cap shroud, {side}", rod_own="FR-4 rod 65 mm", bolt_own="M20 A4-70")
        for side in SIDES
    ),
    *(stub(f"fore lower stub, {side}", f"fore lower, {side}", room=110) for side in SIDES),
    *(stub(f"aft lower stub, {side}", f"aft lower, {side}", room=500) for side in SIDES),
    *(stub(f"runner stub, {side}", f"running backstay, {side}", rod_own="FR-4 rod 45 mm", bolt_own="M14 A4-80") for side in SIDES),
]



def plate(name: str, holds: float, **more: Any) -> "dict[str, Any]":
    return {"name": name, "made_of": "metal", "holds_own": holds, "note": "invented", **more}


# A flat plate of stainless, a hole in it for the lashing.
FLAT = {"thickness": 12, "hole": 14, "end": 16, "side": 14, "yield_stress": 220}


def loop(name: str, rope: str, turns: float, bar: float, apart: float, **more: Any) -> "dict[str, Any]":
    return {
        "name": name,
        "made_of": "rope loop",
        "rope_own": rope,
        "turns": turns,
        "round": "bar",
        "bar": bar,
        "apart": apart,
        "note": "invented",
        **more,
    }


CHAINPLATES = [
    *(plate(f"cap chainplate, {side}", 45) for side in SIDES),
    *(plate(f"fore lower chainplate, {side}", 45, **FLAT) for side in SIDES),
    *(plate(f"aft lower chainplate, {side}", 45) for side in SIDES),
    plate("stem head", 60),
    plate("inner forestay on deck", 45),
    plate("quarter chainplate", 45),
    *(loop(f"runner chainplate, {side}", SEVEN, 4, 25, 150, holds_own=30) for side in SIDES),
]

# Trial splices of the sizes used, and a maker's creep: invented like the rest.
MEASURED = {
    7: {"trial_date": "2026-02-09", "take_up": 0.091, "lasting_set": 0.013},
    8: {"trial_date": "2026-02-10", "take_up": 0.093, "lasting_set": 0.0114},
    10: {"trial_date": "2026-02-12", "take_up": 0.097, "lasting_set": 0.012},
    11: {"trial_date": "2026-02-15", "take_up": 0.102, "lasting_set": 0.01},
}
CREEP = {"creep": 0.00004, "creep_temp": 20}
ROPES = [
    {**row, **CREEP, "trial": "measured", **MEASURED[row["size"]]} if row["size"] in MEASURED else row
    for row in LIBRARY["rope"]
]

RODS = [{**row, "construction": "filament wound"} for row in LIBRARY["rod"]]

PRICES = {
    "HMPE 12-strand 6 mm": 4.1,
    "HMPE 12-strand 7 mm": 5.6,
    "HMPE 12-strand 8 mm": 7.2,
    "HMPE 12-strand 10 mm": 10.9,
    "HMPE 12-strand 11 mm": 13.4,
    "FR-4 rod 45 mm": 61.0,
    "FR-4 rod 52 mm": 77.0,
    "FR-4 rod 65 mm": 112.0,
}
LOG = [
    {
        "name": "M1",
        "date": "2026-04-11",
        "stay": "cap shroud, starboard",
        "made_by": "an invented rigger",
        "pulled_to": 10,
        "measured": 12765,
        "fitted": "2026-04-18",
        "seen": "bedded in by five pulls (invented entry)",
    },
    {
        "name": "A1",
        "date": "2026-05-02",
        "stay": "cap shroud, port",
        "fitted": "2026-04-18",
        "tension_own": 2.5,
        "temperature": 14,
        "take_up_left": 60,
        "ligament_left": 16,
        "seen": "sleeve sits well, no chafe (invented entry)",
    },
]

TRIAL = {
    "name": "T1",
    "made_by": "an invented rigger",
    "rope": "HMPE 12-strand 12 mm",
    "date": "2026-02-15",
    "low": 3,
    "high": 12,
    "short": 3200,
    "long": 3205.2,
}

ROWS: "dict[str, list[dict[str, Any]]]" = {
    **LIBRARY,
    "rope": ROPES,
    "rod": RODS,
    "masts": MASTS,
    "points": POINTS,
    "stays": STAYS,
    "tangs": TANGS,
    "chainplates": CHAINPLATES,
    "log": LOG,
    "trial": [TRIAL],
}
