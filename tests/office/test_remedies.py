"""What a check says would do: it is read out of the words, done as it stands there, and the fault is gone."""

import re
from contextlib import ExitStack

import pytest

from tests.office import named
from tests.office.restored import Restored

pytestmark = pytest.mark.office


@pytest.fixture
def demo(shared_demo):
    return shared_demo


CAP, LOWER, FORESTAY, BACKSTAY = "cap shroud, port", "fore lower, port", "forestay", "backstay, upper part"
RUNNER, LEG = "running backstay, port", "backstay leg"
CAP_STUB, LOWER_STUB = "cap stub, port", "fore lower stub, port"
CAP_PLATE, LOWER_PLATE, LOOP = "cap chainplate, port", "fore lower chainplate, port", "runner chainplate, port"
SEVEN, TEN, TWELVE = (f"HMPE 12-strand {size} mm" for size in (7, 10, 12))
RING = "ring 30 mm"
NUMBER = r"([\d.]+)"


def own(column):
    """What is named goes into that cell of the row itself."""
    return lambda book, row, said: [(*row, column, figure(said[1]))]


def figure(said):
    return float(said) if re.fullmatch(r"[\d.]+", said) else said


def less(column):
    """So much less than stands there."""
    return lambda book, row, said: [(*row, column, worked_out(book, row, column) - float(said[1]))]


def more(column):
    return lambda book, row, said: [(*row, column, worked_out(book, row, column) + float(said[1]))]


def worked_out(book, row, column):
    return named.cell(book, row[0], column.replace("hole_own", "hole"), row[1]).Value


def both(book, row, said):
    return [(*row, "bolt_own", said[1]), (*row, "rod_own", said[2])]


def at_most(table, key, pick):
    def take(book, row, said):
        held = list(zip(named.column(book, f"{table}_name"), named.column(book, f"{table}_{key}")))
        fits = [(size, name) for name, size in held if name and size <= float(said[1])]
        return [(*row, pick, max(fits)[1])]

    return take


def of_item(table, item, *keys):
    """A product that has what is asked for, in the Library where there was none."""
    return lambda book, row, said: [(table, item, key, float(said[at])) for at, key in enumerate(keys, 1)]


def bolt_and_rod(book, row, said):
    return [(*row, "bolt_own", said[1]), (*row, "rod_own", said[2])]


def of_another(table, row, column):
    return lambda book, own_row, said: [(table, row, column, float(said[1]))]


# What is typed, the rule that complains, what its words say in figures, and what is done with these.
REMEDIES = {
    # one rope or ring of the Library, for each of the reasons
    "a rope for the safety factor": ([("stays", CAP, "margin_own", 10.0), ("stays", CAP, "line_own", TEN)], "stays", CAP, "margin", "take (HMPE [^;]*mm)", own("rope_own")),
    "a rope for what is held": ([("stays", CAP, "pretension_own", 10.5)], "stays", CAP, "hold", "take (HMPE [^;]*mm)", own("rope_own")),
    "a rope for the stretch": ([("stays", CAP, "rope_own", SEVEN), ("stays", CAP, "margin_own", 2.0)], "stays", CAP, "need", "take (HMPE [^;]*mm)", own("rope_own")),
    "a rope for its splice": ([("stays", CAP, "margin_own", 10.0), ("stays", CAP, "line_own", TEN)], "stays", CAP, "spare", "splice is short.*?take (HMPE [^;]*mm)", own("rope_own")),
    "a rope that nobody makes": ([("stays", CAP, "margin_own", 20.0), ("stays", CAP, "line_own", TWELVE)], "stays", CAP, "margin", f"needs a breaking load of {NUMBER} kN", of_item("rope", TEN, "break_load")),
    "a wire that stays": ([("stays", FORESTAY, "made_of", "existing wire"), ("stays", FORESTAY, "wire", "1x19 6 mm"), ("stays", FORESTAY, "basis", "typed"), ("stays", FORESTAY, "load_own", 12.0)], "stays", FORESTAY, "margin", "take (1x19 [^;]*mm)", own("wire")),
    "a ring for the load": ([("ring", RING, "load", 5.0)], "stays", CAP, "lower_ring.load", "take (ring [^;]*mm)", own("lower_ring_own")),
    "a ring that nobody makes": ([("ring", RING, "load", 5.0), ("ring", "ring 40 mm", "load", 5.0)], "stays", CAP, "lower_ring.load", f"needs a groove of {NUMBER} mm and {NUMBER} kN", of_item("ring", RING, "groove", "load")),
    "a ring with a larger hole": ([("stays", CAP, "line_own", "HMPE 12-strand 9 mm")], "stays", CAP, "hole", "take (ring [^;]*mm)", own("lower_ring_own")),
    "a ring with a hole that nobody makes": ([("stays", CAP, "line_own", TWELVE)], "stays", CAP, "hole", f"needs a hole of {NUMBER} mm and {NUMBER} kN", of_item("ring", RING, "hole", "load")),
    "a ring for the rope": ([("ring", RING, "groove", 12.0)], "stays", CAP, "lower_under", "take (ring [^;]*mm)", own("lower_ring_own")),
    "a wider ring for the eye": ([("ring", RING, "groove", 10.0), ("ring", RING, "hole", 6.0), ("ring", RING, "load", 14.0), ("stays", CAP, "margin_own", 8.8), ("stays", CAP, "line_own", "HMPE 12-strand 9 mm")], "stays", CAP, "margin", "for its lower eye take (ring [^;]*mm)", own("lower_ring_own")),
    "a thicker pin for the eye": ([("stays", CAP, "lower_over", "pin"), ("stays", CAP, "lower_over_own", 10.0), ("stays", CAP, "margin_own", 8.8), ("stays", CAP, "line_own", TEN)], "stays", CAP, "margin", f"for its lower eye a diameter of {NUMBER} mm", own("lower_over_own")),
    "a longer eye for its load": ([("stays", CAP, "lower_eye_own", 67.0), ("stays", CAP, "margin_own", 8.8), ("stays", CAP, "line_own", TEN)], "stays", CAP, "margin", f"for its lower eye a length of {NUMBER} mm", own("lower_eye_own")),
    "rope that is thin enough": ([("stays", LEG, "length_own", 1500.0)], "stays", LEG, "span", f"rope of {NUMBER} mm or less", at_most("rope", "size", "rope_own")),
    "a longer eye": ([("stays", CAP, "lower_eye_own", 100.0)], "stays", CAP, "lower_throat", f"an eye of {NUMBER} mm would do", own("lower_eye_own")),
    "a pretension that goes unquestioned": ([("stays", CAP, "pretension_own", 12.0)], "stays", CAP, "pretension.hard", f"{NUMBER} kN is the most", own("pretension_own")),
    "a pretension that keeps it taut to leeward": ([("stays", CAP, "pretension_own", 1.7)], "stays", CAP, "slack.heel", f"set it up to {NUMBER} kN", own("pretension_own")),
    "a pretension that balances": ([("stays", RUNNER, "pretension_own", 0.5)], "stays", RUNNER, "balance", f"set this one up to {NUMBER} kN", own("pretension_own")),
    "a pretension for the legs": ([("stays", LEG, "pretension_own", 3.0)], "stays", BACKSTAY, "below.pretension", f"set backstay leg up to {NUMBER} kN", of_another("stays", LEG, "pretension_own")),
    "a split in line": ([("points", "backstay split", "fore_own", -4000.0)], "stays", BACKSTAY, "split", r"at fore (-?[\d.]+) mm", of_another("points", "backstay split", "fore_own")),
    # stubs
    "a bolt and a rod": ([("tangs", CAP_STUB, "bolt_own", "M12 A4-70")], "tangs", CAP_STUB, "bolt.spare", r"(M[^;:]*) on (FR-4 rod \d+ mm) would do", both),
    "a bolt that stays straight": ([("tangs", CAP_STUB, "bolt_own", "M16 A4-70")], "tangs", CAP_STUB, "bolt.bends", r"(M[^;:]*) on (FR-4 rod \d+ mm) would do", both),
    "a hole further down": ([("tangs", CAP_STUB, "hole_own", 18.0)], "tangs", CAP_STUB, "ligament", f"drill it {NUMBER} mm down", own("hole_own")),
    "a hole as far down as drilling may be off": ([("tangs", CAP_STUB, "hole_own", 25.8)], "tangs", CAP_STUB, "hole.high", f"drill it {NUMBER} mm down", own("hole_own")),
    "a hole further up": ([("tangs", CAP_STUB, "hole_own", 31.5)], "tangs", CAP_STUB, "flip", f"drill the hole {NUMBER} mm higher", less("hole_own")),
    "a thicker rod": ([("tangs", CAP_STUB, "rod_own", "FR-4 rod 45 mm")], "tangs", CAP_STUB, "rod.thin", r"take (FR-4 rod \d+ mm)", own("rod_own")),
    "a rod that nobody sells": ([("rod", "FR-4 rod 65 mm", "size", 50.0), ("rod_least", 8.0)], "tangs", CAP_STUB, "rod.thin", f"none in Library does, it needs {NUMBER} mm or more", of_item("rod", "FR-4 rod 65 mm", "size")),
    "a thicker wall": ([("masts", "mast", "wall", 0.8)], "tangs", CAP_STUB, "wall.spare", f"type {NUMBER} mm here", own("wall_own")),
    "a bolt for the wall": ([("masts", "mast", "wall", 2.5), ("tangs", CAP_STUB, "bolt_own", "M16 A4-80")], "tangs", CAP_STUB, "wall.spare", "or take (M[^;:]*) on (FR-4 rod [^;:]*mm)", bolt_and_rod),
    "room for a hole": ([("tangs", LOWER_STUB, "room", 12.0)], "tangs", LOWER_STUB, "room", f"must be {NUMBER} mm", own("room")),
    "room for the eye": ([("tangs", LOWER_STUB, "room", 35.0), ("tangs", LOWER_STUB, "hole_own", 24.0)], "tangs", LOWER_STUB, "room.none", f"set the stub {NUMBER} mm lower", more("room")),
    # chainplates
    "a stronger plate": ([("chainplates", CAP_PLATE, "holds_own", 18.0), ("stays", "aft lower, port", "lower", CAP_PLATE)], "chainplates", CAP_PLATE, "spare.metal", f"it has to hold {NUMBER} kN", own("holds_own")),
    "more plate round the hole": ([("chainplates", LOWER_PLATE, "holds_own", None), ("chainplates", LOWER_PLATE, "thickness", 3.0), ("chainplates", LOWER_PLATE, "end", 11.0), ("chainplates", LOWER_PLATE, "side", 6.0)], "chainplates", LOWER_PLATE, "spare.metal", f"{NUMBER} mm of plate beyond the hole and {NUMBER} mm beside", lambda book, row, said: [(*row, "end", float(said[1])), (*row, "side", float(said[2]))]),
    "more turns for the load": ([("stays", RUNNER, "load_own", 100.0)], "chainplates", LOOP, "spare.rope", f"take {NUMBER} turns", own("turns")),
    "more turns for the tails": ([("chainplates", LOOP, "turns", 2.0)], "chainplates", LOOP, "turns.few", f"take {NUMBER} turns or more", own("turns")),
    "one turn more": ([("chainplates", LOOP, "turns", 3.0)], "chainplates", LOOP, "overlap", "take (one) turn more", lambda book, row, said: [(*row, "turns", worked_out(book, row, "turns") + 1)]),
}  # fmt: skip
# A rope so much stronger is stiffer, too, and takes more of what the masts' balance shares out: asked a few times.
STIFFER = ("a rope that nobody makes",)


def place(book, table, row=None, column=None):
    return named.cell(book, table, column, row) if row is not None else named.cells(book, f"boat_{table}")


@pytest.mark.parametrize("remedy", REMEDIES)
def test_what_is_said_to_do_does(demo, remedy):
    edits, table, row, id, words, done = REMEDIES[remedy]
    with ExitStack() as typed:
        for *where, held in edits:
            typed.enter_context(Restored(place(demo, *where), held))
        assert id in named.found(demo, table, row)
        said = re.search(words, words_of(demo, table, row, id))
        assert said, words_of(demo, table, row, id)
        for _ in range(12 if remedy in STIFFER else 1):
            if id in named.found(demo, table, row):
                said = re.search(words, words_of(demo, table, row, id))
                for *where, held in done(demo, (table, row), said):
                    typed.enter_context(Restored(place(demo, *where), held))
        assert id not in named.found(demo, table, row), named.words(demo, table, row)


def test_a_pair_is_not_sent_from_slack_to_bent_and_back(demo):
    """Where what balances a stay would be lost in the cold, its partner is to be set up harder."""
    with ExitStack() as typed:
        typed.enter_context(Restored(named.cell(demo, "stays", "pretension_own", FORESTAY), 0.5))
        said = re.search(
            rf"so set forestay up to more than {NUMBER} kN", words_of(demo, "stays", BACKSTAY, "balance")
        )
        typed.enter_context(Restored(named.cell(demo, "stays", "pretension_own", FORESTAY), float(said[1]) + 0.1))
        balanced = named.cell(demo, "stays", "balance", BACKSTAY).Value
        typed.enter_context(Restored(named.cell(demo, "stays", "pretension_own", BACKSTAY), balanced))
        assert not {"balance", "slack"} & set(named.found(demo, "stays", BACKSTAY))


@pytest.mark.parametrize("bolt", ["M10 A4-80", "M12 A4-70", "M16 A4-80"])
def test_bolt_rod_and_wall_are_answered_together(demo, bolt):
    """No circle: what would do for one of them does for the others, too."""
    with ExitStack() as typed:
        for *where, held in [("masts", "mast", "wall", 2.5), ("tangs", CAP_STUB, "bolt_own", bolt)]:
            typed.enter_context(Restored(place(demo, *where), held))
        for at in range(2):  # a thicker rod lengthens the lever, and the wall is asked once more
            said = named.cell(demo, "tangs", "would_do", CAP_STUB).String
            assert (said or at) and not said.startswith("none")
            for key, held in zip(("bolt_own", "rod_own"), said.split(" on ") if said else ()):
                typed.enter_context(Restored(named.cell(demo, "tangs", key, CAP_STUB), held))
        assert named.cell(demo, "tangs", "would_do", CAP_STUB).String == ""
        assert not {"bolt.spare", "wall.spare", "ligament", "bends"} & set(named.found(demo, "tangs", CAP_STUB))


def words_of(book, table, row, id):
    """What that one rule says."""
    found = named.cell(book, table, "found", row).String
    return re.search(rf"⟦\w+ \w+\.{re.escape(id)}(?: [\w.]+)?⟧([^⟦]*)", found)[1]


def test_links_of_a_stay_lead_to_the_row_that_mends_them(demo):
    """Bolt, wall and rod of a stay are mended on its stub, whose own check complains then."""
    for edit, id in (
        (("tangs", CAP_STUB, "bolt_own", "M12 A4-70"), "bolt.spare"),
        (("masts", "mast", "wall", 0.5), "wall.spare"),
        (("rod", "FR-4 rod 65 mm", "crushing", 100.0), "rod.spare"),
    ):
        *where, held = edit
        with Restored(place(demo, *where), held):
            assert "see its row on Stubs" in words_of(demo, "stays", CAP, "spare")
            assert id in named.found(demo, "tangs", CAP_STUB)
    with Restored(place(demo, "chainplates", CAP_PLATE, "holds_own"), 2.0):
        assert "see its row on Chainplates" in words_of(demo, "stays", CAP, "spare")
        assert "spare.metal" in named.found(demo, "chainplates", CAP_PLATE)
