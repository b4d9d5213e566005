"""Points of the plane as complex numbers: x to the right, y down, centimetres.

A turn by a positive angle carries x towards y, which the eye sees as clockwise because y runs
down. Sums, differences and turns are then plain arithmetic: `p + d * length`.
"""

from __future__ import annotations

import cmath
from math import cos, sin

Point = complex
"""A place (or a difference of places) in the plane, in centimetres."""


def direction(angle: float) -> Point:
    """The unit step that leaves at an angle (radians from x towards y).

    Parameters
    ----------
    angle : radians from x towards y, clockwise to the eye

    Returns
    -------
    a step of length one
    """
    return complex(cos(angle), sin(angle))


def unit(step: Point) -> Point:
    """The step with length one; a step of no length stays as it is.

    Parameters
    ----------
    step : of any length, cm

    Returns
    -------
    a step of length one; nought for nought
    """
    size = abs(step)
    return step / size if size else step


def dot(a: Point, b: Point) -> float:
    """How far `b` goes along `a`, times the length of `a`.

    Parameters
    ----------
    a, b : steps, cm

    Returns
    -------
    cm2; cm where `a` has length one
    """
    return a.real * b.real + a.imag * b.imag


def cross(a: Point, b: Point) -> float:
    """Twice the area of the triangle 0, a, b; positive where b lies clockwise of a to the eye.

    Parameters
    ----------
    a, b : steps, cm

    Returns
    -------
    cm2; the distance of `b` from the line along `a` in cm, with its sign, where `a` has length one
    """
    return a.real * b.imag - a.imag * b.real


def angle_of(step: Point) -> float:
    """The angle of a step from x towards y, radians in (-pi, pi].

    Parameters
    ----------
    step : of any length

    Returns
    -------
    radians in (-pi, pi], positive clockwise to the eye; 0 for a step of no length
    """
    return cmath.phase(step)


def angle_between(a: Point, b: Point) -> float:
    """The turn that carries the direction of `a` onto that of `b`, radians in (-pi, pi].

    Parameters
    ----------
    a, b : steps of any length but nought

    Returns
    -------
    radians, positive clockwise to the eye
    """
    return cmath.phase(b * a.conjugate())


def between(a: Point, b: Point, share: float) -> Point:
    """The place that lies the given share of the way from `a` to `b`.

    Parameters
    ----------
    a, b : places, cm
    share : 0 gives `a`, 1 gives `b`; beyond them the line goes on

    Returns
    -------
    the place, cm
    """
    return a + (b - a) * share


def distance_to_line(p: Point, a: Point, b: Point) -> float:
    """How far `p` lies from the straight line through `a` and `b`.

    Parameters
    ----------
    p : a place, cm
    a, b : two places on the line, not the same; the line goes on beyond them

    Returns
    -------
    cm, never negative
    """
    return abs(cross(unit(b - a), p - a))


def on_grid(p: Point, lines: float) -> Point:
    """The nearest place on a grid.

    Parameters
    ----------
    p : a place, cm
    lines : how many lines of the grid there are to a cm
    """
    return complex(round(p.real * lines) / lines, round(p.imag * lines) / lines)
