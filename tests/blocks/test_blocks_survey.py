"""Every block drafted for real women: the paper gives back the tapes and sews together.

Bodies: 46 women of the 2012 US Army survey (ANSUR II, public domain); with the large table every eighth of 993
(all with CUTWRIGHT_SURVEY=all).
"""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from cutwright.blocks.draft_bodice import DraftBodice
from cutwright.blocks.draft_dress import DraftDress
from cutwright.blocks.draft_skirt import DraftSkirt
from cutwright.blocks.ease import EASES
from cutwright.blocks.measured_back import TapedBack, off_the_tape
from cutwright.body import Body, resolve
from cutwright.body.survey import read_survey
from cutwright.errors import DraftError
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Result
from cutwright.style.step import Step
from tests.blocks import laws
from tests.survey.tables import SAMPLE

TAPE = 0.1  # cm that a measure may be off when it is measured back

WAYS = [(fit, back) for fit in EASES for back in ("shaped", "seam", "fold")]


@cache
def women(path: Path) -> tuple[Body, ...]:
    return tuple(resolve(card) for card in read_survey(path))


def steps(fit: str, back: str) -> Iterator[Step]:
    asked = {"fit": fit, "back": back}
    shoulder = {"back_shoulder": "ease" if back == "fold" else "dart"}
    yield DraftDress.model_validate(asked | shoulder)
    yield DraftBodice.model_validate(asked | shoulder)
    yield DraftSkirt.model_validate(asked)


def missed(step: Step, result: Result, body: Body) -> list[TapedBack]:
    """Measures that the paper does not give back and no finding owns up to."""
    return [row for row in off_the_tape(step, Pattern(), result, body) if abs(row.off) > TAPE]


def broken_laws(result: Result) -> list[str]:
    """Everything that would not sew together, in words."""
    wrong: list[str] = []
    pattern = result.pattern
    front, back = (piece.name for piece in pattern.pieces)
    wrong += [
        f"{ends} {angle:.2f}"
        for ends, angle in laws.sums(pattern, back, front).items()
        if abs(angle - 180) > 3
    ]
    for piece in pattern.pieces:
        wrong += [
            f"{piece.name} {ends} {angle:.2f}"
            for ends, angle in laws.centre_angles(piece).items()
            if abs(angle - 90) > 1
        ]
        wrong += [f"leg {angle:.3f}" for angle in laws.leg_angles(piece) if abs(angle - 90) > 0.01]
        wrong += [f"{e.label} bends" for e in piece.edges if e.kind in laws.ROUND and laws.bends(e)]
        if laws.gaps(piece) > 1e-9:
            wrong.append(f"{piece.name} has a gap")
        if not laws.valid(piece):
            wrong.append(f"{piece.name} is no plain shape")
    for seam in pattern.seams:
        one, other = pattern.seam_lengths(seam)
        if abs(one - other - seam.ease) > 0.05:
            wrong.append(f"{seam.name} does not walk")
    return wrong


def go_over(bodies: tuple[Body, ...], fit: str, back: str) -> Counter[str]:
    """Draft every block for every body; asserts what was drafted, counts what was not."""
    count: Counter[str] = Counter()
    for body in bodies:
        for step in steps(fit, back):
            try:
                result = step.apply(Pattern(), body)
            except DraftError:
                count[f"{step.do} refused"] += 1
                continue
            count[step.do] += 1
            assert missed(step, result, body) == [], (body.name, step.do)
            assert broken_laws(result) == [], (body.name, step.do)
    return count


@pytest.mark.parametrize(("fit", "back"), WAYS)
def test_the_sample(fit: str, back: str) -> None:
    count = go_over(women(SAMPLE), fit, back)
    for block in ("draft_dress", "draft_bodice", "draft_skirt"):
        assert count[block] == len(women(SAMPLE)), count


@pytest.mark.survey
@pytest.mark.slow
@pytest.mark.parametrize(("fit", "back"), WAYS)
def test_the_survey(large_table: Path, fit: str, back: str) -> None:
    """Every eighth woman, or all 993 when CUTWRIGHT_SURVEY=all is set."""
    step = 1 if os.environ.get("CUTWRIGHT_SURVEY") == "all" else 8
    bodies = women(large_table)[::step]
    count = go_over(bodies, fit, back)
    for block in ("draft_dress", "draft_bodice", "draft_skirt"):
        assert count[block] >= 0.995 * len(bodies), count


def test_the_laws_can_be_broken() -> None:
    """The checks see a side that was stretched and a corner that was cut off."""
    body = women(SAMPLE)[0]
    drawn = DraftSkirt().apply(Pattern(), body)
    front = drawn.pattern.piece("skirt front")
    edges = tuple(
        e.with_curves(tuple(type(c)(*(p * 1.02 for p in c.controls)) for c in e.curves))
        if e.kind is EdgeKind.SIDE
        else e
        for e in front.edges
    )
    bent = drawn.pattern.with_pieces(type(front)(front.name, edges, front.grain))
    broken = broken_laws(Result(bent))
    assert any("gap" in text for text in broken)
    assert any("walk" in text for text in broken)
