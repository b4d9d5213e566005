"""The two lines a cutter draws with: a straight one and a cubic.

Curves stay curves from the draft to the file. Lengths are taken by Gauss-Legendre quadrature at
24 points; where 16 points disagree the curve is halved. A smooth curve is measured to 1e-7 cm; only at a true
cusp, which no cutter draws, can both agree too soon (1e-3 cm seen).
"""

from __future__ import annotations

from dataclasses import field
from functools import lru_cache

import numpy as np

from cutwright.frozen import frozen, remember
from cutwright.geometry.move import Move
from cutwright.geometry.point import Point

_AGREE = 1e-7  # cm
_DEEPEST = 24
_LAST = 1e-6
"""A step of Newton's this small, in the parameter, is the last: it misses by its square only."""


@frozen
class Line:
    """A straight line from `start` to `end`."""

    start: Point
    end: Point

    def at(self, t: float) -> Point:
        """The point at parameter t in [0, 1].

        Parameters
        ----------
        t : 0 at the start, 1 at the end

        Returns
        -------
        the place, cm
        """
        return self.start + (self.end - self.start) * t

    def velocity(self, t: float) -> Point:
        """The first derivative at t.

        Parameters
        ----------
        t : 0 at the start, 1 at the end; the same at each

        Returns
        -------
        cm per unit of t
        """
        return self.end - self.start

    def acceleration(self, t: float) -> Point:
        """The second derivative at t.

        Parameters
        ----------
        t : 0 at the start, 1 at the end

        Returns
        -------
        nought at each
        """
        return 0j

    def split(self, t: float) -> tuple[Line, Line]:
        """The two parts before and after t.

        Parameters
        ----------
        t : 0 at the start, 1 at the end

        Returns
        -------
        the part before and the part after, walked the same way
        """
        middle = self.at(t)
        return Line(self.start, middle), Line(middle, self.end)

    def reversed(self) -> Line:
        """The same line walked the other way."""
        return Line(self.end, self.start)

    def moved(self, move: Move) -> Line:
        """The line after a rigid move."""
        return Line(move(self.start), move(self.end))

    @property
    def controls(self) -> tuple[Point, ...]:
        """The points that define it."""
        return (self.start, self.end)


@frozen
class Cubic:
    """A cubic Bezier curve: ends and two handles."""

    start: Point
    first: Point
    second: Point
    end: Point
    _length: float = field(default=-1.0, init=False, repr=False, compare=False)

    def at(self, t: float) -> Point:
        """The point at parameter t in [0, 1].

        Parameters
        ----------
        t : 0 at the start, 1 at the end

        Returns
        -------
        the place, cm
        """
        s = 1 - t
        return (
            s * s * s * self.start
            + 3 * s * s * t * self.first
            + 3 * s * t * t * self.second
            + t * t * t * self.end
        )

    def velocity(self, t: float) -> Point:
        """The first derivative at t; at an end whose handle has no length, the limit direction.

        Parameters
        ----------
        t : 0 at the start, 1 at the end

        Returns
        -------
        cm per unit of t; where a handle has no length only the direction holds
        """
        s = 1 - t
        v = (
            3 * s * s * (self.first - self.start)
            + 6 * s * t * (self.second - self.first)
            + 3 * t * t * (self.end - self.second)
        )
        if abs(v) > 1e-12:
            return v
        return self.second - self.start if t < 0.5 else self.end - self.first

    def acceleration(self, t: float) -> Point:
        """The second derivative at t.

        Parameters
        ----------
        t : 0 at the start, 1 at the end

        Returns
        -------
        cm per unit of t squared
        """
        return 6 * (1 - t) * (self.second - 2 * self.first + self.start) + 6 * t * (
            self.end - 2 * self.second + self.first
        )

    def split(self, t: float) -> tuple[Cubic, Cubic]:
        """The two parts before and after t (de Casteljau).

        Parameters
        ----------
        t : 0 at the start, 1 at the end

        Returns
        -------
        the part before and the part after, walked the same way
        """
        a, b, c, d = self.start, self.first, self.second, self.end
        ab, bc, cd = a + (b - a) * t, b + (c - b) * t, c + (d - c) * t
        abc, bcd = ab + (bc - ab) * t, bc + (cd - bc) * t
        m = abc + (bcd - abc) * t
        return Cubic(a, ab, abc, m), Cubic(m, bcd, cd, d)

    def reversed(self) -> Cubic:
        """The same curve walked the other way."""
        return Cubic(self.end, self.second, self.first, self.start)

    def moved(self, move: Move) -> Cubic:
        """The curve after a rigid move."""
        return Cubic(move(self.start), move(self.first), move(self.second), move(self.end))

    @property
    def controls(self) -> tuple[Point, ...]:
        """The points that define it."""
        return (self.start, self.first, self.second, self.end)


Curve = Line | Cubic


def _legendre(count: int) -> tuple[np.ndarray, np.ndarray]:
    nodes, weights = np.polynomial.legendre.leggauss(count)
    return (nodes + 1) / 2, weights / 2


_T24, _W24 = _legendre(24)
_T16, _W16 = _legendre(16)
_T = np.concatenate([_T24, _T16])
_BASIS = np.stack([3 * (1 - _T) ** 2, 6 * _T * (1 - _T), 3 * _T**2], axis=1).astype(complex)
_WEIGHTS = np.zeros((2, 40))
_WEIGHTS[0, :24] = _W24
_WEIGHTS[1, 24:] = _W16


Steps = tuple[Point, Point, Point]
"""From each point that defines a cubic to the next; its length depends on nothing else."""


def _steps_to(curve: Cubic, t: float) -> Steps:
    """The steps of the part of a cubic before t (de Casteljau)."""
    a, b, c = curve.first - curve.start, curve.second - curve.first, curve.end - curve.second
    ab, bc = a + (b - a) * t, b + (c - b) * t
    return a * t, ab * t, (ab + (bc - ab) * t) * t


def _swept(steps: Steps, depth: int = 0) -> float:
    by24, by16 = _WEIGHTS.dot(np.abs(_BASIS.dot(np.array(steps)))).tolist()
    if abs(by24 - by16) <= _AGREE or depth >= _DEEPEST:
        return float(by24)
    a, b, c = steps
    ab, bc = (a + b) / 2, (b + c) / 2
    middle = (ab + bc) / 2
    first, second = (a / 2, ab / 2, middle / 2), (middle / 2, bc / 2, c / 2)
    return _swept(first, depth + 1) + _swept(second, depth + 1)


def curve_length(curve: Curve) -> float:
    """Length along a curve; a cubic is measured once.

    Parameters
    ----------
    curve : a line or a cubic, cm

    Returns
    -------
    cm, to 1e-7 where the curve is smooth (Gauss-Legendre quadrature, see above)
    """
    if isinstance(curve, Line):
        return abs(curve.end - curve.start)
    if curve._length < 0:
        remember(curve, "_length", _swept(_steps_to(curve, 1.0)))
    return curve._length


def length_to(curve: Curve, t: float) -> float:
    """Length along a curve from its start to a parameter.

    Parameters
    ----------
    curve : a line or a cubic, cm
    t : 0 at the start, 1 at the end; beyond an end the end counts

    Returns
    -------
    cm, to 1e-7 where the curve is smooth
    """
    if t <= 0:
        return 0.0
    if t >= 1:
        return curve_length(curve)
    if isinstance(curve, Line):
        return curve_length(curve) * t
    return _swept(_steps_to(curve, t))


def parameter_at(curve: Curve, distance: float) -> float:
    """The parameter at a distance along the curve from its start (Newton's method, kept in a bracket).

    Parameters
    ----------
    curve : a line or a cubic, cm
    distance : along the curve from its start, cm; beyond an end the end counts

    Returns
    -------
    from 0 to 1; 0 on a curve of no length
    """
    whole = curve_length(curve)
    if whole == 0 or distance <= 0:
        return 0.0
    if distance >= whole:
        return 1.0
    if isinstance(curve, Line):
        return distance / whole
    return _cubic_parameter(curve, distance)


@lru_cache(maxsize=1 << 14)
def _cubic_parameter(curve: Cubic, distance: float) -> float:
    low, high, t = 0.0, 1.0, distance / curve_length(curve)
    for _ in range(60):
        gap = _swept(_steps_to(curve, t)) - distance
        speed = abs(curve.velocity(t))
        after = t - gap / speed if speed else low
        if abs(after - t) < _LAST or abs(gap) < 1e-10:
            return min(max(after, low), high)
        low, high = (t, high) if gap < 0 else (low, t)
        t = after if low < after < high else (low + high) / 2
    return t


def curvature(curve: Curve, t: float) -> float:
    """Signed curvature at a parameter.

    Parameters
    ----------
    curve : a line or a cubic, cm
    t : 0 at the start, 1 at the end

    Returns
    -------
    1/cm, positive where the curve turns clockwise to the eye; 0 where it stands still
    """
    v, a = curve.velocity(t), curve.acceleration(t)
    speed = abs(v)
    return (v.real * a.imag - v.imag * a.real) / speed**3 if speed else 0.0


_TS = np.linspace(0.0, 1.0, 33)
_BERNSTEIN = np.stack(
    [(1 - _TS) ** 3, 3 * (1 - _TS) ** 2 * _TS, 3 * (1 - _TS) * _TS**2, _TS**3], axis=1
)


def nearest_parameter(curve: Curve, p: Point) -> float:
    """The parameter of the curve's point nearest to `p` (a search by points, then Newton).

    Parameters
    ----------
    curve : a line or a cubic, cm
    p : a place, cm

    Returns
    -------
    from 0 to 1; of several as near, one
    """
    if isinstance(curve, Line):
        along = curve.end - curve.start
        size = abs(along) ** 2
        t = ((p - curve.start) * along.conjugate()).real / size if size else 0.0
        return min(max(t, 0.0), 1.0)
    gaps = np.abs(_BERNSTEIN @ np.array(curve.controls) - p)
    best = int(gaps.argmin())
    low, high = float(_TS[max(best - 1, 0)]), float(_TS[min(best + 1, 32)])
    t = float(_TS[best])
    for _ in range(40):
        gap, v = curve.at(t) - p, curve.velocity(t)
        slope = (gap * v.conjugate()).real
        if abs(slope) < 1e-15:
            break
        low, high = (low, t) if slope > 0 else (t, high)
        bend = abs(v) ** 2 + (gap * curve.acceleration(t).conjugate()).real
        after, last = t - slope / bend if bend > 0 else low - 1, _LAST
        if not low <= after <= high:
            after, last = (low + high) / 2, 1e-15
        if abs(after - t) < last:
            return after
        t = after
    return t
