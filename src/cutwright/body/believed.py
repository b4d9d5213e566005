"""The range in which each measure of a particular body is believed.

Fits reach 3.5 standard deviations for the nine measures tried on the survey, 4 for the others; the
rest are ranges of common practice. Beyond the survey's smallest and largest hundredth the ranges
widen by 2 % for each centimetre, because nothing was measured there.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from cutwright.body.fits import BUST, FITS, HIP, ISO_BACK, NAVEL_BACK, WAIST
from cutwright.body.measures import MEASURES
from cutwright.body.rules import armhole_depth, chest_width

LIMIT = 3.5
"""Standard deviations beyond which the nine measures are asked about."""

LOOSER = 4.0
"""The same for measures that were not among the nine."""

NINE = (
    "neck_base_girth", "shoulder_length", "back_width", "back_waist_length", "arm_length",
    "upper_arm_girth", "wrist_girth", "inside_leg", "thigh_girth",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Range:
    """Where a measure is believed, in its unit."""

    lo: float
    hi: float

    @classmethod
    def about(cls, middle: float, reach: float) -> Range:
        """As far to either side of a middle."""
        return cls(middle - reach, middle + reach)

    def holds(self, value: float) -> bool:
        """Whether the value is believed."""
        return self.lo <= value <= self.hi

    def strain(self, value: float) -> float:
        """How far off the middle the value is: 0 in the middle, 1 at the ends."""
        return abs(2 * value - self.lo - self.hi) / (self.hi - self.lo)


def believed(values: Mapping[str, float]) -> dict[str, Range]:
    """Where each measure is believed, seen from the other measures of the same body.

    Measures for which the others say nothing are left out. Values outside their bounds are not
    used to judge others.
    """
    v = {name: value for name, value in values.items() if MEASURES[name].holds(value)}
    stature, bust, hip = v.get("stature"), v.get("bust_girth"), v.get("hip_girth")
    found: dict[str, Range] = {"shoulder_slope": Range(8, 32)}
    if bust is not None:
        found["bust_point_width"] = Range.about(bust / 8 + 7.8, 6)
        found["underbust_girth"] = Range.about(0.93 * bust - 9, 11)
    if stature is not None and bust is not None:
        found["hip_girth"] = Range.about(HIP.at(stature, bust, 0), LOOSER * HIP.scatter)
    if stature is not None and hip is not None:
        found["bust_girth"] = Range.about(BUST.at(stature, 0, hip), LOOSER * BUST.scatter)
        found["waist_girth"] = Range.about(WAIST.at(stature, 0, hip), LOOSER * WAIST.scatter)
    if stature is not None and bust is not None and hip is not None:
        found |= _fitted(stature, bust, hip)
        found |= _ruled(v, stature, bust, hip)
    return found


def _fitted(stature: float, bust: float, hip: float) -> dict[str, Range]:
    """Where the survey's fits expect the measures."""
    wider = 1 + 0.02 * max(
        0, bust - 116, hip - 120.6, stature - 177.8, 78.4 - bust, 86.7 - hip, 148.3 - stature
    )
    found = {
        name: Range.about(
            fit.at(stature, bust, hip),
            (LIMIT if name in NINE else LOOSER) * fit.scatter * wider,
        )
        for name, fit in FITS.items()
    }
    # Between the ISO waist and the navel every back length is right for somebody's waist tape:
    # for the survey's mean woman this is 33.0 to 49.4.
    found["back_waist_length"] = Range(
        ISO_BACK.at(stature, bust, hip) - 5.0 * wider,
        NAVEL_BACK.at(stature, bust, hip) + 6.9 * wider,
    )
    return found


def _ruled(v: Mapping[str, float], stature: float, bust: float, hip: float) -> dict[str, Range]:
    """Where rules of common practice expect the measures that no survey has."""
    found = {}
    back = v.get("back_waist_length", FITS["back_waist_length"].at(stature, bust, hip))
    found["front_waist_length"] = Range.about(back + 3.6 + 0.08 * (bust - 88), 6)
    breadth = v.get("shoulder_breadth", FITS["shoulder_breadth"].at(stature, bust, hip))
    found["chest_width"] = Range.about(chest_width(breadth, bust), 7)
    found["armhole_depth"] = Range.about(armhole_depth(stature, bust, 13.5, 19, back), 5)
    if "calf_girth" in v:
        found["knee_girth"] = Range.about(v["calf_girth"] + 1.4, 6)
    return found
