"""The centre back: upright, or hollowed at the waist with a seam."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from cutwright.blocks.frame import at_level
from cutwright.geometry.curve import Cubic, Curve, Line, curve_length
from cutwright.geometry.path import Path
from cutwright.geometry.point import Point

Back = Literal["shaped", "seam", "fold"]
_STRAIGHT = 0.40  # share of the back length down to which the centre is straight


@dataclass(frozen=True, slots=True)
class CentreBack:
    """The centre back from the nape to the waist: `level` is the waist's y, `hollow` its u."""

    level: float
    hollow: float
    curve: Cubic | None

    def at(self, y: float) -> float:
        """How far inside the upright the centre lies at a level, cm.

        Parameters
        ----------
        y : level below the nape, cm

        Returns
        -------
        cm, nought where it is upright
        """
        if self.curve is None or y <= self.curve.start.imag:
            return 0.0
        return self.curve.at(at_level(self.curve, y)).real

    def path(self) -> Path:
        """From the nape down to the waist."""
        if self.curve is None:
            return (Line(0j, complex(0, self.level)),)
        return (Line(0j, self.curve.start), self.curve)


def centre_back(size: float, hollow: float) -> CentreBack:
    """The centre back of a given length along its curve, hollowed at the waist.

    Own method (docs/drafting.md, section 2): straight for 0.40 of the length, then a cubic with upright tangents whose handles
    are 0.45 and 0.40 of its height; the waist level is solved so that the length is exact. It
    has one inflection between blade and waist, which is its purpose.

    Parameters
    ----------
    size : back waist length along the curve, cm
    hollow : how far in at the waist, cm; nought or less: upright

    Returns
    -------
    the centre back with the level of its waist
    """
    if hollow <= 0:
        return CentreBack(size, 0.0, None)
    start = _STRAIGHT * size
    level = size
    for _i in range(20):
        curve = _hollowed(complex(0, start), complex(hollow, level))
        gap = size - start - curve_length(curve)
        if abs(gap) < 1e-12:
            break
        level += gap
    return CentreBack(level, hollow, curve)


def _hollowed(p: Point, q: Point) -> Cubic:
    tall = (q - p).imag * 1j
    return Cubic(p, p + 0.45 * tall, q - 0.40 * tall, q)


def below_waist(waist: Point, hip: Point, hem: float) -> Path:
    """The centre from the waist over the hip down to the hem, straight on the grain below the hip.

    Parameters
    ----------
    waist : the centre at the waist, cm
    hip : the centre at the hip, cm
    hem : y of the hem, cm

    Returns
    -------
    downwards, in one or two curves
    """
    curves: list[Curve] = []
    if abs(hip.real - waist.real) < 1e-9:
        return (Line(waist, complex(waist.real, hem)),)
    tall = (hip - waist).imag * 1j
    curves.append(Cubic(waist, waist + 0.4 * tall, hip - 0.4 * tall, hip))
    if hem > hip.imag + 1e-9:
        curves.append(Line(hip, complex(hip.real, hem)))
    return tuple(curves)
