"""A stored style opens whatever stands in it; what cannot be read is kept as it is."""

from __future__ import annotations

from typing import Any

import pytest

from cutwright.errors import DocumentError
from cutwright.style.document import parse_style, stored_style
from cutwright.style.replay import replay
from cutwright.style.unread import Unread
from cutwright.wording.sentences import sentence
from cutwright.workshop.gallery import know_all_steps, load_body

know_all_steps()
SKIRT: dict[str, Any] = {"do": "draft_skirt"}
STRIP: dict[str, Any] = {"do": "strip", "long": 40}
BROKEN: list[Any] = [
    {"do": "weave", "from": "elsewhere"},
    {"do": "lengthen", "by": 5},
    {"do": ["spread"]},
    {"do": ""},
    {},
    None,
    "spread",
    [1, {"x": []}],
]


@pytest.mark.parametrize("row", BROKEN, ids=repr)
def test_what_cannot_be_read_is_kept_shown_and_stops_the_work(row: Any) -> None:
    stored = {"format": 1, "name": "Old", "about": "", "steps": [SKIRT, row, STRIP]}
    style = stored_style(stored)
    assert style.document() == stored
    assert isinstance(style.steps[1], Unread)
    assert sentence(style.steps[1])
    done = replay(style.steps, load_body("the-alto"))
    assert done.stopped_at == 1
    assert {piece.name for piece in done.pattern.pieces} == {"skirt back", "skirt front"}
    assert "cannot read this sentence" in str(done.trouble)
    with pytest.raises(DocumentError):
        parse_style(stored)


@pytest.mark.parametrize("stored", [{}, {"steps": 3}, {"name": 7, "steps": [SKIRT]}, [], None])
def test_a_style_that_is_no_style_opens_empty_or_with_what_it_has(stored: Any) -> None:
    style = stored_style(stored)
    assert style.name
    assert replay(style.steps, load_body("the-alto")).trouble is None


def test_a_sound_style_is_read_alike_both_ways() -> None:
    stored = {"format": 1, "name": "Sound", "about": "x", "steps": [SKIRT, STRIP]}
    assert stored_style(stored) == parse_style(stored)


def test_sentences_that_cannot_be_read_are_told_apart() -> None:
    one, other, same = (Unread.of(row, "why") for row in ({"a": 1}, {"a": 2}, {"a": 1}))
    assert one == same
    assert one != other


def test_what_cannot_be_read_is_shown_in_its_own_letters() -> None:
    style = stored_style(
        {"format": 1, "name": "Old", "steps": [{"do": "weave", "from": "Größe Ä ž"}]}
    )
    (step,) = style.steps
    assert isinstance(step, Unread)
    assert "Größe Ä ž" in step.written
