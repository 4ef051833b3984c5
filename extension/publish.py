"""What an extension site asks for beside the extension, put together in dist/ from what there is already."""

import hashlib
import re
import shutil
from pathlib import Path

from extension.package import DIST, ROOT, licence, static

SITE = DIST / "site"
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
