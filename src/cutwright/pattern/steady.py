"""Drawn paper on a fine grid, so that paper drawn twice alike is the very same paper.

Where a hem is lengthened, the neckline above it is worked out by other sums and differs by the rounding of the
machine. On the grid both are one, and what was made from the one holds for the other.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from cutwright.geometry.curve import Cubic, Curve, Line
from cutwright.geometry.point import Point
from cutwright.pattern.edge import Edge
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Diamond, Level, Mark, Piece

GRID = 1e10
"""Lines of the grid to a cm: far finer than anything that is drawn, measured or proved."""

_Next = Callable[[], Point]


def steadied(drawn: Pattern, before: Pattern) -> Pattern:
    """The pattern with every piece that was not there before on the grid.

    Parameters
    ----------
    drawn : the pattern as a step drew it
    before : the pattern that step began with; its pieces and edges stay as they are
    """
    known = set(map(id, before.pieces))
    edges = {id(edge) for piece in before.pieces for edge in piece.edges}
    new = [_on_grid(piece, edges) for piece in drawn.pieces if id(piece) not in known]
    return drawn.with_pieces(*new) if new else drawn


def _on_grid(piece: Piece, edges: set[int]) -> Piece:
    points: list[Point] = [*piece.grain]
    drawn = [edge for edge in piece.edges if id(edge) not in edges]
    points += [p for edge in drawn for curve in edge.curves for p in curve.controls]
    points += [p for dart in piece.darts for p in (dart.pivot, dart.tip)]
    points += [p for d in piece.diamonds for p in (d.top, d.bottom, d.near, d.far)]
    points += [
        p for mark in piece.marks for p in (mark.at, mark.at if mark.to is None else mark.to)
    ]
    points += [p for level in piece.levels for p in level.points]
    rounded = _rounded(points)
    if rounded == points:
        return piece
    each = iter(rounded).__next__
    return replace(
        piece,
        grain=(each(), each()),
        edges=tuple([edge if id(edge) in edges else _edge(edge, each) for edge in piece.edges]),
        darts=tuple([replace(dart, pivot=each(), tip=each()) for dart in piece.darts]),
        diamonds=tuple([_diamond(diamond, each) for diamond in piece.diamonds]),
        marks=tuple([_mark(mark, each(), each()) for mark in piece.marks]),
        levels=tuple([_level(level, each) for level in piece.levels]),
    )


def _rounded(points: Sequence[Point]) -> list[Point]:
    flat = np.array(points).view(np.float64)
    on_grid: list[Point] = (np.rint(flat * GRID) / GRID + 0.0).view(np.complex128).tolist()
    return on_grid


def _edge(edge: Edge, each: _Next) -> Edge:
    return edge.with_curves(tuple([_curve(curve, each) for curve in edge.curves]))


def _curve(curve: Curve, each: _Next) -> Curve:
    if isinstance(curve, Line):
        return Line(each(), each())
    return Cubic(each(), each(), each(), each())


def _mark(mark: Mark, at: Point, to: Point) -> Mark:
    return replace(mark, at=at, to=None if mark.to is None else to)


def _diamond(diamond: Diamond, each: _Next) -> Diamond:
    return replace(diamond, top=each(), bottom=each(), near=each(), far=each())


def _level(level: Level, each: _Next) -> Level:
    return replace(level, points=tuple([each() for _point in level.points]))
