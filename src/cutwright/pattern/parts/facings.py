"""Which pieces finish an edge on the inside.

Everything is read from roles and seams, never from a name.
"""

from __future__ import annotations

from cutwright.memo import memoised
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.role import Role
from cutwright.pattern.seam import LayerPart


def is_band(piece: Piece) -> bool:
    """Whether a piece is a waistband or its facing."""
    return piece.role is Role.WAISTBAND


@memoised
def facings(pattern: Pattern) -> frozenset[str]:
    """The names of the pieces that finish an edge on the inside."""
    return frozenset(
        ref.piece
        for seam in pattern.seams
        for ref in seam.refs_of(LayerPart.FACING)
        if not is_band(pattern.piece(ref.piece))
    )
