"""Outlines that cross over themselves: where they do, named by the corner next to it."""

from __future__ import annotations

from cutwright.geometry.outline import is_plain, polygon
from cutwright.memo import memoised
from cutwright.pattern.piece import Piece

_FLAT = 0.01


@memoised
def crossed_at(piece: Piece) -> str | None:
    """The corner next to a crossing of the outline, as "hem / side"; None where the outline is sound."""
    return None if piece.area > 0 and is_plain(piece.outline) else crossing_of(piece)


def crossing_of(piece: Piece) -> str | None:
    """The corner of the stitch line next to where it crosses itself, as "hem / side", or None."""
    from shapely.validation import explain_validity

    shape = polygon(piece.outline, _FLAT)
    if shape.is_valid:
        return None
    words = explain_validity(shape)
    at = words[words.find("[") + 1 : words.find("]")].split()
    place = complex(float(at[0]), float(at[1])) if len(at) == 2 else piece.edges[0].end
    pairs = list(zip(piece.edges, (*piece.edges[1:], piece.edges[0]), strict=True))
    a, b = min(pairs, key=lambda pair: abs(pair[0].end - place))
    return f"{a.label} / {b.label}"
