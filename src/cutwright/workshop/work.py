"""A style worked on a body: the paper, ready to cut, with its proof."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from typing import TypeVar

from cutwright.body.body import Body
from cutwright.body.plausibility import check
from cutwright.checks.proof import BROKEN, Proof, prove
from cutwright.drawing.piece import draw_piece
from cutwright.drawing.primitives import Drawing
from cutwright.errors import CutwrightError
from cutwright.finish.finished import (
    CutPattern,
    FinishedPattern,
    FinishedPiece,
    cut_lines,
    finish,
)
from cutwright.finish.options import FinishOptions
from cutwright.memo import memoised
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Finding, Severity
from cutwright.style.document import Style
from cutwright.style.replay import Replay, at_step, replay
from cutwright.unforeseen import foreseen
from cutwright.wording.names import called


@dataclass(frozen=True)
class Work:
    """What came of a style on a body; the proof is worked out when it is first asked for.

    `replay` holds every step done. Where one could not be done, or where the paper it left cannot be
    made ready and drawn, the paper is as it lay before that step and `trouble` says why.
    """

    style: Style
    body: Body
    replay: Replay
    finished: FinishedPattern

    @property
    def pattern(self) -> Pattern:
        """The paper: every piece with its edges, and the seams, lengths in cm."""
        return self.finished.pattern

    @property
    def trouble(self) -> CutwrightError | None:
        """Why the work stopped, if it did."""
        return self.replay.trouble

    @cached_property
    def proof(self) -> Proof:
        """Every check of the pattern; one that breaks is a fault of the sentence that broke it."""
        proof = _proved(self.finished, self.replay)
        if not any(f.code == BROKEN for f in proof.findings):
            return proof
        return replace(proof, findings=tuple(self._at_sentence(f) for f in proof.findings))

    def _at_sentence(self, finding: Finding) -> Finding:
        """A check that broke, told with the number of the sentence since which it does."""
        if finding.code != BROKEN:
            return finding
        stages = self.replay.stages

        def breaks(count: int) -> bool:
            done = replace(self.replay, stages=stages[:count])
            found = _proved(finish(done.pattern), done).findings
            return any((f.code, f.where) == (BROKEN, finding.where) for f in found)

        index = _breaker(len(stages), breaks)
        return replace(finding, message=at_step(finding.message, stages[index].step, index))

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Everything doubtful or wrong: of the drafts and steps, of finishing, of the proof."""
        return (
            *self.proof.findings,
            *self.finished.findings,
            *self.replay.findings,
            *body_findings(body=self.body),
        )

    @property
    def faults(self) -> tuple[Finding, ...]:
        """What must be put right before cutting."""
        return tuple(f for f in self.findings if f.level == Severity.FAULT)

    def drawings(self) -> tuple[tuple[str, Drawing], ...]:
        """Every finished piece as it is drawn, by name."""
        return tuple((piece.name, draw_piece(piece)) for piece in self.finished.pieces)


Draw = Callable[[FinishedPiece], object]
"""How each piece is drawn; what it gives is remembered by whoever draws."""
T = TypeVar("T")


@dataclass(frozen=True)
class Sketch:
    """A work as far as its stitch and cut lines: what can be shown first while somebody changes a style."""

    style: Style
    options: FinishOptions
    replay: Replay
    cut: CutPattern

    def work(self, draw: Draw = draw_piece) -> Work:
        """The whole work: marks, words and all."""
        ready = _ready(self.replay, _finished(self.options, draw))
        return Work(self.style, self.replay.body, *ready)


def sketch(
    style: Style, body: Body, options: FinishOptions | None = None, earlier: Sketch | None = None
) -> Sketch:
    """Work a style on a body as far as its stitch and cut lines, keeping of an earlier one what did not change.

    Trouble does not raise: the work stops before the step it lies in, and tells.
    """
    options = options or finishing(style, body)
    done = replay(style.steps, body, earlier.replay if earlier else None)
    return Sketch(style, options, *_ready(done, lambda pattern: cut_lines(pattern, options)))


def work(
    style: Style,
    body: Body,
    options: FinishOptions | None = None,
    earlier: Work | None = None,
    draw: Draw = draw_piece,
) -> Work:
    """Work a style on a body. With an earlier work on the same body, what did not change is kept.

    Trouble does not raise: the work stops before the step it lies in, and tells.
    """
    options = options or finishing(style, body)
    done = replay(style.steps, body, earlier.replay if earlier else None)
    return Work(style, body, *_ready(done, _finished(options, draw)))


def _ready(done: Replay, make: Callable[[Pattern], T]) -> tuple[Replay, T]:
    """What is made of the paper after the last step; where that breaks, as it lay before the step at fault."""
    try:
        return done, make(done.pattern)
    except Exception as fault:
        if not done.stages:
            raise

        def breaks(count: int) -> bool:
            try:
                make(done.stages[count - 1].after)
            except Exception:
                return True
            return False

        index = _breaker(len(done.stages), breaks)
        return _ready(done.stopped(index, foreseen(fault)), make)


def _finished(options: FinishOptions, draw: Draw) -> Callable[[Pattern], FinishedPattern]:
    """Makes a pattern ready to cut, each piece drawn once."""

    def finished(pattern: Pattern) -> FinishedPattern:
        made = finish(pattern, options)
        for piece in made.pieces:
            draw(piece)
        return made

    return finished


def _proved(finished: FinishedPattern, done: Replay) -> Proof:
    """Every check of a finished pattern and of the steps it came from."""
    return prove(finished.pattern, done.body, done.stages, allowances=finished.allowances)


def _breaker(count: int, breaks: Callable[[int], bool]) -> int:
    """Which of the steps brought about what is broken after the last one, found by halving.

    `breaks` tells whether it is broken after so many steps.
    """
    whole, broken = 0, count
    while broken - whole > 1:
        middle = (whole + broken) // 2
        if breaks(middle):
            broken = middle
        else:
            whole = middle
    return broken - 1


def finishing(style: Style, body: Body, made: date | None = None) -> FinishOptions:
    """What is written on the pieces of a style for a body, in the language in force."""
    return FinishOptions(garment=called(style.name), who=called(body.name), made=made)


@memoised
def body_findings(*, body: Body) -> tuple[Finding, ...]:
    """Measures that do not look right, and those that ask to be taped."""
    doubts = tuple(
        Finding(
            "measure-doubtful",
            Severity.WARNING,
            doubt.measure,
            doubt.message,
            body.value(doubt.measure),
        )
        for doubt in check(body)
    )
    notes = tuple(
        Finding(
            "measure-estimated",
            Severity.NOTE,
            note.measure,
            note.message,
        )
        for note in body.notes
    )
    return doubts + notes
