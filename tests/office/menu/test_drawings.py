"""Mark-Out Sheet and All Bench Pages, given in a window: what is asked, what is written, what is refused."""

from pathlib import Path

import pytest

from tests.office.menu.cells import everything, frame_of, named, select
from tests.office.menu.conftest import new_schedule

pypdf = pytest.importorskip("pypdf")
pytestmark = pytest.mark.office

MARK_OUT, BENCH, CARDS = "Mark-Out Sheet", "All Bench Pages", "Job Cards"
COMMANDS = {MARK_OUT: "markout", BENCH: "benchpages", CARDS: "jobcards"}
SIZES = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}  # ISO 216 and ANSI/ASME Y14.1, in mm
MM = 72 / 25.4
NOWHERE = Path("/proc")  # root may write anywhere but into the kernel's own folder


def draw(screen, book, title, folder, paper="A4", answers=()):
    """Go through the dialogs of a command that draws; return what it says at the end."""
    if title == MARK_OUT:
        select(book, named(book, "tangs_bevel"))
    screen.give(COMMANDS[title], frame_of(book))
    dialog = screen.dialog(title)
    dialog.pick("Paper", paper)
    dialog.press("Draw…")
    screen.choose_file(folder)
    for answer in answers[:-1]:
        screen.message(title, answer)
    said = screen.message(title, *answers[-1:])
    screen.finish()
    return said


def refused(screen, book, title):
    """What a command says that asks for nothing."""
    screen.give(COMMANDS[title], frame_of(book))
    box = screen.dialog(title)
    said = "\n".join([box.words(), *box.labels()])
    box.press("Close" if "Close" in box.labels() else "OK")
    screen.finish()
    return said


def files(folder):
    return sorted(path.name for path in folder.iterdir())


@pytest.mark.parametrize(
    ("title", "due"),
    [
        (MARK_OUT, ["Marrowick-{stub}-mark-out.odg", "Marrowick-{stub}-mark-out.pdf"]),
        (BENCH, ["Marrowick-A-bench-pages.pdf"]),
        (CARDS, ["Marrowick-A-job-cards.pdf"]),
    ],
)
@pytest.mark.parametrize("paper", SIZES)
def test_it_is_written_for_the_paper_and_nothing_is_changed(screen, shown_demo, tmp_path, title, due, paper):
    before, stub = (
        everything(shown_demo),
        "-".join(named(shown_demo, "tangs_name").String.replace(",", "").split()),
    )
    said = draw(screen, shown_demo, title, tmp_path, paper)
    assert files(tmp_path) == [name.format(stub=stub) for name in due]
    (written,) = tmp_path.glob("*.pdf")
    assert str(written) in said
    sizes = {tuple(sorted((page.mediabox.width, page.mediabox.height))) for page in pypdf.PdfReader(written).pages}
    assert [tuple(round(float(side) / MM, 1) for side in size) for size in sizes] == [SIZES[paper]]
    assert everything(shown_demo) == before
    assert not shown_demo.UndoManager.isUndoPossible()


@pytest.mark.parametrize("title", COMMANDS)
def test_what_is_there_already_is_replaced_only_with_a_yes(screen, shown_demo, tmp_path, title):
    draw(screen, shown_demo, title, tmp_path)
    for path in tmp_path.iterdir():
        path.write_text("kept")
    assert "there already" in draw(screen, shown_demo, title, tmp_path, answers=["No"])
    assert {path.read_text() for path in tmp_path.iterdir()} == {"kept"}
    assert "Written" in draw(screen, shown_demo, title, tmp_path, answers=["Yes", "OK"])
    assert all(len(path.read_bytes()) > 1000 for path in tmp_path.iterdir())


@pytest.mark.parametrize("title", COMMANDS)
def test_a_folder_that_cannot_be_written_is_said(screen, shown_demo, title):
    if not NOWHERE.is_dir():
        pytest.skip("this system has no folder that nobody can write to")
    assert "did not work" in draw(screen, shown_demo, title, NOWHERE)


@pytest.mark.parametrize("title", COMMANDS)
def test_a_read_only_or_protected_schedule_is_drawn_like_any_other(screen, demo_file, tmp_path, title):
    book = screen.open(demo_file)
    for sheet in book.Sheets:
        sheet.protect("")
    screen.office.store(book, tmp_path / "protected.ods")
    folder = tmp_path / "drawn"
    folder.mkdir()
    assert "Written" in draw(screen, screen.open(tmp_path / "protected.ods", ReadOnly=True), title, folder)


@pytest.mark.parametrize("title", COMMANDS)
@pytest.mark.parametrize(
    ("boat", "stub"), [("A/B: *where*?", '<"cap\\port|">'), ("long " * 20, "ÿ" * 120), ("..", " . ")]
)
def test_names_that_no_file_may_have(screen, shown_demo, tmp_path, title, boat, stub):
    named(shown_demo, "boat_name").String = boat
    named(shown_demo, "tangs_name").String = stub
    assert "Written" in draw(screen, shown_demo, title, tmp_path)
    (written,) = tmp_path.glob("*.pdf")
    assert not set('/:*?<>|"\\') & set(written.name)
    assert written.name[0] not in " .-"
    assert len(written.name.encode()) < 255


@pytest.mark.parametrize("title", COMMANDS)
def test_cancelling_writes_nothing(screen, shown_demo, title):
    select(shown_demo, named(shown_demo, "tangs_bevel"))
    for cancel in ("paper", "folder"):
        screen.give(COMMANDS[title], frame_of(shown_demo))
        screen.dialog(title).press("Cancel" if cancel == "paper" else "Draw…")
        if cancel == "folder":
            screen.choose_file(None)
        screen.finish()
        assert screen.gone(title)


def test_the_stub_of_the_row_is_offered_first_and_any_other_can_be_picked(screen, shown_demo, tmp_path):
    names = [name for (name,) in shown_demo.NamedRanges.getByName("tangs_name").ReferredCells.DataArray if name]
    for cell, offered in ((named(shown_demo, "stays_cut", 1), 0), (named(shown_demo, "tangs_hole", 1), 1)):
        select(shown_demo, cell)
        screen.give("markout", frame_of(shown_demo))
        dialog = screen.dialog(MARK_OUT)
        assert (dialog.lines("Stub"), dialog.picked("Stub")) == (names, names[offered])
        dialog.press("Cancel")
        screen.finish()
    screen.give("markout", frame_of(shown_demo))
    dialog = screen.dialog(MARK_OUT)
    dialog.pick("Stub", names[2])
    dialog.press("Draw…")
    screen.choose_file(tmp_path)
    said = screen.message(MARK_OUT)
    screen.finish()
    assert "-".join(names[2].replace(",", "").split()) in said


def test_end_plate_and_template_are_written_beside_it_if_asked_for_and_replaced_only_with_a_yes(
    screen, shown_demo, tmp_path
):
    for answers in ((), ("No",), ("Yes", "OK")):
        select(shown_demo, named(shown_demo, "tangs_bevel"))
        screen.give("markout", frame_of(shown_demo))
        dialog = screen.dialog(MARK_OUT)
        dialog.tick("End plate and cutting template as .svg too, for a shop that cuts from a file")
        dialog.press("Draw…")
        screen.choose_file(tmp_path)
        said = screen.message(MARK_OUT, *answers[:1])
        said = screen.message(MARK_OUT) if len(answers) > 1 else said
        screen.finish()
        cut = sorted(path.name for path in tmp_path.glob("*.svg"))
        assert [name.rsplit("port-", 1)[1] for name in cut] == ["cutting-template.svg", "end-plate.svg"]
        assert all(name in said for name in cut)
        texts = {path.read_text() for path in tmp_path.glob("*.svg")}
        assert ("kept" in texts) == (answers == ("No",))
        for path in tmp_path.iterdir():
            path.write_text("kept")


def test_with_a_shape_selected_any_stub_can_be_picked(screen, shown_demo):
    shown_demo.CurrentController.setActiveSheet(shown_demo.Sheets.getByName("Boat"))
    shape = shown_demo.createInstance("com.sun.star.drawing.RectangleShape")
    shown_demo.Sheets.getByName("Boat").DrawPage.add(shape)
    shown_demo.CurrentController.select(shape)
    screen.give("markout", frame_of(shown_demo))
    dialog = screen.dialog(MARK_OUT)
    assert dialog.picked("Stub") == named(shown_demo, "tangs_name").String
    dialog.press("Cancel")
    screen.finish()


def test_a_row_with_an_error_is_refused_before_a_folder_is_asked_for(screen, shown_demo):
    named(shown_demo, "tangs_stay").String = ""
    select(shown_demo, named(shown_demo, "tangs_name"))
    screen.give("markout", frame_of(shown_demo))
    screen.dialog(MARK_OUT).press("Draw…")
    said = screen.message(MARK_OUT)
    screen.finish()
    assert "Fix these cells first" in said
    assert "Stay: it is blank" in said


def test_a_stay_with_an_error_has_its_page_and_is_said(screen, shown_demo, tmp_path):
    named(shown_demo, "stays_share").String = "none such"
    stay = named(shown_demo, "stays_name").String
    said = draw(screen, shown_demo, BENCH, tmp_path)
    assert f"No marks on the pages of:\n{stay}" in said
    assert list(tmp_path.glob("*.pdf"))


def test_a_new_schedule_has_nothing_to_draw(screen):
    screen.give("new", frame_of(screen.open()))
    screen.finish()
    new = new_schedule(screen.office)
    assert "no stay of rope has a name yet" in refused(screen, new, BENCH)
    assert "no stay of rope has a name yet" in refused(screen, new, CARDS)
    assert "No row of Stubs has a name yet" in refused(screen, new, MARK_OUT)


@pytest.mark.parametrize("title", COMMANDS)
def test_nothing_is_drawn_by_a_formula_that_was_changed(screen, shown_demo, title):
    """The check of its row cannot tell: it may still say OK."""
    named(shown_demo, "stays_load").Formula = "=9.3"
    said = refused(screen, shown_demo, title)
    assert "A formula of the schedule was changed" in said
    assert "cap shroud, port, Load" in said
