"""The proof over real drafts and real steps: sound as they come, found out when spoilt."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from cutwright.blocks import draft_dress, draft_skirt
from cutwright.body.resolve import resolve
from cutwright.body.survey import read_survey
from cutwright.checks.proof import Proof, prove, prove_replay
from cutwright.checks.ranges import is_near
from cutwright.geometry.move import Move
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.steps import register_all
from cutwright.style.document import parse_step
from cutwright.style.replay import Replay, replay
from tests.checks.hand import body, with_edge

SAMPLE = Path(__file__).parents[1] / "survey" / "sample.csv"
register_all()
DRAFTS = (draft_dress.DraftDress, draft_skirt.DraftSkirt)
"""Made known by being imported."""

DRESS: list[dict[str, Any]] = [
    {"do": "draft_dress"},
    {"do": "set_centre", "pieces": ["back"], "zip": 58},
]
SKIRT: list[dict[str, Any]] = [
    {"do": "draft_skirt"},
    {"do": "set_centre", "pieces": ["skirt back"], "zip": 20},
]
FLARED = [
    *SKIRT,
    {"do": "close_dart", "piece": "skirt front", "darts": ["waist dart"]},
    {"do": "close_dart", "piece": "skirt back", "darts": ["waist dart"]},
]


def worked(rows: list[dict[str, Any]], **measures: float) -> Replay:
    done = replay([parse_step(row) for row in rows], body(**measures))
    assert done.trouble is None, done.trouble
    return done


@cache
def dress() -> Replay:
    return worked(DRESS)


@pytest.mark.parametrize("rows", [DRESS, SKIRT, FLARED], ids=["dress", "skirt", "flared skirt"])
def test_what_is_drafted_is_sound(rows: list[dict[str, Any]]) -> None:
    proof = prove_replay(worked(rows))
    assert [(f.code, f.where, str(f.message)) for f in proof.faults] == []
    for code in ("seam-walk", "edge-flow", "fold-square", "goes-round-waist", "can-be-put-on"):
        assert proof.measured(code).count


@pytest.mark.parametrize("rows", [DRESS, FLARED], ids=["dress", "flared skirt"])
def test_real_bodies(rows: list[dict[str, Any]]) -> None:
    for card in list(read_survey(SAMPLE))[::6]:
        done = replay([parse_step(row) for row in rows], resolve(card))
        if done.trouble is None:
            assert [(f.code, f.where, str(f.message)) for f in prove_replay(done).faults] == []


def spoilt(piece: Piece) -> Proof:
    return prove(dress().pattern.with_pieces(piece), dress().body)


def codes(proof: Proof) -> set[str]:
    return {f.code for f in proof.faults}


def test_without_its_zip_the_dress_cannot_be_put_on() -> None:
    piece = dress().pattern.piece("back")
    assert codes(spoilt(replace(piece, marks=()))) == {"can-be-put-on"}


def test_a_short_zip_is_not_enough() -> None:
    rows = [DRESS[0], {**DRESS[1], "zip": 30}]
    assert {f.code for f in prove_replay(worked(rows)).faults} == {"can-be-put-on"}


def test_a_zip_goes_on_over_the_waist_seam() -> None:
    parted = {"pieces": ["front", "back"], "lower": ["skirt front", "skirt back"], "at": "waist"}
    done = worked([*DRESS, {"do": "cut_apart", **parted}])
    assert "can-be-put-on" not in {f.code for f in prove_replay(done).faults}
    piece = done.pattern.piece("skirt back")
    closed = prove(done.pattern.with_pieces(replace(piece, marks=())), done.body)
    assert "can-be-put-on" in {f.code for f in closed.faults}


def test_a_shoulder_out_of_place_is_found() -> None:
    piece = dress().pattern.piece("front")
    edge = piece.edge("shoulder.1")
    lifted = edge.curves[0].start - 0.4j
    along = (*edge.with_curves((type(edge.curves[0])(lifted, edge.curves[-1].end),)).curves,)  # type: ignore[call-arg]
    found = codes(spoilt(with_edge(piece, "shoulder.1", edge.with_curves(along))))
    assert found & {"outline-simple", "edge-flow", "dart-mouth"}


def test_a_wider_body_does_not_fit_in() -> None:
    proof = prove(dress().pattern, body(bust_girth=94.0, waist_girth=74.0, hip_girth=102.0))
    assert {"goes-round-bust", "goes-round-waist", "goes-round-hip"} <= codes(proof)


def test_darts_of_the_block_are_taken_out_at_the_waist() -> None:
    proof = prove(dress().pattern, dress().body)
    assert proof.measured("goes-round-bust").worst == pytest.approx(7.0, abs=1e-6)
    assert proof.measured("goes-round-waist").worst == pytest.approx(3.0, abs=1e-6)
    assert proof.measured("goes-round-hip").worst == pytest.approx(5.0, abs=1e-6)


def test_nothing_depends_on_where_a_piece_lies() -> None:
    """Turned and shifted on the table, a pattern is as sound as before."""
    move = Move.about(3 + 2j, 0.3).then(Move.by(20 - 7j))
    moved = Pattern(
        tuple(piece.moved(move) for piece in dress().pattern.pieces), dress().pattern.seams
    )
    was, now = prove(dress().pattern, dress().body), prove(moved, dress().body)
    assert [f.code for f in now.faults] == [f.code for f in was.faults]
    for one, two in zip(was.checked, now.checked, strict=True):
        assert (one.code, one.count) == (two.code, two.count)
        if one.worst is not None:
            assert two.worst == pytest.approx(one.worst, abs=1e-6)


def test_ranges_are_notes_for_a_body_near_the_reference_only() -> None:
    near = prove_replay(dress())
    assert near.measured("range").count == 10
    assert all(f.level == "note" for f in near.findings if f.code == "range")
    far = worked(DRESS, bust_girth=110.0, waist_girth=94.0, hip_girth=116.0)
    usual = far.body.kind.usual
    assert usual is not None
    assert not is_near(far.body, usual)
    assert prove_replay(far).measured("range").count == 0


def test_a_block_with_a_deep_neck_is_mentioned() -> None:
    wide = worked([{"do": "draft_dress"}], neck_base_girth=44.0)
    assert any(f.code == "range" and f.level == "note" for f in prove_replay(wide).findings)


POINTS: list[dict[str, Any]] = [
    *DRESS,
    {
        "do": "cut_apart",
        "pieces": ["front", "back"],
        "lower": ["skirt front", "skirt back"],
        "at": "upper dart points",
    },
    {"do": "let_go", "piece": "skirt front"},
    {"do": "spread", "piece": "skirt front", "hinge": "cut", "by": 5, "lines": 3},
]


def test_slashing_keeps_all_that_was_not_opened() -> None:
    proof = prove_replay(worked(POINTS))
    codes_found = {f.code for f in proof.findings}
    assert not codes_found & {"turning-keeps-length", "turning-keeps-area"}
    assert proof.measured("turning-keeps-area").count == 2


def test_a_wedge_that_is_not_told_is_found_in_a_real_step() -> None:
    done = worked(FLARED)
    last = done.stages[-1]
    silent = replace(
        last,
        result=replace(
            last.result, traces=tuple(t for t in last.result.traces if t.kind != "wedge")
        ),
    )
    found = prove(done.pattern, done.body, stages=(*done.stages[:-1], silent))
    assert {"turning-keeps-length", "turning-keeps-area"} <= {f.code for f in found.faults}
