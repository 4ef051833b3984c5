"""Killed while writing, a full disk, files that are kept, damaged files: nothing is lost or half new."""

import contextlib
import os
import random
import signal
import subprocess
import sys
import threading
import zipfile
from pathlib import Path

import pytest

from tests.conftest import office_class
from tests.inside import written
from tests.office import outputs
from tests.office.menu.cells import frame_of

openpyxl = pytest.importorskip("openpyxl")
pytestmark = pytest.mark.office

ROOT = Path(__file__).resolve().parents[2]
BEFORE = b"the one before"
OURS = ".loftsheet-"  # what an unfinished file is in


@pytest.fixture
def refusal(extension_file):
    from extension.loftsheet_office.common.refusal import Refusal

    return Refusal


@pytest.fixture
def path(tmp_path):
    """Where the supplier's file goes; an older one is there, in a folder of its own."""
    folder = tmp_path / "orders"
    folder.mkdir()
    for ending in (".xlsx", ".pdf"):
        (folder / f"order{ending}").write_bytes(BEFORE)
    return folder / "order.xlsx"


def beside(path):
    """What else than the two files is in the folder."""
    return [file.name for file in path.parent.iterdir() if file.stem != "order"]


def old_or_whole(path):
    """Whether a file is still the old one, byte for byte, or a new one from its first to its last byte."""
    if path.read_bytes() == BEFORE:
        return True
    if path.suffix == ".pdf":
        return path.read_bytes().rstrip().endswith(b"%%EOF")
    return zipfile.ZipFile(path).testzip() is None


def cut_in_the_middle(workbook, name):
    Path(name).write_bytes(b"half of it")
    os.kill(os.getpid(), signal.SIGKILL)


def cut_before_renaming(*_):
    os.kill(os.getpid(), signal.SIGKILL)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot fork a process to kill it")
@pytest.mark.parametrize(
    ("step", "cut"),
    [("openpyxl.Workbook.save", cut_in_the_middle), ("os.replace", cut_before_renaming)],
    ids=["while it writes", "before it renames"],
)
def test_the_writing_process_is_killed(demo, path, monkeypatch, step, cut):
    from extension.loftsheet_office.supplier import content, order_file

    read = content.read(demo).only()
    monkeypatch.setattr(step, cut)
    child = os.fork()
    if child == 0:
        try:
            order_file.write(read, path)
        finally:
            os._exit(1)
    _, status = os.waitpid(child, 0)
    assert os.WTERMSIG(status) == signal.SIGKILL
    assert path.read_bytes() == BEFORE
    assert beside(path)
    assert all(name.startswith(OURS) for name in beside(path))


@pytest.fixture
def own_office(extension_file, tmp_path):
    """An office that may be killed."""
    with office_class()(tmp_path / "own_profile", extension_file, dialogs=True) as office:
        yield office


def test_the_office_is_killed_before_it_writes_the_pdf(own_office, demo_file, path, monkeypatch):
    from com.sun.star.lang import DisposedException
    from com.sun.star.uno import RuntimeException

    book = own_office.load(demo_file)
    from extension.loftsheet_office.supplier import order_file

    as_pdf = order_file._as_pdf

    def killed(*given):
        own_office._kill()
        return as_pdf(*given)

    monkeypatch.setattr(order_file, "_as_pdf", killed)
    with pytest.raises((DisposedException, RuntimeException)):
        written.order(book, path, desktop=own_office.desktop)
    assert path.read_bytes() == path.with_suffix(".pdf").read_bytes() == BEFORE
    assert beside(path) == []


@pytest.mark.long
@pytest.mark.parametrize("after", [0.0, 0.4, 0.7, 0.8, 0.9, 1.0, 1.1, 1.3, 2.0])
def test_the_office_is_killed_while_it_exports(own_office, demo_file, path, after):
    """Given in the menu, so that office, Python and all end at once, wherever they are."""
    from com.sun.star.uno import Exception as UnoException

    from tests.office.menu.screen import Screen

    screen = Screen(own_office)
    book = screen.open(demo_file)
    path.unlink()
    screen.give("export", frame_of(book))
    screen.dialog("Export for a Supplier").press("Export…")
    screen.choose_file(path)
    question, words, _ = screen.shown_message("Export for a Supplier", "Yes")
    assert "order.pdf is there already" in words
    path.write_bytes(BEFORE)
    killer = threading.Timer(after, own_office._kill)
    killer.start()
    with contextlib.suppress(UnoException):
        question.press("Yes")
    killer.join()
    assert old_or_whole(path)
    assert old_or_whole(path.with_suffix(".pdf"))
    assert all(name.startswith(OURS) for name in beside(path))


@pytest.fixture
def small_disk(tmp_path):
    """Make a disk that holds no more than so many KiB."""
    disks = []

    if not sys.platform.startswith("linux") or os.geteuid() != 0:
        pytest.skip("only root of a Linux system can make a small disk")

    def make(size):
        disk = tmp_path / f"disk{len(disks)}"
        disk.mkdir()
        command = ["mount", "-t", "tmpfs", "-o", f"size={size}k", "tmpfs", str(disk)]
        if subprocess.run(command, check=False).returncode:
            pytest.skip("this root may not mount a small disk")
        disks.append(disk)
        return disk

    yield make
    for disk in disks:
        subprocess.run(["umount", str(disk)], check=True)


FULL = r"^Writing \w+\.\w+ did not work: the disk is full, \d+ KiB are left at /.*disk0\. Free some room there or"


# The library's archive is closed a second time when it is cleared away, with no disk for that either.
@pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning")
@pytest.mark.parametrize(("size", "what"), [(8, "the .xlsx"), (24, "the PDF")])
def test_a_full_disk(office, demo, refusal, small_disk, size, what):
    from extension.loftsheet_office.common.safe_files import InWords

    path = small_disk(size) / "order.xlsx"
    path.write_bytes(BEFORE)
    with pytest.raises(refusal, match=FULL), InWords("Writing order.xlsx", path):
        written.order(demo, path, desktop=office.desktop)
    assert path.read_bytes() == BEFORE
    assert [file.name for file in path.parent.iterdir()] == ["order.xlsx"]


def test_a_full_disk_under_the_bench_pages(office, demo, refusal, small_disk):
    from extension.loftsheet_office.common.safe_files import InWords

    path = small_disk(16) / "pages.pdf"
    path.write_bytes(BEFORE)
    with pytest.raises(refusal, match=FULL), InWords("Writing pages.pdf", path):
        outputs.bench_pages(office, demo, path)
    assert path.read_bytes() == BEFORE
    assert [file.name for file in path.parent.iterdir()] == ["pages.pdf"]


KEPT = {
    "write-protected": lambda path: path.chmod(0o444),
    "open in LibreOffice": lambda path: path.with_name(f".~lock.{path.name}#").write_text(",rigger,elsewhere;"),
}


@pytest.mark.parametrize("ending", [".xlsx", ".pdf"])
@pytest.mark.parametrize("kept", KEPT)
def test_a_file_that_is_kept_is_not_replaced(office, demo, refusal, path, kept, ending):
    KEPT[kept](path.with_suffix(ending))
    files = sorted(path.parent.iterdir())
    with pytest.raises(refusal, match=rf"order\{ending} was left as it is: it is {kept}"):
        written.order(demo, path, desktop=office.desktop)
    assert path.read_bytes() == path.with_suffix(".pdf").read_bytes() == BEFORE
    assert sorted(path.parent.iterdir()) == files


@pytest.mark.parametrize("older", [".xlsx", ".pdf", ""])
def test_two_files_are_replaced_both_or_neither(office, demo, path, monkeypatch, older):
    """As where a program that shows the PDF does not let it be replaced."""
    rename = os.replace

    def refused_for_the_pdf(finished, place):
        if place == path.with_suffix(".pdf"):
            raise PermissionError(13, "shown elsewhere")
        rename(finished, place)

    for ending in {".xlsx", ".pdf"} - {older}:
        path.with_suffix(ending).unlink()
    before = {file.name: file.read_bytes() for file in path.parent.iterdir()}
    monkeypatch.setattr("os.replace", refused_for_the_pdf)
    with pytest.raises(PermissionError, match="shown elsewhere"):
        written.order(demo, path, desktop=office.desktop)
    assert {file.name: file.read_bytes() for file in path.parent.iterdir()} == before


@pytest.mark.parametrize("kept", KEPT)
def test_bench_pages_that_are_kept_are_not_replaced(office, demo, refusal, path, kept):
    pages = path.with_suffix(".pdf")
    KEPT[kept](pages)
    with pytest.raises(refusal, match=f"it is {kept}"):
        outputs.bench_pages(office, demo, pages)
    assert pages.read_bytes() == BEFORE


@pytest.mark.parametrize("ending", [".ods", ".xlsx"])
@pytest.mark.parametrize("share", [0.0, 0.01, 0.5, 0.999])
def test_a_schedule_that_was_cut_off(office, demo, tmp_path, ending, share):
    """The office refuses it, or opens what is left of it; it goes on working."""
    from com.sun.star.uno import Exception as UnoException

    cut = tmp_path / f"cut{ending}"
    office.store(demo, cut)
    whole = cut.read_bytes()
    cut.write_bytes(whole[: int(share * len(whole))])
    with contextlib.suppress(OSError, UnoException):
        office.close(office.load(cut))
    book = office.new()
    cell = book.Sheets.getByIndex(0).getCellRangeByName("A1")
    cell.Formula = "=ORG.LOFTSHEET.RIG.BURY(9)"
    assert cell.Value == 648
    office.close(book)


@pytest.fixture
def answer(tmp_path):
    """A supplier's answer that is right."""
    from extension.loftsheet_office.supplier.lists import ITEM, LEAD, PRICE

    workbook = openpyxl.Workbook()
    for row in ([ITEM, "Quantity", PRICE, LEAD], ["M16 A4-70", 2, 21.5, 14], ["a rod", 1, 30, 7]):
        workbook.active.append(row)
    workbook.save(tmp_path / "answer.xlsx")
    return tmp_path / "answer.xlsx"


def read(path):
    from extension.loftsheet_office.common.safe_files import InWords
    from extension.loftsheet_office.supplier import quotes

    with InWords(f"Reading {path.name}", path):
        return quotes.rows_of(path)


def test_a_prices_file_that_was_cut_off(office, answer, refusal):
    whole = answer.read_bytes()
    assert read(answer)[0]["Item"] == "M16 A4-70"
    for length in range(0, len(whole), 97):
        answer.write_bytes(whole[:length])
        with pytest.raises(refusal, match=r"answer\.xlsx"):
            read(answer)


def test_a_prices_file_with_wrong_bytes(office, answer, refusal):
    """Whatever is read in spite of it is read whole: the archive's own checksums see to that."""
    whole, due, dice = answer.read_bytes(), read(answer), random.Random(7)
    refused = 0
    for _ in range(150):
        spoilt = bytearray(whole)
        spoilt[dice.randrange(len(spoilt))] ^= 1 << dice.randrange(8)
        answer.write_bytes(bytes(spoilt))
        try:
            assert read(answer) == due
        except refusal:
            refused += 1
    assert refused > 75


def as_archive(path, **files):
    with zipfile.ZipFile(path, "w") as packed:
        for name, content in files.items():
            packed.writestr(name, content)


NO_SPREADSHEETS = {
    "an empty file": lambda path: path.write_bytes(b""),
    "a text": lambda path: path.write_text("Item;Your price per unit\nM16 A4-70;21,5\n"),
    "an archive of something else": lambda path: as_archive(path, **{"readme": "nothing"}),
    "an archive with broken parts": lambda path: as_archive(
        path, **{"[Content_Types].xml": "<Types", "xl/workbook.xml": "<"}
    ),
    "a page of the web": lambda path: path.write_text("<html><table><tr><td>Item</td></tr></table></html>"),
    "a folder": lambda path: (path.unlink(), path.mkdir()),
    "nothing": lambda path: path.unlink(),
}


@pytest.mark.parametrize("what", NO_SPREADSHEETS)
def test_a_prices_file_that_is_no_spreadsheet(office, answer, refusal, what):
    NO_SPREADSHEETS[what](answer)
    with pytest.raises(refusal, match=r"answer\.xlsx"):
        read(answer)


def test_a_prices_file_of_the_open_document_kind_is_told_apart(office, answer, refusal, tmp_path):
    book = office.new()
    office.store(book, tmp_path / "prices.ods")
    office.close(book)
    (tmp_path / "prices.ods").rename(answer)
    with pytest.raises(refusal, match=r"cannot be read as an \.xlsx spreadsheet"):
        read(answer)


def test_a_single_cell_far_away_does_not_stop_the_office(office, answer, refusal):
    workbook = openpyxl.load_workbook(answer)
    workbook.active["XFD1048576"] = "x"
    workbook.save(answer)
    with pytest.raises(refusal, match=r"answer\.xlsx, sheet Sheet: it goes on beyond 20,000 rows"):
        read(answer)


def rows_on_end(number):
    yield b'<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>'
    for _ in range(number // 1000):
        yield b"<row/>" * 1000
    yield b"</sheetData></worksheet>"


def strings_on_end(megabytes):
    yield b'<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><si><t>'
    for _ in range(megabytes):
        yield b" " * 1_000_000
    yield b"</t></si></sst>"


BOMBS = {
    "a sheet that unpacks to 60 MB": (
        "xl/worksheets/sheet1.xml",
        lambda: rows_on_end(10_000_000),
        "unpacks to 60 MB",
    ),
    "strings that unpack to 1 GB": ("xl/sharedStrings.xml", lambda: strings_on_end(1000), "unpacks to 1,000 MB"),
    "strings by another name": ("xl/sharedStrings.bin", lambda: strings_on_end(100), "unpacks to 100 MB"),
    "a million rows": ("xl/worksheets/sheet1.xml", lambda: rows_on_end(1_000_000), "goes on beyond 20,000 rows"),
}
PEAK = """
import resource, sys
from pathlib import Path
import uno
from extension.loftsheet_office.common.refusal import Refusal
from extension.loftsheet_office.supplier import quotes
import openpyxl.reader.excel
before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
try:
    quotes.rows_of(Path(sys.argv[1]))
except Refusal as said:
    print(said)
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before)
"""


@pytest.mark.parametrize("what", BOMBS)
def test_a_small_prices_file_that_unpacks_to_a_large_one_is_not_unpacked(answer, what):
    pytest.importorskip("resource")
    part, content, words = BOMBS[what]
    files = {}
    with zipfile.ZipFile(answer) as packed:
        files = {name: packed.read(name) for name in packed.namelist() if name != part}
    with zipfile.ZipFile(answer, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as packed:
        for name, held in files.items():
            packed.writestr(name, held)
        with packed.open(part, "w", force_zip64=True) as large:
            for piece in content():
                large.write(piece)
    assert answer.stat().st_size < 10_000_000
    told, more = said_and_kilobytes(answer)
    assert words in told
    assert more < 200_000


def said_and_kilobytes(path):
    """What reading says, and by how much the memory of the Python that reads has grown at most."""
    where = {**os.environ, "PYTHONPATH": os.pathsep.join(["functions", "."])}
    done = subprocess.run(
        [sys.executable, "-c", PEAK, str(path)], env=where, cwd=ROOT, capture_output=True, text=True, check=True
    )
    *told, more = done.stdout.splitlines()
    return "\n".join(told), int(more)
