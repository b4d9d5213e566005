"""The side seam of the upper body, the same curve behind and in front."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, cos, sin, tan

from cutwright.blocks.frame import at_level
from cutwright.geometry.curve import Cubic, Line
from cutwright.geometry.draw import hermite
from cutwright.geometry.move import Move
from cutwright.geometry.path import Path, moved_path
from cutwright.geometry.point import Point
from cutwright.geometry.solve import root


@dataclass(frozen=True, slots=True)
class SideSeam:
    """The side from underarm to waist; u counts from the bust width outwards, `lean` in radians."""

    curves: Path
    lean: float

    def moved(self, width: float) -> Path:
        """The side at its place on a piece whose bust width is given.

        Parameters
        ----------
        width : from the centre to the side at the bust, cm

        Returns
        -------
        from the underarm down to the waist
        """
        return moved_path(self.curves, Move.by(complex(width)))


def dress_side(depth: float, level: float, waist: float, inside: float) -> SideSeam:
    """The side from the underarm through the bust width to the waist, upright there.

    Own method (docs/drafting.md, section 5): it leaves the underarm with 1.25 times its chord's
    lean, less the lower the bust lies, so that a low bust does not pinch; the underarm is solved
    so that the bust width holds.

    Parameters
    ----------
    depth, level, waist : y of underarm, bust (not above the underarm) and waist, cm
    inside : how far the waist lies inside the bust width, cm

    Returns
    -------
    the side with u counted from the bust width
    """

    def drawn(under: float) -> tuple[Cubic, float]:
        chord = atan((under + inside) / (waist - depth))
        lean = 1.25 * chord * _less(level - depth)
        first = 0.33 * (waist - depth) + 0.35 * (level - depth)
        start, end = complex(under, depth), complex(-inside, waist)
        return (
            Cubic(start, start + first * _down(lean), end - 0.30j * (waist - level), end),
            lean,
        )

    def off(under: float) -> float:
        curve, _lean = drawn(under)
        return curve.at(at_level(curve, level)).real

    under = 0.0 if level - depth < 1e-9 else root(off, -6.0, 6.0, tolerance=1e-11)
    curve, lean = drawn(under)
    return SideSeam((curve,), lean)


def bodice_side(depth: float, level: float, waist: float, inside: float) -> SideSeam:
    """The side of a bodice: straight from the bust to the waist, a soft bow above a low bust.

    The bow has equal turns at both ends, so its chord leans by their mean and nothing is solved.

    Parameters
    ----------
    depth : y of the underarm, cm
    level : y of the bust, not above the underarm, cm
    waist : y of the waist, cm
    inside : how far the waist lies inside the bust width, cm

    Returns
    -------
    the side, counted from the bust width
    """
    end = complex(-inside, waist)
    lean = atan(inside / (waist - level))
    if level - depth < 1e-9:
        return SideSeam((Line(complex(0, depth), end),), lean)
    leaving = lean * _less(level - depth)
    start = complex(tan((lean + leaving) / 2) * (level - depth), depth)
    bow = hermite(start, _down(leaving), complex(0, level), _down(lean))
    return SideSeam((bow, Line(bow.end, end)), leaving)


def _less(low: float) -> float:
    """How much of its lean the side keeps at the underarm when the bust lies so far below it."""
    return max(0.0, 1 - low / 5)


def point_at_level(path: Path, y: float) -> Point:
    """Where a side passes a level.

    Parameters
    ----------
    path : runs steadily down
    y : the level, cm; beyond the ends the end counts

    Returns
    -------
    cm
    """
    for curve in path:
        if y <= curve.end.imag or curve is path[-1]:
            if isinstance(curve, Line):
                return curve.at((y - curve.start.imag) / (curve.end.imag - curve.start.imag))
            return curve.at(at_level(curve, y))
    return path[-1].end


def _down(lean: float) -> Point:
    """The step down along a side that leans inwards."""
    return complex(-sin(lean), cos(lean))


def hip_side(waist: Point, hip: Point, flare: float) -> Cubic:
    """The side from the waist, upright there, to the hip, in the direction of the skirt's side.

    Parameters
    ----------
    waist, hip : the side there, cm
    flare : lean of the skirt's side, radians

    Returns
    -------
    one cubic
    """
    tall = hip.imag - waist.imag
    return Cubic(
        waist, waist + 0.35j * tall, hip - 0.5 * tall * complex(sin(flare), cos(flare)), hip
    )
