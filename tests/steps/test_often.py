"""A step done often leaves paper that is no heavier than its shape."""

from __future__ import annotations

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
    row = {"do": "lengthen", "pieces": ["skirt front", "skirt back"], "by": 1.0, "at": "hip"}
    front = _skirt(row, 16).pattern.piece("skirt front")
    assert len(front.edge("centre front").curves) == 1
    assert len(front.edge("side").curves) <= 2 * 16 + 4
