"""Longer and shorter: the amount arrives where it was asked, and girths above the cut stay."""

from __future__ import annotations

from typing import Any

import pytest

from cutwright.errors import LookupFailed, StepError
from cutwright.pattern.insert import cut_across, let_in
from cutwright.pattern.pattern import Pattern
from cutwright.steps.close_dart import CloseDart
from cutwright.steps.lengthen import Lengthen
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


def test_a_cut_through_a_dart_is_refused_by_name() -> None:
    with pytest.raises(StepError, match="waist dart"):
        longer(by=4.0, at="waist")


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
