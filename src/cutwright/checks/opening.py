"""An opening: a seam left open from its upper end down to where the zip ends."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import permutations

from cutwright.checks.case import Case
from cutwright.checks.chords import gap_to
from cutwright.checks.corner import Corner, corners, entered_at, left_at
from cutwright.geometry.path import nearest_distance
from cutwright.geometry.point import Point
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.piece import Mark, Piece
from cutwright.pattern.seam import SeamKind
from cutwright.pattern.sewing.rows import Row

_MOST = 20


@dataclass(frozen=True, slots=True)
class OpenStretch:
    """An open stretch of one edge; `below` is how much of the opening lies beneath it, cm.

    `closed_end` is the distance along the edge of its lower end; `up` is +1 where the edge runs
    upwards, else -1.
    """

    piece: str
    edge: Edge
    closed_end: float
    up: int
    below: float
    cm: float

    def reach(self, at: Point) -> float:
        """How far a place on this edge lies above the closed end of the opening, cm."""
        along = nearest_distance(self.edge.curves, at)
        return self.below + self.up * (along - self.closed_end)


@dataclass(frozen=True, slots=True)
class Opening:
    """An opening from its closed end upwards. `top` is the edge into which it runs out."""

    stretches: tuple[OpenStretch, ...]
    top: tuple[str, Edge] | None

    @property
    def cm(self) -> float:
        """Its whole length."""
        last = self.stretches[-1]
        return last.below + last.cm

    def reach(self, piece: str, edge: Edge | None, at: Point) -> float | None:
        """How far a place lies above the closed end (below: negative); None: not on this seam."""
        for stretch in self.stretches:
            if edge is not None and piece == stretch.piece and edge is stretch.edge:
                return stretch.reach(at)
        return None


def openings(case: Case) -> tuple[Opening, ...]:
    """Every opening that a zip end marks."""
    return tuple(
        opening
        for piece in case.pattern.pieces
        for mark in piece.marks
        if mark.kind is MarkKind.ZIP_END and mark.edge
        for opening in _opening(case, piece, mark)
    )


def _opening(case: Case, piece: Piece, mark: Mark) -> Iterator[Opening]:
    parts = [edge for edge in piece.edges if edge.answers_to(mark.edge or "")]
    if not parts:
        return
    edge = min(parts, key=lambda part: gap_to(part, [mark.at]))
    along = nearest_distance(edge.curves, mark.at)
    up = 1 if edge.end.imag < edge.start.imag else -1
    cm = edge.length - along if up > 0 else along
    stretches = [OpenStretch(piece.name, edge, along, up, 0.0, cm)]
    while len(stretches) < _MOST:
        last = stretches[-1]
        holder = case.pattern.piece(last.piece)
        corner = _upper(holder, last)
        beyond = corner.other(last.edge)
        above = (
            (holder, beyond) if beyond.name == edge.name else _over_seam(case, holder, last, beyond)
        )
        if above is None:
            yield Opening(tuple(stretches), (holder.name, beyond))
            return
        stretches.append(_whole(above, last))
    yield Opening(tuple(stretches), None)


def _upper(piece: Piece, stretch: OpenStretch) -> Corner:
    found = corners(piece)
    return found.ending(stretch.edge) if stretch.up > 0 else found.beginning(stretch.edge)


def _whole(above: tuple[Piece, Edge], last: OpenStretch) -> OpenStretch:
    piece, edge = above
    up = 1 if edge.end.imag < edge.start.imag else -1
    closed_end = 0.0 if up > 0 else edge.length
    return OpenStretch(piece.name, edge, closed_end, up, last.below + last.cm, edge.length)


def _over_seam(
    case: Case, piece: Piece, last: OpenStretch, crossed: Edge
) -> tuple[Piece, Edge] | None:
    """Where an opening goes on beyond a seam that it crosses; None where it runs out there."""
    if crossed.kind in (EdgeKind.NECKLINE, EdgeKind.ARMHOLE, EdgeKind.FREE, EdgeKind.HEM):
        return None
    for laid in case.seams:
        if laid.seam.kind in (SeamKind.FACING, SeamKind.WAISTBAND, SeamKind.BINDING):
            continue
        for row, other in permutations(laid.rows, 2):
            found = _opposite(row, other, piece, last, crossed)
            if found is not None and found[1].kind is last.edge.kind and found[0] is not piece:
                return found
    return None


def _opposite(
    row: Row, other: Row, piece: Piece, last: OpenStretch, crossed: Edge
) -> tuple[Piece, Edge] | None:
    for index, corner_of in ((0, entered_at), (-1, left_at)):
        walked = row[index]
        if walked.piece.name != piece.name or walked.edge.label != crossed.label:
            continue
        corner = corner_of(walked)
        if corner.other(walked.edge).label == last.edge.label:
            across = other[index]
            beyond = corner_of(across)
            return across.piece, beyond.other(across.edge)
    return None
