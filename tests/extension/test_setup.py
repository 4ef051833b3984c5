"""A set-up that is cut off, or asked for twice at once, ends well the next time.

Real processes set a small project up; stand-ins for venv and pip, found before the real ones, need no network and
end the set-up where they are told to.
"""

import os
import shutil
import subprocess
import sys

import pytest

from extension import alone, setup_machine

pytestmark = pytest.mark.skipif(os.name == "nt", reason="the stand-ins are links, and end by signals")

SCRIPT = """
import sys
from pathlib import Path
sys.path.insert(0, str(Path(__file__).resolve().parent))
from extension import setup_machine
setup_machine.prepare(Path(__file__), needs_office=False, reason="for a unit")
import installed
print(sys.prefix, *installed.PACKAGES, *sys.argv[1:])
"""
# Where a set-up is ended: all of it at once, as by a power cut.
MOMENTS = """
import os, signal, time
from pathlib import Path

LOG = Path(os.environ["SET_UP_LOG"])

def reached(moment):
    with LOG.open("a") as log:
        log.write(moment + chr(10))
    if os.environ.get("SET_UP_ENDS") == moment:
        os.kill(os.getppid(), signal.SIGKILL)
        if os.environ.get("SET_UP_CHILD_LIVES"):
            time.sleep(1)
        else:
            os.kill(os.getpid(), signal.SIGKILL)
"""
VENV = """
import os, shutil, sys
from pathlib import Path
from moments import reached

place = Path(sys.argv[-1])
reached("before anything")
for old in sorted(place.glob("*")) if place.exists() else []:
    shutil.rmtree(old) if old.is_dir() else old.unlink()
    reached("half cleared")
reached("cleared")
version = "python%d.%d" % sys.version_info[:2]
packages = place / "lib" / version / "site-packages"
packages.mkdir(parents=True)
(place / "bin").mkdir()
(place / "bin/python").symlink_to(os.path.realpath(sys.executable))
reached("an interpreter and no settings")
(place / "pyvenv.cfg").write_text("home = %s\\n" % Path(os.path.realpath(sys.executable)).parent)
reached("an environment without packages")
"""
PIP = """
import sys
from pathlib import Path
from moments import reached

assert Path(sys.prefix).name == ".venv", "this Python is externally managed"
here = next(Path(sys.prefix).glob("lib/python*/site-packages")) / "installed.py"
if "--upgrade" in sys.argv:
    reached("before pip is new")
else:
    here.write_text("PACKAGES = ['one']\\n")
    reached("half of the packages")
    here.write_text("PACKAGES = ['one', 'two']\\n")
    reached("all packages, no note")
"""
ENDS = (
    "before anything",
    "half cleared",
    "cleared",
    "an interpreter and no settings",
    "an environment without packages",
    "before pip is new",
    "half of the packages",
    "all packages, no note",
)
PINNED = '[dependency-groups]\nvendored = ["one=={}"]\n\n[project]\nname = "small"\n'


class Project:
    """A project that sets itself up, and what came of it."""

    def __init__(self, place):
        self.place, self.log = place, place / "log"
        self.venv = place / setup_machine.VENV.name
        self.script = place / "build.py"
        (place / "extension").mkdir()
        for module in (alone, setup_machine):
            shutil.copy(module.__file__, place / "extension")
        self.script.write_text(SCRIPT)
        self.pin("1")
        for name, text in (("venv", VENV), ("pip", PIP), ("ensurepip", "")):
            (place / "stand-ins" / name).mkdir(parents=True)
            (place / "stand-ins" / name / "__init__.py").touch()
            (place / "stand-ins" / name / "__main__.py").write_text(text)
        (place / "stand-ins/moments.py").write_text(MOMENTS)
        (place / "bin").mkdir()

    def pin(self, version):
        (self.place / "pyproject.toml").write_text(PINNED.format(version))

    def start(self, ends="", python=(sys.executable,), words=("a word",), **more):
        """Without apt and without another Python on the PATH; the stand-ins come before the real ones."""
        environment = {
            "PATH": str(self.place / "bin"),
            "PYTHONPATH": str(self.place / "stand-ins"),
            "SET_UP_LOG": str(self.log),
            "SET_UP_ENDS": ends,
            **more,
        }
        command = [*python, str(self.script), *words]
        pipe = subprocess.PIPE
        return subprocess.Popen(command, env=environment, stdout=pipe, stderr=pipe, text=True)

    def set_up(self, ends="", **more):
        return self.ended(self.start(ends, **more))

    def ended(self, process):
        said, told = process.communicate(timeout=60)
        return subprocess.CompletedProcess(process.args, process.returncode, said, told)

    def is_well(self, done):
        assert (done.returncode, done.stdout) == (0, f"{self.venv} one two a word\n"), done.stderr
        return True

    def steps(self):
        """What the stand-ins did since this was last asked."""
        done = self.log.read_text().splitlines() if self.log.exists() else []
        self.log.unlink(missing_ok=True)
        return done


@pytest.fixture
def project(tmp_path):
    return Project(tmp_path.resolve())


def test_what_is_set_up_is_not_set_up_again(project):
    assert project.is_well(project.set_up())
    assert [step for step in project.steps() if step != "half cleared"] == [
        one for one in ENDS if one != "half cleared"
    ]
    assert project.is_well(project.set_up())
    assert project.is_well(project.set_up(python=(str(project.venv / "bin/python"),)))
    assert project.steps() == []


@pytest.mark.parametrize("moment", [moment for moment in ENDS if moment != "half cleared"])
def test_a_set_up_that_was_cut_off_is_made_anew(project, moment):
    assert project.set_up(ends=moment).returncode == -9
    project.steps()
    assert project.is_well(project.set_up())
    assert "cleared" in project.steps()


@pytest.mark.parametrize("moment", ENDS[:4])
@pytest.mark.parametrize("lacks", ["bin/python", "pyvenv.cfg", "everything else"])
def test_an_environment_that_does_not_serve_is_made_anew(project, lacks, moment):
    """As after an upgrade of the system's Python; with one that only goes by its name."""
    if lacks != "everything else":
        project.is_well(project.set_up())
        (project.venv / lacks).unlink()
    else:
        (project.venv / "bin").mkdir(parents=True)
        (project.venv / "bin/python").symlink_to(os.path.realpath(sys.executable))
    assert project.set_up(ends=moment).returncode == -9
    project.steps()
    assert project.is_well(project.set_up())
    assert "cleared" in project.steps()


@pytest.mark.parametrize("moment", ["before pip is new", "half of the packages", "all packages, no note"])
def test_new_pins_are_installed_into_what_is_whole(project, moment):
    project.is_well(project.set_up())
    project.pin("2")
    project.steps()
    assert project.is_well(project.set_up())
    assert project.steps() == list(ENDS[5:])
    project.pin("3")
    assert project.set_up(ends=moment).returncode == -9
    project.steps()
    assert project.is_well(project.set_up())
    assert "cleared" in project.steps()


def test_other_settings_of_the_project_are_no_new_pins(project):
    project.is_well(project.set_up())
    project.steps()
    with (project.place / "pyproject.toml").open("a") as settings:
        settings.write("version = '2'\n")
    assert project.is_well(project.set_up())
    assert project.steps() == []


def test_two_at_once_set_up_once(project):
    done = [project.ended(one) for one in [project.start(), project.start()]]
    assert all(project.is_well(one) for one in done)
    assert project.steps().count("cleared") == 1
    assert sum("waiting until it is done" in one.stderr for one in done) == 1


def test_what_a_killed_set_up_left_running_is_waited_for(project):
    """pip goes on when the set-up that started it is killed; it must not write into what is made anew."""
    assert project.start("half of the packages", SET_UP_CHILD_LIVES="yes").wait(60) == -9
    again = project.set_up()
    assert project.is_well(again)
    assert "waiting until it is done" in again.stderr
    steps = project.steps()
    assert steps.index("all packages, no note") < len(steps) - steps[::-1].index("cleared") - 1


def test_the_lock_of_one_who_is_dead_holds_nobody(project):
    (project.place / ".venv.lock").write_text("99999999")
    began = project.set_up()
    assert project.is_well(began)
    assert "waiting" not in began.stderr


def test_it_starts_itself_anew_once_at_most(project):
    """An interpreter that does not keep to its environment would be started for ever."""
    project.is_well(project.set_up())
    (project.place / "stand-ins/sitecustomize.py").write_text(
        f"import os, sys\nif {setup_machine.STARTED_ANEW!r} in os.environ:\n    sys.prefix = '/elsewhere'\n"
    )
    done = project.set_up()
    assert done.returncode == 1
    assert f"{project.venv}/bin/python does not run as it should; delete {project.venv}" in done.stderr


def test_what_it_is_for_is_said_before_it_begins_and_not_again(project):
    first, second = project.set_up(), project.set_up()
    assert first.stderr.startswith("Set-up: for a unit\n")
    assert second.stderr == ""


def test_a_unit_in_a_bare_python_is_told_what_is_set_up_and_why(project):
    for name in ("build.py", "functions"):
        copy = shutil.copytree if (setup_machine.ROOT / name).is_dir() else shutil.copy
        copy(setup_machine.ROOT / name, project.place / name)
    bare = (os.path.realpath(sys.executable), "-S")  # without what is installed beside it
    plain = project.ended(project.start("before anything", bare, ("call", "RIG.BURY", "9")))
    assert (plain.returncode, plain.stdout, plain.stderr) == (0, "648\n", "")
    unit = project.ended(project.start("before anything", bare, ("call", "RIG.BURY", "9 mm")))
    assert (unit.returncode, unit.stdout) == (-9, "")
    first, second = unit.stderr.splitlines()
    for words in ("text with a unit", "(pint)", "set up in .venv, once", "a minute", "Plain numbers need none"):
        assert words in first
    assert "making a virtual environment" in second
