"""The extension as installed: its place among the templates, beside other packages, under an old Python."""

import sysconfig
import zipfile
from pathlib import Path

import pytest

from tests.conftest import office_class

pytestmark = pytest.mark.office


def test_it_is_known_under_its_name_and_version(office):
    from loftsheet import __version__

    information = office.context.getByName("/singletons/com.sun.star.deployment.PackageInformationProvider")
    assert ("org.loftsheet", __version__) in information.getExtensionList()


def test_the_schedule_is_among_the_templates(office):
    templates = office.create("com.sun.star.frame.DocumentTemplates")
    templates.update()
    category = f"{templates.Content.Identifier.ContentIdentifier}/Loftsheet"
    found = office.create("com.sun.star.ucb.SimpleFileAccess").getFolderContents(category, True)
    assert [name.rpartition("/")[2] for name in found] == ["Rig%20Schedule"]


def test_another_version_of_a_carried_package_is_not_used(extension_file, tmp_path, monkeypatch):
    other = Path(sysconfig.get_path("purelib", "posix_user", {"userbase": str(tmp_path / ".local")}))
    other.mkdir(parents=True)
    (other / "pint.py").write_text("raise ImportError('the wrong one')\n")
    monkeypatch.setenv("HOME", str(tmp_path))
    with office_class()(tmp_path / "profile", extension_file) as office:
        book = office.new()
        cell = book.Sheets.getByIndex(0).getCellRangeByName("A1")
        cell.Formula = '=ORG.LOFTSHEET.RIG.BURY("10 mm")'
        assert cell.Value == 720.0
        office.close(book)


def test_a_python_that_is_too_old_is_told_so_in_a_cell(extension_file, tmp_path):
    future = tmp_path / "future.oxt"
    with zipfile.ZipFile(extension_file) as packed, zipfile.ZipFile(future, "w") as changed:
        for name in packed.namelist():
            content = packed.read(name)
            changed.writestr(name, content.replace(b"FLOOR = (3, 9)", b"FLOOR = (99, 0)"))
    with office_class()(tmp_path / "profile", future) as office:
        book = office.new()
        sheet = book.Sheets.getByIndex(0)
        sheet.getCellRangeByName("A1").Formula = "=ORG.LOFTSHEET.RIG.VERSION()"
        sheet.getCellRangeByName("A2").Formula = "=ORG.LOFTSHEET.RIG.BURY(9)"
        assert "needs Python" in sheet.getCellRangeByName("A1").String
        assert sheet.getCellRangeByName("A2").getError()
        office.close(book)
