"""The letter to the cutting room: each sentence as it is shown, with its arithmetic."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from zlib import crc32

from cutwright.desk.style.controls import Control, SentencePart, controls_of, finer_points
from cutwright.desk.style.history import dart_names
from cutwright.desk.style.laid_out import LaidOut
from cutwright.desk.web.pages import fragment
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Finding
from cutwright.pattern.sum import Figure
from cutwright.style.replay import Stage
from cutwright.style.step import Step
from cutwright.unforeseen import foreseen
from cutwright.wording.figures import how, much, what
from cutwright.wording.message_text import message_text
from cutwright.wording.reasons import explained
from cutwright.wording.sentences import sentence as words_of


@dataclass(frozen=True, slots=True)
class SentenceLine:
    """One sentence of the letter."""

    index: int
    last: bool
    step: Step
    parts: tuple[SentencePart, ...]
    more: tuple[Control, ...]
    figures: tuple[Figure, ...]
    doubts: tuple[Finding, ...]
    trouble: str
    waits: bool

    @property
    def help(self) -> str:
        """Why and how, in the language in force."""
        return explained(type(self.step))

    @property
    def sums(self) -> list[tuple[str, str, str]]:
        """What was measured or worked out, how much it is, and how it came about."""
        return [(what(f), much(f), how(f)) for f in self.figures]

    @property
    def plain(self) -> str:
        """The whole sentence as text."""
        return words_of(self.step)


class BareLine(SentenceLine):
    """A sentence of which no more than its name can be told."""

    @property
    def plain(self) -> str:
        """The name alone."""
        return self.step.label


def lines(laid: LaidOut) -> list[SentenceLine]:
    """Every sentence of a style with what came of it."""
    stages = laid.replay.stages
    steps = laid.style.steps
    return [
        _line(index, step, stages[index] if index < len(stages) else None, laid)
        for index, step in enumerate(steps)
    ]


def _line(index: int, step: Step, stage: Stage | None, laid: LaidOut) -> SentenceLine:
    before: Pattern = stage.before if stage else laid.replay.pattern
    stopped = laid.replay.stopped_at
    trouble = laid.replay.trouble if stopped == index else None
    return SentenceLine(
        index,
        index == len(laid.style.steps) - 1,
        step,
        tuple(controls_of(step, before)),
        tuple(finer_points(step, before)),
        stage.result.figures if stage else (),
        stage.result.findings if stage else (),
        message_text(trouble) if trouble else "",
        stopped is not None and index > stopped,
    )


Key = tuple[object, ...]


class Sentences:
    """The letter as HTML, a sentence at a time, with what did not change taken over."""

    def __init__(self) -> None:
        self._known: dict[int, tuple[Key, str, str]] = {}

    def written(self, laid: LaidOut) -> list[tuple[str, str]]:
        """(mark, HTML) of each sentence; equal marks mean equal HTML."""
        stages: Sequence[Stage] = laid.replay.stages
        last = len(laid.style.steps) - 1
        out: list[tuple[str, str]] = []
        for index, step in enumerate(laid.style.steps):
            stage = stages[index] if index < len(stages) else None
            key = _key(step, stage, index == last) if stage is not None else ()
            old = self._known.get(index)
            if old is not None and stage is not None and old[0] == key:
                out.append(old[1:])
                continue
            html = _written(index, step, stage, laid)
            mark = f"{crc32(html.encode()):08x}"
            if stage is not None:
                self._known[index] = (key, mark, html)
            out.append((mark, html))
        return out


def _written(index: int, step: Step, stage: Stage | None, laid: LaidOut) -> str:
    """The HTML of one sentence; one that cannot be told stands there by its name, so that it can be taken out."""
    try:
        return fragment("sentence.html", line=_line(index, step, stage, laid))
    except Exception as fault:
        last = index == len(laid.style.steps) - 1
        bare = SentencePart(step.label)
        line = BareLine(index, last, step, (bare,), (), (), (), str(foreseen(fault)), False)
        return fragment("sentence.html", line=line)


def _key(step: Step, stage: Stage, last: bool) -> Key:
    """Everything the HTML of a sentence is made from: itself, its sums, and the names to choose from."""
    names = tuple(
        (piece.name, tuple((e.name, e.kind) for e in piece.edges), tuple(dart_names(piece)))
        for piece in stage.before.pieces
    )
    return (step, last, stage.result.figures, stage.result.findings, names)
