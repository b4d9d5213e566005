"""A seam as it is laid out on the table: two rows of edges in the order in which they are sewn."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.checks.corner import Corner, corners
from cutwright.pattern.edge import Edge
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import Seam, Side


@dataclass(frozen=True, slots=True)
class Walked:
    """One edge of a row; `backwards` when the seam runs against the outline."""

    piece: Piece
    edge: Edge
    backwards: bool
    times: int = 1

    @property
    def key(self) -> tuple[str, int]:
        """Which edge of which piece this is."""
        return self.piece.name, id(self.edge)

    @property
    def label(self) -> str:
        """A name for messages: `front: side`."""
        return f"{self.piece.name}: {self.edge.label}"

    def first(self) -> Corner:
        """The corner at which the row enters this edge."""
        found = corners(self.piece)
        return found.ending(self.edge) if self.backwards else found.beginning(self.edge)

    def last(self) -> Corner:
        """The corner at which the row leaves this edge."""
        found = corners(self.piece)
        return found.beginning(self.edge) if self.backwards else found.ending(self.edge)


Row = tuple[Walked, ...]


def rows_of(pattern: Pattern, seam: Seam) -> tuple[Row, Row]:
    """Both rows of a seam with every living part of their edges; raises LookupFailed."""
    ta, tb = pattern.times(seam)
    return _row(pattern, seam.a, ta), _row(pattern, seam.b, tb)


def _row(pattern: Pattern, sides: tuple[Side, ...], times: list[int]) -> Row:
    out: list[Walked] = []
    for side, count in zip(sides, times, strict=True):
        piece = pattern.piece(side.ref.piece)
        parts = piece.edge_parts(side.ref.edge)
        if side.backwards:
            parts = parts[::-1]
        out.extend(Walked(piece, edge, side.backwards, count) for edge in parts)
    return tuple(out)


def row_length(row: Row) -> float:
    """Length of a row when the seam is looked at once, cm."""
    return sum(walked.times * walked.edge.length for walked in row)
