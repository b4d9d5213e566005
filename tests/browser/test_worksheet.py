"""The work sheet and the lesson in a real browser: filled in on a phone, live, in another language."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, expect

from cutwright import words
from tests.browser.conftest import Server
from tests.browser.hands import settled, word
from tests.pretend import write_pretended

pytestmark = pytest.mark.browser


@pytest.fixture
def two_languages(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """English and one that is only pretended."""
    write_pretended(tmp_path / "locales")
    monkeypatch.setattr(words, "LOCALES", tmp_path / "locales")
    words._catalogue.cache_clear()
    words.languages.cache_clear()
    yield
    words._catalogue.cache_clear()
    words.languages.cache_clear()


def no_known_fault(page: Page) -> None:
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
    extra = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
    assert extra <= 0, f"{page.url} is {extra} px too wide"


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_lesson_is_filled_in_on_a_phone(server: Server, browser: Browser, scheme: str) -> None:
    context = browser.new_context(
        viewport={"width": 390, "height": 844},
        color_scheme="dark" if scheme == "dark" else "light",
        has_touch=True,
    )
    page = context.new_page()
    page.goto(f"{server.demo()}/sheet")
    no_known_fault(page)
    page.locator(".sheet-tools").get_by_text("Lesson", exact=True).tap()
    blanks = page.locator("input[data-key]")
    blanks.nth(0).fill("116,0")
    blanks.nth(1).fill("112.5")
    blanks.nth(2).fill("soon")
    page.tap("#check")
    expect(page.locator("#result")).to_contain_text("1 right, 2 to look at again")
    expect(blanks.nth(0)).to_have_attribute("data-right", "yes")
    said = page.get_by_text("10.5 too little")
    expect(said).to_be_visible()
    said.tap()
    expect(page.locator(".hint")).to_contain_text("123")
    expect(page.get_by_text("cannot be read")).to_be_visible()
    no_known_fault(page)
    small = page.evaluate(
        """() => [...document.querySelectorAll('.leaf button, .leaf input:not([type=radio]), .leaf a.word, .leaf summary')]
          .filter((e) => e.checkVisibility())
          .map((e) => [e.textContent.trim() || e.ariaLabel, e.getBoundingClientRect().height])
          .filter(([, high]) => high < 43.5)"""
    )
    assert small == []
    blanks.nth(1).fill("123")
    expect(page.get_by_text("10.5 too little")).to_have_count(0)
    page.locator("[name=whose][value=own]").check()
    blanks.nth(0).fill("90")
    blanks.nth(1).press("Enter")
    expect(page.get_by_text("26 too much")).to_be_visible()
    context.close()


def test_the_sheet_follows_the_letter(server: Server, context: BrowserContext) -> None:
    at = server.demo()
    letter, sheet = context.new_page(), context.new_page()
    sheet.goto(f"{at}/sheet")
    expect(sheet.locator("#step-1")).to_contain_text("52 cm")
    letter.goto(at)
    letter.locator(word(letter, 1, "length")).fill("63")
    settled(letter)
    expect(sheet.locator("#step-1")).to_contain_text("63 cm", timeout=15000)
    sheet.goto(f"{at}/lesson")
    sheet.locator("input[data-key]").first.fill("116")
    letter.locator(word(letter, 1, "length")).fill("60")
    settled(letter)
    expect(sheet.locator("#result")).to_contain_text("changed meanwhile", timeout=15000)
    expect(sheet.locator("input[data-key]").first).to_have_value("116")


def test_it_prints_black_on_white_without_the_tools(server: Server, browser: Browser) -> None:
    context = browser.new_context(color_scheme="dark")
    page = context.new_page()
    page.goto(f"{server.demo()}/sheet")
    page.emulate_media(media="print")
    expect(page.locator(".sheet-tools")).to_be_hidden()
    expect(page.locator("header.head")).to_be_hidden()
    look = page.evaluate(
        """() => [getComputedStyle(document.querySelector('.worksheet .sentence')).color,
          getComputedStyle(document.querySelector('.worksheet .i-cut')).stroke]"""
    )
    assert look[0] == "rgb(0, 0, 0)"
    assert sum(int(part) for part in look[1][4:-1].split(",")) < 150
    context.close()


def test_the_language_is_switched_in_the_head_and_stays(
    two_languages: None, server: Server, page: Page
) -> None:
    at = server.demo()
    page.goto(f"{at}/body?unit=in")
    page.click(".tongues summary")
    page.locator(".tongues a", has_text="Deutsch").click()
    expect(page.locator("html")).to_have_attribute("lang", "de")
    expect(page).to_have_url(f"{at}/body?unit=in")
    page.goto(f"{at}/sheet")
    expect(page.locator(".worksheet h2").first).to_contain_text("‹")
    no_known_fault(page)
    page.goto(at)
    expect(page.locator("#saved")).to_have_text("‹saved›")
    page.click(".tongues summary")
    page.keyboard.press("Escape")
    expect(page.locator(".tongues a").first).to_be_hidden()
    page.click(".tongues summary")
    page.locator(".tongues a", has_text="English").click()
    expect(page.locator("#saved")).to_have_text("saved")
