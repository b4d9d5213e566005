"""Lines drawn at a distance beside other lines: offset curves that stay cubics.

A positive amount lies to the left of travel, which is outside for a loop that runs clockwise to
the eye (y down). Each cubic keeps its end tangents; the lengths of its two handles are fitted by
least squares on the normal distances, all cubics of a call at once, and a curve is halved until
it lies within the tolerance. Where the amount reaches the radius of a hollow curve no such line
exists; that stretch is taken from a polygon buffer instead.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from cutwright.geometry.curve import Cubic, Curve, Line
from cutwright.geometry.outline import flattened
from cutwright.geometry.path import Path
from cutwright.geometry.point import Point, unit

TOLERANCE = 0.002
"""Largest distance in cm between an offset curve and the true one."""

TIGHT = 0.03
"""An offset counts as too tight where 1 + amount x curvature falls below this."""

_REACHED = 0.002
_STUB = 0.01

_DEEPEST = 7
_T = np.linspace(0.0, 1.0, 13)
_S = 1 - _T
_POINT = np.stack([_S**3, 3 * _S**2 * _T, 3 * _S * _T**2, _T**3])
_SPEED = np.stack([3 * _S**2, 6 * _S * _T, 3 * _T**2])
_BEND = np.stack([6 * _S, 6 * _T])

Complexes = NDArray[np.complex128]
Floats = NDArray[np.float64]


def offset_path(path: Path, amount: float, tolerance: float = TOLERANCE) -> Path:
    """The line at a distance beside a chain, its inner corners closed; see `offset_paths`.

    Parameters
    ----------
    path : a chain of curves, cm; not empty
    amount : cm; positive lies left of travel
    tolerance : largest distance from the true offset curve, cm

    Returns
    -------
    the chain beside it, walked the same way
    """
    return offset_paths([path], [amount], tolerance)[0]


def offset_paths(
    paths: Sequence[Path], amounts: Sequence[float], tolerance: float = TOLERANCE
) -> list[Path]:
    """The lines at given distances beside several chains, each within the tolerance.

    A cubic is halved at most seven times; the last parts are taken as they are. Own method, see
    above.

    Parameters
    ----------
    paths : chains of curves, cm; none empty
    amounts : one signed distance in cm for each chain; positive lies left of travel
    tolerance : largest distance from the true offset curve, cm

    Returns
    -------
    one chain for each, walked the same way; straight lines where the amount reaches the radius of
    a hollow curve
    """
    rows = [
        (index, place, curve)
        for index, path in enumerate(paths)
        for place, curve in enumerate(path)
        if isinstance(curve, Cubic) and amounts[index]
    ]
    made: dict[tuple[int, int], Path] = {}
    tight: set[int] = set()
    if rows:
        controls = np.array([curve.controls for _i, _p, curve in rows])
        sizes = np.array([amounts[index] for index, _p, _c in rows])
        fitted = _fitted(controls, sizes, tolerance)
        for (index, place, _curve), found in zip(rows, fitted, strict=True):
            if found is None:
                tight.add(index)
            else:
                made[index, place] = found
    return [
        _by_buffer(path, amounts[index])
        if index in tight
        else _chained(path, amounts[index], index, made)
        for index, path in enumerate(paths)
    ]


def _chained(path: Path, amount: float, index: int, made: dict[tuple[int, int], Path]) -> Path:
    """The offsets of a chain's curves one after another, its inner corners closed."""
    if not amount:
        return path
    from cutwright.geometry.corner import mitred

    out: Path = ()
    corner = path[0].start
    for place, curve in enumerate(path):
        part = made.get((index, place))
        if part is None:
            assert isinstance(curve, Line)
            if curve.start == curve.end:
                continue
            aside = unit(curve.end - curve.start) * -1j * amount
            part = (Line(curve.start + aside, curve.end + aside),)
        if out and abs(part[0].start - out[-1].end) > tolerance_of_joint(amount):
            out, part = mitred(out, part, corner, 4.0 * abs(amount))
        elif out:
            part = (_begun_at(part[0], out[-1].end), *part[1:])
        out += part
        corner = curve.end
    return out


def tolerance_of_joint(amount: float) -> float:
    """How far two offset ends may lie apart and still count as one smooth place.

    Parameters
    ----------
    amount : of the offset, cm, of either sign

    Returns
    -------
    cm
    """
    return max(1e-9, 2e-4 * abs(amount))


def _begun_at(curve: Curve, start: Point) -> Curve:
    if isinstance(curve, Line):
        return Line(start, curve.end)
    return Cubic(start, curve.first, curve.second, curve.end)


def _fitted(controls: Complexes, amounts: Floats, tolerance: float) -> list[Path | None]:
    """Offset cubics of many cubics (n, 4); None where the offset is too tight to exist."""
    count = len(controls)
    found: list[list[tuple[float, Cubic]] | None] = [[] for _ in range(count)]
    owner, begin, width = np.arange(count), np.zeros(count), 1.0
    for depth in range(_DEEPEST + 1):
        fits, errors, squeeze = _fit(controls, amounts)
        for i in np.flatnonzero(squeeze < TIGHT):
            found[owner[i]] = None
        open_rows = np.array([found[o] is not None for o in owner], dtype=bool)
        good = open_rows & (errors <= tolerance)
        if depth == _DEEPEST:
            good = open_rows
        for i in np.flatnonzero(good):
            kept = found[owner[i]]
            if kept is not None:
                kept.append((float(begin[i]), Cubic(*fits[i].tolist())))
        left = np.flatnonzero(open_rows & ~good)
        if not len(left):
            break
        width /= 2
        controls = _halved(controls[left])
        owner, amounts = np.repeat(owner[left], 2), np.repeat(amounts[left], 2)
        begin = np.repeat(begin[left], 2) + np.tile([0.0, width], len(left))
    return [None if f is None else _in_a_row(f) for f in found]


def _in_a_row(parts: list[tuple[float, Cubic]]) -> Path:
    """Fitted parts in walking order, each begun exactly where the one before it ends."""
    out: list[Curve] = []
    for _begin, part in sorted(parts, key=lambda p: p[0]):
        out.append(_begun_at(part, out[-1].end) if out else part)
    return tuple(out)


def _halved(c: Complexes) -> Complexes:
    """Both halves of each cubic, one after the other."""
    ab, bc, cd = (c[:, :-1] + c[:, 1:]).T / 2
    abc, bcd = (ab + bc) / 2, (bc + cd) / 2
    m = (abc + bcd) / 2
    halves = np.stack([c[:, 0], ab, abc, m, m, bcd, cd, c[:, 3]], axis=1)
    return halves.reshape(-1, 4)


def _fit(controls: Complexes, amounts: Floats) -> tuple[Complexes, Floats, Floats]:
    """One offset cubic for each cubic, its error in cm, and the least of 1 + amount x curvature."""
    points, velocity, normal, squeeze = _beside(controls, _POINT, _SPEED, _BEND, amounts)
    a = amounts[:, None]
    offset = points + a * normal
    t0, t3 = 1j * normal[:, 0], 1j * normal[:, -1]
    q0, q3 = offset[:, 0], offset[:, -1]
    fixed = np.outer(q0, _POINT[0] + _POINT[1]) + np.outer(q3, _POINT[2] + _POINT[3])
    one = _POINT[1] * _inner(normal, t0[:, None])
    two = -_POINT[2] * _inner(normal, t3[:, None])
    wish = _inner(normal, offset - fixed)
    guess0 = abs(velocity[:, 0]) / 3 * np.maximum(squeeze[:, 0], TIGHT)
    guess3 = abs(velocity[:, -1]) / 3 * np.maximum(squeeze[:, -1], TIGHT)
    alpha, beta = _least_squares(one, two, wish, guess0, guess3)
    fits = np.stack([q0, q0 + alpha * t0, q3 - beta * t3, q3], axis=1)
    errors = _errors(controls, amounts, fits, points, velocity, squeeze)
    errors[(alpha <= 0) | (beta <= 0)] = np.inf
    return fits, errors, squeeze.min(axis=1)


def _inner(a: Complexes, b: Complexes) -> Floats:
    return a.real * b.real + a.imag * b.imag


def _beside(
    c: Complexes, point: Floats, speed: Floats, bend: Floats, amounts: Floats
) -> tuple[Complexes, Complexes, Complexes, Floats]:
    """Points, velocities, left normals and 1 + amount x curvature of cubics at parameters."""
    steps = np.diff(c, axis=1)
    velocity = steps @ speed
    size = abs(velocity)
    if size.min() < 1e-9:  # a handle of no length: the direction in the limit
        for row, column in np.argwhere(size < 1e-9):
            near = steps[row] if column == 0 else steps[row, ::-1]
            velocity[row, column] = 1e-9 * unit(next((complex(s) for s in near if s), 1 + 0j))
        size = abs(velocity)
    change = np.diff(steps, axis=1) @ bend
    turning = (velocity.real * change.imag - velocity.imag * change.real) / np.maximum(size, 1e-6)
    squeeze = 1 + amounts[:, None] * turning / np.maximum(size, 1e-6) ** 2
    return c @ point, velocity, velocity / size * -1j, squeeze


def _least_squares(
    one: Floats, two: Floats, wish: Floats, guess0: Floats, guess3: Floats
) -> tuple[Floats, Floats]:
    """Handle lengths that fit best; where the curve is straight the guesses decide."""
    pull = 1e-7
    a, b, d = (one * one).sum(1) + pull, (one * two).sum(1), (two * two).sum(1) + pull
    e, f = (one * wish).sum(1) + pull * guess0, (two * wish).sum(1) + pull * guess3
    size = a * d - b * b
    return (e * d - b * f) / size, (a * f - e * b) / size


def _errors(
    controls: Complexes,
    amounts: Floats,
    fits: Complexes,
    points: Complexes,
    velocity: Complexes,
    squeeze: Floats,
) -> Floats:
    """Largest normal distance of each fitted cubic from the true offset curve, cm."""
    here = fits @ _POINT
    size = abs(velocity)
    along = velocity / size
    slip = _inner(along, here - points) / (size * np.maximum(squeeze, TIGHT))
    t = np.clip(_T + slip, 0.0, 1.0)
    s = 1 - t
    c0, c1, c2, c3 = (controls[:, k, None] for k in range(4))
    base = s**3 * c0 + 3 * s * s * t * c1 + 3 * s * t * t * c2 + t**3 * c3
    v = 3 * (s * s * (c1 - c0) + 2 * s * t * (c2 - c1) + t * t * (c3 - c2))
    normal = v / np.maximum(abs(v), 1e-12) * -1j
    gaps = abs(_inner(normal, here - base) - amounts[:, None])
    gaps[:, [0, -1]] = 0.0
    found: Floats = gaps.max(axis=1)
    return found


def _by_buffer(path: Path, amount: float) -> Path:
    """The border of a polygon buffer beside a chain that is too tight for an offset of its own."""
    import shapely

    base = np.array(flattened(path, 0.001))
    line = shapely.linestrings(base.real, base.imag)
    out, come = unit(path[0].velocity(0.0)), unit(path[-1].velocity(1.0))
    first, last = path[0].start + out * -1j * amount, path[-1].end + come * -1j * amount
    ring = shapely.get_exterior_ring(shapely.buffer(line, abs(amount), quad_segs=48))
    begin, finish = _brought(ring, first, -out, amount), _brought(ring, last, come, amount)
    spots = shapely.points(
        [p.real for p in (begin[0], finish[0])], [p.imag for p in (begin[0], finish[0])]
    )
    start, end = shapely.line_locate_point(ring, spots).tolist()
    points = _stretch(_points(ring), start, end)
    points = [_nearer(points[0], first), *points[1:-1], _nearer(points[-1], last)]
    kept = shapely.simplify(shapely.linestrings([(p.real, p.imag) for p in points]), 0.001)
    points = [*begin[1:], *_points(kept).tolist(), *finish[1:]]
    lines = tuple(Line(a, b) for a, b in itertools.pairwise(points) if a != b)
    if lines:
        return lines
    step = unit(path[-1].end - path[0].start) * 1e-4  # swallowed whole: a spot with a direction
    return (Line(points[0] - step, points[0] + step),)


def _brought(ring: Any, wish: Point, beyond: Point, amount: float) -> tuple[Point, ...]:
    """Where the border ends beside an end of a chain, and a stub that points on from there.

    An end that other paper of the chain swallows is carried straight on, in the direction `beyond`
    in which the chain itself would go on, until it comes out of the border; so the line runs on
    beside the chain and does not jump. Without that the place is the wished one alone.
    """
    import shapely

    if shapely.distance(ring, shapely.points(wish.real, wish.imag)) < _REACHED:
        return (wish,)
    far = wish + beyond * 4 * abs(amount)
    ray = shapely.linestrings([(wish.real, wish.imag), (far.real, far.imag)])
    met = [complex(x, y) for x, y in shapely.get_coordinates(shapely.intersection(ring, ray))]
    if not met:
        return (wish,)
    place = min(met, key=lambda p: abs(p - wish))
    return place, place + beyond * _STUB


def _points(line: Any) -> Complexes:
    """The corners of a line as points."""
    import shapely

    pairs = shapely.get_coordinates(line)
    found: Complexes = pairs[:, 0] + 1j * pairs[:, 1]
    return found


def _stretch(ring: Complexes, start: float, end: float) -> list[Point]:
    """The shorter way along a closed ring between two distances from its beginning."""
    steps = np.concatenate([[0.0], np.cumsum(abs(np.diff(ring)))])
    whole = float(steps[-1])
    low, high = sorted((start, end))
    ends = np.interp([low, high], steps, ring.real) + 1j * np.interp([low, high], steps, ring.imag)
    inside = (steps > low) & (steps < high)
    if high - low <= whole / 2:
        points = [ends[0], *ring[inside], ends[1]]
    else:  # past the place where the ring begins
        points = [ends[1], *ring[steps > high], *ring[1:][(steps < low)[1:]], ends[0]]
        start, end = end, start
    found = [complex(p) for p in points]
    return found if start <= end else found[::-1]


def _nearer(found: Point, wish: Point) -> Point:
    """The wished end where the border reaches it, else the place the border has."""
    return wish if abs(found - wish) < _REACHED else found
