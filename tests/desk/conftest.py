"""A desk on a book of its own, spoken to without a browser."""

from __future__ import annotations

import shutil
import warnings
from collections.abc import Iterator
from contextlib import contextmanager, nullcontext
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from fastapi import FastAPI
from httpx import Response

from cutwright.book.opening import open_book
from cutwright.desk.app import make_app

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # the test client speaks of its own next version
    from fastapi.testclient import TestClient as TestClient


@dataclass
class Desk:
    """A desk with the ready-made order on its table."""

    web: TestClient
    style: str
    body: str

    @property
    def api(self) -> str:
        return f"/api/table/{self.style}/{self.body}"

    def look(self) -> dict[str, Any]:
        answer = self.web.get(self.api)
        assert answer.status_code == 200, answer.text
        found: dict[str, Any] = answer.json()
        return found

    def do(self, base: int, command: dict[str, Any], **more: Any) -> Response:
        wish = {"base": base, "command": command, **more}
        answer: Response = self.web.post(f"{self.api}/command", json=wish)
        return answer

    def set(self, base: int, step: int, field: str, value: Any, **more: Any) -> Response:
        command = {"do": "set", "step": step, "field": field, "value": value}
        return self.do(base, command, **more)

    def sentences(self) -> list[str]:
        told = self.web.get(f"{self.api}/letter").json()["sentences"]
        return [line["text"] for line in told]


def visitor(app: FastAPI) -> TestClient:
    """A browser of a person who has the token; it holds the cookie already."""
    client = TestClient(
        app, base_url="http://127.0.0.1", follow_redirects=False, raise_server_exceptions=False
    )
    client.cookies.set(*app.state.house.cookie)
    return client


@dataclass(frozen=True)
class ReadyBooks:
    """Books to copy, for making one takes a while: an empty one, and one with the ready-made order."""

    empty: Path
    filled: Path
    style: str
    body: str


@pytest.fixture(scope="session")
def ready_books(tmp_path_factory: pytest.TempPathFactory) -> ReadyBooks:
    """The books that the desks of the tests begin with."""
    folder = tmp_path_factory.mktemp("kept")
    open_book(folder / "empty.sqlite", keep=False).close()
    with visitor(make_app(folder / "filled.sqlite")) as client:
        answer = client.post("/demo")
    assert answer.status_code == 303
    _empty, _table, style, body = answer.headers["location"].split("/")
    return ReadyBooks(folder / "empty.sqlite", folder / "filled.sqlite", style, body)


@contextmanager
def desk_on(book: Path | None, folder: Path) -> Iterator[TestClient]:
    """A desk on a copy of a book or on a new one, without the search for rubbish at its start."""
    here = folder / "book.sqlite"
    if book:
        shutil.copy(book, here)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("cutwright.desk.app.tuned_interpreter", nullcontext)
        with visitor(make_app(here)) as client:
            yield client


@pytest.fixture
def web(ready_books: ReadyBooks, tmp_path: Path) -> Iterator[TestClient]:
    """An empty book."""
    with desk_on(ready_books.empty, tmp_path) as client:
        yield client


@pytest.fixture
def desk(ready_books: ReadyBooks, tmp_path: Path) -> Iterator[Desk]:
    """The ready-made order."""
    with desk_on(ready_books.filled, tmp_path) as client:
        yield Desk(client, ready_books.style, ready_books.body)
