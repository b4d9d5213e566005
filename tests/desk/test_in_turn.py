"""The picture comes first; nothing is called saved before the book holds it."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Iterator
from threading import Event, Thread
from typing import Any

import pytest
from fastapi import Request
from fastapi.responses import StreamingResponse
from pydantic import BaseModel

from cutwright.book import documents
from cutwright.desk.shop import Shop
from cutwright.desk.style.commands import Wish
from cutwright.desk.style.routes_table import _answers
from cutwright.desk.style.table import Picture, Shown
from cutwright.desk.web.in_turn import LINES, in_turn
from cutwright.errors import StoreError
from tests.desk.conftest import Desk

LENGTH = {"do": "set", "step": 0, "field": "length", "value": "61"}


def lines(desk: Desk, command: dict[str, Any], have: list[str] | None = None) -> list[Any]:
    """What a page is sent that takes every line as it comes."""
    wish = {"base": 1, "command": command, "have": have or []}
    answer = desk.web.post(f"{desk.api}/command", json=wish, headers={"accept": LINES})
    assert answer.status_code == 200
    assert answer.headers["content-type"].startswith(LINES)
    return [json.loads(line) for line in answer.text.splitlines()]


def shop_of(desk: Desk) -> Shop:
    shop = desk.web.app.state.shop  # type: ignore[attr-defined]
    assert isinstance(shop, Shop)
    return shop


def test_the_picture_stands_before_anything_is_saved(desk: Desk) -> None:
    shop = shop_of(desk)
    wish = Wish.model_validate({"base": 1, "command": LENGTH})
    answers = _answers(shop, desk.style, desk.body, wish, True)
    picture = next(answers)
    assert type(picture) is Picture
    assert documents.get(shop.book, desk.style).revision == 1
    shown = next(answers)
    assert isinstance(shown, Shown)
    stands = documents.get(shop.book, desk.style)
    assert (stands.revision, stands.content["steps"][0]["length"]) == (2, 61)
    assert shown.revision == 2
    drawn = [(p.name, p.x, p.y, p.outline.mark) for p in picture.pieces]
    assert drawn == [(p.name, p.x, p.y, p.outline.mark) for p in shown.pieces]


def test_outlines_are_sent_once_and_words_with_the_answer(desk: Desk) -> None:
    before = desk.look()
    have = [layer["mark"] for p in before["pieces"] for layer in (p["outline"], p["words"])]
    picture, shown = lines(desk, LENGTH, have)
    assert "revision" not in picture
    assert all(p["words"] is None for p in picture["pieces"])
    drawn = {p["name"] for p in picture["pieces"] if p["outline"]["svg"] is not None}
    assert "skirt front" in drawn
    assert "front" not in drawn
    assert all(p["outline"]["svg"] is None for p in shown["pieces"])
    written = {p["name"] for p in shown["pieces"] if p["words"]["svg"] is not None}
    assert "skirt front" in written
    after = desk.look()
    assert [p["outline"]["mark"] for p in after["pieces"]] == [
        p["outline"]["mark"] for p in picture["pieces"]
    ]


@pytest.mark.parametrize(("fault", "status"), [(StoreError("full"), 422), (ValueError("x"), 500)])
def test_a_save_that_fails_is_told_after_the_picture(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, fault: Exception, status: int
) -> None:
    def broken(*_given: Any, **_named: Any) -> None:
        raise fault

    with monkeypatch.context() as patch:
        patch.setattr(documents, "save", broken)
        picture, told = lines(desk, LENGTH)
        assert picture["pieces"]
        assert told["fault"]["status"] == status
        assert told["fault"]["told"]["message"]
        assert desk.do(1, LENGTH).status_code == status
    assert desk.look()["revision"] == 1
    assert desk.set(1, 0, "length", "61").json()["revision"] == 2


def test_what_is_refused_is_answered_as_ever(desk: Desk) -> None:
    wish = {"base": 1, "command": {**LENGTH, "value": "as long as a song"}}
    answer = desk.web.post(f"{desk.api}/command", json=wish, headers={"accept": LINES})
    assert answer.status_code == 422
    assert answer.json()["problems"]


def test_who_saves_between_picture_and_save_is_kept_and_drawn(desk: Desk) -> None:
    shop = shop_of(desk)
    wish = Wish.model_validate({"base": 1, "command": LENGTH})
    answers = _answers(shop, desk.style, desk.body, wish, True)
    first = next(answers)
    assert desk.set(1, 10, "depth", "30").status_code == 200
    second = next(answers)
    assert type(second) is Picture
    assert first.pieces != second.pieces
    shown = next(answers)
    assert isinstance(shown, Shown)
    steps = documents.get(shop.book, desk.style).content["steps"]
    assert (steps[0]["length"], steps[10]["depth"], shown.revision) == (61, 30, 3)


class _Said(BaseModel):
    n: int


def test_the_work_goes_on_when_nobody_listens_any_more() -> None:
    heard, saved = Event(), Event()

    def answers() -> Iterator[BaseModel]:
        yield _Said(n=1)
        heard.wait(60)
        saved.set()
        yield _Said(n=2)

    async def leave() -> None:
        scope = {"type": "http", "headers": [(b"accept", LINES.encode())]}
        answer = await in_turn(Request(scope), answers())
        assert isinstance(answer, StreamingResponse)
        body = aiter(answer.body_iterator)
        assert await anext(body) == b'{"n":1}\n'
        await body.aclose()  # type: ignore[attr-defined]

    listener = Thread(
        target=asyncio.run, args=(leave(),)
    )  # a loop of its own, whatever else runs here
    listener.start()
    listener.join(60)
    assert not listener.is_alive()
    heard.set()
    assert saved.wait(60)
