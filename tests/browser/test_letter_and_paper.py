"""Typing, pointing, comparing and measuring in a real browser."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, Route, expect

from tests.browser.conftest import Server
from tests.browser.hands import point_at, settled, tab_to, until, word

pytestmark = pytest.mark.browser
TWO_FRAMES = "() => new Promise((go) => requestAnimationFrame(() => requestAnimationFrame(go)))"


def line_of(page: Page, text: str) -> int:
    """The number (from 1) of the first sentence that says something."""
    said = page.locator("#lines > li .words").all_inner_texts()
    return next(n + 1 for n, each in enumerate(said) if text in each)


def test_fifty_quick_key_presses_end_at_the_right_number(server: Server, page: Page) -> None:
    page.goto(server.demo())
    field = page.locator(word(page, 1, "length"))
    field.focus()
    for _n in range(50):
        page.keyboard.press("ArrowUp")
    expect(field).to_have_value("77")
    settled(page)
    expect(field).to_have_value("77")
    assert page.evaluate("document.activeElement.dataset.field") == "length"
    page.reload()
    expect(page.locator(word(page, 1, "length"))).to_have_value("77")


def test_what_is_typed_quickly_is_never_overwritten(server: Server, page: Page) -> None:
    page.goto(server.demo())
    field = page.locator(word(page, 1, "length"))
    field.fill("")
    field.type("64.25", delay=15)
    expect(field).to_have_value("64.25")
    settled(page)
    expect(field).to_have_value("64.25")


def test_undo_and_redo_by_button_and_by_key(server: Server, page: Page) -> None:
    page.goto(server.demo())
    field = page.locator(word(page, 1, "length"))
    for value in ("60", "70"):
        field.fill(value)
        settled(page)
        page.locator("#title").click()
    page.click("#undo")
    settled(page)
    page.keyboard.press("Control+z")
    expect(field).to_have_value("52")
    expect(page.locator("#undo")).to_be_disabled()
    page.keyboard.press("Control+Shift+z")
    expect(field).not_to_have_value("52")


def test_a_word_that_cannot_stand_is_told_below_it(server: Server, page: Page) -> None:
    page.goto(server.demo())
    field = page.locator(word(page, 1, "length"))
    field.fill("as long as a song")
    told = page.locator("#lines > li:nth-child(1) .told")
    expect(told).to_be_visible()
    field.fill("3")
    expect(page.locator("#veil")).to_contain_text("from 15 to 180")
    field.fill("55")
    expect(page.locator("#veil")).to_be_hidden()
    expect(told).to_be_hidden()


def test_a_sentence_lights_what_it_did_and_an_edge_names_its_sentences(
    server: Server, page: Page
) -> None:
    page.goto(server.demo())
    number = line_of(page, "as a straight strip")
    lit = page.locator('.lit[data-tag="hem flounce: top"]').first
    page.locator("#proof-rows").wait_for()  # the page listens
    page.locator(f"#lines > li:nth-child({number}) .no").hover()
    expect(lit).to_be_attached()
    page.mouse.click(*point_at(page, "hem flounce: top"))
    expect(page.locator("#facts")).to_contain_text(f"Made by sentence {number}")
    expect(page.locator(f"#lines > li:nth-child({number})")).to_have_class(re.compile("told-of"))


def test_sentences_move_go_and_come_back(server: Server, page: Page) -> None:
    page.goto(server.demo())
    count = page.locator("#lines > li").count()
    last = page.locator(f"#lines > li:nth-child({count}) .no").get_attribute("aria-label") or ""
    page.click(f"#lines > li:nth-child({count}) .no")
    page.click(f"#lines > li:nth-child({count}) [data-act=out]")
    expect(page.locator("#lines > li")).to_have_count(count - 1)
    settled(page)
    until(page, "document.activeElement.matches('#lines > li:last-child .no')")
    page.click("#undo")
    expect(page.locator("#lines > li")).to_have_count(count)
    page.click(f"#lines > li:nth-child({count}) .no")
    page.click(f"#lines > li:nth-child({count}) [data-act=up]")
    there = page.locator(f"#lines > li:nth-child({count - 1}) .no")
    expect(there).to_have_attribute("aria-label", last.replace(str(count), str(count - 1), 1))
    until(
        page, f"document.activeElement.matches('#lines > li:nth-child({count - 1}) [data-act=up]')"
    )


def test_show_me_plays_and_closes(server: Server, page: Page) -> None:
    page.goto(server.demo())
    number = line_of(page, "Close every dart")
    page.click(f"#lines > li:nth-child({number}) .no")
    page.click(f"#lines > li:nth-child({number}) [data-act=show]")
    expect(page.locator("#play")).to_be_visible()
    for words in ("The paper before", "Cut along", "turns", "The paper after"):
        expect(page.locator("#play-words")).to_contain_text(words)
        if words != "The paper after":
            page.click("#play-on")
    page.keyboard.press("Escape")
    expect(page.locator("#play")).to_be_hidden()


def test_another_size_is_laid_under(server: Server, page: Page) -> None:
    page.goto(server.demo())
    page.select_option("#compare", "size:88,regular,women")
    expect(page.locator("g.under .ghost").first).to_be_attached()
    expect(page.locator("#differences summary")).to_contain_text("bust 88")
    assert page.evaluate(  # what lies under is seen on the paper, not hidden by it
        "[...document.querySelectorAll('g.under')].every((g) => g.parentElement.firstElementChild !== g)"
    )
    page.select_option("#compare", "")
    expect(page.locator("g.under")).to_have_count(0)


def test_a_late_answer_does_not_bring_back_what_was_taken_away(server: Server, page: Page) -> None:
    held: list[Route] = []
    page.goto(server.demo())
    page.route("**/compare?*", lambda route: held.append(route))
    with page.expect_request("**/compare?*"):
        page.select_option("#compare", "size:88,regular,women")
    page.select_option("#compare", "")
    expect(page.locator("#proof-rows")).to_be_attached()
    assert held
    for route in held:
        with page.expect_event("requestfinished", lambda asked: "/compare?" in asked.url):
            route.continue_()
    page.evaluate(TWO_FRAMES)  # the page has heard the late answer and would have drawn it
    expect(page.locator("g.under")).to_have_count(0)
    expect(page.locator("#differences")).to_have_count(0)


def test_the_tape_by_mouse_and_by_keys(server: Server, page: Page) -> None:
    page.goto(server.demo())
    page.click("#measure")
    x, y = point_at(page, "hem flounce: bottom") if page.locator(
        '.hit[data-tag="hem flounce: bottom"]'
    ).count() else point_at(page, "hem flounce: hem")  # fmt: skip
    page.mouse.click(x, y)
    page.mouse.click(x + 60, y)
    expect(page.locator("#facts")).to_contain_text("cm along the")
    expect(page.locator("#facts")).to_contain_text("straight across")
    page.keyboard.press("Escape")
    expect(page.locator("#measure")).to_have_attribute("aria-pressed", "false")


def test_the_wheel_comes_nearer_and_zero_shows_all(server: Server, page: Page) -> None:
    page.goto(server.demo())
    wide = "Number(document.querySelector('#paper').getAttribute('viewBox').split(' ')[2])"
    page.locator("#proof-rows").wait_for()
    before = page.evaluate(wide)
    page.locator("#paper").hover()
    page.mouse.wheel(0, -600)
    until(page, f"{wide} < {before} * 0.7")
    page.locator("#paper").focus()
    page.keyboard.press("0")
    assert page.evaluate(wide) == pytest.approx(before, rel=0.01)


def test_after_a_restart_the_page_goes_on_without_reload(fresh: Server, page: Page) -> None:
    page.goto(fresh.demo())
    fresh.stop()
    page.locator(word(page, 1, "length")).fill("63")
    expect(page.locator("#saved")).to_contain_text("does not answer", timeout=15000)
    fresh.start()
    settled(page)
    expect(page.locator(word(page, 1, "length"))).to_have_value("63")
    page.reload()
    expect(page.locator(word(page, 1, "length"))).to_have_value("63")


def test_a_slip_is_asked_about_as_it_is_typed(server: Server, page: Page) -> None:
    page.goto(server.demo() + "/body")
    page.fill("#m-bust_depth", "12")
    expect(page.locator("#d-bust_depth")).to_contain_text("beyond what a body has")
    page.fill("#m-bust_depth", "30")
    expect(page.locator("#d-bust_depth")).to_be_hidden()
    tab_to(page, "#m-armhole_depth")
    expect(page.locator('.way.now[data-measure="armhole_depth"]')).to_be_attached()


def test_the_sums_of_the_view(server: Server, page: Page) -> None:
    page.goto(server.url)
    assert page.evaluate(
        "async () => (await import('/static/view.js')).zoomBox([0, 0, 100, 50], 2, 30, 10)"
    ) == [15, 5, 50, 25]
    stepped = "async () => (await import('/static/letter.js')).stepped('3,9', 0.2, 0, 4)"
    assert page.evaluate(stepped) == "4"
