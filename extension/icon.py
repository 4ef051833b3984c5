"""The extension's icon: drawn in icon.svg, made a picture of pixels by the office.

python3 -c "from extension import icon; icon.draw()"      after a change of the drawing
"""

import tempfile
from pathlib import Path
from typing import Any

from extension.package import ROOT

DRAWING = ROOT / "extension/pictures/icon.svg"
# 42 is the Extension Manager's own size; the large one is for an extension site.
PICTURES = {ROOT / "extension/oxt/icon.png": 42, ROOT / "extension/pictures/icon.png": 256}


def draw() -> None:
    from extension.office import Office

    with tempfile.TemporaryDirectory() as profile, Office(Path(profile)) as office:
        for path, size in PICTURES.items():
            export(office, path, size)


def export(office: Any, path: Path, size: int) -> None:
    """Write the drawing as a .png of that many pixels a side."""
    import uno
    from com.sun.star.awt import Size

    from extension.office import property_values, url

    provider = office.create("com.sun.star.graphic.GraphicProvider")
    document = office.new("sdraw")
    shape = document.createInstance("com.sun.star.drawing.GraphicObjectShape")
    document.DrawPages.getByIndex(0).add(shape)
    shape.Graphic = provider.queryGraphic(property_values(URL=url(DRAWING)))
    shape.setSize(Size(10_000, 10_000))
    pixels = uno.Any("[]com.sun.star.beans.PropertyValue", property_values(PixelWidth=size, PixelHeight=size))
    exporter = office.create("com.sun.star.drawing.GraphicExportFilter")
    exporter.setSourceDocument(shape)
    exporter.filter(property_values(URL=url(path), MediaType="image/png", FilterData=pixels))
    office.close(document)
