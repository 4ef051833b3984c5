"""Taking a cell's formula apart: what is ours in it, and what stays as written."""

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from loftsheet import CALCS
from loftsheet.errors import BadInput
from loftsheet.formula import for_people, parse

STORED = "ORG.LOFTSHEET.RIG."
DEEP = "=" + "(" * 500


def kinds(text):
    return [(part.kind, part.written) for part in parse(f"=RIG.CUT({text})").parts]


@pytest.mark.parametrize("name", CALCS)
def test_each_function_is_known_by_both_its_names(name):
    stored = STORED + CALCS[name].uno_name.upper()
    assert parse(f"={name}()").calc is CALCS[name]
    assert parse(f"={stored}()").calc is CALCS[name]
    assert parse(f"={stored.lower()}()").calc is CALCS[name]
    assert for_people(f"={stored}(A1)&{stored}(B1)") == f"={name}(A1)&{name}(B1)"


@pytest.mark.parametrize(
    "text, kind, value",
    [
        ("9", "number", 9.0),
        ("9.5", "number", 9.5),
        (".5", "number", 0.5),
        ("1E-3", "number", 0.001),
        ("-9", "number", -9.0),
        (" - 9 ", "number", -9.0),
        ("(9)", "number", 9.0),
        ('"3/8 in"', "text", "3/8 in"),
        ('"3/8"""', "text", '3/8"'),
        ('"a;b)"', "text", "a;b)"),
        ('""', "text", ""),
    ],
)
def test_literals(text, kind, value):
    (node,) = parse(f"=RIG.BURY({text})").parts
    assert (node.kind, node.value) == (kind, value)


@pytest.mark.parametrize(
    "text",
    [
        "A1",
        "$A$1",
        "AMJ1048576",
        "Stays.B4",
        "$Stays.$B$4",
        "$'Rod tangs'.B4",
        "$'It''s; (mine)'.B4",
        "A1:B3",
        "$Library.$A$2:$A$20",
        "$Library.A2:$Library.B3",
        "Rope_Size",
        "häufig",
        "Größen.B4",
    ],
)
def test_references_and_names(text):
    (node,) = parse(f"=RIG.BURY({text})").parts
    assert (node.kind, node.written) == ("reference", text)


def test_a_function_named_like_a_cell_is_no_reference():
    (node,) = parse("=RIG.BURY(LOG10(A1))").parts
    assert node.kind == "other"
    assert [part.written for part in node.inside() if part.kind == "reference"] == ["A1"]


@pytest.mark.parametrize(
    "text",
    ["A1*2", "-A1", "90%", 'A1&" mm"', "{1;2|3;4}", "SUM(A1:A3)", "A1:A3!B2:B4", "#REF!", "A:A", "1+2", "(A1)"],
)
def test_other_expressions_stay_as_written(text):
    assert kinds(f"{text};9") == [("other", text), ("number", "9")]


def test_left_out_arguments():
    assert kinds("A1;;B2") == [("reference", "A1"), ("missing", ""), ("reference", "B2")]
    assert parse("=RIG.VERSION()").parts == ()


def test_nested_calls_are_found_wherever_they_stand_the_inner_ones_first():
    tree = parse('=IF($A5="";"";RIG.TANG.BASE(B5;RIG.TANG.BEVEL(C5);2*RIG.TANG.TOP(D5;E5))+1)')
    names = [node.calc.name for node in tree.inside() if node.calc]
    assert names == [name for name in ("RIG.TANG.BEVEL", "RIG.TANG.TOP", "RIG.TANG.BASE") if name in CALCS]


def test_a_matrix_formula_is_read_without_its_braces():
    assert parse("{=RIG.BURY(9)}").calc is CALCS["RIG.BURY"]


@pytest.mark.parametrize("text", ["", "9", "RIG.BURY(9)", "=RIG.BURY(9", "=RIG.BURY(9))", "=1;2", "=(1;2)", DEEP])
def test_what_cannot_be_taken_apart_is_refused(text):
    with pytest.raises(BadInput):
        parse(text)


@pytest.mark.parametrize(
    "text, words",
    [
        ("{=RIG.BURY(9)", "does not start with ="),
        ("=RIG.BURY(9))", 'has a ")" too many'),
        ("=RIG.BURY(9", "a bracket of the formula is not closed"),
    ],
)
def test_the_refusal_says_what_is_wrong_with_the_formula(text, words):
    with pytest.raises(BadInput) as refused:
        parse(text)
    assert words in str(refused.value)


def nested(depth):
    return f"={'(' * depth}1{')' * depth}"


def test_sixty_brackets_in_each_other_are_the_most():
    assert parse(nested(60)).value == 1
    with pytest.raises(BadInput, match="nested deeper than 60"):
        parse(nested(61))


def test_a_thousand_arguments_are_the_most():
    assert len(parse(f"=F({';'.join(['1'] * 1000)})").parts) == 1000
    with pytest.raises(BadInput):
        parse(f"=F({';'.join(['1'] * 1001)})")


@example("()")
@given(st.text(alphabet="=RIG.BURY(ab1$;:\"'{}[]#-+*&<> )", max_size=40))
def test_any_text_is_taken_apart_or_refused(text):
    try:
        tree = parse(f"={text}")
    except BadInput:
        return
    assert all(isinstance(node.written, str) for node in tree.inside())
