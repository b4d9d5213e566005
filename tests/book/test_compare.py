"""What changed between two documents."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutwright.book.compare import Comparison, How, compare


def steps(*names: str, **of_a: Any) -> dict[str, Any]:
    return {"steps": [{"do": name, **(of_a if name == "a" else {})} for name in names]}


def told(found: Comparison) -> list[tuple[str, int | None, int | None]]:
    return [(step.how.value, step.was_at, step.now_at) for step in found.steps]


@pytest.mark.parametrize(
    ("before", "after", "changes"),
    [
        ("abc", "abc", []),
        ("abc", "abxc", [("added", None, 2)]),
        ("abc", "ac", [("removed", 1, None)]),
        ("", "a", [("added", None, 0)]),
        ("abcd", "bcda", [("moved", 0, 3)]),
        ("abcd", "axcd", [("removed", 1, None), ("added", None, 1)]),
        ("aba", "ab", [("removed", 2, None)]),
    ],
)
def test_steps_are_followed(before: str, after: str, changes: list[Any]) -> None:
    assert told(compare(steps(*before), steps(*after))) == changes


def test_a_changed_step_tells_its_fields() -> None:
    before = steps("x", "a", "y", width=2.0, at={"edge": "hem"}, old=1)
    after = steps("x", "a", "new", "y", width=3.5, at={"edge": "side"}, fresh=None)
    found = compare(before, after)
    assert told(found) == [("changed", 1, 1), ("added", None, 2)]
    assert [
        (one.place, one.how, one.before, one.after, one.by) for one in found.steps[0].fields
    ] == [
        (("width",), How.CHANGED, 2.0, 3.5, 1.5),
        (("at", "edge"), How.CHANGED, "hem", "side", None),
        (("old",), How.REMOVED, 1, None, None),
        (("fresh",), How.ADDED, None, None, None),
    ]


def test_fields_beside_the_steps_are_compared_too() -> None:
    found = compare({"name": "a", "tags": ["x", "y"]}, {"name": "b", "tags": ["x"], "n": True})
    assert [(one.place, one.how.value) for one in found.fields] == [
        (("name",), "changed"), (("tags", 1), "removed"), (("n",), "added"),
    ]  # fmt: skip


def test_true_and_one_differ() -> None:
    (change,) = compare({"n": 1}, {"n": True}).fields
    assert (change.how, change.by) == (How.CHANGED, None)


STEP = st.fixed_dictionaries({"do": st.sampled_from("abc")}, optional={"n": st.integers(0, 2)})


@given(st.lists(STEP, max_size=8), st.lists(STEP, max_size=8))
def test_every_step_is_accounted_for(before: list[Any], after: list[Any]) -> None:
    found = compare({"steps": before}, {"steps": after})
    gone = [step.was_at for step in found.steps if step.was_at is not None]
    come = [step.now_at for step in found.steps if step.now_at is not None]
    assert len(set(gone)) == len(gone)
    assert len(set(come)) == len(come)
    stayed = [step for at, step in enumerate(before) if at not in gone]
    assert stayed == [step for at, step in enumerate(after) if at not in come]
    assert bool(found) == (before != after)
    for step in found.steps:
        assert step.before == (None if step.was_at is None else before[step.was_at])
        assert step.after == (None if step.now_at is None else after[step.now_at])
        assert bool(step.fields) == (step.how is How.CHANGED)
