"""The language of the page: chosen, kept, and never mixed with another reader's."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from cutwright import words
from cutwright.desk.web.locale import COOKIE, accepted_language, own_name
from tests.desk.conftest import Desk, TestClient
from tests.pretend import OPEN, write_pretended


@pytest.fixture(scope="module")
def pretended(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder of languages with one in it that is only pretended."""
    folder = tmp_path_factory.mktemp("locales")
    write_pretended(folder)
    return folder


@pytest.fixture(autouse=True)
def two_languages(pretended: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """English and the pretended one."""
    monkeypatch.setattr(words, "LOCALES", pretended)
    forget()
    yield
    forget()


def forget() -> None:
    """Let go of the languages that were found before."""
    words._catalogue.cache_clear()
    words.languages.cache_clear()


def page(web: TestClient, address: str, **headers: str) -> str:
    answer = web.get(address, headers=headers)
    assert answer.status_code == 200, answer.text
    return str(answer.text)


def foreign(text: str) -> bool:
    assert '<html lang="de"' in text or '<html lang="en"' in text
    return '<html lang="de"' in text


def test_only_languages_with_a_catalogue_are_offered(web: TestClient) -> None:
    assert words.languages() == ("en", "de")
    text = page(web, "/book/search?q=a+b")
    assert 'href="?q=a+b&amp;lang=de"' in text
    assert "Deutsch" in text
    assert "lang=fr" not in text


def test_english_alone_needs_no_switch(
    web: TestClient, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(words, "LOCALES", tmp_path)
    forget()
    assert "tongues" not in page(web, "/")


def test_the_address_then_the_choice_then_the_browser(web: TestClient) -> None:
    assert not foreign(page(web, "/new"))
    assert foreign(page(web, "/new", **{"accept-language": "fr, de-AT;q=0.7, en;q=0.5"}))
    assert foreign(page(web, "/new?lang=de"))
    assert web.cookies[COOKIE] == "de"
    assert foreign(page(web, "/new", **{"accept-language": "en"}))
    assert not foreign(page(web, "/new?lang=en"))
    assert not foreign(page(web, "/new", **{"accept-language": "de"}))


@pytest.mark.parametrize("odd", ["xx", "../../etc", "de\r\nset-cookie: a=b", "", "DE", "d" * 5000])
def test_a_language_there_is_not_changes_nothing(web: TestClient, odd: str) -> None:
    answer = web.get("/new", params={"lang": odd})
    assert answer.status_code == 200
    assert not foreign(answer.text)
    assert COOKIE not in answer.headers.get("set-cookie", "")


@pytest.mark.parametrize(
    ("header", "code"),
    [("", "en"), ("de", "de"), ("de-CH", "de"), ("DE-ch;q=0.1", "de"), ("fr,en;q=0.2,de;q=0.9", "de"),
     ("de;q=0", "en"), ("en, de", "en"), ("*", "en"), (";;q=,=,de;q=x", "en"), ("," * 5000, "en")],
)  # fmt: skip
def test_what_a_browser_asks_for(header: str, code: str) -> None:
    assert accepted_language(header, ("en", "de")) == code


def test_languages_are_called_as_they_call_themselves() -> None:
    called = [own_name(code) for code in ("en", "de", "fr", "es", "lt", "ru", "zz")]
    assert called == ["English", "Deutsch", "Français", "Español", "Lietuvių", "Русский", "zz"]


def everything(desk: Desk, code: str) -> dict[str, str]:
    """All that a table says in a language, by its address."""
    at = f"/table/{desk.style}/{desk.body}"
    asked = {"accept-language": code}
    out = {
        address: page(desk.web, address, **asked)
        for address in (
            at, f"{at}/body", f"{at}/paper", f"{at}/sheet", f"{at}/lesson", "/new", "/book",
            f"{desk.api}/proof", f"{desk.api}/letter", desk.api,
            f"{desk.api}/show?step=4", f"{desk.api}/facts?tag=front: side",
        )
    }  # fmt: skip
    for what, wish in (("preview", {"paper": "a4"}), ("lesson", {"answers": {"s1.f1.b1": "1"}})):
        out[what] = desk.web.post(f"{desk.api}/{what}", json=wish, headers=asked).text
    return out


def test_words_of_one_reader_never_reach_another(desk: Desk) -> None:
    before = everything(desk, "en")
    other = everything(desk, "de")
    assert before == everything(desk, "en")
    assert other == everything(desk, "de")
    for address, text in before.items():
        assert OPEN not in text.replace("\\u2039", OPEN), address
    for address, text in other.items():
        assert OPEN in text.replace("\\u2039", OPEN), address


def test_two_readers_at_once_are_each_answered_in_their_own(desk: Desk) -> None:
    at = f"/table/{desk.style}/{desk.body}/sheet"

    def read(n: int) -> bool:
        code = ("en", "de")[n % 2]
        text = page(desk.web, at, **{"accept-language": code})
        return foreign(text) == (code == "de") and (OPEN in text) == (code == "de")

    with ThreadPoolExecutor(4) as hands:
        assert all(hands.map(read, range(12)))


def test_faults_and_refusals_are_told_in_the_language(desk: Desk) -> None:
    asked = {"accept-language": "de"}
    answer = desk.web.post(
        f"{desk.api}/command",
        json={"base": 999, "command": {"do": "name", "name": "x"}},
        headers=asked,
    )
    assert answer.status_code >= 400
    assert OPEN in answer.json()["message"]
    assert OPEN in desk.web.get("/nowhere", headers=asked).text
    assert OPEN in desk.web.get("/", headers={**asked, "host": "stranger"}).text


def test_a_sheet_is_taken_in_the_language(desk: Desk) -> None:
    at = f"/table/{desk.style}/{desk.body}/sheet"
    taken = desk.web.post(at, data={"what": "html"}, headers={"accept-language": "de"}).text
    assert '<html lang="de"' in taken
    assert OPEN in taken
    assert "," in taken
