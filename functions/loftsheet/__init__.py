"""Calculations for HMPE standing rigging on rod tangs: pure Python, no office, no file access."""

from loftsheet import (  # noqa: F401
    bolt,
    cases,
    eye,
    lashing,
    loads,
    mass,
    section,
    splice,
    statics,
    strain,
    strength,
    stretch,
    survey,
    tang,
    words,
)
from loftsheet.registry import CALCS
from loftsheet.version import __version__

__all__ = ["CALCS", "__version__"]
