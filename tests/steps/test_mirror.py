"""Unfolded pieces are twice the half, and left is sewn to left."""

from __future__ import annotations

import pytest

from cutwright.errors import StepError
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.role import BodySide
from cutwright.steps.mirror import Mirror
from cutwright.steps.move_dart import MoveDart
from cutwright.steps.reshape_neckline import ReshapeNeckline
from cutwright.steps.set_centre import SetCentre
from cutwright.style.parameter import Place
from tests.hand_pieces import NOBODY, dress, skirt
from tests.operations.rows import after


def test_a_whole_is_twice_a_half() -> None:
    before = dress()
    now = after(Mirror(pieces=("front", "back")), before)
    for name in ("front", "back"):
        half, whole = before.piece(name), now.piece(name)
        assert whole.area == pytest.approx(2 * half.area)
        assert whole.times * 2 == half.times
        assert not any(e.kind is EdgeKind.FOLD for e in whole.edges)
        for edge in ("neckline", "hem"):
            assert whole.edge_length(edge) == pytest.approx(2 * half.edge_length(edge))
        for edge in ("side", "shoulder", "armhole"):
            assert whole.edge_length(f"left {edge}") == pytest.approx(half.edge_length(edge))
        for level in half.levels:
            both = whole.level(level.name)
            assert both is not None
            assert both.length == pytest.approx(2 * level.length)


def test_darts_are_there_twice() -> None:
    front = after(Mirror(pieces=("front", "back")), dress()).piece("front")
    assert {d.name for d in front.darts} == {"bust dart", "left bust dart"}
    assert {d.name for d in front.diamonds} == {"waist dart", "left waist dart"}
    left, right = front.dart("left bust dart"), front.dart("bust dart")
    assert front.intake(left) == pytest.approx(front.intake(right))  # type: ignore[arg-type]


def test_each_edge_and_dart_tells_its_side() -> None:
    front = after(Mirror(pieces=("front", "back")), dress()).piece("front")
    sides = {e.name: e.side for e in front.edges}
    assert sides["neckline"] is sides["hem"] is BodySide.BOTH
    assert sides["side"] is sides["bust dart"] is BodySide.RIGHT
    assert sides["left side"] is sides["left bust dart"] is BodySide.LEFT
    darts = {name: front.dart(name).side for name in front.dart_names()}
    assert darts["waist dart"] is darts["bust dart"] is BodySide.RIGHT
    assert darts["left waist dart"] is darts["left bust dart"] is BodySide.LEFT


def test_a_moved_dart_stays_on_its_side() -> None:
    whole = after(Mirror(pieces=("front", "back")), dress())
    front = after(
        MoveDart(
            piece="front",
            dart="left bust dart",
            to=Place(edge="left side", share=0.3),
            rename="low dart",
        ),
        whole,
    ).piece("front")
    assert front.dart("low dart").side is BodySide.LEFT
    assert {leg.side for leg in front.edge_parts("low dart")} == {BodySide.LEFT}


def test_left_is_sewn_to_left() -> None:
    names = {s.name for s in after(Mirror(pieces=("front", "back")), dress()).seams}
    assert "front: left side ~ back: left side" in names
    assert "front: left shoulder ~ back: left shoulder" in names


def test_a_half_beside_a_whole_is_sewn_to_both_sides() -> None:
    now = after(Mirror(pieces=("front",)), dress())
    (side,) = [s for s in now.seams if "side" in s.name]
    assert side.name == "front: side + front: left side ~ back: side"
    one, other = now.seam_lengths(side)
    assert one == pytest.approx(other)


def test_an_edge_in_parts_stays_one_edge() -> None:
    front = after(Mirror(pieces=("skirt front", "skirt back")), skirt()).piece("skirt front")
    parts = front.edge_parts("waist")
    assert [p.label for p in parts] == ["waist.1", "waist.2", "waist.3"]
    assert parts[1].length == pytest.approx(2 * skirt().piece("skirt front").edge("waist.2").length)


def test_the_point_of_a_v_is_there_once() -> None:
    pointed = ReshapeNeckline(shape="V", front_deeper=10.0).apply(dress(), NOBODY).pattern
    front = after(Mirror(pieces=("front",)), pointed).piece("front")
    assert len([m for m in front.marks if m.kind == "corner"]) == 1
    assert len([m for m in front.marks if m.text == "bust point"]) == 2


def test_without_a_fold_there_is_nothing_to_unfold() -> None:
    seamed = SetCentre(pieces=("back",)).apply(dress(), NOBODY).pattern
    with pytest.raises(StepError, match="nothing to unfold"):
        Mirror(pieces=("back",)).apply(seamed, NOBODY)
