"""The bench's own extension: functions that hand back their argument, for what a call costs by itself."""

from pathlib import Path

from loftsheet.measure import RATIO
from loftsheet.registry import Argument, Calc, Quantity

from extension import interface, package

IMPLEMENTATION = "org.loftbench.Echo"
ARGUMENTS = {"one": 1, "six": 6, "twelve": 12, "loaded": 1}
FILES = {
    "META-INF/manifest.xml": """<?xml version="1.0" encoding="UTF-8"?>
<m:manifest xmlns:m="http://openoffice.org/2001/manifest">
  <m:file-entry m:full-path="echo.idl" m:media-type="application/vnd.sun.star.uno-typelibrary;type=RDB"/>
  <m:file-entry m:full-path="echo.components" m:media-type="application/vnd.sun.star.uno-components"/>
  <m:file-entry m:full-path="CalcAddIns.xcu" m:media-type="application/vnd.sun.star.configuration-data"/>
</m:manifest>
""",
    "echo.components": f"""<?xml version="1.0" encoding="UTF-8"?>
<components xmlns="http://openoffice.org/2010/uno-components">
  <component loader="com.sun.star.loader.Python" uri="component.py">
    <implementation name="{IMPLEMENTATION}">
      <service name="com.sun.star.sheet.AddIn"/>
      <service name="{IMPLEMENTATION}"/>
    </implementation>
  </component>
</components>
""",
    "description.xml": """<?xml version="1.0" encoding="UTF-8"?>
<description xmlns="http://openoffice.org/extensions/description/2006">
  <identifier value="org.loftbench"/>
  <version value="1"/>
</description>
""",
}


def pack(path: Path) -> Path:
    """Write the extension, described to the office by the same means as ours."""
    calcs = {name: _declared(name, count) for name, count in ARGUMENTS.items()}
    texts = {
        **FILES,
        "echo.idl": interface.idl(calcs, IMPLEMENTATION),
        "component.py": Path(__file__).with_name("echo_component.py").read_text(),
    }
    files = {name: text.encode() for name, text in texts.items()}
    package.write_zip(path, {**files, "CalcAddIns.xcu": interface.calc_add_ins(calcs, IMPLEMENTATION)})
    return path


def formula(name: str, *arguments: str) -> str:
    return f"{IMPLEMENTATION}.{name}".upper() + f"({';'.join(arguments)})"


def _declared(name: str, count: int) -> Calc:
    """A function that only the office is told of."""
    value = Quantity("anything", RATIO)
    arguments = tuple(Argument(f"value{chr(ord('a') + at)}", value, required=True) for at in range(count))
    return Calc(
        name=f"ECHO.{name.upper()}",
        group="Bench",
        function=lambda *given: given[0],
        arguments=arguments,
        result=value,
        together=(),
        summary="Gives back its first argument.",
        formula="the argument",
        limits="none",
        errors="none",
        source="none needed",
    )
