"""What was cut apart can be joined again, names and seams and all."""

from __future__ import annotations

import pytest

from cutwright.errors import StepError
from cutwright.pattern.pattern import Pattern
from cutwright.steps.cut_apart import CutApart
from cutwright.steps.join import Join
from tests.hand_pieces import NOBODY, dress, skirt
from tests.operations.rows import after


def joined(pattern: Pattern, to: str, edge: str, other: str, other_edge: str) -> Pattern:
    step = Join.model_validate(
        {"to": {"piece": to, "edge": edge}, "other": {"piece": other, "edge": other_edge}}
    )
    return after(step, pattern)


def cut(edge: str = "cut") -> Pattern:
    step = CutApart(
        pieces=("front", "back"), lower=("lower front", "lower back"), at="hip", edge=edge
    )
    return after(step, dress())


def test_cut_and_joined_again_is_the_dress_it_was() -> None:
    now = joined(cut(), "front", "cut", "lower front", "cut")
    now = joined(now, "back", "cut", "lower back", "cut")
    before = dress()
    assert [p.name for p in now.pieces] == ["front", "back"]
    for piece in now.pieces:
        was = before.piece(piece.name)
        assert piece.area == pytest.approx(was.area)
        assert set(piece.edge_names()) == set(was.edge_names())
        for name in was.edge_names():
            assert piece.edge_length(name) == pytest.approx(was.edge_length(name))
        assert {x.name: x.length for x in piece.levels} == pytest.approx(
            {x.name: x.length for x in was.levels}
        )
    assert {s.name for s in now.seams} == {s.name for s in before.seams}


def test_a_seam_to_two_pieces_names_both_in_walking_order() -> None:
    now = joined(cut(), "back", "cut", "lower back", "cut")
    (side,) = [s for s in now.seams if "side" in s.name]
    rows = {tuple(str(x.ref) for x in row) for row in side.rows}
    assert ("back: side",) in rows
    (other,) = rows - {("back: side",)}
    assert set(other) == {"front: side", "lower front: side"}
    one, two = now.seam_lengths(side)
    assert one == pytest.approx(two)


def test_names_that_stand_apart_are_told_apart() -> None:
    now = joined(skirt(), "skirt front", "centre front", "skirt back", "centre back")
    piece = now.piece("skirt front")
    assert {"side", "skirt back side"} <= set(piece.edge_names())
    assert {d.name for d in piece.darts} == {"waist dart", "skirt back waist dart"}
    assert [s.name for s in now.seams] == ["skirt front: side ~ skirt front: skirt back side"]


def test_edges_of_different_length_are_refused() -> None:
    with pytest.raises(StepError, match="same length"):
        joined(skirt(), "skirt front", "centre front", "skirt back", "side")


def test_edges_of_different_shape_are_refused() -> None:
    with pytest.raises(StepError, match=r"shaped differently.*6\.5 cm apart"):
        joined(dress(), "front", "side", "back", "side")


def test_a_piece_cannot_be_joined_to_itself() -> None:
    with pytest.raises(StepError, match="itself"):
        Join.model_validate(
            {"to": {"piece": "front", "edge": "side"}, "other": {"piece": "front", "edge": "hem"}}
        ).apply(dress(), NOBODY)


def test_an_edge_with_a_point_in_its_name_is_no_part_of_the_one_it_is_named_after() -> None:
    now = joined(cut("side.low"), "front", "side.low", "lower front", "side.low")
    plain = joined(cut(), "front", "cut", "lower front", "cut")
    sides = [seam.name for seam in plain.seams if "front: side" in seam.name]
    assert [seam.name for seam in now.seams if "front: side" in seam.name] == sides
    assert sides == ["front: side ~ lower back: side + back: side"]
