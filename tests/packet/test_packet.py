"""Every style of the gallery, finished for real women, judged by the referee."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from pathlib import Path

import pytest

from cutwright.workshop.gallery import load_card, load_style, shipped
from tests.packet.referee import RULES, judged, worked
from tests.packet.seams import Miss
from tests.survey.tables import SAMPLE, spread

STYLES = tuple(shipped("styles"))
_CASES = [(style, rule) for style in STYLES for rule in RULES]

_BUST = "the bust level is drawn broken, beside the bust point"
_PAPER = "pieces are not numbered, centres not named"
KNOWN: dict[tuple[str, str], str] = {
    **{(style, "not named"): _PAPER for style in STYLES},
    **{(s, "bust level broken"): _BUST for s in ("market-dress", "orchard-dress", "shift")},
    **{(s, "bust level off"): _BUST for s in STYLES if s.endswith("dress") or s == "shift"},
}
"""What is known to be wrong and not mended yet."""

KNOWN_OF_SIXTY = KNOWN


def _cases(known: dict[tuple[str, str], str]) -> Iterable[object]:
    for style, rule in _CASES:
        reason = known.get((style, rule))
        marks = [pytest.mark.xfail(reason=reason, strict=True)] if reason else []
        yield pytest.param(style, rule, marks=marks)


@cache
def misses(style: str, table: Path, count: int) -> tuple[tuple[str, Miss], ...]:
    """What the referee finds for so many women of a table and the demo bodies, with the body's name."""
    chosen = load_style(style)
    cards = [*spread(table, count), *map(load_card, shipped("bodies"))]
    works = [(card.name, worked(chosen, card)) for card in cards]
    refused = [name for name, done in works if done is None]
    assert not refused, f"{style} is not drafted for {refused}"
    return tuple((name, miss) for name, done in works if done for miss in judged(done))


def found(style: str, rule: str, table: Path, count: int) -> list[str]:
    """The misses of one rule in words, the first of them."""
    rows = [(name, m) for name, m in misses(style, table, count) if m.rule == rule]
    return [f"{name}: {m.where} {m.value:.3f} {m.text}" for name, m in rows][:12]


@pytest.mark.parametrize(("style", "rule"), _cases(KNOWN))
def test_a_few_women(style: str, rule: str) -> None:
    assert found(style, rule, SAMPLE, 6) == []


@pytest.mark.survey
@pytest.mark.slow
@pytest.mark.parametrize(("style", "rule"), _cases(KNOWN_OF_SIXTY))
def test_sixty_women(large_table: Path, style: str, rule: str) -> None:
    assert found(style, rule, large_table, 60) == []
