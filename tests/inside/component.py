"""What the office loads to run a function of the extension for a test."""

import importlib
import json
import traceback
from pathlib import Path

import unohelper
from com.sun.star.task import XJob

IMPLEMENTATION = "org.loftsheet.tests.Inside"


class Inside(unohelper.Base, XJob):
    def __init__(self, context):
        # The office knows where our packages are when it has loaded the extension itself.
        context.ServiceManager.createInstanceWithContext("org.loftsheet.Menu", context)

    def execute(self, arguments):
        """The first value names the function; the result, or what was raised, goes back as a text."""
        given, named = [], {}
        for argument in arguments[1:]:
            name, _, kind = argument.Name.partition(" ")
            value = Path(argument.Value) if kind == "path" else argument.Value
            if name:
                named[name] = value
            else:
                given.append(value)
        try:
            return json.dumps({"result": found(arguments[0].Value)(*given, **named)}, default=str)
        except Exception as error:
            words = [str(one) for one in error.args]
            return json.dumps(
                {"raised": [type(error).__module__, type(error).__name__, words, traceback.format_exc()]}
            )


def found(name):
    """A function by its module's name and its own."""
    module, _, function = name.partition(":")
    return getattr(importlib.import_module(module), function)


g_ImplementationHelper = unohelper.ImplementationHelper()
g_ImplementationHelper.addImplementation(Inside, IMPLEMENTATION, (IMPLEMENTATION,))
