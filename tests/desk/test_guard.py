"""Who may come to the desk, and with what."""

from __future__ import annotations

import json
import socket
import threading
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from cutwright.desk.app import make_app
from cutwright.desk.serve import serve
from cutwright.desk.web.guard import LARGEST, LOCAL, House
from tests.desk.conftest import Desk, TestClient


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1.evil.example", "", "[", "10.0.0.9:80"])
def test_a_foreign_name_is_turned_away(web: TestClient, host: str) -> None:
    assert web.get("/", headers={"host": host}).status_code == 400


@pytest.mark.parametrize("host", ["127.0.0.1:8365", "localhost", "localhost:1", "[::1]:80"])
def test_its_own_names_are_answered(web: TestClient, host: str) -> None:
    assert web.get("/", headers={"host": host}).status_code == 200


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "http://evil.example"},
        {"origin": "null"},
        {"origin": "http://127.0.0.1:99"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
    ],
)
def test_a_change_sent_by_another_page_is_refused(web: TestClient, headers: dict[str, str]) -> None:
    assert web.post("/demo", headers=headers).status_code == 403
    assert "sample dress" in web.get("/").text  # the book is still empty


def test_a_change_sent_by_its_own_page_is_made(web: TestClient) -> None:
    headers = {"origin": "http://127.0.0.1", "sec-fetch-site": "same-origin"}
    assert web.post("/demo", headers=headers).status_code == 303


def test_every_answer_forbids_what_is_not_its_own(web: TestClient) -> None:
    for path in ("/", "/new", "/static/desk.css", "/nowhere", "/api/nowhere"):
        policy = web.get(path).headers["content-security-policy"]
        assert policy.startswith("default-src 'self'")
        assert "unsafe" not in policy


def test_pages_hold_no_script_and_no_style_of_their_own(desk: Desk) -> None:
    at = f"/table/{desk.style}/{desk.body}"
    for path in ("/", "/new", at, f"{at}/body", f"{at}/paper", "/book", "/book/safe"):
        text = desk.web.get(path).text
        assert " style=" not in text
        assert "<style" not in text
        assert " onclick" not in text
        for script in text.split("<script")[1:]:
            assert 'src="/static/' in script[:80] or 'type="application/json"' in script[:60]


def test_too_large_a_load_is_refused_by_what_it_says_and_by_what_it_is(desk: Desk) -> None:
    body = b"x" * (LARGEST + 1)
    assert desk.web.post(f"{desk.api}/command", content=body).status_code == 413


def test_a_load_that_does_not_say_its_size_is_counted_as_it_comes(desk: Desk) -> None:
    """The same good command, padded with blanks: made up to the limit, refused beyond it."""
    length = {"do": "set", "step": 0, "field": "length"}

    def sent(value: str, size: int) -> int:
        wish = {"base": desk.look()["revision"], "command": {**length, "value": value}}
        raw = json.dumps(wish).encode()
        blanks = size - len(raw)

        def parts() -> Iterator[bytes]:
            for start in range(0, blanks, 50_000):
                yield b" " * min(50_000, blanks - start)
            yield raw

        json_is = {"content-type": "application/json"}
        answer = desk.web.post(f"{desk.api}/command", content=parts(), headers=json_is)
        return int(answer.status_code)

    assert sent("61", LARGEST) == 200
    before = desk.sentences()
    assert sent("67", LARGEST + 1) >= 400
    assert desk.sentences() == before


def test_a_guest_needs_the_token_once(tmp_path: Path) -> None:
    house = House((*LOCAL, "10.0.0.5"), "secret-token")
    app = make_app(tmp_path / "book.sqlite", house)
    with TestClient(app, base_url="http://10.0.0.5:8365", follow_redirects=False) as guest:
        assert guest.get("/").status_code == 403
        assert guest.get("/?token=wrong").status_code == 403
        assert guest.get("/static/desk.css").status_code == 403
        answer = guest.get("/?token=secret-token")
        assert answer.status_code == 303
        assert "secret-token" not in answer.headers["location"]
        cookie = answer.headers["set-cookie"]
        assert "HttpOnly" in cookie
        assert "SameSite=strict" in cookie
        assert "secret-token" not in cookie
        assert guest.get("/").status_code == 200
        guest.cookies.clear()
        guest.cookies.set(house.cookie[0], "guessed")
        assert guest.get("/").status_code == 403


def test_nothing_of_the_person_stands_in_an_address(desk: Desk) -> None:
    text = desk.web.get("/book").text + desk.web.get("/").text
    addresses = [part.split('"')[0] for part in text.split('href="')[1:]]
    assert addresses
    assert not any("alto" in address for address in addresses)


def test_nobody_comes_in_without_the_token_on_this_machine_either(tmp_path: Path) -> None:
    app = make_app(tmp_path / "book.sqlite")
    with TestClient(app, base_url="http://127.0.0.1", follow_redirects=False) as stranger:
        for path in ("/", "/book", "/openapi.json", "/static/desk.css", "/fonts/", "/nowhere"):
            assert stranger.get(path).status_code == 403, path
        for path in ("/book/backup", "/demo", "/?token=", "/book/backup?token=guessed"):
            assert stranger.post(path).status_code == 403, path


def test_a_ticket_opens_the_door_once(tmp_path: Path) -> None:
    house = House()
    ticket = house.ticket()
    with TestClient(
        make_app(tmp_path / "book.sqlite", house),
        base_url="http://127.0.0.1",
        follow_redirects=False,
    ) as browser:
        assert browser.get(f"/?token={ticket}").status_code == 303
        assert browser.get("/").status_code == 200
        browser.cookies.clear()
        assert browser.get(f"/?token={ticket}").status_code == 403, "who read it comes too late"
        assert browser.get(f"/?token={house.token}").status_code == 303


@pytest.mark.parametrize(
    "path", ["//evil.example/x", "///evil.example", "/%5Cevil.example", "//evil.example//"]
)
def test_the_token_leads_to_no_other_house(tmp_path: Path, path: str) -> None:
    house = House()
    app = make_app(tmp_path / "book.sqlite", house)
    with TestClient(app, base_url="http://127.0.0.1:8365", follow_redirects=False) as guest:
        answer = guest.get(f"http://127.0.0.1:8365{path}?token={house.token}")
        assert answer.status_code == 303
        where = urlsplit(answer.headers["location"])
        assert where.netloc == "127.0.0.1:8365"
        assert not where.path.startswith("//")


def test_other_pages_can_neither_show_nor_fetch_anything_of_the_desk(web: TestClient) -> None:
    for path in ("/", "/static/desk.css", "/nowhere", "/book/safe"):
        told = web.get(path).headers
        assert told["cross-origin-resource-policy"] == "same-origin"
        assert "camera=()" in told["permissions-policy"]


def test_the_browser_is_handed_a_ticket_and_the_owner_the_token(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    opened, come = [], threading.Event()
    house = House()

    def browse(address: str) -> None:
        opened.append(address)
        come.set()

    class Idle:
        def run(self, sockets: list[socket.socket]) -> None:
            assert come.wait(60)
            sockets[0].close()

    monkeypatch.setenv("CUTWRIGHT_BOOK", str(tmp_path / "book.sqlite"))
    monkeypatch.setattr("cutwright.desk.serve.House", lambda *_names: house)
    monkeypatch.setattr("cutwright.desk.serve.server_of", lambda _app: Idle())
    monkeypatch.setattr("cutwright.desk.serve.set_up_log", lambda: None)
    monkeypatch.setattr("webbrowser.open", browse)
    serve(port=None, browser=True)
    (address,) = opened
    assert f"/?token={house.token}" in capsys.readouterr().out
    assert house.token not in address, "everybody on the machine can read how a browser was started"
    assert house.admits(address.split("token=")[1])
