"""Working a style on a body, step by step, reusing what did not change."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import zip_longest
from typing import TypeVar

from cutwright.body.body import Body
from cutwright.errors import CutwrightError, StepError
from cutwright.messages import N_, Message, Typed
from cutwright.pattern.change import follow
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.reading import ReadPattern, Reads, plain
from cutwright.pattern.result import Finding, Result, Trace
from cutwright.pattern.shaping.crossed import crossed_at
from cutwright.pattern.steady import steadied
from cutwright.pattern.step_ref import StepRef
from cutwright.pattern.sum import Figure
from cutwright.style.load import refuse_heavy, step_load
from cutwright.style.step import Step
from cutwright.style.step_ids import step_refs
from cutwright.unforeseen import UnforeseenError, foreseen

T = TypeVar("T")
MOST_STEPS = 200
_BARE = Pattern()
"""The table before the first step."""


@dataclass(frozen=True, slots=True)
class Stage:
    """One step done: the paper before, what came of it, and the word by which seams refer to it."""

    step: Step
    before: Pattern
    result: Result
    id: str = ""
    load: float = 0.0
    """The work of this step and all before it (`cutwright.style.load`)."""
    reads: Reads | None = field(default=None, compare=False, repr=False)
    """What the step read of the paper before."""
    kept: frozenset[str] = field(default=frozenset(), compare=False, repr=False)
    """The names of the pieces that it handed on as they lay."""
    done_as: Stage | None = field(default=None, compare=False, repr=False)
    """The stage of an earlier work whose outcome this one took over, all it read being the same."""

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
        return self.stages[-1].after if self.stages else _BARE

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

    With an `earlier` replay on the same body a step that reads nothing but what it read there is not
    done again: what it drew then is taken over. What a step draws anew but just as it was is handed on
    as the earlier paper, so that whoever knows pieces by their identity need not look at it again.
    """
    known = earlier.stages if earlier is not None else ()
    same_body = earlier is not None and earlier.body == body
    stages: list[Stage] = []
    for index, (step, ref) in enumerate(zip(steps, step_refs(steps), strict=True)):
        pattern = stages[-1].after if stages else _BARE
        load = stages[-1].load if stages else 0.0
        old = known[index] if index < len(known) else None
        try:
            stage = _taken_over(old, step, ref, pattern, load) if old and same_body else None
            if stage is None:
                stage = _same_paper(_do(step, ref, pattern, load, body), old, known)
        except Exception as fault:  # whatever breaks is told at its sentence, and the rest lives on
            return Replay(body, tuple(stages), placed_fault(foreseen(fault), step, index), index)
        stages.append(stage)
    return Replay(body, tuple(stages))


def _taken_over(
    old: Stage, step: Step, ref: StepRef, pattern: Pattern, load: float
) -> Stage | None:
    """What a step came to in an earlier work, on the paper of this one; None where it must be done."""
    if old.step != step or old.id != ref.id:
        return None
    if old.before is pattern:
        return old
    if old.reads is None or not old.reads.hold(pattern):
        return None
    after = old.after
    pieces = tuple(pattern.piece(p.name) if p.name in old.kept else p for p in after.pieces)
    result = replace(old.result, pattern=replace(after, pieces=pieces))
    load += step_load(pattern, result.pattern, result.traces)
    refuse_heavy(load, result.pattern)
    return replace(old, before=pattern, result=result, load=load, done_as=old.done_as or old)


def _do(step: Step, ref: StepRef, pattern: Pattern, load: float, body: Body) -> Stage:
    if ref.number > MOST_STEPS:
        raise StepError(
            Message(
                "style-may-most-steps",
                N_("A style may have at most {most} steps."),
                most=MOST_STEPS,
            )
        )
    paper, reads = ReadPattern.of(pattern)
    result = step.apply(paper, body)
    followed = plain(follow(paper, result.pattern, result.change, ref))
    kept = frozenset(piece.name for piece in followed.pieces if reads.gave(piece))
    followed = steadied(followed, pattern)
    load += step_load(pattern, followed, result.traces)
    refuse_heavy(load, followed)
    _refuse_crossed(followed, pattern)
    figures, workings = (
        tuple(replace(f, step=ref.number) for f in row) for row in (result.figures, result.workings)
    )
    came = replace(result, pattern=followed, figures=figures, workings=workings)
    return Stage(step, pattern, came, ref.id, load, reads, kept)


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


def _same_paper(stage: Stage, old: Stage | None, known: Sequence[Stage]) -> Stage:
    """The stage with every piece and seam that equals a known one exchanged for that.

    Known are the paper after the same step of an earlier work, and the paper after its last one.
    """
    if not known:
        return stage
    papers = [known[-1].after] if old is None or old is known[-1] else [old.after, known[-1].after]
    pieces = [{piece.name: piece for piece in paper.pieces} for paper in papers]
    seams = papers[0].seams
    after = stage.after
    same = Pattern(
        tuple(
            piece if piece.name in stage.kept else _same(piece, [p.get(piece.name) for p in pieces])
            for piece in after.pieces
        ),
        tuple(
            _same(seam, [each])
            for seam, each in zip_longest(after.seams, seams[: len(after.seams)])
        ),
        after.spent,
    )
    return replace(stage, result=replace(stage.result, pattern=same))


def _same(new: T, known: Sequence[T | None]) -> T:
    """The first known one that equals a new one, or the new one."""
    return next((old for old in known if old is not None and (old is new or old == new)), new)


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
