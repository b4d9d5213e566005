"""Facings copy the edge, take an even width, and are sewn to each other as the pieces are."""

from __future__ import annotations

import pytest

from cutwright.checks.proof import prove
from cutwright.errors import LookupFailed, StepError
from cutwright.geometry.path import distance_from, path_length, point_at
from cutwright.pattern.edge import EdgeKind, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.steps.facing import Facing
from cutwright.steps.reshape_neckline import ReshapeNeckline
from cutwright.style.document import parse_step
from cutwright.style.replay import replay
from cutwright.workshop.gallery import know_all_steps, load_body
from tests.hand_pieces import NOBODY, dress, skirt
from tests.steps.test_reshape_neckline import inner_angle


def faced(pattern: Pattern, **asked: object) -> Pattern:
    return Facing.model_validate(asked).apply(pattern, NOBODY).pattern


@pytest.mark.parametrize("width", [3.0, 5.0, 8.0])
def test_the_outer_edge_runs_at_the_width_all_along(width: float) -> None:
    facing = faced(dress(), width=width).piece("front neck facing")
    outer, neck = facing.edge("outer edge").curves, facing.edge("neckline").curves
    size = path_length(outer)
    gaps = [distance_from(neck, point_at(outer, size * i / 40)) for i in range(41)]
    assert min(gaps) == pytest.approx(width, abs=0.01)
    assert max(gaps) == pytest.approx(width, abs=0.01)


def test_a_dart_within_the_width_is_folded_shut_and_one_beyond_is_not() -> None:
    wide = Facing(width=6.0).apply(dress(), NOBODY)
    assert any(f.code == "folded-edge" for f in wide.figures)
    assert wide.pattern.piece("front neck facing").edge_length("shoulder") == pytest.approx(6.0)
    narrow = Facing(width=4.0).apply(dress(), NOBODY)
    assert not any(f.code == "folded-edge" for f in narrow.figures)


def test_a_facing_on_the_fold_is_on_the_fold_and_square_to_it() -> None:
    facing = faced(dress()).piece("front neck facing")
    assert facing.edge("centre front").kind is EdgeKind.FOLD
    assert inner_angle(facing, "centre front", "outer edge") == pytest.approx(90, abs=0.3)


def test_an_armhole_facing_is_cut_for_both_arms() -> None:
    facing = faced(dress(), kind="armhole").piece("front armhole facing")
    assert (facing.cut.copies, facing.cut.mirrored) == (2, True)


def test_a_combined_facing_covers_neckline_shoulder_and_armhole() -> None:
    pattern = faced(dress(), kind="combined", width=7)
    facing = pattern.piece("front facing")
    assert {"neckline", "shoulder", "armhole", "outer edge"} < set(facing.edge_names())
    assert facing.edge_length("shoulder") == pytest.approx(
        dress().piece("front").edge_length("shoulder")
    )
    assert facing.edge_length("side") == pytest.approx(7.0)


def test_facings_are_sewn_on_and_to_each_other() -> None:
    seams = {s.name: s for s in faced(dress()).seams}
    on = seams["front: neckline ~ front neck facing: neckline"]
    assert on.kind == "facing"
    assert not any(side.backwards for row in on.rows for side in row)
    assert "front neck facing: shoulder ~ back neck facing: shoulder" in seams


def test_under_a_v_the_facing_is_square_to_the_fold_again() -> None:
    pointed = ReshapeNeckline(shape="V", wider=1.0, front_deeper=12.0).apply(dress(), NOBODY)
    facing = faced(pointed.pattern, width=5).piece("front neck facing")
    assert inner_angle(facing, "centre front", "outer edge") == pytest.approx(90, abs=0.3)
    assert [m.kind for m in facing.marks if m.edge == "neckline"] == ["corner"]
    assert facing.edge_length("centre front") <= 1.35 * 5 + 1e-6


def test_too_wide_for_the_shoulder() -> None:
    with pytest.raises(StepError, match=r"shoulder.*12\.7 cm"):
        faced(dress(), width=15)


def test_a_piece_without_a_neckline_says_what_it_has() -> None:
    with pytest.raises(LookupFailed, match="waist"):
        faced(skirt(), pieces=["skirt front"])


def test_a_second_facing_of_one_name_is_refused() -> None:
    once = faced(dress())
    with pytest.raises(StepError, match="already"):
        faced(once)


def test_the_neckline_cannot_change_under_its_facing() -> None:
    with pytest.raises(StepError, match="would not meet any more"):
        ReshapeNeckline(front_deeper=3.0).apply(faced(dress()), NOBODY)


@pytest.mark.parametrize("first", ["neck", "armhole"])
def test_facings_that_would_overlap_on_the_shoulder_are_drawn_in_one_and_the_reason_is_said(
    first: str,
) -> None:
    second = "armhole" if first == "neck" else "neck"
    start = Facing.model_validate({"kind": first, "width": 7}).apply(dress(), NOBODY).pattern
    done = Facing.model_validate({"kind": second, "width": 6}).apply(start, NOBODY)
    names = {p.name for p in done.pattern.pieces}
    assert names == {"front", "back", "front facing", "back facing"}
    (note,) = done.findings
    assert (note.code, note.level) == ("facings-in-one", "note")
    assert note.value == pytest.approx(12.7, abs=0.1)
    seams = {s.name for s in done.pattern.seams}
    assert not [s for s in seams if "neck facing" in s or "armhole facing" in s]
    assert "front facing: shoulder ~ back facing: shoulder" in seams
    assert "front facing: side ~ back facing: side" in seams
    assert [f for f in prove(done.pattern).faults if f.code == "seam-walk"] == []


def test_facings_that_lie_side_by_side_stay_apart() -> None:
    start = Facing(kind="neck", width=5).apply(dress(), NOBODY).pattern
    done = Facing(kind="armhole", width=5).apply(start, NOBODY)
    assert done.findings == ()
    assert len(done.pattern.pieces) == 6


@pytest.mark.parametrize("kind", ["neck", "armhole", "combined"])
@pytest.mark.parametrize("shoulder", ["dart", "ease"])
def test_every_end_of_a_facing_is_sewn_to_the_next_one(kind: str, shoulder: str) -> None:
    steps = [
        {"do": "draft_bodice", "back": "fold", "back_shoulder": shoulder},
        {"do": "facing", "kind": kind, "width": 5},
    ]
    know_all_steps()
    done = replay([parse_step(s) for s in steps], load_body("the-rower"))
    assert done.trouble is None
    sewn = {ref for s in done.pattern.seams for ref in s.refs}
    for piece in done.pattern.pieces:
        for edge in piece.edges:
            if edge.kind in (EdgeKind.SHOULDER, EdgeKind.SIDE) and "facing" in piece.name:
                assert Ref(piece.name, edge.name) in sewn, f"{piece.name}: {edge.name}"
    assert prove(done.pattern).measured("seam-walk").worst is not None
    assert [f for f in prove(done.pattern).faults if f.code == "seam-walk"] == []
