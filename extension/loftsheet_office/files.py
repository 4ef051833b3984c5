"""Where files are written and read: the office's own dialogs for it, and refusals in words."""

import os
import shutil
import stat
from collections.abc import Sequence
from pathlib import Path
from typing import Any, Optional

import uno
from com.sun.star.io import IOException
from com.sun.star.ui.dialogs.TemplateDescription import FILEOPEN_SIMPLE, FILESAVE_AUTOEXTENSION

from .desk import Desk
from .refusal import Refusal

XLSX = ("Spreadsheet (.xlsx)", "*.xlsx")


def place_to_write(desk: Desk, title: str, name: str) -> Optional[Path]:
    """Ask where to write an .xlsx file; None when the user thinks better of it."""
    picker = _picker(desk, FILESAVE_AUTOEXTENSION, title)
    picker.setDefaultName(name)
    path = _picked(picker)
    if path is None or path.suffix.lower() == ".xlsx":
        return path
    path = path.with_name(f"{path.name}.xlsx")  # of this one the dialog has not asked whether it may be replaced
    return path if desk.may_replace(title, path) else None


def file_to_read(desk: Desk, title: str) -> Optional[Path]:
    """Ask for an .xlsx file; None when the user thinks better of it."""
    return _picked(_picker(desk, FILEOPEN_SIMPLE, title))


def folder(desk: Desk, title: str, words: str) -> Optional[Path]:
    """Ask for a folder; None when the user thinks better of it."""
    picker = desk.create("com.sun.star.ui.dialogs.FolderPicker")
    picker.setTitle(title)
    picker.setDescription(words)
    if beside := folder_of(desk.document):
        picker.setDisplayDirectory(beside.as_uri())
    return local(picker.getDirectory()) if picker.execute() else None


def folder_of(document: Any) -> Optional[Path]:
    """The folder of a document that was saved on this computer."""
    address = document.getURL()
    return local(address).parent if address.startswith("file:") else None


def local(address: str) -> Path:
    if not address.startswith("file:"):
        raise Refusal("Please choose a place on this computer. It can be copied elsewhere afterwards.")
    return Path(uno.fileUrlToSystemPath(address))


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

    def __init__(self, doing: str) -> None:
        self.doing = doing

    def __enter__(self) -> None:
        pass

    def __exit__(self, kind: Any, error: Any, trace: Any) -> None:
        if isinstance(error, OSError):
            raise Refusal(f"{self.doing} did not work: {error.strerror or error}.")
        if isinstance(error, IOException):
            raise Refusal(f"{self.doing} did not work: the office cannot write there.")


def _picker(desk: Desk, kind: int, title: str) -> Any:
    name = "com.sun.star.ui.dialogs.FilePicker"
    picker = desk.context.ServiceManager.createInstanceWithArgumentsAndContext(name, (kind,), desk.context)
    picker.setTitle(title)
    picker.appendFilter(*XLSX)
    if beside := folder_of(desk.document):
        picker.setDisplayDirectory(beside.as_uri())
    return picker


def _picked(picker: Any) -> Optional[Path]:
    return local(picker.getSelectedFiles()[0]) if picker.execute() else None
