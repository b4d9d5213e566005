"""Lengths written as sums: what they come to, and what they may not do."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutwright.errors import CutwrightError, FormulaError, MeasureError
from cutwright.pattern.sum import round_to, round_up
from cutwright.style.formula import evaluate, names_in

MEASURES = {"waist_girth": 70.0, "hip_girth": 96.0}


def measure(name: str) -> float:
    if name not in MEASURES:
        raise MeasureError(f"no measure {name}")
    return MEASURES[name]


def edge(name: str) -> float:
    return {"skirt front: hem": 40.0}[name]


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("12", 12.0),
        ("waist_girth / 4 + 1", 18.5),
        ('1.8 * length("skirt front: hem")', 72.0),
        ("-(2 + 3) * 2", -10.0),
        ("max(waist_girth, hip_girth) - min(1, 2)", 95.0),
        ("round_up(180.2)", 181.0),
        ("round_up(122.4, 5)", 125.0),
        ("round_to(180.2)", 180.0),
        ("abs(3 - 5) + sqrt(16)", 6.0),
    ],
)
def test_sums_come_out(text: str, value: float) -> None:
    assert evaluate(text, measure, edge) == pytest.approx(value)


@pytest.mark.parametrize(
    "text",
    [
        "", "1 +", "waist_girth.real", "__import__('os')", "open('x')", "2 ** 9", "1 if 1 else 2",
        "[1]", "'a'", "True", "lambda: 1", "waist_girth()", "length(3)", "length()", "max(1)",
        "sqrt(-1)", "1 / 0", "1e7", "9999999", "1 + " * 60 + "1",
        "f'{1}'", "a := 1", "1 < 2", "max(1, key=2)", "round_up(1, 0)",
        "round_to(1, 2, 3)", "round_up(1, 2, 3)", "abs(1, 2)", "sqrt(4, 2)", "min(1)", "max(1,2,3,4,5,6,7)", "min(1,2,3,4,5,6,7)",
    ],
)  # fmt: skip
def test_nothing_else_is_understood(text: str) -> None:
    with pytest.raises(CutwrightError):
        evaluate(text, measure, edge)


def deepest(pattern: str) -> int:
    """How often a sum may be put into another of its kind before it is refused."""
    text = "1"
    for depth in range(1, 60):
        text = pattern.format(text)
        try:
            evaluate(text, measure, edge)
        except FormulaError:
            return depth - 1
    return 60


def test_brackets_count_alike_whatever_they_hold() -> None:
    """A sign, a sum and a function are one bracket each; twenty are enough for any cutter."""
    found = {pattern: deepest(pattern) for pattern in ("-({})", "({}+1)", "(1*{})", "abs({})")}
    assert len(set(found.values())) == 1
    assert 20 <= found["abs({})"] < 40


@given(st.text(max_size=60))
def test_no_text_brings_the_reader_down(text: str) -> None:
    try:
        value = evaluate(text, measure, edge)
    except (CutwrightError, KeyError):
        return
    assert isinstance(value, float)


def test_the_names_a_sum_asks_for() -> None:
    assert names_in("max(waist_girth, 2) + hip_girth - waist_girth") == ("waist_girth", "hip_girth")
    with pytest.raises(FormulaError):
        names_in("1 +")


def test_rounding_forgives_a_hair() -> None:
    assert round_up(12.0000000001) == 12
    assert round_up(12.01) == 13
    assert round_to(12.5) == 13
