"""From some measures to all of them."""

from __future__ import annotations

import math
import pickle

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutwright.body import MEASURES, BodyCard, Reading, check, family_named, resolve
from cutwright.errors import MeasureError

WOMEN = family_named()
FOUR = {"stature": 168.0, "bust_girth": 88.0, "waist_girth": 70.0, "hip_girth": 96.0}


def _body(**measures: float) -> dict[str, Reading]:
    body = resolve(BodyCard(name="x", measures=measures))
    return {r.measure: r for r in body.readings()}


def test_four_tapes_give_a_whole_body() -> None:
    body = resolve(BodyCard(name="x", measures=FOUR))
    assert [r.measure for r in body.readings()] == list(MEASURES)
    for r in body.readings():
        assert r.taped == (r.measure in WOMEN.needed)
        assert (r.spread is None) == r.taped
        assert bool(r.rule) != r.taped
        assert WOMEN.tapes[r.measure].holds(r.value)


def test_the_poor_estimates_ask_for_the_tape_with_their_spread() -> None:
    notes = {n.measure: str(n.message) for n in resolve(BodyCard(name="x", measures=FOUR)).notes}
    assert set(notes) == {"shoulder_length", "back_waist_length", "armhole_depth"}
    assert "13.8 ± 1.9 cm" in notes["shoulder_length"]
    assert "± 3.7 cm" in notes["back_waist_length"]
    taped = FOUR | {"shoulder_length": 12.5, "back_waist_length": 41, "armhole_depth": 21}
    assert resolve(BodyCard(name="x", measures=taped)).notes == ()


def test_what_was_taped_is_used_by_what_is_estimated() -> None:
    loose = _body(**FOUR)
    longer = _body(**FOUR, back_waist_length=loose["back_waist_length"].value + 1)
    change = longer["front_waist_length"].value - loose["front_waist_length"].value
    assert change == pytest.approx(1, abs=2e-3)
    assert longer["front_waist_length"].spread == pytest.approx(2.5)
    assert loose["front_waist_length"].spread == pytest.approx(math.hypot(2.5, 2 * 1.84))
    legs = _body(**FOUR, inside_leg=80)
    assert legs["waist_to_floor"].value == pytest.approx(80 + legs["body_rise"].value - 2)
    floor = _body(**FOUR, waist_to_floor=105)
    assert floor["inside_leg"].value == pytest.approx(105 - floor["body_rise"].value + 2)
    both = _body(**FOUR, waist_to_floor=105, inside_leg=80)
    assert both["body_rise"].value == pytest.approx(27)


def test_levels_agree_when_nothing_of_them_was_taped() -> None:
    b = _body(**FOUR)
    assert b["waist_to_floor"].value == pytest.approx(
        b["inside_leg"].value + b["body_rise"].value - 2, abs=0.05
    )
    assert b["waist_to_knee"].value == pytest.approx(
        b["waist_to_floor"].value - b["knee_height"].value, abs=0.05
    )


def test_the_rules_of_the_draft_hold() -> None:
    b = _body(**FOUR, back_waist_length=41, shoulder_length=12.5, shoulder_slope=19)
    assert b["bust_point_width"].value == pytest.approx(2 * (88 / 16 + 3.9))
    assert b["front_waist_length"].value == pytest.approx(41 + 3.6)
    assert b["armhole_depth"].value == pytest.approx(12.5 + 8.8)
    assert b["chest_width"].value == pytest.approx(
        2 * (3.2 + 0.25 * b["shoulder_breadth"].value + 0.05 * 88)
    )
    steep = _body(**FOUR, back_waist_length=41, shoulder_length=12.5, shoulder_slope=24)
    deeper = 0.6 * 12.5 * (math.sin(math.radians(24)) - math.sin(math.radians(19)))
    assert steep["armhole_depth"].value == pytest.approx(21.3 + deeper)
    short = _body(**FOUR, back_waist_length=34)
    assert short["armhole_depth"].value == pytest.approx(0.6 * 34)


@pytest.mark.parametrize(
    ("given_", "expected"),
    [
        ({"stature": 168, "bust_girth": 88}, {"hip_girth": 0.2358 * 168 + 0.6342 * 88 + 3.67}),
        ({"stature": 168, "hip_girth": 96}, {"bust_girth": -0.0329 * 168 + 0.82 * 96 + 16.3}),
        ({"stature": 168, "hip_girth": 96}, {"waist_girth": 3.25 + 0.9252 * 96 - 0.1331 * 168}),
        ({"hip_girth": 102.1}, {"stature": 162.8}),
        ({"bust_girth": 94.7}, {"stature": 162.8}),
        ({"bust_girth": 94.7, "inside_leg": 78.2}, {"stature": 162.8}),
    ],
)
def test_the_first_four_can_be_estimated_too(
    given_: dict[str, float], expected: dict[str, float]
) -> None:
    b = _body(**given_)
    for name, value in expected.items():
        assert b[name].value == pytest.approx(value)
        assert b[name].source == "estimated"


def test_an_estimate_from_an_estimate_is_less_sure() -> None:
    sure = _body(**FOUR)["arm_length"].spread
    less = _body(bust_girth=88, hip_girth=96)["arm_length"].spread
    assert sure is not None
    assert less is not None
    assert sure == pytest.approx(2 * 1.79)
    assert less > 1.5 * sure


@pytest.mark.parametrize(
    "given_", [{}, {"stature": 168.0}, {"stature": 168.0, "waist_girth": 70.0}]
)
def test_without_bust_and_hip_it_says_what_to_take(given_: dict[str, float]) -> None:
    with pytest.raises(MeasureError, match="Neither bust nor hip"):
        resolve(BodyCard(name="x", measures=given_))


def test_a_body_is_known_by_its_values_and_what_was_taped() -> None:
    one, two = (resolve(BodyCard(name=n, measures=FOUR)) for n in ("a", "b"))
    assert one == two
    assert hash(one) == hash(two)
    assert one.key == two.key
    other = resolve(BodyCard(name="a", measures=FOUR | {"bust_girth": 88.1}))
    assert other != one
    estimate = round(one.value("arm_length"), 3)
    taped = resolve(BodyCard(name="a", measures=FOUR | {"arm_length": estimate}))
    assert taped.key != one.key
    assert taped.taped("arm_length")
    assert taped.value("arm_length") == estimate


def test_a_body_can_be_sent_to_another_process() -> None:
    body = resolve(BodyCard(name="a", measures=FOUR))
    again = pickle.loads(pickle.dumps(body))
    assert again == body
    assert again.readings() == body.readings()
    assert again.notes == body.notes


def test_asking_a_body_for_what_is_no_measure() -> None:
    with pytest.raises(MeasureError, match="Did you mean"):
        resolve(BodyCard(name="a", measures=FOUR)).value("bust")


def _within(name: str) -> st.SearchStrategy[float]:
    return st.floats(WOMEN.tapes[name].lo, WOMEN.tapes[name].hi)


@given(
    st.fixed_dictionaries(
        {"bust_girth": _within("bust_girth")},
        optional={name: _within(name) for name in MEASURES if name != "bust_girth"},
    )
    | st.fixed_dictionaries(
        {"hip_girth": _within("hip_girth")},
        optional={name: _within(name) for name in MEASURES if name != "hip_girth"},
    )
)
def test_any_card_within_bounds_resolves_and_what_is_odd_is_doubted(
    measures: dict[str, float],
) -> None:
    body = resolve(BodyCard(name="x", measures=measures))
    doubted = {d.measure for d in check(body)}
    for r in body.readings():
        assert math.isfinite(r.value)
        assert r.spread is None or (math.isfinite(r.spread) and r.spread > 0)
        assert WOMEN.tapes[r.measure].holds(r.value) or r.measure in doubted
    assert not any(d.stops for d in check(body))
