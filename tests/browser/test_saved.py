"""What is said to be saved is what field, drawing and book hold: typed, undone, left, reloaded, in two windows."""

from __future__ import annotations

import json
import re
import urllib.request
from threading import Event
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Page, Route, expect

from cutwright.book import documents
from cutwright.book.nouns import Document
from cutwright.errors import StoreError
from tests.browser.conftest import HOUSE, Server, Watch
from tests.browser.hands import settled, until, word

pytestmark = pytest.mark.browser

SAID = """async () => {
  const letter = await import('/static/letter.js');
  const home = document.querySelector('#letter');
  const api = `/api/table/${home.dataset.style}/${home.dataset.body}`;
  const told = await (await fetch(api)).json();
  const list = document.createElement('ol');
  list.innerHTML = told.letter.map((line) => line.html).join('');
  const fields = (where) => [...where.querySelectorAll('li.line')].map((line) =>
    Object.fromEntries([...line.querySelectorAll('[data-field]')].map((c) => [c.dataset.field, letter.valueOf(c)])));
  const drawn = [...document.querySelectorAll('g.piece')].map((g) => [g.dataset.piece, ...[...g.children].map((layer) => layer.dataset.mark)]);
  const laid = told.pieces.map((p) => [p.name, p.outline.mark, p.words.mark]);
  const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);
  return document.querySelector('#saved').textContent === 'saved'
    && same(fields(document.querySelector('#lines')), fields(list))
    && (told.trouble !== '' || same(drawn.sort(), laid.sort()));
}"""
"""Whether the page says that all is saved, and shows the fields and the pieces that the book holds."""


def agreed(page: Page) -> None:
    """Field, drawing and book say the same, once the page says that it is saved."""
    page.evaluate("window.dispatchEvent(new Event('focus'))")
    until(page, f"({SAID})()")


def api_of(address: str) -> str:
    host, _slash, table = address.partition("/table/")
    return f"{host}/api/table/{table}"


def asked(url: str, body: dict[str, Any] | None = None) -> dict[str, Any]:
    data = json.dumps(body).encode() if body is not None else None
    headers = {"content-type": "application/json", "cookie": "=".join(HOUSE.cookie)}
    request = urllib.request.Request(url, data, headers)
    with urllib.request.urlopen(request) as answer:
        told: dict[str, Any] = json.load(answer)
    return told


def elsewhere(address: str, **command: Any) -> None:
    """Another window changes something."""
    api = api_of(address)
    base = asked(f"{api}/revision")["style"]
    asked(f"{api}/command", {"base": base, "command": command})


def steps_of(server: Server, address: str) -> list[dict[str, Any]]:
    """The sentences as the book holds them."""
    style = address.split("/")[4]
    steps: list[dict[str, Any]] = asked(f"{server.url}/book/document/{style}/file")["steps"]
    return steps


def lengths(page: Page) -> list[tuple[int, str]]:
    """(sentence from 1, field) of every length that is seen without opening anything, one a sentence."""
    found: list[tuple[int, str]] = page.evaluate(
        """() => [...document.querySelectorAll('#lines > li')].map((line, n) =>
          [n + 1, line.querySelector('.words [data-step="0.5"]')?.dataset.field]).filter((each) => each[1])"""
    )
    return [(line, field) for line, field in found]


@pytest.mark.parametrize("repeat", range(3))
def test_two_windows_on_different_sentences_keep_every_digit(
    server: Server, page: Page, repeat: int
) -> None:
    address = server.demo()
    page.goto(address)
    (here, field), (there, other) = lengths(page)[0], lengths(page)[1 + repeat]
    typed = page.locator(word(page, here, field))
    typed.select_text()
    for digit in "70.25":
        page.keyboard.press(digit)
        value = 2 + len(typed.input_value()) / 4
        elsewhere(address, do="set", step=there - 1, field=other, value=str(value))
    expect(typed).to_have_value("70.25")
    settled(page)
    expect(page.locator("#conflict")).to_be_hidden()
    steps = steps_of(server, address)
    assert steps[here - 1][field] == 70.25
    assert steps[there - 1][other] == value
    page.locator("#title").click()
    agreed(page)


def test_a_sentence_written_above_does_not_take_the_digits(server: Server, page: Page) -> None:
    address = server.demo()
    page.goto(address)
    here, field = lengths(page)[2]
    typed = page.locator(word(page, here, field))
    typed.select_text()
    page.keyboard.press("3")
    step = steps_of(server, address)[here - 1]
    elsewhere(address, do="write", at=0, step=dict(steps_of(server, address)[0]))
    page.keyboard.press(".")
    settled(page)
    page.keyboard.press("5")
    settled(page)
    assert steps_of(server, address)[here] == {**step, field: 3.5}
    agreed_field = page.locator(word(page, here + 1, field))
    expect(agreed_field).to_have_value("3.5")
    expect(agreed_field).to_be_focused()


def test_the_same_sentence_is_asked_about_once_when_the_typing_has_ended(
    server: Server, page: Page
) -> None:
    address = server.demo()
    page.goto(address)
    typed = page.locator(word(page, 1, "length"))
    elsewhere(address, do="set", step=0, field="length", value="60")
    typed.select_text()
    page.keyboard.press("7")
    told = page.locator("#lines > li:nth-child(1) .told")
    expect(told).to_contain_text("not saved: this was changed in another window")
    expect(page.locator("#saved")).to_have_text("not saved")
    page.keyboard.press("0")
    expect(page.locator("#conflict")).to_be_hidden()
    expect(typed).to_have_value("70")
    page.keyboard.press("Tab")
    expect(page.locator("#conflict .mine")).to_contain_text("70 cm")
    expect(page.locator("#conflict .theirs")).to_contain_text("60 cm")
    page.click("[data-keep=mine]")
    agreed(page)
    expect(typed).to_have_value("70")
    assert steps_of(server, address)[0]["length"] == 70
    expect(page.locator("#conflict")).to_be_hidden()


def test_keeping_the_other_takes_it_over(server: Server, page: Page) -> None:
    address = server.demo()
    page.goto(address)
    elsewhere(address, do="set", step=0, field="length", value="60")
    page.locator(word(page, 1, "length")).fill("70")
    expect(page.locator(word(page, 1, "length"))).to_have_class("v num unsaved")
    page.keyboard.press("Tab")
    page.click("[data-keep=theirs]")
    agreed(page)
    expect(page.locator(word(page, 1, "length"))).to_have_value("60")


def test_undo_in_a_field_belongs_to_the_field(server: Server, page: Page) -> None:
    page.goto(server.demo())
    field = page.locator(word(page, 1, "length"))
    field.select_text()
    for digit in "57":
        page.keyboard.press(digit)
    settled(page)
    page.keyboard.press("Control+z")
    expect(field).to_have_value("5")
    page.keyboard.press("Control+z")
    expect(field).to_have_value("52")
    page.keyboard.press("Control+z")
    expect(field).to_have_value("52")
    page.keyboard.press("Control+y")
    expect(field).to_have_value("5")
    page.keyboard.press("Control+Shift+z")
    expect(field).to_have_value("57")
    page.keyboard.press("Tab")
    agreed(page)
    expect(field).to_have_value("57")
    page.locator("#title").click()
    page.keyboard.press("Control+z")
    expect(field).to_have_value("52")
    agreed(page)


@pytest.mark.parametrize("wrong", ["", "waist_girth / * 2", "as long as a song"])
def test_a_refused_word_stays_marked_and_outlives_a_reload(
    server: Server, page: Page, wrong: str
) -> None:
    address = server.demo()
    page.goto(address)
    field = page.locator(word(page, 1, "length"))
    field.fill(wrong)
    told = page.locator("#lines > li:nth-child(1) .told")
    for _time in range(2):
        expect(page.locator("#saved")).to_have_text("not saved")
        expect(told).to_contain_text("not saved: ")
        expect(field).to_have_attribute("aria-invalid", "true")
        page.keyboard.press("Tab")
        expect(field).to_have_value(wrong)
        page.reload()
    assert steps_of(server, address)[0]["length"] == 52
    field.fill("61")
    page.keyboard.press("Tab")
    agreed(page)
    expect(told).to_be_hidden()
    assert steps_of(server, address)[0]["length"] == 61


def test_a_name_that_cannot_be_is_not_saved(server: Server, page: Page) -> None:
    page.goto(server.demo())
    page.locator(".about-style summary").click()
    page.fill("#style-name", " ")
    expect(page.locator("#name-told")).to_contain_text("not saved: A style needs a name")
    expect(page.locator("#saved")).to_have_text("not saved")
    page.fill("#style-name", "Quince")
    agreed(page)
    expect(page.locator("#title")).to_have_text("Quince")


def test_a_refused_measure_stays_marked_and_outlives_a_reload(server: Server, page: Page) -> None:
    address = f"{server.demo()}/body"
    page.goto(address)
    before = page.input_value("#m-bust_girth")
    page.fill("#m-bust_girth", "38 cm")
    for _time in range(2):
        expect(page.locator("#d-bust_girth")).to_contain_text("not saved: ")
        expect(page.locator("#saved")).to_have_text("not saved")
        page.keyboard.press("Tab")
        expect(page.locator("#m-bust_girth")).to_have_value("38 cm")
        page.reload()
    page.locator("#m-bust_girth").focus()
    page.fill("#m-bust_girth", before)
    settled(page)
    expect(page.locator("#d-bust_girth")).not_to_contain_text("not saved")


def test_two_windows_on_one_body(server: Server, context: BrowserContext) -> None:
    address = f"{server.demo()}/body"
    one, other = context.new_page(), context.new_page()
    one.goto(address)
    other.goto(address)
    one.fill("#m-hip_girth", "101")
    settled(one)
    other.locator("#m-waist_girth").select_text()
    for digit in "78.5":
        other.keyboard.press(digit)
    settled(other)
    expect(other.locator("#m-hip_girth")).to_have_value("101")
    news = re.compile(r"/api/body/\w+\?unit=")
    one.route(news, lambda route: route.abort("connectionrefused"))  # not heard before it is typed
    other.fill("#m-hip_girth", "102")
    settled(other)
    one.fill("#m-hip_girth", "103")
    expect(one.locator("#d-hip_girth")).to_contain_text("changed in another window")
    one.unroute(news)
    one.keyboard.press("Tab")
    expect(one.locator("#conflict .theirs")).to_contain_text("102")
    one.click("[data-keep=mine]")
    settled(one)
    one.reload()
    expect(one.locator("#m-hip_girth")).to_have_value("103")
    expect(one.locator("#m-waist_girth")).to_have_value("78.5")


def test_what_was_on_its_way_when_the_page_was_left_is_saved(server: Server, page: Page) -> None:
    address = server.demo()
    page.goto(address)
    page.route("**/command", lambda route: route.abort("connectionrefused"))
    page.locator(word(page, 1, "length")).fill("66")
    expect(page.locator("#saved")).not_to_have_text("saved")
    page.unroute("**/command")
    page.goto(f"{address}/body")
    page.goto(address)
    agreed(page)
    assert steps_of(server, address)[0]["length"] == 66


def control_at(page: Page, number: int) -> str:
    """A control by its number on the page."""
    page.evaluate(
        """(n) => { document.querySelectorAll('[data-turn]').forEach((e) => e.removeAttribute('data-turn'));
          document.querySelectorAll('#lines [data-field]')[n].setAttribute('data-turn', ''); }""",
        number,
    )
    return "[data-turn]"


def changed(page: Page, number: int) -> None:
    """Change one control as a person does, by its shape."""
    at = page.locator(control_at(page, number))
    shape = at.get_attribute("data-shape")
    line = at.locator("xpath=ancestor::li")
    if "on" not in (line.get_attribute("class") or "").split():
        line.locator("button.no").click()
    finer = at.locator("xpath=ancestor::details[contains(@class, 'finer')]")
    if finer.count() and finer.get_attribute("open") is None:
        finer.locator("> summary").click()
    if shape in ("many", "names", "place"):
        if at.get_attribute("open") is None:
            at.locator("summary").click()
        if shape == "place":
            at.locator('[data-part="edge"]').select_option(index=1)
            return
        inside = at.locator('input[type="checkbox"], input[type="text"]').last
        if not inside.count():
            return
        if inside.get_attribute("type") == "checkbox":
            inside.click()
            return
        inside.press("End")
        inside.press_sequentially("5")
    elif shape == "one":
        now = at.input_value()
        values = at.locator("option").evaluate_all("(all) => all.map((o) => o.value)")
        at.select_option(next((v for v in reversed(values) if v != now), now))
    else:
        at.press("End")
        at.press_sequentially("5")


def fields(page: Page, of_a_kind: int) -> list[int]:
    """The numbers of the fields, so many of each kind: how it is shaped, its steps, folded away or not."""
    kinds: list[str] = page.evaluate(
        """() => [...document.querySelectorAll('#lines [data-field]')].map((e) =>
          [e.tagName, e.dataset.shape, e.dataset.step, !!e.closest('details.finer')].join())"""
    )
    places: dict[str, list[int]] = {}
    for number, kind in enumerate(kinds):
        places.setdefault(kind, []).append(number)
    return sorted(
        at for found in places.values() for at in found[:: -(-len(found) // of_a_kind)][:of_a_kind]
    )


@pytest.mark.parametrize("of_a_kind", [1, pytest.param(100, marks=pytest.mark.survey)])
def test_every_kind_of_field_drawing_and_book_agree(
    server: Server, context: BrowserContext, of_a_kind: int
) -> None:
    """Each field is typed in, left and undone; now and then reloaded and seen in a second window.

    Here one of each kind in the letter, in `make survey` all.
    """
    address = server.demo()
    page, second = context.new_page(), context.new_page()
    page.goto(address)
    numbers = fields(page, of_a_kind)
    assert len(numbers) >= 14
    for turn, number in enumerate(numbers):
        before = steps_of(server, address)
        changed(page, number)
        until(page, "['saved', 'not saved'].includes(document.querySelector('#saved').textContent)")
        page.locator("#title").click()
        state = page.locator("#saved").inner_text()
        if state == "saved":
            agreed(page)
        else:  # refused: the field keeps it, the book what was there
            assert state == "not saved"
            assert steps_of(server, address) == before
            assert page.locator("#lines .unsaved").count()
        if turn % 8 == 0:
            second.goto(address)
            agreed(second)
            page.reload()
            expect(page.locator("#saved")).to_have_text(state)
        if state == "not saved":
            changed_back(page)
        elif steps_of(server, address) != before:
            page.keyboard.press("Control+z")
            until(page, "document.querySelector('#saved').textContent === 'saved'")
        agreed(page)
        assert steps_of(server, address) == before


def changed_back(page: Page) -> None:
    """Put back what was refused: the choice there was, or one letter less."""
    field = page.locator("#lines .unsaved").first
    if not field.is_visible():
        field.locator("xpath=ancestor::li").locator("button.no").click()
    inside = field.locator("input[type='text'], input[type='checkbox']")
    if inside.count():
        field = inside.last
    if field.get_attribute("type") == "checkbox":
        field.click()
    elif field.evaluate("(e) => e.matches('select')"):
        chosen = "(e) => [...e.options].find((o) => o.defaultSelected).value"
        field.select_option(field.evaluate(chosen))
    else:
        field.press("End")
        field.press("Backspace")
    page.locator("#title").click()


def test_a_desk_that_cannot_save_says_so_and_what_was_typed_stays(
    server: Server, page: Page, watch: Watch
) -> None:
    page.goto(server.demo())
    sent: list[str] = []

    def broken(route: Route) -> None:
        sent.append(route.request.post_data or "")
        route.fulfill(status=500, json={"message": "It broke."})

    page.route("**/command", broken)
    typed = page.locator(word(page, 1, "length"))
    typed.fill("61")
    told = page.locator("#lines > li:nth-child(1) .told")
    expect(told).to_contain_text("not saved: It broke.")
    expect(page.locator("#saved")).to_have_text("not saved")
    expect(typed).to_have_value("61")
    assert len(sent) == 4
    page.unroute("**/command")
    assert len(watch.errors) == 4
    watch.errors.clear()  # the faults that were made here
    page.reload()
    expect(typed).to_have_value("61")
    expect(page.locator("#saved")).to_have_text("not saved")
    typed.fill("62")
    settled(page)


def outlines(page: Page) -> list[str]:
    marks = "(all) => all.map((g) => g.dataset.mark)"
    drawn: list[str] = page.locator("g.piece > g.outline").evaluate_all(marks)
    return drawn


def test_the_picture_is_not_called_saved_before_the_book_holds_it(
    server: Server, page: Page, monkeypatch: pytest.MonkeyPatch
) -> None:
    address = server.demo()
    page.goto(address)
    before, slow, save = outlines(page), Event(), documents.save

    def slowly(*given: Any, **named: Any) -> Document:
        assert slow.wait(60)
        return save(*given, **named)

    monkeypatch.setattr(documents, "save", slowly)
    page.locator(word(page, 1, "length")).fill("61")
    expect(page.locator("#saved")).to_have_text("drawn, not yet saved")
    drawn = outlines(page)
    assert drawn != before
    assert steps_of(server, address)[0]["length"] == 52
    page.locator(word(page, 1, "length")).fill("62")
    expect(page.locator("#saved")).to_have_text("saving…")  # what is typed now is not drawn yet
    slow.set()
    agreed(page)
    assert outlines(page) not in (before, drawn)
    assert steps_of(server, address)[0]["length"] == 62


def test_a_picture_that_cannot_be_saved_is_told_and_the_typing_stays(
    server: Server, page: Page, monkeypatch: pytest.MonkeyPatch
) -> None:
    address = server.demo()
    page.goto(address)
    typed = page.locator(word(page, 1, "length"))
    before = outlines(page)

    def full(*_given: Any, **_named: Any) -> Document:
        raise StoreError("The disk is full.")

    with monkeypatch.context() as patch:
        patch.setattr(documents, "save", full)
        typed.fill("61")
        told = page.locator("#lines > li:nth-child(1) .told")
        expect(told).to_contain_text("not saved: The disk is full.")
        expect(page.locator("#saved")).to_have_text("not saved")
        page.keyboard.press("Tab")
        expect(typed).to_have_value("61")
        assert steps_of(server, address)[0]["length"] == 52
        page.reload()
        expect(typed).to_have_value("61")
        expect(page.locator("#saved")).to_have_text("not saved")
        assert outlines(page) == before
    typed.fill("62")
    page.keyboard.press("Tab")
    agreed(page)
    assert steps_of(server, address)[0]["length"] == 62


def test_an_answer_that_is_cut_off_after_the_picture_is_asked_for_again(
    server: Server, page: Page
) -> None:
    address = server.demo()
    page.goto(address)
    picture = {"pieces": [], "wide": 1, "high": 1, "trouble": "half an answer"}
    page.route("**/command", lambda route: route.fulfill(status=200, body=json.dumps(picture)))
    page.locator(word(page, 1, "length")).fill("61")
    expect(page.locator("#saved")).to_contain_text("does not answer")
    page.unroute("**/command")
    agreed(page)
    assert steps_of(server, address)[0]["length"] == 61
