"""A step done often leaves paper that is no heavier than its shape."""

from __future__ import annotations

import pytest

from cutwright.style.document import parse_step
from cutwright.style.replay import Replay, replay
from cutwright.workshop.gallery import know_all_steps, load_body

know_all_steps()
BODY = load_body("the-alto")


def _skirt(row: dict[str, object], times: int) -> Replay:
    done = replay([parse_step({"do": "draft_skirt"}), *[parse_step(row)] * times], BODY)
    assert done.trouble is None, done.trouble
    return done


def test_a_level_stays_short_however_often_the_paper_is_slashed() -> None:
    row = {"do": "spread", "piece": "skirt front", "by": 0.05, "lines": 20}
    few, many = (_skirt(row, times).pattern.piece("skirt front") for times in (1, 8))
    for level in many.levels:
        assert len(level.points) < 40, level.name
    assert {x.name for x in few.levels} == {x.name for x in many.levels}


def test_a_side_has_few_curves_however_often_it_is_lengthened() -> None:
    row = {"do": "lengthen", "pieces": ["skirt front", "skirt back"], "at": "hip"}
    for by in (1.0, 0.05):
        front = _skirt({**row, "by": by}, 16).pattern.piece("skirt front")
        assert len(front.edge("centre front").curves) == 1
        assert len(front.edge("side").curves) <= 6


def test_a_side_stays_as_it_is_where_a_joint_is_near_the_cut() -> None:
    row = {"do": "lengthen", "pieces": ["skirt front", "skirt back"], "by": 1.0, "at": "hip"}
    few, many = (_skirt(row, times).pattern.piece("skirt front") for times in (1, 8))
    assert many.edge("side").length - few.edge("side").length == pytest.approx(7.0, abs=0.05)


def test_an_edge_that_is_run_on_straight_again_and_again_stays_one_line() -> None:
    row = {"do": "lengthen", "pieces": ["skirt front", "skirt back"], "by": 1.0}
    once, often = (_skirt(row, times).pattern.piece("skirt front") for times in (1, 8))
    for was, now in zip(once.edges, often.edges, strict=True):
        assert len(now.curves) == len(was.curves), now.label


def test_an_armhole_has_few_curves_however_often_it_is_drawn_anew() -> None:
    row = {"do": "reshape_armhole", "shoulder_in": 0.05, "deeper": 0.05}
    steps = [{"do": "draft_bodice"}, *[row] * 7]
    done = replay([parse_step(step) for step in steps], BODY)
    assert done.trouble is None, done.trouble
    for piece in done.pattern.pieces:
        assert len(piece.edge("armhole").curves) <= 12
