"""One document after the other: the office's memory levels off, and nothing of a closed one is kept."""

from pathlib import Path

import pytest

from tests.office import named

pytestmark = pytest.mark.office

DOCUMENTS = 100
SETTLED = 40  # what the office keeps for itself has been loaded by then
MOST_EACH = 300  # KiB that a document may leave behind; the demo's own cells take more than ten times that


def resident(office):
    """The office's memory in KiB, of the process that holds the documents."""
    pages = [status_of(process) for process in family(office.process.pid)]
    return max(pages)


def family(first):
    """A process and all that it started; the office's launcher starts the office itself."""
    tasks = Path(f"/proc/{first}/task")
    children = [child for task in tasks.iterdir() for child in (task / "children").read_text().split()]
    return [first, *(pid for child in children for pid in family(int(child)))]


def status_of(process):
    lines = Path(f"/proc/{process}/status").read_text().splitlines()
    return next((int(line.split()[1]) for line in lines if line.startswith("VmRSS")), 0)


@pytest.mark.long
@pytest.mark.skipif(not Path("/proc/self/task").is_dir(), reason="no /proc to read the office's memory from")
def test_a_hundred_documents(office, demo_file):
    sizes = []
    for at in range(DOCUMENTS):
        book = office.load(demo_file)
        office.recalculate(book)
        named.cells(book, "boat_bury").Value = 72 + at % 20
        assert named.value(book, "boat_outside") == "nothing"
        office.close(book)
        sizes.append(resident(office))
    settled = sizes[SETTLED:]
    each = slope(settled)
    print(
        f"KiB: {sizes[0]} at first, {sizes[SETTLED]} settled, {sizes[-1]} at the end; {each:.0f} for each document"
    )
    assert each < MOST_EACH


def slope(values):
    """How much a row of values grows for each step, by the method of least squares."""
    middle = (len(values) - 1) / 2
    mean = sum(values) / len(values)
    above = sum((at - middle) * (value - mean) for at, value in enumerate(values))
    return above / sum((at - middle) ** 2 for at in range(len(values)))
