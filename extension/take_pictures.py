"""The README's pictures: pages as they are printed, and windows of an office on a screen that is not there.

PYTHONPATH=functions .venv/bin/python -c "from extension import take_pictures; take_pictures.take()"

after whatever they show has changed.

Needs pdftoppm (poppler-utils), Xvfb, xdotool, and convert and import (imagemagick) besides what the tests need.
Look at each afterwards: a window that came up late is a picture of something else.
"""

import os
import shutil
import subprocess
import tempfile
import threading
import time
from pathlib import Path
from typing import Any, Callable

import uno

from extension import inside, template
from extension.commands import build_extension, sources
from extension.loftsheet_office.drawings import mark_out_sheet, stub
from extension.loftsheet_office.supplier import content, order_file
from extension.office import Office
from extension.package import ROOT
from templates.boats import marrowick

PICTURES = ROOT / "extension/pictures"
SCREEN, WIDE, HIGH = ":94", 1440, 900
FOR_A_WINDOW = 15.0  # seconds
MENU_AT = ("392", "9")  # Rigging in the menu bar
HOLE = "=ORG.LOFTSHEET.RIG.TANGHOLE(52;13.8;15)"  # the stub of a lower shroud of Marrowick
COLOURS = ("-colors", "64", "-strip")


def take() -> None:
    """Take all of them anew."""
    extension = build_extension()
    with tempfile.TemporaryDirectory() as scratch:
        out = Path(scratch)
        with Office(out / "printing", extension, beside=[inside.pack(out / "inside.oxt")]) as office:
            boat = print_all(office, out)
        with Screen(), Office(out / "shown", extension, screen=SCREEN) as office:
            windows(office, boat)


def print_all(office: Any, out: Path) -> Path:
    """The pages of schedule, order and mark-out sheet; return the schedule."""
    boat = Path(shutil.copy(template.of_boat(office, marrowick, sources()), out / "marrowick.ods"))
    book = office.load(boat)
    office.recalculate(book)
    office.store(book, out / "book.pdf")
    order_file.write(content.read(book).only(), out / "order.xlsx", desktop=office.desktop)
    _, sheet = mark_out_sheet.draw(office.desktop, stub.read(book, "cap stub, port"), out)
    office.close(book)
    page(out / "book.pdf", "Rig", "rig.png", 90)
    page(out / "book.pdf", "Stays\n", "stays.png", 71)  # a page of Boat begins with that word, too
    page(out / "book.pdf", "Side view", "side-view.png", 69)
    page(out / "order.pdf", "Order", "order.png", 71)
    page(sheet, "Mark-out sheet", "mark-out.png", 90)
    return boat


def page(path: Path, title: str, name: str, dots: int) -> None:
    """The first page with that title at its head, so many dots to the inch, without the white around it."""
    words = run("pdftotext", str(path), "-").split("\f")
    at = next(at for at, text in enumerate(words, 1) if text.lstrip().startswith(title))
    drawn = path.with_suffix("")
    run("pdftoppm", "-r", str(dots), "-f", str(at), "-l", str(at), "-singlefile", "-png", str(path), str(drawn))
    crop = ("-trim", "+repage", "-bordercolor", "white", "-border", "6")
    run("convert", f"{drawn}.png", *crop, *COLOURS, f"PNG8:{PICTURES / name}")


class Screen:
    """An X server without a monitor, in a `with` block."""

    def __enter__(self) -> None:
        size = f"{WIDE}x{HIGH}x24"
        self.server = subprocess.Popen(["Xvfb", SCREEN, "-screen", "0", size], stderr=subprocess.DEVNULL)
        time.sleep(1)

    def __exit__(self, *_: object) -> None:
        self.server.terminate()
        self.server.wait()


def windows(office: Any, boat: Path) -> None:
    book = shown(office, boat.as_uri())
    book.calculateAll()
    select(book, "stays_name", 0)
    run("xdotool", "mousemove", *MENU_AT, "click", "1")
    photograph("menu.png", "1100x480+0+0")
    run("xdotool", "key", "Escape", "key", "Escape")
    # A name that is in no list, and a margin that is too much for its rope.
    cell(book, "stays_share", 1).String = "one of three lowers"
    cell(book, "stays_margin_own", 2).Value = 6
    book.calculateAll()
    select(book, "stays_share", 1)
    aside(lambda: command(office, book, "org.loftsheet:check"))
    photograph("check.png", f"{WIDE}x760+0+140")
    run("xdotool", "key", "Escape")
    sheet = shown(office, "private:factory/scalc")
    formula = sheet.Sheets.getByIndex(0).getCellRangeByName("B2")
    formula.Formula = HOLE
    sheet.CurrentController.select(formula)
    aside(lambda: command(office, sheet, ".uno:FunctionDialog"))
    time.sleep(FOR_A_WINDOW)
    wizard = run("xdotool", "search", "--name", "Function Wizard").split()[-1]
    photograph("function-wizard.png", "", wizard)
    run("xdotool", "windowfocus", wizard, "key", "Escape")
    for document in (sheet, book):
        document.setModified(False)


def shown(office: Any, address: str) -> Any:
    document = office._open(address, Hidden=False)
    document.CurrentController.Frame.ContainerWindow.setPosSize(0, 0, WIDE, HIGH, 15)
    return document


def cell(book: Any, name: str, row: int) -> Any:
    return book.NamedRanges.getByName(name).ReferredCells.getCellByPosition(0, row)


def select(book: Any, name: str, row: int) -> None:
    chosen = cell(book, name, row)
    book.CurrentController.setActiveSheet(chosen.Spreadsheet)
    book.CurrentController.select(chosen)
    time.sleep(1)


def command(office: Any, document: Any, address: str) -> None:
    wanted = uno.createUnoStruct("com.sun.star.util.URL")
    wanted.Complete = address
    _, wanted = office.create("com.sun.star.util.URLTransformer").parseStrict(wanted)
    document.CurrentController.Frame.queryDispatch(wanted, "_self", 0).dispatch(wanted, ())


def aside(act: Callable[[], None]) -> None:
    """A dialog comes back only when it is closed."""
    threading.Thread(target=act, daemon=True).start()


def photograph(name: str, crop: str, window: str = "root") -> None:
    time.sleep(FOR_A_WINDOW)
    cut = ("-crop", crop, "+repage") if crop else ()
    run("import", "-window", window, *cut, *COLOURS, f"PNG8:{PICTURES / name}")


def run(*command: str) -> str:
    shown = {**os.environ, "DISPLAY": SCREEN}
    return subprocess.run(command, env=shown, check=True, capture_output=True, text=True).stdout
