"""The last errors nobody foresaw, kept until the office is closed; About and Diagnostics shows them.

Like all that About needs, it runs on the oldest Python that any office brings.
"""

import collections
import time
import traceback

LAST = collections.deque(maxlen=20)  # type: collections.deque[str]


def note(doing: str, error: BaseException) -> None:
    """Keep an error with its time and where it came from."""
    lines = traceback.format_exception(type(error), error, error.__traceback__)
    LAST.append("{} while {}:\n{}".format(time.strftime("%Y-%m-%d %H:%M:%S"), doing, "".join(lines).rstrip()))
