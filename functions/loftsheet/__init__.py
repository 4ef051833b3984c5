"""Calculations for HMPE standing rigging on rod tangs: pure Python, no office, no file access."""

from loftsheet import bolt, loads, mass, stretch, survey  # noqa: F401
from loftsheet.registry import CALCS
from loftsheet.version import __version__

__all__ = ["CALCS", "__version__"]
