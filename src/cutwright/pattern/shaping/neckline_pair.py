"""Front and back neckline together: the angles at the shoulder that make them run on into each other."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, radians

from cutwright.errors import StepError
from cutwright.geometry.hollow import least_radius
from cutwright.pattern.shaping.necklines import (
    EASY,
    DrawnNeckline,
    NecklineEnds,
    Shape,
    neckline,
    shoulder_angle,
)

_STEP, _STEPS = radians(2.0), 25
_MOST = radians(125.0)
_UNDER = radians(5.0)
"""How far a neckline may run outwards below the shoulder, seen from straight down."""


@dataclass(frozen=True, slots=True)
class NecklineWish:
    """One half of a neckline that may leave the shoulder as suits both."""

    shape: Shape
    ends: NecklineEnds
    rounding: float = 0.0

    def may(self, angle: float) -> bool:
        """Whether a line may leave the shoulder at an angle.

        Parameters
        ----------
        angle : of paper with the shoulder, radians

        Returns
        -------
        False over 125 degrees, or where it would run more than 5 degrees outwards of straight down
        """
        return self.ends.angle(self.ends.down) - _UNDER <= angle <= _MOST

    def drawn(self, angle: float) -> DrawnNeckline:
        """The line that leaves the shoulder at an angle.

        Parameters
        ----------
        angle : of paper with the shoulder, radians

        Returns
        -------
        the line from shoulder to centre

        Raises
        ------
        StepError : it cannot bend so, or its corner cannot be rounded so far
        """
        return neckline(self.shape, self.ends, angle, self.rounding)


def drawn_together(
    front: NecklineWish, back: NecklineWish, was: float
) -> tuple[DrawnNeckline, DrawnNeckline]:
    """Both lines, their angles at the shoulder adding to 180 degrees.

    A V and a square run straight from the shoulder where the other half can take what is left. The
    angle is given up, in steps of 2 degrees up to 50, only as far as it takes to keep both lines
    from turning more tightly than `EASY`. Own method.

    Parameters
    ----------
    front, back : what each half is to be
    was : angle of paper of the front so far, radians; wished where both are curved

    Returns
    -------
    the front's line and the back's, each from shoulder to centre

    Raises
    ------
    StepError : neither can be drawn
    """
    wish = _wish(front, back, was)
    best: tuple[float, DrawnNeckline, DrawnNeckline] | None = None
    for k in range(2 * _STEPS + 1):
        angle = wish + _STEP * ((k + 1) // 2) * (1 if k % 2 else -1)
        if not (front.may(angle) and back.may(pi - angle)):
            continue
        try:
            one, other = front.drawn(angle), back.drawn(pi - angle)
        except StepError:
            continue
        radius = min(least_radius(one.path), least_radius(other.path))
        if radius >= EASY:
            return one, other
        if best is None or radius > best[0] + 0.02:
            best = radius, one, other
    if best is None:
        return front.drawn(was), back.drawn(pi - was)
    return best[1:]


def _wish(front: NecklineWish, back: NecklineWish, was: float) -> float:
    one, other = shoulder_angle(front.shape, front.ends), shoulder_angle(back.shape, back.ends)
    if one is None and other is None:
        return was
    if one is None or other is None:
        return one if one is not None else pi - (other or 0.0)
    return one + (pi - one - other) / 2
