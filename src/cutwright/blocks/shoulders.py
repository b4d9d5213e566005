"""The back and the front shoulder, each in closed form.

A shoulder with its dart is one rigid figure that hangs on the side neck point, so the slope that
brings its end to a wished level is an angle whose sine is known: nothing has to be searched.
"""

from __future__ import annotations

from cmath import phase
from dataclasses import dataclass
from math import asin, pi

from cutwright.blocks.frame import turned
from cutwright.geometry.point import Point, between, direction, unit

AT = 0.42
"""The shoulder darts stand at this share of the shoulder from the neck (common practice)."""

SHORT = 2.0
"""A bust dart stops this far short of the bust point, cm (common practice)."""


@dataclass(frozen=True, slots=True)
class Wedge:
    """A dart on the shoulder: mouth points from the neck outwards, pivot and stitched tip."""

    near: Point
    far: Point
    pivot: Point
    tip: Point


@dataclass(frozen=True, slots=True)
class Shoulder:
    """A shoulder in its frame: slopes in radians below level, towards the side."""

    neck: Point
    end: Point
    inner: float
    outer: float
    wedge: Wedge | None

    def moved(self, step: Point) -> Shoulder:
        """The same shoulder shifted.

        Parameters
        ----------
        step : how far, cm
        """
        wedge = self.wedge and Wedge(
            self.wedge.near + step,
            self.wedge.far + step,
            self.wedge.pivot + step,
            self.wedge.tip + step,
        )
        return Shoulder(self.neck + step, self.end + step, self.inner, self.outer, wedge)


def back_shoulder(size: float, slope: float, dart: float, depth: float) -> Shoulder:
    """The back shoulder from a side neck point at 0; `dart` is the width of its dart at the mouth.

    Own method (docs/drafting.md, section 3): leg min(8, 0.6 armhole depth), the inner leg square to the inner part; the
    shoulder is straight when the dart is closed, and the straight line from neck to end has the
    slope that was measured.

    Parameters
    ----------
    size : shoulder length with its ease, cm
    slope : of the line from neck to end, radians below level
    dart : width of its mouth, cm; 0 for none
    depth : armhole depth, cm

    Returns
    -------
    the shoulder with its side neck point at 0
    """
    if dart <= 0:
        return Shoulder(0j, size * direction(slope), slope, slope, None)
    leg = min(8.0, 0.6 * depth)
    opened = 2 * asin(dart / 2 / leg)
    near = complex(AT * size)
    tip = near + leg * 1j
    far = turned(near, tip, opened)
    end = far + (1 - AT) * size * direction(opened)
    inner = slope - phase(end)
    spin = direction(inner)
    wedge = Wedge(near * spin, far * spin, tip * spin, tip * spin)
    return Shoulder(0j, end * spin, inner, inner + opened, wedge)


def front_shoulder(
    neck: Point, size: float, bust_point: Point, dart: float, level: float
) -> Shoulder:
    """The front shoulder, its end brought to a level by its slope; `dart` is the open angle.

    Own method (docs/drafting.md, section 3): the outer part is turned about the bust point by the dart; the level of its end is
    bust level + Im(turned neck) + size sin(slope + dart). Where no slope reaches the level the
    nearest is taken; `reaches` tells.

    Parameters
    ----------
    neck, bust_point : places in the half's frame, cm
    size : shoulder length, cm
    dart : open angle of the bust dart, radians
    level : y of the shoulder's end, cm

    Returns
    -------
    the shoulder drafted open
    """
    lever = turned(neck, bust_point, dart).imag
    sine = min(max((level - lever) / size, -1.0), 1.0)
    inner = asin(sine) - dart
    near = neck + AT * size * direction(inner)
    far = turned(near, bust_point, dart)
    end = far + (1 - AT) * size * direction(inner + dart)
    axis = unit(between(near, far, 0.5) - bust_point) if dart > 1e-9 else unit(near - bust_point)
    wedge = Wedge(near, far, bust_point, bust_point + SHORT * axis)
    return Shoulder(neck, end, inner, inner + dart, wedge)


def reaches(neck: Point, size: float, bust_point: Point, dart: float, level: float) -> bool:
    """Whether some slope between 35 degrees up and 55 down brings the front shoulder to a level.

    Parameters
    ----------
    neck : side neck point, cm
    size : shoulder length, cm
    bust_point : cm
    dart : open angle of the bust dart, radians
    level : y of the shoulder's end, cm
    """
    sine = (level - turned(neck, bust_point, dart).imag) / size
    return -1 < sine < 1 and -35 * pi / 180 < asin(sine) - dart < 55 * pi / 180
