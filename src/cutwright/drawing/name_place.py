"""Where the name of a piece stands on it: near its middle, clear of darts and other lines where there is room."""

from __future__ import annotations

from collections.abc import Sequence

from shapely import maximum_inscribed_circle

from cutwright.finish.grain import WORDS_CLEAR, dart_lines, paper_room
from cutwright.geometry.outline import polygon
from cutwright.geometry.point import Point
from cutwright.pattern.piece import Piece

_SHARES = (1.0, 0.85, 0.7, 0.55, 0.4)
"""Where a name finds no room, room for this share of it is looked for."""
_LEAST = 0.7
"""A name that would have to be smaller than this share lies over lines, but over no dart."""


def name_place(
    piece: Piece, wide: float, high: float, lines: Sequence[Sequence[Point]] = ()
) -> tuple[Point, float]:
    """Where the name stands, and how much of its size finds room there.

    Parameters
    ----------
    piece : the piece
    wide, high : of the name, cm
    lines : what else the name should stay clear of, as polylines, cm

    Returns
    -------
    the middle of the name, cm, and the share of its size that is clear there, at most 1
    """
    ring = polygon(piece.outline, 0.5)
    wish = complex(*ring.centroid.coords[0])
    paper = paper_room(piece)
    past_darts = paper.without(dart_lines(piece), WORDS_CLEAR)
    clear = past_darts.without(lines, WORDS_CLEAR)
    for room, least in ((clear, _LEAST), (past_darts, 0.0), (paper, 0.0)):
        for share in (s for s in _SHARES if s >= least):
            if (middle := room.fits(wide * share, high * share, wish)) is not None:
                return middle, share
    return complex(*maximum_inscribed_circle(ring, 0.5).coords[0]), _SHARES[-1]
