"""Mark-Out Sheet and All Bench Pages, given in a window: what is asked, what is written, what is refused."""

import pytest

from tests.office.menu.cells import everything, frame_of, named, select

pytestmark = pytest.mark.office


def test_the_bench_pages_are_written_and_nothing_is_changed(screen, shown_demo, tmp_path):
    before = everything(shown_demo)
    screen.give("benchpages", frame_of(shown_demo))
    screen.choose_file(tmp_path)
    said = screen.message("All Bench Pages")
    screen.finish()
    (written,) = tmp_path.glob("*.pdf")
    assert str(written) in said
    assert written.read_bytes().startswith(b"%PDF")
    assert everything(shown_demo) == before


def test_a_mark_out_sheet_wants_the_row_of_a_stub(screen, shown_demo):
    select(shown_demo, named(shown_demo, "stays_cut"))
    screen.give("markout", frame_of(shown_demo))
    assert "Click on the row of a stub" in screen.message("Mark-Out Sheet")
    screen.finish()


def test_a_mark_out_sheet_is_drawn_for_the_row(screen, shown_demo, tmp_path):
    select(shown_demo, named(shown_demo, "tangs_bevel"))
    screen.give("markout", frame_of(shown_demo))
    screen.dialog("Mark-Out Sheet").press("Draw…")
    screen.choose_file(tmp_path)
    said = screen.message("Mark-Out Sheet")
    screen.finish()
    (written,) = tmp_path.glob("*.pdf")
    assert str(written) in said
    assert [path.suffix for path in sorted(tmp_path.iterdir())] == [".odg", ".pdf"]
