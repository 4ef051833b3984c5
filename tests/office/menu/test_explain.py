"""Explain This Cell, given in a window: what it says of a cell, and where it leads."""

import re

import pytest

from extension.loftsheet_office.workbook.complaints import complaints
from tests.office.menu.cells import address, everything, frame_of, named, select, selected

pytestmark = pytest.mark.office


def explained(screen, book, press="Copy"):
    """What Explain This Cell says of the selected cell, by its Copy button."""
    screen.give("explain", frame_of(book))
    dialog = screen.dialog("Explain This Cell")
    dialog.press("Copy")
    buttons = dialog.labels()
    dialog.press("Close")
    screen.finish()
    return screen.copied(), buttons


def test_a_calculated_cell_shows_its_column_its_working_and_its_source(screen, shown_demo):
    cell = select(shown_demo, named(shown_demo, "tangs_bevel"))
    words, buttons = explained(screen, shown_demo)
    assert words.startswith("Stubs, cap stub, port. Bevel, °: ")
    assert "RIG.TANG.BEVEL(out_angle; [extra=2])" in words
    angle = named(shown_demo, "tangs_angle").Value
    assert f"= {angle:.6g}°" in words
    assert f"Result: {angle + 2:.6g}°" in words
    assert f"shows {cell.Value:.6g}" in words
    assert "Source: " in words
    assert "Go to the Error" not in buttons


def test_a_function_outside_any_schedule_is_explained_too(screen):
    book = screen.open()
    cell = book.Sheets.getByIndex(0).getCellRangeByName("B2")
    cell.Formula = '=RIG.BURY(RIG.READ(A1;"mm"))'
    book.Sheets.getByIndex(0).getCellRangeByName("A1").String = "3/8 in"
    select(book, cell)
    words, _ = explained(screen, book)
    assert "3/8 in" in words
    assert "Result: 9.525" in words
    assert "Result: 685.8 mm" in words  # 72 · 9.525, B. Toss (2016) p. 105 for 72


def test_a_plain_formula_says_what_its_column_means_and_what_it_is_made_from(screen, shown_demo):
    select(shown_demo, named(shown_demo, "stays_rope_mass"))
    words, _ = explained(screen, shown_demo)
    assert words.startswith("Stays, cap shroud, port. Mass, rope, kg: of all of this row.")
    assert "Made from:" in words
    assert "Rope, all, m)" in words


def test_a_typed_cell_says_what_may_be_typed(screen, shown_demo):
    select(shown_demo, named(shown_demo, "boat_margin"))
    words, _ = explained(screen, shown_demo)
    assert "Safety factor, rope" in words
    assert "You type a number from 2 to 12." in words


def test_a_check_is_said_line_by_line(screen, shown_demo):
    """All that was found, of which the cell shows the first."""
    named(shown_demo, "stays_number").String = "two"
    named(shown_demo, "stays_lower_over").String = "nothing"
    select(shown_demo, named(shown_demo, "stays_check"))
    words, _ = explained(screen, shown_demo)
    due = [one.words for one in complaints(named(shown_demo, "stays_found").String)]
    assert len(due) > 1
    lines = words.split("\n")
    assert [line[2:] for line in lines if line.startswith("  ") and not line.startswith("    ")] == due
    number = named(shown_demo, "stays_number")
    assert lines[lines.index(f"  {due[0]}") + 1] == f"    {address(number)}, Number: two"


def test_an_error_leads_to_the_cell_where_it_begins_and_to_the_blank_behind_it(screen, shown_demo):
    named(shown_demo, "boat_rm30").String = ""
    shown_demo.calculateAll()
    select(shown_demo, named(shown_demo, "stays_cut"))
    typed = named(shown_demo, "boat_rm30")
    words, buttons = explained(screen, shown_demo)
    begins = re.search(rf"The error begins in (Boat\.[A-Z]+{typed.CellAddress.Row + 1}) ", words)[1]
    assert "boat_rm30 = blank (Boat: Righting moment at 30°, kN·m)" in words
    assert "Go to the Error" in buttons

    screen.give("explain", frame_of(shown_demo))
    screen.dialog("Explain This Cell").press("Go to the Error")
    screen.finish()
    assert selected(shown_demo) == begins


def test_it_changes_neither_the_document_nor_selection_nor_clipboard(screen, shown_demo):
    from extension.loftsheet_office.dialogs.clipboard import Text

    screen.clipboard.setContents(Text("kept"), None)
    cell = select(shown_demo, named(shown_demo, "stays_cut", 3))
    before = everything(shown_demo)
    screen.give("explain", frame_of(shown_demo))
    screen.dialog("Explain This Cell").press("Close")
    screen.finish()
    assert screen.copied() == "kept"
    assert selected(shown_demo) == address(cell)
    assert not shown_demo.UndoManager.isUndoPossible()
    assert everything(shown_demo) == before


def test_nothing_but_a_shape_is_selected(screen, shown_demo):
    sheet = shown_demo.Sheets.getByName("Stays")
    shape = shown_demo.createInstance("com.sun.star.drawing.RectangleShape")
    sheet.DrawPage.add(shape)
    shown_demo.CurrentController.setActiveSheet(sheet)
    shown_demo.CurrentController.select(shape)
    screen.give("explain", frame_of(shown_demo))
    assert "Click on a cell first" in screen.message("Explain This Cell")
    screen.finish()
