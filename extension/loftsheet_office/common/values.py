"""Values as the office takes them.

Like all that About needs, it runs on the oldest Python that any office brings.
"""

from typing import Any

from com.sun.star.beans import PropertyValue


def property_values(**values: Any) -> "tuple[Any, ...]":
    """Named values in a row."""
    return tuple(PropertyValue(Name=name, Value=value) for name, value in values.items())
