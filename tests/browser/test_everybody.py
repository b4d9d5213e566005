"""The page for everybody: no fault that a checker knows, in every size, by day and by evening."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, expect

from tests.browser.conftest import Server
from tests.browser.hands import point_at

pytestmark = pytest.mark.browser
SIZES = {"laptop": (1280, 800), "tablet": (820, 1180), "phone": (390, 844)}


def sheets(server: Server) -> list[str]:
    at = server.demo()
    style = at.split("/")[4]
    book = f"{server.url}/book"
    return [
        at,
        f"{at}/body",
        f"{at}/paper",
        f"{at}/sheet",
        f"{at}/lesson",
        server.url,
        f"{server.url}/new",
        book,
        f"{book}/clients",
        f"{book}/styles",
        f"{book}/style/{style}",
        f"{book}/cloths",
        f"{book}/safe",
        f"{book}/search?q=alto",
    ]


@pytest.mark.parametrize("size", SIZES)
def test_no_known_fault_and_nothing_wider_than_the_window(
    server: Server, browser: Browser, size: str
) -> None:
    """By day every rule of the checker, at the widest and the narrowest; between them the width.

    In the evening only the ink is another: its rule of contrast, at one size.
    """
    wide, high = SIZES[size]
    context = browser.new_context(
        viewport={"width": wide, "height": high},
        has_touch=size != "laptop",
        reduced_motion="reduce",
    )
    page = context.new_page()
    for address in sheets(server):
        page.emulate_media(color_scheme="light")
        page.goto(address)
        page.wait_for_load_state("networkidle")
        if address.count("/") == 5 and "/table/" in address:
            page.locator("#lines > li:nth-child(5) .no").click()
            page.locator('.hit[data-tag="front: bust dart"]').dispatch_event("click")
            page.locator("#facts h2").wait_for()
        if size != "tablet":
            found = Axe().run(page)
            assert found.violations_count == 0, f"{address}\n{found.generate_report()}"
        if size == "laptop":  # ink and paper are the same at every size
            paper = page.evaluate("getComputedStyle(document.body).backgroundColor")
            page.emulate_media(color_scheme="dark")
            assert page.evaluate("getComputedStyle(document.body).backgroundColor") != paper
            dark = Axe().run(page, options={"runOnly": ["color-contrast"]})
            assert dark.violations_count == 0, f"{address}, dark\n{dark.generate_report()}"
        extra = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
        assert extra <= 0, f"{address} is {extra} px too wide"
    context.close()


def test_controls_are_large_enough_for_a_finger(server: Server, browser: Browser) -> None:
    context = browser.new_context(viewport={"width": 820, "height": 1180}, has_touch=True)
    page = context.new_page()
    page.goto(server.demo())
    small = page.evaluate(
        """() => [...document.querySelectorAll('button, a.word, nav a, select, input, summary')]
          .filter((e) => e.checkVisibility() && !e.closest('.skip'))
          .map((e) => [e.textContent.trim().slice(0, 20) || e.ariaLabel, e.getBoundingClientRect()])
          .filter(([, r]) => r.width && r.height < 43.5)
          .map(([name, r]) => `${name}: ${r.height}`)"""
    )
    assert small == []
    page.set_viewport_size({"width": 390, "height": 844})
    page.touchscreen.tap(*point_at(page, "skirt back: hem"))
    expect(page.locator("#facts h2")).to_be_visible()
    page.locator("#measure").tap()  # what is told of the paper hides none of its tools
    expect(page.locator("#facts")).to_contain_text("where the tape begins")
    page.locator("#measure").tap()
    context.close()
