"""Break the program in small ways, one at a time, and see whether a test notices.

`python -m tools.mutants` draws breaks by chance (seeded) from the parts below, runs the tests of
that part against each, and prints how many were noticed and which were not. It stops when its
time is up, and says how far it came. The breaks are those of cosmic-ray.
"""

from __future__ import annotations

import argparse
import importlib
import importlib.machinery
import importlib.util
import json
import os
import random
import signal
import sys
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import CodeType, ModuleType
from typing import Any

from tools import mutants_sites
from tools.mutants_sites import Site

SOURCE = Path("src") / "cutwright"
KNOWN = Path("tests") / "mutants.json"
HEAVY = ("pytest", "numpy", "shapely", "pydantic", "hypothesis", "scipy.optimize", "babel")
"""Imported once, before the children fork; nothing of ours is among them."""

PARTS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "geometry": (("geometry",), ("geometry", "outside", "operations", "golden")),
    "pattern": (("pattern",), ("pattern", "operations", "steps", "golden", "outside", "checks")),
    "style": (("style",), ("style", "operations", "steps", "workshop")),
    "checks": (("checks",), ("checks", "operations", "outside")),
    "finish": (("finish",), ("finish", "checks", "packet", "paper")),
    "blocks": (("blocks",), ("blocks", "outside", "golden", "checks")),
    "lay": (("lay/verify.py",), ("lay",)),
    "book": (("book",), ("book",)),
}
"""For each part: what is broken (below the source), and the folders of tests that should notice."""


@dataclass(frozen=True)
class Outcome:
    """What became of one break: "killed", "survived" or "slow" (the tests did not end)."""

    part: str
    site: Site
    what: str


def main(arguments: Sequence[str] | None = None) -> int:
    """Draw, break, test, tell; 1 if fewer than the asked share were noticed."""
    asked = _asked(arguments)
    root = Path(__file__).resolve().parents[1]
    os.chdir(root)
    os.environ.setdefault("HYPOTHESIS_PROFILE", "ci")
    for name in HEAVY:
        importlib.import_module(name)
    end = time.monotonic() + asked.seconds
    return _told(list(_run(asked, root, end)), _known(), asked.least)


def _asked(arguments: Sequence[str] | None) -> argparse.Namespace:
    reader = argparse.ArgumentParser(prog="mutants", description=__doc__)
    reader.add_argument("--seconds", type=float, default=1800, help="when to stop")
    reader.add_argument("--each", type=int, default=40, help="breaks for each part")
    reader.add_argument("--seed", type=int, default=1)
    reader.add_argument("--patience", type=float, default=120, help="seconds for one break")
    reader.add_argument("--least", type=float, default=0.85, help="share that must be noticed")
    reader.add_argument("--part", action="append", choices=list(PARTS), help="only these parts")
    return reader.parse_args(arguments)


def _run(asked: argparse.Namespace, root: Path, end: float) -> Iterator[Outcome]:
    """The parts take turns, so that a short run sees something of each."""
    names = asked.part or list(PARTS)
    for name in names:
        _control(name, root, asked.patience)
    chosen = {name: _drawn(name, root, asked) for name in names}
    for turn in range(asked.each):
        for name in names:
            if time.monotonic() > end:
                print("time is up")
                return
            if turn < len(chosen[name]):
                outcome = _tried(name, chosen[name][turn], root, asked.patience)
                print(f"{outcome.what:9}{name:9}{outcome.site}", flush=True)
                yield outcome


def _drawn(part: str, root: Path, asked: argparse.Namespace) -> list[Site]:
    files = [
        file
        for name in PARTS[part][0]
        for file in (
            sorted((root / SOURCE / name).rglob("*.py"))
            if not name.endswith(".py")
            else [root / SOURCE / name]
        )
        if "migrations" not in file.parts
    ]
    sites = [site for file in files for site in mutants_sites.sites(root, file)]
    return random.Random(f"{asked.seed} {part}").sample(sites, min(asked.each, len(sites)))


def _control(part: str, root: Path, patience: float) -> None:
    """The same run with nothing broken must pass, else every break would look noticed."""
    site = _drawn(part, root, argparse.Namespace(seed=0, each=1))[0]
    code = _ran(part, site, (root / site.file).read_text("utf-8"), root, 10 * patience)
    if code != 0:
        raise SystemExit(f"the tests of {part} do not pass unbroken (exit {code})")


def _tried(part: str, site: Site, root: Path, patience: float) -> Outcome:
    code = _ran(part, site, mutants_sites.broken(root, site), root, patience)
    what = "slow" if code is None else ("survived" if code == 0 else "killed")
    return Outcome(part, site, what)


def _ran(part: str, site: Site, text: str, root: Path, patience: float) -> int | None:
    """Run the tests of a part in a child in which one module reads otherwise."""
    child = os.fork()
    if child == 0:
        os.setsid()
        _quiet()
        os._exit(_tests(part, site, text, root))
    return _waited(child, patience)


def _waited(child: int, patience: float) -> int | None:
    """The exit code of a child, or None when it was stopped for taking too long."""
    end = time.monotonic() + patience
    while time.monotonic() < end:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            return os.waitstatus_to_exitcode(status)
        time.sleep(0.05)
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return None


def _quiet() -> None:
    nothing = os.open(os.devnull, os.O_RDWR)
    for stream in (0, 1, 2):
        os.dup2(nothing, stream)


def _tests(part: str, site: Site, broken: str, root: Path) -> int:
    pytest: Any = importlib.import_module("pytest")
    sys.meta_path.insert(0, _Broken(site.module, root / site.file, broken))
    sys.path.insert(0, str(root / "src"))
    folders = [str(Path("tests") / name) for name in PARTS[part][1]]
    there = [folder for folder in folders if (root / folder).is_dir()]
    options = ["-x", "-q", "-p", "no:cacheprovider", "--assert=plain"]
    marks = ["-m", "not slow and not survey and not browser"]
    return int(pytest.main([*options, *marks, *there]))


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


def _known() -> dict[str, str]:
    """Breaks that no test can notice, with the reason: "file: old -> new" to words."""
    if not KNOWN.exists():
        return {}
    known: dict[str, str] = json.loads(KNOWN.read_text("utf-8"))
    return known


def _told(outcomes: Sequence[Outcome], known: dict[str, str], least: float) -> int:
    total = noticed = 0
    for part in dict.fromkeys(outcome.part for outcome in outcomes):
        mine = [o for o in outcomes if o.part == part and o.site.key not in known]
        alive = [o for o in mine if o.what == "survived"]
        total, noticed = total + len(mine), noticed + len(mine) - len(alive)
        print(f"{part}: {len(mine) - len(alive)} of {len(mine)} noticed")
        for outcome in alive:
            print(f"  {outcome.site}")
    excused = [o for o in outcomes if o.site.key in known]
    for outcome in excused:
        print(f"known: {outcome.site}: {known[outcome.site.key]}")
    share = noticed / total if total else 0.0
    print(f"all: {noticed} of {total} noticed, {100 * share:.1f} %")
    return 0 if share >= least else 1


if __name__ == "__main__":
    raise SystemExit(main())
