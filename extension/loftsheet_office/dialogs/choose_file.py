"""Where files are written to and read from: asked by the office's own dialogs, answered in words."""

from pathlib import Path
from typing import Any, Optional

from com.sun.star.ui.dialogs.TemplateDescription import FILEOPEN_SIMPLE, FILESAVE_AUTOEXTENSION

from ..common.refusal import Refusal
from ..common.safe_files import local
from .desk import Desk

XLSX = ("Spreadsheet (.xlsx)", "*.xlsx")
SCHEDULES = ("Rig schedule (.ods)", "*.ods")


def place_to_write(desk: Desk, title: str, name: str) -> Optional[Path]:
    """Ask where to write an .xlsx file; None when the user thinks better of it."""
    picker = _picker(desk, FILESAVE_AUTOEXTENSION, title)
    picker.setDefaultName(name)
    path = _picked(picker)
    if path is not None:
        _there(path.parent)
    if path is None or path.suffix.lower() == ".xlsx":
        return path
    path = path.with_name(f"{path.name}.xlsx")  # of this one the dialog has not asked whether it may be replaced
    return path if desk.may_replace(title, path) else None


def file_to_read(desk: Desk, title: str, kind: "tuple[str, str]" = XLSX) -> Optional[Path]:
    """Ask for a file, an .xlsx if nothing else is said; None when the user thinks better of it."""
    return _picked(_picker(desk, FILEOPEN_SIMPLE, title, kind))


def folder(desk: Desk, title: str, words: str) -> Optional[Path]:
    """Ask for a folder; None when the user thinks better of it."""
    picker = desk.create("com.sun.star.ui.dialogs.FolderPicker")
    picker.setTitle(title)
    picker.setDescription(words)
    _start_beside(picker, desk.document)
    return _there(local(picker.getDirectory())) if picker.execute() else None


def folder_of(document: Any) -> Optional[Path]:
    """The folder of a document that was saved on this computer."""
    address = document.getURL()
    return local(address).parent if address.startswith("file:") else None


def _picker(desk: Desk, kind: int, title: str, files: "tuple[str, str]" = XLSX) -> Any:
    name = "com.sun.star.ui.dialogs.FilePicker"
    picker = desk.context.ServiceManager.createInstanceWithArgumentsAndContext(name, (kind,), desk.context)
    picker.setTitle(title)
    picker.appendFilter(*files)
    _start_beside(picker, desk.document)
    return picker


def _start_beside(picker: Any, document: Any) -> None:
    """Offer the folder of the document; of one that is gone the office would say "Error" and no more."""
    beside = folder_of(document)
    if beside and beside.is_dir():
        picker.setDisplayDirectory(beside.as_uri())


def _there(folder: Path) -> Path:
    if not folder.is_dir():
        raise Refusal(f"There is no folder {folder}. It may have been moved or renamed; choose another.")
    return folder


def _picked(picker: Any) -> Optional[Path]:
    return local(picker.getSelectedFiles()[0]) if picker.execute() else None
