"""Every style of the gallery, finished for real women, judged by the referee."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from cutwright.workshop.gallery import load_card, load_style, shipped
from tests.packet.referee import RULES, judged, worked
from tests.packet.seams import Miss
from tests.survey.tables import SAMPLE, spread

STYLES = tuple(shipped("styles"))
CASES = [(style, rule) for style in STYLES for rule in ("refused", *RULES)]
KNOWN = {
    ("orchard-dress", "notch beside corner"): "the middle of a strip may fall beside a side seam",
}
"""What is known to be wrong among sixty women and not mended yet."""
SIXTY = [
    pytest.param(*case, marks=pytest.mark.xfail(reason=KNOWN[case], strict=True))
    if case in KNOWN
    else case
    for case in CASES
]


@cache
def misses(style: str, table: Path, count: int) -> tuple[tuple[str, Miss], ...]:
    """What the referee finds for so many women of a table and the demo bodies, with the body's name."""
    chosen = load_style(style)
    cards = [*spread(table, count), *map(load_card, shipped("bodies"))]
    out: list[tuple[str, Miss]] = []
    for card in cards:
        done = worked(chosen, card)
        found = [Miss("refused", card.name, 0.0)] if done is None else judged(done)
        out += [(card.name, miss) for miss in found]
    return tuple(out)


def found(style: str, rule: str, table: Path, count: int) -> list[str]:
    """The misses of one rule in words, the first of them."""
    rows = [(name, m) for name, m in misses(style, table, count) if m.rule == rule]
    return [f"{name}: {m.where} {m.value:.3f} {m.text}" for name, m in rows][:12]


@pytest.mark.parametrize(("style", "rule"), CASES)
def test_a_few_women(style: str, rule: str) -> None:
    assert found(style, rule, SAMPLE, 6) == []


@pytest.mark.survey
@pytest.mark.slow
@pytest.mark.parametrize(("style", "rule"), SIXTY)
def test_sixty_women(large_table: Path, style: str, rule: str) -> None:
    assert found(style, rule, large_table, 60) == []
