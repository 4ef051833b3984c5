"""The three ways in which a calculation is refused; a cell shows each as its own error."""


class BadInput(ValueError):
    """An argument is missing, of the wrong kind or outside what is allowed (Err:502 in a cell)."""


class NoSolution(ArithmeticError):
    """The arguments are fine one by one, but nothing fulfils them together (Err:523 in a cell)."""


class NotInTable(LookupError):
    """The table given does not hold what is asked for (#N/A in a cell)."""
