"""The frame in which one half of a block is drawn.

u runs from the centre towards the side, y down; a point is u + y*1j. Back and front are drawn
alike, the front is mirrored into place at the end. A heading is 0 straight down and a right
angle towards the side.
"""

from __future__ import annotations

from math import atan2, cos, sin

from cutwright.geometry.curve import Cubic
from cutwright.geometry.point import Point, direction


def heading(angle: float) -> Point:
    """The unit step with a heading in radians.

    Parameters
    ----------
    angle : radians; 0 straight down, a right angle towards the side

    Returns
    -------
    a step of length 1
    """
    return complex(sin(angle), cos(angle))


def heading_of(step: Point) -> float:
    """The heading of a step, radians.

    Parameters
    ----------
    step : in the frame of the half

    Returns
    -------
    radians; 0 straight down, a right angle towards the side
    """
    return atan2(step.real, step.imag)


def turned(p: Point, about: Point, angle: float) -> Point:
    """A point turned about another; a positive angle carries what lies above towards the side.

    Parameters
    ----------
    p, about : places in the half's frame, cm
    angle : radians; positive carries what lies above towards the side

    Returns
    -------
    the place, cm
    """
    return about + (p - about) * direction(angle)


def at_level(curve: Cubic, y: float) -> float:
    """The parameter at which a curve that runs steadily down (or up) passes a level.

    Parameters
    ----------
    curve : a cubic whose y only grows or only falls
    y : level, cm; beyond the ends the end counts

    Returns
    -------
    its parameter from 0 to 1, to 1e-13 cm
    """
    y0, y1, y2, y3 = (p.imag for p in curve.controls)
    if y0 > y3:
        return 1.0 - at_level(curve.reversed(), y)
    if y <= y0:
        return 0.0
    if y >= y3:
        return 1.0
    low, high, t = 0.0, 1.0, (y - y0) / (y3 - y0)
    for _i in range(60):
        s = 1 - t
        gap = s * s * s * y0 + 3 * s * s * t * y1 + 3 * s * t * t * y2 + t * t * t * y3 - y
        if abs(gap) < 1e-13:
            break
        low, high = (t, high) if gap < 0 else (low, t)
        slope = 3 * (s * s * (y1 - y0) + 2 * s * t * (y2 - y1) + t * t * (y3 - y2))
        t = t - gap / slope if slope > 0 else (low + high) / 2
        if not low < t < high:
            t = (low + high) / 2
    return t
