"""How a side leans away from the grain of its piece: what flare does to it."""

from __future__ import annotations

from cutwright.geometry.path import path_length, point_at, reversed_path
from cutwright.geometry.point import angle_between, cross, dot
from cutwright.pattern.edge import Edge
from cutwright.pattern.piece import Piece


def lean(piece: Piece, edge: Edge) -> float:
    """The lean of the lower half of a side from the grain.

    "Lower" is towards the end that lies farther down the grain line. The half above the middle
    follows the hip and says nothing about flare.

    Parameters
    ----------
    piece : a half piece
    edge : its side

    Returns
    -------
    radians; outwards is positive
    """
    grain = piece.grain[1] - piece.grain[0]
    if grain.imag < 0:
        grain = -grain
    down = edge.curves if dot(grain, edge.end - edge.start) >= 0 else reversed_path(edge.curves)
    size = path_length(down)
    way = point_at(down, size) - point_at(down, size / 2)
    outwards = 1.0 if cross(grain, down[-1].end - piece.grain[0]) >= 0 else -1.0
    return angle_between(grain, way) * outwards
