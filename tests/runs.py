"""After a whole run that is green the README says what it ran on; one line for each system, office and Python."""

import importlib.util
import os
import platform
import subprocess
from datetime import date
from pathlib import Path

from extension import reference

BEGIN, END = "<!-- runs -->\n", "<!-- end of runs -->"
HEAD = "\n| system | office | Python | pint | tests | on |\n|---|---|---|---|---|---|\n"
CALCULATIONS = "none, the calculations only"
NARROWED = (
    "keyword",
    "markexpr",
    "lf",
    "failedfirst",
    "deselect",
    "ignore",
    "ignore_glob",
    "collectonly",
    "stepwise",
)


def pytest_sessionfinish(session, exitstatus):
    readme = session.config.rootpath / "README.md"
    if exitstatus == 0 and os.environ.get("CI") != "true" and is_whole(session.config) and readme.exists():
        note(readme, *run(session.config))


def is_whole(config):
    """Whether nothing was left out; of a Python without the office's bridge only the calculations are asked."""
    if any(getattr(config.option, name, None) for name in NARROWED):
        return False
    calculations = config.args == ["tests/functions"] and not importlib.util.find_spec("uno")
    return calculations or config.args_source == config.ArgsSource.TESTPATHS


def run(config):
    """What the run was on, and what came of it."""
    stats = config.pluginmanager.get_plugin("terminalreporter").stats
    passed, skipped = stats.get("passed", []), stats.get("skipped", [])
    office = office_version() if any("office" in report.keywords for report in passed) else CALCULATIONS
    left_out = ", those left out that take minutes" if any("long" in report.keywords for report in skipped) else ""
    tests = f"{len(passed)} passed, {len(skipped)} skipped{left_out}"
    return (system(), office, platform.python_version()), (pint_version(), tests, date.today().isoformat())


def note(readme, key, rest):
    """Put the line of a run into the README, in place of the one before on the same."""
    text = readme.read_text(encoding="utf-8")
    block = text[text.index(BEGIN) : text.index(END)].splitlines()
    rows = {tuple(cells(line)[:3]): line for line in block if line.startswith("| ") and line not in HEAD}
    rows[key] = f"| {' | '.join((*key, *rest))} |"
    reference.put(readme, BEGIN, END, HEAD + "".join(f"{rows[one]}\n" for one in sorted(rows)) + "\n")


def cells(line):
    return [cell.strip() for cell in line.strip("| ").split(" | ")]


def system():
    release = Path("/etc/os-release")
    if release.exists():
        named = dict(line.partition("=")[::2] for line in release.read_text(encoding="utf-8").splitlines())
        return named.get("PRETTY_NAME", platform.system()).strip('"')
    return f"{platform.system()} {platform.release()}"


def office_version():
    from extension.office import program

    done = subprocess.run([program(), "--version"], capture_output=True, text=True, check=False, timeout=60)
    return " ".join(done.stdout.split()[:2])


def pint_version():
    import pint

    return pint.__version__
