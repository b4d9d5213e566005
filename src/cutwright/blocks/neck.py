"""The neck: the width at which the neckline is as long as the neck, with both shoulders."""

from __future__ import annotations

from math import sqrt

from cutwright.blocks.plan import Plan
from cutwright.blocks.shoulders import Shoulder, back_shoulder, front_shoulder, reaches
from cutwright.blocks.tapes import Tapes
from cutwright.errors import DraftError, GeometryError
from cutwright.geometry.curve import Cubic, curve_length
from cutwright.geometry.draw import SHALLOW, corner_arc
from cutwright.geometry.point import Point, direction
from cutwright.geometry.solve import root
from cutwright.messages import N_, Message

RISE, RISE_MORE = 0.28, 0.05
"""How high the side neck point lies above the nape: this share of the neck width and so many cm more (own method)."""

DEEPER = 0.6
"""How much deeper the front neck is than it is wide, cm (own method)."""


def _side_point(width: float) -> Point:
    """The back's side neck point on a neck of this width."""
    return complex(width, -RISE * width - RISE_MORE)


class Neck:
    """The neck width that makes the neckline as long as the neck, with its shoulders."""

    def __init__(self, plan: Plan, bust_level: float, lead: float) -> None:
        self.plan, self.lead = plan, lead
        tapes = plan.tapes
        self.bust_point = complex(tapes.half_points, bust_level)
        size = tapes.shoulder + (0.0 if plan.shoulder_dart > 0 else plan.shoulder_ease)
        self.shape = back_shoulder(size, tapes.slope, plan.shoulder_dart, plan.depth)
        self.wanted = (tapes.neck + plan.ease.neck) / 2
        try:
            self.width = root(self._surplus, *self._bracket(), tolerance=1e-10)
        except GeometryError:
            raise _no_neck(tapes) from None
        self._refuse_shoulder()
        self.back = self._back(self.width)
        self.front = self._front(self.width)

    def _bracket(self) -> tuple[float, float]:
        guess = 0.367 * self.wanted
        low, high = max(3.5, guess - 0.8), min(14.0, guess + 0.8)
        if (self._surplus(low) > 0) != (self._surplus(high) > 0):
            return low, high
        return 3.5, 14.0

    def _surplus(self, width: float) -> float:
        return (
            curve_length(self.back_neck(width)) + curve_length(self.front_neck(width)) - self.wanted
        )

    def _back(self, width: float) -> Shoulder:
        """The back shoulder on a neck of this width."""
        return self.shape.moved(_side_point(width))

    def _front_point(self, width: float) -> Point:
        """The front's side neck point: as far from the bust point as the bust is deep."""
        tapes = self.plan.tapes
        drop = sqrt(max(tapes.bust_depth**2 - (tapes.half_points - width) ** 2, 0.0))
        return complex(width, self.bust_point.imag - drop)

    def _level(self, width: float) -> float:
        """Where the front shoulder end shall lie."""
        return self._back(width).end.imag + self.lead

    def _front(self, width: float) -> Shoulder:
        """The front shoulder on a neck of this width."""
        tapes = self.plan.tapes
        return front_shoulder(
            self._front_point(width),
            tapes.shoulder,
            self.bust_point,
            self.plan.dart,
            self._level(width),
        )

    def back_neck(self, width: float) -> Cubic:
        """The back neckline: level at the centre, square to the shoulder.

        Parameters
        ----------
        width : of the half neck, cm

        Returns
        -------
        from the centre to the side neck point, cm
        """
        neck = _side_point(width)
        return corner_arc(0j, 1 + 0j, neck, direction(self.shape.inner) * -1j, *SHALLOW)

    def front_neck(self, width: float) -> Cubic:
        """The front neckline: level at the centre, square to the shoulder.

        Parameters
        ----------
        width : of the half neck, cm

        Returns
        -------
        from the centre to the side neck point, cm
        """
        front = self._front(width)
        centre = complex(0, front.neck.imag + width + DEEPER)
        return corner_arc(centre, 1 + 0j, front.neck, direction(front.inner) * -1j, 0.58)

    def _refuse_shoulder(self) -> None:
        tapes, width = self.plan.tapes, self.width
        if not reaches(
            self._front_point(width),
            tapes.shoulder,
            self.bust_point,
            self.plan.dart,
            self._level(width),
        ):
            raise DraftError(
                Message(
                    "front-waist-length-bust-depth",
                    N_(
                        "Front waist length {front:.1f}, bust depth {depth:.1f} and back waist length "
                        "{back:.1f} disagree: no slope brings the front shoulder to the level of the "
                        "back one. Measure these three again."
                    ),
                    front=tapes.front_length,
                    depth=tapes.bust_depth,
                    back=tapes.back_length,
                )
            )


def _no_neck(tapes: Tapes) -> DraftError:
    return DraftError(
        Message(
            "no-neckline-cm-can-drawn",
            N_(
                "No neckline of {neck:.1f} cm can be drawn: neck base girth, bust depth {depth:.1f} "
                "and front waist length {front:.1f} disagree. Measure them again."
            ),
            neck=tapes.neck,
            depth=tapes.bust_depth,
            front=tapes.front_length,
        )
    )
