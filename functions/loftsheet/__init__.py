"""Calculations for HMPE standing rigging on rod tangs: pure Python, no office, no file access."""

__version__ = "0.1.0"

from loftsheet import bolt, loads, mass, stretch, survey  # noqa: F401
from loftsheet.registry import CALCS

__all__ = ["CALCS", "__version__"]
