"""From an empty book to a packet in the hand: by mouse, by keys alone, by finger on a tablet."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import Server, Watch
from tests.browser.hands import names_in, point_at, settled, tab_to, word

pytestmark = pytest.mark.browser
WANTED = {"pattern-a4.pdf", "pattern.svg", "pattern.dxf", "style.json"}
TAPES = {"stature": "168", "bust_girth": "92", "waist_girth": "74", "hip_girth": "99"}


def test_by_mouse(fresh: Server, page: Page, tmp_path: Path) -> None:
    page.goto(fresh.url)
    page.click("text=Begin with my own measures")
    page.fill('[name="name"]', "Wren")
    for name, value in TAPES.items():
        page.fill(f'[name="{name}"]', value)
    page.click('label.card:has(input[value="gallery:flared-skirt"])')
    page.click("text=Lay it on the table")
    expect(page.locator("#title")).to_have_text("Flared skirt")
    piece = page.locator("g.piece[data-piece='skirt front'] > g.outline")
    before = piece.get_attribute("data-mark") or ""
    page.fill(word(page, 1, "length"), "71")
    expect(piece).not_to_have_attribute("data-mark", before)
    settled(page)
    page.mouse.click(*point_at(page, "skirt front: hem"))
    expect(page.locator("#facts h2")).to_contain_text("hem of skirt front")
    page.click("#facts >> text=What can be done here")
    count = page.locator("#lines > li").count()
    page.click("#offers .offer >> nth=0")
    expect(page.locator("#lines > li")).to_have_count(count + 1)
    settled(page)
    expect(page.locator(f"#lines > li:nth-child({count + 1}) .open")).to_be_in_viewport()
    page.click("nav.sheets >> text=Body")
    page.fill("#m-waist_girth", "75")
    settled(page)
    page.click("nav.sheets >> text=Paper")
    expect(page.locator("#preview-words")).to_contain_text("sheets of A4")
    with page.expect_download() as taken:
        page.click("#packet")
    assert set(names_in(taken.value, tmp_path)) >= WANTED


def test_by_keys_alone(fresh: Server, page: Page, tmp_path: Path) -> None:
    page.goto(fresh.url)
    keys = page.keyboard
    tab_to(page, 'a[href="/new"].word')
    keys.press("Enter")
    page.wait_for_url("**/new")
    tab_to(page, '[name="body"]')
    tab_to(page, '[name="name"]')
    keys.type("Wren")
    for name, value in TAPES.items():
        tab_to(page, f'[name="{name}"]')
        keys.type(value)
    tab_to(page, '[name="style"]')
    for _n in range(12):
        if page.evaluate("document.activeElement.value") == "gallery:flared-skirt":
            break
        keys.press("ArrowDown")
    keys.press("Enter")
    page.wait_for_url("**/table/**")
    tab_to(page, word(page, 1, "length"))
    for _n in range(6):
        keys.press("ArrowUp")
    settled(page)
    tab_to(page, "#add")
    keys.press("Enter")
    expect(page.locator("#offers .offer").first).to_be_visible()
    count = page.locator("#lines > li").count()
    tab_to(page, "#offers .offer")
    keys.press("Enter")
    expect(page.locator("#lines > li")).to_have_count(count + 1)
    settled(page)
    tab_to(page, "#paper")
    keys.press("Enter")
    keys.press("ArrowRight")
    keys.press("Enter")
    expect(page.locator("#facts h2")).to_be_visible()
    keys.press("Escape")
    expect(page.locator("#facts")).to_be_hidden()
    page.evaluate("window.scrollTo(0, 0); document.activeElement.blur()")
    tab_to(page, 'nav.sheets a[href$="/paper"]')
    keys.press("Enter")
    page.wait_for_url("**/paper")
    tab_to(page, "#packet")
    with page.expect_download() as taken:
        keys.press("Enter")
    assert set(names_in(taken.value, tmp_path)) >= WANTED


def test_by_finger_on_a_tablet(fresh: Server, browser: Browser, tmp_path: Path) -> None:
    size = {"width": 820, "height": 1180}
    context = browser.new_context(viewport=size, has_touch=True)  # type: ignore[arg-type]
    seen = Watch()
    context.on("page", seen.on)
    page = context.new_page()
    page.goto(fresh.url)
    page.locator("text=Open the sample dress").tap()
    expect(page.locator("#title")).to_have_text("Orchard dress")
    page.touchscreen.tap(*point_at(page, "skirt back: hem"))
    expect(page.locator("#facts h2")).to_contain_text("hem of skirt back")
    page.locator(word(page, 1, "length")).tap()
    page.locator(word(page, 1, "length")).fill("58")
    settled(page)
    page.locator("#undo").tap()
    expect(page.locator(word(page, 1, "length"))).to_have_value("52")
    page.locator("nav.sheets >> text=Paper").tap()
    with page.expect_download() as taken:
        page.locator("#packet").tap()
    assert set(names_in(taken.value, tmp_path)) >= WANTED
    context.close()
    assert seen.strangers == []
    assert seen.errors == []


def test_two_fingers_pinch_the_paper(server: Server, browser: Browser) -> None:
    size = {"width": 820, "height": 1180}
    context = browser.new_context(viewport=size, has_touch=True)  # type: ignore[arg-type]
    page = context.new_page()
    page.goto(server.demo())
    frame = page.locator("#paper").bounding_box()
    assert frame is not None
    x, y = frame["x"] + frame["width"] / 2, frame["y"] + frame["height"] / 2
    wide = "Number(document.querySelector('#paper').getAttribute('viewBox').split(' ')[2])"
    before = page.evaluate(wide)
    hand = context.new_cdp_session(page)

    def touch(kind: str, apart: float) -> None:
        fingers = [{"x": x - apart, "y": y, "id": 1}, {"x": x + apart, "y": y, "id": 2}]
        points = [] if kind == "touchEnd" else fingers
        hand.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

    touch("touchStart", 40)
    for apart in range(50, 130, 10):
        touch("touchMove", apart)
    touch("touchEnd", 0)
    assert page.evaluate(wide) < before * 0.7
    context.close()
