"""Strips: as long as asked or as the edges they bind, on the grain that was asked."""

from __future__ import annotations

from math import degrees
from typing import Any

import pytest

from cutwright.errors import StepError
from cutwright.geometry.point import angle_of
from cutwright.pattern.edge import Ref
from cutwright.pattern.pattern import Pattern
from cutwright.steps.strip import Strip
from tests.hand_pieces import NOBODY, dress

EDGES = [{"piece": p, "edge": "neckline"} for p in ("back", "front")]


def cut(**asked: Any) -> Pattern:
    return Strip.model_validate(asked).apply(dress(), NOBODY).pattern


def test_a_binding_is_stretched_a_little_and_runs_on_as_ties() -> None:
    pattern = cut(edges=EDGES, share=0.95, beyond=25)
    strip = pattern.piece("binding")
    neck = 2 * sum(dress().length(Ref(p, "neckline")) for p in ("back", "front"))
    assert strip.edge_length("sewn edge") == pytest.approx(0.95 * neck)
    assert strip.edge_length("outer edge") == pytest.approx(0.95 * neck + 50)
    (sewn,) = [s for s in pattern.seams if s.kind == "binding"]
    assert sewn.ratio == 0.95


def test_a_closed_binding_is_sewn_end_to_end() -> None:
    names = {s.name for s in cut(edges=EDGES).seams}
    assert "binding: right end ~ binding: left end" in names


@pytest.mark.parametrize(("grain", "angle"), [("bias", 45), ("lengthwise", 0), ("crosswise", 90)])
def test_the_grain_lies_as_asked(grain: str, angle: float) -> None:
    a, b = cut(piece="tie", long=60, grain=grain).piece("tie").grain
    assert degrees(angle_of(b - a)) == pytest.approx(angle)


def test_a_length_may_be_a_sum() -> None:
    tie = cut(piece="tie", long='2 * length("back: neckline") + 10').piece("tie")
    wanted = 2 * dress().length(Ref("back", "neckline")) + 10
    assert tie.edge_length("long edge") == pytest.approx(wanted)


@pytest.mark.parametrize("asked", [{}, {"edges": EDGES, "long": 30}])
def test_either_edges_or_a_length(asked: dict[str, Any]) -> None:
    with pytest.raises(StepError, match="either"):
        cut(**asked)


def test_a_length_that_comes_out_too_long_is_refused() -> None:
    with pytest.raises(StepError, match="1 to 1000"):
        cut(long="900 + 900")
