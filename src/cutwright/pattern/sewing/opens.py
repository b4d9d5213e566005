"""Where a seam is left open at its upper end for a zip."""

from __future__ import annotations

from cutwright.geometry.point import Point
from cutwright.pattern.edge import Edge, EdgeKind, parse_label
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece


def opens_at(pattern: Pattern, piece: Piece, edge: Edge, at: Point) -> bool:
    """Whether a zip leaves an edge of a piece open at its upper end, and `at` is that end.

    A zip in a centre may end in another piece, below a seam that it crosses.

    Parameters
    ----------
    pattern : the pattern the piece is in
    piece : one of its pieces
    edge : one of the edges of the piece
    at : an end of the edge, cm; the nearer end is meant

    Returns
    -------
    whether it is; y runs down, so that the upper end has the lesser y
    """
    other = edge.end if abs(edge.start - at) < abs(edge.end - at) else edge.start
    if at.imag >= other.imag:
        return False
    if edge.kind is not EdgeKind.CENTRE:
        return edge.name in _zipped(piece)
    return any(edge.name in pattern.ask(name, _zipped) for name in pattern.names)


def _zipped(piece: Piece) -> frozenset[str]:
    """The names of the edges at which a zip ends."""
    return frozenset(
        parse_label(mark.edge)[0]
        for mark in piece.marks
        if mark.kind is MarkKind.ZIP_END and mark.edge
    )
