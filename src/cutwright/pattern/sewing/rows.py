"""A seam as it is laid on the table: a row of edges for each layer, in the order in which they are sewn."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from cutwright.geometry.path import point_at
from cutwright.geometry.point import Point
from cutwright.memo import memoised
from cutwright.pattern.edge import Edge
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import Seam, Side


@dataclass(frozen=True, slots=True)
class Stretch:
    """One edge of a row: which way it is walked, where it begins on the row, how long it is.

    Parameters
    ----------
    backwards : whether it is walked against the outline
    times : how often it counts when the seam is looked at once
    begin, length : cm along the row
    strand : where a seam is sewn at several places, to which of them it belongs; 0: to each
    """

    piece: Piece
    edge: Edge
    backwards: bool
    times: int = 1
    begin: float = 0.0
    length: float = 0.0
    strand: int = 0

    @property
    def key(self) -> tuple[str, int]:
        """Which edge of which piece this is."""
        return self.piece.name, id(self.edge)

    @property
    def sewn(self) -> float:
        """Its length with pleats and tucks folded, cm."""
        return self.piece.sewn(self.edge)

    @property
    def label(self) -> str:
        """A name for messages: `front: side`."""
        return f"{self.piece.name}: {self.edge.label}"

    @property
    def end(self) -> float:
        """Where it ends on the row, cm."""
        return self.begin + self.length

    def own(self, along: float) -> float:
        """The distance from where the edge starts, for a distance walked on this stretch, or back.

        Parameters
        ----------
        along : from where the stretch begins, cm; for the way back from where the edge starts

        Returns
        -------
        cm
        """
        return self.length - along if self.backwards else along

    def point(self, along: float) -> Point:
        """The place after a distance walked on this stretch.

        Parameters
        ----------
        along : from where the stretch begins, cm; beyond an end the end counts

        Returns
        -------
        the place on the paper, cm
        """
        return point_at(self.edge.curves, self.own(min(max(along, 0.0), self.length)))


@dataclass(frozen=True, slots=True)
class Row:
    """The edges of one layer of a seam in the order in which they are sewn, all their parts."""

    stretches: tuple[Stretch, ...]

    def __iter__(self) -> Iterator[Stretch]:
        """Walk the row."""
        return iter(self.stretches)

    def __getitem__(self, index: int) -> Stretch:
        """One edge of the row."""
        return self.stretches[index]

    @property
    def length(self) -> float:
        """Length of the row walked once, cm."""
        return self.stretches[-1].end if self.stretches else 0.0

    @property
    def whole(self) -> float:
        """Length of the row when the seam is looked at once, every edge as often as it counts, cm."""
        return sum(s.times * s.sewn for s in self.stretches)


@memoised
def rows_of_pieces(seam: Seam, *pieces: Piece) -> tuple[Row, ...]:
    """The row of each layer of a seam.

    Parameters
    ----------
    seam : the seam
    pieces : those of its edges, in any order; one may be given more than once

    Returns
    -------
    one row for each layer

    Raises
    ------
    LookupFailed : an edge of the seam is not there
    """
    pattern = Pattern(tuple({piece.name: piece for piece in pieces}.values()), (seam,))
    rows = zip(seam.rows, pattern.times(seam), strict=True)
    return tuple(walked(pattern, row, times) for row, times in rows)


def rows_of(pattern: Pattern, seam: Seam) -> tuple[Row, ...]:
    """The row of each layer of a seam, the very same for as long as its pieces are.

    Parameters
    ----------
    pattern : the pattern the seam is in
    seam : one of its seams

    Returns
    -------
    one row for each layer

    Raises
    ------
    LookupFailed : an edge of the seam is not there
    """
    return rows_of_pieces(seam, *(pattern.piece(ref.piece) for ref in seam.refs))


def walked(pattern: Pattern, sides: tuple[Side, ...], times: list[int]) -> Row:
    """Some edges walked one after the other, with every living part.

    Parameters
    ----------
    pattern : the pattern they are in
    sides : the edges, and which way each is walked
    times : for each how often it counts

    Returns
    -------
    the row, begun at 0 cm

    Raises
    ------
    LookupFailed : an edge is not there
    """
    stretches: list[Stretch] = []
    done = 0.0
    for side, count in zip(sides, times, strict=True):
        piece = pattern.piece(side.ref.piece)
        parts = piece.edge_parts(side.ref.edge)
        for edge in parts[::-1] if side.backwards else parts:
            size = edge.length
            stretches.append(Stretch(piece, edge, side.backwards, count, done, size, side.strand))
            done += size
    return Row(tuple(stretches))
