"""What our own code never does: reach for a network, start a program, run text that somebody typed."""

import ast
import subprocess
import sys

import pytest

from extension import package
from extension.setup_machine import ROOT

NETWORK = {"socket", "ssl", "http", "urllib", "ftplib", "smtplib", "poplib", "imaplib", "nntplib", "telnetlib"}
NETWORK |= {
    "xmlrpc",
    "socketserver",
    "asyncio",
    "webbrowser",
    "wsgiref",
    "requests",
    "aiohttp",
    "httpx",
    "urllib3",
}
PROGRAMS = {
    "subprocess",
    "multiprocessing",
    "ctypes",
    "pty",
    "runpy",
    "code",
    "codeop",
    "pickle",
    "shelve",
    "marshal",
}
RUNS_TEXT = {"eval", "exec", "compile"}
OFFICE_DOORS = (
    "SystemShellExecute",
    "vnd.sun.star.script",
    "macro:",
    ".uno:RunMacro",
    "XScriptProvider",
    "service:",
)
# Each touches what it may not, so that the guard is known to see it.
FORBIDDEN = {
    "a network": "import socket; socket.create_connection(('127.0.0.1', 9))",
    "a program": "import subprocess; subprocess.run(['true'])",
    "a file": "open('written', 'w')",
}
GUARD = """
import os, sys

DOORS = ("socket", "subprocess", "urllib", "http", "ftplib", "smtplib")
CALLS = ("system", "exec", "posix_spawn", "fork", "spawn", "remove", "rename", "mkdir")

def guard(event, given):
    door, _, call = event.partition(".")
    writes = event == "open" and (
        set(str(given[1] or "")) & set("wax+") or (given[2] or 0) & (os.O_WRONLY | os.O_RDWR)
    )
    if writes or door in DOORS or (door == "os" and call in CALLS):
        os.write(2, ("touched: %s %r" % (event, given)).encode())
        os._exit(3)
"""
EVERYTHING = """
from loftsheet import CALCS
from loftsheet.trace import working
from loftsheet.examples import EXAMPLES
sys.addaudithook(guard)
for name, given in EXAMPLES.items():
    CALCS[name].call(*given)
    working(CALCS[name], list(given))
CALCS["RIG.BURY"].call("3/8 in")
"""


def own_modules():
    return {
        name: content.decode()
        for name, content in package.contents()
        if name.endswith(".py") and (name == "component.py" or name.startswith("pythonpath/loftsheet"))
    }


@pytest.fixture(scope="module")
def modules():
    found = own_modules()
    assert len(found) > 40
    return {name: ast.parse(source, name) for name, source in found.items()}


def imported(tree):
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (one.name.partition(".")[0] for one in node.names)
        elif isinstance(node, ast.ImportFrom) and not node.level:
            yield node.module.partition(".")[0]


def test_no_module_can_reach_a_network_or_start_a_program(modules):
    wrong = {name: set(imported(tree)) & (NETWORK | PROGRAMS) for name, tree in modules.items()}
    assert {name: found for name, found in wrong.items() if found} == {}


def test_no_text_is_run(modules):
    for name, tree in modules.items():
        called = [node.func for node in ast.walk(tree) if isinstance(node, ast.Call)]
        assert {one.id for one in called if isinstance(one, ast.Name)} & RUNS_TEXT == set(), name
        on_os = [one.attr for one in called if isinstance(one, ast.Attribute) and ast.unparse(one.value) == "os"]
        assert [one for one in on_os if one.startswith(("system", "popen", "exec", "spawn"))] == [], name


def test_the_office_is_not_asked_to_run_anything():
    for name, source in own_modules().items():
        assert [door for door in OFFICE_DOORS if door in source] == [], name


def guarded(code):
    environment = {"PYTHONPATH": f"{ROOT}:{ROOT / 'functions'}", "PYTHONDONTWRITEBYTECODE": "1"}
    command = [sys.executable, "-c", GUARD + code]
    return subprocess.run(command, env=environment, capture_output=True, text=True, check=False, timeout=300)


def test_no_function_touches_a_network_a_program_or_a_file():
    done = guarded(EVERYTHING)
    assert done.returncode == 0, done.stderr


@pytest.mark.parametrize("what", FORBIDDEN)
def test_the_guard_sees(what, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    done = guarded(f"sys.addaudithook(guard)\n{FORBIDDEN[what]}")
    assert done.returncode == 3
    assert "touched" in done.stderr
