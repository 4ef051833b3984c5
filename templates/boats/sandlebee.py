"""Sandlebee: an invented 8.2 m yawl with two masts, main and mizzen. No such boat exists.

The mizzen has its own foot, rake, section and alloy; its loads are typed, for its righting moment is its own.
"""

from typing import Any

from templates.boats.marrowick import loop, on_mast, plate, shroud, stay, stub, typed
from templates.boats.stock import LIBRARY, rope

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
    "chainplate_out": 1210,
    "cg_up": -250,
}

SIDES = ("port", "starboard")
ONE = "single lower"
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
        "note": "invented",
    },
]

POINTS = [
    on_mast("main masthead", 9200, 0, MAIN),
    on_mast("main shroud on mast", 9100, 46, MAIN),
    on_mast("main lower on mast", 4600, 46, MAIN),
    *(typed(f"main spreader tip, {side}", -160, 770, 4720) for side in SIDES),
    *(typed(f"main cap chainplate, {side}", -190, 1210, -30) for side in SIDES),
    *(typed(f"main lower chainplate, {side}", -420, 1195, -32) for side in SIDES),
    typed("stem head", 3300, 0, 110),
    on_mast("mizzen shroud on mast", 4560, 35, MIZZEN),
    *(typed(f"mizzen chainplate, {side}", -4480, 760, 60) for side in SIDES),
]

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
        shroud(f"main lower, {side}", "main lower on mast", f"main lower chainplate, {side}", "1x19 5 mm", ONE, kind="single lower", side=side)
        for side in SIDES
    ),
    stay("forestay", "main masthead", "stem head", "1x19 5 mm", kind="forestay", side="centreline", made_of="stays wire", pretension_own=1.8, runs="furler", upper_over="", lower_over=""),
    *(
        shroud(
            f"mizzen shroud, {side}",
            "mizzen shroud on mast",
            f"mizzen chainplate, {side}",
            "1x19 4 mm",
            "",
            basis="typed",
            kind="other",
            side=side,
            load_own="260 kgf",
            pretension_own="75 kgf",
            note="invented: from the mizzen's own righting moment",
        )
        for side in SIDES
    ),
]

TANGS = [
    *(stub(f"main cap stub, {side}", f"main cap, {side}") for side in SIDES),
    *(stub(f"main lower stub, {side}", f"main lower, {side}", room=120) for side in SIDES),
    *(stub(f"mizzen stub, {side}", f"mizzen shroud, {side}") for side in SIDES),
]

EIGHT = "HMPE 12-strand 8 mm"
CHAINPLATES = [
    *(loop(f"main {which} chainplate, {side}", EIGHT, 4, 22, 160, holds_own=35) for which in ("cap", "lower") for side in SIDES),
    plate("stem head", 40),
    *(loop(f"mizzen chainplate, {side}", EIGHT, 4, 20, 160, holds_own=25) for side in SIDES),
]

ROWS: "dict[str, list[dict[str, Any]]]" = {
    **LIBRARY,
    "rope": [
        rope(8, 76, "measured", "2026-02-20") if row["size"] == 8 else row for row in LIBRARY["rope"]
    ],
    "masts": MASTS,
    "points": POINTS,
    "stays": STAYS,
    "tangs": TANGS,
    "chainplates": CHAINPLATES,
}
