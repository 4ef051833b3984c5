"""Something to do while the test goes on, or in the office's own thread, where it does what people click on."""

import threading
import time
from collections.abc import Callable
from typing import Any, Optional

import unohelper
from com.sun.star.awt import XCallback


class Errand(unohelper.Base, XCallback):
    """Something to do once, and what came of it."""

    def __init__(self, act: Callable[[], Any]) -> None:
        self.act = act
        self.ended = False
        self.failed: Optional[Exception] = None
        self.result: Any = None

    def notify(self, data: Any) -> None:
        try:
            self.result = self.act()
        except Exception as failed:
            self.failed = failed
        self.ended = True

    def wait(self, seconds: float) -> bool:
        """Whether it has ended within that time."""
        until = time.monotonic() + seconds
        while not self.ended and time.monotonic() < until:
            time.sleep(0.01)
        return self.ended


def give(office: Any, act: Callable[[], Any]) -> Errand:
    """Have something done when the office gets to it; what is asked of the office in it is done there, too."""
    errand = Errand(act)
    office.create("com.sun.star.awt.AsyncCallback").addCallback(errand, None)
    return errand


def aside(act: Callable[[], Any]) -> Errand:
    """Do something that does not come back before the test has done its part."""
    errand = Errand(act)
    threading.Thread(target=errand.notify, args=(None,), daemon=True).start()
    return errand


def in_own_thread(office: Any, act: Callable[[], Any], seconds: float = 3600) -> Any:
    """Return what something comes to in the office's own thread, raise what stopped it."""
    done = give(office, act)
    if not done.wait(seconds):
        raise TimeoutError(f"the office did not come to it in {seconds} s")
    if done.failed:
        raise done.failed
    return done.result
