"""The supplier's file and the PDF of that very file, written from what was read."""

from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from ..common.safe_files import put_in_place, refuse_kept
from ..common.values import property_values
from . import rig_page
from .content import Content
from .lists import METRIC
from .xlsx import workbook


def write(
    content: Content,
    path: Path,
    units: str = METRIC,
    desktop: Any = None,
    paper: str = "A4",
    schedule: Any = None,
) -> None:
    """Write the .xlsx, with the office's desktop a PDF too, and the page of the rig of a schedule that is given.

    All are written beside their places and renamed when all are there.
    """
    pdf, rig = path.with_suffix(".pdf"), rig_page.place(path)
    for one in (path, *([pdf] if desktop else []), *([rig] if schedule else [])):
        refuse_kept(one)
    file = workbook(content, units, paper)
    with TemporaryDirectory(dir=path.parent, prefix=".loftsheet-") as folder:
        unfinished = Path(folder) / path.name
        file.save(unfinished)
        files = [(unfinished, path)]
        if desktop:
            files.append((_as_pdf(desktop, unfinished), pdf))
        if schedule:
            rig_page.write(schedule, Path(folder) / rig.name)
            files.append((Path(folder) / rig.name, rig))
        put_in_place(files)


def _as_pdf(desktop: Any, workbook: Path) -> Path:
    """The very file that the supplier gets, as the office prints it."""
    path = workbook.with_suffix(".pdf")
    document = desktop.loadComponentFromURL(workbook.as_uri(), "_blank", 0, property_values(Hidden=True))
    if document is None:
        raise OSError("the office cannot open the supplier's file to make a PDF of it")
    try:
        document.storeToURL(path.as_uri(), property_values(FilterName="calc_pdf_Export"))
    finally:
        document.close(True)
    return path
