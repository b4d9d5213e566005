"""On a phone the head leaves room for the work, in every language."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser

from cutwright.words import languages
from tests.browser.conftest import Server

pytestmark = pytest.mark.browser
MEASURED = """() => {
  const size = (s) => document.querySelector(s)?.getBoundingClientRect();
  return {
    head: size('header.head').height,
    title: size('header.head h1')?.width ?? size('header.head .brand').width,
    under: size('#compare')?.width ?? 200,
    wide: document.documentElement.scrollWidth - window.innerWidth,
    tools: [...document.querySelectorAll('.head .tools button, .head .saved')]
      .map((e) => e.getBoundingClientRect()).filter((r) => r.right > window.innerWidth || r.height > 120).length,
  };
}"""


@pytest.mark.parametrize("language", languages())
def test_head_and_title_on_a_phone(server: Server, browser: Browser, language: str) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True)
    page = context.new_page()
    at = server.demo()
    for address in (f"{at}?lang={language}", f"{at}/body", f"{at}/cloth", f"{server.url}/book"):
        page.goto(address)
        for wide in (390, 360):
            page.set_viewport_size({"width": wide, "height": 844})
            told = page.evaluate(MEASURED)
            told_of = f"{address} at {wide}: {told}"
            assert told["head"] <= 120, told_of
            assert told["title"] >= 120 or "/book" in address, told_of
            assert told["under"] >= 120, told_of
            assert told["wide"] <= 0, told_of
            assert told["tools"] == 0, told_of
    context.close()
