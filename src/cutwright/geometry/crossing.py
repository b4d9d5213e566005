"""Where lines and curves cross."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence
from math import sqrt

import numpy as np

from cutwright.geometry.curve import Curve, Line, curve_length, length_to
from cutwright.geometry.point import Point, cross


def line_parameters(curve: Curve, p: Point, along: Point) -> list[float]:
    """Parameters in [0, 1] at which a curve meets the endless straight line through `p`.

    Parameters
    ----------
    curve : a line or a cubic, cm
    p : a place on the endless line, cm
    along : its direction, of any length but nought

    Returns
    -------
    parameters from 0 to 1, in order; up to three, none for a curve that lies in the line
    """
    heights = [cross(along, c - p) for c in curve.controls]
    if isinstance(curve, Line):
        a, b = heights
        if abs(b - a) < 1e-14:
            return []
        t = a / (a - b)
        return [min(max(t, 0.0), 1.0)] if -1e-10 <= t <= 1 + 1e-10 else []
    h0, h1, h2, h3 = heights
    return _roots(h3 - 3 * h2 + 3 * h1 - h0, 3 * (h2 - 2 * h1 + h0), 3 * (h1 - h0), h0)


def _roots(a: float, b: float, c: float, d: float) -> list[float]:
    """Where a t^3 + b t^2 + c t + d is zero in [0, 1]: bracketed between its turning places."""
    size = max(abs(a), abs(b), abs(c), abs(d))
    if size < 1e-14:
        return []

    def value(t: float) -> float:
        return ((a * t + b) * t + c) * t + d

    def slope(t: float) -> float:
        return (3 * a * t + 2 * b) * t + c

    stops = [0.0, *(t for t in _turns(3 * a, 2 * b, c) if 0 < t < 1), 1.0]
    heights = [value(t) for t in stops]
    near = 1e-9 * size
    found = [t for t, h in zip(stops, heights, strict=True) if abs(h) <= near]
    for (low, high), (f, g) in zip(
        itertools.pairwise(stops), itertools.pairwise(heights), strict=True
    ):
        if f * g < 0 and abs(f) > near and abs(g) > near:
            found.append(_between(value, slope, low, high, rising=g > 0))
    found.sort()
    return [t for k, t in enumerate(found) if not k or t - found[k - 1] > 1e-9]


def _turns(a: float, b: float, c: float) -> list[float]:
    """Real zeros of a t^2 + b t + c, in order."""
    if abs(a) < 1e-14 * max(abs(b), abs(c), 1e-300):
        return [-c / b] if b else []
    inner = b * b - 4 * a * c
    if inner <= 0:
        return []
    q = -(b + sqrt(inner)) / 2 if b >= 0 else -(b - sqrt(inner)) / 2
    return sorted(q / a if k == 0 else c / q for k in (0, 1) if k == 0 or q)


def _between(
    value: Callable[[float], float],
    slope: Callable[[float], float],
    low: float,
    high: float,
    *,
    rising: bool,
) -> float:
    """The one zero between two places of opposite sign (Newton, kept in its bracket)."""
    t = (low + high) / 2
    for _i in range(60):
        f = value(t)
        if f == 0 or high - low < 1e-15:
            break
        low, high = (low, t) if (f > 0) == rising else (t, high)
        step = slope(t)
        after = t - f / step if step else (low + high) / 2
        if not low < after < high:
            after = (low + high) / 2
        if abs(after - t) < 1e-15:
            break
        t = after
    return t


def stroke_meets(a: Point, b: Point, curve: Curve) -> bool:
    """Whether the straight stroke from `a` to `b` meets a curve.

    Parameters
    ----------
    a, b : ends of the stroke, cm
    curve : a line or a cubic, cm

    Returns
    -------
    whether they have a place in common, ends counted; a curve that lies in the stroke's line does
    not count
    """
    along = b - a
    heights = [cross(along, c - a) for c in curve.controls]
    if min(heights) > 0 or max(heights) < 0:
        return False
    size = abs(along) ** 2
    return any(
        0 <= ((curve.at(t) - a) * along.conjugate()).real <= size
        for t in line_parameters(curve, a, along)
    )


def line_distances(path: Sequence[Curve], p: Point, along: Point) -> list[float]:
    """Where a chain meets the endless straight line through `p`.

    Parameters
    ----------
    path : a chain of curves, cm
    p : a place on the line, cm
    along : its direction, of any length but nought

    Returns
    -------
    distances along the chain from its start, cm, in order; those within 1e-7 cm are one
    """
    found: list[float] = []
    walked = 0.0
    for curve in path:
        size = curve_length(curve)
        for t in line_parameters(curve, p, along):
            at = walked + length_to(curve, t)
            if not found or at - found[-1] > 1e-7:
                found.append(at)
        walked += size
    return found


def path_distances(path: Sequence[Curve], other: Sequence[Curve]) -> list[tuple[float, float]]:
    """Every crossing of two chains.

    Parameters
    ----------
    path, other : chains of curves, cm

    Returns
    -------
    for each crossing its distance along `path` and along `other`, each from its start, cm, in the
    order of `path`
    """
    found: list[tuple[float, float]] = []
    walked = 0.0
    for a in path:
        other_walked = 0.0
        for b in other:
            for t, u in curve_parameters(a, b):
                at, by = walked + length_to(a, t), other_walked + length_to(b, u)
                if all(abs(at - x) > 1e-6 or abs(by - y) > 1e-6 for x, y in found):
                    found.append((at, by))
            other_walked += curve_length(b)
        walked += curve_length(a)
    return sorted(found)


def curve_parameters(a: Curve, b: Curve, chords: int = 24) -> list[tuple[float, float]]:
    """Where two curves cross: chords for the search, Newton for the place.

    Parameters
    ----------
    a, b : lines or cubics, cm
    chords : how many stand for a cubic in the search

    Returns
    -------
    for each crossing its parameter on `a` and on `b`, from 0 to 1, in the order of `a`'s chords;
    curves that touch without crossing, or run along each other, may give none
    """
    na = 1 if isinstance(a, Line) else chords
    nb = 1 if isinstance(b, Line) else chords
    pa = np.array([a.at(i / na) for i in range(na + 1)])
    pb = np.array([b.at(i / nb) for i in range(nb + 1)])
    da, db = np.diff(pa)[:, None], np.diff(pb)[None, :]
    gap = pb[None, :-1] - pa[:-1, None]
    size = da.real * db.imag - da.imag * db.real
    with np.errstate(divide="ignore", invalid="ignore"):
        s = (gap.real * db.imag - gap.imag * db.real) / size
        u = (gap.real * da.imag - gap.imag * da.real) / size
    slack = 0.02
    hits = np.argwhere((s >= -slack) & (s <= 1 + slack) & (u >= -slack) & (u <= 1 + slack))
    found: list[tuple[float, float]] = []
    for i, j in hits:
        pair = _newton(a, b, (i + float(s[i, j])) / na, (j + float(u[i, j])) / nb)
        if pair and all(abs(pair[0] - x) > 1e-7 or abs(pair[1] - y) > 1e-7 for x, y in found):
            found.append(pair)
    return found


def _newton(a: Curve, b: Curve, t: float, u: float) -> tuple[float, float] | None:
    for _i in range(12):
        gap = b.at(u) - a.at(t)
        va, vb = a.velocity(t), b.velocity(u)
        size = cross(va, vb)
        if abs(size) < 1e-12:
            return None
        dt, du = cross(gap, vb) / size, cross(gap, va) / size
        t, u = t + dt, u + du
        if abs(dt) + abs(du) < 1e-13:
            break
    if not (-1e-9 <= t <= 1 + 1e-9 and -1e-9 <= u <= 1 + 1e-9):
        return None
    if abs(b.at(u) - a.at(t)) > 1e-7:
        return None
    return min(max(t, 0.0), 1.0), min(max(u, 0.0), 1.0)
