"""A change late in a style leaves all other paper as it lay: the very same pieces, not equal ones."""

from __future__ import annotations

from cutwright.finish.document import pattern_json
from cutwright.style.document import Style
from cutwright.workshop.gallery import load_body, load_style
from cutwright.workshop.packet import document_of
from cutwright.workshop.work import work

STYLE, BODY = load_style("orchard-dress"), load_body("the-alto")


def deeper(depth: float) -> Style:
    steps = tuple(s.replaced(depth=depth) if s.name == "hem flounce" else s for s in STYLE.steps)
    return Style(STYLE.name, steps, STYLE.about)


def test_only_the_changed_piece_is_new() -> None:
    first = work(STYLE, BODY)
    again = work(deeper(21.5), BODY, earlier=first)
    new = {
        now.name
        for now, was in zip(again.finished.pieces, first.finished.pieces, strict=True)
        if now is not was
    }
    assert new == {"hem flounce"}


def test_what_was_kept_does_not_show_in_the_pattern() -> None:
    kept = work(deeper(21.5), BODY, earlier=work(STYLE, BODY))
    assert pattern_json(document_of(kept)) == pattern_json(document_of(work(deeper(21.5), BODY)))


def test_drawings_that_did_not_change_are_taken_over() -> None:
    first = work(STYLE, BODY)
    again = dict(work(deeper(21.5), BODY, earlier=first).drawings())
    assert all(again[n] is d for n, d in first.drawings() if n != "hem flounce")
    assert again["hem flounce"] is not dict(first.drawings())["hem flounce"]
