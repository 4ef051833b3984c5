"""Runs what the extension does where it runs for people: in the office's own Python.

From outside each of the thousands of questions that a drawing asks the office crosses from process to process,
which takes ten times as long.
"""

import importlib
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

from extension import package
from tests.inside import named_ranges

IMPLEMENTATION = "org.loftsheet.tests.Inside"
# Our own modules are one level higher in the extension than in the source; what a test brings along, too.
IN_SOURCE, IN_TESTS = "extension.", "tests.inside."
BROUGHT = ("named_ranges.py", "written.py")
FILES = {
    "META-INF/manifest.xml": """<?xml version="1.0" encoding="UTF-8"?>
<m:manifest xmlns:m="http://openoffice.org/2001/manifest">
  <m:file-entry m:full-path="inside.components" m:media-type="application/vnd.sun.star.uno-components"/>
</m:manifest>
""",
    "inside.components": f"""<?xml version="1.0" encoding="UTF-8"?>
<components xmlns="http://openoffice.org/2010/uno-components">
  <component loader="com.sun.star.loader.Python" uri="component.py">
    <implementation name="{IMPLEMENTATION}"><service name="{IMPLEMENTATION}"/></implementation>
  </component>
</components>
""",
    "description.xml": """<?xml version="1.0" encoding="UTF-8"?>
<description xmlns="http://openoffice.org/extensions/description/2006">
  <identifier value="org.loftsheet.tests"/>
  <version value="1"/>
</description>
""",
}


def pack(path: Path) -> Path:
    """Write the extension that takes the calls."""
    component = Path(__file__).with_name("component.py").read_bytes()
    brought = {f"pythonpath/{name}": Path(__file__).with_name(name).read_bytes() for name in BROUGHT}
    texts = {name: text.encode() for name, text in FILES.items()}
    package.write_zip(path, {**texts, "component.py": component, **brought})
    return path


at_work: "list[Any]" = []  # the office of this test run, once it has been started


def names(book: Any) -> "dict[str, str]":
    """Where each named range of a schedule that is open in the office of this test run leads."""
    found: dict[str, str] = run(at_work[0], named_ranges.contents, book)
    return found


def run(office: Any, function: Callable[..., Any], *given: Any, **named: Any) -> Any:
    """Call a function of the extension inside the office; raise here what it raises there."""
    from com.sun.star.beans import NamedValue

    name = f"{function.__module__.removeprefix(IN_SOURCE).removeprefix(IN_TESTS)}:{function.__name__}"
    values = [("", value) for value in given] + list(named.items())
    sent = [NamedValue("", name), *(NamedValue(*_sent(*one)) for one in values)]
    answer = json.loads(office.create(IMPLEMENTATION).execute(tuple(sent)))
    if "raised" in answer:
        raise _error(*answer["raised"])
    return answer["result"]


def _sent(name: str, value: Any) -> "tuple[str, Any]":
    """A path is marked as one, for it has to be one there, too."""
    return (f"{name} path", str(value)) if isinstance(value, Path) else (name, value)


def _error(module: str, name: str, words: "list[str]", trace: str) -> Exception:
    """What was raised, by the same class if it is known here."""
    if module.startswith("com.sun.star"):
        import uno

        return uno.getClass(f"{module}.{name}")(*words[:1])
    ours = f"{IN_SOURCE}{module}" if module.startswith("loftsheet_office") else module
    try:
        return getattr(importlib.import_module(ours), name)(*words)
    except (ImportError, AttributeError, TypeError):
        return RuntimeError(f"{module}.{name} inside the office: {trace}")
