"""Redrawing an edge smooth after the paper was cut and moved."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import replace

from cutwright.errors import GeometryError
from cutwright.geometry.curve import Line, length
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
from cutwright.geometry.solve import bracketed, root
from cutwright.pattern.edge import Edge
from cutwright.pattern.strips import Strip

BOW = 0.62
"""Handle share of a trued hem or waist (own method, docs/how-it-works.md)."""
_FLATTEST, _FULLEST = 0.45, 0.85


def bow(
    start: Point, leaving: Point, end: Point, arriving: Point, target: float | None = None
) -> Path:
    """One smooth curve between two square ends; its fullness is chosen to meet a length if it can.

    Falls back on a gentle curve where the two tangents do not meet ahead.
    """
    try:
        plain = corner_arc(start, leaving, end, arriving, BOW)
    except GeometryError:
        return (hermite(start, leaving, end, arriving),)
    if target is None:
        return (plain,)

    def miss(k: float) -> float:
        return length(corner_arc(start, leaving, end, arriving, k)) - target

    if not bracketed(miss, _FLATTEST, _FULLEST):
        return (plain,)
    return (corner_arc(start, leaving, end, arriving, root(miss, _FLATTEST, _FULLEST, 1e-10)),)


def trued_far(edge: Edge, strips: Sequence[Strip], moves: Sequence[Move]) -> Edge:
    """The opened edge through the middle of every inner strip's own stretch, its ends as they are.

    `edge` is the edge after the move, gaps bridged. With no inner strip it becomes one bow of the
    bridged length.
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
            bow(points[0], directions[0], points[1], directions[1], path_length(edge.curves))
        )
    return edge.with_curves(smooth_through(points, directions))


def trued_near(edge: Edge, target: float | None = None) -> Edge:
    """The sewn edge redrawn smooth between its ends, square as they were.

    One bow where the tangents meet ahead (with the length `target` if its fullness can give it),
    else a chain through the kinks with the mean direction at each.
    """
    out, come = start_direction(edge.curves), end_direction(edge.curves)
    if one_way(edge.curves):
        return edge.with_curves(bow(edge.start, out, edge.end, come, target))
    return edge.with_curves(through_kinks(edge.curves))


def through_kinks(path: Path) -> Path:
    """A smooth chain through the joints of a path, with the mean direction at each joint."""
    points = [path[0].start, *(c.end for c in path)]
    directions = [start_direction(path)]
    for a, b in itertools.pairwise(path):
        mean = unit(a.velocity(1.0)) + unit(b.velocity(0.0))
        directions.append(unit(mean))
    directions.append(end_direction(path))
    return smooth_through(points, directions)


def one_way(path: Path) -> bool:
    """Whether a chain bends to one side only, joints included (0.06 degrees forgiven)."""
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


def smooth_joints(edge: Edge, degrees: float = 0.05) -> Edge:
    """The edge as it is where it has no kink, redrawn through its joints where it has."""
    kinks = [
        abs(angle_between(a.velocity(1.0), b.velocity(0.0)))
        for a, b in zip(edge.curves, edge.curves[1:], strict=False)
    ]
    if not kinks or max(kinks) < degrees * 0.0174533:
        return edge
    return replace(edge, curves=through_kinks(edge.curves))
