"""Waist darts of bodice and skirt: as many, at the same places, none of them a needle."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cutwright.body.body import Body
from cutwright.body.card import BodyCard
from cutwright.body.resolve import resolve
from cutwright.checks.proof import Proof, prove
from cutwright.pattern.pattern import Pattern
from cutwright.style.document import parse_step
from cutwright.style.replay import replay
from cutwright.workshop.gallery import know_all_steps, load_body

HALVES = (("front", "skirt front"), ("back", "skirt back"))
ORDERS = (("draft_bodice", "draft_skirt"), ("draft_skirt", "draft_bodice"))
BODIES = (
    {"stature": 168.0, "bust_girth": 88.0, "waist_girth": 70.0, "hip_girth": 96.0},
    {"stature": 160.0, "bust_girth": 92.0, "waist_girth": 68.0, "hip_girth": 104.0},
    {"stature": 172.0, "bust_girth": 104.0, "waist_girth": 78.0, "hip_girth": 108.0},
    {"stature": 165.0, "bust_girth": 84.0, "waist_girth": 66.0, "hip_girth": 100.0},
)


def wearers() -> list[Body]:
    know_all_steps()
    cards = [
        BodyCard.model_validate({"name": f"no {i}", "measures": m}) for i, m in enumerate(BODIES)
    ]
    return [*map(resolve, cards), load_body("the-rower"), load_body("the-alto")]


def drafted(wearer: Body, steps: list[dict[str, object]]) -> Pattern:
    done = replay([parse_step(step) for step in steps], wearer)
    assert done.trouble is None
    return done.pattern


def intakes(pattern: Pattern, name: str) -> list[float]:
    piece = pattern.piece(name)
    waist = [e for e in piece.edges if e.name == "waist"]
    return [
        piece.intake(dart)
        for dart in piece.darts
        if any(abs(piece.mouth(dart)[0] - e.end) < 1e-9 for e in waist)
    ]


def said(proof: Proof) -> list[str]:
    return [f.level for f in proof.findings if f.code == "darts-meet"]


@pytest.mark.parametrize("fit", ["close", "easy", "loose"])
def test_a_skirt_takes_as_many_darts_as_its_bodice_and_sets_them_below(fit: str) -> None:
    for wearer in wearers():
        steps: list[dict[str, object]] = [{"do": do, "fit": fit} for do in ORDERS[0]]
        pattern = drafted(wearer, steps)
        proof = prove(pattern, wearer)
        assert said(proof) == []
        assert (proof.measured("darts-meet").worst or 0.0) < 0.01
        assert {f.code for f in proof.faults} <= {"can-be-put-on"}  # it has no opening yet


@pytest.mark.parametrize("order", ORDERS)
def test_no_waist_dart_is_a_needle(order: tuple[str, str]) -> None:
    for wearer in wearers():
        pattern = drafted(wearer, [{"do": do} for do in order])
        for name in (n for pair in HALVES for n in pair):
            assert all(intake >= 1.0 - 1e-9 for intake in intakes(pattern, name))


def test_a_dress_cut_apart_at_the_waist_has_its_darts_in_line() -> None:
    for wearer in wearers():
        lower = ["skirt front", "skirt back"]
        cut: dict[str, object] = {"do": "cut_apart", "lower": lower, "at": "waist"}
        cut["pieces"] = ["front", "back"]
        proof = prove(drafted(wearer, [{"do": "draft_dress"}, cut]), wearer)
        assert said(proof) == []


def test_darts_that_are_set_aside_are_found() -> None:
    wearer = load_body("the-rower")
    know_all_steps()
    pattern = drafted(wearer, [{"do": "draft_bodice"}, {"do": "draft_skirt"}])
    assert said(prove(pattern)) == []
    other = drafted(wearer, [{"do": "draft_bodice"}, {"do": "draft_skirt", "largest_dart": 2.0}])
    alone = drafted(wearer, [{"do": "draft_skirt", "largest_dart": 2.0}])
    for name in ("skirt front", "skirt back"):
        other = other.with_pieces(alone.piece(name))
    assert "warning" in said(prove(replace(other, seams=pattern.seams)))
