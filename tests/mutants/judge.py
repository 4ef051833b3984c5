"""Whether the tests notice a mutant: each is tried in a process of its own, forked where all is imported already.

A change inside a function is put into the live function, so that the tests that were collected once see it. Any
other is worked out when its module is imported: there everything of the project is imported anew.
"""

import contextlib
import functools
import importlib.abc
import importlib.util
import os
import signal
import sys
import time
import traceback
from collections.abc import Sequence
from pathlib import Path
from types import CodeType, FunctionType, ModuleType
from typing import Any

import hypothesis
import pytest
from _pytest.runner import runtestprotocol

from tests.mutants.changes import Mutant

ROOT = Path(__file__).parents[2]
TESTS = ROOT / "tests" / "functions"
FURTHER = {
    "tang": ("test_tang", "test_rod", "test_practice"),
    "stubs": ("test_rod",),
    "eye": ("test_eye", "test_chainplate"),
    "smallest": ("test_stub_need",),
    "forms": ("test_registry", "test_limits", "test_command"),
    "registry": ("test_registry", "test_limits"),
    "quantities": ("test_limits", "test_registry"),
    "survey": ("test_survey", "test_statics"),
    "degrees": ("test_survey", "test_tang", "test_eye", "test_double"),
    "trace": ("test_working",),
    "measure": ("test_measure", "test_foreign_pint"),
    "balance": ("test_balance_buckling", "test_balance_columns", "test_balance", "test_balance_frame"),
    "vectors": ("test_statics",),
    "examples": ("test_registry",),
    "words": ("test_words", "test_working"),
}
# What these do is done when the functions are declared: a live function comes too late.
DECLARING = ("registry", "quantities")
SURVIVED, NOTICED, STOPPED, BROKEN = 0, 1, 254, 255
LONGEST = 120  # seconds, or so many times what the tests take without a change; what runs for ever is noticed
TIMES = 5
hypothesis.settings.register_profile(
    "mutants",
    deadline=None,
    derandomize=True,
    database=None,
    max_examples=25,
    # Whether it fails is enough: no smaller example is looked for.
    phases=[hypothesis.Phase.explicit, hypothesis.Phase.generate],
    suppress_health_check=list(hypothesis.HealthCheck),
)


def files(module: str) -> "list[str]":
    """The test files of a module of functions/."""
    package = module.split(".")[0]
    return [str(TESTS / f"{name}.py") for name in FURTHER.get(package, (f"test_{package}",))]


def survivors(module: str, mutants: "Sequence[Mutant]") -> "list[Mutant]":
    """Those that no test notices."""
    inside = [mutant for mutant in mutants if mutant.function and module not in DECLARING]
    outside = [mutant for mutant in mutants if mutant not in inside]
    return [*_told(module, inside), *(mutant for mutant in outside if _survives_import(module, mutant))]


class Quick:
    """Few examples, and nothing said."""

    @pytest.hookimpl(tryfirst=True)
    def pytest_collection(self) -> None:
        hypothesis.settings.load_profile("mutants")


class Judge(Quick):
    """Runs all tests as they are, then those of each mutant until the first that notices it."""

    def __init__(self, mutants: "Sequence[Mutant]") -> None:
        self.mutants = mutants
        self.left: list[int] = []

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        took, noticed = {}, dict.fromkeys(session.items, 0)
        for item in session.items:
            start = time.perf_counter()
            if _fails(item):
                raise pytest.UsageError(f"{item.nodeid} fails without any change")
            took[item] = time.perf_counter() - start
        for at, mutant in enumerate(self.mutants):
            longest = max(LONGEST, TIMES * int(sum(took.values())))
            order = sorted(session.items, key=lambda item: took[item] / (1 + noticed[item]))
            verdict = _forked(functools.partial(_first_to_notice, mutant, order), longest)
            if verdict == SURVIVED:
                self.left.append(at)
            elif verdict <= len(order):
                noticed[order[verdict - 1]] += 1
        return True


def _fails(item: pytest.Item) -> bool:
    return any(report.failed for report in runtestprotocol(item, log=False))


def _first_to_notice(mutant: Mutant, items: "Sequence[pytest.Item]") -> int:
    put_in(mutant)
    return next((at for at, item in enumerate(items, 1) if _fails(item)), SURVIVED)


def _told(module: str, mutants: "Sequence[Mutant]") -> "list[Mutant]":
    """Have a forked process run one session for all of them, and read what it found from a pipe."""
    reading, writing = os.pipe()

    def session() -> int:
        judge = Judge(mutants)
        ended = _pytest(module, judge)
        os.write(writing, " ".join(map(str, judge.left)).encode())
        return int(ended)

    ended = _forked(session, longest=0)
    os.close(writing)
    with open(reading, encoding="ascii") as told:
        left = [mutants[int(at)] for at in told.read().split()]
    if ended not in (pytest.ExitCode.OK, pytest.ExitCode.NO_TESTS_COLLECTED):
        raise SystemExit(f"the tests of {module} do not run: {ended}")
    return left


def _pytest(module: str, plugin: Any) -> int:
    with open(os.devnull, "w") as nowhere, contextlib.redirect_stdout(nowhere):
        return int(pytest.main([*files(module), "-q", "-x", "-p", "no:cacheprovider"], plugins=[plugin]))


def _survives_import(module: str, mutant: Mutant) -> bool:
    def attempt() -> int:
        for name in [name for name in sys.modules if name.startswith(("loftsheet", "tests.functions"))]:
            del sys.modules[name]
        sys.meta_path.insert(0, Changed(f"loftsheet.{module}", mutant.code()))
        try:
            from loftsheet import CALCS

            from tests.functions.test_limits import PINNED, written

            if any(written(CALCS[name]) != PINNED[name] for name in PINNED):
                return NOTICED
        except Exception:
            return NOTICED
        return _pytest(module, Quick())

    return _forked(attempt) == SURVIVED


class Changed(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Loads one module with other code."""

    def __init__(self, name: str, code: CodeType) -> None:
        self.name, self.changed = name, code

    def find_spec(self, name: str, path: Any, target: Any = None) -> Any:
        origin = str(ROOT / "functions" / f"{name.replace('.', '/')}.py")
        if name != self.name:
            return None
        return importlib.util.spec_from_file_location(name, origin, loader=_Given(self.changed, origin))


class _Given(importlib.abc.Loader):
    def __init__(self, code: CodeType, origin: str) -> None:
        self.changed, self.origin = code, origin

    def exec_module(self, module: ModuleType) -> None:
        exec(self.changed, module.__dict__)


def put_in(mutant: Mutant) -> None:
    """Give the live function the changed code, and forget what was worked out before."""
    module = sys.modules[f"loftsheet.{mutant.module}"]
    _live(module, mutant.function).__code__ = _code(mutant.code(), mutant.function.split("."))
    for name, other in list(sys.modules.items()):
        if name.startswith("loftsheet"):
            for value in vars(other).values():
                if hasattr(value, "cache_clear"):
                    value.cache_clear()
    for calc in sys.modules["loftsheet"].CALCS.values():
        for kept in [name for name, one in vars(type(calc)).items() if isinstance(one, functools.cached_property)]:
            vars(calc).pop(kept, None)


def _live(module: ModuleType, name: str) -> FunctionType:
    found: Any = module
    for part in name.split("."):
        found = vars(found)[part]
    if hasattr(found, "calc"):
        return found.calc.function  # type: ignore[no-any-return]
    for under in ("fget", "func", "__wrapped__"):
        found = getattr(found, under, None) or found
    return found  # type: ignore[no-any-return]


def _code(module: CodeType, path: "list[str]") -> CodeType:
    """The code of a function within that of its module."""
    for name in path:
        module = next(one for one in module.co_consts if isinstance(one, CodeType) and one.co_name == name)
    return module


def _forked(work: Any, longest: int = LONGEST) -> int:
    """What work gives in a process of its own, no more than what stands for one that a signal stopped."""
    child = os.fork()
    if not child:
        signal.signal(signal.SIGALRM, signal.SIG_DFL)
        signal.alarm(longest)
        try:
            os._exit(min(work(), STOPPED))
        except BaseException:
            traceback.print_exc()
            os._exit(BROKEN)
    _, status = os.waitpid(child, 0)
    if os.WIFEXITED(status) and os.WEXITSTATUS(status) == BROKEN:
        raise SystemExit("a mutant could not be tried")
    return os.WEXITSTATUS(status) if os.WIFEXITED(status) else STOPPED
