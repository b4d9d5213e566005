"""Edges that continue each other across a seam: hem into hem, neckline into neckline."""

from __future__ import annotations

from itertools import combinations

from cutwright.memo import memoised
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import Seam, Side

EdgeKey = tuple[str, str]
"""A piece and the label of one of its edges."""


def continued(pattern: Pattern) -> tuple[tuple[EdgeKey, EdgeKey], ...]:
    """Pairs of edges of one kind that meet where a seam sewn flat begins or ends.

    Together they are one edge of the garment, such as its hem.
    """
    return tuple(
        pair
        for seam in pattern.seams
        for pair in _at_ends(seam, *(pattern.piece(ref.piece) for ref in seam.refs))
    )


@memoised
def _at_ends(seam: Seam, *pieces: Piece) -> tuple[tuple[EdgeKey, EdgeKey], ...]:
    if not seam.on_one_level:
        return ()
    by_name = {piece.name: piece for piece in pieces}
    pairs = []
    for at_start in (True, False):
        ends = [_beyond(by_name, row, at_start) for row in seam.rows]
        pairs += [
            (a[0], b[0])
            for a, b in combinations(ends, 2)
            if a[1].kind is b[1].kind and a[1].kind is not EdgeKind.FOLD and a[0] != b[0]
        ]
    return tuple(pairs)


def _beyond(
    pieces: dict[str, Piece], row: tuple[Side, ...], at_start: bool
) -> tuple[EdgeKey, Edge]:
    """The edge that a row meets at one of its ends, darts passed over."""
    side = row[0] if at_start else row[-1]
    piece = pieces[side.ref.piece]
    parts = piece.edge_parts(side.ref.edge)
    forward = at_start == side.backwards  # leaving the row along the outline
    own = parts[-1] if forward else parts[0]
    edges = list(piece.outer_edges)
    place = edges.index(own)
    other = edges[(place + 1) % len(edges)] if forward else edges[place - 1]
    return (piece.name, other.label), other
