"""The version, in a place of its own so that a calculation function can give it too."""

__version__ = "0.2.0"
