"""The packed extension: complete, the same each time, small, and with the licences of what it carries."""

import ast
import hashlib
import re
import struct
import xml.etree.ElementTree as ET
import zipfile

import loftsheet
import pytest

from extension import icon, interface, package, publish
from extension.loftsheet_office.commands.entries import ENTRIES
from extension.setup_machine import ROOT

LARGEST = 1.85e6  # bytes; packed twice, the template varies by 2 % from one column to the next
WHITE, DARK = "ffffff", "1f1f1f"  # the menu in a light and in a dark theme
VENDORED = re.findall(
    r'"([\w-]+)==([\w.]+)"', (ROOT / "pyproject.toml").read_text().split("vendored = [")[1].split("]")[0]
)
# Part of addresses that users of 0.1.0 may have put on a toolbar.
OF_THE_FIRST_RELEASE = {
    "new",
    "addrows",
    "check",
    "explain",
    "markout",
    "benchpages",
    "export",
    "readprices",
    "about",
}
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


def test_every_entry_is_in_the_menu_and_has_its_own_module_and_picture(packed, names):
    settings = ET.fromstring(packed.read("Addons.xcu"))
    menu, pictures = (settings.find(f".//node[@{OOR}name='{name}']") for name in ("OfficeMenuBar", "Images"))
    entries = [url for url in values(menu, "URL") if url != "private:separator"]
    assert entries == [f"org.loftsheet:{command}" for command in ENTRIES]
    assert {f"pythonpath/loftsheet_office/commands/{entry.module}.py" for entry in ENTRIES.values()} <= set(names)
    assert len({entry.module for entry in ENTRIES.values()}) == len(ENTRIES)
    assert set(values(pictures, "URL")) <= set(entries)
    for size in ("ImageSmallURL", "ImageBigURL"):
        files = [url.replace("%origin%/", "") for url in values(pictures, size)]
        assert set(files) == {name for name in names if name.startswith("pictures/") and name.endswith(".svg")}


def test_no_command_loses_its_address():
    assert set(ENTRIES) >= OF_THE_FIRST_RELEASE


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
    assert len(pictures) >= len(OF_THE_FIRST_RELEASE)


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


@pytest.mark.parametrize(("name", "version"), VENDORED)
def test_a_carried_package_is_in_the_list_of_licences(packed, names, name, version):
    listed = packed.read("licences-en.txt").decode()
    line = re.search(rf"^- {name} {version}: (.+); (\S+)$", listed, re.M | re.I)
    assert any(path.startswith(f"{line[2]}/LICEN") or f"{line[2]}/licenses/" in path for path in names)
    text = "".join(
        packed.read(path).decode() for path in names if path.startswith(line[2]) and "LICEN" in path.upper()
    )
    says = {
        "MIT": "Permission is hereby granted, free of charge",
        "BSD 3-Clause": "used to endorse or promote products",
        "Python Software Foundation 2.0": "PYTHON SOFTWARE FOUNDATION LICENSE VERSION 2",
    }
    assert says[line[1]] in " ".join(text.replace("*", "").split())


def test_what_is_shown_at_installation_begins_with_our_own_licence(packed):
    own = (ROOT / "LICENSE").read_text(encoding="utf-8")
    assert packed.read("licences-en.txt").decode().startswith(own)
    licence = ET.fromstring(packed.read("description.xml")).find(
        f"{DESCRIPTION}registration/{DESCRIPTION}simple-license"
    )
    assert licence[0].get("{http://www.w3.org/1999/xlink}href") == "licences-en.txt"
    # "user" would keep root from installing for all; asked once, not at each update.
    assert (licence.get("accept-by"), licence.get("suppress-on-update")) == ("admin", "true")


def test_the_notes_are_those_of_this_version(packed):
    notes = packed.read("release-notes-en.txt").decode()
    assert notes.startswith(f"Loftsheet {loftsheet.__version__}\n")
    assert len(notes) > 100


@pytest.mark.parametrize(("path", "size"), icon.PICTURES.items(), ids=lambda one: getattr(one, "name", str(one)))
def test_the_icon_is_a_png_of_the_right_size(path, size):
    """The signature and the header of a PNG: ISO/IEC 15948:2004, 5.2 and 11.2.2."""
    content = path.read_bytes()
    assert content[:16] == b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR"
    assert struct.unpack(">II", content[16:24]) == (size, size)


@pytest.mark.office
@pytest.mark.parametrize(("path", "size"), icon.PICTURES.items(), ids=lambda one: getattr(one, "name", str(one)))
def test_the_icon_shows_what_is_drawn(office, tmp_path, path, size):
    """Releases smooth edges in different ways, so most pixels must be the same, not all."""
    icon.export(office, tmp_path / "fresh.png", size)
    kept, fresh = pixels(office, path), pixels(office, tmp_path / "fresh.png")
    assert len(kept) == len(fresh) > 3 * size * size
    assert sum(abs(one - other) > 16 for one, other in zip(kept, fresh)) < 0.05 * len(kept)


def pixels(office, path):
    """A picture as the office reads it, one number for each of its parts red, green and blue."""
    from extension.office import property_values, url

    provider = office.create("com.sun.star.graphic.GraphicProvider")
    return provider.queryGraphic(property_values(URL=url(path))).getDIB().value


@pytest.mark.office
def test_the_office_understands_what_the_extension_says_of_itself(office):
    """As the Extension Manager shows it; and it asks for the licence to be accepted."""
    import uno

    manager = office.context.getValueByName("/singletons/com.sun.star.deployment.ExtensionManager")
    command = uno.Any("com.sun.star.uno.XInterface", None)
    installed = manager.getDeployedExtension("shared", "org.loftsheet", "", command.value)
    assert installed.getPublisherInfo().First == "The Loftsheet developers"
    assert installed.getVersion() == loftsheet.__version__
    assert installed.getDisplayName() == "Loftsheet"
    assert "A calculation aid, not a design approval." in installed.getDescription()
    assert installed.getLicenseText().replace("\r\n", "\n") == package.licence()
    shown = installed.getIcon(False)
    assert (shown.SizePixel.Width, shown.SizePixel.Height) == (42, 42)


@pytest.mark.office
def test_a_site_gets_what_it_asks_for(extension_file):
    sum_of_it = publish.checksum(extension_file).read_text(encoding="utf-8").split()
    assert sum_of_it == [hashlib.sha256(extension_file.read_bytes()).hexdigest(), extension_file.name]
    site = publish.for_a_site()
    texts = {
        file.name: file.read_text(encoding="utf-8") for file in site.iterdir() if file.suffix in (".txt", ".md")
    }
    assert set(texts) == {"summary.txt", "description.md", "release-notes.txt", "licences.txt"}
    assert all(len(text) > 100 for text in texts.values())
    assert "](" not in texts["description.md"] and "## Cautions" in texts["description.md"]
    assert {picture.name for picture in (site / "pictures").iterdir()} >= {"stays.png", "menu.png", "mark-out.png"}
    assert (site / "icon.png").exists()


def test_nothing_is_packed_that_nobody_needs(names):
    unwanted = re.compile(r"(^|/)(tests?|testsuite|__pycache__|RECORD|WHEEL)(/|$)|\.pyc$|\.so$|\.pyd$")
    assert [name for name in names if unwanted.search(name)] == []


OLD = (
    "__init__",
    *(f"addin/{name}" for name in ("__init__", "implementation", "too_old")),
    *(f"commands/{name}" for name in ("__init__", "about", "menu")),
    *(f"common/{name}" for name in ("__init__", "journal", "refusal", "values")),
    *(f"dialogs/{name}" for name in ("__init__", "clipboard", "desk", "form")),
)


@pytest.mark.parametrize("file", ["component.py", *(f"loftsheet_office/{name}.py" for name in OLD)])
def test_what_an_old_python_meets_is_read_by_it(file):
    source = (ROOT / "extension" / file).read_text()
    ast.parse(source, feature_version=(3, 8))
