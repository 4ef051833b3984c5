"""Which branches of a formula are taken to have been worked out, and what Explain then shows."""

import pytest
from loftsheet import CALCS
from loftsheet.branches import taken, worth
from loftsheet.errors import CellError
from loftsheet.formula import parse
from loftsheet.trace import UNKNOWN
from loftsheet.working import explain, origin

from tests.functions.sheet import Sheet

DIVIDED, REFUSED, NONE = CellError(532, "#DIV/0!"), CellError(502, "Err:502"), CellError(32767, "#N/A")
HELD = {"n": 9.0, "zero": 0.0, "t": "Stub", "empty": "", "blank": None, "wrong": DIVIDED, "yes": True}
HELD["names"] = (("ring 40",), ("pin 12 mm",), (None,), (7.0,))
HELD["sizes"] = ((40.0,), (12.0,), (1.0,), (2.0,))


def valued(node):
    return HELD.get(node.written, UNKNOWN)


def of(formula):
    return worth(parse(f"={formula}"), valued)


# What Calc itself gives; tests/office/test_branches.py asks it.
KNOWN = {
    "n=9": True,
    "n<>9": False,
    "n>=9": True,
    "n>9": False,
    "n<9.5": True,
    "(n)<=(8)": False,
    "0.1+0=0": False,
    "n*2+1": 19.0,
    "1+n*2": 19.0,
    "20-n-1": 10.0,
    "36/n/2": 2.0,
    "(n+1)*2": 20.0,
    "0.1+0.2-0.3": 0.0,
    "n/zero": DIVIDED,
    "n*wrong": DIVIDED,
    "blank*n": 0.0,
    "n*t": UNKNOWN,
    "-n": UNKNOWN,
    "n^2": UNKNOWN,
    't&"s"': "Stubs",
    "n&t": UNKNOWN,
    "n*2>=18": True,
    "MAX(n;zero;11)": 11.0,
    "MIN(n;zero;11)": 0.0,
    "MAX(n;wrong)": DIVIDED,
    "MAX(n;blank)": UNKNOWN,
    "ABS(zero-n)": 9.0,
    "CEILING(n;2)": 10.0,
    "CEILING(0.75;0.25)": 0.75,
    "FLOOR(n;2)": 8.0,
    "RADIANS(zero)": 0.0,
    "COS(zero)": 1.0,
    't="Stub"': True,
    't<>"Stub"': False,
    't="stub"': UNKNOWN,
    't<>"ring"': True,
    't="stub "': False,
    "t=9": False,
    "t<>9": True,
    't>"a"': UNKNOWN,
    "t>9": UNKNOWN,
    'blank=""': True,
    "blank=0": True,
    "blank=blank": True,
    "blank<>zero": False,
    'empty=""': True,
    "empty=0": False,
    "wrong=1": DIVIDED,
    "1=wrong": DIVIDED,
    "ISBLANK(blank)": True,
    "ISBLANK(empty)": False,
    "ISBLANK(wrong)": False,
    "ISTEXT(t)": True,
    "ISTEXT(n)": False,
    "ISNUMBER(n)": True,
    "ISNUMBER(blank)": False,
    "ISNUMBER(wrong)": False,
    "ISERROR(wrong)": True,
    "ISERROR(n)": False,
    "ISNA(wrong)": False,
    "ISNA(NA())": True,
    "AND(n=9;t=9)": False,
    "AND(n=9;wrong=9)": DIVIDED,
    "AND(n=9;unknown)": UNKNOWN,
    "OR(n=9;t=9)": True,
    "OR(n;zero)": True,
    "AND(n;t)": UNKNOWN,
    "NOT(n=9)": False,
    "TRUE()": True,
    "FALSE()": False,
    "IFERROR(wrong;3)=3": True,
    "IFERROR(n;3)=9": True,
    "AVERAGE(n)=9": True,
    "AVERAGE(wrong)": DIVIDED,
    "AVERAGE(blank)": DIVIDED,
    "AVERAGE(t)": DIVIDED,
    "AVERAGE(n;n)": UNKNOWN,
    "IF(n=9;1;2)=1": True,
    "IF(wrong;1;2)": DIVIDED,
    'INDEX(sizes;MATCH("pin 12 mm";names;0))=12': True,
    "INDEX(sizes;MATCH(7;names;0))=2": True,
    'MATCH("none";names;0)': NONE,
    'INDEX(sizes;MATCH("none";names;0))': NONE,
    'MATCH("Pin 12 mm";names;0)': UNKNOWN,
    'MATCH("pin*";names;0)': UNKNOWN,
    'MATCH("pin";names;1)': UNKNOWN,
    "INDEX(sizes;9)": UNKNOWN,
    "names=1": UNKNOWN,
    "LEN(t)=4": UNKNOWN,
    "n=9=1": True,
}


@pytest.mark.parametrize("formula", KNOWN)
def test_conditions_come_to_what_calc_gives_or_are_left_open(formula):
    found = of(formula)
    assert found is KNOWN[formula] or found == KNOWN[formula]


@pytest.mark.parametrize(
    ("formula", "calls"),
    [
        ("IF(n=9;RIG.BURY(n);RIG.FID(n))", ["RIG.BURY(n)"]),
        ("IF(n=8;RIG.BURY(n);RIG.FID(n))", ["RIG.FID(n)"]),
        ("IF(n=8;RIG.BURY(n))", []),
        ("IF(wrong;RIG.BURY(n);RIG.FID(n))", []),
        ("IF(LEN(t)=4;RIG.BURY(n);RIG.FID(n))", ["RIG.BURY(n)", "RIG.FID(n)"]),
        ("IF(LEN(t)=4;IF(n=9;RIG.BURY(n);RIG.FID(n));1)", ["RIG.BURY(n)"]),
        ("2*IF(n=9;RIG.BURY(n);RIG.FID(n))", ["RIG.BURY(n)"]),
        ("IFERROR(n;RIG.BURY(n))", []),
        ("IFERROR(wrong;RIG.BURY(n))", ["RIG.BURY(n)"]),
    ],
)
def test_only_the_branch_taken_is_kept(formula, calls):
    tree = taken(parse(f"={formula}"), valued)
    assert [node.written for node in tree.inside() if node.calc] == calls


def made():
    sheet = Sheet()
    sheet.put("A4", "cap shroud")
    sheet.put("B4", 10.0)
    return sheet


@pytest.mark.parametrize(
    "formula",
    ['=IF(B9="";RIG.BURY(B4);RIG.BURY(B9))+1', "=IF(LEN(A4)=10;RIG.BURY(B4);RIG.BURY(B9))+1"],
    ids=["a condition worked out", "a condition left open"],
)
def test_no_refusal_of_a_branch_that_was_not_taken_is_shown(formula):
    text = explain(made().put("E4", 721.0, formula))
    assert "Result: 720 mm" in text
    assert "Refused" not in text
    assert text.count(CALCS["RIG.BURY"].usage()) == 1


def test_a_refusal_that_was_caught_is_shown():
    text = explain(made().put("E4", "?", '=IFERROR(RIG.BURY(B9);"?")'))
    assert "Refused" in text


def test_an_error_is_not_sought_in_a_branch_that_was_not_taken():
    sheet = made()
    sheet.put("C8", formula="=1/0", error=DIVIDED)
    right = sheet.put("C9", formula="=RIG.BURY(B9)", error=REFUSED)
    begins = sheet.put("E4", formula='=IF(A4="";C8;C9)', error=REFUSED)
    assert origin(begins) is right
    other = sheet.put("E5", formula='=IF(A4="";C9;C8+C9)', error=REFUSED)
    assert origin(other) is right


def test_a_formula_none_of_whose_functions_is_used_says_so():
    text = explain(made().put("E4", 3.0, '=IF(A4="";RIG.BURY(B4);3)'))
    assert "none of this extension's functions is used here" in text
    assert "Result" not in text
