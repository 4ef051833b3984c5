"""What the office loads to run a function of the source for `inside`."""

import importlib
import json
import pickle
import sys
import traceback
from typing import Any

import unohelper
from com.sun.star.task import XJob

IMPLEMENTATION = "org.loftsheet.Inside"


class Inside(unohelper.Base, XJob):
    def __init__(self, context: Any) -> None:
        # The office knows where our packages are when it has loaded the extension itself.
        context.ServiceManager.createInstanceWithContext("org.loftsheet.Menu", context)

    def execute(self, arguments: Any) -> str:
        """The first value names the function, the second the source's folder; the result goes back as a text."""
        function, source = (argument.Value for argument in arguments[:2])
        if source not in sys.path:
            sys.path.append(source)
        given, named = [], {}
        for argument in arguments[2:]:
            name, _, kind = argument.Name.partition(" ")
            value = pickle.loads(bytes.fromhex(argument.Value)) if kind else argument.Value
            if name:
                named[name] = value
            else:
                given.append(value)
        try:
            return json.dumps({"result": found(function)(*given, **named)}, default=str)
        except Exception as error:
            words = [str(one) for one in error.args]
            return json.dumps(
                {"raised": [type(error).__module__, type(error).__name__, words, traceback.format_exc()]}
            )


def found(name: str) -> Any:
    """A function by its module's name and its own."""
    module, _, function = name.partition(":")
    return getattr(importlib.import_module(module), function)


g_ImplementationHelper = unohelper.ImplementationHelper()
g_ImplementationHelper.addImplementation(Inside, IMPLEMENTATION, (IMPLEMENTATION,))
