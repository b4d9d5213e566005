"""A straight cut across a piece stays on the paper or is refused with where it would leave it."""

from __future__ import annotations

import pytest

from cutwright.errors import DraftError
from cutwright.geometry.outline import polygon
from cutwright.geometry.path import direction_at
from cutwright.pattern.sum import Limited
from cutwright.style.document import parse_step
from cutwright.style.replay import Replay, replay
from cutwright.workshop.gallery import know_all_steps, load_body

know_all_steps()
BODY = load_body("the-alto")


def _cut(
    start: str, end: str, share: float, *before: dict[str, object], do: str = "back"
) -> Replay:
    row = {
        "do": "cut_apart", "pieces": [do], "lower": ["other"], "at": "line",
        "start": {"edge": start, "share": share}, "end": {"edge": end, "share": 0.5},
    }  # fmt: skip
    return replay([parse_step(step) for step in ({"do": "draft_dress"}, *before, row)], BODY)


@pytest.mark.parametrize("share", [0.3, 0.5, 0.7])
def test_a_princess_line_through_a_dart_is_refused(share: float) -> None:
    done = _cut("shoulder", "hem", share, do="front")
    assert done.trouble is not None
    assert "leave the paper" in str(done.trouble)
    assert "dart" in str(done.trouble)


@pytest.mark.parametrize("share", [0.5, 0.7])
def test_a_princess_line_clear_of_the_darts_is_cut(share: float) -> None:
    done = _cut("shoulder", "hem", share)
    assert done.trouble is None
    for piece in done.pattern.pieces:
        assert polygon(piece.outline, 0.01).is_valid, piece.name


@pytest.mark.parametrize("end", ["armhole", "left armhole", "side", "left side"])
def test_a_one_shoulder_cut_is_sound_or_refused(end: str) -> None:
    whole: dict[str, object] = {"do": "mirror", "pieces": ["front"]}
    done = _cut("left shoulder", end, 0.5, whole, do="front")
    if done.trouble is not None:
        assert "leave the paper" in str(done.trouble)
    for piece in done.pattern.pieces:
        assert polygon(piece.outline, 0.01).is_valid, piece.name


def test_no_step_may_leave_paper_that_crosses_itself() -> None:
    done = replay([parse_step({"do": "draft_dress", "bust_ease": -20})], load_body("the-rower"))
    assert done.pattern.pieces == () or all(
        polygon(p.outline, 0.01).is_valid for p in done.pattern.pieces
    )


def test_a_waist_no_bodice_can_have_is_refused() -> None:
    step = parse_step({"do": "draft_bodice", "waist_ease": 60})
    with pytest.raises(DraftError, match="nearly level"):
        step.apply(replay([], BODY).pattern, BODY)


def test_a_depth_that_is_held_back_says_so_in_figure_and_finding() -> None:
    done = replay([parse_step({"do": "draft_bodice", "armhole_depth_ease": 5.9})], BODY)
    (figure,) = (f for f in done.figures if f.code == "armhole-depth")
    assert isinstance(figure.term, Limited)
    assert figure.value == pytest.approx(24.6)
    (found,) = (f for f in done.findings if f.code == "draft-armhole-depth-capped")
    assert "less ease" in str(found.message)


@pytest.mark.parametrize("body", ["the-alto", "the-gardener", "the-rower"])
@pytest.mark.parametrize(("at", "by"), [("hip", 0.0), ("waist", 22.5), ("hip", 15.0)])
def test_a_level_cut_meets_side_and_centre_square(body: str, at: str, by: float) -> None:
    cut = {
        "do": "cut_apart", "pieces": ["front", "back"], "lower": ["low front", "low back"],
        "at": at, "lower_by": by, "edge": "cut",
    }  # fmt: skip
    done = replay([parse_step(step) for step in ({"do": "draft_dress"}, cut)], load_body(body))
    assert done.trouble is None
    for low in ("low front", "low back"):
        piece = done.pattern.piece(low)
        (edge,) = piece.edge_parts("cut")
        here = piece.edges.index(edge)
        before, after = piece.edges[here - 1], piece.edges[(here + 1) % len(piece.edges)]
        ends = [
            (direction_at(before.curves, before.length), direction_at(edge.curves, 0.0)),
            (direction_at(edge.curves, edge.length), direction_at(after.curves, 0.0)),
        ]
        for one, other in ends:
            assert abs((one * other.conjugate()).real) < 0.01
    sides = [done.pattern.piece(name).edge_parts("side") for name in ("front", "back")]
    lengths = [sum(edge.length for edge in parts) for parts in sides]
    assert lengths[0] == pytest.approx(lengths[1], abs=0.3)
