"""What All Bench Pages and Job Cards do alike: ask for paper and folder, write one PDF, say what is not in it."""

from pathlib import Path
from typing import Any, Callable, Optional

from ..common.papers import PAPERS
from ..common.safe_files import InWords
from ..dialogs import choose_file
from ..dialogs.desk import Desk
from ..dialogs.form import Form
from ..workbook.page_size import at_first

Write = Callable[[Any, str, Path], None]  # the office's desktop, the paper, and where to


def run(desk: Desk, title: str, asked: str, name: str, write: Write, left_out: str) -> None:
    """Draw them, once everything is read that could be refused."""
    paper = paper_for(desk, title, asked)
    if paper is None:
        return
    folder = choose_file.folder(desk, title, "Where to put the PDF")
    if folder is None:
        return
    path = folder / name
    if not desk.may_replace(title, path):
        return
    with InWords(f"Writing {path.name}", path):
        write(desk.create("com.sun.star.frame.Desktop"), paper, path)
    desk.say(title, f"Written: {path}{left_out}")


def left_out(title: str, why: "dict[str, str]") -> str:
    """What has no page to work by, and why."""
    return "".join((f"\n\n{title}:", *(f"\n{name}: {reason}" for name, reason in why.items()))) if why else ""


def paper_for(desk: Desk, title: str, asked: str) -> Optional[str]:
    """Ask for the paper; None when the user thinks better of it."""
    form = Form(desk, title, width=240)
    form.paragraph(f"{asked} Next, you choose the folder for the PDF.")
    paper = form.choice("~Paper", tuple(PAPERS), at_first(desk.document))
    return tuple(PAPERS)[paper.SelectedItems[0]] if form.ask("~Draw…") == "yes" else None
