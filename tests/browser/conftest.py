"""A desk that a real browser can come to, and a watch that nothing leaves the machine."""

from __future__ import annotations

import re
import socket
import threading
import time
import urllib.request
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
import uvicorn
from playwright.sync_api import Browser, BrowserContext, Page, expect

from cutwright.desk.app import make_app
from cutwright.desk.web.guard import House

expect.set_options(timeout=20_000)  # how long what must come may take on a busy machine


HOUSE = House()
"""All desks of these tests have one token, and every browser has come in with it."""


@dataclass
class Server:
    """A desk on a free port; it can be stopped and started again on the same book and port."""

    book: Path
    port: int = 0
    running: uvicorn.Server | None = None
    thread: threading.Thread | None = None

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def start(self) -> None:
        made = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        made.bind(("127.0.0.1", self.port))
        self.port = made.getsockname()[1]
        config = uvicorn.Config(make_app(self.book, HOUSE), log_level="critical")
        self.running = uvicorn.Server(config)
        self.thread = threading.Thread(
            target=self.running.run, kwargs={"sockets": [made]}, daemon=True
        )
        self.thread.start()
        while not self.running.started:
            time.sleep(0.02)

    def stop(self) -> None:
        if self.running and self.thread:
            self.running.should_exit = True
            self.running.force_exit = True
            self.thread.join(15)

    def demo(self) -> str:
        """The address of another ready-made order."""
        request = urllib.request.Request(f"{self.url}/demo", data=b"", method="POST")
        request.add_header("cookie", "=".join(HOUSE.cookie))
        with urllib.request.urlopen(request) as answer:
            return str(answer.geturl())


@pytest.fixture(scope="session")
def browser(browser: Browser) -> Browser:
    """A browser whose windows all hold the cookie of the desk."""
    name, value = HOUSE.cookie
    bare = browser.new_context

    def new_context(**wishes: Any) -> BrowserContext:
        made = bare(**wishes)
        made.add_cookies([{"name": name, "value": value, "url": "http://127.0.0.1"}])
        return made

    vars(browser)["new_context"] = new_context
    return browser


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """One desk for all tests."""
    made = Server(tmp_path_factory.mktemp("desk") / "book.sqlite")
    made.start()
    yield made
    made.stop()


@pytest.fixture
def fresh(tmp_path: Path) -> Iterator[Server]:
    """A desk with an empty book."""
    made = Server(tmp_path / "book.sqlite")
    made.start()
    yield made
    made.stop()


@dataclass
class Watch:
    """What pages asked for and stumbled over."""

    strangers: list[str] = field(default_factory=list)
    errors: list[str] = field(default_factory=list)

    def on(self, page: Page) -> None:
        page.on("request", self._asked)
        page.on("pageerror", lambda fault: self.errors.append(str(fault)))
        page.on("console", lambda m: self._said(m.type, m.text))

    def _asked(self, request: object) -> None:
        url = str(getattr(request, "url", ""))
        if urlsplit(url).hostname not in ("127.0.0.1", None):
            self.strangers.append(url)

    def _said(self, kind: str, text: str) -> None:
        expected = re.search(r"status of (409|422)|ERR_CONNECTION_REFUSED|ERR_EMPTY", text)
        if kind == "error" and not expected:
            self.errors.append(text)


@pytest.fixture(autouse=True)
def watch(context: BrowserContext) -> Iterator[Watch]:
    """No page of any test asks another machine or throws."""
    made = Watch()
    context.on("page", made.on)
    yield made
    assert made.strangers == []
    assert made.errors == []
