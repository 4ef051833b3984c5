"""A headless LibreOffice on its own profile, for building and testing.

    with Office(Path("out/profile"), extension=Path("dist/loftsheet-0.2.0.oxt")) as office:
        book = office.new()                              # or office.load(path); an .ots gives a new document
        sheet = book.Sheets.getByIndex(0)
        sheet.getCellRangeByName("A1").Formula = "=ORG.LOFTSHEET.RIG.BURY(8)"
        office.recalculate(book)                         # every cell, hard
        office.store(book, Path("out/book.xlsx"))        # .ods .ots .xlsx .pdf .odg, by the name's ending
        office.close(book)

`office.context`, `office.desktop` and `office.create(service)` lead to all the rest of UNO. Whatever takes
longer than its limit ends with the office being killed and an exception here; for a longer or shorter limit:
`with office.at_most(30): …`. One profile serves one office at a time. Needs an interpreter that has `uno`.
"""

import contextlib
import hashlib
import os
import shutil
import signal
import subprocess
import threading
import time
import uuid
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, Optional

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException
from com.sun.star.lang import DisposedException
from com.sun.star.uno import Exception as UnoException

FILTERS = {
    ".ods": "calc8",
    ".ots": "calc8_template",
    ".fods": "OpenDocument Spreadsheet Flat XML",
    ".xlsx": "Calc MS Excel 2007 XML",
    ".odg": "draw8",
}
PDF_FILTERS = {
    "com.sun.star.sheet.SpreadsheetDocument": "calc_pdf_Export",
    "com.sun.star.drawing.DrawingDocument": "draw_pdf_Export",
}
STARTING = 90  # seconds
STOPPING = 20
ONE_STEP = 180
WHOLE_RUN = 3600


class OfficeMissing(RuntimeError):
    """No LibreOffice was found on this machine."""


def program() -> str:
    """Return the path of `soffice`."""
    found = shutil.which("soffice") or shutil.which("libreoffice")
    if not found:
        raise OfficeMissing("LibreOffice (soffice) is not installed or not on the PATH")
    return found


def property_values(**values: Any) -> "tuple[Any, ...]":
    """Turn named values into what UNO takes as a list of named values."""
    return tuple(PropertyValue(Name=name, Value=value) for name, value in values.items())


def url(path: Path) -> str:
    return str(uno.systemPathToFileUrl(str(Path(path).resolve())))


def _environment(screen: str = "") -> "dict[str, str]":
    """The environment of the office: numbers are written the English way whatever the machine speaks.

    Its windows are on no screen, or on the X server that is named.

    The Python inside the office looks along the PATH for its own library; another Python found first there
    (pyenv puts one) makes it fail in strange ways, so the system's folders come first.
    """
    ours = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
    path = os.pathsep.join(filter(None, ("/usr/bin" if os.name == "posix" else "", ours.get("PATH", ""))))
    shown = {"SAL_USE_VCLPLUGIN": "gen", "DISPLAY": screen} if screen else {"SAL_USE_VCLPLUGIN": "svp"}
    return {**ours, "PATH": path, "LC_ALL": "C.UTF-8", **shown}


class Office:
    """A running office; use it in a `with` block."""

    def __init__(
        self,
        profile: Path,
        extension: Optional[Path] = None,
        limit: float = WHOLE_RUN,
        dialogs: bool = False,
        beside: Sequence[Path] = (),
        screen: str = "",
    ) -> None:
        self.profile = Path(profile).resolve()
        self.extensions = [Path(one).resolve() for one in (extension, *beside) if one]
        self.limit = limit
        # Without --headless a dialog waits for an answer, on no screen; with it each is cancelled.
        self.dialogs = dialogs or bool(screen)
        self.screen = screen
        self.process: Optional[subprocess.Popen[bytes]] = None

    @classmethod
    def here(cls) -> "Office":
        """The office in whose own Python this is called."""
        office = cls(Path())
        office.context = uno.getComponentContext()
        return office

    def __enter__(self) -> "Office":
        self.profile.mkdir(parents=True, exist_ok=True)
        try:
            if self.extensions:
                self._install(self.extensions)
            self._start()
        except BaseException:
            self._stop()
            raise
        self.whole_run = self.at_most(self.limit)
        self.whole_run.__enter__()
        return self

    def __exit__(self, *_: object) -> None:
        self.whole_run.__exit__()
        self._stop()

    def create(self, service: str) -> Any:
        """Create a service of the office by its name."""
        return self.context.ServiceManager.createInstanceWithContext(service, self.context)

    @property
    def desktop(self) -> Any:
        return self.create("com.sun.star.frame.Desktop")

    def new(self, kind: str = "scalc", **more: Any) -> Any:
        """Open an empty document, by default a spreadsheet ("sdraw" is a drawing)."""
        return self._open(f"private:factory/{kind}", **more)

    def load(self, path: Path, **more: Any) -> Any:
        """Open a file; nothing in it is run, no link followed."""
        return self._open(url(path), **more)

    def recalculate(self, document: Any) -> None:
        """Calculate every cell anew, whether it seems due or not."""
        with self.at_most(ONE_STEP):
            document.calculateAll()

    def store(self, document: Any, path: Path, **filter_data: Any) -> None:
        """Write a copy of the document in the format that the path's ending says: beside it, then renamed."""
        beside = path.with_name(f".{path.stem}-unfinished{path.suffix}")
        more = {"FilterData": uno.Any("[]com.sun.star.beans.PropertyValue", property_values(**filter_data))}
        with self.at_most(ONE_STEP):
            settings = property_values(
                FilterName=_filter(document, path), Overwrite=True, **(more if filter_data else {})
            )
            document.storeToURL(url(beside), settings)
        beside.replace(path)

    def close(self, document: Any) -> None:
        with self.at_most(ONE_STEP):
            document.close(True)

    def at_most(self, seconds: float) -> "Limit":
        """Kill the office if what is inside takes longer than that."""
        return Limit(seconds, self._kill)

    def has_ended(self) -> bool:
        """Whether it crashed or was killed."""
        return self.process is not None and self.process.poll() is not None

    def start_again(self) -> None:
        """Start one anew that has ended; what was open in it is gone."""
        self._kill_group()
        self._start()

    def last_words(self) -> str:
        """The end of what it wrote about itself."""
        return (self.profile / "office.log").read_text(errors="replace")[-2000:]

    def _open(self, address: str, **more: Any) -> Any:
        settings = property_values(**{"Hidden": True, "MacroExecutionMode": 0, "UpdateDocMode": 0, **more})
        with self.at_most(ONE_STEP):
            document = self.desktop.loadComponentFromURL(address, "_blank", 0, settings)
        if document is None:
            raise OSError(f"the office cannot open {address}")
        return document

    def _start(self) -> None:
        pipe = f"loftsheet{uuid.uuid4().hex}"
        command = [
            program(),
            *(() if self.dialogs else ("--headless",)),
            "--norestore",
            "--nologo",
            "--nodefault",
            *self._places(),
            f"--accept=pipe,name={pipe};urp",
        ]
        environment = _environment(self.screen)
        with open(self.profile / "office.log", "ab") as log:
            self.process = subprocess.Popen(
                command,
                env=environment,
                stdin=subprocess.DEVNULL,
                stdout=log,
                stderr=log,
                start_new_session=True,
            )
        self.context = self._connect(pipe)
        self._leave_locks_alone()

    def _connect(self, pipe: str) -> Any:
        here = uno.getComponentContext()
        resolver = here.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", here)
        until = time.monotonic() + STARTING
        while time.monotonic() < until:
            try:
                return resolver.resolve(f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext")
            except NoConnectException:
                if self.process is None or self.process.poll() is not None:
                    break
                time.sleep(0.1)
        self._kill()
        raise TimeoutError(f"the office did not start; its last words are in {self.profile / 'office.log'}")

    def _leave_locks_alone(self) -> None:
        """Neither write nor heed lock files: one left behind by a killed office would stop every later run."""
        provider = self.create("com.sun.star.configuration.ConfigurationProvider")
        where = property_values(nodepath="/org.openoffice.Office.Common/Misc")
        settings = provider.createInstanceWithArguments(
            "com.sun.star.configuration.ConfigurationUpdateAccess", where
        )
        settings.replaceByName("UseDocumentOOoLockFile", False)
        settings.commitChanges()

    def _install(self, extensions: Sequence[Path]) -> None:
        """Put the extensions into the profile, unless these very bytes are in it already.

        As if for all users, because `unopkg` refuses to work for root otherwise, but into a folder of the profile.
        """
        note = self.profile / "installed"
        digest = hashlib.sha256(b"".join(one.read_bytes() for one in extensions)).hexdigest()
        if note.exists() and note.read_text() == digest:
            return
        note.unlink(missing_ok=True)
        unopkg = str(Path(os.path.realpath(program())).with_name("unopkg"))
        command = [
            unopkg,
            "add",
            "--shared",
            "--force",
            "--suppress-license",
            *self._places(),
            *map(str, extensions),
        ]
        done = subprocess.run(
            command, stdin=subprocess.DEVNULL, capture_output=True, check=False, timeout=ONE_STEP
        )
        if done.returncode:
            raise OSError(f"the extension was not installed: {(done.stdout + done.stderr).decode()}")
        note.write_text(digest)

    def _places(self) -> "list[str]":
        """Everything of this office is kept in its profile."""
        profile = url(self.profile)
        return [f"-env:UserInstallation={profile}", f"-env:UNO_SHARED_PACKAGES_CACHE={profile}/shared"]

    def _stop(self) -> None:
        """Ask the office to end; what does not is killed."""
        if self.process is None:
            return
        with contextlib.suppress(UnoException, DisposedException, AttributeError), self.at_most(STOPPING):
            self.desktop.terminate()
        with contextlib.suppress(subprocess.TimeoutExpired):
            self.process.wait(STOPPING)
        self._kill()
        self.process = None

    def _kill(self) -> None:
        """Kill the office that was started here and its children, and nothing else."""
        if self.process is None or self.has_ended():
            return
        self._kill_group()
        self.process.wait(STOPPING)

    def _kill_group(self) -> None:
        if self.process is not None:
            with contextlib.suppress(ProcessLookupError):
                os.killpg(self.process.pid, signal.SIGKILL)


class Limit:
    """A time limit in a `with` block: a class, because a UNO exception cannot pass through contextlib's."""

    def __init__(self, seconds: float, too_late: Callable[[], None]) -> None:
        self.timer = threading.Timer(seconds, too_late)
        self.timer.daemon = True

    def __enter__(self) -> None:
        self.timer.start()

    def __exit__(self, *_: object) -> None:
        self.timer.cancel()


def _filter(document: Any, path: Path) -> str:
    ending = Path(path).suffix.lower()
    if ending == ".pdf":
        return next(name for service, name in PDF_FILTERS.items() if document.supportsService(service))
    if ending not in FILTERS:
        raise ValueError(f"{path}: the office writes {', '.join([*FILTERS, '.pdf'])} here")
    return FILTERS[ending]
