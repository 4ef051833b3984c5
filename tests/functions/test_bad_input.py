"""Every function, every argument, every kind of bad value: refused, or a finite result where it is allowed.

A cell must never hold infinity, no number, or another error than the three that mean something.
"""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from loftsheet import CALCS
from loftsheet.errors import BadInput, NoSolution, NotInTable
from loftsheet.examples import EXAMPLES
from loftsheet.registry import SMALLEST

HUGE = 10**400
NO_NUMBER = {
    "an empty text": "",
    "words": "abc",
    "a number as a text": "12",
    "a text that can mean two things": "1,500 mm",
    "a unit of the wrong kind": "5 µF",
    "no number": math.nan,
    "infinity": math.inf,
    "minus infinity": -math.inf,
    "a number too large to be held": float("1e400"),
    "a whole number too large to be held": HUGE,
    "a number too large for a rig": 1e300,
    "a range": ((1.0, 2.0),),
    "an empty range": (),
    "true": True,
    "an unknown thing": object(),
    "bytes": b"12 mm",
    "a complex number": 1j,
}
NUMBERS = {
    "zero": 0.0,
    "minus zero": -0.0,
    "a negative number": -1.0,
    "a small negative number": -1e-300,
    "a tiny number": 5e-324,
    "a large negative number": -1e300,
    "a broken number": 2.5,
}
RANGES = {
    "a range with words": (("abc",), (2.0,)),
    "a range with infinity": ((math.inf,), (2.0,)),
    "a range with no number": ((math.nan,), (2.0,)),
    "a range with a negative number": ((-1e9,), (2.0,)),
    "a range with true": ((True,), (2.0,)),
    "a range of blanks": (("",), ("",)),
    "a range of one": ((2.0,),),
    "a ragged range": ((1.0, 2.0), (3.0,)),
    "a range within a range": ((((1.0,),),),),
}
PLACES = [
    pytest.param(name, place, id=f"{name}-{argument.name}")
    for name, calc in CALCS.items()
    for place, argument in enumerate(calc.arguments)
]


def spoilt(name, place, value):
    given_values = list(EXAMPLES[name])
    given_values[place:] = [value, *given_values[place + 1 :]]
    return given_values


def is_finite(result):
    if isinstance(result, (tuple, list)):
        return all(is_finite(cell) for cell in result)
    return isinstance(result, str) or (type(result) is float and math.isfinite(result))


def refused_or_finite(name, values):
    """Whether a call was refused in one of the three ways; else its result has to be fit for a cell."""
    try:
        result = CALCS[name].call(*values)
    except (BadInput, NoSolution, NotInTable) as refused:
        assert str(refused), "refused without a word"
        return True
    assert is_finite(result), f"{values} gave {result!r}"
    return False


@pytest.mark.parametrize("name, place", PLACES)
def test_what_is_no_number_is_refused_where_a_number_is_due(name, place):
    quantity = CALCS[name].arguments[place].quantity
    for what, value in NO_NUMBER.items():
        refused = refused_or_finite(name, spoilt(name, place, value))
        if quantity.form.name == "number":
            assert refused, f"{what} was taken for {quantity.text}"


@pytest.mark.parametrize("name, place", PLACES)
def test_a_number_outside_the_limits_is_refused(name, place):
    quantity = CALCS[name].arguments[place].quantity
    for what, value in NUMBERS.items():
        refused = refused_or_finite(name, spoilt(name, place, value))
        outside = not quantity.least <= value <= quantity.most or (quantity.whole and value % 1)
        if quantity.form.name == "number" and outside:
            assert refused, f"{what} was taken for {quantity.text}"


@pytest.mark.parametrize("name, place", PLACES)
def test_a_missing_argument_is_refused_unless_it_is_optional(name, place):
    argument = CALCS[name].arguments[place]
    refused = refused_or_finite(name, spoilt(name, place, None))
    if argument.required and argument.quantity.form.name != "cell":
        assert refused


@pytest.mark.parametrize("name, place", PLACES)
def test_a_range_with_something_wrong_in_it_is_refused(name, place):
    quantity = CALCS[name].arguments[place].quantity
    for what, value in RANGES.items():
        refused = refused_or_finite(name, spoilt(name, place, value))
        if what in ("a range with words", "a range with infinity", "a range with no number", "a range with true"):
            assert refused or quantity.form.name not in ("number", "column"), f"{what} was taken"


@pytest.mark.parametrize("name", [name for name in CALCS if CALCS[name].arguments])
def test_every_argument_blank(name):
    refused_or_finite(name, [0.0] * len(EXAMPLES[name]))
    refused_or_finite(name, [""] * len(EXAMPLES[name]))


@pytest.mark.parametrize("name", CALCS)
def test_too_few_and_too_many_arguments(name):
    required = [argument for argument in CALCS[name].arguments if argument.required]
    if required:
        assert refused_or_finite(name, ())
    if not CALCS[name].rest:
        assert refused_or_finite(name, (*EXAMPLES[name], 1.0, *[1.0] * len(CALCS[name].arguments)))


@pytest.mark.parametrize("name, place", PLACES)
def test_a_blank_cell_is_never_taken_for_a_size(name, place):
    argument = CALCS[name].arguments[place]
    if argument.quantity.least == SMALLEST:
        with pytest.raises(BadInput, match=argument.name):
            CALCS[name].call(*spoilt(name, place, 0.0))


def allowed(argument):
    """Any value that an argument's own limits let through, the edges among them."""
    quantity = argument.quantity
    if quantity.form.name == "column":
        return st.lists(st.tuples(within(quantity)), max_size=4).map(tuple)
    values = within(quantity) if quantity.form.name == "number" else st.sampled_from(["mm", "", "in", "3/8 in"])
    return values if argument.required else st.one_of(st.none(), values)


def within(quantity):
    least, most = max(quantity.least, -1e12), min(quantity.most, 1e12)
    if quantity.whole:
        return st.integers(int(least), int(most)).map(float)
    return st.one_of(st.floats(least, most), st.sampled_from([least, most]))


ORDINARY = [name for name, calc in CALCS.items() if not calc.rest and name not in ("RIG.REFUSAL", "RIG.WORKING")]


@pytest.mark.parametrize("name", ORDINARY)
@settings(max_examples=60)
@given(data=st.data())
def test_whatever_the_limits_let_through_is_refused_or_finite(name, data):
    refused_or_finite(name, [data.draw(allowed(argument), argument.name) for argument in CALCS[name].arguments])


@pytest.mark.parametrize("name", ORDINARY)
@settings(max_examples=30)
@given(data=st.data())
def test_one_argument_at_its_edges_is_refused_or_finite(name, data):
    if not CALCS[name].arguments:
        return
    place = data.draw(st.integers(0, len(CALCS[name].arguments) - 1))
    refused_or_finite(name, spoilt(name, place, data.draw(allowed(CALCS[name].arguments[place]))))
