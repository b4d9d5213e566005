"""Working a style on a body, step by step, reusing what did not change."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from cutwright.body.body import Body
from cutwright.errors import CutwrightError, StepError
from cutwright.messages import N_, Message, Typed
from cutwright.pattern.change import follow
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Finding, Result, Trace
from cutwright.pattern.shaping.crossed import crossed_at
from cutwright.pattern.step_ref import StepRef
from cutwright.pattern.sum import Figure
from cutwright.style.load import refuse_heavy, step_load
from cutwright.style.step import Step
from cutwright.style.step_ids import step_refs
from cutwright.unforeseen import UnforeseenError, foreseen

T = TypeVar("T")
MOST_STEPS = 200


@dataclass(frozen=True, slots=True)
class Stage:
    """One step done: the paper before, what came of it, and the word by which seams refer to it."""

    step: Step
    before: Pattern
    result: Result
    id: str = ""
    load: float = 0.0
    """The work of this step and all before it (`cutwright.style.load`)."""

    @property
    def after(self) -> Pattern:
        """The paper after the step."""
        return self.result.pattern


@dataclass(frozen=True, slots=True)
class Replay:
    """A style worked on a body: its stages in order, and the trouble that stopped it, if any."""

    body: Body
    stages: tuple[Stage, ...]
    trouble: CutwrightError | None = None
    stopped_at: int | None = None

    @property
    def pattern(self) -> Pattern:
        """The paper after the last step that could be done."""
        return self.stages[-1].after if self.stages else Pattern()

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All arithmetic in order."""
        return tuple(f for stage in self.stages for f in stage.result.figures)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Doubts that the steps themselves raised."""
        return tuple(f for stage in self.stages for f in stage.result.findings)

    def stopped(self, index: int, fault: CutwrightError) -> Replay:
        """The same work ended before one of its steps, which turned out to be at fault."""
        step = self.stages[index].step
        return replace(
            self,
            stages=self.stages[:index],
            trouble=placed_fault(fault, step, index),
            stopped_at=index,
        )

    @property
    def traces(self) -> tuple[tuple[Trace, ...], ...]:
        """What each step did, for pictures."""
        return tuple(stage.result.traces for stage in self.stages)


def replay(steps: Sequence[Step], body: Body, earlier: Replay | None = None) -> Replay:
    """Work the steps on a body; trouble stops the work and is kept, never half done.

    `earlier` is a replay whose first equal steps on the same body are taken over as they are. What
    a later step draws anew but just as it was is handed on as the earlier paper, so that whoever
    knows pieces by their identity need not look at it again.
    """
    stages: list[Stage] = []
    known = earlier.pattern if earlier else Pattern()
    if earlier is not None and earlier.body == body:
        for old, step in zip(earlier.stages, steps, strict=False):
            if old.step != step:
                break
            stages.append(old)
    refs = step_refs(steps)
    for index in range(len(stages), len(steps)):
        step = steps[index]
        try:
            stage = _do(step, refs[index], stages, body, known)
        except Exception as fault:  # whatever breaks is told at its sentence, and the rest lives on
            return Replay(body, tuple(stages), placed_fault(foreseen(fault), step, index), index)
        stages.append(stage)
    return Replay(body, tuple(stages))


def _do(step: Step, ref: StepRef, done: Sequence[Stage], body: Body, known: Pattern) -> Stage:
    pattern = done[-1].after if done else Pattern()
    if ref.number > MOST_STEPS:
        raise StepError(
            Message(
                "style-may-most-steps",
                N_("A style may have at most {most} steps."),
                most=MOST_STEPS,
            )
        )
    result = step.apply(pattern, body)
    load = (done[-1].load if done else 0.0) + step_load(pattern, result.pattern, result.traces)
    refuse_heavy(load, result.pattern)
    _refuse_crossed(result.pattern, pattern)
    followed = follow(pattern, result.pattern, result.change, ref)
    if known.pieces:
        followed = _same_paper(followed, known)
    figures, workings = (
        tuple(replace(f, step=ref.number) for f in row) for row in (result.figures, result.workings)
    )
    came = replace(result, pattern=followed, figures=figures, workings=workings)
    return Stage(step, pattern, came, ref.id, load)


def _refuse_crossed(after: Pattern, before: Pattern) -> None:
    """Refuse paper that overlaps itself: no step may leave an outline that crosses over."""
    known = set(map(id, before.pieces))
    for piece in after.pieces:
        corner = None if id(piece) in known else crossed_at(piece)
        if corner is not None:
            raise StepError(
                Message(
                    "outline-would-cross",
                    N_(
                        'The outline of "{piece}" would cross itself near the corner {corner}. Ask for less, or '
                        "choose other places."
                    ),
                    piece=piece.name,
                    corner=corner,
                )
            )


def _same_paper(pattern: Pattern, known: Pattern) -> Pattern:
    """The pattern with every piece and seam that equals a known one exchanged for that."""
    pieces = {piece.name: piece for piece in known.pieces}
    there = len(known.seams)
    return replace(
        pattern,
        pieces=tuple(_same(piece, pieces.get(piece.name, piece)) for piece in pattern.pieces),
        seams=(*map(_same, pattern.seams, known.seams), *pattern.seams[there:]),
    )


def _same(new: T, old: T) -> T:
    return old if new == old else new


def placed_fault(fault: CutwrightError, step: Step, index: int) -> CutwrightError:
    """A fault with the number and the name of the step it belongs to."""
    message = at_step(fault.message, step, index)
    if isinstance(fault, UnforeseenError):
        return UnforeseenError(fault.code, message)
    return StepError(message)


def at_step(message: Message, step: Step, index: int) -> Message:
    """A message with the number and the name of the step it belongs to."""
    text = N_("Step {number} ({step}): {text}")
    return Message("at-step", text, number=index + 1, step=Typed(step.label), text=message)
