"""Calculations for HMPE standing rigging on rod tangs: pure Python, no office, no file access."""

from loftsheet import bolt, eye, loads, mass, splice, strength, stretch, survey, tang, words  # noqa: F401
from loftsheet.registry import CALCS
from loftsheet.version import __version__

__all__ = ["CALCS", "__version__"]
