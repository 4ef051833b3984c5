"""Sandlebee: an invented 8.2 m yawl with two masts, main and mizzen. No such boat exists.

On the main a cap shroud and a runner share a bolt, and so do the fore and the aft lower. The mizzen has its own
foot, rake, section and alloy; its loads are typed, for its righting moment is its own. The main's backstay splits
before the mizzen.
"""

from typing import Any

from templates.boats.marrowick import CREEP, loop, on_mast, plate, shroud, stay, stub, typed
from templates.boats.stock import LIBRARY, rod, rope

BOAT: "dict[str, Any]" = {
    "name": "Sandlebee",
    "revision": "A",
    "date": "2026-03-08",
    "currency": "EUR",
    "contact": "the skipper of Sandlebee (invented), telephone 0000 000 000",
    "wanted": "2026-04-10",
    "delivery": "carriage paid to the harbour office, Invented Quay 1",
    "note": "Invented demo boat: invented survey, ropes and prices.",
    "family": "HMPE 12-strand",
    "rope": "HMPE 12-strand 8 mm",
    "line": "HMPE 12-strand 5 mm",
    "rod": "FR-4 rod 52 mm",
    "bolt": "M16 A4-70",
    "sleeve": "tubular sleeve 1 mm",
    "ring": "ring 30 mm",
    "rm30": 8.5,
    "waterline": -450,
    "chainplate_out": 1210,
    "lee_heel": 25,
    "warmer": 12,
    "cg_up": -250,
}

SIDES = ("port", "starboard")
MAIN, MIZZEN = "main", "mizzen"

MASTS = [
    {
        "name": MAIN,
        "foot_fore": 0,
        "foot_up": 0,
        "rake": 1.5,
        "head": 9300,
        "width": 92,
        "section": 130,
        "wall": 3.2,
        "proof": 215,
        "rm30_own": 8.5,
        "note": "invented",
    },
    {
        "name": MIZZEN,
        "foot_fore": -4150,
        "foot_up": 50,
        "rake": 2,
        "head": 4750,
        "width": 70,
        "section": 90,
        "wall": 2.6,
        "proof": 195,
        "partners": 500,
        "rm30_own": 1.2,
        "note": "invented",
    },
]

POINTS = [
    on_mast("main masthead", 9200, 0, MAIN),
    on_mast("main shroud on mast", 9100, 46, MAIN),
    on_mast("inner forestay on mast", 8900, 0, MAIN),
    on_mast("main lower on mast", 4600, 46, MAIN),
    *(typed(f"main spreader tip, {side}", -160, 840, 4720) for side in SIDES),
    *(typed(f"main cap chainplate, {side}", -190, 1210, -30) for side in SIDES),
    *(typed(f"main fore lower chainplate, {side}", 520, 1195, -32) for side in SIDES),
    *(typed(f"main aft lower chainplate, {side}", -820, 1195, -32) for side in SIDES),
    *(typed(f"runner chainplate, {side}", -2650, 1020, 60) for side in SIDES),
    typed("stem head", 3300, 0, 110),
    typed("inner forestay on deck", 2700, 0, 95),
    typed("backstay split", -2972, 0, 3600),
    typed("quarter chainplate", -4700, 850, 60),
    on_mast("mizzen shroud on mast", 4560, 35, MIZZEN),
    on_mast("mizzen lower on mast", 2650, 35, MIZZEN),
    *(typed(f"mizzen chainplate, {side}", -4150, 760, 60) for side in SIDES),
    *(typed(f"mizzen lower chainplate, {side}", -4150, 690, 58) for side in SIDES),
]


def mizzen(name: str, upper: str, lower: str, kind: str, side: str, load: str) -> "dict[str, Any]":
    return shroud(
        name,
        upper,
        lower,
        "1x19 4 mm",
        "",
        basis="typed",
        kind=kind,
        side=side,
        load_own=load,
        pretension_own="130 kgf",
        note="invented: from the mizzen's own righting moment",
    )


STAYS = [
    *(
        shroud(
            f"main cap, {side}",
            "main shroud on mast",
            f"main cap chainplate, {side}",
            "1x19 5 mm",
            "cap shroud, one spreader",
            via=f"main spreader tip, {side}",
            kind="cap shroud",
            side=side,
        )
        for side in SIDES
    ),
    *(
        shroud(
            f"runner, {side}",
            "main shroud on mast",
            f"runner chainplate, {side}",
            "1x19 5 mm",
            "",
            basis="typed",
            kind="runner",
            side=side,
            load_own=3.6,
            pretension_own=1.6,
            fittings=700,
            note="invented; holds the inner forestay's pull alone: only the windward one is set up; lashed to a tackle of 700 mm",
        )
        for side in SIDES
    ),
    *(
        shroud(
            f"main {end} lower, {side}",
            "main lower on mast",
            f"main {end} lower chainplate, {side}",
            "1x19 5 mm",
            "each of two lowers",
            kind=f"lower {end}",
            side=side,
            pretension_own=pretension,
        )
        for end, pretension in (("fore", 2.0), ("aft", 1.3))
        for side in SIDES
    ),
    stay("forestay", "main masthead", "stem head", "1x19 5 mm", kind="forestay", side="centreline", made_of="existing wire", pretension_own=3.4, runs="furler", upper_over="", lower_over=""),
    stay("backstay, upper part", "main masthead", "backstay split", "1x19 5 mm", kind="backstay", side="centreline", pretension_own=2.49, chainplate=30, note="invented; its legs pass the mizzen on both sides"),
    stay("backstay leg", "backstay split", "quarter chainplate", "1x19 4 mm", kind="backstay leg", side="both", number=2, pretension_own=1.27),
    stay("inner forestay", "inner forestay on mast", "inner forestay on deck", "1x19 5 mm", kind="inner forestay", side="centreline", basis="typed", load_own=3.5, pretension_own=1.3, runs="soft hanks", note="invented: the load that the runner of the weather side holds"),
    *(
        mizzen(f"mizzen shroud, {side}", "mizzen shroud on mast", f"mizzen chainplate, {side}", "cap shroud", side, "260 kgf")
        for side in SIDES
    ),
    *(
        mizzen(f"mizzen lower, {side}", "mizzen lower on mast", f"mizzen lower chainplate, {side}", "single lower", side, "230 kgf")
        for side in SIDES
    ),
]

TANGS = [
    *(
        stub(f"main cap stub, {side}", f"runner, {side}", stay_2=f"main cap, {side}", rod_own="FR-4 rod 65 mm", bolt_own="M20 A4-70")
        for side in SIDES
    ),
    *(
        stub(
            f"main lower stub, {side}",
            f"main fore lower, {side}",
            stay_2=f"main aft lower, {side}",
            rod_own="FR-4 rod 75 mm",
            bolt_own="M20 A4-70",
            room=130,
        )
        for side in SIDES
    ),
    *(stub(f"mizzen {stub_of}stub, {side}", f"mizzen {what}, {side}") for stub_of, what in (("", "shroud"), ("lower ", "lower")) for side in SIDES),
]

EIGHT = "HMPE 12-strand 8 mm"
CHAINPLATES = [
    *(plate(f"main cap chainplate, {side}", 40) for side in SIDES),
    *(loop(f"main {end} lower chainplate, {side}", EIGHT, 4, 22, 160, holds_own=35) for end in ("fore", "aft") for side in SIDES),
    *(plate(f"runner chainplate, {side}", 30) for side in SIDES),
    plate("stem head", 40),
    plate("quarter chainplate", 25),
    plate("inner forestay on deck", 30),
    *(loop(f"mizzen chainplate, {side}", EIGHT, 4, 20, 160, holds_own=25) for side in SIDES),
    *(plate(f"mizzen lower chainplate, {side}", 20) for side in SIDES),
]

ROWS: "dict[str, list[dict[str, Any]]]" = {
    **LIBRARY,
    "rope": [
        {**rope(8, 76, "measured", "2026-02-20"), **CREEP} if row["size"] == 8 else row for row in LIBRARY["rope"]
    ],
    "rod": [{**row, "construction": "filament wound"} for row in (*LIBRARY["rod"], rod(75, 600))],
    "masts": MASTS,
    "points": POINTS,
    "stays": STAYS,
    "tangs": TANGS,
    "chainplates": CHAINPLATES,
}
