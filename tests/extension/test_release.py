"""A release: what goes to an address, the same each time, and an office that finds the newer one there."""

import hashlib
import re
import subprocess
import sys
import xml.etree.ElementTree as ET
import zipfile

import loftsheet
import pytest

from extension import package, publish
from extension.setup_machine import ROOT
from tests.conftest import office_class

ADDRESS = "https://example.org/a&b"
HREF = "{http://www.w3.org/1999/xlink}href"
PACKAGES = "/singletons/com.sun.star.deployment.PackageInformationProvider"


@pytest.fixture
def released(tmp_path, monkeypatch):
    """A release without the workbook, in a folder of its own."""
    monkeypatch.setattr(publish, "RELEASE", tmp_path / "release")
    monkeypatch.setattr(publish, "SCHEDULE", None)
    return publish.release(ADDRESS)


def hrefs(content):
    return [node.get(HREF) for node in ET.fromstring(content).iter() if node.get(HREF)]


def test_the_same_sources_give_the_same_release(released):
    before = {file.name: file.read_bytes() for file in released.iterdir()}
    again = {file.name: file.read_bytes() for file in publish.release(ADDRESS).iterdir()}
    assert again == before
    assert len(before) == 4


def test_each_file_that_is_named_is_among_those_of_the_release(released):
    names = {file.name for file in released.iterdir()}
    with zipfile.ZipFile(released / package.OXT.name) as packed:
        named = hrefs((released / package.UPDATES).read_bytes()) + hrefs(packed.read("description.xml"))
    there = [one.removeprefix(f"{ADDRESS}/") for one in named if one.startswith(ADDRESS)]
    assert sorted(there) == sorted([package.OXT.name, package.NOTES, package.NOTES, package.UPDATES])
    assert set(there) <= names


def test_the_checksum_is_that_of_the_extension(released):
    digest, name = (released / f"{package.OXT.name}.sha256").read_text().split()
    assert digest == hashlib.sha256((released / name).read_bytes()).hexdigest()


def test_what_is_built_for_nobody_looks_nowhere_for_updates(tmp_path):
    with zipfile.ZipFile(package.pack(tmp_path / "one.oxt")) as packed:
        assert b"update-information" not in packed.read("description.xml")


@pytest.mark.parametrize(("version", "newer"), [("99.0", True), (loftsheet.__version__, False)])
@pytest.mark.office
def test_an_office_finds_a_newer_version_at_the_address(tmp_path, version, newer):
    address = tmp_path.as_uri()
    (tmp_path / package.UPDATES).write_text(publish.update(address, version), encoding="utf-8")
    oxt = package.pack(tmp_path / "one.oxt", address=address)
    with office_class()(tmp_path / "profile", oxt) as office:
        found = office.context.getByName(PACKAGES).isUpdateAvailable("org.loftsheet")
    assert [tuple(one) for one in found] == ([("org.loftsheet", version)] if newer else [])


def test_the_schedule_of_a_version_is_kept_and_never_replaced(tmp_path, monkeypatch):
    monkeypatch.setattr(publish, "KEPT", tmp_path)
    schedule = tmp_path / "marrowick.ods"
    schedule.write_bytes(b"first")
    kept = publish.keep(schedule)
    schedule.write_bytes(b"second")
    assert publish.keep(schedule) == kept == tmp_path / f"marrowick-{loftsheet.__version__}.ods"
    assert kept.read_bytes() == b"first"


@pytest.mark.parametrize("words", [(), ("example.org",), ("https://",), (ADDRESS, "more")])
def test_an_address_that_is_none_is_refused_before_anything_is_made(words):
    command = [sys.executable, str(ROOT / "build.py"), "release", *words]
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=600)
    assert done.returncode == 2
    assert re.search("give the address .* such as https://", done.stdout)
