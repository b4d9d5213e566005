"""The side seam of the upper body, the same curve behind and in front."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, cos, sin

from cutwright.blocks.frame import at_level
from cutwright.geometry.curve import Cubic
from cutwright.geometry.point import Point
from cutwright.geometry.solve import root


@dataclass(frozen=True, slots=True)
class Side:
    """The side from underarm to waist; u counts from the bust width outwards, `lean` in radians."""

    curve: Cubic
    lean: float

    def moved(self, width: float) -> Cubic:
        """The curve at its place on a piece whose bust width is given."""
        return Cubic(*(p + width for p in self.curve.controls))


def upper_side(
    depth: float, bust: float, waist: float, inside: float, ends: float | None = 0.0
) -> Side:
    """The side from the underarm (level `depth`) through the bust width to the waist.

    Parameters: levels of underarm, bust and waist; how far the waist lies inside the bust width;
    the lean at the waist in radians (None: as the line from bust to waist leans).
    Own method: it leaves the underarm with 1.25 times its chord's lean, less the lower the bust
    lies, so that a low bust does not pinch; the underarm is solved so that the bust width holds.
    """
    level = max(depth, bust)
    at_waist = atan(inside / (waist - level)) if ends is None else ends
    ease_in = 1.25 if ends is not None else 1.0

    def drawn(under: float) -> tuple[Cubic, float]:
        chord = atan((under + inside) / (waist - depth))
        lean = ease_in * chord * max(0.0, 1 - (level - depth) / 5)
        first = 0.33 * (waist - depth) + 0.35 * (level - depth)
        last = 0.30 * (waist - level)
        start, end = complex(under, depth), complex(-inside, waist)
        return (
            Cubic(start, start + first * _down(lean), end - last * _down(at_waist), end),
            lean,
        )

    def off(under: float) -> float:
        curve, _lean = drawn(under)
        return curve.at(at_level(curve, level)).real

    under = 0.0 if level - depth < 1e-9 else root(off, -6.0, 6.0, tolerance=1e-11)
    return Side(*drawn(under))


def _down(lean: float) -> Point:
    """The step down along a side that leans inwards."""
    return complex(-sin(lean), cos(lean))


def hip_side(waist: Point, hip: Point, flare: float) -> Cubic:
    """The side from the waist, upright there, to the hip, in the direction of the skirt's side."""
    tall = hip.imag - waist.imag
    return Cubic(
        waist, waist + 0.35j * tall, hip - 0.5 * tall * complex(sin(flare), cos(flare)), hip
    )
