"""Rule 7: every number is explained, and the sums hold when they are reckoned again."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutwright.checks.proof import prove
from cutwright.checks.sums import claims
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Figure


def codes(value: float, how: str) -> list[str]:
    figures = (Figure("hem", value, "cm", how, "flounce"),)
    return [f.code for f in prove(Pattern(), figures=figures).findings]


@pytest.mark.parametrize(
    ("value", "how"),
    [
        (96.5, "front 27.4 + back 26.1 = 53.5; × 1.8 = 96.3 → 96.5"),
        (180.0, "26 + 27 = 53; x 2 = 106; x 1.7 = 180.2 → 180"),
        (63.0, "neckline 72 × 1.7 = 122.4 → 125; 125 ÷ 2 = 62.5 → 63 (two parts)"),
        (23.75, "(bust 88 + ease 7) / 4 = 23.75"),
        (16.0, "5 slashes 3.2 × 5 = 16.0"),
        (5.0, "√(3² + 4²) = 5"),
        (12.1, "shoulder.1 4.2 + shoulder.2 7.9 = 12.1 cm"),
        (15.5, "12.5 cm² + 3.0 cm² = 15.5 cm²"),
        (8.0, "8 × tan(45°) = 8.0"),
        (-2.0, "7 − 9 = −2"),
        (88.0, "taped 88.0"),
        (9.0, "18 × 50 % = 9"),
        (44.7, "half of (82.4 + 7.0) = 44.7"),
        (12.164, "centre 1.36 + sides 4.14 + darts 6.67 = 12.17"),
    ],
)
def test_sums_that_hold(value: float, how: str) -> None:
    assert codes(value, how) == []


@pytest.mark.parametrize(
    ("value", "how"),
    [
        (96.5, "front 27.4 + back 26.1 = 53.6; × 1.8 = 96.48 → 96.5"),
        (96.4, "front 27.4 + back 26.1 = 53.5; × 1.8 = 96.4"),
        (5.0, "2 + 2 = 5"),
        (150.0, "72 × 1.7 = 122.4 → 150"),
        (17.75, "73 / 4 = 18.25 − 0.5 = 17.75"),
    ],
)
def test_sums_that_do_not_hold(value: float, how: str) -> None:
    assert codes(value, how) == ["figure-wrong"]


def test_a_figure_without_its_sum() -> None:
    assert codes(53.5, "") == ["figure-unexplained"]


def test_a_sum_that_does_not_come_to_the_figure() -> None:
    assert codes(54.0, "27.4 + 26.1 = 53.5") == ["figure-wrong"]


@given(st.integers(1, 999), st.integers(1, 999), st.integers(10, 40), st.integers(-3, 3))
def test_a_slip_in_any_digit_is_found(a: int, b: int, ratio: int, slip: int) -> None:
    half = (a + b) / 10
    whole = round(half * ratio / 10, 2)
    told = whole + slip / 100
    how = f"front {a / 10} + back {b / 10} = {half:.1f}; × {ratio / 10} = {told:.2f}"
    off = [claim.off for claim in claims(how)]
    assert len(off) == 2
    assert (max(off) > 0) == (slip != 0)
