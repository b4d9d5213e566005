"""Sides: one bow over the hip where a dress was hollow, the edge above as long as it was."""

from __future__ import annotations

import pytest

from cutwright.errors import StepError
from cutwright.geometry.path import start_direction
from cutwright.geometry.point import angle_between
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.shaping.sides import side_of
from cutwright.pattern.shaping.truing import one_way
from cutwright.steps.true_side import TrueSide
from cutwright.style.document import parse_step
from tests.hand_pieces import NOBODY, dress, skirt
from tests.operations.rows import CUT_AT_WAIST, FLARED_FROM_A_DRESS, after
from tests.steps.test_reshape_neckline import inner_angle

BOTH = TrueSide(pieces=("skirt front", "skirt back"))


@pytest.fixture(name="pair", scope="module")
def before_and_after() -> tuple[Pattern, Pattern]:
    before = FLARED_FROM_A_DRESS()
    return before, BOTH.apply(before, NOBODY).pattern


def test_a_side_cut_from_a_dress_bends_both_ways_and_a_trued_one_does_not(
    pair: tuple[Pattern, Pattern],
) -> None:
    for name in BOTH.pieces:
        was, now = (p.piece(name).edge("side").curves for p in pair)
        assert not one_way(was)
        assert one_way(now)


def test_waist_hip_and_hem_keep_their_measure(pair: tuple[Pattern, Pattern]) -> None:
    before, after = pair
    for name in BOTH.pieces:
        was, now = before.piece(name), after.piece(name)
        for edge in ("waist", "hem"):
            assert now.edge_length(edge) == pytest.approx(was.edge_length(edge), abs=2e-4)
        assert now.edge("hem").curves == was.edge("hem").curves
        hip, then = now.level("hip"), was.level("hip")
        assert hip is not None
        assert then is not None
        assert hip.length == pytest.approx(then.length, abs=1e-6)


def test_both_sides_grow_alike_and_the_waist_runs_on_across_them(
    pair: tuple[Pattern, Pattern],
) -> None:
    before, after = pair
    front, back = (after.piece(name) for name in BOTH.pieces)
    assert front.edge_length("side") == pytest.approx(back.edge_length("side"), abs=1e-6)
    was = [before.piece(n) for n in BOTH.pieces]
    corners = [inner_angle(p, "side", "waist") for p in (front, *was[:1])]
    corners += [inner_angle(p, "waist", "side") for p in (back, *was[1:])]
    assert corners[0] + corners[2] == pytest.approx(corners[1] + corners[3], abs=1e-6)


def test_the_new_side_leaves_the_waist_outwards(pair: tuple[Pattern, Pattern]) -> None:
    before, after = (side_of(p.piece("skirt back"), "side") for p in pair)
    turned = angle_between(start_direction(before.down), start_direction(after.down))
    assert turned < -0.02  # towards the side, on a back whose side lies to the right


def test_a_side_that_is_one_bow_stays_and_says_so() -> None:
    before = skirt()
    result = BOTH.apply(before, NOBODY)
    assert result.pattern == before
    assert [f.code for f in result.findings] == ["no-side-to-true"]
    again = BOTH.apply(BOTH.apply(FLARED_FROM_A_DRESS(), NOBODY).pattern, NOBODY)
    assert [f.code for f in again.findings] == ["no-side-to-true"]


def test_a_waist_still_divided_by_its_darts_is_refused() -> None:
    cut = after(parse_step(CUT_AT_WAIST), dress())
    with pytest.raises(StepError, match="waist dart"):
        BOTH.apply(cut, NOBODY)
