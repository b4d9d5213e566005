"""A dart that is drawn up instead of sewn leaves one bow, without a hump, and all is accounted for."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from cutwright.errors import StepError
from cutwright.geometry.curve import Cubic, curvature
from cutwright.geometry.path import path_length
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Result
from cutwright.steps.dart_to_gathers import DartToGathers
from cutwright.style.document import parse_step
from cutwright.style.replay import replay
from cutwright.workshop.gallery import know_all_steps, load_body
from tests.hand_pieces import NOBODY, dress

know_all_steps()

PLACES: dict[str, dict[str, Any]] = {
    "armhole": {"edge": "armhole", "near": "side", "distance": 6},
    "neckline": {"edge": "neckline", "near": "centre front", "distance": 3},
    "side": {"edge": "side", "near": "armhole", "distance": 6},
    "shoulder": {},
}
FLAT = 0.0025


def moved(place: str, body: str) -> Pattern:
    """A bodice with the bust dart at a place."""
    steps: list[dict[str, Any]] = [{"do": "draft_bodice", "fit": "close", "back": "seam"}]
    if PLACES[place]:
        steps.append(
            {"do": "move_dart", "piece": "front", "dart": "bust dart", "to": PLACES[place]}
        )
    done = replay([parse_step(s) for s in steps], load_body(body))
    assert done.trouble is None
    return done.pattern


def drawn_up(pattern: Pattern, **asked: Any) -> tuple[Piece, Result]:
    result = DartToGathers(piece="front", dart="bust dart", **asked).apply(pattern, NOBODY)
    return result.pattern.piece("front"), result


def signs(piece: Piece, edge: str) -> list[float]:
    """Which way an edge bends, wherever the eye would see it bend."""
    found = [
        curvature(c, float(t))
        for part in piece.edge_parts(edge)
        for c in part.curves
        if isinstance(c, Cubic)
        for t in np.linspace(0, 1, 21)
    ]
    return [float(np.sign(b)) for b in found if abs(b) > FLAT]


@pytest.mark.parametrize("body", ["the-alto", "the-gardener", "the-rower"])
@pytest.mark.parametrize("place", sorted(PLACES))
def test_the_edge_bends_one_way_only(place: str, body: str) -> None:
    front, _result = drawn_up(moved(place, body))
    found = signs(front, place)
    assert found
    assert len(set(found)) == 1, f"{place} of {body} bends both ways"


@pytest.mark.parametrize("place", sorted(PLACES))
def test_paper_and_lengths_are_accounted_for(place: str) -> None:
    before = moved(place, "the-rower").piece("front")
    front, result = drawn_up(moved(place, "the-rower"))
    (trued,) = [t for t in result.traces if t.kind == "trued"]
    (closed,) = [t for t in result.traces if t.kind == "closed"]
    wedge, given = abs(ring_area(closed.points)), ring_area(trued.points)
    assert front.area - before.area == pytest.approx(wedge + given, abs=0.02)
    gained = front.edge_length(place) - before.edge_length(place)
    assert result.figures[0].value == pytest.approx(gained, abs=0.11)
    (mark,) = [m for m in front.marks if m.kind is MarkKind.GATHERS]
    assert mark.amount == pytest.approx(gained, abs=0.051)


def ring_area(ring: tuple[complex, ...]) -> float:
    turned = zip(ring, (*ring[1:], ring[0]), strict=True)
    return sum(a.real * b.imag - a.imag * b.real for a, b in turned) / 2


@pytest.mark.parametrize("over", [9.0, 11.5])
def test_it_is_drawn_up_over_the_length_that_is_named(over: float) -> None:
    before = moved("side", "the-rower")
    front, result = drawn_up(before, over=over)
    (mark,) = [m for m in front.marks if m.kind is MarkKind.GATHERS]
    assert result.figures[1].value == pytest.approx(over, abs=0.2)
    old = [c for e in before.piece("front").edge_parts("side") for c in e.curves]
    bow = next(c for c in front.edge("side").curves if isinstance(c, Cubic) and c not in old)
    assert path_length((bow,)) == pytest.approx(over, abs=0.2)
    assert mark.to is not None
    assert abs(mark.at - bow.start) + abs(mark.to - bow.end) < 1e-6


@pytest.mark.parametrize("body", ["the-alto", "the-gardener", "the-rower"])
def test_left_out_it_is_three_mouths(body: str) -> None:
    before = moved("shoulder", body)
    piece = before.piece("front")
    mouth = piece.intake(piece.darts[0])
    _front, result = drawn_up(before, into="ease")
    there = piece.edge_length("shoulder") + mouth
    assert result.figures[1].value > min(3 * mouth, there) - 0.8


def test_ease_is_marked_as_ease() -> None:
    front, _result = drawn_up(dress(), into="ease")
    assert [m.kind for m in front.marks if m.edge == "shoulder"] == [MarkKind.EASE]


def test_an_edge_on_the_fold_stays_straight() -> None:
    steps = [
        {"do": "draft_bodice", "fit": "close", "back": "seam"},
        {"do": "move_dart", "piece": "front", "dart": "bust dart",
         "to": {"edge": "centre front", "near": "neckline", "distance": 8}},
    ]  # fmt: skip
    done = replay([parse_step(s) for s in steps], load_body("the-rower"))
    with pytest.raises(StepError, match=r"on the fold.*Make it a seam"):
        raise done.trouble or AssertionError


def test_a_stretch_too_short_for_one_bow_names_one_that_will_do() -> None:
    with pytest.raises(StepError, match=r"over 9\.0 cm.*both ways.*1\d\.\d cm is enough"):
        drawn_up(dress(), over=9.0)
