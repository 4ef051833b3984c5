"""The Library's rows to start from. Ropes, rods, rings and sleeves are invented and say so."""

from typing import Any

Row = "dict[str, Any]"

INVENTED = "invented: use the certificate"
STRAND = "from memory of the EN series: replace by the maker's figures"
SHARES = "B. Toss, The Complete Rigger's Apprentice (2016), fig. 5-25, from memory; rough, questioned for lowers"
THREAD = "ISO 898-1, ISO 3506-1 (proof stress from memory)"


def rope(size: float, break_load: float, trial: str = "assumed", date: str = "") -> "dict[str, Any]":
    return {
        "name": f"HMPE 12-strand {size:g} mm",
        "family": "HMPE 12-strand",
        "size": size,
        "break_load": break_load,
        "spliced": "without splices",
        "mass": round(0.61 * size**2, 1),
        "ratio": 37.5,
        "least": 2,
        "take_up": 0.1,
        "lasting_set": 0.01,
        "trial": trial,
        "trial_date": date,
        "status": "invented",
        "source": INVENTED,
    }


def wire(size: float) -> "dict[str, Any]":
    return {
        "name": f"1x19 {size:g} mm",
        "size": size,
        "grade": 1570,
        "k": 0.525,
        "modulus": 130,
        "fill": 0.76,
        "status": "from memory",
        "source": STRAND,
    }


def rod(size: float, stock: float) -> "dict[str, Any]":
    return {
        "name": f"FR-4 rod {size:g} mm",
        "size": size,
        "stock": stock,
        "density": 1850,
        "crushing": 280,
        "shear": 60,
        "construction": "unknown",
        "status": "invented",
        "source": INVENTED,
    }


def bolt(size: float, pitch: float, grade: int, washer: float) -> "dict[str, Any]":
    strength, proof = {70: (700, 450), 80: (800, 600)}[grade]
    return {
        "name": f"M{size:g} A4-{grade}",
        "size": size,
        "pitch": pitch,
        "strength": strength,
        "yield_stress": proof,
        "washer": washer,
        "class": grade,
        "status": "standard",
        "source": THREAD,
    }


def ring(groove: float, hole: float, load: float) -> "dict[str, Any]":
    return {"name": f"ring {groove:g} mm", "groove": groove, "hole": hole, "load": load, "status": "invented", "source": INVENTED}


def share(name: str, part: float, of: int) -> "dict[str, Any]":
    return {"name": name, "share": part, "of": of, "status": "from memory", "source": SHARES}


def sundry(name: str, per: float, each: str, unit: str, exactly: str = "") -> "dict[str, Any]":
    row = {"name": name, "per": per, "each": each, "unit": unit, "exactly": exactly}
    return {**row, "status": "assumed", "source": "common practice, no source"}


SIZES = ((5, 31), (6, 44), (7, 59), (8, 76), (9, 95), (10, 116), (11, 138), (12, 163), (14, 216))
THREADS = ((12, 1.75, 24), (14, 2, 28), (16, 2, 30), (20, 2.5, 37))

NORDIC = "Nordic boat standard as in L. Larsson and R. Eliasson, Principles of Yacht Design, from memory"


def case(name: str, head: float, spreaders: float, factor: float, source: str, **more: Any) -> "dict[str, Any]":
    row = {"name": name, "heel": 30, "head": head, "spreaders": spreaders, "factor": factor, "runners": "windward"}
    return {**row, "source": source, **more}


FULL = "factor: B. Toss, The Complete Rigger's Apprentice (2016), p. 146; shares assumed"
LIBRARY: "dict[str, list[dict[str, Any]]]" = {
    "rope": [rope(size, load) for size, load in SIZES],
    "wire": [wire(size) for size in (4, 5, 6, 7, 8, 10)],
    "rod": [rod(45, 600), rod(52, 600), rod(65, 600)],
    "bolt": [bolt(size, pitch, grade, washer) for grade in (70, 80) for size, pitch, washer in THREADS],
    "sleeve": [
        {"name": "tubular sleeve 1 mm", "wall": 1, "material": "woven HMPE or polyester tube", "status": "invented", "source": INVENTED},
        {"name": "tubular sleeve 1.5 mm", "wall": 1.5, "material": "woven HMPE or polyester tube", "status": "invented", "source": INVENTED},
    ],
    "ring": [ring(30, 18, 40), ring(40, 24, 70)],
    "share": [
        share("cap shroud, one spreader", 0.45, 2),
        share("each of two lowers", 0.325, 4),
        share("single lower", 0.55, 2),
    ],
    "sundry": [
        sundry("end plate", 1, "stub", "piece", "FR-4 glass-epoxy sheet; sizes: stub list"),
        sundry("tapered washer", 1, "stub", "piece", "stainless A4, bored; sizes below the order"),
        sundry("flat washer", 2, "bolt", "piece", "stainless A4, two for each bolt; sizes below the order"),
        sundry("self-locking nut", 1, "nut", "piece", "stainless A4, polymer insert; sizes below the order"),
        sundry("compression tube", 1, "bolt", "piece", "aluminium, alloy as your catalogue, wall 3 mm or more; sizes: stub list"),
        sundry("isolating pad", 1, "stub", "piece", "acetal or the like, a flat blank; sizes: stub list"),
        sundry("keeper line 3 mm", 1, "stub", "m", "braided polyester or HMPE, 3 mm, in one length or several"),
        sundry("lock-stitching twine", 2, "splice", "m", "waxed polyester, 0.8 to 1 mm, on reels"),
        sundry("end sealer", 1, "boat", "bottle", "liquid, for rope ends; smallest sold"),
        sundry("barrier paste", 1, "boat", "tube", "for stainless on aluminium; smallest sold"),
    ],
    "cases": [
        case("all sails", 0.5, 0.5, 1.5, FULL),
        case("all sails, warm", 0.5, 0.5, 1.5, FULL, warmth="warmer"),
        case("all sails, cold", 0.5, 0.5, 1.5, FULL, warmth="colder"),
        case("headsail alone", 1, 0, 1, NORDIC),
        case("reefed main alone", 0, 1, 1, NORDIC),
        {"name": "moored, warm", "warmth": "warmer", "runners": "both"},
        {"name": "moored, cold", "warmth": "colder", "runners": "both"},
    ],
}
