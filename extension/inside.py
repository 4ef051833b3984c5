"""Runs a function in the office's own Python, for building and testing.

From outside each of the thousands of questions that a drawing or the workbook's writer asks the office crosses
from process to process, which takes several times as long.

    with Office(profile, extension, beside=[inside.pack(folder / "inside.oxt")]) as office:
        inside.run(office, template.write_here, path, boat)
"""

import importlib
import json
import pickle
from collections.abc import Callable
from pathlib import Path
from typing import Any

from extension.package import ROOT, write_zip

IMPLEMENTATION = "org.loftsheet.Inside"
# Our own modules are one level higher in the extension, which the office has, than in the source.
IN_SOURCE = "extension.loftsheet_office"
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
  <identifier value="org.loftsheet.inside"/>
  <version value="1"/>
</description>
""",
}


def pack(path: Path) -> Path:
    """Write the extension that takes the calls."""
    component = Path(__file__).with_name("inside_component.py").read_bytes()
    write_zip(path, {**{name: text.encode() for name, text in FILES.items()}, "component.py": component})
    return path


def run(office: Any, function: Callable[..., Any], *given: Any, **named: Any) -> Any:
    """Call a function of the source inside the office; raise here what it raises there."""
    from com.sun.star.beans import NamedValue

    module = function.__module__
    name = module.removeprefix("extension.") if module.startswith(IN_SOURCE) else module
    values = [("", value) for value in given] + list(named.items())
    sent = [("", f"{name}:{function.__name__}"), ("", str(ROOT)), *(_sent(*one) for one in values)]
    answer = json.loads(office.create(IMPLEMENTATION).execute(tuple(NamedValue(*one) for one in sent)))
    if "raised" in answer:
        raise _error(*answer["raised"])
    return answer["result"]


def _sent(name: str, value: Any) -> "tuple[str, Any]":
    """What the office knows goes as it is, all else as a text."""
    return (name, value) if type(value).__name__ == "pyuno" else (f"{name} pickled", pickle.dumps(value).hex())


def _error(module: str, name: str, words: "list[str]", trace: str) -> Exception:
    """What was raised, by the same class if it is known here."""
    if module.startswith("com.sun.star"):
        import uno

        raised: Exception = uno.getClass(f"{module}.{name}")(*words[:1])
        return raised
    here = f"extension.{module}" if f"extension.{module}".startswith(IN_SOURCE) else module
    try:
        known: Exception = getattr(importlib.import_module(here), name)(*words)
        return known
    except (ImportError, AttributeError, TypeError):
        return RuntimeError(f"{module}.{name} inside the office: {trace}")
