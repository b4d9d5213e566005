"""The measures of a body as a draft uses them: widths halved, angles in radians."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians

from cutwright.blocks.ease import Ease
from cutwright.body.body import Body
from cutwright.errors import DraftError
from cutwright.messages import N_, Message

CAP = 0.60
"""The armhole is never deeper than this share of the back waist length (common practice)."""

PER_CUP = 0.7
"""Degrees of bust dart for each cm of cup beyond the usual (judgement), at most `MOST_CUP` degrees."""
MOST_CUP = 6.0
CUP = (0.07, 9.0)
"""The usual bust less underbust: this share of the bust and so many cm more (judgement)."""

DART_FIRST, DART_AT, DART_EACH = 16.0, 88.0, 1.35
"""Degrees of bust dart at that bust, and for each 4 cm more (common practice)."""
DART_RANGE = (8.0, 36.0)


@dataclass(frozen=True, slots=True)
class Tapes:
    """One body's measures for the upper body and skirt, cm; `slope` in radians."""

    bust: float
    waist: float
    hip: float
    neck: float
    shoulder: float
    slope: float
    half_back: float
    half_chest: float
    half_points: float
    back_length: float
    front_length: float
    bust_depth: float
    armhole_depth: float
    waist_to_hip: float
    underbust: float | None
    chest_taped: bool

    @staticmethod
    def of(body: Body) -> Tapes:
        """Read them from a body.

        Parameters
        ----------
        body : the measured person

        Returns
        -------
        cm, widths halved, the slope in radians

        Raises
        ------
        MeasureError : the body lacks a measure
        """
        return Tapes(
            bust=body.value("bust_girth"),
            waist=body.value("waist_girth"),
            hip=body.value("hip_girth"),
            neck=body.value("neck_base_girth"),
            shoulder=body.value("shoulder_length"),
            slope=radians(body.value("shoulder_slope")),
            half_back=body.value("back_width") / 2,
            half_chest=body.value("chest_width") / 2,
            half_points=body.value("bust_point_width") / 2,
            back_length=body.value("back_waist_length"),
            front_length=body.value("front_waist_length"),
            bust_depth=body.value("bust_depth"),
            armhole_depth=body.value("armhole_depth"),
            waist_to_hip=body.value("waist_to_hip"),
            underbust=body.value("underbust_girth") if body.taped("underbust_girth") else None,
            chest_taped=body.taped("chest_width"),
        )

    def depth(self, ease: Ease) -> float:
        """Armhole depth below the nape with its ease, never over 0.60 of the back length.

        Parameters
        ----------
        ease : of the block, cm

        Returns
        -------
        cm below the nape

        Source: common practice.
        """
        return min(self.armhole_depth + ease.armhole_depth, CAP * self.back_length)

    @property
    def below_bust(self) -> float:
        """Bust point to waist along the front, cm; refuses what no body has.

        Raises
        ------
        DraftError : less than 8 cm is left, so front waist length and bust depth disagree
        """
        rest = self.front_length - self.bust_depth
        if rest < 8:
            raise DraftError(
                Message(
                    "front-waist-length-bust-depth-2",
                    N_(
                        "Front waist length {front:.1f} and bust depth {depth:.1f} disagree: only "
                        "{rest:.1f} cm is left between bust point and waist, and at least 8 cm is "
                        "needed. Measure both again, from the same side neck point."
                    ),
                    front=self.front_length,
                    depth=self.bust_depth,
                    rest=rest,
                )
            )
        return rest

    def dart_angle(self) -> float:
        """Angle of the bust dart in radians, from fullness.

        Own method (docs/drafting.md, section 2): 16 degrees at bust 88 and 1.35 more for each 4 cm (common practice), corrected
        by bust less underbust where that is taped (usual: 0.07 bust + 9); kept in 8 to 36.
        """
        degrees = DART_FIRST + DART_EACH * (self.bust - DART_AT) / 4
        if self.underbust is not None:
            cup = (self.bust - self.underbust) - (CUP[0] * self.bust + CUP[1])
            degrees += min(max(PER_CUP * cup, -MOST_CUP), MOST_CUP)
        return radians(min(max(degrees, DART_RANGE[0]), DART_RANGE[1]))


@dataclass(frozen=True, slots=True)
class Halves:
    """Half the garment's girths with ease, cm."""

    bust: float
    waist: float
    hip: float

    @staticmethod
    def of(tapes: Tapes, ease: Ease) -> Halves:
        """Half of (girth + ease) at bust, waist and hip.

        Parameters
        ----------
        tapes : the body's measures as a draft uses them
        ease : of the block, cm

        Returns
        -------
        cm
        """
        return Halves(
            (tapes.bust + ease.bust) / 2,
            (tapes.waist + ease.waist) / 2,
            (tapes.hip + ease.hip) / 2,
        )
