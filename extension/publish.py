"""A release, and what an extension site asks for beside the extension; put together in dist/ of what there is."""

import hashlib
import re
import shutil
from pathlib import Path
from xml.sax.saxutils import quoteattr

import loftsheet

from extension.package import DIST, FLOOR, NOTES, OXT, ROOT, SCHEDULE, UPDATES, licence, pack, static

SITE = DIST / "site"
RELEASE = DIST / f"release-{loftsheet.__version__}"
KEPT = ROOT / "tests/office/kept"
UPDATE = """\
<?xml version="1.0" encoding="UTF-8"?>
<description xmlns="http://openoffice.org/extensions/update/2006"
    xmlns:d="http://openoffice.org/extensions/description/2006"
    xmlns:l="http://libreoffice.org/extensions/description/2011"
    xmlns:xlink="http://www.w3.org/1999/xlink">
  <identifier value="org.loftsheet"/>
  <version value={version}/>
  <dependencies>
    <l:LibreOffice-minimal-version value="{floor}" d:name="LibreOffice {floor}"/>
  </dependencies>
  <update-download>
    <src xlink:href={extension}/>
  </update-download>
  <release-notes>
    <src lang="en" xlink:href={notes}/>
  </release-notes>
</description>
"""
PICTURES = ROOT / "extension/pictures"


def checksum(path: Path) -> Path:
    """Write the file's SHA-256 beside it, as `sha256sum --check` reads it."""
    beside = path.with_name(f"{path.name}.sha256")
    beside.write_text(f"{hashlib.sha256(path.read_bytes()).hexdigest()}  {path.name}\n", encoding="utf-8")
    return beside


def for_a_site() -> Path:
    """Write summary, description, notes, licences and pictures into a folder of their own."""
    shutil.rmtree(SITE, ignore_errors=True)
    (SITE / "pictures").mkdir(parents=True)
    texts = {
        "summary.txt": static("description-en.txt"),
        "description.md": description((ROOT / "README.md").read_text(encoding="utf-8")),
        "release-notes.txt": static("release-notes-en.txt"),
        "licences.txt": licence(),
    }
    for name, text in texts.items():
        (SITE / name).write_text(text, encoding="utf-8")
    for picture in sorted(PICTURES.glob("*.png")):
        shutil.copy(picture, SITE if picture.stem == "icon" else SITE / "pictures")
    return SITE


def description(readme: str) -> str:
    """What the README says before it says how to try it: what this is, and the cautions."""
    opening = readme[: readme.index("\n## Try it")]
    return re.sub(r"!\[.*?\]\(.*?\)\n+", "", opening).strip() + "\n"


def release(address: str) -> Path:
    """Write what goes to the address: the extension that looks there for updates, its checksum, notes, updates."""
    shutil.rmtree(RELEASE, ignore_errors=True)
    RELEASE.mkdir(parents=True)
    checksum(pack(RELEASE / OXT.name, SCHEDULE, address))
    (RELEASE / NOTES).write_text(static("release-notes-en.txt"), encoding="utf-8")
    (RELEASE / UPDATES).write_text(update(address), encoding="utf-8")
    return RELEASE


def update(address: str, version: str = loftsheet.__version__) -> str:
    """What the Extension Manager reads when it looks for a newer version."""
    places = {"extension": f"{address}/{OXT.name}", "notes": f"{address}/{NOTES}"}
    quoted = {name: quoteattr(place) for name, place in places.items()}
    return UPDATE.format(version=quoteattr(version), floor=FLOOR, **quoted)


def keep(schedule: Path) -> Path:
    """Keep the demo schedule of this version, with which every later one is tested; the first is not replaced."""
    kept = KEPT / f"{schedule.stem}-{loftsheet.__version__}.ods"
    if not kept.exists():
        unfinished = kept.with_name(f".{kept.name}.part")
        shutil.copyfile(schedule, unfinished)
        unfinished.replace(kept)
    return kept
