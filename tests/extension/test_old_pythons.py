"""The oldest Python that the functions run on, and what one that is too old is told."""

import ast
import subprocess
import zipfile

import pytest

from extension import package
from tests import pythons

FLOOR, TOO_OLD = "3.9", "3.8"
# Stands in for the office's bridge, which belongs to the office's own Python: every name is an empty class.
BRIDGE = """
import importlib.abc, importlib.machinery, sys, types

class Names(types.ModuleType):
    __path__ = []
    def __getattr__(self, name):
        if name.startswith("__"):
            raise AttributeError(name)
        setattr(self, name, type(name, (), {"addImplementation": lambda *given: registered.append(given)}))
        return getattr(self, name)

class Bridge(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    def find_spec(self, name, path=None, target=None):
        ours = name.split(".")[0] in ("com", "uno", "unohelper") or name in ("org", "org.loftsheet")
        return importlib.machinery.ModuleSpec(name, self, is_package=True) if ours else None
    def create_module(self, spec):
        return Names(spec.name)
    def exec_module(self, module):
        pass

registered = []
sys.meta_path.insert(0, Bridge())
import component
names = [given[2] for given in registered]
assert names == ["org.loftsheet.Menu", "org.loftsheet.Rig"], names
rig = registered[1][1](None)
import loftsheet_office.commands.about as about
assert "loftsheet" not in sys.modules
print(type(rig).__module__, rig.version())
print(about.python_version(None))
"""


@pytest.fixture(scope="module")
def unpacked(tmp_path_factory):
    folder = tmp_path_factory.mktemp("unpacked")
    with zipfile.ZipFile(package.pack(folder / "one.oxt")) as packed:
        packed.extractall(folder / "oxt")
    return folder / "oxt"


def python(version):
    found = pythons.find(version)
    if not found:
        pytest.skip(f"no Python {version} on this machine")
    return found


def run(*command, **more):
    return subprocess.run(command, capture_output=True, text=True, check=False, timeout=300, **more)


def test_everything_is_written_in_the_language_of_the_floor(unpacked):
    modules = list(unpacked.rglob("*.py"))
    assert len(modules) > 100
    for file in modules:
        ast.parse(file.read_text(encoding="utf-8"), str(file), feature_version=(3, 9))


def test_the_floor_itself_compiles_everything(unpacked):
    done = run(python(FLOOR), "-m", "compileall", "-q", str(unpacked))
    assert done.returncode == 0, done.stdout


def test_the_floor_itself_computes_with_what_is_packed(unpacked):
    code = "from loftsheet import CALCS; print(CALCS['RIG.BURY'].call('3/8 in'))"
    done = run(python(FLOOR), "-c", code, cwd=unpacked / "pythonpath")
    assert float(done.stdout) == pytest.approx(72 * 9.525), done.stderr


def test_a_python_that_is_too_old_is_told_so(unpacked):
    """In its own language, by =RIG.VERSION() and by About."""
    paths = {"PYTHONPATH": f"{unpacked}:{unpacked / 'pythonpath'}"}
    done = run(python(TOO_OLD), "-c", BRIDGE, env=paths)
    assert done.returncode == 0, done.stderr
    cell, about = done.stdout.splitlines()
    assert cell.startswith(
        "loftsheet_office.addin.too_old Loftsheet needs Python 3.9 or newer, this LibreOffice has 3.8"
    )
    assert about.startswith("Python 3.8") and "too old" in about


def test_the_floor_loads_the_functions_by_the_same_way(unpacked):
    paths = {"PYTHONPATH": f"{unpacked}:{unpacked / 'pythonpath'}"}
    code = BRIDGE.replace('assert "loftsheet" not in sys.modules', "").split("print(type(rig)")[0]
    done = run(python(FLOOR), "-c", f"{code}print(type(rig).__module__, rig.bury(9.0))", env=paths)
    assert done.stdout == "loftsheet_office.addin.add_in 648.0\n", done.stderr
