"""What is remembered: by identity, by value, by language, and only so much of it."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from cutwright.keep import MOST, once
from cutwright.words import speak, spoken


@pytest.fixture(autouse=True)
def _english_again() -> Iterator[None]:
    before = spoken()
    yield
    speak(before)


def test_equal_things_are_not_the_same_thing_but_equal_names_are() -> None:
    asked: list[object] = []

    @once
    def seen(paper: list[int], *, by: str) -> int:
        asked.append(paper)
        return len(asked)

    paper, equal = [1], [1]
    assert seen(paper, by="a") == seen(paper, by="a") == 1
    assert seen(equal, by="a") == 2
    assert seen(paper, by="b") == 3
    assert seen(paper, by="a") == 1


def test_another_language_asks_again() -> None:
    @once
    def told(paper: list[int]) -> str:
        return spoken()

    paper = [1]
    speak("en")
    assert told(paper) == "en"
    speak("de")
    assert told(paper) == "de"
    speak("en")
    assert told(paper) == "en"


def test_the_oldest_are_forgotten_and_identities_are_never_mistaken() -> None:
    @once
    def content(paper: list[int]) -> int:
        return paper[0]

    assert all(content([n]) == n for n in range(3 * MOST))


def test_all_can_be_forgotten() -> None:
    count = iter(range(10))

    @once
    def number(paper: list[int]) -> int:
        return next(count)

    paper = [1]
    assert number(paper) == number(paper) == 0
    number.cache_clear()  # type: ignore[attr-defined]
    assert number(paper) == 1
