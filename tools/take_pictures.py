"""Take the pictures of the docs anew: `python -m tools.take_pictures` (or `make pictures`).

A desk with an empty book is started on a free port, Chromium goes through it, and the pictures
in `docs/img` are written over. Look at each before you commit it.
"""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

from tests.browser.conftest import HOUSE, Server

PICTURES = Path("docs") / "img"
WIDE, TABLET, PHONE = (1280, 800), (820, 1180), (390, 844)
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"]
Way = Callable[[Page, str], None]


def main() -> int:
    """Take every picture."""
    browsers = ("chromium", "chromium-browser", "google-chrome")
    program = next(path for path in map(shutil.which, browsers) if path)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as play:
        server = Server(Path(folder) / "book.sqlite")
        server.start()
        browser = play.chromium.launch(executable_path=program, args=FLAGS)
        address = server.demo()
        for name, (size, dark, way) in _ways(server.url).items():
            _take(browser, name, size, dark, way, address)
        browser.close()
        server.stop()
    return 0


def _ways(url: str) -> dict[str, tuple[tuple[int, int], bool, Way]]:
    """How to come to what each picture shows."""
    return {
        "desk-begin": (WIDE, False, lambda page, _at: _go(page, f"{url}/new")),
        "desk-style": (WIDE, False, _go),
        "desk-style-evening": (WIDE, True, _go),
        "desk-style-tablet": (TABLET, False, _go),
        "desk-style-phone": (PHONE, False, _go),
        "desk-show": (WIDE, False, _played),
        "desk-body": (WIDE, False, lambda page, at: _go(page, f"{at}/body")),
        "desk-paper": (WIDE, False, lambda page, at: _go(page, f"{at}/paper")),
        "desk-order": (WIDE, False, lambda page, _at: _go(page, f"{url}/book")),
    }


def _go(page: Page, address: str) -> None:
    page.goto(address)
    page.wait_for_load_state("networkidle")


def _played(page: Page, address: str) -> None:
    """A sentence of the page played on the paper."""
    _go(page, address)
    page.locator("button.no").nth(2).click()
    page.locator("[data-act=show]:visible").first.click()
    page.wait_for_load_state("networkidle")
    page.wait_for_timeout(1500)  # the play is under way


def _take(
    browser: Browser, name: str, size: tuple[int, int], dark: bool, way: Way, address: str
) -> None:
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]},
        color_scheme="dark" if dark else "light",
        locale="en",
    )
    cookie, value = HOUSE.cookie
    context.add_cookies([{"name": cookie, "value": value, "url": "http://127.0.0.1"}])
    page = context.new_page()
    way(page, address)
    page.screenshot(path=PICTURES / f"{name}.png")
    context.close()


if __name__ == "__main__":
    raise SystemExit(main())
