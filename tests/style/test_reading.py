"""A step that reads nothing but what it read before is not done again; all it read is written down."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cutwright.pattern.edge import Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.reading import ReadPattern, Reads
from cutwright.style.document import parse_step
from cutwright.style.replay import replay
from cutwright.style.step import Step
from cutwright.workshop.gallery import know_all_steps, load_body, load_style
from tests.hand_pieces import dress, skirt

know_all_steps()
BODY = load_body("the-alto")
FRONT, SIDE = "skirt front", Ref("skirt front", "side")


def watched() -> tuple[ReadPattern, Reads]:
    return ReadPattern.of(skirt())


def grown(pattern: Pattern) -> Pattern:
    """The same names on other paper: the front with its grain elsewhere."""
    front = pattern.piece(FRONT)
    return pattern.with_pieces(replace(front, grain=(front.grain[0] + 1, front.grain[1] + 1)))


def test_what_was_not_looked_at_may_change() -> None:
    paper, reads = watched()
    paper.piece("skirt back")
    assert reads.hold(grown(skirt()))


def test_what_was_looked_at_may_not_change() -> None:
    paper, reads = watched()
    paper.piece(FRONT)
    assert reads.hold(skirt())
    assert not reads.hold(grown(skirt()))


def test_who_takes_all_pieces_has_read_them_all() -> None:
    paper, reads = watched()
    assert paper.pieces
    assert set(reads.pieces) == {FRONT, "skirt back"}


def test_a_length_is_read_and_not_the_paper_around_it() -> None:
    paper, reads = watched()
    paper.length(SIDE)
    assert not reads.pieces
    assert reads.hold(grown(skirt()))
    front = skirt().piece(FRONT)
    edges = tuple(e.with_curves(e.curves[:1]) if e.label == "side" else e for e in front.edges)
    assert not reads.hold(skirt().with_pieces(replace(front, edges=edges)))


def test_an_answer_is_read_and_not_the_piece() -> None:
    paper, reads = watched()
    paper.times_of(FRONT)
    assert reads.hold(grown(skirt()))
    front = skirt().piece(FRONT)
    more = replace(front, cut=replace(front.cut, copies=3))
    assert not reads.hold(skirt().with_pieces(more))


@pytest.mark.parametrize(
    "other",
    [
        skirt().without([FRONT]),
        skirt().sewn(()),
        skirt().with_seams(*dress().seams[:1]),
        Pattern(tuple(reversed(skirt().pieces)), skirt().seams),
    ],
)
def test_names_and_seams_always_count_as_read(other: Pattern) -> None:
    _paper, reads = watched()
    assert not reads.hold(other)


def test_what_the_step_drew_itself_is_nobodys_reading() -> None:
    paper, reads = watched()
    drawn: Piece = grown(skirt()).piece(FRONT)
    after = paper.with_pieces(drawn)
    assert after.piece(FRONT) is drawn
    assert not reads.pieces
    after.piece("skirt back")
    assert set(reads.pieces) == {"skirt back"}


def test_a_pattern_changed_by_hand_is_still_a_pattern() -> None:
    paper, reads = watched()
    assert replace(paper, seams=()).pieces == skirt().pieces
    assert set(reads.pieces) == {FRONT, "skirt back"}


def steps_of_a_skirt(by: float) -> list[Step]:
    rows = (
        {"do": "draft_skirt"},
        {"do": "close_dart", "piece": "skirt front"},
        {"do": "close_dart", "piece": "skirt back"},
        {"do": "spread", "piece": "skirt front", "by": by},
        {"do": "spread", "piece": "skirt back", "by": 4.0},
    )
    return [parse_step(row) for row in rows]


def test_a_step_on_other_paper_is_taken_over() -> None:
    first = replay(steps_of_a_skirt(4.0), BODY)
    again = replay(steps_of_a_skirt(5.0), BODY, first)
    assert again.stages[2] is first.stages[2]
    assert again.stages[3].done_as is None
    assert again.stages[4].done_as is first.stages[4]
    assert again.pattern == replay(steps_of_a_skirt(5.0), BODY).pattern


def test_a_longer_skirt_leaves_the_paper_above_the_waist_as_it_lay() -> None:
    style = load_style("orchard-dress")
    longer = [style.steps[0].replaced(length=52.1), *style.steps[1:]]
    first = replay(style.steps, BODY)
    again = replay(longer, BODY, first)
    kept = {p.name for p in again.pattern.pieces if p is first.pattern.piece(p.name)}
    assert kept >= {"front", "back", "neck flounce"}
