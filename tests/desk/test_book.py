"""The book through its pages."""

from __future__ import annotations

import json
import re
import shutil
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from fastapi import FastAPI

from cutwright.book import documents
from cutwright.book.health import automatic_backups
from cutwright.book.nouns import DocumentKind
from cutwright.desk.app import make_app
from tests.desk.conftest import Desk, TestClient, visitor


def post(web: TestClient, path: str, **form: str) -> str:
    answer = web.post(path, data=form)
    assert answer.status_code == 303, answer.text
    return str(answer.headers["location"])


def client_with_order(web: TestClient) -> tuple[str, str]:
    """(client, order) of somebody with a skirt."""
    client = post(web, "/book/clients", name="Wren of the mill").rsplit("/", 1)[1]
    form = {"body": "typed", "style": "gallery:flared-skirt", "name": "Wren", "client": client}
    post(web, "/new", stature="170", bust_girth="92", waist_girth="74", hip_girth="99", **form)
    page = web.get(f"/book/client/{client}").text
    order = re.findall(r"/book/order/([0-9a-f]+)", page)[0]
    return client, order


def test_a_client_with_measures_on_two_days_and_what_changed(web: TestClient) -> None:
    client, _order = client_with_order(web)
    body = re.findall(r"/body/([0-9a-f]+)", web.get(f"/book/client/{client}").text)[0]
    newer = post(web, f"/body/{body}/again").rsplit("/", 1)[1]
    wish = {"base": 1, "fields": {"waist_girth": "76", "measured_on": "2027-02-01"}}
    assert web.post(f"/api/body/{newer}/command", json=wish).status_code == 200
    page = web.get(f"/book/client/{client}").text
    assert "+2.0" in page
    assert "1 February 2027" in page


def test_an_order_goes_on_and_has_a_day(web: TestClient) -> None:
    _client, order = client_with_order(web)
    post(web, f"/book/order/{order}/state", state="cut", base="1")
    post(web, f"/book/order/{order}/due", day="2027-03-04", base="2")
    text = web.get("/book").text
    assert "due 4 March 2027" in text
    assert "cut" in text
    answer = web.post(f"/book/order/{order}/state", data={"state": "fitted", "base": "1"})
    assert answer.status_code == 409
    post(web, f"/book/order/{order}/state", state="finished", base="3")
    assert order not in web.get("/book").text
    assert order in web.get("/book?state=finished").text


def test_a_fitting_becomes_a_correction_of_body_and_of_style(web: TestClient) -> None:
    _client, order = client_with_order(web)
    post(web, f"/book/order/{order}/fitting", note="Pulls at the waist")
    page = web.get(f"/book/order/{order}").text
    fitting = re.findall(r"/book/fitting/([0-9a-f]+)", page)[0]
    post(web, f"/book/fitting/{fitting}/body", measure="waist_girth", value="78")
    place = re.findall(r'<option value="(\d+/\w+)"', page)[0]
    post(web, f"/book/fitting/{fitting}/style", place=place, value="66")
    page = web.get(f"/book/order/{order}").text
    corrections = re.findall(r"/book/correction/([0-9a-f]+)", page)
    assert len(corrections) == 2
    for one in corrections:
        post(web, f"/book/correction/{one}", order=order, do="accept")
    page = web.get(f"/book/order/{order}").text
    assert page.count("accepted") == 2
    assert "has changed since" in page
    post(web, f"/book/order/{order}/take-over", base="1")
    assert "has changed since" not in web.get(f"/book/order/{order}").text


def test_search_finds_by_any_word(web: TestClient) -> None:
    client_with_order(web)
    assert "Wren of the mill" in web.get("/book/search?q=MILL").text
    assert "Nothing in the book" in web.get("/book/search?q=zebra").text


def test_a_client_is_deleted_wholly(web: TestClient, tmp_path: Path) -> None:
    client, _order = client_with_order(web)
    assert web.post(f"/book/client/{client}/forget").status_code == 422
    assert web.post(f"/book/client/{client}/forget", data={"sure": "yes"}).status_code == 200
    assert web.get(f"/book/client/{client}").status_code == 404
    web.app.state.shop.close()  # type: ignore[attr-defined]
    for path in tmp_path.rglob("*.sqlite*"):
        assert b"Wren of the mill" not in path.read_bytes()


def test_a_client_goes_out_and_comes_in_again(web: TestClient) -> None:
    client, _order = client_with_order(web)
    bare = web.post(f"/book/client/{client}/file").content
    assert b"Wren of the mill" not in bare
    named = web.post(f"/book/client/{client}/file", data={"named": "yes"})
    assert "ren" not in named.headers["content-disposition"]
    web.post(f"/book/client/{client}/forget", data={"sure": "yes"})
    answer = web.post("/book/import-client", files={"file": ("x.json", named.content)})
    assert answer.status_code == 303
    assert "Wren of the mill" in web.get(answer.headers["location"]).text


def test_revisions_are_kept_compared_and_brought_back(desk: Desk) -> None:
    desk.set(1, 0, "length", "61")
    page = desk.web.get(f"/book/style/{desk.style}?body={desk.body}").text
    assert "61 cm" in page
    assert "<del>" in page
    where = post(
        desk.web, f"/book/style/{desk.style}/bring-back", revision="1", base="2", body=desk.body
    )
    assert where == f"/table/{desk.style}/{desk.body}"
    assert "52 cm" in desk.sentences()[0]


def test_cloths_in_the_cupboard(web: TestClient) -> None:
    post(web, "/book/cloths", known="plain-cotton-140")
    post(web, "/book/cloths", name="Blue linen", width="140", fold="open")
    page = web.get("/book/cloths").text
    assert "Blue linen" in page
    cloth = re.findall(r"/book/cloth/([0-9a-f]+)/length", page)[0]
    post(web, f"/book/cloth/{cloth}/length", length="300")
    post(web, f"/book/cloth/{cloth}/length", take="120")
    assert "180 cm left" in web.get("/book/cloths").text
    answer = web.post(f"/book/cloth/{cloth}/length", data={"take": "500"})
    assert answer.status_code == 422


def test_the_whole_book_goes_into_one_file_and_comes_back(desk: Desk) -> None:
    backup = desk.web.post("/book/backup").content
    desk.set(1, 0, "length", "61")
    answer = desk.web.post("/book/restore", data={"sure": "yes"}, files={"file": ("book", backup)})
    assert answer.status_code == 303
    assert "52 cm" in desk.sentences()[0]
    refused = desk.web.post(
        "/book/restore", data={"sure": "yes"}, files={"file": ("book", b"no book at all")}
    )
    assert refused.status_code == 422
    assert "52 cm" in desk.sentences()[0]


def test_a_backup_with_a_card_that_cannot_be_read_is_taken_only_where_that_is_asked_for(
    desk: Desk,
) -> None:
    book = desk.web.app.state.shop.book  # type: ignore[attr-defined]
    card = documents.get(book, desk.body).content
    odd = documents.add(
        book, DocumentKind.BODY, card | {"name": "Odd", "measures": {"bust_girht": 90}}
    )
    backup = desk.web.post("/book/backup").content
    desk.set(1, 0, "length", "61")
    files = {"file": ("from the stick.sqlite", backup)}
    answer = desk.web.post("/book/restore", data={"sure": "yes"}, files=files)
    assert answer.status_code == 422
    assert "Some documents in from-the-stick.sqlite cannot be read" in answer.text
    assert "Odd (1)" in answer.text
    assert "61 cm" in desk.sentences()[0]
    asked = {"sure": "yes", "unreadable": "yes"}
    assert desk.web.post("/book/restore", data=asked, files=files).status_code == 303
    assert "52 cm" in desk.sentences()[0]
    told = desk.web.get(f"/body/{odd.id}")
    assert told.status_code == 422
    assert "bust_girht" in told.text


def test_a_damaged_file_is_told_to_be_one_and_the_book_is_not(desk: Desk) -> None:
    backup = bytearray(desk.web.post("/book/backup").content)
    at = backup.index(b"Orchard dress")
    backup[at + 1] ^= 4
    files = {"file": ("from the stick.sqlite", bytes(backup))}
    answer = desk.web.post("/book/restore", data={"sure": "yes"}, files=files)
    assert answer.status_code == 422
    assert "The file from-the-stick.sqlite is damaged; nothing was changed." in answer.text
    assert "The book cannot be read" not in answer.text
    assert desk.look()["revision"] == 1


def test_every_page_says_that_no_backup_can_be_kept(desk: Desk) -> None:
    shop = desk.web.app.state.shop  # type: ignore[attr-defined]
    where = f"/table/{desk.style}/{desk.body}"
    pages = (where, f"{where}/sheet", "/book", "/book/safe", "/", "/new")
    assert not any("No backup of the book" in desk.web.get(path).text for path in pages)
    shop.close()
    folder = shop.book.place.backups
    shop.close()
    if folder.exists():
        shutil.rmtree(folder)
    folder.write_text("in the way")
    for path in pages:
        text = desk.web.get(path).text
        assert "No backup of the book could be kept: " in text, path
        assert 'role="alert"' in text
    folder.unlink()
    shop.close()
    assert "No backup of the book" not in desk.web.get("/book").text


def test_a_desk_that_stays_open_keeps_a_backup_every_day(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop = desk.web.app.state.shop  # type: ignore[attr-defined]
    monkeypatch.setattr("cutwright.desk.shop.LOOK_AGAIN", -1.0)
    for day, kept in ((0, 1), (0, 1), (2, 2), (2, 2), (4, 3)):
        shop.book.clock = lambda day=day: datetime.now(UTC) + timedelta(days=day)
        desk.web.get("/book")
        assert len(automatic_backups(shop.book.place)) == kept


def test_a_damaged_book_is_told_and_its_backup_offered(tmp_path: Path) -> None:
    place = tmp_path / "book.sqlite"

    def opened() -> tuple[FastAPI, TestClient]:
        app = make_app(place)
        return app, visitor(app)

    app, web = opened()
    web.post("/demo")
    from cutwright.book.backup import keep_backup

    keep_backup(app.state.shop.book, even_if_recent=True)
    app.state.shop.close()
    place.write_bytes(b"SQLite format 3\x00" + b"\xff" * 8000)
    app, web = opened()
    answer = web.get("/")
    assert answer.status_code == 503
    assert "Restore the newest backup" in answer.text
    assert re.search(r"\d+ \w+ \d{4}, \d\d:\d\d UTC: .*1 style", answer.text)
    assert web.get("/api/body/00").status_code == 503
    assert web.post("/book/restore-newest", data={"sure": "yes"}).status_code == 303
    assert web.get("/").status_code == 200
    app.state.shop.close()


def test_documents_come_in_and_go_out(desk: Desk) -> None:
    file = desk.web.get(f"/book/document/{desk.style}/file")
    assert "orchard" not in file.headers["content-disposition"].lower()
    answer = desk.web.post(
        "/book/import", data={"kind": "style"}, files={"file": ("s.json", file.content)}
    )
    assert answer.status_code == 303
    made = answer.headers["location"].rsplit("/", 1)[1]
    again = desk.web.get(f"/book/document/{made}/file").content
    assert json.loads(again) == json.loads(file.content)
