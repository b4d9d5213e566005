"""A style is as much work as it may be, or is refused at the sentence that makes it more."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest

from cutwright.body.body import Body
from cutwright.errors import CutwrightError
from cutwright.pattern.pattern import Pattern
from cutwright.style.document import Style, parse_step, parse_style
from cutwright.style.load import MOST_CUT, MOST_LOAD, paper_load
from cutwright.style.replay import MOST_STEPS, Replay, replay
from cutwright.workshop.gallery import know_all_steps, load_body, load_style, shipped
from cutwright.workshop.work import work
from tests.style.heavy import HEAVY

know_all_steps()


@pytest.fixture(scope="module")
def alto() -> Body:
    return load_body("the-alto")


def _done(name: str, body: Body) -> Replay:
    return replay(_style(HEAVY[name]).steps, body)


def _style(steps: list[dict[str, Any]]) -> Style:
    return parse_style({"format": 1, "name": "Heavy", "steps": steps})


@pytest.mark.parametrize("name", sorted(HEAVY))
def test_no_style_is_more_work_than_it_may_be(name: str, alto: Body) -> None:
    done = _done(name, alto)
    assert done.stages, done.trouble
    assert done.stages[-1].load + paper_load(done.pattern) <= MOST_LOAD
    assert sum(piece.cut.copies for piece in done.pattern.pieces) <= MOST_CUT


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("a skirt spread 60 times along 40 lines", "too-much-work"),
        ("32 slashed flounces, one on the other", "too-much-work"),
        ("32 flounces of differing parts, one on the other", "too-many-to-cut"),
        ("5 flounces on cloth 20 wide, one on the other", "too-many-to-cut"),
    ],
)
def test_the_sentence_that_makes_it_too_much_is_refused(name: str, code: str, alto: Body) -> None:
    done = _done(name, alto)
    assert done.trouble is not None
    assert done.stopped_at == len(done.stages) > 1
    inner = done.trouble.message.values["text"]
    assert getattr(inner, "code", "") == code
    assert done.trouble.message.values["number"] == len(done.stages) + 1


@pytest.mark.parametrize("name", ["a skirt lengthened 190 times", "tiers of 11 and 9 parts"])
def test_what_is_bearable_is_worked(name: str, alto: Body) -> None:
    done = _done(name, alto)
    assert done.trouble is None
    assert len(done.stages) == len(HEAVY[name]) <= MOST_STEPS


def test_the_count_is_the_same_with_and_without_earlier_work(alto: Body) -> None:
    steps = _style(HEAVY["a skirt spread 60 times along 40 lines"]).steps
    whole = replay(steps, alto)
    again = replay(steps, alto, replay(steps[:20], alto))
    assert [s.load for s in again.stages] == [s.load for s in whole.stages]
    assert again.stopped_at == whole.stopped_at
    assert all(x.load < y.load for x, y in pairwise(whole.stages))


def test_the_styles_that_ship_are_light(alto: Body) -> None:
    for name in shipped("styles"):
        done = replay(load_style(name).steps, alto)
        assert done.stages[-1].load + paper_load(done.pattern) < MOST_LOAD / 5, name


def test_a_refused_style_is_still_drawn_as_far_as_it_went(alto: Body) -> None:
    done = work(_style(HEAVY["5 flounces on cloth 20 wide, one on the other"]), alto)
    assert done.trouble is not None
    assert [piece.name for piece in done.finished.pieces] == [
        piece.name for piece in done.replay.pattern.pieces
    ]


def test_the_count_ignores_paper_that_a_step_left_alone(alto: Body) -> None:
    spread = _style(HEAVY["a skirt spread 60 times along 40 lines"]).steps[:2]
    strip = _style(HEAVY["190 loose strips"]).steps[1:2]
    done = replay([*spread, *strip], alto)
    assert done.trouble is None
    assert done.stages[2].load - done.stages[1].load < done.stages[1].load / 10
    assert paper_load(Pattern()) == 0


@pytest.mark.parametrize("field", ["piece", "edge", "dart", "new piece", "step"])
def test_a_name_has_at_most_sixty_letters(field: str) -> None:
    """As much as a label takes; the sixty-first letter is refused."""

    def row(name: str) -> dict[str, Any]:
        edge = {"piece": "skirt front", "edge": "hem"}
        flounce = {"do": "flounce_straight", "edges": [edge], "depth": 20}
        rows: dict[str, dict[str, Any]] = {
            "piece": {"do": "lengthen", "pieces": [name], "by": 2},
            "edge": {**flounce, "edges": [{**edge, "edge": name}]},
            "dart": {"do": "close_dart", "piece": "skirt front", "darts": [name]},
            "new piece": {**flounce, "piece": name},
            "step": {**flounce, "name": name},
        }
        return rows[field]

    parse_step(row("a" * 60))
    if field != "step":  # a step may go without
        with pytest.raises(CutwrightError):
            parse_step(row(""))
    with pytest.raises(CutwrightError):
        parse_step(row("a" * 61))


def test_what_is_said_about_a_style_has_at_most_two_thousand_letters() -> None:
    parse_style({"format": 1, "name": "x", "about": "a" * 2000, "steps": []})
    with pytest.raises(CutwrightError):
        parse_style({"format": 1, "name": "x", "about": "a" * 2001, "steps": []})


@pytest.mark.parametrize("rows", ["draft_skirt", {"do": "draft_skirt"}, 3, None])
def test_sentences_stand_in_a_list(rows: object) -> None:
    with pytest.raises(CutwrightError, match="a list of at most"):
        parse_style({"format": 1, "name": "x", "steps": rows})


def test_a_style_has_no_more_sentences_than_it_may() -> None:
    row = {"do": "strip", "long": 40}
    with pytest.raises(CutwrightError, match="a list of at most 200"):
        parse_style({"format": 1, "name": "x", "steps": [row] * 201})


def test_a_sentence_that_stands_alone_is_the_first() -> None:
    with pytest.raises(CutwrightError, match="step 1"):
        parse_step({"do": "strip", "long": "nonsense("})
