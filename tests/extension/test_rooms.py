"""The rooms of what runs inside LibreOffice: imports go down only, and a file's name is there once."""

import ast
from collections import Counter

import pytest

from extension.setup_machine import ROOT

INSIDE = ROOT / "extension" / "loftsheet_office"
# From the ground up: a room may use those below it, and none beside it.
FLOORS = (("common",), ("addin", "dialogs", "workbook"), ("drawings", "supplier"), ("commands",))
FILES = sorted(INSIDE.rglob("*.py"))


def floor(room):
    return next(at for at, rooms in enumerate(FLOORS) if room in rooms)


def rooms_used(file):
    """The other rooms that a file imports from, wherever in it."""
    here = file.relative_to(INSIDE).parts[0]
    for part in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(part, ast.ImportFrom) and part.level == 2:
            for room in [part.module.split(".")[0]] if part.module else [name.name for name in part.names]:
                if room != here:
                    yield room
        if isinstance(part, (ast.ImportFrom, ast.Import)):
            names = [name.name for name in part.names] if isinstance(part, ast.Import) else [part.module or ""]
            assert not any(name.startswith(("extension", "templates", "loftsheet_office")) for name in names)
            assert getattr(part, "level", 0) < 3


def test_every_file_is_in_a_room():
    rooms = {file.relative_to(INSIDE).parts[0] for file in FILES if file.parent != INSIDE}
    assert rooms == {room for rooms in FLOORS for room in rooms}
    assert [file.name for file in FILES if file.parent == INSIDE] == ["__init__.py"]


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.relative_to(INSIDE).as_posix())
def test_imports_go_down_only(file):
    if file.parent == INSIDE:
        return
    here = file.relative_to(INSIDE).parts[0]
    used = set(rooms_used(file))
    assert {room for room in used if floor(room) >= floor(here)} == set()


def test_the_guard_sees_an_import():
    assert set(rooms_used(INSIDE / "commands" / "export.py")) == {"common", "dialogs", "supplier", "workbook"}


def test_no_two_files_have_one_name():
    folders = ("extension", "functions", "templates")
    files = [file for folder in folders for file in (ROOT / folder).rglob("*.py") if "build" not in file.parts]
    names = Counter(file.name for file in files if not file.name.startswith("__"))
    assert [name for name, often in names.items() if often > 1] == []
