"""Allowances, written measures and side openings are noted on the pieces."""

from __future__ import annotations

import pytest

from cutwright.errors import StepError
from cutwright.steps.allow import Allow
from cutwright.steps.open_side import OpenSide
from cutwright.steps.write_measure import WriteMeasure
from cutwright.wording.figures import how
from tests.hand_pieces import NOBODY, dress, skirt


def test_an_allowance_is_written_on_every_part() -> None:
    step = Allow.model_validate({"edges": [{"piece": "front", "edge": "shoulder"}], "width": 2.5})
    front = step.apply(dress(), NOBODY).pattern.piece("front")
    assert [e.allowance for e in front.edge_parts("shoulder")] == [2.5, 2.5]
    assert front.edge("hem").allowance is None


def test_the_length_is_written_on_the_edge() -> None:
    step = WriteMeasure.model_validate({"edges": [{"piece": "front", "edge": "shoulder"}]})
    result = step.apply(dress(), NOBODY)
    (mark,) = [m for m in result.pattern.piece("front").marks if m.kind == "measure"]
    assert (mark.edge, mark.text) == ("shoulder", "12.7")
    assert how(result.figures[0]) == "shoulder.1 8.2 + shoulder.2 4.5 = 12.7"


def test_written_twice_it_stands_there_once() -> None:
    step = WriteMeasure.model_validate({"edges": [{"piece": "front", "edge": "hem"}]})
    once = step.apply(dress(), NOBODY).pattern
    assert step.apply(once, NOBODY).pattern == once


def test_a_side_opening_is_marked_on_both_edges_at_the_same_distance() -> None:
    step = OpenSide.model_validate({"edge": {"piece": "skirt back", "edge": "side"}, "zip": 22})
    pattern = step.apply(skirt(), NOBODY).pattern
    for name in ("skirt front", "skirt back"):
        (mark,) = [m for m in pattern.piece(name).marks if m.kind == "zip end"]
        assert (mark.edge, mark.amount) == ("side", 22.0)
        assert mark.at.imag == pytest.approx(20.6, abs=1.0)


def test_an_edge_that_is_not_sewn_cannot_be_left_open() -> None:
    step = OpenSide.model_validate({"edge": {"piece": "skirt back", "edge": "hem"}, "zip": 10})
    with pytest.raises(StepError, match="not sewn"):
        step.apply(skirt(), NOBODY)


def test_an_opening_ends_inside_the_seam() -> None:
    step = OpenSide.model_validate({"edge": {"piece": "skirt back", "edge": "side"}, "zip": 61})
    with pytest.raises(StepError, match="at least 1 cm"):
        step.apply(skirt(), NOBODY)
