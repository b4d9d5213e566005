"""The side of a skirt bends one way from waist to hip, whatever flare is asked for below."""

from __future__ import annotations

from math import inf

import pytest

from cutwright.blocks.draft_skirt import DraftSkirt
from cutwright.body.card import BodyCard
from cutwright.body.resolve import resolve
from cutwright.geometry.curve import Cubic, curvature
from cutwright.geometry.path import Path
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.shaping.truing import one_way

BODIES = {
    "long from waist to hip": {"waist_girth": 72.9, "hip_girth": 104.2, "waist_to_hip": 22.5},
    "short from waist to hip": {"waist_girth": 81.5, "hip_girth": 102.2, "waist_to_hip": 17.4},
    "straight": {"waist_girth": 90.0, "hip_girth": 100.0, "waist_to_hip": 20.0},
}


def least_radius(path: Path) -> float:
    bends = [abs(curvature(c, i / 60)) for c in path if isinstance(c, Cubic) for i in range(61)]
    return 1 / max(bends) if bends and max(bends) > 0 else inf


@pytest.mark.parametrize("about", BODIES)
@pytest.mark.parametrize("flare", [0.0, 3.0, 5.0, 5.5, 5.8, 6.0, 6.5, 7.0, 8.0, 12.0, 20.0])
def test_any_flare_gives_a_side_without_a_counter_bend(about: str, flare: float) -> None:
    card = BodyCard(
        format=1, name=about, measures={"stature": 168.0, "bust_girth": 94.0, **BODIES[about]}
    )
    step = DraftSkirt(length=64, flare=flare, back="seam")
    pattern = step.apply(Pattern(), resolve(card)).pattern
    for name in ("skirt front", "skirt back"):
        side = pattern.piece(name).edge("side")
        assert one_way(side.curves), (name, flare)
        assert least_radius(side.curves) > 8.0, (name, flare)  # no knee over the hip
