"""The menu's commands: which there are, whether they apply, and doing them.

It runs on the oldest Python that any office brings; there only About and Diagnostics is of use.
"""

import collections
import functools
import importlib
import sys

import unohelper
from com.sun.star.frame import FeatureStateEvent, XDispatch, XDispatchProvider
from com.sun.star.lang import XInitialization, XServiceInfo

from . import journal
from .desk import Desk
from .refusal import Refusal

IMPLEMENTATION = "org.loftsheet.Menu"
SERVICES = ("com.sun.star.frame.ProtocolHandler",)
PROTOCOL = "org.loftsheet:"
FLOOR = (3, 9)

Command = collections.namedtuple("Command", "title module applies")


def anywhere(desk):
    return True


COMMANDS = {
    "new": Command("New Rig Schedule", "new_schedule", anywhere),
    "addrows": Command("Add Rows", "add_rows", Desk.is_schedule_to_change),
    "check": Command("Check the Schedule", "check", Desk.is_schedule),
    "explain": Command("Explain This Cell", "explain", Desk.is_spreadsheet),
    "markout": Command("Mark-Out Sheet", "mark_out", Desk.is_schedule),
    "benchpages": Command("All Bench Pages", "all_bench_pages", Desk.is_schedule),
    "export": Command("Export for a Supplier", "export", Desk.is_schedule),
    "readprices": Command("Read Prices Back", "read_prices", Desk.is_schedule_to_change),
    "about": Command("About and Diagnostics", "about", anywhere),
}


class Menu(unohelper.Base, XInitialization, XDispatchProvider, XDispatch, XServiceInfo):
    """Handles the addresses of the menu's entries, one object for each window."""

    def __init__(self, context, *given):
        self.context = context
        self.frame = None
        self.initialize(given)

    def initialize(self, given):
        if given:
            self.frame = given[0]

    def queryDispatch(self, url, target, flags):
        return self if url.Protocol == PROTOCOL and url.Path in COMMANDS else None

    def queryDispatches(self, requests):
        return tuple(self.queryDispatch(one.FeatureURL, one.FrameName, one.SearchFlags) for one in requests)

    def addStatusListener(self, listener, url):
        """Say at once whether the command applies; the menu asks again each time it is opened."""
        event = FeatureStateEvent()
        event.Source, event.FeatureURL = self, url
        event.IsEnabled = applies(url.Path, Desk(self.context, self.frame))
        listener.statusChanged(event)

    def removeStatusListener(self, listener, url):
        pass

    def dispatch(self, url, arguments):
        do(url.Path, Desk(self.context, self.frame))

    def getImplementationName(self):
        return IMPLEMENTATION

    def supportsService(self, name):
        return name in SERVICES

    def getSupportedServiceNames(self):
        return SERVICES


def applies(name, desk):
    """Whether a command can be of use in the window as it is."""
    if sys.version_info < FLOOR and name != "about":
        return False
    try:
        return bool(COMMANDS[name].applies(desk))
    except Exception as error:
        journal.note(f"asking whether {COMMANDS[name].title} applies", error)
        return False


def do(name, desk):
    """Do a command; whatever stops it is said in words."""
    desk.attempt(COMMANDS[name].title, functools.partial(begin, name, desk))


def begin(name, desk):
    if not applies(name, desk):
        if desk.is_schedule():
            desk.must_be_writable()
        raise Refusal(f"{COMMANDS[name].title} does not apply to this window.")
    importlib.import_module("loftsheet_office." + COMMANDS[name].module).run(desk)
