"""The working of a call and of a cell."""

import ast
import inspect
import sys
import textwrap

import pytest
from loftsheet import CALCS
from loftsheet.errors import BadInput, CellError
from loftsheet.examples import EXAMPLES
from loftsheet.trace import run, shown_value, steps
from loftsheet.working import CellView, explain, origin, working

from tests.functions.sheet import Cell, Sheet

WRONG, NONE = CellError(502, "Err:502"), CellError(32767, "#N/A")


def line(text, start):
    """The one line that starts so, without what is said in brackets at its end."""
    (found,) = [one.strip() for one in text.splitlines() if one.strip().startswith(start)]
    return found


def numbers(calc, given):
    """All names of a call's own lines, computed again by running these lines alone."""
    function = calc.function
    lines = ast.parse(textwrap.dedent(inspect.getsource(function))).body[0].body
    values = dict(zip((argument.name for argument in calc.arguments), calc.read(given)))
    for one in lines:
        if isinstance(one, ast.Assign):
            values[one.targets[0].id] = eval(ast.unparse(one.value), function.__globals__, values)
    return values


# The working of RIG.WORKING holds another working, line by line.
NAMES = [name for name in CALCS if name != "RIG.WORKING"]


@pytest.mark.parametrize("name", NAMES)
def test_it_holds_every_part(name):
    calc = CALCS[name]
    text = working(calc, EXAMPLES[name])
    assert text.splitlines()[0] == calc.usage()
    for part in ("Formula: ", "Result: ", "Limits: ", "Source: "):
        assert line(text, part)
    assert "\nRefused: " not in text
    for argument in calc.arguments:
        assert line(text, f"{argument.name} = ") or calc.rest


@pytest.mark.parametrize("name", NAMES)
def test_every_step_is_shown_with_the_value_of_the_very_line(name):
    calc = CALCS[name]
    text = working(calc, EXAMPLES[name])
    computed = numbers(calc, EXAMPLES[name])
    assert steps(calc.function)
    for step in steps(calc.function):
        assert line(text, f"{step.name} = {step.expression}").endswith(
            f" = {shown_value(computed[step.name], step.unit)}"
        )


@pytest.mark.parametrize("name", CALCS)
def test_the_result_is_the_one_of_the_plain_call(name):
    calc = CALCS[name]
    outcome = run(calc, EXAMPLES[name])
    assert outcome.result == calc.call(*EXAMPLES[name])
    returned = ast.parse(textwrap.dedent(inspect.getsource(calc.function))).body[0].body[-1].value.id
    assert outcome.named[returned] == outcome.result


@pytest.mark.parametrize("name", CALCS)
def test_it_fits_a_cell(name):
    # A cell of the oldest office takes 32,767 characters.
    assert len(working(CALCS[name], EXAMPLES[name])) < 8_000


def test_a_default_is_said_to_be_one():
    text = working(CALCS["RIG.BURY"], (9.0,))
    assert line(text, "diameters = ").startswith("diameters = 72 (")
    assert line(text, "diameters = ").endswith("left out, so the default)")
    assert "default" not in line(working(CALCS["RIG.BURY"], (9.0, 72.0)), "diameters = ")


def test_an_argument_without_default_is_said_to_be_left_out():
    assert line(working(CALCS["RIG.CAPACITY"], (80.0,)), "eye_a = ").endswith("left out)")


def test_a_step_that_an_argument_left_out_makes_needless_is_shown_as_none():
    assert line(working(CALCS["RIG.LOOP.FIT"], (150.0, 40.0, 9.0)), "over_plate = ").endswith(" = none")


def test_an_infinite_argument_is_shown_as_put_in():
    text = working(CALCS["RIG.BURY"], (float("inf"),))
    assert line(text, "rope = ").startswith("rope = inf mm (")
    assert line(text, "Refused: ")


def test_a_text_is_shown_as_put_in_and_as_read():
    text = working(CALCS["RIG.BURY"], ("3/8 in",))
    assert line(text, "rope = ").startswith('rope = "3/8 in" = 9.525 mm (')
    assert line(text, "Result: ") == "Result: 685.8 mm"


def test_a_step_that_calls_another_function_shows_its_name():
    text = working(CALCS["RIG.STAY.PULL"], EXAMPLES["RIG.STAY.PULL"])
    assert line(text, "length = ").startswith("length = RIG.STAY.LENGTH(upper_fore, ")


def test_a_text_that_is_refused_is_shown_as_put_in():
    text = working(CALCS["RIG.BURY"], ("1,500 mm",))
    assert line(text, "rope = ").startswith('rope = "1,500 mm" (')
    assert "1.5 and as 1500" in line(text, "Refused: ")


def test_an_argument_that_is_an_error_stops_the_call():
    made = sheet()
    bury(made, "=RIG.BURY(B9)", error=WRONG, address="E9")
    text = explain(made.put("F9", formula="=RIG.BURY.MARK(E9)+RIG.FID(B4)", error=CellError(504, "Err:504")))
    assert "The error begins in E9." in text
    working_of_next = working(CALCS["RIG.BURY.MARK"], (WRONG,), ("E9",))
    assert line(working_of_next, "bury = ").startswith("bury = E9 = Err:502 (a number put in")
    assert line(working_of_next, "Not computed here: ") == "Not computed here: an argument is an error"


def calls(function):
    """The names of what is called in the steps of a function."""
    parts = [part for step in steps(function) for part in ast.walk(ast.parse(step.expression.replace("^", "**")))]
    return {ast.unparse(part.func) for part in parts if isinstance(part, ast.Call)}


KNOWN = {
    "abs",
    "asin",
    "atan2",
    "cos",
    "exp",
    "atan",
    "float",
    "int",
    "hypot",
    "max",
    "min",
    "radians",
    "sin",
    "sqrt",
    "tan",
}


@pytest.mark.parametrize("name", CALCS)
def test_a_helper_says_itself_in_a_line(name):
    said = {
        helper.split(": ")[0]: helper.split(": ")[1]
        for step in steps(CALCS[name].function)
        for helper in step.helpers
    }
    ours = {called for called in calls(CALCS[name].function) - KNOWN if not called.startswith("RIG.")}
    assert set(said) == ours
    for helper, words in said.items():
        assert words and not helper.startswith("_")
        assert len(f"{helper}: {words}") < 150, "one line"


def test_the_line_of_a_helper_stands_below_its_step():
    lines = working(CALCS["RIG.LASHING.SHARE"], (4.0,)).splitlines()
    (at,) = (at for at, text in enumerate(lines) if text.startswith("hardest = hardest_share("))
    assert lines[at + 1].startswith("  hardest_share: Share of the load on the part next to the hand")


def test_a_power_is_written_as_in_a_spreadsheet():
    text = working(CALCS["RIG.STAY.LENGTH"], EXAMPLES["RIG.STAY.LENGTH"])
    assert "fore^2" in line(text, "length = ")


def test_a_refused_argument_gives_the_reason_and_no_step():
    text = working(CALCS["RIG.BURY"], (0.0,))
    assert line(text, "rope = ").startswith("rope = 0 mm")
    assert "got 0 mm; must be" in line(text, "Refused: ")
    assert "Result" not in text
    assert "buried" not in [one.split(" = ")[0] for one in text.splitlines()]


def test_a_call_refused_on_the_way_shows_the_steps_it_got_through():
    text = working(CALCS["RIG.STAY.OUT"], (0.0, 900.0, 9_000.0, 0.0, 100.0, 1_000.0))
    assert line(text, "out = ").endswith(" = -800 mm")
    assert "800 mm inboard" in line(text, "Refused: ")
    assert "\nout_angle = " not in text


def test_too_many_arguments_are_a_reason_too():
    assert "takes 2 arguments" in line(working(CALCS["RIG.BURY"], (9.0, 72.0, 1.0)), "Refused: ")


def test_a_profile_that_was_set_before_is_set_again():
    calls = []

    def before(frame, event, argument):
        calls.append(event)

    sys.setprofile(before)
    try:
        working(CALCS["RIG.BURY"], (9.0,))
        working(CALCS["RIG.BURY"], (0.0,))
        assert sys.getprofile() is before
    finally:
        sys.setprofile(None)


def test_rows_are_shown_by_their_cells_or_their_number():
    assert shown_value((1.5, "", None, 2.0), "mm") == "1.5 mm; blank; blank; 2 mm"
    assert shown_value(((1.5,), (2.0,)), "mm") == "1.5 mm; 2 mm"
    assert shown_value(((1.0, 2.0), (3.0, 4.0), (5.0, 6.0)), "mm") == "3 rows of 2"
    assert shown_value(((1.0, 2.0, 3.0), (4.0,)), "mm") == "2 rows of 3"
    assert shown_value(((1.0, 2.0),), "mm") == "1 mm; 2 mm"
    assert shown_value(()) == "nothing"


def test_a_step_with_a_range_is_shown():
    text = working(CALCS["RIG.ROPE.SIZE"], (((6.0,), ("",), (10.0,)), ((40.0,), ("",), (100.0,)), 60.0))
    assert line(text, "sizes = ").startswith("sizes = 6 mm; blank; 10 mm")


# Cells


def sheet(**names):
    made = Sheet(**names)
    made.put("B4", 9.0)
    made.put("C4", 72.0)
    made.put("D4", "3/8 in")
    made.put("A4", "cap shroud")
    return made


def bury(made, formula, value=648.0, error=None, address="E4"):
    return made.put(address, None if error else value, formula, error)


def test_a_fake_cell_is_what_a_working_needs():
    assert isinstance(Cell("A1"), CellView)
    assert not isinstance(9.0, CellView)


@pytest.mark.parametrize("name", ["RIG.BURY", "ORG.LOFTSHEET.RIG.BURY", "org.loftsheet.Rig.bury"])
def test_a_cell_with_references(name):
    text = explain(bury(sheet(), f"={name}($B$4;C4)"))
    assert text.splitlines()[0].endswith("RIG.BURY($B$4;C4)")
    assert line(text, "rope = ").startswith("rope = $B$4 = 9 mm (")
    assert line(text, "diameters = ").startswith("diameters = C4 = 72 (")
    assert line(text, "Result: ") == "Result: 648 mm"


def test_a_cell_with_a_literal_and_a_text_with_a_unit():
    text = explain(bury(sheet(), "=RIG.BURY(D4;60)", 571.5))
    assert line(text, "rope = ").startswith('rope = D4 = "3/8 in" = 9.525 mm (')
    assert line(text, "diameters = ").startswith("diameters = 60 (")


def test_a_literal_is_not_said_twice():
    text = explain(bury(sheet(), "=RIG.TANG.FACE(40;12)", 40.8936236))
    assert line(text, "rod = ").startswith("rod = 40 mm (")
    assert line(text, "bevel = ").startswith("bevel = 12° (")


def test_a_cell_with_a_name():
    text = explain(bury(sheet(Rope_size="B4"), "=RIG.BURY(Rope_size)"))
    assert line(text, "rope = ").startswith("rope = Rope_size = 9 mm (")


def test_a_blank_cell_is_said_to_be_blank():
    text = explain(bury(sheet(), "=RIG.BURY(B9)", error=WRONG))
    assert line(text, "rope = ").startswith("rope = B9 (blank) = 0 mm (")
    assert "got 0 mm" in line(text, "Refused: ")
    assert "The error begins here." in text


def test_nested_calls_have_their_workings_in_order():
    text = explain(bury(sheet(), "=RIG.BURY.MARK(RIG.BURY(B4;C4))", 864.0))
    first, second = text.index(CALCS["RIG.BURY"].usage()), text.index(CALCS["RIG.BURY.MARK"].usage())
    assert first < second
    assert line(text, "bury = RIG.BURY(B4;C4) = 648 mm")
    assert "Result: 648 mm" in text
    assert "Result: 864 mm" in text


def test_another_expression_stays_as_written_and_nothing_is_made_up():
    text = explain(bury(sheet(), "=RIG.BURY(B4^2;C4)", 5832.0))
    assert line(text, "rope = ").startswith("rope = B4^2, as written (")
    assert "shows 5832" in text
    assert "Result" not in text
    assert line(text, "Not computed here: ")
    assert line(text, "Limits: ")


def test_a_sum_is_worked_out():
    text = explain(bury(sheet(), "=RIG.BURY(B4*2;C4)", 1296.0))
    assert line(text, "rope = ").startswith("rope = B4*2 = 18 mm (")
    assert line(text, "Result: ") == "Result: 1296 mm"


def test_a_refusal_is_said_in_the_words_of_the_function_in_which_the_error_begins():
    made = sheet()
    bury(made, '=RIG.BURY(B4*2;IF(A4="";C4;C4/4))', error=WRONG, address="E9")
    made.put("F9", formula="=MAX(E9;1)+1", error=WRONG)
    for place in ("E9", "F9"):
        words = CALCS["RIG.REFUSAL"].call(made.at(place))
        assert words.startswith("diameters (tail buried, in rope diameters): ")
        assert "got 18; must be 45 to 150" in words
        assert "45 to 150" in words
    assert CALCS["RIG.REFUSAL"].call(made.at("B4")) == ""
    divided = CellError(532, "#DIV/0!")
    made.put("G9", formula="=B4/0", error=divided)
    assert CALCS["RIG.REFUSAL"].call(made.put("H9", formula="=RIG.BURY(G9)", error=divided)) == (
        "G9 shows #DIV/0! (division by zero)"
    )


def test_a_refusal_is_one_line_of_words_whatever_was_typed():
    made = sheet()
    made.put("C9", "⟦port⟧\n side")
    bury(made, "=RIG.BURY(C9)", error=WRONG, address="E9")
    words = CALCS["RIG.REFUSAL"].call(made.at("E9"))
    assert '"port side" is not a number with a unit' in words


def test_a_name_that_leads_nowhere_stays_as_written():
    text = explain(bury(sheet(), "=RIG.BURY(Something)", 648.0))
    assert line(text, "rope = ").startswith("rope = Something, as written (")


def test_the_branch_that_was_taken_is_shown():
    made = sheet()
    formula = '=IF($A4="";"";IF(C4>50;RIG.BURY(B4;C4);RIG.FID(B4)))'
    text = explain(bury(made, formula))
    assert "Result: 648 mm" in text
    assert CALCS["RIG.FID"].usage() not in text


def test_with_no_branch_that_agrees_all_calls_are_shown():
    text = explain(bury(sheet(), "=RIG.BURY(B4;C4)+RIG.FID(B4)", 837.0))
    assert "Result: 648 mm" in text
    assert "Result: 189 mm" in text


def test_a_cell_left_empty_by_a_condition_has_no_working():
    text = explain(bury(sheet(), '=IF($A9="";"";RIG.BURY(B9;C9))', ""))
    assert "leaves the cell empty" in text
    assert "Refused" not in text


def test_a_check_that_is_silent_still_has_its_working():
    text = explain(bury(sheet(), '=IF($A4="";"";RIG.CHECK("rope";B4;6;12;"mm"))', ""))
    assert line(text, "cell = ").startswith("cell = B4 = 9 (")
    assert line(text, "Result: ") == 'Result: ""'


def test_a_check_of_an_error_has_its_working_and_is_no_error():
    made = sheet()
    made.put("B5", formula="=1/0", error=CellError(532, "#DIV/0!"))
    words = CALCS["RIG.CHECK"].call("rope", CellError(532, "#DIV/0!"))
    text = explain(bury(made, '=RIG.CHECK("rope";B5)', words))
    assert line(text, "cell = ").startswith("cell = B5 = #DIV/0! (division by zero)")
    assert "Result: " in text


def test_a_check_of_a_blank_cell():
    words = CALCS["RIG.CHECK"].call("rope", None)
    text = explain(bury(sheet(), '=RIG.CHECK("rope";B9)', words))
    assert f'Result: "{words}"' in text
    assert line(text, "cell = ").startswith("cell = B9 (blank)")


def test_a_range_is_shown_with_its_cells():
    made = sheet()
    for row, (size, load) in enumerate([(6.0, 40.0), (8.0, 70.0), (10.0, 100.0)], start=10):
        made.put(f"A{row}", size)
        made.put(f"B{row}", load)
    text = explain(bury(made, "=RIG.ROPE.SIZE(A10:A12;B10:B12;60)", 8.0))
    assert line(text, "sizes = ").startswith("sizes = A10:A12 = 6 mm; 8 mm; 10 mm (")
    assert line(text, "Result: ") == "Result: 8 mm"


def test_cells_without_a_function_of_ours():
    made = sheet()
    assert explain(made.at("B4")) == "B4: 9 was typed in."
    assert explain(made.at("A4")) == 'A4: "cap shroud" was typed in.'
    assert explain(made.at("Z99")) == "Z99 is blank."
    text = explain(bury(made, "=B4*C4"))
    assert "=B4*C4" in text
    assert "none of this extension's functions" in text


def test_the_working_of_a_cell_with_a_working_does_not_run_in_a_circle():
    assert "explain that cell" in explain(bury(sheet(), "=RIG.WORKING(E4)", "words"))


def test_a_formula_that_cannot_be_taken_apart_is_shown_as_written():
    text = explain(bury(sheet(), "=RIG.BURY(B4", 648.0))
    assert "=RIG.BURY(B4" in text


def test_an_error_is_followed_to_the_cell_where_it_begins():
    made = sheet()
    bury(made, "=RIG.BURY(B9)", error=WRONG, address="E9")
    made.put("F9", formula="=E9+1", error=WRONG)
    made.put("G9", formula='=IF(A4="";"";RIG.BURY.MARK(F9))', error=WRONG)
    text = explain(made.at("G9"))
    assert text.splitlines()[0].startswith("G9 shows Err:502 (")
    assert text.splitlines()[1] == "The error begins in E9 and comes by F9."
    assert "rope = B9 (blank) = 0 mm" in text
    assert "got 0 mm" in line(text, "Refused: ")


def test_the_cells_between_are_named_in_the_order_in_which_the_error_comes():
    made = sheet()
    bury(made, "=RIG.BURY(B9)", error=WRONG, address="E9")
    for cell, before in (("F9", "E9"), ("G9", "F9"), ("H9", "G9"), ("I9", "H9")):
        made.put(cell, formula=f"={before}+1", error=WRONG)
    assert explain(made.at("I9")).splitlines()[1] == "The error begins in E9 and comes by F9, G9, H9."


def test_an_error_of_the_next_cell_is_followed_too():
    made = sheet()
    bury(made, "=RIG.BURY(B9)", error=WRONG, address="E9")
    made.put("F9", formula="=RIG.BURY.MARK(E9)", error=WRONG)
    assert explain(made.at("F9")).splitlines()[1] == "The error begins in E9."


def test_of_two_errors_the_same_one_is_followed():
    made = sheet()
    made.put("E8", formula="=NA()", error=NONE)
    bury(made, "=RIG.BURY(B9)", error=WRONG, address="E9")
    made.put("F9", formula="=IFERROR(E8;E9)", error=WRONG)
    assert "The error begins in E9" in explain(made.at("F9"))


def test_an_error_among_any_number_of_arguments_is_shown_where_it_stands():
    made = sheet()
    made.put("C9", formula="=1/0", error=CellError(532, "#DIV/0!"))
    cell = bury(made, '=IFERROR(RIG.WEAKEST("rope";0.3;"bolt";C9);"?")', "?")
    assert "C9 = #DIV/0!" in line(explain(cell), "links = ")


def chain(made, cells):
    """An error that comes by that many cells from the one in which it begins; the cell that shows it."""
    bury(made, "=RIG.BURY(B9)", error=WRONG, address="A1")
    for row in range(2, cells + 2):
        made.put(f"A{row}", formula=f"=A{row - 1}+1", error=WRONG)
    return made.at(f"A{cells + 1}")


def test_an_error_is_followed_a_hundred_cells_and_no_further():
    last = chain(sheet(), 100)
    assert "The error begins in A1 and comes by A2, A3, " in explain(last)
    assert origin(last).address == "A1"
    assert "It comes from further than 100 cells away; explain A1 next." in explain(chain(sheet(), 101))
    assert "It comes from further than 100 cells away; explain A2 next." in explain(chain(sheet(), 102))


def test_a_branch_that_the_office_rounded_otherwise_in_its_last_digit_is_the_one_taken():
    text = explain(bury(sheet(), "=IF(C4>50;RIG.BURY(B4;C4);RIG.FID(B4))", 648.0 * (1 + 1e-12)))
    assert "Result: 648 mm" in text
    assert CALCS["RIG.FID"].usage() not in text


def test_the_origin_of_an_error_and_of_none():
    made = sheet()
    wrong = bury(made, "=RIG.BURY(B9)", error=WRONG, address="E9")
    made.put("F9", formula="=E9+1", error=WRONG)
    made.put("G9", formula="=F9+1", error=WRONG)
    assert origin(made.at("F9")) is origin(made.at("G9")) is wrong
    assert origin(made.at("B4")) is made.at("B4")


def test_a_name_that_leads_nowhere_has_no_error_to_follow():
    cell = bury(sheet(), "=RIG.BURY(Something)", error=CellError(525, "#NAME?"))
    assert "The error begins here" in explain(cell)


def test_a_call_within_a_call_hands_on_the_error_of_its_own_kind():
    made = sheet()
    made.put("A10", 6.0)
    made.put("B10", 40.0)
    cell = bury(made, "=RIG.FID(RIG.ROPE.SIZE(A10:A10;B10:B10;60))", error=NONE)
    assert "#N/A" in line(explain(cell), "rope = ")


def test_an_error_within_a_range_is_followed():
    made = sheet()
    made.put("A10", 6.0)
    made.put("A11", formula="=1/0", error=CellError(532, "#DIV/0!"))
    made.put("B10", 40.0)
    made.put("B11", 70.0)
    cell = bury(made, "=RIG.ROPE.SIZE(A10:A11;B10:B11;60)", error=CellError(504, "Err:504"))
    text = explain(cell)
    assert "The error begins in A11" in text
    assert "=1/0" in text


def test_an_error_that_begins_in_a_formula_not_ours_says_what_it_means():
    made = sheet()
    made.put("E9", formula='=VLOOKUP("x";A1:B2;2;0)', error=NONE)
    text = explain(made.at("E9"))
    assert "E9 shows #N/A (what is asked for is not in the table)." in text
    assert "The error begins here." in text


def test_a_circle_ends_and_is_named():
    made = sheet()
    circle = CellError(522, "Err:522")
    made.put("E9", formula="=RIG.BURY(F9)", error=circle)
    made.put("F9", formula="=G9", error=circle)
    made.put("G9", formula="=E9*2", error=circle)
    assert "circle: E9 → F9 → G9 → E9." in explain(made.at("E9"))
    made.put("D9", formula="=E9", error=circle)
    assert "circle: D9 → E9 → F9 → G9 → E9." in explain(made.at("D9"))
    made.put("H9", formula="=H9+1", error=circle)
    assert "circle: H9 → H9." in explain(made.at("H9"))


def test_a_very_long_chain_ends():
    made = sheet()
    for row in range(1, 1_000):
        made.put(f"H{row}", formula=f"=H{row + 1}", error=WRONG)
    text = explain(made.at("H1"))
    assert "further than" in text
    assert len(text) < 2_000


def test_the_function_gives_the_same_words():
    cell = bury(sheet(), "=RIG.BURY(B4;C4)")
    assert CALCS["RIG.WORKING"].call(cell) == explain(cell)


def test_a_call_that_is_refused_raises_nothing():
    for given_values in ((), (None,), ("",), (((1.0,),),), (True,), (object(),)):
        assert "Refused: " in working(CALCS["RIG.BURY"], given_values)
        with pytest.raises(BadInput):
            CALCS["RIG.BURY"].call(*given_values)
