"""Invented rigs for the balance, as ranges of cells: the demo boat Marrowick, and a ketch."""

from math import cos, radians, sin

from loftsheet.examples import SMALL_RIG

from templates.boats.marrowick import BOAT, MASTS, POINTS, STAYS
from templates.boats.stock import LIBRARY

(MAST,) = MASTS
ALLOY, RATE = 69.0, 23.6
ROPE_RATE, WIRE_RATE, WIRE_MODULUS = -12.0, 16.0, 130.0
BREAKS = {row["name"]: row["break_load"] for row in LIBRARY["rope"]}
# What the sheet asks for at the dock, near enough: shrouds, and what balances the headstays. Invented.
WANTED = {"cap shroud": 2.4, "fore lower": 2.0, "aft lower": 1.05}


def marrowick_masts():
    return (
        (
            "mast",
            float(MAST["foot_fore"]),
            float(MAST["foot_up"]),
            float(MAST["rake"]),
            13_000.0,
            ALLOY,
            RATE,
            float(MAST["width"]),
            float(MAST["section"]),
            float(MAST["wall"]),
        ),
    )


def marrowick_points():
    rake = radians(MAST["rake"])
    return tuple(
        (row["name"], "mast", -row["along"] * sin(rake), float(row["out"]), row["along"] * cos(rake))
        if "along" in row
        else (
            row["name"],
            "mast" if "tip" in row["name"] else "",
            float(row["fore_own"]),
            float(row["out"]),
            float(row["up_own"]),
        )
        for row in POINTS
    )


def marrowick_stays(ea_of=None, rate=ROPE_RATE):
    rows = []
    for row in STAYS:
        side = row["name"].split(", ")[-1]
        side = side if side in ("port", "starboard") else "both" if row["number"] == 2 else "centreline"
        rope = row.get("rope_own") or BOAT["rope"]
        wanted = WANTED.get(row["name"].split(",")[0]) or row["pretension_own"]
        runner = "runner" if "running" in row["name"] else ""
        ea = ea_of(row) if ea_of else 37.5 * BREAKS[rope]
        rows.append(
            (row["name"], side, row["upper"], row.get("via", ""), "", row["lower"], ea, rate, wanted, "", runner)
        )
    return tuple(rows)


CASES = (
    ("all sails", "starboard", 30.0, 0.0, "windward"),
    ("all sails, warm", "starboard", 30.0, 15.0, "windward"),
    ("all sails, cold", "starboard", 30.0, -15.0, "windward"),
    ("headsail alone", "starboard", 30.0, 0.0, "windward"),
    ("reefed main alone", "starboard", 30.0, 0.0, "none"),
)


def loads(rm30, head, spreaders, factor=1.5, mast="mast"):
    """Side forces that make the righting moment, in kN; heights in mm."""
    half = 1_000 * factor * rm30 / (0.5 * head + 0.5 * spreaders) / 2
    both = (("all sails"), ("all sails, warm"), ("all sails, cold"))
    rows = [(case, mast, along, half) for case in both for along in (head, spreaders)]
    return (
        *rows,
        ("headsail alone", mast, head, 1_000 * rm30 / head),
        ("reefed main alone", mast, spreaders, 1_000 * rm30 / spreaders),
    )


MARROWICK_LOADS = loads(20.0, 12_900.0, 6_430.0)
MARROWICK_SPREADERS = tuple(
    (f"spreader tip, {side}", 6_430.0, ALLOY, 70.0, 40.0, 3.0) for side in ("port", "starboard")
)


def marrowick():
    return (
        marrowick_masts(),
        marrowick_points(),
        marrowick_stays(),
        CASES,
        MARROWICK_LOADS,
        MARROWICK_SPREADERS,
    )


def on(mast, fore, rake, name, along, out=0.0):
    return (name, mast, fore - along * sin(radians(rake)), out, along * cos(radians(rake)))


# A ketch of 14 m, invented: main with two pairs of spreaders, through partners; mizzen on its foot; a triatic.
KETCH_MASTS = (
    ("main", 600.0, 0.0, 1.5, 16_500.0, ALLOY, RATE, 150.0, 215.0, 4.5, 1_900.0),
    ("mizzen", -5_400.0, 300.0, 2.0, 11_000.0, ALLOY, RATE, 105.0, 145.0, 3.5),
)
KETCH_POINTS = (
    on("main", 600, 1.5, "main head", 16_400.0),
    on("main", 600, 1.5, "main cap", 16_300.0, 75.0),
    on("main", 600, 1.5, "main upper spreader", 11_200.0, 75.0),
    on("main", 600, 1.5, "main lower fore", 6_150.0, 75.0),
    on("main", 600, 1.5, "main lower aft", 5_950.0, 75.0),
    on("main", 600, 1.5, "staysail stay", 11_150.0),
    on("main", 600, 1.5, "runner", 11_100.0, 75.0),
    on("main", 600, 1.5, "upper tip", 11_300.0, 1_150.0),
    on("main", 600, 1.5, "lower tip", 6_200.0, 1_500.0),
    on("mizzen", -5_400, 2.0, "mizzen head", 10_900.0),
    on("mizzen", -5_400, 2.0, "mizzen cap", 10_850.0, 55.0),
    on("mizzen", -5_400, 2.0, "mizzen lower", 5_900.0, 55.0),
    on("mizzen", -5_400, 2.0, "mizzen tip", 6_000.0, 1_050.0),
    ("stem", "", 6_800.0, 0.0, 450.0),
    ("inner stem", "", 5_100.0, 0.0, 250.0),
    ("main plate", "", 450.0, 1_900.0, 200.0),
    ("main fore plate", "", 1_100.0, 1_880.0, 220.0),
    ("main aft plate", "", -250.0, 1_900.0, 190.0),
    ("runner plate", "", -3_300.0, 1_800.0, 260.0),
    ("mizzen plate", "", -5_550.0, 1_350.0, 420.0),
    ("mizzen fore plate", "", -4_650.0, 1_420.0, 400.0),
    ("mizzen aft plate", "", -6_700.0, 1_150.0, 450.0),
    ("transom", "", -8_400.0, 500.0, 500.0, 0.02),
    ("mizzen boom end", "", -9_600.0, 0.0, 900.0),
)


def both_sides(name, upper, lower, ea, wanted, via="", second="", runner=""):
    return tuple(
        (f"{name}, {side}", side, upper, via, second, lower, ea, ROPE_RATE, wanted, "", runner)
        for side in ("port", "starboard")
    )


def middle(name, upper, lower, ea, wanted):
    return ((name, "", upper, "", "", lower, ea, ROPE_RATE, wanted),)


KETCH_STAYS = (
    *both_sides("main cap", "main cap", "main plate", 6_500.0, 5.0, "upper tip", "lower tip"),
    *both_sides("main intermediate", "main upper spreader", "main plate", 4_500.0, 3.0, "lower tip"),
    *both_sides("main fore lower", "main lower fore", "main fore plate", 4_500.0, 2.6),
    *both_sides("main aft lower", "main lower aft", "main aft plate", 4_500.0, 2.4),
    *middle("forestay", "main head", "stem", 7_000.0, 8.0),
    *middle("staysail stay", "staysail stay", "inner stem", 4_500.0, ""),
    *both_sides("runner", "runner", "runner plate", 4_500.0, 3.0, runner="runner"),
    *middle("triatic", "main head", "mizzen head", 3_000.0, ""),
    *both_sides("mizzen cap", "mizzen cap", "mizzen plate", 3_800.0, 2.2, "mizzen tip"),
    *both_sides("mizzen fore lower", "mizzen lower", "mizzen fore plate", 3_000.0, 1.5),
    *both_sides("mizzen aft lower", "mizzen lower", "mizzen aft plate", 3_000.0, 1.2),
    *both_sides("mizzen backstay", "mizzen head", "transom", 3_800.0, ""),
    *both_sides("main backstay", "main head", "transom", 4_500.0, 2.5),
)
KETCH_CASES = CASES
KETCH_LOADS = (*loads(60.0, 16_300.0, 6_200.0, mast="main"), *loads(8.0, 10_850.0, 6_000.0, mast="mizzen"))
KETCH_SPREADERS = (
    ("upper tip", 11_200.0, ALLOY, 75.0, 38.0, 3.0),
    ("lower tip", 6_050.0, ALLOY, 85.0, 42.0, 3.0),
    ("mizzen tip", 5_950.0, ALLOY, 60.0, 32.0, 2.5),
)


def ketch():
    return (KETCH_MASTS, KETCH_POINTS, KETCH_STAYS, KETCH_CASES, KETCH_LOADS, KETCH_SPREADERS)


# The small rig of the functions' examples, and no spreaders.
SMALL = (*SMALL_RIG, ())


def random_rig(dice, spreaders_at_most=2):
    """A rig by chance: one mast or two, with what rigs have; each lashing takes out some millimetres."""
    masts, points, stays, loads_, spreaders = [], [], [], [], []
    heads = []
    for number in range(dice.choice([1, 1, 2])):
        mast, fore, rake = f"mast {number}", -6_000.0 * number, dice.uniform(-1, 3)
        head = dice.uniform(7_000, 16_000) * (1 - 0.25 * number)
        width = head / dice.uniform(95, 130)
        partners = dice.uniform(800, 2_200) if dice.random() < 0.3 else ""
        section = (width, width * dice.uniform(1.2, 1.6), dice.uniform(2.5, 5))
        masts.append((mast, fore, 100.0 * number, rake, head, ALLOY, RATE, *section, partners))

        def up(name, share, out=0.0, mast=mast, fore=fore, rake=rake, head=head, number=number):
            points.append(
                (
                    f"{name} {number}",
                    mast,
                    fore - share * head * sin(radians(rake)),
                    out,
                    100.0 * number + share * head * cos(radians(rake)),
                )
            )
            return f"{name} {number}"

        def down(name, ahead, out, number=number, fore=fore):
            points.append((f"{name} {number}", "", fore + ahead, out, dice.uniform(-100, 400)))
            return f"{name} {number}"

        def stay(name, side, *over, number=number):
            upper, *via, lower = over
            via = [*via, "", ""][:2]
            ea, out = dice.uniform(1_500, 7_000), dice.uniform(3, 14)
            stays.append((f"{name} {number}", side, upper, *via, lower, ea, -12.0, "", out))

        beam = head * 0.12
        top = up("top", dice.choice([1.0, 0.995, 0.9]))
        heads.append(top)
        tips, last = [], up("cap", 0.885, width / 2)
        for pair in range(min(spreaders_at_most, dice.choice([0, 1, 1, 2])), 0, -1):
            share = 0.25 + 0.22 * pair
            tip = up(f"tip {pair}", share + 0.008, beam * (1.1 - 0.2 * pair))
            tips.append(tip)
            if dice.random() < 0.7:
                size = 55.0 if dice.random() < 0.6 else ""
                modulus, wall = (ALLOY, 3.0) if size else ("", "")
                spreaders.append((tip, share * head, modulus, size, size, wall))
            fall = dice.choice([-1, 1]) * 0.01
            lower = up(f"lower {pair}", share + fall, width / 2)
            for way in ("fore", "aft") if pair == 1 else ("aft",):
                plate = down(f"{way} plate {pair}", (600 if way == "fore" else -500) * head / 13_000, beam)
                stay(f"{way} lower {pair}", "both", lower, plate)
        stay("cap", "both", last, *tips[:2], down("plate", dice.uniform(-300, -50), beam))
        stay("forestay", "", top, down("stem", 0.33 * head, 0.0))
        if dice.random() < 0.5:
            stay("backstay", "", top, down("stern", -0.36 * head, 0.0))
        else:
            stay("backstay", "both", top, down("quarter", -0.36 * head, 0.5 * beam))
        if dice.random() < 0.4:
            inner = up("inner", 0.72)
            stay("inner forestay", "", inner, down("inner deck", 0.2 * head, 0.0))
            stay("runner", "both", up("runner", 0.71, width / 2), down("runner plate", -0.25 * head, beam))
        for _ in range(dice.randint(1, 3)):
            loads_.append(
                (
                    "heeled",
                    mast,
                    round(dice.uniform(0.3, 1.0) * head, 1),
                    dice.uniform(0.1, 1.0),
                    dice.uniform(-0.3, 0.3),
                )
            )
    if len(heads) == 2 and dice.random() < 0.7:
        stays.append(("triatic", "", *heads[:1], "", "", heads[1], 2_500.0, -12.0, "", 6.0))
    cases = (("heeled", dice.choice(["port", "starboard"]), 20.0, dice.uniform(-15, 15), ""),)
    return tuple(masts), tuple(points), tuple(stays), cases, tuple(loads_), tuple(spreaders)


def with_more_stays(pairs):
    """Marrowick with so many further pairs of lowers, each from its own height."""
    masts, points, stays, *rest = marrowick()
    heights = [(f"further {pair}", 6_600.0 + 5_800.0 * pair / max(1, pairs)) for pair in range(pairs)]
    points = (*points, *(on("mast", 0, 1, name, along, 55.0) for name, along in heights))
    points = (*points, ("further plate", "", -500.0, 1_400.0, -50.0))
    more = [(name, "both", name, "", "", "further plate", 3_000.0, ROPE_RATE, 0.3) for name, _ in heights]
    return (masts, points, (*stays, *more), *rest)
