"""An armhole drawn anew keeps its corners, its egg shape and the seams beside it."""

from __future__ import annotations

import pytest

from cutwright.errors import StepError
from cutwright.geometry.path import path_length, point_at
from cutwright.geometry.point import distance_to_line
from cutwright.pattern.piece import Piece
from cutwright.pattern.shaping.truing import one_way
from cutwright.steps.reshape_armhole import ReshapeArmhole
from tests.hand_pieces import NOBODY, dress
from tests.steps.test_reshape_neckline import inner_angle


def drawn(**asked: float) -> tuple[Piece, Piece]:
    pattern = ReshapeArmhole.model_validate(asked).apply(dress(), NOBODY).pattern
    return pattern.piece("front"), pattern.piece("back")


def hollow(piece: Piece) -> float:
    path = piece.edge("armhole").curves
    a, b = path[0].start, path[-1].end
    size = path_length(path)
    return max(distance_to_line(point_at(path, size * i / 50), a, b) for i in range(51))


@pytest.mark.parametrize("asked", [(3, 2), (0, 8), (-2, 1), (5, -1)])
def test_shoulder_and_side_lose_what_was_asked(asked: tuple[float, float]) -> None:
    before = dress()
    for piece in drawn(shoulder_in=asked[0], deeper=asked[1]):
        was = before.piece(piece.name)
        taken = was.edge_length("shoulder") - piece.edge_length("shoulder")
        assert taken == pytest.approx(asked[0])
        assert was.edge_length("side") - piece.edge_length("side") == pytest.approx(asked[1])
        assert one_way(piece.edge("armhole").curves)


def test_its_corners_stay() -> None:
    front, back = drawn(shoulder_in=2, deeper=2)
    assert inner_angle(front, "armhole", "shoulder") == pytest.approx(90, abs=0.01)
    assert inner_angle(front, "side", "armhole") == pytest.approx(90, abs=0.01)
    assert inner_angle(back, "shoulder", "armhole") == pytest.approx(90, abs=0.01)
    assert inner_angle(back, "armhole", "side") == pytest.approx(90, abs=0.01)


def test_nothing_asked_leaves_the_line_where_it_is() -> None:
    before = dress()
    for piece in drawn():
        was = before.piece(piece.name).edge("armhole")
        assert piece.edge("armhole").length == pytest.approx(was.length, abs=1e-9)


def test_a_scoop_hollows_it() -> None:
    plain, scooped = drawn(), drawn(scoop_front=1.0)
    assert hollow(scooped[0]) - hollow(plain[0]) == pytest.approx(1.0, abs=0.35)
    assert hollow(scooped[1]) == pytest.approx(hollow(plain[1]))


def test_where_the_old_line_would_bend_both_ways_a_plain_one_is_as_hollow() -> None:
    """Out at the shoulder, down at the side and scooped by 1: one curve, 1 deeper than without the scoop."""
    wish = {"shoulder_in": -2, "deeper": 2}
    for plain, scooped in zip(
        drawn(**wish), drawn(**wish, scoop_front=1, scoop_back=1), strict=True
    ):
        assert one_way(scooped.edge("armhole").curves)
        assert hollow(scooped) - hollow(plain) == pytest.approx(1.0, abs=0.02)


def test_a_dart_near_the_shoulder_end_is_named() -> None:
    with pytest.raises(StepError, match="bust dart"):
        drawn(shoulder_in=8)
