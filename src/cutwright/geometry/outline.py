"""Closed outlines: exact area, and the polygon that stands for one at the edge of the program."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from functools import lru_cache
from math import ceil, sqrt
from typing import TYPE_CHECKING

import numpy as np

from cutwright.geometry.curve import Cubic, Curve, Line
from cutwright.geometry.point import Point, cross

if TYPE_CHECKING:
    from shapely import Polygon

FLAT = 0.001
"""Largest distance in cm between a curve and the chords that stand for it."""


def area(outline: Iterable[Curve]) -> float:
    """Signed area of a closed chain, exact: the integral of x dy - y dx of a cubic in closed form.

    Parameters
    ----------
    outline : a closed chain of curves, cm

    Returns
    -------
    cm2, positive where it runs clockwise to the eye (y down)
    """
    total = 0.0
    for curve in outline:
        if isinstance(curve, Line):
            total += cross(curve.start, curve.end) / 2
            continue
        a, b, c, d = curve.controls
        total += (
            6 * cross(a, b) + 3 * cross(a, c) + cross(a, d)
            + 3 * cross(b, c) + 3 * cross(b, d) + 6 * cross(c, d)
        ) / 20  # fmt: skip
    return total


def pieces_needed(curve: Cubic, tolerance: float) -> int:
    """How many equal parameter steps keep the chords of a cubic within a tolerance.

    A chord lies within an eighth of the largest second derivative times the step squared (Wang's
    formula, from memory).

    Parameters
    ----------
    curve : a cubic, cm
    tolerance : largest distance of a chord from the curve, cm

    Returns
    -------
    a count, at least 1
    """
    bend = max(
        abs(curve.start - 2 * curve.first + curve.second),
        abs(curve.first - 2 * curve.second + curve.end),
    )
    return max(1, ceil(sqrt(0.75 * bend / tolerance)))


def flattened(path: Sequence[Curve], tolerance: float = FLAT) -> list[Point]:
    """Points along a chain whose chords stay within a tolerance (cm); both ends are included.

    Parameters
    ----------
    path : a chain of curves, each starting where the one before ends; may be empty
    tolerance : largest distance of a chord from its curve, cm

    Returns
    -------
    places in walking order, cm
    """
    points: list[Point] = [path[0].start] if path else []
    for curve in path:
        if isinstance(curve, Cubic):
            count = pieces_needed(curve, tolerance)
            if count > 1:
                points.extend(_shares(count).dot(np.array(curve.controls)).tolist())
        points.append(curve.end)
    return points


@lru_cache(maxsize=512)
def _shares(count: int) -> np.ndarray:
    """How much each point that defines a cubic counts at the places between equal steps."""
    t = np.arange(1, count) / count
    s = 1 - t
    return np.stack([s**3, 3 * s * s * t, 3 * s * t * t, t**3], axis=1).astype(complex)


def polygon(outline: Sequence[Curve], tolerance: float = FLAT) -> Polygon:
    """The shapely polygon of a closed chain, coordinates rounded to 1e-6 cm.

    Parameters
    ----------
    outline : a closed chain
    tolerance : largest distance of a chord from its curve, cm

    Returns
    -------
    coordinates in cm, x and y as in the chain; it need not be valid where the outline crosses
    itself
    """
    from shapely import Polygon

    ring = np.asarray(flattened(outline, tolerance))
    coordinates = np.round(np.stack([ring.real, ring.imag], axis=1), 6)
    keep = np.any(np.diff(coordinates, axis=0, append=coordinates[:1] + 1) != 0, axis=1)
    return Polygon(coordinates[keep])


_EIGHTHS = np.arange(8) / 8
_COARSE = np.stack(
    [
        (1 - _EIGHTHS) ** 3,
        3 * (1 - _EIGHTHS) ** 2 * _EIGHTHS,
        3 * (1 - _EIGHTHS) * _EIGHTHS**2,
        _EIGHTHS**3,
    ]
)


def is_plain(outline: Sequence[Curve]) -> bool:
    """Whether a closed chain nowhere crosses itself, looked at by eight chords to a cubic.

    Parameters
    ----------
    outline : a closed chain, cm; each curve starts where the one before ends

    Returns
    -------
    False also where fewer than three places are left
    """
    import shapely

    rows = np.array(
        [c.controls if isinstance(c, Cubic) else (c.start,) * 4 for c in outline],
        dtype=np.complex128,
    )
    points = rows @ _COARSE
    keep = np.ones(points.shape, dtype=bool)
    keep[[isinstance(c, Line) for c in outline], 1:] = False
    ring = np.round(points[keep], 6)
    ring = ring[np.append(ring[1:] != ring[:-1], ring[-1] != ring[0])]
    if len(ring) < 3:
        return False
    return bool(shapely.Polygon(np.stack([ring.real, ring.imag], axis=1)).is_valid)


def contains(outline: Sequence[Curve], p: Point) -> bool:
    """Whether a point lies inside a closed chain: its ray to the right crosses it an odd number of times.

    A cubic beside which the point lies, however near, is met by chords within 0.01 cm.

    Parameters
    ----------
    outline : a closed chain
    p : a place, cm

    Returns
    -------
    whether it lies inside; a place on the line itself may be told either way
    """
    inside = False
    for curve in outline:
        points: Sequence[Point] = (curve.start, curve.end)
        if isinstance(curve, Cubic):
            reals, imags = [c.real for c in curve.controls], [c.imag for c in curve.controls]
            if min(imags) <= p.imag <= max(imags) and min(reals) <= p.real <= max(reals):
                points = flattened((curve,), 0.01)  # elsewhere only its ends count
        inside ^= _crosses_ray(points, p)
    return inside


def _crosses_ray(points: Sequence[Point], p: Point) -> bool:
    """Whether a line of points crosses the ray from `p` to the right an odd number of times."""
    odd = False
    for a, b in itertools.pairwise(points):
        if (a.imag > p.imag) != (b.imag > p.imag):
            x = a.real + (p.imag - a.imag) / (b.imag - a.imag) * (b.real - a.real)
            odd ^= p.real < x
    return odd


def bounds(path: Iterable[Curve]) -> tuple[float, float, float, float]:
    """The upright box that holds a chain: left, top, right, bottom (exact on cubics' extremes).

    Parameters
    ----------
    path : a chain of curves, each starting where the one before ends; not empty

    Returns
    -------
    left, top, right, bottom in cm
    """
    points: list[Point] = []
    bowed: list[Cubic] = []
    for curve in path:
        points += (curve.start, curve.end)
        if isinstance(curve, Cubic):
            bowed.append(curve)
    left, top, right, bottom = _box(points)
    for curve in bowed:
        a, b, c, d = _box((curve.first, curve.second))
        if a < left or b < top or c > right or d > bottom:
            points += map(curve.at, _extremes(curve))
    return _box(points)


def _box(points: Sequence[Point]) -> tuple[float, float, float, float]:
    """The upright box of some places: left, top, right, bottom."""
    xs, ys = [p.real for p in points], [p.imag for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def _extremes(curve: Cubic) -> list[float]:
    out: list[float] = []
    steps = (curve.first - curve.start, curve.second - curve.first, curve.end - curve.second)
    for d0, d1, d2 in (tuple(z.real for z in steps), tuple(z.imag for z in steps)):
        a, b, c = d0 - 2 * d1 + d2, 2 * (d1 - d0), d0
        if abs(a) < 1e-14:
            roots = [-c / b] if abs(b) > 1e-14 else []
        else:
            inner = b * b - 4 * a * c
            roots = [] if inner < 0 else [(-b + s * sqrt(inner)) / (2 * a) for s in (1, -1)]
        out += [t for t in roots if 0 < t < 1]
    return out
