"""Break the program in small ways, one at a time, and see whether a test notices.

`python -m tools.mutants` draws breaks by chance (seeded) from the parts below, runs against each the
tests that reach its line, the quickest first, and prints for each part how many were noticed and
which were not. It stops when its time is up, and says how far it came. The breaks are those of
cosmic-ray.
"""

from __future__ import annotations

import argparse
import importlib
import json
import os
import random
import shutil
import tempfile
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from tools.mutants import sites
from tools.mutants.live import ELSEWHERE, SURVIVED, Server, Verdict, with_fresh_import
from tools.mutants.reach import SOURCE, Reach, found, test_files
from tools.mutants.sites import Break, Site

KNOWN = Path("tests") / "mutants.json"
LAST = Path("out") / "mutants" / "survivors.json"
HEAVY = ("pytest", "numpy", "shapely", "pydantic", "hypothesis", "scipy.optimize", "babel")
"""Imported once, before the children fork; nothing of ours is among them."""
PARTS = ("geometry", "pattern", "style", "checks", "finish", "blocks", "lay/verify.py", "book")
"""What is broken: files and folders below the source, with all that stands below them."""
CLOCK = 600.0
"""Seconds on the clock for one break, should its tests wait for something that never comes."""


@dataclass(frozen=True)
class Outcome:
    """What became of one break: "killed", "survived", "endless" (a test did not end), "unreached"."""

    part: str
    change: Break
    what: str
    by: str
    """The test that noticed."""

    @property
    def alive(self) -> bool:
        """Whether no test noticed."""
        return self.what in ("survived", "unreached")


class Trial:
    """Tries breaks of this tree one after the other."""

    def __init__(self, root: Path, reach: Reach, budget: float) -> None:
        self._root, self._reach, self._budget = root, reach, budget
        self._server = Server(root, test_files(root), reach.seconds)
        self._sound: set[str] = set()

    def outcome(self, part: str, site: Site) -> Outcome:
        """Break the program there, run the tests that reach it; who fails must pass unbroken."""
        change = sites.broken(self._root, site)
        while True:
            verdict = self._verdict(change)
            if verdict not in self._reach.seconds or self._is_sound(verdict):
                return Outcome(part, change, _said(verdict), verdict or "")
            self._reach.leave_out(verdict)
            print(f"left out, for it fails unbroken: {verdict}", flush=True)

    def _is_sound(self, test: str) -> bool:
        if test not in self._sound and self._server.sound(test, CLOCK):
            self._sound.add(test)
        return test in self._sound

    def _verdict(self, change: Break) -> Verdict:
        site = change.site
        tests = self._reach.of_lines(site.file, site.lines)
        imported = not self._reach.importing.get(site.file, set()).isdisjoint(site.lines)
        verdict: Verdict = ELSEWHERE
        if tests and not imported:
            chosen = self._reach.quickest(tests, self._budget, _folder(site))
            verdict = self._server.tried(self._root / site.file, change.text, chosen, CLOCK)
        if verdict == ELSEWHERE and (tests or imported):
            verdict = self._imported_anew(change)
        return verdict

    def _imported_anew(self, change: Break) -> Verdict:
        site = change.site
        tests = set(self._reach.of_file(site.file))
        for file in _importers(self._root, site.module):
            tests |= self._reach.of_file(file)
        chosen = self._reach.quickest(tests, self._budget, _folder(site))
        if not chosen:
            return ELSEWHERE
        path, seconds = self._root / site.file, self._reach.seconds
        return with_fresh_import(self._root, site.module, path, change.text, chosen, seconds, CLOCK)

    def close(self) -> None:
        """End the child that holds the tests."""
        self._server.close()


def _folder(site: Site) -> str:
    """The folder of the program in which a break lies; its tests have one of that name."""
    return Path(site.file).relative_to(SOURCE).parts[0]


def _said(verdict: Verdict) -> str:
    known = {SURVIVED: "survived", ELSEWHERE: "unreached", None: "endless"}
    return known.get(verdict, "killed")


def main(arguments: Sequence[str] | None = None) -> int:
    """Draw, break, test, tell; 1 if fewer than the asked share were noticed in a part."""
    asked = _asked(arguments)
    root = Path(__file__).resolve().parents[2]
    os.chdir(root)
    os.environ["HYPOTHESIS_PROFILE"] = "ci"
    for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "NUMBA_NUM_THREADS"):
        os.environ[name] = "1"
    folder = tempfile.mkdtemp(prefix="mutants-")
    tempfile.tempdir = os.environ["TMPDIR"] = folder
    for name in HEAVY:
        importlib.import_module(name)
    try:
        reach = found(root, asked.anew)
        outcomes = list(_run(asked, root, reach))
    finally:
        shutil.rmtree(folder, ignore_errors=True)
    return _told(outcomes, _known(root), asked.least)


def _asked(arguments: Sequence[str] | None) -> argparse.Namespace:
    reader = argparse.ArgumentParser(prog="mutants", description=__doc__)
    reader.add_argument("--seconds", type=float, default=1800, help="when to stop")
    reader.add_argument("--each", type=int, default=40, help="breaks for each part")
    reader.add_argument("--seed", type=int, default=1)
    reader.add_argument("--budget", type=float, default=20, help="seconds of tests for one break")
    reader.add_argument("--least", type=float, default=0.85, help="share to be noticed in a part")
    reader.add_argument("--part", action="append", choices=PARTS, help="only these parts")
    reader.add_argument("--again", action="store_true", help="only what survived last time")
    reader.add_argument("--anew", action="store_true", help="see anew which test reaches what")
    return reader.parse_args(arguments)


def _run(asked: argparse.Namespace, root: Path, reach: Reach) -> Iterator[Outcome]:
    """The parts take turns, so that a short run sees something of each."""
    parts = asked.part or PARTS
    left = set(json.loads((root / LAST).read_text("utf-8"))) if asked.again else set()
    trial = Trial(root, reach, asked.budget)
    end = time.monotonic() + asked.seconds
    for part, site in _in_turns({part: _drawn(part, root, asked) for part in parts}):
        if asked.again and sites.broken(root, site).key not in left:
            continue
        if time.monotonic() > end:
            print("time is up")
            break
        outcome = trial.outcome(part, site)
        print(f"{outcome.what:10}{outcome.change}", flush=True)
        yield outcome
    trial.close()


def _in_turns(drawn: dict[str, list[Site]]) -> Iterator[tuple[str, Site]]:
    for turn in range(max(map(len, drawn.values()), default=0)):
        for part, mine in drawn.items():
            if turn < len(mine):
                yield part, mine[turn]


def _drawn(part: str, root: Path, asked: argparse.Namespace) -> list[Site]:
    place = root / SOURCE / part
    files = sorted(place.rglob("*.py")) if place.is_dir() else [place]
    sound = [file for file in files if "migrations" not in file.parts]
    every = [site for file in sound for site in sites.sites(root, file)]
    return random.Random(f"{asked.seed} {part}").sample(every, min(asked.each, len(every)))


def _importers(root: Path, module: str) -> Iterator[str]:
    """The files of the program that name a module."""
    name = module.rpartition(".")[2]
    for file in (root / SOURCE).rglob("*.py"):
        text = file.read_text("utf-8")
        if f"from {module} import" in text or (f"import {name}\n" in text and module in text):
            yield file.relative_to(root).as_posix()


def _known(root: Path) -> dict[str, str]:
    """Breaks that no test can notice, with the reason: "file: old -> new" to words."""
    known: dict[str, str] = json.loads((root / KNOWN).read_text("utf-8"))
    return known


def _told(outcomes: Sequence[Outcome], known: dict[str, str], least: float) -> int:
    """Print what each part comes to; keep the survivors for `--again`."""
    alive = [o for o in outcomes if o.alive and o.change.key not in known]
    excused = [o for o in outcomes if o.alive and o.change.key in known]
    LAST.parent.mkdir(parents=True, exist_ok=True)
    LAST.write_text(json.dumps([outcome.change.key for outcome in alive], indent=1), "utf-8")
    for outcome in excused:
        print(f"known: {outcome.change}: {known[outcome.change.key]}")
    for outcome in alive:
        print(f"{outcome.what}: {outcome.change}")
    print(f"{'part':16}{'breaks':>8}{'killed':>8}{'known':>8}{'alive':>8}")
    low = False
    for part in dict.fromkeys(outcome.part for outcome in outcomes):
        mine, left, out = (sum(o.part == part for o in some) for some in (outcomes, alive, excused))
        killed = mine - left - out
        share = killed / max(1, mine - out)
        low = low or share < least
        print(f"{part:16}{mine:8}{killed:8}{out:8}{left:8}  {100 * share:.1f} %")
    total, gone = len(outcomes), len(outcomes) - len(alive) - len(excused)
    print(f"{'all':16}{total:8}{gone:8}{len(excused):8}{len(alive):8}")
    return 1 if low else 0


if __name__ == "__main__":
    raise SystemExit(main())
