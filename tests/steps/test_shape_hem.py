"""Hems: longer and shorter by what was asked, square where they should be."""

from __future__ import annotations

from typing import Any

import pytest

from cutwright.errors import StepError
from cutwright.pattern.pattern import Pattern
from cutwright.steps.close_dart import CloseDart
from cutwright.steps.shape_hem import ShapeHem
from tests.hand_pieces import NOBODY, dress, skirt
from tests.operations.rows import after
from tests.steps.test_reshape_neckline import inner_angle


def shaped(pattern: Pattern, **asked: Any) -> Pattern:
    return ShapeHem.model_validate(asked).apply(pattern, NOBODY).pattern


@pytest.mark.parametrize("shape", ["curved", "high-low"])
def test_centres_and_sides_change_by_what_was_asked(shape: str) -> None:
    wanted = {"centre_front": -9.0, "side": -3.0, "centre_back": 7.0}
    before, now = dress(), shaped(dress(), shape=shape, **wanted)
    for piece, edge, by in (
        ("front", "centre front", -9.0),
        ("front", "side", -3.0),
        ("back", "side", -3.0),
        ("back", "centre back", 7.0),
    ):
        grown = now.piece(piece).edge_length(edge) - before.piece(piece).edge_length(edge)
        assert grown == pytest.approx(by)


def test_a_curved_hem_is_square_at_the_sides_and_centres() -> None:
    now = shaped(dress(), side=-7)
    front, back = now.piece("front"), now.piece("back")
    for piece, one, other in (
        (front, "centre front", "hem"),
        (front, "hem", "side"),
        (back, "side", "hem"),
        (back, "hem", "centre back"),
    ):
        assert inner_angle(piece, one, other) == pytest.approx(90, abs=0.01)


def test_a_sweeping_hem_passes_the_side_in_one_line() -> None:
    now = shaped(dress(), shape="high-low", centre_front=-12, side=-4, centre_back=9)
    front = inner_angle(now.piece("front"), "hem", "side")
    back = inner_angle(now.piece("back"), "side", "hem")
    assert front < 75
    assert front + back == pytest.approx(180, abs=0.01)
    assert inner_angle(now.piece("front"), "centre front", "hem") == pytest.approx(90, abs=0.01)


def test_a_level_hem_on_a_flared_skirt_grows_with_the_flare() -> None:
    flared = skirt()
    for name in ("skirt front", "skirt back"):
        flared = after(CloseDart(piece=name, darts=("waist dart",)), flared)
    now = shaped(
        flared,
        front="skirt front",
        back="skirt back",
        shape="level",
        centre_front=10,
        side=10,
        centre_back=10,
    )
    assert (
        now.piece("skirt front").edge_length("hem")
        > flared.piece("skirt front").edge_length("hem") + 2
    )


def test_a_level_hem_changes_alike() -> None:
    with pytest.raises(StepError, match="same amount all round"):
        shaped(dress(), shape="level", side=-3)


def test_too_short_says_how_much_can_go() -> None:
    with pytest.raises(StepError, match="At most"):
        shaped(skirt(), front="skirt front", back="skirt back", side=-62)
