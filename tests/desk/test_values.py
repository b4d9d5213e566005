"""Words of a letter as they are shown and typed in another language."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from cutwright.desk.style.offers import GROUPS
from cutwright.desk.style.values import format_value, kept, numbers_in, parse_value
from cutwright.style.registry import all_steps
from cutwright.words import set_language


@pytest.fixture(autouse=True)
def german() -> Iterator[None]:
    set_language("de")
    yield
    set_language("en")


def test_a_german_reads_and_types_a_comma() -> None:
    assert format_value(2.5) == "2,5"
    assert parse_value("2,5") == "2.5"
    assert format_value((0.25, 0.75)) == "0,25; 0,75"
    assert numbers_in("0,25; 0,75") == numbers_in("0,25, 0,75") == ["0,25", "0,75"]


def test_a_sum_is_shown_by_the_names_of_measures_and_read_back() -> None:
    wish = "back_waist_length + 2.5"
    assert format_value(wish) == "Rückenlänge + 2,5"
    assert parse_value(format_value(wish)) == wish
    edges = '1.8 * length("skirt front: hem")'
    assert parse_value(format_value(edges)) == edges


def test_a_name_nobody_changed_stays_the_one_of_the_document() -> None:
    assert kept(("skirt front", "skirt back"), ["Rock vorn", "Schoß"]) == ["skirt front", "Schoß"]
    assert kept("hem flounce", "Saumvolant") == "hem flounce"
    assert kept(2.5, "3") == "3"


def test_every_heading_of_the_offers_is_declared_for_translators() -> None:
    assert {step.GROUP for step in all_steps().values()} <= set(GROUPS)
