"""What a person does at the desk, whatever the hand: mouse, finger or keys."""

from __future__ import annotations

import zipfile
from pathlib import Path

from playwright.sync_api import Download, Page, expect


def settled(page: Page) -> None:
    """Everything typed is saved."""
    expect(page.locator("#saved")).to_have_text("saved")


def word(page: Page, line: int, field: str) -> str:
    """The field of a sentence (from 1) as a selector."""
    return f'#lines > li:nth-child({line}) [data-field="{field}"]'


def point_at(page: Page, tag: str) -> tuple[float, float]:
    """A place of the window that lies on an edge, once the page has come to rest."""
    page.locator("#proof-rows").wait_for()
    where = page.evaluate(
        """(tag) => {
          const path = document.querySelector(`.hit[data-tag="${tag}"]`);
          const at = path.getPointAtLength(path.getTotalLength() * 0.47);
          const on = at.matrixTransform(path.getScreenCTM());
          return [on.x, on.y];
        }""",
        tag,
    )
    return where[0], where[1]


def tab_to(page: Page, selector: str, most: int = 150) -> None:
    """Go to something with the Tab key and nothing else."""
    for _n in range(most):
        if page.evaluate("(s) => !!document.activeElement?.matches(s)", selector):
            return
        page.keyboard.press("Tab")
    raise AssertionError(f"{selector} is not reached with the Tab key")


def names_in(download: Download, folder: Path) -> list[str]:
    """The files of a packet that was taken."""
    path = folder / "packet.zip"
    download.save_as(path)
    with zipfile.ZipFile(path) as archive:
        assert archive.testzip() is None
        return archive.namelist()


def until(page: Page, what: str) -> None:
    """Wait until something is true on the page, without a script of the test's own in it."""
    for _n in range(800):  # as long as anything may take on a busy machine
        if page.evaluate(what):
            return
        page.wait_for_timeout(25)
    raise AssertionError(f"never came true: {what}")
