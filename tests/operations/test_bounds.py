"""A length stays within its declared bounds however it is written: as a number or as a sum."""

from __future__ import annotations

from typing import Any

import pytest

from cutwright.errors import CutwrightError
from cutwright.pattern.pattern import Pattern
from cutwright.style.document import parse_step
from cutwright.style.parameter import Place, Within
from cutwright.style.registry import all_steps
from cutwright.workshop.gallery import load_body
from tests.operations.rows import ROWS

BODY = load_body("the-alto")


def _bounds(model: Any, field: str) -> Within | None:
    return next((m for m in model.model_fields[field].metadata if isinstance(m, Within)), None)


CALLS = [(row.do, row.asks, row.before) for row in ROWS] + [
    (tag, {}, Pattern) for tag in all_steps() if tag.startswith("draft_")
]
CASES = [
    pytest.param(do, {**asks, field: wrong}, before, id=f"{do} {field} {wrong}")
    for do, asks, before in CALLS
    for field in all_steps()[do].model_fields
    if (bounds := _bounds(all_steps()[do], field))
    and (field in asks or do.startswith("draft_"))
    and (do, field) != ("draft_bodice", "hip_ease")  # a bodice ends above the hip
    for wrong in (bounds.high + 1, f"{bounds.high} + 1", f"{bounds.low} - 1")
]
HIGH = _bounds(Place, "distance")
assert HIGH is not None
PLACES = [
    pytest.param(do, {**asks, field: {**place, "distance": f"{HIGH.high} + 1"}}, before, id=f"{do} {field}")
    for do, asks, before in CALLS
    for field, place in asks.items()
    if isinstance(place, dict) and "distance" in place
]  # fmt: skip


@pytest.mark.parametrize(("do", "asks", "before"), [*CASES, *PLACES])
def test_a_length_beyond_its_bounds_is_refused(do: str, asks: Any, before: Any) -> None:
    with pytest.raises(CutwrightError, match=r"may be from|may be 1 to 1000"):
        parse_step({"do": do, **asks}).apply(before(), BODY)


def test_the_gap_at_the_hinge_has_bounds_too() -> None:
    (row,) = (row for row in ROWS if row.do == "spread")
    with pytest.raises(CutwrightError, match="hinge by is 61"):
        parse_step({"do": "spread", **row.asks, "hinge_by": "60 + 1"}).apply(row.before(), BODY)


def test_there_are_places_and_lengths() -> None:
    assert len(PLACES) >= 2
    assert len(CASES) > 60
