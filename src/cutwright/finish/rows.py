"""A row of edges on one side of a seam, walked from its beginning, with places found on it."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.geometry.path import point_at
from cutwright.geometry.point import Point
from cutwright.pattern.edge import Edge
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import Seam, Side


@dataclass(frozen=True, slots=True)
class Stretch:
    """One edge of a row: where it begins on the row, how long it is and which way it is walked."""

    piece: Piece
    edge: Edge
    backwards: bool
    begin: float
    length: float

    @property
    def end(self) -> float:
        """Where it ends on the row, cm."""
        return self.begin + self.length


@dataclass(frozen=True, slots=True)
class Row:
    """The edges of one side of a seam in the order in which they are sewn."""

    stretches: tuple[Stretch, ...]
    times: tuple[int, ...]

    @property
    def length(self) -> float:
        """Length of the row walked once, cm."""
        return self.stretches[-1].end if self.stretches else 0.0

    @property
    def joints(self) -> tuple[float, ...]:
        """Distances at which one edge follows another (the mouths of closed darts left out)."""
        return tuple(
            after.begin
            for before, after in zip(self.stretches, self.stretches[1:], strict=False)
            if before.piece is not after.piece or before.edge.name != after.edge.name
        )

    def place(self, distance: float) -> tuple[Stretch, float, Point]:
        """The edge at a distance along the row, the distance in its own direction, the point."""
        stretch = next((s for s in self.stretches if distance <= s.end), self.stretches[-1])
        along = min(max(distance - stretch.begin, 0.0), stretch.length)
        own = stretch.length - along if stretch.backwards else along
        return stretch, own, point_at(stretch.edge.curves, own)


def rows_of(pattern: Pattern, seam: Seam) -> tuple[Row, Row]:
    """Both rows of a seam; raises LookupFailed where an edge is not there."""
    ta, tb = pattern.times(seam)
    return _row(pattern, seam.a, ta), _row(pattern, seam.b, tb)


def _row(pattern: Pattern, sides: tuple[Side, ...], times: list[int]) -> Row:
    stretches: list[Stretch] = []
    counts: list[int] = []
    walked = 0.0
    for side, count in zip(sides, times, strict=True):
        piece = pattern.piece(side.ref.piece)
        parts = piece.edge_parts(side.ref.edge)
        for edge in reversed(parts) if side.backwards else parts:
            size = edge.length
            stretches.append(Stretch(piece, edge, side.backwards, walked, size))
            counts.append(count)
            walked += size
    return Row(tuple(stretches), tuple(counts))
