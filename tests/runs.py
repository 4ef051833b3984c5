"""A whole run that is green prints its line of the README's table of what was run where."""

import importlib.util
import platform
import subprocess
from datetime import date
from pathlib import Path

HEAD = "| system | office | Python | pint | tests | on |"
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


def pytest_terminal_summary(terminalreporter, exitstatus, config):
    if exitstatus == 0 and is_whole(config):
        terminalreporter.section("for the table in the README")
        terminalreporter.line(line(terminalreporter.stats))


def is_whole(config):
    """Whether nothing was left out; of a Python without the office's bridge only the calculations are asked."""
    if any(getattr(config.option, name, None) for name in NARROWED):
        return False
    calculations = config.args == ["tests/functions"] and not importlib.util.find_spec("uno")
    return calculations or config.args_source == config.ArgsSource.TESTPATHS


def line(stats):
    """What the run was on, and what came of it."""
    passed, skipped = stats.get("passed", []), stats.get("skipped", [])
    office = office_version() if any("office" in report.keywords for report in passed) else CALCULATIONS
    left_out = ", those left out that take minutes" if any("long" in report.keywords for report in skipped) else ""
    tests = f"{len(passed)} passed, {len(skipped)} skipped{left_out}"
    told = (system(), office, platform.python_version(), pint_version(), tests, date.today().isoformat())
    return f"| {' | '.join(told)} |"


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
