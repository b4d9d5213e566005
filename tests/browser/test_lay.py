"""The cloth sheet in a browser: by mouse, finger and keys, by day and by evening."""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import Server

pytestmark = pytest.mark.browser


def laid(page: Page, address: str) -> None:
    """The sheet with a lay on it, no longer looking for a shorter one."""
    page.goto(f"{address}/cloth")
    page.locator("#lay g.laid").first.wait_for(timeout=60_000)
    stopped(page)


def stopped(page: Page) -> None:
    """End a search if it still goes on."""
    page.locator("#stop").dispatch_event("click")
    expect(page.locator("#again")).to_be_visible(timeout=30_000)


def middle(page: Page, selector: str) -> tuple[float, float]:
    box = page.locator(selector).first.bounding_box()
    assert box
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def test_with_a_mouse_a_piece_is_pinned_let_go_and_the_page_is_taken(
    server: Server, page: Page, tmp_path: Path
) -> None:
    page.set_viewport_size({"width": 1280, "height": 800})
    laid(page, server.demo())
    piece = page.locator('#lay g.laid[aria-label*="skirt back"]')
    x, y = middle(page, '#lay g.laid[aria-label*="skirt back"]')
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 60, y, steps=4)
    page.mouse.up()
    expect(page.locator("#lay g.pinned")).to_have_count(1, timeout=30_000)
    expect(piece).to_have_attribute("aria-pressed", "true")
    expect(page.locator("#hand")).to_contain_text("pinned")
    page.locator("#let-go").click()
    expect(page.locator("#lay g.pinned")).to_have_count(0, timeout=30_000)
    stopped(page)
    with page.expect_download() as download:
        page.locator('#files button[value="pdf"]').click()
    download.value.save_as(tmp_path / "lay.pdf")
    assert (tmp_path / "lay.pdf").read_bytes().startswith(b"%PDF")


def test_with_keys_a_piece_moves_by_one_cm_and_another_cloth_lets_it_go(
    server: Server, page: Page
) -> None:
    laid(page, server.demo())
    piece = page.locator('#lay g.laid[aria-label*="skirt back"]')
    piece.focus()
    page.keyboard.press("Enter")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    expect(piece).to_have_attribute("transform", "translate(2 0)")
    expect(page.locator("#lay g.pinned")).to_have_count(1, timeout=30_000)
    assert page.evaluate("document.activeElement?.matches('g.laid.pinned')")
    page.locator("#width").fill("60")
    page.locator("#width").press("Enter")
    expect(page.locator("#trouble")).to_contain_text("too wide for this cloth", timeout=30_000)
    expect(page.locator("#hand")).to_contain_text("Unpin")
    page.locator("#cloth").select_option("gallery:velvet-140")
    expect(page.locator("#card")).to_contain_text("the nap runs one way")
    expect(page.locator("#trouble")).to_be_hidden()
    expect(page.locator("#lay g.laid").first).to_be_visible(timeout=30_000)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_with_a_finger_and_no_known_fault(server: Server, browser: Browser, scheme: str) -> None:
    context = browser.new_context(
        viewport={"width": 390, "height": 844},
        color_scheme="dark" if scheme == "dark" else "light",
        has_touch=True,
        reduced_motion="reduce",
    )
    page = context.new_page()
    laid(page, server.demo())
    page.locator("#lay g.laid").first.tap()
    expect(page.locator("#lay g.laid").first).to_have_class("laid on")
    page.locator("#pin").tap()
    expect(page.locator("#lay g.pinned")).to_have_count(1, timeout=30_000)
    stopped(page)
    page.locator("#widths").fill("60")
    page.locator("#compare-form button").first.tap()
    expect(page.locator("#compared button")).to_have_count(3, timeout=60_000)
    for wide, high in ((390, 844), (820, 1180), (1280, 800)):
        page.set_viewport_size({"width": wide, "height": high})
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()
        extra = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
        assert extra <= 0
    small = page.evaluate(
        """() => [...document.querySelectorAll('main button, main a.word, main select, main input')]
          .filter((e) => e.checkVisibility() && e.getBoundingClientRect().height < 34).map((e) => e.id || e.textContent)"""
    )
    assert small == []
    context.close()
