"""Working styles on many measured bodies and counting what came of it."""

from __future__ import annotations

import os
import sys
import threading
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import asdict, dataclass, field
from multiprocessing import get_context
from multiprocessing.context import BaseContext
from typing import Any

from cutwright.blocks.measured_back import off_the_tape
from cutwright.body.card import BodyCard
from cutwright.body.resolve import resolve
from cutwright.checks.proof import BROKEN
from cutwright.errors import CutwrightError
from cutwright.finish.finished import FinishedPiece
from cutwright.style.document import Style, parse_style
from cutwright.unforeseen import UnforeseenError
from cutwright.workshop.gallery import know_all_steps
from cutwright.workshop.work import work

DEVIATIONS = {
    "seam-walk": "seam_cm",
    "edge-flow": "corner_degrees",
    "fold-square": "fold_degrees",
}
"""Lines of the proof whose largest deviation is kept, and what they are called here; beside them
"measured_back_cm" tells how far the draft, taped like a body, is from the body."""


@dataclass(frozen=True, slots=True)
class SurveyOutcome:
    """What came of one style on one body."""

    body: str
    drafted: bool = False
    proved: bool = False
    refused: str = ""
    crashed: str = ""
    faults: tuple[str, ...] = ()
    worst: dict[str, float] = field(default_factory=dict)


@dataclass(slots=True)
class SurveyTally:
    """Counts of one style over many bodies, and the largest deviation of each kind."""

    style: str
    bodies: int = 0
    drafted: int = 0
    proved: int = 0
    refused: int = 0
    crashed: int = 0
    reasons: Counter[str] = field(default_factory=Counter)
    faults: Counter[str] = field(default_factory=Counter)
    worst: dict[str, float] = field(default_factory=dict)

    def add(self, outcome: SurveyOutcome) -> None:
        """Count one more body."""
        self.bodies += 1
        self.drafted += outcome.drafted
        self.proved += outcome.proved
        self.refused += bool(outcome.refused)
        self.crashed += bool(outcome.crashed)
        if outcome.refused:
            self.reasons[outcome.refused] += 1
        if outcome.crashed:
            self.reasons[outcome.crashed] += 1
        self.faults.update(set(outcome.faults))
        for name, value in outcome.worst.items():
            self.worst[name] = max(value, self.worst.get(name, 0.0))

    def document(self) -> dict[str, Any]:
        """The counts as they are printed, one JSON line a style."""
        row = asdict(self)
        row["largest or least found"] = {
            name: round(value, 6) for name, value in self.worst.items()
        }
        row["reasons"] = dict(self.reasons.most_common(12))
        row["faults"] = dict(self.faults.most_common(12))
        return row


def _undrawn(_piece: FinishedPiece) -> None:
    """No drawing: nobody looks at one, and nothing that is counted depends on one."""


def survey_one(style: Style, card: BodyCard) -> SurveyOutcome:
    """Work one style on one body; nothing it does can stop the survey."""
    try:
        done = work(style, resolve(card), draw=_undrawn)
    except CutwrightError as fault:
        return SurveyOutcome(card.name, refused=str(fault))
    broken = [str(f.message) for f in done.proof.findings if f.code == BROKEN]
    if isinstance(done.trouble, UnforeseenError) or broken:
        return SurveyOutcome(
            card.name, crashed=" ".join([str(done.trouble or ""), *broken]).strip()
        )
    if done.trouble is not None:
        return SurveyOutcome(card.name, refused=str(done.trouble))
    worst: dict[str, float] = {}
    for row in done.proof.checked:
        name = DEVIATIONS.get(row.code)
        if name and row.worst is not None:
            worst[name] = max(worst.get(name, 0.0), abs(row.worst))
    for stage in done.replay.stages:
        for off in off_the_tape(stage.step, stage.before, stage.result, done.body):
            worst["measured_back_cm"] = max(worst.get("measured_back_cm", 0.0), abs(off.off))
    faults = tuple(f.code for f in done.faults)
    return SurveyOutcome(card.name, drafted=True, proved=not faults, faults=faults, worst=worst)


def survey(
    styles: Sequence[Style],
    cards: Iterable[BodyCard],
    workers: int | None = None,
    progress: Callable[[int], None] = lambda _done: None,
) -> list[SurveyTally]:
    """Work every style on every body, on several processes, and count.

    `progress` is told after each handful how many works are done.
    """
    every = list(cards)
    tallies = [SurveyTally(style.name) for style in styles]
    jobs = [
        (i, style.document(), every[k : k + 16])
        for i, style in enumerate(styles)
        for k in range(0, len(every), 16)
    ]
    count = workers or os.cpu_count() or 1
    done = 0
    for index, outcomes in _results(jobs, count):
        for outcome in outcomes:
            tallies[index].add(outcome)
        done += len(outcomes)
        progress(done)
    return tallies


_Job = tuple[int, dict[str, Any], list[BodyCard]]


def _results(jobs: list[_Job], count: int) -> Iterable[tuple[int, list[SurveyOutcome]]]:
    if count <= 1:
        yield from map(_chunk, jobs)
        return
    from concurrent.futures import ProcessPoolExecutor

    with ProcessPoolExecutor(count, mp_context=_processes()) as pool:
        yield from pool.map(_chunk, jobs)


def _processes() -> BaseContext:
    """How workers start: as copies of this process, which has everything loaded, where that is safe."""
    alone = sys.platform == "linux" and threading.active_count() == 1
    return get_context("fork" if alone else "spawn")


def _chunk(job: _Job) -> tuple[int, list[SurveyOutcome]]:
    index, document, cards = job
    know_all_steps()
    style = parse_style(document)
    return index, [survey_one(style, card) for card in cards]
