"""The menu's commands: whether they apply, and doing them.

It runs on the oldest Python that any office brings; there only About and Diagnostics is of use.
"""

import functools
import importlib
import sys
from typing import Any

import unohelper
from com.sun.star.frame import FeatureStateEvent, XDispatch, XDispatchProvider
from com.sun.star.lang import XInitialization, XServiceInfo

from ..common import journal
from ..common.refusal import Refusal
from ..dialogs.desk import Desk
from .entries import ANYWHERE, ENTRIES, SCHEDULE, SCHEDULE_TO_CHANGE, SPREADSHEET, TITLES

IMPLEMENTATION = "org.loftsheet.Menu"
SERVICES = ("com.sun.star.frame.ProtocolHandler",)
PROTOCOL = "org.loftsheet:"
FLOOR = (3, 9)

APPLIES = {
    ANYWHERE: lambda desk: True,
    SPREADSHEET: Desk.is_spreadsheet,
    SCHEDULE: Desk.is_schedule,
    SCHEDULE_TO_CHANGE: Desk.is_schedule_to_change,
}


class Menu(unohelper.Base, XInitialization, XDispatchProvider, XDispatch, XServiceInfo):
    """Handles the addresses of the menu's entries, one object for each window."""

    def __init__(self, context: Any, *given: Any) -> None:
        self.context = context
        self.frame = None  # type: Any
        self.initialize(given)

    def initialize(self, given: Any) -> None:
        if given:
            self.frame = given[0]

    def queryDispatch(self, url: Any, target: str, flags: int) -> Any:
        return self if url.Protocol == PROTOCOL and url.Path in ENTRIES else None

    def queryDispatches(self, requests: Any) -> Any:
        return tuple(self.queryDispatch(one.FeatureURL, one.FrameName, one.SearchFlags) for one in requests)

    def addStatusListener(self, listener: Any, url: Any) -> None:
        """Say at once whether the command applies; the menu asks again each time it is opened."""
        event = FeatureStateEvent()
        event.Source, event.FeatureURL = self, url
        event.IsEnabled = applies(url.Path, Desk(self.context, self.frame))
        listener.statusChanged(event)

    def removeStatusListener(self, listener: Any, url: Any) -> None:
        pass

    def dispatch(self, url: Any, arguments: Any) -> None:
        do(url.Path, Desk(self.context, self.frame))

    def getImplementationName(self) -> str:
        return IMPLEMENTATION

    def supportsService(self, name: str) -> bool:
        return name in SERVICES

    def getSupportedServiceNames(self) -> Any:
        return SERVICES


def applies(name: str, desk: Desk) -> bool:
    """Whether a command can be of use in the window as it is."""
    if sys.version_info < FLOOR and name != "about":
        return False
    try:
        return bool(APPLIES[ENTRIES[name].where](desk))
    except Exception as error:
        journal.note(f"asking whether {TITLES[name]} applies", error)
        return False


def do(name: str, desk: Desk) -> None:
    """Do a command; whatever stops it is said in words."""
    desk.attempt(TITLES[name], functools.partial(begin, name, desk))


def begin(name: str, desk: Desk) -> None:
    if not applies(name, desk):
        if desk.is_schedule():
            desk.must_be_writable()
        raise Refusal(f"{TITLES[name]} does not apply to this window.")
    importlib.import_module("loftsheet_office.commands." + ENTRIES[name].module).run(desk)
