"""Calculations for HMPE standing rigging on rod tangs: pure Python, no office, no file access."""

from loftsheet import (  # noqa: F401
    bolt,
    cases,
    chainplate,
    double,
    eye,
    fastening,
    lashing,
    loads,
    mass,
    section,
    splice,
    statics,
    strain,
    strength,
    stretch,
    stub_need,
    survey,
    tang,
    words,
)
from loftsheet.balance import calls as balance_calls  # noqa: F401
from loftsheet.registry import CALCS
from loftsheet.version import __version__

__all__ = ["CALCS", "__version__"]
