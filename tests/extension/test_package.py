"""The packed extension: complete, the same each time, small, and with the licences of what it carries."""

import ast
import re
import xml.etree.ElementTree as ET
import zipfile

import loftsheet
import pytest

from extension import interface, package
from extension.setup_machine import ROOT

LARGEST = 1.5e6  # bytes
WHITE, DARK = "ffffff", "1f1f1f"  # the menu in a light and in a dark theme
VENDORED = re.findall(
    r'"([\w-]+)==([\w.]+)"', (ROOT / "pyproject.toml").read_text().split("vendored = [")[1].split("]")[0]
)
COMMANDS = ["new", "addrows", "check", "explain", "markout", "benchpages", "export", "readprices", "about"]
OOR = "{http://openoffice.org/2001/registry}"
MANIFEST = "{http://openoffice.org/2001/manifest}"
DESCRIPTION = "{http://openoffice.org/extensions/description/2006}"


@pytest.fixture(scope="module")
def packed(tmp_path_factory):
    with zipfile.ZipFile(package.pack(tmp_path_factory.mktemp("packed") / "one.oxt")) as opened:
        yield opened


@pytest.fixture(scope="module")
def names(packed):
    return packed.namelist()


def test_packing_twice_gives_the_same_bytes(tmp_path):
    one, two = (package.pack(tmp_path / name) for name in ("one.oxt", "two.oxt"))
    assert one.read_bytes() == two.read_bytes()


def test_it_holds_the_present_sources(packed):
    for folder, inside in package.PACKAGES.items():
        sources = {file.relative_to(ROOT / folder).as_posix(): file for file in (ROOT / folder).rglob("*.py")}
        assert "__init__.py" in sources
        modules = {name for name in packed.namelist() if name.startswith(f"{inside}/") and name.endswith(".py")}
        assert modules == {f"{inside}/{name}" for name in sources}
        for name, file in sources.items():
            assert packed.read(f"{inside}/{name}") == file.read_bytes()


def test_what_is_derived_is_derived_anew(packed):
    assert packed.read("rig.idl").decode() == interface.idl(loftsheet.CALCS)
    assert packed.read("CalcAddIns.xcu") == interface.calc_add_ins(loftsheet.CALCS)


@pytest.mark.office
def test_the_built_file_is_a_fresh_build_with_the_workbook(extension_file, names):
    with (
        zipfile.ZipFile(extension_file) as built,
        zipfile.ZipFile(package.pack(extension_file.with_suffix(".new"))) as new,
    ):
        differing = [name for name in new.namelist() if built.read(name) != new.read(name)]
        assert differing == []
        assert set(built.namelist()) - set(names) == {package.SCHEDULE_PACKED}
    extension_file.with_suffix(".new").unlink()


@pytest.mark.office
def test_it_is_small(extension_file):
    assert extension_file.stat().st_size <= LARGEST


def test_the_manifest_names_files_that_are_there(packed, names):
    entries = ET.fromstring(packed.read("META-INF/manifest.xml"))
    paths = [entry.get(f"{MANIFEST}full-path") for entry in entries]
    assert {"rig.idl", "loftsheet.components", "CalcAddIns.xcu", "Paths.xcu"} <= set(paths) <= set(names)


def values(node, name):
    """The values of every property of that name, below a node of the office's settings."""
    found = node.iterfind(f".//prop[@{OOR}name='{name}']/value")
    return [value.text for value in found]


def test_every_entry_of_the_menu_has_its_picture_in_the_package(packed, names):
    settings = ET.fromstring(packed.read("Addons.xcu"))
    menu, pictures = (settings.find(f".//node[@{OOR}name='{name}']") for name in ("OfficeMenuBar", "Images"))
    entries = [url for url in values(menu, "URL") if url != "private:separator"]
    assert entries == [f"org.loftsheet:{command}" for command in COMMANDS]
    assert values(pictures, "URL") == entries
    for size in ("ImageSmallURL", "ImageBigURL"):
        files = [url.replace("%origin%/", "") for url in values(pictures, size)]
        assert len(set(files)) == len(entries)
        assert set(files) <= set(names)


def test_the_pictures_can_be_told_from_a_light_and_from_a_dark_menu(packed, names):
    """A contrast of 3 to 1 at least: Web Content Accessibility Guidelines 2.1, 1.4.11."""
    pictures = [packed.read(name).decode() for name in names if name.startswith("pictures/")]
    colours = {colour for picture in pictures for colour in re.findall("#([0-9a-f]{6})", picture)}
    assert colours
    assert min(contrast(colour, ground) for colour in colours for ground in (WHITE, DARK)) >= 3


@pytest.mark.office
def test_the_office_can_read_the_pictures(office):
    """Of an image that it cannot read, it would show nothing, and say nothing."""
    from extension.office import property_values, url

    pictures = list((ROOT / "extension/oxt/pictures").iterdir())
    provider = office.create("com.sun.star.graphic.GraphicProvider")
    for picture in pictures:
        graphic = provider.queryGraphic(property_values(URL=url(picture)))
        assert min(graphic.SizePixel.Width, graphic.SizePixel.Height) >= 26, picture.name
    assert len(pictures) == len(COMMANDS)


def contrast(one, other):
    """The contrast ratio of two colours, by the formula of the same guidelines."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def luminance(colour):
    parts = [int(colour[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_every_xml_file_is_well_formed(packed, names):
    endings = (".xcu", ".xml", ".components", ".svg")
    for name in (name for name in names if name.endswith(endings) and not name.startswith("pythonpath/")):
        ET.fromstring(packed.read(name))


def test_the_description_has_the_version_and_names_files_that_are_there(packed, names):
    text = packed.read("description.xml").decode()
    root = ET.fromstring(text)
    assert root.find(f"{DESCRIPTION}identifier").get("value") == "org.loftsheet"
    assert root.find(f"{DESCRIPTION}version").get("value") == loftsheet.__version__
    assert set(re.findall(r'xlink:href="(.*?)"', text)) <= set(names)


def test_the_version_is_the_same_everywhere():
    declared = re.search(r'^version = "(.*)"$', (ROOT / "pyproject.toml").read_text(), re.M)
    assert declared[1] == loftsheet.__version__


@pytest.mark.parametrize(("name", "version"), VENDORED)
def test_a_carried_package_has_its_licence_beside_it(packed, names, name, version):
    folder = next(
        folder
        for folder in {path.split("/")[1] for path in names if path.startswith("pythonpath/")}
        if folder.lower() == f"{name}-{version}.dist-info".lower()
    )
    licences = [path for path in names if path.startswith(f"pythonpath/{folder}/") and "LICEN" in path.upper()]
    assert licences
    assert all(len(packed.read(licence)) > 200 for licence in licences)


def test_nothing_is_packed_that_nobody_needs(names):
    unwanted = re.compile(r"(^|/)(tests?|testsuite|__pycache__|RECORD|WHEEL)(/|$)|\.pyc$|\.so$|\.pyd$")
    assert [name for name in names if unwanted.search(name)] == []


OLD = ("__init__", "too_old", "journal", "menu", "desk", "form", "refusal", "clipboard", "about")


@pytest.mark.parametrize("file", ["component.py", *(f"loftsheet_office/{name}.py" for name in OLD)])
def test_what_an_old_python_meets_is_read_by_it(file):
    source = (ROOT / "extension" / file).read_text()
    ast.parse(source, feature_version=(3, 8))
