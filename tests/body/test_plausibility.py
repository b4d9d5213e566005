"""A slip of the pen is found and named; a real figure is left in peace."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutwright.body import MEASURES, Doubt, check, family_named
from cutwright.body.plausibility import CAUSES
from cutwright.body.size_charts import size, sizes
from cutwright.errors import MeasureError
from tests.body.given import Given

TAPES = family_named().tapes
GOOD = {
    "stature": 168.0, "bust_girth": 88.0, "waist_girth": 70.0, "hip_girth": 96.0,
    "neck_base_girth": 37.0, "thigh_girth": 57.0, "calf_girth": 36.0, "wrist_girth": 15.5,
    "upper_arm_girth": 28.0, "back_waist_length": 40.5, "inside_leg": 79.0, "knee_girth": 37.0,
}  # fmt: skip


def _first(**changed: float) -> Doubt:
    """The doubt about the first of the changed measures."""
    name = next(iter(changed))
    return next(d for d in check(Given(GOOD | changed)) if d.measure == name)


def test_a_good_card_raises_no_doubt() -> None:
    assert check(Given(GOOD)) == ()


@pytest.mark.parametrize(
    ("changed", "cause", "suggestion", "stops"),
    [
        ({"bust_girth": 880}, "millimetres", 88.0, True),
        ({"bust_girth": 8.8}, "decimal point", 88.0, True),
        ({"bust_girth": 34.5}, "inches", 87.63, True),
        ({"bust_girth": 44}, "half", 88.0, True),
        ({"stature": 1.68}, "metres", 168.0, True),
        ({"stature": 66}, "inches", 167.64, True),
        ({"wrist_girth": 6.2}, "inches", 15.748, True),
        ({"neck_base_girth": 18.5}, "half", 37.0, True),
        ({"thigh_girth": 28.5}, "half", 57.0, True),
        ({"back_waist_length": 16}, "inches", 40.64, True),
        ({"upper_arm_girth": 56}, "doubled", 28.0, False),
        ({"thigh_girth": 75}, "digits", 57.0, False),
        ({"hip_girth": 69}, "digits", 96.0, False),
        ({"waist_girth": 88, "bust_girth": 70}, "swapped", 70.0, False),
        ({"waist_girth": 96, "hip_girth": 70}, "swapped", 70.0, False),
        ({"thigh_girth": 37, "knee_girth": 57}, "swapped", 57.0, False),
    ],
)
def test_slips_are_named_with_what_was_meant(
    changed: dict[str, float], cause: str, suggestion: float, stops: bool
) -> None:
    doubt = _first(**changed)
    assert (doubt.cause, doubt.stops) == (cause, stops)
    assert doubt.suggestion == pytest.approx(suggestion)
    assert "Did you mean" in str(doubt.message)


def test_a_swap_names_the_other_measure() -> None:
    assert "swapped with “Bust”" in str(_first(waist_girth=88, bust_girth=70).message)


def test_what_no_slip_explains_is_asked_to_be_measured_again() -> None:
    doubt = _first(inside_leg=62)
    assert (doubt.cause, doubt.suggestion, doubt.stops) == ("", None, False)
    assert "measure again" in str(doubt.message)


def test_a_waist_far_over_the_hip_is_asked_about_and_does_not_stop() -> None:
    doubt = _first(waist_girth=118)
    assert not doubt.stops


@pytest.mark.parametrize("back", [33.5, 36.0, 38.0, 40.0, 42.5, 45.0, 49.0])
def test_every_back_length_between_iso_waist_and_navel_is_accepted(back: float) -> None:
    """Mean woman of the survey: 33.0 (1 % to the ISO level) to 49.4 (99 % to the navel)."""
    mean = {"stature": 162.8, "bust_girth": 94.7, "hip_girth": 102.1}
    assert check(Given(mean | {"back_waist_length": back})) == ()


@pytest.mark.parametrize("back", [32.5, 50.0])
def test_backs_beyond_that_are_asked_about(back: float) -> None:
    mean = {"stature": 162.8, "bust_girth": 94.7, "hip_girth": 102.1}
    assert [d.measure for d in check(Given(mean | {"back_waist_length": back}))] == [
        "back_waist_length"
    ]


def test_no_waist_is_held_against_the_navel() -> None:
    """The survey's mean waist at the navel is 86.1; the dressmaker's is some 14 less."""
    mean = {"stature": 162.8, "bust_girth": 94.7, "hip_girth": 102.1}
    for waist in (65.0, 71.3, 78.0):
        assert check(Given(mean | {"waist_girth": waist})) == ()


@pytest.mark.parametrize(("bust", "row"), sizes())
def test_no_size_of_the_chart_is_doubted(bust: int, row: str) -> None:
    assert check(size(bust, row)) == ()


def test_a_name_that_is_no_measure() -> None:
    with pytest.raises(MeasureError):
        check(Given({"bust": 88.0}))


@given(st.dictionaries(st.sampled_from(sorted(MEASURES)), st.floats(0, 2000), max_size=12))
def test_any_values_are_judged_without_falling_over(values: dict[str, float]) -> None:
    doubts = check(Given(values))
    assert {d.measure for d in doubts} <= set(values)
    for doubt in doubts:
        assert doubt.stops == (not TAPES[doubt.measure].holds(values[doubt.measure]))
        assert doubt.cause in {"", *CAUSES}
        assert (doubt.suggestion is None) == (doubt.cause == "")
        assert doubt.suggestion is None or TAPES[doubt.measure].holds(doubt.suggestion)
    assert {d.measure for d in doubts} >= {n for n, v in values.items() if not TAPES[n].holds(v)}


def test_less_than_nothing_is_asked_about_and_nothing_is_read_into_it() -> None:
    for value in (-0.0, -88.0, -0.0004):
        (doubt,) = (d for d in check(Given({"bust_girth": value})) if d.measure == "bust_girth")
        assert doubt.stops
        assert doubt.cause == ""
