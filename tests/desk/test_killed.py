"""The desk killed outright in the middle of many commands: what was acknowledged is there."""

from __future__ import annotations

import json
import os
import random
import socket
import subprocess
import sys
import threading
import time
import urllib.error
import urllib.parse
import urllib.request
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from cutwright.desk.web.guard import House

HOUSE = House()

_SERVE = """
import sys, uvicorn
from cutwright.desk.app import make_app
from cutwright.desk.web.guard import House
uvicorn.run(make_app(sys.argv[1], House(token=sys.argv[3])), port=int(sys.argv[2]), log_level="critical")
"""


LIVES = 3
"""How often it is killed here; `make attack` does it ninety times."""


def started(book: Path, port: int) -> subprocess.Popen[bytes]:
    """A desk that answers, however long it takes to start."""
    server = subprocess.Popen([sys.executable, "-c", _SERVE, str(book), str(port), HOUSE.token])
    while server.poll() is None:
        with socket.socket() as probe:
            if probe.connect_ex(("127.0.0.1", port)) == 0:
                return server
        time.sleep(0.05)
    raise AssertionError("the desk did not start")


def post(url: str, value: Any) -> Any:
    data = json.dumps(value).encode()
    with asked(url, data, **{"content-type": "application/json"}) as answer:
        return json.load(answer)


def asked(url: str, data: bytes | None = None, **headers: str) -> Any:
    """The answer to a question by somebody who has come in."""
    told = {"cookie": "=".join(HOUSE.cookie), **headers}
    return urllib.request.urlopen(urllib.request.Request(url, data, told), timeout=60)


def begun(port: int) -> str:
    """The address of a new table with a light style on it, so that many commands take little time."""
    wish = {"body": "gallery:the-rower", "style": "gallery:circle-skirt"}
    data = urllib.parse.urlencode(wish).encode()
    with asked(f"http://127.0.0.1:{port}/new", data) as answer:
        return str(answer.geturl())


@dataclass
class Hand:
    """Changes one length again and again, and remembers what was acknowledged."""

    api: str
    chance: random.Random
    acknowledged: float = 62.0
    revision: int = 1

    def change(self) -> float:
        """One change; how long its answer took, in seconds."""
        wish = float(self.chance.randrange(40, 90))
        command = {"do": "set", "step": 0, "field": "length", "value": str(wish)}
        began = time.perf_counter()
        shown = post(f"{self.api}/command", {"base": self.revision, "command": command})
        self.acknowledged, self.revision = wish, shown["revision"]
        return time.perf_counter() - began

    def until_killed(self, server: subprocess.Popen[bytes]) -> None:
        """A few changes, then the desk is killed somewhere in the midst of the next ones."""
        took = [self.change() for _n in range(self.chance.randrange(2, 8))]
        fuse = threading.Timer(self.chance.uniform(0, 2 * took[-1]), server.kill)
        fuse.start()
        with suppress(urllib.error.URLError, OSError):
            while True:
                self.change()
        fuse.join()
        server.wait()

    def check(self) -> None:
        """What stands is what was acknowledged; the last one may have got in unheard."""
        with asked(self.api) as answer:
            stands = json.load(answer)["revision"]
        assert stands in (self.revision, self.revision + 1)
        if stands == self.revision:
            host, style = self.api.split("/api/table/")[0], self.api.split("/")[5]
            with asked(f"{host}/book/document/{style}/file") as answer:
                assert json.load(answer)["steps"][0]["length"] == self.acknowledged
        self.revision = stands


@pytest.mark.slow
@pytest.mark.skipif(os.name == "nt", reason="there is no kill -9 on this system")
def test_killed_in_the_midst_of_commands_it_keeps_what_it_acknowledged(tmp_path: Path) -> None:
    book = tmp_path / "book.sqlite"
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    server = started(book, port)
    hand = Hand(begun(port).replace("/table/", "/api/table/"), random.Random(7))
    try:
        for _life in range(LIVES):
            hand.until_killed(server)
            server = started(book, port)
            hand.check()
    finally:
        server.kill()
        server.wait()
    assert hand.revision > 2 * LIVES
