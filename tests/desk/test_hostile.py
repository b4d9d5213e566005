"""A hundred hostile documents, and names with script in them, through page and commands."""

from __future__ import annotations

import json
from typing import Any

import pytest

from tests.desk.conftest import Desk, TestClient
from tests.desk.hostile import hostile_styles

EVERY = hostile_styles()


def test_there_are_a_hundred() -> None:
    assert len(EVERY) >= 100


@pytest.mark.parametrize("number", range(0, len(EVERY), 10))
def test_a_hostile_file_is_refused_or_told_as_trouble(desk: Desk, number: int) -> None:
    """Ten at a time: taken in through the page; what is well written is laid on the table, too."""
    for raw in EVERY[number : number + 10]:
        answer = desk.web.post(
            "/book/import", data={"kind": "style"}, files={"file": ("s.json", raw)}
        )
        assert answer.status_code in (303, 422), (raw[:80], answer.status_code)
        assert "Traceback" not in answer.text
        assert "<script>alert" not in answer.text
        assert "<img src=x" not in answer.text
        if answer.status_code == 303:
            made = answer.headers["location"].rsplit("/", 1)[1]
            page = desk.web.get(f"/table/{made}/{desk.body}")
            assert page.status_code == 200
            assert "<script>alert" not in page.text
            assert "<img src=x" not in page.text
    assert desk.look()["revision"] == 1


@pytest.mark.parametrize("number", range(0, len(EVERY), 10))
def test_hostile_commands_are_refused_or_told_as_trouble(desk: Desk, number: int) -> None:
    for raw in EVERY[number : number + 10]:
        revision = desk.look()["revision"]
        try:
            value: Any = json.loads(raw)
        except (ValueError, RecursionError):
            answer = desk.web.post(f"{desk.api}/command", content=raw)
            assert answer.status_code == 422
            continue
        for command in (
            {"do": "whole", "content": value},
            {"do": "set", "step": 0, "field": "length", "value": value},
        ):
            body = json.dumps({"base": revision, "command": command}).encode("utf-8", "replace")
            answer = desk.web.post(f"{desk.api}/command", content=body)
            assert answer.status_code in (200, 422), (raw[:80], answer.text[:200])
            assert "Traceback" not in answer.text
            revision = desk.look()["revision"]


@pytest.mark.parametrize(
    "name", ["<script>alert(1)</script>", '"><svg onload=alert(1)>', "{{ 7919*7919 }}"]
)
def test_script_in_names_is_only_text(desk: Desk, name: str) -> None:
    web = desk.web
    assert desk.do(1, {"do": "name", "name": name}).status_code == 200
    steps = web.get(f"/book/document/{desk.style}/file").json()["steps"]
    at = next(n for n, s in enumerate(steps) if s["do"] == "flounce_straight")
    desk.set(2, at, "piece", name[:40])
    web.post("/book/clients", data={"name": name})
    where = f"/table/{desk.style}/{desk.body}"
    for path in (where, f"{where}/paper", "/book", "/book/clients", "/book/styles", "/new", "/"):
        text = web.get(path).text
        assert "<script>alert" not in text
        assert "<svg onload" not in text
        assert str(7919 * 7919) not in text


@pytest.mark.parametrize("ident", ["0" * 32, "zz", "..%2f..%2fetc", "0' OR 1=1", "%00"])
def test_numbers_the_book_does_not_have(web: TestClient, ident: str) -> None:
    for path in (
        f"/table/{ident}/{ident}",
        f"/body/{ident}",
        f"/book/order/{ident}",
        f"/book/client/{ident}",
    ):
        answer = web.get(path)
        assert answer.status_code in (404, 422), (path, answer.status_code)
        assert "Traceback" not in answer.text
