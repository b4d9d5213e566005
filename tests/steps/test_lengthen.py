"""Longer and shorter: the amount arrives where it was asked, and girths above the cut stay."""

from __future__ import annotations

from typing import Any

import pytest

from cutwright.errors import LookupFailed, StepError
from cutwright.pattern.cutting.insert import cut_across, let_in
from cutwright.pattern.pattern import Pattern
from cutwright.steps.close_dart import CloseDart
from cutwright.steps.lengthen import Lengthen
from cutwright.steps.move_dart import MoveDart
from tests.hand_pieces import NOBODY, dress, skirt
from tests.operations.rows import after

BOTH = ("front", "back")


def longer(**asked: Any) -> Pattern:
    return Lengthen.model_validate({"pieces": BOTH, **asked}).apply(dress(), NOBODY).pattern


@pytest.mark.parametrize("by", [8.0, -6.0])
@pytest.mark.parametrize("at", ["hem", "hip"])
def test_the_centre_grows_by_the_amount(by: float, at: str) -> None:
    before, now = dress(), longer(by=by, at=at)
    for piece, centre in (("front", "centre front"), ("back", "centre back")):
        grown = now.piece(piece).edge_length(centre) - before.piece(piece).edge_length(centre)
        assert grown == pytest.approx(by)


@pytest.mark.parametrize("by", [8.0, -6.0])
def test_girths_down_to_the_cut_stay_and_the_hem_keeps_its_length(by: float) -> None:
    before, now = dress(), longer(by=by, at="hip")
    for name in BOTH:
        for level in ("bust", "waist", "hip"):
            was, is_now = before.piece(name).level(level), now.piece(name).level(level)
            assert was is not None
            assert is_now is not None
            assert is_now.length == pytest.approx(was.length, abs=1e-6)
        assert now.piece(name).edge_length("hem") == pytest.approx(
            before.piece(name).edge_length("hem")
        )


def test_a_flared_side_and_a_straight_one_stay_equal() -> None:
    names = ("skirt front", "skirt back")
    flared = after(CloseDart(piece="skirt front", darts=("waist dart",)), skirt())
    one, other = (let_in(cut_across(flared.piece(n), "hip", 0.0), 8.0) for n in names)
    assert abs(one.edge_length("side") - other.edge_length("side")) > 0.1
    now = Lengthen(pieces=names, by=8.0, at="hip").apply(flared, NOBODY).pattern
    one, other = (now.piece(n) for n in names)
    assert one.edge_length("side") == pytest.approx(other.edge_length("side"), abs=1e-6)


@pytest.mark.parametrize("by", [4.0, -3.0])
def test_a_two_point_dart_is_redrawn_to_where_its_point_went(by: float) -> None:
    before, now = dress(), longer(by=by, at="waist")
    for name in BOTH:
        for was, dart in zip(before.piece(name).diamonds, now.piece(name).diamonds, strict=True):
            assert dart.top == was.top
            assert dart.intake == pytest.approx(was.intake)
            assert dart.bottom.imag - was.bottom.imag == pytest.approx(by)


@pytest.mark.parametrize("by", [5.0, -4.0])
def test_a_waist_dart_grows_with_the_skirt_and_still_closes(by: float) -> None:
    names = ("skirt front", "skirt back")
    step = Lengthen(pieces=names, by=by, at="hip", below=-17.0)
    now = step.apply(skirt(), NOBODY).pattern
    for name in names:
        was, piece = skirt().piece(name), now.piece(name)
        assert piece.edge_length("waist") == pytest.approx(was.edge_length("waist"), abs=0.02)
        for old, dart in zip(was.darts, piece.darts, strict=True):
            one, other = piece.legs(dart)
            assert one.length == pytest.approx(other.length, abs=1e-6)
            assert one.length - was.legs(old)[0].length == pytest.approx(by, abs=0.2)


def test_a_cut_through_the_mouth_of_a_dart_is_refused_by_name() -> None:
    moved = after(
        MoveDart.model_validate(
            {
                "piece": "front",
                "dart": "bust dart",
                "to": {"edge": "side", "near": "armhole", "distance": 6.0},
            }
        ),
        dress(),
    )
    a, b = moved.piece("front").mouth(moved.piece("front").darts[0])
    level = moved.piece("front").level("waist")
    assert level is not None
    below = (a + b).imag / 2 - level.points[0].imag
    with pytest.raises(StepError, match=r"mouth of the .bust dart"):
        Lengthen(pieces=BOTH, by=2.0, at="waist", below=below).apply(moved, NOBODY)


def test_a_dart_is_not_shortened_to_nothing() -> None:
    with pytest.raises(StepError, match="would be left"):
        longer(by=-12.5, at="waist", below=0.5)


def test_an_unknown_level_says_what_there_is() -> None:
    with pytest.raises(LookupFailed, match=r"knee.*bust, waist, hip"):
        longer(by=4.0, at="knee")


def test_one_side_of_a_seam_alone_is_refused() -> None:
    with pytest.raises(StepError, match="would not meet any more"):
        longer(pieces=("front",), by=4.0)


def test_a_tuck_longer_than_the_paper_is_refused() -> None:
    with pytest.raises(StepError, match="does not fit"):
        longer(by=-60.0, at="hip")


def test_a_skirt_is_lengthened_at_its_hem() -> None:
    step = Lengthen(pieces=("skirt front", "skirt back"), by=12.0)
    now = step.apply(skirt(), NOBODY).pattern
    for name in ("skirt front", "skirt back"):
        grown = now.piece(name).edge_length("side") - skirt().piece(name).edge_length("side")
        assert grown == pytest.approx(12.0)
