"""A waist seam as a chain of arcs that meets the centre, every dart leg and the side square.

Between two neighbours runs a circular arc whose turn is the difference of the headings at its
ends, so the waist is smooth with the darts folded, both legs of a dart are equal, and the length
of the waist is exact by construction (own method, docs/drafting.md, section 6).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import asin

from cutwright.errors import DraftError
from cutwright.geometry.curve import Cubic
from cutwright.geometry.draw import arc
from cutwright.geometry.point import Point, direction
from cutwright.messages import N_, Message

DOWN, UP = -1, 1
"""Which way the darts point: down in a skirt, up in a bodice."""


@dataclass(frozen=True, slots=True)
class WaistDart:
    """A dart of the waist seam: its mouth from the centre outwards and its point."""

    near: Point
    tip: Point
    far: Point


@dataclass(frozen=True, slots=True)
class Chain:
    """A waist from the centre to the side: one arc more than there are darts."""

    arcs: tuple[Cubic, ...]
    darts: tuple[WaistDart, ...]

    @property
    def start(self) -> Point:
        """The waist at the centre."""
        return self.arcs[0].start

    @property
    def end(self) -> Point:
        """The waist at the side."""
        return self.arcs[-1].end


def chain(
    start: Point,
    stretches: Sequence[float],
    darts: Sequence[tuple[float, float]],
    lean: float,
    points: int,
) -> Chain:
    """The waist from a centre point, level there.

    Parameters
    ----------
    start : the centre at the waist, cm
    stretches : between centre, darts and side, cm
    darts : (intake, leg) of each dart, cm
    lean : how the side leans away from the body at the waist, radians; inwards for a bodice,
        outwards for a skirt
    points : UP or DOWN, where the darts point

    Returns
    -------
    the arcs and the darts, from the centre to the side

    Raises
    ------
    DraftError : a dart cannot be folded
    """
    arcs: list[Cubic] = []
    wedges: list[WaistDart] = []
    at, angle = start, 0.0
    for size, (intake, leg) in zip(stretches, darts, strict=False):
        half = _half_angle(intake, leg)
        arcs.append(arc(at, direction(angle), size, points * half - angle))
        near = arcs[-1].end
        tip = near + leg * direction(points * half) * -1j * points
        far = tip + (near - tip) * direction(-2 * points * half)
        wedges.append(WaistDart(near, tip, far))
        at, angle = far, -points * half
    arcs.append(arc(at, direction(angle), stretches[-1], points * lean - angle))
    return Chain(tuple(arcs), tuple(wedges))


def _half_angle(intake: float, leg: float) -> float:
    """Half the angle of a dart from its intake and its leg; DraftError where it cannot be folded."""
    if intake >= 1.6 * leg:
        raise DraftError(
            Message(
                "waist-dart-would-cm-wide",
                N_(
                    "A waist dart would be {intake:.1f} cm wide on a leg of {leg:.1f} cm, which cannot be "
                    "sewn. Make the darts longer, take more of them, or give the hip less ease."
                ),
                intake=intake,
                leg=leg,
            )
        )
    return asin(intake / 2 / leg)
