"""A chart of women's sizes of our own: smooth sums of bust and height, no table behind them.

A size is named by what it measures: "bust 88, regular". Every figure is a straight line through
bust 88 and height 168; slopes and middle values are ours (common practice, rounded), held against
single published values in the tests. Girths do not change with height; lengths do.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from cutwright.body.card import BodyCard
from cutwright.body.rules import armhole_depth
from cutwright.errors import MeasureError
from cutwright.messages import N_, Message, Typed

STATURES: Mapping[str, float] = MappingProxyType({"short": 160.0, "regular": 168.0, "tall": 176.0})
"""Height of each row of sizes, in cm."""

BUSTS: tuple[int, ...] = (*range(76, 105, 4), *range(110, 141, 6))
"""The busts of the chart: 4 apart up to 104, 6 apart above, in cm."""

SHOWN = {"short": N_("short"), "regular": N_("regular"), "tall": N_("tall")}


@dataclass(frozen=True, slots=True)
class Line:
    """A measure as a straight line: the value at bust 88 and height 168, and its two slopes."""

    middle: float
    per_bust: float
    per_stature: float = 0.0

    def at(self, bust: float, stature: float) -> float:
        """The measure of a size, in cm."""
        return self.middle + self.per_bust * (bust - 88) + self.per_stature * (stature - 168)


CHART: Mapping[str, Line] = MappingProxyType(
    {
        "waist_girth": Line(70.0, 1.07),
        "hip_girth": Line(96.0, 0.90),
        "underbust_girth": Line(73.0, 0.94),
        "neck_girth": Line(33.8, 0.23),
        "neck_base_girth": Line(36.4, 0.20, 0.05),
        "upper_arm_girth": Line(27.2, 0.33),
        "wrist_girth": Line(15.6, 0.05, 0.03),
        "thigh_girth": Line(57.0, 0.60),
        "shoulder_length": Line(12.6, 0.025, 0.03),
        "back_width": Line(35.0, 0.20, 0.06),
        "back_waist_length": Line(40.5, 0.05, 0.20),
        "front_waist_length": Line(44.1, 0.13, 0.20),
        "bust_depth": Line(27.0, 0.08, 0.09),
        "waist_to_hip": Line(19.0, 0.0, 0.12),
        "arm_length": Line(57.0, 0.02, 0.36),
    }
)
"""How each measure of a size follows from its bust and height."""


def size(bust: float, stature: str | float = "regular") -> BodyCard:
    """The body card of a size.

    Parameters
    ----------
    bust : bust girth in cm, anything from the smallest to the largest of the chart
    stature : "short", "regular" or "tall", or a height from 150 to 186 cm
    """
    height = _height(stature)
    if not BUSTS[0] <= bust <= BUSTS[-1]:
        raise MeasureError(
            Message(
                "size-off-chart",
                N_("The chart of sizes runs from bust {lo} to {hi} cm; {bust:g} is not on it."),
                lo=BUSTS[0],
                hi=BUSTS[-1],
                bust=bust,
            )
        )
    measures = {name: line.at(bust, height) for name, line in CHART.items()}
    measures["armhole_depth"] = armhole_depth(
        height, bust, measures["shoulder_length"], 19, measures["back_waist_length"]
    )
    measures |= {"stature": height, "bust_girth": bust}
    return BodyCard(name=str(size_name(bust, stature)), measures=_to_a_millimetre(measures))


def size_name(bust: float, stature: str | float = "regular") -> Message:
    """What a size is called: "bust 88, regular"."""
    if isinstance(stature, str) and stature in SHOWN:
        return Message("size-of-row", N_("bust {bust:g}, {row}"), bust=bust, row=SHOWN[stature])
    return Message(
        "size-of-height", N_("bust {bust:g}, height {height}"), bust=bust, height=Typed(stature)
    )


def sizes() -> list[tuple[int, str]]:
    """Every size of the chart as (bust, row): what `size` takes."""
    return [(bust, row) for row in STATURES for bust in BUSTS]


def _height(stature: str | float) -> float:
    """The height of a row, or the height itself where it is within reach of the chart."""
    if isinstance(stature, str):
        if stature in STATURES:
            return STATURES[stature]
    elif 150 <= stature <= 186:
        return float(stature)
    raise MeasureError(
        Message(
            "no-such-row",
            N_(
                "There is no row “{stature}” in the chart of sizes; there are {rows}, or a height from "
                "150 to 186 cm."
            ),
            stature=Typed(stature),
            rows=tuple(STATURES),
        )
    )


def _to_a_millimetre(measures: Mapping[str, float]) -> dict[str, float]:
    return {name: round(value, 1) for name, value in measures.items()}
