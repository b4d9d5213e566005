"""Where lines and curves cross."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from cutwright.geometry.curve import Curve, Line, length
from cutwright.geometry.point import Point, cross


def line_parameters(curve: Curve, p: Point, along: Point) -> list[float]:
    """Parameters in [0, 1] at which a curve meets the endless straight line through `p`."""
    heights = [cross(along, c - p) for c in curve.controls]
    if isinstance(curve, Line):
        a, b = heights
        if abs(b - a) < 1e-14:
            return []
        t = a / (a - b)
        return [min(max(t, 0.0), 1.0)] if -1e-10 <= t <= 1 + 1e-10 else []
    h0, h1, h2, h3 = heights
    poly = [h3 - 3 * h2 + 3 * h1 - h0, 3 * (h2 - 2 * h1 + h0), 3 * (h1 - h0), h0]
    size = max(abs(c) for c in poly)
    if size < 1e-14:
        return []
    while poly and abs(poly[0]) < 1e-13 * size:
        poly.pop(0)
    roots = np.roots(poly) if len(poly) > 1 else np.array([])
    found = [float(r.real) for r in roots if abs(r.imag) < 1e-7 and -1e-9 <= r.real <= 1 + 1e-9]
    return sorted(min(max(t, 0.0), 1.0) for t in found)


def line_distances(path: Sequence[Curve], p: Point, along: Point) -> list[float]:
    """Distances along a chain at which it meets the endless straight line through `p`, in order."""
    found: list[float] = []
    walked = 0.0
    for curve in path:
        size = length(curve)
        for t in line_parameters(curve, p, along):
            at = walked + (length(curve.split(t)[0]) if 0 < t < 1 else size * t)
            if not found or at - found[-1] > 1e-7:
                found.append(at)
        walked += size
    return found


def path_distances(path: Sequence[Curve], other: Sequence[Curve]) -> list[tuple[float, float]]:
    """Every crossing of two chains, as distances along the first and along the second."""
    found: list[tuple[float, float]] = []
    walked = 0.0
    for a in path:
        other_walked = 0.0
        for b in other:
            for t, u in curve_parameters(a, b):
                at = walked + length(a.split(t)[0]) if t > 0 else walked
                by = other_walked + length(b.split(u)[0]) if u > 0 else other_walked
                if all(abs(at - x) > 1e-6 or abs(by - y) > 1e-6 for x, y in found):
                    found.append((at, by))
            other_walked += length(b)
        walked += length(a)
    return sorted(found)


def curve_parameters(a: Curve, b: Curve, chords: int = 24) -> list[tuple[float, float]]:
    """Parameter pairs at which two curves cross: chords for the search, Newton for the place."""
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
