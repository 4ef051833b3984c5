"""The three ways in which a calculation is refused; a cell shows each as its own error."""

from dataclasses import dataclass, field


class BadInput(ValueError):
    """An argument is missing, of the wrong kind or outside what is allowed (Err:502 in a cell)."""


class NoSolution(ArithmeticError):
    """The arguments are fine one by one, but nothing fulfils them together (Err:523 in a cell)."""


class NotInTable(LookupError):
    """The table given does not hold what is asked for (#N/A in a cell)."""


@dataclass(frozen=True)
class CellError:
    """The error that a cell holds, by the office's number and the name it shows."""

    code: int
    name: str = field(compare=False)

    def words(self) -> str:
        return f"{self.name} ({CAUSES.get(self.code, 'its formula cannot be computed')})"


REFUSED, NOTHING_FITS, NO_VALUE = CellError(502, "Err:502"), CellError(523, "Err:523"), CellError(32767, "#N/A")
CAUSES = {
    502: "a number put in is missing or not allowed",
    503: "a number is beyond what can be computed",
    504: "a range or a text stands where it cannot, or a cell of a range is an error",
    511: "an argument is missing",
    519: "a text stands where a number is due",
    522: "the cells refer to each other in a circle",
    523: "nothing fulfils the numbers put in together",
    524: "a cell that it used has been deleted",
    525: "a name in it is not known; is the extension installed?",
    532: "division by zero",
    32767: "what is asked for is not in the table",
}


def as_cell_error(refused: Exception) -> CellError:
    """The error that a cell shows for a refused calculation."""
    if isinstance(refused, NotInTable):
        return NO_VALUE
    return NOTHING_FITS if isinstance(refused, NoSolution) else REFUSED
