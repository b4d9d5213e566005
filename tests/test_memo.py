"""What is remembered: by identity, by value, and only so much of it."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from cutwright.drawing.piece import draw_piece
from cutwright.drawing.primitives import Drawing, Words
from cutwright.finish.finished import finish
from cutwright.memo import MOST, memoised
from cutwright.words import current_language, set_language
from tests.finish.pieces import flounced_skirt


@pytest.fixture(autouse=True)
def _english_again() -> Iterator[None]:
    before = current_language()
    yield
    set_language(before)


def test_equal_things_are_not_the_same_thing_but_equal_names_are() -> None:
    asked: list[object] = []

    @memoised
    def seen(paper: list[int], *, by: str) -> int:
        asked.append(paper)
        return len(asked)

    paper, equal = [1], [1]
    assert seen(paper, by="a") == seen(paper, by="a") == 1
    assert seen(equal, by="a") == 2
    assert seen(paper, by="b") == 3
    assert seen(paper, by="a") == 1


def test_a_drawing_is_kept_for_each_language() -> None:
    piece = finish(flounced_skirt()).pieces[0]
    set_language("en")
    english = draw_piece(piece)
    set_language("de")
    german = draw_piece(piece)
    set_language("en")
    assert draw_piece(piece) is english
    assert _words(english) != _words(german)


def _words(drawing: Drawing) -> set[str]:
    return {item.text for item in drawing.items if isinstance(item, Words)}


def test_the_oldest_are_forgotten_and_identities_are_never_mistaken() -> None:
    @memoised
    def content(paper: list[int]) -> int:
        return paper[0]

    assert all(content([n]) == n for n in range(3 * MOST))


def test_all_can_be_forgotten() -> None:
    count = iter(range(10))

    @memoised
    def number(paper: list[int]) -> int:
        return next(count)

    paper = [1]
    assert number(paper) == number(paper) == 0
    number.cache_clear()  # type: ignore[attr-defined]
    assert number(paper) == 1
