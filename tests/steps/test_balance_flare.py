"""Balancing the flare: both sides of a seam lean alike, sewn edges and sides keep their lengths."""

from __future__ import annotations

from math import degrees

import pytest

from cutwright.checks.proof import prove, prove_replay
from cutwright.errors import StepError
from cutwright.pattern.edge import Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Result, TraceKind
from cutwright.pattern.shaping.leans import lean
from cutwright.steps.balance_flare import BalanceFlare
from cutwright.steps.mirror import Mirror
from cutwright.style.parameter import EdgeOf
from cutwright.style.replay import replay
from cutwright.workshop.gallery import load_body, load_style
from tests.checks.hand import body, skirt
from tests.hand_pieces import NOBODY
from tests.operations.rows import FLARED_UNEVENLY

SIDE = EdgeOf(piece="skirt front", edge="side")
HALVES = ("skirt front", "skirt back")


def leans(pattern: Pattern) -> tuple[float, ...]:
    return tuple(
        degrees(lean(pattern.piece(name), pattern.piece(name).edge("side"))) for name in HALVES
    )


def balanced(way: str, lines: int = 3) -> tuple[Pattern, Result]:
    before = FLARED_UNEVENLY()
    step = BalanceFlare.model_validate({"edge": SIDE, "way": way, "lines": lines})
    return before, step.apply(before, NOBODY)


@pytest.mark.parametrize("lines", [1, 2, 3, 5])
@pytest.mark.parametrize(("way", "aim"), [("shared", 0.5), ("opened", 1.0), ("folded out", 0.0)])
def test_both_sides_come_to_the_lean_asked_for(way: str, aim: float, lines: int) -> None:
    before, result = balanced(way, lines)
    low, high = sorted(leans(before))
    assert high - low > 3
    assert leans(result.pattern) == pytest.approx([low + aim * (high - low)] * 2, abs=1e-6)


@pytest.mark.parametrize("way", ["shared", "opened", "folded out"])
def test_waists_and_sides_keep_their_lengths(way: str) -> None:
    before, result = balanced(way)
    for name in HALVES:
        for edge in ("waist", "side"):
            ref = Ref(name, edge)
            assert result.pattern.length(ref) == pytest.approx(before.length(ref), abs=1e-6)


def test_the_hem_grows_by_what_opens_and_shrinks_by_what_is_folded_out() -> None:
    before, result = balanced("shared")
    change = {
        n: result.pattern.length(Ref(n, "hem")) - before.length(Ref(n, "hem")) for n in HALVES
    }
    gaps = {(f.code, f.piece): f.value for f in result.figures}
    assert change["skirt back"] == pytest.approx(gaps["opened", "skirt back"], abs=0.3)
    assert change["skirt front"] == pytest.approx(-gaps["folded-out", "skirt front"], abs=0.3)
    assert abs(sum(change.values())) < 0.6


def test_the_hip_is_narrower_by_what_is_folded_out_there() -> None:
    before, result = balanced("folded out")
    old, new = (p.piece("skirt front").level("hip") for p in (before, result.pattern))
    assert old is not None
    assert new is not None
    turn = leans(before)[0] - leans(result.pattern)[0]
    assert 0 < old.length - new.length < 0.06 * turn * 20


def test_each_wedge_is_shown() -> None:
    _before, result = balanced("shared")
    kinds = [(t.kind, t.piece) for t in result.traces]
    assert kinds.count((TraceKind.FOLDED, "skirt front")) == 3
    assert (
        kinds.count((TraceKind.WEDGE, "skirt back"))
        == kinds.count((TraceKind.CUT, "skirt back"))
        == 3
    )


def test_sides_that_lean_alike_are_left_alone() -> None:
    _before, result = balanced("shared")
    again = BalanceFlare(edge=SIDE).apply(result.pattern, NOBODY)
    assert again.pattern == result.pattern
    assert [f.code for f in again.findings] == ["no-flare-to-balance"]


def test_a_centre_seam_has_no_flare_to_balance() -> None:
    with pytest.raises(StepError, match="another piece"):
        BalanceFlare(edge=EdgeOf(piece="skirt back", edge="centre back")).apply(skirt(), body())


def test_whole_pieces_are_asked_to_be_balanced_as_halves() -> None:
    whole = Mirror(pieces=HALVES).apply(FLARED_UNEVENLY(), NOBODY).pattern
    with pytest.raises(StepError, match="halves first"):
        BalanceFlare(edge=SIDE).apply(whole, NOBODY)


@pytest.mark.parametrize("name", ["orchard-dress", "flared-skirt"])
def test_the_gallery_hangs_plumb(name: str) -> None:
    """Darts of different size were closed into the hem; without the step the seam is out of plumb."""
    wearer = load_body("the-alto")
    steps = load_style(name).steps
    proof = prove_replay(replay(steps, wearer))
    assert proof.sound
    assert (proof.measured("side-balance").worst or 0) < 0.1
    without = tuple(step for step in steps if not isinstance(step, BalanceFlare))
    assert (prove(replay(without, wearer).pattern).measured("side-balance").worst or 0) > 1
