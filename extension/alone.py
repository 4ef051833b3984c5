"""One at a time: others that want the same lock wait until it is free.

The lock is the system's own on a file that stays: whoever dies loses it, so a file left behind holds nobody.
"""

import contextlib
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import IO

LONGEST_WAIT = 3600  # seconds


@contextlib.contextmanager
def alone(lock: Path, told: str) -> "Iterator[IO[bytes]]":
    """Hold the lock meanwhile; who has to wait for it is told so on the error stream."""
    lock.parent.mkdir(parents=True, exist_ok=True)
    with open(lock, "ab") as held:
        if not _locks(held):
            print(told, file=sys.stderr, flush=True)
            until = time.monotonic() + LONGEST_WAIT
            while not _locks(held):
                if time.monotonic() > until:
                    sys.exit(f"{told} It has not ended in an hour; end it and try again.")
                time.sleep(0.5)
        yield held


def _locks(held: "IO[bytes]") -> bool:
    try:
        if sys.platform == "win32":
            import msvcrt

            held.seek(0)
            msvcrt.locking(held.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
