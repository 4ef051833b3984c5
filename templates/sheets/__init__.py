"""One module per sheet: what its rows and columns are."""

from templates.notation import Names
from templates.sheets import (
    balance,
    bench,
    boat,
    chainplates,
    library,
    log,
    masts,
    order,
    points,
    read_first,
    rig,
    side_view,
    stays,
    tangs,
)

ALL = (
    rig.SHEET,
    read_first.SHEET,
    boat.SHEET,
    masts.SHEET,
    points.SHEET,
    stays.SHEET,
    tangs.SHEET,
    chainplates.SHEET,
    balance.SHEET,
    side_view.SHEET,
    bench.SHEET,
    order.SHEET,
    library.LIBRARY,
    log.SHEET,
)

# All that a formula may name; a wrong name fails here, with the table and the column that it stands in.
NAMES = Names(ALL)
NAMES.check()
