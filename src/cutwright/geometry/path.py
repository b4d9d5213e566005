"""A chain of curves walked from end to end: its length, places on it, and its parts."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from math import inf

from cutwright.geometry.curve import (
    Curve,
    Line,
    curve_length,
    length_to,
    nearest_parameter,
    parameter_at,
)
from cutwright.geometry.move import Move
from cutwright.geometry.point import Point, unit

Path = tuple[Curve, ...]
"""Curves that follow each other without a gap."""

_NEAR = 1e-9


def path_length(path: Iterable[Curve]) -> float:
    """Length of the whole chain, cm.

    Parameters
    ----------
    path : a chain of curves, each starting where the one before ends; may be empty

    Returns
    -------
    cm, to 1e-7 a curve
    """
    return sum(curve_length(curve) for curve in path)


def locate(path: Sequence[Curve], distance: float) -> tuple[int, float]:
    """The curve (by index) and parameter at a distance along the chain; clamped to its ends.

    Parameters
    ----------
    path : a chain of curves, each starting where the one before ends; not empty
    distance : along the chain from its start, cm; beyond an end the end counts

    Returns
    -------
    index of the curve in the chain, and its parameter from 0 to 1
    """
    left = max(distance, 0.0)
    for index, curve in enumerate(path):
        size = curve_length(curve)
        if left <= size or index == len(path) - 1:
            return index, parameter_at(curve, left)
        left -= size
    return 0, 0.0


def point_at(path: Sequence[Curve], distance: float) -> Point:
    """The place at a distance along the chain.

    Parameters
    ----------
    path : a chain of curves, each starting where the one before ends; not empty
    distance : along the chain from its start, cm; beyond an end the end counts

    Returns
    -------
    the place, cm
    """
    index, t = locate(path, distance)
    return path[index].at(t)


def direction_at(path: Sequence[Curve], distance: float) -> Point:
    """The unit direction of travel at a distance along the chain.

    Parameters
    ----------
    path : a chain of curves, each starting where the one before ends; not empty
    distance : along the chain from its start, cm; beyond an end the end counts

    Returns
    -------
    a step of length one
    """
    index, t = locate(path, distance)
    return unit(path[index].velocity(t))


def start_direction(path: Sequence[Curve]) -> Point:
    """The unit direction in which the chain leaves its start.

    Parameters
    ----------
    path : a chain of curves, not empty

    Returns
    -------
    a step of length one
    """
    return unit(path[0].velocity(0.0))


def end_direction(path: Sequence[Curve]) -> Point:
    """The unit direction in which the chain arrives at its end.

    Parameters
    ----------
    path : a chain of curves, not empty

    Returns
    -------
    a step of length one
    """
    return unit(path[-1].velocity(1.0))


def split_path(path: Path, distance: float) -> tuple[Path, Path]:
    """The parts before and after a distance along the chain; either may be empty at an end.

    Parameters
    ----------
    path : a chain of curves, each starting where the one before ends; not empty
    distance : along the chain from its start, cm

    Returns
    -------
    the chain before and the chain after, empty where the distance lies at or beyond an end (to
    1e-9 cm)
    """
    if distance <= _NEAR:
        return (), path
    if distance >= path_length(path) - _NEAR:
        return path, ()
    index, t = locate(path, distance)
    if t <= _NEAR:
        return path[:index], path[index:]
    if t >= 1 - _NEAR:
        return path[: index + 1], path[index + 1 :]
    before, after = path[index].split(t)
    return (*path[:index], before), (after, *path[index + 1 :])


def between_distances(path: Path, start: float, end: float) -> Path:
    """The part of the chain between two distances along it.

    Parameters
    ----------
    path : a chain of curves, each starting where the one before ends; not empty
    start, end : along the chain from its start, cm; `start` is the less

    Returns
    -------
    the part between them; empty where they fall together
    """
    return split_path(split_path(path, end)[0], start)[1]


def reversed_path(path: Path) -> Path:
    """The chain walked the other way.

    Parameters
    ----------
    path : a chain of curves; may be empty

    Returns
    -------
    the same curves, each turned round, in the opposite order
    """
    return tuple(curve.reversed() for curve in reversed(path))


def moved_path(path: Path, move: Move) -> Path:
    """The chain after a rigid move.

    Parameters
    ----------
    path : a chain of curves, cm; may be empty
    move : a rigid move; one that mirrors does not turn the walk round

    Returns
    -------
    the chain, walked from the same end
    """
    return tuple(curve.moved(move) for curve in path)


def polyline(points: Sequence[Point]) -> Path:
    """Straight lines from point to point.

    Parameters
    ----------
    points : places, cm; fewer than two give nothing

    Returns
    -------
    one straight line from each place to the next; not closed
    """
    return tuple(Line(a, b) for a, b in itertools.pairwise(points))


def nearest(path: Sequence[Curve], p: Point) -> tuple[int, float, float]:
    """The chain's place nearest to `p`: its curve (by index), its parameter there, how far, cm.

    Parameters
    ----------
    path : a chain of curves, each starting where the one before ends; not empty
    p : a place, cm

    Returns
    -------
    index of the curve, its parameter from 0 to 1, and the distance from `p`, cm
    """
    best = (0, 0.0, inf)
    for index, curve in enumerate(path):
        if not _within(curve, p, best[2]):
            continue
        t = nearest_parameter(curve, p)
        gap = abs(curve.at(t) - p)
        if gap < best[2]:
            best = (index, t, gap)
    return best


def _within(curve: Curve, p: Point, reach: float) -> bool:
    """Whether a curve may come nearer to a place than some cm, by the box of its points."""
    if reach == inf:
        return True
    xs, ys = [c.real for c in curve.controls], [c.imag for c in curve.controls]
    return min(xs) - reach < p.real < max(xs) + reach and min(ys) - reach < p.imag < max(ys) + reach


def nearest_distance(path: Sequence[Curve], p: Point) -> float:
    """The distance along the chain of its point nearest to `p`.

    Parameters
    ----------
    path : a chain of curves, each starting where the one before ends; not empty
    p : a place, cm

    Returns
    -------
    along the chain from its start, cm
    """
    index, t, _gap = nearest(path, p)
    return path_length(path[:index]) + length_to(path[index], t)


def distance_at(path: Sequence[Curve], p: Point, reach: float) -> float | None:
    """The distance along the chain at which it passes a place within some cm, or None.

    Parameters
    ----------
    path : a chain of curves, each starting where the one before ends; not empty
    p : a place, cm
    reach : how near the chain must come, cm

    Returns
    -------
    along the chain from its start, cm; None where it stays farther off
    """
    if not any(_within(curve, p, reach) for curve in path):
        return None
    index, t, gap = nearest(path, p)
    return path_length(path[:index]) + length_to(path[index], t) if gap < reach else None


def direction_near(path: Sequence[Curve], p: Point) -> Point:
    """The unit direction of travel at the chain's place nearest to `p`.

    Parameters
    ----------
    path : a chain of curves, not empty
    p : a place, cm

    Returns
    -------
    a step of length one
    """
    index, t, _gap = nearest(path, p)
    return unit(path[index].velocity(t))


def distance_from(path: Sequence[Curve], p: Point) -> float:
    """How far a place lies from the chain.

    Parameters
    ----------
    path : a chain of curves, cm
    p : a place, cm

    Returns
    -------
    cm, never negative; inf for an empty chain
    """
    return nearest(path, p)[2]


def passes_within(path: Sequence[Curve], p: Point, reach: float) -> bool:
    """Whether the chain comes nearer to a place than some cm.

    Parameters
    ----------
    path : a chain of curves, cm; may be empty
    p : a place, cm
    reach : cm

    Returns
    -------
    whether some place of the chain is nearer than `reach`
    """
    return any(
        _within(curve, p, reach) and abs(curve.at(nearest_parameter(curve, p)) - p) < reach
        for curve in path
    )


def is_straight(path: Sequence[Curve], tolerance: float = 1e-6) -> bool:
    """Whether every control point lies on the endless line through both ends.

    Parameters
    ----------
    path : a chain of curves, not empty
    tolerance : how far beside that line still counts as on it, cm

    Returns
    -------
    whether it does; a line that turns back on itself is straight too
    """
    start, end = path[0].start, path[-1].end
    along = unit(end - start)
    return all(
        abs(((p - start) * along.conjugate()).imag) <= tolerance
        for curve in path
        for p in curve.controls
    )
