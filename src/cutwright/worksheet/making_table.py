"""Tasks of making on their table: what is done, to which pieces, and what it needs first."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from cutwright.checks.opening import Opening
from cutwright.pattern.edge import Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece


@dataclass(frozen=True, slots=True)
class Task:
    """One operation: the seams it sews (by their place in the pattern), the edges it finishes.

    `needs` holds the keys of tasks that come first.
    """

    key: str
    kind: str
    seams: tuple[int, ...] = ()
    pieces: tuple[str, ...] = ()
    edges: tuple[Ref, ...] = ()
    needs: frozenset[str] = frozenset()
    cm: float = 0.0


@dataclass(slots=True)
class Table:
    """All tasks by key, and which task sews each seam."""

    pattern: Pattern
    openings: tuple[Opening, ...]
    tasks: dict[str, Task] = field(default_factory=dict)
    of_seam: dict[int, str] = field(default_factory=dict)

    def put(self, task: Task) -> None:
        """Write a task down."""
        self.tasks[task.key] = task
        for seam in task.seams:
            self.of_seam[seam] = task.key

    def add(self, key: str, kind: str, seam: int, pieces: tuple[str, ...]) -> None:
        """Put a seam to the task of that key, made where there is none."""
        old = self.tasks.get(key, Task(key, kind))
        names = tuple(dict.fromkeys((*old.pieces, *pieces)))
        self.put(replace(old, seams=(*old.seams, seam), pieces=names))

    def needing(self, key: str, *needs: str) -> None:
        """Let a task need others, where they are there."""
        there = frozenset(n for n in needs if n in self.tasks and n != key)
        if key in self.tasks:
            self.tasks[key] = replace(self.tasks[key], needs=self.tasks[key].needs | there)


def is_facing(piece: Piece) -> bool:
    """Whether a piece finishes an edge on the inside."""
    return "facing" in f"{piece.role} {piece.name}".lower() and not is_band(piece)


def is_band(piece: Piece) -> bool:
    """Whether a piece is a waistband or a binding."""
    words = f"{piece.role} {piece.name}".lower()
    return "waistband" in words or "binding" in words


def stiffened(piece: Piece) -> bool:
    """Whether a piece is cut in interfacing as well."""
    return (is_facing(piece) or is_band(piece)) and piece.cut.material == "main"


def is_strip(piece: Piece) -> bool:
    """Whether a piece is a flounce or a strip that is sewn on by its top."""
    words = f"{piece.role} {piece.name}".lower()
    return any(word in words for word in ("flounce", "frill", "strip", "tier"))
