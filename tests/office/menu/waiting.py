"""Patience with what the office does when it gets to it."""

import time

PATIENCE = 60  # seconds; how long is long is the bench's question


def wait(asked, words):
    """Wait until something is so and return it; the words are for when it does not come."""
    until = time.monotonic() + PATIENCE
    while time.monotonic() < until:
        try:
            if found := asked():
                return found
        except Exception as failed:  # a window or a cell may go away while it is asked
            if isinstance(failed, AssertionError):
                raise
        time.sleep(0.05)
    raise AssertionError(words())
