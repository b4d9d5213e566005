"""Which tests reach which line, and how long each takes: found once, kept in `out/`.

Every test runs once with the lines of the program watched. What a test calls for the first time and
the program then remembers is forgotten again before each test, so that each reaches all it rests on.
What a wider fixture reaches counts for each test that uses it.
"""

from __future__ import annotations

import gc
import hashlib
import importlib
import json
import os
import time
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from difflib import SequenceMatcher
from functools import cache
from pathlib import Path
from types import FunctionType
from typing import Any

import pytest

SOURCE = Path("src") / "cutwright"
KEPT = Path("out") / "mutants" / "reach.json"
FOLDERS = (
    *("geometry", "pattern", "body", "style", "blocks", "steps", "operations", "checks"),
    *("finish", "lay", "outside", "golden", "packet", "workshop", "book"),
)
"""Folders of tests that are asked; tests of the desk and of printed pages are not."""
OPTIONS = (
    *("-o", "addopts=", "--import-mode=importlib", "--assert=plain"),
    *("-p", "no:terminal", "-p", "no:cacheprovider"),
)
MARKS = ("-m", "not slow and not survey and not browser", "-k", "not postgresql")
"""On a server the book's tests are the same, and the server takes long to start."""
IMPORTING = "importing"


@dataclass
class Reach:
    """For each test its CPU seconds and the lines it reaches; the texts of then, to follow moved lines."""

    seconds: dict[str, float] = field(default_factory=dict)
    lines: dict[str, dict[int, set[str]]] = field(default_factory=dict)
    importing: dict[str, set[int]] = field(default_factory=dict)
    texts: dict[str, str] = field(default_factory=dict)
    digests: dict[str, str] = field(default_factory=dict)

    def of_lines(self, file: str, lines: Iterable[int]) -> set[str]:
        """The tests that reach one of those lines of a file."""
        places = self.lines.get(file, {})
        return set().union(*(places.get(line, set()) for line in lines))

    def of_file(self, file: str) -> set[str]:
        """The tests that reach any line of a file."""
        return set().union(*self.lines.get(file, {}).values())

    def leave_out(self, test: str) -> None:
        """Ask a test no more."""
        _drop(self, {test})

    def quickest(self, tests: set[str], budget: float, part: str = "") -> list[str]:
        """Those tests, the quickest first, as many as the budget of seconds holds.

        Those of the part itself, the outside checks and the drawings kept as they were come before all others.
        """
        near = tuple(f"tests/{name}/" for name in (part, "outside", "golden"))
        found: list[str] = []
        spent = 0.0
        for test in sorted(tests, key=lambda t: (not t.startswith(near), self.seconds[t], t)):
            spent += self.seconds[test]
            if found and spent > budget:
                break
            found.append(test)
        return found


def found(root: Path, anew: bool) -> Reach:
    """The map of this tree: read, brought up to the files of tests that changed, and kept."""
    kept = root / KEPT
    reach = Reach() if anew or not kept.exists() else _read(kept)
    now = {name: _digest(root / name) for name in test_files(root)}
    changed = [name for name, digest in now.items() if reach.digests.get(name) != digest]
    for file in _sources(root):
        _follow(reach, file, (root / file).read_text("utf-8"))
    _forget(reach, {*changed, *(set(reach.digests) - set(now))})
    if changed:
        print(f"seeing what {len(changed)} files of tests reach", flush=True)
        _watched(root, changed, reach)
        reach.digests = now
        kept.parent.mkdir(parents=True, exist_ok=True)
        kept.write_text(_written(reach), "utf-8")
    return reach


def test_files(root: Path) -> list[str]:
    """The files of tests that are asked, as they stand below the root."""
    files = (file for name in FOLDERS for file in (root / "tests" / name).rglob("test_*.py"))
    return sorted(file.relative_to(root).as_posix() for file in files)


def _sources(root: Path) -> list[str]:
    return sorted(file.relative_to(root).as_posix() for file in (root / SOURCE).rglob("*.py"))


def _digest(file: Path) -> str:
    return hashlib.sha256(file.read_bytes()).hexdigest()


def _follow(reach: Reach, file: str, text: str) -> None:
    """Carry what is known of a file over to how it reads now; a new line takes what the last one had."""
    old = reach.texts.get(file)
    reach.texts[file] = text
    if old is None or old == text:
        return
    places: dict[int, int] = {}
    ways = SequenceMatcher(None, old.splitlines(), text.splitlines(), autojunk=False)
    for _tag, start, end, new_start, new_end in ways.get_opcodes():
        for line in range(new_start, new_end):
            places[line + 1] = max(1, min(start + line - new_start, max(start, end - 1)) + 1)
    lines, importing = reach.lines.get(file, {}), reach.importing.get(file, set())
    reach.lines[file] = {new: lines[was] for new, was in places.items() if was in lines}
    reach.importing[file] = {new for new, was in places.items() if was in importing}


def _forget(reach: Reach, files: set[str]) -> None:
    gone = {test for test in reach.seconds if test.partition("::")[0] in files}
    _drop(reach, gone)


def _drop(reach: Reach, gone: set[str]) -> None:
    for test in gone:
        del reach.seconds[test]
    for places in reach.lines.values():
        for tests in places.values():
            tests -= gone


def _watched(root: Path, files: Sequence[str], reach: Reach) -> None:
    """Run those files of tests in a child with every line watched; take what it wrote down."""
    answer = root / KEPT.with_suffix(".part")
    answer.parent.mkdir(parents=True, exist_ok=True)
    child = os.fork()
    if child == 0:
        code = 1
        try:
            answer.write_text(_written(_looked(root, files)), "utf-8")
            code = 0
        finally:
            os._exit(code)
    if os.waitpid(child, 0)[1] != 0:
        raise SystemExit("the tests could not be watched")
    part = _read(answer)
    answer.unlink()
    reach.seconds |= part.seconds
    for file, places in part.lines.items():
        mine = reach.lines.setdefault(file, {})
        for line, tests in places.items():
            mine[line] = mine.get(line, set()) | tests
    for file, importing in part.importing.items():
        reach.importing[file] = reach.importing.get(file, set()) | importing


def _looked(root: Path, files: Sequence[str]) -> Reach:
    coverage: Any = importlib.import_module("coverage")
    watch = coverage.Coverage(data_file=None, source=[str(root / SOURCE)], config_file=False)
    watch.start()
    watch.switch_context(IMPORTING)
    looking = _Looking(watch)
    pytest.main([*OPTIONS, *MARKS, *files], plugins=[looking])
    watch.stop()
    return looking.told(root, watch.get_data())


class _Looking:
    """Tells the watch whose lines are run: a test's, or those of a fixture that several share."""

    def __init__(self, watch: Any) -> None:
        self._watch = watch
        self._now = [IMPORTING]
        self._shared: dict[str, set[str]] = {}
        self._seconds: dict[str, float] = {}
        self._failed: set[str] = set()
        self._keeping: list[Any] = []

    def pytest_collection_finish(self, session: pytest.Session) -> None:
        self._keeping = [thing for thing in gc.get_objects() if _remembers(thing)]

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        for thing in self._keeping:
            thing.cache_clear()
        self._shared[item.nodeid] = set(_fixtures(item))
        start = _spent()
        self._enter(item.nodeid)
        result = yield
        self._leave()
        self._seconds[item.nodeid] = _spent() - start
        return result

    @pytest.hookimpl(wrapper=True)
    def pytest_fixture_setup(self, fixturedef: Any) -> Iterator[None]:
        if fixturedef.scope == "function":
            return (yield)
        self._enter(_fixture(fixturedef))
        try:
            return (yield)
        finally:
            self._leave()

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if not report.passed:
            self._failed.add(report.nodeid)
            if report.failed:
                print(f"left out, for it fails unbroken: {report.nodeid}", flush=True)

    def _enter(self, name: str) -> None:
        self._now.append(name)
        self._watch.switch_context(name)

    def _leave(self) -> None:
        self._now.pop()
        self._watch.switch_context(self._now[-1])

    def told(self, root: Path, data: Any) -> Reach:
        """What was seen, by test."""
        users: dict[str, set[str]] = defaultdict(set)
        for test, names in self._shared.items():
            if test not in self._failed:
                for name in {test, *names}:
                    users[name].add(test)
        reach = Reach({t: s for t, s in self._seconds.items() if t not in self._failed})
        for file in data.measured_files():
            name = Path(file).relative_to(root).as_posix()
            places = reach.lines.setdefault(name, {})
            for line, contexts in data.contexts_by_lineno(file).items():
                tests: set[str] = set().union(*(users.get(one, set()) for one in contexts))
                if tests:
                    places[line] = tests
                if IMPORTING in contexts:
                    reach.importing.setdefault(name, set()).add(line)
        return reach


def _remembers(thing: object) -> bool:
    """Whether this is a function of ours, or of the tests, that keeps its answers."""
    return (
        isinstance(thing, FunctionType | type(cache(int)))
        and (thing.__module__ or "").startswith(("cutwright.", "tests."))
        and hasattr(thing, "cache_clear")
    )


def _fixtures(item: pytest.Item) -> Iterator[str]:
    info: Any = getattr(item, "_fixtureinfo", None)
    for several in info.name2fixturedefs.values() if info else ():
        yield from (_fixture(one) for one in several if one.scope != "function")


def _fixture(one: Any) -> str:
    return f"fixture {one.baseid} {one.argname}"


def _spent() -> float:
    times = os.times()
    return times.user + times.system + times.children_user + times.children_system


def _written(reach: Reach) -> str:
    tests = sorted(reach.seconds)
    number = {test: n for n, test in enumerate(tests)}
    lines = {
        file: {str(line): sorted(number[t] for t in names) for line, names in places.items()}
        for file, places in reach.lines.items()
    }
    return json.dumps(
        {
            "tests": [[test, round(reach.seconds[test], 4)] for test in tests],
            "lines": lines,
            "importing": {file: sorted(lines) for file, lines in reach.importing.items()},
            "texts": reach.texts,
            "digests": reach.digests,
            "made": time.strftime("%Y-%m-%d %H:%M"),
        }
    )


def _read(file: Path) -> Reach:
    kept = json.loads(file.read_text("utf-8"))
    tests = [test for test, _seconds in kept["tests"]]
    return Reach(
        dict(kept["tests"]),
        {
            name: {int(line): {tests[n] for n in numbers} for line, numbers in places.items()}
            for name, places in kept["lines"].items()
        },
        {name: set(lines) for name, lines in kept["importing"].items()},
        kept["texts"],
        kept["digests"],
    )
