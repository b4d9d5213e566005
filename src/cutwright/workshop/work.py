"""A style worked on a body: the paper, ready to cut, with its proof."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.body.body import Body
from cutwright.body.plausibility import check
from cutwright.checks.proof import Proof, prove
from cutwright.drawing.piece import draw_piece
from cutwright.drawing.primitives import Drawing
from cutwright.errors import CutwrightError, GeometryError
from cutwright.finish.finished import FinishedPattern, finish
from cutwright.finish.options import FinishOptions
from cutwright.keep import once
from cutwright.pattern.result import Finding
from cutwright.style.document import Style
from cutwright.style.replay import Replay, replay


@dataclass(frozen=True, slots=True)
class Work:
    """What came of a style on a body.

    `replay` holds every step done; where a step could not be done, `trouble` says why and the
    paper is as it lay before that step.
    """

    style: Style
    body: Body
    replay: Replay
    finished: FinishedPattern
    proof: Proof
    trouble: CutwrightError | None = None

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
        return tuple(f for f in self.findings if f.level == "fault")

    def drawings(self) -> tuple[tuple[str, Drawing], ...]:
        """Every finished piece as it is drawn, by name."""
        return tuple((piece.name, draw_piece(piece)) for piece in self.finished.pieces)


def work(
    style: Style, body: Body, options: FinishOptions | None = None, earlier: Work | None = None
) -> Work:
    """Work a style on a body. With an earlier work on the same body, what did not change is kept.

    Trouble in a step does not raise: the work stops there and tells.
    """
    done = replay(style.steps, body, earlier.replay if earlier else None)
    options = options or FinishOptions(garment=style.name, who=body.name)
    trouble = done.trouble
    try:
        finished = finish(done.pattern, options)
    except GeometryError as fault:
        finished, trouble = FinishedPattern(done.pattern, ()), trouble or fault
    proof = prove(finished.pattern, body, done.figures, done.stages, allowances=finished.allowances)
    return Work(style, body, done, finished, proof, trouble)


@once
def body_findings(*, body: Body) -> tuple[Finding, ...]:
    """Measures that do not look right, and those that ask to be taped."""
    doubts = tuple(
        Finding("measure-doubtful", "warning", doubt.measure, doubt.text, body.value(doubt.measure))
        for doubt in check(body)
    )
    notes = tuple(
        Finding("measure-estimated", "note", note.measure, note.text) for note in body.notes
    )
    return doubts + notes
