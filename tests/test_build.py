"""The commands of build.py, as they are typed."""

import re
import subprocess
import sys

import pytest

from extension import setup_machine
from extension.setup_machine import ROOT


def build(*words):
    command = [sys.executable, str(ROOT / "build.py"), *words]
    return subprocess.run(command, capture_output=True, text=True, check=False, timeout=600)


def test_a_function_from_the_terminal():
    """Bury of 72 diameters: B. Toss, The Complete Rigger's Apprentice (2016), p. 105."""
    assert build("call", "RIG.BURY", "10").stdout == "720\n"
    assert build("call", "RIG.BURY", "8 mm").stdout == "576\n"


def test_a_refusal_is_told_on_the_error_stream():
    done = build("call", "RIG.BURY", "-10")
    assert (done.returncode, done.stdout) == (2, "")
    assert "got -10 mm" in done.stderr


@pytest.mark.parametrize(("words", "code"), [([], 0), (["help"], 0), (["no-such"], 2)])
def test_what_is_not_a_command_shows_those_that_are(words, code):
    done = build(*words)
    assert done.returncode == code
    assert {"demo", "test", "build", "install", "call"} <= set(re.findall(r"build\.py (\w+)", done.stdout))


@pytest.mark.office
@pytest.mark.long
def test_the_demo_writes_the_schedule_and_the_order(extension_file):
    written = [ROOT / "out" / name for name in ("marrowick.ods", "marrowick.pdf", "marrowick-order.xlsx")]
    for path in written:
        path.unlink(missing_ok=True)
    done = build("demo")
    assert done.returncode == 0, done.stderr
    assert all(path.stat().st_size > 5_000 for path in written)


@pytest.mark.parametrize(
    ("said", "serves"),
    [("LibreOffice 7.3.9.2", False), ("LibreOffice 7.4.7.2", True), ("LibreOffice 26.8.1.1", True), ("", True)],
)
def test_an_office_that_is_too_old_is_told_by_its_version(tmp_path, said, serves):
    soffice = tmp_path / "soffice"
    soffice.write_text(f"#!/bin/sh\necho '{said} 40(Build:2)'\n")
    soffice.chmod(0o755)
    assert setup_machine._is_new_enough(str(soffice)) is serves
