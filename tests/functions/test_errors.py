"""The errors of cells: which refusal is shown as which, and what each means."""

import pytest
from loftsheet.errors import BadInput, CellError, NoSolution, NotInTable, as_cell_error

# LibreOffice Help, "Error Codes in LibreOffice Calc": what each number stands for.
MEANINGS = {
    502: "not allowed",
    503: "beyond what can be computed",
    504: "where it cannot",
    511: "argument is missing",
    519: "a number is due",
    522: "circle",
    523: "nothing fulfils",
    524: "deleted",
    525: "name",
    532: "division by zero",
    32767: "not in the table",
}


@pytest.mark.parametrize("code", MEANINGS)
def test_an_error_says_what_its_number_stands_for(code):
    assert MEANINGS[code] in CellError(code, "shown").words()
    assert CellError(code, "shown").words().startswith("shown (")


@pytest.mark.parametrize("code", range(500, 540))
def test_a_number_that_is_not_known_says_no_more_than_that_it_is_an_error(code):
    plain = CellError(code, "shown").words() == "shown (its formula cannot be computed)"
    assert plain == (code not in MEANINGS)


@pytest.mark.parametrize(
    "refused, code, name", [(BadInput, 502, "Err:502"), (NoSolution, 523, "Err:523"), (NotInTable, 32767, "#N/A")]
)
def test_each_refusal_is_an_error_of_its_own(refused, code, name):
    shown = as_cell_error(refused("why"))
    assert (shown.code, shown.name) == (code, name)


def test_two_errors_of_one_number_are_the_same_whatever_the_office_calls_them():
    assert CellError(502, "Err:502") == CellError(502, "#ARG!")
    assert CellError(502, "Err:502") != CellError(503, "Err:502")
