"""Redrawing an edge smooth after the paper was cut and moved."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from cutwright.errors import GeometryError
from cutwright.geometry.curve import Line, curve_length
from cutwright.geometry.draw import corner_arc, hermite, smooth_through
from cutwright.geometry.move import Move
from cutwright.geometry.path import (
    Path,
    direction_at,
    end_direction,
    moved_path,
    path_length,
    point_at,
    start_direction,
)
from cutwright.geometry.point import Point, angle_between, unit
from cutwright.geometry.solve import root_within
from cutwright.pattern.cutting.strips import Strip
from cutwright.pattern.edge import Edge

BOW = 0.62
"""Handle share of a trued hem or waist (own method, docs/how-it-works.md)."""
_FLATTEST, _FULLEST = 0.45, 0.85
_MOST_BOW = 2.2  # radians


def bow(
    start: Point, leaving: Point, end: Point, arriving: Point, target: float | None = None
) -> Path:
    """One smooth curve between two square ends; its fullness is chosen to meet a length if it can.

    Falls back on a gentle curve where the two tangents do not meet ahead.

    Parameters
    ----------
    start, end : places, cm
    leaving, arriving : directions of travel there, of any length
    target : the length wished, cm; None for the usual fullness

    Returns
    -------
    a chain of one curve; it has the length only where a fullness from 0.45 to 0.85 gives it
    """
    try:
        plain = corner_arc(start, leaving, end, arriving, BOW)
    except GeometryError:
        return (hermite(start, leaving, end, arriving),)
    if target is None:
        return (plain,)

    def miss(k: float) -> float:
        return curve_length(corner_arc(start, leaving, end, arriving, k)) - target

    fullness = root_within(miss, _FLATTEST, _FULLEST, 1e-10)
    if fullness is None:
        return (plain,)
    return (corner_arc(start, leaving, end, arriving, fullness),)


def trued_far(
    edge: Edge, strips: Sequence[Strip], moves: Sequence[Move], size: float | None = None
) -> Edge:
    """The opened edge through the middle of every inner strip's own stretch, its ends as they are.

    With no inner strip it becomes one bow.

    Parameters
    ----------
    edge : the edge after the move, gaps bridged
    strips, moves : the paper taken apart, and one move for each strip
    size : length of that one bow, cm, where paper was taken out; None for that of the bridged edge

    Returns
    -------
    the edge redrawn
    """
    points, directions = [edge.start], [start_direction(edge.curves)]
    for strip, move in zip(reversed(strips[1:-1]), list(reversed(moves))[1:-1], strict=True):
        own = tuple(c for e in strip.far for c in e.curves)
        if own:
            path = moved_path(own, move)
            half = path_length(path) / 2
            points.append(point_at(path, half))
            directions.append(direction_at(path, half))
    points.append(edge.end)
    directions.append(end_direction(edge.curves))
    if len(points) == 2:
        return edge.with_curves(
            bow(
                points[0],
                directions[0],
                points[1],
                directions[1],
                path_length(edge.curves) if size is None else size,
            )
        )
    return edge.with_curves(smooth_through(points, directions))


def trued_near(edge: Edge, target: float | None = None) -> Edge:
    """The sewn edge redrawn smooth between its ends, square as they were.

    One bow where the paper bends one way and turns less than 2.2 radians, if its fullness can give
    the length; else a chain through the kinks, set in by a hair so that it has the length.

    Parameters
    ----------
    edge : the edge after the move, with kinks
    target : the length wished, cm; None for none

    Returns
    -------
    the edge redrawn; as near to the length as these can come
    """
    out, come = start_direction(edge.curves), end_direction(edge.curves)
    path: Path = ()
    if one_way(edge.curves) and total_turn(edge.curves) < _MOST_BOW:
        path = bow(edge.start, out, edge.end, come, target)
    if not path or (target is not None and abs(path_length(path) - target) > 1e-6):
        chain = chain_of_length(edge.curves, target)
        path = chain if not path or target is None or _nearer(chain, path, target) else path
    return edge.with_curves(path)


def _nearer(a: Path, b: Path, target: float) -> bool:
    return abs(path_length(a) - target) < abs(path_length(b) - target)


def total_turn(path: Path) -> float:
    """How far a chain turns from its start to its end, all bends and corners added.

    Parameters
    ----------
    path : a chain of curves, cm

    Returns
    -------
    radians, never negative; read at five places of each cubic
    """
    total = 0.0
    before: Point | None = None
    for curve in path:
        for t in (0.0, 1.0) if isinstance(curve, Line) else (0.0, 0.25, 0.5, 0.75, 1.0):
            here = curve.velocity(t)
            total += abs(angle_between(before, here)) if before is not None else 0.0
            before = here
    return total


def chain_of_length(path: Path, target: float | None) -> Path:
    """A smooth chain through the joints of a path, set in or out until it has the length asked.

    Parameters
    ----------
    path : a chain of curves, cm
    target : the length wished, cm; None for none

    Returns
    -------
    the chain; without that length where setting the joints in or out by 2 % of it does not give it
    """
    if target is None or len(path) < 2:
        return through_kinks(path)

    def miss(inset: float) -> float:
        return path_length(through_kinks(path, inset)) - target

    reach = 0.02 * path_length(path)
    return through_kinks(path, root_within(miss, -reach, reach, 1e-10) or 0.0)


def through_kinks(path: Path, inset: float = 0.0) -> Path:
    """A smooth chain through the joints of a path, with the mean direction at each joint.

    Joints are set in by `inset` cm towards the side to which the paper bends there.

    Parameters
    ----------
    path : a chain of curves, not empty, cm
    inset : how far the joints are set in, cm

    Returns
    -------
    a smooth chain with the same ends and directions there
    """
    points = [path[0].start]
    directions = [start_direction(path)]
    for a, b in pairwise(path):
        come, go = unit(a.velocity(1.0)), unit(b.velocity(0.0))
        mean = unit(come + go)
        bend = angle_between(come, go)
        side = 0.0 if abs(bend) < 1e-6 else (1.0 if bend > 0 else -1.0)
        points.append(b.start + mean * 1j * side * inset)
        directions.append(mean)
    points.append(path[-1].end)
    directions.append(end_direction(path))
    return smooth_through(points, directions)


def one_way(path: Path) -> bool:
    """Whether a chain bends to one side only, joints included (0.06 degrees forgiven).

    Parameters
    ----------
    path : a chain of curves, cm

    Returns
    -------
    whether it does; read at five places of each cubic
    """
    turns: list[float] = []
    before: Point | None = None
    for curve in path:
        stops = (0.0, 1.0) if isinstance(curve, Line) else (0.0, 0.25, 0.5, 0.75, 1.0)
        for t in stops:
            here = unit(curve.velocity(t))
            if before is not None:
                turns.append(angle_between(before, here))
            before = here
    return all(t >= -1e-3 for t in turns) or all(t <= 1e-3 for t in turns)


def kink(edge: Edge) -> float:
    """The sharpest turn at a joint inside an edge, radians; 0 for one curve."""
    return max(
        (abs(angle_between(a.velocity(1.0), b.velocity(0.0))) for a, b in pairwise(edge.curves)),
        default=0.0,
    )
