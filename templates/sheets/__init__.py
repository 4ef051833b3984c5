"""One module per sheet: what its rows and columns are."""

from templates.sheets import bench, boat, library, log, order, points, read_first, side_view, stays, tangs

ALL = (
    read_first.SHEET,
    boat.SHEET,
    points.SHEET,
    stays.SHEET,
    tangs.SHEET,
    side_view.SHEET,
    bench.SHEET,
    order.SHEET,
    library.LIBRARY,
    log.SHEET,
)
