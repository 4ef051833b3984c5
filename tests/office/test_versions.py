"""The extension over time: replaced, removed, without its workbook, beside a foreign pint."""

import sysconfig
import zipfile
from pathlib import Path

import pytest
from loftsheet import __version__

from extension import package
from tests.conftest import office_class
from tests.office import named
from tests.office.menu.cells import frame_of

pytestmark = pytest.mark.office

NAME_UNKNOWN = 525
PROVIDER = "/singletons/com.sun.star.deployment.PackageInformationProvider"
MANAGER = "/singletons/com.sun.star.deployment.ExtensionManager"


def of_version(oxt, path, version):
    """A copy of the extension that says it is of another version."""
    old, new = f'"{__version__}"'.encode(), f'"{version}"'.encode()
    with zipfile.ZipFile(oxt) as packed, zipfile.ZipFile(path, "w") as other:
        for name in packed.namelist():
            content = packed.read(name)
            if name in ("description.xml", "pythonpath/loftsheet/version.py"):
                assert old in content
                content = content.replace(old, new)
            other.writestr(name, content)
    return path


def answers(office, *formulas):
    """What formulas come to in a new document; an error is its number."""
    book = office.new()
    cells = [book.Sheets.getByIndex(0).getCellByPosition(0, at) for at in range(len(formulas))]
    for cell, formula in zip(cells, formulas):
        cell.Formula = formula
    found = [cell.getError() or cell.DataArray[0][0] for cell in cells]
    office.close(book)
    return found


VERSION, BURY = "=ORG.LOFTSHEET.RIG.VERSION()", "=ORG.LOFTSHEET.RIG.BURY(9)"


def test_a_newer_version_over_an_older_one_answers(extension_file, tmp_path):
    older = of_version(extension_file, tmp_path / "loftsheet-0.0.9.oxt", "0.0.9")
    for oxt, version in ((older, "0.0.9"), (extension_file, __version__)):
        with office_class()(tmp_path / "profile", oxt) as office:
            assert answers(office, VERSION, BURY) == [version, 648.0]
            listed = [
                one for one in office.context.getByName(PROVIDER).getExtensionList() if "loftsheet" in one[0]
            ]
            assert listed == [("org.loftsheet", version)]


def test_an_older_version_never_takes_the_place_of_a_newer_one_by_itself(extension_file, tmp_path):
    """The office asks; without an answer the newer one stays, and goes on answering."""
    import subprocess

    from extension.office import program, url

    older = of_version(extension_file, tmp_path / "loftsheet-0.0.9.oxt", "0.0.9")
    profile = tmp_path / "profile"
    with office_class()(profile, extension_file) as office:
        assert answers(office, VERSION) == [__version__]
    unopkg = Path(program()).resolve().with_name("unopkg")
    places = [f"-env:UserInstallation={url(profile)}", f"-env:UNO_SHARED_PACKAGES_CACHE={url(profile)}/shared"]
    command = [unopkg, "add", "--shared", *places, older]
    subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, check=False, timeout=120)
    with office_class()(profile) as office:
        assert answers(office, VERSION, BURY) == [__version__, 648.0]


def removed(office):
    """Take the extension out of the running office, as the Extension Manager does."""
    import unohelper
    from com.sun.star.task import XInteractionHandler
    from com.sun.star.ucb import XCommandEnvironment

    class Silent(unohelper.Base, XCommandEnvironment, XInteractionHandler):
        def getInteractionHandler(self):
            return self

        def getProgressHandler(self):
            return None

        def handle(self, request):
            pass

    manager = office.context.getByName(MANAGER)
    deployed = manager.getDeployedExtension("shared", "org.loftsheet", "", None)
    manager.removeExtension("org.loftsheet", deployed.Name, "shared", None, Silent())


def lengths(book):
    """The cut lengths as they stand; an error is None."""
    return [cut for cut in named.column(book, "stays_cut") if cut != ""]


def test_removed_while_a_schedule_is_open_and_put_back(extension_file, demo_file, tmp_path):
    """Its cells are errors then and no numbers, every formula is kept, and with it the numbers are back."""
    profile, saved, again = tmp_path / "profile", tmp_path / "saved.ods", tmp_path / "again.ods"
    with office_class()(profile, extension_file) as office:
        book = office.load(demo_file)
        office.recalculate(book)
        due, formulas = lengths(book), named.cells(book, "stays_cut").FormulaArray
        assert len(due) == 12
        removed(office)
        named.cells(book, "boat_bury").Value = 90
        office.recalculate(book)
        assert set(lengths(book)) == {None}
        assert named.cells(book, "stays_cut").FormulaArray == formulas
        named.cells(book, "boat_bury").Value = 72
        office.store(book, saved)
        office.close(book)

    with office_class()(profile) as office:
        assert answers(office, BURY) == [NAME_UNKNOWN]
        book = office.load(saved)
        office.recalculate(book)
        assert set(lengths(book)) == {None}
        office.store(book, again)
        office.close(book)

    (profile / "installed").unlink()
    with office_class()(profile, extension_file) as office:
        for file in (saved, again):
            book = office.load(file)
            office.recalculate(book)
            assert lengths(book) == pytest.approx(due, rel=1e-12)
            assert named.value(book, "boat_wrong") == 0
            office.close(book)


def test_an_extension_without_its_workbook(tmp_path):
    """New Rig Schedule says so; the functions answer all the same."""
    from tests.office.menu.screen import Screen, must_show

    with office_class()(tmp_path / "profile", package.pack(tmp_path / "bare.oxt"), dialogs=True) as office:
        assert answers(office, BURY) == [648.0]
        must_show(office)
        screen = Screen(office)
        book = screen.open()
        screen.give("new", frame_of(book))
        assert "carries no workbook. Please install it again" in screen.message("New Rig Schedule")
        screen.finish()


FOREIGN = {
    "older": ("__version__ = '0.9'\n", "0.9 was found, from"),
    "newer": ("__version__ = '1.0'\n", "1.0 was found, from"),
    "broken": ("half = 1\n", "is broken"),
}


@pytest.mark.parametrize("kind", FOREIGN)
def test_a_foreign_pint_that_was_there_first(extension_file, tmp_path, monkeypatch, kind):
    """Python loads it when the office starts Python, before the extension; About says it in words."""
    from tests.office.menu.screen import Screen, must_show

    contents, words = FOREIGN[kind]
    site = Path(sysconfig.get_path("purelib", "posix_user", {"userbase": str(tmp_path / ".local")}))
    site.mkdir(parents=True)
    (site / "pint.py").write_text(contents)
    (site / "usercustomize.py").write_text("import pint\n")
    monkeypatch.setenv("HOME", str(tmp_path))
    with office_class()(tmp_path / "profile", extension_file, dialogs=True) as office:
        texts = '=ORG.LOFTSHEET.RIG.BURY("10 mm")', "=ORG.LOFTSHEET.RIG.WORKING(A2)"
        bury, refused, working = answers(office, BURY, *texts)
        assert (bury, refused) == (648.0, 502)
        assert words in working
        must_show(office)
        screen = Screen(office)
        book = screen.open()
        screen.give("about", frame_of(book))
        shown = screen.dialog("About and Diagnostics")
        shown.press("Copy")
        shown.press("Close")
        screen.finish()
        line = next(line for line in screen.copied().splitlines() if line.startswith("pint"))
        assert "need pint 0.24 or 0.25" in line
        assert words in line
        assert "type plain numbers" in line
        assert f"Loftsheet {__version__}" in screen.copied()
