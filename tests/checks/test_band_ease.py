"""A waistband holds at the waist: half a centimetre to one and a half of ease (common practice)."""

from __future__ import annotations

import pytest

from cutwright.checks.proof import prove
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Finding
from cutwright.steps.waistband import Waistband
from cutwright.style.parameter import EdgeOf
from tests.checks.hand import body, skirt

ROUND = 72.0
"""The waist of the skirt drawn by hand."""


def banded(held: float = 0.0) -> Pattern:
    edges = (
        EdgeOf(piece="skirt front", edge="waist"),
        EdgeOf(piece="skirt back", edge="waist"),
    )
    return Waistband(edges=edges, ease=held).apply(skirt(), body()).pattern


def said(pattern: Pattern, waist: float) -> list[Finding]:
    proof = prove(pattern, body(waist_girth=waist))
    return [f for f in proof.findings if f.code == "band-ease"]


@pytest.mark.parametrize(
    ("waist", "level"),
    [
        (71.7, "fault"),
        (71.5, None),
        (71.0, None),
        (70.5, None),
        (70.0, "warning"),
        (66.0, "warning"),
    ],
)
def test_the_band_holds_and_closes(waist: float, level: str | None) -> None:
    assert [f.level for f in said(banded(), waist)] == ([level] if level else [])


def test_what_is_held_in_under_the_band_is_not_its_ease() -> None:
    assert said(banded(held=2.0), 69.0) == []
    (tight,) = said(banded(held=2.0), 70.0)
    assert tight.level == "fault"
    assert tight.value == pytest.approx(0.0, abs=0.01)


def test_without_a_band_nothing_is_said() -> None:
    assert prove(skirt(), body()).measured("band-ease").count == 0
