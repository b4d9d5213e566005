"""The body card: read with all problems at once, written and read back the same."""

from __future__ import annotations

from datetime import date
from importlib.resources import files
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from cutwright.body import (
    MEASURES,
    BodyCard,
    card_from,
    card_schema,
    check,
    family_named,
    read_card,
    resolve,
    write_card,
)
from cutwright.errors import DocumentError, MeasureError

TAPES = family_named().tapes
DEMOS = [
    Path(str(p))
    for p in files("cutwright").joinpath("gallery/bodies").iterdir()
    if p.name.endswith(".json")
]


def test_measures_are_read_in_any_unit_and_kept_in_the_order_of_a_card() -> None:
    card = card_from(
        {
            "format": 1,
            "name": "  the weaver ",
            "measured_on": "2026-05-02",
            "measures": {
                "hip_girth": 96,
                "bust_girth": "36 1/2 in",
                "waist_girth": "70,5",
                "stature": "5 ft 6 in",
                "shoulder_slope": "20.5°",
            },
        }
    )
    assert card.name == "the weaver"
    assert card.measured_on == date(2026, 5, 2)
    assert card.measures == {
        "stature": 167.64, "bust_girth": 92.71, "waist_girth": 70.5, "hip_girth": 96.0,
        "shoulder_slope": 20.5,
    }  # fmt: skip
    assert list(card.measures) == [m for m in MEASURES if m in card.measures]


def test_all_problems_are_named_at_once_with_their_places() -> None:
    raw = {
        "format": 1,
        "name": "a\nb",
        "measured_on": "2026-13-01",
        "measures": {"bust_girth": "x", "bust": 92, "waist_girth": None, "shoulder_slope": "20 cm"},
        "colour": 1,
    }
    with pytest.raises(DocumentError) as fault:
        card_from(raw)
    places = [place for place, _text in fault.value.problems]
    assert places == [
        "name", "measured_on", "measures, bust_girth", "measures, bust", "measures, waist_girth",
        "measures, shoulder_slope", "colour",
    ]  # fmt: skip
    told = str(fault.value)
    assert "Did you mean" in told
    assert "Traceback" not in told
    assert "pydantic" not in told


def test_what_no_body_can_have_is_a_problem_of_the_card() -> None:
    with pytest.raises(DocumentError) as fault:
        card_from({"format": 1, "name": "a", "measures": {"bust_girth": 880, "hip_girth": 36}})
    assert [place for place, _text in fault.value.problems] == [
        "measures, bust_girth", "measures, hip_girth",
    ]  # fmt: skip
    assert "Did you mean 88 cm" in str(fault.value)
    assert "Did you mean 91.4 cm" in str(fault.value)


def test_measures_must_be_names_and_values() -> None:
    with pytest.raises(DocumentError, match="curly brackets"):
        card_from({"format": 1, "name": "a", "measures": [92]})
    with pytest.raises(DocumentError, match="measures: this is missing"):
        card_from({"format": 1, "name": "a"})


@given(
    st.dictionaries(st.sampled_from(sorted(MEASURES)), st.floats(0, 1), min_size=1).map(
        lambda d: {k: TAPES[k].lo + v * (TAPES[k].hi - TAPES[k].lo) for k, v in d.items()}
    )
)
def test_a_card_reads_back_as_it_was_written(measures: dict[str, float]) -> None:
    card = BodyCard(name="x", measures=measures)
    again = BodyCard.model_validate(card.model_dump(mode="json"))
    assert again == card


def test_a_card_comes_back_from_the_disk(tmp_path: Path) -> None:
    card = BodyCard(name="x", measured_on=date(2026, 1, 2), measures={"bust_girth": "36 1/2 in"})  # type: ignore[dict-item]
    write_card(tmp_path / "x.json", card)
    assert read_card(tmp_path / "x.json") == card


def test_the_schema_names_every_measure_and_passes_the_demo_cards() -> None:
    schema = card_schema()
    Draft202012Validator.check_schema(schema)
    assert set(schema["properties"]["measures"]["properties"]) == set(MEASURES)
    look = Draft202012Validator(schema)
    for path in DEMOS:
        assert look.is_valid(read_card(path).model_dump(mode="json"))
    assert not look.is_valid({"format": 1, "name": "a", "measures": {"bust": 92}})
    assert not look.is_valid({"format": 2, "name": "a", "measures": {}})


@pytest.mark.parametrize("path", DEMOS, ids=lambda p: p.stem)
def test_demo_figures_are_well_taped_and_without_doubt(path: Path) -> None:
    card = read_card(path)
    assert len(card.measures) >= 30
    assert {name for name, tape in TAPES.items() if tape.ask} <= set(card.measures)
    assert card.measured_on is not None
    assert card.measured_on.year == 2026
    assert check(card) == ()
    assert resolve(card).notes == ()


def test_demo_figures_are_far_apart() -> None:
    cards = [read_card(path).measures for path in DEMOS]
    assert len(cards) == 3
    for name, apart in (
        ("stature", 25),
        ("bust_girth", 30),
        ("waist_girth", 30),
        ("hip_girth", 20),
    ):
        values = [card[name] for card in cards]
        assert max(values) - min(values) >= apart


def test_an_impossible_value_stops_even_a_card_made_in_memory() -> None:
    with pytest.raises(MeasureError, match="Did you mean 88 cm"):
        resolve(BodyCard(name="x", measures={"bust_girth": 880, "hip_girth": 96}))
