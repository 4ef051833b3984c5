"""Files that are never half new: refused where they are kept, written beside, put in place together."""

import errno
import os
import shutil
import stat
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import uno
from com.sun.star.io import IOException
from com.sun.star.uno import Exception as OfficeException

from .refusal import Refusal

LITTLE = 64 * 1024  # bytes, less than any of the files that are written
FULL = (errno.ENOSPC, errno.EDQUOT) if hasattr(errno, "EDQUOT") else (errno.ENOSPC,)


def local(address: str) -> Path:
    if not address.startswith("file:"):
        raise Refusal("Please choose a place on this computer. It can be copied elsewhere afterwards.")
    try:
        return Path(uno.fileUrlToSystemPath(address))
    except OfficeException:
        raise Refusal(f"The office cannot tell which file {address} is. Give it another name.") from None


def refuse_kept(path: Path) -> None:
    """Refuse to replace a file that is write-protected or open; renaming another over it would not ask."""
    if path.exists() and not path.stat().st_mode & stat.S_IWUSR:
        why = "it is write-protected. Take that off"
    elif path.with_name(f".~lock.{path.name}#").exists():
        why = "it is open in LibreOffice, as the lock file beside it says. Close it there"
    else:
        return
    raise Refusal(f"{path.name} was left as it is: {why}, or choose another name or folder.")


def put_in_place(files: "Sequence[tuple[Path, Path]]") -> None:
    """Rename finished files over others: all of them or, where one is refused, none."""
    before = {
        place: shutil.copy2(place, finished.with_name(f"before {finished.name}"))
        for finished, place in files
        if place.is_file()
    }
    done: list[Path] = []
    try:
        for finished, place in files:
            os.replace(finished, place)
            done.append(place)
    except OSError:
        for place in done:
            if place in before:
                os.replace(before[place], place)
            else:
                place.unlink()
        raise


class InWords:
    """Say in words what the computer or the office refuses, in a `with` block.

    A class, because an exception of the office cannot pass through a context made from a generator.
    """

    def __init__(self, doing: str, place: Path) -> None:
        self.doing, self.place = doing, place

    def __enter__(self) -> None:
        pass

    def __exit__(self, kind: Any, error: Any, trace: Any) -> None:
        if not isinstance(error, (OSError, IOException)):
            return
        why = self._full_disk(error)
        if not why:
            said = (
                error.strerror or error if isinstance(error, OSError) else "the office cannot read or write there"
            )
            why = f"{said}. The place is {self.place}"
        raise Refusal(f"{self.doing} did not work: {why}.")

    def _full_disk(self, error: Any) -> str:
        """That the disk is full, if it is: the office says of that only that it cannot open or write a file."""
        try:
            left = shutil.disk_usage(self.place.parent).free
        except OSError:
            return ""
        if left > LITTLE and getattr(error, "errno", None) not in FULL:
            return ""
        return (
            f"the disk is full, {left // 1024} KiB are left at {self.place.parent}. Free some room there or "
            "choose another folder"
        )
