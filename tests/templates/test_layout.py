"""How columns stand side by side: what is typed, results, the user's own, and then what is folded."""

import pytest
from pypdf._codecs.core_fontmetrics import CORE_FONT_METRICS

from templates.schedule import OWN_VALUES, RESULTS, TYPED, YOURS
from templates.sheets import ALL, NAMES

LAID_OUT = [table for table in NAMES.tables.values() if table.typed]
# Cells that are seen at 1440 × 900 and 100 %, row numbers, scroll bar and the office's side bar left out: 1341
# pixels, at the 103 to the inch of a screen that makes cells wider than most.
SEEN = 330  # mm


def blocks(table):
    return dict(table.blocks())


def test_stays_tangs_and_masts_are_laid_out():
    assert {"stays", "tangs", "masts"} <= {table.key for table in LAID_OUT}


@pytest.mark.parametrize("table", LAID_OUT, ids=lambda table: table.key)
def test_every_column_stands_once(table):
    keys = [column.key for column in table.laid_out]
    assert len(keys) == len(set(keys))
    assert {column.key for column in table.columns} <= set(keys)


@pytest.mark.parametrize("table", LAID_OUT, ids=lambda table: table.key)
def test_first_what_is_typed_then_results_then_the_users_own(table):
    first = [column for column in table.laid_out if not column.hidden][2:]
    keys = [column.key for column in first]
    assert keys[: len(table.typed)] == list(table.typed)
    assert keys[len(table.typed) :][: len(table.results)] == list(table.results)
    own = [column for column in first if column.block == YOURS]
    assert own == first[len(table.typed) + len(table.results) :][: len(own)]
    assert [column.key for column in own if column.free] == ["yours_1", "yours_2", "yours_3"]


@pytest.mark.parametrize("table", LAID_OUT, ids=lambda table: table.key)
def test_what_is_typed_is_never_among_what_is_calculated(table):
    inputs = {column.key for column in table.columns[2:] if not column.calculated}
    for title, columns in table.blocks():
        held = {table.laid_out[at].key for at in columns if not table.laid_out[at].free}
        if title in (TYPED, OWN_VALUES):
            assert held <= inputs, title
        elif title != YOURS:
            assert not held & inputs, title


@pytest.mark.parametrize("table", LAID_OUT, ids=lambda table: table.key)
def test_a_folded_block_says_before_it_what_it_holds(table):
    for title, columns in table.blocks():
        before = table.laid_out[columns[0] - 1]
        assert table.is_folded(title) == (title not in (TYPED, RESULTS, YOURS))
        if table.is_folded(title):
            assert before.free and before.header.startswith(title)
            assert table.laid_out[columns[0]].title.partition(",")[0] in before.header


@pytest.mark.parametrize("table", [one for one in LAID_OUT if one.results], ids=lambda table: table.key)
def test_the_first_screen_holds_name_to_last_result(table):
    upto = blocks(table)[RESULTS][-1] + 1
    assert sum(column.width for column in table.laid_out[:upto] if not column.hidden) <= SEEN


def test_what_is_free_has_no_name_and_nothing_reads_it():
    free = {column.key for table in LAID_OUT for column in table.laid_out if column.free}
    assert not {name for name in NAMES.known if name.split("_", 1)[1] in free}


# Advance widths of Helvetica Bold in Adobe's core font metrics, which Liberation Sans Bold shares.
LETTERS = CORE_FONT_METRICS["Helvetica-Bold"].character_widths
MARGINS = 0.7  # mm
HEADER_MM = 9.0 * 25.4 / 72 / 1000
ON_SCREEN = 1.04  # letters are set on whole pixels there; seen in a window: so much wider is a heading that broke


def broken_words(header, width):
    """The words of a heading that are wider than its column; a word may be broken at its hyphen."""
    words = [part for word in header.split() for part in word.replace("-", "- ").split()]
    wide = {word: sum(LETTERS.get(letter, 556) for letter in word) * HEADER_MM for word in words}
    return [word for word, mm in wide.items() if mm * ON_SCREEN > width - MARGINS]


def test_no_heading_is_broken_inside_a_word():
    pytest.importorskip("uno", reason="the page needs the office's bridge")
    from templates import page

    assert broken_words("Pre-tension\nkN", 13) == [] and broken_words("Construction *", 17) == ["Construction"]
    broken = {}
    for sheet in ALL:
        widths = page.widths(sheet)
        tables = [list(enumerate(table.laid_out)) for table in sheet.tables]
        for follower in sheet.followers:
            at = page.places(sheet, follower)
            tables.append([(at[column.key], column) for column in follower.columns] if follower.printed else [])
        listings = sheet.board.listings if sheet.board else ()
        tables += [list(enumerate(one.laid_out, one.left)) for one in listings if not one.hidden]
        for column in (column for table in tables for column in table if not column[1].hidden):
            for word in broken_words(column[1].header, widths[column[0]]):
                broken[sheet.title, column[1].key] = word
    assert broken == {}
