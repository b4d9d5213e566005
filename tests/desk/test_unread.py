"""A stored style that this version cannot read opens on the desk, is mended there, and loses nothing."""

from __future__ import annotations

from typing import Any

import pytest

from cutwright.book import documents
from cutwright.style.replay import MOST_STEPS
from tests.desk.conftest import Desk

OLD = {"do": "weave", "from": "another version"}


@pytest.fixture
def stored(desk: Desk) -> dict[str, Any]:
    """The style of the table with a sentence in it that nobody can read."""
    book = desk.web.app.state.shop.book  # type: ignore[attr-defined]
    held = documents.get(book, desk.style)
    content = {**held.content, "steps": [*held.content["steps"]]}
    content["steps"][2] = OLD
    documents.save(book, desk.style, content, base=held.revision)
    return content


def _held(desk: Desk) -> list[dict[str, Any]]:
    steps: list[dict[str, Any]] = desk.web.get(f"/book/document/{desk.style}/file").json()["steps"]
    return steps


def test_it_opens_with_what_can_be_read_and_shows_the_fault(
    desk: Desk, stored: dict[str, Any]
) -> None:
    assert desk.web.get(f"/table/{desk.style}/{desk.body}").status_code == 200
    shown = desk.look()
    assert "cannot read this sentence" in shown["trouble"]
    assert len(shown["letter"]) == len(stored["steps"])
    assert "weave" in shown["letter"][2]["html"]
    assert {p["name"] for p in shown["pieces"]} == {"front", "back"}


@pytest.mark.parametrize("page", ["paper", "sheet", "proof", "letter"])
def test_no_page_of_it_breaks(desk: Desk, stored: dict[str, Any], page: str) -> None:
    for address in (f"/{page}/{desk.style}/{desk.body}", f"{desk.api}/{page}"):
        answer = desk.web.get(address)
        assert answer.status_code < 500, answer.text


def test_undo_goes_back_before_it(desk: Desk, stored: dict[str, Any]) -> None:
    shown = desk.do(desk.look()["revision"], {"do": "undo"})
    assert shown.status_code == 200
    assert shown.json()["trouble"] == ""


def test_other_sentences_are_changed_and_it_stays_as_it_was(
    desk: Desk, stored: dict[str, Any]
) -> None:
    answer = desk.set(desk.look()["revision"], 0, "length", "61")
    assert answer.status_code == 200
    assert _held(desk)[0]["length"] == 61
    assert _held(desk)[2] == OLD
    assert desk.set(answer.json()["revision"], 2, "from", "here").status_code == 422


def test_it_is_taken_out(desk: Desk, stored: dict[str, Any]) -> None:
    answer = desk.do(desk.look()["revision"], {"do": "take out", "step": 2})
    assert answer.status_code == 200
    assert OLD not in _held(desk)


def test_a_conflict_keeps_it_but_lets_no_other_in(desk: Desk, stored: dict[str, Any]) -> None:
    base = desk.look()["revision"]
    whole = {**stored, "name": "Mine"}
    assert desk.do(base, {"do": "whole", "content": whole}).status_code == 200
    strange = {**stored, "steps": [*stored["steps"], {"do": "knit"}]}
    assert desk.do(base + 1, {"do": "whole", "content": strange}).status_code == 422
    assert _held(desk)[2] == OLD


def test_it_is_kept_apart_too_and_no_other_is(desk: Desk, stored: dict[str, Any]) -> None:
    base = desk.look()["revision"]
    assert desk.set(base, 0, "length", "61").status_code == 200
    mine = desk.set(base, 0, "length", "70").json()["mine"]
    assert mine["steps"][2] == OLD
    taken_out = desk.do(base + 1, {"do": "take out", "step": 2})  # while the question is asked
    assert taken_out.status_code == 200
    made = desk.web.post(f"{desk.api}/keep-apart", json=mine)
    assert made.status_code == 200, made.text
    assert desk.web.get(made.json()["href"]).status_code == 200
    apart = desk.web.get(f"/book/document/{made.json()['href'].split('/')[2]}/file").json()
    assert (apart["steps"][0]["length"], apart["steps"][2]) == (70, OLD)
    strange = {**mine, "steps": [*mine["steps"], {"do": "knit"}]}
    assert desk.web.post(f"{desk.api}/keep-apart", json=strange).status_code == 422


@pytest.mark.parametrize("odd", [[], "style", 7, None, {"steps": 3}, {"steps": [OLD]}])
def test_what_is_no_style_is_not_kept_apart(
    desk: Desk, stored: dict[str, Any], odd: object
) -> None:
    answer = desk.web.post(f"{desk.api}/keep-apart", json=odd)
    assert answer.status_code == 422


def test_no_sentence_is_left_out_where_there_are_too_many(
    desk: Desk, stored: dict[str, Any]
) -> None:
    many = {**stored, "steps": [OLD] * 10 + [stored["steps"][0]] * (MOST_STEPS - 5)}
    assert desk.web.post(f"{desk.api}/keep-apart", json=many).status_code == 422
    whole = {"do": "whole", "content": many}
    assert desk.do(desk.look()["revision"], whole).status_code == 422
