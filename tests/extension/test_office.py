"""The office that builds and tests run: its limits, its profile, its files."""

import signal
import time
import zipfile

import pytest

from extension import package
from tests.conftest import office_class

pytestmark = pytest.mark.office


def test_what_takes_too_long_ends_with_the_office(tmp_path):
    with office_class()(tmp_path / "profile") as office:
        with office.at_most(0.2):
            office.process.wait(30)
        assert office.process.returncode == -signal.SIGKILL


def test_an_office_is_gone_when_its_block_ends(tmp_path):
    with office_class()(tmp_path / "profile") as office:
        process = office.process
        assert process.poll() is None
    assert process.returncode is not None


def test_a_changed_extension_takes_the_place_of_the_installed_one(tmp_path):
    def version(oxt):
        with office_class()(tmp_path / "profile", oxt) as office:
            information = office.context.getByName(
                "/singletons/com.sun.star.deployment.PackageInformationProvider"
            )
            return dict(information.getExtensionList())["org.loftsheet"]

    present = package.pack(tmp_path / "present.oxt")
    later = tmp_path / "later.oxt"
    with zipfile.ZipFile(present) as packed, zipfile.ZipFile(later, "w") as changed:
        for name in packed.namelist():
            content = packed.read(name)
            if name == "description.xml":
                content = content.replace(f'"{package.loftsheet.__version__}"'.encode(), b'"99.0"')
            changed.writestr(name, content)
    assert [version(oxt) for oxt in (present, later, later)] == [package.loftsheet.__version__, "99.0", "99.0"]


def test_an_ending_that_nothing_here_writes_is_refused(office, book, tmp_path):
    with pytest.raises(ValueError, match=r"\.ods.*\.pdf"):
        office.store(book, tmp_path / "book.doc")


def test_a_file_that_is_not_there_is_an_error(office, tmp_path):
    with pytest.raises(Exception, match=r"missing\.ods"):
        office.load(tmp_path / "missing.ods")


def test_a_lock_left_behind_by_a_killed_office_stops_nothing(office, book, tmp_path):
    office.store(book, tmp_path / "book.ods")
    (tmp_path / ".~lock.book.ods#").write_text(",rigger,elsewhere,01.01.2026 12:00,file:///tmp;")
    opened = office.load(tmp_path / "book.ods", Hidden=False)
    assert not opened.isReadonly()
    office.close(opened)


def test_the_same_workbook_twice_is_the_same_file(office, tmp_path):
    from extension import template

    one, two = tmp_path / "one.ods", tmp_path / "two.ods"
    for path in (one, two):
        book = office.new()
        book.Sheets.getByIndex(0).getCellRangeByName("A1").Value = 9
        office.store(book, path)
        office.close(book)
        template.normalise(path)
        time.sleep(1.1)  # the office notes the second of writing
    assert one.read_bytes() == two.read_bytes()
    again = office.load(one)
    assert again.Sheets.getByIndex(0).getCellRangeByName("A1").Value == 9
    office.close(again)
