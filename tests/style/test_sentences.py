"""The sentence of a step: its count in words, its edges in one phrase, and an example of each."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from cutwright.style.document import parse_step
from cutwright.style.registry import all_steps
from cutwright.wording.names import name_text
from cutwright.wording.sentences import sentence
from cutwright.words import current_language, set_language
from cutwright.workshop.examples import example
from cutwright.workshop.gallery import know_all_steps

know_all_steps()


@pytest.fixture(autouse=True)
def language_again() -> Iterator[None]:
    before = current_language()
    yield
    set_language(before)


@pytest.mark.parametrize(
    ("language", "lines", "words"),
    [
        ("en", 1, "at 1 line "),
        ("en", 2, "at 2 lines "),
        ("de", 1, "an 1 Linie "),
        ("lt", 1, "1 linija"),
        ("lt", 10, "10 linijų"),
        ("ru", 1, "по 1 линии"),
        ("ru", 5, "по 5 линиям"),
    ],
)
def test_a_count_has_its_plural(language: str, lines: int, words: str) -> None:
    set_language(language)
    step = parse_step({"do": "spread", "piece": "skirt front", "by": 3, "lines": lines})
    assert words in sentence(step)


@pytest.mark.parametrize(
    ("language", "shown"),
    [
        ("en", "hem of skirt front and hem of skirt back"),
        ("de", "Saum (Rock vorn) und Saum (Rock hinten)"),
    ],
)
def test_an_edge_is_told_in_one_phrase(language: str, shown: str) -> None:
    set_language(language)
    assert name_text("skirt front: hem and skirt back: hem") == shown


@pytest.mark.parametrize("tag", sorted(all_steps()))
def test_every_step_has_an_example(tag: str) -> None:
    text = sentence(example(tag))
    assert not re.search(r"[{}_]|\w: \w+,", text), text
    assert text.endswith(".")
