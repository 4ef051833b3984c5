"""The workbook is data: no macro, script, link to elsewhere or function that reaches out, in any of its forms."""

import re
import zipfile

import pytest

pytestmark = pytest.mark.office

CODE = re.compile(
    r"^(Basic|Scripts|Dialogs|Configurations2/(accelerator|events|menubar|toolbar).+|.*vba.*|.*macro.*)", re.I
)
REACHING = ("WEBSERVICE(", "DDE(", "FILTERXML(", "HYPERLINK(", "INDIRECT(", "msoxl:", "vnd.sun.star", "file://")
ELSEWHERE = re.compile(r'xlink:href="(?!\.\."|\./|#|Pictures/|ObjectReplacements/|")([^"]*)"')
EVENTS = re.compile(
    r"<(script:event|office:event-listeners|presentation:event|office:scripts|table:cell-range-source)\b[^/>]*>"
)


def parts(path):
    with zipfile.ZipFile(path) as packed:
        for name in packed.namelist():
            yield name, packed.read(name).decode("utf-8", "replace") if name.endswith(".xml") else ""


def suspicious(path):
    """All that is more than data in a document of the office."""
    found = []
    for name, text in parts(path):
        found += [name] if CODE.match(name) and not name.endswith("/") else []
        found += [f"{name}: {word}" for word in REACHING if word in text]
        found += [f"{name}: {link}" for link in ELSEWHERE.findall(text)]
        found += [f"{name}: {event[0]}" for event in EVENTS.finditer(text)]
    return found


@pytest.fixture
def template(extension_file, tmp_path):
    from extension import package

    with zipfile.ZipFile(extension_file) as packed:
        (tmp_path / "template.ots").write_bytes(packed.read(package.SCHEDULE_PACKED))
    return tmp_path / "template.ots"


def test_the_template_is_data(template):
    assert suspicious(template) == []


def test_a_saved_schedule_is_data(office, demo, tmp_path):
    office.store(demo, tmp_path / "saved.ods")
    assert suspicious(tmp_path / "saved.ods") == []
    office.store(demo, tmp_path / "saved.xlsx")
    with zipfile.ZipFile(tmp_path / "saved.xlsx") as packed:
        names = packed.namelist()
        links = "".join(packed.read(name).decode() for name in names if name.endswith(".rels"))
    assert [name for name in names if re.search("vba|macro|external|connection|query", name, re.I)] == []
    assert 'TargetMode="External"' not in links


def test_what_is_more_than_data_is_seen(office, tmp_path):
    """A macro and a link, put in here, are found by the same look."""
    book = office.new()
    libraries = book.BasicLibraries
    if not libraries.hasByName("Standard"):
        libraries.createLibrary("Standard")
    libraries.getByName("Standard").insertByName("Module1", "Sub Main\nEnd Sub\n")
    cell = book.Sheets.getByIndex(0).getCellRangeByName("A1")
    cell.Formula = '=HYPERLINK("http://example.invalid")'
    office.store(book, tmp_path / "more.ods")
    office.close(book)
    found = suspicious(tmp_path / "more.ods")
    assert any(part.startswith("Basic/") for part in found)
    assert "content.xml: HYPERLINK(" in found
