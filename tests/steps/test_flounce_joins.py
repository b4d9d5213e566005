"""The joins of a flounce: one fewer where the garment is open than where it goes round."""

from __future__ import annotations

import pytest

from cutwright.pattern.pattern import Pattern
from cutwright.steps.flounce_straight import FlounceStraight
from cutwright.steps.set_centre import SetCentre
from tests.hand_pieces import NOBODY, dress

NECK = [{"piece": p, "edge": "neckline"} for p in ("back", "front")]


def joins(pattern: Pattern, parts: int) -> int:
    step = FlounceStraight.model_validate(
        {"edges": NECK, "piece": "frill", "depth": 6, "parts": parts}
    )
    after = step.apply(pattern, NOBODY).pattern
    (found,) = [s for s in after.seams if {str(r) for r in s.refs} == ENDS]
    return after.how_often(found)


ENDS = {"frill: right end", "frill: left end"}


@pytest.mark.parametrize("parts", [2, 3])
def test_a_ring_has_as_many_joins_as_parts_and_an_open_neck_one_fewer(parts: int) -> None:
    assert joins(dress(), parts) == parts
    opened = SetCentre.model_validate({"pieces": ["back"], "zip": 40.0})
    assert joins(opened.apply(dress(), NOBODY).pattern, parts) == parts - 1


def test_a_side_is_sewn_twice() -> None:
    pattern = dress()
    (side,) = [s for s in pattern.seams if s.name == "front: side ~ back: side"]
    assert pattern.how_often(side) == 2
