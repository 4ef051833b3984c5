"""The paper to draw for, asked by each command that draws."""

from typing import Optional

from .desk import Desk
from .drawing import PAPERS
from .form import Form


def ask(desk: Desk, title: str, words: str) -> Optional[str]:
    """Say what will be drawn and ask for which paper; None when the user thinks better of it."""
    form = Form(desk, title, width=240)
    form.words(f"{words} Next, you choose the folder for it.")
    papers = tuple(PAPERS)
    paper = form.choice("~Paper", papers)
    return papers[paper.SelectedItems[0]] if form.ask("~Draw…") == "yes" else None
