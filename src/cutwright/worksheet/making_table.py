"""Tasks of making on their table: what is done, to which pieces, and what it needs first."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from enum import StrEnum

from cutwright.checks.opening import Opening
from cutwright.pattern.edge import Ref
from cutwright.pattern.pattern import Pattern


class NotionRow(StrEnum):
    """What is needed beside the cloth: each has its row in the list of what to have ready."""

    INTERFACING = "interfacing"
    BIAS = "bias"
    ZIP = "zip"
    HOOK = "hook"
    THREAD = "thread"


@dataclass(frozen=True, slots=True)
class MakingTask:
    """One operation: the seams it sews (by their place in the pattern), the edges it finishes.

    `needs` holds the keys of tasks that come first; `place` is the place of its seam or opening;
    `cm` the length it works at, where it has one.
    """

    key: str
    kind: str
    seams: tuple[int, ...] = ()
    pieces: tuple[str, ...] = ()
    edges: tuple[Ref, ...] = ()
    needs: frozenset[str] = frozenset()
    place: int = -1
    cm: float = 0.0

    @property
    def notions(self) -> frozenset[NotionRow]:
        """What has to be at hand for it."""
        return NOTIONS.get(self.kind, frozenset())


NOTIONS: dict[str, frozenset[NotionRow]] = {
    "interface": frozenset({NotionRow.INTERFACING}),
    "bias": frozenset({NotionRow.BIAS}),
    "finish": frozenset({NotionRow.BIAS, NotionRow.THREAD}),
    "zip": frozenset({NotionRow.ZIP, NotionRow.THREAD}),
    "hook": frozenset({NotionRow.HOOK, NotionRow.THREAD}),
} | {
    kind: frozenset({NotionRow.THREAD})
    for kind in (
        "staystitch", "baste", "overcast", "darts", "pleats", "ends", "neaten", "hem flounce", "tie",
        "facing shoulder", "panel", "shoulder", "combined facing", "waist", "gather", "draw up", "centre",
        "armhole facing", "neck facing", "row neck", "facing centre", "side", "set in", "row waist",
        "row bound", "row", "finish round", "hem",
    )
}  # fmt: skip


@dataclass(slots=True)
class TaskTable:
    """All tasks by key, and which task sews each seam."""

    pattern: Pattern
    openings: tuple[Opening, ...]
    tasks: dict[str, MakingTask] = field(default_factory=dict)
    of_seam: dict[int, str] = field(default_factory=dict)

    def put(self, task: MakingTask) -> None:
        """Write a task down."""
        self.tasks[task.key] = task
        for seam in task.seams:
            self.of_seam[seam] = task.key

    def add(self, key: str, kind: str, seam: int, pieces: tuple[str, ...]) -> None:
        """Put a seam to the task of that key, made where there is none."""
        old = self.tasks.get(key, MakingTask(key, kind, place=seam))
        names = tuple(dict.fromkeys((*old.pieces, *pieces)))
        self.put(replace(old, seams=(*old.seams, seam), pieces=names))

    def needing(self, key: str, *needs: str) -> None:
        """Let a task need others, where they are there."""
        there = frozenset(n for n in needs if n in self.tasks and n != key)
        if key in self.tasks:
            self.tasks[key] = replace(self.tasks[key], needs=self.tasks[key].needs | there)
