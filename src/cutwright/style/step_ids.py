"""A word of its own for every step of a style."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from cutwright.pattern.step_ref import StepRef
from cutwright.style.step import Step


def step_refs(steps: Sequence[Step]) -> tuple[StepRef, ...]:
    """The steps as seams and messages refer to them: "close_dart", "close_dart-2" and so on.

    The same first steps have the same ids, whatever follows.
    """
    seen: Counter[str] = Counter()
    out: list[StepRef] = []
    for number, step in enumerate(steps, 1):
        seen[step.do] += 1
        count = seen[step.do]
        word = step.do if count == 1 else f"{step.do}-{count}"
        out.append(StepRef(word, number, step.label))
    return tuple(out)
