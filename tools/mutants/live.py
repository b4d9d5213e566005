"""Run chosen tests with the program broken, in a child that is thrown away.

A `Server` is a child that has collected all tests once; for each break it forks again, puts the broken
functions in place of the sound ones and runs the tests asked for, up to the first that fails. A
break of what is worked out on import needs a program of its own: `with_fresh_import`.
"""

from __future__ import annotations

import gc
import importlib.machinery
import importlib.util
import os
import signal
import sys
import time
from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from functools import partial
from multiprocessing import Pipe
from multiprocessing.connection import Connection
from pathlib import Path
from types import CodeType, FunctionType, ModuleType

import pytest

from tools.mutants.reach import MARKS, OPTIONS

SURVIVED, ELSEWHERE, UNREADABLE = "", "elsewhere", "unreadable"
"""All passed; the break is not in a living function; the tests could not even be collected."""

Verdict = str | None
"""One of these, or the name of the test that failed; None when a test did not end."""
Place = tuple[str, int]
"""A function in a file: its dotted name and its first line."""


class Server:
    """All tests collected once, ready to be run against one break after the other."""

    def __init__(self, root: Path, files: Sequence[str], seconds: Mapping[str, float]) -> None:
        self._line, other = Pipe()
        self._child = os.fork()
        if self._child == 0:
            self._line.close()
            _serve(root, files, seconds, other)
        other.close()

    def tried(self, file: Path, text: str, tests: Sequence[str], patience: float) -> Verdict:
        """How the tests fare against a file with another text."""
        self._line.send((str(file), text, list(tests), patience))
        answer: Verdict = self._line.recv()
        return answer

    def sound(self, test: str, patience: float) -> bool:
        """Whether a test passes with nothing broken, as it did when its lines were seen."""
        self._line.send(("", "", [test], patience))
        return bool(self._line.recv() == SURVIVED)

    def close(self) -> None:
        """Send the child home."""
        self._line.close()
        os.waitpid(self._child, 0)


def _serve(
    root: Path, files: Sequence[str], seconds: Mapping[str, float], line: Connection
) -> None:
    _hush()
    try:
        pytest.main([*OPTIONS, *MARKS, *files], plugins=[_Serving(root, seconds, line)])
    finally:
        os._exit(0)


class _Serving:
    def __init__(self, root: Path, seconds: Mapping[str, float], line: Connection) -> None:
        self._root, self._seconds, self._line = root, seconds, line

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Answer what is asked until nobody asks any more."""
        items = {item.nodeid: item for item in session.items}
        functions = _functions(str(self._root / "src"))
        while True:
            try:
                file, text, tests, patience = self._line.recv()
            except EOFError:
                return True
            chosen = [items[test] for test in tests if test in items]
            broken = partial(_replaced, functions[file], file, text) if file else _whole
            work = partial(_ran, session, chosen, broken, self._seconds)
            self._line.send(forked(work, patience))


def with_fresh_import(
    root: Path,
    module: str,
    file: Path,
    text: str,
    tests: Sequence[str],
    seconds: Mapping[str, float],
    patience: float,
) -> Verdict:
    """As `Server.tried`, but the whole program is imported with the break in it."""

    def work() -> str:
        _hush()
        sys.meta_path.insert(0, _Broken(module, file, text))
        sys.path.insert(0, str(root / "src"))
        files = list(dict.fromkeys(test.partition("::")[0] for test in tests))
        only = _Only(tests, seconds)
        pytest.main([*OPTIONS, *MARKS, *files], plugins=[only])
        return only.verdict

    return forked(work, patience)


def forked(work: Callable[[], str], patience: float) -> Verdict:
    """What a child answers; None when a signal or our patience (seconds on the clock) ended it."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        os.setsid()
        answer = UNREADABLE
        try:
            answer = work()
        finally:
            os.write(writing, answer.encode())
            os._exit(0)
    os.close(writing)
    with os.fdopen(reading, "rb") as told:
        return told.read().decode() if _ended(child, patience) else None


def _ended(child: int, patience: float) -> bool:
    """Wait for a child; whether it ended by itself."""
    end, pause = time.monotonic() + patience, 0.005
    while time.monotonic() < end:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            return os.WIFEXITED(status)
        time.sleep(pause)
        pause = min(0.1, 1.5 * pause)
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return False


def _ran(
    session: pytest.Session,
    items: Sequence[pytest.Item],
    broken: Callable[[], bool],
    seconds: Mapping[str, float],
) -> str:
    """Break the program, then run the items up to the first that fails."""
    if not broken():
        return ELSEWHERE
    before = session.testsfailed
    for item, following in zip(items, [*items[1:], None], strict=True):
        _limit(seconds.get(item.nodeid, 1.0))
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
        if session.testsfailed > before:
            return item.nodeid
    return SURVIVED


def _whole() -> bool:
    """Nothing is broken."""
    return True


def _limit(usual: float) -> None:
    """A test that takes far longer than it did ends the child: it runs without end."""
    signal.setitimer(signal.ITIMER_VIRTUAL, 30 + 10 * usual)


class _Only:
    """Keeps the tests that were asked for, in that order, and stops at the first that fails."""

    def __init__(self, tests: Sequence[str], seconds: Mapping[str, float]) -> None:
        self._tests, self._seconds, self.verdict = tests, seconds, UNREADABLE

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        there = {item.nodeid: item for item in items}
        items[:] = [there[test] for test in self._tests if test in there]

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Run them, unless a file of tests could not even be read."""
        if not session.testsfailed:
            self.verdict = _ran(session, session.items, _whole, self._seconds)
        return True


def _hush() -> None:
    nothing = os.open(os.devnull, os.O_RDWR)
    for stream in (0, 1, 2):
        os.dup2(nothing, stream)


def _functions(source: str) -> dict[str, list[FunctionType]]:
    """Every living function of the program, by its file."""
    found: dict[str, list[FunctionType]] = defaultdict(list)
    for thing in gc.get_objects():
        if isinstance(thing, FunctionType) and thing.__code__.co_filename.startswith(source):
            found[thing.__code__.co_filename].append(thing)
    return found


def _replaced(functions: Sequence[FunctionType], file: str, text: str) -> bool:
    """Put broken functions in place of sound ones; whether any reads otherwise now."""
    codes = _codes(compile(text, file, "exec", dont_inherit=True))
    differ = False
    for function in functions:
        old = function.__code__
        new = codes.get((old.co_qualname, old.co_firstlineno))
        if new is not None and new != old and new.co_freevars == old.co_freevars:
            function.__code__ = new
            differ = True
    return differ


def _codes(module: CodeType) -> dict[Place, CodeType]:
    """The code of each function in a text, but of two on one line."""
    found: dict[Place, CodeType] = {}
    twice: set[Place] = set()
    waiting = [module]
    while waiting:
        for one in waiting.pop().co_consts:
            if isinstance(one, CodeType):
                place = one.co_qualname, one.co_firstlineno
                twice |= {place} & found.keys()
                found[place] = one
                waiting.append(one)
    return {place: code for place, code in found.items() if place not in twice}


class _Broken:
    """Finds one module and gives its broken text in place of the one on disk."""

    def __init__(self, module: str, path: Path, text: str) -> None:
        self._module, self._path, self._text = module, path, text

    def find_spec(
        self, name: str, path: object = None, target: ModuleType | None = None
    ) -> importlib.machinery.ModuleSpec | None:
        """Answer for the broken module alone."""
        if name != self._module:
            return None
        loader = _BrokenText(name, str(self._path), self._text)
        places = [str(self._path.parent)] if self._path.name == "__init__.py" else None
        return importlib.util.spec_from_file_location(
            name, self._path, loader=loader, submodule_search_locations=places
        )


class _BrokenText(importlib.machinery.SourceFileLoader):
    def __init__(self, name: str, path: str, text: str) -> None:
        super().__init__(name, path)
        self._text = text

    def get_code(self, fullname: str) -> CodeType:
        """Compile the broken text, past every cache."""
        return compile(self._text, self.path, "exec", dont_inherit=True)
