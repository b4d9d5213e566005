"""The tape: how far it is between two places of a piece, straight across and along an edge."""

from __future__ import annotations

from math import isfinite

from pydantic import BaseModel

from cutwright.desk.style.laid_out import LaidOut
from cutwright.drawing.svg import path_data
from cutwright.errors import StepError
from cutwright.geometry.path import (
    between_distances,
    distance_from,
    nearest_distance,
    path_length,
    point_at,
)
from cutwright.pattern.edge import Edge
from cutwright.pattern.piece import Piece
from cutwright.wording.names import name_text
from cutwright.words import _

REACH = 1.5
"""How near to an edge a place counts as on it, cm."""
_FARTHEST = 2000.0


class Span(BaseModel):
    """What the tape says, cm; `along` and `path` only where both places lie on one edge."""

    across: float
    start: tuple[float, float]
    end: tuple[float, float]
    along: float | None = None
    edge: str = ""
    path: str = ""


def span(laid: LaidOut, piece_name: str, a: complex, b: complex) -> Span:
    """Lay the tape on a piece from `a` to `b`; places near an edge are taken to be on it."""
    for place in (a, b):
        if not (isfinite(place.real) and isfinite(place.imag)) or abs(place) > _FARTHEST:
            raise StepError(_("The tape does not reach that far."))
    piece = laid.finished.pattern.piece(piece_name)
    edge = _shared_edge(piece, a, b)
    if edge is None:
        return Span(across=round(abs(b - a), 2), start=_pair(a), end=_pair(b))
    start, end = (nearest_distance(edge.curves, p) for p in (a, b))
    low, high = sorted((start, end))
    a, b = point_at(edge.curves, start), point_at(edge.curves, end)
    return Span(
        across=round(abs(b - a), 2),
        start=_pair(a),
        end=_pair(b),
        along=round(min(high, path_length(edge.curves)) - low, 2),
        edge=name_text(edge.label),
        path=path_data(between_distances(edge.curves, low, high)),
    )


def _shared_edge(piece: Piece, a: complex, b: complex) -> Edge | None:
    """The edge both places lie on, if there is one."""
    near = [
        (distance_from(e.curves, a) + distance_from(e.curves, b), n)
        for n, e in enumerate(piece.edges)
        if distance_from(e.curves, a) < REACH and distance_from(e.curves, b) < REACH
    ]
    return piece.edges[min(near)[1]] if near else None


def _pair(p: complex) -> tuple[float, float]:
    return round(p.real, 3), round(p.imag, 3)
